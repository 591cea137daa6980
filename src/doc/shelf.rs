//! The lists of a design, and what their lines have in common.

use serde::{Deserialize, Serialize};

use super::design::{AdditiveLine, BaseLine, CultureLine, Design, SugarLine, ThickenerLine};
use super::pantry::EntryKind;
use potset_base::measures::Measure;

/// What the lines of all lists have.
pub trait Line {
    /// Key of its pantry entry.
    fn entry(&self) -> &str;

    /// The measure that its amount is said in.
    fn measure(&self) -> Measure;

    fn measure_mut(&mut self) -> &mut Measure;

    /// Puts another entry in its place, at the same amount; what was read or measured of the old one goes.
    fn swap(&mut self, key: &str);
}

/// The lists of a design: what their lines are made from, in which measure amounts are usually said, and what is known of one
/// entry only.
macro_rules! lists {
    ($($shelf:ident: $line:ident in $list:ident of $kind:ident, $usual:ident $(, forgets $gone:ident)*;)*) => {
        /// Which list of the design.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub enum LineKind {
            $($shelf,)*
        }

        impl LineKind {
            /// All of them, in the order of making.
            pub const ALL: [Self; [$(Self::$shelf),*].len()] = [$(Self::$shelf),*];

            /// The kind of its entries.
            pub const fn kind(self) -> EntryKind {
                match self {
                    $(Self::$shelf => EntryKind::$kind,)*
                }
            }

            /// The measure that amounts are said in, unless the line says otherwise.
            pub const fn usual(self) -> Measure {
                match self {
                    $(Self::$shelf => Measure::$usual,)*
                }
            }
        }

        $(impl Line for $line {
            fn entry(&self) -> &str {
                &self.entry
            }

            fn measure(&self) -> Measure {
                self.measure
            }

            fn measure_mut(&mut self) -> &mut Measure {
                &mut self.measure
            }

            fn swap(&mut self, key: &str) {
                key.clone_into(&mut self.entry);
                $(self.$gone = Default::default();)*
            }
        })*

        impl Design {
            /// The lines of a list.
            pub fn lines(&self, shelf: LineKind) -> Vec<&dyn Line> {
                match shelf {
                    $(LineKind::$shelf => self.$list.iter().map(|line| line as &dyn Line).collect(),)*
                }
            }

            /// The lines of a list, to change them.
            pub fn lines_mut(&mut self, shelf: LineKind) -> Vec<&mut dyn Line> {
                match shelf {
                    $(LineKind::$shelf => self.$list.iter_mut().map(|line| line as &mut dyn Line).collect(),)*
                }
            }

            /// Takes a line out; it must be there.
            pub(super) fn take_line(&mut self, shelf: LineKind, i: usize) {
                match shelf {
                    $(LineKind::$shelf => drop(self.$list.remove(i)),)*
                }
            }
        }
    };
}

lists! {
    Bases: BaseLine in bases of Base, Litre, forgets label, forgets measured, forgets pack, forgets packed;
    Sugars: SugarLine in sugars of Sugar, Gram;
    Thickeners: ThickenerLine in thickeners of Thickener, Gram;
    Additives: AdditiveLine in additives of Additive, Gram;
    Cultures: CultureLine in cultures of Culture, Gram, forgets measured, forgets packet;
}

impl LineKind {
    /// The word for one of its lines.
    pub const fn one(self) -> &'static str {
        self.kind().one()
    }
}
