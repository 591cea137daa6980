//! Labels on a sheet of paper, to be cut out.

use potset_base::palette;
use potset_export::layout;
use potset_export::svg::{Drawing, Type};

use crate::Size;

/// Labels across and down.
const GRID: (u32, u32) = (2, 6);
/// Space inside a label, points.
const PAD: f64 = 10.0;
/// Running type, points: the largest that fits is taken.
const TYPES: [f64; 6] = [9.5, 8.5, 7.5, 6.5, 5.5, 4.0];
/// Height of a line, as a share of its type.
const LINE: f64 = 1.3;

/// A page full of one label.
pub fn labels(lines: &[String], size: Size) -> Drawing {
    let (width, height) = size.points();
    let margin = size.margin();
    let each = ((width - 2.0 * margin) / f64::from(GRID.0), (height - 2.0 * margin) / f64::from(GRID.1));
    let mut page = Drawing::new(width, height, 0xff_ff_ff);
    for row in 0..GRID.1 {
        for column in 0..GRID.0 {
            let at = (margin + f64::from(column) * each.0, margin + f64::from(row) * each.1);
            page.rect(at, each, 0xff_ff_ff, Some(palette::RULE));
            one(&mut page, lines, at, each);
        }
    }
    page
}

/// One label, in the largest type in which it fits.
fn one(page: &mut Drawing, lines: &[String], at: (f64, f64), each: (f64, f64)) {
    let room = (each.0 - 2.0 * PAD, each.1 - 2.0 * PAD);
    let laid = |size: f64| {
        let set = |i: usize| if i == 0 { Type::new(size + 2.0, 0).bold() } else { Type::new(size, 0) };
        let parts = |(i, line): (usize, &String)| {
            layout::lines(line, set(i), room.0).into_iter().map(move |part| (part, set(i)))
        };
        let parts: Vec<(String, Type)> = lines.iter().enumerate().flat_map(parts).collect();
        let high: f64 = parts.iter().map(|(_, set)| LINE * set.size).sum();
        (parts, high)
    };
    let fits = TYPES.into_iter().map(laid).find(|(_, high)| *high <= room.1);
    let (parts, _) = fits.unwrap_or_else(|| laid(TYPES[TYPES.len() - 1]));
    let mut y = at.1 + PAD;
    for (part, set) in parts {
        y += LINE * set.size;
        page.text((at.0 + PAD, y), &part, set);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_label_holds_every_line_inside_of_its_own_place() {
        for name in ["Yogurt pair", &"A culture with a very long name and more of it, ".repeat(6)] {
            let lines = [name.to_owned(), "1 in 10: 1 g and 9 g of sugar".to_owned(), "Mixed on:".to_owned()];
            for size in Size::ALL {
                let svg = labels(&lines, size).svg();
                assert_eq!(svg.matches("Mixed on:").count(), 12, "{size:?}");
                let (width, height) = size.points();
                let each = (height - 2.0 * size.margin()) / 6.0;
                let value = |text: &str, name: &str| -> f64 {
                    let rest = text.split(&format!("{name}=\"")).nth(1).unwrap();
                    rest.split('"').next().unwrap().parse().unwrap()
                };
                for text in svg.split("<text ").skip(1) {
                    let (x, y) = (value(text, "x"), value(text, "y"));
                    let type_size = value(text, "font-size");
                    let (top, place) = (y - type_size - size.margin(), y - size.margin());
                    assert!(x > size.margin() && x < width && y < height - size.margin(), "{size:?}: {text}");
                    assert_eq!((top / each).floor(), (place / each).floor(), "{size:?}: {text}");
                }
            }
        }
    }
}
