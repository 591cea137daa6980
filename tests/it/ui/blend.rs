//! Blends: shares with locks, the wanted fat, one step of undo each.

use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use potset_app::command::BenchCommand;
use potset_catalogue::mixing_square::{Figure, held};
use potset_doc::Edit;
use potset_doc::edit::LineKind;

use super::bench::{drag, rects};
use super::{Window, design, pick, press, type_number, undo, window, window_on};

const TALL: [f32; 2] = [1280.0, 1900.0];
const BLEND: &str = "oat-and-coconut.ron";

fn litres(h: &Harness<'_, Window>) -> Vec<f64> {
    design(h).bases.iter().map(|b| b.litres).collect()
}

fn near(a: &[f64], b: &[f64]) -> bool {
    a.len() == b.len() && a.iter().zip(b).all(|(a, b)| (a - b).abs() < 1e-9)
}

fn slide(h: &mut Harness<'_, Window>, name: &str, value: f64) {
    h.get_by_role_and_label(Role::Slider, name).set_value_accesskit(value);
    h.run();
}

#[test]
fn one_base_has_no_share() {
    let h = window(TALL);
    assert!(h.query_by_role_and_label(Role::Slider, "Share").is_none());
    assert!(h.query_by_label("Blend").is_none());
}

#[test]
fn shares_add_up_and_locked_ones_stay() {
    let mut h = window_on(TALL, BLEND);
    let start = design(&h);
    slide(&mut h, "Share", 70.0);
    assert!(near(&litres(&h), &[1.4, 0.6]), "{:?}", litres(&h));
    type_number(&mut h, "Share 2", "45 %");
    assert!(near(&litres(&h), &[1.1, 0.9]), "{:?}", litres(&h));
    undo(&mut h, 2);
    assert_eq!(design(&h), start);
    let add = Edit::Add(LineKind::Bases, "whole_cows_milk".to_owned(), 2.0);
    h.state_mut().shell.runner.run(BenchCommand::Edit(add, None));
    h.run();
    press(&mut h, "Lock 2");
    assert!(design(&h).bases[1].locked);
    slide(&mut h, "Share", 50.0);
    assert!(near(&litres(&h), &[2.0, 1.0, 1.0]), "{:?}", litres(&h));
    // As far as the lever goes, every line stays alive.
    slide(&mut h, "Share", 100.0);
    assert!(litres(&h)[2] >= 0.01 && (litres(&h).iter().sum::<f64>() - 4.0).abs() < 1e-9, "{:?}", litres(&h));
    assert_eq!(litres(&h)[1], 1.0);
    assert!(h.get_by_role_and_label(Role::Slider, "Share 2").accesskit_node().is_disabled());
    // The amount lever stays free, and the litres in all go with it.
    slide(&mut h, "Base amount 2", 2.0);
    assert!((litres(&h).iter().sum::<f64>() - 5.0).abs() < 1e-9);
}

#[test]
fn a_drag_of_a_share_is_one_step_and_nothing_jumps() {
    let mut h = window_on(TALL, BLEND);
    let start = design(&h);
    let before = rects(&h);
    let rect = h.get_by_role_and_label(Role::Slider, "Share").rect();
    drag(&mut h, rect, 0.5, 0.9, 30, |h| {
        assert!((litres(h).iter().sum::<f64>() - 2.0).abs() < 1e-9);
        for (name, now) in rects(h) {
            let then = before[&name];
            let moved = (now.min - then.min).length().max((now.max - then.max).length());
            assert!(moved <= 1.0, "{name} moved by {moved}");
        }
    });
    assert!(litres(&h)[0] > 1.6);
    undo(&mut h, 1);
    assert_eq!(design(&h), start);
}

#[test]
fn a_wanted_fat_or_protein_is_one_press_and_one_undo() {
    let mut h = window_on(TALL, BLEND);
    let start = design(&h);
    let holds = |h: &Harness<'_, Window>, figure| {
        held(&design(h), &h.state().shell.runner.state.pantry, figure).unwrap()
    };
    type_number(&mut h, "Value to reach", "8 g/100 g");
    press(&mut h, "Blend");
    assert!((holds(&h, Figure::Fat) - 8.0).abs() < 1e-9);
    assert!((design(&h).litres() - 2.0).abs() < 1e-9);
    h.get_by_label_contains("8.0 g fat");
    undo(&mut h, 1);
    assert_eq!(design(&h), start);
    type_number(&mut h, "Value to reach", "60");
    press(&mut h, "Blend");
    h.get_by_label_contains("These two reach");
    assert_eq!(design(&h), start);
    pick(&mut h, "What to reach", "Reach a protein of");
    let between = 0.5 * (holds(&h, Figure::Protein) + 1.2);
    type_number(&mut h, "Value to reach", &format!("{between:.2}"));
    press(&mut h, "Blend");
    assert!((holds(&h, Figure::Protein) - between).abs() < 0.006);
}

#[test]
fn of_three_bases_two_are_picked() {
    let mut h = window_on(TALL, BLEND);
    let add = Edit::Add(LineKind::Bases, "whole_cows_milk".to_owned(), 1.0);
    h.state_mut().shell.runner.run(BenchCommand::Edit(add, None));
    h.run();
    let names: Vec<String> = (design(&h).bases.iter().enumerate())
        .map(|(i, line)| {
            let entry =
                potset_doc::pantry::find(&design(&h).snapshot.bases, &line.entry).unwrap().name.clone();
            format!("{} {entry}", i + 1)
        })
        .collect();
    pick(&mut h, "First of the blend", &names[2]);
    type_number(&mut h, "Value to reach", "8.5");
    press(&mut h, "Blend");
    let after = litres(&h);
    assert_eq!(after[0], 1.0, "the one that is not picked stays");
    assert!((after[1] + after[2] - 2.0).abs() < 1e-9 && after[2] != 1.0, "{after:?}");
}
