//! The tack check: scipy's least squares, perfect and crooked parts, limits, contradictions, and advice.

use serde_json::{Value, json};
use tabwright_core::build::{
    AdviceKind, Chance, HoleDesign, Reading, TabHoles, TackState, allowed_tilt, bolt_play, designed_readings, ellipse,
    fit_tab, locate, means,
};
use tabwright_core::{Setup, report};
use tabwright_tests::tacked::{Part, check, read_before, tacked};
use tabwright_tests::{assert_near, fixture_text, setup_with};

/// The setup with these readings of a tacked part.
fn read(setup: &Setup, readings: &[(Reading, f64)]) -> Setup {
    let mut setup = setup.clone();
    read_before(&mut setup, readings);
    setup
}

/// What a part with holes and steps there would read; all but the tube.
fn readings_of(setup: &Setup, [b1, u1, b2, u2]: [f64; 4], [o1, o2, inset]: [f64; 3]) -> Vec<(Reading, f64)> {
    Part { holes: [[b1, u1], [b2, u2]], steps: [o1, o2], inset }.readings(setup)
}

fn designed_holes(setup: &Setup) -> [f64; 4] {
    HoleDesign::of(setup).holes
}

fn level(setup: &Setup) -> [f64; 3] {
    [setup.tab.offset, setup.tab.offset, setup.wheel.rotor_inset]
}

fn kind(setup: &Setup, holes: [f64; 4], level: [f64; 3]) -> AdviceKind {
    tacked(setup, &readings_of(setup, holes, level)).advice.kind
}

/// Away from the axle and in the way of growing clock angles, moved from the design.
fn moved(setup: &Setup, radial: f64, tangential: f64) -> [f64; 4] {
    let (sin, cos) = setup.tab.clock.to_radians().sin_cos();
    let (back, up) = (radial * sin + tangential * cos, radial * cos - tangential * sin);
    let [b1, u1, b2, u2] = designed_holes(setup);
    [b1 + back, u1 + up, b2 + back, u2 + up]
}

/// Setups of both sides and all round.
fn setups() -> Vec<Setup> {
    let mut all = Vec::new();
    for side in ["left", "right"] {
        for clock in [-120.0, -60.0, 28.0, 75.0, 160.0] {
            for rotor in [180.0, 203.0] {
                all.push(setup_with(&json!({
                    "side": side, "tab": {"clock": clock, "offset": 0.4}, "wheel": {"rotor_diameter": rotor},
                    "fork": {"axle_offset": 3.5},
                })));
            }
        }
    }
    all
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().map_or_else(Vec::new, |list| list.iter().filter_map(Value::as_f64).collect())
}

/// 1000 random noisy sets by scipy.optimize.least_squares; fixtures/reference/ORIGIN.md says how they were made.
#[test]
fn holes_and_covariance_agree_with_scipy_s_least_squares() {
    let text = fixture_text("reference/trilateration.jsonl");
    let (mut sets, mut as_designed) = (0, 0);
    for line in text.lines() {
        let case: Value = serde_json::from_str(line).unwrap_or_default();
        let setup = setup_with(&json!({
            "side": if case[0] == "l" { "left" } else { "right" },
            "wheel": {"rotor_diameter": case[1]}, "fork": {"axle_offset": case[2]}, "tab": {"clock": case[3]},
        }));
        let lists: Vec<Vec<f64>> = (0..5).map(|place| numbers(&case[4][place])).collect();
        let of = |place: usize| lists.get(place).map_or(&[][..], Vec::as_slice);
        let means = means([of(0), of(1), of(2), of(3), of(4), &[], &[], &[], &[]], 0.1);
        let Some(found) = locate(&HoleDesign::of(&setup), &means) else { unreachable!("no place for {line}") };
        let (holes, upper) = (numbers(&case[5]), numbers(&case[6]));
        for (got, expected) in found.holes.iter().zip(&holes) {
            assert_near(*got, *expected, 1e-6, line);
        }
        let mut expected = upper.iter();
        for row in 0..4 {
            for column in row..4 {
                let covariance = expected.next().copied().unwrap_or(f64::NAN) / 1e6;
                let size = (found.covariance[row][row] * found.covariance[column][column]).sqrt();
                assert_near(found.covariance[row][column], covariance, 0.01 * size, &format!("covariance, {line}"));
            }
        }
        sets += 1;
        as_designed += usize::from(found.turned_as_designed);
    }
    assert!(sets == 1000 && (200..600).contains(&as_designed), "{sets} sets, {as_designed} turned as designed");
}

#[test]
fn perfect_readings_of_a_designed_part_give_back_the_design() {
    for setup in setups() {
        let designed = designed_readings(&setup).unwrap_or([f64::NAN; 9]);
        let by_hand = readings_of(&setup, designed_holes(&setup), level(&setup));
        for (reading, value) in &by_hand {
            assert_near(designed[reading.place()], *value, 1e-9, &format!("{reading:?} as designed"));
        }
        let with_tube: Vec<(Reading, f64)> =
            Reading::ALL.into_iter().map(|reading| (reading, designed[reading.place()])).collect();
        // The gap to the tube is found by iteration, which is no better than that.
        for (readings, tolerance) in [(by_hand, 1e-9), (with_tube, 1e-6)] {
            let tacked = tacked(&setup, &readings);
            let Some(built) = &tacked.as_built else { unreachable!("{:?}", tacked.contradiction) };
            for hole in &built.holes {
                assert_near(hole.back, hole.designed[0], tolerance, "back");
                assert_near(hole.up, hole.designed[1], tolerance, "up");
            }
            let as_designed = report(&setup).map_err(|problems| problems.len());
            let Ok(as_designed) = as_designed else { unreachable!("the setup has a report") };
            assert_near(built.misalignment.value, as_designed.lateral.misalignment, tolerance, "misalignment");
            assert_near(built.tilt.value, 0.0, tolerance, "tilt");
            assert_near(built.pads.radius.value, as_designed.pad.radius, tolerance, "pad radius");
            assert_near(built.pads.coverage.value, as_designed.pad.coverage, tolerance, "coverage");
            assert_near(built.pads.overhang.value, as_designed.pad.overhang, tolerance, "overhang");
            assert_near(built.pads.below_band.value, as_designed.pad.below_band, tolerance, "below the band");
            assert_eq!(built.pairs.len(), as_designed.pairs.len());
            for (pair, designed) in built.pairs.iter().zip(&as_designed.pairs) {
                assert_near(pair.gap.value, designed.gap, 1e-6, pair.name);
            }
        }
    }
}

#[test]
fn perfect_readings_of_a_crooked_part_give_that_part() {
    let mut chance = Chance::new(7);
    for setup in setups() {
        let mut holes = designed_holes(&setup);
        holes.iter_mut().for_each(|at| *at += chance.normal());
        let mut level = level(&setup);
        level[0] += chance.normal();
        level[1] += chance.normal();
        let tacked = tacked(&setup, &readings_of(&setup, holes, level));
        let Some(built) = &tacked.as_built else { unreachable!("{:?}", tacked.contradiction) };
        for (hole, at) in built.holes.iter().zip(holes.chunks(2)) {
            assert_near(hole.back, at[0], 1e-8, "back");
            assert_near(hole.up, at[1], 1e-8, "up");
        }
        let spacing = (holes[0] - holes[2]).hypot(holes[1] - holes[3]);
        assert_near(built.tilt.value, ((level[1] - level[0]) / spacing).atan().to_degrees(), 1e-8, "tilt");
        assert_near(built.offset.value, (level[0] + level[1]) / 2.0, 1e-8, "offset");
    }
}

/// A part moved sideways, outward or round the axle is a setup of its own: its report is another way to the same gaps.
#[test]
fn gaps_as_built_are_those_of_the_setup_that_was_built() {
    let setup = Setup::default();
    for (clock, reach, offset) in [(28.0, 1.2, 0.0), (29.0, 0.0, 0.8), (27.2, -0.7, -0.6)] {
        let other = setup_with(&json!({"tab": {"clock": clock, "reach": reach, "offset": offset}}));
        let tacked = tacked(&setup, &readings_of(&setup, designed_holes(&other), level(&other)));
        let Some(built) = &tacked.as_built else { unreachable!("{:?}", tacked.contradiction) };
        let Ok(expected) = report(&other) else { unreachable!("the setup has a report") };
        assert_near(built.pads.clock.value, clock, 1e-8, "clock");
        assert_near(built.pads.coverage.value, expected.pad.coverage, 1e-9, "coverage");
        for pair in &expected.pairs {
            let got = built.pairs.iter().find(|one| one.name == pair.name).map(|one| one.gap.value);
            assert_near(got.unwrap_or(f64::NAN), pair.gap, 1e-6, pair.name);
        }
    }
}

/// The χ² distribution of two degrees of freedom at 5.991: 95 in 100 true holes lie in their ellipse.
#[test]
fn ellipses_hold_the_true_holes_19_times_in_20() {
    const DRAWS: u32 = 10_000;
    let mut chance = Chance::new(20_261_127);
    let setup = Setup::default();
    let design = HoleDesign::of(&setup);
    let sigma = 0.1 / 1.959_963_984_540_054;
    let mut inside = [0_u32; 2];
    for _ in 0..DRAWS {
        let mut holes = design.holes;
        holes.iter_mut().for_each(|at| *at += chance.normal());
        let exact = readings_of(&setup, holes, level(&setup));
        let noisy: Vec<[f64; 1]> = exact.iter().take(5).map(|(_, value)| [value + sigma * chance.normal()]).collect();
        let lists: [&[f64]; 9] = std::array::from_fn(|place| noisy.get(place).map_or(&[][..], |one| &one[..]));
        let Some(found) = locate(&design, &means(lists, 0.1)) else { unreachable!("five readings place the holes") };
        for (hole, inside) in inside.iter_mut().enumerate() {
            let (b, u) = (2 * hole, 2 * hole + 1);
            let covariance =
                [[found.covariance[b][b], found.covariance[b][u]], [found.covariance[u][b], found.covariance[u][u]]];
            let ellipse = ellipse([found.holes[b], found.holes[u]], covariance);
            let (sin, cos) = ellipse.angle.to_radians().sin_cos();
            let away = [holes[b] - found.holes[b], holes[u] - found.holes[u]];
            let (along, across) = (cos * away[0] + sin * away[1], cos * away[1] - sin * away[0]);
            *inside += u32::from((along / ellipse.major).hypot(across / ellipse.minor) <= 1.0);
        }
    }
    for inside in inside {
        assert_near(f64::from(inside) / f64::from(DRAWS), 0.95, 0.01, "share of true holes inside");
    }
}

/// The ± of every result, against the spread of the results of many noisy sets of readings.
#[test]
fn stated_uncertainties_are_the_spread_of_results() {
    const DRAWS: usize = 150;
    let setup = Setup::default();
    let exact = readings_of(&setup, moved(&setup, 0.3, -0.4), [0.1, 0.4, 15.0]);
    let sigma = 0.1 / 1.959_963_984_540_054;
    let mut chance = Chance::new(5);
    let mut drawn: Vec<[f64; 4]> = Vec::new();
    let mut stated = [0.0; 4];
    for _ in 0..DRAWS {
        let mut noisy: Vec<(Reading, f64)> =
            exact.iter().map(|(reading, value)| (*reading, value + sigma * chance.normal())).collect();
        noisy.retain(|(reading, _)| *reading != Reading::Rotor);
        let tacked = tacked(&setup, &noisy);
        // One set in some hundreds is refused as a contradiction.
        let Some(built) = tacked.as_built else { continue };
        let gap = |name: &str| built.pairs.iter().find(|pair| pair.name == name).map(|pair| pair.gap);
        let (Some(tube), Some(line)) = (gap("caliper/tube"), gap("line/tube")) else { unreachable!("both are pairs") };
        drawn.push([built.tilt.value, built.pads.radius.value, tube.value, line.value]);
        stated = [built.tilt.uncertainty, built.pads.radius.uncertainty, tube.uncertainty, line.uncertainty];
    }
    assert!(drawn.len() > DRAWS - 5);
    for (place, stated) in stated.into_iter().enumerate() {
        let count = drawn.len() as f64;
        let mean = drawn.iter().map(|one| one[place]).sum::<f64>() / count;
        let spread = (drawn.iter().map(|one| (one[place] - mean).powi(2)).sum::<f64>() / count).sqrt();
        // A standard deviation of 150 draws is itself known to 6 %.
        assert_near(stated / 1.96 / spread, 1.0, 0.2, &format!("± of result {place}"));
    }
}

#[test]
fn any_set_that_places_the_part_will_do_and_what_is_missing_is_named() {
    use Reading::{Hole1, Hole2, Neck1, Neck2, Rotor, Spacing, Step1, Step2};
    let setup = Setup::default();
    let all = readings_of(&setup, moved(&setup, 0.2, 0.1), [0.1, 0.2, 15.0]);
    let some = |wanted: &[Reading]| -> Vec<(Reading, f64)> {
        all.iter().copied().filter(|(reading, _)| wanted.contains(reading)).collect()
    };
    let missing = |wanted: &[Reading]| -> Vec<Reading> {
        tacked(&setup, &some(wanted)).missing.iter().map(|one| one.key).collect()
    };
    assert_eq!(missing(&[]), [Hole1, Hole2, Spacing, Step1, Step2]);
    assert_eq!(missing(&[Hole1, Spacing, Step1, Rotor]), [Hole2]);
    assert_eq!(missing(&[Hole1, Hole2, Step1, Step2]), [Spacing]);
    assert_eq!(missing(&[Hole1, Hole2, Spacing, Rotor]), [Step1]);
    // Two lines beside the leg and two circles are two places as well.
    for enough in [
        &[Hole1, Hole2, Spacing, Step1, Step2][..],
        &[Hole1, Hole2, Neck1, Neck2, Step1, Rotor],
        &[Hole1, Spacing, Neck1, Neck2, Step2, Rotor],
    ] {
        let tacked = tacked(&setup, &some(enough));
        assert_eq!(tacked.state, TackState::Solved, "{enough:?}: {:?}", tacked.missing);
        assert_eq!(tacked.advice.kind, AdviceKind::Weld, "{enough:?}: {}", tacked.advice.text);
    }
    let tacked = tacked(&setup, &some(&[Hole1, Hole2, Spacing, Step1, Step2]));
    let rotation = tacked.as_built.map(|built| (built.rotation.from, built.rotation.about));
    assert_eq!(rotation.map(|(from, _)| from), Some("design"));
    assert_near(rotation.map_or(0.0, |(_, about)| about), 1.0, 1e-6, "± about the axle as designed");
}

#[test]
fn several_readings_count_by_their_mean_and_their_spread() {
    let setup = Setup::default();
    let exact = readings_of(&setup, designed_holes(&setup), level(&setup));
    let mut repeated = read(&setup, &exact);
    repeated.tack.before.spacing = vec![51.0, 51.2, 50.9];
    let tacked = check(&repeated).before;
    let Some(spacing) = tacked.readings.iter().find(|one| one.key == Reading::Spacing) else {
        unreachable!("it was read")
    };
    // Mean 51.0333; their own standard deviation 0.15275 is more than 0.1 / 1.96; ± = 1.96 · 0.15275 / √3.
    assert_near(spacing.mean, 51.033_333_333, 1e-8, "mean");
    assert_near(spacing.spread, 0.3, 1e-9, "spread");
    assert_near(spacing.uncertainty, 1.959_964 * 0.152_752_523 / 3.0_f64.sqrt(), 1e-6, "±");
}

#[test]
fn a_triangle_that_cannot_be_is_named_with_its_three_numbers() {
    use Reading::{Hole1, Hole2, Spacing};
    let setup = Setup::default();
    for (readings, suspect) in [
        ([(Hole1, 51.2), (Hole2, 52.1), (Spacing, 121.7)], None),
        ([(Hole1, 121.7), (Hole2, 121.6), (Spacing, 510.0)], Some(Spacing)),
        ([(Hole1, 12.2), (Hole2, 121.7), (Spacing, 51.0)], Some(Hole1)),
    ] {
        let tacked = tacked(&setup, &readings);
        let Some(contradiction) = tacked.contradiction else { unreachable!("{readings:?} cannot be") };
        assert_eq!(tacked.state, TackState::Contradiction);
        assert_eq!(contradiction.readings, [Hole1, Hole2, Spacing]);
        assert_eq!(contradiction.suspect, suspect, "{}", contradiction.message);
        assert_eq!(tacked.advice.kind, AdviceKind::MeasureAgain);
        for number in readings.map(|(_, value)| format!("{value:.2} mm")) {
            assert!(contradiction.message.contains(&number), "{} lacks {number}", contradiction.message);
        }
        assert!(contradiction.message.contains("triangle"), "{}", contradiction.message);
    }
}

/// Wherever two readings of a crooked part are exchanged, either the exchange is offered or it makes no difference.
#[test]
fn exchanged_readings_are_found() {
    let setup = setup_with(&json!({"caliper": {"holes": [[-22.0, 30.0], [29.0, 21.0]]}}));
    let holes = moved(&setup, 0.5, 0.4);
    let right = readings_of(&setup, holes, [0.2, 0.5, 15.0]);
    let mut offered = 0;
    for one in 0..5 {
        for other in one + 1..5 {
            let mut readings = right.clone();
            (readings[one].1, readings[other].1) = (right[other].1, right[one].1);
            let tacked = tacked(&setup, &readings);
            let pair = [right[one].0, right[other].0];
            let Some(contradiction) = tacked.contradiction else { unreachable!("{pair:?} went unseen") };
            assert_eq!(contradiction.swap.map(|swap| swap.exchange), Some(pair), "{}", contradiction.message);
            offered += 1;
        }
    }
    assert_eq!(offered, 10);
    assert_eq!(tacked(&setup, &right).state, TackState::Solved);
}

#[test]
fn one_wrong_reading_among_enough_others_is_named() {
    let setup = Setup::default();
    let mut designed = designed_readings(&setup).unwrap_or([f64::NAN; 9]);
    for wrong in [Reading::Hole1, Reading::Hole2, Reading::Spacing, Reading::Neck1, Reading::Neck2] {
        designed[wrong.place()] += 2.0;
        let readings: Vec<(Reading, f64)> =
            Reading::ALL.into_iter().map(|reading| (reading, designed[reading.place()])).collect();
        let tacked = tacked(&setup, &readings);
        let Some(contradiction) = tacked.contradiction else { unreachable!("{wrong:?} went unseen") };
        assert!(contradiction.readings.contains(&wrong), "{wrong:?}: {}", contradiction.message);
        assert!(contradiction.suspect.is_none_or(|suspect| suspect == wrong), "{wrong:?}: {}", contradiction.message);
        designed[wrong.place()] -= 2.0;
    }
    let mut repeated = read(&setup, &readings_of(&setup, designed_holes(&setup), level(&setup)));
    repeated.tack.before.spacing = vec![51.0, 51.5];
    let tacked = check(&repeated).before;
    assert_eq!(tacked.contradiction.map(|one| one.readings), Some(vec![Reading::Spacing]));
    // Rotor and steps against the rotor's inset.
    let off = readings_of(&setup, designed_holes(&setup), [0.0, 0.0, 16.5]);
    let tacked = self::tacked(&setup, &off);
    let message = tacked.contradiction.map_or(String::new(), |one| one.message);
    assert!(message.contains("rotor inset of 15.00 mm"), "{message}");
}

#[test]
fn a_far_place_is_believed_once_it_was_read_twice() {
    let setup = Setup::default();
    let holes = moved(&setup, 0.0, -12.0);
    let readings = readings_of(&setup, holes, level(&setup));
    assert_eq!(tacked(&setup, &readings).advice.kind, AdviceKind::MeasureAgain);
    let twice: Vec<(Reading, f64)> = readings.iter().chain(&readings).copied().collect();
    let advice = tacked(&setup, &twice).advice;
    assert_eq!(advice.kind, AdviceKind::Break, "{}", advice.text);
    assert_near(advice.r#move.map_or(0.0, |by| by.tangential), 12.0, 1e-6, "the way back");
}

const HAIR: f64 = 1e-4;

#[test]
fn the_advice_flips_where_the_caliper_s_adjustment_ends() {
    let setup = Setup::default();
    let adjust = setup.caliper.lateral_adjust;
    for (offset, expected) in [
        (adjust, AdviceKind::Weld),
        (adjust + HAIR, AdviceKind::Shim),
        (-adjust, AdviceKind::Weld),
        // Shims move the caliper away from the face only.
        (-adjust - HAIR, AdviceKind::Break),
    ] {
        assert_eq!(kind(&setup, designed_holes(&setup), [offset, offset, 15.0]), expected, "offset {offset}");
    }
}

#[test]
fn the_advice_flips_where_the_bolts_play_ends() {
    let setup = Setup::default();
    let play = bolt_play(setup.caliper.bolt.size);
    // ISO 273, medium: M6 6.6, less 6.
    assert_near(play, 0.6, 1e-12, "play");
    let [b1, u1, b2, u2] = designed_holes(&setup);
    let along = [(b2 - b1) / 51.0, (u2 - u1) / 51.0];
    let apart = |by: f64| {
        let half = by / 2.0;
        [b1 - along[0] * half, u1 - along[1] * half, b2 + along[0] * half, u2 + along[1] * half]
    };
    for (misfit, expected) in [
        (play, AdviceKind::Weld),
        (-play, AdviceKind::Weld),
        (play + HAIR, AdviceKind::File),
        (-play - HAIR, AdviceKind::File),
        (3.0, AdviceKind::Break),
    ] {
        assert_eq!(kind(&setup, apart(misfit), level(&setup)), expected, "misfit {misfit}");
    }
    let Some(file) = tacked(&setup, &readings_of(&setup, apart(0.9), level(&setup))).advice.file else {
        unreachable!("0.9 mm is filed")
    };
    let way = if file.hole == 1.0 { 1.0 } else { -1.0 };
    assert_near(file.direction[0] * along[0] * way + file.direction[1] * along[1] * way, 1.0, 1e-6, "direction");
    assert!((0.4..1.0).contains(&file.amount) && file.towards.starts_with("towards hole"), "{file:?}");
}

#[test]
fn the_advice_flips_where_the_pads_begin_to_rub() {
    let setup = Setup::default();
    // 0.2 mm at the end of half a pad of 30 mm.
    assert_near(allowed_tilt(&setup).to_radians().tan(), 0.2 / 15.0, 1e-12, "allowed slope");
    let half = 51.0 * 0.2 / 15.0 / 2.0;
    for (step, expected) in [(half, AdviceKind::Weld), (half + HAIR, AdviceKind::Break)] {
        assert_eq!(kind(&setup, designed_holes(&setup), [-step, step, 15.0]), expected, "steps ±{step}");
    }
}

#[test]
fn the_advice_flips_where_a_gap_is_what_was_wanted() {
    let mut setup = setup_with(&json!({"required": {"line": 0.5}}));
    // Further than what is filed.
    let holes = moved(&setup, 0.0, -1.7);
    let tacked = tacked(&setup, &readings_of(&setup, holes, level(&setup)));
    let gap = tacked.as_built.as_ref().and_then(|built| built.pairs.iter().find(|pair| pair.name == "caliper/tube"));
    let gap = gap.map_or(f64::NAN, |pair| pair.gap.value);
    for (wanted, expected) in [(gap - HAIR, AdviceKind::Weld), (gap + HAIR, AdviceKind::Break)] {
        setup.required.tube = wanted;
        assert_eq!(kind(&setup, holes, level(&setup)), expected, "{wanted} wanted, {gap} there");
    }
    // A design that was tight itself need not be better as built, only no worse.
    setup.required.tube = 20.0;
    assert_eq!(kind(&setup, designed_holes(&setup), level(&setup)), AdviceKind::Weld);
    assert_eq!(kind(&setup, moved(&setup, 0.0, -0.01), level(&setup)), AdviceKind::Break);
}

#[test]
fn a_design_that_does_not_go_together_is_not_welded() {
    let setup = setup_with(&json!({"wheel": {"rotor_diameter": 180}}));
    assert_eq!(kind(&setup, designed_holes(&setup), level(&setup)), AdviceKind::Redesign);
}

#[test]
fn shims_are_the_nearest_common_ones_and_bring_the_slot_back() {
    let setup = Setup::default();
    for (offset, thickness) in [(2.3, 2.25), (2.52, 2.5), (3.1, 3.0), (3.95, 4.0)] {
        let advice = tacked(&setup, &readings_of(&setup, designed_holes(&setup), [offset, offset, 15.0])).advice;
        let Some(shim) = &advice.shim else { unreachable!("{}", advice.text) };
        assert_near(shim.thickness[0], thickness, 1e-9, &advice.title);
        assert_eq!(shim.thickness[0], shim.thickness[1]);
        assert_near(shim.pieces[0].iter().sum(), thickness, 1e-9, "pieces");
        assert_near(shim.misalignment, offset - thickness, 1e-9, "what is left");
    }
    // On the outer face they move the caliper outboard: the slot must lie inboard.
    let outer = setup_with(&json!({"caliper": {"mating_face": "outer", "mount_depth": 21}}));
    assert_eq!(kind(&outer, designed_holes(&outer), [-2.5, -2.5, 15.0]), AdviceKind::Shim);
    assert_eq!(kind(&outer, designed_holes(&outer), [2.5, 2.5, 15.0]), AdviceKind::Break);
}

/// Radially 1.2 mm out and tilted by 0.8°, first with two readings written in each other's place.
#[test]
fn a_crooked_tack_ends_in_the_right_move() {
    let setup = Setup::default();
    let half = 51.0 * 0.8_f64.to_radians().tan() / 2.0;
    let right = readings_of(&setup, moved(&setup, 1.2, 0.0), [-half, half, 15.0]);
    let mut swapped = right.clone();
    (swapped[1].1, swapped[2].1) = (right[2].1, right[1].1);
    let first = tacked(&setup, &swapped);
    assert_eq!(first.advice.kind, AdviceKind::MeasureAgain);
    let exchange = first.contradiction.and_then(|one| one.swap).map(|swap| swap.exchange);
    assert_eq!(exchange, Some([Reading::Hole2, Reading::Spacing]));

    let second = tacked(&setup, &right);
    let advice = &second.advice;
    assert_eq!(advice.kind, AdviceKind::Break, "{}", advice.text);
    let Some(by) = advice.r#move else { unreachable!("a broken tack is moved") };
    assert_near(by.radial, -1.2, 1e-6, "inward");
    assert_near(by.tangential, 0.0, 1e-6, "not round");
    assert_near(by.tilt, -0.8, 1e-6, "tilted back");
    // The way in the leg frame, at 28° from the leg.
    assert_near(by.back, -1.2 * 28.0_f64.to_radians().sin(), 1e-6, "forwards");
    assert_near(by.up, -1.2 * 28.0_f64.to_radians().cos(), 1e-6, "down");
    assert!(advice.text.contains("0.80°"), "{}", advice.text);
    let Some(built) = second.as_built else { unreachable!("it was solved") };
    assert_near(built.pads.taper[0], 30.0 * 0.8_f64.to_radians().tan(), 1e-6, "taper");
    // Moved so, it is what was designed.
    let holes = moved(&setup, 1.2, 0.0);
    let there = [holes[0] + by.back, holes[1] + by.up, holes[2] + by.back, holes[3] + by.up];
    assert_eq!(kind(&setup, there, level(&setup)), AdviceKind::Weld);
}

#[test]
fn what_welding_pulled_is_told_apart_from_what_the_readings_leave_open() {
    let mut setup = Setup::default();
    let exact = readings_of(&setup, designed_holes(&setup), level(&setup));
    setup = read(&setup, &exact);
    let pulled = readings_of(&setup, moved(&setup, 0.0, 0.5), [0.2, 0.6, 15.0]);
    let mut welded = read(&Setup::default(), &pulled).tack.before;
    let after = &mut setup.tack.after;
    (after.hole_1, after.hole_2, after.spacing) =
        (welded.hole_1.split_off(0), welded.hole_2.split_off(0), welded.spacing.split_off(0));
    (after.neck_1, after.neck_2) = (welded.neck_1.split_off(0), welded.neck_2.split_off(0));
    (after.step_1, after.step_2) = (welded.step_1.split_off(0), welded.step_2.split_off(0));
    let check = check(&setup);
    let Some(pull) = check.pull else { unreachable!("both are solved") };
    for hole in pull.holes {
        assert_near(hole.distance, 0.5, 1e-6, "pull");
        assert!(hole.sure, "{}", pull.sentence);
    }
    assert_near(pull.offset.change, 0.4, 1e-6, "sideways");
    assert_near(pull.tilt.change, (0.4_f64 / 51.0).atan().to_degrees(), 1e-6, "tilt");
    assert!(pull.offset.sure && pull.tilt.sure && !pull.spacing.sure, "{}", pull.sentence);
    assert_eq!(check.after.map(|after| after.advice.kind), Some(AdviceKind::Weld));
}

/// Twelve hundred random sets, wild ones among them: an answer each, nothing that is no number, one piece of advice.
#[test]
fn no_readings_at_all_make_it_fail() {
    let mut chance = Chance::new(3);
    let base = setups();
    let mut seen = Vec::new();
    for index in 0..1200 {
        let setup = &base[index % base.len()];
        let designed = designed_readings(setup).unwrap_or([0.0; 9]);
        let mut readings = Vec::new();
        for reading in Reading::ALL {
            for _ in 0..(chance.share() * 3.0) as usize {
                let wild = chance.share() < 0.15;
                let limits = reading.field().map_or([0.0, 0.0], |field| field.hard_range());
                let value = if wild {
                    [limits[0], limits[1], 0.0, limits[1] * chance.share()][(chance.share() * 4.0) as usize]
                } else {
                    designed[reading.place()] + [0.05, 1.0][(chance.share() * 2.0) as usize] * chance.normal()
                };
                readings.push((reading, value.clamp(limits[0], limits[1])));
            }
        }
        let check = check(&read(setup, &readings));
        let json = serde_json::to_value(&check).unwrap_or_default();
        assert!(!json.to_string().contains("NaN"), "{readings:?}");
        let text = format!("{check:?}");
        assert!(!text.contains("NaN") && !text.contains("inf,") && !text.contains("inf "), "{readings:?}: {text}");
        let advice = &check.before.advice;
        let extras = [advice.shim.is_some(), advice.file.is_some(), advice.r#move.is_some()];
        let expected = [AdviceKind::Shim, AdviceKind::File, AdviceKind::Break].map(|kind| kind == advice.kind);
        assert_eq!(extras, expected);
        if !seen.contains(&advice.kind) {
            seen.push(advice.kind);
        }
    }
    assert!(seen.len() >= 5, "{seen:?}");
}

#[test]
fn a_tab_serves_the_rotor_it_was_made_for() {
    for setup in setups() {
        let designed = designed_readings(&setup).unwrap_or([f64::NAN; 9]);
        let tab = fit_tab(&setup, TabHoles::Distances([designed[0], designed[1], designed[2]]));
        let Ok(tab) = tab else { unreachable!("three sides of a triangle") };
        let own = tab.rotors.iter().find(|rotor| rotor.rotor_diameter == setup.wheel.rotor_diameter);
        let Some(own) = own else { unreachable!("the setup's own rotor is one of them") };
        assert!(own.serves, "{}", own.sentence);
        assert_near(own.reach, 0.0, 1e-9, "reach");
        assert_near(tab.skew, 0.0, 1e-9, "skew");
        // The ring of the setup is another way to the same windows.
        let ring = tabwright_core::search::ring(&setup);
        let Ok(ring) = ring else { unreachable!("the setup has a ring") };
        assert_eq!(own.windows.len(), ring.windows.len());
        for (got, expected) in own.windows.iter().zip(&ring.windows) {
            assert_near(got.arc.from, expected.arc.from, 0.02, "window");
            assert_near(got.arc.width, expected.arc.width, 0.04, "window's width");
        }
        let [b1, u1, b2, u2] = designed_holes(&setup);
        let Ok(placed) = fit_tab(&setup, TabHoles::Points([[b1, u1], [b2, u2]])) else { unreachable!("two points") };
        assert_near(placed.clock.unwrap_or(f64::NAN), setup.tab.clock, 1e-9, "clock");
    }
}

#[test]
fn holes_that_make_no_tab_are_refused_by_name() {
    let read = |value: Value| TabHoles::read(&(&value).into()).map_err(|problems| problems[0].field.clone());
    assert_eq!(read(json!({"hole_1": 20, "hole_2": 20, "spacing": 51})), Err("spacing".to_owned()));
    assert_eq!(read(json!({"hole_1": "x", "hole_2": 20, "spacing": 51})), Err("hole_1".to_owned()));
    assert_eq!(read(json!({"points": [[1, 2], [1, 2.5]]})), Err("points".to_owned()));
    assert_eq!(read(json!({"points": [[1, 2], [1, 900]]})), Err("points".to_owned()));
    assert_eq!(read(json!(null)), Err("hole_1".to_owned()));
    assert!(read(json!({"hole_1": 121, "hole_2": 122, "spacing": 51})).is_ok());
}

#[test]
fn readings_are_kept_to_three_decimals_and_refused_by_name() {
    let given = |value: Value| {
        let mut json = tabwright_tests::default_json();
        json["tack"]["before"]["step_1"] = value;
        Setup::read(&json).map(|(setup, _)| setup.tack.before.step_1).map_err(|problems| problems[0].message.clone())
    };
    assert_eq!(given(json!([0.12345, -1, 500])), Ok(vec![0.123, -1.0, 500.0]));
    assert_eq!(given(json!([])), Ok(Vec::new()));
    let refused = "Step at hole 1 must be a list of at most 5 readings, each from −200 to 500 mm.";
    for wrong in [json!([1, 2, 3, 4, 5, 6]), json!([500.001]), json!(["1"]), json!(1), json!(null), json!([[1]])] {
        assert_eq!(given(wrong.clone()), Err(refused.to_owned()), "{wrong}");
    }
    let mut json = tabwright_tests::default_json();
    json.as_object_mut().map(|setup| setup.remove("tack"));
    assert_eq!(Setup::read(&json).map(|(setup, _)| setup.tack), Ok(Setup::default().tack), "files from before it");
}

#[test]
fn a_part_near_a_limit_is_said_to_be_close() {
    let setup = Setup::default();
    for (offset, close) in [(1.0, false), (1.95, true), (2.05, true)] {
        let advice = tacked(&setup, &readings_of(&setup, designed_holes(&setup), [offset, offset, 15.0])).advice;
        assert_eq!(advice.close, close, "{offset}: {}", advice.text);
        assert_eq!(advice.text.contains("Slot against rotor"), close, "{}", advice.text);
    }
}
