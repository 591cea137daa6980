//! How the parts of a file are declared: which of their fields may be missing.

/// Declares parts of a file. A field with `= default` behind it may be missing, and is left out where it is the default.
macro_rules! parts {
    ($($(#[$doc:meta])* pub struct $kind:ident {
        $($(#[$field_doc:meta])* pub $field:ident: $type:ty $(= $missing:ident)?),* $(,)?
    })*) => {$(
        #[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        $(#[$doc])*
        pub struct $kind {
            $(
                $(#[$field_doc])*
                $(#[serde($missing, skip_serializing_if = "crate::parts::is_default")])?
                pub $field: $type,
            )*
        }
    )*};
}

pub(crate) use parts;

/// True for the usual value of a field, which the file leaves out.
pub fn is_default<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}
