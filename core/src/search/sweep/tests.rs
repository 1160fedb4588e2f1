//! Sweeps against plain setups, and the bounds they skip by.

#![allow(clippy::unwrap_used, reason = "a test that finds no gap should stop")]

use super::*;
use crate::fit::{binding, clearances};
use crate::setup::Side;

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
    for setup in setups() {
        let mut sweep = Sweep::of(&setup).unwrap();
        for index in 0..sweep.tracked.len() {
            for (step, turn) in [0.01_f64, 0.3, 2.0, 9.0].into_iter().cycle().take(72).enumerate() {
                let clock = -180.0 + 5.0 * step as f64;
                sweep.turn_to(clock);
                let before = sweep.find_gap(index).unwrap();
                let Tracked { name, reach, normal, .. } = sweep.tracked[index];
                sweep.turn_to(clock + turn);
                let (low, high) = (sweep.at_least(index), sweep.at_most(index));
                let after = sweep.find_gap(index).unwrap();
                let most = reach * turn.to_radians();
                let what = format!("{} from {clock}° by {turn}°: {before} to {after}", name.key());
                assert!((after - before).abs() <= most + 1e-5, "{what}, more than {most}");
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
}
