//! Gaps and pad cover against other programs; fixtures/reference/ORIGIN.md says which and how.

use std::collections::BTreeMap;

use serde_json::Value;
use tabwright_core::fit::{Parts, clearances};
use tabwright_core::solid::Method;
use tabwright_core::tolerance::AT_THE_LIMIT;
use tabwright_tests::{assert_near, fixture_text, pair, report_of, setup_with};

/// Accuracy promised of every gap, mm.
const GAP_TOLERANCE: f64 = 0.01;

fn cases() -> Vec<Value> {
    let text = fixture_text("reference/kernel.jsonl");
    text.lines().map(|line| serde_json::from_str(line).unwrap_or_default()).collect()
}

#[test]
fn every_gap_agrees_with_the_solid_modelling_kernel() {
    let mut largest: BTreeMap<String, f64> = BTreeMap::new();
    let (mut setups, mut searched) = (0, 0);
    for case in cases() {
        let setup = setup_with(&case["changes"]);
        let report = report_of(&setup);
        let expected = case["pairs"].as_object().cloned().unwrap_or_default();
        let names: Vec<&str> =
            report.pairs.iter().map(|pair| pair.name).filter(|name| *name != "rotor/throat").collect();
        let mut other: Vec<&str> = expected.keys().map(String::as_str).collect();
        let mut ours = names.clone();
        ours.sort_unstable();
        other.sort_unstable();
        assert_eq!(ours, other, "the pairs of {}", case["changes"]);
        for (name, answer) in &expected {
            let got = pair(&report, name).gap;
            let (gap, volume) = (answer["gap"].as_f64().unwrap_or(f64::NAN), answer["overlap_volume"].as_f64());
            if volume.is_some_and(|volume| volume > 0.0) {
                assert!(
                    got <= AT_THE_LIMIT,
                    "{name} overlaps by {volume:?} mm³ but has gap {got}: {}",
                    case["changes"]
                );
            } else {
                assert_near(got, gap, GAP_TOLERANCE, &format!("{name} of {}", case["changes"]));
                let most = largest.entry(name.clone()).or_default();
                *most = most.max((got - gap).abs());
            }
        }
        let pairs = clearances(&setup, &Parts::of(&setup)).unwrap_or_default();
        searched += pairs.iter().filter(|pair| pair.method == Method::Search).count();
        setups += 1;
    }
    assert!(setups >= 300, "only {setups} setups");
    println!("{setups} setups; largest difference per pair, mm: {largest:#?}; gaps found by search: {searched}");
}

#[test]
fn pad_cover_agrees_with_the_polygon_library() {
    let mut partly = 0;
    for case in cases() {
        let expected = case["coverage"].as_f64().unwrap_or(f64::NAN);
        let report = report_of(&setup_with(&case["changes"]));
        assert_near(report.pad.coverage, expected, 0.001, &format!("coverage of {}", case["changes"]));
        partly += u32::from(expected < 0.99);
    }
    assert!(partly > 50, "only {partly} pads lie partly off the band");
}
