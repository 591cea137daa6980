//! This maker's kitchen: how it says warmth and amounts, scale, spoons, thermometer, pH, warmers, vessels, altitude, room, tap and fridge, money. Kept
//! apart from designs.

use serde::{Deserialize, Serialize};

use super::packets::KeptPacket;
use potset_base::acidity::AcidityUnit;
use potset_base::label_rule::LabelRule;
use potset_base::measures::SpoonSet;
use potset_base::units::said::{warmth, warmth_apart};
use potset_base::units::{Amounts, Degrees, Units};
use potset_base::{Note, choices, number};

choices! {
    /// What tells the pH in this kitchen.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum PhBy: words {
        #[default]
        TasteAndLook => "taste and look",
        Strips => "strips",
        Meter => "a pH meter",
    }
}

/// A warmer of this kitchen, measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MeasuredWarmer {
    /// Key of the pantry's warmer.
    pub key: String,
    /// What the pot really reaches above its setting, °C.
    pub offset_c: f64,
    /// When it was measured, as the maker writes it.
    #[serde(default)]
    pub checked: String,
}

/// A pot of water in a warmer that only keeps warmth, read after some hours.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FlaskReading {
    /// Key of the pantry's warmer.
    pub key: String,
    /// The water as it was filled in, °C.
    pub filled_c: f64,
    /// Hours from then to the reading.
    pub after_h: f64,
    /// What it reads then, °C.
    pub reads_c: f64,
    /// The room, °C.
    pub room_c: f64,
    /// Water in it, L.
    pub litres: f64,
}

impl FlaskReading {
    /// Why the reading with this place in the list cannot tell how fast the warmer loses its warmth, if it cannot.
    ///
    /// - `thermometer_c` — the error of the thermometer, °C.
    pub fn fault(&self, place: usize, thermometer_c: f64) -> Option<Note> {
        let field = |name: &str| format!("kitchen.flasks[{place}].{name}");
        let error = |name: &str, title: &str, mend: &str| Some(Note::error(field(name), title, mend));
        for (name, v) in [
            ("filled_c", self.filled_c),
            ("after_h", self.after_h),
            ("reads_c", self.reads_c),
            ("room_c", self.room_c),
            ("litres", self.litres),
        ] {
            if !v.is_finite() {
                return error(
                    name,
                    "A reading of your warmer is not a number",
                    "Type it again under Kitchen",
                );
            }
        }
        if self.after_h <= 0.0 {
            return error(
                "after_h",
                "A reading of your warmer has no hours",
                "Under Kitchen, give the hours from filling to reading",
            );
        }
        if self.litres <= 0.0 {
            return error(
                "litres",
                "A reading of your warmer has no water",
                "Under Kitchen, give the litres of water in it",
            );
        }
        let why = if self.reads_c > self.filled_c {
            ("Your warmer reads warmer than it was filled", self.filled_c, "it was filled at")
        } else if self.reads_c < self.room_c {
            ("Your warmer reads colder than the room", self.room_c, "the room has")
        } else if self.filled_c - self.reads_c < thermometer_c || self.filled_c <= self.reads_c {
            let title = "Your warmer cooled less than your thermometer can tell";
            let sentence = format!(
                "It cooled by {}, and your thermometer may err by {}",
                warmth_apart(self.filled_c - self.reads_c, 1),
                warmth_apart(thermometer_c, 1)
            );
            let mend = "Wait longer, then read it again";
            return error("reads_c", title, mend).map(|note| Note { sentence, ..note });
        } else if self.reads_c - self.room_c < thermometer_c || self.reads_c <= self.room_c {
            let title = "Your warmer has cooled down to the room";
            return error("reads_c", title, "Fill it again, and read it sooner");
        } else {
            return None;
        };
        let (title, other_c, words) = why;
        let sentence = format!("It reads {}, and {words} {}", warmth(self.reads_c, 1), warmth(other_c, 1));
        error("reads_c", title, "Check both temperatures under Kitchen").map(|note| Note { sentence, ..note })
    }
}

/// Vessels of this kitchen.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct VesselsHere {
    /// Key of the pantry's vessel.
    pub key: String,
    pub count: u32,
}

/// The kitchen. Every field has a usual value, so an old file still opens.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Kitchen {
    /// How warmth is said.
    #[serde(skip_serializing_if = "usual")]
    pub degrees: Degrees,
    /// How amounts are said.
    #[serde(skip_serializing_if = "usual")]
    pub amounts: Amounts,
    /// How titratable acidity is said.
    #[serde(skip_serializing_if = "usual")]
    pub acidity: AcidityUnit,
    /// Smallest step of the scale, g.
    pub scale_step_g: f64,
    /// How far repeated weighings of the same thing spread (one standard deviation), g; 0 if not known.
    pub scale_repeat_g: f64,
    pub scale_checked: String,
    /// Spoons of new designs.
    pub spoons: SpoonSet,
    /// Error of the thermometer, °C.
    pub thermometer_c: f64,
    pub thermometer_checked: String,
    pub ph_by: PhBy,
    /// Smallest step that it tells.
    pub ph_step: f64,
    pub ph_checked: String,
    pub altitude_m: f64,
    pub room_c: f64,
    /// Hot tap water, °C.
    pub hot_tap_c: f64,
    /// Cold tap water, °C.
    pub cold_tap_c: f64,
    pub fridge_c: f64,
    pub warmers: Vec<MeasuredWarmer>,
    /// Readings of warmers that only keep warmth; several of one warmer count together.
    pub flasks: Vec<FlaskReading>,
    pub vessels: Vec<VesselsHere>,
    /// Packets of culture.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub packets: Vec<KeptPacket>,
    /// Sign or letters of the money that prices are in.
    pub currency: String,
    /// By which custom nutrition is printed.
    pub label_rule: LabelRule,
}

/// Whether a choice is as usual: then a file is silent about it.
fn usual<T: Default + PartialEq>(choice: &T) -> bool {
    *choice == T::default()
}

impl Default for Kitchen {
    /// A usual kitchen (assumed; the maker sets their own).
    fn default() -> Self {
        Self {
            degrees: Degrees::default(),
            amounts: Amounts::default(),
            acidity: AcidityUnit::default(),
            scale_step_g: 0.1,
            scale_repeat_g: 0.0,
            scale_checked: String::new(),
            spoons: SpoonSet::default(),
            thermometer_c: 1.0,
            thermometer_checked: String::new(),
            ph_by: PhBy::default(),
            ph_step: 0.5,
            ph_checked: String::new(),
            altitude_m: 0.0,
            room_c: 21.0,
            hot_tap_c: 55.0,
            cold_tap_c: 15.0,
            fridge_c: 4.0,
            warmers: Vec::new(),
            flasks: Vec::new(),
            vessels: Vec::new(),
            packets: Vec::new(),
            currency: String::new(),
            label_rule: LabelRule::default(),
        }
    }
}

impl Kitchen {
    /// How it says warmth, amounts and acidity.
    pub const fn units(&self) -> Units {
        Units { degrees: self.degrees, amounts: self.amounts, acidity: self.acidity }
    }

    /// The same kitchen with amounts said so, and the spoons of new designs with them.
    pub fn with_amounts(self, amounts: Amounts) -> Self {
        let spoons = match amounts {
            Amounts::UsCustomary => SpoonSet::UnitedStates,
            Amounts::Metric if self.spoons == SpoonSet::UnitedStates => SpoonSet::default(),
            Amounts::Metric => self.spoons,
        };
        Self { amounts, spoons, ..self }
    }

    /// How far a weighing may be off, g: half a step, or twice the spread of repeated weighings if that is more.
    pub const fn weighing_error_g(&self) -> f64 {
        (0.5 * self.scale_step_g).max(2.0 * self.scale_repeat_g)
    }

    /// What a warmer of this kitchen was measured to reach above its setting, °C.
    pub fn offset_c(&self, warmer: &str) -> Option<f64> {
        self.warmers.iter().find(|w| w.key == warmer).map(|w| w.offset_c)
    }

    /// Readings of one warmer that only keeps warmth, each with its place in the list.
    pub fn flask_readings(&self, warmer: &str) -> impl Iterator<Item = (usize, &FlaskReading)> {
        self.flasks.iter().enumerate().filter(move |(_, reading)| reading.key == warmer)
    }

    /// Puts readings of a warmer in the place of those that it had; the readings become those of this warmer.
    pub fn set_flask_readings(&mut self, warmer: &str, readings: impl IntoIterator<Item = FlaskReading>) {
        self.flasks.retain(|reading| reading.key != warmer);
        self.flasks
            .extend(readings.into_iter().map(|reading| FlaskReading { key: warmer.to_owned(), ..reading }));
    }

    /// An amount of money: "€ 1.20", or the bare number where no currency is set.
    pub fn money(&self, amount: f64) -> String {
        let figure = number::fixed(amount, 2);
        if self.currency.is_empty() { figure } else { format!("{}{}{figure}", self.currency, number::NBSP) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::format;

    fn read() -> FlaskReading {
        FlaskReading {
            key: "flask".into(),
            filled_c: 42.0,
            after_h: 12.0,
            reads_c: 36.0,
            room_c: 21.0,
            litres: 1.0,
        }
    }

    #[test]
    fn what_a_reading_cannot_tell_is_said_with_field_and_mend() {
        assert_eq!(read().fault(0, 1.0), None);
        for (reading, field, words) in [
            (FlaskReading { reads_c: 43.0, ..read() }, "reads_c", "warmer than it was filled"),
            (FlaskReading { reads_c: 20.0, ..read() }, "reads_c", "colder than the room"),
            (FlaskReading { reads_c: 41.5, ..read() }, "reads_c", "less than your thermometer can tell"),
            (FlaskReading { reads_c: 42.0, ..read() }, "reads_c", "less than your thermometer can tell"),
            (FlaskReading { reads_c: 21.4, ..read() }, "reads_c", "down to the room"),
            (FlaskReading { room_c: 50.0, ..read() }, "reads_c", "colder than the room"),
            (FlaskReading { after_h: 0.0, ..read() }, "after_h", "no hours"),
            (FlaskReading { litres: 0.0, ..read() }, "litres", "no water"),
            (FlaskReading { room_c: f64::NAN, ..read() }, "room_c", "not a number"),
        ] {
            let note = reading.fault(2, 1.0).unwrap();
            assert_eq!(note.field, format!("kitchen.flasks[2].{field}"));
            assert!(note.title.contains(words) && !note.mend.is_empty(), "{note:?}");
        }
        // A finer thermometer can tell it; even an exact one cannot where nothing was lost.
        assert_eq!(FlaskReading { reads_c: 41.5, ..read() }.fault(0, 0.1), None);
        assert!(FlaskReading { reads_c: 42.0, ..read() }.fault(0, 0.0).is_some());
    }

    #[test]
    fn readings_are_kept_replaced_and_an_older_kitchen_opens() {
        let mut kitchen = Kitchen::default();
        kitchen.set_flask_readings("flask", [read(), FlaskReading { after_h: 8.0, reads_c: 38.0, ..read() }]);
        kitchen.set_flask_readings("box", [read()]);
        assert_eq!(kitchen.flask_readings("flask").map(|(place, _)| place).collect::<Vec<_>>(), [0, 1]);
        assert_eq!(kitchen.flasks[2].key, "box");
        let text = format::write(&kitchen).unwrap();
        assert_eq!(format::read::<Kitchen>(text.as_bytes()).unwrap(), kitchen);
        kitchen.set_flask_readings("flask", [FlaskReading { reads_c: 30.0, ..read() }]);
        assert_eq!(kitchen.flask_readings("flask").count(), 1);
        kitchen.set_flask_readings("flask", []);
        kitchen.set_flask_readings("box", []);
        assert_eq!(kitchen, Kitchen::default());
        let text = r#"(format: "potset kitchen", version: 1, body: (room_c: 19.0))"#;
        let older: Kitchen = format::read(text.as_bytes()).unwrap();
        assert!(older.flasks.is_empty() && older.room_c == 19.0);
    }

    #[test]
    fn a_kitchen_keeps_how_it_speaks_and_an_older_one_is_metric() {
        let us =
            Kitchen { degrees: Degrees::Fahrenheit, ..Kitchen::default() }.with_amounts(Amounts::UsCustomary);
        assert_eq!(us.spoons, SpoonSet::UnitedStates);
        let text = format::write(&us).unwrap();
        assert!(text.contains("degrees: fahrenheit") && text.contains("amounts: us_customary"), "{text}");
        assert_eq!(format::read::<Kitchen>(text.as_bytes()).unwrap(), us);
        assert_eq!(us.with_amounts(Amounts::Metric).spoons, SpoonSet::Metric);
        let old = r#"(format: "potset kitchen", version: 1, body: (room_c: 19.0))"#;
        assert_eq!(format::read::<Kitchen>(old.as_bytes()).unwrap().units(), Units::default());
        let strange = r#"(format: "potset kitchen", version: 1, body: (degrees: kelvin))"#;
        assert!(format::read::<Kitchen>(strange.as_bytes()).is_err());
    }

    #[test]
    fn the_worse_of_step_and_spread_counts() {
        let kitchen = Kitchen::default();
        assert!((kitchen.weighing_error_g() - 0.05).abs() < 1e-12);
        let shaky = Kitchen { scale_repeat_g: 0.1, ..kitchen };
        assert!((shaky.weighing_error_g() - 0.2).abs() < 1e-12);
        assert_eq!(shaky.money(1.2), "1.20");
        assert_eq!(Kitchen { currency: "€".into(), ..shaky }.money(1.2), "€\u{a0}1.20");
    }
}
