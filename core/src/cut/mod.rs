//! From numbers to steel: the outline that is cut, the holes, and the files that a shop or a machine reads.

mod library;
mod outline;
mod path;

pub use outline::{Filleted, fillets, inner_corners, plate_region};
pub use path::{Corner, Outline, Region, Segment};
