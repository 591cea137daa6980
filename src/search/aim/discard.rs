//! What a search never proposes: a pot that would have to be thrown away. The one place where Aim asks what speaks against eating.

use super::stand::Demand;
use potset_base::Severity;
use potset_doubt::kept::Chance;
use potset_doubt::spread::TOO_MANY;
use potset_forecast::scenario::{Run, Scenario};
use potset_judge::advice::Advice;
use potset_judge::judging::judge;

/// Why a setting would have to be thrown away.
#[derive(Clone, Debug, PartialEq)]
pub enum Discard {
    /// The likely pot, by this caution.
    Likely(Box<Advice>),
    /// So many of the possible ones sour too slowly.
    Possible(potset_base::chance::Chance),
}

/// Why the likely pot would have to be thrown away; nothing if it would not.
pub fn of_likely(scenario: &Scenario<'_>, run: &Run) -> Option<Box<Advice>> {
    judge(scenario, run).advice.into_iter().find(|a| a.severity >= Severity::Stop).map(Box::new)
}

/// How many of the possible pots would have to be thrown away, where those are too many: each by its own row of the cautions on
/// slow souring, as [`Demand::InTime`] has it and the possible pots count them.
pub fn of_possible(demands: &[Demand], chance: &Chance) -> Option<potset_base::chance::Chance> {
    let at = demands.iter().position(|d| *d == Demand::InTime)?;
    let gone = chance.of_one(at)?.rest();
    (gone.share() >= TOO_MANY).then_some(gone)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_in_ten_are_too_many() {
        let demands = [Demand::Done, Demand::InTime];
        let chance = |in_time: usize| {
            let of = |of| potset_base::chance::Chance { of, among: 200 };
            let mut chance = Chance::of_kept((0..200).map(|k| k < 10));
            chance.each = vec![of(10), of(in_time)];
            chance
        };
        assert_eq!(of_possible(&demands, &chance(161)), None, "39 of 200 are said, not refused");
        let gone = of_possible(&demands, &chance(160)).unwrap();
        assert_eq!((gone.of, gone.among), (40, 200));
        assert_eq!(of_possible(&demands, &Chance::default()), None, "nothing was counted");
    }
}
