//! The plate as seen from the side, and the chords that a straight line cuts from it.

use std::f64::consts::TAU;

use crate::solid::{Disc, hull};
use crate::turn::{sin_cos, turned};

/// Crossings nearer to each other than this are one, mm: a corner that both its sides report.
const ONE_CROSSING: f64 = 1e-7;
/// Angles this far beyond an arc's ends still belong to it, rad: so that no corner is missed by both its sides.
const ARC_END: f64 = 1e-9;

/// A piece of an outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outline {
    /// A straight piece between two points, `[back, up]`.
    Straight([[f64; 2]; 2]),
    /// A piece of the rim of a disc between two directions of its outward normal, rad, the second not below the first.
    Arc(Disc, [f64; 2]),
}

/// A flat region: closed outlines, which may overlap and then are one, less slots and holes.
///
/// An outline may have any shape that does not cross itself; slots split what they cut, holes weaken it.
#[derive(Clone, Debug, Default)]
pub struct Region {
    /// Closed outlines of straight pieces and arcs.
    pub outlines: Vec<Vec<Outline>>,
    /// Closed outlines of what is cut out and open to the outside.
    pub slots: Vec<Vec<Outline>>,
    /// Holes.
    pub holes: Vec<Disc>,
}

/// The closed outline of the hull of some discs.
pub fn hull_outline(discs: &[Disc]) -> Vec<Outline> {
    let edges = hull(discs);
    let mut outline = Vec::new();
    for (index, edge) in edges.iter().enumerate() {
        let next = &edges[(index + 1) % edges.len()];
        if edge.disc.radius > 0.0 {
            outline.push(Outline::Arc(edge.disc, [edge.from, edge.to]));
        }
        if edges.len() > 1 {
            outline.push(Outline::Straight([edge.point(edge.to), next.point(next.from)]));
        }
    }
    outline
}

/// A straight line in the region's plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// A point of it, `[back, up]`.
    pub point: [f64; 2],
    /// Its direction, of unit length.
    pub along: [f64; 2],
}

impl Line {
    /// The line through a point, with its direction turned from `back` towards `up`, rad.
    pub fn new(point: [f64; 2], angle: f64) -> Self {
        let (sin, cos) = sin_cos(angle);
        Self { point, along: [cos, sin] }
    }

    /// The point at a distance along it.
    pub fn at(&self, distance: f64) -> [f64; 2] {
        [self.point[0] + self.along[0] * distance, self.point[1] + self.along[1] * distance]
    }

    /// A point's distance along it and square to it.
    pub fn coordinates(&self, point: [f64; 2]) -> [f64; 2] {
        let (x, y) = (point[0] - self.point[0], point[1] - self.point[1]);
        [x * self.along[0] + y * self.along[1], y * self.along[0] - x * self.along[1]]
    }

    /// How far along it a straight piece crosses it.
    pub fn crossing(&self, [from, to]: [[f64; 2]; 2]) -> Option<f64> {
        let (from, to) = (self.coordinates(from), self.coordinates(to));
        // A point on the line belongs to one side, so that the pieces that meet there are counted once.
        if (from[1] > 0.0) == (to[1] > 0.0) {
            return None;
        }
        Some(from[0] + (to[0] - from[0]) * from[1] / (from[1] - to[1]))
    }
}

/// A chord of the region: from edge to edge, in one or more pieces where holes lie on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Chord {
    /// The line it lies on.
    pub line: Line,
    /// Where it starts and ends along the line, mm.
    pub ends: [f64; 2],
    /// Its pieces of material along the line, in order, mm.
    pub pieces: Vec<[f64; 2]>,
}

impl Region {
    /// Every chord that a line cuts from the region, in the line's way.
    pub fn chords(&self, line: &Line) -> Vec<Chord> {
        let mut spans: Vec<[f64; 2]> = self.outlines.iter().flat_map(|outline| inside(outline, line)).collect();
        spans.sort_by(|a, b| a[0].total_cmp(&b[0]));
        let mut joined: Vec<[f64; 2]> = Vec::new();
        for span in spans {
            match joined.last_mut() {
                Some(last) if span[0] <= last[1] + ONE_CROSSING => last[1] = last[1].max(span[1]),
                _ => joined.push(span),
            }
        }
        for slot in self.slots.iter().flat_map(|slot| inside(slot, line)) {
            joined = without(&joined, slot);
        }
        let chord = |ends: [f64; 2]| {
            let mut pieces = vec![ends];
            for hole in self.holes.iter().filter_map(|hole| through(hole, line)) {
                pieces = without(&pieces, hole);
            }
            (!pieces.is_empty()).then_some(Chord { line: *line, ends, pieces })
        };
        joined.into_iter().filter_map(chord).collect()
    }
}

impl Chord {
    /// Its two ends, `[back, up]`.
    pub fn end_points(&self) -> [[f64; 2]; 2] {
        self.ends.map(|end| self.line.at(end))
    }

    /// How near it comes to a point, mm.
    pub fn distance(&self, point: [f64; 2]) -> f64 {
        let [along, aside] = self.line.coordinates(point);
        (along - along.max(self.ends[0]).min(self.ends[1])).hypot(aside)
    }

    /// Whether a straight piece crosses it.
    pub fn is_crossed_by(&self, piece: [[f64; 2]; 2]) -> bool {
        self.line.crossing(piece).is_some_and(|at| self.ends[0] <= at && at <= self.ends[1])
    }
}

/// Stretches of a line without one of them.
fn without(spans: &[[f64; 2]], [from, to]: [f64; 2]) -> Vec<[f64; 2]> {
    let parts = |&[start, end]: &[f64; 2]| [[start, end.min(from)], [start.max(to), end]];
    spans.iter().flat_map(parts).filter(|[start, end]| end - start > ONE_CROSSING).collect()
}

/// Where a line runs through a disc.
fn through(disc: &Disc, line: &Line) -> Option<[f64; 2]> {
    let [along, aside] = line.coordinates([disc.back, disc.up]);
    let half = (disc.radius * disc.radius - aside * aside).max(0.0).sqrt();
    (half > 0.0).then_some([along - half, along + half])
}

/// Where a line runs inside a closed outline.
fn inside(outline: &[Outline], line: &Line) -> Vec<[f64; 2]> {
    let mut crossings: Vec<f64> = Vec::new();
    for piece in outline {
        match piece {
            Outline::Straight(ends) => crossings.extend(line.crossing(*ends)),
            Outline::Arc(disc, [from, to]) => {
                let on_arc = |at: &f64| {
                    let [back, up] = line.at(*at);
                    let turn = turned((up - disc.up).atan2(back - disc.back) - from, TAU);
                    turn <= to - from + ARC_END || turn >= TAU - ARC_END
                };
                crossings.extend(through(disc, line).into_iter().flatten().filter(on_arc));
            }
        }
    }
    crossings.sort_by(f64::total_cmp);
    crossings.dedup_by(|a, b| (*a - *b).abs() < ONE_CROSSING);
    match crossings[..] {
        // A line that only touches.
        [] | [_] => Vec::new(),
        // A corner counted on one side only: what lies between the outer two is inside or nearly so.
        [first, .., last] if crossings.len() % 2 == 1 => vec![[first, last]],
        _ => crossings.chunks_exact(2).map(|pair| [pair[0], pair[1]]).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a stadium of radius 5 about (0, 0) and (20, 0), a hole of 3 in its middle, a slot of 2 from its right end.
    #[test]
    fn chords_are_those_by_hand() {
        let stadium = hull_outline(&[Disc::new(0.0, 0.0, 5.0), Disc::new(20.0, 0.0, 5.0)]);
        let slot = hull_outline(&[Disc::new(20.0, 0.0, 1.0), Disc::new(40.0, 0.0, 1.0)]);
        let region = Region { outlines: vec![stadium], slots: vec![slot], holes: vec![Disc::new(10.0, 0.0, 3.0)] };
        let pieces = |point, angle: f64| {
            let chords = region.chords(&Line::new(point, angle.to_radians()));
            chords.into_iter().map(|chord| chord.pieces).collect::<Vec<_>>()
        };
        let near = |got: Vec<Vec<[f64; 2]>>, expected: &[&[[f64; 2]]]| {
            assert_eq!(got.len(), expected.len(), "{got:?}");
            for (a, b) in got.iter().flatten().flatten().zip(expected.iter().copied().flatten().flatten()) {
                assert!((a - b).abs() < 1e-9, "{got:?}");
            }
        };
        near(pieces([5.0, 0.0], 90.0), &[&[[-5.0, 5.0]]]);
        near(pieces([10.0, 0.0], 90.0), &[&[[-5.0, -3.0], [3.0, 5.0]]]);
        near(pieces([22.0, 0.0], 90.0), &[&[[-(21.0_f64.sqrt()), -1.0]], &[[1.0, 21.0_f64.sqrt()]]]);
        near(pieces([0.0, 0.0], 0.0), &[&[[-5.0, 7.0], [13.0, 19.0]]]);
        near(pieces([0.0, 5.5], 0.0), &[]);
        near(pieces([-4.0, 0.0], 90.0), &[&[[-3.0, 3.0]]]);
    }
}
