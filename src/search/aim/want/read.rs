//! Reads wants as they are typed; what cannot be read is told with its mend.

use super::{Bounds, Want, plain};
use potset_base::clock::Moment;
use potset_base::{Note, number};
use potset_doc::design::Clock;
use potset_doc::pantry::EntryKind;
use potset_doc::{Design, Pantry};
use potset_forecast::observable::{MINUTES, Observable, Wanted};

/// Wants that a mend names.
const EXAMPLES: &str = "Type it like dollops, bright tang, ready within 24 h, or texture=dollops, texture=ribbons..dollops, ph<=4.3, ph=4.1..4.3, tang=bright, \
                        sugar<=20, ready<=24h, ready<=18:30, cost<=4, fat<=10, whey<=2, vegan, gluten-free, no-cooking \
                        or only=KEY,KEY";

/// What is said of a range whose ends are in each other's place.
const WRONG_WAY: &str = "The range runs the wrong way round";

/// How a want compares.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Sign {
    AtMost,
    AtLeast,
    Is,
}

impl Want {
    /// Reads a want.
    ///
    /// - `design` — its clock turns a time of day into hours; its own entries count beside the pantry's.
    ///
    /// # Errors
    /// A note that names the want and says how to type it: nothing that can be wanted, a word or number that cannot be read, a
    /// unit that does not fit, bounds the wrong way round, a single value where a range is needed, a time of day without a start.
    pub fn read(text: &str, design: &Design, pantry: &Pantry) -> Result<Self, Note> {
        let text = text.replace(number::NBSP, " ");
        let text = text.trim();
        let told = WantText { text, design };
        let Some((name, sign, value)) = parts(text) else {
            let small = text.to_lowercase().replace(' ', "-");
            return match Self::RULES.into_iter().find(|rule| rule.to_string() == small) {
                Some(rule) => Ok(rule),
                None if plain::begins(text) => told.plain(),
                None if text.is_empty() => Err(Note::error("want", "Nothing was typed", EXAMPLES)),
                None => Err(told.fault("This is not a goal", EXAMPLES)),
            };
        };
        if name == "only" {
            return told.only(sign, value, pantry);
        }
        let Some(outcome) = Observable::WANTED.into_iter().find(|o| o.wanted().key == name) else {
            return Err(told.fault(&format!("There is no goal called “{name}”"), EXAMPLES));
        };
        let scale = outcome.wanted().scale;
        if !scale.is_empty() && value.starts_with(char::is_alphabetic) {
            return told.words(sign, value, scale).map(|(low, high)| Self::Called(outcome, low, high));
        }
        told.bounds(outcome, sign, value).map(|bounds| Self::Within(outcome, bounds))
    }
}

/// Name in small letters, sign and value.
fn parts(text: &str) -> Option<(String, Sign, &str)> {
    let first = text.find(['<', '>', '=', '≤', '≥'])?;
    let (name, rest) = text.split_at(first);
    let mark = rest.chars().next()?;
    let rest = &rest[mark.len_utf8()..];
    let (sign, rest) = match mark {
        '=' => (Sign::Is, rest),
        '<' | '≤' => (Sign::AtMost, rest.strip_prefix('=').unwrap_or(rest)),
        _ => (Sign::AtLeast, rest.strip_prefix('=').unwrap_or(rest)),
    };
    Some((name.trim().to_lowercase(), sign, rest.trim()))
}

/// The text of a want while it is read.
struct WantText<'a> {
    text: &'a str,
    design: &'a Design,
}

impl WantText<'_> {
    fn fault(&self, title: &str, mend: &str) -> Note {
        Note::error(self.text, title, mend)
    }

    /// Both ends of a range, or the one that a sign leaves; twice the same where there is one value.
    fn ends<T: Copy>(
        &self,
        sign: Sign,
        value: &str,
        read: impl Fn(&str) -> Result<T, Note>,
    ) -> Result<(Option<T>, Option<T>), Note> {
        Ok(match (value.split_once(".."), sign) {
            (Some(_), Sign::AtMost | Sign::AtLeast) => {
                let mend = "Write = before a range, as in ph=4.1..4.3";
                return Err(self.fault("A range has both its ends already", mend));
            }
            (Some((low, high)), Sign::Is) => (Some(read(low)?), Some(read(high)?)),
            (None, Sign::Is) => (Some(read(value)?), Some(read(value)?)),
            (None, Sign::AtMost) => (None, Some(read(value)?)),
            (None, Sign::AtLeast) => (Some(read(value)?), None),
        })
    }

    /// A word of a scale or a span of them, by their places.
    fn words(&self, sign: Sign, value: &str, scale: &[&str]) -> Result<(usize, usize), Note> {
        let known = scale.join(", ");
        let read = |word: &str| {
            let word = word.trim();
            let small = word.to_lowercase();
            scale.iter().position(|w| *w == small).ok_or_else(|| {
                let mend = format!("Give one of {known}, or two with .. between them");
                self.fault(&format!("“{word}” is not one of its words"), &mend)
            })
        };
        let (low, high) = self.ends(sign, value, read)?;
        let (low, high) = (low.unwrap_or(0), high.unwrap_or(scale.len() - 1));
        if low > high {
            let mend = format!("Give the earlier word of {known} first");
            return Err(self.fault(WRONG_WAY, &mend));
        }
        Ok((low, high))
    }

    fn bounds(&self, outcome: Observable, sign: Sign, value: &str) -> Result<Bounds, Note> {
        let (low, high) = self.ends(sign, value, |text| self.value(outcome, text))?;
        match (low, high) {
            (Some(low), Some(_)) if !value.contains("..") => {
                let (key, v) = (outcome.wanted().key, number::plain(low));
                let mend = format!("Give {key}<={v}, {key}>={v}, or a range with .. between its ends");
                Err(self.fault("No pot meets a single value", &mend))
            }
            (Some(low), Some(high)) if low >= high => {
                Err(self.fault(WRONG_WAY, "Give its smaller end first"))
            }
            (low, high) => Ok(Bounds { low, high }),
        }
    }

    /// What is said without a sign: a word of a scale, or how soon.
    fn plain(&self) -> Result<Want, Note> {
        if let Some(time) = plain::ready_by(self.text) {
            let high = Some(self.value(Observable::ReadyFrom, &time)?);
            return Ok(Want::Within(Observable::ReadyFrom, Bounds { low: None, high }));
        }
        plain::called(self.text).ok_or_else(|| self.fault("This is not a goal", EXAMPLES))
    }

    /// A number in the unit of its outcome; hours may be a time of day.
    fn value(&self, outcome: Observable, text: &str) -> Result<f64, Note> {
        let text = text.trim();
        if outcome == Observable::ReadyFrom && text.contains(':') {
            return self.hours_to(text);
        }
        let Wanted { name, range: (least, most), spellings, example, .. } = outcome.wanted();
        let end =
            text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+' | '\u{2212}')));
        let (digits, unit) = text.split_at(end.unwrap_or(text.len()));
        let (unit, own) = (unit.trim().to_lowercase(), outcome.unit().to_lowercase());
        if !(unit.is_empty() || unit == own || spellings.contains(&unit.as_str())) {
            let own = if own.is_empty() { "no unit" } else { &own };
            return Err(self.fault(
                &format!("“{unit}” is not what {name} is measured in"),
                &format!("Give a number, or a number and {own}"),
            ));
        }
        let v = number::parse(digits).ok_or_else(|| {
            self.fault(&format!("“{text}” is not a usable number"), &format!("Type it like {example}"))
        })?;
        let v = if unit == MINUTES { v / 60.0 } else { v };
        if !(*least..=*most).contains(&v) {
            let mend =
                format!("Give {} to {} {}", number::plain(*least), number::plain(*most), outcome.unit());
            let title = format!("{} is beyond what can be asked for", number::plain(v));
            return Err(self.fault(&title, mend.trim_end()));
        }
        Ok(v)
    }

    /// Hours from the start of the hold to a time of day, or to a date and time.
    fn hours_to(&self, text: &str) -> Result<f64, Note> {
        let start = match &self.design.clock {
            Clock::StartsAt(start) => start,
            Clock::ReadyBy(_) => {
                return Err(self.fault(
                    "The design is to be ready at a set time, and its start moves with the hold",
                    "Type hours, as in ready<=24h, or give the design a start",
                ));
            }
            Clock::Open => {
                return Err(self.fault(
                    "The design has no start, and a time of day cannot be counted",
                    "Give the design a start, or type hours, as in ready<=24h",
                ));
            }
        };
        let bad = || self.fault(&format!("“{text}” is no time"), "Type it like 18:30, or 2026-11-27 18:30");
        let start = Moment::parse(start).ok_or_else(bad)?;
        let hours = match Moment::parse(text) {
            Some(at) => at.hours_since(start),
            None => {
                let at = start.at(text).ok_or_else(bad)?.hours_since(start);
                if at > 0.0 { at } else { at + 24.0 }
            }
        };
        let (least, most) = Observable::ReadyFrom.wanted().range;
        if (least..=most).contains(&hours) {
            Ok(hours)
        } else {
            Err(self.fault(
                &format!("This time is {} after the start", number::hours(hours)),
                "Give a time after the start, within four days",
            ))
        }
    }

    /// What there is: keys or names of entries.
    fn only(&self, sign: Sign, value: &str, pantry: &Pantry) -> Result<Want, Note> {
        if sign != Sign::Is {
            return Err(self.fault("A list has only =, no < and no >", "Write only=KEY,KEY"));
        }
        let mut keys: Vec<String> = Vec::new();
        for name in value.split(',').map(str::trim).filter(|name| !name.is_empty()) {
            let found = [pantry, &self.design.snapshot].into_iter().find_map(|p| key_of(p, name));
            let key = found.ok_or_else(|| {
                self.fault(
                    &format!("The pantry has no ingredient called {name}"),
                    "Give keys or names as potset pantry lists them, with commas between them",
                )
            })?;
            if !keys.contains(&key) {
                keys.push(key);
            }
        }
        if keys.is_empty() {
            return Err(
                self.fault("The list is empty", "Give what there is, as in only=whole_cows_milk,dairy_pair")
            );
        }
        Ok(Want::Only(keys))
    }
}

/// The key of an entry by its key or its name.
fn key_of(pantry: &Pantry, name: &str) -> Option<String> {
    let small = name.to_lowercase();
    EntryKind::EATEN.into_iter().find_map(|kind| {
        let mut all = pantry.entries(kind).into_iter();
        all.find(|e| e.key() == small || e.name().to_lowercase() == small).map(|e| e.key().to_owned())
    })
}
