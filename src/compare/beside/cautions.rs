//! What the designs are warned of, beside each other.

use potset_base::Severity;
use potset_judge::answer::Answer;

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
            Some(_) => "look at it",
            None => "no",
        }
    }

    fn gravest(&self) -> Option<Severity> {
        self.of.iter().copied().flatten().max()
    }
}

/// The warnings of all designs, those to stop at first; tips are left out.
pub fn rows(answers: &[&Answer]) -> Vec<CautionRow> {
    let mut all: Vec<CautionRow> = Vec::new();
    for (i, answer) in answers.iter().enumerate() {
        let warnings = answer
            .verdict
            .against
            .iter()
            .chain(&answer.verdict.advice)
            .map(|a| &a.note)
            .filter(|n| n.severity > Severity::Tip);
        for note in warnings {
            let at = all.iter().position(|row| row.title == note.title).unwrap_or_else(|| {
                all.push(CautionRow { title: note.title.clone(), of: vec![None; answers.len()] });
                all.len() - 1
            });
            let of = &mut all[at].of[i];
            *of = (*of).max(Some(note.severity));
        }
    }
    all.sort_by_key(|row| std::cmp::Reverse(row.gravest()));
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_base::Note;
    use potset_judge::advice::Advice;

    #[test]
    fn one_row_for_each_warning_the_gravest_first() {
        let answer = |notes: &[(Severity, &str)]| {
            let mut answer = Answer::default();
            answer.verdict.advice = notes
                .iter()
                .map(|(severity, title)| Advice {
                    note: Note { severity: *severity, ..Note::error("design", *title, "") },
                    mend: None,
                })
                .collect();
            answer
        };
        let a = answer(&[(Severity::Tip, "a tip"), (Severity::Watch, "thin")]);
        let b = answer(&[(Severity::Watch, "thin"), (Severity::Stop, "slow"), (Severity::Watch, "slow")]);
        let rows = rows(&[&a, &b]);
        assert_eq!(rows.iter().map(|r| r.title.as_str()).collect::<Vec<_>>(), ["slow", "thin"]);
        assert_eq!((rows[0].words(0), rows[0].words(1)), ("no", "stop"));
        assert_eq!((rows[1].words(0), rows[1].words(1)), ("look at it", "look at it"));
    }
}
