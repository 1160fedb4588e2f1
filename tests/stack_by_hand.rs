//! The sideways stack worked by hand: sums, shares, and what the tab must be held to.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::Setup;
use tabwright_core::build::{Stack, share_within, stack};
use tabwright_tests::{assert_near, setup_with};

fn setups() -> Vec<Setup> {
    [
        json!({}),
        json!({"tab": {"offset": 0.9}}),
        json!({"tab": {"offset": -1.1}, "caliper": {"mating_face": "outer", "mount_depth": 20}}),
        json!({"caliper": {"lateral_adjust": 0.6}}),
        json!({"caliper": {"lateral_adjust": 0.2}}),
        json!({"caliper": {"lateral_adjust": 6}, "tolerance": {"tab_offset": 0.1}}),
        json!({"tolerance": {"tab_offset": 2}, "caliper": {"lateral_adjust": 1}}),
        json!({"tab": {"offset": -0.7}, "caliper": {"holes": [[-22, 30], [33, 21]]}, "tolerance": {"tab_tilt": 1.2}}),
    ]
    .iter()
    .map(setup_with)
    .collect()
}

fn told(value: f64) -> String {
    format!("{value:.2} mm")
}

fn rss(found: &Stack, tab: f64) -> f64 {
    let effect = |field: &str, effect: f64, sensitivity: f64| {
        if field == "tolerance.tab_offset" { sensitivity * tab } else { effect }
    };
    let squares = found.contributions.iter().map(|one| effect(one.field, one.effect, one.sensitivity).powi(2));
    squares.sum::<f64>().sqrt()
}

#[test]
fn worst_case_and_root_sum_of_squares_are_sums_of_the_contributions() {
    for setup in setups() {
        let found = stack(&setup);
        let worst: f64 = found.contributions.iter().map(|one| one.effect).sum();
        let squares: f64 = found.contributions.iter().map(|one| one.effect * one.effect).sum();
        assert_near(found.worst, worst, 1e-9, "worst");
        assert_near(found.rss, squares.sqrt(), 1e-9, "root sum of squares");
        for one in &found.contributions {
            assert_near(one.effect, (one.sensitivity * one.tolerance).abs(), 1e-9, one.field);
            assert_near(one.share, one.effect * one.effect / squares, 1e-9, one.field);
            // A length moves the slot by itself or by half, the tilt by the lever from bolts to pads for each degree.
            let lever = {
                let [[x1, y1], [x2, y2]] = setup.caliper.holes;
                ((x1 + x2) / 2.0).hypot((y1 + y2) / 2.0)
            };
            let expected =
                if one.field == "tolerance.tab_tilt" { vec![lever.to_radians()] } else { vec![0.0, 0.5, 1.0] };
            let is_one = |expected: &f64| (one.sensitivity.abs() - expected).abs() < 1e-9;
            assert!(expected.iter().any(is_one), "{}: {}", one.field, one.sensitivity);
        }
        let plate = found.contributions.iter().find(|one| one.field == "tolerance.plate").unwrap();
        let is_inner = setup.caliper.mating_face == tabwright_core::MatingFace::Inner;
        assert_eq!(plate.effect == 0.0, is_inner, "the inner face does not move with the thickness");
        assert_eq!(plate.note.contains("inner"), is_inner, "{}", plate.note);
        assert_eq!(plate.note.contains("outer"), !is_inner, "{}", plate.note);
        let ends = |by: f64| [found.misalignment - by, found.misalignment + by];
        for (got, expected) in
            found.ranges.worst.iter().zip(ends(worst)).chain(found.ranges.rss.iter().zip(ends(found.rss)))
        {
            assert_near(*got, expected, 1e-9, "range");
        }
        assert_eq!(found.always, found.misalignment.abs() + worst <= setup.caliper.lateral_adjust + 1e-6);
        let most = found.contributions.iter().map(|one| one.effect).fold(0.0, f64::max);
        let decisive = found.contributions.iter().find(|one| Some(one.field) == found.decisive).unwrap();
        assert_eq!(decisive.effect, most);
        assert_near(found.within, share_within(found.misalignment, found.rss, found.adjust), 1e-12, "share");
        let words = &found.sentences;
        assert_eq!(words[0].starts_with("Even if"), found.always, "{}", words[0]);
        assert!(words[0].contains(&told(found.adjust)), "{}", words[0]);
        for value in [found.misalignment.abs(), found.worst, found.rss] {
            assert!(words[1].contains(&told(value)), "{}", words[1]);
        }
        let unit = if decisive.unit == "mm" { " mm" } else { "°" };
        assert!(words[2].contains(&format!("{} {:.2}{unit}", decisive.label, decisive.tolerance)), "{}", words[2]);
    }
}

/// By draws of each shape, as many inside as the formula says for normal ones.
#[test]
fn the_simulation_draws_about_where_the_slot_is() {
    for setup in setups() {
        let found = stack(&setup);
        let normal = found
            .simulation
            .shapes
            .iter()
            .min_by(|a, b| (a.within - found.within).abs().total_cmp(&(b.within - found.within).abs()));
        assert_near(normal.unwrap().within, found.within, 0.02, "one shape is normal");
        for shape in &found.simulation.shapes {
            assert!(!found.always || shape.within == 1.0, "none outside what cannot be");
            let error = (shape.within * (1.0 - shape.within) / found.simulation.builds).sqrt();
            assert_near(shape.standard_error, error, 1e-12, "standard error");
        }
    }
}

/// The tab's ± that is allowed leaves 99 of 100 inside, and hardly more would not.
#[test]
fn the_tab_is_held_to_what_leaves_99_of_100_inside() {
    let mut kinds = [0, 0, 0];
    for setup in setups() {
        let found = stack(&setup);
        let share = |tab: f64| share_within(found.misalignment, rss(&found, tab), found.adjust);
        let tab = &found.tab;
        assert_eq!(tab.now, setup.tolerance.tab_offset);
        let Some(most) = tab.tolerance else {
            assert!(
                share(0.0) < 0.99 && !tab.held && tab.sentence.starts_with("No tab is true enough"),
                "{}",
                tab.sentence
            );
            kinds[0] += 1;
            continue;
        };
        assert!(share(most) >= 0.99, "{most}: {}", share(most));
        let limit = Setup::field("tolerance.tab_offset").unwrap().hard_range()[1];
        assert!(most == limit || share(most + 1e-5) < 0.99, "{most}: more would do");
        assert_eq!(tab.held, tab.now <= most);
        assert_eq!(tab.sentence.starts_with("Welded to"), tab.held, "{}", tab.sentence);
        assert!(tab.sentence.contains(&told(most)) && tab.sentence.contains(&told(tab.now)), "{}", tab.sentence);
        kinds[if tab.held { 1 } else { 2 }] += 1;
    }
    assert!(kinds.iter().all(|count| *count > 0), "{kinds:?}");
    // Nothing spread: inside up to the limit and a hair, outside beyond.
    assert_eq!([1.5, 1.500_000_5, 1.500_002].map(|aside| share_within(aside, 0.0, 1.5)), [1.0, 1.0, 0.0]);
    // A spread of three standard deviations: half on the limit, 99.87 of 100 three of them inside it.
    assert_near(share_within(1.5, 0.3, 1.5), 0.5, 1e-6, "on the limit");
    assert_near(share_within(1.2, 0.3, 1.5), 0.998_650, 1e-5, "three standard deviations");
}

/// With nothing spread, all builds are where the design is: inside up to the limit.
#[test]
fn without_any_tolerance_all_builds_are_alike() {
    let none = json!({
        "tolerance": {"hub_width": 0, "rotor_inset": 0, "plate": 0, "tab_offset": 0, "mount_depth": 0, "runout": 0, "tab_tilt": 0},
        "tab": {"offset": -0.8},
    });
    for (adjust, within) in [(0.8, 1.0), (0.79, 0.0), (0.81, 1.0)] {
        let mut setup = setup_with(&none);
        setup.caliper.lateral_adjust = adjust;
        let found = stack(&setup);
        assert_eq!((found.within, found.always), (within, within == 1.0), "±{adjust}");
        for shape in &found.simulation.shapes {
            assert_eq!((shape.within, shape.standard_error), (within, 0.0), "{:?}, ±{adjust}", shape.shape);
        }
        let start = "The slot lies 0.80 mm from the rotor as designed; ±0.00 mm at worst, ±0.00 mm by root";
        assert!(found.sentences[1].starts_with(start), "{}", found.sentences[1]);
        assert!(found.sentences.iter().all(|words| !words.starts_with("What matters most")), "nothing matters");
    }
}

#[test]
fn each_dimension_is_told_with_its_unit_and_why_it_counts() {
    let found = stack(&setup_with(&json!({})));
    for (field, unit, note) in [
        ("tolerance.hub_width", "mm", "so its width drops out"),
        ("tolerance.rotor_inset", "mm", "Moves the rotor"),
        ("tolerance.runout", "mm", "swings this far to both sides"),
        ("tolerance.tab_offset", "mm", "Moves the tab"),
        ("tolerance.tab_tilt", "°", "about the line of the holes"),
        ("tolerance.plate", "mm", "inner face"),
        ("tolerance.mount_depth", "mm", "Moves the slot"),
    ] {
        let one = found.contributions.iter().find(|one| one.field == field).unwrap();
        assert_eq!(one.unit, unit, "{field}");
        assert!(one.note.contains(note), "{field}: {}", one.note);
    }
}

/// What matters most where the tilt does, in its own unit: 26 mm from bolts to pads, so 1.5° are 0.68 mm.
#[test]
fn what_matters_most_is_told_in_its_own_unit() {
    let found = stack(&setup_with(&json!({"tolerance": {"tab_tilt": 1.5}})));
    let tilt = (26.0 * 1.5_f64.to_radians()).powi(2);
    let share = tilt / (tilt + 0.09 + 0.0225 + 0.25 + 0.04);
    let label = found.contributions.iter().find(|one| one.unit == "°").unwrap().label;
    let words = format!("What matters most: {label} 1.50°, {:.0} % of the spread.", (100.0 * share).floor());
    assert_eq!(found.sentences[2], words);
    assert_eq!(found.sentences[3..], [found.tab.sentence.clone(), found.tilt.sentence.clone()]);
}

/// A pad's end moves by half its size times the tangent of the tilt: touching at 0.2 mm, or sooner by the rotor's swing.
#[test]
fn a_tilted_pad_is_told_by_its_tighter_way() {
    let at = |pad: [f64; 2], tilt: f64, runout: f64| {
        let setup = setup_with(&json!({
            "caliper": {"pad": {"length": pad[0], "height": pad[1]}},
            "tolerance": {"tab_tilt": tilt, "runout": runout}, "tack": {"running": 0.2},
        }));
        stack(&setup).tilt
    };
    let touches = |clearance: f64, size: f64| (2.0 * clearance / size).atan().to_degrees();
    // The longer of the two decides, whichever it is.
    for pad in [[30.0, 16.0], [18.0, 28.0_f64]] {
        let longer = pad[0].max(pad[1]);
        let (rub, clear) = (touches(0.2, longer), touches(0.15, longer));
        for (tilt, end) in [
            (rub + 0.01, format!("They rub: {rub:.2}° is the most that 0.20 mm of running clearance allow.")),
            (
                rub - 0.01,
                format!(
                    "They clear a true rotor up to {rub:.2}°, and touch one that swings by 0.05 mm from {clear:.2}° on."
                ),
            ),
            (clear - 0.01, format!("They clear, up to {clear:.2}° with this runout.")),
        ] {
            let tilted = at(pad, tilt, 0.05);
            let [over_length, over_height] = pad.map(|size| size * tilt.to_radians().tan());
            let start = format!(
                "A tab {tilt:.2}° out of square sets the pads {over_length:.2} mm askew over their length and {over_height:.2} mm over their height."
            );
            assert_eq!(tilted.sentence, format!("{start} {end}"));
            for (way, size) in [(&tilted.length, pad[0]), (&tilted.height, pad[1])] {
                assert_eq!((way.rubs, way.drags), (tilt > touches(0.2, size), tilt > touches(0.15, size)), "{size} mm");
                assert_near(way.rub, touches(0.2, size), 1e-9, "rubs from");
                assert_near(way.clear, touches(0.15, size), 1e-9, "drags from");
            }
        }
    }
    // A rotor that swings by more than the clearance touches by itself.
    assert_eq!(at([30.0, 16.0], 0.1, 0.25).length.clear, 0.0);
    let level = at([30.0, 16.0], 0.0, 0.2);
    assert!(!level.length.rubs && !level.length.drags, "{}", level.sentence);
}
