//! The design on the kitchen table, in the window: a cook finds last month's recipe, scales it, prints it, begins it by the
//! clock, closes the window and opens it again.

use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use potset_app::card::{CardPage, CardWish, ScaleKind, Told};
use potset_app::command::{CardCommand, FileCommand, WindowCommand};
use potset_app::state::View;

use super::recipes::{all_known, folder_of, recipes, search, until, window_at};
use super::{Window, press, window, window_on};
use crate::support::demo;

type H = egui_kittest::Harness<'static, Window>;

fn page(h: &mut H, page: CardPage) {
    h.state_mut().shell.runner.run(WindowCommand::Show(View::Card));
    h.state_mut().shell.runner.run(CardCommand::Page(page));
    h.run();
}

#[test]
fn a_cook_finds_last_months_recipe_scales_prints_begins_it_and_comes_back() {
    let home = tempfile::tempdir().unwrap();
    let library = folder_of(home.path(), &["coconut-pot.ron", "goat-pot.ron", "soy-set-pots.ron"]);
    let mut h = window_at(home.path(), Some(library.folder()));
    recipes(&mut h);
    until(&mut h, "all are answered", all_known);
    search(&mut h, "coconut");
    h.key_press(Key::Enter);
    let name = demo("coconut-pot.ron").name;
    until(&mut h, "it is on the bench", |s| s.design().name == name);
    // Scale to 9 jars.
    page(&mut h, CardPage::Scale);
    let wish = CardWish { scale: ScaleKind::Jars, count: 9.0, ..CardWish::default() };
    h.state_mut().shell.runner.run(CardCommand::Wish(wish));
    until(&mut h, "it is scaled", |s| {
        matches!(s.card.told.as_deref(), Some(Ok(Told::Scale(_)))) && s.card.answered == s.card.question
    });
    press(&mut h, "Use this amount");
    assert_eq!(h.state().shell.runner.state.design().pots.count, 9);
    // Print.
    page(&mut h, CardPage::Card);
    until(&mut h, "the card is made", |s| matches!(s.card.told.as_deref(), Some(Ok(Told::Card(_)))));
    press(&mut h, "Export…");
    let out = home.path().join("wall.pdf");
    h.get_by_role_and_label(Role::TextInput, "Path of the file").focus();
    h.run();
    h.key_press_modifiers(Modifiers::COMMAND, Key::A);
    h.get_by_role_and_label(Role::TextInput, "Path of the file").type_text(&out.display().to_string());
    h.run();
    press(&mut h, "Write");
    until(&mut h, "the card is written", |s| s.said.as_ref().is_some_and(|said| said.contains("wall.pdf")));
    assert!(std::fs::read(&out).unwrap().starts_with(b"%PDF-"));
    // Begin it.
    page(&mut h, CardPage::Clock);
    until(&mut h, "the plan is there", |s| matches!(s.card.told.as_deref(), Some(Ok(Told::Clock(_)))));
    press(&mut h, "Begin this pot");
    until(&mut h, "it is under way", |s| s.card.running.len() == 1);
    h.key_press_modifiers(Modifiers::COMMAND, Key::S);
    h.run();
    until(&mut h, "it is saved", |s| !s.session.history.unsaved());
    drop(h);
    // Another day.
    let mut h = window_at(home.path(), Some(library.folder()));
    until(&mut h, "the book is read", |s| s.card.running.len() == 1);
    page(&mut h, CardPage::Clock);
    h.get_by_label_contains(&format!("Under way: {name}"));
    assert!(h.get_all_by_label_contains("In ").count() >= 1);
    h.state_mut().shell.runner.run(FileCommand::Open(library.path("thursday-coconut-pot.ron")));
    until(&mut h, "the recipe is as it was saved", |s| s.design().pots.count == 9);
    assert_eq!(library.versions("thursday-coconut-pot.ron").len(), 2);
    press(&mut h, "End this pot");
    until(&mut h, "it is done with", |s| s.card.running.is_empty());
}

#[test]
fn every_page_of_the_card_is_shown_of_every_demo() {
    for (name, _) in potset_doc::assets::DEMOS {
        let mut h = window_on([1280.0, 800.0], name);
        for one in CardPage::ALL {
            page(&mut h, one);
            let card = &h.state().shell.runner.state.card;
            assert!(
                card.told.as_deref().is_some_and(Result::is_ok),
                "{name}, {}: {:?}",
                one.words(),
                card.told
            );
        }
    }
}

#[test]
fn a_step_is_put_into_own_words_and_they_stand_on_the_card() {
    let mut h = window([1280.0, 1400.0]);
    page(&mut h, CardPage::Card);
    h.get_by_role_and_label(Role::TextInput, "Step 1").focus();
    h.run();
    h.key_press_modifiers(Modifiers::COMMAND, Key::A);
    h.get_by_role_and_label(Role::TextInput, "Step 1").type_text("Take the tins from the cellar");
    h.run();
    h.get_by_role_and_label(Role::TextInput, "Step 2").focus();
    h.run();
    let text = |h: &H| match h.state().shell.runner.state.card.told.as_deref() {
        Some(Ok(Told::Card(card))) => card.text.clone(),
        other => panic!("{other:?}"),
    };
    assert!(text(&h).contains("Take the tins from the cellar"), "{}", text(&h));
    press(&mut h, "As Potset says it");
    assert!(!text(&h).contains("from the cellar"));
}

#[test]
fn a_time_is_read_as_it_is_said_and_what_is_none_is_told() {
    let home = tempfile::tempdir().unwrap();
    let mut h = window_at(home.path(), None);
    page(&mut h, CardPage::Clock);
    let said = |h: &mut H, text: &str| {
        h.get_by_role_and_label(Role::TextInput, "Time").focus();
        h.run();
        h.key_press_modifiers(Modifiers::COMMAND, Key::A);
        h.get_by_role_and_label(Role::TextInput, "Time").type_text(text);
        h.key_press(Key::Enter);
        h.run();
    };
    said(&mut h, "8 in the evening");
    let start = h.state().shell.runner.state.design().start().unwrap();
    assert!(start.text().ends_with(" 20:00"), "{}", start.text());
    said(&mut h, "soon");
    assert!(h.get_by_label_contains("I don't know the time “soon”").rect().is_positive());
    assert_eq!(h.state().shell.runner.state.design().start(), Some(start), "nothing is lost");
}
