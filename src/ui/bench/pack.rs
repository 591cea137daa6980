//! What a base is sold in, and what a packet of culture says: sizes by which amounts are said in tins or packets.

use egui::{IdSalt, RichText, Ui};

use super::hand::EditContext;
use super::shelf::numbered;
use potset_base::measures::Measure;
use potset_doc::Edit;
use potset_doc::lines::{BaseLine, CultureLine, Pack, Packet};
use potset_doc::pantry::{Base, Culture};
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::number::Number;
use potset_ui_kit::widgets::picker::picker;

/// The row of a base: tin, carton, jar or glass, and its size.
pub fn base(ui: &mut Ui, hand: &mut EditContext<'_>, i: usize, line: &BaseLine, entry: &Base) {
    let pack = line.pack_of(Some(entry));
    ui.horizontal(|ui| {
        quiet(ui, "Comes in");
        let mut names = vec!["no pack"];
        names.extend(Measure::PACKS.map(|m| m.word(false)));
        let current = pack.map_or(names[0], |pack| pack.of.word(false));
        let name = numbered("What the base comes in", i);
        if let Some(picked) = picker(ui, IdSalt::new(("pack", i)), &name, current, &names) {
            let of = picked.checked_sub(1).map(|k| Measure::PACKS[k]);
            let ml = pack.map_or(400.0, |pack| pack.ml);
            hand.edit(Edit::BasePack(i, of.map(|of| Pack { of, ml })));
        }
        if let Some(pack) = pack {
            let name = numbered("Size of the pack", i);
            let size = number(&name, "mL", pack.ml, 10.0..=50_000.0, "What one holds, as it says");
            hand.number(ui, &size, |ml| Edit::BasePack(i, Some(Pack { ml, ..pack })));
        }
    });
}

/// The row of a culture: the weight of the packet, and the litres that it makes.
pub fn culture(ui: &mut Ui, hand: &mut EditContext<'_>, i: usize, line: &CultureLine, entry: &Culture) {
    // Until the packet is read, the usual dose of its kind, for one litre.
    let packet = line.packet.unwrap_or(Packet { grams: entry.grams_per_litre.value, litres: 1.0 });
    ui.horizontal(|ui| {
        quiet(ui, "Packet of");
        let name = numbered("Weight of the packet", i);
        let grams = number(&name, "g", packet.grams, 0.001..=10_000.0, "Powder in one packet, as it says");
        hand.number(ui, &grams, |grams| Edit::CulturePacket(i, Some(Packet { grams, ..packet })));
        quiet(ui, "makes");
        let name = numbered("Litres that the packet makes", i);
        let litres = number(&name, "L", packet.litres, 0.01..=10_000.0, "As the packet says");
        hand.number(ui, &litres, |litres| Edit::CulturePacket(i, Some(Packet { litres, ..packet })));
    });
}

fn quiet(ui: &mut Ui, words: &str) {
    ui.label(RichText::new(words).size(tokens::SMALL + 1.0).color(tokens::of(ui).ink_soft));
}

fn number<'a>(
    name: &'a str,
    unit: &'a str,
    value: f64,
    range: std::ops::RangeInclusive<f64>,
    hover: &'a str,
) -> Number<'a> {
    Number { name, unit, value, range, decimals: 3, speed: 0.01 * value.max(0.1), hover }
}
