//! Causes weighed: how likely each made the pot what it is, given what was said and what is known.

use std::sync::Arc;

use crate::data::{MishapTable, SYMPTOMS, Symptom};
use crate::fact::{Fact, Truth};
use crate::pots::{Group, Pot};
use potset_judge::hygiene::Against;

/// A symptom that is not told speaks less than one that is: people tell what bothers them most. Source: assumed.
const UNSAID: f64 = 0.5;

/// From which chance on a pot is thrown away because the rules of hygiene may be broken. Source: assumed, low on purpose: a
/// pot that is thrown away for nothing costs less than one that is eaten.
const THROW_AWAY_FROM: f64 = 0.05;

/// The same where no tang was tasted: that is what a pot that broke the rules of souring tastes like. Source: assumed.
const WITHOUT_TANG: f64 = 0.01;

/// What was said and what is known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Said {
    pub saw: Vec<Symptom>,
    pub known: Vec<Fact>,
}

/// The same where it was tasted as too sour: what tastes of acid has soured. Source: assumed.
const TASTED_SOUR: f64 = 0.3;

impl Said {
    /// From which chance on the pot is thrown away by the rules of hygiene.
    pub fn throw_away_from(&self) -> f64 {
        match (self.saw.contains(&Symptom::NoTang), self.saw.contains(&Symptom::TooSour)) {
            (true, _) => WITHOUT_TANG,
            (false, true) => TASTED_SOUR,
            (false, false) => THROW_AWAY_FROM,
        }
    }
}

/// Chance that a caller tells of a symptom.
pub fn told(symptom: usize, there: f64, table: &MishapTable) -> f64 {
    let row = table.symptoms.get(symptom);
    let not = row.and_then(|row| row.said_if_not).unwrap_or(table.said_if_not);
    not + (table.said_if_there - not) * there
}

/// How likely what was said of its looks is of a pot.
fn looks(pot: &Pot, saw: &[Symptom], table: &MishapTable) -> f64 {
    (0..SYMPTOMS)
        .map(|s| {
            let p = told(s, pot.there[s], table);
            if saw.iter().any(|own| *own as usize == s) { p } else { (1.0 - p).powf(UNSAID) }
        })
        .product()
}

/// The weights of all pots, group by group, adding up to 1.
#[derive(Clone, Debug, Default)]
pub struct Weights(pub Vec<Vec<f64>>);

impl Weights {
    /// Of all pots, given what was said and known.
    pub fn of(groups: &[Group], said: &Said, planned: &Truth, table: &MishapTable) -> Self {
        let pot = |group: &Group, pot: &Pot| -> f64 {
            let facts: f64 = said
                .known
                .iter()
                .map(|fact| pot.truth.likelihood(fact, planned, &group.unaware, table))
                .product();
            looks(pot, &said.saw, table) * facts
        };
        let mut all: Vec<Vec<f64>> = groups
            .iter()
            .map(|group| {
                let share = group.prior / group.pots.len().max(1) as f64;
                group.pots.iter().map(|p| share * pot(group, p)).collect()
            })
            .collect();
        let sum: f64 = all.iter().flatten().sum();
        if sum > 0.0 {
            all.iter_mut().flatten().for_each(|w| *w /= sum);
        }
        Self(all)
    }

    /// The chance of each group.
    pub fn groups(&self) -> Vec<f64> {
        self.0.iter().map(|pots| pots.iter().sum()).collect()
    }
}

/// How likely a caller says what was said of a pot of these.
pub fn fits(pots: &[Pot], saw: &[Symptom], table: &MishapTable) -> f64 {
    pots.iter().map(|pot| looks(pot, saw, table)).sum::<f64>() / pots.len().max(1) as f64
}

/// The chance of every cause of the table: of all groups that it is in.
pub fn by_cause(groups: &[Group], chances: &[f64], table: &MishapTable) -> Vec<f64> {
    let mut all = vec![0.0; table.causes.len()];
    for (group, chance) in groups.iter().zip(chances) {
        group.causes.iter().for_each(|c| all[*c] += chance);
    }
    all
}

/// How likely the pot is to be thrown away by the rules of hygiene, and the finding that weighs most: of the likeliest cause, if
/// its pots have one.
pub fn lost(groups: &[Group], weights: &Weights) -> (f64, Option<Arc<Against>>) {
    let chances = weights.groups();
    let best = (0..groups.len()).max_by(|a, b| chances[*a].total_cmp(&chances[*b]));
    let all = || groups.iter().zip(&weights.0);
    let (chance, most) = rows(all());
    let (own, of_best) = rows(all().skip(best.unwrap_or(0)).take(1));
    (chance, of_best.filter(|_| own >= OF_THE_BEST * chance).or(most))
}

/// A finding of the likeliest cause is told where it is at least so much of all. Source: assumed.
const OF_THE_BEST: f64 = 0.1;

/// The weight of all pots that are thrown away, and the finding that most of them share.
fn rows<'a>(groups: impl Iterator<Item = (&'a Group, &'a Vec<f64>)>) -> (f64, Option<Arc<Against>>) {
    let mut by_row: Vec<(Arc<Against>, f64)> = Vec::new();
    for (pot, weight) in groups.flat_map(|(group, weights)| group.pots.iter().zip(weights)) {
        let Some(against) = &pot.lost else { continue };
        match by_row.iter_mut().find(|(own, _)| own.finding.row == against.finding.row) {
            Some((_, sum)) => *sum += weight,
            None => by_row.push((Arc::clone(against), *weight)),
        }
    }
    let chance = by_row.iter().map(|(_, weight)| weight).sum();
    (chance, by_row.into_iter().max_by(|a, b| a.1.total_cmp(&b.1)).map(|(against, _)| against))
}

/// For each symptom that was said: the causes that may have made it, the likeliest first, by that symptom and what is known
/// alone.
pub fn apart(
    groups: &[Group],
    said: &Said,
    planned: &Truth,
    table: &MishapTable,
) -> Vec<(Symptom, Vec<(usize, f64)>)> {
    let known = |group: &Group, pot: &Pot| -> f64 {
        said.known.iter().map(|fact| pot.truth.likelihood(fact, planned, &group.unaware, table)).product()
    };
    let one = |symptom: &Symptom| {
        let weigh = |group: &Group| -> Vec<f64> {
            let share = group.prior / group.pots.len().max(1) as f64;
            let there = |pot: &Pot| told(*symptom as usize, pot.there[*symptom as usize], table);
            group.pots.iter().map(|pot| share * there(pot) * known(group, pot)).collect()
        };
        let weights = Weights(groups.iter().map(weigh).collect());
        let sum: f64 = weights.0.iter().flatten().sum();
        let chances: Vec<f64> = weights.groups().iter().map(|c| c / sum.max(1e-300)).collect();
        let mut all: Vec<(usize, f64)> =
            by_cause(groups, &chances, table).into_iter().enumerate().filter(|(_, c)| *c > 0.0).collect();
        all.sort_by(|a, b| b.1.total_cmp(&a.1));
        (*symptom, all)
    };
    said.saw.iter().map(one).collect()
}
