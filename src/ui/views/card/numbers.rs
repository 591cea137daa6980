//! A number of what is asked on a page.

use egui::Ui;

use potset_app::Command;
use potset_app::card::CardWish;
use potset_app::command::CardCommand;
use potset_ui_kit::widgets::number::Number;

/// What a number is: its name, unit, range, decimals and what is told of it.
pub struct Wanted {
    pub name: &'static str,
    pub unit: &'static str,
    pub range: std::ops::RangeInclusive<f64>,
    pub decimals: usize,
    pub hover: &'static str,
}

/// Draws it; what is set goes into the wish.
pub fn number(
    ui: &mut Ui,
    wanted: &Wanted,
    value: f64,
    wish: &CardWish,
    out: &mut Vec<Command>,
    set: impl FnOnce(&mut CardWish, f64),
) {
    ui.label(wanted.name);
    let number = Number {
        name: wanted.name,
        unit: wanted.unit,
        value,
        range: wanted.range.clone(),
        decimals: wanted.decimals,
        speed: 0.2,
        hover: wanted.hover,
    };
    if let Some(new) = number.show(ui).value {
        let mut wish = wish.clone();
        set(&mut wish, new);
        out.push(CardCommand::Wish(wish).into());
    }
}
