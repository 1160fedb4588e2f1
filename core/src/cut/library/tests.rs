//! What the library makes of pieces, point by point.

use super::*;
use crate::cut::brute_force::Drawn;
use crate::solid::Disc;

fn hull(discs: &[[f64; 3]]) -> Region {
    let discs: Vec<Disc> = discs.iter().map(|&[back, up, radius]| Disc::new(back, up, radius)).collect();
    Region { outer: Outline::of_discs(&discs), windows: Vec::new() }
}

fn ring(middle: [f64; 2], radius: f64, open: f64) -> Region {
    Region { outer: Outline::circle(middle, radius), windows: vec![Outline::circle(middle, open).reversed()] }
}

/// A plate of 60 by 40 with two windows.
fn sieve() -> Region {
    let outer = Outline::polygon(&[[-30.0, -20.0], [30.0, -20.0], [30.0, 20.0], [-30.0, 20.0]]);
    let windows = [-12.0, 12.0].map(|at| Outline::circle([at, 1.0], 8.0).reversed());
    Region { outer, windows: windows.to_vec() }
}

/// Side by side, one in the other, across each other, through a ring, into plates with windows, and apart.
fn pairs() -> Vec<[Region; 2]> {
    let bar = hull(&[[-20.0, 2.0, 4.0], [25.0, -3.0, 2.5]]);
    let post = hull(&[[3.0, -18.0, 3.0], [1.0, 22.0, 5.0]]);
    vec![
        [hull(&[[0.0, 0.0, 10.0]]), hull(&[[12.0, 5.0, 7.0]])],
        [bar.clone(), post.clone()],
        [hull(&[[1.0, 2.0, 15.0]]), hull(&[[2.0, -1.0, 6.0]])],
        [ring([1.0, 2.0], 16.0, 9.0), bar],
        [ring([-2.0, 1.0], 12.0, 5.0), post.clone()],
        // In the window, and in the material beside it.
        [ring([0.0, 0.0], 20.0, 12.0), hull(&[[2.0, -3.0, 5.0]])],
        [ring([6.0, 0.0], 20.0, 5.0), hull(&[[-7.0, 1.0, 3.0]])],
        // Beside two windows, through both, through one and the edge, and round a bit of material at one of them.
        [sieve(), hull(&[[0.0, 12.0, 2.0]])],
        [sieve(), hull(&[[-12.0, 0.0, 3.0], [12.0, 2.0, 4.0]])],
        [sieve(), hull(&[[-12.0, 0.0, 3.0], [-14.0, 27.0, 4.0]])],
        [sieve(), post],
        [sieve(), hook()],
        [hull(&[[-14.0, 3.0, 5.0]]), hull(&[[9.0, -6.0, 7.0]])],
        // Corners and straight edges, two of which lie on each other.
        [
            hull(&[[0.0, 0.0, 0.0], [12.0, 0.0, 0.0], [12.0, 9.0, 0.0]]),
            hull(&[[4.0, 0.0, 0.0], [15.0, 0.0, 0.0], [8.0, -7.0, 0.0]]),
        ],
    ]
}

/// Three sides of a square that starts and ends in the left window of the sieve.
fn hook() -> Region {
    let corners = [
        [-16.0, 5.0],
        [-14.0, 5.0],
        [-14.0, 15.0],
        [-10.0, 15.0],
        [-10.0, 5.0],
        [-8.0, 5.0],
        [-8.0, 17.0],
        [-16.0, 17.0],
    ];
    Region { outer: Outline::polygon(&corners), windows: Vec::new() }
}

fn has(pieces: &[Region], point: [f64; 2]) -> bool {
    pieces.iter().any(|piece| piece.contains(point))
}

/// A thousand points for each pair: each is in what comes out where it is in the one, in the other, in both.
#[test]
fn points_are_where_the_pieces_together_or_less_each_other_are() {
    let mut drawn = Drawn(2);
    for [first, second] in pairs() {
        let (whole, less) =
            (united(&first, &second), without(&first, &Region { windows: Vec::new(), ..second.clone() }));
        let both = shared(&first.outer, &second.outer);
        for pieces in [&whole, &less, &both] {
            assert!(pieces.iter().all(|piece| piece.outer.area() > 0.0));
            assert!(pieces.iter().flat_map(|piece| &piece.windows).all(|window| window.area() < 0.0));
            assert!(pieces.windows(2).all(|pair| pair[0].outer.area() >= pair[1].outer.area()), "largest first");
        }
        for _ in 0..1000 {
            let point = drawn.point(28.0);
            let (one, other) = (first.contains(point), second.contains(point));
            if [&first, &second].iter().any(|piece| apart(piece.nearest_edge(point), point) < 1e-3) {
                continue;
            }
            assert_eq!(has(&whole, point), one || other, "{point:?} in {first:?} or {second:?}");
            assert_eq!(has(&less, point), one && !other, "{point:?} in {first:?} less {second:?}");
            let outer = first.outer.contains(point) && second.outer.contains(point);
            assert_eq!(has(&both, point), outer, "{point:?} in {first:?} and {second:?}");
        }
    }
}

/// Rings in each other: each window belongs to the smallest piece about it, whatever the order they come in.
#[test]
fn windows_belong_to_the_smallest_piece_about_them() {
    let circle = |radius: f64| Outline::circle([3.0, -2.0], radius);
    let open = |radius: f64| circle(radius).reversed();
    let alone = Outline::circle([80.0, 0.0], 5.0);
    for outlines in [
        [circle(50.0), open(40.0), alone.clone(), circle(30.0), open(20.0), circle(9.0)],
        [open(20.0), circle(9.0), open(40.0), circle(30.0), alone.clone(), circle(50.0)],
    ] {
        let pieces = regions(outlines.to_vec());
        let radii: Vec<f64> =
            pieces.iter().map(|piece| (piece.outer.area() / std::f64::consts::PI).sqrt().round()).collect();
        assert_eq!(radii, [50.0, 30.0, 9.0, 5.0]);
        let windows = |index: usize| pieces[index].windows.iter().map(|one| one.area().round()).collect::<Vec<_>>();
        assert_eq!(
            (windows(0), windows(1)),
            (vec![-(1600.0 * std::f64::consts::PI).round()], vec![-(400.0 * std::f64::consts::PI).round()])
        );
        assert!(pieces[2].windows.is_empty() && pieces[3].windows.is_empty());
    }
}

/// What is smaller than a speck is rounding: a square of 0.04 has 0.0016 mm², one of 0.02 has 0.0004.
#[test]
fn specks_are_no_pieces_and_no_windows() {
    let square =
        |side: f64, at: f64| Outline::polygon(&[[at, at], [at + side, at], [at + side, at + side], [at, at + side]]);
    let pieces = regions(vec![square(9.0, 1.0), square(0.02, 20.0), square(0.04, 30.0), square(0.02, 5.0).reversed()]);
    assert_eq!(pieces.len(), 2);
    assert!(pieces[0].windows.is_empty());
    assert_eq!(regions(vec![square(9.0, 1.0), square(0.04, 5.0).reversed()])[0].windows.len(), 1);
}

/// Of corners on one another the last one's edge stays; the first and the last of an outline are neighbours too.
#[test]
fn corners_on_one_another_are_one() {
    let corner = |x: f64, y: f64, bulge: f64| Corner { x, y, bulge };
    let corners = [
        corner(3.0, 4.0, 0.0),
        corner(3.0, 4.0 + 4e-7, 0.5),
        corner(9.0, 4.0, 0.1),
        corner(9.0 + 4e-7, 4.0, 0.2),
        corner(9.0, 4.0 + 4e-6, 0.3),
        corner(5.0, 8.0, 0.0),
        corner(3.0 - 4e-7, 4.0, 0.0),
        corner(3.0, 4.0 - 4e-7, 0.0),
    ];
    let tidied = tidy(Outline { corners: corners.to_vec() });
    let kept = [corner(3.0, 4.0, 0.5), corner(9.0, 4.0, 0.2), corner(9.0, 4.0 + 4e-6, 0.3), corner(5.0, 8.0, 0.0)];
    assert_eq!(tidied.corners, kept);
}

/// A square gets the corners that lie on its sides, each once, none at its own; a circle is the same circle in more arcs.
#[test]
fn an_outline_takes_over_the_corners_that_lie_on_it() {
    let square = Outline::polygon(&[[1.0, 2.0], [41.0, 2.0], [41.0, 42.0], [1.0, 42.0]]);
    let other = Outline::polygon(&[
        [31.0, 2.0],
        [11.0, 2.0],
        [11.0 + 2e-4, 2.0],
        [31.0 + 5e-5, 2.0],
        [1.0, 2.0],
        [41.0, 2.0 + 5e-5],
        [20.0, 2.0 + 1e-5],
        [41.0, 12.0],
        [70.0, 20.0],
    ]);
    let split = with_corners_of(&square, &other);
    let places: Vec<[f64; 2]> = split.corners.iter().map(|corner| [corner.x, corner.y]).collect();
    let expected =
        [[1.0, 2.0], [11.0, 2.0], [11.0002, 2.0], [31.0, 2.0], [41.0, 2.0], [41.0, 12.0], [41.0, 42.0], [1.0, 42.0]];
    assert_eq!(places.len(), expected.len(), "{places:?}");
    assert!(places.iter().zip(expected).all(|(one, other)| apart(*one, other) < 1e-9), "{places:?}");

    let round = Outline::circle([5.0, -3.0], 7.0);
    let on_it = [0.3_f64, 1.1, 4.0].map(|way| [5.0 + 7.0 * way.cos(), -3.0 + 7.0 * way.sin()]);
    let split = with_corners_of(&round, &Outline::polygon(&on_it));
    assert_eq!(split.corners.len(), round.corners.len() + 3);
    assert!((split.area() - round.area()).abs() < 1e-9 && (split.perimeter() - round.perimeter()).abs() < 1e-9);
    assert!(on_it.iter().all(|point| split.corners.iter().any(|corner| apart([corner.x, corner.y], *point) < 1e-9)));
}

/// A point is in what has been moved outwards where it is in the piece or nearer to it than that, and the other way inwards.
#[test]
fn offsets_reach_as_far_as_they_should() {
    let mut drawn = Drawn(4);
    let bent =
        united(&hull(&[[-12.0, 2.0, 5.0], [14.0, 1.0, 4.0]]), &hull(&[[2.0, 0.0, 3.0], [4.0, 18.0, 4.5]])).remove(0);
    // Two discs on a bar of 4, which moved inwards by 3 are two.
    let bar = united(&hull(&[[-15.0, 0.0, 6.0]]), &hull(&[[-15.0, 0.0, 2.0], [15.0, 1.0, 2.0]]));
    let weights = united(&bar[0], &hull(&[[15.0, 1.0, 5.0]])).remove(0);
    assert_eq!(offset(std::slice::from_ref(&weights), -3.0).len(), 2);
    let pieces = [weights, ring([1.0, 2.0], 16.0, 9.0), bent, hull(&[[-3.0, 2.0, 8.0], [9.0, 4.0, 0.0]])];
    for piece in pieces {
        for by in [1.5, -1.5, -3.0] {
            let moved = offset(std::slice::from_ref(&piece), by);
            for _ in 0..1000 {
                let point = drawn.point(26.0);
                let edge = apart(piece.nearest_edge(point), point);
                let off = if piece.contains(point) { -edge } else { edge };
                if (off - by).abs() > 2e-3 {
                    assert_eq!(has(&moved, point), off < by, "{point:?} is {off} off, moved by {by}");
                }
            }
        }
        assert_eq!(offset(std::slice::from_ref(&piece), 0.0), [piece]);
    }
}
