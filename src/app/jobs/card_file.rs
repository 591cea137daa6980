//! Files of the Card view: the card, the leaflet, labels, the times as a calendar.

use std::path::PathBuf;

use super::card::{CardQuestion, broken};
use super::{At, Job, Key, Step};
use crate::card::CardFile;
use crate::command::{CardCommand, Command};
use potset_base::Note;
use potset_base::clock::day_words;
use potset_export::calendar;
use potset_make::packet::splits;
use potset_paper::{Form, labels};
use potset_report::card::sheet;
use potset_report::leaflet;
use potset_store::{files, viewer};

/// Writes a file of the Card view.
pub struct CardFileJob {
    pub question: CardQuestion,
    pub path: PathBuf,
    pub what: CardFile,
    /// The system's viewer opens it then.
    pub open: bool,
}

impl CardFileJob {
    fn write(&self) -> Result<(), Note> {
        let Self { question, path, what, open } = self;
        if *what == CardFile::Card && calendar::is_named(path) {
            let told = question.clock(&question.answered()?)?;
            let text = calendar::calendar(&[*told.pot], Some(&question.zone))?;
            return files::write_bytes(path, text.as_bytes());
        }
        let form = Form::of(path)?;
        let size = question.wish.size;
        let all = match what {
            CardFile::Card => form.files(&question.sheet(sheet)?, size)?,
            CardFile::Leaflet => form.files(&question.sheet(leaflet::sheet)?, size)?,
            CardFile::Labels(line) => {
                let page = labels(&question.label(*line)?, size);
                form.of_pages(&[page], "Labels")?
            }
        };
        for (i, bytes) in all.iter().enumerate() {
            files::write_bytes(&potset_paper::numbered(path, i + 1), bytes)?;
        }
        if *open { viewer::open(path) } else { Ok(()) }
    }
}

impl Job for CardFileJob {
    fn key(&self) -> Key {
        Key::Export(self.path.clone())
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let done = self.write();
        Step::done(CardCommand::Exported(self.path, done).into())
    }

    fn fault(&self) -> Command {
        CardCommand::Exported(self.path.clone(), Err(broken())).into()
    }
}

impl CardQuestion {
    /// The label of the dry mix that is to be made first.
    fn label(&self, i: usize) -> Result<Vec<String>, Note> {
        let (name, ask) = self.split_ask(self.scenario.design.as_ref(), i)?;
        let all = splits(&ask)?;
        let split = all.iter().find(|split| !split.mixes.is_empty());
        let day = self.now.map(|now| day_words(&now.day()));
        let label = split.and_then(|split| {
            potset_report::labels::label(&name, split, split.grams / ask.pot_litres, day.as_deref())
        });
        label.ok_or_else(|| Note::error("packet", "Nothing is mixed of this packet", "Weigh it as it is"))
    }
}
