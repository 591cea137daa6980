//! The usual cautions in words, for the help sheet. Every hour and temperature comes from the table that the judge reads.

use potset_base::Source;
use potset_base::number::{fixed, hours};
use potset_base::units::prose::prose;
use potset_base::units::said::warmth;
use potset_forecast::hygiene::Souring;
use potset_science::params::{CautionRow, HygieneLaw, Params};

/// The cautions end so, once.
pub const DEFER: &str = "Follow local codes; ask a licensed professional before selling";

/// What is handed on carries this at its foot.
pub fn at_foot() -> String {
    format!("Advice, not permission: look and smell. {DEFER}.")
}

/// A temperature in words.
fn c(v: f64) -> String {
    warmth(v, 0)
}

/// For whom a caution is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum About {
    /// For every pot.
    Every,
    /// For a pot of this row of souring.
    Souring(Souring),
    Coconut,
    Tins,
    /// Starch in the pot, or rice.
    Starch,
    Kit,
    RawMilk,
    Meters,
}

/// A caution, with kind and reference of its source.
#[derive(Clone, Debug, PartialEq)]
pub struct Caution {
    pub about: About,
    pub title: &'static str,
    pub text: String,
    pub source: String,
}

/// The cautions that the judge of hygiene goes by, in the order of making.
fn judged(params: &Params) -> Vec<Caution> {
    let (h, cited) = (params.hygiene.plain(), &params.hygiene);
    let of = |about: About, title: &'static str, text: String, from: &Source| Caution {
        about,
        title,
        text,
        source: from.line(),
    };
    let souring = |row: &CautionRow| {
        let of_row = Souring::ALL.into_iter().find(|souring| souring.key() == row.key);
        of(of_row.map_or(About::Every, About::Souring), SLOW, slow(row), &row.from)
    };
    std::iter::once(of(About::Every, "Before the culture", before(&h), &cited.base_discard_h.from))
        .chain(params.cautions.iter().map(souring))
        .chain([of(About::Every, "Afterwards", after(&h), &cited.chill_room_h.from)])
        .collect()
}

/// Title of what is said of slow souring, a row for each sort of pot.
const SLOW: &str = "Slow souring";

fn slow(row: &CautionRow) -> String {
    format!(
        "For {}: check at {}; it should be at pH {} or lower. If it is still above pH {} at {}, throw it away.",
        prose(&row.about),
        hours(row.watch_h),
        fixed(row.watch_ph, 1),
        fixed(row.discard_ph, 1),
        hours(row.discard_h)
    )
}

fn before(h: &HygieneLaw) -> String {
    format!(
        "An opened or heated base may be above {} for {} at most before it sours. The limit is {} if it came cold \
         and stays below {}. Throw away what stood longer; heating again rescues nothing. A heated base should come \
         from {} to the warmth of the culture within {}.",
        c(h.cold_c),
        hours(h.base_discard_h),
        hours(h.base_kept_cold_discard_h),
        c(h.room_c),
        c(h.hot_c),
        hours(h.heated_watch_h)
    )
}

fn after(h: &HygieneLaw) -> String {
    format!(
        "Chill a soured pot at once: below {} within {}, below {} within {}. {}. Above {} for {}, throw it away. A pot that has not soured counts as cooked food. Bring it below {} \
         within {}, to {} within {} in all, and keep it {} days there at most.",
        c(h.room_c),
        hours(h.chill_room_h),
        c(h.fridge_c),
        hours(h.chill_fridge_h),
        keep(h),
        c(h.room_c),
        hours(h.store_warm_h),
        c(h.room_c),
        hours(h.cool_first_h),
        c(h.cold_c),
        hours(h.cool_whole_h),
        fixed(h.sweet_store_days, 0)
    )
}

/// How cold a soured pot is kept, and how long.
fn keep(h: &HygieneLaw) -> String {
    format!("Keep it at {} or less for up to {} days", c(h.cold_c), fixed(h.store_cold_days, 0))
}

/// How cold a soured pot is kept, and how long, with the source of that.
pub fn keeping() -> Option<(String, String)> {
    let cited = &potset_forecast::params::shipped().ok()?.hygiene;
    Some((keep(&cited.plain()), cited.store_cold_days.from.line()))
}

/// All cautions, each with its source. Advice, never permission.
pub fn all() -> Vec<Caution> {
    let mut all = potset_forecast::params::shipped().map(judged).unwrap_or_default();
    all.extend(OTHERS.iter().map(|(about, title, text, source)| Caution {
        about: *about,
        title,
        text: prose(text),
        source: (*source).to_owned(),
    }));
    all
}

/// How soon a pot of a row must be sour.
pub fn souring(souring: Souring) -> Option<String> {
    all().into_iter().find(|caution| caution.about == About::Souring(souring)).map(|caution| caution.text)
}

/// The usual cautions, by subject.
pub fn list() -> Vec<(&'static str, String)> {
    let mut list: Vec<(&'static str, String)> = Vec::new();
    for caution in all() {
        match list.last_mut() {
            Some((title, text)) if *title == caution.title => *text = format!("{text} {}", caution.text),
            _ => list.push((caution.title, caution.text)),
        }
    }
    list
}

/// Where what the judge cannot see is known from.
const PRACTICE: &str = "common practice";

/// What the judge cannot see: about what, title, text, and where it is known from.
const OTHERS: &[(About, &str, &str, &str)] = &[
    (
        About::Coconut,
        "Coconut",
        "Burkholderia gladioli can make bongkrekic acid in warm coconut. This acid has killed people, and no heat \
         destroys it. Use a tinned, long-life or boiled base and a known culture at full dose. Throw away what is \
         yellow or oddly coloured. Heating again does not rescue a pot.",
        PRACTICE,
    ),
    (
        About::Tins,
        "Tins",
        "Never boil or microwave a closed tin. A sealed jar that never sours can hold Clostridium botulinum.",
        PRACTICE,
    ),
    (
        About::Starch,
        "Starch and rice",
        "Spores of Bacillus cereus live through boiling. Cool a cooked base fast, add the culture at once, and let \
         the pot come to pH 4.3.",
        PRACTICE,
    ),
    (
        About::Kit,
        "The kit",
        "Clean first, then scald: 77 °C or more for at least 30 s. Cool before you add the culture: at 50 °C it \
         stops working.",
        "published: FDA Food Code 2022, 4-703.11; at 50 °C common practice",
    ),
    (
        About::RawMilk,
        "Raw milk",
        "Heat it first: 72 °C for 15 s at least, or the yogurt step of 85 °C for 20 min.",
        "published: 21 CFR 1240.61; the yogurt step common practice",
    ),
    (
        About::Every,
        "Who eats it",
        "For the very young, the old, the pregnant and the ill, use pasteurised or tinned bases and a lower pH. Ask \
         a clinician where immunity is weak. Honey is not for children under 12 months. Yogurt keeps lactose and \
         galactose: not for galactosaemia. Culture carriers and coconut powders may hold milk.",
        PRACTICE,
    ),
    (
        About::Every,
        "Throw it away",
        "Mould, pink or orange spots, a foul smell, no set and no tang. Gas, in a base without added calcium \
         carbonate.",
        PRACTICE,
    ),
    (About::Meters, "Meters", "Check a pH meter with a buffer. Dry strips err by 0.3.", PRACTICE),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_of_souring_is_told_with_its_hours() {
        let list = list();
        let slow = &list.iter().find(|(title, _)| *title == "Slow souring").unwrap().1;
        for row in &potset_forecast::params::shipped().unwrap().cautions {
            assert!(slow.contains(&row.about) && slow.contains(&hours(row.discard_h)), "{}", row.key);
        }
        assert!(all().iter().all(|caution| !caution.source.is_empty()));
        assert!(list.iter().all(|(_, text)| !text.to_lowercase().contains("safe")));
    }
}
