//! Reading of the caliper's bodies.

use super::field::Field;
use super::given::{Given, member};
use super::input::{COORDINATE_LIMIT, MOST_NAME_CHARS, coordinate_help, coordinates, text};
use super::parts::Body;
use super::reader::Findings;
use crate::words::{given_length, length_digits, row};

/// The most bodies a caliper may be made of. This and the next four keep any setup short enough for a link.
pub(super) const MOST_BODIES: usize = 8;
/// The most corners an outline may have.
pub(super) const MOST_CORNERS: usize = 24;
/// The most corners all outlines may have together.
const MOST_CORNERS_TOGETHER: usize = 48;
/// The most characters all names may have together.
const MOST_NAME_CHARS_TOGETHER: usize = 80;
/// The most bytes they may have together: letters beyond the Latin ones take two or three.
const MOST_NAME_BYTES_TOGETHER: usize = 90;
/// Parts of a millimetre that bodies are given in: six decimals, which hold every 1/64 in exactly.
const PARTS_OF_MM: f64 = 1e6;

pub(super) const BODY_KEYS: [&str; 5] = ["name", "outline", "inboard", "outboard", "bolted"];

/// Reads the list of bodies, or records why it cannot be.
pub(super) fn read(value: &Given, field: &Field, findings: &mut Findings) -> Option<Vec<Body>> {
    let list = value.list().filter(|list| (1..=MOST_BODIES).contains(&list.len()));
    let Some(list) = list else {
        let message = format!("{} must be a list of 1 to {MOST_BODIES} bodies.", field.label);
        findings.problem(field.key, Some(value), message);
        return None;
    };
    // Every body is read before giving up, so that all problems are told at once.
    let mut bodies = Vec::new();
    for (index, value) in list.iter().enumerate() {
        bodies.extend(body(value, &format!("{}.{index}", field.key), findings));
    }
    if bodies.len() < list.len() {
        return None;
    }
    let corners: usize = bodies.iter().map(|body| body.outline.len()).sum();
    let name_chars: usize = bodies.iter().map(|body| body.name.chars().count()).sum();
    let name_bytes: usize = bodies.iter().map(|body| body.name.len()).sum();
    let totals = [
        (corners, MOST_CORNERS_TOGETHER, "corners", "Leave out those that matter least."),
        (name_chars, MOST_NAME_CHARS_TOGETHER, "characters in their names", "Shorten the names."),
        (name_bytes, MOST_NAME_BYTES_TOGETHER, "bytes in their names", "Shorten the names or use plain letters."),
    ];
    let mut within = true;
    for (count, most, what, remedy) in totals.into_iter().filter(|(count, most, ..)| count > most) {
        within = false;
        let message = format!("{} have {count} {what} together, but {most} is the most. {remedy}", field.label);
        findings.problem(field.key, None, message);
    }
    within.then_some(bodies)
}

/// The nearest number with no more decimals than bodies are given in.
pub(super) fn plain(number: f64) -> f64 {
    // Both are whole numbers before the division, so that this is the very number its decimals read as.
    (number * PARTS_OF_MM).round_ties_even() / PARTS_OF_MM
}

/// Whether a number has no more decimals than bodies are given in.
fn is_plain(number: f64) -> bool {
    plain(number) == number
}

/// Records numbers with too many decimals.
fn check_decimals(mut numbers: impl Iterator<Item = f64>, path: &str, value: &Given, findings: &mut Findings) -> bool {
    let plain = numbers.all(is_plain);
    if !plain {
        let message = format!("{path} has more than 6 decimals. Round it: to a hundredth of a millimetre is plenty.");
        findings.problem(path, Some(value), message);
    }
    plain
}

fn body(value: &Given, path: &str, findings: &mut Findings) -> Option<Body> {
    let Some(members) = value.members() else {
        findings.problem(
            path,
            Some(value),
            format!("{path} must be an object with {}.", row(BODY_KEYS.map(str::to_owned), ", ")),
        );
        return None;
    };
    for (key, value) in members.iter().filter(|(key, _)| !BODY_KEYS.contains(&key.as_str())) {
        let key: String = key.chars().take(MOST_NAME_CHARS).collect();
        findings.problem(
            &format!("{path}.{key}"),
            Some(value),
            format!("{path}.{key} is not part of a body. Remove it."),
        );
    }
    let name = required(members, path, "name", findings)
        .and_then(|value| text(value, &format!("{path}.name"), "A body's name", MOST_NAME_CHARS, findings));
    let outline = required(members, path, "outline", findings)
        .and_then(|value| outline(value, &format!("{path}.outline"), findings));
    let mut depth =
        |key| required(members, path, key, findings).and_then(|value| depth(value, &format!("{path}.{key}"), findings));
    let (inboard, outboard) = (depth("inboard"), depth("outboard"));
    let bolted = required(members, path, "bolted", findings).and_then(|value| {
        if value.flag().is_none() {
            findings.problem(&format!("{path}.bolted"), Some(value), "Bolted must be true or false.".to_owned());
        }
        value.flag()
    });
    let read = Body { name: name?, outline: outline?, inboard: inboard?, outboard: outboard?, bolted: bolted? };
    if read.outboard <= -read.inboard {
        let message =
            format!("The body \"{}\" has no thickness: inboard and outboard together must be more than 0.", read.name);
        findings.problem(&format!("{path}.outboard"), member(members, "outboard"), message);
        return None;
    }
    Some(read)
}

fn required<'a>(members: &'a [(String, Given)], path: &str, key: &str, findings: &mut Findings) -> Option<&'a Given> {
    let value = member(members, key);
    if value.is_none() {
        findings.problem(&format!("{path}.{key}"), None, format!("{path} has no \"{key}\". Add it."));
    }
    value
}

fn depth(value: &Given, path: &str, findings: &mut Findings) -> Option<f64> {
    let read = value.number().filter(|read| read.abs() <= COORDINATE_LIMIT);
    if read.is_none() {
        let (low, high) = (length_digits(COORDINATE_LIMIT), given_length(COORDINATE_LIMIT));
        findings.problem(path, Some(value), format!("{path} must be a number from −{low} to {high}."));
    }
    read.filter(|read| check_decimals(std::iter::once(*read), path, value, findings))
}

fn outline(value: &Given, path: &str, findings: &mut Findings) -> Option<Vec<[f64; 2]>> {
    let points = value
        .list()
        .filter(|list| (3..=MOST_CORNERS).contains(&list.len()))
        .and_then(|list| list.iter().map(coordinates::<2>).collect::<Option<Vec<_>>>());
    let Some(points) = points else {
        let shape = coordinate_help("[clockwise, away from the axle]");
        findings.problem(path, Some(value), format!("{path} must be 3 to {MOST_CORNERS} corners {shape}."));
        return None;
    };
    if !check_decimals(points.iter().flatten().copied(), path, value, findings) {
        return None;
    }
    if !is_convex(&points) {
        let message = format!(
            "{path} is not a convex outline. List its corners in order round it; split a hollow shape into two bodies."
        );
        findings.problem(path, Some(value), message);
        return None;
    }
    Some(points)
}

/// Whether the corners go once round a convex shape with some area, either way round.
fn is_convex(points: &[[f64; 2]]) -> bool {
    let edge = |index: usize| {
        let (a, b) = (points[index % points.len()], points[(index + 1) % points.len()]);
        [b[0] - a[0], b[1] - a[1]]
    };
    let mut turned = 0.0;
    let (mut left, mut right) = (false, false);
    for index in 0..points.len() {
        let (a, b) = (edge(index), edge(index + 1));
        let (cross, dot) = (a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]);
        if a == [0.0, 0.0] || (cross == 0.0 && dot < 0.0) {
            return false;
        }
        left |= cross > 0.0;
        right |= cross < 0.0;
        turned += cross.atan2(dot);
    }
    // One full turn: a star turns twice, a figure of eight not at all.
    left != right && (turned.abs() - std::f64::consts::TAU).abs() < 1e-6
}
