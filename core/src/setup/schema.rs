//! The shape of a setup file as a JSON Schema (draft 2020-12), made from the field table.

use super::bodies::{BODY_KEYS, MOST_BODIES, MOST_CORNERS};
use super::field::{Field, Kind, MOST_READINGS, Range};
use super::given::Given;
use super::group::{Group, leaf};
use super::input::{COORDINATE_LIMIT, MOST_NAME_CHARS};
use super::reader::may_be_left_out;
use super::{GROUPS, Setup};

const DRAFT: &str = "https://json-schema.org/draft/2020-12/schema";
/// What the reader takes as one line of plain text: no control characters.
const ONE_LINE: &str = "^[^\\u0000-\\u001f\\u007f-\\u009f]*$";
const COORDINATES: Range = Range { low: -COORDINATE_LIMIT, high: COORDINATE_LIMIT };

/// The JSON Schema (draft 2020-12) of a setup file: every field with its label, help, unit, default and hard range.
///
/// What it refuses, [`Setup::read`] refuses too. The other way round there is more to the reader: whether fields go
/// together, and whether an outline is convex.
pub fn setup_schema() -> Given {
    let Given::Object(shape) = group_schema(&mut Setup::default()) else { return Given::Nothing };
    let about = "A disc-brake setup. Lengths in mm, angles in degrees, masses in kg.";
    let mut members =
        object([("$schema", DRAFT.into()), ("title", "Tabwright setup".into()), ("description", about.into())]);
    members.extend(shape);
    Given::Object(members)
}

fn group_schema(group: &mut dyn Group) -> Given {
    let (path, table) = (group.path(), group.table());
    let mut properties: Vec<(String, Given)> =
        table.iter().map(|field| (field.leaf().to_owned(), field_schema(field))).collect();
    let mut required: Vec<Given> =
        table.iter().filter(|field| !field.may_be_left_out()).map(|field| field.leaf().into()).collect();
    for group in group.groups() {
        if !may_be_left_out(group) {
            required.push(leaf(group.path()).into());
        }
        properties.push((leaf(group.path()).to_owned(), group_schema(group)));
    }
    let mut members = Vec::new();
    if let Some((_, label, help)) = GROUPS.iter().find(|(key, _, _)| *key == path && !path.is_empty()) {
        members.extend(object([("title", (*label).into()), ("description", (*help).into())]));
    }
    members.extend(closed_object(properties, required));
    Given::Object(members)
}

fn field_schema(field: &Field) -> Given {
    let mut members = object([("title", field.label.into()), ("description", field.help.into())]);
    members.extend(kind_schema(field));
    let default = field.default();
    if default != Given::Nothing {
        members.push(("default".to_owned(), plain_numbers(default)));
    }
    Given::Object(members)
}

fn kind_schema(field: &Field) -> Vec<(String, Given)> {
    match field.kind {
        Kind::Number { hard, unit, .. } => {
            let mut members = in_range(hard);
            if !unit.symbol().is_empty() {
                members.push(("$comment".to_owned(), format!("in {}", unit.symbol()).as_str().into()));
            }
            members
        }
        Kind::Choice { choices, .. } => {
            object([("enum", Given::List(choices.iter().map(|(word, _)| (*word).into()).collect()))])
        }
        Kind::Flag { .. } => object([("type", "boolean".into())]),
        Kind::Text { max_chars } => text(max_chars),
        Kind::Vector { default: None } => {
            let nothing = Given::Object(object([("type", "null".into())]));
            object([("anyOf", Given::List(vec![Given::Object(coordinates(3)), nothing]))])
        }
        Kind::Vector { .. } => coordinates(3),
        Kind::Points { .. } => list(Given::Object(coordinates(2)), 2, 2),
        Kind::Readings { hard } => list(Given::Object(in_range(hard)), 0, MOST_READINGS),
        Kind::Bodies { .. } => list(body(), 1, MOST_BODIES),
    }
}

fn body() -> Given {
    let schema_of = |key: &str| match key {
        "name" => text(MOST_NAME_CHARS),
        "outline" => list(Given::Object(coordinates(2)), 3, MOST_CORNERS),
        "bolted" => object([("type", "boolean".into())]),
        _ => in_range(COORDINATES),
    };
    let properties = BODY_KEYS.iter().map(|key| ((*key).to_owned(), Given::Object(schema_of(key)))).collect();
    Given::Object(closed_object(properties, BODY_KEYS.iter().map(|key| (*key).into()).collect()))
}

fn in_range(Range { low, high }: Range) -> Vec<(String, Given)> {
    object([("type", "number".into()), ("minimum", plain_number(low)), ("maximum", plain_number(high))])
}

fn text(most: usize) -> Vec<(String, Given)> {
    object([("type", "string".into()), ("maxLength", count(most)), ("pattern", ONE_LINE.into())])
}

fn coordinates(many: usize) -> Vec<(String, Given)> {
    list(Given::Object(in_range(COORDINATES)), many, many)
}

fn list(items: Given, least: usize, most: usize) -> Vec<(String, Given)> {
    object([("type", "array".into()), ("items", items), ("minItems", count(least)), ("maxItems", count(most))])
}

/// An object with these members and no others.
fn closed_object(properties: Vec<(String, Given)>, required: Vec<Given>) -> Vec<(String, Given)> {
    object([
        ("type", "object".into()),
        ("additionalProperties", Given::Flag(false)),
        ("required", Given::List(required)),
        ("properties", Given::Object(properties)),
    ])
}

fn object<const N: usize>(members: [(&str, Given); N]) -> Vec<(String, Given)> {
    members.into_iter().map(|(name, value)| (name.to_owned(), value)).collect()
}

fn count(many: usize) -> Given {
    plain_number(many as f64)
}

/// Without a point where none is needed, as a setup file has it.
fn plain_number(number: f64) -> Given {
    let whole = number as i64;
    if whole as f64 == number { Given::Whole(whole) } else { number.into() }
}

fn plain_numbers(given: Given) -> Given {
    match given {
        Given::Number(number) => plain_number(number),
        Given::List(items) => Given::List(items.into_iter().map(plain_numbers).collect()),
        Given::Object(members) => {
            Given::Object(members.into_iter().map(|(name, value)| (name, plain_numbers(value))).collect())
        }
        other => other,
    }
}
