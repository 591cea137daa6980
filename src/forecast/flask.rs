//! How fast a warmer of this kitchen that only keeps warmth loses it, from readings of a pot of water in it.

use potset_base::measures::whole::volume_plain;
use potset_base::number::plain;
use potset_base::units::said::{warmth_apart, warmth_plain};
use potset_base::{Cited, Note, SourceKind, Spread, number};
use potset_doc::kitchen::FlaskReading;
use potset_doc::{Design, Kitchen, pantry};
use potset_science::params::WayLaw;
use potset_science::thermal::Course;
use potset_science::thermal::flask::{self, Cooling};

/// The loss of one warmer, as it was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlaskLoss {
    /// Time constant of cooling one litre, h.
    pub cooling_h: f64,
    /// Factor by which it may be off either way, as bounds of the middle 90 %; 1 where the thermometer is exact.
    pub times: f64,
    /// Readings that it comes of.
    pub readings: usize,
    volume_exponent: f64,
}

impl FlaskLoss {
    /// Hours in which so many litres lose half of their warmth above the room.
    pub fn half_lost_h(&self, litres: f64) -> f64 {
        flask::half_lost_h(self.cooling_h * grows(litres, self.volume_exponent))
    }

    /// The loss in words: "With 1 L in it, it loses half of its warmth above the room in 14 h."
    pub fn sentence(&self, litres: f64) -> String {
        let half = number::with_unit(self.half_lost_h(litres), 0, "h");
        let litres = volume_plain(litres);
        format!("With {litres} in it, it loses half of its warmth above the room in {half}.")
    }
}

/// By which factor time constants of a volume are longer than those of one litre.
pub fn grows(litres: f64, volume_exponent: f64) -> f64 {
    litres.max(1e-3).powf(volume_exponent)
}

/// The loss of a warmer by all of its readings; nothing where it has none.
///
/// `τ₁ = τ / V^n` of each, then their mean; `τ` and the mean by [`flask`](mod@flask), `V` in litres, `n` the volume exponent.
///
/// # Errors
/// The first reading that tells nothing, with its field and what to do.
pub fn loss(kitchen: &Kitchen, warmer: &str, ways: &WayLaw) -> Result<Option<FlaskLoss>, Note> {
    let mut all = Vec::new();
    for (place, reading) in kitchen.flask_readings(warmer) {
        if let Some(note) = reading.fault(place, kitchen.thermometer_c) {
            return Err(note);
        }
        let FlaskReading { filled_c, reads_c, after_h, room_c, litres, .. } = *reading;
        let cooling = Cooling { filled_c, reads_c, after_h, room_c };
        if let Some(tau_h) = cooling.time_constant() {
            all.push((tau_h / grows(litres, ways.volume_exponent), cooling.off_by(kitchen.thermometer_c)));
        }
    }
    Ok(flask::mean(&all).map(|(cooling_h, off)| FlaskLoss {
        cooling_h,
        times: off.exp(),
        readings: all.len(),
        volume_exponent: ways.volume_exponent,
    }))
}

/// What a pot of so many litres would read if a warmer lost its warmth with a time constant of one litre, h: a reading to
/// start from.
pub fn likely_reading(kitchen: &Kitchen, warmer: &str, cooling_h: f64, ways: &WayLaw) -> FlaskReading {
    let (filled_c, after_h, litres) = (42.0, 12.0, 1.0);
    let tau_h = cooling_h * grows(litres, ways.volume_exponent);
    let reads_c = Course::from(0.0).newton(filled_c, kitchen.room_c, tau_h, after_h);
    let reads_c = (10.0 * reads_c).round() / 10.0;
    FlaskReading { key: warmer.to_owned(), filled_c, after_h, reads_c, room_c: kitchen.room_c, litres }
}

/// The measured loss of each warmer of a design that only keeps warmth, in the place of the pantry's figure: the path of that
/// figure, and what stands there. Readings that tell nothing are left out.
pub fn figures(own: &Design, kitchen: &Kitchen, ways: &WayLaw) -> Vec<(String, Cited)> {
    let of = |warmer: &pantry::Warmer| {
        let pantry::Warming::Insulated { cooling_h } = &warmer.warming else { return None };
        let loss = loss(kitchen, &warmer.key, ways).ok()??;
        Some((
            format!("warmers.{}.warming.cooling_h", warmer.key),
            cited(&loss, kitchen, &warmer.key, cooling_h),
        ))
    };
    own.snapshot.warmers.iter().filter_map(of).collect()
}

fn cited(loss: &FlaskLoss, kitchen: &Kitchen, warmer: &str, entry: &Cited) -> Cited {
    let v = loss.cooling_h;
    let spread =
        if loss.times > 1.0 { Spread::LogNormal(v / loss.times, v * loss.times) } else { Spread::Exact };
    let read = |reading: &FlaskReading| {
        format!(
            "{} filled at {} reads {} after {} h, room {}",
            volume_plain(reading.litres),
            warmth_plain(reading.filled_c),
            warmth_plain(reading.reads_c),
            plain(reading.after_h),
            warmth_plain(reading.room_c)
        )
        .replace(number::NBSP, " ")
    };
    let readings: Vec<String> = kitchen.flask_readings(warmer).map(|(_, reading)| read(reading)).collect();
    let text = format!(
        "measured; derived by Newton's law of cooling from: {}; bounds by the thermometer's {}",
        readings.join("; "),
        warmth_apart(kitchen.thermometer_c, 1)
    );
    Cited { spread, ..Cited::new(v, &*entry.unit, SourceKind::Own, text) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::params;
    use potset_doc::assets;

    fn ways() -> WayLaw {
        params::shipped().unwrap().laws().ways
    }

    fn read(reads_c: f64, litres: f64) -> FlaskReading {
        FlaskReading { key: "flask".into(), filled_c: 42.0, after_h: 12.0, reads_c, room_c: 21.0, litres }
    }

    fn of(readings: &[FlaskReading]) -> FlaskLoss {
        let kitchen = Kitchen { flasks: readings.to_vec(), ..Kitchen::default() };
        loss(&kitchen, "flask", &ways()).unwrap().unwrap()
    }

    #[test]
    fn a_litre_loses_as_it_was_read_and_more_litres_lose_slower() {
        let one = of(&[read(36.0, 1.0)]);
        assert!((one.cooling_h - 35.664).abs() < 1e-3 && one.readings == 1);
        let two = of(&[read(36.0, 2.0)]);
        assert!(two.cooling_h < one.cooling_h);
        // Of the volume that was read, each loses half alike.
        assert!((two.half_lost_h(2.0) - one.half_lost_h(1.0)).abs() < 1e-9);
        let said = of(&[read(33.0, 1.0)]).sentence(1.0);
        assert_eq!(said, "With 1\u{a0}L in it, it loses half of its warmth above the room in 15\u{a0}h.");
    }

    #[test]
    fn a_worse_thermometer_tells_less_and_more_readings_tell_more() {
        let times = |thermometer_c: f64, n: usize| {
            let flasks = vec![read(36.0, 1.0); n];
            let kitchen = Kitchen { thermometer_c, flasks, ..Kitchen::default() };
            loss(&kitchen, "flask", &ways()).unwrap().unwrap().times
        };
        assert_eq!(times(0.0, 1), 1.0);
        assert!(times(0.5, 1) < times(1.0, 1) && times(1.0, 3) < times(1.0, 1));
    }

    #[test]
    fn a_reading_that_tells_nothing_is_an_error_and_no_reading_is_none() {
        let kitchen = Kitchen { flasks: vec![read(36.0, 1.0), read(43.0, 1.0)], ..Kitchen::default() };
        assert_eq!(loss(&kitchen, "flask", &ways()).unwrap_err().field, "kitchen.flasks[1].reads_c");
        assert_eq!(loss(&kitchen, "another", &ways()), Ok(None));
    }

    #[test]
    fn a_reading_to_start_from_gives_the_entrys_own_loss_back() {
        for warmer in assets::pantry().unwrap().warmers {
            let pantry::Warming::Insulated { cooling_h } = &warmer.warming else { continue };
            let reading = likely_reading(&Kitchen::default(), "flask", cooling_h.value, &ways());
            let back = of(&[reading]).cooling_h;
            assert!((back / cooling_h.value - 1.0).abs() < 0.02, "{}: {back}", warmer.key);
        }
    }
}
