//! What the cut sheet and its files are called and say: names, metals, warnings and reasons, each where it is meant and not elsewhere.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use std::f64::consts::PI;

use serde_json::{Value, json};
use tabwright_core::cut::{CutOptions, CutSheet, Outline, Segment, cut_file, cut_sheet, density, pieces};
use tabwright_core::fit::hole_centres;
use tabwright_core::{Given, Material};
use tabwright_tests::plates::{distance, setups};
use tabwright_tests::{assert_near, setup_with};

fn sheet(changes: &Value) -> CutSheet {
    cut_sheet(&setup_with(changes), &CutOptions::default()).unwrap()
}

/// The field and the message of the only problem.
fn reason(changes: &Value) -> [String; 2] {
    let problems = pieces(&setup_with(changes)).unwrap_err();
    assert_eq!(problems.len(), 1, "{changes}: {problems:?}");
    [problems[0].field.clone(), problems[0].message.clone()]
}

#[test]
fn files_are_named_by_rotor_hub_side_and_cut() {
    let names = |changes: &Value, kerf: f64| {
        let options = CutOptions { kerf, ..CutOptions::default() };
        let name = |kind: &&str| cut_file(&setup_with(changes), kind, &options).unwrap().name;
        ["dxf_r12", "dxf_r2000", "svg", "template_svg"].iter().map(name).collect::<Vec<_>>()
    };
    let endings = ["cut-r12.dxf", "cut-r2000.dxf", "cut.svg", "template.svg"];
    let all = |start: &str| endings.map(|ending| format!("{start}{ending}"));
    assert_eq!(names(&json!({}), 0.0), all("tabwright-rotor-203-hub-100-left-"));
    let right = json!({"side": "right", "wheel": {"rotor_diameter": 180, "hub_width": 110.5}});
    let mut wide = all("tabwright-rotor-180-hub-110.5-right-kerf-0.4-");
    // The template is for the eye: it has no kerf.
    wide[3] = "tabwright-rotor-180-hub-110.5-right-template.svg".to_owned();
    assert_eq!(names(&right, 0.4), wide);
}

#[test]
fn options_take_a_line_of_text_and_no_more() {
    let read = |name: &str, text: String| CutOptions::read(&Given::Object(vec![(name.to_owned(), Given::Text(text))]));
    assert_eq!(read("link", "https://a.example/#x".to_owned()).unwrap().link, "https://a.example/#x");
    assert_eq!(read("date", "27 November".to_owned()).unwrap().date, "27 November");
    for (name, most) in [("date", 60), ("link", 4000)] {
        assert!(read(name, "ü".repeat(most)).is_ok() && read(name, "ü".repeat(most + 1)).is_err(), "{name}");
        assert!(read(name, "one\ntwo".to_owned()).is_err(), "{name}");
    }
    let problems = CutOptions::read(&Given::Text("all".to_owned())).unwrap_err();
    assert_eq!((problems.len(), problems[0].field.as_str()), (1, "options"));
}

#[test]
fn the_metal_and_the_joint_are_told_in_words() {
    for (word, label) in [
        ("mild_steel", "mild steel"),
        ("4130", "4130 steel"),
        ("stainless_304", "stainless steel 304"),
        ("6061_t6", "aluminium 6061-T6"),
        ("a36", "A36 steel"),
        ("own", "steel, taken for your own values"),
    ] {
        let sheet = sheet(&json!({"load": {"material": word}}));
        assert_eq!((sheet.metal.key.word(), sheet.metal.label), (word, label));
        assert_eq!(sheet.metal.density, density(sheet.metal.key));
    }
    let weighed = CutOptions { metal: Some(Material::Aluminium6061), ..CutOptions::default() };
    let sheet_of = cut_sheet(&setup_with(&json!({})), &weighed).unwrap();
    assert_eq!(sheet_of.metal.label, "aluminium 6061-T6");
    for (changes, sentence) in [
        (json!({}), "One piece."),
        (json!({"tab": {"build": "butt_welded"}}), "Two pieces, butted."),
        (json!({"tab": {"build": "on_existing"}}), "Tab for a dropout that is there."),
        (json!({"tab": {"offset": 2}}), "Two pieces, butted with a step."),
        (json!({"tab": {"offset": -8}}), "Two pieces, lapped."),
        (json!({"caliper": {"mount": "post", "bolt_direction": [0, -1, 0]}}), "Dropout for posts."),
    ] {
        assert_eq!(sheet(&changes).build_sentence, sentence);
    }
}

/// Mass is area by thickness by density; a cut is as long as all edges and rims.
#[test]
fn pieces_are_measured_and_weighed() {
    let long = |outline: &Outline| {
        let edge = |segment: Segment| {
            let at = |step: u32| segment.at(f64::from(step) / 2000.0);
            (0..2000).map(|step| distance(at(step), at(step + 1))).sum::<f64>()
        };
        outline.segments().map(edge).sum::<f64>()
    };
    for setup in setups() {
        let (cut, sheet) = (pieces(&setup).unwrap(), cut_sheet(&setup, &CutOptions::default()).unwrap());
        let mut mass = 0.0;
        for (piece, told) in cut.pieces.iter().zip(&sheet.pieces) {
            let rims: f64 = piece.holes.iter().map(|hole| PI * hole.diameter).sum();
            let edges: f64 = piece.region.outlines().map(long).sum();
            assert_near(told.cut_length, edges + rims, 1e-3, "length of all cuts");
            let open: f64 = piece.holes.iter().map(|hole| PI * hole.diameter * hole.diameter / 4.0).sum();
            assert_near(told.area, piece.region.area() - open, 1e-9, "area");
            assert_near(told.mass, told.area * setup.dropout.thickness * 7.85e-6, 1e-9, "mass");
            assert_eq!((told.hole_count, told.thickness), (piece.holes.len() as f64, setup.dropout.thickness));
            mass += told.mass;
        }
        assert_near(sheet.mass, mass, 1e-12, "mass of all");
    }
}

#[test]
fn warnings_stand_where_they_are_meant() {
    let has = |changes: &Value, field: &str, words: &str| {
        sheet(changes).warnings.iter().any(|one| one.field == field && one.message.contains(words))
    };
    // 100 + 2 · 6 between outer faces: 2 wider between the tubes is a gap of 1 on each side.
    for (gap, is_short) in [(112, false), (114, true), (110, false)] {
        assert_eq!(has(&json!({"fork": {"tube_gap": gap}}), "fork.tube_gap", "ends 1.0 mm short"), is_short, "{gap}");
    }
    // Below the axle bolts at 25.5 to either side meet an eye of 27, and none of 24.
    for (eye, is_past) in [(24, true), (27, false)] {
        let posts = json!({
            "caliper": {"mount": "post", "bolt_direction": [0, -1, 0]},
            "tab": {"clock": 180},
            "dropout": {"eye_radius": eye, "slot_direction": 90},
        });
        assert_eq!(has(&posts, "tab.clock", "points past the dropout"), is_past, "{eye}");
    }
    let inward = json!({"tab": {"reach": -20, "clock": 10}});
    assert!(has(&inward, "", "does not fit") && !has(&json!({}), "", ""));
    let large = json!({"tab": {"fillet_radius": 55}});
    let piece = &pieces(&setup_with(&large)).unwrap().pieces[0];
    assert_eq!(has(&large, "tab.fillet_radius", "does not go into the inner corners"), piece.fillet_radius < 55.0);
    let thin = json!({"cut": {"least_edge": 6}, "dropout": {"slot_direction": 170}});
    assert!(has(&thin, "tab.edge", "5.7 mm of material, less than the 6.0 mm you accept"));
    assert!(!has(&json!({"cut": {"least_edge": 5.5}}), "tab.edge", ""));
}

/// A tab all within a neck of 120; one that a neck of 30, with the gap, parts between holes 51 apart.
#[test]
fn a_tab_that_cannot_be_butted_has_its_reason() {
    let inside = json!({
        "wheel": {"rotor_diameter": 140},
        "dropout": {"neck_width": 120, "eye_radius": 70, "weld_length": 150},
        "fork": {"axle_offset": 0},
        "tab": {"clock": 0, "build": "butt_welded"},
    });
    let [field, message] = reason(&inside);
    assert!(field == "tab.build" && message.starts_with("Nothing of the tab is left"), "{message}");
    let across =
        json!({"dropout": {"neck_width": 30, "weld_length": 120}, "tab": {"clock": 0, "build": "butt_welded"}});
    let [field, message] = reason(&across);
    assert!(field == "tab.build" && message.contains("part the tab between its two holes"), "{message}");
}

/// Upright edges ahead of both holes, from either end; hole A is the nearer one.
#[test]
fn an_old_edge_leaves_room_between_hole_and_weld() {
    let [a, b] = hole_centres(&setup_with(&json!({})));
    assert!(a[0] < b[0]);
    let on_edge = |back: f64, is_down: bool| {
        let (low, high) = if is_down { (130, 20) } else { (20, 130) };
        json!({"tab": {"build": "on_existing", "weld_gap": 1.6, "old_edge": [[back, low], [back, high]]}})
    };
    for is_down in [false, true] {
        // A hole of 6.6 and a gap of 1.6: 4.9 are needed.
        let tab = &pieces(&setup_with(&on_edge(a[0] - 4.95, is_down))).unwrap().pieces[0];
        assert_near(tab.region.outer.bounds()[0][0], a[0] - 4.95 + 1.6, 1e-3, "it starts at the weld's gap");
        assert!(tab.holes.len() == 2 && tab.region.contains([a[0] + 5.0, a[1]]));
        for (back, words) in [
            (a[0] - 4.85, "A caliper hole lies 4.8 mm from the old plate's edge"),
            ((a[0] + b[0]) / 2.0, "runs between the two caliper holes"),
            (-60.0, "short of the old plate's edge"),
        ] {
            let [field, message] = reason(&on_edge(back, is_down));
            assert!(field == "tab.old_edge" && message.contains(words), "{message}");
        }
    }
}

/// Square to an edge that leans by 3 in 40: its normal form.
#[test]
fn holes_are_told_from_an_old_edge_that_leans() {
    let setup = setup_with(&json!({"tab": {"build": "on_existing", "old_edge": [[11, 40], [14, 80]]}}));
    let sheet = cut_sheet(&setup, &CutOptions::default()).unwrap();
    for (hole, [back, up]) in sheet.holes.iter().zip(hole_centres(&setup)) {
        let square = (40.0 * (back - 11.0) - 3.0 * (up - 40.0)) / 40.0_f64.hypot(3.0);
        assert_near(hole.from_old_edge.unwrap(), square, 1e-9, hole.name);
    }
}

/// Holes behind an axle in an eye of 80, the lower one right in a slot that is turned towards it; holes too near an edge.
#[test]
fn a_hole_that_is_cut_into_tells_by_what() {
    let near = json!({"wheel": {"rotor_diameter": 140}, "dropout": {"eye_radius": 80}, "tab": {"clock": 90}});
    let holes = hole_centres(&setup_with(&near));
    for (name, [back, up]) in ["A", "B"].into_iter().zip(holes) {
        let mut towards = near.clone();
        towards["dropout"]["slot_direction"] = json!(back.atan2(up).to_degrees());
        let [field, message] = reason(&towards);
        assert_eq!(field, "dropout.slot_direction", "{message}");
        assert!(message.contains(&format!("The slot runs into hole {name}.")), "{message}");
    }
    let problems = pieces(&setup_with(&json!({"tab": {"edge": 3}}))).unwrap_err();
    assert!(problems.iter().all(|problem| problem.field == "tab.edge" && problem.message.contains("6.6 mm wide")));
}

/// A neck whose upper end is about the axle runs nowhere: the leg's own direction serves.
#[test]
fn a_neck_without_length_is_taken_to_run_up_the_leg() {
    let sheet = sheet(
        &json!({"fork": {"tube_end": 0}, "dropout": {"weld_length": 10, "neck_width": 20, "slot_direction": 180}}),
    );
    for hole in &sheet.holes {
        assert_near(hole.along_neck, hole.up, 1e-9, "up the leg");
        assert_near(hole.from_neck_edge, hole.back.abs() - 10.0, 1e-9, "beside it");
    }
}
