//! Aim: what is wanted is said as ranges and rules, and up to three settings come back that reach it, or what blocks.
//!
//! **A want of Aim.** `search/aim/`. 1. A number: `want` in the row of its outcome (`forecast/outcome/table.rs`): key, range, spellings
//! of its unit, words where it has a scale. A rule: a variant of `Want`, what it forbids in `Want::bars` or `choices.rs`, how it is
//! checked on a run in `stand::kept`. 2. A row in the tests of `tests/it/aim.rs` for bad text; the random
//! test reads back what is printed by itself. How it goes: `TargetSearch` works in slices like `Sweeper`. `choices.rs` lists the lines
//! that can or must be otherwise, `make.rs` makes a combination a design that works (the mends of `thickeners::advice`, food for
//! the culture) and gives its levers with bounds and settings (`turns.rs`, `turn.rs`); `problem.rs` searches one combination by coarse
//! forecasts: margins are in steps that a person notices, and one pattern search (`potset_numerics::pattern`) over the settings of the levers
//! lowers what is missed, what is turned, the hours or the share of possible pots that fail, as its `Objective` says
//! (`doubt::kept`: any `fn` that gives pots will do); `proposal.rs` keeps what holds by the precise forecast, a few steps
//! off at most, and need not be thrown away (`discard.rs`, the one place where Aim asks that: the likely line, and less than 2 in 10 of the
//! possible pots). What is offered is ordered by the counts and by `change.rs`: settings that the best is not above by the sign test
//! of the same pots (`Chance::clearly_above`) are its equals, and of equals comes first what changes least (entries, then levers in
//! their usual spans; a texture of another name that nobody asked for is a change). The design as it is comes first (`as_is.rs`):
//! where it does it already, only what is above it by that test is shown; it is said to work *clearly* more often only where the two
//! counts alone tell so (`Chance::far_above`). Last, `search/trim.rs` undoes each change alone and leaves out what helps no
//! want. Where no texture is wanted, the search keeps the design's word of it (`Demand::AsNow`, not counted in the chances) and
//! starts over without that where nothing keeps it, which is said. `potset_report::aim::trade_offs` has the table (`gives.rs`): ready there is by what is asked for, since the design's own goals may say the opposite. A warmer
//! is a choice as an entry is (`choices::Place`); of those with a heater one stands for all. Where single looks do not reach far enough, combinations are brought a few steps up (`Stage::Lift`) and all is looked at
//! that is one change off the best, twice: as long as a want is missed that only another base brings, all thickeners look alike,
//! beside that base they do not. First about what is usual, then as far as `moves::Beyond` lets the levers go; then `search/why.rs` asks of each want how
//! far it comes with all others held, and alone, in the combinations that are best for all and for this one; the nearest setting
//! is one that can be made, and is trimmed like a proposal. Before it says that nothing reaches it, the search walks once more
//! from what held one want (`Stage::Seed`). “Impossible” means: not found so; the search is local, from several starts. What is
//! held is kept to in `make.rs`: no edit of a combination moves it, a line of which a number is held keeps its entry, shares
//! follow only where they are let (`lever::turned_beside` moves several at once), and nothing is fed where no sugar may move.
//! What may move goes with the entries of a design when lines are added or taken out (`Moves::carried`). `want/agree.rs` refuses what no pot can be; `stand/told.rs` has what there is of each demand; its
//! name, value and miss in words, as every sentence about what was found, are in `potset_report::aim`. Whether an answer on the screen is outdated goes by what was asked (`app::aims::TargetState::compare`), so that undo brings
//! it back.

mod as_is;
pub mod change;
pub mod choices;
pub mod discard;
pub mod found;
pub mod gives;
pub mod make;
pub mod moves;
mod problem;
pub mod proposal;
mod search;
mod stage;
pub mod stand;
pub mod turn;
mod turned;
mod turns;
pub mod want;

pub use as_is::AsIs;
pub use choices::main_line;
pub use discard::Discard;
pub use found::{Blocked, By, Found};
pub use gives::Gives;
pub use make::Said;
pub use moves::{AimAsk, Beyond, Moves};
pub use proposal::{Best, Proposal};
pub use search::TargetSearch;
pub use stage::Stage;
pub use turn::{SearchLever, bounds};
pub use turned::LeverChange;
pub use want::{Bounds, Want, begins};
