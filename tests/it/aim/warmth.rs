//! Another warmer, and the warmth at which the culture goes in, are settings too.

use potset_doc::edit;
use potset_doc::kitchen::MeasuredWarmer;
use potset_doc::{Design, Edit, Kitchen, Learnt};
use potset_doubt::kept::likely;
use potset_forecast::lever::LeverId;
use potset_forecast::observable::Observable;
use potset_forecast::scenario::Scenario;
use potset_judge::outcomes::Outcomes;
use potset_report::aim as say;
use potset_search::aim::{AimAsk, Found, Moves, TargetSearch, Want};

use super::{found_in, held, moving, wants, with};
use crate::support::{demo, shipped};

/// The coconut pot in an insulated flask, which only loses its warmth.
fn in_a_flask() -> Design {
    edit::apply(&demo("coconut-pot.ron"), &Edit::Warmer("insulated_flask".to_owned()), shipped()).unwrap()
}

fn warmer(design: &Design) -> &str {
    &design.hold().unwrap().warmer
}

fn found(design: &Design, texts: &[&str], moves: Moves) -> Found {
    found_in(design, &AimAsk::new(wants(design, texts), moves, 0).unwrap(), 64)
}

#[test]
fn a_flask_that_sours_too_slowly_gets_another_warmer_and_not_five_times_the_culture() {
    let design = in_a_flask();
    let texts = ["ph<=4.1", "ready<=20h"];
    let found = found(&design, &texts, Moves::default());
    held(&design, &wants(&design, &texts), &found);
    assert!(
        found.proposals.iter().any(|p| warmer(&p.design) != "insulated_flask"),
        "{:?}",
        say::lines(&found)
    );
    for p in &found.proposals {
        assert!(p.design.cultures.iter().all(|c| c.rate <= 4.0));
        if warmer(&p.design) != "insulated_flask" {
            assert!(say::said(p).iter().any(|s| s.ends_with("in place of insulated flask")), "{:?}", p.said);
            // A flask has no setting that another could stand instead of.
            assert!(p.turned.iter().all(|t| t.name() != "Hold at" || t.turn.was.is_none()), "{:?}", p.turned);
        }
    }
}

#[test]
fn a_held_warmer_stays_and_so_does_one_that_was_logged() {
    let texts = ["ph<=4.1", "ready<=20h"];
    let mut design = in_a_flask();
    let stays = |design: &Design, moves: Moves| {
        let found = found(design, &texts, moves);
        let all = found.proposals.iter().chain(found.blocked.iter().filter_map(|b| b.nearest.as_ref()));
        all.for_each(|p| assert_eq!(warmer(&p.design), "insulated_flask"));
    };
    let entries = ["base", "thickener", "culture"];
    stays(&design, moving(&design, &[], &[&entries[..], &["warmer"]].concat()));
    design.hold_mut().unwrap().measured =
        [(0.0, 42.0), (24.0, 34.0)].map(|(at_h, c)| potset_doc::steps::Reading { at_h, c }).to_vec();
    stays(&design, moving(&design, &[], &entries));
}

#[test]
fn with_only_what_there_is_a_warmer_is_one_of_the_kitchen() {
    let design = in_a_flask();
    let mut keys: Vec<String> = vec![design.bases[0].entry.clone(), design.sugars[0].entry.clone()];
    keys.extend([design.thickeners[0].entry.clone(), design.cultures[0].entry.clone()]);
    let mut all = wants(&design, &["ph<=4.1", "ready<=20h"]);
    all.push(Want::Only(keys));
    let in_kitchen = |kitchen: &Kitchen| {
        let ask = Scenario { design: &design, pantry: shipped(), kitchen, learnt: &Learnt::default() };
        let wish = AimAsk::new(all.clone(), Moves::default(), 0).unwrap();
        let mut aimer = TargetSearch::with_pots(wish, likely);
        while aimer.next(&ask, 64) {}
        let found = aimer.into_found();
        let all = found.proposals.iter().chain(found.blocked.iter().filter_map(|b| b.nearest.as_ref()));
        all.map(|p| warmer(&p.design).to_owned()).collect::<Vec<_>>()
    };
    let bare = in_kitchen(&Kitchen::default());
    assert!(bare.iter().all(|w| w == "insulated_flask"), "{bare:?}");
    let mut kitchen = Kitchen::default();
    kitchen.warmers.push(MeasuredWarmer {
        key: "water_bath".to_owned(),
        offset_c: 0.3,
        checked: String::new(),
    });
    let with_bath = in_kitchen(&kitchen);
    assert!(with_bath.iter().all(|w| w == "insulated_flask" || w == "water_bath"), "{with_bath:?}");
    assert!(with_bath.iter().any(|w| w == "water_bath"), "{with_bath:?}");
}

#[test]
fn the_warmth_at_which_the_culture_goes_in_moves_unless_it_is_held() {
    // Added to a base that is still cool, it starts late.
    let warm = demo("coconut-pot.ron");
    let design = edit::apply(&warm, &Edit::CultureTemperature(30.0), shipped()).unwrap();
    assert!(Moves::default().lever(LeverId::CultureIn).is_some());
    // By its name, and by the one that it had.
    for name in ["Add culture at", "Culture in at"] {
        let moves = moving(&design, &[name], &[]);
        assert!(moves.lever(LeverId::CultureIn).is_some(), "{name}");
    }
    let ph = |d: &Design| with(d, |ask| Outcomes::of(ask, &ask.run().unwrap()).get(Observable::Ph).unwrap());
    assert!(ph(&warm) < ph(&design));
    let between = format!("ph<={:.4}", 0.5 * (ph(&warm) + ph(&design)));
    let found = found(&design, &[&between], moving(&design, &["Add culture at"], &[]));
    held(&design, &wants(&design, &[&between]), &found);
    let culture_in = |d: &Design| LeverId::CultureIn.value(d, shipped()).unwrap();
    assert!(found.proposals.iter().all(|p| culture_in(&p.design) > culture_in(&design)));
    let held_back = moving(&design, &[], &["Add culture at"]);
    assert!(held_back.lever(LeverId::CultureIn).is_none());
}
