//! What a tacked part is judged by: every limit worked by hand, on both of its sides, and how sure that is.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::build::{AsBuilt, Limit, allowed_tilt, bolt_play};
use tabwright_core::{BoltSize, Setup, Verdict};
use tabwright_tests::tacked::{Part, tacked};
use tabwright_tests::{assert_near, report_of, setup_with};

fn setups() -> Vec<Setup> {
    [
        json!({"tab": {"clock": 75, "reach": -1}, "caliper": {"holes": [[-22, 30], [29, 21]]}, "tack": {"running": 0.3}}),
        json!({"side": "right", "tab": {"clock": -40}, "caliper": {"lateral_adjust": 1.5, "bolt": {"size": "M5"}}}),
        json!({"tab": {"clock": 28}, "required": {"tube": 9, "line": 30}, "tack": {"accuracy": 0.3}}),
    ]
    .iter()
    .map(setup_with)
    .collect()
}

fn built(setup: &Setup, part: &Part) -> AsBuilt {
    let tacked = tacked(setup, &part.readings(setup));
    tacked.as_built.unwrap_or_else(|| unreachable!("{}", tacked.advice.text))
}

fn parts(setup: &Setup) -> Vec<Part> {
    let designed = Part::designed(setup);
    vec![
        designed,
        designed.moved([[0.5, -0.3], [-0.2, 0.6]], [0.3, -0.1]),
        designed.moved([[-0.5, 0.1], [0.1, -0.7]], [-0.2, 0.5]),
        designed.moved([[0.4, 0.4], [0.4, 0.4]], [1.6, 1.3]),
    ]
}

/// The farthest corner of a pad along the line of the holes has moved by the running clearance.
#[test]
fn the_tilt_allowed_brings_the_pads_farthest_corner_to_the_rotor() {
    for setup in setups() {
        let [[x1, y1], [x2, y2]] = setup.caliper.holes;
        let size = (x2 - x1).hypot(y2 - y1);
        let pad = &setup.caliper.pad;
        let corners = [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)];
        let along = |(x, y): (f64, f64)| (x * pad.length * (x2 - x1) + y * pad.height * (y2 - y1)) / 2.0 / size;
        let farthest = corners.map(along).into_iter().fold(0.0, f64::max);
        assert_near(allowed_tilt(&setup).to_radians().tan() * farthest, setup.tack.running, 1e-12, "at the limit");
    }
    // ISO 273, medium: M5 5.5 and M6 6.6.
    assert_near(bolt_play(BoltSize::M5), 0.5, 1e-12, "M5");
    assert_near(bolt_play(BoltSize::M6), 0.6, 1e-12, "M6");
}

#[test]
fn every_limit_is_what_it_is_by_hand() {
    for setup in setups() {
        let design = report_of(&setup);
        for part in parts(&setup) {
            let built = built(&setup, &part);
            let [[x1, y1], [x2, y2]] = setup.caliper.holes;
            let misfit = part.spacing() - (x2 - x1).hypot(y2 - y1);
            let tilt = ((part.steps[1] - part.steps[0]) / part.spacing()).atan().to_degrees();
            let (play, adjust) = (bolt_play(setup.caliper.bolt.size), setup.caliper.lateral_adjust);
            let least_cover = design.pad.coverage.min(0.95) - 0.05;
            let (slot, pads) = (built.misalignment, &built.pads);
            let mut expected = vec![
                ("spacing", "mm", misfit, built.spacing.uncertainty, Some(-play), Some(play)),
                ("sideways", "mm", slot.value, slot.uncertainty, Some(-adjust), Some(adjust)),
                ("tilt", "°", tilt, built.tilt.uncertainty, Some(-allowed_tilt(&setup)), Some(allowed_tilt(&setup))),
                ("coverage", "", pads.coverage.value, pads.coverage.uncertainty, Some(least_cover), None),
            ];
            for found in &built.pairs {
                // What was designed tight need not be wider, but not closer either; what was no pair then has all that is wanted.
                let designed = design.pairs.iter().find(|pair| pair.name == found.name).map(|pair| pair.gap);
                let least = designed.map_or(found.required, |gap| gap.max(0.0).min(found.required));
                expected.push((found.name, "mm", found.gap.value, found.gap.uncertainty, Some(least), None));
                assert_near(found.gap.designed, designed.unwrap_or(found.gap.value), 1e-6, found.name);
            }
            assert_eq!(built.limits.len(), expected.len());
            for (limit, (key, unit, value, uncertainty, low, high)) in built.limits.iter().zip(expected) {
                assert_eq!((limit.key, limit.unit), (key, unit));
                assert_near(limit.value, value, 1e-6, key);
                assert_near(limit.uncertainty, uncertainty, 1e-9, key);
                assert_eq!((limit.low.is_some(), limit.high.is_some()), (low.is_some(), high.is_some()), "{key}");
                assert_near(limit.low.unwrap_or(0.0), low.unwrap_or(0.0), 1e-6, key);
                assert_near(limit.high.unwrap_or(0.0), high.unwrap_or(0.0), 1e-6, key);
                assert_judged(limit);
                assert_told(limit);
            }
        }
    }
}

fn is_inside(limit: &Limit, value: f64) -> bool {
    // Gaps this close to a limit have reached it.
    limit.low.is_none_or(|low| value >= low - 1e-6) && limit.high.is_none_or(|high| value <= high + 1e-6)
}

fn assert_judged(limit: &Limit) {
    let [less, at, more] = [-1.0, 0.0, 1.0].map(|by| is_inside(limit, limit.value + by * limit.uncertainty));
    assert_eq!((limit.ok, limit.sure), (at, less == at && more == at), "{}", limit.sentence);
}

fn assert_told(limit: &Limit) {
    let told = |value: f64| match limit.unit {
        "mm" => format!("{value:.2} mm"),
        "°" => format!("{value:.2}°"),
        _ => format!("{:.0} %", (value * 100.0 + 1e-9).floor()),
    };
    let label = match limit.key {
        "spacing" => "Hole spacing against the caliper's".to_owned(),
        "sideways" => "Slot against rotor".to_owned(),
        "tilt" => "Tilt along the holes".to_owned(),
        "coverage" => "Pad on the braking band".to_owned(),
        _ => limit.label.clone(),
    };
    assert_eq!(limit.label, label);
    let allowed = match (limit.low, limit.high) {
        (_, Some(high)) => format!("±{} is allowed", told(high)),
        (low, None) => format!("{} at least is wanted", told(low.unwrap())),
    };
    let start = label[..1].to_uppercase() + &label[1..];
    let sentence = format!("{start}: {} ± {}; {allowed}.", told(limit.value), told(limit.uncertainty));
    // Numbers have a true minus sign, and none before nought.
    assert_eq!(limit.sentence, sentence.replace("-0.00 ", "0.00 ").replace("-0.00°", "0.00°").replace(": -", ": −"));
}

/// One limit after the other, a little inside, less than its ± inside, and beyond.
#[test]
fn a_part_is_sure_where_both_ends_of_its_uncertainty_are_on_the_same_side() {
    let setup = setup_with(&json!({"tab": {"clock": 75}}));
    let designed = Part::designed(&setup);
    let along = designed.along();
    let apart = |by: f64| designed.moved([[0.0; 2], along.map(|way| way * by)], [0.0; 2]);
    let aside = |by: f64| designed.moved([[0.0; 2]; 2], [by; 2]);
    let tilted = |by: f64| designed.moved([[0.0; 2]; 2], [-by, by]);
    let of = |part: &Part, key: &str| {
        let limit = built(&setup, part).limits.into_iter().find(|limit| limit.key == key).unwrap();
        (limit.uncertainty, limit.ok, limit.sure)
    };
    type Moved<'a> = &'a dyn Fn(f64) -> Part;
    // Steps of ± x tilt holes 51 mm apart by 2x/51; 0.2 mm at the end of half a pad of 30 mm are allowed.
    let half = 51.0 * 0.2 / 15.0 / 2.0;
    let ways: [(&str, Moved<'_>, f64, f64); 3] = [
        ("spacing", &apart, 0.6, 1.0),
        ("sideways", &aside, 2.0, 1.0),
        ("tilt", &tilted, half, 51.0 / 2.0 * 1.0_f64.to_radians()),
    ];
    for (key, moved, end, per_unit) in ways {
        for side in [-1.0, 1.0] {
            let uncertainty = of(&moved(side * end), key).0 * per_unit;
            for (by, ok, sure) in [(-1.1, true, true), (-0.9, true, false), (0.9, false, false), (1.1, false, true)] {
                let (_, is_ok, is_sure) = of(&moved(side * (end + by * uncertainty)), key);
                assert_eq!((is_ok, is_sure), (ok, sure), "{key}, {by} of its ± from {end}");
            }
        }
    }
    let mut wanting = setup;
    let part = designed.moved([[0.3, 0.0], [0.3, 0.0]], [0.0; 2]);
    let gap = |setup: &Setup| built(setup, &part).pairs.into_iter().find(|pair| pair.name == "caliper/tube").unwrap();
    let (value, by) = (gap(&wanting).gap.value, gap(&wanting).gap.uncertainty);
    for (required, verdict, sure) in [
        (value - 1.1 * by, Verdict::Clears, true),
        (value - 0.9 * by, Verdict::Clears, false),
        (value + 0.9 * by, Verdict::Tight, false),
        (value + 1.1 * by, Verdict::Tight, true),
    ] {
        wanting.required.tube = required;
        let pair = gap(&wanting);
        assert_eq!((pair.verdict, pair.sure), (verdict, sure), "{required} wanted of {value} ± {by}");
        assert_near(pair.margin, value - required, 1e-9, "margin");
    }
}
