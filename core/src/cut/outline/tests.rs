//! Fillets by closed forms, and outlines that are not those of the parts.

#![allow(clippy::unwrap_used, reason = "a test that finds no outline should stop")]

use super::*;
use crate::cut::path::Corner;

fn slab(discs: &[[f64; 3]]) -> Slab {
    let discs = discs.iter().map(|&[back, up, radius]| Disc::new(back, up, radius));
    Slab { discs: discs.collect(), low: 0.0, high: 6.0 }
}

/// Bars 10 and 8 wide, square to each other, with round ends beyond the corners.
fn bars() -> [Slab; 2] {
    [slab(&[[-30.0, 2.0, 5.0], [40.0, 2.0, 5.0]]), slab(&[[3.0, -25.0, 4.0], [3.0, 35.0, 4.0]])]
}

/// A fillet between edges square to each other fills a square less a quarter of a circle: (1 − π/4) r².
#[test]
fn closing_fills_the_inner_corners_with_rounds() {
    let bars = bars();
    let sharp = joined(&[&bars[0], &bars[1]], (0.0, 0.0)).unwrap();
    let stadiums = 70.0 * 10.0 + 60.0 * 8.0 + std::f64::consts::PI * (25.0 + 16.0);
    assert!((sharp.area() - (stadiums - 10.0 * 8.0)).abs() < 1e-9);
    assert_eq!((inner_corners(&sharp).len(), fillets(&sharp).len()), (4, 0));
    for radius in [2.0, 6.5] {
        let round = closed(&sharp, radius).unwrap();
        let grown = 4.0 * (1.0 - std::f64::consts::FRAC_PI_4) * radius * radius;
        assert!((round.area() - sharp.area() - grown).abs() < 1e-6, "{}", round.area() - sharp.area());
        assert!(inner_corners(&round).is_empty());
        let rounds = fillets(&round);
        assert!(rounds.len() == 4 && rounds.iter().all(|(_, found)| (found - radius).abs() < 1e-9), "{rounds:?}");
        // The middles are off the corners at (−1 and 7, −3 and 7) by the radius both ways.
        for (x, y) in [(-1.0, -3.0), (7.0, -3.0), (-1.0, 7.0), (7.0, 7.0)] {
            let middle = [x + radius * f64::signum(x - 3.0), y + radius * f64::signum(y - 2.0)];
            assert!(rounds.iter().any(|(centre, _)| apart(*centre, middle) < 1e-9), "{middle:?}");
        }
        assert!(has_fillets(&round, radius) && !has_fillets(&round, radius + 2e-5) && !has_fillets(&sharp, radius));
        assert!(is_sound(&round, &[&bars[0], &bars[1]], radius));
        assert!(!is_sound(&round, &[&bars[0], &bars[1]], radius + 1e-3));
        assert!(!is_sound(&round, &[&bars[0], &bars[1]], 0.0));
    }
    assert_eq!(closed(&sharp, 0.0), Some(sharp));
}

/// Parts turned and turned back are where they were; each is larger than the one before it by the growth.
#[test]
fn parts_are_joined_turned_and_grown() {
    let (eye, bar) = (slab(&[[4.0, -3.0, 12.0]]), slab(&[[5.0, 2.0, 5.0], [9.0, 50.0, 7.0]]));
    let plain = joined(&[&eye, &bar], (0.0, 0.0)).unwrap();
    let turned = joined(&[&eye, &bar], (0.37, 0.0)).unwrap();
    assert!((turned.area() - plain.area()).abs() < 1e-9);
    let [sin, cos] = [0.37_f64.sin(), 0.37_f64.cos()];
    for (x, y) in [(4.0, -3.0), (9.0, 50.0), (9.0, 56.9), (-7.9, -3.0), (15.9, 50.0)] {
        assert!(plain.contains([x, y]) && turned.contains([x * cos - y * sin, x * sin + y * cos]), "{x}, {y}");
    }
    let larger = slab(&[[5.0, 2.0, 5.25], [9.0, 50.0, 7.25]]);
    let (grown, expected) = (joined(&[&eye, &bar], (0.0, 0.25)), joined(&[&eye, &larger], (0.0, 0.0)));
    assert!((grown.unwrap().area() - expected.unwrap().area()).abs() < 1e-9);
    assert_eq!(joined(&[&eye, &slab(&[[90.0, 0.0, 5.0]])], (0.0, 0.0)), None);
    assert_eq!(joined(&[], (0.0, 0.0)), None);
}

/// A bar whose ends are 5 and 2 round about (0, 0) and (20, 0): along it and square to its slanting side.
#[test]
fn a_hull_is_as_far_away_as_its_nearest_disc() {
    let discs = slab(&[[0.0, 0.0, 5.0], [20.0, 0.0, 2.0]]).discs;
    // The side's normal leans by the radii's difference over the length.
    let (lean, up) = (3.0 / 20.0, (1.0_f64 - 0.0225).sqrt());
    let beside = |along: f64, off: f64| {
        let radius = 5.0 - 3.0 * along;
        [20.0 * along + (radius + off) * lean, (radius + off) * up]
    };
    for (point, expected) in [
        ([-9.0, 0.0], 4.0),
        ([25.0, 0.0], 3.0),
        (beside(0.3, 6.0), 6.0),
        (beside(0.8, 1.5), 1.5),
        (beside(0.5, -1.25), -1.25),
    ] {
        assert!((outside_hull(&discs, point) - expected).abs() < 1e-3, "{point:?}: {}", outside_hull(&discs, point));
    }
}

/// What the library might have made wrong, each by a thousandth of a millimetre or a whole part, is not sound.
#[test]
fn outlines_that_are_not_the_parts_are_not_sound() {
    let bars = bars();
    let slabs = [&bars[0], &bars[1]];
    let whole = joined(&slabs, (0.0, 0.0)).unwrap();
    assert!(is_sound(&whole, &slabs, 0.0));
    let changed = |change: &dyn Fn(&mut Vec<Corner>)| {
        let mut region = whole.clone();
        change(&mut region.outer.corners);
        region
    };
    for index in 0..whole.outer.corners.len() {
        for (dx, dy) in [(1e-3, 0.0), (-1e-3, 0.0), (0.0, 1e-3), (0.0, -1e-3)] {
            let moved = changed(&|corners| {
                (corners[index].x, corners[index].y) = (corners[index].x + dx, corners[index].y + dy)
            });
            assert!(!is_sound(&moved, &slabs, 0.0), "corner {index} moved by {dx}, {dy}");
        }
        let bent = changed(&|corners| corners[index].bulge += 2e-3);
        assert!(!is_sound(&bent, &slabs, 0.0), "edge {index} bent");
    }
    // Of one bar alone the sides run through the other; a third part lies in nothing.
    let alone = joined(&slabs[..1], (0.0, 0.0)).unwrap();
    assert!(is_sound(&alone, &slabs[..1], 0.0) && !is_sound(&alone, &slabs, 0.0));
    assert!(!is_sound(&whole, &slabs[..1], 0.0));
    // An edge without length stands for nothing.
    let doubled = changed(&|corners| corners.insert(1, Corner { bulge: 0.0, x: corners[1].x + 1e-9, ..corners[1] }));
    assert!(is_sound(&doubled, &slabs, 0.0));
}

/// A round that is right about a wrong middle: a disc of a bar's own radius beside the bar's end.
#[test]
fn rounds_are_on_their_own_discs() {
    let bar = slab(&[[-30.0, 2.0, 5.0], [40.0, 2.0, 5.0]]);
    for (disc, is_one) in [([40.0, 2.0, 5.0], true), ([40.001, 2.0, 5.0], false), ([40.0, 2.001, 5.0], false)] {
        let other = slab(&[[-30.0, 2.0, 5.0], disc]);
        let region = joined(&[&other], (0.0, 0.0)).unwrap();
        assert_eq!(is_sound(&region, &[&bar], 0.0), is_one, "{disc:?}");
    }
}
