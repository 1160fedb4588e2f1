//! Readings that are too few, cannot be together or lie far from the design: which are named, from when on, and why.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::Setup;
use tabwright_core::build::{AdviceKind, Contradiction, Reading, TackState};
use tabwright_tests::tacked::{Part, SIGMAS, check, tacked};
use tabwright_tests::{assert_near, setup_with};

use Reading::{Hole1, Hole2, Neck1, Neck2, Rotor, Spacing, Step1, Step2, Tube};

/// W. Baarda's limit: once in a thousand by chance.
const DISAGREES: f64 = 3.29;

type Readings = Vec<(Reading, f64)>;

fn setup() -> Setup {
    setup_with(&json!({"tab": {"clock": 40, "offset": -0.7}, "fork": {"axle_offset": 3}}))
}

fn contradiction(setup: &Setup, readings: &Readings) -> Contradiction {
    let tacked = tacked(setup, readings);
    assert_eq!((tacked.state, tacked.advice.kind), (TackState::Contradiction, AdviceKind::MeasureAgain));
    assert!(tacked.as_built.is_none());
    let found = tacked.contradiction.unwrap();
    assert_eq!(tacked.advice.text, found.message);
    assert_eq!(tacked.advice.readings, found.suspect.map_or_else(|| found.readings.clone(), |one| vec![one]));
    for row in &tacked.readings {
        assert_eq!(row.suspect, found.readings.contains(&row.key), "{:?}", row.key);
    }
    found
}

fn change(readings: &mut Readings, reading: Reading, by: f64) {
    readings.iter_mut().filter(|(one, _)| *one == reading).for_each(|(_, value)| *value += by);
}

#[test]
fn readings_go_by_what_a_builder_calls_them() {
    let check = check(&setup());
    let rows: Vec<(Reading, &str)> = check.readings.iter().map(|row| (row.key, row.label)).collect();
    let labels = [
        (Hole1, "Axle to hole 1"),
        (Hole2, "Axle to hole 2"),
        (Spacing, "Hole to hole"),
        (Neck1, "Neck to hole 1"),
        (Neck2, "Neck to hole 2"),
        (Step1, "Step at hole 1"),
        (Step2, "Step at hole 2"),
        (Rotor, "Rotor to tab"),
        (Tube, "Tube to caliper"),
    ];
    assert_eq!(rows, labels);
    assert!(check.readings.iter().all(|row| row.help.contains(". ") || row.help.ends_with('.')));
    let part = Part::designed(&setup());
    for (row, (reading, value)) in check.readings.iter().zip(part.readings(&setup())) {
        assert_eq!(row.key, reading);
        assert_near(row.designed, value, 1e-9, row.label);
    }
    assert!(check.check_list.iter().any(|step| step.readings == Reading::ALL) && check.cautions.len() > 2);
}

#[test]
fn what_is_missing_and_what_would_help_is_told_with_its_reason() {
    let setup = setup();
    let all = Part::designed(&setup).readings(&setup);
    let some = |wanted: &[Reading]| -> Readings {
        all.iter().filter(|(reading, _)| wanted.contains(reading)).copied().collect()
    };
    let none = tacked(&setup, &Vec::new());
    assert_eq!(none.state, TackState::Incomplete);
    assert_eq!(
        none.advice.text,
        "To place the tab it takes yet: Axle to hole 1, Axle to hole 2, Hole to hole, Step at hole 1, Step at hole 2."
    );
    assert_eq!(none.advice.readings, [Hole1, Hole2, Spacing, Step1, Step2]);
    for wanted in &none.missing {
        let why = if [Step1, Step2].contains(&wanted.key) { "tab's plane" } else { "triangle of axle and holes" };
        assert!(wanted.why.contains(why), "{:?}: {}", wanted.key, wanted.why);
    }
    let useful = |wanted: &[Reading]| -> Vec<(Reading, bool)> {
        let told = tacked(&setup, &some(wanted)).useful;
        told.iter().map(|one| (one.key, one.why.contains("round the axle"))).collect()
    };
    let least = [Hole1, Hole2, Spacing, Step1, Step2];
    assert_eq!(useful(&least), [(Neck1, true), (Neck2, true), (Rotor, false), (Tube, false)]);
    assert_eq!(useful(&[Hole1, Hole2, Spacing, Step1, Rotor]), [(Neck1, true), (Neck2, true), (Tube, false)]);
    assert_eq!(useful(&[&least[..], &[Neck1, Neck2]].concat()), [(Rotor, false), (Tube, false)]);
    // Where the tab lies round the axle: from the design, ± 1 mm, or better from the neck.
    let turn = |wanted: &[Reading]| tacked(&setup, &some(wanted)).as_built.unwrap().rotation;
    let as_designed = turn(&least);
    assert_eq!(as_designed.from, "design");
    assert!(as_designed.sentence.contains("taken as designed, ± 1.00 mm"), "{}", as_designed.sentence);
    let read = turn(&[&least[..], &[Neck1, Neck2]].concat());
    assert_eq!(read.from, "readings");
    assert!(read.about < 0.2 && read.sentence.contains(&format!("± {:.2} mm.", read.about)), "{}", read.sentence);
}

/// The gap of the caliper set on the rotor, where that was found to be.
#[test]
fn a_gap_to_the_tube_that_alone_does_not_fit_is_told_with_what_it_would_be() {
    let setup = setup();
    for steps in [[0.5, 0.5], [0.4, -0.1]] {
        let part = Part { inset: 15.2, ..Part::designed(&setup).moved([[0.6, -0.4], [0.3, 0.5]], steps) };
        let mut readings = part.readings(&setup);
        let straight = Part { steps: [(part.steps[0] + part.steps[1]) / 2.0; 2], ..part };
        let built = tacked(&setup, &straight.readings(&setup)).as_built.unwrap();
        let gap = built.pairs.iter().find(|pair| pair.name == "caliper/tube").unwrap().gap.value;
        for off in [-2.0, 1.7] {
            readings.push((Tube, gap + off));
            let found = contradiction(&setup, &readings);
            assert_eq!(
                (found.readings.as_slice(), found.suspect, found.swap.is_none()),
                (&[Tube][..], Some(Tube), true)
            );
            let start = format!(
                "Tube to caliper is {:.2} mm, but by all other readings it would be {gap:.2} mm. Read it again; ",
                gap + off
            );
            assert!(found.message.starts_with(&start), "{} is not {start}", found.message);
            readings.pop();
        }
        readings.push((Tube, gap + 0.02));
        let fits = tacked(&setup, &readings);
        assert_eq!(fits.state, TackState::Solved, "a gap that fits");
        let row = fits.readings.last().unwrap();
        assert_near(row.solved.unwrap(), gap, 0.02, "as found");
        assert_near(row.residual.unwrap(), row.mean - row.solved.unwrap(), 1e-12, "read less found");
    }
}

#[test]
fn readings_of_one_length_lie_no_further_apart_than_three_times_their_own() {
    let setup = setup();
    let mut readings = Part::designed(&setup).readings(&setup);
    readings.push((Spacing, 51.299));
    assert_eq!(tacked(&setup, &readings).state, TackState::Solved);
    readings.push((Spacing, 51.31));
    let found = contradiction(&setup, &readings);
    assert_eq!((found.readings, found.suspect), (vec![Spacing], None));
    assert_eq!(found.message, "The readings of Hole to hole lie 0.31 mm apart. Take them again.");
}

/// Three sides whose longest is longer than the other two by more than 3.29 of the deviation of that sum.
#[test]
fn a_triangle_is_impossible_beyond_what_its_sides_account_for() {
    let setup = setup_with(&json!({"tack": {"accuracy": 0.2}}));
    let sigma = 0.2 / SIGMAS;
    for times in [[1, 1, 1], [4, 1, 1], [1, 3, 2], [1, 1, 5]] {
        let variance: f64 = times.iter().map(|count| sigma * sigma / f64::from(*count)).sum();
        let limit = DISAGREES * variance.sqrt();
        for sides in [[121.7, 70.5, 51.2], [70.5, 121.7, 51.2], [30.0, 21.0, 51.0]] {
            for (share, is_one) in [(0.99, false), (1.01, true)] {
                let longest = sides.iter().copied().fold(0.0, f64::max);
                let mut readings = Readings::new();
                for ((reading, side), count) in [Hole1, Hole2, Spacing].into_iter().zip(sides).zip(times) {
                    let side = if side == longest { side + share * limit } else { side };
                    (0..count).for_each(|_| readings.push((reading, side)));
                }
                let message = tacked(&setup, &readings).contradiction.map_or(String::new(), |found| found.message);
                assert_eq!(message.contains("make no triangle"), is_one, "{sides:?} {times:?}: {message}");
            }
        }
    }
}

/// Steps and rotor check each other by (s₁ + s₂)/2 + inset − thickness/2 − r = 0, the inset ± 0.3 of three deviations; all
/// of them then disagree alike.
#[test]
fn steps_and_rotor_disagree_from_their_own_deviation_on() {
    let setup = setup();
    let (sigma, own) = (0.1 / SIGMAS, 0.3 / 3.0_f64);
    let limit = DISAGREES * (1.5 * sigma * sigma + own * own).sqrt();
    for sign in [-1.0, 1.0] {
        for (share, state) in [(0.99, TackState::Solved), (1.01, TackState::Contradiction)] {
            let mut readings = Part::designed(&setup).readings(&setup);
            change(&mut readings, Rotor, sign * share * limit);
            assert_eq!(tacked(&setup, &readings).state, state, "{share}");
        }
    }
    let mut readings = Part::designed(&setup).readings(&setup);
    change(&mut readings, Rotor, 0.8);
    let found = contradiction(&setup, &readings);
    assert_eq!(found.readings, [Step1, Step2, Rotor]);
    let read =
        format!("Step at hole 1 −0.70 mm, Step at hole 2 −0.70 mm, Rotor to tab {:.2} mm", -0.7 + 15.0 - 0.9 + 0.8);
    let start = format!("{read} cannot be together with a rotor inset of 15.00 mm. ");
    assert!(found.message.starts_with(&start), "{}", found.message);
}

/// In the wheel plane one reading more than needed: its normalised residual grows with what it is off.
#[test]
fn distances_disagree_from_their_own_deviation_on() {
    let setup = setup();
    for reading in [Hole1, Hole2, Neck1, Neck2] {
        let with = |off: f64| {
            let mut readings = Part::designed(&setup).readings(&setup);
            change(&mut readings, reading, off);
            tacked(&setup, &readings)
        };
        let normalised = with(0.05).readings.iter().find(|row| row.key == reading).unwrap().normalised.unwrap();
        let limit = 0.05 * DISAGREES / normalised.abs();
        assert_eq!(with(0.98 * limit).state, TackState::Solved, "{reading:?}");
        let found = with(1.02 * limit).contradiction.unwrap();
        assert!(found.readings.contains(&reading), "{reading:?}: {}", found.message);
        assert!(!found.message.contains("rotor inset"), "{}", found.message);
    }
}

/// How far the part lies from its design without that reading; none where the others do not place it.
fn departure_without(setup: &Setup, readings: &Readings, left_out: Reading) -> Option<f64> {
    let others: Readings = readings.iter().filter(|(reading, _)| *reading != left_out).copied().collect();
    let built = tacked(setup, &others).as_built?;
    let half = built.tilt.value.to_radians().tan() * built.spacing.value / 2.0;
    let steps = [built.offset.value - half, built.offset.value + half].map(|step| (step - setup.tab.offset).abs());
    let holes = built.holes.map(|hole| hole.off.distance);
    Some(holes.into_iter().chain(steps).fold(0.0, f64::max))
}

/// Left out, the wrong reading leaves the part twice as near to its design as any other does, and 0.75 mm nearer.
#[test]
fn the_suspect_is_the_reading_without_which_the_part_is_as_designed() {
    let setup = setup();
    let (mut named, mut open) = (0, 0);
    for (far, wrong) in
        [0.3, 2.4].into_iter().flat_map(|far| [Hole1, Hole2, Spacing, Neck1, Neck2, Rotor].map(|one| (far, one)))
    {
        let part = Part::designed(&setup).moved([[far, far / 3.0], [far, -far / 2.0]], [0.0, 0.1]);
        for off in [-3.0, -1.2, 0.7, 2.0, 4.5] {
            // Twice each: a place is believed then however far it is.
            let mut readings = part.readings(&setup);
            change(&mut readings, wrong, off);
            readings.extend(readings.clone());
            let Some(found) = tacked(&setup, &readings).contradiction else { continue };
            if found.swap.is_some() {
                continue;
            }
            let far = |reading: &Reading| departure_without(&setup, &readings, *reading).unwrap_or(f64::INFINITY);
            let mut scored: Vec<(f64, Reading)> = found.readings.iter().map(|one| (far(one), *one)).collect();
            scored.sort_by(|one, other| one.0.total_cmp(&other.0));
            let expected = match scored.as_slice() {
                [only] => Some(only.1),
                [best, next, ..] if next.0 > 2.0 * best.0 && next.0 - best.0 > 0.75 => Some(best.1),
                _ => None,
            };
            assert_eq!(found.suspect, expected, "{wrong:?} off by {off}: {scored:?}");
            let end = match expected {
                Some(one) => {
                    let (_, designed) = Part::designed(&setup).readings(&setup)[one.place()];
                    let label = check(&setup).readings[one.place()].label;
                    format!(". Most likely {label} is wrong: {designed:.2} mm was designed. Read it again.")
                }
                None => ". Read each of them again; a second number beside the first confirms it.".to_owned(),
            };
            assert!(found.message.ends_with(&end.replace('-', "−")), "{} does not end {end}", found.message);
            (named, open) = (named + usize::from(expected.is_some()), open + usize::from(expected.is_none()));
        }
    }
    assert!(named > 3 && open > 3, "{named} named, {open} open");
}

/// Where nothing can be left out, the suspect is twice as far from its design as any other, and 1.5 mm farther.
#[test]
fn of_three_sides_the_one_far_from_its_design_is_suspect() {
    let setup = setup_with(&json!({}));
    let designed = Part::designed(&setup).readings(&setup);
    for (off, suspect) in [
        ([-62.0, 0.0, -30.5], Some(Hole1)),
        ([-62.0, 0.0, -31.5], None),
        ([0.3, -72.0, -1.0], Some(Hole2)),
        ([-35.0, 0.0, -40.0], None),
    ] {
        let sides = designed.iter().zip(off).map(|((reading, value), off)| (*reading, value + off));
        assert_eq!(contradiction(&setup, &sides.collect()).suspect, suspect, "{off:?}");
    }
}

/// Ten millimetres from the design is too far to be believed at once; named are those that read 1.5 mm off and more.
#[test]
fn a_place_too_far_from_its_design_is_read_again() {
    let setup = setup();
    let designed = Part::designed(&setup);
    let radius = |hole: usize| designed.holes[hole][0].hypot(designed.holes[hole][1]);
    let round = |size: f64| designed.turned((size / radius(0).max(radius(1))).to_degrees());
    for (near, far) in [
        (round(9.9), round(10.1)),
        (round(-9.9), round(-10.1)),
        (designed.moved([[0.0; 2]; 2], [9.9, 4.0]), designed.moved([[0.0; 2]; 2], [10.1, 4.0])),
        (designed.moved([[0.0; 2]; 2], [1.0, -9.9]), designed.moved([[0.0; 2]; 2], [1.0, -10.1])),
    ] {
        assert_eq!(tacked(&setup, &near.readings(&setup)).state, TackState::Solved);
        let found = contradiction(&setup, &far.readings(&setup));
        assert!(
            found.message.starts_with("As read, the tab lies 10.10 mm from where it was designed."),
            "{}",
            found.message
        );
        let both = far.readings(&setup).into_iter().zip(designed.readings(&setup));
        let off: Vec<Reading> =
            both.filter(|(read, one)| (read.1 - one.1).abs() > 1.5).map(|(read, _)| read.0).collect();
        assert_eq!(found.readings, off);
    }
}
