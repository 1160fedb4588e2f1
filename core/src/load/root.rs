//! The weakest straight cut through the plate, searched for and not assumed.

use super::plate::Plate;
use super::region::{Chord, Line};
use super::section::SectionStress;

/// Directions of cut that are tried, over half a turn: 5° apart.
const DIRECTIONS: u32 = 36;
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

/// Which loads a cut must part from the tube.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Between {
    /// One of the caliper's bolts at least.
    CaliperAndTube,
    /// The axle alone.
    AxleAndTube,
}

/// The weakest cut.
#[derive(Clone, Debug)]
pub struct Weakest {
    /// Where.
    pub chord: Chord,
    /// Its stresses, MPa.
    pub stress: SectionStress,
}

/// The straight cut with the largest von Mises stress of all that part the loads from the tube; none where there is
/// none, as with posts.
///
/// Every chord of lines 5° and 2 mm apart is tried, then the worst of them are turned and moved for as long as that
/// makes them worse.
pub fn weakest(plate: &Plate, between: Between) -> Option<Weakest> {
    let (centre, radius) = extent(plate);
    let spacing = SPACING.max(2.0 * radius / MOST_CUTS);
    let turn = std::f64::consts::PI / f64::from(DIRECTIONS);
    let mut found: Vec<(f64, [f64; 2])> = Vec::new();
    for direction in 0..DIRECTIONS {
        let angle = f64::from(direction) * turn;
        let count = (radius / spacing).ceil() as i32;
        for step in -count..=count {
            let place = [angle, f64::from(step) * spacing];
            if let Some(cut) = worst_on(plate, centre, place, between) {
                found.push((cut.stress.von_mises, place));
            }
        }
    }
    found.sort_by(|a, b| b.0.total_cmp(&a.0));
    let best =
        found.iter().take(STARTS).filter_map(|&(_, place)| climb(plate, centre, place, [turn, spacing], between));
    best.max_by(|a, b| a.stress.von_mises.total_cmp(&b.stress.von_mises))
}

/// The worst cut near one, by ever smaller turns and moves.
fn climb(plate: &Plate, centre: [f64; 2], start: [f64; 2], steps: [f64; 2], between: Between) -> Option<Weakest> {
    let mut place = start;
    let mut best = worst_on(plate, centre, place, between)?;
    let mut scale = 0.5;
    for _ in 0..MOST_STEPS {
        let moves = [[1.0, 0.0], [-1.0, 0.0], [0.0, 1.0], [0.0, -1.0]];
        let tried = moves.iter().filter_map(|way| {
            let place = [place[0] + way[0] * steps[0] * scale, place[1] + way[1] * steps[1] * scale];
            Some((place, worst_on(plate, centre, place, between)?))
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

/// The worst cut along a line, by its angle and its distance from a centre.
fn worst_on(plate: &Plate, centre: [f64; 2], [angle, aside]: [f64; 2], between: Between) -> Option<Weakest> {
    let (sin, cos) = angle.sin_cos();
    let line = Line::new([centre[0] - sin * aside, centre[1] + cos * aside], angle);
    let cuts = plate.region.chords(&line).into_iter().filter_map(|chord| {
        let parted = plate.parted_by(&chord);
        let from_caliper = plate.from_caliper(&parted);
        let wanted = match between {
            Between::CaliperAndTube => from_caliper,
            Between::AxleAndTube => !parted.is_empty() && !from_caliper,
        };
        wanted.then(|| {
            let stress = plate.section(&chord, &parted).stress(&plate.pushes(&parted));
            Weakest { chord, stress }
        })
    });
    cuts.max_by(|a, b| a.stress.von_mises.total_cmp(&b.stress.von_mises))
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
