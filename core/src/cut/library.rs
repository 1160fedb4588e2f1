//! Union, difference and offset of outlines, by the kept library. Nothing else knows it.

use cavalier_contours::polyline::{BooleanOp, PlineCreation, PlineSource, PlineSourceMut, Polyline};
use cavalier_contours::shape_algorithms::{Shape, ShapeOffsetOptions};

use super::path::{Corner, Outline, apart};
use super::region::Region;
use crate::tolerance::{OUTLINE_POINT, OUTLINE_SPECK};

fn to_library(outline: &Outline) -> Polyline<f64> {
    let mut polyline = Polyline::with_capacity(outline.corners.len(), true);
    for corner in &outline.corners {
        polyline.add(corner.x, corner.y, corner.bulge);
    }
    polyline
}

fn from_library(polyline: &impl PlineSource<Num = f64>) -> Outline {
    let corners = polyline.iter_vertexes().map(|vertex| Corner { x: vertex.x, y: vertex.y, bulge: vertex.bulge });
    tidy(Outline { corners: corners.collect() })
}

/// Without corners that lie on one another.
fn tidy(outline: Outline) -> Outline {
    let mut corners: Vec<Corner> = Vec::with_capacity(outline.corners.len());
    for corner in outline.corners {
        match corners.last_mut() {
            Some(last) if (last.x - corner.x).hypot(last.y - corner.y) < OUTLINE_POINT => last.bulge = corner.bulge,
            _ => corners.push(corner),
        }
    }
    while let [first, .., last] = corners.as_slice()
        && (first.x - last.x).hypot(first.y - last.y) < OUTLINE_POINT
    {
        corners.pop();
    }
    Outline { corners }
}

/// Pieces of material, largest first, from outlines of which the counter-clockwise ones are material.
fn regions(outlines: Vec<Outline>) -> Vec<Region> {
    let sized = outlines.into_iter().filter(|outline| outline.corners.len() > 1);
    let sized: Vec<(f64, Outline)> =
        sized.map(|outline| (outline.area(), outline)).filter(|(area, _)| area.abs() > OUTLINE_SPECK).collect();
    let mut pieces: Vec<(f64, Region)> = Vec::new();
    for (area, outline) in sized.iter().filter(|(area, _)| *area > 0.0) {
        pieces.push((*area, Region { outer: outline.clone(), windows: Vec::new() }));
    }
    pieces.sort_by(|a, b| b.0.total_cmp(&a.0));
    for (_, window) in sized.into_iter().filter(|(area, _)| *area < 0.0) {
        let inside = window.segments().next().map_or([0.0; 2], |segment| segment.at(0.5));
        // The smallest piece round it: the last in the row that has it inside.
        if let Some((_, piece)) = pieces.iter_mut().rev().find(|(_, piece)| piece.outer.contains(inside)) {
            piece.windows.push(window);
        }
    }
    pieces.into_iter().map(|(_, piece)| piece).collect()
}

/// The outline with a corner wherever one of the other's corners lies on it: where two run along the same arc, each then has
/// the same arcs as the other. The library bends an arc wrongly that covers only part of another.
fn with_corners_of(outline: &Outline, other: &Outline) -> Outline {
    let mut corners = Vec::with_capacity(outline.corners.len());
    for segment in outline.segments() {
        let mut shares: Vec<f64> = Vec::new();
        for corner in &other.corners {
            let point = [corner.x, corner.y];
            let place = segment.nearest(point);
            if apart(place, point) < OUTLINE_POINT
                && [0.0, 1.0].iter().all(|end| apart(segment.at(*end), point) > SPLIT_APART)
            {
                shares.push(segment.share_near(place));
            }
        }
        shares.sort_by(f64::total_cmp);
        shares.dedup_by(|a, b| (*a - *b).abs() * segment.length() < SPLIT_APART);
        let mut from = 0.0;
        for to in shares.into_iter().chain([1.0]) {
            let [x, y] = segment.at(from);
            corners.push(Corner { x, y, bulge: segment.bulge_of(to - from) });
            from = to;
        }
    }
    Outline { corners }
}

/// Corners are not put nearer to each other than this, mm: ten times what the library takes for one point.
const SPLIT_APART: f64 = 1e-4;

/// Angles by which both outlines are turned before the library gets them, and back after, rad: where rounding leads it
/// astray in one place it does not in another.
const TURNS: [f64; 3] = [0.0, 0.37, 1.13];
/// An edge that the library makes lies on one that it was given to this, mm.
const FOLLOWS: f64 = 1e-3;

/// Outlines of the combination, counter-clockwise round material; none where the library does not find one that follows
/// the edges it was given.
fn combined(first: &Outline, second: &Outline, operation: BooleanOp) -> Option<Vec<Outline>> {
    let attempt = |turn: f64| {
        let (one, other) = (first.turned(turn), second.turned(turn));
        let (split, other) = (with_corners_of(&one, &other), with_corners_of(&other, &one));
        let result = to_library(&split).boolean(&to_library(&other), operation);
        let oriented = |outline: Outline, is_material: bool| {
            if (outline.area() > 0.0) == is_material { outline } else { outline.reversed() }
        };
        let material = result.pos_plines.iter().map(|found| oriented(from_library(&found.pline), true));
        let open = result.neg_plines.iter().map(|found| oriented(from_library(&found.pline), false));
        let found: Vec<Outline> = material.chain(open).map(|outline| outline.turned(-turn)).collect();
        let off = |place: [f64; 2]| apart(first.nearest(place), place).min(apart(second.nearest(place), place));
        let follows = |outline: &Outline| {
            outline.segments().all(|segment| [0.25, 0.5, 0.8].iter().all(|share| off(segment.at(*share)) < FOLLOWS))
        };
        found.iter().all(follows).then_some(found)
    };
    TURNS.into_iter().find_map(attempt)
}

/// What two pieces cover together: one piece, or two that do not touch; nothing where the library fails.
pub(super) fn united(first: &Region, second: &Region) -> Vec<Region> {
    let found = || {
        let mut outlines = combined(&first.outer, &second.outer, BooleanOp::Or)?;
        // Of a window what the other piece leaves open, and what of it lies in the window.
        for (piece, other) in [(first, second), (second, first)] {
            for window in &piece.windows {
                let left = regions(combined(&window.reversed(), &other.outer, BooleanOp::Not)?);
                outlines.extend(left.iter().flat_map(Region::outlines).map(Outline::reversed));
            }
        }
        Some(regions(outlines))
    };
    found().unwrap_or_default()
}

/// What is left of a piece where another, without windows, is taken away; nothing where the library fails.
pub(super) fn without(piece: &Region, taken: &Region) -> Vec<Region> {
    let found = || {
        // Windows that what is taken meets are taken with it; then all that is taken lies apart.
        let mut taken = taken.clone();
        let mut windows = Vec::new();
        for window in &piece.windows {
            let mut both = united(&taken, &Region { outer: window.reversed(), windows: Vec::new() });
            match both.len() {
                1 => taken = both.remove(0),
                2 => windows.push(window.clone()),
                _ => return None,
            }
        }
        let mut left = combined(&piece.outer, &taken.outer, BooleanOp::Not)?;
        left.extend(windows);
        // What window and taken have between them stays.
        for between in &taken.windows {
            left.extend(combined(&piece.outer, &between.reversed(), BooleanOp::And)?);
        }
        Some(regions(left))
    };
    found().unwrap_or_default()
}

/// What two pieces without windows have in common; nothing, too, where the library fails.
pub(super) fn shared(first: &Outline, second: &Outline) -> Vec<Region> {
    combined(first, second, BooleanOp::And).map(regions).unwrap_or_default()
}

/// All outlines of pieces moved square to themselves: outwards for a positive distance, inwards for a negative one; none
/// where the library does not find outlines that are that far off.
pub(super) fn offset(pieces: &[Region], outwards: f64) -> Vec<Region> {
    if outwards == 0.0 {
        return pieces.to_vec();
    }
    let attempt = |turn: f64| {
        let turned = pieces.iter().map(|piece| piece.turned(turn));
        let outlines: Vec<Polyline<f64>> =
            turned.flat_map(|piece| piece.outlines().map(to_library).collect::<Vec<_>>()).collect();
        let moved = Shape::from_plines(outlines).parallel_offset(-outwards, &ShapeOffsetOptions::new());
        let outlines = moved.ccw_plines.iter().chain(&moved.cw_plines).map(|found| from_library(&found.polyline));
        let found: Vec<Outline> = outlines.map(|outline| outline.turned(-turn)).collect();
        let off = |place: [f64; 2]| {
            let distances = pieces.iter().map(|piece| apart(piece.nearest_edge(place), place));
            (distances.fold(f64::INFINITY, f64::min) - outwards.abs()).abs()
        };
        let keeps_off = |outline: &Outline| {
            outline.segments().all(|segment| [0.25, 0.5, 0.8].iter().all(|share| off(segment.at(*share)) < FOLLOWS))
        };
        found.iter().all(keeps_off).then_some(found)
    };
    TURNS.into_iter().find_map(attempt).map(regions).unwrap_or_default()
}

#[cfg(test)]
mod tests;
