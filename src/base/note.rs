//! A note: how grave, which field, one sentence, one mend.

/// How grave a note is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Good to know.
    Tip,
    /// Look at this; the pot may miss its goals.
    Watch,
    /// Do not go on like this; health or the whole pot is at stake.
    Stop,
    /// The input cannot be used; there is no forecast.
    Error,
}

/// Something to tell the maker about one field.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    pub severity: Severity,
    /// The field it is about, as the screen and the file name it: `sugars[0].g_per_l`.
    pub field: String,
    /// What is the case, one short line.
    pub title: String,
    /// Why, with numbers.
    pub sentence: String,
    /// What to do about it.
    pub mend: String,
}

impl Note {
    /// An input that cannot be used.
    pub fn error(field: impl Into<String>, title: impl Into<String>, mend: impl Into<String>) -> Self {
        Self {
            severity: Severity::Error,
            field: field.into(),
            title: title.into(),
            sentence: String::new(),
            mend: mend.into(),
        }
    }

    /// Something done that is good to know.
    pub fn done(field: impl Into<String>, title: impl Into<String>) -> Self {
        Self { severity: Severity::Tip, ..Self::error(field, title, "") }
    }

    /// The note on one line, for terminals.
    pub fn line(&self) -> String {
        let mut line = self.title.clone();
        for part in [&self.sentence, &self.mend] {
            if !part.is_empty() {
                line.push_str(". ");
                line.push_str(part.trim_end_matches('.'));
            }
        }
        if self.field.is_empty() { line } else { format!("{}: {line}", self.field) }
    }
}

impl std::fmt::Display for Note {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.line())
    }
}
