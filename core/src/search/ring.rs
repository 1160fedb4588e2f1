//! The ring: where about the axle the caliper may sit.

use super::arcs::{Arc, Arcs, wrapped};
use super::margin::{Margin, worse};
use super::rules::{line_runs_up, wheel_drops_out};
use super::sweep::Sweep;
use crate::fit::{PairName, Verdict, is_buildable};
use crate::plain::plain;
use crate::setup::{Problem, Setup};
use crate::solid::NotConverged;
use crate::tolerance::{CLOCK_EDGE, CLOCK_FIRST_LOOK, CLOCK_SAMPLE};

/// Everything the searches over clock angles say about a setup, whatever its own clock angle.
#[derive(Clone, Debug)]
pub struct Ring {
    /// All round, in the way of growing clock angles: stretches with one verdict and one binding pair.
    pub stretches: Vec<Stretch>,
    /// The stretches where every gap is at least what is wanted.
    pub windows: Vec<Window>,
    /// Where the line runs up the leg.
    pub line_up: Vec<Arc>,
    /// Where the wheel drops out with the caliper bolted on.
    pub wheel_out: Vec<Arc>,
    /// Whether caliper and rotor, plate and tube go together at all; no clock angle changes that.
    pub buildable: bool,
}

plain!(Ring { stretches, windows, line_up, wheel_out, buildable });

/// A stretch of clock angles with one verdict and one binding pair.
#[derive(Clone, Debug)]
pub struct Stretch {
    /// Where it starts, degrees, in [−180, 180).
    pub from: f64,
    /// Where it ends, degrees, in (−180, 180].
    pub to: f64,
    /// The verdict on the gaps all along it.
    pub verdict: Verdict,
    /// Key of the pair that binds, such as `caliper/tube`.
    pub binding: &'static str,
    /// The least margin along it, mm, as sampled.
    pub margin: f64,
}

plain!(Stretch { from, to, verdict, binding, margin });

/// Clock angles that clear.
#[derive(Clone, Debug)]
pub struct Window {
    /// The stretch.
    pub arc: Arc,
    /// The clock angle with most room: where the pairs that change with it are furthest above what is wanted.
    pub best: f64,
    /// The worst margin there, mm.
    pub margin: f64,
    /// Key of the pair that binds there.
    pub binding: &'static str,
}

plain!(Window { ..arc { from, width }, best, margin, binding });

/// The ring of a setup that [`Setup::read`] returned; its own clock angle does not matter.
///
/// # Errors
/// A problem without a field where a gap could not be found.
///
/// ```
/// use tabwright_core::{Setup, search::ring};
/// let setup = Setup::default();
/// let ring = ring(&setup).unwrap();
/// assert!(ring.windows.iter().any(|window| window.arc.contains(setup.tab.clock)));
/// ```
pub fn ring(setup: &Setup) -> Result<Ring, Vec<Problem>> {
    Sweep::of(setup).and_then(|mut sweep| ring_of(setup, &mut sweep)).map_err(super::no_gap)
}

/// The ring of a setup, by a sweep that stands at its tube end.
pub(crate) fn ring_of(setup: &Setup, sweep: &mut Sweep) -> Result<Ring, NotConverged> {
    let verdicts = verdicts(sweep, Verdict::Hits)?;
    let mut stretches = Vec::new();
    let mut best = Vec::new();
    for &(span, verdict) in &verdicts {
        // Where nothing fits anyway, a coarser look will do.
        let spacing = if verdict == Verdict::Hits { 2.0 * CLOCK_SAMPLE } else { CLOCK_SAMPLE };
        let samples = samples(sweep, span, spacing)?;
        split(sweep, span, verdict, &samples, &mut stretches)?;
        if verdict == Verdict::Clears {
            best.extend(roomiest(sweep, span, &samples)?);
        }
    }
    let clear =
        Arcs::from_spans(verdicts.iter().filter(|(_, verdict)| *verdict == Verdict::Clears).map(|(span, _)| *span));
    let windows = clear.arcs().into_iter().filter_map(|arc| {
        let inside = best.iter().filter(|best| arc.contains(best.clock));
        let best = inside.max_by(|a, b| a.room.total_cmp(&b.room))?;
        let (margin, binding) = (best.worst.margin(), best.worst.name.key());
        Some(Window { arc, best: wrapped(best.clock), margin, binding })
    });
    Ok(Ring {
        windows: windows.collect(),
        stretches,
        line_up: line_runs_up(setup).arcs(),
        wheel_out: wheel_drops_out(setup).arcs(),
        buildable: is_buildable(setup),
    })
}

/// The clock angles that clear, by a sweep that stands where it is.
pub(crate) fn clear_arcs(sweep: &mut Sweep) -> Result<Arcs, NotConverged> {
    let verdicts = verdicts(sweep, Verdict::Tight)?;
    Ok(Arcs::from_spans(verdicts.into_iter().filter(|(_, verdict)| *verdict == Verdict::Clears).map(|(span, _)| span)))
}

/// The verdict all round, as intervals of [−180, 180] whose ends are right to [`CLOCK_EDGE`]; all that is sure to be
/// `enough` or worse may come as hits.
///
/// An interval is accepted whole where the bounds on how fast gaps change (see [`Sweep`]) leave one verdict only;
/// otherwise it is halved. So no stretch wider than [`CLOCK_EDGE`] of a verdict is missed, be it ever so narrow a window.
fn verdicts(sweep: &mut Sweep, enough: Verdict) -> Result<Vec<([f64; 2], Verdict)>, NotConverged> {
    let mut found: Vec<([f64; 2], Verdict)> = Vec::new();
    let count = (360.0 / CLOCK_FIRST_LOOK) as usize;
    let mut waiting = Vec::new();
    for index in 0..count {
        let from = -180.0 + index as f64 * CLOCK_FIRST_LOOK;
        waiting.push([from, from + CLOCK_FIRST_LOOK]);
        while let Some([from, to]) = waiting.pop() {
            let middle = (from + to) / 2.0;
            sweep.turn_to(middle);
            let [best, worst] = sweep.verdicts_within(((to - from) / 2.0).to_radians(), enough)?;
            let verdict = if best == worst {
                best
            } else if to - from <= CLOCK_EDGE {
                sweep.worst()?.map_or(Verdict::Clears, |worst| worst.verdict())
            } else {
                waiting.extend([[middle, to], [from, middle]]);
                continue;
            };
            match found.last_mut() {
                Some((span, last)) if *last == verdict => span[1] = to,
                _ => found.push(([from, to], verdict)),
            }
        }
    }
    Ok(found)
}

/// What binds at a clock angle.
pub(crate) struct Sample {
    clock: f64,
    /// Of the pairs that change with the clock angle.
    moving: Option<Margin>,
    worst: Option<Margin>,
}

/// The place in a stretch with most room.
pub(crate) struct Best {
    pub(crate) clock: f64,
    /// Margin of the pairs that change with the clock angle, mm.
    pub(crate) room: f64,
    pub(crate) worst: Margin,
}

/// What binds just inside the ends of a stretch, and about every `spacing` degrees between.
pub(crate) fn samples(sweep: &mut Sweep, span: [f64; 2], spacing: f64) -> Result<Vec<Sample>, NotConverged> {
    let look = |clock| {
        sweep.turn_to(clock);
        let moving = sweep.worst_turning()?;
        Ok(Sample { clock, moving, worst: worse(sweep.worst_standing()?, moving) })
    };
    sample_clocks(span, spacing).map(look).collect()
}

fn sample_clocks([from, to]: [f64; 2], spacing: f64) -> impl Iterator<Item = f64> {
    let inset = (CLOCK_EDGE / 2.0).min((to - from) / 2.0);
    let steps = ((to - from - 2.0 * inset) / spacing).ceil();
    (0..=steps as u32).map(move |step| from + inset + (to - from - 2.0 * inset) * f64::from(step) / steps.max(1.0))
}

/// Cuts a stretch of one verdict where the binding pair changes.
fn split(
    sweep: &mut Sweep,
    [from, to]: [f64; 2],
    verdict: Verdict,
    samples: &[Sample],
    stretches: &mut Vec<Stretch>,
) -> Result<(), NotConverged> {
    let mut start = from;
    let mut last: Option<(f64, Margin)> = None;
    let mut least = f64::MAX;
    let mut end_stretch = |from: f64, to: f64, name: PairName, margin: f64| {
        stretches.push(Stretch { from, to, verdict, binding: name.key(), margin });
    };
    for sample in samples {
        let Some(worst) = sample.worst else {
            continue;
        };
        if let Some((clock, binding)) = last
            && binding.name != worst.name
        {
            let edge = change_of_binding(sweep, binding.name, [clock, sample.clock])?;
            end_stretch(start, edge, binding.name, least);
            (start, least) = (edge, f64::MAX);
        }
        least = least.min(worst.margin());
        last = Some((sample.clock, worst));
    }
    if let Some((_, binding)) = last {
        end_stretch(start, to, binding.name, least);
    }
    Ok(())
}

/// Where between two clock angles another pair takes over from `name`, to a sixteenth of the way.
fn change_of_binding(sweep: &mut Sweep, name: PairName, [mut from, mut to]: [f64; 2]) -> Result<f64, NotConverged> {
    let nearly = (to - from) / 16.0;
    while to - from > nearly {
        let middle = (from + to) / 2.0;
        sweep.turn_to(middle);
        if sweep.worst()?.is_some_and(|worst| worst.name == name) {
            from = middle;
        } else {
            to = middle;
        }
    }
    Ok((from + to) / 2.0)
}

/// The place with most room in a stretch: the best sample, and from there uphill.
pub(crate) fn roomiest(
    sweep: &mut Sweep,
    [from, to]: [f64; 2],
    samples: &[Sample],
) -> Result<Option<Best>, NotConverged> {
    let room = |moving: Option<Margin>| moving.map_or(f64::MAX, |moving| moving.margin());
    let Some(top) = samples.iter().max_by(|a, b| room(a.moving).total_cmp(&room(b.moving))) else {
        return Ok(None);
    };
    let (mut clock, mut most) = (top.clock, room(top.moving));
    let mut step = CLOCK_SAMPLE / 2.0;
    while step > CLOCK_EDGE / 2.0 {
        let mut moved = false;
        for candidate in [clock - step, clock + step].into_iter().filter(|clock| (from..=to).contains(clock)) {
            sweep.turn_to(candidate);
            let found = room(sweep.worst_turning()?);
            if found > most {
                (clock, most, moved) = (candidate, found, true);
                break;
            }
        }
        if !moved {
            step /= 2.0;
        }
    }
    sweep.turn_to(clock);
    Ok(sweep.worst()?.map(|worst| Best { clock, room: most, worst }))
}

/// The place with most room in a set of clock angles.
pub(crate) fn roomiest_of(sweep: &mut Sweep, arcs: &Arcs) -> Result<Option<Best>, NotConverged> {
    let mut best: Option<Best> = None;
    for &span in arcs.spans() {
        let samples = samples(sweep, span, CLOCK_SAMPLE)?;
        let found = roomiest(sweep, span, &samples)?;
        if found.as_ref().is_some_and(|found| best.as_ref().is_none_or(|best| found.room > best.room)) {
            best = found;
        }
    }
    Ok(best)
}
