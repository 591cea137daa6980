//! The card: a design as a sheet to make it by, as blocks of sentences and tables. How it lies on paper is told elsewhere.
//!
//! Everything is said in °C first; [`Sheet::each_text`] then puts both degrees beside each other, those of the kitchen first.
//! The maker's own sentences stand as they were written.

mod amounts;
mod blocks;
mod chart;
mod steps;

pub(crate) use amounts::{measured, rows};
pub(crate) use blocks::kit;
pub use chart::{Chart, Strip};

use crate::cautions::at_foot;
use crate::learn::used;
use crate::{answer as large, hygiene};
use potset_base::choices;
use potset_base::hash::fnv1a;
use potset_base::number::NBSP;
use potset_base::units::prose::{both, prose};
use potset_base::units::{self, Degrees, Units};
use potset_base::words::{TangWord, capital};
use potset_doc::card_text::{CardText, OwnSentence};
use potset_doc::{Design, format};
use potset_forecast::scenario::Scenario;
use potset_judge::answer::Answer;
use potset_judge::ready::ReadyTime;

/// What a card is made from.
#[derive(Clone, Copy)]
pub struct CardAsk<'a> {
    pub scenario: &'a Scenario<'a>,
    /// The answer to it; without a forecast the card holds what goes in and what is written.
    pub answer: &'a Answer,
    pub ready: Option<&'a ReadyTime>,
    /// What stands above all else where nothing speaks against the likely pot: see [`crate::spread::watch`].
    pub watch: Option<&'a str>,
    /// Which version of the recipe it is, where versions are counted.
    pub version: Option<u32>,
}

choices! {
    /// What a block is about; its word is the title of the block.
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum Part: title {
        Amounts => "What goes in",
        Culture => "Weigh the culture",
        Kit => "The kit",
        Steps => "Steps",
        Checks => "Check, and throw away",
        Keeping => "Keep and eat",
        Allergens => "Allergens",
        Nutrition => "Nutrition",
        Cost => "Cost",
        Notes => "Notes",
        Cautions => "Cautions",
        Dose => "How much, for one litre",
        Hold => "Warmth and hours",
        Hours => "Hour by hour",
        Mishaps => "When it goes wrong",
        WentIn => "What went in",
        Readings => "Readings",
        Souring => "Souring",
        Cooling => "Cooling",
        Signed => "Signed",
        Guess => "What do you think?",
        Change => "What is done",
        Happened => "What happened",
        Reason => "Why",
        Room => "Your notes",
        Made => "Everybody makes",
        Ahead => "On the table when the class begins",
        Tasks => "Make ahead",
        Shopping => "Buy",
    }
}

/// A sentence: as the program says it, and as it is printed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Said {
    /// In °C, whatever the kitchen says: the maker's own words hang on it.
    pub generated: String,
    pub words: String,
    /// Whether the words are the maker's own.
    pub own: bool,
}

/// A numbered step.
#[derive(Clone, Debug, PartialEq)]
pub struct StepLine {
    /// Hours since the culture went in; less than nothing before it.
    pub at_h: f64,
    /// By the clock, or in hours from the culture.
    pub when: String,
    pub said: Said,
    /// How one knows that it is done. Source: common practice.
    pub sign: Option<Said>,
}

/// A line of a block.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Line {
    /// What it is about, in strong type; may be empty.
    pub lead: String,
    pub words: String,
    /// Where it is known from; may be empty.
    pub source: String,
}

impl Line {
    /// A line of plain words.
    pub fn plain(words: impl Into<String>) -> Self {
        Self { words: words.into(), ..Self::default() }
    }
}

/// A table: rows of as many cells as its head, the first of them a name.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    pub head: Vec<String>,
    pub rows: Vec<Vec<String>>,
    /// Sentences below it.
    pub below: Vec<Line>,
}

/// What a block holds.
#[derive(Clone, Debug, PartialEq)]
pub enum Body {
    Lines(Vec<Line>),
    Table(Table),
    Steps(Vec<StepLine>),
    /// So many lines to write on.
    Room(u8),
}

/// A block with a title.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    pub part: Part,
    pub body: Body,
}

/// One of the large words at the head.
#[derive(Clone, Debug, PartialEq)]
pub struct Large {
    pub name: &'static str,
    pub word: String,
    pub quiet: String,
}

/// A card or a leaflet, ready to be laid on paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    pub name: String,
    /// Version and code, on one line.
    pub tag: String,
    /// What speaks against the pot, before all else.
    pub first: String,
    pub large: Vec<Large>,
    /// In the order of reading.
    pub blocks: Vec<Block>,
    pub chart: Option<Chart>,
    pub foot: String,
    /// Sentences of the maker whose place is gone: the program says something else there now.
    pub outdated: Vec<OwnSentence>,
}

/// Signs of a code, by Crockford: neither I, L, O nor U, so that it can be read out and typed again.
const SIGNS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/// Signs in a code. Of 1,000 recipes two share one with a chance of 1 in 2,000 (derived: 1,000² / 2 / 32⁶).
const LONG: u32 = 6;

/// The short code by which a printed card finds its design again. The card's own sentences do not change it.
pub fn code(design: &Design) -> String {
    let bare = Design { card: CardText::default(), ..design.clone() };
    let hash = fnv1a(format::write(&bare).unwrap_or_default().bytes());
    (0..LONG).map(|k| char::from(SIGNS[(hash >> (59 - 5 * k)) as usize & 31])).collect()
}

/// "version 3 · code 7K2M9Q".
fn tag(ask: &CardAsk<'_>) -> String {
    let code = format!("code {}", code(ask.scenario.design));
    ask.version.map_or_else(|| code.clone(), |version| format!("version {version} · {code}"))
}

/// The card of a design.
pub fn sheet(ask: &CardAsk<'_>) -> Sheet {
    in_both_degrees(|| {
        let steps = steps::steps(ask);
        let outdated = outdated(&ask.scenario.design.card, &steps);
        let mut blocks = vec![amounts::block(ask)];
        blocks.extend(blocks::culture(ask));
        blocks.push(kit(ask));
        blocks.push(Block { part: Part::Steps, body: Body::Steps(steps) });
        blocks.extend(blocks::after(ask));
        Sheet { blocks, chart: chart::chart(ask), outdated, ..head(ask) }
    })
}

/// The steps by their hours since the culture, as the clock and a pot under way tell them: in the maker's own words where there
/// are some, with warmths as the kitchen says them.
pub fn plan(ask: &CardAsk<'_>) -> Vec<(f64, String)> {
    let steps = {
        let _speaking = units::speak(Units { degrees: Degrees::Celsius, ..units::spoken() });
        steps::steps(ask)
    };
    steps.into_iter().map(|step| (step.at_h, prose(&step.said.words))).collect()
}

/// Says a sheet in °C, then puts both degrees into each text of it.
pub(crate) fn in_both_degrees(make: impl FnOnce() -> Sheet) -> Sheet {
    let mut sheet = {
        let _speaking = units::speak(Units { degrees: Degrees::Celsius, ..units::spoken() });
        make()
    };
    // A number stands on one line with its degrees.
    sheet.each_text(&mut |text| *text = both(text).replace(" °", &format!("{NBSP}°")));
    sheet
}

/// A sheet with its head and no blocks.
pub(crate) fn head(ask: &CardAsk<'_>) -> Sheet {
    Sheet {
        name: ask.scenario.design.name.clone(),
        tag: tag(ask),
        first: ask.watch.map_or_else(|| hygiene::headline(&ask.answer.verdict), str::to_owned),
        large: large_words(ask),
        blocks: Vec::new(),
        chart: None,
        foot: foot(ask),
        outdated: Vec::new(),
    }
}

/// What stands at the foot, with what the forecast was learnt from.
fn foot(ask: &CardAsk<'_>) -> String {
    let used = used(ask.scenario.learnt).filter(|_| ask.answer.learnt);
    used.map_or_else(at_foot, |used| format!("{used}. {}", at_foot()))
}

/// Whether the pot is to be thrown away: then nobody eats it.
pub(crate) fn lost(answer: &Answer) -> bool {
    answer.verdict.hygiene.discard().is_some()
}

/// Ready time, texture, tang and sweetness in large words; of a pot that is thrown away, none.
fn large_words(ask: &CardAsk<'_>) -> Vec<Large> {
    let verdict = &ask.answer.verdict;
    let mut all = Vec::new();
    if lost(ask.answer) {
        return all;
    }
    let mut add = |name, word: &str, quiet: String| all.push(Large { name, word: capital(word), quiet });
    if let Some(ready) = ask.ready {
        let (word, quiet) = large::ready_in_large(ready, ask.scenario.design.start());
        add("Ready", &word, quiet);
    }
    if let Some(t) = &verdict.texture {
        add("Texture, from the fridge", t.word.word(), large::usually(t.low, t.high).unwrap_or_default());
    }
    if let Some(t) = &verdict.tang {
        add("Tang", t.word.map_or("none yet", TangWord::word), large::tang(t));
        if let Some(s) = &verdict.sugar {
            let (word, quiet) = large::sweetness(t, s);
            add("Sweetness", &word, quiet);
        }
    }
    all
}

/// Own sentences that stand in no step.
fn outdated(card: &CardText, steps: &[StepLine]) -> Vec<OwnSentence> {
    let stands = |own: &OwnSentence| {
        let said = steps.iter().flat_map(|step| std::iter::once(&step.said).chain(&step.sign));
        said.into_iter().any(|said| said.generated == own.generated)
    };
    card.sentences().iter().filter(|own| !stands(own)).cloned().collect()
}

impl Sheet {
    /// Shows every text to change it, but for names and what the maker put into other words.
    fn each_text(&mut self, see: &mut dyn FnMut(&mut String)) {
        see(&mut self.first);
        for large in &mut self.large {
            see(&mut large.word);
            see(&mut large.quiet);
        }
        for block in &mut self.blocks {
            match &mut block.body {
                Body::Lines(lines) => lines.iter_mut().for_each(|line| see(&mut line.words)),
                Body::Table(table) => {
                    table.head.iter_mut().chain(table.rows.iter_mut().flatten()).for_each(&mut *see);
                    table.below.iter_mut().for_each(|line| see(&mut line.words));
                }
                Body::Steps(steps) => steps
                    .iter_mut()
                    .flat_map(|step| std::iter::once(&mut step.said).chain(&mut step.sign))
                    .filter(|said| !said.own)
                    .for_each(|said| see(&mut said.words)),
                Body::Room(_) => {}
            }
        }
    }

    /// What stands before all else, as a sentence: a question stays one.
    pub fn first_sentence(&self) -> String {
        if self.first.ends_with(['?', '!', '.']) { self.first.clone() } else { format!("{}.", self.first) }
    }

    /// The block of a part.
    pub fn block(&self, part: Part) -> Option<&Block> {
        self.blocks.iter().find(|block| block.part == part)
    }
}
