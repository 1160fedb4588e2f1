//! The outline of the plate: eye, neck, tab lands and web in one, inner corners filleted.

use super::library::{offset, united};
use super::path::{Outline, Segment, apart};
use super::region::Region;
use crate::fit::{Part, Parts};
use crate::setup::{Build, Mount, Problem, Setup};
use crate::solid::{Disc, Slab, Solid, gap};
use crate::tolerance::{AT_THE_LIMIT, FILLET_RADIUS, NO_CORNER};
use crate::turn::sin_cos;

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

fn slab_of(part: &Part) -> Option<&Slab> {
    match &part.solid {
        Solid::Slab(slab) => Some(slab),
        Solid::Spool(_) => None,
    }
}

/// Whether tab and dropout lie in one plane, so that one plate can make both.
pub(crate) fn in_one_plane(setup: &Setup) -> bool {
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
/// in one plane, the dropout alone where they do not or where posts stand on it. A tab that is welded on counts as of one
/// piece with the dropout, with the fillets that the weld is to make.
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

/// What is done to the parts before the library gets them, one after the other until the outline comes out sound: all
/// turned by so many rad (and the outline turned back), and each part's discs made so much larger than the last one's, mm.
/// Where edges of two parts all but coincide, rounding may lead the library astray; then the same parts in another place do
/// not, or parts that differ by less than [`SOUND`].
const WAYS: [(f64, f64); 6] = [(0.0, 0.0), (0.37, 0.0), (1.13, 0.0), (0.0, 1.1e-5), (0.37, -1.7e-5), (1.13, 2.3e-5)];

fn filleted(parts: &[&Part], setup: &Setup) -> Result<Filleted, Vec<Problem>> {
    let wanted = setup.tab.fillet_radius;
    let slabs: Vec<&Slab> = parts.iter().filter_map(|part| slab_of(part)).collect();
    let sound = |region: Region, turn: f64, radius: f64| {
        let region = region.turned(-turn);
        is_sound(&region, &slabs, radius).then_some(Filleted { region, radius })
    };
    for share in RADIUS_SHARES {
        let radius = wanted * share;
        let found = WAYS.iter().find_map(|way| sound(closed(&joined(&slabs, *way)?, radius)?, way.0, radius));
        if let Some(found) = found {
            return Ok(found);
        }
    }
    WAYS.iter().find_map(|way| sound(joined(&slabs, *way)?, way.0, 0.0)).ok_or_else(|| no_outline(setup))
}

/// All of the hulls as one piece; none where they do not join, which parts of one plate always do.
fn joined(slabs: &[&Slab], (turn, growth): (f64, f64)) -> Option<Region> {
    let hull = |(index, slab): (usize, &&Slab)| {
        let more = growth * index as f64;
        let grown = slab.discs.iter().map(|disc| Disc { radius: disc.radius + more, ..*disc });
        Region { outer: Outline::of_discs(&grown.collect::<Vec<_>>()), windows: Vec::new() }.turned(turn)
    };
    let mut pieces = slabs.iter().enumerate().map(hull);
    let mut whole = pieces.next()?;
    for piece in pieces {
        let mut found = united(&whole, &piece);
        if found.len() != 1 {
            return None;
        }
        whole = found.remove(0);
    }
    Some(whole)
}

/// The piece with its inner corners rounded: moved outwards and back again. None where that did not come out whole.
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

/// Whether an outline is that of the hulls: nothing of it inside one of them, every outer round on one of their discs,
/// every straight edge on one of their edges. What the library makes is not taken on trust: this part carries a brake.
fn is_sound(region: &Region, slabs: &[&Slab], radius: f64) -> bool {
    let known = |centre: [f64; 2], radius: f64| {
        let mut discs = slabs.iter().flat_map(|slab| &slab.discs);
        discs.any(|disc| apart([disc.back, disc.up], centre) < SOUND && (disc.radius - radius).abs() < SOUND)
    };
    let outside = |point: [f64; 2]| {
        let hull_gaps = slabs.iter().map(|slab| outside_hull(&slab.discs, point));
        hull_gaps.fold(f64::INFINITY, f64::min)
    };
    region.segments().filter(|segment| segment.length() > SOUND).all(|segment| {
        let is_on_parts = || outside(segment.at(0.5)) < SOUND;
        let shape = match segment {
            Segment::Line { .. } => is_on_parts(),
            Segment::Arc { radius: found, sweep, .. } if sweep < 0.0 => radius > 0.0 && (found - radius).abs() < SOUND,
            Segment::Arc { centre, radius: found, .. } => known(centre, found) && is_on_parts(),
        };
        shape && [0.0, 0.25, 0.5, 0.75].iter().all(|share| outside(segment.at(*share)) > -SOUND)
    })
}

/// How far a point lies outside the hull of discs, mm; negative inside.
fn outside_hull(discs: &[Disc], [back, up]: [f64; 2]) -> f64 {
    let point = Slab { discs: vec![Disc::new(back, up, 0.0)], low: 0.0, high: 1.0 };
    let slab = Slab { discs: discs.to_vec(), low: -FLAT, high: FLAT };
    gap(&point.into(), &slab.into()).map_or(f64::NAN, |gap| gap.distance)
}

/// Half the thickness of a slab that is so thick that the way out is always in the wheel plane, mm.
const FLAT: f64 = 1e6;
/// An outline is where it should be to this, mm: a tenth of what files are checked to.
const SOUND: f64 = 1e-4;

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
            let (sin, cos) = sin_cos(start + sweep * share);
            if sweep >= 0.0 { [-sin, cos] } else { [sin, -cos] }
        }
    }
}

fn no_outline(setup: &Setup) -> Vec<Problem> {
    let message =
        "The plate's outline could not be worked out for this setup. Change clock angle or eye radius a little."
            .to_owned();
    vec![Problem { field: "tab.clock".to_owned(), value: crate::words::number(setup.tab.clock), message }]
}

#[cfg(test)]
mod tests;
