//! The message that explains a setup: true to the reports, short, and never without its caution.

use std::collections::HashSet;

use proptest::prelude::*;
use serde_json::{Value, json};
use tabwright_core::search::explain;
use tabwright_core::{Outcome, Report, Setup};
use tabwright_tests::{pair, report_of, setup_with};

/// How the message says what its angles are counted from, and the only numbers in it that are no setup's own.
const ANGLES: &str = " (0° is up the leg, 90° back)";

fn message(setup: &Setup, other: Option<&Setup>) -> String {
    explain(setup, other).map(|explanation| explanation.message).unwrap_or_else(|problems| format!("{problems:?}"))
}

/// Every number in a text, as written there.
fn numbers(text: &str) -> HashSet<String> {
    let is_part = |char: char| char.is_ascii_digit() || char == '.' || char == '−';
    let words = text.split(|char| !is_part(char)).map(|word| word.trim_end_matches('.').to_owned());
    words.filter(|word| word.chars().any(|char| char.is_ascii_digit())).collect()
}

/// Every number in plain data as a builder may be shown it, and every number in its sentences.
fn known(data: &Value, found: &mut HashSet<String>) {
    match data {
        Value::Number(number) => {
            let value = number.as_f64().unwrap_or_default();
            // The standard library's rounding stands against the core's own.
            let shown = [
                value.to_string(),
                format!("{value:.3}"),
                format!("{value:.1}"),
                format!("{value:.0}"),
                format!("{:.1}", -value),
            ];
            found.extend(shown.map(|text| text.replace('-', "−")));
        }
        Value::String(text) => found.extend(numbers(text)),
        Value::Array(items) => items.iter().for_each(|item| known(item, found)),
        Value::Object(members) => members.values().for_each(|member| known(member, found)),
        _ => {}
    }
}

fn known_to(setup: &Setup, report: &Report) -> HashSet<String> {
    let mut found = HashSet::new();
    known(&json!({"setup": setup, "report": report}), &mut found);
    found
}

/// A wide fork takes the larger rotor where it has no room for the smaller: the smaller rotor brings the caliper nearer to
/// the axle, between tube and wheel. Common practice, no source.
#[test]
fn the_first_page_says_why_203_works_and_180_does_not() {
    let (large, small) = (Setup::default(), setup_with(&json!({"wheel": {"rotor_diameter": 180}})));
    let (fits, hits) = (report_of(&large), report_of(&small));
    assert_eq!((fits.verdict, hits.verdict), (Outcome::Clears, Outcome::Hits));
    let text = message(&large, Some(&small));
    let binding = pair(&hits, hits.binding);
    for part in [
        "left fork leg, rotor 203, hub 100 mm wide, 112 mm between the tubes, caliper at 28°".to_owned(),
        format!("It fits. {}", fits.summary),
        format!("Why not rotor 180? {}", hits.summary),
        format!(
            "Gap from {}: {:.1} mm with rotor 203, −{:.1} mm with rotor 180.",
            binding.label,
            pair(&fits, hits.binding).gap,
            -binding.gap
        ),
        format!("pads' middle is {:.1} mm from the axle instead of {:.1} mm", hits.pad.radius, fits.pad.radius),
    ] {
        assert!(text.contains(&part), "\"{part}\" is not in:\n{text}");
    }
    // The rotors' edges, and so the calipers, are (203 − 180) / 2 apart.
    assert!((fits.pad.radius - hits.pad.radius - 11.5).abs() < 1e-9);
    assert!(message(&small, Some(&large)).contains("It does not fit. "));
    assert!(message(&small, Some(&large)).contains("Better with rotor 203: Everything clears."));
}

#[test]
fn alone_a_setup_is_explained_without_another() {
    let text = message(&Setup::default(), None);
    assert_eq!(text.split("\n\n").count(), 3, "{text}");
    assert!(text.starts_with("Disc brake on the left") && !text.contains("with rotor"), "{text}");
}

#[test]
fn what_spoils_a_setup_that_fits_is_told() {
    let closed = setup_with(&json!({"dropout": {"closed": true}, "caliper": {"line": {"direction": [0.7, -0.7, 0]}}}));
    let (text, report) = (message(&closed, None), report_of(&closed));
    assert!(text.contains(&report.line.sentence) && text.contains(&report.wheel_removal.sentence), "{text}");
}

#[test]
fn a_name_opens_the_message_and_is_cut_where_it_is_long() {
    let named = setup_with(&json!({"name": "Cargo trike, front"}));
    assert!(message(&named, None).starts_with("Cargo trike, front: disc brake"));
    let long = setup_with(&json!({"name": "ß".repeat(60)}));
    assert!(message(&long, None).starts_with(&("ß".repeat(40) + ": disc")));
}

#[test]
fn a_setup_that_cannot_be_worked_out_has_no_message() {
    let mut broken = Setup::default();
    broken.wheel.hub_width = f64::NAN;
    for pair in [(&broken, None), (&Setup::default(), Some(&broken))] {
        let problems = explain(pair.0, pair.1).err().unwrap_or_default();
        assert_eq!(problems.first().map(|problem| problem.field.as_str()), Some("wheel.hub_width"));
    }
}

fn any_setup() -> impl Strategy<Value = Setup> {
    let numbers = (139.0..230.0, 70.0..200.0, 80.0..220.0, -180.0..180.0, -8.0..8.0, -3.0..5.0, 5.0..100.0);
    (numbers, any::<bool>(), any::<bool>()).prop_map(|((rotor, hub, gap, clock, offset, reach, end), left, closed)| {
        setup_with(&json!({
            "side": if left { "left" } else { "right" },
            "wheel": {"rotor_diameter": rotor, "hub_width": hub},
            "fork": {"tube_gap": gap, "tube_end": end},
            "dropout": {"closed": closed},
            "tab": {"clock": clock, "offset": offset, "reach": reach},
        }))
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_number_is_from_the_reports_and_the_message_stays_short(setup in any_setup(), other in any_setup()) {
        let (own, second) = (report_of(&setup), report_of(&other));
        let text = message(&setup, Some(&other));
        prop_assert!(text.chars().count() <= 700, "{} characters:\n{text}", text.chars().count());
        prop_assert!(text.ends_with("before you weld; loads are estimates: proof-test, look for cracks, local rules come first."), "{text}");
        prop_assert!(text.contains("Geometry only, not an approval"), "{text}");
        prop_assert!(text.contains(&own.summary) && text.contains(&second.summary), "{text}");
        prop_assert_eq!(text.contains("It fits."), own.verdict == Outcome::Clears, "{}", text);
        prop_assert_eq!(text.contains("Why not"), second.verdict > own.verdict, "{}", text);
        prop_assert_eq!(text.contains("Better with"), second.verdict < own.verdict, "{}", text);

        let known: HashSet<String> = known_to(&setup, &own).union(&known_to(&other, &second)).cloned().collect();
        let rounded = |number: &String| known.contains(number) || known.iter().any(|known| known.trim_end_matches('0') == number);
        let strange: Vec<String> = numbers(&text.replace(ANGLES, "")).into_iter().filter(|number| !rounded(number)).collect();
        prop_assert!(strange.is_empty(), "{strange:?} in:\n{text}");
    }
}
