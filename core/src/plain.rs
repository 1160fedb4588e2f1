//! Everything that goes out is plain data: what JSON has, told piece by piece, without a copy.
//!
//! One serializer serves all of it. Derived ones would be made anew for each type and each kind of output, 10 kB of the
//! page's download.

use serde::ser::{Serialize, SerializeMap, SerializeSeq, SerializeStruct, Serializer};

/// A piece of plain data.
pub enum Datum<'a> {
    /// `null`.
    Nothing,
    /// `true` or `false`.
    Flag(bool),
    /// A number written without a point.
    Whole(i64),
    /// The same, too large for [`Datum::Whole`].
    Huge(u64),
    /// Any other number.
    Number(f64),
    /// Text in quotes.
    Text(&'a str),
    /// A list.
    List(&'a dyn Items),
    /// An object of members with fixed names: the names, and the values in the same order.
    Record(&'static [&'static str], Vec<&'a dyn Plain>),
    /// Any other object.
    Members(Vec<(&'a str, &'a dyn Plain)>),
}

/// Something that is plain data to whoever is told of it.
pub trait Plain {
    /// What it is.
    fn datum(&self) -> Datum<'_>;
}

/// The items of a list.
pub trait Items {
    /// The item at that place, none after the last.
    fn item(&self, index: usize) -> Option<&dyn Plain>;
}

impl Serialize for Datum<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Datum::Nothing => serializer.serialize_unit(),
            Datum::Flag(flag) => serializer.serialize_bool(*flag),
            Datum::Whole(whole) => serializer.serialize_i64(*whole),
            Datum::Huge(whole) => serializer.serialize_u64(*whole),
            Datum::Number(number) => serializer.serialize_f64(*number),
            Datum::Text(text) => serializer.serialize_str(text),
            Datum::List(items) => {
                let mut list = serializer.serialize_seq(None)?;
                let mut index = 0;
                while let Some(item) = items.item(index) {
                    list.serialize_element(&item.datum())?;
                    index += 1;
                }
                list.end()
            }
            Datum::Record(names, values) => {
                let mut record = serializer.serialize_struct("", names.len())?;
                for (name, value) in names.iter().zip(values) {
                    record.serialize_field(name, &value.datum())?;
                }
                record.end()
            }
            Datum::Members(members) => {
                let mut map = serializer.serialize_map(Some(members.len()))?;
                for (name, value) in members {
                    map.serialize_entry(name, &value.datum())?;
                }
                map.end()
            }
        }
    }
}

macro_rules! leaf {
    ($($ty:ty: $value:ident => $datum:expr;)*) => {
        $( impl Plain for $ty {
            fn datum(&self) -> Datum<'_> {
                let $value = self;
                $datum
            }
        } )*
    };
}
leaf! {
    bool: flag => Datum::Flag(*flag);
    f64: number => Datum::Number(*number);
    String: text => Datum::Text(text);
    &str: text => Datum::Text(text);
}

impl<T: Plain> Plain for Option<T> {
    fn datum(&self) -> Datum<'_> {
        self.as_ref().map_or(Datum::Nothing, T::datum)
    }
}

macro_rules! list {
    ($([$($count:tt)*] $ty:ty;)*) => {
        $( impl<T: Plain $($count)*> Items for $ty {
            fn item(&self, index: usize) -> Option<&dyn Plain> {
                self.get(index).map(|item| item as &dyn Plain)
            }
        }

        impl<T: Plain $($count)*> Plain for $ty {
            fn datum(&self) -> Datum<'_> {
                Datum::List(self)
            }
        } )*
    };
}
list! {
    [] Vec<T>;
    [] &[T];
    [, const N: usize] [T; N];
}

/// Makes a type plain data, with serde's `Serialize`.
///
/// `Struct { member, … }` names every member of a struct in order, `..inner { member, … }` before them those of a struct
/// inside that are told as its own; `Enum: Variant = "word", …` the words of an enum.
macro_rules! plain {
    ($struct:ident { $(..$inner:ident { $($inner_member:ident),* },)? $($member:ident),* $(,)? }) => {
        impl $crate::plain::Plain for $struct {
            fn datum(&self) -> $crate::plain::Datum<'_> {
                // Without `..`: a member that is not told does not compile.
                let Self { $($inner,)? $($member),* } = self;
                $crate::plain::Datum::Record(
                    &[ $( $(stringify!($inner_member),)* )? $( stringify!($member) ),* ],
                    vec![ $( $(&$inner.$inner_member,)* )? $($member),* ],
                )
            }
        }
        $crate::plain::serialize!($struct);
    };
    ($enum:ident: $($variant:ident = $word:literal),* $(,)?) => {
        impl $crate::plain::Plain for $enum {
            fn datum(&self) -> $crate::plain::Datum<'_> {
                $crate::plain::Datum::Text(match self { $( Self::$variant => $word, )* })
            }
        }
        $crate::plain::serialize!($enum);
    };
}
pub(crate) use plain;

/// Serde's `Serialize` for a type that is plain data.
macro_rules! serialize {
    ($type:ty) => {
        impl serde::Serialize for $type {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serde::Serialize::serialize(&$crate::plain::Plain::datum(self), serializer)
            }
        }
    };
}
pub(crate) use serialize;
