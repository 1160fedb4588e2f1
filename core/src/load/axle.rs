//! What the brake does to the axle in its slot.

use super::answer::{Basis, LoadGroup, LoadResult, SlotChoice};
use super::case::BrakeCase;
use super::statics::{Statics, dropout_middle};
use crate::fit::{radial, rotor_plane};
use crate::search::Arc;
use crate::setup::Setup;
use crate::solid::Vector;
use crate::words::{number, rounded};

/// What a secured wheel must hold on both axle ends together, N: TBIS 15194:2019 4.3.9.4.2; EN 14766:2005 4.10.4.3.
pub const RETENTION: f64 = 2300.0;
/// Faces that a nut or skewer clamps on one side: locknut on plate, and nut on plate.
const FACES: f64 = 2.0;

/// Clamp force of a nut or bolt from its torque: F = T / (K d), torque in N·m, diameter in mm, N.
///
/// ```
/// // M10, 50 N·m, K = 0.2: 25 000 N (engitoolbox.org/calculators/bolt-torque).
/// assert!((tabwright_core::load::clamp_force(50.0, 0.2, 10.0) - 25_000.0).abs() < 1e-6);
/// ```
pub fn clamp_force(torque: f64, factor: f64, diameter: f64) -> f64 {
    torque * 1000.0 / (factor * diameter)
}

const ALONG: Basis = Basis {
    id: "axle_retention",
    label: "Axle out of the braked dropout",
    unit: "N",
    formula: "moments about the other dropout, part along the slot, against half of 2300 N",
    source: "statics; ISO 4210-2 wheel retention as in TBIS 15194:2019 4.3.9.4.2 and EN 14766:2005 4.10.4.3",
    caution: "Every stop pushes again: an axle that creeps a little each time comes out in the end. Fit a second retention.",
};
const FRICTION: Basis = Basis {
    id: "axle_friction",
    label: "Axle against the nut's friction",
    unit: "N",
    formula: "clamp force T/(K d), friction on two faces",
    source: "T = K d F as in bolt tables (engitoolbox.org/calculators/bolt-torque); friction: common practice, no source",
    caution: "K and friction vary by a third either way; paint, grease and soft lugs make it less.",
};
const FAR: Basis = Basis {
    id: "axle_far",
    label: "Axle out of the other dropout",
    caution: "Both dropouts take the same nuts: check both.",
    ..ALONG
};
const ACROSS: Basis = Basis {
    id: "axle_across",
    label: "Axle across the slot",
    unit: "N",
    formula: "moments about the other dropout, part square to the slot",
    source: "statics",
    caution: "Borne by the slot's wall: file it straight and to size.",
};
const CLAMP: Basis = Basis {
    id: "axle_clamp",
    label: "Clamp of nut or skewer",
    unit: "N",
    formula: "clamp force T/(K d)",
    source: "T = K d F as in bolt tables (engitoolbox.org/calculators/bolt-torque)",
    caution: "A worn or greased thread clamps otherwise; tighten with a torque key.",
};

/// The axle's results.
pub(super) fn axle(setup: &Setup, statics: &Statics) -> LoadGroup {
    let way = radial(setup.dropout.slot_direction);
    let [near, far] = [statics.axle_on_plate, statics.axle_on_far].map(|push| push.force.dot(way));
    let across = statics.axle_on_plate.force.dot(way.cross(Vector::Z)).abs();
    let load = &setup.load;
    let clamp = clamp_force(load.nut_torque, load.nut_factor, setup.wheel.axle_diameter);
    let friction = FACES * load.metal_friction * clamp;
    let newtons = |value: f64| rounded(value.abs(), 0);
    let mut results: Vec<LoadResult> = Vec::new();
    let way_of = |along: f64| {
        if along > 0.0 {
            format!("The brake pushes the axle out of the slot with {} N", newtons(along))
        } else {
            format!("The brake presses the axle into the slot with {} N", newtons(along))
        }
    };
    let note = if setup.dropout.closed {
        let whole = statics.axle_on_plate.force.length();
        results.push(ACROSS.told(whole, format!("The axle bears on the closed hole with {} N.", newtons(whole))));
        "A closed hole lets no axle out: what is left is the strength of the plate around it.".to_owned()
    } else {
        let half = RETENTION / 2.0;
        results.push(ALONG.against(
            near,
            half,
            way_of(near) + ", where the standard's retention test asks 1150 N at each end.",
        ));
        results.push(FRICTION.against(
            near.max(far),
            friction,
            format!("Friction of the nut alone would hold {} N at each end.", newtons(friction)),
        ));
        results.push(FAR.against(far, half, way_of(far) + " at the other leg."));
        results.push(ACROSS.told(across, format!("{} N bear on the wall of the slot.", newtons(across))));
        "The axle is taken to turn freely in both dropouts; the wheel's own weight is left out.".to_owned()
    };
    let torque = number(load.nut_torque);
    results.push(CLAMP.told(clamp, format!("{torque} N·m clamp with {} N.", newtons(clamp))));
    LoadGroup { id: "axle", label: "Axle in the dropout", note, results }
}

/// Clock angles of the caliper at which the brake does not push the axle out of the braked dropout.
///
/// Along the slot's opening at the clock angle δ the axle gets C/2 + P k sin(δ − φ): C the road's part along it, P the
/// pad force, k the share of it that the braked dropout bears. All round for a closed hole.
pub fn seating(setup: &Setup, case: &BrakeCase, statics: &Statics) -> Vec<Arc> {
    seating_of(setup, case, statics, setup.dropout.slot_direction, setup.dropout.closed)
}

fn seating_of(setup: &Setup, case: &BrakeCase, statics: &Statics, slot: f64, closed: bool) -> Vec<Arc> {
    let half = dropout_middle(setup);
    let pads = statics.pad_force * (rotor_plane(setup) + half) / (2.0 * half);
    let road = case.force.dot(radial(slot)) / 2.0;
    if closed || road + pads <= 0.0 {
        return vec![Arc { from: 180.0, width: 360.0 }];
    }
    if road - pads > 0.0 {
        return Vec::new();
    }
    // sin(slot − φ) ≤ −road / pads; pads is above 0 here.
    let limit = (-road / pads).asin().to_degrees();
    let arc = Arc { from: slot - 360.0 - limit, width: 180.0 + 2.0 * limit };
    if arc.width <= 0.0 { Vec::new() } else { crate::search::Arcs::between(arc.from, arc.from + arc.width).arcs() }
}

/// What other slots would change, with the caliper where it is.
pub(super) fn slot_choices(statics: &Statics) -> Vec<SlotChoice> {
    let open = |label: &'static str, direction: f64, remark: &str| {
        let outward = statics.axle_on_plate.force.dot(radial(direction));
        let seats = outward <= 0.0;
        let what = if seats { "presses the axle in" } else { "pushes the axle out" };
        let sentence = format!("The brake {what} with {} N. {remark}", rounded(outward.abs(), 0));
        SlotChoice { label, direction: Some(direction), outward: Some(outward), seats, sentence }
    };
    vec![
        open("Slot down", 180.0, "The usual one."),
        open("Slot forward", -90.0, "A forward slot turns the force of a caliper behind the leg onto its wall."),
        open("Slot backward", 90.0, "The road's own force helps the axle out here."),
        SlotChoice {
            label: "Closed hole",
            direction: None,
            outward: None,
            seats: true,
            sentence: "No force gets the axle out; the wheel goes in sideways on a through axle.".to_owned(),
        },
    ]
}
