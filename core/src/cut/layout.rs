//! The pieces laid beside each other as they are seen on their outer faces, x to the right and y up.

use super::library::offset;
use super::pieces::{Piece, PieceKey, Pieces, RoundHole};
use super::region::Region;
use crate::setup::{Problem, Setup, Side};
use crate::words::length;

/// Between two pieces, mm.
const BETWEEN: f64 = 10.0;

/// A piece where it lies on the sheet.
#[derive(Clone, Debug)]
pub(super) struct Placed {
    pub(super) key: PieceKey,
    /// Cut edges.
    pub(super) region: Region,
    pub(super) holes: Vec<RoundHole>,
    /// Where the axle's centre comes to lie.
    pub(super) axle: [f64; 2],
    /// Whether the axle is in this piece.
    pub(super) has_axle: bool,
}

/// All pieces with the size of the sheet they take.
#[derive(Clone, Debug)]
pub(super) struct Layout {
    pub(super) placed: Vec<Placed>,
    /// Width and height; the lower left corner is nought.
    pub(super) size: [f64; 2],
}

/// Which way `back` runs as a piece is seen on its outer face: to the right on the left leg.
pub(super) fn across(setup: &Setup, key: PieceKey) -> f64 {
    let braked = match setup.side {
        Side::Left => 1.0,
        Side::Right => -1.0,
    };
    if key == PieceKey::OtherSide { -braked } else { braked }
}

/// Lays the pieces in rows no wider than `most`, the first row on top.
pub(super) fn lay_out(setup: &Setup, cut: &Pieces, most: f64) -> Layout {
    let mut placed: Vec<Placed> = Vec::new();
    let (mut x, mut y, mut row, mut wide) = (0.0, 0.0_f64, 0.0_f64, 0.0_f64);
    for piece in &cut.pieces {
        let sign = across(setup, piece.key);
        let flat = seen(piece, sign);
        let [low, high] = flat.outer.bounds();
        let (width, height) = (high[0] - low[0], high[1] - low[1]);
        if x > 0.0 && x + width > most {
            (x, y, row) = (0.0, y - row - BETWEEN, 0.0);
        }
        // Tops in one line.
        let by = [x - low[0], y - high[1]];
        let at = |[back, up]: [f64; 2]| [sign * back + by[0], up + by[1]];
        placed.push(Placed {
            key: piece.key,
            region: flat.moved(by),
            holes: piece.holes.iter().map(|hole| RoundHole { centre: at(hole.centre), ..*hole }).collect(),
            axle: by,
            has_axle: piece.key != PieceKey::Tab,
        });
        (x, row, wide) = (x + width + BETWEEN, row.max(height), wide.max(x + width));
    }
    let tall = row - y;
    for piece in &mut placed {
        *piece = raised(piece, tall);
    }
    Layout { placed, size: [wide, tall] }
}

fn seen(piece: &Piece, across: f64) -> Region {
    if across > 0.0 { piece.region.clone() } else { piece.region.mirrored() }
}

fn raised(piece: &Placed, by: f64) -> Placed {
    let at = |[x, y]: [f64; 2]| [x, y + by];
    Placed {
        region: piece.region.moved([0.0, by]),
        holes: piece.holes.iter().map(|hole| RoundHole { centre: at(hole.centre), ..*hole }).collect(),
        axle: at(piece.axle),
        ..*piece
    }
}

/// The pieces with half a cut's width added to their edges and taken off their holes.
///
/// # Errors
/// A problem with `options.kerf` where a slot or hole closes up.
pub(super) fn widened(cut: &Pieces, kerf: f64) -> Result<Pieces, Vec<Problem>> {
    if kerf == 0.0 {
        return Ok(cut.clone());
    }
    let too_wide = || {
        let message = format!(
            "A cut {} wide closes a slot or a hole. Drill them, or give the width of a finer cut.",
            length(kerf)
        );
        vec![Problem { field: "options.kerf".to_owned(), value: crate::words::number(kerf), message }]
    };
    let mut wide = cut.clone();
    for piece in &mut wide.pieces {
        let mut found = offset(std::slice::from_ref(&piece.region), kerf / 2.0);
        // An axle inside the material, or nothing left: the slot has closed up.
        let open = |region: &Region| {
            region.windows.len() == piece.region.windows.len()
                && region.contains([0.0, 0.0]) == piece.region.contains([0.0, 0.0])
        };
        if found.len() != 1 || !open(&found[0]) {
            return Err(too_wide());
        }
        piece.region = found.remove(0);
        for hole in &mut piece.holes {
            hole.diameter -= kerf;
            if hole.diameter <= 0.0 {
                return Err(too_wide());
            }
        }
    }
    Ok(wide)
}
