//! Fields that must go together, after each has passed by itself.

use super::reader::Findings;
use super::{Material, Mount, Setup};
use crate::plain::Plain;
use crate::words::{given_length, length};

/// Directions shorter than this point nowhere.
const SHORTEST_DIRECTION: f64 = 1e-6;
/// Holes closer than this are one hole, mm.
const NEAREST_HOLES: f64 = 1.0;
/// The most readings of one setup, so that it fits into a link: three of each kind, before and after welding.
const MOST_READINGS_TOGETHER: usize = 54;
/// Post faces further out of line than this deserve a second look, mm.
const POST_FACES_IN_LINE: f64 = 0.2;

/// Records every contradiction as a problem and every oddity as a warning.
pub(super) fn check(setup: &Setup, findings: &mut Findings) {
    wheel(setup, findings);
    caliper(setup, findings);
    plate(setup, findings);
    old_edge(setup, findings);
    readings(setup, findings);
    if setup.load.material == Material::Own && setup.load.tensile_strength < setup.load.yield_strength {
        let message = "The tensile strength is below the yield: nothing breaks before it yields. Look both up again.";
        findings.warning("load.tensile_strength", setup.load.tensile_strength, message.to_owned());
    }
}

fn wheel(setup: &Setup, findings: &mut Findings) {
    let wheel = &setup.wheel;
    let radius = wheel.rotor_diameter / 2.0;
    let mut too_wide = |key: &str, label: &str, value: f64, limit: f64, what: &str| {
        if value >= limit {
            let message = format!("{label} is {}, but must stay below {what}, {}.", length(value), length(limit));
            findings.problem(key, Some(&value.into()), message);
        }
    };
    too_wide("wheel.track_width", "Braking band", wheel.track_width, radius, "the rotor's radius");
    too_wide("wheel.rotor_inset", "Rotor inset", wheel.rotor_inset, wheel.hub_width / 2.0, "half the hub width");
    too_wide("wheel.flange_inset", "Flange inset", wheel.flange_inset, wheel.hub_width / 2.0, "half the hub width");
    too_wide(
        "fork.tube_wall",
        "Tube wall",
        setup.fork.tube_wall,
        setup.fork.tube_diameter / 2.0,
        "half the tube's diameter",
    );

    if wheel.rim_diameter >= 2.0 * wheel.tyre_radius {
        let message = format!(
            "The rim, {}, is larger than the tyre, {}.",
            length(wheel.rim_diameter),
            length(2.0 * wheel.tyre_radius)
        );
        findings.warning("wheel.rim_diameter", wheel.rim_diameter, message);
    }
    if wheel.rotor_diameter >= wheel.rim_diameter {
        let message = format!(
            "The rotor, {}, is larger than the rim, {}.",
            length(wheel.rotor_diameter),
            length(wheel.rim_diameter)
        );
        findings.warning("wheel.rotor_diameter", wheel.rotor_diameter, message);
    }
    if wheel.nut_diameter <= wheel.axle_diameter {
        let message = format!(
            "The nut, {}, is no larger than the axle, {}.",
            length(wheel.nut_diameter),
            length(wheel.axle_diameter)
        );
        findings.warning("wheel.nut_diameter", wheel.nut_diameter, message);
    }
}

fn caliper(setup: &Setup, findings: &mut Findings) {
    let caliper = &setup.caliper;
    let pad_inner = setup.wheel.rotor_diameter / 2.0 - caliper.pad.edge_inset - caliper.pad.height + setup.tab.reach;
    if pad_inner <= 0.0 {
        let message = format!(
            "Pad height is {}: with this rotor, inset and reach the pads would cover the axle. Give less than {}.",
            length(caliper.pad.height),
            length(caliper.pad.height + pad_inner),
        );
        findings.problem("caliper.pad.height", Some(&caliper.pad.height.into()), message);
    }
    let [first, second] = caliper.holes;
    if (first[0] - second[0]).hypot(first[1] - second[1]) < NEAREST_HOLES {
        let message = "Holes: the two lie on one spot. Give the centres of two holes.".to_owned();
        findings.problem("caliper.holes", Some(&caliper.holes.datum().into()), message);
    }
    if norm(caliper.line.direction) < SHORTEST_DIRECTION {
        let message = "Line direction points nowhere. Give at least one number other than 0.".to_owned();
        findings.problem("caliper.line.direction", Some(&caliper.line.direction.datum().into()), message);
    }
    if caliper.mount == Mount::Post {
        match caliper.bolt_direction {
            None => {
                let message =
                    "Bolt direction is missing: posts need the way the bolts go in, for example [0, -1, 0].".to_owned();
                findings.problem("caliper.bolt_direction", None, message);
            }
            Some(direction) if direction[0].hypot(direction[1]) < SHORTEST_DIRECTION => {
                let message = "Bolt direction must not run along the axle: bolts of posts go in square to it. For bolts along the axle choose the side lug.".to_owned();
                findings.problem("caliper.bolt_direction", Some(&direction.datum().into()), message);
            }
            Some(direction) => posts_in_line(setup, direction, findings),
        }
    }
}

fn posts_in_line(setup: &Setup, direction: [f64; 3], findings: &mut Findings) {
    let [first, second] = setup.caliper.holes;
    let along = (second[0] - first[0]) * direction[0] + (second[1] - first[1]) * direction[1];
    let step = along.abs() / direction[0].hypot(direction[1]);
    if step > POST_FACES_IN_LINE {
        let message = format!(
            "The two post faces are {} out of line along the bolts. Check holes and bolt direction.",
            length(step)
        );
        findings.warning("caliper.bolt_direction", step, message);
    }
}

fn plate(setup: &Setup, findings: &mut Findings) {
    let (dropout, axle) = (&setup.dropout, setup.wheel.axle_diameter);
    if dropout.slot_width < axle {
        let message = format!("The slot, {}, is narrower than the axle, {}.", length(dropout.slot_width), length(axle));
        findings.warning("dropout.slot_width", dropout.slot_width, message);
    }
    if dropout.slot_width >= 2.0 * dropout.eye_radius {
        let message = format!(
            "The slot, {}, is wider than the plate's eye, {}.",
            length(dropout.slot_width),
            length(2.0 * dropout.eye_radius)
        );
        findings.warning("dropout.slot_width", dropout.slot_width, message);
    }
    if dropout.weld_length < dropout.neck_width {
        let lap = given_length(dropout.weld_length);
        let message = format!("The lap on the tube, {lap}, is shorter than the neck is wide.");
        findings.warning("dropout.weld_length", dropout.weld_length, message);
    }
}

fn old_edge(setup: &Setup, findings: &mut Findings) {
    let [first, second] = setup.tab.old_edge;
    if (first[0] - second[0]).hypot(first[1] - second[1]) < NEAREST_HOLES {
        let message = "Old plate's edge: the two points lie on one spot. Give two that are further apart.".to_owned();
        findings.problem("tab.old_edge", Some(&setup.tab.old_edge.datum().into()), message);
    }
}

fn readings(setup: &Setup, findings: &mut Findings) {
    let (before, after) = (setup.tack.before.lists(), setup.tack.after.lists());
    let count: usize = before.into_iter().chain(after).map(<[f64]>::len).sum();
    if count > MOST_READINGS_TOGETHER {
        let message = format!(
            "Tack check: {count} readings together, but {MOST_READINGS_TOGETHER} is the most. Three of each are plenty: take the rest out."
        );
        findings.problem("tack", None, message);
    }
}

fn norm(v: [f64; 3]) -> f64 {
    v.iter().map(|x| x * x).sum::<f64>().sqrt()
}
