//! The tack check: where everything really is, and what to do about it.

use super::advice::{Advice, Judged};
use super::as_built::seat;
use super::check_list::check_list;
use super::contradiction::{Doubt, believed};
use super::ellipse::ellipse;
use super::figures::{
    self, Figures, State, Uncertainty, designed_state, figures as figures_of, holes_of, slope_of, uncertainty,
};
use super::level::read_sideways;
use super::limits::{Limit, limits};
use super::locate::IN_PLANE;
use super::pull::weld_pull;
use super::reading::{Mean, READING_SIGMAS, Reading, designed_readings, means, tube_gap};
use super::solution::{DISAGREES, Solution};
use super::tack_report::{
    AsBuilt, Built, BuiltHole, BuiltPads, BuiltPair, Off, ReadingFound, ReadingRow, Rotation, TackCheck, TackState,
    Tacked, Wanted,
};
use super::tilt::taper;
use crate::fit::{Parts, Report, Verdict, no_gap, radial, report_on, tangential};
use crate::setup::{Problem, Setup};
use crate::solid::{NotConverged, Vector};
use crate::words::{fine_length, percent};

const CAUTIONS: [&str; 4] = [
    "These are sums from your readings, not an approval: they do not see the weld itself.",
    "A brake mount that fails throws the rider. Have it welded, or looked at, by somebody qualified, and proof-test it.",
    "Local rules and licensed practice come first.",
    "Tilt square to the line of the holes is not read here: lay a straightedge across the tab as well.",
];

/// What the whole check of one setup shares.
struct Design<'a> {
    setup: &'a Setup,
    readings: [f64; 9],
    state: State,
    figures: Figures,
    report: Report,
}

/// Checks a setup's readings: where holes, tab and rotor are, whether that keeps every limit, and what to do.
///
/// A reading's and every result's ± covers 19 of 20 cases. Any set of readings that places the part will do; more than that
/// are adjusted by weighted least squares.
///
/// # Errors
/// A problem without a field where a gap could not be found.
///
/// ```
/// use tabwright_core::{Setup, build::{AdviceKind, tack_check}};
/// let mut setup = Setup::default();
/// assert_eq!(tack_check(&setup).unwrap().before.advice.kind, AdviceKind::MeasureMore);
/// let before = &mut setup.tack.before;
/// (before.hole_1, before.hole_2, before.spacing) = (vec![121.7], vec![121.7], vec![51.0]);
/// (before.step_1, before.step_2) = (vec![0.0], vec![0.1]);
/// assert_eq!(tack_check(&setup).unwrap().before.advice.kind, AdviceKind::Weld);
/// ```
pub fn tack_check(setup: &Setup) -> Result<TackCheck, Vec<Problem>> {
    check(setup).map_err(|NotConverged| vec![no_gap()])?
}

fn check(setup: &Setup) -> Result<Result<TackCheck, Vec<Problem>>, NotConverged> {
    let report = match report_on(setup, &Parts::of(setup), Vec::new()) {
        Ok(report) => report,
        Err(problems) => return Ok(Err(problems)),
    };
    let state = designed_state(setup);
    let design =
        Design { setup, readings: designed_readings(setup)?, state, figures: figures_of(setup, &state)?, report };
    let accuracy = setup.tack.accuracy;
    let (before, found_before) = design.tacked(&means(setup.tack.before.lists(), accuracy), false)?;
    let welded = means(setup.tack.after.lists(), accuracy);
    let after = if welded.is_empty() { None } else { Some(design.tacked(&welded, true)?) };
    let pull = after.as_ref().and_then(|(_, found)| Some(weld_pull(found_before.as_ref()?, found.as_ref()?)));
    Ok(Ok(TackCheck {
        readings: Reading::ALL
            .map(|key| {
                let help = key.field().map_or("", |field| field.help);
                ReadingRow { key, label: key.label(), help, designed: design.readings[key.place()] }
            })
            .to_vec(),
        before,
        after: after.map(|(after, _)| after),
        pull,
        check_list: check_list(),
        cautions: CAUTIONS.to_vec(),
    }))
}

impl Design<'_> {
    /// What the readings of one state say, and the solution if there is one.
    fn tacked(&self, means: &[Mean], welded: bool) -> Result<(Tacked, Option<Solution>), NotConverged> {
        let mut tacked = Tacked {
            state: TackState::Incomplete,
            readings: means.iter().map(|mean| self.found(mean)).collect(),
            missing: Vec::new(),
            useful: Vec::new(),
            contradiction: None,
            as_built: None,
            advice: Advice::measure_more(&[]),
        };
        let solution = match believed(self.setup, means, &self.readings) {
            Ok(solution) => solution,
            Err(Doubt::Missing(missing)) => {
                tacked.advice = Advice::measure_more(&missing);
                tacked.missing = missing.into_iter().map(wanted).collect();
                return Ok((tacked, None));
            }
            Err(Doubt::Contradiction(contradiction)) => {
                tacked.state = TackState::Contradiction;
                tacked.advice = Advice::measure_again(&contradiction);
                for reading in &mut tacked.readings {
                    reading.suspect = contradiction.readings.contains(&reading.key);
                }
                tacked.contradiction = Some(contradiction);
                return Ok((tacked, None));
            }
        };
        tacked.state = TackState::Solved;
        self.compare(&solution, &mut tacked.readings)?;
        tacked.useful = useful(&solution, means);
        let (state, spread) = (state_of(&solution), spread_of(&solution));
        let figures = figures_of(self.setup, &state)?;
        let uncertainty = uncertainty(self.setup, &state, &spread, &figures)?;
        let limits = limits(self.setup, &state, &figures, &uncertainty, &self.figures);
        let judged = Judged {
            setup: self.setup,
            state: &state,
            uncertainty: &uncertainty,
            designed: &self.figures,
            designed_state: &self.state,
            limits: &limits,
            welded,
        };
        tacked.advice = judged.advice(&self.report)?;
        tacked.as_built = Some(self.as_built(&solution, &figures, &uncertainty, limits));
        Ok((tacked, Some(solution)))
    }

    fn found(&self, mean: &Mean) -> ReadingFound {
        ReadingFound {
            key: mean.reading,
            label: mean.reading.label(),
            given: mean.given.clone(),
            mean: mean.mean,
            spread: mean.spread,
            uncertainty: mean.sigma * READING_SIGMAS,
            designed: self.readings[mean.reading.place()],
            solved: None,
            residual: None,
            normalised: None,
            suspect: false,
        }
    }

    /// Puts what the part as found would read beside each reading.
    fn compare(&self, solution: &Solution, readings: &mut [ReadingFound]) -> Result<(), NotConverged> {
        for reading in readings {
            let solved = match reading.key {
                Reading::Tube => tube_gap(&figures::setup_of(self.setup, &state_of(solution)))?,
                key if IN_PLANE.contains(&key) => solution.design.read(key, &solution.located.holes),
                key => read_sideways(self.setup, key, &solution.levelled.at),
            };
            reading.solved = Some(solved);
            reading.residual = Some(reading.mean - solved);
            let own = solution.residuals().find(|(key, _, _)| *key == reading.key);
            reading.normalised = own.and_then(|(_, _, normalised)| *normalised);
            reading.suspect = reading.normalised.is_some_and(|normalised| normalised.abs() > DISAGREES);
        }
        Ok(())
    }

    fn as_built(
        &self,
        solution: &Solution,
        figures: &Figures,
        uncertainty: &Uncertainty,
        limits: Vec<Limit>,
    ) -> AsBuilt {
        let state = state_of(solution);
        let number = |index: usize| Built {
            value: figures.numbers[index],
            uncertainty: uncertainty.numbers[index],
            designed: self.figures.numbers[index],
        };
        let about = solution.located.about(&solution.design);
        let from = if solution.located.turned_as_designed { "design" } else { "readings" };
        let sentence = if solution.located.turned_as_designed {
            format!(
                "Where the tab lies round the axle is taken as designed, ± {}: read it from the neck.",
                fine_length(about)
            )
        } else {
            format!("The readings tell where the tab lies round the axle to ± {}.", fine_length(about))
        };
        AsBuilt {
            holes: [0, 1].map(|hole| self.hole(solution, hole)),
            rotation: Rotation { from, about, sentence },
            spacing: number(figures::SPACING),
            misalignment: number(figures::MISALIGNMENT),
            offset: number(figures::OFFSET),
            rotor_inset: number(figures::INSET),
            tilt: number(figures::TILT),
            pads: self.pads(&state, number),
            pairs: self.pairs(figures, uncertainty),
            limits,
        }
    }

    fn hole(&self, solution: &Solution, hole: usize) -> BuiltHole {
        let (at, covariance) = (solution.located.holes, solution.located.covariance);
        let (b, u) = (2 * hole, 2 * hole + 1);
        let designed = [self.state[b], self.state[u]];
        let by = Vector::new(at[b] - designed[0], at[u] - designed[1], 0.0);
        let clock = designed[0].atan2(designed[1]).to_degrees();
        let covariance = [[covariance[b][b], covariance[b][u]], [covariance[u][b], covariance[u][u]]];
        BuiltHole {
            back: at[b],
            up: at[u],
            designed,
            off: Off { radial: by.dot(radial(clock)), tangential: by.dot(tangential(clock)), distance: by.length() },
            covariance,
            ellipse: ellipse([at[b], at[u]], covariance),
        }
    }

    fn pads(&self, state: &State, number: impl Fn(usize) -> Built) -> BuiltPads {
        let seat = seat(self.setup, &holes_of(state));
        let [first, second] = self.setup.caliper.holes;
        let along = [second[0] - first[0], second[1] - first[1]];
        let size = along[0].hypot(along[1]);
        let slope = slope_of(state);
        let pad = &self.setup.caliper.pad;
        let part = |way: usize, pad: f64| taper(pad, (slope * along[way] / size).atan().to_degrees()).abs();
        let (coverage, overhang) = (number(figures::COVERAGE), number(figures::OVERHANG));
        BuiltPads {
            centre: seat.pads,
            radius: number(figures::RADIUS),
            clock: number(figures::CLOCK),
            skew: seat.skew(),
            coverage,
            overhang,
            below_band: number(figures::BELOW_BAND),
            taper: [part(0, pad.length), part(1, pad.height)],
            sentence: format!(
                "{} of the pad is on the braking band, {} was designed; {} past the rotor's edge.",
                percent(coverage.value),
                percent(coverage.designed),
                fine_length(overhang.value),
            ),
        }
    }

    fn pairs(&self, figures: &Figures, uncertainty: &Uncertainty) -> Vec<BuiltPair> {
        let one = |(name, gap): &(crate::fit::PairName, f64)| {
            let of = |pairs: &[(crate::fit::PairName, f64)]| {
                pairs.iter().find(|(other, _)| other == name).map(|(_, value)| *value)
            };
            let by = of(&uncertainty.pairs).unwrap_or(0.0);
            let required = name.required(self.setup);
            let verdict = Verdict::of(*gap, required);
            BuiltPair {
                name: name.key(),
                label: name.label(),
                gap: Built { value: *gap, uncertainty: by, designed: of(&self.figures.pairs).unwrap_or(*gap) },
                required,
                margin: gap - required,
                verdict,
                sure: Verdict::of(gap - by, required) == verdict && Verdict::of(gap + by, required) == verdict,
            }
        };
        figures.pairs.iter().map(one).collect()
    }
}

fn state_of(solution: &Solution) -> State {
    let ([b1, u1, b2, u2], [o1, o2, inset]) = (solution.located.holes, solution.levelled.at);
    [b1, u1, b2, u2, o1, o2, inset]
}

/// Holes and plane are read apart, so their errors have nothing in common.
fn spread_of(solution: &Solution) -> figures::Spread {
    let mut spread = [[0.0; 7]; 7];
    for (row, own) in spread.iter_mut().zip(&solution.located.covariance) {
        row[..4].copy_from_slice(own);
    }
    for (row, own) in spread.iter_mut().skip(4).zip(&solution.levelled.covariance) {
        row[4..].copy_from_slice(own);
    }
    spread
}

fn wanted(key: Reading) -> Wanted {
    let why = match key {
        Reading::Hole1 | Reading::Hole2 | Reading::Spacing => "Three sides make the triangle of axle and holes.",
        Reading::Neck1 | Reading::Neck2 => "The triangle is too flat to tell how far the holes lie aside.",
        Reading::Step1 | Reading::Step2 | Reading::Rotor => {
            "Two numbers make the tab's plane: its offset and its tilt."
        }
        Reading::Tube => "",
    };
    Wanted { key, label: key.label(), why }
}

/// Readings that are not needed but would make the result surer.
fn useful(solution: &Solution, means: &[Mean]) -> Vec<Wanted> {
    let is_open = |key: &Reading| !means.iter().any(|mean| mean.reading == *key);
    let mut all = Vec::new();
    if solution.located.turned_as_designed {
        let why = "Tells where the tab lies round the axle, which is only taken as designed so far.";
        all.extend([Reading::Neck1, Reading::Neck2].into_iter().filter(is_open).map(|key| (key, why)));
    }
    let why = "Checks the others: with one number more than needed a wrong one shows.";
    all.extend([Reading::Rotor, Reading::Tube].into_iter().filter(is_open).map(|key| (key, why)));
    all.into_iter().map(|(key, why)| Wanted { key, label: key.label(), why }).collect()
}
