//! Where too many possible pots would have to be thrown away, the press on that card brings a mend that leaves few.

use potset_doc::{Edit, Kitchen, Learnt, assets, edit};
use potset_doubt::spread::{SEED, Spread, Spreader, TOO_MANY};
use potset_doubt::surer;
use potset_forecast::scenario::Scenario;

use crate::support::shipped;

fn spread(scenario: &Scenario<'_>) -> Spread {
    let mut spreader = Spreader::new(scenario, SEED, 300).unwrap();
    while spreader.more(300) {}
    spreader.spread()
}

#[test]
fn a_watched_plan_has_a_mend_that_leaves_few_pots_to_be_thrown_away() {
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let mut watched = 0;
    for (hold_c, rate) in
        [(41.0, 1.0), (38.0, 0.5), (36.0, 1.0), (35.0, 1.0), (35.0, 0.5), (34.0, 1.0), (33.0, 1.0)]
    {
        let edits =
            vec![Edit::HoldTemperature(hold_c), Edit::CultureTemperature(hold_c), Edit::CultureRate(0, rate)];
        let edit = Edit::Together(String::new(), edits);
        let design = edit::apply(&assets::demo("coconut-pot.ron").unwrap(), &edit, shipped()).unwrap();
        let scenario = Scenario { design: &design, pantry: shipped(), kitchen: &kitchen, learnt: &learnt };
        let told = spread(&scenario);
        let mends = surer::candidates(&scenario, &told);
        let too_many = told.cautions.iter().any(|c| !c.discard && c.chance.share() >= TOO_MANY);
        assert_eq!(mends.is_empty(), !too_many, "{hold_c} {rate}: {:?}", told.cautions);
        let Some(mend) = mends.into_iter().find(|mend| surer::helps(&scenario, mend)) else { continue };
        watched += 1;
        let mended = edit::apply(&design, &mend.edit(), shipped()).unwrap();
        let after = spread(&Scenario { design: &mended, ..scenario });
        let left: f64 = after.cautions.iter().map(|c| c.chance.share()).fold(0.0, f64::max);
        assert!(left < TOO_MANY, "{hold_c} {rate}: {left} left after {:?}", mend.how);
    }
    assert!(watched > 0, "no plan of these is watched, or none has a mend");
}
