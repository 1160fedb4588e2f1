//! The narrowest places of what is cut, searched on the real outline.

use super::outline::tab;
use super::path::{Outline, Segment, apart, seen};
use super::pieces::{Joining, Piece, PieceKey, Pieces};
use super::region::Region;
use crate::fit::{Parts, neck_top, radial};
use crate::plain::plain;
use crate::setup::Setup;
use crate::solid::Solid;
use crate::tolerance::{AT_THE_LIMIT, OUTLINE_STEP};

/// A narrow place.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Stable key: `eye`, `neck`, `tab`, `opening`, `edge_A`, `edge_B`, `between_holes`, `hole_to_slot`.
    pub name: &'static str,
    /// In words.
    pub label: &'static str,
    /// The piece it is on.
    pub piece: PieceKey,
    /// Width of material, mm.
    pub width: f64,
    /// The least that the builder accepts, mm.
    pub least: f64,
    /// Whether it is at least that.
    pub ok: bool,
    /// Its two ends, `[back, up]`.
    pub from: [f64; 2],
    /// The other.
    pub to: [f64; 2],
    /// The field to change where it is too narrow.
    pub field: &'static str,
    /// What to do then, in words.
    pub remedy: &'static str,
}

plain!(Section { name, label, piece, width, least, ok, from, to, field, remedy });

/// A straight cut across a piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Chord {
    pub(super) from: [f64; 2],
    pub(super) to: [f64; 2],
}

impl Chord {
    pub(super) fn width(&self) -> f64 {
        apart(self.from, self.to)
    }
}

/// Pairs of points this much wider than the narrowest are looked at again, mm: more than a sampled chord can be off.
const SECOND_LOOK: f64 = 0.3;
/// Each is narrowed down in so many steps at most; after that it is a hair wider than it might be.
const NARROWING: u32 = 200;

/// An outline as a search for cuts across it sees it.
struct Search<'a> {
    segments: Vec<Segment>,
    /// Points along it, with edge and share.
    points: Vec<(usize, f64, [f64; 2])>,
    /// What must be on one side, then what must be on the other.
    marks: [&'a [[f64; 2]]; 2],
    /// For each mark, how far the outline has turned about it by each of the points.
    turned: Vec<Vec<f64>>,
}

/// A place on an outline: the last point before it, and the share of its edge.
#[derive(Clone, Copy)]
struct Spot {
    before: usize,
    share: f64,
}

impl<'a> Search<'a> {
    fn of(outline: &Outline, marks: [&'a [[f64; 2]]; 2]) -> Self {
        let points = outline.sampled(OUTLINE_STEP);
        let all = marks[0].iter().chain(marks[1]);
        let turned = all.map(|&mark| turns(&points, mark)).collect();
        Self { segments: outline.segments().collect(), points, marks, turned }
    }

    fn at(&self, spot: Spot) -> [f64; 2] {
        self.segments[self.points[spot.before].0].at(spot.share)
    }

    /// Whether a cut between two places has the marks on its two sides as they are wanted.
    fn parts(&self, first: Spot, second: Spot) -> bool {
        let (from, to) = (self.at(first), self.at(second));
        let all = self.marks[0].iter().chain(self.marks[1]).zip(&self.turned);
        let mut inside = all.map(|(&mark, turned)| {
            let end = turned[second.before] + seen(mark, self.points[second.before].2, to);
            let start = turned[first.before] + seen(mark, self.points[first.before].2, from);
            (end - start + seen(mark, to, from)).abs() > std::f64::consts::PI
        });
        let side = inside.next().unwrap_or_default();
        let many = self.marks[0].len();
        inside.enumerate().all(|(index, is_inside)| is_inside == (side == (index + 1 < many)))
    }

    /// The same for two of the points. What the outline turns about a mark from one to the other, closed by the cut, is a
    /// whole turn or none; the cut makes half a turn at most, so that the way round decides.
    fn parts_at(&self, first: usize, second: usize) -> bool {
        let mut inside = self.turned.iter().map(|turned| (turned[second] - turned[first]).abs() > std::f64::consts::PI);
        let side = inside.next().unwrap_or_default();
        let many = self.marks[0].len();
        inside.enumerate().all(|(index, is_inside)| is_inside == (side == (index + 1 < many)))
    }

    /// The place of the same edge that is nearest to a point.
    fn nearest(&self, spot: Spot, to: [f64; 2]) -> Spot {
        let edge = self.points[spot.before].0;
        let place = self.segments[edge].nearest(to);
        let share = self.segments[edge].share_near(place);
        self.spot(edge, share)
    }

    fn spot(&self, edge: usize, share: f64) -> Spot {
        let after = self.points.partition_point(|point| (point.0, point.1) <= (edge, share));
        Spot { before: after.saturating_sub(1), share }
    }

    /// Part of the way from one place to another on the same edge.
    fn between(&self, from: Spot, to: Spot, part: f64) -> Spot {
        self.spot(self.points[from.before].0, from.share + (to.share - from.share) * part)
    }

    fn chord(&self, first: Spot, second: Spot) -> Chord {
        Chord { from: self.at(first), to: self.at(second) }
    }

    /// Each end moves along its own edge towards the place nearest to the other, as far as the cut still parts the marks.
    fn narrowed(&self, mut first: Spot, mut second: Spot) -> Chord {
        for _ in 0..NARROWING {
            let before = self.chord(first, second);
            let next = self.nearest(first, before.to);
            let then = self.nearest(second, self.at(next));
            let mut part = 1.0;
            while part > 1e-6 {
                let moved = (self.between(first, next, part), self.between(second, then, part));
                if self.chord(moved.0, moved.1).width() < before.width() && self.parts(moved.0, moved.1) {
                    (first, second) = moved;
                    break;
                }
                part /= 2.0;
            }
            if before.width() - self.chord(first, second).width() < 1e-9 {
                break;
            }
        }
        self.chord(first, second)
    }
}

/// The shortest straight cut across an outline that has all of `marks` on one side and all of `others` on the other;
/// none where no cut parts them.
pub(super) fn narrowest(outline: &Outline, marks: &[[f64; 2]], others: &[[f64; 2]]) -> Option<Chord> {
    let search = Search::of(outline, [marks, others]);
    let points = &search.points;
    let spot = |index: usize| Spot { before: index, share: points[index].1 };
    let mut best = f64::INFINITY;
    let mut found: Vec<(f64, usize, usize)> = Vec::new();
    for (i, (.., [x, y])) in points.iter().enumerate() {
        for (j, (.., [other_x, other_y])) in points.iter().enumerate().skip(i + 1) {
            // Most pairs are far apart: they are told by squares, before any root.
            let square = (other_x - x) * (other_x - x) + (other_y - y) * (other_y - y);
            let limit = best + SECOND_LOOK;
            if square < limit * limit && search.parts_at(i, j) {
                let width = square.sqrt();
                best = best.min(width);
                found.push((width, i, j));
            }
        }
    }
    found.retain(|(width, ..)| *width < best + SECOND_LOOK);
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    // The best pair of each two edges.
    let mut looked: Vec<[usize; 2]> = Vec::new();
    let mut shortest: Option<Chord> = None;
    for (_, i, j) in found {
        let edges = [points[i].0, points[j].0];
        if looked.contains(&edges) {
            continue;
        }
        looked.push(edges);
        let chord = search.narrowed(spot(i), spot(j));
        if shortest.is_none_or(|shortest| chord.width() < shortest.width()) {
            shortest = Some(chord);
        }
    }
    shortest
}

fn turns(points: &[(usize, f64, [f64; 2])], mark: [f64; 2]) -> Vec<f64> {
    let mut turned = 0.0;
    let mut all = Vec::with_capacity(points.len());
    for (index, point) in points.iter().enumerate() {
        if index > 0 {
            turned += seen(mark, points[index - 1].2, point.2);
        }
        all.push(turned);
    }
    all
}

/// Every narrow place of a setup's pieces.
pub(super) fn sections(setup: &Setup, cut: &Pieces) -> Vec<Section> {
    let mut found = Vec::new();
    let top = neck_top(setup);
    let (axle, neck) = ([0.0, 0.0], [top.back, top.up]);
    for piece in &cut.pieces {
        let mut add = |name, label, chord: Chord, least: f64, field, remedy| {
            let width = chord.width();
            found.push(Section {
                name,
                label,
                piece: piece.key,
                width,
                least,
                ok: width >= least - AT_THE_LIMIT,
                from: chord.from,
                to: chord.to,
                field,
                remedy,
            });
        };
        let net = setup.cut.least_net;
        if piece.key != PieceKey::Tab {
            let eye = beside_the_axle(setup, &piece.whole);
            add("eye", "Beside the axle", eye, net, "dropout.eye_radius", "Make the eye larger.");
            if let Some(chord) = narrowest(&piece.whole.outer, &[axle], &[neck]) {
                add("neck", "Across the neck", chord, net, "dropout.neck_width", "Make the neck wider.");
            }
        }
        if piece.key == PieceKey::OtherSide {
            continue;
        }
        if let Some(chord) = across_tab(setup, piece, cut.joining, [axle, neck]) {
            add("tab", "Across the tab", chord, net, "tab.edge", "Give more from hole to edge, or a larger fillet.");
        }
        if let Some(chord) = beside_opening(&piece.region) {
            add(
                "opening",
                "Beside the opening inside the plate",
                chord,
                net,
                "tab.fillet_radius",
                "Fill the opening with a larger fillet, or move the tab.",
            );
        }
        edges(setup, piece, &mut add);
    }
    found
}

type Adding<'a> = dyn FnMut(&'static str, &'static str, Chord, f64, &'static str, &'static str) + 'a;

/// Material round each bolt hole, and between them.
fn edges(setup: &Setup, piece: &Piece, add: &mut Adding<'_>) {
    const TO_EDGE: [(&str, &str); 2] = [("edge_A", "Hole A to the edge"), ("edge_B", "Hole B to the edge")];
    let least = setup.cut.least_edge;
    let bolts: Vec<_> = piece.holes.iter().filter(|hole| hole.name != "axle").collect();
    for (hole, (name, label)) in bolts.iter().zip(TO_EDGE) {
        let edge = piece.region.nearest_edge(hole.centre);
        let rim = towards(hole.centre, edge, hole.diameter / 2.0);
        add(name, label, Chord { from: rim, to: edge }, least, "tab.edge", "Give more from hole to edge.");
        if let Some(axle) = piece.holes.iter().find(|hole| hole.name == "axle") {
            let chord = Chord {
                from: rim_towards(hole.centre, axle.centre, hole.diameter),
                to: rim_towards(axle.centre, hole.centre, axle.diameter),
            };
            if apart(hole.centre, axle.centre) - (hole.diameter + axle.diameter) / 2.0 < 4.0 * least {
                add("hole_to_axle", "Hole to the axle's hole", chord, least, "tab.clock", "Move the caliper.");
            }
        }
    }
    if let [first, second] = bolts.as_slice() {
        let chord = Chord {
            from: rim_towards(first.centre, second.centre, first.diameter),
            to: rim_towards(second.centre, first.centre, second.diameter),
        };
        add("between_holes", "Between the holes", chord, least, "caliper.holes", "Measure the caliper's holes again.");
    }
}

fn rim_towards(centre: [f64; 2], to: [f64; 2], diameter: f64) -> [f64; 2] {
    towards(centre, to, diameter / 2.0)
}

/// The point at a distance from one point towards another.
fn towards(from: [f64; 2], to: [f64; 2], distance: f64) -> [f64; 2] {
    let long = apart(from, to);
    if long == 0.0 {
        return from;
    }
    [from[0] + (to[0] - from[0]) * distance / long, from[1] + (to[1] - from[1]) * distance / long]
}

/// From the round end of the slot, or the rim of the axle's hole, to the nearest edge; the mouth does not count.
fn beside_the_axle(setup: &Setup, plate: &Region) -> Chord {
    let axle = [0.0, 0.0];
    let direction = radial(setup.dropout.slot_direction);
    let (along, square) = ([direction.x, direction.y], [-direction.y, direction.x]);
    let back_of_mouth =
        |point: [f64; 2]| setup.dropout.closed || point[0] * along[0] + point[1] * along[1] <= AT_THE_LIMIT;
    let mut candidates: Vec<[f64; 2]> = Vec::new();
    for segment in plate.segments() {
        candidates.extend([segment.nearest(axle), segment.at(0.0), segment.at(1.0)]);
    }
    // On an arc about the axle every point is as near: those square to the slot are among them.
    for way in [square, [-square[0], -square[1]], [-along[0], -along[1]]] {
        for outline in plate.outlines() {
            if let Some(reach) = outline.crossings(axle, way).first() {
                candidates.push([way[0] * reach, way[1] * reach]);
            }
        }
    }
    let nearer = |best: Option<[f64; 2]>, point: [f64; 2]| match best {
        Some(best) if apart(best, axle) <= apart(point, axle) => Some(best),
        _ => Some(point),
    };
    let edge = candidates.into_iter().filter(|point| back_of_mouth(*point)).fold(None, nearer).unwrap_or(axle);
    Chord { from: towards(axle, edge, setup.dropout.slot_width / 2.0), to: edge }
}

/// The narrowest cut between the caliper's holes and what holds the tab.
fn across_tab(setup: &Setup, piece: &Piece, joining: Joining, roots: [[f64; 2]; 2]) -> Option<Chord> {
    let holes: Vec<[f64; 2]> = piece.holes.iter().filter(|hole| hole.name != "axle").map(|hole| hole.centre).collect();
    if holes.is_empty() {
        return None;
    }
    if joining == Joining::OnePiece {
        return narrowest(&piece.whole.outer, &holes, &roots);
    }
    // On the tab before it was cut back: what has been cut off is no narrower than the weld's edge.
    let parts = Parts::of(setup);
    let Some(Solid::Slab(web)) = parts.web.as_ref().map(|web| &web.solid) else { return None };
    let root = web.discs.last()?;
    let whole = tab(setup)?.ok()?;
    let chord = narrowest(&whole.region.outer, &holes, &[[root.back, root.up]])?;
    let on_piece = [chord.from, chord.to].iter().all(|end| apart(piece.region.nearest_edge(*end), *end) < 1e-3);
    on_piece.then_some(chord)
}

/// The narrowest bar between an opening inside the plate and the edge.
fn beside_opening(region: &Region) -> Option<Chord> {
    let mut best: Option<Chord> = None;
    for window in &region.windows {
        for (_, _, point) in window.sampled(OUTLINE_STEP / 4.0) {
            let mut chord = Chord { from: point, to: region.outer.nearest(point) };
            if best.is_none_or(|best| chord.width() < best.width()) {
                chord.from = window.nearest(chord.to);
                best = Some(chord);
            }
        }
    }
    best
}

#[cfg(test)]
mod tests;
