//! A piece drawn for the page: outline, holes, where the tube is, the narrow places, and its main dimensions.

use super::layout::across;
use super::pieces::{Piece, PieceKey, Pieces};
use super::sections::Section;
use super::svg_text::Page;
use crate::drawing::shape::Shape;
use crate::setup::Setup;
use crate::words::{exact, length};

/// Room round a piece for its dimensions, mm.
const ROOM: f64 = 18.0;
/// Height of letters, mm.
const LETTERS: f64 = 4.5;
/// How far a dimension line stands off what it measures, mm.
const OFF: f64 = 6.0;
/// Half a punch mark, mm.
const CROSS: f64 = 3.0;

struct Drawing {
    group: Shape,
    page: Page,
}

fn line(class: &str, from: [f64; 2], to: [f64; 2]) -> Shape {
    let at = [("x1", from[0]), ("y1", from[1]), ("x2", to[0]), ("y2", to[1])];
    Shape::new("line").at(&at).with(&[("class", class), ("stroke", "#222222"), ("stroke-width", "0.35")])
}

pub(super) fn text(class: &str, [x, y]: [f64; 2], size: f64, anchor: &str, words: &str) -> Shape {
    let looks = [("class", class), ("text-anchor", anchor), ("font-family", "sans-serif")];
    Shape::text("text", words).at(&[("x", x), ("y", y), ("font-size", size)]).with(&looks)
}

impl Drawing {
    fn add(&mut self, shape: Shape) {
        let group = std::mem::replace(&mut self.group, Shape::new("g"));
        self.group = group.around(shape);
    }

    fn line(&mut self, class: &str, from: [f64; 2], to: [f64; 2]) {
        self.add(line(class, self.page.at(from), self.page.at(to)));
    }

    fn text(&mut self, class: &str, at: [f64; 2], anchor: &str, words: &str) {
        self.add(text(class, self.page.at(at), LETTERS, anchor, words));
    }

    /// A length along a line that stands off by `off` on its left side, its number in the middle.
    fn dimension(&mut self, from: [f64; 2], to: [f64; 2], off: f64) {
        let long = super::path::apart(from, to);
        if long == 0.0 {
            return;
        }
        let square = [-(to[1] - from[1]) / long * off, (to[0] - from[0]) / long * off];
        let moved = |point: [f64; 2]| [point[0] + square[0], point[1] + square[1]];
        let (a, b) = (moved(from), moved(to));
        self.line("cut-extension", from, a);
        self.line("cut-extension", to, b);
        self.line("cut-dimension", a, b);
        for end in [a, b] {
            let [x, y] = self.page.at(end);
            let dot = Shape::new("circle").at(&[("cx", x), ("cy", y), ("r", 0.7)]);
            self.add(dot.with(&[("class", "cut-end"), ("fill", "#222222")]));
        }
        let middle = self.page.at([(a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0]);
        // Read from below or from the right.
        let (from, to) = (self.page.at(a), self.page.at(b));
        let mut turn = (to[1] - from[1]).atan2(to[0] - from[0]).to_degrees();
        if turn > 90.0 - 1e-6 {
            turn -= 180.0;
        } else if turn < -90.0 - 1e-6 {
            turn += 180.0;
        }
        let place = ["translate(", &exact(middle[0], 3), " ", &exact(middle[1], 3), ") rotate(", &exact(turn, 3), ")"];
        let number = text("cut-number", [0.0, -1.2], LETTERS, "middle", &length(long));
        self.add(number.with(&[("transform", &place.concat())]));
    }

    fn cross(&mut self, [x, y]: [f64; 2]) {
        self.line("cut-centre", [x - CROSS, y], [x + CROSS, y]);
        self.line("cut-centre", [x, y - CROSS], [x, y + CROSS]);
    }
}

/// Draws a piece as it is seen on its outer face, up the leg upright.
pub(super) fn draw(setup: &Setup, cut: &Pieces, piece: &Piece, sections: &[Section]) -> String {
    let [low, high] = piece.region.outer.bounds();
    let sign = across(setup, piece.key);
    let (left, right) = if sign > 0.0 { (low[0], high[0]) } else { (-high[0], -low[0]) };
    let page = Page { left: ROOM - left, base: ROOM + high[1], across: sign };
    let size = [right - left + 2.0 * ROOM, high[1] - low[1] + 2.0 * ROOM];
    let mut drawing = Drawing { group: Shape::new("g"), page };
    tube(&mut drawing, setup, [low, high]);
    let plate = Shape::new("path").with(&[
        ("class", "cut-plate"),
        ("d", &page.path(&piece.region)),
        ("fill", "#e8dfc8"),
        ("fill-rule", "evenodd"),
        ("stroke", "#5e5236"),
        ("stroke-width", "0.5"),
    ]);
    drawing.add(plate);
    for hole in &piece.holes {
        let [x, y] = page.at(hole.centre);
        let circle = Shape::new("circle").at(&[("cx", x), ("cy", y), ("r", hole.diameter / 2.0)]);
        let class = if hole.name == "axle" { "cut-axle" } else { "cut-hole" };
        drawing.add(circle.with(&[
            ("class", class),
            ("fill", "#ffffff"),
            ("stroke", "#222222"),
            ("stroke-width", "0.4"),
        ]));
        drawing.cross(hole.centre);
        if hole.name != "axle" {
            let above = [hole.centre[0] + sign * (hole.diameter / 2.0 + 1.0), hole.centre[1] + hole.diameter / 2.0];
            drawing.text("cut-label", above, "start", hole.name);
        }
    }
    if piece.key != PieceKey::Tab {
        drawing.cross([0.0, 0.0]);
    }
    for section in sections.iter().filter(|section| section.piece == piece.key) {
        let class = if section.ok { "cut-section" } else { "cut-section cut-thin" };
        let looks = if section.ok { "#44525e" } else { "#b00020" };
        let (from, to) = (page.at(section.from), page.at(section.to));
        drawing.add(
            line(class, from, to)
                .with(&[("stroke", looks)])
                .titled(&[section.label, ", ", &length(section.width)].concat()),
        );
    }
    dimensions(&mut drawing, cut, piece, [low, high], sign);
    let view = ["0 0 ", &exact(size[0], 2), " ", &exact(size[1], 2)].concat();
    let root = Shape::new("svg").with(&[
        ("xmlns", "http://www.w3.org/2000/svg"),
        ("class", "cut-drawing"),
        ("viewBox", &view),
        ("role", "img"),
    ]);
    root.titled(title(piece.key)).around(drawing.group).written()
}

/// What a piece is called.
pub(super) fn title(key: PieceKey) -> &'static str {
    match key {
        PieceKey::Plate => "Dropout with tab",
        PieceKey::Dropout => "Dropout",
        PieceKey::Tab => "Tab",
        PieceKey::OtherSide => "Dropout of the other leg",
    }
}

/// Both edges and the lower end of the tube, as far as the piece reaches.
fn tube(drawing: &mut Drawing, setup: &Setup, [low, high]: [[f64; 2]; 2]) {
    let fork = &setup.fork;
    let half = fork.tube_diameter / 2.0;
    let (end, top) = (fork.tube_end.max(low[1] - ROOM), high[1] + ROOM / 2.0);
    if end >= top || fork.axle_offset - half > high[0] + ROOM || fork.axle_offset + half < low[0] - ROOM {
        return;
    }
    let [left, right] = [fork.axle_offset - half, fork.axle_offset + half];
    for (from, to) in [([left, top], [left, end]), ([left, end], [right, end]), ([right, end], [right, top])] {
        let dashed = line("cut-tube", drawing.page.at(from), drawing.page.at(to));
        drawing.add(dashed.with(&[("stroke-dasharray", "3 1.5"), ("stroke", "#888888")]));
    }
}

fn dimensions(drawing: &mut Drawing, cut: &Pieces, piece: &Piece, [low, high]: [[f64; 2]; 2], sign: f64) {
    // Left of its own direction, as seen on the page.
    let off = OFF * sign;
    let (start, end) = if sign > 0.0 { (low[0], high[0]) } else { (high[0], low[0]) };
    drawing.dimension([start, low[1]], [end, low[1]], -off);
    drawing.dimension([start, low[1]], [start, high[1]], off);
    let bolts: Vec<_> = piece.holes.iter().filter(|hole| hole.name != "axle").collect();
    if let [a, b] = bolts.as_slice() {
        drawing.dimension(a.centre, b.centre, 0.0);
        if piece.key != PieceKey::Tab {
            drawing.dimension([0.0, 0.0], a.centre, 0.0);
            drawing.dimension([0.0, 0.0], b.centre, 0.0);
        }
    }
    if cut.joining == super::pieces::Joining::Posts && piece.key == PieceKey::Dropout {
        drawing.text("cut-label", [0.0, high[1] + OFF], "middle", "posts: see their layout");
    }
}
