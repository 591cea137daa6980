//! Where texts go in a drawing: lines that fit, cuts with an ellipsis, places moved apart.

use super::svg::{Type, width};

/// Bytes of the longest start of `words` that fits into `room` with `tail` after it. Halving, as each width is a layout.
fn fitting(words: &str, tail: &str, set: Type, room: f64) -> usize {
    let ends: Vec<usize> = words.char_indices().map(|(at, c)| at + c.len_utf8()).collect();
    let fits = |end: &usize| width(&format!("{}{tail}", words[..*end].trim_end()), set) <= room;
    let count = ends.partition_point(fits);
    count.checked_sub(1).map_or(0, |last| ends[last])
}

/// Words in lines that are no wider than `room`; a word that is wider itself is broken.
pub fn lines(words: &str, set: Type, room: f64) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for word in words.split(' ') {
        match out.last_mut() {
            Some(line) if width(&format!("{line} {word}"), set) <= room => {
                line.push(' ');
                line.push_str(word);
            }
            _ => out.extend(broken(word, set, room)),
        }
    }
    out
}

/// One word in pieces that fit, each of a sign at least.
pub fn broken(word: &str, set: Type, room: f64) -> Vec<String> {
    let mut out = Vec::new();
    let mut rest = word;
    while width(rest, set) > room {
        let one = rest.chars().next().map_or(0, char::len_utf8);
        let (start, end) = rest.split_at(fitting(rest, "", set, room).max(one));
        out.push(start.to_owned());
        rest = end;
    }
    if !rest.is_empty() || out.is_empty() {
        out.push(rest.to_owned());
    }
    out
}

/// A text cut with an ellipsis where it is wider than `room`; nothing where not even that fits.
pub fn cut(words: &str, set: Type, room: f64) -> String {
    if width(words, set) <= room {
        return words.to_owned();
    }
    let short = format!("{}…", words[..fitting(words, "…", set, room)].trim_end());
    if width(&short, set) <= room { short } else { String::new() }
}

/// Room for each of several texts side by side: what short ones leave over goes to the long ones.
pub fn shared_room(widths: &[f64], room: f64) -> Vec<f64> {
    let mut order: Vec<usize> = (0..widths.len()).collect();
    order.sort_by(|a, b| widths[*a].total_cmp(&widths[*b]));
    let (mut left, mut out) = (room, vec![0.0; widths.len()]);
    for (done, i) in order.into_iter().enumerate() {
        let share = left / (widths.len() - done) as f64;
        out[i] = widths[i].min(share);
        left -= out[i];
    }
    out
}

/// Places in rising order moved apart to `gap`, each group around where it was wanted, inside `low` to `high`.
pub fn apart(wanted: &[f64], gap: f64, (low, high): (f64, f64)) -> Vec<f64> {
    // Less their steps of a gap the places must only not fall: neighbours that do are pooled to their mean.
    let mut pools: Vec<(f64, f64)> = Vec::new();
    let mut step = 0.0;
    for at in wanted {
        pools.push((at - step, 1.0));
        step += gap;
        while let [.., (a, n), (b, m)] = pools[..]
            && a / n > b / m
        {
            pools.truncate(pools.len() - 2);
            pools.push((a + b, n + m));
        }
    }
    let highest = high - (step - gap);
    let mut out = Vec::with_capacity(wanted.len());
    let mut step = 0.0;
    for (sum, n) in pools {
        let at = (sum / n).min(highest).max(low);
        let mut left = n;
        while left > 0.5 {
            out.push(at + step);
            step += gap;
            left -= 1.0;
        }
    }
    out
}

/// Rows of plain text in columns: each as wide as its widest cell.
pub fn columns<'a>(rows: impl IntoIterator<Item = &'a Vec<String>>) -> Vec<String> {
    let rows: Vec<&Vec<String>> = rows.into_iter().collect();
    let cells = rows.iter().map(|row| row.len()).max().unwrap_or(0);
    let long = |cell: &String| cell.chars().count();
    let widths: Vec<usize> =
        (0..cells).map(|k| rows.iter().filter_map(|row| row.get(k)).map(long).max().unwrap_or(0)).collect();
    let padded = |(cell, width): (&String, &usize)| format!("{cell}{}", " ".repeat(width - long(cell)));
    let line = |row: &&Vec<String>| {
        let cells: Vec<String> = row.iter().zip(&widths).map(padded).collect();
        cells.join("  ").trim_end().to_owned()
    };
    rows.iter().map(line).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_base::palette;

    #[test]
    fn widths_lines_and_cuts_fit() {
        let set = Type::new(12.0, palette::INK);
        let (short, long) = (width("pot", set), width("pot of coconut cream", set));
        assert!(short > 10.0 && long > 4.0 * short, "{short} {long}");
        let words = "Thursday coconut pot needs more hours until it is ready";
        let lines = lines(words, set, 120.0);
        assert!(lines.len() > 2 && lines.iter().all(|l| width(l, set) <= 120.0));
        assert_eq!(lines.join(" "), words);
        let cut = cut(words, set, 80.0);
        assert!(cut.ends_with('…') && width(&cut, set) <= 80.0);
    }

    #[test]
    fn a_word_wider_than_the_room_is_broken_and_a_huge_name_is_cut_soon() {
        let set = Type::new(12.0, palette::INK);
        let word = "x".repeat(90);
        let pieces = lines(&format!("so {word} on"), set, 120.0);
        assert!(pieces.iter().all(|l| width(l, set) <= 120.0), "{pieces:?}");
        assert_eq!(pieces.concat().matches('x').count(), 90);
        assert_eq!(lines("", set, 120.0), [""]);
        // One layout for each halving: with one for each sign this takes minutes.
        let short = cut(&"pot of cream ".repeat(400), set, 120.0);
        assert!(short.starts_with("pot of") && short.ends_with('…') && width(&short, set) <= 120.0);
        assert!(width(&short, set) > 105.0, "{short}");
        assert_eq!(cut("pot", set, 1.0), "");
    }

    #[test]
    fn room_and_places_are_shared() {
        assert_eq!(shared_room(&[300.0, 20.0, 300.0], 200.0), [90.0, 20.0, 90.0]);
        assert_eq!(shared_room(&[30.0, 20.0], 200.0), [30.0, 20.0]);
        assert_eq!(apart(&[10.0, 50.0], 12.0, (0.0, 100.0)), [10.0, 50.0]);
        assert_eq!(apart(&[50.0, 50.0], 12.0, (0.0, 100.0)), [44.0, 56.0]);
        assert_eq!(apart(&[95.0, 98.0, 99.0], 12.0, (0.0, 100.0)), [76.0, 88.0, 100.0]);
        assert_eq!(apart(&[0.0, 1.0], 12.0, (0.0, 100.0)), [0.0, 12.0]);
    }
}
