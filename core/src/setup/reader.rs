//! Strict reading of a setup: every problem found at once, each named with field, value, range and remedy.

use super::field::Field;
use super::given::{Given, member};
use super::group::{Group, leaf, visit};
use super::input;
use crate::plain::plain;

/// Something that keeps a setup from being read.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// Dotted path of the field, or empty for the file as a whole.
    pub field: String,
    /// The value found, as JSON text; empty where there is none.
    pub value: String,
    /// What is wrong, the range and what to do about it, in words.
    pub message: String,
}

plain!(Problem { field, value, message });

/// Something unusual about a setup that is computed all the same.
#[derive(Clone, Debug, PartialEq)]
pub struct Warning {
    /// Dotted path of the field it speaks of.
    pub field: String,
    /// The number it speaks of.
    pub value: f64,
    /// What is unusual, in words.
    pub message: String,
}

plain!(Warning { field, value, message });

/// What reading a setup brought to light.
#[derive(Debug, Default)]
pub(crate) struct Findings {
    pub(super) problems: Vec<Problem>,
    pub(super) warnings: Vec<Warning>,
}

impl Findings {
    /// Records a problem with a field and the value found there.
    pub(super) fn problem(&mut self, field: &str, value: Option<&Given>, message: String) {
        let value = value.map(shortened).unwrap_or_default();
        self.problems.push(Problem { field: field.to_owned(), value, message });
    }

    /// Records an unusual number.
    pub(super) fn warning(&mut self, field: &str, value: f64, message: String) {
        self.warnings.push(Warning { field: field.to_owned(), value, message });
    }
}

/// The longest stretch of a wrong value that is repeated in a message.
const SHOWN_CHARS: usize = 40;

fn shortened(value: &Given) -> String {
    let text = value.to_string();
    if text.chars().count() <= SHOWN_CHARS {
        return text;
    }
    text.chars().take(SHOWN_CHARS).chain(['…']).collect()
}

/// Reads `given` into a group that holds its defaults, which stay where something cannot be read.
pub(super) fn read_group(group: &mut dyn Group, given: &Given, findings: &mut Findings) {
    let (path, table) = (group.path(), group.table());
    let Some(members) = given.members() else {
        let name = if path.is_empty() { "The setup" } else { path };
        findings.problem(path, Some(given), format!("{name} must be an object with named fields: {{ … }}."));
        return;
    };
    let subgroups: Vec<&'static str> = group.groups().into_iter().map(|group| leaf(group.path())).collect();
    for (key, value) in members {
        let known = table.iter().any(|field| field.leaf() == key) || subgroups.contains(&key.as_str());
        if !known {
            let path = join(path, key);
            let remedy = nearest(key, table, &subgroups);
            findings.problem(&path, Some(value), format!("{path} is not a field of a setup. {remedy}"));
        }
    }
    for (slot, field) in group.slots().into_iter().zip(table) {
        match member(members, field.leaf()) {
            Some(value) => input::read(slot, value, field, findings),
            None if field.may_be_left_out() => {}
            None => {
                let (leaf, example) = (field.leaf(), shortened(&field.default()));
                let message = format!("{} is missing. Add \"{leaf}\", for example {example}.", field.label);
                findings.problem(field.key, None, message);
            }
        }
    }
    for group in group.groups() {
        let path = group.path();
        match member(members, leaf(path)) {
            Some(value) => read_group(group, value, findings),
            None if may_be_left_out(group) => {}
            None => {
                findings.problem(path, None, format!("The group {path} is missing. Add it with its fields."));
            }
        }
    }
}

/// Whether a setup may do without the whole group.
pub(super) fn may_be_left_out(group: &mut dyn Group) -> bool {
    let mut may = true;
    visit(group, &mut |field| may &= field.may_be_left_out());
    may
}

fn join(path: &str, key: &str) -> String {
    let key: String = key.chars().take(SHOWN_CHARS).collect();
    if path.is_empty() { key } else { format!("{path}.{key}") }
}

/// Points to the known key that shares the longest beginning with the unknown one.
fn nearest(key: &str, table: &'static [Field], subgroups: &[&'static str]) -> String {
    let shared = |known: &str| known.bytes().zip(key.bytes()).take_while(|(a, b)| a == b).count();
    let known = table.iter().map(Field::leaf).chain(subgroups.iter().copied());
    match known.max_by_key(|known| shared(known)).filter(|known| shared(known) >= 3) {
        Some(known) => format!("Remove it, or was \"{known}\" meant?"),
        None => "Remove it.".to_owned(),
    }
}
