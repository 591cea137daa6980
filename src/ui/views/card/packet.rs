//! How the packet of culture is split for this pot, and the packets of the kitchen.

use egui::{IdSalt, Ui};

use super::{told, trouble};
use potset_app::card::{CardFile, PacketTold, Told};
use potset_app::command::{BenchCommand, CardCommand};
use potset_app::{Command, State};
use potset_doc::Edit;
use potset_doc::lines::Packet;
use potset_doc::pantry::Culture;
use potset_ui_kit::widgets::card::{boxed, plain, quiet};
use potset_ui_kit::widgets::number::Number;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Draws the page.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let design = state.design();
    if design.cultures.is_empty() {
        boxed(ui, "No culture in this design", |ui| quiet(ui, "Add one on the bench."));
    }
    for i in 0..design.cultures.len() {
        ui.push_id(IdSalt::new(("packet", i)), |ui| holds(ui, state, i, out));
    }
    let Some(Told::Packet(all)) = told(ui, state) else { return };
    for (i, told) in all.lines.iter().enumerate() {
        match told {
            Ok(packet) => boxed(ui, &packet.name, |ui| ways(ui, packet, i, out)),
            Err(note) => trouble(ui, note),
        }
    }
    super::stock::show(ui, state, all, out);
}

/// What the packet of a culture line holds.
fn holds(ui: &mut Ui, state: &State, i: usize, out: &mut Vec<Command>) {
    let design = state.design();
    let line = &design.cultures[i];
    let entry = design.entry::<Culture>(&state.pantry, &line.entry);
    let name = entry.map_or(line.entry.as_str(), |entry| entry.name.as_str());
    // Of a packet that was not told the usual dose for one litre stands there.
    let usual = Packet { grams: entry.map_or(1.0, |entry| line.grams_per_litre(entry)), litres: 1.0 };
    let packet = line.packet.unwrap_or(usual);
    let mut set = |packet: Packet| {
        out.push(BenchCommand::Edit(Edit::CulturePacket(i, Some(packet)), None).into());
    };
    boxed(ui, &format!("The packet of {name}"), |ui| {
        ui.horizontal_wrapped(|ui| {
            let number = |name: &'static str, unit: &'static str, value: f64, hover: &'static str| Number {
                name,
                unit,
                value,
                range: 0.001..=100_000.0,
                decimals: 3,
                speed: 0.05,
                hover,
            };
            ui.label("It weighs");
            let weighs = number("The packet weighs", "g", packet.grams, "What is in the whole packet");
            if let Some(grams) = weighs.show(ui).value {
                set(Packet { grams, ..packet });
            }
            ui.label("and makes");
            let makes = number("The packet makes", "L", packet.litres, "As the packet says");
            if let Some(litres) = makes.show(ui).value {
                set(Packet { litres, ..packet });
            }
        });
        if line.packet.is_none() {
            quiet(ui, "Not told yet: this is the usual dose for a litre. Type what your packet says.");
        }
    });
}

fn ways(ui: &mut Ui, packet: &PacketTold, line: usize, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    plain(ui, &format!("{}.", packet.about));
    for (i, (way, steps, error)) in packet.ways.iter().enumerate() {
        ui.add_space(6.0);
        let font = if i == 0 { fonts::semibold(tokens::HEADING) } else { fonts::semibold(tokens::BODY) };
        let words = if i == 0 { way.clone() } else { format!("Or: {way}") };
        wrapped(ui, &words, font, if i == 0 { t.accent } else { t.ink });
        for (k, step) in steps.iter().enumerate() {
            plain(ui, &format!("{}. {step}.", k + 1));
        }
        quiet(ui, &format!("{error}."));
        if i == 0 && packet.mixed && ui.button("Labels for the jar…").clicked() {
            out.push(CardCommand::AskExport(CardFile::Labels(line), "pdf").into());
        }
    }
    if let Some(time) = &packet.time {
        ui.add_space(6.0);
        plain(ui, &format!("{time}."));
    }
}
