//! A class prepared: jars for so many people, what to make ahead so that early, middle and late pots stand on the table, the
//! clock of all of it, and what to buy.

use potset_base::clock::{Moment, Zone};
use potset_base::{Note, choices};
use potset_doc::edit::LineKind;
use potset_doc::lesson::{Lesson, Which};
use potset_doc::lines::Pack;
use potset_doc::pantry::{Base, Culture, Vessel};
use potset_doc::{Design, Edit, Kitchen, Learnt, Pantry, edit};
use potset_forecast::scenario::Scenario;
use potset_judge::answer::Answer;
use potset_make::clock::{Tick, What, plan_of, shift};
use potset_make::scale::{To, scaled};

use crate::pots;

/// What one person tastes of a pot, g. Source: assumed, two heaped teaspoons.
pub const TASTE_G: f64 = 25.0;

/// Shares of the hold after which the early and the middle pot are stopped, where the lesson does not say. Source: assumed.
const EARLY: f64 = 1.0 / 3.0;
const MIDDLE: f64 = 2.0 / 3.0;

/// Most people that a class is prepared for.
pub const MOST_PEOPLE: u32 = 200;

choices! {
    /// Which of the pots on the table.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
    pub enum Stage: word {
        Early => "early",
        Middle => "middle",
        Late => "late",
    }
}

/// Jars of one pot that the people make and take home.
#[derive(Clone, Debug)]
pub struct Jars {
    pub which: Which,
    /// The design for all of them.
    pub design: Design,
    pub jars: u32,
}

/// A pot that is made before the class.
#[derive(Clone, Debug)]
pub struct Ahead {
    pub which: Which,
    pub name: String,
    pub stage: Stage,
    pub design: Design,
    pub answer: Box<Answer>,
    pub jars: u32,
    /// Hours of the hold.
    pub stop_h: f64,
    /// Its culture goes in so many hours before the class.
    pub before_h: f64,
    /// It is sour and nothing is known against it: it is tasted. Else it is looked at, and thrown away.
    pub tasted: bool,
}

/// Something to do, hours before the class.
#[derive(Clone, Debug)]
pub struct Task {
    pub before_h: f64,
    /// By the clock, where it is known when the class begins.
    pub when: Option<Moment>,
    /// Place of its pot among those made ahead.
    pub pot: usize,
    pub tick: Tick,
}

/// Something to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct Bought {
    pub list: LineKind,
    pub key: String,
    pub name: String,
    /// L of a base, × packet and litre of a culture, else g.
    pub amount: f64,
    /// Weight, g.
    pub grams: f64,
    /// What it is sold in, and how many of those.
    pub packs: Option<(Pack, f64)>,
}

/// A class prepared.
#[derive(Clone, Debug)]
pub struct ClassPlan {
    pub people: u32,
    /// What everybody makes, a jar each; nothing of a pot that fails on purpose.
    pub made: Vec<Jars>,
    pub ahead: Vec<Ahead>,
    /// In the order of time.
    pub tasks: Vec<Task>,
    pub shopping: Vec<Bought>,
    /// Vessels by their keys, and how many.
    pub vessels: Vec<(String, u32)>,
}

/// What a class is prepared from.
#[derive(Clone, Copy, Debug)]
pub struct ClassAsk<'a> {
    pub lesson: &'a Lesson,
    pub people: u32,
    /// When it begins, by the clock of a zone.
    pub begins: Option<Moment>,
    pub zone: Option<&'a Zone>,
    pub pantry: &'a Pantry,
    /// Whose scale rounds the amounts.
    pub kitchen: &'a Kitchen,
}

/// Whether a pot is yogurt, with nothing known that throws it away.
fn comes_well(answer: &Answer) -> bool {
    let hygiene = &answer.verdict.hygiene;
    hygiene.discard().is_none() && hygiene.not_yogurt.is_none()
}

/// Prepares a class.
///
/// # Errors
/// Why a pot of it cannot be made.
pub fn prepare(ask: &ClassAsk<'_>) -> Result<ClassPlan, Note> {
    if !(1..=MOST_PEOPLE).contains(&ask.people) {
        return Err(Note::error(
            "people",
            format!("A class of {} cannot be prepared", ask.people),
            format!("Give 1 to {MOST_PEOPLE} people"),
        ));
    }
    let shown = pots::show(ask.lesson, ask.pantry)?;
    let (mut made, mut ahead) = (Vec::new(), Vec::new());
    for (which, pot) in [Which::First, Which::Second].into_iter().zip(&shown.pots) {
        if comes_well(&pot.answer) {
            let design = for_jars(ask, &pot.design, ask.people)?;
            made.push(Jars { which, design, jars: ask.people });
        }
        let stop_h = pot.answer.forecast.stop_h;
        let (early, middle, late) =
            ask.lesson.table.unwrap_or((half_hours(EARLY * stop_h), half_hours(MIDDLE * stop_h), stop_h));
        for (stage, stop_h) in Stage::ALL.into_iter().zip([early, middle, late]) {
            ahead.push(made_ahead(ask, (which, &pot.design), stage, stop_h)?);
        }
    }
    let designs: Vec<&Design> =
        made.iter().map(|jars| &jars.design).chain(ahead.iter().map(|pot| &pot.design)).collect();
    let (shopping, vessels) = (shopping(&designs, ask.pantry), vessels(&designs));
    let tasks = tasks(ask, &ahead);
    Ok(ClassPlan { people: ask.people, made, ahead, tasks, shopping, vessels })
}

/// To half an hour, and no less than that.
fn half_hours(h: f64) -> f64 {
    ((2.0 * h).round() / 2.0).max(0.5)
}

fn for_jars(ask: &ClassAsk<'_>, design: &Design, jars: u32) -> Result<Design, Note> {
    let learnt = Learnt::default();
    let scenario = Scenario { design, pantry: ask.pantry, kitchen: ask.kitchen, learnt: &learnt };
    scaled(&scenario, To::Jars(jars)).map(|scaled| scaled.design)
}

/// A pot stopped early, half way or late. What is tasted is chilled first; what is not sour yet comes from the warmth.
fn made_ahead(
    ask: &ClassAsk<'_>,
    (which, design): (Which, &Design),
    stage: Stage,
    stop_h: f64,
) -> Result<Ahead, Note> {
    let stopped = edit::apply(design, &Edit::HoldHours(stop_h), ask.pantry)?;
    let chill_h = chill_by_day(ask, stop_h, stopped.chill().map_or(0.0, |(_, hours)| hours));
    // Judged as it will stand there: as many jars, and chilled as long.
    let chilled = edit::apply(&stopped, &Edit::ChillHours(chill_h), ask.pantry)?;
    let jars = jars_to_taste(ask, &chilled);
    let scaled = for_jars(ask, &chilled, jars)?;
    let answer = pots::run(&scaled, ask.pantry, stop_h)?;
    let tasted = comes_well(&answer);
    let (jars, scaled, answer) = if tasted {
        (jars, scaled, answer)
    } else {
        let one = for_jars(ask, &stopped, 1)?;
        let answer = pots::run(&one, ask.pantry, stop_h)?;
        (1, one, answer)
    };
    let chill_h = if tasted { chill_h } else { 0.0 };
    Ok(Ahead {
        which,
        name: design.name.clone(),
        stage,
        design: scaled,
        answer: Box::new(answer),
        jars,
        stop_h,
        before_h: stop_h + chill_h,
        tasted,
    })
}

/// Hours of the day in which somebody is up to stir a culture in, or to take a pot out. Source: assumed.
const UP: std::ops::Range<u32> = 7..23;

/// Hours that a pot is chilled, longer than planned where it would else begin or end at night. Where no hour is better, and
/// where no clock is known, as planned.
fn chill_by_day(ask: &ClassAsk<'_>, stop_h: f64, chill_h: f64) -> f64 {
    let Some(begins) = ask.begins else { return chill_h };
    let up = |before_h: f64| {
        let text = shift(begins, -before_h, ask.zone).text();
        text.get(11..13).and_then(|hour| hour.parse().ok()).is_some_and(|hour: u32| UP.contains(&hour))
    };
    let longer = (0..=2 * LONGER_H).map(|half| chill_h + 0.5 * f64::from(half));
    longer.into_iter().find(|chill_h| up(*chill_h) && up(stop_h + chill_h)).unwrap_or(chill_h)
}

/// How much longer a pot may be chilled, h. Source: assumed, a day.
const LONGER_H: u32 = 24;

/// Jars from which everybody has a taste.
fn jars_to_taste(ask: &ClassAsk<'_>, design: &Design) -> u32 {
    let vessel = design.entry::<Vessel>(ask.pantry, &design.pots.vessel);
    // A litre of it weighs about a kilogram.
    let each_g = vessel.map_or(250.0, |vessel| 1000.0 * vessel.litres).max(1.0);
    let jars = (f64::from(ask.people) * TASTE_G / each_g).ceil();
    (1..=MOST_PEOPLE).find(|n| f64::from(*n) >= jars).unwrap_or(MOST_PEOPLE)
}

/// What is done for the pots that are made ahead, in the order of time; nothing that comes after the class.
fn tasks(ask: &ClassAsk<'_>, ahead: &[Ahead]) -> Vec<Task> {
    let mut all = Vec::new();
    for (pot, one) in ahead.iter().enumerate() {
        let check = one.answer.verdict.hygiene.check;
        for tick in plan_of(&one.design, &one.answer.facts, one.stop_h, check) {
            let before_h = one.before_h - tick.at_h;
            // Nobody is needed for a pot to get cold, and it is the class that tastes it. What is looked at stays in its
            // warmth until then.
            let none = match tick.what {
                What::Cold | What::Eat | What::UseBy => true,
                What::Stop => !one.tasted,
                _ => false,
            };
            if before_h > -1e-6 && !none {
                let when = ask.begins.map(|begins| shift(begins, -before_h, ask.zone));
                all.push(Task { before_h, when, pot, tick });
            }
        }
    }
    all.sort_by(|a, b| b.before_h.total_cmp(&a.before_h));
    all
}

/// Everything that goes into all pots, summed over them.
fn shopping(designs: &[&Design], pantry: &Pantry) -> Vec<Bought> {
    let mut all: Vec<Bought> = Vec::new();
    for list in LineKind::ALL {
        for design in designs {
            for (i, line) in design.lines(list).iter().enumerate() {
                let Some((said, value)) = design.said_of(list, i, pantry) else { continue };
                let (amount, grams, packs) = match list {
                    LineKind::Bases => (value, value * said.g_per_unit, base_packs(design, i, pantry)),
                    LineKind::Cultures => culture_amount(design, i, pantry),
                    _ => (value * said.g_per_unit, value * said.g_per_unit, None),
                };
                match all.iter_mut().find(|bought| bought.list == list && bought.key == line.entry()) {
                    Some(bought) => {
                        bought.amount += amount;
                        bought.grams += grams;
                        bought.packs = match (bought.packs, packs) {
                            (Some((pack, count)), Some((_, more))) => Some((pack, count + more)),
                            _ => None,
                        };
                    }
                    None => all.push(Bought {
                        list,
                        key: line.entry().to_owned(),
                        name: design.name_of(pantry, list.kind(), line.entry()).to_owned(),
                        amount,
                        grams,
                        packs,
                    }),
                }
            }
        }
    }
    all.retain(|bought| bought.grams > 0.0);
    all
}

/// How many tins or cartons a base is.
fn base_packs(design: &Design, i: usize, pantry: &Pantry) -> Option<(Pack, f64)> {
    let line = design.bases.get(i)?;
    let pack = line.with_pack(design.entry::<Base>(pantry, &line.entry), pantry).pack?;
    Some((pack, 1000.0 * line.litres / pack.ml))
}

/// A culture as it is bought: × packet and litre, and the weight of the powder without what it is thinned with.
fn culture_amount(design: &Design, i: usize, pantry: &Pantry) -> (f64, f64, Option<(Pack, f64)>) {
    let Some(line) = design.cultures.get(i) else { return (0.0, 0.0, None) };
    let entry = design.entry::<Culture>(pantry, &line.entry);
    let each = entry.map_or(0.0, |entry| line.grams_per_litre(entry));
    let amount = line.rate * design.litres();
    (amount, amount * each, None)
}

/// How many of each vessel are on the table and in hands.
fn vessels(designs: &[&Design]) -> Vec<(String, u32)> {
    let mut all: Vec<(String, u32)> = Vec::new();
    for design in designs {
        match all.iter_mut().find(|(key, _)| *key == design.pots.vessel) {
            Some((_, count)) => *count += design.pots.count,
            None => all.push((design.pots.vessel.clone(), design.pots.count)),
        }
    }
    all
}
