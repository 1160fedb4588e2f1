//! What welding pulled, against the spread of many noisy sets of readings taken before and after.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::Setup;
use tabwright_core::build::{Chance, Reading, WeldPull};
use tabwright_tests::tacked::{Part, SIGMAS, check, read_after, read_before};
use tabwright_tests::{assert_near, setup_with};

const DRAWS: usize = 300;
/// A single reading is off by no more than this 19 times in 20, mm: little, so that moves keep their direction.
const ACCURACY: f64 = 0.02;
/// Its standard deviation.
const SIGMA: f64 = ACCURACY / SIGMAS;

fn design() -> (Setup, Part) {
    let setup = setup_with(&json!({"tab": {"clock": 75}, "fork": {"axle_offset": 3}, "tack": {"accuracy": ACCURACY}}));
    let part = Part::designed(&setup);
    (setup, part)
}

/// All that is read on the tab, each reading off by `off`.
fn read(setup: &Setup, part: Part, off: &mut dyn FnMut() -> f64) -> Vec<(Reading, f64)> {
    let readings = part.readings(setup).into_iter().filter(|(reading, _)| *reading != Reading::Rotor);
    readings.map(|(reading, value)| (reading, value + off())).collect()
}

fn pull(setup: &Setup, before: Part, after: Part, off: &mut dyn FnMut() -> f64) -> Option<WeldPull> {
    let mut measured = setup.clone();
    read_before(&mut measured, &read(setup, before, off));
    read_after(&mut measured, &read(setup, after, off));
    check(&measured).pull
}

#[test]
fn exact_readings_give_the_pull_itself() {
    let (setup, part) = design();
    let before = part.moved([[0.1, -0.2], [0.0, 0.15]], [0.2, -0.1]);
    let by = [[0.4, -0.3], [-0.2, 0.5]];
    let after = before.moved(by, [0.3, 0.5]);
    let pull = pull(&setup, before, after, &mut || 0.0).unwrap();
    for (hole, by) in pull.holes.iter().zip(by) {
        assert_near(hole.back, by[0], 1e-6, "back");
        assert_near(hole.up, by[1], 1e-6, "up");
        assert_near(hole.distance, by[0].hypot(by[1]), 1e-6, "in all");
    }
    let tilt = |part: &Part| ((part.steps[1] - part.steps[0]) / part.spacing()).atan().to_degrees();
    assert_near(pull.offset.change, 0.4, 1e-9, "sideways");
    assert_near(pull.tilt.change, tilt(&after) - tilt(&before), 1e-6, "tilt");
    assert_near(pull.spacing.change, after.spacing() - before.spacing(), 1e-6, "spacing");
    assert_near(pull.spacing.change.abs(), 0.77, 0.25, "not nothing");
}

#[test]
fn the_uncertainty_of_a_pull_is_the_spread_of_pulls() {
    let (setup, part) = design();
    let by = [[0.35, 0.2], [-0.25, 0.4]];
    let after = part.moved(by, [0.3, 0.1]);
    let mut chance = Chance::new(11);
    let mut off = || SIGMA * chance.normal();
    let pulls: Vec<WeldPull> = (0..DRAWS).filter_map(|_| pull(&setup, part, after, &mut off)).collect();
    assert!(pulls.len() > DRAWS * 9 / 10, "{} of {DRAWS} are solved", pulls.len());
    let count = pulls.len() as f64;
    let along = move |pull: &WeldPull, hole: usize| {
        let [back, up] = by[hole];
        (pull.holes[hole].back * back + pull.holes[hole].up * up) / back.hypot(up)
    };
    type Told = Box<dyn Fn(&WeldPull) -> [f64; 2]>;
    let numbers: [(&str, Told); 5] = [
        ("hole 1", Box::new(move |pull| [along(pull, 0), pull.holes[0].uncertainty])),
        ("hole 2", Box::new(move |pull| [along(pull, 1), pull.holes[1].uncertainty])),
        ("offset", Box::new(|pull| [pull.offset.change, pull.offset.uncertainty])),
        ("tilt", Box::new(|pull| [pull.tilt.change, pull.tilt.uncertainty])),
        ("spacing", Box::new(|pull| [pull.spacing.change, pull.spacing.uncertainty])),
    ];
    for (what, number) in numbers {
        let values: Vec<[f64; 2]> = pulls.iter().map(number).collect();
        let mean = values.iter().map(|one| one[0]).sum::<f64>() / count;
        let spread = (values.iter().map(|one| (one[0] - mean).powi(2)).sum::<f64>() / count).sqrt();
        let stated = values.iter().map(|one| one[1]).sum::<f64>() / count / 1.96;
        // The spread of 300 draws is itself known to 4 %, and contradictions that are refused take its tails.
        assert_near(stated / spread, 1.0, 0.13, what);
    }
}

#[test]
fn where_nothing_moved_a_pull_is_claimed_once_in_twenty() {
    let (setup, part) = design();
    let mut chance = Chance::new(12);
    let mut off = || SIGMA * chance.normal();
    let pulls: Vec<WeldPull> = (0..DRAWS).filter_map(|_| pull(&setup, part, part, &mut off)).collect();
    let share = |is_sure: &dyn Fn(&WeldPull) -> bool| {
        pulls.iter().filter(|pull| is_sure(pull)).count() as f64 / pulls.len() as f64
    };
    let claims = [
        share(&|pull| pull.holes[0].sure),
        share(&|pull| pull.holes[1].sure),
        share(&|pull| pull.offset.sure),
        share(&|pull| pull.tilt.sure),
        share(&|pull| pull.spacing.sure),
    ];
    for claimed in claims {
        assert_near(claimed, 0.05, 0.045, "share of false claims");
    }
    for pull in &pulls {
        let is_sure = pull.holes.iter().any(|hole| hole.sure) || pull.offset.sure || pull.tilt.sure;
        assert_eq!(pull.sentence.contains("nothing"), !is_sure, "{}", pull.sentence);
        assert_eq!(pull.sentence.contains("hole 1 by"), pull.holes[0].sure, "{}", pull.sentence);
        assert_eq!(pull.sentence.contains("hole 2 by"), pull.holes[1].sure, "{}", pull.sentence);
        assert_eq!(
            pull.sentence.contains("outboard"),
            pull.offset.sure && pull.offset.change > 0.0,
            "{}",
            pull.sentence
        );
        assert_eq!(
            pull.sentence.contains("inboard"),
            pull.offset.sure && pull.offset.change < 0.0,
            "{}",
            pull.sentence
        );
        assert_eq!(pull.sentence.contains("tilt"), pull.tilt.sure, "{}", pull.sentence);
    }
}
