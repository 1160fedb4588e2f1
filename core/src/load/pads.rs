//! Torque, pad force and the hand's share.

use super::answer::{Basis, LoadGroup, RotorHand};
use super::case::BrakeCase;
use super::statics::Statics;
use crate::fit::pad_radius;
use crate::setup::Setup;
use crate::words::{given_length, number, rounded};

/// The usual rotors, mm: bikeradar.com disc-brake-rotors guide.
const USUAL_ROTORS: [f64; 5] = [140.0, 160.0, 180.0, 203.0, 220.0];

const TORQUE: Basis = Basis {
    id: "torque",
    label: "Brake torque",
    unit: "N·m",
    formula: "force times arm",
    source: "statics; arm by TBIS 15194:2019 table 21 or the wheel's radius",
    caution: "A wheel that locks over a kerb or in a rut can bring more for a moment.",
};
const PAD: Basis = Basis {
    id: "pad_force",
    label: "Pad force along the rotor",
    unit: "N",
    formula: "torque over the pads' distance from the axle",
    source: "statics",
    caution: "This is what tab and bolts see: several times the force at the ground.",
};
const CLAMP: Basis = Basis {
    id: "pad_clamp",
    label: "Clamp force of each pad",
    unit: "N",
    formula: "T = 2 μ F r, two pads",
    source: "engineeringtoolbox.org/disk-brakes; pad friction: your own number",
    caution: "Wet or greasy pads need more, hot ones may fade: a long descent is no parking-lot test.",
};

/// Clamp force of each of two pads for a torque: F = T / (2 μ r), N·mm, mm, N.
///
/// ```
/// // T = 2 μ F r: 1000 N at μ = 0.4 and 93 mm brake with 74.4 N·m (engineeringtoolbox.org/disk-brakes).
/// assert!((tabwright_core::load::pad_clamp(74_400.0, 0.4, 93.0) - 1000.0).abs() < 1e-9);
/// ```
pub fn pad_clamp(torque: f64, friction: f64, radius: f64) -> f64 {
    torque / (2.0 * friction * radius)
}

/// The pads' results.
pub(super) fn pads(setup: &Setup, case: &BrakeCase, statics: &Statics) -> LoadGroup {
    let torque = case.torque / 1000.0;
    let clamp = pad_clamp(case.torque, setup.load.pad_friction, pad_radius(setup));
    let (pad, arm, radius) = (statics.pad_force, given_length(case.arm), given_length(pad_radius(setup)));
    let results = vec![
        TORQUE.told(torque, format!("{} N on an arm of {arm}.", rounded(case.brake, 0))),
        PAD.told(
            pad,
            format!("The pads' middle is {radius} from the axle: the caliper is dragged with {} N.", rounded(pad, 0)),
        ),
        CLAMP.told(
            clamp,
            format!(
                "With a pad friction of {} each pad presses with {} N.",
                number(setup.load.pad_friction),
                rounded(clamp, 0)
            ),
        ),
    ];
    let note = "Pads press alike from both sides and work at their middle.".to_owned();
    LoadGroup { id: "pads", label: "Torque and pads", note, results }
}

/// What other rotors would ask of the hand, the pads as far inside the edge.
pub(super) fn rotors(setup: &Setup, case: &BrakeCase) -> Vec<RotorHand> {
    let own = pad_radius(setup);
    let other = |rotor: f64| {
        let radius = own + (rotor - setup.wheel.rotor_diameter) / 2.0;
        (radius > 0.0).then(|| RotorHand { rotor, hand: own / radius, pad_force: case.torque / radius })
    };
    USUAL_ROTORS.into_iter().filter_map(other).collect()
}
