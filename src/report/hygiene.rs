//! What the judge of hygiene says, in words: one title and one sentence a row, the same on every view.

use potset_base::number::{fixed, hours};
use potset_base::units::prose::prose;
use potset_base::units::said::warmth;
use potset_base::words::lower;
use potset_forecast::scenario::Run;
use potset_judge::advice::{Advice, Matter};
use potset_judge::hygiene::{Against, Check, Level, NotYogurt, Row, When};
use potset_judge::verdict::Verdict;

/// A pH that is above a limit: with as many decimals as show that it is.
fn ph_above(ph: f64, limit: f64) -> String {
    let one = fixed(ph, 1);
    if one == fixed(limit, 1) { fixed(ph, 2) } else { one }
}

/// Why a pot is not yogurt, in a few words.
pub const fn not_yogurt(why: NotYogurt) -> &'static str {
    match why {
        NotYogurt::NoCulture => "Not yogurt: there is no living culture in it",
        NotYogurt::Killed => "Not yogurt: heat killed the culture",
        NotYogurt::SouredByHand => "Not yogurt: added acid soured it, not the culture",
        NotYogurt::NotSoured => "Not yogurt yet: it has not soured enough when you stop",
    }
}

/// The look that the plan asks for.
pub fn check(check: &Check) -> String {
    format!(
        "Check at {}: it should be at pH {} or lower. If it is still above pH {} at {}, throw it away",
        hours(check.at_h),
        fixed(check.ph, 1),
        fixed(check.discard_ph, 1),
        hours(check.discard_h)
    )
}

/// When it is, as a maker counts.
fn when(against: &Against) -> String {
    match against.when {
        When::AfterHold(h) => format!("{} after the hold", hours(h)),
        When::SinceStart(h) => format!("{} after the start", hours(h)),
        When::SinceCulture(h) => hours(h),
    }
}

/// The title of a finding: what is wrong, and what to do.
pub fn title(against: &Against) -> String {
    let (finding, when) = (&against.finding, when(against));
    match (finding.row, finding.level) {
        (Row::SlowSouring(_), level) => {
            let row = against.souring.as_ref();
            let limit =
                row.map_or(f64::NAN, |r| if level == Level::Watch { r.watch_ph } else { r.discard_ph });
            let ph = ph_above(finding.ph.unwrap_or(f64::NAN), limit);
            match level {
                Level::Discard => format!("Still pH {ph} at {when}: throw it away"),
                Level::Watch => format!("Slow: still pH {ph} at {when}"),
            }
        }
        (Row::Reheated, _) => "The base stood too long before the heat: throw it away".to_owned(),
        (Row::BaseStood, Level::Discard) => {
            "The base stands too long before the culture: throw it away".to_owned()
        }
        (Row::BaseStood, Level::Watch) => "The base stands long in the warm before the culture".to_owned(),
        (Row::RawForFrail, _) => "Raw base for frail eaters: boil it first".to_owned(),
        (Row::RawMilk, _) => "Raw milk: heat it first".to_owned(),
        (Row::HeatedCoolsSlowly, _) => "The heated base cools too slowly".to_owned(),
        (Row::CookedNotCultured, _) => "A cooked base left warm without a culture: throw it away".to_owned(),
        (Row::NotCultured, _) => format!("Warm without a living culture at {when}: throw it away"),
        (Row::SweetChill, _) => "The pot has not soured and cools too slowly: throw it away".to_owned(),
        (Row::SweetStore, _) => "The pot has not soured and is kept too long: throw it away".to_owned(),
        (Row::Chill, _) => "The pot cools slowly after the hold".to_owned(),
        (Row::NoChill, _) => "No chill is planned".to_owned(),
        (Row::Store, _) => "The pot is kept too warm or too long".to_owned(),
        (Row::WarmStore, _) => "Kept warm: throw it away".to_owned(),
    }
}

/// Why, in a sentence or two, with the limit that is broken.
pub fn sentence(against: &Against) -> String {
    let (finding, law, when) = (&against.finding, &against.law, when(against));
    let c = |v: f64| warmth(v, 0);
    match finding.row {
        Row::SlowSouring(_) => slow(against),
        Row::Reheated => format!(
            "Out of the cold for more than {} before the heat. Heating again rescues nothing: some poisons outlive \
             heat",
            hours(against.most_h)
        ),
        Row::BaseStood if finding.level == Level::Discard => format!(
            "A base may be above {} for {} at most before it sours; here that time is over at {when}",
            c(law.cold_c),
            hours(against.most_h)
        ),
        Row::BaseStood => format!(
            "Above {} for more than {}. Add the culture sooner, or keep the base cold until then",
            c(law.room_c),
            hours(law.base_watch_h)
        ),
        Row::RawForFrail => format!(
            "{} is raw. For the very young, the old, the pregnant and the ill, boil it first",
            against.raw.join(" and ")
        ),
        Row::RawMilk => format!(
            "{} can carry harmful germs. Heat it to {} for {} s, or {} for 30 min, before the culture",
            against.raw.join(" and "),
            c(law.pasteurised_c),
            fixed(law.pasteurised_s, 0),
            c(63.0)
        ),
        Row::HeatedCoolsSlowly => format!(
            "The base takes more than {} from {} to the warmth of the culture. Spores that outlive the heat grow \
             there: cool it in cold water",
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
            hours(against.most_h)
        ),
        Row::SweetChill => format!(
            "Stopped above pH {}, the pot counts as cooked food. Cool it to {} within {}, and to {} within {} in all",
            fixed(against.line_ph, 1),
            c(law.room_c),
            hours(law.cool_first_h),
            c(law.cold_c),
            hours(law.cool_whole_h)
        ),
        Row::SweetStore => format!(
            "Stopped above pH {}, the pot keeps {} days at {} or less, and {} above that",
            fixed(against.line_ph, 1),
            fixed(law.sweet_store_days, 0),
            c(law.cold_c),
            hours(law.sweet_store_h)
        ),
        Row::Chill => format!(
            "The pot should be below {} {} after the hold, and below {} after {}. Chill it in the fridge or in cold \
             water",
            c(law.room_c),
            hours(law.chill_room_h),
            c(law.fridge_c),
            hours(law.chill_fridge_h)
        ),
        Row::NoChill => {
            "Chill the pot when the hold ends. Warm, it goes on souring and other things grow".to_owned()
        }
        Row::Store => format!(
            "From {when}. Keep it at {} or less for up to {} days, or at up to {} for {} days",
            c(law.cold_c),
            fixed(law.store_cold_days, 0),
            c(law.fridge_c),
            fixed(law.store_fridge_days, 0)
        ),
        Row::WarmStore => format!(
            "From {when}: above {} for more than {}, sour or not",
            c(law.room_c),
            hours(law.store_warm_h)
        ),
    }
}

fn slow(against: &Against) -> String {
    let Some(row) = &against.souring else { return String::new() };
    match against.finding.level {
        Level::Discard => format!(
            "For {} the pot must be at pH {} or lower by {}",
            prose(&row.about),
            fixed(row.discard_ph, 1),
            hours(row.discard_h)
        ),
        Level::Watch => format!(
            "For {} it should be at pH {} or lower by {}. If it is still above pH {} at {}, throw it away",
            prose(&row.about),
            fixed(row.watch_ph, 1),
            hours(row.watch_h),
            fixed(row.discard_ph, 1),
            hours(row.discard_h)
        ),
    }
}

/// The source of a row, as a line: kind and reference.
fn source(row: Row) -> String {
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

/// Why, with the source of the row.
pub fn because(against: &Against) -> String {
    format!("{} ({})", sentence(against), prose(&source(against.finding.row)))
}

/// The first line of every answer: what speaks against the pot. It never says that it may be eaten; nothing is said before there
/// is a verdict.
pub fn headline(verdict: &Verdict) -> String {
    match (verdict.against.as_ref().map(|advice| &advice.what), &verdict.sugar) {
        (Some(Matter::Hygiene(against)), _) => first_line(against),
        (_, Some(_)) => NOTHING_KNOWN.to_owned(),
        (_, None) => String::new(),
    }
}

/// The first line of advice to throw the pot away; nothing if it is none.
pub fn discard(advice: &Advice) -> Option<String> {
    match &advice.what {
        Matter::Hygiene(against) if against.finding.level == Level::Discard => Some(first_line(against)),
        _ => None,
    }
}

/// The first line of a run that is to be thrown away.
pub fn lost_words(run: &Run) -> Option<String> {
    Against::discard(run).as_ref().map(first_line)
}

/// A finding behind the word of what to do.
fn first_line(first: &Against) -> String {
    let does = match first.finding.level {
        Level::Discard => "Throw it away",
        Level::Watch => "Watch",
    };
    let (title, from) = (title(first), when(first));
    let said = lower(title.trim_end_matches(": throw it away"));
    let from = if said.contains(&from) { String::new() } else { format!(" (from {from})") };
    format!("{does}: {said}{from}")
}

/// Where nothing speaks against a plan.
pub const NOTHING_KNOWN: &str = "Nothing known against it in this plan; look and smell";

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
