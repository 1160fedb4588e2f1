//! Pictures of what to measure, read back: each by its number.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::{Value, json};
use tabwright_core::drawing::draw_measure;
use tabwright_core::{CaliperMeasured, Setup, Side, describe_fields};
use tabwright_tests::plates::{distance, ends, of};
use tabwright_tests::svg::{Element, Point, read};
use tabwright_tests::{assert_near, setup_with};

/// Two points in hundredths are as far apart as what they show, to this.
const DRAWN: f64 = 0.015;
/// A head's length and half its width, a number's size, its room beside and above its middle: shares of the page.
const HEAD: f64 = 0.035;
const SLIMNESS: f64 = 0.32;
const LETTERS: f64 = 0.06;
const ROOM: [f64; 2] = [0.17, 0.07];

/// A picture with a dimension.
struct Picture {
    what: String,
    number: f64,
    page: [f64; 4],
    /// Tip first.
    heads: [Vec<Point>; 2],
    drawing: Vec<Element>,
}

impl Picture {
    fn of(setup: &Setup, path: &str, number: f64) -> Self {
        let drawing = read(&draw_measure(setup, path, "123.4 mm").unwrap());
        let heads = drawing.iter().filter(|one| one.class == "dimension end").map(Element::points);
        let heads: Vec<Vec<Point>> = heads.collect();
        let heads = heads.try_into().unwrap_or_else(|heads: Vec<_>| panic!("{path}: {} heads", heads.len()));
        Self { what: format!("{path}, {:?}", setup.side), number, page: drawing[0].view_box(), heads, drawing }
    }

    fn head(&self) -> f64 {
        HEAD * self.page[2]
    }

    fn tips(&self) -> [Point; 2] {
        self.heads.each_ref().map(|head| head[0])
    }

    fn is_angle(&self) -> bool {
        !of(&self.drawing, "arc").is_empty()
    }

    fn leaders(&self) -> Vec<[Point; 2]> {
        of(&self.drawing, "leader").into_iter().map(ends).collect()
    }

    fn text(&self) -> &Element {
        self.drawing.iter().find(|one| one.kind == "text").unwrap()
    }

    /// Fails unless a head is as long and as wide as all are, the middle of its back so far along `way` from its tip.
    fn assert_head(&self, head: &[Point], [x, y]: Point, along: f64, tolerance: f64) {
        let wide = SLIMNESS * self.head();
        for (corner, aside) in head[1..3].iter().zip([wide, -wide]) {
            let at = |aside: f64| [head[0][0] + along * x - aside * y, head[0][1] + along * y + aside * x];
            let off = distance(*corner, at(aside)).min(distance(*corner, at(-aside)));
            assert_near(off, 0.0, tolerance, &format!("{}: a head's corner", self.what));
        }
        assert_near(distance(head[1], head[2]), 2.0 * wide, DRAWN, &format!("{}: a head's width", self.what));
    }

    /// Fails unless the number is at a place, or as near to it as there is room for it on the page.
    fn assert_text(&self, [x, y]: Point) {
        let [left, top, width, height] = self.page;
        let [beside, above] = [ROOM[0] * width, ROOM[1] * height];
        let place = [x.clamp(left + beside, left + width - beside), y.clamp(top + above, top + height - 0.3 * above)];
        let text = self.text();
        assert_near(distance(text.place(), place), 0.0, DRAWN, &format!("{}: the number", self.what));
        assert_near(text.number("font-size"), LETTERS * width, 0.001, "its size");
        assert_eq!(text.attributes["text-anchor"], "middle");
        let [from, to, high, low] = text.text_box();
        assert!(
            from >= left && to <= left + width && high >= top && low <= top + height,
            "{}: off the page",
            self.what
        );
    }
}

fn setups() -> Vec<Setup> {
    let changes = [
        json!({
            "fork": {"axle_offset": 14},
            "dropout": {"slot_direction": 150},
            "caliper": {"holes": [[-28.5, 23], [25.5, 27.5]]},
        }),
        json!({
            "fork": {"axle_offset": -11, "leg_angle": 72.5, "tube_end": 31},
            "dropout": {"slot_direction": -110, "eye_radius": 17},
            "wheel": {"rotor_diameter": 160, "rotor_inset": 9.5, "nut_height": 3},
            "caliper": {"holes": [[-20.5, 31], [30, 24]], "mating_face": "outer"},
        }),
    ];
    let both = |changes: &Value| {
        [Side::Left, Side::Right].map(|side| {
            let mut setup = Setup { side, ..setup_with(changes) };
            CaliperMeasured::of(&setup).put_into(&mut setup, true, true).unwrap();
            setup
        })
    };
    changes.iter().flat_map(both).collect()
}

/// Every number that is measured, as it is drawn.
fn pictures() -> Vec<Picture> {
    let caliper = ["pad.length", "pad.height", "pad.edge_inset", "throat", "mount_depth", "lateral_adjust"];
    let mut paths: Vec<String> = CaliperMeasured::fields().iter().map(|field| field.key.to_owned()).collect();
    for group in describe_fields().into_iter().filter(|group| ["wheel", "fork", "dropout"].contains(&group.key)) {
        let fields = group.fields.iter().filter(|field| field.kind == "number");
        paths.extend(fields.map(|field| field.key.to_owned()).filter(|key| key != "dropout.slot_chamfer"));
    }
    paths.extend(caliper.map(|key| format!("caliper.{key}")));
    let all = |mut setup: Setup| {
        let mut measured = CaliperMeasured::of(&setup);
        let number = |path: &String| {
            let number = *setup.number_at(path).or(measured.number_at(path)).unwrap();
            Picture::of(&setup, path, number)
        };
        paths.iter().map(number).collect::<Vec<_>>()
    };
    setups().into_iter().flat_map(all).collect()
}

/// The arrows' tips are as far apart as the number, on the page as in steel; heads and number are in proportion to the page.
#[test]
fn what_to_measure_is_drawn_between_two_arrows_as_long_as_its_number() {
    let (mut lengths, mut outside) = (0, 0);
    for picture in pictures().into_iter().filter(|one| !one.is_angle()) {
        // An axle behind the tube is as far from it as one ahead.
        let (what, number) = (&picture.what, picture.number.abs());
        let ([one, other], head) = (picture.tips(), picture.head());
        lengths += 1;
        assert_near(distance(one, other), number, DRAWN, what);
        let way = [(other[0] - one[0]) / number, (other[1] - one[1]) / number];
        // A short line tells its way less well.
        let tolerance = DRAWN * (1.0 + 3.0 * head / number);
        let on = |point: Point, by: f64| [point[0] + by * way[0], point[1] + by * way[1]];
        let line = picture.drawing.iter().find(|one| one.kind == "line" && one.class == "dimension").unwrap();
        // Where there is no room for heads between the tips, they lie beyond them, on a line that runs on.
        let is_inside = number > 3.0 * head;
        outside += usize::from(!is_inside);
        let (tail, along) = if is_inside { (0.0, head) } else { (2.0 * head, -head) };
        for (end, expected) in ends(line).into_iter().zip([on(one, -tail), on(other, tail)]) {
            assert_near(distance(end, expected), 0.0, tolerance, &format!("{what}: the line's end"));
        }
        picture.assert_head(&picture.heads[0], way, along, tolerance);
        picture.assert_head(&picture.heads[1], way, -along, tolerance);
        for [foot, end] in picture.leaders() {
            assert!([one, other].iter().any(|tip| distance(*tip, end) < DRAWN), "{what}: a leader to nowhere");
            assert!(distance(foot, end) > DRAWN, "{what}: a leader from where it ends");
            let along = (foot[0] - end[0]) * way[0] + (foot[1] - end[1]) * way[1];
            assert_near(
                along,
                0.0,
                DRAWN + 0.01 * distance(foot, end) / number,
                &format!("{what}: a leader is square"),
            );
        }
        // Over a line across the page, on an upright one, beside a short upright one.
        let [x, y] = [(one[0] + other[0]) / 2.0, (one[1] + other[1]) / 2.0];
        picture.assert_text(if way[0].abs() > way[1].abs() {
            [x, y - 0.6 * head]
        } else {
            [x + if is_inside { 0.0 } else { 1.1 * ROOM[0] * picture.page[2] }, y + 0.35 * head]
        });
    }
    assert!(lengths == 4 * 43 && outside > 8, "{lengths} lengths, {outside} short");
}

/// An angle's arms lead from the axle beyond its arc; its heads lie along the arc, its number stands outside, halfway.
#[test]
fn an_angle_is_drawn_about_the_axle_between_its_arms() {
    let mut angles = 0;
    for picture in pictures().into_iter().filter(Picture::is_angle) {
        let Picture { what, number, .. } = &picture;
        let [one, other] = picture.tips();
        angles += 1;
        let radius = distance(one, [0.0; 2]);
        assert_near(distance(other, [0.0; 2]), radius, DRAWN, what);
        let way = |[x, y]: Point| y.atan2(x).to_degrees();
        let turned = (way(other) - way(one)).rem_euclid(360.0);
        assert_near(turned.min(360.0 - turned), number.abs(), 0.1, what);
        let points = of(&picture.drawing, "arc")[0].points();
        assert!(
            points.iter().all(|point| (distance(*point, [0.0; 2]) - radius).abs() < 2.0 * DRAWN),
            "{what}: the arc"
        );
        let turned = number.abs().to_radians() * radius;
        let long: f64 = points.windows(2).map(|pair| distance(pair[0], pair[1])).sum();
        assert_near(long, turned, 0.002 * turned, &format!("{what}: the arc's length"));
        for (head, arm) in picture.heads.iter().zip(picture.leaders()) {
            assert_eq!(arm[0], [0.0, 0.0], "{what}");
            let [x, y] = head[0].map(|coordinate| 1.25 * coordinate);
            assert_near(distance(arm[1], [x, y]), 0.0, 2.0 * DRAWN, &format!("{what}: an arm's end"));
            let back = [(head[1][0] + head[2][0]) / 2.0, (head[1][1] + head[2][1]) / 2.0];
            assert_near(distance(back, [0.0; 2]), radius, 2.0 * DRAWN, &format!("{what}: a head along the arc"));
            let nearest = points.iter().map(|point| distance(*point, back)).fold(f64::MAX, f64::min);
            assert!(nearest < 0.01 * radius, "{what}: a head within the arc");
            let long = distance(back, head[0]);
            picture.assert_head(head, [(back[0] - head[0][0]) / long, (back[1] - head[0][1]) / long], long, DRAWN);
            assert_near(long, picture.head(), DRAWN, &format!("{what}: a head's length"));
        }
        let halfway = [(one[0] + other[0]) / 2.0, (one[1] + other[1]) / 2.0];
        let long = halfway[0].hypot(halfway[1]);
        picture.assert_text(halfway.map(|coordinate| 1.3 * radius * coordinate / long));
    }
    assert_eq!(angles, 4 * 2);
}
