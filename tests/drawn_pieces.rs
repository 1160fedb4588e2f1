//! The cut sheet's drawings read back: holes, narrow places, tube and dimensions where they are.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::Setup;
use tabwright_core::cut::{CutOptions, Piece, PieceKey, cut_sheet, pieces};
use tabwright_tests::plates::{DRAWN, across, bounds, distance, ends, has_cross, of, setups};
use tabwright_tests::svg::{Element, Point, numbers, read};
use tabwright_tests::{assert_near, setup_with};

/// The piece on its page: 18 mm of room on each side of its outline.
fn placed(setup: &Setup, piece: &Piece) -> impl Fn(Point) -> Point {
    let [low, high] = piece.region.outer.bounds();
    let sign = across(setup, piece.key);
    let left = if sign > 0.0 { low[0] } else { -high[0] };
    move |[back, up]: Point| [18.0 + sign * back - left, 18.0 + high[1] - up]
}

#[test]
fn a_pieces_drawing_shows_its_holes_its_narrow_places_and_the_tube_where_they_are() {
    for setup in setups() {
        let (cut, sheet) = (pieces(&setup).unwrap(), cut_sheet(&setup, &CutOptions::default()).unwrap());
        for (piece, report) in cut.pieces.iter().zip(&sheet.pieces) {
            let drawing = read(&report.svg);
            let page = placed(&setup, piece);
            let [left, right, top, foot] = bounds(&of(&drawing, "cut-plate")[0].points());
            assert_near(right - left, report.width, DRAWN, "as wide as told");
            assert_near(foot - top, report.height, DRAWN, "as high as told");
            let view = drawing[0].view_box();
            for (got, expected) in [left, top, view[2] - right, view[3] - foot].into_iter().zip([18.0; 4]) {
                assert_near(got, expected, DRAWN, "room round the piece");
            }
            let crosses: Vec<[Point; 2]> = of(&drawing, "cut-centre").into_iter().map(ends).collect();
            for hole in &piece.holes {
                let [x, y] = page(hole.centre);
                let class = if hole.name == "axle" { "cut-axle" } else { "cut-hole" };
                let at = |one: &&&Element| distance([one.number("cx"), one.number("cy")], [x, y]) < DRAWN;
                let circle = of(&drawing, class);
                let circle = circle.iter().find(at).unwrap_or_else(|| panic!("hole {} is not drawn", hole.name));
                assert_near(circle.number("r"), hole.diameter / 2.0, DRAWN, "hole");
                assert!(has_cross(&crosses, [x, y], 6.0), "hole {} has no cross", hole.name);
                if hole.name != "axle" {
                    let label = of(&drawing, "cut-label").into_iter().find(|one| one.text == hole.name).unwrap();
                    let [from, _, _, low] = label.text_box();
                    assert_near(from - x - hole.diameter / 2.0, 1.0, DRAWN, "a hole's letter is beside it");
                    assert_near(y - low, hole.diameter / 2.0, DRAWN, "and at its top");
                }
            }
            let has_axle = piece.key != PieceKey::Tab;
            assert!(!has_axle || has_cross(&crosses, page([0.0, 0.0]), 6.0), "the axle has no cross");
            let shown: Vec<_> = sheet.sections.iter().filter(|section| section.piece == piece.key).collect();
            let lines = of(&drawing, "cut-section");
            assert_eq!(lines.len(), shown.len());
            for (line, section) in lines.iter().zip(shown) {
                let [from, to] = ends(line);
                assert!(distance(from, page(section.from)) < DRAWN && distance(to, page(section.to)) < DRAWN);
                assert_eq!(line.is("cut-thin"), !section.ok);
                assert!(
                    line.title.starts_with(section.label) && line.title.ends_with(&format!("{:.1} mm", section.width))
                );
            }
            let (fork, [low, high]) = (&setup.fork, piece.region.outer.bounds());
            let [ahead, behind] = [-0.5, 0.5].map(|share| fork.axle_offset + share * fork.tube_diameter);
            let (end, upper) = (fork.tube_end.max(low[1] - 18.0), high[1] + 9.0);
            let is_near = end < upper && ahead <= high[0] + 18.0 && behind >= low[0] - 18.0;
            let tube: Vec<[Point; 2]> = of(&drawing, "cut-tube").into_iter().map(ends).collect();
            assert_eq!(tube.len(), if is_near { 3 } else { 0 });
            let expected =
                [([ahead, upper], [ahead, end]), ([ahead, end], [behind, end]), ([behind, end], [behind, upper])];
            for (found, (from, to)) in tube.iter().zip(expected) {
                assert!(distance(found[0], page(from)) < DRAWN && distance(found[1], page(to)) < DRAWN, "the tube");
            }
        }
    }
}

/// Width below, height on the left, hole to hole, and axle to each hole: each as long as it says, in letters that stand up.
#[test]
fn a_pieces_dimensions_are_as_long_as_they_say() {
    for setup in setups() {
        let (cut, sheet) = (pieces(&setup).unwrap(), cut_sheet(&setup, &CutOptions::default()).unwrap());
        for (piece, report) in cut.pieces.iter().zip(&sheet.pieces) {
            let drawing = read(&report.svg);
            let page = placed(&setup, piece);
            let [low, high] = piece.region.outer.bounds();
            let bolts: Vec<Point> =
                piece.holes.iter().filter(|hole| hole.name != "axle").map(|hole| hole.centre).collect();
            let ([left, foot], [right, top]) = {
                let (one, other) = (page(low), page(high));
                ([one[0].min(other[0]), one[1]], [one[0].max(other[0]), other[1]])
            };
            let mut expected = vec![
                ([[left, foot + 6.0], [right, foot + 6.0]], high[0] - low[0]),
                ([[left - 6.0, foot], [left - 6.0, top]], high[1] - low[1]),
            ];
            if let [a, b] = bolts[..] {
                let mut between = |from: Point, to: Point| expected.push(([page(from), page(to)], distance(from, to)));
                between(a, b);
                if piece.key != PieceKey::Tab {
                    between([0.0, 0.0], a);
                    between([0.0, 0.0], b);
                }
            }
            let lines: Vec<[Point; 2]> = of(&drawing, "cut-dimension").into_iter().map(ends).collect();
            let (texts, dots) = (of(&drawing, "cut-number"), of(&drawing, "cut-end"));
            assert_eq!((lines.len(), texts.len(), dots.len()), (expected.len(), expected.len(), 2 * expected.len()));
            for (index, (line, long)) in expected.iter().enumerate() {
                let found = lines[index];
                let same = |a: [Point; 2]| distance(a[0], line[0]) < DRAWN && distance(a[1], line[1]) < DRAWN;
                assert!(same(found) || same([found[1], found[0]]), "{:?}: {found:?} for {line:?}", piece.key);
                assert_eq!(texts[index].text, format!("{long:.1} mm"));
                let place = numbers(&texts[index].attributes["transform"]);
                let middle = [(line[0][0] + line[1][0]) / 2.0, (line[0][1] + line[1][1]) / 2.0];
                assert!(distance([place[0], place[1]], middle) < DRAWN, "the number is at the middle");
                assert!((-90.001..90.0).contains(&place[2]), "letters stand up: {}", place[2]);
                let way = (line[1][1] - line[0][1]).atan2(line[1][0] - line[0][0]).to_degrees();
                assert_near(
                    (way - place[2]).rem_euclid(180.0).min((place[2] - way).rem_euclid(180.0)),
                    0.0,
                    0.05,
                    "along",
                );
                assert_near(distance(texts[index].place(), middle), 1.2, DRAWN, "over the line");
                for (dot, end) in dots[2 * index..2 * index + 2].iter().zip(found) {
                    assert!(distance([dot.number("cx"), dot.number("cy")], end) < DRAWN, "a dot at each end");
                }
            }
            for line in of(&drawing, "cut-extension").into_iter().map(ends) {
                let long = distance(line[0], line[1]);
                assert!(long < DRAWN || (long - 6.0).abs() < DRAWN, "an extension of {long}");
                assert!(lines.iter().flatten().any(|end| distance(*end, line[1]) < DRAWN), "an extension to nowhere");
            }
            let [_, _, width, height] = drawing[0].view_box();
            let all: Vec<Point> = drawing.iter().filter(|one| !one.is("cut-tube")).flat_map(Element::points).collect();
            let [from, to, upper, lower] = bounds(&all);
            assert!(from > 0.0 && to < width && upper > 0.0 && lower < height, "all is on the page");
        }
    }
}

/// Posts are laid out elsewhere: that is said over the dropout that carries them, and nowhere else.
#[test]
fn the_dropout_of_posts_points_to_their_layout() {
    for mount in ["post", "side_lug"] {
        let setup = setup_with(&json!({"caliper": {"mount": mount, "bolt_direction": [0, -1, 0]}}));
        for piece in cut_sheet(&setup, &CutOptions::default()).unwrap().pieces {
            let is_said = read(&piece.svg).iter().any(|one| one.text.contains("see their layout"));
            assert_eq!(is_said, mount == "post" && piece.key == PieceKey::Dropout, "{mount}, {:?}", piece.key);
        }
    }
}
