//! What the tack check tells, as plain data.

use super::advice::Advice;
use super::check_list::CheckStep;
use super::contradiction::Contradiction;
use super::ellipse::Ellipse;
use super::limits::Limit;
use super::pull::WeldPull;
use super::reading::Reading;
use crate::fit::Verdict;
use crate::plain::plain;

/// A number with its ± (19 times in 20) and what it was meant to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Built {
    /// As built.
    pub value: f64,
    /// ± of that.
    pub uncertainty: f64,
    /// As designed.
    pub designed: f64,
}

plain!(Built { value, uncertainty, designed });

/// What a reading is called, how it is taken, and what a part exactly as designed would read.
#[derive(Clone, Debug)]
pub struct ReadingRow {
    /// Which.
    pub key: Reading,
    /// What a builder calls it.
    pub label: &'static str,
    /// How to take it.
    pub help: &'static str,
    /// On a part exactly as designed, mm.
    pub designed: f64,
}

plain!(ReadingRow { key, label, help, designed });

/// One reading that was given, against what was found.
#[derive(Clone, Debug)]
pub struct ReadingFound {
    /// Which.
    pub key: Reading,
    /// What a builder calls it.
    pub label: &'static str,
    /// As read, mm.
    pub given: Vec<f64>,
    /// Their mean.
    pub mean: f64,
    /// Largest less smallest.
    pub spread: f64,
    /// ± of the mean.
    pub uncertainty: f64,
    /// On a part exactly as designed.
    pub designed: f64,
    /// On the part as found.
    pub solved: Option<f64>,
    /// Mean less that.
    pub residual: Option<f64>,
    /// Residual against its own standard deviation; none where nothing checks it.
    pub normalised: Option<f64>,
    /// Whether it disagrees.
    pub suspect: bool,
}

plain!(ReadingFound { key, label, given, mean, spread, uncertainty, designed, solved, residual, normalised, suspect });

/// A reading to take, and why.
#[derive(Clone, Debug)]
pub struct Wanted {
    /// Which.
    pub key: Reading,
    /// What a builder calls it.
    pub label: &'static str,
    /// Why.
    pub why: &'static str,
}

plain!(Wanted { key, label, why });

/// How far the readings got.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TackState {
    /// Not enough of them.
    Incomplete,
    /// They contradict each other.
    Contradiction,
    /// They place the part.
    Solved,
}

plain!(TackState: Incomplete = "incomplete", Contradiction = "contradiction", Solved = "solved");

/// Built less designed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Off {
    /// Away from the axle, mm.
    pub radial: f64,
    /// In the way of growing clock angles, mm.
    pub tangential: f64,
    /// In all, mm.
    pub distance: f64,
}

plain!(Off { radial, tangential, distance });

/// A hole as built.
#[derive(Clone, Debug)]
pub struct BuiltHole {
    /// mm.
    pub back: f64,
    /// mm.
    pub up: f64,
    /// `[back, up]`, mm.
    pub designed: [f64; 2],
    /// Built less designed.
    pub off: Off,
    /// Of (back, up), mm².
    pub covariance: [[f64; 2]; 2],
    /// Holds the true hole 19 times in 20.
    pub ellipse: Ellipse,
}

plain!(BuiltHole { back, up, designed, off, covariance, ellipse });

/// What fixes the place about the axle.
#[derive(Clone, Debug)]
pub struct Rotation {
    /// `readings` or `design`.
    pub from: &'static str,
    /// ± along the arc, mm.
    pub about: f64,
    /// The same in words.
    pub sentence: String,
}

plain!(Rotation { from, about, sentence });

/// The pads as built.
#[derive(Clone, Debug)]
pub struct BuiltPads {
    /// Their middle, `[back, up]`, mm.
    pub centre: [f64; 2],
    /// From the axle, mm.
    pub radius: Built,
    /// Degrees.
    pub clock: Built,
    /// Caliper against the radius in the wheel plane, degrees.
    pub skew: f64,
    /// Share on the braking band.
    pub coverage: Built,
    /// Past the rotor's edge, mm.
    pub overhang: Built,
    /// Below the band, mm.
    pub below_band: Built,
    /// Along the rotor's edge and towards the axle, mm.
    pub taper: [f64; 2],
    /// The same in words.
    pub sentence: String,
}

plain!(BuiltPads { centre, radius, clock, skew, coverage, overhang, below_band, taper, sentence });

/// One pair as built.
#[derive(Clone, Debug)]
pub struct BuiltPair {
    /// Stable key.
    pub name: &'static str,
    /// In words.
    pub label: String,
    /// mm.
    pub gap: Built,
    /// The gap wanted, mm.
    pub required: f64,
    /// Gap beyond that, mm.
    pub margin: f64,
    /// The verdict on the gap as built.
    pub verdict: Verdict,
    /// Whether it is the same at both ends of the ±.
    pub sure: bool,
}

plain!(BuiltPair { name, label, gap, required, margin, verdict, sure });

/// Everything as built. Lengths mm, angles degrees.
#[derive(Clone, Debug)]
pub struct AsBuilt {
    /// The two holes.
    pub holes: [BuiltHole; 2],
    /// What fixes them about the axle.
    pub rotation: Rotation,
    /// Hole to hole.
    pub spacing: Built,
    /// Slot minus rotor, outboard positive.
    pub misalignment: Built,
    /// Tab against dropout plane halfway between the holes.
    pub offset: Built,
    /// The rotor's inset.
    pub rotor_inset: Built,
    /// Along the line of the holes, positive where hole 2 lies outboard.
    pub tilt: Built,
    /// The pads.
    pub pads: BuiltPads,
    /// Every pair.
    pub pairs: Vec<BuiltPair>,
    /// What the advice hangs on.
    pub limits: Vec<Limit>,
}

plain!(AsBuilt { holes, rotation, spacing, misalignment, offset, rotor_inset, tilt, pads, pairs, limits });

/// What the readings of one state say.
#[derive(Clone, Debug)]
pub struct Tacked {
    /// How far they got.
    pub state: TackState,
    /// Those that were given.
    pub readings: Vec<ReadingFound>,
    /// What has to be read yet, the next first.
    pub missing: Vec<Wanted>,
    /// What would make it surer.
    pub useful: Vec<Wanted>,
    /// What contradicts.
    pub contradiction: Option<Contradiction>,
    /// Where everything is.
    pub as_built: Option<AsBuilt>,
    /// What to do.
    pub advice: Advice,
}

plain!(Tacked { state, readings, missing, useful, contradiction, as_built, advice });

/// The check of a setup's readings before and after welding.
#[derive(Clone, Debug)]
pub struct TackCheck {
    /// What can be read.
    pub readings: Vec<ReadingRow>,
    /// The tacked part.
    pub before: Tacked,
    /// The welded part; none while nothing was read on it.
    pub after: Option<Tacked>,
    /// What welding did; none until both are solved.
    pub pull: Option<WeldPull>,
    /// The order of the work.
    pub check_list: Vec<CheckStep>,
    /// What to bear in mind.
    pub cautions: Vec<&'static str>,
}

plain!(TackCheck { readings, before, after, pull, check_list, cautions });
