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
        assert!(most == limit || share(most + 0.02) < 0.99, "{most}: more would do");
        assert_eq!(tab.held, tab.now <= most);
        assert_eq!(tab.sentence.starts_with("Welded to"), tab.held, "{}", tab.sentence);
        assert!(tab.sentence.contains(&told(most)) && tab.sentence.contains(&told(tab.now)), "{}", tab.sentence);
        kinds[if tab.held { 1 } else { 2 }] += 1;
    }
    assert!(kinds.iter().all(|count| *count > 0), "{kinds:?}");
    // Nothing spread: inside up to the limit and a hair, outside beyond.
    assert_eq!([share_within(1.5, 0.0, 1.5), share_within(1.51, 0.0, 1.5)], [1.0, 0.0]);
    // A spread of three standard deviations: half on the limit, 99.87 of 100 three of them inside it.
    assert_near(share_within(1.5, 0.3, 1.5), 0.5, 1e-6, "on the limit");
    assert_near(share_within(1.2, 0.3, 1.5), 0.998_650, 1e-5, "three standard deviations");
}
