//! Which of the four webs there could be is there, and which may be after a turn or a slide.

use super::{Sweep, Tracked};
use crate::fit::{real_web, web_choices};
use crate::solid::Solid;
use crate::tolerance::AT_THE_LIMIT;

impl Sweep {
    /// Puts the webs where lands and roots are now, and chooses the real one.
    pub(super) fn measure_webs(&mut self) {
        let choices = web_choices(self.lands, self.roots);
        self.web_lengths = choices.map(|[land, root]| land.centre_distance(&root));
        self.real_web = real_web(&choices);
        let Some(first) = self.webs else {
            return;
        };
        for (slab, choice) in self.pool[first..].iter_mut().zip(choices) {
            if let Solid::Slab(slab) = slab {
                slab.discs.copy_from_slice(&choice);
            }
        }
    }

    /// How much a web to the neck may grow or shrink with a turn of `turn` rad at most, mm. One to the eye does not.
    pub(super) fn web_leeway(&self, turn: f64) -> f64 {
        turn * self.lands_rest.iter().map(|land| land.back.hypot(land.up)).fold(0.0, f64::max)
    }

    /// Whether a tracked pair is there, or may be there while no web to the neck grows or shrinks by more than `leeway` mm.
    pub(super) fn is_present(&self, tracked: &Tracked, leeway: f64) -> bool {
        tracked.web.is_none_or(|choice| {
            let may_be = || !(0..self.web_lengths.len()).any(|other| self.goes_before(other, choice, leeway));
            self.real_web == choice || (leeway > 0.0 && may_be())
        })
    }

    /// Whether of two webs the first is surely chosen, as [`real_web`] does, while no web to the neck grows or shrinks by
    /// more than `leeway` mm.
    ///
    /// Lands that lie alike to the axle are as far from its eye all round: only their way to the neck chooses between them,
    /// and without it both webs would be in doubt at every clock angle.
    fn goes_before(&self, one: usize, other: usize, leeway: f64) -> bool {
        // Of each land, the web to the eye comes after that to the neck.
        let is_to_eye = |choice: usize| choice % 2 == 1;
        let longer = |one: usize, other: usize| self.web_lengths[other] - self.web_lengths[one];
        if is_to_eye(one) && is_to_eye(other) && longer(one, other).abs() <= AT_THE_LIMIT {
            return longer(one - 1, other - 1) > 2.0 * leeway + AT_THE_LIMIT;
        }
        let to_neck = [one, other].into_iter().filter(|choice| !is_to_eye(*choice)).count();
        longer(one, other) > to_neck as f64 * leeway + AT_THE_LIMIT
    }
}
