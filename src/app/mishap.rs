//! What the Mishap view works on: the pot that is asked about, what was said of it, what came of that, and the call log.

use std::sync::Arc;

use potset_base::{Note, choices};
use potset_doc::calls::{Call, CallLog};
use potset_forecast::scenario::OwnedScenario;
use potset_mishap::{Fact, FactKind, Mishap, Next, Ranking, Symptom, WhatToDo, data};
use potset_science::Forecast;

choices! {
    /// The pages of the view.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
    pub enum MishapPage: words {
        #[default]
        Call => "This call",
        Log => "Call log",
    }
}

choices! {
    /// The two forms of an answer.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
    pub enum AnswerForm: words {
        #[default]
        ReadOut => "To read out",
        Send => "To send",
    }
}

/// The pot that is asked about, as it was planned.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    pub scenario: OwnedScenario,
    /// It is the design on the bench; else a batch.
    pub on_bench: bool,
}

/// What came of what was said.
#[derive(Clone, Debug)]
pub struct MishapTold {
    pub mishap: Arc<Mishap>,
    pub ranking: Ranking,
    pub next: Next,
    pub what: WhatToDo,
    pub planned: Arc<Forecast>,
    /// The curves of the first causes of the ranking; nothing where one cannot be forecast.
    pub curves: Vec<Option<Arc<Forecast>>>,
    pub read_out: String,
    pub to_send: String,
}

/// So many causes are drawn.
pub const DRAWN: usize = 5;

/// The Mishap view.
#[derive(Clone, Debug, Default)]
pub struct MishapState {
    pub page: MishapPage,
    pub asked: Option<Asked>,
    pub saw: Vec<Symptom>,
    pub known: Vec<Fact>,
    /// Questions that the caller cannot answer.
    pub skipped: Vec<FactKind>,
    /// The newest question; answers to older ones are dropped.
    pub question: u64,
    pub answered: u64,
    pub told: Option<Arc<MishapTold>>,
    pub trouble: Option<Note>,
    /// The place of the cause whose curves are shown.
    pub chosen: usize,
    pub form: AnswerForm,
    /// The answer as the teacher changed it.
    pub text: Option<String>,
    pub log: CallLog,
    /// As it was read or written last.
    pub log_base: CallLog,
    /// What is typed of the packet.
    pub lot: String,
    pub age: String,
    /// This call is in the log already.
    pub logged: bool,
    /// Calls that were removed, with their places, the last one last.
    pub removed: Vec<(usize, Call)>,
}

impl MishapState {
    /// Whether an answer is on its way.
    pub const fn busy(&self) -> bool {
        self.answered < self.question
    }

    /// Nothing is said of the next pot yet.
    pub fn begin(&mut self, asked: Option<Asked>) {
        let question = self.question + 1;
        let (log, log_base) = (std::mem::take(&mut self.log), std::mem::take(&mut self.log_base));
        let removed = std::mem::take(&mut self.removed);
        *self = Self { asked, question, answered: question, log, log_base, removed, ..Self::default() };
    }

    /// The answer as it stands on the screen.
    pub fn answer(&self) -> Option<String> {
        let told = self.told.as_ref()?;
        let made = match self.form {
            AnswerForm::ReadOut => &told.read_out,
            AnswerForm::Send => &told.to_send,
        };
        Some(self.text.clone().unwrap_or_else(|| made.clone()))
    }

    /// The call as it would go into the log.
    ///
    /// # Errors
    /// A note about what is typed of the packet's age.
    pub fn call(&self, day: String) -> Result<Option<Call>, Note> {
        let (Some(told), Some(asked)) = (&self.told, &self.asked) else { return Ok(None) };
        let design = &asked.scenario.design;
        let name = |kind, key: Option<&String>| {
            key.map_or_else(String::new, |key| design.name_of(&asked.scenario.pantry, kind, key).to_owned())
        };
        let age = self.age.trim();
        let age_months = if age.is_empty() {
            None
        } else {
            let fits = |v: &f64| (0.0..=600.0).contains(v);
            let read =
                potset_base::number::in_unit(age, "months").or_else(|| potset_base::number::parse(age));
            Some(read.filter(fits).ok_or_else(|| {
                let title = format!("I don't know “{}” as an age", potset_base::words::shortened(age, 30));
                Note::error("Age of the packet", title, "Give months since it was opened, as 5")
            })?)
        };
        let table = data();
        let key =
            |symptom: &Symptom| table.symptom(*symptom).map_or_else(String::new, |row| row.name.clone());
        let cause = told.ranking.causes.get(self.chosen).or_else(|| told.ranking.causes.first());
        Ok(Some(Call {
            day,
            base: name(potset_doc::pantry::EntryKind::Base, design.bases.first().map(|line| &line.entry)),
            culture: name(
                potset_doc::pantry::EntryKind::Culture,
                design.cultures.first().map(|line| &line.entry),
            ),
            lot: self.lot.trim().to_owned(),
            age_months,
            saw: self.saw.iter().map(key).collect(),
            cause: cause.map_or_else(String::new, |cause| table.causes[cause.cause].key.clone()),
            thrown_away: told.what.throw_away.is_some(),
        }))
    }
}

/// The words of a key of the call log: a symptom's or a cause's.
pub fn words_of(key: &str) -> String {
    let table = data();
    let symptom = table.symptoms.iter().find(|row| row.name == key).map(|row| row.tap.clone());
    symptom.or_else(|| table.cause(key).map(|cause| cause.name.clone())).unwrap_or_else(|| key.to_owned())
}
