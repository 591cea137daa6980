//! What an edit is called in the undo menu.

use super::Edit;
use crate::Design;
use potset_base::units::WARMTH;
use potset_base::{number, units};

/// The name of an edit in the undo menu: "Sugar 6.0 → 8.5 g/L" where the old value is known.
pub fn label(before: &Design, edit: &Edit) -> String {
    let moved = |what: &str, old: Option<f64>, new: f64, decimals: usize, unit: &str| {
        let new = number::with_unit(new, decimals, unit);
        old.map_or_else(
            || format!("{what} {new}"),
            |old| {
                let scale = units::scale(unit);
                format!("{what} {} → {new}", number::fixed(scale.shown(old), scale.decimals(decimals)))
            },
        )
    };
    match edit {
        Edit::Rename(name) => format!("Name “{name}”"),
        Edit::BaseLitres(i, v) => moved("Base", before.bases.get(*i).map(|b| b.litres), *v, 2, "L"),
        Edit::BaseShare(i, v) => {
            let old = before.bases.get(*i).map(|b| 100.0 * b.litres / before.litres());
            moved("Share", old, 100.0 * v, 0, "%")
        }
        Edit::BaseLock(_, true) => "Lock a share".to_owned(),
        Edit::BaseLock(_, false) => "Unlock a share".to_owned(),
        Edit::Measure(_, _, by) => format!("Measured in {}", by.word(true)),
        Edit::BaseLabel(..) | Edit::BaseFigures(..) => "Label figure".to_owned(),
        Edit::BaseMeasured(..) => "What was measured of the base".to_owned(),
        Edit::CultureMeasured(..) => "What was measured of the culture".to_owned(),
        Edit::SugarDose(i, v) => moved("Sugar", before.sugars.get(*i).map(|s| s.g_per_l), *v, 1, "g/L"),
        Edit::ThickenerDose(i, v) => {
            moved("Thickener", before.thickeners.get(*i).map(|t| t.g_per_l), *v, 1, "g/L")
        }
        Edit::ThickenerMixedFirst(..) => "How the thickener goes in".to_owned(),
        Edit::ThickenerGoesIn(..) => "When the thickener goes in".to_owned(),
        Edit::CultureRate(i, v) => {
            moved("Culture", before.cultures.get(*i).map(|c| c.rate), *v, 2, "× packet")
        }
        Edit::SugarWhen(..) => "When the sugar goes in".to_owned(),
        Edit::AdditiveDose(i, v) => {
            moved("Additive", before.additives.get(*i).map(|a| a.g_per_l), *v, 2, "g/L")
        }
        Edit::AdditiveWhen(..) => "When the additive goes in".to_owned(),
        Edit::CultureAge(i, v) => {
            moved("Age of the culture", before.cultures.get(*i).map(|c| c.age_days), *v, 0, "days")
        }
        Edit::CultureKept(..) | Edit::CultureOpened(..) => "How the culture was kept".to_owned(),
        Edit::BasePacked(..) => "What the label says".to_owned(),
        Edit::BasePack(..) => "What the base comes in".to_owned(),
        Edit::CulturePacket(..) => "What the packet says".to_owned(),
        Edit::CulturePowder(..) => "How the culture is weighed".to_owned(),
        Edit::Swap(shelf, ..) => format!("Swap {}", shelf.one()),
        Edit::Add(shelf, ..) => format!("Add {}", shelf.one()),
        Edit::Remove(shelf, _) => format!("Remove {}", shelf.one()),
        Edit::StartTemperature(v) => moved("Start temperature", None, *v, 1, WARMTH),
        Edit::CultureTemperature(v) => moved("Add culture at", None, *v, 1, WARMTH),
        Edit::HoldTemperature(v) => moved("Hold", before.hold().map(|h| h.set_c), *v, 1, WARMTH),
        Edit::HoldHours(v) => moved("Stop at", before.hold().map(|h| h.hours), *v, 1, "h"),
        Edit::Warmer(_) => "Warmer".to_owned(),
        Edit::Events(_) => "What happens in the hold".to_owned(),
        Edit::Measured(_) => "Measured temperatures".to_owned(),
        Edit::ChillTemperature(v) => moved("Chill", before.chill().map(|c| c.0), *v, 1, WARMTH),
        Edit::ChillHours(v) => moved("Chill for", before.chill().map(|c| c.1), *v, 0, "h"),
        Edit::Steps(_) => "Steps".to_owned(),
        Edit::Style(style) => format!("Style {}", style.word()),
        Edit::Disturbed(how) => format!("Disturbed {}", how.words()),
        Edit::Vessel(_) | Edit::PotCount(_) => "Pots".to_owned(),
        Edit::Serving(v) => moved("Serving", Some(before.pots.serving_g), *v, 0, "g"),
        Edit::Goals(_) => "Goals".to_owned(),
        Edit::Clock(_) => "Clock".to_owned(),
        Edit::Spoons(set) => format!("Spoons {}", set.words()),
        Edit::Renew(kind, _) => format!("Update the {}", kind.one()),
        Edit::NotesText(_) => "Notes".to_owned(),
        Edit::CardSentence(_, Some(_)) => "A sentence of the card".to_owned(),
        Edit::CardSentence(_, None) => "A sentence of the card as it was".to_owned(),
        Edit::Together(name, _) => name.clone(),
    }
}
