//! A pair's gap against the gap wanted, and which of two decides.

use crate::fit::{PairName, Verdict};

/// A pair with its gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Margin {
    pub(crate) name: PairName,
    pub(crate) gap: f64,
    pub(crate) required: f64,
}

impl Margin {
    /// Gap beyond what is wanted, mm.
    pub(crate) fn margin(&self) -> f64 {
        self.gap - self.required
    }

    pub(crate) fn verdict(&self) -> Verdict {
        Verdict::of(self.gap, self.required)
    }

    /// Whether this one decides over `other`: the worse verdict, and among equals the smaller margin.
    pub(crate) fn is_worse_than(&self, other: &Margin) -> bool {
        (self.verdict(), -self.margin()) > (other.verdict(), -other.margin())
    }
}

/// The worse of two, the first of equals.
pub(crate) fn worse(first: Option<Margin>, second: Option<Margin>) -> Option<Margin> {
    match (first, second) {
        (Some(first), Some(second)) => Some(if second.is_worse_than(&first) { second } else { first }),
        (first, second) => first.or(second),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_graver_verdict_decides_then_the_smaller_margin_then_the_first() {
        let margin = |name, gap, required| Some(Margin { name, gap, required });
        let tight = margin(PairName::NutTube, 0.5, 2.0);
        let hits = margin(PairName::ToolTube, -0.25, 1.0);
        let alike = margin(PairName::LineTube, 1.5, 3.0);
        let clears = margin(PairName::RotorTube, 4.0, 2.5);
        for (first, second, decides) in [
            (tight, hits, hits),
            (hits, tight, hits),
            (tight, clears, tight),
            (clears, tight, tight),
            (tight, alike, tight),
            (alike, tight, alike),
            (None, clears, clears),
            (clears, None, clears),
        ] {
            assert_eq!(worse(first, second), decides, "{first:?} and {second:?}");
        }
        assert_eq!(hits.map(|hits| hits.margin()), Some(-1.25));
    }
}
