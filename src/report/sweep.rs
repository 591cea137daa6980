//! Contour lines of a sweep: the values of an outcome at which something changes for the maker: goals, and where a word ends.

use potset_base::number::{self, NBSP};
use potset_base::words::{TangWord, TextureWord};
use potset_forecast::lever::LeverId;
use potset_forecast::observable::Observable;
use potset_forecast::scenario::{Run, Scenario};
use potset_judge::readiness::release_ph_of;
use potset_science::sensory::tang_bounds;
use potset_science::texture::sensory as touch;
use potset_search::sweep::SweepAsk;

/// Values of an outcome for contour lines, each with its words. Goals are those of the design as it is now; a stop line that is
/// itself swept is no line of one value, so it is left out.
pub fn goal_levels(
    outcome: Observable,
    ask: &Scenario<'_>,
    run: &Run,
    sweep: &SweepAsk,
) -> Vec<(f64, String)> {
    let laws = &run.mix.laws;
    match outcome {
        Observable::SourAt | Observable::ReadyFrom => {
            let stop_h = run.mix.stop_h;
            let level = (stop_h, format!("stop at {}", number::hours(stop_h)));
            if sweep.turns(LeverId::HoldHours) { Vec::new() } else { vec![level] }
        }
        Observable::Ph => {
            let release = release_ph_of(ask, run);
            vec![(release, format!("pH ≤ {}", number::fixed(release, 1)))]
        }
        Observable::Tang => {
            let ends = |w: TangWord| tang_bounds(w, &laws.words).1;
            TangWord::ALL.windows(2).map(|w| (ends(w[0]), between(w[0].word(), w[1].word()))).collect()
        }
        Observable::Texture => {
            use TextureWord::{Dollops, Pours, Ribbons, Stands};
            let w = &laws.words;
            let ends = [
                (w.pours_below, Pours, Ribbons),
                (w.ribbons_below, Ribbons, Dollops),
                (w.dollops_below, Dollops, Stands),
            ];
            ends.map(|(v, a, b)| (v, between(a.word(), b.word()))).to_vec()
        }
        Observable::Stiffness => {
            let words = between(TextureWord::Stands.word(), TextureWord::Cuts.word());
            vec![(laws.words.cuts_above_pa, words)]
        }
        _ => {
            let kept = Observable::KEPT_UNDER.into_iter().find(|(o, _)| *o == outcome);
            let most = kept.and_then(|(o, word)| Some((word, o.at_most(&ask.design.goals)?)));
            let words =
                |word: &str, most: f64| format!("{word} ≤ {}{NBSP}{}", number::plain(most), outcome.unit());
            most.map(|(word, most)| (most, words(word, most))).into_iter().collect()
        }
    }
}

/// The word for a value that a cook is told in a word; of a pot that flows.
pub fn word(outcome: Observable, v: f64) -> Option<&'static str> {
    let law = potset_forecast::params::shipped().ok()?.words.plain();
    match outcome {
        Observable::Texture => Some(touch::word(v, false, &law).word()),
        Observable::Tang => {
            TangWord::ALL.into_iter().find(|word| v < tang_bounds(*word, &law).1).map(TangWord::word)
        }
        _ => None,
    }
}

/// "pours | ribbons".
fn between(below: &str, above: &str) -> String {
    format!("{below} | {above}")
}
