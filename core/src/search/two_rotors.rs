//! One tab for two rotors: the larger one reached by a spacer under the caliper.

use super::arcs::Arc;
use super::margin::Margin;
use super::no_gap;
use super::ring::clear_arcs;
use super::shortest::{Rules, Shortest, shortest_of, worst_at};
use super::sweep::Sweep;
use crate::plain::plain;
use crate::setup::{Problem, Setup};
use crate::solid::NotConverged;
use crate::tolerance::CLOCK_LOOK;

/// Where one pair of holes serves two rotors.
#[derive(Clone, Debug)]
pub struct TwoRotors {
    /// The two sizes, the smaller first, mm; the tab is cut for the smaller.
    pub rotors: [f64; 2],
    /// What the larger one needs between tab and caliper, measured away from the axle, mm.
    pub spacer: f64,
    /// Where both clear and keep to the rules.
    pub windows: Vec<SharedWindow>,
    /// The shortest dropout that has such a place.
    pub shortest: Shortest,
    /// Where there is no place: what stands in the way.
    pub obstacle: Option<Obstacle>,
}

plain!(TwoRotors { rotors, spacer, windows, shortest, obstacle });

/// Clock angles where both rotors clear.
#[derive(Clone, Debug)]
pub struct SharedWindow {
    /// The stretch.
    pub arc: Arc,
    /// The clock angle where the smaller of the two margins is largest, of those looked at every half degree.
    pub best: f64,
    /// Worst margin with either rotor there, mm.
    pub margins: [f64; 2],
    /// Keys of the pairs that bind there.
    pub bindings: [&'static str; 2],
}

plain!(SharedWindow { ..arc { from, width }, best, margins, bindings });

/// What keeps two rotors from sharing a tab where they come nearest to it.
#[derive(Clone, Debug)]
pub struct Obstacle {
    /// With which rotor, mm; none where no clock angle keeps to the rules.
    pub rotor: Option<f64>,
    /// Key of the pair, or `rules`.
    pub binding: &'static str,
    /// How much is missing there, mm.
    pub missing: f64,
}

plain!(Obstacle { rotor, binding, missing });

/// The setup with a rotor larger by twice `spacer` than the one the tab was cut for: the caliper moves away from the axle,
/// the tab's holes stay.
pub fn with_spacer(setup: &Setup, spacer: f64) -> Setup {
    let mut other = setup.clone();
    other.wheel.rotor_diameter += 2.0 * spacer;
    // The holes are given from the pads, which move out by the spacer.
    other.caliper.holes.iter_mut().for_each(|hole| hole[1] -= spacer);
    other
}

/// Where one tab serves two rotors, in either order.
///
/// # Errors
/// The problems of a setup with one of the rotors where it cannot be worked out.
pub fn two_rotors(setup: &Setup, rotors: [f64; 2], rules: Rules) -> Result<TwoRotors, Vec<Problem>> {
    let (small, large) = (rotors[0].min(rotors[1]), rotors[0].max(rotors[1]));
    let mut first = setup.clone();
    first.wheel.rotor_diameter = small;
    first.checked()?;
    let second = with_spacer(&first, (large - small) / 2.0);
    second.checked()?;
    shared(&first, &second, rules).map_err(no_gap)
}

fn shared(first: &Setup, second: &Setup, rules: Rules) -> Result<TwoRotors, NotConverged> {
    let rotors = [first.wheel.rotor_diameter, second.wheel.rotor_diameter];
    // A larger rotor has another bridge radius, so both have a say in the rules.
    let allowed = rules.arcs(first).and(&rules.arcs(second));
    let mut sweeps = [Sweep::of(first)?, Sweep::of(second)?];
    let mut clear = allowed.clone();
    for sweep in &mut sweeps {
        clear = clear.and(&clear_arcs(sweep)?);
    }
    let tube_end = first.fork.tube_end;
    let mut windows = Vec::new();
    for arc in clear.arcs() {
        if let Some((clock, worst)) = best_for_both(&mut sweeps, arc, tube_end)? {
            let window = SharedWindow {
                arc,
                best: super::arcs::wrapped(clock),
                margins: worst.map(|worst| worst.margin()),
                bindings: worst.map(|worst| worst.name.key()),
            };
            windows.push(window);
        }
    }
    let obstacle =
        if windows.is_empty() { Some(nearest_miss(&mut sweeps, &allowed.arcs(), rotors, tube_end)?) } else { None };
    let shortest = shortest_of(&mut sweeps, &allowed, rules, first)?;
    Ok(TwoRotors { rotors, spacer: (rotors[1] - rotors[0]) / 2.0, windows, shortest, obstacle })
}

/// The clock angle of a stretch where the worse of the two margins is best.
fn best_for_both(sweeps: &mut [Sweep; 2], arc: Arc, tube_end: f64) -> Result<Option<(f64, [Margin; 2])>, NotConverged> {
    let mut best: Option<(f64, [Margin; 2])> = None;
    let steps = (arc.width / CLOCK_LOOK).ceil().max(2.0);
    // Neither end: there one of the two has nothing left.
    for step in 1..steps as u32 {
        let clock = arc.from + arc.width * f64::from(step) / steps;
        let [first, second] = sweeps;
        let first = worst_at(std::slice::from_mut(first), clock, tube_end)?;
        let second = worst_at(std::slice::from_mut(second), clock, tube_end)?;
        let (Some(first), Some(second)) = (first, second) else {
            continue;
        };
        let least = |worst: &[Margin; 2]| worst[0].margin().min(worst[1].margin());
        let found = [first, second];
        if best.as_ref().is_none_or(|(_, best)| least(&found) > least(best)) {
            best = Some((clock, found));
        }
    }
    Ok(best)
}

fn nearest_miss(
    sweeps: &mut [Sweep; 2],
    allowed: &[Arc],
    rotors: [f64; 2],
    tube_end: f64,
) -> Result<Obstacle, NotConverged> {
    let mut nearest = Obstacle { rotor: None, binding: "rules", missing: f64::MAX };
    for &arc in allowed {
        if let Some((_, worst)) = best_for_both(sweeps, arc, tube_end)? {
            let index = usize::from(worst[1].is_worse_than(&worst[0]));
            let missing = -worst[index].margin();
            if missing < nearest.missing {
                nearest = Obstacle { rotor: Some(rotors[index]), binding: worst[index].name.key(), missing };
            }
        }
    }
    if nearest.rotor.is_none() {
        nearest.missing = 0.0;
    }
    Ok(nearest)
}
