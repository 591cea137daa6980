//! What was measured is typed under the base and the culture, refused by name, and taken back as any edit.

use egui::Key;
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use potset_base::Note;
use potset_doc::measured::{Cells, Figure};

use super::bench::rects;
use super::{Window, design, undo, window};

const TALL: [f32; 2] = [1280.0, 2600.0];

fn text(h: &Harness<'_, Window>, name: &str) -> String {
    h.get_by_role_and_label(Role::TextInput, name).accesskit_node().value().unwrap_or_default()
}

/// Types into a field in the place of what is there, and leaves it.
fn type_text(h: &mut Harness<'_, Window>, name: &str, typed: &str) {
    h.get_by_role_and_label(Role::TextInput, name).focus();
    h.run();
    h.key_press_modifiers(egui::Modifiers::COMMAND, Key::A);
    h.key_press(Key::Delete);
    h.run();
    if !typed.is_empty() {
        h.get_by_role_and_label(Role::TextInput, name).type_text(typed);
        h.run();
    }
    h.key_press(Key::Enter);
    h.run();
}

/// Unfolds the line of the base, or of the culture below it.
fn unfold(h: &mut Harness<'_, Window>, place: usize) {
    let lines: Vec<_> = h.query_all_by_label("Measured: nothing").collect();
    assert_eq!(lines.len(), 2 - usize::from(place > 0 && lines.len() == 1), "a base and a culture");
    lines[place.min(lines.len() - 1)].click();
    h.run();
}

#[test]
fn a_measured_base_is_typed_used_and_taken_back() {
    let mut h = window(TALL);
    let start = design(&h);
    unfold(&mut h, 0);
    assert_eq!(text(&h, "pH of the base"), "");
    type_text(&mut h, "pH of the base", "5,95");
    assert_eq!(design(&h).bases[0].measured.ph, Some(Figure { value: 5.95, within: None }));
    assert!((h.state().shell.runner.state.answer.forecast.ph[0] - 5.95).abs() < 0.02);
    h.get_by_label("Measured: pH\u{a0}5.95");
    type_text(&mut h, "± pH", "0.02");
    type_text(&mut h, "Acidity of the base", "0.14 %");
    type_text(&mut h, "Lactic acid put in", "2.4 g/kg");
    type_text(&mut h, "pH that it came to", "4.6");
    let m = design(&h).bases[0].measured;
    assert_eq!(m.ph, Some(Figure { value: 5.95, within: Some(0.02) }));
    assert_eq!(m.acidity, Some(Figure { value: 0.14, within: None }));
    assert_eq!(m.titration.map(|t| (t.lactic_g_per_kg, t.to_ph)), Some((2.4, 4.6)));
    assert_eq!(text(&h, "Lactic acid put in"), "2.4\u{a0}g/kg");
    // Emptied, the pantry's figure stands again.
    type_text(&mut h, "pH of the base", "");
    assert_eq!(design(&h).bases[0].measured.ph, None);
    undo(&mut h, 6);
    assert_eq!(design(&h), start);
}

#[test]
fn a_counted_packet_is_typed_by_gram_or_as_a_whole() {
    let mut h = window(TALL);
    let start = design(&h);
    unfold(&mut h, 1);
    type_text(&mut h, "Cells per gram", "3e10");
    let cells = |h: &Harness<'_, Window>| design(h).cultures[0].measured.count.map(|c| c.cells);
    assert_eq!(cells(&h), Some(Cells::PerGram(3e10)));
    assert_eq!(text(&h, "Cells per gram"), "3e10\u{a0}cfu/g");
    type_text(&mut h, "Cells in the packet", "4·10¹¹");
    type_text(&mut h, "Litres that the packet is meant for", "5");
    assert_eq!(cells(&h), Some(Cells::InPacket { cfu: 4e11, litres: 5.0 }));
    assert_eq!(text(&h, "Cells per gram"), "", "one of the two");
    type_text(&mut h, "Pace of the culture", "0.7");
    assert_eq!(design(&h).cultures[0].measured.pace.map(|p| p.value), Some(0.7));
    undo(&mut h, 4);
    assert_eq!(design(&h), start);
}

#[test]
fn what_cannot_be_is_refused_by_name_and_changes_nothing() {
    let mut h = window(TALL);
    let start = design(&h);
    unfold(&mut h, 0);
    for (field, typed, said) in [
        ("pH of the base", "12", "12 is more than allowed"),
        ("pH of the base", "sour", "“sour” is not a number"),
        ("Acidity of the base", "-0.1", "is less than allowed"),
        ("± pH", "0.1", "There is no value yet that could be off"),
        ("pH that it came to", "4.4", "Give the lactic acid first"),
    ] {
        type_text(&mut h, field, typed);
        assert_eq!(design(&h), start, "{field}: {typed}");
        let told = h.state().shell.runner.state.refused.as_ref().map(Note::line);
        let told = told.unwrap_or_else(|| panic!("{field}: {typed} was not told"));
        assert!(told.starts_with(field) && told.contains(said), "{told}");
        assert_eq!(text(&h, field), "", "{field} shows what is in the design");
    }
}

#[test]
fn the_fields_lie_inside_the_column() {
    let mut h = window(TALL);
    unfold(&mut h, 0);
    let all = rects(&h);
    for name in ["pH of the base", "± pH", "Lactic acid put in", "± lactic acid", "pH that it came to"] {
        let (_, rect) =
            all.iter().find(|(label, _)| label.contains(name)).unwrap_or_else(|| panic!("{name}"));
        assert!(rect.right() < 340.0, "{name} ends at {}", rect.right());
    }
}
