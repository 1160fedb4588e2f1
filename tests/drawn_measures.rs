//! Pictures of what to measure, read back: each by its number.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::drawing::draw_measure;
use tabwright_core::{CaliperMeasured, Setup, Side, describe_fields};
use tabwright_tests::svg::{Element, Point, read};
use tabwright_tests::{assert_near, setup_with};

const DRAWN: f64 = 0.03;

fn distance(a: Point, b: Point) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// Every number that is measured, with what it is now.
fn measured() -> Vec<(Setup, String, f64)> {
    let caliper = ["pad.length", "pad.height", "pad.edge_inset", "throat", "mount_depth", "lateral_adjust"];
    let mut all = Vec::new();
    for side in [Side::Left, Side::Right] {
        let mut setup = setup_with(&json!({
            "fork": {"axle_offset": 14},
            "dropout": {"slot_direction": 150},
            "caliper": {"holes": [[-28.5, 23], [25.5, 27.5]]},
        }));
        setup.side = side;
        CaliperMeasured::of(&setup).put_into(&mut setup, true, true).unwrap();
        let mut measured = CaliperMeasured::of(&setup);
        let mut paths: Vec<String> = CaliperMeasured::fields().iter().map(|field| field.key.to_owned()).collect();
        for group in describe_fields().into_iter().filter(|group| ["wheel", "fork", "dropout"].contains(&group.key)) {
            let fields = group.fields.iter().filter(|field| field.kind == "number");
            paths.extend(fields.map(|field| field.key.to_owned()).filter(|key| key != "dropout.slot_chamfer"));
        }
        paths.extend(caliper.map(|key| format!("caliper.{key}")));
        for path in paths {
            let number = setup.number_at(&path).or(measured.number_at(&path)).copied().unwrap();
            all.push((setup.clone(), path, number));
        }
    }
    all
}

/// The arrows' tips are as far apart as the number, on the page as in steel; all of it is on the page.
#[test]
fn what_to_measure_is_drawn_between_two_arrows_as_long_as_its_number() {
    let (mut straight, mut angles, mut outside) = (0, 0, 0);
    for (setup, path, number) in measured() {
        let drawing = read(&draw_measure(&setup, &path, "123.4 mm").unwrap());
        let [left, top, width, height] = drawing[0].view_box();
        let (right, foot) = (left + width, top + height);
        assert!((1.249..1.701).contains(&(width / height)), "{path}: {width} by {height}");
        let heads: Vec<Vec<Point>> =
            drawing.iter().filter(|one| one.class == "dimension end").map(Element::points).collect();
        let [one, other] = &heads[..] else { panic!("{path}: {} arrows", heads.len()) };
        let tips = [one[0], other[0]];
        let text = drawing.iter().find(|one| one.kind == "text").unwrap();
        let [from, to, high, low] = text.text_box();
        assert!(from >= left && to <= right && high >= top && low <= foot, "{path}: the number leaves the page");
        for head in &heads {
            let back = [(head[1][0] + head[2][0]) / 2.0, (head[1][1] + head[2][1]) / 2.0];
            assert_near(distance(head[0], back), 0.035 * width, 0.02 * width.max(1.0) * 0.1 + DRAWN, "a head's length");
            assert_near(distance(head[1], head[2]), 0.64 * distance(head[0], back), 3.0 * DRAWN, "a head's width");
            let lean =
                (head[1][0] - head[2][0]) * (head[0][0] - back[0]) + (head[1][1] - head[2][1]) * (head[0][1] - back[1]);
            assert!(lean.abs() < 0.03 * distance(head[0], back).powi(2) + 0.05, "{path}: a head is crooked");
            assert!(
                head.iter().all(|[x, y]| *x > left && *x < right && *y > top && *y < foot),
                "{path}: a head off the page"
            );
        }
        let tail_of = |head: &[Point]| [(head[1][0] + head[2][0]) / 2.0, (head[1][1] + head[2][1]) / 2.0];
        let leaders: Vec<Vec<Point>> =
            drawing.iter().filter(|one| one.class == "dimension leader").map(Element::points).collect();
        if let Some(arc) = drawing.iter().find(|one| one.class == "dimension arc") {
            angles += 1;
            let points = arc.points();
            let radius = distance(tips[0], [0.0; 2]);
            let between = (tips[0][0] * tips[1][0] + tips[0][1] * tips[1][1]) / (radius * distance(tips[1], [0.0; 2]));
            let turned = between.clamp(-1.0, 1.0).acos().to_degrees();
            assert_near(turned.min(360.0 - turned), number.abs().min(360.0 - number.abs()), 0.3, &path);
            assert!(points.iter().all(|point| (distance(*point, [0.0; 2]) - radius).abs() < 0.05 * radius), "{path}");
            assert!(
                tips.iter().all(|tip| points.iter().any(|point| distance(*point, *tip) < DRAWN)),
                "{path}: tips on the arc"
            );
            // Heads point outward along the arc: their tails lie on it too, inside.
            for head in &heads {
                assert_near(distance(tail_of(head), [0.0; 2]), radius, 0.01 * radius + 0.05, &path);
                let nearest = points.iter().map(|point| distance(*point, tail_of(head))).fold(f64::MAX, f64::min);
                assert!(nearest < 0.02 * radius + 0.1, "{path}: a head beyond the arc");
            }
            assert_eq!(leaders.len(), 2, "{path}: two arms");
            for arm in &leaders {
                assert_eq!(arm[0], [0.0, 0.0], "{path}");
                assert_near(distance(arm[1], [0.0; 2]), 1.25 * radius, 0.05, "an arm's length");
            }
            let middle = [(from + to) / 2.0, (high + low) / 2.0];
            assert!(
                distance(middle, points[points.len() / 2]) < 0.5 * radius + 0.1 * width,
                "{path}: its number is far off"
            );
            continue;
        }
        straight += 1;
        assert_near(distance(tips[0], tips[1]), number, 2.0 * DRAWN, &path);
        let is_line = |one: &&Element| one.kind == "line" && one.class == "dimension";
        let lines: Vec<Vec<Point>> = drawing.iter().filter(is_line).map(Element::points).collect();
        let [line] = &lines[..] else { panic!("{path}: {} lines", lines.len()) };
        let way = [(tips[1][0] - tips[0][0]) / number, (tips[1][1] - tips[0][1]) / number];
        let along = |point: Point| (point[0] - tips[0][0]) * way[0] + (point[1] - tips[0][1]) * way[1];
        let aside = |point: Point| (point[0] - tips[0][0]) * way[1] - (point[1] - tips[0][1]) * way[0];
        let is_inside = number > 3.0 * 0.035 * width;
        if is_inside {
            assert!(
                distance(line[0], tips[0]) < DRAWN && distance(line[1], tips[1]) < DRAWN,
                "{path}: from tip to tip"
            );
        } else {
            outside += 1;
            let beyond = 2.0 * 0.035 * width;
            assert_near(along(line[0]), -beyond, 0.1, &path);
            assert_near(along(line[1]), number + beyond, 0.1, &path);
        }
        // Heads lie between the tips where there is room, else beyond them.
        for (head, end) in heads.iter().zip([0.0, number]) {
            let tail = along(tail_of(head));
            assert_eq!(tail > -DRAWN && tail < number + DRAWN, is_inside, "{path}: a head from {end} to {tail}");
            assert!(aside(tail_of(head)).abs() < 0.05, "{path}: a head off its line");
        }
        for leader in &leaders {
            let end = leader[1];
            assert!(distance(end, tips[0]) < DRAWN || distance(end, tips[1]) < DRAWN, "{path}: a leader to nowhere");
            let (dx, dy) = (leader[0][0] - end[0], leader[0][1] - end[1]);
            assert!(
                (dx * way[0] + dy * way[1]).abs() < 0.02 * distance(leader[0], end) + DRAWN,
                "{path}: a leader is square"
            );
        }
        // The number stands at the middle of its line: over it, or beside it.
        let middle = [(from + to) / 2.0, (high + low) / 2.0];
        let centre = [(tips[0][0] + tips[1][0]) / 2.0, (tips[0][1] + tips[1][1]) / 2.0];
        let is_across = way[0].abs() > way[1].abs();
        let at_edge = to > right - 0.06 * width
            || from < left + 0.06 * width
            || high < top + 0.06 * height
            || low > foot - 0.06 * height;
        if is_across {
            assert!(low <= centre[1] + 0.01 * width || at_edge, "{path}: the number is not over its line");
            assert!(centre[1] - low < 0.06 * width || at_edge, "{path}: the number is far over its line");
            assert!((middle[0] - centre[0]).abs() < 0.01 * width || at_edge, "{path}: the number is off the middle");
        } else {
            assert!((middle[1] - centre[1]).abs() < 0.03 * width || at_edge, "{path}: the number is off the middle");
            let off = middle[0] - centre[0];
            let expected = if is_inside { 0.0 } else { 1.1 * 0.17 * width };
            assert!((off - expected).abs() < 0.01 * width || at_edge, "{path}: the number is {off} beside its line");
        }
    }
    assert!(straight > 70 && angles >= 2 && outside > 4, "{straight} lengths, {outside} short, {angles} angles");
}
