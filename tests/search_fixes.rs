//! Fixes against plain reports of every tenth on the way to them.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::search::{Change, Fix, fixes};
use tabwright_core::{Kind, Outcome, Setup, Verdict};
use tabwright_tests::brute::{changed, clears, deciding, with};
use tabwright_tests::{assert_near, pair, report_of, setup_with};

const CUT: [&str; 4] = ["fork.tube_end", "tab.offset", "fork.axle_offset", "dropout.thickness"];
const BOUGHT: [&str; 2] = ["wheel.rotor_diameter", "wheel.hub_width"];

fn value(setup: &Setup, field: &str) -> f64 {
    *setup.clone().number_at(field).unwrap()
}

/// The range that proposals stay in, and the sizes sold.
fn range(field: &str) -> ([f64; 2], &'static [f64]) {
    match Setup::field(field).unwrap().kind {
        Kind::Number { plausible, stops, .. } => ([plausible.low, plausible.high], stops),
        _ => panic!("{field} is no number"),
    }
}

/// The first tenth that clears, one way from the setup's own value; none where the range or what goes together ends first.
fn first_tenth(setup: &Setup, field: &str, way: f64) -> Option<f64> {
    let ([low, high], _) = range(field);
    let own = value(setup, field) * 10.0;
    let start = if way > 0.0 { (own + 1e-7).floor() } else { (own - 1e-7).ceil() };
    let tenths = (1..).map(|step| (start + way * f64::from(step)) / 10.0);
    let within = tenths.take_while(|value| (low..=high).contains(value));
    let mut sound = within.take_while(|value| with(setup, field, *value).checked().is_ok());
    sound.find(|value| clears(&with(setup, field, *value)))
}

/// The smallest turn to a tenth of a degree that clears.
fn nearest_clock(setup: &Setup) -> Option<f64> {
    let at = |turn: f64| with(setup, "tab.clock", setup.tab.clock + turn);
    let does = |turn: f64| at(turn).tab.clock.abs() <= 180.0 && deciding(&at(turn)).verdict() == Verdict::Clears;
    let mut turns = (1..1800).map(|step| 0.1 * f64::from(step)).filter(|turn| does(*turn) || does(-turn));
    // No turn mends what cannot be built.
    turns.next().filter(|turn| clears(&at(*turn)) || clears(&at(-turn)))
}

fn tos(found: &[Fix], field: &str) -> Vec<f64> {
    let changes = found.iter().filter(|fix| fix.changes.len() == 1).map(|fix| fix.changes[0]);
    changes.filter(|change| change.field == field).map(|change| change.to).collect()
}

/// Setups that single changes mend.
fn mendable() -> Vec<Setup> {
    [
        json!({"wheel": {"rotor_diameter": 180}, "fork": {"tube_end": 17.3}}),
        json!({"wheel": {"rotor_inset": 12.4}, "tab": {"offset": 0.3}}),
        json!({"wheel": {"rotor_diameter": 180, "hub_width": 110}, "side": "right"}),
        json!({"wheel": {"rotor_diameter": 140}, "tab": {"clock": -60.35}, "fork": {"tube_end": 12, "tube_gap": 104}}),
        json!({"wheel": {"hub_width": 115}, "tab": {"clock": -20}, "fork": {"tube_end": 40.25, "axle_offset": 1}}),
    ]
    .iter()
    .map(setup_with)
    .collect()
}

#[test]
fn either_way_a_cut_is_the_first_tenth_that_clears() {
    let mut offered = 0;
    for (index, setup) in mendable().into_iter().enumerate() {
        assert!(!clears(&setup), "setup {index} needs no fix");
        let found = fixes(&setup).unwrap().fixes;
        for field in CUT {
            let mut expected: Vec<f64> =
                [1.0, -1.0].into_iter().filter_map(|way| first_tenth(&setup, field, way)).collect();
            let mut got = tos(&found, field);
            offered += got.len();
            expected.sort_by(f64::total_cmp);
            got.sort_by(f64::total_cmp);
            assert_eq!(got.len(), expected.len(), "setup {index}, {field}: {got:?}, {expected:?} clears");
            got.iter().zip(expected).for_each(|(got, expected)| assert_near(*got, expected, 1e-9, field));
        }
        for field in BOUGHT {
            let (own, (_, stops)) = (value(&setup, field), range(field));
            let up = stops.iter().copied().find(|size| *size > own);
            let down = stops.iter().copied().rfind(|size| *size < own);
            let expected: Vec<f64> =
                [up, down].into_iter().flatten().filter(|size| clears(&with(&setup, field, *size))).collect();
            let mut got = tos(&found, field);
            got.sort_by(|a, b| b.total_cmp(a));
            assert_eq!(got, expected, "setup {index}, {field}");
        }
        let turn = nearest_clock(&setup);
        let got = tos(&found, "tab.clock").first().map(|to| (to - setup.tab.clock).abs());
        assert_eq!(got.is_some(), turn.is_some(), "setup {index}");
        if let (Some(got), Some(turn)) = (got, turn) {
            // The setup's own clock angle need not be a tenth.
            assert!((got - turn).abs() < 0.1, "setup {index}: turned by {got}°, {turn}° does");
        }
    }
    assert!(offered > 5, "{offered}");
}

fn made(setup: &Setup, changes: &[Change]) -> Setup {
    changes.iter().fold(setup.clone(), |setup, change| with(&setup, change.field, change.to))
}

fn assert_as_promised(setup: &Setup, fix: &Fix) {
    let (before, after) = (report_of(setup), report_of(&made(setup, &fix.changes)));
    assert_eq!(after.verdict, Outcome::Clears, "{fix:?}");
    let margins = [&before, &after].map(|report| pair(report, report.binding).margin);
    assert_near(fix.margin, margins[1], 1e-6, "margin");
    assert_near(fix.gain, margins[1] - margins[0], 1e-6, "gain");
    assert_eq!((fix.binding, fix.line, fix.wheel_out), (after.binding, after.line.run, after.wheel_removal.comes_out));
    for change in &fix.changes {
        assert_eq!(change.from, value(setup, change.field));
    }
}

#[test]
fn fixes_are_what_they_promise() {
    for setup in mendable() {
        let found = fixes(&setup).unwrap();
        let report = report_of(&setup);
        assert_eq!(found.verdict, report.verdict);
        assert_near(found.margin, pair(&report, report.binding).margin, 1e-6, "margin now");
        assert!(!found.fixes.is_empty());
        found.fixes.iter().for_each(|fix| assert_as_promised(&setup, fix));
    }
}

/// Common practice, no source: a turn of the caliper by a few degrees is less trouble than another place for the axle, that
/// less than another rotor, and a dropout longer by a hand's breadth more than either.
#[test]
fn the_least_trouble_comes_first() {
    let fields =
        |setup: &Setup| -> Vec<_> { fixes(setup).unwrap().fixes.iter().map(|fix| fix.changes[0].field).collect() };
    let setups = mendable();
    for (setup, order) in [
        (&setups[0], &["tab.clock", "fork.axle_offset", "wheel.rotor_diameter"][..]),
        (&setups[2], &["tab.clock", "fork.axle_offset", "wheel.rotor_diameter", "fork.tube_end"]),
        (&setups[3], &["fork.tube_end", "fork.axle_offset"]),
        (&setups[4], &["tab.clock", "fork.axle_offset"]),
    ] {
        assert_eq!(fields(setup), order);
    }
}

/// A short dropout on a narrow fork with the caliper too near to the tube: one change does not mend it.
fn hard() -> Vec<Setup> {
    [
        json!({"wheel": {"rotor_diameter": 140}, "tab": {"clock": 10}, "side": "right"}),
        json!({"wheel": {"rotor_diameter": 180, "hub_width": 115}, "tab": {"clock": 7}}),
        json!({"wheel": {"rotor_diameter": 203, "hub_width": 110}, "tab": {"clock": -12}, "required": {"tube": 5}}),
    ]
    .iter()
    .map(|changes| changed(&setup_with(&json!({"fork": {"tube_end": 12, "tube_gap": 104}})), changes))
    .collect()
}

/// The first steps of pairs of cuts, mm.
const FIRST_STEPS: [(&str, &[f64]); 4] = [
    ("fork.tube_end", &[5.0, 10.0, 20.0]),
    ("tab.offset", &[-3.0, 3.0]),
    ("fork.axle_offset", &[-10.0, 10.0]),
    ("dropout.thickness", &[-1.0, 2.0]),
];

#[test]
fn the_second_of_two_changes_is_the_smallest_after_the_first() {
    let mut pairs = 0;
    for setup in hard() {
        let found = fixes(&setup).unwrap();
        let is_single = found.fixes.iter().any(|fix| fix.changes.len() == 1);
        assert!(is_single || found.fixes.len() <= 3);
        for fix in found.fixes.iter().filter(|fix| fix.changes.len() == 2) {
            pairs += 1;
            assert!(!is_single);
            assert_as_promised(&setup, fix);
            let [first, second] = fix.changes[..] else { panic!("{fix:?}") };
            let (by, steps) = (first.to - first.from, FIRST_STEPS.iter().find(|(field, _)| *field == first.field));
            match steps {
                Some((_, steps)) => assert!(steps.iter().any(|step| (step - by).abs() < 1e-9), "{first:?}"),
                None => assert!(BOUGHT.contains(&first.field) && range(first.field).1.contains(&first.to), "{first:?}"),
            }
            assert_ne!(first.field, second.field);
            let half = with(&setup, first.field, first.to);
            assert!(!clears(&half), "{fix:?}");
            if second.field == "tab.clock" {
                let turn = nearest_clock(&half).unwrap();
                assert!(((second.to - second.from).abs() - turn).abs() < 0.1, "{fix:?}: {turn}° does");
            } else {
                let way = (second.to - second.from).signum();
                assert_near(second.to, first_tenth(&half, second.field, way).unwrap(), 1e-9, second.field);
            }
        }
    }
    assert!(pairs > 5, "{pairs}");
}
