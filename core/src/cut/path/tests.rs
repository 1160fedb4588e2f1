//! Outlines against walking along rays and counting crossings.

use super::*;
use crate::cut::brute_force::{Drawn, in_polygon, polygon};

fn shape(corners: &[[f64; 3]]) -> Outline {
    Outline { corners: corners.iter().map(|&[x, y, bulge]| Corner { x, y, bulge }).collect() }
}

/// Bent out and in, by less and by more than half a turn, either way round; none about the origin.
fn shapes() -> [Outline; 3] {
    let bay = shape(&[[3.0, -2.0, 0.4], [14.0, 1.0, -0.3], [11.0, 9.0, 0.0], [2.0, 7.0, 0.7]]);
    let keyhole = shape(&[[-4.0, 3.0, 0.0], [5.0, 3.5, 1.6], [5.0, 8.0, 0.0], [-4.0, 9.0, -0.2]]);
    let wheel = Outline::of_discs(&[Disc::new(-6.0, 2.0, 5.0), Disc::new(7.0, 4.0, 1.5)]).reversed();
    [bay, keyhole, wheel]
}

/// Walking along a ray, what is inside changes at each crossing and nowhere else.
#[test]
fn a_ray_crosses_where_inside_changes() {
    let mut drawn = Drawn(11);
    let mut met = 0;
    for outline in shapes() {
        for _ in 0..120 {
            let (origin, way) = (drawn.point(13.0), drawn.between(0.0, TAU));
            let direction = [way.cos(), way.sin()];
            let at = |reach: f64| [origin[0] + direction[0] * reach, origin[1] + direction[1] * reach];
            let found = outline.crossings(origin, direction);
            met += found.len();
            let mut expected = Vec::new();
            for step in 0..400 {
                let (mut low, mut high) = (f64::from(step) * 0.1, f64::from(step + 1) * 0.1);
                let before = outline.contains(at(low));
                if before == outline.contains(at(high)) {
                    continue;
                }
                for _ in 0..40 {
                    let middle = (low + high) / 2.0;
                    if outline.contains(at(middle)) == before { low = middle } else { high = middle }
                }
                expected.push(low);
            }
            assert_eq!(found.len(), expected.len(), "from {origin:?} by {way}: {found:?}, {expected:?}");
            assert!(
                found.iter().zip(&expected).all(|(one, other)| (one - other).abs() < 1e-6),
                "{found:?}, {expected:?}"
            );
        }
    }
    assert!(met > 150, "{met}");
}

/// A ray through a corner passes one edge or the other, not both and not none; what lies behind it does not count.
#[test]
fn a_ray_through_a_corner_crosses_once() {
    let diamond = shape(&[[0.0, -4.0, 0.0], [3.0, 0.0, 0.0], [0.0, 4.0, 0.0], [-3.0, 0.0, 0.0]]);
    for outline in [diamond.clone(), diamond.reversed()] {
        for (direction, reach) in [([1.0, 0.0], 3.0), ([-1.0, 0.0], 3.0), ([0.0, 1.0], 4.0), ([0.0, -1.0], 4.0)] {
            assert_eq!(outline.crossings([0.0, 0.0], direction), [reach]);
        }
        assert_eq!(outline.crossings([-5.0, 0.0], [1.0, 0.0]), [2.0, 8.0]);
    }
    // Two halves of a circle: the ray runs through the corner that both have.
    let circle = shape(&[[5.0, 0.0, 1.0], [-5.0, 0.0, 1.0]]);
    assert_eq!(circle.crossings([0.0, 0.0], [1.0, 0.0]).len(), 1);
    assert_eq!(circle.crossings([0.0, 0.0], [-1.0, 0.0]).len(), 1);
}

#[test]
fn samples_are_near_each_other_and_no_nearer_than_need_be() {
    let turn = |segment: &Segment| match segment {
        Segment::Line { .. } => 0.0,
        Segment::Arc { sweep, .. } => sweep.abs().to_degrees(),
    };
    for outline in shapes() {
        let segments: Vec<Segment> = outline.segments().collect();
        for step in [0.4, 1.3, 7.0, 90.0] {
            let points = outline.sampled(step);
            for (index, segment) in segments.iter().enumerate() {
                let own: Vec<f64> = points.iter().filter(|point| point.0 == index).map(|point| point.1).collect();
                let part = 1.0 / own.len() as f64;
                assert!(own.iter().enumerate().all(|(count, share)| (share - count as f64 * part).abs() < 1e-12));
                assert!(segment.length() * part <= step + 1e-12 && turn(segment) * part <= 10.0 + 1e-9);
                let fewer = 1.0 / (own.len() as f64 - 1.0);
                assert!(
                    own.len() == 1 || segment.length() * fewer > step || turn(segment) * fewer > 10.0,
                    "{segment:?}"
                );
            }
            assert!(points.iter().all(|&(index, share, place)| apart(segments[index].at(share), place) == 0.0));
        }
    }
}

/// Distances from the origin stay, directions grow by the turn.
#[test]
fn turning_keeps_shapes_and_adds_to_directions() {
    for outline in shapes() {
        for by in [0.37, -2.2] {
            let turned = outline.turned(by);
            for (before, after) in outline.corners.iter().zip(&turned.corners) {
                assert!((before.x.hypot(before.y) - after.x.hypot(after.y)).abs() < 1e-12);
                let turn = after.y.atan2(after.x) - before.y.atan2(before.x) - by;
                assert!((turn.sin().abs() < 1e-12) && turn.cos() > 0.0, "{turn}");
                assert_eq!(before.bulge, after.bulge);
            }
        }
        assert_eq!(outline.turned(0.0), outline);
    }
}

#[test]
fn a_place_on_an_edge_is_at_its_share() {
    let mut drawn = Drawn(3);
    for _ in 0..200 {
        let edge = drawn.edge();
        for share in [0.0, 0.21, 0.5, 0.93, 1.0] {
            assert!((edge.share_near(edge.at(share)) - share).abs() < 1e-9, "{edge:?} at {share}");
        }
    }
    let line = Segment::Line { from: [3.0, 1.0], to: [7.0, 4.0] };
    assert_eq!(line.share_near([11.0, 7.0]), 1.0);
    // Ends that rounding has put outside the arc.
    for sweep in [1.9, -1.9] {
        let arc = Segment::Arc { centre: [2.0, -1.0], radius: 8.0, start: 0.4, sweep };
        let beside = |turn: f64| [2.0 + 8.0 * turn.cos(), -1.0 + 8.0 * turn.sin()];
        assert_eq!(arc.share_near(beside(0.4 - sweep.signum() * 1e-9)), 0.0);
        assert_eq!(arc.share_near(beside(0.4 + sweep + sweep.signum() * 1e-9)), 1.0);
    }
}

/// A part of an edge between two of its points, bent by the bulge of its share, lies on the edge.
#[test]
fn a_part_of_an_edge_has_the_bulge_of_its_share() {
    let mut drawn = Drawn(8);
    for _ in 0..100 {
        let edge = drawn.edge();
        for (from, to) in [(0.0, 0.3), (0.25, 0.9), (0.6, 1.0)] {
            let [start, end] = [edge.at(from), edge.at(to)];
            let corner = |[x, y]: [f64; 2], bulge: f64| Corner { x, y, bulge };
            let part = Segment::between(corner(start, edge.bulge_of(to - from)), corner(end, 0.0));
            assert!(apart(part.at(0.4), edge.at(from + (to - from) * 0.4)) < 1e-9, "{edge:?}: {part:?}");
        }
    }
}

/// The angle between two directions, and its sign, by their polar angles.
#[test]
fn what_is_seen_is_the_turn_from_one_direction_to_the_other() {
    let mut drawn = Drawn(5);
    for _ in 0..200 {
        let (eye, from, turn) = (drawn.point(9.0), drawn.between(-3.0, 3.0), drawn.between(-3.1, 3.1));
        let at = |way: f64, far: f64| [eye[0] + far * way.cos(), eye[1] + far * way.sin()];
        let (near, far) = (drawn.between(0.2, 9.0), drawn.between(0.2, 9.0));
        assert!((seen(eye, at(from, near), at(from + turn, far)) - turn).abs() < 1e-9);
    }
    assert_eq!(nearest_place([], [3.0, 4.0]), [3.0, 4.0]);
}

/// Inside is what a level ray crosses an odd number of edges from.
#[test]
fn inside_is_inside_of_the_polygon_of_many_points() {
    let mut drawn = Drawn(21);
    for outline in shapes() {
        let polygon = polygon(&outline, 0.02);
        for _ in 0..2000 {
            let point = drawn.point(14.0);
            if apart(outline.nearest(point), point) > 0.01 {
                assert_eq!(outline.contains(point), in_polygon(&polygon, point), "{point:?}");
            }
        }
    }
}
