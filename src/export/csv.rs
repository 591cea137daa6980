//! The forecast as a table: comma-separated values with units in the head.

use std::fmt::Write;

use crate::base::Sugar;
use crate::base::constants::{ACETIC_G_MOL, LACTIC_G_MOL};
use crate::science::forecast::Forecast;

/// The forecast every `step_h` hours up to `to_h`, one line a time. Numbers with six significant figures at most.
#[must_use]
pub fn forecast(f: &Forecast, step_h: f64, to_h: f64) -> String {
    let mut out = header(f);
    let steps = (to_h / step_h + 1e-9).floor() as usize;
    for i in 0..=steps {
        line(f, i as f64 * step_h, &mut out);
    }
    out
}

fn header(f: &Forecast) -> String {
    let mut names: Vec<String> = [
        "time_h",
        "temperature_c",
        "ph",
        "acid_made_percent",
        "titratable_acidity_percent",
        "undissociated_lactic_mmol_kg",
    ]
    .map(str::to_owned)
    .to_vec();
    names.extend(Sugar::ALL.map(|s| format!("{}_g_kg", s.name())));
    names.extend(["lactic_g_kg", "acetic_g_kg"].map(str::to_owned));
    names.extend(f.species.iter().map(|s| format!("count_log10_{}", s.key)));
    names.extend(
        [
            "viscosity50_warm_pa_s",
            "viscosity50_chilled_pa_s",
            "stiffness_warm_pa",
            "stiffness_chilled_pa",
            "whey_standing_percent",
            "whey_cut_percent",
        ]
        .map(str::to_owned),
    );
    names.join(",") + "\n"
}

fn line(f: &Forecast, t: f64, out: &mut String) {
    let at = |ys: &[f64]| f.value(ys, t);
    let mut values =
        vec![t, at(&f.temperature), at(&f.ph), at(&f.acid_made), at(&f.titratable), at(&f.undissociated)];
    values.extend(f.sugars_at(t));
    values.extend([at(&f.lactic) * LACTIC_G_MOL * 1e-3, at(&f.acetic) * ACETIC_G_MOL * 1e-3]);
    values.extend(f.species.iter().map(|s| at(&s.log10)));
    let whey = f.whey(t);
    values.extend([
        at(&f.warm.viscosity50),
        at(&f.chilled.viscosity50),
        at(&f.warm.stiffness_pa),
        at(&f.chilled.stiffness_pa),
        whey.standing,
        whey.cut,
    ]);
    for (i, value) in values.iter().enumerate() {
        if i > 0 {
            out.push(',');
        }
        // Rounded so that the last bits of a platform do not show.
        let _ = write!(out, "{}", rounded(*value));
    }
    out.push('\n');
}

/// A value to six significant figures, as the shortest text.
fn rounded(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    let scale = 10.0_f64.powf(5.0 - value.abs().log10().floor());
    if scale.is_finite() { (value * scale).round() / scale } else { value }
}
