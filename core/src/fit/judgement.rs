//! The verdict alone, without the words: what searches ask of thousands of setups.

use super::clearance::{Check, Pair, PairName, Verdict, binding, checks, clearances_of};
use super::lateral::{Joint, lateral, recess};
use super::parts::Parts;
use super::report::Outcome;
use crate::setup::Setup;
use crate::solid::NotConverged;

/// The verdict on a setup, and the pair that binds.
#[derive(Clone, Debug)]
pub(crate) struct Judgement {
    pub(crate) outcome: Outcome,
    pub(crate) binding: Pair,
}

impl Judgement {
    /// How far the setup is from clearing, mm; 0 where it clears.
    ///
    /// Moving any part by less than this, sideways adjustment and joint included, cannot make it clear.
    pub(crate) fn deficit(&self, setup: &Setup) -> f64 {
        let lateral = lateral(setup);
        let beyond = match recess(setup) {
            recess if recess.joint == Joint::Beyond => recess.value - setup.fork.tube_diameter,
            _ => 0.0,
        };
        let unreached = lateral.misalignment.abs() - lateral.adjust;
        (-self.binding.margin()).max(unreached).max(beyond).max(0.0)
    }
}

/// Judges a setup; none where a gap could not be found.
pub(crate) fn judge(setup: &Setup) -> Result<Judgement, NotConverged> {
    judge_by(setup, &Parts::of(setup), checks(setup))
}

/// As [`judge`]; but where the pair `suspect` does not clear, no other is looked at, be there a worse one.
pub(crate) fn judge_from(setup: &Setup, suspect: PairName) -> Result<Judgement, NotConverged> {
    let parts = Parts::of(setup);
    let of_suspect = checks(setup).into_iter().filter(|check| check.name == suspect);
    let judged = judge_by(setup, &parts, of_suspect)?;
    if judged.binding.verdict() == Verdict::Clears { judge_by(setup, &parts, checks(setup)) } else { Ok(judged) }
}

fn judge_by(setup: &Setup, parts: &Parts, checks: impl IntoIterator<Item = Check>) -> Result<Judgement, NotConverged> {
    let pairs = clearances_of(setup, parts, checks)?;
    let binding = binding(&pairs).cloned().ok_or(NotConverged)?;
    Ok(Judgement { outcome: outcome(setup, &binding), binding })
}

/// The verdict on a whole setup, whose binding pair is known.
pub(crate) fn outcome(setup: &Setup, binding: &Pair) -> Outcome {
    if is_buildable(setup) { binding.verdict().into() } else { Outcome::CannotBuild }
}

/// Whether caliper and rotor, plate and tube go together at all; no clock angle changes that.
pub(crate) fn is_buildable(setup: &Setup) -> bool {
    lateral(setup).usable && recess(setup).joint != Joint::Beyond
}
