//! Commands, which views push, and effects, which the shell carries out.

mod batches;
mod class;
mod mishap;

pub use self::batches::{BatchFile, BatchesCommand};
pub use self::class::ClassCommand;
pub use self::mishap::MishapCommand;

use std::path::PathBuf;
use std::sync::Arc;

use super::action::Action;
use super::aims::TargetResult;
use super::card::{CardFile, CardPage, CardWish, Told};
use super::columns::{BesidePage, ComparisonResult, Holds};
use super::recipes::{Listed, RecipeChange, RecipesPage, VersionTold};
use super::session::Outside;
use super::shelves::{LookedThrough, PantryPage};
use super::state::View;
use super::sweeps::{SweepWish, Swept};
use potset_base::{Note, either};
use potset_catalogue::label::LabelStudy;
use potset_catalogue::making::Making;
use potset_catalogue::my_pot::Answers;
use potset_catalogue::recipes::{Find, Recipe};
use potset_compare::beside::Causes;
use potset_doc::history::Gesture;
use potset_doc::label::LabelReading;
use potset_doc::own::{Merged, OwnEdit};
use potset_doc::pantry::{EntryKind, Pantry};
use potset_doc::settings::{Depth, Theme};
use potset_doc::{Design, Edit, Kitchen};
use potset_doubt::influence::Influence;
use potset_doubt::matters::Matters;
use potset_doubt::spread::Spread;
use potset_explain::Reading;
use potset_forecast::numbers::Numbers;
use potset_forecast::observable::Observable;
use potset_judge::answer::Answer;
use potset_judge::next_pots::LineAsk;
use potset_search::aim::{Moves, Want};
use potset_search::swap::{SwapAsk, Swapped};
use potset_store::files::{Stamp, Written};
use potset_store::library::{Copied, Thrown};

either! {
    /// What a view, a key or a finished job asks for. A view of its own has a list of its own.
    #[derive(Clone, Debug)]
    pub enum Command {
        /// Something from the table of actions.
        Do(Action),
        Bench(BenchCommand),
        Beside(BesideCommand),
        Sweep(SweepCommand),
        Aim(AimCommand),
        Pantry(PantryCommand),
        Recipes(RecipesCommand),
        Batches(BatchesCommand),
        Mishap(MishapCommand),
        Class(ClassCommand),
        Card(CardCommand),
        File(FileCommand),
        Window(WindowCommand),
    }
}

/// What changes the design on the bench, and what was found out about it.
#[derive(Clone, Debug)]
pub enum BenchCommand {
    /// A change of the design; edits of one gesture are one step of undo.
    Edit(Edit, Option<Gesture>),
    /// A drag begins: what is shown now stays as a ghost.
    Began(Gesture),
    /// The drag is over.
    EndGesture,
    /// The drag under way is taken back; without one, the ghost goes.
    TakeBackDrag,
    /// How the next pots are started.
    Line(LineAsk),
    /// A forecast is there, or why there is none.
    Answered(u64, Result<Box<Answer>, Note>),
    /// The cited numbers that it rests on.
    Numbers(u64, Arc<Numbers>),
    /// Which of them move it most.
    Sensitivities(u64, Vec<Influence>),
    /// The spread of the design of a question, as far as it is.
    Spread(u64, Arc<Spread>),
    /// Why there is no spread of the design of a question.
    NoSpread(u64, Note),
    /// What matters for the design of a question.
    Matters(u64, Arc<Matters>),
}

/// What is done with files: opened, saved, closed, found.
#[derive(Clone, Debug)]
pub enum FileCommand {
    /// Opens a file, after the question about unsaved work.
    Open(PathBuf),
    /// Makes a design from what a maker has at hand.
    MyPot(Box<Answers>),
    /// Opens a demo design as an unsaved copy.
    OpenDemo(&'static str),
    /// Saves under a name.
    SaveAs(PathBuf),
    /// The answer to the question about unsaved work.
    Unsaved(Choice),
    /// The file was read, or could not be.
    Opened(PathBuf, Result<(Box<Design>, Option<Stamp>), Note>),
    /// The file was written, or was another one by then, or could not be; the revision is the one that was written.
    Saved(PathBuf, u64, Result<Written, Note>),
    /// What stands in a file that was not written over, or why it cannot be read.
    Theirs(Result<Box<Design>, Note>),
    /// The window wants to close.
    CloseAsked,
    /// Unsaved work by its place: take it up, or throw it away.
    Recover(usize, bool),
    /// Unsaved work is left for the next start.
    RecoverLater,
    /// The open file is another one by now.
    Touched,
    /// What became of the open design's file.
    Outside(Outside),
    /// What to do about a file that changed outside.
    Changed(OnChanged),
    /// Takes a recent file off the list.
    Forget(String),
}

/// What the Pantry view asks for.
#[derive(Clone, Debug)]
pub enum PantryCommand {
    Page(PantryPage),
    /// The page of an entry, or the table alone.
    OpenEntry(Option<(EntryKind, String)>),
    /// A change of the maker's own pantry.
    Own(OwnEdit),
    /// The maker's pantry was saved, with what other windows changed.
    OwnSaved(Box<Merged>),
    /// Designs were looked through for the entries that they use.
    Seen(Vec<LookedThrough>),
    /// The words of a label.
    LabelText(String),
    /// A label was read, or could not be.
    LabelRead(u64, Result<Arc<(LabelReading, LabelStudy)>, Note>),
    /// How a base is made from starting ingredients.
    Making(Making),
    /// Takes a base into the design.
    UseBase(String),
    /// Asks for a file of shared entries.
    AskTakeIn,
    /// Asks for a file to share an entry in.
    AskShare(EntryKind, String),
    TakeIn(PathBuf),
    TakenIn(PathBuf, Result<Box<Pantry>, Note>),
    /// Writes the open entry to a file.
    ShareTo(PathBuf),
}

/// What the Card view asks for.
#[derive(Clone, Debug)]
pub enum CardCommand {
    Page(CardPage),
    Wish(CardWish),
    Told(u64, Arc<Result<Told, Note>>),
    /// Makes the design of another amount the one on the bench.
    UseScaled,
    /// Begins the pot as the plan has it.
    Begin,
    /// The culture of a pot under way goes in just now.
    CultureIn(usize),
    /// A pot under way is done with.
    End(usize),
    /// Asks for a file: what goes into it, and the ending to offer, which says the form.
    AskExport(CardFile, &'static str),
    ExportTo(CardFile, PathBuf),
    /// Makes pages and has the system's viewer open them, which prints.
    Print(CardFile),
    Exported(PathBuf, Result<(), Note>),
}

/// What the Recipes view asks for.
#[derive(Clone, Debug)]
pub enum RecipesCommand {
    /// Keeps the house recipes in this folder from now on.
    Folder(PathBuf),
    Page(RecipesPage),
    Find(Find),
    /// Opens the page of a recipe, or closes it.
    Open(Option<String>),
    /// Puts a recipe on the bench, after the question about unsaved work.
    ToBench(String),
    /// Puts a recipe in a column of Beside.
    Beside(String),
    Change(RecipeChange),
    /// A change was made, with the file or the place in the bin that it led to; or could not be.
    Changed(RecipeChange, Result<RecipeTo, Note>),
    /// Made today.
    MadeToday(String),
    /// Takes the last change of the folder back.
    Undo,
    AskImport,
    AskExport,
    Import(PathBuf),
    Export(PathBuf),
    Copied(PathBuf, bool, Result<Copied, Note>),
    /// The folder, as far as it was read.
    Listed(u64, Box<Listed>),
    NotListed(u64, Note),
    /// Recipes of which it is known what comes of them.
    Answered(u64, Vec<Arc<Recipe>>),
    Versions(String, Vec<VersionTold>),
    Bin(Vec<Thrown>),
    /// The folder is another one by now.
    Touched,
}

/// Where a change of the folder led to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RecipeTo {
    File(String),
    Bin(u32),
    Nowhere,
}

/// What is asked of the window around the views.
#[derive(Clone, Debug)]
pub enum WindowCommand {
    Show(View),
    /// Explains a value of a time, h.
    Explain(Reading, f64),
    CloseDialog,
    /// Text for the clipboard.
    Copy(String),
    Theme(Theme),
    Depth(Depth),
    /// The next card of the tour, or its end.
    Tour(Option<usize>),
    Zoom(f32),
    Fold(&'static str),
    Kitchen(Kitchen),
    /// Something went wrong that the maker did not ask for just now.
    Failed(Note),
    /// The maker has read it.
    Dismiss(usize),
    /// Something that the maker asked for cannot be done.
    ShowRefusal(Note),
    /// The maker has read why.
    DismissRefusal,
    /// Something was done that would not be seen otherwise.
    Said(String),
}

/// What the Aim view asks for.
#[derive(Clone, Debug)]
pub enum AimCommand {
    Wants(Vec<Want>),
    /// A want as it is typed.
    Type(String),
    Moves(Moves),
    /// Looks for settings.
    Start,
    Stop,
    Aimed(u64, Arc<TargetResult>),
    Failed(u64, Note),
    /// Draws the proposals on the bench, or no longer.
    OnBench(bool),
    /// Makes a proposal the design.
    Take(usize),
    /// Puts a proposal in a column of its own.
    Beside(usize),
}

/// What the pages that sweep and swap ask for.
#[derive(Clone, Debug)]
pub enum SweepCommand {
    Wish(SweepWish),
    /// What the map shows.
    Observable(Observable),
    Swept(u64, Arc<Swept>),
    Failed(u64, Note),
    /// Gives the sweep up.
    Stop,
    /// Makes a point the design.
    Take(usize, usize),
    Swap(SwapAsk),
    Swapped(u64, Arc<Result<Swapped, Note>>),
    /// Makes the swapped design the one on the bench.
    TakeSwap,
    /// Puts the swapped design in a column of its own.
    SwapBeside,
}

/// What the Beside view asks for. Columns are named by their number.
#[derive(Clone, Debug)]
pub enum BesideCommand {
    /// Asks for a file to put beside the others.
    AskAdd,
    AddFile(PathBuf),
    /// The file was read, or could not be.
    Read(PathBuf, Result<(Box<Design>, Option<Stamp>), Note>),
    AddDemo(&'static str),
    /// A published case by its key.
    AddCase(String),
    /// The design on the bench as it is now.
    AddCopy,
    Remove(u64),
    /// To a place among the columns.
    Move(u64, usize),
    /// A change of a column's design; edits of one gesture are one step of undo.
    Edit(u64, Edit, Option<Gesture>),
    /// The drag of a column's lever is over.
    EndGesture(u64),
    /// Takes back the last change of a column's design.
    Undo(u64),
    /// The levers of each design below its curves.
    Levers(bool),
    /// The columns of the last session come back.
    ComeBack(Vec<Option<Holds>>),
    /// Opens the column's design on the bench; what is there takes its place.
    ToBench(u64),
    /// Puts a copy of the column on the bench.
    Duplicate(u64),
    Page(BesidePage),
    LaidOver(bool),
    /// One stop line for all, h, or each its own.
    Stop(Option<f64>),
    /// Whose difference to the first is shared out.
    Versus(usize),
    /// Asks for a file to write the comparison to: its tables, or its picture.
    AskExport(bool),
    ExportTo(PathBuf),
    /// The file was written, or could not be.
    Exported(PathBuf, Result<(), Note>),
    Told(u64, Result<Box<ComparisonResult>, Note>),
    /// What the difference of the column after this one comes from.
    Caused(u64, usize, Causes),
}

/// What to do about unsaved work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choice {
    Save,
    Discard,
    Cancel,
}

/// What to do about a file that changed outside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OnChanged {
    /// Save the design under another name.
    Elsewhere,
    /// Write it over what is there.
    Replace,
    Cancel,
}
