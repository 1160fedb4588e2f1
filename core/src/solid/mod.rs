//! The two solids everything is made of, and the signed gap between any two of them.
//!
//! Coordinates are those of the leg frame: x = `back`, y = `up`, z = `out`, in mm.

mod flat;
mod gap;
mod hull;
mod parting;
mod shape;
mod upright;

pub use gap::{Gap, Method, NotConverged, gap};
pub(crate) use gap::{distance_apart, distance_near, separation};
pub use hull::{Edge, hull};
pub use shape::{Disc, Slab, Solid, Spool};

/// A point or direction in the leg frame: x = `back`, y = `up`, z = `out`.
pub type Vector = parry3d_f64::math::Vector;
