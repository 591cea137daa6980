//! The table of actions: words, keys and when each can be done. Menus, keys, the finder and the help sheet read it.

use super::state;
use super::state::{State, View};
use potset_base::measures::SpoonSet;

/// Everything that can be asked for by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Action {
    New,
    Open,
    Save,
    SaveAs,
    Undo,
    Redo,
    Find,
    LightTheme,
    DarkTheme,
    SystemTheme,
    ZoomIn,
    ZoomOut,
    ZoomReset,
    MetricSpoons,
    AustralianSpoons,
    UnitedStatesSpoons,
    ImperialSpoons,
    Bench,
    Beside,
    Aim,
    LookForSettings,
    StopLooking,
    ShowSettings,
    TakeSetting1,
    TakeSetting2,
    TakeSetting3,
    CopySettings,
    AddBeside,
    KeepBeside,
    DuplicateAndChange,
    CopyBeside,
    ExportTable,
    ExportPicture,
    Pantry,
    ReadLabel,
    MakeBase,
    TakeIn,
    UnfoldAll,
    Spread,
    CopyNumbers,
    NextPots,
    Kitchen,
    Numbers,
    Cautions,
    Keys,
    Quit,
}

/// A key: its name as on the keyboard, with Ctrl (Command on a Mac) and Shift.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct KeyPress {
    pub key: &'static str,
    pub shift: bool,
}

impl Action {
    /// All of them, in the order of the menus.
    pub const ALL: [Self; 46] = [
        Self::New,
        Self::Open,
        Self::Save,
        Self::SaveAs,
        Self::Undo,
        Self::Redo,
        Self::Find,
        Self::LightTheme,
        Self::DarkTheme,
        Self::SystemTheme,
        Self::ZoomIn,
        Self::ZoomOut,
        Self::ZoomReset,
        Self::MetricSpoons,
        Self::AustralianSpoons,
        Self::UnitedStatesSpoons,
        Self::ImperialSpoons,
        Self::Bench,
        Self::Beside,
        Self::Aim,
        Self::LookForSettings,
        Self::StopLooking,
        Self::ShowSettings,
        Self::TakeSetting1,
        Self::TakeSetting2,
        Self::TakeSetting3,
        Self::CopySettings,
        Self::AddBeside,
        Self::KeepBeside,
        Self::DuplicateAndChange,
        Self::CopyBeside,
        Self::ExportTable,
        Self::ExportPicture,
        Self::Pantry,
        Self::ReadLabel,
        Self::MakeBase,
        Self::TakeIn,
        Self::UnfoldAll,
        Self::Spread,
        Self::CopyNumbers,
        Self::NextPots,
        Self::Kitchen,
        Self::Numbers,
        Self::Cautions,
        Self::Keys,
        Self::Quit,
    ];

    /// Name in menus and in the finder.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::New => "New design",
            Self::Open => "Open…",
            Self::Save => "Save",
            Self::SaveAs => "Save as…",
            Self::Undo => "Undo",
            Self::Redo => "Redo",
            Self::Find => "Find an action",
            Self::LightTheme => "Light theme",
            Self::DarkTheme => "Dark theme",
            Self::SystemTheme => "Theme as the system",
            Self::ZoomIn => "Larger",
            Self::ZoomOut => "Smaller",
            Self::ZoomReset => "Usual size",
            Self::MetricSpoons => "Metric spoons (15 mL)",
            Self::AustralianSpoons => "Australian spoons (20 mL)",
            Self::UnitedStatesSpoons => "US spoons (14.8 mL)",
            Self::ImperialSpoons => "UK spoons (15 mL)",
            Self::Bench => "Go to the bench",
            Self::Beside => "Put designs beside each other",
            Self::Aim => "Aim at goals",
            Self::LookForSettings => "Find settings",
            Self::StopLooking => "Stop the search",
            Self::ShowSettings => "Show the settings on the bench",
            Self::TakeSetting1 => "Use setting 1",
            Self::TakeSetting2 => "Use setting 2",
            Self::TakeSetting3 => "Use setting 3",
            Self::CopySettings => "Copy the settings",
            Self::AddBeside => "Put a file beside this design…",
            Self::KeepBeside => "Keep this design beside, as it is now",
            Self::DuplicateAndChange => "Duplicate and change",
            Self::CopyBeside => "Copy the comparison",
            Self::ExportTable => "Write the comparison as a table…",
            Self::ExportPicture => "Write the comparison as a picture…",
            Self::Pantry => "Go to the pantry",
            Self::ReadLabel => "Read a label",
            Self::MakeBase => "Make a base from raw stuff",
            Self::TakeIn => "Take in shared entries…",
            Self::UnfoldAll => "Unfold all strips",
            Self::Spread => "Show or hide the spread",
            Self::CopyNumbers => "Copy the numbers",
            Self::NextPots => "Next pots from this one…",
            Self::Kitchen => "Kitchen…",
            Self::Numbers => "Where the numbers come from",
            Self::Cautions => "Cautions",
            Self::Keys => "Keys",
            Self::Quit => "Quit",
        }
    }

    /// What it does, in a sentence.
    #[must_use]
    pub const fn tip(self) -> &'static str {
        match self {
            Self::New => "Starts a design from a tinned coconut cream pot",
            Self::Open => "Opens a design from a file",
            Self::Save => "Saves the design to its file",
            Self::SaveAs => "Saves the design to another file",
            Self::Undo => "Takes the last change back",
            Self::Redo => "Makes the change again",
            Self::Find => "Finds an action by its name",
            Self::LightTheme => "Paper-warm colours",
            Self::DarkTheme => "Charcoal colours",
            Self::SystemTheme => "Follows the system's light or dark setting",
            Self::ZoomIn => "Zooms in: everything larger",
            Self::ZoomOut => "Zooms out: everything smaller",
            Self::ZoomReset => "Zoom back to 100 %",
            Self::MetricSpoons | Self::AustralianSpoons | Self::UnitedStatesSpoons | Self::ImperialSpoons => {
                "Says amounts in these spoons; part of the design"
            }
            Self::Bench => "Shows the bench: the design, its forecast, its verdict",
            Self::Beside => {
                "Shows two to four designs next to each other: what differs, what it does, because of what"
            }
            Self::Aim => "Shows Aim: say what the pot is to be, and get settings that reach it",
            Self::LookForSettings => {
                "Up to three settings that reach all goals; of equals, what changes least comes first"
            }
            Self::StopLooking => "Leaves what was found so far",
            Self::ShowSettings => "Their curves as ghosts beside those of the design, each with its number",
            Self::TakeSetting1 | Self::TakeSetting2 | Self::TakeSetting3 => {
                "Makes what Aim found the design on the bench; one step of undo"
            }
            Self::CopySettings => "Copies what Aim found as text: the settings and their trade-offs",
            Self::AddBeside => "Opens a design from a file in a column of its own",
            Self::KeepBeside => "The copy stays as it is while you go on changing this one",
            Self::ExportTable => "As CSV or Markdown, by the ending of the file",
            Self::ExportPicture => "As PNG or SVG, by the ending of the file",
            Self::CopyBeside => "Copies the tables of the designs beside each other, for a spreadsheet",
            Self::DuplicateAndChange => "Puts a copy on the bench to be changed; this design stays beside it",
            Self::Pantry => "Shows the pantry: every entry with its figures and sources",
            Self::ReadLabel => "Reads figures and ingredients off the words of a label",
            Self::MakeBase => "Works out a base from nuts, seeds, grains, beans or coconut flesh",
            Self::TakeIn => "Takes entries that someone shared into your pantry",
            Self::UnfoldAll => "Opens every strip of the long sheet",
            Self::Spread => "What most of a thousand possible pots do, and how likely the goals are",
            Self::CopyNumbers => "Copies the table behind the long sheet, for a spreadsheet",
            Self::NextPots => "Follows pots that are each started with some of the last one",
            Self::Kitchen => "Your scale, altitude, room, tap and fridge",
            Self::Numbers => "Every cited number, with its spread and the kind of its source",
            Self::Cautions => "When to look, and when to throw away",
            Self::Keys => "Every key in one list",
            Self::Quit => "Closes the program",
        }
    }

    /// Its key, if it has one.
    #[must_use]
    pub const fn key(self) -> Option<KeyPress> {
        let (key, shift) = match self {
            Self::New => ("N", false),
            Self::Open => ("O", false),
            Self::Save => ("S", false),
            Self::SaveAs => ("S", true),
            Self::Undo => ("Z", false),
            Self::Redo => ("Z", true),
            Self::Find => ("K", false),
            Self::ZoomIn => ("+", false),
            Self::ZoomOut => ("-", false),
            Self::ZoomReset => ("0", false),
            Self::CopyNumbers => ("C", true),
            Self::Spread => ("B", false),
            Self::Bench => ("1", false),
            Self::Beside => ("2", false),
            Self::Aim => ("3", false),
            Self::DuplicateAndChange => ("D", false),
            Self::AddBeside => ("O", true),
            Self::Pantry => ("6", false),
            Self::Quit => ("Q", false),
            _ => return None,
        };
        Some(KeyPress { key, shift })
    }

    /// Why it cannot be done now; `None` if it can.
    #[must_use]
    pub fn barred(self, state: &State) -> Option<&'static str> {
        let history = &state.session.history;
        if state.view == View::Pantry && matches!(self, Self::Undo | Self::Redo) {
            let shelves = &state.shelves;
            let way = if self == Self::Undo { shelves.can_undo() } else { shelves.can_redo() };
            return way.is_none().then_some("No change of your pantry to go back or forward to");
        }
        match self {
            Self::Undo if history.can_undo().is_none() => Some("Nothing to take back"),
            Self::Redo if history.can_redo().is_none() => Some("Nothing to make again"),
            Self::CopyNumbers if state.answer.forecast.t.is_empty() => Some("There is no forecast"),
            Self::NextPots if !state.answer.errors.is_empty() => Some("There is no forecast"),
            Self::NextPots if state.design().cultures.is_empty() => Some("There is no culture to carry on"),
            Self::AddBeside | Self::KeepBeside | Self::DuplicateAndChange
                if state.columns.full().is_some() =>
            {
                Some("Four designs are beside each other already")
            }
            Self::CopyBeside | Self::ExportTable | Self::ExportPicture
                if state.columns.told.beside.names.len() < 2 =>
            {
                Some("Nothing stands beside this design yet")
            }
            Self::LookForSettings => state::barred_look(state),
            Self::StopLooking if !state.aims.busy() => Some("No search is under way"),
            Self::ShowSettings => state.aims.barred_show(),
            Self::CopySettings if !state.aims.told() => Some("No setting was found yet"),
            Self::TakeSetting1 | Self::TakeSetting2 | Self::TakeSetting3 => {
                self.setting().and_then(|i| state.aims.barred_take(i))
            }
            Self::UnfoldAll if state.settings.folded.is_empty() => Some("No strip is folded"),
            _ => None,
        }
    }

    /// The place of the setting that it takes.
    #[must_use]
    pub const fn setting(self) -> Option<usize> {
        match self {
            Self::TakeSetting1 => Some(0),
            Self::TakeSetting2 => Some(1),
            Self::TakeSetting3 => Some(2),
            _ => None,
        }
    }

    /// The spoon set that it chooses.
    #[must_use]
    pub const fn spoons(self) -> Option<SpoonSet> {
        match self {
            Self::MetricSpoons => Some(SpoonSet::Metric),
            Self::AustralianSpoons => Some(SpoonSet::Australian),
            Self::UnitedStatesSpoons => Some(SpoonSet::UnitedStates),
            Self::ImperialSpoons => Some(SpoonSet::Imperial),
            _ => None,
        }
    }

    /// The key in words: "Ctrl+Shift+Z".
    #[must_use]
    pub fn key_words(self) -> String {
        self.key()
            .map_or_else(String::new, |k| format!("Ctrl+{}{}", if k.shift { "Shift+" } else { "" }, k.key))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_unique_and_texts_are_there() {
        let mut keys: Vec<KeyPress> = Action::ALL.into_iter().filter_map(Action::key).collect();
        let count = keys.len();
        keys.sort_by_key(|k| (k.key, k.shift));
        keys.dedup();
        assert_eq!(keys.len(), count);
        for action in Action::ALL {
            assert!(!action.label().is_empty() && !action.tip().is_empty());
        }
    }
}
