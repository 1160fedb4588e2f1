//! Sideways: where the tab's plane lies at each hole, and the rotor.

use super::locate::fewest;
use super::reading::{Mean, Reading};
use super::squares::{Observed, covariance_at, least_squares};
use super::stack::STACK_SIGMAS;
use crate::setup::Setup;

/// The unknowns: the tab's step at hole 1 and at hole 2, outboard positive, and the rotor's inset; mm.
pub(super) type Level3 = [f64; 3];

/// The readings that place tab and rotor sideways.
pub(super) const SIDEWAYS: [Reading; 3] = [Reading::Step1, Reading::Step2, Reading::Rotor];

/// Readings that leave a step less sure than this have not fixed it, mm (one standard deviation).
const MOST_UNSURE: f64 = 2.0;
/// A number of the setup is never surer than this, mm: it was measured too.
const LEAST_SIGMA: f64 = 0.01;

/// Tab and rotor as the readings have them.
#[derive(Clone, Debug)]
pub(super) struct Levelled {
    /// The steps and the inset, mm.
    pub(super) at: Level3,
    /// Their covariance, mm².
    pub(super) covariance: [[f64; 3]; 3],
    /// Each reading used: observed less fitted, and that against its own standard deviation.
    pub(super) residuals: Vec<(Reading, f64, Option<f64>)>,
}

fn used(means: &[Mean]) -> Vec<&Mean> {
    means.iter().filter(|mean| SIDEWAYS.contains(&mean.reading)).collect()
}

/// The setup's rotor inset counts as one more observation, as sure as its tolerance says.
fn observed(setup: &Setup, used: &[&Mean]) -> Vec<Observed> {
    let mut all: Vec<Observed> = used.iter().map(|mean| Observed { value: mean.mean, sigma: mean.sigma }).collect();
    let sigma = (setup.tolerance.rotor_inset / STACK_SIGMAS).max(LEAST_SIGMA);
    all.push(Observed { value: setup.wheel.rotor_inset, sigma });
    all
}

/// What a reading would be; 0 for one that is not sideways.
pub(super) fn read_sideways(setup: &Setup, reading: Reading, [first, second, inset]: &Level3) -> f64 {
    match reading {
        Reading::Step1 => *first,
        Reading::Step2 => *second,
        Reading::Rotor => (first + second) / 2.0 + inset - setup.wheel.rotor_thickness / 2.0,
        _ => 0.0,
    }
}

fn model(setup: &Setup, used: &[&Mean], at: &Level3) -> Option<Vec<f64>> {
    Some(used.iter().map(|mean| read_sideways(setup, mean.reading, at)).chain([at[2]]).collect())
}

fn designed(setup: &Setup) -> Level3 {
    [setup.tab.offset, setup.tab.offset, setup.wheel.rotor_inset]
}

/// The fewest further readings that would place the tab sideways; empty where those there are suffice.
pub(super) fn missing_sideways(setup: &Setup, means: &[Mean]) -> Vec<Reading> {
    fewest(&SIDEWAYS, &used(means), setup.tack.accuracy, |used| {
        let covariance = covariance_at(&designed(setup), &observed(setup, used), |at| model(setup, used, at));
        covariance.is_some_and(|covariance| (0..3).all(|index| covariance[index][index].sqrt() < MOST_UNSURE))
    })
}

/// Where tab and rotor are by weighted least squares; none where the readings do not fix them.
pub(super) fn level(setup: &Setup, means: &[Mean]) -> Option<Levelled> {
    let used = used(means);
    let fitted = least_squares(designed(setup), &observed(setup, &used), |at| model(setup, &used, at))?;
    let residuals = used.iter().map(|mean| mean.reading).zip(fitted.residuals.into_iter().zip(fitted.normalised));
    Some(Levelled {
        at: fitted.at,
        covariance: fitted.covariance,
        residuals: residuals.map(|(reading, (residual, normalised))| (reading, residual, normalised)).collect(),
    })
}
