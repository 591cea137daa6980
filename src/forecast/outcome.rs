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

use potset_base::number;

/// Something that comes of a pot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
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

/// Where nothing has come of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Missing {
    /// The pot never comes there.
    Never,
    /// It cannot be told.
    NotKnown,
}

impl Missing {
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Never => "never",
            Self::NotKnown => "not known",
        }
    }
}

/// All that is fixed about one outcome: a row of the one table.
struct Row {
    outcome: Outcome,
    name: &'static str,
    unit: &'static str,
    written: Written,
    step: Step,
    /// Below this a person tastes none of it: less is no difference.
    least: f64,
    missing: Missing,
    /// Where it is read; nothing if whoever eats the pot meets it.
    on_paper: Option<&'static str>,
    /// Its place in each list that it stands in, from 1.
    swept: usize,
    mattering: usize,
    resting: usize,
}

/// A row that nothing more is said of.
const fn row(outcome: Outcome, name: &'static str, unit: &'static str, written: Written, step: Step) -> Row {
    Row {
        outcome,
        name,
        unit,
        written,
        step,
        least: 1e-9,
        missing: Missing::Never,
        on_paper: None,
        swept: 0,
        mattering: 0,
        resting: 0,
    }
}

/// How many there are.
pub const COUNT: usize = 12;

/// The one table. The steps are the least differences that a person notices. What is judged together with another outcome (pH
/// with tang, stiffness with thickness) is noticed by that one's step; its own then ranks figures and goals alone. Of energy
/// and cost, which nobody tastes, it is what a maker would act on.
///
/// Source of the steps: texture published, 26 % (Camacho et al. 2015, oral viscosity 10-100 mPa·s); pH assumed, between 0.1
/// and 0.15; sweetness from memory, about 15 %; stiffness assumed, as texture; times, sugar, whey, thin layer (some
/// millimetres of a jar), energy, acid and cost assumed. Of what is too little to taste: assumed for acid and sweetness.
const TABLE: [Row; COUNT] = {
    use Outcome as O;
    use Step::{By, Times};
    use Written::{Decimals, Figures};
    [
        Row { swept: 2, resting: 2, ..row(O::SourAt, "pH 4.6 reached", "h", Decimals(1), By(0.5)) },
        Row {
            swept: 1,
            mattering: 1,
            ..row(O::ReadyFrom, "goals first hold, likely line", "h", Decimals(1), By(0.5))
        },
        Row { swept: 5, resting: 1, ..row(O::Ph, "pH at the stop", "", Decimals(2), By(0.12)) },
        Row {
            swept: 6,
            mattering: 2,
            least: 1.0,
            ..row(O::Tang, "tang, undissociated acid", "mmol/kg", Decimals(1), Times(1.2))
        },
        Row {
            swept: 4,
            mattering: 3,
            resting: 4,
            ..row(O::SugarLeft, "sugar left", "g/L", Decimals(1), By(3.0))
        },
        Row { least: 1.0, ..row(O::Sweetness, "sweetness, as sucrose", "g/kg", Decimals(1), Times(1.15)) },
        Row {
            swept: 3,
            mattering: 4,
            resting: 3,
            ..row(O::Texture, "texture, chilled", "Pa·s", Figures(2), Times(1.26))
        },
        row(O::Stiffness, "stiffness", "Pa", Figures(2), Times(1.26)),
        Row { swept: 7, mattering: 5, ..row(O::Whey, "whey on standing", "%", Decimals(1), By(1.0)) },
        Row {
            swept: 8,
            mattering: 6,
            resting: 5,
            ..row(O::ThinLayer, "thin layer at the bottom", "%", Decimals(0), By(5.0))
        },
        Row { on_paper: Some("on the label"), ..row(O::Energy, "energy", "kJ/100 g", Decimals(0), By(20.0)) },
        Row {
            swept: 9,
            missing: Missing::NotKnown,
            on_paper: Some("in the price"),
            ..row(O::Cost, "cost", "per kg", Decimals(2), Times(1.05))
        },
    ]
};

/// A list of outcomes.
#[derive(Clone, Copy)]
enum Role {
    Swept,
    Mattering,
    Resting,
}

impl Row {
    const fn place(&self, role: Role) -> usize {
        match role {
            Role::Swept => self.swept,
            Role::Mattering => self.mattering,
            Role::Resting => self.resting,
        }
    }
}

/// How many stand in a list.
const fn count(role: Role) -> usize {
    let (mut n, mut at) = (0, 0);
    while at < COUNT {
        n += (TABLE[at].place(role) > 0) as usize;
        at += 1;
    }
    n
}

/// Those of a list in its order.
const fn listed<const N: usize>(role: Role) -> [Outcome; N] {
    let mut list = [Outcome::SourAt; N];
    let mut at = 0;
    while at < COUNT {
        let place = TABLE[at].place(role);
        if place > 0 {
            list[place - 1] = TABLE[at].outcome;
        }
        at += 1;
    }
    list
}

/// The least difference in fat that a person notices, g/100 g: a want of Aim, and no outcome. Source: assumed.
pub const FAT_STEP: f64 = 1.0;

impl Outcome {
    pub const ALL: [Self; COUNT] = {
        let mut all = [Self::SourAt; COUNT];
        let mut at = 0;
        while at < COUNT {
            all[at] = TABLE[at].outcome;
            at += 1;
        }
        all
    };

    const fn row(self) -> &'static Row {
        &TABLE[self as usize]
    }

    /// What a sweep can show, in its order.
    pub const SWEPT: [Self; count(Role::Swept)] = listed(Role::Swept);

    /// What *what matters* looks at. The time is that of pH 4.6 where too few pots come to be ready.
    pub const MATTERING: [Self; count(Role::Mattering)] = listed(Role::Mattering);

    /// What *what this rests on* looks at, each by its own step.
    pub const RESTING: [Self; count(Role::Resting)] = listed(Role::Resting);

    #[must_use]
    pub const fn name(self) -> &'static str {
        self.row().name
    }

    #[must_use]
    pub const fn unit(self) -> &'static str {
        self.row().unit
    }

    /// The least difference that a person notices.
    #[must_use]
    pub const fn step(self) -> Step {
        self.row().step
    }

    /// On this scale differences add up: logarithms where a person notices factors.
    #[must_use]
    pub fn scaled(self, value: f64) -> f64 {
        match self.step() {
            Step::Times(_) => value.max(self.row().least).ln(),
            Step::By(_) => value,
        }
    }

    /// The value at a place on that scale.
    #[must_use]
    pub fn unscaled(self, place: f64) -> f64 {
        match self.step() {
            Step::Times(_) => place.exp(),
            Step::By(_) => place,
        }
    }

    /// A difference on that scale in steps that a person notices.
    #[must_use]
    pub fn steps(self, difference: f64) -> f64 {
        match self.step() {
            Step::Times(factor) => difference / factor.ln(),
            Step::By(least) => difference / least,
        }
    }

    /// A difference on that scale in words: "+3.0 h", "×1.4".
    #[must_use]
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
    #[must_use]
    pub fn words(self, value: f64) -> String {
        match (self.row().written, self.unit()) {
            (Written::Decimals(n), "") => number::fixed(value, n),
            (Written::Decimals(n), unit) => number::with_unit(value, n, unit),
            (Written::Figures(n), unit) => format!("{}{}{unit}", number::figures(value, n), number::NBSP),
        }
    }

    /// Why there may be no value.
    #[must_use]
    pub const fn missing(self) -> Missing {
        self.row().missing
    }

    /// A value with its unit, or what stands where there is none.
    #[must_use]
    pub fn words_of(self, value: Option<f64>) -> String {
        value.map_or_else(|| self.missing().words().to_owned(), |v| self.words(v))
    }

    /// Whether differences of it are told as factors.
    #[must_use]
    pub const fn by_factor(self) -> bool {
        matches!(self.step(), Step::Times(_))
    }

    /// Its place in [`Outcome::ALL`].
    #[must_use]
    pub const fn index(self) -> usize {
        self as usize
    }

    /// Where it is read; nothing if whoever eats the pot meets it.
    #[must_use]
    pub const fn on_paper(self) -> Option<&'static str> {
        self.row().on_paper
    }

    /// The outcome by whose step this one is noticed.
    ///
    /// - `cuts` — one of both pots is a gel that a spoon cuts.
    #[must_use]
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
    #[must_use]
    pub fn notice_words(self, difference: Option<f64>, noticed: bool) -> &'static str {
        match (difference, self.on_paper()) {
            (Some(0.0), _) => "the same",
            (Some(_), Some(place)) => place,
            _ if noticed => "you would notice",
            (Some(_), None) => "too small to notice",
            (None, _) => "",
        }
    }

    /// A difference with what is said of it: "+3.0 h · you would notice". Empty where there is nothing to say.
    ///
    /// - `between` — stands between both: " · ", ", ".
    #[must_use]
    pub fn difference_line(self, difference: Option<f64>, noticed: bool, between: &str) -> String {
        let said = self.notice_words(difference, noticed);
        match difference {
            Some(d) if d != 0.0 => format!("{}{between}{said}", self.difference_words(d)),
            _ => said.to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_has_a_row_for_each_in_order() {
        for (at, outcome) in Outcome::ALL.into_iter().enumerate() {
            assert_eq!(outcome.index(), at);
        }
        let places =
            |list: &[Outcome], role: Role| list.iter().map(|o| o.row().place(role)).collect::<Vec<_>>();
        assert_eq!(places(&Outcome::SWEPT, Role::Swept), [1, 2, 3, 4, 5, 6, 7, 8, 9]);
        assert_eq!(places(&Outcome::MATTERING, Role::Mattering), [1, 2, 3, 4, 5, 6]);
        assert_eq!(places(&Outcome::RESTING, Role::Resting), [1, 2, 3, 4, 5]);
    }
}
