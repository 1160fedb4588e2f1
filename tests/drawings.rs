//! Drawings: well-formed, finite, mirrored for the other side, and never markup from a builder's text.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

use serde_json::{Value, json};
use tabwright_core::Setup;
use tabwright_core::drawing::{View, draw};
use tabwright_tests::svg::read;
use tabwright_tests::{assert_near, fixture_text, report_of, setup_with};

const VIEWS: [View; 2] = [View::Side, View::Section];

fn drawn(setup: &Setup, view: View) -> String {
    draw(setup, view).unwrap_or_else(|problems| format!("{problems:?}"))
}

/// Every number of an SVG's shapes, in order of attribute name.
fn numbers(svg: &str, attribute: &str) -> Vec<f64> {
    let marker = format!(" {attribute}=\"");
    svg.split(&marker).skip(1).filter_map(|rest| rest.split('"').next()?.parse().ok()).collect()
}

#[test]
fn every_drawing_is_well_formed_and_finite() {
    for line in fixture_text("reference/kernel.jsonl").lines() {
        let case: Value = serde_json::from_str(line).unwrap_or_default();
        let setup = setup_with(&case["changes"]);
        for view in VIEWS {
            let svg = drawn(&setup, view);
            assert!(svg.starts_with("<svg") && svg.ends_with("</svg>"), "{svg}");
            assert!(!svg.contains("NaN") && !svg.contains("inf\"") && !svg.contains("inf "), "{}", case["changes"]);
            assert!(!["M,", "L,", "A,"].iter().any(|letter| svg.contains(letter)), "numbers follow a path's letter");
            assert_eq!(svg.matches("<g").count(), svg.matches("</g>").count());
            assert_eq!(svg.matches("<path").count(), svg.matches("</path>").count());
        }
    }
}

#[test]
fn both_views_are_equally_wide_and_show_what_there_is() {
    let setup = Setup::default();
    let width = |svg: &str| svg.split("viewBox=\"").nth(1).and_then(|rest| rest.split(' ').nth(2).map(str::to_owned));
    let [side, section] = VIEWS.map(|view| drawn(&setup, view));
    assert_eq!(width(&side), width(&section));
    for title in [
        "Rotor, 203.0 mm",
        "Braking band",
        "Fork tube",
        "Tab",
        "Caliper: piston",
        "Caliper hole 2",
        "Axle nut",
        "Line exit",
        "Room wanted round the tube, 3.0 mm",
    ] {
        assert!(side.contains(title), "the side view has no {title}");
    }
    for title in ["Rotor, 1.8 mm thick", "Spokes", "Hub, out", "Fork tube", "Caliper: arm", "Middle of the caliper"] {
        assert!(section.contains(title), "the section has no {title}");
    }
}

#[test]
fn the_verdict_stands_in_words_and_the_binding_gap_with_its_number() {
    let svg = drawn(&setup_with(&json!({"wheel": {"rotor_diameter": 180}})), View::Side);
    assert!(svg.contains("verdict-hits") && svg.contains("Side view: hits"), "{svg}");
    assert!(svg.contains("−2.1 mm"), "{svg}");
}

/// Of each outcome one: headings tell it, the title the whole summary, and nothing is drawn beyond the page.
#[test]
fn a_drawing_is_a_document_with_a_title_of_its_own() {
    for (changes, outcome, word) in [
        (json!({}), "clears", "clears"),
        (json!({"required": {"tube": 30}}), "tight", "tight"),
        (json!({"wheel": {"rotor_diameter": 180}}), "hits", "hits"),
        (json!({"tab": {"offset": 2.5}}), "cannot_build", "cannot be built"),
    ] {
        let setup = setup_with(&changes);
        for (view, key, looks, heading) in [
            (View::Side, "side", "Side view of the brake on the fork leg", "Side view"),
            (View::Section, "section", "Section along the leg", "Section"),
        ] {
            let svg = drawn(&setup, view);
            let drawing = read(&svg);
            assert_eq!(drawing[0].class, format!("view view-{key} verdict-{outcome}"));
            assert_eq!(drawing[0].title, format!("{looks}. {}", report_of(&setup).summary));
            assert_eq!(drawing[0].attributes["aria-labelledby"], format!("title-{key}"));
            assert!(svg.contains(&format!("<title id=\"title-{key}\">")), "{key}: the title has that name");
            let word = format!("{heading}: {word}");
            assert!(drawing.iter().any(|one| one.is("verdict-word") && one.text == word), "{key}: no {word}");
            let clip = drawing.iter().position(|one| one.attributes.get("id") == Some(&format!("page-{key}"))).unwrap();
            let page = ["x", "y", "width", "height"].map(|side| drawing[clip + 1].number(side));
            for (got, expected) in page.into_iter().zip(drawing[0].view_box()) {
                assert_near(got, expected, 1e-9, "the page's edge");
            }
            let url = format!("url(#page-{key})");
            assert!(drawing.iter().any(|one| one.attributes.get("clip-path") == Some(&url)), "{key}: nothing is cut");
        }
    }
}

/// Without the page's colours, parts are filled, each kind unlike those beside it, and all else is drawn in lines.
#[test]
fn a_drawing_can_be_looked_at_alone() {
    let parts = ["rotor", "band", "tube", "plate", "hole", "caliper", "pad", "nut"];
    let drawing: Vec<_> = VIEWS.into_iter().flat_map(|view| read(&drawn(&Setup::default(), view))).collect();
    let mut fills = std::collections::BTreeMap::new();
    for shape in drawing.iter().filter(|one| one.attributes.contains_key("fill")) {
        let class = shape.class.split(' ').next().unwrap_or_default();
        let (fill, stroke) = (&shape.attributes["fill"], &shape.attributes["stroke"]);
        let is_part = parts.contains(&class) || ["tab", "hub"].contains(&class);
        assert_eq!(fill.starts_with('#'), is_part, "{class} is filled with {fill}");
        assert!(is_part || stroke.starts_with('#'), "{class} is not to be seen");
        fills.insert(class, fill);
    }
    let unlike: std::collections::BTreeSet<_> = parts.iter().map(|part| fills[part]).collect();
    assert_eq!(unlike.len(), parts.len(), "{fills:?}");
    assert_eq!(fills["tab"], fills["plate"], "cut from one plate");
}

#[test]
fn the_other_side_with_a_mirrored_caliper_is_drawn_as_the_mirror_image() {
    let left = setup_with(&json!({"fork": {"axle_offset": 10}, "tab": {"clock": 40}}));
    let mut right = left.clone();
    right.side = tabwright_core::Side::Right;
    right.caliper.holes.iter_mut().for_each(|hole| hole[0] = -hole[0]);
    right.caliper.bodies.iter_mut().flat_map(|body| &mut body.outline).for_each(|corner| corner[0] = -corner[0]);
    right.caliper.line.exit[0] *= -1.0;
    right.caliper.line.direction[0] *= -1.0;
    for view in VIEWS {
        let (here, there) = (drawn(&left, view), drawn(&right, view));
        let (x, y) = (numbers(&here, "cx"), numbers(&here, "cy"));
        let (mirrored_x, same_y) = (numbers(&there, "cx"), numbers(&there, "cy"));
        assert!(!x.is_empty() && x.iter().any(|x| x.abs() > 5.0), "{view:?} has circles off the middle");
        assert_eq!(y, same_y, "{view:?}");
        let flipped: Vec<f64> = mirrored_x.iter().map(|x| -x + 0.0).collect();
        assert_eq!(x, flipped, "{view:?}");
    }
    // The way ahead is to the left of the page on the left side, to the right on the right side.
    let ahead = |svg: &str| {
        svg.split("<text")
            .find(|text| text.contains(">ahead") || text.contains("\nahead"))
            .map(|text| numbers(text, "x")[0])
    };
    assert!(ahead(&drawn(&left, View::Side)).is_some_and(|x| x < 0.0));
    assert!(ahead(&drawn(&right, View::Side)).is_some_and(|x| x > 0.0));
}

#[test]
fn a_builders_text_never_becomes_markup() {
    let mut setup = Setup::default();
    setup.caliper.bodies[1].name = "<img src=x onerror=\"alert(1)\"> & ]]>".to_owned();
    for view in VIEWS {
        let svg = drawn(&setup, view);
        assert!(!svg.contains("<img"), "{svg}");
        assert!(svg.contains("&lt;img"), "{svg}");
    }
}
