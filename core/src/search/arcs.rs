//! Sets of clock angles.

use crate::plain::plain;
use crate::turn::turned;

/// A stretch of clock angles, from `from` clockwise as the clock angle grows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arc {
    /// Where it starts, degrees, in (−180, 180].
    pub from: f64,
    /// Its width, degrees, above 0 and at most 360.
    pub width: f64,
}

plain!(Arc { from, width });

impl Arc {
    /// Where it ends, degrees, in (−180, 180].
    pub fn to(&self) -> f64 {
        wrapped(self.from + self.width)
    }

    /// Its middle, degrees, in (−180, 180].
    pub fn middle(&self) -> f64 {
        wrapped(self.from + self.width / 2.0)
    }

    /// Whether a clock angle lies in it, ends included.
    pub fn contains(&self, clock: f64) -> bool {
        turned(clock - self.from, 360.0) <= self.width || self.width >= 360.0
    }
}

/// A clock angle in (−180, 180].
pub(crate) fn wrapped(clock: f64) -> f64 {
    let clock = turned(clock, 360.0);
    if clock > 180.0 { clock - 360.0 } else { clock }
}

/// Any set of clock angles made of stretches that do not touch.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Arcs {
    /// Intervals within [−180, 180], in order.
    spans: Vec<[f64; 2]>,
}

impl Arcs {
    /// The whole turn.
    pub fn all() -> Self {
        Self { spans: vec![[-180.0, 180.0]] }
    }

    /// The stretch between two clock angles, from the first in the way of growing angles.
    pub fn between(from: f64, to: f64) -> Self {
        if to - from >= 360.0 {
            return Self::all();
        }
        if to <= from {
            return Self::default();
        }
        let (from, width) = (wrapped(from), to - from);
        if from + width <= 180.0 {
            Self { spans: vec![[from, from + width]] }
        } else {
            Self { spans: vec![[-180.0, from + width - 360.0], [from, 180.0]] }
        }
    }

    /// From stretches that do not touch.
    pub fn of(arcs: &[Arc]) -> Self {
        let mut spans: Vec<[f64; 2]> = Vec::new();
        for span in arcs.iter().flat_map(|arc| Self::between(arc.from, arc.from + arc.width).spans) {
            let at = spans.partition_point(|other| other[0] < span[0]);
            spans.insert(at, span);
        }
        Self::from_spans(spans)
    }

    /// From intervals within [−180, 180] in rising order; those that touch are joined.
    pub(crate) fn from_spans(spans: impl IntoIterator<Item = [f64; 2]>) -> Self {
        let mut joined: Vec<[f64; 2]> = Vec::new();
        for [from, to] in spans {
            match joined.last_mut() {
                Some(last) if from <= last[1] => last[1] = last[1].max(to),
                _ => joined.push([from, to]),
            }
        }
        Self { spans: joined }
    }

    /// Whether there is nothing in it.
    pub fn is_empty(&self) -> bool {
        self.spans.is_empty()
    }

    /// Whether a clock angle lies in it, ends included.
    pub fn contains(&self, clock: f64) -> bool {
        let clock = wrapped(clock);
        // The turn's two ends are one place.
        let inside = |clock: f64| self.spans.iter().any(|&[from, to]| (from..=to).contains(&clock));
        inside(clock) || (clock == 180.0 && inside(-180.0))
    }

    /// What lies in both.
    pub fn and(&self, other: &Arcs) -> Self {
        let mut spans = Vec::new();
        for &[from, to] in &self.spans {
            for &[other_from, other_to] in &other.spans {
                let (from, to) = (from.max(other_from), to.min(other_to));
                if from < to {
                    spans.push([from, to]);
                }
            }
        }
        Self { spans }
    }

    /// The rest of the turn.
    pub fn complement(&self) -> Self {
        let mut spans = Vec::new();
        let mut start = -180.0;
        for &[from, to] in &self.spans {
            if from > start {
                spans.push([start, from]);
            }
            start = to;
        }
        if start < 180.0 {
            spans.push([start, 180.0]);
        }
        Self { spans }
    }

    /// The intervals within [−180, 180] it is made of.
    pub(crate) fn spans(&self) -> &[[f64; 2]] {
        &self.spans
    }

    /// The angle nearest to `clock` that lies `inset` inside a stretch, or in its middle where it is narrower; none where
    /// the set is empty.
    pub fn nearest(&self, clock: f64, inset: f64) -> Option<f64> {
        let turn_to = |angle: &f64| wrapped(angle - clock).abs();
        let nearest_in = |arc: Arc| {
            let inset = if arc.width >= 360.0 { 0.0 } else { inset.min(arc.width / 2.0) };
            let along = turned(clock - arc.from, 360.0);
            if (inset..=arc.width - inset).contains(&along) {
                return clock;
            }
            let ends = [arc.from + inset, arc.from + arc.width - inset].map(wrapped);
            if turn_to(&ends[0]) <= turn_to(&ends[1]) { ends[0] } else { ends[1] }
        };
        self.arcs().into_iter().map(nearest_in).min_by(|a, b| turn_to(a).total_cmp(&turn_to(b)))
    }

    /// The stretches, those that meet at ±180 joined.
    pub fn arcs(&self) -> Vec<Arc> {
        let mut arcs: Vec<Arc> = self.spans.iter().map(|&[from, to]| Arc { from, width: to - from }).collect();
        let meets = self.spans.len() > 1
            && self.spans.first().is_some_and(|first| first[0] == -180.0)
            && self.spans.last().is_some_and(|last| last[1] == 180.0);
        if meets {
            let first = arcs.remove(0);
            if let Some(last) = arcs.last_mut() {
                last.width += first.width;
            }
        }
        arcs.iter_mut().for_each(|arc| arc.from = wrapped(arc.from));
        arcs
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stretches_over_the_turns_end_stay_whole() {
        let arcs = Arcs::between(170.0, 200.0);
        assert_eq!(arcs.arcs(), [Arc { from: 170.0, width: 30.0 }]);
        assert!(arcs.contains(180.0) && arcs.contains(-175.0) && !arcs.contains(-150.0));
        assert_eq!(arcs.complement().arcs(), [Arc { from: -160.0, width: 330.0 }]);
        assert_eq!(arcs.and(&Arcs::between(-170.0, 175.0)).arcs().len(), 2);
        assert_eq!(arcs.arcs()[0].to(), -160.0);
        assert_eq!(arcs.nearest(179.0, 1.0), Some(179.0));
        assert_eq!(arcs.nearest(100.0, 1.0), Some(171.0));
        assert_eq!(arcs.nearest(-100.0, 1.0), Some(-161.0));
        assert_eq!(arcs.nearest(-100.0, 40.0), Some(-175.0));
        assert_eq!(Arcs::all().complement(), Arcs::default());
        assert_eq!(Arcs::all().arcs(), [Arc { from: 180.0, width: 360.0 }]);
    }
}
