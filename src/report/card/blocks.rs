//! The other blocks of a card: the culture's dose, the kit, what is checked, how it is kept, what is in it, notes, cautions.

use super::{Block, Body, CardAsk, Line, Part, Table, lost};
use crate::cautions::{self, About, Caution};
use crate::{hygiene, nutrition, packet};
use potset_base::measures::whole::weight;
use potset_base::number::{NBSP, fixed, plain};
use potset_base::units::prose::prose;
use potset_base::words::{capital, lower};
use potset_doc::design::{CultureLine, Powder};
use potset_doc::kitchen::PhBy;
use potset_doc::lines::Packet;
use potset_doc::pantry::{Base, Culture, EntryKind, Sterility, Vessel};
use potset_doc::steps::{Step, Way};
use potset_judge::keeping::Day;
use potset_make::packet::{SplitAsk, splits};

fn lines(part: Part, lines: Vec<Line>) -> Block {
    Block { part, body: Body::Lines(lines) }
}

/// Everything that stands after the steps.
pub fn after(ask: &CardAsk<'_>) -> Vec<Block> {
    let mut all = vec![checks(ask)];
    all.extend(keeping(ask));
    if !ask.answer.forecast.t.is_empty() {
        all.extend(food(ask));
    }
    let notes = ask.scenario.design.notes.trim();
    if !notes.is_empty() {
        let paragraphs = notes.lines().filter(|line| !line.trim().is_empty());
        all.push(lines(Part::Notes, paragraphs.map(|line| Line::plain(prose(line.trim()))).collect()));
    }
    all.push(lines(Part::Cautions, cautions_of(ask)));
    all
}

/// How each culture is weighed, and how its packet is split for that.
pub fn culture(ask: &CardAsk<'_>) -> Option<Block> {
    let cultures = &ask.scenario.design.cultures;
    let all: Vec<Line> = cultures.iter().flat_map(|line| doses(ask, line)).collect();
    (!all.is_empty()).then(|| lines(Part::Culture, all))
}

fn doses(ask: &CardAsk<'_>, line: &CultureLine) -> Vec<Line> {
    let (design, kitchen) = (ask.scenario.design, ask.scenario.kitchen);
    let litres = design.litres();
    let Some(entry) = design.entry::<Culture>(ask.scenario.pantry, &line.entry) else { return Vec::new() };
    let said = line.said(Some(entry), litres, design.spoons);
    let grams = weight(line.rate * said.g_per_unit);
    // Of a packet that is known it is a part; of another one, so many times what a packet says.
    let words = match line.packet {
        Some(packet) => format!(
            "{grams}, {}; the packet holds {} for {}{NBSP}L",
            line.powder.words(),
            weight(packet.grams),
            plain(packet.litres)
        ),
        None => format!("{grams}, {}: {}{NBSP}×{NBSP}packet", line.powder.words(), plain(line.rate)),
    };
    let mut all = vec![Line { lead: entry.name.clone(), words, ..Line::default() }];
    match line.powder {
        Powder::Straight => {
            // So many times the packet's dose is the dose of a packet for so many times fewer litres.
            let ask = line.packet.filter(|_| line.rate > 0.0).map(|packet| SplitAsk {
                packet: Packet { litres: packet.litres / line.rate, ..packet },
                pot_litres: litres,
                error_g: kitchen.weighing_error_g(),
            });
            let best = ask.and_then(|ask| Some((splits(&ask).ok()?.into_iter().next()?, ask)));
            if let Some((split, ask)) = best {
                let told = packet::steps(&split, &ask).join(". ");
                let words = format!("{told}. {}.", packet::error(&split));
                all.push(Line { lead: packet::way(split.way), words, ..Line::default() });
            }
        }
        mixed => all.push(Line::plain(format!(
            "{}. Keep the mix dry and frozen, with culture and day on the jar.",
            crate::mends::label(&potset_judge::mends::How::SplitPowder(mixed))
        ))),
    }
    all
}

/// What has to be there, and how it is scalded.
pub fn kit(ask: &CardAsk<'_>) -> Block {
    let (design, pantry, kitchen) = (ask.scenario.design, ask.scenario.pantry, ask.scenario.kitchen);
    let vessel = design.entry::<Vessel>(pantry, &design.pots.vessel);
    let name = lower(design.name_of(pantry, EntryKind::Vessel, &design.pots.vessel));
    let mut things = vec![
        format!("{} × {name} with lids", design.pots.count),
        "a pot, a whisk and two spoons".to_owned(),
        "a thermometer".to_owned(),
        format!("a scale that shows {}{NBSP}g", plain(kitchen.scale_step_g)),
    ];
    match kitchen.ph_by {
        PhBy::Meter => things.push("the pH meter".to_owned()),
        PhBy::Strips => things.push("pH strips".to_owned()),
        PhBy::TasteAndLook => {}
    }
    let has = |test: &dyn Fn(&Step) -> bool| design.steps.iter().any(test);
    if has(&|step| matches!(step, Step::Strain { .. })) {
        things.push("a cloth and a sieve".to_owned());
    }
    if has(&|step| {
        matches!(step, Step::Cool { way: Way::IceBath, .. } | Step::Chill { way: Way::IceBath, .. })
    }) {
        things.push("ice".to_owned());
    }
    let mut all = vec![Line::plain(format!("{}.", capital(&things.join(", "))))];
    all.extend(said(|about| about == About::Kit).map(|line| Line { lead: String::new(), ..line }));
    let handling = vessel.map(|vessel| vessel.handling.as_str()).unwrap_or_default();
    if !handling.is_empty() {
        all.push(Line::plain(prose(handling)));
    }
    lines(Part::Kit, all)
}

/// Cautions as lines with their sources.
fn said(wanted: impl Fn(About) -> bool) -> impl Iterator<Item = Line> {
    let line = |c: Caution| Line { lead: c.title.to_owned(), words: c.text, source: c.source };
    cautions::all().into_iter().filter(move |caution| wanted(caution.about)).map(line)
}

/// When it is looked at, and when it is thrown away.
fn checks(ask: &CardAsk<'_>) -> Block {
    let (verdict, facts) = (&ask.answer.verdict, &ask.answer.facts.hygiene);
    let mut all = Vec::new();
    all.extend(verdict.hygiene.not_yogurt.map(|why| Line::plain(format!("{}.", hygiene::not_yogurt(why)))));
    if let Some(check) = &verdict.hygiene.check {
        all.push(Line::plain(format!("{}.", hygiene::check(check))));
    }
    all.extend(said(|about| about == About::Souring(facts.souring)));
    lines(Part::Checks, all)
}

/// How cold and how long it is kept, and what becomes of it.
fn keeping(ask: &CardAsk<'_>) -> Option<Block> {
    if lost(ask.answer) {
        return None;
    }
    let mut below = Vec::new();
    if let Some((words, source)) = cautions::keeping() {
        below.push(Line { words: format!("{words}."), source, ..Line::default() });
    }
    let keeping = ask.answer.verdict.keeping.as_ref()?;
    let longest = KEPT_DAYS.max(ask.scenario.design.steps.iter().fold(0.0, |days, step| match step {
        Step::Store { days, .. } => *days,
        _ => days,
    }));
    below.extend(
        keeping
            .sharper
            .filter(|(day, _)| *day <= longest)
            .map(|(day, word)| Line::plain(format!("From day {} on it is {}.", fixed(day, 0), word.word()))),
    );
    let row = |day: &Day| {
        vec![
            format!("day {}", plain(day.days)),
            format!("pH{NBSP}{}", fixed(day.ph, 1)),
            day.tang.word().to_owned(),
            day.texture.word().to_owned(),
        ]
    };
    let rows = keeping.days.iter().filter(|day| day.days <= longest).map(row).collect();
    let head = [format!("at {}", potset_base::units::said::warmth(keeping.kept_c, 0))];
    let head = head.into_iter().chain(["sourness", "tang", "texture"].map(str::to_owned)).collect();
    Some(Block { part: Part::Keeping, body: Body::Table(Table { head, rows, below }) })
}

/// Days that a card tells of, unless the design keeps it longer. Source: assumed, two weeks.
const KEPT_DAYS: f64 = 14.0;

/// Allergens, nutrition and cost.
fn food(ask: &CardAsk<'_>) -> Vec<Block> {
    let (n, kitchen) = (&ask.answer.nutrition, ask.scenario.kitchen);
    let rule = kitchen.label_rule;
    let allergens = [nutrition::allergen_words(n, rule), nutrition::gluten_words(n)];
    let mut all = vec![lines(Part::Allergens, allergens.map(Line::plain).to_vec())];
    let cells = |row: nutrition::Row| {
        let name = if row.is_part { format!("{NBSP}{NBSP}{}", row.name) } else { row.name.to_owned() };
        vec![name, row.per_100g, row.per_serving]
    };
    let head = vec![String::new(), format!("per 100{NBSP}g"), format!("per {}", weight(n.serving_g))];
    let custom = format!("as labels are printed in: {}", rule.place());
    let below = vec![Line { words: nutrition::ADVICE.to_owned(), source: custom, ..Line::default() }];
    let rows = nutrition::table(n, rule).into_iter().map(cells).collect();
    all.push(Block { part: Part::Nutrition, body: Body::Table(Table { head, rows, below }) });
    let cost = nutrition::cost_words(&n.cost, kitchen);
    if n.cost.known > 0.0 {
        all.push(lines(Part::Cost, cost.into_iter().map(Line::plain).collect()));
    }
    all
}

/// The cautions that this pot calls for.
fn cautions_of(ask: &CardAsk<'_>) -> Vec<Line> {
    let (facts, scenario) = (&ask.answer.facts, ask.scenario);
    let bases = scenario.design.bases.iter();
    let mut entries = bases.filter_map(|line| scenario.design.entry::<Base>(scenario.pantry, &line.entry));
    let tins = entries.any(|base| base.sterility == Sterility::Canned);
    let calls = |about: About| match about {
        About::Every => true,
        About::Coconut => facts.coconut,
        About::Tins => tins,
        About::Starch => facts.starchy || facts.rice,
        About::RawMilk => facts.raw_base,
        About::Meters => scenario.kitchen.ph_by != PhBy::TasteAndLook,
        About::Kit | About::Souring(_) => false,
    };
    said(calls).collect()
}
