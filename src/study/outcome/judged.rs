//! Judgements: outcomes that a person meets as one thing are noticed together, or not at all.
//!
//! What the word for it goes by leads, and the other figure follows:
//! - Sourness. Tang leads: the tongue takes undissociated acid for sour, and the tang word goes by it. The pH of two pots
//!   with other buffers can differ where both taste alike, so its own figure decides nothing.
//! - Texture. Thickness leads: the texture word goes by it. Where one of both pots is a gel that a spoon cuts, the word goes by
//!   stiffness, and stiffness leads; all others yield to the spoon, and their stiffness is that of a pot that nothing touched.
//!
//! Energy and cost are read, not tasted. Source: assumed, from what the words go by.

use super::{Outcome, Outcomes};

impl Outcome {
    /// Where it is read; nothing if whoever eats the pot meets it.
    #[must_use]
    pub const fn on_paper(self) -> Option<&'static str> {
        match self {
            Self::Energy => Some("on the label"),
            Self::Cost => Some("in the price"),
            _ => None,
        }
    }

    /// The outcome by whose step this one is noticed.
    ///
    /// - `cuts` — one of both pots is a gel that a spoon cuts.
    #[must_use]
    pub const fn led_by(self, cuts: bool) -> Self {
        match self {
            Self::Ph => Self::Tang,
            Self::Texture | Self::Stiffness if cuts => Self::Stiffness,
            Self::Texture | Self::Stiffness => Self::Texture,
            other => other,
        }
    }

    /// What is said of a difference: "you would notice", "too small to notice", or where it is read. Empty where there is
    /// nothing to say.
    ///
    /// - `difference` — on the scale of the outcome; nothing where one pot never comes there.
    #[must_use]
    pub fn notice_words(self, difference: Option<f64>, noticed: bool) -> &'static str {
        match (difference, self.on_paper()) {
            (Some(0.0), _) => "the same",
            (Some(_), Some(place)) => place,
            _ if noticed => "you would notice",
            (Some(_), None) => "too small to notice",
            (None, _) => "",
        }
    }

    /// A difference with what is said of it: "+3.0 h · you would notice". Empty where there is nothing to say.
    ///
    /// - `between` — stands between both: " · ", ", ".
    #[must_use]
    pub fn difference_line(self, difference: Option<f64>, noticed: bool, between: &str) -> String {
        let said = self.notice_words(difference, noticed);
        match difference {
            Some(d) if d != 0.0 => format!("{}{between}{said}", self.difference_words(d)),
            _ => said.to_owned(),
        }
    }
}

impl Outcomes {
    /// The outcome by whose step the difference of one to another pot is noticed.
    #[must_use]
    pub const fn led_by(&self, other: &Self, outcome: Outcome) -> Outcome {
        outcome.led_by(self.cuts || other.cuts)
    }

    /// Whether it is a gel that a spoon cuts, as it is eaten.
    #[must_use]
    pub const fn cuts(&self) -> bool {
        self.cuts
    }

    /// How many steps lie between two pots, by what leads; endless where only one comes there.
    #[must_use]
    pub fn steps_to(&self, other: &Self, outcome: Outcome) -> f64 {
        let by = self.led_by(other, outcome);
        match (self.get(by), other.get(by)) {
            (Some(a), Some(b)) => by.steps(by.scaled(b) - by.scaled(a)).abs(),
            (None, None) => 0.0,
            // A cost that is not known is no cost that differs.
            _ if outcome == Outcome::Cost => 0.0,
            _ => f64::INFINITY,
        }
    }

    /// Whether two pots differ by a step or more: to whoever eats them, or on paper.
    #[must_use]
    pub fn differs(&self, other: &Self, outcome: Outcome) -> bool {
        self.steps_to(other, outcome) >= 1.0
    }

    /// Whether a person who has both pots notices this difference; what only one comes to is noticed.
    #[must_use]
    pub fn notices(&self, other: &Self, outcome: Outcome) -> bool {
        outcome.on_paper().is_none() && self.differs(other, outcome)
    }
}

/// Whether any two of many pots differ by a step or more.
#[must_use]
pub fn differ_among(pots: &[&Outcomes], outcome: Outcome) -> bool {
    let (cut, whole): (Vec<&Outcomes>, Vec<&Outcomes>) = pots.iter().copied().partition(|p| p.cuts);
    // The farthest lie at the ends, by whichever outcome leads: looking at those is enough, however many there are.
    let ends: Vec<&Outcomes> = [&cut, &whole]
        .into_iter()
        .flat_map(|pots| [false, true].map(|cuts| ends(pots, outcome.led_by(cuts))))
        .flatten()
        .collect();
    ends.iter().any(|a| ends.iter().any(|b| a.differs(b, outcome)))
}

/// Pots with the least and the greatest value, and one that never comes there.
fn ends<'a>(pots: &[&'a Outcomes], by: Outcome) -> Vec<&'a Outcomes> {
    let value = |p: &&Outcomes| p.get(by).unwrap_or(f64::NAN);
    let there: Vec<&'a Outcomes> = pots.iter().copied().filter(|p| p.get(by).is_some()).collect();
    let least = there.iter().copied().min_by(|a, b| value(a).total_cmp(&value(b)));
    let most = there.iter().copied().max_by(|a, b| value(a).total_cmp(&value(b)));
    let never = pots.iter().copied().find(|p| p.get(by).is_none());
    least.into_iter().chain(most).chain(never).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pot(values: &[(Outcome, f64)], cuts: bool) -> Outcomes {
        let mut out = Outcomes { cuts, ..Outcomes::default() };
        for (outcome, v) in values {
            out.values[outcome.index()] = Some(*v);
        }
        out
    }

    #[test]
    fn acid_leads_the_ph() {
        let a = pot(&[(Outcome::Ph, 4.3), (Outcome::Tang, 20.0)], false);
        let lower = pot(&[(Outcome::Ph, 4.1), (Outcome::Tang, 20.6)], false);
        let tangier = pot(&[(Outcome::Ph, 4.29), (Outcome::Tang, 30.0)], false);
        for (other, noticed) in [(lower, false), (tangier, true)] {
            assert_eq!(a.notices(&other, Outcome::Ph), noticed);
            assert_eq!(a.notices(&other, Outcome::Tang), noticed);
        }
    }

    #[test]
    fn thickness_leads_but_where_a_spoon_cuts() {
        let values = |thick: f64, stiff: f64| [(Outcome::Texture, thick), (Outcome::Stiffness, stiff)];
        for (cuts, noticed) in [(false, false), (true, true)] {
            let (a, b) = (pot(&values(2.0, 500.0), cuts), pot(&values(2.1, 900.0), false));
            for outcome in [Outcome::Texture, Outcome::Stiffness] {
                assert_eq!(a.notices(&b, outcome), noticed);
                assert_eq!(b.notices(&a, outcome), noticed);
                assert_eq!(differ_among(&[&a, &b], outcome), noticed);
            }
        }
    }

    #[test]
    fn what_is_read_is_never_noticed() {
        let a = pot(&[(Outcome::Energy, 100.0), (Outcome::Cost, 1.0)], false);
        let b = pot(&[(Outcome::Energy, 900.0), (Outcome::Cost, 9.0)], false);
        for outcome in [Outcome::Energy, Outcome::Cost] {
            assert!(!a.notices(&b, outcome) && a.differs(&b, outcome));
        }
        assert_eq!(
            Outcome::Energy.difference_line(Some(800.0), false, ", "),
            "+800\u{a0}kJ/100 g, on the label"
        );
        assert_eq!(Outcome::Cost.notice_words(None, false), "");
    }

    #[test]
    fn what_only_one_comes_to_is_noticed() {
        let (a, b) = (pot(&[(Outcome::SourAt, 8.0)], false), pot(&[], false));
        assert!(a.notices(&b, Outcome::SourAt) && differ_among(&[&a, &b], Outcome::SourAt));
        assert!(!b.notices(&b, Outcome::SourAt));
        assert_eq!(Outcome::SourAt.difference_line(None, true, " · "), "you would notice");
    }
}
