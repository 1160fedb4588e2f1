//! What every builder of wide forks knows: common practice, no source.

use serde_json::json;
use tabwright_core::fit::{Joint, Run};
use tabwright_core::{Outcome, Verdict};
use tabwright_tests::{assert_near, default_json, pair, report_of, setup_with};

#[test]
fn the_field_table_and_the_default_file_agree() {
    let from_table = serde_json::to_value(tabwright_core::Setup::default()).unwrap_or_default();
    let mut from_file = default_json();
    // The one field that may be left out.
    from_file["caliper"]["bolt_direction"] = serde_json::Value::Null;
    for (path, value) in flatten("", &from_file) {
        let in_table = flatten("", &from_table).into_iter().find(|(other, _)| *other == path);
        let in_table = in_table.map(|(_, value)| value);
        let same = match (&value, &in_table) {
            (serde_json::Value::Number(a), Some(serde_json::Value::Number(b))) => a.as_f64() == b.as_f64(),
            (a, b) => Some(a) == b.as_ref(),
        };
        assert!(same, "{path}: file {value}, table {in_table:?}");
    }
    assert_eq!(flatten("", &from_file).len(), flatten("", &from_table).len());
}

fn flatten(path: &str, value: &serde_json::Value) -> Vec<(String, serde_json::Value)> {
    match value {
        serde_json::Value::Object(map) => {
            map.iter().flat_map(|(key, value)| flatten(&format!("{path}.{key}"), value)).collect()
        }
        serde_json::Value::Array(list) => {
            list.iter().enumerate().flat_map(|(index, value)| flatten(&format!("{path}.{index}"), value)).collect()
        }
        leaf => vec![(path.to_owned(), leaf.clone())],
    }
}

#[test]
fn a_203_rotor_on_a_100_hub_clears() {
    let report = report_of(&setup_with(&json!({})));
    assert_eq!(report.verdict, Outcome::Clears);
    assert_eq!(report.recess.kind, Joint::Lap);
    assert_eq!(report.line.run, Run::Up);
    assert!(report.warnings.is_empty(), "{:?}", report.warnings);
}

#[test]
fn a_180_rotor_draws_the_caliper_into_the_tube() {
    let report = report_of(&setup_with(&json!({"wheel": {"rotor_diameter": 180}})));
    assert_eq!(report.verdict, Outcome::Hits);
    assert_eq!(pair(&report, "caliper/tube").verdict, Verdict::Hits);
}

#[test]
fn a_115_hub_in_the_same_fork_recesses_the_dropout_and_no_common_rotor_makes_up_for_it() {
    let with = |rotor: i32| report_of(&setup_with(&json!({"wheel": {"hub_width": 115, "rotor_diameter": rotor}})));
    let report = with(203);
    assert_near(report.recess.value, 7.5, 1e-9, "recess");
    assert_eq!(report.recess.kind, Joint::LetIn);
    assert_eq!(pair(&report, "caliper/tube").verdict, Verdict::Tight);
    assert_eq!(pair(&with(180), "caliper/tube").verdict, Verdict::Hits);
    for rotor in [140, 160, 180, 203] {
        assert_ne!(with(rotor).verdict, Outcome::Clears, "rotor {rotor}");
    }
}

#[test]
fn the_same_caliper_on_the_other_side_sends_its_line_the_other_way() {
    let left = report_of(&setup_with(&json!({})));
    let right = report_of(&setup_with(&json!({"side": "right"})));
    assert_eq!(left.line.run, Run::Up);
    assert_ne!(right.line.run, Run::Up);
}

#[test]
fn moving_a_caliper_below_the_axle_turns_its_line_round() {
    let angle = |clock: f64| report_of(&setup_with(&json!({"side": "right", "tab": {"clock": clock}}))).line.angle;
    for clock in [10.0, 28.0, 80.0] {
        assert_near(angle(clock) + angle(clock - 180.0), 180.0, 1e-9, "angle above plus angle below");
    }
}

#[test]
fn a_caliper_below_the_axle_must_be_unbolted_to_drop_the_wheel() {
    let below = report_of(&setup_with(&json!({"tab": {"clock": 135}})));
    assert!(!below.wheel_removal.comes_out);
    assert!(below.warnings.iter().any(|warning| warning.field == "dropout.slot_direction"));
    let above = report_of(&setup_with(&json!({})));
    assert!(above.wheel_removal.comes_out);
    // With the slot turned up towards the caliper the wheel is held as well; away from it, it is free.
    assert!(!report_of(&setup_with(&json!({"dropout": {"slot_direction": 28}}))).wheel_removal.comes_out);
    assert!(
        report_of(&setup_with(&json!({"tab": {"clock": 135}, "dropout": {"slot_direction": -45}})))
            .wheel_removal
            .comes_out
    );
}

#[test]
fn reach_trades_pad_cover_for_room_at_the_tube() {
    let full = report_of(&setup_with(&json!({})));
    let out = report_of(&setup_with(&json!({"tab": {"reach": 3}})));
    assert!(pair(&out, "caliper/tube").gap > pair(&full, "caliper/tube").gap);
    assert!(out.pad.coverage < full.pad.coverage);
}

#[test]
fn a_caliper_adjusts_by_millimetres_only() {
    let report = |offset: f64| report_of(&setup_with(&json!({"tab": {"offset": offset}})));
    assert!(report(2.0).lateral.usable);
    assert_eq!(report(2.1).verdict, Outcome::CannotBuild);
    assert_eq!(report(-2.1).verdict, Outcome::CannotBuild);
    assert_near(report(1.5).lateral.room_inboard, 0.5, 1e-9, "adjustment left inboard");
}

#[test]
fn a_plate_past_the_tube_cannot_be_built() {
    let report = report_of(&setup_with(&json!({"wheel": {"hub_width": 170}})));
    assert_eq!((report.recess.kind, report.verdict), (Joint::Beyond, Outcome::CannotBuild));
}
