//! On what a value rests: the laws that act in this pot, and the cited numbers of this design.

use crate::law::Law;
use crate::reading::{Reading, shipped};
use potset_base::lexicon::Words;
use potset_doubt::influence::Influence;
use potset_forecast::numbers::{Number, Numbers};
use potset_judge::answer::Answer;
use potset_science::forecast::Part as Load;

/// On what a value rests.
#[derive(Clone, Debug, PartialEq)]
pub struct Basis {
    pub reading: Reading,
    /// The laws that act in this pot, the leading one first.
    pub laws: Vec<&'static Law>,
    /// The numbers that it rests on in this design, the most telling first.
    pub numbers: Vec<Number>,
}

impl Basis {
    /// Of a reading of an answer; `None` where nothing ships of it.
    pub fn of(reading: Reading, answer: &Answer, numbers: &Numbers) -> Option<Self> {
        let (facts, all, lead) = (reading.facts()?, shipped(), leading(reading, answer));
        let acting = all.acting.get(&facts.laws)?.iter().filter_map(|key| all.laws.get(key));
        let mut laws: Vec<&Law> =
            acting.filter(|law| law.on.is_none_or(|what| numbers.uses.has(what))).collect();
        let first = lead.and_then(|(law, _)| all.laws.get(law));
        // A stable sort: the law of the part that carries most comes to the front, the others keep their order.
        laws.sort_by_key(|law| Some(*law) != first);
        let mut cited: Vec<Number> = Vec::new();
        let lists = lead.map(|(_, list)| list).into_iter().chain([facts.rests.as_str()]);
        for pattern in lists.filter_map(|list| all.rests.get(list)).flat_map(Words::iter) {
            for number in numbers.all.iter().filter(|n| n.used && matches(pattern, &n.key)) {
                if !cited.iter().any(|c| c.key == number.key) {
                    cited.push(number.clone());
                }
            }
        }
        Some(Self { reading, laws, numbers: cited })
    }

    /// Puts the numbers first that move this value most between their bounds, where that has been found out.
    pub fn by_influence(&mut self, influences: &[Influence]) {
        let Some(watched) = self.reading.watched() else { return };
        let moves =
            |key: &str| influences.iter().find(|i| i.path == key).map_or(0.0, |i| i.moves[watched].abs());
        self.numbers.sort_by(|a, b| moves(&b.key).total_cmp(&moves(&a.key)));
    }
}

/// What goes before a reading's own: of a texture, the law and the list of numbers of the part that carries most.
fn leading(reading: Reading, answer: &Answer) -> Option<(&'static str, &'static str)> {
    let texture = matches!(
        reading,
        Reading::ViscosityChilled | Reading::ViscosityPot | Reading::Stiffness | Reading::Yield
    );
    let (most, _) = answer.verdict.why_thick.first().filter(|_| texture)?;
    Some(carried_by(*most, answer.facts.dairy >= 0.5))
}

/// Keys of the law and of the list of numbers.
const fn carried_by(part: Load, dairy: bool) -> (&'static str, &'static str) {
    match part {
        Load::Protein if dairy => ("dairy_gel", "carried_by_protein"),
        Load::Protein => ("gel_rise", "carried_by_protein"),
        Load::Starch => ("paste", "carried_by_starch"),
        Load::GellingAgent => ("agent", "carried_by_thickener"),
        Load::Gum => ("gum", "carried_by_thickener"),
        Load::SolidFat => ("fat_network", "carried_by_solid_fat"),
        Load::Emulsion => ("emulsion", "carried_by_emulsion"),
    }
}

/// Whether a key fits a pattern: `*` stands for one step, or for the rest of one; `**` for all further steps.
pub fn matches(pattern: &str, key: &str) -> bool {
    let (mut pattern, mut key) = (pattern.split('.'), key.split('.'));
    loop {
        match (pattern.next(), key.next()) {
            (Some("**"), Some(_)) => return true,
            (Some(p), Some(k)) => {
                let fits = p.strip_suffix('*').map_or(p == k, |start| k.starts_with(start));
                if !fits {
                    return false;
                }
            }
            (None, None) => return true,
            _ => return false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::in_pot::InPot;
    use potset_doc::{Kitchen, Learnt, assets};
    use potset_forecast::numbers::numbers;
    use potset_forecast::scenario::Scenario;
    use potset_judge::answer::answer;

    fn rests(name: &str, reading: Reading) -> (Answer, Basis) {
        let (design, pantry) = (assets::demo(name).unwrap(), assets::pantry().unwrap());
        let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
        let scenario = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
        let answer = answer(&scenario);
        let basis = Basis::of(reading, &answer, &numbers(&design, &pantry, &kitchen, &learnt)).unwrap();
        (answer, basis)
    }

    #[test]
    fn patterns_fit_steps_and_tails() {
        assert!(
            matches("gel.*", "gel.heated_pa") && !matches("gel.*", "gel.a.b") && !matches("gel.*", "gel")
        );
        assert!(matches("bases.*.sugars.**", "bases.milk.sugars.lactose.g_per_100g"));
        assert!(
            matches("words.sweet_*", "words.sweet_lactose") && !matches("words.sweet_*", "words.flat_below")
        );
        assert!(!matches("bases.*.ph", "bases.milk.ph.x") && !matches("a.**", "a"));
    }

    #[test]
    fn whatever_carries_most_has_its_law_and_its_numbers() {
        for (part, dairy) in Load::ALL.into_iter().flat_map(|part| [(part, true), (part, false)]) {
            let (law, list) = carried_by(part, dairy);
            assert!(shipped().laws.get(law).is_some() && shipped().rests.get(list).is_some(), "{part:?}");
        }
    }

    #[test]
    fn the_leading_part_of_a_texture_names_its_numbers_first() {
        let (_, milk) = rests("whole-milk-pot.ron", Reading::ViscosityChilled);
        assert_eq!(milk.numbers[0].key, "gel.heated_pa");
        assert!(milk.laws.iter().all(|law| law.on != Some(InPot::Starch)), "no starch in a pot of milk");
        let (answer, rich) = rests("coconut-pot.ron", Reading::ViscosityChilled);
        let first = &rich.numbers[0].key;
        match answer.verdict.why_thick[0].0 {
            Load::SolidFat => assert_eq!(first, "fat.network_home"),
            other => assert!(first.starts_with("thickeners."), "{other:?} leads, {first} comes first"),
        }
    }

    #[test]
    fn what_moves_a_value_most_comes_first_where_it_is_known() {
        let (_, mut told) = rests("coconut-pot.ron", Reading::Ph);
        let (place, last) = told.numbers.iter().cloned().enumerate().next_back().unwrap();
        assert!(place > 3);
        let cited = potset_forecast::params::shipped().unwrap().acids.lactic_pka.clone();
        let known =
            [Influence { path: last.key.clone(), cited, moves: [-0.4, 0.0, 0.0, 0.0, 0.0], steps: 4.0 }];
        let second = told.numbers[0].key.clone();
        told.by_influence(&known);
        assert_eq!((&told.numbers[0].key, &told.numbers[1].key), (&last.key, &second));
    }
}
