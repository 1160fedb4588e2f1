//! The clock angles at which the line runs up the leg, and those at which the wheel drops out.

use super::arcs::Arcs;
use crate::fit::{UP_THE_LEG, bridge_span, passage};
use crate::setup::{Setup, Side};
use crate::solid::Vector;
use crate::tolerance::AT_THE_LIMIT;

/// Halvings of a half turn that bring an angle to 1e-12 rad.
const HALVINGS: u32 = 42;

/// Where the line leaves within 60° of the leg, towards the crown.
///
/// Its height above its exit is a cosine of the clock angle, so this is one stretch, all or nothing.
pub(crate) fn line_runs_up(setup: &Setup) -> Arcs {
    let [cw, rad, out] = setup.caliper.line.direction;
    let direction = Vector::new(cw, rad, out).normalize();
    let handed = match setup.side {
        Side::Left => direction.x,
        Side::Right => -direction.x,
    };
    // up = rad · cos φ − cw · sin φ on the left.
    let most = direction.y.hypot(handed);
    let least = (UP_THE_LEG + AT_THE_LIMIT).to_radians().cos();
    if most < least {
        return Arcs::default();
    }
    let best = (-handed).atan2(direction.y).to_degrees();
    let half = (least / most).acos().to_degrees();
    Arcs::between(best - half, best + half)
}

/// Where the rotor leaves along the slot with the caliper bolted on.
pub(crate) fn wheel_drops_out(setup: &Setup) -> Arcs {
    let is_free = |lean: f64| passage(setup, lean).1 >= -AT_THE_LIMIT;
    if setup.dropout.closed || !is_free(std::f64::consts::PI) {
        return Arcs::default();
    }
    if is_free(0.0) {
        return Arcs::all();
    }
    let (mut blocked, mut free) = (0.0, std::f64::consts::PI);
    for _ in 0..HALVINGS {
        let middle = (blocked + free) / 2.0;
        if is_free(middle) {
            free = middle;
        } else {
            blocked = middle;
        }
    }
    let [low, high] = bridge_span(setup);
    let slot = setup.dropout.slot_direction;
    Arcs::between(slot - (high + free).to_degrees(), slot - (low - free).to_degrees()).complement()
}
