//! Every place a caliper could go: left or right, ahead or behind, above or below the axle.

use super::arcs::{Arcs, wrapped};
use super::no_gap;
use super::ring::roomiest_of;
use super::rules::wheel_drops_out;
use super::sweep::Sweep;
use crate::fit::{Run, Verdict, line_run};
use crate::plain::plain;
use crate::setup::{Problem, Setup, Side};
use crate::solid::NotConverged;

/// One of the eight places, with the best clock angle in it.
#[derive(Clone, Debug)]
pub struct Position {
    /// The braked side.
    pub side: Side,
    /// Behind the leg rather than ahead of it.
    pub behind: bool,
    /// Above the axle rather than below.
    pub above: bool,
    /// The clock angle with most room, degrees.
    pub clock: f64,
    /// The verdict on the gaps there.
    pub verdict: Verdict,
    /// The worst margin there, mm.
    pub margin: f64,
    /// Key of the pair that binds there.
    pub binding: &'static str,
    /// Which way the line leaves there.
    pub line: Run,
    /// Whether the wheel drops out there with the caliper bolted on.
    pub wheel_out: bool,
    /// What the brake does to the axle there.
    pub axle: AxlePush,
}

plain!(Position { side, behind, above, clock, verdict, margin, binding, line, wheel_out, axle });

/// Which way the brake's own force on the axle points, against the slot.
///
/// Direction only, of the pads' force alone; the road's forces come on top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AxlePush {
    /// Into the slot.
    Seats,
    /// Out of the slot: only nut or skewer hold the axle.
    Lifts,
    /// Square to the slot, or into a closed hole.
    Neither,
}

plain!(AxlePush: Seats = "seats", Lifts = "lifts", Neither = "neither");

/// A force this near to square to the slot, as a share of it, points neither in nor out.
const SQUARE_ENOUGH: f64 = 0.02;

/// What the brake does to the axle with the caliper at a clock angle.
///
/// Braking forward, the rotor drags the pads towards smaller clock angles, so the pads push the wheel towards greater
/// ones, along cos φ · back − sin φ · up; against the slot's opening at the clock angle s that is sin(s − φ).
pub fn axle_push(setup: &Setup, clock: f64) -> AxlePush {
    let outward = (setup.dropout.slot_direction - clock).to_radians().sin();
    if setup.dropout.closed || outward.abs() < SQUARE_ENOUGH {
        AxlePush::Neither
    } else if outward > 0.0 {
        AxlePush::Lifts
    } else {
        AxlePush::Seats
    }
}

/// The eight places of a setup's caliper; a caliper keeps its hand on the other side.
///
/// # Errors
/// A problem without a field where a gap could not be found.
pub fn positions(setup: &Setup) -> Result<Vec<Position>, Vec<Problem>> {
    let sides = [Side::Left, Side::Right].map(|side| of_side(setup, side).map_err(no_gap));
    let [left, right] = sides;
    Ok(left?.into_iter().chain(right?).collect())
}

fn of_side(setup: &Setup, side: Side) -> Result<Vec<Position>, NotConverged> {
    let mut setup = setup.clone();
    setup.side = side;
    let mut sweep = Sweep::of(&setup)?;
    let wheel_out = wheel_drops_out(&setup);
    let mut places = Vec::new();
    for (from, behind, above) in [(0.0, true, true), (90.0, true, false), (-90.0, false, true), (-180.0, false, false)]
    {
        let Some(best) = roomiest_of(&mut sweep, &Arcs::between(from, from + 90.0))? else {
            continue;
        };
        setup.tab.clock = wrapped(best.clock);
        places.push(Position {
            side,
            behind,
            above,
            clock: setup.tab.clock,
            verdict: best.worst.verdict(),
            margin: best.worst.margin(),
            binding: best.worst.name.key(),
            line: line_run(&setup).run,
            wheel_out: wheel_out.contains(setup.tab.clock),
            axle: axle_push(&setup, setup.tab.clock),
        });
    }
    Ok(places)
}
