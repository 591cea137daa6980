//! Worked and published checks: what a source says, beside what the program computes.
//!
//! Every row names its source in the comment above it. The tolerance is the source's own scatter or the digits that it
//! prints. What the program misses stays in the table as a known miss with its size: it is asserted too, so that a
//! change for the better or the worse is seen, and no tolerance is widened to hide it.

use potset_base::number::figures;

mod acid_base;
mod additions;
mod denaturation;
mod keeping;
mod kinetics;
mod separation;
mod taste;
mod texture;
mod thermal;

/// A row: what, the forecast, and the range that the source gives.
struct Row {
    what: String,
    got: f64,
    low: f64,
    high: f64,
    /// The forecast when the miss was found.
    missed_at: Option<f64>,
}

/// A row that must be inside `want ± within`.
fn near(what: impl Into<String>, got: f64, want: f64, within: f64) -> Row {
    inside(what, got, want - within, want + within)
}

/// A row that must be inside a range.
fn inside(what: impl Into<String>, got: f64, low: f64, high: f64) -> Row {
    Row { what: what.into(), got, low, high, missed_at: None }
}

impl Row {
    /// The program is known to miss this; it forecasts `at`.
    fn missed_at(mut self, at: f64) -> Self {
        self.missed_at = Some(at);
        self
    }

    fn fault(&self) -> Option<String> {
        let hit = self.got >= self.low && self.got <= self.high;
        match self.missed_at {
            None if !hit => Some(format!("{} is missed", self.what)),
            Some(_) if hit => Some(format!("{} is met now: take the miss off the list", self.what)),
            Some(at) if (self.got - at).abs() > 0.02 * at.abs() => {
                Some(format!("{} is missed by another amount than {at}", self.what))
            }
            _ => None,
        }
    }
}

/// Prints the table and stops at what is neither met nor a known miss.
fn table(title: &str, rows: &[Row]) {
    println!("{title}\n  {:<62} {:>10}   {:>22}", "what", "forecast", "source");
    for row in rows {
        let range = format!("{} to {}", figures(row.low, 4), figures(row.high, 4));
        let mark = match row.missed_at {
            Some(_) => "known miss",
            None if row.fault().is_some() => "MISSED",
            None => "",
        };
        println!("  {:<62} {:>10}   {range:>22}  {mark}", row.what, figures(row.got, 4));
    }
    let faults: Vec<String> = rows.iter().filter_map(Row::fault).collect();
    assert!(faults.is_empty(), "{title}: {}", faults.join("; "));
}
