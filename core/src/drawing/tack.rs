//! The part as designed and as built over each other, errors enlarged.

use super::canvas::{Canvas, Label};
use super::shape::Shape;
use super::side::{axle_slot, hole_diameter};
use crate::build::AsBuilt;
use crate::fit::{CaliperFrame, Parts, TUBE_LENGTH};
use crate::setup::{Setup, Side};
use crate::solid::{Disc, Solid, Vector};
use crate::turn::sin_cos;
use crate::words::{coordinate, number, row};

/// Errors are drawn so many times as large.
const SCALES: [f64; 6] = [50.0, 20.0, 10.0, 5.0, 2.0, 1.0];
/// The largest error fills no more than this, mm on the page.
const MOST_DRAWN: f64 = 15.0;
/// Free edge about what is of interest, mm.
const EDGE: f64 = 24.0;
const TEXT: f64 = 6.0;

/// How many times as large the errors of a part are drawn.
fn enlarged(built: &AsBuilt) -> f64 {
    let reach = |hole: &crate::build::BuiltHole| hole.off.distance + hole.ellipse.major;
    let most = built.holes.iter().map(reach).fold(0.0, f64::max);
    SCALES.into_iter().find(|scale| scale * most <= MOST_DRAWN).unwrap_or(1.0)
}

/// Draws a part as built over its design as a whole SVG document, in the side view's coordinates about tab and pads.
///
/// Classes: `rotor`, `band`, `plate`, `tube`, `hole` behind it; `designed pad` and `designed hole` as they should be;
/// `built pad`, `built hole`, `hole-off` and `ellipse` as they are; `label`. Where the true hole lies 19 times in 20 is
/// inside its ellipse. `data-enlarged` of the document says how many times as large errors and ellipses are drawn.
pub fn draw_tack(setup: &Setup, built: &AsBuilt) -> String {
    let ahead = match setup.side {
        Side::Left => -1.0,
        Side::Right => 1.0,
    };
    let scale = enlarged(built);
    let frame = CaliperFrame::of(setup);
    let canvas = background(setup, Canvas::new(ahead, -1.0));
    let pad = &setup.caliper.pad;
    let (half, depth) = (pad.length / 2.0, pad.height / 2.0);
    let corners = [[-half, -depth], [half, -depth], [half, depth], [-half, depth]];
    let flat = |point: Vector| [point.x, point.y];
    let designed = corners.map(|[cw, rad]| flat(frame.point([cw, rad, 0.0])));
    // The caliper as built: moved and turned by the enlarged difference of its holes.
    let away = |index: usize| {
        let hole = &built.holes[index];
        let [back, up] = hole.designed;
        [back + scale * (hole.back - back), up + scale * (hole.up - up)]
    };
    let drawn = [away(0), away(1)];
    let pads = {
        let [from, to] = [built.holes[0].designed, built.holes[1].designed];
        let turn =
            (drawn[1][1] - drawn[0][1]).atan2(drawn[1][0] - drawn[0][0]) - (to[1] - from[1]).atan2(to[0] - from[0]);
        let (sin, cos) = sin_cos(turn);
        let middle = |points: [[f64; 2]; 2]| [(points[0][0] + points[1][0]) / 2.0, (points[0][1] + points[1][1]) / 2.0];
        let (was, is) = (middle([from, to]), middle(drawn));
        designed.map(|[back, up]| {
            let (b, u) = (back - was[0], up - was[1]);
            [is[0] + cos * b - sin * u, is[1] + sin * b + cos * u]
        })
    };
    let radius = hole_diameter(setup.caliper.bolt.size) / 2.0;
    let mut canvas = canvas.polygon("designed pad", "Brake pad as designed", &designed).polygon(
        "built pad",
        "Brake pad as built",
        &pads,
    );
    let mut reached: Vec<[f64; 2]> = designed.into_iter().chain(pads).collect();
    for (index, name) in ["1", "2"].into_iter().enumerate() {
        let hole = &built.holes[index];
        let ([back, up], [to_back, to_up]) = (hole.designed, drawn[index]);
        let outline: Vec<[f64; 2]> = hole
            .ellipse
            .outline
            .iter()
            .map(|point| [to_back + scale * (point[0] - hole.back), to_up + scale * (point[1] - hole.up)])
            .collect();
        let at = canvas.at([back, up]);
        let label = Label { text: name, class: "label", size: TEXT, anchor: "middle" };
        canvas = canvas
            .hull("designed hole", &["Hole ", name, " as designed"].concat(), &[Disc::new(back, up, radius)])
            .hull("built hole", &["Hole ", name, " as built"].concat(), &[Disc::new(to_back, to_up, radius)])
            .line("hole-off", &["How far hole ", name, " is off"].concat(), [back, up], [to_back, to_up])
            .polygon("ellipse", "The hole's centre lies inside, 19 times in 20", &outline)
            .note([at[0], at[1] - radius - TEXT], &label);
        reached.extend(outline);
        reached.extend([[back, up], [to_back, to_up]]);
    }
    let points: Vec<[f64; 2]> = reached.into_iter().map(|point| canvas.at(point)).collect();
    let reach = |axis: usize, way: f64| points.iter().map(|point| way * point[axis]).fold(f64::NEG_INFINITY, f64::max);
    let (left, top) = (-reach(0, -1.0) - EDGE, -reach(1, -1.0) - EDGE);
    let page = [left, top, reach(0, 1.0) + EDGE - left, reach(1, 1.0) + EDGE - top];
    let times =
        if scale == 1.0 { "errors as they are".to_owned() } else { format!("errors {} times as large", number(scale)) };
    let note = Label { text: &times, class: "label", size: TEXT, anchor: "start" };
    let body = canvas.note([left + 3.0, top + TEXT + 3.0], &note).into_group();
    let title = format!("Holes and pads as designed and as built, {times}");
    Shape::new("svg")
        .with(&[
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("class", "tack"),
            ("role", "img"),
            ("aria-label", &title),
            ("viewBox", &row(page.map(coordinate), " ")),
            ("font-family", "sans-serif"),
        ])
        .at(&[("data-enlarged", scale)])
        .around(Shape::text("title", &title))
        .around(body)
        .written()
}

/// What does not move: rotor, plate and tube.
fn background(setup: &Setup, canvas: Canvas) -> Canvas {
    let radius = setup.wheel.rotor_diameter / 2.0;
    let parts = Parts::of(setup);
    let mut canvas = canvas.hull("rotor", "Rotor", &[Disc::new(0.0, 0.0, radius)]).ring(
        "band",
        "Braking band",
        [0.0, 0.0],
        [radius - setup.wheel.track_width, radius],
    );
    for part in [&parts.eye, &parts.neck] {
        if let Solid::Slab(slab) = &part.solid {
            canvas = canvas.hull("plate", "Dropout", &slab.discs);
        }
    }
    let (fork, half) = (&setup.fork, setup.fork.tube_diameter / 2.0);
    let across = [fork.axle_offset - half, fork.axle_offset + half];
    canvas.rectangle("tube", "Fork tube", across, [fork.tube_end, fork.tube_end + TUBE_LENGTH]).hull(
        "hole",
        "Axle slot",
        &axle_slot(setup),
    )
}
