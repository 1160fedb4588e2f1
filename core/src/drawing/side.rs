//! The side view: looking at the braked side, leg upright.

use super::canvas::{Canvas, Label};
use super::{PAGE_EDGE, Scene, caliper_corners, gap_label, stepped};
use crate::fit::{BOOT_LENGTH, Part, TUBE_LENGTH, radial};
use crate::setup::{BoltSize, Setup};
use crate::solid::{Disc, Solid, Vector};
use crate::words::length;

/// From the page's upper edge to the base of a number in its corner, mm.
const CORNER: f64 = 14.0;
/// Height of the heading in the page's left upper corner, below which a number starts there, mm.
const HEADING: f64 = 12.0;
/// The page reaches at least this far above the axle, mm.
const LEAST_ABOVE: f64 = 150.0;

/// Diameter of a clearance hole, mm: ISO 273, medium series.
pub(super) fn hole_diameter(size: BoltSize) -> f64 {
    match size {
        BoltSize::M5 => 5.5,
        BoltSize::M6 => 6.6,
    }
}

/// Draws the view; the page runs between the returned y's.
pub(super) fn draw(scene: &Scene<'_>, canvas: Canvas) -> (Canvas, f64, f64) {
    let (above, below) = extent(scene);
    let canvas = wheel(scene, canvas);
    let canvas = plate(scene, canvas);
    let canvas = caliper(scene, canvas, above);
    let canvas = envelopes(scene, canvas, above);
    (binding(scene, headings(scene, canvas, below), above), -above, below)
}

/// How far the page reaches above and below the axle, mm.
fn extent(scene: &Scene<'_>) -> (f64, f64) {
    let rotor = scene.setup.wheel.rotor_diameter / 2.0;
    let corners = || caliper_corners(scene.setup, &scene.frame);
    let above = corners().fold(rotor, |most, corner| most.max(corner.y));
    let below = corners().fold(rotor, |most, corner| most.max(-corner.y));
    (stepped(above + PAGE_EDGE).max(LEAST_ABOVE), stepped(below + PAGE_EDGE))
}

fn wheel(scene: &Scene<'_>, canvas: Canvas) -> Canvas {
    let wheel = &scene.setup.wheel;
    let radius = wheel.rotor_diameter / 2.0;
    let rotor = format!("Rotor, {}", length(wheel.rotor_diameter));
    canvas
        .hull(&scene.class("rotor", "rotor"), &rotor, &[Disc::new(0.0, 0.0, radius)])
        .ring("band", "Braking band", [0.0, 0.0], [radius - wheel.track_width, radius])
        .hull("spokes", "Spoke flange", &[Disc::new(0.0, 0.0, wheel.flange_diameter / 2.0)])
}

fn slab(scene: &Scene<'_>, canvas: Canvas, class: &str, title: &str, part: &Part) -> Canvas {
    match &part.solid {
        Solid::Slab(slab) => canvas.hull(&scene.class(class, &part.name), title, &slab.discs),
        Solid::Spool(_) => canvas,
    }
}

/// What is fixed to the caliper, in its own coordinates; see [`Canvas::placed`].
fn with_caliper(scene: &Scene<'_>, canvas: Canvas, draw: impl FnOnce(Canvas) -> Canvas) -> Canvas {
    canvas.placed(flat(scene.frame.origin), scene.setup.tab.clock, draw)
}

fn plate(scene: &Scene<'_>, mut canvas: Canvas) -> Canvas {
    let setup = scene.setup;
    for part in [&scene.parts.eye, &scene.parts.neck] {
        canvas = slab(scene, canvas, "plate", "Dropout", part);
    }
    if let (Some(web), Some(lands)) = (&scene.parts.web, &scene.parts.lands) {
        canvas = slab(scene, canvas, "tab", "Tab", web);
        let discs = setup.caliper.holes.map(|[cw, rad]| Disc::new(cw, rad, setup.tab.edge));
        let class = scene.class("tab", &lands.name);
        canvas = with_caliper(scene, canvas, |canvas| canvas.hull(&class, "Tab", &discs));
    }
    canvas = canvas.hull("hole", "Axle slot", &axle_slot(setup));
    slab(scene, canvas, "nut", "Axle nut", &scene.parts.nut)
}

/// The axle slot, or the hole.
pub(super) fn axle_slot(setup: &Setup) -> Vec<Disc> {
    let half = setup.dropout.slot_width / 2.0;
    let mut slot = vec![Disc::new(0.0, 0.0, half)];
    if !setup.dropout.closed {
        let mouth = radial(setup.dropout.slot_direction) * (setup.dropout.eye_radius + half);
        slot.push(Disc::new(mouth.x, mouth.y, half));
    }
    slot
}

fn caliper(scene: &Scene<'_>, canvas: Canvas, above: f64) -> Canvas {
    let setup = scene.setup;
    let pad = &setup.caliper.pad;
    let (half, depth) = (pad.length / 2.0, pad.height / 2.0);
    let corners = [[-half, -depth], [half, -depth], [half, depth], [-half, depth]];
    let canvas = with_caliper(scene, canvas, |canvas| canvas.polygon("pad", "Brake pad", &corners));
    // The tube lies outboard of plate and pads, the caliper reaches past it.
    let fork = &setup.fork;
    let radius = fork.tube_diameter / 2.0;
    let across = [fork.axle_offset - radius, fork.axle_offset + radius];
    let top = (fork.tube_end + TUBE_LENGTH).min(above + 1.0).max(fork.tube_end);
    let canvas = canvas.rectangle(&scene.class("tube", "tube"), "Fork tube", across, [fork.tube_end, top]);
    with_caliper(scene, canvas, |canvas| outboard(setup, canvas, &|class, part| scene.class(class, part)))
}

/// The caliper's bodies, holes and line, in its own coordinates; `class` marks parts by name.
pub(super) fn outboard(setup: &Setup, mut canvas: Canvas, class: &dyn Fn(&str, &str) -> String) -> Canvas {
    let caliper = &setup.caliper;
    for body in &caliper.bodies {
        let discs: Vec<Disc> = body.outline.iter().map(|&[cw, rad]| Disc::new(cw, rad, 0.0)).collect();
        canvas = canvas.hull(&class("caliper", &body.name), &["Caliper: ", &body.name].concat(), &discs);
    }
    let radius = hole_diameter(caliper.bolt.size) / 2.0;
    for (title, [cw, rad]) in ["Caliper hole 1", "Caliper hole 2"].into_iter().zip(caliper.holes) {
        canvas = canvas.hull("hole", title, &[Disc::new(cw, rad, radius)]);
    }
    let line = &caliper.line;
    let ([exit_cw, exit_rad, _], [cw, rad, out]) = (line.exit, line.direction);
    let direction = Vector::new(cw, rad, out).normalize() * BOOT_LENGTH;
    let tip = [exit_cw + direction.x, exit_rad + direction.y];
    canvas.line(&class("line", "line"), "Line, leaving the caliper", [exit_cw, exit_rad], tip).hull(
        "line end",
        "Line exit",
        &[Disc::new(exit_cw, exit_rad, line.diameter / 2.0)],
    )
}

/// Outlines of tube and nut, grown by the gaps wanted.
fn envelopes(scene: &Scene<'_>, canvas: Canvas, above: f64) -> Canvas {
    let (fork, required) = (&scene.setup.fork, &scene.setup.required);
    let half = fork.tube_diameter / 2.0;
    let top = (fork.tube_end + TUBE_LENGTH).min(above + 20.0).max(fork.tube_end);
    let corner = |back: f64, up: f64| Disc::new(back, up, required.tube);
    let (left, right) = (fork.axle_offset - half, fork.axle_offset + half);
    let tube = [corner(left, fork.tube_end), corner(right, fork.tube_end), corner(right, top), corner(left, top)];
    let nut = Disc::new(0.0, 0.0, scene.setup.wheel.nut_diameter / 2.0 + required.nut);
    canvas.hull("envelope", &format!("Room wanted round the tube, {}", length(required.tube)), &tube).hull(
        "envelope",
        &format!("Room wanted round the nut, {}", length(required.nut)),
        &[nut],
    )
}

fn headings(scene: &Scene<'_>, canvas: Canvas, below: f64) -> Canvas {
    let (edge, y) = (scene.half_width - 4.0, below - 4.0);
    let ahead = canvas.at([-edge, 0.0])[0];
    let anchor = |x: f64| if x < 0.0 { "start" } else { "end" };
    let label = |text, x| Label { text, class: "label", size: 7.0, anchor: anchor(x) };
    canvas
        .line("axis", "Axle", [-7.0, 0.0], [7.0, 0.0])
        .line("axis", "Axle", [0.0, -7.0], [0.0, 7.0])
        .note([ahead, y], &label("ahead", ahead))
        .note([-ahead, y], &label("behind", -ahead))
}

/// The binding gap, its number drawn at the page's edge, clear of caliper and tube.
fn binding(scene: &Scene<'_>, canvas: Canvas, above: f64) -> Canvas {
    let Some(pair) = scene.binding() else {
        return canvas;
    };
    let [from, to] = pair.points.map(|[back, up, _]| [back, up]);
    let middle = canvas.at([(from[0] + to[0]) / 2.0, (from[1] + to[1]) / 2.0]);
    let pads = canvas.at(flat(scene.frame.origin));
    // A gap beside the tube has free room on the far side of the tube; one further out has it in the page's corner.
    let beside_tube =
        middle[0].abs() < pads[0].abs() && (middle[0] - pads[0]).abs() > scene.setup.caliper.pad.length / 2.0;
    let side = if (middle[0] < 0.0) == beside_tube { 1.0 } else { -1.0 };
    let corner = if side < 0.0 { CORNER + HEADING } else { CORNER };
    let place = [side * (scene.half_width - 4.0), if beside_tube { middle[1] } else { corner - above }];
    canvas.dimension(from, to, place, &gap_label(&length(pair.gap), side))
}

fn flat(point: Vector) -> [f64; 2] {
    [point.x, point.y]
}
