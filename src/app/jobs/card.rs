//! The design on the kitchen table: what each page of the Card view shows, and its files.

use std::sync::Arc;

use super::{At, Job, Key, Step, fault};
use crate::book::UnderWay;
use crate::card::{
    CardPage, CardTold, CardWish, ClockTold, PacketTold, PacketsTold, PagePicture, PlanLine, ScaleKind,
    ScaleTold, Told, WarmTold,
};
use crate::command::{CardCommand, Command};
use potset_base::Note;
use potset_base::clock::{Moment, Zone};
use potset_doc::design::Pots;
use potset_doc::edit::LineKind;
use potset_doc::lines::{CultureLine, Packet};
use potset_doc::pantry::{Culture, Vessel, Warmer};
use potset_doc::steps::Way;
use potset_doc::{Design, Edit};
use potset_doubt::ready_times;
use potset_doubt::spread::Spread;
use potset_forecast::scenario::{OwnedScenario, Scenario};
use potset_forecast::timeline::boiling_point;
use potset_judge::answer::{Answer, answer};
use potset_make::clock::{InWarmer, clashes, culture_in, shift};
use potset_make::packet::{SplitAsk, hours_later, splits};
use potset_make::scale::{To, scaled};
use potset_make::stock::stock;
use potset_make::warm_up::{Bathed, Can, bath, by_way, shares, unshaken_s};
use potset_paper::{pages, text};
use potset_report::batch::begun;
use potset_report::card::{Body, CardAsk, Sheet, plan, sheet};
use potset_report::spread::watch;
use potset_report::{clock as say, packet as say_packet, scale as say_scale};
use potset_store::library::Library;

/// Pixels a point of the preview.
const SCALE: f32 = 1.5;

/// Heat that still water gives to a tin, W/(m² K). Source: published, textbook ranges for free convection in water, 50 to 1000.
const STILL_WATER: f64 = 200.0;

/// A question of the Card view.
#[derive(Clone, Debug)]
pub struct CardQuestion {
    pub number: u64,
    pub scenario: OwnedScenario,
    /// The possible pots of just this question, if they are known.
    pub spread: Option<Arc<Spread>>,
    pub page: CardPage,
    pub wish: CardWish,
    /// Where its versions are, if it is a house recipe that is saved as it is.
    pub recipe: Option<(Library, String)>,
    pub zone: Zone,
    pub now: Option<Moment>,
    pub running: Vec<UnderWay>,
    /// Designs that stand beside it: they may want the same warmer.
    pub others: Vec<Arc<Design>>,
}

/// Works out what a page shows.
pub struct CardJob(pub CardQuestion);

impl Job for CardJob {
    fn key(&self) -> Key {
        Key::Card
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let told = self.0.told();
        Step::done(CardCommand::Told(self.0.number, Arc::new(told)).into())
    }

    fn fault(&self) -> Command {
        CardCommand::Told(self.0.number, Arc::new(Err(broken()))).into()
    }
}

impl CardQuestion {
    fn scenario(&self) -> Scenario<'_> {
        self.scenario.scenario()
    }

    fn told(&self) -> Result<Told, Note> {
        let answer = self.answered()?;
        Ok(match self.page {
            CardPage::Card => Told::Card(self.card()?),
            CardPage::Scale => Told::Scale(self.scale()?),
            CardPage::Clock => Told::Clock(self.clock(&answer)?),
            CardPage::Packet => Told::Packet(self.packets()),
            CardPage::WarmUp => Told::WarmUp(self.warm_up(&answer)),
        })
    }

    pub(super) fn answered(&self) -> Result<Answer, Note> {
        let mut answer = answer(&self.scenario());
        if answer.errors.is_empty() { Ok(answer) } else { Err(answer.errors.remove(0)) }
    }

    /// The possible pots: those of the bench, else worked out here.
    fn spread(&self) -> Result<Arc<Spread>, Note> {
        if let Some(spread) = &self.spread {
            return Ok(Arc::clone(spread));
        }
        let made = ready_times::spread(&self.scenario());
        made.map(Arc::new).map_err(|notes| notes.into_iter().next().unwrap_or_else(broken))
    }

    /// The card or the leaflet.
    pub(super) fn sheet(&self, make: fn(&CardAsk<'_>) -> Sheet) -> Result<Sheet, Note> {
        let (answer, spread) = (self.answered()?, self.spread()?);
        let watch = watch(&spread, &answer.verdict);
        let version = self.recipe.as_ref().and_then(|(library, file)| library.versions(file).pop());
        let version = version.map(|version| version.number);
        Ok(make(&CardAsk {
            scenario: &self.scenario(),
            answer: &answer,
            ready: Some(&spread.ready),
            watch: watch.as_deref(),
            version,
        }))
    }

    fn card(&self) -> Result<CardTold, Note> {
        let sheet = self.sheet(sheet)?;
        let steps = sheet.blocks.iter().find_map(|block| match &block.body {
            Body::Steps(steps) => Some(steps.clone()),
            Body::Lines(_) | Body::Table(_) | Body::Room(_) => None,
        });
        let pages: Result<Vec<PagePicture>, Note> = pages(&sheet, self.wish.size)
            .iter()
            .map(|page| page.pixels(SCALE).map(|(size, rgba)| PagePicture { size, rgba }))
            .collect();
        Ok(CardTold {
            pages: pages?,
            text: text(&sheet),
            steps: steps.unwrap_or_default(),
            outdated: sheet.outdated,
        })
    }

    /// So many of what is asked for.
    fn to(&self) -> Result<To, Note> {
        let design = self.scenario.design.as_ref();
        let count = self.wish.count;
        let whole = |count: f64| {
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held inside of u32")]
            let whole = count.round().clamp(0.0, 1e6) as u32;
            whole
        };
        Ok(match self.wish.scale {
            ScaleKind::Jars => To::Jars(whole(count)),
            ScaleKind::Packs => To::Packs(0, count.round()),
            ScaleKind::Servings => To::Servings(count),
            ScaleKind::Litres => To::Litres(count),
            ScaleKind::Packet => {
                let line = design.cultures.first();
                let none = || {
                    Note::error(
                        "culture",
                        "The design has no culture",
                        "Add one on the bench, then scale to its packet",
                    )
                };
                let line = line.ok_or_else(none)?;
                let packet = line.packet.ok_or_else(|| {
                    let mend = "Say what the packet weighs and makes, on the bench or in My pot";
                    Note::error("packet", "What the packet makes is not known", mend)
                })?;
                To::Litres(packet.litres / dosed(line)?)
            }
            ScaleKind::Warmer => {
                let hold = design.hold();
                let warmer = hold.and_then(|h| design.entry::<Warmer>(&self.scenario.pantry, &h.warmer));
                To::Litres(warmer.and_then(|w| w.holds_litres).ok_or_else(|| {
                    let mend = "Give its litres on its page in the Pantry, or scale to litres";
                    Note::error("warmer", "What the warmer holds is not known", mend)
                })?)
            }
        })
    }

    fn scale(&self) -> Result<ScaleTold, Note> {
        let to = self.to()?;
        let scaled = scaled(&self.scenario(), to)?;
        let (old, new) = (self.scenario.design.as_ref(), &scaled.design);
        let pantry = &self.scenario.pantry;
        let mut lines = Vec::new();
        for kind in LineKind::ALL {
            for (i, line) in old.lines(kind).iter().enumerate() {
                let said = |design: &Design| {
                    let said = design.said_of(kind, i, pantry);
                    said.map_or_else(String::new, |(said, value)| say_scale::amount(&said, value))
                };
                let name = old.name_of(pantry, kind.kind(), line.entry()).to_owned();
                lines.push([name, said(old), said(new)]);
            }
        }
        let vessel = new.entry::<Vessel>(pantry, &new.pots.vessel);
        Ok(ScaleTold {
            to,
            times: scaled.times,
            lines,
            rounded: scaled.rounded.iter().map(say_scale::rounded).collect(),
            vessels: vec![say_scale::vessels(new.pots.count, vessel, new.litres())],
            edit: edit_of(old, new),
        })
    }

    pub(super) fn clock(&self, answer: &Answer) -> Result<ClockTold, Note> {
        let scenario = self.scenario();
        let design = scenario.design;
        let v = &answer.verdict;
        let ask = CardAsk { scenario: &scenario, answer, ready: None, watch: None, version: None };
        let steps = plan(&ask);
        let planned = culture_in(design, None, Some(&self.zone));
        let over = |at: &Moment| self.now.is_some_and(|now| shift(*at, v.stop_h, Some(&self.zone)) < now);
        let past = planned.filter(over).map(Moment::date_and_time);
        let begins = planned.filter(|at| !over(at));
        let lines: Vec<PlanLine> = steps
            .into_iter()
            .map(|(at_h, what)| PlanLine { at_h, when: say::when(at_h, begins, Some(&self.zone)), what })
            .collect();
        let before = lines.first().map_or(0.0, |line| -line.at_h);
        // Without a time of its own it is begun now.
        let from = begins.or_else(|| self.now.map(|now| shift(now, before, Some(&self.zone))));
        let pot = Box::new(begun(&ask, from, &self.zone));
        Ok(ClockTold { lines, past, clashes: self.clashes(&scenario, from), pot })
    }

    /// The pots that want this one's warmer at the same time.
    fn clashes(&self, scenario: &Scenario<'_>, from: Option<Moment>) -> Vec<String> {
        let zone = Some(&self.zone);
        let mut pots: Vec<InWarmer> =
            from.and_then(|from| InWarmer::of(scenario, from, zone)).into_iter().collect();
        if pots.is_empty() {
            return Vec::new();
        }
        pots.extend(self.others.iter().filter_map(|design| {
            let scenario = self.scenario.of(design);
            InWarmer::of(&scenario, culture_in(design, None, zone)?, zone)
        }));
        pots.extend(self.running.iter().filter_map(|pot| {
            let batch = &pot.batch;
            let from = batch.start()?.in_zone(&batch.clock(), &self.zone);
            let design = Arc::new(batch.design.clone());
            let own = InWarmer::of(&self.scenario.of(&design), from, zone)?;
            let to = batch.stopped_h.map_or(own.to, |at_h| shift(from, at_h, zone));
            Some(InWarmer { name: format!("{} (under way)", batch.name), to, ..own })
        }));
        clashes(&pots).into_iter().map(|clash| say::clash(&pots, clash)).collect()
    }

    fn packets(&self) -> PacketsTold {
        let design = self.scenario.design.as_ref();
        let lines = (0..design.cultures.len()).map(|i| self.packet(design, i));
        let laws = self.scenario().run().ok().map(|run| run.mix.laws);
        let kitchen = &self.scenario.kitchen;
        let stock = self.now.zip(laws).map(|(now, laws)| stock(&kitchen.packets, now, &laws));
        PacketsTold { lines: lines.collect(), stock: stock.unwrap_or_default() }
    }

    /// The packet of a line and the pot, as a question to the scale.
    pub(super) fn split_ask(&self, design: &Design, i: usize) -> Result<(String, SplitAsk), Note> {
        let line = design.cultures.get(i).ok_or_else(broken)?;
        let entry = design.entry::<Culture>(&self.scenario.pantry, &line.entry);
        let name = entry.map_or_else(|| line.entry.clone(), |e| e.name.clone());
        let packet = line.packet.ok_or_else(|| {
            let mend = "Say above what the packet weighs and how many litres it makes";
            Note::error(name.as_str(), format!("What a packet of {name} holds is not known"), mend)
        })?;
        // The pot is to get the dose of the design, be it what the packet says or not.
        let ask = SplitAsk {
            packet: Packet { litres: packet.litres / dosed(line)?, ..packet },
            pot_litres: design.litres(),
            error_g: self.scenario.kitchen.weighing_error_g(),
        };
        Ok((name, ask))
    }

    fn packet(&self, design: &Design, i: usize) -> Result<PacketTold, Note> {
        let (name, ask) = self.split_ask(design, i)?;
        let all = splits(&ask)?;
        let ways = all.iter().map(|split| {
            (say_packet::way(split.way), say_packet::steps(split, &ask), say_packet::error(split))
        });
        let scenario = self.scenario();
        let later = |times: f64| hours_later(&scenario, i, times);
        Ok(PacketTold {
            name,
            about: say_packet::about(&ask),
            dose_g: ask.dose(),
            mixed: all.first().is_some_and(|split| !split.mixes.is_empty()),
            ways: ways.collect(),
            time: say_packet::time(later(0.5), later(2.0)),
        })
    }

    fn warm_up(&self, answer: &Answer) -> WarmTold {
        let scenario = self.scenario();
        let CardWish { from_c, to_c, bath_kg, bath_c, tin_cm, .. } = self.wish;
        let up = to_c > from_c;
        let ways = Way::ALL.into_iter().filter(|way| {
            let warms = matches!(way, Way::Pan | Way::Bath | Way::TapWater);
            warms == up
        });
        let ways = ways
            .map(|way| {
                let told = by_way(&scenario, from_c, to_c, way);
                let why =
                    |notes: Vec<Note>| notes.first().map_or_else(String::new, |note| note.title.clone());
                (way.words(), told.map_err(why))
            })
            .collect();
        let kitchen = &self.scenario.kitchen;
        let content = &answer.facts.content;
        let base = Bathed { kg: content.early_kg, shares: &shares(content), from_c };
        let can = Can { wide_m: tin_cm.0 / 100.0, high_m: tin_cm.1 / 100.0 };
        WarmTold {
            ways,
            boils_c: boiling_point(kitchen.altitude_m),
            bath: bath(bath_kg, bath_c, kitchen.cold_tap_c, kitchen.altitude_m, &base),
            unshaken_s: unshaken_s(can, from_c, to_c, bath_c, STILL_WATER),
        }
    }
}

/// The dose of a culture line, × packet.
fn dosed(line: &CultureLine) -> Result<f64, Note> {
    let none = || Note::error("dose", "The dose of the culture is nothing", "Give a dose on the bench first");
    Some(line.rate).filter(|rate| *rate > 0.0).ok_or_else(none)
}

/// What makes one design of another amount the other, as one step of undo.
fn edit_of(old: &Design, new: &Design) -> Edit {
    let mut edits = Vec::new();
    for (i, (a, b)) in old.bases.iter().zip(&new.bases).enumerate() {
        if a.litres != b.litres {
            edits.push(Edit::BaseLitres(i, b.litres));
        }
    }
    for (i, (a, b)) in old.sugars.iter().zip(&new.sugars).enumerate() {
        if a.g_per_l != b.g_per_l {
            edits.push(Edit::SugarDose(i, b.g_per_l));
        }
    }
    for (i, (a, b)) in old.thickeners.iter().zip(&new.thickeners).enumerate() {
        if a.g_per_l != b.g_per_l {
            edits.push(Edit::ThickenerDose(i, b.g_per_l));
        }
    }
    let Pots { count, .. } = new.pots;
    if count != old.pots.count {
        edits.push(Edit::PotCount(count));
    }
    Edit::Together("Scale".to_owned(), edits)
}

pub(super) fn broken() -> Note {
    fault("Card", "Making the card", "Undo the last change")
}
