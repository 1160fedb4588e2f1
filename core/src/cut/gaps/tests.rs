//! Gaps against many points and plane geometry by hand.

use super::*;
use crate::cut::brute_force::{Drawn, chords_cross, off_edges, points};
use crate::solid::Disc;

/// A square of 40 with a round hole in it, and hulls that lie in it, across its edges, over the hole, round it: as deep
/// as the deepest of all their edge points, each looked at by itself.
#[test]
fn no_edge_point_is_deeper_than_the_deepest() {
    let square = Outline::polygon(&[[0.0, 0.0], [40.0, 0.0], [40.0, 40.0], [0.0, 40.0]]);
    let region = Region { outer: square, windows: vec![Outline::circle([12.0, 25.0], 6.0).reversed()] };
    let edges: Vec<Segment> = region.segments().collect();
    let discs = |values: &[[f64; 3]]| {
        Outline::of_discs(&values.iter().map(|&[x, y, radius]| Disc::new(x, y, radius)).collect::<Vec<_>>())
    };
    let hulls = [
        discs(&[[25.0, 12.0, 8.0]]),
        discs(&[[35.0, 30.0, 9.0], [60.0, 10.0, 3.0]]),
        discs(&[[12.0, 25.0, 5.0]]),
        discs(&[[10.0, 24.0, 8.0], [18.0, 20.0, 4.0], [20.0, 30.0, 0.0]]),
        discs(&[[20.0, 20.0, 90.0]]),
        discs(&[[-30.0, 20.0, 0.0], [70.0, 21.0, 0.0]]),
    ];
    for hull in hulls {
        let points = hull.sampled(DEPTH_STEP).into_iter().map(|(.., point)| point);
        let inside = points.filter(|point| region.contains(*point));
        let depth = inside.map(|point| apart(region.nearest_edge(point), point)).fold(0.0, f64::max);
        let found = deepest(&hull, &region, &edges);
        assert!((found.gap + depth).abs() < 1e-12, "{} instead of {depth} deep", found.gap);
        assert!((apart(found.from, found.to) + found.gap).abs() < 1e-12);
    }
}

/// Closed forms: two circles are the distance of their middles less both radii apart, a circle inside another the
/// difference, a line and a circle the distance from the middle less the radius.
#[test]
fn nearest_places_of_arcs_lie_on_the_line_of_their_middles() {
    let arc = |x: f64, radius: f64, start: f64| Segment::Arc { centre: [x, 0.0], radius, start, sweep: 2.0 };
    let line = Segment::Line { from: [10.0, -7.0], to: [10.0, 9.0] };
    let cases = [
        (arc(0.0, 5.0, -0.7), arc(20.0, 3.0, 2.3), 12.0),
        (arc(0.0, 9.0, -0.7), arc(2.0, 3.0, -0.9), 4.0),
        (arc(0.0, 5.0, -0.7), line, 5.0),
        (line, arc(17.0, 4.0, 2.3), 3.0),
    ];
    for (first, second, expected) in cases {
        let (from, to) = closest(&first, &second);
        assert!((apart(from, to) - expected).abs() < 1e-12, "{first:?} and {second:?}: {from:?} to {to:?}");
        assert!(!touch(&first, &second));
    }
    assert!(touch(&arc(0.0, 5.0, -0.7), &arc(6.0, 3.0, 2.3)) && touch(&line, &arc(8.0, 3.0, -0.7)));
}

fn discs(values: &[[f64; 3]]) -> Slab {
    let discs = values.iter().map(|&[back, up, radius]| Disc::new(back, up, radius));
    Slab { discs: discs.collect(), low: 0.0, high: 1.0 }
}

fn ends(edge: &Segment) -> [[f64; 2]; 2] {
    [edge.at(0.0), edge.at(1.0)]
}

fn by_chords(first: &Segment, second: &Segment) -> bool {
    let (first, second) = (points(first, 60), points(second, 60));
    first.windows(2).any(|one| second.windows(2).any(|other| chords_cross([one[0], one[1]], [other[0], other[1]])))
}

/// Lines and arcs of every size: whether they cross by their chords, how near they come by 400 points of the one.
#[test]
fn edges_cross_and_come_near_as_their_points_do() {
    let mut drawn = Drawn(17);
    let (mut crossing, mut apart_ones) = (0, 0);
    for _ in 0..500 {
        let (first, second) = (drawn.edge(), drawn.edge());
        let off = |edge: &Segment, point: [f64; 2]| apart(edge.nearest(point), point);
        let end_on = ends(&first).iter().any(|end| off(&second, *end) < 0.02)
            || ends(&second).iter().any(|end| off(&first, *end) < 0.02);
        let by_points = points(&first, 400).into_iter().map(|point| off(&second, point)).fold(f64::INFINITY, f64::min);
        let cross = by_chords(&first, &second);
        // Where an end lies on the other, or the two graze, chords may tell otherwise.
        if end_on || (!cross && by_points < 0.02) {
            continue;
        }
        assert_eq!(touch(&first, &second), cross, "{first:?} and {second:?}");
        assert_eq!(touch(&second, &first), cross, "{second:?} and {first:?}");
        if cross {
            crossing += 1;
            continue;
        }
        apart_ones += 1;
        for (one, other) in [(&first, &second), (&second, &first)] {
            let (from, to) = closest(one, other);
            assert!(off(one, from) < 1e-9 && off(other, to) < 1e-9, "{one:?}: {from:?}, {other:?}: {to:?}");
            // Beside the nearest place the gap grows by the square of the way: half a step off, by less than this.
            let gap = apart(from, to);
            assert!(gap <= by_points + 1e-9 && gap > by_points - 0.02, "{one:?}, {other:?}: {gap}, {by_points}");
        }
    }
    assert!(crossing > 80 && apart_ones > 150, "{crossing} cross, {apart_ones} do not");
}

/// A line without length and circles in each other meet nothing; a line that ends inside a circle, or has it inside, neither.
#[test]
fn edges_that_only_have_each_other_in_them_do_not_cross() {
    let circle = |x: f64, radius: f64| Segment::Arc { centre: [x, 1.0], radius, start: 0.3, sweep: 6.2 };
    let line = |x: f64, end: f64| Segment::Line { from: [x, 1.5], to: [end, 1.5] };
    for (first, second) in [
        (circle(0.0, 9.0), circle(2.0, 3.0)),
        (circle(0.0, 9.0), line(-4.0, 5.0)),
        (circle(0.0, 9.0), line(2.0, 2.0)),
        (circle(0.0, 2.0), line(5.0, 9.0)),
        (circle(0.0, 2.0), line(-5.0, -9.0)),
    ] {
        assert!(!touch(&first, &second) && !touch(&second, &first), "{first:?} and {second:?}");
    }
}

/// A square of 40 with a round window of radius 6 about (12, 25), and what lies by, in, across, round and inside the window,
/// by hand: distance of a middle from an edge, more or less a radius.
#[test]
fn gaps_to_a_square_with_a_window_are_by_hand() {
    let square = Outline::polygon(&[[0.0, 0.0], [40.0, 0.0], [40.0, 40.0], [0.0, 40.0]]);
    let region = Region { outer: square, windows: vec![Outline::circle([12.0, 25.0], 6.0).reversed()] };
    let cases: [(&[[f64; 3]], f64); 11] = [
        (&[[50.0, 20.0, 0.0]], 10.0),
        (&[[43.0, 44.0, 0.0]], 5.0),
        (&[[33.0, 19.0, 0.0]], -7.0),
        (&[[52.0, 17.0, 5.0]], 7.0),
        (&[[13.0, 25.0, 2.0]], 3.0),
        (&[[12.5, 25.0, 0.0]], 5.5),
        // Its rim at (30, 12) is 10 from the right edge and 12 from the lower.
        (&[[33.0, 12.0, 3.0]], -10.0),
        // A bar of 4 right across, no corner of one in the other: (20, 8) is 8 from the lower edge, (20, 12) 12.
        (&[[-30.0, 6.0, 2.0], [70.0, 6.0, 2.0]], -8.0),
        // Of a bar upright at the right: its left side, 5 from the edge.
        (&[[37.0, -30.0, 2.0], [37.0, 70.0, 2.0]], -5.0),
        // All of the square in it: no part of its edge is inside.
        (&[[20.0, 20.0, 90.0]], 0.0),
        (&[[60.0, 10.0, 3.0], [90.0, 30.0, 8.0]], 17.0),
    ];
    for (values, expected) in cases {
        let slab = discs(values);
        let flat = flat_gap(&slab, &region);
        assert!((flat.gap - expected).abs() < 0.02, "{values:?}: {}", flat.gap);
        if expected != 0.0 {
            assert!((apart(flat.from, flat.to) - flat.gap.abs()).abs() < 1e-9, "{values:?}");
            assert!(off_edges(&region, flat.to) < 0.03, "{values:?}: {:?}", flat.to);
        }
    }
}

/// Slabs from 2 to 5 and plates beside, above and across them.
#[test]
fn things_apart_both_ways_are_apart_by_pythagoras() {
    let slab = Slab { discs: Vec::new(), low: 2.0, high: 5.0 };
    let plate = |low: f64, high: f64| {
        let region = Region { outer: Outline::polygon(&[]), windows: Vec::new() };
        Plate { region, low, high }
    };
    for (flat, low, high, expected) in [
        (3.0, 9.0, 12.0, 5.0),
        (3.0, -6.0, -2.0, 5.0),
        (12.0, 4.0, 7.0, 12.0),
        (-3.0, 9.0, 12.0, 4.0),
        (-3.0, -6.5, -2.5, 4.5),
        (-3.0, 4.0, 7.0, -1.0),
        (-0.5, 4.0, 7.0, -0.5),
        (0.0, 9.0, 12.0, 4.0),
    ] {
        assert_eq!(beside(flat, &slab, &plate(low, high)), expected, "{flat} to {low} up to {high}");
    }
}
