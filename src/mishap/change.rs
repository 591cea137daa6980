//! What a cause makes of a pot that was planned: the design as it was really made.

use crate::data::{Cause, Change};
use potset_doc::design::{AddedWhen, AdditiveLine, BaseLine, GoesIn, SugarLine, SweetWhen};
use potset_doc::pantry::{Action, Base, Pantry, Thickener, Warmer, Warming};
use potset_doc::steps::{Event, Happening, Step};
use potset_doc::{Design, culture_in};

/// A base is counted as watery where water stands in for a part of it.
const WATER: &str = "water";
const SORBATE: &str = "potassium_sorbate";
const CHALK: &str = "calcium_carbonate";

/// A pot that starts colder than planned by less than this is as planned, °C. Source: assumed.
const COLDER_C: f64 = 6.0;

/// Where an old packet was kept, °C. Source: assumed: in the room.
const ROOM_C: f64 = 20.0;

/// When something happens in the hold, as a share of its hours. Source: assumed.
const EARLY: f64 = 0.2;
const LATE: f64 = 0.6;

/// Whether a cause can have befallen a pot of this design at all.
pub fn can_be(cause: &Cause, design: &Design, pantry: &Pantry) -> bool {
    let bases = || design.bases.iter().filter_map(|line| design.entry::<Base>(pantry, &line.entry));
    if !cause.bases.is_empty() && !bases().any(|base| cause.bases.contains(&base.kind)) {
        return false;
    }
    let acts = |of: fn(&Action) -> bool| {
        design.thickeners.iter().any(|line| {
            let entry = design.entry::<Thickener>(pantry, &line.entry);
            line.g_per_l > 0.0 && entry.is_some_and(|entry| of(&entry.action))
        })
    };
    if cause.starch && !acts(|action| matches!(action, Action::CookStarch { .. })) {
        return false;
    }
    let heated = || {
        let warmer = design.hold().and_then(|hold| design.entry::<Warmer>(pantry, &hold.warmer));
        warmer.is_some_and(|warmer| matches!(warmer.warming, Warming::Heated { .. }))
    };
    match &cause.change {
        Change::NoSugar | Change::Sweetener(_) => design.sugars.iter().any(feeds),
        Change::Drift(..) | Change::PowerCut(..) => heated(),
        Change::ColdStart(_, warmest) => {
            culture_in::temperature(&design.steps).is_none_or(|c| c > warmest + COLDER_C)
        }
        Change::Uncooked => acts(|a| matches!(a, Action::CookStarch { .. } | Action::Gel { .. })),
        Change::SetEarly(..) => acts(|a| matches!(a, Action::Gel { .. })),
        Change::ThickenerTimes(..) if !cause.starch => {
            acts(|a| !matches!(a, Action::Gel { .. } | Action::Protein { .. }))
        }
        Change::NoThickener => acts(|_| true),
        Change::Aged(..) | Change::DoseTimes(..) | Change::CultureInto(..) => !design.cultures.is_empty(),
        Change::ChillHours(_, longest) => design.chill().is_some_and(|(_, hours)| hours > *longest),
        _ => true,
    }
}

fn feeds(line: &SugarLine) -> bool {
    line.when == SweetWhen::BeforeTheCulture && line.g_per_l > 0.0
}

/// The design as the cause has it.
///
/// - `at` — its size, 0 to 1 between the two ends.
pub fn apply(change: &Change, at: f64, design: &mut Design, pantry: &Pantry) {
    let within = |low: f64, high: f64| low + (high - low) * at;
    match *change {
        Change::Nothing => {}
        Change::HoldTimes(low, high) => hold(design, |hours, _| *hours *= within(low, high)),
        Change::HoldBy(low, high) => warmer_by(design, within(low, high)),
        Change::Drift(low, high) => fade(design, within(low, high)),
        Change::ColdStart(low, high) | Change::CultureInto(low, high) => {
            culture_in::bring_to(&mut design.steps, within(low, high));
        }
        Change::PowerCut(low, high) => {
            happens(design, EARLY, Happening::PowerCut { minutes: within(low, high) });
        }
        Change::Aged(low, high) => {
            for line in &mut design.cultures {
                line.age_days = line.age_days.max(within(low, high));
                (line.opened, line.kept_c) = (true, Some(ROOM_C));
            }
        }
        Change::DoseTimes(low, high) => times(&mut design.cultures, |line| &mut line.rate, within(low, high)),
        Change::NoSugar => design.sugars.retain(|line| !feeds(line)),
        Change::Sweetener(ref key) => {
            for line in design.sugars.iter_mut().filter(|line| feeds(line)) {
                key.clone_into(&mut line.entry);
            }
        }
        Change::BaseThinner(low, high) => {
            let (litres, left) = (design.litres(), within(low, high));
            times(&mut design.bases, |line| &mut line.litres, left);
            design.bases.push(BaseLine::new(WATER.to_owned(), litres * (1.0 - left)));
        }
        Change::Preserved(low, high) => put_in(design, SORBATE, within(low, high) * 1e-3),
        Change::Fortified(low, high) => put_in(design, CHALK, within(low, high)),
        Change::Uncooked => {
            for line in &mut design.thickeners {
                line.goes_in = GoesIn::WithTheCulture;
            }
        }
        Change::ThickenerTimes(low, high) | Change::SetEarly(low, high) => {
            times(&mut design.thickeners, |line| &mut line.g_per_l, within(low, high));
        }
        Change::NoThickener => design.thickeners.clear(),
        Change::Stirred => happens(design, LATE, Happening::Stir),
        Change::Moved(low, high) => happens(design, LATE, Happening::Move { minutes: within(low, high) }),
        Change::ChillHours(low, high) => {
            for step in &mut design.steps {
                if let Step::Chill { hours, .. } = step {
                    *hours = within(low, high);
                }
            }
        }
        Change::PowdersTimes(low, high) => powders(design, within(low, high)),
        Change::AllTimes(low, high) => {
            powders(design, within(low, high));
            times(&mut design.cultures, |line| &mut line.rate, within(low, high));
        }
        Change::HeldAt(low, high) => {
            let c = within(low, high);
            culture_in::bring_to(&mut design.steps, c);
            hold(design, |_, set_c| *set_c = c);
        }
    }
    design.refresh_snapshot(pantry);
}

fn times<T>(lines: &mut [T], of: fn(&mut T) -> &mut f64, by: f64) {
    lines.iter_mut().for_each(|line| *of(line) *= by);
}

fn powders(design: &mut Design, by: f64) {
    times(&mut design.sugars, |line| &mut line.g_per_l, by);
    times(&mut design.thickeners, |line| &mut line.g_per_l, by);
}

fn put_in(design: &mut Design, key: &str, g_per_l: f64) {
    design.additives.push(AdditiveLine::new(key.to_owned(), g_per_l, AddedWhen::WithTheBase));
}

/// Changes hours and setting of the hold; what was logged in the plan's own pot says nothing of this one.
fn hold(design: &mut Design, change: impl FnOnce(&mut f64, &mut f64)) {
    if let Some(hold) = design.hold_mut() {
        let planned = hold.hours;
        change(&mut hold.hours, &mut hold.set_c);
        let by = hold.hours / planned;
        hold.events.iter_mut().for_each(|event| event.at_h *= by);
    }
}

/// The place is colder or warmer than its setting says.
fn warmer_by(design: &mut Design, by: f64) {
    let warmth = culture_in::temperature(&design.steps);
    if let Some(hold) = design.hold_mut() {
        hold.set_c += by;
        hold.measured.iter_mut().for_each(|reading| reading.c += by);
    }
    // A pot that is only kept, not heated, is as warm as it went in.
    if let Some(c) = warmth.filter(|_| by > 0.0) {
        culture_in::bring_to(&mut design.steps, c + 0.5 * by);
    }
}

fn fade(design: &mut Design, by: f64) {
    if let Some(hold) = design.hold_mut() {
        for part in [0.2, 0.4, 0.6, 0.8] {
            let c = hold.set_c - by * (part + 0.2);
            hold.events.push(Event { at_h: part * hold.hours, what: Happening::SetTo { c } });
        }
        in_order(&mut hold.events);
    }
}

fn happens(design: &mut Design, share: f64, what: Happening) {
    if let Some(hold) = design.hold_mut() {
        hold.events.push(Event { at_h: share * hold.hours, what });
        in_order(&mut hold.events);
    }
}

fn in_order(events: &mut [Event]) {
    events.sort_by(|a, b| a.at_h.total_cmp(&b.at_h));
}
