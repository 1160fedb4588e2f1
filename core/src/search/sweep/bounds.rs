//! What is sure over a whole turn or slide, without looking at every step of it.

use super::{Sweep, TUBE, Tracked};
use crate::fit::Verdict;
use crate::solid::{NotConverged, Solid, Vector, distance_apart};
use crate::tolerance::AT_THE_LIMIT;

/// The part in the wheel plane of a unit vector.
fn in_plane(normal: Vector) -> f64 {
    normal.x.hypot(normal.y)
}

impl Sweep {
    /// An upper bound of the gap to the tube, by the distance to its centre line; `None` for other pairs or where that
    /// distance is not certain.
    ///
    /// A ball of the tube's radius about any point of that line, a radius away from the tube's end, lies in the tube. So
    /// what comes within d of the line reaches into the tube by a radius less d at least. This spares most searches for
    /// depths, which cost ten times as much as distances.
    pub(super) fn at_most_to_tube(&mut self, index: usize) -> Option<f64> {
        let Tracked { solids: [first, second], normal, .. } = self.tracked[index];
        let (Solid::Spool(tube), Solid::Spool(core)) = (&self.pool[second], &mut self.core) else {
            return None;
        };
        if second != TUBE {
            return None;
        }
        let radius = tube.radii[0];
        core.ends = [tube.ends[0] + tube.axis * radius, tube.ends[1] - tube.axis * radius];
        let bound = distance_apart(&self.pool[first], &self.core, normal)? - radius;
        self.tracked[index].ceiling = Some((bound, self.pose));
        Some(bound)
    }

    /// The best and the worst verdict that any turn of up to `turn` rad either way from here could have.
    ///
    /// What is sure to be `enough` or worse is not looked at any closer, and comes back as a hit.
    pub(crate) fn verdicts_within(&mut self, turn: f64, enough: Verdict) -> Result<[Verdict; 2], NotConverged> {
        let steady = self.steady.map_or(Verdict::Clears, |steady| steady.verdict());
        if steady >= enough {
            return Ok([Verdict::Hits; 2]);
        }
        let leeway = self.web_leeway(turn);
        let mut verdicts = [steady; 2];
        let suspect = self.suspect;
        for step in 0..self.groups.len() {
            let group = (suspect + step) % self.groups.len();
            // One of the webs that may be there will be.
            let mut of_group = [Verdict::Hits, Verdict::Clears];
            for index in self.groups[group].clone() {
                if self.is_present(&self.tracked[index], leeway) {
                    let [best, worst] = self.pair_verdicts(index, turn, enough)?;
                    of_group = [of_group[0].min(best), of_group[1].max(worst)];
                }
            }
            verdicts = [verdicts[0].max(of_group[0]), verdicts[1].max(of_group[1])];
            if of_group[0] >= enough {
                self.suspect = group;
                return Ok([Verdict::Hits; 2]);
            }
        }
        Ok(verdicts)
    }

    /// The best and the worst verdict of one pair for any turn of up to `turn` rad either way.
    fn pair_verdicts(&mut self, index: usize, turn: f64, enough: Verdict) -> Result<[Verdict; 2], NotConverged> {
        let Tracked { required, reach, normal, .. } = self.tracked[index];
        let low = self.at_least(index) - reach * turn * in_plane(normal);
        if Verdict::of(low, required) == Verdict::Clears {
            return Ok([Verdict::Clears; 2]);
        }
        let is_enough = |bound: f64| Verdict::of(bound + reach * turn, required) >= enough;
        if is_enough(self.at_most(index)) || (low < 0.0 && self.at_most_to_tube(index).is_some_and(is_enough)) {
            return Ok([Verdict::Hits; 2]);
        }
        let gap = self.find_gap(index)?;
        let low = gap - reach * turn * in_plane(self.tracked[index].normal);
        Ok([Verdict::of(self.at_most_after(index, gap, reach * turn), required), Verdict::of(low, required)])
    }

    /// An upper bound of a gap that was just found, after a turn that moves no point by more than `by` mm.
    ///
    /// A turn moves points in the wheel plane. Where of two that are nearest one lies behind the other along the axle, moving
    /// one aside hardly takes it further away.
    pub(super) fn at_most_after(&self, index: usize, gap: f64, by: f64) -> f64 {
        if gap <= 0.0 {
            return gap + by;
        }
        (gap * gap + 2.0 * gap * by * in_plane(self.tracked[index].normal) + by * by).sqrt()
    }

    /// Whether after some turn of up to `turn` rad either way from here the tube might be far enough from everything.
    ///
    /// What the tube's end leaves behind is free, so sliding it away from the axle never makes this false again.
    pub(crate) fn tube_may_clear(&mut self, turn: f64) -> Result<bool, NotConverged> {
        for index in 0..self.tracked.len() {
            let Tracked { required, reach, solids, .. } = self.tracked[index];
            let may_clear = |gap: f64| Verdict::of(gap + reach * turn, required) == Verdict::Clears;
            if solids[1] != TUBE || may_clear(self.at_least(index)) {
                continue;
            }
            if !may_clear(self.at_most(index)) {
                return Ok(false);
            }
            let gap = self.find_gap(index)?;
            if Verdict::of(self.at_most_after(index, gap, reach * turn), required) != Verdict::Clears {
                return Ok(false);
            }
        }
        Ok(true)
    }

    /// How far the tube must at least slide before, after any turn of up to `turn` rad either way from here, neck and
    /// web might be far enough from everything, mm.
    pub(crate) fn plate_deficit(&mut self, turn: f64) -> Result<f64, NotConverged> {
        /// A web's share is looked at over slides of this much, mm: with a longer slide another web may take its place.
        const WEB_STEP: f64 = 1.0;
        let leeway = self.web_leeway(turn) + if turn > 0.0 { WEB_STEP } else { 0.0 };
        let mut deficit: f64 = 0.0;
        for group in 0..self.groups.len() {
            let is_web = self.groups[group].len() > 1;
            let mut of_group = f64::MAX;
            for index in self.groups[group].clone() {
                let Tracked { required, reach, solids, .. } = self.tracked[index];
                if solids[1] == TUBE || of_group <= deficit || !self.is_present(&self.tracked[index], leeway) {
                    continue;
                }
                let lacking = |gap: f64| required - AT_THE_LIMIT - gap - reach * turn;
                let most = lacking(self.at_least(index));
                let lacks = if most <= deficit { most } else { lacking(self.find_gap(index)?) };
                of_group = of_group.min(lacks);
            }
            if of_group < f64::MAX {
                deficit = deficit.max(if is_web { of_group.min(WEB_STEP) } else { of_group });
            }
        }
        Ok(deficit)
    }
}
