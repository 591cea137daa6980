//! A label in words: what it says, what was inferred and how sure, warnings, class, and the lines that were not understood.

use potset_base::{Severity, number};
use potset_catalogue::label::LabelStudy;
use potset_doc::label::{Basis, LabelReading, Nutrient, ingredient_words};

/// The whole report.
pub fn words(label: &LabelReading, study: &LabelStudy) -> String {
    let mut lines = Vec::new();
    says(label, &mut lines);
    inferred(study, &mut lines);
    coconut(study, &mut lines);
    warnings(study, &mut lines);
    unread(label, &mut lines);
    lines.push("Advice, not permission: follow local codes.".to_owned());
    lines.join("\n") + "\n"
}

fn section(lines: &mut Vec<String>, title: &str) {
    if !lines.is_empty() {
        lines.push(String::new());
    }
    lines.push(title.to_owned());
}

fn says(label: &LabelReading, lines: &mut Vec<String>) {
    section(lines, "What the label says");
    if let Some(name) = &label.name {
        lines.push(format!("  name: {name}"));
    }
    lines.push(format!("  figures: {}", label.basis.words()));
    let converts = matches!(label.basis, Basis::Serving(_));
    for nutrient in Nutrient::ALL {
        let Some(figure) = label.figure(nutrient) else { continue };
        let unit = nutrient.unit();
        let amount = figure.amount.words(unit);
        let per = label.per_100(nutrient).filter(|_| converts).map_or_else(String::new, |v| {
            let what = if label.by_volume() { "100 mL" } else { "100 g" };
            let bounds = label.bounds_per_100(nutrient).filter(|(low, high)| low < high);
            let bounds = bounds.map_or_else(String::new, |(low, high)| {
                format!(", by its rounding {} to {}", number::figures(low, 2), number::figures(high, 2))
            });
            format!(", worked out: {} {unit} in {what}{bounds}", number::figures(v, 3))
        });
        lines.push(format!("  {}: {amount}{per} (line {})", nutrient.words(), figure.line));
    }
    if !label.ingredients.is_empty() {
        let list: Vec<String> = label.ingredients.iter().map(ingredient_words).collect();
        lines.push(format!("  ingredients: {}", list.join(", ")));
    }
    for (what, list) in [("contains", &label.contains), ("may contain", &label.may_contain)] {
        if !list.is_empty() {
            lines.push(format!("  {what}: {}", list.join(", ")));
        }
    }
}

fn inferred(study: &LabelStudy, lines: &mut Vec<String>) {
    section(lines, "What was inferred");
    lines.push(format!("  kind: {}", study.kind_words()));
    if let Some(entry) = &study.entry {
        lines.push(format!("  nearest base: {} ({}: {})", entry.name, entry.sure.words(), entry.why));
    } else if study.kind.is_some() {
        lines.push("  nearest base: the pantry has none of this kind".to_owned());
    }
    for value in study.values.iter().filter(|v| !v.stated) {
        let how = if value.worked.is_empty() {
            "filled in from the nearest base, with twice its range"
        } else {
            value.worked.as_str()
        };
        lines.push(format!(
            "  {}: {} g in 100 g, {} to {} (not on the label; {how})",
            value.nutrient.words(),
            number::figures(value.value, 2),
            number::figures(value.low, 2),
            number::figures(value.high, 2)
        ));
    }
    if study.impossible {
        lines.push("  nothing is filled in: a figure of the label cannot be true".to_owned());
    }
    if let Some(extract) = study.extract {
        lines.push(format!("  declared share of the base: {} %", number::plain(extract)));
    }
    if !study.thickening.is_empty() {
        lines.push(format!("  thickens already: {}", study.thickening.join(", ")));
    }
    match &study.against {
        Some(Ok(difference)) => {
            lines.push(format!("  the pot: {}", difference.sentence()));
            if !study.left_out.is_empty() {
                lines.push(format!(
                    "  not in this forecast, because no amount is known: {}",
                    study.left_out.join(", ")
                ));
            }
        }
        Some(Err(why)) => lines.push(format!("  the pot: no forecast. {why}")),
        None => {}
    }
}

fn coconut(study: &LabelStudy, lines: &mut Vec<String>) {
    let (Some(share), Some(placed)) = (study.cream_words(), &study.class) else { return };
    section(lines, "As a coconut product");
    let sure = if placed.borderline { ", borderline" } else { "" };
    let misses =
        if placed.misses.is_empty() { String::new() } else { format!("; it misses {}", placed.misses) };
    lines.push(format!("  class by Codex CXS 240: {}{sure}{misses}", placed.class));
    for m in &placed.margins {
        lines.push(format!(
            "  {}: {} against {}, margin {}",
            m.what,
            number::fixed(m.has, 2),
            number::fixed(m.limit, 1),
            number::fixed(m.by, 2)
        ));
    }
    lines.push(format!("  ({})", placed.how()));
    lines.push(format!("  cream share: {share}"));
}

fn warnings(study: &LabelStudy, lines: &mut Vec<String>) {
    if study.notes.is_empty() {
        return;
    }
    section(lines, "Warnings");
    for note in &study.notes {
        let mark = match note.severity {
            Severity::Tip => "tip",
            Severity::Watch => "watch",
            Severity::Stop | Severity::Error => "stop",
        };
        lines.push(format!("  {mark}: {}", note.line()));
    }
}

fn unread(label: &LabelReading, lines: &mut Vec<String>) {
    if label.unread.is_empty() {
        section(lines, "Every line was understood.");
        return;
    }
    section(lines, "Lines not understood, or not wholly");
    for line in &label.unread {
        lines.push(format!("  {}: {}", line.number, line.text));
    }
}
