//! A base made from starting ingredients: how it is made at the left, what comes of it at the right.

use egui::{Align, Button, IdSalt, Rect, Sense, Ui, vec2};

use super::halves;
use potset_app::command::PantryCommand;
use potset_app::shelves::PantryPage;
use potset_app::{Command, State};
use potset_base::measures::whole::{volume, weight};
use potset_base::units::prose::prose;
use potset_base::units::{self, Amounts};
use potset_base::{Note, number};
use potset_catalogue::making::{MadeBase, Making, as_entry, kept, make, nearest};
use potset_doc::fields;
use potset_doc::own::OwnEdit;
use potset_doc::pantry::{Base, Raw};
use potset_ui_kit::widgets::card::{Card, nothing};
use potset_ui_kit::widgets::lever::Lever;
use potset_ui_kit::widgets::picker;
use potset_ui_kit::widgets::tick::tick;
use potset_ui_kit::widgets::{line_in, pair, wrapped};
use potset_ui_kit::{fonts, tokens};

const LEFT: f32 = 340.0;

/// What the page keeps between frames.
#[derive(Default)]
pub struct MakingState {
    /// What it was worked out for.
    of: Option<(Making, u64)>,
    made: Option<Result<MadeBase, Note>>,
}

/// Draws the page.
pub fn show(ui: &mut Ui, view: &mut MakingState, state: &State, out: &mut Vec<Command>) {
    let making = &state.shelves.making;
    let of = (making.clone(), state.shelves.number);
    if view.of.as_ref() != Some(&of) {
        view.made = making.raw(&state.pantry).map(|_| make(making, &state.pantry));
        view.of = Some(of);
    }
    let Some(raw) = making.raw(&state.pantry) else {
        let frame = super::panel(ui);
        egui::CentralPanel::default().frame(frame).show(ui, |ui| empty(ui, out));
        return;
    };
    let mut came = Vec::new();
    halves(
        ui,
        ("how it is made", LEFT),
        |ui| how(ui, making, raw, state, out),
        |ui| match &view.made {
            Some(Ok(made)) => result(ui, made, raw, state, &mut came),
            Some(Err(note)) => {
                wrapped(ui, &fields::line(note), fonts::semibold(tokens::BODY), tokens::of(ui).stop);
            }
            None => {}
        },
    );
    out.append(&mut came);
}

fn empty(ui: &mut Ui, out: &mut Vec<Command>) {
    let text = "A starting ingredient is what a base is made from at home: nuts, grains, beans, coconut flesh. Import a \
                file that another maker shared.";
    nothing(ui, "The pantry has no starting ingredient yet", text, |ui| {
        if ui.button("Import entries…").clicked() {
            out.push(PantryCommand::AskTakeIn.into());
        }
    });
}

fn how(ui: &mut Ui, making: &Making, raw: &Raw, state: &State, out: &mut Vec<Command>) {
    let mut new = making.clone();
    // The starting ingredient that is shown is the one that is meant, also before any was picked.
    new.raw.clone_from(&raw.key);
    let shown = new.clone();
    Card::new("How it is made").show(ui, |ui| {
        let raws = &state.pantry.raws;
        let names: Vec<&str> = raws.iter().map(|r| r.name.as_str()).collect();
        let salt = IdSalt::new("starting ingredient");
        if let Some(i) = picker::row(ui, "from", salt, "Starting ingredient", &raw.name, &names) {
            new = Making::usual(&raws[i], making.grams);
        }
        lever(ui, "As bought", "g", (making.grams, 10.0, 5000.0), None, &mut new.grams);
        let usual = Some(raw.usual_water);
        lever(ui, "Water for grinding", "g per g", (making.water, 0.5, 12.0), usual, &mut new.water);
        tick(ui, &mut new.soaked, timed("soaked first", raw.soak_h, "h"));
        tick(ui, &mut new.strained, "strained through a cloth");
        tick(ui, &mut new.boiled, timed("boiled", raw.boil_min, "min"));
    });
    if new != shown {
        out.push(PantryCommand::Making(new).into());
    }
    if !raw.handling.is_empty() {
        Card::new("Handling").show(ui, |ui| {
            wrapped(ui, &prose(&raw.handling), fonts::regular(tokens::BODY), tokens::of(ui).ink);
        });
    }
}

/// How much comes of it, L and kg.
fn made_words(litres: f64, kg: f64) -> String {
    match units::spoken().amounts {
        Amounts::Metric => format!("{} L, {} kg", number::figures(litres, 3), number::figures(kg, 3)),
        Amounts::UsCustomary => format!("{}, {}", volume(litres, 3), weight(1000.0 * kg)),
    }
}

/// "soaked first (usual 8 to 12 h)".
fn timed(words: &str, (low, high): (f64, f64), unit: &str) -> String {
    if high > 0.0 {
        format!("{words} (usual {} to {} {unit})", number::plain(low), number::plain(high))
    } else {
        format!("{words} (not usual)")
    }
}

fn lever(
    ui: &mut Ui,
    name: &str,
    unit: &str,
    (value, least, most): (f64, f64, f64),
    usual: Option<(f64, f64)>,
    to: &mut f64,
) {
    let lever = Lever {
        id_salt: IdSalt::new(("making", name)),
        name,
        of: "",
        unit,
        value,
        range: least..=most,
        usual,
        saved: None,
        reset_to: None,
        decimals: usize::from(usual.is_some()),
        step: Some(if usual.is_some() { 0.1 } else { 10.0 }),
        logarithmic: usual.is_none(),
        beside: "",
        said: None,
        hover: "",
    };
    if let Some(v) = lever.show(ui).value {
        *to = v;
    }
}

fn result(ui: &mut Ui, made: &MadeBase, raw: &Raw, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    Card::new("What you get").quiet(&made.base.name).show(ui, |ui| {
        let yields = made_words(made.litres, made.kg);
        wrapped(ui, &yields, fonts::semibold(tokens::READING - 4.0), t.ink);
        pair(ui, "pulp", &format!("{} g, with the liquid that it keeps", number::fixed(made.pulp_g, 0)));
        if made.soaked_g > 0.0 {
            let words = format!("{} g; the rest of it is poured off", number::fixed(made.soaked_g, 0));
            pair(ui, "soaking water taken up", &words);
        }
        let price = made.price_per_litre.map_or_else(
            || format!("not known: write a price on {}", raw.name),
            |p| format!("{} per litre", state.kitchen.money(p)),
        );
        pair(ui, "cost", &price);
    });
    actions(ui, made, state, out);
    compare(ui, made, nearest(&made.base, &state.shelves.shipped));
    list(ui, "Steps, in order", &made.steps, true);
    list(ui, "Hygiene", &made.hygiene, false);
}

fn actions(ui: &mut Ui, made: &MadeBase, state: &State, out: &mut Vec<Command>) {
    let there = kept(made, &state.pantry).map(str::to_owned);
    let add = || Command::Pantry(PantryCommand::Own(OwnEdit::Add(Box::new(as_entry(made, &state.pantry)))));
    ui.horizontal_wrapped(|ui| {
        let keep = ui.add_enabled(there.is_none(), Button::new("Keep as an entry of mine"));
        let pressed = keep.clicked();
        keep.on_disabled_hover_text("It is among your entries already");
        if pressed {
            out.push(add());
            out.push(PantryCommand::Page(PantryPage::Entries).into());
        }
        let tip = "In place of the design's first base; it is kept among your entries too";
        if ui.button("Use in the design").on_hover_text(tip).clicked() {
            if there.is_none() {
                out.push(add());
            }
            out.push(PantryCommand::UseBase(there.clone().unwrap_or_else(|| made.base.key.clone())).into());
        }
    });
}

/// A part of a base: name, unit, and how much of it.
type Part = (&'static str, &'static str, fn(&Base) -> f64);

/// Composition, beside the shipped base that is nearest.
fn compare(ui: &mut Ui, made: &MadeBase, other: Option<&Base>) {
    let quiet = other.map_or_else(String::new, |b| format!("beside {}", b.name));
    Card::new("In 100 g").quiet(&quiet).show(ui, |ui| {
        let sugars = |b: &Base| b.composition.sugars.iter().map(|s| s.g_per_100g.value).sum::<f64>();
        let rows: [Part; 6] = [
            ("fat", "g", |b| b.composition.fat.value),
            ("protein", "g", |b| b.composition.protein.value),
            ("carbohydrate", "g", |b| b.composition.carbohydrate.value),
            ("starch", "g", |b| b.composition.starch.value),
            ("fibre", "g", |b| b.composition.fibre.value),
            ("mean buffer", "mmol/(kg pH)", |b| b.mean_buffer.value),
        ];
        head(ui, other.is_some());
        for (name, unit, of) in rows {
            row(ui, name, unit, of(&made.base), other.map(of));
        }
        row(ui, "sugars", "g", sugars(&made.base), other.map(sugars));
    });
}

/// The three columns of a row of the comparison.
fn places(ui: &mut Ui, height: f32) -> [Rect; 3] {
    let (row, _) = ui.allocate_exact_size(vec2(ui.available_width().min(520.0), height), Sense::hover());
    let cut = |from: f32, to: f32| {
        row.with_min_x(row.left() + from * row.width()).with_max_x(row.left() + to * row.width())
    };
    [cut(0.0, 0.3), cut(0.3, 0.62), cut(0.66, 1.0)]
}

fn head(ui: &mut Ui, other: bool) {
    let t = tokens::of(ui);
    let [_, own, shipped] = places(ui, 16.0);
    let font = fonts::regular(tokens::SMALL);
    line_in(ui, own, "this one", font.clone(), t.ink_soft, Align::Max);
    if other {
        line_in(ui, shipped, "the shipped one", font, t.ink_soft, Align::Max);
    }
}

fn row(ui: &mut Ui, name: &str, unit: &str, own: f64, other: Option<f64>) {
    let t = tokens::of(ui);
    let [names, mine, shipped] = places(ui, 18.0);
    let text = |v: f64| format!("{}{}{unit}", number::fixed(v, 1), number::NBSP);
    line_in(ui, names, name, fonts::regular(tokens::BODY - 0.5), t.ink, Align::Min);
    line_in(ui, mine, &text(own), fonts::semibold(tokens::BODY - 0.5), t.ink, Align::Max);
    if let Some(v) = other {
        line_in(ui, shipped, &text(v), fonts::regular(tokens::BODY - 0.5), t.ink_soft, Align::Max);
    }
}

fn list(ui: &mut Ui, title: &str, lines: &[String], numbered: bool) {
    if lines.is_empty() {
        return;
    }
    Card::new(title).show(ui, |ui| {
        for (i, line) in lines.iter().enumerate() {
            let line = prose(line);
            let text = if numbered { format!("{}. {line}", i + 1) } else { format!("• {line}") };
            wrapped(ui, &text, fonts::regular(tokens::BODY), tokens::of(ui).ink);
        }
    });
}
