//! Drawings of answers read back: the stack by its lengths, the tacked part by its errors.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::build::{AsBuilt, designed_readings, stack, tack_check};
use tabwright_core::drawing::{draw_stack, draw_tack};
use tabwright_core::fit::{CaliperFrame, Parts};
use tabwright_core::solid::{Disc, Solid};
use tabwright_core::{Setup, Side};
use tabwright_tests::plates::distance;
use tabwright_tests::svg::{Element, Point, area, convex, reach, read};
use tabwright_tests::{assert_near, setup_with};

const DRAWN: f64 = 0.03;
/// One number alone is rounded to hundredths, and a length from one to another to as much again.
const ROUNDED: f64 = 0.011;

fn only<'a>(drawing: &'a [Element], class: &str) -> &'a Element {
    let mut found = drawing.iter().filter(|one| one.class == class);
    let first = found.next().unwrap_or_else(|| panic!("no {class}"));
    assert!(found.next().is_none(), "more than one {class}");
    first
}

/// One scale for all bars; pieces of the worst case lie end to end from the slot on either side.
#[test]
fn the_stack_is_drawn_to_scale() {
    let nought = json!({"hub_width": 0, "rotor_inset": 0, "plate": 0, "tab_offset": 0, "mount_depth": 0, "runout": 0, "tab_tilt": 0});
    let exact = json!({"tab": {"offset": 0.03}, "caliper": {"lateral_adjust": 0}, "tolerance": nought});
    for changes in [
        json!({}),
        json!({"tab": {"offset": 1.2}}),
        json!({"tab": {"offset": -0.7}, "caliper": {"lateral_adjust": 6}}),
        exact,
    ] {
        let setup = setup_with(&changes);
        let found = stack(&setup);
        let drawing = read(&draw_stack(&found));
        let rect = |one: &Element| [one.number("x"), one.number("x") + one.number("width")];
        // The longest bar, or a tenth of a millimetre, fills 95 of 100 of either half of the bars' 150 mm.
        let farthest = (found.misalignment.abs() + found.worst).max(found.adjust).max(0.1);
        let scale = 0.95 * 150.0 / farthest;
        let assert_bar = |drawn: [f64; 2], ends: [f64; 2], what: &str| {
            for (drawn, end) in drawn.into_iter().zip(ends) {
                assert_near(drawn, scale * end, ROUNDED, what);
            }
        };
        assert_bar(rect(only(&drawing, "adjustment")), [-found.adjust, found.adjust], "adjustment");
        assert_bar(rect(only(&drawing, "rss")), found.ranges.rss, "rss");
        // End to end from the slot outward, the largest first.
        let mut effects: Vec<(f64, String)> = found
            .contributions
            .iter()
            .filter(|one| one.effect > 0.0)
            .map(|one| (one.effect, format!("{} {:.2} mm", one.label, one.effect)))
            .collect();
        effects.sort_by(|a, b| b.0.total_cmp(&a.0));
        let worst: Vec<&Element> = drawing.iter().filter(|one| one.class == "worst").collect();
        assert_eq!(worst.len(), 2 * effects.len());
        let mut reached = 0.0;
        for (pair, (effect, title)) in worst.chunks(2).zip(effects) {
            for (one, way) in pair.iter().zip([1.0, -1.0]) {
                let ends = [reached, reached + effect].map(|off| found.misalignment + way * off);
                assert_bar(rect(one), [ends[0].min(ends[1]), ends[0].max(ends[1])], &title);
                assert_eq!(one.title, title);
            }
            reached += effect;
        }
        assert_near(reached, found.worst, 1e-9, "the worst case is all of them");
        let slot = scale * found.misalignment;
        let line = |class: &str| only(&drawing, class).points();
        assert!(line("rotor").iter().all(|point| point[0] == 0.0));
        assert!(line("slot").iter().all(|point| (point[0] - slot).abs() < ROUNDED), "the slot");
        // Edges of 10 beside the bars, and all of it on the page.
        let [left, top, width, height] = drawing[0].view_box();
        assert_near(width, 2.0 * (150.0 + 10.0), 1e-9, "the edges");
        assert_near(left, -width / 2.0, 1e-9, "the middle");
        let texts: Vec<[f64; 4]> = drawing.iter().filter(|one| one.kind == "text").map(Element::text_box).collect();
        for (index, text) in texts.iter().enumerate() {
            assert!(
                text[0] >= left && text[1] <= left + width && text[2] >= top && text[3] <= top + height,
                "{text:?}"
            );
            let free = |other: &[f64; 4]| {
                text[1] < other[0] || other[1] < text[0] || text[3] <= other[2] || other[3] <= text[2]
            };
            assert!(texts[..index].iter().all(free), "words over each other");
            for bar in drawing.iter().filter(|one| one.kind == "rect") {
                let (upper, lower) = (bar.number("y"), bar.number("y") + bar.number("height"));
                assert!(text[3] <= upper || text[2] >= lower, "words over a bar");
            }
        }
        // Three rows, their words over their bars; the way outboard below.
        let text = |start: &str| drawing.iter().find(|one| one.text.starts_with(start)).unwrap();
        for (index, class, start, number) in [
            (0.0, "adjustment", "Caliper adjusts by", found.adjust),
            (1.0, "worst", "Worst case", found.worst),
            (2.0, "rss", "Root sum of squares", found.rss),
        ] {
            assert_eq!(text(start).text, format!("{start} ±{number:.2} mm"));
            assert_eq!(text(start).place(), [-150.0, 30.0 * index - 3.0], "{start}");
            for row in drawing.iter().filter(|one| one.class == class) {
                assert_eq!((row.number("y"), row.number("height")), (30.0 * index, 12.0));
            }
        }
        for (word, x, anchor) in [("inboard", -150.0, "start"), ("rotor", 0.0, "middle"), ("outboard", 150.0, "end")] {
            assert_eq!((text(word).place()[0], text(word).attributes["text-anchor"].as_str()), (x, anchor));
            assert_near(top + height - text(word).place()[1], 6.0, 1e-9, word);
        }
        let upright = only(&drawing, "rotor").points();
        let bars: Vec<Point> = drawing.iter().filter(|one| one.kind == "rect").flat_map(Element::points).collect();
        assert_near(reach(&upright, 0.25) - reach(&bars, 0.25), 4.0, 1e-9, "the rotor below the bars");
        assert_near(reach(&upright, 0.75) - reach(&bars, 0.75), 2.0, 1e-9, "and above them");
    }
}

/// The part of a setup whose readings to the two holes are off by so much, spacing and levels perfect.
fn built(side: Side, first: f64, second: f64) -> (Setup, AsBuilt) {
    let mut setup = Setup { side, ..setup_with(&json!({"fork": {"axle_offset": 5}})) };
    let [hole_1, hole_2, spacing, _, _, step_1, step_2, rotor, _] = designed_readings(&setup).unwrap();
    let before = &mut setup.tack.before;
    (before.hole_1, before.hole_2) = (vec![hole_1 + first], vec![hole_2 + second]);
    (before.spacing, before.rotor) = (vec![spacing], vec![rotor]);
    (before.step_1, before.step_2) = (vec![step_1], vec![step_2]);
    let built = tack_check(&setup).unwrap().before.as_built.unwrap();
    (setup, built)
}

#[test]
fn a_tacked_part_is_drawn_with_its_errors_enlarged() {
    for (side, first, second, most) in [
        (Side::Left, 0.05, -0.1, 50.0),
        (Side::Right, 0.4, -0.3, 20.0),
        (Side::Left, 1.2, 0.8, 10.0),
        (Side::Right, 2.5, 2.0, 5.0),
        (Side::Left, 3.5, -3.0, 2.0),
        (Side::Right, 8.0, -9.0, 1.0),
    ] {
        let (setup, built) = built(side, first, second);
        let drawing = read(&draw_tack(&setup, &built));
        let scale = drawing[0].number("data-enlarged");
        let off = built.holes.iter().map(|hole| hole.off.distance + hole.ellipse.major).fold(0.0, f64::max);
        // As large as keeps the largest error within 15 mm of the page.
        let largest = [50.0, 20.0, 10.0, 5.0, 2.0].into_iter().find(|times| times * off <= 15.0).unwrap_or(1.0);
        assert!(scale == largest && scale <= most, "{scale} times {off}");
        let words = drawing.iter().find(|one| one.text.starts_with("errors")).unwrap();
        let told = if scale == 1.0 { "errors as they are" } else { &format!("errors {scale} times as large") };
        assert_eq!(words.text, told);
        assert_eq!(drawing[0].title, format!("Holes and pads as designed and as built, {told}"));
        let page = |[back, up]: Point| [if setup.side == Side::Left { back } else { -back }, -up];
        let all = |class: &str| -> Vec<&Element> { drawing.iter().filter(|one| one.class == class).collect() };
        let centre = |one: &Element| [one.number("cx"), one.number("cy")];
        let (designed, as_built) = (all("designed hole"), all("built hole"));
        let (offs, ellipses) = (all("hole-off"), all("ellipse"));
        for (index, hole) in built.holes.iter().enumerate() {
            let enlarged = |[back, up]: Point| {
                let [from_back, from_up] = hole.designed;
                page([from_back + scale * (back - from_back), from_up + scale * (up - from_up)])
            };
            let (here, there) = (page(hole.designed), enlarged([hole.back, hole.up]));
            assert_near(distance(centre(designed[index]), here), 0.0, DRAWN, "designed hole");
            assert_near(distance(centre(as_built[index]), there), 0.0, DRAWN, "built hole");
            assert_eq!(designed[index].number("r"), as_built[index].number("r"));
            let line = offs[index].points();
            assert!(distance(line[0], here) < DRAWN && distance(line[1], there) < DRAWN, "from hole to hole");
            let outline = ellipses[index].points();
            let expected: Vec<Point> = hole.ellipse.outline.iter().map(|point| enlarged(*point)).collect();
            for (drawn, expected) in outline.iter().zip(&expected) {
                assert_near(distance(*drawn, *expected), 0.0, DRAWN, "ellipse");
            }
            let number = all("label").into_iter().find(|one| one.text == (index + 1).to_string()).unwrap();
            let [x, y] = number.place();
            assert_near(x, here[0], DRAWN, "a number is over its hole");
            assert_near(here[1] - designed[index].number("r") - y, 6.0, DRAWN, "by the height of its letters");
        }
        assert_near(designed[0].number("r"), 3.3, 0.001, "ISO 273, medium, for M6");
        let slot = only(&drawing, "hole").points();
        let [across, up] = [reach(&slot, 0.0) + reach(&slot, 0.5), reach(&slot, 0.75)];
        assert!((across - 9.5).abs() < DRAWN && (up - 4.75).abs() < DRAWN, "the slot is straight down");
        assert_near(reach(&slot, 0.25), 20.0 + 9.5, DRAWN, "the slot's mouth is beyond the eye");
        // The pads are the caliper's: as built they are moved as the holes are, without being bent.
        let frame = CaliperFrame::of(&setup);
        let pad = &setup.caliper.pad;
        let corner = |cw: f64, rad: f64| {
            let point = frame.point([cw * pad.length / 2.0, rad * pad.height / 2.0, 0.0]);
            page([point.x, point.y])
        };
        let corners = [corner(-1.0, -1.0), corner(1.0, -1.0), corner(1.0, 1.0), corner(-1.0, 1.0)];
        let (pads, moved) = (only(&drawing, "designed pad").points(), only(&drawing, "built pad").points());
        for (drawn, expected) in pads.iter().zip(corners) {
            assert_near(distance(*drawn, expected), 0.0, DRAWN, "pad as designed");
        }
        let middle = |holes: &[&Element]| {
            let [a, b] = [centre(holes[0]), centre(holes[1])];
            [(a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0]
        };
        let along = |holes: &[&Element]| {
            let ([x, y], [to_x, to_y]) = (centre(holes[0]), centre(holes[1]));
            let long = (to_x - x).hypot(to_y - y);
            [(to_x - x) / long, (to_y - y) / long]
        };
        let seen_from = |holes: &[&Element], point: Point| {
            let ([x, y], [cos, sin]) = (middle(holes), along(holes));
            let (dx, dy) = (point[0] - x, point[1] - y);
            [dx * cos + dy * sin, dy * cos - dx * sin]
        };
        for (was, is) in pads.iter().zip(&moved) {
            let apart = distance(seen_from(&designed, *was), seen_from(&as_built, *is));
            assert_near(apart, 0.0, 0.06, "the pads keep their place between the holes");
        }
        // What is behind is where it is.
        let parts = Parts::of(&setup);
        let discs = |solid: &Solid| match solid {
            Solid::Slab(slab) => slab.discs.clone(),
            Solid::Spool(_) => panic!("the plate is made of slabs"),
        };
        let radius = setup.wheel.rotor_diameter / 2.0;
        let (fork, half) = (&setup.fork, setup.fork.tube_diameter / 2.0);
        let [left, right] = [fork.axle_offset - half, fork.axle_offset + half];
        let end = fork.tube_end;
        let tube =
            [[left, end], [right, end], [right, end + 300.0], [left, end + 300.0]].map(|[x, y]| Disc::new(x, y, 0.0));
        let shapes = [
            ("rotor", 0, vec![Disc::new(0.0, 0.0, radius)]),
            ("plate", 0, discs(&parts.eye.solid)),
            ("plate", 1, discs(&parts.neck.solid)),
            ("tube", 0, tube.to_vec()),
        ];
        for (class, index, discs) in shapes {
            let drawn = all(class)[index].points();
            let rim = |disc: &Disc| -> Vec<Point> {
                let at = |step: u32| f64::from(step).to_radians().sin_cos();
                (0..360)
                    .map(at)
                    .map(|(sin, cos)| page([disc.back + disc.radius * cos, disc.up + disc.radius * sin]))
                    .collect()
            };
            let expected: Vec<Point> = discs.iter().flat_map(rim).collect();
            for turn in 0..36 {
                let turns = f64::from(turn) / 36.0;
                assert_near(reach(&drawn, turns), reach(&expected, turns), 0.06, class);
            }
            assert_near(area(&drawn), area(&convex(&expected)), 0.004 * area(&drawn), class);
        }
        let band = only(&drawing, "band").lines();
        assert_near(reach(&band[0], 0.0) - reach(&band[1], 0.0), setup.wheel.track_width, DRAWN, "braking band");
        // The page holds pads, holes and ellipses with an edge of 24 mm, and its words.
        let [x, y, width, height] = drawing[0].view_box();
        let of_interest = ["designed pad", "built pad", "ellipse", "hole-off"];
        let points: Vec<Point> = of_interest.iter().flat_map(|class| all(class)).flat_map(Element::points).collect();
        for (turns, edge) in [(0.5, -x), (0.75, -y), (0.0, x + width), (0.25, y + height)] {
            assert_near(edge - reach(&points, turns), 24.0, 0.05, "free edge");
        }
        let [from, to, top, foot] = words.text_box();
        assert!(to < x + width && top > y, "the scale's words are on the page");
        assert_near(from - x, 3.0, DRAWN, "the scale's words");
        assert_near(foot - y, 9.0, DRAWN, "the scale's words");
    }
}
