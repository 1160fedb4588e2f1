//! From readings to where everything is, or to why they do not tell.

use super::level::{Levelled, level, missing_sideways};
use super::locate::{HoleDesign, Located, locate_with, missing_in_plane};
use super::reading::{Mean, Reading};
use crate::setup::Setup;

/// A residual beyond this many of its own standard deviations is no chance: 1 in 1000, W. Baarda, 1968, from memory.
pub(super) const DISAGREES: f64 = 3.29;
/// Readings of one length further apart than this many of their ± are not of one length: with five of them, by chance
/// once in two thousand.
const REPEATS_APART: f64 = 3.0;
/// Readings that place a hole this far from the design, mm, are taken again before they are believed: no practice, a guard
/// against a wrong digit.
pub(super) const FAR: f64 = 10.0;

/// Holes, tab plane and rotor.
#[derive(Clone, Debug)]
pub(super) struct Solution {
    pub(super) located: Located,
    pub(super) levelled: Levelled,
    pub(super) design: HoleDesign,
}

/// What stands in the way.
#[derive(Clone, Debug)]
pub(super) enum Obstacle {
    /// These readings are missing.
    Missing(Vec<Reading>),
    /// The readings of one length lie too far apart.
    Repeats(Reading),
    /// Two of these are shorter than the third.
    Triangle([Reading; 3]),
    /// These do not go together; their residuals are beyond chance. Empty where no place fits at all.
    Residuals(Vec<Reading>),
}

impl Solution {
    /// Every reading used: observed less fitted, and that against its own standard deviation.
    pub(super) fn residuals(&self) -> impl Iterator<Item = &(Reading, f64, Option<f64>)> {
        self.located.residuals.iter().chain(&self.levelled.residuals)
    }

    /// How far tab or hole lies from the design at most, mm.
    pub(super) fn departure(&self, setup: &Setup) -> f64 {
        let [first, second, _] = self.levelled.at;
        let offset = setup.tab.offset;
        self.design.departure(&self.located.holes).max((first - offset).abs()).max((second - offset).abs())
    }
}

/// Places everything, or says what stands in the way: repeats first, then the triangle, then what is missing, then what
/// does not fit.
pub(super) fn solve(setup: &Setup, means: &[Mean]) -> Result<Solution, Obstacle> {
    let accuracy = setup.tack.accuracy;
    if let Some(apart) = means.iter().find(|mean| mean.spread > REPEATS_APART * accuracy) {
        return Err(Obstacle::Repeats(apart.reading));
    }
    if let Some(sides) = impossible(means) {
        return Err(Obstacle::Triangle(sides));
    }
    let design = HoleDesign::of(setup);
    let mut missing = missing_in_plane(&design, means, accuracy);
    missing.extend(missing_sideways(setup, means));
    if !missing.is_empty() {
        return Err(Obstacle::Missing(missing));
    }
    let levelled = level(setup, means).ok_or(Obstacle::Residuals(Vec::new()))?;
    disagreeing(&levelled.residuals)?;
    let mut there = setup.clone();
    there.wheel.rotor_inset = levelled.at[2];
    let tube = means.iter().find(|mean| mean.reading == Reading::Tube);
    let located =
        locate_with(&design, means, tube.map(|mean| (&there, mean))).ok_or(Obstacle::Residuals(Vec::new()))?;
    disagreeing(&located.residuals)?;
    Ok(Solution { located, levelled, design })
}

/// The three sides where two together are shorter than the third by more than their ± accounts for.
fn impossible(means: &[Mean]) -> Option<[Reading; 3]> {
    let sides = [Reading::Hole1, Reading::Hole2, Reading::Spacing];
    let found = sides.map(|side| means.iter().find(|mean| mean.reading == side));
    let [Some(one), Some(two), Some(three)] = found else { return None };
    let lengths = [one.mean, two.mean, three.mean];
    let longest = lengths.into_iter().fold(0.0, f64::max);
    let lacking = 2.0 * longest - lengths.iter().sum::<f64>();
    let sigma = [one, two, three].iter().map(|mean| mean.sigma * mean.sigma).sum::<f64>().sqrt();
    (lacking > DISAGREES * sigma).then_some(sides)
}

fn disagreeing(residuals: &[(Reading, f64, Option<f64>)]) -> Result<(), Obstacle> {
    let size = |normalised: &Option<f64>| normalised.map_or(0.0, f64::abs);
    let most = residuals.iter().map(|(_, _, normalised)| size(normalised)).fold(0.0, f64::max);
    if most <= DISAGREES {
        return Ok(());
    }
    // Those that check each other alone all disagree as much: which is wrong cannot be told from them.
    let as_much = residuals.iter().filter(|(_, _, normalised)| size(normalised) > 0.9 * most);
    Err(Obstacle::Residuals(as_much.map(|(reading, _, _)| *reading).collect()))
}
