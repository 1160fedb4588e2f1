//! What the cut sheet tells a builder to measure and drill, worked by plane geometry from the outlines.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use std::f64::consts::{PI, TAU};

use serde_json::json;
use tabwright_core::cut::{
    CutOptions, CutSheet, Joining, Outline, PieceKey, Pieces, Segment, clearance_hole, cut_sheet, pieces, tap_drill,
};
use tabwright_core::fit::{hole_centres, neck_top};
use tabwright_core::solid::Disc;
use tabwright_core::{BoltSize, Material, Mount, Setup};
use tabwright_tests::{assert_near, setup_with};

fn setups() -> Vec<Setup> {
    let mut setups: Vec<Setup> = [
        json!({}),
        json!({"side": "right", "fork": {"axle_offset": 17}, "cut": {"hole_fit": "fine"}}),
        json!({"dropout": {"closed": true}, "tab": {"build": "butt_welded"}, "fork": {"axle_offset": -9}}),
        json!({"tab": {"build": "on_existing"}}),
        json!({"tab": {"build": "on_existing", "clock": 45}, "side": "right"}),
        json!({"tab": {"offset": 7}}),
        json!({"tab": {"offset": -7.5}, "cut": {"hole_fit": "coarse"}}),
        json!({"tab": {"offset": 2}, "caliper": {"mating_face": "outer"}}),
    ]
    .iter()
    .map(setup_with)
    .collect();
    for (material, size) in [(Material::MildSteel, BoltSize::M6), (Material::Aluminium6061, BoltSize::M5)] {
        let mut setup = Setup::default();
        setup.caliper.mount = Mount::Post;
        setup.caliper.bolt_direction = Some([0.0, -0.8, 0.1]);
        (setup.load.material, setup.caliper.bolt.size) = (material, size);
        (setup.tab.clock, setup.tab.edge) = (52.0, 10.5);
        setups.push(setup);
    }
    setups
}

fn sheet(setup: &Setup) -> (Pieces, CutSheet) {
    (pieces(setup).unwrap(), cut_sheet(setup, &CutOptions::default()).unwrap())
}

fn points(outline: &Outline) -> Vec<[f64; 2]> {
    let shares = |count: u32| (0..count).map(move |step| f64::from(step) / f64::from(count));
    outline.segments().flat_map(|segment| shares(400).map(move |share| segment.at(share))).collect()
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

#[test]
fn every_hole_is_told_from_edges_where_it_is() {
    for setup in setups() {
        let (cut, sheet) = sheet(&setup);
        let top = neck_top(&setup);
        let long = top.back.hypot(top.up);
        for (entry, name) in sheet.holes.iter().zip(["A", "B", "axle"]) {
            let [back, up] = [entry.back, entry.up];
            let index = ["A", "B"].iter().position(|hole| *hole == name);
            let centre = index.map_or([0.0, 0.0], |index| hole_centres(&setup)[index]);
            assert_eq!((entry.name, [back, up]), (name, centre));
            assert_near(entry.distance, back.hypot(up), 1e-9, "distance");
            let dropout = cut.pieces.iter().find(|piece| piece.key != PieceKey::Tab);
            let lowest = dropout.map_or(-setup.dropout.eye_radius, |piece| {
                points(&piece.whole.outer).iter().map(|point| point[1]).fold(f64::MAX, f64::min)
            });
            assert_near(entry.from_lower_edge, up - lowest, 1e-3, "from the lower edge");
            // Square to the line from the axle to the middle of the neck's upper end, and along it.
            let along = (back * top.back + up * top.up) / long;
            let square = (back.hypot(up).powi(2) - along * along).max(0.0).sqrt();
            assert_near(entry.along_neck, along, 1e-6, "along the neck");
            assert_near(entry.from_neck_edge, square - setup.dropout.neck_width / 2.0, 1e-5, "from the neck's edge");
            let old = entry.from_old_edge;
            assert_eq!(old.is_some(), cut.joining == Joining::OnExisting);
            if let Some(old) = old {
                // Nearest of many points of the edge's line.
                let [from, to] = setup.tab.old_edge;
                let at = |share: f64| [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
                let nearest =
                    (-4000..8000).map(|step| distance(at(f64::from(step) / 4000.0), centre)).fold(f64::MAX, f64::min);
                assert_near(old, nearest, 1e-2, "from the old plate's edge");
            }
            let piece = cut.pieces.iter().find(|piece| Some(piece.key) == entry.piece);
            let hole = piece.and_then(|piece| piece.holes.iter().find(|hole| hole.name == name));
            if let (Some(piece), Some(hole)) = (piece, hole) {
                let rim = piece
                    .region
                    .outlines()
                    .flat_map(points)
                    .map(|point| distance(point, centre))
                    .fold(f64::MAX, f64::min);
                assert_near(entry.edge.unwrap(), rim - hole.diameter / 2.0, 0.01, "material to the edge");
                assert_eq!(entry.diameter, hole.diameter);
            }
        }
        let bolts = &sheet.holes[..2];
        let size = setup.caliper.bolt.size;
        let is_post = setup.caliper.mount == Mount::Post;
        let drill = if is_post { tap_drill(size) } else { clearance_hole(size, setup.cut.hole_fit) };
        assert!(
            bolts
                .iter()
                .all(|hole| hole.diameter == drill && hole.thread == if size == BoltSize::M5 { "M5" } else { "M6" })
        );
        assert_eq!(sheet.holes.len(), if cut.joining == Joining::OnExisting { 2 } else { 3 });
        if let Some(axle) = sheet.holes.get(2) {
            assert_eq!(
                (axle.kind, axle.diameter),
                (if setup.dropout.closed { "axle" } else { "slot" }, setup.dropout.slot_width)
            );
            assert_eq!(axle.edge.is_some(), setup.dropout.closed);
        }
    }
}

#[test]
fn what_to_check_while_tacking_is_what_the_setup_has() {
    for setup in setups() {
        let (cut, sheet) = sheet(&setup);
        let value = |start: &str| sheet.checks.iter().find(|one| one.label.starts_with(start)).map(|one| one.value);
        let [a, b] = hole_centres(&setup);
        assert_near(value("Axle's centre to hole A").unwrap(), a[0].hypot(a[1]), 1e-9, "A");
        assert_near(value("Axle's centre to hole B").unwrap(), b[0].hypot(b[1]), 1e-9, "B");
        assert_near(value("Hole A to hole B").unwrap(), distance(a, b), 1e-9, "A to B");
        let old = [value("Hole A square to the old"), value("Hole B square to the old")];
        assert_eq!(old, [sheet.holes[0].from_old_edge, sheet.holes[1].from_old_edge]);
        let edge = sheet.checks.iter().find(|one| one.label.starts_with("Straightedge"));
        let offset = setup.tab.offset;
        assert_eq!(edge.is_some(), cut.joining != Joining::Posts);
        if let Some(edge) = edge {
            assert_near(edge.value, offset.abs(), 1e-9, "step");
            let way = if offset == 0.0 {
                "daylight"
            } else if offset > 0.0 {
                "stands out by"
            } else {
                "lies back by"
            };
            assert!(edge.label.ends_with(way), "{}", edge.label);
        }
        // From the rotor's mid-plane to the mating face, which lies on the tab.
        let rotor = setup.wheel.hub_width / 2.0 - setup.wheel.rotor_inset;
        let inner = setup.wheel.hub_width / 2.0 + offset;
        let (face, expected) = match (cut.joining, setup.caliper.mating_face) {
            (Joining::Posts, _) => ("plane of the two bolts", setup.caliper.mount_depth),
            (_, tabwright_core::MatingFace::Inner) => ("tab's inner face", inner - rotor),
            (_, tabwright_core::MatingFace::Outer) => ("tab's outer face", inner + setup.dropout.thickness - rotor),
        };
        let check = sheet.checks.last().unwrap();
        assert!(check.label.ends_with(face), "{}", check.label);
        assert_near(check.value, expected, 1e-9, "rotor to face");
    }
}

#[test]
fn sizes_to_lay_out_from_are_the_setups() {
    for setup in setups() {
        let (cut, sheet) = sheet(&setup);
        let value = |label: &str| sheet.sizes.iter().find(|one| one.label == label).map(|one| one.value);
        let dropout = &setup.dropout;
        let has_dropout = cut.joining != Joining::OnExisting;
        let of = |is_there: bool, size: f64| is_there.then_some(size);
        assert_eq!(value("Eye radius"), of(has_dropout, dropout.eye_radius));
        assert_eq!(value("Neck width"), of(has_dropout, dropout.neck_width));
        assert_eq!(value("Axle to the neck's upper end"), of(has_dropout, setup.fork.tube_end + dropout.weld_length));
        assert_eq!(value("Axle hole"), of(has_dropout && dropout.closed, dropout.slot_width));
        assert_eq!(value("Slot width"), of(has_dropout && !dropout.closed, dropout.slot_width));
        assert_eq!(value("Slot lead-in"), of(has_dropout && !dropout.closed, dropout.slot_chamfer));
        assert_eq!(value("Slot depth, axle to mouth"), of(has_dropout && !dropout.closed, cut.slot_depth));
        assert_eq!(value("Plate thickness"), Some(dropout.thickness));
        assert_eq!(value("Hole centre to the tab's edge"), of(cut.joining != Joining::Posts, setup.tab.edge));
        let is_gapped = matches!(cut.joining, Joining::Butted | Joining::Stepped | Joining::OnExisting);
        assert_eq!(value("Gap for the weld"), of(is_gapped, setup.tab.weld_gap));
        let fillet = cut.pieces.iter().map(|piece| piece.fillet_radius).fold(setup.tab.fillet_radius, f64::min);
        assert_eq!(value("Inner corners, radius"), Some(fillet));
    }
}

/// Thread one and a half diameters deep in steel, two in aluminium, the drill four pitches deeper; a boss reaches from its
/// face to the plate.
#[test]
fn posts_are_laid_out_as_by_hand() {
    for setup in setups().into_iter().filter(|setup| setup.caliper.mount == Mount::Post) {
        let (cut, sheet) = sheet(&setup);
        let posts = sheet.posts.unwrap();
        let (diameter, pitch, drill) = match setup.caliper.bolt.size {
            BoltSize::M5 => (5.0, 0.8, 4.2),
            BoltSize::M6 => (6.0, 1.0, 5.0),
        };
        let depth = diameter * if setup.load.material == Material::Aluminium6061 { 2.0 } else { 1.5 };
        assert_near(posts.thread_depth, depth, 1e-9, "thread");
        assert_near(posts.drill_depth, depth + 4.0 * pitch, 1e-9, "drill");
        assert_near(posts.tap_drill, drill, 1e-9, "tap drill");
        assert_near(posts.boss_diameter, 2.0 * setup.tab.edge, 1e-9, "boss");
        let [a, b] = hole_centres(&setup);
        // Bolts a plane's angle off the wheel plane; the spacing is that along the face.
        assert!(posts.spacing <= distance(a, b) + 1e-9 && posts.spacing > 0.9 * distance(a, b));
        let face = setup.caliper.mount_depth - setup.wheel.rotor_inset;
        assert_near(posts.from_inner_face, face, 1e-9, "from the dropout's inner face");
        let [x, y, _] = posts.axis;
        let way = [x / x.hypot(y), y / x.hypot(y)];
        let plate = &cut.pieces[0].whole.outer;
        for (centre, long) in [a, b].into_iter().zip(posts.boss_length) {
            let at = |step: u32| f64::from(step) * 0.02;
            let meets = (0..10_000)
                .map(at)
                .find(|reach| plate.contains([centre[0] + way[0] * reach, centre[1] + way[1] * reach]));
            assert_eq!(long.is_some(), meets.is_some());
            if let (Some(long), Some(meets)) = (long, meets) {
                assert_near(long, meets, 0.03, "boss");
            }
        }
        for told in [posts.thread, &format!("{depth:.1} mm deep"), &format!("{:.1} mm across", 2.0 * setup.tab.edge)] {
            assert!(posts.sentence.contains(told), "{}: {told}", posts.sentence);
        }
    }
}

/// Discs and their hulls against closed forms; points inside and outside against distance from the discs' middles.
#[test]
fn outlines_have_the_length_and_inside_of_their_discs() {
    for (radius, apart) in [(10.0, 35.0), (4.0, 100.0), (25.0, 3.0)] {
        let hull = Outline::of_discs(&[
            Disc::new(-5.0, 7.0, radius),
            Disc::new(-5.0 + apart * 0.6, 7.0 + apart * 0.8, radius),
        ]);
        assert_near(hull.perimeter(), TAU * radius + 2.0 * apart, 1e-9, "perimeter");
        assert_near(hull.area(), PI * radius * radius + 2.0 * radius * apart, 1e-9, "area");
        assert_near(hull.reversed().area(), -hull.area(), 1e-9, "the other way round");
        assert_near(hull.reversed().perimeter(), hull.perimeter(), 1e-9, "the other way round");
        let from_middle = |[x, y]: [f64; 2]| {
            let (dx, dy) = (x + 5.0, y - 7.0);
            let along = (dx * 0.6 + dy * 0.8).clamp(0.0, apart);
            (dx - along * 0.6).hypot(dy - along * 0.8)
        };
        for step in 0..2000_u32 {
            let point = [f64::from(step % 50) * 3.3 - 80.0, f64::from(step / 50) * 4.1 - 60.0];
            let off = from_middle(point) - radius;
            if off.abs() > 1e-6 {
                assert_eq!(hull.contains(point), off < 0.0, "{point:?}");
                assert_eq!(hull.reversed().contains(point), off < 0.0, "{point:?}, the other way round");
                assert_near(distance(hull.nearest(point), point), off.abs(), 1e-9, "nearest");
            }
        }
        for segment in hull.segments() {
            let back = segment.reversed();
            for share in [0.0, 0.3, 1.0] {
                assert_near(distance(back.at(share), segment.at(1.0 - share)), 0.0, 1e-9, "reversed");
            }
            if let Segment::Arc { .. } = segment {
                let chords: f64 = (0..1000)
                    .map(|step| {
                        distance(segment.at(f64::from(step) / 1000.0), segment.at(f64::from(step + 1) / 1000.0))
                    })
                    .sum();
                assert_near(segment.length(), chords, 1e-4, "an arc's length");
            }
        }
    }
}
