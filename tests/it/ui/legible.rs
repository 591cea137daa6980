//! No text is cut, and none stands on another, in any view over all demos, in both depths and at every usual size.

use std::fs;

use egui::{Context, RawInput, Rect, Shape, Vec2, pos2};
use potset_app::batches::{BatchesPage, Taught};
use potset_app::card::CardPage;
use potset_app::columns::BesidePage;
use potset_app::command::{
    BatchesCommand, BesideCommand, CardCommand, MishapCommand, RecipesCommand, WindowCommand,
};
use potset_app::jobs::batches::begin::{demo_book, demos};
use potset_app::mishap::MishapPage;
use potset_app::recipes::RecipesPage;
use potset_app::session::Session;
use potset_app::state::View;
use potset_app::{AppRunner, Command, State};
use potset_base::clock::Zone;
use potset_doc::settings::{Depth, Theme};
use potset_doc::{Kitchen, Settings, assets};
use potset_mishap::{Fact, Symptom};
use potset_store::library::Library;
use potset_ui::shell::Shell;
use potset_ui_dialogs::paths::PathsBy;

/// Windows in points: usual screens, and what is left of 1280x800 at 150 and 200 %.
const SIZES: [(f32, f32); 5] =
    [(1280.0, 800.0), (1366.0, 768.0), (1920.0, 1080.0), (853.0, 533.0), (640.0, 400.0)];

/// A text as it was drawn: what of it is to be seen, and where.
pub struct Drawn {
    pub text: String,
    place: Rect,
    cut: bool,
    /// Something that nobody sees through was drawn over a part of it.
    covered: bool,
}

/// Whether a place is shared by more than a hair.
fn shared(a: Rect, b: Rect) -> bool {
    let both = a.shrink(1.0).intersect(b.shrink(1.0));
    both.width() > 2.0 && both.height() > 4.0
}

fn texts(shape: &Shape, clip: Rect, out: &mut Vec<Drawn>) {
    match shape {
        Shape::Rect(over) if over.fill.is_opaque() => {
            let over = over.rect.intersect(clip);
            out.iter_mut().for_each(|text| text.covered |= shared(text.place, over));
        }
        Shape::Vec(all) => all.iter().for_each(|one| texts(one, clip, out)),
        Shape::Text(text) => {
            // Where its letters are, turned as it is.
            let flat = text.galley.mesh_bounds.translate(text.pos.to_vec2());
            let place = if text.angle == 0.0 { flat } else { text.visual_bounding_rect() };
            if clip.intersects(place) {
                let place = place.intersect(clip);
                let (text, cut) = (text.galley.text().to_owned(), text.galley.elided);
                out.push(Drawn { text, place, cut, covered: false });
            }
        }
        _ => {}
    }
}

/// The texts of a settled window.
fn window(state: State, view: View, size: (f32, f32)) -> Vec<Drawn> {
    drawn_by(state, view, size, &[])
}

/// The same after some commands.
pub fn drawn_by(state: State, view: View, size: (f32, f32), commands: &[Command]) -> Vec<Drawn> {
    let ctx = Context::default();
    Shell::dress(&ctx);
    let mut runner = AppRunner::inline(state);
    runner.spread(64, false);
    runner.run(WindowCommand::Show(view));
    commands.iter().for_each(|command| runner.run(command.clone()));
    let mut shell = Shell::new(runner, PathsBy::Typing);
    let mut drawn = Vec::new();
    for frame in 0..4 {
        let screen_rect = Some(Rect::from_min_size(pos2(0.0, 0.0), Vec2::new(size.0, size.1)));
        let input = RawInput { screen_rect, time: Some(f64::from(frame) * 0.3), ..RawInput::default() };
        let mut output = ctx.run_ui(input, |ui| shell.ui(ui));
        output.textures_delta.clear();
        drawn.clear();
        for clipped in &output.shapes {
            texts(&clipped.shape, clipped.clip_rect, &mut drawn);
        }
    }
    drawn
}

fn state(demo: &str, depth: Depth) -> State {
    let settings = Settings { theme: Theme::Light, depth, ..Settings::default() };
    let mut state = State::start(settings, Kitchen::default()).unwrap();
    state.session = Session::copy(assets::demo(demo).unwrap());
    state
}

/// What is wrong with a picture.
pub fn faults(drawn: &[Drawn]) -> Vec<String> {
    let cut = drawn.iter().filter(|d| d.cut).map(|d| format!("cut: {}", d.text));
    let covered = drawn.iter().filter(|d| d.covered).map(|d| format!("covered: {}", d.text));
    let mut all: Vec<String> = cut.chain(covered).collect();
    for (i, one) in drawn.iter().enumerate() {
        for other in &drawn[..i] {
            // A rim around letters is the same text drawn more than once.
            if one.text != other.text && shared(one.place, other.place) {
                all.push(format!("“{}” stands on “{}”", one.text, other.text));
            }
        }
    }
    all
}

#[test]
fn no_text_of_the_plain_bench_is_cut_over_all_demos() {
    let mut wrong = Vec::new();
    for (demo, _) in assets::DEMOS {
        for size in SIZES {
            let found = faults(&window(state(demo, Depth::Plain), View::Bench, size));
            wrong.extend(found.into_iter().map(|fault| format!("{demo} at {size:?}: {fault}")));
        }
    }
    assert!(wrong.is_empty(), "{} faults:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn no_text_of_the_other_views_and_of_the_details_is_cut() {
    let mut wrong = Vec::new();
    for demo in ["coconut-pot.ron", "whole-milk-pot.ron", "oat-and-coconut.ron"] {
        for size in SIZES {
            for (depth, view) in [
                (Depth::Details, View::Bench),
                (Depth::Plain, View::Beside),
                (Depth::Plain, View::Aim),
                (Depth::Plain, View::Pantry),
            ] {
                let found = faults(&window(state(demo, depth), view, size));
                wrong.extend(
                    found.into_iter().map(|fault| format!("{demo}, {} at {size:?}: {fault}", view.words())),
                );
            }
        }
    }
    assert!(wrong.is_empty(), "{} faults:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn no_text_of_designs_beside_each_other_is_cut() {
    let mut wrong = Vec::new();
    let pairs = [("coconut-pot.ron", "whole-milk-pot.ron"), ("goat-pot.ron", "soy-set-pots.ron")];
    for size in SIZES {
        for (page, levers, over) in [
            (BesidePage::Curves, false, false),
            (BesidePage::Curves, false, true),
            (BesidePage::Curves, true, false),
            (BesidePage::Curves, true, true),
            (BesidePage::Differences, false, false),
            (BesidePage::Sweep, false, false),
            (BesidePage::Swap, false, false),
        ] {
            for (first, second) in pairs {
                let commands = [
                    BesideCommand::AddDemo(second),
                    BesideCommand::Page(page),
                    BesideCommand::Levers(levers),
                    BesideCommand::LaidOver(over),
                ];
                let commands: Vec<Command> = commands.into_iter().map(Command::from).collect();
                let found = faults(&drawn_by(state(first, Depth::Plain), View::Beside, size, &commands));
                let what = format!("{first}, {}, levers {levers}, over {over}, at {size:?}", page.words());
                wrong.extend(found.into_iter().map(|fault| format!("{what}: {fault}")));
            }
        }
    }
    assert!(wrong.is_empty(), "{} faults:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn no_text_of_the_card_and_of_the_recipes_is_cut() {
    let mut wrong = Vec::new();
    let mut look = |what: String, found: Vec<String>| {
        wrong.extend(found.into_iter().map(|fault| format!("{what}: {fault}")));
    };
    for demo in ["coconut-pot.ron", "whole-milk-pot.ron", "coconut-with-fruit.ron"] {
        for size in SIZES {
            for page in CardPage::ALL {
                let commands = [CardCommand::Page(page).into()];
                let found = faults(&drawn_by(state(demo, Depth::Plain), View::Card, size, &commands));
                look(format!("{demo}, {} at {size:?}", page.words()), found);
            }
        }
    }
    let home = tempfile::tempdir().unwrap();
    let library = Library::at(home.path().join("recipes"));
    library.make().unwrap();
    for (demo, _) in assets::DEMOS {
        library.add(&assets::demo(demo).unwrap()).unwrap();
    }
    let first = library.files().unwrap()[0].0.clone();
    library.throw_away(&library.duplicate(&first).unwrap()).unwrap();
    for size in SIZES {
        for (page, open) in
            [(RecipesPage::Kept, None), (RecipesPage::Kept, Some(first.clone())), (RecipesPage::Bin, None)]
        {
            let mut state = state("coconut-pot.ron", Depth::Plain);
            state.settings.recipes = Some(library.folder().display().to_string());
            let commands = [RecipesCommand::Page(page).into(), RecipesCommand::Open(open.clone()).into()];
            let found = faults(&drawn_by(state, View::Recipes, size, &commands));
            look(format!("recipes, {} with {open:?} at {size:?}", page.words()), found);
        }
    }
    assert!(wrong.is_empty(), "{} faults:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn no_text_of_the_batches_is_cut() {
    let (listed, running) = demo_book().unwrap();
    let pot = running[0].clone();
    let pots = demos(None, &Zone::default()).unwrap();
    let files = (0..pots.len()).map(|k| format!("pot-{k}.ron")).collect();
    let pantry = state("coconut-pot.ron", Depth::Plain).pantry;
    let taught = Taught::of((files, pots), &pantry, "", &mut || true).unwrap().unwrap();
    let home = tempfile::tempdir().unwrap();
    let logger = home.path().join("logger.csv");
    fs::write(&logger, "time;temp\n2026-11-24 09:00;30,5\n2026-11-24 10:00;40,5\nbroken\n").unwrap();
    let mut wrong = Vec::new();
    for size in SIZES {
        for depth in [Depth::Plain, Depth::Details] {
            for (page, open) in BatchesPage::ALL.into_iter().flat_map(|page| [(page, true), (page, false)]) {
                let mut state = state("coconut-pot.ron", depth);
                state.now = pot.batch.moment(11.0);
                let listed = Box::new(listed.clone());
                let mut commands: Vec<BatchesCommand> =
                    vec![BatchesCommand::Listed(0, listed, running.clone())];
                if open {
                    commands.push(BatchesCommand::Learnt(0, Ok(taught.clone().into())));
                    commands.push(BatchesCommand::Open(Some(pot.file.clone())));
                    commands.push(BatchesCommand::Logger(logger.clone()));
                }
                commands.push(BatchesCommand::Page(page));
                let commands: Vec<Command> = commands.into_iter().map(Command::from).collect();
                let found = faults(&drawn_by(state, View::Batches, size, &commands));
                let what = format!("{}, open {open}, {depth:?} at {size:?}", page.words());
                wrong.extend(found.into_iter().map(|fault| format!("{what}: {fault}")));
            }
        }
    }
    assert!(wrong.is_empty(), "{} faults:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn no_text_of_mishap_is_cut() {
    let said = [Symptom::Thin, Symptom::NoTang, Symptom::Smell].map(MishapCommand::Saw);
    let known = ["hours=9", "base=a thinner one", "thickener=had set"].map(|text| Fact::read(text).unwrap());
    let mut wrong = Vec::new();
    for size in SIZES {
        for depth in [Depth::Plain, Depth::Details] {
            for (page, told) in MishapPage::ALL.into_iter().flat_map(|page| [(page, true), (page, false)]) {
                let mut commands: Vec<MishapCommand> = vec![MishapCommand::OfBench];
                if told {
                    commands.extend(said.clone());
                    commands.extend(known.map(MishapCommand::Know));
                    commands.push(MishapCommand::Lot("L2211-7".to_owned()));
                    commands.push(MishapCommand::Log);
                }
                commands.push(MishapCommand::Page(page));
                let commands: Vec<Command> = commands.into_iter().map(Command::from).collect();
                let state = state("coconut-agar.ron", depth);
                let found = faults(&drawn_by(state, View::Mishap, size, &commands));
                let what = format!("{}, told {told}, {depth:?} at {size:?}", page.words());
                wrong.extend(found.into_iter().map(|fault| format!("{what}: {fault}")));
            }
        }
    }
    assert!(wrong.is_empty(), "{} faults:\n{}", wrong.len(), wrong.join("\n"));
}
