//! Invented calls with hidden causes, for tests: pots with figures that the reasoner does not know, and callers who see, tell
//! and answer by rules of their own.

use crate::data::{Asked, FACTS, FactKind, NUMBERS, Symptom, data};
use crate::fact::{Fact, FactValue, Truth};
use crate::{Mishap, MishapCase, Next, Ranking, change};
use potset_base::words::{SweetLevel, SweetWord, TangWord, TextureWord};
use potset_doc::{Design, Kitchen, Learnt, Pantry, assets};
use potset_doubt::spread::Sampler;
use potset_forecast::scenario::{OwnedScenario, Run, Scenario};
use potset_judge::hygiene::Against;
use potset_judge::judging;
use potset_numerics::samples::Generator;
use std::sync::Arc;

/// Pots that people make.
const DEMOS: [&str; 8] = [
    "coconut-pot.ron",
    "coconut-pot.ron",
    "whole-milk-pot.ron",
    "oat-and-coconut.ron",
    "soy-set-pots.ron",
    "cashew-pot.ron",
    "goat-pot.ron",
    "coconut-agar.ron",
];

/// What is asked at once.
const OPENING: [FactKind; 4] = [FactKind::Base, FactKind::Hours, FactKind::Warmth, FactKind::Dose];

/// A call as it is: what is hidden, and what is told.
pub struct Call {
    pub design: Design,
    pub cause: usize,
    pub saw: Vec<Symptom>,
    pub answers: Vec<Option<Fact>>,
    /// The true pot breaks a rule of hygiene, or shows what throws it away.
    pub lost: bool,
}

pub fn scenario(design: &Design) -> OwnedScenario {
    let pantry: Arc<Pantry> = Arc::new(assets::pantry().unwrap());
    let mut design = design.clone();
    design.refresh_snapshot(&pantry);
    OwnedScenario { design: Arc::new(design), pantry, kitchen: Kitchen::default(), learnt: Learnt::default() }
}

/// What a caller tells of a pot: words of the program with a scatter of their own, a quarter left out, a few made up.
fn tells(
    run: &Run,
    planned: &Run,
    shows: &[(Symptom, f64)],
    case: &OwnedScenario,
    draw: &mut Generator,
) -> Vec<Symptom> {
    let verdict = |run: &Run| judging::judge(&case.scenario(), run);
    let (was, plan) = (verdict(run), verdict(planned));
    let mut saw = Vec::new();
    let mut see = |symptom: Symptom, there: bool, draw: &mut Generator| {
        let told = if there { draw.unit() < 0.78 } else { draw.unit() < 0.02 };
        if told {
            saw.push(symptom);
        }
    };
    let texture = was.texture.as_ref().unwrap();
    let thick = texture.chilled * (0.5 * (draw.unit() - 0.5)).exp();
    let asked = case.design.goals.texture.map_or(TextureWord::Pours, |(low, _)| low);
    let low = match asked {
        TextureWord::Pours => 0.0,
        TextureWord::Ribbons => 0.05,
        TextureWord::Dollops => 0.35,
        TextureWord::Stands | TextureWord::Cuts => 1.2,
    };
    let plan_thick = plan.texture.as_ref().unwrap().chilled;
    // Some look at the pot before it is cold.
    let warm = draw.unit() < 0.4 && texture.in_pot < 0.45 * plan.texture.as_ref().unwrap().in_pot;
    see(Symptom::Thin, thick < low || thick < 0.5 * plan_thick || warm, draw);
    see(Symptom::Split, texture.thin_layer > 7.0 + 5.0 * draw.unit(), draw);
    see(Symptom::Whey, texture.whey_standing > 3.0 + 2.0 * draw.unit(), draw);
    // A pot whose chill cannot be forecast has no taste here: the call is drawn anew.
    let Some(tang) = was.tang.as_ref() else { return Vec::new() };
    // The word of the acid itself, whether it counts as yogurt or not.
    let acid = tang.undissociated * (0.4 * (draw.unit() - 0.5)).exp();
    let words = &run.mix.laws.words;
    let word = potset_science::sensory::tang(acid, words);
    let plan_tang = plan.tang.as_ref().and_then(|t| t.word).unwrap_or(TangWord::Bright);
    see(
        Symptom::NoTang,
        word == TangWord::Flat || (word == TangWord::Mild && plan_tang > TangWord::Mild),
        draw,
    );
    see(
        Symptom::TooSour,
        word == TangWord::Biting || (word == TangWord::Sharp && plan_tang < TangWord::Sharp),
        draw,
    );
    see(
        Symptom::Sweet,
        tang.sweet == SweetWord::SweetnessLeads && tang.sweet_level > SweetLevel::ALL[0],
        draw,
    );
    for symptom in [Symptom::Lumpy, Symptom::Stringy, Symptom::Gas, Symptom::Colour, Symptom::Smell] {
        let chance = shows.iter().find(|(own, _)| *own == symptom).map_or(0.0, |(_, c)| *c);
        let there = draw.unit() < chance;
        see(symptom, there, draw);
    }
    for (symptom, chance) in shows {
        if matches!(symptom, Symptom::Split | Symptom::Whey)
            && !saw.contains(symptom)
            && draw.unit() < *chance
        {
            saw.push(*symptom);
        }
    }
    saw
}

/// What would be answered to each question; nothing where the caller does not know.
fn answers(truth: &Truth, plan: &Truth, unaware: f64, draw: &mut Generator) -> Vec<Option<Fact>> {
    let believes = draw.unit() < unaware;
    data()
        .facts
        .iter()
        .map(|row| {
            if draw.unit() > if row.key == FactKind::Ph { 0.4 } else { 0.8 } {
                return None;
            }
            let at = row.key as usize;
            let value = match &row.of {
                Asked::Number { .. } => {
                    let told = believes && matches!(row.key, FactKind::Dose | FactKind::Age);
                    let v = if told { plan.numbers[at] } else { truth.numbers[at] };
                    let by = draw.unit() - 0.5;
                    FactValue::Number(match row.key {
                        FactKind::Warmth => v + 4.0 * by,
                        FactKind::CultureAt => v + 8.0 * by,
                        FactKind::Ph => ((v + 0.5 * by) * 2.0).round() / 2.0,
                        _ => v * (0.4 * by).exp(),
                    })
                }
                Asked::Choice(all) => {
                    // How earlier pots came out is seen, not believed.
                    let believes = believes && row.key != FactKind::LastPots;
                    let v = if believes { plan.choices[at - NUMBERS] } else { truth.choices[at - NUMBERS] };
                    let slip = draw.unit() < 0.06;
                    FactValue::Choice(if slip { draw.below(all.len()) } else { v })
                }
            };
            Some(Fact { kind: row.key, value })
        })
        .collect()
}

/// The call of a seed: its cause is drawn by how often causes come.
pub fn call(seed: u64) -> Call {
    let table = data();
    let mut draw = Generator::new(seed);
    loop {
        let design = assets::demo(DEMOS[draw.below(DEMOS.len())]).unwrap();
        let case = scenario(&design);
        let can: Vec<usize> = (0..table.causes.len())
            .filter(|c| table.causes[*c].key != "as_planned")
            .filter(|c| change::can_be(&table.causes[*c], &case.design, &case.pantry))
            .collect();
        let whole: f64 = can.iter().map(|c| table.causes[*c].prior).sum();
        let mut at = draw.unit() * whole;
        let cause = *can
            .iter()
            .find(|c| {
                at -= table.causes[**c].prior;
                at <= 0.0
            })
            .unwrap_or(&can[0]);
        let row = &table.causes[cause];
        // Figures of another seed, a size of any value between its ends and a little beyond.
        let sampler = Sampler::new(&case.scenario(), 90_000 + seed, 16).unwrap();
        let size = -0.05 + 1.1 * draw.unit();
        let changed = |_: usize, design: &mut Design| change::apply(&row.change, size, design, &case.pantry);
        let k = draw.below(16);
        let run_of = |_: usize, scenario: &Scenario<'_>, run: Run| (scenario.design.clone(), run);
        let made = sampler.each_changed(&[k], changed, run_of).remove(0);
        let without = sampler.each_changed(&[k], |_, _| (), run_of).remove(0);
        let (Ok((made, run)), Ok((_, without))) = (made, without) else { continue };
        let likely = sampler.likely();
        // The same caller, had it not happened: what would be told all the same does not come of the cause.
        let anyway = tells(&without, likely, &[], &case, &mut draw.clone());
        let saw = tells(&run, likely, &row.shows, &case, &mut draw);
        // Nobody rings up about a pot that came out well, and a cause that changes nothing is none.
        if saw.iter().all(|symptom| anyway.contains(symptom)) {
            continue;
        }
        let truth = Truth::of(&made, &run, &[row], table);
        let plan = Truth::of(&case.design, likely, &[], table);
        let answers = answers(&truth, &plan, row.unaware, &mut draw);
        let seen = table.throw_away.iter().any(|own| saw.contains(&own.symptom));
        let lost = seen || row.throw_away || Against::discard(&run).is_some();
        return Call { design: (*case.design).clone(), cause, saw, answers, lost };
    }
}

/// What came of a call.
#[derive(Clone, Debug)]
pub struct Outcome {
    pub ranking: Ranking,
    pub place: usize,
    pub questions: usize,
    pub thrown: bool,
}

/// Answers a call: asks until one cause stands out or nothing tells more.
pub fn answer(call: &Call, pick: impl Fn(&Mishap, &[FactKind]) -> Option<FactKind>) -> Outcome {
    // The taps of the opening: what is known of base, hours, warmth and dose.
    let known: Vec<Fact> = OPENING.iter().filter_map(|kind| call.answers[*kind as usize]).collect();
    let mut skipped: Vec<FactKind> = OPENING.to_vec();
    skipped.retain(|kind| known.iter().all(|fact| fact.kind != *kind));
    let case = MishapCase { scenario: scenario(&call.design), saw: call.saw.clone(), known };
    let mut mishap = Mishap::open(case).unwrap();
    let mut questions = 0;
    while questions < FACTS {
        let Some(kind) = pick(&mishap, &skipped) else { break };
        questions += 1;
        match call.answers[kind as usize] {
            Some(fact) => mishap.know(fact),
            None => skipped.push(kind),
        }
    }
    let ranking = mishap.rank();
    let place = ranking.causes.iter().position(|c| c.cause == call.cause).unwrap_or(99);
    let thrown = mishap.what_to_do(&ranking).throw_away.is_some();
    Outcome { ranking, place, questions, thrown }
}

/// The best question of the reasoner.
pub fn best(mishap: &Mishap, skipped: &[FactKind]) -> Option<FactKind> {
    match mishap.next(skipped) {
        Next::Ask(all) => all.first().map(|q| q.kind),
        Next::StandsOut(_) | Next::Test(_) => None,
    }
}

mod tests {
    use super::*;

    /// Source of the bars: the program's own aims for what it says on the phone.
    #[test]
    fn hidden_causes_are_found() {
        let (mut first, mut third, mut questions, mut missed) = (0, 0, 0, Vec::new());
        for seed in 1000..1080 {
            let call = call(seed);
            let out = answer(&call, best);
            first += u32::from(out.place == 0);
            third += u32::from(out.place < 3);
            questions += out.questions;
            if call.lost && !out.thrown {
                missed.push(seed);
            }
        }
        println!(
            "first {first}, among three {third} of 80; questions {questions}; not thrown away {missed:?}"
        );
        assert!(first >= 56 && third >= 74, "{first} {third}");
        assert!(questions <= 4 * 80, "{questions}");
        assert!(missed.is_empty(), "{missed:?}");
    }

    /// How many questions until the right cause is the first and the call ends, by orders that never change.
    #[test]
    #[ignore = "a study: minutes"]
    fn questions_against_fixed_orders() {
        let table = data();
        let all: Vec<FactKind> = table.facts.iter().map(|row| row.key).collect();
        let by = |value: &dyn Fn(FactKind) -> f64| {
            let mut order = all.clone();
            order.sort_by(|a, b| value(*b).total_cmp(&value(*a)));
            order
        };
        // What each question tells at the opening, on the mean of other calls.
        let mut mean = [0.0; FACTS];
        for seed in 6000..6060 {
            let call = call(seed);
            let case =
                MishapCase { scenario: scenario(&call.design), saw: call.saw.clone(), known: Vec::new() };
            if let Next::Ask(all) = Mishap::open(case).unwrap().next(&[]) {
                all.iter().for_each(|question| mean[question.kind as usize] += question.tells);
            }
        }
        let reversed: Vec<FactKind> = all.iter().rev().copied().collect();
        let orders = [
            ("by what they tell on the mean", by(&|kind| mean[kind as usize])),
            ("by how often they are known", by(&|kind| table.fact(kind).unwrap().known)),
            ("by both", by(&|kind| mean[kind as usize] * table.fact(kind).unwrap().known)),
            ("of the table", all.clone()),
            ("of the table from its end", reversed),
        ];
        let run = |name: &str, pick: &dyn Fn(&Mishap, &[FactKind]) -> Option<FactKind>| {
            let (mut counts, mut first, mut third) = (Vec::new(), 0, 0);
            for seed in 1000..1080 {
                let out = answer(&call(seed), pick);
                counts.push(out.questions);
                first += u32::from(out.place == 0);
                third += u32::from(out.place < 3);
            }
            counts.sort_unstable();
            let mean = counts.iter().sum::<usize>() as f64 / 80.0;
            println!("{name}: median {}, mean {mean:.2}, first {first}, among three {third}", counts[40]);
        };
        run("by information", &best);
        for (name, order) in orders {
            run(name, &|mishap: &Mishap, skipped: &[FactKind]| match mishap.next(skipped) {
                Next::Ask(_) => {
                    let asked = |kind: &FactKind| {
                        skipped.contains(kind) || mishap.known().iter().any(|fact| fact.kind == *kind)
                    };
                    order.iter().copied().find(|kind| !asked(kind))
                }
                _ => None,
            });
        }
    }

    #[test]
    #[ignore = "a study: prints figures over many calls"]
    fn study() {
        // Seeds that were never looked at begin at 10,000,000.
        let (from, count) = (4000_u64, 300_u64);
        let (mut first, mut third, mut questions) = (0, 0, 0);
        let (mut lost, mut told, mut kept, mut nothing) = (0, 0, 0, 0);
        let mut bins = [(0, 0.0, 0); 5];
        let mut by_rule: (Vec<f64>, Vec<f64>) = (Vec::new(), Vec::new());
        for seed in from..from + count {
            let call = call(seed);
            let out = answer(&call, best);
            first += u32::from(out.place == 0);
            third += u32::from(out.place < 3);
            questions += out.questions;
            if call.lost {
                lost += 1;
                told += u32::from(out.thrown);
            } else {
                kept += 1;
                nothing += u32::from(out.thrown);
            }
            let rows = if call.lost { &mut by_rule.0 } else { &mut by_rule.1 };
            rows.push(out.ranking.lost);
            for c in &out.ranking.causes {
                let bin = &mut bins[((c.chance * 5.0) as usize).min(4)];
                bin.0 += 1;
                bin.1 += c.chance;
                bin.2 += u32::from(c.cause == call.cause);
            }
            let key = |c: usize| data().causes[c].key.as_str();
            let top: Vec<String> = out
                .ranking
                .causes
                .iter()
                .take(3)
                .map(|c| format!("{} {:.2}", key(c.cause), c.chance))
                .collect();
            if out.place > 0 || call.lost && !out.thrown {
                println!(
                    "{seed} {} {:?} place {} q{} lost {} thrown {} ({:.3}): {}",
                    key(call.cause),
                    call.saw,
                    out.place,
                    out.questions,
                    call.lost,
                    out.thrown,
                    out.ranking.lost,
                    top.join(", ")
                );
            }
        }
        println!(
            "first {first}, third {third} of {count}; questions {:.2}; thrown {told} of {lost}; for nothing {nothing} of {kept}",
            questions as f64 / count as f64
        );
        by_rule.0.sort_by(f64::total_cmp);
        by_rule.1.sort_by(f64::total_cmp);
        println!("lost {:.3?}", &by_rule.0[..by_rule.0.len().min(16)]);
        println!("kept {:.2?}", by_rule.1);
        for (n, sum, hits) in bins {
            println!(
                "said {:.2} was {:.2} ({n})",
                sum / f64::from(n.max(1)),
                f64::from(hits) / f64::from(n.max(1))
            );
        }
    }
}
