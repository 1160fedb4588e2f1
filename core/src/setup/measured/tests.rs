//! Worked by hand.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use super::*;

fn near(found: f64, expected: f64) -> bool {
    (found - expected).abs() < 1e-5
}

/// Worked by hand: pads 30 × 16, so the corners are at (∓15, −8). A hole 24 above the left corner's line and 5 to the
/// left of the left corner is at (−20, 16): 24.515… from the left, and with legs 35 and 24 √1801 from the right. A hole
/// that makes the triangle 7, 24, 25 with the right corner is at (22, 16), with legs 37 and 24 √1945 from the left.
#[test]
fn holes_lie_where_the_two_distances_meet() {
    let setup = Setup::default();
    let measured = CaliperMeasured {
        hole_spacing: 42.0,
        hole_1_left: 601_f64.sqrt(),
        hole_1_right: 1801_f64.sqrt(),
        hole_2_left: 1945_f64.sqrt(),
        hole_2_right: 25.0,
        ..CaliperMeasured::of(&setup)
    };
    let [one, two] = measured.holes(&setup).unwrap();
    assert!(near(one[0], -20.0) && near(one[1], 16.0), "{one:?}");
    assert!(near(two[0], 22.0) && near(two[1], 16.0), "{two:?}");
    assert!(measured.doubt(&setup).is_none());
    // Hole to hole decides how far apart they are: a millimetre more is half of it at each.
    let [one, two] = CaliperMeasured { hole_spacing: 43.0, ..measured.clone() }.holes(&setup).unwrap();
    assert!(near(one[0], -20.5) && near(two[0], 22.5) && near(one[1], 16.0));
    let doubt = CaliperMeasured { hole_spacing: 43.2, ..measured }.doubt(&setup).unwrap();
    assert!(
        doubt.message.contains("Hole to hole is 43.2 mm") && doubt.message.contains("42.0 mm apart"),
        "{}",
        doubt.message
    );
}

#[test]
fn distances_that_cannot_be_together_are_refused_by_name() {
    let setup = Setup::default();
    let measured = CaliperMeasured::of(&setup);
    let short = CaliperMeasured { hole_1_left: 10.0, hole_1_right: 12.0, ..measured.clone() };
    let problems = short.holes(&setup).unwrap_err();
    assert_eq!(problems[0].field, "measured.hole_1_left");
    assert!(problems[0].message.contains("10.0 mm from the left corner and 12.0 mm from the right do not meet: together they are less than the pads' length, 30.0 mm"), "{}", problems[0].message);
    let apart = CaliperMeasured { hole_2_left: 80.0, hole_2_right: 20.0, ..measured };
    let problems = apart.holes(&setup).unwrap_err();
    assert_eq!(problems[0].field, "measured.hole_2_left");
    assert!(problems[0].message.contains("they differ by more than"), "{}", problems[0].message);
}

#[test]
fn measuring_a_measured_caliper_gives_the_same_numbers() {
    for post in [false, true] {
        let mut setup = Setup::default();
        setup.caliper.holes = [[-31.0, 4.5], [19.0, 22.0]];
        if post {
            setup.caliper.mount = Mount::Post;
            setup.caliper.bolt_direction = Some([0.3, -1.0, 0.0]);
        }
        let mut measured = CaliperMeasured::of(&setup);
        (measured.lug_edge, measured.lug_thickness, measured.body_left, measured.halves_top) = (8.0, 11.0, 31.0, 4.0);
        let mut drawn = setup.clone();
        measured.put_into(&mut drawn, true, true).unwrap();
        assert!(drawn.checked().is_ok(), "{:?}", drawn.checked());
        assert!(CaliperMeasured::tells_all_of(&drawn) && !CaliperMeasured::tells_all_of(&setup));
        let (mut again, mut measured) = (CaliperMeasured::of(&drawn), measured);
        for field in CaliperMeasured::TABLE {
            let pair = [&mut again, &mut measured].map(|group| *group::number(group, field.key).unwrap());
            assert!(near(pair[0], pair[1]), "{}: {pair:?}", field.key);
        }
    }
}

/// By hand on the table's default caliper: pads 30 × 16, mating face at 15, lug 10 thick inboard of it.
#[test]
fn bodies_hold_what_was_measured() {
    let mut setup = Setup::default();
    let mut measured = CaliperMeasured::BLANK;
    group::fill(&mut measured);
    let bodies = measured.bodies(&setup, [[-25.5, 26.0], [25.5, 26.0]]).unwrap();
    let [lug, bridge, halves] = &bodies[..] else { panic!("three pieces") };
    assert_eq!(bridge.outline, [[-38.0, 8.0], [38.0, 8.0], [38.0, 36.0], [-38.0, 36.0]]);
    assert_eq!(halves.outline, [[-17.0, -18.0], [17.0, -18.0], [17.0, 14.0], [-17.0, 14.0]]);
    assert_eq!([lug.inboard, lug.outboard, bridge.inboard, bridge.outboard], [-5.0, 15.0, 12.0, 15.0]);
    assert_eq!([halves.inboard, halves.outboard], [12.0, 34.0]);
    assert!(lug.bolted && bridge.bolted && !halves.bolted);
    // No side of the lug comes nearer to a hole than its edge.
    for hole in [[-25.5, 26.0], [25.5, 26.0]] {
        for index in 0..lug.outline.len() {
            let (a, b) = (lug.outline[index], lug.outline[(index + 1) % lug.outline.len()]);
            let cross = (b[0] - a[0]) * (hole[1] - a[1]) - (b[1] - a[1]) * (hole[0] - a[0]);
            assert!(cross / between(a, b) > 9.0 - 1e-5);
        }
    }
    setup.caliper.mating_face = MatingFace::Outer;
    let bodies = measured.bodies(&setup, setup.caliper.holes).unwrap();
    assert_eq!([bodies[0].inboard, bodies[0].outboard, bodies[1].outboard], [-15.0, 25.0, 25.0]);
    (setup.caliper.mount_depth, measured.inboard) = (-40.0, 12.0);
    let problems = measured.bodies(&setup, setup.caliper.holes).unwrap_err();
    assert_eq!(problems[0].field, "measured.inboard");
    (measured.body_left, measured.body_right) = (-20.0, -10.0);
    setup.caliper.mount_depth = 15.0;
    assert_eq!(measured.bodies(&setup, setup.caliper.holes).unwrap_err()[0].field, "measured.body_right");
}

#[test]
fn numbers_are_read_as_strictly_as_a_setup() {
    let measured = CaliperMeasured::of(&Setup::default());
    assert_eq!(CaliperMeasured::read(&Given::from(&measured)).unwrap(), measured);
    let mut wrong = serde_json::to_value(&measured).unwrap();
    wrong["lug_edge"] = "9,x".into();
    wrong["inboard"] = 500.into();
    let problems = CaliperMeasured::read(&(&wrong).into()).unwrap_err();
    let fields: Vec<&str> = problems.iter().map(|problem| problem.field.as_str()).collect();
    assert_eq!(fields, ["measured.lug_edge", "measured.inboard"]);
}

#[test]
fn a_mirrored_caliper_is_the_other_hand() {
    let mut caliper = Setup::default().caliper;
    (caliper.holes, caliper.bolt_direction) = ([[-20.0, 16.0], [22.0, 10.0]], Some([0.5, -1.0, 0.0]));
    let mut other = caliper.clone();
    other.mirror();
    assert_eq!(other.holes, [[-22.0, 10.0], [20.0, 16.0]]);
    assert_eq!(other.line.exit, [24.0, 13.0, 30.0]);
    assert_eq!(other.bolt_direction, Some([-0.5, -1.0, 0.0]));
    assert_eq!(other.bodies[2].outline[0], [-12.0, -8.0]);
    other.mirror();
    assert_eq!(other, caliper);
}
