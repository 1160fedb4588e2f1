//! Gaps against closed forms, and what the search over directions goes by.

#![allow(clippy::unwrap_used, reason = "a test that finds no gap should stop")]

use super::super::parting::square_to;
use super::super::parting::tests::everywhere;
use super::super::{Disc, Slab, Spool};
use super::*;

fn disc(back: f64, up: f64, radius: f64) -> Solid {
    Slab { discs: vec![Disc::new(back, up, radius)], low: -50.0, high: 50.0 }.into()
}

fn cylinder(start: [f64; 3], axis: Vector, radius: f64) -> Solid {
    Spool::cylinder(Vector::new(start[0], start[1], start[2]), axis, 400.0, radius).into()
}

fn block(low: [f64; 3], high: [f64; 3]) -> Solid {
    let corners = [(low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1])];
    let discs = corners.map(|(back, up)| Disc::new(back, up, 0.0)).to_vec();
    Slab { discs, low: low[2], high: high[2] }.into()
}

/// The tube's end stands on the rim of the eye.
#[test]
fn solids_that_touch_in_a_point_are_told_apart_by_a_direction() {
    let eye = Slab { discs: vec![Disc::new(0.0, 0.0, 20.0)], low: 50.0, high: 56.0 }.into();
    let tube = Spool::cylinder(Vector::new(0.0, 20.0, 54.1425), Vector::Y, 300.0, 15.875).into();
    for (first, second) in [(&tube, &eye), (&eye, &tube)] {
        let found = gap(first, second).unwrap();
        assert_eq!(found.distance, 0.0);
        assert!((found.normal.length() - 1.0).abs() < 1e-12, "{:?}", found.normal);
        assert!((separation(first, second, found.normal) - found.distance).abs() <= CERTIFIED_GAP);
    }
}

/// A rotor of no thickness lies on a drum's end.
#[test]
fn faces_that_touch_touch_whichever_comes_first() {
    let flat = Spool { ends: [Vector::new(0.0, 0.0, 5.6e-7); 2], axis: Vector::X, radii: [334.0, 259.0] }.into();
    let drum = Spool::cylinder(Vector::new(0.0, -400.0, -400.0), Vector::X, 400.0, 400.0).into();
    for (first, second) in [(&flat, &drum), (&drum, &flat)] {
        assert_eq!(gap(first, second).unwrap().distance, 0.0);
    }
}

/// Closed forms: centre distance less radii, face distances, corner distances; each with its depth.
#[test]
fn gaps_and_depths_match_closed_forms() {
    let half = std::f64::consts::FRAC_1_SQRT_2;
    let cases = [
        ("discs apart", disc(0.0, 0.0, 10.0), disc(30.0, 40.0, 15.0), 25.0),
        ("discs touching", disc(0.0, 0.0, 10.0), disc(30.0, 40.0, 40.0), 0.0),
        ("disc into disc", disc(0.0, 0.0, 10.0), disc(12.0, 5.0, 8.0), -5.0),
        (
            "parallel cylinders apart",
            cylinder([0.0, 0.0, 0.0], Vector::Y, 9.0),
            cylinder([30.0, 0.0, 40.0], Vector::Y, 7.0),
            34.0,
        ),
        (
            "parallel cylinders overlapping",
            cylinder([0.0, 0.0, 0.0], Vector::Y, 9.0),
            cylinder([6.0, 0.0, 8.0], Vector::Y, 7.0),
            -6.0,
        ),
        (
            "crossed cylinders apart",
            cylinder([-200.0, 0.0, 0.0], Vector::X, 9.0),
            cylinder([0.0, -200.0, 30.0], Vector::Y, 7.0),
            14.0,
        ),
        (
            "crossed cylinders overlapping",
            cylinder([-200.0, 0.0, 0.0], Vector::X, 9.0),
            cylinder([0.0, -200.0, 12.0], Vector::Y, 7.0),
            -4.0,
        ),
        ("box corner to box corner", block([0.0; 3], [10.0; 3]), block([12.0, 13.0, 16.0], [20.0; 3]), 7.0),
        ("box into box by its thinnest side", block([0.0; 3], [10.0; 3]), block([8.0, 7.0, 6.0], [20.0; 3]), -2.0),
        ("box corner to cylinder", block([0.0; 3], [10.0; 3]), cylinder([13.0, -200.0, 14.0], Vector::Y, 2.0), 3.0),
        (
            "tilted cylinder over a face",
            block([-50.0, -50.0, -10.0], [50.0, 50.0, 0.0]),
            cylinder([0.0, 0.0, 20.0], Vector::new(half, 0.0, half), 5.0),
            20.0 - 5.0 * half,
        ),
    ];
    for (what, first, second, expected) in cases {
        for (first, second) in [(&first, &second), (&second, &first)] {
            let found = gap(first, second).unwrap();
            assert!((found.distance - expected).abs() < 1e-4, "{what}: {} instead of {expected}", found.distance);
            let searched = search(first, second, &[]).unwrap();
            assert!(
                (searched.distance - expected).abs() < 1e-6,
                "{what}, by search: {} instead of {expected}",
                searched.distance
            );
            let between = (found.points[1] - found.points[0]).length();
            assert!((between - expected.abs()).abs() < 1e-3, "{what}: the points are {between} apart");
        }
    }
}

/// Solids of every kind that lie askew, none like another.
fn askew() -> Vec<Solid> {
    let hull = |discs: &[[f64; 3]], low, high| {
        let discs = discs.iter().map(|&[back, up, radius]| Disc::new(back, up, radius)).collect();
        Solid::from(Slab { discs, low, high })
    };
    let spool = |start: [f64; 3], axis: [f64; 3], length: f64, radii: [f64; 2]| {
        let [start, axis] = [start, axis].map(|[x, y, z]| Vector::new(x, y, z));
        let axis = axis.normalize();
        Solid::from(Spool { ends: [start, start + axis * length], axis, radii })
    };
    vec![
        hull(&[[3.0, -4.0, 2.5], [17.0, 9.0, 6.0], [-8.0, 21.0, 1.0]], -3.0, 8.0),
        hull(&[[40.0, 31.0, 0.0], [62.0, 28.0, 0.0], [55.0, 47.0, 0.0], [43.0, 44.0, 0.0]], 4.0, 19.0),
        hull(&[[9.0, 2.0, 7.0]], 5.0, 11.0),
        spool([25.0, -30.0, 14.0], [0.0, 1.0, 0.0], 90.0, [8.0, 8.0]),
        spool([-6.0, 12.0, 30.0], [0.3, -0.5, 0.8], 45.0, [4.0, 7.5]),
        spool([70.0, 10.0, -20.0], [-0.9, 0.4, 0.35], 60.0, [3.0, 3.0]),
        spool([12.0, 14.0, 2.0], [0.0, 0.0, 1.0], 25.0, [5.0, 11.0]),
    ]
}

fn pairs(solids: &[Solid]) -> impl Iterator<Item = [&Solid; 2]> {
    solids.iter().flat_map(move |first| solids.iter().map(move |second| [first, second]))
}

#[test]
fn no_direction_parts_two_solids_further_than_their_gap() {
    for [first, second] in pairs(&askew()) {
        let found = gap(first, second).unwrap();
        assert!((separation(first, second, found.normal) - found.distance).abs() <= CERTIFIED_GAP);
        for normal in everywhere() {
            let parted = separation(first, second, normal);
            assert!(
                parted <= found.distance + CERTIFIED_GAP,
                "{first:?} and {second:?}: {parted} along {normal}, {found:?}"
            );
        }
    }
}

/// Two equal cones on one axis, tip to tip, as flat as a needle is thin. Apart, the tips are nearest; overlapping, the shortest
/// way out is square to their sides, by the cosine of their slope.
#[test]
fn the_search_finds_its_way_between_solids_of_next_to_no_thickness() {
    for axis in [Vector::Z, Vector::Y, Vector::new(0.36, -0.48, 0.8), Vector::new(-0.6, 0.0, 0.8)] {
        for (radius, height) in [(400.0, 1e-6), (400.0, 1e-3), (80.0, 0.5), (10.0, 10.0), (1.0, 400.0)] {
            for distance in [30.0, 1e-6, 0.0, -1e-6, -0.4 * f64::min(height, radius)] {
                let tips = [Vector::new(7.0, -3.0, 11.0), Vector::new(7.0, -3.0, 11.0) + axis * distance];
                let first = Spool { ends: [tips[0] - axis * height, tips[0]], axis, radii: [radius, 0.0] }.into();
                let second = Spool { ends: [tips[1], tips[1] + axis * height], axis, radii: [0.0, radius] }.into();
                let expected = if distance < 0.0 { distance * radius / radius.hypot(height) } else { distance };
                for (one, two) in [(&first, &second), (&second, &first)] {
                    let found = search(one, two, &[]).unwrap();
                    let what = format!("{found:?} instead of {expected}: {first:?} and {second:?}");
                    // A direction closer to an axis than 1e-8 counts as along it.
                    assert!((found.distance - expected).abs() < 2e-5, "{what}");
                    assert!((gap(one, two).unwrap().distance - expected).abs() <= CERTIFIED_GAP, "{what}");
                }
            }
        }
    }
}

/// The search knows nothing of how the gap was found.
#[test]
fn the_search_comes_to_the_same_gap() {
    for [first, second] in pairs(&askew()) {
        let (expected, found) = (gap(first, second).unwrap(), search(first, second, &[]).unwrap());
        let what = format!("{first:?} and {second:?}: {found:?}, {expected:?}");
        // What was certified is a lower bound itself, and the search looks as far as a number's digits go.
        assert!((-1e-6..=CERTIFIED_GAP).contains(&(found.distance - expected.distance)), "{what}");
        assert!((found.normal.length() - 1.0).abs() < 1e-12 && found.method == Method::Search, "{what}");
        assert!((separation(first, second, found.normal) - found.distance).abs() < 1e-12, "{what}");
        assert!((found.points[1] - found.points[0] - found.normal * found.distance).length() < 1e-12, "{what}");
        let on_first = found.points[0];
        assert!((on_first.dot(found.normal) - first.local_support_point(found.normal).dot(found.normal)).abs() < 1e-9);
        // From a hint that is right already, too.
        let hinted = search(first, second, &[expected.normal]).unwrap();
        assert!((hinted.distance - expected.distance).abs() <= CERTIFIED_GAP, "{what}, hinted {hinted:?}");
    }
}

#[test]
fn a_gap_alone_is_that_with_points_whichever_comes_first_and_wherever_it_starts() {
    for [first, second] in pairs(&askew()) {
        let expected = gap(first, second).unwrap();
        for start in [Vector::X, -Vector::Z, Vector::new(0.6, -0.48, 0.64), expected.normal] {
            let (distance, normal) = distance_near(first, second, start).unwrap();
            let what = format!("{first:?} and {second:?} from {start}: {distance} along {normal}, {expected:?}");
            assert!((distance - expected.distance).abs() <= CERTIFIED_GAP, "{what}");
            assert!((separation(first, second, normal) - distance).abs() <= CERTIFIED_GAP, "{what}");
            if expected.method == Method::Exact {
                assert_eq!((distance, normal), (expected.distance, expected.normal), "{what}");
            }
            if let Some(apart) = distance_apart(first, second, start) {
                assert!((apart - expected.distance.max(0.0)).abs() <= 2.0 * CERTIFIED_GAP, "{what}, {apart} apart");
            }
        }
        let back = gap(second, first).unwrap();
        assert!((back.distance - expected.distance).abs() <= CERTIFIED_GAP);
        assert_eq!(expected.method == Method::Exact, back.method == Method::Exact);
    }
}

#[test]
fn solids_well_apart_have_a_distance_from_any_start() {
    let solids = askew();
    let mut apart = 0;
    for [first, second] in pairs(&solids) {
        let expected = gap(first, second).unwrap();
        if expected.distance > 1.0 {
            apart += 1;
            let found = distance_apart(first, second, Vector::Y).unwrap();
            assert!((found - expected.distance).abs() <= CERTIFIED_GAP, "{found}, {expected:?}");
        } else if expected.distance < -1.0 {
            assert_eq!(distance_apart(first, second, Vector::Y), Some(0.0), "{first:?} and {second:?}");
        }
    }
    assert!(apart > 10, "{apart}");
}

/// Faces, edges and axes have normals of their own, which an iteration that ends a hair beside them is brought to.
#[test]
fn a_normal_a_hair_beside_a_natural_one_is_brought_to_it() {
    let solids = askew();
    let [hull, block, ..] = &solids[..] else { return };
    let tube = &solids[3];
    let leaning = &solids[5];
    let edge = Vector::new(44.0 - 47.0, 43.0 - 55.0, 0.0).normalize();
    let Solid::Spool(rod) = leaning else { return };
    let across = Vector::Y.cross(rod.axis).normalize();
    let ahead = Vector::new(1.0, 0.0, 0.0);
    for (what, first, second, natural) in [
        ("a slab's face", hull, leaning, Vector::Z),
        ("a tube's axis", tube, hull, Vector::Y),
        ("a tube's axis, the other way", tube, hull, -Vector::Y),
        ("a rod's axis", hull, leaning, rod.axis),
        ("square to a tube", tube, block, ahead),
        ("an edge of the first", block, tube, -edge),
        ("an edge of the second", tube, block, edge),
        ("square to both axes", tube, leaning, across),
        ("square to both axes, the other way", tube, leaning, -across),
    ] {
        let (side, other) = square_to(natural);
        for (one, two) in [(1e-4, 0.0), (0.0, 1e-4), (-7e-5, 7e-5)] {
            let beside = (natural + side * one + other * two).normalize();
            let (normal, best) = snapped(first, second, beside);
            let wanted = separation(first, second, natural);
            assert!(best >= wanted - 1e-12, "{what}: {best} along {normal}, {wanted} along {natural}");
            assert!(best >= separation(first, second, beside));
            assert!((separation(first, second, normal) - best).abs() < 1e-12 && (normal.length() - 1.0).abs() < 1e-9);
        }
    }
}

#[test]
fn a_solid_s_middle_lies_in_it() {
    for solid in askew() {
        let middle = middle(&solid);
        for normal in everywhere() {
            let reach = solid.local_support_point(normal).dot(normal);
            assert!(middle.dot(normal) < reach - 0.5, "{middle} is not well inside {solid:?}");
        }
    }
    // By hand.
    let slab = Slab { discs: vec![Disc::new(1.0, 2.0, 4.0), Disc::new(7.0, 12.0, 1.0)], low: 3.0, high: 8.0 };
    assert_eq!(middle(&slab.into()), Vector::new(4.0, 7.0, 5.5));
    let spool =
        Spool { ends: [Vector::new(1.0, 2.0, 3.0), Vector::new(1.0, 2.0, 13.0)], axis: Vector::Z, radii: [1.0, 2.0] };
    assert_eq!(middle(&spool.into()), Vector::new(1.0, 2.0, 8.0));
}
