//! Whether the spreads are honest: the shares of published readings that lie in the bands of drawn pots, fixed by kind.
//!
//! `UPDATE_EXPECT=1 cargo test --test it coverage` writes `tests/reference/coverage.txt` anew. `potset evidence --spread`
//! draws more pots and lists every reading.

use std::path::Path;

use potset_base::Spread;
use potset_doc::Learnt;
use potset_doc::evidence::{CaseKind, Setup};
use potset_doubt::spread::{Sampler, UnknownKind};
use potset_evidence::evidence::coverage;
use potset_export::evidence as text;
use potset_forecast::evidence::{Knobs, design, laboratory};
use potset_forecast::scenario::Scenario;

use super::cases;
use crate::support::pantry;

/// Fewer than the command draws: this is an unoptimised build.
const FEW: usize = 40;

#[test]
fn most_published_readings_lie_in_the_bands_and_the_shares_are_fixed() {
    let (cases, pantry) = (cases(), pantry());
    let cover = coverage(&cases, &pantry, FEW);
    for (case, rows) in &cover.cases {
        let rows = rows.as_ref().unwrap_or_else(|note| panic!("{}: {note}", case.key));
        assert!(rows.iter().all(|r| r.place.is_finite() && r.band[0] <= r.band[2]), "{}: {rows:?}", case.key);
    }
    for kind in cover.kinds() {
        assert!(kind.inside * 5 >= kind.readings * 4, "{}: {kind:?}", kind.kind.words());
        if kind.kind == CaseKind::TimeToPh {
            // Even places have a deviation of 0.29.
            assert!(kind.place[1] > 0.2 && kind.place[1] < 0.35, "{kind:?}");
        }
    }
    let now = text::bands(&cover, false);
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/coverage.txt");
    if std::env::var("UPDATE_EXPECT").is_ok_and(|v| v == "1") {
        std::fs::write(&path, &now).unwrap();
        return;
    }
    let stored = std::fs::read_to_string(&path).unwrap();
    assert!(now == stored, "the bands have moved; see the head of tests/it/evidence/coverage.rs\n{now}");
}

#[test]
fn neither_threads_nor_the_rest_of_the_cases_change_a_band() {
    let pantry = pantry();
    let cases: Vec<_> = cases().into_iter().filter(|c| c.key == "choi2016" || c.key == "boiling").collect();
    let pool = |n| rayon::ThreadPoolBuilder::new().num_threads(n).build().unwrap();
    let one = pool(1).install(|| coverage(&cases, &pantry, FEW));
    let two = pool(2).install(|| coverage(&cases[..1], &pantry, FEW));
    assert_eq!(one.cases[0].1, two.cases[0].1);
}

#[test]
fn what_a_source_tells_is_not_drawn_and_what_its_case_assumes_is() {
    let (cases, pantry) = (cases(), pantry());
    let keys = |key: &str| {
        let case = cases.iter().find(|c| c.key == key).unwrap();
        let Setup::Pot(pot) = &case.setup else { panic!("{key} is no pot") };
        let design = design(pot, pot.hold_c, &Knobs::NONE, &pantry).unwrap();
        let (kitchen, learnt) = (laboratory(pot), Learnt::default());
        let scenario = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
        let sampler = Sampler::of_mixes(&scenario, 1, 20).unwrap();
        let drawn: Vec<String> = sampler.unknowns().list.iter().map(|u| u.key.clone()).collect();
        // Nothing is measured out by hand.
        assert!(
            sampler.unknowns().list.iter().all(|u| !matches!(u.of, UnknownKind::Amount { .. })),
            "{drawn:?}"
        );
        (design, drawn)
    };
    // Dan et al. tell pH, start acidity and cells; the temperature is remembered.
    let (design, drawn) = keys("dan2019_pair");
    let base = &design.snapshot.bases[0];
    assert_eq!((base.ph.spread, base.start_acidity.spread), (Spread::Exact, Spread::Exact));
    assert!(drawn.iter().all(|k| !k.ends_with(".ph") && !k.ends_with("cfu_per_g") && k != "group case dose"));
    assert!(drawn.iter().any(|k| k == "thermometer") && drawn.iter().any(|k| k.ends_with("mean_buffer")));
    assert_eq!(design.snapshot.cultures[0].lag_work.spread, Spread::LogNormal(0.3, 1.7));
    // Solids go up by a factor, and their bounds with them; the cells are assumed, the temperature is told.
    let (design, drawn) = keys("review2024_recon");
    let own = pantry.bases.iter().find(|b| b.key == "whole_cows_milk").unwrap();
    let (now, was) = (design.snapshot.bases[0].mean_buffer.spread, own.mean_buffer.spread);
    let (now, was) = (now.bounds().unwrap(), was.bounds().unwrap());
    assert!((now.0 / was.0 - 1.25).abs() < 1e-12 && (now.1 / was.1 - 1.25).abs() < 1e-12);
    assert!(drawn.iter().any(|k| k == "group case dose") && drawn.iter().all(|k| k != "thermometer"));
}
