//! Reading of each kind of field: numbers, words, flags, text and points.

use super::bodies;
use super::field::{Field, Kind, MOST_READINGS, READING_DECIMALS, Range, Unit};
use super::given::Given;
use super::group::Slot;
use super::reader::Findings;
use crate::words::{given_length, length_digits, length_symbol, number, row};

/// Coordinates in the caliper frame stay within this distance of the pads' middle, mm.
pub(super) const COORDINATE_LIMIT: f64 = 300.0;
/// The longest name, in characters.
pub(super) const MOST_NAME_CHARS: usize = 80;
/// Room for the characters of one text in a link, in bytes for each: a Latin letter takes one, a Greek or Russian one two,
/// a Chinese one three.
const NAME_BYTES_PER_CHAR: f64 = 1.5;

/// Reads a value into its place, or records why it cannot be.
pub(super) fn read(slot: Slot<'_>, value: &Given, field: &Field, findings: &mut Findings) {
    match slot {
        // Any other version than the one there is has been recorded as a problem by the field's range.
        Slot::Version(_) => put(&mut 0.0, a_number(value, field, findings)),
        Slot::Number(slot) => put(slot, a_number(value, field, findings)),
        Slot::Flag(slot) => put(slot, a_flag(value, field, findings)),
        Slot::Text(slot) => {
            let most = match field.kind {
                Kind::Text { max_chars } => max_chars,
                _ => MOST_NAME_CHARS,
            };
            put(slot, text(value, field.key, field.label, most, findings));
        }
        Slot::Word(slot) => {
            if let Some(index) = a_word(value, field, findings) {
                slot.choose(index);
            }
        }
        Slot::Vector(slot) => put(slot, a_vector(value, field, findings)),
        Slot::MaybeVector(slot) if *value == Given::Nothing => *slot = None,
        Slot::MaybeVector(slot) => put(slot, a_vector(value, field, findings).map(Some)),
        Slot::Points(slot) => put(slot, two_points(value, field, findings)),
        Slot::Readings(slot) => put(slot, readings(value, field, findings)),
        Slot::Bodies(slot) => put(slot, bodies::read(value, field, findings)),
    }
}

fn put<T>(slot: &mut T, read: Option<T>) {
    if let Some(read) = read {
        *slot = read;
    }
}

fn a_number(value: &Given, field: &Field, findings: &mut Findings) -> Option<f64> {
    let Kind::Number { default, unit, hard, plausible, decimals, .. } = field.kind else {
        unreachable!("a number's row has a number's kind")
    };
    let label = field.label;
    let read = value.number().filter(|read| read.is_finite());
    let Some(read) = read.map(|read| decimals.map_or(read, |most| rounded(read, most))) else {
        let (allowed, example) = (span(hard, unit), digits(default, unit));
        findings.problem(
            field.key,
            Some(value),
            format!("{label} must be a number from {allowed}, such as {example}."),
        );
        return None;
    };
    if !hard.contains(read) {
        let (allowed, found) = (span(hard, unit), digits(read, unit));
        let side = if read < hard.low { "below" } else { "above" };
        let message = format!("{label} is {found}, {side} what can be worked out. Give {allowed}.");
        findings.problem(field.key, Some(value), message);
        return None;
    }
    if !plausible.contains(read) {
        let (usual, found) = (span(plausible, unit), digits(read, unit));
        findings.warning(field.key, read, format!("{label} is {found}; {usual} is usual. Measure it again."));
    }
    Some(read)
}

/// The nearest number with no more than this many decimals.
fn rounded(number: f64, decimals: u8) -> f64 {
    let parts = 10_f64.powi(decimals.into());
    // Both are whole numbers before the division, so that this is the very number its decimals read as.
    (number * parts).round_ties_even() / parts
}

/// A range in words, with the unit.
fn span(range: Range, unit: Unit) -> String {
    let (low, high, space) =
        (digits(range.low, unit), digits(range.high, unit), if unit == Unit::None { "" } else { " " });
    let symbol = if unit == Unit::Mm { length_symbol() } else { unit.symbol() };
    format!("{low} to {high}{space}{symbol}")
}

/// A value as it was given, without its unit.
fn digits(value: f64, unit: Unit) -> String {
    if unit == Unit::Mm { length_digits(value) } else { number(value) }
}

fn a_flag(value: &Given, field: &Field, findings: &mut Findings) -> Option<bool> {
    let read = value.flag();
    if read.is_none() {
        findings.problem(field.key, Some(value), format!("{} must be true or false.", field.label));
    }
    read
}

fn a_word(value: &Given, field: &Field, findings: &mut Findings) -> Option<usize> {
    let Kind::Choice { choices, .. } = field.kind else { unreachable!("a choice's row has a choice's kind") };
    let read = value.text().and_then(|read| choices.iter().position(|(word, _)| *word == read));
    if read.is_none() {
        let words = row(choices.iter().map(|(word, _)| format!("\"{word}\"")), ", ");
        findings.problem(field.key, Some(value), format!("{} must be one of {words}.", field.label));
    }
    read
}

pub(super) fn text(value: &Given, key: &str, label: &str, most: usize, findings: &mut Findings) -> Option<String> {
    let Some(read) = value.text() else {
        findings.problem(key, Some(value), format!("{label} must be text in quotes."));
        return None;
    };
    if read.chars().count() > most {
        findings.problem(key, Some(value), format!("{label} is too long. Keep it to {most} characters."));
        return None;
    }
    if read.len() as f64 > most as f64 * NAME_BYTES_PER_CHAR {
        let message = format!("{label} is too long. Keep it to {most} plain letters; others count as up to three.");
        findings.problem(key, Some(value), message);
        return None;
    }
    if read.chars().any(char::is_control) {
        findings.problem(
            key,
            Some(value),
            format!("{label} has a control character in it. Keep it to one line of plain text."),
        );
        return None;
    }
    Some(read.to_owned())
}

/// Reads a list of exactly `N` coordinates.
pub(super) fn coordinates<const N: usize>(value: &Given) -> Option<[f64; N]> {
    let list = value.list().filter(|list| list.len() == N)?;
    let mut read = [0.0; N];
    for (slot, value) in read.iter_mut().zip(list) {
        *slot = value.number().filter(|number| number.abs() <= COORDINATE_LIMIT)?;
    }
    Some(read)
}

pub(super) fn coordinate_help(shape: &str) -> String {
    format!("{shape}, each a number from −{} to {}", length_digits(COORDINATE_LIMIT), given_length(COORDINATE_LIMIT))
}

fn readings(value: &Given, field: &Field, findings: &mut Findings) -> Option<Vec<f64>> {
    let Kind::Readings { hard } = field.kind else { unreachable!("a list of readings' row has its kind") };
    let one = |value: &Given| Some(rounded(value.number()?, READING_DECIMALS)).filter(|read| hard.contains(*read));
    let read = value.list().filter(|list| list.len() <= MOST_READINGS).and_then(|list| list.iter().map(one).collect());
    if read.is_none() {
        let (most, allowed) = (MOST_READINGS, span(hard, Unit::Mm));
        let message = format!("{} must be a list of at most {most} readings, each from {allowed}.", field.label);
        findings.problem(field.key, Some(value), message);
    }
    read
}

fn a_vector(value: &Given, field: &Field, findings: &mut Findings) -> Option<[f64; 3]> {
    let read = coordinates(value);
    if read.is_none() {
        let shape = coordinate_help("[clockwise, away from the axle, outboard]");
        findings.problem(field.key, Some(value), format!("{} must be {shape}.", field.label));
    }
    read
}

fn two_points(value: &Given, field: &Field, findings: &mut Findings) -> Option<[[f64; 2]; 2]> {
    let Kind::Points { axes, decimals, .. } = field.kind else { unreachable!("a pair of points has their kind") };
    let read = match value.list() {
        Some([first, second]) => coordinates(first).zip(coordinates(second)).map(|(first, second)| [first, second]),
        _ => None,
    };
    if read.is_none() {
        let shape = coordinate_help(&["[", &axes.join(", "), "]"].concat());
        findings.problem(field.key, Some(value), format!("{} must be two points {shape}.", field.label));
    }
    let kept = |number: f64| decimals.map_or(number, |most| rounded(number, most));
    read.map(|points| points.map(|point| point.map(kept)))
}
