//! What is said of the settings: more often only where the counts tell it, and clearly only where anybody would see it in them.

use potset_report::aim as say;
use potset_search::aim::{AimAsk, Found, Moves, TargetSearch};

use super::{wants, with};
use crate::support::demo;

fn counted(file: &str, texts: &[&str]) -> Found {
    let design = demo(file);
    let wish = AimAsk::new(wants(&design, texts), Moves::default(), 0).unwrap();
    with(&design, |ask| {
        let mut aimer = TargetSearch::new(wish);
        while aimer.next(ask, 64) {}
        aimer.into_found()
    })
}

#[test]
fn what_works_more_often_is_said_with_both_counts() {
    for (file, texts) in
        [("coconut-pot.ron", &["sugar<=40"][..]), ("whole-milk-pot.ron", &["texture=dollops"])]
    {
        let found = counted(file, texts);
        if !found.does_already() {
            continue;
        }
        let own = found.as_is.as_ref().unwrap().chance.clone().unwrap();
        let said = &say::lines(&found)[1];
        let Some(best) = found.proposals.iter().map(|p| &p.chance).max_by_key(|c| c.pots.of) else {
            assert!(said.contains("nothing to change"), "{said}");
            continue;
        };
        assert!(best.clearly_above(&own));
        let counts =
            format!("more often: {} of {} pots against {}", best.pots.of, best.pots.among, own.pots.of);
        assert!(said.ends_with(&counts), "{said}");
        assert_eq!(said.contains("clearly"), best.far_above(&own), "{said}");
        assert!(said.contains("clearly") || said.contains("a little"), "{said}");
    }
}
