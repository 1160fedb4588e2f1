//! The tab's and the dropout's results: their weakest cuts, and how far the caliper moves.

use super::answer::{Basis, Cut, LoadGroup, LoadResult};
use super::deflection::PadMotion;
use super::material::Strength;
use super::plate::Plate;
use super::root::Weakest;
use crate::setup::{Mount, Setup};
use crate::words::{fine_length, length, rounded};

/// Running clearance between each pad and the rotor, mm. Common practice, no source.
const RUNNING_CLEARANCE: f64 = 0.25;

const ROOT: Basis = Basis {
    id: "root_stress",
    label: "Tab at its weakest cut",
    unit: "MPa",
    formula: "bending in the plane and of the plate, torsion, shear and pull on the worst straight cut, von Mises",
    source: "",
    caution: "Nominal: a sharp inner corner doubles it. Fillet it, and look there for cracks first.",
};
const NECK: Basis = Basis {
    id: "neck_stress",
    label: "Dropout between axle and tube",
    caution: "The axle's force alone; kerbs and holes in the road push harder than the brake.",
    ..ROOT
};
const SHIFT: Basis = Basis {
    id: "pad_shift",
    label: "Caliper moves sideways",
    unit: "mm",
    formula: "beam along the tab: bending, torsion, shear, by unit loads",
    source: "unit-load method",
    caution: "Bolts are taken as pins, which gives more; caliper, weld and tube as stiff, which gives less.",
};
const TILT: Basis = Basis {
    id: "pad_tilt",
    label: "Twist of the caliper over the pad",
    unit: "mm",
    formula: "twist of the tab times the pad's length, against the running clearance",
    source: "unit-load method; clearance of 0.25 mm: common practice, no source",
    caution: "A caliper that twists wears its pads to a wedge and can squeal or grab.",
};

/// The results and the cuts for the drawing.
pub(super) fn tab(
    setup: &Setup,
    plate: &Plate,
    found: &[Option<Weakest>; 2],
    strength: &Strength,
    motion: Option<PadMotion>,
) -> (LoadGroup, Vec<Cut>) {
    let (mut results, mut cuts): (Vec<LoadResult>, Vec<Cut>) = (Vec::new(), Vec::new());
    // A web that springs from the eye brings the caliper's load down the same neck: the first cut tells of both.
    let one_way = plate.web.is_some_and(|[_, root]| root.back == 0.0 && root.up == 0.0);
    for ((basis, id), found) in [(ROOT, "root"), (NECK, "neck")].into_iter().zip(found) {
        if let Some(found) = found
            && !(one_way && id == "neck")
        {
            let basis = Basis { source: strength.source, ..basis };
            let result = basis.against(found.stress.von_mises, strength.yield_strength, words(found, strength));
            let utilisation = result.utilisation.unwrap_or(0.0);
            cuts.push(Cut { id, label: basis.label, ends: found.chord.end_points(), utilisation });
            results.push(result);
        }
    }
    if let Some(motion) = motion {
        let to = if motion.sideways < 0.0 { "inward" } else { "outward" };
        let words = format!(
            "{} {to}, and {} along the rotor.",
            fine_length(motion.sideways.abs()),
            fine_length(motion.along.abs())
        );
        results.push(SHIFT.told(motion.sideways.abs(), words));
        let taper = setup.caliper.pad.length * motion.yaw.to_radians().tan().abs();
        let words = format!(
            "The caliper twists by {}° against the rotor, {} over the pad, and leans by {}°.",
            rounded(motion.yaw.abs(), 2),
            fine_length(taper),
            rounded(motion.roll.abs(), 2)
        );
        results.push(TILT.against(taper, RUNNING_CLEARANCE, words).yields_but("Twists"));
    }
    let mut note = match setup.caliper.mount {
        Mount::SideLug => "Every straight cut between the caliper's bolts and the welds was looked at. The clamped lug's own stiffness is left out.".to_owned(),
        Mount::Post => "Posts have no flat tab: their own strength is not computed. Only the dropout below the tube is.".to_owned(),
    };
    if setup.caliper.mount == Mount::SideLug && setup.tab.offset != 0.0 {
        note += if setup.tab.offset.abs() >= setup.dropout.thickness {
            " The tab stands off the dropout by more than a plate's thickness: what joins the two is not in these numbers."
        } else {
            " The step between tab and dropout is not in these numbers."
        };
    }
    (LoadGroup { id: "tab", label: "Tab and dropout", note, results }, cuts)
}

fn words(found: &Weakest, strength: &Strength) -> String {
    let stress = &found.stress;
    let [from, to] = found.chord.ends;
    let through = if found.chord.pieces.len() > 1 { " through a hole" } else { "" };
    format!(
        "On a cut of {}{through}: bending in the plane {}, of the plate {}, torsion {}, shear {}, pull {} MPa; together {} for a yield of {} ({}).",
        length(to - from),
        rounded(stress.in_plane, 0),
        rounded(stress.of_plate, 0),
        rounded(stress.twist, 0),
        rounded(stress.shear, 0),
        rounded(stress.direct, 0),
        rounded(stress.von_mises, 0),
        rounded(strength.yield_strength, 0),
        strength.name
    )
}
