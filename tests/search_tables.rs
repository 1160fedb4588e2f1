//! Two rotors on one tab and the cells of the table, against plain reports and by hand.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::fit::hole_centres;
use tabwright_core::search::{Fork, Rules, two_rotors, what_if, with_rotor_and_hub, with_spacer};
use tabwright_core::tolerance::CLOCK_EDGE;
use tabwright_core::{Outcome, Setup, Verdict};
use tabwright_tests::brute::{at_clock, changed, clocks, deciding, keeps, uneven, with};
use tabwright_tests::{assert_near, report_of, setup_with};

/// Setups with posts or with all bodies flat on the tab: a tab stands in a spacer's way otherwise.
fn pairs_of_rotors() -> Vec<(&'static str, Setup, [f64; 2])> {
    let all = uneven();
    let of = |name: &str| all.iter().find(|(other, _)| *other == name).unwrap().1.clone();
    let flat = |mut setup: Setup| {
        setup.caliper.bodies.iter_mut().for_each(|body| body.bolted = true);
        setup
    };
    vec![
        ("posts", of("posts"), [162.0, 180.0]),
        (
            "posts, far up",
            changed(&of("posts"), &json!({"fork": {"tube_end": 78}, "wheel": {"nut_diameter": 9}})),
            [203.0, 160.0],
        ),
        ("flat", flat(of("left")), [190.0, 170.0]),
        ("flat, right", flat(of("right")), [220.0, 203.0]),
        ("default", setup_with(&json!({"fork": {"axle_offset": 4}})), [180.0, 203.0]),
        ("near", changed(&flat(of("left")), &json!({"required": {"tube": 21}})), [160.0, 180.0]),
    ]
}

#[test]
fn two_rotors_share_the_clock_angles_that_clear_with_both() {
    let (mut windows, mut obstacles) = (0, 0);
    for (name, setup, rotors) in pairs_of_rotors() {
        let small = with(&setup, "wheel.rotor_diameter", rotors[0].min(rotors[1]));
        let spacer = (rotors[0] - rotors[1]).abs() / 2.0;
        let large = with_spacer(&small, spacer);
        assert_eq!(large.wheel.rotor_diameter, rotors[0].max(rotors[1]));
        for (hole, same) in hole_centres(&small).into_iter().zip(hole_centres(&large)) {
            assert_near((hole[0] - same[0]).hypot(hole[1] - same[1]), 0.0, 1e-9, "holes of one tab");
        }
        for rules in [Rules::NONE, Rules::ALL] {
            let shared = two_rotors(&setup, rotors, rules).unwrap();
            assert_eq!(
                (shared.rotors, shared.spacer),
                ([small.wheel.rotor_diameter, large.wheel.rotor_diameter], spacer)
            );
            let margins = |clock: f64| [&small, &large].map(|setup| deciding(&at_clock(setup, clock)));
            let ruled = |clock: f64| keeps(&small, rules, clock) && keeps(&large, rules, clock);
            let does =
                |clock: f64| ruled(clock) && margins(clock).iter().all(|worst| worst.verdict() == Verdict::Clears);
            for clock in clocks(1.0) {
                let is_in = shared.windows.iter().any(|window| window.arc.contains(clock));
                assert_eq!(is_in, does(clock), "{name} at {clock}°");
            }
            for window in &shared.windows {
                windows += 1;
                let what = format!("{name}: {window:?}");
                let (from, width) = (window.arc.from, window.arc.width);
                if width < 360.0 {
                    assert!(!does(from - CLOCK_EDGE) && !does(from + width + CLOCK_EDGE), "{what}");
                }
                let there = margins(window.best);
                assert!(window.best > -180.0 && window.best <= 180.0 && window.arc.contains(window.best), "{what}");
                for (index, worst) in there.iter().enumerate() {
                    assert_near(worst.margin(), window.margins[index], 1e-4, &what);
                    assert_eq!(worst.name.key(), window.bindings[index], "{what}");
                }
                let least = window.margins[0].min(window.margins[1]);
                // Half a degree of the furthest point's way is what may be missed between two looks.
                let steps = (width / 0.5).ceil();
                for step in 1..steps as u32 {
                    let clock = from + width * f64::from(step) / steps;
                    let elsewhere = margins(clock).iter().map(|worst| worst.margin()).fold(f64::MAX, f64::min);
                    assert!(least >= elsewhere - 1e-4, "{what}: {elsewhere} mm at {clock}°");
                }
            }
            assert_eq!(shared.windows.is_empty(), shared.obstacle.is_some());
            let Some(obstacle) = shared.obstacle else { continue };
            obstacles += 1;
            let worst = |clock: f64| {
                let [small, large] = margins(clock);
                let is_large = (large.verdict(), -large.margin()) > (small.verdict(), -small.margin());
                if is_large { (large, shared.rotors[1]) } else { (small, shared.rotors[0]) }
            };
            let places = clocks(0.5).filter(|clock| ruled(*clock)).map(worst);
            let nearest = places.max_by(|a, b| a.0.margin().total_cmp(&b.0.margin()));
            match nearest {
                Some((nearest, rotor)) => {
                    assert_eq!(obstacle.binding, nearest.name.key(), "{name}");
                    assert_eq!(obstacle.rotor, Some(rotor), "{name}");
                    assert_near(obstacle.missing, -nearest.margin(), 0.6, name);
                    assert!(obstacle.missing > 0.0);
                }
                None => assert_eq!((obstacle.rotor, obstacle.binding, obstacle.missing), (None, "rules", 0.0)),
            }
        }
    }
    assert!(windows > 4 && obstacles > 1, "{windows} windows, {obstacles} obstacles");
}

#[test]
fn rules_that_no_clock_angle_keeps_to_are_the_obstacle() {
    let closed = setup_with(&json!({"dropout": {"closed": true}}));
    let obstacle = two_rotors(&closed, [180.0, 203.0], Rules::ALL).unwrap().obstacle.unwrap();
    assert_eq!((obstacle.rotor, obstacle.binding, obstacle.missing), (None, "rules", 0.0));
}

/// By hand: the tubes of a fork built to its hub stand a plate's thickness beyond either end of the hub.
#[test]
fn a_fork_that_follows_its_hub_laps() {
    let setup = setup_with(&json!({"dropout": {"thickness": 5}, "fork": {"tube_gap": 131}}));
    let built = with_rotor_and_hub(&setup, 160.0, 115.0, Fork::FollowsHub);
    assert_eq!((built.wheel.rotor_diameter, built.wheel.hub_width, built.fork.tube_gap), (160.0, 115.0, 125.0));
    let kept = with_rotor_and_hub(&setup, 180.0, 135.0, Fork::Kept);
    assert_eq!((kept.wheel.rotor_diameter, kept.wheel.hub_width, kept.fork.tube_gap), (180.0, 135.0, 131.0));
    assert_eq!((built.tab.clock, built.caliper), (setup.tab.clock, setup.caliper.clone()));
}

#[test]
fn cells_say_what_reports_of_the_changed_setups_say() {
    let (mut some, mut none, mut unbuildable) = (0, 0, 0);
    let mut setups = uneven();
    setups.push(("out of line", changed(&setups[0].1, &json!({"caliper": {"mount_depth": 19.5}}))));
    for (name, setup) in setups {
        for (rotor, hub, fork) in [
            (setup.wheel.rotor_diameter, setup.wheel.hub_width, Fork::Kept),
            (160.0, 135.0, Fork::FollowsHub),
            (203.0, 100.0, Fork::Kept),
        ] {
            for rules in [Rules::NONE, Rules::ALL] {
                let there = with_rotor_and_hub(&setup, rotor, hub, fork);
                let (cell, report) = (what_if(&setup, rotor, hub, fork, rules).unwrap(), report_of(&there));
                let what = format!("{name}: {rotor} on {hub}, {fork:?}");
                assert_eq!((cell.rotor_diameter, cell.hub_width, cell.tube_gap), (rotor, hub, there.fork.tube_gap));
                assert_eq!((cell.as_cut.clock, cell.as_cut.verdict), (setup.tab.clock, report.verdict), "{what}");
                let own = deciding(&there);
                assert_eq!(cell.as_cut.binding, own.name.key(), "{what}");
                assert_near(cell.as_cut.margin, own.margin(), 1e-9, &what);
                assert_eq!((cell.recess, cell.joint), (report.recess.value, report.recess.kind), "{what}");

                let clear = |clock: f64| {
                    keeps(&there, rules, clock) && deciding(&at_clock(&there, clock)).verdict() == Verdict::Clears
                };
                let Some(best) = cell.best else {
                    none += 1;
                    assert!(!clocks(1.0).any(clear), "{what}: there is a place");
                    continue;
                };
                some += 1;
                assert!(clear(best.clock) && best.clock > -180.0 && best.clock <= 180.0, "{what}: {best:?}");
                let binding = deciding(&at_clock(&there, best.clock));
                assert_eq!(best.binding, binding.name.key(), "{what}");
                assert_near(best.margin, binding.margin(), 1e-4, &what);
                let is_unbuildable = report.verdict == Outcome::CannotBuild;
                unbuildable += usize::from(is_unbuildable);
                assert_eq!(best.verdict, if is_unbuildable { Outcome::CannotBuild } else { Outcome::Clears }, "{what}");
                // Nowhere that keeps to the rules is more left of what is least.
                let most =
                    clocks(1.0).filter(|clock| clear(*clock)).map(|clock| deciding(&at_clock(&there, clock)).margin());
                let most = most.fold(f64::MIN, f64::max);
                assert!(best.margin >= most - 0.01, "{what}: {best:?}, {most} mm elsewhere");
            }
        }
    }
    assert!(
        some > 5 && none > 2 && unbuildable > 0,
        "{some} places, {none} without, {unbuildable} that cannot be built"
    );
}
