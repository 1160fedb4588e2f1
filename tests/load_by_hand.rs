//! Loads worked by hand from the forces on each body: bolts, axle, fatigue and the welds' own advice, for many setups.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::fit::{CaliperFrame, radial};
use tabwright_core::load::{
    LoadResult, Loads, Push, State, Statics, THROAT, WeldRule, bolt_points, bolt_strength, brake_case, fatigue_stages,
    loads, strength,
};
use tabwright_core::solid::Vector;
use tabwright_core::{BoltClass, LoadCase, Material, MatingFace, Mount, Setup};
use tabwright_tests::setup_with;

fn setups() -> Vec<Setup> {
    [
        json!({}),
        json!({"tab": {"clock": 90, "fillet_radius": 0}}),
        json!({"side": "right", "tab": {"clock": -70, "edge": 11}, "caliper": {"mating_face": "outer"}}),
        json!({"load": {"bolt_class": "8.8", "bolt_torque": 5, "nut_torque": 20, "material": "6061_t6"}}),
        json!({"load": {"bolt_class": "12.9", "bolt_torque": 14, "metal_friction": 0.3, "scheme": "two_stage"}}),
        json!({"caliper": {"bolt": {"size": "M5"}}, "load": {"bicycle": "racing", "bolt_torque": 6}, "tab": {"clock": 150}}),
        json!({"dropout": {"closed": true, "thickness": 8}, "tab": {"offset": 3}}),
        // Bolts not side by side along the rotor: its drag turns about the line through both.
        json!({"caliper": {"holes": [[-24, 21], [27, 34]]}, "tab": {"edge": 12}}),
        json!({"dropout": {"slot_direction": 100}, "load": {"material": "4130", "nut_factor": 0.3}}),
        json!({"wheel": {"rotor_diameter": 160}, "tab": {"clock": 45}, "load": {"bicycle": "mtb", "scheme": "two_stage"}}),
    ]
    .iter()
    .map(setup_with)
    .collect()
}

fn all(setup: &Setup) -> Loads {
    loads(setup).unwrap_or_else(|problems| panic!("{problems:?}"))
}

fn find<'a>(loads: &'a Loads, id: &str) -> Option<&'a LoadResult> {
    loads.groups.iter().flat_map(|group| &group.results).find(|result| result.id == id)
}

fn assert_same(got: f64, expected: f64, what: &str) {
    assert!((got - expected).abs() <= 1e-6 * expected.abs().max(1.0), "{what}: {got}, by hand {expected}");
}

/// A result's number, limit, share and state.
fn assert_result(loads: &Loads, id: &str, value: f64, limit: f64, what: &str) {
    let result = find(loads, id).unwrap_or_else(|| panic!("{what}: no {id}"));
    assert_same(result.value, value, &format!("{what}, {id}"));
    assert_same(result.allowable.unwrap(), limit, &format!("{what}, limit of {id}"));
    let share = if value <= 0.0 {
        0.0
    } else if limit > 0.0 {
        value / limit
    } else {
        1e6
    };
    assert_same(result.utilisation.unwrap(), share, &format!("{what}, share of {id}"));
    let yields_but = id == "bolt_slip";
    let expected = match share {
        share if share > 1.0 && !yields_but => State::Over,
        share if share > 0.8 => State::Close,
        _ => State::Holds,
    };
    assert_eq!(result.state, expected, "{what}, {id}");
}

/// The way from plate to caliper along the bolts.
fn way(setup: &Setup) -> Vector {
    match (setup.caliper.mount, setup.caliper.bolt_direction, setup.caliper.mating_face) {
        (Mount::Post, Some(direction), _) => CaliperFrame::of(setup).direction(direction).normalize() * -1.0,
        (_, _, MatingFace::Inner) => Vector::Z * -1.0,
        (_, _, MatingFace::Outer) => Vector::Z,
    }
}

/// Sideways force and pull of each bolt: half the force, a couple in the face's plane, a lever across it, and what turns
/// about the bolts' own line pried over the lug's edge.
fn bolt_forces(setup: &Setup, push: &Push) -> [[f64; 2]; 2] {
    let [first, second] = bolt_points(setup);
    let axis = way(setup);
    let middle = first + (second - first) / 2.0;
    let moment = push.moment + (push.point - middle).cross(push.force);
    let span = second - first;
    let flat = span - axis * span.dot(axis);
    let line = flat.normalize();
    let aside = axis.cross(line);
    [-1.0, 1.0].map(|sign| {
        let in_plane =
            (push.force - axis * push.force.dot(axis)) / 2.0 + aside * (sign * moment.dot(axis) / flat.length());
        let pull = push.force.dot(axis) / 2.0 - sign * moment.dot(aside) / flat.length();
        let couple = aside * (moment.dot(axis) / flat.length()) - axis * (moment.dot(aside) / flat.length());
        let rest = (moment - span.cross(couple)) / 2.0;
        let about_the_line = (rest - axis * rest.dot(axis)).length();
        [in_plane.length(), pull.max(0.0) + about_the_line / setup.tab.edge]
    })
}

/// Shigley chapter 8, ISO 898-1, EN 1993-1-8 table 3.4.
#[test]
fn bolts_in_shear_and_pull_are_judged_as_by_hand() {
    for setup in setups() {
        let (found, load) = (all(&setup), &setup.load);
        let statics = Statics::of(&setup, &brake_case(&setup));
        let bolt = bolt_strength(setup.caliper.bolt.size, load.bolt_class);
        let what = format!("{:?} {:?}", setup.caliper.bolt.size, load.bolt_class);
        let forces = bolt_forces(&setup, &statics.caliper_on_plate);
        let [shear, pull] = [0, 1].map(|which| forces[0][which].max(forces[1][which]));
        let preload = load.bolt_torque * 1000.0 / (load.nut_factor * bolt.diameter);
        let share = if load.bolt_class == BoltClass::C88 { 0.6 } else { 0.5 };
        let (bears, holds) = (share * bolt.ultimate / 1.25, 0.9 * bolt.ultimate / 1.25);
        assert_result(&found, "bolt_shear", shear, bears, &what);
        assert_result(&found, "bolt_pull", pull, preload, &what);
        assert_result(&found, "bolt_proof", preload + pull, bolt.proof, &what);
        let torque = load.nut_factor * bolt.diameter * 0.75 * bolt.proof / 1000.0;
        assert_result(&found, "bolt_preload", load.bolt_torque, torque, &what);
        let combined = forces.map(|[shear, pull]| shear / bears + pull / (1.4 * holds));
        assert_result(&found, "bolt_combined", combined[0].max(combined[1]), 1.0, &what);
        let grips = forces.map(|[shear, pull]| [shear, load.metal_friction * (preload - pull).max(0.0)]);
        let [slips, other] =
            if grips[0][0] * grips[1][1] >= grips[1][0] * grips[0][1] { grips } else { [grips[1], grips[0]] };
        assert!(slips[0] * other[1] >= other[0] * slips[1], "the bolt nearer to slipping");
        assert_result(&found, "bolt_slip", slips[0], slips[1], &what);
        let slip = find(&found, "bolt_slip").unwrap();
        assert_eq!(slip.sentence.starts_with("Slips"), slips[0] > slips[1], "{}", slip.sentence);
        let strength = strength(&setup);
        let edge = setup.tab.edge;
        let alpha = (edge / (3.0 * bolt.hole)).min(bolt.ultimate / bolt.area / strength.tensile_strength).min(1.0);
        let factor = (2.8 * edge / bolt.hole - 1.7).clamp(0.0, 2.5);
        let bearing = factor * alpha * strength.tensile_strength * bolt.diameter * setup.dropout.thickness / 1.25;
        assert_result(&found, "bolt_bearing", shear, bearing, &what);
    }
}

/// Parts of the axle's force along the slot and square to it; clamp and friction by T = K d F.
#[test]
fn the_axle_is_judged_as_by_hand() {
    for setup in setups() {
        let found = all(&setup);
        let load = &setup.load;
        let statics = Statics::of(&setup, &brake_case(&setup));
        let slot = radial(setup.dropout.slot_direction);
        let clamp = load.nut_torque * 1000.0 / (load.nut_factor * setup.wheel.axle_diameter);
        assert_same(find(&found, "axle_clamp").unwrap().value, clamp, "clamp");
        let force = statics.axle_on_plate.force;
        if setup.dropout.closed {
            assert_same(find(&found, "axle_across").unwrap().value, force.length(), "closed hole");
            assert!(find(&found, "axle_retention").is_none());
            continue;
        }
        let (near, far) = (force.dot(slot), statics.axle_on_far.force.dot(slot));
        assert_result(&found, "axle_retention", near, 1150.0, "near");
        assert_result(&found, "axle_far", far, 1150.0, "far");
        assert_result(&found, "axle_friction", near.max(far), 2.0 * load.metal_friction * clamp, "friction");
        assert_same(find(&found, "axle_across").unwrap().value, (force - slot * near).length(), "across");
        for (id, along) in [("axle_retention", near), ("axle_far", far)] {
            let sentence = &find(&found, id).unwrap().sentence;
            assert_eq!(sentence.contains("out of the slot"), along > 0.0, "{sentence}");
            assert_eq!(sentence.contains("into the slot"), along <= 0.0, "{sentence}");
        }
    }
}

/// EN 1993-1-9 7.1 and Palmgren and Miner: a slope of 3, the category over 1.35, a third of it for aluminium.
#[test]
fn fatigue_is_judged_as_by_hand() {
    for setup in setups() {
        let (found, load) = (all(&setup), &setup.load);
        let stages = fatigue_stages(load.bicycle, load.scheme);
        let share = if load.material == Material::Aluminium6061 { 1.0 / 3.0 } else { 1.0 };
        let most = stages.iter().map(|stage| stage.force).fold(0.0, f64::max);
        let cycles: f64 = stages.iter().map(|stage| stage.cycles).sum();
        // The static test pulls with 1000 N on the same arm.
        let at_test = |id: &str| find(&found, id).map(|result| result.value * most / 1000.0);
        let seams = tabwright_core::load::tube_seams(&setup).unwrap();
        let case = brake_case(&setup);
        let statics = Statics::of(&setup, &case);
        let weld = WeldRule::Allowable(1.0).worst(&seams, statics.plate_on_tube).unwrap()[0] * most / 1000.0;
        assert_eq!(load.case, LoadCase::IsoStatic);
        let expected =
            [("fatigue_weld", Some(weld), load.weld.category), ("fatigue_root", at_test("root_stress"), 125.0)];
        for (id, range, category) in expected {
            let Some(range) = range else { continue };
            let result = find(&found, id).unwrap_or_else(|| panic!("no {id}"));
            let category = category * share / 1.35;
            let damage: f64 = stages
                .iter()
                .map(|stage| stage.cycles / (2e6 * (category / (range * stage.force / most)).powi(3)))
                .sum();
            // The root is searched for anew, and may be found a hair worse.
            let near = |got: f64, expected: f64, what: &str| {
                let tolerance = if id == "fatigue_root" { 0.02 } else { 1e-9 };
                assert!((got / expected - 1.0).abs() <= tolerance, "{id}, {what}: {got}, by hand {expected}");
            };
            near(result.value, range, "range");
            near(result.allowable.unwrap(), range / damage.cbrt(), "what the test asks");
            let told = result.sentence.split("about ").nth(1).and_then(|rest| rest.split(" times").next()).unwrap();
            let told: f64 = told.replace(['\u{2009}', ' ', ',', '\u{202f}'], "").parse().unwrap();
            let life = (cycles / damage).min(1e8);
            assert!((told / life - 1.0).abs() < 0.08, "{}: {life}", result.sentence);
            let digits = told / 10.0_f64.powf(told.max(10.0).log10().floor() - 1.0);
            assert!((digits - digits.round()).abs() < 1e-6, "two digits: {}", result.sentence);
        }
        let note = &found.groups.iter().find(|group| group.id == "fatigue").unwrap().note;
        assert_eq!(note.contains("Aluminium"), share < 1.0, "{note}");
        for stage in &stages {
            assert!(note.contains(&format!("{} N", stage.force)), "{note}");
        }
    }
}

/// Done as advised, the weld is just enough: by its throat, and by its lap.
#[test]
fn a_weld_as_advised_is_just_enough() {
    let mut laps = 0;
    for (clock, leg, material) in [
        (28.0, 4.0, "mild_steel"),
        (90.0, 4.0, "mild_steel"),
        (90.0, 3.0, "4130"),
        (120.0, 2.5, "a36"),
        (60.0, 2.0, "mild_steel"),
    ] {
        let setup = setup_with(&json!({"tab": {"clock": clock}, "load": {"material": material, "weld": {"leg": leg}}}));
        let found = all(&setup);
        let weld = find(&found, "weld_static").unwrap();
        let throat = find(&found, "weld_throat").unwrap();
        assert_same(throat.value, THROAT * leg * weld.utilisation.unwrap(), "throat");
        let lap = find(&found, "weld_length").unwrap();
        let least = setup.dropout.neck_width / 2.0;
        if lap.value > least + 0.1 && lap.value < 299.9 {
            let mut other = setup.clone();
            other.dropout.weld_length = lap.value;
            let share = find(&all(&other), "weld_static").unwrap().utilisation.unwrap();
            assert!((share - 1.0).abs() < 2e-3, "a lap of {}: {share}", lap.value);
            laps += 1;
        }
        assert_eq!(lap.value > setup.dropout.weld_length, weld.state == State::Over, "{}", lap.sentence);
    }
    assert!(laps >= 2, "{laps} laps");
}

/// EN 1993-1-8 table 4.1: 0.8 for S235, 0.85 for S275, 0.9 for S355, 1.0 above, by their tensile strengths.
#[test]
fn a_material_of_ones_own_has_the_correlation_of_its_strength() {
    for (tensile, correlation) in [
        (300.0, 0.8),
        (360.0, 0.8),
        (361.0, 0.85),
        (430.0, 0.85),
        (431.0, 0.9),
        (510.0, 0.9),
        (511.0, 1.0),
        (700.0, 1.0),
    ] {
        let mut setup = Setup::default();
        (setup.load.material, setup.load.yield_strength, setup.load.tensile_strength) = (Material::Own, 250.0, tensile);
        assert_eq!(strength(&setup).correlation, correlation, "{tensile} MPa");
    }
}

/// The headline names the worst three that are over, worst first, and counts the rest.
#[test]
fn the_headline_names_the_worst_and_counts_the_rest() {
    for setup in setups() {
        let found = all(&setup);
        let results = found.groups.iter().flat_map(|group| &group.results);
        let mut over: Vec<&LoadResult> = results.filter(|result| result.state == State::Over).collect();
        over.sort_by(|a, b| b.utilisation.unwrap().total_cmp(&a.utilisation.unwrap()));
        let Some(headline) = &found.headline else {
            assert!(over.is_empty());
            continue;
        };
        let mut at = 0;
        for result in over.iter().take(3) {
            let label = result.label[1..].to_owned();
            let place = headline[at..].find(&label).unwrap_or_else(|| panic!("{headline}: no {label}"));
            at += place + label.len();
            let share = result.utilisation.unwrap();
            let told =
                if share < 1e6 { format!("{share:.1} times its limit") } else { "nothing to bear it".to_owned() };
            assert!(
                headline[at..].starts_with(&format!(" at {told}"))
                    || headline[at..].starts_with(&format!(" with {told}")),
                "{headline}"
            );
        }
        let more = over.len().saturating_sub(3);
        assert_eq!(headline.contains(&format!(", and {more} more")), more > 0, "{headline}");
        assert_eq!(found.worst_id, over[0].id);
        assert_same(found.worst.unwrap(), over[0].utilisation.unwrap(), "worst");
    }
}
