//! The table of actions: words, keys and when each can be done. Menus, keys, the finder and the help sheet read it.

use super::state;
use super::state::{State, View};
use potset_base::measures::SpoonSet;
use potset_base::units::Degrees;
use potset_doc::settings::Depth;

/// A key: its name as on the keyboard, with Ctrl (Command on a Mac) and Shift.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct KeyPress {
    pub key: &'static str,
    pub shift: bool,
}

/// Makes [`Action`] and its table: `Name ["key"]: "label" => "tip"`, the key as on the keyboard.
macro_rules! actions {
    ($($name:ident $([$key:literal])?: $label:literal => $tip:literal,)+) => {
        /// Everything that can be asked for by name.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum Action {
            $($name,)+
        }

        impl Action {
            /// All of them, in the order of the menus.
            pub const ALL: [Self; [$(stringify!($name)),+].len()] = [$(Self::$name),+];

            /// As the code and the data files call it.
            pub const fn key_name(self) -> &'static str {
                match self {
                    $(Self::$name => stringify!($name),)+
                }
            }

            const fn row(self) -> (&'static str, &'static str, &'static str) {
                match self {
                    $(Self::$name => ($label, $tip, concat!($($key)?)),)+
                }
            }
        }
    };
}

actions! {
    MyPot ["Shift+N"]: "My pot…" =>
        "Four questions about what you have at hand, and your pot is on the bench",
    New ["N"]: "New design" =>
        "Starts with nothing in the pot",
    Open ["O"]: "Open…" =>
        "Opens a design from a file",
    Save ["S"]: "Save" =>
        "Saves the design to its file",
    SaveAs ["Shift+S"]: "Save as…" =>
        "Saves the design to another file",
    Undo ["Z"]: "Undo" =>
        "Undoes the last change",
    Redo ["Shift+Z"]: "Redo" =>
        "Makes the change again",
    Find ["K"]: "Find an action" =>
        "Finds an action by its name",
    LightTheme: "Light theme" =>
        "Paper-warm colours",
    DarkTheme: "Dark theme" =>
        "Charcoal colours",
    SystemTheme: "Theme as the system" =>
        "Follows the system's light or dark setting",
    ShowPlain: "Show the plain bench" =>
        "What you act on: is anything against it, when, how thick, how sour, how sweet",
    ShowDetails: "Show all details" =>
        "Every lever, every strip, numbers with their units, and why",
    ZoomIn ["+"]: "Larger" =>
        "Zooms in: everything larger",
    ZoomOut ["-"]: "Smaller" =>
        "Zooms out: everything smaller",
    ZoomReset ["0"]: "Usual size" =>
        "Zoom back to 100 %",
    MetricSpoons: "Metric spoons (15 mL)" =>
        "Says amounts in these spoons; part of the design",
    AustralianSpoons: "Australian spoons (20 mL)" =>
        "Says amounts in these spoons; part of the design",
    UnitedStatesSpoons: "US spoons (14.8 mL)" =>
        "Says amounts in these spoons; part of the design",
    ImperialSpoons: "UK spoons (15 mL)" =>
        "Says amounts in these spoons; part of the design",
    Bench ["1"]: "Go to the bench" =>
        "Shows the bench: the design, its forecast, its verdict",
    Beside ["2"]: "Put designs beside each other" =>
        "Shows two to four designs next to each other: what differs, what it does, because of what",
    Aim ["3"]: "Aim at goals" =>
        "Shows Aim: say what the pot is to be, and get settings that reach it",
    LookForSettings: "Find settings" =>
        "Up to three settings that reach all goals; of equals, what changes least comes first",
    StopLooking: "Stop the search" =>
        "Stops, and keeps what was found so far",
    ShowSettings: "Show the settings on the bench" =>
        "Their pale curves beside those of the design, each with its number",
    TakeSetting1: "Use setting 1" =>
        "Makes this setting the design on the bench. Undo goes back in one step",
    TakeSetting2: "Use setting 2" =>
        "Makes this setting the design on the bench. Undo goes back in one step",
    TakeSetting3: "Use setting 3" =>
        "Makes this setting the design on the bench. Undo goes back in one step",
    CopySettings: "Copy the settings" =>
        "Copies what Aim found as text: the settings and their trade-offs",
    AddBeside ["Shift+O"]: "Put a file beside this design…" =>
        "Opens a design from a file in a column of its own",
    KeepBeside: "Keep this design beside, as it is now" =>
        "The copy stays as it is while you go on changing this one",
    DuplicateAndChange ["D"]: "Duplicate and change" =>
        "Puts a copy on the bench to be changed; this design stays beside it",
    CopyBeside: "Copy the comparison" =>
        "Copies the tables of the designs beside each other, for a spreadsheet",
    ExportTable: "Export the comparison as a table…" =>
        "As CSV or Markdown, by the ending of the file",
    ExportPicture: "Export the comparison as a picture…" =>
        "As PNG or SVG, by the ending of the file",
    Recipes ["4"]: "Go to the recipes" =>
        "Shows your house recipes: find one, put it on the bench, see its versions",
    Card ["5"]: "Card, clock, packet, scale" =>
        "The design on the kitchen table: a card to print, another amount, the clock, the packet of culture, warming up",
    ExportCard ["P"]: "Print or export the card…" =>
        "Writes the card as PDF, picture, text, table or calendar, by the ending of the file",
    ImportRecipes: "Import recipes from a folder…" =>
        "Copies every recipe of another folder into yours; nothing is overwritten",
    ExportRecipes: "Export all recipes to a folder…" =>
        "Copies every house recipe into another folder; nothing is overwritten",
    Pantry ["6"]: "Go to the pantry" =>
        "Shows the pantry: every entry with its figures and sources",
    Batches ["7"]: "Go to the batches" =>
        "Shows the batch book: pots under way, readings, what pots taught",
    Mishap ["8"]: "Go to mishaps" =>
        "Finds out why a pot went wrong: what to ask, what to do, an answer to send",
    BeginPot ["J"]: "Begin a pot" =>
        "Begins a pot from the design on the bench as it is now, and shows it in Batches",
    ReadLogger: "Read a logger's file…" =>
        "Takes the temperatures that a logger wrote down into the open pot",
    Learn: "Learn from the pots" =>
        "Works out what all pots of the batch book taught",
    Class ["9"]: "Go to the class" =>
        "Shows the lessons: a question for a room, a guess, the curve, the reason",
    StillMotion: "Reduced motion, on or off" =>
        "Nothing moves by itself: a lesson's curve is there at once, and is moved by hand",
    ReadLabel: "Read a label" =>
        "Reads figures and ingredients off the words of a label",
    MakeBase: "Make a base from a starting ingredient" =>
        "Works out a base from nuts, seeds, grains, beans or coconut flesh",
    TakeIn: "Import shared entries…" =>
        "Adds entries that someone shared to your pantry",
    UnfoldAll: "Unfold all strips" =>
        "Opens every strip of the chart",
    Spread ["B"]: "Show or hide the range" =>
        "What most of a thousand possible pots do, and how likely the goals are",
    CopyNumbers ["Shift+C"]: "Copy the numbers" =>
        "Copies the table behind the chart, for a spreadsheet",
    NextPots: "Next pots from this one…" =>
        "Follows pots that are each started with some of the last one",
    Kitchen: "Kitchen…" =>
        "Your scale, altitude, room, tap and fridge; °C or °F, grams or cups",
    ShowFahrenheit: "Show °F" =>
        "Shows and reads warmth in degrees Fahrenheit; part of your kitchen",
    ShowCelsius: "Show °C" =>
        "Shows and reads warmth in degrees Celsius; part of your kitchen",
    Numbers: "Where the numbers come from" =>
        "Every cited number, with its range and the kind of its source",
    Cautions: "Cautions" =>
        "When to look, and when to throw away",
    Guide: "Guide" =>
        "What you can do here, part by part",
    Tour: "Tour of the bench" =>
        "Three cards: what goes in, what comes of it, the answer",
    Words: "Words" =>
        "Every word of the program, explained",
    Keys: "Keys" =>
        "Every key in one list",
    Quit ["Q"]: "Quit" =>
        "Closes the program",
}

impl Action {
    /// Name in menus and in the finder.
    pub const fn label(self) -> &'static str {
        self.row().0
    }

    /// What it does, in a sentence.
    pub const fn tip(self) -> &'static str {
        self.row().1
    }

    /// Its key, if it has one.
    pub fn key(self) -> Option<KeyPress> {
        let name = self.row().2;
        let key = name.strip_prefix("Shift+").unwrap_or(name);
        (!key.is_empty()).then_some(KeyPress { key, shift: key != name })
    }

    /// Why it cannot be done now; `None` if it can.
    pub fn disabled_reason(self, state: &State) -> Option<&'static str> {
        if matches!(self, Self::Undo | Self::Redo)
            && let Some(reason) = self.disabled_in_view(state)
        {
            return reason;
        }
        let history = &state.session.history;
        match self {
            Self::BeginPot if !state.answer.errors.is_empty() => Some("There is no forecast"),
            Self::ReadLogger if state.batches.open.is_none() => Some("Open a pot in Batches first"),
            Self::Learn if state.batches.book.is_none() => Some("There is no batch book here"),
            Self::ExportCard if !state.answer.errors.is_empty() => Some("There is no forecast"),
            Self::ImportRecipes | Self::ExportRecipes if state.settings.recipes.is_none() => {
                Some("Your recipes have no folder yet: choose one in Recipes")
            }
            Self::Undo if history.can_undo().is_none() => Some("Nothing to undo"),
            Self::Redo if history.can_redo().is_none() => Some("Nothing to redo"),
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
            Self::LookForSettings => state::disabled_look(state),
            Self::StopLooking if !state.aims.busy() => Some("No search is under way"),
            Self::ShowSettings => state.aims.disabled_show(),
            Self::CopySettings if !state.aims.has_result() => Some("No setting was found yet"),
            Self::TakeSetting1 | Self::TakeSetting2 | Self::TakeSetting3 => {
                self.setting().and_then(|i| state.aims.disabled_take(i))
            }
            Self::ShowPlain if state.settings.depth == Depth::Plain => Some("The plain bench is shown"),
            Self::ShowDetails if state.settings.depth == Depth::Details => Some("All details are shown"),
            Self::ShowCelsius if state.kitchen.degrees == Degrees::Celsius => Some("Warmth is shown in °C"),
            Self::ShowFahrenheit if state.kitchen.degrees == Degrees::Fahrenheit => {
                Some("Warmth is shown in °F")
            }
            Self::UnfoldAll if state.settings.folded.is_empty() => Some("No strip is folded"),
            _ => None,
        }
    }

    /// The same of undo and redo in a view with changes of its own; nothing in the others.
    fn disabled_in_view(self, state: &State) -> Option<Option<&'static str>> {
        let undo = self == Self::Undo;
        let (can, why) = match state.view {
            View::Pantry => {
                let shelves = &state.shelves;
                let way = if undo { shelves.can_undo() } else { shelves.can_redo() };
                (way.is_some(), "No change of your pantry to go back or forward to")
            }
            View::Recipes => {
                (undo && state.recipes.undo.is_some(), "No change of your recipes to go back to")
            }
            View::Batches => {
                (undo && !state.batches.undo.is_empty(), "No change of the batch book to go back to")
            }
            View::Class => (undo && state.class.removed.is_some(), "No lesson was removed"),
            View::Bench | View::Beside | View::Aim | View::Card | View::Mishap => return None,
        };
        Some((!can).then_some(why))
    }

    /// The place of the setting that it takes.
    pub const fn setting(self) -> Option<usize> {
        match self {
            Self::TakeSetting1 => Some(0),
            Self::TakeSetting2 => Some(1),
            Self::TakeSetting3 => Some(2),
            _ => None,
        }
    }

    /// The spoon set that it chooses.
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
