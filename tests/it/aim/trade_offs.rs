//! The table of trade-offs: ready by what is asked for, the texture by its name, and what a person would notice.

use potset_forecast::observable::Observable;
use potset_report::aim::{TradeOff, trade_offs};
use potset_search::aim::Gives;

use super::{aim, held, wants, with};
use crate::support::demo;

#[test]
fn trade_offs_tell_what_a_person_would_notice() {
    let design = demo("coconut-pot.ron");
    let found = aim(&design, &["texture=dollops", "ready<=14h"]);
    let wanted = wants(&design, &["texture=dollops", "ready<=14h"]);
    let now = with(&design, |scenario| Gives::of_wants(scenario, &scenario.run().unwrap(), &wanted));
    let rows = trade_offs(&now, &found.proposals);
    assert!(!rows.is_empty());
    for row in &rows {
        assert_eq!(row.then.len(), found.proposals.len());
        let outcomes: Vec<_> = std::iter::once(&now)
            .chain(found.proposals.iter().map(|p| &p.gives))
            .map(|g| &g.outcomes)
            .collect();
        assert!(outcomes.iter().any(|a| outcomes.iter().any(|b| a.differs(b, row.outcome))), "{row:?}");
    }
}

#[test]
fn what_gets_ready_is_not_called_never() {
    for (file, texts) in [
        // The design's own goals want dollops, which what is cut never is.
        ("coconut-pot.ron", &["texture=cuts", "vegan", "gluten-free"][..]),
        ("coconut-pot.ron", &["texture=pours..ribbons", "tang=mild"]),
        ("whole-milk-pot.ron", &["vegan", "tang=bright"]),
    ] {
        let design = demo(file);
        let found = aim(&design, texts);
        held(&design, &wants(&design, texts), &found);
        for p in &found.proposals {
            let ready = p.gives.outcomes.get(Observable::ReadyFrom);
            assert!(
                ready.is_some_and(|h| h <= p.stop_h + 1e-6),
                "{texts:?}: {ready:?}, stopped at {}",
                p.stop_h
            );
        }
        let now = with(&design, |scenario| {
            Gives::of_wants(scenario, &scenario.run().unwrap(), &wants(&design, texts))
        });
        let rows = trade_offs(&now, &found.proposals);
        let ready = rows.iter().find(|row| row.outcome == Observable::ReadyFrom);
        let cells = |row: &TradeOff| (0..row.then.len()).map(|i| row.then_words(i)).collect::<Vec<_>>();
        assert!(ready.is_none_or(|row| cells(row).iter().all(|c| c != "never")), "{ready:?}");
    }
}

#[test]
fn a_texture_of_another_name_that_nobody_asked_for_is_a_change_and_is_said() {
    let design = demo("whole-milk-pot.ron");
    let texts = ["vegan", "tang=bright"];
    let found = aim(&design, &texts);
    held(&design, &wants(&design, &texts), &found);
    let own = found.as_is.as_ref().unwrap().texture;
    let renamed = |p: &potset_search::aim::Proposal| p.gives.texture != own;
    for p in &found.proposals {
        assert_eq!(p.watch.texture.is_some(), renamed(p), "{:?}", p.watch);
        assert!(!renamed(p) || p.change.entries > 0);
    }
    let now = with(&design, |scenario| {
        Gives::of_wants(scenario, &scenario.run().unwrap(), &wants(&design, &texts))
    });
    let rows = trade_offs(&now, &found.proposals);
    let texture = rows.iter().find(|row| row.outcome == Observable::Texture);
    for (i, p) in found.proposals.iter().enumerate().filter(|(_, p)| renamed(p)) {
        let cell = texture.unwrap().then_words(i);
        assert!(cell.starts_with(p.gives.texture.unwrap().word()), "{cell}");
        assert!(texture.unwrap().now_words().starts_with(own.unwrap().word()));
    }
    // Where one of them keeps the texture, it is not one that changes it that comes first.
    let keeps = found.proposals.iter().any(|p| !renamed(p));
    assert!(!keeps || !renamed(&found.proposals[0]));
    // Where a texture is wanted, that is what it is judged by.
    let asked = aim(&design, &["vegan", "tang=bright", "texture=pours..stands"]);
    assert!(asked.proposals.iter().all(|p| p.watch.texture.is_none()));
}
