//! Gaps and pad cover against other programs; fixtures/reference/ORIGIN.md says which and how.
//!
//! `TABWRIGHT_KERNEL=FILE` takes other setups than those of the fixtures: a `kernel.jsonl` that `tests/reference/refresh` wrote.

#![allow(clippy::panic, reason = "a test that cannot go on should stop")]

use std::collections::BTreeMap;

use serde_json::Value;
use tabwright_core::fit::{Parts, clearances};
use tabwright_core::solid::{Disc, Gap, Method, Slab, Solid, Spool, Vector, gap};
use tabwright_core::tolerance::AT_THE_LIMIT;
use tabwright_tests::{assert_near, fixture_text, pair, report_of, setup_with};

/// Accuracy promised of every gap, mm.
const GAP_TOLERANCE: f64 = 0.01;

fn cases() -> Vec<Value> {
    records(&match std::env::var_os("TABWRIGHT_KERNEL") {
        Some(file) => std::fs::read_to_string(&file).unwrap_or_else(|error| panic!("{}: {error}", file.display())),
        None => fixture_text("reference/kernel.jsonl"),
    })
}

fn records(lines: &str) -> Vec<Value> {
    lines.lines().map(|line| serde_json::from_str(line).unwrap_or_default()).collect()
}

/// How many differences there are of each power of ten, mm.
#[derive(Default)]
struct Histogram(BTreeMap<i32, u32>);

impl Histogram {
    const LEAST: f64 = 1e-9;

    fn add(&mut self, difference: f64) {
        *self.0.entry(difference.abs().max(Self::LEAST).log10().ceil() as i32).or_default() += 1;
    }
}

impl std::fmt::Display for Histogram {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.iter().try_for_each(|(power, count)| write!(f, "up to 1e{power}: {count}; "))
    }
}

#[test]
fn every_gap_agrees_with_the_solid_modelling_kernel() {
    let mut largest: BTreeMap<String, f64> = BTreeMap::new();
    let (mut setups, mut overlaps, mut searched) = (0, 0, 0);
    let mut histogram = Histogram::default();
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
                overlaps += 1;
            } else {
                assert_near(got, gap, GAP_TOLERANCE, &format!("{name} of {}", case["changes"]));
                let most = largest.entry(name.clone()).or_default();
                *most = most.max((got - gap).abs());
                histogram.add(got - gap);
            }
        }
        let pairs = clearances(&setup, &Parts::of(&setup)).unwrap_or_default();
        searched += pairs.iter().filter(|pair| pair.method == Method::Search).count();
        setups += 1;
    }
    assert!(setups >= 300, "only {setups} setups");
    println!("{setups} setups; largest difference per pair, mm: {largest:#?}; gaps found by search: {searched}");
    println!("differences, mm: {histogram}{overlaps} overlaps are overlaps here");
}

/// Tiny beside huge, a millionth of a millimetre apart, touching, deep in each other: `tests/reference/hard_pairs.py`.
#[test]
fn hard_pairs_agree_with_the_kernel_in_depth_too() {
    let mut seen: BTreeMap<String, (u32, Histogram)> = BTreeMap::new();
    for record in records(&fixture_text("reference/pairs.jsonl")) {
        let (first, second) = (solid(&record["first"]), solid(&record["second"]));
        let expected = number(&record["gap"]);
        for (first, second) in [(&first, &second), (&second, &first)] {
            let Ok(Gap { distance, .. }) = gap(first, second) else { panic!("no gap: {record}") };
            assert_near(distance, expected, GAP_TOLERANCE, &record.to_string());
            let (count, histogram) = seen.entry(record["case"].to_string()).or_default();
            *count += 1;
            histogram.add(distance - expected);
        }
    }
    for (case, (count, histogram)) in &seen {
        println!("{count} {case}, differences in mm: {histogram}");
        assert!(*count >= 100, "only {count} {case}");
    }
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or(f64::NAN)
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().into_iter().flatten().map(number).collect()
}

fn vector(value: &Value) -> Vector {
    Vector::from_slice(&numbers(value))
}

/// A solid of `pairs.jsonl`.
fn solid(value: &Value) -> Solid {
    if let Some(discs) = value["discs"].as_array() {
        let disc = |disc: &Value| {
            let numbers = numbers(disc);
            Disc::new(numbers[0], numbers[1], numbers[2])
        };
        let discs = discs.iter().map(disc).collect();
        return Slab { discs, low: number(&value["low"]), high: number(&value["high"]) }.into();
    }
    let radii = numbers(&value["radii"]);
    Spool {
        ends: [vector(&value["ends"][0]), vector(&value["ends"][1])],
        axis: vector(&value["axis"]),
        radii: [radii[0], radii[1]],
    }
    .into()
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
