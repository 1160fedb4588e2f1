//! The part as built against plane geometry, gaps of turned and tilted solids, and the law by which errors add up.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

use std::f64::consts::TAU;

use serde_json::json;
use tabwright_core::build::{AsBuilt, Built, HoleDesign, Reading, TackState};
use tabwright_core::{MatingFace, Setup};
use tabwright_tests::seated::{local, of_angle, seated, times, turned_setup};
use tabwright_tests::tacked::{Part, SIGMAS, tacked};
use tabwright_tests::{assert_near, pair, report_of, setup_with};

/// Both sides, both faces, ahead of the leg and behind it; calipers whose holes lie askew.
fn setups() -> Vec<Setup> {
    [
        json!({"tab": {"clock": 75}, "fork": {"axle_offset": 3}, "caliper": {"holes": [[-22, 30], [29, 21]]}}),
        json!({
            "side": "right", "tab": {"clock": 98, "offset": 0.4},
            "caliper": {"mating_face": "outer", "mount_depth": 21, "holes": [[-33, 24], [17, 33]]},
        }),
        json!({"tab": {"clock": -75}, "fork": {"axle_offset": -2}, "caliper": {"holes": [[-8, 27], [40, 33]]}}),
    ]
    .iter()
    .map(setup_with)
    .collect()
}

fn crooked(setup: &Setup) -> Part {
    Part::designed(setup).moved([[0.6, -0.3], [-0.2, 0.7]], [0.15, 0.45])
}

fn solved(setup: &Setup, readings: &[(Reading, f64)]) -> AsBuilt {
    let tacked = tacked(setup, readings);
    tacked.as_built.unwrap_or_else(|| unreachable!("{}", tacked.advice.text))
}

#[test]
fn the_pads_are_where_a_rigid_caliper_has_them() {
    for setup in setups() {
        let part = crooked(&setup);
        let built = solved(&setup, &part.readings(&setup));
        let ([up, back], turn) = seated(&setup, &part);
        assert_near(built.pads.centre[0], back, 1e-8, "back");
        assert_near(built.pads.centre[1], up, 1e-8, "up");
        assert_near(built.pads.radius.value, up.hypot(back), 1e-8, "radius");
        let clock = back.atan2(up);
        assert_near(built.pads.clock.value, clock.to_degrees(), 1e-8, "clock angle");
        let skew = (turn - clock + TAU / 2.0).rem_euclid(TAU) - TAU / 2.0;
        assert!(skew.to_degrees().abs() > 0.3, "{skew}: askew enough to tell");
        assert_near(built.pads.skew, skew.to_degrees(), 1e-8, "against the radius");
        // Sideways, to first order, where the perpendicular from the pads meets the line of the holes.
        let along = part.along();
        let share = ((back - part.holes[0][0]) * along[0] + (up - part.holes[0][1]) * along[1]) / part.spacing();
        let face = part.steps[0] + share * (part.steps[1] - part.steps[0]);
        let mating = if setup.caliper.mating_face == MatingFace::Outer { face + setup.dropout.thickness } else { face };
        assert_near(built.misalignment.value, mating - setup.caliper.mount_depth + part.inset, 5e-3, "slot less rotor");
        let slope = (part.steps[1] - part.steps[0]) / part.spacing();
        let [[x1, y1], [x2, y2]] = setup.caliper.holes;
        let size = (x2 - x1).hypot(y2 - y1);
        assert_near(built.pads.taper[0], 30.0 * slope * (x2 - x1).abs() / size, 1e-8, "taper over the length");
        assert_near(built.pads.taper[1], 16.0 * slope * (y2 - y1).abs() / size, 1e-8, "taper over the height");
        let words = format!(
            "{:.0} % of the pad is on the braking band, {:.0} % was designed; {:.2} mm past the rotor's edge.",
            (100.0 * built.pads.coverage.value).floor(),
            (100.0 * report_of(&setup).pad.coverage).floor(),
            built.pads.overhang.value
        );
        assert_eq!(built.pads.sentence, words);
        for (hole, (at, designed)) in built.holes.iter().zip(part.holes.iter().zip(Part::designed(&setup).holes)) {
            let (by, far) = ([at[0] - designed[0], at[1] - designed[1]], designed[0].hypot(designed[1]));
            assert_near(hole.off.radial, (by[0] * designed[0] + by[1] * designed[1]) / far, 1e-8, "outward");
            assert_near(hole.off.tangential, (by[0] * designed[1] - by[1] * designed[0]) / far, 1e-8, "round");
            assert_near(hole.off.distance, by[0].hypot(by[1]), 1e-8, "in all");
            assert_eq!(hole.designed, designed);
        }
    }
}

#[test]
fn gaps_of_a_turned_caliper_are_those_of_its_turned_solids() {
    for setup in setups() {
        let mut part = crooked(&setup);
        part.steps = [0.3, 0.3];
        let built = solved(&setup, &part.readings(&setup));
        let expected = report_of(&turned_setup(&setup, &part));
        assert_eq!(built.pairs.len(), expected.pairs.len());
        for found in &built.pairs {
            let other = pair(&expected, found.name);
            assert_near(found.gap.value, other.gap, 1e-5, found.name);
            assert_eq!(found.required, other.required);
            assert_near(found.margin, found.gap.value - other.required, 1e-12, found.name);
        }
    }
}

/// From the origin to the hull of some points of a plane: no two of them span a line that is nearer.
fn distance_to_hull(points: &[[f64; 2]]) -> f64 {
    let to_line = |[a, b]: [[f64; 2]; 2]| {
        let by = [b[0] - a[0], b[1] - a[1]];
        let square = by[0] * by[0] + by[1] * by[1];
        let share = if square > 0.0 { (-(a[0] * by[0] + a[1] * by[1]) / square).clamp(0.0, 1.0) } else { 0.0 };
        (a[0] + share * by[0]).hypot(a[1] + share * by[1])
    };
    let pairs = points.iter().flat_map(|a| points.iter().map(move |b| [*a, *b]));
    pairs.map(to_line).fold(f64::MAX, f64::min)
}

/// The caliper set on the rotor by its slot, truly turned about the pads' middle; seen along the tube, which is a circle.
fn tilted_gap_to_tube(setup: &Setup, part: &Part) -> f64 {
    let straight = turned_setup(setup, part);
    let ([up, back], _) = seated(setup, part);
    let clock = straight.tab.clock.to_radians();
    let plane = setup.wheel.hub_width / 2.0 - part.inset;
    let radius = setup.fork.tube_diameter / 2.0;
    let axis = [setup.fork.axle_offset, setup.fork.tube_gap / 2.0 + radius];
    let along = part.along();
    let (sin, cos) = ((part.steps[1] - part.steps[0]) / part.spacing()).atan().sin_cos();
    let gap = |body: &tabwright_core::Body| {
        let corner = |point: &[f64; 2], out: f64| {
            let [u, b] = times(of_angle(clock), local(setup, *point));
            let lever = b * along[0] + u * along[1];
            // Along the holes outboard by the tilt, and what lies outboard back against it.
            let by = lever * (cos - 1.0) - out * sin;
            assert!(up + u > setup.fork.tube_end, "beside the tube, not below its end");
            [back + b + by * along[0] - axis[0], plane + out * cos + lever * sin - axis[1]]
        };
        let corners =
            body.outline.iter().flat_map(|point| [corner(point, -body.inboard), corner(point, body.outboard)]);
        distance_to_hull(&corners.collect::<Vec<_>>()) - radius
    };
    straight.caliper.bodies.iter().map(gap).fold(f64::MAX, f64::min)
}

#[test]
fn gaps_of_a_tilted_caliper_are_those_of_its_tilted_solids() {
    for (clock, side) in [(28, "left"), (40, "left"), (-35, "right"), (-42, "left")] {
        let setup = setup_with(&json!({
            "side": side, "tab": {"clock": clock}, "caliper": {"holes": [[-22, 30], [29, 21]]},
        }));
        for (first, second) in [(0.0, 0.0), (-0.3, 0.4), (0.45, -0.2)] {
            let part = Part::designed(&setup).moved([[0.4, -0.3], [0.2, 0.5]], [first, second]);
            let built = solved(&setup, &part.readings(&setup));
            let found = built.pairs.iter().find(|pair| pair.name == "caliper/tube").unwrap();
            // Right to first order: what is left goes with the square of the tilt.
            let what = format!("{clock}° {side}, steps {first} and {second}");
            assert_near(found.gap.value, tilted_gap_to_tube(&setup, &part), 0.02, &what);
        }
    }
}

/// Where the caliper turns with its tab by a small tilt, a gap changes by what its nearest point moves along the gap.
#[test]
fn a_tilt_moves_the_gaps_of_what_is_bolted_to_the_tab_alone() {
    let (mut moved, mut still) = (0, 0);
    for setup in setups() {
        for half in [-0.2, 0.25] {
            let straight = crooked(&setup).moved([[0.0; 2]; 2], [-0.15, -0.45]);
            let part = straight.moved([[0.0; 2]; 2], [-half, half]);
            let built = solved(&setup, &part.readings(&setup));
            let report = report_of(&turned_setup(&setup, &straight));
            let ([up, back], _) = seated(&setup, &part);
            let pads = [back, up, setup.wheel.hub_width / 2.0 - part.inset];
            let [[b1, u1], [b2, u2]] = straight.holes;
            let plate = setup.wheel.hub_width / 2.0 + setup.tab.offset + setup.dropout.thickness / 2.0;
            let tab = [(b1 + b2) / 2.0, (u1 + u2) / 2.0, plate];
            let (sin, cos) = (2.0 * half / part.spacing()).atan().sin_cos();
            let along = part.along();
            for found in &built.pairs {
                let pair = pair(&report, found.name);
                let [one, other] = pair.points;
                // The caliper is set on the rotor, the tab is not.
                let pivot = if ["tab/tube", "tool/tube"].contains(&found.name) { tab } else { pads };
                let arm: [f64; 3] = std::array::from_fn(|axis| one[axis] - pivot[axis]);
                let lever = arm[0] * along[0] + arm[1] * along[1];
                let (aside, out) = (lever * (cos - 1.0) - arm[2] * sin, lever * sin + arm[2] * (cos - 1.0));
                let by = [aside * along[0], aside * along[1], out];
                let apart: [f64; 3] = std::array::from_fn(|axis| one[axis] - other[axis]);
                // Where parts overlap, their nearest points lie the other way round.
                let wider = (0..3).map(|axis| by[axis] * apart[axis]).sum::<f64>() / pair.gap;
                let is_still = ["rotor/throat", "rotor/tube", "rotor/plate", "nut/tube"].contains(&found.name);
                let expected = if is_still { pair.gap } else { pair.gap + wider };
                assert_near(found.gap.value, expected, 0.005, &format!("{} by {half}", found.name));
                (moved, still) = (moved + usize::from(!is_still && wider.abs() > 0.02), still + usize::from(is_still));
            }
        }
    }
    assert!(moved > 15 && still > 15, "{moved} gaps move, {still} do not");
}

/// All numbers of a part as built that have a ±.
fn numbers(setup: &Setup, built: &AsBuilt) -> Vec<(&'static str, f64, f64)> {
    let [one, other] = &built.holes;
    let about = HoleDesign::of(setup).about(&[one.back, one.up, other.back, other.up]);
    let named = |name, number: &Built| (name, number.value, number.uncertainty);
    let mut all = vec![
        ("about the axle", about, built.rotation.about),
        ("hole 1, back", one.back, SIGMAS * one.covariance[0][0].sqrt()),
        ("hole 2, up", other.up, SIGMAS * other.covariance[1][1].sqrt()),
        named("spacing", &built.spacing),
        named("misalignment", &built.misalignment),
        named("offset", &built.offset),
        named("inset", &built.rotor_inset),
        named("tilt", &built.tilt),
        named("radius", &built.pads.radius),
        named("clock", &built.pads.clock),
        named("overhang", &built.pads.overhang),
    ];
    all.extend(built.pairs.iter().map(|pair| named(pair.name, &pair.gap)));
    all
}

/// Joint Committee for Guides in Metrology, JCGM 100:2008, 5.1.2: the variance of a result is the sum of what each input's
/// own ± moves it by, squared. Inputs are the readings, the rotor's inset within its tolerance, of three standard
/// deviations, and where nothing was read from the neck the design's place about the axle, ± 1 mm.
#[test]
fn uncertainties_are_what_each_input_moves() {
    use Reading::{Hole1, Hole2, Spacing, Step1, Step2};
    const STEP: f64 = 0.25;
    for setup in setups() {
        let part = crooked(&setup);
        for readings in [part.some(&setup, &[Hole1, Hole2, Spacing, Step1, Step2]), part.readings(&setup)] {
            let at = solved(&setup, &readings);
            let stated = numbers(&setup, &at);
            let mut squares = vec![0.0; stated.len()];
            let mut add = |moved: &dyn Fn(f64) -> Vec<(&'static str, f64, f64)>| {
                let (more, less) = (moved(STEP), moved(-STEP));
                for (square, (more, less)) in squares.iter_mut().zip(more.iter().zip(&less)) {
                    *square += ((more.1 - less.1) / (2.0 * STEP)).powi(2);
                }
            };
            for place in 0..readings.len() {
                add(&|by| {
                    let mut other = readings.clone();
                    other[place].1 += by * setup.tack.accuracy;
                    numbers(&setup, &solved(&setup, &other))
                });
            }
            add(&|by| {
                let mut other = setup.clone();
                other.wheel.rotor_inset += by * setup.tolerance.rotor_inset / 3.0 * SIGMAS;
                numbers(&setup, &solved(&other, &readings))
            });
            if readings.len() == 5 {
                assert_eq!(at.rotation.from, "design");
                let [one, other] = Part::designed(&setup).holes.map(|[back, up]| back * back + up * up);
                add(&|by| {
                    let mut turned = setup.clone();
                    turned.tab.clock += (by / ((one + other) / 2.0).sqrt()).to_degrees();
                    numbers(&setup, &solved(&turned, &readings))
                });
            }
            for ((name, _, uncertainty), square) in stated.iter().zip(squares) {
                assert_near(*uncertainty, square.sqrt(), 0.03 * square.sqrt() + 1e-4, &format!("± of {name}"));
            }
        }
    }
}

/// One reading more than needed: W. Baarda's normalised residuals are then all alike, and their square is the whole sum.
#[test]
fn what_was_read_is_compared_with_what_was_found() {
    for (side, clock, offset) in [("left", 38, 0), ("right", -125, 2), ("left", 140, -3)] {
        let setup = setup_with(
            &json!({"side": side, "tab": {"clock": clock}, "fork": {"axle_offset": offset, "tube_end": 90}}),
        );
        let mut readings = crooked(&setup).readings(&setup);
        readings.pop();
        readings[0].1 += 0.1;
        let tacked = tacked(&setup, &readings);
        assert_eq!(tacked.state, TackState::Solved);
        let built = tacked.as_built.unwrap();
        let half = built.tilt.value.to_radians().tan() * built.spacing.value / 2.0;
        let found = Part {
            holes: [0, 1].map(|hole: usize| [built.holes[hole].back, built.holes[hole].up]),
            steps: [built.offset.value - half, built.offset.value + half],
            inset: built.rotor_inset.value,
        };
        let mut sum = 0.0;
        for (row, (reading, expected)) in tacked.readings.iter().zip(found.readings(&setup)) {
            assert_eq!((row.key, row.suspect), (reading, false));
            assert_near(row.solved.unwrap(), expected, 1e-8, row.label);
            assert_near(row.residual.unwrap(), row.mean - expected, 1e-8, row.label);
            sum += (row.residual.unwrap() * SIGMAS / setup.tack.accuracy).powi(2);
        }
        assert!(sum > 0.1, "{sum}: enough to compare");
        for (place, row) in tacked.readings.iter().enumerate() {
            match row.normalised {
                Some(normalised) if place < 5 => assert_near(normalised.powi(2), sum, 1e-3 * sum, row.label),
                other => assert_eq!((other, place < 5), (None, false), "nothing checks {}", row.label),
            }
        }
    }
}
