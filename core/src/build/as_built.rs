//! The setup as it was built: the same parts, with the caliper where the real holes hold it.

use crate::fit::{CaliperFrame, rotor_plane, tab_plane};
use crate::setup::{MatingFace, Setup};
use crate::solid::Vector;

use super::locate::Holes4;

/// How the caliper sits on two holes in the wheel plane.
#[derive(Clone, Copy, Debug)]
pub(super) struct Seat {
    /// Middle of the pads, `[back, up]`, mm.
    pub(super) pads: [f64; 2],
    /// The caliper's own cw, `[back, up]`.
    pub(super) cw: [f64; 2],
    /// The caliper's own rad, `[back, up]`.
    pub(super) rad: [f64; 2],
}

/// The caliper on two holes: its own two centred on them and along their line.
pub(super) fn seat(setup: &Setup, [b1, u1, b2, u2]: &Holes4) -> Seat {
    let frame = CaliperFrame::of(setup);
    let own = setup.caliper.holes.map(|hole| frame.direction([hole[0], hole[1], 0.0]));
    let (along_own, along) = (own[1] - own[0], [b2 - b1, u2 - u1]);
    // The turn that lays the caliper's line of holes along the built one, as cosine and sine.
    let (cos, sin) = (along_own.x * along[0] + along_own.y * along[1], along_own.x * along[1] - along_own.y * along[0]);
    let size = cos.hypot(sin).max(f64::MIN_POSITIVE);
    let (cos, sin) = (cos / size, sin / size);
    let turned = |v: Vector| [cos * v.x - sin * v.y, sin * v.x + cos * v.y];
    let middle = turned((own[0] + own[1]) / 2.0);
    Seat {
        pads: [(b1 + b2) / 2.0 - middle[0], (u1 + u2) / 2.0 - middle[1]],
        cw: turned(frame.cw),
        rad: turned(frame.rad),
    }
}

impl Seat {
    /// Distance of the pads' middle from the axle, mm.
    pub(super) fn radius(&self) -> f64 {
        self.pads[0].hypot(self.pads[1])
    }

    /// Clock angle of the pads' middle, degrees.
    pub(super) fn clock(&self) -> f64 {
        self.pads[0].atan2(self.pads[1]).to_degrees()
    }

    /// How far the caliper is turned against the radius through its pads, degrees, growing clock angles positive.
    pub(super) fn skew(&self) -> f64 {
        let [back, up] = self.pads;
        (up * self.rad[0] - back * self.rad[1]).atan2(back * self.rad[0] + up * self.rad[1]).to_degrees()
    }
}

/// The setup whose caliper sits on these holes; a caliper turned against the radius has its solids turned instead.
pub(super) fn built_setup(setup: &Setup, holes: &Holes4) -> Setup {
    let seat = seat(setup, holes);
    let mut built = setup.clone();
    built.tab.reach += seat.radius() - crate::fit::pad_radius(setup);
    built.tab.clock = seat.clock();
    let frame = CaliperFrame::of(&built);
    let dot = |one: Vector, other: [f64; 2]| one.x * other[0] + one.y * other[1];
    let axes = [[dot(frame.cw, seat.cw), dot(frame.cw, seat.rad)], [dot(frame.rad, seat.cw), dot(frame.rad, seat.rad)]];
    let turn = |x: &mut f64, y: &mut f64| {
        (*x, *y) = (axes[0][0] * *x + axes[0][1] * *y, axes[1][0] * *x + axes[1][1] * *y);
    };
    let caliper = &mut built.caliper;
    let points = caliper.holes.iter_mut().chain(caliper.bodies.iter_mut().flat_map(|body| &mut body.outline));
    points.for_each(|[x, y]| turn(x, y));
    let vectors = [&mut caliper.line.exit, &mut caliper.line.direction].into_iter().chain(&mut caliper.bolt_direction);
    vectors.for_each(|[x, y, _]| turn(x, y));
    built
}

/// How the tab's mating face lies over the caliper: the part of the way from hole 1 to hole 2 at which the pads' middle
/// stands, in the caliper's own frame.
pub(super) fn pad_share(setup: &Setup) -> f64 {
    let [first, second] = setup.caliper.holes;
    let along = [second[0] - first[0], second[1] - first[1]];
    let square = along[0] * along[0] + along[1] * along[1];
    -(first[0] * along[0] + first[1] * along[1]) / square.max(f64::MIN_POSITIVE)
}

/// Slot minus rotor at the pads' middle, outboard positive, mm.
pub(super) fn built_misalignment(setup: &Setup, [first, second, inset]: [f64; 3]) -> f64 {
    let offset = first + (second - first) * pad_share(setup);
    let face = match setup.caliper.mating_face {
        MatingFace::Inner => offset,
        MatingFace::Outer => offset + setup.dropout.thickness,
    };
    face - setup.caliper.mount_depth + inset
}

/// The middle of the pads, on the rotor that the caliper is set on.
pub(super) fn pads_middle(setup: &Setup, holes: &Holes4) -> Vector {
    let [back, up] = seat(setup, holes).pads;
    Vector::new(back, up, rotor_plane(setup))
}

/// The middle between the tab's holes, in the middle of its thickness.
pub(super) fn tab_middle(setup: &Setup, [b1, u1, b2, u2]: &Holes4) -> Vector {
    Vector::new((b1 + b2) / 2.0, (u1 + u2) / 2.0, tab_plane(setup) + setup.dropout.thickness / 2.0)
}

/// How a tilt of the tab about a pivot moves a point, mm: `slope` along the line of the holes, square to which nothing is
/// read.
pub(super) fn swung_out([b1, u1, b2, u2]: &Holes4, slope: f64, pivot: Vector, point: Vector) -> Vector {
    let along = Vector::new(b2 - b1, u2 - u1, 0.0).normalize();
    let lever = point - pivot;
    // A small turn about the line in the wheel plane that is square to the holes' own.
    Vector::new(-along.x * slope * lever.z, -along.y * slope * lever.z, slope * (lever.x * along.x + lever.y * along.y))
}
