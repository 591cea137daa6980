//! How what is not known of a pot is shared out: what lasts, what goes by the packet, and what is each pot's own.

use std::collections::BTreeMap;

use crate::equations::Input;
use potset_forecast::learnt::{LearntKind, Subject};
use potset_science::params::LearningLaw;

/// The shares of a kind's doubt: what lasts, and what goes by the packet.
pub(crate) fn shares(kind: LearntKind, law: &LearningLaw) -> (f64, f64) {
    match kind {
        LearntKind::Pace | LearntKind::Cells | LearntKind::Lag => (law.of_culture, law.of_packet),
        LearntKind::Ceiling => (law.of_culture + law.of_packet, 0.0),
        LearntKind::BasePace | LearntKind::StartPh | LearntKind::Buffer | LearntKind::Body => {
            (law.of_base, 0.0)
        }
        LearntKind::Warmth => (law.of_warmer, 0.0),
        LearntKind::Strength => (law.of_thickener, 0.0),
        // Living things are never quite the same twice; laws are.
        LearntKind::Strain => (law.of_culture + law.of_packet, 0.0),
        LearntKind::Law => (1.0, 0.0),
        LearntKind::Hand => (0.0, 0.0),
    }
}

/// The shared parts of all pots, by name.
#[derive(Clone, Debug, Default)]
pub struct Parts {
    /// Variance of each.
    pub variances: Vec<f64>,
    pub(crate) lasting: BTreeMap<String, usize>,
    /// By what goes by the packet, and the packet.
    pub(crate) packets: BTreeMap<(String, String), usize>,
}

impl Parts {
    fn put(&mut self, variance: f64) -> usize {
        self.variances.push(variance);
        self.variances.len() - 1
    }

    /// The sum that a subject of a pot is.
    ///
    /// - `packet` — the pot's packet of culture; empty where it is not told.
    pub fn input(&mut self, subject: &Subject, packet: &str, law: &LearningLaw) -> Input {
        let (lasts, by_packet) = shares(subject.kind, law);
        if lasts <= 0.0 {
            return Input { shared: Vec::new(), own: 1.0 };
        }
        let lasting = match self.lasting.get(&subject.name) {
            Some(at) => *at,
            None => {
                let at = self.put(lasts);
                self.lasting.insert(subject.name.clone(), at);
                at
            }
        };
        let mut input = Input { shared: vec![lasting], own: 1.0 - lasts };
        if by_packet > 0.0 && !packet.is_empty() {
            let key = (subject.name.clone(), packet.to_owned());
            let at = match self.packets.get(&key) {
                Some(at) => *at,
                None => {
                    let at = self.put(by_packet);
                    self.packets.insert(key, at);
                    at
                }
            };
            input.shared.push(at);
            input.own -= by_packet;
        }
        input
    }
}
