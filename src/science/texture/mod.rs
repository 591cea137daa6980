//! Texture: droplets in a serum, protein gels, starch, gelling agents; their flow together; separation; whey; words.
//!
//! # How it goes
//!
//! - Texture is droplets in a serum. The serum (`texture/serum.rs`) is water and sugars, times dissolved starch (Huggins), times
//!   swollen granules that flow past each other (Quemada, held below its pole since granules are soft); granules that touch add
//!   a paste (`starch.rs`), gums a power law. Droplets multiply all of it (`emulsion.rs`): φ by Krieger and Dougherty with
//!   the room that clusters take up in the exponent; souring, homogenising and cold add to the clusters, so that a coconut pot
//!   thickens as it sours. Cold, solid droplets also give a yield stress (`fat.rs`) and nothing else: it does not stand beside
//!   the serum. Gels of dairy, soy, pea and nut protein and gelling agents add their own. Every law starts from nothing, and
//!   stiffness rises with every gram of every thickener. `texture/pot.rs` keeps the parts by name for *why this thick*.
//! - Separation (`texture/separation.rs`): each moment has a pace of rise (Stokes, hindered by clusters, held by a yield stress,
//!   hastened by a little gum); `simulate.rs` adds it up, sets it back where the pot is stirred, and runs it on through the chill.
//!   Five sizes of droplet clear the pot from below up to the packing of the plug; the *thin layer* is what of that looks thin and
//!   is held by no gel. It is an outcome, a goal, a want, a band and a column like whey. `judge/separates.rs` says it in words and
//!   tries the mends. `judge/validity.rs` says beside a number what lies outside what the laws were fitted to.
//! - What laboratories report (power law, force on a probe, degrees) is derived in `texture/laboratory.rs` and
//!   `acid_base/titration.rs`, and collected in `explain/laboratory.rs` for the table and the explanations.
//! - How far a gel had set when it was stirred decides how much of it is broken, so that the time of a stir is no switch.
//! - Swollen starch crowds fat droplets as it crowds protein (same factor, assumed): without it starch would make a chilled
//!   coconut pot softer by dilution. That starch over-fills a gel and weakens it (published for casein gels) is left out: a
//!   maker who adds starch gets a stiffer pot, and what was known of the turn was a threshold of our own.
//! - The paste law of granules that touch goes with x^3.6: doses of rice starch in water ask for 4.1, granule size for 3.
//! - 14 g/L of cold-swelling tapioca against none makes a tinned coconut pot 6.3 times as thick warm and 1.57 times chilled,
//!   where the page that the model was built from expects 4 and 1.35; no figure was set by that line.
//! - Souring clusters coconut droplets from pH 6.2 down to 4.5: coconut milk is least stable at pH 3.5-6.0, wider than the
//!   range of its proteins alone.
//! - Height of a pot, for separation, is that of a jar as wide as it is high (assumed).
//! - Chilled, solid fat holds free water (assumed), or a chilled coconut pot would be forecast to weep, which it does not.
//! - Gelling agents hold the loose water of a weak gel too (else gelatin would weep, which it does not).

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
