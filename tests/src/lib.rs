//! What the checks share: fixtures, and comparisons that print what was expected.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test that cannot go on should stop")]

pub mod answers;
pub mod brute;
pub mod clock;
pub mod draw;
pub mod loaded;
pub mod plates;
pub mod seated;
pub mod svg;
pub mod tacked;
pub mod views;

use std::path::PathBuf;

use serde_json::Value;
use tabwright_core::{PairReport, Report, Setup, report};

/// How many of what is much alike a check takes: `ordinary`, or `all` where `tests/run --thorough` asks for them.
pub fn as_many(ordinary: usize, all: usize) -> usize {
    if std::env::var_os("TABWRIGHT_THOROUGH").is_some() { all } else { ordinary }
}

/// A file in the fixtures folder.
pub fn fixture(path: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../fixtures").join(path)
}

/// The text of a fixture.
pub fn fixture_text(path: &str) -> String {
    std::fs::read_to_string(fixture(path)).unwrap_or_else(|error| panic!("fixtures/{path}: {error}"))
}

/// The default setup as JSON data.
pub fn default_json() -> Value {
    serde_json::from_str(&fixture_text("setups/default.json")).expect("the default setup is JSON")
}

/// Lays `changes` over `base`: objects key by key, everything else replaced.
pub fn merge(base: &mut Value, changes: &Value) {
    match (base, changes) {
        (Value::Object(base), Value::Object(changes)) => {
            for (key, change) in changes {
                merge(base.entry(key.clone()).or_insert(Value::Null), change);
            }
        }
        (base, change) => *base = change.clone(),
    }
}

/// The setup that differs from the default by `changes`.
pub fn setup_with(changes: &Value) -> Setup {
    let mut json = default_json();
    merge(&mut json, changes);
    Setup::read(&json).unwrap_or_else(|problems| panic!("{changes}: {problems:#?}")).0
}

/// The report on a setup that must be one that can be worked out.
pub fn report_of(setup: &Setup) -> Report {
    report(setup).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

/// One pair of a report.
pub fn pair<'a>(report: &'a Report, name: &str) -> &'a PairReport {
    report.pairs.iter().find(|pair| pair.name == name).unwrap_or_else(|| panic!("no pair {name}"))
}

/// Fails unless two numbers agree, saying what was compared.
#[track_caller]
pub fn assert_near(got: f64, expected: f64, tolerance: f64, what: &str) {
    assert!((got - expected).abs() <= tolerance, "{what}: got {got}, expected {expected} ± {tolerance}");
}
