//! A dimension: line, arrows, what leads to it from the part, and its text.

use super::super::canvas::{Canvas, Label};
use super::table::Run;
use crate::fit::radial;

/// Length of an arrow's head, as a share of the page's width.
const ARROW: f64 = 0.035;
/// Half its width against its length.
const SLIMNESS: f64 = 0.32;
/// A line shorter than this many heads has its arrows outside, pointing in.
const ROOM_FOR_ARROWS: f64 = 3.0;
/// Room a text needs about its middle, as shares of the page's width and height.
const TEXT_ROOM: [f64; 2] = [0.17, 0.07];
/// How far an angle's arms run beyond its arc, and how far out its text stands, as shares of its radius.
const ARMS: f64 = 1.25;
const ANGLE_TEXT: f64 = 1.3;
/// An angle's picture reaches this far about its centre, as a share of its radius.
const ANGLE_REACH: f64 = 1.5;

/// What is measured, in the view's coordinates; an angle's points are its arms' on the arc.
pub(super) struct Dimension {
    pub(super) run: Run,
    /// The line's ends.
    pub(super) ends: [[f64; 2]; 2],
    /// The points of the part that lead to them.
    pub(super) feet: [[f64; 2]; 2],
    /// An angle's radius and clock angles.
    pub(super) angle: [f64; 3],
}

fn on_arc(clock: f64, radius: f64) -> [f64; 2] {
    let direction = radial(clock) * radius;
    [direction.x, direction.y]
}

/// A point on the way from one to the other by a length, and the way itself; to the right where they are one.
fn onward(from: [f64; 2], to: [f64; 2]) -> ([f64; 2], f64) {
    let length = (to[0] - from[0]).hypot(to[1] - from[1]);
    if length > 1e-9 { ([(to[0] - from[0]) / length, (to[1] - from[1]) / length], length) } else { ([1.0, 0.0], 0.0) }
}

impl Dimension {
    pub(super) fn new(run: Run, v: [f64; 5]) -> Self {
        let feet = [[v[0], v[1]], [v[2], v[3]]];
        let ends = match run {
            Run::Straight => feet,
            Run::Across => [[v[0], v[4]], [v[2], v[4]]],
            Run::Along => [[v[4], v[1]], [v[4], v[3]]],
            Run::Angle => [on_arc(v[1], v[0]), on_arc(v[2], v[0])],
        };
        Self { run, ends, feet, angle: [v[0], v[1], v[2]] }
    }

    /// A view's rectangle, least and greatest of both coordinates, grown to hold the dimension.
    pub(super) fn grow(&self, bounds: &mut [f64; 5]) {
        let reach = ANGLE_REACH * self.angle[0];
        for axis in 0..2 {
            for end in self.ends {
                bounds[2 * axis] = bounds[2 * axis].min(end[axis]);
                bounds[2 * axis + 1] = bounds[2 * axis + 1].max(end[axis]);
            }
        }
        if self.run == Run::Angle {
            for axis in 0..2 {
                bounds[2 * axis] = bounds[2 * axis].min(-reach);
                bounds[2 * axis + 1] = bounds[2 * axis + 1].max(reach);
            }
        } else {
            // The text stands above a line at the upper end.
            let size = (bounds[1] - bounds[0]).max(bounds[3] - bounds[2]);
            bounds[3] = bounds[3].max(self.ends[0][1] + TEXT_ROOM[1] * size);
        }
    }

    /// Draws it on a page given as x, y, width and height.
    pub(super) fn draw(&self, mut canvas: Canvas, page: [f64; 4], text: &str) -> Canvas {
        let head = ARROW * page[2];
        let [from, to] = self.ends;
        if self.run == Run::Angle {
            let [radius, one, other] = self.angle;
            let (low, high) = (one.min(other), one.max(other));
            canvas = canvas.arc("dimension arc", "", radius, [low, high]);
            // A head lies along its chord.
            let chord = (head / radius).to_degrees();
            for (clock, sense) in [(low, chord), (high, -chord)] {
                let tip = on_arc(clock, radius);
                let (way, _) = onward(tip, on_arc(clock + sense, radius));
                canvas =
                    arrow(canvas.line("dimension leader", "", [0.0; 2], on_arc(clock, ARMS * radius)), tip, way, head);
            }
            let place = canvas.at(on_arc((low + high) / 2.0, ANGLE_TEXT * radius));
            return written(canvas, page, place, text);
        }
        for index in 0..2 {
            if self.feet[index] != self.ends[index] {
                canvas = canvas.line("dimension leader", "", self.feet[index], self.ends[index]);
            }
        }
        let (way, length) = onward(from, to);
        let is_inside = length > ROOM_FOR_ARROWS * head;
        let (tail, head) = if is_inside { (0.0, head) } else { (2.0 * head, -head) };
        let beyond = |point: [f64; 2], by: f64| [point[0] + by * way[0], point[1] + by * way[1]];
        canvas = canvas.line("dimension", "", beyond(from, -tail), beyond(to, tail));
        canvas = arrow(arrow(canvas, from, way, head), to, way, -head);
        // Across the page the text stands above the line, else beside a short one.
        let [a, b] = [canvas.at(from), canvas.at(to)];
        let is_across = (a[0] - b[0]).abs() > (a[1] - b[1]).abs();
        let beside = if is_across || is_inside { 0.0 } else { 1.1 * TEXT_ROOM[0] * page[2] };
        let above = ARROW * page[2] * if is_across { 0.6 } else { -0.35 };
        written(canvas, page, [(a[0] + b[0]) / 2.0 + beside, (a[1] + b[1]) / 2.0 - above], text)
    }
}

/// A head with its tip at `tip`, as long as `length` along `way`.
fn arrow(canvas: Canvas, tip: [f64; 2], way: [f64; 2], length: f64) -> Canvas {
    let half = SLIMNESS * length;
    let back = [tip[0] + length * way[0], tip[1] + length * way[1]];
    let corner = |half: f64| [back[0] - half * way[1], back[1] + half * way[0]];
    canvas.polygon("dimension end", "", &[tip, corner(half), corner(-half)])
}

/// A text whose middle is at a place of the page, or as near to it as it can all be read.
fn written(canvas: Canvas, [left, top, width, height]: [f64; 4], [x, y]: [f64; 2], text: &str) -> Canvas {
    let [beside, above] = [TEXT_ROOM[0] * width, TEXT_ROOM[1] * height];
    let place = [x.max(left + beside).min(left + width - beside), y.max(top + above).min(top + height - 0.3 * above)];
    canvas.note(place, &Label { text, class: "dimension", size: 0.06 * width, anchor: "middle" })
}
