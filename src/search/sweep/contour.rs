//! Contour lines of a grid: marching squares with straight lines between the points of a square.

use std::collections::{BTreeMap, BTreeSet};

/// A line in places of the grid: (column, row). A closed one ends where it begins.
pub type Line = Vec<(f64, f64)>;

/// One edge between two neighbours: the place of the first, and whether the second is above instead of right of it.
type Edge = (usize, bool);

/// Lines along which a grid has a value.
///
/// - `values` — row by row; nothing where the grid has a hole. A square with a hole at a corner is left out.
/// - `width` — points in a row.
pub fn lines(values: &[Option<f64>], width: usize, level: f64) -> Vec<Line> {
    if width < 2 || !level.is_finite() {
        return Vec::new();
    }
    let mut meets: BTreeMap<Edge, Vec<Edge>> = BTreeMap::new();
    for at in 0..values.len().saturating_sub(width) {
        if at % width + 1 < width {
            for (a, b) in square(values, width, at, level) {
                meets.entry(a).or_default().push(b);
                meets.entry(b).or_default().push(a);
            }
        }
    }
    joined(&meets)
        .into_iter()
        .map(|path| path.into_iter().map(|e| crossing(values, width, e, level)).collect())
        .collect()
}

/// Pairs of edges of one square that the line joins.
fn square(values: &[Option<f64>], width: usize, at: usize, level: f64) -> Vec<(Edge, Edge)> {
    let corner = |at: usize| values.get(at).copied().flatten().filter(|v| v.is_finite());
    // Round the square: left below, right below, right above, left above.
    let places = [at, at + 1, at + width + 1, at + width];
    let [Some(a), Some(b), Some(c), Some(d)] = places.map(corner) else { return Vec::new() };
    let inside = [a, b, c, d].map(|v| v >= level);
    let edges: [Edge; 4] = [(at, false), (at + 1, true), (at + width, false), (at, true)];
    let crossed: Vec<usize> = (0..4).filter(|i| inside[*i] != inside[(i + 1) % 4]).collect();
    match crossed[..] {
        [i, j] => vec![(edges[i], edges[j])],
        // A saddle: the middle of the square says which corners hang together.
        [_, _, _, _] => {
            let middle = 0.25 * (a + b + c + d) >= level;
            if middle == inside[0] {
                vec![(edges[0], edges[1]), (edges[2], edges[3])]
            } else {
                vec![(edges[3], edges[0]), (edges[1], edges[2])]
            }
        }
        _ => Vec::new(),
    }
}

/// Where the line crosses an edge.
fn crossing(values: &[Option<f64>], width: usize, (at, up): Edge, level: f64) -> (f64, f64) {
    let value = |at: usize| values.get(at).copied().flatten().unwrap_or(level);
    let (a, b) = (value(at), value(at + if up { width } else { 1 }));
    let share = ((level - a) / (b - a)).clamp(0.0, 1.0);
    let (x, y) = ((at % width) as f64, (at / width) as f64);
    if up { (x, y + share) } else { (x + share, y) }
}

/// Joins pairs of edges to paths: open ones from their ends, then closed ones.
fn joined(meets: &BTreeMap<Edge, Vec<Edge>>) -> Vec<Vec<Edge>> {
    let mut met = BTreeSet::new();
    let mut paths = Vec::new();
    let ends = meets.iter().filter(|(_, to)| to.len() == 1);
    for (start, _) in ends.chain(meets.iter()) {
        if !met.insert(*start) {
            continue;
        }
        let mut path = vec![*start];
        let mut here = *start;
        while let Some(next) = meets.get(&here).and_then(|to| to.iter().find(|e| !met.contains(*e))) {
            met.insert(*next);
            path.push(*next);
            here = *next;
        }
        // Round a closed path both neighbours of the last edge are met, and one of them is the first.
        if path.len() > 2 && meets.get(&here).is_some_and(|to| to.contains(start)) {
            path.push(*start);
        }
        paths.push(path);
    }
    paths
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grid(n: usize, f: impl Fn(f64, f64) -> Option<f64>) -> Vec<Option<f64>> {
        (0..n * n).map(|at| f((at % n) as f64, (at / n) as f64)).collect()
    }

    #[test]
    fn a_plane_gives_one_straight_line() {
        let all = lines(&grid(11, |x, y| Some(x + 2.0 * y)), 11, 12.5);
        assert_eq!(all.len(), 1);
        assert!(all[0].iter().all(|(x, y)| (x + 2.0 * y - 12.5).abs() < 1e-12));
        let ends = [all[0][0], all[0][all[0].len() - 1]];
        assert!(ends.contains(&(10.0, 1.25)) && ends.contains(&(0.0, 6.25)), "{ends:?}");
        assert!(lines(&grid(11, |x, _| Some(x)), 11, 99.0).is_empty());
        assert!(lines(&grid(11, |_, _| Some(3.0)), 11, 3.0).is_empty(), "a flat grid has no line");
    }

    #[test]
    fn a_circle_gives_one_closed_line() {
        let all = lines(&grid(21, |x, y| Some((x - 10.0).hypot(y - 10.0))), 21, 7.0);
        assert_eq!(all.len(), 1);
        assert_eq!(all[0].first(), all[0].last());
        assert!(all[0].iter().all(|(x, y)| ((x - 10.0).hypot(y - 10.0) - 7.0).abs() < 0.03));
        // Source: derived, length of a circle.
        let length: f64 = all[0].windows(2).map(|p| (p[1].0 - p[0].0).hypot(p[1].1 - p[0].1)).sum();
        assert!((length - 2.0 * std::f64::consts::PI * 7.0).abs() < 0.3, "{length}");
    }

    #[test]
    fn a_saddle_gives_two_lines_that_do_not_cross() {
        let saddle = |x: f64, y: f64| Some((x - 4.5) * (y - 4.5));
        for level in [0.05, -0.05] {
            let all = lines(&grid(10, saddle), 10, level);
            assert_eq!(all.len(), 2, "{level}");
            for line in &all {
                // Each stays in one quarter.
                let side = |p: &(f64, f64)| (p.0 > 4.5, p.1 > 4.5);
                assert!(line.iter().all(|p| side(p) == side(&line[0])), "{level}: {line:?}");
            }
        }
    }

    #[test]
    fn holes_cut_the_line() {
        let whole = lines(&grid(11, |x, _| Some(x)), 11, 4.5);
        assert_eq!((whole.len(), whole[0].len()), (1, 11));
        let cut = lines(&grid(11, |x, y| (y != 5.0 || x != 4.0).then_some(x)), 11, 4.5);
        assert_eq!(cut.iter().map(Vec::len).collect::<Vec<_>>(), [5, 5]);
        assert!(cut.iter().flatten().all(|(_, y)| *y <= 4.0 || *y >= 6.0));
        assert!(lines(&grid(11, |_, _| None), 11, 4.5).is_empty());
        assert!(lines(&grid(11, |x, _| Some(if x > 5.0 { f64::NAN } else { x })), 11, 7.0).is_empty());
    }

    #[test]
    fn one_row_and_no_row_have_no_lines() {
        assert!(lines(&[Some(1.0), Some(3.0)], 2, 2.0).is_empty());
        assert!(lines(&[], 0, 2.0).is_empty());
    }
}
