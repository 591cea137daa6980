//! The one table: a row an outcome, and the lists that outcomes stand in.

use super::{Missing, Observable, Step, Written};
use potset_base::words::{TangWord, TextureWord};

/// All that is fixed about one outcome: a row of the one table.
pub(super) struct Row {
    pub(super) outcome: Observable,
    pub(super) name: &'static str,
    pub(super) unit: &'static str,
    pub(super) written: Written,
    pub(super) step: Step,
    /// Below this a person tastes none of it: less is no difference.
    pub(super) least: f64,
    pub(super) missing: Missing,
    /// Where it is read; nothing if whoever eats the pot meets it.
    pub(super) on_paper: Option<&'static str>,
    /// Its place in each list that it stands in, from 1.
    swept: usize,
    mattering: usize,
    resting: usize,
    wanted: usize,
    pub(super) want: Wanted,
}

/// How an outcome is wanted of Aim; the key is empty where it cannot be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// How it is typed.
    pub key: &'static str,
    /// How it is said.
    pub name: &'static str,
    /// What can be asked for; beyond it a want is a slip of the hand. Source: assumed; pH and hours as a design allows.
    pub range: (f64, f64),
    /// Spellings of its unit besides the usual one, in small letters.
    pub spellings: &'static [&'static str],
    /// A value as it may be typed.
    pub example: &'static str,
    /// Its words from little to much, where it can be wanted by them.
    pub scale: &'static [&'static str],
}

/// A row that nothing more is said of.
const fn row(
    outcome: Observable,
    name: &'static str,
    unit: &'static str,
    written: Written,
    step: Step,
) -> Row {
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
        wanted: 0,
        want: Wanted { name, ..want("", (0.0, 0.0), &[], "") },
    }
}

/// How an outcome is wanted, said as it is typed and by numbers alone.
const fn want(
    key: &'static str,
    range: (f64, f64),
    spellings: &'static [&'static str],
    example: &'static str,
) -> Wanted {
    Wanted { key, name: key, range, spellings, example, scale: &[] }
}

/// How many there are.
pub const COUNT: usize = 13;

/// The one table. The steps are the least differences that a person notices. What is judged together with another outcome (pH
/// with tang, stiffness with thickness) is noticed by that one's step; its own then ranks figures and goals alone. Of energy
/// and cost, which nobody tastes, it is what a maker would act on.
///
/// Source of the steps: texture published, 26 % (Camacho et al. 2015, oral viscosity 10-100 mPa·s); pH assumed, between 0.1
/// and 0.15; sweetness from memory, about 15 %; stiffness assumed, as texture; times, sugar, whey, thin layer (some
/// millimetres of a jar), energy, fat, acid and cost assumed. Of what is too little to taste: assumed for acid and sweetness.
pub(super) const TABLE: [Row; COUNT] = {
    use Observable as O;
    use Step::{By, Times};
    use Written::{Decimals, Figures};
    let percent = (0.0, 100.0);
    [
        Row { swept: 2, resting: 2, ..row(O::SourAt, "pH 4.6 reached", "h", Decimals(1), By(0.5)) },
        Row {
            swept: 1,
            mattering: 1,
            wanted: 5,
            want: want("ready", (0.25, 96.0), &["hours", "hour", MINUTES], "24 h or 18:30"),
            ..row(O::ReadyFrom, "ready on the likely line", "h", Decimals(1), By(0.5))
        },
        Row {
            swept: 5,
            resting: 1,
            wanted: 3,
            want: Wanted { name: "pH", ..want("ph", (3.0, 7.0), &[], "4.3") },
            ..row(O::Ph, "pH at the stop", "", Decimals(2), By(0.12))
        },
        Row {
            swept: 6,
            mattering: 2,
            least: 1.0,
            wanted: 2,
            want: Wanted { scale: &TangWord::WORDS, ..want("tang", (0.0, 500.0), &[], "12") },
            ..row(O::Tang, "tang", "mmol/kg", Decimals(1), Times(1.2))
        },
        Row {
            swept: 4,
            mattering: 3,
            resting: 4,
            wanted: 4,
            want: Wanted { name: "sugar left", ..want("sugar", (0.0, 400.0), &[], "20 g/L") },
            ..row(O::SugarLeft, "sugar left", "g/L", Decimals(1), By(3.0))
        },
        Row { least: 1.0, ..row(O::Sweetness, "sweetness, as sucrose", "g/kg", Decimals(1), Times(1.15)) },
        Row {
            swept: 3,
            mattering: 4,
            resting: 3,
            wanted: 1,
            want: Wanted {
                scale: &TextureWord::WORDS,
                ..want("texture", (0.0, 1000.0), &["pa.s", "pas", "pa s"], "0.9")
            },
            ..row(O::Texture, "texture, chilled", "Pa·s", Figures(2), Times(1.26))
        },
        row(O::Stiffness, "stiffness", "Pa", Figures(2), Times(1.26)),
        Row {
            swept: 7,
            mattering: 5,
            wanted: 8,
            want: want("whey", percent, &[], "2 %"),
            ..row(O::Whey, "whey on standing", "%", Decimals(1), By(1.0))
        },
        Row {
            swept: 8,
            mattering: 6,
            resting: 5,
            wanted: 9,
            want: Wanted { name: "thin layer", ..want("thin", percent, &[], "10 %") },
            ..row(O::ThinLayer, "thin layer at the bottom", "%", Decimals(0), By(5.0))
        },
        Row { on_paper: Some("on the label"), ..row(O::Energy, "energy", "kJ/100 g", Decimals(0), By(20.0)) },
        Row {
            swept: 9,
            missing: Missing::NotKnown,
            on_paper: Some("in the price"),
            wanted: 6,
            want: want("cost", (0.0, 1e6), &["/kg"], "4.50"),
            ..row(O::Cost, "cost", "per kg", Decimals(2), Times(1.05))
        },
        Row {
            on_paper: Some("on the label"),
            wanted: 7,
            want: want("fat", percent, &["g/100g", "%"], "10 g/100 g"),
            ..row(O::Fat, "fat", "g/100 g", Decimals(1), By(1.0))
        },
    ]
};

/// The one other unit that a want of hours is typed in.
pub const MINUTES: &str = "min";

/// A list of outcomes.
#[derive(Clone, Copy)]
pub(super) enum Role {
    /// All that is put beside that of another pot.
    Beside,
    Swept,
    Mattering,
    Resting,
    Wanted,
}

impl Row {
    pub(super) const fn place(&self, role: Role) -> usize {
        match role {
            Role::Beside if matches!(self.outcome, Observable::Fat) => 0,
            Role::Beside => self.outcome.index() + 1,
            Role::Swept => self.swept,
            Role::Mattering => self.mattering,
            Role::Resting => self.resting,
            Role::Wanted => self.wanted,
        }
    }
}

/// How many stand in a list.
pub(super) const fn count(role: Role) -> usize {
    let (mut n, mut at) = (0, 0);
    while at < COUNT {
        n += (TABLE[at].place(role) > 0) as usize;
        at += 1;
    }
    n
}

/// Those of a list in its order.
pub(super) const fn listed<const N: usize>(role: Role) -> [Observable; N] {
    let mut list = [Observable::SourAt; N];
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
