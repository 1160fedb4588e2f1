//! What welding pulled: its ± by the law by which errors add up, the ellipse that a hole must have left, and the words.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::Setup;
use tabwright_core::build::{AsBuilt, Reading, TackCheck, WeldPull};
use tabwright_tests::tacked::{Part, check, read_after, read_before, tacked};
use tabwright_tests::{assert_near, setup_with};

type Readings = Vec<(Reading, f64)>;

/// −2 ln 0.05: the square of an ellipse that holds 95 of 100 draws, in standard deviations.
const SQUARED_95: f64 = 5.991_464_547;

fn setups() -> Vec<Setup> {
    [
        json!({"tab": {"clock": 75}, "fork": {"axle_offset": 3}}),
        json!({"side": "right", "tab": {"clock": -35, "offset": 0.3}, "caliper": {"holes": [[-22, 30], [29, 21]]}}),
    ]
    .iter()
    .map(setup_with)
    .collect()
}

fn checked(setup: &Setup, before: &Readings, after: &Readings) -> TackCheck {
    let mut read = setup.clone();
    read_before(&mut read, before);
    read_after(&mut read, after);
    check(&read)
}

fn pull(setup: &Setup, before: &Readings, after: &Readings) -> WeldPull {
    checked(setup, before, after).pull.unwrap()
}

/// JCGM 100:2008, 5.1.2: what each reading's own ± moves a result by, squared and summed; the tacked part read at the holes
/// alone, with the design's place about the axle ± 1 mm, the welded one from the neck too.
#[test]
fn the_uncertainty_of_a_pull_is_what_each_reading_moves() {
    use Reading::{Hole1, Hole2, Spacing, Step1, Step2};
    const STEP: f64 = 0.25;
    for setup in setups() {
        let part = Part::designed(&setup).moved([[0.3, -0.2], [0.1, 0.4]], [0.1, 0.3]);
        let then = part.moved([[0.7, -0.4], [-0.3, 0.5]], [0.5, -0.2]);
        let before = part.some(&setup, &[Hole1, Hole2, Spacing, Step1, Step2]);
        let after = then.readings(&setup);
        let at = pull(&setup, &before, &after);
        let ways = [0, 1].map(|hole: usize| {
            let found = &at.holes[hole];
            [found.back / found.distance, found.up / found.distance]
        });
        let numbers = |pull: &WeldPull| {
            let along = |hole: usize| ways[hole][0] * pull.holes[hole].back + ways[hole][1] * pull.holes[hole].up;
            [along(0), along(1), pull.offset.change, pull.tilt.change, pull.spacing.change]
        };
        let mut squares = [0.0; 5];
        let mut add = |moved: &dyn Fn(f64) -> WeldPull| {
            let (more, less) = (numbers(&moved(STEP)), numbers(&moved(-STEP)));
            for (square, (more, less)) in squares.iter_mut().zip(more.into_iter().zip(less)) {
                *square += ((more - less) / (2.0 * STEP)).powi(2);
            }
        };
        let changed = |readings: &Readings, place: usize, by: f64| {
            let mut other = readings.clone();
            other[place].1 += by * setup.tack.accuracy;
            other
        };
        (0..before.len()).for_each(|place| add(&|by| pull(&setup, &changed(&before, place, by), &after)));
        (0..after.len()).for_each(|place| add(&|by| pull(&setup, &before, &changed(&after, place, by))));
        let [one, other] = Part::designed(&setup).holes.map(|[back, up]| back * back + up * up);
        add(&|by| {
            let mut turned = setup.clone();
            turned.tab.clock += (by / ((one + other) / 2.0).sqrt()).to_degrees();
            pull(&turned, &before, &after)
        });
        let stated = [
            at.holes[0].uncertainty,
            at.holes[1].uncertainty,
            at.offset.uncertainty,
            at.tilt.uncertainty,
            at.spacing.uncertainty,
        ];
        for (place, (stated, square)) in stated.into_iter().zip(squares).enumerate() {
            assert_near(stated, square.sqrt(), 0.02 * square.sqrt(), &format!("± of number {place}"));
        }
    }
}

/// dᵀ·C⁻¹·d is the most that (w·d)² / (wᵀ·C·w) is for any direction w (Cauchy and Schwarz).
fn squared(by: [f64; 2], covariance: [[f64; 2]; 2]) -> f64 {
    let ratio = |step: u32| {
        let (sin, cos) = (f64::from(step) * std::f64::consts::PI / 20_000.0).sin_cos();
        let variance = covariance[0][0] * cos * cos + 2.0 * covariance[0][1] * cos * sin + covariance[1][1] * sin * sin;
        (by[0] * cos + by[1] * sin).powi(2) / variance
    };
    (0..20_000).map(ratio).fold(0.0, f64::max)
}

#[test]
fn a_hole_has_moved_where_it_left_the_ellipse_of_both_readings() {
    let setup = setup_with(&json!({"tab": {"clock": 60}, "fork": {"axle_offset": 3}}));
    let part = Part::designed(&setup).moved([[0.3, -0.2], [0.1, 0.4]], [0.0; 2]);
    let before = part.readings(&setup);
    let covariances = |built: AsBuilt| built.holes.map(|hole| hole.covariance);
    let (one, other) = (covariances(tacked(&setup, &before).as_built.unwrap()), {
        let mut twice = before.clone();
        twice.extend(before.clone());
        covariances(tacked(&setup, &twice).as_built.unwrap())
    });
    for hole in 0..2 {
        let both =
            [0, 1].map(|row: usize| [0, 1].map(|column: usize| one[hole][row][column] + other[hole][row][column]));
        for degrees in [10.0, 55.0, 100.0, 150.0, 290.0_f64] {
            let (sin, cos) = degrees.to_radians().sin_cos();
            let edge = (SQUARED_95 / squared([cos, sin], both)).sqrt();
            for (share, is_sure) in [(0.98, false), (1.02, true)] {
                let mut moves = [[0.0; 2]; 2];
                moves[hole] = [share * edge * cos, share * edge * sin];
                let then = part.moved(moves, [0.0; 2]).readings(&setup);
                let after: Readings = then.iter().chain(&then).copied().collect();
                let found = pull(&setup, &before, &after);
                assert_eq!(found.holes[hole].sure, is_sure, "{degrees}°: {share} of {edge} mm");
                assert!(!found.holes[1 - hole].sure, "the other hole stays");
            }
        }
    }
    let still = pull(&setup, &before, &before);
    assert!(still.holes.iter().all(|hole| !hole.sure && hole.uncertainty > 0.0), "{still:?}");
}

#[test]
fn what_moved_is_told_with_its_size_and_side() {
    for setup in setups() {
        let part = Part::designed(&setup).moved([[0.2, 0.1], [0.0, -0.1]], [0.2, -0.1]);
        for (moves, steps, words) in [
            ([[0.0; 2]; 2], [0.0, 0.0], "Welding moved nothing by more than the readings' ±."),
            ([[0.0; 2]; 2], [0.4, 0.4], "Welding moved the tab 0.40 mm outboard."),
            ([[0.0; 2]; 2], [-0.55, -0.55], "Welding moved the tab 0.55 mm inboard."),
            ([[0.0; 2]; 2], [-0.4, 0.4], "Welding moved its tilt by 0.90°."),
            ([[0.0; 2]; 2], [0.4, -0.4], "Welding moved its tilt by −0.90°."),
        ] {
            // Tilts of holes 51 mm apart; those of the other caliper are a little farther.
            let scale = part.spacing() / 51.0;
            let steps = if steps[0] == steps[1] { steps } else { steps.map(|step: f64| step * scale) };
            let after = part.moved(moves, steps).readings(&setup);
            assert_eq!(pull(&setup, &part.readings(&setup), &after).sentence, words);
        }
        let after = part.moved([[1.2, 0.9], [0.9, 1.2]], [0.0; 2]).readings(&setup);
        let found = pull(&setup, &part.readings(&setup), &after);
        let told = |hole: usize| format!("hole {} by 1.50 mm ± {:.2} mm", hole + 1, found.holes[hole].uncertainty);
        assert_eq!(found.sentence, format!("Welding moved {}, {}.", told(0), told(1)));
        let only = part.moved([[1.2, 0.9], [0.0; 2]], [0.0; 2]).readings(&setup);
        let found = pull(&setup, &part.readings(&setup), &only);
        assert!(found.sentence.starts_with("Welding moved hole 1 by 1.50 mm ± "), "{}", found.sentence);
        assert!(!found.sentence.contains("hole 2"), "{}", found.sentence);
    }
}

#[test]
fn there_is_no_pull_before_both_parts_are_placed() {
    let setup = setup_with(&json!({}));
    let readings = Part::designed(&setup).readings(&setup);
    let few: Readings = readings[..2].to_vec();
    for (before, after) in [(&readings, &few), (&few, &readings), (&readings, &Vec::new())] {
        let check = checked(&setup, before, after);
        assert!(check.pull.is_none() && check.after.is_some() != after.is_empty());
    }
}
