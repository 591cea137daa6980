//! What Aim found, in words.

pub mod blocked;
pub mod chances;
mod found;
mod proposal;
pub mod standing;
mod trade_offs;
pub mod turned;

pub use found::{as_is, chance_name, doing, lines};
pub use proposal::{best_at, headline, make_so, said, watch};
pub use trade_offs::{TradeOff, trade_offs};
