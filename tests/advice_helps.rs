//! Advice on a tacked part, followed: the part that comes of it is good to weld, and the words say what was done.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::build::{Advice, AdviceKind, Chance, Reading, SHIMS, TackState};
use tabwright_core::{MatingFace, Setup};
use tabwright_tests::tacked::{Part, tacked};
use tabwright_tests::{assert_near, setup_with};

/// Each reading taken twice, without error: what is odd is believed then.
fn advice_on(part: &Part, setup: &Setup) -> Option<Advice> {
    let once = part.readings(setup).into_iter().filter(|(reading, _)| *reading != Reading::Rotor);
    let twice: Vec<_> = once.flat_map(|read| [read, read]).collect();
    let tacked = tacked(setup, &twice);
    (tacked.state == TackState::Solved).then_some(tacked.advice)
}

fn setups() -> Vec<Setup> {
    [
        json!({"tab": {"clock": 75}}),
        json!({"tab": {"clock": 75}, "side": "right", "caliper": {"mating_face": "outer", "mount_depth": 21}}),
        json!({"tab": {"clock": 120}, "fork": {"axle_offset": 4}}),
        json!({"tab": {"clock": -75}, "fork": {"tube_end": 60}}),
    ]
    .iter()
    .map(setup_with)
    .collect()
}

/// Crooked parts with the advice on each.
fn advised(kind: AdviceKind, size: [f64; 2]) -> Vec<(Setup, Part, Advice)> {
    let mut chance = Chance::new(21);
    let mut found = Vec::new();
    for setup in setups() {
        for _ in 0..40 {
            let mut part = Part::designed(&setup);
            part.holes.iter_mut().flatten().for_each(|at| *at += size[0] * chance.normal());
            part.steps.iter_mut().for_each(|at| *at += size[1] * chance.normal());
            let advice = advice_on(&part, &setup).filter(|advice| advice.kind == kind);
            found.extend(advice.map(|advice| (setup.clone(), part, advice)));
        }
    }
    found
}

fn assert_good(part: &Part, setup: &Setup, what: &str) {
    let then = advice_on(part, setup).unwrap_or_else(|| panic!("{what}: no longer solved"));
    assert_eq!(then.kind, AdviceKind::Weld, "{what}: then {}", then.text);
}

fn told(size: f64, text: &str, words: [&str; 2]) {
    let word = words[usize::from(size < 0.0)];
    let is_told =
        text.contains(&format!("{:.2} mm {word}", size.abs())) || text.contains(&format!("{:.2}°{word}", size.abs()));
    assert!(is_told == (size.abs() >= 0.05) || (size.abs() - 0.05).abs() < 1e-3, "{size} {word}: {text}");
}

#[test]
fn a_tab_moved_as_advised_is_where_it_was_designed() {
    let found = advised(AdviceKind::Break, [1.5, 0.8]);
    assert!(found.len() > 60, "{} moves", found.len());
    let mut welded = 0;
    for (setup, part, advice) in found {
        let by = advice.r#move.unwrap();
        let designed = Part::designed(&setup);
        let (from, to) = (part.middle(), designed.middle());
        assert_near(by.back, to[0] - from[0], 1e-6, "back");
        assert_near(by.up, to[1] - from[1], 1e-6, "up");
        assert_near(by.radial.hypot(by.tangential), by.back.hypot(by.up), 1e-6, "the same way in two frames");
        let long = to[0].hypot(to[1]);
        assert_near(by.radial, (by.back * to[0] + by.up * to[1]) / long, 1e-6, "away from the axle");
        assert_near(by.tangential, (by.back * to[1] - by.up * to[0]) / long, 1e-6, "in the way of growing angles");
        // Moved, turned about its middle from up towards back, set straight and shifted sideways.
        let (sin, cos) = by.turn.to_radians().sin_cos();
        let holes = part.holes.map(|[back, up]| {
            let (b, u) = (back - from[0], up - from[1]);
            [to[0] + b * cos + u * sin, to[1] + u * cos - b * sin]
        });
        let along = |part: &Part| (part.holes[1][1] - part.holes[0][1]).atan2(part.holes[1][0] - part.holes[0][0]);
        let tilted = (by.tilt.to_radians()).tan() * part.spacing();
        let slope = part.steps[1] - part.steps[0] + tilted;
        assert_near(slope, 0.0, 1e-6, "straight");
        let moved = Part { holes, ..part };
        assert_near(along(&moved), along(&designed), 1e-6, "turned as designed");
        let level = |steps: [f64; 2]| (steps[0] + steps[1]) / 2.0;
        let mut other = moved;
        let wanted = level(part.steps) + by.out;
        other.steps = [wanted; 2];
        let is_apart = (part.spacing() - designed.spacing()).abs() > 0.6;
        assert_eq!(advice.text.contains("drill the tab anew"), is_apart, "{}", advice.text);
        if !is_apart {
            assert_good(&other, &setup, &advice.text);
            welded += 1;
        }
        told(by.back, &advice.text, ["backwards", "forwards"]);
        told(by.up, &advice.text, ["up the leg", "down the leg"]);
        told(by.out, &advice.text, ["outboard", "inboard"]);
        told(by.tilt, &advice.text, [" so that hole 2 goes outboard", " so that hole 2 goes inboard"]);
        told(by.turn, &advice.text, [" turned towards growing", " turned towards falling"]);
    }
    assert!(welded > 10, "{welded} are welded then");
}

#[test]
fn a_hole_filed_as_advised_takes_the_bolts() {
    let found = advised(AdviceKind::File, [0.5, 0.05]);
    assert!(found.len() > 10, "{} files", found.len());
    for (setup, mut part, advice) in found {
        let file = advice.file.unwrap();
        let (hole, other) = if file.hole == 1.0 { (0, 1) } else { (1, 0) };
        assert_near(file.direction[0].hypot(file.direction[1]), 1.0, 1e-9, "a direction");
        assert!(file.amount > 0.0 && file.amount <= 1.5, "{file:?}");
        // What is said of the way is the way.
        let [b, u] = part.holes[hole];
        let to_other = [part.holes[other][0] - b, part.holes[other][1] - u];
        let dot = |way: [f64; 2]| (way[0] * file.direction[0] + way[1] * file.direction[1]) / way[0].hypot(way[1]);
        let (towards, outward) = (dot(to_other), dot([b, u]));
        let expected = if towards > 0.9 {
            format!("towards hole {}", other + 1)
        } else if towards < -0.9 {
            format!("away from hole {}", other + 1)
        } else if outward > 0.9 {
            "away from the axle".to_owned()
        } else if outward < -0.9 {
            "towards the axle".to_owned()
        } else {
            let [back, up] = file.direction;
            let words = [(back, ["backwards", "forwards"]), (up, ["up the leg", "down the leg"])];
            let said = words.iter().filter(|(size, _)| size.abs() > 0.3);
            said.map(|(size, words)| words[usize::from(*size < 0.0)]).collect::<Vec<_>>().join(" and ")
        };
        assert_eq!(file.towards, expected);
        assert!(
            advice.text.contains(&format!("hole {} long by {:.2} mm, {expected}", hole + 1, file.amount)),
            "{}",
            advice.text
        );
        part.holes[hole] = [b + file.amount * file.direction[0], u + file.amount * file.direction[1]];
        assert_good(&part, &setup, &advice.text);
    }
}

#[test]
fn shims_put_under_as_advised_bring_the_slot_to_the_rotor() {
    let found = advised(AdviceKind::Shim, [0.05, 2.5]);
    let mut all = found;
    // A level shift, as welding a tab too far outboard gives it.
    for setup in setups() {
        let way = if setup.caliper.mating_face == MatingFace::Inner { 1.0 } else { -1.0 };
        for off in [1.6, 2.0, 2.7, 3.3] {
            let mut part = Part::designed(&setup);
            part.steps = [setup.tab.offset + way * off; 2];
            let advice = advice_on(&part, &setup).filter(|advice| advice.kind == AdviceKind::Shim);
            all.extend(advice.map(|advice| (setup.clone(), part, advice)));
        }
    }
    assert!(all.len() > 4, "{} shims", all.len());
    for (setup, mut part, advice) in all {
        let shim = advice.shim.clone().unwrap();
        let way = if setup.caliper.mating_face == MatingFace::Inner { -1.0 } else { 1.0 };
        for hole in 0..2 {
            let pieces = &shim.pieces[hole];
            assert_near(pieces.iter().sum::<f64>(), shim.thickness[hole], 1e-9, "pieces make the thickness");
            assert!(pieces.len() <= 2 && pieces.iter().all(|piece| SHIMS.contains(piece)), "{pieces:?}");
            part.steps[hole] += way * shim.thickness[hole];
        }
        assert_near(
            shim.tilt,
            ((part.steps[1] - part.steps[0]) / part.spacing()).atan().to_degrees(),
            1e-6,
            "tilt then",
        );
        assert!(advice.text.contains(&format!("{:.2} mm from the rotor", shim.misalignment.abs())), "{}", advice.text);
        assert_good(&part, &setup, &advice.text);
        // No common pack of two brings the slot nearer.
        let off = |thickness: f64| (shim.misalignment - way * shim.thickness[0] + way * thickness).abs();
        let packs = SHIMS.iter().flat_map(|one| [0.0].iter().chain(&SHIMS).map(move |other| one + other));
        if shim.thickness[0] == shim.thickness[1] {
            let best = packs.map(off).fold(f64::MAX, f64::min);
            assert_near(off(shim.thickness[0]), best, 1e-9, "the nearest pack");
        }
    }
}
