//! What the answer about loads says in words: the numbers beside it, rounded, and notes where they belong.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::{Value, json};
use tabwright_core::load::{
    GRAVITY, LoadResult, Loads, Plate, Statics, THROAT, brake_case, loads, pad_motion, rider_braking, strength,
    tube_seams,
};
use tabwright_core::{Setup, fit};
use tabwright_tests::setup_with;

fn all(setup: &Setup) -> Loads {
    loads(setup).unwrap_or_else(|problems| panic!("{problems:?}"))
}

fn find<'a>(loads: &'a Loads, id: &str) -> &'a LoadResult {
    let mut results = loads.groups.iter().flat_map(|group| &group.results);
    results.find(|result| result.id == id).unwrap_or_else(|| panic!("no {id}"))
}

fn has(loads: &Loads, id: &str) -> bool {
    loads.groups.iter().flat_map(|group| &group.results).any(|result| result.id == id)
}

fn note<'a>(loads: &'a Loads, id: &str) -> &'a str {
    &loads.groups.iter().find(|group| group.id == id).unwrap_or_else(|| panic!("no group {id}")).note
}

/// The numbers in a sentence, by what stands before and after them.
fn numbers(text: &str) -> Vec<f64> {
    let digit = |char: char| char.is_ascii_digit() || char == '.';
    let words = text.split(|char: char| !digit(char)).map(|word| word.trim_end_matches('.'));
    words.filter_map(|word| word.parse().ok()).collect()
}

fn assert_numbers(text: &str, expected: &[(f64, f64)]) {
    let told = numbers(text);
    assert_eq!(told.len(), expected.len(), "{text}: {told:?}");
    for (told, (value, step)) in told.iter().zip(expected) {
        assert!((told - value).abs() <= 0.5001 * step, "{text}: {told} for {value}");
    }
}

fn setups() -> Vec<Setup> {
    [
        json!({"tab": {"build": "butt_welded"}}),
        json!({"tab": {"build": "butt_welded", "clock": 95, "edge": 12}, "load": {"weld": {"kind": "butt", "leg": 3, "electrode": "e60"}}}),
        json!({"tab": {"build": "butt_welded", "clock": 62}, "load": {"material": "4130", "weld": {"method": "ec3_directional", "leg": 7}}}),
        json!({"side": "right", "tab": {"build": "butt_welded", "clock": -80}, "load": {"material": "6061_t6", "weld": {"leg": 5}}}),
        json!({"dropout": {"thickness": 9.5}, "fork": {"tube_wall": 4}, "tab": {"build": "butt_welded", "clock": 150}, "load": {"weld": {"method": "ec3_simplified", "kind": "butt", "leg": 8}}}),
    ]
    .iter()
    .map(setup_with)
    .collect()
}

#[test]
fn welds_say_their_numbers() {
    for setup in setups() {
        let (found, leg) = (all(&setup), setup.load.weld.leg);
        let (weld, metal) = (find(&found, "weld_static"), find(&found, "weld_metal"));
        let limits = [weld, metal].map(|result| result.allowable.unwrap());
        assert_numbers(&weld.sentence, &[(weld.value, 1.0), (THROAT * leg, 0.1), (limits[0], 1.0)]);
        let thinnest = leg.min(setup.dropout.thickness).min(setup.fork.tube_wall);
        assert_numbers(&metal.sentence, &[(metal.value, 1.0), (thinnest, 0.1), (limits[1], 1.0)]);
        // Shigley table 9-4: 0.40 of the yield beside a fillet.
        assert!((limits[1] - 0.4 * strength(&setup).yield_strength).abs() < 1e-9);
        let throat = find(&found, "weld_throat");
        assert_numbers(&throat.sentence, &[(throat.value, 0.1), (throat.value / THROAT, 0.1)]);
        let lap = find(&found, "weld_length");
        if lap.value < 300.0 {
            assert_numbers(&lap.sentence, &[(lap.value, 0.1), (leg, 1e-9)]);
        } else {
            assert!(lap.sentence.contains("No lap up to 300 mm"), "{}", lap.sentence);
        }
        let joint = find(&found, "joint_static");
        let ends: Vec<[[f64; 3]; 2]> =
            found.seams.iter().filter(|seam| seam.id == "joint").map(|seam| seam.ends).collect();
        let long = (ends[0][1][0] - ends[0][0][0]).hypot(ends[0][1][1] - ends[0][0][1]);
        assert_numbers(&joint.sentence, &[(joint.value, 1.0), (long, 0.1), (joint.allowable.unwrap(), 1.0)]);
    }
}

/// Each rule names its own source, whatever the parts; aluminium's stands above the rule chosen.
#[test]
fn results_name_the_source_of_their_rule() {
    for (method, material, names) in [
        ("asd", "a36", "table 9-6"),
        ("ec3_simplified", "a36", "4.5.3.3"),
        ("ec3_directional", "a36", "4.5.3.2"),
        ("asd", "6061_t6", "EN 1999-1-1 table 8.8"),
        ("ec3_directional", "6061_t6", "EN 1999-1-1 table 8.8"),
    ] {
        for kind in ["fillet", "butt"] {
            let weld = json!({"kind": kind, "method": method});
            let load = json!({"material": material, "weld": weld});
            let found = all(&setup_with(&json!({"tab": {"build": "butt_welded"}, "load": load})));
            let (tube, joint) = (find(&found, "weld_static"), find(&found, "joint_static"));
            assert!(tube.source.contains(names), "{names}: {}", tube.source);
            assert_eq!(joint.source.contains(names), kind == "fillet", "{kind}: {}", joint.source);
            assert_eq!(joint.formula.contains("two fillets"), kind == "fillet", "{kind}: {}", joint.formula);
            assert_eq!(joint.formula.contains("section of the plate"), kind == "butt", "{kind}: {}", joint.formula);
        }
    }
    let root = find(&all(&Setup::default()), "root_stress").source;
    assert_eq!(root, strength(&Setup::default()).source);
}

/// A plate that ends short of the tube, or meets it along a hair's breadth, has nothing to be welded along.
#[test]
fn where_nothing_can_be_welded_that_is_said() {
    let at = |changes: Value| {
        let setup = setup_with(&changes);
        (all(&setup), setup)
    };
    let (short, _) = at(json!({"fork": {"tube_gap": 116}}));
    assert!(note(&short, "weld").contains("does not reach the tube"), "{}", note(&short, "weld"));
    let (meets, _) = at(json!({}));
    assert!(!note(&meets, "weld").contains("does not reach"), "{}", note(&meets, "weld"));
    // Let in by 0.004 mm the tube's wall comes through the face 0.36 mm from its middle: both lines would be one.
    let (hair, setup) = at(json!({"fork": {"tube_gap": 111.992}}));
    assert!(tube_seams(&setup).is_none());
    assert!(note(&hair, "weld").contains("nothing to count") && !has(&hair, "weld_static"));
    assert!(!has(&hair, "fatigue_weld") && has(&hair, "fatigue_root"));
    // EN 1993-1-8 4.5.1: of lines shorter than two throats nothing is left; by allowable stress they count.
    for (method, counts) in [("asd", true), ("ec3_simplified", false), ("ec3_directional", false)] {
        let load = json!({"weld": {"method": method, "leg": 20}, "material": "a36"});
        let (found, setup) = at(json!({"dropout": {"weld_length": 32}, "load": load}));
        let lines = tube_seams(&setup).unwrap().lines;
        assert!(lines.iter().all(|line| line.length() < 2.0 * THROAT * 20.0));
        assert_eq!(has(&found, "weld_static"), counts, "{method}");
    }
}

#[test]
fn tab_and_dropout_say_their_numbers() {
    for setup in setups() {
        let found = all(&setup);
        let plate = Plate::of(&setup, &Statics::of(&setup, &brake_case(&setup)));
        let strength = strength(&setup);
        let weakest = tabwright_core::load::weakest(&plate);
        for (cut, id) in weakest.iter().zip(["root_stress", "neck_stress"]) {
            let Some(cut) = cut.as_ref().filter(|_| has(&found, id)) else { continue };
            let result = find(&found, id);
            let stress = &cut.stress;
            let (told, _) = result.sentence.split_once(" (").unwrap();
            let long = cut.chord.ends[1] - cut.chord.ends[0];
            assert_numbers(
                told,
                &[
                    (long, 0.1),
                    (stress.in_plane, 1.0),
                    (stress.of_plate, 1.0),
                    (stress.twist, 1.0),
                    (stress.shear, 1.0),
                    (stress.direct, 1.0),
                    (stress.von_mises, 1.0),
                    (strength.yield_strength, 1.0),
                ],
            );
            assert_eq!(told.contains("through a hole"), cut.chord.pieces.len() > 1, "{told}");
            assert!(result.sentence.ends_with(&format!("({}).", strength.name)), "{}", result.sentence);
        }
        let motion = pad_motion(&setup, &plate, &strength).unwrap();
        let (shift, tilt) = (find(&found, "pad_shift"), find(&found, "pad_tilt"));
        assert_eq!(shift.value, motion.sideways.abs());
        assert_numbers(&shift.sentence, &[(motion.sideways.abs(), 0.01), (motion.along.abs(), 0.01)]);
        assert_eq!(shift.sentence.contains("inward"), motion.sideways < 0.0, "{}", shift.sentence);
        assert_eq!(shift.sentence.contains("outward"), motion.sideways > 0.0, "{}", shift.sentence);
        let taper = setup.caliper.pad.length * motion.yaw.abs().to_radians().tan();
        assert!((tilt.value - taper).abs() < 1e-9 && tilt.allowable == Some(0.25));
        assert_numbers(&tilt.sentence, &[(motion.yaw.abs(), 0.01), (taper, 0.01), (motion.roll.abs(), 0.01)]);
    }
}

/// One cut stands for both where the caliper's load goes down the neck; two cuts where the web leaves its upper end.
#[test]
fn the_neck_has_a_cut_of_its_own_above_the_eye_alone() {
    for (clock, root_in_eye) in [(28.0, false), (60.0, false), (150.0, true), (-150.0, true)] {
        let setup = setup_with(&json!({"tab": {"clock": clock}}));
        let plate = Plate::of(&setup, &Statics::of(&setup, &brake_case(&setup)));
        let [_, root] = plate.web.unwrap();
        assert_eq!([root.back, root.up] == [0.0, 0.0], root_in_eye);
        let found = all(&setup);
        assert_eq!(has(&found, "neck_stress"), !root_in_eye);
        let ids: Vec<&str> = found.cuts.iter().map(|cut| cut.id).collect();
        assert_eq!(ids, if root_in_eye { &["root"][..] } else { &["root", "neck"] });
        for (cut, id) in found.cuts.iter().zip(["root_stress", "neck_stress"]) {
            assert_eq!(cut.utilisation, find(&found, id).utilisation.unwrap());
            assert_eq!(cut.label, find(&found, id).label);
        }
    }
    let straight =
        setup_with(&json!({"tab": {"clock": 150}, "fork": {"axle_offset": 9}, "dropout": {"eye_radius": 30}}));
    assert!(!has(&all(&straight), "neck_stress"));
}

/// A step between tab and dropout is told from a plate that stands off by more than its thickness; none is said of posts.
#[test]
fn a_tab_out_of_line_has_its_note() {
    let of = |changes: Value| note(&all(&setup_with(&changes)), "tab").to_owned();
    // A plate's thickness off they only touch.
    for offset in [-9.0, -6.0, 6.0, 9.0] {
        assert!(of(json!({"tab": {"offset": offset}})).contains("more than a plate's thickness"), "{offset}");
    }
    for offset in [-5.5, -1.0, 1.0, 5.5] {
        let note = of(json!({"tab": {"offset": offset}}));
        assert!(note.contains("The step between") && !note.contains("more than a plate's"), "{note}");
    }
    let post = json!({"mount": "post", "bolt_direction": [0, -1, 0], "mount_depth": 0});
    for note in [of(json!({})), of(json!({"tab": {"offset": 3}, "caliper": post}))] {
        assert!(!note.contains("The step") && !note.contains("stands off"), "{note}");
    }
}

#[test]
fn pads_axle_and_bolts_say_their_numbers() {
    for setup in setups() {
        let found = all(&setup);
        let value = |id: &str| find(&found, id).value;
        let limit = |id: &str| find(&found, id).allowable.unwrap();
        let say = |id: &str, expected: &[(f64, f64)]| assert_numbers(&find(&found, id).sentence, expected);
        let load = &setup.load;
        say("torque", &[(1000.0, 1.0), (setup.wheel.tyre_radius, 1e-9)]);
        say("pad_force", &[(fit::pad_radius(&setup), 1e-3), (value("pad_force"), 1.0)]);
        say("pad_clamp", &[(load.pad_friction, 1e-9), (value("pad_clamp"), 1.0)]);
        say("axle_retention", &[(value("axle_retention").abs(), 1.0), (1150.0, 1.0)]);
        say("axle_far", &[(value("axle_far").abs(), 1.0)]);
        say("axle_friction", &[(limit("axle_friction"), 1.0)]);
        say("axle_across", &[(value("axle_across"), 1.0)]);
        say("axle_clamp", &[(load.nut_torque, 1e-9), (value("axle_clamp"), 1.0)]);
        say("bolt_pull", &[(value("bolt_pull"), 1.0), (limit("bolt_pull"), 1.0)]);
        say("bolt_preload", &[(load.bolt_torque, 1e-9), (0.75, 1e-9), (limit("bolt_preload"), 0.1)]);
        say("bolt_proof", &[(value("bolt_proof"), 1.0), (limit("bolt_proof"), 1.0)]);
        say("bolt_combined", &[(value("bolt_combined"), 0.01)]);
        say("bolt_bearing", &[(limit("bolt_bearing"), 1.0)]);
        let slip = [(limit("bolt_slip"), 1.0), (value("bolt_slip"), 1.0)];
        say("bolt_slip", &slip);
    }
}

/// Each case in its sentence: force, arm and torque, and how often where it is the fatigue test.
#[test]
fn the_case_says_its_numbers() {
    let case = |load: Value| {
        let setup = setup_with(&json!({"load": load, "wheel": {"tyre_radius": 333.5}}));
        (all(&setup).case, setup)
    };
    assert_numbers(&case(json!({})).0, &[(1000.0, 1e-9), (333.5, 1e-9), (333.5, 1.0)]);
    assert_numbers(
        &case(json!({"case": "iso_fatigue", "scheme": "two_stage"})).0,
        &[(700.0, 1e-9), (333.5, 1e-9), (600.0, 0.0), (14400.0, 0.0), (700.0, 0.0), (12000.0, 0.0), (233.45, 1.0)],
    );
    assert_numbers(
        &case(json!({"case": "own", "own_force": 820})).0,
        &[(820.0, 1e-9), (333.5, 1e-9), (0.82 * 333.5, 1.0)],
    );
    for (load, ends) in [
        (json!({"case": "rider"}), "rear wheel lifts"),
        (json!({"case": "rider", "cog_to_front": 900, "friction": 0.3, "slope": -4}), "tyre slides"),
    ] {
        let (sentence, setup) = case(load);
        let braking = rider_braking(&setup);
        assert!(sentence.contains(ends), "{sentence}");
        assert_numbers(
            &sentence,
            &[(braking.force, 1.0), (braking.deceleration / GRAVITY, 0.01), (braking.force * 0.3335, 1.0)],
        );
    }
}
