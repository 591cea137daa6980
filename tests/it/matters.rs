//! What matters on a pot that failed: the levers that stand off their usual come first, by what putting them back does.

use egui_kittest::kittest::Queryable;
use potset_doc::{Design, Kitchen, Learnt};
use potset_doubt::matters::{Effect, Matters, Way, matters};
use potset_doubt::spread::Spreader;
use potset_forecast::lever::{LeverId, levers};
use potset_forecast::scenario::Scenario;
use potset_report::matters as say;

use crate::support::{demo, shipped};
use crate::ui::{press, window_on};

fn found(design: &Design) -> Matters {
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let scenario = Scenario { design, pantry: shipped(), kitchen: &kitchen, learnt: &learnt };
    let mut spreader = Spreader::new(&scenario, 1, 200).unwrap();
    while spreader.more(200) {}
    matters(&scenario, &spreader)
}

fn first(found: &Matters, n: usize) -> Vec<(LeverId, Way)> {
    found.turns.iter().take(n).map(|t| (t.lever.lever_id, t.way)).collect()
}

#[test]
fn on_a_thin_and_sweet_pot_dose_warmth_and_stop_stand_first() {
    let found = found(&demo("failed-thin-and-sweet.ron"));
    let top = first(&found, 3);
    for lever_id in [LeverId::CultureRate(0), LeverId::HoldTemperature, LeverId::HoldHours] {
        let back = |(k, way): &(LeverId, Way)| *k == lever_id && *way != Way::Little;
        assert!(top.iter().any(back), "{lever_id:?} is not in {}", say::text(&found));
        let name = &found.turns.iter().find(|t| t.lever.lever_id == lever_id).unwrap().lever.name;
        assert!(!found.unnoticed.contains(name), "{name}");
    }
    let text = say::text(&found);
    assert!(text.contains("back to usual (1 × packet)"), "{text}");
    assert!(!text.contains("Nobody would notice"), "{text}");
}

#[test]
fn on_a_pot_that_was_too_hot_the_warmth_stands_first() {
    let found = found(&demo("failed-too-hot.ron"));
    assert_eq!(first(&found, 1), [(LeverId::HoldTemperature, Way::BackToUsual)], "{}", say::text(&found));
    let turn = &found.turns[0];
    assert!(turn.verdict.is_some() && turn.effects.iter().any(|(_, e)| *e == Effect::OnlyThen), "{turn:?}");
    assert!(say::turn_name(turn).contains("Hold at: back to usual (40"), "{}", say::turn_name(turn));
    assert!(say::effects(turn).starts_with("then pH 4.6 by the stop"), "{}", say::effects(turn));
    assert!(!found.unnoticed.iter().any(|n| n == "Hold at"));
}

#[test]
fn a_good_pot_is_not_told_to_go_back_to_what_it_is() {
    for name in ["coconut-pot.ron", "whole-milk-pot.ron"] {
        let design = demo(name);
        let found = found(&design);
        for turn in found.turns.iter().filter(|t| t.way != Way::Little) {
            let (from, to) = turn.lever.usual.unwrap();
            let at = turn.lever.value;
            assert!(
                !(from..=to).contains(&at)
                    || matches!(turn.lever.lever_id, LeverId::CultureRate(_)) && at != 1.0,
                "{name}: {}",
                say::turn_name(turn)
            );
        }
    }
}

#[test]
fn what_betters_the_verdict_stands_before_all_else() {
    for name in
        ["failed-thin-and-sweet.ron", "failed-too-hot.ron", "failed-watery.ron", "coconut-no-sugar.ron"]
    {
        let design = demo(name);
        let found = found(&design);
        let betters: Vec<bool> = found.turns.iter().map(|t| t.verdict.is_some()).collect();
        assert!(betters.windows(2).all(|pair| pair[0] || !pair[1]), "{name}: {}", say::text(&found));
        // Every lever is either turned or named, and none both.
        for lever in levers(&design, shipped()) {
            let listed = found.turns.iter().any(|t| t.lever.name == lever.name);
            assert!(listed != found.unnoticed.contains(&lever.name), "{name}: {}", lever.name);
        }
    }
}

#[test]
fn the_causes_stand_first_in_the_text_and_in_the_window() {
    let text = say::text(&found(&demo("failed-too-hot.ron")));
    let list = &text[text.find("What you can turn").unwrap()..];
    let first = list.lines().nth(1).unwrap().trim_start();
    assert!(first.starts_with("Hold at: back to usual (40.0\u{a0}°C)"), "{text}");
    let mut h = window_on([1280.0, 2400.0], "failed-too-hot.ron");
    h.state_mut().shell.runner.spread(64, true);
    h.run();
    press(&mut h, "What matters");
    assert!(h.query_by_label_contains("Hold at: back to usual").is_some());
    assert!(h.query_by_label_contains("then pH 4.6 by the stop").is_some());
}
