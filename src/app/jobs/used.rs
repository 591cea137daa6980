//! Which designs at hand use which entries.

use std::path::PathBuf;
use std::sync::Arc;

use super::{At, Job, Key, Step, fault};
use crate::command::{Command, PantryCommand, WindowCommand};
use crate::shelves::LookedThrough;
use potset_doc::assets;
use potset_store::files;

/// Looks through the demo designs and those on the disk.
pub struct LookThroughJob(pub Vec<PathBuf>);

impl Job for LookThroughJob {
    fn key(&self) -> Key {
        Key::LookThrough
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let demos = assets::DEMOS.iter().filter_map(|(name, _)| {
            let design = assets::demo(name).ok()?;
            Some(LookedThrough {
                name: design.name.clone(),
                place: "demo".to_owned(),
                design: Arc::new(design),
            })
        });
        let files = self.0.iter().filter_map(|path| {
            let design = files::design(path).ok()?;
            let place = path.file_name()?.to_string_lossy().into_owned();
            Some(LookedThrough { name: design.name.clone(), place, design: Arc::new(design) })
        });
        Step::done(PantryCommand::Seen(files.chain(demos).collect()).into())
    }

    fn fault(&self) -> Command {
        WindowCommand::Failed(fault("Pantry", "Looking through the designs", "Open the Pantry again")).into()
    }
}
