//! Rings read back, made by hand and found: arcs by their clock angles, words and titles by their stretches.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::drawing::draw_ring;
use tabwright_core::search::{Arc, Ring, Stretch, Window, ring};
use tabwright_core::{Setup, Side, Verdict};
use tabwright_tests::plates::{distance, ends, of};
use tabwright_tests::svg::{Element, Point, numbers, read};
use tabwright_tests::{assert_near, setup_with};

/// Numbers in drawings are rounded to hundredths.
const DRAWN: f64 = 0.015;
/// Halfway between the default's flange and braking band: of 29 and 101.5 - 16.
const RADIUS: f64 = (29.0 + 85.5) / 2.0;

const fn stretch(from: f64, to: f64, verdict: Verdict, binding: &'static str, margin: f64) -> Stretch {
    Stretch { from, to, verdict, binding, margin }
}

fn made(stretches: Vec<Stretch>, windows: usize, line_up: Vec<Arc>, wheel_out: Vec<Arc>) -> Ring {
    let window = Window { arc: Arc { from: -80.0, width: 20.0 }, best: -70.0, margin: 1.0, binding: "caliper/tube" };
    Ring { stretches, windows: vec![window; windows], line_up, wheel_out, buildable: true }
}

/// Two hits that meet at the turn's end, two clear stretches side by side, one too short for a word.
fn five_runs() -> Ring {
    use Verdict::{Clears, Hits, Tight};
    let stretches = vec![
        stretch(-180.0, -151.0, Hits, "caliper/tube", -4.2),
        stretch(-151.0, -100.0, Tight, "caliper/spokes", -0.7),
        stretch(-100.0, -83.0, Clears, "rotor/throat", 5.1),
        stretch(-83.0, -56.0, Clears, "tool/tube", 2.3),
        stretch(-56.0, 97.0, Hits, "caliper/plate", -9.9),
        stretch(97.0, 120.0, Clears, "line/rotor", 1.2),
        stretch(120.0, 142.0, Hits, "caliper/nut", -1.5),
        stretch(142.0, 180.0, Hits, "line/tube", -0.9),
    ];
    let line_up = vec![Arc { from: -60.0, width: 120.0 }];
    made(stretches, 2, line_up, vec![Arc { from: 170.0, width: 30.0 }])
}

/// A place at a clock angle about the axle, on the page.
fn place(side: Side, clock: f64, radius: f64) -> Point {
    let (sin, cos) = clock.to_radians().sin_cos();
    [radius * if side == Side::Left { sin } else { -sin }, -radius * cos]
}

/// Fails unless an arc goes round the axle at a radius from one clock angle to another, in the way of growing angles.
fn assert_arc(arc: &Element, side: Side, radius: f64, [from, to]: [f64; 2]) {
    let (points, what) = (arc.points(), format!("{}, {side:?}", arc.title));
    let [start, end] = ends(arc);
    assert_near(distance(start, place(side, from, radius)), 0.0, DRAWN, &what);
    assert_near(distance(end, place(side, to, radius)), 0.0, DRAWN, &what);
    let middle = place(side, (from + to) / 2.0, radius);
    let nearest = points.iter().map(|point| distance(*point, middle)).fold(f64::MAX, f64::min);
    assert!(nearest < 0.01 * radius, "{what}: the arc does not pass its middle");
    assert!(points.iter().all(|point| (distance(*point, [0.0; 2]) - radius).abs() < 0.1), "{what}: off its radius");
}

#[test]
fn a_rings_stretches_are_arcs_whose_titles_tell_the_least_of_what_they_join() {
    for side in [Side::Left, Side::Right] {
        let drawing = read(&draw_ring(&Setup { side, ..Setup::default() }, &five_runs()));
        let expected = [
            ("ring tight", [-151.0, -100.0], "−151° to −100°: tight; caliper to spokes lacks up to 0.7 mm"),
            ("ring clears", [-100.0, -56.0], "−100° to −56°: clears; tool to tube has at least 2.3 mm to spare"),
            ("ring hits", [-56.0, 97.0], "−56° to 97°: hits; caliper to plate lacks up to 9.9 mm"),
            ("ring clears", [97.0, 120.0], "97° to 120°: clears; line to rotor has at least 1.2 mm to spare"),
            ("ring hits", [120.0, 209.0], "120° to −151°: hits; caliper to tube lacks up to 4.2 mm"),
        ];
        let arcs = of(&drawing, "ring");
        assert_eq!(arcs.len(), expected.len());
        for (arc, (class, ends, title)) in arcs.into_iter().zip(expected) {
            assert_eq!((arc.class.as_str(), arc.title.as_str()), (class, title));
            assert_arc(arc, side, RADIUS, ends);
        }
        // 23 degrees have no room for a word; the others have theirs at their middle, 10 mm inside, its foot 2 mm lower.
        let words: Vec<(&str, Point)> =
            of(&drawing, "ring-word").into_iter().map(|one| (one.text.as_str(), one.place())).collect();
        let expected = [("tight", -125.5), ("clears", -78.0), ("hits", 20.5), ("hits", 164.5)];
        assert_eq!(words.len(), expected.len());
        for ((word, at), (expected, clock)) in words.into_iter().zip(expected) {
            let [x, y] = place(side, clock, RADIUS - 10.0);
            assert_eq!(word, expected);
            assert_near(distance(at, [x, y + 2.0]), 0.0, DRAWN, word);
        }
    }
}

/// Rules are thin arcs outside the band: 2 and 6 mm off its outer edge, with the page's edge as far again and more.
#[test]
fn a_rings_rules_are_arcs_over_what_they_leave_of_the_turn() {
    for side in [Side::Left, Side::Right] {
        let drawing = read(&draw_ring(&Setup { side, ..Setup::default() }, &five_runs()));
        let (line, wheel) = (RADIUS + 3.5 + 2.0, RADIUS + 3.5 + 6.0);
        let [one] = of(&drawing, "line")[..] else { panic!("the line is up the leg in one stretch") };
        assert_arc(one, side, line, [60.0, 300.0]);
        let [one] = of(&drawing, "wheel")[..] else { panic!("the wheel drops out in one stretch") };
        assert_arc(one, side, wheel, [-160.0, 170.0]);
        let half = RADIUS + 7.0 + 8.0;
        for (got, expected) in drawing[0].view_box().into_iter().zip([-half, -half, 2.0 * half, 2.0 * half]) {
            assert_near(got, expected, 0.002, "the page");
        }
        let band = of(&drawing, "ring-band")[0];
        assert_near(band.number("data-radius"), RADIUS, 0.001, "the band");
        assert_eq!(band.number("stroke-width"), 7.0);
    }
}

/// An arc of a whole turn would end where it starts, and be nothing: a tenth of a degree is left out.
#[test]
fn a_ring_of_one_verdict_is_drawn_nearly_all_round() {
    let stretches = vec![stretch(-180.0, 180.0, Verdict::Tight, "nut/tube", -0.4)];
    let drawing = read(&draw_ring(&Setup::default(), &made(stretches, 0, Vec::new(), Vec::new())));
    for (class, radius) in [("tight", RADIUS), ("line", RADIUS + 5.5), ("wheel", RADIUS + 9.5)] {
        let [one] = of(&drawing, class)[..] else { panic!("{class} is one arc") };
        assert_arc(one, Side::Left, radius, [-180.0, 179.9]);
    }
    assert_eq!(of(&drawing, "tight")[0].title, "−180° to 180°: tight; nut to tube lacks up to 0.4 mm");
    // Two stretches are never one, though they meet at both ends.
    let halves = vec![
        stretch(-180.0, 10.0, Verdict::Hits, "nut/tube", -0.4),
        stretch(10.0, 180.0, Verdict::Clears, "nut/tube", 0.0),
    ];
    let drawing = read(&draw_ring(&Setup::default(), &made(halves, 1, Vec::new(), Vec::new())));
    assert_arc(of(&drawing, "hits")[0], Side::Left, RADIUS, [-180.0, 10.0]);
    assert_arc(of(&drawing, "clears")[0], Side::Left, RADIUS, [10.0, 180.0]);
}

#[test]
fn a_ring_is_called_by_how_many_stretches_clear() {
    for (windows, heading) in [
        (0, "No clock angle clears"),
        (1, "One stretch of clock angles clears"),
        (3, "3 stretches of clock angles clear"),
    ] {
        let stretches = vec![stretch(-180.0, 180.0, Verdict::Hits, "caliper/tube", -2.0)];
        let drawing = read(&draw_ring(&Setup::default(), &made(stretches, windows, Vec::new(), Vec::new())));
        assert_eq!(drawing[0].title, heading);
    }
}

/// Where flange and braking band leave less than the band's width about the axle, it stays off the axle by two.
#[test]
fn a_ring_is_never_smaller_than_two_widths_of_its_band() {
    let setup = setup_with(&json!({"wheel": {"rotor_diameter": 90, "track_width": 40, "flange_diameter": 12}}));
    let stretches = vec![stretch(-180.0, 180.0, Verdict::Hits, "caliper/tube", -2.0)];
    let drawing = read(&draw_ring(&setup, &made(stretches, 0, Vec::new(), Vec::new())));
    assert_eq!(of(&drawing, "ring-band")[0].number("data-radius"), 14.0);
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
        let band = of(&drawing, "ring-band")[0];
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
        let radius = of(&drawing, "ring-band")[0].number("data-radius");
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
