//! What is typed of a call: "no-tang", "hold=9h", "sugar=a sweetener".

use crate::data::{Asked, Symptom, data};
use crate::fact::{Fact, FactValue};
use potset_base::{Note, number};

/// Other words for the units of answers.
const UNITS: [&str; 8] = ["hour", "hours", "x", "month", "packets", "c", "f", "°f"];

impl Symptom {
    /// A symptom by its name, or by the words of its button.
    ///
    /// # Errors
    /// A note that lists what can be seen.
    pub fn read(text: &str) -> Result<Self, Note> {
        let typed = text.trim().to_lowercase().replace(['_', ' '], "-");
        let rows = &data().symptoms;
        let own = |words: &str| words.to_lowercase().replace(' ', "-") == typed;
        let found = rows.iter().find(|row| own(&row.name) || own(&row.tap));
        found.map(|row| row.key).ok_or_else(|| {
            let all: Vec<&str> = rows.iter().map(|row| row.name.as_str()).collect();
            let title = format!("I don't know “{}”", potset_base::words::shortened(text.trim(), 40));
            Note::error("saw", title, format!("Say one of {}", all.join(", ")))
        })
    }
}

impl Fact {
    /// An answer, its question and a value with "=" between.
    ///
    /// # Errors
    /// A note that names the question and what can be answered.
    pub fn read(text: &str) -> Result<Self, Note> {
        let rows = &data().facts;
        let all = || {
            rows.iter().filter_map(|row| row.names.first().map(String::as_str)).collect::<Vec<_>>().join(", ")
        };
        let Some((name, value)) = text.split_once('=') else {
            let title = format!("“{}” is no answer", potset_base::words::shortened(text.trim(), 40));
            return Err(Note::error("know", title, format!("Say it as hours=9; there are {}", all())));
        };
        let typed = name.trim().to_lowercase().replace(['_', ' '], "-");
        let Some(row) = rows.iter().find(|row| row.names.contains(&typed)) else {
            let title = format!("I don't know “{}”", potset_base::words::shortened(name.trim(), 40));
            return Err(Note::error("know", title, format!("Say one of {}", all())));
        };
        let value = Self::value(&row.of, value).ok_or_else(|| {
            let title = format!(
                "“{}” is no answer to “{}”",
                potset_base::words::shortened(value.trim(), 40),
                row.ask
            );
            let mend = match &row.of {
                Asked::Number { unit, .. } => format!("Give a number in {unit}, 0 or more"),
                Asked::Choice(answers) => format!("Say one of: {}", answers.join("; ")),
            };
            Note::error("know", title, mend)
        })?;
        Ok(Self { kind: row.key, value })
    }

    /// A typed answer to a question; nothing where it is none.
    pub fn value(of: &Asked, text: &str) -> Option<FactValue> {
        let text = text.trim().to_lowercase();
        match of {
            Asked::Number { unit, .. } => {
                // The unit may stand right behind, or be left out in part: "9h", "0.5x", "5 months".
                let number = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
                let (value, rest) = text.split_at(text.find(|c| !number(c)).unwrap_or(text.len()));
                let rest = rest.trim();
                let known = unit.to_lowercase().contains(rest) || UNITS.contains(&rest);
                let plain = number::in_unit(&text, unit).or_else(|| number::parse(value)).filter(|_| known);
                plain.filter(|v| v.is_finite() && (0.0..=1e4).contains(v)).map(FactValue::Number)
            }
            Asked::Choice(answers) => {
                let whole = answers.iter().position(|own| own.to_lowercase() == text);
                let begun = || {
                    let mut all =
                        answers.iter().enumerate().filter(|(_, own)| own.to_lowercase().contains(&text));
                    let first = all.next();
                    first.filter(|_| all.next().is_none() && !text.is_empty()).map(|(i, _)| i)
                };
                whole.or_else(begun).map(FactValue::Choice)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::data::FactKind;

    #[test]
    fn symptoms_and_answers_are_read_as_people_type_them() {
        assert_eq!(Symptom::read("No tang"), Ok(Symptom::NoTang));
        assert_eq!(Symptom::read("no_tang"), Ok(Symptom::NoTang));
        assert_eq!(Symptom::read("split in layers"), Ok(Symptom::Split));
        assert!(Symptom::read("blue").unwrap_err().line().contains("no-tang"));
        let read = |text: &str| Fact::read(text).map(|fact| (fact.kind, fact.value));
        for (text, kind, value) in [
            ("hold=9h", FactKind::Hours, FactValue::Number(9.0)),
            ("hours = 9,5", FactKind::Hours, FactValue::Number(9.5)),
            ("dose=0.1", FactKind::Dose, FactValue::Number(0.1)),
            ("age=5 months", FactKind::Age, FactValue::Number(5.0)),
            ("sugar=a sweetener", FactKind::Sugar, FactValue::Choice(2)),
            ("sugar=none", FactKind::Sugar, FactValue::Choice(1)),
            ("thickener=dry", FactKind::Thickener, FactValue::Choice(3)),
        ] {
            assert_eq!(read(text), Ok((kind, value)), "{text}");
        }
        for text in
            ["hold", "hold=", "hold=long", "hold=8 hlong", "hold=-3", "sugar=blue", "thickener=", "x=1"]
        {
            let note = Fact::read(text).unwrap_err();
            assert!(!note.mend.is_empty(), "{text}");
        }
    }
}
