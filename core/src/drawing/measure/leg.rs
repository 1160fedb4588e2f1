//! The fork leg with its dropout: from the side, from ahead, and the tube cut across.

use super::super::canvas::Canvas;
use super::super::side::axle_slot;
use super::Drawn;
use crate::fit::{Part, Parts, dropout_plane, neck_top, radial, tangential};
use crate::setup::Setup;
use crate::solid::{Disc, Solid};

/// How much of the tube is shown above the plate, mm.
const ABOVE: f64 = 20.0;
/// How much of it above its own lower end where the plate is of no concern, mm.
const SHORT_TUBE: f64 = 45.0;

/// Height of a picture of the tube's lower end, mm above the axle.
pub(super) fn short_top(setup: &Setup) -> f64 {
    setup.fork.tube_end + SHORT_TUBE
}

/// Height of the picture's upper end above the axle, mm.
pub(super) fn top(setup: &Setup) -> f64 {
    setup.fork.tube_end + setup.dropout.weld_length + ABOVE
}

fn hull(canvas: Canvas, class: &str, part: &Part) -> Canvas {
    match &part.solid {
        Solid::Slab(slab) => canvas.hull(class, "", &slab.discs),
        Solid::Spool(_) => canvas,
    }
}

fn plate(setup: &Setup, canvas: Canvas) -> Canvas {
    let parts = Parts::of(setup);
    let canvas = hull(hull(canvas, "plate", &parts.neck), "plate", &parts.eye);
    canvas.hull("hole", "", &axle_slot(setup))
}

/// At the leg from its outer side, up to a height above the axle; `is_plate` shows the plate before the tube.
pub(super) fn side(setup: &Setup, canvas: Canvas, is_plate: bool, upper: f64) -> Drawn {
    let (fork, eye) = (&setup.fork, setup.dropout.eye_radius);
    let radius = fork.tube_diameter / 2.0;
    let span = [fork.axle_offset - radius, fork.axle_offset + radius];
    let tube = |canvas: Canvas| {
        let end = 2.0 * top(setup);
        let canvas = canvas.rectangle("tube", "", span, [fork.tube_end, end]);
        canvas.line("axis", "", [fork.axle_offset, fork.tube_end], [fork.axle_offset, end])
    };
    let canvas = if is_plate { plate(setup, tube(canvas)) } else { tube(plate(setup, canvas)) };
    let canvas = canvas.line("axis", "", [-6.0, 0.0], [6.0, 0.0]).line("axis", "", [0.0, -6.0], [0.0, 6.0]);
    let wide = eye.max(radius + 6.0) + 6.0;
    (canvas, [[span[0].min(-wide), span[1].max(wide)], [-eye - 4.0, upper]])
}

/// At the leg as the bicycle stands, with the ground through the axle.
pub(super) fn lean(setup: &Setup, canvas: Canvas) -> Drawn {
    let fork = &setup.fork;
    let (clock, radius, upper) = (lean_clock(setup), fork.tube_diameter / 2.0, 1.4 * top(setup));
    let (along, across) = (radial(clock), tangential(clock));
    let at = |back: f64, up: f64| {
        let point = across * back + along * up;
        [point.x, point.y]
    };
    let (low, high) = (fork.axle_offset - radius, fork.axle_offset + radius);
    let corners = [at(low, fork.tube_end), at(high, fork.tube_end), at(high, upper), at(low, upper)];
    let canvas = canvas
        .hull("plate", "", &[Disc::new(0.0, 0.0, setup.dropout.eye_radius)])
        .polygon("tube", "", &corners)
        .hull("hole", "", &[Disc::new(0.0, 0.0, setup.wheel.axle_diameter / 2.0)])
        .line("axis", "", [-0.4 * upper, 0.0], [upper, 0.0])
        .line("axis", "", [0.0, 0.0], at(0.0, upper));
    (canvas, [[-0.4 * upper, 0.9 * upper], [-setup.dropout.eye_radius, 0.95 * upper]])
}

/// Clock angle of the leg from upright, with the ground level.
pub(super) fn lean_clock(setup: &Setup) -> f64 {
    90.0 - setup.fork.leg_angle
}

/// From ahead, the braked leg to the right; `is_end` shows its lower end alone.
pub(super) fn front(setup: &Setup, canvas: Canvas, is_end: bool) -> Drawn {
    let (fork, plane) = (&setup.fork, dropout_plane(setup));
    let (inner, upper, eye) = (fork.tube_gap / 2.0, top(setup), setup.dropout.eye_radius);
    let (neck, outer) = (neck_top(setup), plane + setup.dropout.thickness);
    let mut canvas = canvas.rectangle(
        "hub",
        "",
        [-outer - 4.0, outer + 4.0],
        [-1.0, 1.0].map(|sign| sign * setup.wheel.axle_diameter / 2.0),
    );
    for side in [-1.0, 1.0] {
        let span = |from: f64, to: f64| [side * from, side * to];
        canvas = canvas
            .rectangle("tube", "", span(inner, inner + fork.tube_diameter), [fork.tube_end, 2.0 * upper])
            .rectangle("plate", "", span(plane, outer), [-eye, neck.up + neck.radius]);
    }
    canvas = canvas.line("axis", "", [0.0, -eye], [0.0, 2.0 * upper]);
    let right = (inner + fork.tube_diameter).max(outer) + 4.0;
    (
        canvas,
        [
            [if is_end { inner.min(plane) - 24.0 } else { -right }, right],
            [-eye, if is_end { 0.6 * upper } else { upper }],
        ],
    )
}

/// The tube cut across.
pub(super) fn tube(setup: &Setup, canvas: Canvas) -> Drawn {
    let radius = setup.fork.tube_diameter / 2.0;
    let disc = |radius: f64| [Disc::new(0.0, 0.0, radius)];
    let canvas = canvas.hull("tube", "", &disc(radius)).hull("hole", "", &disc(radius - setup.fork.tube_wall));
    (canvas, [[-1.5 * radius, 1.5 * radius], [-1.1 * radius, 1.1 * radius]])
}
