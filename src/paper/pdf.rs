//! Pages as PDF: the drawings themselves, with their type as a subset and their texts as texts. No date is written, so that the
//! same sheet gives the same bytes.

use krilla::Document;
use krilla::geom::Size;
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla_svg::{SurfaceExt, SvgSettings};

use potset_base::Note;
use potset_export::svg::Drawing;

/// The pages as one file.
///
/// - `title` — of the document, as a reader shows it.
///
/// # Errors
/// A note if a page cannot be written; it does not happen for drawings of this program.
pub fn pdf(pages: &[Drawing], title: &str) -> Result<Vec<u8>, Note> {
    let trouble = |why: &str| {
        Note::error("PDF", format!("The pages could not be written: {why}"), "Save them as SVG instead")
    };
    let mut document = Document::new();
    for drawing in pages {
        let (wide, tall) = drawing.size();
        let (wide, tall) = (wide as f32, tall as f32);
        let tree = drawing.tree()?;
        let size = Size::from_wh(wide, tall).ok_or_else(|| trouble("no size"))?;
        let settings = PageSettings::from_wh(wide, tall).ok_or_else(|| trouble("no size"))?;
        let mut page = document.start_page_with(settings);
        let mut surface = page.surface();
        surface.draw_svg(&tree, size, SvgSettings::default()).ok_or_else(|| trouble("a page has no size"))?;
        surface.finish();
        page.finish();
    }
    document.set_metadata(Metadata::new().title(title.to_owned()).language("en".to_owned()));
    document.finish().map_err(|e| trouble(&format!("{e:?}")))
}
