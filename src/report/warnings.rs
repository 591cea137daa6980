//! What the designs are warned of, beside each other.

use crate::advice::note;
use crate::beside::sentence;
use crate::hygiene::discard;
use potset_base::Severity;
use potset_compare::beside::Comparison;

/// One warning, and which of the designs it is for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CautionRow {
    pub title: String,
    /// How grave it is in each design; nothing where it is not said of it.
    pub of: Vec<Option<Severity>>,
}

impl CautionRow {
    /// What it means for a design.
    pub fn words(&self, i: usize) -> &'static str {
        match self.of.get(i).copied().flatten() {
            Some(Severity::Stop | Severity::Error) => "stop",
            Some(_) => "look out",
            None => "no",
        }
    }

    fn gravest(&self) -> Option<Severity> {
        self.of.iter().copied().flatten().max()
    }
}

/// The warnings of all designs, those to stop at first; tips are left out.
pub fn rows(beside: &Comparison) -> Vec<CautionRow> {
    let mut all: Vec<CautionRow> = Vec::new();
    for (i, warnings) in beside.warnings.iter().enumerate() {
        for note in warnings.iter().map(note) {
            let at = all.iter().position(|row| row.title == note.title).unwrap_or_else(|| {
                all.push(CautionRow { title: note.title.clone(), of: vec![None; beside.warnings.len()] });
                all.len() - 1
            });
            let of = &mut all[at].of[i];
            *of = (*of).max(Some(note.severity));
        }
    }
    all.sort_by_key(|row| std::cmp::Reverse(row.gravest()));
    all
}

/// What is to be thrown away, by name: it stands first wherever the designs are told of.
pub fn discards(beside: &Comparison) -> Vec<String> {
    let first = beside.warnings.iter().map(|warnings| discard(warnings.first()?));
    beside.names.iter().zip(first).filter_map(|(name, first)| Some(format!("{name}: {}", first?))).collect()
}

/// All sentences in the order in which they are read: what is to be thrown away, then how the designs differ.
pub fn said(beside: &Comparison) -> Vec<String> {
    discards(beside).into_iter().chain((1..beside.names.len()).map(|i| sentence(beside, i))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_base::Note;
    use potset_judge::advice::{Advice, Matter};

    #[test]
    fn one_row_for_each_warning_the_gravest_first() {
        let warned = |notes: &[(Severity, &str)]| {
            let of = |(severity, title): &(Severity, &str)| {
                let note = Note { severity: *severity, ..Note::error("design", *title, "") };
                let field = note.field.clone();
                Advice { severity: *severity, field, what: Matter::Told(note), mend: None }
            };
            notes.iter().map(of).collect()
        };
        let a = warned(&[(Severity::Watch, "thin")]);
        let b = warned(&[(Severity::Watch, "thin"), (Severity::Stop, "slow"), (Severity::Watch, "slow")]);
        let rows = rows(&Comparison { warnings: vec![a, b], ..Comparison::default() });
        assert_eq!(rows.iter().map(|r| r.title.as_str()).collect::<Vec<_>>(), ["slow", "thin"]);
        assert_eq!((rows[0].words(0), rows[0].words(1)), ("no", "stop"));
        assert_eq!((rows[1].words(0), rows[1].words(1)), ("look out", "look out"));
    }
}
