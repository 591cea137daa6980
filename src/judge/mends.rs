//! Mends: edits that advice offers, each a whole plan that is one step of undo.

use potset_doc::design::{GoesIn, Powder};
use potset_doc::edit::LineKind;
use potset_doc::steps::{Step, Way};
use potset_doc::{Design, Edit, culture_in};
use potset_forecast::scenario::Scenario;
use potset_forecast::timeline::boiling_point;

/// What a mend does; `report::mends` names it. Temperatures in °C, times in h, rates in multiples of the packet's.
#[derive(Clone, Debug, PartialEq)]
pub enum How {
    Feed,
    Inoculate,
    /// Cooks a thickener in a quarter of the base.
    CookPart,
    /// A powder is mixed into the sugar first.
    MixFirst,
    /// The culture goes in at another warmth.
    CultureAt(f64),
    HoldAt(f64),
    /// The culture goes in at 40 °C, and the hold is at 41 °C.
    CoolAndMild,
    /// The culture goes in at the usual warmth.
    AddAt(f64),
    HeatedPot(f64),
    AddAtInHeatedPot(f64),
    /// Starts and keeps it warm, with twice the culture.
    AllOfIt,
    /// A dry mix is weighed instead.
    SplitPowder(Powder),
    PacketRate,
    /// Makes up for an old culture.
    Rate(f64),
    /// More culture.
    Dose(f64),
    StopAfter(f64),
    Strain,
    TinnedCream,
    NoWater,
    /// So many g/L of a thickener by name.
    Thicken(f64, String),
    /// The thickener that is there is raised to so many g/L.
    RaiseThickener(f64, String),
    StirOnce,
    /// No stirring while it sets.
    LeaveAlone,
    NoStanding,
    CoolFast,
    Boil,
    ChillOvernight,
    /// A week in the fridge at most.
    ColdWeek,
}

/// A mend: what it does, and its edits, which are one step of undo.
#[derive(Clone, Debug, PartialEq)]
pub struct Mend {
    pub how: How,
    pub edits: Vec<Edit>,
}

impl Mend {
    /// A mend of one edit.
    pub fn new(how: How, edit: Edit) -> Self {
        Self { how, edits: vec![edit] }
    }

    /// All its edits as one, without a name.
    pub fn edit(&self) -> Edit {
        Edit::Together(String::new(), self.edits.clone())
    }
}

/// What a culture is fed with: white sugar.
pub const FOOD: &str = "white_sugar";

/// Feeds the culture: one tablespoon of white sugar per litre. Source: common practice.
pub fn feed(scenario: &Scenario<'_>) -> Mend {
    let white = scenario.design.sugars.iter().position(|s| s.entry == FOOD);
    let edit = white
        .map_or_else(|| Edit::Add(LineKind::Sugars, FOOD.to_owned(), 12.5), |i| Edit::SugarDose(i, 12.5));
    Mend::new(How::Feed, edit)
}

/// Puts a culture in.
pub fn inoculate(dairy: bool) -> Mend {
    let key = if dairy { "dairy_pair" } else { "nondairy_adjuncts" };
    Mend::new(How::Inoculate, Edit::Add(LineKind::Cultures, key.to_owned(), 1.0))
}

/// Cooks a thickener in a quarter of the base, cools, then cultures.
pub fn cook(scenario: &Scenario<'_>, line: usize, to_c: f64) -> Mend {
    // On a mountain the pan boils sooner.
    let to_c = to_c.min((boiling_point(scenario.kitchen.altitude_m) - 1.0).floor());
    let d = scenario.design;
    let culture_c =
        culture_in::temperature(&d.steps).unwrap_or_else(|| d.hold().map_or(40.0, |h| h.set_c.min(43.0)));
    let mut steps: Vec<Step> = d.steps.iter().take_while(|s| **s != Step::CultureIn).cloned().collect();
    steps.retain(|s| !matches!(s, Step::CookPart { .. }));
    // After the start and any heat treatment; warming or cooling to the culture's temperature comes last.
    while matches!(steps.last(), Some(Step::Warm { .. } | Step::Cool { .. })) {
        steps.pop();
    }
    steps.push(Step::CookPart { share: 0.25, to_c, minutes: 2.0 });
    steps.push(Step::Warm { to_c: culture_c, way: Way::Bath });
    steps.push(Step::Cool { to_c: culture_c, way: Way::ColdWater });
    steps.extend(d.steps.iter().skip_while(|s| **s != Step::CultureIn).cloned());
    let mut edits = vec![Edit::Steps(steps)];
    if d.thickeners.get(line).is_some_and(|t| t.goes_in == GoesIn::WithTheCulture) {
        edits.push(Edit::ThickenerGoesIn(line, GoesIn::WithTheBase));
    }
    Mend { how: How::CookPart, edits }
}

/// Above this a step counts as cooking, °C. Source: assumed; a hot-water bath and a culture's warmth stay under it.
const COOKING_C: f64 = 60.0;

/// Whether a step is cooking.
pub fn cooks(step: &Step) -> bool {
    match step {
        Step::HeatTreat { .. } | Step::CookPart { .. } => true,
        Step::Warm { to_c, .. } => *to_c > COOKING_C,
        _ => false,
    }
}

/// Takes every cooking step out; what was hot before is then only warmed to what the culture needs. Nothing where no culture
/// goes in.
pub fn uncook(design: &Design) -> Option<Edit> {
    let culture_c = culture_in::temperature(&design.steps)
        .filter(|c| *c <= COOKING_C)
        .unwrap_or_else(|| design.hold().map_or(40.0, |h| h.set_c.min(43.0)));
    let mut steps = design.steps.clone();
    steps.retain(|s| !cooks(s));
    let at = steps.iter().position(|s| matches!(s, Step::Cool { .. } | Step::CultureIn))?;
    let mut before = steps.iter().take_while(|s| **s != Step::CultureIn);
    if !before.any(|s| matches!(s, Step::Warm { .. })) {
        steps.insert(at, Step::Warm { to_c: culture_c, way: Way::Bath });
    }
    Some(Edit::Steps(steps))
}

/// Cools the base before the culture goes in.
pub fn cool_first() -> Mend {
    Mend::new(How::CultureAt(40.0), Edit::CultureTemperature(40.0))
}

/// A milder hold.
pub fn milder_hold() -> Mend {
    Mend::new(How::HoldAt(41.0), Edit::HoldTemperature(41.0))
}

/// Weighs a dry mix instead.
pub fn split_powder(line: usize, powder: Powder) -> Mend {
    Mend::new(How::SplitPowder(powder), Edit::CulturePowder(line, powder))
}

/// Another length of the hold.
pub fn stop_after(hours: f64) -> Mend {
    let rounded = (hours * 4.0).ceil() / 4.0;
    Mend::new(How::StopAfter(rounded), Edit::HoldHours(rounded))
}

/// The same, rounded down: what comes after is too late.
pub fn stop_after_floor(hours: f64) -> Mend {
    let rounded = (hours * 4.0).floor() / 4.0;
    Mend::new(How::StopAfter(rounded), Edit::HoldHours(rounded))
}

/// Strain overnight, after the chill where there is one.
pub fn strain(scenario: &Scenario<'_>) -> Mend {
    let mut steps = scenario.design.steps.clone();
    let after = steps
        .iter()
        .rposition(|s| matches!(s, Step::Hold(_) | Step::Chill { .. }))
        .map_or(steps.len(), |i| i + 1);
    steps.insert(after, Step::Strain { hours: 12.0, removed: None });
    Mend::new(How::Strain, Edit::Steps(steps))
}
