//! What is remembered between sessions: settings, the kitchen, and a recovery copy of unsaved work.

use std::fs;
use std::path::PathBuf;

use super::files;
use super::folders::Folders;
use crate::base::Note;
use crate::doc::{Design, Kitchen, OwnPantry, Settings, format};

/// Reads settings and kitchen; bad files are set aside and told of.
#[must_use]
pub fn load(folders: &Folders) -> (Settings, Kitchen, Vec<Note>) {
    let (settings, bad_settings) = files::read_or_default::<Settings>(&settings_file(folders));
    let (kitchen, bad_kitchen) = files::read_or_default::<Kitchen>(&kitchen_file(folders));
    (settings, kitchen, bad_settings.into_iter().chain(bad_kitchen).collect())
}

/// Reads the maker's own pantry; a bad file is set aside and told of.
#[must_use]
pub fn own(folders: &Folders) -> (OwnPantry, Option<Note>) {
    let (own, bad) = files::read_or_default::<OwnPantry>(&own_file(folders));
    match own.fault() {
        None => (own, bad),
        // It is kept as it is: a forecast would not be true with it, but nothing is lost.
        Some(fault) => (own, bad.or(Some(fault))),
    }
}

/// Saves the maker's own pantry.
///
/// # Errors
/// A note if it could not be written.
pub fn save_own(folders: &Folders, own: &OwnPantry) -> Result<(), Note> {
    files::write(&own_file(folders), &format::write(own)?)
}

/// Saves the settings.
///
/// # Errors
/// A note if they could not be written.
pub fn save_settings(folders: &Folders, settings: &Settings) -> Result<(), Note> {
    files::write(&settings_file(folders), &format::write(settings)?)
}

/// Saves the kitchen.
///
/// # Errors
/// A note if it could not be written.
pub fn save_kitchen(folders: &Folders, kitchen: &Kitchen) -> Result<(), Note> {
    files::write(&kitchen_file(folders), &format::write(kitchen)?)
}

/// Most designs with unsaved work of which copies are kept.
const MOST_KEPT: usize = 5;

/// Keeps a copy of each design with unsaved work; copies of others go.
///
/// # Errors
/// A note if one could not be written.
pub fn keep_recovery(folders: &Folders, designs: &[&Design]) -> Result<(), Note> {
    for n in 0..MOST_KEPT {
        let path = recovery_file(folders, n);
        match designs.get(n) {
            Some(design) => files::write(&path, &format::write(*design)?)?,
            None => {
                for file in [files::last_good(&path), path] {
                    // It may never have been there.
                    let _ = fs::remove_file(file);
                }
            }
        }
    }
    Ok(())
}

/// Work that an earlier session did not save.
#[must_use]
pub fn recovery(folders: &Folders) -> Vec<Design> {
    let paths = (0..MOST_KEPT).map(|n| recovery_file(folders, n)).filter(|path| path.is_file());
    paths.filter_map(|path| files::design(&path).ok()).collect()
}

fn settings_file(folders: &Folders) -> PathBuf {
    folders.settings.join("settings.ron")
}

fn own_file(folders: &Folders) -> PathBuf {
    folders.own.join("pantry.ron")
}

fn kitchen_file(folders: &Folders) -> PathBuf {
    folders.settings.join("kitchen.ron")
}

fn recovery_file(folders: &Folders, n: usize) -> PathBuf {
    let name = if n == 0 { "unsaved-design.ron".to_owned() } else { format!("unsaved-design-{}.ron", n + 1) };
    folders.state.join(name)
}
