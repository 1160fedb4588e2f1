//! Loads: what the brake does to tab, bolts, weld and axle. Estimates for comparing designs, never an approval.

mod answer;
mod axle;
mod bolts;
mod case;
mod deflection;
mod fatigue;
mod material;
mod pads;
mod plate;
mod region;
mod root;
mod seam;
mod section;
mod statics;
mod tab;
mod weld;
mod weld_line;
mod wheel_size;

pub use answer::{Cut, ForceVector, LoadGroup, LoadResult, Loads, RotorHand, SlotChoice, State, WeldSeam};
pub use axle::{RETENTION, clamp_force, seating};
pub use bolts::{BoltStrength, PRELOAD_SHARE, bolt_loads, bolt_strength, share, stress_area};
pub use case::{
    BrakeCase, FATIGUE_FORCE, GRAVITY, Limit, RiderBraking, SECOND_STAGE_FORCE, STATIC_FORCE, Stage, arm_of, at_arm,
    brake_case, fatigue_stages, rider_braking, test_arm,
};
pub use deflection::{PadMotion, pad_motion, travel};
pub use fatigue::{cycles_at, damage};
pub use material::{Strength, strength};
pub use pads::pad_clamp;
pub use plate::{Carried, Plate};
pub use region::{Chord, Line, Outline, Region, hull_outline};
pub use root::{Weakest, weakest};
pub use seam::{THROAT, tube_seams};
pub use section::{Resultant, Section, SectionStress, rectangle_torsion, rectangle_twist_stress};
pub use statics::{Push, Statics, bolt_points, dropout_middle};
pub use weld::{WeldRule, directional_strengths, electrode_allowable, simplified_strength};
pub use weld_line::{ThroatStress, WeldGroup, WeldLine};
pub use wheel_size::{WheelSize, wheel_size};

use crate::setup::{Problem, Setup};

/// What the brake does to a setup.
///
/// # Errors
/// The problems of a setup that was changed in code to something that cannot be worked out.
pub fn loads(setup: &Setup) -> Result<Loads, Vec<Problem>> {
    setup.checked()?;
    let case = brake_case(setup);
    let statics = Statics::of(setup, &case);
    let strength = strength(setup);
    let plate = Plate::of(setup, &statics);
    let motion = pad_motion(setup, &plate, &strength);
    let found = weakest(&plate);
    let (tab, cuts) = tab::tab(setup, &found, &strength, motion);
    let groups = vec![
        pads::pads(setup, &case, &statics),
        axle::axle(setup, &statics),
        bolts::bolts(setup, &statics, &strength),
        tab,
        weld::welds(setup, &statics, &plate, &strength),
        fatigue::fatigue(setup, &strength, found[0].as_ref()),
        LoadGroup { id: "tube", label: "Tube", note: TUBE.to_owned(), results: Vec::new() },
    ];
    // What only settles is over its limit without being too much.
    let results = groups.iter().flat_map(|group| &group.results);
    let judged = results.filter(|result| result.state == State::Over || result.utilisation <= Some(1.0));
    let worst = judged.filter_map(|result| Some((result.utilisation?, result.id))).max_by(|a, b| a.0.total_cmp(&b.0));
    Ok(Loads {
        caution: answer::CAUTION.to_owned(),
        headline: answer::headline(&groups),
        worst: worst.map(|(share, _)| share),
        worst_id: worst.map_or("", |(_, id)| id),
        state: State::of(worst.map(|(share, _)| share)),
        case: case.sentence.clone(),
        groups,
        forces: statics.vectors(),
        seating: seating(setup, &case, &statics),
        rotors: pads::rotors(setup, &case),
        slots: axle::slot_choices(&statics),
        cuts,
        seams: seams(setup, &plate),
    })
}

/// The lines of weld that count, for the drawing.
fn seams(setup: &Setup, plate: &Plate) -> Vec<WeldSeam> {
    let told = |id: &'static str, group: WeldGroup| {
        group.lines.into_iter().map(move |line| WeldSeam { id, ends: [line.from.into(), line.to.into()] })
    };
    let tube = tube_seams(setup).into_iter().flat_map(|group| told("tube", group));
    let joint = weld::joint(setup, plate).into_iter();
    tube.chain(joint.flat_map(|(chord, _)| told("joint", weld::joint_fillets(setup, plate, &chord)))).collect()
}

const TUBE: &str = "How a thin tube's wall bends under the welds is not computed, and a brake can dent or crack it there first. Practice spreads the force: a lap of two to three tube diameters, a gusset or sleeve, both legs or a crown that shares the load, welds that end away from the tube's front and back. Look along the welds' ends for cracks.";
