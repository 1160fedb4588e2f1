//! Shortest dropouts against plain reports: what is found clears, nothing shorter does, and what it says of the place is so.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::search::{Fork, Place, Rules, Shortest, shortest_dropout, two_rotors, what_if, with_spacer};
use tabwright_core::{Setup, Verdict};
use tabwright_tests::brute::{at_clock, changed, clocks, deciding, does, keeps, uneven, with};
use tabwright_tests::{assert_near, setup_with};

/// Tube ends are found to this at the worst, mm.
const TOO_LONG: f64 = 0.005;

const LINE_UP: Rules = Rules { line_up: true, wheel_out: false };
const WHEEL_OUT: Rules = Rules { line_up: false, wheel_out: true };

fn found(setup: &Setup, rules: Rules) -> Place {
    match shortest_dropout(setup, rules).unwrap() {
        Shortest::Found(place) => place,
        Shortest::None { obstacle } => panic!("none because of {obstacle}"),
    }
}

fn obstacle(setup: &Setup, rules: Rules) -> &'static str {
    match shortest_dropout(setup, rules).unwrap() {
        Shortest::None { obstacle } => obstacle,
        Shortest::Found(place) => panic!("{place:?}"),
    }
}

/// No clock angle that keeps to the rules does with any of these tube ends.
fn assert_none_does(what: &str, setups: &[&Setup], rules: Rules, ends: &[f64], clocks: impl Iterator<Item = f64>) {
    for clock in clocks.filter(|clock| setups.iter().all(|setup| keeps(setup, rules, *clock))) {
        for end in ends.iter().filter(|end| **end >= 0.0) {
            assert!(!setups.iter().all(|setup| does(setup, clock, *end)), "{what}: {end} mm at {clock}° does");
        }
    }
}

fn assert_shortest(what: &str, setups: &[&Setup], rules: Rules, place: &Place) {
    let Place { tube_end, clock, .. } = *place;
    for setup in setups {
        assert!(does(setup, clock, tube_end) && keeps(setup, rules, clock), "{what}: {place:?} does not do");
    }
    let shorter = tube_end - TOO_LONG;
    assert_none_does(what, setups, rules, &[shorter, shorter - 0.7], clocks(1.0));
    let coarse: Vec<f64> = (1..6).map(|step| shorter * f64::from(step) / 6.0).collect();
    assert_none_does(what, setups, rules, &coarse, clocks(5.0));
    let beside = (-150..=150).map(|step| clock + 0.004 * f64::from(step));
    assert_none_does(what, setups, rules, &[shorter], beside);
}

#[test]
fn nothing_shorter_than_the_shortest_dropout_clears_all_round() {
    for (name, setup) in uneven() {
        for rules in [Rules::NONE, Rules::ALL] {
            assert_shortest(name, &[&setup], rules, &found(&setup, rules));
        }
    }
}

#[test]
fn each_rule_alone_is_kept_to() {
    for (name, setup) in uneven() {
        for rules in [LINE_UP, WHEEL_OUT] {
            let Shortest::Found(place) = shortest_dropout(&setup, rules).unwrap() else { continue };
            assert_shortest(name, &[&setup], rules, &place);
        }
    }
}

/// Of the clock angles that do, the nearest to the setup's own, half a degree inside where there is room.
#[test]
fn the_place_is_the_nearest_to_the_setup_s_own_and_its_neighbours_are_named() {
    let (mut wide, mut narrow) = (0, 0);
    for (name, setup) in uneven() {
        for own in [-150.0, -70.0, 4.0, 62.5, 115.0] {
            let setup = at_clock(&setup, own);
            let Shortest::Found(place) = shortest_dropout(&setup, Rules::NONE).unwrap() else { continue };
            let slid = with(&setup, "fork.tube_end", place.tube_end);
            let turn_to = |clock: f64| ((clock - own + 540.0) % 360.0 - 180.0).abs();
            let does = |clock: f64| deciding(&at_clock(&slid, clock)).verdict() == Verdict::Clears;
            let nearest = clocks(0.5).filter(|clock| does(*clock)).map(turn_to).fold(f64::MAX, f64::min);
            let what = format!("{name} at {own}°: {place:?}, {nearest}° away one does");
            if nearest < f64::MAX && [-0.6, 0.6].iter().all(|by| does(place.clock + by)) {
                wide += 1;
                assert!(turn_to(place.clock) <= 1e-9, "{what}");
            } else if nearest < f64::MAX && [-0.4, 0.4].iter().all(|by| does(place.clock + by)) {
                wide += 1;
                let outward = turn_to(place.clock) - nearest;
                assert!(outward > -0.3 && outward < 0.55, "{what}");
                assert!([-0.51, 0.51].iter().any(|by| !does(place.clock + by)), "{what}");
            } else {
                narrow += 1;
                assert!(turn_to(place.clock) <= nearest + 0.5, "{what}");
            }
            assert!(place.clock > -180.0 && place.clock <= 180.0);
            let at = |by: f64| deciding(&at_clock(&slid, place.clock + by));
            assert_eq!(place.binding, at(0.0).name.key(), "{what}");
            for (by, told) in [(-0.5, place.before), (0.5, place.after)] {
                let there = at(by);
                let blocks = there.verdict() != Verdict::Clears;
                assert_eq!(told, blocks.then(|| there.name.key()), "{what}, by {by}°");
            }
        }
    }
    assert!(wide > 2 && narrow > 5, "{wide} in wide stretches, {narrow} in narrow ones");
}

/// The first of every quarter of a millimetre that does, and where in the quarter before it begins to.
fn first_end(setup: &Setup) -> Option<f64> {
    let does = |end: f64| deciding(&with(setup, "fork.tube_end", end)).verdict() == Verdict::Clears;
    let mut high = (0..=1000).map(|step| 0.25 * f64::from(step)).find(|end| does(*end))?;
    let mut low = (high - 0.25).max(0.0);
    while high - low > 1e-5 {
        let middle = (low + high) / 2.0;
        if does(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    Some(high)
}

#[test]
fn the_table_s_tube_end_at_a_clock_angle_is_the_first_that_does() {
    let (mut some, mut none, mut least) = (0, 0, 0);
    for (name, setup) in uneven() {
        for clock in [-120.0, -62.0, -8.0, 21.0, 47.0, 95.0] {
            let setup = at_clock(&setup, clock);
            let wheel = &setup.wheel;
            let cell = what_if(&setup, wheel.rotor_diameter, wheel.hub_width, Fork::Kept, Rules::NONE).unwrap();
            let (told, first) = (cell.as_cut_tube_end, first_end(&setup));
            let what = format!("{name} at {clock}°: {told:?}, {first:?}");
            match (told, first) {
                (Some(told), Some(first)) => assert!((first - 1e-4..first + 2e-3).contains(&told), "{what}"),
                _ => assert_eq!(told.is_some(), first.is_some(), "{what}"),
            }
            none += usize::from(first.is_none());
            least += usize::from(first == Some(0.0));
            some += usize::from(first.is_some_and(|first| first > 0.0));
        }
    }
    println!("{some} {none} {least}");
    assert!(some > 5 && none > 1);
}

/// A setup whose plate, not its tube, sets how short the dropout can be: the neck is in the way and goes off upwards.
#[test]
fn a_neck_in_the_way_is_slid_past() {
    for (what, changes, clocks) in plate_setups() {
        let setup = setup_with(&changes);
        for clock in clocks {
            let setup = at_clock(&setup, clock);
            let wheel = &setup.wheel;
            let cell = what_if(&setup, wheel.rotor_diameter, wheel.hub_width, Fork::Kept, Rules::NONE).unwrap();
            let (told, first) = (cell.as_cut_tube_end, first_end(&setup));
            println!("{what} {clock}: {told:?} {first:?}");
            assert_eq!(told.is_some(), first.is_some(), "{what} at {clock}°: {told:?}, {first:?}");
            if let (Some(told), Some(first)) = (told, first) {
                assert_near(told, first, 2e-3, what);
            }
        }
    }
}

fn plate_setups() -> Vec<(&'static str, serde_json::Value, [f64; 4])> {
    vec![
        (
            "short lap",
            json!({"dropout": {"weld_length": 14, "neck_width": 14}, "wheel": {"nut_diameter": 9}, "required": {"nut": 0.5, "plate": 4, "tube": 1}}),
            [30.0, 45.0, -50.0, 70.0],
        ),
        (
            "wide neck",
            json!({"dropout": {"weld_length": 20, "neck_width": 60}, "fork": {"axle_offset": -14, "tube_gap": 140}, "wheel": {"nut_diameter": 9}, "required": {"nut": 0.5}}),
            [15.0, 33.0, 52.0, -35.0],
        ),
        (
            "uneven lands",
            json!({"caliper": {"holes": [[-31, 14], [20, 33]]}, "dropout": {"weld_length": 35}, "wheel": {"nut_diameter": 9}, "required": {"plate": 2.5}}),
            [22.0, 48.0, 80.0, -30.0],
        ),
    ]
}

#[test]
fn what_stands_in_the_way_everywhere_is_named() {
    let base = setup_with(&json!({"wheel": {"rotor_diameter": 180}}));
    let with = |changes| changed(&base, &changes);
    // The bridge is the caliper's own: no dropout helps.
    assert_eq!(obstacle(&with(json!({"required": {"rotor": 9}})), Rules::NONE), "rotor/throat");
    // A closed hole lets the rotor out at no clock angle; a line that leaves sideways never runs up.
    let closed = with(json!({"dropout": {"closed": true}}));
    let sideways = with(json!({"caliper": {"line": {"direction": [0.1, 0.1, 1]}}}));
    let both = changed(&closed, &json!({"caliper": {"line": {"direction": [0.1, 0.1, 1]}}}));
    for (setup, rules, expected) in [
        (&closed, WHEEL_OUT, "wheel"),
        (&closed, Rules::ALL, "wheel"),
        (&sideways, LINE_UP, "line"),
        (&sideways, Rules::ALL, "line"),
        (&both, WHEEL_OUT, "wheel"),
        (&both, Rules::ALL, "line"),
    ] {
        assert_eq!(obstacle(setup, rules), expected, "{rules:?}");
    }
    assert!(matches!(shortest_dropout(&closed, LINE_UP).unwrap(), Shortest::Found(_)));
    assert!(matches!(shortest_dropout(&sideways, WHEEL_OUT).unwrap(), Shortest::Found(_)));
}

/// Where no tube end does, the pair that binds where the longest dropout comes nearest to it, of the clock angles that
/// keep to the rules.
#[test]
fn where_no_dropout_does_the_pair_that_comes_nearest_is_named() {
    let mut named = std::collections::BTreeSet::new();
    for changes in [
        json!({"required": {"plate": 9}, "wheel": {"rotor_diameter": 160}}),
        json!({"required": {"line": 60}, "side": "right"}),
        json!({"required": {"plate": 12, "line": 8}, "fork": {"axle_offset": 15}}),
        json!({"required": {"tube": 150, "line": 100}}),
        json!({"required": {"line": 75, "tube": 75, "tool": 75}, "side": "right", "wheel": {"rotor_diameter": 140}}),
    ] {
        let setup = setup_with(&changes);
        for rules in [Rules::NONE, LINE_UP, WHEEL_OUT, Rules::ALL] {
            let Shortest::None { obstacle } = shortest_dropout(&setup, rules).unwrap() else { continue };
            let longest = with(&setup, "fork.tube_end", 250.0);
            let places = clocks(0.5)
                .filter(|clock| keeps(&setup, rules, *clock))
                .map(|clock| deciding(&at_clock(&longest, clock)));
            let nearest = places.min_by(|a, b| a.verdict().cmp(&b.verdict()).then(b.margin().total_cmp(&a.margin())));
            println!(
                "{changes} {rules:?}: {obstacle} {:?}",
                nearest.as_ref().map(|nearest| (nearest.name.key(), nearest.margin()))
            );
            assert_eq!(nearest.map(|nearest| nearest.name.key()), Some(obstacle), "{changes} {rules:?}");
            named.insert(obstacle);
        }
    }
    println!("{named:?}");
}

/// One tab for two rotors: the shortest dropout that does for both, and none for either.
#[test]
fn the_shortest_dropout_for_two_rotors_does_for_both() {
    let mut shared = 0;
    for (name, setup) in uneven() {
        for rules in [Rules::NONE, Rules::ALL] {
            let both = two_rotors(&setup, [180.0, 162.0], rules).unwrap();
            let small = with(&setup, "wheel.rotor_diameter", 162.0);
            let large = with_spacer(&small, 9.0);
            let Shortest::Found(place) = both.shortest else { continue };
            shared += 1;
            assert_shortest(name, &[&small, &large], rules, &place);
        }
    }
    println!("{shared}");
    assert!(shared > 1, "{shared}");
}
