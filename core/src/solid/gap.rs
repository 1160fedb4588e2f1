//! The signed gap between two convex solids: in closed form for two slabs and for a slab and an upright spool, else by
//! iteration and certified.
//!
//! For convex A and B and a unit vector n, `separation(n)` = (least of B along n) − (most of A along n) never exceeds
//! the signed gap, and the signed gap is its maximum over all n: the distance where the solids are apart, minus the
//! depth where they overlap. So any n certifies a lower bound, and a pair of points found by GJK an upper one. The
//! iterative answer is accepted only where the two agree; otherwise the maximum is searched for directly.

use parry3d_f64::math::Pose;
use parry3d_f64::query::details::contact_support_map_support_map_with_params;
use parry3d_f64::query::gjk::{CsoPoint, GJKResult, VoronoiSimplex, closest_points};
use parry3d_f64::shape::SupportMap;

use super::flat::{each_edge, slab_distance, slab_gap};
use super::parting::furthest;
use super::upright::{upright_distance, upright_gap};
use super::{Solid, Vector};
use crate::tolerance::{CERTIFIED_GAP, NEARLY_ALONG};

/// The gap between two solids, negative where they overlap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Shortest distance, or minus the shortest way out of the overlap, mm.
    pub distance: f64,
    /// The two points that are nearest, or deepest in each other: first on the first solid, then on the second.
    pub points: [Vector; 2],
    /// The unit vector, from the first solid to the second, along which they are exactly `distance` apart.
    pub normal: Vector,
    /// How it was found.
    pub method: Method,
}

impl Gap {
    /// The same gap, with the second solid for the first.
    fn reversed(self) -> Self {
        let [on_first, on_second] = self.points;
        Self { points: [on_second, on_first], normal: -self.normal, ..self }
    }
}

/// How a gap was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// In closed form.
    Exact,
    /// By GJK or EPA, and certified.
    Iterative,
    /// By search over directions, after the iterative answer could not be certified.
    Search,
}

/// No certified gap could be found for a pair of solids.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotConverged;

/// The signed gap between two solids, certified to [`CERTIFIED_GAP`].
///
/// Solids that touch have a gap of 0 within that tolerance. Where they overlap, the depth is the shortest straight
/// move that parts them.
///
/// # Errors
/// [`NotConverged`] where neither the iteration nor the search could be certified; never a wrong number.
pub fn gap(first: &Solid, second: &Solid) -> Result<Gap, NotConverged> {
    match (first, second) {
        (Solid::Slab(first), Solid::Slab(second)) => Ok(slab_gap(first, second)),
        (Solid::Slab(slab), Solid::Spool(spool)) if spool.is_upright() => Ok(upright_gap(slab, spool)),
        (Solid::Spool(spool), Solid::Slab(slab)) if spool.is_upright() => Ok(upright_gap(slab, spool).reversed()),
        _ => iterated(first, second),
    }
}

/// The signed gap by iteration alone, whatever the solids.
pub(super) fn iterated(first: &Solid, second: &Solid) -> Result<Gap, NotConverged> {
    let start = middle(second) - middle(first);
    gap_near(first, second, start.try_normalize().unwrap_or(Vector::X))
}

/// As [`iterated`], faster where the unit vector `start` is near the normal: that of a neighbouring setup, say.
///
/// # Errors
/// As [`gap`].
fn gap_near(first: &Solid, second: &Solid, start: Vector) -> Result<Gap, NotConverged> {
    let here = iterate(first, second, start);
    if let Ok(found) = here
        && found.distance >= 0.0
    {
        return Ok(found);
    }
    // The depth that EPA ends at may be that of a longer way out, and thin parts may lead it astray; from the other side it
    // starts otherwise.
    match (here, iterate(second, first, -start).map(Gap::reversed)) {
        (Ok(found), Ok(other)) => Ok(if other.distance > found.distance { other } else { found }),
        (Ok(found), Err(_)) | (Err(_), Ok(found)) => Ok(found),
        (Err(hint), Err(other)) => search(first, second, &[start, hint, -other]),
    }
}

/// The gap by search over directions, `hints` among them.
fn search(first: &Solid, second: &Solid, hints: &[Vector]) -> Result<Gap, NotConverged> {
    let (normal, distance) = snapped(first, second, furthest(first, second, hints));
    if !distance.is_finite() {
        return Err(NotConverged);
    }
    let on_first = first.local_support_point(normal);
    Ok(Gap { distance, points: [on_first, on_first + normal * distance], normal, method: Method::Search })
}

/// The gap by GJK and EPA, starting along the unit vector `start`.
///
/// # Errors
/// The direction that it ended with, where the answer cannot be certified.
fn iterate(first: &Solid, second: &Solid, start: Vector) -> Result<Gap, Vector> {
    let mut simplex = VoronoiSimplex::new();
    let found = contact_support_map_support_map_with_params(
        &Pose::IDENTITY,
        first,
        second,
        f64::MAX,
        &mut simplex,
        Some(start),
    );
    let GJKResult::ClosestPoints(on_first, on_second, normal) = found else { return Err(start) };
    let points = [on_first, on_second];
    let apart = on_second - on_first;
    // Where the solids are well apart, the line between the points is a better normal than the last search direction.
    let normal = if apart.dot(normal) > CERTIFIED_GAP { apart } else { normal };
    // Where they touch in a point that it met by chance, the iteration has no direction.
    let normal = normal.try_normalize().unwrap_or(start);
    let (normal, low) = snapped(first, second, normal);
    let high = apart.dot(normal);
    if (high - low).abs() > CERTIFIED_GAP {
        return Err(normal);
    }
    // Along a line or face of contact the two points may come from different places of it.
    let stray = (apart.length() - low.abs()).abs() > CERTIFIED_GAP;
    let points = if stray { [on_first, on_first + normal * low] } else { points };
    Ok(Gap { distance: low, points, normal, method: Method::Iterative })
}

/// The signed gap alone, with its normal: by closed form where there is one, else as [`gap_near`].
///
/// # Errors
/// As [`gap`].
pub(crate) fn distance_near(first: &Solid, second: &Solid, start: Vector) -> Result<(f64, Vector), NotConverged> {
    match (first, second) {
        (Solid::Slab(first), Solid::Slab(second)) => Ok(slab_distance(first, second)),
        (Solid::Slab(slab), Solid::Spool(spool)) if spool.is_upright() => Ok(upright_distance(slab, spool)),
        (Solid::Spool(spool), Solid::Slab(slab)) if spool.is_upright() => {
            let (distance, normal) = upright_distance(slab, spool);
            Ok((distance, -normal))
        }
        _ => gap_near(first, second, start).map(|gap| (gap.distance, gap.normal)),
    }
}

/// The distance between two solids that are apart, 0 where they overlap; spares the search for the depth. `None` where it
/// could not be certified.
pub(crate) fn distance_apart(first: &Solid, second: &Solid, start: Vector) -> Option<f64> {
    let mut simplex = VoronoiSimplex::new();
    simplex.reset(CsoPoint::from_shapes(&Pose::IDENTITY, first, second, start));
    match closest_points(&Pose::IDENTITY, first, second, f64::MAX, true, &mut simplex) {
        GJKResult::ClosestPoints(on_first, on_second, _) => {
            let apart = on_second - on_first;
            let distance = apart.length();
            let low = separation(first, second, apart.try_normalize()?);
            ((distance - low).abs() <= CERTIFIED_GAP).then_some(distance)
        }
        GJKResult::Intersection => Some(0.0),
        _ => None,
    }
}

/// Some point inside a solid.
fn middle(solid: &Solid) -> Vector {
    match solid {
        Solid::Slab(slab) => {
            let count = slab.discs.len().max(1) as f64;
            let (back, up) = slab.discs.iter().fold((0.0, 0.0), |(back, up), disc| (back + disc.back, up + disc.up));
            Vector::new(back / count, up / count, (slab.low + slab.high) / 2.0)
        }
        Solid::Spool(spool) => (spool.ends[0] + spool.ends[1]) / 2.0,
    }
}

/// How far the second solid lies beyond the first along the unit vector `normal`; a lower bound of the signed gap.
pub(crate) fn separation(first: &Solid, second: &Solid, normal: Vector) -> f64 {
    second.local_support_point(-normal).dot(normal) - first.local_support_point(normal).dot(normal)
}

/// The best of a normal and the natural ones near it, with its separation.
///
/// Iteration leaves a normal tilted by up to 1e-4, which costs long parts that touch with their faces 1e-3 mm, and may take
/// the far side of parts that do so for the near one. The gap is the largest separation, so whichever direction gives more
/// is nearer to the truth.
fn snapped(first: &Solid, second: &Solid, normal: Vector) -> (Vector, f64) {
    let mut best = (normal, separation(first, second, normal));
    let mut consider = |candidate: Vector| {
        let found = separation(first, second, candidate);
        if found > best.1 {
            best = (candidate, found);
        }
    };
    let along = |axis: Vector| axis * normal.dot(axis).signum();
    let square_to = |axis: Vector| normal - axis * normal.dot(axis);
    let axes = [first, second].map(|solid| match solid {
        Solid::Slab(_) => Vector::Z,
        Solid::Spool(spool) => spool.axis,
    });
    axes.into_iter().for_each(|axis| {
        consider(axis);
        consider(-axis);
    });
    axes.into_iter().filter_map(|axis| square_to(axis).try_normalize()).for_each(&mut consider);
    for (solid, sign) in [(first, 1.0), (second, -1.0)] {
        if let Solid::Slab(slab) = solid {
            each_edge(&slab.discs, &mut |back, up, _| {
                let edge = Vector::new(back, up, 0.0) * sign;
                if edge.dot(normal) > NEARLY_ALONG {
                    consider(edge);
                }
            });
        }
    }
    if let Some(across) = axes[0].cross(axes[1]).try_normalize() {
        consider(along(across));
    }
    best
}

#[cfg(test)]
mod tests;
