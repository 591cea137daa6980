//! The steps of a pot by the clock: from a start on, or back from when it is to be ready; and several pots on one warmer.

use potset_base::clock::{Moment, Zone};
use potset_doc::Design;
use potset_doc::pantry::Warmer;
use potset_doc::steps::{Happening, Step};
use potset_forecast::Facts;
use potset_forecast::scenario::Scenario;
use potset_judge::hygiene::Check;

/// What is done, or to be looked at.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// A step before the culture.
    Make(Step),
    CultureIn,
    /// The pot goes into its warmth.
    Hold,
    Event(Happening),
    /// The plan asks for a look how far it has soured.
    Look(Check),
    /// The end of the hold.
    Stop,
    /// It is as cold as the chill brings it.
    Cold,
    /// It hangs in a cloth.
    Strain(Step),
    /// The day that a pot is judged.
    Eat,
    /// It is eaten by then.
    UseBy,
}

/// One line of the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// Hours since the culture went in; less than nothing before it.
    pub at_h: f64,
    /// How long it keeps somebody, or the pot, at it, h.
    pub lasts_h: f64,
    pub what: What,
}

/// All that is done with a pot, in the order of time.
pub fn plan_of(design: &Design, facts: &Facts, stop_h: f64, check: Option<Check>) -> Vec<Tick> {
    let before: f64 = facts.steps.iter().map(|step| step.hours).sum();
    let mut at_h = -before;
    let mut ticks = Vec::new();
    for (step, timed) in design.steps.iter().zip(&facts.steps) {
        ticks.push(Tick { at_h, lasts_h: timed.hours, what: What::Make(step.clone()) });
        at_h += timed.hours;
    }
    let mut add = |at_h: f64, lasts_h: f64, what: What| ticks.push(Tick { at_h, lasts_h, what });
    add(0.0, 0.0, What::CultureIn);
    add(0.0, stop_h, What::Hold);
    let events = design.hold().into_iter().flat_map(|hold| &hold.events);
    for event in events.filter(|event| event.at_h <= stop_h) {
        add(event.at_h, 0.0, What::Event(event.what.clone()));
    }
    if let Some(check) = check {
        add(check.at_h, 0.0, What::Look(check));
    }
    let cold_h = facts.chill_h;
    add(stop_h, if cold_h.is_finite() { cold_h } else { 0.0 }, What::Stop);
    if let Some((_, hours)) = design.chill() {
        if cold_h.is_finite() {
            add(stop_h + cold_h, 0.0, What::Cold);
        }
        let mut eaten_h = stop_h + hours;
        for step in &design.steps {
            if let Step::Strain { hours, .. } = step {
                add(eaten_h, *hours, What::Strain(step.clone()));
                eaten_h += hours;
            }
        }
        add(eaten_h, 0.0, What::Eat);
    }
    let days =
        design.steps.iter().find_map(|s| if let Step::Store { days, .. } = s { Some(*days) } else { None });
    if let Some(days) = days {
        add(stop_h + 24.0 * days, 0.0, What::UseBy);
    }
    ticks.sort_by(|a, b| a.at_h.total_cmp(&b.at_h));
    ticks
}

/// When the culture goes in, by the clock of a zone if one is known: as the design says, or so that it stops when it is to be
/// ready.
///
/// - `ready` — to be ready by then, in place of what the design says.
pub fn culture_in(design: &Design, ready: Option<Moment>, zone: Option<&Zone>) -> Option<Moment> {
    let Some(ready) = ready else { return design.start() };
    design.hold().map(|hold| shift(ready, -hold.hours, zone))
}

/// A moment so many hours later, by the clock of a zone if one is known.
pub fn shift(moment: Moment, hours: f64, zone: Option<&Zone>) -> Moment {
    zone.map_or_else(|| moment.after(hours), |zone| moment.after_in(zone, hours))
}

/// A pot in its warmer.
#[derive(Clone, Debug, PartialEq)]
pub struct InWarmer {
    pub name: String,
    pub warmer: String,
    pub set_c: f64,
    pub litres: f64,
    pub holds_litres: Option<f64>,
    pub from: Moment,
    pub to: Moment,
}

impl InWarmer {
    /// The pot of a design whose culture goes in at a moment; nothing where it has no hold.
    pub fn of(scenario: &Scenario<'_>, culture_in: Moment, zone: Option<&Zone>) -> Option<Self> {
        let design = scenario.design;
        let hold = design.hold()?;
        let warmer = design.entry::<Warmer>(scenario.pantry, &hold.warmer);
        Some(Self {
            name: design.name.clone(),
            warmer: hold.warmer.clone(),
            set_c: hold.set_c,
            litres: design.litres(),
            holds_litres: warmer.and_then(|w| w.holds_litres),
            from: culture_in,
            to: shift(culture_in, hold.hours, zone),
        })
    }
}

/// Why two pots cannot be in one warmer at a time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Clash {
    /// It is set to one temperature at a time.
    Warmth,
    /// It holds only so many litres.
    Room { holds: f64, wanted: f64 },
}

/// Set warmths that differ by no more than this go together, °C. Source: assumed, less than warmers differ.
const TOGETHER_C: f64 = 1.0;

/// The pots, by their places, that are in one warmer at one time and cannot be.
pub fn clashes(pots: &[InWarmer]) -> Vec<(usize, usize, Clash)> {
    let mut all = Vec::new();
    for (i, a) in pots.iter().enumerate() {
        for (j, b) in pots.iter().enumerate().skip(i + 1) {
            let together = a.warmer == b.warmer && a.from < b.to && b.from < a.to;
            if !together {
                continue;
            }
            if (a.set_c - b.set_c).abs() > TOGETHER_C {
                all.push((i, j, Clash::Warmth));
            }
            let wanted = a.litres + b.litres;
            if let Some(holds) = a.holds_litres.filter(|holds| wanted > *holds) {
                all.push((i, j, Clash::Room { holds, wanted }));
            }
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::{Kitchen, Learnt, Pantry, assets};

    fn asked<T>(name: &str, go: impl FnOnce(&Scenario<'_>) -> T) -> T {
        let (design, pantry): (Design, Pantry) = (assets::demo(name).unwrap(), assets::pantry().unwrap());
        let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
        go(&Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt })
    }

    #[test]
    fn the_plan_is_in_order_and_its_times_are_those_of_the_forecast() {
        for (name, _) in assets::DEMOS {
            asked(name, |ask| {
                let Ok(run) = ask.run() else { return };
                let ticks = plan_of(ask.design, &run.facts, run.mix.stop_h, None);
                assert!(ticks.is_sorted_by(|a, b| a.at_h <= b.at_h), "{name}");
                let of = |what: &What| ticks.iter().find(|t| t.what == *what).unwrap();
                assert_eq!(of(&What::CultureIn).at_h, 0.0);
                assert_eq!(of(&What::Stop).at_h, run.mix.stop_h);
                let making: f64 = run.facts.steps.iter().map(|s| s.hours).sum();
                assert!((ticks[0].at_h + making).abs() < 1e-9, "{name}");
            });
        }
    }

    #[test]
    fn back_from_when_it_is_to_be_ready_across_the_change_of_clocks() {
        asked("coconut-pot.ron", |ask| {
            let hours = ask.design.hold().unwrap().hours;
            let paris = Zone::named("Europe/Paris").unwrap();
            let ready = Moment::parse("2027-03-28 20:00").unwrap();
            let start = culture_in(ask.design, Some(ready), Some(&paris)).unwrap();
            // Source: published, directive 2000/84/EC: clocks go forward that morning, so the clock shows an hour less.
            assert_eq!(ready.hours_since(start), hours + 1.0);
            assert_eq!(shift(start, hours, Some(&paris)), ready);
            assert_eq!(culture_in(ask.design, None, None), ask.design.start());
        });
    }

    #[test]
    fn pots_in_one_warmer_at_one_time_clash_by_warmth_and_room() {
        let at = |text: &str| Moment::parse(text).unwrap();
        let pot = |set_c: f64, litres: f64, from: &str, to: &str| InWarmer {
            name: String::new(),
            warmer: "box".into(),
            set_c,
            litres,
            holds_litres: Some(3.0),
            from: at(from),
            to: at(to),
        };
        let first = pot(41.0, 2.0, "2026-12-01 08:00", "2026-12-02 08:00");
        let warm = pot(37.0, 0.5, "2026-12-01 20:00", "2026-12-02 06:00");
        let large = pot(41.5, 2.0, "2026-12-01 20:00", "2026-12-02 06:00");
        let later = pot(37.0, 3.0, "2026-12-02 08:00", "2026-12-02 18:00");
        assert_eq!(clashes(&[first.clone(), warm]), [(0, 1, Clash::Warmth)]);
        assert_eq!(clashes(&[first.clone(), large]), [(0, 1, Clash::Room { holds: 3.0, wanted: 4.0 })]);
        // One leaves as the other comes.
        assert_eq!(clashes(&[first.clone(), later]), []);
        let elsewhere = InWarmer { warmer: "oven".into(), ..first.clone() };
        assert_eq!(clashes(&[first, elsewhere]), []);
    }
}
