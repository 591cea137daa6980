//! What the judge says, in words: one title and one sentence a row, the same on every view.

use super::{Check, Finding, Hygiene, Level, NotYogurt, Phase, Row};
use potset_base::words::lower;
use potset_base::{Severity, number};
use potset_forecast::hygiene::HygieneFacts;
use potset_forecast::scenario::Run;
use potset_science::params::Laws;

impl Level {
    /// How grave a note of it is.
    #[must_use]
    pub const fn severity(self) -> Severity {
        match self {
            Self::Watch => Severity::Watch,
            Self::Discard => Severity::Stop,
        }
    }
}

/// A pH that is above a limit: with as many decimals as show that it is.
#[must_use]
pub fn ph_above(ph: f64, limit: f64) -> String {
    let one = number::fixed(ph, 1);
    if one == number::fixed(limit, 1) { number::fixed(ph, 2) } else { one }
}

impl NotYogurt {
    /// In a few words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::NoCulture => "Not yogurt: there is no living culture in it",
            Self::Killed => "Not yogurt: heat killed the culture",
            Self::SouredByHand => "Not yogurt: added acid soured it, not the culture",
            Self::NotSoured => "Not yogurt yet: it has not soured enough when you stop",
        }
    }
}

impl Check {
    /// The look that the plan asks for.
    #[must_use]
    pub fn words(&self) -> String {
        format!(
            "Check at {}: it should be at pH {} or lower. If it is still above pH {} at {}, throw it away",
            number::hours(self.at_h),
            number::fixed(self.ph, 1),
            number::fixed(self.discard_ph, 1),
            number::hours(self.discard_h)
        )
    }
}

/// What is read beside a finding to say it.
#[derive(Clone, Copy)]
pub struct Reading<'a> {
    pub facts: &'a HygieneFacts,
    pub laws: &'a Laws,
    pub stop_h: f64,
}

impl<'a> Reading<'a> {
    /// Of a run that is stopped at an hour.
    #[must_use]
    pub fn of(run: &'a Run, stop_h: f64) -> Self {
        Self { facts: &run.facts.hygiene, laws: &run.mix.laws, stop_h }
    }

    /// When it is, as a maker counts: from the opened pack, from the culture, or from the stop.
    fn when(&self, finding: &Finding) -> String {
        let before_h = self.facts.before.end_h();
        match finding.row.phase() {
            Phase::After => format!("{} after the hold", hours(finding.from_h - self.stop_h)),
            _ if finding.from_h < -1e-9 => format!("{} after the start", hours(finding.from_h + before_h)),
            _ => hours(finding.from_h),
        }
    }

    /// The title of a finding: what is wrong, and what to do.
    #[must_use]
    pub fn title(&self, finding: &Finding) -> String {
        let when = self.when(finding);
        match (finding.row, finding.level) {
            (Row::SlowSouring(souring), level) => {
                let row = self.laws.cautions.iter().find(|r| r.key == souring.key());
                let limit =
                    row.map_or(f64::NAN, |r| if level == Level::Watch { r.watch_ph } else { r.discard_ph });
                let ph = ph_above(finding.ph.unwrap_or(f64::NAN), limit);
                match level {
                    Level::Discard => format!("Still pH {ph} at {when}: throw it away"),
                    Level::Watch => format!("Slow: still pH {ph} at {when}"),
                }
            }
            (Row::Reheated, _) => "It stood too long before it was heated: throw it away".to_owned(),
            (Row::BaseStood, Level::Discard) => {
                "The base stands too long before the culture: throw it away".to_owned()
            }
            (Row::BaseStood, Level::Watch) => {
                "The base stands long in the warm before the culture".to_owned()
            }
            (Row::RawForFrail, _) => "Raw base for frail eaters: boil it first".to_owned(),
            (Row::RawMilk, _) => "Raw milk: heat it first".to_owned(),
            (Row::HeatedCoolsSlowly, _) => "The heated base cools too slowly".to_owned(),
            (Row::CookedNotCultured, _) => {
                "A cooked base left warm without a culture: throw it away".to_owned()
            }
            (Row::NotCultured, _) => format!("Warm without a living culture at {when}: throw it away"),
            (Row::SweetChill, _) => "It has not soured and cools too slowly: throw it away".to_owned(),
            (Row::SweetStore, _) => "It has not soured and is kept too long: throw it away".to_owned(),
            (Row::Chill, _) => "It cools slowly after the hold".to_owned(),
            (Row::NoChill, _) => "No chill is planned".to_owned(),
            (Row::Store, _) => "It is kept too warm or too long".to_owned(),
            (Row::WarmStore, _) => "Kept warm: throw it away".to_owned(),
        }
    }

    /// Why, in a sentence or two, with the limit that is broken.
    #[must_use]
    pub fn sentence(&self, finding: &Finding) -> String {
        let (law, when) = (&self.laws.hygiene, self.when(finding));
        let c = |v: f64| format!("{}{}°C", number::fixed(v, 0), number::NBSP);
        match finding.row {
            Row::SlowSouring(souring) => self.slow(finding.level, souring.key()),
            Row::Reheated => format!(
                "Out of the cold for more than {} before the heat. Heating again rescues nothing: some poisons outlive it",
                hours(self.most_h())
            ),
            Row::BaseStood if finding.level == Level::Discard => format!(
                "A base may be above {} for {} at most before it sours; here that is over at {when}",
                c(law.cold_c),
                hours(self.most_h())
            ),
            Row::BaseStood => format!(
                "Above {} for more than {}. Add the culture sooner, or keep the base cold until then",
                c(law.room_c),
                hours(law.base_watch_h)
            ),
            Row::RawForFrail => format!(
                "{} is raw. For the very young, the old, the pregnant and the ill, boil it first",
                self.facts.raw.join(" and ")
            ),
            Row::RawMilk => format!(
                "{} can carry harmful germs. Heat it to {} for {} s, or 63 °C for 30 min, before the culture",
                self.facts.raw_milk.join(" and "),
                c(law.pasteurised_c),
                number::fixed(law.pasteurised_s, 0)
            ),
            Row::HeatedCoolsSlowly => format!(
                "It takes more than {} from {} to the warmth of the culture. Spores that outlive the heat grow there: cool it \
                 in cold water",
                hours(law.heated_watch_h),
                c(law.hot_c)
            ),
            Row::CookedNotCultured => format!(
                "Cooked food must come from {} to {} within {}, and to {} within {} in all",
                c(law.hot_c),
                c(law.room_c),
                hours(law.cool_first_h),
                c(law.cold_c),
                hours(law.cool_whole_h)
            ),
            Row::NotCultured => format!(
                "Nothing sours it. A sweet base may be above {} for {} at most",
                c(law.cold_c),
                hours(self.most_h())
            ),
            Row::SweetChill => format!(
                "Stopped above pH {} it counts as cooked food: down to {} within {}, and to {} within {} in all",
                number::fixed(self.laws.ready.acid_line_ph, 1),
                c(law.room_c),
                hours(law.cool_first_h),
                c(law.cold_c),
                hours(law.cool_whole_h)
            ),
            Row::SweetStore => format!(
                "Stopped above pH {} it keeps {} days at {} or less, and {} above that",
                number::fixed(self.laws.ready.acid_line_ph, 1),
                number::fixed(law.sweet_store_days, 0),
                c(law.cold_c),
                hours(law.sweet_store_h)
            ),
            Row::Chill => format!(
                "It should be below {} {} after the hold, and below {} after {}. Chill it in the fridge or in cold water",
                c(law.room_c),
                hours(law.chill_room_h),
                c(law.fridge_c),
                hours(law.chill_fridge_h)
            ),
            Row::NoChill => {
                "Chill it when the hold ends: warm, it goes on souring and other things grow".to_owned()
            }
            Row::Store => format!(
                "From {when}. Keep it at {} or less for up to {} days, or at up to {} for {} days",
                c(law.cold_c),
                number::fixed(law.store_cold_days, 0),
                c(law.fridge_c),
                number::fixed(law.store_fridge_days, 0)
            ),
            Row::WarmStore => format!(
                "From {when}: above {} for more than {}, sour or not",
                c(law.room_c),
                hours(law.store_warm_h)
            ),
        }
    }

    fn slow(&self, level: Level, key: &str) -> String {
        let Some(row) = self.laws.cautions.iter().find(|row| row.key == key) else { return String::new() };
        match level {
            Level::Discard => format!(
                "For {} the pot must be at pH {} or lower by {}",
                row.about,
                number::fixed(row.discard_ph, 1),
                hours(row.discard_h)
            ),
            Level::Watch => format!(
                "For {} it should be at pH {} or lower by {}. If it is still above pH {} at {}, throw it away",
                row.about,
                number::fixed(row.watch_ph, 1),
                hours(row.watch_h),
                number::fixed(row.discard_ph, 1),
                hours(row.discard_h)
            ),
        }
    }

    /// Hours that a base may be out of the cold, by where it comes from.
    fn most_h(&self) -> f64 {
        let law = &self.laws.hygiene;
        let before = &self.facts.before;
        let stood = |(from, _): &&(f64, f64)| *from < self.facts.stood_until_h;
        let spans = before.cut_at(&[]);
        let ends = spans.iter().filter(stood).flat_map(|(a, b)| [before.at(*a), before.at(b - 1e-9)]);
        let warmest = ends.fold(f64::NEG_INFINITY, f64::max);
        let kept_cool = self.facts.start_c <= law.cold_c && warmest <= law.room_c;
        if kept_cool { law.base_kept_cold_discard_h } else { law.base_discard_h }
    }
}

/// The source of a row, as a line: kind and reference.
#[must_use]
pub fn source(row: Row) -> String {
    let Ok(params) = potset_forecast::params::shipped() else { return String::new() };
    let h = &params.hygiene;
    let cited = match row {
        Row::SlowSouring(souring) => {
            let row = params.cautions.iter().find(|r| r.key == souring.key());
            return row.map_or_else(String::new, |r| r.from.line());
        }
        Row::Reheated | Row::BaseStood | Row::NotCultured => &h.base_discard_h,
        Row::RawForFrail => &h.boiled_min,
        Row::RawMilk => &h.pasteurised_s,
        Row::HeatedCoolsSlowly => &h.heated_watch_h,
        Row::CookedNotCultured | Row::SweetChill => &h.cool_first_h,
        Row::SweetStore => &h.sweet_store_days,
        Row::Chill | Row::NoChill => &h.chill_room_h,
        Row::Store => &h.store_cold_days,
        Row::WarmStore => &h.store_warm_h,
    };
    cited.from.line()
}

impl Hygiene {
    /// The first line of every answer: what speaks against the pot. It never says that it may be eaten.
    #[must_use]
    pub fn headline(&self, reading: &Reading<'_>) -> String {
        let Some(first) = self.findings.first() else {
            return NOTHING_KNOWN.to_owned();
        };
        match first.level {
            Level::Discard => format!("Throw it away: {}", goes_on(first, reading)),
            Level::Watch => format!("Watch: {}", goes_on(first, reading)),
        }
    }
}

/// A finding as it goes on after the word of what to do.
fn goes_on(first: &Finding, reading: &Reading<'_>) -> String {
    let title = reading.title(first);
    let lower = lower(title.trim_end_matches(": throw it away"));
    let from = reading.when(first);
    if lower.contains(&from) { lower } else { format!("{lower} (from {from})") }
}

/// Where nothing speaks against a plan.
pub const NOTHING_KNOWN: &str = "Nothing known against it in this plan; look and smell";

/// Hours of a limit or a time: whole hours where they are, else to the minute.
fn hours(h: f64) -> String {
    number::hours(h)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_watch_comes_before_its_discard_and_levels_rise() {
        let law = potset_forecast::params::shipped().unwrap().hygiene.plain();
        let rising = [
            [law.base_watch_h, law.base_discard_h, law.base_kept_cold_discard_h],
            [0.0, law.cool_first_h, law.cool_whole_h],
            [0.0, law.chill_room_h, law.chill_fridge_h],
            [0.0, law.store_fridge_days, law.store_cold_days],
            [law.cold_c, law.fridge_c, law.room_c],
            [law.room_c, law.hot_c, law.boiled_c],
        ];
        assert!(rising.iter().all(|v| v[0] < v[1] && v[1] < v[2]), "{rising:?}");
    }

    #[test]
    fn a_ph_above_a_limit_is_seen_to_be_above_it() {
        assert_eq!(ph_above(4.62, 4.6), "4.62");
        assert_eq!(ph_above(5.41, 4.6), "5.4");
    }
}
