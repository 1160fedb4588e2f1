//! Gaps of the plate as it is cut, with its fillets, to rotor and caliper.

use super::outline::{Filleted, dropout, in_one_plane, plate_region, tab};
use super::path::{Outline, Segment, apart, nearest_place};
use super::region::Region;
use crate::fit::{PairName, Part, Parts, Verdict, clearances, dropout_plane, tab_plane};
use crate::plain::plain;
use crate::setup::{Mount, Problem, Setup};
use crate::solid::{Slab, Solid};
use crate::turn::sin_cos;

/// A gap to the plate as it is cut.
#[derive(Clone, Debug, PartialEq)]
pub struct CutGap {
    /// Key of the pair: `rotor/plate` or `caliper/plate`.
    pub name: &'static str,
    /// In words.
    pub label: String,
    /// What is nearest to the plate.
    pub part: String,
    /// Signed gap with fillets, mm; where the two overlap, less than nought by how deep the part's edge lies inside.
    pub gap: f64,
    /// The same without fillets, as the verdict on the setup has it.
    pub sharp: f64,
    /// The gap wanted, mm.
    pub required: f64,
    /// The verdict on the gap with fillets.
    pub verdict: Verdict,
    /// The verdict on the gap without.
    pub sharp_verdict: Verdict,
    /// Nearest place of the part, `[back, up]`.
    pub from: [f64; 2],
    /// Nearest place of the plate, `[back, up]`.
    pub to: [f64; 2],
    /// The largest fillet radius that keeps the gap wanted, mm, where the one asked for does not and the sharp plate does.
    pub largest_fillet: Option<f64>,
}

plain!(CutGap { name, label, part, gap, sharp, required, verdict, sharp_verdict, from, to, largest_fillet });

/// A piece of plate where it stands.
struct Plate {
    region: Region,
    low: f64,
    high: f64,
}

fn plates(setup: &Setup) -> Result<Vec<Plate>, Vec<Problem>> {
    let thickness = setup.dropout.thickness;
    let at = |filleted: Filleted, low: f64| Plate { region: filleted.region, low, high: low + thickness };
    if in_one_plane(setup) || setup.caliper.mount == Mount::Post {
        return Ok(vec![at(plate_region(setup)?, dropout_plane(setup))]);
    }
    let mut plates = vec![at(dropout(setup)?, dropout_plane(setup))];
    if let Some(tab) = tab(setup) {
        plates.push(at(tab?, tab_plane(setup)));
    }
    Ok(plates)
}

/// The gaps of the plate with its fillets, for every pair that is checked against eye, neck, lands and web.
///
/// # Errors
/// Where no outline could be made, or no gap could be found.
pub fn gaps_as_cut(setup: &Setup) -> Result<Vec<CutGap>, Vec<Problem>> {
    let parts = Parts::of(setup);
    let sharp = clearances(setup, &parts).map_err(|_| vec![crate::fit::no_gap()])?;
    let plates = plates(setup)?;
    let mut found = Vec::new();
    for name in [PairName::CaliperPlate, PairName::RotorPlate] {
        let Some(pair) = sharp.iter().find(|pair| pair.name == name) else { continue };
        let Some(near) = nearest(&bodies(setup, &parts, name), &plates) else { continue };
        let required = name.required(setup);
        let mut gap = CutGap {
            name: name.key(),
            label: name.label(),
            part: near.part,
            // Fillets add material: where part and plate overlap, they are no less deep in each other than without.
            gap: if near.gap > 0.0 { near.gap } else { near.gap.min(pair.gap) },
            sharp: pair.gap,
            required,
            verdict: Verdict::of(near.gap, required).max(pair.verdict()),
            sharp_verdict: pair.verdict(),
            from: near.from,
            to: near.to,
            largest_fillet: None,
        };
        if gap.verdict > gap.sharp_verdict {
            gap.largest_fillet = largest_fillet(setup, &parts, name, gap.sharp_verdict);
        }
        found.push(gap);
    }
    Ok(found)
}

fn bodies<'a>(setup: &Setup, parts: &'a Parts, name: PairName) -> Vec<&'a Part> {
    match name {
        PairName::RotorPlate => vec![&parts.rotor],
        _ => {
            let bodies = setup.caliper.bodies.iter().zip(&parts.caliper);
            bodies.filter(|(body, _)| !body.bolted).map(|(_, part)| part).collect()
        }
    }
}

/// Halvings of the fillet radius in search of the largest that does: to less than a tenth of a millimetre.
const HALVINGS: u32 = 10;

fn largest_fillet(setup: &Setup, parts: &Parts, name: PairName, wanted: Verdict) -> Option<f64> {
    let bodies = bodies(setup, parts, name);
    let does = |radius: f64| {
        let mut other = setup.clone();
        other.tab.fillet_radius = radius;
        let near = plates(&other).ok().and_then(|plates| nearest(&bodies, &plates));
        near.is_some_and(|near| Verdict::of(near.gap, name.required(setup)) <= wanted)
    };
    let (mut low, mut high) = (0.0, setup.tab.fillet_radius);
    for _ in 0..HALVINGS {
        let middle = (low + high) / 2.0;
        if does(middle) { low = middle } else { high = middle }
    }
    (low > 0.0).then_some(low)
}

struct Near {
    part: String,
    gap: f64,
    from: [f64; 2],
    to: [f64; 2],
}

fn nearest(bodies: &[&Part], plates: &[Plate]) -> Option<Near> {
    let mut best: Option<Near> = None;
    for part in bodies {
        let Solid::Slab(slab) = &part.solid else { continue };
        for plate in plates {
            let flat = flat_gap(slab, &plate.region);
            let gap = beside(flat.gap, slab, plate);
            if best.as_ref().is_none_or(|best| gap < best.gap) {
                best = Some(Near { part: part.name.clone(), gap, from: flat.from, to: flat.to });
            }
        }
    }
    best
}

/// The gap of two things that are apart by `flat` in the wheel plane: as between slabs, Pythagoras where they are apart
/// sideways too.
fn beside(flat: f64, slab: &Slab, plate: &Plate) -> f64 {
    let sideways = (plate.low - slab.high).max(slab.low - plate.high);
    if flat > 0.0 && sideways > 0.0 { flat.hypot(sideways) } else { flat.max(sideways) }
}

struct Flat {
    gap: f64,
    from: [f64; 2],
    to: [f64; 2],
}

/// Edge points of a part are looked at this closely where it overlaps the plate, mm.
const DEPTH_STEP: f64 = 0.25;

/// The gap in the wheel plane between a hull of discs and a piece of plate.
fn flat_gap(slab: &Slab, region: &Region) -> Flat {
    let hull = match slab.discs.as_slice() {
        [only] if only.radius == 0.0 => Outline::polygon(&[[only.back, only.up]]),
        discs => Outline::of_discs(discs),
    };
    let mut flat = Flat { gap: f64::INFINITY, from: [0.0; 2], to: [0.0; 2] };
    let edges: Vec<Segment> = region.segments().collect();
    let mut cross = false;
    for part in hull.segments() {
        for edge in &edges {
            cross |= touch(&part, edge);
            let (from, to) = closest(&part, edge);
            if apart(from, to) < flat.gap {
                flat = Flat { gap: apart(from, to), from, to };
            }
        }
    }
    let inside = |outline: &Outline| outline.corners.first().map_or([f64::INFINITY; 2], |corner| [corner.x, corner.y]);
    if cross || region.contains(inside(&hull)) || hull.contains(inside(&region.outer)) {
        flat = deepest(&hull, region, &edges);
    }
    flat
}

/// How deep the edge of a hull lies inside a piece of plate, `edges` being all of the piece's; 0 where it lies nowhere in it.
fn deepest(hull: &Outline, region: &Region, edges: &[Segment]) -> Flat {
    let mut deepest = Flat { gap: 0.0, from: [0.0; 2], to: [0.0; 2] };
    let points = hull.sampled(DEPTH_STEP);
    let mut index = 0;
    while let Some(&(.., point)) = points.get(index) {
        let edge = nearest_place(edges.iter().copied(), point);
        let mut depth = apart(edge, point);
        if depth > -deepest.gap {
            if region.contains(point) {
                deepest = Flat { gap: -depth, from: point, to: edge };
            } else {
                depth = -depth;
            }
        }
        // From one point to the next, depth grows by no more than the way between them.
        index += ((-deepest.gap - depth) / DEPTH_STEP).max(1.0) as usize;
    }
    deepest
}

/// The two nearest points of two edges that do not cross.
///
/// Nearest are an end of one and the place of the other nearest to it, or two places whose common normal passes through
/// the middle of each arc: all of those are tried.
pub(super) fn closest(first: &Segment, second: &Segment) -> ([f64; 2], [f64; 2]) {
    let mut best = ([0.0; 2], [f64::INFINITY; 2]);
    let mut take = |a: [f64; 2], b: [f64; 2]| {
        if apart(a, b) < apart(best.0, best.1) {
            best = (a, b);
        }
    };
    for end in [first.at(0.0), first.at(1.0)] {
        take(end, second.nearest(end));
    }
    for end in [second.at(0.0), second.at(1.0)] {
        take(first.nearest(end), end);
    }
    for place in on_normals(first, second) {
        take(place, second.nearest(place));
    }
    for place in on_normals(second, first) {
        take(first.nearest(place), place);
    }
    best
}

/// Places of an edge where its normal passes through the middle of the other.
fn on_normals(edge: &Segment, other: &Segment) -> Vec<[f64; 2]> {
    let Segment::Arc { centre: middle, .. } = *other else { return Vec::new() };
    match *edge {
        Segment::Line { .. } => vec![edge.nearest(middle)],
        Segment::Arc { centre, .. } => {
            let way = (middle[1] - centre[1]).atan2(middle[0] - centre[0]);
            let ways = [way, way + std::f64::consts::PI];
            ways.into_iter().filter_map(|way| edge.share_of(way)).map(|share| edge.at(share)).collect()
        }
    }
}

/// Whether two edges cross.
fn touch(first: &Segment, second: &Segment) -> bool {
    match (*first, *second) {
        (Segment::Line { from, to }, Segment::Line { from: other, to: end }) => {
            let side =
                |a: [f64; 2], b: [f64; 2], p: [f64; 2]| (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
            side(from, to, other) * side(from, to, end) < 0.0 && side(other, end, from) * side(other, end, to) < 0.0
        }
        (Segment::Line { from, to }, Segment::Arc { .. }) => line_meets_arc(from, to, second),
        (Segment::Arc { .. }, Segment::Line { from, to }) => line_meets_arc(from, to, first),
        (Segment::Arc { centre, radius, .. }, Segment::Arc { centre: other, radius: wide, .. }) => {
            let long = apart(centre, other);
            if long >= radius + wide || long <= (radius - wide).abs() {
                return false;
            }
            let way = (other[1] - centre[1]).atan2(other[0] - centre[0]);
            let half = ((long * long + radius * radius - wide * wide) / (2.0 * long * radius)).clamp(-1.0, 1.0).acos();
            [way + half, way - half].into_iter().any(|direction| {
                let (sin, cos) = sin_cos(direction);
                let (dx, dy) = (centre[0] + radius * cos - other[0], centre[1] + radius * sin - other[1]);
                first.share_of(direction).is_some() && second.share_of(dy.atan2(dx)).is_some()
            })
        }
    }
}

fn line_meets_arc(from: [f64; 2], to: [f64; 2], arc: &Segment) -> bool {
    let Segment::Arc { centre, radius, .. } = *arc else { return false };
    let long = apart(from, to);
    if long == 0.0 {
        return false;
    }
    let way = [(to[0] - from[0]) / long, (to[1] - from[1]) / long];
    let (dx, dy) = (centre[0] - from[0], centre[1] - from[1]);
    let (along, off) = (dx * way[0] + dy * way[1], dx * way[1] - dy * way[0]);
    if off.abs() >= radius {
        return false;
    }
    let half = (radius * radius - off * off).sqrt();
    [along - half, along + half].into_iter().any(|reach| {
        let (x, y) = (from[0] + way[0] * reach - centre[0], from[1] + way[1] * reach - centre[1]);
        (0.0..=long).contains(&reach) && arc.share_of(y.atan2(x)).is_some()
    })
}

#[cfg(test)]
mod tests;
