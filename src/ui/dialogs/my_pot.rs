//! *My pot*: four questions about what is at hand, each of which may be left as it is; then the bench.

use egui::accesskit::Role;
use egui::{IdSalt, RichText, ScrollArea, TextEdit, Ui, WidgetInfo};

use super::window;
use potset_app::command::{FileCommand, PantryCommand, WindowCommand};
use potset_app::{Action, Command, State};
use potset_base::Note;
use potset_base::measures::Measure;
use potset_base::number;
use potset_base::units::{Amounts, WARMTH};
use potset_catalogue::label::packed;
use potset_catalogue::my_pot::{Answers, BaseAnswer, CultureAnswer};
use potset_doc::Kitchen;
use potset_doc::design::{BaseLine, Clock, CultureLine, LabelFigures};
use potset_doc::kitchen::FlaskReading;
use potset_doc::lines::{Pack, Packet};
use potset_doc::pantry::{Base, BaseKind, Culture, Entry, Warmer, Warming};
use potset_ui_kit::widgets::number::Number;
use potset_ui_kit::widgets::picker::picker;
use potset_ui_kit::widgets::tick::tick;
use potset_ui_kit::{fonts, tokens};

/// Width of a number to type, points.
const NUMBER: f32 = 66.0;

/// What was answered so far.
pub struct MyPot {
    base: String,
    pack: Option<Pack>,
    amount: String,
    label: String,
    culture: Option<String>,
    packet: Option<Packet>,
    used: String,
    warmer: String,
    /// A pot of water in a warmer that only keeps its warmth; nothing until it was typed.
    flask: Option<FlaskReading>,
    ready_by: bool,
    time: String,
}

impl Default for MyPot {
    /// As usual: what a question that is skipped leaves.
    fn default() -> Self {
        Self {
            base: "coconut_milk_tinned".to_owned(),
            pack: None,
            amount: "2 tins".to_owned(),
            label: String::new(),
            culture: None,
            packet: None,
            used: String::new(),
            warmer: "warm_cupboard".to_owned(),
            flask: None,
            ready_by: false,
            time: String::new(),
        }
    }
}

impl MyPot {
    /// Draws the window.
    pub fn show(&mut self, ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
        let mut done = None;
        let height = ui.ctx().content_rect().height() - 190.0;
        let closed = window(ui, "My pot", 600.0, |ui| {
            quiet(ui, "Four questions. Leave any of them as it is: you can change everything on the bench.");
            ScrollArea::vertical().max_height(height).show(ui, |ui| {
                // A number is as wide while it is typed: what stands after it stays under the pointer.
                ui.spacing_mut().interact_size.x = NUMBER;
                self.base(ui, state, out);
                self.culture(ui, state);
                self.warmer(ui, state);
                self.clock(ui);
                ui.add_space(8.0);
                let sugar =
                    "A sugar for the culture and a thickener are put in as usual. Change both on the bench.";
                quiet(ui, sugar);
            });
            ui.add_space(8.0);
            ui.horizontal(|ui| {
                if ui.button("Make my pot").clicked() {
                    done = Some(true);
                }
                if ui.button("Skip").clicked() {
                    done = Some(false);
                }
            });
        });
        // A press beside the window must not throw the answers away.
        let closed = closed && ui.input(|i| i.key_pressed(egui::Key::Escape));
        match done.or(closed.then_some(false)) {
            Some(true) => match self.answers(state) {
                Ok((answers, kitchen)) => {
                    out.push(WindowCommand::Kitchen(kitchen).into());
                    out.push(FileCommand::MyPot(Box::new(answers)).into());
                }
                Err(note) => out.push(WindowCommand::ShowRefusal(note).into()),
            },
            Some(false) => out.push(Command::Do(Action::MyPot)),
            None => {}
        }
    }

    /// What the label that was typed says, once it is read.
    fn read<'a>(&self, state: &'a State) -> Option<&'a (String, LabelFigures)> {
        let read = state.shelves.label.read.as_ref().filter(|_| !self.label.trim().is_empty())?;
        read.1.line.as_ref()
    }

    fn base(&mut self, ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
        heading(ui, "1  What is in the tin or carton?");
        let bases: Vec<&Base> = state.pantry.bases.iter().filter(|b| b.kind != BaseKind::Water).collect();
        if let Some((key, _)) = self.read(state) {
            self.base.clone_from(key);
        }
        ui.horizontal(|ui| {
            if let Some(key) = choose(ui, "What is in it", &self.base, &bases) {
                self.base = key;
                self.pack = None;
            }
            let entry = bases.iter().copied().find(|b| b.key == self.base);
            let usual = entry.and_then(|e| e.packs.first().copied());
            let pack = self.pack.or(usual).unwrap_or(Pack { of: Measure::Jar, ml: 500.0 });
            let names = Measure::PACKS.map(|m| m.word(false));
            ui.label("One");
            if let Some(i) =
                picker(ui, IdSalt::new("my pack"), "What it comes in", pack.of.word(false), &names)
            {
                self.pack = Some(Pack { of: Measure::PACKS[i], ..pack });
            }
            ui.label("holds");
            if let Some(ml) = typed(ui, "What one of it holds", "mL", pack.ml, 10.0..=50_000.0) {
                self.pack = Some(Pack { ml, ..pack });
            }
        });
        ui.horizontal(|ui| {
            ui.label("How much goes in");
            let hint = format!("2 tins, or {}", example(state));
            text(ui, "How much goes in", &mut self.amount, &hint, 150.0);
        });
        quiet(ui, "Its label, if you have it: type or paste the words, and the fat is read off them.");
        let before = self.label.clone();
        let field = TextEdit::multiline(&mut self.label)
            .desired_rows(2)
            .desired_width(f32::INFINITY)
            .hint_text("Coconut milk. Per 100 g: fat 17 g, carbohydrate 3.1 g …");
        named(&ui.add(field), Role::MultilineTextInput, "Words of its label", &before);
        if self.label != before {
            out.push(PantryCommand::LabelText(self.label.clone()).into());
        }
        if !self.label.trim().is_empty() {
            let said = match self.read(state) {
                Some((key, figures)) => {
                    let name = state.pantry.get::<Base>(key).map_or(key.as_str(), |b| b.name.as_str());
                    let fat = figures.fat.map_or_else(
                        || ". No fat was read: type its figure on the bench".to_owned(),
                        |fat| format!(", fat {}{}g/100 g", number::plain(fat), number::NBSP),
                    );
                    format!("Read: {name}{fat}")
                }
                None => "Nothing is read off it yet".to_owned(),
            };
            quiet(ui, &said);
        }
    }

    fn culture(&mut self, ui: &mut Ui, state: &State) {
        heading(ui, "2  What does the packet of culture say?");
        let cultures: Vec<&Culture> = state.pantry.cultures.iter().filter(|c| c.form.dry()).collect();
        let current = self.culture_key(state);
        let entry = cultures.iter().copied().find(|c| c.key == current);
        ui.horizontal(|ui| {
            if let Some(key) = choose(ui, "Culture in the packet", &current, &cultures) {
                self.culture = Some(key);
            }
        });
        let usual = Packet { grams: entry.map_or(0.4, |e| e.grams_per_litre.value), litres: 1.0 };
        let packet = self.packet.unwrap_or(usual);
        ui.horizontal(|ui| {
            ui.label("It weighs");
            if let Some(grams) = typed(ui, "What the packet weighs", "g", packet.grams, 0.001..=10_000.0) {
                self.packet = Some(Packet { grams, ..packet });
            }
            ui.label("and makes");
            if let Some(litres) = typed(ui, "Litres that it makes", "L", packet.litres, 0.01..=10_000.0) {
                self.packet = Some(Packet { litres, ..packet });
            }
            ui.label("You use");
            text(ui, "How much of it you use", &mut self.used, "as it says; a tenth; 1/8 tsp", 180.0);
        });
    }

    fn warmer(&mut self, ui: &mut Ui, state: &State) {
        heading(ui, "3  What keeps it warm?");
        let warmers: Vec<&Warmer> = state.pantry.warmers.iter().collect();
        ui.horizontal(|ui| {
            if let Some(key) = choose(ui, "What keeps it warm", &self.warmer, &warmers) {
                self.warmer = key;
                self.flask = None;
            }
        });
        let entry = warmers.iter().find(|w| w.key == self.warmer);
        if entry.is_some_and(|w| matches!(w.warming, Warming::Insulated { .. })) {
            self.flask(ui, state);
        }
    }

    /// One reading of a pot of water, which tells how fast it loses its warmth.
    fn flask(&mut self, ui: &mut Ui, state: &State) {
        quiet(ui, "It cools by itself. A pot of water in it tells how fast.");
        let known = state.kitchen.flask_readings(&self.warmer).next().map(|(_, reading)| reading.clone());
        let reading = self.flask.clone().or(known).unwrap_or_else(|| FlaskReading {
            key: self.warmer.clone(),
            filled_c: 43.0,
            after_h: 12.0,
            reads_c: 36.0,
            room_c: state.kitchen.room_c,
            litres: 0.8,
        });
        let mut read = self.flask.is_some();
        if tick(ui, &mut read, "I read a pot of water in it").changed() {
            self.flask = read.then(|| reading.clone());
        }
        if !read {
            return;
        }
        let mut new = reading.clone();
        ui.horizontal(|ui| {
            ui.label("Filled at");
            new.filled_c = typed(ui, "Filled at", WARMTH, new.filled_c, 20.0..=100.0).unwrap_or(new.filled_c);
            ui.label("after");
            new.after_h =
                typed(ui, "Hours until it was read", "h", new.after_h, 0.5..=72.0).unwrap_or(new.after_h);
            ui.label("it reads");
            new.reads_c =
                typed(ui, "What it reads then", WARMTH, new.reads_c, 0.0..=100.0).unwrap_or(new.reads_c);
            ui.label("room");
            new.room_c = typed(ui, "Room at that time", WARMTH, new.room_c, 0.0..=45.0).unwrap_or(new.room_c);
        });
        ui.horizontal(|ui| {
            ui.label("Water in it");
            new.litres = typed(ui, "Water in it", "L", new.litres, 0.05..=50.0).unwrap_or(new.litres);
        });
        if new != reading {
            self.flask = Some(new);
        }
    }

    fn clock(&mut self, ui: &mut Ui) {
        heading(ui, "4  When do you start, or when is it to be ready?");
        ui.horizontal(|ui| {
            let words = ["I start at", "ready by"];
            let current = words[usize::from(self.ready_by)];
            if let Some(i) = picker(ui, IdSalt::new("my clock"), "Start or end", current, &words) {
                self.ready_by = i == 1;
            }
            text(ui, "Day and time", &mut self.time, "8 in the evening, or leave it", 240.0);
        });
    }

    /// The culture that was chosen, or the usual one of the base.
    fn culture_key(&self, state: &State) -> String {
        let dairy = state.pantry.get::<Base>(&self.base).is_some_and(|b| b.kind == BaseKind::Dairy);
        let usual = if dairy { "dairy_pair" } else { "nondairy_adjuncts" };
        self.culture.clone().unwrap_or_else(|| usual.to_owned())
    }

    /// The answers, read.
    fn answers(&self, state: &State) -> Result<(Answers, Kitchen), Note> {
        let set = state.kitchen.spoons;
        let entry = state.pantry.get::<Base>(&self.base);
        let line = BaseLine { pack: self.pack, ..BaseLine::new(self.base.clone(), 1.0) };
        let by = line.pack_of(entry).map_or(Measure::Litre, |pack| pack.of);
        let line = BaseLine { measure: by, ..line };
        let litres = line.said(entry, set).read("How much goes in", &self.amount)?;
        if !(0.01..=1000.0).contains(&litres) {
            let mend = format!("Say how much goes in: 2 tins, or {}", example(state));
            return Err(Note::error("How much goes in", "That is no amount for a pot", mend));
        }
        let label = self.read(state).map_or_else(LabelFigures::default, |(_, figures)| figures.clone());
        let said = state.shelves.label.read.as_ref().filter(|_| self.read(state).is_some());
        let packed = said.map(|said| packed(&said.0, &said.1));
        let base =
            BaseAnswer { entry: self.base.clone(), label, packed, pack: self.pack, litres, measure: by };
        let key = self.culture_key(state);
        let entry = state.pantry.get::<Culture>(&key);
        let culture =
            CultureLine { packet: self.packet, measure: Measure::Packet, ..CultureLine::new(key, 1.0) };
        let rate = match self.used.trim() {
            "" => 1.0,
            used => culture.said(entry, litres, set).read("How much of it you use", used)?,
        };
        let by = if self.packet.is_some() { Measure::Packet } else { Measure::Gram };
        let culture = CultureAnswer { entry: culture.entry, packet: self.packet, rate, measure: by };
        let time = self.time.trim();
        let moment = if time.is_empty() { None } else { Some(state.moment(time)) };
        let clock = match (moment, self.ready_by) {
            (None, _) => Clock::Open,
            (Some(Some(moment)), true) => Clock::ReadyBy(moment.text()),
            (Some(Some(moment)), false) => Clock::StartsAt(moment.text()),
            (Some(None), _) => {
                let title = format!("I don't know the time “{time}”");
                let mend =
                    "Type it like 8 in the evening, tomorrow 18:30 or 2026-11-26 18:30, or leave it empty";
                return Err(Note::error("Day and time", title, mend));
            }
        };
        let warmer = Some(self.warmer.clone());
        let mut kitchen = state.kitchen.clone();
        if let Some(reading) = &self.flask {
            if let Some(fault) = reading.fault(0, kitchen.thermometer_c) {
                return Err(Note { field: "What it reads then".to_owned(), ..fault });
            }
            kitchen.set_flask_readings(&self.warmer, [reading.clone()]);
        }
        Ok((Answers { base: Some(base), culture: Some(culture), warmer, clock }, kitchen))
    }
}

/// An amount of a base as this kitchen says it.
const fn example(state: &State) -> &'static str {
    match state.kitchen.amounts {
        Amounts::Metric => "800 mL",
        Amounts::UsCustomary => "3 1/2 cups",
    }
}

fn heading(ui: &mut Ui, words: &str) {
    ui.add_space(10.0);
    let t = tokens::of(ui);
    ui.label(RichText::new(words).font(fonts::semibold(tokens::BODY + 1.0)).color(t.ink));
}

fn quiet(ui: &mut Ui, words: &str) {
    let t = tokens::of(ui);
    potset_ui_kit::widgets::wrapped(ui, words, fonts::regular(tokens::SMALL + 1.0), t.ink_soft);
}

/// A picker of entries by their names; the key of another one that was chosen.
fn choose<T: Entry>(ui: &mut Ui, name: &str, current: &str, all: &[&T]) -> Option<String> {
    let names: Vec<&str> = all.iter().map(|entry| entry.name()).collect();
    let shown = all.iter().find(|entry| entry.key() == current).map_or(current, |entry| entry.name());
    let picked = picker(ui, IdSalt::new(("my", name)), name, shown, &names)?;
    all.get(picked).map(|entry| entry.key().to_owned())
}

fn typed(
    ui: &mut Ui,
    name: &str,
    unit: &str,
    value: f64,
    range: std::ops::RangeInclusive<f64>,
) -> Option<f64> {
    Number { name, unit, value, range, decimals: 3, speed: 0.01 * value.max(0.1), hover: "" }.show(ui).value
}

/// A field of words that is read when the pot is made.
fn text(ui: &mut Ui, name: &str, words: &mut String, hint: &str, width: f32) {
    let before = words.clone();
    let response = ui.add(TextEdit::singleline(words).desired_width(width).hint_text(hint).id_salt(name));
    named(&response, Role::TextInput, name, &before);
}

fn named(response: &egui::Response, role: Role, name: &str, value: &str) {
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(role, true, name);
        info.current_text_value = Some(value.to_owned());
        info
    });
}
