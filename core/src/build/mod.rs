//! From numbers to steel: will the real part still line up, and is the tacked one good to weld?

mod chance;
mod classes;
mod normal;
mod reading;
mod squares;
mod stack;
mod tilt;

pub use chance::{Chance, Shape};
pub use classes::{ClassRow, iso_2768, iso_13920, iso_13920_angle, iso_13920_flatness};
pub use normal::{normal_below, normal_between};
pub use reading::{Mean, READING_SIGMAS, Reading, designed_readings, means};
pub use squares::{Fitted, Observed, least_squares};
pub use stack::{
    Classes, Contribution, STACK_SIGMAS, Simulated, Simulation, Stack, StackRanges, TabHeld, WANTED_SHARE,
    share_within, stack, sum_of,
};
pub(crate) use tilt::taper;
pub use tilt::{TiltStack, TiltWay, rub_tilt};
