//! Every cited figure of the pantry by its path, to list it or to change it. A field cannot be forgotten: a type that holds
//! figures is declared by [`figures!`], which goes over all of its fields.

use super::{BaseKind, ColdAcid, EnergyRule, FatFollows, Form, Pantry, ProteinKind, Sterility, Ticket};
use crate::lines::Pack;
use potset_base::{Cited, Inhibitor, Sugar};

/// Where a figure stands: the names that lead to it.
#[derive(Clone, Copy)]
pub enum At<'a> {
    /// Nobody asks: no text is made, for work that goes over all figures thousands of times.
    Unasked,
    Top,
    In(&'a At<'a>, &'a str),
}

impl<'a> At<'a> {
    /// A place inside.
    pub const fn to(&'a self, name: &'a str) -> Self {
        match self {
            Self::Unasked => Self::Unasked,
            _ => Self::In(self, name),
        }
    }

    /// The names with points between them: "thickeners.agar.action.stiffness_pa".
    pub fn path(&self) -> String {
        match self {
            Self::In(Self::In(up, over), name) => format!("{}.{name}", Self::In(up, over).path()),
            Self::In(_, name) => (*name).to_owned(),
            Self::Unasked | Self::Top => String::new(),
        }
    }
}

/// Sees a figure and where it stands.
pub type See<'a> = dyn FnMut(&At<'_>, &mut Cited) + 'a;

/// A part of an entry: it may hold cited figures, and may tell it from its neighbours in a list.
pub trait Figures {
    /// Shows every figure in the order of the file.
    fn visit(&mut self, _at: &At<'_>, _see: &mut See<'_>) {}

    /// What tells what it stands in from its neighbours in a list.
    fn label(&self) -> Option<String> {
        None
    }
}

impl Figures for Cited {
    fn visit(&mut self, at: &At<'_>, see: &mut See<'_>) {
        see(at, self);
    }
}

impl<T: Figures> Figures for Option<T> {
    fn visit(&mut self, at: &At<'_>, see: &mut See<'_>) {
        if let Some(inner) = self {
            inner.visit(at, see);
        }
    }
}

impl<T: Figures> Figures for Vec<T> {
    fn visit(&mut self, at: &At<'_>, see: &mut See<'_>) {
        for (i, one) in self.iter_mut().enumerate() {
            if matches!(at, At::Unasked) {
                one.visit(at, see);
            } else {
                let name = one.label().unwrap_or_else(|| i.to_string());
                one.visit(&at.to(&name), see);
            }
        }
    }
}

/// A choice with one figure behind it, or a range.
impl<A, T: Figures> Figures for (A, T) {
    fn visit(&mut self, at: &At<'_>, see: &mut See<'_>) {
        self.1.visit(at, see);
    }
}

/// What holds no figure.
macro_rules! no_figures {
    ($($kind:ty),*) => { $(impl Figures for $kind {})* };
}

no_figures!(
    bool,
    f64,
    BaseKind,
    ColdAcid,
    EnergyRule,
    FatFollows,
    Form,
    Pack,
    ProteinKind,
    Sterility,
    Ticket
);

impl Figures for String {
    fn label(&self) -> Option<String> {
        Some(self.clone())
    }
}

impl Figures for Sugar {
    fn label(&self) -> Option<String> {
        Some(self.name().to_owned())
    }
}

impl Figures for Inhibitor {
    fn label(&self) -> Option<String> {
        Some(self.words().to_owned())
    }
}

/// Declares types of the pantry, and how all of their fields are gone over. In a list, one is told from its neighbours by its
/// first field. A field with `= default` behind it may be missing in a file, and is left out there where it is the default.
macro_rules! figures {
    ($($(#[$doc:meta])* pub struct $kind:ident {
        $(#[$first_doc:meta])* pub $first:ident: $first_type:ty $(= $first_missing:ident)?
        $(, $(#[$field_doc:meta])* pub $field:ident: $type:ty $(= $missing:ident)?)* $(,)?
    })*) => {$(
        $crate::parts::parts! {
            $(#[$doc])*
            pub struct $kind {
                $(#[$first_doc])* pub $first: $first_type $(= $first_missing)?
                $(, $(#[$field_doc])* pub $field: $type $(= $missing)?)*
            }
        }

        impl $crate::pantry::figures::Figures for $kind {
            fn visit(&mut self, at: &$crate::pantry::figures::At<'_>, see: &mut $crate::pantry::figures::See<'_>) {
                self.$first.visit(&at.to(stringify!($first)), see);
                $(self.$field.visit(&at.to(stringify!($field)), see);)*
            }

            fn label(&self) -> Option<String> {
                self.$first.label()
            }
        }
    )*};
    ($($(#[$doc:meta])* pub enum $kind:ident {
        $($(#[$variant_doc:meta])* $variant:ident {
            $($(#[$field_doc:meta])* $field:ident: $type:ty $(= $missing:ident)?),* $(,)?
        }),* $(,)?
    })*) => {$(
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        pub enum $kind {
            $($(#[$variant_doc])* $variant {
                $(
                    $(#[$field_doc])*
                    $(#[serde($missing, skip_serializing_if = "crate::parts::is_default")])?
                    $field: $type
                ),*
            },)*
        }

        impl $crate::pantry::figures::Figures for $kind {
            fn visit(&mut self, at: &$crate::pantry::figures::At<'_>, see: &mut $crate::pantry::figures::See<'_>) {
                match self {
                    $(Self::$variant { $($field),* } => {
                        $($field.visit(&at.to(stringify!($field)), see);)*
                    })*
                }
            }
        }
    )*};
}

pub(super) use figures;

impl Pantry {
    /// Shows every figure of every entry with its path, to read or to change.
    pub fn each_figure(&mut self, see: &mut dyn FnMut(&str, &mut Cited)) {
        self.visit(&At::Top, &mut |at, cited| see(&at.path(), cited));
    }

    /// The same figures in the same order, without their paths.
    pub fn each_bare(&mut self, see: &mut dyn FnMut(&mut Cited)) {
        self.visit(&At::Unasked, &mut |_, cited| see(cited));
    }

    /// Every figure with its path.
    pub fn figures(&self) -> Vec<(String, Cited)> {
        listed(self.clone())
    }
}

/// Every figure of a part with its path inside it.
pub(super) fn listed(mut part: impl Figures) -> Vec<(String, Cited)> {
    let mut all = Vec::new();
    part.visit(&At::Top, &mut |at, cited| all.push((at.path(), cited.clone())));
    all
}

#[cfg(test)]
mod tests {
    use crate::assets;

    #[test]
    fn every_figure_of_the_file_is_seen_once() {
        let all = assets::pantry().unwrap().figures();
        assert_eq!(all.len(), assets::PANTRY.matches("from: (kind:").count());
        let mut paths: Vec<&String> = all.iter().map(|(path, _)| path).collect();
        paths.sort();
        paths.dedup();
        assert_eq!(paths.len(), all.len());
    }

    #[test]
    fn without_paths_they_come_in_the_same_order() {
        let mut pantry = assets::pantry().unwrap();
        let mut bare = Vec::new();
        pantry.each_bare(&mut |cited| bare.push(cited.clone()));
        let with: Vec<_> = pantry.figures().into_iter().map(|(_, cited)| cited).collect();
        assert!(bare == with);
    }
}
