//! The design on the kitchen table: packets split, pots scaled, bases warmed, steps by the clock. Values only; `report` says
//! them.

pub mod clock;
pub mod packet;
pub mod scale;
pub mod stock;
pub mod warm_up;
