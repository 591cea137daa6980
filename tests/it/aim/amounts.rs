//! No amount goes beyond twice its usual most unless unusual amounts are allowed.

use potset_doc::Design;
use potset_forecast::lever::{LeverId, levers};
use potset_report::aim as say;
use potset_search::aim::{AimAsk, Beyond, Found, Moves, Proposal};

use super::{found_in, held, moving, wants};
use crate::support::{demo, shipped};

fn found(design: &Design, texts: &[&str], moves: Moves) -> Found {
    found_in(design, &AimAsk::new(wants(design, texts), moves, 0).unwrap(), 64)
}

/// All that is shown to a person: the settings, and the nearest one where nothing reaches it.
fn shown(found: &Found) -> Vec<&Proposal> {
    found.proposals.iter().chain(found.blocked.iter().filter_map(|b| b.nearest.as_ref())).collect()
}

/// No dose of a design is beyond so many times what is most usual, nor beyond what it was.
fn within(p: &Proposal, was: &Design, times: f64) {
    for lever in levers(&p.design, shipped()) {
        let amount = matches!(
            lever.lever_id,
            LeverId::ThickenerDose(_) | LeverId::SugarDose(_) | LeverId::CultureRate(_)
        );
        let Some((_, most)) = lever.usual.filter(|_| amount) else { continue };
        let own = levers(was, shipped()).into_iter().find(|l| l.name == lever.name).map_or(0.0, |l| l.value);
        let limit = (times * most).max(own) + 1e-9;
        assert!(lever.value <= limit, "{} {} of {limit}: {:?}", lever.name, lever.value, p.said);
    }
}

#[test]
fn what_is_to_be_cut_gets_no_more_gel_than_it_needs() {
    let design = demo("coconut-pot.ron");
    let texts = ["texture=cuts", "vegan", "gluten-free"];
    let found = found(&design, &texts, Moves::default());
    held(&design, &wants(&design, &texts), &found);
    for p in &found.proposals {
        within(p, &design, 2.0);
        for t in p.design.thickeners.iter().filter(|t| t.entry == "agar") {
            assert!(t.g_per_l <= 6.0, "agar {} g/L", t.g_per_l);
        }
    }
}

#[test]
fn twice_the_usual_is_the_most_unless_more_is_allowed() {
    let design = demo("coconut-pot.ron");
    let texts = ["sugar>=45"];
    let ask = |beyond| {
        let moves = Moves { beyond, ..moving(&design, &["White sugar", "Stop at"], &[]) };
        found(&design, &texts, moves)
    };
    // 15 g/L of white sugar is the usual most: twice of it leaves less than 45.
    let little = ask(Beyond::default());
    assert!(little.proposals.is_empty() && !shown(&little).is_empty());
    shown(&little).into_iter().for_each(|p| within(p, &design, 2.0));
    let mend = say::blocked::mend(little.blocked.as_ref().unwrap());
    assert!(mend.contains("allow unusual amounts"), "{mend}");
    let never = ask(Beyond::Never);
    shown(&never).into_iter().for_each(|p| within(p, &design, 1.0));
    let far = ask(Beyond::Far);
    held(&design, &wants(&design, &texts), &far);
    assert!(far.proposals.iter().all(|p| p.design.sugars[0].g_per_l > 30.0));
    assert!(!far.blocked.iter().any(|b| say::blocked::mend(b).contains("allow unusual amounts")));
}

#[test]
fn a_span_of_the_makers_own_goes_as_far_as_it_says() {
    let design = demo("coconut-pot.ron");
    let texts = ["sugar>=40"];
    let found = found(&design, &texts, moving(&design, &["White sugar=0..60", "Stop at"], &[]));
    held(&design, &wants(&design, &texts), &found);
}
