//! Aim: what is wanted is said as ranges and rules, and up to three settings come back that reach it, or what blocks.

mod as_is;
mod blocked;
mod choices;
mod make;
pub mod moves;
pub mod pots;
pub mod proposal;
mod search;
mod spot;
pub mod stand;
mod turn;
mod turned;
pub mod want;

pub use as_is::AsIs;
pub use blocked::Blocked;
pub use choices::main_line;
pub use moves::{AimAsk, Moves};
pub use pots::{Chance, Pots};
pub use proposal::{Proposal, TradeOff, trade_offs};
pub use search::{Aimer, Found};
pub use turn::bounds;
pub use turned::Turned;
pub use want::{Bounds, Quantity, Want};
