//! What a swap brings into the pot that was not in it: allergens, what comes from an animal, what has gluten.

use potset_forecast::scenario::{Run, Scenario};
use potset_judge::nutrition::{Nutrition, nutrition};

/// What is in the pot after a swap and was not before.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Brings {
    /// Keys of allergens.
    pub allergens: Vec<String>,
    /// What may be in it, in the words of its label.
    pub may_contain: Vec<String>,
    /// The pot holds something of an animal now, and held nothing before.
    pub animal: bool,
    /// The same for gluten.
    pub gluten: bool,
}

impl Brings {
    /// What a pot has that another has not.
    pub fn of(scenario: &Scenario<'_>, run: &Run, new_ask: &Scenario<'_>, new_run: &Run) -> Self {
        let [old, new] = [(scenario, run), (new_ask, new_run)].map(|(ask, run)| {
            nutrition(&run.facts.content, &run.mix, &run.forecast, ask.design.pots.serving_g)
        });
        Self::between(&old, &new)
    }

    fn between(old: &Nutrition, new: &Nutrition) -> Self {
        let allergens = new.allergens.iter().map(|(key, _)| key);
        let may = new.may_contain.iter().map(|(words, _)| words);
        Self {
            allergens: allergens
                .filter(|key| !old.allergens.iter().any(|(k, _)| k == *key))
                .cloned()
                .collect(),
            may_contain: may
                .filter(|words| !old.may_contain.iter().any(|(w, _)| w == *words))
                .cloned()
                .collect(),
            animal: old.animal.is_empty() && !new.animal.is_empty(),
            gluten: old.gluten.is_empty() && !new.gluten.is_empty(),
        }
    }
}
