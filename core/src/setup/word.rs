//! The macro for a choice field: an enum of words with their labels.

/// Declares an enum of words that is a choice field.
macro_rules! word {
    (
        $(#[$doc:meta])*
        $name:ident { $first:ident = $first_word:literal $first_label:literal $(, $variant:ident = $word:literal $label:literal )* $(,)? }
    ) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum $name {
            #[doc = $first_label] $first,
            $( #[doc = $label] $variant, )*
        }

        impl $name {
            /// Every word with its label, in form order.
            const CHOICES: &'static [(&'static str, &'static str)] =
                &[ ($first_word, $first_label), $( ($word, $label), )* ];
            const ALL: &'static [Self] = &[ Self::$first, $( Self::$variant, )* ];

            /// The word in a setup file.
            pub const fn word(self) -> &'static str {
                match self { Self::$first => $first_word, $( Self::$variant => $word, )* }
            }

            /// The field kind of a choice among these words.
            pub(super) const fn kind(default: Self) -> $crate::setup::field::Kind {
                $crate::setup::field::Kind::Choice { default: default.word(), choices: Self::CHOICES }
            }
        }

        $crate::plain::plain!($name: $first = $first_word $(, $variant = $word)*);

        impl $crate::setup::group::Word for $name {
            fn index(&self) -> usize {
                *self as usize
            }

            fn choose(&mut self, index: usize) {
                if let Some(word) = Self::ALL.get(index) {
                    *self = *word;
                }
            }
        }

        impl $crate::setup::group::Input for $name {
            const BLANK: Self = Self::$first;

            fn slot(&mut self) -> $crate::setup::group::Slot<'_> {
                $crate::setup::group::Slot::Word(self)
            }
        }
    };
}
pub(super) use word;
