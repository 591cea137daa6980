//! Drawings as SVG, and as PNG from the same text: one drawing code for both.
//!
//! Texts stay texts: they can be searched and changed. The bundled type is named first; where it is not there, another
//! sans-serif stands in. The PNG is drawn with the bundled type itself, the same on every machine; signs that it does not
//! have (another script in a name) are boxes there, while the SVG shows them with the reader's own type.

use std::fmt::Write;
use std::sync::{Arc, LazyLock};

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree, fontdb::Database};
use rustybuzz::{Face, UnicodeBuffer};

use potset_base::{Note, typeface};
use potset_compare::beside::mark::Marker;

/// Whether bytes begin like a drawing in SVG, by anyone.
pub fn is_svg(head: &[u8]) -> bool {
    let head = String::from_utf8_lossy(&head[..head.len().min(1024)]);
    let head = head.trim_start_matches('\u{feff}').trim_start();
    head.starts_with("<svg") || head.starts_with("<?xml") && head.contains("<svg")
}

/// Whether bytes begin like a picture in PNG, by anyone.
pub fn is_png(head: &[u8]) -> bool {
    head.starts_with(b"\x89PNG\r\n\x1a\n")
}

/// How a text is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Type {
    pub size: f64,
    pub bold: bool,
    pub italic: bool,
    pub color: u32,
    pub anchor: Anchor,
    /// The ground behind it, as a rim that keeps it readable over lines.
    pub rim: Option<u32>,
}

/// Which point of a text is given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    Start,
    Middle,
    End,
}

impl Type {
    /// Plain text from its left end.
    pub const fn new(size: f64, color: u32) -> Self {
        Self { size, bold: false, italic: false, color, anchor: Anchor::Start, rim: None }
    }

    pub const fn bold(self) -> Self {
        Self { bold: true, ..self }
    }

    pub const fn italic(self) -> Self {
        Self { italic: true, ..self }
    }

    pub const fn rimmed(self, ground: u32) -> Self {
        Self { rim: Some(ground), ..self }
    }

    pub const fn anchored(self, anchor: Anchor) -> Self {
        Self { anchor, ..self }
    }
}

/// A drawing under way, in points from the top left.
#[derive(Clone, Debug)]
pub struct Drawing {
    width: f64,
    height: f64,
    body: String,
}

impl Drawing {
    /// An empty drawing on a ground.
    pub fn new(width: f64, height: f64, ground: u32) -> Self {
        let mut out = Self { width, height, body: String::new() };
        out.rect((0.0, 0.0), (width, height), ground, None);
        out
    }

    fn push(&mut self, words: std::fmt::Arguments<'_>) {
        // Writing into a string does not fail.
        let _ = self.body.write_fmt(words);
        self.body.push('\n');
    }

    /// A filled rectangle, with a hairline around it in a colour if one is given.
    pub fn rect(&mut self, at: (f64, f64), size: (f64, f64), fill: u32, edge: Option<u32>) {
        let edge = edge.map_or_else(String::new, |e| format!(" stroke=\"#{e:06x}\" stroke-width=\"1\""));
        self.push(format_args!(
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"#{fill:06x}\"{edge}/>",
            n(at.0),
            n(at.1),
            n(size.0.max(0.0)),
            n(size.1.max(0.0)),
        ));
    }

    /// A line through points, with lengths of ink and gap in turn; no lengths are a solid line.
    pub fn line(&mut self, points: &[(f64, f64)], color: u32, width: f64, dash: &[f32]) {
        if points.len() < 2 {
            return;
        }
        let path: Vec<String> = points.iter().map(|(x, y)| format!("{},{}", n(*x), n(*y))).collect();
        let dash: Vec<String> = dash.iter().map(|d| n(f64::from(*d))).collect();
        let dash =
            if dash.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{}\"", dash.join(",")) };
        self.push(format_args!(
            "<polyline points=\"{}\" fill=\"none\" stroke=\"#{color:06x}\" stroke-width=\"{}\" \
             stroke-linejoin=\"round\"{dash}/>",
            path.join(" "),
            n(width),
        ));
    }

    /// A design's marker around a point.
    pub fn marker(&mut self, (x, y): (f64, f64), marker: Marker, radius: f64, color: u32) {
        let shape = |corners: &[(f64, f64)]| {
            let all: Vec<String> = corners
                .iter()
                .map(|(dx, dy)| format!("{},{}", n(x + dx * radius), n(y + dy * radius)))
                .collect();
            format!("<polygon points=\"{}\" fill=\"#{color:06x}\"/>", all.join(" "))
        };
        let words = match marker {
            Marker::Circle => {
                format!("<circle cx=\"{}\" cy=\"{}\" r=\"{}\" fill=\"#{color:06x}\"/>", n(x), n(y), n(radius))
            }
            Marker::Square => shape(&[(-0.9, -0.9), (0.9, -0.9), (0.9, 0.9), (-0.9, 0.9)]),
            Marker::Triangle => shape(&[(0.0, -1.2), (1.1, 0.85), (-1.1, 0.85)]),
            Marker::Diamond => shape(&[(0.0, -1.3), (1.2, 0.0), (0.0, 1.3), (-1.2, 0.0)]),
        };
        self.push(format_args!("{words}"));
    }

    /// A text on its base line.
    pub fn text(&mut self, (x, y): (f64, f64), words: &str, set: Type) {
        let anchor = match set.anchor {
            Anchor::Start => "",
            Anchor::Middle => " text-anchor=\"middle\"",
            Anchor::End => " text-anchor=\"end\"",
        };
        let weight = if set.bold { " font-weight=\"600\"" } else { "" };
        let rim = set.rim.map_or_else(String::new, |color| {
            format!(" stroke=\"#{color:06x}\" stroke-width=\"3\" paint-order=\"stroke\"")
        });
        let slant = if set.italic { " font-style=\"italic\"" } else { "" };
        self.push(format_args!(
            "<text x=\"{}\" y=\"{}\" font-size=\"{}\" fill=\"#{:06x}\"{anchor}{weight}{slant}{rim}>{}</text>",
            n(x),
            n(y),
            n(set.size),
            set.color,
            escaped(words),
        ));
    }

    /// The drawing as SVG.
    pub fn svg(&self) -> String {
        let (w, h) = (n(self.width), n(self.height));
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}\" height=\"{h}\" viewBox=\"0 0 {w} {h}\" \
             font-family=\"'{FAMILY}', {OTHERS}\">\n{}</svg>\n",
            self.body
        )
    }

    /// Width and height, points.
    pub const fn size(&self) -> (f64, f64) {
        (self.width, self.height)
    }

    /// Drawings below each other, as one.
    pub fn stacked(drawings: &[Self]) -> Self {
        let width = drawings.iter().map(|one| one.width).fold(0.0, f64::max);
        let mut out = Self { width, height: 0.0, body: String::new() };
        for one in drawings {
            let at = n(out.height);
            out.push(format_args!("<g transform=\"translate(0,{at})\">\n{}</g>", one.body));
            out.height += one.height;
        }
        out
    }

    /// The drawing with its texts laid out in the bundled type.
    ///
    /// # Errors
    /// A note if it cannot be read back; it does not happen for drawings of this program.
    pub fn tree(&self) -> Result<Tree, Note> {
        Tree::from_str(&self.svg(), &options()).map_err(|e| trouble(&e.to_string()))
    }

    fn rendered(&self, scale: f32) -> Result<Pixmap, Note> {
        let tree = self.tree()?;
        let size = tree.size().to_int_size().scale_by(scale).ok_or_else(|| trouble("no size"))?;
        let mut pixels = Pixmap::new(size.width(), size.height()).ok_or_else(|| trouble("too large"))?;
        resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixels.as_mut());
        Ok(pixels)
    }

    /// The drawing as PNG, `scale` pixels a point.
    ///
    /// # Errors
    /// A note if it cannot be drawn; it does not happen for drawings of this program.
    pub fn png(&self, scale: f32) -> Result<Vec<u8>, Note> {
        self.rendered(scale)?.encode_png().map_err(|e| trouble(&e.to_string()))
    }

    /// The drawing in pixels, `scale` of them a point: width, height, and four bytes for each (red, green, blue, opacity),
    /// row by row. It has a ground, so that no pixel is seen through.
    ///
    /// # Errors
    /// As [`Drawing::png`].
    pub fn pixels(&self, scale: f32) -> Result<([usize; 2], Vec<u8>), Note> {
        let pixels = self.rendered(scale)?;
        Ok(([pixels.width() as usize, pixels.height() as usize], pixels.take()))
    }
}

fn trouble(why: &str) -> Note {
    Note::error(
        "picture",
        format!("The picture could not be drawn: {why}"),
        "Save the picture as SVG instead",
    )
}

/// Name of the bundled family, and what may stand in for it.
const FAMILY: &str = "Inter Potset";
const OTHERS: &str = "Inter, 'Helvetica Neue', Arial, sans-serif";

/// The bundled type alone: the same picture on every machine.
fn options() -> Options<'static> {
    static FONTS: LazyLock<Arc<Database>> = LazyLock::new(|| {
        let mut all = Database::new();
        for face in [typeface::REGULAR, typeface::SEMIBOLD, typeface::ITALIC] {
            all.load_font_data(face.to_vec());
        }
        Arc::new(all)
    });
    Options { font_family: FAMILY.to_owned(), fontdb: Arc::clone(&FONTS), ..Options::default() }
}

/// Width of a text in points, as it is laid out: spaces at its ends have none.
pub fn width(words: &str, set: Type) -> f64 {
    static FACES: LazyLock<[Option<Face<'static>>; 3]> = LazyLock::new(|| {
        [typeface::REGULAR, typeface::SEMIBOLD, typeface::ITALIC].map(|f| Face::from_slice(f, 0))
    });
    let [regular, semibold, italic] = &*FACES;
    let face = match (set.bold, set.italic) {
        (true, _) => semibold,
        (false, true) => italic,
        (false, false) => regular,
    };
    let Some(face) = face else { return 0.0 };
    let spaced: Vec<&str> = words.split([' ', '\n', '\t', '\r']).filter(|word| !word.is_empty()).collect();
    let mut buffer = UnicodeBuffer::new();
    buffer.push_str(&spaced.join(" "));
    buffer.guess_segment_properties();
    let laid = rustybuzz::shape(face, &[], buffer);
    let advance: i32 = laid.glyph_positions().iter().map(|glyph| glyph.x_advance).sum();
    f64::from(advance) / f64::from(face.units_per_em()) * set.size
}

/// A number with two decimals at most, as short as can be.
fn n(v: f64) -> String {
    let text = format!("{v:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// Signs that mean something in SVG, and those that no XML may hold, made harmless.
fn escaped(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for c in words.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\n' | '\t' => out.push(' '),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_base::palette;

    #[test]
    fn what_is_drawn_can_be_read_back() {
        let mut drawing = Drawing::new(200.0, 100.0, palette::SHEET);
        drawing.text((10.0, 50.0), "a < b & \"c\" > d\u{1}", Type::new(12.0, palette::INK).bold());
        drawing.line(&[(0.0, 0.0), (50.0, 20.0)], palette::INK, 2.0, &[4.0, 2.0]);
        let svg = drawing.svg();
        assert!(svg.contains("a &lt; b &amp; &quot;c&quot; &gt; d\u{fffd}"), "{svg}");
        assert!(svg.contains("stroke-dasharray=\"4,2\"") && svg.contains("points=\"0,0 50,20\""));
        let tree = Tree::from_str(&svg, &options()).unwrap();
        assert!(tree.has_text_nodes());
        assert_eq!((tree.size().width(), tree.size().height()), (200.0, 100.0));
    }

    #[test]
    fn a_width_is_that_of_the_drawn_text() {
        for words in [
            "Six jars for Tuesday",
            "AVATAR, To. Ty",
            "1.2\u{a0}kg  of  it ",
            "½ tsp (5\u{a0}mL) – fi",
            "日本",
        ] {
            for set in [Type::new(10.0, palette::INK), Type::new(17.0, palette::INK).bold()] {
                let mut drawing = Drawing::new(4000.0, 100.0, palette::SHEET);
                drawing.body.clear();
                drawing.text((0.0, 50.0), words, set);
                let drawn = f64::from(drawing.tree().unwrap().root().abs_bounding_box().right());
                assert!(
                    (width(words, set) - drawn).abs() < 0.02,
                    "{words}: {} for {drawn}",
                    width(words, set)
                );
            }
        }
        assert_eq!(width("  ", Type::new(10.0, palette::INK)), 0.0);
    }

    #[test]
    fn the_png_has_its_size_and_its_bytes_repeat() {
        let mut drawing = Drawing::new(60.0, 40.0, palette::SHEET);
        drawing.marker((30.0, 20.0), Marker::Diamond, 8.0, palette::INK);
        let png = drawing.png(2.0).unwrap();
        assert_eq!(png, drawing.png(2.0).unwrap());
        let pixels = Pixmap::decode_png(&png).unwrap();
        assert_eq!((pixels.width(), pixels.height()), (120, 80));
        let dark = pixels.pixels().iter().filter(|p| p.red() < 60).count();
        // A diamond of half diagonals 1.3 and 1.2 radii has 2 · 1.3 · 1.2 · 8² · 2² = 799 pixels, its rim half-tinted.
        assert!((720..800).contains(&dark), "{dark} dark pixels");
    }
}
