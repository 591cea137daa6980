//! The leaflet: one page for whoever hands out a culture. Dose and sugar for one litre, warmth and hours, what the pot is like
//! hour by hour, and the commonest mishaps. It lies on paper as the card does.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::card::{Block, Body, CardAsk, Line, Part, Sheet, Table, head, in_both_degrees, lost, measured};
use crate::{cautions, clock, hygiene};
use potset_base::Source;
use potset_base::lexicon;
use potset_base::measures::Said;
use potset_base::measures::whole::weight;
use potset_base::number::{NBSP, fixed, hours, plain};
use potset_base::units::said::{warmth, warmth_plain};
use potset_base::words::ACID_LINE_PH;
use potset_doc::design::SweetWhen;
use potset_doc::edit::LineKind;
use potset_make::clock::{What, plan_of};
use potset_science::sensory;

/// The text of the shipped mishaps.
const TEXT: &str = include_str!("../../assets/leaflet.ron");

/// Something that goes wrong.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Mishap {
    /// What one sees.
    pub see: String,
    pub why: String,
    /// What to do now and the next time.
    pub next: String,
    /// The pot is thrown away.
    pub throw_away: bool,
    pub from: Source,
}

/// The commonest mishaps, those that are thrown away first.
pub fn mishaps() -> &'static [Mishap] {
    static ALL: LazyLock<Vec<Mishap>> = LazyLock::new(|| lexicon::shipped(TEXT));
    &ALL
}

/// The leaflet of a design; its spoons are those of the design.
pub fn sheet(ask: &CardAsk<'_>) -> Sheet {
    in_both_degrees(|| {
        let mut blocks = vec![dose(ask), hold(ask)];
        blocks.extend(by_hour(ask));
        blocks.push(went_wrong(ask));
        Sheet { blocks, chart: None, ..head(ask) }
    })
}

/// Culture and food for one litre of base.
fn dose(ask: &CardAsk<'_>) -> Block {
    let (design, pantry) = (ask.scenario.design, ask.scenario.pantry);
    let mut rows = Vec::new();
    let mut below = Vec::new();
    let lines = |shelf: LineKind| (0..design.lines(shelf).len()).map(move |i| (shelf, i));
    for (shelf, i) in lines(LineKind::Cultures).chain(lines(LineKind::Sugars)) {
        let stirred_in = shelf == LineKind::Sugars && design.sugars[i].when == SweetWhen::AfterTheHold;
        let Some((said, value)) = design.said_of(shelf, i, pantry).filter(|_| !stirred_in) else { continue };
        let one = Said { g_per_unit: said.g_per_unit / design.litres(), ..said };
        let name = design.name_of(pantry, shelf.kind(), design.lines(shelf)[i].entry());
        let name = match shelf {
            LineKind::Cultures => format!("{name}, {}", design.cultures[i].powder.words()),
            _ => format!("{name}, to feed it"),
        };
        rows.push(vec![name, weight(value * one.g_per_unit), measured(&one, value)]);
    }
    for line in &design.cultures {
        if let Some(packet) = line.packet {
            let words =
                format!("A packet of {} is for {}{NBSP}L.", weight(packet.grams), plain(packet.litres));
            below.push(Line::plain(words));
        }
    }
    below.push(Line::plain(format!("Spoons are level; a tablespoon is a {}.", design.spoons.words())));
    let head = ["", "weight", "measure"].map(str::to_owned).to_vec();
    Block { part: Part::Dose, body: Body::Table(Table { head, rows, below }) }
}

/// At which warmth the culture goes in, how warm and how long the pot is kept, and when it is looked at.
fn hold(ask: &CardAsk<'_>) -> Block {
    let (design, answer) = (ask.scenario.design, ask.answer);
    let verdict = &answer.verdict;
    let ticks = plan_of(design, &answer.facts, verdict.stop_h, verdict.hygiene.check);
    let mut all = Vec::new();
    for tick in &ticks {
        let words = clock::what(tick);
        let (lead, words) = match &tick.what {
            What::CultureIn => {
                (String::new(), format!("{words}, at {}", warmth(answer.facts.culture_in_c, 0)))
            }
            What::Hold => {
                let set_c = design.hold().map_or(f64::NAN, |hold| hold.set_c);
                (String::new(), format!("{words}, at {}", warmth_plain(set_c)))
            }
            What::Look(_) => (String::new(), words),
            What::Stop => (hours(tick.at_h), words),
            _ => continue,
        };
        all.push(Line { lead, words: format!("{words}."), source: String::new() });
    }
    Block { part: Part::Hold, body: Body::Lines(all) }
}

/// Steps in which the hours are told, h: up to a day, and after it. Source: assumed, so that a page holds three days.
const EVERY: (f64, f64) = (4.0, 12.0);

/// What the pot is like as the hours go by; nothing without a forecast.
fn by_hour(ask: &CardAsk<'_>) -> Option<Block> {
    let f = &ask.answer.forecast;
    let words = potset_forecast::params::shipped().ok()?.words.plain();
    let mut times = Vec::new();
    let mut at_h = 0.0;
    while at_h < f.stop_h - 0.5 {
        times.push(at_h);
        at_h += if at_h < 24.0 { EVERY.0 } else { EVERY.1 };
    }
    times.push(f.stop_h);
    let row = |t: &f64| {
        let ph = f.value(&f.ph, *t);
        let (warm, _) = f.textures(*t)?;
        let tang = sensory::tang(f.value(&f.undissociated, *t), &words).word();
        let tastes = if ph > ACID_LINE_PH { "not sour yet" } else { tang };
        let after = if *t > 0.0 { hours(*t) } else { "the start".to_owned() };
        Some(vec![after, warm.word.word().to_owned(), tastes.to_owned(), fixed(ph, 1)])
    };
    let rows: Vec<Vec<String>> = times.iter().filter_map(row).collect();
    let head = ["after", "in the warm pot it", "it tastes", "pH"].map(str::to_owned).to_vec();
    let below =
        if lost(ask.answer) { vec![Line::plain("This pot is not to be tasted.")] } else { Vec::new() };
    (!rows.is_empty()).then_some(Block { part: Part::Hours, body: Body::Table(Table { head, rows, below }) })
}

/// The mishaps; behind the first, when this pot is thrown away.
fn went_wrong(ask: &CardAsk<'_>) -> Block {
    let check = ask.answer.verdict.hygiene.check.as_ref().map(|check| format!("{}.", hygiene::check(check)));
    let souring = ask.answer.facts.hygiene.souring;
    let limit = check.or_else(|| cautions::souring(souring)).unwrap_or_default();
    let lines = mishaps().iter().enumerate().map(|(i, mishap)| {
        let away = if mishap.throw_away { " Throw it away." } else { "" };
        let limit = if i == 0 { format!(" {limit}") } else { String::new() };
        Line {
            lead: mishap.see.clone(),
            words: format!("{}.{away}{limit} {}.", mishap.why, mishap.next),
            source: mishap.from.line(),
        }
    });
    Block { part: Part::Mishaps, body: Body::Lines(lines.collect()) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_mishaps_are_five_and_what_is_thrown_away_comes_first() {
        let all: Vec<Mishap> = lexicon::options().from_str(TEXT).unwrap();
        assert_eq!(all.len(), 5);
        assert!(all.is_sorted_by_key(|mishap| !mishap.throw_away));
        assert!(all.iter().all(|m| m.see.split(' ').count() <= 14 && !m.why.ends_with('.')));
    }
}
