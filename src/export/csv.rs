//! The forecast as a table: comma-separated values with units in the head.

use std::borrow::Cow;

use potset_base::Sugar;
use potset_base::constants::{ACETIC_G_MOL, LACTIC_G_MOL};
use potset_doubt::spread::{Curve, EDGES, Spread};
use potset_explain::laboratory::{self, Flow};
use potset_science::forecast::Forecast;

/// The columns that every forecast begins with.
const FIRST: [&str; 6] = [
    "time_h",
    "temperature_c",
    "ph",
    "acid_made_percent",
    "titratable_acidity_percent",
    "undissociated_lactic_mmol_kg",
];

/// The columns that every forecast ends with, the organisms in between. Of the flow: `K γ^n` through 10 and 50 1/s. Firmness:
/// the force on a flat cylinder of 25 mm, pressed 2 mm into the pot as it set, derived from its stiffness.
const LAST: [&str; 21] = [
    "viscosity50_warm_pa_s",
    "viscosity50_chilled_pa_s",
    "stiffness_warm_pa",
    "stiffness_chilled_pa",
    "whey_standing_percent",
    "whey_cut_percent",
    "thin_layer_warm_percent",
    "thin_layer_chilled_percent",
    "whey_centrifuged_percent",
    "viscosity10_warm_pa_s",
    "flow_k_warm_pa_s_n",
    "flow_n_warm",
    "firmness_warm_n",
    "viscosity10_chilled_pa_s",
    "flow_k_chilled_pa_s_n",
    "flow_n_chilled",
    "firmness_chilled_n",
    "titratable_acidity_dornic",
    "titratable_acidity_soxhlet_henkel",
    "titratable_acidity_thorner",
    "titratable_acidity_at_ph_4_6_percent",
];

/// Rows as comma-separated values, one a line: by the crate `csv`. What a spreadsheet would run as a formula gets an apostrophe
/// before it; numbers stay numbers.
pub fn table<T: AsRef<str>>(rows: impl IntoIterator<Item = impl IntoIterator<Item = T>>) -> String {
    let mut out = csv::WriterBuilder::new().flexible(true).from_writer(Vec::new());
    for row in rows {
        // Writing into a list of bytes does not fail.
        let _ = out.write_record(row.into_iter().map(|cell| harmless(cell.as_ref()).into_owned()));
    }
    out.into_inner().ok().and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default()
}

/// Whether a spreadsheet would run a text as a formula, but for apostrophes before it.
fn runs(text: &str) -> bool {
    text.trim_start_matches('\'').starts_with(['=', '+', '-', '@', '\t', '\r'])
}

/// A text that no spreadsheet takes for a formula.
pub fn harmless(text: &str) -> Cow<'_, str> {
    if runs(text) && text.parse::<f64>().is_err() {
        Cow::Owned(format!("'{text}"))
    } else {
        Cow::Borrowed(text)
    }
}

/// The text that was written as a cell by [`harmless`].
pub fn as_written(cell: &str) -> &str {
    cell.strip_prefix('\'').filter(|_| runs(cell)).unwrap_or(cell)
}

/// Whether bytes begin like a forecast that was written here.
pub fn is_forecast(head: &[u8]) -> bool {
    head.starts_with(FIRST.join(",").as_bytes())
}

/// Times every `step_h` hours up to `to_h`.
pub fn times(step_h: f64, to_h: f64) -> Vec<f64> {
    let steps = (to_h / step_h + 1e-9).floor() as usize;
    (0..=steps).map(|i| i as f64 * step_h).collect()
}

/// The forecast, a line for each of `times`. Numbers with six significant figures at most.
///
/// A time that is none of the forecast's own is read on the straight line between the points beside it.
///
/// - `acidity_at_line` — titratable acidity where the pot stands at pH 4.6, % lactic acid: one figure for all lines.
///
/// With a spread there follow, on each line, the edges of every band (`ph_p05` to `ph_p95`: so many % of the pots lie
/// below) and the chance that each goal holds, 0 to 1.
pub fn forecast(f: &Forecast, acidity_at_line: f64, spread: Option<&Spread>, times: &[f64]) -> String {
    let mut names = header(f);
    names.extend(spread.map_or_else(Vec::new, |s| spread_header(s, f)));
    let lines = times.iter().map(|t| {
        let mut values = line(f, acidity_at_line, *t);
        values.extend(spread.map_or_else(Vec::new, |s| spread_line(s, *t)));
        // Rounded so that the last bits of a platform do not show.
        values.into_iter().map(|v| rounded(v).to_string()).collect::<Vec<_>>()
    });
    table(std::iter::once(names).chain(lines))
}

/// Name of a band's column without its edge.
fn band_name(curve: Curve, f: &Forecast) -> String {
    match curve {
        Curve::Warmth => "temperature_c",
        Curve::Ph => "ph",
        Curve::AcidMade => "acid_made_percent",
        Curve::Tang => "undissociated_lactic_mmol_kg",
        Curve::Sugar => "sugar_g_l",
        Curve::Chilled => "viscosity50_chilled_pa_s",
        Curve::InPot => "viscosity50_warm_pa_s",
        Curve::Stiffness => "stiffness_chilled_pa",
        Curve::Whey => "whey_standing_percent",
        Curve::ThinLayer => "thin_layer_chilled_percent",
        Curve::Count(i) => {
            let key = f.species.get(i).map_or("", |s| s.key.as_str());
            return format!("count_log10_{key}");
        }
    }
    .to_owned()
}

fn spread_header(s: &Spread, f: &Forecast) -> Vec<String> {
    let mut names = Vec::new();
    for band in &s.bands {
        let name = band_name(band.curve, f);
        names.extend(EDGES.iter().map(|edge| format!("{name}_p{:02.0}", edge * 100.0)));
    }
    names.extend((1..=s.goals.len()).map(|k| format!("chance_goal_{k}")));
    names.push("chance_all_goals".to_owned());
    names
}

fn spread_line(s: &Spread, t: f64) -> Vec<f64> {
    let at = |ys: &[f64]| s.value(ys, t);
    let mut values: Vec<f64> = s.bands.iter().flat_map(|b| b.edges.each_ref().map(|ys| at(ys))).collect();
    values.extend(s.goals.iter().map(|g| at(&g.share)));
    values.push(at(&s.all));
    values
}

fn header(f: &Forecast) -> Vec<String> {
    let mut names: Vec<String> = FIRST.map(str::to_owned).to_vec();
    names.extend(Sugar::ALL.map(|s| format!("{}_g_kg", s.name())));
    names.extend(["lactic_g_kg", "acetic_g_kg"].map(str::to_owned));
    names.extend(f.species.iter().map(|s| format!("count_log10_{}", s.key)));
    names.extend(LAST.map(str::to_owned));
    names
}

fn line(f: &Forecast, acidity_at_line: f64, t: f64) -> Vec<f64> {
    let at = |ys: &[f64]| f.value(ys, t);
    let mut values =
        vec![t, at(&f.temperature), at(&f.ph), at(&f.acid_made), at(&f.titratable), at(&f.undissociated)];
    values.extend(f.sugars_at(t));
    values.extend([at(&f.lactic) * LACTIC_G_MOL * 1e-3, at(&f.acetic) * ACETIC_G_MOL * 1e-3]);
    values.extend(f.species.iter().map(|s| at(&s.log10)));
    let whey = f.whey(t);
    let thin = f.thin_layer(t);
    values.extend([
        at(&f.warm.viscosity50),
        at(&f.chilled.viscosity50),
        at(&f.warm.stiffness_pa),
        at(&f.chilled.stiffness_pa),
        whey.standing,
        whey.cut,
        thin.0,
        thin.1,
    ]);
    if let Some(report) = laboratory::report(f, t) {
        values.push(report.whey_centrifuged);
        for Flow { viscosity10, law, firmness_n } in [report.warm, report.chilled] {
            values.extend([viscosity10, law.k, law.n, firmness_n]);
        }
        values.extend(report.degrees);
        values.push(acidity_at_line);
    }
    values
}

/// A value to six significant figures, as the shortest text.
fn rounded(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    let scale = 10.0_f64.powf(5.0 - value.abs().log10().floor());
    if scale.is_finite() { (value * scale).round() / scale } else { value }
}

#[cfg(test)]
mod tests {
    use super::table;

    #[test]
    fn a_formula_becomes_a_text_and_a_number_stays_one() {
        for (text, written) in [
            ("=HYPERLINK(1)", "'=HYPERLINK(1)"),
            ("=SUM(A1,A2)", "\"'=SUM(A1,A2)\""),
            ("+1-cmd", "'+1-cmd"),
            ("-2+3", "'-2+3"),
            ("@now", "'@now"),
            ("\t=1", "'\t=1"),
            ("-0.25", "-0.25"),
            ("+1e3", "+1e3"),
            ("oat, \"fine\"", "\"oat, \"\"fine\"\"\""),
            ("a\rb", "\"a\rb\""),
            ("", ""),
        ] {
            assert_eq!(table([[text, "1"]]), format!("{written},1\n"));
        }
        assert_eq!(table([vec!["a", "b"], vec!["c"]]), "a,b\nc\n");
    }
}
