//! Searches against brute force: plain reports on many setups, which know nothing of bounds and sweeps.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::{Value, json};
use tabwright_core::fit::{Parts, Run, clearances, hole_centres, line_run, wheel_removal};
use tabwright_core::search::{
    Arcs, AxlePush, Fork, Rules, Shortest, axle_push, fixes, positions, ring, shortest_dropout, two_rotors, what_if,
    with_rotor_and_hub, with_spacer,
};
use tabwright_core::{Outcome, Setup, Side, Verdict};
use tabwright_tests::{as_many, assert_near, fixture_text, report_of, setup_with};

/// Every `step`th of the setups that the second opinions were asked about: both sides, both mounts, all joints.
fn setups(step: usize) -> Vec<Setup> {
    let text = fixture_text("reference/kernel.jsonl");
    let cases = text.lines().step_by(step).map(|line| serde_json::from_str::<Value>(line).unwrap_or_default());
    cases.map(|case| setup_with(&case["changes"])).collect()
}

/// Numbers that are random enough for tests and the same everywhere.
struct Random(u64);

impl Random {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * ((self.0 >> 11) as f64 / (1_u64 << 53) as f64)
    }

    fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[self.between(0.0, from.len() as f64) as usize]
    }
}

/// Setups a builder might have before him: the default with its main numbers moved about.
fn bench_setups(count: usize) -> impl Iterator<Item = Setup> {
    let mut random = Random(20_261_125);
    (0..count).map(move |_| {
        let mut setup = Setup::default();
        setup.wheel.rotor_diameter = random.pick(&[140.0, 160.0, 180.0, 203.0, 220.0]);
        setup.wheel.hub_width = random.pick(&[100.0, 110.0, 115.0, 135.0]);
        setup.dropout.slot_direction = random.pick(&[180.0, 90.0, -90.0, 150.0]);
        setup.side = random.pick(&[Side::Left, Side::Left, Side::Right]);
        let mut vary = |low: f64, high: f64| (random.between(low, high) * 10.0).round() / 10.0;
        setup.fork.tube_gap = setup.wheel.hub_width + 2.0 * setup.dropout.thickness + vary(-12.0, 4.0);
        setup.fork.tube_end = vary(10.0, 70.0);
        setup.fork.tube_diameter = vary(22.0, 45.0);
        setup.fork.axle_offset = vary(-10.0, 30.0);
        setup.tab.clock = vary(-120.0, 120.0);
        setup.tab.offset = vary(-2.0, 2.0);
        setup.caliper.throat = vary(1.9, 4.0);
        setup.required.tube = vary(1.0, 4.0);
        setup
    })
}

/// The worst verdict and margin over all gaps of a setup, whether it can be built or not.
fn worst_gap(setup: &Setup) -> (Verdict, f64) {
    let pairs = clearances(setup, &Parts::of(setup)).unwrap_or_default();
    let worst = |a: f64, b: f64| a.min(b);
    let verdict = pairs.iter().map(|pair| pair.verdict()).max().unwrap_or(Verdict::Hits);
    (verdict, pairs.iter().map(|pair| pair.margin()).fold(f64::MAX, worst))
}

/// The least margin of the pairs that change with the clock angle.
fn room(setup: &Setup) -> f64 {
    let pairs = clearances(setup, &Parts::of(setup)).unwrap_or_default();
    let changing = ["tab/tube", "caliper/tube", "tool/tube", "line/tube", "caliper/plate", "rotor/plate"];
    let margins = pairs.iter().filter(|pair| changing.contains(&pair.name.key())).map(|pair| pair.margin());
    margins.fold(f64::MAX, f64::min)
}

fn at_clock(setup: &Setup, clock: f64) -> Setup {
    let mut setup = setup.clone();
    setup.tab.clock = if clock > 180.0 { clock - 360.0 } else { clock };
    setup
}

#[test]
fn the_ring_says_what_brute_force_says_every_twentieth_of_a_degree() {
    let (mut worst_edge, mut edges, mut windows): (f64, usize, usize) = (0.0, 0, 0);
    // With a deep throat and all bodies flat on the tab only the tube binds, and the best place is a peak.
    let deep = bench_setups(as_many(14, 18)).skip(12).map(|mut setup| {
        setup.caliper.throat = 25.0;
        setup.caliper.bodies.iter_mut().for_each(|body| body.bolted = true);
        setup
    });
    let cases = setups(as_many(40, 20)).into_iter().chain(bench_setups(as_many(6, 12))).chain(deep);
    for (index, setup) in cases.enumerate() {
        let ring = ring(&setup).unwrap();
        edges += ring.stretches.len();
        windows += ring.windows.len();
        let (mut best, mut at_best) = (f64::MIN, 0.0);
        for step in 0..7200 {
            let clock = -180.0 + f64::from(step) * 0.05 + 0.0137;
            let (verdict, margin) = worst_gap(&at_clock(&setup, clock));
            if margin > best {
                (best, at_best) = (margin, clock);
            }
            let Some(stretch) = ring.stretches.iter().find(|stretch| stretch.from <= clock && clock <= stretch.to)
            else {
                panic!("setup {index}: no stretch at {clock}°");
            };
            if stretch.verdict != verdict {
                let to_edge = ring.stretches.iter().map(|stretch| (stretch.to - clock).abs()).fold(f64::MAX, f64::min);
                worst_edge = worst_edge.max(to_edge);
                assert!(to_edge <= 0.01, "setup {index} at {clock}°: {verdict:?} instead of {:?}", stretch.verdict);
            }
            let in_window = ring.windows.iter().any(|window| window.arc.contains(clock));
            assert_eq!(in_window, stretch.verdict == Verdict::Clears, "setup {index} at {clock}°");
        }
        let promised = ring.windows.iter().map(|window| window.margin).fold(f64::MIN, f64::max);
        if best >= 0.0 {
            assert!(promised >= best - 0.05, "setup {index}: {promised} is not the best, {best} at {at_best}° is");
        }
        for window in &ring.windows {
            let (verdict, margin) = worst_gap(&at_clock(&setup, window.best));
            assert_eq!(verdict, Verdict::Clears, "setup {index}, best at {}°", window.best);
            assert_near(margin, window.margin, 1e-4, "margin at the best clock angle");
            let steps = (window.arc.width / 0.05) as u32;
            let clocks = (0..=steps).map(|step| window.arc.from + 0.05 * f64::from(step));
            let most = clocks.map(|clock| room(&at_clock(&setup, clock))).fold(f64::MIN, f64::max);
            let here = room(&at_clock(&setup, window.best));
            assert!(here >= most - 0.02, "setup {index}: {here} mm of room at {}°, elsewhere {most}", window.best);
        }
    }
    println!("{edges} stretches, {windows} windows; worst disagreement {worst_edge}° from an edge");
    assert!(windows > as_many(5, 10), "only {windows} windows were there to be missed");
}

/// By construction: turning a tiny window's width out of a wide one, ring and brute force must both see it.
#[test]
fn a_window_of_a_fifth_of_a_degree_is_found() {
    let mut setup = Setup::default();
    let wide = ring(&setup).unwrap().windows;
    assert!(wide.len() == 2 && wide.iter().all(|window| window.arc.width > 20.0));
    // Ask for so much room at the tube that only a sliver about the roomiest place is left.
    let (mut low, mut high) = (3.0, 60.0);
    for _ in 0..60 {
        setup.required.tube = (low + high) / 2.0;
        let width = ring(&setup).unwrap().windows.iter().map(|window| window.arc.width).fold(0.0, f64::max);
        if width > 0.2 {
            low = setup.required.tube;
        } else {
            high = setup.required.tube;
        }
    }
    setup.required.tube = low;
    let windows = ring(&setup).unwrap().windows;
    assert!(!windows.is_empty() && windows.iter().all(|window| window.arc.width < 0.25), "{windows:?}");
    for window in windows {
        assert_eq!(worst_gap(&at_clock(&setup, window.arc.middle())).0, Verdict::Clears);
    }
}

#[test]
fn rules_hold_where_plain_reports_say_so() {
    for setup in setups(8) {
        let ring = ring(&setup).unwrap();
        let (line_up, wheel_out) = (Arcs::of(&ring.line_up), Arcs::of(&ring.wheel_out));
        for step in 0..720 {
            let setup = at_clock(&setup, -180.0 + 0.5 * f64::from(step) + 0.0137);
            let clock = setup.tab.clock;
            assert_eq!(line_up.contains(clock), line_run(&setup).run == Run::Up, "line at {clock}°");
            assert_eq!(wheel_out.contains(clock), wheel_removal(&setup).comes_out(), "wheel at {clock}°");
        }
    }
}

/// Whether a setup clears at a clock angle and a tube end.
fn does(setup: &Setup, clock: f64, tube_end: f64) -> bool {
    let mut setup = at_clock(setup, clock);
    setup.fork.tube_end = tube_end;
    worst_gap(&setup).0 == Verdict::Clears
}

/// Whether a setup keeps to the rules at a clock angle; the tube's end has no say in it.
fn keeps(setup: &Setup, rules: Rules, clock: f64) -> bool {
    let setup = at_clock(setup, clock);
    (!rules.line_up || line_run(&setup).run == Run::Up) && (!rules.wheel_out || wheel_removal(&setup).comes_out())
}

/// The shortest tube end at any even degree: every 2 mm of the field's range is tried, and the first that does bisected.
fn shortest_by_brute_force(setup: &Setup, rules: Rules) -> Option<f64> {
    let mut best: Option<f64> = None;
    for step in -89..=90 {
        let clock = 2.0 * f64::from(step);
        let most = best.map_or(250.0, |best| best - 0.002);
        if most < 0.0 {
            break;
        }
        if !keeps(setup, rules, clock) {
            continue;
        }
        let tried = (0..).map(|step| 2.0 * f64::from(step)).take_while(|end| *end < most).chain([most]);
        let Some(mut high) = tried.into_iter().find(|end| does(setup, clock, *end)) else {
            continue;
        };
        let mut low = (high - 2.0).max(0.0);
        while high - low > 1e-3 {
            let middle = (low + high) / 2.0;
            if does(setup, clock, middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        best = Some(high);
    }
    best
}

#[test]
fn no_dropout_is_shorter_than_the_shortest() {
    assert_none_is_shorter(Rules::NONE, 0);
}

#[test]
fn no_dropout_that_keeps_the_rules_is_shorter_than_the_shortest() {
    assert_none_is_shorter(Rules::ALL, 1);
}

/// On every second setup, from the first or the second on.
fn assert_none_is_shorter(rules: Rules, from: usize) {
    let (mut found, mut most): (usize, f64) = (0, f64::MIN);
    for (index, mut setup) in bench_setups(as_many(36, 100)).enumerate().skip(from).step_by(2) {
        if index % 3 > 0 {
            // A small nut leaves it to the caliper how short the dropout can be.
            (setup.wheel.nut_diameter, setup.required.nut, setup.required.tube) = (9.0, 0.5, 6.0);
        }
        let brute = shortest_by_brute_force(&setup, rules);
        match shortest_dropout(&setup, rules).unwrap() {
            Shortest::Found(place) => {
                found += 1;
                let holds = keeps(&setup, rules, place.clock) && does(&setup, place.clock, place.tube_end);
                assert!(holds, "setup {index}: {place:?} does not clear");
                let beside = (-40..=40).map(|step| place.clock + 0.05 * f64::from(step));
                for clock in beside.filter(|clock| keeps(&setup, rules, *clock)) {
                    let shorter = place.tube_end - 0.01;
                    assert!(
                        shorter < 0.0 || !does(&setup, clock, shorter),
                        "setup {index}: {shorter} at {clock}° does"
                    );
                }
                if let Some(brute) = brute {
                    most = most.max(place.tube_end - brute);
                    assert!(place.tube_end <= brute + 0.01, "setup {index}: {place:?}, but {brute} does");
                }
            }
            Shortest::None { obstacle } => {
                assert_eq!(brute, None, "setup {index}: none because of {obstacle}, but there is one");
            }
        }
    }
    println!("{found} found; at most {most} mm longer than by brute force");
    assert!(found > as_many(6, 20), "only {found} had a dropout to be found");
}

#[test]
fn a_tab_for_two_rotors_clears_with_either_by_plain_reports() {
    let mut windows = 0;
    // A flat tab stands in a spacer's way unless the caliper's own parts keep clear of it; posts have none.
    let mounts = [json!({}), json!({"caliper": {"mount": "post", "bolt_direction": [0, -1, 0]}})];
    let mounts = mounts.map(|changes| setup_with(&changes).caliper);
    for (index, mut setup) in bench_setups(60).enumerate() {
        setup.caliper = mounts[usize::from(index % 3 > 0)].clone();
        let Ok(shared) = two_rotors(&setup, [180.0, 160.0], Rules::NONE) else {
            continue;
        };
        assert_eq!((shared.rotors, shared.spacer), ([160.0, 180.0], 10.0));
        assert_eq!(shared.windows.is_empty(), shared.obstacle.is_some());
        let mut first = setup.clone();
        first.wheel.rotor_diameter = 160.0;
        let second = with_spacer(&first, shared.spacer);
        // The same tab: its holes stay where they are.
        for (hole, same) in hole_centres(&first).into_iter().zip(hole_centres(&second)) {
            assert_near((hole[0] - same[0]).hypot(hole[1] - same[1]), 0.0, 1e-9, "holes of one tab");
        }
        let both = |clock: f64| [&first, &second].map(|setup| worst_gap(&at_clock(setup, clock)));
        for window in &shared.windows {
            windows += 1;
            let inset = (window.arc.width / 2.0).min(0.01);
            for clock in [window.arc.from + inset, window.best, window.arc.from + window.arc.width - inset] {
                assert!(both(clock).iter().all(|worst| worst.0 == Verdict::Clears), "{clock}° of {window:?}");
            }
            for (worst, margin) in both(window.best).iter().zip(window.margins) {
                assert_near(worst.1, margin, 1e-4, "margin at the best clock angle");
            }
            if window.arc.width < 359.0 {
                let beyond = both(window.arc.from - 0.02);
                assert!(beyond.iter().any(|worst| worst.0 != Verdict::Clears), "{window:?} begins too late");
            }
        }
    }
    assert!(windows > as_many(5, 10), "only {windows} windows were there to be checked");
}

#[test]
fn every_fix_clears_by_the_margin_it_promises() {
    let (mut fixed, mut by_two, mut hopeless) = (0, 0, 0);
    for (index, setup) in bench_setups(1000).enumerate() {
        let answer = fixes(&setup).unwrap();
        let before = report_of(&setup);
        assert_eq!(answer.verdict, before.verdict);
        if before.verdict == Outcome::Clears {
            assert!(answer.fixes.is_empty(), "setup {index} needs no fix");
            continue;
        }
        if answer.fixes.is_empty() {
            hopeless += 1;
        }
        for fix in &answer.fixes {
            let mut json = serde_json::to_value(&setup).unwrap();
            for change in &fix.changes {
                let (group, field) = change.field.split_once('.').unwrap();
                assert_near(json[group][field].as_f64().unwrap(), change.from, 1e-12, change.field);
                json[group][field] = change.to.into();
            }
            let after = Setup::read(&json).map(|(setup, _)| report_of(&setup)).unwrap();
            assert_eq!(after.verdict, Outcome::Clears, "setup {index}: {fix:?}");
            let margin = after.pairs.iter().map(|pair| pair.margin).fold(f64::MAX, f64::min);
            assert_near(margin, fix.margin, 1e-6, "margin promised");
            assert_eq!(after.binding, fix.binding, "setup {index}: {fix:?}");
            assert_eq!(after.wheel_removal.comes_out, fix.wheel_out);
            fixed += 1;
            by_two += usize::from(fix.changes.len() == 2);
        }
    }
    println!("{fixed} fixes tried, {by_two} of them of two changes; {hopeless} setups without a fix");
    assert!(fixed > 500 && by_two > 20, "{fixed} fixes, {by_two} of two changes");
}

/// A single change must be the smallest of its kind: one step of 0.1 less does not clear.
#[test]
fn fixes_cut_no_more_than_is_needed() {
    for setup in bench_setups(150) {
        for fix in fixes(&setup).unwrap().fixes.iter().filter(|fix| fix.changes.len() == 1) {
            let change = fix.changes[0];
            if change.field.starts_with("wheel.") || change.field == "tab.clock" {
                continue;
            }
            let less = change.to - 0.1 * (change.to - change.from).signum();
            if (less - change.from).abs() < 1e-9 || (less - change.from).signum() != (change.to - change.from).signum()
            {
                continue;
            }
            let mut json = serde_json::to_value(&setup).unwrap();
            let (group, field) = change.field.split_once('.').unwrap();
            json[group][field] = less.into();
            let after = Setup::read(&json).map(|(setup, _)| report_of(&setup)).unwrap();
            assert_ne!(after.verdict, Outcome::Clears, "{change:?}: {less} is enough");
        }
    }
}

/// Asking for more room can only take clock angles away.
#[test]
fn a_larger_wanted_gap_never_widens_a_window() {
    for setup in bench_setups(60) {
        let mut asking = setup.clone();
        asking.required.tube += 0.7;
        asking.required.plate += 0.4;
        asking.required.line += 0.5;
        let clear =
            |setup: &Setup| Arcs::of(&ring(setup).unwrap().windows.iter().map(|window| window.arc).collect::<Vec<_>>());
        let (before, after) = (clear(&setup), clear(&asking));
        let gained = after.and(&before.complement());
        // Edges are right to a hundredth of a degree.
        assert!(gained.arcs().iter().all(|arc| arc.width <= 0.02), "{gained:?}");
    }
}

/// The tube's lower end only ever gives room away. Neck and web grow with it, so nothing of the kind holds for those.
#[test]
fn a_longer_dropout_never_brings_the_tube_nearer() {
    for setup in setups(5) {
        let mut longer = setup.clone();
        longer.fork.tube_end += 7.0;
        let (before, after) = (report_of(&setup), report_of(&longer));
        let pairs = before.pairs.iter().zip(&after.pairs);
        for (before, after) in pairs.filter(|(pair, _)| pair.name.ends_with("/tube")) {
            assert!(after.gap >= before.gap - 1e-4, "{}: {} after {}", before.name, after.gap, before.gap);
        }
    }
}

/// Common practice, no source: on a short dropout with a 100 mm hub a 203 rotor has room where a 180 does not; a 115 hub
/// in the same fork recesses the dropout, and no common rotor makes up for it.
#[test]
fn the_what_if_table_of_the_default_fork_tells_what_the_trade_knows() {
    let setup = Setup::default();
    let cell = |rotor, hub| what_if(&setup, rotor, hub, Fork::Kept, Rules::ALL).unwrap();
    assert_eq!(cell(203.0, 100.0).as_cut.verdict, Outcome::Clears);
    for (rotor, hub) in [(180.0, 100.0), (180.0, 115.0), (203.0, 115.0)] {
        assert_ne!(cell(rotor, hub).as_cut.verdict, Outcome::Clears, "{rotor} on {hub}");
    }
    let shortest = |rotor| cell(rotor, 100.0).as_cut_tube_end.unwrap();
    assert!(shortest(180.0) > shortest(203.0) + 1.0, "{} and {}", shortest(180.0), shortest(203.0));
    assert_near(cell(180.0, 115.0).recess, 7.5, 1e-9, "recess of a 115 hub");
}

#[test]
fn what_if_cells_agree_with_plain_reports() {
    for setup in bench_setups(40) {
        for (rotor, hub, fork) in [(180.0, 110.0, Fork::Kept), (203.0, 135.0, Fork::FollowsHub)] {
            let changed = with_rotor_and_hub(&setup, rotor, hub, fork);
            let (cell, report) = (what_if(&setup, rotor, hub, fork, Rules::ALL).unwrap(), report_of(&changed));
            assert_eq!((cell.as_cut.verdict, cell.as_cut.binding), (report.verdict, report.binding));
            assert_near(cell.recess, report.recess.value, 1e-12, "recess");
            if fork == Fork::FollowsHub {
                assert_near(cell.recess, 0.0, 1e-12, "a fork built to the hub laps");
            }
            if let Some(best) = &cell.best {
                let report = report_of(&at_clock(&changed, best.clock));
                assert_eq!(report.verdict, best.verdict);
                assert!(report.wheel_removal.comes_out && report.line.run == Run::Up);
            }
            if let Some(tube_end) = cell.as_cut_tube_end {
                assert!(does(&changed, changed.tab.clock, tube_end));
            }
        }
    }
    let problems = what_if(&Setup::default(), 900.0, 100.0, Fork::Kept, Rules::ALL).unwrap_err();
    assert_eq!(problems[0].field, "wheel.rotor_diameter");
}

/// By hand, on a setup that clears beyond doubt: with posts there is no flat tab to stand in a spacer's way.
#[test]
fn posts_let_one_mount_serve_two_rotors() {
    let setup = setup_with(&json!({"caliper": {"mount": "post", "bolt_direction": [0, -1, 0]}}));
    let shared = two_rotors(&setup, [180.0, 203.0], Rules::NONE).unwrap();
    assert_near(shared.spacer, 11.5, 1e-12, "half the difference");
    assert!(!shared.windows.is_empty(), "{:?}", shared.obstacle);
    let none = two_rotors(&Setup::default(), [180.0, 203.0], Rules::NONE).unwrap();
    assert_eq!(none.obstacle.map(|obstacle| obstacle.binding), Some("caliper/plate"));
}

/// The pads' force on the wheel by vectors: they hold the rotor back, and its forward turn is towards smaller clock angles.
/// Common practice, no source: a caliper behind the leg pushes the axle out of a slot that opens downwards, one ahead of
/// it seats the axle.
#[test]
fn a_caliper_behind_the_leg_lifts_the_axle_out_of_a_downward_slot() {
    let mut setup = Setup::default();
    for (clock, expected) in [(45.0, AxlePush::Lifts), (-45.0, AxlePush::Seats), (0.0, AxlePush::Neither)] {
        assert_eq!(axle_push(&setup, clock), expected, "{clock}°");
    }
    for slot in [-135.0_f64, -90.0, 90.0, 150.0] {
        setup.dropout.slot_direction = slot;
        for clock in [-160.0_f64, -70.0, 20.0, 110.0] {
            // (back, up): the way of growing clock angles, against the slot's opening.
            let (sin, cos) = clock.to_radians().sin_cos();
            let (slot_sin, slot_cos) = slot.to_radians().sin_cos();
            let outward = cos * slot_sin - sin * slot_cos;
            let expected = if outward > 0.0 { AxlePush::Lifts } else { AxlePush::Seats };
            assert_eq!(axle_push(&setup, clock), expected, "slot {slot}°, caliper {clock}°");
        }
    }
}

#[test]
fn the_eight_positions_hold_what_they_promise() {
    for setup in bench_setups(10) {
        let places = positions(&setup).unwrap();
        assert_eq!(places.len(), 8);
        for place in places {
            let mut there = at_clock(&setup, place.clock);
            there.side = place.side;
            let report = report_of(&there);
            let margin = report.pairs.iter().map(|pair| pair.margin).fold(f64::MAX, f64::min);
            assert_eq!(report.line.run, place.line);
            assert_eq!(report.wheel_removal.comes_out, place.wheel_out, "{place:?}");
            if place.verdict == Verdict::Clears {
                assert_near(margin, place.margin, 1e-4, "margin");
            }
            assert_eq!(place.behind, there.tab.clock.to_radians().sin() >= -1e-9, "{place:?}");
            assert_eq!(place.above, there.tab.clock.to_radians().cos() >= -1e-9, "{place:?}");
        }
    }
}
