//! Strict reading of a setup: every problem found at once, each named with field, value, range and remedy.

use serde::Serialize;
use serde_json::{Map, Value};

use super::field::Field;

/// Something that keeps a setup from being read.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Problem {
    /// Dotted path of the field, or empty for the file as a whole.
    pub field: String,
    /// The value found, as JSON text; empty where there is none.
    pub value: String,
    /// What is wrong, the range and what to do about it, in words.
    pub message: String,
}

/// Something unusual about a setup that is computed all the same.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Warning {
    /// Dotted path of the field it speaks of.
    pub field: String,
    /// The number it speaks of.
    pub value: f64,
    /// What is unusual, in words.
    pub message: String,
}

/// What reading a setup brought to light.
#[derive(Debug, Default)]
pub(crate) struct Findings {
    pub(super) problems: Vec<Problem>,
    pub(super) warnings: Vec<Warning>,
}

impl Findings {
    /// Records a problem with a field and the value found there.
    pub(super) fn problem(&mut self, field: &str, value: Option<&Value>, message: String) {
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

fn shortened(value: &Value) -> String {
    let text = value.to_string();
    if text.chars().count() <= SHOWN_CHARS {
        return text;
    }
    text.chars().take(SHOWN_CHARS).chain(['…']).collect()
}

/// A struct of inputs that knows its table.
pub(crate) trait Group: Sized {
    /// Dotted path of the group, empty for the whole.
    const PATH: &'static str;
    /// Its own rows, in form order.
    const TABLE: &'static [Field];
    /// Keys of the groups nested in it.
    const SUBGROUPS: &'static [&'static str];
    /// Reads every field and nested group; problems go to the object's findings and defaults stand in.
    fn read(object: &mut Object<'_>) -> Self;
    /// Hands every row, nested ones included, to `visitor` in form order.
    fn visit(visitor: &mut dyn FnMut(&'static Field));
}

/// A JSON object being read as one group.
pub(crate) struct Object<'a> {
    /// `None` reads the defaults.
    map: Option<&'a Map<String, Value>>,
    path: &'static str,
    table: &'static [Field],
    findings: &'a mut Findings,
}

/// Reads `value` as the group `G`; `None` gives the defaults of the table.
pub(super) fn read_group<G: Group>(value: Option<&Value>, findings: &mut Findings) -> G {
    let map = match value {
        None => None,
        Some(Value::Object(map)) => Some(map),
        Some(other) => {
            let name = if G::PATH.is_empty() { "The setup" } else { G::PATH };
            findings.problem(G::PATH, Some(other), format!("{name} must be an object with named fields: {{ … }}."));
            None
        }
    };
    if let Some(map) = map {
        for (key, value) in map {
            let known = G::TABLE.iter().any(|field| field.leaf() == key) || G::SUBGROUPS.contains(&key.as_str());
            if !known {
                let path = join(G::PATH, key);
                let remedy = nearest(key, G::TABLE, G::SUBGROUPS);
                findings.problem(&path, Some(value), format!("{path} is not a field of a setup. {remedy}"));
            }
        }
    }
    G::read(&mut Object { map, path: G::PATH, table: G::TABLE, findings })
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

impl Object<'_> {
    /// Reads the field whose key ends in `leaf`; the table's default stands in for anything unreadable.
    pub(super) fn field<T: Input>(&mut self, leaf: &'static str) -> T {
        let Some(field) = self.table.iter().find(|field| field.leaf() == leaf) else {
            unreachable!("every member of a group has a row in its table");
        };
        let Some(map) = self.map else {
            return T::fallback(field);
        };
        let read = match map.get(leaf) {
            Some(value) => T::parse(value, field, self.findings),
            None if T::OPTIONAL => None,
            None => {
                let example = field.describe().default;
                let message =
                    format!("{} is missing. Add \"{leaf}\", for example {}.", field.label, shortened(&example));
                self.findings.problem(field.key, None, message);
                None
            }
        };
        read.unwrap_or_else(|| T::fallback(field))
    }

    /// Reads a nested group.
    pub(super) fn group<G: Group>(&mut self, key: &'static str) -> G {
        let value = self.map.and_then(|map| map.get(key));
        if self.map.is_some() && value.is_none() {
            let path = join(self.path, key);
            self.findings.problem(&path, None, format!("The group {path} is missing. Add it with its fields."));
        }
        read_group(value, self.findings)
    }
}

/// A type that a field can hold.
pub(crate) trait Input: Sized {
    /// Whether the field may be left out.
    const OPTIONAL: bool = false;
    /// The table's default.
    fn fallback(field: &Field) -> Self;
    /// Reads a value, or records why it cannot be.
    fn parse(value: &Value, field: &Field, findings: &mut Findings) -> Option<Self>;
}

/// Declares an enum of words that is a choice field.
macro_rules! word {
    ($(#[$doc:meta])* $name:ident { $( $variant:ident = $word:literal $label:literal ),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
        pub enum $name {
            $( #[doc = $label] #[serde(rename = $word)] $variant, )+
        }

        impl $name {
            /// Every word with its label, in form order.
            const CHOICES: &'static [(&'static str, &'static str)] = &[ $( ($word, $label), )+ ];

            /// The word in a setup file.
            pub const fn word(self) -> &'static str {
                match self { $( Self::$variant => $word, )+ }
            }

            /// The field kind of a choice among these words.
            pub(super) const fn kind(default: Self) -> $crate::setup::field::Kind {
                $crate::setup::field::Kind::Choice { default: default.word(), choices: Self::CHOICES }
            }

            fn from_word(word: &str) -> Option<Self> {
                match word { $( $word => Some(Self::$variant), )+ _ => None }
            }
        }

        impl $crate::setup::reader::Input for $name {
            fn fallback(field: &$crate::setup::field::Field) -> Self {
                let default = match field.kind {
                    $crate::setup::field::Kind::Choice { default, .. } => Self::from_word(default),
                    _ => None,
                };
                let Some(default) = default else { unreachable!("a choice field's default is one of its words") };
                default
            }

            fn parse(
                value: &serde_json::Value,
                field: &$crate::setup::field::Field,
                findings: &mut $crate::setup::reader::Findings,
            ) -> Option<Self> {
                let read = value.as_str().and_then(Self::from_word);
                if read.is_none() {
                    let words: Vec<String> = Self::CHOICES.iter().map(|(word, _)| format!("\"{word}\"")).collect();
                    let message = format!("{} must be one of {}.", field.label, words.join(", "));
                    findings.problem(field.key, Some(value), message);
                }
                read
            }
        }
    };
}
pub(super) use word;
