//! How the pads move: the work that loads do, each on the other's way.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

use tabwright_core::fit::{CaliperFrame, tangential};
use tabwright_core::load::{
    Carried, Line, Plate, Push, Region, Section, Statics, bolt_points, brake_case, hull_outline, pad_motion, share,
    strength, travel,
};
use tabwright_core::solid::{Disc, Vector};
use tabwright_core::{MatingFace, Setup};
use tabwright_tests::assert_near;
use tabwright_tests::loaded::{plate_of, setups};

/// The plate with the caliper's load alone.
fn caliper_alone(setup: &Setup) -> Plate {
    let mut plate = plate_of(setup);
    plate.loads[0].push = Push::at(plate.loads[0].push.point, Vector::ZERO);
    plate
}

/// Clapeyron: the pads' force goes half the way along which it moves; Maxwell: and as far sideways along the rotor as a
/// force sideways would move it along. A turn is the difference of two motions sideways over their distance.
#[test]
fn the_pads_move_as_the_work_done_says() {
    for setup in setups() {
        let strength = strength(&setup);
        let plate = caliper_alone(&setup);
        let motion = pad_motion(&setup, &plate, &strength).unwrap();
        let statics = Statics::of(&setup, &brake_case(&setup));
        let work = travel(&plate, &plate, &strength);
        assert_near(-motion.along * statics.pad_force, work, 1e-9 * work, "work of the pad force");
        let frame = CaliperFrame::of(&setup);
        let bolts = bolt_points(&setup);
        let axis = if setup.caliper.mating_face == MatingFace::Outer { Vector::Z } else { Vector::Z * -1.0 };
        let sideways = |from_middle: Vector| {
            let mut units = plate.clone();
            let unit = share(bolts, axis, Push::at(frame.origin + from_middle, Vector::Z));
            units.loads.iter_mut().skip(1).zip(unit).for_each(|(load, unit)| load.push = unit);
            travel(&plate, &units, &strength)
        };
        let middle = sideways(Vector::ZERO);
        assert_near(motion.sideways, middle, 1e-9 * middle.abs(), "sideways");
        // Turned about the way out, what lies along the rotor falls back sideways; turned about the way along, what lies
        // further out comes forward.
        let (along, out) = (tangential(setup.tab.clock), frame.rad);
        let far = |way: Vector| (sideways(way * 20.0) - middle) / 20.0;
        assert_near(far(along), motion.yaw.to_radians() * out.cross(along).z, 1e-9, "yaw");
        assert_near(far(out), motion.roll.to_radians() * along.cross(out).z, 1e-9, "roll");
        assert!(motion.yaw != 0.0 && motion.roll != 0.0 && motion.sideways != 0.0);
    }
}

/// What one load does two halves of it do; a way that both take counts once.
#[test]
fn two_halves_of_a_load_do_its_work() {
    let strength = strength(&Setup::default());
    let outline = hull_outline(&[Disc::new(-5.0, 0.0, 9.0), Disc::new(70.0, 4.0, 6.0)]);
    let push = Push {
        moment: Vector::new(500.0, -80.0, 60.0),
        ..Push::at(Vector::new(66.0, 3.0, 4.0), Vector::new(90.0, -40.0, 25.0))
    };
    let half = Push { force: push.force * 0.5, moment: push.moment * 0.5, ..push };
    let with = |pushes: &[Push], way: &[[f64; 2]]| Plate {
        region: Region { outlines: vec![outline.clone()], ..Region::default() },
        thickness: 5.0,
        dropout_out: 0.0,
        tab_out: 1.0,
        loads: pushes
            .iter()
            .map(|push| Carried { push: *push, way: way.to_vec(), spread: 2.0, from_caliper: true })
            .collect(),
        held: vec![[[0.0, -5.0], [0.0, 5.0]]],
        web: None,
    };
    let straight = [[66.0, 3.0], [0.0, 0.0]];
    let (one, two) = (with(&[push], &straight), with(&[half, half], &straight));
    let work = travel(&one, &one, &strength);
    assert_near(travel(&two, &two, &strength) / work, 1.0, 1e-12, "two halves");
    // The same way in two straight stretches, each with stations of its own: a hair's difference.
    let bent = with(&[push], &[[66.0, 3.0], [22.0, 1.0], [0.0, 0.0]]);
    assert_near(travel(&bent, &bent, &strength) / work, 1.0, 1e-4, "two stretches");
    // By hand, a fine sum over the way of the sections square to it.
    let (back, up) = (-66.0_f64, -3.0_f64);
    let long = back.hypot(up);
    let fine = 2000;
    let sum: f64 = (0..fine)
        .map(|index| {
            let share = (f64::from(index) + 0.5) / f64::from(fine);
            let point = [66.0 + back * share, 3.0 + up * share];
            let chord = one.chord_about(&Line::new(point, back.atan2(-up)), point).unwrap();
            let section = Section::of(&chord, 5.0, 1.0);
            section.flexibility(&[push], &[push], strength.young, strength.shear) * long / f64::from(fine)
        })
        .sum();
    assert_near(work / sum, 1.0, 2e-3, "a fine sum");
}
