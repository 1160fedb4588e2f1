//! Closed outlines of lines and true arcs, in the leg frame or on a page.

use std::f64::consts::{PI, TAU};

use crate::plain::plain;
use crate::solid::{Disc, hull};
use crate::turn::sin_cos;

/// A corner of an outline, and how the edge that leaves it is bent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corner {
    /// First coordinate, mm: `back` in the leg frame.
    pub x: f64,
    /// Second coordinate, mm: `up` in the leg frame.
    pub y: f64,
    /// Tangent of a quarter of the angle that the edge turns through, counter-clockwise positive; 0 is straight.
    pub bulge: f64,
}

plain!(Corner { x, y, bulge });

/// A closed outline; counter-clockwise round material, either way round a hole.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// The corners in order; the last edge runs back to the first.
    pub corners: Vec<Corner>,
}

plain!(Outline { corners });

/// One edge of an outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Segment {
    /// A straight edge.
    Line {
        /// Where it starts.
        from: [f64; 2],
        /// Where it ends.
        to: [f64; 2],
    },
    /// An arc of a circle, less than a whole turn.
    Arc {
        /// Middle of the circle.
        centre: [f64; 2],
        /// Its radius, mm.
        radius: f64,
        /// Direction from the middle to the start, rad, counter-clockwise from x.
        start: f64,
        /// Angle turned through, rad, counter-clockwise positive.
        sweep: f64,
    },
}

impl Segment {
    /// The edge between two corners.
    fn between(from: Corner, to: Corner) -> Self {
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let chord = dx.hypot(dy);
        if from.bulge == 0.0 || chord == 0.0 {
            return Segment::Line { from: [from.x, from.y], to: [to.x, to.y] };
        }
        // Height of the middle over the chord, to the left of it, by the half-angle of the tangent.
        let lift = (1.0 / from.bulge - from.bulge) / 4.0;
        let centre = [(from.x + to.x) / 2.0 - dy * lift, (from.y + to.y) / 2.0 + dx * lift];
        let radius = chord * (1.0 / from.bulge + from.bulge).abs() / 4.0;
        let start = (from.y - centre[1]).atan2(from.x - centre[0]);
        Segment::Arc { centre, radius, start, sweep: 4.0 * from.bulge.atan() }
    }

    /// The point at a share of the way, 0 to 1.
    pub fn at(&self, share: f64) -> [f64; 2] {
        match *self {
            Segment::Line { from, to } => [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share],
            Segment::Arc { centre, radius, start, sweep } => {
                let (sin, cos) = sin_cos(start + sweep * share);
                [centre[0] + radius * cos, centre[1] + radius * sin]
            }
        }
    }

    /// Its length, mm.
    pub fn length(&self) -> f64 {
        match *self {
            Segment::Line { from, to } => apart(from, to),
            Segment::Arc { radius, sweep, .. } => radius * sweep.abs(),
        }
    }

    /// The point nearest to `point`.
    pub fn nearest(&self, point: [f64; 2]) -> [f64; 2] {
        match *self {
            Segment::Line { from, to } => {
                let along = [to[0] - from[0], to[1] - from[1]];
                let square = along[0] * along[0] + along[1] * along[1];
                let share = if square > 0.0 {
                    ((point[0] - from[0]) * along[0] + (point[1] - from[1]) * along[1]) / square
                } else {
                    0.0
                };
                self.at(share.clamp(0.0, 1.0))
            }
            Segment::Arc { centre, .. } => {
                let (dx, dy) = (point[0] - centre[0], point[1] - centre[1]);
                let ends = [self.at(0.0), self.at(1.0)];
                if dx == 0.0 && dy == 0.0 {
                    return ends[0];
                }
                match self.share_of(dy.atan2(dx)) {
                    Some(share) => self.at(share),
                    None if apart(ends[0], point) <= apart(ends[1], point) => ends[0],
                    None => ends[1],
                }
            }
        }
    }

    /// How far along an arc a direction from its middle lies, 0 to 1; none outside it, and none for a line.
    pub fn share_of(&self, direction: f64) -> Option<f64> {
        let Segment::Arc { start, sweep, .. } = *self else { return None };
        let turned = if sweep >= 0.0 { direction - start } else { start - direction };
        let share = turned.rem_euclid(TAU) / sweep.abs();
        (share <= 1.0).then_some(share)
    }

    /// How far along the edge a point of it lies, 0 to 1.
    pub(crate) fn share_near(&self, point: [f64; 2]) -> f64 {
        match *self {
            Segment::Line { from, to } => (apart(from, point) / apart(from, to).max(f64::MIN_POSITIVE)).min(1.0),
            Segment::Arc { centre, .. } => {
                // An end that is a hair outside by rounding is that end.
                let end = if apart(point, self.at(0.0)) < apart(point, self.at(1.0)) { 0.0 } else { 1.0 };
                self.share_of((point[1] - centre[1]).atan2(point[0] - centre[0])).unwrap_or(end)
            }
        }
    }

    /// The bulge of a share of the edge.
    pub(crate) fn bulge_of(&self, share: f64) -> f64 {
        match *self {
            Segment::Line { .. } => 0.0,
            Segment::Arc { sweep, .. } => (sweep * share / 4.0).tan(),
        }
    }

    /// The same edge the other way.
    pub fn reversed(&self) -> Self {
        match *self {
            Segment::Line { from, to } => Segment::Line { from: to, to: from },
            Segment::Arc { centre, radius, start, sweep } => {
                Segment::Arc { centre, radius, start: start + sweep, sweep: -sweep }
            }
        }
    }
}

/// Distance between two points.
pub(crate) fn apart(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// The place of edges nearest to `point`, which itself it is where there are none.
pub(super) fn nearest_place(edges: impl IntoIterator<Item = Segment>, point: [f64; 2]) -> [f64; 2] {
    let mut best = (f64::INFINITY, point);
    for edge in edges {
        let candidate = edge.nearest(point);
        let distance = apart(candidate, point);
        if distance < best.0 {
            best = (distance, candidate);
        }
    }
    best.1
}

impl Outline {
    /// The outline of the convex hull of discs; see [`hull`].
    pub fn of_discs(discs: &[Disc]) -> Self {
        let edges = hull(discs);
        let mut corners = Vec::new();
        for edge in &edges {
            let sweep = edge.to - edge.from;
            if edge.disc.radius > 0.0 && sweep > 0.0 {
                // A bulge stands for half a turn at most.
                let pieces = (sweep / (PI * 0.75)).ceil().max(1.0);
                let step = sweep / pieces;
                for piece in 0..pieces as usize {
                    let [x, y] = edge.point(edge.from + step * piece as f64);
                    corners.push(Corner { x, y, bulge: (step / 4.0).tan() });
                }
            }
            if edges.len() > 1 {
                let [x, y] = edge.point(edge.to);
                corners.push(Corner { x, y, bulge: 0.0 });
            }
        }
        Self { corners }
    }

    /// A circle.
    pub fn circle([back, up]: [f64; 2], radius: f64) -> Self {
        Self::of_discs(&[Disc::new(back, up, radius)])
    }

    /// A polygon.
    pub fn polygon(points: &[[f64; 2]]) -> Self {
        Self { corners: points.iter().map(|&[x, y]| Corner { x, y, bulge: 0.0 }).collect() }
    }

    /// Its edges, in order.
    pub fn segments(&self) -> impl Iterator<Item = Segment> + '_ {
        let next = self.corners.iter().skip(1).chain(self.corners.first());
        self.corners.iter().zip(next).map(|(&from, &to)| Segment::between(from, to))
    }

    /// The area inside, mm², by Green's theorem along lines and arcs; negative where it runs clockwise.
    pub fn area(&self) -> f64 {
        let twice: f64 = self
            .segments()
            .map(|segment| {
                let ([x1, y1], [x2, y2]) = (segment.at(0.0), segment.at(1.0));
                let beyond = match segment {
                    Segment::Line { .. } => 0.0,
                    Segment::Arc { radius, sweep, .. } => radius * radius * (sweep - sweep.sin()),
                };
                x1 * y2 - x2 * y1 + beyond
            })
            .sum();
        twice / 2.0
    }

    /// Length all the way round, mm.
    pub fn perimeter(&self) -> f64 {
        self.segments().map(|segment| segment.length()).sum()
    }

    /// Lowest and highest corner of the box round it.
    pub fn bounds(&self) -> [[f64; 2]; 2] {
        let mut bounds = [[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]];
        let mut take = |point: [f64; 2]| {
            for axis in 0..2 {
                bounds[0][axis] = bounds[0][axis].min(point[axis]);
                bounds[1][axis] = bounds[1][axis].max(point[axis]);
            }
        };
        for segment in self.segments() {
            take(segment.at(0.0));
            for quarter in 0..4 {
                if let Some(share) = segment.share_of(f64::from(quarter) * PI / 2.0) {
                    take(segment.at(share));
                }
            }
        }
        bounds
    }

    /// Whether a point lies inside, on either way round; on the edge it may be either.
    pub fn contains(&self, point: [f64; 2]) -> bool {
        // The angle that the edge sweeps as seen from the point, exact for arcs too: the chord, and a whole turn where
        // the point lies between chord and arc.
        let mut turned = 0.0;
        for segment in self.segments() {
            let (from, to) = (segment.at(0.0), segment.at(1.0));
            let turn = seen(point, from, to);
            turned += turn;
            // Right of the chord for a counter-clockwise arc; on it, rounding must not tell two sides.
            if let Segment::Arc { centre, radius, sweep, .. } = segment
                && apart(point, centre) < radius
                && turn * sweep < 0.0
            {
                turned += TAU * sweep.signum();
            }
        }
        turned.abs() > PI
    }

    /// The point of the outline nearest to `point`.
    pub fn nearest(&self, point: [f64; 2]) -> [f64; 2] {
        nearest_place(self.segments(), point)
    }

    /// The same outline the other way round.
    pub fn reversed(&self) -> Self {
        let count = self.corners.len();
        let corner = |index: usize| {
            let (at, before) = (self.corners[count - 1 - index], self.corners[(2 * count - 2 - index) % count]);
            Corner { x: at.x, y: at.y, bulge: -before.bulge }
        };
        Self { corners: (0..count).map(corner).collect() }
    }

    /// Mirrored left to right: `back` changes its sign; still the same way round as before.
    pub fn mirrored(&self) -> Self {
        let flip = |corner: &Corner| Corner { x: -corner.x, y: corner.y, bulge: -corner.bulge };
        Self { corners: self.corners.iter().map(flip).collect() }.reversed()
    }

    /// Moved along.
    pub fn moved(&self, [dx, dy]: [f64; 2]) -> Self {
        let corners = self.corners.iter().map(|&Corner { x, y, bulge }| Corner { x: x + dx, y: y + dy, bulge });
        Self { corners: corners.collect() }
    }

    /// How far along a ray from `origin` each crossing of the outline lies, nearest first.
    pub(crate) fn crossings(&self, origin: [f64; 2], direction: [f64; 2]) -> Vec<f64> {
        let mut found = Vec::new();
        let side = |point: [f64; 2]| (point[0] - origin[0]) * direction[1] - (point[1] - origin[1]) * direction[0];
        let along = |point: [f64; 2]| (point[0] - origin[0]) * direction[0] + (point[1] - origin[1]) * direction[1];
        for segment in self.segments() {
            match segment {
                Segment::Line { from, to } => {
                    let (first, last) = (side(from), side(to));
                    if (first > 0.0) != (last > 0.0) {
                        found.push(along(segment.at(first / (first - last))));
                    }
                }
                Segment::Arc { centre, radius, .. } => {
                    let (off, middle) = (side(centre), along(centre));
                    if off.abs() >= radius {
                        continue;
                    }
                    let half = (radius * radius - off * off).sqrt();
                    for reach in [middle - half, middle + half] {
                        let (dx, dy) = (
                            origin[0] + direction[0] * reach - centre[0],
                            origin[1] + direction[1] * reach - centre[1],
                        );
                        if segment.share_of(dy.atan2(dx)).is_some_and(|share| share < 1.0) {
                            found.push(reach);
                        }
                    }
                }
            }
        }
        found.retain(|reach| *reach > 0.0);
        found.sort_by(f64::total_cmp);
        found
    }

    /// Turned about the origin, rad, counter-clockwise.
    pub(crate) fn turned(&self, by: f64) -> Self {
        if by == 0.0 {
            return self.clone();
        }
        let (sin, cos) = sin_cos(by);
        let turn = |&Corner { x, y, bulge }: &Corner| Corner { x: x * cos - y * sin, y: x * sin + y * cos, bulge };
        Self { corners: self.corners.iter().map(turn).collect() }
    }

    /// Points along the outline no further apart than `step`, each with its place as edge and share.
    pub(crate) fn sampled(&self, step: f64) -> Vec<(usize, f64, [f64; 2])> {
        let mut points = Vec::new();
        for (index, segment) in self.segments().enumerate() {
            let turn = match segment {
                Segment::Line { .. } => 0.0,
                Segment::Arc { sweep, .. } => sweep.abs(),
            };
            // An arc has a point every 10° at least.
            let pieces = (segment.length() / step).ceil().max((turn / (PI / 18.0)).ceil()).max(1.0);
            for piece in 0..pieces as usize {
                let share = piece as f64 / pieces;
                points.push((index, share, segment.at(share)));
            }
        }
        points
    }
}

/// The angle from `from` to `to` as seen from a point, rad, −π to π.
pub(crate) fn seen(point: [f64; 2], from: [f64; 2], to: [f64; 2]) -> f64 {
    let (a, b) = ([from[0] - point[0], from[1] - point[1]], [to[0] - point[0], to[1] - point[1]]);
    (a[0] * b[1] - a[1] * b[0]).atan2(a[0] * b[0] + a[1] * b[1])
}

#[cfg(test)]
mod tests;
