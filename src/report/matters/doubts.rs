//! What is not known of a pot, as a maker asks about it, and how one finds out.

use potset_base::measures::Measure;
use potset_doc::pantry::EntryKind;
use potset_doubt::matters::{Doubt, Remedy, Weighing};

/// Where only pots of one's own tell.
const NOTE_TEXTURE: &str = "note the texture of the pots that you make";
const READ_PH: &str = "read the pH of a pot while it sours";

/// "How much Plant culture goes in, by the knife tip", and what to do: "weigh it on your scale".
pub fn doubt(remedy: &Remedy) -> (String, &'static str) {
    match &remedy.doubt {
        Doubt::Amount(name, measure) => {
            let how = match remedy.weighing {
                Some(Weighing::OnTheScale) => "weigh it on your scale",
                Some(Weighing::Powder) => "mix 1 g of it with 9 g of sugar, and weigh that",
                _ => "use a finer scale",
            };
            (format!("How much {name} goes in, by {}", by(*measure)), how)
        }
        Doubt::Thermometer => {
            ("What your thermometer is off by".into(), "check it in melting ice and in boiling water")
        }
        Doubt::AgainstLabel(name) => (
            format!("What is in {name} against its label"),
            "use tins of one lot, and note how a pot of them came out",
        ),
        Doubt::Age => ("How old the culture is".into(), "write the date on the packet"),
        Doubt::Measured(kind) => {
            (format!("How exactly {} was measured", kind.words()), "measure it again, and take the mean")
        }
        Doubt::PotToPot => {
            ("How pots differ in warmth".into(), "leave a thermometer in a pot of water through a whole hold")
        }
        Doubt::LeftOut => ("What the texture model misses".into(), NOTE_TEXTURE),
        Doubt::AcidOf(name) => (
            format!("How {name} takes up acid"),
            "read its pH, titrate it once, and type both under Measured",
        ),
        Doubt::AcidShape => ("How the base takes up acid between one pH and another".into(), "titrate it"),
        Doubt::Content(EntryKind::Base, name) => {
            (format!("What is in {name}"), "read its label into the design")
        }
        Doubt::Content(_, name) => (format!("What is in {name}"), "read its label"),
        Doubt::Thickening(name) => (
            format!("How strongly {name} works"),
            "thicken a cup of the base with it, and do a spoon or line-spread test",
        ),
        Doubt::Cells(name) => {
            (format!("How many living cells {name} brings, and how soon they work"), READ_PH)
        }
        Doubt::Strains => ("How fast these strains grow and sour".into(), READ_PH),
        Doubt::WarmerPace(name) => (
            format!("How fast a pot in {name} warms or cools"),
            "log a pot of water in it, and type your readings as measured temperatures of the hold",
        ),
        Doubt::FlaskLoses(name) => (
            format!("How fast a pot in {name} cools"),
            "read a pot of water in it after some hours, and give what it reads under Kitchen",
        ),
        Doubt::FlaskRead(name) => (
            format!("How exactly the loss of {name} was measured"),
            "read it once more, and add the reading under Kitchen",
        ),
        Doubt::WarmerReach(name) => (
            format!("What {name} really reaches"),
            "measure a pot of water in it, and type the difference under Kitchen",
        ),
        Doubt::Vessel => ("How fast the vessel warms and cools".into(), "log a pot of water once"),
        Doubt::Setting => ("How firmly gels, starch and fat of such a pot set".into(), NOTE_TEXTURE),
        Doubt::Souring => ("What the souring model misses".into(), READ_PH),
    }
}

/// How an amount is measured.
fn by(measure: Measure) -> String {
    match measure {
        Measure::Gram => "your scale".to_owned(),
        Measure::Millilitre => "the jug".to_owned(),
        other => format!("the {}", other.word(false)),
    }
}
