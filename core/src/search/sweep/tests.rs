//! Sweeps against plain setups, and the bounds they skip by.

#![allow(clippy::unwrap_used, reason = "a test that finds no gap should stop")]

use super::*;
use crate::fit::{Pair, Verdict, binding, clearances};
use crate::setup::Side;
use crate::solid::gap;
use crate::tolerance::AT_THE_LIMIT;

/// The default and what differs from it in every way that a sweep treats apart.
fn setups() -> Vec<Setup> {
    let mut right = Setup { side: Side::Right, ..Setup::default() };
    right.fork.axle_offset = 25.0;
    let mut recessed = Setup::default();
    recessed.wheel.hub_width = 115.0;
    recessed.wheel.rotor_diameter = 160.0;
    let mut posts = Setup::default();
    posts.caliper.mount = Mount::Post;
    posts.caliper.bolt_direction = Some([0.3, -1.0, 0.2]);
    vec![Setup::default(), right, recessed, posts]
}

#[test]
fn a_sweep_finds_what_a_plain_setup_has() {
    for setup in setups() {
        let mut sweep = Sweep::of(&setup).unwrap();
        for (clock, tube_end) in [(28.0, 20.0), (-75.5, 31.0), (120.0, 12.0), (-170.0, 55.0), (3.0, 90.0)] {
            let mut plain = setup.clone();
            (plain.tab.clock, plain.fork.tube_end) = (clock, tube_end);
            let pairs = clearances(&plain, &Parts::of(&plain)).unwrap();
            let expected = binding(&pairs).unwrap();
            sweep.turn_to(clock);
            sweep.slide_to(tube_end);
            let found = sweep.worst().unwrap().unwrap();
            assert_eq!(found.name, expected.name, "{clock}°, {tube_end} mm");
            assert!(
                (found.gap - expected.gap).abs() < 1e-5,
                "{}: {} and {}",
                found.name.key(),
                found.gap,
                expected.gap
            );
        }
    }
}

/// The bounds that let a search skip clock angles and tube ends, on every pair and over turns from tiny to wide.
#[test]
fn no_gap_changes_faster_than_its_bounds() {
    let mut along_axle = 0;
    for setup in setups() {
        let mut sweep = Sweep::of(&setup).unwrap();
        for index in 0..sweep.tracked.len() {
            for (step, turn) in [0.01_f64, 0.3, 2.0, 9.0].into_iter().cycle().take(72).enumerate() {
                let clock = -180.0 + 5.0 * step as f64;
                sweep.turn_to(clock);
                let before = sweep.find_gap(index).unwrap();
                let Tracked { name, reach, normal, .. } = sweep.tracked[index];
                let aside = sweep.at_most_after(index, before, reach * turn.to_radians());
                sweep.turn_to(clock + turn);
                let (low, high) = (sweep.at_least(index), sweep.at_most(index));
                let after = sweep.find_gap(index).unwrap();
                let most = reach * turn.to_radians();
                let what = format!("{} from {clock}° by {turn}°: {before} to {after}", name.key());
                assert!((after - before).abs() <= most + 1e-5, "{what}, more than {most}");
                assert!(after <= aside + 1e-5, "{what}, more than {aside}");
                // A pair that is apart along the axle hardly gains by moving aside.
                if before > 1.0 && normal.z.abs() > 1.0 - 1e-9 {
                    along_axle += 1;
                    assert!(aside - before <= most * most / before + 1e-3 * most, "{what}, but {aside} is feared");
                }
                assert!(after >= before - most * normal.x.hypot(normal.y) - 1e-5, "{what}, along the normal");
                assert!(low <= after + 1e-5 && after <= high + 1e-5, "{what}, not in {low} to {high}");
                if let Some(bound) = sweep.at_most_to_tube(index) {
                    assert!(after <= bound + 1e-5, "{what}, more than {bound} by the tube's centre line");
                }
                sweep.slide_to(setup.fork.tube_end + 3.0);
                let slid = sweep.find_gap(index).unwrap();
                assert!((slid - after).abs() <= 3.0 + 1e-5, "{what}, then slid to {slid}");
                sweep.slide_to(setup.fork.tube_end);
            }
        }
    }
    assert!(along_axle > 20, "{along_axle} apart along the axle");
}

/// Neck and webs reach further from the axle the further the tube's end slides from it.
#[test]
fn no_gap_changes_faster_than_its_bound_wherever_the_tube_has_slid_to() {
    for setup in narrow_setups() {
        let mut sweep = Sweep::of(&setup).unwrap();
        for tube_end in [2.0, 63.0, 180.0] {
            sweep.slide_to(tube_end);
            for index in 0..sweep.tracked.len() {
                let Tracked { name, reach, .. } = sweep.tracked[index];
                let mut last: Option<f64> = None;
                for step in 0..=72 {
                    sweep.turn_to(-180.0 + 5.0 * f64::from(step));
                    let found = sweep.find_gap(index).unwrap();
                    let by = last.map_or(0.0, |last| (found - last).abs());
                    let most = reach * 5.0_f64.to_radians() + 2e-3;
                    assert!(by <= most, "{} at {tube_end} mm: {by} in 5°, more than {most}", name.key());
                    last = Some(found);
                }
            }
        }
    }
}

/// A setup as a sweep stands at it.
fn plain(setup: &Setup, clock: f64, tube_end: f64) -> Setup {
    let mut plain = setup.clone();
    (plain.tab.clock, plain.fork.tube_end) = (clock, tube_end);
    plain
}

fn pairs_at(setup: &Setup, clock: f64, tube_end: f64) -> Vec<Pair> {
    let setup = plain(setup, clock, tube_end);
    clearances(&setup, &Parts::of(&setup)).unwrap()
}

fn verdict_at(setup: &Setup, clock: f64, tube_end: f64) -> Verdict {
    pairs_at(setup, clock, tube_end).iter().map(Pair::verdict).max().unwrap()
}

fn is_to_tube(pair: &Pair) -> bool {
    pair.name.key().ends_with("/tube")
}

/// By how much neck and web lack their gaps where a sweep stands, mm; a web by a millimetre at most.
fn plate_lacks(setup: &Setup, clock: f64, tube_end: f64) -> f64 {
    let setup = plain(setup, clock, tube_end);
    let parts = Parts::of(&setup);
    let lacks = checks(&setup).into_iter().filter_map(|Check { name, pieces: [first, second] }| {
        let most = match second {
            Piece::Neck => f64::MAX,
            Piece::Web => 1.0,
            _ => return None,
        };
        let found = gap(&parts.get(first)?.solid, &parts.get(second)?.solid).unwrap().distance;
        Some((name.required(&setup) - AT_THE_LIMIT - found).min(most))
    });
    lacks.fold(0.0, f64::max)
}

/// The furthest that any point that turns lies from the axle, by the extents of a plain setup's parts.
fn furthest(setup: &Setup) -> f64 {
    let parts = Parts::of(setup);
    let turning = parts.caliper.iter().chain(&parts.tools).chain(&parts.lands).chain([&parts.line]);
    turning.map(|part| reach(&part.solid)).fold(0.0, f64::max)
}

/// The setups above, asking for more room, so that all verdicts come up; and plates in the caliper's way.
fn narrow_setups() -> Vec<Setup> {
    let mut narrow = setups();
    for (setup, more) in narrow.iter_mut().zip([1.5, 4.0, 2.5, 7.0]) {
        setup.required.tube += more;
        setup.required.line += more / 2.0;
        setup.required.plate += more / 3.0;
        setup.wheel.nut_diameter = 15.0;
    }
    let mut beside = Setup::default();
    beside.fork.tube_gap = 130.0;
    beside.dropout.neck_width = 40.0;
    beside.caliper.holes = [[-30.0, 12.0], [21.0, 33.0]];
    let mut inward = beside.clone();
    (inward.side, inward.tab.offset, inward.wheel.rotor_inset) = (Side::Right, -3.5, 7.0);
    // A neck that hardly reaches beyond the eye before it slides.
    let mut short = beside.clone();
    (short.fork.tube_end, short.fork.axle_offset) = (0.0, 11.0);
    (short.dropout.weld_length, short.dropout.neck_width) = (34.0, 51.0);
    narrow.extend([beside, inward, short]);
    narrow
}

const CLOCKS: [f64; 9] = [-163.0, -121.0, -78.0, -41.5, -9.0, 23.0, 58.5, 96.0, 147.0];
const TURNS: [f64; 3] = [0.25, 2.0, 7.5];

/// Evenly over a turn either way, ends included.
fn within(clock: f64, turn: f64) -> impl Iterator<Item = f64> {
    (-4..=4).map(move |step| clock + turn * f64::from(step) / 4.0)
}

#[test]
fn without_a_turn_the_verdicts_are_those_of_a_plain_setup() {
    let mut seen = [0; 3];
    for setup in narrow_setups() {
        let mut sweep = Sweep::of(&setup).unwrap();
        for clock in CLOCKS {
            for tube_end in [8.0, 24.0, 61.0] {
                sweep.turn_to(clock);
                sweep.slide_to(tube_end);
                let verdict = verdict_at(&setup, clock, tube_end);
                seen[verdict as usize] += 1;
                let what = format!("{clock}°, {tube_end} mm");
                assert_eq!(sweep.verdicts_within(0.0, Verdict::Hits).unwrap(), [verdict; 2], "{what}");
                let no_closer = if verdict == Verdict::Clears { Verdict::Clears } else { Verdict::Hits };
                assert_eq!(sweep.verdicts_within(0.0, Verdict::Tight).unwrap(), [no_closer; 2], "{what}");
                let pairs = pairs_at(&setup, clock, tube_end);
                let tube_clears =
                    pairs.iter().filter(|pair| is_to_tube(pair)).all(|pair| pair.margin() >= -AT_THE_LIMIT);
                let steady = sweep.steady.unwrap();
                assert!(steady.name.key() != "nut/tube");
                assert_eq!(sweep.tube_may_clear(0.0).unwrap(), tube_clears, "{what}");
                let (deficit, lacks) = (sweep.plate_deficit(0.0).unwrap(), plate_lacks(&setup, clock, tube_end));
                assert!((deficit - lacks).abs() < 1e-4, "{what}: {deficit} mm of {lacks}");
            }
        }
    }
    assert!(seen.iter().all(|count| *count > 8), "{seen:?}");
}

/// What is sure holds at every clock angle of the turn, and is told wherever the furthest point's way leaves no doubt.
#[test]
fn what_is_sure_over_a_turn_holds_all_along_it() {
    for setup in narrow_setups() {
        let mut sweep = Sweep::of(&setup).unwrap();
        let has_web = setup.caliper.mount == Mount::SideLug;
        for clock in CLOCKS {
            for (turn, tube_end) in TURNS.into_iter().zip([12.0, 30.0, 55.0]) {
                let rad = turn.to_radians();
                let most = furthest(&setup) * rad;
                let what = format!("{clock} ± {turn}°, {tube_end} mm");
                sweep.turn_to(clock);
                sweep.slide_to(tube_end);
                let here = pairs_at(&setup, clock, tube_end);
                let all: Vec<Vec<Pair>> = within(clock, turn).map(|clock| pairs_at(&setup, clock, tube_end)).collect();
                let verdicts = all.iter().map(|pairs| pairs.iter().map(Pair::verdict).max().unwrap());
                let [mildest, gravest] = [verdicts.clone().min().unwrap(), verdicts.max().unwrap()];
                let doubtful = |by: f64, pair: &Pair| Verdict::of(pair.gap + by, pair.required);

                let [best, worst] = sweep.verdicts_within(rad, Verdict::Hits).unwrap();
                assert!(best <= mildest && worst >= gravest, "{what}: {best:?} to {worst:?}");
                let plate = |pair: &&Pair| !pair.name.key().ends_with("/plate");
                let least = here.iter().filter(plate).map(|pair| doubtful(most, pair)).max().unwrap();
                assert!(best >= least, "{what}: {best:?} where {least:?} is sure");
                let surely = here.iter().map(|pair| doubtful(-most, pair)).max().unwrap();
                assert!(has_web || worst <= surely, "{what}: {worst:?} where {surely:?} is the worst");

                let no_closer = sweep.verdicts_within(rad, Verdict::Tight).unwrap();
                let is_given_up = no_closer == [Verdict::Hits; 2];
                assert!(
                    if is_given_up {
                        mildest > Verdict::Clears
                    } else {
                        no_closer[0] <= mildest && no_closer[1] >= gravest
                    },
                    "{what}: {no_closer:?}"
                );

                let clears = |pairs: &[Pair], by: f64| {
                    pairs.iter().filter(|pair| is_to_tube(pair)).all(|pair| doubtful(by, pair) == Verdict::Clears)
                };
                let may = sweep.tube_may_clear(rad).unwrap();
                assert!(may || !all.iter().any(|pairs| clears(pairs, 0.0)), "{what}: the tube clears");
                assert!(!may || clears(&here, most), "{what}: the tube cannot clear");
            }
        }
    }
}

/// The webs that may be there, of the four.
fn webs(sweep: &Sweep, leeway: f64) -> Vec<usize> {
    let is_there = |choice: &usize| {
        sweep.tracked.iter().any(|tracked| tracked.web == Some(*choice) && sweep.is_present(tracked, leeway))
    };
    (0..4).filter(is_there).collect()
}

#[test]
fn every_web_that_comes_with_a_turn_or_a_slide_is_among_those_that_may() {
    let (mut single, mut several) = (0, 0);
    for mut setup in narrow_setups() {
        for holes in [setup.caliper.holes, [[-25.5, 26.0], [25.5, 26.0]], [[-12.0, 41.0], [31.0, 20.0]]] {
            setup.caliper.holes = holes;
            let mut sweep = Sweep::of(&setup).unwrap();
            for clock in CLOCKS {
                for (turn, tube_end) in TURNS.into_iter().zip([12.0, 30.0, 55.0]) {
                    for slide in [0.0, 1.0] {
                        sweep.turn_to(clock);
                        sweep.slide_to(tube_end);
                        let leeway = sweep.web_leeway(turn.to_radians()) + slide;
                        let may = webs(&sweep, leeway);
                        single += usize::from(may.len() == 1);
                        several += usize::from(may.len() > 1);
                        for clock in within(clock, turn) {
                            sweep.turn_to(clock);
                            sweep.slide_to(tube_end + slide);
                            let there = webs(&sweep, 0.0);
                            assert!(there.iter().all(|web| may.contains(web)), "{clock}°: {there:?} beside {may:?}");
                        }
                    }
                }
            }
        }
    }
    assert!(single > 100 && several > 100, "{single} single, {several} several");
}

/// Else a ring looks at every hundredth of a degree where one of the two hits and the other does not.
#[test]
fn of_lands_alike_to_the_axle_one_web_to_the_eye_is_in_doubt_only_where_both_are_alike_to_the_neck() {
    let mut setup = Setup::default();
    (setup.fork.axle_offset, setup.fork.tube_end) = (0.0, 200.0);
    let mut sweep = Sweep::of(&setup).unwrap();
    for (clock, expected) in [(-120.0, 1), (-60.0, 1), (0.0, 2), (60.0, 1), (120.0, 1), (180.0, 2)] {
        sweep.turn_to(clock);
        assert_eq!(webs(&sweep, sweep.web_leeway(5_f64.to_radians())).len(), expected, "{clock}°");
    }
}

/// Sliding by less than what neck and web lack lets them clear at no clock angle of the turn; and they lack no less than
/// the neck does when the furthest point comes away from it straight.
#[test]
fn neck_and_web_lack_no_more_than_any_clock_angle_of_a_turn_does() {
    let mut lacking = 0;
    for setup in narrow_setups() {
        let mut sweep = Sweep::of(&setup).unwrap();
        let necks = |setup: &Setup| -> f64 {
            let parts = Parts::of(setup);
            let checks = checks(setup).into_iter().filter(|check| check.pieces[1] == Piece::Neck);
            let lacks = checks.map(|Check { name, pieces }| {
                let [first, neck] = pieces.map(|piece| &parts.get(piece).unwrap().solid);
                name.required(setup) - AT_THE_LIMIT - gap(first, neck).unwrap().distance
            });
            lacks.fold(f64::MIN, f64::max)
        };
        for clock in CLOCKS {
            for (turn, tube_end) in TURNS.into_iter().zip([12.0, 30.0, 55.0]) {
                let rad = turn.to_radians();
                sweep.turn_to(clock);
                sweep.slide_to(tube_end);
                let deficit = sweep.plate_deficit(rad).unwrap();
                let what = format!("{clock} ± {turn}°, {tube_end} mm: {deficit}");
                let sure = necks(&plain(&setup, clock, tube_end)) - furthest(&setup) * rad;
                assert!(deficit >= sure - 1e-4 && deficit >= 0.0, "{what}, {sure} by the neck alone");
                if deficit <= 0.0 {
                    continue;
                }
                lacking += 1;
                for clock in within(clock, turn) {
                    let slid = plate_lacks(&setup, clock, tube_end + 0.999 * deficit);
                    assert!(slid > 0.0, "{what}, but at {clock}° less will do");
                }
            }
        }
    }
    assert!(lacking > 20, "{lacking}");
}

/// Beside the tube, away from its end, the distance to its centre line is the gap and a radius.
#[test]
fn the_tube_s_centre_line_tells_the_gap_beside_it_and_the_depth_across_it() {
    let (mut beside, mut across) = (0, 0);
    for setup in narrow_setups() {
        let mut sweep = Sweep::of(&setup).unwrap();
        sweep.slide_to(9.0);
        let radius = setup.fork.tube_diameter / 2.0;
        for index in 0..sweep.tracked.len() {
            for clock in CLOCKS {
                sweep.turn_to(clock);
                let Tracked { solids: [_, second], .. } = sweep.tracked[index];
                let found = gap(&sweep.pool[sweep.tracked[index].solids[0]], &sweep.pool[second]).unwrap();
                let bound = sweep.at_most_to_tube(index);
                if second != TUBE {
                    assert_eq!(bound, None);
                    continue;
                }
                let bound = bound.unwrap();
                let from_end = found.points[1].y - 9.0;
                if found.distance > 0.0 && found.normal.y.abs() < 1e-6 && from_end > radius && from_end < 150.0 {
                    beside += 1;
                    assert!((bound - found.distance).abs() < 2e-3, "{clock}°: {bound} of {}", found.distance);
                }
                assert!(bound >= found.distance - 2e-3 && bound >= -radius, "{clock}°: {bound} of {}", found.distance);
                across += usize::from(bound == -radius);
            }
        }
    }
    assert!(beside > 10 && across > 5, "{beside} beside, {across} across");
}
