//! The markers that tell designs apart where they share a colour.

use egui::accesskit::Role;
use egui::{Color32, Painter, Pos2, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};

use crate::tokens::{self, Dash};
use potset_compare::beside::mark::{self, Marker};

/// Paints a marker around a place.
pub fn paint(painter: &Painter, at: Pos2, marker: Marker, radius: f32, color: Color32) {
    let corners = |all: &[(f32, f32)]| all.iter().map(|(x, y)| at + vec2(*x, *y) * radius).collect();
    let shape = match marker {
        Marker::Circle => Shape::circle_filled(at, radius, color),
        Marker::Square => Shape::convex_polygon(
            corners(&[(-0.9, -0.9), (0.9, -0.9), (0.9, 0.9), (-0.9, 0.9)]),
            color,
            Stroke::NONE,
        ),
        Marker::Triangle => {
            Shape::convex_polygon(corners(&[(0.0, -1.2), (1.1, 0.85), (-1.1, 0.85)]), color, Stroke::NONE)
        }
        Marker::Diamond => Shape::convex_polygon(
            corners(&[(0.0, -1.3), (1.2, 0.0), (0.0, 1.3), (-1.2, 0.0)]),
            color,
            Stroke::NONE,
        ),
    };
    painter.add(shape);
}

/// A piece of a design's line with its marker, as it stands in a list of designs.
pub fn sample(ui: &mut Ui, place: usize, color: Color32) {
    let (rect, response) = ui.allocate_exact_size(vec2(34.0, 14.0), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, format!("Mark of design {}", place + 1)));
    let path = [pos2(rect.left() + 1.0, rect.center().y), pos2(rect.right() - 1.0, rect.center().y)];
    ui.painter().extend(Dash(mark::dash(place)).shapes(&path, Stroke::new(tokens::CURVE, color)));
    paint(ui.painter(), rect.center(), mark::marker(place), 4.4, color);
}
