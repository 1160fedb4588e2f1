//! Setups whose plates are drawn, and what checks of their drawings share.

use serde_json::json;
use tabwright_core::cut::PieceKey;
use tabwright_core::{Setup, Side};

use crate::setup_with;
use crate::svg::{Element, Point, reach};

/// Numbers in drawings are rounded; what is read back from them agrees to this, mm.
pub const DRAWN: f64 = 0.02;

/// Plates of every kind of joining, slot and side.
pub fn setups() -> Vec<Setup> {
    [
        json!({}),
        json!({"side": "right", "fork": {"axle_offset": 12}}),
        json!({"dropout": {"closed": true}, "tab": {"build": "butt_welded"}}),
        json!({"tab": {"build": "on_existing"}}),
        json!({"tab": {"offset": 7}, "side": "right"}),
        json!({"tab": {"clock": 75, "fillet_radius": 11.3}, "fork": {"axle_offset": 23.7}}),
        json!({"tab": {"clock": -60}, "dropout": {"slot_direction": 90}}),
        json!({"dropout": {"weld_length": 280}}),
        // Wider than a page, and tabs far from the tube on either side.
        json!({"fork": {"axle_offset": 115}, "tab": {"clock": -70, "offset": 7}, "dropout": {"weld_length": 220}}),
        json!({"fork": {"axle_offset": -60}, "tab": {"clock": 95, "build": "butt_welded"}}),
        json!({"dropout": {"weld_length": 250, "closed": true}, "tab": {"clock": -100, "build": "butt_welded"}, "side": "right"}),
    ]
    .iter()
    .map(setup_with)
    .collect()
}

/// The elements of a class.
pub fn of<'a>(drawing: &'a [Element], class: &str) -> Vec<&'a Element> {
    drawing.iter().filter(|one| one.is(class)).collect()
}

/// How far two points are apart.
pub fn distance(a: Point, b: Point) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// The first and last point of a line.
pub fn ends(line: &Element) -> [Point; 2] {
    let points = line.points();
    [points[0], points[points.len() - 1]]
}

/// Left, right, top and foot of points.
pub fn bounds(points: &[Point]) -> [f64; 4] {
    [-reach(points, 0.5), reach(points, 0.0), -reach(points, 0.75), reach(points, 0.25)]
}

/// Which way `back` runs as a piece is seen on its outer face.
pub fn across(setup: &Setup, key: PieceKey) -> f64 {
    let is_left = (setup.side == Side::Left) != (key == PieceKey::OtherSide);
    if is_left { 1.0 } else { -1.0 }
}

/// Whether two of the lines cross at a point at their middles, square to each other, as long as this.
pub fn has_cross(lines: &[[Point; 2]], at: Point, long: f64) -> bool {
    let arm = |axis: usize| {
        lines.iter().any(|[from, to]| {
            let middle = [(from[0] + to[0]) / 2.0, (from[1] + to[1]) / 2.0];
            distance(middle, at) < DRAWN
                && (from[1 - axis] - to[1 - axis]).abs() < 1e-9
                && ((from[axis] - to[axis]).abs() - long).abs() < DRAWN
        })
    };
    arm(0) && arm(1)
}
