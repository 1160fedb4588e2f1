//! Laws that hold by geometry, whatever the numbers.

use proptest::prelude::*;
use serde_json::{Value, json};
use tabwright_core::{Report, Setup, Side};
use tabwright_tests::{fixture_text, report_of, setup_with};

/// Every setup that the second opinions were asked about: both sides, both mounts, all joints.
fn setups() -> Vec<Setup> {
    let text = fixture_text("reference/kernel.jsonl");
    let cases = text.lines().map(|line| serde_json::from_str::<Value>(line).unwrap_or_default());
    cases.map(|case| setup_with(&case["changes"])).collect()
}

fn assert_same_gaps(a: &Report, b: &Report, scale: f64, what: &str) {
    assert_eq!(a.pairs.len(), b.pairs.len(), "{what}");
    // The stretch of line that is looked at has a fixed length and does not scale.
    let scales = |name: &str| scale == 1.0 || !name.starts_with("line/");
    for (a, b) in a.pairs.iter().zip(&b.pairs).filter(|(a, _)| scales(a.name)) {
        assert_eq!(a.name, b.name, "{what}");
        // Depths are found iteratively; a hundredth of the promised accuracy is asked of them.
        assert!(
            (a.gap * scale - b.gap).abs() < 1e-4 * scale.max(1.0),
            "{what}, {}: {} and {}",
            a.name,
            a.gap * scale,
            b.gap
        );
    }
}

/// The mirror image of a setup: the other side, with a caliper of the other hand.
fn mirrored(setup: &Setup) -> Setup {
    let mut other = setup.clone();
    other.side = match setup.side {
        Side::Left => Side::Right,
        Side::Right => Side::Left,
    };
    let caliper = &mut other.caliper;
    caliper.holes.iter_mut().for_each(|hole| hole[0] = -hole[0]);
    caliper.bodies.iter_mut().flat_map(|body| &mut body.outline).for_each(|corner| corner[0] = -corner[0]);
    caliper.line.exit[0] = -caliper.line.exit[0];
    caliper.line.direction[0] = -caliper.line.direction[0];
    if let Some(direction) = &mut caliper.bolt_direction {
        direction[0] = -direction[0];
    }
    other
}

/// The setup with every length multiplied by `scale`, beyond the ranges of the field table.
fn scaled(setup: &Setup, scale: f64) -> Setup {
    fn lengths(value: &mut Value, path: &str, scale: f64) {
        const NO_LENGTHS: [&str; 8] = [
            ".version",
            ".fork.leg_angle",
            ".dropout.slot_direction",
            ".tab.clock",
            ".tolerance.tab_tilt",
            ".caliper.line.direction",
            ".caliper.bolt_direction",
            ".load",
        ];
        if NO_LENGTHS.iter().any(|skip| path.starts_with(skip)) {
            return;
        }
        match value {
            Value::Object(map) => {
                map.iter_mut().for_each(|(key, value)| lengths(value, &format!("{path}.{key}"), scale))
            }
            Value::Array(list) => list.iter_mut().for_each(|value| lengths(value, path, scale)),
            // Bodies are given in six decimals.
            Value::Number(number) => *value = json!((number.as_f64().unwrap_or(f64::NAN) * scale * 1e6).round() / 1e6),
            _ => {}
        }
    }
    let mut json = serde_json::to_value(setup).unwrap_or_default();
    lengths(&mut json, "", scale);
    Setup::read(&json).map(|(setup, _)| setup).unwrap_or_else(|_| setup.clone())
}

#[test]
fn a_mirrored_setup_has_the_same_gaps() {
    for setup in setups() {
        let (here, there) = (report_of(&setup), report_of(&mirrored(&setup)));
        assert_same_gaps(&here, &there, 1.0, "mirror");
        assert_eq!(here.wheel_removal.comes_out, there.wheel_removal.comes_out);
        assert!((here.line.angle - there.line.angle).abs() < 1e-9);
    }
}

/// Lands that are as far from the axle either could hold the tab's web.
#[test]
fn the_order_of_the_holes_changes_no_gap() {
    for clock in [-150.0, -90.0, -20.0, 28.0, 75.0, 110.0, 165.0] {
        for axle_offset in [-30.0, 0.0, 40.0] {
            let mut setup = setup_with(&json!({
                "tab": {"clock": clock},
                "fork": {"axle_offset": axle_offset, "tube_end": 90},
                "caliper": {
                    "holes": [[-40, -10], [40, -10]],
                    "bodies": [{"name": "b", "outline": [[25, -45], [35, -45], [30, -35]], "inboard": 20, "outboard": 20, "bolted": false}],
                },
            }));
            let here = report_of(&setup);
            setup.caliper.holes.swap(0, 1);
            assert_same_gaps(&here, &report_of(&setup), 1.0, &format!("order of holes at {clock}, {axle_offset}"));
        }
    }
}

#[test]
fn the_leg_angle_changes_no_gap() {
    for mut setup in setups() {
        let here = report_of(&setup);
        setup.fork.leg_angle = 80.0;
        assert_same_gaps(&here, &report_of(&setup), 1.0, "leg angle");
    }
}

#[test]
fn scaling_every_length_scales_every_gap() {
    let mut tried = 0;
    for setup in setups() {
        for scale in [0.9, 1.1] {
            let other = scaled(&setup, scale);
            if other != setup {
                assert_same_gaps(&report_of(&setup), &report_of(&other), scale, "scale");
                tried += 1;
            }
        }
    }
    assert!(tried > 300, "only {tried} scaled setups are inside the ranges");
}

#[test]
fn turning_the_caliper_about_the_axle_leaves_what_is_round_alone() {
    let at = |clock: f64| report_of(&setup_with(&json!({"tab": {"clock": clock}})));
    let gap = |report: &Report, name: &str| report.pairs.iter().find(|pair| pair.name == name).map(|pair| pair.gap);
    let here = at(28.0);
    for clock in [-170.0, -60.0, 0.0, 90.0, 180.0] {
        let there = at(clock);
        for name in ["caliper/spokes", "caliper/nut", "line/rotor", "line/spokes", "rotor/throat"] {
            let (a, b) = (gap(&here, name).unwrap_or(f64::NAN), gap(&there, name).unwrap_or(f64::NAN));
            assert!((a - b).abs() < 1e-5, "{name} at {clock}: {a} and {b}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    /// A verdict follows its two numbers and nothing else.
    #[test]
    fn asking_for_more_room_never_betters_a_verdict(rotor in 140.0..220.0, clock in -180.0..180.0, more in 0.0..5.0) {
        let at = |extra: f64| report_of(&setup_with(&json!({
            "wheel": {"rotor_diameter": rotor},
            "tab": {"clock": clock},
            "required": {"tube": 3.0 + extra, "plate": 1.5 + extra, "spokes": 2.0 + extra},
        })));
        prop_assert!(at(more).verdict >= at(0.0).verdict);
    }

    /// A tube that ends higher or stands further out never comes nearer to the caliper.
    #[test]
    fn a_higher_or_wider_tube_never_comes_nearer(end in 5.0..80.0, more in 0.0..40.0, clock in -180.0..180.0) {
        let gap = |tube_end: f64, tube_gap: f64| {
            let report = report_of(&setup_with(&json!({"fork": {"tube_end": tube_end, "tube_gap": tube_gap}, "tab": {"clock": clock}})));
            report.pairs.iter().find(|pair| pair.name == "caliper/tube").map_or(f64::NAN, |pair| pair.gap)
        };
        let here = gap(end, 112.0);
        // Depths may shrink either way inside an overlap, so only true gaps are compared.
        if here > 0.0 {
            prop_assert!(gap(end + more, 112.0) >= here - 1e-5);
        }
    }
}
