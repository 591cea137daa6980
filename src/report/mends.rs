//! Mends in words: what is written on the button, and what the step of undo is called.

use potset_base::number::{hours, plain};
use potset_base::units::prose::prose;
use potset_base::units::said::warmth;
use potset_base::words::lower;
use potset_doc::Edit;
use potset_doc::design::Powder;
use potset_judge::mends::{How, Mend};

/// What a mend does.
pub fn label(how: &How) -> String {
    let words = match how {
        How::Feed => "Add 12.5 g/L of white sugar",
        How::Inoculate => "Add as much culture as the packet says",
        How::CookPart => "Cook it in a quarter of the base",
        How::MixFirst => "Mix it into the sugar first",
        How::CultureAt(c) => return format!("Add the culture at {}", warmth(*c, 0)),
        How::HoldAt(c) => return format!("Hold at {}", warmth(*c, 0)),
        How::CoolAndMild => return prose("Add the culture at 40 °C and hold at 41 °C"),
        How::AddAt(c) => return format!("Add the culture at {}", warmth(*c, 0)),
        How::HeatedPot(c) => return format!("Keep it in a heated pot at {}", warmth(*c, 0)),
        How::AddAtInHeatedPot(c) => {
            return format!("Add the culture at {} and keep it in a heated pot", warmth(*c, 0));
        }
        How::AllOfIt => "Start and keep it warm, with twice the culture",
        How::SplitPowder(Powder::OneToHundred) => "Mix 1 g of culture with 99 g of sugar, then weigh that",
        How::SplitPowder(_) => "Mix 1 g of culture with 9 g of sugar, then weigh that",
        How::PacketRate => "Use as much as the packet says",
        How::Rate(rate) => return format!("Use {} × packet", plain(*rate)),
        How::Dose(rate) => return format!("Use {} × packet of culture", plain(*rate)),
        How::StopAfter(h) => return format!("Stop at {}", hours(*h)),
        How::Strain => "Strain it overnight",
        How::TinnedCream => "Use tinned coconut cream",
        How::NoWater => "Leave the water out",
        How::Thicken(dose, name) => return format!("Add {} g/L of {}", plain(*dose), lower(name)),
        How::RaiseThickener(dose, name) => {
            return format!("Raise to {} g/L of {}", plain(*dose), lower(name));
        }
        How::StirOnce => "Stir it once before the stop",
        How::LeaveAlone => "Leave it alone while it sets",
        How::NoStanding => "Do not let it stand",
        How::CoolFast => "Cool it in ice and water",
        How::Boil => "Boil the base first",
        How::ChillOvernight => "Chill it in the fridge overnight",
        How::ColdWeek => "Keep it in the fridge, a week at most",
    };
    words.to_owned()
}

/// What a mend does, where there is one.
pub fn offered(mend: Option<&Mend>) -> Option<String> {
    mend.map(|mend| label(&mend.how))
}

/// Its edits as one step of undo.
pub fn edit(mend: &Mend) -> Edit {
    Edit::Together(label(&mend.how), mend.edits.clone())
}
