//! Aim: what is wanted is said as ranges and rules, and up to three settings come back that reach it, or what blocks.

mod as_is;
mod blocked;
pub mod change;
mod choices;
mod discard;
pub mod gives;
mod make;
pub mod moves;
mod pattern;
pub mod pots;
mod problem;
pub mod proposal;
mod search;
pub mod stand;
mod trade_offs;
mod turn;
mod turned;
mod turns;
pub mod want;

pub use as_is::AsIs;
pub use blocked::Blocked;
pub use choices::{list_of, main_line};
pub use gives::Gives;
pub use moves::{AimAsk, Beyond, Moves};
pub use pots::{Chance, Pots};
pub use proposal::Proposal;
pub use search::{Aimer, Found};
pub use trade_offs::{TradeOff, trade_offs};
pub use turn::bounds;
pub use turned::Turned;
pub use want::{Bounds, Quantity, Want};
