//! interim
use crate::base::clock::Moment;
use crate::science::forecast::Forecast;
use crate::study::Verdict;
use crate::ui::widgets::lever::Gesture;
pub struct Shown<'a> {
    pub forecast: &'a Forecast,
    pub ghost: Option<&'a Forecast>,
    pub verdict: &'a Verdict,
    pub revision: u64,
    pub ghost_revision: u64,
    pub stop_h: f64,
    pub start: Option<Moment>,
    pub folded: &'a [String],
}
#[derive(Default)]
pub struct SheetState {}
pub enum SheetAction {
    Stop(f64, Gesture),
    Fold(&'static str),
    CopyNumbers,
}
pub fn show(ui: &mut egui::Ui, _s: &mut SheetState, shown: &Shown<'_>) -> Vec<SheetAction> {
    ui.label(format!("{}", shown.forecast.t.len()));
    Vec::new()
}
