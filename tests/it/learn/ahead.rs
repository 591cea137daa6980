//! The forecast ahead of a pot under way.

use super::{batch, deviate, pantry};
use crate::support::demo;
use potset_doc::batch::Observed;
use potset_doc::{Kitchen, Learnt};
use potset_doubt::spread::{Pot, Sampler};
use potset_forecast::params;
use potset_forecast::scenario::Scenario;
use potset_judge::ready::HORIZON_H;
use potset_learn::{CLOUD_POTS, Cloud, data, next};

/// Two readings of a coconut pot leave at most half of the range of its ready time, and the truth lies in it as often as it
/// should: 100 true pots of other draws than the cloud's.
#[test]
fn two_readings_narrow_when_a_coconut_pot_is_ready() {
    let (design, pantry) = (demo("coconut-pot.ron"), pantry());
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let scenario = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
    let cloud = Cloud::new(&scenario, 1, CLOUD_POTS).unwrap();
    let laws = params::shipped().unwrap().laws();
    let before = cloud.ahead(&[]).range;
    let sampler = Sampler::looking_to(&scenario, 77, 100, HORIZON_H).unwrap();
    let truths =
        sampler.each(0..100, |scenario, run| (run.forecast.clone(), Pot::of(scenario, &run).ready_h));
    let (mut shares, mut inside) = (Vec::new(), 0);
    for (k, truth) in truths.into_iter().enumerate() {
        let (f, ready) = truth.unwrap();
        let read = |(i, t): (usize, f64)| (t, f.value(&f.ph, t) + 0.05 * deviate(k as u64, i as u64));
        let readings: Vec<(f64, f64)> = [4.0, 8.0].into_iter().enumerate().map(read).collect();
        let told = data(&batch(&design, &readings), 24.0, &laws.learning, &laws.words);
        let (from, to) = cloud.ahead(&told).range;
        shares.push((to - from) / (before.1 - before.0));
        inside += usize::from((from - 1e-9..=to + 1e-9).contains(&ready.unwrap_or(HORIZON_H)));
    }
    shares.sort_by(f64::total_cmp);
    println!(
        "median share {:.2}, quarters {:.2} and {:.2}; inside {inside}",
        shares[50], shares[25], shares[75]
    );
    assert!(shares[50] <= 0.5, "{}", shares[50]);
    assert!(inside >= 85, "{inside}");
}

#[test]
fn readings_that_fit_no_pot_are_said_to_and_leave_an_answer() {
    let (design, pantry) = (demo("coconut-pot.ron"), pantry());
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let scenario = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
    let cloud = Cloud::new(&scenario, 1, 200).unwrap();
    let laws = params::shipped().unwrap().laws();
    let ahead = |readings: &[(f64, f64)]| {
        cloud.ahead(&data(&batch(&design, readings), 24.0, &laws.learning, &laws.words))
    };
    // A pot that falls two units in an hour, and comes back.
    let odd = ahead(&[(1.0, 4.0), (2.0, 6.2), (3.0, 3.6)]);
    assert!(odd.strained && odd.present >= 20.0, "{} {}", odd.strained, odd.present);
    assert!(odd.bands.iter().flatten().flatten().all(|v| v.is_finite()));
    let usual = ahead(&[(8.0, 5.3)]);
    assert!(!usual.strained);
    // What comes next is worth a reading, and lies ahead.
    let told = next(&cloud, &usual, 8.0, 0.06);
    assert!(told.is_none_or(|n| n.at_h > 8.0 && n.settles > 0.0), "{told:?}");
}

#[test]
fn words_and_spoons_are_readings() {
    use potset_base::words::{SweetWord, TangWord, TextureWord};
    let (design, pantry) = (demo("coconut-pot.ron"), pantry());
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let scenario = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
    let cloud = Cloud::new(&scenario, 1, 400).unwrap();
    let laws = params::shipped().unwrap().laws();
    let most = |what: Observed| {
        let mut batch = batch(&design, &[(10.0, 0.0)]);
        batch.readings[0].what = what;
        let told = data(&batch, 24.0, &laws.learning, &laws.words);
        assert_eq!(told.len(), 1);
        cloud.ahead(&told)
    };
    // Who tastes it sour at ten hours has it sooner than who tastes nothing yet.
    let (sour, flat) = (most(Observed::Tang(TangWord::Bright)), most(Observed::Tang(TangWord::Flat)));
    assert!(sour.half_h.unwrap() < flat.half_h.unwrap());
    let sweet = most(Observed::Sweetness(SweetWord::SweetnessLeads));
    let acid = most(Observed::Sweetness(SweetWord::AcidLeads));
    assert!(acid.half_h.unwrap() <= sweet.half_h.unwrap());
    let thick = most(Observed::Texture(TextureWord::Stands));
    let thin = most(Observed::Texture(TextureWord::Pours));
    let at = |told: &potset_learn::Ahead| told.at(potset_learn::Seen::InPot, 10.0).unwrap()[2];
    assert!(at(&thick) > at(&thin));
}
