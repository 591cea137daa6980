//! Reads wants as they are typed; what cannot be read is told with its mend.

use super::{Bounds, Quantity, Want};
use potset_base::clock::Moment;
use potset_base::words::{TangWord, TextureWord};
use potset_base::{Note, number};
use potset_doc::design::Clock;
use potset_doc::pantry::EntryKind;
use potset_doc::{Design, Pantry};

/// Wants that a mend names.
const EXAMPLES: &str = "Type it like texture=dollops, texture=ribbons..dollops, ph<=4.3, ph=4.1..4.3, tang=bright, \
                        sugar<=20, ready<=24h, ready<=18:30, cost<=4, fat<=10, whey<=2, vegan, gluten-free, no-cooking \
                        or only=KEY,KEY";

/// How a want compares.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Sign {
    AtMost,
    AtLeast,
    Is,
}

const SIGNS: [(&str, Sign); 7] = [
    ("<=", Sign::AtMost),
    (">=", Sign::AtLeast),
    ("≤", Sign::AtMost),
    ("≥", Sign::AtLeast),
    ("<", Sign::AtMost),
    (">", Sign::AtLeast),
    ("=", Sign::Is),
];

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
        let told = Told { text, design };
        let Some((name, sign, value)) = parts(text) else {
            return match text.to_lowercase().replace(' ', "-").as_str() {
                "vegan" => Ok(Self::Vegan),
                "gluten-free" => Ok(Self::GlutenFree),
                "no-cooking" => Ok(Self::NoCooking),
                "" => Err(Note::error("want", "Nothing was typed", EXAMPLES)),
                _ => Err(told.fault("This is nothing that can be wanted", EXAMPLES)),
            };
        };
        if name == "only" {
            return told.only(sign, value, pantry);
        }
        let quantity = Quantity::ALL.into_iter().find(|q| q.key() == name);
        let Some(quantity) = quantity else {
            return Err(told.fault(&format!("“{name}” is nothing that can be wanted"), EXAMPLES));
        };
        match quantity {
            Quantity::Texture if value.starts_with(char::is_alphabetic) => {
                let words = TextureWord::ALL.map(|w| (w.word(), w));
                told.words(sign, value, &words).map(|(low, high)| Self::Texture(low, high))
            }
            Quantity::Tang if value.starts_with(char::is_alphabetic) => {
                let words = TangWord::ALL.map(|w| (w.word(), w));
                told.words(sign, value, &words).map(|(low, high)| Self::Tang(low, high))
            }
            _ => told.bounds(quantity, sign, value).map(|bounds| Self::Within(quantity, bounds)),
        }
    }
}

/// Name in small letters, sign and value.
fn parts(text: &str) -> Option<(String, Sign, &str)> {
    let first = text.find(['<', '>', '=', '≤', '≥'])?;
    let (name, rest) = text.split_at(first);
    let (mark, sign) = SIGNS.into_iter().find(|(mark, _)| rest.starts_with(mark))?;
    Some((name.trim().to_lowercase(), sign, rest[mark.len()..].trim()))
}

/// The text of a want while it is read.
struct Told<'a> {
    text: &'a str,
    design: &'a Design,
}

impl Told<'_> {
    fn fault(&self, title: &str, mend: &str) -> Note {
        Note::error(self.text, title, mend)
    }

    /// A word or a span of words, thin to thick or mild to sharp.
    fn words<T: Copy + PartialOrd, const N: usize>(
        &self,
        sign: Sign,
        value: &str,
        words: &[(&str, T); N],
    ) -> Result<(T, T), Note> {
        let known: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
        let read = |word: &str| {
            let small = word.trim().to_lowercase();
            words.iter().find(|(w, _)| *w == small).map(|(_, t)| *t).ok_or_else(|| {
                self.fault(
                    &format!("“{}” is none of its words", word.trim()),
                    &format!("Give one of {}, or two with .. between them", known.join(", ")),
                )
            })
        };
        let (least, most) = (words[0].1, words[N - 1].1);
        let (low, high) = match (value.split_once(".."), sign) {
            (Some(_), Sign::AtMost | Sign::AtLeast) => return Err(self.two_bounds()),
            (Some((low, high)), Sign::Is) => (read(low)?, read(high)?),
            (None, Sign::Is) => (read(value)?, read(value)?),
            (None, Sign::AtMost) => (least, read(value)?),
            (None, Sign::AtLeast) => (read(value)?, most),
        };
        if low > high {
            return Err(self.fault(
                "The range runs the wrong way round",
                &format!("Give the earlier word of {} first", known.join(", ")),
            ));
        }
        Ok((low, high))
    }

    fn two_bounds(&self) -> Note {
        self.fault("A range has both its ends already", "Write = before a range, as in ph=4.1..4.3")
    }

    fn bounds(&self, q: Quantity, sign: Sign, value: &str) -> Result<Bounds, Note> {
        let (low, high) = match (value.split_once(".."), sign) {
            (Some(_), Sign::AtMost | Sign::AtLeast) => return Err(self.two_bounds()),
            (Some((low, high)), Sign::Is) => (Some(self.value(q, low)?), Some(self.value(q, high)?)),
            (None, Sign::AtMost) => (None, Some(self.value(q, value)?)),
            (None, Sign::AtLeast) => (Some(self.value(q, value)?), None),
            (None, Sign::Is) => {
                let v = number::plain(self.value(q, value)?);
                return Err(self.fault(
                    "No pot meets a single value",
                    &format!("Give {0}<={v}, {0}>={v}, or a range with .. between its ends", q.key()),
                ));
            }
        };
        if let (Some(low), Some(high)) = (low, high)
            && low >= high
        {
            return Err(self.fault("The range runs the wrong way round", "Give its smaller end first"));
        }
        Ok(Bounds { low, high })
    }

    /// A number in the unit of its quantity; hours may be a time of day.
    fn value(&self, q: Quantity, text: &str) -> Result<f64, Note> {
        let text = text.trim();
        if q == Quantity::Ready && text.contains(':') {
            return self.hours_to(text);
        }
        let end =
            text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+' | '\u{2212}')));
        let (digits, unit) = text.split_at(end.unwrap_or(text.len()));
        let unit = unit.trim().to_lowercase();
        if !units(q).contains(&unit.as_str()) {
            let own = units(q).get(1).copied().unwrap_or("no unit");
            return Err(self.fault(
                &format!("“{unit}” is not what {} is measured in", q.name()),
                &format!("Give a number, or a number and {own}"),
            ));
        }
        let v = number::parse(digits).ok_or_else(|| {
            self.fault(
                &format!("“{text}” is not a number it can use"),
                &format!("Type it like {}", example(q)),
            )
        })?;
        let v = if unit == MINUTES { v / 60.0 } else { v };
        let (least, most) = q.range();
        if !(least..=most).contains(&v) {
            return Err(self.fault(
                &format!("{} is beyond what can be asked for", number::plain(v)),
                format!("Give {} to {} {}", number::plain(least), number::plain(most), q.unit()).trim_end(),
            ));
        }
        Ok(v)
    }

    /// Hours from the start of the hold to a time of day, or to a date and time.
    fn hours_to(&self, text: &str) -> Result<f64, Note> {
        let start = match &self.design.clock {
            Clock::StartsAt(start) => start,
            Clock::ReadyBy(_) => {
                return Err(self.fault(
                    "The design says when it is to be ready, so its start moves with the hold",
                    "Type hours, as in ready<=24h, or give the design a start",
                ));
            }
            Clock::Open => {
                return Err(self.fault(
                    "Nothing says when the pot starts, so a time of day cannot be counted",
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
        let (least, most) = Quantity::Ready.range();
        if (least..=most).contains(&hours) {
            Ok(hours)
        } else {
            Err(self.fault(
                &format!("That is {} after the start", number::hours(hours)),
                "Give a time after the start, within four days",
            ))
        }
    }

    /// What there is: keys or names of entries.
    fn only(&self, sign: Sign, value: &str, pantry: &Pantry) -> Result<Want, Note> {
        if sign != Sign::Is {
            return Err(self.fault("A list has no more and no less", "Write only=KEY,KEY"));
        }
        let mut keys: Vec<String> = Vec::new();
        for name in value.split(',').map(str::trim).filter(|name| !name.is_empty()) {
            let found = [pantry, &self.design.snapshot].into_iter().find_map(|p| key_of(p, name));
            let key = found.ok_or_else(|| {
                self.fault(
                    &format!("The pantry has nothing to eat called {name}"),
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

/// The one other unit that a quantity is said in.
const MINUTES: &str = "min";

/// Spellings of a quantity's unit; the first is none at all.
const fn units(q: Quantity) -> &'static [&'static str] {
    match q {
        Quantity::Texture => &["", "pa·s", "pa.s", "pas", "pa s"],
        Quantity::Tang => &["", "mmol/kg"],
        Quantity::Ph => &[""],
        Quantity::Sugar => &["", "g/l"],
        Quantity::Ready => &["", "h", "hours", "hour", MINUTES],
        Quantity::Cost => &["", "per kg", "/kg"],
        Quantity::Fat => &["", "g/100 g", "g/100g", "%"],
        Quantity::Whey | Quantity::ThinLayer => &["", "%"],
    }
}

const fn example(q: Quantity) -> &'static str {
    match q {
        Quantity::Texture => "0.9",
        Quantity::Tang => "12",
        Quantity::Ph => "4.3",
        Quantity::Sugar => "20 g/L",
        Quantity::Ready => "24 h or 18:30",
        Quantity::Cost => "4.50",
        Quantity::Fat => "10 g/100 g",
        Quantity::Whey => "2 %",
        Quantity::ThinLayer => "10 %",
    }
}
