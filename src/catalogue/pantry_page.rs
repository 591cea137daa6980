//! The page of a pantry entry: all that is known of it, where it is used, and how the open design's copy differs.

use crate::pantry_table::{Diet, Table};
use potset_base::allergen::{Allergen, allergen};
use potset_base::measures::SpoonSet;
use potset_base::measures::whole::{volume_plain, volume_span};
use potset_base::number;
use potset_base::units::said::warmth_span;
use potset_doc::edit::LineKind;
use potset_doc::own::copy_name;
use potset_doc::pantry::{
    Changed, ColdAcid, EntryKind, Outdated, Pantry, ProteinKind, Ticket, find, outdated,
};
use potset_doc::{Design, Edit, OwnPantry};
use potset_forecast::numbers::{Number, of_entry, path_words};

/// A cited figure of an entry.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// Its path inside the entry, to change it.
    pub path: String,
    pub number: Number,
}

/// All that the page of an entry shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    pub kind: EntryKind,
    pub key: String,
    pub name: String,
    /// The maker's own, so it can be changed.
    pub own: bool,
    pub aliases: Vec<String>,
    /// What is known without a source: a name and its words.
    pub facts: Vec<(&'static str, String)>,
    pub diet: Vec<&'static str>,
    pub allergens: Vec<&'static str>,
    pub unlisted_allergens: Vec<String>,
    /// All of them, as entries write them.
    pub allergen_keys: Vec<String>,
    /// Whether it says that it is vegan, and free of gluten; nothing for what is no food.
    pub claims: Option<(bool, bool)>,
    /// A name for a copy that is not taken.
    pub copy_name: String,
    pub figures: Vec<Figure>,
    pub handling: String,
    pub hazards: Vec<String>,
    pub ticket: Ticket,
    /// Where it is used: the open design first.
    pub used: Vec<String>,
    /// The open design has another copy of it.
    pub differs: Option<Outdated>,
}

/// A design to look through: its name and where it is.
#[derive(Clone, Copy, Debug)]
pub struct Place<'a> {
    pub name: &'a str,
    pub place: &'a str,
    pub design: &'a Design,
}

impl Page {
    /// The page of an entry; nothing if the pantry has no such entry.
    pub fn of(
        pantry: &Pantry,
        own: &OwnPantry,
        (kind, key): (EntryKind, &str),
        open: &Design,
        seen: &[Place<'_>],
    ) -> Option<Self> {
        let entry = pantry.entry(kind, key)?;
        let mut one = Pantry::default();
        one.put(pantry, kind, key);
        one.put_needs(pantry, kind, key);
        let table = Table::of(&one, own, Some(kind), SpoonSet::default());
        let diet = table.rows.iter().find(|row| row.key == key).map(|row| row.diet);
        let (known, unknown): (Vec<&String>, Vec<&String>) =
            entry.allergens().iter().partition(|a| allergen(a).is_some());
        let mut figures = of_entry(pantry, kind, key);
        apart(&mut figures);
        Some(Self {
            kind,
            key: key.to_owned(),
            name: entry.name().to_owned(),
            own: own.owns(kind, key),
            aliases: entry.aliases().to_vec(),
            facts: facts(&one, kind, key),
            diet: diet.map_or_else(Vec::new, Diet::words),
            allergens: known.into_iter().filter_map(|a| allergen(a)).map(Allergen::words).collect(),
            unlisted_allergens: unknown.into_iter().cloned().collect(),
            allergen_keys: entry.allergens().to_vec(),
            claims: entry.vegan().zip(entry.gluten_free()),
            copy_name: copy_name(pantry, kind, entry.name()),
            figures: figures.into_iter().map(|(path, number)| Figure { path, number }).collect(),
            handling: entry.handling().to_owned(),
            hazards: entry.hazards().to_vec(),
            ticket: entry.ticket().clone(),
            used: used(kind, key, open, seen),
            differs: outdated(&open.snapshot, pantry)
                .into_iter()
                .find(|o| o.kind == kind && o.key == key)
                .map(|o| in_words(kind, o)),
        })
    }

    /// Diets in one line: "vegan, gluten-free".
    pub fn diet_words(&self) -> String {
        if self.diet.is_empty() && !matches!(self.kind, EntryKind::Vessel | EntryKind::Warmer) {
            return "meets none of the diets in the list".to_owned();
        }
        self.diet.join(", ")
    }

    /// Allergens in one line.
    pub fn allergen_words(&self) -> String {
        let mut all: Vec<String> = self.allergens.iter().map(|a| (*a).to_owned()).collect();
        all.extend(self.unlisted_allergens.iter().cloned());
        if all.is_empty() { "none named".to_owned() } else { all.join(", ") }
    }
}

/// Figures of one name are told apart by a number, so that each can be typed in a field of its own.
fn apart(figures: &mut [(String, Number)]) {
    let mut met: std::collections::BTreeMap<String, usize> = std::collections::BTreeMap::new();
    for (_, number) in figures {
        let count = met.entry(number.name.clone()).or_default();
        *count += 1;
        if *count > 1 {
            number.name = format!("{} ({count})", number.name);
        }
    }
}

/// What differs, in plain words instead of paths.
fn in_words(kind: EntryKind, mut differs: Outdated) -> Outdated {
    for Changed { what, .. } in &mut differs.changes {
        *what = path_words(kind, what);
    }
    differs
}

fn used(kind: EntryKind, key: &str, open: &Design, seen: &[Place<'_>]) -> Vec<String> {
    let uses = |d: &Design| d.snapshot.entry(kind, key).is_some();
    let mut out = Vec::new();
    if uses(open) {
        out.push(format!("“{}”, the design that is open", open.name));
    }
    for place in seen.iter().filter(|p| uses(p.design)) {
        out.push(format!("“{}” ({})", place.name, place.place));
    }
    out
}

fn yes(on: bool) -> String {
    if on { "yes" } else { "no" }.to_owned()
}

fn range((low, high): (f64, f64), unit: &str) -> String {
    if low.to_bits() == high.to_bits() {
        format!("{}{}{unit}", number::plain(low), number::NBSP)
    } else {
        format!("{} to {}{}{unit}", number::plain(low), number::plain(high), number::NBSP)
    }
}

/// A span that may have been worked out, to two figures.
fn two_figures((low, high): (f64, f64), unit: &str) -> String {
    format!("{} to {}{}{unit}", number::figures(low, 2), number::figures(high, 2), number::NBSP)
}

fn facts(pantry: &Pantry, kind: EntryKind, key: &str) -> Vec<(&'static str, String)> {
    let mut out = Vec::new();
    match kind {
        EntryKind::Base => {
            let Some(e) = find(&pantry.bases, key) else { return out };
            out.push(("made of", e.kind.words().to_owned()));
            out.push(("as opened", e.sterility.words().to_owned()));
            out.push(("fat finely broken up", yes(e.homogenised)));
            out.push(("usual fat on labels", two_figures(e.usual_fat, "g/100 g")));
            out.push(("usual amount", volume_span(e.usual_litres.0, e.usual_litres.1)));
            if !e.holds.is_empty() {
                let names: Vec<&str> = e
                    .holds
                    .iter()
                    .map(|h| find(&pantry.additives, &h.additive).map_or(h.additive.as_str(), |a| &a.name))
                    .collect();
                out.push(("its maker put in", names.join(", ")));
            }
        }
        EntryKind::Sugar => {
            let Some(e) = find(&pantry.sugars, key) else { return out };
            out.push(("food for the culture", yes(!e.not_food)));
            out.push(("usual dose", range(e.usual, "g/L")));
        }
        EntryKind::Thickener => {
            let Some(e) = find(&pantry.thickeners, key) else { return out };
            out.push(("usual dose", range(e.usual, "g/L")));
            if let potset_doc::pantry::Action::Protein { kind, .. } = &e.action {
                let protein = match kind {
                    ProteinKind::Milk => "milk",
                    ProteinKind::Soy => "soy",
                    ProteinKind::Pea => "pea",
                };
                out.push(("protein", protein.to_owned()));
            }
        }
        EntryKind::Additive => {
            let Some(e) = find(&pantry.additives, key) else { return out };
            out.push(("usual dose", range(e.usual, "g/L")));
            out.push(("gives off gas as it takes up acid", yes(e.gas)));
        }
        EntryKind::Culture => {
            let Some(e) = find(&pantry.cultures, key) else { return out };
            out.push(("comes as", e.form.words().to_owned()));
            out.push(("usual dose", range(e.usual, "× packet")));
            out.push(("makes slime", yes(e.ropy)));
            let cold = match e.cold_acid {
                ColdAcid::Mild => "hardly any",
                ColdAcid::Medium => "some",
                ColdAcid::Sharp => "much",
            };
            out.push(("acid made in the cold", cold.to_owned()));
        }
        EntryKind::Vessel => {
            let Some(e) = find(&pantry.vessels, key) else { return out };
            out.push(("holds", volume_plain(e.litres)));
        }
        EntryKind::Warmer => {
            let Some(e) = find(&pantry.warmers, key) else { return out };
            out.push(("usual setting", warmth_span(e.usual.0, e.usual.1)));
            if let Some(litres) = e.holds_litres {
                out.push(("holds at most", volume_plain(litres)));
            }
        }
        EntryKind::Raw => {
            let Some(e) = find(&pantry.raws, key) else { return out };
            out.push(("made into", format!("a {} base", e.kind.words())));
            out.push(("usual water for grinding", range(e.usual_water, "g per g")));
            out.push(("usually strained", yes(e.strained)));
            for (what, times, unit) in [("soak", e.soak_h, "h"), ("boil", e.boil_min, "min")] {
                let words = if times.1 > 0.0 { range(times, unit) } else { "not needed".to_owned() };
                out.push((what, words));
            }
        }
    }
    out
}

/// What takes an entry into a design with its usual amount, and whether the design has it already. A
/// starting ingredient goes into none.
pub fn use_edit(pantry: &Pantry, design: &Design, kind: EntryKind, key: &str) -> Option<(Edit, bool)> {
    let add = |shelf, amount| Edit::Add(shelf, key.to_owned(), amount);
    let mean = |(low, high): (f64, f64)| 0.5 * (low + high);
    let there = design.snapshot.entry(kind, key).is_some();
    let edit = match kind {
        EntryKind::Base => Edit::Swap(LineKind::Bases, 0, key.to_owned()),
        EntryKind::Sugar => add(LineKind::Sugars, mean(find(&pantry.sugars, key)?.usual)),
        EntryKind::Thickener => add(LineKind::Thickeners, mean(find(&pantry.thickeners, key)?.usual)),
        EntryKind::Additive => add(LineKind::Additives, mean(find(&pantry.additives, key)?.usual)),
        EntryKind::Culture => add(LineKind::Cultures, 1.0),
        EntryKind::Vessel => Edit::Vessel(key.to_owned()),
        EntryKind::Warmer => Edit::Warmer(key.to_owned()),
        EntryKind::Raw => return None,
    };
    Some((edit, there))
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::assets;
    use potset_doc::own::OwnEdit;

    #[test]
    fn the_page_tells_figures_in_words_and_where_it_is_used() {
        let pantry = assets::pantry().unwrap();
        let design = assets::demo("coconut-pot.ron").unwrap();
        let key = design.bases[0].entry.clone();
        let seen = [Place { name: "Other", place: "other.ron", design: &design }];
        let page = Page::of(&pantry, &OwnPantry::default(), (EntryKind::Base, &key), &design, &seen).unwrap();
        assert!(!page.own && page.differs.is_none());
        assert_eq!(page.used.len(), 2);
        assert!(page.used[0].contains("the design that is open") && page.used[1].contains("other.ron"));
        let fat = page.figures.iter().find(|f| f.path == "composition.fat").unwrap();
        assert_eq!(fat.number.name, "fat");
        assert!(page.figures.iter().all(|f| !f.number.name.contains('_') && !f.number.source.is_empty()));
        assert!(page.diet.contains(&"vegan") && page.allergen_words().contains("coconut"));
    }

    #[test]
    fn every_entry_has_a_page_with_facts() {
        let pantry = assets::pantry().unwrap();
        let design = assets::demo("coconut-pot.ron").unwrap();
        for kind in EntryKind::ALL {
            for entry in pantry.entries(kind) {
                let page =
                    Page::of(&pantry, &OwnPantry::default(), (kind, entry.key()), &design, &[]).unwrap();
                assert!(!page.facts.is_empty() && !page.figures.is_empty(), "{}", entry.key());
                assert!(page.figures.iter().all(|f| !f.number.name.ends_with(')')), "{}", entry.key());
                let named: std::collections::BTreeSet<&str> =
                    page.figures.iter().map(|f| f.number.name.as_str()).collect();
                assert_eq!(named.len(), page.figures.len(), "two figures of {} share a name", entry.key());
                assert!(use_edit(&pantry, &design, kind, entry.key()).is_some() != (kind == EntryKind::Raw));
            }
        }
        assert!(Page::of(&pantry, &OwnPantry::default(), (EntryKind::Base, "none"), &design, &[]).is_none());
    }

    #[test]
    fn what_the_designs_copy_has_otherwise_is_told_in_words() {
        let shipped = assets::pantry().unwrap();
        let design = assets::demo("coconut-pot.ron").unwrap();
        let key = design.bases[0].entry.clone();
        let mut now = shipped;
        let base = now.bases.iter_mut().find(|b| b.key == key).unwrap();
        base.composition.fat.value += 1.0;
        base.composition.fat.spread = potset_base::Spread::Exact;
        let page = Page::of(&now, &OwnPantry::default(), (EntryKind::Base, &key), &design, &[]).unwrap();
        let differs = page.differs.unwrap();
        assert_eq!(differs.changes[0].what, "fat");
        // A copy of the maker's own is its own entry and differs from nothing.
        let copy = OwnEdit::Copy(EntryKind::Base, key, "Mine".into());
        let (own, made) = OwnPantry::default().apply(&now, &copy).unwrap();
        let mine = made.unwrap().1;
        let page = Page::of(&own.over(&now), &own, (EntryKind::Base, &mine), &design, &[]).unwrap();
        assert!(page.own && page.used.is_empty() && page.differs.is_none());
    }
}
