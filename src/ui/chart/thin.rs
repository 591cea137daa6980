//! The thin layer below, drawn in the texture strip.

use egui::{Ui, pos2};
use egui_plot::{FilledArea, PlotUi};

use crate::frame::Frame;
use crate::paint::{self, Texts};
use crate::traces::short;
use potset_ui_kit::fonts;
use potset_ui_kit::tokens::{self, Tokens};

/// The thin layer at the bottom of the strip, as high in it as it is in the pot.
pub fn layer(plot: &mut PlotUi<'_>, frame: &Frame<'_>, t: &Tokens) {
    let thin = &frame.now.thin;
    if thin.is_empty() {
        return;
    }
    let (from, to) = frame.range;
    let xs: Vec<f64> = thin.iter().map(|p| f64::from(p[0])).collect();
    let tops: Vec<f64> = thin.iter().map(|p| from + f64::from(p[1]) * (to - from)).collect();
    let floor = vec![from; xs.len()];
    let fill = t.ph.band();
    plot.add(FilledArea::new("thin layer", &xs, &floor, &tops).fill_color(fill).allow_hover(false));
}

/// Its name under its upper edge, where the layer is high enough to hold it beside the curves.
pub fn name(ui: &Ui, frame: &Frame<'_>, t: &Tokens, texts: &mut Texts) {
    const ROOM: f32 = 26.0;
    /// Where along the strip it stands, 0 to 1.
    const PLACE: f64 = 0.55;
    let hours = short(PLACE * frame.time.horizon_h);
    let thin = &frame.now.thin;
    let next = thin.partition_point(|point| point[0] < hours);
    let Some(high) = thin.get(next).map(|point| point[1] * frame.plot.height()).filter(|high| *high >= ROOM)
    else {
        return;
    };
    let at = pos2(frame.time.x(f64::from(hours)), frame.plot.bottom() - high + 9.0);
    let place = paint::left(ui, at, "thin layer below", fonts::regular(tokens::SMALL), t.ph.label);
    texts.push(ui, place);
}
