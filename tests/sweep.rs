//! Laws, searches and promises on setups drawn over the whole hard ranges, most of which nobody would build.
//!
//! `TABWRIGHT_SWEEP=1000000 cargo test --profile checks -p tabwright-tests --test sweep -- --nocapture` tries a million and
//! prints figures; `TABWRIGHT_SEED` draws others.

#![allow(clippy::panic, reason = "a test that cannot go on should stop")]

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};

use tabwright_core::fit::{Pair, Parts, Verdict, clearances};
use tabwright_core::search::{fixes, ring};
use tabwright_core::solid::{Gap, Method, Solid, Vector, gap};
use tabwright_core::tolerance::{AT_THE_LIMIT, CERTIFIED_GAP, CLOCK_EDGE};
use tabwright_core::{Mount, Outcome, Setup, Side};
use tabwright_tests::answers::{QUESTIONS, assert_sound};
use tabwright_tests::clock::processor_ms;
use tabwright_tests::draw::{Seeded, Source, setup};
use tabwright_tests::report_of;

const USUAL_COUNT: u32 = 2000;
const USUAL_SEED: u32 = 20_261_127;
/// Two answers on one gap may differ by what each is certified to, mm.
const SAME_GAP: f64 = 2.0 * CERTIFIED_GAP;
/// One setup in so many is asked for its ring, and so on for what takes longer.
const RINGS: u32 = 7;
const FIXES: u32 = 23;
/// One in so many is asked a question, each in turn.
const QUESTION: u32 = 3;

/// Fields whose growth adds to a solid and takes nothing away, with the pairs of that solid: their gaps cannot grow, nor
/// overlaps shrink, as the separation along every direction cannot.
const GROWTHS: &[(&str, &[&str])] = &[
    ("fork.tube_diameter", &["tab/tube", "caliper/tube", "rotor/tube", "nut/tube", "tool/tube", "line/tube"]),
    ("wheel.nut_diameter", &["caliper/nut", "nut/tube"]),
    ("wheel.nut_height", &["caliper/nut", "nut/tube"]),
    ("wheel.rotor_thickness", &["rotor/tube", "rotor/plate", "line/rotor"]),
    ("wheel.flange_diameter", &["caliper/spokes", "line/spokes"]),
    ("wheel.rim_diameter", &["caliper/spokes", "line/spokes"]),
    ("caliper.line.diameter", &["line/tube", "line/rotor", "line/spokes"]),
    ("caliper.bolt.tool_diameter", &["tool/tube"]),
    ("caliper.bolt.tool_length", &["tool/tube"]),
    ("tab.edge", &["tab/tube"]),
];

/// What a sweep has seen.
#[derive(Default)]
struct Seen {
    setups: u32,
    /// Setups that broke a law or a promise.
    broken: u32,
    gaps: BTreeMap<&'static str, u32>,
    /// Pairs whose gap iteration could not certify.
    searched: BTreeMap<&'static str, u32>,
    outcomes: BTreeMap<String, u32>,
    /// The largest differences by law, mm or degrees.
    largest: BTreeMap<&'static str, f64>,
    rings: u32,
    fixes: u32,
    /// The longest time of the processor, ms, with the number of the draw.
    longest: BTreeMap<&'static str, (f64, u32)>,
}

impl Seen {
    fn difference(&mut self, law: &'static str, by: f64) {
        let most = self.largest.entry(law).or_default();
        *most = most.max(by);
    }

    fn timed<T>(&mut self, what: &'static str, index: u32, work: impl FnOnce() -> T) -> T {
        let before = processor_ms();
        let done = work();
        let took = processor_ms() - before;
        let longest = self.longest.entry(what).or_default();
        if took > longest.0 {
            *longest = (took, index);
        }
        done
    }

    fn add(&mut self, other: Seen) {
        self.setups += other.setups;
        self.broken += other.broken;
        self.rings += other.rings;
        self.fixes += other.fixes;
        other.gaps.into_iter().for_each(|(method, count)| *self.gaps.entry(method).or_default() += count);
        other.searched.into_iter().for_each(|(pair, count)| *self.searched.entry(pair).or_default() += count);
        other.outcomes.into_iter().for_each(|(outcome, count)| *self.outcomes.entry(outcome).or_default() += count);
        other.largest.into_iter().for_each(|(law, by)| self.difference(law, by));
        for (what, longest) in other.longest {
            let most = self.longest.entry(what).or_default();
            if longest.0 > most.0 {
                *most = longest;
            }
        }
    }
}

fn from_environment(name: &str, usual: u32) -> u32 {
    std::env::var(name).ok().and_then(|text| text.parse().ok()).unwrap_or(usual)
}

#[test]
fn whatever_the_setup_laws_and_promises_hold() {
    let (count, seed) =
        (from_environment("TABWRIGHT_SWEEP", USUAL_COUNT), from_environment("TABWRIGHT_SEED", USUAL_SEED));
    let threads = std::thread::available_parallelism().map_or(1, |count| count.get() as u32).min(count.max(1));
    let seen = std::thread::scope(|scope| {
        let started: Vec<_> = (0..threads)
            .map(|first| {
                scope.spawn(move || {
                    (first..count)
                        .step_by(threads as usize)
                        .fold(Seen::default(), |seen, index| look(seed, index, seen))
                })
            })
            .collect();
        let mut all = Seen::default();
        for thread in started {
            all.add(thread.join().unwrap_or_else(|fault| resume_unwind(fault)));
        }
        all
    });
    println!("seed {seed}: {} of {count} draws are setups", seen.setups);
    println!("gaps by method: {:?}, by search {:?}; verdicts: {:?}", seen.gaps, seen.searched, seen.outcomes);
    println!("{} rings, {} fixes tried; largest differences: {:?}", seen.rings, seen.fixes, seen.largest);
    println!("longest, ms, with the setup's number: {:?}", seen.longest);
    assert_eq!(seen.broken, 0, "laws or promises broken; see above");
    assert!(seen.setups > count / 10 * 9, "only {} of {count} draws are setups", seen.setups);
}

/// One draw; its number alone makes it, so that any can be looked at again.
fn drawn(seed: u32, index: u32) -> (Seeded, Option<Setup>) {
    let mut source = Seeded(seed ^ index.wrapping_mul(0x9e37_79b9));
    let share = [1.0, 0.5, 0.2, 0.05][index as usize % 4];
    let drawn = setup(&mut source, share);
    (source, drawn)
}

fn look(seed: u32, index: u32, mut seen: Seen) -> Seen {
    let (mut source, Some(setup)) = drawn(seed, index) else { return seen };
    let checked = catch_unwind(AssertUnwindSafe(|| check(&mut seen, &mut source, index, &setup)));
    if checked.is_err() {
        println!("setup {index} of seed {seed}: {}", serde_json::to_string(&setup).unwrap_or_default());
        seen.broken += 1;
    }
    seen
}

fn check(seen: &mut Seen, source: &mut Seeded, index: u32, setup: &Setup) {
    seen.setups += 1;
    let report = seen.timed("report", index, || report_of(setup));
    *seen.outcomes.entry(report.verdict.word().to_owned()).or_default() += 1;
    let pairs = pairs_of(setup);
    for pair in &pairs {
        let method = match pair.method {
            Method::Exact => "exact",
            Method::Iterative => "iterative",
            Method::Search => "search",
        };
        *seen.gaps.entry(method).or_default() += 1;
        if pair.method == Method::Search {
            *seen.searched.entry(pair.name.key()).or_default() += 1;
        }
        assert!(pair.gap.is_finite(), "{:?}", pair.name);
    }
    let worst = pairs.iter().map(|pair| pair.verdict()).max();
    let buildable = report.verdict != Outcome::CannotBuild;
    assert!(!buildable || Some(report.verdict) == worst.map(Outcome::from), "{:?} of {worst:?}", report.verdict);

    if index.is_multiple_of(QUESTION) {
        let question = &QUESTIONS[(index / QUESTION) as usize % QUESTIONS.len()];
        seen.timed(question.name, index, || assert_sound(setup, question));
    }
    certified(seen, source, setup);
    same(seen, "mirror", &pairs, &pairs_of(&mirrored(setup)));
    let mut leaning = setup.clone();
    leaning.fork.leg_angle = source.between(20.0, 110.0);
    same(seen, "leg angle", &pairs, &pairs_of(&leaning));
    for _ in 0..3 {
        grown(seen, source, setup, &pairs);
    }
    if index.is_multiple_of(RINGS) {
        ring_agrees(seen, source, index, setup);
    }
    if index.is_multiple_of(FIXES) && report.verdict != Outcome::Clears {
        fixes_hold(seen, index, setup);
    }
}

fn pairs_of(setup: &Setup) -> Vec<Pair> {
    clearances(setup, &Parts::of(setup)).unwrap_or_else(|_| panic!("a gap could not be found"))
}

/// The other side, with a caliper of the other hand.
fn mirrored(setup: &Setup) -> Setup {
    let mut other = setup.clone();
    other.side = if setup.side == Side::Left { Side::Right } else { Side::Left };
    other.caliper.mirror();
    other
}

fn same(seen: &mut Seen, law: &'static str, one: &[Pair], other: &[Pair]) {
    assert_eq!(one.len(), other.len(), "{law}");
    for (one, other) in one.iter().zip(other) {
        assert_eq!(one.name, other.name, "{law}");
        let by = (one.gap - other.gap).abs();
        seen.difference(law, by);
        assert!(
            by <= SAME_GAP,
            "{law}, {}: {} by {:?} and {} by {:?}",
            one.name.key(),
            one.gap,
            one.method,
            other.gap,
            other.method
        );
    }
}

fn grown(seen: &mut Seen, source: &mut Seeded, setup: &Setup, before: &[Pair]) {
    let (path, names) = GROWTHS[source.below(GROWTHS.len())];
    let Some(tabwright_core::Kind::Number { hard, .. }) = Setup::field(path).map(|field| field.kind) else {
        panic!("no number {path}");
    };
    let mut other = setup.clone();
    let Some(value) = other.number_at(path) else { panic!("no number {path}") };
    *value = source.between(*value, hard.high);
    for pair in pairs_of(&other).iter().filter(|pair| names.contains(&pair.name.key())) {
        let Some(was) = before.iter().find(|was| was.name == pair.name) else { continue };
        seen.difference("growth", pair.gap - was.gap);
        assert!(
            pair.gap <= was.gap + SAME_GAP,
            "{} grew from {} to {} with {path}",
            pair.name.key(),
            was.gap,
            pair.gap
        );
    }
}

/// Two solids of the setup, anyhow: no direction parts them by more than their gap, and one does by as much.
fn certified(seen: &mut Seen, source: &mut Seeded, setup: &Setup) {
    let parts = Parts::of(setup);
    let mut solids: Vec<&Solid> =
        [&parts.rotor, &parts.tube, &parts.nut, &parts.spokes, &parts.eye, &parts.neck, &parts.line]
            .map(|part| &part.solid)
            .to_vec();
    solids
        .extend(parts.caliper.iter().chain(&parts.tools).chain(&parts.lands).chain(&parts.web).map(|part| &part.solid));
    let first = solids[source.below(solids.len())];
    let second = solids[source.below(solids.len())];
    let Ok(Gap { distance, points, normal, .. }) = gap(first, second) else { panic!("a gap could not be found") };
    assert!((normal.length() - 1.0).abs() < 1e-9, "{normal:?}");
    let along = separation(first, second, normal);
    seen.difference("certificate", (along - distance).abs());
    assert!((along - distance).abs() <= CERTIFIED_GAP, "{along} along the normal, but a gap of {distance}");
    let between = (points[1] - points[0]).length();
    assert!((between - distance.abs()).abs() <= SAME_GAP, "points {between} apart, but a gap of {distance}");
    for _ in 0..64 {
        let [x, y, z] = [0; 3].map(|_| 2.0 * source.share() - 1.0);
        let near = normal + Vector::new(x, y, z) * [1e-4, 1e-2, 0.3, 10.0][source.below(4)];
        let found = near.try_normalize().map_or(f64::MIN, |normal| separation(first, second, normal));
        seen.difference("another direction", found - distance);
        assert!(found <= distance + CERTIFIED_GAP, "{found} along {near:?}, but a gap of {distance}");
    }
}

/// How far the second solid lies beyond the first along a unit vector, by the extents' own formulas.
fn separation(first: &Solid, second: &Solid, normal: Vector) -> f64 {
    -most_along(second, -normal) - most_along(first, normal)
}

fn most_along(solid: &Solid, way: Vector) -> f64 {
    match solid {
        Solid::Slab(slab) => {
            let across = way.x.hypot(way.y);
            let discs = slab.discs.iter().map(|disc| disc.back * way.x + disc.up * way.y + disc.radius * across);
            discs.fold(f64::MIN, f64::max) + (slab.low * way.z).max(slab.high * way.z)
        }
        Solid::Spool(spool) => {
            let across = way.cross(spool.axis).length();
            let end = |end: usize| spool.ends[end].dot(way) + spool.radii[end] * across;
            end(0).max(end(1))
        }
    }
}

/// A plain report at some clock angle says what the ring says there.
fn ring_agrees(seen: &mut Seen, source: &mut Seeded, index: u32, setup: &Setup) {
    let Ok(ring) = seen.timed("ring", index, || ring(setup)) else { panic!("no ring") };
    seen.rings += 1;
    for _ in 0..4 {
        let mut turned = setup.clone();
        turned.tab.clock = source.between(-180.0, 180.0);
        let clock = turned.tab.clock;
        let pairs = pairs_of(&turned);
        let verdict = pairs.iter().map(|pair| pair.verdict()).max().unwrap_or(Verdict::Hits);
        let Some(stretch) = ring.stretches.iter().find(|stretch| stretch.from <= clock && clock <= stretch.to) else {
            panic!("no stretch at {clock}°");
        };
        let to_edge = (stretch.from - clock).abs().min((stretch.to - clock).abs());
        // Where a gap is as wanted to within what it is certified to, either verdict may be given.
        let margin = pairs.iter().flat_map(|pair| [pair.margin(), pair.gap]).map(f64::abs).fold(f64::MAX, f64::min);
        if stretch.verdict != verdict {
            seen.difference("ring, degrees from an edge", if margin <= SAME_GAP { 0.0 } else { to_edge });
            assert!(to_edge <= CLOCK_EDGE || margin <= SAME_GAP, "{verdict:?} at {clock}°, but {stretch:?}");
        }
        // An end belongs to both sides, at the turn's end too.
        let inside = ring.windows.iter().any(|window| window.arc.contains(clock));
        assert!(to_edge == 0.0 || inside == (stretch.verdict == Verdict::Clears), "{inside} at {clock}°");
    }
    for window in &ring.windows {
        let mut turned = setup.clone();
        turned.tab.clock = window.best;
        let least = pairs_of(&turned).iter().map(|pair| pair.margin()).fold(f64::MAX, f64::min);
        assert!(
            least >= -AT_THE_LIMIT - CERTIFIED_GAP && (least - window.margin).abs() <= SAME_GAP,
            "{least} at {window:?}"
        );
    }
}

/// Every fix, made, clears by as much as it promised.
fn fixes_hold(seen: &mut Seen, index: u32, setup: &Setup) {
    let Ok(found) = seen.timed("fixes", index, || fixes(setup)) else { panic!("no fixes") };
    for fix in &found.fixes {
        let mut mended = setup.clone();
        for change in &fix.changes {
            let Some(value) = mended.number_at(change.field) else { panic!("no number {}", change.field) };
            assert_eq!(*value, change.from);
            *value = change.to;
        }
        let report = report_of(&mended);
        seen.fixes += 1;
        assert_eq!(report.verdict, Outcome::Clears, "{fix:?}");
        let least = report.pairs.iter().map(|pair| pair.margin).fold(f64::MAX, f64::min);
        seen.difference("fix", (least - fix.margin).abs());
        assert!((least - fix.margin).abs() <= SAME_GAP, "{least} after {fix:?}");
    }
    if setup.caliper.mount == Mount::Post {
        assert!(pairs_of(setup).iter().all(|pair| pair.name.key() != "tab/tube"), "posts have no tab");
    }
}
