//! A group of inputs: its rows of the table, and the places its values are kept in.
//!
//! Groups are read and written through these places, by one piece of code for all of them.

use super::field::{Field, Kind};
use super::given::Given;
use super::parts::Body;
use crate::plain::Plain;

/// The place that one field's value is kept in.
pub(crate) enum Slot<'a> {
    /// The version of the shape, which is what it is.
    Version(u32),
    /// A number.
    Number(&'a mut f64),
    /// Yes or no.
    Flag(&'a mut bool),
    /// Text.
    Text(&'a mut String),
    /// One of a few words.
    Word(&'a mut dyn Word),
    /// A direction or point.
    Vector(&'a mut [f64; 3]),
    /// The same, where it may be left out.
    MaybeVector(&'a mut Option<[f64; 3]>),
    /// Two points.
    Points(&'a mut [[f64; 2]; 2]),
    /// Readings of one length.
    Readings(&'a mut Vec<f64>),
    /// The caliper's bodies.
    Bodies(&'a mut Vec<Body>),
}

/// One of a few words, by its place among them.
pub(crate) trait Word {
    /// Which it is.
    fn index(&self) -> usize;
    /// Makes it another; a place that is none changes nothing.
    fn choose(&mut self, index: usize);
}

/// A type that a field can hold.
pub(crate) trait Input {
    /// Anything at all, until the table's default comes in.
    const BLANK: Self;
    /// This place.
    fn slot(&mut self) -> Slot<'_>;
}

macro_rules! input {
    ($($ty:ty = $blank:expr, $slot:ident;)*) => {
        $( impl Input for $ty {
            const BLANK: Self = $blank;
            fn slot(&mut self) -> Slot<'_> {
                Slot::$slot(self)
            }
        } )*
    };
}
input! {
    f64 = 0.0, Number;
    bool = false, Flag;
    String = String::new(), Text;
    [f64; 3] = [0.0; 3], Vector;
    Option<[f64; 3]> = None, MaybeVector;
    [[f64; 2]; 2] = [[0.0; 2]; 2], Points;
    Vec<f64> = Vec::new(), Readings;
    Vec<Body> = Vec::new(), Bodies;
}

/// A struct of inputs that knows its table.
pub(crate) trait Group {
    /// Dotted path of the group, empty for the whole.
    fn path(&self) -> &'static str;
    /// Its own rows, in form order.
    fn table(&self) -> &'static [Field];
    /// The places of its own rows, in the same order.
    fn slots(&mut self) -> Vec<Slot<'_>>;
    /// The groups nested in it.
    fn groups(&mut self) -> Vec<&mut dyn Group>;
}

/// The last piece of a dotted path: the key inside its own object.
pub(super) fn leaf(path: &'static str) -> &'static str {
    path.rsplit_once('.').map_or(path, |(_, leaf)| leaf)
}

/// Hands every row, nested ones included, to `visitor` in form order.
pub(super) fn visit(group: &mut dyn Group, visitor: &mut dyn FnMut(&'static Field)) {
    group.table().iter().for_each(&mut *visitor);
    group.groups().into_iter().for_each(|group| visit(group, visitor));
}

/// The place of the number with that path.
pub(super) fn number<'a>(group: &'a mut dyn Group, path: &str) -> Option<&'a mut f64> {
    if let Some(index) = group.table().iter().position(|field| field.key == path) {
        return match group.slots().into_iter().nth(index) {
            Some(Slot::Number(number)) => Some(number),
            _ => None,
        };
    }
    let inner = |group: &&mut dyn Group| path.strip_prefix(group.path()).is_some_and(|rest| rest.starts_with('.'));
    number(group.groups().into_iter().find(inner)?, path)
}

/// Puts the table's defaults in.
pub(super) fn fill(group: &mut dyn Group) {
    let table = group.table();
    for (slot, field) in group.slots().into_iter().zip(table) {
        match (slot, field.kind) {
            (Slot::Number(slot), Kind::Number { default, .. }) => *slot = default,
            (Slot::Flag(slot), Kind::Flag { default }) => *slot = default,
            (Slot::Word(slot), Kind::Choice { default, choices }) => {
                slot.choose(choices.iter().position(|(word, _)| *word == default).unwrap_or_default());
            }
            (Slot::Vector(slot), Kind::Vector { default: Some(default) }) => *slot = default,
            (Slot::MaybeVector(slot), Kind::Vector { default }) => *slot = default,
            (Slot::Points(slot), Kind::Points { default, .. }) => *slot = default,
            (Slot::Bodies(slot), Kind::Bodies { default }) => *slot = default(),
            (Slot::Version(_), Kind::Number { .. })
            | (Slot::Text(_), Kind::Text { .. })
            | (Slot::Readings(_), Kind::Readings { .. }) => {}
            _ => unreachable!("a row's kind is that of its member; a vector that must be given has a default"),
        }
    }
    group.groups().into_iter().for_each(fill);
}

/// The group as plain data.
pub(super) fn given(group: &mut dyn Group) -> Given {
    let table = group.table();
    let mut members: Vec<(String, Given)> = Vec::new();
    for (slot, field) in group.slots().into_iter().zip(table) {
        members.push((field.leaf().to_owned(), kept(slot, field)));
    }
    for group in group.groups() {
        members.push((leaf(group.path()).to_owned(), given(group)));
    }
    Given::Object(members)
}

fn kept(slot: Slot<'_>, field: &Field) -> Given {
    match slot {
        Slot::Version(version) => Given::Whole(version.into()),
        Slot::Number(number) => (*number).into(),
        Slot::Flag(flag) => Given::Flag(*flag),
        Slot::Text(text) => text.as_str().into(),
        Slot::Word(word) => field.word(word.index()).into(),
        Slot::Vector(vector) => vector.datum().into(),
        Slot::MaybeVector(vector) => vector.datum().into(),
        Slot::Points(points) => points.datum().into(),
        Slot::Readings(readings) => readings.datum().into(),
        Slot::Bodies(bodies) => bodies.datum().into(),
    }
}

/// Declares a group of inputs: the struct, its field table and the places of its values.
///
/// Every line reads: name, type, label, help, kind; the help line documents the struct member too.
/// A block `with { name: Type, doc; }` nests further groups under the same path.
macro_rules! group {
    (
        $(#[$doc:meta])*
        $struct:ident at $path:literal {
            $( $name:ident : $ty:ty = $label:literal, $help:literal, $kind:expr; )*
        }
        $( with { $( $sub:ident : $sub_ty:ty, $sub_doc:literal; )* } )?
    ) => {
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq)]
        pub struct $struct {
            $( #[doc = $help] pub $name: $ty, )*
            $( $( #[doc = $sub_doc] pub $sub: $sub_ty, )* )?
        }

        impl $struct {
            /// Anything at all, until the table's defaults come in.
            pub(super) const BLANK: Self = Self {
                $( $name: <$ty as $crate::setup::group::Input>::BLANK, )*
                $( $( $sub: <$sub_ty>::BLANK, )* )?
            };
            const TABLE: &'static [$crate::setup::field::Field] = &[
                $( $crate::setup::field::Field {
                    key: concat!($path, ".", stringify!($name)),
                    label: $label,
                    help: $help,
                    kind: $kind,
                }, )*
            ];
        }

        impl $crate::setup::group::Group for $struct {
            fn path(&self) -> &'static str {
                $path
            }

            fn table(&self) -> &'static [$crate::setup::field::Field] {
                Self::TABLE
            }

            fn slots(&mut self) -> Vec<$crate::setup::group::Slot<'_>> {
                vec![ $( $crate::setup::group::Input::slot(&mut self.$name), )* ]
            }

            fn groups(&mut self) -> Vec<&mut dyn $crate::setup::group::Group> {
                vec![ $( $( &mut self.$sub, )* )? ]
            }
        }

        impl serde::Serialize for $struct {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serde::Serialize::serialize(&$crate::setup::group::given(&mut self.clone()), serializer)
            }
        }
    };
}
pub(super) use group;
