//! Fixes against plain reports of every tenth on the way to them.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::search::{Change, Fix, fixes};
use tabwright_core::{Kind, Outcome, Setup};
use tabwright_tests::brute::{clears, deciding, uneven, with};
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
    let turns = (1..1800).map(|step| 0.1 * f64::from(step));
    let does = |clock: f64| clock.abs() <= 180.0 && deciding(&with(setup, "tab.clock", clock)).margin() >= -1e-6;
    let mut found = turns.filter(|turn| [-turn, *turn].into_iter().any(|turn| does(setup.tab.clock + turn)));
    clears(&found.next().map_or_else(
        || setup.clone(),
        |turn| {
            let clock = [-turn, turn].map(|turn| setup.tab.clock + turn).into_iter().find(|clock| does(*clock));
            with(setup, "tab.clock", clock.unwrap_or_default())
        },
    ))
    .then_some(())?;
    let turns = (1..1800).map(|step| 0.1 * f64::from(step));
    turns.into_iter().find(|turn| [-turn, *turn].into_iter().any(|turn| does(setup.tab.clock + turn)))
}

fn tos(found: &[Fix], field: &str) -> Vec<f64> {
    let changes = found.iter().filter(|fix| fix.changes.len() == 1).map(|fix| fix.changes[0]);
    changes.filter(|change| change.field == field).map(|change| change.to).collect()
}

/// Setups that single changes mend.
fn mendable() -> Vec<Setup> {
    [
        json!({"wheel": {"rotor_diameter": 180}, "fork": {"tube_end": 17.3}}),
        json!({"tab": {"clock": 8.35, "offset": 0.45}, "fork": {"tube_end": 26}}),
        json!({"tab": {"clock": 74.2}, "required": {"plate": 2.4}}),
        json!({"wheel": {"rotor_inset": 12.4}, "tab": {"offset": 0.3}}),
        json!({"side": "right", "wheel": {"rotor_diameter": 160, "hub_width": 107, "nut_diameter": 15}, "fork": {"tube_gap": 118, "tube_end": 22}}),
        json!({"fork": {"tube_gap": 105, "tube_end": 35}, "wheel": {"nut_diameter": 18}}),
    ]
    .iter()
    .map(setup_with)
    .collect()
}

#[test]
fn each_cut_is_the_first_tenth_that_clears_either_way() {
    let mut offered = 0;
    for (index, setup) in mendable().into_iter().enumerate() {
        assert!(!clears(&setup), "setup {index} needs no fix");
        let found = fixes(&setup).unwrap().fixes;
        for field in CUT {
            let mut expected: Vec<f64> =
                [1.0, -1.0].into_iter().filter_map(|way| first_tenth(&setup, field, way)).collect();
            let mut got = tos(&found, field);
            offered += got.len();
            println!("{index} {field} {} {got:?} {expected:?}", value(&setup, field));
            expected.sort_by(f64::total_cmp);
            got.sort_by(f64::total_cmp);
            assert_eq!(got.len(), expected.len(), "setup {index}, {field}: {got:?}, {expected:?} clears");
            got.iter().zip(expected).for_each(|(got, expected)| assert_near(*got, expected, 1e-9, field));
        }
        for field in BOUGHT {
            let (own, (_, stops)) = (value(&setup, field), range(field));
            let up = stops.iter().copied().find(|size| *size > own);
            let down = stops.iter().copied().filter(|size| *size < own).next_back();
            let expected: Vec<f64> =
                [up, down].into_iter().flatten().filter(|size| clears(&with(&setup, field, *size))).collect();
            let mut got = tos(&found, field);
            got.sort_by(|a, b| b.total_cmp(a));
            println!("{index} {field} {got:?} {expected:?}");
            assert_eq!(got, expected, "setup {index}, {field}");
        }
        let turn = nearest_clock(&setup);
        let got = tos(&found, "tab.clock").first().map(|to| (to - setup.tab.clock).abs());
        println!("{index} clock {got:?} {turn:?}");
        assert_eq!(got.is_some(), turn.is_some(), "setup {index}");
        if let (Some(got), Some(turn)) = (got, turn) {
            // The setup's own clock angle need not be a tenth.
            assert!((got - turn).abs() < 0.1, "setup {index}: turned by {got}°, {turn}° does");
        }
    }
    println!("{offered}");
    assert!(offered > 6, "{offered}");
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

/// Of two changes of one value the smaller comes first; a turn of the caliper costs less than as much on the dropout, and
/// a bought part more than a small cut.
#[test]
fn fixes_are_what_they_promise_and_the_least_trouble_comes_first() {
    for (index, setup) in mendable().into_iter().enumerate() {
        let found = fixes(&setup).unwrap().fixes;
        let order: Vec<_> =
            found.iter().map(|fix| (fix.changes[0].field, (fix.changes[0].to - fix.changes[0].from).abs())).collect();
        println!("{index} {order:?}");
        for fix in &found {
            assert_as_promised(&setup, fix);
        }
        for (place, (field, by)) in order.iter().enumerate() {
            for (later, more) in &order[place + 1..] {
                let what = format!("setup {index}: {order:?}");
                assert!(field != later || by <= more, "{what}");
                let is_easy = *later == "tab.clock" && more < by
                    || *later == "fork.tube_end" && *more < 6.0
                    || *later == "tab.offset" && *more < 1.0;
                let is_bought = field.starts_with("wheel");
                assert!(
                    !(is_bought || *field == "fork.tube_end")
                        || !is_easy
                        || (*field == "fork.tube_end" && *later != "tab.clock"),
                    "{what}"
                );
            }
        }
    }
}

/// Setups that no single change mends.
fn hard() -> Vec<Setup> {
    let mut hard: Vec<Setup> = [
        json!({"required": {"tube": 14, "plate": 3}, "tab": {"clock": 20}}),
        json!({"wheel": {"rotor_diameter": 160, "hub_width": 115}, "tab": {"clock": -100}}),
        json!({"wheel": {"rotor_diameter": 180, "hub_width": 110}, "side": "right"}),
        json!({"wheel": {"rotor_inset": 11}, "tab": {"clock": 10}, "fork": {"tube_end": 12}}),
    ]
    .iter()
    .map(setup_with)
    .collect();
    hard.extend(uneven().into_iter().map(|(_, setup)| setup));
    hard
}

/// The first steps of pairs of cuts, mm.
const FIRST_STEPS: [(&str, &[f64]); 4] = [
    ("fork.tube_end", &[5.0, 10.0, 20.0]),
    ("tab.offset", &[-3.0, 3.0]),
    ("fork.axle_offset", &[-10.0, 10.0]),
    ("dropout.thickness", &[-1.0, 2.0]),
];

#[test]
fn of_two_changes_the_second_is_the_smallest_after_the_first() {
    let mut pairs = 0;
    for (index, setup) in hard().into_iter().enumerate() {
        let found = fixes(&setup).unwrap();
        println!("{index} {:?} {:?}", found.verdict, found.fixes.iter().map(|fix| &fix.changes).collect::<Vec<_>>());
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
    println!("{pairs}");
    assert!(pairs > 5, "{pairs}");
}
