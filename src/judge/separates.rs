//! A pot that splits: a thin layer below, in words, with what mends it.

use crate::advice::{Advice, note};
use crate::mends::Mend;
use crate::verdict::Verdict;
use potset_base::words::lower;
use potset_base::{Severity, number};
use potset_doc::Edit;
use potset_doc::edit::Shelf;
use potset_doc::pantry::{Action, Thickener};
use potset_doc::steps::{Event, Happening, Step};
use potset_forecast::outcome::{Outcome, Step as Noticed};
use potset_forecast::scenario::{Ask, Run};

/// Cold-swelling starch that a mend tries, g/L: the usual doses. Source: common practice.
const DOSES: [f64; 4] = [7.0, 10.0, 14.0, 20.0];

/// The thickener that a mend adds where there is none.
const THICKENER: &str = "tapioca_starch_cold";

/// How long before the stop a pot is stirred, h. Source: assumed.
const BEFORE_STOP_H: f64 = 0.25;

/// Adds what is worth telling of a pot that splits.
pub fn advice(ask: &Ask<'_>, run: &Run, verdict: &Verdict, all: &mut Vec<Advice>) {
    let Some(texture) = &verdict.texture else { return };
    let Noticed::By(least) = Outcome::ThinLayer.step() else { return };
    if texture.thin_layer < least {
        return;
    }
    let share = share_words(texture.thin_layer);
    let (when, mend) = if texture.thin_in_pot >= 0.5 * texture.thin_layer {
        ("in the hold", "Stir the fat in before chilling")
    } else {
        ("while it cools", "Chill it sooner and faster")
    };
    let sentence = format!(
        "{share} of the pot, at the bottom, is thin: the fat rises {when}. {mend}, thicken the base, or take one with a \
         stabiliser"
    );
    all.push(Advice {
        note: note(Severity::Watch, "bases", "The pot splits", sentence),
        mend: thicken(ask, least),
    });
    if texture.thin_in_pot >= least
        && let Some(mend) = stir(ask, run, texture.thin_layer)
    {
        let sentence = "Stirred once at the stop, the fat that rose is mixed in again. A little more may rise in the chill";
        all.push(Advice {
            note: note(Severity::Tip, "hold", "Stirring mixes it", sentence.to_owned()),
            mend: Some(mend),
        });
    }
}

/// A share of the pot in words, %: "a tenth", "a quarter".
#[must_use]
pub fn share_words(percent: f64) -> String {
    match percent {
        p if p < 7.5 => "About a twentieth".to_owned(),
        p if p < 15.0 => "About a tenth".to_owned(),
        p if p < 22.5 => "About a fifth".to_owned(),
        p if p < 29.0 => "About a quarter".to_owned(),
        p if p < 40.0 => "About a third".to_owned(),
        p if p < 60.0 => "About half".to_owned(),
        p => format!("{}{}%", number::fixed(p, 0), number::NBSP),
    }
}

/// The smallest usual dose of a cold-swelling starch that leaves no thin layer to be seen, if one does.
fn thicken(ask: &Ask<'_>, least: f64) -> Option<Mend> {
    let starch = |key: &str| {
        let entry = ask.design.entry::<Thickener>(ask.pantry, key)?;
        matches!(entry.action, Action::ColdStarch { .. }).then(|| entry.name.clone())
    };
    let there = ask
        .design
        .thickeners
        .iter()
        .enumerate()
        .find_map(|(i, line)| starch(&line.entry).map(|name| (i, line.g_per_l, name)));
    let name = there.as_ref().map_or_else(|| starch(THICKENER), |(.., name)| Some(name.clone()))?;
    DOSES.into_iter().filter(|dose| there.as_ref().is_none_or(|(_, now, _)| dose > now)).find_map(|dose| {
        let edit = match &there {
            Some((i, ..)) => Edit::ThickenerDose(*i, dose),
            None => Edit::Add(Shelf::Thickeners, THICKENER.to_owned(), dose),
        };
        let layer = ask.with(&edit).and_then(|new| layer(&new))?;
        (layer < least).then(|| {
            let words = format!("{} g/L of {}", number::plain(dose), lower(&name));
            Mend::new(
                if there.is_some() { format!("Raise to {words}") } else { format!("Add {words}") },
                edit,
            )
        })
    })
}

/// Stirring shortly before the stop, if it leaves less than half of the layer.
fn stir(ask: &Ask<'_>, run: &Run, now: f64) -> Option<Mend> {
    let at_h = run.mix.stop_h - BEFORE_STOP_H;
    if at_h <= 0.0 {
        return None;
    }
    let mut steps = ask.design.steps.clone();
    let hold = steps.iter_mut().find_map(|s| if let Step::Hold(hold) = s { Some(hold) } else { None })?;
    hold.events.push(Event { at_h, what: Happening::Stir });
    let edit = Edit::Steps(steps);
    let then = ask.with(&edit).and_then(|new| layer(&new))?;
    (then < 0.5 * now).then(|| Mend::new("Stir it once before the stop", edit))
}

/// Thin layer of a run after its chill, % of the pot.
fn layer(run: &Run) -> Option<f64> {
    run.forecast.textures(run.mix.stop_h).map(|(_, chilled)| chilled.thin_layer)
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
