//! The signed gap between two slabs, in closed form.

use super::{Disc, Slab, Vector};

/// A direction in the wheel plane and the signed gap of two hulls along it.
#[derive(Clone, Copy)]
struct Along {
    back: f64,
    up: f64,
    gap: f64,
}

/// The signed gap between two slabs and the unit normal along which it lies.
///
/// Slabs are products of a hull in the wheel plane and an interval of `out`: apart both ways, the distances add up by
/// Pythagoras; otherwise the larger of the two signed gaps is the way out.
pub(crate) fn slab_gap(first: &Slab, second: &Slab) -> (f64, Vector) {
    let (above, below) = (second.low - first.high, first.low - second.high);
    let (sideways, out) = if above >= below { (above, 1.0) } else { (below, -1.0) };
    let flat = hull_gap(&first.discs, &second.discs);
    if flat.gap > 0.0 && sideways > 0.0 {
        let distance = flat.gap.hypot(sideways);
        let share = flat.gap / distance;
        (distance, Vector::new(flat.back * share, flat.up * share, out * sideways / distance))
    } else if flat.gap > sideways {
        (flat.gap, Vector::new(flat.back, flat.up, 0.0))
    } else {
        (sideways, Vector::new(0.0, 0.0, out))
    }
}

/// The signed gap between the hulls of two sets of discs.
///
/// The gap is the most that a line can part the two. The Minkowski difference of two hulls of discs is a hull of discs;
/// the point of its outline nearest to the origin lies on a straight edge, whose normal is that of an edge of one of
/// the two, or on an arc, where the normal runs from the centre of one disc to that of another. Those are all tried.
fn hull_gap(first: &[Disc], second: &[Disc]) -> Along {
    let mut best = Along { back: 1.0, up: 0.0, gap: f64::NEG_INFINITY };
    let mut consider = |back: f64, up: f64, most_of_first: f64| {
        let gap = -most(second, -back, -up) - most_of_first;
        if gap > best.gap {
            best = Along { back, up, gap };
        }
    };
    for a in first {
        for b in second {
            let (back, up) = (b.back - a.back, b.up - a.up);
            let length = (back * back + up * up).sqrt();
            if length > 0.0 {
                let (back, up) = (back / length, up / length);
                consider(back, up, most(first, back, up));
            }
        }
    }
    each_edge(first, &mut consider);
    each_edge(second, &mut |back, up, _| consider(-back, -up, most(first, -back, -up)));
    best
}

/// How far a hull of discs reaches along a unit direction.
fn most(discs: &[Disc], back: f64, up: f64) -> f64 {
    discs.iter().map(|disc| disc.back * back + disc.up * up + disc.radius).fold(f64::NEG_INFINITY, f64::max)
}

/// Calls `with` the unit normal of every straight edge of a hull of discs, and how far the hull reaches along it.
pub(super) fn each_edge(discs: &[Disc], with: &mut impl FnMut(f64, f64, f64)) {
    /// Rounding of a reach, mm: what lies this little beyond an edge does not make it another's.
    const ROUNDING: f64 = 1e-9;
    for (index, from) in discs.iter().enumerate() {
        for (other, to) in discs.iter().enumerate() {
            let (back, up) = (to.back - from.back, to.up - from.up);
            let length = (back * back + up * up).sqrt();
            // Along the normal of a common tangent both discs reach equally far.
            let lean = (from.radius - to.radius) / length;
            if index == other || lean.abs() >= 1.0 || length == 0.0 {
                continue;
            }
            let square = (1.0 - lean * lean).sqrt();
            let (along_back, along_up) = (back / length, up / length);
            let normal = (along_back * lean + along_up * square, along_up * lean - along_back * square);
            let reach = from.back * normal.0 + from.up * normal.1 + from.radius;
            if most(discs, normal.0, normal.1) <= reach + ROUNDING {
                with(normal.0, normal.1, reach);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Solid, gap};
    use super::*;

    /// Slabs of every kind, spread so that some are apart, some beside, some inside each other.
    fn slabs(count: u32) -> impl Iterator<Item = Slab> {
        // A plain linear congruence is random enough here and the same everywhere.
        let mut state = 20_261_125_u64;
        let mut next = move |low: f64, high: f64| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            low + (high - low) * ((state >> 11) as f64 / (1_u64 << 53) as f64)
        };
        (0..count).map(move |_| {
            let (back, up, low) = (next(-40.0, 40.0), next(-40.0, 40.0), next(-20.0, 20.0));
            let is_polygon = next(0.0, 1.0) < 0.5;
            let discs = (0..1 + next(0.0, 6.0) as u32).map(|_| {
                let radius = if is_polygon { 0.0 } else { next(0.0, 15.0) };
                Disc::new(back + next(-25.0, 25.0), up + next(-25.0, 25.0), radius)
            });
            Slab { discs: discs.collect(), low, high: low + next(0.5, 20.0) }
        })
    }

    /// Against GJK and EPA, which know nothing of slabs.
    #[test]
    fn slabs_have_the_gap_that_convex_solids_in_general_have() {
        let slabs: Vec<Slab> = slabs(600).collect();
        let mut overlaps = 0;
        for pair in slabs.windows(2) {
            let [first, second] = pair else { continue };
            let (found, normal) = slab_gap(first, second);
            let general = gap(&Solid::from(first.clone()), &Solid::from(second.clone())).map(|gap| gap.distance);
            let general = general.unwrap_or(f64::NAN);
            assert!((found - general).abs() < 1e-5, "{first:?} and {second:?}: {found} instead of {general}");
            assert!((normal.length() - 1.0).abs() < 1e-12);
            overlaps += u32::from(found < 0.0);
        }
        assert!(overlaps > 50 && overlaps < 500, "{overlaps} overlaps");
    }
}
