//! What would fix a setup that does not clear: single changes, and pairs of changes where no single one helps.

use super::arcs::wrapped;
use super::no_gap;
use super::ring::clear_arcs;
use super::sweep::Sweep;
use crate::fit::{Judgement, Outcome, Run, judge, judge_from, line_run, throat, wheel_removal};
use crate::plain::plain;
use crate::setup::{Kind, Problem, Range, Setup};
use crate::solid::NotConverged;
use crate::tolerance::AT_THE_LIMIT;

/// One field with a new value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// Path of the field, such as `tab.clock`.
    pub field: &'static str,
    /// Its value now.
    pub from: f64,
    /// Its value in the fix, rounded to what can be scribed.
    pub to: f64,
}

plain!(Change { field, from, to });

/// Changes that make a setup clear.
#[derive(Clone, Debug)]
pub struct Fix {
    /// One change or two.
    pub changes: Vec<Change>,
    /// The worst margin then, mm; not negative.
    pub margin: f64,
    /// How much that is above the worst margin now, mm.
    pub gain: f64,
    /// Key of the pair that binds then.
    pub binding: &'static str,
    /// Which way the line leaves then.
    pub line: Run,
    /// Whether the wheel drops out then with the caliper bolted on.
    pub wheel_out: bool,
}

plain!(Fix { changes, margin, gain, binding, line, wheel_out });

/// What would fix a setup.
#[derive(Clone, Debug)]
pub struct Fixes {
    /// The verdict now.
    pub verdict: Outcome,
    /// The worst margin now, mm.
    pub margin: f64,
    /// Fixes, the least trouble first; empty where the setup clears or nothing tried helps.
    pub fixes: Vec<Fix>,
}

plain!(Fixes { verdict, margin, fixes });

/// Values are proposed in steps of this, mm or degrees.
const SCRIBED: f64 = 0.1;
/// The most fixes by two changes that are listed.
const MOST_PAIRS: usize = 3;

/// A field that fixes may change, and how much of a change is as much trouble as another: common practice, no source.
struct Lever {
    field: &'static str,
    get: fn(&mut Setup) -> &mut f64,
    /// Trouble of any change at all.
    fixed: f64,
    /// Trouble per mm or degree.
    per_unit: f64,
    /// Changes to try together with another one.
    first_steps: &'static [f64],
}

const CLOCK: Lever =
    Lever { field: "tab.clock", get: |setup| &mut setup.tab.clock, fixed: 0.0, per_unit: 0.1, first_steps: &[] };

/// Values that can be cut to measure.
const CUT: [Lever; 4] = [
    Lever {
        field: "fork.tube_end",
        get: |setup| &mut setup.fork.tube_end,
        fixed: 0.0,
        per_unit: 0.15,
        first_steps: &[5.0, 10.0, 20.0],
    },
    Lever {
        field: "tab.offset",
        get: |setup| &mut setup.tab.offset,
        fixed: 1.0,
        per_unit: 1.0,
        first_steps: &[-3.0, 3.0],
    },
    Lever {
        field: "fork.axle_offset",
        get: |setup| &mut setup.fork.axle_offset,
        fixed: 1.5,
        per_unit: 0.15,
        first_steps: &[-10.0, 10.0],
    },
    Lever {
        field: "dropout.thickness",
        get: |setup| &mut setup.dropout.thickness,
        fixed: 1.5,
        per_unit: 1.0,
        first_steps: &[-1.0, 2.0],
    },
];

/// Parts that come in sizes.
const BOUGHT: [Lever; 2] = [
    Lever {
        field: "wheel.rotor_diameter",
        get: |setup| &mut setup.wheel.rotor_diameter,
        fixed: 2.0,
        per_unit: 0.01,
        first_steps: &[],
    },
    Lever {
        field: "wheel.hub_width",
        get: |setup| &mut setup.wheel.hub_width,
        fixed: 6.0,
        per_unit: 0.05,
        first_steps: &[],
    },
];

impl Lever {
    fn value(&self, setup: &Setup) -> f64 {
        *(self.get)(&mut setup.clone())
    }

    fn with(&self, setup: &Setup, value: f64) -> Setup {
        let mut other = setup.clone();
        *(self.get)(&mut other) = value;
        other
    }

    fn trouble(&self, change: &Change) -> f64 {
        self.fixed + self.per_unit * (change.to - change.from).abs()
    }

    /// Where proposals stay, and the sizes the part is sold in.
    fn range(&self) -> (Range, &'static [f64]) {
        match Setup::field(self.field).map(|field| field.kind) {
            Some(Kind::Number { plausible, stops, .. }) => (plausible, stops),
            _ => (Range { low: 0.0, high: 0.0 }, &[]),
        }
    }

    /// The next size up and down.
    fn neighbours(&self, setup: &Setup) -> impl Iterator<Item = f64> {
        let (value, (_, stops)) = (self.value(setup), self.range());
        let up = stops.iter().copied().find(|stop| *stop > value);
        let down = stops.iter().copied().rev().find(|stop| *stop < value);
        up.into_iter().chain(down)
    }
}

/// What would fix a setup that [`Setup::read`] returned.
///
/// Every fix has been tried: with it the report clears, by the margin given. Single changes are the smallest of their
/// kind, in steps of 0.1; where none helps, pairs of changes are tried, the first of them in a few set steps.
///
/// # Errors
/// A problem without a field where a gap could not be found.
pub fn fixes(setup: &Setup) -> Result<Fixes, Vec<Problem>> {
    search(setup).map_err(no_gap)
}

fn search(setup: &Setup) -> Result<Fixes, NotConverged> {
    let judged = judge(setup)?;
    let mut answer = Fixes { verdict: judged.outcome, margin: judged.binding.margin(), fixes: Vec::new() };
    if judged.outcome == Outcome::Clears {
        return Ok(answer);
    }
    // The throat is the caliper's own: no change of anything else widens it.
    if throat(setup).margin() < -AT_THE_LIMIT {
        return Ok(answer);
    }
    let mut found = Candidates::default();
    singles(setup, &mut |lever, to| {
        let change = Change { field: lever.field, from: lever.value(setup), to };
        found.add(lever.trouble(&change), vec![change]);
    })?;
    if found.0.is_empty() {
        pairs(setup, &mut found)?;
        found.0.truncate(MOST_PAIRS);
    }
    for (_, changes) in found.0 {
        answer.fixes.extend(tried(setup, changes, answer.margin)?);
    }
    Ok(answer)
}

/// Changes with their trouble, the least first.
#[derive(Default)]
struct Candidates(Vec<(f64, Vec<Change>)>);

impl Candidates {
    fn add(&mut self, trouble: f64, changes: Vec<Change>) {
        // There are a dozen or two, and the library's sorting would cost the page 5 kB.
        let at = self.0.partition_point(|(other, _)| *other <= trouble);
        self.0.insert(at, (trouble, changes));
    }
}

/// Calls `with` each single change that makes a setup clear.
fn singles(setup: &Setup, with: &mut impl FnMut(&'static Lever, f64)) -> Result<(), NotConverged> {
    if let Some(clock) = clear_clock(setup)? {
        with(&CLOCK, clock);
    }
    cut_to_measure(setup, with)?;
    for lever in &BOUGHT {
        for size in lever.neighbours(setup) {
            if clears(&lever.with(setup, size))? {
                with(lever, size);
            }
        }
    }
    Ok(())
}

fn cut_to_measure(setup: &Setup, with: &mut impl FnMut(&'static Lever, f64)) -> Result<(), NotConverged> {
    for lever in &CUT {
        for way in [1.0, -1.0] {
            if let Some(value) = first_clear(setup, lever, way)? {
                with(lever, value);
            }
        }
    }
    Ok(())
}

/// Pairs of changes: another size, or a cut changed by a set step, and then a clock angle or another cut.
fn pairs(setup: &Setup, found: &mut Candidates) -> Result<(), NotConverged> {
    let bought = BOUGHT.iter().flat_map(|lever| lever.neighbours(setup).map(move |size| (lever, size)));
    let cut = CUT.iter().flat_map(|lever| {
        let (range, _) = lever.range();
        let steps = lever.first_steps.iter().map(|step| lever.value(setup) + step);
        steps.filter(move |value| range.contains(*value)).map(move |value| (lever, value))
    });
    for (lever, value) in bought.chain(cut) {
        let changed = lever.with(setup, value);
        if changed.checked().is_err() {
            continue;
        }
        let first = Change { field: lever.field, from: lever.value(setup), to: value };
        let mut add = |second: &'static Lever, to: f64| {
            if second.field == lever.field {
                return;
            }
            let change = Change { field: second.field, from: second.value(setup), to };
            found.add(lever.trouble(&first) + second.trouble(&change), vec![first, change]);
        };
        if let Some(clock) = clear_clock(&changed)? {
            add(&CLOCK, clock);
        }
        cut_to_measure(&changed, &mut add)?;
    }
    Ok(())
}

/// The clock angle nearest to the setup's own that clears, to a tenth of a degree.
fn clear_clock(setup: &Setup) -> Result<Option<f64>, NotConverged> {
    let clear = clear_arcs(&mut Sweep::of(setup)?)?;
    let Some(nearest) = clear.nearest(setup.tab.clock, 0.0) else {
        return Ok(None);
    };
    // The edge of an arc is known to less than a step.
    let mut tries = [-1.0, 0.0, 1.0].map(|steps| scribed(nearest + steps * SCRIBED));
    let turn_to = |clock: &f64| wrapped(clock - setup.tab.clock).abs();
    tries.sort_by(|one, other| turn_to(one).total_cmp(&turn_to(other)));
    for clock in tries {
        if (-180.0..=180.0).contains(&clock) && clears(&CLOCK.with(setup, clock))? {
            return Ok(Some(clock));
        }
    }
    Ok(None)
}

/// The first value in steps of [`SCRIBED`], up or down from the setup's own, that clears; none within what is plausible.
///
/// No gap, and neither adjustment nor recess, changes faster than the value itself, so as much as is missing can be
/// stepped over at once.
fn first_clear(setup: &Setup, lever: &Lever, way: f64) -> Result<Option<f64>, NotConverged> {
    let (range, _) = lever.range();
    let mut changed = setup.clone();
    let mut value = lever.value(setup);
    let mut judged = judge(setup)?;
    loop {
        let onward = value + way * judged.deficit(&changed).max(SCRIBED);
        value =
            (if way > 0.0 { (onward / SCRIBED - 1e-9).ceil() } else { (onward / SCRIBED + 1e-9).floor() }) * SCRIBED;
        value = scribed(value);
        if !range.contains(value) {
            return Ok(None);
        }
        changed = lever.with(setup, value);
        // The pair that was in the way most likely still is.
        judged = judge_from(&changed, judged.binding.name)?;
        if judged.outcome == Outcome::Clears {
            break;
        }
    }
    if changed.checked().is_err() {
        return Ok(None);
    }
    // Where the web changes its hold, gaps jump and a step may have been too long.
    loop {
        let less = scribed(value - way * SCRIBED);
        if (less - lever.value(setup)) * way <= 0.0 || !clears(&lever.with(setup, less))? {
            return Ok(Some(value));
        }
        value = less;
    }
}

/// The nearest value that can be scribed.
fn scribed(value: f64) -> f64 {
    (value / SCRIBED).round() / (1.0 / SCRIBED)
}

fn clears(setup: &Setup) -> Result<bool, NotConverged> {
    Ok(setup.checked().is_ok() && judge(setup)?.outcome == Outcome::Clears)
}

/// The fix with what it brings; none where it does not clear after all.
fn tried(setup: &Setup, changes: Vec<Change>, before: f64) -> Result<Option<Fix>, NotConverged> {
    let levers = || CUT.iter().chain(&BOUGHT).chain([&CLOCK]);
    let mut changed = setup.clone();
    for change in &changes {
        if let Some(lever) = levers().find(|lever| lever.field == change.field) {
            changed = lever.with(&changed, change.to);
        }
    }
    let Judgement { outcome, binding } = judge(&changed)?;
    Ok((outcome == Outcome::Clears).then(|| Fix {
        changes,
        margin: binding.margin(),
        gain: binding.margin() - before,
        binding: binding.name.key(),
        line: line_run(&changed).run,
        wheel_out: wheel_removal(&changed).comes_out(),
    }))
}
