//! What the views say and how large their pages are: the number of the gap that decides, headings, edges.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use tabwright_core::drawing::{View, draw};
use tabwright_core::fit::{CaliperFrame, Joint};
use tabwright_core::solid::Vector;
use tabwright_core::{Report, Side};
use tabwright_tests::svg::{Element, Point, reach, read};
use tabwright_tests::views::{DRAWN, page, setups};
use tabwright_tests::{assert_near, report_of};

/// A length as builders read it, without its unit.
fn written(value: f64) -> String {
    format!("{value:.1}").replace('-', "−")
}

fn binding(report: &Report) -> [Vector; 2] {
    let pair = report.pairs.iter().find(|pair| pair.name == report.binding).unwrap();
    pair.points.map(|[back, up, out]| Vector::new(back, up, out))
}

#[test]
fn the_gap_that_decides_is_drawn_between_its_two_points_with_its_number_and_both_parts_marked() {
    for setup in setups() {
        let report = report_of(&setup);
        let pair = report.pairs.iter().find(|pair| pair.name == report.binding).unwrap();
        for view in [View::Side, View::Section] {
            let drawing = read(&draw(&setup, view).unwrap());
            let page = page(&setup, view);
            let [from, to] =
                binding(&report).map(|point| page([point.x, if view == View::Side { point.y } else { point.z }]));
            let dimension =
                |class: &str| drawing.iter().filter(|one| one.class == class && one.kind != "text").collect();
            let lines: Vec<&Element> = dimension("dimension");
            let ends: Vec<&Element> = dimension("dimension end");
            let leader: Vec<&Element> = dimension("dimension leader");
            let [line] = lines[..] else { panic!("{} dimensions", lines.len()) };
            let [leader] = leader[..] else { panic!("{} leaders", leader.len()) };
            for (drawn, expected) in line.points().iter().zip([from, to]) {
                assert_near(drawn[0], expected[0], DRAWN, "the gap's end");
                assert_near(drawn[1], expected[1], DRAWN, "the gap's end");
            }
            for (end, expected) in ends.iter().zip([from, to]) {
                assert_near(end.number("cx"), expected[0], DRAWN, "the dot at the gap's end");
                assert_near(end.number("cy"), expected[1], DRAWN, "the dot at the gap's end");
            }
            let text = drawing.iter().find(|one| one.kind == "text" && one.class == "dimension").unwrap();
            assert_eq!(text.text, written(pair.gap) + " mm", "{view:?}");
            // The leader goes from the gap's middle to where the number begins if set wide, a third up its height.
            let [start, end] = leader.points()[..] else { panic!("a leader is a line") };
            let middle = [(from[0] + to[0]) / 2.0, (from[1] + to[1]) / 2.0];
            assert_near(start[0], middle[0], DRAWN, "the leader's start");
            assert_near(start[1], middle[1], DRAWN, "the leader's start");
            let (size, [x, y]) = (text.number("font-size"), text.place());
            let (wide, is_left) = (0.85 * size * text.text.chars().count() as f64, x < 0.0);
            assert_eq!(text.attributes["text-anchor"], if is_left { "start" } else { "end" });
            assert_near(end[0], if is_left { x + wide } else { x - wide }, DRAWN, "the leader's end");
            assert_near(end[1], y - size / 3.0, DRAWN, "the leader's end");
            // Beside the tube, it stands across the tube from the caliper; further out, in its own side's upper corner,
            // at the left below the heading. In the section it stands on its own side, lower than the gap.
            let [left, top, width, _] = drawing[0].view_box();
            let pads = page([CaliperFrame::of(&setup).origin.x, 0.0])[0];
            let is_beside = view == View::Side
                && middle[0].abs() < pads.abs()
                && (middle[0] - pads).abs() > setup.caliper.pad.length / 2.0;
            let is_ahead_or_behind = middle[0].abs() > DRAWN;
            let belongs_left = (middle[0] < 0.0) != is_beside;
            assert!(!is_ahead_or_behind || is_left == belongs_left, "{view:?}: {middle:?}, pads at {pads}");
            assert_near(x, if is_left { left + 4.0 } else { left + width - 4.0 }, DRAWN, "at the page's edge");
            let above = match view {
                View::Section => middle[1] + 16.0,
                View::Side if is_beside => middle[1],
                View::Side => top + if is_left { 26.0 } else { 14.0 },
            };
            assert_near(y, above - 1.5, DRAWN, &format!("{view:?}: the number's foot"));
            for (title, names) in [
                ("Rotor", vec!["rotor"]),
                ("Dropout", vec!["dropout eye", "dropout neck"]),
                ("Tab", vec!["tab", "tab web"]),
                ("Axle nut", vec!["nut"]),
                ("Fork tube", vec!["tube"]),
                ("Line, leaving", vec!["line"]),
                ("Caliper: ", setup.caliper.bodies.iter().map(|body| body.name.as_str()).collect()),
            ] {
                let is_marked = |one: &&Element| one.is("binding") && one.title.starts_with(title);
                let binding = pair.parts.iter().filter(|part| names.contains(&part.as_str())).count();
                assert_eq!(drawing.iter().filter(is_marked).count(), binding, "{view:?}: {title}, {:?}", pair.parts);
            }
        }
    }
}

/// Whether a page may end there: it grows in steps of 20 mm, and is written in thousandths.
fn is_step(edge: f64) -> bool {
    (edge / 20.0 - (edge / 20.0).round()).abs() < 1e-4
}

/// The page is as large as what it shows, in steps, with a free edge; both views are equally wide.
#[test]
fn the_page_holds_rotor_and_caliper_with_an_edge_and_no_more_than_a_step_of_room() {
    for setup in setups() {
        let [side, section] = [View::Side, View::Section].map(|view| read(&draw(&setup, view).unwrap()));
        let shown = |drawing: &[Element]| -> Vec<Point> {
            drawing.iter().filter(|one| one.is("caliper") || one.is("rotor")).flat_map(Element::points).collect()
        };
        let (points, [left, top, width, height]) = (shown(&side), side[0].view_box());
        assert_near(left + width, -left, 1e-9, "the axle is in the middle");
        let room = |turns: f64, edge: f64, least: f64, what: &str| {
            let room = edge - reach(&points, turns);
            let most = if edge <= least { f64::MAX } else { 28.0 + DRAWN };
            assert!((8.0 - DRAWN..=most).contains(&room), "{what}: {room} free of {edge}");
        };
        room(0.0, -left, 1e9, "across");
        let widest = reach(&points, 0.0).max(reach(&points, 0.5));
        assert!(-left <= 120.0 || -left <= widest + 28.0 + DRAWN, "{left} for {widest}");
        room(0.75, -top, 150.0, "above");
        room(0.25, top + height, 0.0, "below");
        for (edge, least) in [(-left, 120.0), (-top, 150.0), (top + height, 0.0)] {
            assert!(edge == least || is_step(edge), "{edge} is no step of the page");
        }
        let [at, high, across, tall] = section[0].view_box();
        assert_eq!((at, across), (left, width), "the views are equally wide");
        let calipers: Vec<Point> = section.iter().filter(|one| one.is("caliper")).flat_map(Element::points).collect();
        assert_near(-high, (reach(&calipers, 0.75) + 8.0).max(14.0), DRAWN, "inboard");
        let everything: Vec<Point> = section
            .iter()
            .filter(|one| ["caliper", "tube", "nut"].iter().any(|class| one.is(class)))
            .flat_map(Element::points)
            .collect();
        let free = high + tall - reach(&everything, 0.25);
        assert!((8.0 - DRAWN..28.0 + DRAWN).contains(&free), "{free} free below");
        assert!(is_step(high + tall), "{high} and {tall}: no step of the page");
    }
}

#[test]
fn words_stand_at_their_edge_of_the_page_and_never_over_each_other() {
    for setup in setups() {
        for view in [View::Side, View::Section] {
            let drawing = read(&draw(&setup, view).unwrap());
            let [left, top, width, height] = drawing[0].view_box();
            let (right, foot) = (left + width, top + height);
            let texts: Vec<&Element> = drawing.iter().filter(|one| one.kind == "text").collect();
            for (index, text) in texts.iter().enumerate() {
                let [from, to, high, low] = text.text_box();
                let inside = from >= left && to <= right && high >= top && low <= foot;
                assert!(inside, "{view:?}: \"{}\" leaves the page", text.text);
                for other in &texts[..index] {
                    let [other_from, other_to, other_high, other_low] = other.text_box();
                    let apart = to < other_from || other_to < from || low < other_high || other_low < high;
                    assert!(apart, "{view:?}: \"{}\" over \"{}\"", text.text, other.text);
                }
            }
            let find = |words: &str| texts.iter().find(|text| text.text.starts_with(words)).map(|text| text.text_box());
            let near = |value: f64, edge: f64, what: &str| assert_near((value - edge).abs(), 4.0, DRAWN, what);
            let heading = find(if view == View::Side { "Side view: " } else { "Section: " }).unwrap();
            near(heading[0], left, "heading");
            assert_near(heading[3] - top, 11.0, DRAWN, "heading");
            if view == View::Side {
                let (ahead, behind) = (find("ahead").unwrap(), find("behind").unwrap());
                let (on_left, on_right) = if setup.side == Side::Left { (ahead, behind) } else { (behind, ahead) };
                near(on_left[0], left, "the word on the left");
                near(on_right[1], right, "the word on the right");
                near(ahead[3], foot, "ahead");
                near(behind[3], foot, "behind");
            } else {
                let (middle, outboard) = (find("middle of the wheel").unwrap(), find("outboard").unwrap());
                near(middle[1], right, "middle of the wheel");
                assert_near(middle[3], -2.0, DRAWN, "the words stand over the wheel's middle");
                near(outboard[0], left, "outboard");
                near(outboard[3], foot, "outboard");
                let recess = report_of(&setup).recess;
                let words = match recess.kind {
                    Joint::Lap => None,
                    Joint::Short => find(&format!("{} mm short of the tube", written(-recess.value))),
                    _ => find(&format!("recess {} mm", written(recess.value))),
                };
                assert_eq!(words.is_some(), recess.kind != Joint::Lap, "{recess:?}");
                if let Some(words) = words {
                    near(words[1], right, "recess");
                    near(words[3], foot, "recess");
                }
            }
        }
    }
}
