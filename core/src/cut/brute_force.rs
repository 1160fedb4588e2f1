//! What tests of outlines compare with: many points, their chords, and numbers drawn without a plan.

use super::path::{Outline, Segment, apart};
use super::region::Region;

/// Numbers that are the same in every run: a linear congruence with Knuth's MMIX constants.
pub(super) struct Drawn(pub(super) u64);

impl Drawn {
    pub(super) fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * ((self.0 >> 11) as f64 / (1_u64 << 53) as f64)
    }

    pub(super) fn point(&mut self, reach: f64) -> [f64; 2] {
        [self.between(-reach, reach), self.between(-reach, reach)]
    }

    /// An edge within some 20 mm: a line, or an arc of either way round, short or nearly whole.
    pub(super) fn edge(&mut self) -> Segment {
        if self.between(0.0, 1.0) < 0.4 {
            return Segment::Line { from: self.point(12.0), to: self.point(12.0) };
        }
        let sweep = self.between(-6.0, 6.0);
        Segment::Arc { centre: self.point(9.0), radius: self.between(0.5, 11.0), start: self.between(-3.0, 3.0), sweep }
    }
}

/// Points of an edge from end to end, `count` chords.
pub(super) fn points(edge: &Segment, count: u32) -> Vec<[f64; 2]> {
    (0..=count).map(|step| edge.at(f64::from(step) / f64::from(count))).collect()
}

/// An outline's edges as chords no longer than about `step`, arcs as 40 at least.
pub(super) fn polygon(outline: &Outline, step: f64) -> Vec<[f64; 2]> {
    let chords = |edge: Segment| {
        let least = if matches!(edge, Segment::Arc { .. }) { 40 } else { 1 };
        let count = ((edge.length() / step).ceil() as u32).max(least);
        points(&edge, count).into_iter().take(count as usize)
    };
    outline.segments().flat_map(chords).collect()
}

/// Whether a point is in a polygon, by how often a level ray crosses its sides.
pub(super) fn in_polygon(polygon: &[[f64; 2]], [x, y]: [f64; 2]) -> bool {
    let next = polygon.iter().cycle().skip(1);
    let crosses = |([x1, y1], [x2, y2]): &(&[f64; 2], &[f64; 2])| {
        (*y1 > y) != (*y2 > y) && x < x1 + (y - y1) / (y2 - y1) * (x2 - x1)
    };
    polygon.iter().zip(next).filter(crosses).count() % 2 == 1
}

/// Whether two lines cross between their ends.
pub(super) fn chords_cross([a, b]: [[f64; 2]; 2], [c, d]: [[f64; 2]; 2]) -> bool {
    let way = |from: [f64; 2], to: [f64; 2]| [to[0] - from[0], to[1] - from[1]];
    let cross = |a: [f64; 2], b: [f64; 2]| a[0] * b[1] - a[1] * b[0];
    // a + s (b − a) = c + t (d − c), by Cramer's rule.
    let (first, second, between) = (way(a, b), way(c, d), way(a, c));
    let whole = cross(first, second);
    let (s, t) = (cross(between, second) / whole, cross(between, first) / whole);
    (0.0..=1.0).contains(&s) && (0.0..=1.0).contains(&t)
}

/// How far a point is from the nearest of a piece's edges, by many of their points.
pub(super) fn off_edges(region: &Region, point: [f64; 2]) -> f64 {
    let places = region.outlines().flat_map(|outline| polygon(outline, 0.05));
    places.map(|place| apart(place, point)).fold(f64::INFINITY, f64::min)
}
