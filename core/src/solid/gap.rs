//! The signed gap between two convex solids, certified.
//!
//! For convex A and B and a unit vector n, `separation(n)` = (least of B along n) − (most of A along n) never exceeds
//! the signed gap, and the signed gap is its maximum over all n: the distance where the solids are apart, minus the
//! depth where they overlap. So any n certifies a lower bound, and a pair of points found by GJK an upper one. The
//! iterative answer is accepted only where the two agree; otherwise the maximum is searched for directly.

use parry3d_f64::math::Pose;
use parry3d_f64::query::details::contact_support_map_support_map_with_params;
use parry3d_f64::query::gjk::{GJKResult, VoronoiSimplex};
use parry3d_f64::shape::SupportMap;

use super::{Solid, Vector};
use crate::tolerance::{CERTIFIED_GAP, SEARCH_DIRECTIONS, SEARCH_FINEST_STEP};

/// The gap between two solids, negative where they overlap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Shortest distance, or minus the shortest way out of the overlap, mm.
    pub distance: f64,
    /// The two points that are nearest, or deepest in each other: first on the first solid, then on the second.
    pub points: [Vector; 2],
    /// How it was found.
    pub method: Method,
}

/// How a gap was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
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
    let mut simplex = VoronoiSimplex::new();
    let start = middle(second) - middle(first);
    let start = start.try_normalize().unwrap_or(Vector::X);
    let found = contact_support_map_support_map_with_params(
        &Pose::IDENTITY,
        first,
        second,
        f64::MAX,
        &mut simplex,
        Some(start),
    );
    let mut directions = vec![start];
    if let GJKResult::ClosestPoints(on_first, on_second, normal) = found {
        let points = [on_first, on_second];
        let apart = on_second - on_first;
        // Where the solids are well apart, the line between the points is a better normal than the last search direction.
        let normal = if apart.dot(normal) > CERTIFIED_GAP { apart.normalize() } else { normal };
        let (low, high) = (separation(first, second, normal), apart.dot(normal));
        if (high - low).abs() <= CERTIFIED_GAP {
            return Ok(Gap { distance: low, points, method: Method::Iterative });
        }
        directions.push(normal);
    }
    search(first, second, &directions)
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
fn separation(first: &Solid, second: &Solid, normal: Vector) -> f64 {
    second.local_support_point(-normal).dot(normal) - first.local_support_point(normal).dot(normal)
}

/// Maximises [`separation`] over the sphere: from the best of evenly spread directions and any `hints`, by steps that
/// halve until they no longer matter.
fn search(first: &Solid, second: &Solid, hints: &[Vector]) -> Result<Gap, NotConverged> {
    let value = |normal: Vector| separation(first, second, normal);
    let mut normal = Vector::X;
    let mut best = f64::NEG_INFINITY;
    for candidate in hints.iter().copied().chain(spread(SEARCH_DIRECTIONS)) {
        let found = value(candidate);
        if found > best {
            (normal, best) = (candidate, found);
        }
    }
    let mut step = 0.1;
    while step > SEARCH_FINEST_STEP {
        let (side, other) = square_to(normal);
        let better = (0..16)
            .map(|turn| f64::from(turn) * std::f64::consts::TAU / 16.0)
            .map(|angle| (normal + side * (step * angle.cos()) + other * (step * angle.sin())).normalize())
            .map(|candidate| (candidate, value(candidate)))
            .max_by(|a, b| a.1.total_cmp(&b.1));
        match better {
            Some((candidate, found)) if found > best => (normal, best) = (candidate, found),
            _ => step /= 2.0,
        }
    }
    if !best.is_finite() {
        return Err(NotConverged);
    }
    let points = [first.local_support_point(normal), second.local_support_point(-normal)];
    Ok(Gap { distance: best, points, method: Method::Search })
}

/// `count` unit vectors spread evenly over the sphere, on a golden-angle spiral.
fn spread(count: u32) -> impl Iterator<Item = Vector> {
    let golden = std::f64::consts::PI * (3.0 - 5.0_f64.sqrt());
    (0..count).map(move |index| {
        let z = 1.0 - (2.0 * f64::from(index) + 1.0) / f64::from(count);
        let radius = (1.0 - z * z).sqrt();
        let angle = golden * f64::from(index);
        Vector::new(radius * angle.cos(), radius * angle.sin(), z)
    })
}

/// Two unit vectors square to `normal` and to each other.
fn square_to(normal: Vector) -> (Vector, Vector) {
    let away = if normal.x.abs() < 0.6 { Vector::X } else { Vector::Y };
    let side = normal.cross(away).normalize();
    (side, normal.cross(side))
}
