//! The plate of a setup: its region, what loads it and where it is held.

use super::bolts::{bolt_loads, bolt_strength};
use super::region::{Chord, Line, Outline, Region, hull_outline};
use super::seam::tube_seams;
use super::section::Section;
use super::statics::{Push, Statics, dropout_middle};
use crate::cut;
use crate::fit::{Parts, hole_centres, neck_top, radial, real_web, web_choices, web_roots};
use crate::setup::{Mount, Setup};
use crate::solid::{Disc, Solid};
use crate::turn::turned;

/// The way round the axle turns by no more than this at a time, degrees.
const ROUND_STEP: f64 = 15.0;
/// How far a slot is followed, mm: past the largest eye.
const SLOT_LENGTH: f64 = 400.0;

/// One load on the plate and the way it takes to where the plate is held.
#[derive(Clone, Debug)]
pub struct Carried {
    /// The load.
    pub push: Push,
    /// Points of its way through the plate's material, `[back, up]`, from the load to the middle of the welds.
    pub way: Vec<[f64; 2]>,
    /// Radius of what it is clamped by, mm: a cut nearer than that to the load's place does not bear it.
    pub spread: f64,
    /// Whether it comes from the caliper.
    pub from_caliper: bool,
}

/// The plate of a setup, with its loads.
#[derive(Clone, Debug)]
pub struct Plate {
    /// Its material, from the side.
    pub region: Region,
    /// Thickness, mm.
    pub thickness: f64,
    /// `out` of the dropout's middle, mm.
    pub dropout_out: f64,
    /// `out` of the tab's middle, mm.
    pub tab_out: f64,
    /// The loads of both bolts and of the axle.
    pub loads: Vec<Carried>,
    /// Straight pieces from weld to weld: a cut across one of them does not part the plate from the tube.
    pub held: Vec<[[f64; 2]; 2]>,
    /// The web's land and root; none with posts.
    pub web: Option<[Disc; 2]>,
}

impl Plate {
    /// The plate of a setup under a braking.
    pub fn of(setup: &Setup, statics: &Statics) -> Self {
        let (held, hold) = held(setup);
        let (holes, web) = match setup.caliper.mount {
            Mount::SideLug => (hole_centres(setup), Some(web(setup))),
            Mount::Post => ([[0.0; 2]; 2], None),
        };
        let axle = [0.0, 0.0];
        let spread = setup.wheel.nut_diameter / 2.0;
        let mut loads =
            vec![Carried { push: statics.axle_on_plate, way: vec![axle, hold], spread, from_caliper: false }];
        if let Some([land, root]) = web {
            let near = [land.back, land.up];
            let bolts = bolt_loads(setup, statics.caliper_on_plate);
            for (push, hole) in bolts.into_iter().zip(holes) {
                let mut way = vec![hole];
                if hole != near {
                    way.push(near);
                }
                if [root.back, root.up] == axle {
                    way.extend(round_the_axle(setup, near, hold));
                } else {
                    way.extend([[root.back, root.up], hold]);
                }
                loads.push(Carried { push, way, spread: hole_radius(setup), from_caliper: true });
            }
        }
        let middle = dropout_middle(setup);
        Self {
            region: region(setup),
            thickness: setup.dropout.thickness,
            dropout_out: middle,
            tab_out: middle + setup.tab.offset,
            loads,
            held,
            web,
        }
    }

    /// The loads, by their places, that a chord parts from where the plate is held; none where it parts no such thing,
    /// or cuts through what is welded. Those whose clamp it cuts through are not among them.
    pub fn parted_by(&self, chord: &Chord) -> Vec<usize> {
        let clear = |load: &Carried| {
            let place = load.push.point;
            chord.distance([place.x, place.y]) >= load.spread
        };
        let mut parted = self.beyond(chord);
        parted.retain(|index| self.loads.get(*index).is_some_and(clear));
        parted
    }

    /// The same with every load taken as a point.
    pub fn beyond(&self, chord: &Chord) -> Vec<usize> {
        if self.held.iter().any(|piece| chord.is_crossed_by(*piece)) {
            return Vec::new();
        }
        let crossings =
            |way: &[[f64; 2]]| way.windows(2).filter(|ends| chord.is_crossed_by([ends[0], ends[1]])).count();
        // The plate has no holes but those that chords pass: what a way crosses once is between its ends.
        let is_beyond = |load: &Carried| crossings(&load.way) % 2 == 1;
        (0..self.loads.len()).filter(|index| self.loads.get(*index).is_some_and(is_beyond)).collect()
    }

    /// The loads at these places.
    pub fn pushes(&self, parted: &[usize]) -> Vec<Push> {
        parted.iter().filter_map(|index| Some(self.loads.get(*index)?.push)).collect()
    }

    /// Whether one of the loads at these places comes from the caliper.
    pub fn from_caliper(&self, parted: &[usize]) -> bool {
        parted.iter().any(|index| self.loads.get(*index).is_some_and(|load| load.from_caliper))
    }

    /// The section along a chord that parts the loads at these places; of the tab where they all come from the caliper.
    pub fn section(&self, chord: &Chord, parted: &[usize]) -> Section {
        let is_tab = parted.iter().all(|index| self.loads.get(*index).is_some_and(|load| load.from_caliper));
        Section::of(chord, self.thickness, if is_tab { self.tab_out } else { self.dropout_out })
    }

    /// The chord that a line cuts from the plate about a point.
    pub fn chord_about(&self, line: &Line, point: [f64; 2]) -> Option<Chord> {
        let at = line.coordinates(point)[0];
        self.region.chords(line).into_iter().find(|chord| chord.ends[0] <= at && at <= chord.ends[1])
    }
}

/// The web's land and root.
fn web(setup: &Setup) -> [Disc; 2] {
    let lands = hole_centres(setup).map(|[back, up]| Disc::new(back, up, setup.tab.edge));
    let choices = web_choices(lands, web_roots(setup));
    choices[real_web(&choices)]
}

/// Radius of the bolts' clearance holes, mm.
fn hole_radius(setup: &Setup) -> f64 {
    bolt_strength(setup.caliper.bolt.size, setup.load.bolt_class).hole / 2.0
}

/// The plate as it is cut, inner corners filleted, without slot and holes.
fn filleted(plate: &cut::Region) -> Region {
    let outline = |outline: &cut::Outline| {
        let pieces = outline.segments().map(|segment| match segment {
            cut::Segment::Line { from, to } => Outline::Straight([from, to]),
            cut::Segment::Arc { centre: [back, up], radius, start, sweep } => {
                Outline::Arc(Disc::new(back, up, radius), [start.min(start + sweep), start.max(start + sweep)])
            }
        });
        pieces.collect::<Vec<_>>()
    };
    let slots = plate.windows.iter().map(outline).collect();
    Region { outlines: vec![outline(&plate.outer)], slots, ..Region::default() }
}

/// The plate by its parts, with sharp inner corners: where tab and dropout lie in two planes, or no filleted outline comes
/// about.
fn sharp(setup: &Setup) -> Region {
    let parts = Parts::of(setup);
    let slabs = [Some(parts.eye), Some(parts.neck), parts.lands, parts.web];
    let outlines = slabs.into_iter().flatten().filter_map(|part| match part.solid {
        Solid::Slab(slab) => Some(hull_outline(&slab.discs)),
        Solid::Spool(_) => None,
    });
    Region { outlines: outlines.collect(), ..Region::default() }
}

/// The plate's region: eye, neck, lands and web as they are cut, less axle slot or hole and bolt holes.
fn region(setup: &Setup) -> Region {
    let as_cut = cut::in_one_plane(setup).then(|| cut::plate_region(setup).ok()).flatten();
    let mut region = as_cut.map_or_else(|| sharp(setup), |plate| filleted(&plate.region));
    let slot = setup.dropout.slot_width / 2.0;
    let axle = Disc::new(0.0, 0.0, slot);
    if setup.dropout.closed {
        region.holes.push(axle);
    } else {
        let end = radial(setup.dropout.slot_direction) * SLOT_LENGTH;
        region.slots.push(hull_outline(&[axle, Disc::new(end.x, end.y, slot)]));
    }
    if setup.caliper.mount == Mount::SideLug {
        let radius = hole_radius(setup);
        region.holes.extend(hole_centres(setup).map(|[back, up]| Disc::new(back, up, radius)));
    }
    region
}

/// The way from a point beside the eye to where the plate is held, halfway between axle and rim, clear of the slot.
fn round_the_axle(setup: &Setup, from: [f64; 2], hold: [f64; 2]) -> Vec<[f64; 2]> {
    let clock = |[back, up]: [f64; 2]| back.atan2(up).to_degrees();
    let radius = (setup.dropout.slot_width / 2.0 + setup.dropout.eye_radius) / 2.0;
    let past_slot = |angle: f64| turned(angle - setup.dropout.slot_direction, 360.0);
    // Counted from the slot, the way between two clock angles that never passes it.
    let (start, end) = (past_slot(clock(from)), past_slot(clock(hold)));
    let steps = ((end - start).abs() / ROUND_STEP).ceil().max(1.0);
    let mut way: Vec<[f64; 2]> = (0..=steps as u32)
        .map(|step| {
            let angle = start + (end - start) * f64::from(step) / steps;
            let point = radial(setup.dropout.slot_direction + angle) * radius;
            [point.x, point.y]
        })
        .collect();
    way.push(hold);
    way
}

/// Straight pieces that join the welds, and the middle of them.
fn held(setup: &Setup) -> (Vec<[[f64; 2]; 2]>, [f64; 2]) {
    let top = neck_top(setup);
    let Some(seams) = tube_seams(setup) else {
        return (Vec::new(), [top.back, top.up]);
    };
    let flat = |point: crate::solid::Vector| [point.x, point.y];
    let lines: Vec<[[f64; 2]; 2]> = seams.lines.iter().map(|line| [flat(line.from), flat(line.to)]).collect();
    let middles: Vec<[f64; 2]> = lines.iter().map(|[a, b]| [(a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0]).collect();
    let mut held = lines;
    held.extend(middles.windows(2).map(|pair| [pair[0], pair[1]]));
    let count = middles.len() as f64;
    let sum = middles.iter().fold([0.0; 2], |sum, middle| [sum[0] + middle[0], sum[1] + middle[1]]);
    (held, [sum[0] / count, sum[1] / count])
}
