//! The whole state of the program; what can be derived is not in it.

use std::path::PathBuf;
use std::sync::Arc;

use super::aims::TargetState;
use super::batches::BatchesState;
use super::card::CardState;
use super::class::ClassState;
use super::columns::{Columns, Holds};
use super::mishap::MishapState;
use super::recipes::RecipesState;
use super::session::Session;
use super::shelves::PantryState;
use super::sweeps::Sweeps;
use potset_base::clock::{Moment, Zone};
use potset_base::{Note, choices};
use potset_catalogue::my_pot::Answers;
use potset_doc::learnt::LearntBook;
use potset_doc::{Design, Kitchen, Learnt, OwnPantry, Pantry, Settings, assets};
use potset_doubt::influence::Influence;
use potset_doubt::matters::Matters;
use potset_doubt::spread::Spread;
use potset_explain::Reading;
use potset_forecast::numbers::Numbers;
use potset_forecast::scenario::{OwnedScenario, Scenario};
use potset_judge::answer::Answer;
use potset_judge::next_pots::LineAsk;
use potset_store::library::Library;
use potset_store::recovery::Lost;

/// A window over the views.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Dialog {
    #[default]
    None,
    /// Unsaved work, and what comes after the answer.
    Unsaved(Then),
    Find,
    /// The questions about the maker's own pot.
    MyPot,
    /// Every word of the program, explained.
    Words,
    /// What can be done with the program.
    Guide,
    Kitchen,
    Cautions,
    Keys,
    /// The pots that this one would start.
    NextPots,
    /// Where the numbers come from.
    Numbers,
    /// A value of a time, h, explained.
    Explain(Reading, f64),
    /// Work of windows that ended without saving was found.
    Recovery,
    /// The file is not the one that was read, and was not written over.
    Changed,
}

choices! {
    /// A view of the window, in the order of the top bar.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
    pub enum View: words {
        #[default]
        Bench => "Bench",
        Beside => "Beside",
        Aim => "Aim",
        Recipes => "Recipes",
        Card => "Card",
        Pantry => "Pantry",
        Batches => "Batches",
        Mishap => "Mishap",
        Class => "Class",
    }
}

/// What waits for the answer about unsaved work.
#[derive(Clone, Debug, PartialEq)]
pub enum Then {
    New,
    MyPot(Box<Answers>),
    Ask,
    Open(PathBuf),
    Demo(&'static str),
    /// The design on the bench goes, the column of this number comes back to it.
    TakeAway(u64),
    Quit,
}

/// What is known of how sure the forecast is; it may be a moment behind.
#[derive(Clone, Debug, Default)]
pub struct UncertaintyState {
    pub spread: Option<Arc<Spread>>,
    /// Goes up with every new spread, and when it goes.
    pub number: u64,
    pub matters: Option<Arc<Matters>>,
    /// The questions that both answer.
    pub of: (u64, u64),
    /// Why there is no spread of the last question.
    pub trouble: Option<Note>,
}

impl UncertaintyState {
    /// Whether the spread is of this question, not of one before it.
    pub const fn current(&self, question: u64) -> bool {
        self.of.0 == question
    }

    /// Whether the spread on the screen is one of before, until that of this question comes.
    pub fn outdated(&self, question: u64) -> bool {
        self.shown().is_some() && !self.current(question)
    }

    /// The spread, if there is one to be shown.
    pub fn shown(&self) -> Option<&Spread> {
        self.spread.as_deref().filter(|s| !s.t.is_empty())
    }

    /// Forgets it.
    pub fn clear(&mut self) {
        *self = Self { number: self.number + 1, ..Self::default() };
    }
}

/// State.
#[derive(Clone, Debug)]
pub struct State {
    pub view: View,
    /// All entries: the shipped ones and the maker's own.
    pub pantry: Arc<Pantry>,
    pub shelves: PantryState,
    pub columns: Columns,
    pub sweeps: Sweeps,
    pub aims: TargetState,
    pub recipes: RecipesState,
    pub card: CardState,
    pub batches: BatchesState,
    pub mishap: MishapState,
    pub class: ClassState,
    /// The view that Escape goes back to from the class.
    pub came_from: View,
    /// Where is kept what can be made anew: the list of known recipes, what is printed.
    pub aside: Option<PathBuf>,
    /// The zone of this kitchen's clock.
    pub zone: Zone,
    /// The local time, as it was when the runner looked last; nothing where there is no clock.
    pub now: Option<Moment>,
    pub kitchen: Kitchen,
    pub learnt: Learnt,
    pub settings: Settings,
    pub session: Session,
    /// The newest answer, and the revision that it is for. The last good one stays while a new one is under way.
    pub answer: Answer,
    pub answered: u64,
    /// Goes up with every answer, so that views know when to renew what they keep.
    pub answer_number: u64,
    /// The forecast before the drag.
    pub ghost: Option<Answer>,
    pub ghost_number: u64,
    /// Goes up with every question; answers to older ones are dropped.
    pub question: u64,
    /// Every cited number; they may be a moment behind.
    pub numbers: Arc<Numbers>,
    /// Goes up with every new list of them.
    pub numbers_number: u64,
    /// Figures that move the forecast most; it may be a moment behind.
    pub sensitivities: Vec<Influence>,
    /// Goes up with every new list of them.
    pub sensitivities_number: u64,
    pub doubt: UncertaintyState,
    pub dialog: Dialog,
    /// How the next pots are started; asked only while their dialog is open.
    pub line: LineAsk,
    pub notices: Vec<Note>,
    /// What was done last and would not be seen otherwise: where a file went. It goes with the next change.
    pub said: Option<String>,
    /// Why the last thing typed or asked for was not done; it goes as soon as something else is done.
    pub refused: Option<Note>,
    /// What waits for a save that is under way.
    pub after_save: Option<Then>,
    /// The column whose design was on the bench when the program was asked to close, and the view then: what is asked
    /// about brings others there.
    pub quit_from: (u64, View),
    /// In what the open design differs from what others wrote into its file, a line each; why that cannot be read. Nothing
    /// while it is read.
    pub theirs: Option<Result<Vec<String>, String>>,
    /// Unsaved work of windows that are gone.
    pub recovery: Vec<Lost>,
    /// The card of the tour that is shown.
    pub tour: Option<usize>,
}

impl State {
    /// The program as it starts: on the first demo design.
    ///
    /// # Errors
    /// A note if what ships with the program is damaged.
    pub fn start(settings: Settings, kitchen: Kitchen) -> Result<Self, Note> {
        let shelves = PantryState::new(assets::pantry()?, OwnPantry::default());
        let first = assets::DEMOS.first().map_or("", |(name, _)| *name);
        let design = assets::demo(first)?;
        Ok(Self {
            view: View::default(),
            pantry: Arc::new(shelves.all()),
            shelves,
            columns: Columns::default(),
            sweeps: Sweeps::default(),
            aims: TargetState::default(),
            recipes: RecipesState::default(),
            card: CardState::default(),
            batches: BatchesState::default(),
            mishap: MishapState::default(),
            class: ClassState::default(),
            came_from: View::default(),
            aside: None,
            zone: Zone::default(),
            now: None,
            kitchen,
            learnt: Learnt::default(),
            settings,
            session: Session::copy(design),
            answer: Answer::default(),
            answered: 0,
            answer_number: 0,
            ghost: None,
            ghost_number: 0,
            question: 0,
            numbers: Arc::default(),
            numbers_number: 0,
            sensitivities: Vec::new(),
            sensitivities_number: 0,
            doubt: UncertaintyState::default(),
            dialog: Dialog::None,
            line: LineAsk::default(),
            notices: Vec::new(),
            said: None,
            refused: None,
            after_save: None,
            quit_from: (0, View::default()),
            theirs: None,
            recovery: Vec::new(),
            tour: None,
        })
    }

    /// Puts in what pots taught in this kitchen.
    pub fn take_learnt(&mut self, kept: LearntBook) {
        self.learnt = kept.now.clone();
        self.batches.learning.kept = kept;
    }

    /// Puts the maker's own pantry in.
    pub fn take_own(&mut self, own: OwnPantry) {
        self.shelves = PantryState::new((*self.shelves.shipped).clone(), own);
        self.pantry = Arc::new(self.shelves.all());
    }

    /// The design now.
    pub fn design(&self) -> &Design {
        self.session.history.design()
    }

    /// The design of a column.
    pub fn column_design(&self, holds: &Holds) -> Arc<Design> {
        Arc::clone(match holds {
            Holds::Bench => self.session.history.design(),
            Holds::Kept(session, _) => session.history.design(),
            Holds::Case(case) => &case.design,
        })
    }

    /// Sessions with changes that are in no file: those beside the one on the bench, and that one if `bench`.
    pub fn unsaved(&self, bench: bool) -> Vec<&Session> {
        let own = bench && self.session.at_stake();
        let kept = self.columns.unsaved().map(|(_, session)| session);
        own.then_some(&self.session).into_iter().chain(kept).collect()
    }

    /// Where a column comes from, in words.
    pub fn column_place(&self, holds: &Holds) -> String {
        match holds {
            Holds::Bench => "on the bench".to_owned(),
            Holds::Kept(_, place) => place.clone(),
            Holds::Case(case) => case.place.clone(),
        }
    }

    /// The question that the design puts now, for work on another thread.
    pub fn owned_scenario(&self) -> OwnedScenario {
        OwnedScenario {
            design: Arc::clone(self.session.history.design()),
            pantry: Arc::clone(&self.pantry),
            kitchen: self.kitchen.clone(),
            learnt: self.learnt.clone(),
        }
    }

    /// The question that the design puts now.
    pub fn scenario(&self) -> Scenario<'_> {
        Scenario { design: self.design(), pantry: &self.pantry, kitchen: &self.kitchen, learnt: &self.learnt }
    }

    /// The line of pots that is asked for now.
    pub fn asked_line(&self) -> Option<LineAsk> {
        (self.dialog == Dialog::NextPots).then_some(self.line)
    }

    /// Name of the file, or what stands in for it.
    pub fn file_words(&self) -> String {
        self.session.path.as_ref().map_or_else(
            || "not in a file yet".to_owned(),
            |p| p.file_name().map_or_else(String::new, |n| n.to_string_lossy().into_owned()),
        )
    }
}

/// Why a search cannot begin now; nothing if it can.
pub fn disabled_look(state: &State) -> Option<&'static str> {
    if state.aims.busy() {
        Some("The search is under way")
    } else if state.aims.wants.is_empty() {
        Some("Set a goal first")
    } else if !state.answer.errors.is_empty() {
        Some("There is no forecast")
    } else {
        None
    }
}

impl State {
    /// A moment as a person says it: a whole date and time, or a time from now on where there is a clock.
    pub fn moment(&self, text: &str) -> Option<Moment> {
        self.now.map_or_else(|| Moment::parse(text), |now| Moment::spoken(text, now))
    }

    /// The folder of the house recipes, if there is one.
    pub fn library(&self) -> Option<Library> {
        self.settings.recipes.as_ref().map(|folder| Library::at(PathBuf::from(folder)))
    }

    /// Whether a recipe is the design on the bench.
    pub fn is_on_bench(&self, file: &str) -> bool {
        let path = self.library().map(|library| library.path(file));
        path.is_some() && self.session.path == path
    }

    /// Why a version of a recipe cannot be put back now; `None` if it can.
    pub fn disabled_restore(&self, file: &str) -> Option<&'static str> {
        let unsaved = self.is_on_bench(file) && self.session.history.unsaved();
        unsaved.then_some("It has unsaved changes on the bench: save or undo them first")
    }

    /// Why a recipe cannot be renamed or thrown away now; `None` if it can.
    pub fn disabled_move(&self, file: &str) -> Option<&'static str> {
        self.is_on_bench(file).then_some("It is open on the bench: open another design there first")
    }
}
