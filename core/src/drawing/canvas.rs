//! Putting shapes on the page: the one place that knows which way y and the way ahead run.

use svg::node::element::path::Data;
use svg::node::element::{Circle, Group, Line, Path, Text, Title};

use crate::fit::radial;
use crate::solid::{Disc, hull};

/// A page being drawn.
pub(super) struct Canvas {
    group: Group,
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

impl Canvas {
    /// An empty page. `ahead` is the page's x direction of the way ahead, `down` the sign from the view's second
    /// coordinate to the page's y.
    pub(super) fn new(ahead: f64, down: f64) -> Self {
        Self { group: Group::new(), across: -ahead, down }
    }

    /// A point of the view, `[back, second coordinate]`, on the page.
    pub(super) fn at(&self, [back, second]: [f64; 2]) -> [f64; 2] {
        [rounded(self.across * back), rounded(self.down * second)]
    }

    pub(super) fn into_group(self) -> Group {
        self.group
    }

    /// The hull of discs given in the view's coordinates.
    pub(super) fn hull(mut self, class: &str, title: &str, discs: &[Disc]) -> Self {
        let edges = hull(discs);
        let (fill, stroke) = looks(class);
        if let [only] = edges.as_slice() {
            let [x, y] = self.at([only.disc.back, only.disc.up]);
            let circle = Circle::new().set("cx", x).set("cy", y).set("r", rounded(only.disc.radius));
            let circle = circle.set("class", class).set("fill", fill).set("stroke", stroke).add(Title::new(title));
            self.group = self.group.add(circle);
            return self;
        }
        // Counter-clockwise in the view turns clockwise on the page for each axis that is flipped, seen y down.
        let sweep = if self.across * self.down > 0.0 { 1.0 } else { 0.0 };
        let mut data = Data::new();
        for (index, edge) in edges.iter().enumerate() {
            let ([x, y], [to_x, to_y]) = (self.at(edge.point(edge.from)), self.at(edge.point(edge.to)));
            data = if index == 0 { data.move_to((x, y)) } else { data.line_to((x, y)) };
            if edge.disc.radius > 0.0 && edge.to > edge.from {
                let large = if edge.to - edge.from > std::f64::consts::PI { 1.0 } else { 0.0 };
                let radius = rounded(edge.disc.radius);
                data = data.elliptical_arc_to((radius, radius, 0.0, large, sweep, to_x, to_y));
            }
        }
        self.add_path(class, title, data.close())
    }

    /// A closed polygon given in the view's coordinates.
    pub(super) fn polygon(self, class: &str, title: &str, corners: &[[f64; 2]]) -> Self {
        let mut data = Data::new();
        for (index, &corner) in corners.iter().enumerate() {
            let [x, y] = self.at(corner);
            data = if index == 0 { data.move_to((x, y)) } else { data.line_to((x, y)) };
        }
        self.add_path(class, title, data.close())
    }

    /// A rectangle square to the page.
    pub(super) fn rectangle(self, class: &str, title: &str, [left, right]: [f64; 2], [low, high]: [f64; 2]) -> Self {
        self.polygon(class, title, &[[left, low], [right, low], [right, high], [left, high]])
    }

    fn add_path(mut self, class: &str, title: &str, data: Data) -> Self {
        let (fill, stroke) = looks(class);
        let path = Path::new().set("class", class).set("fill", fill).set("stroke", stroke).set("d", data);
        self.group = self.group.add(path.add(Title::new(title)));
        self
    }

    /// A ring between two circles about a point.
    pub(super) fn ring(self, class: &str, title: &str, centre: [f64; 2], [inner, outer]: [f64; 2]) -> Self {
        let [x, y] = self.at(centre);
        let circle = |data: Data, radius: f64| {
            let radius = rounded(radius);
            data.move_to((x - radius, y))
                .elliptical_arc_to((radius, radius, 0.0, 1.0, 1.0, x + radius, y))
                .elliptical_arc_to((radius, radius, 0.0, 1.0, 1.0, x - radius, y))
                .close()
        };
        let data = circle(circle(Data::new(), outer), inner);
        let (fill, stroke) = looks(class);
        let path = Path::new().set("class", class).set("fill", fill).set("stroke", stroke).set("fill-rule", "evenodd");
        Self { group: self.group.add(path.set("d", data).add(Title::new(title))), ..self }
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
        let data = Data::new().move_to((x, y)).elliptical_arc_to((radius, radius, 0.0, large, sweep, to_x, to_y));
        self.add_path(class, title, data)
    }

    /// A straight line.
    pub(super) fn line(mut self, class: &str, title: &str, from: [f64; 2], to: [f64; 2]) -> Self {
        let ([x1, y1], [x2, y2]) = (self.at(from), self.at(to));
        let (_, stroke) = looks(class);
        let line = Line::new().set("x1", x1).set("y1", y1).set("x2", x2).set("y2", y2);
        let line = line.set("class", class).set("stroke", stroke);
        self.group = self.group.add(if title.is_empty() { line } else { line.add(Title::new(title)) });
        self
    }

    /// A text at a point of the page itself.
    pub(super) fn note(mut self, [x, y]: [f64; 2], label: &Label<'_>) -> Self {
        let text = Text::new(label.text).set("x", rounded(x)).set("y", rounded(y)).set("class", label.class);
        self.group = self.group.add(text.set("font-size", label.size).set("text-anchor", label.anchor));
        self
    }

    /// The distance between two points, with its number at `place` of the page itself and a leader to it.
    pub(super) fn dimension(mut self, from: [f64; 2], to: [f64; 2], place: [f64; 2], label: &Label<'_>) -> Self {
        let ([x1, y1], [x2, y2]) = (self.at(from), self.at(to));
        let plain = |line: Line| line.set("stroke", "#222222");
        // The leader stops where the text begins.
        let width = label.text.chars().count() as f64 * label.size * CHAR_WIDTH;
        let text_start = if label.anchor == "start" { place[0] + width } else { place[0] - width };
        let leader = Line::new().set("x1", (x1 + x2) / 2.0).set("y1", (y1 + y2) / 2.0);
        let leader = leader.set("x2", rounded(text_start)).set("y2", rounded(place[1] - label.size / 2.0));
        let end = |x: f64, y: f64| {
            Circle::new().set("cx", x).set("cy", y).set("r", 1.2).set("class", "dimension end").set("stroke", "#222222")
        };
        self = self.line("dimension", "", from, to).note([place[0], place[1] - 1.5], label);
        self.group = self.group.add(plain(leader).set("class", "dimension leader")).add(end(x1, y1)).add(end(x2, y2));
        self
    }
}
