//! Parts of a design that can be taken from one or the other, and whether two designs differ in them.

use potset_base::choices;
use std::collections::BTreeSet;

use potset_doc::Design;
use potset_doc::pantry::{Keyed, Pantry, find};
use potset_doc::steps::Step;

choices! {
    /// A part of a design.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
    pub enum Part: words {
        Base => "base",
        Sugar => "sugar",
        Thickener => "thickener",
        Culture => "culture",
        /// Warmer, setting, and what happens meanwhile.
        Warmth => "warmth",
        /// When the hold is stopped.
        Time => "time of the stop",
        /// What is done before the culture goes in.
        Before => "steps before the culture",
        Additives => "additives",
        /// Chill, straining, keeping, and how it is served.
        After => "what is done afterwards",
        Pots => "pots",
        Goals => "goals",
    }
}

impl Part {
    /// Takes this part of a design over.
    fn take(self, to: &mut Design, from: &Design) {
        match self {
            Self::Base => to.bases.clone_from(&from.bases),
            Self::Sugar => to.sugars.clone_from(&from.sugars),
            Self::Thickener => to.thickeners.clone_from(&from.thickeners),
            Self::Culture => to.cultures.clone_from(&from.cultures),
            Self::Additives => to.additives.clone_from(&from.additives),
            Self::Pots => to.pots.clone_from(&from.pots),
            Self::Goals => {
                to.goals.clone_from(&from.goals);
                to.clock.clone_from(&from.clock);
            }
            Self::Warmth => {
                if let (Some(new), Some(old)) = (from.hold().cloned(), to.hold_mut()) {
                    let hours = old.hours;
                    *old = new;
                    old.hours = hours;
                }
            }
            Self::Time => {
                if let (Some(hours), Some(hold)) = (from.hold().map(|h| h.hours), to.hold_mut()) {
                    hold.hours = hours;
                }
            }
            Self::Before => {
                let at = |d: &Design| d.steps.iter().position(|s| matches!(s, Step::Hold(_))).unwrap_or(0);
                let (end, new) = (at(to), from.steps[..at(from)].to_vec());
                to.steps.splice(..end, new);
            }
            Self::After => {
                let at =
                    |d: &Design| d.steps.iter().position(|s| matches!(s, Step::Hold(_))).map_or(0, |i| i + 1);
                let start = at(to);
                to.steps.truncate(start);
                to.steps.extend_from_slice(&from.steps[at(from)..]);
                (to.style, to.disturbed) = (from.style, from.disturbed);
            }
        }
    }
}

/// Two designs made ready to be mixed: where both have their own entry under one key, that of the second has another key.
#[derive(Clone, Debug)]
pub struct Pair {
    pub a: Design,
    pub b: Design,
}

impl Pair {
    pub fn new(a: &Design, b: &Design) -> Self {
        let mut b = b.clone();
        apart(&mut b, &a.snapshot);
        Self { a: a.clone(), b }
    }

    /// Parts in which they differ.
    pub fn differ(&self) -> Vec<Part> {
        let with = |part: Part| self.mixed(&[part]);
        let plain = self.mixed(&[]);
        Part::ALL.into_iter().filter(|part| with(*part) != plain).collect()
    }

    /// The first design with some parts of the second. All entries of both are at hand.
    pub fn mixed(&self, parts: &[Part]) -> Design {
        let mut out = self.a.clone();
        for part in parts {
            part.take(&mut out, &self.b);
        }
        out.snapshot = both(&self.a.snapshot, &self.b.snapshot).into();
        out
    }
}

/// All entries of both; the keys are apart.
fn both(a: &Pantry, b: &Pantry) -> Pantry {
    let mut out = a.clone();
    out.put_all(b);
    out
}

/// Gives those own entries of a design another key that differ from the other's entry of the same key.
fn apart(design: &mut Design, other: &Pantry) {
    fn clashes<T: Keyed + PartialEq>(mine: &[T], theirs: &[T]) -> BTreeSet<String> {
        let differs = |e: &&T| find(theirs, e.key()).is_some_and(|o| o != *e);
        mine.iter().filter(differs).map(|e| e.key().to_owned()).collect()
    }
    let renamed = |key: &str| format!("{key}·2");
    let own = &mut design.snapshot;
    let shapes = clashes(&own.buffer_shapes, &other.buffer_shapes);
    for shape in own.buffer_shapes.iter_mut().filter(|s| shapes.contains(&s.key)) {
        shape.key = renamed(&shape.key);
    }
    // An organism that names one of another key now differs itself: until no more do.
    let mut organisms = BTreeSet::new();
    loop {
        let more = clashes(&own.organisms, &other.organisms);
        if more.is_empty() {
            break;
        }
        for organism in &mut own.organisms {
            for helper in organism.helpers.iter_mut().filter(|h| more.contains(&h.organism)) {
                helper.organism = renamed(&helper.organism);
            }
            if more.contains(&organism.key) {
                organism.key = renamed(&organism.key);
            }
        }
        organisms.extend(more);
    }
    for base in own.bases.iter_mut().filter(|b| shapes.contains(&b.buffer_shape)) {
        base.buffer_shape = renamed(&base.buffer_shape);
    }
    for dose in own.cultures.iter_mut().flat_map(|c| &mut c.doses) {
        if organisms.contains(&dose.organism) {
            dose.organism = renamed(&dose.organism);
        }
    }
    let bases = clashes(&own.bases, &other.bases);
    let cultures = clashes(&own.cultures, &other.cultures);
    let sugars = clashes(&own.sugars, &other.sugars);
    let thickeners = clashes(&own.thickeners, &other.thickeners);
    let additives = clashes(&own.additives, &other.additives);
    let rekey = |key: &mut String, set: &BTreeSet<String>| {
        if set.contains(key.as_str()) {
            *key = renamed(key);
        }
    };
    for base in &mut own.bases {
        rekey(&mut base.key, &bases);
        if let Some(starch) = &mut base.own_starch {
            rekey(starch, &thickeners);
        }
        base.holds.iter_mut().for_each(|h| rekey(&mut h.additive, &additives));
    }
    own.cultures.iter_mut().for_each(|e| rekey(&mut e.key, &cultures));
    own.sugars.iter_mut().for_each(|e| rekey(&mut e.key, &sugars));
    own.thickeners.iter_mut().for_each(|e| {
        e.synergies.iter_mut().for_each(|s| rekey(&mut s.with, &thickeners));
        rekey(&mut e.key, &thickeners);
    });
    own.additives.iter_mut().for_each(|e| rekey(&mut e.key, &additives));
    design.bases.iter_mut().for_each(|l| rekey(&mut l.entry, &bases));
    design.sugars.iter_mut().for_each(|l| rekey(&mut l.entry, &sugars));
    design.thickeners.iter_mut().for_each(|l| rekey(&mut l.entry, &thickeners));
    design.additives.iter_mut().for_each(|l| rekey(&mut l.entry, &additives));
    design.cultures.iter_mut().for_each(|l| rekey(&mut l.entry, &cultures));
}
