//! The signed gap between two slabs, in closed form.

use super::{Disc, Gap, Method, Slab, Vector};

/// Rounding of a reach, mm: what lies this little beyond an edge does not make it another's.
const ROUNDING: f64 = 1e-9;

/// A direction in the wheel plane and the signed gap of two hulls along it.
#[derive(Clone, Copy)]
pub(super) struct Along {
    pub(super) back: f64,
    pub(super) up: f64,
    pub(super) gap: f64,
}

/// Which way two slabs are nearest to each other: in the wheel plane, along `out`, or both at once.
struct Nearest {
    flat: Along,
    /// Signed gap along `out`, and its sign from the first to the second.
    sideways: f64,
    out: f64,
    distance: f64,
    normal: Vector,
}

/// Slabs are products of a hull in the wheel plane and an interval of `out`: apart both ways, the distances add up by
/// Pythagoras; otherwise the larger of the two signed gaps is the way out.
fn nearest(first: &Slab, second: &Slab) -> Nearest {
    let (above, below) = (second.low - first.high, first.low - second.high);
    let (sideways, out) = if above >= below { (above, 1.0) } else { (below, -1.0) };
    let flat = hull_gap(&first.discs, &second.discs);
    let (distance, normal) = if flat.gap > 0.0 && sideways > 0.0 {
        let distance = flat.gap.hypot(sideways);
        let share = flat.gap / distance;
        (distance, Vector::new(flat.back * share, flat.up * share, out * sideways / distance))
    } else if flat.gap > sideways {
        (flat.gap, Vector::new(flat.back, flat.up, 0.0))
    } else {
        (sideways, Vector::new(0.0, 0.0, out))
    };
    Nearest { flat, sideways, out, distance, normal }
}

/// The signed gap between two slabs and the unit normal along which it lies.
pub(super) fn slab_distance(first: &Slab, second: &Slab) -> (f64, Vector) {
    let Nearest { distance, normal, .. } = nearest(first, second);
    (distance, normal)
}

/// The signed gap between two slabs, with two points that are that far apart.
pub(super) fn slab_gap(first: &Slab, second: &Slab) -> Gap {
    let Nearest { flat, sideways, out, distance, normal } = nearest(first, second);
    let middle_of_both = (first.low.max(second.low) + first.high.min(second.high)) / 2.0;
    let (from, to) = if sideways < 0.0 {
        (middle_of_both, middle_of_both)
    } else if out > 0.0 {
        (first.high, second.low)
    } else {
        (first.low, second.high)
    };
    // Along the tangent, where the two outermost places face each other.
    let (low, high) = facing(&first.discs, flat.back, flat.up);
    let (other_low, other_high) = facing(&second.discs, -flat.back, -flat.up);
    let along = (low.max(-other_high) + high.min(-other_low)) / 2.0;
    let reach = most(&first.discs, flat.back, flat.up);
    let at = |reach: f64, out: f64| {
        Vector::new(flat.back * reach - flat.up * along, flat.up * reach + flat.back * along, out)
    };
    let points = if normal.z == 0.0 || flat.gap > 0.0 {
        [at(reach, from), at(reach + flat.gap, to)]
    } else {
        // One lies over the other: a place that they share, as near as can be to the middle of the overlap.
        let place = shared(&first.discs, &second.discs, at(reach + flat.gap / 2.0, from));
        [place, place + Vector::Z * (out * sideways)]
    };
    Gap { distance, points, normal, method: Method::Exact }
}

/// A place inside two hulls that overlap, by going from one to the other by the shortest way until it lies in both.
fn shared(first: &[Disc], second: &[Disc], mut place: Vector) -> Vector {
    /// The way shortens by a fixed share each time; a hair outside one of the two does no harm.
    const MOST_ROUNDS: u32 = 100;
    for _ in 0..MOST_ROUNDS {
        let mut is_inside = true;
        for discs in [first, second] {
            let away = hull_gap(&[Disc::new(place.x, place.y, 0.0)], discs);
            if away.gap > ROUNDING {
                place += Vector::new(away.back, away.up, 0.0) * away.gap;
                is_inside = false;
            }
        }
        if is_inside {
            break;
        }
    }
    place
}

/// From where to where, along the direction a quarter turn on, the outermost place of a hull of discs reaches.
fn facing(discs: &[Disc], back: f64, up: f64) -> (f64, f64) {
    let outermost = most(discs, back, up);
    let reach = |disc: &Disc| disc.back * back + disc.up * up + disc.radius;
    let along =
        discs.iter().filter(|disc| reach(disc) >= outermost - ROUNDING).map(|disc| disc.up * back - disc.back * up);
    along.fold((f64::MAX, f64::MIN), |(low, high), along| (low.min(along), high.max(along)))
}

/// The signed gap between the hulls of two sets of discs.
///
/// The gap is the most that a line can part the two. The Minkowski difference of two hulls of discs is a hull of discs;
/// the point of its outline nearest to the origin lies on a straight edge, whose normal is that of an edge of one of
/// the two, or on an arc, where the normal runs from the centre of one disc to that of another. Those are all tried.
pub(super) fn hull_gap(first: &[Disc], second: &[Disc]) -> Along {
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
            // Of two discs about one centre, any direction is as good.
            let (back, up) = if length > 0.0 { (back / length, up / length) } else { (1.0, 0.0) };
            consider(back, up, most(first, back, up));
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
            let is_within = |disc: &Disc| disc.back * normal.0 + disc.up * normal.1 + disc.radius <= reach + ROUNDING;
            if discs.iter().all(is_within) {
                with(normal.0, normal.1, reach);
            }
        }
    }
}

/// Slabs of every kind, spread so that some are apart, some beside, some inside each other.
#[cfg(test)]
pub(super) fn slabs(count: u32) -> impl Iterator<Item = Slab> {
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

#[cfg(test)]
mod tests {
    use super::super::Solid;
    use super::super::gap::iterated;
    use super::*;

    /// How far a point lies outside a slab, looking along many directions.
    fn outside(slab: &Slab, point: Vector) -> f64 {
        let directions = (0..720).map(|step| (f64::from(step) * 0.5).to_radians().sin_cos());
        let flat = directions.map(|(sin, cos)| point.x * cos + point.y * sin - most(&slab.discs, cos, sin));
        flat.fold((slab.low - point.z).max(point.z - slab.high), f64::max)
    }

    /// Concentric discs, where no direction is better than another.
    #[test]
    fn a_disc_inside_another_comes_out_sideways_or_flat() {
        let slab = |radius, high| Slab { discs: vec![Disc::new(3.0, 4.0, radius)], low: 0.0, high };
        assert_eq!(slab_distance(&slab(5.0, 4.0), &slab(2.0, 9.0)).0, -4.0);
        assert_eq!(slab_distance(&slab(5.0, 40.0), &slab(2.0, 90.0)).0, -7.0);
    }

    /// A box in the wheel plane, turned about the origin.
    fn turned_box([back, far]: [f64; 2], [low, high]: [f64; 2], [inner, outer]: [f64; 2], turn: f64) -> Slab {
        let (sin, cos) = turn.to_radians().sin_cos();
        let corner = |(x, y): (f64, f64)| Disc::new(x * cos - y * sin, x * sin + y * cos, 0.0);
        let discs = [(back, low), (far, low), (far, high), (back, high)].map(corner).to_vec();
        Slab { discs, low: inner, high: outer }
    }

    /// By hand: the points lie in the middle of what two boxes' sides share, and of what their thicknesses do.
    #[test]
    fn points_lie_in_the_middle_of_what_is_shared() {
        let first = ([0.0, 10.0], [0.0, 20.0]);
        for turn in [0.0, 31.0, 118.0, -77.0] {
            let (sin, cos) = f64::to_radians(turn).sin_cos();
            let placed = |[x, y, z]: [f64; 3]| Vector::new(x * cos - y * sin, x * sin + y * cos, z);
            for (what, second, heights, distance, points) in [
                ("beside", ([14.0, 30.0], [12.0, 40.0]), [1.0, 9.0], 4.0, [[10.0, 16.0, 3.0], [14.0, 16.0, 3.0]]),
                ("beside, lower", ([14.0, 30.0], [-9.0, 7.0]), [-4.0, 3.0], 4.0, [[10.0, 3.5, 1.5], [14.0, 3.5, 1.5]]),
                ("above", ([6.0, 30.0], [27.0, 40.0]), [2.0, 4.0], 7.0, [[8.0, 20.0, 3.0], [8.0, 27.0, 3.0]]),
                (
                    "beside and outboard",
                    ([14.0, 30.0], [12.0, 40.0]),
                    [8.0, 9.0],
                    5.0,
                    [[10.0, 16.0, 5.0], [14.0, 16.0, 8.0]],
                ),
                (
                    "beside and inboard",
                    ([14.0, 30.0], [12.0, 40.0]),
                    [-7.0, -3.0],
                    5.0,
                    [[10.0, 16.0, 0.0], [14.0, 16.0, -3.0]],
                ),
                (
                    "in each other",
                    ([7.0, 30.0], [12.0, 40.0]),
                    [-9.0, 30.0],
                    -3.0,
                    [[10.0, 16.0, 2.5], [7.0, 16.0, 2.5]],
                ),
                ("outboard", ([4.0, 30.0], [6.0, 12.0]), [7.0, 9.0], 2.0, [[7.0, 9.0, 5.0], [7.0, 9.0, 7.0]]),
                ("inboard", ([4.0, 30.0], [6.0, 12.0]), [-7.0, -6.0], 6.0, [[7.0, 9.0, 0.0], [7.0, 9.0, -6.0]]),
            ] {
                let (one, other) =
                    (turned_box(first.0, first.1, [0.0, 5.0], turn), turned_box(second.0, second.1, heights, turn));
                let found = slab_gap(&one, &other);
                assert!((found.distance - distance).abs() < 1e-9, "{what}: {found:?}");
                let back = slab_gap(&other, &one);
                assert!((back.distance - distance).abs() < 1e-9, "{what}, reversed: {back:?}");
                let [on_first, on_second] = points.map(placed);
                for (got, expected) in [(found.points, [on_first, on_second]), (back.points, [on_second, on_first])] {
                    let off = (got[0] - expected[0]).length().max((got[1] - expected[1]).length());
                    // Over each other, any place that both share will do.
                    let is_over = what.ends_with("board") && !what.contains("and");
                    assert!(off < if is_over { 3.1 } else { 1e-9 }, "{what} at {turn}°: {got:?}, not {expected:?}");
                    assert!((got[1] - got[0]).length() - distance.abs() < 1e-9);
                }
            }
        }
    }

    /// Against GJK and EPA, which know nothing of slabs.
    #[test]
    fn slabs_have_the_gap_that_convex_solids_in_general_have() {
        let slabs: Vec<Slab> = slabs(600).collect();
        let mut overlaps = 0;
        for pair in slabs.windows(2) {
            let [first, second] = pair else { continue };
            let Gap { distance: found, points, normal, .. } = slab_gap(first, second);
            let general = iterated(&Solid::from(first.clone()), &Solid::from(second.clone())).map(|gap| gap.distance);
            let general = general.unwrap_or(f64::NAN);
            assert!((found - general).abs() < 1e-5, "{first:?} and {second:?}: {found} instead of {general}");
            assert!((normal.length() - 1.0).abs() < 1e-12);
            assert!((points[1] - points[0] - normal * found).length() < 1e-9, "{first:?} and {second:?}: {points:?}");
            // Where they overlap, a point may stray by the depth; where one lies over the other and what they share is a
            // sliver, by a hair.
            let most_stray = if normal.z.abs() == 1.0 { 0.1 } else { 1e-6 };
            for (slab, point) in [(first, points[0]), (second, points[1])] {
                let stray = outside(slab, point);
                assert!(
                    stray <= most_stray + (-found).max(0.0),
                    "{first:?} and {second:?}: {point} is {stray} outside"
                );
            }
            overlaps += u32::from(found < 0.0);
        }
        assert!(overlaps > 50 && overlaps < 500, "{overlaps} overlaps");
    }
}
