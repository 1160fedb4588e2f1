//! Angles: brought back into one turn, and their sines.

/// Sine and cosine of an angle, rad, the same on every machine to the last digit, as the standard library's are not: gaps that
/// are iterated from them then agree too.
pub(crate) fn sin_cos(angle: f64) -> (f64, f64) {
    libm::sincos(angle)
}

/// The same angle in [0, `whole`], where a whole turn is `whole`.
///
/// As `rem_euclid`, to the last bit for angles of a few turns; that one's remainder for numbers of any size would be
/// 2 kB of the page.
pub(crate) fn turned(angle: f64, whole: f64) -> f64 {
    let rest = angle - whole * (angle / whole).floor();
    // A quotient just below a whole number may have been rounded up to it.
    if rest < 0.0 { rest + whole } else { rest }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::f64::consts::TAU;

    proptest! {
        #[test]
        fn the_remainder_of_the_standard_library(
            angle in -2.0..2.0_f64, turns in -2_i32..=2, away in -3_i64..=3, whole in prop_oneof![Just(360.0), Just(TAU)],
        ) {
            let beside = f64::from_bits((whole * f64::from(turns)).to_bits().saturating_add_signed(away));
            for angle in [angle * whole, beside] {
                prop_assert_eq!(turned(angle, whole), angle.rem_euclid(whole), "{} of {}", angle, whole);
            }
        }
    }
}
