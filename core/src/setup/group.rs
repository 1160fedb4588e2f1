//! The macro that turns one written table into struct, defaults, documentation, reader and form rows.

/// Declares a group of inputs: the struct, its field table and its strict reader.
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
        #[derive(Clone, Debug, PartialEq, serde::Serialize)]
        pub struct $struct {
            $( #[doc = $help] pub $name: $ty, )*
            $( $( #[doc = $sub_doc] pub $sub: $sub_ty, )* )?
        }

        impl $crate::setup::reader::Group for $struct {
            const PATH: &'static str = $path;
            const TABLE: &'static [$crate::setup::field::Field] = &[
                $( $crate::setup::field::Field {
                    key: concat!($path, ".", stringify!($name)),
                    label: $label,
                    help: $help,
                    kind: $kind,
                }, )*
            ];
            const SUBGROUPS: &'static [&'static str] = &[ $( $( stringify!($sub), )* )? ];

            fn read(object: &mut $crate::setup::reader::Object<'_>) -> Self {
                Self {
                    $( $name: object.field(stringify!($name)), )*
                    $( $( $sub: object.group(stringify!($sub)), )* )?
                }
            }

            fn visit(visitor: &mut dyn FnMut(&'static $crate::setup::field::Field)) {
                Self::TABLE.iter().for_each(&mut *visitor);
                $( $( <$sub_ty as $crate::setup::reader::Group>::visit(visitor); )* )?
            }
        }
    };
}
pub(super) use group;
