//! The signed gap between a slab and a spool that stands square on the wheel plane, in closed form.

use super::flat::{Along, hull_gap};
use super::{Disc, Gap, Method, Slab, Spool, Vector};

/// A direction in the half plane through the spool's axis and the place of the slab nearest to it, with the signed gap along it.
#[derive(Clone, Copy)]
struct Leaning {
    /// Towards the axis, not negative.
    inward: f64,
    out: f64,
    gap: f64,
}

/// The slab's nearest place to the axis, and the direction that parts the two best.
///
/// Along any direction the slab is the better parted from the spool the further it stays from the axis, so the direction lies
/// in the half plane of the shortest way between slab and axis. There the slab is a strip that ends, and the spool one that
/// begins with a slanted end. The corners of their Minkowski difference are the ways from the strip's two corners to the
/// slant's two; the best direction is one of those, square to an edge between them, or along the axis.
fn nearest(slab: &Slab, spool: &Spool) -> (Along, Leaning) {
    let [start, end] = spool.ends;
    let flat = hull_gap(&slab.discs, &[Disc::new(start.x, start.y, 0.0)]);
    let heights = [start.z, end.z];
    let corners = [0, 1].map(|end| flat.gap - spool.radii[end]);
    let along = |inward: f64, out: f64| {
        let reach = |end: usize| inward * corners[end] + out * heights[end];
        reach(0).min(reach(1)) - (out * slab.low).max(out * slab.high)
    };
    let mut best = Leaning { inward: 1.0, out: 0.0, gap: along(1.0, 0.0) };
    let mut consider = |inward: f64, out: f64| {
        let gap = along(inward, out);
        if gap > best.gap {
            best = Leaning { inward, out, gap };
        }
    };
    consider(0.0, 1.0);
    consider(0.0, -1.0);
    let mut towards = |inward: f64, out: f64| {
        let length = inward.hypot(out);
        if inward > 0.0 && length > 0.0 {
            consider(inward / length, out / length);
        }
    };
    for (corner, height) in corners.into_iter().zip(heights) {
        towards(corner, height - slab.low);
        towards(corner, height - slab.high);
    }
    let (rise, widening) = (heights[1] - heights[0], corners[0] - corners[1]);
    towards(rise.abs(), widening * rise.signum());
    (flat, best)
}

/// The signed gap between a slab and an upright spool, and the unit normal from the slab along which it lies.
pub(super) fn upright_distance(slab: &Slab, spool: &Spool) -> (f64, Vector) {
    let (flat, best) = nearest(slab, spool);
    (best.gap, normal(flat, best))
}

fn normal(flat: Along, Leaning { inward, out, .. }: Leaning) -> Vector {
    Vector::new(flat.back * inward, flat.up * inward, out)
}

/// The signed gap between a slab and an upright spool, with two points that are that far apart.
pub(super) fn upright_gap(slab: &Slab, spool: &Spool) -> Gap {
    let (flat, best) = nearest(slab, spool);
    let normal = normal(flat, best);
    let axis = spool.ends[0];
    // Where one lies over the other, the axis will do if the slab is about it.
    let from_axis = if best.inward == 0.0 { flat.gap.max(0.0) } else { flat.gap };
    let z = if best.out == 0.0 {
        let [low, high] = level_with(spool);
        (slab.low.max(low) + slab.high.min(high)) / 2.0
    } else if best.out > 0.0 {
        slab.high
    } else {
        slab.low
    };
    let on_slab = Vector::new(axis.x - flat.back * from_axis, axis.y - flat.up * from_axis, z);
    Gap { distance: best.gap, points: [on_slab, on_slab + normal * best.gap], normal, method: Method::Exact }
}

/// From where to where along the axis a spool is at its widest.
fn level_with(spool: &Spool) -> [f64; 2] {
    let [start, end] = spool.ends.map(|end| end.z);
    match spool.radii[0].total_cmp(&spool.radii[1]) {
        std::cmp::Ordering::Greater => [start, start],
        std::cmp::Ordering::Less => [end, end],
        std::cmp::Ordering::Equal => [start.min(end), start.max(end)],
    }
}

#[cfg(test)]
mod tests {
    use super::super::Solid;
    use super::super::flat::slabs;
    use super::super::gap::{Method, iterated, separation};
    use super::*;
    use crate::tolerance::CERTIFIED_GAP;

    fn cone(slab: &Slab) -> Spool {
        // Whatever another slab is made of, as numbers that are the same everywhere.
        let disc = slab.discs[0];
        let ends = [slab.low, slab.low + disc.up].map(|z| Vector::new(disc.back / 2.0, disc.up / 2.0, z));
        Spool { ends, axis: Vector::Z, radii: [slab.high.abs(), disc.radius + disc.back.abs()] }
    }

    /// Against GJK and EPA where they come to an end, and against the bounds that any direction and any two points give.
    #[test]
    fn an_upright_spool_has_the_gap_that_convex_solids_in_general_have() {
        let slabs: Vec<Slab> = slabs(2000).collect();
        let (mut overlaps, mut compared) = (0, 0);
        for pair in slabs.windows(2) {
            let [slab, other] = pair else { continue };
            let spool = cone(other);
            let Gap { distance, points, normal, .. } = upright_gap(slab, &spool);
            let solids = [Solid::from(slab.clone()), Solid::from(spool)];
            let along = separation(&solids[0], &solids[1], normal);
            assert!((along - distance).abs() < 1e-9, "{slab:?} and {spool:?}: {distance}, but {along} along {normal}");
            assert!((normal.length() - 1.0).abs() < 1e-12);
            assert!((points[1] - points[0] - normal * distance).length() < 1e-9);
            let Ok(general) = iterated(&solids[0], &solids[1]) else { continue };
            // The extents of spools are rounded near their axis.
            assert!(general.distance <= distance + 1e-6, "{slab:?} and {spool:?}: {general:?}, not {distance}");
            if general.method == Method::Iterative {
                assert!(
                    general.distance >= distance - CERTIFIED_GAP,
                    "{slab:?} and {spool:?}: {general:?}, not {distance}"
                );
                compared += 1;
            }
            overlaps += u32::from(distance < 0.0);
        }
        assert!(compared > 1500 && overlaps > 200 && overlaps < 1800, "{compared} compared, {overlaps} overlaps");
    }
}
