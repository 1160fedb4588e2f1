//! Where the two holes really are: circles about the axle, the holes' spacing, and lines along the leg.

use super::as_built::built_setup;
use super::reading::{Mean, READING_SIGMAS, Reading, tube_gap};
use super::squares::{Fitted, Observed, covariance_at, least_squares, quadratic};
use crate::fit::hole_centres;
use crate::setup::Setup;

/// Scribed and clamped, a tab lies this well about the axle, ± mm along the arc: common practice, no source.
pub const ABOUT_THE_AXLE: f64 = 1.0;
const DESIGN_SIGMA: f64 = ABOUT_THE_AXLE / READING_SIGMAS;
/// Readings that leave a distance this many times less sure than one reading have not fixed it.
const MOST_UNSURE: f64 = 20.0;
/// The design counts this many times less than a reading where it only keeps the holes from turning freely.
const HARDLY: f64 = 1e4;
/// A derivative over this much either way, mm.
const DIFFERENCE: f64 = 1e-4;

/// The unknowns: back and up of hole 1, back and up of hole 2, mm.
pub type Holes4 = [f64; 4];

/// The readings that place the holes in the wheel plane.
pub(super) const IN_PLANE: [Reading; 5] =
    [Reading::Hole1, Reading::Hole2, Reading::Spacing, Reading::Neck1, Reading::Neck2];

/// What of a design the readings are taken from.
#[derive(Clone, Debug)]
pub struct HoleDesign {
    /// The designed holes.
    pub holes: Holes4,
    neck_line: f64,
    half_neck: f64,
    /// On which side of the neck's middle each hole lies.
    sides: [f64; 2],
}

impl HoleDesign {
    /// The holes and the neck of a setup.
    pub fn of(setup: &Setup) -> Self {
        let [first, second] = hole_centres(setup);
        let neck_line = setup.fork.axle_offset;
        let side = |back: f64| if back < neck_line { -1.0 } else { 1.0 };
        Self {
            holes: [first[0], first[1], second[0], second[1]],
            neck_line,
            half_neck: setup.dropout.neck_width / 2.0,
            sides: [side(first[0]), side(second[0])],
        }
    }

    /// What a reading in the wheel plane would be with the holes there; 0 for any other.
    pub fn read(&self, reading: Reading, [b1, u1, b2, u2]: &Holes4) -> f64 {
        let from_neck = |hole: usize, back: f64| self.sides[hole] * (back - self.neck_line) - self.half_neck;
        match reading {
            Reading::Hole1 => b1.hypot(*u1),
            Reading::Hole2 => b2.hypot(*u2),
            Reading::Spacing => (b1 - b2).hypot(u1 - u2),
            Reading::Neck1 => from_neck(0, *b1),
            Reading::Neck2 => from_neck(1, *b2),
            _ => 0.0,
        }
    }

    /// How far both holes together are turned about the axle from the design, mm along the arc, growing clock angles
    /// positive.
    pub fn about(&self, holes: &Holes4) -> f64 {
        let [b1, u1, b2, u2] = self.holes;
        let dot = b1 * holes[0] + u1 * holes[1] + b2 * holes[2] + u2 * holes[3];
        // Clock angles grow from up towards back.
        let cross = u1 * holes[0] - b1 * holes[1] + u2 * holes[2] - b2 * holes[3];
        let radius = ((b1 * b1 + u1 * u1 + b2 * b2 + u2 * u2) / 2.0).sqrt();
        cross.atan2(dot) * radius
    }

    /// The triangle of the three distances, on the designed side and turned as designed; the design where one is missing.
    fn start(&self, means: &[Mean]) -> Holes4 {
        let mean = |reading| means.iter().find(|mean| mean.reading == reading).map(|mean| mean.mean);
        let (Some(d1), Some(d2), Some(spacing)) = (mean(Reading::Hole1), mean(Reading::Hole2), mean(Reading::Spacing))
        else {
            return self.holes;
        };
        let cosine = (d1 * d1 + d2 * d2 - spacing * spacing) / (2.0 * d1 * d2);
        if !cosine.is_finite() {
            return self.holes;
        }
        let [b1, u1, b2, u2] = self.holes;
        let turn = cosine.clamp(-1.0, 1.0).acos() * (u1 * b2 - b1 * u2).signum();
        let first = b1.atan2(u1);
        let place = |angle: f64, distance: f64| [distance * angle.sin(), distance * angle.cos()];
        let at = |first: f64| {
            let (one, other) = (place(first, d1), place(first + turn, d2));
            [one[0], one[1], other[0], other[1]]
        };
        let radius = ((b1 * b1 + u1 * u1 + b2 * b2 + u2 * u2) / 2.0).sqrt();
        at(first - self.about(&at(first)) / radius)
    }

    /// How far the farther hole lies from the design, mm.
    pub(super) fn departure(&self, holes: &Holes4) -> f64 {
        let apart = |at: usize| (holes[at] - self.holes[at]).hypot(holes[at + 1] - self.holes[at + 1]);
        apart(0).max(apart(2))
    }
}

/// The holes as the readings have them.
#[derive(Clone, Debug)]
pub struct Located {
    /// Back and up of hole 1 and hole 2, mm.
    pub holes: Holes4,
    /// Their covariance, mm².
    pub covariance: [[f64; 4]; 4],
    /// Whether the place about the axle is taken from the design, ± [`ABOUT_THE_AXLE`], for want of readings.
    pub turned_as_designed: bool,
    /// Each reading used: observed less fitted, and that against its own standard deviation.
    pub residuals: Vec<(Reading, f64, Option<f64>)>,
}

/// The gap to the tube, if it was read: the setup whose rotor is where it was found, and the reading.
pub(super) type TubeReading<'a> = Option<(&'a Setup, &'a Mean)>;

fn used(means: &[Mean]) -> Vec<&Mean> {
    means.iter().filter(|mean| IN_PLANE.contains(&mean.reading)).collect()
}

fn observed(used: &[&Mean], design_sigma: Option<f64>, tube: TubeReading<'_>) -> Vec<Observed> {
    let mut all: Vec<Observed> = used.iter().map(|mean| Observed { value: mean.mean, sigma: mean.sigma }).collect();
    all.extend(tube.map(|(_, mean)| Observed { value: mean.mean, sigma: mean.sigma }));
    all.extend(design_sigma.map(|sigma| Observed { value: 0.0, sigma }));
    all
}

fn model(
    design: &HoleDesign,
    used: &[&Mean],
    with_design: bool,
    tube: TubeReading<'_>,
    holes: &Holes4,
) -> Option<Vec<f64>> {
    let mut all: Vec<f64> = used.iter().map(|mean| design.read(mean.reading, holes)).collect();
    if let Some((setup, _)) = tube {
        all.push(tube_gap(&built_setup(setup, holes)).ok()?);
    }
    if with_design {
        all.push(design.about(holes));
    }
    Some(all)
}

/// Standard deviation of what `figure` makes of the holes.
fn unsure(figure: impl Fn(&Holes4) -> f64, at: &Holes4, covariance: &[[f64; 4]; 4]) -> f64 {
    let slope: Holes4 = std::array::from_fn(|index| {
        let beside = |by: f64| {
            let mut other = *at;
            other[index] += by;
            figure(&other)
        };
        (beside(DIFFERENCE) - beside(-DIFFERENCE)) / (2.0 * DIFFERENCE)
    });
    quadratic(covariance, &slope).max(0.0).sqrt()
}

/// Whether the readings themselves tell where the tab lies about the axle better than the design does.
fn tell_the_turn(design: &HoleDesign, used: &[&Mean], tube: TubeReading<'_>) -> bool {
    let at = &design.holes;
    let covariance = covariance_at(at, &observed(used, None, tube), |at| model(design, used, false, tube, at));
    covariance.is_some_and(|covariance| unsure(|at| design.about(at), at, &covariance) < DESIGN_SIGMA)
}

/// Whether the readings fix the triangle of axle and holes; the design stands in for its place about the axle alone.
fn fix_the_holes(design: &HoleDesign, used: &[&Mean], accuracy: f64) -> bool {
    let at = &design.holes;
    let observed = observed(used, Some(HARDLY * accuracy), None);
    let covariance = covariance_at(at, &observed, |at| model(design, used, true, None, at));
    let sides = [Reading::Hole1, Reading::Hole2, Reading::Spacing];
    let is_fixed = |side: Reading, covariance: &[[f64; 4]; 4]| {
        unsure(|at| design.read(side, at), at, covariance) < MOST_UNSURE * accuracy
    };
    covariance.is_some_and(|covariance| sides.into_iter().all(|side| is_fixed(side, &covariance)))
}

/// The fewest further readings that would place the holes; empty where those there are suffice.
pub(super) fn missing_in_plane(design: &HoleDesign, means: &[Mean], accuracy: f64) -> Vec<Reading> {
    let used = used(means);
    fewest(&IN_PLANE, &used, accuracy, |used| fix_the_holes(design, used, accuracy))
}

/// The fewest of `all` that, added to those there are, are enough; all the rest where nothing is.
pub(super) fn fewest(
    all: &[Reading],
    used: &[&Mean],
    accuracy: f64,
    enough: impl Fn(&[&Mean]) -> bool,
) -> Vec<Reading> {
    let open: Vec<Reading> =
        all.iter().copied().filter(|reading| !used.iter().any(|mean| mean.reading == *reading)).collect();
    let mut choices: Vec<u32> = (0..1 << open.len()).collect();
    choices.sort_by_key(|choice| (choice.count_ones(), *choice));
    let chosen = |choice: u32| open.iter().enumerate().filter(move |(index, _)| choice >> index & 1 == 1);
    for choice in choices {
        let added: Vec<Mean> = chosen(choice).map(|(_, reading)| Mean::of(*reading, &[0.0], accuracy)).collect();
        let together: Vec<&Mean> = used.iter().copied().chain(&added).collect();
        if enough(&together) {
            return chosen(choice).map(|(_, reading)| *reading).collect();
        }
    }
    open
}

/// Where the holes are by weighted least squares; none where the readings do not fix them or cannot be together.
///
/// The place about the axle hangs on the readings from the neck's edge. Where they do not tell it better than
/// ± [`ABOUT_THE_AXLE`], both holes together are taken to be turned as designed, ± that.
pub fn locate(design: &HoleDesign, means: &[Mean]) -> Option<Located> {
    locate_with(design, means, None)
}

pub(super) fn locate_with(design: &HoleDesign, means: &[Mean], tube: TubeReading<'_>) -> Option<Located> {
    let used = used(means);
    let with_design = !tell_the_turn(design, &used, tube);
    let observed = observed(&used, with_design.then_some(DESIGN_SIGMA), tube);
    let fitted = least_squares(design.start(means), &observed, |at| model(design, &used, with_design, tube, at))?;
    let Fitted { at, covariance, residuals, normalised } = fitted;
    let names = used.iter().map(|mean| mean.reading).chain(tube.map(|_| Reading::Tube));
    let residuals = names.zip(residuals.into_iter().zip(normalised));
    Some(Located {
        holes: at,
        covariance,
        turned_as_designed: with_design,
        residuals: residuals.map(|(reading, (residual, normalised))| (reading, residual, normalised)).collect(),
    })
}

impl Located {
    /// ± of the place about the axle, mm along the arc.
    pub(super) fn about(&self, design: &HoleDesign) -> f64 {
        unsure(|at| design.about(at), &self.holes, &self.covariance) * READING_SIGMAS
    }
}
