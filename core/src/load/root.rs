//! The weakest straight cut through the plate, searched for and not assumed.

use super::plate::Plate;
use super::region::{Chord, Line};
use super::section::SectionStress;
use crate::turn::sin_cos;

/// Directions of cut that are tried, over half a turn: 5° apart.
const DIRECTIONS: u32 = 36;
const TURN: f64 = std::f64::consts::PI / DIRECTIONS as f64;
/// Distance between the cuts of one direction, mm.
const SPACING: f64 = 2.0;
/// The most cuts of one direction, whatever the plate's size.
const MOST_CUTS: f64 = 160.0;
/// Cuts that the search goes on from.
const STARTS: usize = 4;
/// The search stops when its steps are smaller than this share of a first one.
const FINEST: f64 = 1.0 / 256.0;
/// The most steps from one start.
const MOST_STEPS: u32 = 60;

/// The weakest cut.
#[derive(Clone, Debug)]
pub struct Weakest {
    /// Where.
    pub chord: Chord,
    /// Its stresses, MPa.
    pub stress: SectionStress,
}

/// The straight cuts with the largest von Mises stress of all that part the plate's loads from the tube: one of those
/// that part a bolt of the caliper, one of those that part the axle alone. None where there is no such cut, as with
/// posts.
///
/// Every chord of lines 5° and 2 mm apart is tried, then the worst of them are turned and moved for as long as that
/// makes them worse.
pub fn weakest(plate: &Plate) -> [Option<Weakest>; 2] {
    let (centre, radius) = extent(plate);
    let spacing = SPACING.max(2.0 * radius / MOST_CUTS);
    let mut found: [Vec<(f64, [f64; 2])>; 2] = [Vec::new(), Vec::new()];
    for direction in 0..DIRECTIONS {
        let angle = f64::from(direction) * TURN;
        let count = (radius / spacing).ceil() as i32;
        for step in -count..=count {
            let place = [angle, f64::from(step) * spacing];
            for (found, cut) in found.iter_mut().zip(worst_on(plate, centre, place)) {
                found.extend(cut.map(|cut| (cut.stress.von_mises, place)));
            }
        }
    }
    let [caliper, axle] = found;
    [(caliper, 0), (axle, 1)].map(|(mut found, kind)| {
        found.sort_by(|a, b| b.0.total_cmp(&a.0));
        worse(found.iter().take(STARTS).filter_map(|&(_, place)| climb(plate, centre, place, spacing, kind)))
    })
}

/// The worst cut that parts a bolt of the caliper, searched from one that was the worst under loads much like these.
pub(super) fn weakest_from(plate: &Plate, cut: &Weakest) -> Option<Weakest> {
    let line = cut.chord.line;
    climb(plate, line.point, [line.along[1].atan2(line.along[0]), 0.0], SPACING, 0)
}

fn worse(cuts: impl Iterator<Item = Weakest>) -> Option<Weakest> {
    cuts.max_by(|a, b| a.stress.von_mises.total_cmp(&b.stress.von_mises))
}

/// The worst cut near one, by ever smaller turns and moves.
fn climb(plate: &Plate, centre: [f64; 2], start: [f64; 2], spacing: f64, kind: usize) -> Option<Weakest> {
    let cut_at = |place| worst_on(plate, centre, place).into_iter().nth(kind).flatten();
    let mut place = start;
    let mut best = cut_at(place)?;
    let mut scale = 0.5;
    for _ in 0..MOST_STEPS {
        let (turn, step) = (TURN * scale, spacing * scale);
        // Both at once, too: along the rim of a clamp neither gets on by itself.
        let ways = (0..9).map(|way| [f64::from(way % 3 - 1), f64::from(way / 3 - 1)]);
        let tried = ways.filter_map(|way| {
            let place = [place[0] + way[0] * turn, place[1] + way[1] * step];
            Some((place, cut_at(place)?))
        });
        let next = tried.max_by(|a, b| a.1.stress.von_mises.total_cmp(&b.1.stress.von_mises));
        match next {
            Some((there, cut)) if cut.stress.von_mises > best.stress.von_mises => (place, best) = (there, cut),
            _ if scale <= FINEST => break,
            _ => scale /= 2.0,
        }
    }
    Some(best)
}

/// The worst cuts along a line, by its angle and its distance from a centre: between caliper and tube, and between axle
/// and tube.
fn worst_on(plate: &Plate, centre: [f64; 2], [angle, aside]: [f64; 2]) -> [Option<Weakest>; 2] {
    let (sin, cos) = sin_cos(angle);
    let line = Line::new([centre[0] - sin * aside, centre[1] + cos * aside], angle);
    let mut worst: [Option<Weakest>; 2] = [None, None];
    for chord in plate.region.chords(&line) {
        let parted = plate.parted_by(&chord);
        if parted.is_empty() {
            continue;
        }
        let [caliper, axle] = &mut worst;
        let worst = if plate.from_caliper(&parted) { caliper } else { axle };
        let stress = plate.section(&chord, &parted).stress(&plate.pushes(&parted));
        if worst.as_ref().is_none_or(|worst| stress.von_mises > worst.stress.von_mises) {
            *worst = Some(Weakest { chord, stress });
        }
    }
    worst
}

/// A circle about the loads and where they go, with all cuts between.
fn extent(plate: &Plate) -> ([f64; 2], f64) {
    let points: Vec<[f64; 2]> = plate.loads.iter().flat_map(|load| load.way.iter().copied()).collect();
    let range = |axis: usize| {
        let values = points.iter().map(|point| point[axis]);
        values.fold([f64::MAX, f64::MIN], |[low, high], value| [low.min(value), high.max(value)])
    };
    let [back, up] = [range(0), range(1)];
    let centre = [(back[0] + back[1]) / 2.0, (up[0] + up[1]) / 2.0];
    (centre, (back[1] - back[0]).hypot(up[1] - up[0]) / 2.0)
}
