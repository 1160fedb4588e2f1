//! The SVG for cutting: edges and holes alone, in real millimetres.

use super::layout::Layout;
use super::svg_text::Page;
use super::template::{mm, sheet_root};
use crate::drawing::shape::Shape;

/// The cutting drawing: edges and holes alone, in mm.
pub(super) fn cutting_svg(layout: &Layout) -> String {
    let [width, height] = layout.size;
    let page = Page { left: 0.0, base: height, across: 1.0 };
    let mut root = sheet_root(width, height);
    for piece in &layout.placed {
        let looks = [("fill", "none"), ("stroke", "#ff0000"), ("stroke-width", "0.1")];
        let path = Shape::new("path").with(&[("class", "cut"), ("d", &page.path(&piece.region))]);
        root = root.around(path.with(&looks));
        for hole in &piece.holes {
            let [x, y] = page.at(hole.centre);
            let circle = Shape::new("circle");
            let circle =
                circle.with(&[("class", "hole"), ("cx", &mm(x)), ("cy", &mm(y)), ("r", &mm(hole.diameter / 2.0))]);
            root = root.around(circle.with(&looks));
        }
    }
    root.written()
}
