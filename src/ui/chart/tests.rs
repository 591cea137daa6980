//! Tests of the sheet: the stop line by pointer, keys and screen reader, folding, names, rest.

use super::*;
use egui::accesskit::{Action, ActionData, ActionRequest, Role, TreeId};
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use potset_base::clock::Moment;
use potset_base::words::TextureWord;
use potset_doc::{Kitchen, Learnt, assets};
use potset_forecast::scenario::Scenario;
use potset_judge::answer::{Answer, answer};
use potset_science::forecast::Forecast;
use potset_ui_kit::widgets::lever::Gesture;
use potset_ui_kit::{painter, theme};
use std::sync::LazyLock;

use potset_judge::readiness::Window;
use potset_judge::ready::ReadyTime;

static POT: LazyLock<Answer> = LazyLock::new(|| {
    let design = assets::demo("coconut-pot.ron").unwrap();
    let pantry = assets::pantry().unwrap();
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    answer(&Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt })
});

/// Most pots are ready together from 20 h on.
static READY: LazyLock<ReadyTime> = LazyLock::new(|| ReadyTime {
    half_h: Some(17.0),
    most_h: Some(20.0),
    window: Some(Window { from_h: 20.0, to_h: 72.0, opens: None, closes: None }),
    ..ReadyTime::default()
});

#[derive(Default)]
struct Bench {
    sheet: SheetState,
    stop_h: f64,
    folded: Vec<String>,
    seen: Vec<SheetAction>,
    empty: bool,
}

fn shown<'a>(stop_h: f64, folded: &'a [String]) -> Shown<'a> {
    Shown {
        forecast: &POT.forecast,
        ghosts: &[],
        numbered: false,
        verdict: &POT.verdict,
        depth: Depth::Details,
        revision: 1,
        spread: None,
        ready: Some(&READY),
        spread_outdated: false,
        spread_revision: 0,
        ghost_revision: 0,
        stop_h,
        start: Moment::parse("2026-11-26 18:30"),
        finished: "",
        folded,
        fixed: false,
        shared: None,
        dots: &[],
    }
}

fn bench_of(size: egui::Vec2, bench: Bench) -> Harness<'static, Bench> {
    let mut ready = false;
    let mut harness = Harness::builder().with_size(size).build_ui_state(
        move |ui, bench: &mut Bench| {
            if !ready {
                ui.ctx().set_fonts(fonts::definitions());
                theme::install(ui.ctx());
                ready = true;
                return;
            }
            let nothing = Forecast::default();
            let mut shown = shown(bench.stop_h, &bench.folded);
            if bench.empty {
                shown.forecast = &nothing;
            }
            let actions = show(ui, &mut bench.sheet, &shown);
            for action in &actions {
                match action {
                    SheetAction::Stop(hours, _) => bench.stop_h = *hours,
                    SheetAction::Fold(key) => match bench.folded.iter().position(|folded| folded == key) {
                        Some(at) => drop(bench.folded.remove(at)),
                        None => bench.folded.push((*key).to_owned()),
                    },
                    SheetAction::Follow(..) | SheetAction::CopyNumbers | SheetAction::Cursor(_) => {}
                }
            }
            bench.seen.extend(actions);
        },
        bench,
    );
    harness.run();
    harness
}

fn bench() -> Harness<'static, Bench> {
    bench_of(vec2(650.0, 730.0), Bench { stop_h: 24.0, ..Bench::default() })
}

fn pill(bench: &Harness<'static, Bench>) -> Rect {
    bench.get_by_role_and_label(Role::Slider, words::STOP_LINE).rect()
}

fn gestures(bench: &Harness<'static, Bench>) -> Vec<Gesture> {
    let gesture = |action: &SheetAction| match action {
        SheetAction::Stop(_, gesture) => Some(*gesture),
        _ => None,
    };
    bench.state().seen.iter().filter_map(gesture).collect()
}

/// Drags from `from` by so many points.
fn drag(bench: &mut Harness<'static, Bench>, from: egui::Pos2, by: f32) {
    bench.hover_at(from);
    bench.run();
    bench.drag_at(from);
    bench.run();
    for share in [0.5, 1.0] {
        bench.hover_at(from + vec2(by * share, 0.0));
        bench.run();
    }
    bench.drop_at(from + vec2(by, 0.0));
    bench.run();
}

#[test]
fn the_chilled_curve_says_what_is_done_to_the_pot() {
    let label = |finished: &str| {
        let traces = Traces::new(&POT.forecast, 1, finished, None, Depth::Details);
        traces.strips[Kind::Texture.index()].traces[0].label.clone().unwrap()
    };
    assert_eq!(label(""), "tomorrow, from the fridge");
    assert_eq!(label("strained"), "chilled, strained");
}

#[test]
fn the_line_is_dragged_anywhere_on_it_and_by_its_pill() {
    for y in [60.0, 250.0, 430.0, f32::NAN] {
        let mut bench = bench();
        let pill = pill(&bench);
        let y = if y.is_nan() { pill.center().y } else { y };
        drag(&mut bench, pos2(pill.center().x + 4.0, y), 70.0);
        let gestures = gestures(&bench);
        assert_eq!(gestures.first(), Some(&Gesture::Started), "at {y}");
        assert_eq!(gestures.last(), Some(&Gesture::Ended));
        let between = &gestures[1..gestures.len() - 1];
        assert!(!between.is_empty() && between.iter().all(|gesture| *gesture == Gesture::Going));
        let stop_h = bench.state().stop_h;
        assert!((27.5..29.5).contains(&stop_h), "{stop_h}");
        assert_eq!((stop_h * 4.0).fract(), 0.0, "in quarters");
    }
}

#[test]
fn beside_the_line_nothing_is_dragged_and_a_press_does_not_move_it() {
    let mut aside = bench();
    let at = pill(&aside).center();
    drag(&mut aside, pos2(at.x + 20.0, 250.0), 70.0);
    assert_eq!(aside.state().seen, []);

    let mut pressed = bench_of(vec2(650.0, 730.0), Bench { stop_h: 23.9, ..Bench::default() });
    let at = pill(&pressed).center();
    drag(&mut pressed, at, 0.0);
    assert_eq!(pressed.state().stop_h, 23.9);
    drag(&mut pressed, at, 9999.0);
    assert_eq!(pressed.state().stop_h, POT.forecast.horizon_h);
    let at = pill(&pressed).center();
    drag(&mut pressed, at, -9999.0);
    assert_eq!(pressed.state().stop_h, stop::STEP_H);
}

#[test]
fn the_keys_move_the_line_when_the_pill_has_them() {
    let mut bench = bench();
    bench.key_press(Key::ArrowRight);
    bench.run();
    assert_eq!(bench.state().seen, [], "not without the keyboard");
    bench.get_by_role_and_label(Role::Slider, words::STOP_LINE).focus();
    bench.run();
    let steps = [
        (Key::ArrowRight, 24.25),
        (Key::ArrowLeft, 24.0),
        (Key::ArrowUp, 24.25),
        (Key::PageUp, 25.25),
        (Key::PageDown, 24.25),
        (Key::End, 36.0),
        (Key::ArrowRight, 36.0),
        (Key::Home, 0.25),
    ];
    for (key, hours) in steps {
        bench.key_press(key);
        bench.run();
        assert_eq!(bench.state().stop_h, hours, "{key:?}");
    }
    assert!(gestures(&bench).iter().all(|gesture| *gesture == Gesture::Going));
    bench.key_press(Key::Tab);
    bench.run();
    assert_eq!(gestures(&bench).last(), Some(&Gesture::Ended));
}

#[test]
fn a_screen_reader_reads_and_sets_the_line() {
    let mut bench = bench();
    let node = bench.get_by_role_and_label(Role::Slider, words::STOP_LINE);
    let node = node.accesskit_node();
    assert_eq!(node.value().as_deref(), Some("24.0\u{a0}h"));
    assert_eq!(node.numeric_value(), Some(24.0));
    let target_node = node.locate().0;
    let ask = |bench: &mut Harness<'static, Bench>, action, data| {
        let request = ActionRequest { target_node, target_tree: TreeId::ROOT, action, data };
        bench.event(egui::Event::AccessKitActionRequest(request));
        bench.run();
    };
    ask(&mut bench, Action::SetValue, Some(ActionData::NumericValue(18.1)));
    assert_eq!(bench.state().stop_h, 18.0);
    ask(&mut bench, Action::Increment, None);
    assert_eq!(bench.state().stop_h, 18.25);
    ask(&mut bench, Action::Decrement, None);
    assert_eq!(bench.state().stop_h, 18.0);
    assert!(gestures(&bench).iter().all(|gesture| *gesture == Gesture::Ended));
}

#[test]
fn strips_fold_keep_their_place_and_unfold() {
    let mut bench = bench();
    bench.get_by_label("Fold Sugar left").click();
    bench.run();
    assert_eq!(bench.state().seen, [SheetAction::Fold("sugar")]);
    assert!(bench.query_by_label_contains("Sugar left: ").is_none(), "its curves are gone");
    bench.hover_at(pos2(1.0, 1.0));
    bench.run();
    let place = |bench: &Harness<'static, Bench>, name: &str| bench.get_by_label(name).rect().top();
    assert!(place(&bench, "Fold Acid made") < place(&bench, "Unfold Sugar left"));
    assert!(place(&bench, "Unfold Sugar left") < place(&bench, "Fold Texture"));
    assert!(bench.query_by_label_contains("Sugar left at 24.0").is_some(), "its reading stays");
    bench.get_by_label("Unfold Sugar left").click();
    bench.run();
    assert!(bench.query_by_label_contains("Sugar left: ").is_some());
}

#[test]
fn each_strip_says_a_sentence_and_a_reading() {
    let bench = bench();
    for kind in Kind::ALL {
        let name = kind.name();
        let start = format!("{name}: ");
        let sentence = bench.get_by_label_contains(&start);
        assert_eq!(sentence.accesskit_node().role(), Role::Image);
        assert!(sentence.accesskit_node().label().unwrap().len() > 20);
        assert!(bench.query_by_label_contains(&format!("{name} at 24.0")).is_some());
    }
    let said = words::sentence(Kind::Sourness, &POT.forecast, &POT.verdict, 24.0);
    let line = POT.verdict.tang.as_ref().unwrap().line_h.unwrap();
    let line = potset_base::number::plain((line * 10.0).round() / 10.0);
    assert!(
        said.starts_with(&format!("Sourness: pH 6.2 at the start, 4.6 at {line}\u{a0}h, 3.9 at 24\u{a0}h")),
        "{said}"
    );
}

#[test]
fn one_cursor_reads_all_strips_and_goes_away() {
    let mut bench = bench();
    let plot = bench.get_by_label_contains("Sourness: ").rect();
    bench.hover_at(pos2(plot.left() + plot.width() / 3.0, 300.0));
    bench.run();
    for kind in Kind::ALL {
        let start = format!("{} at 12.0", kind.name());
        assert!(bench.query_by_label_contains(&start).is_some(), "{start}");
    }
    bench.hover_at(pos2(10.0, 300.0));
    bench.run();
    assert!(bench.query_by_label_contains("Texture at 24.0").is_some());
}

#[test]
fn the_numbers_are_copied_by_button_and_by_menu() {
    let mut bench = bench();
    bench.get_by_label(words::COPY).click();
    bench.run();
    assert_eq!(bench.state().seen, [SheetAction::CopyNumbers]);
    let at = pos2(200.0, 300.0);
    bench.hover_at(at);
    bench.run();
    for pressed in [true, false] {
        let button = egui::PointerButton::Secondary;
        let modifiers = Modifiers::NONE;
        bench.event(egui::Event::PointerButton { pos: at, button, pressed, modifiers });
        bench.run();
    }
    let mut offered = bench.get_all_by_label(words::COPY).collect::<Vec<_>>();
    assert_eq!(offered.len(), 2);
    offered.sort_by(|a, b| b.rect().top().total_cmp(&a.rect().top()));
    offered[0].click();
    bench.run();
    assert_eq!(bench.state().seen.len(), 2);
}

#[test]
fn without_a_forecast_it_says_so() {
    let bench = bench_of(vec2(500.0, 470.0), Bench { empty: true, ..Bench::default() });
    assert!(bench.query_by_label(words::EMPTY).is_some());
    assert!(bench.query_by_label(words::STOP_LINE).is_none());
}

#[test]
fn a_low_sheet_scrolls_under_its_axis() {
    let mut bench = bench_of(vec2(500.0, 300.0), Bench { stop_h: 24.0, ..Bench::default() });
    assert!(bench.query_by_label("Fold Warmth").is_none(), "out of sight");
    let before = pill(&bench);
    bench.hover_at(pos2(150.0, 150.0));
    bench.run();
    bench.event(egui::Event::MouseWheel {
        unit: egui::MouseWheelUnit::Point,
        delta: vec2(0.0, -1000.0),
        phase: egui::TouchPhase::Move,
        source: egui::MouseWheelSource::Unknown,
        modifiers: Modifiers::NONE,
    });
    bench.run();
    assert!(bench.query_by_label("Fold Warmth").is_some());
    assert_eq!(pill(&bench), before);
}

#[test]
fn texture_words_begin_where_the_forecast_says() {
    let mut words = 0;
    for chilled in POT.forecast.chilled.at.iter().chain(&POT.forecast.warm.at).filter(|at| !at.cut) {
        let passed =
            potset_base::words::WORD_BOUNDS.iter().filter(|bound| chilled.viscosity50 >= **bound).count();
        assert_eq!(TextureWord::ALL[passed], chilled.word);
        words += 1;
    }
    assert!(words > 200);
}

#[test]
fn the_picture_is_the_same_each_time_and_follows_the_theme() {
    let draw = |dark: bool| {
        let mut state = SheetState::default();
        painter::picture([500, 470], 1.0, dark, 4, |ui| {
            show(ui, &mut state, &shown(24.0, &[]));
        })
    };
    let (light, dark) = (draw(false), draw(true));
    assert_eq!(light.pixels, draw(false).pixels);
    for (image, dark) in [(&light, false), (&dark, true)] {
        let t = tokens::tokens(dark);
        for color in [t.sheet, t.ready_fill, t.stop_line, t.ph.line] {
            assert!(image.pixels.contains(&color), "{color:?}");
        }
    }
}
