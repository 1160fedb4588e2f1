//! A setup whose caliper turns about the axle and whose tube slides along the leg, with what must keep apart.
//!
//! Searches look at thousands of neighbouring setups. Everything that no turn and no slide changes is worked out once;
//! of the rest, a pair is looked at again only where its last known normal no longer shows that it is well apart.
//!
//! # How fast gaps change
//! A signed gap changes by no more than the furthest that any point of one solid moves against the other. Turning by
//! `h` rad moves a point at the distance d from the axle by at most d·h. Seen from the caliper it is the other solid
//! that turns, so the smaller of the two reaches counts; a disc about its own centre does not move at all, so for a
//! slab of discs only the centres count. Sliding the tube by s moves nothing by more than s. Along a fixed unit normal
//! a turn moves a point by its in-plane part only, which bounds gaps from below more tightly: a gap along `out` stays.

mod bounds;
mod webs;

use std::ops::Range;

use super::margin::{Margin, worse};
use crate::fit::{Check, PairName, Parts, Piece, checks, hole_centres, throat, web_choices, web_roots};
use crate::setup::{Mount, Setup};
use crate::solid::{Disc, NotConverged, Slab, Solid, Spool, Vector, distance_near, separation};
use crate::turn::sin_cos;

/// Two pieces that a turn or a slide moves against each other.
struct Tracked {
    name: PairName,
    pieces: [Piece; 2],
    required: f64,
    /// Places in the pool of solids.
    solids: [usize; 2],
    /// Which of the webs there could be, where one of the solids is the web.
    web: Option<usize>,
    /// A turn of one radian changes the gap by at most this, mm.
    reach: f64,
    /// The normal of the last gap found.
    normal: Vector,
    /// The gap, or something it did not exceed, where the sweep stood then.
    ceiling: Option<(f64, Pose)>,
}

impl Tracked {
    /// Whether a turn changes the gap, or which of the webs there is.
    fn turns(&self) -> bool {
        self.pieces.iter().any(|&piece| turns(piece) || piece == Piece::Web)
    }
}

/// Where a sweep stands.
#[derive(Clone, Copy)]
struct Pose {
    /// Clock angle, rad.
    clock: f64,
    tube_end: f64,
}

/// A piece that follows the caliper.
struct Turning {
    /// Place in the pool of solids.
    at: usize,
    /// The solid at clock angle 0.
    rest: Solid,
}

/// The setup being searched; see the module's own words.
pub(crate) struct Sweep {
    pool: Vec<Solid>,
    turning: Vec<Turning>,
    tracked: Vec<Tracked>,
    /// The tracked pairs that stand for one: the choices of one web, or a single pair.
    groups: Vec<Range<usize>>,
    /// The worst of the pairs that no turn and no slide changes.
    steady: Option<Margin>,
    lands: [Disc; 2],
    lands_rest: [Disc; 2],
    roots: [Disc; 2],
    /// Place of the first of the four webs in the pool.
    webs: Option<usize>,
    web_lengths: [f64; 4],
    /// Which of them is there.
    real_web: usize,
    setup: Setup,
    pose: Pose,
    /// The tube's centre line, less a radius at either end.
    core: Solid,
    /// The group that decided last: likely to decide again.
    suspect: usize,
}

/// The place in the pool of pieces that are there once; bodies and tools follow.
fn slots(setup: &Setup) -> Vec<Piece> {
    let once =
        [Piece::Rotor, Piece::Tube, Piece::Nut, Piece::Spokes, Piece::Eye, Piece::Neck, Piece::Lands, Piece::Line];
    let bodies = (0..setup.caliper.bodies.len()).map(Piece::Body);
    once.into_iter().chain([Piece::Tool(0), Piece::Tool(1)]).chain(bodies).collect()
}

const TUBE: usize = 1;
const NECK: usize = 5;

/// Whether a piece turns with the caliper.
fn turns(piece: Piece) -> bool {
    matches!(piece, Piece::Lands | Piece::Line | Piece::Tool(_) | Piece::Body(_))
}

/// Whether a piece is round about the axle, so that no turn moves it.
fn is_round(piece: Piece) -> bool {
    matches!(piece, Piece::Rotor | Piece::Nut | Piece::Spokes | Piece::Eye)
}

/// Whether a piece moves with the tube's end.
fn slides(piece: Piece) -> bool {
    matches!(piece, Piece::Tube | Piece::Neck | Piece::Web)
}

/// How far from the axle any point lies that a turn moves, mm.
fn reach(solid: &Solid) -> f64 {
    match solid {
        Solid::Slab(slab) => slab.discs.iter().map(|disc| disc.back.hypot(disc.up)).fold(0.0, f64::max),
        Solid::Spool(spool) => {
            let end = |index: usize| spool.ends[index].x.hypot(spool.ends[index].y) + spool.radii[index];
            end(0).max(end(1))
        }
    }
}

fn turn_disc(disc: &Disc, sin: f64, cos: f64) -> Disc {
    Disc::new(disc.back * cos + disc.up * sin, disc.up * cos - disc.back * sin, disc.radius)
}

/// Turns `rest` about the axle, towards growing clock angles, into `now`.
fn turn(rest: &Solid, now: &mut Solid, sin: f64, cos: f64) {
    match (rest, now) {
        (Solid::Slab(rest), Solid::Slab(now)) => {
            for (now, rest) in now.discs.iter_mut().zip(&rest.discs) {
                *now = turn_disc(rest, sin, cos);
            }
        }
        (Solid::Spool(rest), Solid::Spool(now)) => {
            let turned =
                |point: Vector| Vector::new(point.x * cos + point.y * sin, point.y * cos - point.x * sin, point.z);
            now.ends = rest.ends.map(turned);
            now.axis = turned(rest.axis);
        }
        _ => {}
    }
}

impl Sweep {
    /// The setup with its own tube end, its caliper at clock angle 0.
    pub(crate) fn of(setup: &Setup) -> Result<Self, NotConverged> {
        let mut setup = setup.clone();
        setup.tab.clock = 0.0;
        let parts = Parts::of(&setup);
        let slots = slots(&setup);
        let missing = || Solid::from(Slab { discs: vec![Disc::new(0.0, 0.0, 0.0)], low: 0.0, high: 0.0 });
        let mut pool: Vec<Solid> =
            slots.iter().map(|&piece| parts.get(piece).map_or_else(missing, |part| part.solid.clone())).collect();
        let turning = slots.iter().enumerate().filter(|(_, piece)| turns(**piece));
        let turning = turning.map(|(at, _)| Turning { at, rest: pool[at].clone() }).collect();
        let lands = hole_centres(&setup).map(|[back, up]| Disc::new(back, up, setup.tab.edge));
        let roots = web_roots(&setup);
        let webs = (setup.caliper.mount == Mount::SideLug).then_some(pool.len());
        if let Some(Solid::Slab(web)) = parts.web.as_ref().map(|part| &part.solid) {
            for choice in web_choices(lands, roots) {
                pool.push(Slab { discs: choice.to_vec(), ..web.clone() }.into());
            }
        }
        let throat = throat(&setup);
        let steady = Margin { name: throat.name, gap: throat.gap, required: throat.required };
        let mut sweep = Self {
            pool,
            turning,
            tracked: Vec::new(),
            groups: Vec::new(),
            steady: Some(steady),
            lands,
            lands_rest: lands,
            roots,
            webs,
            web_lengths: [0.0; 4],
            real_web: 0,
            pose: Pose { clock: 0.0, tube_end: setup.fork.tube_end },
            setup,
            core: Spool::cylinder(Vector::ZERO, Vector::Y, 0.0, 0.0).into(),
            suspect: 0,
        };
        sweep.measure_webs();
        for check in checks(&sweep.setup) {
            sweep.track(check, &slots)?;
        }
        Ok(sweep)
    }

    /// Takes up one check: its gap once and for all where nothing changes it, else as a pair to be followed.
    fn track(&mut self, Check { name, pieces }: Check, slots: &[Piece]) -> Result<(), NotConverged> {
        let required = name.required(&self.setup);
        let place = |piece: Piece| slots.iter().position(|&slot| slot == piece).unwrap_or_default();
        let both_turn = pieces.iter().all(|&piece| turns(piece) || is_round(piece));
        let none_turns = !pieces.iter().any(|&piece| turns(piece) || piece == Piece::Web);
        let is_steady = (both_turn || none_turns) && !pieces.iter().any(|&piece| slides(piece));
        if is_steady {
            let solids = pieces.map(place);
            let (gap, _) = distance_near(&self.pool[solids[0]], &self.pool[solids[1]], Vector::Z)?;
            self.steady = worse(self.steady, Some(Margin { name, gap, required }));
            return Ok(());
        }
        let webs = self.webs.unwrap_or_default();
        let start = self.tracked.len();
        // The web is always the second piece of a check.
        for choice in 0..if pieces[1] == Piece::Web { 4 } else { 1 } {
            let web = (pieces[1] == Piece::Web).then_some(choice);
            let solids = [place(pieces[0]), web.map_or_else(|| place(pieces[1]), |choice| webs + choice)];
            let reach = self.reach_of(pieces, solids, web);
            let (normal, ceiling) = (Vector::Z, None);
            self.tracked.push(Tracked { name, pieces, required, solids, web, reach, normal, ceiling });
        }
        self.groups.push(start..self.tracked.len());
        Ok(())
    }

    /// How far a turn of one radian moves two pieces against each other at most, with the tube's end where it is, mm.
    fn reach_of(&self, pieces: [Piece; 2], solids: [usize; 2], web: Option<usize>) -> f64 {
        match web {
            // Seen from the caliper, land and body stand still and the root turns; seen from the rotor, the land turns.
            Some(choice) => {
                let [land, root] = web_choices(self.lands_rest, self.roots)[choice];
                let (land, root) = (land.back.hypot(land.up), root.back.hypot(root.up));
                if turns(pieces[0]) { root } else { land.min(root) }
            }
            None if !pieces.iter().any(|&piece| turns(piece)) => 0.0,
            None => reach(&self.pool[solids[0]]).min(reach(&self.pool[solids[1]])),
        }
    }

    /// Turns the caliper to a clock angle, degrees.
    pub(crate) fn turn_to(&mut self, clock: f64) {
        self.pose.clock = clock.to_radians();
        let (sin, cos) = sin_cos(self.pose.clock);
        for Turning { at, rest } in &self.turning {
            turn(rest, &mut self.pool[*at], sin, cos);
        }
        self.lands = self.lands_rest.map(|land| turn_disc(&land, sin, cos));
        self.measure_webs();
    }

    /// Slides the tube's end to a distance from the axle, mm.
    pub(crate) fn slide_to(&mut self, tube_end: f64) {
        let by = tube_end - self.setup.fork.tube_end;
        self.setup.fork.tube_end = tube_end;
        self.pose.tube_end = tube_end;
        if let Solid::Spool(tube) = &mut self.pool[TUBE] {
            tube.ends.iter_mut().for_each(|end| end.y += by);
        }
        self.roots = web_roots(&self.setup);
        if let Solid::Slab(neck) = &mut self.pool[NECK] {
            neck.discs[1] = self.roots[0];
        }
        for index in 0..self.tracked.len() {
            let Tracked { pieces, solids, web, .. } = self.tracked[index];
            if slides(pieces[1]) {
                self.tracked[index].reach = self.reach_of(pieces, solids, web);
            }
        }
        self.measure_webs();
    }

    /// The worst of the pairs that no turn and no slide changes.
    pub(crate) fn steady(&self) -> Option<Margin> {
        self.steady
    }

    /// A lower bound of a tracked pair's gap, from its last normal.
    fn at_least(&self, index: usize) -> f64 {
        let Tracked { solids: [first, second], normal, .. } = self.tracked[index];
        separation(&self.pool[first], &self.pool[second], normal)
    }

    /// An upper bound of a tracked pair's gap, from the last one found.
    fn at_most(&self, index: usize) -> f64 {
        let Tracked { reach, ceiling, .. } = self.tracked[index];
        ceiling.map_or(f64::MAX, |(gap, pose)| {
            gap + reach * (self.pose.clock - pose.clock).abs() + (self.pose.tube_end - pose.tube_end).abs()
        })
    }

    /// A tracked pair's gap.
    fn find_gap(&mut self, index: usize) -> Result<f64, NotConverged> {
        let Tracked { solids: [first, second], normal, .. } = self.tracked[index];
        let (gap, normal) = distance_near(&self.pool[first], &self.pool[second], normal)?;
        let tracked = &mut self.tracked[index];
        (tracked.normal, tracked.ceiling) = (normal, Some((gap, self.pose)));
        Ok(gap)
    }

    /// The worst of the pairs that a turn changes, where the sweep stands now.
    pub(crate) fn worst_turning(&mut self) -> Result<Option<Margin>, NotConverged> {
        self.worst_of(Tracked::turns)
    }

    /// The worst of the pairs that no turn changes, where the sweep stands now.
    pub(crate) fn worst_standing(&mut self) -> Result<Option<Margin>, NotConverged> {
        Ok(worse(self.steady, self.worst_of(|tracked| !tracked.turns())?))
    }

    /// The worst of some of the pairs that a turn or a slide changes.
    fn worst_of(&mut self, counts: impl Fn(&Tracked) -> bool) -> Result<Option<Margin>, NotConverged> {
        let mut worst: Option<Margin> = None;
        let suspect = self.suspect;
        for step in 0..self.groups.len() {
            let group = (suspect + step) % self.groups.len();
            for index in self.groups[group].clone() {
                if !counts(&self.tracked[index]) || !self.is_present(&self.tracked[index], 0.0) {
                    continue;
                }
                let Tracked { name, required, .. } = self.tracked[index];
                let bound = Margin { name, required, gap: self.at_least(index) };
                if worst.is_some_and(|worst| !bound.is_worse_than(&worst)) {
                    continue;
                }
                let found = Margin { gap: self.find_gap(index)?, ..bound };
                if worst.is_none_or(|worst| found.is_worse_than(&worst)) {
                    (worst, self.suspect) = (Some(found), group);
                }
            }
        }
        Ok(worst)
    }

    /// The worst of all pairs where the sweep stands now.
    pub(crate) fn worst(&mut self) -> Result<Option<Margin>, NotConverged> {
        let moving = self.worst_of(|_| true)?;
        Ok(worse(self.steady, moving))
    }
}

#[cfg(test)]
mod tests;
