//! The forms in which designs beside each other are handed out, by the ending of the file.

use std::path::Path;

use super::{beside, beside_picture, svg};
use potset_base::{Note, choices};
use potset_compare::beside::Comparison;
use potset_science::forecast::Forecast;

/// Pixels a point of the PNG: sharp on paper and on large screens.
const SCALE: f32 = 2.0;

choices! {
    /// A form of file.
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum Form: words {
        Csv => "a table of what differs",
        Markdown => "a comparison in Markdown",
        Text => "a comparison in plain text",
        Svg => "a picture in SVG",
        Png => "a picture in PNG",
    }
}

impl Form {
    /// The form that a file's ending asks for.
    ///
    /// # Errors
    /// A note that names the endings that are known.
    pub fn of(path: &Path) -> Result<Self, Note> {
        let ending = path.extension().map(|e| e.to_string_lossy().to_lowercase()).unwrap_or_default();
        Ok(match ending.as_str() {
            "csv" => Self::Csv,
            "md" => Self::Markdown,
            "txt" => Self::Text,
            "svg" => Self::Svg,
            "png" => Self::Png,
            _ => {
                return Err(Note::error(
                    path.display().to_string(),
                    "The file's ending does not say what to write",
                    "Give a name that ends in .csv, .md, .txt, .svg or .png",
                ));
            }
        })
    }

    /// Tells whether bytes begin like a file of this form that was written here; a picture may be anyone's.
    pub fn holds(self) -> fn(&[u8]) -> bool {
        match self {
            Self::Csv => beside::is_csv,
            Self::Markdown => beside::is_markdown,
            Self::Text => beside::is_text,
            Self::Svg => svg::is_svg,
            Self::Png => svg::is_png,
        }
    }

    /// What goes into the file.
    ///
    /// # Errors
    /// A note if the picture cannot be drawn.
    pub fn bytes(self, told: &Comparison, forecasts: &[&Forecast]) -> Result<Vec<u8>, Note> {
        Ok(match self {
            Self::Csv => beside::csv(told).into_bytes(),
            Self::Markdown => beside::markdown(told).into_bytes(),
            Self::Text => beside::text(told).into_bytes(),
            Self::Svg => beside_picture::picture(told, forecasts).svg().into_bytes(),
            Self::Png => beside_picture::picture(told, forecasts).png(SCALE)?,
        })
    }
}
