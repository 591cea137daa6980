//! How far the laws reach: what of a pot lies outside what they were fitted to or published for.

use potset_forecast::scenario::Run;
use potset_science::texture::inputs::AgentKind;

/// What of a pot lies outside, and its value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outside {
    /// More of it than there was: its place in [`MOST`].
    Over(usize, f64),
    Ph(f64),
    /// Titratable acidity below nothing, since alkali went in.
    Alkali,
}

/// What lies outside; nothing where the laws hold.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Validity {
    /// Of texture: fat, protein, thickener, stiffness.
    pub texture: Vec<Outside>,
    /// Of pH and acidity.
    pub acid: Vec<Outside>,
}

/// Most that the texture laws were fitted to or published for, with its unit. Source: the ranges of the texture page;
/// stiffness is that of the stiffest strained yogurt (from memory, 3 to 20 kPa).
pub const MOST: [(&str, f64, &str); 5] = [
    ("fat", 30.0, "%"),
    ("protein", 12.0, "%"),
    ("starch", 60.0, "g/L"),
    ("gum", 10.0, "g/L"),
    ("stiffness", 20_000.0, "Pa"),
];

/// Range of pH that buffers and growth were fitted to. Source: titrations of milk and plants, and soured pots.
pub const PH: (f64, f64) = (3.3, 7.2);

impl Validity {
    /// Of a run at its stop.
    pub fn of(run: &Run) -> Self {
        let (pot, f, stop_h) = (&run.mix.texture, &run.forecast, run.mix.stop_h);
        let of = |test: &dyn Fn(&AgentKind) -> bool| -> f64 {
            pot.agents.iter().filter(|a| test(&a.kind)).map(|a| a.dose).sum()
        };
        let starch = of(&|k| matches!(k, AgentKind::ColdStarch { .. } | AgentKind::CookStarch { .. }));
        let gum = of(&|k| matches!(k, AgentKind::Gum { .. }));
        let stiffness = f.value(&f.chilled.stiffness_pa, stop_h);
        let there = [pot.fat, pot.gelling_protein(), starch, gum, stiffness];
        let over = there.into_iter().enumerate().filter(|(i, value)| *value > MOST[*i].1);
        let ph = f.value(&f.ph, stop_h);
        let ph = (!(PH.0..=PH.1).contains(&ph)).then_some(Outside::Ph(ph));
        let alkali = (f.value(&f.titratable, stop_h) < 0.0).then_some(Outside::Alkali);
        Self {
            texture: over.map(|(i, value)| Outside::Over(i, value)).collect(),
            acid: ph.into_iter().chain(alkali).collect(),
        }
    }
}
