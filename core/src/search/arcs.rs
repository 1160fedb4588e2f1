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
    /// Every half degree in [-180, 180], off the ends of the stretches below.
    fn clocks() -> impl Iterator<Item = f64> {
        (0..720).map(|step| -179.87 + 0.5 * f64::from(step))
    }

    /// Stretches that do not touch, some over the turn's end.
    fn some() -> [Vec<Arc>; 4] {
        let arcs = |arcs: &[[f64; 2]]| arcs.iter().map(|&[from, width]| Arc { from, width }).collect();
        [
            arcs(&[[-150.0, 20.0], [-20.0, 55.0], [100.0, 30.0]]),
            arcs(&[[160.0, 70.0], [-40.0, 25.0]]),
            arcs(&[[30.0, 5.0]]),
            arcs(&[[-100.0, 330.0]]),
        ]
    }

    fn is_in(arcs: &[Arc], clock: f64) -> bool {
        arcs.iter()
            .any(|arc| (-2..=2).any(|turns| (0.0..=arc.width).contains(&(clock + 360.0 * f64::from(turns) - arc.from))))
    }

    #[test]
    fn sets_hold_what_their_stretches_hold() {
        for one in some() {
            let set = Arcs::of(&one);
            assert!(!set.is_empty() && set.arcs().len() == one.len(), "{set:?}");
            for clock in clocks() {
                assert_eq!(set.contains(clock), is_in(&one, clock), "{clock}° in {one:?}");
                assert_eq!(set.complement().contains(clock), !is_in(&one, clock), "{clock}° beside {one:?}");
                assert_eq!(one.iter().any(|arc| arc.contains(clock)), is_in(&one, clock), "{clock}°");
                for other in some() {
                    let both = is_in(&one, clock) && is_in(&other, clock);
                    assert_eq!(set.and(&Arcs::of(&other)).contains(clock), both, "{clock}° in {one:?} and {other:?}");
                }
            }
            for arc in &one {
                assert!(set.contains(arc.from) && set.contains(arc.to()) && arc.contains(arc.middle()));
                assert!((arc.width / 2.0 - wrapped(arc.middle() - arc.from).abs()).abs() < 1e-9 || arc.width > 180.0);
            }
        }
        assert!(Arcs::default().is_empty() && Arcs::default().nearest(7.0, 1.0).is_none());
    }

    /// By looking at every hundredth of a degree.
    #[test]
    fn the_nearest_angle_is_inset_and_no_other_is_nearer() {
        let apart = |one: f64, other: f64| wrapped(one - other).abs();
        for arcs in some() {
            let set = Arcs::of(&arcs);
            for inset in [0.0_f64, 0.5, 4.0] {
                let fits = |clock: f64| {
                    arcs.iter().any(|arc| {
                        let inset = inset.min(arc.width / 2.0);
                        is_in(&[Arc { from: arc.from + inset, width: arc.width - 2.0 * inset }], clock)
                    })
                };
                for clock in [-179.5, -120.25, -85.0, -31.0, 3.0, 28.5, 44.0, 131.0, 177.0] {
                    let found = set.nearest(clock, inset).unwrap_or(f64::NAN);
                    assert!(fits(found) || fits(found + 1e-9) || fits(found - 1e-9), "{found}° of {arcs:?}");
                    let angles = (0..36_000).map(|step| 0.01 * f64::from(step)).filter(|angle| fits(*angle));
                    let nearest = angles.map(|angle| apart(angle, clock)).fold(f64::MAX, f64::min);
                    assert!((apart(found, clock) - nearest).abs() < 0.0101, "{found}° is {nearest}° from {clock}°");
                    assert!(found > -180.0 && found <= 180.0 || found == clock);
                }
            }
        }
    }

    #[test]
    fn no_width_holds_nothing_and_a_turn_holds_all() {
        assert!(Arcs::between(40.0, 40.0).is_empty() && Arcs::between(40.0, 30.0).is_empty());
        assert_eq!(Arcs::between(10.0, 370.0), Arcs::all());
        assert_eq!(Arcs::between(150.0, 180.0).spans(), [[150.0, 180.0]]);
        assert_eq!(
            Arcs::from_spans([[-10.0, 5.0], [5.0, 20.0], [12.0, 15.0], [30.0, 40.0]]).spans(),
            [[-10.0, 20.0], [30.0, 40.0]]
        );
        // What meets in a point only has nothing in common.
        assert!(Arcs::between(0.0, 20.0).and(&Arcs::between(20.0, 50.0)).is_empty());
        assert_eq!(Arcs::between(-180.0, 20.0).complement().arcs(), [Arc { from: 20.0, width: 160.0 }]);
        assert_eq!(Arcs::between(20.0, 180.0).complement().arcs(), [Arc { from: 180.0, width: 200.0 }]);
        assert!(Arc { from: 90.0, width: 360.0 }.contains(89.0));
        assert!(Arcs::between(-180.0, -170.0).contains(180.0));
    }
}
