//! Whether the day or the month stands first: by the numbers themselves, else by the order of the rows.

use super::Table;
use super::shape::Shape;
use crate::layout::{DayOrder, Decimal, Role};
use crate::time::{self, When};

/// How a file looks in an order: dates that do not exist, steps back in time, the longest step, s. Less is better.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
struct Looks {
    wrong: usize,
    back: usize,
    longest: f64,
}

/// The order of day and month, and whether the file settles it.
pub fn order(table: &Table, roles: &[Role]) -> (DayOrder, bool) {
    let Some(at) = roles.iter().position(|role| matches!(role, Role::Time | Role::Day)) else {
        return (DayOrder::default(), true);
    };
    let cells: Vec<&str> = (table.column(at))
        .filter(|(_, shape)| matches!(shape, Shape::Moment | Shape::Day))
        .map(|(cell, _)| cell)
        .collect();
    let looks = |order: DayOrder| looks(&cells, order);
    let found = DayOrder::ALL.map(|order| (order, looks(order)));
    let first = |a: &(DayOrder, Looks), b: &(DayOrder, Looks)| {
        a.1.partial_cmp(&b.1).unwrap_or(std::cmp::Ordering::Equal)
    };
    let best = found.into_iter().min_by(first).unwrap_or(found[0]);
    // A year of two digits that stands first is followed by a dash.
    let dashed = cells.iter().all(|cell| cell.contains('-'));
    let may = |order: DayOrder| order != best.0 && (order != DayOrder::YearFirst || dashed);
    let doubted = (found.iter())
        .any(|(order, looks)| may(*order) && alike(looks, &best.1) && differ(&cells, *order, best.0));
    if !doubted {
        return (best.0, true);
    }
    // Points part days that come first; slashes beside "AM" or "PM" months. Common practice.
    let dotted = cells.iter().all(|cell| cell.contains('.') && !cell.contains('/'));
    let halves = cells.iter().any(|cell| cell.to_lowercase().ends_with('m'));
    match (dotted, halves) {
        (true, _) => (DayOrder::DayFirst, true),
        (_, true) => (DayOrder::MonthFirst, false),
        _ => (DayOrder::DayFirst, false),
    }
}

/// Whether the longest steps are of one size: neither is twice the other.
fn alike(a: &Looks, b: &Looks) -> bool {
    let near = a.longest.max(b.longest) <= 2.0 * a.longest.min(b.longest).max(1.0);
    a.wrong == b.wrong && a.back == b.back && near
}

fn at(cell: &str, order: DayOrder) -> Option<f64> {
    match time::moment(cell, order, Decimal::Point) {
        Ok(When::World(at) | When::Local(at)) => Some(at),
        Err(_) => None,
    }
}

fn differ(cells: &[&str], a: DayOrder, b: DayOrder) -> bool {
    cells.iter().any(|cell| at(cell, a) != at(cell, b))
}

fn looks(cells: &[&str], order: DayOrder) -> Looks {
    let times: Vec<f64> = cells.iter().filter_map(|cell| at(cell, order)).collect();
    let steps = || times.windows(2).map(|pair| pair[1] - pair[0]);
    let (back, on) = (steps().filter(|step| *step < 0.0).count(), steps().filter(|step| *step > 0.0).count());
    Looks {
        wrong: cells.len() - times.len(),
        // The newest may stand first.
        back: back.min(on),
        longest: steps().map(f64::abs).fold(0.0, f64::max),
    }
}
