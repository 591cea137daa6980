//! How designs beside each other are told apart where they share a colour: by marker and by dash.

/// A small shape on a design's curves and beside its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Marker {
    Circle,
    Square,
    Triangle,
    Diamond,
}

/// The marker of the design at a place.
pub const fn marker(place: usize) -> Marker {
    match place % 4 {
        0 => Marker::Circle,
        1 => Marker::Square,
        2 => Marker::Triangle,
        _ => Marker::Diamond,
    }
}

/// Ink and gap in turn, points, of the design at a place; empty is a solid line.
pub const fn dash(place: usize) -> &'static [f32] {
    match place % 4 {
        0 => &[],
        1 => &[8.0, 4.0],
        2 => &[2.0, 3.0],
        _ => &[9.0, 3.0, 2.0, 3.0],
    }
}
