//! Numbers as a builder reads them. The only place where lengths are rounded.
//!
//! Digits are made here from whole numbers: the standard library's own way with fractions would cost the page 20 kB.

use std::cell::Cell;

use crate::plain::plain;

/// How sentences, drawings and errors write lengths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lengths {
    /// Tenths of a millimetre: `31.8 mm`.
    Millimetres,
    /// Inches: in 64ths, `1 1/4"`; below half an inch, where 64ths are coarse, in thousandths, `0.083"`.
    Inches,
}
plain!(Lengths: Millimetres = "mm", Inches = "in");

thread_local! {
    static SPOKEN: Cell<Lengths> = const { Cell::new(Lengths::Millimetres) };
}

/// Sets how lengths are written in all words that this thread makes from now on; millimetres to begin with.
///
/// A way of speaking, like a locale: it changes no number of any report, and setups are in millimetres whatever it is.
pub fn speak_in(lengths: Lengths) {
    SPOKEN.set(lengths);
}

const MM_PER_INCH: f64 = 25.4;
/// From here on a builder reads inches off a rule and not off a caliper gauge, in. Common practice, no source.
const RULE_FROM: f64 = 0.5;
const FRACTIONS: u64 = 64;

/// Bits of a double's fraction, and the exponent that makes a fraction of that many bits a whole number.
const FRACTION_BITS: u32 = 52;
const WHOLE_EXPONENT: i32 = 1023 + FRACTION_BITS as i32;

/// A number with up to three decimals and no trailing zeros: `203`, `31.75`, `-0.7`.
pub(crate) fn number(value: f64) -> String {
    signed(value, trimmed(value))
}

/// A number as drawings have it: up to three decimals and a plain minus sign.
pub(crate) fn coordinate(value: f64) -> String {
    let text = trimmed(value);
    if value < 0.0 && text != "0" { format!("-{text}") } else { text }
}

/// A number as machines read it: so many decimals, at most nine, no zeros after the last, a plain minus sign. Exact to half
/// of the last decimal for numbers below a million.
pub(crate) fn exact(value: f64, decimals: u32) -> String {
    let parts = 10_i64.pow(decimals);
    let scaled = (value * parts as f64).round() as i64;
    let (whole, rest) = (scaled.unsigned_abs() / parts as u64, scaled.unsigned_abs() % parts as u64);
    let mut text = if scaled < 0 { "-".to_owned() } else { String::new() };
    text += &whole.to_string();
    if rest > 0 {
        text += &format!(".{rest:0>width$}", width = decimals as usize);
        while text.ends_with('0') {
            text.pop();
        }
    }
    text
}

/// A length in mm as a builder reads it, with its unit: `5.0 mm`, `0.197"`, `1 1/4"`.
pub(crate) fn length(value: f64) -> String {
    match SPOKEN.get() {
        Lengths::Millimetres => tenths(value) + " mm",
        Lengths::Inches => inches(value / MM_PER_INCH) + "\"",
    }
}

/// A small length in mm, to hundredths or thousandths of an inch, with its unit: `0.25 mm`, `0.010"`.
pub(crate) fn fine_length(value: f64) -> String {
    match SPOKEN.get() {
        Lengths::Millimetres => rounded(value, 2) + " mm",
        Lengths::Inches => rounded(value / MM_PER_INCH, 3) + "\"",
    }
}

/// A length in mm as it was given, with its unit: `31.75 mm`, `1.25 in`.
pub(crate) fn given_length(value: f64) -> String {
    length_digits(value) + " " + length_symbol()
}

/// The digits of [`given_length`].
pub(crate) fn length_digits(value: f64) -> String {
    match SPOKEN.get() {
        Lengths::Millimetres => number(value),
        Lengths::Inches => number(value / MM_PER_INCH),
    }
}

/// The sign of the unit lengths are written in.
pub(crate) fn length_symbol() -> &'static str {
    match SPOKEN.get() {
        Lengths::Millimetres => "mm",
        Lengths::Inches => "in",
    }
}

fn inches(value: f64) -> String {
    // Infinities stop at the largest whole number.
    let parts = (value.abs() * FRACTIONS as f64).round_ties_even() as u64;
    if parts < (RULE_FROM * FRACTIONS as f64) as u64 || !value.is_finite() {
        return signed(value, fixed(value, 3));
    }
    let (whole, rest) = (parts / FRACTIONS, parts % FRACTIONS);
    // The largest power of two in both: 64 itself where there is no rest.
    let shared = 1 << rest.trailing_zeros().min(FRACTIONS.trailing_zeros());
    let digits = match (whole, rest) {
        (_, 0) => whole.to_string(),
        (0, _) => format!("{}/{}", rest / shared, FRACTIONS / shared),
        _ => format!("{whole} {}/{}", rest / shared, FRACTIONS / shared),
    };
    signed(value, digits)
}

/// A value to one decimal, without a minus sign on zero.
pub(crate) fn tenths(value: f64) -> String {
    signed(value, fixed(value, 1))
}

/// A value to that many decimals, at most three, without a minus sign on zero.
pub(crate) fn rounded(value: f64, decimals: usize) -> String {
    signed(value, fixed(value, decimals))
}

/// A value to two decimals, without a minus sign on zero.
pub(crate) fn hundredths(value: f64) -> String {
    rounded(value, 2)
}

/// An angle to the nearest degree: `28°`.
pub(crate) fn degrees(value: f64) -> String {
    signed(value, fixed(value, 0)) + "°"
}

/// A share as a percentage, rounded down so that only the whole is called 100 %.
pub(crate) fn percent(share: f64) -> String {
    fixed((share * 100.0 + 1e-9).floor(), 0) + " %"
}

/// Texts in a row with something between them.
pub(crate) fn row(texts: impl IntoIterator<Item = String>, between: &str) -> String {
    let mut row = String::new();
    for text in texts {
        if !row.is_empty() {
            row += between;
        }
        row += &text;
    }
    row
}

/// Puts a minus sign before the digits of a negative value, unless they show nought.
fn signed(value: f64, digits: String) -> String {
    let shows_something = digits.bytes().any(|digit| !matches!(digit, b'0' | b'.'));
    if value < 0.0 && shows_something { format!("−{digits}") } else { digits }
}

/// The digits of a value without its sign, up to three decimals, no zeros after the last.
fn trimmed(value: f64) -> String {
    let mut text = fixed(value, 3);
    if text.contains('.') {
        while text.ends_with('0') {
            text.pop();
        }
        if text.ends_with('.') {
            text.pop();
        }
    }
    text
}

/// The digits of a value without its sign, rounded to `decimals`, at most three; exact, halves to the even digit.
fn fixed(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return if value.is_nan() { "NaN" } else { "inf" }.to_owned();
    }
    let bits = value.abs().to_bits();
    let (exponent, fraction) = (bits >> FRACTION_BITS, bits & ((1 << FRACTION_BITS) - 1));
    let (exponent, fraction) = if exponent == 0 { (1, fraction) } else { (exponent, fraction | 1 << FRACTION_BITS) };
    // The value is fraction · 2^power.
    let power = exponent as i32 - WHOLE_EXPONENT;
    if power >= 0 {
        let whole = doubled(fraction, power);
        return if decimals == 0 { whole } else { whole + "." + &"0".repeat(decimals) };
    }
    // 53 bits times a thousand fit into 63.
    let scaled = fraction * 10_u64.pow(decimals as u32);
    let rounded = shifted(scaled, power.unsigned_abs());
    let mut digits = format!("{rounded:0>width$}", width = decimals + 1);
    if decimals > 0 {
        digits.insert(digits.len() - decimals, '.');
    }
    digits
}

/// `value` / 2^`places`, rounded to the nearest whole number, halves to the even one.
fn shifted(value: u64, places: u32) -> u64 {
    // Less than a half: the value has 63 bits at most.
    if places >= u64::BITS {
        return 0;
    }
    let (whole, rest, half) = (value >> places, value & ((1 << places) - 1), 1 << (places - 1));
    if rest > half || (rest == half && whole % 2 == 1) { whole + 1 } else { whole }
}

/// The decimal digits of `value` · 2^`times`, however many they are.
fn doubled(value: u64, times: i32) -> String {
    let mut digits = value.to_string().into_bytes();
    for _ in 0..times {
        let mut carry = 0;
        for digit in digits.iter_mut().rev() {
            let twice = 2 * (*digit - b'0') + carry;
            (*digit, carry) = (b'0' + twice % 10, twice / 10);
        }
        if carry > 0 {
            digits.insert(0, b'0' + carry);
        }
    }
    digits.into_iter().map(char::from).collect()
}

/// A ratio as a change: `12 % harder`, `11 % weaker`, `as hard`.
pub(crate) fn percent_change(ratio: f64) -> String {
    let change = (ratio - 1.0) * 100.0;
    match fixed(change, 0) {
        nought if nought == "0" => "as hard".to_owned(),
        digits if change > 0.0 => digits + " % harder",
        digits => digits + " % weaker",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn numbers_lose_trailing_zeros_and_the_sign_of_zero() {
        assert_eq!(number(203.0), "203");
        assert_eq!(number(31.75), "31.75");
        assert_eq!(number(-0.7), "−0.7");
        assert_eq!(number(-0.0001), "0");
        assert_eq!(number(1200.0), "1200");
        assert_eq!(coordinate(-0.7), "-0.7");
        assert_eq!(coordinate(-0.0001), "0");
        assert_eq!(exact(-0.2360679775, 9), "-0.236067978");
        assert_eq!(
            (exact(100.0, 6), exact(-0.000_000_4, 6), exact(1.05, 6)),
            ("100".into(), "0".into(), "1.05".into())
        );
        assert_eq!(tenths(-0.04), "0.0");
        assert_eq!(degrees(-0.4), "0°");
    }

    /// What `work` writes while lengths are in inches.
    fn in_inches(work: impl FnOnce() -> String) -> String {
        speak_in(Lengths::Inches);
        let words = work();
        speak_in(Lengths::Millimetres);
        words
    }

    #[test]
    fn lengths_are_in_the_unit_asked_for() {
        assert_eq!(length(31.75), "31.8 mm");
        assert_eq!(given_length(31.75), "31.75 mm");
        assert_eq!(in_inches(|| length(31.75)), "1 1/4\"");
        assert_eq!(in_inches(|| length(-25.4)), "−1\"");
        assert_eq!(in_inches(|| length(2.1)), "0.083\"");
        assert_eq!(in_inches(|| length(-0.001)), "0.000\"");
        assert_eq!(in_inches(|| length(12.7)), "1/2\"");
        assert_eq!(in_inches(|| given_length(250.0)), "9.843 in");
        assert_eq!(in_inches(|| length(f64::NAN)), "NaN\"");
        assert_eq!(in_inches(|| length(f64::INFINITY)), "inf\"");
    }

    #[test]
    fn what_a_gauge_reads_has_two_decimals_of_a_millimetre_and_three_of_an_inch() {
        assert_eq!(fine_length(0.254), "0.25 mm");
        assert_eq!(fine_length(-1.0), "−1.00 mm");
        assert_eq!(fine_length(-0.001), "0.00 mm");
        assert_eq!(in_inches(|| fine_length(-0.254)), "−0.010\"");
        assert_eq!(in_inches(|| fine_length(25.4)), "1.000\"");
    }

    /// The value of `7 63/64` in 64ths, none if it is not in lowest terms.
    fn in_64ths(fraction: &str) -> Option<i128> {
        let (whole, rest) = match fraction.split_once(' ') {
            Some(parts) => parts,
            None if fraction.contains('/') => ("0", fraction),
            None => (fraction, "0/1"),
        };
        let (top, bottom) = rest.split_once('/')?;
        let (top, bottom) = (top.parse::<i128>().ok()?, bottom.parse::<i128>().ok()?);
        let is_lowest = bottom == 1 || (top % 2 == 1 && bottom.count_ones() == 1);
        is_lowest.then_some((whole.parse::<i128>().ok()? * bottom + top) * 64 / bottom)
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(4096))]

        /// Exact rationals: an inch is 25.4 mm by definition (international yard and pound agreement, 1959), so a 64th is
        /// 127/320 mm.
        #[test]
        fn fractions_are_the_nearest_64th(microns in 12_700..5_000_000_i64) {
            let text = in_inches(|| length(microns as f64 / 1000.0));
            let parts = in_64ths(text.trim_end_matches('"')).unwrap_or(i128::MAX / 1_000_000);
            // |microns / 1000 - parts · 127 / 320| is at most half of 127 / 320.
            let off = (i128::from(microns) * 320 - parts * 127 * 1000).abs();
            prop_assert!(2 * off <= 127 * 1000, "{} µm is {}", microns, text);
        }
    }

    #[test]
    fn only_the_whole_is_a_hundred_percent() {
        assert_eq!(percent(1.0), "100 %");
        assert_eq!(percent(0.9999), "99 %");
    }

    fn assert_as_std(value: f64) -> Result<(), TestCaseError> {
        for decimals in 0..=3 {
            prop_assert_eq!(fixed(value, decimals), format!("{:.decimals$}", value.abs()), "{:e}", value);
        }
        Ok(())
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(4096))]

        #[test]
        fn digits_are_those_of_the_standard_library(any in any::<f64>(), near in -5000.0..5000.0_f64, step in -4_000_000..4_000_000_i32) {
            assert_as_std(any)?;
            assert_as_std(near)?;
            // Exact halves of the last digit, and numbers as builders write them.
            assert_as_std(f64::from(step) / 16.0)?;
            assert_as_std(f64::from(step) / 1000.0)?;
        }

        #[test]
        fn hundredths_are_drawn_as_the_standard_library_writes_them(hundredths in -100_000_000..100_000_000_i32) {
            let value = f64::from(hundredths) / 100.0;
            prop_assert_eq!(coordinate(value), value.to_string());
        }
    }

    #[test]
    fn digits_of_the_edges_are_those_of_the_standard_library() {
        for value in [0.0, -0.0, 0.5, 1.5, 2.5, 0.25, 0.125, 0.0005, f64::MIN_POSITIVE, 5e-324, f64::MAX, f64::EPSILON]
        {
            assert!(assert_as_std(value).is_ok(), "{value:e}");
        }
    }
}
