//! How a choice of a few things is declared: each of them once, with its words.

/// Declares a choice: what can be chosen, and what each is called. It comes with all of them in order, as `ALL`, with
/// their words in that order, as `WORDS`, and with a function for the words of one, named behind the colon.
#[macro_export]
macro_rules! choices {
    ($(#[$doc:meta])* pub enum $kind:ident: $words:ident {
        $($(#[$one_doc:meta])* $one:ident => $said:literal),* $(,)?
    }) => {
        $(#[$doc])*
        pub enum $kind {
            $($(#[$one_doc])* $one,)*
        }

        impl $kind {
            /// All of them, in order.
            pub const ALL: [Self; [$(Self::$one),*].len()] = [$(Self::$one),*];

            /// What they are called, in the same order.
            pub const WORDS: [&'static str; Self::ALL.len()] = [$($said),*];

            /// What it is called.
            pub const fn $words(self) -> &'static str {
                Self::WORDS[self as usize]
            }
        }
    };
}

/// Declares an enum of which each variant holds a type of its own, and lets each of these stand where the whole is asked for.
#[macro_export]
macro_rules! either {
    ($(#[$doc:meta])* pub enum $whole:ident {
        $($(#[$one_doc:meta])* $one:ident($of:ty)),* $(,)?
    }) => {
        $(#[$doc])*
        pub enum $whole {
            $($(#[$one_doc])* $one($of),)*
        }

        $(impl From<$of> for $whole {
            fn from(of: $of) -> Self {
                Self::$one(of)
            }
        })*
    };
}
