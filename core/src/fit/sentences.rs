//! The report in words: short sentences with the number in them.

use super::clearance::{Pair, Verdict};
use super::coverage::PadCover;
use super::lateral::{Joint, Lateral, Recess};
use super::line::{LineRun, Run};
use super::removal::WheelRemoval;
use super::report::Outcome;
use crate::setup::{Setup, Warning};
use crate::words::{degrees, length, percent};

/// Less pad than this on the band deserves a warning; as much pad as possible is common practice, no source.
const FULL_ENOUGH_COVER: f64 = 0.95;
/// A tab further out of the dropout's plane than this deserves a warning, mm: common practice, no source.
const IN_ONE_PLANE: f64 = 0.05;

/// The verdict in one sentence, with the binding pair and its number.
pub(super) fn summary(verdict: Outcome, worst: &Pair, pairs: &[Pair], lateral: &Lateral, recess: &Recess) -> String {
    let label = worst.name.label();
    let others = |which: Verdict| pairs.iter().filter(|pair| pair.verdict() == which).count().saturating_sub(1);
    let more = |count: usize, what: &str| match count {
        0 => String::new(),
        count => format!(" {count} more {what}."),
    };
    match verdict {
        Outcome::Clears => format!(
            "Everything clears. Closest to its limit: {label}, {} for {} wanted.",
            length(worst.gap),
            length(worst.required)
        ),
        Outcome::Tight => {
            let rest = more(
                others(Verdict::Tight),
                if others(Verdict::Tight) == 1 { "pair is tight" } else { "pairs are tight" },
            );
            format!("Tight: {label} has {} where {} is wanted.{rest}", length(worst.gap), length(worst.required))
        }
        Outcome::Hits => {
            let rest = more(others(Verdict::Hits), if others(Verdict::Hits) == 1 { "pair hits" } else { "pairs hit" });
            format!("Hits: {label} overlap by {}.{rest}", length(-worst.gap))
        }
        Outcome::CannotBuild if recess.joint == Joint::Beyond => self::recess(recess),
        Outcome::CannotBuild => self::lateral(lateral),
    }
}

/// The pads on the rotor.
pub(super) fn pad(cover: &PadCover) -> String {
    let mut text = format!("{} of the pad is on the braking band", percent(cover.coverage));
    if cover.overhang >= 0.05 {
        text += &format!("; its outer corners stand {} past the rotor's edge", length(cover.overhang));
    }
    if cover.below_band >= 0.05 {
        text += &format!("; its lower edge is {} below the band", length(cover.below_band));
    }
    text + "."
}

/// The caliper's slot against the rotor.
pub(super) fn lateral(lateral: &Lateral) -> String {
    let off = lateral.misalignment;
    let (slot_side, move_to, left) = if off > 0.0 {
        ("outboard of", "inboard", lateral.room_inboard)
    } else {
        ("inboard of", "outboard", lateral.room_outboard)
    };
    if off.abs() < 0.05 {
        format!(
            "The caliper's slot is in line with the rotor, with {} of adjustment either way.",
            length(lateral.adjust)
        )
    } else if lateral.usable {
        format!(
            "The caliper's slot sits {} {slot_side} the rotor: move the caliper {move_to}, which leaves {} of its adjustment.",
            length(off.abs()),
            length(left.max(0.0)),
        )
    } else {
        format!(
            "The caliper cannot be set on the rotor: its slot sits {} {slot_side} it, and it adjusts by {} only.",
            length(off.abs()),
            length(lateral.adjust),
        )
    }
}

/// The line's way out.
pub(super) fn line(line: &LineRun) -> String {
    let way = match line.run {
        Run::Up => "leaves up the leg",
        Run::Across => "leaves across the leg",
        Run::Away => "leaves the wrong way, down and away from the crown",
    };
    let angle = degrees(line.angle);
    if line.angle < 1.0 {
        format!("The line {way}, parallel to it.")
    } else {
        format!("The line {way}, {angle} off it; turning it parallel needs {} of room.", length(line.room))
    }
}

/// The plate against the tube.
pub(super) fn recess(recess: &Recess) -> String {
    let value = length(recess.value.abs());
    match recess.joint {
        Joint::Short => {
            format!("The dropout stops {value} short of the tube: the joint needs packing of that thickness.")
        }
        Joint::Lap => "The dropout laps flat on the inside of the tube.".to_owned(),
        Joint::LetIn => format!("The dropout is recessed: it has to be let {value} into the tube."),
        Joint::Beyond => {
            format!(
                "The dropout would lie {value} beyond the tube's inner side, past the tube itself: it cannot be built."
            )
        }
    }
}

/// The wheel's way out.
pub(super) fn removal(removal: &WheelRemoval) -> String {
    match *removal {
        WheelRemoval::Free { .. } => "The wheel drops out along the slot with the caliper in place.".to_owned(),
        WheelRemoval::Blocked { gap, travel } => format!(
            "Unbolt the caliper to drop the wheel: {} along the slot, the rotor runs {} into its bridge.",
            length(travel),
            length(-gap),
        ),
        WheelRemoval::Sideways => {
            "Unbolt the caliper to take the wheel out: in a closed hole it moves sideways, and the rotor stands between the pads."
                .to_owned()
        }
    }
}

/// Adds what is unusual about the fit to what is unusual about the numbers.
pub(super) fn add_warnings(setup: &Setup, cover: &PadCover, removal: &WheelRemoval, warnings: &mut Vec<Warning>) {
    let mut warn = |field: &str, value: f64, message: String| {
        warnings.push(Warning { field: field.to_owned(), value, message });
    };
    if cover.coverage < FULL_ENOUGH_COVER {
        let message = format!(
            "Only {} of the pad is on the braking band. As much pad as possible should be: a pad that overhangs wears a step and brakes less.",
            percent(cover.coverage),
        );
        warn("tab.reach", cover.coverage, message);
    }
    if setup.tab.offset.abs() > IN_ONE_PLANE {
        let message = format!(
            "Tab and dropout are {} out of one plane. They must be joined so, and the step is a weak spot.",
            length(setup.tab.offset.abs()),
        );
        warn("tab.offset", setup.tab.offset, message);
    }
    if !removal.comes_out() {
        let value = match *removal {
            WheelRemoval::Blocked { gap, .. } => gap,
            _ => 0.0,
        };
        warn("dropout.slot_direction", value, "The caliper must be unbolted to take the wheel out.".to_owned());
    }
}
