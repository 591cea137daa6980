//! What the sheet says: the readings at a time, and a sentence for each strip.

use crate::kinds::Kind;
use crate::traces::LEAST_SUGAR;
use potset_base::clock::Moment;
use potset_base::number::{NBSP, figures, fixed, plain, with_unit};
use potset_base::sugar::Sugar;
use potset_base::units::said::warmth;
use potset_base::units::{self, WARMTH};
use potset_base::words::ACID_LINE_PH;
use potset_doc::settings::Depth;
use potset_doubt::spread::Spread;
use potset_judge::ready::ReadyTime;
use potset_judge::verdict::Verdict;
use potset_science::forecast::Forecast;

pub const COPY: &str = "Copy the numbers";
pub const EMPTY: &str = "No forecast: see what to mend at the right";
pub const STOP_LINE: &str = "Stop line";

/// Hours of the stop line: quarters are shown whole.
pub fn stop_hours(hours: f64) -> String {
    let tenths = (hours * 10.0).round() / 10.0;
    with_unit(hours, if (tenths - hours).abs() < 1e-6 { 1 } else { 2 }, "h")
}

/// "14.2 h", and the clock time if there is one.
pub fn cursor_time(hours: f64, start: Option<Moment>) -> String {
    let clock = start.map(|start| format!(" · {}", start.after(hours).day_and_time()));
    format!("{}{}", with_unit(hours, 1, "h"), clock.unwrap_or_default())
}

/// "half ready by 17 h, most by 24 h", and that it is of the pot before while that is so.
pub fn ready(ready: &ReadyTime, outdated: bool) -> String {
    let said = potset_report::ready::brief(ready, None);
    if outdated { format!("as it was: {said}") } else { said }
}

/// Between which values 9 of 10 pots lie at a time.
fn between(kind: Kind, spread: &Spread, t_h: f64) -> Option<[String; 2]> {
    let [low, _, _, _, high] = spread.at(kind.curve(), t_h)?;
    let said = |v: f64| match kind {
        Kind::Sourness | Kind::Acid => fixed(v, 2),
        Kind::Texture => figures(v, 2),
        Kind::Sugar | Kind::Culture => fixed(v, 1),
        Kind::Warmth => bare_warmth(v),
    };
    Some([low, high].map(said))
}

/// A warmth without its unit, as it is said here.
pub fn bare_warmth(c: f64) -> String {
    let scale = units::scale(WARMTH);
    fixed(scale.shown(c), scale.decimals(1))
}

/// What most pots do at a time: "usually between 4.0 and 4.6".
pub fn most(kind: Kind, spread: &Spread, t_h: f64) -> Option<String> {
    let [low, high] = between(kind, spread, t_h)?;
    Some(format!("usually between {low} and {high}"))
}

/// Readings with what most pots do, from the longest form to the shortest. The band is that of what is read first, and
/// stands beside it.
pub fn banded(forms: &[String], kind: Kind, spread: &Spread, t_h: f64) -> Option<Vec<String>> {
    let [low, high] = between(kind, spread, t_h)?;
    let (long, short) = (format!("usually between {low} and {high}"), format!("usually {low}–{high}"));
    let mut all: Vec<String> = Vec::new();
    for form in forms {
        let end = [": ", " · "].iter().filter_map(|s| form.find(s)).min().unwrap_or(form.len());
        let (lead, rest) = form.split_at(end);
        let rest = rest.replacen(": ", " · ", 1);
        all.push(format!("{lead} ({long}){rest}"));
        all.push(format!("{lead} ({short}){rest}"));
    }
    // What can be read of the first thing alone comes before the forms that cut names short.
    let lead = |form: &String| form.split(" · ").next().unwrap_or("").to_owned();
    let alone: Vec<String> = all.iter().take(2).map(lead).collect();
    all.splice(2..2, alone);
    Some(all)
}

/// The reading of a strip at a time, from the longest form to the shortest.
pub fn reading(kind: Kind, f: &Forecast, t_h: f64, depth: Depth) -> Vec<String> {
    let at = |ys: &[f64]| f.value(ys, t_h);
    let plain = depth == Depth::Plain;
    match kind {
        // As finely as the answer beside it.
        Kind::Sourness if plain => vec![format!("pH{NBSP}{}", fixed(at(&f.ph), 1))],
        Kind::Sugar if plain => vec![with_unit(at(&f.sugar_total) * f.density, 0, "g/L")],
        Kind::Texture if plain => plain_texture(f, t_h),
        Kind::Sourness => vec![format!("pH{NBSP}{}", fixed(at(&f.ph), 2))],
        Kind::Acid => vec![with_unit(at(&f.acid_made), 2, "%")],
        Kind::Warmth => vec![warmth(at(&f.temperature), 1)],
        Kind::Sugar => sugar(f, t_h),
        Kind::Texture => texture(f, t_h),
        Kind::Culture => culture(f, t_h),
    }
}

fn sugar(f: &Forecast, t_h: f64) -> Vec<String> {
    let all = with_unit(f.value(&f.sugar_total, t_h) * f.density, 1, "g/L");
    let kinds = f.sugars_at(t_h).map(|g_kg| g_kg * f.density);
    let mut there: Vec<(Sugar, f64)> =
        Sugar::ALL.into_iter().zip(kinds).filter(|(_, g)| *g > LEAST_SUGAR).collect();
    there.sort_by(|a, b| b.1.total_cmp(&a.1));
    let part = |(sugar, g): &(Sugar, f64)| format!("{}{NBSP}{}", sugar.name(), fixed(*g, 1));
    let list = |count: usize| there.iter().take(count).map(part).collect::<Vec<_>>().join(" · ");
    let mut forms: Vec<String> = Vec::new();
    if there.len() > 1 {
        forms.push(format!("{all}: {}", list(there.len())));
        forms.extend((1..there.len()).rev().map(|count| format!("{all}: {} …", list(count))));
    }
    forms.push(all);
    forms
}

fn texture(f: &Forecast, t_h: f64) -> Vec<String> {
    let (chilled, warm) = (f.value(&f.chilled.viscosity50, t_h), f.value(&f.warm.viscosity50, t_h));
    let (tomorrow, pot) = (figures(chilled, 2), figures(warm, 2));
    let word = f.textures(t_h).map(|(_, chilled)| format!("{}, ", chilled.word.word())).unwrap_or_default();
    let thin = f.thin_layer(t_h).1;
    let thin = if thin < 1.0 { String::new() } else { format!(" · {}{NBSP}% thin below", fixed(thin, 0)) };
    vec![
        format!("{word}{tomorrow}{NBSP}Pa·s tomorrow · {pot}{NBSP}Pa·s in the pot{thin}"),
        format!("{word}{tomorrow} tomorrow · {pot}{NBSP}Pa·s in the pot{thin}"),
        format!("{word}{tomorrow} tomorrow · {pot}{NBSP}Pa·s in the pot"),
        format!("{tomorrow} tomorrow · {pot}{NBSP}Pa·s in the pot"),
        format!("{tomorrow} · {pot}{NBSP}Pa·s"),
    ]
}

/// "dollops, warm it ribbons".
fn plain_texture(f: &Forecast, t_h: f64) -> Vec<String> {
    let Some((warm, chilled)) = f.textures(t_h) else { return vec!["not known".to_owned()] };
    vec![
        format!("{}; warm, in the jar: {}", chilled.word.word(), warm.word.word()),
        chilled.word.word().to_owned(),
    ]
}

fn culture(f: &Forecast, t_h: f64) -> Vec<String> {
    if f.species.is_empty() {
        return vec!["no culture".to_owned()];
    }
    let named = |name: &dyn Fn(&str) -> String| {
        let part = |species: &potset_science::forecast::Species| {
            let name = name(&species.name);
            format!("{name}{NBSP}{}", fixed(f.value(&species.log10, t_h), 1))
        };
        f.species.iter().map(part).collect::<Vec<_>>()
    };
    // The name without the letter of its genus, then its first letters.
    let own = |name: &str| name.rsplit(". ").next().unwrap_or(name).to_owned();
    let letters = |name: &str| own(name).chars().take(5).collect::<String>() + ".";
    let join = |parts: &[String]| parts.join(" · ");
    let whole = named(&|name| name.replace(' ', "\u{a0}"));
    let (own, letters) = (named(&own), named(&letters));
    let mut forms = vec![join(&whole), join(&own), join(&letters)];
    forms.extend((1..own.len()).rev().map(|count| join(&own[..count]) + " …"));
    forms
}

/// One sentence about a strip, from the start over the stop line to the end.
pub fn sentence(kind: Kind, f: &Forecast, verdict: &Verdict, stop_h: f64) -> String {
    let end = f.t.last().copied().unwrap_or(f.horizon_h);
    let stop = (0.0 < stop_h && stop_h < end).then_some(stop_h);
    let times = || std::iter::once(0.0).chain(stop).chain([end]);
    let run = |ys: &[f64], unit: &str, decimals: usize, factor: f64| {
        let at = |t_h: f64| {
            let value = with_unit(f.value(ys, t_h) * factor, decimals, unit);
            if t_h <= 0.0 { format!("{value} at the start") } else { format!("{value} at {}", h(t_h)) }
        };
        times().map(at).collect::<Vec<_>>().join(", ")
    };
    let body = match kind {
        Kind::Sourness => sourness(f, verdict, stop, end),
        Kind::Acid => run(&f.acid_made, "% as lactic acid", 2, 1.0),
        Kind::Warmth => run(&f.temperature, WARMTH, 1, 1.0),
        Kind::Sugar => {
            let added = if f.added_g_l > LEAST_SUGAR {
                format!("; {} were added", with_unit(f.added_g_l, 1, "g/L"))
            } else {
                String::new()
            };
            run(&f.sugar_total, "g/L", 1, f.density) + &added
        }
        Kind::Texture => {
            let shown = stop.unwrap_or(end);
            let texts = reading(kind, f, shown, Depth::Details);
            format!("{} at {}", texts.first().cloned().unwrap_or_default(), h(shown))
        }
        Kind::Culture => {
            let grown = f.species.iter().map(|species| {
                let at = |t_h: f64| fixed(f.value(&species.log10, t_h), 1);
                format!("{} from {} to {}", species.name, at(0.0), at(stop.unwrap_or(end)))
            });
            let grown = grown.collect::<Vec<_>>().join(", ");
            if grown.is_empty() {
                "none".to_owned()
            } else {
                format!("log cfu/g of {grown} at {}", h(stop.unwrap_or(end)))
            }
        }
    };
    format!("{}: {body}", kind.name())
}

fn sourness(f: &Forecast, verdict: &Verdict, stop: Option<f64>, end: f64) -> String {
    let ph = |t_h: f64| fixed(f.value(&f.ph, t_h), 1);
    let mut parts = vec![format!("pH {} at the start", ph(0.0))];
    let line = verdict.tang.as_ref().and_then(|tang| tang.line_h).filter(|line| *line > 0.0);
    let mut later: Vec<(f64, String)> = line.map(|line| (line, fixed(ACID_LINE_PH, 1))).into_iter().collect();
    later.extend(stop.map(|stop| (stop, ph(stop))));
    later.push((end, ph(end)));
    later.sort_by(|a, b| a.0.total_cmp(&b.0));
    parts.extend(later.into_iter().map(|(t_h, value)| format!("{value} at {}", h(t_h))));
    parts.join(", ")
}

/// Hours to a tenth, without a zero at the end.
fn h(hours: f64) -> String {
    format!("{}{NBSP}h", plain((hours * 10.0).round() / 10.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hours_of_the_stop_line_and_the_cursor() {
        assert_eq!(stop_hours(24.0), "24.0\u{a0}h");
        assert_eq!(stop_hours(24.25), "24.25\u{a0}h");
        let start = Moment::parse("2026-11-26 18:30");
        assert_eq!(cursor_time(15.0, start), "15.0\u{a0}h · Fri 09:30");
    }
}
