//! Price, photo and remark of an entry: the maker's own words on shipped and own entries alike.

use egui::{IdSalt, Ui};

use super::figures::unread;
use potset_app::command::PantryCommand;
use potset_app::{Command, State};
use potset_base::number;
use potset_catalogue::pantry_page::Page;
use potset_doc::own::OwnEdit;
use potset_doc::pantry::{EntryKind, Price, SoldBy, Ticket};
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::field::{area, field};
use potset_ui_kit::widgets::picker::picker;
use potset_ui_kit::widgets::{typed, wrapped};
use potset_ui_kit::{fonts, tokens};

/// The path that a price which cannot be read is told under.
const PRICE: &str = "price";

/// Draws the card.
pub fn card(
    ui: &mut Ui,
    page: &Page,
    state: &State,
    trouble: &mut Option<(String, String)>,
    out: &mut Vec<Command>,
) {
    let t = tokens::of(ui);
    let old = &page.ticket;
    let mut put = |ticket: Ticket| {
        if ticket != *old {
            out.push(PantryCommand::Own(OwnEdit::Ticket(page.kind, page.key.clone(), ticket)).into());
        }
    };
    let quiet = if old.is_blank() { "nothing written yet" } else { "yours" };
    Card::new("Price, photo, remark").quiet(quiet).show(ui, |ui| {
        if let Some(price) = price(ui, page, &state.kitchen.currency, trouble) {
            put(Ticket { price, ..old.clone() });
        }
        if let Some((_, why)) = trouble.as_ref().filter(|(path, _)| path == PRICE) {
            wrapped(ui, why, fonts::regular(tokens::SMALL), t.stop);
        }
        let width = ui.available_width();
        if let Some(photo) = field(ui, "Photo", &old.photo, "File name of a photo", width) {
            put(Ticket { photo: photo.trim().to_owned(), ..old.clone() });
        }
        if let Some(remark) = area(ui, "Remark", &old.remark, "Where you buy it, which one is good") {
            put(Ticket { remark: remark.trim().to_owned(), ..old.clone() });
        }
    });
}

/// The price in a row; the new one if it was changed, which may be none.
fn price(
    ui: &mut Ui,
    page: &Page,
    currency: &str,
    trouble: &mut Option<(String, String)>,
) -> Option<Option<Price>> {
    let old = page.ticket.price;
    let by = if page.kind == EntryKind::Base { SoldBy::Litre } else { SoldBy::Kilogram };
    let usual = Price { money: 0.0, buys: 1.0, by };
    let shown = |v: Option<f64>| v.map_or_else(String::new, number::plain);
    let mut new = None;
    let mut read = |text: &str, unit: &str| {
        let v = typed::parse_any(text, unit);
        *trouble = v.is_none().then(|| (PRICE.to_owned(), unread(text, "")));
        v
    };
    ui.horizontal(|ui| {
        if let Some(text) = field(ui, "Price", &shown(old.map(|p| p.money)), "price", 62.0) {
            if text.trim().is_empty() {
                new = Some(None);
            } else if let Some(money) = read(&text, currency) {
                new = Some(Some(Price { money, ..old.unwrap_or(usual) }));
            }
        }
        if !currency.is_empty() {
            ui.label(currency);
        }
        ui.label("for");
        let now = old.unwrap_or(usual);
        if let Some(text) = field(ui, "Amount for the price", &number::plain(now.buys), "amount", 62.0)
            && let Some(buys) = read(&text, now.by.unit())
        {
            new = Some(Some(Price { buys, ..now }));
        }
        let units = SoldBy::ALL.map(SoldBy::unit);
        if let Some(i) = picker(ui, IdSalt::new("sold by"), "Unit of the amount", now.by.unit(), &units) {
            new = Some(Some(Price { by: SoldBy::ALL[i], ..now }));
        }
    });
    new
}
