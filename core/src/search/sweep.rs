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

use std::ops::Range;

use crate::fit::{Check, PairName, Parts, Piece, Verdict, checks, hole_centres, throat, web_choices, web_roots};
use crate::setup::{Mount, Setup};
use crate::solid::{Disc, NotConverged, Slab, Solid, Spool, Vector, distance_apart, distance_near, separation};
use crate::tolerance::AT_THE_LIMIT;

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

/// Two pieces that a turn or a slide moves against each other.
struct Tracked {
    name: PairName,
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
            let reach = match web {
                // Seen from the caliper, land and body stand still and the root turns; seen from the rotor, the land turns.
                Some(choice) => {
                    let [land, root] = web_choices(self.lands_rest, self.roots)[choice];
                    let (land, root) = (land.back.hypot(land.up), root.back.hypot(root.up));
                    if turns(pieces[0]) { root } else { land.min(root) }
                }
                None if none_turns => 0.0,
                None => reach(&self.pool[solids[0]]).min(reach(&self.pool[solids[1]])),
            };
            self.tracked.push(Tracked { name, required, solids, web, reach, normal: Vector::Z, ceiling: None });
        }
        self.groups.push(start..self.tracked.len());
        Ok(())
    }

    fn measure_webs(&mut self) {
        let choices = web_choices(self.lands, self.roots);
        self.web_lengths = choices.map(|[land, root]| land.centre_distance(&root));
        let Some(first) = self.webs else {
            return;
        };
        for (slab, choice) in self.pool[first..].iter_mut().zip(choices) {
            if let Solid::Slab(slab) = slab {
                slab.discs.copy_from_slice(&choice);
            }
        }
    }

    /// Turns the caliper to a clock angle, degrees.
    pub(crate) fn turn_to(&mut self, clock: f64) {
        self.pose.clock = clock.to_radians();
        let (sin, cos) = self.pose.clock.sin_cos();
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
        self.measure_webs();
    }

    /// The worst of the pairs that no turn and no slide changes.
    pub(crate) fn steady(&self) -> Option<Margin> {
        self.steady
    }

    /// How much longer than the shortest a web may be and still be the real one after a turn, mm.
    fn web_slack(&self, turn: f64) -> f64 {
        2.0 * turn * self.lands_rest.iter().map(|land| land.back.hypot(land.up)).fold(0.0, f64::max)
    }

    /// Whether a tracked pair is there, give or take `slack` mm in the length of webs.
    fn is_present(&self, tracked: &Tracked, slack: f64) -> bool {
        let shortest = self.web_lengths.iter().copied().fold(f64::MAX, f64::min);
        tracked.web.is_none_or(|choice| {
            let first = self.web_lengths.iter().position(|&length| length == shortest);
            first == Some(choice) || (slack > 0.0 && self.web_lengths[choice] <= shortest + slack)
        })
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

    /// An upper bound of the gap to the tube, by the distance to its centre line; `None` for other pairs or where that
    /// distance is not certain.
    ///
    /// A ball of the tube's radius about any point of that line, a radius away from the tube's end, lies in the tube. So
    /// what comes within d of the line reaches into the tube by a radius less d at least. This spares most searches for
    /// depths, which cost ten times as much as distances.
    fn at_most_to_tube(&mut self, index: usize) -> Option<f64> {
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

    /// The worst of the pairs that a turn or a slide changes, where the sweep stands now.
    pub(crate) fn worst_moving(&mut self) -> Result<Option<Margin>, NotConverged> {
        let mut worst: Option<Margin> = None;
        let suspect = self.suspect;
        for step in 0..self.groups.len() {
            let group = (suspect + step) % self.groups.len();
            for index in self.groups[group].clone() {
                if !self.is_present(&self.tracked[index], 0.0) {
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
        Ok(worse(self.steady, self.worst_moving()?))
    }

    /// The best and the worst verdict that any turn of up to `turn` rad either way from here could have.
    ///
    /// What is sure to be `enough` or worse is not looked at any closer, and comes back as a hit.
    pub(crate) fn verdicts_within(&mut self, turn: f64, enough: Verdict) -> Result<[Verdict; 2], NotConverged> {
        let steady = self.steady.map_or(Verdict::Clears, |steady| steady.verdict());
        if steady >= enough {
            return Ok([Verdict::Hits; 2]);
        }
        let slack = self.web_slack(turn);
        let mut verdicts = [steady; 2];
        let suspect = self.suspect;
        for step in 0..self.groups.len() {
            let group = (suspect + step) % self.groups.len();
            // One of the webs that may be there will be.
            let mut of_group = [Verdict::Hits, Verdict::Clears];
            for index in self.groups[group].clone() {
                if self.is_present(&self.tracked[index], slack) {
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
        let in_plane = |normal: Vector| normal.x.hypot(normal.y);
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
        Ok([Verdict::of(gap + reach * turn, required), Verdict::of(low, required)])
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
            if !may_clear(self.at_most(index)) || !may_clear(self.find_gap(index)?) {
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
        let slack = self.web_slack(turn) + if turn > 0.0 { 2.0 * WEB_STEP } else { 0.0 };
        let mut deficit: f64 = 0.0;
        for group in 0..self.groups.len() {
            let is_web = self.groups[group].len() > 1;
            let mut of_group = f64::MAX;
            for index in self.groups[group].clone() {
                let Tracked { required, reach, solids, .. } = self.tracked[index];
                if solids[1] == TUBE || of_group <= deficit || !self.is_present(&self.tracked[index], slack) {
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

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test that finds no gap should stop")]
mod tests {
    use super::*;
    use crate::fit::{binding, clearances};
    use crate::setup::Side;

    /// The default and what differs from it in every way that a sweep treats apart.
    fn setups() -> Vec<Setup> {
        let mut right = Setup { side: Side::Right, ..Setup::default() };
        right.fork.axle_offset = 25.0;
        let mut recessed = Setup::default();
        recessed.wheel.hub_width = 115.0;
        recessed.wheel.rotor_diameter = 160.0;
        let mut posts = Setup::default();
        posts.caliper.mount = Mount::Post;
        posts.caliper.bolt_direction = Some([0.3, -1.0, 0.2]);
        vec![Setup::default(), right, recessed, posts]
    }

    #[test]
    fn a_sweep_finds_what_a_plain_setup_has() {
        for setup in setups() {
            let mut sweep = Sweep::of(&setup).unwrap();
            for (clock, tube_end) in [(28.0, 20.0), (-75.5, 31.0), (120.0, 12.0), (-170.0, 55.0), (3.0, 90.0)] {
                let mut plain = setup.clone();
                (plain.tab.clock, plain.fork.tube_end) = (clock, tube_end);
                let pairs = clearances(&plain, &Parts::of(&plain)).unwrap();
                let expected = binding(&pairs).unwrap();
                sweep.turn_to(clock);
                sweep.slide_to(tube_end);
                let found = sweep.worst().unwrap().unwrap();
                assert_eq!(found.name, expected.name, "{clock}°, {tube_end} mm");
                assert!(
                    (found.gap - expected.gap).abs() < 1e-5,
                    "{}: {} and {}",
                    found.name.key(),
                    found.gap,
                    expected.gap
                );
            }
        }
    }

    /// The bounds that let a search skip clock angles and tube ends, on every pair and over turns from tiny to wide.
    #[test]
    fn no_gap_changes_faster_than_its_bounds() {
        for setup in setups() {
            let mut sweep = Sweep::of(&setup).unwrap();
            for index in 0..sweep.tracked.len() {
                for (step, turn) in [0.01_f64, 0.3, 2.0, 9.0].into_iter().cycle().take(72).enumerate() {
                    let clock = -180.0 + 5.0 * step as f64;
                    sweep.turn_to(clock);
                    let before = sweep.find_gap(index).unwrap();
                    let Tracked { name, reach, normal, .. } = sweep.tracked[index];
                    sweep.turn_to(clock + turn);
                    let (low, high) = (sweep.at_least(index), sweep.at_most(index));
                    let after = sweep.find_gap(index).unwrap();
                    let most = reach * turn.to_radians();
                    let what = format!("{} from {clock}° by {turn}°: {before} to {after}", name.key());
                    assert!((after - before).abs() <= most + 1e-5, "{what}, more than {most}");
                    assert!(after >= before - most * normal.x.hypot(normal.y) - 1e-5, "{what}, along the normal");
                    assert!(low <= after + 1e-5 && after <= high + 1e-5, "{what}, not in {low} to {high}");
                    if let Some(bound) = sweep.at_most_to_tube(index) {
                        assert!(after <= bound + 1e-5, "{what}, more than {bound} by the tube's centre line");
                    }
                    sweep.slide_to(setup.fork.tube_end + 3.0);
                    let slid = sweep.find_gap(index).unwrap();
                    assert!((slid - after).abs() <= 3.0 + 1e-5, "{what}, then slid to {slid}");
                    sweep.slide_to(setup.fork.tube_end);
                }
            }
        }
    }
}
