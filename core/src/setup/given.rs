//! What was given for a setup, before anything is known of it: plain data as JSON has it.
//!
//! Small on purpose. The page reads and writes setups through this one type, whatever it was given them as.

use std::fmt::{Display, Formatter, Result as Written, Write};

use serde::de::{Deserialize, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::{Number, Value};

use crate::plain::{Datum, Plain, serialize};

/// A piece of plain data; [`Display`] writes it as JSON text.
#[derive(Clone, Debug, PartialEq)]
pub enum Given {
    /// `null`.
    Nothing,
    /// `true` or `false`.
    Flag(bool),
    /// A number written without a point.
    Whole(i64),
    /// The same, too large for [`Given::Whole`].
    Huge(u64),
    /// Any other number, finite.
    Number(f64),
    /// Text in quotes.
    Text(String),
    /// A list.
    List(Vec<Given>),
    /// An object: members with their names.
    Object(Vec<(String, Given)>),
}

impl Given {
    /// An object of these members, in the order of their names, as the JSON library keeps them: so problems come in one
    /// order from every way in.
    pub fn object(members: Vec<(String, Given)>) -> Self {
        let mut sorted: Vec<(String, Given)> = Vec::new();
        for member in members {
            let place = sorted.iter().position(|(name, _)| *name > member.0).unwrap_or(sorted.len());
            sorted.insert(place, member);
        }
        Given::Object(sorted)
    }

    /// The number, if it is one.
    pub fn number(&self) -> Option<f64> {
        match *self {
            Given::Whole(whole) => Some(whole as f64),
            Given::Huge(whole) => Some(whole as f64),
            Given::Number(number) => Some(number),
            _ => None,
        }
    }

    /// The flag, if it is one.
    pub fn flag(&self) -> Option<bool> {
        match *self {
            Given::Flag(flag) => Some(flag),
            _ => None,
        }
    }

    /// The text, if it is one.
    pub fn text(&self) -> Option<&str> {
        match self {
            Given::Text(text) => Some(text),
            _ => None,
        }
    }

    /// The items, if it is a list.
    pub fn list(&self) -> Option<&[Given]> {
        match self {
            Given::List(items) => Some(items),
            _ => None,
        }
    }

    /// The members, if it is an object.
    pub fn members(&self) -> Option<&[(String, Given)]> {
        match self {
            Given::Object(members) => Some(members),
            _ => None,
        }
    }
}

/// The member of that name.
pub(super) fn member<'a>(members: &'a [(String, Given)], name: &str) -> Option<&'a Given> {
    members.iter().find(|(key, _)| key == name).map(|(_, value)| value)
}

impl From<f64> for Given {
    /// As in JSON, what is not finite is nothing.
    fn from(number: f64) -> Self {
        if number.is_finite() { Given::Number(number) } else { Given::Nothing }
    }
}

impl From<&str> for Given {
    fn from(text: &str) -> Self {
        Given::Text(text.to_owned())
    }
}

impl From<Datum<'_>> for Given {
    fn from(datum: Datum<'_>) -> Self {
        let member = |(name, value): (&str, &dyn Plain)| (name.to_owned(), value.datum().into());
        match datum {
            Datum::Nothing => Given::Nothing,
            Datum::Flag(flag) => Given::Flag(flag),
            Datum::Whole(whole) => Given::Whole(whole),
            Datum::Huge(whole) => Given::Huge(whole),
            Datum::Number(number) => number.into(),
            Datum::Text(text) => text.into(),
            Datum::List(items) => {
                Given::List((0..).map_while(|index| Some(items.item(index)?.datum().into())).collect())
            }
            Datum::Record(names, values) => Given::Object(names.iter().copied().zip(values).map(member).collect()),
            Datum::Members(members) => Given::Object(members.into_iter().map(member).collect()),
        }
    }
}

impl From<&Value> for Given {
    fn from(value: &Value) -> Self {
        match value {
            Value::Null => Given::Nothing,
            Value::Bool(flag) => Given::Flag(*flag),
            Value::Number(number) => match (number.as_i64(), number.as_u64()) {
                (Some(whole), _) => Given::Whole(whole),
                (None, Some(whole)) => Given::Huge(whole),
                (None, None) => number.as_f64().unwrap_or(f64::NAN).into(),
            },
            Value::String(text) => text.as_str().into(),
            Value::Array(items) => Given::List(items.iter().map(Given::from).collect()),
            Value::Object(map) => Given::Object(map.iter().map(|(key, value)| (key.clone(), value.into())).collect()),
        }
    }
}

impl Display for Given {
    fn fmt(&self, out: &mut Formatter<'_>) -> Written {
        match self {
            Given::Nothing => out.write_str("null"),
            Given::Flag(flag) => out.write_str(if *flag { "true" } else { "false" }),
            Given::Whole(whole) => whole.fmt(out),
            Given::Huge(whole) => whole.fmt(out),
            // The shortest digits that read back as the same number.
            Given::Number(number) => match Number::from_f64(*number) {
                Some(number) => number.fmt(out),
                None => out.write_str("null"),
            },
            Given::Text(text) => quoted(text, out),
            Given::List(items) => {
                for (index, item) in items.iter().enumerate() {
                    out.write_char(if index == 0 { '[' } else { ',' })?;
                    item.fmt(out)?;
                }
                out.write_str(if items.is_empty() { "[]" } else { "]" })
            }
            Given::Object(members) => {
                for (index, (name, value)) in members.iter().enumerate() {
                    out.write_char(if index == 0 { '{' } else { ',' })?;
                    quoted(name, out)?;
                    out.write_char(':')?;
                    value.fmt(out)?;
                }
                out.write_str(if members.is_empty() { "{}" } else { "}" })
            }
        }
    }
}

/// Writes text in quotes, with JSON's escapes.
fn quoted(text: &str, out: &mut Formatter<'_>) -> Written {
    out.write_char('"')?;
    for char in text.chars() {
        let short = match char {
            '"' | '\\' => char,
            '\u{8}' => 'b',
            '\u{c}' => 'f',
            '\n' => 'n',
            '\r' => 'r',
            '\t' => 't',
            '\0'..' ' => {
                write!(out, "\\u{:04x}", u32::from(char))?;
                continue;
            }
            _ => {
                out.write_char(char)?;
                continue;
            }
        };
        out.write_char('\\')?;
        out.write_char(short)?;
    }
    out.write_char('"')
}

impl Plain for Given {
    fn datum(&self) -> Datum<'_> {
        match self {
            Given::Nothing => Datum::Nothing,
            Given::Flag(flag) => Datum::Flag(*flag),
            Given::Whole(whole) => Datum::Whole(*whole),
            Given::Huge(whole) => Datum::Huge(*whole),
            Given::Number(number) => Datum::Number(*number),
            Given::Text(text) => Datum::Text(text),
            Given::List(items) => Datum::List(items),
            Given::Object(members) => {
                Datum::Members(members.iter().map(|(name, value)| (name.as_str(), value as &dyn Plain)).collect())
            }
        }
    }
}
serialize!(Given);

impl<'de> Deserialize<'de> for Given {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(Reading)
    }
}

struct Reading;

impl<'de> Visitor<'de> for Reading {
    type Value = Given;

    fn expecting(&self, out: &mut Formatter<'_>) -> Written {
        out.write_str("any valid JSON value")
    }

    fn visit_unit<E>(self) -> Result<Given, E> {
        Ok(Given::Nothing)
    }

    fn visit_bool<E>(self, flag: bool) -> Result<Given, E> {
        Ok(Given::Flag(flag))
    }

    fn visit_i64<E>(self, whole: i64) -> Result<Given, E> {
        Ok(Given::Whole(whole))
    }

    fn visit_u64<E>(self, whole: u64) -> Result<Given, E> {
        Ok(i64::try_from(whole).map_or(Given::Huge(whole), Given::Whole))
    }

    fn visit_f64<E>(self, number: f64) -> Result<Given, E> {
        Ok(number.into())
    }

    fn visit_str<E>(self, text: &str) -> Result<Given, E> {
        Ok(text.into())
    }

    fn visit_string<E>(self, text: String) -> Result<Given, E> {
        Ok(Given::Text(text))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut access: A) -> Result<Given, A::Error> {
        let mut items = Vec::new();
        while let Some(item) = access.next_element()? {
            items.push(item);
        }
        Ok(Given::List(items))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut access: A) -> Result<Given, A::Error> {
        let mut members = Vec::new();
        while let Some(name) = access.next_key()? {
            let Given::Text(name) = name else {
                return Err(Error::custom("the name of a member is not text"));
            };
            members.push((name, access.next_value()?));
        }
        Ok(Given::object(members))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn any_value() -> impl Strategy<Value = Value> {
        let leaf = prop_oneof![
            Just(Value::Null),
            any::<bool>().prop_map(Value::from),
            any::<i64>().prop_map(Value::from),
            any::<u64>().prop_map(Value::from),
            any::<f64>().prop_map(Value::from),
            (-5000.0..5000.0_f64).prop_map(Value::from),
            any::<String>().prop_map(Value::from),
            "[\\x00-\\x7f]{0,12}".prop_map(Value::from),
        ];
        leaf.prop_recursive(3, 24, 5, |inner| {
            prop_oneof![
                prop::collection::vec(inner.clone(), 0..5).prop_map(Value::from),
                prop::collection::hash_map(any::<String>(), inner, 0..5).prop_map(Value::from_iter),
            ]
        })
    }

    proptest! {
        #[test]
        fn written_and_passed_on_as_the_json_library_does(value in any_value()) {
            let given = Given::from(&value);
            prop_assert_eq!(given.to_string(), value.to_string());
            prop_assert_eq!(serde_json::to_value(&given).ok(), Some(value.clone()));
            prop_assert_eq!(serde_json::from_value::<Given>(value).ok(), Some(given));
        }
    }
}
