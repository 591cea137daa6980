//! What every view is drawn with: colours and sizes, type, theme, widgets, and a painter without a screen.

pub mod fonts;
pub mod painter;
pub mod theme;
pub mod tokens;
pub mod widgets;
