//! A design as it was read from a file: what is found out about it later is told with its place in the file.

use std::path::{Path, PathBuf};

use super::files;
use potset_base::Note;
use potset_doc::{Design, assets, format};

/// A design and the text that it came from.
pub struct Opened {
    pub design: Design,
    path: PathBuf,
    /// Nothing for a design that is no file.
    bytes: Vec<u8>,
}

impl Opened {
    /// Reads a design file.
    ///
    /// # Errors
    /// A note with file, line, field and mend.
    pub fn read(path: &Path) -> Result<Self, Note> {
        let bytes = files::bytes(path)?;
        let design = format::read_design(&bytes).map_err(|note| files::named(path, note))?;
        Ok(Self { design, path: path.to_path_buf(), bytes })
    }

    /// A demo design, which is in the program.
    ///
    /// # Errors
    /// A note if there is none of that name.
    pub fn demo(name: &str) -> Result<Self, Note> {
        Ok(Self { design: assets::demo(name)?, path: name.into(), bytes: Vec::new() })
    }

    /// The file, if it is one.
    pub fn file(&self) -> Option<&Path> {
        (!self.bytes.is_empty()).then_some(self.path.as_path())
    }

    /// A note about the design with its file, and with the line of its field where that can be found.
    pub fn placed(&self, note: Note) -> Note {
        files::named(&self.path, format::placed(&self.bytes, note))
    }
}
