//! Loads: what the brake does to tab, bolts, weld and axle. Estimates for comparing designs, never an approval.

mod answer;
mod axle;
mod case;
mod pads;
mod seam;
mod statics;
mod weld_line;
mod wheel_size;

pub use answer::{Cut, ForceVector, LoadGroup, LoadResult, Loads, RotorHand, SlotChoice, State, WeldSeam};
pub use axle::{RETENTION, clamp_force, seating};
pub use case::{
    BrakeCase, FATIGUE_FORCE, GRAVITY, Limit, RiderBraking, SECOND_STAGE_FORCE, STATIC_FORCE, Stage, arm_of, at_arm,
    brake_case, fatigue_stages, rider_braking, test_arm,
};
pub use pads::pad_clamp;
pub use seam::{THROAT, tube_seams};
pub use statics::{Push, Statics, bolt_points, dropout_middle};
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
    let mut groups = vec![pads::pads(setup, &case, &statics), axle::axle(setup, &statics)];
    for (id, label) in [
        ("bolts", "Caliper bolts"),
        ("tab", "Tab and dropout"),
        ("weld", "Welds"),
        ("fatigue", "Fatigue"),
        ("tube", "Tube"),
    ] {
        groups.push(LoadGroup { id, label, note: String::new(), results: Vec::new() });
    }
    let worst = groups
        .iter()
        .flat_map(|group| &group.results)
        .filter_map(|result| Some((result.utilisation?, result.id)))
        .max_by(|a, b| a.0.total_cmp(&b.0));
    let seams = tube_seams(setup).map_or(Vec::new(), |seams| seams.lines);
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
        cuts: Vec::new(),
        seams: seams.iter().map(|line| WeldSeam { id: "tube", ends: [line.from.into(), line.to.into()] }).collect(),
    })
}
