//! What comes of a pot, as numbers to compare: at the stop line, or when. And the one yardstick for what a person notices.
//!
//! Judgements: outcomes that a person meets as one thing are noticed together, or not at all.
//!
//! What the word for it goes by leads, and the other figure follows:
//! - Sourness. Tang leads: the tongue takes undissociated acid for sour, and the tang word goes by it. The pH of two pots
//!   with other buffers can differ where both taste alike, so its own figure decides nothing.
//! - Texture. Thickness leads: the texture word goes by it. Where one of both pots is a gel that a spoon cuts, the word goes by
//!   stiffness, and stiffness leads; all others yield to the spoon, and their stiffness is that of a pot that nothing touched.
//!
//! Energy and cost are read, not tasted. Source: assumed, from what the words go by.

mod reads;
mod table;

use potset_base::{choices, number};
use table::{Role, Row, TABLE, count, listed};

pub use table::{COUNT, MINUTES, Wanted};

/// Something that comes of a pot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Observable {
    /// When pH 4.6 is reached.
    SourAt,
    /// When all goals hold on the likely line for the first time; of an answer that knows its possible pots, when about half
    /// of them are ready.
    ReadyFrom,
    Ph,
    /// Undissociated lactic acid: what the tongue takes for sour.
    Tang,
    SugarLeft,
    Sweetness,
    Texture,
    Stiffness,
    Whey,
    /// Thin layer below, % of the pot, after the chill.
    ThinLayer,
    Energy,
    /// Money per kg of what is eaten.
    Cost,
    /// g/100 g of what is eaten: a want of Aim, and put beside that of another pot nowhere.
    Fat,
}

/// From which difference on a person notices it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    By(f64),
    /// A factor, more than 1.
    Times(f64),
}

/// How a value is written.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Written {
    Decimals(usize),
    Figures(usize),
}

choices! {
    /// Where nothing has come of it.
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum Missing: words {
        /// The pot never comes there.
        Never => "never",
        /// It cannot be told.
        NotKnown => "not known",
    }
}

impl Observable {
    /// What is put beside that of another pot.
    pub const ALL: [Self; count(Role::Beside)] = listed(Role::Beside);

    /// What can be wanted of Aim, in the order in which it is told.
    pub const WANTED: [Self; count(Role::Wanted)] = listed(Role::Wanted);

    const fn row(self) -> &'static Row {
        &TABLE[self as usize]
    }

    /// What a sweep can show, in its order.
    pub const SWEPT: [Self; count(Role::Swept)] = listed(Role::Swept);

    /// What *what matters* looks at. The time is that of pH 4.6 where too few pots come to be ready.
    pub const MATTERING: [Self; count(Role::Mattering)] = listed(Role::Mattering);

    /// What *what this rests on* looks at, each by its own step.
    pub const RESTING: [Self; count(Role::Resting)] = listed(Role::Resting);

    pub const fn name(self) -> &'static str {
        self.row().name
    }

    pub const fn unit(self) -> &'static str {
        self.row().unit
    }

    /// The least difference that a person notices.
    pub const fn step(self) -> Step {
        self.row().step
    }

    /// On this scale differences add up: logarithms where a person notices factors.
    pub fn scaled(self, value: f64) -> f64 {
        match self.step() {
            Step::Times(_) => value.max(self.row().least).ln(),
            Step::By(_) => value,
        }
    }

    /// The value at a place on that scale.
    pub fn unscaled(self, place: f64) -> f64 {
        match self.step() {
            Step::Times(_) => place.exp(),
            Step::By(_) => place,
        }
    }

    /// A difference on that scale in steps that a person notices.
    pub fn steps(self, difference: f64) -> f64 {
        match self.step() {
            Step::Times(factor) => difference / factor.ln(),
            Step::By(least) => difference / least,
        }
    }

    /// What lies between two values, in steps that a person notices; more than nothing where `to` is the larger.
    pub fn steps_between(self, from: f64, to: f64) -> f64 {
        self.steps(self.scaled(to) - self.scaled(from))
    }

    /// Whether its own figure shows what is noticed: nobody tastes a pH, so that is told of the tang alone.
    pub const fn shows_notice(self) -> bool {
        !matches!(self, Self::Ph)
    }

    /// Whether a word says it to a cook, and its number is a laboratory's.
    pub const fn in_words(self) -> bool {
        matches!(self, Self::Tang | Self::Texture | Self::Stiffness)
    }

    /// How it is wanted.
    pub const fn wanted(self) -> &'static Wanted {
        &self.row().want
    }

    /// A value with its unit, as finely as a person notices it and a little more, and with so many figures more than that; and
    /// the number that is then to be read.
    pub fn finely(self, v: f64, more: usize) -> (String, f64) {
        let text = match self.row().written {
            _ if self == Self::ReadyFrom && more == 0 => {
                return (number::hours(v), (60.0 * v).round() / 60.0);
            }
            Written::Figures(n) => number::figures(v, n + 1 + more),
            Written::Decimals(n) => number::fixed(v, n.max(1) + more),
        };
        let shown = number::parse(&text).unwrap_or(v);
        (with_unit(text, self.unit()), shown)
    }

    /// A difference on that scale in words: "+3.0 h", "×1.4".
    pub fn difference_words(self, difference: f64) -> String {
        match self.step() {
            // Beyond a hundred either way the figure says no more than that.
            Step::Times(_) if difference < -100.0_f64.ln() => "next to nothing".to_owned(),
            Step::Times(_) if difference > 100.0_f64.ln() => "over a hundred times".to_owned(),
            Step::Times(_) => format!("×{}", number::figures(difference.exp(), 2)),
            Step::By(_) => {
                let sign = if difference > 0.0 { "+" } else { "" };
                format!("{sign}{}", self.words(difference))
            }
        }
    }

    /// A value with its unit.
    pub fn words(self, value: f64) -> String {
        let text = match self.row().written {
            Written::Decimals(n) => number::fixed(value, n),
            Written::Figures(n) => number::figures(value, n),
        };
        with_unit(text, self.unit())
    }

    /// Why there may be no value.
    pub const fn missing(self) -> Missing {
        self.row().missing
    }

    /// A value with its unit, or what stands where there is none.
    pub fn words_of(self, value: Option<f64>) -> String {
        value.map_or_else(|| self.missing().words().to_owned(), |v| self.words(v))
    }

    /// Whether differences of it are told as factors.
    pub const fn by_factor(self) -> bool {
        matches!(self.step(), Step::Times(_))
    }

    /// Its place among all of them.
    pub const fn index(self) -> usize {
        self as usize
    }

    /// Where it is read; nothing if whoever eats the pot meets it.
    pub const fn on_paper(self) -> Option<&'static str> {
        self.row().on_paper
    }

    /// The outcome by whose step this one is noticed.
    ///
    /// - `cuts` — one of both pots is a gel that a spoon cuts.
    pub const fn led_by(self, cuts: bool) -> Self {
        match self {
            Self::Ph => Self::Tang,
            Self::Texture | Self::Stiffness if cuts => Self::Stiffness,
            Self::Texture | Self::Stiffness => Self::Texture,
            other => other,
        }
    }

    /// What is said of a difference: "you would notice", "too small to notice", or where it is read. Empty where there is
    /// nothing to say.
    ///
    /// - `difference` — on the scale of the outcome; nothing where one pot never comes there.
    pub fn notice_words(self, difference: Option<f64>, noticed: bool) -> &'static str {
        match (difference, self.on_paper()) {
            (Some(0.0), _) => "the same",
            (Some(_), _) if !self.shows_notice() => "",
            (Some(_), Some(place)) => place,
            _ if noticed => "you would notice",
            (Some(_), None) => "too small to notice",
            (None, _) => "",
        }
    }

    /// A difference with what is said of it: "+3.0 h · you would notice". Empty where there is nothing to say.
    ///
    /// - `between` — stands between both: " · ", ", ".
    pub fn difference_line(self, difference: Option<f64>, noticed: bool, between: &str) -> String {
        let said = self.notice_words(difference, noticed);
        match difference {
            Some(d) if d != 0.0 && said.is_empty() => self.difference_words(d),
            Some(d) if d != 0.0 => format!("{}{between}{said}", self.difference_words(d)),
            _ => said.to_owned(),
        }
    }
}

/// A number in words with its unit, if it has one.
fn with_unit(text: String, unit: &str) -> String {
    if unit.is_empty() { text } else { format!("{text}{}{unit}", number::NBSP) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_has_a_row_for_each_in_order() {
        for (at, row) in TABLE.iter().enumerate() {
            assert_eq!((row.outcome.index(), row.place(Role::Wanted) > 0), (at, !row.want.key.is_empty()));
        }
        let places =
            |list: &[Observable], role: Role| list.iter().map(|o| o.row().place(role)).collect::<Vec<_>>();
        assert_eq!(places(&Observable::SWEPT, Role::Swept), [1, 2, 3, 4, 5, 6, 7, 8, 9]);
        assert_eq!(places(&Observable::MATTERING, Role::Mattering), [1, 2, 3, 4, 5, 6]);
        assert_eq!(places(&Observable::RESTING, Role::Resting), [1, 2, 3, 4, 5]);
        assert_eq!(places(&Observable::WANTED, Role::Wanted), [1, 2, 3, 4, 5, 6, 7, 8, 9]);
    }
}
