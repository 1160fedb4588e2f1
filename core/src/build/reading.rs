//! What can be read on a tacked part, and several readings as one with its spread.

use crate::fit::{Holes, Parts, holes};
use crate::plain::plain;
use crate::setup::{Field, Setup};
use crate::solid::{NotConverged, gap};

/// One length that can be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reading {
    /// Axle centre to the first hole.
    Hole1,
    /// Axle centre to the second hole.
    Hole2,
    /// Hole to hole.
    Spacing,
    /// Neck's edge to the first hole, square to the leg.
    Neck1,
    /// Neck's edge to the second hole.
    Neck2,
    /// Plate's face to tab's face at the first hole, outboard positive.
    Step1,
    /// The same at the second hole.
    Step2,
    /// Rotor's outer face to the tab's inner face, halfway between the holes.
    Rotor,
    /// Tube to caliper.
    Tube,
}

plain!(Reading:
    Hole1 = "hole_1",
    Hole2 = "hole_2",
    Spacing = "spacing",
    Neck1 = "neck_1",
    Neck2 = "neck_2",
    Step1 = "step_1",
    Step2 = "step_2",
    Rotor = "rotor",
    Tube = "tube",
);

impl Reading {
    /// All of them, in form order.
    pub const ALL: [Reading; 9] = [
        Reading::Hole1,
        Reading::Hole2,
        Reading::Spacing,
        Reading::Neck1,
        Reading::Neck2,
        Reading::Step1,
        Reading::Step2,
        Reading::Rotor,
        Reading::Tube,
    ];

    /// Its place in form order.
    pub const fn place(self) -> usize {
        self as usize
    }

    /// The row of the field table on the tacked part.
    pub fn field(self) -> Option<&'static Field> {
        Setup::field(match self {
            Reading::Hole1 => "tack.before.hole_1",
            Reading::Hole2 => "tack.before.hole_2",
            Reading::Spacing => "tack.before.spacing",
            Reading::Neck1 => "tack.before.neck_1",
            Reading::Neck2 => "tack.before.neck_2",
            Reading::Step1 => "tack.before.step_1",
            Reading::Step2 => "tack.before.step_2",
            Reading::Rotor => "tack.before.rotor",
            Reading::Tube => "tack.before.tube",
        })
    }

    /// What a builder calls it.
    pub fn label(self) -> &'static str {
        self.field().map_or("", |field| field.label)
    }
}

/// ± of a reading and of every result is this many standard deviations: 19 times in 20.
pub const READING_SIGMAS: f64 = 1.959_963_984_540_054;

/// Several readings of one length as one.
#[derive(Clone, Debug, PartialEq)]
pub struct Mean {
    /// Which length.
    pub reading: Reading,
    /// The readings.
    pub given: Vec<f64>,
    /// Their mean, mm.
    pub mean: f64,
    /// Largest less smallest, mm.
    pub spread: f64,
    /// Standard deviation of the mean, mm.
    pub sigma: f64,
}

impl Mean {
    /// The mean of readings, of which there is one at least; `accuracy` is a single one's ±.
    ///
    /// Where readings lie further apart than their ± accounts for, their own standard deviation counts instead.
    pub fn of(reading: Reading, given: &[f64], accuracy: f64) -> Self {
        let count = given.len() as f64;
        let mean = given.iter().sum::<f64>() / count;
        let squares: f64 = given.iter().map(|one| (one - mean) * (one - mean)).sum();
        let own = if given.len() > 1 { (squares / (count - 1.0)).sqrt() } else { 0.0 };
        let most = given.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let least = given.iter().copied().fold(f64::INFINITY, f64::min);
        let sigma = own.max(accuracy / READING_SIGMAS) / count.sqrt();
        Self { reading, given: given.to_vec(), mean, spread: most - least, sigma }
    }
}

/// Everything that was read, in form order.
pub fn means(lists: [&[f64]; 9], accuracy: f64) -> Vec<Mean> {
    let given = Reading::ALL.into_iter().zip(lists).filter(|(_, list)| !list.is_empty());
    given.map(|(reading, list)| Mean::of(reading, list, accuracy)).collect()
}

/// What each reading would be on a part that is exactly as designed, in form order.
///
/// # Errors
/// [`NotConverged`] where the gap to the tube could not be found.
pub fn designed_readings(setup: &Setup) -> Result<[f64; 9], NotConverged> {
    let Holes { holes: [first, second], spacing } = holes(setup);
    let step = setup.tab.offset;
    Ok([
        first.distance,
        second.distance,
        spacing,
        first.from_neck_edge,
        second.from_neck_edge,
        step,
        step,
        step + setup.wheel.rotor_inset - setup.wheel.rotor_thickness / 2.0,
        tube_gap(setup)?,
    ])
}

/// The gap between caliper and tube, mm.
pub(super) fn tube_gap(setup: &Setup) -> Result<f64, NotConverged> {
    let parts = Parts::of(setup);
    parts
        .caliper
        .iter()
        .try_fold(f64::INFINITY, |least, body| Ok(gap(&body.solid, &parts.tube.solid)?.distance.min(least)))
}
