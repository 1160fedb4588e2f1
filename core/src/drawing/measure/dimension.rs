//! A dimension: line, arrows, what leads to it from the part, and its text.

use super::super::canvas::{Canvas, Label};
use crate::fit::radial;

/// Length of an arrow's head, as a share of the page's larger side.
const ARROW: f64 = 0.035;
/// Half its width against its length.
const SLIMNESS: f64 = 0.32;
/// A line shorter than this many heads has its arrows outside, pointing in.
const ROOM_FOR_ARROWS: f64 = 3.0;
/// Room a text needs about its middle, as shares of the page's width and height.
const TEXT_ROOM: [f64; 2] = [0.17, 0.07];

/// What is measured, in the view's coordinates.
pub(super) enum Dimension {
    /// A length: the line's ends, and the points of the part that lead to them.
    Length { ends: [[f64; 2]; 2], feet: [[f64; 2]; 2] },
    /// An angle about the axle between two clock angles.
    Angle { radius: f64, from: f64, to: f64 },
}

/// Straight from point to point.
pub(super) fn straight(from: [f64; 2], to: [f64; 2]) -> Dimension {
    Dimension::Length { ends: [from, to], feet: [from, to] }
}

/// Along the view's first coordinate, drawn at `at` of the second.
pub(super) fn across(from: [f64; 2], to: [f64; 2], at: f64) -> Dimension {
    Dimension::Length { ends: [[from[0], at], [to[0], at]], feet: [from, to] }
}

/// Along the view's second coordinate, drawn at `at` of the first.
pub(super) fn along(from: [f64; 2], to: [f64; 2], at: f64) -> Dimension {
    Dimension::Length { ends: [[at, from[1]], [at, to[1]]], feet: [from, to] }
}

impl Dimension {
    /// A view's rectangle, grown to hold the dimension.
    pub(super) fn within(&self, bounds: [[f64; 2]; 2]) -> [[f64; 2]; 2] {
        match self {
            Dimension::Length { ends, .. } => {
                let [beside, mut along] = [0, 1].map(|axis| {
                    let [low, high] = bounds[axis];
                    [low.min(ends[0][axis]).min(ends[1][axis]), high.max(ends[0][axis]).max(ends[1][axis])]
                });
                // The text stands above a line at the upper end.
                along[1] = along[1].max(ends[0][1] + TEXT_ROOM[1] * (along[1] - along[0]).max(beside[1] - beside[0]));
                [beside, along]
            }
            Dimension::Angle { radius, .. } => {
                let reach = 1.5 * radius;
                bounds.map(|[low, high]| [low.min(-reach), high.max(reach)])
            }
        }
    }

    /// Draws it on a page given as x, y, width and height.
    pub(super) fn draw(&self, canvas: Canvas, page: [f64; 4], text: &str) -> Canvas {
        let head = ARROW * page[2].max(page[3]);
        match *self {
            Dimension::Length { ends: [from, to], feet } => {
                let mut canvas = canvas;
                for (foot, end) in feet.into_iter().zip([from, to]) {
                    if foot != end {
                        canvas = canvas.line("dimension leader", "", foot, end);
                    }
                }
                let length = (to[0] - from[0]).hypot(to[1] - from[1]);
                let way =
                    if length > 1e-9 { [(to[0] - from[0]) / length, (to[1] - from[1]) / length] } else { [1.0, 0.0] };
                let is_inside = length > ROOM_FOR_ARROWS * head;
                let tail = if is_inside { 0.0 } else { 2.0 * head };
                let beyond = |point: [f64; 2], by: f64| [point[0] + by * way[0], point[1] + by * way[1]];
                let sense = if is_inside { 1.0 } else { -1.0 };
                let canvas =
                    arrow(canvas.line("dimension", "", beyond(from, -tail), beyond(to, tail)), from, way, sense * head);
                let canvas = arrow(canvas, to, way, -sense * head);
                // Across the page the text stands above the line, else beside it.
                let [a, b] = [canvas.at(from), canvas.at(to)];
                let middle = [(a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0];
                let is_across = (a[0] - b[0]).abs() > (a[1] - b[1]).abs();
                let away = if is_across || is_inside { 0.0 } else { 1.1 * TEXT_ROOM[0] * page[2] };
                let above = if is_across { 0.6 * head } else { -0.35 * head };
                written(canvas, page, [middle[0] + away, middle[1] - above], text)
            }
            Dimension::Angle { radius, from, to } => {
                let (low, high) = (from.min(to), from.max(to));
                let at = |clock: f64, radius: f64| {
                    let direction = radial(clock) * radius;
                    [direction.x, direction.y]
                };
                let mut canvas = canvas.arc("dimension arc", "", radius, [low, high]);
                for (clock, sense) in [(low, 1.0), (high, -1.0)] {
                    canvas = canvas.line("dimension leader", "", [0.0, 0.0], at(clock, 1.25 * radius));
                    // The head lies along the arc's chord.
                    let (tip, tail) = (at(clock, radius), at(clock + sense * (head / radius).to_degrees(), radius));
                    let length = (tail[0] - tip[0]).hypot(tail[1] - tip[1]).max(1e-9);
                    let way = [(tail[0] - tip[0]) / length, (tail[1] - tip[1]) / length];
                    if high - low > 1.0 {
                        canvas = arrow(canvas, tip, way, head);
                    }
                }
                let place = canvas.at(at((low + high) / 2.0, 1.3 * radius));
                written(canvas, page, place, text)
            }
        }
    }
}

/// A head with its tip at `tip`, as long as `length` along `way`.
fn arrow(canvas: Canvas, tip: [f64; 2], way: [f64; 2], length: f64) -> Canvas {
    let side = |sign: f64| {
        let half = sign * SLIMNESS * length;
        [tip[0] + length * way[0] - half * way[1], tip[1] + length * way[1] + half * way[0]]
    };
    canvas.polygon("dimension end", "", &[tip, side(1.0), side(-1.0)])
}

/// A text whose middle is at a place of the page, or as near to it as it can all be read.
fn written(canvas: Canvas, [left, top, width, height]: [f64; 4], [x, y]: [f64; 2], text: &str) -> Canvas {
    let [beside, above] = [TEXT_ROOM[0] * width, TEXT_ROOM[1] * height];
    let place = [x.max(left + beside).min(left + width - beside), y.max(top + above).min(top + height - 0.3 * above)];
    canvas.note(place, &Label { text, class: "dimension", size: 0.06 * width, anchor: "middle" })
}
