//! A setup and its verdict in a few sentences, for a message to somebody who does not have the page open.

use std::cmp::Ordering;

use super::compare::{lever_arms, names};
use crate::fit::{Outcome, Report, Run, report};
use crate::plain::plain;
use crate::setup::{Problem, Setup, Side};
use crate::words::{degrees, given_length, length, number, row};

/// The most characters a message should have: what a phone shows without scrolling; common practice, no source.
const MOST_CHARS: usize = 700;
/// The most characters of a setup's name that a message begins with.
const NAME_CHARS: usize = 40;
/// A move of the caliper that shows in tenths, mm.
const LEAST_MOVE: f64 = 0.05;
/// Between paragraphs.
const BREAK: &str = "\n\n";
const CAUTION: &str = "Geometry only, not an approval: measure the real parts, tack, and mock up with caliper and rotor before you weld; loads are estimates: proof-test, look for cracks, local rules come first.";

/// A setup explained.
#[derive(Clone, Debug)]
pub struct Explanation {
    /// The message, paragraphs on lines of their own.
    pub message: String,
}

plain!(Explanation { message });

/// What is being built, whether it works and by how much, and why another setup does not, or does.
///
/// # Errors
/// The problems of a setup that cannot be worked out.
pub fn explain(setup: &Setup, other: Option<&Setup>) -> Result<Explanation, Vec<Problem>> {
    let own = report(setup)?;
    let mut paragraphs = vec![built(setup), answer(own.verdict).to_owned() + &own.summary, CAUTION.to_owned()];
    let mut more = Vec::new();
    if own.line.run != Run::Up {
        more.push((1, own.line.sentence.clone()));
    }
    if !own.wheel_removal.comes_out {
        more.push((1, own.wheel_removal.sentence.clone()));
    }
    if let Some(other) = other {
        let second = report(other)?;
        let names = names([setup, other]);
        paragraphs.insert(2, opening(own.verdict, &second, &names[1]));
        reasons([&own, &second], &names, &mut more);
    }
    // What matters most comes first, for as long as there is room.
    let mut chars: usize = paragraphs.iter().map(|text| text.chars().count() + BREAK.len()).sum();
    for (place, text) in more {
        chars += text.chars().count() + 1;
        if chars > MOST_CHARS {
            break;
        }
        if let Some(paragraph) = paragraphs.get_mut(place) {
            *paragraph += " ";
            *paragraph += &text;
        }
    }
    Ok(Explanation { message: row(paragraphs, BREAK) })
}

/// What is being built.
fn built(setup: &Setup) -> String {
    let name: String = setup.name.trim().chars().take(NAME_CHARS).collect();
    let disc = if name.is_empty() { "Disc".to_owned() } else { name + ": disc" };
    let side = match setup.side {
        Side::Left => "left",
        Side::Right => "right",
    };
    format!(
        "{disc} brake on the {side} fork leg, rotor {}, hub {} wide, {} between the tubes, caliper at {} about the axle (0° is up the leg, 90° back).",
        number(setup.wheel.rotor_diameter),
        given_length(setup.wheel.hub_width),
        given_length(setup.fork.tube_gap),
        degrees(setup.tab.clock),
    )
}

/// The answer before its reasons.
fn answer(verdict: Outcome) -> &'static str {
    match verdict {
        Outcome::Clears => "It fits. ",
        Outcome::Tight => "Not with the room you want. ",
        Outcome::Hits => "It does not fit. ",
        Outcome::CannotBuild => "It does not go together. ",
    }
}

/// The other setup's verdict.
fn opening(own: Outcome, other: &Report, name: &str) -> String {
    let (before, after) = match other.verdict.cmp(&own) {
        Ordering::Greater => ("Why not ", "? "),
        Ordering::Less => ("Better with ", ": "),
        Ordering::Equal => ("With ", ": "),
    };
    before.to_owned() + name + after + &other.summary
}

/// Why the two differ: the gap that decides, in both, and where the caliper goes.
fn reasons([own, other]: [&Report; 2], [own_name, name]: &[String; 2], more: &mut Vec<(usize, String)>) {
    // Of two gaps that decide, the one that stops a setup says more.
    let telling = if other.verdict >= own.verdict { other } else { own };
    let gap = |report: &Report| report.pairs.iter().find(|pair| pair.name == telling.binding).map(|pair| pair.gap);
    if let (Some(before), Some(after), Some(pair)) =
        (gap(own), gap(other), telling.pairs.iter().find(|pair| pair.name == telling.binding))
        && telling.verdict != Outcome::CannotBuild
    {
        let (label, before, after) = (&pair.label, length(before), length(after));
        more.push((2, format!("Gap from {label}: {before} with {own_name}, {after} with {name}.")));
    }
    let arms = [own.pad.radius, other.pad.radius];
    if (arms[0] - arms[1]).abs() >= LEAST_MOVE {
        more.push((2, format!("The caliper goes where the rotor's edge is: the {}.", lever_arms(arms))));
    }
}
