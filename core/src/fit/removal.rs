//! Whether the wheel drops out with the caliper in place.

use super::frame::{pad_radius, radial};
use crate::setup::{Setup, Side};
use crate::tolerance::AT_THE_LIMIT;
use crate::turn::sin_cos;

/// The way the rotor leaves the caliper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WheelRemoval {
    /// The rotor's edge stays inside the bridge all along the slot.
    Free {
        /// Least distance from the rotor's edge to the bridge on the way, mm.
        gap: f64,
    },
    /// The rotor runs into the bridge.
    Blocked {
        /// How far its edge would have to pass through the bridge, mm, negative.
        gap: f64,
        /// Travel of the axle along the slot at which that is worst, mm.
        travel: f64,
    },
    /// The axle sits in a closed hole and moves sideways, and the rotor stands between the pads.
    Sideways,
}

impl WheelRemoval {
    /// Whether the wheel comes out with the caliper bolted on.
    pub fn comes_out(&self) -> bool {
        matches!(self, WheelRemoval::Free { .. })
    }
}

/// The way out of a setup's wheel.
///
/// The bridge is the arc at the bridge's radius over the clockwise extent of all bodies. The axle travels along the
/// slot by up to the rotor's radius; of the bridge, the point nearest to the slot's direction comes closest, and
/// closest when the axle is square beside it.
pub fn wheel_removal(setup: &Setup) -> WheelRemoval {
    if setup.dropout.closed {
        return WheelRemoval::Sideways;
    }
    let lean = nearest_lean(setup);
    let (travel, gap) = passage(setup, lean);
    if gap < -AT_THE_LIMIT { WheelRemoval::Blocked { gap, travel } } else { WheelRemoval::Free { gap } }
}

/// Where the rotor comes nearest to a point of the bridge on its way out, and how near, mm.
///
/// `lean` is the angle at the axle between the slot's direction and that point, rad, 0 to π; the gap grows with it.
pub(crate) fn passage(setup: &Setup, lean: f64) -> (f64, f64) {
    let rotor = setup.wheel.rotor_diameter / 2.0;
    let bridge = bridge_radius(setup);
    let (sin, cos) = sin_cos(lean);
    let travel = (bridge * cos).min(rotor).max(0.0);
    (travel, (bridge * sin).hypot(bridge * cos - travel) - rotor)
}

/// Distance of the bridge's inside from the axle, mm.
pub fn bridge_radius(setup: &Setup) -> f64 {
    pad_radius(setup) + setup.caliper.pad.height / 2.0 + setup.caliper.throat
}

/// The clock angles over which the bridge reaches, from the pads' own, rad.
pub(crate) fn bridge_span(setup: &Setup) -> [f64; 2] {
    let bridge = bridge_radius(setup);
    let corners = setup.caliper.bodies.iter().flat_map(|body| &body.outline);
    let (low, high) = corners.fold((f64::MAX, f64::MIN), |(low, high), [cw, _]| (low.min(*cw), high.max(*cw)));
    // Wider than the bridge's circle means a quarter turn either way.
    let angle = |cw: f64| (cw / bridge).clamp(-1.0, 1.0).asin();
    match setup.side {
        Side::Left => [angle(low), angle(high)],
        Side::Right => [-angle(high), -angle(low)],
    }
}

/// Angle at the axle between the slot's direction and the nearest point of the bridge, rad, 0 to π.
fn nearest_lean(setup: &Setup) -> f64 {
    let [low, high] = bridge_span(setup);
    let (pads, slot) = (radial(setup.tab.clock), radial(setup.dropout.slot_direction));
    // Clock angle from the pads to the slot, in (−π, π].
    let to_slot = (slot.x * pads.y - slot.y * pads.x).atan2(slot.dot(pads));
    let beyond = |turn: f64| {
        let (sin, cos) = sin_cos(turn);
        sin.atan2(cos).abs()
    };
    if (low..=high).contains(&to_slot) { 0.0 } else { beyond(to_slot - low).min(beyond(to_slot - high)) }
}
