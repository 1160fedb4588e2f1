//! The section: looking down along the leg, outboard towards the bottom of the page.

use super::canvas::{Canvas, Label};
use super::{PAGE_EDGE, Scene, gap_label, stepped};
use crate::fit::{BOOT_LENGTH, Joint, Part};
use crate::solid::{Disc, Slab, Solid};
use crate::words::length;

/// The page begins this far inboard of the wheel's middle, mm.
const INBOARD: f64 = 14.0;

/// Draws the view; the page runs between the returned y's.
pub(super) fn draw(scene: &Scene<'_>, canvas: Canvas) -> (Canvas, f64, f64) {
    let canvas = wheel(scene, canvas);
    let canvas = tube(scene, canvas);
    let canvas = plate(scene, canvas);
    let canvas = caliper(scene, canvas);
    let canvas = envelopes(scene, canvas);
    let low =
        scene.setup.caliper.bodies.iter().fold(-INBOARD, |low, body| low.min(slot(scene) - body.inboard - PAGE_EDGE));
    let high = stepped(outermost(scene) + PAGE_EDGE);
    (binding(scene, headings(scene, canvas, high)), low, high)
}

fn slot(scene: &Scene<'_>) -> f64 {
    scene.report.lateral.rotor_plane
}

/// `out` of the outermost thing that is drawn, mm.
fn outermost(scene: &Scene<'_>) -> f64 {
    let setup = scene.setup;
    let tube = setup.fork.tube_gap / 2.0 + setup.fork.tube_diameter;
    let nut = setup.wheel.hub_width / 2.0 + setup.dropout.thickness + setup.wheel.nut_height;
    let bodies = setup.caliper.bodies.iter().map(|body| slot(scene) + body.outboard);
    bodies.fold(tube.max(nut), f64::max)
}

/// The extent of a slab across the page.
fn across(slab: &Slab) -> [f64; 2] {
    slab.discs.iter().fold([f64::MAX, f64::MIN], |[low, high], disc| {
        [low.min(disc.back - disc.radius), high.max(disc.back + disc.radius)]
    })
}

fn slab(scene: &Scene<'_>, canvas: Canvas, class: &str, title: &str, part: &Part) -> Canvas {
    match &part.solid {
        Solid::Slab(slab) => {
            canvas.rectangle(&scene.class(class, &part.name), title, across(slab), [slab.low, slab.high])
        }
        Solid::Spool(_) => canvas,
    }
}

fn wheel(scene: &Scene<'_>, canvas: Canvas) -> Canvas {
    let wheel = &scene.setup.wheel;
    let (half_hub, half_axle) = (wheel.hub_width / 2.0, wheel.axle_diameter / 2.0);
    let (flange, rim) = (wheel.flange_diameter / 2.0, wheel.rim_diameter / 2.0);
    let flange_out = half_hub - wheel.flange_inset;
    let spokes = [[-rim, 0.0], [-flange, flange_out], [flange, flange_out], [rim, 0.0]];
    let rotor = format!("Rotor, {} thick", length(wheel.rotor_thickness));
    let mut canvas = canvas.polygon(&scene.class("spokes", "spokes"), "Spokes", &spokes).rectangle(
        "hub",
        "Hub, out to the dropout's inner face",
        [-2.0 * half_axle, 2.0 * half_axle],
        [0.0, half_hub],
    );
    canvas = slab(scene, canvas, "rotor", &rotor, &scene.parts.rotor);
    let (radius, band) = (wheel.rotor_diameter / 2.0, wheel.rotor_diameter / 2.0 - wheel.track_width);
    let depth = [slot(scene) - wheel.rotor_thickness / 2.0, slot(scene) + wheel.rotor_thickness / 2.0];
    canvas.rectangle("band", "Braking band", [-radius, -band], depth).rectangle(
        "band",
        "Braking band",
        [band, radius],
        depth,
    )
}

fn tube(scene: &Scene<'_>, canvas: Canvas) -> Canvas {
    let fork = &scene.setup.fork;
    let radius = fork.tube_diameter / 2.0;
    let centre = [fork.axle_offset, fork.tube_gap / 2.0 + radius];
    let disc = Disc::new(centre[0], centre[1], radius);
    let bore = Disc::new(centre[0], centre[1], radius - fork.tube_wall);
    canvas.hull(&scene.class("tube", "tube"), "Fork tube", &[disc]).hull("hole", "Inside of the tube", &[bore])
}

fn plate(scene: &Scene<'_>, mut canvas: Canvas) -> Canvas {
    for part in [&scene.parts.eye, &scene.parts.neck] {
        canvas = slab(scene, canvas, "plate", "Dropout", part);
    }
    for part in scene.parts.web.iter().chain(&scene.parts.lands) {
        canvas = slab(scene, canvas, "tab", "Tab", part);
    }
    slab(scene, canvas, "nut", "Axle nut", &scene.parts.nut)
}

fn caliper(scene: &Scene<'_>, mut canvas: Canvas) -> Canvas {
    for part in &scene.parts.caliper {
        canvas = slab(scene, canvas, "caliper", &format!("Caliper: {}", part.name), part);
    }
    let line = &scene.setup.caliper.line;
    let exit = scene.frame.point(line.exit);
    let tip = exit + scene.frame.direction(line.direction).normalize() * BOOT_LENGTH;
    canvas.line(&scene.class("line", "line"), "Line, leaving the caliper", [exit.x, exit.z], [tip.x, tip.z])
}

/// Outlines of tube and rotor, grown by the gaps wanted.
fn envelopes(scene: &Scene<'_>, canvas: Canvas) -> Canvas {
    let (setup, required) = (scene.setup, &scene.setup.required);
    let radius = setup.fork.tube_diameter / 2.0;
    let tube = Disc::new(setup.fork.axle_offset, setup.fork.tube_gap / 2.0 + radius, radius + required.tube);
    let mut canvas =
        canvas.hull("envelope", &format!("Room wanted round the tube, {}", length(required.tube)), &[tube]);
    let grown = [(&scene.parts.nut, required.nut, "nut"), (&scene.parts.rotor, required.rotor, "rotor")];
    for (part, gap, name) in grown {
        if let Solid::Slab(slab) = &part.solid {
            let [left, right] = across(slab);
            let corner = |back: f64, out: f64| Disc::new(back, out, gap);
            let corners = [(left, slab.low), (right, slab.low), (right, slab.high), (left, slab.high)];
            let discs = corners.map(|(back, out)| corner(back, out));
            canvas = canvas.hull("envelope", &format!("Room wanted round the {name}, {}", length(gap)), &discs);
        }
    }
    canvas
}

fn headings(scene: &Scene<'_>, canvas: Canvas, high: f64) -> Canvas {
    let (edge, lateral) = (scene.half_width, &scene.report.lateral);
    let reach = scene.parts.caliper.iter().fold([f64::MAX, f64::MIN], |[low, high], part| match &part.solid {
        Solid::Slab(slab) => [low.min(across(slab)[0]), high.max(across(slab)[1])],
        Solid::Spool(_) => [low, high],
    });
    let slot_title = format!("Middle of the caliper's slot. {}", lateral.sentence);
    let right = |text| Label { text, class: "label", size: 7.0, anchor: "end" };
    let left = |text| Label { text, class: "label", size: 7.0, anchor: "start" };
    let mut canvas = canvas
        .line("axis", "Middle of the wheel", [-edge, 0.0], [edge, 0.0])
        .line(
            "axis slot-centre",
            &slot_title,
            [reach[0] - 6.0, lateral.slot_centre],
            [reach[1] + 6.0, lateral.slot_centre],
        )
        .note([edge - 4.0, -2.0], &right("middle of the wheel"))
        .note([-edge + 4.0, high - 4.0], &left("outboard ↓"));
    let recess = &scene.report.recess;
    if recess.kind != Joint::Lap {
        let text = match recess.kind {
            Joint::Short => format!("{} short of the tube", length(-recess.value)),
            _ => format!("recess {}", length(recess.value)),
        };
        canvas = canvas.note([edge - 4.0, high - 4.0], &right(&text));
    }
    canvas
}

/// The binding gap, its number drawn at the page's edge on its own side.
fn binding(scene: &Scene<'_>, canvas: Canvas) -> Canvas {
    let Some(pair) = scene.binding() else {
        return canvas;
    };
    let [from, to] = pair.points.map(|[back, _, out]| [back, out]);
    let middle = canvas.at([(from[0] + to[0]) / 2.0, (from[1] + to[1]) / 2.0]);
    let side = if middle[0] < 0.0 { -1.0 } else { 1.0 };
    let place = [side * (scene.half_width - 4.0), middle[1] + 16.0];
    canvas.dimension(from, to, place, &gap_label(&length(pair.gap), side))
}
