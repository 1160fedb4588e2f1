//! From numbers to steel: will the real part still line up, and is the tacked one good to weld?

mod advice;
mod as_built;
mod chance;
mod check_list;
mod classes;
mod contradiction;
mod ellipse;
mod figures;
mod fit_tab;
mod level;
mod limits;
mod locate;
mod normal;
mod pull;
mod reading;
mod remedies;
mod solution;
mod squares;
mod stack;
mod suggestions;
mod tack;
mod tack_report;
mod tilt;

pub use advice::{Advice, AdviceKind, FileAdvice, MoveAdvice, ShimAdvice};
pub use chance::{Chance, Shape};
pub use check_list::CheckStep;
pub use classes::{ClassRow, iso_2768, iso_13920, iso_13920_angle, iso_13920_flatness};
pub use contradiction::{Contradiction, Swap};
pub use ellipse::{Ellipse, ellipse};
pub use fit_tab::{FitTab, RotorOnTab, TabHoles, fit_tab};
pub use limits::{Limit, allowed_tilt, bolt_play};
pub use locate::{ABOUT_THE_AXLE, HoleDesign, Holes4, Located, locate};
pub use normal::{normal_below, normal_between};
pub use pull::{PullChange, Pulled, WeldPull};
pub use reading::{Mean, READING_SIGMAS, Reading, designed_readings, means};
pub use remedies::SHIMS;
pub use squares::{Fitted, Observed, least_squares};
pub use stack::{
    Contribution, STACK_SIGMAS, Simulated, Simulation, Stack, StackRanges, TabHeld, WANTED_SHARE, share_within, stack,
    sum_of,
};
pub use suggestions::Classes;
pub use tack::tack_check;
pub use tack_report::{
    AsBuilt, Built, BuiltHole, BuiltPads, BuiltPair, Off, ReadingFound, ReadingRow, Rotation, TackCheck, TackState,
    Tacked, Wanted,
};
pub use tilt::{TiltStack, TiltWay, rub_tilt};
