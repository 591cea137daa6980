//! The columns of Beside come back as they stood in the last session.

use std::path::PathBuf;

use super::AppRunner;
use crate::columns::{self, Holds};
use crate::command::{BesideCommand, WindowCommand};
use crate::session::Session;
use potset_base::Note;
use potset_doc::format;
use potset_doc::settings::KeptColumn;
use potset_store::files;

impl AppRunner {
    /// Puts the designs beside each other that stood so when the program was closed. What cannot be read is told, and left out.
    pub fn columns_come_back(&mut self) {
        let mut list = Vec::new();
        for column in self.state.settings.beside.clone() {
            match self.kept(column) {
                Ok(holds) => list.extend(holds),
                Err(note) => self.run(WindowCommand::Failed(note)),
            }
        }
        if list.iter().any(Option::is_some) {
            self.run(BesideCommand::ComeBack(list));
        }
    }

    /// What stands in a column: nothing where it is on the bench already, nothing in it for the bench itself.
    fn kept(&self, column: KeptColumn) -> Result<Option<Option<Holds>>, Note> {
        let kept = |session: Session, from: String| Some(Some(Holds::Kept(Box::new(session), from)));
        match column {
            KeptColumn::Bench => Ok(Some(None)),
            KeptColumn::Case(key) => columns::case(&key, &self.state.pantry).map(|holds| Some(Some(holds))),
            KeptColumn::Copy { text, from } => {
                format::read_design(text.as_bytes()).map(|design| kept(Session::copy(design), from))
            }
            KeptColumn::File(path) => {
                let path = PathBuf::from(path);
                if self.state.session.path.as_ref() == Some(&path) {
                    return Ok(None);
                }
                let stamp = files::stamp(&path);
                let design = files::design(&path)?;
                let name = path.file_name().map_or_else(String::new, |n| n.to_string_lossy().into_owned());
                Ok(kept(Session::of_file(design, path, stamp), name))
            }
        }
    }
}
