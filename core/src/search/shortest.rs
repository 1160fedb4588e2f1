//! The shortest dropout: the smallest distance from axle to tube at which the caliper can sit somewhere.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use super::arcs::{Arcs, wrapped};
use super::margin::{Margin, worse};
use super::no_gap;
use super::ring::clear_arcs;
use super::rules::{line_runs_up, wheel_drops_out};
use super::sweep::Sweep;
use crate::fit::PairName;
use crate::plain::{Datum, Plain, plain, serialize};
use crate::setup::{Kind, Problem, Range, Setup};
use crate::solid::NotConverged;
use crate::tolerance::{AT_THE_LIMIT, CLOCK_EDGE, CLOCK_FIRST_LOOK, CLOCK_SAMPLE, TUBE_END_BRACKET, TUBE_END_STEP};

/// What a position must offer besides clearing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rules {
    /// The line runs up the leg.
    pub line_up: bool,
    /// The wheel drops out with the caliper bolted on.
    pub wheel_out: bool,
}

impl Rules {
    /// Clearing is enough.
    pub const NONE: Rules = Rules { line_up: false, wheel_out: false };
    /// Both.
    pub const ALL: Rules = Rules { line_up: true, wheel_out: true };

    /// The clock angles at which a setup keeps to them.
    pub(crate) fn arcs(self, setup: &Setup) -> Arcs {
        let line = if self.line_up { line_runs_up(setup) } else { Arcs::all() };
        if self.wheel_out { line.and(&wheel_drops_out(setup)) } else { line }
    }
}

/// The shortest dropout of a setup.
#[derive(Clone, Debug, PartialEq)]
pub enum Shortest {
    /// There is one.
    Found(Place),
    /// No tube end in the field's range leaves a place.
    None {
        /// Key of what stands in the way: a pair, or `line` or `wheel` for a rule that no clock angle keeps.
        obstacle: &'static str,
    },
}

impl Plain for Shortest {
    fn datum(&self) -> Datum<'_> {
        match self {
            Shortest::Found(Place { tube_end, clock, binding, before, after }) => Datum::Record(
                &["kind", "tube_end", "clock", "binding", "before", "after"],
                vec![&"found", tube_end, clock, binding, before, after],
            ),
            Shortest::None { obstacle } => Datum::Record(&["kind", "obstacle"], vec![&"none", obstacle]),
        }
    }
}
serialize!(Shortest);

/// A tube end and the clock angle that goes with it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Axle to the tube's lower end along the leg, mm; never too short, and at most 0.01 mm too long.
    pub tube_end: f64,
    /// Clock angle, degrees: of those that do, the one nearest to the setup's own.
    pub clock: f64,
    /// Key of the pair that binds there.
    pub binding: &'static str,
    /// Key of the pair that binds half a degree before it; none where the range begins there.
    pub before: Option<&'static str>,
    /// Key of the pair that binds half a degree after it.
    pub after: Option<&'static str>,
}

plain!(Place { tube_end, clock, binding, before, after });

/// The smallest tube end at which some clock angle clears and keeps to the rules; everything else as in the setup.
///
/// The plane of clock angle and tube end is searched by halving the clock angles, the most promising first: bounds on how
/// fast gaps change (see the sweep's own words) tell how far the tube must at least be away for any angle of an interval.
///
/// # Errors
/// A problem without a field where a gap could not be found.
pub fn shortest_dropout(setup: &Setup, rules: Rules) -> Result<Shortest, Vec<Problem>> {
    let search = || -> Result<Shortest, NotConverged> {
        let allowed = rules.arcs(setup);
        let mut sweeps = [Sweep::of(setup)?];
        shortest_of(&mut sweeps, &allowed, rules, setup)
    };
    search().map_err(no_gap)
}

/// As [`shortest_dropout`], for one tube end that suits several sweeps at one clock angle.
pub(crate) fn shortest_of(
    sweeps: &mut [Sweep],
    allowed: &Arcs,
    rules: Rules,
    setup: &Setup,
) -> Result<Shortest, NotConverged> {
    let steady = sweeps.iter().map(Sweep::steady).fold(None, worse);
    if let Some(steady) = steady.filter(|steady| steady.margin() < -AT_THE_LIMIT) {
        return Ok(Shortest::None { obstacle: steady.name.key() });
    }
    if allowed.is_empty() {
        let line_fails = rules.line_up && line_runs_up(setup).is_empty();
        return Ok(Shortest::None { obstacle: if line_fails { "line" } else { "wheel" } });
    }
    let range = tube_end_range();
    let Some(Cell { end, middle, .. }) = lowest(sweeps, allowed, range)? else {
        let obstacle = obstacle(sweeps, allowed, range)?;
        return Ok(Shortest::None { obstacle: obstacle.map_or("line", PairName::key) });
    };
    let clock = nearest_clear(sweeps, allowed, end, setup.tab.clock)?.unwrap_or(middle);
    let mut worst = |clock: f64| worst_at(sweeps, clock, end);
    let blocks = |worst: &Margin| worst.margin() < -AT_THE_LIMIT;
    let [before, after] = [worst(clock - 0.5)?, worst(clock + 0.5)?];
    Ok(Shortest::Found(Place {
        tube_end: end,
        clock: wrapped(clock),
        binding: worst(clock)?.map_or("", |worst| worst.name.key()),
        before: before.filter(blocks).map(|worst| worst.name.key()),
        after: after.filter(blocks).map(|worst| worst.name.key()),
    }))
}

/// The smallest tube end at which the setup's own clock angle clears; none where no tube end in the range does.
pub(crate) fn shortest_here(setup: &Setup) -> Result<Option<f64>, NotConverged> {
    let mut sweep = Sweep::of(setup)?;
    if sweep.steady().is_some_and(|steady| steady.margin() < -AT_THE_LIMIT) {
        return Ok(None);
    }
    let Range { low, high } = tube_end_range();
    raised(std::slice::from_mut(&mut sweep), setup.tab.clock, 0.0, [low, high])
}

/// The clock angle nearest to `own` that clears with a tube end, half a degree inside its stretch where that is wide
/// enough; none where only single angles do.
fn nearest_clear(sweeps: &mut [Sweep], allowed: &Arcs, tube_end: f64, own: f64) -> Result<Option<f64>, NotConverged> {
    let mut clear = allowed.clone();
    for sweep in sweeps {
        sweep.slide_to(tube_end);
        clear = clear.and(&clear_arcs(sweep)?);
    }
    Ok(clear.nearest(own, 0.5))
}

/// The range of the table's own field.
pub(crate) fn tube_end_range() -> Range {
    match Setup::field("fork.tube_end").map(|field| field.kind) {
        Some(Kind::Number { hard, .. }) => hard,
        _ => Range { low: 0.0, high: 0.0 },
    }
}

/// The worst pair of several sweeps.
pub(crate) fn worst_at(sweeps: &mut [Sweep], clock: f64, tube_end: f64) -> Result<Option<Margin>, NotConverged> {
    let mut worst = None;
    for sweep in sweeps {
        sweep.turn_to(clock);
        sweep.slide_to(tube_end);
        worst = worse(worst, sweep.worst()?);
    }
    Ok(worst)
}

/// An interval of clock angles; no angle of it does with a tube end below `end`.
#[derive(Clone, Copy, PartialEq)]
struct Cell {
    end: f64,
    middle: f64,
    half: f64,
}

impl Eq for Cell {}

impl Ord for Cell {
    /// The heap gives the greatest first: the lowest end, and of equals the widest interval.
    fn cmp(&self, other: &Self) -> Ordering {
        other.end.total_cmp(&self.end).then(self.half.total_cmp(&other.half)).then(other.middle.total_cmp(&self.middle))
    }
}

impl PartialOrd for Cell {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// The lowest tube end in the range at which all sweeps clear at one of the allowed clock angles.
fn lowest(sweeps: &mut [Sweep], allowed: &Arcs, range: Range) -> Result<Option<Cell>, NotConverged> {
    let mut waiting = BinaryHeap::new();
    for &[from, to] in allowed.spans() {
        let count = ((to - from) / CLOCK_FIRST_LOOK).ceil().max(1.0);
        let half = (to - from) / count / 2.0;
        for index in 0..count as u32 {
            waiting.push(Cell { end: range.low, middle: from + half * (2.0 * f64::from(index) + 1.0), half });
        }
    }
    let mut best: Option<Cell> = None;
    while let Some(cell) = waiting.pop() {
        let limit = best.map_or(range.high, |best| best.end - 2.0 * TUBE_END_BRACKET);
        if cell.end > limit {
            break;
        }
        let Some(end) = raised(sweeps, cell.middle, cell.half.to_radians(), [cell.end, limit])? else {
            continue;
        };
        if let Some(end) = raised(sweeps, cell.middle, 0.0, [end, limit])? {
            best = Some(Cell { end, half: 0.0, ..cell });
        }
        if 2.0 * cell.half > CLOCK_EDGE {
            let half = cell.half / 2.0;
            for aside in [-half, half] {
                waiting.push(Cell { end, middle: cell.middle + aside, half });
            }
        }
    }
    Ok(best)
}

/// The smallest tube end of a range at which, after some turn of up to `turn` rad from `clock`, everything may clear.
fn raised(sweeps: &mut [Sweep], clock: f64, turn: f64, [low, high]: [f64; 2]) -> Result<Option<f64>, NotConverged> {
    sweeps.iter_mut().for_each(|sweep| sweep.turn_to(clock));
    let mut tube_may_clear = |sweeps: &mut [Sweep], end: f64| all(sweeps, end, |sweep| sweep.tube_may_clear(turn));
    let mut plate_may_clear =
        |sweeps: &mut [Sweep], end: f64| all(sweeps, end, |sweep| Ok(sweep.plate_deficit(turn)? <= 0.0));
    if low > high {
        return Ok(None);
    }
    let mut end = low;
    if !tube_may_clear(sweeps, end)? {
        if !tube_may_clear(sweeps, high)? {
            return Ok(None);
        }
        end = first(sweeps, [end, high], &mut tube_may_clear)?;
    }
    // From here on the tube is out of the way; neck and web change with every step.
    let mut too_short = end;
    while end <= high {
        let mut deficit: f64 = 0.0;
        for sweep in sweeps.iter_mut() {
            sweep.slide_to(end);
            deficit = deficit.max(sweep.plate_deficit(turn)?);
        }
        if deficit <= 0.0 {
            return first(sweeps, [too_short, end], &mut plate_may_clear).map(Some);
        }
        too_short = end;
        end += deficit.max(TUBE_END_STEP);
    }
    Ok(None)
}

fn all(
    sweeps: &mut [Sweep],
    tube_end: f64,
    mut holds: impl FnMut(&mut Sweep) -> Result<bool, NotConverged>,
) -> Result<bool, NotConverged> {
    for sweep in sweeps {
        sweep.slide_to(tube_end);
        if !holds(sweep)? {
            return Ok(false);
        }
    }
    Ok(true)
}

/// Where between a tube end that does not do and one that does the change lies, on the side that does.
fn first(
    sweeps: &mut [Sweep],
    [mut too_short, mut enough]: [f64; 2],
    does: &mut impl FnMut(&mut [Sweep], f64) -> Result<bool, NotConverged>,
) -> Result<f64, NotConverged> {
    while enough - too_short > TUBE_END_BRACKET {
        let middle = (too_short + enough) / 2.0;
        if does(sweeps, middle)? {
            enough = middle;
        } else {
            too_short = middle;
        }
    }
    Ok(enough)
}

/// What stands in the way where no tube end does: the pair that binds where the longest comes nearest to clearing.
fn obstacle(sweeps: &mut [Sweep], allowed: &Arcs, range: Range) -> Result<Option<PairName>, NotConverged> {
    let mut nearest: Option<Margin> = None;
    for &[from, to] in allowed.spans() {
        let count = ((to - from) / CLOCK_SAMPLE).ceil();
        for index in 0..=count as u32 {
            let worst = worst_at(sweeps, from + (to - from) * f64::from(index) / count.max(1.0), range.high)?;
            if let Some(worst) = worst
                && nearest.is_none_or(|nearest| nearest.is_worse_than(&worst))
            {
                nearest = Some(worst);
            }
        }
    }
    Ok(nearest.map(|nearest| nearest.name))
}
