//! Loads: what the brake does to tab, bolts, weld and axle.
//!
//! All of it is an estimate for comparing designs and never an approval: see [`Loads::caution`]. Forces in N, moments in
//! N·mm (torques that a builder reads in N·m), stresses in MPa, points in the leg frame.
//!
//! # One stop by hand
//! The default setup with the caliper straight behind the axle (clock angle 90) and its inner corners left sharp (fillet
//! radius 0), in the standard's static test. Any pocket calculator follows it; the code below asks [`loads`] for the same
//! figures.
//!
//! 1. **Torque.** 1000 N on an arm of 340 mm, the tyre's radius: 1000 · 340 = 340 000 N·mm = 340 N·m.
//! 2. **Pads.** Their middle is 203/2 − 0.5 − 16/2 = 93 mm from the axle: P = 340 000 / 93 = 3656 N along the rotor. The
//!    rotor drags the caliper up, so the pads push the wheel down. With a pad friction of 0.4 each pad presses with
//!    340 000 / (2 · 0.4 · 93) = 4570 N.
//! 3. **Axle.** The dropouts' middles are 100/2 + 6/2 = 53 mm to either side, the rotor 50 − 15 = 35 mm to the braked side.
//!    Moments about the far dropout: the braked one gets 3656 · (35 + 53) / 106 = 3035 N down, which with a slot that opens
//!    down is out of the slot. The standard's retention test asks 2300 / 2 = 1150 N at each end: 3035 / 1150 = 2.64.
//! 4. **Bolts.** They are 51 mm apart, 26 mm further out than the pads. Each bears 3656 / 2 = 1828 N upward, and from the
//!    moment 3656 · 26 / 51 = 1864 N square to that: √(1828² + 1864²) = 2611 N. The mating face is 15 mm from the rotor:
//!    one is pulled with 3656 · 15 / 51 = 1075 N. 8 N·m on M6 clamp with 8000 / (0.2 · 6) = 6667 N, of which friction of
//!    0.15 holds 0.15 · (6667 − 1075) = 839 N: they slip and bear on their holes.
//! 5. **Neck.** Here the caliper's load too goes up the neck. On a cut across it at the tube's end, 26 by 6 mm, 20 mm above
//!    the axle: in the plane 3656 · 93 + 500 · 20 = 350 000 N·mm, the 500 N being the road's half; out of it, with the rotor
//!    53 − 35 = 18 mm inboard of the plate's middle, 3656 · 18 = 65 800 N·mm; up 3656 − 3035 = 621 N. At a corner
//!    6 · 350 000 / (6 · 26²) + 6 · 65 800 / (26 · 6²) + 621 / 156 = 518 + 422 + 4 = 944 MPa, four times what mild steel
//!    bears. The search finds a cut from the slot to the eye's corner that is worse yet.
//! 6. **Weld.** A leg of 4 mm has a throat of 0.707 · 4 = 2.828 mm. The two lines lie √(4 · (31.75 − 4)) = 10.54 mm beside
//!    the tube's middle and run from 20 to 94.6 mm above the axle, 74.6 mm long, their middle 57.3 mm above the axle and
//!    56 mm out: A = 2 · 74.6 · 2.828 = 422 mm², J = 2.828 · (2 · 74.6³ / 12 + 149.2 · 10.54²) = 242 600 mm⁴, and lengthwise
//!    I = 2.828 · 2 · 74.6³ / 12 = 195 700 mm⁴.
//!    - Forces together: 500 N back, 3656 − 3035 = 621 N up.
//!    - Twist in the plane: 3656 · 93 + 500 · 57.3 = 368 700 N·mm. Out of it, the rotor 21 mm and the dropout's middle 3 mm
//!      inboard: 3656 · 21 − 3035 · 3 = 67 700 N·mm.
//!    - At the end, 37.3 mm from the middle: back 500 / 422 + 368 700 · 37.3 / 242 600 = 57.9, up 621 / 422 + 368 700 ·
//!      10.54 / 242 600 = 17.5, out 67 700 · 37.3 / 195 700 = 12.9, together √(57.9² + 17.5² + 12.9²) = 61.9 MPa, where E70
//!      allows 0.30 · 482.6 = 144.8 MPa: 0.43.
//! 7. **Fatigue.** At 600 N the weld's range is 0.6 · 61.9 = 37.1 MPa. Category 36 over 1.35 is 26.7 MPa, borne
//!    2 000 000 · (26.7 / 37.1)³ = 740 000 times; the test asks 12 000.
//!
//! ```
//! use tabwright_core::{Setup, load::loads};
//! let mut setup = Setup::default();
//! setup.tab.clock = 90.0;
//! setup.tab.fillet_radius = 0.0;
//! let loads = loads(&setup).unwrap();
//! let result = |id: &str| loads.groups.iter().flat_map(|group| &group.results).find(|result| result.id == id).unwrap();
//! let near = |id: &str, by_hand: f64| {
//!     let value = result(id).value;
//!     assert!((value - by_hand).abs() < 0.005 * by_hand, "{id}: {value}, by hand {by_hand}");
//! };
//! near("torque", 340.0);
//! near("pad_force", 3656.0);
//! near("pad_clamp", 4570.0);
//! near("axle_retention", 3035.0);
//! assert!((result("axle_retention").utilisation.unwrap() - 2.64).abs() < 0.005);
//! near("bolt_shear", 2611.0);
//! near("bolt_pull", 1075.0);
//! assert!((result("bolt_slip").allowable.unwrap() - 839.0).abs() < 1.0);
//! near("weld_static", 61.9);
//! assert!((result("weld_static").utilisation.unwrap() - 0.43).abs() < 0.005);
//! near("fatigue_weld", 37.1);
//! let life = tabwright_core::load::cycles_at(result("fatigue_weld").value, 36.0 / 1.35);
//! assert!((life - 740_000.0).abs() < 10_000.0, "{life}");
//!
//! // Step 5: the cut across the neck, and the worse one that is found.
//! use tabwright_core::load::{Line, Plate, Statics, brake_case};
//! let plate = Plate::of(&setup, &Statics::of(&setup, &brake_case(&setup)));
//! let just_below = [0.0, 19.999];
//! let chord = plate.chord_about(&Line::new(just_below, 0.0), just_below).unwrap();
//! let parted = plate.parted_by(&chord);
//! let stress = plate.section(&chord, &parted).stress(&plate.pushes(&parted)).von_mises;
//! assert!((stress - 944.0).abs() < 3.0, "{stress}");
//! assert!(result("root_stress").value > 944.0);
//! assert!(loads.headline.unwrap().starts_with("Too much: tab at its weakest cut"));
//! ```
//!
//! # What is taken as what
//! - Braking forward turns the rotor towards smaller clock angles; the pads push the wheel along cos φ · back − sin φ · up.
//! - The wheel hangs in two dropouts that bear forces in the wheel plane and no moments.
//! - Caliper and tube are stiff; bolts are pins; the plate is a beam along its way from bolts to welds, its weakest
//!   straight cut searched for over all that part the load from the tube ([`weakest`]).
//! - Welds are elastic lines between stiff parts ([`WeldGroup`]).
//! - Not in it: how the tube's wall bends, notches, heat beyond what the materials' table says, the wheel's own weight,
//!   blows from the road.

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
    let (tab, cuts) = tab::tab(setup, &plate, &found, &strength, motion);
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
