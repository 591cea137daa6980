//! Texture: droplets in a serum, protein gels, starch, gelling agents; their flow together; separation; whey; words.

pub mod activation;
mod agents;
pub mod emulsion;
pub mod fat;
pub mod finished;
pub mod flow;
pub mod gel;
pub mod gelling_agent;
pub mod gum;
pub mod inputs;
pub mod laboratory;
pub mod pot;
pub mod sensory;
pub mod separation;
pub mod serum;
pub mod starch;
pub mod whey_protein;
pub mod wheying;
pub mod whole;

pub use inputs::{Agent, Heat, TextureInputs};
pub use pot::{Part, Texture};
pub use whole::PotTexture;
