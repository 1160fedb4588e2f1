//! Fixes, comparisons and cells of the table against reports of the setups that they speak of.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::fit::{hole_centres, pad_radius};
use tabwright_core::search::{Fixes, compare, fixes};
use tabwright_core::{Outcome, Setup};
use tabwright_tests::{assert_near, pair, report_of, setup_with};

fn with(setup: &Setup, field: &str, value: f64) -> Setup {
    let mut other = setup.clone();
    *other.number_at(field).unwrap() = value;
    other
}

fn margin(setup: &Setup) -> f64 {
    let report = report_of(setup);
    pair(&report, report.binding).margin
}

fn clears(setup: &Setup) -> bool {
    setup.checked().is_ok() && report_of(setup).verdict == Outcome::Clears
}

fn of<'a>(found: &'a Fixes, field: &'a str) -> impl Iterator<Item = f64> + 'a {
    let single = found.fixes.iter().filter(|fix| fix.changes.len() == 1);
    single.map(|fix| &fix.changes[0]).filter(move |change| change.field == field).map(|change| change.to)
}

/// Setups that one change mends.
fn mendable() -> Vec<Setup> {
    [
        json!({"wheel": {"rotor_diameter": 180}}),
        json!({"wheel": {"rotor_diameter": 180}, "fork": {"tube_end": 15}, "side": "right"}),
        json!({"tab": {"clock": 12}}),
        json!({"tab": {"clock": 70, "offset": 2.5}}),
        json!({"tab": {"clock": -40}}),
    ]
    .iter()
    .map(setup_with)
    .filter(|setup| !clears(setup))
    .collect()
}

#[test]
fn a_single_fix_is_the_smallest_change_that_clears() {
    let mut tried = 0;
    for setup in mendable() {
        let found = fixes(&setup).unwrap();
        let report = report_of(&setup);
        assert_eq!(found.verdict, report.verdict);
        assert_near(found.margin, margin(&setup), 1e-4, "margin now");
        for fix in &found.fixes {
            let [change] = fix.changes[..] else { continue };
            let fixed = with(&setup, change.field, change.to);
            assert_eq!(change.from, *setup.clone().number_at(change.field).unwrap());
            assert!(clears(&fixed), "{change:?}");
            let then = report_of(&fixed);
            assert_eq!(
                (fix.binding, fix.line, fix.wheel_out),
                (then.binding, then.line.run, then.wheel_removal.comes_out)
            );
            assert_near(fix.margin, margin(&fixed), 1e-4, "margin then");
            assert_near(fix.gain, margin(&fixed) - margin(&setup), 1e-4, "gain");
            // In tenths; parts that are bought, in the sizes they are sold in.
            assert_near(change.to * 10.0, (change.to * 10.0).round(), 1e-9, change.field);
            let is_bought = change.field.starts_with("wheel");
            if !is_bought {
                let step = 0.1 * (change.from - change.to).signum();
                let less = with(&setup, change.field, ((change.to + step) * 10.0).round() / 10.0);
                let is_there = (change.to - change.from).abs() < 0.15;
                assert!(is_there || !clears(&less), "{change:?}: less clears too");
            }
            tried += 1;
        }
        // Looked for by brute force in half millimetres, so far as one can go either way.
        for (field, most) in [("fork.tube_end", 60), ("tab.offset", 16), ("fork.axle_offset", 60)] {
            let now = *setup.clone().number_at(field).unwrap();
            for way in [0.5, -0.5] {
                let first = (1..=most)
                    .map(|step| now + f64::from(step) * way)
                    .find(|value| clears(&with(&setup, field, *value)));
                let Some(first) = first.filter(|first| field != "fork.tube_end" || *first >= 5.0) else { continue };
                let nearest = of(&found, field)
                    .filter(|to| (to - now) * way > 0.0)
                    .map(|to| (to - now).abs())
                    .fold(f64::MAX, f64::min);
                assert!(nearest <= (first - now).abs() + 1e-9, "{field}: {first} clears, {nearest} away is offered");
            }
        }
        let clock = setup.tab.clock;
        let turned = (1..720).map(|step| f64::from(step) * 0.25).find(|by| {
            [clock + by, clock - by].iter().any(|at| at.abs() <= 180.0 && clears(&with(&setup, "tab.clock", *at)))
        });
        let offered = of(&found, "tab.clock").map(|to| (to - clock).abs()).next();
        assert_eq!(offered.is_some(), turned.is_some(), "{clock}");
        if let (Some(offered), Some(turned)) = (offered, turned) {
            assert!(offered <= turned + 0.1, "{offered} degrees offered, {turned} clears");
        }
    }
    assert!(tried >= 6, "{tried} fixes");
}

#[test]
fn what_clears_or_cannot_be_mended_has_no_fix() {
    assert!(fixes(&Setup::default()).unwrap().fixes.is_empty());
    let tight = setup_with(&json!({"required": {"rotor": 9}}));
    let found = fixes(&tight).unwrap();
    assert!(found.verdict != Outcome::Clears && found.fixes.is_empty(), "the bridge is the caliper's own");
}

/// Where no single change helps, two do: each pair clears, and neither change alone.
#[test]
fn two_changes_are_offered_only_where_one_does_not_do() {
    let mut pairs = 0;
    for changes in [
        json!({"required": {"tube": 14, "plate": 3}, "tab": {"clock": 20}}),
        json!({"wheel": {"rotor_diameter": 160}, "fork": {"tube_end": 5}, "required": {"tube": 8, "spokes": 5}}),
    ] {
        let setup = setup_with(&changes);
        let found = fixes(&setup).unwrap();
        for fix in &found.fixes {
            let fixed = fix.changes.iter().fold(setup.clone(), |setup, change| with(&setup, change.field, change.to));
            assert!(clears(&fixed), "{:?}", fix.changes);
            assert_near(fix.margin, margin(&fixed), 1e-4, "margin then");
            if let [one, other] = fix.changes[..] {
                assert_ne!(one.field, other.field);
                assert!(!clears(&with(&setup, one.field, one.to)) && !clears(&with(&setup, other.field, other.to)));
                pairs += 1;
            }
        }
        assert!(found.fixes.len() <= 3 || found.fixes.iter().all(|fix| fix.changes.len() == 1));
    }
    println!("{pairs} pairs");
}

#[test]
fn two_setups_are_compared_by_their_own_reports() {
    let first = Setup::default();
    for changes in [
        json!({"wheel": {"rotor_diameter": 180}}),
        json!({"wheel": {"hub_width": 110}, "fork": {"tube_gap": 122}}),
        json!({"tab": {"clock": 40}}),
        json!({"tab": {"reach": 3}}),
        json!({"required": {"tube": 2}}),
    ] {
        let second = setup_with(&changes);
        let found = compare(&first, &second).unwrap();
        let reports = [report_of(&first), report_of(&second)];
        for (index, (report, setup)) in reports.iter().zip([&first, &second]).enumerate() {
            assert_eq!((found.verdicts[index], found.bindings[index]), (report.verdict, report.binding));
            assert_near(found.margins[index], margin(setup), 1e-4, "margin");
            assert_near(found.pad_radii[index], pad_radius(setup), 1e-9, "pads");
        }
        let [here, there] = [hole_centres(&first), hole_centres(&second)];
        let moved = [0, 1].map(|hole: usize| (there[hole][0] - here[hole][0]).hypot(there[hole][1] - here[hole][1]));
        for (got, expected) in found.holes_moved.iter().zip(moved) {
            assert_near(*got, expected, 1e-9, "a hole moves");
        }
        assert_near(found.torque_ratio, pad_radius(&second) / pad_radius(&first), 1e-9, "torque");
        let told = &found.sentences[2];
        if moved[0].max(moved[1]) < 0.05 {
            assert!(told.contains("stay"), "{told}");
        } else if (moved[0] - moved[1]).abs() < 0.05 {
            assert!(told.starts_with("Both") && told.contains(&format!("{:.1} mm", moved[0])), "{told}");
        } else {
            assert!(told.contains(&format!("{:.1} mm and {:.1} mm", moved[0], moved[1])), "{told}");
        }
        let [one, other] = if first.wheel.rotor_diameter != second.wheel.rotor_diameter {
            ["rotor 203", "rotor 180"]
        } else if first.wheel.hub_width != second.wheel.hub_width {
            ["hub 100", "hub 110"]
        } else {
            ["the first", "the second"]
        };
        assert!(found.sentences[0].starts_with(one) && found.sentences[1].starts_with(other), "{:?}", found.sentences);
    }
}
