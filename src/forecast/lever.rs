//! Levers: every number that a maker can turn on a design and that changes its forecast.

pub mod lines;
pub mod spans;

use self::spans::Span;
use crate::scenario::Scenario;
use potset_base::{Note, number, shares};
use potset_doc::edit::{self, LabelField};
use potset_doc::pantry::{Additive, Base, BaseKind, Culture, Sweetener, Thickener, Warmer, Warming};
use potset_doc::steps::Step;
use potset_doc::{Design, Edit, Pantry, culture_in};

/// Least share that a lever can reach, and least litres that a line of a blend may hold. Source: assumed.
const LEAST_SHARE: f64 = 0.01;

/// Which number. Places are those of the design's lists; rests are counted among the rests.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LeverId {
    /// L.
    BaseLitres(usize),
    /// % of the volume of all bases.
    BaseShare(usize),
    /// g/100 g, as a label gives it.
    BaseFat(usize),
    /// g/L.
    SugarDose(usize),
    ThickenerDose(usize),
    AdditiveDose(usize),
    /// × packet.
    CultureRate(usize),
    /// Days.
    CultureAge(usize),
    /// Where it was kept, °C.
    CultureKept(usize),
    /// Where the base starts, °C.
    Start,
    /// h.
    Rest(usize),
    /// Heat treatment, °C and min.
    HeatTo,
    HeatFor,
    /// What the base is brought to before the culture goes in, °C.
    CultureIn,
    /// °C.
    HoldTemperature,
    /// The stop line, h.
    HoldHours,
    /// °C and h.
    ChillTo,
    ChillFor,
    /// In the cloth: h, or % run off.
    StrainFor,
    StrainOff,
}

/// One number of a design, with how far it can be turned.
#[derive(Clone, Debug, PartialEq)]
pub struct Lever {
    pub lever_id: LeverId,
    /// No two of a design are alike: "Cold-swelling rice starch", "Hold at".
    pub name: String,
    pub unit: &'static str,
    /// As the design has it, in `unit`.
    pub value: f64,
    pub range: (f64, f64),
    pub usual: Option<(f64, f64)>,
    pub step: f64,
    pub decimals: usize,
}

impl Lever {
    /// The middle of what is usual.
    pub fn usual_middle(&self) -> Option<f64> {
        self.usual.map(|(low, high)| 0.5 * (low + high))
    }

    /// A value of it with its unit: "16.0 g/L".
    pub fn words(&self, v: f64) -> String {
        number::with_unit(v, self.decimals, self.unit)
    }
}

impl LeverId {
    /// The edit that turns it to a value in its lever's unit. Steps are left as they are where there is none to turn.
    pub fn edit(self, design: &Design, v: f64) -> Edit {
        match self {
            Self::BaseLitres(i) => Edit::BaseLitres(i, v),
            Self::BaseShare(i) => Edit::BaseShare(i, v / 100.0),
            Self::BaseFat(i) => Edit::BaseLabel(i, LabelField::Fat, Some(v)),
            Self::SugarDose(i) => Edit::SugarDose(i, v),
            Self::ThickenerDose(i) => Edit::ThickenerDose(i, v),
            Self::AdditiveDose(i) => Edit::AdditiveDose(i, v),
            Self::CultureRate(i) => Edit::CultureRate(i, v),
            Self::CultureAge(i) => Edit::CultureAge(i, v),
            Self::CultureKept(i) => Edit::CultureKept(i, Some(v)),
            Self::Start => Edit::StartTemperature(v),
            Self::CultureIn => Edit::CultureTemperature(v),
            Self::HoldTemperature => Edit::HoldTemperature(v),
            Self::HoldHours => Edit::HoldHours(v),
            Self::ChillTo => Edit::ChillTemperature(v),
            Self::ChillFor => Edit::ChillHours(v),
            Self::Rest(_) | Self::HeatTo | Self::HeatFor | Self::StrainFor | Self::StrainOff => {
                let mut steps = design.steps.clone();
                if let Some(number) = self.in_steps(&mut steps) {
                    *number = if self == Self::StrainOff { v / 100.0 } else { v };
                }
                Edit::Steps(steps)
            }
        }
    }

    /// Whether its unit is a factor: so many times what is usual.
    pub const fn is_rate(self) -> bool {
        matches!(self, Self::CultureRate(_))
    }

    /// Whether its edit puts all steps in anew, and so hangs on what was done to them before.
    const fn rewrites_steps(self) -> bool {
        matches!(self, Self::Rest(_) | Self::HeatTo | Self::HeatFor | Self::StrainFor | Self::StrainOff)
    }

    /// The number of a step that has no edit of its own.
    fn in_steps(self, steps: &mut [Step]) -> Option<&mut f64> {
        let mut rest = 0;
        steps.iter_mut().find_map(|step| match (self, step) {
            (Self::Rest(i), Step::Stand { hours, .. }) => {
                rest += 1;
                (rest == i + 1).then_some(hours)
            }
            (Self::HeatTo, Step::HeatTreat { to_c, .. }) => Some(to_c),
            (Self::HeatFor, Step::HeatTreat { minutes, .. }) => Some(minutes),
            (Self::StrainFor, Step::Strain { hours, removed: None }) => Some(hours),
            (Self::StrainOff, Step::Strain { removed: Some(share), .. }) => Some(share),
            _ => None,
        })
    }

    /// The value that a design has, in its lever's unit; nothing where the design has no such number.
    pub fn value(self, design: &Design, pantry: &Pantry) -> Option<f64> {
        match self {
            Self::BaseLitres(i) => design.bases.get(i).map(|b| b.litres),
            Self::BaseShare(i) => design.bases.get(i).map(|b| 100.0 * b.litres / design.litres()),
            Self::BaseFat(i) => {
                let line = design.bases.get(i)?;
                let own = || design.entry::<Base>(pantry, &line.entry).map(|e| e.composition.fat.value);
                line.label.fat.or_else(own)
            }
            Self::SugarDose(i) => design.sugars.get(i).map(|l| l.g_per_l),
            Self::ThickenerDose(i) => design.thickeners.get(i).map(|l| l.g_per_l),
            Self::AdditiveDose(i) => design.additives.get(i).map(|l| l.g_per_l),
            Self::CultureRate(i) => design.cultures.get(i).map(|l| l.rate),
            Self::CultureAge(i) => design.cultures.get(i).map(|l| l.age_days),
            Self::CultureKept(i) => design.cultures.get(i).and_then(|l| l.kept_c),
            Self::Start => {
                let from = |s: &Step| if let Step::Start { from_c } = s { Some(*from_c) } else { None };
                design.steps.iter().find_map(from)
            }
            Self::CultureIn => culture_in::temperature(&design.steps),
            Self::HoldTemperature => design.hold().map(|h| h.set_c),
            Self::HoldHours => design.hold().map(|h| h.hours),
            Self::ChillTo => design.chill().map(|c| c.0),
            Self::ChillFor => design.chill().map(|c| c.1),
            Self::StrainOff => self.in_steps(&mut design.steps.clone()).map(|share| 100.0 * *share),
            Self::Rest(_) | Self::HeatTo | Self::HeatFor | Self::StrainFor => {
                self.in_steps(&mut design.steps.clone()).map(|v| *v)
            }
        }
    }
}

/// The temperature at which the culture goes in, °C, as far as steps tell.
pub fn culture_in(steps: &[Step]) -> Option<f64> {
    culture_in::temperature(steps)
}

/// How far the share of a base can be moved, 0 to 1: what is locked stays, and no line goes under a hundredth of the volume
/// or of a litre. Both are its own share where it cannot move.
pub fn share_room(design: &Design, i: usize) -> (f64, f64) {
    let litres: Vec<f64> = design.bases.iter().map(|b| b.litres).collect();
    let locked: Vec<bool> = design.bases.iter().map(|b| b.locked).collect();
    shares::room(&litres, &locked, i, LEAST_SHARE.max(LEAST_SHARE / design.litres()))
}

/// Edits that turn several knobs, each on the design that those before it left; shares all at once, or each would move those
/// before it.
///
/// # Errors
/// Why one of them cannot be turned so.
pub fn turned(scenario: &Scenario<'_>, to: &[(LeverId, f64)]) -> Result<Vec<Edit>, Note> {
    turned_beside(scenario, to, &[])
}

/// The same with bases whose shares do not follow, as if they were locked.
///
/// # Errors
/// As [`turned`].
pub fn turned_beside(
    scenario: &Scenario<'_>,
    to: &[(LeverId, f64)],
    held: &[usize],
) -> Result<Vec<Edit>, Note> {
    let mut edits = Vec::new();
    let share = |(lever_id, v): &(LeverId, f64)| {
        if let LeverId::BaseShare(i) = lever_id { Some((*i, v / 100.0)) } else { None }
    };
    let shares: Vec<(usize, f64)> = to.iter().filter_map(share).collect();
    let together = shares.len() > 1 || !(shares.is_empty() || held.is_empty());
    for (lever_id, v) in to.iter().filter(|k| !together || share(k).is_none()) {
        let edit = if lever_id.rewrites_steps() && !edits.is_empty() {
            let so_far = Edit::Together(String::new(), edits.clone());
            lever_id.edit(&edit::apply(scenario.design, &so_far, scenario.pantry)?, *v)
        } else {
            lever_id.edit(scenario.design, *v)
        };
        edits.push(edit);
    }
    if together {
        // On the amounts that were turned before.
        let so_far = Edit::Together(String::new(), edits.clone());
        let design = edit::apply(scenario.design, &so_far, scenario.pantry)?;
        edits.extend(moved_shares(&design, &shares, held)?);
    }
    Ok(edits)
}

/// The litres that put several shares where they are wanted.
fn moved_shares(design: &Design, to: &[(usize, f64)], held: &[usize]) -> Result<Vec<Edit>, Note> {
    let old: Vec<f64> = design.bases.iter().map(|b| b.litres).collect();
    let locked: Vec<bool> =
        design.bases.iter().enumerate().map(|(i, b)| b.locked || held.contains(&i)).collect();
    let new = shares::shift_all(&old, &locked, to)?;
    let litres = design.litres();
    let free = new.into_iter().enumerate().filter(|(i, _)| !locked[*i]);
    Ok(free.map(|(i, share)| Edit::BaseLitres(i, share * litres)).collect())
}

/// The levers of a design in the order of making; only those that change something.
pub fn levers(design: &Design, pantry: &Pantry) -> Vec<Lever> {
    let mut all = Collected { design, pantry, levers: Vec::new() };
    all.bases();
    all.doses();
    all.cultures();
    all.warmth();
    all.after();
    all.levers
}

struct Collected<'a> {
    design: &'a Design,
    pantry: &'a Pantry,
    levers: Vec<Lever>,
}

impl Collected<'_> {
    /// Adds a lever where the design has its number; a name that is taken gets a number.
    fn add(&mut self, lever_id: LeverId, name: &str, span: Span) {
        let Some(value) = lever_id.value(self.design, self.pantry).filter(|v| v.is_finite()) else { return };
        let mut full = name.to_owned();
        let mut n = 2;
        while self.levers.iter().any(|l| l.name == full) {
            full = format!("{name} ({n})");
            n += 1;
        }
        let Span { unit, range, usual, step, decimals } = span;
        self.levers.push(Lever { lever_id, name: full, unit, value, range, usual, step, decimals });
    }

    fn bases(&mut self) {
        let (design, pantry) = (self.design, self.pantry);
        for (i, line) in design.bases.iter().enumerate() {
            let entry = design.entry::<Base>(pantry, &line.entry);
            let name = entry.map_or(line.entry.as_str(), |e| &e.name);
            self.add(LeverId::BaseLitres(i), name, spans::litres(entry));
            let (low, high) = share_room(design, i);
            if design.bases.len() > 1 && low < high {
                let span = Span { range: (100.0 * low, 100.0 * high), ..spans::SHARE };
                self.add(LeverId::BaseShare(i), &format!("Share of {name}"), span);
            }
            if let Some(entry) = entry.filter(|e| e.kind != BaseKind::Water) {
                self.add(LeverId::BaseFat(i), &format!("Fat of {name}"), spans::fat(entry));
            }
        }
    }

    fn doses(&mut self) {
        let (design, pantry) = (self.design, self.pantry);
        for (i, line) in design.sugars.iter().enumerate() {
            let entry = design.entry::<Sweetener>(pantry, &line.entry);
            let name = entry.map_or(line.entry.as_str(), |e| &e.name);
            self.add(LeverId::SugarDose(i), name, spans::sugar(entry, line.when));
        }
        for (i, line) in design.thickeners.iter().enumerate() {
            let entry = design.entry::<Thickener>(pantry, &line.entry);
            let name = entry.map_or(line.entry.as_str(), |e| &e.name);
            self.add(LeverId::ThickenerDose(i), name, spans::thickener(entry));
        }
        for (i, line) in design.additives.iter().enumerate() {
            let entry = design.entry::<Additive>(pantry, &line.entry);
            let name = entry.map_or(line.entry.as_str(), |e| &e.name);
            self.add(LeverId::AdditiveDose(i), name, spans::additive(entry));
        }
    }

    fn cultures(&mut self) {
        let (design, pantry) = (self.design, self.pantry);
        for (i, line) in design.cultures.iter().enumerate() {
            let entry = design.entry::<Culture>(pantry, &line.entry);
            let name = entry.map_or(line.entry.as_str(), |e| &e.name);
            self.add(LeverId::CultureRate(i), name, spans::culture(entry));
            self.add(LeverId::CultureAge(i), &format!("Age of {name}"), spans::CULTURE_AGE);
            // Only a dry culture that is not fresh feels where it was kept.
            if line.age_days > 0.0 && entry.is_some_and(|e| e.form.dry()) {
                self.add(LeverId::CultureKept(i), &format!("{name} kept at"), spans::CULTURE_KEPT);
            }
        }
    }

    fn warmth(&mut self) {
        let (design, pantry) = (self.design, self.pantry);
        self.add(LeverId::Start, "Base starts at", spans::START);
        let rests = design.steps.iter().filter(|s| matches!(s, Step::Stand { .. })).count();
        for i in 0..rests {
            self.add(LeverId::Rest(i), "Let it stand", spans::REST);
        }
        self.add(LeverId::HeatTo, "Heat to", spans::HEAT_TO);
        self.add(LeverId::HeatFor, "Keep it hot", spans::HEAT_FOR);
        self.add(LeverId::CultureIn, "Add culture at", spans::CULTURE_IN);
        let Some(hold) = design.hold() else { return };
        let warmer = design.entry::<Warmer>(pantry, &hold.warmer);
        let insulated = warmer.is_some_and(|e| matches!(e.warming, Warming::Insulated { .. }));
        // Logged temperatures stand in for the warmer.
        if !insulated && hold.measured.is_empty() {
            self.add(LeverId::HoldTemperature, "Hold at", spans::hold_at(warmer));
        }
        self.add(LeverId::HoldHours, "Stop at", spans::stop_after(self.dairy()));
    }

    fn after(&mut self) {
        self.add(LeverId::ChillTo, "Chill to", spans::CHILL_TO);
        self.add(LeverId::ChillFor, "Hours in the fridge", spans::CHILL_FOR);
        self.add(LeverId::StrainFor, "Strain for", spans::STRAIN_FOR);
        self.add(LeverId::StrainOff, "Run off", spans::STRAIN_OFF);
    }

    /// Share of dairy among the bases by weight, water left out.
    fn dairy(&self) -> f64 {
        let (mut dairy, mut all) = (0.0, 0.0);
        for line in &self.design.bases {
            let Some(entry) = self.design.entry::<Base>(self.pantry, &line.entry) else { continue };
            let kg = line.litres * entry.density.value;
            all += if entry.kind == BaseKind::Water { 0.0 } else { kg };
            dairy += if entry.kind == BaseKind::Dairy { kg } else { 0.0 };
        }
        if all > 0.0 { dairy / all } else { 0.0 }
    }
}

#[cfg(test)]
mod tests;
