//! The lines of designs: those of one entry stand in one slot, what is left over is paired in order.

use super::super::part::Part;
use super::Input;
use potset_base::measures::whole::volume;
use potset_base::number::plain;
use potset_base::units::{self, Amounts, WARMTH};
use potset_doc::Design;
use potset_doc::design::{GoesIn, LabelFigures, Powder, SweetWhen};
use potset_doc::edit::LineKind;
use potset_doc::measured::{Cells, Kind, Taken};
use potset_doc::pantry::{EntryKind, Pantry};
use potset_forecast::lever::lines::keys;

/// Which slot each line of each design stands in, and how many slots a shelf has.
pub struct Slots {
    /// By shelf, design, line.
    of: Vec<Vec<Vec<usize>>>,
    counts: Vec<usize>,
}

impl Slots {
    pub fn new(designs: &[&Design]) -> Self {
        let (of, counts) = LineKind::ALL
            .into_iter()
            .map(|shelf| -> (Vec<Vec<usize>>, usize) {
                let lists: Vec<Vec<&str>> = designs.iter().map(|d| keys(d, shelf).collect()).collect();
                slots(&lists)
            })
            .unzip();
        Self { of, counts }
    }

    /// What a slot's rows are called: "thickener", or "thickener 2" where there are several.
    fn name(&self, shelf: LineKind, design: usize, line: usize) -> String {
        let s = LineKind::ALL.iter().position(|x| *x == shelf).unwrap_or(0);
        let slot = self.of[s][design][line];
        if self.counts[s] > 1 { format!("{} {}", shelf.one(), slot + 1) } else { shelf.one().to_owned() }
    }
}

fn slots(lists: &[Vec<&str>]) -> (Vec<Vec<usize>>, usize) {
    // A slot belongs to an entry, the n-th line of it in a design; or to lines that found no partner.
    let mut owners: Vec<Vec<Option<&str>>> = Vec::new();
    let mut of: Vec<Vec<usize>> = lists.iter().map(|l| vec![usize::MAX; l.len()]).collect();
    for (d, list) in lists.iter().enumerate() {
        for (i, key) in list.iter().enumerate() {
            let free = |o: &Vec<Option<&str>>| o[d].is_none() && o[..d].contains(&Some(*key));
            if let Some(slot) = owners.iter().position(free) {
                owners[slot][d] = Some(key);
                of[d][i] = slot;
            }
        }
        for (i, key) in list.iter().enumerate() {
            if of[d][i] != usize::MAX {
                continue;
            }
            // Another design further on may have the same entry as one of an earlier slot: those are left to it.
            let wanted = |o: &Vec<Option<&str>>| {
                let later = lists[d..].iter().flatten().any(|k| o[..d].contains(&Some(*k)));
                o[d].is_none() && !(later && lists[d].iter().any(|k| o[..d].contains(&Some(*k))))
            };
            let slot = owners.iter().position(wanted).unwrap_or_else(|| {
                owners.push(vec![None; lists.len()]);
                owners.len() - 1
            });
            owners[slot][d] = Some(key);
            of[d][i] = slot;
        }
    }
    (of, owners.len())
}

/// The lines of a design.
pub fn inputs(d: usize, design: &Design, slots: &Slots, pantry: &Pantry) -> Vec<Input> {
    let words = |kind: EntryKind, key: &str| design.name_of(pantry, kind, key).to_owned();
    let mut out = vec![match units::spoken().amounts {
        Amounts::Metric => Input::number(Part::Base, "bases in all", design.litres(), 2, "L"),
        Amounts::UsCustomary => Input::words(Part::Base, "bases in all", volume(design.litres(), 3)),
    }];
    for (i, line) in design.bases.iter().enumerate() {
        let name = slots.name(LineKind::Bases, d, i);
        out.push(Input::words(Part::Base, name.as_str(), words(EntryKind::Base, &line.entry)));
        let share = 100.0 * line.litres / design.litres().max(1e-9);
        out.push(Input::number(Part::Base, format!("{name}, share"), share, 0, "%"));
        out.extend(label(&name, &line.label));
        out.extend(measured(Part::Base, &name, design, i));
    }
    for (i, line) in design.sugars.iter().enumerate() {
        let name = slots.name(LineKind::Sugars, d, i);
        out.push(Input::words(Part::Sugar, name.as_str(), words(EntryKind::Sugar, &line.entry)));
        out.push(Input::number(Part::Sugar, format!("{name}, amount"), line.g_per_l, 1, "g/L"));
        if line.when == SweetWhen::AfterTheHold {
            out.push(Input::words(Part::Sugar, format!("{name}, when"), "after the hold"));
        }
    }
    for (i, line) in design.thickeners.iter().enumerate() {
        let name = slots.name(LineKind::Thickeners, d, i);
        out.push(Input::words(Part::Thickener, name.as_str(), words(EntryKind::Thickener, &line.entry)));
        out.push(Input::number(Part::Thickener, format!("{name}, amount"), line.g_per_l, 1, "g/L"));
        let when = if line.goes_in == GoesIn::WithTheBase { "with the base" } else { "with the culture" };
        out.push(Input::words(Part::Thickener, format!("{name}, goes in"), when));
        if line.mixed_first {
            out.push(Input::words(Part::Thickener, format!("{name}, lumps"), "mixed with the sugar first"));
        }
    }
    for (i, line) in design.additives.iter().enumerate() {
        let name = slots.name(LineKind::Additives, d, i);
        out.push(Input::words(Part::Additives, name.as_str(), words(EntryKind::Additive, &line.entry)));
        out.push(Input::number(Part::Additives, format!("{name}, amount"), line.g_per_l, 2, "g/L"));
        out.push(Input::words(Part::Additives, format!("{name}, when"), line.when.words()));
    }
    for (i, line) in design.cultures.iter().enumerate() {
        let name = slots.name(LineKind::Cultures, d, i);
        out.push(Input::words(Part::Culture, name.as_str(), words(EntryKind::Culture, &line.entry)));
        out.push(Input::number(Part::Culture, format!("{name}, dose"), line.rate, 2, "× packet"));
        let said = design.said_of(LineKind::Cultures, i, pantry);
        if let Some(text) = said.and_then(|(said, rate)| said.text(rate)) {
            out.push(Input::words(Part::Culture, format!("{name}, measured"), text));
        }
        out.push(Input::number(Part::Culture, format!("{name}, age"), line.age_days, 0, "days"));
        if let Some(c) = line.kept_c {
            out.push(Input::number(Part::Culture, format!("{name}, kept at"), c, 0, WARMTH));
        }
        if line.opened {
            out.push(Input::words(Part::Culture, format!("{name}, packet"), "opened before"));
        }
        if line.powder != Powder::Straight {
            let words = line.powder.words().trim_start_matches("as ");
            out.push(Input::words(Part::Culture, format!("{name}, weighed as"), words));
        }
        out.extend(measured(Part::Culture, &name, design, i));
    }
    out
}

/// Figures that a label gives in the place of the entry's.
fn label(name: &str, label: &LabelFigures) -> Vec<Input> {
    let figures = [
        ("fat", label.fat),
        ("protein", label.protein),
        ("sugars", label.sugars),
        ("carbohydrate", label.carbohydrate),
        ("extract", label.extract),
    ];
    figures
        .into_iter()
        .filter_map(|(what, v)| {
            v.map(|v| Input::number(Part::Base, format!("{name}, {what} by its label"), v, 1, "%"))
        })
        .collect()
}

/// What was measured of a base or of a culture line.
fn measured(part: Part, name: &str, design: &Design, line: usize) -> Vec<Input> {
    let kinds: &[Kind] = match part {
        Part::Base => &[Kind::Ph, Kind::Acidity, Kind::Titration],
        _ => &[Kind::Count, Kind::Pace, Kind::Lag],
    };
    let number = |what: &str, v: f64, decimals: usize, unit: &'static str| {
        Input::number(part, format!("{name}, {what} as measured"), v, decimals, unit)
    };
    let words = |what: &str, said: String| Input::words(part, format!("{name}, {what} as measured"), said);
    let of = |kind: &Kind| {
        let v = Taken { kind: *kind, line }.value(design)?;
        Some(match kind {
            Kind::Ph => number("pH", v, 2, ""),
            Kind::Acidity => number("acidity", v, 3, "%"),
            Kind::Titration => {
                let to_ph = design.bases.get(line)?.measured.titration?.to_ph;
                words("acid", format!("{} g/kg lactic acid to pH {}", plain(v), plain(to_ph)))
            }
            Kind::Count => words(
                "living cells",
                match design.cultures.get(line)?.measured.count?.cells {
                    Cells::PerGram(_) => format!("{} million in a gram", plain(v / 1e6)),
                    Cells::InPacket { litres, .. } => {
                        format!("{} million in a packet for {} L", plain(v / 1e6), plain(litres))
                    }
                },
            ),
            Kind::Pace => number("pace", v, 2, ""),
            Kind::Lag => number("lag", v, 2, ""),
        })
    };
    kinds.iter().filter_map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_of_one_entry_share_a_slot_whatever_their_order() {
        let (of, count) = slots(&[vec!["rice", "agar"], vec!["agar", "rice"]]);
        assert_eq!((of, count), (vec![vec![0, 1], vec![1, 0]], 2));
        let (of, count) = slots(&[vec!["rice"], vec!["agar"]]);
        assert_eq!((of, count), (vec![vec![0], vec![0]], 1));
        let (of, count) = slots(&[vec!["rice", "agar"], vec!["pectin", "rice"]]);
        assert_eq!((of, count), (vec![vec![0, 1], vec![1, 0]], 2));
        let (of, count) = slots(&[vec![], vec!["agar"], vec!["agar", "agar"]]);
        assert_eq!((of, count), (vec![vec![], vec![0], vec![0, 1]], 2));
    }
}
