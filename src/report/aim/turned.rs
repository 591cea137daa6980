//! A lever that a proposal turns, in words: from what to what, and whether that is beyond what is usual.

use potset_base::number::{self, NBSP};
use potset_base::units;
use potset_base::words::lower;
use potset_forecast::lever::LeverId;
use potset_search::aim::{LeverChange, SearchLever};

/// "Hold at 41.5 °C instead of 40.0 °C".
pub fn words(turned: &LeverChange) -> String {
    let LeverChange { turn, to, unusual } = turned;
    let beyond = unusual.map(|usual| format!(", beyond what is usual ({})", span(turn, usual)));
    let beyond = beyond.unwrap_or_default();
    match turn.was.filter(|_| !turned.none()).map(|was| value(turn, was)) {
        // A unit that is a factor is said once.
        Some(from) if turn.lever.lever_id.is_rate() => {
            format!("{} {} instead of {from}{beyond}", turned.name(), number(turn, *to))
        }
        Some(from) => format!("{} instead of {from}{beyond}", brief(turned)),
        None => format!("{}{beyond}", brief(turned)),
    }
}

/// "Hold at 41.5 °C", "Without agar".
pub fn brief(turned: &LeverChange) -> String {
    if turned.none() {
        format!("Without {}", lower(turned.name()))
    } else {
        format!("{} {}", turned.name(), value(&turned.turn, turned.to))
    }
}

/// A value of a lever in words, spoons first where the line is said in them: "2 tbsp (12.7 g/L)".
pub fn value(turn: &SearchLever, value: f64) -> String {
    let own = match turn.lever.lever_id {
        LeverId::HoldHours => number::hours(value),
        _ => with_unit(number(turn, value), turn.lever.unit),
    };
    turn.measure.map_or(own.clone(), |(m, one)| {
        let quarters = (4.0 * value / one).round();
        if (value / one - 0.25 * quarters).abs() < 1e-3 && quarters > 0.0 {
            format!("{}{NBSP}{} ({own})", number::quarters(quarters), m.word(quarters > 4.0))
        } else {
            own
        }
    })
}

/// With as many decimals as it takes, two more than usual at most; a warmth in °F is whole.
fn number(turn: &SearchLever, value: f64) -> String {
    let scale = units::scale(turn.lever.unit);
    let usual = scale.decimals(turn.lever.decimals);
    if scale.other() {
        return number::fixed(scale.shown(value), usual);
    }
    let shown = |d: &usize| (value - number::fixed(value, *d).parse().unwrap_or(value)).abs() < 1e-6;
    number::fixed(value, (usual..usual + 2).find(shown).unwrap_or(usual))
}

fn span(turn: &SearchLever, (low, high): (f64, f64)) -> String {
    if turn.lever.lever_id == LeverId::HoldHours {
        return format!("{} to {}", number::hours(low), number::hours(high));
    }
    let scale = units::scale(turn.lever.unit);
    let plain = |v: f64| if scale.other() { number(turn, v) } else { number::plain(v) };
    with_unit(format!("{} to {}", plain(low), plain(high)), turn.lever.unit)
}

fn with_unit(text: String, unit: &str) -> String {
    if unit.is_empty() { text } else { format!("{text}{NBSP}{}", units::scale(unit).unit) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::{Pantry, assets};
    use potset_forecast::lever::Lever;
    use potset_search::aim::Beyond;
    use potset_search::aim::moves::Reach;

    fn turned(lever_id: LeverId, unit: &'static str, was: Option<f64>, to: f64) -> LeverChange {
        let (range, usual) = ((0.0, 100.0), Some((0.0, 15.0)));
        let lever = Lever {
            lever_id,
            name: "Agar".to_owned(),
            unit,
            value: to,
            range,
            usual,
            step: 0.5,
            decimals: 1,
        };
        let design = assets::demo("coconut-pot.ron").unwrap();
        let reach = Reach { lever_id, bounds: None, step: None };
        let turn =
            SearchLever::new(lever, reach, was, (&design, &Pantry::default()), (&[], Beyond::Never)).unwrap();
        LeverChange::of(&turn, to).unwrap()
    }

    #[test]
    fn a_unit_that_is_a_factor_is_said_once_and_nothing_is_without() {
        let rate = turned(LeverId::CultureRate(0), "× packet", Some(1.0), 1.85);
        assert_eq!(words(&rate), format!("Agar 1.85 instead of 1.0{NBSP}× packet"));
        let warm = turned(LeverId::Start, "°C", Some(10.0), 11.5);
        assert_eq!(words(&warm), format!("Agar 11.5{NBSP}°C instead of 10.0{NBSP}°C"));
        let none = turned(LeverId::ThickenerDose(0), "g/L", Some(30.0), 0.0);
        assert_eq!((words(&none), brief(&none)), ("Without agar".to_owned(), "Without agar".to_owned()));
        let beyond = turned(LeverId::ThickenerDose(0), "g/L", None, 60.0);
        assert_eq!(words(&beyond), format!("Agar 60.0{NBSP}g/L, beyond what is usual (0 to 15{NBSP}g/L)"));
    }
}
