//! Choosing a file on a page of our own: a path to type, what lies in its folder, and the system's dialog as an extra.
//!
//! The dialog library answers nothing both when the maker cancelled and when there is no dialog on the system. So nothing
//! hangs on that answer: an empty one only leads back to the page, which says so.

use std::path::{Path, PathBuf};
use std::sync::mpsc::{self, Receiver, TryRecvError};

use egui::text::{CCursor, CCursorRange};
use egui::{Button, Label, RichText, ScrollArea, TextEdit, Ui};

use super::wanted::system_dialog;
pub use super::wanted::{Browse, Want};
use super::window;
use potset_app::class::ClassFile;
use potset_app::command::BatchFile;
use potset_app::{AppRunner, Command};
use potset_ui_kit::tokens;

/// How paths are asked for.
#[derive(Clone, Copy, Debug)]
pub enum PathsBy {
    /// On a page of our own, from which the system's dialog can be opened.
    System,
    /// On the page alone (pictures).
    Typing,
    /// On the page, and with something in the place of the system's dialog (tests).
    Instead(Browse),
}

/// A question that is under way.
pub struct Asking {
    want: Want,
    /// As typed.
    text: String,
    /// Where a name alone lies.
    folder: PathBuf,
    /// The field has been given the keyboard.
    focused: bool,
    /// The text is the page's own so far: typing begins in its place.
    fresh: bool,
    by: PathsBy,
    /// The system's dialog is asked.
    system: Option<Receiver<Option<PathBuf>>>,
    /// It was asked, and gave no file.
    came_back_empty: bool,
    /// What lies in the folder of the typed path, as it was when that folder was first typed.
    shelf: Option<(PathBuf, Shelf)>,
    /// A file of that name is there already, and nobody was asked about it yet.
    replace: Option<PathBuf>,
}

/// Names of folders (true), and of files that can be picked.
type Shelf = Vec<(String, bool)>;

/// What was done on the page in this frame.
#[derive(Default)]
struct Done {
    go: bool,
    cancel: bool,
    browse: bool,
    /// A file or folder that was pressed, and whether it is a file.
    picked: Option<(PathBuf, bool)>,
}

impl Asking {
    /// Asks for a path, beginning with a folder.
    pub fn new(want: Want, folder: PathBuf, by: PathsBy) -> Self {
        let text = folder.join(want.name()).display().to_string();
        Self {
            want,
            text,
            folder,
            focused: false,
            fresh: true,
            by,
            system: None,
            came_back_empty: false,
            shelf: None,
            replace: None,
        }
    }

    /// Whether it asks for this already.
    pub fn is_for(&self, want: &Want) -> bool {
        self.want == *want
    }

    /// The folder that is looked at.
    pub fn folder(&self) -> Option<PathBuf> {
        self.shelf.as_ref().map(|(folder, _)| folder.clone())
    }

    /// Draws the page. Returns what to go on with: `None` when it is answered or given up.
    ///
    /// No file is written over unasked.
    pub fn show(mut self, ui: &mut Ui, desk: &AppRunner, out: &mut Vec<Command>) -> Option<Self> {
        if let Some(path) = self.replace.take() {
            return self.ask_replace(ui, path, out);
        }
        if let Some(path) = self.poll() {
            // The system's dialog asked about the name that was given there, not about the one with its ending.
            let ended = self.want.ended(path.clone());
            let asked = ended == path;
            return self.settle(ended, asked, desk, out);
        }
        self.look(desk);
        let mut done = Done::default();
        let closed = window(ui, self.want.words().0, 520.0, |ui| self.page(ui, &mut done));
        if done.browse {
            self.browse(ui);
        }
        match done.picked {
            Some((path, true)) if !self.want.writes() && !self.want.is_folder() => {
                return self.settle(path, false, desk, out);
            }
            Some((path, is_file)) => self.put(&path, is_file),
            None => {}
        }
        if done.go && !self.text.trim().is_empty() {
            // Only now: on a slow machine the last letters come in the same frame as the key that ends them.
            let path = self.want.ended(desk.spelled_out(&self.text, &self.folder));
            return self.settle(path, false, desk, out);
        }
        (!closed && !done.cancel).then_some(self)
    }

    /// Puts a path that was pressed in the field; a name that was typed or offered goes along into another folder.
    fn put(&mut self, path: &Path, is_file: bool) {
        self.folder = if is_file { path.parent().unwrap_or(path).to_path_buf() } else { path.to_path_buf() };
        let name = Path::new(self.text.trim()).file_name().map(PathBuf::from).unwrap_or_default();
        let path = match (is_file, self.want.writes() && !self.text.trim().ends_with('/')) {
            (true, _) => path.to_path_buf(),
            (false, true) => path.join(name),
            (false, false) => path.join(""),
        };
        self.text = path.display().to_string();
        (self.focused, self.fresh) = (false, true);
    }

    /// Looks into the folder of the typed path, if it is another one than before.
    fn look(&mut self, desk: &AppRunner) {
        let typed = desk.spelled_out(&self.text, &self.folder);
        let folder = if self.text.trim().ends_with('/') {
            typed
        } else {
            typed.parent().map(PathBuf::from).unwrap_or_default()
        };
        if self.shelf.as_ref().is_none_or(|(of, _)| *of != folder) {
            let shelf = desk.listing(&folder, self.want.endings());
            self.shelf = Some((folder, shelf));
        }
    }

    fn page(&mut self, ui: &mut Ui, done: &mut Done) {
        let hint = match self.want {
            Want::ImportFolder | Want::ExportFolder | Want::ImportBatches => "The folder",
            Want::Logger => "Folder and file name, such as logger.csv",
            Want::Batch(BatchFile::Record, _)
            | Want::Lesson(ClassFile::HandOut | ClassFile::RunSheet, ..) => {
                "Folder and file name, ending in .pdf, .png, .svg, .md or .csv"
            }
            Want::Batch(BatchFile::Readings, _) => "Folder and file name, ending in .csv",
            Want::Card(..) => "Folder and file name, ending in .pdf, .png, .svg, .md, .csv or .ics",
            Want::Export(_) => "Folder and file name, ending in .csv, .md, .txt, .png or .svg",
            _ => "Folder and file name, ending in .ron",
        };
        let edit = TextEdit::singleline(&mut self.text).desired_width(f32::INFINITY).hint_text(hint);
        let field = ui.add(edit);
        let folder = self.want.is_folder();
        field.widget_info(|| {
            egui::WidgetInfo::labeled(
                egui::accesskit::Role::TextInput,
                true,
                if folder { "Path of the folder" } else { "Path of the file" },
            )
        });
        if !self.focused {
            field.request_focus();
            self.focused = true;
            if std::mem::take(&mut self.fresh) {
                select_all(ui, field.id, &self.text);
            }
        }
        done.go = field.lost_focus() && ui.input(|i| i.key_pressed(egui::Key::Enter));
        ui.add_space(6.0);
        if let Some((folder, shelf)) = &self.shelf {
            shelf_of(ui, folder, shelf, done);
        }
        ui.add_space(6.0);
        ui.horizontal(|ui| {
            let named = !self.text.trim().is_empty();
            done.go |= ui.add_enabled(named, Button::new(self.want.words().1)).clicked();
            if self.browser().is_some() {
                let free = self.system.is_none();
                done.browse = ui
                    .add_enabled(free, Button::new("Browse…"))
                    .on_hover_text("Opens your system's own file dialog")
                    .on_disabled_hover_text("Your system's file dialog is open, or is being looked for")
                    .clicked();
            }
            done.cancel = ui.button("Cancel").clicked();
        });
        if self.came_back_empty {
            let words =
                "No file was chosen in your system's dialog. If none opened, type or pick the file here.";
            ui.add_space(4.0);
            ui.add(Label::new(RichText::new(words).color(tokens::of(ui).ink_soft)).wrap());
        }
    }

    /// What opens the system's dialog, if it can be opened.
    fn browser(&self) -> Option<Browse> {
        match self.by {
            PathsBy::System => Some(system_dialog),
            PathsBy::Instead(browse) => Some(browse),
            PathsBy::Typing => None,
        }
    }

    /// Opens the system's dialog on a thread of its own.
    fn browse(&mut self, ui: &Ui) {
        let Some(browser) = self.browser() else { return };
        let (sender, receiver) = mpsc::channel();
        let (ctx, want) = (ui.ctx().clone(), self.want.clone());
        let folder = self.shelf.as_ref().map_or_else(|| self.folder.clone(), |(folder, _)| folder.clone());
        #[expect(clippy::disallowed_methods, reason = "the system's dialog blocks until it is answered")]
        std::thread::spawn(move || {
            let path = browser(&want, &folder);
            // The page may have closed in the meantime.
            let _ = sender.send(path);
            ctx.request_repaint();
        });
        self.system = Some(receiver);
        self.came_back_empty = false;
    }

    /// The file that was chosen in the system's dialog, if it is answered.
    fn poll(&mut self) -> Option<PathBuf> {
        let answer = self.system.as_ref()?.try_recv();
        match answer {
            Err(TryRecvError::Empty) => None,
            Ok(Some(path)) => Some(path),
            Ok(None) | Err(TryRecvError::Disconnected) => {
                self.system = None;
                self.came_back_empty = true;
                // The keyboard goes back to the field.
                self.focused = false;
                None
            }
        }
    }

    fn settle(
        mut self,
        path: PathBuf,
        asked: bool,
        desk: &AppRunner,
        out: &mut Vec<Command>,
    ) -> Option<Self> {
        if self.want.writes() && !asked && desk.is_there(&path) {
            self.replace = Some(path);
            return Some(self);
        }
        out.push(self.want.answer(path));
        None
    }

    /// Asks before a file is written over.
    fn ask_replace(mut self, ui: &mut Ui, path: PathBuf, out: &mut Vec<Command>) -> Option<Self> {
        let (mut go, mut other, mut cancel) = (false, false, false);
        let closed = window(ui, "Replace the file?", 460.0, |ui| {
            ui.add(Label::new(format!("There is a file already: {}", path.display())).wrap());
            ui.add_space(6.0);
            ui.horizontal(|ui| {
                go = ui.button("Replace it").clicked();
                other = ui.button("Another name").clicked();
                cancel = ui.button("Cancel").clicked();
            });
        });
        if go {
            out.push(self.want.answer(path));
            return None;
        }
        if other {
            self.text = path.display().to_string();
            (self.focused, self.fresh) = (false, true);
            return Some(self);
        }
        self.replace = Some(path);
        (!closed && !cancel).then_some(self)
    }
}

/// Marks the whole text of a field, so that what is typed takes its place.
fn select_all(ui: &Ui, field: egui::Id, text: &str) {
    let mut state = TextEdit::load_state(ui.ctx(), field).unwrap_or_default();
    let end = CCursor::new(text.chars().count());
    state.cursor.set_char_range(Some(CCursorRange::two(CCursor::new(0), end)));
    state.store(ui.ctx(), field);
}

/// What lies in a folder, to be pressed; the folder above comes first.
fn shelf_of(ui: &mut Ui, folder: &Path, shelf: &[(String, bool)], done: &mut Done) {
    let t = tokens::of(ui);
    let where_to = RichText::new(format!("In {}", folder.display())).size(tokens::SMALL).color(t.ink_soft);
    ui.add(Label::new(where_to).wrap());
    ScrollArea::vertical().max_height(180.0).auto_shrink([false, true]).show(ui, |ui| {
        ui.with_layout(egui::Layout::top_down_justified(egui::Align::LEFT), |ui| {
            if let Some(above) = folder.parent()
                && ui.selectable_label(false, "↑ Folder above").clicked()
            {
                done.picked = Some((above.to_path_buf(), false));
            }
            for (name, is_folder) in shelf {
                let words = if *is_folder { format!("{name}/") } else { name.clone() };
                if ui.selectable_label(false, words).clicked() {
                    done.picked = Some((folder.join(name), !is_folder));
                }
            }
        });
    });
}
