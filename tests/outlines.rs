//! Edges, outlines and pieces of material against many of their points and against plane geometry.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use std::f64::consts::{PI, TAU};

use tabwright_core::cut::{Corner, Outline, Region, Segment, fillets, inner_corners};
use tabwright_core::solid::Disc;
use tabwright_tests::assert_near;
use tabwright_tests::draw::{Seeded, Source};
use tabwright_tests::plates::distance;
use tabwright_tests::svg::{Point, area};

fn shape(corners: &[[f64; 3]]) -> Outline {
    Outline { corners: corners.iter().map(|&[x, y, bulge]| Corner { x, y, bulge }).collect() }
}

/// A point of the edge between two corners: of an arc that turns by a in all, what turns by a part of it is a chord of
/// 2 r sin(part / 2), off the first direction by half the part.
fn on_edge(from: Corner, to: Corner, share: f64) -> Point {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let turn = 4.0 * from.bulge.atan();
    if turn == 0.0 {
        return [from.x + dx * share, from.y + dy * share];
    }
    let reach = dx.hypot(dy) * (turn * share / 2.0).sin() / (turn / 2.0).sin();
    let (sin, cos) = (dy.atan2(dx) + (share - 1.0) * turn / 2.0).sin_cos();
    [from.x + reach * cos, from.y + reach * sin]
}

/// Points of an outline, worked from its corners alone.
fn points(outline: &Outline, per_edge: u32) -> Vec<Point> {
    let next = outline.corners.iter().cycle().skip(1);
    let edges = outline.corners.iter().zip(next);
    let edge = |(from, to): (&Corner, &Corner)| {
        let (from, to) = (*from, *to);
        (0..per_edge).map(move |step| on_edge(from, to, f64::from(step) / f64::from(per_edge)))
    };
    edges.flat_map(edge).collect()
}

/// Bent out and in, by less and by more than half a turn, either way round; none about the origin.
fn shapes() -> [Outline; 4] {
    let bay = shape(&[[3.0, -2.0, 0.4], [14.0, 1.0, -0.3], [11.0, 9.0, 0.0], [2.0, 7.0, 0.7]]);
    let keyhole = shape(&[[-4.0, 3.0, 0.0], [5.0, 3.5, 1.6], [5.0, 8.0, 0.0], [-4.0, 9.0, -0.2]]);
    let wheel = Outline::of_discs(&[Disc::new(-6.0, 2.0, 5.0), Disc::new(7.0, 4.0, 1.5)]).reversed();
    [bay.clone(), keyhole, wheel, bay.reversed()]
}

#[test]
fn edges_are_bent_by_their_bulges() {
    let mut drawn = Seeded(7);
    for _ in 0..200 {
        let mut corner = |bulge: f64| Corner { x: drawn.between(-9.0, 9.0), y: drawn.between(-9.0, 9.0), bulge };
        for bulge in [0.0, 0.03, -0.4, 0.9, -1.0, 2.5, -7.0] {
            let (from, to) = (corner(bulge), corner(0.0));
            let edge = Outline { corners: vec![from, to] }.segments().next().unwrap();
            let mut long = 0.0;
            for step in 0..=200 {
                let share = f64::from(step) / 200.0;
                let place = on_edge(from, to, share);
                assert_near(distance(edge.at(share), place), 0.0, 1e-7, "a point of the edge");
                assert_near(distance(edge.reversed().at(1.0 - share), place), 0.0, 1e-7, "and of it reversed");
                long += if step > 0 { distance(on_edge(from, to, share - 1.0 / 200.0), place) } else { 0.0 };
            }
            // A chord is short of its arc by a 24th of the square of its turn: 6e-5 for 200 of them.
            assert!(edge.length() >= long - 1e-7 && edge.length() <= long * (1.0 + 6e-5) + 1e-7, "{edge:?}: {long}");
        }
    }
}

/// The nearest place is on the edge, and none of many points is nearer; from straight above and beside a middle too.
#[test]
fn the_nearest_place_of_an_edge_is_nearer_than_all_others() {
    let mut drawn = Seeded(9);
    for sweep in [0.8, -0.8, 2.0, -4.5, 6.0] {
        let centre = [2.0, -3.0];
        let arc = Segment::Arc { centre, radius: 7.0, start: 0.4, sweep };
        let line = Segment::Line { from: arc.at(0.0), to: [-5.0, sweep] };
        let mut eyes: Vec<Point> = (0..100).map(|_| [drawn.between(-15.0, 15.0), drawn.between(-15.0, 15.0)]).collect();
        eyes.extend([
            [2.0, 9.0],
            [2.0, -1.0],
            [2.0, -12.0],
            [2.0, -4.0],
            [12.0, -3.0],
            [3.0, -3.0],
            [-9.0, -3.0],
            centre,
        ]);
        for (edge, eye) in [arc, line].iter().flat_map(|edge| eyes.iter().map(move |eye| (edge, *eye))) {
            let nearest = distance(edge.nearest(eye), eye);
            let all = (0..=3000).map(|step| distance(edge.at(f64::from(step) / 3000.0), eye));
            let least = all.fold(f64::INFINITY, f64::min);
            assert!(nearest <= least + 1e-9 && nearest > least - 1e-3, "{edge:?} from {eye:?}: {nearest}, {least}");
        }
    }
    let spot = Segment::Line { from: [3.0, 4.0], to: [3.0, 4.0] };
    assert_eq!(spot.nearest([9.0, 1.0]), [3.0, 4.0]);
}

#[test]
fn an_arc_is_met_in_the_directions_that_it_has_turned_through() {
    for (start, sweep) in [(0.4, 0.8), (0.4, -0.8), (3.0, 2.0), (-2.0, -4.5), (1.0, 6.0)] {
        let arc = Segment::Arc { centre: [2.0, -3.0], radius: 7.0, start, sweep };
        for step in 0..720 {
            let direction = f64::from(step) * TAU / 720.0 - PI;
            let turned = (f64::signum(sweep) * (direction - start)).rem_euclid(TAU);
            let share = arc.share_of(direction);
            assert_eq!(share.is_some(), turned <= f64::abs(sweep), "{direction} of {sweep} from {start}");
            if let Some(share) = share {
                let place = [2.0 + 7.0 * direction.cos(), -3.0 + 7.0 * direction.sin()];
                assert_near(distance(arc.at(share), place), 0.0, 1e-9, "the place in that direction");
            }
        }
    }
    assert_eq!(Segment::Line { from: [1.0, 1.0], to: [2.0, 3.0] }.share_of(1.0), None);
}

#[test]
fn outlines_have_the_bounds_area_and_length_of_their_points() {
    for outline in shapes() {
        let points = points(&outline, 4000);
        let [low, high] = outline.bounds();
        for axis in 0..2 {
            let all = || points.iter().map(|point| point[axis]);
            assert_near(low[axis], all().fold(f64::INFINITY, f64::min), 1e-5, "lowest");
            assert_near(high[axis], all().fold(f64::NEG_INFINITY, f64::max), 1e-5, "highest");
        }
        let chords = points.iter().zip(points.iter().cycle().skip(1)).map(|(a, b)| distance(*a, *b));
        assert_near(outline.perimeter(), chords.sum(), 1e-4, "perimeter");
        assert_near(outline.area().abs(), area(&points), 1e-4, "area");
        assert_near(outline.reversed().area(), -outline.area(), 1e-9, "area the other way round");
    }
    let sign = shapes().map(|outline| outline.area().signum());
    assert_eq!(sign, [1.0, 1.0, -1.0, -1.0], "counter-clockwise is positive");
}

/// Where each point of an outline goes, and that the way round stays.
#[test]
fn outlines_move_and_mirror_with_all_their_points() {
    for outline in shapes() {
        let moved = outline.moved([4.5, -2.25]);
        let mirrored = outline.mirrored();
        assert_near(mirrored.area(), outline.area(), 1e-9, "the way round of the mirror image");
        for [x, y] in points(&outline, 30) {
            for (image, place) in [(&moved, [x + 4.5, y - 2.25]), (&mirrored, [-x, y]), (&outline.reversed(), [x, y])] {
                assert_near(distance(image.nearest(place), place), 0.0, 1e-9, "a point's image");
            }
        }
    }
}

/// A chord lies inside a lens and outside a crescent, however rounding puts a point of it beside it.
#[test]
fn what_lies_on_an_arcs_chord_is_inside_or_outside_as_the_rest_is() {
    let mut drawn = Seeded(12);
    for _ in 0..300 {
        let from = [drawn.between(-9.0, 9.0), drawn.between(-9.0, 9.0)];
        let (way, long) = (drawn.between(0.0, TAU), drawn.between(1.0, 20.0));
        let to = [from[0] + long * way.cos(), from[1] + long * way.sin()];
        for (bulge, back, is_in) in [(1.0, 0.3, true), (0.4, 0.7, true), (1.0, -0.5, false), (0.6, -0.2, false)] {
            let outline = shape(&[[from[0], from[1], bulge], [to[0], to[1], back]]);
            for step in 1..20 {
                let share = f64::from(step) / 20.0;
                let point = [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
                assert_eq!(outline.contains(point), is_in, "{point:?} in {outline:?}");
                assert_eq!(outline.reversed().contains(point), is_in, "{point:?} in {outline:?} reversed");
            }
        }
    }
}

/// Few arcs, none of more than half a turn, and no edge without length.
#[test]
fn outlines_of_discs_have_no_corner_too_many() {
    for (discs, arcs, lines) in [
        (vec![Disc::new(3.0, 1.0, 5.0)], 3, 0),
        (vec![Disc::new(3.0, 1.0, 5.0), Disc::new(4.0, 2.0, 1.0)], 3, 0),
        (vec![Disc::new(3.0, 1.0, 5.0), Disc::new(20.0, 2.0, 5.0)], 4, 2),
        (vec![Disc::new(3.0, 1.0, 5.0), Disc::new(20.0, 2.0, 0.0)], 2, 2),
        (vec![Disc::new(0.0, 0.0, 0.0), Disc::new(9.0, 0.0, 0.0), Disc::new(5.0, 7.0, 0.0)], 0, 3),
    ] {
        let outline = Outline::of_discs(&discs);
        let edges: Vec<Segment> = outline.segments().collect();
        let bent = edges.iter().filter(|edge| matches!(edge, Segment::Arc { .. })).count();
        assert_eq!((bent, edges.len() - bent), (arcs, lines), "{discs:?}: {edges:?}");
        assert!(edges.iter().all(|edge| edge.length() > 1e-6), "{edges:?}");
        assert!(outline.corners.iter().all(|corner| corner.bulge <= 1.0), "half a turn at most");
    }
    let circle = Outline::circle([3.0, 1.0], 5.0);
    assert_eq!(circle.bounds(), Outline::of_discs(&[Disc::new(3.0, 1.0, 5.0)]).bounds());
    assert_near(circle.area(), PI * 25.0, 1e-9, "area");
}

/// A plate of 40 by 30 with two windows, by hand.
#[test]
fn pieces_know_their_edges_and_windows() {
    let plate = Outline::polygon(&[[1.0, 2.0], [41.0, 2.0], [41.0, 32.0], [1.0, 32.0]]);
    let windows = vec![Outline::circle([12.0, 12.0], 5.0).reversed(), Outline::circle([30.0, 22.0], 3.0).reversed()];
    let piece = Region { outer: plate, windows };
    assert_near(piece.area(), 1200.0 - PI * 34.0, 1e-9, "area");
    for (point, is_in, edge) in [
        ([12.0, 13.0], false, 4.0),
        ([20.0, 12.0], true, 3.0),
        ([30.0, 17.5], true, 1.5),
        ([31.0, 22.0], false, 2.0),
        ([39.0, 8.0], true, 2.0),
        ([46.0, 8.0], false, 5.0),
        ([20.0, 4.0], true, 2.0),
    ] {
        let by = [7.5, -11.0];
        for (piece, point) in [
            (piece.clone(), point),
            (piece.moved(by), [point[0] + by[0], point[1] + by[1]]),
            (piece.mirrored(), [-point[0], point[1]]),
        ] {
            assert_eq!(piece.contains(point), is_in, "{point:?}");
            assert_near(distance(piece.nearest_edge(point), point), edge, 1e-9, "to the edge");
            assert_near(piece.area(), 1200.0 - PI * 34.0, 1e-9, "area");
        }
    }
    assert_eq!(piece.segments().count(), 4 + 3 + 3);
}

/// An L with a sharp and one with a round inner corner, a window's corners, and edges that run on without one.
#[test]
fn inner_corners_and_fillets_are_where_material_turns_inwards() {
    let region = |outer: Outline| Region { outer, windows: Vec::new() };
    let sharp = shape(&[
        [0.0, 0.0, 0.0],
        [30.0, 0.0, 0.0],
        [30.0, 8.0, 0.0],
        [12.0, 8.0, 0.0],
        [12.0, 25.0, 0.0],
        [0.0, 25.0, 0.0],
    ]);
    assert_eq!(inner_corners(&region(sharp.clone())), [[12.0, 8.0]]);
    assert!(fillets(&region(sharp.clone())).is_empty());
    // A quarter of a circle of radius 4, clockwise, between (16, 8) and (12, 12).
    let quarter = (PI / 8.0).tan();
    let rounded = |bulge: f64| {
        let mut corners = sharp.corners.clone();
        corners[3] = Corner { x: 16.0, y: 8.0, bulge };
        corners.insert(4, Corner { x: 12.0, y: 12.0, bulge: 0.0 });
        region(Outline { corners })
    };
    let round = rounded(-quarter);
    assert!(inner_corners(&round).is_empty());
    let found = fillets(&round);
    assert_eq!(found.len(), 1);
    assert_near(found[0].1, 4.0, 1e-9, "radius");
    assert_near(distance(found[0].0, [16.0, 12.0]), 0.0, 1e-9, "middle");
    // Too flat a round leaves a corner at both of its ends, and so does a straight cut; a bump two deeper ones.
    for bulge in [-quarter / 2.0, 0.0, quarter] {
        let corners = inner_corners(&rounded(bulge));
        assert_eq!(corners.len(), 2, "{bulge}");
        assert!(distance(corners[0], [16.0, 8.0]) < 1e-9 && distance(corners[1], [12.0, 12.0]) < 1e-9, "{corners:?}");
    }
    // About a window material turns inwards at every corner but one that points into the window.
    let open = Outline::polygon(&[[3.0, 3.0], [9.0, 3.0], [6.0, 4.5], [9.0, 7.0]]).reversed();
    let with_window = Region { windows: vec![open], ..round.clone() };
    assert_eq!(with_window.windows[0].area().signum(), -1.0);
    let mut corners = inner_corners(&with_window);
    corners.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    assert_eq!(corners, [[3.0, 3.0], [9.0, 3.0], [9.0, 7.0]]);
    let round_window = Region { windows: vec![Outline::circle([6.0, 6.0], 2.0).reversed()], ..round };
    assert!(inner_corners(&round_window).is_empty());
    let radii: Vec<f64> = fillets(&round_window).iter().map(|(_, radius)| *radius).collect();
    assert_eq!(radii.len(), 4);
    assert!(radii[1..].iter().all(|radius| (radius - 2.0).abs() < 1e-9));
}
