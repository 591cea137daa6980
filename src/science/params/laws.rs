//! How a group of parameters is declared: each name once, for the cited value and for the plain number.

/// Declares a group of cited parameters and the plain numbers that the laws compute with.
macro_rules! laws {
    ($(#[$doc:meta])* $cited:ident => $plain:ident { $($(#[$field_doc:meta])* $field:ident,)+ }) => {
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq, Deserialize)]
        #[serde(deny_unknown_fields)]
        pub struct $cited { $($(#[$field_doc])* pub $field: Cited,)+ }

        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq)]
        pub struct $plain { $($(#[$field_doc])* pub $field: f64,)+ }

        impl $plain {
            pub(super) fn each(&mut self, see: &mut dyn FnMut(&mut f64)) {
                $(see(&mut self.$field);)+
            }
        }

        impl $cited {
            /// The likely values.
            pub fn plain(&self) -> $plain {
                $plain { $($field: self.$field.value,)+ }
            }

            pub(super) fn each(&mut self, group: &str, see: &mut dyn FnMut(&str, &mut Cited)) {
                $(see(&format!("{group}.{}", stringify!($field)), &mut self.$field);)+
            }

            pub(super) fn list<'a>(&'a self, group: &str, out: &mut Vec<(String, &'a Cited)>) {
                $(out.push((format!("{group}.{}", stringify!($field)), &self.$field));)+
            }
        }
    };
}
