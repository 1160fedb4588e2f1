//! Directions all over the sphere, and the top of a ridge.

use super::*;

/// Directions all over the sphere, by latitude and longitude.
pub(in crate::solid) fn everywhere() -> impl Iterator<Item = Vector> {
    (0..=24).flat_map(|step| {
        let (z, radius) = (f64::from(step) * 7.5 - 90.0).to_radians().sin_cos();
        (0..48).map(move |turn| {
            let (sin, cos) = (f64::from(turn) * 7.5 + 1.3).to_radians().sin_cos();
            Vector::new(radius * cos, radius * sin, z)
        })
    })
}

/// Evenly: a sphere's share of `count` is a cap of this half angle, and neighbours are about twice that apart.
#[test]
fn directions_are_spread_evenly() {
    for count in [642, PARTING_DIRECTIONS] {
        let all: Vec<Vector> = spread(count).collect();
        assert_eq!(all.len(), count as usize);
        let cap = (4.0 / f64::from(count)).sqrt();
        assert!(all.iter().all(|one| (one.length() - 1.0).abs() < 1e-12));
        for (index, one) in all.iter().enumerate().step_by(7) {
            let others = all.iter().enumerate().filter(|(other, _)| *other != index);
            let nearest = others.map(|(_, other)| (*one - *other).length()).fold(f64::MAX, f64::min);
            assert!(nearest > cap && nearest < 2.2 * cap, "{nearest} of {cap} at {index}");
        }
        for way in everywhere() {
            let nearest = all.iter().map(|one| (*one - way).length()).fold(f64::MAX, f64::min);
            assert!(nearest < 1.6 * cap, "{nearest} of {cap} at {way}");
        }
    }
}

#[test]
fn two_directions_are_square_to_any_and_to_each_other() {
    for normal in everywhere() {
        let (side, other) = square_to(normal);
        for unit in [side, other] {
            assert!((unit.length() - 1.0).abs() < 1e-12 && unit.dot(normal).abs() < 1e-12, "{unit} to {normal}");
        }
        assert!(side.dot(other).abs() < 1e-12);
    }
}
