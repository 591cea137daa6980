//! The numbered steps: the plan of the pot by the clock, what goes in between, and how one knows that a step is done.
//!
//! The signs by which a step is known to be done are common practice of kitchens, unless a word says otherwise.

use super::{CardAsk, Said, StepLine, lost};
use crate::clock;
use potset_base::measures::whole::weight;
use potset_base::units::said::{warmth, warmth_plain};
use potset_base::words::{TextureWord, lower};
use potset_doc::Design;
use potset_doc::design::{AddedWhen, GoesIn, SweetWhen};
use potset_doc::edit::LineKind;
use potset_doc::kitchen::PhBy;
use potset_doc::pantry::{EntryKind, Pantry, Warmer, Warming};
use potset_doc::steps::Step;
use potset_make::clock::{Tick, What, plan_of};

/// Steps under way.
struct Steps<'a> {
    ask: &'a CardAsk<'a>,
    lines: Vec<StepLine>,
}

/// All steps of a design, in the order of time; without a forecast there is no plan, and so none.
pub fn steps(ask: &CardAsk<'_>) -> Vec<StepLine> {
    let (answer, design) = (ask.answer, ask.scenario.design);
    if answer.forecast.t.is_empty() {
        return Vec::new();
    }
    let verdict = &answer.verdict;
    let ticks = plan_of(design, &answer.facts, verdict.stop_h, verdict.hygiene.check);
    let mut steps = Steps { ask, lines: Vec::new() };
    // What goes in with the base does so before any heating.
    let pours = ticks.iter().position(|tick| matches!(&tick.what, What::Make(Step::Start { .. })));
    for (i, tick) in ticks.iter().enumerate() {
        if i == pours.unwrap_or(0) {
            steps.pour(tick);
        }
        steps.tick(tick);
    }
    steps.lines
}

impl<'a> Steps<'a> {
    const fn design(&self) -> &'a Design {
        self.ask.scenario.design
    }

    const fn pantry(&self) -> &'a Pantry {
        self.ask.scenario.pantry
    }

    /// Adds a step; an empty sign is none.
    fn add(&mut self, tick: &Tick, generated: String, sign: impl Into<String>) {
        let at_h = tick.at_h;
        let when = clock::when(at_h, self.design().start(), None);
        let sign: String = sign.into();
        let said = self.said(generated);
        let sign = (!sign.is_empty()).then(|| self.said(sign));
        self.lines.push(StepLine { at_h, when, said, sign });
    }

    /// A sentence, in the maker's own words where there are some.
    fn said(&self, generated: String) -> Said {
        let own = self.design().card.own(&generated).map(str::to_owned);
        Said { own: own.is_some(), words: own.unwrap_or_else(|| generated.clone()), generated }
    }

    /// Names of what goes in, as they stand inside a sentence.
    fn names<'b>(&self, kind: EntryKind, keys: impl Iterator<Item = &'b str>) -> Vec<String> {
        keys.map(|key| lower(self.design().name_of(self.pantry(), kind, key))).collect()
    }

    /// The base into its pot, and what goes in with it.
    fn pour(&mut self, tick: &Tick) {
        let design = self.design();
        let bases = self.names(EntryKind::Base, design.bases.iter().map(|line| line.entry.as_str()));
        let sugars = design.sugars.iter().filter(|line| line.when == SweetWhen::BeforeTheCulture);
        let sugars = self.names(EntryKind::Sugar, sugars.map(|line| line.entry.as_str()));
        let cooked = design.steps.iter().any(|step| matches!(step, Step::CookPart { .. }));
        let early =
            || design.thickeners.iter().filter(move |line| line.goes_in == GoesIn::WithTheBase && !cooked);
        let rubbed = early().filter(|line| line.mixed_first).map(|line| line.entry.as_str());
        let rubbed = self.names(EntryKind::Thickener, rubbed);
        let stirred = early().filter(|line| !line.mixed_first).map(|line| line.entry.as_str());
        let stirred = self.names(EntryKind::Thickener, stirred);
        let more = self.additives(AddedWhen::WithTheBase);
        let mut words = format!("Pour {} into a clean pot", and(&bases));
        if let What::Make(step @ Step::Start { .. }) = &tick.what {
            words = format!("{words}. {}", step.words());
        }
        self.add(tick, words, "");
        if !rubbed.is_empty() && sugars.is_empty() {
            self.add(
                tick,
                format!("Rub {} smooth with a little of the base, then stir it in", and(&rubbed)),
                NO_LUMPS,
            );
        } else if !rubbed.is_empty() {
            let words = format!("Mix {} dry with {}, then whisk both in", and(&rubbed), and(&sugars));
            self.add(tick, words, NO_LUMPS);
        } else if !sugars.is_empty() {
            self.add(tick, format!("Stir in {}", and(&sugars)), "No grain is felt under the spoon");
        }
        for (names, sign) in [(stirred, NO_LUMPS), (more, "")] {
            if !names.is_empty() {
                self.add(tick, format!("Whisk in {}", and(&names)), sign);
            }
        }
    }

    fn additives(&self, when: AddedWhen) -> Vec<String> {
        let lines = self.design().additives.iter().filter(|line| line.when == when);
        self.names(EntryKind::Additive, lines.map(|line| line.entry.as_str()))
    }

    fn tick(&mut self, tick: &Tick) {
        let words = clock::what(tick);
        match &tick.what {
            // Said where the base is poured.
            What::Make(Step::Start { .. }) => {}
            What::Make(step) => self.add(tick, words, done(step)),
            What::CultureIn => self.culture(tick, &words),
            What::Hold => self.hold(tick, &words),
            What::Event(_) => self.add(tick, words, ""),
            What::Look(_) => {
                let sign = match self.ask.scenario.kitchen.ph_by {
                    PhBy::Meter => "The meter tells it, in a spoonful taken out with a clean spoon",
                    PhBy::Strips => "A strip tells it, in a spoonful taken out with a clean spoon",
                    PhBy::TasteAndLook => "A strip tells it best; a spoonful must taste clearly sour",
                };
                self.add(tick, words, sign);
            }
            What::Stop => self.stop(tick, words),
            What::Cold => {
                let c = self.design().chill().map_or(0.0, |(to_c, _)| to_c);
                self.add(tick, words, format!("A thermometer in the middle of a pot reads {}", warmth(c, 0)));
            }
            What::Strain(_) => self.add(tick, words, "Whey runs off in single drops only"),
            What::Eat | What::UseBy if lost(self.ask.answer) => {}
            What::Eat => self.add(tick, words, "It smells clean, and tastes as sour as the card says"),
            What::UseBy => self.add(tick, words, ""),
        }
    }

    /// What goes in with the culture, the culture, and into which pots.
    fn culture(&mut self, tick: &Tick, words: &str) {
        let design = self.design();
        let late = design.thickeners.iter().filter(|line| line.goes_in == GoesIn::WithTheCulture);
        let mut with = self.names(EntryKind::Thickener, late.map(|line| line.entry.as_str()));
        with.extend(self.additives(AddedWhen::WithTheCulture));
        if !with.is_empty() {
            self.add(tick, format!("Whisk in {}", and(&with)), "");
        }
        let c = self.ask.answer.facts.culture_in_c;
        if !self.design().cultures.is_empty() {
            let sign = format!("A clean thermometer reads {} before it goes in", warmth(c, 0));
            self.add(tick, format!("{words}: {}", self.doses()), sign);
        }
        let pots = &self.design().pots;
        let vessel = lower(self.design().name_of(self.pantry(), EntryKind::Vessel, &pots.vessel));
        let words = format!("Fill it into {} × {vessel}, scalded, and put the lids on", pots.count);
        self.add(tick, words, "");
    }

    /// What is weighed of each culture.
    fn doses(&self) -> String {
        let (design, pantry) = (self.design(), self.pantry());
        let lines = (0..design.cultures.len()).filter_map(|i| {
            let (said, rate) = design.said_of(LineKind::Cultures, i, pantry)?;
            Some(weight(rate * said.g_per_unit))
        });
        and(&lines.collect::<Vec<_>>())
    }

    fn hold(&mut self, tick: &Tick, words: &str) {
        let Some(hold) = self.design().hold() else { return };
        let (set_c, key) = (hold.set_c, hold.warmer.clone());
        let warmer = lower(self.design().name_of(self.pantry(), EntryKind::Warmer, &key));
        let entry = self.design().entry::<Warmer>(self.pantry(), &key);
        // What only keeps warmth has no temperature of its own: it is the pot that cools.
        if entry.is_some_and(|warmer| matches!(warmer.warming, Warming::Insulated { .. })) {
            let f = &self.ask.answer.forecast;
            let at = |h: f64| warmth(f.value(&f.temperature, h), 0);
            let stop_h = self.ask.answer.verdict.stop_h;
            let words = format!("{words}: {warmer}. It cools from {} to {} by itself", at(0.0), at(stop_h));
            self.add(tick, words, "It stays closed until it is looked at");
            return;
        }
        let sign = format!("Water in a pot beside it reads {}", warmth_plain(set_c));
        self.add(tick, format!("{words}: {warmer}, at {}", warmth_plain(set_c)), sign);
    }

    /// The end of the hold, and what is stirred in after it.
    fn stop(&mut self, tick: &Tick, words: String) {
        let sign = match self.ask.answer.verdict.texture.as_ref().map(|texture| texture.in_pot_word) {
            Some(TextureWord::Cuts | TextureWord::Stands) => {
                "It wobbles as one, and a clean spoon leaves a clean edge"
            }
            Some(TextureWord::Dollops) => "It wobbles when the pot is tipped, and tastes sour",
            _ => "It tastes sour and smells clean; it gets thicker in the cold",
        };
        self.add(tick, words, if lost(self.ask.answer) { "" } else { sign });
        let sweet = self.design().sugars.iter().filter(|line| line.when == SweetWhen::AfterTheHold);
        let mut late = self.names(EntryKind::Sugar, sweet.map(|line| line.entry.as_str()));
        late.extend(self.additives(AddedWhen::AfterTheHold));
        if !late.is_empty() {
            self.add(tick, format!("Fold in {}", and(&late)), "");
        }
    }
}

/// A powder is in.
const NO_LUMPS: &str = "No lumps stay on the spoon";

/// How one knows that a step before the culture is done; empty where the clock alone tells it.
fn done(step: &Step) -> String {
    match step {
        Step::Warm { to_c, .. } => format!("Stirred, a thermometer reads {}", warmth(*to_c, 0)),
        Step::HeatTreat { to_c, .. } => {
            format!("A thermometer in the middle reads {} or more all that time", warmth(*to_c, 0))
        }
        Step::CookPart { .. } => "It is thick and glossy, and no longer tastes of raw flour".to_owned(),
        Step::Cool { to_c, .. } => format!("Stirred, a thermometer reads {} or less", warmth(*to_c, 0)),
        _ => String::new(),
    }
}

/// Names in a sentence: "a", "a and b", "a, b and c".
fn and(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [all @ .., last] => format!("{} and {last}", all.join(", ")),
    }
}
