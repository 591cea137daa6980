//! `potset picture`: draws the real window without a display, GPU or driver.

use std::ffi::OsString;

use eframe::egui::ColorImage;

use super::args::Args;
use super::{CliContext as Table, Exit, design};
use potset_app::card::CardPage;
use potset_app::columns::{BesidePage, Holds};
use potset_app::command::{
    AimCommand, BatchesCommand, BesideCommand, CardCommand, ClassCommand, MishapCommand, WindowCommand,
};
use potset_app::jobs::batches::begin::demo_book;
use potset_app::session::Session;
use potset_app::state::View;
use potset_app::{Action, AppRunner, Command, State};
use potset_base::Note;
use potset_class::Press;
use potset_doc::Settings;
use potset_doc::settings::{Depth, Theme};
use potset_doubt::spread::POTS;
use potset_export::svg;
use potset_mishap::Symptom;
use potset_store::opened::Opened;
use potset_store::out::{Kind, Out};
use potset_ui::shell::Shell;
use potset_ui_dialogs::paths::PathsBy;
use potset_ui_kit::painter;

/// What is written.
const PICTURE: Kind = Kind { name: "a picture in PNG", holds: svg::is_png };

/// What the command has to tell, and how it ends.
///
/// # Errors
/// A note on what is wrong with its input.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(
        arguments,
        &["out", "size", "theme", "zoom", "view", "depth", "lesson", "step"],
        &["over", "tables", "spread"],
    )?;
    let out = args.out().ok_or_else(|| Note::error("--out", "No file was named", "Give --out F.png"))?;
    let (width, height) = size(args.text("size").unwrap_or("1280x800"))?;
    let zoom = args.number("zoom", 0.5, 4.0)?.unwrap_or(1.0) as f32;
    let dark = match args.text("theme").unwrap_or("light") {
        "light" => false,
        "dark" => true,
        other => {
            return Err(Note::error("--theme", format!("There is no theme {other}"), "Give light or dark"));
        }
    };
    let depth = match args.text("depth").unwrap_or("plain") {
        "plain" => Depth::Plain,
        "details" => Depth::Details,
        other => {
            let title = format!("There is no depth {other}");
            return Err(Note::error("--depth", title, "Give plain or details"));
        }
    };
    let [first, others @ ..] = args.files() else {
        return Err(Note::error("FILE", "No design was named", "Give a design file"));
    };
    let usual = if others.is_empty() { "bench" } else { "beside" };
    let wanted = args.text("view").unwrap_or(usual);
    let page = match wanted {
        "sweep" => Some(BesidePage::Sweep),
        "swap" => Some(BesidePage::Swap),
        _ => None,
    };
    let on_table = CardPage::ALL.into_iter().find(|page| page.words().eq_ignore_ascii_case(wanted));
    let view = view(match (page, on_table) {
        (Some(_), _) => "beside",
        (None, Some(_)) => "card",
        (None, None) => wanted,
    })?;
    let table = Table::of(first)?;
    let besides = others.iter().map(|file| design(file)).collect::<Result<Vec<Opened>, Note>>()?;
    let inputs = besides.iter().chain([&table.opened]).filter_map(Opened::file).collect();
    let out = Out::at(out, PICTURE, inputs)?;
    let theme = if dark { Theme::Dark } else { Theme::Light };
    let mut state = State::start(Settings { theme, depth, ..Settings::default() }, table.kitchen)?;
    state.learnt = table.learnt;
    state.session = Session::copy(table.opened.design.clone());
    let mut runner = AppRunner::inline(state);
    runner.settle();
    // The ready time needs the possible pots; their bands are drawn where they are asked for.
    runner.state.settings.spread = args.flag("spread");
    runner.spread(POTS, args.flag("spread"));
    for (name, other) in others.iter().zip(&besides) {
        let session = Box::new(Session::copy(other.design.clone()));
        let end = runner.state.columns.list.len();
        runner.state.columns.insert(end, Holds::Kept(session, name.to_string_lossy().into_owned()))?;
    }
    runner.state.columns.laid_over = args.flag("over");
    if args.flag("tables") {
        runner.state.columns.page = BesidePage::Differences;
    }
    runner.run(view);
    if runner.state.view == View::Batches {
        demo_pots(&mut runner)?;
    }
    if runner.state.view == View::Mishap {
        // What callers say most often.
        runner.run(MishapCommand::Saw(Symptom::Thin));
        runner.run(MishapCommand::Saw(Symptom::Sweet));
    }
    if runner.state.view == View::Aim {
        // Inline, the answer is there at once.
        runner.run(AimCommand::Start);
    }
    if let Some(page) = page {
        runner.run(BesideCommand::Page(page));
    }
    if let Some(page) = on_table {
        runner.run(CardCommand::Page(page));
    }
    if let Some(name) = args.text("lesson") {
        lesson_of(&mut runner, name, args.text("step").unwrap_or("question"))?;
    }
    let mut shell = Shell::new(runner, PathsBy::Typing);
    // The size is in pixels of the picture; zoom makes everything on it larger, as in the window.
    let points = [
        (f64::from(width) / f64::from(zoom)).round() as u32,
        (f64::from(height) / f64::from(zoom)).round() as u32,
    ];
    let image = painter::picture(points, zoom, dark, 4, |ui| shell.ui(ui));
    out.write(&png(&image)?)?;
    Ok((String::new(), Exit::Done))
}

/// A shipped lesson on the wall, at one of its steps.
fn lesson_of(runner: &mut AppRunner, name: &str, step: &str) -> Result<(), Note> {
    runner.run(WindowCommand::Show(View::Class));
    runner.run(ClassCommand::Open(name.to_owned()));
    let presses = match step {
        "question" | "free" => 0,
        "guess" => 1,
        "change" => 2,
        // It is drawn half way: the next press brings it to its end.
        "curve" => 3,
        "reason" => 5,
        other => {
            let title = format!("There is no step {other}");
            return Err(Note::error("--step", title, "Give question, guess, change, curve, reason or free"));
        }
    };
    if runner.state.class.playing.is_none() {
        return Err(Note::error(
            "--lesson",
            format!("There is no shipped lesson {name}"),
            "Give 13-why-it-splits.ron",
        ));
    }
    (0..presses).for_each(|_| runner.run(ClassCommand::Press(Press::Next)));
    if step == "curve" {
        let hours = runner.state.class.playing.as_ref().map_or(0.0, |playing| playing.lesson.hours);
        runner.run(ClassCommand::Press(Press::To(0.7 * hours)));
    }
    if step == "free" {
        runner.run(ClassCommand::Press(Press::Free));
    }
    Ok(())
}

/// The demo pots in the batch book, the one under way open, some hours after it was begun.
fn demo_pots(runner: &mut AppRunner) -> Result<(), Note> {
    let (listed, running) = demo_book()?;
    let open = running.first().cloned();
    runner.run(BatchesCommand::Listed(runner.state.batches.question, Box::new(listed), running));
    if let Some(pot) = open {
        runner.state.now = pot.batch.moment(pot.batch.readings.last().map_or(0.0, |last| last.at_h) + 1.0);
        runner.run(BatchesCommand::Open(Some(pot.file)));
    }
    Ok(())
}

/// The command that shows a view by its name.
fn view(name: &str) -> Result<Command, Note> {
    let named = View::ALL
        .into_iter()
        .find(|v| v.words().to_lowercase() == name)
        .map(|view| WindowCommand::Show(view).into());
    let action = match name {
        "label" => Some(Command::Do(Action::ReadLabel)),
        "making" => Some(Command::Do(Action::MakeBase)),
        _ => None,
    };
    named.or(action).ok_or_else(|| {
        Note::error(
            "--view",
            format!("There is no view {name}"),
            "Give bench, beside, sweep, swap, aim, recipes, card, scale, clock, packet, warm-up, pantry, batches, mishap, class, label or making",
        )
    })
}

fn size(text: &str) -> Result<(u32, u32), Note> {
    let parts = text.split_once('x').and_then(|(w, h)| Some((w.parse().ok()?, h.parse().ok()?)));
    parts.filter(|(w, h)| (200..=8000).contains(w) && (200..=8000).contains(h)).ok_or_else(|| {
        Note::error(
            "--size",
            format!("“{text}” is not a size"),
            "Give WIDTHxHEIGHT, 200 to 8000, such as 1280x800",
        )
    })
}

/// The image as PNG bytes.
fn png(image: &ColorImage) -> Result<Vec<u8>, Note> {
    let trouble = |e: png::EncodingError| {
        Note::error("picture", format!("The file could not be written: {e}"), "Try again")
    };
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, image.size[0] as u32, image.size[1] as u32);
    encoder.set_color(png::ColorType::Rgba);
    encoder.set_depth(png::BitDepth::Eight);
    let mut writer = encoder.write_header().map_err(trouble)?;
    let pixels: Vec<u8> = image.pixels.iter().flat_map(|p| p.to_srgba_unmultiplied()).collect();
    writer.write_image_data(&pixels).map_err(trouble)?;
    writer.finish().map_err(trouble)?;
    Ok(bytes)
}
