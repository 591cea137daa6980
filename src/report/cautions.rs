//! The usual cautions in words, for the help sheet. Every hour and temperature comes from the table that the judge reads.

use potset_base::number::{fixed, hours};
use potset_base::units::prose::prose;
use potset_base::units::said::warmth;
use potset_science::params::{CautionRow, HygieneLaw, Params};

/// The cautions end so, once.
pub const DEFER: &str = "Follow local codes; ask a licensed professional before selling";

/// A temperature in words.
fn c(v: f64) -> String {
    warmth(v, 0)
}

/// The cautions that the judge of hygiene goes by, in the order of making.
fn judged(params: &Params) -> Vec<(&'static str, String)> {
    let h = params.hygiene.plain();
    vec![
        ("Before the culture", before(&h)),
        ("Slow souring", params.cautions.iter().map(slow).collect::<Vec<_>>().join(" ")),
        ("Afterwards", after(&h)),
    ]
}

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
        "Chill a soured pot at once: below {} within {}, below {} within {}. Keep it at {} or less for up to {} \
         days. Above {} for {}, throw it away. A pot that has not soured counts as cooked food. Bring it below {} \
         within {}, to {} within {} in all, and keep it {} days there at most.",
        c(h.room_c),
        hours(h.chill_room_h),
        c(h.fridge_c),
        hours(h.chill_fridge_h),
        c(h.cold_c),
        fixed(h.store_cold_days, 0),
        c(h.room_c),
        hours(h.store_warm_h),
        c(h.room_c),
        hours(h.cool_first_h),
        c(h.cold_c),
        hours(h.cool_whole_h),
        fixed(h.sweet_store_days, 0)
    )
}

/// The usual cautions, by subject. Advice, never permission.
pub fn list() -> Vec<(&'static str, String)> {
    let mut all = potset_forecast::params::shipped().map(judged).unwrap_or_default();
    all.extend(OTHERS.iter().map(|(title, text)| (*title, prose(text))));
    all
}

/// What the judge cannot see.
///
/// Sources: published where a number is given (FDA Food Code 2022, 4-703.11; 21 CFR 1240.61), common practice otherwise.
const OTHERS: &[(&str, &str)] = &[
    (
        "Coconut",
        "Burkholderia gladioli can make bongkrekic acid in warm coconut. This acid has killed people, and no heat \
         destroys it. Use a tinned, long-life or boiled base and a known culture at full dose. Throw away what is \
         yellow or oddly coloured. Heating again does not rescue a pot.",
    ),
    (
        "Tins",
        "Never boil or microwave a closed tin. A sealed jar that never sours can hold Clostridium botulinum.",
    ),
    (
        "Starch and rice",
        "Spores of Bacillus cereus live through boiling. Cool a cooked base fast, add the culture at once, and let \
         the pot come to pH 4.3.",
    ),
    (
        "The kit",
        "Clean first, then scald: 77 °C or more for at least 30 s. Cool before you add the culture: at 50 °C it \
         stops working.",
    ),
    ("Raw milk", "Heat it first: 72 °C for 15 s at least, or the yogurt step of 85 °C for 20 min."),
    (
        "Who eats it",
        "For the very young, the old, the pregnant and the ill, use pasteurised or tinned bases and a lower pH. Ask \
         a clinician where immunity is weak. Honey is not for children under 12 months. Yogurt keeps lactose and \
         galactose: not for galactosaemia. Culture carriers and coconut powders may hold milk.",
    ),
    (
        "Throw it away",
        "Mould, pink or orange spots, a foul smell, no set and no tang. Gas, in a base without added calcium \
         carbonate.",
    ),
    ("Meters", "Check a pH meter with a buffer. Dry strips err by 0.3."),
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
        assert!(list.iter().all(|(_, text)| !text.to_lowercase().contains("safe")));
    }
}
