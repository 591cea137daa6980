//! The pantry as text: the list of entries, the page of one, the report of a check.

use std::fmt::Write;

use potset_base::units::prose::prose;
use potset_base::{Cited, number};
use potset_catalogue::pantry_check::{Against, Check};
use potset_doc::OwnPantry;
use potset_doc::Pantry;
use potset_doc::pantry::{Entry, EntryKind};

/// All entries by kind, the maker's own marked.
pub fn list(pantry: &Pantry, own: &OwnPantry) -> String {
    let mut out = String::new();
    for kind in EntryKind::ALL {
        let entries = pantry.entries(kind);
        let _ = writeln!(out, "{} ({})", kind.many(), entries.len());
        for entry in entries {
            let mark = if own.owns(kind, entry.key()) { " · your own" } else { "" };
            let _ = writeln!(out, "  {:<34} {}{}{mark}", entry.key(), entry.name(), diet(entry));
        }
    }
    out
}

fn diet(entry: &dyn Entry) -> String {
    let mut words = Vec::new();
    if entry.vegan() == Some(true) {
        words.push("vegan".to_owned());
    }
    if entry.gluten_free() == Some(false) {
        words.push("not gluten-free".to_owned());
    }
    if !entry.allergens().is_empty() {
        words.push(format!("allergens: {}", entry.allergens().join(", ")));
    }
    if words.is_empty() { String::new() } else { format!(" ({})", words.join("; ")) }
}

/// The entries that a name means: the key, the name, or a part of name or alias.
pub fn named<'a>(pantry: &'a Pantry, name: &str) -> Vec<(EntryKind, &'a dyn Entry)> {
    let all: Vec<(EntryKind, &dyn Entry)> = pantry.all().collect();
    let wanted = name.to_lowercase();
    let exact: Vec<_> =
        all.iter().filter(|(_, e)| e.key() == wanted || e.name().to_lowercase() == wanted).copied().collect();
    if !exact.is_empty() {
        return exact;
    }
    let part = |text: &str| text.to_lowercase().contains(&wanted);
    all.into_iter()
        .filter(|(_, e)| part(e.name()) || part(e.key()) || e.aliases().iter().any(|a| part(a)))
        .collect()
}

/// The page of an entry: every figure with its source.
pub fn page(pantry: &Pantry, kind: EntryKind, entry: &dyn Entry) -> String {
    let mut out = format!("{} ({}, {}){}\n", entry.name(), kind.one(), entry.key(), diet(entry));
    if !entry.aliases().is_empty() {
        let _ = writeln!(out, "Also: {}", entry.aliases().join(", "));
    }
    for text in [entry.handling()].into_iter().filter(|t| !t.is_empty()) {
        let _ = writeln!(out, "Handling: {}", prose(text));
    }
    for hazard in entry.hazards() {
        let _ = writeln!(out, "Caution: {}", prose(hazard));
    }
    for (path, cited) in pantry.figures_of(kind, entry.key()) {
        let _ = writeln!(out, "  {path:<38} {}", line(&cited));
    }
    out
}

fn line(cited: &Cited) -> String {
    cited.line()
}

/// The report of a check: counts, what does not close or agree, faults.
pub fn check(found: &Check) -> String {
    let mut out = String::new();
    for (kind, is, least) in &found.counts {
        let mark = if is >= least { "" } else { "  TOO FEW" };
        let _ = writeln!(out, "{:<12} {is:>3} (at least {least}){mark}", kind.many());
    }
    let _ = writeln!(out, "{} cited figures", found.figures);
    against(&mut out, "Water and solids come to 100 g", &found.closures, "g");
    against(&mut out, "Energy by its rule agrees with the stated one", &found.energies, "kcal");
    let held = found.saturates.iter().filter(|b| b.holds()).count();
    let _ = writeln!(
        out,
        "Saturates within what the fat of the kind holds: {held} of {} entries",
        found.saturates.len()
    );
    for b in found.saturates.iter().filter(|b| !b.holds()) {
        let [is, least, most] = [b.is, b.least, b.most].map(|v| number::fixed(v, 2));
        let _ = writeln!(out, "  {}: {is} of the fat, {least} to {most} allowed", b.name);
    }
    for (name, class, misses) in &found.classes {
        let more = if misses.is_empty() { String::new() } else { format!(", misses {misses}") };
        let _ = writeln!(out, "Codex class of {name}: {class}{more}");
    }
    for fault in &found.faults {
        let _ = writeln!(out, "FAULT {fault}");
    }
    let _ = writeln!(out, "{}", if found.passes() { "All in order" } else { "Not in order" });
    out
}

fn against(out: &mut String, what: &str, rows: &[Against], unit: &str) {
    let worst = rows.iter().map(|r| (r.is - r.should).abs()).fold(0.0, f64::max);
    let held = rows.iter().filter(|r| r.holds()).count();
    let _ = writeln!(
        out,
        "{what}: {held} of {} entries, furthest {} {unit}",
        rows.len(),
        number::fixed(worst, 1)
    );
    for row in rows.iter().filter(|r| !r.holds()) {
        let _ = writeln!(
            out,
            "  {}: {} against {} {unit}, {} allowed",
            row.name,
            number::fixed(row.is, 1),
            number::fixed(row.should, 1),
            number::fixed(row.within, 1)
        );
    }
}
