//! The sideways stack: published sums and tables, scipy's normal distribution, simulation, and closed forms.

use serde_json::{Value, json};
use tabwright_core::Setup;
use tabwright_core::build::{
    ClassRow, Shape, iso_2768, iso_13920, iso_13920_angle, iso_13920_flatness, normal_below, normal_between, rub_tilt,
    stack, sum_of,
};
use tabwright_tests::{assert_near, fixture_text, setup_with};

fn scipy() -> Value {
    serde_json::from_str(&fixture_text("reference/normal.json")).unwrap_or_default()
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().map_or_else(Vec::new, |list| list.iter().filter_map(Value::as_f64).collect())
}

/// Three parts of 2.000 ± .005, 1.500 ± .003 and 0.500 ± .002 in a slot of 4.020 ± .005: gap 0.020, worst case ± 0.015
/// (0.005 to 0.035), root sum of squares ± 0.00794 (0.012 to 0.028): ficientdesign.com/tolerance-stack-up-analysis.
#[test]
fn three_parts_in_a_slot_add_up_as_published() {
    let (worst, rss) = sum_of([0.005, 0.003, 0.002, 0.005]);
    let gap = 4.020 - 2.000 - 1.500 - 0.500;
    assert_near(worst, 0.015, 1e-12, "worst case");
    assert_near(rss, 0.00794, 5e-6, "root sum of squares");
    for (got, published) in [(gap - worst, 0.005), (gap + worst, 0.035), (gap - rss, 0.012), (gap + rss, 0.028)] {
        assert_near(got, published, 5e-4, "gap");
    }
}

/// 5 × ± 0.1: worst ± 0.5, root sum of squares ± 0.224; 10 × ± 0.1: ± 1.0 and ± 0.316: mech.toolfusion.net/?p=440.
#[test]
fn equal_parts_add_up_as_published() {
    for (count, worst, rss) in [(5, 0.5, 0.224), (10, 1.0, 0.316)] {
        let (got_worst, got_rss) = sum_of(std::iter::repeat_n(0.1, count));
        assert_near(got_worst, worst, 1e-12, "worst case");
        assert_near(got_rss, rss, 5e-4, "root sum of squares");
    }
}

/// ISO 2768-1, ± mm for 0.5–3, 3–6, 6–30, 30–120, 120–400, 400–1000: a copy of DIN ISO 2768-1; c of the two smallest
/// ranges from memory. ISO 13920, linear, ± mm for 2–30, 30–120, 120–400, 400–1000, 1000–2000, and angles for a shorter
/// leg up to 400, 1000 and beyond, and flatness for 30–120, 120–400, 400–1000: modulusmetal.com's ISO 13920 page; that ±1 up
/// to 30 mm goes for all classes is from memory. Sizes at the end of a range belong to it.
#[test]
fn tolerance_classes_are_those_of_the_tables() {
    let column = |rows: &[ClassRow], class: &str| rows.iter().find(|row| row.class == class).map(|row| row.tolerance);
    let sizes_2768 = [[0.5, 3.0], [3.1, 6.0], [6.1, 30.0], [30.1, 120.0], [120.1, 400.0], [400.1, 1000.0]];
    let table_2768 = [
        ("f", [Some(0.05), Some(0.05), Some(0.1), Some(0.15), Some(0.2), Some(0.3)]),
        ("m", [Some(0.1), Some(0.1), Some(0.2), Some(0.3), Some(0.5), Some(0.8)]),
        ("c", [Some(0.2), Some(0.3), Some(0.5), Some(0.8), Some(1.2), Some(2.0)]),
        ("v", [None, Some(0.5), Some(1.0), Some(1.5), Some(2.5), Some(4.0)]),
    ];
    for (class, expected) in table_2768 {
        for (sizes, expected) in sizes_2768.into_iter().zip(expected) {
            for size in sizes {
                assert_eq!(column(&iso_2768(size), class), expected, "{class} at {size}");
            }
        }
    }
    let sizes_13920 = [[2.0, 30.0], [30.1, 120.0], [120.1, 400.0], [400.1, 1000.0], [1000.1, 2000.0]];
    let table_13920 = [
        ("A", [1.0, 1.0, 1.0, 2.0, 3.0]),
        ("B", [1.0, 2.0, 2.0, 3.0, 4.0]),
        ("C", [1.0, 3.0, 4.0, 6.0, 8.0]),
        ("D", [1.0, 4.0, 7.0, 9.0, 12.0]),
    ];
    for (class, expected) in table_13920 {
        for (sizes, expected) in sizes_13920.into_iter().zip(expected) {
            for size in sizes {
                assert_eq!(column(&iso_13920(size), class), Some(expected), "{class} at {size}");
            }
        }
    }
    let minutes =
        [("A", [20.0, 15.0, 10.0]), ("B", [45.0, 30.0, 20.0]), ("C", [60.0, 45.0, 30.0]), ("D", [90.0, 75.0, 60.0])];
    for (class, expected) in minutes {
        for (leg, expected) in [51.0, 700.0, 1500.0].into_iter().zip(expected) {
            assert_near(column(&iso_13920_angle(leg), class).unwrap_or(0.0) * 60.0, expected, 1e-9, class);
        }
    }
    // The same table in mm per metre of the shorter leg up to 400: A 6, B 13, C 18, D 26 (rounded there).
    for (class, per_metre) in [("A", 6.0), ("B", 13.0), ("C", 18.0), ("D", 26.0)] {
        let angle: f64 = column(&iso_13920_angle(51.0), class).unwrap_or(0.0);
        assert_near(1000.0 * angle.to_radians().tan(), per_metre, 0.6, class);
    }
    for (class, expected) in [("E", [0.5, 1.0, 1.5]), ("F", [1.0, 1.5, 3.0])] {
        for (length, expected) in [51.0, 400.0, 401.0].into_iter().zip(expected) {
            assert_eq!(column(&iso_13920_flatness(length), class), Some(expected), "{class} over {length}");
        }
    }
    assert!(iso_2768(0.4).is_empty() && iso_2768(1001.0).is_empty() && iso_13920(1.9).is_empty());
}

#[test]
fn normal_shares_agree_with_scipy() {
    let scipy = scipy();
    let below = scipy["below"].as_array().cloned().unwrap_or_default();
    assert!(below.len() > 60);
    for row in &below {
        let [z, share] = numbers(row)[..] else { unreachable!("two numbers a row") };
        assert_near(normal_below(z), share, 1e-9, &format!("below {z}"));
        // In the tail a share of nothing would be within 1e-9 too.
        assert_near(normal_below(z) / share, 1.0, 1e-9, &format!("below {z}, as a ratio"));
    }
    for row in scipy["between"].as_array().cloned().unwrap_or_default() {
        let [mean, spread, low, high, share] = numbers(&row)[..] else { unreachable!("five numbers a row") };
        assert_near(normal_between(mean, spread, low, high), share, 1e-9, &format!("{row}"));
    }
}

/// A setup whose dimensions contribute 0.3, 0.15, 0.5, 0.1 and 0.2, the tilt by the 26 mm from holes to pads.
fn spread_setup(adjust: f64) -> Setup {
    let tilt = 0.1 / (26.0 * 1.0_f64.to_radians());
    let mut setup = Setup::default();
    setup.caliper.lateral_adjust = adjust;
    setup.tolerance.tab_tilt = tilt;
    setup
}

/// Shares by scipy: normal by its distribution, uniform and triangular by integrals over their characteristic functions.
#[test]
fn simulation_and_formula_agree_with_scipy_within_the_standard_error() {
    for case in scipy()["shapes"].as_array().cloned().unwrap_or_default() {
        let adjust = case[0].as_f64().unwrap_or(0.0);
        let stack = stack(&spread_setup(adjust));
        let effects: Vec<f64> = stack.contributions.iter().map(|one| one.effect).filter(|one| *one > 0.0).collect();
        for (got, expected) in effects.iter().zip(numbers(&case[1])) {
            assert_near(*got, expected, 1e-12, "effect");
        }
        assert_near(stack.within, case[2].as_f64().unwrap_or(0.0), 1e-9, "share by the formula");
        for (place, shape) in [(2, Shape::Normal), (3, Shape::Uniform), (4, Shape::Triangular)] {
            let expected = case[place].as_f64().unwrap_or(0.0);
            let simulated = stack.simulation.shapes.iter().find(|one| one.shape == shape);
            let Some(simulated) = simulated else { unreachable!("all shapes are drawn") };
            let error = (expected * (1.0 - expected) / stack.simulation.builds).sqrt();
            // The seed is fixed; three standard errors fail one seed in 370.
            assert_near(simulated.within, expected, 3.0 * error, &format!("{shape:?} within {adjust}"));
            assert_near(simulated.standard_error, error, 0.35 * error, "its standard error");
        }
    }
}

/// What a millimetre or degree does, by moving the solids themselves: the slot's place against the rotor's.
#[test]
fn sensitivities_are_what_moving_the_parts_does() {
    for face in ["inner", "outer"] {
        let setup = setup_with(&json!({"caliper": {"mating_face": face}}));
        let stack = stack(&setup);
        let sensitivity =
            |field: &str| stack.contributions.iter().find(|one| one.field == field).map(|one| one.sensitivity);
        let plate = if face == "outer" { 1.0 } else { 0.0 };
        for (field, expected) in [
            ("hub_width", 0.0),
            ("rotor_inset", 1.0),
            ("tab_offset", 1.0),
            ("plate", plate),
            ("mount_depth", -1.0),
            ("runout", 1.0),
        ] {
            let got = sensitivity(&format!("tolerance.{field}")).unwrap_or(f64::NAN);
            assert_near(got, expected, 1e-9, &format!("{field}, {face} face"));
        }
        // A tab turned by a degree about its holes swings the pads, 26 mm away, out by the arc.
        assert_near(
            sensitivity("tolerance.tab_tilt").unwrap_or(f64::NAN),
            26.0 * std::f64::consts::PI / 180.0,
            1e-9,
            "tilt",
        );
    }
}

#[test]
fn worst_case_and_decisive_dimension_are_those_of_the_sum() {
    let stack = stack(&setup_with(&json!({"tab": {"offset": 0.4}})));
    let tilt = 26.0 * 0.3_f64.to_radians();
    let worst = 0.3 + 0.15 + 0.5 + 0.2 + tilt;
    assert_near(stack.misalignment, 0.4, 1e-12, "misalignment");
    assert_near(stack.worst, worst, 1e-12, "worst case");
    assert_near(stack.rss, (0.09_f64 + 0.0225 + 0.25 + 0.04 + tilt * tilt).sqrt(), 1e-12, "root sum of squares");
    assert_near(stack.ranges.worst[1], 0.4 + worst, 1e-12, "range");
    assert_eq!(stack.decisive, Some("tolerance.tab_offset"));
    assert_near(stack.contributions.iter().map(|one| one.share).sum(), 1.0, 1e-12, "shares of the variance");
    let none = json!({"tolerance": {"hub_width": 0, "rotor_inset": 0, "plate": 0, "tab_offset": 0, "mount_depth": 0, "runout": 0, "tab_tilt": 0}});
    let exact = tabwright_core::build::stack(&setup_with(&none));
    assert_eq!((exact.worst, exact.rss, exact.within, exact.decisive), (0.0, 0.0, 1.0, None));
}

#[test]
fn always_flips_where_the_worst_case_uses_up_the_adjustment() {
    let worst = stack(&Setup::default()).worst;
    for (adjust, always) in [(worst, true), (worst + 1e-5, true), (worst - 1e-5, false)] {
        let mut setup = Setup::default();
        setup.caliper.lateral_adjust = adjust;
        assert_eq!(stack(&setup).always, always, "adjustment {adjust}");
    }
}

#[test]
fn the_tab_is_held_where_99_of_100_builds_are_inside_and_no_wider() {
    let mut setup = spread_setup(0.5);
    let held = stack(&setup).tab;
    let Some(most) = held.tolerance else { unreachable!("a true tab leaves more than 99 % here") };
    assert!(!held.held);
    for (tolerance, is_enough) in [(most, true), (most + 1e-4, false)] {
        setup.tolerance.tab_offset = tolerance;
        let stack = stack(&setup);
        assert_eq!(stack.within >= 0.99 - 1e-12, is_enough, "{tolerance}: {}", stack.within);
        assert_eq!(stack.tab.held, is_enough);
    }
    setup.tolerance.rotor_inset = 1.0;
    let none = stack(&setup).tab;
    assert_eq!(none.tolerance, None, "{}", none.sentence);
}

/// Closed forms: a pad of length l turned by the angle t about its middle moves its ends by l/2 · tan t.
#[test]
fn a_tilted_pad_rubs_where_its_end_has_used_up_the_running_clearance() {
    let setup = setup_with(&json!({"tolerance": {"tab_tilt": 0.5, "runout": 0.15}, "tack": {"running": 0.2}}));
    let tilt = stack(&setup).tilt;
    assert_near(tilt.length.taper, 30.0 * 0.5_f64.to_radians().tan(), 1e-12, "taper over the length");
    assert_near(tilt.height.taper, 16.0 * 0.5_f64.to_radians().tan(), 1e-12, "taper over the height");
    for (way, size) in [(tilt.length, 30.0), (tilt.height, 16.0)] {
        assert_near(way.rub.to_radians().tan() * size / 2.0, 0.2, 1e-12, "at the rub threshold");
        assert_near(way.clear.to_radians().tan() * size / 2.0, 0.05, 1e-12, "at the threshold with runout");
    }
    let limit = rub_tilt(30.0, 0.2);
    for (tolerance, rubs) in [(limit - 1e-9, false), (limit + 1e-9, true)] {
        let mut setup = setup.clone();
        setup.tolerance.tab_tilt = tolerance;
        assert_eq!(stack(&setup).tilt.length.rubs, rubs, "{tolerance}");
    }
}

#[test]
fn suggestions_are_for_the_setup_s_own_sizes() {
    let stack = stack(&Setup::default());
    let class = |field: &str| stack.classes.iter().find(|one| one.field == field);
    // 100 mm lies in 30–120, 15 mm in 6–30, a plate of 6 mm in 3–6; the tilt is one of a shorter leg below 400 mm.
    for (field, standard, name, expected) in [
        ("tolerance.hub_width", "ISO 2768-1", "m", 0.3),
        ("tolerance.rotor_inset", "ISO 2768-1", "m", 0.2),
        ("tolerance.plate", "ISO 2768-1", "m", 0.1),
        ("tolerance.mount_depth", "ISO 2768-1", "c", 0.5),
        ("tolerance.tab_offset", "ISO 13920", "B", 1.0),
        ("tolerance.tab_tilt", "ISO 13920", "B", 0.75),
    ] {
        let row =
            class(field).and_then(|one| one.rows.iter().find(|row| row.standard == standard && row.class == name));
        assert_near(row.map_or(f64::NAN, |row| row.tolerance), expected, 1e-12, field);
    }
}
