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
const CAUTION: &str =
    "Geometry only, not an approval: measure the real parts, tack, and mock up with caliper and rotor before you weld.";

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
    let other = match other {
        Some(other) => Some((other, report(other)?)),
        None => None,
    };
    let mut verdict = answer(own.verdict).to_owned() + &own.summary;
    let mut contrast =
        other.as_ref().map(|(other, report)| opening([setup, other], [&own, report])).unwrap_or_default();
    let built = built(setup);

    let mut room = [&built, &verdict, &contrast, CAUTION, "\n\n\n"]
        .iter()
        .fold(MOST_CHARS, |room, text| room.saturating_sub(text.chars().count()));
    let mut add = |text: &mut String, more: String| {
        if let Some(left) = room.checked_sub(more.chars().count() + 1) {
            room = left;
            *text = format!("{text} {more}");
        }
    };
    for more in besides(&own) {
        add(&mut verdict, more.to_owned());
    }
    if let Some((other, report)) = &other {
        for more in reasons([setup, other], [&own, report]) {
            add(&mut contrast, more);
        }
    }
    let paragraphs = [built, verdict, contrast, CAUTION.to_owned()].into_iter().filter(|text| !text.is_empty());
    Ok(Explanation { message: row(paragraphs, "\n") })
}

/// What is being built.
fn built(setup: &Setup) -> String {
    let mut name: String = setup.name.trim().chars().take(NAME_CHARS).collect();
    if !name.is_empty() {
        name += ": ";
    }
    let side = match setup.side {
        Side::Left => "left",
        Side::Right => "right",
    };
    format!(
        "{name}disc brake on the {side} fork leg, rotor {}, hub {} wide, {} between the tubes, caliper at {} about the axle (0° is up the leg, 90° back).",
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

/// What may spoil a setup that fits.
fn besides(report: &Report) -> impl Iterator<Item = &str> {
    let line = (report.line.run != Run::Up).then_some(report.line.sentence.as_str());
    let wheel = (!report.wheel_removal.comes_out).then_some(report.wheel_removal.sentence.as_str());
    line.into_iter().chain(wheel)
}

/// The other setup and its verdict.
fn opening(setups: [&Setup; 2], [own, other]: [&Report; 2]) -> String {
    let [_, name] = names(setups);
    let opening = match other.verdict.cmp(&own.verdict) {
        Ordering::Greater => format!("Why not {name}? "),
        Ordering::Less => format!("Better with {name}: "),
        Ordering::Equal => format!("With {name}: "),
    };
    opening + &other.summary
}

/// Why the two differ: the gap that decides, in both, and where the caliper goes.
fn reasons(setups: [&Setup; 2], [own, other]: [&Report; 2]) -> impl Iterator<Item = String> {
    let [own_name, name] = names(setups);
    // Of two gaps that decide, the one that stops a setup says more.
    let telling = if other.verdict >= own.verdict { other } else { own };
    let pair = |report: &Report| report.pairs.iter().find(|pair| pair.name == telling.binding).cloned();
    let gap = match (pair(own), pair(other)) {
        (Some(before), Some(after)) if telling.verdict != Outcome::CannotBuild => Some(format!(
            "Gap from {}: {} with {own_name}, {} with {name}.",
            before.label,
            length(before.gap),
            length(after.gap)
        )),
        _ => None,
    };
    let arms = [own.pad.radius, other.pad.radius];
    let moves = (arms[0] - arms[1]).abs() >= LEAST_MOVE;
    let place = moves.then(|| format!("The caliper goes where the rotor's edge is: the {}.", lever_arms(arms)));
    gap.into_iter().chain(place)
}
