//! Narrow places by hand.

#![allow(clippy::unwrap_used, reason = "a test that finds no cut should stop")]

use super::*;
use crate::cut::brute_force::{in_polygon, polygon};
use crate::cut::path::Corner;

fn shape(corners: &[[f64; 3]]) -> Outline {
    Outline { corners: corners.iter().map(|&[x, y, bulge]| Corner { x, y, bulge }).collect() }
}

/// An outline, what is to be on one side and on the other, and how wide the narrowest cut is.
type Case = (Outline, Vec<[f64; 2]>, Vec<[f64; 2]>, f64);

/// By hand: narrow places between lines, between arcs, between corners, and behind a place that is narrower but parts nothing.
fn cases() -> Vec<Case> {
    // A strip of 60 whose lower side rises to a corner at 4 below the upper side, and whose upper side dips to 7 above the
    // lower further on.
    let strip = shape(&[
        [0.0, 0.0, 0.0],
        [12.0, 0.0, 0.0],
        [17.0, 6.0, 0.0],
        [22.0, 0.0, 0.0],
        [60.0, 0.0, 0.0],
        [60.0, 10.0, 0.0],
        [48.0, 10.0, 0.0],
        [43.0, 7.0, 0.0],
        [38.0, 10.0, 0.0],
        [0.0, 10.0, 0.0],
    ]);
    // A block of 40 by 30 with a round bite of radius 9 out of its upper side and one of radius 6 out of the lower, their
    // middles 5 apart sideways: along the line of the middles 30.4138 less 15 are left.
    let bites = shape(&[
        [0.0, 0.0, 0.0],
        [17.0, 0.0, -1.0],
        [29.0, 0.0, 0.0],
        [40.0, 0.0, 0.0],
        [40.0, 30.0, 0.0],
        [27.0, 30.0, -1.0],
        [9.0, 30.0, 0.0],
        [0.0, 30.0, 0.0],
    ]);
    let between_bites = 5.0_f64.hypot(30.0) - 15.0;
    // An L, 8 wide up and 6 wide across: its inner corner at (8, 6) is 10 from the outer one.
    let angle = shape(&[
        [0.0, 0.0, 0.0],
        [40.0, 0.0, 0.0],
        [40.0, 6.0, 0.0],
        [8.0, 6.0, 0.0],
        [8.0, 50.0, 0.0],
        [0.0, 50.0, 0.0],
    ]);
    vec![
        (strip.clone(), vec![[4.0, 5.0]], vec![[30.0, 5.0]], 4.0),
        (strip.clone(), vec![[30.0, 5.0]], vec![[55.0, 5.0], [57.0, 8.0]], 7.0),
        (strip.clone(), vec![[4.0, 5.0]], vec![[30.0, 5.0], [55.0, 5.0]], 4.0),
        (strip, vec![[4.0, 5.0], [30.0, 5.0]], vec![[55.0, 5.0]], 7.0),
        (bites, vec![[3.0, 15.0], [5.0, 4.0]], vec![[37.0, 15.0]], between_bites),
        (angle.clone(), vec![[4.0, 45.0]], vec![[36.0, 3.0]], 6.0),
        (angle, vec![[4.0, 45.0]], vec![[4.0, 15.0], [36.0, 3.0]], 8.0),
    ]
}

#[test]
fn narrowest_cuts_are_those_by_hand_and_part_what_they_should() {
    for (outline, one, other, expected) in cases() {
        for (marks, others) in [(&one, &other), (&other, &one)] {
            for outline in [outline.clone(), outline.reversed(), turned(&outline)] {
                let chord = narrowest(&outline, marks, others).unwrap();
                assert!((chord.width() - expected).abs() < 1e-6, "{chord:?}, {expected}");
                for end in [chord.from, chord.to] {
                    assert!(apart(outline.nearest(end), end) < 1e-9);
                }
                let [first, second] = halves(&outline, &chord);
                let all_in = |half: &[[f64; 2]], marks: &[[f64; 2]]| marks.iter().all(|mark| in_polygon(half, *mark));
                let parted = (all_in(&first, marks) && all_in(&second, others))
                    || (all_in(&second, marks) && all_in(&first, others));
                assert!(parted, "{chord:?} does not part {marks:?} and {others:?}");
            }
        }
    }
}

/// The same outline from another corner on.
fn turned(outline: &Outline) -> Outline {
    let mut corners = outline.corners.clone();
    corners.rotate_left(3);
    Outline { corners }
}

/// The two polygons that a cut leaves.
fn halves(outline: &Outline, chord: &Chord) -> [Vec<[f64; 2]>; 2] {
    let points = polygon(outline, 0.02);
    let nearest = |end: [f64; 2]| {
        let order = |a: &usize, b: &usize| apart(points[*a], end).total_cmp(&apart(points[*b], end));
        (0..points.len()).min_by(order).unwrap()
    };
    let (a, b) = (nearest(chord.from), nearest(chord.to));
    let (a, b) = (a.min(b), a.max(b));
    let mut rest = points[b..].to_vec();
    rest.extend(&points[..=a]);
    [points[a..=b].to_vec(), rest]
}

/// Between two corners 4 mm apart, which sampled points hit, and two round bites 3.99 mm apart, whose nearest places lie
/// between sampled points that are further apart than 4 mm.
#[test]
fn the_narrowest_is_that_of_the_edges_and_not_of_points_on_them() {
    // Each bite of radius 3 turns by 168° in 17 steps, and reaches 2.7 into the strip.
    let (half, deep) = (3.0 * 84.0_f64.to_radians().sin(), 3.0 * (1.0 - 84.0_f64.to_radians().cos()));
    let bulge = -42.0_f64.to_radians().tan();
    let high = 3.99 + 2.0 * deep;
    let strip = shape(&[
        [0.0, 0.0, 0.0],
        [20.0 - half, 0.0, bulge],
        [20.0 + half, 0.0, 0.0],
        [60.0, 0.0, 0.0],
        [64.0, high - 4.0, 0.0],
        [68.0, 0.0, 0.0],
        [90.0, 0.0, 0.0],
        [90.0, high, 0.0],
        [20.0 + half, high, bulge],
        [20.0 - half, high, 0.0],
        [0.0, high, 0.0],
    ]);
    for (marks, others, expected) in [([5.0, 5.0], [85.0, 5.0], 3.99), ([40.0, 5.0], [85.0, 5.0], 4.0)] {
        let chord = narrowest(&strip, &[marks], &[others]).unwrap();
        assert!((chord.width() - expected).abs() < 1e-6, "{chord:?}");
    }
}

/// A mark cannot be parted from itself.
#[test]
fn marks_that_no_cut_parts_have_no_narrow_place() {
    let strip = Outline::polygon(&[[0.0, 0.0], [60.0, 0.0], [60.0, 10.0], [0.0, 10.0]]);
    assert_eq!(narrowest(&strip, &[[5.0, 5.0]], &[[30.0, 5.0], [5.0, 5.0]]), None);
}

/// Two round windows in a plate that lies askew: the bar beside the one that is nearer to the edge.
#[test]
fn the_bar_beside_an_opening_is_by_hand() {
    let plate = Outline::polygon(&[[0.0, 0.0], [60.0, 0.0], [60.0, 40.0], [0.0, 40.0]]).turned(0.71);
    let (sin, cos) = 0.71_f64.sin_cos();
    let askew = |[x, y]: [f64; 2]| [x * cos - y * sin, x * sin + y * cos];
    let open = |middle: [f64; 2], radius: f64| Outline::circle(askew(middle), radius).reversed();
    let region = Region { outer: plate.clone(), windows: vec![open([15.0, 22.0], 8.0), open([44.0, 14.0], 9.5)] };
    let bar = beside_opening(&region).unwrap();
    assert!((bar.width() - 4.5).abs() < 1e-3, "{bar:?}");
    assert!(apart(bar.from, askew([44.0, 4.5])) < 0.15 && apart(bar.to, askew([44.0, 0.0])) < 0.15, "{bar:?}");
    assert_eq!(beside_opening(&Region { outer: plate, windows: Vec::new() }), None);
}
