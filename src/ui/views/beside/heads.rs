//! The heads of the columns: mark, name, where it comes from, and what can be done with it.

use egui::accesskit::Role;
use egui::{Align, Button, Rect, RichText, Sense, Ui, UiBuilder, WidgetInfo, pos2, vec2};

use potset_app::columns::{Column, Holds};
use potset_app::command::BesideCommand;
use potset_app::{Command, State};
use potset_ui_kit::widgets::{line_in, marker};
use potset_ui_kit::{fonts, tokens};

/// Least width of a head with its buttons, points.
const BUTTONS: f32 = 250.0;

/// Height of a head, points.
pub const HEIGHT: f32 = 46.0;

/// Draws the heads over `rect`, each over its share of the width. A head that is dragged onto another takes its place.
pub fn show(ui: &mut Ui, rect: Rect, state: &State, out: &mut Vec<Command>) {
    let columns = &state.columns.list;
    let width = rect.width() / super::count(columns.len());
    for (i, column) in columns.iter().enumerate() {
        let left = rect.left() + super::count(i) * width;
        let own = Rect::from_min_size(pos2(left + 4.0, rect.top()), vec2(width - 8.0, HEIGHT));
        head(ui, own, (i, columns.len()), column, state, out);
    }
}

fn head(
    ui: &mut Ui,
    rect: Rect,
    (i, n): (usize, usize),
    column: &Column,
    state: &State,
    out: &mut Vec<Command>,
) {
    let t = tokens::of(ui);
    let designs: Vec<_> = state.columns.list.iter().map(|c| state.column_design(&c.holds)).collect();
    let names = potset_compare::beside::names(designs.iter().map(|d| d.name.as_str()));
    let name = names.get(i).cloned().unwrap_or_default();
    let grip = ui.interact(
        rect.with_max_y(rect.top() + 20.0),
        ui.scope_id().with(("column", column.id)),
        Sense::drag(),
    );
    grip.widget_info(|| WidgetInfo::labeled(Role::Label, true, format!("Column {}: {name}", i + 1)));
    grip.dnd_set_drag_payload(column.id);
    if let Some(other) = grip.dnd_release_payload::<u64>()
        && *other != column.id
    {
        out.push(BesideCommand::Move(*other, i).into());
    }
    let mut row = ui.new_child(UiBuilder::new().max_rect(rect.with_max_y(rect.top() + 20.0)));
    row.horizontal(|ui| marker::sample(ui, i, t.ink));
    let text =
        Rect::from_min_max(pos2(rect.left() + 40.0, rect.top()), pos2(rect.right(), rect.top() + 20.0));
    line_in(ui, text, &name, fonts::semibold(tokens::BODY), t.ink, Align::Min);
    let unsaved = matches!(&column.holds, Holds::Kept(session, _) if session.history.unsaved());
    let place = state.column_place(&column.holds);
    let place = match &column.holds {
        _ if unsaved => format!("{place} · unsaved"),
        // The rings on its curves are what was measured there.
        Holds::Case(_) => format!("○ {place}"),
        _ => place,
    };
    let below = rect.with_min_y(rect.top() + 21.0);
    let mut row = ui.new_child(
        UiBuilder::new()
            .max_rect(below)
            .layout(egui::Layout::right_to_left(Align::Center))
            .id_salt(column.id),
    );
    row.spacing_mut().item_spacing.x = 3.0;
    row.spacing_mut().button_padding = vec2(6.0, 1.0);
    row.spacing_mut().interact_size.y = tokens::PRESS;
    let doings = doings((i, n), column, &name);
    if rect.width() < BUTTONS {
        // No room for the buttons: the same in a menu.
        let menu = row.menu_button("Column…", |ui| {
            for doing in &doings {
                if ui.add_enabled(doing.enabled, Button::new(&doing.words)).clicked() {
                    out.push(Command::Beside(doing.command.clone()));
                    ui.close();
                }
            }
        });
        let words = format!("What to do with {name}");
        menu.response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &words));
    } else {
        for doing in doings.iter().rev() {
            let text = RichText::new(doing.sign).size(tokens::SMALL + 1.0);
            let response = row.add_enabled(doing.enabled, Button::new(text));
            response.widget_info(|| WidgetInfo::labeled(Role::Button, doing.enabled, &doing.words));
            if response.clicked() {
                out.push(Command::Beside(doing.command.clone()));
            }
            response.on_hover_text(&doing.words);
        }
    }
    let left = below.with_max_x(row.min_rect().left() - 6.0);
    if left.width() > 30.0 {
        line_in(ui, left, &place, fonts::regular(tokens::SMALL), t.ink_soft, Align::Min);
    }
}

/// Something that can be done with a column.
struct Doing {
    sign: &'static str,
    words: String,
    enabled: bool,
    command: BesideCommand,
}

/// From left to right.
fn doings((i, n): (usize, usize), column: &Column, name: &str) -> Vec<Doing> {
    let id = column.id;
    let doing = |sign, words, enabled, command| Doing { sign, words, enabled, command };
    let change = match column.holds {
        Holds::Bench => format!("Go on changing {name} on the bench"),
        Holds::Kept(..) => format!("Open {name} on the bench to change it"),
        Holds::Case(_) => format!("Open a copy of {name} on the bench"),
    };
    let duplicate = format!("Duplicate {name} and change the copy");
    let (left, right) = (format!("Move {name} to the left"), format!("Move {name} to the right"));
    let mut all = vec![
        doing("Change", change, true, BesideCommand::ToBench(id)),
        doing("Duplicate", duplicate, true, BesideCommand::Duplicate(id)),
        doing("←", left, i > 0, BesideCommand::Move(id, i.saturating_sub(1))),
        doing("→", right, i + 1 < n, BesideCommand::Move(id, i + 1)),
    ];
    if !matches!(column.holds, Holds::Bench) {
        all.push(doing("×", format!("Remove {name}"), true, BesideCommand::Remove(id)));
    }
    all
}
