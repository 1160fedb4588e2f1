//! Narrow places and gaps to the plate, by closed forms and by many points of what is there.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::cut::{
    CutGap, CutOptions, Joining, Outline, PieceKey, Region, Section, Segment, cut_sheet, gaps_as_cut, pieces,
    plate_region,
};
use tabwright_core::fit::{Parts, hole_centres};
use tabwright_core::solid::Solid;
use tabwright_core::{Mount, Setup};
use tabwright_tests::plates::distance;
use tabwright_tests::svg::Point;
use tabwright_tests::{assert_near, setup_with};

fn sections(setup: &Setup) -> Vec<Section> {
    cut_sheet(setup, &CutOptions::default()).unwrap().sections
}

fn named<'a>(sections: &'a [Section], name: &str) -> Vec<&'a Section> {
    sections.iter().filter(|section| section.name == name).collect()
}

fn points(outline: &Outline, step: f64) -> Vec<Point> {
    let edge = |segment: Segment| {
        let count = (segment.length() / step).ceil().max(16.0) as u32;
        (0..count).map(move |index| segment.at(f64::from(index) / f64::from(count)))
    };
    outline.segments().flat_map(edge).collect()
}

/// From the slot's round end, or the hole's rim, to the nearest edge that is not ahead of the axle towards the mouth.
#[test]
fn beside_the_axle_the_nearest_edge_behind_the_mouth_counts() {
    for changes in [
        json!({"dropout": {"slot_direction": 140, "eye_radius": 16}}),
        json!({"dropout": {"slot_direction": -75, "eye_radius": 12, "neck_width": 22}, "fork": {"axle_offset": 9}}),
        json!({"dropout": {"slot_direction": 115, "eye_radius": 9, "neck_width": 26, "slot_width": 7}}),
        json!({"dropout": {"slot_direction": -160, "eye_radius": 9, "neck_width": 24, "slot_width": 8}, "tab": {"offset": 7}}),
        json!({"dropout": {"closed": true, "eye_radius": 11, "neck_width": 19}, "fork": {"axle_offset": -14}}),
        json!({"dropout": {"slot_direction": 100, "eye_radius": 18}, "tab": {"clock": 80, "fillet_radius": 3}}),
    ] {
        let setup = setup_with(&changes);
        let (cut, found) = (pieces(&setup).unwrap(), sections(&setup));
        let (back, up) = setup.dropout.slot_direction.to_radians().sin_cos();
        let whole: Vec<_> = cut.pieces.iter().filter(|piece| piece.key != PieceKey::Tab).collect();
        let eyes = named(&found, "eye");
        assert_eq!(eyes.len(), whole.len());
        for (piece, eye) in whole.into_iter().zip(eyes) {
            let behind = |point: &Point| setup.dropout.closed || point[0] * back + point[1] * up <= 0.0;
            let all = points(&piece.whole.outer, 0.01).into_iter().filter(behind);
            let nearest = all.map(|[x, y]| x.hypot(y)).fold(f64::INFINITY, f64::min);
            assert_near(eye.width, nearest - setup.dropout.slot_width / 2.0, 5e-3, &format!("{changes}"));
            let (from, to) = (eye.from, eye.to);
            assert_near(from[0].hypot(from[1]), setup.dropout.slot_width / 2.0, 1e-9, "it starts at the rim");
            assert_near(distance(piece.whole.nearest_edge(to), to), 0.0, 1e-6, "and ends on the edge");
            assert_near(from[0] * to[1] - from[1] * to[0], 0.0, 1e-6, "in one line with the axle");
            assert_eq!(
                (eye.piece, eye.ok, eye.least),
                (piece.key, eye.width >= setup.cut.least_net, setup.cut.least_net)
            );
        }
    }
}

/// Rim to rim: the distance of the middles less both radii; told where it is less than four times the least edge.
#[test]
fn holes_are_told_from_each_other_and_from_the_axles_hole_by_their_rims() {
    for (rotor, least, size) in [(140.0, 20.0, 9.5), (160.0, 17.0, 14.0), (140.0, 15.0, 20.0), (203.0, 5.0, 9.5)] {
        let setup = setup_with(&json!({
            "wheel": {"rotor_diameter": rotor, "axle_diameter": 9},
            "dropout": {"closed": true, "slot_width": size},
            "cut": {"least_edge": least, "hole_fit": "coarse"},
            "tab": {"edge": 9.5},
        }));
        let [a, b] = hole_centres(&setup);
        let found = sections(&setup);
        let expected: Vec<f64> = [a, b]
            .iter()
            .map(|hole| hole[0].hypot(hole[1]) - (7.0 + size) / 2.0)
            .filter(|between| *between < 4.0 * least)
            .collect();
        let told = named(&found, "hole_to_axle");
        assert_eq!(told.len(), expected.len(), "rotor {rotor}, {expected:?}");
        for (section, between) in told.iter().zip(expected) {
            assert_near(section.width, between, 1e-9, "hole to the axle's hole");
            assert_near(distance([0.0, 0.0], section.to), size / 2.0, 1e-9, "on the axle's rim");
        }
        let [between] = named(&found, "between_holes")[..] else { panic!("one between the holes") };
        assert_near(between.width, distance(a, b) - 7.0, 1e-9, "between the holes");
        for (name, hole) in [("edge_A", a), ("edge_B", b)] {
            let [edge] = named(&found, name)[..] else { panic!("one {name}") };
            assert_near(edge.width, 9.5 - 3.5, 1e-6, name);
            assert_near(distance(edge.from, hole), 3.5, 1e-9, "from the rim");
            assert_near(distance(edge.to, hole), 9.5, 1e-6, "to the edge");
            assert_eq!((edge.ok, edge.least), (6.0 >= least - 1e-6, least));
        }
    }
}

/// A tab cut back from the dropout keeps its narrow place where that is still on it; a post has none.
#[test]
fn across_the_tab_is_told_of_the_piece_that_has_the_holes() {
    for changes in [
        json!({}),
        json!({"tab": {"build": "butt_welded"}}),
        json!({"tab": {"offset": 7}}),
        json!({"tab": {"build": "on_existing"}}),
        json!({"tab": {"clock": 60, "build": "butt_welded"}, "fork": {"axle_offset": 12}}),
    ] {
        let setup = setup_with(&changes);
        let (cut, found) = (pieces(&setup).unwrap(), sections(&setup));
        let piece = &cut.pieces[0];
        for section in named(&found, "tab") {
            assert_eq!(section.piece, piece.key, "{changes}");
            assert_near(distance(section.from, section.to), section.width, 1e-9, "width");
            for end in [section.from, section.to] {
                assert!(distance(piece.region.nearest_edge(end), end) < 2e-3, "{changes}: {end:?} is off the piece");
            }
            // The tab's lands are a disc about each hole: no cut is narrower than one of them.
            assert!(section.width >= 2.0 * setup.tab.edge - 1e-6, "{changes}: {}", section.width);
        }
        let lapped = cut.joining == Joining::Lapped || cut.joining == Joining::OnePiece;
        assert!(!lapped || named(&found, "tab").len() == 1, "{changes}");
    }
}

/// What is near the plate: the rotor, or all bodies of the caliper that are not bolted to the tab.
fn near<'a>(setup: &Setup, parts: &'a Parts, name: &str) -> Vec<(&'a str, &'a Solid)> {
    if name == "rotor/plate" {
        return vec![(&parts.rotor.name, &parts.rotor.solid)];
    }
    let bodies = setup.caliper.bodies.iter().zip(&parts.caliper);
    bodies.filter(|(body, _)| !body.bolted).map(|(_, part)| (part.name.as_str(), &part.solid)).collect()
}

/// Signed: apart, by Pythagoras where they are apart sideways too; sideways alone, or deep, where they overlap in the wheel plane.
fn gap_by_points(solid: &Solid, region: &Region, low: f64, high: f64) -> f64 {
    let Solid::Slab(slab) = solid else { panic!("bodies are slabs") };
    let hull = Outline::of_discs(&slab.discs);
    let edge = points(&hull, 0.05);
    let off = |point: &Point| distance(region.nearest_edge(*point), *point);
    let inside: Vec<&Point> = edge.iter().filter(|point| region.contains(**point)).collect();
    let is_over = !inside.is_empty() || region.outer.corners.iter().any(|corner| hull.contains([corner.x, corner.y]));
    let flat = if is_over {
        -inside.into_iter().map(off).fold(0.0, f64::max)
    } else {
        edge.iter().map(off).fold(f64::INFINITY, f64::min)
    };
    let sideways = (low - slab.high).max(slab.low - high);
    if flat > 0.0 && sideways > 0.0 { flat.hypot(sideways) } else { flat.max(sideways) }
}

fn is_same(gap: &CutGap, expected: f64, changes: &serde_json::Value) {
    // Where they overlap, the sharp plate's measure of depth may be the deeper one.
    if expected > 0.0 {
        assert_near(gap.gap, expected, 5e-3, &format!("{} of {changes}", gap.name));
    } else {
        assert!(gap.gap <= expected + 5e-3 && gap.gap >= expected.min(gap.sharp) - 5e-3, "{gap:?}, {expected}");
    }
    assert!(gap.gap <= gap.sharp + 1e-6, "fillets add material: {gap:?}");
}

/// Dropout and tab each in its own plane, plates of one plane, posts: the nearer of all pieces counts.
#[test]
fn gaps_are_to_the_nearest_piece_in_its_own_plane() {
    let mut met = [0; 3];
    for changes in [
        json!({"tab": {"offset": 7.5}}),
        json!({"tab": {"offset": -9, "clock": 60}}),
        json!({"tab": {"offset": 3, "fillet_radius": 16}, "wheel": {"rotor_inset": 9}}),
        json!({"tab": {"offset": -22, "reach": -4}, "caliper": {"mount_depth": 8}}),
        json!({"tab": {"reach": -9, "fillet_radius": 14}, "side": "right"}),
        json!({"wheel": {"rotor_inset": 2}, "tab": {"reach": -16}}),
        json!({"tab": {"clock": 100}, "fork": {"axle_offset": 18}, "dropout": {"eye_radius": 34}}),
        json!({"caliper": {"mount": "post", "bolt_direction": [0, -1, 0]}, "dropout": {"eye_radius": 45}}),
    ] {
        let setup = setup_with(&changes);
        let parts = Parts::of(&setup);
        let (thick, low) = (setup.dropout.thickness, setup.wheel.hub_width / 2.0);
        let plates = if setup.tab.offset == 0.0 || setup.caliper.mount == Mount::Post {
            vec![(plate_region(&setup).unwrap().region, low)]
        } else {
            // Two plates, of which the dropout has no tab and the tab no gap for a weld.
            let cut = pieces(&setup_with(&{
                let mut lapped = changes.clone();
                lapped["tab"]["weld_gap"] = json!(0);
                lapped["dropout"] = json!({"closed": true});
                lapped
            }));
            let Ok(cut) = cut else { continue };
            if cut.joining != Joining::Lapped {
                continue;
            }
            let whole = |key: PieceKey| cut.pieces.iter().find(|piece| piece.key == key).unwrap().whole.clone();
            vec![(whole(PieceKey::Dropout), low), (whole(PieceKey::Tab), low + setup.tab.offset)]
        };
        for gap in gaps_as_cut(&setup).unwrap() {
            let mut nearest = ("", f64::INFINITY);
            for (name, solid) in near(&setup, &parts, gap.name) {
                for (region, low) in &plates {
                    let found = gap_by_points(solid, region, *low, low + thick);
                    if found < nearest.1 {
                        nearest = (name, found);
                    }
                }
            }
            is_same(&gap, nearest.1, &changes);
            assert_eq!(gap.part, nearest.0, "{changes}");
            met[if nearest.1 > 0.0 { usize::from(plates.len() > 1) } else { 2 }] += 1;
            assert!(
                gap.required == if gap.name == "rotor/plate" { setup.required.rotor } else { setup.required.plate }
            );
        }
    }
    assert!(met.iter().all(|count| *count > 1), "{met:?}");
}

/// The bay's piston is reached by a large fillet; the largest that does not is found to a tenth, and it is none without need.
#[test]
fn the_largest_fillet_is_where_the_gap_becomes_too_small() {
    let asks = |radius: f64| {
        let setup = setup_with(&json!({"tab": {"fillet_radius": radius}}));
        gaps_as_cut(&setup).unwrap().into_iter().find(|gap| gap.name == "caliper/plate").unwrap()
    };
    assert_eq!(asks(6.0).largest_fillet, None);
    let largest = asks(20.0).largest_fillet.unwrap();
    assert!((6.0..20.0).contains(&largest));
    assert!(asks(largest).gap >= asks(largest).required);
    assert!(asks(largest + 0.1).gap < asks(largest).required);
    assert_near(asks(31.0).largest_fillet.unwrap(), largest, 0.1, "whatever was asked for");
}
