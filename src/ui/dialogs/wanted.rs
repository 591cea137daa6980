//! What a path is asked for: how the page is called, which files it shows, and which command the answer is.

use std::path::{Path, PathBuf};

use potset_app::Command;
use potset_app::card::CardFile;
use potset_app::class::ClassFile;
use potset_app::command::{
    BatchFile, BatchesCommand, BesideCommand, CardCommand, ClassCommand, FileCommand, MishapCommand,
    PantryCommand, RecipesCommand,
};

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
    /// What goes into a file of the Card view, and the name to offer; its ending says the form.
    Card(CardFile, String),
    /// What goes into a file of a batch, and the name to offer; its ending says the form.
    Batch(BatchFile, String),
    /// The name to offer for the call log.
    CallLog(String),
    /// What goes into a file of a lesson, the key of the lesson, and the name to offer.
    Lesson(ClassFile, String, String),
    /// A lesson that someone shared.
    ImportLesson,
    /// A logger's file.
    Logger,
    /// A folder to copy pots from.
    ImportBatches,
    /// A folder to copy recipes from, or into.
    ImportFolder,
    ExportFolder,
}

impl Want {
    /// The path with the ending that such a file has, where none was given.
    pub(super) fn ended(&self, path: PathBuf) -> PathBuf {
        match self {
            Self::Save(_) | Self::Share(_) | Self::Lesson(ClassFile::Lesson, ..)
                if path.extension().is_none() =>
            {
                path.with_extension("ron")
            }
            _ => path,
        }
    }

    /// Whether a folder is asked for.
    pub(super) const fn is_folder(&self) -> bool {
        matches!(self, Self::ImportFolder | Self::ExportFolder | Self::ImportBatches)
    }

    pub(super) const fn writes(&self) -> bool {
        matches!(
            self,
            Self::Save(_)
                | Self::Share(_)
                | Self::Export(_)
                | Self::Card(..)
                | Self::Batch(..)
                | Self::CallLog(_)
                | Self::Lesson(..)
        )
    }

    pub(super) fn name(&self) -> &str {
        match self {
            Self::Open
            | Self::Add
            | Self::TakeIn
            | Self::ImportLesson
            | Self::Logger
            | Self::ImportBatches
            | Self::ImportFolder
            | Self::ExportFolder => "",
            Self::Save(name)
            | Self::Share(name)
            | Self::Export(name)
            | Self::Card(_, name)
            | Self::Lesson(.., name)
            | Self::Batch(_, name)
            | Self::CallLog(name) => name,
        }
    }

    /// Title of the page, and what its button does.
    pub(super) const fn words(&self) -> (&'static str, &'static str) {
        match self {
            Self::Open => ("Open a design", "Open"),
            Self::Save(_) => ("Save the design", "Save"),
            Self::Export(_) => ("Export the comparison", "Export"),
            Self::Add => ("Add a design", "Add"),
            Self::TakeIn => ("Import shared entries", "Import"),
            Self::Share(_) => ("Share the entry as a file", "Share"),
            Self::Card(CardFile::Card, _) => ("Export the card", "Write"),
            Self::Card(CardFile::Leaflet, _) => ("Export the leaflet", "Write"),
            Self::Card(CardFile::Labels(_), _) => ("Export labels", "Write"),
            Self::Batch(BatchFile::Record, _) => ("Export the record", "Write"),
            Self::Batch(BatchFile::Readings, _) => ("Export the readings", "Write"),
            Self::CallLog(_) => ("Export the call log", "Write"),
            Self::Lesson(ClassFile::Lesson, ..) => ("Share the lesson", "Write"),
            Self::Lesson(ClassFile::HandOut, ..) => ("Export the hand-out", "Write"),
            Self::Lesson(ClassFile::RunSheet, ..) => ("Export the run sheet", "Write"),
            Self::ImportLesson => ("Import a lesson", "Import"),
            Self::Logger => ("Read a logger's file", "Read"),
            Self::ImportBatches => ("Import all pots of a folder", "Import"),
            Self::ImportFolder => ("Import all recipes of a folder", "Import"),
            Self::ExportFolder => ("Export all recipes to a folder", "Export"),
        }
    }

    pub(super) const fn endings(&self) -> &'static [&'static str] {
        match self {
            Self::Card(..) => &["pdf", "png", "svg", "md", "csv", "ics"],
            Self::Lesson(ClassFile::HandOut | ClassFile::RunSheet, ..)
            | Self::Batch(BatchFile::Record, _) => &["pdf", "png", "svg", "md", "csv"],
            Self::Batch(BatchFile::Readings, _) | Self::CallLog(_) => &["csv"],
            Self::Logger => &["csv", "txt", "tsv", "log", "dat"],
            Self::Export(_) => &["csv", "md", "txt", "png", "svg"],
            _ => &["ron"],
        }
    }

    pub(super) fn answer(&self, path: PathBuf) -> Command {
        match self {
            Self::Open => Command::File(FileCommand::Open(path)),
            Self::Add => Command::Beside(BesideCommand::AddFile(path)),
            Self::Export(_) => Command::Beside(BesideCommand::ExportTo(path)),
            Self::TakeIn => Command::Pantry(PantryCommand::TakeIn(path)),
            Self::Share(_) => Command::Pantry(PantryCommand::ShareTo(path)),
            Self::Save(_) => Command::File(FileCommand::SaveAs(path)),
            Self::Card(what, _) => Command::Card(CardCommand::ExportTo(*what, path)),
            Self::Batch(what, _) => Command::Batches(BatchesCommand::ExportTo(*what, path)),
            Self::CallLog(_) => Command::Mishap(MishapCommand::ExportTo(path)),
            Self::Lesson(what, key, _) => Command::Class(ClassCommand::FileTo(*what, key.clone(), path)),
            Self::ImportLesson => Command::Class(ClassCommand::Import(path)),
            Self::Logger => Command::Batches(BatchesCommand::Logger(path)),
            Self::ImportBatches => Command::Batches(BatchesCommand::Import(path)),
            Self::ImportFolder => Command::Recipes(RecipesCommand::Import(path)),
            Self::ExportFolder => Command::Recipes(RecipesCommand::Export(path)),
        }
    }
}

/// Asks for a path in a window of the system, beginning with a folder; waits until it is answered. Nothing comes back
/// where the maker cancelled, and where there is no such window.
pub type Browse = fn(&Want, &Path) -> Option<PathBuf>;

pub(super) fn system_dialog(want: &Want, folder: &Path) -> Option<PathBuf> {
    let kind = match want {
        Want::Export(_)
        | Want::Card(..)
        | Want::Batch(..)
        | Want::CallLog(_)
        | Want::Lesson(ClassFile::HandOut | ClassFile::RunSheet, ..) => "Table or picture",
        Want::Logger => "Table of a logger",
        _ => "Potset file",
    };
    if want.is_folder() {
        return rfd::FileDialog::new().set_directory(folder).pick_folder();
    }
    let dialog = rfd::FileDialog::new().add_filter(kind, want.endings()).set_directory(folder);
    if want.writes() { dialog.set_file_name(want.name()).save_file() } else { dialog.pick_file() }
}
