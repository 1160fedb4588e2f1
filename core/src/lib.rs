//! Tabwright's core: will a disc brake fit on a fork that was never made for one?
//!
//! All maths, no browser, no input or output. A [`Setup`] goes in, a [`Report`] or a drawing comes out.
//!
//! # Units and frames
//! Lengths in mm, angles in degrees, masses in kg. Words alone can be in inches: [`speak_in`].
//!
//! The **leg frame** has its origin at the axle's centre on the wheel's mid-plane: `up` runs along the fork leg towards
//! the crown, `back` is square to it in the wheel plane and points rearward, `out` points sideways from the mid-plane
//! towards the braked side. It serves left- and right-hand brakes alike; only handed things look at the side.
//!
//! A **clock angle** φ is the angle of a point about the axle from `up` turning towards `back`, in (−180, 180]: 45 is
//! behind and above the axle, −60 ahead and above.
//!
//! The **caliper frame** has its origin at the pads' middle on the rotor's mid-plane: `cw` is clockwise as seen on the
//! caliper's outboard face, `rad` points away from the axle, `out` outboard. On the left side `cw` is the way of
//! growing φ, on the right that of falling φ; a caliper is handed and is never mirrored.
//!
//! # Catalogue
//! - What goes in: [`Setup`], its field table [`describe_fields`], its strict reader [`Setup::read`], the shape of its
//!   file [`setup_schema`].
//! - One setup: [`report`]; its pieces in [`fit`].
//! - Many setups: [`search::ring`], [`search::shortest_dropout`], [`search::what_if`], [`search::two_rotors`],
//!   [`search::fixes`], [`search::positions`]; two of them: [`search::compare`]; in a message: [`search::explain`].
//! - What the brake does to tab, bolts, weld and axle: [`load::loads`].
//! - On the bench: [`build::stack`], [`build::tack_check`], [`build::fit_tab`].
//! - Pictures: [`drawing::draw`], [`drawing::draw_ring`], [`drawing::draw_stack`], [`drawing::draw_tack`].
//! - Solids and gaps by themselves: [`solid`].

pub mod build;
pub mod cut;
pub mod drawing;
pub mod fit;
pub mod load;
pub mod plain;
pub mod search;
mod setup;
pub mod solid;
pub mod tolerance;
mod turn;
mod words;

pub use fit::{Outcome, PairReport, Report, Verdict, report};
pub use setup::*;
pub use words::{Lengths, speak_in};
