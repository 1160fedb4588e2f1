//! The cut sheet's geometry against brute force: outlines, fillets, narrow places, gaps, and reasons where nothing can be cut.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test that cannot go on should stop")]

use std::f64::consts::PI;

use tabwright_core::cut::{
    CutOptions, Joining, Outline, PieceKey, Region, Segment, cut_sheet, fillets, gaps_as_cut, inner_corners, pieces,
    plate_region,
};
use tabwright_core::fit::{Parts, hole_centres};
use tabwright_core::solid::{Disc, Solid};
use tabwright_core::{Build, Mount, Setup, Side};
use tabwright_tests::assert_near;

/// A plain linear congruence: random enough here and the same everywhere.
struct Random(u64);

impl Random {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * ((self.0 >> 11) as f64 / (1_u64 << 53) as f64)
    }

    fn one_in(&mut self, many: f64) -> bool {
        self.between(0.0, many) < 1.0
    }
}

/// A setup over the plausible ranges; where `odd`, with round numbers that let edges coincide.
fn random_setup(random: &mut Random, odd: bool) -> Setup {
    let mut setup = Setup::default();
    let mut take = |path: &str, low: f64, high: f64| {
        let value = random.between(low, high);
        *setup.number_at(path).unwrap() = if odd { value.round() } else { value };
    };
    take("wheel.rotor_diameter", 140.0, 230.0);
    take("tab.clock", -180.0, 180.0);
    take("tab.reach", -3.0, 5.0);
    take("tab.edge", 6.0, 16.0);
    take("tab.fillet_radius", 3.0, 20.0);
    take("tab.weld_gap", 0.5, 3.0);
    take("fork.tube_end", 5.0, 100.0);
    take("fork.axle_offset", -20.0, 60.0);
    take("dropout.eye_radius", 12.0, 35.0);
    take("dropout.neck_width", 15.0, 45.0);
    take("dropout.weld_length", 25.0, 150.0);
    take("dropout.slot_width", 8.0, 22.0);
    take("dropout.slot_direction", -180.0, 180.0);
    take("dropout.slot_chamfer", 0.0, 3.0);
    if random.one_in(2.0) {
        setup.dropout.slot_direction = 180.0;
    }
    if odd && random.one_in(2.0) {
        setup.fork.axle_offset = 0.0;
        setup.dropout.neck_width = 2.0 * setup.dropout.eye_radius;
    }
    setup.dropout.closed = random.one_in(4.0);
    setup.side = if random.one_in(2.0) { Side::Right } else { Side::Left };
    setup.tab.build = match random.between(0.0, 4.0) as u32 {
        0 => Build::ButtWelded,
        1 => Build::OnExisting,
        _ => Build::OnePiece,
    };
    if random.one_in(4.0) {
        setup.tab.offset = random.between(-8.0, 8.0);
    }
    if random.one_in(6.0) {
        setup.caliper.mount = Mount::Post;
        setup.caliper.bolt_direction = Some([0.0, -1.0, 0.0]);
    }
    setup
}

fn sampled(outline: &Outline, step: f64) -> Vec<[f64; 2]> {
    let mut points = Vec::new();
    for segment in outline.segments() {
        let turn = match segment {
            Segment::Arc { sweep, .. } => sweep.abs(),
            Segment::Line { .. } => 0.0,
        };
        let count = (segment.length() / step).ceil().max((turn / 0.1).ceil()).max(1.0) as usize;
        points.extend((0..count).map(|index| segment.at(index as f64 / count as f64)));
    }
    points
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// By crossings of a ray, on a polygon: not as the core does it.
fn in_polygon(polygon: &[[f64; 2]], [x, y]: [f64; 2]) -> bool {
    let mut inside = false;
    for (index, &[x1, y1]) in polygon.iter().enumerate() {
        let [x2, y2] = polygon[(index + 1) % polygon.len()];
        if (y1 > y) != (y2 > y) && x < x1 + (y - y1) / (y2 - y1) * (x2 - x1) {
            inside = !inside;
        }
    }
    inside
}

fn shoelace(polygon: &[[f64; 2]]) -> f64 {
    let next = |index: usize| polygon[(index + 1) % polygon.len()];
    polygon.iter().enumerate().map(|(index, [x, y])| x * next(index)[1] - y * next(index)[0]).sum::<f64>() / 2.0
}

/// Whether two sides of a polygon that are no neighbours cross.
fn crosses_itself(polygon: &[[f64; 2]]) -> bool {
    let count = polygon.len();
    let side = |a: [f64; 2], b: [f64; 2], p: [f64; 2]| (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
    for i in 0..count {
        let (a, b) = (polygon[i], polygon[(i + 1) % count]);
        for j in i + 2..count {
            let (c, d) = (polygon[j], polygon[(j + 1) % count]);
            if (i == 0 && j == count - 1) || a[0].max(b[0]) < c[0].min(d[0]) || c[0].max(d[0]) < a[0].min(b[0]) {
                continue;
            }
            if side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0 {
                return true;
            }
        }
    }
    false
}

/// Distance from a point to the hull of one or two discs, negative inside: the hull is all discs between the two.
fn outside_hull(discs: &[Disc], [x, y]: [f64; 2]) -> f64 {
    let (first, last) = (discs[0], discs[discs.len() - 1]);
    let at = |share: f64| {
        let mix = |a: f64, b: f64| a + (b - a) * share;
        (x - mix(first.back, last.back)).hypot(y - mix(first.up, last.up)) - mix(first.radius, last.radius)
    };
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..50 {
        let (a, b) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        if at(a) < at(b) { high = b } else { low = a }
    }
    at((low + high) / 2.0)
}

fn hulls(parts: &Parts) -> Vec<Vec<Disc>> {
    let all = [Some(&parts.eye), Some(&parts.neck), parts.lands.as_ref(), parts.web.as_ref()];
    let discs = |solid: &Solid| match solid {
        Solid::Slab(slab) => slab.discs.clone(),
        Solid::Spool(_) => panic!("the plate is made of slabs"),
    };
    all.into_iter().flatten().map(|part| discs(&part.solid)).collect()
}

/// A thousand setups: either a reason with a field and a remedy, or outlines that are simple, with the area that a
/// polygon has and the holes inside.
#[test]
fn a_thousand_random_setups_give_simple_outlines_or_a_reason() {
    let mut random = Random(20_261_127);
    let (mut cut_ones, mut reasons) = (0, std::collections::BTreeMap::<String, u32>::new());
    for index in 0..1000 {
        let setup = random_setup(&mut random, index % 3 == 0);
        let found = match pieces(&setup) {
            Ok(found) => found,
            Err(problems) => {
                for problem in problems {
                    assert!(Setup::field(&problem.field).is_some(), "{index}: no field {}", problem.field);
                    assert!(
                        problem.message.ends_with('.') && problem.message.len() > 30,
                        "{index}: {}",
                        problem.message
                    );
                    *reasons.entry(problem.field).or_default() += 1;
                }
                continue;
            }
        };
        cut_ones += 1;
        let axle_pieces = found.pieces.iter().filter(|piece| piece.key != PieceKey::Tab).count();
        assert_eq!(
            axle_pieces,
            match found.joining {
                Joining::OnExisting => 0,
                _ => 2,
            },
            "{index}: {:?}",
            found.joining
        );
        for piece in &found.pieces {
            for outline in piece.region.outlines() {
                let polygon = sampled(outline, 1.0);
                assert!(!crosses_itself(&polygon), "{index} {:?}: crosses itself", piece.key);
                let fine = sampled(outline, 0.1);
                // Chords of 0.1 mm on a radius of 3 mm or more miss less than 0.001 mm² each.
                assert_near(outline.area(), shoelace(&fine), 0.1, &format!("{index} {:?}: area", piece.key));
            }
            let outer = sampled(&piece.region.outer, 0.1);
            assert!(piece.region.area() > 0.0);
            for hole in &piece.holes {
                for step in 0..36 {
                    let (sin, cos) = (f64::from(step) * PI / 18.0).sin_cos();
                    let rim = [hole.centre[0] + hole.diameter / 2.0 * cos, hole.centre[1] + hole.diameter / 2.0 * sin];
                    let inside = in_polygon(&outer, rim) || outer.iter().any(|point| distance(*point, rim) < 0.1);
                    assert!(inside, "{index} {:?}: hole {} reaches out", piece.key, hole.name);
                }
            }
        }
    }
    println!("{cut_ones} cut, reasons {reasons:?}");
    assert!(cut_ones > 500, "only {cut_ones} of 1000 setups can be cut: {reasons:?}");
    assert!(reasons.len() >= 3, "too few kinds of reason are met: {reasons:?}");
}

/// Every inner corner has the radius asked for, and the disc of that radius rolls along the whole outline without
/// touching eye, neck, lands or web: that, and nothing else, is a fillet. And no such disc reaches a point inside.
#[test]
fn the_outline_is_where_a_disc_of_the_fillets_radius_rolls_along_the_parts() {
    let mut random = Random(7);
    for index in 0..24 {
        let mut setup = random_setup(&mut random, index % 3 == 0);
        (setup.tab.offset, setup.caliper.mount) = (0.0, Mount::SideLug);
        let radius = setup.tab.fillet_radius;
        let plate = plate_region(&setup).unwrap();
        assert_eq!(plate.radius, radius, "{index}");
        assert!(inner_corners(&plate.region).is_empty(), "{index}");
        for (_, found) in fillets(&plate.region) {
            assert_near(found, radius, 1e-5, &format!("{index}: fillet"));
        }
        let hulls = hulls(&Parts::of(&setup));
        let outside =
            |point: [f64; 2]| hulls.iter().map(|hull| outside_hull(hull, point)).fold(f64::INFINITY, f64::min);
        for (count, segment) in plate.region.segments().enumerate() {
            for share in [0.0, 0.3, 0.5, 0.9] {
                let (here, on) = (segment.at(share), segment.at(share + 1e-4));
                let long = distance(here, on).max(1e-12);
                // Material is on the left.
                let normal = [(on[1] - here[1]) / long, (here[0] - on[0]) / long];
                let moved = |by: f64| [here[0] + normal[0] * by, here[1] + normal[1] * by];
                let free = outside(moved(radius));
                assert!(
                    free > radius - 0.01,
                    "{index}: edge {count} at {here:?} has a part {free} from the disc's middle"
                );
                assert!(outside(here) > -1e-4, "{index}: edge {count} cuts into a part at {here:?}");
                let inner = moved(-0.3);
                if !plate.region.contains(inner) || distance(plate.region_nearest(inner), inner) < 0.3 - 1e-9 {
                    continue;
                }
                for (step, ring) in (0..24).flat_map(|step| [0.5, 0.95].map(|ring| (step, ring))) {
                    let (sin, cos) = (f64::from(step) * PI / 12.0).sin_cos();
                    let centre = [inner[0] + radius * ring * cos, inner[1] + radius * ring * sin];
                    assert!(outside(centre) < radius, "{index}: a disc about {centre:?} reaches {inner:?} inside");
                }
            }
        }
    }
}

trait Nearest {
    fn region_nearest(&self, point: [f64; 2]) -> [f64; 2];
}

impl Nearest for tabwright_core::cut::Filleted {
    fn region_nearest(&self, point: [f64; 2]) -> [f64; 2] {
        let points = self.region.outlines().flat_map(|outline| sampled(outline, 0.5));
        points.min_by(|a, b| distance(*a, point).total_cmp(&distance(*b, point))).unwrap()
    }
}

/// Without fillets the plate is eye, neck, lands and web and nothing more.
#[test]
fn no_fillets_leave_the_parts_as_they_are() {
    let mut random = Random(99);
    for index in 0..60 {
        let mut setup = random_setup(&mut random, false);
        (setup.tab.offset, setup.caliper.mount, setup.tab.fillet_radius) = (0.0, Mount::SideLug, 0.0);
        let plate = plate_region(&setup).unwrap().region;
        let hulls = hulls(&Parts::of(&setup));
        for _ in 0..300 {
            let point = [random.between(-80.0, 140.0), random.between(-60.0, 260.0)];
            let outside = hulls.iter().map(|hull| outside_hull(hull, point)).fold(f64::INFINITY, f64::min);
            if outside.abs() > 1e-3 {
                assert_eq!(plate.contains(point), outside < 0.0, "{index}: {point:?} is {outside} outside");
            }
        }
    }
}

/// The narrow places are those that a search of all pairs of points finds, and each is a cut between what it parts.
#[test]
fn narrow_places_are_as_narrow_as_sampling_finds() {
    let mut random = Random(31);
    let mut looked = 0;
    for index in 0..24 {
        let mut setup = random_setup(&mut random, false);
        setup.caliper.mount = Mount::SideLug;
        (setup.tab.build, setup.tab.offset) = (Build::OnePiece, 0.0);
        let (Ok(sheet), Ok(cut)) = (cut_sheet(&setup, &CutOptions::default()), pieces(&setup)) else { continue };
        let neck = tabwright_core::fit::neck_top(&setup);
        let (axle, top) = ([0.0, 0.0], [neck.back, neck.up]);
        for section in &sheet.sections {
            let piece = cut.pieces.iter().find(|piece| piece.key == section.piece).unwrap();
            let polygon = sampled(&piece.whole.outer, 2.0);
            let marks: (Vec<[f64; 2]>, Vec<[f64; 2]>) = match section.name {
                "neck" => (vec![axle], vec![top]),
                "tab" => (hole_centres(&setup).to_vec(), vec![axle, top]),
                _ => continue,
            };
            looked += 1;
            for end in [section.from, section.to] {
                let off = sampled(&piece.whole.outer, 0.01)
                    .into_iter()
                    .map(|point| distance(point, end))
                    .fold(f64::INFINITY, f64::min);
                assert!(off < 0.01, "{index}: {} ends {off} off the outline", section.name);
            }
            assert_near(distance(section.from, section.to), section.width, 1e-9, "width");
            for i in 0..polygon.len() {
                for j in i + 1..polygon.len() {
                    if distance(polygon[i], polygon[j]) > section.width - 0.01 {
                        continue;
                    }
                    let part = &polygon[i..=j];
                    let inside = |mark: &[f64; 2]| in_polygon(part, *mark);
                    let side = inside(&marks.0[0]);
                    let parts = marks.0.iter().all(|mark| inside(mark) == side)
                        && marks.1.iter().all(|mark| inside(mark) != side);
                    assert!(
                        !parts,
                        "{index}: {} is {}, but {:?} to {:?} is narrower",
                        section.name, section.width, polygon[i], polygon[j]
                    );
                }
            }
        }
    }
    assert!(looked > 24, "only {looked} narrow places were looked at");
}

/// Closed forms: a slot in a round eye leaves its radius less half the slot; a strap its width; a hole its distance to
/// the edge less its radius.
#[test]
fn the_default_plate_has_the_narrow_places_of_its_own_numbers() {
    let setup = Setup::default();
    let sheet = cut_sheet(&setup, &CutOptions::default()).unwrap();
    let width =
        |name: &str| sheet.sections.iter().find(|section| section.name == name).map(|section| section.width).unwrap();
    assert_near(width("eye"), 20.0 - 9.5 / 2.0, 1e-9, "eye");
    assert_near(width("neck"), 26.0, 1e-6, "neck");
    assert_near(width("edge_A"), 9.0 - 6.6 / 2.0, 1e-6, "edge");
    assert_near(width("between_holes"), 51.0 - 6.6, 1e-9, "between the holes");
    assert!(sheet.warnings.is_empty(), "{:?}", sheet.warnings);
}

#[test]
fn thin_places_are_told_with_number_field_and_remedy() {
    let mut setup = Setup::default();
    (setup.tab.edge, setup.dropout.neck_width, setup.cut.least_net) = (6.0, 15.0, 16.0);
    let sheet = cut_sheet(&setup, &CutOptions::default()).unwrap();
    let told = |field: &str, number: &str| {
        sheet.warnings.iter().any(|warning| warning.field == field && warning.message.contains(number))
    };
    assert!(told("tab.edge", "2.7 mm"), "{:#?}", sheet.warnings);
    assert!(told("dropout.neck_width", "15.0 mm"), "{:#?}", sheet.warnings);
    assert!(told("dropout.eye_radius", "15.2 mm"), "{:#?}", sheet.warnings);
}

fn hull_points(discs: &[Disc], step: f64) -> Vec<[f64; 2]> {
    sampled(&Outline::of_discs(discs), step)
}

/// Gaps with fillets against the nearest two of many points on both edges, and Pythagoras sideways.
#[test]
fn gaps_as_cut_are_those_of_brute_force() {
    let mut random = Random(5);
    let mut looked = 0;
    for index in 0..16 {
        let mut setup = random_setup(&mut random, false);
        (setup.tab.offset, setup.caliper.mount) = (0.0, Mount::SideLug);
        let parts = Parts::of(&setup);
        let plate = plate_region(&setup).unwrap().region;
        let edge: Vec<[f64; 2]> = plate.outlines().flat_map(|outline| sampled(outline, 0.2)).collect();
        let low = setup.wheel.hub_width / 2.0;
        for gap in gaps_as_cut(&setup).unwrap() {
            let bodies: Vec<_> = match gap.name {
                "rotor/plate" => vec![&parts.rotor],
                _ => {
                    let bodies = setup.caliper.bodies.iter().zip(&parts.caliper);
                    bodies.filter(|(body, _)| !body.bolted).map(|(_, part)| part).collect()
                }
            };
            let mut nearest = f64::INFINITY;
            let mut overlaps = false;
            for part in bodies {
                let Solid::Slab(slab) = &part.solid else { panic!("bodies are slabs") };
                let sideways = (low - slab.high).max(slab.low - low - setup.dropout.thickness);
                let points = hull_points(&slab.discs, 0.2);
                let polygon = hull_points(&slab.discs, 1.0);
                let pairs = points.iter().flat_map(|point| edge.iter().map(|other| distance(*point, *other)));
                let flat = pairs.fold(f64::INFINITY, f64::min);
                overlaps |= sideways < 0.0
                    && (points.iter().any(|point| plate.contains(*point))
                        || edge.iter().any(|point| in_polygon(&polygon, *point)));
                nearest = nearest.min(if sideways > 0.0 {
                    if points.iter().any(|point| plate.contains(*point)) { sideways } else { flat.hypot(sideways) }
                } else {
                    flat
                });
            }
            looked += 1;
            if overlaps {
                assert!(gap.gap <= 0.0 && gap.sharp < 0.2, "{index}: {gap:?} overlaps");
            } else {
                // Points 0.2 mm apart along either edge miss the nearest pair by less than 0.2 mm.
                assert!(gap.gap <= nearest + 1e-9 && nearest - gap.gap < 0.2, "{index}: {nearest} by points, {gap:?}");
            }
            assert!(gap.gap <= gap.sharp + 1e-6, "{index}: fillets cannot widen a gap: {gap:?}");
        }
    }
    assert!(looked > 25, "{looked}");
}

/// The default caliper's piston lies in the bay between neck and tab: a large fillet there reaches it.
#[test]
fn a_fillet_that_comes_too_near_the_caliper_is_told_with_the_largest_that_does_not() {
    let mut setup = Setup::default();
    setup.tab.fillet_radius = 20.0;
    let sheet = cut_sheet(&setup, &CutOptions::default()).unwrap();
    let gap = sheet.gaps.iter().find(|gap| gap.name == "caliper/plate").unwrap();
    assert!(gap.verdict > gap.sharp_verdict, "{gap:?}");
    let warning = sheet.warnings.iter().find(|warning| warning.field == "tab.fillet_radius").expect("it is told");
    let largest = gap.largest_fillet.expect("a smaller one does");
    assert!(warning.message.contains("at most"), "{}", warning.message);
    setup.tab.fillet_radius = (largest * 10.0).floor() / 10.0;
    let gaps = gaps_as_cut(&setup).unwrap();
    assert!(gaps.iter().all(|gap| gap.verdict <= gap.sharp_verdict), "{largest}: {gaps:?}");
    setup.tab.fillet_radius = largest + 0.5;
    assert!(gaps_as_cut(&setup).unwrap().iter().any(|gap| gap.verdict > gap.sharp_verdict), "{largest}");
}

/// A brake on the other side with a caliper of the same look is the mirror image: the same plate in the leg frame.
#[test]
fn left_and_right_are_mirror_images() {
    let left = Setup::default();
    let right = Setup { side: Side::Right, ..Setup::default() };
    let (one, other) = (plate_region(&left).unwrap().region, plate_region(&right).unwrap().region);
    assert_near(one.area(), other.area(), 1e-6, "area");
    let mirrored = one.mirrored();
    assert_near(mirrored.area(), one.area(), 1e-9, "area of the mirror image");
    for point in sampled(&one.outer, 3.0) {
        assert!(distance(mirrored.nearest_edge([-point[0], point[1]]), [-point[0], point[1]]) < 1e-9);
        assert!(distance(other.nearest_edge(point), point) < 1e-6);
    }
}

/// The weld's gap is what is cut between tab and dropout, measured between the two pieces.
#[test]
fn butted_pieces_are_the_welds_gap_apart() {
    let mut setup = Setup::default();
    (setup.tab.build, setup.tab.weld_gap) = (Build::ButtWelded, 2.0);
    let cut = pieces(&setup).unwrap();
    assert_eq!(cut.joining, Joining::Butted);
    let [tab, dropout, _] = cut.pieces.as_slice() else { panic!("three pieces") };
    assert_eq!((tab.key, dropout.key), (PieceKey::Tab, PieceKey::Dropout));
    let gap = sampled(&tab.region.outer, 0.05)
        .into_iter()
        .map(|point| distance(dropout.whole.nearest_edge(point), point))
        .fold(f64::INFINITY, f64::min);
    assert_near(gap, 2.0, 1e-6, "gap");
    assert!(tab.holes.len() == 2 && dropout.holes.is_empty());
}

/// The tab ends at a straight line, the old edge less the gap, and both holes lie beyond it.
#[test]
fn a_tab_for_an_old_dropout_ends_at_its_edge() {
    let mut setup = Setup::default();
    (setup.tab.build, setup.tab.weld_gap) = (Build::OnExisting, 1.5);
    setup.tab.old_edge = [[13.0, 30.0], [15.0, 110.0]];
    let cut = pieces(&setup).unwrap();
    let [tab] = cut.pieces.as_slice() else { panic!("the tab alone") };
    // Distance from the line by its normal form.
    let (dx, dy) = (2.0_f64, 80.0_f64);
    let off = |point: [f64; 2]| ((point[0] - 13.0) * dy - (point[1] - 30.0) * dx) / dx.hypot(dy);
    let nearest = sampled(&tab.region.outer, 0.05).into_iter().map(off).fold(f64::INFINITY, f64::min);
    assert_near(nearest, 1.5, 1e-6, "from the old edge");
    let along = tab
        .region
        .outer
        .segments()
        .filter(|segment| (off(segment.at(0.0)) - 1.5).abs() < 1e-6 && (off(segment.at(1.0)) - 1.5).abs() < 1e-6);
    assert!(along.map(|segment| segment.length()).sum::<f64>() > 10.0, "it lies along the edge");
    // An edge that the tab does not reach, and one between the holes.
    for edge in [[[-40.0, 30.0], [-40.0, 110.0]], [[50.0, 30.0], [50.0, 110.0]]] {
        setup.tab.old_edge = edge;
        let problems = pieces(&setup).unwrap_err();
        assert_eq!(problems[0].field, "tab.old_edge", "{problems:?}");
    }
}

#[test]
fn planes_apart_are_two_pieces() {
    let mut setup = Setup::default();
    for (offset, joining) in
        [(0.0, Joining::OnePiece), (3.0, Joining::Stepped), (-6.0, Joining::Lapped), (7.0, Joining::Lapped)]
    {
        setup.tab.offset = offset;
        let cut = pieces(&setup).unwrap();
        assert_eq!(cut.joining, joining, "{offset}");
        assert_eq!(cut.pieces.len(), if offset == 0.0 { 2 } else { 3 });
        assert_eq!(cut.lap_area > 100.0, joining == Joining::Lapped, "{offset}: {}", cut.lap_area);
    }
}

/// A plate so large that lands, web and eye leave two openings between them, point by point.
#[test]
fn a_plate_with_two_openings_keeps_them_beside_its_slot() {
    let mut setup = Setup::default();
    (setup.dropout.eye_radius, setup.dropout.neck_width, setup.dropout.weld_length) = (60.37, 70.0, 141.0);
    (setup.dropout.slot_width, setup.dropout.thickness) = (27.93, 7.4);
    (setup.caliper.pad.edge_inset, setup.caliper.pad.height, setup.caliper.mount_depth) = (7.578, 48.0, 12.0);
    setup.caliper.holes = [[210.835, -194.6], [-172.816, 260.169]];
    (setup.tab.edge, setup.tab.fillet_radius) = (20.417, 1.0);
    let whole = plate_region(&setup).unwrap().region;
    let slotted = &pieces(&setup).unwrap().pieces[0].region;
    assert_eq!([whole.windows.len(), slotted.windows.len()], [2, 2]);
    let mut random = Random(41);
    for _ in 0..4000 {
        let point @ [back, up] = [random.between(-80.0, 90.0), random.between(-80.0, 80.0)];
        let half = setup.dropout.slot_width / 2.0;
        let from_slot = if up > 0.0 { back.hypot(up) } else { back.abs() } - half;
        let near = distance(whole.nearest_edge(point), point).min(from_slot.abs());
        assert!(near < 1e-3 || slotted.contains(point) == (whole.contains(point) && from_slot > 0.0), "{point:?}");
    }
}

/// Slots that cannot be: the reason names the field.
#[test]
fn impossible_slots_have_a_reason() {
    let reason = |change: &dyn Fn(&mut Setup)| {
        let mut setup = Setup::default();
        change(&mut setup);
        pieces(&setup).expect_err("it cannot be cut").remove(0).field
    };
    assert_eq!(reason(&|setup| setup.dropout.slot_direction = 0.0), "dropout.slot_direction");
    assert_eq!(reason(&|setup| setup.dropout.slot_width = 41.0), "dropout.slot_width");
    assert_eq!(reason(&|setup| (setup.dropout.slot_width, setup.dropout.closed) = (41.0, true)), "dropout.slot_width");
    assert_eq!(reason(&|setup| setup.tab.edge = 3.0), "tab.edge");
}

/// Over the hard ranges nothing may stop or give a number that is none.
#[test]
fn extreme_setups_never_stop() {
    let mut random = Random(404);
    let mut cut_ones = 0;
    let fields: Vec<_> = tabwright_core::describe_fields().into_iter().flat_map(|group| group.fields).collect();
    for _ in 0..70 {
        let mut setup = random_setup(&mut random, true);
        for field in &fields {
            let Some([low, high]) = field.hard.filter(|_| field.kind == "number") else { continue };
            if random.one_in(5.0) {
                let value = match random.between(0.0, 4.0) as u32 {
                    0 => low,
                    1 => high,
                    _ => random.between(low, high),
                };
                *setup.number_at(field.key).unwrap() = value;
            }
        }
        if setup.checked().is_err() {
            continue;
        }
        match cut_sheet(&setup, &CutOptions::default()) {
            Ok(sheet) => {
                cut_ones += 1;
                assert!(sheet.mass > 0.0 && sheet.mass.is_finite());
                assert!(
                    sheet.sections.iter().all(|section| section.width.is_finite() && section.width >= 0.0),
                    "{:?}",
                    sheet.sections
                );
                assert!(sheet.gaps.iter().all(|gap| gap.gap.is_finite()));
                assert!(sheet.pieces.iter().all(|piece| !piece.svg.contains("NaN") && !piece.svg.contains("inf")));
            }
            Err(problems) => assert!(problems.iter().all(|problem| !problem.message.is_empty())),
        }
    }
    assert!(cut_ones > 5, "{cut_ones}");
}

/// A ring's area by closed form, with the window counted as open.
#[test]
fn windows_are_no_material() {
    let ring =
        Region { outer: Outline::circle([3.0, 4.0], 10.0), windows: vec![Outline::circle([3.0, 4.0], 6.0).reversed()] };
    assert_near(ring.area(), PI * (100.0 - 36.0), 1e-9, "area");
    assert!(ring.contains([11.0, 4.0]) && !ring.contains([3.0, 4.0]) && !ring.contains([14.0, 4.0]));
}
