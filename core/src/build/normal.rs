//! The normal distribution.

/// Share of a normal distribution that lies at or below `z` standard deviations from its mean.
///
/// Φ(z) = erfc(−z/√2)/2; good to a few units in the last place, in the tails too.
///
/// ```
/// use tabwright_core::build::normal_below;
/// assert_eq!(normal_below(0.0), 0.5);
/// ```
pub fn normal_below(z: f64) -> f64 {
    libm::erfc(-z * std::f64::consts::FRAC_1_SQRT_2) / 2.0
}

/// Share of a normal distribution between two limits; where nothing is spread, whether the mean lies between them.
///
/// `spread` is the standard deviation, not negative; `low` ≤ `high`.
///
/// ```
/// use tabwright_core::build::normal_between;
/// assert!((normal_between(0.0, 1.0, -1.0, 1.0) - 0.682_689_492_137).abs() < 1e-12);
/// assert_eq!(normal_between(2.0, 0.0, -2.0, 2.0), 1.0);
/// ```
pub fn normal_between(mean: f64, spread: f64, low: f64, high: f64) -> f64 {
    if spread <= 0.0 {
        return if low <= mean && mean <= high { 1.0 } else { 0.0 };
    }
    let (from, to) = ((low - mean) / spread, (high - mean) / spread);
    // Both ends above the mean: the difference of two small tails, and not of two numbers near 1.
    let share =
        if from > 0.0 { normal_below(-from) - normal_below(-to) } else { normal_below(to) - normal_below(from) };
    share.max(0.0)
}
