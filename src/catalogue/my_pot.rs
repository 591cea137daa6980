//! *My pot*: a whole design from what a maker has at hand. What is left open is as usual for such a base.

use potset_base::Note;
use potset_base::measures::Measure;
use potset_base::units::Amounts;
use potset_doc::check::faults;
use potset_doc::design::{BaseLine, Clock, CultureLine, LabelFigures, Powder, SugarLine, ThickenerLine};
use potset_doc::lines::{Pack, Packed, Packet};
use potset_doc::pantry::{Base, BaseKind, Vessel, Warmer, Warming};
use potset_doc::steps::Step;
use potset_doc::{Design, Kitchen, Pantry, assets};

/// What is asked; each may be left open.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answers {
    pub base: Option<BaseAnswer>,
    pub culture: Option<CultureAnswer>,
    /// Key of the warmer.
    pub warmer: Option<String>,
    pub clock: Clock,
}

/// What is in the tin or carton.
#[derive(Clone, Debug, PartialEq)]
pub struct BaseAnswer {
    pub entry: String,
    /// As its label says.
    pub label: LabelFigures,
    pub packed: Option<Packed>,
    pub pack: Option<Pack>,
    pub litres: f64,
    /// How the amount was said.
    pub measure: Measure,
}

/// What the packet of culture says, and how much of it goes in.
#[derive(Clone, Debug, PartialEq)]
pub struct CultureAnswer {
    pub entry: String,
    pub packet: Option<Packet>,
    /// × what the packet says for so many litres.
    pub rate: f64,
    pub measure: Measure,
}

/// Hours at the stop until the ready time is known. Source: common practice, a day for plants, 10 h for milk.
const HOURS: [f64; 2] = [24.0, 10.0];
/// How full a vessel is filled. Source: assumed, a finger below the rim.
const FILLED: f64 = 0.8;
/// As many pots as a design may have; litres that fill more are refused by its own check.
const MOST_POTS: f64 = 10_000.0;

/// The design of the answers.
///
/// # Errors
/// A note that names what is not in the pantry, or what a design cannot hold.
pub fn design(answers: &Answers, pantry: &Pantry, kitchen: &Kitchen) -> Result<Design, Note> {
    let dairy = match &answers.base {
        Some(base) => kind(pantry, &base.entry)? == BaseKind::Dairy,
        None => false,
    };
    // The usual way of such a base is that of a demo design; nothing of its scenario stays.
    let mut new = assets::demo(if dairy { "whole-milk-pot.ron" } else { "coconut-pot.ron" })?;
    new.name = "My pot".to_owned();
    new.notes = String::new();
    new.tags = Vec::new();
    new.spoons = kitchen.spoons;
    new.clock = answers.clock.clone();
    if let Some(base) = &answers.base {
        new.bases = vec![BaseLine {
            label: base.label.clone(),
            packed: base.packed.clone(),
            pack: base.pack,
            measure: base.measure,
            ..BaseLine::new(base.entry.clone(), base.litres)
        }];
        new.thickeners.retain(|_| matches!(kind(pantry, &base.entry), Ok(kind) if kind != BaseKind::Soy));
    }
    let usual = if dairy { "dairy_pair" } else { "nondairy_adjuncts" };
    let usual = CultureAnswer { entry: usual.to_owned(), packet: None, rate: 1.0, measure: Measure::Gram };
    let culture = answers.culture.as_ref().unwrap_or(&usual);
    new.cultures = vec![CultureLine {
        packet: culture.packet,
        measure: culture.measure,
        powder: Powder::Straight,
        ..CultureLine::new(culture.entry.clone(), culture.rate)
    }];
    fill(&mut new, pantry);
    if kitchen.amounts == Amounts::UsCustomary {
        new.say_in_us_measures(pantry);
    }
    if let Some(hold) = new.hold_mut() {
        hold.hours = HOURS[usize::from(dairy)];
        if let Some(warmer) = &answers.warmer {
            let entry = pantry.get::<Warmer>(warmer).ok_or_else(|| missing("warmer", warmer))?;
            hold.warmer.clone_from(warmer);
            if !matches!(entry.warming, Warming::Insulated { .. }) {
                hold.set_c = hold.set_c.clamp(entry.usual.0, entry.usual.1.max(entry.usual.0));
            }
        }
    }
    new.snapshot = Pantry::default().into();
    new.refresh_snapshot(pantry);
    // What was typed may be more than a design can hold.
    match faults(&new).into_iter().next() {
        Some(fault) => Err(fault),
        None => Ok(new),
    }
}

/// A design with nothing in it: what goes in is chosen on the bench.
///
/// # Errors
/// A note if what ships with the program is damaged.
pub fn empty(kitchen: &Kitchen) -> Result<Design, Note> {
    let mut new = assets::demo("coconut-pot.ron")?;
    new.name = "New design".to_owned();
    new.notes = String::new();
    new.tags = Vec::new();
    new.clock = Clock::Open;
    if let Some(hold) = new.hold_mut() {
        hold.hours = HOURS[0];
    }
    new.goals = potset_doc::goals::Goals::default();
    new.spoons = kitchen.spoons;
    (new.bases, new.sugars, new.thickeners, new.cultures) =
        <(Vec<BaseLine>, Vec<SugarLine>, Vec<ThickenerLine>, _)>::default();
    new.steps.retain(|step| !matches!(step, Step::HeatTreat { .. }));
    new.snapshot = Pantry::default().into();
    Ok(new)
}

/// As many vessels as the base fills.
fn fill(new: &mut Design, pantry: &Pantry) {
    let Some(vessel) = pantry.get::<Vessel>(&new.pots.vessel) else { return };
    let count = (new.litres() / (FILLED * vessel.litres) - 1e-9).ceil().clamp(1.0, MOST_POTS) as u32;
    new.pots.count = count;
}

fn kind(pantry: &Pantry, key: &str) -> Result<BaseKind, Note> {
    pantry.get::<Base>(key).map(|base| base.kind).ok_or_else(|| missing("base", key))
}

fn missing(what: &str, key: &str) -> Note {
    Note::error(what, format!("The pantry has no {what} called {key}"), "Choose another one")
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_base::measures::SpoonSet;
    use potset_doc::pantry::Culture;

    #[test]
    fn every_base_and_warmer_of_the_pantry_makes_a_design_without_faults() {
        let pantry = assets::pantry().unwrap();
        let kitchen = Kitchen::default();
        for base in pantry.bases.iter().filter(|b| b.kind != BaseKind::Water && b.bulk_density.is_none()) {
            for warmer in &pantry.warmers {
                let answers = Answers {
                    base: Some(BaseAnswer {
                        entry: base.key.clone(),
                        label: LabelFigures::default(),
                        packed: None,
                        pack: base.packs.first().copied(),
                        litres: 0.8,
                        measure: Measure::Litre,
                    }),
                    warmer: Some(warmer.key.clone()),
                    ..Answers::default()
                };
                let made = design(&answers, &pantry, &kitchen).unwrap();
                assert_eq!(faults(&made), Vec::new(), "{} in {}", base.key, warmer.key);
                assert_eq!(made.sugars.is_empty(), base.kind == BaseKind::Dairy, "{}", base.key);
                assert!(made.notes.is_empty() && made.tags.is_empty());
            }
        }
    }

    #[test]
    fn two_tins_and_a_tenth_of_a_packet() {
        let pantry = assets::pantry().unwrap();
        let base = BaseLine { measure: Measure::Tin, ..BaseLine::new("coconut_milk_tinned".to_owned(), 1.0) };
        let said = base.said(pantry.get(&base.entry), SpoonSet::Metric);
        let litres = said.read("Base", "2 tins").unwrap();
        assert!((litres - 0.8).abs() < 1e-12);
        let entry = pantry.get::<Culture>("nondairy_adjuncts").unwrap();
        let packet = Some(Packet { grams: 2.0, litres: 8.0 });
        let line =
            CultureLine { packet, measure: Measure::Packet, ..CultureLine::new(entry.key.clone(), 1.0) };
        let said = line.said(Some(entry), litres, SpoonSet::Metric);
        // A tenth of what makes 8 L is meant for 0.8 L: just what the packet says.
        for text in ["1/10 packet", "a tenth", "a tenth of a packet", "0.1", "0.2 g"] {
            assert!((said.read("Culture", text).unwrap() - 1.0).abs() < 1e-9, "{text}");
        }
        assert!(said.read("Culture", "2 tins").is_err());
    }
}
