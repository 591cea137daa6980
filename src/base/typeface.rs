//! The type that window and pictures share, as bytes. Licence: `assets/licences/OFL-1.1-Inter.txt`.

pub const REGULAR: &[u8] = include_bytes!("../../assets/fonts/Inter-Regular.otf");
pub const SEMIBOLD: &[u8] = include_bytes!("../../assets/fonts/Inter-SemiBold.otf");
pub const ITALIC: &[u8] = include_bytes!("../../assets/fonts/Inter-Italic.otf");
