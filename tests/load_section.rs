//! A cut by itself: what it bears of each force and moment, by hand.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

use tabwright_core::load::{Chord, Line, Push, Section, rectangle_torsion, rectangle_twist_stress};
use tabwright_core::solid::Vector;
use tabwright_tests::assert_near;

const THICKNESS: f64 = 6.0;

/// A cut at 0.7 rad of pieces along its line, in a plate whose middle is 4 mm out.
fn cut(pieces: &[[f64; 2]]) -> Section {
    let line = Line::new([12.0, -7.0], 0.7);
    let ends = [pieces[0][0], pieces[pieces.len() - 1][1]];
    Section::of(&Chord { line, ends, pieces: pieces.to_vec() }, THICKNESS, 4.0)
}

/// The section's own directions: along the cut, square to it, out of the plate.
fn ways() -> [Vector; 3] {
    let (sin, cos) = 0.7_f64.sin_cos();
    [Vector::new(cos, sin, 0.0), Vector::new(-sin, cos, 0.0), Vector::Z]
}

/// Forces along the cut, square to it and out, and moments about the same, at the section's middle.
fn load(section: &Section, force: [f64; 3], moment: [f64; 3]) -> [Push; 1] {
    let of = |parts: [f64; 3]| ways().into_iter().zip(parts).fold(Vector::ZERO, |sum, (way, part)| sum + way * part);
    [Push { point: section.centroid, force: of(force), moment: of(moment) }]
}

/// Two rectangles, 10 and 4 long, by hand: middles at 5 and 20, together at 65 / 7.
#[test]
fn two_pieces_have_the_middle_and_inertia_by_hand() {
    let section = cut(&[[0.0, 10.0], [18.0, 22.0]]);
    let middle = (10.0 * 5.0 + 4.0 * 20.0) / 14.0;
    let [along, ..] = ways();
    let expected = Vector::new(12.0, -7.0, 4.0) + along * middle;
    assert!((section.centroid - expected).length() < 1e-9);
    assert_near(section.area, 14.0 * 6.0, 1e-9, "area");
    let steiner = |at: f64, long: f64| 6.0 * (long * long * long / 12.0 + long * (at - middle) * (at - middle));
    assert_near(section.in_plane, steiner(5.0, 10.0) + steiner(20.0, 4.0), 1e-9, "in the plane");
    assert_near(section.of_plate, 14.0 * 216.0 / 12.0, 1e-9, "of the plate");
    let torsion = rectangle_torsion(10.0, 6.0) + rectangle_torsion(4.0, 6.0);
    assert_near(section.torsion, torsion, 1e-9, "torsion");
}

#[test]
fn a_load_is_told_in_the_cuts_own_directions() {
    let section = cut(&[[-8.0, 3.0]]);
    let found = section.resultant(&load(&section, [11.0, 13.0, 17.0], [19.0, 23.0, 29.0]));
    let told = [found.shear, found.direct, found.lateral, found.of_plate, found.twist, found.in_plane];
    for (told, expected) in told.into_iter().zip([11.0, 13.0, 17.0, 19.0, 23.0, 29.0]) {
        assert_near(told, expected, 1e-9, "a part");
    }
    // Two millimetres further along, 13 N square to the cut make 26 N·mm more in the plane, 17 N out 34 less about the cut's
    // normal.
    let mut further = load(&section, [11.0, 13.0, 17.0], [0.0; 3]);
    further[0].point += ways()[0] * 2.0;
    let found = section.resultant(&further);
    assert_near(found.in_plane, 26.0, 1e-9, "in the plane");
    assert_near(found.twist, -34.0, 1e-9, "twist");
    assert_near(found.of_plate, 0.0, 1e-9, "of the plate");
}

/// The unit-load method, term by term: N n / E A, 6/5 V v / G A, M m / E I, T t / G J; no force works on another's way.
#[test]
fn each_force_works_on_its_own_way_alone() {
    let section = cut(&[[0.0, 9.0], [14.0, 30.0]]);
    let (young, shear) = (70_000.0, 27_000.0);
    let pieces = [section.area * shear / 1.2, section.area * young, section.area * shear / 1.2];
    let turns = [section.of_plate * young, section.torsion * shear, section.in_plane * young];
    let stiffness = [pieces, turns].concat();
    let one = |index: usize, size: f64| {
        let mut parts = [[0.0; 3]; 2];
        parts[index / 3][index % 3] = size;
        load(&section, parts[0], parts[1])
    };
    for (index, stiffness) in stiffness.iter().enumerate() {
        for other in 0..6 {
            let found = section.flexibility(&one(index, 300.0), &one(other, 7.0), young, shear);
            let expected = if other == index { 2100.0 / stiffness } else { 0.0 };
            assert_near(found, expected, 1e-12 * 2100.0, &format!("{index} on the way of {other}"));
            assert!(other != index || (found / expected - 1.0).abs() < 1e-9, "{found} for {expected}");
        }
    }
}

/// Timoshenko and Goodier, torsion of rectangular bars, from memory: in the middle of the shorter side the stress is as
/// large as on the longer of a square, 0.796 of it at 2 to 1, 0.745 at 4 to 1. Shear square to the plate comes on top there.
#[test]
fn in_the_middle_of_the_ends_torsion_meets_shear_square_to_the_plate() {
    for (long, share) in [(6.0, 1.0), (12.0, 0.796), (24.0, 0.745)] {
        let section = cut(&[[0.0, long]]);
        let (twist, lateral, pull) = (9000.0, 40_000.0, 3000.0);
        let stress = section.stress(&load(&section, [0.0, pull, lateral], [0.0, twist, 0.0]));
        let longer = twist * rectangle_twist_stress(long, THICKNESS);
        let (across, normal) = (1.5 * lateral / section.area, pull / section.area);
        let whole = (normal * normal + 3.0 * (share * longer + across).powi(2)).sqrt();
        assert_near(stress.von_mises, whole, 0.003 * whole, &format!("{long} long"));
        assert_near(stress.twist, longer, 1e-9, "torsion");
        assert_near(stress.shear, across, 1e-9, "shear");
        assert_near(stress.direct, normal, 1e-9, "pull");
    }
    // A stub half as long as it is thick has its longer sides at the ends.
    let stub = cut(&[[0.0, 3.0]]);
    let stress = stub.stress(&load(&stub, [0.0, 0.0, 2000.0], [0.0, 500.0, 0.0]));
    let whole = 3.0_f64.sqrt() * (500.0 * rectangle_twist_stress(3.0, 6.0) + 1.5 * 2000.0 / 18.0);
    assert_near(stress.von_mises, whole, 1e-9 * whole, "a stub");
}

/// In the middle of the faces torsion, shear along the cut, the plate's bending and pull come together.
#[test]
fn in_the_middle_of_the_faces_torsion_meets_shear_along_the_cut() {
    let section = cut(&[[0.0, 20.0]]);
    let (along, pull, bends, twist) = (30_000.0, 5000.0, 2000.0, 8000.0);
    let stress = section.stress(&load(&section, [along, pull, 0.0], [bends, twist, 0.0]));
    let normal = pull / 120.0 + 6.0 * bends / (20.0 * 36.0);
    let shear = twist * rectangle_twist_stress(20.0, 6.0) + 1.5 * along / 120.0;
    let whole = (normal * normal + 3.0 * shear * shear).sqrt();
    assert_near(stress.von_mises, whole, 1e-9 * whole, "von Mises");
    assert_near(stress.of_plate, 6.0 * bends / (20.0 * 36.0), 1e-9, "bending of the plate");
    assert_near(stress.shear, 1.5 * along / 120.0, 1e-9, "shear");
    // On a stub those faces are the shorter sides: half as long as thick, 0.796 of the longer's stress.
    let stub = cut(&[[0.0, 3.0]]);
    let stress = stub.stress(&load(&stub, [9000.0, 0.0, 0.0], [0.0, 500.0, 0.0]));
    let whole = 3.0_f64.sqrt() * (0.796 * 500.0 * rectangle_twist_stress(3.0, 6.0) + 1.5 * 9000.0 / 18.0);
    assert_near(stress.von_mises, whole, 0.002 * whole, "a stub");
}

/// Beside a hole the far end of the longer arm bears most of the bending, M c / I from the common middle; torsion goes to
/// the pieces by their stiffness.
#[test]
fn pieces_beside_a_hole_share_bending_and_torsion() {
    for pieces in [[[0.0, 10.0], [18.0, 22.0]], [[-22.0, -18.0], [-10.0, 0.0]]] {
        let section = cut(&pieces);
        let middle = (10.0 * 5.0 + 4.0 * 20.0) / 14.0;
        let far = 22.0 - middle;
        for (moment, pull) in [(50_000.0, 2000.0), (-50_000.0, 2000.0), (-50_000.0, -2000.0)] {
            let stress = section.stress(&load(&section, [0.0, pull, 0.0], [0.0, 0.0, moment]));
            let bending = 50_000.0 * far / section.in_plane;
            assert_near(stress.in_plane, bending, 1e-9 * bending, "at the far end");
            // Where bending at the far end is against the pull, the near end at 65 / 7 may bear more.
            let ends = [[far, -middle], [-far, middle]][usize::from(pieces[0][0] < 0.0)];
            let at = |end: f64| (pull / 84.0 + moment * end / section.in_plane).abs();
            let most = at(ends[0]).max(at(ends[1]));
            assert_near(stress.von_mises, most, 1e-9 * most, "von Mises");
        }
        let stress = section.stress(&load(&section, [0.0; 3], [0.0, 4000.0, 0.0]));
        let share = |long: f64| {
            let part = 4000.0 * rectangle_torsion(long, 6.0) / section.torsion;
            part * rectangle_twist_stress(long, 6.0)
        };
        assert_near(stress.twist, share(10.0).max(share(4.0)), 1e-9, "torsion of the stiffer piece");
    }
}

/// Where shear along the cut decides, it does so in the middle of that piece where bending and pull are one way: by hand.
#[test]
fn shear_beside_a_hole_meets_the_bending_of_its_piece() {
    let section = cut(&[[0.0, 10.0], [18.0, 22.0]]);
    let middle = (10.0 * 5.0 + 4.0 * 20.0) / 14.0;
    for (moment, at) in [(400_000.0, 20.0 - middle), (-400_000.0, 5.0 - middle)] {
        let stress = section.stress(&load(&section, [60_000.0, 20_000.0, 0.0], [0.0, 0.0, moment]));
        let (normal, shear) = (20_000.0 / 84.0 + moment * at / section.in_plane, 1.5 * 60_000.0 / 84.0);
        let other = (20_000.0 / 84.0 + moment * (25.0 - 2.0 * middle - at) / section.in_plane).abs();
        let whole = normal.abs().max(other).hypot(3.0_f64.sqrt() * shear);
        assert_near(stress.von_mises, whole, 1e-9 * whole, "von Mises");
    }
}

/// Nothing at all bears no twist; what is as thin as nothing is not stressed without end.
#[test]
fn a_rectangle_of_nothing_is_no_fault() {
    assert_eq!(rectangle_torsion(0.0, 0.0), 0.0);
    assert_eq!(rectangle_twist_stress(5.0, 0.0), 0.0);
    assert_eq!(rectangle_torsion(5.0, 0.0), 0.0);
}
