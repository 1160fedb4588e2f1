//! Readings that cannot be together: which, and whether two of them were exchanged.

use super::as_built::built_setup;
use super::reading::{Mean, Reading, tube_gap};
use super::solution::{FAR, Obstacle, Solution, solve};
use crate::plain::plain;
use crate::setup::Setup;
use crate::words::{fine_length, row};

/// Readings that place the part less than this from its design, mm, are not taken for exchanged ones.
const NEAR: f64 = 1.5;
/// Exchanged readings bring the part this many times nearer to its design at least.
const NEARER: f64 = 2.0;
/// Left out, the wrong reading leaves the part this many times nearer to its design than any other does.
const STANDS_OUT: f64 = 2.0;

/// Two readings that would fit if they were exchanged.
#[derive(Clone, Debug, PartialEq)]
pub struct Swap {
    /// The two.
    pub exchange: [Reading; 2],
    /// The offer in words.
    pub message: String,
}

plain!(Swap { exchange, message });

/// Numbers that cannot be together.
#[derive(Clone, Debug, PartialEq)]
pub struct Contradiction {
    /// Which.
    pub readings: Vec<Reading>,
    /// The one that explains it best, where one does.
    pub suspect: Option<Reading>,
    /// The same in words.
    pub message: String,
    /// Whether two were exchanged.
    pub swap: Option<Swap>,
}

plain!(Contradiction { readings, suspect, message, swap });

/// Why no place is believed: what is missing, or what contradicts.
pub(super) enum Doubt {
    Missing(Vec<Reading>),
    Contradiction(Contradiction),
}

/// A solution that nothing speaks against, or why there is none. `designed` is what each reading should be.
pub(super) fn believed(setup: &Setup, means: &[Mean], designed: &[f64; 9]) -> Result<Solution, Doubt> {
    let solved = match solve(setup, means) {
        Err(Obstacle::Missing(missing)) => return Err(Doubt::Missing(missing)),
        solved => solved,
    };
    if let (Err(Obstacle::Residuals(_)), Ok(others)) = (&solved, solve(setup, &without_tube(means))) {
        return Err(Doubt::Contradiction(tube_alone(setup, means, &others)));
    }
    let (readings, what) = match &solved {
        Ok(solution) => {
            let departure = solution.departure(setup);
            // Taken twice and found the same, a reading is believed however odd it is.
            let is_open = |mean: &&Mean| mean.given.len() < 2 && off(mean, designed) > NEAR;
            let open: Vec<Reading> = means.iter().filter(is_open).map(|mean| mean.reading).collect();
            if departure <= NEAR || open.is_empty() {
                return solved.map_err(|_| Doubt::Missing(Vec::new()));
            }
            let swap = exchanged(setup, means, Some(departure), &open);
            if swap.is_none() && departure <= FAR {
                return solved.map_err(|_| Doubt::Missing(Vec::new()));
            }
            let readings = swap.map_or(open, |swap| swap.to_vec());
            let far = fine_length(departure);
            (readings, format!("As read, the tab lies {far} from where it was designed"))
        }
        Err(obstacle) => obstructed(setup, obstacle, means),
    };
    let of_one_length = matches!(solved, Err(Obstacle::Repeats(_)));
    let swap = if of_one_length {
        None
    } else {
        exchanged(setup, means, solved.ok().map(|found| found.departure(setup)), &[])
    };
    let suspect = match (&swap, of_one_length) {
        (None, false) => suspect(setup, means, &readings, designed),
        _ => None,
    };
    let swap = swap.map(|exchange| Swap { exchange, message: swap_words(exchange) });
    let message = match (&swap, suspect) {
        (Some(swap), _) => format!("{what}. {}", swap.message),
        (None, Some(reading)) => {
            let expected = fine_length(designed[reading.place()]);
            format!("{what}. Most likely {} is wrong: {expected} was designed. Read it again.", reading.label())
        }
        (None, None) if of_one_length => format!("{what}. Take them again."),
        (None, None) => format!("{what}. Read each of them again; a second number beside the first confirms it."),
    };
    Err(Doubt::Contradiction(Contradiction { readings, suspect, message, swap }))
}

/// All readings but the tube's go together.
fn tube_alone(setup: &Setup, means: &[Mean], others: &Solution) -> Contradiction {
    let mut there = setup.clone();
    there.wheel.rotor_inset = others.levelled.at[2];
    let expected = tube_gap(&built_setup(&there, &others.located.holes)).map_or(String::new(), |gap| {
        let read = means.iter().find(|mean| mean.reading == Reading::Tube).map_or(0.0, |mean| mean.mean);
        format!(
            "{} is {}, but by all other readings it would be {}",
            Reading::Tube.label(),
            fine_length(read),
            fine_length(gap)
        )
    });
    let message = format!(
        "{expected}. Read it again; if it stays, tube end, axle offset or the caliper's bodies are not what the setup says."
    );
    Contradiction { readings: vec![Reading::Tube], suspect: Some(Reading::Tube), message, swap: None }
}

/// The readings at fault and what is wrong with them.
fn obstructed(setup: &Setup, obstacle: &Obstacle, means: &[Mean]) -> (Vec<Reading>, String) {
    let told = |readings: &[Reading]| {
        let one = |reading: &Reading| {
            let mean = means.iter().find(|mean| mean.reading == *reading)?;
            Some(format!("{} {}", reading.label(), fine_length(mean.mean)))
        };
        row(readings.iter().filter_map(one), ", ")
    };
    match obstacle {
        Obstacle::Repeats(reading) => {
            let spread = means.iter().find(|mean| mean.reading == *reading).map_or(0.0, |mean| mean.spread);
            let what = format!("The readings of {} lie {} apart", reading.label(), fine_length(spread));
            (vec![*reading], what)
        }
        Obstacle::Triangle(sides) => {
            let what = format!("{} make no triangle: two of them together are shorter than the third", told(sides));
            (sides.to_vec(), what)
        }
        Obstacle::Residuals(readings) if !readings.is_empty() => {
            let inset = if readings.contains(&Reading::Rotor) {
                format!(" with a rotor inset of {}", fine_length(setup.wheel.rotor_inset))
            } else {
                String::new()
            };
            (readings.clone(), format!("{} cannot be together{inset}", told(readings)))
        }
        Obstacle::Residuals(_) | Obstacle::Missing(_) => {
            let all: Vec<Reading> = means.iter().map(|mean| mean.reading).collect();
            let what = format!("No place of the tab fits {}", told(&all));
            (all, what)
        }
    }
}

/// How far a mean is from what was designed, mm.
fn off(mean: &Mean, designed: &[f64; 9]) -> f64 {
    (mean.mean - designed[mean.reading.place()]).abs()
}

/// The readings without the tube's, which takes long and is seldom mistaken for another.
fn without_tube(means: &[Mean]) -> Vec<Mean> {
    means.iter().filter(|mean| mean.reading != Reading::Tube).cloned().collect()
}

/// Two readings that, exchanged, go together and bring the part much nearer to its design than `departure`.
///
/// `open` are those that one exchanged must be among; empty where any may be.
fn exchanged(setup: &Setup, means: &[Mean], departure: Option<f64>, open: &[Reading]) -> Option<[Reading; 2]> {
    let means = without_tube(means);
    let limit = departure.map_or(FAR, |departure| (departure / NEARER).min(FAR));
    let mut best: Option<(f64, [Reading; 2])> = None;
    for one in 0..means.len() {
        for other in one + 1..means.len() {
            let pair = [means[one].reading, means[other].reading];
            if !open.is_empty() && !pair.iter().any(|reading| open.contains(reading)) {
                continue;
            }
            let mut swapped = means.clone();
            (swapped[one].reading, swapped[other].reading) = (pair[1], pair[0]);
            let Ok(solution) = solve(setup, &swapped) else { continue };
            let departure = solution.departure(setup);
            if departure < limit && best.is_none_or(|(least, _)| departure < least) {
                best = Some((departure, pair));
            }
        }
    }
    best.map(|(_, pair)| pair)
}

/// The one reading that, left out, lets all others go together and the part lie where it was designed; where nothing can
/// be left out, the one that alone is far from its design.
fn suspect(setup: &Setup, means: &[Mean], readings: &[Reading], designed: &[f64; 9]) -> Option<Reading> {
    let means = without_tube(means);
    let departure = |reading: Reading| {
        let others: Vec<Mean> = means.iter().filter(|mean| mean.reading != reading).cloned().collect();
        solve(setup, &others).ok().map(|solution| solution.departure(setup))
    };
    let judged: Vec<(Reading, Option<f64>, f64)> = means
        .iter()
        .filter(|mean| readings.contains(&mean.reading))
        .map(|mean| (mean.reading, departure(mean.reading), off(mean, designed)))
        .collect();
    if judged.iter().any(|(_, departure, _)| departure.is_some()) {
        let scored = judged.iter().map(|(reading, departure, _)| (*reading, departure.unwrap_or(f64::INFINITY)));
        standing_out(scored.map(|(reading, score)| (reading, -score)).collect(), |best, next| {
            -next > STANDS_OUT * -best && -next - -best > NEAR / 2.0
        })
    } else {
        standing_out(judged.iter().map(|(reading, _, off)| (*reading, *off)).collect(), |best, next| {
            best > STANDS_OUT * next && best - next > NEAR
        })
    }
}

/// The reading with the highest score, where it stands out from the next.
fn standing_out(mut scored: Vec<(Reading, f64)>, stands_out: impl Fn(f64, f64) -> bool) -> Option<Reading> {
    scored.sort_by(|one, other| other.1.total_cmp(&one.1));
    match scored.as_slice() {
        [only] => Some(only.0),
        [best, next, ..] if stands_out(best.1, next.1) => Some(best.0),
        _ => None,
    }
}

fn swap_words([one, other]: [Reading; 2]) -> String {
    format!("Exchanged, {} and {} fit: were they written in each other's place?", one.label(), other.label())
}
