//! Pieces of material: an outline with what is open inside it.

use super::path::{Outline, Segment, apart};
use crate::plain::plain;

/// Material in the wheel plane: an outline, and what is open inside it.
#[derive(Clone, Debug, PartialEq)]
pub struct Region {
    /// The outside, counter-clockwise.
    pub outer: Outline,
    /// Openings inside, clockwise; holes for bolts and axle are not among them.
    pub windows: Vec<Outline>,
}

plain!(Region { outer, windows });

impl Region {
    /// Every outline, the outer first.
    pub fn outlines(&self) -> impl Iterator<Item = &Outline> {
        std::iter::once(&self.outer).chain(&self.windows)
    }

    /// The area of material, mm².
    pub fn area(&self) -> f64 {
        self.outlines().map(Outline::area).sum()
    }

    /// Whether a point is in the material; on an edge it may be either.
    pub fn contains(&self, point: [f64; 2]) -> bool {
        self.outer.contains(point) && !self.windows.iter().any(|window| window.contains(point))
    }

    /// The point of the edges nearest to `point`.
    pub fn nearest_edge(&self, point: [f64; 2]) -> [f64; 2] {
        let places = self.outlines().map(|outline| outline.nearest(point));
        let nearer =
            |best: [f64; 2], place: [f64; 2]| if apart(place, point) < apart(best, point) { place } else { best };
        places.fold([f64::INFINITY; 2], nearer)
    }

    /// Every edge, of all outlines.
    pub fn segments(&self) -> impl Iterator<Item = Segment> + '_ {
        self.outlines().flat_map(Outline::segments)
    }

    /// Mirrored left to right.
    pub fn mirrored(&self) -> Self {
        Self { outer: self.outer.mirrored(), windows: self.windows.iter().map(Outline::mirrored).collect() }
    }

    /// Turned about the origin, rad, counter-clockwise.
    pub(crate) fn turned(&self, by: f64) -> Self {
        if by == 0.0 {
            return self.clone();
        }
        Self { outer: self.outer.turned(by), windows: self.windows.iter().map(|window| window.turned(by)).collect() }
    }

    /// Moved along.
    pub fn moved(&self, by: [f64; 2]) -> Self {
        Self { outer: self.outer.moved(by), windows: self.windows.iter().map(|window| window.moved(by)).collect() }
    }
}
