//! Searches: where the caliper may sit, how short the dropout can be, what would fix a setup that does not clear.

mod arcs;
mod compare;
mod explain;
mod fixes;
mod margin;
mod positions;
mod ring;
mod rules;
mod sensitivity;
mod shortest;
mod sweep;
mod two_rotors;
mod what_if;

pub use arcs::{Arc, Arcs};
pub use compare::{Comparison, compare};
pub use explain::{Explanation, explain};
pub use fixes::{Change, Fix, Fixes, fixes};
pub use positions::{AxlePush, Position, axle_push, positions};
pub use ring::{Ring, Stretch, Window, ring};
pub use sensitivity::{Footing, Sensitivity, sensitivity};
pub use shortest::{Place, Rules, Shortest, shortest_dropout};
pub use two_rotors::{Obstacle, SharedWindow, TwoRotors, two_rotors, with_spacer};
pub use what_if::{Cell, Fork, Standing, what_if, with_rotor_and_hub};

use crate::setup::Problem;
use crate::solid::NotConverged;

/// What a builder is told where a gap could not be found.
fn no_gap(_: NotConverged) -> Vec<Problem> {
    vec![crate::fit::no_gap()]
}
