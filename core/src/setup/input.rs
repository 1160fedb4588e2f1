//! Reading of each kind of field: numbers, flags, text, points and caliper bodies.

use serde_json::{Map, Value};

use super::field::{Field, Kind};
use super::parts::Body;
use super::reader::{Findings, Input};
use crate::words::number;

/// Coordinates in the caliper frame stay within this distance of the pads' middle, mm.
const COORDINATE_LIMIT: f64 = 300.0;
/// The most bodies a caliper may be made of.
const MOST_BODIES: usize = 12;
/// The most corners an outline may have.
const MOST_CORNERS: usize = 24;
/// The longest name, in characters.
const MOST_NAME_CHARS: usize = 80;

impl Input for f64 {
    fn fallback(field: &Field) -> Self {
        match field.kind {
            Kind::Number { default, .. } => default,
            _ => unreachable!("a number's row has a number's kind"),
        }
    }

    fn parse(value: &Value, field: &Field, findings: &mut Findings) -> Option<Self> {
        let Kind::Number { default, unit, hard, plausible, .. } = field.kind else {
            unreachable!("a number's row has a number's kind")
        };
        let label = field.label;
        let span = |low, high| format!("{} to {} {}", number(low), number(high), unit.symbol()).trim_end().to_owned();
        let allowed = span(hard.low, hard.high);
        let Some(read) = value.as_f64().filter(|read| read.is_finite()) else {
            let message = format!("{label} must be a number from {allowed}, such as {}.", number(default));
            findings.problem(field.key, Some(value), message);
            return None;
        };
        if !hard.contains(read) {
            let side = if read < hard.low { "below" } else { "above" };
            let message = format!("{label} is {}, {side} what can be worked out. Give {allowed}.", number(read));
            findings.problem(field.key, Some(value), message);
            return None;
        }
        if !plausible.contains(read) {
            let usual = span(plausible.low, plausible.high);
            let message = format!("{label} is {}; {usual} is usual. Measure it again.", number(read));
            findings.warning(field.key, read, message);
        }
        Some(read)
    }
}

impl Input for bool {
    fn fallback(field: &Field) -> Self {
        matches!(field.kind, Kind::Flag { default: true })
    }

    fn parse(value: &Value, field: &Field, findings: &mut Findings) -> Option<Self> {
        if value.as_bool().is_none() {
            findings.problem(field.key, Some(value), format!("{} must be true or false.", field.label));
        }
        value.as_bool()
    }
}

impl Input for String {
    fn fallback(_: &Field) -> Self {
        String::new()
    }

    fn parse(value: &Value, field: &Field, findings: &mut Findings) -> Option<Self> {
        let most = match field.kind {
            Kind::Text { max_chars } => max_chars,
            _ => MOST_NAME_CHARS,
        };
        text(value, field.key, field.label, most, findings)
    }
}

fn text(value: &Value, key: &str, label: &str, most: usize, findings: &mut Findings) -> Option<String> {
    let Some(read) = value.as_str() else {
        findings.problem(key, Some(value), format!("{label} must be text in quotes."));
        return None;
    };
    if read.chars().count() > most {
        findings.problem(key, Some(value), format!("{label} is too long. Keep it to {most} characters."));
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
fn coordinates<const N: usize>(value: &Value) -> Option<[f64; N]> {
    let list = value.as_array().filter(|list| list.len() == N)?;
    let mut read = [0.0; N];
    for (slot, value) in read.iter_mut().zip(list) {
        *slot = value.as_f64().filter(|number| number.abs() <= COORDINATE_LIMIT)?;
    }
    Some(read)
}

fn coordinate_help(shape: &str) -> String {
    format!("{shape}, each a number from −{} to {} mm", number(COORDINATE_LIMIT), number(COORDINATE_LIMIT))
}

impl Input for [f64; 3] {
    fn fallback(field: &Field) -> Self {
        match field.kind {
            Kind::Vector { default: Some(default) } => default,
            _ => unreachable!("a vector that must be given has a default"),
        }
    }

    fn parse(value: &Value, field: &Field, findings: &mut Findings) -> Option<Self> {
        let read = coordinates(value);
        if read.is_none() {
            let message =
                format!("{} must be {}.", field.label, coordinate_help("[clockwise, away from the axle, outboard]"));
            findings.problem(field.key, Some(value), message);
        }
        read
    }
}

impl Input for Option<[f64; 3]> {
    const OPTIONAL: bool = true;

    fn fallback(_: &Field) -> Self {
        None
    }

    fn parse(value: &Value, field: &Field, findings: &mut Findings) -> Option<Self> {
        if value.is_null() { Some(None) } else { <[f64; 3]>::parse(value, field, findings).map(Some) }
    }
}

impl Input for [[f64; 2]; 2] {
    fn fallback(field: &Field) -> Self {
        match field.kind {
            Kind::Points { default } => default,
            _ => unreachable!("a pair of points has a pair's kind"),
        }
    }

    fn parse(value: &Value, field: &Field, findings: &mut Findings) -> Option<Self> {
        let pair = value.as_array().filter(|list| list.len() == 2);
        let read = pair.and_then(|list| Some([coordinates(&list[0])?, coordinates(&list[1])?]));
        if read.is_none() {
            let message =
                format!("{} must be two points {}.", field.label, coordinate_help("[clockwise, away from the axle]"));
            findings.problem(field.key, Some(value), message);
        }
        read
    }
}

impl Input for Vec<Body> {
    fn fallback(field: &Field) -> Self {
        match field.kind {
            Kind::Bodies { default } => default(),
            _ => unreachable!("bodies have the bodies' kind"),
        }
    }

    fn parse(value: &Value, field: &Field, findings: &mut Findings) -> Option<Self> {
        let list = value.as_array().filter(|list| (1..=MOST_BODIES).contains(&list.len()));
        let Some(list) = list else {
            findings.problem(
                field.key,
                Some(value),
                format!("{} must be a list of 1 to {MOST_BODIES} bodies.", field.label),
            );
            return None;
        };
        // Every body is read before giving up, so that all problems are told at once.
        let read: Vec<Option<Body>> = list
            .iter()
            .enumerate()
            .map(|(index, value)| body(value, &format!("{}.{index}", field.key), findings))
            .collect();
        read.into_iter().collect()
    }
}

const BODY_KEYS: [&str; 5] = ["name", "outline", "inboard", "outboard", "bolted"];

fn body(value: &Value, path: &str, findings: &mut Findings) -> Option<Body> {
    let Some(map) = value.as_object() else {
        findings.problem(path, Some(value), format!("{path} must be an object with {}.", BODY_KEYS.join(", ")));
        return None;
    };
    for (key, value) in map.iter().filter(|(key, _)| !BODY_KEYS.contains(&key.as_str())) {
        let key: String = key.chars().take(MOST_NAME_CHARS).collect();
        findings.problem(
            &format!("{path}.{key}"),
            Some(value),
            format!("{path}.{key} is not part of a body. Remove it."),
        );
    }
    let name = member(map, path, "name", findings)
        .and_then(|value| text(value, &format!("{path}.name"), "A body's name", MOST_NAME_CHARS, findings));
    let outline =
        member(map, path, "outline", findings).and_then(|value| outline(value, &format!("{path}.outline"), findings));
    let mut depth =
        |key| member(map, path, key, findings).and_then(|value| depth(value, &format!("{path}.{key}"), findings));
    let (inboard, outboard) = (depth("inboard"), depth("outboard"));
    let bolted = member(map, path, "bolted", findings).and_then(|value| {
        if value.as_bool().is_none() {
            findings.problem(&format!("{path}.bolted"), Some(value), "Bolted must be true or false.".to_owned());
        }
        value.as_bool()
    });
    let read = Body { name: name?, outline: outline?, inboard: inboard?, outboard: outboard?, bolted: bolted? };
    if read.outboard <= -read.inboard {
        let message =
            format!("The body \"{}\" has no thickness: inboard and outboard together must be more than 0.", read.name);
        findings.problem(&format!("{path}.outboard"), map.get("outboard"), message);
        return None;
    }
    Some(read)
}

fn member<'a>(map: &'a Map<String, Value>, path: &str, key: &str, findings: &mut Findings) -> Option<&'a Value> {
    let value = map.get(key);
    if value.is_none() {
        findings.problem(&format!("{path}.{key}"), None, format!("{path} has no \"{key}\". Add it."));
    }
    value
}

fn depth(value: &Value, path: &str, findings: &mut Findings) -> Option<f64> {
    let read = value.as_f64().filter(|read| read.abs() <= COORDINATE_LIMIT);
    if read.is_none() {
        let limit = number(COORDINATE_LIMIT);
        findings.problem(path, Some(value), format!("{path} must be a number from −{limit} to {limit} mm."));
    }
    read
}

fn outline(value: &Value, path: &str, findings: &mut Findings) -> Option<Vec<[f64; 2]>> {
    let points = value
        .as_array()
        .filter(|list| (3..=MOST_CORNERS).contains(&list.len()))
        .and_then(|list| list.iter().map(coordinates::<2>).collect::<Option<Vec<_>>>());
    let Some(points) = points else {
        let shape = coordinate_help("[clockwise, away from the axle]");
        findings.problem(path, Some(value), format!("{path} must be 3 to {MOST_CORNERS} corners {shape}."));
        return None;
    };
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
