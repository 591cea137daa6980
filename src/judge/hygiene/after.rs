//! After the hold: the chill and the planned days in store, as one course.

use super::{Finding, Level, Plan, Row};
use potset_science::thermal::Course;

/// A pot this near to its surroundings is at their temperature, °C: nobody means the last tenth of a degree that it takes a
/// day to lose. Source: assumed.
const NEAR_C: f64 = 0.5;

/// Hours of a day.
const DAY_H: f64 = 24.0;

/// The pot after the hold, h from the stop.
struct Cold {
    course: Course,
    /// The place it is in, and until when.
    places: Vec<(f64, f64)>,
    /// When the plan ends.
    end_h: f64,
}

impl Cold {
    fn of(plan: &Plan<'_>) -> Option<Self> {
        let (mix, facts) = (&plan.run.mix, plan.facts);
        if !facts.chills && facts.store.is_none() {
            return None;
        }
        let tau_h = mix.chill.tau_h;
        let mut c = mix.course.at(plan.stop_h);
        let mut course = Course::from(0.0);
        let mut places = Vec::new();
        if facts.chills {
            c = course.newton(c, mix.chill.around_c, tau_h, mix.chill.hours);
            places.push((course.end_h(), mix.chill.around_c));
        }
        let days_h = facts.store.map_or(0.0, |(days, _)| days * DAY_H);
        let end_h = course.end_h().max(days_h);
        // What is not planned is looked at as far as the limits of the chill go.
        let at_c = facts.store.map_or(mix.chill.around_c, |(_, at_c)| at_c);
        let rest = end_h.max(plan.law.chill_fridge_h) - course.end_h();
        course.newton(c, at_c, tau_h, rest);
        places.push((f64::INFINITY, at_c));
        Some(Self { course, places, end_h })
    }

    /// Temperature at a time, that of the place where it is near.
    fn at(&self, t_h: f64) -> f64 {
        let c = self.course.at(t_h);
        let place = self.places.iter().find(|(until, _)| t_h < *until - 1e-9).or(self.places.last());
        place.map(|(_, at)| *at).filter(|at| (c - at).abs() <= NEAR_C).unwrap_or(c)
    }

    /// Spans of the course up to an end, each on one side of every level.
    fn spans(&self, levels: &[f64], from_h: f64, to_h: f64) -> impl Iterator<Item = (f64, f64, f64)> + '_ {
        let near = self.places.iter().flat_map(|(_, at)| [at - NEAR_C, at + NEAR_C]);
        let levels: Vec<f64> = levels.iter().copied().chain(near).collect();
        self.course.cut_at(&levels).into_iter().filter_map(move |(from, to)| {
            let (from, to) = (from.max(from_h), to.min(to_h));
            (to > from).then(|| (from, to, self.at(0.5 * (from + to))))
        })
    }
}

/// Reads chill and store.
pub(super) fn judge(plan: &Plan<'_>) -> Vec<Finding> {
    let mut out = Vec::new();
    // Chill and store go by the pH, whatever made it sour.
    let soured = plan.ph(plan.stop_h) <= plan.line_ph;
    let mut say = |row, level, from_h: f64| out.push(Finding::new(row, level, plan.stop_h + from_h));
    if !plan.facts.chills {
        let (row, level) =
            if soured { (Row::NoChill, Level::Watch) } else { (Row::SweetChill, Level::Discard) };
        say(row, level, if soured { 0.0 } else { plan.law.cool_first_h });
    }
    let Some(cold) = Cold::of(plan) else { return out };
    if soured {
        chill(plan, &cold, &mut say);
    } else {
        sweet_chill(plan, &cold, &mut say);
    }
    store(plan, &cold, soured, &mut say);
    let ph = plan.ph(plan.stop_h);
    out.iter_mut()
        .filter(|f| matches!(f.row, Row::SweetChill | Row::SweetStore))
        .for_each(|f| f.ph = Some(ph));
    out
}

fn chill(plan: &Plan<'_>, cold: &Cold, say: &mut impl FnMut(Row, Level, f64)) {
    let law = plan.law;
    if !plan.facts.chills {
        return;
    }
    let late = [(law.chill_room_h, law.room_c), (law.chill_fridge_h, law.fridge_c)];
    if let Some((at, _)) = late.into_iter().find(|(at, most)| cold.at(*at) > most + 1e-9) {
        say(Row::Chill, Level::Watch, at);
    }
}

fn sweet_chill(plan: &Plan<'_>, cold: &Cold, say: &mut impl FnMut(Row, Level, f64)) {
    let law = plan.law;
    if !plan.facts.chills {
        return;
    }
    let late = [(law.cool_first_h, law.room_c), (law.cool_whole_h, law.cold_c)];
    if let Some((at, _)) = late.into_iter().find(|(at, most)| cold.at(*at) > most + 1e-9) {
        say(Row::SweetChill, Level::Discard, at);
    }
}

/// The planned days: from 8 °C on, or from 12 h after the hold.
fn store(plan: &Plan<'_>, cold: &Cold, soured: bool, say: &mut impl FnMut(Row, Level, f64)) {
    let law = plan.law;
    let levels = [law.room_c, law.fridge_c, law.cold_c];
    let cool = cold.spans(&levels, 0.0, law.chill_fridge_h).find(|(_, _, c)| *c <= law.fridge_c + 1e-9);
    let begins = cool.map_or(law.chill_fridge_h, |(from, ..)| from);
    if begins >= cold.end_h {
        return;
    }
    // Hours so far: above a warm room, between cold and a warm fridge, out of the cold, in all.
    let (mut warm, mut fridge, mut out) = (0.0, 0.0, 0.0);
    let (mut warned, mut lost, mut sweet) = (None, None, None);
    for (from, to, c) in cold.spans(&levels, begins, cold.end_h) {
        let reach =
            |had: f64, most: f64| (had + to - from > most + 1e-9).then(|| from + (most - had).max(0.0));
        if c > law.room_c + 1e-9 {
            lost = lost.or(reach(warm, law.store_warm_h));
            warm += to - from;
        }
        if c > law.fridge_c + 1e-9 {
            warned = warned.or(Some(from));
        } else if c > law.cold_c + 1e-9 {
            warned = warned.or(reach(fridge, law.store_fridge_days * DAY_H));
            fridge += to - from;
        }
        if c > law.cold_c + 1e-9 {
            sweet = sweet.or(reach(out, law.sweet_store_h));
            out += to - from;
        }
        warned = warned.or(reach(from - begins, law.store_cold_days * DAY_H));
        sweet = sweet.or(reach(from - begins, law.sweet_store_days * DAY_H));
    }
    if let Some(at) = lost {
        say(Row::WarmStore, Level::Discard, at);
    }
    if !soured {
        if let Some(at) = sweet {
            say(Row::SweetStore, Level::Discard, at);
        }
    } else if let Some(at) = warned {
        say(Row::Store, Level::Watch, at);
    }
}
