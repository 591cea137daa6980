//! The packets of culture that this kitchen has: how old, how much of each still lives, which to use first.

use egui::{IdSalt, RichText, Ui};

use potset_app::card::PacketsTold;
use potset_app::command::{BenchCommand, WindowCommand};
use potset_app::{Command, State};
use potset_base::clock::day_words;
use potset_base::number::{self, NBSP};
use potset_doc::packets::{KeptPacket, PLACES};
use potset_doc::pantry::{Culture, Entry};
use potset_doc::{Edit, Kitchen};
use potset_make::stock::InStock;
use potset_report::packet::in_stock;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::card::{boxed, quiet};
use potset_ui_kit::widgets::picker::picker;
use potset_ui_kit::widgets::tick::tick;

/// Draws the list.
pub fn show(ui: &mut Ui, state: &State, all: &PacketsTold, out: &mut Vec<Command>) {
    boxed(ui, "Packets in this kitchen", |ui| {
        quiet(ui, "Use the oldest first. Cold and closed, a packet loses least.");
        for told in &all.stock {
            let Some(packet) = state.kitchen.packets.get(told.place) else { continue };
            ui.push_id(IdSalt::new(("stock", told.place)), |ui| {
                ui.separator();
                one(ui, state, (packet, told), all, out);
            });
        }
        add(ui, state, out);
    });
}

fn kitchen(state: &State, change: impl FnOnce(&mut Vec<KeptPacket>)) -> Command {
    let mut packets = state.kitchen.packets.clone();
    change(&mut packets);
    WindowCommand::Kitchen(Kitchen { packets, ..state.kitchen.clone() }).into()
}

fn one(
    ui: &mut Ui,
    state: &State,
    (packet, told): (&KeptPacket, &InStock),
    all: &PacketsTold,
    out: &mut Vec<Command>,
) {
    let t = tokens::of(ui);
    let place = told.place;
    let name = state.pantry.get::<Culture>(&packet.culture).map_or(packet.culture.as_str(), |c| c.name());
    let since = format!(
        "{name}: {}{NBSP}g left of {}{NBSP}g, since {}",
        number::rough(packet.left_g),
        number::rough(packet.packet.grams),
        day_words(&packet.since)
    );
    ui.label(RichText::new(since).strong());
    let color = if told.first { t.accent } else { t.ink_soft };
    ui.label(RichText::new(in_stock(told)).color(color));
    ui.horizontal_wrapped(|ui| {
        let names = PLACES.map(|(name, _)| name);
        if let Some(i) = picker(ui, IdSalt::new("place"), "Where the packet is", packet.place(), &names) {
            out.push(kitchen(state, |all| all[place].kept_c = PLACES[i].1));
        }
        let mut opened = packet.opened;
        if tick(ui, &mut opened, "opened").changed() {
            out.push(kitchen(state, |all| all[place].opened = opened));
        }
        let design = state.design();
        let line = design.cultures.iter().position(|line| line.entry == packet.culture);
        let dose = line.and_then(|i| all.lines.get(i)?.as_ref().ok());
        let use_it = ui.add_enabled(line.is_some() && told.days.is_some(), egui::Button::new("Use this one"));
        if use_it.clicked()
            && let (Some(i), Some(days)) = (line, told.days)
        {
            let edits = vec![
                Edit::CulturePacket(i, Some(packet.packet)),
                Edit::CultureAge(i, days),
                Edit::CultureKept(i, Some(packet.kept_c)),
                Edit::CultureOpened(i, packet.opened),
            ];
            out.push(BenchCommand::Edit(Edit::Together("Use a packet".to_owned(), edits), None).into());
        }
        use_it
            .on_hover_text("The design gets its age, and where it was kept")
            .on_disabled_hover_text("The design has no such culture");
        if let Some(dose) = dose {
            let words = format!("Take {}{NBSP}g out", number::rough(dose.dose_g));
            let enough = packet.left_g + 1e-9 >= dose.dose_g;
            let take = ui.add_enabled(enough, egui::Button::new(words));
            if take.clicked() {
                let left_g = (packet.left_g - dose.dose_g).max(0.0);
                out.push(kitchen(state, |all| {
                    all[place].left_g = left_g;
                    all[place].opened = true;
                }));
            }
            take.on_disabled_hover_text("Not enough is left of it");
        }
        if ui.button("Remove").clicked() {
            out.push(kitchen(state, |all| drop(all.remove(place))));
        }
    });
}

/// A new packet, as the design has it.
fn add(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let design = state.design();
    ui.add_space(4.0);
    for line in design.cultures.iter().filter(|line| line.packet.is_some()) {
        let name = state.pantry.get::<Culture>(&line.entry).map_or(line.entry.as_str(), |c| c.name());
        let button =
            ui.add_enabled(state.now.is_some(), egui::Button::new(format!("I have a new packet of {name}")));
        if button.clicked()
            && let (Some(packet), Some(now)) = (line.packet, state.now)
        {
            let new = KeptPacket {
                culture: line.entry.clone(),
                packet,
                left_g: packet.grams,
                since: now.day(),
                kept_c: line.kept_c.unwrap_or(PLACES[0].1),
                opened: false,
            };
            out.push(kitchen(state, |all| all.push(new)));
        }
        button.on_disabled_hover_text("There is no clock here");
    }
}
