//! A rigid caliper on two holes, in complex numbers: a way of its own to where it lies.

use tabwright_core::{Setup, Side};

use crate::report_of;
use crate::tacked::Part;

/// A complex number, (up, back) of the leg: its angle is a clock angle.
pub type Complex = [f64; 2];

/// Their product: turned and stretched.
pub fn times([a, b]: Complex, [c, d]: Complex) -> Complex {
    [a * c - b * d, a * d + b * c]
}

fn angle([a, b]: Complex) -> f64 {
    b.atan2(a)
}

/// The one of length 1 at an angle.
pub fn of_angle(angle: f64) -> Complex {
    [angle.cos(), angle.sin()]
}

/// A point of the caliper frame as (rad, the way of growing clock angles): clockwise on the left, against it on the right.
pub fn local(setup: &Setup, [cw, rad]: [f64; 2]) -> Complex {
    [rad, if setup.side == Side::Left { cw } else { -cw }]
}

/// How a rigid caliper lies on two holes: the pads' middle, and which way its own `rad` points, rad.
pub fn seated(setup: &Setup, part: &Part) -> (Complex, f64) {
    let [first, second] = setup.caliper.holes.map(|hole| local(setup, hole));
    let [one, other] = part.holes.map(|[back, up]| [up, back]);
    let between = |a: Complex, b: Complex| [(a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0];
    let way = |a: Complex, b: Complex| angle([b[0] - a[0], b[1] - a[1]]);
    let turn = way(one, other) - way(first, second);
    let (middle, own) = (between(one, other), times(of_angle(turn), between(first, second)));
    ([middle[0] - own[0], middle[1] - own[1]], turn)
}

/// The setup whose caliper is drawn turned instead of mounted turned.
pub fn turned_setup(setup: &Setup, part: &Part) -> Setup {
    let ([up, back], turn) = seated(setup, part);
    let clock = back.atan2(up);
    let mut other = setup.clone();
    other.tab.clock = clock.to_degrees();
    other.tab.reach += up.hypot(back) - report_of(setup).pad.radius;
    other.tab.offset = (part.steps[0] + part.steps[1]) / 2.0;
    other.wheel.rotor_inset = part.inset;
    let by = of_angle(turn - clock);
    let turned = |point: [f64; 2]| {
        let [rad, round] = times(by, local(setup, point));
        let [_, cw] = local(setup, [round, 0.0]);
        [cw, rad]
    };
    let caliper = &mut other.caliper;
    caliper.holes = caliper.holes.map(turned);
    // Outlines keep to six decimals.
    let rounded = |point: [f64; 2]| point.map(|at| (at * 1e6).round() / 1e6);
    let corners = caliper.bodies.iter_mut().flat_map(|body| &mut body.outline);
    corners.for_each(|corner| *corner = rounded(turned(*corner)));
    for vector in [&mut caliper.line.exit, &mut caliper.line.direction] {
        let [cw, rad] = turned([vector[0], vector[1]]);
        (vector[0], vector[1]) = (cw, rad);
    }
    other
}
