//! Drawings of answers read back: the ring by its angles, the stack by its lengths, the tacked part by its errors.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::build::{AsBuilt, designed_readings, stack, tack_check};
use tabwright_core::drawing::{draw_ring, draw_stack, draw_tack};
use tabwright_core::fit::{CaliperFrame, Parts};
use tabwright_core::search::{Arc, Stretch, ring};
use tabwright_core::solid::{Disc, Solid};
use tabwright_core::{Setup, Side, Verdict};
use tabwright_tests::svg::{Element, Point, area, convex, numbers, reach, read};
use tabwright_tests::{assert_near, setup_with};

const DRAWN: f64 = 0.03;

fn only<'a>(drawing: &'a [Element], class: &str) -> &'a Element {
    let mut found = drawing.iter().filter(|one| one.class == class);
    let first = found.next().unwrap_or_else(|| panic!("no {class}"));
    assert!(found.next().is_none(), "more than one {class}");
    first
}

fn distance(a: Point, b: Point) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// The clock angle of a point of the page about the axle.
fn clock(setup: &Setup, [x, y]: Point) -> f64 {
    let back = if setup.side == Side::Left { x } else { -x };
    back.atan2(-y).to_degrees()
}

/// Degrees from one clock angle to another, in [0, 360).
fn onward(from: f64, to: f64) -> f64 {
    (to - from).rem_euclid(360.0)
}

fn ring_setups() -> Vec<Setup> {
    [
        json!({}),
        json!({"side": "right", "fork": {"axle_offset": 25}}),
        json!({"dropout": {"slot_direction": 120}, "wheel": {"rotor_diameter": 180}}),
        json!({"dropout": {"closed": true}, "required": {"tube": 40}}),
        json!({"fork": {"tube_end": 5, "axle_offset": -30}, "caliper": {"line": {"direction": [0, 1, 0]}}}),
    ]
    .iter()
    .map(setup_with)
    .collect()
}

/// Each arc of the band has the colour of its stretch, and thin arcs lie where a rule is broken and nowhere else.
#[test]
fn the_ring_is_painted_by_its_stretches_and_rules() {
    for setup in ring_setups() {
        let found = ring(&setup).unwrap();
        let drawing = read(&draw_ring(&setup, &found));
        let band = only(&drawing, "ring-band");
        let (radius, width) = (band.number("data-radius"), band.number("stroke-width"));
        let flange = setup.wheel.flange_diameter / 2.0;
        let braked = setup.wheel.rotor_diameter / 2.0 - setup.wheel.track_width;
        assert_near(radius, (flange + braked) / 2.0, DRAWN, "halfway between flange and braking band");
        let arcs = |class: &str| -> Vec<Vec<Point>> {
            drawing.iter().filter(|one| one.class == class).map(Element::points).collect()
        };
        let covers = |arcs: &[Vec<Point>], angle: f64| {
            let within = |arc: &Vec<Point>| {
                let (from, to) = (clock(&setup, arc[0]), clock(&setup, arc[arc.len() - 1]));
                // An arc goes on from its first point to its last the way its middle lies.
                let middle = clock(&setup, arc[arc.len() / 2]);
                assert!(onward(from, middle) <= onward(from, to), "an arc runs in the way of growing angles");
                onward(from, angle) <= onward(from, to)
            };
            arcs.iter().filter(|arc| within(arc)).count()
        };
        let is_clear_of =
            |ends: &[f64], angle: f64| ends.iter().all(|end| onward(*end, angle).min(onward(angle, *end)) > 0.3);
        let bands = ["clears", "tight", "hits"].map(|word| arcs(&format!("ring {word}")));
        for arc in bands.iter().flatten() {
            assert!(arc.iter().all(|point| (distance(*point, [0.0; 2]) - radius).abs() < 0.3), "off the band");
        }
        let ends: Vec<f64> = found.stretches.iter().flat_map(|stretch| [stretch.from, stretch.to]).collect();
        let holding = |angle: f64| found.stretches.iter().find(|one: &&Stretch| one.from <= angle && angle <= one.to);
        let beyond = |kept: &[Arc], angle: f64| !kept.iter().any(|arc| onward(arc.from, angle) <= arc.width);
        let [no_line, no_wheel] = [arcs("rule line"), arcs("rule wheel")];
        for step in 0..720 {
            let angle = f64::from(step) * 0.5 - 179.9;
            if let Some(stretch) = holding(angle).filter(|_| is_clear_of(&ends, angle)) {
                let seen = bands.each_ref().map(|arcs| covers(arcs, angle));
                let expected = match stretch.verdict {
                    Verdict::Clears => [1, 0, 0],
                    Verdict::Tight => [0, 1, 0],
                    Verdict::Hits => [0, 0, 1],
                };
                assert_eq!(seen, expected, "at {angle}");
            }
            for (rule, kept) in [(&no_line, &found.line_up), (&no_wheel, &found.wheel_out)] {
                let ends: Vec<f64> = kept.iter().flat_map(|arc| [arc.from, arc.from + arc.width]).collect();
                if is_clear_of(&ends, angle) && is_clear_of(&[180.0, -180.0], angle) {
                    assert_eq!(covers(rule, angle) == 1, beyond(kept, angle), "a rule at {angle}");
                }
            }
        }
        // The rules' arcs lie outside the band and beside each other.
        let [line, wheel] = [&no_line, &no_wheel].map(|arcs| arcs.first().map(|arc| distance(arc[0], [0.0; 2])));
        for rule in [line, wheel].into_iter().flatten() {
            assert!(rule > radius + width / 2.0 + 1.0 && rule < radius + 2.0 * width, "{rule} beside {radius}");
        }
        if let (Some(line), Some(wheel)) = (line, wheel) {
            assert!(wheel - line > 3.0, "{line} and {wheel}");
        }
        let [left, top, wide, high] = drawing[0].view_box();
        assert!(left == top && wide == high && left + wide == -left, "the axle is in the middle");
        let most = wheel.or(line).unwrap_or(radius + width / 2.0);
        assert!(-left > most + 1.0 && -left < radius + 3.0 * width, "{left} for {most}");
    }
}

/// A word stands inside the band, halfway along a stretch that it tells and that has room for it.
#[test]
fn words_on_the_ring_tell_the_stretch_they_stand_at() {
    let mut told = 0;
    for setup in ring_setups() {
        let found = ring(&setup).unwrap();
        let drawing = read(&draw_ring(&setup, &found));
        let radius = only(&drawing, "ring-band").number("data-radius");
        for word in drawing.iter().filter(|one| one.kind == "text") {
            let [left, right, top, foot] = word.text_box();
            let middle = [(left + right) / 2.0, (top + foot) / 2.0];
            let from_axle = distance(middle, [0.0; 2]);
            assert!((6.0..14.0).contains(&(radius - from_axle)), "{} at {from_axle} of {radius}", word.text);
            let at = clock(&setup, middle);
            let stretch = found.stretches.iter().find(|one| one.from <= at && at <= one.to).unwrap();
            let verdict = format!("{:?}", stretch.verdict).to_lowercase();
            assert_eq!(word.text, verdict, "at {at}");
            told += 1;
        }
        let titles: Vec<&Element> = drawing.iter().filter(|one| one.class.starts_with("ring ")).collect();
        for arc in titles {
            let points = arc.points();
            let [from, to] = [clock(&setup, points[0]), clock(&setup, points[points.len() - 1])];
            let given = numbers(&arc.title.replace('−', "-"));
            assert_near(onward(given[0], from).min(onward(from, given[0])), 0.0, 0.7, &arc.title);
            if distance(points[0], points[points.len() - 1]) > 0.5 {
                assert_near(onward(given[1], to).min(onward(to, given[1])), 0.0, 0.7, &arc.title);
            }
            // The margin told is the least of its stretches; arcs of a degree or two have rounded ends.
            if points.len() < 6 {
                continue;
            }
            let inside = |one: &&Stretch| onward(from, (one.from + one.to) / 2.0) <= onward(from, to);
            let least = found.stretches.iter().filter(inside).map(|one| one.margin).fold(f64::MAX, f64::min);
            assert!(arc.title.contains(&format!("{:.1} mm", least.abs())), "{}: {least}", arc.title);
        }
    }
    assert!(told >= 8, "{told} words");
}

/// One scale for all bars; pieces of the worst case lie end to end from the slot on either side.
#[test]
fn the_stack_is_drawn_to_scale() {
    for changes in
        [json!({}), json!({"tab": {"offset": 1.2}}), json!({"tab": {"offset": -0.7}, "caliper": {"lateral_adjust": 6}})]
    {
        let setup = setup_with(&changes);
        let found = stack(&setup);
        let drawing = read(&draw_stack(&found));
        let rect = |one: &Element| [one.number("x"), one.number("x") + one.number("width")];
        let [from, to] = rect(only(&drawing, "adjustment"));
        let scale = (to - from) / (2.0 * found.adjust);
        assert_near(from, -to, 0.02, "the rotor is in the middle");
        let [from, to] = rect(only(&drawing, "rss"));
        assert_near(from, scale * found.ranges.rss[0], DRAWN * 2.0, "rss");
        assert_near(to, scale * found.ranges.rss[1], DRAWN * 2.0, "rss");
        let mut ends: Vec<[f64; 2]> = drawing.iter().filter(|one| one.class == "worst").map(rect).collect();
        assert_eq!(ends.len(), 2 * found.contributions.iter().filter(|one| one.effect > 0.0).count());
        ends.sort_by(|a, b| a[0].total_cmp(&b[0]));
        assert!(ends.windows(2).all(|pair| (pair[0][1] - pair[1][0]).abs() < 0.05), "end to end: {ends:?}");
        assert_near(ends[0][0], scale * (found.misalignment - found.worst), 0.1, "worst case");
        assert_near(ends[ends.len() - 1][1], scale * (found.misalignment + found.worst), 0.1, "worst case");
        // The largest is next to the slot.
        let slot = scale * found.misalignment;
        let outward: Vec<f64> = ends.iter().filter(|one| one[0] > slot - 0.05).map(|one| one[1] - one[0]).collect();
        assert!(outward.windows(2).all(|pair| pair[0] >= pair[1] - 0.05), "{outward:?}");
        let line = |class: &str| only(&drawing, class).points();
        assert!(line("rotor").iter().all(|point| point[0] == 0.0));
        assert!(line("slot").iter().all(|point| (point[0] - slot).abs() < DRAWN * 2.0), "the slot");
        // The longest bar fills 95 of 100 of the page inside its edges of 10, and all of it is on the page.
        let [left, top, width, height] = drawing[0].view_box();
        let shown: Vec<Point> = drawing.iter().flat_map(Element::points).collect();
        let most = reach(&shown, 0.0).max(reach(&shown, 0.5));
        assert_near(most, 0.95 * (width / 2.0 - 10.0), 0.1, "the longest bar");
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
        let upright = only(&drawing, "rotor").points();
        let bars: Vec<Point> = drawing.iter().filter(|one| one.kind == "rect").flat_map(Element::points).collect();
        assert!(reach(&upright, 0.25) > reach(&bars, 0.25) && reach(&upright, 0.75) > reach(&bars, 0.75));
        let rows: Vec<f64> = ["adjustment", "rss"].map(|class| only(&drawing, class).number("y")).to_vec();
        let worst = drawing.iter().find(|one| one.class == "worst").unwrap().number("y");
        assert!(rows[0] < worst && worst < rows[1], "in the order of their words");
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
    ] {
        let (setup, built) = built(side, first, second);
        let drawing = read(&draw_tack(&setup, &built));
        let scale = drawing[0].number("data-enlarged");
        assert!(scale >= 1.0 && scale <= most, "{scale} times");
        let off = built.holes.iter().map(|hole| hole.off.distance + hole.ellipse.major).fold(0.0, f64::max);
        assert!(scale == 1.0 || off * scale <= 15.0, "{scale} times {off}");
        let words = drawing.iter().find(|one| one.text.starts_with("errors")).unwrap();
        assert!(if scale == 1.0 {
            words.text == "errors as they are"
        } else {
            words.text.contains(&format!("{scale}"))
        });
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
            assert!(
                (x - here[0]).abs() < DRAWN && y < here[1] - designed[index].number("r"),
                "the number is above its hole"
            );
            assert!(here[1] - y < 12.0, "and near it");
        }
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
        assert!(from - x < 6.0 && from > x && to < x + width && top > y && foot < y + 12.0, "the scale's words");
    }
}
