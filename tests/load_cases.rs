//! Brakings that are judged, and limits that belong to one side.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::load::{LoadResult, Loads, State, Statics, brake_case, loads, rider_braking, wheel_size};
use tabwright_core::solid::Vector;
use tabwright_core::{LoadCase, Setup, TestWheel};
use tabwright_tests::{assert_near, setup_with};

fn loads_of(setup: &Setup) -> Loads {
    loads(setup).unwrap_or_else(|problems| panic!("{problems:?}"))
}

fn result(setup: &Setup, id: &str) -> LoadResult {
    let mut results = loads_of(setup).groups.into_iter().flat_map(|group| group.results);
    results.find(|result| result.id == id).unwrap_or_else(|| panic!("no {id}"))
}

/// A rider's braking as the ground sees it: x forward, z up, and the leg at its angle to it, as a head angle is quoted.
#[test]
fn the_road_pushes_a_rider_back_and_up_below_the_axle() {
    for (leg, slope) in [(38.0_f64, 0.0_f64), (65.0, -8.0), (74.0, 5.0), (101.0, 0.0)] {
        let setup = setup_with(&json!({
            "fork": {"leg_angle": leg}, "load": {"case": "rider", "slope": slope, "cog_to_front": 800, "mass": 140},
        }));
        let case = brake_case(&setup);
        let (sin, cos) = leg.to_radians().sin_cos();
        let ground = |way: Vector| [-sin * way.x - cos * way.y, -cos * way.x + sin * way.y];
        let braking = rider_braking(&setup);
        let ([along, upward], [ahead, above]) = (ground(case.force), ground(case.point));
        assert_near(along, -braking.force, 1e-9 * braking.force, "back along the road");
        assert_near(upward, braking.normal, 1e-9 * braking.normal, "up from it");
        assert_near(ahead, 0.0, 1e-9, "right below the axle");
        assert_near(above, -340.0, 1e-9, "by the wheel's radius");
        assert_near(case.torque, 340.0 * braking.force, 1e-6, "torque");
        assert_eq!((case.force.z, case.point.z, case.arm, case.brake), (0.0, 0.0, 340.0, braking.force));
    }
}

/// Where the centre of gravity is beyond the rear contact nothing rests on the front wheel, which then brakes nothing.
#[test]
fn nothing_rests_on_a_front_wheel_with_all_weight_behind_the_rear() {
    let rider = |to_front: f64, height: f64, friction: f64| {
        let load = json!({"cog_to_front": to_front, "cog_height": height, "wheelbase": 1000, "friction": friction});
        rider_braking(&setup_with(&json!({"load": load})))
    };
    let behind = rider(1200.0, 500.0, 0.6);
    assert_eq!((behind.force, behind.normal), (0.0, 0.0));
    // Half of it by moments about the rear contact, by hand: 500 / (1000 − 0.4 · 500) of the weight.
    let between = rider(500.0, 500.0, 0.4);
    assert_near(between.normal, 110.0 * 9.80665 * 500.0 / 800.0, 1e-9, "share of the front wheel");
    assert_near(between.deceleration, 0.4 * 9.80665 * 500.0 / 800.0, 1e-9, "deceleration");
}

/// The fatigue group is the standard's own test: no other case, nor a force of one's own that is none, changes it.
#[test]
fn the_fatigue_test_is_the_same_in_every_case() {
    for changes in [
        json!({}),
        json!({"tab": {"clock": 80, "build": "butt_welded"}, "load": {"scheme": "two_stage"}}),
        json!({"side": "right", "tab": {"clock": 150}, "load": {"material": "6061_t6"}}),
    ] {
        let mut setup = setup_with(&changes);
        let fatigue = |setup: &Setup| {
            let groups = loads_of(setup).groups;
            let group = groups.into_iter().find(|group| group.id == "fatigue");
            group
                .map_or(Vec::new(), |group| group.results.into_iter().map(|result| (result.id, result.value)).collect())
        };
        let expected = fatigue(&setup);
        assert!(expected.iter().any(|(id, _)| *id == "fatigue_root"));
        for (case, own_force) in
            [(LoadCase::IsoFatigue, 500.0), (LoadCase::Rider, 500.0), (LoadCase::Own, 300.0), (LoadCase::Own, 0.0)]
        {
            (setup.load.case, setup.load.own_force) = (case, own_force);
            let found = fatigue(&setup);
            assert_eq!(found.len(), expected.len(), "{case:?}");
            for ((id, value), (also, expected)) in found.iter().zip(&expected) {
                assert_eq!(id, also);
                // The weakest cut is searched for anew.
                let near = if *id == "fatigue_root" { 0.01 } else { 1e-9 };
                assert_near(value / expected, 1.0, near, &format!("{case:?} {own_force}: {id}"));
            }
        }
    }
}

/// By allowable stress the joint's range goes with the force: what the static test's 1000 N give, at the test's own forces;
/// the same category and slope as at the tube.
#[test]
fn a_joint_tires_as_its_static_stress_says() {
    let tests: [(&str, &str, &[[f64; 2]]); 2] =
        [("fillet", "iso", &[[600.0, 12_000.0]]), ("butt", "two_stage", &[[600.0, 14_400.0], [700.0, 12_000.0]])];
    for (kind, scheme, stages) in tests {
        for (material, share) in [("a36", 1.0), ("6061_t6", 1.0 / 3.0)] {
            let weld = json!({"kind": kind, "category": 50, "leg": 5});
            let load = json!({"scheme": scheme, "weld": weld, "material": material});
            let setup = setup_with(&json!({"tab": {"build": "butt_welded", "clock": 70}, "load": load}));
            let (joint, found) = (result(&setup, "joint_static"), result(&setup, "fatigue_joint"));
            let most = stages.iter().map(|stage| stage[0]).fold(0.0, f64::max);
            assert_near(found.value, joint.value * most / 1000.0, 1e-6 * joint.value, kind);
            let per_newton = joint.value / 1000.0;
            let borne = |force: f64| 2e6 * (50.0 * share / 1.35 / (per_newton * force)).powi(3);
            let damage: f64 = stages.iter().map(|[force, cycles]| cycles / borne(*force)).sum();
            assert_near(found.allowable.unwrap(), found.value / damage.cbrt(), 1e-6 * found.value, kind);
        }
    }
}

/// EN 1993-1-9 table 8.3 has 71 and 80 for butts welded from both sides: told where less is counted, and only there.
#[test]
fn a_butt_counted_low_is_told_of_its_category() {
    for (build, kind, category, told) in [
        ("butt_welded", "butt", 70.9, true),
        ("butt_welded", "butt", 71.0, false),
        ("butt_welded", "fillet", 36.0, false),
        ("one_piece", "butt", 36.0, false),
    ] {
        let weld = json!({"kind": kind, "category": category});
        let loads = loads_of(&setup_with(&json!({"tab": {"build": build}, "load": {"weld": weld}})));
        let note = &loads.groups.iter().find(|group| group.id == "fatigue").unwrap().note;
        assert_eq!(note.contains("category 71 or 80"), told, "{note}");
    }
}

/// Without friction nothing holds, and any load is too much: a share without end, told in words.
#[test]
fn without_friction_nothing_bears() {
    let setup = setup_with(&json!({"load": {"metal_friction": 0, "bolt_torque": 0}}));
    for (id, state) in [("axle_friction", State::Over), ("bolt_slip", State::Close), ("bolt_pull", State::Over)] {
        let found = result(&setup, id);
        assert_eq!((found.allowable, found.utilisation, found.state), (Some(0.0), Some(1e6), state), "{id}");
    }
    let loads = loads_of(&setup);
    let headline = loads.headline.unwrap();
    assert!(headline.starts_with("Too much: ") && headline.contains(" with nothing to bear it"), "{headline}");
    assert!(headline[10..].starts_with(|first: char| first.is_lowercase()), "{headline}");
    assert_eq!(loads.worst, Some(1e6));
}

/// What another slot would get of the axle's force: its part along the opening.
#[test]
fn other_slots_are_told_their_force() {
    for clock in [100.0, -40.0, -125.0] {
        let setup = setup_with(&json!({"tab": {"clock": clock}, "dropout": {"slot_direction": 150}}));
        let force = Statics::of(&setup, &brake_case(&setup)).axle_on_plate.force;
        for slot in loads_of(&setup).slots {
            let expected = match slot.direction {
                Some(180.0) => -force.y,
                Some(-90.0) => -force.x,
                Some(90.0) => force.x,
                Some(other) => panic!("a slot at {other}"),
                None => continue,
            };
            let outward = slot.outward.unwrap();
            assert_near(outward, expected, 1e-9 * force.length(), slot.label);
            assert_eq!(slot.seats, outward <= 0.0);
            let way = if slot.seats { "presses the axle in" } else { "pushes the axle out" };
            assert!(slot.sentence.contains(&format!("{way} with {:.0} N", outward.abs())), "{}", slot.sentence);
        }
    }
}

/// What is just as much as allowed is not too much.
#[test]
fn a_limit_is_passed_only_above_it() {
    let mut setup = Setup::default();
    let limit = result(&setup, "bolt_preload").allowable.unwrap();
    for (torque, state, verdict) in [
        (0.7 * limit, State::Holds, "Holds"),
        (0.81 * limit, State::Close, "Close to its limit"),
        (limit, State::Close, "Close to its limit"),
        (limit * (1.0 + 1e-12), State::Over, "Too much"),
    ] {
        setup.load.bolt_torque = torque;
        let found = result(&setup, "bolt_preload");
        assert_eq!((found.state, found.verdict), (state, verdict), "{torque} of {limit}");
    }
}

/// The pads sit as far inside another rotor's edge; where that is past the axle there is no such rotor.
#[test]
fn rotors_too_small_for_the_pads_are_left_out() {
    let rotors = |reach: f64| {
        let pad = json!({"height": 80, "edge_inset": 20});
        let setup = setup_with(
            &json!({"wheel": {"rotor_diameter": 320, "track_width": 50}, "caliper": {"pad": pad}, "tab": {"reach": reach}}),
        );
        loads_of(&setup).rotors.iter().map(|rotor| rotor.rotor).collect::<Vec<_>>()
    };
    // Pads at 100 mm plus the reach: 90 mm less with a rotor of 140, 80 mm less with one of 160.
    assert_eq!(rotors(0.0), [140.0, 160.0, 180.0, 203.0, 220.0]);
    assert_eq!(rotors(-9.0), [140.0, 160.0, 180.0, 203.0, 220.0]);
    assert_eq!(rotors(-10.0), [160.0, 180.0, 203.0, 220.0]);
    assert_eq!(rotors(-20.0), [180.0, 203.0, 220.0]);
}

/// Widths from 15 to 130 mm and bead seats from 150 to 700 mm, both ends included; below 28 mm a tyre is 2.5 mm higher than
/// it is wide (summary of ISO 5775-1).
#[test]
fn wheel_sizes_keep_to_what_tyres_have() {
    for (text, diameter) in
        [("15-150", 185.0), ("130-700", 960.0), ("27-622", 681.0), ("28-622", 678.0), ("100–203", 403.0)]
    {
        let size = wheel_size(text).unwrap();
        assert_eq!((size.diameter, size.radius), (diameter, diameter / 2.0), "{text}");
        let wheel = if size.bead_seat == 622.0 { TestWheel::Inch29 } else { TestWheel::ByRadius };
        assert_eq!(size.wheel, wheel, "{text}");
    }
    for text in ["14-622", "131-622", "47-149", "47-701", "047-0622"] {
        assert!(wheel_size(text).is_err(), "{text}");
    }
    // What was given is shown, but not at any length.
    let long = "4".repeat(200);
    for (text, shown) in [("no size", "no size"), (long.as_str(), &long[..40])] {
        let problems = wheel_size(text).err().unwrap();
        assert_eq!((problems[0].field.as_str(), problems[0].value.as_str()), ("wheel_size", shown));
    }
}
