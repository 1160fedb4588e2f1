//! The outline of the plate: eye, neck, tab lands and web in one, inner corners filleted.

use super::library::{offset, united};
use super::path::{Outline, Region, Segment};
use crate::fit::{Part, Parts};
use crate::setup::{Build, Mount, Problem, Setup};
use crate::solid::Solid;
use crate::tolerance::{AT_THE_LIMIT, FILLET_RADIUS, NO_CORNER};

/// Shares of the fillet radius that are tried, one after the other, until the outline comes out whole.
const RADIUS_SHARES: [f64; 7] = [1.0, 0.9999, 0.99, 0.9, 0.7, 0.4, 0.1];

/// An outline with its fillets.
#[derive(Clone, Debug, PartialEq)]
pub struct Filleted {
    /// The material.
    pub region: Region,
    /// Radius of its inner corners, mm; less than asked for where that could not be made.
    pub radius: f64,
}

fn outline_of(part: &Part) -> Option<Region> {
    match &part.solid {
        Solid::Slab(slab) => Some(Region { outer: Outline::of_discs(&slab.discs), windows: Vec::new() }),
        Solid::Spool(_) => None,
    }
}

/// Whether tab and dropout lie in one plane, so that one plate can make both.
pub(super) fn in_one_plane(setup: &Setup) -> bool {
    setup.tab.offset.abs() <= AT_THE_LIMIT
}

/// Whether the plate is cut in one piece with its tab.
pub(super) fn is_one_piece(setup: &Setup) -> bool {
    setup.tab.build == Build::OnePiece && in_one_plane(setup) && setup.caliper.mount == Mount::SideLug
}

/// The dropout alone: eye and neck.
pub(super) fn dropout(setup: &Setup) -> Result<Filleted, Vec<Problem>> {
    let parts = Parts::of(setup);
    filleted(&[&parts.eye, &parts.neck], setup)
}

/// The tab alone: lands and web; none with posts.
pub(super) fn tab(setup: &Setup) -> Option<Result<Filleted, Vec<Problem>>> {
    let parts = Parts::of(setup);
    let (lands, web) = (parts.lands.as_ref()?, parts.web.as_ref()?);
    Some(filleted(&[lands, web], setup))
}

/// The material that carries the caliper, filleted, without axle slot and holes: the dropout with its tab where they lie
/// in one plane, the dropout alone where they do not or where posts stand on it.
///
/// # Errors
/// A problem with `tab.fillet_radius` where no outline could be made.
///
/// ```
/// use tabwright_core::{Setup, cut::plate_region};
/// let plate = plate_region(&Setup::default()).unwrap().region;
/// assert!(plate.windows.is_empty() && plate.contains([0.0, 0.0]));
/// ```
pub fn plate_region(setup: &Setup) -> Result<Filleted, Vec<Problem>> {
    let parts = Parts::of(setup);
    match (&parts.lands, &parts.web) {
        (Some(lands), Some(web)) if in_one_plane(setup) => filleted(&[&parts.eye, &parts.neck, web, lands], setup),
        _ => filleted(&[&parts.eye, &parts.neck], setup),
    }
}

fn filleted(parts: &[&Part], setup: &Setup) -> Result<Filleted, Vec<Problem>> {
    let wanted = setup.tab.fillet_radius;
    let hulls: Vec<Region> = parts.iter().filter_map(|part| outline_of(part)).collect();
    let sharp = joined(&hulls).ok_or_else(|| no_outline(setup))?;
    for share in RADIUS_SHARES {
        let radius = wanted * share;
        if let Some(region) = closed(&sharp, radius) {
            return Ok(Filleted { region, radius });
        }
    }
    Ok(Filleted { region: sharp, radius: 0.0 })
}

/// All of the pieces as one; none where they do not join, which parts of one plate always do.
fn joined(pieces: &[Region]) -> Option<Region> {
    let (first, rest) = pieces.split_first()?;
    let mut whole = first.clone();
    for piece in rest {
        let mut found = united(&whole, piece);
        if found.len() != 1 {
            return None;
        }
        whole = found.remove(0);
        // Nothing gets smaller by an addition.
        let least = piece.area().max(0.0);
        if whole.area() < least - AT_THE_LIMIT {
            return None;
        }
    }
    Some(whole)
}

/// The piece with its inner corners rounded: moved outwards and back again. None where that did not come out right.
fn closed(sharp: &Region, radius: f64) -> Option<Region> {
    if radius <= AT_THE_LIMIT {
        return Some(sharp.clone());
    }
    let mut found = offset(&offset(std::slice::from_ref(sharp), radius), -radius);
    if found.len() != 1 {
        return None;
    }
    let region = found.remove(0);
    (region.area() >= sharp.area() - AT_THE_LIMIT && has_fillets(&region, radius)).then_some(region)
}

/// Whether every inner corner is an arc of that radius.
fn has_fillets(region: &Region, radius: f64) -> bool {
    let rounds = fillets(region);
    inner_corners(region).is_empty() && rounds.iter().all(|(_, found)| (found - radius).abs() < FILLET_RADIUS)
}

/// Middle and radius of every inner round of a piece.
pub fn fillets(region: &Region) -> Vec<([f64; 2], f64)> {
    let inner = |segment: Segment| match segment {
        // Clockwise about the material.
        Segment::Arc { centre, radius, sweep, .. } if sweep < 0.0 => Some((centre, radius)),
        _ => None,
    };
    region.segments().filter_map(inner).collect()
}

/// Corners of a piece that turn inwards without a round.
pub fn inner_corners(region: &Region) -> Vec<[f64; 2]> {
    let mut corners = Vec::new();
    for outline in region.outlines() {
        let segments: Vec<Segment> = outline.segments().collect();
        for (index, segment) in segments.iter().enumerate() {
            let before = segments[(index + segments.len() - 1) % segments.len()];
            let (from, to) = (heading(&before, 1.0), heading(segment, 0.0));
            let turn = (from[0] * to[1] - from[1] * to[0]).atan2(from[0] * to[0] + from[1] * to[1]);
            if turn < -NO_CORNER {
                corners.push(segment.at(0.0));
            }
        }
    }
    corners
}

/// The way an edge runs at its start or end.
fn heading(segment: &Segment, share: f64) -> [f64; 2] {
    match *segment {
        Segment::Line { from, to } => [to[0] - from[0], to[1] - from[1]],
        Segment::Arc { start, sweep, .. } => {
            let (sin, cos) = (start + sweep * share).sin_cos();
            if sweep >= 0.0 { [-sin, cos] } else { [sin, -cos] }
        }
    }
}

fn no_outline(setup: &Setup) -> Vec<Problem> {
    let message =
        "Eye, neck and tab do not come together to one plate. Move the tab or make the eye larger.".to_owned();
    vec![Problem { field: "tab.clock".to_owned(), value: crate::words::number(setup.tab.clock), message }]
}
