//! The outline of a convex hull of discs, as straight edges joined by arcs.

use std::f64::consts::TAU;

use super::Disc;
use crate::turn::{sin_cos, turned};

/// One arc of a hull's outline and the straight edge that follows it, counter-clockwise in (back, up).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edge {
    /// The disc whose rim the arc follows.
    pub disc: Disc,
    /// Direction of the outward normal where the arc starts, rad.
    pub from: f64,
    /// Direction of the outward normal where the arc ends, rad; not less than `from`.
    pub to: f64,
}

impl Edge {
    /// The point of the disc's rim in the direction `angle`, as `[back, up]`.
    pub fn point(&self, angle: f64) -> [f64; 2] {
        let (sin, cos) = sin_cos(angle);
        [self.disc.back + self.disc.radius * cos, self.disc.up + self.disc.radius * sin]
    }
}

/// The outline of the convex hull of `discs`, counter-clockwise from the direction of largest `back`.
///
/// Each entry is an arc (of no length on a corner); a straight edge runs from its end to the start of the next. A
/// single disc, or one that contains all others, gives one full circle. No discs give no outline.
///
/// ```
/// use tabwright_core::solid::{Disc, hull};
/// let stadium = hull(&[Disc::new(0.0, 0.0, 2.0), Disc::new(10.0, 0.0, 2.0)]);
/// assert_eq!(stadium.len(), 2);
/// assert!((stadium[0].to - stadium[0].from - std::f64::consts::PI).abs() < 1e-12);
/// ```
pub fn hull(discs: &[Disc]) -> Vec<Edge> {
    let first = discs.iter().copied().max_by(|a, b| (a.back + a.radius).total_cmp(&(b.back + b.radius)));
    let Some(first) = first else {
        return Vec::new();
    };
    let mut edges = Vec::new();
    let (mut disc, mut angle) = (first, 0.0);
    // Each disc of a hull is met once a turn by a polygon and twice at most by discs of mixed size.
    for _ in 0..=2 * discs.len() {
        let next = discs
            .iter()
            .filter_map(|other| Some((tangent(&disc, other, angle)?, *other)))
            .min_by(|a, b| a.0.total_cmp(&b.0));
        match next {
            Some((turn, other)) if angle + turn < TAU => {
                edges.push(Edge { disc, from: angle, to: angle + turn });
                (disc, angle) = (other, angle + turn);
            }
            _ => break,
        }
    }
    edges.push(Edge { disc, from: angle, to: TAU });
    join_ends(edges)
}

/// How much further the normal turns from `angle` until `other` reaches past `disc`; `None` where it never does.
fn tangent(disc: &Disc, other: &Disc, angle: f64) -> Option<f64> {
    let distance = disc.centre_distance(other);
    if distance == 0.0 || (disc.radius - other.radius).abs() >= distance {
        return None;
    }
    let heading = (other.up - disc.up).atan2(other.back - disc.back);
    let normal = heading - ((disc.radius - other.radius) / distance).acos();
    let turn = turned(normal - angle, TAU);
    // A tangent just behind is the one that led here.
    Some(if TAU - turn < 1e-9 { 0.0 } else { turn })
}

/// Joins the arc that closes the turn to the one that opened it, where they belong to one disc.
fn join_ends(mut edges: Vec<Edge>) -> Vec<Edge> {
    if edges.len() > 1 && edges[0].disc == edges[edges.len() - 1].disc {
        let last = edges.remove(edges.len() - 1);
        edges[0].from = last.from - TAU;
    }
    edges
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area(edges: &[Edge]) -> f64 {
        // Green's theorem along arcs and straight edges.
        let mut twice = 0.0;
        for (index, edge) in edges.iter().enumerate() {
            let (start, end, next) = (edge.point(edge.from), edge.point(edge.to), &edges[(index + 1) % edges.len()]);
            let (disc, sweep) = (edge.disc, edge.to - edge.from);
            twice +=
                disc.radius * disc.radius * sweep + disc.back * (end[1] - start[1]) - disc.up * (end[0] - start[0]);
            let begin = next.point(next.from);
            twice += end[0] * begin[1] - end[1] * begin[0];
        }
        twice / 2.0
    }

    #[test]
    fn hull_areas_match_closed_forms() {
        let disc = |back, up, radius| Disc::new(back, up, radius);
        let pi = std::f64::consts::PI;
        let cases: [(&[Disc], f64); 5] = [
            (&[disc(3.0, 4.0, 2.0)], 4.0 * pi),
            (&[disc(0.0, 0.0, 2.0), disc(10.0, 0.0, 2.0)], 4.0 * pi + 40.0),
            (&[disc(0.0, 0.0, 5.0), disc(1.0, 0.0, 2.0)], 25.0 * pi),
            (
                &[
                    disc(0.0, 0.0, 0.0),
                    disc(4.0, 0.0, 0.0),
                    disc(4.0, 3.0, 0.0),
                    disc(1.0, 1.0, 0.0),
                    disc(0.0, 3.0, 0.0),
                ],
                12.0,
            ),
            (&[disc(0.0, 0.0, 1.0), disc(4.0, 0.0, 1.0), disc(4.0, 3.0, 1.0), disc(0.0, 3.0, 1.0)], 12.0 + 14.0 + pi),
        ];
        for (discs, expected) in cases {
            let edges = hull(discs);
            assert!((area(&edges) - expected).abs() < 1e-9, "{discs:?}: {} instead of {expected}", area(&edges));
        }
    }
}
