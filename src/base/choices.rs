//! How a choice of a few things is declared: each of them once, with its words.

/// Declares a choice: what can be chosen, and what each is called. It comes with all of them in order, as `ALL`, and with a
/// function for the words, named behind the colon.
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

            /// What it is called.
            #[must_use]
            pub const fn $words(self) -> &'static str {
                match self {
                    $(Self::$one => $said,)*
                }
            }
        }
    };
}
