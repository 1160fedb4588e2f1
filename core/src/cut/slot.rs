//! The axle's slot: from the axle out through the eye, with a lead-in.

use super::library::without;
use super::path::{Corner, Outline};
use super::region::Region;
use crate::fit::radial;
use crate::setup::{Problem, Setup, Warning};
use crate::words::{degrees, length, number};

/// How far the cut runs on beyond the plate's edge, mm, so that nothing of the edge is left standing.
const BEYOND: f64 = 0.5;
/// A lead-in that would have to be longer than this many times its size, because the edge runs along with it, is left out.
const LONGEST_LEAD_IN: f64 = 4.0;

/// A plate with its axle slot, and what is unusual about it.
pub(super) struct Slotted {
    pub(super) region: Region,
    pub(super) warnings: Vec<Warning>,
    /// From the axle to the middle of the mouth, mm.
    pub(super) depth: f64,
}

/// Points given along the slot and square to it, in the leg frame.
struct Frame {
    along: [f64; 2],
}

impl Frame {
    fn of(setup: &Setup) -> Self {
        let direction = radial(setup.dropout.slot_direction);
        Self { along: [direction.x, direction.y] }
    }

    fn at(&self, along: f64, square: f64) -> [f64; 2] {
        let [x, y] = self.along;
        [x * along - y * square, y * along + x * square]
    }
}

/// Cuts the slot into a plate that has the axle inside.
///
/// # Errors
/// A slot as wide as the eye, one that runs into the tube, one that cuts the plate in two.
pub(super) fn slotted(setup: &Setup, plate: &Region) -> Result<Slotted, Vec<Problem>> {
    let half = setup.dropout.slot_width / 2.0;
    let edge = plate.outer.nearest([0.0, 0.0]);
    if half >= edge[0].hypot(edge[1]) {
        return Err(slot_problem(
            "dropout.slot_width",
            setup.dropout.slot_width,
            format!(
                "The slot, {}, is as wide as the plate about the axle. Make the eye larger or the slot narrower.",
                length(setup.dropout.slot_width)
            ),
        ));
    }
    if setup.dropout.closed {
        return Ok(Slotted { region: plate.clone(), warnings: Vec::new(), depth: half });
    }
    let frame = Frame::of(setup);
    let mut warnings = Vec::new();
    let exits = [half, 0.0, -half].map(|square| plate.outer.crossings(frame.at(0.0, square), frame.along));
    let [left, middle, right] = [0, 1, 2].map(|side: usize| exits[side].first().copied().unwrap_or(half));
    if runs_into_tube(setup, &frame, [left, middle, right]) {
        return Err(slot_problem(
            "dropout.slot_direction",
            setup.dropout.slot_direction,
            format!(
                "A slot that opens at {} runs into the tube. Turn it away from the leg, or choose the closed hole.",
                degrees(setup.dropout.slot_direction)
            ),
        ));
    }
    if exits.iter().any(|exits| exits.len() > 1) {
        let message = "The slot opens towards another part of the plate: the axle cannot be drawn out that way. Turn the slot away from the tab.".to_owned();
        warnings.push(warning("dropout.slot_direction", setup.dropout.slot_direction, message));
    }
    let chamfer = setup.dropout.slot_chamfer;
    let lead_in = |exit: f64, side: f64| {
        let start = exit - chamfer;
        let way = plate.outer.crossings(frame.at(start, side * half), diagonal(&frame, side));
        let reach = way.first().map(|reach| reach / 2.0_f64.sqrt()).filter(|reach| *reach <= chamfer * LONGEST_LEAD_IN);
        reach.filter(|_| chamfer > 0.0 && start > 0.0).map(|reach| [start, reach + BEYOND.min(chamfer)])
    };
    let (on_left, on_right) = (lead_in(left, 1.0), lead_in(right, -1.0));
    if chamfer > 0.0 && (on_left.is_none() || on_right.is_none()) {
        let message = format!("The slot's mouth has no room for a lead-in of {}. Make it smaller.", length(chamfer));
        warnings.push(warning("dropout.slot_chamfer", chamfer, message));
    }
    let cut = cut(&frame, half, [left, middle, right], [on_left, on_right]);
    let mut pieces = without(plate, &Region { outer: cut, windows: Vec::new() });
    if pieces.len() != 1 {
        return Err(slot_problem(
            "dropout.slot_direction",
            setup.dropout.slot_direction,
            format!(
                "A slot that opens at {} cuts the plate in {} pieces. Turn it away from neck and tab, or choose the closed hole.",
                degrees(setup.dropout.slot_direction),
                pieces.len()
            ),
        ));
    }
    Ok(Slotted { region: pieces.remove(0), warnings, depth: middle })
}

/// Away from the slot's middle and outwards, at 45°, of length 1.
fn diagonal(frame: &Frame, side: f64) -> [f64; 2] {
    let share = 0.5_f64.sqrt();
    frame.at(share, side * share)
}

/// What is cut away: round at the axle, straight to the mouth, widening there.
fn cut(frame: &Frame, half: f64, exits: [f64; 3], lead_ins: [Option<[f64; 2]>; 2]) -> Outline {
    let outermost = exits.iter().fold(0.0_f64, |most, exit| most.max(*exit));
    let far = lead_ins.iter().flatten().fold(outermost, |most, [start, reach]| most.max(start + reach)) + BEYOND;
    // Counter-clockwise: out along the right side, back along the left.
    let mut points = vec![frame.at(0.0, -half)];
    let mut side = Vec::new();
    for (lead_in, sign) in lead_ins.into_iter().zip([1.0, -1.0]).rev() {
        side.clear();
        match lead_in {
            Some([start, reach]) => {
                side.push(frame.at(start, sign * half));
                side.push(frame.at(start + reach, sign * (half + reach)));
                side.push(frame.at(far, sign * (half + reach)));
            }
            None => side.push(frame.at(far, sign * half)),
        }
        if sign > 0.0 {
            side.reverse();
        }
        points.append(&mut side);
    }
    points.push(frame.at(0.0, half));
    let mut corners: Vec<Corner> = points.into_iter().map(|[x, y]| Corner { x, y, bulge: 0.0 }).collect();
    // Half a turn about the axle closes it.
    if let Some(last) = corners.last_mut() {
        last.bulge = 1.0;
    }
    Outline { corners }
}

/// Whether the slot reaches under the tube before it leaves the plate.
fn runs_into_tube(setup: &Setup, frame: &Frame, exits: [f64; 3]) -> bool {
    let fork = &setup.fork;
    let half = setup.dropout.slot_width / 2.0;
    [half, 0.0, -half].into_iter().zip(exits).any(|(square, exit)| {
        // Enough steps that none is longer than half a millimetre.
        let steps = (exit * 2.0).ceil().max(1.0);
        (0..=steps as usize).any(|step| {
            let [back, up] = frame.at(exit * step as f64 / steps, square);
            up > fork.tube_end && (back - fork.axle_offset).abs() < fork.tube_diameter / 2.0 && step > 0
        })
    })
}

pub(super) fn slot_problem(field: &str, value: f64, message: String) -> Vec<Problem> {
    vec![Problem { field: field.to_owned(), value: number(value), message }]
}

pub(super) fn warning(field: &str, value: f64, message: String) -> Warning {
    Warning { field: field.to_owned(), value, message }
}
