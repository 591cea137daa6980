//! A packet of culture split into pots: weighed, in equal parts, or mixed with a dry carrier; what each way errs by.
//!
//! **Errors.** What is weighed errs by the scale's error over the weight; mixing adds the weighings of each step; and the grains
//! of the powder fall into a dose by chance. They add up as squares (textbook rule for independent errors).

use std::f64::consts::PI;

use potset_base::Note;
use potset_doc::lines::Packet;
use potset_forecast::lever::LeverId;
use potset_forecast::observable::Observable;
use potset_forecast::scenario::Scenario;
use potset_judge::outcomes::Outcomes;
use potset_numerics::normal;

/// The share of a dose that weighing may be out by. Source: published, USP practice of compounding: a least weighable
/// quantity is what the scale's error is one twentieth of.
pub const WEIGHS_WELL: f64 = 0.05;

/// A dose that is out by no more than this is good enough not to mix. Source: common practice of compounding, 10 %.
const GOOD_ENOUGH: f64 = 0.10;

/// Grain of a culture powder, mm. Source: assumed, fine powder; its bulk has [`GRAIN_G_ML`].
pub const GRAIN_MM: f64 = 0.2;

/// What a grain of freeze-dried powder weighs, g/mL. Source: from memory.
const GRAIN_G_ML: f64 = 0.6;

/// How far piles parted by eye differ, one standard deviation. Source: assumed.
const BY_EYE: f64 = 0.2;

/// How far a pinch that nobody weighs is from what was meant, one standard deviation. Source: assumed, half to twice as
/// much.
const BY_PINCH: f64 = 0.35;

/// Most parts that are made by eye. Source: assumed.
const MOST_PARTS: f64 = 16.0;

/// Most tenfold mixes after each other. Source: assumed: each is another chance to mix badly.
const MOST_MIXES: u32 = 3;

/// Parts of a carrier to one of culture.
const CARRIER: f64 = 9.0;

/// How a dose is parted from the packet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    Whole,
    Weighed,
    /// Tenfold mixes after each other; the dose is weighed of the last.
    Mixed(u32),
    /// Equal parts by eye.
    Parts(u32),
    /// As much as two fingers hold.
    Pinch,
}

/// One dry mix: so much of what was made before, and of a dry carrier, g.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DryMix {
    pub of_g: f64,
    pub carrier_g: f64,
    /// All that there is goes in: nothing is weighed of it.
    pub all: bool,
}

impl DryMix {
    /// The portions of carrier that are stirred in one after the other, each about as much as is there already: a small
    /// powder does not spread evenly in much of another. Source: published, geometric dilution of compounding.
    pub fn portions(&self) -> Vec<f64> {
        let (mut there, mut left) = (self.of_g, self.carrier_g);
        let mut all = Vec::new();
        while left > 1e-12 {
            let next = left.min(there);
            all.push(next);
            there += next;
            left -= next;
        }
        all
    }
}

/// One way to part a dose from a packet.
#[derive(Clone, Debug, PartialEq)]
pub struct Split {
    pub way: Way,
    /// What goes into the pot, g: of the culture, or of the last mix.
    pub grams: f64,
    pub mixes: Vec<DryMix>,
    /// How far the culture in the pot is out, one standard deviation as a share of it.
    pub error: f64,
    /// Chance of less than half of the dose, 0 to 1.
    pub under_half: f64,
}

/// The packet, the pot and the scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SplitAsk {
    pub packet: Packet,
    pub pot_litres: f64,
    /// How far a weighing may be off, g.
    pub error_g: f64,
}

/// The least that is weighed to a share of itself, g: `error / share`.
/// Source: published, least weighable quantity of compounding (sensitivity 6 mg at 5 % is 120 mg).
pub fn least_weighed(error_g: f64, share: f64) -> f64 {
    error_g / share
}

/// How far chance alone moves the culture in a dose, as a share of it: `1/√n`, n grains of `π/6 d³ ρ`.
///
/// - `grams` — of the culture, `grain_mm` — across a grain.
/// - Source: derived, the count of grains in a sample is a Poisson variable.
pub fn by_chance(grams: f64, grain_mm: f64) -> f64 {
    let grain_g = PI / 6.0 * grain_mm.powi(3) * 1e-3 * GRAIN_G_ML;
    (grain_g / grams).sqrt()
}

impl SplitAsk {
    /// The culture that the pot is to get, g.
    pub fn dose(&self) -> f64 {
        self.packet.grams * self.pot_litres / self.packet.litres
    }

    fn checked(&self) -> Result<(), Note> {
        let fault = |field: &str, title: &str, mend: &str| Err(Note::error(field, title, mend));
        let good = |v: f64| v.is_finite() && v > 0.0;
        if !good(self.packet.grams) {
            return fault("packet", "The packet's weight is missing", "Give what it weighs, in g");
        }
        if !good(self.packet.litres) {
            return fault(
                "litres",
                "The packet's litres are missing",
                "Give the litres that it is meant for",
            );
        }
        if !good(self.pot_litres) {
            return fault("batch", "The pot has no litres", "Give how much you make, in litres");
        }
        if !good(self.error_g) {
            return fault("scale", "The scale has no step", "Give the smallest step that it shows, in g");
        }
        if self.pot_litres > self.packet.litres * (1.0 + 1e-9) {
            let title = "One packet is not enough for this pot";
            return fault("batch", title, "Make less, or use more packets");
        }
        Ok(())
    }

    fn split(&self, way: Way, grams: f64, mixes: Vec<DryMix>, parts: &[f64]) -> Split {
        let chance = if way == Way::Whole { 0.0 } else { by_chance(self.dose(), GRAIN_MM) };
        let error = parts.iter().fold(chance * chance, |sum, part| sum + part * part).sqrt();
        let under_half = if error > 0.0 { normal::below(-0.5 / error) } else { 0.0 };
        Split { way, grams, mixes, error, under_half }
    }

    /// Tenfold mixes after each other, each weighed well, or of all that there is.
    fn mixed(&self, times: u32) -> Split {
        let well = tidy(least_weighed(self.error_g, WEIGHS_WELL));
        let mut mixes = Vec::new();
        let mut errors = Vec::new();
        let mut there = self.packet.grams;
        for _ in 0..times {
            let all = well >= there;
            let of_g = well.min(there);
            mixes.push(DryMix { of_g, carrier_g: CARRIER * of_g, all });
            errors.push(if all { 0.0 } else { self.error_g / of_g });
            // Nine parts and one: the weight of the carrier is out by less, and by its own weighing.
            errors.push(self.error_g / (CARRIER * of_g));
            there = (CARRIER + 1.0) * of_g;
        }
        let grams = self.dose() * (CARRIER + 1.0).powi(i32::try_from(times).unwrap_or_default());
        errors.push(self.error_g / grams);
        self.split(Way::Mixed(times), grams, mixes, &errors)
    }
}

/// A weight that is easily weighed, no less than this one: 1, 2 or 5 with noughts.
fn tidy(grams: f64) -> f64 {
    let ten = 10_f64.powf(grams.log10().floor());
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|k| k * ten).find(|v| *v >= grams * (1.0 - 1e-9)).unwrap_or(grams)
}

/// All ways that this packet can be split for this pot, the one to take first.
///
/// # Errors
/// A note that names what is missing, or that the packet is too small.
pub fn splits(ask: &SplitAsk) -> Result<Vec<Split>, Note> {
    ask.checked()?;
    let dose = ask.dose();
    let parts = ask.packet.litres / ask.pot_litres;
    if parts < 1.0 + 1e-6 {
        return Ok(vec![ask.split(Way::Whole, dose, Vec::new(), &[])]);
    }
    let weighed = ask.split(Way::Weighed, dose, Vec::new(), &[ask.error_g / dose]);
    // A dose of the mix may be more than there is of it: then the next mix is no use.
    let mut mixed: Vec<Split> = (1..=MOST_MIXES).map(|times| ask.mixed(times)).collect();
    mixed.retain(|split| {
        split.mixes.last().is_some_and(|mix| split.grams <= (mix.of_g + mix.carrier_g) * (1.0 + 1e-9))
    });
    let mut all: Vec<Split> = std::iter::once(weighed).chain(mixed).collect();
    // The simplest that is good enough comes first; where none is, the best.
    let first = all.iter().position(|split| split.error <= GOOD_ENOUGH).or_else(|| {
        let best = all.iter().enumerate().min_by(|(_, a), (_, b)| a.error.total_cmp(&b.error));
        best.map(|(i, _)| i)
    });
    let first = all.remove(first.unwrap_or(0));
    all.sort_by(|a, b| a.error.total_cmp(&b.error));
    all.insert(0, first);
    if parts <= MOST_PARTS && (parts - parts.round()).abs() < 0.05 {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 1 to MOST_PARTS")]
        let count = parts.round() as u32;
        all.push(ask.split(Way::Parts(count), dose, Vec::new(), &[BY_EYE]));
    }
    all.push(ask.split(Way::Pinch, dose, Vec::new(), &[BY_PINCH]));
    Ok(all)
}

/// How many hours later the pot is sour with so many times the dose of a culture line; less than nothing: sooner. Nothing
/// where one of both never comes there.
pub fn hours_later(scenario: &Scenario<'_>, line: usize, times: f64) -> Option<f64> {
    let lever = LeverId::CultureRate(line);
    let now = lever.value(scenario.design, scenario.pantry)?;
    let edit = lever.edit(scenario.design, now * times);
    let design = potset_doc::edit::apply(scenario.design, &edit, scenario.pantry).ok()?;
    let other = Scenario { design: &design, ..*scenario };
    let sour = |ask: &Scenario<'_>| Outcomes::of(ask, &ask.run().ok()?).get(Observable::SourAt);
    Some(sour(&other)? - sour(scenario)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ask(grams: f64, litres: f64, pot_litres: f64, error_g: f64) -> SplitAsk {
        SplitAsk { packet: Packet { grams, litres }, pot_litres, error_g }
    }

    #[test]
    fn the_least_weighed_is_that_of_compounding() {
        // Source: published, pharmaceutical calculations (PHARM): sensitivity 6 mg: 120 mg at 5 %, 600 mg at 1 %.
        assert!((least_weighed(0.006, 0.05) - 0.120).abs() < 1e-12);
        assert!((least_weighed(0.006, 0.01) - 0.600).abs() < 1e-12);
    }

    #[test]
    fn a_tenfold_mix_is_the_aliquot_of_compounding() {
        // Source: published, pharmaceutical calculations (PHARM): 12 mg wanted, 120 mg weighed into 1200 mg, 120 mg of that.
        let split = ask(1.2, 100.0, 1.0, 0.006).mixed(1);
        let mix = split.mixes[0];
        assert!((split.grams - 0.120).abs() < 1e-9, "{split:?}");
        // Ours weighs the next easy figure: no less than those 120 mg.
        assert!(mix.of_g >= 0.120 - 1e-12 && (mix.carrier_g / mix.of_g - 9.0).abs() < 1e-9);
    }

    #[test]
    fn grains_fall_into_a_dose_by_chance() {
        // Source: derived, 20 mg of grains of 0.2 mm are 7958: 1.1 %; of 0.5 mm 509: 4.4 %; of 1 mm 64: 12.5 %.
        for (grain, share) in [(0.2, 0.0112), (0.5, 0.0443), (1.0, 0.1253)] {
            assert!((by_chance(0.020, grain) - share).abs() < 1e-4, "{grain}");
        }
    }

    #[test]
    fn what_the_scale_can_weigh_is_weighed_and_the_rest_is_mixed() {
        // 5 g for 10 L into 2 L: 1 g on a scale that errs by 0.05 g is out by a twentieth.
        let easy = splits(&ask(5.0, 10.0, 2.0, 0.05)).unwrap();
        assert_eq!(easy[0].way, Way::Weighed);
        assert!((easy[0].error - 0.05).abs() < 0.005, "{}", easy[0].error);
        // 1 g for 50 L into 1 L: 0.02 g. As it is, the scale cannot tell it from nothing.
        let hard = splits(&ask(1.0, 50.0, 1.0, 0.05)).unwrap();
        assert!(matches!(hard[0].way, Way::Mixed(_)), "{:?}", hard[0]);
        assert!(hard[0].mixes[0].all, "one gram is all there is");
        let weighed = hard.iter().find(|s| s.way == Way::Weighed).unwrap();
        assert!(weighed.error > 2.0 && weighed.under_half > 0.3, "{weighed:?}");
        assert!(hard[0].under_half < 0.01, "{:?}", hard[0]);
        // The whole packet is no question.
        let whole = splits(&ask(1.0, 2.0, 2.0, 0.05)).unwrap();
        assert_eq!((whole.len(), whole[0].way, whole[0].error), (1, Way::Whole, 0.0));
    }

    #[test]
    fn ten_parts_by_eye_are_worse_than_weighed_and_a_pinch_is_worst() {
        let all = splits(&ask(10.0, 10.0, 1.0, 0.05)).unwrap();
        let of = |way: Way| all.iter().find(|s| s.way == way).unwrap();
        assert!(of(Way::Weighed).error < of(Way::Parts(10)).error);
        assert!(of(Way::Parts(10)).under_half < of(Way::Pinch).under_half);
        assert_eq!(all.last().unwrap().way, Way::Pinch);
    }

    #[test]
    fn portions_double_what_is_there() {
        let portions = DryMix { of_g: 1.0, carrier_g: 9.0, all: false }.portions();
        // Source: published, geometric dilution: 1 and 1, 2 and 2, 4 and the rest.
        assert_eq!(portions.len(), 4, "{portions:?}");
        assert_eq!(&portions[..3], &[1.0, 2.0, 4.0]);
        assert!((portions.iter().sum::<f64>() - 9.0).abs() < 1e-12);
    }

    #[test]
    fn what_cannot_be_split_names_its_field() {
        for (ask, field) in [
            (ask(0.0, 10.0, 1.0, 0.05), "packet"),
            (ask(1.0, f64::NAN, 1.0, 0.05), "litres"),
            (ask(1.0, 10.0, -1.0, 0.05), "batch"),
            (ask(1.0, 10.0, 1.0, 0.0), "scale"),
            (ask(1.0, 10.0, 11.0, 0.05), "batch"),
        ] {
            let note = splits(&ask).unwrap_err();
            assert_eq!(note.field, field, "{note:?}");
        }
    }
}
