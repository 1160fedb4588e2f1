//! The leg frame, clock angles and the caliper frame.

use crate::setup::{Setup, Side};
use crate::solid::{Disc, Vector};
use crate::turn::sin_cos;

/// Unit vector away from the axle at a clock angle: sin φ · back + cos φ · up.
pub fn radial(clock: f64) -> Vector {
    let (sin, cos) = sin_cos(clock.to_radians());
    Vector::new(sin, cos, 0.0)
}

/// Unit vector of growing clock angle: cos φ · back − sin φ · up.
pub fn tangential(clock: f64) -> Vector {
    let (sin, cos) = sin_cos(clock.to_radians());
    Vector::new(cos, -sin, 0.0)
}

/// Where the caliper frame lies in the leg frame.
///
/// The caliper is rigid and handed: clockwise as seen on its outboard face is the way of growing clock angles on the
/// left side and of falling ones on the right.
#[derive(Clone, Copy, Debug)]
pub struct CaliperFrame {
    /// Centre of the pad pair, on the rotor's mid-plane.
    pub origin: Vector,
    /// Clockwise as seen on the caliper's outboard face.
    pub cw: Vector,
    /// Away from the axle.
    pub rad: Vector,
}

impl CaliperFrame {
    /// The frame of a setup's caliper, its slot on the rotor's mid-plane.
    pub fn of(setup: &Setup) -> Self {
        let rad = radial(setup.tab.clock);
        let along = tangential(setup.tab.clock);
        let cw = match setup.side {
            Side::Left => along,
            Side::Right => -along,
        };
        let origin = rad * pad_radius(setup) + Vector::Z * rotor_plane(setup);
        Self { origin, cw, rad }
    }

    /// A direction given as (cw, rad, out).
    pub fn direction(&self, [cw, rad, out]: [f64; 3]) -> Vector {
        self.cw * cw + self.rad * rad + Vector::Z * out
    }

    /// A point given as (cw, rad, out).
    pub fn point(&self, local: [f64; 3]) -> Vector {
        self.origin + self.direction(local)
    }

    /// A disc in the wheel plane about a point given as (cw, rad).
    pub fn disc(&self, [cw, rad]: [f64; 2], radius: f64) -> Disc {
        let centre = self.point([cw, rad, 0.0]);
        Disc::new(centre.x, centre.y, radius)
    }
}

/// Distance of the pads' middle from the axle, mm.
pub fn pad_radius(setup: &Setup) -> f64 {
    let pad = &setup.caliper.pad;
    setup.wheel.rotor_diameter / 2.0 - pad.edge_inset - pad.height / 2.0 + setup.tab.reach
}

/// `out` of the rotor's mid-plane, mm.
pub fn rotor_plane(setup: &Setup) -> f64 {
    setup.wheel.hub_width / 2.0 - setup.wheel.rotor_inset
}

/// `out` of the dropout's inner face, mm.
pub fn dropout_plane(setup: &Setup) -> f64 {
    setup.wheel.hub_width / 2.0
}

/// `out` of the tab's inner face, mm.
pub fn tab_plane(setup: &Setup) -> f64 {
    dropout_plane(setup) + setup.tab.offset
}
