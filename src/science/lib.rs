//! The model: pure functions, no document, no file, no screen. The same mix gives the same bits.
//!
//! # The model in short
//!
//! - pH: proton-binding sites (shape) scaled to each base's mean buffer, charge balance, Davies activity. `PhTable` holds the
//!   uptake and the dissociated share as quintics in cells of 1/64 pH with a first guess by acid; a Newton step or two leave a
//!   residual under 1e-9 mmol/kg, and no exponential is taken on the way.
//! - Growth: Baranyi-Roberts lag, cardinal temperature and pH, undissociated acid, Monod with readiness per sugar,
//!   proto-cooperation, crowding; acid by Luedeking-Piret; death by heat. Counts are followed by their logarithm, so that death
//!   is never stiff. The state is packed to the organisms and sugars that are there; `simulate.rs` picks the smallest of five
//!   array sizes (8, 12, 18, 26, 34).
//! - The integrator is `rkv655e` of `differential-equations` 0.7, behind `numerics/ode.rs`. Its `dopri5` was tried first: its
//!   points between steps are a cubic only (the quartic term of the dense output reads an empty row of the table), which put
//!   two of ten reference cases past 1e-4; `rkv655e` is within 1e-6 of SciPy in all ten for a fifth more time. The end of a
//!   run is asked for a few roundings early, since the crate can stop one rounding short of it and drop the point; and every
//!   run goes over s from 0 to 1, since the crate takes the last rounding of a late time (400 h) for a step and gives up.
//! - A culture's pace in a plant base is its own times the base's (`paces`: coconut 1, soy 1.7, oat 1.3 ..., or the entry's
//!   own), so that soy sours in hours and coconut in half a day with one and the same packet. Age takes cells off (first order,
//!   by where it was kept) and adds work to be done; back-slop carries its acid in.
//! - Salt, much sugar and residues are one factor on an organism's rates, worked out once; benzoate and sorbate act by their
//!   undissociated part and so come in as the pot sours. Lactase splits lactose by Michaelis-Menten with galactose in its way,
//!   before the culture in closed form and beside it as a term of the right-hand side.
//! - Acids, salts and chalk are proton-binding groups with the protons that they bring (`Brought`): the start pH of the pot is
//!   solved for with them in it. Chalk's acid leaves as gas and no longer titrates.
//! - Every switch (a piece of the temperature course, an addition) ends an integration and starts a new one.
//! - `potset forecast` computes every line at its time (`simulate_also_at`): the usual points and those of the table.
//! - The forecast runs past the stop line as if the hold went on; the chilled curve says what the pot would be if it were
//!   stopped then, as it is eaten: strained, or with what is stirred in after the hold (`texture/finished.rs`,
//!   `Mix::served`). `science/keep.rs` runs the same system on through the chill and up to 42 days in the cold
//!   (`doc::steps::LONGEST_STORE_DAYS`, the one reach of field, forecast, fold and export).
//!
//! Where we differ from the first draft of the model, and why:
//! - The cold law of resting cells (draft: the larger of two laws below 30 °C) is blended in from 34 to 26 °C: the jump at
//!   30 °C would make a curve jump while a lever moves.
//! - Death starts from nothing at the highest growth temperature (the rate there is taken off), for the same reason.
//! - Growth of *S. thermophilus* 1.55 1/h and its share of help 0.2 (draft: 1.7 and a guess of 0.5): set side by side by the
//!   published cases, `tests/reference/fit.md`. `tests/it/fixtures.rs` keeps the set that its figures were run with.
//! - Molar masses come from atomic weights, so that mass closes to rounding.
//! - A coconut product's Codex class goes by total solids, and fat and non-fat solids are tested on their own.
//! - No effect of dissolved oxygen and of severe heat on the cooperation of the yogurt pair: the facts are published, the size
//!   is not, and a guessed factor would dress itself up as knowledge.
//! - In the cold living cells are lost by first order, so many decades a week by organism (`cold_loss`), setting in over some
//!   days (`kinetics/store.rs`); the days in the cold are one more state of pots whose course is ever below 16 °C. Acid follows
//!   the living cells: with frozen counts the cold-storage cases that may set figures stood at 1.63 scatters, with the loss at
//!   1.48 (both before the last figures of cold acid), and published pH is flat after three weeks. No law was found for slow death where cells can grow, so it fades out
//!   from 8 to 16 °C. Strains of a back-slop line keep their nature. Whey that is strained off takes no
//!   protein along. Mass of back-slop and of additives is not counted in the volume.
//! - Constants of published correlations (Davies, Choi-Okos, line spread, boiling point) stand in the functions, with their
//!   source in the doc comment; everything that a maker or a fit could want to change is in `assets/`.

pub mod acid_base;
pub mod forecast;
pub mod keep;
pub mod kinetics;
pub mod mix;
pub mod nutrition;
pub mod params;
pub mod sensory;
pub mod simulate;
pub mod system;
pub mod texture;
pub mod thermal;

pub use forecast::Forecast;
pub use mix::Mix;
pub use simulate::{simulate, simulate_at, simulate_coarse};
