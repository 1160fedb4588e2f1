//! Setup files: read strictly, all problems at once, each with field, value, range and remedy.

use proptest::prelude::*;
use serde_json::{Value, json};
use tabwright_core::drawing::{View, draw};
use tabwright_core::{Problem, Setup, describe_fields};
use tabwright_tests::{default_json, fixture_text, merge};

fn problems(json: &Value) -> Vec<Problem> {
    Setup::read(json).err().unwrap_or_default()
}

fn problems_with(changes: Value) -> Vec<Problem> {
    let mut json = default_json();
    merge(&mut json, &changes);
    problems(&json)
}

fn only_problem(changes: Value) -> Problem {
    let found = problems_with(changes);
    assert_eq!(found.len(), 1, "{found:#?}");
    found.into_iter().next().unwrap_or(Problem { field: String::new(), value: String::new(), message: String::new() })
}

#[test]
fn a_broken_file_says_what_is_wrong_with_it() {
    let cases = [
        (
            "unknown-field",
            "wheel.rotor_colour",
            "wheel.rotor_colour is not a field of a setup. Remove it, or was \"rotor",
        ),
        ("text-for-number", "wheel.rotor_diameter", "Rotor size must be a number from 90 to 320 mm, such as 203."),
        ("not-a-number", "", "This is not JSON: expected value at line 6"),
        ("out-of-range", "fork.tube_gap", "Between the tubes is −5, below what can be worked out. Give 40 to 300 mm."),
        ("truncated", "", "The file ends too early, in line 57."),
    ];
    for (file, field, message) in cases {
        let found = Setup::from_json(&fixture_text(&format!("broken/{file}.json"))).err().unwrap_or_default();
        let told = found.iter().find(|problem| problem.field == field);
        assert!(told.is_some_and(|problem| problem.message.starts_with(message)), "{file}: {found:#?}");
    }
}

#[test]
fn a_fault_in_the_text_shows_its_line_and_so_its_field() {
    let found = Setup::from_json(&fixture_text("broken/not-a-number.json")).err().unwrap_or_default();
    assert_eq!(found.first().map(|problem| problem.value.as_str()), Some("\"hub_width\": NaN,"));
}

#[test]
fn all_problems_are_told_at_once() {
    let found = problems_with(json!({
        "wheel": {"rotor_diameter": 2030, "hub_width": null},
        "side": "middle",
        "dropout": {"closed": "no"},
        "caliper": {"holes": [[0, 0]], "bodies": [{"name": "x", "outline": [[0, 0], [1, 1]], "inboard": 1}]},
        "extra": 1,
    }));
    let fields: Vec<&str> = found.iter().map(|problem| problem.field.as_str()).collect();
    for field in [
        "wheel.rotor_diameter",
        "wheel.hub_width",
        "side",
        "dropout.closed",
        "caliper.holes",
        "caliper.bodies.0.outline",
        "caliper.bodies.0.outboard",
        "caliper.bodies.0.bolted",
        "extra",
    ] {
        assert!(fields.contains(&field), "{field} is not among {fields:?}");
    }
}

#[test]
fn every_field_that_is_missing_is_named() {
    for group in describe_fields() {
        for field in group.fields.iter().filter(|field| !field.optional) {
            let mut json = default_json();
            let (parent, leaf) = field
                .key
                .rsplit_once('.')
                .map_or((String::new(), field.key), |(parent, leaf)| (format!("/{}", parent.replace('.', "/")), leaf));
            let object = json.pointer_mut(&parent).and_then(Value::as_object_mut);
            assert!(object.is_some_and(|object| object.remove(leaf).is_some()), "{} is in no default", field.key);
            let found = problems(&json);
            assert_eq!(found.len(), 1, "{}: {found:#?}", field.key);
            assert_eq!(found[0].field, field.key);
            assert!(found[0].message.contains("is missing. Add"), "{}", found[0].message);
        }
    }
}

/// Every group, by its key.
fn groups_within(json: &Value, path: &str) -> Vec<String> {
    let groups = json.as_object().into_iter().flatten().filter(|(_, value)| value.is_object());
    let named = groups.map(|(key, group)| (if path.is_empty() { key.clone() } else { format!("{path}.{key}") }, group));
    named.flat_map(|(path, group)| [groups_within(group, &path), vec![path]].concat()).collect()
}

/// A setup may do without a group of fields that it may do without.
fn may_be_left_out(group: &str) -> bool {
    let table = describe_fields();
    let mut inside =
        table.iter().flat_map(|one| &one.fields).filter(|field| field.key.starts_with(&format!("{group}.")));
    inside.all(|field| field.optional)
}

#[test]
fn every_group_that_is_missing_is_named() {
    let groups = groups_within(&default_json(), "");
    assert!(groups.iter().filter(|group| !may_be_left_out(group)).count() > 5, "{groups:?}");
    for group in groups {
        let mut json = default_json();
        let (parent, leaf) = group.rsplit_once('.').unwrap_or(("", &group));
        let pointer = if parent.is_empty() { String::new() } else { format!("/{}", parent.replace('.', "/")) };
        json.pointer_mut(&pointer).and_then(Value::as_object_mut).map(|object| object.remove(leaf));
        let found = problems(&json);
        if may_be_left_out(&group) {
            assert_eq!(found, [], "{group} may be left out");
        } else {
            assert!(
                found.iter().any(|problem| problem.field == group && problem.message.contains("is missing. Add it")),
                "{group}: {found:#?}"
            );
        }
    }
}

#[test]
fn every_number_is_refused_just_outside_its_range_and_taken_just_inside() {
    for field in describe_fields().iter().flat_map(|group| &group.fields).filter(|field| field.kind == "number") {
        let Some([low, high]) = field.hard else { continue };
        let pointer = format!("/{}", field.key.replace('.', "/"));
        let with = |value: Value| {
            let mut json = default_json();
            if let Some(slot) = json.pointer_mut(&pointer) {
                *slot = value;
            }
            problems(&json).into_iter().filter(|problem| problem.field == field.key).collect::<Vec<_>>()
        };
        for outside in [low - 0.001, high + 0.001] {
            let found = with(json!(outside));
            assert!(
                found.iter().any(|problem| problem.message.contains("what can be worked out")),
                "{}: {outside}",
                field.key
            );
        }
        for inside in [low, high] {
            let refused = with(json!(inside)).into_iter().any(|problem| problem.message.contains("worked out"));
            assert!(!refused, "{}: {inside} is in range", field.key);
        }
    }
}

#[test]
fn numbers_that_are_none_are_refused_in_code_too() {
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let mut setup = Setup::default();
        setup.tab.clock = bad;
        let found = tabwright_core::report(&setup).err().unwrap_or_default();
        assert_eq!(found.first().map(|problem| problem.field.as_str()), Some("tab.clock"), "{bad}");
    }
}

#[test]
fn numbers_next_to_nothing_are_worked_out_like_nothing() {
    for tiny in [f64::MIN_POSITIVE, 2e-308, 5e-324, 1e-160, -1e-200] {
        let report = |value: f64| {
            let setup = tabwright_tests::setup_with(&json!({"fork": {"axle_offset": value}, "tab": {"clock": value}}));
            tabwright_tests::report_of(&setup)
        };
        for (here, there) in report(tiny).pairs.iter().zip(&report(0.0).pairs) {
            tabwright_tests::assert_near(here.gap, there.gap, 1e-6, here.name);
        }
    }
}

#[test]
fn fields_that_contradict_each_other_are_refused() {
    assert_eq!(only_problem(json!({"wheel": {"rotor_inset": 50}})).field, "wheel.rotor_inset");
    assert_eq!(only_problem(json!({"fork": {"tube_wall": 12, "tube_diameter": 20}})).field, "fork.tube_wall");
    assert_eq!(only_problem(json!({"caliper": {"holes": [[1, 1], [1, 1]]}})).field, "caliper.holes");
    assert_eq!(only_problem(json!({"caliper": {"mount": "post"}})).field, "caliper.bolt_direction");
    let along_axle = json!({"caliper": {"mount": "post", "bolt_direction": [0, 0, 1]}});
    assert_eq!(only_problem(along_axle).field, "caliper.bolt_direction");
    assert_eq!(only_problem(json!({"caliper": {"line": {"direction": [0, 0, 0]}}})).field, "caliper.line.direction");
    assert_eq!(
        only_problem(json!({"caliper": {"pad": {"height": 60}}, "wheel": {"rotor_diameter": 90}})).field,
        "caliper.pad.height"
    );
}

#[test]
fn outlines_must_be_convex_whichever_way_round() {
    let body = |outline: Value| json!({"caliper": {"bodies": [{"name": "b", "outline": outline, "inboard": 1, "outboard": 1, "bolted": false}]}});
    for good in
        [json!([[0, 0], [4, 0], [4, 3]]), json!([[4, 3], [4, 0], [0, 0]]), json!([[0, 0], [2, 0], [4, 0], [4, 3]])]
    {
        assert!(problems_with(body(good.clone())).is_empty(), "{good}");
    }
    let star = json!([[0, 3], [2, -3], [-3, 1], [3, 1], [-2, -3]]);
    let eight = json!([[0, 0], [4, 3], [4, 0], [0, 3]]);
    let dent = json!([[0, 0], [4, 0], [1, 1], [0, 4]]);
    let flat = json!([[0, 0], [1, 0], [2, 0]]);
    for bad in [star, eight, dent, flat] {
        assert!(only_problem(body(bad.clone())).message.contains("not a convex outline"), "{bad}");
    }
}

/// An outline of that many corners on a circle, to a tenth of a millimetre: convex.
fn ring_of(corners: usize) -> Value {
    let at = |index: usize| (index as f64 / corners as f64 * std::f64::consts::TAU).sin_cos();
    let tenths = |share: f64| (share * 1000.0).round() / 10.0;
    json!((0..corners).map(at).map(|(sin, cos)| [tenths(cos), tenths(sin)]).collect::<Vec<_>>())
}

#[test]
fn bodies_stay_small_enough_for_a_link() {
    let body = |name: &str, corners: usize| json!({"name": name, "outline": ring_of(corners), "inboard": 1.000001, "outboard": 0.396875, "bolted": false});
    let with = |bodies: Vec<Value>| json!({"caliper": {"bodies": bodies}});
    assert_eq!(problems_with(with(vec![body("0123456789", 6); 8])), []);
    assert_eq!(problems_with(with(vec![body("01234567", 24); 2])), []);

    let found = only_problem(with(vec![body("x", 3); 9]));
    assert_eq!(found.message, "Bodies must be a list of 1 to 8 bodies.");
    let found = only_problem(with(vec![body("x", 17), body("y", 16), body("z", 16)]));
    assert_eq!(
        found.message,
        "Bodies have 49 corners together, but 48 is the most. Leave out those that matter least."
    );
    let found = only_problem(with(vec![body(&"x".repeat(40), 3), body(&"y".repeat(41), 3)]));
    assert_eq!(
        found.message,
        "Bodies have 81 characters in their names together, but 80 is the most. Shorten the names."
    );
    assert_eq!(found.field, "caliper.bodies");
    let found = only_problem(with(vec![body(&"ß".repeat(23), 3), body(&"語".repeat(15), 3)]));
    assert_eq!(
        found.message,
        "Bodies have 91 bytes in their names together, but 90 is the most. Shorten the names or use plain letters."
    );
}

#[test]
fn a_name_has_room_for_half_as_many_bytes_again_as_characters() {
    assert_eq!(problems_with(json!({"name": "x".repeat(80)})), []);
    let found = only_problem(json!({"name": "x".repeat(81)}));
    assert_eq!(found.message, "Name is too long. Keep it to 80 characters.");
    assert_eq!(problems_with(json!({"name": "ß".repeat(60)})), []);
    let found = only_problem(json!({"name": "ß".repeat(61)}));
    assert_eq!(found.message, "Name is too long. Keep it to 80 plain letters; others count as up to three.");
}

#[test]
fn a_setup_has_at_most_fifty_four_readings() {
    let readings = |count: usize| json!({"tack": {"before": {"hole_1": vec![100; count.min(5)], "hole_2": vec![100; 5], "spacing": vec![51; 5], "neck_1": vec![30; 5], "neck_2": vec![30; 5]}, "after": {"hole_1": vec![100; 5], "hole_2": vec![100; 5], "spacing": vec![51; 5], "neck_1": vec![30; 5], "neck_2": vec![30; 5], "step_1": vec![0; 5]}}});
    assert_eq!(problems_with(readings(4)), []);
    assert_eq!(
        only_problem(readings(5)).message,
        "Tack check: 55 readings together, but 54 is the most. Three of each are plenty: take the rest out."
    );
}

#[test]
fn bodies_are_given_to_six_decimals() {
    let body = |x: f64, inboard: f64| json!({"caliper": {"bodies": [{"name": "b", "outline": [[0, 0], [x, 0], [4, 3]], "inboard": inboard, "outboard": 1, "bolted": false}]}});
    for sixty_fourths in -1600..=1600 {
        let mm = f64::from(sixty_fourths) * 0.396_875_f64;
        let mm = (mm * 1e6).round() / 1e6;
        assert_eq!(problems_with(body(if mm == 0.0 { 1.0 } else { mm.abs().min(300.0) }, mm.abs().min(300.0))), []);
    }
    for (x, inboard, field) in [
        (4.000_000_1, 1.0, "caliper.bodies.0.outline"),
        (4.0, 1.0 / 3.0, "caliper.bodies.0.inboard"),
        (5e-324, 1.0, "caliper.bodies.0.outline"),
    ] {
        let found = only_problem(body(x, inboard));
        assert_eq!(found.field, field);
        assert!(found.message.contains("more than 6 decimals. Round it"), "{}", found.message);
    }
}

#[test]
fn unusual_numbers_are_warned_about_and_worked_out() {
    let mut json = default_json();
    merge(&mut json, &json!({"wheel": {"rotor_diameter": 260}}));
    let warnings = Setup::read(&json).map(|(_, warnings)| warnings).unwrap_or_default();
    assert_eq!(warnings.len(), 1, "{warnings:?}");
    assert_eq!(warnings[0].message, "Rotor size is 260; 139 to 230 mm is usual. Measure it again.");
}

#[test]
fn a_setup_survives_being_written_and_read() {
    let written = serde_json::to_string(&Setup::default()).unwrap_or_default();
    assert_eq!(Setup::from_json(&written).map(|(setup, _)| setup), Ok(Setup::default()));
}

/// Any JSON value, biased to what a setup holds.
fn any_json() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        (-1e4..1e4).prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        ".{0,12}".prop_map(Value::from),
    ];
    leaf.prop_recursive(3, 24, 6, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..6).prop_map(Value::from),
            prop::collection::hash_map("[a-z_]{0,10}", inner, 0..6).prop_map(Value::from_iter),
        ]
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever stands in the place of a field: an answer with finite numbers or problems in words, never a panic.
    #[test]
    fn nothing_in_the_place_of_a_field_makes_the_core_fall_over(index in 0usize..1000, value in any_json()) {
        let groups = describe_fields();
        let fields: Vec<&str> = groups.iter().flat_map(|group| &group.fields).map(|field| field.key).collect();
        let pointer = format!("/{}", fields[index % fields.len()].replace('.', "/"));
        let mut json = default_json();
        if let Some(slot) = json.pointer_mut(&pointer) {
            *slot = value;
        }
        match Setup::read(&json) {
            Ok((setup, _)) => {
                let report = tabwright_core::report(&setup).map_err(|problems| TestCaseError::fail(format!("{problems:?}")))?;
                // A number that is none would become null.
                let text = serde_json::to_string(&report.pairs).unwrap_or_default();
                prop_assert!(!text.contains("null"), "{text}");
            }
            Err(problems) => prop_assert!(problems.iter().all(|problem| !problem.message.is_empty())),
        }
    }

    /// Every number anywhere in its hard range, all at once; the bodies and points stay as they are.
    #[test]
    fn any_setup_inside_the_hard_ranges_is_worked_out_or_refused_in_words(shares in prop::collection::vec(0.0..=1.0, 100)) {
        let mut json = default_json();
        let groups = describe_fields();
        for (field, share) in groups.iter().flat_map(|group| &group.fields).zip(shares) {
            if let (Some([low, high]), Some(slot)) = (field.hard, json.pointer_mut(&format!("/{}", field.key.replace('.', "/")))) {
                let share: f64 = share;
                *slot = json!(low + (high - low) * share);
            }
        }
        if let Ok((setup, _)) = Setup::read(&json) {
            let report = tabwright_core::report(&setup).map_err(|problems| TestCaseError::fail(format!("{problems:?}")))?;
            let text = serde_json::to_string(&report).unwrap_or_default();
            let nulls = text.matches("null").count();
            // Only a post that is not there and a way out that is not blocked may be null.
            prop_assert!(nulls <= 3, "{text}");
            for view in [View::Side, View::Section] {
                let svg = draw(&setup, view).unwrap_or_default();
                prop_assert!(svg.starts_with("<svg") && !svg.contains("NaN") && !svg.contains("inf"), "{svg}");
            }
        }
    }

    #[test]
    fn no_text_makes_the_reader_fall_over(text in ".{0,200}") {
        let _ = Setup::from_json(&text);
    }
}
