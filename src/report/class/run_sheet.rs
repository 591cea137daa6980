//! A class prepared, as a sheet: what everybody makes, what is made ahead, the clock, what to buy, kit and allergens.

use crate::card::{Block, Body, CardAsk, Line, Part, Said, Sheet, StepLine, Table, in_both_degrees, kit};
use crate::cautions::at_foot;
use crate::{clock, nutrition};
use potset_base::clock::Moment;
use potset_base::measures::Amount;
use potset_base::measures::whole::{volume_plain, weight};
use potset_base::number::{self, NBSP, hours};
use potset_base::words::lower;
use potset_class::prepare::{Ahead, Bought, ClassPlan, TASTE_G};
use potset_doc::edit::LineKind;
use potset_doc::lesson::Lesson;
use potset_doc::pantry::EntryKind;
use potset_doc::{Design, Kitchen, Learnt, Pantry};
use potset_forecast::scenario::Scenario;

/// What a run sheet is made from.
#[derive(Clone, Copy)]
pub struct RunSheetAsk<'a> {
    pub lesson: &'a Lesson,
    pub plan: &'a ClassPlan,
    pub begins: Option<Moment>,
    pub pantry: &'a Pantry,
    pub kitchen: &'a Kitchen,
}

/// The run sheet of a class.
pub fn run_sheet(ask: &RunSheetAsk<'_>) -> Sheet {
    let (lesson, plan) = (ask.lesson, ask.plan);
    let begins = ask.begins.map_or_else(String::new, |begins| format!(" · {}", begins.date_and_time()));
    in_both_degrees(|| {
        let mut blocks = Vec::new();
        blocks.extend(made(ask));
        blocks.push(ahead(ask));
        blocks.push(shopping(ask));
        blocks.extend(kit_of(ask));
        blocks.push(allergens(ask));
        blocks.push(tasks(ask));
        blocks.push(with_care());
        Sheet {
            name: format!("Class: {}", lesson.title),
            tag: format!("run sheet · {} people{begins}", plan.people),
            first: lesson.question.clone(),
            large: Vec::new(),
            blocks,
            chart: None,
            foot: at_foot(),
            outdated: Vec::new(),
        }
    })
}

fn lines(part: Part, lines: Vec<Line>) -> Block {
    Block { part, body: Body::Lines(lines) }
}

fn table(part: Part, head: &[&str], rows: Vec<Vec<String>>, below: Vec<Line>) -> Block {
    let head = head.iter().map(|cell| (*cell).to_owned()).collect();
    Block { part, body: Body::Table(Table { head, rows, below }) }
}

/// What everybody makes and takes home; nothing where all pots fail on purpose.
fn made(ask: &RunSheetAsk<'_>) -> Option<Block> {
    let rows: Vec<Vec<String>> = ask
        .plan
        .made
        .iter()
        .map(|jars| {
            let design = &jars.design;
            let vessel = design.name_of(ask.pantry, EntryKind::Vessel, &design.pots.vessel);
            let hold = design.hold().map_or_else(String::new, |hold| hours(hold.hours));
            vec![
                design.name.clone(),
                format!("{} × {}", jars.jars, lower(vessel)),
                volume_plain(design.litres()),
                hold,
            ]
        })
        .collect();
    let words = "Each takes a jar home with its card, and keeps it warm until its hour. The way home is not in this plan: go by \
                 the checks on the card.";
    let head = ["pot", "jars", "in all", "stop after"];
    (!rows.is_empty()).then(|| table(Part::Made, &head, rows, vec![Line::plain(words)]))
}

/// What stands on the table when the class begins.
fn ahead(ask: &RunSheetAsk<'_>) -> Block {
    let row = |pot: &Ahead| {
        let what = if pot.tasted { "taste" } else { "look only" };
        let begin = match ask.begins {
            Some(begins) => begins.after(-pot.before_h).day_and_time(),
            None => format!("{} before", hours(pot.before_h)),
        };
        let name = format!("{}, {}", pot.name, pot.stage.word());
        vec![name, hours(pot.stop_h), format!("{}", pot.jars), begin, what.to_owned()]
    };
    let rows = ask.plan.ahead.iter().map(row).collect();
    let words = format!(
        "“After” counts from the culture to the stop. A taste is {}. What is only looked at comes from its warmth, and is \
         thrown away: do not taste it.",
        weight(TASTE_G)
    );
    table(Part::Ahead, &["pot", "after", "jars", "culture in", "for"], rows, vec![Line::plain(words)])
}

/// The clock of what is made ahead.
fn tasks(ask: &RunSheetAsk<'_>) -> Block {
    let steps = ask.plan.tasks.iter().map(|task| {
        let when = match task.when {
            Some(when) => when.day_and_time(),
            None if task.before_h < 1e-6 => "the class".to_owned(),
            None => format!("{} before", hours(task.before_h)),
        };
        let pot = ask.plan.ahead.get(task.pot);
        let name = pot.map_or_else(String::new, |pot| format!("{}, {}", pot.name, pot.stage.word()));
        let words = format!("{name}: {}", clock::what(&task.tick));
        let said = Said { generated: words.clone(), words, own: false };
        StepLine { at_h: -task.before_h, when, said, sign: None }
    });
    Block { part: Part::Tasks, body: Body::Steps(steps.collect()) }
}

/// Everything that is bought, with tins and cartons rounded up.
fn shopping(ask: &RunSheetAsk<'_>) -> Block {
    let row = |bought: &Bought| {
        let amount = match bought.list {
            LineKind::Bases => volume_plain(bought.amount),
            _ => weight(bought.grams),
        };
        let packs = match (bought.packs, bought.list) {
            (Some((pack, count)), _) => {
                let whole = (count - WASTE).ceil().max(1.0);
                format!("{} of {}{NBSP}mL", Amount::Total(whole, pack.of).text(3), number::plain(pack.ml))
            }
            (None, LineKind::Cultures) => {
                format!("for {}{NBSP}L at 1{NBSP}×{NBSP}packet", number::rough(bought.amount))
            }
            _ => String::new(),
        };
        vec![bought.name.clone(), amount, packs]
    };
    let rows = ask.plan.shopping.iter().map(row).collect();
    table(Part::Shopping, &["", "in all", "as it is sold"], rows, Vec::new())
}

/// So much less than a whole tin is poured from the others, share of a tin. Source: assumed.
const WASTE: f64 = 0.01;

/// The kit of all pots together: that of the first, with all vessels.
fn kit_of(ask: &RunSheetAsk<'_>) -> Option<Block> {
    let first = ask.plan.ahead.first()?;
    let count =
        ask.plan.vessels.iter().find(|(key, _)| *key == first.design.pots.vessel).map_or(1, |(_, n)| *n);
    let mut design = first.design.clone();
    design.pots.count = count;
    let learnt = Learnt::default();
    let scenario = Scenario { design: &design, pantry: ask.pantry, kitchen: ask.kitchen, learnt: &learnt };
    let asked =
        CardAsk { scenario: &scenario, answer: &first.answer, ready: None, watch: None, version: None };
    let mut block = kit(&asked);
    if let Body::Lines(lines) = &mut block.body {
        let others = ask.plan.vessels.iter().filter(|(key, _)| *key != design.pots.vessel);
        for (key, count) in others {
            let name = name_of_vessel(ask, key);
            lines.push(Line::plain(format!("{count} × {name} with lids, too.")));
        }
        let spoons = ask.plan.people + 2;
        lines.push(Line::plain(format!("{spoons} clean spoons to taste with: one each, used once a pot.")));
    }
    Some(block)
}

fn name_of_vessel(ask: &RunSheetAsk<'_>, key: &str) -> String {
    let of = |design: &Design| {
        design.entry_of(ask.pantry, EntryKind::Vessel, key).map(|entry| lower(entry.name()))
    };
    ask.plan.ahead.iter().find_map(|pot| of(&pot.design)).unwrap_or_else(|| "jar".to_owned())
}

/// What is in the pots, once each.
fn allergens(ask: &RunSheetAsk<'_>) -> Block {
    let rule = ask.kitchen.label_rule;
    let mut all: Vec<Line> = Vec::new();
    let mut names: Vec<&str> = Vec::new();
    for pot in &ask.plan.ahead {
        if names.contains(&pot.name.as_str()) {
            continue;
        }
        names.push(&pot.name);
        let n = &pot.answer.nutrition;
        let words = format!("{} {}", nutrition::allergen_words(n, rule), nutrition::gluten_words(n));
        all.push(Line { lead: pot.name.clone(), words, source: String::new() });
    }
    all.push(Line::plain("Ask the room before anybody tastes."));
    lines(Part::Allergens, all)
}

/// What holds for every class.
fn with_care() -> Block {
    let all = [
        "Look at and smell each pot before it is tasted. What is told to be thrown away is not tasted.",
        "Keep what is chilled cold until it is tasted, and throw away what is left on the table.",
    ];
    lines(Part::Cautions, all.map(Line::plain).to_vec())
}
