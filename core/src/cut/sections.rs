//! The narrowest places of what is cut, searched on the real outline.

use super::outline::tab;
use super::path::{Outline, Region, Segment, apart, seen};
use super::pieces::{Joining, Piece, PieceKey, Pieces};
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
/// As many of them as are looked at.
const MOST_LOOKS: usize = 40;
/// Each is narrowed down in so many steps at most; after that it is a hair wider than it might be.
const NARROWING: u32 = 200;

/// The shortest straight cut across an outline that has all of `marks` on one side and all of `others` on the other;
/// none where no cut parts them.
pub(super) fn narrowest(outline: &Outline, marks: &[[f64; 2]], others: &[[f64; 2]]) -> Option<Chord> {
    let points = outline.sampled(OUTLINE_STEP);
    let all: Vec<[f64; 2]> = marks.iter().chain(others).copied().collect();
    // How far the outline has turned about each mark by each of its points.
    let turned: Vec<Vec<f64>> = all.iter().map(|&mark| turns(&points, mark)).collect();
    let parts_them = |i: usize, j: usize| {
        let inside = |mark: usize| {
            let turn = turned[mark][j] - turned[mark][i] + seen(all[mark], points[j].2, points[i].2);
            turn.abs() > std::f64::consts::PI
        };
        let first = inside(0);
        (0..all.len()).all(|mark| inside(mark) == (first == (mark < marks.len())))
    };
    let mut best = f64::INFINITY;
    let mut found: Vec<(f64, usize, usize)> = Vec::new();
    for i in 0..points.len() {
        for j in i + 1..points.len() {
            let width = apart(points[i].2, points[j].2);
            if width < best + SECOND_LOOK && parts_them(i, j) {
                best = best.min(width);
                found.push((width, i, j));
            }
        }
    }
    found.retain(|(width, ..)| *width < best + SECOND_LOOK);
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    let segments: Vec<Segment> = outline.segments().collect();
    let stride = found.len().div_ceil(MOST_LOOKS).max(1);
    let narrowed = found.iter().step_by(stride).map(|&(_, i, j)| narrowed(&segments, &points, i, j));
    narrowed.min_by(|a, b| a.width().total_cmp(&b.width()))
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

/// Each end moves to the place nearest to the other, on its own edge and the two beside it.
fn narrowed(segments: &[Segment], points: &[(usize, f64, [f64; 2])], i: usize, j: usize) -> Chord {
    let near = |edge: usize, to: [f64; 2]| {
        let count = segments.len();
        let beside = [edge, (edge + 1) % count, (edge + count - 1) % count];
        let mut best = segments[edge].nearest(to);
        for other in beside {
            let place = segments[other].nearest(to);
            if apart(place, to) < apart(best, to) {
                best = place;
            }
        }
        best
    };
    let ((first, _, from), (second, _, to)) = (points[i], points[j]);
    let mut chord = Chord { from, to };
    for _ in 0..NARROWING {
        let width = chord.width();
        chord.from = near(first, chord.to);
        chord.to = near(second, chord.from);
        if width - chord.width() < 1e-12 {
            break;
        }
    }
    chord
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
