//! How cultures grow, eat, make acid and die: one rate law a file.

pub mod acid;
pub mod ageing;
pub mod cardinal;
pub mod death;
pub mod inhibition;
pub mod lactase;
pub mod lag;
pub mod organism;
pub mod store;
pub mod sugars;

pub use organism::Organism;
