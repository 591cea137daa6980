//! The report on published cases as text and as a table.

use std::collections::BTreeSet;
use std::fmt::Write;

use super::csv::table;
use potset_base::{SourceKind, number};
use potset_evidence::evidence::{
    BandRow, Cover, FittedFactor, MISS, Outcome, Report, Row, Summary, Transfer, rms,
};

/// z-value of the 95 % bound.
const Z95: f64 = 1.644_853_6;

/// The whole report in words: every reading, the summary by kind, the misses, what was fitted, and the source kinds.
pub fn words(report: &Report<'_>, summary: &Summary, kinds: &([usize; 6], [usize; 6])) -> String {
    let mut out = report_text(report, summary, false);
    out += &sources(kinds);
    out
}

/// The report on cases that do not ship: each with its citation and what was assumed; then summary, misses and fitted
/// values.
pub fn own(report: &Report<'_>, summary: &Summary) -> String {
    report_text(report, summary, true) + &as_measured(report)
}

/// Fitted paces and lags as they can be given to a culture of a design; nothing where none was fitted.
fn as_measured(report: &Report<'_>) -> String {
    let mut out = String::new();
    for group in &report.fitted {
        let figure = |what: FittedFactor| {
            let value = group.values.iter().find(|value| value.what == what)?;
            let (v, times) = (number::fixed(value.factor * value.said, 2), value.sigma.exp());
            Some(format!("{} {v} ×/÷ {}", what.words(), number::fixed(times.powf(Z95), 2)))
        };
        let all: Vec<String> =
            [FittedFactor::Speed, FittedFactor::Lag].into_iter().filter_map(figure).collect();
        if !all.is_empty() {
            let _ = writeln!(out, "  {:<24} {}", group.shared, all.join(", "));
        }
    }
    if out.is_empty() {
        return out;
    }
    format!(
        "To give under Measured of a culture; ×/÷ is how well the readings tell it, if the model is right:\n{out}\n"
    )
}

fn report_text(report: &Report<'_>, summary: &Summary, long: bool) -> String {
    let mut out = String::new();
    for i in 0..report.cases.len() {
        out += &case(report, i, long);
    }
    out += &by_kind(summary);
    out += &misses(report);
    out += &fitted(report);
    out
}

/// One case: its head and its readings; `long` adds the citation and what was assumed.
pub fn case(report: &Report<'_>, i: usize, long: bool) -> String {
    let Some((case, outcome)) = report.cases.get(i) else { return String::new() };
    let mut out = format!("{} · {} · {}\n", case.key, case.name, case.kind.words());
    if long {
        let (read, mark) = (case.read.words(), case.mark().words());
        let _ = writeln!(out, "  {}; {read}; {mark}\n  assumed: {}", case.citation, case.assumed);
    }
    match outcome {
        Outcome::Rows(rows) => {
            rows.iter().for_each(|row| out += &line(row));
            if let (true, Some(rms)) = (long, rms(rows.iter(), 0)) {
                let _ =
                    writeln!(out, "  root mean square {} scatters, nothing taken off", number::fixed(rms, 2));
            }
        }
        Outcome::Waits(entry) => {
            let _ = writeln!(out, "  waits for {entry} in the pantry");
        }
        Outcome::Failed(note) => {
            let _ = writeln!(out, "  could not be run: {}", note.line());
        }
    }
    out.push('\n');
    out
}

fn figure(v: Option<f64>) -> String {
    v.map_or_else(|| "never".to_owned(), |v| number::figures(v, 4))
}

fn line(row: &Row) -> String {
    let scatter = number::figures(row.scatter, 2);
    let scatter = if row.by_factor { format!("×/÷ {scatter}") } else { format!("± {scatter}") };
    format!(
        "  {:<40} {:>9} {:<11} forecast {:>9}  {:<12} {:>6}  {}{}\n",
        row.what,
        number::figures(row.measured, 4),
        row.unit,
        figure(row.forecast),
        scatter,
        number::fixed(row.difference, 1),
        row.standing.words(),
        if row.miss() { "  MISS" } else { "" },
    )
}

/// The summary by kind of case, and how many cases set shared parameters.
pub fn by_kind(summary: &Summary) -> String {
    let mut out = format!(
        "{:<20} {:>5} {:>8} {:>6} {:>7} {:>6} {:>5}  {:>11} {:>11} {:>11}\n",
        "kind", "cases", "readings", "fitted", "freedom", "misses", "rms", "calibrate", "seen", "check"
    );
    for kind in &summary.kinds {
        let _ = write!(
            out,
            "{:<20} {:>5} {:>8} {:>6} {:>7} {:>6} {:>5} ",
            kind.kind.words(),
            kind.cases,
            kind.whole.readings,
            kind.whole.fitted,
            kind.whole.freedom(),
            kind.misses,
            figure_or_dash(kind.whole.rms),
        );
        for part in &kind.marks {
            let _ = write!(out, " {:>11}", format!("{} ({})", figure_or_dash(part.rms), part.readings));
        }
        out.push('\n');
    }
    let [calibrate, seen, check] = summary.by_mark;
    let _ = writeln!(
        out,
        "rms: root mean square difference in scatters, fitted values taken off; none for three readings or fewer.\n\
         The last three columns: rms and, in brackets, readings of the cases that set shared parameters; of those that\n\
         set none, but were looked at while a figure was chosen; of those that were not looked at.\n\
         {} cases ran: {calibrate} helped to set shared parameters, {seen} were seen, {check} only check. {} wait for an\n\
         entry of the pantry, {} failed.\n",
        summary.ran, summary.waiting, summary.failed
    );
    out
}

/// The same in a few columns, as a table of Markdown: what *Numbers* shows.
pub fn headline(summary: &Summary) -> String {
    let mut out = "| kind | readings | misses | set figures | seen | only check |\n\
                   | :-- | --: | --: | --: | --: | --: |\n"
        .to_owned();
    for kind in &summary.kinds {
        let marks = kind.marks.map(|part| match part.readings {
            0 => String::new(),
            n => format!("{} ({n})", figure_or_dash(part.rms)),
        });
        let (name, readings) = (kind.kind.words(), kind.whole.readings);
        let _ = writeln!(out, "| {name} | {readings} | {} | {} |", kind.misses, marks.join(" | "));
    }
    out
}

fn figure_or_dash(rms: Option<f64>) -> String {
    rms.map_or_else(|| "–".to_owned(), |rms| number::fixed(rms, 2))
}

/// Every miss, worst first.
pub fn misses(report: &Report<'_>) -> String {
    let mut all: Vec<(&str, &Row)> = report
        .cases
        .iter()
        .filter_map(|(case, outcome)| match outcome {
            Outcome::Rows(rows) => Some((case.key.as_str(), rows)),
            _ => None,
        })
        .flat_map(|(key, rows)| rows.iter().filter(|row| row.miss()).map(move |row| (key, row)))
        .collect();
    all.sort_by(|a, b| b.1.difference.abs().total_cmp(&a.1.difference.abs()));
    let mut out = format!("{} misses, beyond {} scatters:\n", all.len(), number::plain(MISS));
    for (key, row) in all {
        let _ = writeln!(
            out,
            "  {:<32} {:<40} {:>9}, forecast {:>9} {:<11} {:>6}",
            key,
            row.what,
            number::figures(row.measured, 4),
            figure(row.forecast),
            row.unit,
            number::fixed(row.difference, 1),
        );
    }
    out.push('\n');
    out
}

/// What was fitted, with the spread before and after.
pub fn fitted(report: &Report<'_>) -> String {
    let count: usize = report.fitted.iter().map(|f| f.values.len()).sum();
    let mut out = format!("{count} values fitted, as factors on what the case says:\n");
    for group in &report.fitted {
        for value in &group.values {
            let _ = writeln!(
                out,
                "  {:<24} {:<7} {:>6}  ×/÷ {} (before any reading ×/÷ {})",
                group.shared,
                value.what.words(),
                number::fixed(value.factor, 2),
                number::fixed(value.sigma.exp(), 2),
                number::fixed(value.prior_sigma.exp(), 2),
            );
        }
    }
    out.push('\n');
    out
}

/// The bands of drawn pots: the shares by kind; with `long`, every reading with its band before them.
pub fn bands(cover: &Cover<'_>, long: bool) -> String {
    let mut out = String::new();
    for (case, rows) in cover.cases.iter().filter(|_| long) {
        let _ = writeln!(out, "{} · {} · {}", case.key, case.name, case.kind.words());
        match rows {
            Ok(rows) => rows.iter().for_each(|row| out += &band(row)),
            Err(note) => {
                let _ = writeln!(out, "  could not be drawn: {}", note.line());
            }
        }
        out.push('\n');
    }
    let _ = writeln!(
        out,
        "{:<20} {:>8} {:>6} {:>6} {:>6} {:>6} {:>6}",
        "kind", "readings", "inside", "share", "place", "spread", "width"
    );
    for kind in cover.kinds() {
        let _ = writeln!(
            out,
            "{:<20} {:>8} {:>6} {:>4} % {:>6} {:>6} {:>6}",
            kind.kind.words(),
            kind.readings,
            kind.inside,
            number::fixed(100.0 * kind.inside as f64 / kind.readings as f64, 0),
            number::fixed(kind.place[0], 2),
            number::fixed(kind.place[1], 2),
            number::fixed(kind.width, 1),
        );
    }
    let _ = writeln!(
        out,
        "inside: in the band of 5 to 95 % of {} drawn pots of each case, nothing fitted, each with its reading's scatter;\n         place: mean share of drawn readings below the measured one, 0.5 where the middle is right; spread: of the places,\n         0.29 where the bands are as wide as they should be, less where too wide; width: of the band over the reading's own.",
        cover.pots
    );
    out
}

/// What learning from one published pot does to the forecasts of the others of its paper, a line a pair.
pub fn transfers(all: &[Transfer]) -> String {
    let mut out = String::new();
    let (mut better, mut before, mut after, mut readings) = (0, 0.0, 0.0, 0);
    for shared in all.iter().map(|t| t.shared.as_str()).collect::<BTreeSet<_>>() {
        let _ = writeln!(out, "{shared}");
        for t in all.iter().filter(|t| t.shared == shared) {
            let rms = |v: f64| number::fixed(v, 2);
            let _ = write!(
                out,
                "  {:<34} after {:<34} {:>2} readings, off by {} scatters, without {}",
                t.to,
                t.from,
                t.readings,
                rms(t.after),
                rms(t.before)
            );
            if let Some((ph, [read, without, with])) = t.hours {
                let _ = write!(
                    out,
                    "; pH {} read at {} h, forecast {} h, without {} h",
                    number::fixed(ph, 1),
                    number::fixed(read, 2),
                    number::fixed(with, 2),
                    number::fixed(without, 2)
                );
            }
            out.push('\n');
            better += usize::from(t.after < t.before - 0.005);
            before += t.readings as f64 * t.before * t.before;
            after += t.readings as f64 * t.after * t.after;
            readings += t.readings;
        }
    }
    let whole = |sum: f64| number::fixed((sum / readings.max(1) as f64).sqrt(), 2);
    let _ = writeln!(
        out,
        "better in {better} of {} pairs; all readings together off by {} scatters after one other pot, without {}",
        all.len(),
        whole(after),
        whole(before)
    );
    out
}

fn band(row: &BandRow) -> String {
    let [low, middle, high] =
        row.band.map(|v| if v.is_finite() { number::figures(v, 3) } else { "never".to_owned() });
    format!(
        "  {:<40} {:>9} {:<11} band {low:>8} {middle:>8} {high:>8}  place {:>5}{}\n",
        row.what,
        number::figures(row.measured, 4),
        row.unit,
        number::fixed(row.place, 2),
        if row.inside() { "" } else { "  OUTSIDE" },
    )
}

/// Share of each kind of source over the parameters and the pantry.
pub fn sources((parameters, pantry): &([usize; 6], [usize; 6])) -> String {
    let total = |kinds: &[usize; 6]| kinds.iter().sum::<usize>();
    let share = |n: usize, of: usize| format!("{} %", number::fixed(100.0 * n as f64 / of.max(1) as f64, 0));
    let mut out =
        format!("{:<20} {:>16} {:>16} {:>16}\n", "source of numbers", "parameters", "pantry", "all");
    let (p, q) = (total(parameters), total(pantry));
    for (i, kind) in SourceKind::SHIPPED.into_iter().enumerate() {
        let cell = |n: usize, of: usize| format!("{n} ({})", share(n, of));
        let _ = writeln!(
            out,
            "{:<20} {:>16} {:>16} {:>16}",
            kind.words(),
            cell(parameters[i], p),
            cell(pantry[i], q),
            cell(parameters[i] + pantry[i], p + q),
        );
    }
    let _ = writeln!(out, "{:<20} {p:>16} {q:>16} {:>16}", "in all", p + q);
    out
}

/// Every reading as comma-separated values.
pub fn csv(report: &Report<'_>) -> String {
    let head = [
        "case",
        "kind",
        "role",
        "what",
        "unit",
        "measured",
        "forecast",
        "scatter",
        "scatter_source",
        "difference_scatters",
        "standing",
        "miss",
    ];
    let mut lines = vec![head.map(str::to_owned)];
    for (case, outcome) in &report.cases {
        let Outcome::Rows(rows) = outcome else { continue };
        lines.extend(rows.iter().map(|row| {
            [
                case.key.clone(),
                case.kind.words().to_owned(),
                case.mark().word().to_owned(),
                row.what.clone(),
                row.unit.to_owned(),
                row.measured.to_string(),
                row.forecast.map_or_else(String::new, |f| format!("{f:.4}")),
                format!("{}{}", if row.by_factor { "x" } else { "" }, row.scatter),
                row.scatter_kind.words().to_owned(),
                format!("{:.2}", row.difference),
                row.standing.words().to_owned(),
                if row.miss() { "yes" } else { "no" }.to_owned(),
            ]
        }));
    }
    table(lines)
}
