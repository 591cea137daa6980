//! Steps as temperature against time: before the culture, in the hold, and in the chill.

use super::blend::Blend;
use super::flask;
use super::lookup::Lookup;
use potset_base::units::prose::prose;
use potset_base::units::said::warmth;
use potset_base::{Note, number};
use potset_doc::pantry::{Vessel, Warmer, Warming};
use potset_doc::steps::{Happening, Hold, Step, Way};
use potset_science::mix::Chill;
use potset_science::thermal::bath;
use potset_science::thermal::choi_okos::{self, Shares};
use potset_science::thermal::course::{Course, Piece, time_to};

/// How long a step takes, and where it ends.
#[derive(Clone, Debug, PartialEq)]
pub struct StepTime {
    pub words: String,
    pub hours: f64,
    pub end_c: f64,
}

/// The whole heat timeline.
#[derive(Clone, Debug, PartialEq)]
pub struct Timeline {
    /// Before the culture, h from the first step.
    pub before: Course,
    /// The part that was cooked on its own, if any.
    pub cooked_part: Option<Course>,
    pub culture_in_c: f64,
    /// From the culture to the horizon, as if the hold went on.
    pub hold: Course,
    pub stop_h: f64,
    pub horizon_h: f64,
    pub chill: Chill,
    pub steps: Vec<StepTime>,
}

/// Horizons of the long sheet, h.
const HORIZONS: [f64; 8] = [12.0, 18.0, 24.0, 36.0, 48.0, 72.0, 96.0, 120.0];

/// The horizon for a planned stop: the next one that leaves a quarter more.
pub fn horizon(stop_h: f64) -> f64 {
    HORIZONS.into_iter().find(|h| *h >= 1.25 * stop_h).unwrap_or(120.0)
}

/// Builds the timeline.
///
/// # Errors
/// A note if a step cannot be done: hot tap water that is not hot enough, water that boils sooner.
pub fn timeline(look: &Lookup<'_>, blend: &Blend<'_>, notes: &mut Vec<Note>) -> Result<Timeline, Note> {
    let mut before = Course::from(0.0);
    let mut cooked_part = None;
    let mut steps = Vec::new();
    let mut c = look.kitchen.room_c;
    for (i, step) in look.design.steps.iter().enumerate() {
        let field = format!("steps[{i}]");
        let began = before.end_h();
        match step {
            Step::Start { from_c } => c = *from_c,
            Step::Warm { to_c, way } if *to_c > c => {
                c = go(look, &mut before, (c, *to_c), *way, (blend.litres, &blend.shares), &field)?;
            }
            Step::Cool { to_c, way } if *to_c < c => {
                c = go(look, &mut before, (c, *to_c), *way, (blend.litres, &blend.shares), &field)?;
            }
            Step::Warm { .. } | Step::Cool { .. } => {}
            Step::HeatTreat { to_c, minutes, way } => {
                if *to_c > c {
                    c = go(look, &mut before, (c, *to_c), *way, (blend.litres, &blend.shares), &field)?;
                }
                before.add(Piece::Line { from_c: c, to_c: c }, minutes / 60.0);
            }
            Step::CookPart { share, to_c, minutes } => {
                let mut part = Course::from(0.0);
                let hot =
                    go(look, &mut part, (c, *to_c), Way::Pan, (blend.litres * share, &blend.shares), &field)?;
                part.add(Piece::Line { from_c: hot, to_c: hot }, minutes / 60.0);
                before.add(Piece::Line { from_c: c, to_c: c }, part.end_h());
                let heat = |t: f64| choi_okos::specific_heat(&blend.shares, t);
                c = choi_okos::mixed(*share, heat(hot), hot, 1.0 - share, heat(c), c);
                cooked_part = Some(part);
            }
            Step::Stand { hours, way } => {
                let (around, tau_h) = surroundings(look, *way, blend.litres)?;
                c = before.newton(c, around, tau_h, *hours);
            }
            Step::CultureIn => break,
            Step::Hold(_) | Step::Chill { .. } | Step::Strain { .. } | Step::Store { .. } => {}
        }
        steps.push(StepTime { words: step.words(), hours: before.end_h() - began, end_c: c });
    }
    let hold = look
        .design
        .hold()
        .ok_or_else(|| Note::error("steps", "The design has no hold", "Add a hold step"))?;
    let horizon_h = horizon(hold.hours);
    let course = hold_course(look, hold, c, horizon_h)?;
    Ok(Timeline {
        before,
        cooked_part,
        culture_in_c: c,
        hold: course,
        stop_h: hold.hours,
        horizon_h,
        chill: chill(look, notes)?,
        steps,
    })
}

/// Surroundings of a way and its time constant, h, for a volume.
fn surroundings(look: &Lookup<'_>, way: Way, litres: f64) -> Result<(f64, f64), Note> {
    let law = &look.laws.ways;
    let grows = litres.max(1e-3).powf(law.volume_exponent);
    let vessel = look.entry::<Vessel>(&look.design.pots.vessel)?;
    let (around, tau_h) = match way {
        Way::Pan => (law.pan_medium_c, law.pan_min / 60.0),
        Way::Bath => (law.bath_medium_c, law.bath_min / 60.0),
        Way::TapWater => (look.kitchen.hot_tap_c, law.tap_min / 60.0),
        Way::ColdWater => (look.kitchen.cold_tap_c, law.cold_water_min / 60.0),
        Way::IceBath => (law.ice_medium_c, law.ice_min / 60.0),
        Way::Room => (look.kitchen.room_c, vessel.air_h.value),
        Way::Fridge => (look.kitchen.fridge_c, vessel.fridge_h.value),
    };
    Ok((around, tau_h * grows))
}

/// Heats or cools to a target and returns it.
fn go(
    look: &Lookup<'_>,
    course: &mut Course,
    (from_c, to_c): (f64, f64),
    way: Way,
    (litres, shares): (f64, &Shares),
    field: &str,
) -> Result<f64, Note> {
    let (mut around, mut tau_h) = surroundings(look, way, litres)?;
    if way == Way::TapWater {
        let heat = choi_okos::specific_heat(shares, 0.5 * (from_c + around));
        (around, tau_h) = bath::finite(from_c, around, tau_h, heat / look.laws.ways.tap_bath_ratio);
    }
    let boils = boiling_point(look.kitchen.altitude_m);
    if to_c > boils + 0.5 {
        return Err(Note {
            sentence: format!(
                "At {} m water boils at {}",
                number::fixed(look.kitchen.altitude_m, 0),
                warmth(boils, 1)
            ),
            ..Note::error(
                field,
                "The base boils before it gets there",
                "Lower the temperature and keep it longer",
            )
        });
    }
    let warms = to_c > from_c;
    let reached = reachable(to_c, around, warms)
        .map(|c| if warms { c.max(from_c) } else { c.min(from_c) })
        .and_then(|end_c| Some((end_c, time_to(from_c, end_c, around, tau_h)?)));
    let (end_c, hours) = reached.ok_or_else(|| {
        never(field, (to_c, 0), (way, around), warms, "Choose another way, or another temperature")
    })?;
    course.newton(from_c, around, tau_h, hours);
    Ok(end_c)
}

/// A pot is as good as at the temperature of its surroundings within this, °C. Source: common practice: who chills to 4 °C in
/// a fridge of 4 °C means as cold as it gets there, not the end that a pot only ever nears.
const NEAR_C: f64 = 0.5;

/// What comes of a target, °C: itself, or half a degree off the surroundings where it lies about there; nothing where it lies
/// beyond them.
fn reachable(to_c: f64, around_c: f64, warms: bool) -> Option<f64> {
    let sign = if warms { 1.0 } else { -1.0 };
    let past = sign * (to_c - around_c);
    // A little more, so that a target half a degree off is not lost to rounding.
    (past <= NEAR_C + 1e-9).then_some(if past > -NEAR_C { around_c - sign * NEAR_C } else { to_c })
}

/// The note on a target beyond the surroundings, °C, with its decimals.
fn never(
    field: &str,
    (to_c, decimals): (f64, usize),
    (way, around_c): (Way, f64),
    warms: bool,
    mend: &str,
) -> Note {
    let place = match way {
        Way::Pan => "The pan",
        Way::Bath => "The water bath",
        Way::TapWater => "Hot tap water",
        Way::ColdWater => "Cold tap water",
        Way::IceBath => "The ice bath",
        Way::Room => "The room",
        Way::Fridge => "The fridge",
    };
    let beyond = if warms { "above" } else { "below" };
    let title = format!("{} is never reached {}", warmth(to_c, decimals), way.words());
    Note {
        sentence: format!("{place} brings a pot close to {}, but never {beyond}", warmth(around_c, decimals))
            .replace(number::NBSP, " "),
        ..Note::error(field, title, mend)
    }
}

/// Boiling point of water at an altitude, °C: `100.0049 − 0.0035531 h + 4.29997e-8 h²`.
///
/// Source: published fit of boiling-point tables (pocket reference), h in m, within 0.3 °C to 4000 m.
pub fn boiling_point(altitude_m: f64) -> f64 {
    100.0049 - 0.003_553_1 * altitude_m + 4.299_97e-8 * altitude_m * altitude_m
}

/// Temperature of the hold from the culture to the horizon.
fn hold_course(look: &Lookup<'_>, hold: &Hold, start_c: f64, horizon_h: f64) -> Result<Course, Note> {
    let mut course = Course::from(0.0);
    if let (Some(first), Some(last)) = (hold.measured.first(), hold.measured.last()) {
        course.add(Piece::Line { from_c: first.c, to_c: first.c }, first.at_h);
        for pair in hold.measured.windows(2) {
            course.add(Piece::Line { from_c: pair[0].c, to_c: pair[1].c }, pair[1].at_h - pair[0].at_h);
        }
        course.add(Piece::Line { from_c: last.c, to_c: last.c }, horizon_h - course.end_h());
        return Ok(course);
    }
    let vessel = look.entry::<Vessel>(&look.design.pots.vessel)?;
    let warmer = look.entry::<Warmer>(&hold.warmer)?;
    let pot_litres = look.design.litres() / f64::from(look.design.pots.count.max(1));
    let grows = pot_litres.max(1e-3).powf(look.laws.ways.volume_exponent);
    let offset = look.kitchen.offset_c(&warmer.key);
    let (around, tau_h) = match &warmer.warming {
        Warming::Heated { offset_c, warming_h } => {
            (hold.set_c + offset.unwrap_or(offset_c.value), warming_h.value * grows)
        }
        Warming::Insulated { cooling_h } => {
            let own = flask::loss(look.kitchen, &warmer.key, &look.laws.ways)?;
            // All pots stand in it together: what is in all of them keeps the warmth.
            let all = flask::grows(look.design.litres(), look.laws.ways.volume_exponent);
            (look.kitchen.room_c, own.map_or(cooling_h.value, |loss| loss.cooling_h) * all)
        }
        Warming::Place { warming_h } => (hold.set_c + offset.unwrap_or(0.0), warming_h.value * grows),
    };
    let away = Away { room_c: look.kitchen.room_c, tau_h: vessel.air_h.value * grows };
    let heated = !matches!(warmer.warming, Warming::Insulated { .. });
    let shift = around - hold.set_c;
    follow(&mut course, start_c, (around, tau_h), &switches(hold, heated, shift), &away, horizon_h);
    Ok(course)
}

/// Where the pot is when it is not in its warmth.
struct Away {
    room_c: f64,
    tau_h: f64,
}

/// A switch of the surroundings: out into the room, back, or another setting, °C.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Switch {
    Out,
    Back,
    Around(f64),
}

/// All switches of a hold in the order of time.
fn switches(hold: &Hold, heated: bool, shift_c: f64) -> Vec<(f64, Switch)> {
    let mut out = Vec::new();
    for event in &hold.events {
        match event.what {
            Happening::PowerCut { minutes } | Happening::Move { minutes } => {
                out.push((event.at_h, Switch::Out));
                out.push((event.at_h + minutes / 60.0, Switch::Back));
            }
            Happening::SetTo { c } if heated => out.push((event.at_h, Switch::Around(c + shift_c))),
            _ => {}
        }
    }
    out.sort_by(|a, b| a.0.total_cmp(&b.0));
    out
}

/// Follows the pot through its switches. It is in the room while any cut or move lasts.
fn follow(
    course: &mut Course,
    start_c: f64,
    (mut around, tau_h): (f64, f64),
    switches: &[(f64, Switch)],
    away: &Away,
    horizon_h: f64,
) {
    let mut c = start_c;
    let mut out = 0_u32;
    let ends = switches.iter().copied().map(Some).chain(std::iter::once(None));
    for end in ends {
        let until = end.map_or(horizon_h, |(at_h, _)| at_h.clamp(course.end_h(), horizon_h));
        let hours = until - course.end_h();
        let (around_now, tau) = if out > 0 { (away.room_c, away.tau_h) } else { (around, tau_h) };
        if hours > 0.0 {
            c = course.newton(c, around_now, tau, hours);
        }
        match end {
            Some((_, Switch::Out)) => out += 1,
            Some((_, Switch::Back)) => out = out.saturating_sub(1),
            Some((_, Switch::Around(c))) => around = c,
            None => {}
        }
    }
}

fn chill(look: &Lookup<'_>, notes: &mut Vec<Note>) -> Result<Chill, Note> {
    let pot_litres = look.design.litres() / f64::from(look.design.pots.count.max(1));
    let found = look.design.steps.iter().enumerate().find_map(|(i, s)| match s {
        Step::Chill { to_c, hours, way } => Some((i, *to_c, *hours, *way)),
        _ => None,
    });
    let Some((i, to_c, hours, way)) = found else {
        notes.push(Note {
            sentence: prose("The chilled texture is shown for 5 °C after 12 h in a fridge"),
            ..Note::done("steps", "There is no chill step")
        });
        let (around_c, tau_h) = surroundings(look, Way::Fridge, pot_litres)?;
        return Ok(Chill { around_c, tau_h, to_c: 5.0, hours: 12.0 });
    };
    let (around_c, tau_h) = surroundings(look, way, pot_litres)?;
    let to_c = reachable(to_c, around_c, false).ok_or_else(|| {
        let field = format!("steps[{i}].to_c");
        let mend = "Chill to a warmer temperature, or set the fridge colder";
        never(&field, (to_c, 1), (way, around_c), false, mend)
    })?;
    Ok(Chill { around_c, tau_h, to_c, hours })
}
