//! The caliper's bolts: how they share the load, and whether they hold it.

use super::answer::{Basis, LoadGroup, LoadResult};
use super::axle::clamp_force;
use super::material::Strength;
use super::statics::{Push, Statics, bolt_points};
use crate::fit::CaliperFrame;
use crate::setup::{BoltClass, BoltSize, MatingFace, Mount, Setup};
use crate::solid::Vector;
use crate::words::{number, rounded};

/// Share of the proof load that a bolt is tightened to: common practice in machine design (Shigley, chapter 8).
pub const PRELOAD_SHARE: f64 = 0.75;
/// Partial factor of bolted joints, EN 1993-1-8 table 2.1.
const PARTIAL: f64 = 1.25;

/// A bolt as ISO 898-1 has it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoltStrength {
    /// Thread diameter, mm.
    pub diameter: f64,
    /// Stress area, mm².
    pub area: f64,
    /// Proof load, N.
    pub proof: f64,
    /// Least breaking load, N.
    pub ultimate: f64,
    /// Clearance hole, medium, mm: ISO 273.
    pub hole: f64,
}

/// Stress area of a coarse thread, mm²: π/4 (d − 0.9382 P)², ISO 898-1.
///
/// ```
/// // M10 with a pitch of 1.5 mm: 58.0 mm² (ISO 898-1 tables).
/// assert!((tabwright_core::load::stress_area(10.0, 1.5) - 57.99).abs() < 0.01);
/// ```
pub fn stress_area(diameter: f64, pitch: f64) -> f64 {
    std::f64::consts::FRAC_PI_4 * (diameter - 0.9382 * pitch).powi(2)
}

/// What a bolt bears: ISO 898-1 tables of proof and breaking loads. The breaking load of 12.9 is its tensile strength of
/// 1220 MPa on the stress area as that table rounds it.
pub fn bolt_strength(size: BoltSize, class: BoltClass) -> BoltStrength {
    let (diameter, pitch, hole) = match size {
        BoltSize::M5 => (5.0, 0.8, 5.5),
        BoltSize::M6 => (6.0, 1.0, 6.6),
    };
    let (proof, ultimate) = match (size, class) {
        (BoltSize::M5, BoltClass::C88) => (8230.0, 11_350.0),
        (BoltSize::M5, BoltClass::C109) => (11_800.0, 14_800.0),
        (BoltSize::M5, BoltClass::C129) => (13_800.0, 17_300.0),
        (BoltSize::M6, BoltClass::C88) => (11_600.0, 16_100.0),
        (BoltSize::M6, BoltClass::C109) => (16_700.0, 20_900.0),
        (BoltSize::M6, BoltClass::C129) => (19_500.0, 24_500.0),
    };
    BoltStrength { diameter, area: stress_area(diameter, pitch), proof, ultimate, hole }
}

/// Shares a load between two bolts whose axes run along `axis`: the elastic bolt group.
///
/// In its plane each bolt bears half the force and a couple of forces bears the moment; out of it a couple along the
/// bolts bears the moment square to their line. What is left, about the bolts' own line, stays a moment on each: only
/// the lug's edge bears it, by prying. Together the shares are the load.
pub fn share(points: [Vector; 2], axis: Vector, load: Push) -> [Push; 2] {
    let middle = (points[0] + points[1]) * 0.5;
    let whole = Push::sum(&[load], middle);
    let span = points[1] - points[0];
    let in_plane = span - axis * span.dot(axis);
    let spacing = in_plane.length();
    let mut couple = Vector::ZERO;
    if spacing > 0.0 {
        let along = in_plane * (1.0 / spacing);
        let aside = axis.cross(along);
        // Forces ± f on ± span / 2 make span × f.
        couple = aside * (whole.moment.dot(axis) / spacing) - axis * (whole.moment.dot(aside) / spacing);
    }
    let rest = (whole.moment - span.cross(couple)) * 0.5;
    [(points[0], -1.0), (points[1], 1.0)].map(|(point, way)| Push {
        point,
        force: whole.force * 0.5 + couple * way,
        moment: rest,
    })
}

/// The way the caliper lies from what it is bolted to, along the bolts.
fn caliper_way(setup: &Setup) -> Vector {
    match (setup.caliper.mount, setup.caliper.bolt_direction, setup.caliper.mating_face) {
        (Mount::Post, Some(direction), _) => -CaliperFrame::of(setup).direction(direction).normalize(),
        (_, _, MatingFace::Inner) => -Vector::Z,
        (_, _, MatingFace::Outer) => Vector::Z,
    }
}

/// The load of each bolt on the tab, on the mating face.
pub fn bolt_loads(setup: &Setup, caliper_on_plate: Push) -> [Push; 2] {
    share(bolt_points(setup), caliper_way(setup), caliper_on_plate)
}

const SHEAR: Basis = Basis {
    id: "bolt_shear",
    label: "Bolt in shear",
    unit: "N",
    formula: "elastic bolt group: direct and moment; shear resistance of the thread",
    source: "Shigley chapter 8; EN 1993-1-8 table 3.4, from memory",
    caution: "Counts with the thread in the shear plane; loose bolts bear one after the other and break sooner.",
};
const PULL: Basis = Basis {
    id: "bolt_pull",
    label: "Pull on a bolt against its preload",
    unit: "N",
    formula: "lever from rotor to mating face over the bolts' spacing, prying over the lug's edge",
    source: "statics; preload T/(K d)",
    caution: "Where the pull passes the preload the joint opens and the bolt tires fast.",
};
const PRELOAD: Basis = Basis {
    id: "bolt_preload",
    label: "Tightening",
    unit: "N·m",
    formula: "T = K d F, F = 0.75 of the proof load",
    source: "Shigley chapter 8; ISO 898-1 proof loads",
    caution: "The caliper's or the thread's own figure comes first; aluminium threads bear less.",
};
const SLIP: Basis = Basis {
    id: "bolt_slip",
    label: "Slip under the bolts",
    unit: "N",
    formula: "friction of what the preload leaves",
    source: "Coulomb friction; friction of metal: common practice, no source",
    caution: "Paint under the lug makes it slip sooner; mark the bolts and look after the first stops.",
};
const PROOF: Basis = Basis {
    id: "bolt_proof",
    label: "Bolt against its proof load",
    unit: "N",
    formula: "preload and the whole pull",
    source: "ISO 898-1 proof loads",
    caution: "Takes all of the pull on the bolt: in a stiff joint it gets less.",
};
const COMBINED: Basis = Basis {
    id: "bolt_combined",
    label: "Bolt in shear and pull together",
    unit: "",
    formula: "shear share + pull share / 1.4",
    source: "EN 1993-1-8 table 3.4, from memory",
    caution: "For bolts of classes 8.8 and 10.9; 12.9 is brittle and counts as 10.9 in shear.",
};
const BEARING: Basis = Basis {
    id: "bolt_bearing",
    label: "Hole bearing on the bolt",
    unit: "N",
    formula: "k₁ α f_u d t / γ with the distance to the edge",
    source: "EN 1993-1-8 table 3.4, from memory",
    caution: "The caliper's own lug, often of aluminium, is not in it.",
};

/// The bolts' results.
pub(super) fn bolts(setup: &Setup, statics: &Statics, strength: &Strength) -> LoadGroup {
    let load = &setup.load;
    let bolt = bolt_strength(setup.caliper.bolt.size, load.bolt_class);
    let way = caliper_way(setup);
    let loads = bolt_loads(setup, statics.caliper_on_plate);
    let preload = clamp_force(load.bolt_torque, load.nut_factor, bolt.diameter);
    let newtons = |value: f64| rounded(value, 0);

    let shear = loads.map(|push| (push.force - way * push.force.dot(way)).length());
    let pry = |push: &Push| {
        let about = push.moment - way * push.moment.dot(way);
        about.length() / setup.tab.edge
    };
    let pull = loads.map(|push| push.force.dot(way).max(0.0) + pry(&push));
    let most = |values: [f64; 2]| values[0].max(values[1]);
    // The joint that is nearest to slipping.
    let grip = pull.map(|pull| load.metal_friction * (preload - pull).max(0.0));
    let slips = |index: usize| SLIP.against(shear[index], grip[index], "");
    let mut slip = slips(0);
    if slips(1).utilisation > slip.utilisation {
        slip = slips(1);
    }
    let held = newtons(slip.allowable.unwrap_or(0.0));
    if slip.utilisation > Some(1.0) {
        slip.sentence = format!(
            "Slips: friction holds {held} N of {} N. The bolts then bear on the holes' edges, so hole play counts.",
            newtons(slip.value)
        );
        slip = slip.yields_but("Slips");
    } else {
        slip.sentence = format!("Friction alone holds it: {held} N for {} N.", newtons(slip.value));
    }

    let share = if load.bolt_class == BoltClass::C88 { 0.6 } else { 0.5 };
    let shear_resistance = share * bolt.ultimate / PARTIAL;
    let pull_resistance = 0.9 * bolt.ultimate / PARTIAL;
    let advised = load.nut_factor * bolt.diameter * PRELOAD_SHARE * bolt.proof / 1000.0;
    let combined = (0..2).map(|index| shear[index] / shear_resistance + pull[index] / (1.4 * pull_resistance));
    let combined = combined.fold(0.0, f64::max);
    let shank = number(bolt.diameter);
    let class = load.bolt_class.word();
    let mut results: Vec<LoadResult> = vec![
        SHEAR.against(
            most(shear),
            shear_resistance,
            format!(
                "The harder loaded bolt bears {} N sideways; an M{shank} of {class} bears {} N.",
                newtons(most(shear)),
                newtons(shear_resistance)
            ),
        ),
        PULL.against(
            most(pull),
            preload,
            format!(
                "The rotor stands off the mating face: that pulls with {} N at a preload of {} N.",
                newtons(most(pull)),
                newtons(preload)
            ),
        ),
        PRELOAD.against(
            load.bolt_torque,
            advised,
            format!("{} N·m; 0.75 of the proof load takes {} N·m.", number(load.bolt_torque), rounded(advised, 1)),
        ),
        slip,
        PROOF.against(
            preload + most(pull),
            bolt.proof,
            format!("Preload and pull make {} N of {} N.", newtons(preload + most(pull)), newtons(bolt.proof)),
        ),
        COMBINED.against(combined, 1.0, format!("The two shares make {}.", rounded(combined, 2))),
    ];
    if setup.caliper.mount == Mount::SideLug {
        let bearing = bearing(setup, &bolt, strength);
        results.push(BEARING.against(
            most(shear),
            bearing,
            format!("The plate's hole bears {} N before it stretches.", newtons(bearing)),
        ));
    }
    let note = "The caliper is stiff and its two bolts are alike. Bolts bear forces; the moment about the line through both is left to the lug's edge, taken as far away as the tab's.".to_owned();
    LoadGroup { id: "bolts", label: "Caliper bolts", note, results }
}

/// What a hole in the plate bears, N.
fn bearing(setup: &Setup, bolt: &BoltStrength, strength: &Strength) -> f64 {
    let edge = setup.tab.edge;
    let alpha = (edge / (3.0 * bolt.hole)).min(bolt.ultimate / bolt.area / strength.tensile_strength).min(1.0);
    let k = (2.8 * edge / bolt.hole - 1.7).clamp(0.0, 2.5);
    k * alpha * strength.tensile_strength * bolt.diameter * setup.dropout.thickness / PARTIAL
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: bolts 50 mm apart, 1000 N across their line 20 mm to the side of their middle and 15 mm off the face.
    #[test]
    fn a_load_is_shared_as_by_hand() {
        let points = [Vector::new(-25.0, 0.0, 0.0), Vector::new(25.0, 0.0, 0.0)];
        let load = Push::at(Vector::new(20.0, 0.0, -15.0), Vector::Y * 1000.0);
        let [one, other] = share(points, Vector::Z, load);
        // 20 · 1000 / 50 = 400 on top of and off half the load.
        assert!((one.force - Vector::Y * 100.0).length() < 1e-9 && (other.force - Vector::Y * 900.0).length() < 1e-9);
        // The 15 000 N·mm about the bolts' own line stay.
        assert!((one.moment + other.moment - Vector::X * 15_000.0).length() < 1e-9);
        // Along their line instead, that lever pulls with 15 · 1000 / 50 = 300.
        let [one, other] = share(points, Vector::Z, Push::at(Vector::new(0.0, 0.0, -15.0), Vector::X * 1000.0));
        assert!((one.force.z.abs() - 300.0).abs() < 1e-9 && (one.force.z + other.force.z).abs() < 1e-9);
        assert!(one.moment.length() < 1e-9);
    }
}
