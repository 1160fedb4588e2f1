//! Two setups side by side, in numbers and words.

use super::no_gap;
use crate::fit::{Outcome, hole_centres, judge, pad_radius};
use crate::plain::plain;
use crate::setup::{Problem, Setup};
use crate::solid::NotConverged;
use crate::words::{length, number, percent_change};

/// How a second setup differs from a first.
#[derive(Clone, Debug)]
pub struct Comparison {
    /// The verdicts on the two.
    pub verdicts: [Outcome; 2],
    /// Their worst margins, mm.
    pub margins: [f64; 2],
    /// Keys of the pairs that bind.
    pub bindings: [&'static str; 2],
    /// How far each of the two caliper holes moves, mm.
    pub holes_moved: [f64; 2],
    /// Distance of the pads' middle from the axle, mm.
    pub pad_radii: [f64; 2],
    /// Brake torque of the second for the same hand force, as a multiple of the first's: the pads' lever arms compared.
    pub torque_ratio: f64,
    /// The same in words.
    pub sentences: Vec<String>,
}

plain!(Comparison { verdicts, margins, bindings, holes_moved, pad_radii, torque_ratio, sentences });

/// Compares two setups that [`Setup::read`] returned.
///
/// # Errors
/// A problem without a field where a gap could not be found.
pub fn compare(first: &Setup, second: &Setup) -> Result<Comparison, Vec<Problem>> {
    differences([first, second]).map_err(no_gap)
}

fn differences(setups: [&Setup; 2]) -> Result<Comparison, NotConverged> {
    let judged = [judge(setups[0])?, judge(setups[1])?];
    let [first, second] = setups.map(hole_centres);
    let moved = |index: usize| (second[index][0] - first[index][0]).hypot(second[index][1] - first[index][1]);
    let pad_radii = setups.map(pad_radius);
    let mut comparison = Comparison {
        verdicts: [judged[0].outcome, judged[1].outcome],
        margins: [judged[0].binding.margin(), judged[1].binding.margin()],
        bindings: [judged[0].binding.name.key(), judged[1].binding.name.key()],
        holes_moved: [moved(0), moved(1)],
        pad_radii,
        torque_ratio: pad_radii[1] / pad_radii[0],
        sentences: Vec::new(),
    };
    let names = names(setups);
    for (judgement, name) in judged.iter().zip(&names) {
        let (binding, word) = (&judgement.binding, judgement.outcome.word().to_ascii_lowercase());
        let (label, gap, wanted) = (binding.name.label(), length(binding.gap), length(binding.required));
        comparison
            .sentences
            .push(format!("{name}: {word}. Closest to its limit is {label}: {gap} for {wanted} wanted."));
    }
    let [one, other] = comparison.holes_moved;
    comparison.sentences.push(if one.max(other) < 0.05 {
        "The caliper holes stay where they are.".to_owned()
    } else if (one - other).abs() < 0.05 {
        format!("Both caliper holes move by {}.", length(one))
    } else {
        format!("The caliper holes move by {} and {}.", length(one), length(other))
    });
    comparison.sentences.push(format!(
        "The {}: for the same hand force {} brakes {}.",
        lever_arms(pad_radii),
        names[1],
        percent_change(comparison.torque_ratio),
    ));
    Ok(comparison)
}

/// How far the pads' middle is from the axle, before and after.
pub(super) fn lever_arms([before, after]: [f64; 2]) -> String {
    format!("pads' middle is {} from the axle instead of {}", length(after), length(before))
}

/// What to call each: by its rotor where those differ, else by its hub, else by its place.
pub(super) fn names(setups: [&Setup; 2]) -> [String; 2] {
    let by = |what: &str, values: [f64; 2]| values.map(|value| format!("{what} {}", number(value)));
    let rotors = setups.map(|setup| setup.wheel.rotor_diameter);
    let hubs = setups.map(|setup| setup.wheel.hub_width);
    if rotors[0] != rotors[1] {
        by("rotor", rotors)
    } else if hubs[0] != hubs[1] {
        by("hub", hubs)
    } else {
        ["the first".to_owned(), "the second".to_owned()]
    }
}
