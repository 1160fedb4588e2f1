//! What the sheet says about joining and welding.

use super::pieces::{Joining, Pieces};
use crate::fit::{Joint, recess};
use crate::plain::plain;
use crate::setup::{Material, Setup};
use crate::words::{given_length, length};

/// What to know before welding, in words.
#[derive(Clone, Debug, PartialEq)]
pub struct WeldNotes {
    /// The side of the plate that the weld to the tube is on.
    pub side: String,
    /// Lap on the tube, mm.
    pub lap: f64,
    /// Gap for the weld between tab and dropout, mm; none where there is none.
    pub gap: Option<f64>,
    /// Leg of the seam, mm.
    pub leg: f64,
    /// How plate, tab and tube come together.
    pub joints: Vec<String>,
    /// Where to tack, in order.
    pub tacks: Vec<String>,
    /// What to do, in order.
    pub checklist: Vec<String>,
    /// What can hurt.
    pub cautions: Vec<String>,
}

plain!(WeldNotes { side, lap, gap, leg, joints, tacks, checklist, cautions });

fn all(texts: &[&str]) -> Vec<String> {
    texts.iter().map(|text| (*text).to_owned()).collect()
}

/// The notes for a setup.
pub(super) fn weld_notes(setup: &Setup, cut: &Pieces) -> WeldNotes {
    let gap =
        matches!(cut.joining, Joining::Butted | Joining::Stepped | Joining::OnExisting).then_some(setup.tab.weld_gap);
    WeldNotes {
        side: side(setup),
        lap: setup.dropout.weld_length,
        gap,
        leg: setup.load.weld.leg,
        joints: joints(setup, cut),
        tacks: tacks(cut),
        checklist: all(&[
            "Cut, a little proud of the line; file or grind to it.",
            "Drill the caliper's holes from the punch marks, small drill first.",
            "Deburr every edge and hole.",
            "Clean tube and plate to bright metal where the weld goes.",
            "Tack.",
            "Mock up: wheel, rotor and caliper bolted on, wheel spun, brake pulled.",
            "Measure the tacked part and check it on the Tack page.",
            "Take the wheel, rotor, pads and caliper off before welding on.",
            "Weld in short runs, from side to side, and let it cool between them.",
            "Measure again when cold, and mock up again.",
            "Proof-test before riding; look for cracks regularly.",
        ]),
        cautions: cautions(setup),
    }
}

fn side(setup: &Setup) -> String {
    let recess = recess(setup);
    match recess.joint {
        Joint::Short => format!(
            "The outer face, the one facing the tube. It ends {} short of the tube: pack that gap before welding.",
            length(-recess.value)
        ),
        Joint::Lap => "The outer face, the one facing the tube: it lies on the tube's inner side.".to_owned(),
        Joint::LetIn | Joint::Beyond => format!(
            "Both faces: the plate is let into the tube by {}, so that its outer face lies inside the tube.",
            length(recess.value)
        ),
    }
}

fn joints(setup: &Setup, cut: &Pieces) -> Vec<String> {
    let (gap, offset) = (given_length(setup.tab.weld_gap), setup.tab.offset);
    let lap = given_length(setup.dropout.weld_length);
    let (by, way) = (length(offset.abs()), if offset > 0.0 { "outboard" } else { "inboard" });
    let tab = match cut.joining {
        Joining::OnePiece => "Dropout and tab are one piece: nothing to weld between them.".to_owned(),
        Joining::Butted => format!(
            "The tab is butted to the dropout in one plane with a gap of {gap}. Bevel both edges from both faces to about a third of the thickness, so that the weld goes through."
        ),
        Joining::OnExisting => format!(
            "The tab is butted to the edge of the plate that is there, with a gap of {gap}. Bevel the tab's edge from both faces to about a third of the thickness; grind the old edge bright. The old plate must be sound, of a metal that takes a weld, and no thinner than the tab."
        ),
        Joining::Stepped => format!(
            "The tab lies {by} {way} of the dropout, less than the plate is thick. Two pieces: the tab's edge is butted to the dropout's edge with a gap of {gap} and a step of {by}. Bevel both and fill the step on each face."
        ),
        Joining::Lapped => {
            let between = length(offset.abs() - setup.dropout.thickness);
            let area = crate::words::number((cut.lap_area / 10.0).round() / 10.0);
            if offset.abs() - setup.dropout.thickness < 0.05 {
                format!(
                    "The tab lies {by} {way} of the dropout. Two pieces: the tab lies flat on the dropout and laps it over {area} cm²; weld all round the lap."
                )
            } else {
                format!(
                    "The tab lies {by} {way} of the dropout. Two pieces with {between} between their faces: put a spacer of that thickness over the whole lap of {area} cm², and weld it all round to both."
                )
            }
        }
        Joining::Posts => "The posts are two bosses welded to the dropout: see their layout. This sheet does not say how they are braced.".to_owned(),
    };
    let mut joints = vec![tab];
    if cut.joining != Joining::OnExisting {
        joints.push(format!(
            "The neck laps on the tube over {lap}: a fillet of {} leg along both edges and round the upper end.",
            given_length(setup.load.weld.leg)
        ));
    }
    if cut.joining == Joining::Butted || cut.joining == Joining::Stepped || cut.joining == Joining::OnExisting {
        joints.push("The corner between tab and dropout has no fillet of its own: the weld makes it. Dress it smooth, without undercut.".to_owned());
    }
    joints
}

fn tacks(cut: &Pieces) -> Vec<String> {
    let tube = [
        "Clamp the dropout to the tube with the axle in both dropouts, square to the wheel plane.",
        "Tack the upper end of the lap.",
        "Tack the lower end of the lap on the opposite edge.",
        "Tack the two corners that are left.",
    ];
    let tab = [
        "Clamp the tab to the dropout with the gap set, a straightedge across both faces.",
        "Tack the joint's two ends, then its middle on the other face.",
    ];
    let posts = ["Bolt the posts to a dummy of the caliper's hole spacing.", "Tack each boss on opposite sides."];
    match cut.joining {
        Joining::OnePiece => all(&tube),
        Joining::Butted | Joining::Stepped | Joining::Lapped => all(&[&tube[..], &tab[..]].concat()),
        Joining::OnExisting => all(&tab),
        Joining::Posts => all(&[&tube[..], &posts[..]].concat()),
    }
}

fn cautions(setup: &Setup) -> Vec<String> {
    let mut cautions = all(&[
        "A brake mount that fails can injure or kill. Have brake welds done or checked by a qualified welder.",
        "Follow local rules, the makers' instructions and licensed practice first; this sheet is an estimate of geometry, not an approval.",
        "Welding fume harms: work in moving air. Zinc, chrome and cadmium plating give poisonous fume: strip it well back, or do not weld.",
        "Arc light burns eyes and skin: shade, gloves, and a screen for others.",
        "Hot work starts fires: clear the place, keep water or an extinguisher by, and look again after half an hour.",
        "Never weld near brake cleaner or other chlorinated solvent: hot vapour of it is deadly.",
        "Keep hydraulic hoses, pads and rotor away from heat, spatter and oil.",
    ]);
    match setup.load.material {
        Material::Aluminium6061 => cautions.push("Aluminium loses most of its temper beside the weld and cannot be welded to a steel tube. Heat treatment after welding is a matter for a specialist.".to_owned()),
        Material::Stainless304 => cautions.push("Fume of stainless steel carries chromium(VI): draw it off at the arc. Stainless to plain steel needs a filler made for it.".to_owned()),
        Material::CrMo4130 => cautions.push("4130 hardens where it cools fast: no quenching, no draught, and a filler chosen for it.".to_owned()),
        Material::MildSteel | Material::A36 | Material::ColdDrawn1018 | Material::HotRolled1018 | Material::Own => {}
    }
    cautions
}
