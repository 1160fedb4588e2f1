//! The 1:1 paper template: pages in real millimetres, tiled with register marks where the plate is larger than the paper.

use super::draw::{text, title};
use super::layout::{Layout, Placed, lay_out};
use super::options::{CutOptions, Paper};
use super::pieces::{PieceKey, Pieces};
use super::svg_text::Page;
use super::title_block::foot;
use crate::drawing::shape::Shape;
use crate::plain::plain;
use crate::setup::Setup;
use crate::words::{exact, given_length};

/// Blank edge of the paper, mm: printers leave up to 6 mm white. Common practice, no source.
pub(super) const MARGIN: f64 = 12.0;
/// Height of the strip at the foot of each page, mm.
pub(super) const FOOT: f64 = 80.0;
/// How far two pages overlap, mm.
const OVERLAP: f64 = 10.0;
/// Room round the pieces inside the tile, mm.
const ROOM: f64 = 6.0;
/// Half a register mark, mm.
const REGISTER: f64 = 5.0;
/// Side of the place for a code, mm.
pub(super) const CODE: f64 = 36.0;
/// Sides of the check bars and the check square, mm.
const BAR: f64 = 100.0;
pub(super) const SQUARE: f64 = 50.0;

/// A template.
#[derive(Clone, Debug)]
pub struct Template {
    /// Paper.
    pub paper: Paper,
    /// Pages beside each other.
    pub columns: f64,
    /// Pages above each other.
    pub rows: f64,
    /// How far they overlap, mm.
    pub overlap: f64,
    /// Whether there is more than one page.
    pub tiled: bool,
    /// The pages, row by row from the upper left.
    pub pages: Vec<TemplatePage>,
}

plain!(Template { paper, columns, rows, overlap, tiled, pages });

/// One page.
#[derive(Clone, Debug)]
pub struct TemplatePage {
    /// `1 of 2`.
    pub name: String,
    /// The page as SVG text, its width and height in mm.
    pub svg: String,
    /// Width, mm.
    pub width: f64,
    /// Height, mm.
    pub height: f64,
    /// Column, from 0.
    pub column: f64,
    /// Row, from 0.
    pub row: f64,
    /// Where a code may be drawn; none but on the first page.
    pub qr: Option<Place>,
}

plain!(TemplatePage { name, svg, width, height, column, row, qr });

/// A square on a page, mm from its upper left corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Left edge.
    pub x: f64,
    /// Upper edge.
    pub y: f64,
    /// Side.
    pub size: f64,
}

plain!(Place { x, y, size });

pub(super) fn mm(value: f64) -> String {
    exact(value, 4)
}

/// The root of an SVG in real millimetres.
pub(super) fn sheet_root(width: f64, height: f64) -> Shape {
    Shape::new("svg").with(&[
        ("xmlns", "http://www.w3.org/2000/svg"),
        ("width", &(mm(width) + "mm")),
        ("height", &(mm(height) + "mm")),
        ("viewBox", &["0 0 ", &mm(width), " ", &mm(height)].concat()),
    ])
}

fn stroke(class: &str, from: [f64; 2], to: [f64; 2], width: &str) -> Shape {
    Shape::new("path").with(&[
        ("class", class),
        ("d", &["M", &mm(from[0]), " ", &mm(from[1]), "L", &mm(to[0]), " ", &mm(to[1])].concat()),
        ("stroke", "#000000"),
        ("stroke-width", width),
        ("fill", "none"),
    ])
}

/// The pieces with punch crosses and scribe lines, in a drawing whose lower left corner is nought and y up.
fn pieces_drawn(layout: &Layout, page: &Page) -> Shape {
    let mut group = Shape::new("g");
    for piece in &layout.placed {
        let path = Shape::new("path").with(&[
            ("class", "template-cut"),
            ("d", &page.path(&piece.region)),
            ("fill", "none"),
            ("stroke", "#000000"),
            ("stroke-width", "0.25"),
        ]);
        group = group.around(path);
        for hole in &piece.holes {
            let [x, y] = page.at(hole.centre);
            let circle = Shape::new("circle").with(&[
                ("class", "template-hole"),
                ("cx", &mm(x)),
                ("cy", &mm(y)),
                ("r", &mm(hole.diameter / 2.0)),
                ("fill", "none"),
                ("stroke", "#000000"),
                ("stroke-width", "0.25"),
            ]);
            group = cross(group.around(circle), [x, y], hole.diameter / 2.0 + 3.0);
            if hole.name != "axle" {
                group = group.around(text(
                    "template-label",
                    [x + hole.diameter / 2.0 + 1.0, y - hole.diameter / 2.0 - 1.0],
                    4.0,
                    "start",
                    hole.name,
                ));
            }
        }
        group = scribed(group, piece, page);
    }
    group
}

/// A centre-punch cross, thin so that its middle is seen.
fn cross(group: Shape, [x, y]: [f64; 2], half: f64) -> Shape {
    group.around(stroke("template-punch", [x - half, y], [x + half, y], "0.12")).around(stroke(
        "template-punch",
        [x, y - half],
        [x, y + half],
        "0.12",
    ))
}

/// The axle's cross, and the line up the leg through it from edge to edge.
fn scribed(group: Shape, piece: &Placed, page: &Page) -> Shape {
    let [low, high] = piece.region.outer.bounds();
    let [x, y] = [(low[0] + high[0]) / 2.0, low[1]];
    let name = text("template-name", page.at([x, y - 4.5]), 3.5, "middle", title(piece.key));
    let group = group.around(name);
    if !piece.has_axle {
        return group;
    }
    let axle = page.at(piece.axle);
    let group = cross(group, axle, 5.0);
    let up = [page.at([piece.axle[0], low[1]]), page.at([piece.axle[0], high[1]])];
    let square = [page.at([low[0], piece.axle[1]]), page.at([high[0], piece.axle[1]])];
    [up, square].into_iter().fold(group, |group, [from, to]| {
        group.around(stroke("template-scribe", from, to, "0.1").with(&[("stroke-dasharray", "4 1 1 1")]))
    })
}

/// The whole sheet at 1:1, one drawing of whatever size it takes.
pub(super) fn whole(setup: &Setup, cut: &Pieces) -> String {
    let layout = lay_out(setup, cut, f64::INFINITY);
    let (width, height) =
        ((layout.size[0] + 2.0 * MARGIN).max(BAR + 2.0 * MARGIN), layout.size[1] + 2.0 * MARGIN + 12.0);
    let height = height.max(BAR + 2.0 * MARGIN + 12.0);
    let page = Page { left: MARGIN, base: MARGIN + layout.size[1], across: 1.0 };
    let root = sheet_root(width, height).titled("Template, 1:1").around(pieces_drawn(&layout, &page));
    bars(root, [width, height], MARGIN).written()
}

/// A bar of 100 mm along the foot and one up the left edge.
fn bars(root: Shape, [_, height]: [f64; 2], left: f64) -> Shape {
    let (foot, side) = (height - 8.0, 8.0);
    let across = ["M", &mm(left), " ", &mm(foot), "h", &mm(BAR)].concat();
    let up = ["M", &mm(side), " ", &mm(foot - 4.0), "v", &mm(-BAR)].concat();
    let bar = |name: &str, data: &str| {
        Shape::new("path").with(&[
            ("class", name),
            ("d", data),
            ("stroke", "#000000"),
            ("stroke-width", "0.3"),
            ("fill", "none"),
        ])
    };
    let ends = [
        ([left, foot - 2.0], [left, foot + 2.0]),
        ([left + BAR, foot - 2.0], [left + BAR, foot + 2.0]),
        ([side - 2.0, foot - 4.0], [side + 2.0, foot - 4.0]),
        ([side - 2.0, foot - 4.0 - BAR], [side + 2.0, foot - 4.0 - BAR]),
    ];
    let root = root.around(bar("template-bar-across", &across)).around(bar("template-bar-up", &up));
    let root = ends.into_iter().fold(root, |root, (from, to)| root.around(stroke("template-bar-end", from, to, "0.2")));
    let words = ["This bar is ", &given_length(BAR), " long, and so is the one on the left."].concat();
    [&words, "Measure me first."]
        .into_iter()
        .zip([foot - 1.4, foot + 1.8])
        .fold(root, |root, (words, y)| root.around(text("template-note", [left + BAR + 3.0, y], 2.8, "start", words)))
}

/// The template of a setup on paper.
pub(super) fn template(setup: &Setup, cut: &Pieces, options: &CutOptions) -> Template {
    let [width, height] = options.paper.size();
    let tile = [width - 2.0 * MARGIN, height - MARGIN - FOOT];
    let layout = lay_out(setup, cut, tile[0] - 2.0 * ROOM);
    let sheet = [layout.size[0] + 2.0 * ROOM, layout.size[1] + 2.0 * ROOM + 4.0];
    let count = |axis: usize| ((sheet[axis] - OVERLAP) / (tile[axis] - OVERLAP) - 1e-9).ceil().max(1.0);
    let (columns, rows) = (count(0), count(1));
    let page = Page { left: ROOM, base: ROOM + layout.size[1], across: 1.0 };
    let mut pages = Vec::new();
    for row in 0..rows as usize {
        for column in 0..columns as usize {
            let from = [column as f64 * (tile[0] - OVERLAP), row as f64 * (tile[1] - OVERLAP)];
            let name = format!("{} of {}", pages.len() + 1, columns as usize * rows as usize);
            let view = [mm(from[0]), mm(from[1]), mm(tile[0]), mm(tile[1])].join(" ");
            let mut inner = Shape::new("svg")
                .with(&[
                    ("class", "template-tile"),
                    ("x", &mm(MARGIN)),
                    ("y", &mm(MARGIN)),
                    ("width", &mm(tile[0])),
                    ("height", &mm(tile[1])),
                    ("viewBox", &view),
                ])
                .around(pieces_drawn(&layout, &page));
            inner = registers(inner, [columns, rows], tile);
            let mut root = sheet_root(width, height).titled(&["Template, 1:1, page ", &name].concat()).around(inner);
            root = bars(root, [width, height], MARGIN);
            let first = pages.is_empty();
            root = foot(root, setup, cut, options, &name, first, [width, height]);
            let qr = first.then_some(Place { x: width - MARGIN - CODE, y: height - FOOT + 2.0, size: CODE });
            pages.push(TemplatePage {
                name,
                svg: root.written(),
                width,
                height,
                column: column as f64,
                row: row as f64,
                qr,
            });
        }
    }
    Template { paper: options.paper, columns, rows, overlap: OVERLAP, tiled: pages.len() > 1, pages }
}

/// Crosses in the middle of every overlap: laid on each other they join the pages.
fn registers(mut inner: Shape, [columns, rows]: [f64; 2], tile: [f64; 2]) -> Shape {
    let step = [tile[0] - OVERLAP, tile[1] - OVERLAP];
    let extent = [step[0] * columns + OVERLAP, step[1] * rows + OVERLAP];
    let mut mark = |[x, y]: [f64; 2], name: String| {
        let placed = std::mem::replace(&mut inner, Shape::new("g"));
        let circle = Shape::new("circle").with(&[
            ("class", "template-register"),
            ("cx", &mm(x)),
            ("cy", &mm(y)),
            ("r", "2"),
            ("fill", "none"),
            ("stroke", "#000000"),
            ("stroke-width", "0.15"),
        ]);
        inner = placed
            .around(circle)
            .around(stroke("template-register", [x - REGISTER, y], [x + REGISTER, y], "0.15"))
            .around(stroke("template-register", [x, y - REGISTER], [x, y + REGISTER], "0.15"))
            .around(text("template-note", [x + 2.5, y - 1.0], 2.5, "start", &name));
    };
    for column in 1..columns as usize {
        let x = column as f64 * step[0] + OVERLAP / 2.0;
        for (index, share) in [0.1, 0.5, 0.9].into_iter().enumerate() {
            for row in 0..rows as usize {
                let y = row as f64 * step[1] + share * tile[1];
                mark([x, y.min(extent[1])], format!("{column}{}{}", row + 1, ["a", "b", "c"][index]));
            }
        }
    }
    for row in 1..rows as usize {
        let y = row as f64 * step[1] + OVERLAP / 2.0;
        for (index, share) in [0.1, 0.5, 0.9].into_iter().enumerate() {
            for column in 0..columns as usize {
                let x = column as f64 * step[0] + share * tile[0];
                mark([x, y], format!("{row}{}{}", column + 1, ["d", "e", "f"][index]));
            }
        }
    }
    inner
}

/// Whether the piece is the other leg's, which the options may leave out.
pub(super) fn is_wanted(key: PieceKey, options: &CutOptions) -> bool {
    options.other_side || key != PieceKey::OtherSide
}
