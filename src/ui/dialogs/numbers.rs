//! Where the numbers come from: every cited number, by kind of source, by words, in use or not.

use egui::accesskit::Role;
use egui::{Button, RichText, TextEdit, Ui, WidgetInfo, vec2};

use super::numbers_filter::Filter;
use super::numbers_rows::{self, Rows};
use super::window;
use potset_app::command::WindowCommand;
use potset_app::{Action, Command, State};
use potset_base::number;
use potset_forecast::numbers::{Kind, Number, Numbers, shares, table};
use potset_ui_kit::widgets::tick::tick;
use potset_ui_kit::widgets::{explained, kind_mark};
use potset_ui_kit::{fonts, tokens};

/// What the window keeps between frames.
#[derive(Default)]
pub struct NumbersSheet {
    filter: Filter,
    rows: Rows,
    /// What `shown` was worked out for: filter and count of numbers, and how many are in use.
    known: Option<(Filter, usize, usize)>,
    shown: Vec<usize>,
}

impl NumbersSheet {
    /// Clears the filters but for one: what the design at hand rests on.
    pub fn all_of_the_design(&mut self) {
        self.filter = Filter { only_used: true, ..Filter::default() };
    }

    /// Draws the window.
    pub fn show(&mut self, ui: &mut Ui, state: &State, numbers: &Numbers, out: &mut Vec<Command>) {
        let room = ui.ctx().content_rect().size();
        let mut done = false;
        let closed = window(ui, Action::Numbers.label(), (room.x - 60.0).min(1080.0), |ui| {
            // The window keeps its height, whatever the filters leave.
            let bottom = ui.cursor().top() + (room.y - 110.0).clamp(240.0, 760.0);
            overview(ui, &numbers.all);
            super::numbers_evidence::show(ui);
            self.filters(ui, &numbers.all);
            self.renew(&numbers.all);
            let height = (bottom - ui.cursor().top() - numbers_rows::AROUND).max(80.0);
            let cleared = self.rows.show(ui, &numbers.all, &self.shown, &mut self.filter.order, height);
            if cleared {
                self.filter = Filter::default();
            }
            done = self.foot(ui, state, &numbers.all, out);
        });
        if closed || done {
            out.push(Command::Do(Action::Numbers));
        }
    }

    fn renew(&mut self, all: &[Number]) {
        let known = (self.filter.clone(), all.len(), all.iter().filter(|n| n.used).count());
        if self.known.as_ref() != Some(&known) {
            self.shown = self.filter.of(all);
            self.known = Some(known);
            self.rows.top();
        }
    }

    fn filters(&mut self, ui: &mut Ui, all: &[Number]) {
        let used = all.iter().filter(|n| n.used).count();
        ui.horizontal(|ui| {
            let hint = TextEdit::singleline(&mut self.filter.text)
                .desired_width((ui.available_width() - 290.0).clamp(120.0, 420.0))
                .hint_text("Words of a name, a source or a key");
            let field = ui.add(hint);
            field.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, "Words to find"));
            self.rows.keys_from(ui, &field);
            tick(ui, &mut self.filter.only_used, format!("Only those of this design ({used})"));
        });
        ui.add_space(2.0);
        let scope: Vec<&Number> = all.iter().filter(|n| !self.filter.only_used || n.used).collect();
        let counts = shares(scope.iter().copied());
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing = vec2(5.0, 4.0);
            for kind in Kind::ALL.into_iter().filter(|k| *k != Kind::Own || counts[k.index()] > 0) {
                let count = counts[kind.index()];
                chip(ui, kind, count, scope.len(), &mut self.filter.kinds[kind.index()]);
            }
        });
        ui.add_space(tokens::GAP_SMALL);
    }

    fn foot(&self, ui: &mut Ui, state: &State, all: &[Number], out: &mut Vec<Command>) -> bool {
        let t = tokens::of(ui);
        let mut done = false;
        explained::buttons(ui, |ui| {
            done = ui.button("Close").clicked();
            let copy = ui.add_enabled(!self.shown.is_empty(), Button::new("Copy as a table"));
            if copy.on_hover_text("For a spreadsheet: what is shown, tabs between columns").clicked() {
                out.push(WindowCommand::Copy(table(self.shown.iter().map(|i| &all[*i]))).into());
            }
            let text =
                format!("{} of {} shown · design “{}”", self.shown.len(), all.len(), state.design().name);
            let quiet = RichText::new(text).size(tokens::SMALL + 1.0).color(t.ink_soft);
            ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                ui.add(egui::Label::new(quiet).truncate());
            });
        });
        done
    }
}

/// A kind that can be asked for, with its count and share.
fn chip(ui: &mut Ui, kind: Kind, count: usize, all: usize, on: &mut bool) {
    let t = tokens::of(ui);
    let text = format!("{} {count} · {}", kind.words(), percent(count, all));
    let font = fonts::regular(tokens::SMALL + 1.0);
    let button = Button::selectable(*on, RichText::new(format!("    {text}")).font(font).color(t.ink))
        .corner_radius(f32::from(tokens::RADIUS_PILL))
        .stroke(egui::Stroke::new(tokens::HAIRLINE, if *on { t.accent } else { t.card_edge }))
        .frame_when_inactive(true);
    let response = ui.add(button);
    kind_mark::paint(ui, response.rect.left_center() + vec2(14.0, 0.0), kind);
    let selected = *on;
    response.widget_info(|| WidgetInfo::selected(Role::CheckBox, true, selected, &text));
    if response.clicked() {
        *on = !*on;
    }
    response.on_hover_text(kind.meaning());
}

fn percent(part: usize, all: usize) -> String {
    let share = 100.0 * part as f64 / all.max(1) as f64;
    format!("{}{}%", number::fixed(share, 0), number::NBSP)
}

/// A bar of all numbers by kind, and the same in a sentence.
fn overview(ui: &mut Ui, all: &[Number]) {
    let t = tokens::of(ui);
    let counts = shares(all);
    let told: Vec<String> = Kind::ALL
        .into_iter()
        .filter(|k| *k != Kind::Own || counts[k.index()] > 0)
        .map(|kind| format!("{} {}", percent(counts[kind.index()], all.len()), kind.words()))
        .collect();
    let sentence = format!("{} cited numbers: {}", all.len(), told.join(", "));
    let font = fonts::regular(tokens::SMALL + 1.0);
    ui.add(egui::Label::new(RichText::new(sentence).font(font).color(t.ink_soft)).wrap());
    let (bar, _) = ui.allocate_exact_size(vec2(ui.available_width(), 8.0), egui::Sense::hover());
    let mut left = bar.left();
    for kind in Kind::ALL {
        let width = bar.width() * counts[kind.index()] as f32 / all.len().max(1) as f32;
        let part = bar.with_min_x(left).with_max_x(left + width);
        let weak = matches!(kind, Kind::Standard | Kind::Fitted | Kind::Assumed);
        // Neighbours of one colour are told apart by a lighter tint.
        let color = kind_mark::color(t, kind);
        ui.painter().rect_filled(
            part.shrink2(vec2(0.5, 0.0)),
            0.0,
            if weak { color.gamma_multiply(0.6) } else { color },
        );
        left += width;
    }
    ui.add_space(tokens::GAP_SMALL);
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::{Kitchen, assets};
    use potset_forecast::numbers::numbers;

    #[test]
    fn filters_and_orders_do_what_they_say() {
        let all = numbers(
            &assets::demo("coconut-pot.ron").unwrap(),
            &assets::pantry().unwrap(),
            &Kitchen::default(),
            &potset_doc::Learnt::default(),
        )
        .all;
        let whole = Filter::default().of(&all);
        assert_eq!(whole.len(), all.len());
        let mut memory = Filter::default();
        memory.kinds[Kind::FromMemory.index()] = true;
        let found = memory.of(&all);
        assert_eq!(found.len(), shares(&all)[Kind::FromMemory.index()]);
        assert!(found.iter().all(|i| all[*i].kind == Kind::FromMemory));
        let codex = Filter { text: "codex  CREAM".into(), ..Filter::default() }.of(&all);
        assert!(!codex.is_empty() && codex.iter().all(|i| all[*i].source.contains("Codex")));
        let used = Filter { only_used: true, order: crate::numbers_filter::Order::Name, ..Filter::default() }
            .of(&all);
        assert!(used.len() < all.len() && used.iter().all(|i| all[*i].used));
        let titles: Vec<String> = used.iter().map(|i| all[*i].title().to_lowercase()).collect();
        assert!(titles.is_sorted());
    }
}
