//! A reading in words, as this kitchen says them: the line of a reading takes the same words.

use super::Observed;
use potset_base::measures::whole;
use potset_base::number::{NBSP, fixed, plain};
use potset_base::units::said::acidity;
use potset_base::units::said::warmth_plain;
use potset_base::units::{self, Amounts};

/// Centimetres of an inch. Source: published, its definition.
pub const INCH_CM: f64 = 2.54;

/// A pH with a decimal at least: "5.0", "4.85".
fn ph(v: f64) -> String {
    let one = fixed(v, 1);
    let plain = plain(v);
    if plain.len() < one.len() { one } else { plain }
}

impl Observed {
    /// What was read, in words; empty for a remark.
    pub fn words(self) -> String {
        let inches = units::spoken().amounts == Amounts::UsCustomary;
        match self {
            Self::Ph(v) => format!("pH{NBSP}{}", ph(v)),
            Self::Strip(v) => format!("strip pH{NBSP}{}", ph(v)),
            Self::Acidity(percent) => acidity(percent),
            Self::Warmth(c) => warmth_plain(c),
            Self::Tang(word) => word.word().to_owned(),
            Self::Sweetness(word) => word.word().to_owned(),
            Self::Texture(word) => word.word().to_owned(),
            Self::LineSpread(cm) if inches => format!("spread {}{NBSP}in", fixed(cm / INCH_CM, 1)),
            Self::LineSpread(cm) => format!("spread {}{NBSP}cm", plain(cm)),
            Self::ThinLayer(0.0) => "no thin layer".to_owned(),
            Self::ThinLayer(mm) => format!("thin layer {}{NBSP}mm", plain(mm)),
            Self::Whey(0.0) => "no whey".to_owned(),
            Self::Whey(ml) if inches => format!("whey {}", whole::volume(ml / 1000.0, 3)),
            Self::Whey(ml) => format!("whey {}{NBSP}mL", plain(ml)),
            Self::Remark => String::new(),
        }
    }

    /// What sort of reading it is, for the head of a column.
    pub const fn kind(self) -> &'static str {
        match self {
            Self::Ph(_) => "pH",
            Self::Strip(_) => "pH by strip",
            Self::Acidity(_) => "acidity",
            Self::Warmth(_) => "warmth",
            Self::Tang(_) => "tang",
            Self::Sweetness(_) => "sweetness",
            Self::Texture(_) => "texture",
            Self::LineSpread(_) => "spread",
            Self::ThinLayer(_) => "thin layer",
            Self::Whey(_) => "whey",
            Self::Remark => "remark",
        }
    }
}
