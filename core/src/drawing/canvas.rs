//! Putting shapes on the page: the one place that knows which way y and the way ahead run.

use super::shape::Shape;
use crate::fit::radial;
use crate::solid::{Disc, hull};
use crate::words::coordinate;

/// A page being drawn.
pub(super) struct Canvas {
    group: Shape,
    /// Sign from `back` to the page's x: +1 where ahead is to the left.
    across: f64,
    /// Sign from the view's other coordinate to the page's y.
    down: f64,
}

/// A text on the page.
pub(super) struct Label<'a> {
    pub(super) text: &'a str,
    pub(super) class: &'a str,
    pub(super) size: f64,
    /// `start`, `middle` or `end`.
    pub(super) anchor: &'a str,
}

/// Width of a character against its size, on the wide side: a page may set the number larger.
const CHAR_WIDTH: f64 = 0.85;

/// Plain looks of a class, for a drawing that is looked at without the page.
fn looks(class: &str) -> (&'static str, &'static str) {
    match class.split(' ').next().unwrap_or_default() {
        "rotor" => ("#e4e4e4", "#888888"),
        "band" => ("#cccccc", "none"),
        "tube" => ("#c9d3dc", "#44525e"),
        "plate" | "tab" => ("#e8dfc8", "#5e5236"),
        "hole" => ("#ffffff", "#222222"),
        "caliper" => ("#b9c8b4", "#222222"),
        "pad" => ("#8a6f5a", "none"),
        "nut" | "hub" => ("#d8d8d8", "#555555"),
        _ => ("none", "#222222"),
    }
}

fn rounded(value: f64) -> f64 {
    let hundredths = (value * 100.0).round() / 100.0;
    // Minus nought is nought.
    hundredths + 0.0
}

/// Adds one command to a path: its letter and its numbers.
fn step(path: &mut String, letter: char, numbers: &[f64]) {
    path.push(letter);
    for (index, number) in numbers.iter().enumerate() {
        if index > 0 {
            path.push(',');
        }
        path.push_str(&coordinate(*number));
    }
}

/// Moves to the first point of a path and draws straight to any other.
fn straight(path: &mut String, to: [f64; 2]) {
    step(path, if path.is_empty() { 'M' } else { 'L' }, &to);
}

impl Canvas {
    /// An empty page. `ahead` is the page's x direction of the way ahead, `down` the sign from the view's second
    /// coordinate to the page's y.
    pub(super) fn new(ahead: f64, down: f64) -> Self {
        Self { group: Shape::new("g"), across: -ahead, down }
    }

    /// A point of the view, `[back, second coordinate]`, on the page.
    pub(super) fn at(&self, [back, second]: [f64; 2]) -> [f64; 2] {
        [rounded(self.across * back), rounded(self.down * second)]
    }

    pub(super) fn into_group(self) -> Shape {
        self.group
    }

    /// Adds what `draw` puts on a page of its own, whose origin lies at a point of this one and whose x and y are the
    /// caliper's cw and rad, as they are seen on the caliper's outboard face. Only `transform` changes when the caliper
    /// moves: a browser then has one shape to place anew and not a dozen.
    pub(super) fn placed(self, origin: [f64; 2], clock: f64, draw: impl FnOnce(Canvas) -> Canvas) -> Self {
        let [x, y] = self.at(origin);
        let turn = clock * self.across;
        let transform =
            ["translate(", &coordinate(x), " ", &coordinate(y), ") rotate(", &coordinate(turn), ")"].concat();
        let group = draw(Canvas { group: Shape::new("g"), across: 1.0, down: -1.0 }).group;
        self.add(group.with(&[("transform", &transform)]))
    }

    fn add(self, shape: Shape) -> Self {
        Self { group: self.group.around(shape), ..self }
    }

    /// A closed shape with the looks of its class.
    fn add_filled(self, shape: Shape, class: &str, title: &str) -> Self {
        let (fill, stroke) = looks(class);
        self.add(shape.with(&[("class", class), ("fill", fill), ("stroke", stroke)]).titled(title))
    }

    fn add_path(self, class: &str, title: &str, path: &str) -> Self {
        self.add_filled(Shape::new("path").with(&[("d", path)]), class, title)
    }

    /// The hull of discs given in the view's coordinates.
    pub(super) fn hull(self, class: &str, title: &str, discs: &[Disc]) -> Self {
        let edges = hull(discs);
        if let [only] = edges.as_slice() {
            let [x, y] = self.at([only.disc.back, only.disc.up]);
            let circle = Shape::new("circle").at(&[("cx", x), ("cy", y), ("r", rounded(only.disc.radius))]);
            return self.add_filled(circle, class, title);
        }
        // Counter-clockwise in the view turns clockwise on the page for each axis that is flipped, seen y down.
        let sweep = if self.across * self.down > 0.0 { 1.0 } else { 0.0 };
        let mut path = String::new();
        for edge in &edges {
            straight(&mut path, self.at(edge.point(edge.from)));
            if edge.disc.radius > 0.0 && edge.to > edge.from {
                let radius = rounded(edge.disc.radius);
                // By way of its middle: the ends of half a turn, rounded, hardly tell where its middle is.
                for angle in [(edge.from + edge.to) / 2.0, edge.to] {
                    let [x, y] = self.at(edge.point(angle));
                    step(&mut path, 'A', &[radius, radius, 0.0, 0.0, sweep, x, y]);
                }
            }
        }
        path.push('z');
        self.add_path(class, title, &path)
    }

    /// A closed polygon given in the view's coordinates.
    pub(super) fn polygon(self, class: &str, title: &str, corners: &[[f64; 2]]) -> Self {
        let mut path = String::new();
        for &corner in corners {
            straight(&mut path, self.at(corner));
        }
        path.push('z');
        self.add_path(class, title, &path)
    }

    /// A rectangle square to the page.
    pub(super) fn rectangle(self, class: &str, title: &str, [left, right]: [f64; 2], [low, high]: [f64; 2]) -> Self {
        self.polygon(class, title, &[[left, low], [right, low], [right, high], [left, high]])
    }

    /// A ring between two circles about a point.
    pub(super) fn ring(self, class: &str, title: &str, centre: [f64; 2], [inner, outer]: [f64; 2]) -> Self {
        let [x, y] = self.at(centre);
        let mut path = String::new();
        for radius in [rounded(outer), rounded(inner)] {
            step(&mut path, 'M', &[x - radius, y]);
            step(&mut path, 'A', &[radius, radius, 0.0, 1.0, 1.0, x + radius, y]);
            step(&mut path, 'A', &[radius, radius, 0.0, 1.0, 1.0, x - radius, y]);
            path.push('z');
        }
        self.add_filled(Shape::new("path").with(&[("d", &path), ("fill-rule", "evenodd")]), class, title)
    }

    /// An open arc about the axle between two clock angles, in the way of growing angles, less than a whole turn.
    pub(super) fn arc(self, class: &str, title: &str, radius: f64, [from, to]: [f64; 2]) -> Self {
        let point = |clock: f64| {
            let direction = radial(clock) * radius;
            self.at([direction.x, direction.y])
        };
        let ([x, y], [to_x, to_y]) = (point(from), point(to));
        let large = if to - from > 180.0 { 1.0 } else { 0.0 };
        // Clock angles grow clockwise in (back, up), that is against the sense of the view's own angles.
        let sweep = if self.across * self.down > 0.0 { 0.0 } else { 1.0 };
        let radius = rounded(radius);
        let mut path = String::new();
        step(&mut path, 'M', &[x, y]);
        step(&mut path, 'A', &[radius, radius, 0.0, large, sweep, to_x, to_y]);
        self.add_path(class, title, &path)
    }

    /// A straight line.
    pub(super) fn line(self, class: &str, title: &str, from: [f64; 2], to: [f64; 2]) -> Self {
        let (from, to) = (self.at(from), self.at(to));
        let line = straight_line(from, to).with(&[("class", class), ("stroke", looks(class).1)]);
        self.add(line.titled(title))
    }

    /// A text at a point of the page itself.
    pub(super) fn note(self, [x, y]: [f64; 2], label: &Label<'_>) -> Self {
        let text = Shape::text("text", label.text).with(&[("class", label.class), ("text-anchor", label.anchor)]);
        self.add(text.at(&[("x", rounded(x)), ("y", rounded(y)), ("font-size", label.size)]))
    }

    /// The distance between two points, with its number at `place` of the page itself and a leader to it.
    pub(super) fn dimension(self, from: [f64; 2], to: [f64; 2], place: [f64; 2], label: &Label<'_>) -> Self {
        let ([x1, y1], [x2, y2]) = (self.at(from), self.at(to));
        // The leader stops where the text begins.
        let width = label.text.chars().count() as f64 * label.size * CHAR_WIDTH;
        let text_start = if label.anchor == "start" { place[0] + width } else { place[0] - width };
        let leader = straight_line(
            [(x1 + x2) / 2.0, (y1 + y2) / 2.0],
            [rounded(text_start), rounded(place[1] - label.size / 2.0)],
        );
        let end = |x: f64, y: f64| {
            let circle = Shape::new("circle").at(&[("cx", x), ("cy", y), ("r", 1.2)]);
            circle.with(&[("class", "dimension end"), ("stroke", "#222222")])
        };
        // Words that the page makes larger lie over the leader, not below it.
        self.line("dimension", "", from, to)
            .add(leader.with(&[("class", "dimension leader"), ("stroke", "#222222")]))
            .note([place[0], place[1] - 1.5], label)
            .add(end(x1, y1))
            .add(end(x2, y2))
    }
}

fn straight_line([x1, y1]: [f64; 2], [x2, y2]: [f64; 2]) -> Shape {
    Shape::new("line").at(&[("x1", x1), ("y1", y1), ("x2", x2), ("y2", y2)])
}
