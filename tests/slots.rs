//! The axle's slot on a grid of points: what is cut away, what that leaves, and what is told where it cannot be.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::cut::{Piece, PieceKey, Region, pieces, plate_region};
use tabwright_core::{Problem, Setup};
use tabwright_tests::svg::Point;
use tabwright_tests::{assert_near, setup_with};

/// Points along the slot from the axle and square to it, to the left as one looks out.
struct Frame {
    along: Point,
}

impl Frame {
    fn of(setup: &Setup) -> Self {
        let (back, up) = setup.dropout.slot_direction.to_radians().sin_cos();
        Self { along: [back, up] }
    }

    fn at(&self, along: f64, left: f64) -> Point {
        let [back, up] = self.along;
        [back * along - up * left, up * along + back * left]
    }
}

/// Where a ray leaves and enters a piece, found by looking along it.
fn changes(plate: &Region, at: &dyn Fn(f64) -> Point) -> Vec<f64> {
    let is_in = |reach: f64| plate.outer.contains(at(reach));
    let mut found = Vec::new();
    for step in 0..400 {
        let (mut low, mut high) = (f64::from(step) * 0.5, f64::from(step + 1) * 0.5);
        let before = is_in(low);
        if before == is_in(high) {
            continue;
        }
        for _ in 0..30 {
            let middle = (low + high) / 2.0;
            if is_in(middle) == before { low = middle } else { high = middle }
        }
        found.push(low);
    }
    found
}

/// How far a slot's left side, middle and right side run to the edge.
fn exits(setup: &Setup, plate: &Region) -> [Vec<f64>; 3] {
    let (frame, half) = (Frame::of(setup), setup.dropout.slot_width / 2.0);
    [half, 0.0, -half].map(|left| changes(plate, &|reach| frame.at(reach, left)))
}

/// Whether a point is in the slot or its lead-in, and how far it is from being otherwise, at most.
fn in_slot(setup: &Setup, exits: &[f64; 3], [back, up]: Point) -> (bool, f64) {
    let [x, y] = Frame::of(setup).along;
    let (along, left) = (back * x + up * y, up * x - back * y);
    let (half, chamfer) = (setup.dropout.slot_width / 2.0, setup.dropout.slot_chamfer);
    if along < 0.0 {
        let off = along.hypot(left) - half;
        return (off < 0.0, off.abs());
    }
    // At 45° from where the lead-in starts.
    let start = exits[if left > 0.0 { 0 } else { 2 }] - chamfer;
    let off = left.abs() - half - if chamfer > 0.0 { (along - start).max(0.0) } else { 0.0 };
    (off < 0.0, off.abs())
}

fn setups() -> Vec<Setup> {
    [
        json!({}),
        json!({"dropout": {"slot_direction": 135, "slot_chamfer": 2.5}}),
        json!({"dropout": {"slot_direction": -100, "slot_width": 13, "eye_radius": 26, "slot_chamfer": 1.5}}),
        json!({"dropout": {"slot_direction": 70, "slot_width": 7, "slot_chamfer": 0.4}, "tab": {"clock": -30}, "fork": {"tube_end": 40}}),
        json!({"dropout": {"slot_direction": 160, "slot_chamfer": 0}, "fork": {"axle_offset": 22}, "side": "right"}),
        json!({"dropout": {"slot_direction": -150, "slot_chamfer": 4}, "tab": {"offset": 7}}),
    ]
    .iter()
    .map(setup_with)
    .collect()
}

#[test]
fn a_slot_leaves_the_plate_but_its_own_width_and_lead_in() {
    for setup in setups() {
        let cut = pieces(&setup).unwrap();
        assert!(cut.warnings.is_empty(), "{:?}", cut.warnings);
        let slotted = |piece: &&Piece| piece.key != PieceKey::Tab;
        for piece in cut.pieces.iter().filter(slotted) {
            let exits = exits(&setup, &piece.whole).map(|all| all[0]);
            assert_near(cut.slot_depth, exits[1], 1e-6, "from the axle to the mouth");
            let mut taken = 0;
            for step in 0..170 * 170_u32 {
                let point = [f64::from(step % 170) * 0.41 - 35.0, f64::from(step / 170) * 0.41 - 35.0];
                let (is_cut, off) = in_slot(&setup, &exits, point);
                if off < 1e-3 || !piece.whole.contains(point) {
                    assert!(off < 1e-3 || !piece.region.contains(point), "{:?}: {point:?} is outside", piece.key);
                    continue;
                }
                taken += u32::from(is_cut);
                assert_eq!(piece.region.contains(point), !is_cut, "{:?}: {point:?}", piece.key);
            }
            assert!(taken > 100, "{taken}");
        }
    }
}

/// All round: a slot that runs under the tube, and one that opens on another part of the plate, and what is told of each.
#[test]
fn a_slot_that_cannot_be_has_its_reason() {
    let mut met = [0; 2];
    for changes in [
        json!({"fork": {"tube_end": 9}}),
        json!({"tab": {"clock": 95}, "fork": {"axle_offset": 15}}),
        json!({"fork": {"tube_end": 60, "axle_offset": -12}, "tab": {"clock": -65}}),
    ] {
        for step in 0..18 {
            let mut setup = setup_with(&changes);
            setup.dropout.slot_direction = f64::from(step) * 20.0 - 177.5;
            let plate = plate_region(&setup).unwrap().region;
            let all = exits(&setup, &plate);
            let (frame, half) = (Frame::of(&setup), setup.dropout.slot_width / 2.0);
            // How deep the slot comes under the tube, all in all.
            let depths = [half, 0.0, -half].into_iter().zip(&all).flat_map(|(left, exits)| {
                let fork = setup.fork.clone();
                let frame = &frame;
                (0..=400).map(move |step| {
                    let [back, up] = frame.at(exits[0] * f64::from(step) / 400.0, left);
                    (up - fork.tube_end).min(fork.tube_diameter / 2.0 - (back - fork.axle_offset).abs())
                })
            });
            let depth = depths.fold(f64::NEG_INFINITY, f64::max);
            if depth.abs() < 0.3 {
                continue;
            }
            let found = pieces(&setup);
            let problem = |words: &str| {
                let is_it =
                    |problem: &Problem| problem.field == "dropout.slot_direction" && problem.message.contains(words);
                found.as_ref().err().is_some_and(|problems| problems.iter().any(is_it))
            };
            assert_eq!(problem("runs into the tube"), depth > 0.0, "{changes} at {}", setup.dropout.slot_direction);
            met[0] += u32::from(depth > 0.0);
            if let Ok(cut) = &found {
                let warns = cut.warnings.iter().any(|one| one.message.contains("another part of the plate"));
                // The plate with its tab is a piece of its own; the plain dropout has less to open on.
                let opens_on = all.iter().any(|exits| exits.len() > 1);
                assert_eq!(warns, opens_on, "{changes} at {}: {all:?}", setup.dropout.slot_direction);
                met[1] += u32::from(opens_on);
            }
        }
    }
    assert!(met.iter().all(|count| *count > 0), "{met:?}");
}

/// A slot of 22 that leans 15° off a neck of 16: its left side passes the eye's rim of 12 and the neck's left side below 9 up,
/// the neck's right side at 72, and the neck goes on to 210.
#[test]
fn a_slot_that_parts_the_plate_says_in_how_many() {
    let setup = setup_with(&json!({
        "fork": {"tube_end": 130},
        "dropout": {"neck_width": 16, "eye_radius": 12, "slot_width": 22, "slot_direction": 15},
        "tab": {"offset": 7, "fillet_radius": 0},
    }));
    let problems = pieces(&setup).unwrap_err();
    assert_eq!(problems[0].field, "dropout.slot_direction");
    assert!(
        problems[0].message.contains("opens at 15°") && problems[0].message.contains("in 2 pieces"),
        "{problems:?}"
    );
}

/// Where the edge runs along with the lead-in, or the mouth is nearer than it is deep, there is none; nothing is said of none.
#[test]
fn a_lead_in_without_room_is_told() {
    let warned = |changes: &serde_json::Value| {
        let cut = pieces(&setup_with(changes)).unwrap();
        cut.warnings.iter().filter(|one| one.field == "dropout.slot_chamfer").count()
    };
    for (chamfer, eye, neck, expected) in [(0.0, 20, 26, 0), (2.0, 20, 26, 0), (7.5, 7, 12, 1), (4.0, 7, 12, 0)] {
        let changes = json!({"dropout": {"slot_chamfer": chamfer, "eye_radius": eye, "neck_width": neck}});
        assert_eq!(warned(&changes), expected, "{changes}");
    }
}
