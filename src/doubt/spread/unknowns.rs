//! What is not known of a pot, or never quite the same: the model's figures, the pantry's, and the maker's own hand.

use std::collections::BTreeMap;

use potset_base::measures::Measure;
use potset_base::{Cited, Note, Spread};
use potset_doc::in_pot::InPot;
use potset_doc::measured::{self, Taken};
use potset_doc::number_words::{Says, says};
use potset_doc::pantry::{self, BaseKind, Warming};
use potset_doc::{Design, Kitchen};
use potset_forecast::acting::Acting;
use potset_forecast::flask::{self, FlaskLoss};
use potset_forecast::learnt::open_warmers;
use potset_forecast::lever::LeverId;
use potset_forecast::measured_readings::cited;
use potset_forecast::numbers::acts;
use potset_forecast::params;
use potset_forecast::scenario::Scenario;
use potset_science::params::{Maker, WayLaw};

/// Something that varies by itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Unknown {
    /// Its name in files and for its own stream of numbers: "gel.heated_pa", "group pace", "amount of CultureRate(0)".
    pub key: String,
    pub of: UnknownKind,
}

/// What varies.
#[derive(Clone, Debug, PartialEq)]
pub enum UnknownKind {
    /// Figures of the model or of the pantry that move together, by their paths.
    Figures(Vec<String>),
    /// How much of a line really goes in: how it is measured, the grams that a scale would show, and the bounds of the
    /// middle 90 % as factors.
    Amount {
        lever_id: LeverId,
        measure: Measure,
        grams: f64,
        bounds: (f64, f64),
    },
    /// Error of the thermometer, °C either way.
    Thermometer(f64),
    /// What is in the pack of a base line against its label.
    Label(usize),
    /// Age of a culture line.
    Age(usize),
    /// A reading of the maker's own.
    Measured {
        taken: Taken,
        v: f64,
        spread: Spread,
    },
    /// How fast a warmer of the kitchen loses its warmth, as it was read: by which factor either way it may be off, and
    /// from how many readings.
    Flask {
        warmer: String,
        times: f64,
        readings: usize,
    },
    /// What a warmer is off by that its entry does not tell, by its name among what pots teach.
    Warmer(String),
    Room,
    /// Warmth of one pot against the next.
    Warmth,
    /// What the laws of texture leave out.
    LeftOut,
}

/// A figure that is drawn: its place among all figures, and which unknown moves it.
#[derive(Clone, Debug)]
pub struct Drawn {
    pub at: usize,
    pub unknown: usize,
    pub value: f64,
    pub spread: Spread,
}

/// All that is unknown of one design in one kitchen.
#[derive(Clone, Debug, Default)]
pub struct Unknowns {
    pub list: Vec<Unknown>,
    /// Figures among the laws, and among the snapshot of the design, rising by place.
    pub laws: Vec<Drawn>,
    pub entries: Vec<Drawn>,
}

impl Unknowns {
    /// Of a design whose snapshot holds all that it uses.
    ///
    /// # Errors
    /// A note if the shipped parameters were damaged.
    pub fn of(scenario: &Scenario<'_>, design: &Design) -> Result<Self, Note> {
        let warmers = open_warmers(design, scenario.kitchen);
        Self::with_warmers(
            scenario,
            design,
            warmers.into_iter().filter(|w| scenario.learnt.find(w).is_some()),
        )
    }

    /// The same with what every warmer is off by, whether pots told it or not: for learning from pots.
    ///
    /// # Errors
    /// As [`Unknowns::of`].
    pub fn to_teach(scenario: &Scenario<'_>, design: &Design) -> Result<Self, Note> {
        Self::with_warmers(scenario, design, open_warmers(design, scenario.kitchen).into_iter())
    }

    fn with_warmers(
        scenario: &Scenario<'_>,
        design: &Design,
        warmers: impl Iterator<Item = String>,
    ) -> Result<Self, Note> {
        let shipped = params::shipped().map_err(Clone::clone)?;
        let pot = Acting::of(design);
        let mut all = Collected::default();
        for (at, (path, cited)) in shipped.list().into_iter().enumerate() {
            if says(&path) == Says::Law && acts(&pot, &path) {
                let unknown = all.figure(&path, cited);
                all.unknowns.laws.extend(unknown.map(|unknown| drawn(at, unknown, cited)));
            }
        }
        let paced = paced(design);
        for (at, (path, cited)) in design.snapshot.figures().iter().enumerate() {
            let own = kitchen_says(scenario.kitchen, path) || measured::stands_for(design, path);
            if !path.contains(".nutrients.") && !own && !paced.contains(path) {
                let unknown = all.figure(path, cited);
                all.unknowns.entries.extend(unknown.map(|unknown| drawn(at, unknown, cited)));
            }
        }
        for (path, fat) in
            [("solid_fat.coconut", InPot::PlantFat), ("solid_fat.milk", InPot::Base(BaseKind::Dairy))]
        {
            if pot.has(fat) {
                all.put(path.to_owned(), UnknownKind::Figures(vec![path.to_owned()]));
            }
        }
        if pot.has(InPot::Aged) {
            all.put("dry_loss".to_owned(), UnknownKind::Figures(vec!["dry_loss".to_owned()]));
        }
        all.hand(scenario.kitchen, design, &shipped.maker);
        all.flasks(scenario.kitchen, design, &shipped.laws().ways);
        for name in warmers {
            all.put(name.clone(), UnknownKind::Warmer(name));
        }
        Ok(all.unknowns)
    }

    /// The place of an unknown in the list.
    pub fn find(&self, key: &str) -> Option<usize> {
        self.list.iter().position(|u| u.key == key)
    }
}

/// Growth rates that the pace of a culture already tells: those of the organism that each culture has most of.
///
/// A pace is what pots of a culture needed with the organisms' rates as they stand, so it holds what one strain grows
/// faster than another. Drawn beside it, the rate of the leading organism would say the same doubt twice. The rates of the
/// others say how far they differ from it, and are drawn.
fn paced(design: &Design) -> Vec<String> {
    let leading = |c: &pantry::Culture| {
        let most = c.doses.iter().max_by(|a, b| a.cfu_per_g.value.total_cmp(&b.cfu_per_g.value));
        most.map(|dose| format!("organisms.{}.growth_rate", dose.organism))
    };
    design.snapshot.cultures.iter().filter_map(leading).collect()
}

/// Whether the kitchen's own readings stand in the place of a figure of a warmer.
fn kitchen_says(kitchen: &Kitchen, path: &str) -> bool {
    let mut steps = path.split('.');
    let (shelf, key, field) = (steps.next(), steps.next().unwrap_or(""), steps.next_back());
    match (shelf, field) {
        (Some("warmers"), Some("offset_c")) => kitchen.offset_c(key).is_some(),
        (Some("warmers"), Some("cooling_h")) => kitchen.flask_readings(key).next().is_some(),
        _ => false,
    }
}

fn drawn(at: usize, unknown: usize, cited: &Cited) -> Drawn {
    Drawn { at, unknown, value: cited.value, spread: cited.spread }
}

#[derive(Default)]
struct Collected {
    unknowns: Unknowns,
    groups: BTreeMap<String, usize>,
}

impl Collected {
    fn put(&mut self, key: String, of: UnknownKind) -> usize {
        self.unknowns.list.push(Unknown { key, of });
        self.unknowns.list.len() - 1
    }

    /// The unknown that moves a figure; nothing if the figure is exact.
    fn figure(&mut self, path: &str, cited: &Cited) -> Option<usize> {
        cited.spread.bounds().filter(|(low, high)| low < high)?;
        if cited.group.is_empty() {
            return Some(self.put(path.to_owned(), UnknownKind::Figures(vec![path.to_owned()])));
        }
        let key = format!("group {}", cited.group);
        if let Some(at) = self.groups.get(&key).copied() {
            if let UnknownKind::Figures(paths) = &mut self.unknowns.list[at].of {
                paths.push(path.to_owned());
            }
            return Some(at);
        }
        let at = self.put(key.clone(), UnknownKind::Figures(vec![path.to_owned()]));
        self.groups.insert(key, at);
        Some(at)
    }

    /// The measured losses of warmers that only keep warmth; a reading that tells nothing stops the forecast before.
    fn flasks(&mut self, kitchen: &Kitchen, design: &Design, ways: &WayLaw) {
        for warmer in &design.snapshot.warmers {
            if matches!(warmer.warming, Warming::Insulated { .. })
                && let Ok(Some(FlaskLoss { times, readings, .. })) = flask::loss(kitchen, &warmer.key, ways)
                && times > 1.0
            {
                let warmer = warmer.key.clone();
                self.put(format!("loss of {warmer}"), UnknownKind::Flask { warmer, times, readings });
            }
        }
    }

    /// The maker's own scatter.
    fn hand(&mut self, kitchen: &Kitchen, design: &Design, maker: &Maker) {
        for (lever_id, measure, grams) in amounts(design) {
            let bounds = amount_bounds(kitchen, measure, grams);
            if bounds.0 < bounds.1 {
                self.put(
                    format!("amount of {lever_id:?}"),
                    UnknownKind::Amount { lever_id, measure, grams, bounds },
                );
            }
        }
        for (i, line) in design.bases.iter().enumerate() {
            let label = &line.label;
            if label.fat.is_some() || label.protein.is_some() || label.sugars.is_some() {
                self.put(format!("label of {i}"), UnknownKind::Label(i));
            }
        }
        for (i, line) in design.cultures.iter().enumerate() {
            if line.age_days > 0.0 {
                self.put(format!("age of {i}"), UnknownKind::Age(i));
            }
        }
        for taken in Taken::all(design) {
            let read = cited(taken, design, maker);
            if let Some(Cited { value: v, spread, .. }) = read.filter(|read| read.spread != Spread::Exact) {
                self.put(
                    format!("{:?} of {}", taken.kind, taken.line),
                    UnknownKind::Measured { taken, v, spread },
                );
            }
        }
        if kitchen.thermometer_c > 0.0 {
            self.put("thermometer".to_owned(), UnknownKind::Thermometer(kitchen.thermometer_c));
        }
        self.put("room".to_owned(), UnknownKind::Room);
        self.put("warmth".to_owned(), UnknownKind::Warmth);
        self.put("left out".to_owned(), UnknownKind::LeftOut);
    }
}

/// Lines of a design that are measured, how, and how many grams they are of what is weighed; none that are nothing.
fn amounts(design: &Design) -> Vec<(LeverId, Measure, f64)> {
    let litres = design.litres();
    let mut all = Vec::new();
    for (i, line) in design.bases.iter().enumerate() {
        let density = pantry::find(&design.snapshot.bases, &line.entry).map_or(1.0, |b| b.density.value);
        all.push((LeverId::BaseLitres(i), line.measure, line.litres * density * 1e3));
    }
    for (i, line) in design.sugars.iter().enumerate() {
        all.push((LeverId::SugarDose(i), line.measure, line.g_per_l * litres));
    }
    for (i, line) in design.thickeners.iter().enumerate() {
        all.push((LeverId::ThickenerDose(i), line.measure, line.g_per_l * litres));
    }
    for (i, line) in design.additives.iter().enumerate() {
        all.push((LeverId::AdditiveDose(i), line.measure, line.g_per_l * litres));
    }
    for (i, line) in design.cultures.iter().enumerate() {
        let packet =
            pantry::find(&design.snapshot.cultures, &line.entry).map_or(0.0, |c| line.grams_per_litre(c));
        all.push((LeverId::CultureRate(i), line.measure, packet * line.rate * litres * line.powder.times()));
    }
    all.retain(|(_, _, grams)| *grams > 0.0);
    all
}

/// By which factors an amount may be off: the measure's own bounds, or the scale's error on what is weighed.
pub fn amount_bounds(kitchen: &Kitchen, measure: Measure, grams: f64) -> (f64, f64) {
    match measure.real_share().spread.bounds() {
        Some(bounds) => bounds,
        None => {
            let share = kitchen.weighing_error_g() / grams;
            (1.0 / (1.0 + share), 1.0 + share)
        }
    }
}
