//! Advice in words: a short line that says what is the case, and why, with numbers.

use crate::{hygiene, mends};
use potset_base::measures::whole::volume_plain;
use potset_base::number::{NBSP, figures, fixed, hours, plain};
use potset_base::units::prose::prose;
use potset_base::units::said::{warmth, warmth_apart_plain};
use potset_base::words::lower;
use potset_base::{Inhibitor, Note};
use potset_forecast::facts::cream_words;
use potset_judge::advice::{Advice, Besides, Fails, Here, Making, Matter, Splits};
use potset_judge::more_advice::KEEPS_DAYS;

/// Advice as a note; what it mends is told apart.
pub fn note(advice: &Advice) -> Note {
    let (title, sentence) = match &advice.what {
        Matter::Hygiene(against) => (hygiene::title(against), hygiene::because(against)),
        Matter::Check(check) => (format!("Check the pH at {}", hours(check.at_h)), hygiene::check(check)),
        Matter::Splits(splits) => split(*splits),
        Matter::Making(making) => made(making),
        Matter::Thickener((name, fails)) => thickener(name, *fails),
        Matter::Besides(besides) => beside(besides),
        Matter::Here(here) => of_here(here),
        Matter::Told(note) => return note.clone(),
    };
    Note { severity: advice.severity, field: advice.field.clone(), title, sentence, mend: String::new() }
}

/// Advice and its mend on one line.
pub fn line(advice: &Advice) -> String {
    note(advice).line() + &arrow(mends::offered(advice.mend.as_ref()))
}

/// What is offered, behind an arrow.
pub fn arrow(mend: Option<String>) -> String {
    mend.map_or_else(String::new, |label| format!(" -> {label}"))
}

/// A warning and its mend as one sentence, for what a swap brings.
pub fn warned(advice: &Advice) -> String {
    let note = note(advice);
    let mend = mends::offered(advice.mend.as_ref());
    let mend = mend.map_or_else(String::new, |label| format!(". Mend: {}", lower(&label)));
    format!("{}: {}{mend}", note.title, lower(note.sentence.trim_end_matches('.')))
}

fn percent(share: f64) -> String {
    fixed(share * 100.0, 0)
}

/// A share of living cells in words: "12 %", "under 1 %".
pub fn living_words(share: f64) -> String {
    if share < 0.01 { format!("under 1{NBSP}%") } else { format!("{}{NBSP}%", figures(share * 100.0, 2)) }
}

/// A title and a sentence, each as `format!` has it.
macro_rules! said {
    ($title:literal, $($sentence:tt)+) => {
        (format!($title), format!($($sentence)+))
    };
}

fn split(splits: Splits) -> (String, String) {
    let (percent, when, mend) = match splits {
        Splits::Layer { percent, in_the_hold: true } => {
            (percent, "in the hold", "Stir the fat in before chilling")
        }
        Splits::Layer { percent, .. } => (percent, "while it cools", "Chill it sooner and faster"),
        Splits::StirringMixes => {
            return said!(
                "Stirring mixes it",
                "One stir at the stop mixes the risen fat in again. A little more may rise in the chill"
            );
        }
    };
    said!(
        "The pot splits",
        "{} of the pot, at the bottom, is thin, because the fat rises {when}. {mend}, thicken the base, or choose \
         one with a stabiliser",
        share_words(percent)
    )
}

/// A share of the pot in words, %: "a tenth", "a quarter".
fn share_words(percent: f64) -> String {
    match percent {
        p if p < 7.5 => "About a twentieth".to_owned(),
        p if p < 15.0 => "About a tenth".to_owned(),
        p if p < 22.5 => "About a fifth".to_owned(),
        p if p < 29.0 => "About a quarter".to_owned(),
        p if p < 40.0 => "About a third".to_owned(),
        p if p < 60.0 => "About half".to_owned(),
        p => format!("{}{}%", fixed(p, 0), NBSP),
    }
}

fn made(making: &Making) -> (String, String) {
    const END: &str = "At 50 °C a culture stops working (common practice). No pot sours above 50 °C";
    match making {
        Making::Watery(cream) => {
            let misses = &cream.misses;
            let misses =
                if misses.is_empty() { String::new() } else { format!(", though it misses {misses}") };
            said!(
                "A watery base makes a watery pot",
                "Its {}: {} by its solids (Codex CXS 240){misses}. There is little fat to firm up in the fridge",
                cream_words(cream.share),
                cream.class
            )
        }
        Making::CutWithWater(share) => said!(
            "The base is cut with water",
            "Coconut and water together have {}. A base cut with water gives a watery pot (common practice)",
            cream_words(*share)
        ),
        Making::NoCulture(ph) => {
            said!("No culture in the pot", "Nothing will sour it: pH {} at the stop", fixed(*ph, 1))
        }
        Making::NoFood(edible, ph) => said!(
            "No sugar for the culture: the pot cannot sour",
            "The culture finds only {} g/kg of sugar that it can eat. The pot stays at pH {}",
            fixed(*edible, 1),
            fixed(*ph, 1)
        ),
        Making::SmallDose(rate) => (
            format!("Only {} of what the packet says", plain(*rate)),
            "With few cells the pot starts late. For hours longer it is sweet, and other things can grow"
                .to_owned(),
        ),
        Making::BelowTheScale { grams, error_g } => {
            let error = error_g / grams;
            let size = format!("± {} %", percent(error));
            let size = if error > 1.0 { "more than the dose itself".to_owned() } else { size };
            let (grams, error) = (figures(*grams, 2), plain(*error_g));
            said!(
                "The dose is below what your scale can weigh",
                "You need {grams} g, and your scale errs by {error} g: {size}"
            )
        }
        Making::IntoTheHeat(c) => {
            (format!("Cool before you add the culture: the base is at {}", warmth(*c, 0)), prose(END))
        }
        Making::HotHold(c) => (format!("The hold reaches {}", warmth(*c, 0)), prose(END)),
        Making::GoalCapped { goal, ph, strict } => {
            let why = strict.map(|why| format!("The lower limit is needed {}", why.words()));
            let why = why.unwrap_or_else(|| "A less sour pot holds nothing back".to_owned());
            (format!("Your goal of pH {} counts as pH {}", plain(*goal), plain(*ph)), why)
        }
        Making::WithoutStarch(ph, strict) => {
            let (ph, strict) = (plain(*ph), plain(*strict));
            said!("Without starch pH {ph} is low enough", "With starch the pot has to come to pH {strict}")
        }
        Making::SlowWarmth(slow) => {
            // No kitchen tells more than half hours of it.
            let half = |h: f64| hours((2.0 * h).round() / 2.0);
            let (warm, share) = (if slow.too_warm { "hot" } else { "cool" }, percent(slow.share));
            said!(
                "Too {warm}: the culture works at {share} % of its best pace",
                "From {} on the pot is at {} on average, for {} in all. The culture works best near {}",
                half(slow.since_h),
                warmth(slow.c, 0),
                half(slow.hours),
                warmth(slow.best_c, 0)
            )
        }
        Making::SweetnessLeads(left, acid) => said!(
            "More sweet than sour",
            "{} g/L of sugar is left, and {} % of acid is made. The pot gets too sour for the culture before the \
             sugar is gone. Use less sugar; more time does not make it less sweet",
            fixed(*left, 0),
            fixed(*acid, 2)
        ),
        Making::NeverStrained => said!(
            "Called strained, but no step strains it",
            "The texture shown is of the whole pot, stirred as if for filling into jars"
        ),
    }
}

fn thickener(name: &str, fails: Fails) -> (String, String) {
    let thicker = |gain: Option<f64>| {
        let words = |gain| format!(". Cooked, the warm pot is {} times as thick", figures(gain, 2));
        gain.map_or_else(String::new, words)
    };
    match fails {
        Fails::Clumps(lost) => (
            format!("Mix the {} with the sugar first", lower(name)),
            format!("Stirred in dry, {} % is lost in lumps", percent(lost)),
        ),
        Fails::Uncooked { onset_c, share, gain } => said!(
            "{name} is never heated enough",
            "This thickener swells from {} and needs about 2 min at the boil. Here {} % of it is cooked, and the \
             rest sinks{}",
            warmth(onset_c, 0),
            percent(share),
            thicker(gain)
        ),
        Fails::Undissolved { dissolve_c, share, gain } => said!(
            "{name} never dissolves",
            "This thickener dissolves at about {}. Here {} % of it does{}",
            warmth(dissolve_c, 0),
            percent(share),
            thicker(gain)
        ),
        Fails::SetsBefore { set_c, culture_c, broken } => said!(
            "{name} sets before the culture goes in",
            "This thickener sets from about {} down ({}). At {}, {} % has set when you stir the culture in, and \
             stirring breaks it for good",
            warmth(set_c, 0),
            prose("literature 32–45 °C for agar"),
            warmth(culture_c, 0),
            percent(broken)
        ),
    }
}

fn beside(besides: &Besides) -> (String, String) {
    match besides {
        Besides::OldCulture(living) => said!(
            "The culture is old",
            "Of its cells {} still live, and they start later",
            living_words(*living)
        ),
        Besides::HeldBack(slowed, by) => {
            let by: Vec<&str> = by.iter().map(|i| i.words()).collect();
            let by = if by.is_empty() { Inhibitor::Sugar.words().to_owned() } else { by.join(" and ") };
            said!("Something holds the culture back", "{} slowed: {by}", slowed.join(", "))
        }
        Besides::Preserved(mg_kg) => said!(
            "The base is preserved against souring",
            "The pot holds {} mg/kg of preservative, and the preservative acts more as the pot sours. A pot begins \
             well, then stalls between pH 5 and 4.5. Choose a base without preservative",
            figures(*mg_kg, 2)
        ),
        Besides::Chalk(acid) => said!(
            "Chalk in the pot",
            "The chalk takes up {} mmol/kg of acid before the pot can sour. It gives off gas: below pH 6, bubbles \
             are then no sign of spoilage",
            fixed(*acid, 0)
        ),
        Besides::Lactase(left) => said!(
            "Lactase splits the lactose",
            "{} g/kg of lactose is left at the stop. Glucose and galactose stay in the pot and taste sweeter. The \
             pot is not for people with galactosaemia. A label needs a laboratory's figure",
            figures(*left, 2)
        ),
        Besides::StarvedGel(name, supplied, calcium) => said!(
            "{name} needs more calcium to gel",
            "It gels to {} % here, because the base holds {} mg of calcium in 100 g. Add a calcium salt, or use \
             another thickener",
            percent(*supplied),
            fixed(*calcium, 0)
        ),
        Besides::TooBig(name, most, litres) => said!(
            "More than the warmer holds",
            "{name} holds {}; the design makes {}",
            volume_plain(*most),
            volume_plain(*litres)
        ),
        Besides::NoStraining => said!(
            "This pot cannot be strained",
            "No protein gel holds the pot back in a cloth: it would run through"
        ),
        Besides::KeptLong(days) => said!(
            "Kept longer than is usual at home",
            "You keep it {} days; usual at home are {} days at {} or below. Throw it away with mould, gas or a \
             foul smell",
            fixed(*days, 0),
            fixed(KEEPS_DAYS, 0),
            warmth(5.0, 0)
        ),
        Besides::Sharper(day, tang) => said!(
            "The pot gets sharper in the fridge",
            "The pot goes on souring in the cold: {} from about day {}",
            tang.word(),
            fixed(*day, 0)
        ),
    }
}

fn of_here(here: &Here) -> (String, String) {
    match here {
        // One card for all: many small ones would hide what can be mended.
        Here::Hazards(told) => {
            let told: Vec<String> = told
                .iter()
                .map(|(name, hazard)| format!("{name}: {}", prose(hazard.trim_end_matches('.'))))
                .collect();
            said!("Cautions on what goes in", "{}", told.join(". "))
        }
        Here::NotFood(name, left) => {
            let name = name.as_deref().unwrap_or("It");
            said!(
                "{name} is not food for the culture",
                "The culture cannot eat it: it sweetens, and stays. Without it, the culture has {} g/kg of food",
                fixed(*left, 1)
            )
        }
        Here::Thermometer { error, at, end } => said!(
            "Your thermometer cannot tell whether this is too hot",
            "Your thermometer may err by {}. When it shows {}, the culture may meet more than {}",
            warmth_apart_plain(*error),
            warmth(*at, 0),
            warmth(*end, 0)
        ),
        Here::CoarseStrips { step, goal } => said!(
            "Your strips are coarse",
            "In steps of {}, strips cannot tell pH {} from {}. Go on until they read {} or less",
            plain(*step),
            fixed(*goal, 1),
            fixed(goal + 0.5 * step, 1),
            fixed(goal - 0.5 * step, 1)
        ),
        Here::FewVessels(name, wanted, there) => {
            let name = name.as_deref().unwrap_or("them");
            said!("Not enough of {name}", "The design fills {wanted}, and your kitchen has {there}")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_are_said_as_a_cook_says_them() {
        for (percent, word) in [
            (6.0, "About a twentieth"),
            (11.0, "About a tenth"),
            (25.0, "About a quarter"),
            (35.0, "About a third"),
        ] {
            assert!(share_words(percent).starts_with(word), "{percent}");
        }
        assert_eq!(share_words(71.2).trim_end_matches('%').trim_end(), "71");
    }
}
