//! The ellipse that a point's true place lies in.

use crate::plain::plain;
use crate::turn::sin_cos;

/// A share p of two-dimensional normal draws lies within −2 ln(1 − p) of squared standard deviations (the χ² distribution
/// of two degrees of freedom has this closed form); for p = 0.95.
pub(super) const SQUARED_95: f64 = 5.991_464_547_107_979;
const CORNERS: u32 = 48;

/// An ellipse about a point. Lengths mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Ellipse {
    /// Half the longer axis.
    pub major: f64,
    /// Half the shorter axis.
    pub minor: f64,
    /// Of the longer axis, from `back` towards `up`, degrees.
    pub angle: f64,
    /// `[back, up]` all round, the last next to the first.
    pub outline: Vec<[f64; 2]>,
}

plain!(Ellipse { major, minor, angle, outline });

/// The ellipse that holds the true point 19 times in 20, from the covariance of its place.
///
/// ```
/// use tabwright_core::build::ellipse;
/// let round = ellipse([0.0, 0.0], [[0.01, 0.0], [0.0, 0.01]]);
/// assert!((round.major - 0.24477).abs() < 1e-5 && (round.major - round.minor).abs() < 1e-12);
/// ```
pub fn ellipse(at: [f64; 2], [[bb, bu], [_, uu]]: [[f64; 2]; 2]) -> Ellipse {
    let (middle, half) = ((bb + uu) / 2.0, ((bb - uu) / 2.0).hypot(bu));
    let axis = |variance: f64| (SQUARED_95 * variance.max(0.0)).sqrt();
    let (major, minor) = (axis(middle + half), axis(middle - half));
    let angle = bu.atan2((bb - uu) / 2.0) / 2.0;
    let (sin, cos) = sin_cos(angle);
    let corner = |index: u32| {
        let (y, x) = sin_cos(f64::from(index) / f64::from(CORNERS) * std::f64::consts::TAU);
        [at[0] + cos * major * x - sin * minor * y, at[1] + sin * major * x + cos * minor * y]
    };
    Ellipse { major, minor, angle: angle.to_degrees(), outline: (0..CORNERS).map(corner).collect() }
}
