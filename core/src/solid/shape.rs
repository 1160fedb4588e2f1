//! Slab and spool, with their support functions.

use parry3d_f64::shape::SupportMap;

use super::Vector;
use crate::tolerance::{NO_DIRECTION, SQUARE_TO_AXIS};

/// A disc in the wheel plane; a point where the radius is 0.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Disc {
    /// `back` coordinate of the centre, mm.
    pub back: f64,
    /// `up` coordinate of the centre, mm.
    pub up: f64,
    /// Radius, mm, not negative.
    pub radius: f64,
}

impl Disc {
    /// A disc about `(back, up)`.
    pub const fn new(back: f64, up: f64, radius: f64) -> Self {
        Self { back, up, radius }
    }

    /// Distance between two centres, mm.
    pub fn centre_distance(&self, other: &Disc) -> f64 {
        (self.back - other.back).hypot(self.up - other.up)
    }
}

/// The convex hull of discs in the wheel plane, extruded sideways from `out` = `low` to `high`.
///
/// A polygon is discs of radius 0; a disc, a stadium and a hull of hole lands are all slabs.
#[derive(Clone, Debug, PartialEq)]
pub struct Slab {
    /// The discs; at least one.
    pub discs: Vec<Disc>,
    /// Innermost `out`, mm.
    pub low: f64,
    /// Outermost `out`, mm.
    pub high: f64,
}

/// The convex hull of two coaxial circles: a tube, a cone, a tool's access cylinder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spool {
    /// Centres of the two circles, mm; they may coincide.
    pub ends: [Vector; 2],
    /// Unit vector square to both circles.
    pub axis: Vector,
    /// Radii at the two ends, mm.
    pub radii: [f64; 2],
}

impl Spool {
    /// A cylinder from `start` along the unit vector `axis`.
    pub fn cylinder(start: Vector, axis: Vector, length: f64, radius: f64) -> Self {
        Self { ends: [start, start + axis * length], axis, radii: [radius, radius] }
    }

    /// Whether it stands square on the wheel plane.
    pub(super) fn is_upright(&self) -> bool {
        self.axis.x == 0.0 && self.axis.y == 0.0
    }
}

/// Either solid.
#[derive(Clone, Debug, PartialEq)]
pub enum Solid {
    /// A flat piece.
    Slab(Slab),
    /// A round piece.
    Spool(Spool),
}

impl Slab {
    fn support(&self, dir: Vector) -> Vector {
        let in_plane = (dir.x * dir.x + dir.y * dir.y).sqrt();
        let reach = |disc: &Disc| disc.back * dir.x + disc.up * dir.y + disc.radius * in_plane;
        let mut best = Disc::new(0.0, 0.0, 0.0);
        let mut furthest = f64::NEG_INFINITY;
        for disc in &self.discs {
            let value = reach(disc);
            if value > furthest {
                (best, furthest) = (*disc, value);
            }
        }
        let per_length = if in_plane > NO_DIRECTION { best.radius / in_plane } else { 0.0 };
        let out = if dir.z >= 0.0 { self.high } else { self.low };
        Vector::new(best.back + dir.x * per_length, best.up + dir.y * per_length, out)
    }
}

impl Spool {
    fn support(&self, dir: Vector) -> Vector {
        let square = dir - self.axis * dir.dot(self.axis);
        let length = square.length();
        let reach = |end: usize| self.ends[end].dot(dir) + self.radii[end] * length;
        let end = usize::from(reach(1) > reach(0));
        // Along the axis, what is left square to it is rounding, and may point anywhere.
        let has_rim = length > SQUARE_TO_AXIS * dir.length() && length > NO_DIRECTION;
        let per_length = if has_rim { self.radii[end] / length } else { 0.0 };
        self.ends[end] + square * per_length
    }
}

impl SupportMap for Solid {
    /// The furthest point of the solid along `dir`, which need not be of unit length.
    fn local_support_point(&self, dir: Vector) -> Vector {
        match self {
            Solid::Slab(slab) => slab.support(dir),
            Solid::Spool(spool) => spool.support(dir),
        }
    }
}

impl From<Slab> for Solid {
    fn from(slab: Slab) -> Self {
        Solid::Slab(slab)
    }
}

impl From<Spool> for Solid {
    fn from(spool: Spool) -> Self {
        Solid::Spool(spool)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whatever the axis, a rod reaches along it just as far as its end.
    #[test]
    fn a_spool_reaches_no_further_along_its_axis_than_its_ends() {
        for step in 0..400 {
            let angle = f64::from(step) * 0.0157;
            let axis = Vector::new(angle.sin(), angle.cos() * 0.8, angle.cos() * 0.6);
            let rod: Solid = Spool::cylinder(Vector::new(-94.8, 53.1, 65.0), axis, 30.0, 2.5).into();
            for way in [1.0, -1.0] {
                let along = axis.normalize() * way;
                let reach = rod.local_support_point(along).dot(along);
                let ends = [0.0, 30.0].map(|at| (Vector::new(-94.8, 53.1, 65.0) + axis * at).dot(along));
                assert!((reach - ends[0].max(ends[1])).abs() < 1e-6, "{axis}: {reach}");
            }
        }
    }
}
