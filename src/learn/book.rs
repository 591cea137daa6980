//! The whole question: the pots of a book in, what they taught out.

use std::sync::Arc;

use crate::data::{Datum, Seen, data};
use crate::equations::Input;
use crate::fit::{Fitted, FittedPot, Observed, fit};
use crate::parts::{Parts, shares};
use crate::pot::{ALL_KINDS, TaughtPot};
use potset_base::Note;
use potset_doc::batch::Batch;
use potset_doc::learnt::LearntFigure;
use potset_doc::{Learnt, Pantry};
use potset_forecast::learnt::{Subject, figure};
use potset_forecast::params;
use potset_forecast::place::Place;
use potset_forecast::scenario::OwnedScenario;
use potset_numerics::cholesky::Cholesky;
use potset_numerics::quantile;
use potset_science::params::LearningLaw;

/// When a pot came to the acid line of the cautions, h.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Hours {
    /// As its readings tell it: between the two beside the line.
    pub read: Option<f64>,
    /// As forecast before any pot, with all that was learnt and its own readings, and from the other pots alone.
    pub before: Option<f64>,
    pub after: Option<f64>,
    pub without: Option<f64>,
}

/// What came of one pot.
#[derive(Clone, Debug, PartialEq)]
pub struct BatchResult {
    /// Its place in the list of batches.
    pub batch: usize,
    /// What it could teach.
    pub subjects: Vec<Subject>,
    pub data: Vec<Datum>,
    pub fitted: Option<FittedPot>,
    pub hours: Hours,
    /// Why nothing can be learnt from it.
    pub why_not: Vec<Note>,
}

/// What was learnt about one thing.
#[derive(Clone, Debug, PartialEq)]
pub struct SubjectResult {
    pub subject: Subject,
    /// Likely value and bounds of the middle 90 % before and after, in the figure's own unit.
    pub before: [f64; 3],
    pub after: [f64; 3],
    pub unit: String,
    /// Its place and what is still not known of it, deviates of the figure's own spread.
    pub place: f64,
    pub doubt: f64,
    pub pots: u32,
}

/// What a book of pots teaches.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Learning {
    pub learnt: Learnt,
    pub subjects: Vec<SubjectResult>,
    pub pots: Vec<BatchResult>,
}

/// Deviate of the 95 % bound.
const Z95: f64 = 1.644_853_627;

/// The question of a batch: its design as it was really made, in its kitchen, with the warmth that was logged.
pub fn scenario_of(batch: &Batch, pantry: &Arc<Pantry>) -> OwnedScenario {
    let mut design = batch.design.clone();
    if let Some(hold) = design.hold_mut() {
        if let Some(hours) = batch.stopped_h {
            hold.hours = hours.max(0.0);
        }
        if let Some(logged) = &batch.logged {
            hold.measured = logged.course.iter().copied().filter(|r| r.at_h >= 0.0).collect();
        }
    }
    OwnedScenario {
        design: Arc::new(design),
        pantry: Arc::clone(pantry),
        kitchen: batch.kitchen.clone(),
        learnt: Learnt::default(),
    }
}

/// When a batch was, or is to be, taken out of the warmth, h.
pub fn stop_of(batch: &Batch) -> f64 {
    batch.stopped_h.unwrap_or_else(|| batch.design.hold().map_or(0.0, |hold| hold.hours))
}

/// How far forecasts of the hours to the acid line were out, over the pots that tell them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Missed {
    pub pots: usize,
    /// The middle of the factors by which a forecast was out, less 1: before any pot, and from the other pots alone.
    pub before: f64,
    pub without: f64,
}

impl Learning {
    /// How far the hours to the acid line were out; nothing where fewer than two pots tell them.
    pub fn missed(&self) -> Option<Missed> {
        let told = |pot: &BatchResult| {
            let Hours { read, before, without, .. } = pot.hours;
            Some((read?, before?, without?))
        };
        let all: Vec<(f64, f64, f64)> = self.pots.iter().filter_map(told).collect();
        let middle = |out: &dyn Fn(&(f64, f64, f64)) -> f64| {
            let mut out: Vec<f64> = all.iter().map(|pot| out(pot).ln().abs().exp() - 1.0).collect();
            out.sort_by(f64::total_cmp);
            quantile::sorted(&out, 0.5)
        };
        (all.len() >= 2).then(|| Missed {
            pots: all.len(),
            before: middle(&|pot| pot.1 / pot.0),
            without: middle(&|pot| pot.2 / pot.0),
        })
    }
}

/// Most pots that are learnt from, the newest: a fit looks at each of them some hundreds of times.
pub const MOST_POTS: usize = 150;

/// Learns from the pots of a book: those that ended or are under way, and that are not left out. The order of the batches is
/// that of time.
///
/// # Errors
/// A note if the shipped parameters were damaged.
pub fn learn(batches: &[Batch], pantry: &Arc<Pantry>, day: &str) -> Result<Learning, Note> {
    let params = params::shipped().map_err(Clone::clone)?;
    let laws = params.laws();
    let law = &laws.learning;
    let mut results = Vec::new();
    let mut taught: Vec<(usize, TaughtPot)> = Vec::new();
    for (place, batch) in batches.iter().enumerate() {
        let owned = scenario_of(batch, pantry);
        let data = data(batch, stop_of(batch), law, &laws.words);
        let mut result = BatchResult {
            batch: place,
            subjects: Vec::new(),
            data: data.clone(),
            fitted: None,
            hours: Hours { read: read_hours(&data, laws.ready.acid_line_ph), ..Hours::default() },
            why_not: Vec::new(),
        };
        if tells(batch, &data) && batches.len() - place <= MOST_POTS {
            match TaughtPot::new(&owned.scenario(), data, &ALL_KINDS, law.warmth_c) {
                Ok(pot) if !pot.taught.is_empty() => {
                    result.subjects = pot.taught.iter().map(|t| t.subject.clone()).collect();
                    taught.push((place, pot));
                }
                Ok(_) => {}
                Err(notes) => result.why_not = notes,
            }
        }
        results.push(result);
    }
    let mut parts = Parts::default();
    let inputs: Vec<Vec<Input>> = taught
        .iter()
        .map(|(place, pot)| {
            let packet = batches[*place].packet.as_str();
            pot.taught.iter().map(|t| parts.input(&t.subject, packet, law)).collect()
        })
        .collect();
    let members = taught.iter_mut().zip(&inputs);
    let members = members.map(|((_, pot), inputs)| (pot as &mut dyn Observed, inputs.as_slice())).collect();
    let fitted = fit(&parts.variances, members);
    for ((place, pot), found) in taught.iter_mut().zip(&fitted.pots) {
        let result = &mut results[*place];
        if let Some(found) = found {
            let places = [vec![0.0; found.places.len()], found.places.clone(), found.without.clone()];
            let told = pot.hours_to(&places, laws.ready.acid_line_ph);
            result.hours = Hours { before: told[0], after: told[1], without: told[2], ..result.hours };
        }
        result.fitted.clone_from(found);
    }
    let (learnt, subjects) = kept(batches, pantry, &results, (&parts, &fitted), law, day);
    Ok(Learning { learnt, subjects, pots: results })
}

/// Whether something can be learnt from a batch.
fn tells(batch: &Batch, data: &[Datum]) -> bool {
    !batch.left_out && (!data.is_empty() || batch.logged.is_some())
}

/// When the readings came to a pH, h: on the straight line between the last above and the first at or under it.
fn read_hours(data: &[Datum], line_ph: f64) -> Option<f64> {
    let mut ph: Vec<(f64, f64)> =
        data.iter().filter(|d| d.seen == Seen::Ph).map(|d| (d.at_h, d.value)).collect();
    ph.sort_by(|a, b| a.0.total_cmp(&b.0));
    let pair = ph.windows(2).find(|pair| pair[0].1 > line_ph && pair[1].1 <= line_ph)?;
    let ((t0, p0), (t1, p1)) = (pair[0], pair[1]);
    Some(t0 + (t1 - t0) * (p0 - line_ph) / (p0 - p1))
}

/// What is kept: each lasting part, with that of the newest packet, and what is still not known of the next pot.
fn kept(
    batches: &[Batch],
    pantry: &Pantry,
    results: &[BatchResult],
    (parts, fitted): (&Parts, &Fitted),
    law: &LearningLaw,
    day: &str,
) -> (Learnt, Vec<SubjectResult>) {
    let used = |name: &str| {
        let told = results.iter().filter(|r| r.fitted.is_some());
        told.filter(|r| r.subjects.iter().any(|s| s.name == name)).collect::<Vec<_>>()
    };
    let mut rows: Vec<(Subject, Vec<usize>, f64, u32)> = Vec::new();
    for (name, lasting) in &parts.lasting {
        let pots = used(name);
        let Some(last) = pots.last() else { continue };
        let Some(subject) = last.subjects.iter().find(|s| s.name == *name) else { continue };
        let (lasts, by_packet) = shares(subject.kind, law);
        let packet = parts.packets.get(&(name.clone(), batches[last.batch].packet.clone()));
        let mut shared = vec![*lasting];
        shared.extend(packet);
        let own = 1.0 - lasts - packet.map_or(0.0, |_| by_packet);
        rows.push((subject.clone(), shared, own, u32::try_from(pots.len()).unwrap_or(u32::MAX)));
    }
    let sum = |a: &[usize], b: &[usize]| -> f64 {
        a.iter().flat_map(|e| b.iter().map(move |f| (*e, *f))).map(|(e, f)| fitted.covariance[e][f]).sum()
    };
    let matrix: Vec<Vec<f64>> = rows
        .iter()
        .enumerate()
        .map(|(i, a)| {
            let cell = |(j, b): (usize, &(Subject, Vec<usize>, f64, u32))| {
                sum(&a.1, &b.1) + if i == j { a.2 } else { 0.0 }
            };
            rows.iter().enumerate().map(cell).collect()
        })
        .collect();
    let Some(triangle) = Cholesky::of(&matrix) else { return Default::default() };
    let mut learnt = Learnt { pots: told(results), day: day.to_owned(), ..Learnt::default() };
    let mut subjects = Vec::new();
    for ((subject, shared, _, pots), moves) in rows.iter().zip(triangle.rows()) {
        let place: f64 = shared.iter().map(|e| fitted.shared[*e]).sum();
        let figure_kept = LearntFigure { of: subject.name.clone(), place, moves: moves.clone(), pots: *pots };
        let last = used(&subject.name).last().map(|r| &batches[r.batch].design);
        if let Some(cited) = last.and_then(|design| figure(subject, design, pantry)) {
            let at = |z: f64| Place::at(z).value(cited.value, cited.spread);
            let doubt = figure_kept.doubt();
            subjects.push(SubjectResult {
                subject: subject.clone(),
                before: [at(0.0), at(-Z95), at(Z95)],
                after: [at(place), at(place - Z95 * doubt), at(place + Z95 * doubt)],
                unit: cited.unit.clone(),
                place,
                doubt,
                pots: *pots,
            });
        }
        learnt.figures.push(figure_kept);
    }
    (learnt, subjects)
}

fn told(results: &[BatchResult]) -> u32 {
    u32::try_from(results.iter().filter(|r| r.fitted.is_some()).count()).unwrap_or(u32::MAX)
}
