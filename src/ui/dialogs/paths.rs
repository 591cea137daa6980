//! Choosing a file: the system's own dialog on a thread, or a path typed here where there is none.

use std::path::{Path, PathBuf};
use std::sync::mpsc::{self, Receiver};
use std::time::Duration;

use egui::{TextEdit, Ui};

use super::window;
use crate::app::Command;
use crate::app::command::BesideCommand;

/// What a path is asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Want {
    Open,
    /// The name to offer.
    Save(String),
    /// A design to put beside the others.
    Add,
    /// Shared entries.
    TakeIn,
    /// The name to offer for a shared entry.
    Share(String),
    /// The name to offer for the comparison; its ending says the form.
    Export(String),
}

/// A question that is under way.
pub enum Asking {
    /// The system's dialog is open; when it was opened, on egui's clock.
    Native(Want, Receiver<Option<PathBuf>>, f64, Option<PathBuf>),
    /// A path is typed; whether the field has been given the keyboard yet.
    Typed(Want, String, bool),
    /// A file of that name is there already, and nobody was asked about it yet.
    Replace(Want, PathBuf),
}

/// Whether anything stands under a path.
type There<'a> = &'a dyn Fn(&Path) -> bool;

/// A dialog that comes back empty faster than this was never shown: there is none on this system.
const NEVER_SHOWN_S: f64 = 0.15;

impl Want {
    /// The path with the ending that such a file has, where none was given.
    fn ended(&self, path: PathBuf) -> PathBuf {
        match self {
            Self::Save(_) | Self::Share(_) if path.extension().is_none() => path.with_extension("ron"),
            _ => path,
        }
    }

    const fn writes(&self) -> bool {
        matches!(self, Self::Save(_) | Self::Share(_) | Self::Export(_))
    }
}

impl Asking {
    /// Opens the system's dialog on a thread of its own.
    pub fn native(want: Want, folder: Option<PathBuf>, ui: &Ui) -> Self {
        let (sender, receiver) = mpsc::channel();
        let (ctx, now, asked) = (ui.ctx().clone(), ui.input(|i| i.time), want.clone());
        let home = folder.clone();
        #[expect(clippy::disallowed_methods, reason = "the system's dialog blocks until it is answered")]
        std::thread::spawn(move || {
            let mut dialog = rfd::FileDialog::new();
            dialog = match asked {
                Want::Export(_) => dialog.add_filter("Table or picture", &["csv", "md", "txt", "png", "svg"]),
                _ => dialog.add_filter("Potset file", &["ron"]),
            };
            if let Some(folder) = folder {
                dialog = dialog.set_directory(folder);
            }
            let path = match asked {
                Want::Open | Want::Add | Want::TakeIn => dialog.pick_file(),
                Want::Save(name) | Want::Share(name) | Want::Export(name) => {
                    dialog.set_file_name(name).save_file()
                }
            };
            // The window may have closed in the meantime.
            let _ = sender.send(path);
            ctx.request_repaint();
        });
        Self::Native(want, receiver, now, home)
    }

    /// Asks for a typed path, beginning with a folder.
    pub fn typed(want: Want, folder: Option<PathBuf>) -> Self {
        let name = match &want {
            Want::Open | Want::Add | Want::TakeIn => "",
            Want::Save(name) | Want::Share(name) | Want::Export(name) => name.as_str(),
        };
        let text = folder.unwrap_or_default().join(name).display().to_string();
        Self::Typed(want, text, false)
    }

    /// Draws or polls the question. Returns what to go on with: `None` when it is answered or given up.
    ///
    /// No file is written over unasked: `there` says whether one stands under a path.
    pub fn show(self, ui: &mut Ui, there: There<'_>, out: &mut Vec<Command>) -> Option<Self> {
        match self {
            Self::Native(want, receiver, since, folder) => match receiver.try_recv() {
                Ok(Some(path)) => {
                    // The system's dialog asked about the name that was given there, not about the one with its ending.
                    let ended = want.ended(path.clone());
                    let asked = ended == path;
                    settle(want, ended, asked, there, out)
                }
                Ok(None) if ui.input(|i| i.time) - since < NEVER_SHOWN_S => Some(Self::typed(want, folder)),
                Ok(None) | Err(mpsc::TryRecvError::Disconnected) => None,
                Err(mpsc::TryRecvError::Empty) => {
                    ui.ctx().request_repaint_after(Duration::from_millis(200));
                    Some(Self::Native(want, receiver, since, folder))
                }
            },
            Self::Typed(want, text, focused) => typed(ui, want, text, focused, there, out),
            Self::Replace(want, path) => replace(ui, want, path, out),
        }
    }
}

fn settle(
    want: Want,
    path: PathBuf,
    asked: bool,
    there: There<'_>,
    out: &mut Vec<Command>,
) -> Option<Asking> {
    if want.writes() && !asked && there(&path) {
        return Some(Asking::Replace(want, path));
    }
    out.push(answer(&want, path));
    None
}

fn answer(want: &Want, path: PathBuf) -> Command {
    match want {
        Want::Open => Command::Open(path),
        Want::Add => Command::Beside(BesideCommand::AddFile(path)),
        Want::Export(_) => Command::Beside(BesideCommand::ExportTo(path)),
        Want::TakeIn => Command::TakeIn(path),
        Want::Share(_) => Command::ShareTo(path),
        Want::Save(_) => Command::SaveAs(path),
    }
}

fn typed(
    ui: &mut Ui,
    want: Want,
    mut text: String,
    focused: bool,
    there: There<'_>,
    out: &mut Vec<Command>,
) -> Option<Asking> {
    let (title, verb) = match want {
        Want::Open => ("Open a design", "Open"),
        Want::Save(_) => ("Save the design", "Save"),
        Want::Export(_) => ("Write the comparison", "Write"),
        Want::Add => ("Put a design beside", "Put beside"),
        Want::TakeIn => ("Take in shared entries", "Take in"),
        Want::Share(_) => ("Share the entry as a file", "Share"),
    };
    let hint = match want {
        Want::Export(_) => "Folder and file name, ending in .csv, .md, .txt, .png or .svg",
        _ => "Folder and file name, ending in .ron",
    };
    let (mut go, mut cancel) = (false, false);
    let closed = window(ui, title, 460.0, |ui| {
        let field = ui.add(TextEdit::singleline(&mut text).desired_width(f32::INFINITY).hint_text(hint));
        field.widget_info(|| {
            egui::WidgetInfo::labeled(egui::accesskit::Role::TextInput, true, "Path of the file")
        });
        if !focused {
            field.request_focus();
        }
        go = field.lost_focus() && ui.input(|i| i.key_pressed(egui::Key::Enter));
        ui.add_space(6.0);
        ui.horizontal(|ui| {
            go |= ui.add_enabled(!text.trim().is_empty(), egui::Button::new(verb)).clicked();
            cancel = ui.button("Cancel").clicked();
        });
    });
    if go && !text.trim().is_empty() {
        let path = want.ended(PathBuf::from(text.trim()));
        return settle(want, path, false, there, out);
    }
    (!closed && !cancel).then_some(Asking::Typed(want, text, true))
}

/// Asks before a file is written over.
fn replace(ui: &mut Ui, want: Want, path: PathBuf, out: &mut Vec<Command>) -> Option<Asking> {
    let (mut go, mut other, mut cancel) = (false, false, false);
    let closed = window(ui, "Replace the file?", 460.0, |ui| {
        ui.add(egui::Label::new(format!("There is a file already: {}", path.display())).wrap());
        ui.add_space(6.0);
        ui.horizontal(|ui| {
            go = ui.button("Replace it").clicked();
            other = ui.button("Another name").clicked();
            cancel = ui.button("Cancel").clicked();
        });
    });
    if go {
        out.push(answer(&want, path));
        return None;
    }
    if other {
        return Some(Asking::Typed(want, path.display().to_string(), false));
    }
    (!closed && !cancel).then_some(Asking::Replace(want, path))
}
