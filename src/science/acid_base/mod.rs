//! From acid to pH: proton-binding sites, activity, the charge balance, titratable acidity.

pub mod activity;
pub mod charge_balance;
pub mod electrode;
pub mod sites;
pub mod titration;

pub use charge_balance::{Balance, PhTable};
pub use sites::Site;
