//! Class in the window: every lesson played by the keyboard alone, hands and drawing, free play, a lesson of one's own; and
//! that all on the wall is large enough and whole.

use std::time::Instant;

use egui::accesskit::Role;
use egui::{Context, Key, Modifiers, RawInput, Rect, Shape, Vec2, pos2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use potset_app::class::{ClassFile, Playing};
use potset_app::command::{BesideCommand, ClassCommand, WindowCommand};
use potset_app::state::View;
use potset_app::{AppRunner, State};
use potset_class::{Press, Step};
use potset_doc::lesson::Guess;
use potset_doc::settings::Theme;
use potset_doc::{Kitchen, Settings, assets};
use potset_ui::shell::Shell;
use potset_ui_dialogs::paths::PathsBy;

use super::recipes::window_at;
use super::{Window, pick, press, window};

fn state<'a>(h: &'a Harness<'_, Window>) -> &'a State {
    &h.state().shell.runner.state
}

fn playing<'a>(h: &'a Harness<'_, Window>) -> &'a Playing {
    state(h).class.playing.as_ref().unwrap()
}

/// That something is said, by the wall or by what is told of it.
fn seen(h: &Harness<'_, Window>, part: &str) {
    assert!(h.query_all_by_label_contains(part).next().is_some(), "{part}");
}

/// A window with a shipped lesson on the wall.
fn on_the_wall(size: [f32; 2], lesson: &str) -> Harness<'static, Window> {
    let mut h = window(size);
    h.state_mut().shell.runner.run(WindowCommand::Show(View::Class));
    h.state_mut().shell.runner.run(ClassCommand::Open(lesson.to_owned()));
    h.run_steps(2);
    h
}

/// Presses a key while something may be running.
fn key(h: &mut Harness<'static, Window>, key: Key) {
    h.key_press(key);
    h.run_steps(2);
}

#[test]
fn every_lesson_is_played_from_start_to_end_by_the_keyboard() {
    let mut h = window([1024.0, 768.0]);
    h.state_mut().shell.runner.run(WindowCommand::Show(View::Class));
    h.run();
    let before = super::design(&h);
    let revision = state(&h).session.history.revision();
    let first = assets::lesson(assets::LESSONS[0].0).unwrap();
    press(&mut h, &format!("Show it: {}", first.title));
    for (name, _) in assets::LESSONS {
        let lesson = assets::lesson(name).unwrap();
        assert_eq!(playing(&h).key.as_deref(), Some(*name));
        seen(&h, &lesson.question);
        key(&mut h, Key::PageDown);
        assert_eq!(playing(&h).play.step, Step::Guess);
        match &lesson.guess {
            Guess::Choose(answers) => {
                key(&mut h, Key::Num1);
                key(&mut h, Key::Num2);
                h.get_by_label(&format!("Answer 1: {}, 1 hand", answers[0].words));
            }
            Guess::Draw(_) => {
                for arrow in [Key::ArrowRight, Key::ArrowDown, Key::ArrowRight] {
                    key(&mut h, arrow);
                }
                assert!(playing(&h).play.drawn.len() > 2, "{name}");
            }
        }
        key(&mut h, Key::PageDown);
        seen(&h, &lesson.change);
        key(&mut h, Key::PageDown);
        assert!(playing(&h).play.running, "{name}");
        key(&mut h, Key::PageDown);
        assert!(playing(&h).play.whole(), "{name}");
        key(&mut h, Key::PageDown);
        assert_eq!(playing(&h).play.step, Step::Reason);
        seen(&h, &format!("Why. {}", said_of_guess(&h)));
        key(&mut h, Key::PageDown);
    }
    h.run();
    // Behind the last lesson is the list again, and Escape goes back to where one came from.
    assert!(state(&h).class.playing.is_none() && state(&h).view == View::Class);
    key(&mut h, Key::Escape);
    assert_eq!(state(&h).view, View::Bench);
    assert_eq!((super::design(&h), state(&h).session.history.revision()), (before, revision));
}

fn said_of_guess(h: &Harness<'_, Window>) -> String {
    let playing = playing(h);
    let shown = playing.shown.as_ref().unwrap().as_ref().unwrap();
    potset_report::class::guessed(&playing.lesson, shown, &playing.play)
}

#[test]
fn the_curve_asks_for_one_forecast_and_comes_to_rest_when_paused() {
    let mut h = on_the_wall([1024.0, 768.0], "13-why-it-splits.ron");
    let asked = state(&h).class.question;
    (0..3).for_each(|_| key(&mut h, Key::PageDown));
    let at_h = playing(&h).play.at_h;
    h.run_steps(5);
    assert!(playing(&h).play.at_h > at_h, "it runs by itself");
    key(&mut h, Key::Space);
    // This fails where the window goes on drawing.
    h.run();
    let at_h = playing(&h).play.at_h;
    h.run_steps(3);
    assert_eq!((playing(&h).play.at_h, playing(&h).play.running), (at_h, false));
    key(&mut h, Key::ArrowRight);
    assert!(playing(&h).play.at_h > at_h, "scrubbed by a key");
    assert_eq!(state(&h).class.question, asked, "one question for the pots, and no more");
    seen(&h, "Thin layer at the bottom");
}

#[test]
fn b_blanks_escape_leaves_and_keys_of_the_bench_do_nothing() {
    let mut h = on_the_wall([1280.0, 800.0], "09-guessed-or-weighed.ron");
    let question = playing(&h).lesson.question.clone();
    key(&mut h, Key::B);
    assert!(playing(&h).play.blank && h.query_by_label("Next step").is_none());
    seen(&h, "blank");
    key(&mut h, Key::B);
    seen(&h, &question);
    let undo = state(&h).session.history.revision();
    h.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    h.run();
    assert_eq!(state(&h).session.history.revision(), undo);
    key(&mut h, Key::Escape);
    assert!(state(&h).class.playing.is_none());
}

#[test]
fn free_play_turns_levers_and_keeps_the_last_two_as_earlier_curves() {
    let mut h = on_the_wall([1024.0, 768.0], "09-guessed-or-weighed.ron");
    key(&mut h, Key::PageDown);
    key(&mut h, Key::F);
    let start = playing(&h).play.free.as_ref().unwrap().values[0];
    (0..4).for_each(|_| key(&mut h, Key::ArrowRight));
    let free = playing(&h).play.free.as_ref().unwrap();
    assert!(free.values[0] > start && free.now.is_some());
    assert_eq!(free.earlier.len(), 2);
    let name = playing(&h).levers[1].name.clone();
    let stop = playing(&h).play.free.as_ref().unwrap().values[1];
    press(&mut h, &format!("Less: {name}"));
    assert!(playing(&h).play.free.as_ref().unwrap().values[1] < stop);
    key(&mut h, Key::F);
    assert!(playing(&h).play.free.is_none() && playing(&h).play.step == Step::Guess);
}

#[test]
fn reduced_motion_moves_nothing() {
    let mut h = window([1024.0, 768.0]);
    h.state_mut().shell.runner.run(WindowCommand::Show(View::Class));
    h.run();
    press(&mut h, "Reduced motion");
    h.state_mut().shell.runner.run(ClassCommand::Open("13-why-it-splits.ron".to_owned()));
    h.run();
    for _ in 0..3 {
        h.key_press(Key::PageDown);
        h.run();
    }
    assert!(playing(&h).play.whole() && !playing(&h).play.running);
}

#[test]
fn a_lesson_of_ones_own_takes_a_few_presses_is_kept_and_comes_back() {
    let home = tempfile::tempdir().unwrap();
    let mut h = window_at(home.path(), None);
    h.state_mut().shell.runner.run(BesideCommand::AddDemo("failed-split.ron"));
    h.state_mut().shell.runner.run(WindowCommand::Show(View::Class));
    h.run();
    let from = Instant::now();
    press(&mut h, "New lesson");
    pick(&mut h, "What it shows", "Thin layer at the bottom");
    press(&mut h, "Make the lesson");
    h.get_by_role_and_label(Role::TextInput, "Question");
    press(&mut h, "Keep the lesson");
    println!("a lesson in 4 presses, {:.1} s of the machine", from.elapsed().as_secs_f64());
    let row = state(&h).class.lessons[0].clone();
    let file = row.own_file().unwrap().to_owned();
    assert!(row.lesson.second.is_some());
    assert!(home.path().join("own/lessons").join(&file).is_file());
    // Shared and imported it is the same.
    let shared = home.path().join("shared.ron");
    h.state_mut().shell.runner.run(ClassCommand::FileTo(ClassFile::Lesson, row.key.clone(), shared.clone()));
    super::recipes::until(&mut h, "the lesson is written", |_| shared.is_file());
    h.state_mut().shell.runner.run(ClassCommand::Import(shared));
    h.run();
    let imported = &state(&h).class.lessons[0];
    assert_ne!(imported.key, row.key);
    assert_eq!(imported.lesson.question, row.lesson.question);
    let other = imported.key.clone();
    h.state_mut().shell.runner.run(ClassCommand::Remove(other.clone()));
    h.run();
    assert!(state(&h).class.lesson(&other).is_none());
    press(&mut h, "Put the lesson back");
    assert!(state(&h).class.lesson(&other).is_some());
    h.state_mut().shell.runner.run(ClassCommand::Move(other.clone(), false));
    let order: Vec<String> = state(&h).class.lessons.iter().map(|row| row.key.clone()).collect();
    drop(h);
    let h = window_at(home.path(), None);
    let mut again = state(&h).class.lessons.clone();
    again.retain(|row| order.contains(&row.key));
    assert!(state(&h).class.lesson(&row.key).is_some(), "it is there at the next start");
    assert_eq!(again.len(), order.len());
}

/// Texts of the wall: what is said, its size, and where its letters are.
fn wall_texts(
    size: (f32, f32),
    dark: bool,
    zoom: f32,
    name: &str,
    presses: &[Press],
) -> Vec<(String, f32, Rect)> {
    fn texts(shape: &Shape, out: &mut Vec<(String, f32, Rect)>) {
        match shape {
            Shape::Vec(all) => all.iter().for_each(|one| texts(one, out)),
            Shape::Text(text) => {
                let size = text.galley.job.sections.first().map_or(0.0, |s| s.format.font_id.size);
                let place = text.galley.mesh_bounds.translate(text.pos.to_vec2());
                out.push((text.galley.text().to_owned(), size, place));
            }
            _ => {}
        }
    }
    let ctx = Context::default();
    Shell::dress(&ctx);
    let theme = if dark { Theme::Dark } else { Theme::Light };
    let settings = Settings { theme, zoom, ..Settings::default() };
    let mut runner = AppRunner::inline(State::start(settings, Kitchen::default()).unwrap());
    runner.run(WindowCommand::Show(View::Class));
    runner.run(ClassCommand::Open(name.to_owned()));
    presses.iter().for_each(|press| runner.run(ClassCommand::Press(press.clone())));
    let mut shell = Shell::new(runner, PathsBy::Typing);
    let mut all = Vec::new();
    for frame in 0..3 {
        let screen_rect = Some(Rect::from_min_size(pos2(0.0, 0.0), Vec2::new(size.0, size.1)));
        let input = RawInput { screen_rect, time: Some(f64::from(frame) * 0.3), ..RawInput::default() };
        let mut output = ctx.run_ui(input, |ui| shell.ui(ui));
        output.textures_delta.clear();
        all.clear();
        output.shapes.iter().for_each(|clipped| texts(&clipped.shape, &mut all));
    }
    all
}

#[test]
fn all_on_the_wall_is_large_and_no_text_stands_on_another() {
    let next = |n: usize| vec![Press::Next; n];
    let mut free = next(1);
    free.push(Press::Free);
    for (width, height, zoom) in [(1920.0, 1080.0, 1.0), (1024.0, 768.0, 1.0), (512.0, 384.0, 2.0)] {
        for (name, _) in assets::LESSONS {
            for (step, presses) in [
                ("question", next(0)),
                ("guess", next(1)),
                ("change", next(2)),
                ("curve", next(4)),
                ("reason", next(5)),
                ("free", free.clone()),
            ] {
                let all = wall_texts((width, height), false, zoom, name, &presses);
                assert!(all.len() > 2, "{name} {step}");
                for (text, size, place) in &all {
                    let capitals = 0.727 * size / height;
                    assert!(
                        capitals >= 0.033,
                        "{name} {step} {width}: “{text}” has capitals of {capitals:.4}"
                    );
                    assert!(
                        step == "reason"
                            || (place.left() > -1.0
                                && place.right() < width + 1.0
                                && place.bottom() < height + 1.0),
                        "{name} {step} {width}: “{text}” leaves the wall: {place:?}"
                    );
                }
                for (i, (a, _, first)) in all.iter().enumerate() {
                    for (b, _, second) in &all[i + 1..] {
                        let both = first.shrink(1.0).intersect(second.shrink(1.0));
                        let shared = step != "reason" && both.width() > 2.0 && both.height() > 4.0;
                        assert!(!shared, "{name} {step} {width}: “{a}” and “{b}”");
                    }
                }
            }
        }
    }
}

/// Milliseconds of a frame of a running curve, tessellated and drawn in software; printed, since machines differ.
#[test]
fn a_frame_of_the_running_curve_is_quick() {
    use potset_ui_kit::painter::SoftPainter;
    let ctx = Context::default();
    Shell::dress(&ctx);
    let mut runner = AppRunner::inline(State::start(Settings::default(), Kitchen::default()).unwrap());
    runner.run(WindowCommand::Show(View::Class));
    runner.run(ClassCommand::Open("04-milk-beside-coconut.ron".to_owned()));
    (0..3).for_each(|_| runner.run(ClassCommand::Press(Press::Next)));
    let mut shell = Shell::new(runner, PathsBy::Typing);
    let mut painter = SoftPainter::default();
    let (mut layout, mut whole) = (Vec::new(), Vec::new());
    let at = |shell: &Shell| shell.runner.state.class.playing.as_ref().unwrap().play.at_h;
    for frame in 0..60_u32 {
        let before = at(&shell);
        let screen_rect = Some(Rect::from_min_size(pos2(0.0, 0.0), Vec2::new(1920.0, 1080.0)));
        let input = RawInput { screen_rect, time: Some(f64::from(frame) / 60.0), ..RawInput::default() };
        let from = Instant::now();
        let mut output = ctx.run_ui(input, |ui| shell.ui(ui));
        let prims = ctx.tessellate(output.shapes, 1.0);
        layout.push(from.elapsed().as_secs_f64() * 1e3);
        painter.update(&mut output.textures_delta);
        painter.paint([1920, 1080], 1.0, &prims, egui::Color32::WHITE);
        whole.push(from.elapsed().as_secs_f64() * 1e3);
        assert!(at(&shell) > before && !prims.is_empty(), "frame {frame} moved nothing");
    }
    for (what, all) in [("laid out", &mut layout), ("with pixels by our painter", &mut whole)] {
        all.sort_by(f64::total_cmp);
        println!("a frame of the wall, 1920x1080, {what}: median {:.1} ms, 95 % {:.1} ms", all[30], all[57]);
    }
}
