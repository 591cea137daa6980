//! What was measured of a base or of a culture: one quiet line that unfolds to fields, empty where the pantry's figure
//! stands.

use egui::{Align, Layout, Response, RichText, Ui, vec2};

use super::hand::EditContext;
use super::shelf::numbered;
use potset_base::number::{self, NBSP};
use potset_base::{Cited, Note};
use potset_doc::Edit;
use potset_doc::design::{BaseLine, CultureLine};
use potset_doc::measured::{
    self as of, BaseMeasured, Cells, Count, CultureMeasured, Factor, Figure, Titration,
};
use potset_doc::pantry::{Base, Culture};
use potset_doc::range::Range;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::field::field;
use potset_ui_kit::widgets::typed;

/// pH that a titration goes to unless another one is typed: where most pots end.
const USUAL_END: f64 = 4.5;

/// Litres that a packet is meant for unless another amount is typed: that of small home packets (common practice).
const USUAL_PACKET: f64 = 1.0;

/// Widths of a row's name and of its fields, points; together they fill the column.
const NAME: f32 = 118.0;
const WIDE: f32 = 70.0;
const NARROW: f32 = 48.0;
const GAP: f32 = 4.0;

/// Draws what was measured of a base.
pub fn base(ui: &mut Ui, hand: &mut EditContext<'_>, i: usize, line: &BaseLine, entry: &Base) {
    let now = line.measured;
    let mut new = now;
    fold(ui, ("measured base", i), &base_summary(&now), |ui, rows| {
        let ph = now.ph.map(|f| (f.value, f.within));
        let hover = instead(&entry.ph);
        if let Some(typed) = rows.pair(ui, ("pH of the base", "± pH", i), ph, (of::PH, of::OFF_PH), &hover) {
            new.ph = typed.map(|(v, within)| Figure { value: v, within });
        }
        let acidity = now.acidity.map(|f| (f.value, f.within));
        let (ranges, hover) = ((of::ACIDITY, of::OFF_ACIDITY), instead(&entry.start_acidity));
        if let Some(typed) = rows.pair(ui, ("Acidity of the base", "± acidity", i), acidity, ranges, &hover)
        {
            new.acidity = typed.map(|(v, within)| Figure { value: v, within });
        }
        titration(ui, rows, i, now.titration, &mut new, &instead(&entry.mean_buffer));
    });
    if new != now {
        hand.edit(Edit::BaseMeasured(i, new));
    }
}

fn titration(
    ui: &mut Ui,
    rows: &Rows,
    i: usize,
    now: Option<Titration>,
    new: &mut BaseMeasured,
    hover: &str,
) {
    let acid = now.map(|t| (t.lactic_g_per_kg, t.within));
    let hover = format!(
        "Stir pure lactic acid into a weighed sample until its pH has come down. Give the acid per kg of base. \
         {hover}"
    );
    let ranges = (of::LACTIC, of::OFF_LACTIC);
    if let Some(typed) = rows.pair(ui, ("Lactic acid put in", "± lactic acid", i), acid, ranges, &hover) {
        new.titration = typed.map(|(lactic_g_per_kg, within)| Titration {
            lactic_g_per_kg,
            within,
            to_ph: now.map_or(USUAL_END, |t| t.to_ph),
        });
    }
    let first = "Give the lactic acid first";
    let to_ph = rows.one(ui, ("came to pH", "pH that it came to", i), now.map(|t| t.to_ph), of::TO_PH, first);
    if let (Some(Some(to_ph)), Some(t)) = (to_ph, now) {
        new.titration = Some(Titration { to_ph, ..t });
    }
}

/// Draws what was measured of a culture.
pub fn culture(ui: &mut Ui, hand: &mut EditContext<'_>, i: usize, line: &CultureLine, entry: &Culture) {
    let now = line.measured;
    let mut new = now;
    fold(ui, ("measured culture", i), &culture_summary(&now), |ui, rows| {
        counts(ui, rows, i, now.count, &mut new, entry);
        let pace = format!(
            "As the command `potset evidence` fits it to your pot. Otherwise: in milk {}; in plant bases {}",
            entry.speed_dairy.line(),
            entry.speed_plant.line()
        );
        let now_pace = now.pace.map(|f| (f.value, f.times));
        let ranges = (of::PACE, of::OFF_TIMES);
        if let Some(typed) = rows.pair(ui, ("Pace of the culture", "×/÷ pace", i), now_pace, ranges, &pace)
        {
            new.pace = typed.map(|(v, times)| Factor { value: v, times });
        }
        let (now_lag, ranges) = (now.lag.map(|f| (f.value, f.times)), (of::LAG, of::OFF_TIMES));
        let lag = format!("As work to be done before growth, fitted alike. {}", instead(&entry.lag_work));
        if let Some(typed) = rows.pair(ui, ("Lag of the culture", "×/÷ lag", i), now_lag, ranges, &lag) {
            new.lag = typed.map(|(v, times)| Factor { value: v, times });
        }
    });
    if new != now {
        hand.edit(Edit::CultureMeasured(i, new));
    }
}

/// Cells per gram or in the packet: one of the two.
fn counts(
    ui: &mut Ui,
    rows: &Rows,
    i: usize,
    now: Option<Count>,
    new: &mut CultureMeasured,
    entry: &Culture,
) {
    let times = now.and_then(|c| c.times);
    let per_gram = now.and_then(|c| match c.cells {
        Cells::PerGram(cfu) => Some((cfu, c.times)),
        Cells::InPacket { .. } => None,
    });
    let packet = now.and_then(|c| match c.cells {
        Cells::InPacket { cfu, litres } => Some((cfu, litres)),
        Cells::PerGram(_) => None,
    });
    let each: Vec<String> =
        entry.doses.iter().map(|d| format!("{} {}", d.organism, d.cfu_per_g.line())).collect();
    let hover =
        format!("All kinds together, as the packet is now. Otherwise, in the pot: {}", each.join("; "));
    let ranges = (of::PER_GRAM, of::OFF_TIMES);
    if let Some(typed) = rows.pair(ui, ("Cells per gram", "×/÷ cells per gram", i), per_gram, ranges, &hover)
    {
        new.count = typed.map(|(cfu, times)| Count { cells: Cells::PerGram(cfu), times });
    }
    let cells = packet.map(|(cfu, _)| (cfu, times));
    let ranges = (of::IN_PACKET, of::OFF_TIMES);
    let names = ("Cells in the packet", "×/÷ cells in the packet", i);
    if let Some(typed) = rows.pair(ui, names, cells, ranges, &hover) {
        let litres = packet.map_or(USUAL_PACKET, |(_, litres)| litres);
        new.count = typed.map(|(cfu, times)| Count { cells: Cells::InPacket { cfu, litres }, times });
    }
    let (names, first) = (("packet for", "Litres that the packet is meant for", i), "Give its cells first");
    let litres = rows.one(ui, names, packet.map(|(_, litres)| litres), of::PACKET_LITRES, first);
    if let (Some(Some(litres)), Some((cfu, _))) = (litres, packet) {
        new.count = Some(Count { cells: Cells::InPacket { cfu, litres }, times });
    }
}

/// What stands where nothing is typed, and where that is from.
fn instead(cited: &Cited) -> String {
    format!("Empty: {}", cited.line())
}

fn fold(ui: &mut Ui, id: (&str, usize), summary: &str, draw: impl FnOnce(&mut Ui, &Rows)) {
    let t = tokens::of(ui);
    let words = RichText::new(summary).size(tokens::SMALL + 1.0).color(t.ink_soft);
    egui::CollapsingHeader::new(words).id_salt(id).show(ui, |ui| {
        ui.spacing_mut().item_spacing = vec2(GAP, GAP);
        draw(ui, &Rows);
    });
}

/// The rows of the fields.
struct Rows;

/// What was typed into the fields of a row: nothing; that it is no longer measured; or a value and what it may be off by.
type Typed = Option<Option<(f64, Option<f64>)>>;

impl Rows {
    /// A value with what it may be off by.
    fn pair(
        &self,
        ui: &mut Ui,
        (name, off, i): (&str, &str, usize),
        now: Option<(f64, Option<f64>)>,
        (range, off_range): (Range, Range),
        hover: &str,
    ) -> Typed {
        let off_name = numbered(off, i);
        let (value, within) = ui
            .horizontal(|ui| {
                named(ui, RichText::new(name)).on_hover_text(hover);
                let value = number(ui, &numbered(name, i), now.map(|(v, _)| v), range, WIDE);
                ui.label(if off.starts_with('±') { "±" } else { "×/÷" });
                (value, number(ui, &off_name, now.and_then(|(_, w)| w), off_range, NARROW))
            })
            .inner;
        if let (Some(Some(_)), None) = (within, now) {
            typed::refuse(
                ui.ctx(),
                Note::error(
                    off_name,
                    "There is no value yet that could be off",
                    "Give the value before it first",
                ),
            );
            return None;
        }
        match (value, within) {
            (Some(v), _) => Some(v.map(|v| (v, now.and_then(|(_, w)| w)))),
            (None, Some(w)) => now.map(|(v, _)| Some((v, w))),
            (None, None) => None,
        }
    }

    /// A value that belongs to the one above it.
    fn one(
        &self,
        ui: &mut Ui,
        (label, name, i): (&str, &str, usize),
        now: Option<f64>,
        range: Range,
        first: &str,
    ) -> Option<Option<f64>> {
        let t = tokens::of(ui);
        let name = numbered(name, i);
        let typed = ui
            .horizontal(|ui| {
                named(ui, RichText::new(label).color(t.ink_soft));
                number(ui, &name, now, range, WIDE)
            })
            .inner;
        if now.is_none() && typed.is_some() {
            typed::refuse(ui.ctx(), Note::error(name, "This belongs to the value above", first));
            return None;
        }
        typed
    }
}

/// The name of a row, as wide as all of them.
fn named(ui: &mut Ui, text: RichText) -> Response {
    let size = vec2(NAME, ui.spacing().interact_size.y);
    let row = ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
        ui.set_min_width(NAME);
        ui.label(text)
    });
    row.inner
}

/// A field for a number that may be empty; what was typed, if it was and can be.
fn number(ui: &mut Ui, name: &str, now: Option<f64>, range: Range, width: f32) -> Option<Option<f64>> {
    let (_, unit, least, most) = range;
    // The first word of a unit has room.
    let hint = if width > NARROW { unit.split(' ').next().unwrap_or("") } else { "" };
    let shown = now.map_or_else(String::new, |v| format!("{}{}", plain(v), short(unit)));
    let text = field(ui, name, &shown, hint, width)?;
    if text.trim().is_empty() {
        return Some(None);
    }
    let mend = || format!("Give {} to {} {unit}, or leave it empty", plain(least), plain(most));
    let read = typed::parse_any(&text, unit.split(' ').next().unwrap_or(""));
    match read.or_else(|| typed::parse_any(&text, unit)) {
        Some(v) if (least..=most).contains(&v) => Some(Some(v)),
        Some(v) => {
            let way = if v > most { "more" } else { "less" };
            let title = format!("{} is {way} than allowed", plain(v));
            typed::refuse(ui.ctx(), Note::error(name, title, mend()));
            None
        }
        None => {
            let title = format!(
                "“{}” is not a number{}",
                text.trim(),
                if unit.is_empty() { "" } else { " in its unit" }
            );
            typed::refuse(ui.ctx(), Note::error(name, title, mend()));
            None
        }
    }
}

/// A number as a field shows it: large ones by their power of ten.
fn plain(v: f64) -> String {
    if v.abs() < 1e5 {
        return number::plain(v);
    }
    let power = v.abs().log10().floor();
    format!("{}e{power}", number::plain((v / 10.0_f64.powf(power) * 1e3).round() / 1e3))
}

/// A unit that has room in a field.
fn short(unit: &str) -> String {
    if unit.is_empty() || unit.contains(' ') { String::new() } else { format!("{NBSP}{unit}") }
}

fn listed(parts: &[Option<String>]) -> String {
    let parts: Vec<&str> = parts.iter().flatten().map(String::as_str).collect();
    if parts.is_empty() { "Measured: nothing".to_owned() } else { format!("Measured: {}", parts.join(", ")) }
}

fn base_summary(m: &BaseMeasured) -> String {
    listed(&[
        m.ph.map(|f| format!("pH{NBSP}{}", number::plain(f.value))),
        m.acidity.map(|f| format!("acidity{NBSP}{}{NBSP}%", number::plain(f.value))),
        m.titration.map(|_| "titrated".to_owned()),
    ])
}

fn culture_summary(m: &CultureMeasured) -> String {
    listed(&[
        m.count.map(|c| match c.cells {
            Cells::PerGram(cfu) => format!("{}{NBSP}cfu/g", plain(cfu)),
            Cells::InPacket { cfu, .. } => format!("{}{NBSP}cfu in the packet", plain(cfu)),
        }),
        m.pace.map(|f| format!("pace{NBSP}{}", number::plain(f.value))),
        m.lag.map(|f| format!("lag{NBSP}{}", number::plain(f.value))),
    ])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_quiet_line_says_what_was_measured() {
        assert_eq!(base_summary(&BaseMeasured::default()), "Measured: nothing");
        let m = BaseMeasured {
            ph: Some(Figure { value: 6.05, within: None }),
            titration: Some(Titration { lactic_g_per_kg: 2.4, to_ph: 4.5, within: None }),
            ..BaseMeasured::default()
        };
        assert_eq!(base_summary(&m), "Measured: pH\u{a0}6.05, titrated");
        let count = Some(Count { cells: Cells::PerGram(3e10), times: None });
        let m = CultureMeasured { count, ..CultureMeasured::default() };
        assert_eq!(culture_summary(&m), "Measured: 3e10\u{a0}cfu/g");
    }
}
