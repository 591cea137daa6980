//! Aim: a known design is found from its own outcome, every proposal holds in a forecast of its own, what cannot be is told.

use potset_base::Severity;
use potset_base::words::{TangWord, TextureWord};
use potset_doc::edit::{self, LineKind};
use potset_doc::history::History;
use potset_doc::pantry::{Action, EntryKind};
use potset_doc::steps::Step;
use potset_doc::{Design, Edit, Kitchen, Learnt};
use potset_doubt::kept::{Draw, Read, likely, possible};
use potset_forecast::lever::{LeverId, levers};
use potset_forecast::observable::Observable;
use potset_forecast::scenario::Scenario;
use potset_judge::answer::answer;
use potset_judge::outcomes::Outcomes;
use potset_numerics::samples::Generator;
use potset_report::aim as say;
use potset_search::aim::stand::{Demand, standings};
use potset_search::aim::{AimAsk, Best, Beyond, Bounds, Found, Gives, Moves, TargetSearch, Want};
use proptest::prelude::*;

use crate::support::{demo, shipped};

mod amounts;
mod discards;
mod told;
mod trade_offs;
mod warmth;

fn with<T>(design: &Design, go: impl FnOnce(&Scenario<'_>) -> T) -> T {
    go(&Scenario { design, pantry: shipped(), kitchen: &Kitchen::default(), learnt: &Learnt::default() })
}

fn wants(design: &Design, texts: &[&str]) -> Vec<Want> {
    texts.iter().map(|text| Want::read(text, design, shipped()).unwrap()).collect()
}

fn moving(design: &Design, moves: &[&str], holds: &[&str]) -> Moves {
    Moves::read(moves, holds, design, shipped()).unwrap()
}

fn found_in(design: &Design, wish: &AimAsk, slice: usize) -> Found {
    with(design, |ask| {
        // The likely pot alone: thousands of possible ones take too long here, and have tests of their own.
        let mut aimer = TargetSearch::with_pots(wish.clone(), likely);
        while aimer.next(ask, slice) {}
        aimer.into_found()
    })
}

fn aim(design: &Design, texts: &[&str]) -> Found {
    let wish = AimAsk::new(wants(design, texts), Moves::default(), 0).unwrap();
    found_in(design, &wish, 64)
}

/// Every proposal holds by the precise forecast of the design that its edit gives, changes something, and is clearly surer than
/// the design as it is where that does it already; where that does not, there are some.
fn held(design: &Design, wants: &[Want], found: &Found) {
    assert!(found.complete && found.blocked.is_none(), "{:?}", found.blocked);
    let own = found.as_is.as_ref().unwrap();
    assert!((usize::from(!own.does())..=3).contains(&found.proposals.len()), "{:?}", say::lines(found));
    for proposal in &found.proposals {
        assert!(proposal.changes() > 0 && proposal.holds(), "{proposal:?}");
        assert!(!own.does() || proposal.chance.clearly_above(own.chance.as_ref().unwrap()));
    }
    for proposal in &found.proposals {
        let taken = edit::apply(design, &say::make_so(proposal), shipped()).unwrap();
        assert_eq!(taken, proposal.design);
        with(&taken, |ask| {
            let run = ask.run().unwrap();
            let done = if own.does() { Demand::DoneAsNow(own.release_ph) } else { Demand::Done };
            let demands: Vec<Demand> =
                wants.iter().cloned().map(Demand::Want).chain([done, Demand::InTime]).collect();
            for standing in standings(ask, &run, &demands) {
                assert!(standing.holds(), "{standing:?}");
            }
            assert_eq!(proposal.gives, Gives::of(ask, &run, &demands));
            // And by the verdict of the bench, which knows nothing of wants.
            let verdict = answer(ask).verdict;
            assert!(verdict.advice.iter().all(|a| a.severity < Severity::Stop), "{:?}", verdict.advice);
            for want in wants {
                match want {
                    Want::Called(Observable::Texture, low, high) => {
                        let word = verdict.texture.as_ref().unwrap().word;
                        assert!((*low..=*high).contains(&(word as usize)), "{word:?} for {want:?}");
                    }
                    Want::Called(_, low, high) => {
                        let word = verdict.tang.as_ref().unwrap().word.unwrap();
                        assert!((*low..=*high).contains(&(word as usize)), "{word:?} for {want:?}");
                    }
                    _ => {}
                }
            }
        });
    }
    let all = &found.proposals;
    for p in all {
        // The surest is so beyond the luck of the pots; the hold is what is the shortest, not the readiness.
        let mut others = all.iter().filter(|o| o.design != p.design).peekable();
        let surest = others.peek().is_some() && others.all(|o| p.chance.clearly_above(&o.chance));
        assert_eq!(p.best_at.contains(&Best::Surest), surest, "{:?}", p.best_at);
        let shortest =
            all.len() > 1 && all.iter().all(|o| o.design == p.design || o.stop_h > p.stop_h + 1e-9);
        assert_eq!(p.best_at.contains(&Best::ShortestHold), shortest, "{:?}", p.best_at);
    }
    // Of those that the counts do not tell from the best, the one that changes least comes first.
    if let (Some(first), Some(best)) = (all.first(), all.iter().max_by_key(|p| p.chance.pots.of)) {
        assert!(!best.chance.clearly_above(&first.chance));
        let equals = all.iter().filter(|p| !best.chance.clearly_above(&p.chance));
        equals.for_each(|p| {
            assert!(first.change.total_cmp(&p.change).is_le(), "{:?} {:?}", first.change, p.change);
        });
    }
    for (i, a) in found.proposals.iter().enumerate() {
        assert!(found.proposals.iter().skip(i + 1).all(|b| a.differs(b) && a.design != b.design));
    }
}

/// Narrow ranges around what a design gives: about a step that a person notices, either way.
fn around(design: &Design) -> Vec<Want> {
    let (o, stop) = with(design, |ask| {
        let run = ask.run().unwrap();
        (Outcomes::of(ask, &run), run.mix.stop_h)
    });
    let get = |outcome| o.get(outcome).unwrap();
    let by = |q, low, high| Want::Within(q, Bounds { low: Some(low), high: Some(high) });
    let (eta, ph, sugar) = (get(Observable::Texture), get(Observable::Ph), get(Observable::SugarLeft));
    vec![
        by(Observable::Texture, eta / 1.15, eta * 1.15),
        by(Observable::Ph, ph - 0.05, ph + 0.05),
        by(Observable::SugarLeft, (sugar - 1.5).max(0.0), sugar + 1.5),
        by(Observable::ReadyFrom, stop - 1.0, stop + 1.0),
    ]
}

#[test]
fn a_known_design_is_found_from_its_own_outcome() {
    let entries = ["base", "thickener", "culture"];
    for (file, seed, holds) in [
        ("coconut-pot.ron", 1, &entries[..]),
        ("coconut-pot.ron", 2, &entries),
        ("whole-milk-pot.ron", 3, &entries),
        ("soy-set-pots.ron", 4, &entries),
        ("cashew-pot.ron", 5, &entries),
        ("goat-pot.ron", 6, &[]),
    ] {
        let known = demo(file);
        let wanted = around(&known);
        // Another setting to start from: every lever that Aim turns is somewhere else.
        let mut draw = Generator::new(seed);
        let mut start = known.clone();
        for lever in levers(&known, shipped()) {
            let (low, high) = lever.usual.unwrap_or(lever.range);
            let elsewhere = low + (high - low) * draw.unit();
            if matches!(
                lever.lever_id,
                LeverId::SugarDose(_)
                    | LeverId::ThickenerDose(_)
                    | LeverId::CultureRate(_)
                    | LeverId::HoldTemperature
                    | LeverId::HoldHours
            ) {
                start = edit::apply(&start, &lever.lever_id.edit(&start, elsewhere), shipped()).unwrap();
            }
        }
        let wish = AimAsk::new(wanted.clone(), moving(&start, &[], holds), seed).unwrap();
        let found = found_in(&start, &wish, 64);
        held(&start, &wanted, &found);
    }
}

#[test]
fn every_proposal_holds_by_the_precise_forecast() {
    for (file, texts) in [
        ("coconut-pot.ron", &["texture=dollops", "ph<=4.3", "ready<=20h"][..]),
        ("coconut-pot.ron", &["texture=stands", "tang=bright", "sugar<=20", "whey<=2"]),
        ("whole-milk-pot.ron", &["vegan", "texture=dollops..stands", "tang=bright..sharp"]),
        ("whole-milk-pot.ron", &["no-cooking", "gluten-free", "ph=4.2..4.5", "fat<=6"]),
        ("soy-set-pots.ron", &["texture>=dollops", "ready<=12h"]),
    ] {
        let design = demo(file);
        held(&design, &wants(&design, texts), &aim(&design, texts));
    }
}

#[test]
fn the_impossible_is_told_with_what_blocks_and_the_nearest() {
    let coconut = demo("coconut-pot.ron");
    let told = |design: &Design, texts: &[&str]| {
        let found = aim(design, texts);
        assert!(found.proposals.is_empty() && found.complete, "{texts:?}");
        found.blocked.unwrap()
    };
    let sour = told(&coconut, &["ph<=3.2", "texture=dollops"]);
    assert_eq!(say::blocked::demand(&sour), "pH ≤ 3.2");
    assert!(
        say::blocked::sentence(&sour).contains("even with nothing else asked"),
        "{}",
        say::blocked::sentence(&sour)
    );
    // What is missed is said, and by how much.
    let head = say::blocked::headline(&sour).unwrap();
    assert!(head.starts_with("Not all goals hold: pH ≤ 3.2 is missed by 0."), "{head}");
    assert_eq!(say::blocked::nearest_head(&sour), "The nearest setting found");
    let reached = sour.nearest.clone().unwrap();
    let ph = reached.gives.outcomes.get(Observable::Ph).unwrap();
    assert!(
        (3.2..4.1).contains(&ph) && say::blocked::sentence(&sour).contains(&format!("{ph:.2}")),
        "{ph}: {}",
        say::blocked::sentence(&sour)
    );

    // Two hours are too short for any pot to sour in.
    let soon = told(&coconut, &["ready<=2h"]);
    assert_eq!(say::blocked::demand(&soon), "all goals reached and stopped within 2\u{a0}h");
    let reached = soon.nearest.as_ref().unwrap();
    assert!(reached.stop_h > 3.0, "{}", say::blocked::sentence(&soon));
    let missed = reached
        .standings
        .iter()
        .filter(|s| say::standing::name(s) != say::blocked::demand(&soon) && !s.holds())
        .count();
    assert_eq!(
        say::blocked::sentence(&soon).contains("with all other goals kept"),
        missed == 0,
        "{}",
        say::blocked::sentence(&soon)
    );
    assert_eq!(
        say::blocked::sentence(&soon).contains("also missed"),
        missed > 0,
        "{}",
        say::blocked::sentence(&soon)
    );

    // Nothing that is vegan among what there is.
    let milk = demo("whole-milk-pot.ron");
    let ruled =
        told(&milk, &["vegan", "only=whole_cows_milk,dairy_pair,nondairy_adjuncts", "texture=pours..stands"]);
    assert!(
        say::blocked::demand(&ruled) == "vegan" || say::blocked::demand(&ruled).starts_with("only"),
        "{}",
        say::blocked::demand(&ruled)
    );
    assert!(say::blocked::sentence(&ruled).contains("not vegan"), "{}", say::blocked::sentence(&ruled));
    // By their names, what there is and what would fit.
    let all = [say::blocked::line(&ruled), say::blocked::mend(&ruled)].concat();
    let all = ruled.standings().iter().map(say::standing::words).fold(all, |all, line| all + &line);
    assert!(!all.contains("whole_cows_milk") && !all.contains("dairy_pair"), "{all}");
    // A want that was given up does not hold; the design does the rest already, and it is not offered as a setting to take.
    assert!(
        say::blocked::sentence(&ruled).contains("your design already does the rest"),
        "{}",
        say::blocked::sentence(&ruled)
    );
    assert!(ruled.nearest.is_none_or(|n| n.holds() && n.changes() > 0));

    // Prices are the maker's own; without them no cost is met, and that is said.
    let cost = told(&coconut, &["cost<=4"]);
    assert!(
        say::blocked::sentence(&cost).contains("no price is known")
            && say::blocked::mend(&cost).contains("pantry"),
        "{}",
        say::blocked::line(&cost)
    );
    assert_eq!(
        (say::blocked::head(&cost), say::blocked::head(&sour)),
        ("Prices are missing", "Nothing reaches the goals")
    );
    // The rest is judged all the same.
    let rest = told(&coconut, &["cost<=4", "texture=dollops", "ready<=20h"]);
    assert!(
        say::blocked::sentence(&rest).contains("A search without this goal reached all the others"),
        "{}",
        say::blocked::line(&rest)
    );
    assert!(
        say::blocked::headline(&rest).unwrap().starts_with("All other goals hold"),
        "{:?}",
        say::blocked::headline(&rest)
    );
    assert_eq!(say::blocked::nearest_head(&rest), "A setting that reaches all other goals");
}

#[test]
fn what_can_be_reached_from_one_want_is_not_called_impossible() {
    for (name, both) in [
        // Reached from the setting for the first; from that for the second; within two steps of what misses by a hair.
        ("goat-pot.ron", ["ready>=30h", "sugar<=5"]),
        ("oat-and-coconut.ron", ["ready<=8h", "texture=dollops"]),
        ("cashew-pot.ron", ["texture=cuts", "ph=4.3..4.4"]),
    ] {
        let design = demo(name);
        held(&design, &wants(&design, &both), &aim(&design, &both));
    }
}

#[test]
fn a_pot_that_is_to_be_cut_lacks_stiffness_not_thickness() {
    let mut design = demo("whole-milk-pot.ron");
    design.thickeners.clear();
    let found = aim(&design, &["texture=cuts", "ph>=6"]);
    let blocked = found.blocked.unwrap();
    let cut = blocked.standings().iter().find(|s| say::standing::name(s).contains("cuts")).unwrap();
    assert!(cut.holds() || say::standing::value(cut).contains("stiffness"), "{cut:?}");
    let other = blocked.standings().iter().find(|s| say::standing::name(s).contains("pH ≥ 6")).unwrap();
    assert!(!cut.holds() || !other.holds(), "{blocked:?}");
}

#[test]
fn the_same_seed_gives_the_same_answer_in_slices_and_threads_of_any_number() {
    let design = demo("coconut-pot.ron");
    let wish = AimAsk::new(wants(&design, &["texture=dollops", "ready<=18h"]), Moves::default(), 7).unwrap();
    let on = |threads: usize, slice: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| found_in(&design, &wish, slice))
    };
    let first = on(1, 5);
    assert_eq!(first, on(2, 64));
}

#[test]
fn taking_a_proposal_is_one_step_of_undo() {
    let design = demo("whole-milk-pot.ron");
    let found = aim(&design, &["vegan", "texture=dollops..stands", "tang=mild..bright"]);
    for proposal in &found.proposals {
        let mut history = History::new(design.clone(), true);
        let taken = edit::apply(&design, &say::make_so(proposal), shipped()).unwrap();
        history.push(taken, &edit::label(&design, &say::make_so(proposal)), None);
        assert!(edit::label(&design, &say::make_so(proposal)).starts_with("Aim: "));
        assert!(history.undo() && **history.design() == design && !history.unsaved());
    }
}

#[test]
fn progress_only_grows_and_proposals_come_before_the_end() {
    let design = demo("coconut-pot.ron");
    let held_back = moving(&design, &[], &["base", "thickener", "culture", "Non-dairy culture"]);
    let wanted = wants(&design, &["texture=dollops", "ready<=22h"]);
    with(&design, |ask| {
        let mut aimer = TargetSearch::new(AimAsk::new(wanted.clone(), held_back, 0).unwrap());
        let (mut share, mut early) = (0.0, false);
        while aimer.next(ask, 8) {
            let found = aimer.found();
            assert!(found.share >= share && !say::doing(found.stage).is_empty());
            early |= !found.proposals.is_empty();
            share = found.share;
        }
        assert!(early && aimer.found().share == 1.0);
        assert!(!aimer.next(ask, 8));
        // Of the possible pots it counts at least as many as there are at the design's own setting.
        held(&design, &wanted, aimer.found());
        // What every pot keeps counts in both: sour enough to be called done, and in time.
        let every = [Demand::Done, Demand::InTime];
        let demands: Vec<Demand> = wanted.iter().cloned().map(Demand::Want).chain(every).collect();
        let now = potset_search::aim::stand::chance(ask, &demands, possible, Draw::new(0, 200));
        let best = &aimer.found().proposals[0].chance;
        assert!(best.pots.among == 200 && best.share() >= now.share() - 0.02, "{best:?} {now:?}");
        // It is counted as it is in the same pots, for the table.
        assert_eq!(aimer.found().as_is.as_ref().unwrap().chance.as_ref(), Some(&now));
    });
}

#[test]
fn without_cooking_nothing_that_needs_heat_is_proposed() {
    // Its starch needs the boil and never gets it.
    let design = demo("coconut-cornstarch-uncooked.ron");
    for texts in
        [&["no-cooking", "texture=dollops..stands"][..], &["no-cooking", "texture=stands", "tang=bright"]]
    {
        let found = aim(&design, texts);
        held(&design, &wants(&design, texts), &found);
        for proposal in &found.proposals {
            let d = &proposal.design;
            assert!(!d.steps.iter().any(|s| matches!(s, Step::CookPart { .. } | Step::HeatTreat { .. })));
            if proposal.design.thickeners[0].entry == design.thickeners[0].entry {
                continue;
            }
            with(d, |ask| {
                let run = ask.run().unwrap();
                for (line, state) in d.thickeners.iter().zip(&run.facts.thickeners) {
                    let entry = shipped().thickeners.iter().find(|t| t.key == line.entry).unwrap();
                    let heat = matches!(entry.action, Action::CookStarch { .. } | Action::Gel { .. });
                    assert!(!heat || state.state.share >= 0.5, "{}", line.entry);
                }
            });
        }
    }
    // With cooking allowed it may be cooked.
    let found = aim(&design, &["texture=stands"]);
    held(&design, &wants(&design, &["texture=stands"]), &found);
}

#[test]
fn what_is_held_stays_and_only_what_is_named_moves() {
    let design = demo("coconut-pot.ron");
    let wanted = wants(&design, &["texture=dollops", "ready<=22h"]);
    let moves = moving(&design, &["Stop at", "White sugar=4..12 by 4"], &[]);
    let found = found_in(&design, &AimAsk::new(wanted.clone(), moves, 0).unwrap(), 64);
    held(&design, &wanted, &found);
    for p in &found.proposals {
        let mut same = p.design.clone();
        same.hold_mut().unwrap().hours = design.hold().unwrap().hours;
        let sugar = same.sugars[0].g_per_l;
        assert!([4.0, 8.0, 12.0, 12.5].contains(&sugar), "{sugar}");
        same.sugars[0].g_per_l = design.sugars[0].g_per_l;
        assert_eq!(same, design);
    }
    let held_back = moving(&design, &[], &["base", "thickener", "culture", "Hold at"]);
    let found = found_in(&design, &AimAsk::new(wanted.clone(), held_back, 0).unwrap(), 64);
    held(&design, &wanted, &found);
    for p in &found.proposals {
        assert_eq!(p.design.hold().unwrap().set_c, design.hold().unwrap().set_c);
        assert_eq!(p.design.bases[0].entry, design.bases[0].entry);
        assert_eq!(p.design.thickeners[0].entry, design.thickeners[0].entry);
        assert_eq!(p.design.cultures[0].entry, design.cultures[0].entry);
    }
}

/// What is found with these moves and holds.
fn found_with(design: &Design, texts: &[&str], moves: &[&str], holds: &[&str]) -> Found {
    let wish = AimAsk::new(wants(design, texts), moving(design, moves, holds), 0).unwrap();
    found_in(design, &wish, 64)
}

fn share(design: &Design, i: usize) -> f64 {
    LeverId::BaseShare(i).value(design, shipped()).unwrap()
}

#[test]
fn shares_move_as_far_as_they_are_let() {
    let design = demo("oat-and-coconut.ron");
    let texts = ["fat<=9", "texture>=ribbons"];
    let name = |i: usize| {
        let all = levers(&design, shipped());
        all.into_iter().find(|l| l.lever_id == LeverId::BaseShare(i)).unwrap().name
    };
    let coconut = (0..2).find(|i| name(*i).contains("coconut")).unwrap();
    let other = 1 - coconut;
    // One named share moves, whichever it is, and the other follows; nothing else does.
    for (named, bounds) in [(coconut, "20..45"), (other, "55..80")] {
        let found = found_with(&design, &texts, &[&format!("{}={bounds}", name(named))], &[]);
        held(&design, &wants(&design, &texts), &found);
        for p in &found.proposals {
            let share = share(&p.design, coconut);
            assert!((20.0 - 1e-9..=45.0 + 1e-9).contains(&share), "{bounds}: {share}");
            let mut same = p.design.clone();
            same.bases.iter_mut().zip(&design.bases).for_each(|(a, b)| a.litres = b.litres);
            assert_eq!(same, design);
            assert!((p.design.litres() - design.litres()).abs() < 1e-9);
        }
    }
    // Both with bounds: those of the one that follows count too.
    let both = [format!("{}=20..45", name(coconut)), format!("{}=70..90", name(other))];
    let found = found_with(&design, &texts, &both.each_ref().map(String::as_str), &[]);
    held(&design, &wants(&design, &texts), &found);
    for p in &found.proposals {
        let share = share(&p.design, coconut);
        assert!((20.0 - 1e-9..=30.0 + 1e-9).contains(&share), "{share}");
    }
    // What is held stays: its share where that is named, its litres where those are.
    let names = ["Oat drink, plain", "Tinned coconut cream"];
    for i in 0..2 {
        let found = found_with(&design, &["ph<=4.0"], &[], &[&name(i), "base"]);
        let all = found.proposals.iter().chain(found.blocked.iter().filter_map(|b| b.nearest.as_ref()));
        for p in all {
            assert!((share(&p.design, i) - share(&design, i)).abs() < 1e-9, "{}", name(i));
        }
        let found = found_with(&design, &texts, &[], &[names[0], names[1], "base", "culture", "thickener"]);
        let all = found.proposals.iter().chain(found.blocked.iter().filter_map(|b| b.nearest.as_ref()));
        for p in all {
            assert_eq!(p.design.bases, design.bases);
        }
    }
    // A share that nothing could follow is refused by its name.
    let note = Moves::read(&[&name(other)], &[&name(coconut)], &design, shipped()).unwrap_err();
    assert!(note.field.contains("Share of") && note.title.contains("every other share is held"), "{note}");
}

#[test]
fn three_shares_stand_where_a_proposal_says() {
    let mut design = demo("oat-and-coconut.ron");
    let soy = shipped().bases.iter().find(|b| b.name.starts_with("Soy drink")).unwrap().key.clone();
    design = edit::apply(&design, &Edit::Add(LineKind::Bases, soy, 0.5), shipped()).unwrap();
    let names: Vec<String> = levers(&design, shipped())
        .into_iter()
        .filter(|l| matches!(l.lever_id, LeverId::BaseShare(_)))
        .map(|l| l.name)
        .collect();
    assert_eq!(names.len(), 3);
    let moves: Vec<&str> = names.iter().map(String::as_str).collect();
    let texts = ["fat=6..7", "texture>=ribbons"];
    let found = found_with(&design, &texts, &moves, &[]);
    held(&design, &wants(&design, &texts), &found);
    for p in &found.proposals {
        for turned in &p.turned {
            let lever = levers(&p.design, shipped()).into_iter().find(|l| l.name == turned.name()).unwrap();
            assert!(
                say::turned::value(&turned.turn, turned.to).starts_with(&lever.words(lever.value)),
                "{turned:?} is {}",
                lever.value
            );
        }
    }
}

#[test]
fn nothing_is_fed_that_may_not_move() {
    let mut design = demo("coconut-no-sugar.ron");
    let holds = ["base", "culture", "thickener"];
    let found = found_with(&design, &["ph<=4.3"], &["Stop at=20..24"], &holds);
    let blocked = found.blocked.as_ref().unwrap();
    assert!(
        found.proposals.is_empty() && say::blocked::mend(blocked).contains("let a sugar move"),
        "{}",
        say::blocked::line(blocked)
    );
    // Freed, it is fed.
    held(&design, &wants(&design, &["ph<=4.3"]), &found_with(&design, &["ph<=4.3"], &[], &[]));
    // Named levers alone do not starve what is put in, nor a pot that the screen says may be fed.
    let fed = Moves { fed: true, ..moving(&design, &["Stop at=20..24"], &holds) };
    let wish = AimAsk::new(wants(&design, &["ph<=4.3"]), fed, 0).unwrap();
    held(&design, &wish.wants, &found_in(&design, &wish, 64));
    // A sugar that is held at nothing stays so, and none is put beside it.
    design =
        edit::apply(&design, &Edit::Add(LineKind::Sugars, "white_sugar".to_owned(), 0.0), shipped()).unwrap();
    let holds = ["White sugar", "base", "culture"];
    let found = found_with(&design, &["ph<=4.3"], &[], &holds);
    let all = found.proposals.iter().chain(found.blocked.iter().filter_map(|b| b.nearest.as_ref()));
    all.for_each(|p| assert_eq!(p.design.sugars, design.sugars));
    // Named, it is fed as far as it is let, and not told as put in.
    let found = found_with(&design, &["ph<=4.3"], &["White sugar=0..15", "Stop at"], &[]);
    held(&design, &wants(&design, &["ph<=4.3"]), &found);
    for p in &found.proposals {
        assert!(p.said.is_empty() && (0.0..=15.0).contains(&p.design.sugars[0].g_per_l), "{:?}", p.said);
    }
}

#[test]
fn a_line_of_which_something_is_held_keeps_its_entry() {
    let design = demo("coconut-pot.ron");
    let found = found_with(&design, &["texture=ribbons", "ready<=20h"], &[], &["Cold-swelling rice starch"]);
    held(&design, &wants(&design, &["texture=ribbons", "ready<=20h"]), &found);
    for p in &found.proposals {
        assert_eq!(p.design.thickeners, design.thickeners);
    }
    // A rule against it is what blocks then.
    let keys = [&design.bases[0].entry, &design.sugars[0].entry, &design.cultures[0].entry];
    let only = Want::Only(keys.map(Clone::clone).to_vec());
    let wish = AimAsk::new(vec![only], moving(&design, &[], &["Cold-swelling rice starch"]), 0).unwrap();
    let found = found_in(&design, &wish, 64);
    assert!(
        say::blocked::sentence(found.blocked.as_ref().unwrap()).contains("it is held"),
        "{:?}",
        found.blocked
    );
    // Heat that is held is not cooked away.
    let milk = demo("whole-milk-pot.ron");
    let found = found_with(&milk, &["no-cooking", "ph<=4.4"], &[], &["Heat to"]);
    let blocked = found.blocked.unwrap();
    assert!(say::blocked::line(&blocked).contains("heating is held"), "{}", say::blocked::line(&blocked));
}

#[test]
fn what_is_said_twice_or_in_another_unit_is_refused() {
    let design = demo("coconut-pot.ron");
    let read = |moves: &[&str], holds: &[&str]| Moves::read(moves, holds, &design, shipped());
    for (moves, holds) in [
        (&["Stop after=8..9", "Stop at=12..16"][..], &[][..]),
        (&["Stop at"], &["Stop at"]),
        (&["culture", "culture"], &[]),
        (&[], &["base", "base"]),
    ] {
        let note = read(moves, holds).unwrap_err();
        assert!(note.title.contains("named this already"), "{note}");
    }
    for text in ["White sugar=1 tbsp..2 tbsp", "Stop at=20 min..40 min", "Hold at=40 K..50 K"] {
        let note = read(&[text], &[]).unwrap_err();
        assert!(note.title.contains("is not a number in"), "{note}");
    }
    let reach = |text: &str| read(&[text], &[]).unwrap().levers.unwrap()[0].bounds.unwrap();
    assert_eq!(reach("White sugar=4,5 g/L..12 g/L"), (4.5, 12.0));
    assert_eq!(reach("Stop at=20 h..40"), (20.0, 40.0));
    let (low, high) = reach("Hold at=100 F..104 °F");
    assert!((low - 37.778).abs() < 1e-3 && (high - 40.0).abs() < 1e-9);
    // A range that is narrower than a step has its ends as settings, and nothing beyond them.
    let milk = demo("whole-milk-pot.ron");
    let found = found_with(&milk, &["ph<=4.3"], &["Hold at=38..38.4", "Stop at"], &[]);
    held(&milk, &wants(&milk, &["ph<=4.3"]), &found);
    for p in &found.proposals {
        let set = p.design.hold().unwrap().set_c;
        assert!([38.0, 38.4].iter().any(|c| (c - set).abs() < 1e-9), "{set}");
    }
}

#[test]
fn the_nearest_is_a_setting_and_nearer_than_the_design() {
    // What misses by a hair is not told as wanted.
    let coconut = demo("coconut-pot.ron");
    let blocked = aim(&coconut, &["whey<=0", "sugar<=0"]).blocked.unwrap();
    let missed = blocked.standings().iter().filter(|s| !s.holds()).count();
    assert_eq!(
        say::blocked::sentence(&blocked).contains("with all other goals kept"),
        missed < 2,
        "{}",
        say::blocked::line(&blocked)
    );
    // Nothing to take where nothing comes nearer.
    let blocked = found_with(&coconut, &["fat<=5"], &["Stop at"], &[]).blocked.unwrap();
    assert!(
        blocked.to_take().is_none() && say::blocked::sentence(&blocked).contains("your design"),
        "{}",
        say::blocked::line(&blocked)
    );
    // Whole steps, and what is usual is not called unusual.
    let design = demo("lactose-free-pot.ron");
    let nearest = aim(&design, &["gluten-free", "ready<=5h"]).blocked.unwrap().nearest.unwrap();
    let hold = nearest.design.hold().unwrap();
    assert!((hold.hours * 4.0).fract().abs() < 1e-9 && (hold.set_c * 2.0).fract().abs() < 1e-9, "{hold:?}");
    for turned in nearest.turned.iter().filter(|t| t.name() == "Hold at" && hold.set_c <= 43.0) {
        assert!(turned.unusual.is_none(), "{turned:?}");
    }
    // A change that brings it no nearer is not in it.
    let nearest = aim(&coconut, &["ph<=3.2"]).blocked.unwrap().nearest.unwrap();
    assert!(
        nearest.turned.iter().all(|t| t.name() != "White sugar" || t.turn.was.is_none()),
        "{:?}",
        nearest.turned
    );
}

#[test]
fn whole_spoons_where_the_line_is_said_in_spoons() {
    let mut design = demo("coconut-pot.ron");
    design.sugars[0].measure = potset_base::measures::Measure::Tablespoon;
    let wanted = wants(&design, &["texture=dollops", "sugar<=17"]);
    let held_back = moving(&design, &[], &["base", "thickener", "culture"]);
    let found = found_in(&design, &AimAsk::new(wanted.clone(), held_back, 0).unwrap(), 64);
    held(&design, &wanted, &found);
    // A metric tablespoon of white sugar is 15 mL of 0.845 g/mL; two litres.
    let quarter = 15.0 * 0.845 / 2.0 / 4.0;
    for p in &found.proposals {
        let quarters = p.design.sugars[0].g_per_l / quarter;
        assert!((quarters - quarters.round()).abs() < 1e-3, "{quarters}");
        assert!(p.turned.iter().any(|t| say::turned::brief(t).contains("tbsp")), "{:?}", p.turned);
    }
}

/// Pots of uneven makers: rate, warmth and thickener vary from pot to pot, the same way at every setting.
fn uneven(ask: &Scenario<'_>, which: Draw, read: Read<'_>) -> Vec<Option<Vec<f64>>> {
    let mut draw = Generator::new(which.seed ^ 0x51);
    (0..which.pots)
        .map(|_| {
            let (rate, warmth, dose) = (draw.unit() - 0.5, draw.unit() - 0.5, draw.unit() - 0.5);
            let mut design = ask.design.clone();
            design.cultures.iter_mut().for_each(|c| c.rate *= (1.2 * rate).exp());
            design.thickeners.iter_mut().for_each(|t| t.g_per_l *= dose.exp());
            design.hold_mut().unwrap().set_c += 3.0 * warmth;
            let ask = Scenario { design: &design, ..*ask };
            ask.run_coarse(0.0).ok().map(|run| read(&ask, &run))
        })
        .collect()
}

#[test]
fn the_chance_counts_not_the_middle() {
    let design = demo("coconut-pot.ron");
    let wanted = wants(&design, &["texture=dollops", "ph=4.1..4.35"]);
    let held_back = moving(&design, &[], &["base", "thickener", "culture"]);
    let wish = AimAsk::new(wanted.clone(), held_back, 3).unwrap();
    let found = with(&design, |ask| {
        let mut aimer = TargetSearch::with_pots(wish, uneven);
        while aimer.next(ask, 64) {}
        aimer.into_found()
    });
    held(&design, &wanted, &found);
    let best = &found.proposals[0];
    assert!(best.chance.spread() && best.chance.pots.among == 200);
    // Surer than the design just where its likely line enters the range.
    let edge = |hours: f64| {
        let there = edit::apply(&design, &Edit::HoldHours(hours), shipped()).unwrap();
        let demands: Vec<Demand> = wanted.iter().cloned().map(Demand::Want).collect();
        with(&there, |ask| {
            potset_search::aim::stand::chance(ask, &demands, uneven, Draw::new(3, 200)).share()
        })
    };
    assert!(best.chance.share() > edge(16.0) && best.chance.share() >= edge(24.0), "{:?}", best.chance);
    assert!(best.chance.share() > 0.5);
}

#[test]
fn bad_wants_are_refused_with_their_mend() {
    let mut design = demo("coconut-pot.ron");
    for (text, title, mend) in [
        ("", "Nothing was typed", "texture=dollops"),
        ("thick", "not a goal", "texture=dollops"),
        ("body=2", "no goal called", "texture=dollops"),
        ("texture=chewy", "not one of its words", "ribbons"),
        ("texture=stands..ribbons", "wrong way round", "first"),
        ("texture<=ribbons..dollops", "both its ends", "="),
        ("ph=4.3", "single value", "ph<=4.3"),
        ("ph=4.5..4.2", "wrong way round", "smaller end first"),
        ("ph<=9", "beyond", "3 to 7"),
        ("ph<=4,250", "not a usable number", "4.3"),
        ("sugar<=20 oz", "measured in", "g/l"),
        ("ready<=2days", "measured in", "h"),
        ("ready<=25:70", "no time", "18:30"),
        ("only=moon_milk", "moon_milk", "potset pantry"),
        ("only=", "empty", "only="),
        ("only<=white_sugar", "no < and no >", "only=KEY"),
    ] {
        let note = Want::read(text, &design, shipped()).unwrap_err();
        assert!(note.title.contains(title) && note.mend.contains(mend), "{text}: {note}");
        assert_eq!(note.field, if text.is_empty() { "want" } else { text }, "it names the want");
    }
    // In words.
    for (text, typed) in [
        ("dollops", "texture=dollops"),
        ("Bright tang", "tang=bright"),
        ("ribbons to dollops", "texture=ribbons..dollops"),
        ("ready within 24 h", "ready<=24h"),
        ("by 10:30", "ready<=10:30"),
    ] {
        let read = |text: &str| Want::read(text, &design, shipped()).unwrap();
        assert_eq!(read(text), read(typed), "{text}");
    }
    // A time of day needs a start; the demo starts at 18:30.
    let ten = Want::read("ready<=600 min", &design, shipped()).unwrap();
    assert_eq!(ten, Want::read("ready<=10h", &design, shipped()).unwrap());
    let want = Want::read("ready<=10:30", &design, shipped()).unwrap();
    assert_eq!(want, Want::Within(Observable::ReadyFrom, Bounds { low: None, high: Some(16.0) }));
    let by = potset_doc::design::Clock::ReadyBy("2026-11-27 18:30".to_owned());
    let moving = Design { clock: by, ..design.clone() };
    let note = Want::read("ready<=18:30", &moving, shipped()).unwrap_err();
    assert!(note.line().contains("start moves with the hold"), "{}", note.line());
    design.clock = potset_doc::design::Clock::Open;
    assert!(Want::read("ready<=10:30", &design, shipped()).unwrap_err().mend.contains("hours"));
    assert!(AimAsk::new(Vec::new(), Moves::default(), 0).is_err());
    // No pot is asked to be two things at once; of two bounds of one kind the tighter counts.
    let both = |texts: &[&str]| AimAsk::new(wants(&design, texts), Moves::default(), 0);
    let clash = both(&["ph<=4.3", "ph>=4.6"]).unwrap_err();
    assert_eq!(clash.line(), "want: No pot can be both pH ≤ 4.3 and pH ≥ 4.6. Remove one of them");
    assert!(both(&["texture=stands", "texture<=0.5"]).is_err() && both(&["ready<=8h", "ready>=9h"]).is_err());
    let ask = both(&["sugar<=10", "vegan", "sugar<=20"]).unwrap();
    assert_eq!(ask.wants, wants(&design, &["sugar<=10", "vegan"]));
    // A number without a unit is mended without a blank.
    let mend = Want::read("ph<=9", &design, shipped()).unwrap_err().mend;
    assert_eq!(mend, "Give 3 to 7");
}

#[test]
fn what_the_design_does_already_is_said_and_only_what_is_clearly_surer_shown() {
    let design = demo("coconut-pot.ron");
    let wanted = wants(&design, &["sugar<=40"]);
    let wish = AimAsk::new(wanted.clone(), Moves::default(), 0).unwrap();
    let found = with(&design, |ask| {
        let mut aimer = TargetSearch::new(wish);
        let mut shown = Vec::new();
        while aimer.next(ask, 64) {
            // Nothing is shown that is then taken back, and as it is comes first.
            assert!(aimer.found().as_is.is_some());
            shown.push(aimer.found().proposals.len());
        }
        aimer.into_found()
    });
    held(&design, &wanted, &found);
    let own = found.as_is.as_ref().unwrap();
    assert!(own.does() && own.chance.as_ref().unwrap().pots.among == 200);
    let line = say::as_is(own).unwrap();
    assert!(line.starts_with("Your design already does this in "), "{line}");
    assert_eq!(say::lines(&found)[0], line);
    // Another thickener does nothing for sugar, and being called done sooner without starch is no surer pot.
    for p in &found.proposals {
        assert_eq!(p.design.thickeners[0].entry, design.thickeners[0].entry, "{:?}", p.said);
    }
    // With one likely pot nothing is clearly surer: nothing is shown, and that is said.
    let found = aim(&design, &["sugar<=40"]);
    assert!(found.proposals.is_empty() && found.complete && found.blocked.is_none() && found.does_already());
    assert!(say::lines(&found)[1].contains("nothing to change"), "{:?}", say::lines(&found));
}

#[test]
fn every_change_of_a_proposal_helps_a_want() {
    for (file, texts) in [
        ("coconut-pot.ron", &["texture=dollops", "ph<=4.3", "ready<=20h"][..]),
        ("coconut-pot.ron", &["sugar<=20"]),
        ("whole-milk-pot.ron", &["vegan", "texture=dollops..stands", "tang=bright..sharp"]),
    ] {
        let design = demo(file);
        let wanted = wants(&design, texts);
        let found = aim(&design, texts);
        held(&design, &wanted, &found);
        // The design's own texture is kept where nothing is wanted of it and that goes.
        let texture_wanted = wanted.iter().any(|w| w.measure() == Some(Observable::Texture));
        let own = found.as_is.as_ref().unwrap().texture.filter(|_| !texture_wanted);
        let kept = own
            .filter(|_| found.texture_let_go.is_none())
            .map(|word| Demand::AsNow(Want::texture(word, word)));
        let every = [Demand::Done, Demand::InTime].into_iter().chain(kept);
        let demands: Vec<Demand> = wanted.into_iter().map(Demand::Want).chain(every).collect();
        for p in &found.proposals {
            let was = levers(&design, shipped());
            for turned in &p.turned {
                // Undone alone, a want is missed: one likely pot has no chance to lose.
                let lever = was.iter().find(|l| l.name == turned.name());
                let Some(lever) = lever.filter(|_| turned.turn.was.is_some()) else { continue };
                let undo = lever.lever_id.edit(&p.design, lever.value);
                let undone = edit::apply(&p.design, &undo, shipped()).unwrap();
                with(&undone, |ask| {
                    let all = standings(ask, &ask.run().unwrap(), &demands);
                    assert!(
                        all.iter().any(|s| !s.holds()),
                        "{texts:?}: {} helps nothing",
                        say::turned::words(turned)
                    );
                });
            }
        }
    }
}

#[test]
fn beyond_what_is_usual_is_said_with_what_is_usual() {
    let design = demo("coconut-pot.ron");
    let wanted = wants(&design, &["sugar>=40"]);
    let moves = || Moves { beyond: Beyond::Far, ..moving(&design, &["White sugar", "Stop at"], &[]) };
    let found = found_in(&design, &AimAsk::new(wanted.clone(), moves(), 0).unwrap(), 64);
    held(&design, &wanted, &found);
    assert!(found.beyond.is_some() && say::lines(&found).iter().any(|line| line.contains("Unusual amounts")));
    let sugar = found.proposals[0].turned.iter().find(|t| t.name() == "White sugar").unwrap();
    assert!(
        say::turned::words(sugar).ends_with("beyond what is usual (0 to 15\u{a0}g/L)"),
        "{}",
        say::turned::words(sugar)
    );
    // Where something usual reaches it, nothing is said.
    let wanted = wants(&design, &["sugar<=20"]);
    let found = found_in(&design, &AimAsk::new(wanted, moves(), 0).unwrap(), 64);
    assert!(found.beyond.is_none() && say::lines(&found).is_empty(), "{:?}", say::lines(&found));
    assert!(found.proposals.iter().all(|p| p.turned.iter().all(|t| t.unusual.is_none())));
    // The same for the nearest where nothing reaches it.
    let wanted = wants(&design, &["sugar>=90"]);
    let found = found_in(&design, &AimAsk::new(wanted, moves(), 0).unwrap(), 64);
    let wide = found.beyond.is_some();
    let nearest = found.blocked.unwrap().nearest.unwrap();
    assert!(wide && nearest.turned.iter().any(|t| t.unusual.is_some()));
    // A span of the maker's own is kept.
    let held_in = moving(&design, &["White sugar=0..15"], &[]);
    let found = found_in(&design, &AimAsk::new(wants(&design, &["sugar>=40"]), held_in, 0).unwrap(), 64);
    let nearest = found.blocked.as_ref().unwrap().nearest.as_ref().unwrap();
    assert!(found.beyond.is_none() && nearest.design.sugars[0].g_per_l <= 15.0);
}

#[test]
fn no_farther_than_is_usual_is_kept() {
    let design = demo("coconut-pot.ron");
    let texts = ["ph<=3.9", "ready<=24h"];
    let ask = |beyond: Beyond| {
        let moves = Moves { beyond, ..moving(&design, &[], &["base", "thickener", "culture"]) };
        found_in(&design, &AimAsk::new(wants(&design, &texts), moves, 0).unwrap(), 64)
    };
    let unusual = |p: &potset_search::aim::Proposal| p.turned.iter().any(|t| t.unusual.is_some());
    let all = |f: &Found| -> Vec<_> {
        f.proposals.iter().chain(f.blocked.iter().filter_map(|b| b.nearest.as_ref())).map(unusual).collect()
    };
    let (far, near) = (ask(Beyond::Far), ask(Beyond::Never));
    assert!(far.beyond.is_some() && all(&far).contains(&true), "{:?}", say::lines(&far));
    assert!(near.beyond.is_none() && !all(&near).contains(&true), "{:?}", say::lines(&near));
    assert!(near.blocked.is_some());
}

#[test]
fn wants_of_every_pot_are_told_as_the_bench_tells_them() {
    let names = |change: &dyn Fn(&mut Design)| {
        let mut design = demo("coconut-pot.ron");
        change(&mut design);
        with(&design, |ask| {
            let run = ask.run().unwrap();
            let told = standings(ask, &run, &[Demand::Done, Demand::InTime]);
            // One number here and on the bench.
            let limit = potset_base::number::fixed(potset_judge::readiness::release_ph_of(ask, &run), 1);
            assert!(
                say::standing::name(&told[0]).starts_with(&format!("pH {limit} or lower")),
                "{}",
                say::standing::name(&told[0])
            );
            told
        })
    };
    let starch = names(&|_| {});
    assert_eq!(say::standing::name(&starch[0]), "pH 4.3 or lower (needed with starch)");
    // In time is told by the hour, not by the pH in the end.
    let value = say::standing::value(&starch[1]).replace('\u{a0}', " ");
    assert!(value.starts_with("pH 4.6 after 1") && value.ends_with(" h, 24 h at most"), "{value}");
    assert_eq!(say::standing::name(&names(&|d| d.thickeners.clear())[0]), "pH 4.4 or lower (sour enough)");
    let frail = names(&|d| {
        d.thickeners.clear();
        d.goals.frail_eaters = true;
    });
    assert_eq!(say::standing::name(&frail[0]), "pH 4.3 or lower (needed for frail eaters)");
    let own = names(&|d| d.goals.ph_at_most = Some(4.2));
    assert_eq!(say::standing::name(&own[0]), "pH 4.2 or lower (your design's own goal)");
    // A late pot misses by hours.
    let late = names(&|d| d.hold_mut().unwrap().set_c = 30.0);
    assert!(!late[1].holds() && !say::standing::words(&late[1]).contains("0.00"), "{:?}", late[1]);
    // What there is is told by its names.
    let design = demo("whole-milk-pot.ron");
    let only = &wants(&design, &["only=whole_cows_milk,dairy_pair"])[0];
    assert_eq!(only.named(&design, shipped()).words(), "only Whole cow's milk, Dairy yogurt culture");
}

#[test]
fn bad_levers_are_refused_with_their_mend() {
    let design = demo("coconut-pot.ron");
    let told = |text: &str| Moves::read(&[text], &[], &design, shipped()).unwrap_err();
    assert!(told("Moonlight").mend.contains("Hold at"));
    assert!(told("o").mend.contains("Stop at"), "more than one");
    assert!(told("Hold at=40").title.contains("not a range"));
    assert!(told("Hold at=44..38").title.contains("wrong way round"));
    assert!(told("Hold at=10..90").title.contains("does not go so far"));
    assert!(told("Hold at=38..44 by 9").title.contains("does not fit"));
    assert!(told("base=1..2").title.contains("has no range"));
    assert!(Moves::read(&["hold at=38..44", "culture"], &["stop"], &design, shipped()).is_ok());
}

fn any_want() -> impl Strategy<Value = Want> {
    let words = (0..5_usize, 0..5_usize).prop_map(|(a, b)| (a.min(b), a.max(b)));
    let outcome = (0..Observable::WANTED.len(), 0.0..1.0_f64, 0.0..1.0_f64, 0..3_usize);
    let keys: Vec<String> = [EntryKind::Base, EntryKind::Culture, EntryKind::Sugar]
        .into_iter()
        .flat_map(|kind| {
            shipped().entries(kind).into_iter().map(|e| e.key().to_owned()).take(6).collect::<Vec<_>>()
        })
        .collect();
    prop_oneof![
        words.clone().prop_map(|(a, b)| Want::texture(TextureWord::ALL[a], TextureWord::ALL[b])),
        words.prop_map(|(a, b)| Want::tang(TangWord::ALL[a], TangWord::ALL[b])),
        outcome.prop_map(|(k, a, b, open)| {
            let q = Observable::WANTED[k];
            let (low, high) = q.wanted().range;
            let at = |u: f64| low + u * (high - low);
            let (from, to) = (at(0.5 * a), at(0.5 + 0.5 * b));
            let bounds = Bounds { low: (open != 1).then_some(from), high: (open != 2).then_some(to) };
            Want::Within(q, bounds)
        }),
        Just(Want::Vegan),
        Just(Want::GlutenFree),
        Just(Want::NoCooking),
        proptest::sample::subsequence(keys, 1..6).prop_map(Want::Only),
    ]
}

proptest! {
    #[test]
    fn wants_are_read_as_they_are_printed(want in any_want()) {
        let design = demo("coconut-pot.ron");
        let text = want.to_string();
        prop_assert!(!want.words().is_empty());
        prop_assert_eq!(Want::read(&text, &design, shipped()).unwrap(), want);
    }
}
