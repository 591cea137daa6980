//! `potset [FILE]`: opens the window, or says plainly why it cannot.

use std::ffi::OsString;
use std::path::{Path, PathBuf};

use eframe::egui::{ViewportBuilder, vec2};

use super::terminal::say_line;
use super::{Exit, bad, demo};
use potset_app::command::FileCommand;
use potset_app::state::Dialog;
use potset_app::{AppRunner, State};
use potset_base::Note;
use potset_doc::{Kitchen, Settings};
use potset_store::{files, folders, memory};
use potset_ui::shell::Shell;
use potset_ui_dialogs::paths::PathsBy;

/// What to install or do instead where no window opens.
const NO_WINDOW: &str = "no window can be opened here. On Debian install libx11-6 libx11-xcb1 libxcursor1 libxi6 \
                         libxkbcommon-x11-0 libegl1 libgl1 libgl1-mesa-dri and run it in a desktop session; without \
                         one, use `potset verdict FILE`, `potset forecast FILE` or `potset picture FILE --out F.png`";

/// Runs the window.
pub fn run(arguments: &[OsString]) -> Exit {
    let file = match arguments {
        [] => None,
        [option, ..] if option.as_encoded_bytes().starts_with(b"-") => {
            return bad(&Note::error(option.to_string_lossy(), "There is no such option", "See potset help"));
        }
        // A word is likelier a slip in a command than a file.
        [word] if Path::new(word).extension().is_none() && !files::is_there(Path::new(word)) => {
            let title = format!("There is no command or file “{}”", word.to_string_lossy());
            return bad(&Note::error("", title, "`potset help` lists the commands"));
        }
        [one] => Some(one.clone()),
        [_, second, ..] => {
            return bad(&Note::error(second.to_string_lossy(), "One design at a time here", "Leave it out"));
        }
    };
    // A file that cannot be read is told before a window opens.
    if let Some(Err(note)) = file.as_deref().map(super::design) {
        return bad(&note);
    }
    match open(file) {
        Ok(()) => Exit::Done,
        Err(reason) => {
            say_line(&format!("potset: {NO_WINDOW} ({reason})"));
            Exit::NoWindow
        }
    }
}

fn open(file: Option<OsString>) -> Result<(), String> {
    let homes = folders::folders();
    // Only a window, which will write, sets broken files aside.
    let mended = homes.as_ref().map_or_else(Vec::new, memory::mend);
    let (settings, kitchen, notes) =
        homes.as_ref().map_or_else(|| (Settings::default(), Kitchen::default(), Vec::new()), memory::load);
    let mut state = State::start(settings, kitchen).map_err(|note| note.line())?;
    state.notices = mended;
    state.notices.extend(notes);
    if let Some((own, bad)) = homes.as_ref().map(memory::own) {
        state.take_own(own);
        state.notices.extend(bad);
    }
    // Without a file the last design comes back; who never had one is asked what is at hand.
    let last = state.settings.recent.first().map(PathBuf::from).filter(|path| files::is_there(path));
    let file = file.or_else(|| last.map(PathBuf::into_os_string));
    if file.is_none() && state.settings.recent.is_empty() {
        state.dialog = Dialog::MyPot;
    }
    let size = vec2(1280.0, 720.0);
    let options = eframe::NativeOptions {
        viewport: ViewportBuilder::default()
            .with_title("Potset")
            .with_app_id("potset")
            .with_inner_size(size)
            .with_min_inner_size(vec2(640.0, 420.0))
            .with_drag_and_drop(true),
        ..eframe::NativeOptions::default()
    };
    let started = eframe::run_native(
        "potset",
        options,
        Box::new(move |cc| {
            Shell::dress(&cc.egui_ctx);
            let ctx = cc.egui_ctx.clone();
            let mut runner = AppRunner::threaded(state, homes, move || ctx.request_repaint());
            if let Some(file) = file {
                // Whole, so that recovery and the list of recent files find it from anywhere.
                let path = std::path::absolute(&file).unwrap_or_else(|_| file.clone().into());
                let open = demo(&file).map_or_else(|| FileCommand::Open(path), FileCommand::OpenDemo);
                runner.run(open);
            }
            runner.columns_come_back();
            Ok(Box::new(Shell::new(runner, PathsBy::System)))
        }),
    );
    started.map_err(|e| e.to_string())
}
