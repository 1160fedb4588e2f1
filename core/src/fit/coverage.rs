//! How much of the pad lies on the braking band, exactly.

use super::frame::pad_radius;
use crate::setup::Setup;
use crate::turn::sin_cos;

/// How the pad lies on the rotor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PadCover {
    /// Distance of the pads' middle from the axle, mm.
    pub radius: f64,
    /// Share of the pad's area on the braking band, 0 to 1.
    pub coverage: f64,
    /// How far the pad's furthest corner reaches past the rotor's edge, mm, not negative.
    pub overhang: f64,
    /// How far the middle of the pad's lower edge reaches below the braking band, mm, not negative.
    pub below_band: f64,
}

/// The cover of a setup's pads, taken as rectangles square to the radius through their middle.
pub fn pad_cover(setup: &Setup) -> PadCover {
    turned_cover(setup, 0.0)
}

/// The same with the pads turned about their middle, degrees.
pub(crate) fn turned_cover(setup: &Setup, turn: f64) -> PadCover {
    let pad = &setup.caliper.pad;
    let middle = pad_radius(setup);
    let edge = setup.wheel.rotor_diameter / 2.0;
    let band = edge - setup.wheel.track_width;
    let (half, low, high) = (pad.length / 2.0, middle - pad.height / 2.0, middle + pad.height / 2.0);
    let (sin, cos) = sin_cos(turn.to_radians());
    let turned = |[x, y]: [f64; 2]| [cos * x - sin * (y - middle), middle + sin * x + cos * (y - middle)];
    let corners = [[-half, low], [half, low], [half, high], [-half, high]].map(turned);
    let furthest = corners.iter().map(|[x, y]| x.hypot(*y)).fold(0.0, f64::max);
    let [x, y] = turned([0.0, low]);
    let on_band = area_in_disc(&corners, edge) - area_in_disc(&corners, band);
    PadCover {
        radius: middle,
        coverage: (on_band / (pad.length * pad.height)).clamp(0.0, 1.0),
        overhang: (furthest - edge).max(0.0),
        below_band: (band - x.hypot(y)).max(0.0),
    }
}

/// Area of a polygon, counter-clockwise, inside a disc about the origin.
///
/// Every edge adds the signed area that it spans with the origin: a triangle where it runs inside the disc, a sector
/// where it runs outside.
fn area_in_disc(corners: &[[f64; 2]], radius: f64) -> f64 {
    let edges = corners.iter().zip(corners.iter().cycle().skip(1));
    edges.map(|(&a, &b)| edge_area(a, b, radius)).sum()
}

fn edge_area(a: [f64; 2], b: [f64; 2], radius: f64) -> f64 {
    let step = [b[0] - a[0], b[1] - a[1]];
    let at = |t: f64| [a[0] + t * step[0], a[1] + t * step[1]];
    // Where |a + t·step| = radius.
    let (squared, half, rest) = (dot(step, step), dot(a, step), dot(a, a) - radius * radius);
    let root = half * half - squared * rest;
    if root <= 0.0 {
        return sector(a, b, radius);
    }
    let enter = ((-half - root.sqrt()) / squared).clamp(0.0, 1.0);
    let leave = ((-half + root.sqrt()) / squared).clamp(0.0, 1.0);
    let (entry, exit) = (at(enter), at(leave));
    sector(a, entry, radius) + cross(entry, exit) / 2.0 + sector(exit, b, radius)
}

/// Signed area of the disc's sector between the directions of two points.
fn sector(a: [f64; 2], b: [f64; 2], radius: f64) -> f64 {
    radius * radius * cross(a, b).atan2(dot(a, b)) / 2.0
}

fn dot(a: [f64; 2], b: [f64; 2]) -> f64 {
    a[0] * b[0] + a[1] * b[1]
}

fn cross(a: [f64; 2], b: [f64; 2]) -> f64 {
    a[0] * b[1] - a[1] * b[0]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn closed_forms_of_disc_and_square() {
        let square = |half: f64| [[-half, -half], [half, -half], [half, half], [-half, half]];
        let pi = std::f64::consts::PI;
        // Disc inside the square, square inside the disc, and the four segments of a disc cut at half its radius.
        let cut = pi - 4.0 * (pi / 3.0 - 0.75_f64.sqrt() / 2.0);
        let overlap_of_corners = area_in_disc(&square(0.5_f64.sqrt() + 0.2), 1.0);
        assert!((area_in_disc(&square(2.0), 1.0) - pi).abs() < 1e-12);
        assert!((area_in_disc(&square(0.5), 1.0) - 1.0).abs() < 1e-12);
        assert!(
            (area_in_disc(&[[-1.0, -0.5], [1.0, -0.5], [1.0, 0.5], [-1.0, 0.5]], 1.0) - (pi + (cut - pi) / 2.0)).abs()
                < 1e-12
        );
        assert!(overlap_of_corners < pi && overlap_of_corners > 2.9);
    }
}
