//! A tab that is there already: where a caliper on its two holes lies, and which rotors that serves.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

use serde_json::{Value, json};
use tabwright_core::build::{FitTab, TabHoles, fit_tab};
use tabwright_core::search::ring;
use tabwright_core::{Outcome, Setup};
use tabwright_tests::tacked::Part;
use tabwright_tests::{assert_near, pair, report_of, setup_with};

fn setups() -> Vec<Setup> {
    [
        json!({"tab": {"clock": 75}, "caliper": {"holes": [[-22, 30], [29, 21]]}}),
        json!({"side": "right", "tab": {"clock": -40}, "caliper": {"holes": [[-31, 27], [20, 30]]}}),
    ]
    .iter()
    .map(setup_with)
    .collect()
}

fn distances(part: &Part) -> TabHoles {
    let [one, other] = part.holes.map(|[back, up]| back.hypot(up));
    TabHoles::Distances([one, other, part.spacing()])
}

fn on(setup: &Setup, holes: TabHoles) -> FitTab {
    fit_tab(setup, holes).unwrap_or_else(|problems| unreachable!("{problems:?}"))
}

/// Three distances are the tab itself but for its place about the axle; two places are that too.
#[test]
fn distances_are_laid_with_the_pads_at_the_clock_angle() {
    for setup in setups() {
        for (part, other) in
            [(Part::designed(&setup), 1.0), (Part::designed(&setup).moved([[0.3, -0.4], [-0.2, 0.1]], [0.0; 2]), -1.0)]
        {
            let laid = on(&setup, distances(&part));
            assert_eq!(laid.clock, None);
            // The pads of the same part, turned, lie where the setup has them.
            let placed = on(&setup, TabHoles::Points(part.holes));
            let turned = part.turned(setup.tab.clock - placed.clock.unwrap());
            let placed = on(&setup, TabHoles::Points(turned.holes));
            assert_near(placed.clock.unwrap(), setup.tab.clock, 1e-9, "clock");
            let [one, two] = part.holes.map(|[back, up]| back.hypot(up));
            for tab in [&laid, &placed] {
                assert_near(tab.hole_1, one, 1e-9, "axle to hole 1");
                assert_near(tab.hole_2, two, 1e-9, "axle to hole 2");
                assert_near(tab.spacing, part.spacing(), 1e-9, "hole to hole");
                let [[x1, y1], [x2, y2]] = setup.caliper.holes;
                assert_near(tab.misfit, part.spacing() - (x2 - x1).hypot(y2 - y1), 1e-9, "misfit");
                assert_near(tab.play, 0.6, 1e-12, "M6 in 6.6, ISO 273");
            }
            assert_near(laid.pad_radius, placed.pad_radius, 1e-8, "pads");
            assert_near(laid.skew, placed.skew, 1e-8, "skew");
            assert_eq!(laid.sentence, placed.sentence);
            for (laid, placed) in laid.rotors.iter().zip(&placed.rotors) {
                assert_eq!((laid.rotor_diameter, laid.serves), (placed.rotor_diameter, placed.serves));
                assert_near(laid.reach, placed.reach, 1e-8, "reach");
                assert_near(laid.coverage, placed.coverage, 1e-8, "coverage");
                let margins = [laid, placed].map(|rotor| rotor.here.as_ref().map_or(0.0, |here| here.margin));
                assert_near(margins[0], margins[1], 1e-6, "margin");
                assert_eq!(laid.sentence, placed.sentence);
            }
            // A tab turned elsewhere is another place of the same tab.
            let beside = on(&setup, TabHoles::Points(turned.turned(other * 7.5).holes));
            assert_near(beside.clock.unwrap(), setup.tab.clock + other * 7.5, 1e-9, "clock");
            assert_near(beside.pad_radius, placed.pad_radius, 1e-9, "pads");
        }
    }
}

/// Each rotor on the tab is a setup of its own whose pads reach that much further.
#[test]
fn a_rotor_on_a_tab_is_a_setup_with_that_reach() {
    for setup in setups() {
        let tab = on(&setup, distances(&Part::designed(&setup)));
        assert!(tab.rotors.windows(2).all(|two| two[0].rotor_diameter < two[1].rotor_diameter));
        assert!(tab.rotors.iter().any(|rotor| rotor.rotor_diameter == 160.0));
        let pads = report_of(&setup).pad.radius;
        assert_near(tab.pad_radius, pads, 1e-9, "pads");
        for rotor in &tab.rotors {
            let mut other = setup.clone();
            other.wheel.rotor_diameter = rotor.rotor_diameter;
            let full = report_of(&other).pad.radius;
            other.tab.reach = pads - full;
            assert_near(rotor.reach, pads - full, 1e-8, "reach");
            // No setup reaches farther than that.
            if rotor.reach.abs() > 20.0 {
                assert!(!rotor.serves && rotor.here.is_none(), "{}", rotor.sentence);
                continue;
            }
            let report = report_of(&other);
            assert_near(rotor.coverage, report.pad.coverage, 1e-8, "coverage");
            assert_near(rotor.overhang, report.pad.overhang, 1e-8, "overhang");
            assert_near(rotor.below_band, report.pad.below_band, 1e-8, "below the band");
            let bridge = pair(&report, "rotor/throat").gap;
            assert_eq!(rotor.serves, report.pad.coverage >= 0.9 && bridge >= 0.0, "{}", rotor.sentence);
            let name = format!("{}: ", rotor.rotor_diameter);
            assert!(rotor.sentence.starts_with(&name), "{}", rotor.sentence);
            if let Some(here) = &rotor.here {
                assert!(rotor.serves);
                assert_near(here.clock, setup.tab.clock, 1e-9, "clock");
                assert_eq!((here.verdict, here.binding), (report.verdict, report.binding));
                assert_near(here.margin, pair(&report, report.binding).margin, 1e-5, "margin");
                let windows = ring(&other).unwrap().windows;
                assert_eq!(rotor.windows.len(), windows.len());
                let end = match (windows.len(), report.verdict) {
                    (0, _) => "on the band, but at no clock angle does everything clear.",
                    (_, Outcome::Clears) => "on the band; everything clears at this clock angle.",
                    _ => "on the band; everything clears at other clock angles.",
                };
                assert!(rotor.sentence.ends_with(end), "{}", rotor.sentence);
            } else if bridge < 0.0 {
                let end = format!("too large, it would run {:.2} mm into the bridge.", -bridge);
                assert_eq!(rotor.sentence, name + &end);
            } else {
                let way = if pads > full { "out" } else { "in" };
                let end = format!("the pads lie {:.2} mm too far {way}.", (pads - full).abs());
                assert!(rotor.sentence.ends_with(&end), "{} does not end {end}", rotor.sentence);
            }
        }
    }
}

#[test]
fn a_size_of_the_setup_s_own_is_among_the_rotors() {
    let odd = setup_with(&json!({"wheel": {"rotor_diameter": 171.5}, "tab": {"clock": 75}}));
    let tab = on(&odd, distances(&Part::designed(&odd)));
    let sizes: Vec<f64> = tab.rotors.iter().map(|rotor| rotor.rotor_diameter).collect();
    assert_eq!(sizes.iter().filter(|size| **size == 171.5).count(), 1);
    assert!(sizes.windows(2).all(|two| two[0] < two[1]), "{sizes:?}");
    let usual = setup_with(&json!({"wheel": {"rotor_diameter": 180}, "tab": {"clock": 75}}));
    let rotors = on(&usual, distances(&Part::designed(&usual))).rotors;
    assert_eq!(rotors.len() + 1, tab.rotors.len(), "a usual size is there once");
    assert!(tab.rotors.iter().any(|rotor| rotor.serves && rotor.rotor_diameter == 171.5), "{}", tab.sentence);
}

#[test]
fn bolts_and_slot_are_told_before_rotors() {
    let setup = setup_with(&json!({"tab": {"clock": 75}}));
    let part = Part::designed(&setup);
    let along = part.along();
    let wider = |by: f64| distances(&part.moved([[0.0; 2], along.map(|way| way * by)], [0.0; 2]));
    for (by, fit) in [(0.6, true), (-0.6, true), (0.61, false), (-0.61, false)] {
        let tab = on(&setup, wider(by));
        assert_eq!((tab.bolts_fit, tab.rotors.iter().any(|rotor| rotor.serves)), (fit, fit), "{by}: {}", tab.sentence);
        if !fit {
            let told = format!(
                "The caliper's bolts do not go in: the holes are {:.2} mm apart, 0.61 mm off, and the bolts' play is 0.60 mm.",
                51.0 + by
            );
            assert_eq!(tab.sentence, told);
        }
    }
    // 15 mm from the face to the slot, and 15 to the rotor: a tab aside by more than the caliper's 2 mm cannot be set.
    for (offset, can) in [(1.9, true), (2.0, true), (2.1, false), (-2.1, false)] {
        let mut aside = setup.clone();
        aside.tab.offset = offset;
        let tab = on(&aside, distances(&part));
        assert_near(tab.misalignment, offset, 1e-9, "slot less rotor");
        assert_eq!((tab.sideways, tab.rotors.iter().any(|rotor| rotor.serves)), (can, can), "{}", tab.sentence);
        let told = format!("The caliper cannot be set on the rotor: its slot lies {:.2} mm from it.", offset.abs());
        assert_eq!(tab.sentence == told, !can, "{}", tab.sentence);
    }
    let pads = format!("The pads' middle lies {:.2} mm from the axle", report_of(&setup).pad.radius);
    assert_eq!(on(&setup, distances(&part)).sentence, format!("{pads}: it serves a rotor of 203."));
    // Pads 8 mm high between 160 and 163 serve both.
    let low = setup_with(&json!({
        "tab": {"clock": 75, "reach": 1}, "wheel": {"rotor_diameter": 200}, "caliper": {"pad": {"height": 8, "edge_inset": 2}},
    }));
    let tab = on(&low, distances(&Part::designed(&low)));
    let serving: Vec<String> =
        tab.rotors.iter().filter(|rotor| rotor.serves).map(|rotor| rotor.rotor_diameter.to_string()).collect();
    let pads = format!("The pads' middle lies {:.2} mm from the axle", tab.pad_radius);
    assert!(serving.len() > 1, "{serving:?}");
    assert_eq!(tab.sentence, format!("{pads}: it serves rotors of {}.", serving.join(", ")));
    let far = on(&setup, TabHoles::Distances([300.0, 300.0, 51.0]));
    assert!(far.sentence.ends_with(" from the axle: no usual rotor fits that."), "{}", far.sentence);
}

#[test]
fn holes_are_read_from_distances_or_from_places() {
    let read = |value: Value| TabHoles::read(&(&value).into());
    let distances = json!({"hole_1": 1, "hole_2": 500, "spacing": 500});
    assert_eq!(read(distances), Ok(TabHoles::Distances([1.0, 500.0, 500.0])));
    let points = json!({"points": [[-500, 12.5], [31, 500]]});
    assert_eq!(read(points), Ok(TabHoles::Points([[-500.0, 12.5], [31.0, 500.0]])));
    // Flat triangles and holes a millimetre apart are the last ones.
    assert!(read(json!({"hole_1": 90, "hole_2": 40, "spacing": 50})).is_ok());
    assert!(read(json!({"points": [[30, 40], [30, 41]]})).is_ok());
    for (given, field, message) in [
        (
            json!({"hole_1": 90, "hole_2": 39.99, "spacing": 50}),
            "spacing",
            "90.00 mm, 39.99 mm and 50.00 mm make no triangle: two of them together are shorter than the third. Measure again.",
        ),
        (
            json!({"hole_1": 0.99, "hole_2": 40, "spacing": 40}),
            "hole_1",
            "Axle to hole 1 must be a number from 1 to 500 mm, such as 51.",
        ),
        (
            json!({"hole_1": 90, "spacing": 50}),
            "hole_2",
            "Axle to hole 2 must be a number from 1 to 500 mm, such as 51.",
        ),
        (
            json!({"hole_1": 90, "hole_2": 80, "spacing": 500.1}),
            "spacing",
            "Hole to hole must be a number from 1 to 500 mm, such as 51.",
        ),
        (
            json!({"points": [[30, 40], [30.6, 39.4]]}),
            "points",
            "The two holes lie on one spot. Give the centres of two holes.",
        ),
        (
            json!({"points": [[30, 40]]}),
            "points",
            "The holes must be two points [back, up], each a number from −500 to 500 mm.",
        ),
        (
            json!({"points": [[30, 40], [30, -500.1]]}),
            "points",
            "The holes must be two points [back, up], each a number from −500 to 500 mm.",
        ),
    ] {
        let problems = read(given.clone()).unwrap_err();
        assert_eq!((problems[0].field.as_str(), problems[0].message.as_str()), (field, message), "{given}");
    }
    assert_eq!(read(json!({})).unwrap_err().len(), 3);
}
