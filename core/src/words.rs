//! Numbers as a builder reads them. The only place where lengths are rounded.

/// A number with up to three decimals and no trailing zeros: `203`, `31.75`, `-0.7`.
pub(crate) fn number(value: f64) -> String {
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.replace('-', "−") }
}

/// A length to a tenth of a millimetre, with its unit: `5.0 mm`.
pub(crate) fn mm(value: f64) -> String {
    format!("{} mm", tenths(value))
}

/// A value to one decimal, without a minus sign on zero.
pub(crate) fn tenths(value: f64) -> String {
    let text = format!("{value:.1}");
    if text == "-0.0" { "0.0".to_owned() } else { text.replace('-', "−") }
}

/// An angle to the nearest degree: `28°`.
pub(crate) fn degrees(value: f64) -> String {
    let text = format!("{value:.0}°");
    if text == "-0°" { "0°".to_owned() } else { text.replace('-', "−") }
}

/// A share as a percentage, rounded down so that only the whole is called 100 %.
pub(crate) fn percent(share: f64) -> String {
    format!("{:.0} %", (share * 100.0 + 1e-9).floor())
}

/// A ratio as a change: `12 % harder`, `11 % weaker`, `as hard`.
pub(crate) fn percent_change(ratio: f64) -> String {
    let change = ((ratio - 1.0) * 100.0).round();
    if change > 0.0 {
        format!("{change:.0} % harder")
    } else if change < 0.0 {
        format!("{:.0} % weaker", -change)
    } else {
        "as hard".to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_lose_trailing_zeros_and_the_sign_of_zero() {
        assert_eq!(number(203.0), "203");
        assert_eq!(number(31.75), "31.75");
        assert_eq!(number(-0.7), "−0.7");
        assert_eq!(number(-0.0001), "0");
        assert_eq!(tenths(-0.04), "0.0");
        assert_eq!(degrees(-0.4), "0°");
    }

    #[test]
    fn only_the_whole_is_a_hundred_percent() {
        assert_eq!(percent(1.0), "100 %");
        assert_eq!(percent(0.9999), "99 %");
    }
}
