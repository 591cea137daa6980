//! The forms in which a sheet is handed out, by the ending of the file.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use crate::{Size, markdown, pages, pdf, table};
use potset_base::{Note, choices};
use potset_export::svg::{self, Drawing};
use potset_report::card::Sheet;

/// Pixels a point of the PNG: 144 to an inch.
const SCALE: f32 = 2.0;

choices! {
    /// A form of file. A calendar of the times is to be one more.
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum Form: words {
        Pdf => "pages in PDF",
        Png => "a picture in PNG",
        Svg => "a picture in SVG",
        Markdown => "a card in Markdown",
        Csv => "a card as a table",
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
            "pdf" => Self::Pdf,
            "png" => Self::Png,
            "svg" => Self::Svg,
            "md" => Self::Markdown,
            "csv" => Self::Csv,
            _ => {
                return Err(Note::error(
                    path.display().to_string(),
                    "The file's ending does not say what to write",
                    "Give a name that ends in .pdf, .png, .svg, .md or .csv",
                ));
            }
        })
    }

    /// Tells whether bytes begin like a file of this form that was written here; pages and pictures may be anyone's.
    pub fn holds(self) -> fn(&[u8]) -> bool {
        match self {
            Self::Pdf => |head| head.starts_with(b"%PDF-"),
            Self::Png => svg::is_png,
            Self::Svg => svg::is_svg,
            Self::Markdown => markdown::is_markdown,
            Self::Csv => table::is_csv,
        }
    }

    /// What goes into the file; of an SVG of several pages, into one file each. A PNG has its pages below each other.
    ///
    /// # Errors
    /// A note if a page cannot be drawn.
    pub fn files(self, sheet: &Sheet, size: Size) -> Result<Vec<Vec<u8>>, Note> {
        Ok(match self {
            Self::Pdf | Self::Png | Self::Svg => self.of_pages(&pages(sheet, size), &sheet.name)?,
            Self::Markdown => vec![markdown::markdown(sheet).into_bytes()],
            Self::Csv => vec![table::csv(sheet).into_bytes()],
        })
    }

    /// Pages that are drawn already, of a name.
    ///
    /// # Errors
    /// A note if a page cannot be drawn, or for a form that has no pages.
    pub fn of_pages(self, pages: &[Drawing], name: &str) -> Result<Vec<Vec<u8>>, Note> {
        Ok(match self {
            Self::Pdf => vec![pdf(pages, name)?],
            Self::Png => vec![Drawing::stacked(pages).png(SCALE)?],
            Self::Svg => pages.iter().map(|page| page.svg().into_bytes()).collect(),
            Self::Markdown | Self::Csv => {
                let title = format!("{name} are pages, and no text or table");
                return Err(Note::error("file", title, "Give a name that ends in .pdf, .png or .svg"));
            }
        })
    }
}

/// The file of a page: the one that was named for the first, "card-2.svg" for a further one.
pub fn numbered(path: &Path, page: usize) -> PathBuf {
    if page < 2 {
        return path.to_path_buf();
    }
    let stem = path.file_stem().unwrap_or_else(|| OsStr::new("page")).to_string_lossy();
    let ending = path.extension().unwrap_or_default().to_string_lossy();
    path.with_file_name(format!("{stem}-{page}.{ending}"))
}
