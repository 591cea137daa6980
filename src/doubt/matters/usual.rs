//! What is usual for a lever that stands off it.

use potset_forecast::lever::{Lever, LeverId};

/// Where a lever would stand if it were put back to usual.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Usual {
    /// In the lever's unit.
    pub to: f64,
    /// It stands inside of its usual span as it is.
    pub inside: bool,
}

/// What is usual for a lever: of a culture what its packet says, of all others the middle of the usual span. Nothing where the
/// lever stands there, or where nothing is usual. Inside of the span only what makes a pot sour or not is asked: warmth, time
/// and dose.
///
/// Source: assumed, the middle; the spans say where they are from.
pub fn of(lever: &Lever) -> Option<Usual> {
    let (from, to) = lever.usual?;
    let inside = (from..=to).contains(&lever.value);
    let asked = matches!(
        lever.lever_id,
        LeverId::CultureRate(_) | LeverId::CultureIn | LeverId::HoldTemperature | LeverId::HoldHours
    );
    let packet = matches!(lever.lever_id, LeverId::CultureRate(_)) && (from..=to).contains(&1.0);
    let middle = if packet { 1.0 } else { 0.5 * (from + to) };
    let to = if lever.step > 0.0 { (middle / lever.step).round() * lever.step } else { middle };
    let there = (lever.value - to).abs() < 0.5 * lever.step;
    // A dose inside of its span is off what the packet says all the same.
    (!there && (!inside || asked)).then_some(Usual { to, inside: inside && !packet })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lever(lever_id: LeverId, value: f64, usual: Option<(f64, f64)>) -> Lever {
        let range = (0.0, 100.0);
        Lever { lever_id, name: String::new(), unit: "", value, range, usual, step: 0.5, decimals: 1 }
    }

    #[test]
    fn the_middle_of_the_span_or_what_the_packet_says() {
        let to = |lever_id, value, usual| of(&lever(lever_id, value, Some(usual))).map(|u| (u.to, u.inside));
        assert_eq!(to(LeverId::CultureRate(0), 0.1, (0.5, 2.0)), Some((1.0, false)));
        assert_eq!(to(LeverId::CultureRate(0), 2.0, (0.5, 2.0)), Some((1.0, false)));
        assert_eq!(to(LeverId::HoldTemperature, 55.0, (37.0, 43.0)), Some((40.0, false)));
        assert_eq!(to(LeverId::HoldTemperature, 38.0, (37.0, 43.0)), Some((40.0, true)));
        assert_eq!(to(LeverId::SugarDose(0), 12.0, (10.0, 15.0)), None);
        assert_eq!(to(LeverId::SugarDose(0), 40.0, (10.0, 15.0)), Some((12.5, false)));
        assert_eq!(of(&lever(LeverId::SugarDose(0), 3.0, None)), None);
    }
}
