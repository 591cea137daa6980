//! What the Card view works on: the design on the kitchen table, as a card, for another amount, by the clock, with its packet
//! and its way to the culture's warmth.

use std::sync::Arc;

use super::book::UnderWay;
use potset_base::{Note, choices};
use potset_doc::Batch;
use potset_doc::card_text::OwnSentence;
use potset_make::scale::To;
use potset_make::stock::InStock;
use potset_make::warm_up::{Bath, Warming};
use potset_paper::Size;
use potset_report::card::StepLine;

choices! {
    /// What the Card view shows.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
    pub enum CardPage: words {
        #[default]
        Card => "Card",
        Scale => "Scale",
        Clock => "Clock",
        Packet => "Packet",
        WarmUp => "Warm-up",
    }
}

choices! {
    /// What a design is scaled to.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
    pub enum ScaleKind: words {
        #[default]
        Jars => "jars",
        Packs => "whole packs of the first base",
        Servings => "servings",
        Litres => "litres",
        Packet => "what the packet of culture makes",
        Warmer => "what the warmer holds",
    }
}

/// What is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CardFile {
    /// The card, or the times of the pot as a calendar, by the ending of the file.
    Card,
    /// A page for whoever hands out the culture.
    Leaflet,
    /// Labels for jars of the dry mix of a culture line.
    Labels(usize),
}

/// What is asked on the pages.
#[derive(Clone, Debug, PartialEq)]
pub struct CardWish {
    pub size: Size,
    pub scale: ScaleKind,
    pub count: f64,
    /// The base as it is, and as the culture wants it, °C.
    pub from_c: f64,
    pub to_c: f64,
    /// A bath of hot water: how much, kg, and how hot, °C.
    pub bath_kg: f64,
    pub bath_c: f64,
    /// A tin that nobody shakes: across and high, cm.
    pub tin_cm: (f64, f64),
}

impl Default for CardWish {
    fn default() -> Self {
        Self {
            size: Size::default(),
            scale: ScaleKind::default(),
            count: 6.0,
            from_c: 20.0,
            to_c: 40.0,
            bath_kg: 4.0,
            bath_c: 55.0,
            tin_cm: (7.5, 10.9),
        }
    }
}

/// A page of the card as a picture: pixels across and down, four bytes each.
#[derive(Clone, PartialEq, Eq)]
pub struct PagePicture {
    pub size: [usize; 2],
    pub rgba: Vec<u8>,
}

impl std::fmt::Debug for PagePicture {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "PagePicture({:?})", self.size)
    }
}

/// The card on the screen.
#[derive(Clone, Debug, PartialEq)]
pub struct CardTold {
    pub pages: Vec<PagePicture>,
    /// The same as text, for whoever cannot see the picture.
    pub text: String,
    pub steps: Vec<StepLine>,
    /// Sentences of the maker whose place is gone.
    pub outdated: Vec<OwnSentence>,
}

/// A design for another amount.
#[derive(Clone, Debug, PartialEq)]
pub struct ScaleTold {
    pub to: To,
    pub times: f64,
    /// Each line: its name, what it is now, what it is then.
    pub lines: Vec<[String; 3]>,
    /// What rounding does, a sentence each.
    pub rounded: Vec<String>,
    /// How it goes into vessels.
    pub vessels: Vec<String>,
    pub edit: potset_doc::Edit,
}

/// A line of the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanLine {
    pub at_h: f64,
    pub when: String,
    pub what: String,
}

/// The plan by the clock.
#[derive(Clone, Debug, PartialEq)]
pub struct ClockTold {
    pub lines: Vec<PlanLine>,
    /// When the culture should have gone in, if the pot would be over by now: the time is of another day.
    pub past: Option<String>,
    /// Pots that cannot be in one warmer at a time, a sentence each.
    pub clashes: Vec<String>,
    /// The pot as it would be begun.
    pub pot: Box<Batch>,
}

/// Ways to split a packet, the one to take first: heading, steps, what it errs by.
#[derive(Clone, Debug, PartialEq)]
pub struct PacketTold {
    pub name: String,
    /// What the packet holds and makes, and what the pot is to get.
    pub about: String,
    /// What the pot is to get, g of the culture.
    pub dose_g: f64,
    /// The way to take first mixes it.
    pub mixed: bool,
    pub ways: Vec<(String, Vec<String>, String)>,
    /// What a dose that is out does to the time.
    pub time: Option<String>,
}

/// The packets of a design, and those of the kitchen.
#[derive(Clone, Debug, PartialEq)]
pub struct PacketsTold {
    /// For each culture line of the design.
    pub lines: Vec<Result<PacketTold, Note>>,
    pub stock: Vec<InStock>,
}

/// The way to the culture's warmth.
#[derive(Clone, Debug, PartialEq)]
pub struct WarmTold {
    /// By each way: its words, and the curve, or why it does not get there.
    pub ways: Vec<(&'static str, Result<Warming, String>)>,
    pub boils_c: f64,
    /// Nothing where boiling and cold water cannot make the bath.
    pub bath: Option<Bath>,
    /// How long a tin takes in that bath if nobody shakes it, s.
    pub unshaken_s: Option<f64>,
}

/// What was worked out for a page.
#[derive(Clone, Debug, PartialEq)]
pub enum Told {
    Card(CardTold),
    Scale(ScaleTold),
    Clock(ClockTold),
    Packet(PacketsTold),
    WarmUp(WarmTold),
}

/// The Card view.
#[derive(Clone, Debug, Default)]
pub struct CardState {
    pub page: CardPage,
    pub wish: CardWish,
    /// The newest question; answers to older ones are dropped.
    pub question: u64,
    pub answered: u64,
    /// Of the page that is shown; why there is none.
    pub told: Option<Arc<Result<Told, Note>>>,
    /// Pots under way.
    pub running: Vec<UnderWay>,
}
