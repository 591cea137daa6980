//! The table of what goes wrong: symptoms, causes, what can be asked. It ships as `assets/mishaps.ron`.

use std::sync::LazyLock;

use potset_base::lexicon;
use potset_doc::pantry::BaseKind;
use serde::Deserialize;

const TEXT: &str = include_str!("../../assets/mishaps.ron");

/// What a caller says of a pot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Symptom {
    Thin,
    Split,
    Sweet,
    NoTang,
    TooSour,
    Lumpy,
    Whey,
    Stringy,
    Gas,
    Colour,
    Smell,
}

/// How many symptoms there are.
pub const SYMPTOMS: usize = 11;

/// Whether the model forecasts a symptom, or the table alone knows of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum From {
    Forecast,
    Table,
}

/// A symptom with its words.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SymptomRow {
    pub key: Symptom,
    /// What a command calls it.
    pub name: String,
    /// On the button.
    pub tap: String,
    /// In a sentence: "it is thin".
    pub said: String,
    /// Chance that it is told where it is not there, if that is not the usual one.
    #[serde(default)]
    pub said_if_not: Option<f64>,
    pub from: From,
}

/// A symptom that throws a pot away by itself.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ThrowRow {
    pub symptom: Symptom,
    pub why: String,
    pub source: String,
}

/// What a cause does to the pot that was planned. Two numbers are the ends of its size.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Change {
    Nothing,
    /// Hours in the warmth, times.
    HoldTimes(f64, f64),
    /// Warmth, °C more or less.
    HoldBy(f64, f64),
    /// Warmth lost by the end of the night, °C.
    Drift(f64, f64),
    /// Warmth of the base as the culture goes in, °C, where that is colder than planned.
    ColdStart(f64, f64),
    /// Minutes out of the warmth.
    PowerCut(f64, f64),
    /// Days since the packet was opened, kept in the room.
    Aged(f64, f64),
    /// Dose of culture, times.
    DoseTimes(f64, f64),
    /// Warmth of the base as the culture goes in, °C.
    CultureInto(f64, f64),
    NoSugar,
    /// A sweetener in the place of the culture's sugar.
    Sweetener(String),
    /// What is left of the base's fat, protein and sugar, times.
    BaseThinner(f64, f64),
    /// Sorbate, mg/kg.
    Preserved(f64, f64),
    /// Calcium carbonate, g/L.
    Fortified(f64, f64),
    Uncooked,
    /// Dose of thickener that acts, times.
    ThickenerTimes(f64, f64),
    /// The same of a gelling agent alone.
    SetEarly(f64, f64),
    NoThickener,
    Stirred,
    /// Minutes carried about.
    Moved(f64, f64),
    /// Hours in the fridge.
    ChillHours(f64, f64),
    /// Doses of sugar and thickener, times.
    PowdersTimes(f64, f64),
    /// The same and the culture's.
    AllTimes(f64, f64),
    /// Base and warmer at this warmth, °C.
    HeldAt(f64, f64),
}

/// One thing that can have gone wrong.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cause {
    pub key: String,
    pub name: String,
    /// Why it does what it does, in one line.
    pub why: String,
    /// What to do next time, in words.
    pub next: String,
    /// What can be done with the pot that is there, where nothing speaks against eating it.
    #[serde(default)]
    pub rescue: String,
    /// The test that would tell.
    pub test: String,
    /// The kind of its source.
    pub source: String,
    /// Whatever the pot looks like, it is thrown away.
    #[serde(default)]
    pub throw_away: bool,
    /// How often it is the cause, against the others.
    pub prior: f64,
    pub change: Change,
    /// Chance that the maker does not know of it, and answers as planned.
    pub unaware: f64,
    /// What is answered to choices where it is the cause.
    #[serde(default)]
    pub tells: Vec<(FactKind, String)>,
    /// Chances of what the model does not forecast.
    #[serde(default)]
    pub shows: Vec<(Symptom, f64)>,
    /// What it mainly makes, where that is not all: a flaw of the plan counts less where none of it was seen.
    #[serde(default)]
    pub mainly: Vec<Symptom>,
    /// Kinds of base that it can befall; empty: all.
    #[serde(default)]
    pub bases: Vec<BaseKind>,
    /// Only pots with a starch.
    #[serde(default)]
    pub starch: bool,
}

/// Something that a person can be asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FactKind {
    Hours,
    Warmth,
    Dose,
    Age,
    CultureAt,
    Chilled,
    Ph,
    Base,
    Label,
    Mixed,
    Sugar,
    Thickener,
    Moved,
    Power,
    Kit,
    LastPots,
    Spoon,
    Amount,
    Units,
}

/// How many of them there are, and how many of them are numbers: those come first.
pub const FACTS: usize = 19;
pub const NUMBERS: usize = 7;

/// How far off an answer may be, one sigma.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
pub enum ErrorOf {
    /// In its own unit.
    By(f64),
    /// As a logarithm.
    Share(f64),
}

/// What is answered.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub enum Asked {
    Number {
        unit: String,
        error: ErrorOf,
    },
    /// The first is as planned.
    Choice(Vec<String>),
}

/// A question with its answers.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FactRow {
    pub key: FactKind,
    /// What a command calls it, the usual name first.
    pub names: Vec<String>,
    pub ask: String,
    pub short: String,
    /// How often a caller knows it.
    pub known: f64,
    pub of: Asked,
}

/// The whole table.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MishapTable {
    pub symptoms: Vec<SymptomRow>,
    pub throw_away: Vec<ThrowRow>,
    pub causes: Vec<Cause>,
    pub facts: Vec<FactRow>,
    /// Chance that a symptom is told where it is there, where it is not, and that a choice is answered wrong.
    pub said_if_there: f64,
    pub said_if_not: f64,
    pub answered_wrong: f64,
}

impl MishapTable {
    /// A cause by its key.
    pub fn cause(&self, key: &str) -> Option<&Cause> {
        self.causes.iter().find(|cause| cause.key == key)
    }

    /// The row of a question.
    pub fn fact(&self, kind: FactKind) -> Option<&FactRow> {
        self.facts.get(kind as usize)
    }

    /// The row of a symptom.
    pub fn symptom(&self, key: Symptom) -> Option<&SymptomRow> {
        self.symptoms.get(key as usize)
    }
}

/// The shipped table. It is empty if the program was damaged when it was built; a test keeps this from happening.
pub fn data() -> &'static MishapTable {
    static TABLE: LazyLock<MishapTable> = LazyLock::new(|| lexicon::shipped(TEXT));
    &TABLE
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn the_table_is_whole() {
        let table: MishapTable = lexicon::options().from_str(TEXT).unwrap();
        assert_eq!(table.symptoms.len(), SYMPTOMS);
        assert_eq!(table.facts.len(), FACTS);
        assert!(table.symptoms.iter().enumerate().all(|(i, row)| row.key as usize == i));
        assert!(table.facts.iter().enumerate().all(|(i, row)| row.key as usize == i));
        let numbers = table.facts.iter().take_while(|row| matches!(row.of, Asked::Number { .. })).count();
        assert_eq!(numbers, NUMBERS);
        let keys: BTreeSet<&str> = table.causes.iter().map(|cause| cause.key.as_str()).collect();
        assert_eq!((keys.len(), table.causes.len()), (33, 33));
        for cause in &table.causes {
            for (fact, answer) in &cause.tells {
                let Asked::Choice(answers) = &table.fact(*fact).unwrap().of else { panic!("{}", cause.key) };
                assert!(answers.iter().skip(1).any(|own| own == answer), "{}: {answer}", cause.key);
            }
            assert!(
                !cause.source.is_empty() && cause.prior > 0.0 && (0.0..=1.0).contains(&cause.unaware),
                "{}",
                cause.key
            );
            // A chance for what is forecast would speak twice, but where the forecast cannot know of it.
            for (symptom, chance) in &cause.shows {
                let row = table.symptom(*symptom).unwrap();
                assert!((0.0..=1.0).contains(chance), "{}", cause.key);
                assert!(row.from == From::Table || cause.change == Change::Nothing, "{}", cause.key);
            }
        }
    }
}
