//! How far the laws reach: what of a pot lies outside what they were fitted to or published for.

use potset_base::number;
use potset_forecast::scenario::Run;
use potset_science::texture::inputs::AgentKind;

/// What lies outside, in words; nothing where the laws hold.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Validity {
    /// Of texture: fat, protein, thickener, stiffness.
    pub texture: Vec<String>,
    /// Of pH and acidity.
    pub acid: Vec<String>,
}

/// Most that the texture laws were fitted to or published for. Source: the ranges of the texture page; stiffness is that
/// of the stiffest strained yogurt (from memory, 3 to 20 kPa).
const FAT: f64 = 30.0;
const PROTEIN: f64 = 12.0;
const STARCH_G_L: f64 = 60.0;
const GUM_G_L: f64 = 10.0;
const STIFFNESS_PA: f64 = 20_000.0;

/// Range of pH that buffers and growth were fitted to. Source: titrations of milk and plants, and soured pots.
const PH: (f64, f64) = (3.3, 7.2);

impl Validity {
    /// Of a run at its stop.
    pub fn of(run: &Run) -> Self {
        let (pot, f, stop_h) = (&run.mix.texture, &run.forecast, run.mix.stop_h);
        let mut out = Self::default();
        let mut over = |what: &str, value: f64, most: f64, unit: &str| {
            if value > most {
                let (value, most) = (number::figures(value, 2), number::plain(most));
                out.texture.push(format!("{what} {value}{}{unit} (to {most})", number::NBSP));
            }
        };
        let of = |test: &dyn Fn(&AgentKind) -> bool| -> f64 {
            pot.agents.iter().filter(|a| test(&a.kind)).map(|a| a.dose).sum()
        };
        let starch = of(&|k| matches!(k, AgentKind::ColdStarch { .. } | AgentKind::CookStarch { .. }));
        let gum = of(&|k| matches!(k, AgentKind::Gum { .. }));
        over("fat", pot.fat, FAT, "%");
        over("protein", pot.gelling_protein(), PROTEIN, "%");
        over("starch", starch, STARCH_G_L, "g/L");
        over("gum", gum, GUM_G_L, "g/L");
        over("stiffness", f.value(&f.chilled.stiffness_pa, stop_h), STIFFNESS_PA, "Pa");
        let ph = f.value(&f.ph, stop_h);
        if !(PH.0..=PH.1).contains(&ph) {
            let range = format!("{} to {}", number::fixed(PH.0, 1), number::fixed(PH.1, 1));
            out.acid.push(format!("pH {} ({range})", number::fixed(ph, 1)));
        }
        if f.value(&f.titratable, stop_h) < 0.0 {
            out.acid.push("titratable acidity below nothing, since alkali went in".to_owned());
        }
        out
    }

    /// What lies outside, as a sentence beside a number; empty where the laws hold.
    pub fn sentence(outside: &[String]) -> String {
        if outside.is_empty() {
            String::new()
        } else {
            format!("Less certain here, beyond what the laws were fitted to: {}", outside.join(", "))
        }
    }
}
