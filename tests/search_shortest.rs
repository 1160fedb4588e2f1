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
fn no_clock_angle_clears_with_less_than_the_shortest_dropout() {
    let mut some = 0;
    for (name, setup) in uneven() {
        for rules in [Rules::NONE, Rules::ALL] {
            let Shortest::Found(place) = shortest_dropout(&setup, rules).unwrap() else { continue };
            assert_shortest(name, &[&setup], rules, &place);
            some += 1;
        }
    }
    assert!(some > 5, "{some}");
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
fn the_nearest_place_is_told_with_what_binds_there_and_beside_it() {
    let (mut wide, mut narrow) = (0, 0);
    let narrow_ones = with_wide_necks().into_iter().map(|setup| ("wide neck", setup));
    for (name, setup) in uneven().into_iter().chain(narrow_ones) {
        for (own, rules) in
            [(-150.0, LINE_UP), (-70.0, Rules::NONE), (4.0, Rules::ALL), (62.5, Rules::ALL), (115.0, Rules::NONE)]
        {
            let setup = at_clock(&setup, own);
            let Shortest::Found(place) = shortest_dropout(&setup, rules).unwrap() else { continue };
            let slid = with(&setup, "fork.tube_end", place.tube_end);
            let turn_to = |clock: f64| ((clock - own + 540.0) % 360.0 - 180.0).abs();
            let does = |clock: f64| {
                keeps(&slid, rules, clock) && deciding(&at_clock(&slid, clock)).verdict() == Verdict::Clears
            };
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
    assert!(wide > 2 && narrow > 0, "{wide} in wide stretches, {narrow} in narrow ones");
}

/// The first of every half millimetre that does, and where in the half before it begins to.
fn first_end(setup: &Setup) -> Option<f64> {
    let does = |end: f64| deciding(&with(setup, "fork.tube_end", end)).verdict() == Verdict::Clears;
    let mut high = (0..=500).map(|step| 0.5 * f64::from(step)).find(|end| does(*end))?;
    let mut low = (high - 0.5).max(0.0);
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
    let (mut some, mut none) = (0, 0);
    for (name, setup) in uneven() {
        for clock in [-62.0, -8.0, 21.0, 47.0] {
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
            some += usize::from(first.is_some_and(|first| first > 0.0));
        }
    }
    assert!(some > 3 && none > 1);
}

/// Setups whose plate, not their tube, sets how short the dropout can be: the wide neck goes off upwards.
fn with_wide_necks() -> Vec<Setup> {
    let base = json!({
        "dropout": {"weld_length": 20, "neck_width": 60},
        "fork": {"axle_offset": -14, "tube_gap": 140},
        "wheel": {"nut_diameter": 9},
        "required": {"nut": 0.5},
    });
    let base = setup_with(&base);
    vec![
        changed(&base, &json!({"tab": {"offset": 0.6}})),
        changed(
            &base,
            &json!({"side": "right", "dropout": {"neck_width": 51, "weld_length": 34}, "fork": {"axle_offset": 11}}),
        ),
        changed(
            &base,
            &json!({"wheel": {"rotor_diameter": 180}, "dropout": {"neck_width": 70}, "required": {"plate": 2.7}}),
        ),
    ]
}

#[test]
fn a_neck_in_the_way_is_slid_past_at_any_clock_angle() {
    let mut past = 0;
    for (index, setup) in with_wide_necks().into_iter().enumerate() {
        for clock in [-47.0, 41.0, 64.5] {
            let setup = at_clock(&setup, clock);
            let wheel = &setup.wheel;
            let cell = what_if(&setup, wheel.rotor_diameter, wheel.hub_width, Fork::Kept, Rules::NONE).unwrap();
            let (told, first) = (cell.as_cut_tube_end, first_end(&setup));
            assert_eq!(told.is_some(), first.is_some(), "setup {index} at {clock}°: {told:?}, {first:?}");
            if let (Some(told), Some(first)) = (told, first) {
                past += 1;
                assert_near(told, first, 2e-3, "tube end");
            }
        }
    }
    assert!(past > 4, "{past}");
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
fn the_pair_that_comes_nearest_is_named_where_no_dropout_does() {
    let mut named = 0;
    for changes in [
        json!({"required": {"plate": 9}, "wheel": {"rotor_diameter": 160}}),
        json!({"required": {"plate": 12}, "fork": {"axle_offset": 15}, "side": "right"}),
    ] {
        let setup = setup_with(&changes);
        for rules in [Rules::NONE, LINE_UP, WHEEL_OUT, Rules::ALL] {
            let Shortest::None { obstacle } = shortest_dropout(&setup, rules).unwrap() else { continue };
            let longest = with(&setup, "fork.tube_end", 250.0);
            let places = clocks(0.5)
                .filter(|clock| keeps(&setup, rules, *clock))
                .map(|clock| deciding(&at_clock(&longest, clock)));
            let nearest = places.min_by(|a, b| a.verdict().cmp(&b.verdict()).then(b.margin().total_cmp(&a.margin())));
            assert_eq!(nearest.map(|nearest| nearest.name.key()), Some(obstacle), "{changes} {rules:?}");
            named += 1;
        }
    }
    assert!(named > 5, "{named}");
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
    assert!(shared > 1, "{shared}");
}

/// Whatever the setup's own tube end is, it is not the one looked for.
#[test]
fn the_setup_s_own_tube_end_has_no_say() {
    for (index, setup) in with_wide_necks().into_iter().enumerate() {
        let [short, long] =
            [0.0, 240.0].map(|own| match shortest_dropout(&with(&setup, "fork.tube_end", own), Rules::NONE).unwrap() {
                Shortest::Found(place) => place.tube_end,
                Shortest::None { .. } => f64::MAX,
            });
        assert!((short - long).abs() <= TOO_LONG, "setup {index}: {short} and {long}");
    }
}
