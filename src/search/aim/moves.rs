//! What may move: levers with bounds and steps, and which base, thickener and culture; read as it is typed.

use super::want::{Want, agreed};
use potset_base::{Note, number, units};
use potset_doc::edit::LineKind;
use potset_doc::pantry::EntryKind;
use potset_doc::{Design, Pantry};
use potset_forecast::lever::{Lever, LeverId, levers};

/// Something that may move.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Movable {
    Lever(LeverId),
    /// Which entry stands in the main line of a list (bases, thickeners, cultures), or keeps the pot warm.
    Entry(EntryKind),
}

/// A lever with bounds and a step of the maker's own; what is left open is the usual one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    pub lever_id: LeverId,
    pub bounds: Option<(f64, f64)>,
    pub step: Option<f64>,
}

/// How far levers go where nothing usual reaches what is wanted. Spans of the maker's own count in any case.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Beyond {
    /// No farther than is usual.
    Never,
    /// Amounts to at most [`turn::TIMES`](super::turn::TIMES) the usual most; warmth and hours as far as they go.
    #[default]
    ALittle,
    /// All as far as they go.
    Far,
}

/// What may move, and what is held.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Moves {
    /// Only these levers; nothing: all that are usual.
    pub levers: Option<Vec<Reach>>,
    /// Only of these kinds may another entry stand there; nothing: of all in [`ENTRIES`].
    pub entries: Option<Vec<EntryKind>>,
    pub held: Vec<Movable>,
    /// With some levers named, a culture that finds nothing to eat is fed all the same.
    pub fed: bool,
    pub beyond: Beyond,
}

/// Kinds of which another entry may be put in the main line.
pub const ENTRIES: [EntryKind; 4] =
    [EntryKind::Base, EntryKind::Thickener, EntryKind::Culture, EntryKind::Warmer];

impl Moves {
    /// Reads what may move and what is held: "Hold at", "Stop after=8..16", "White sugar=0..20 by 2.5", "thickener".
    ///
    /// With levers among what may move only these do, and the entries stay unless they are named too; with entries alone, all
    /// usual levers move.
    ///
    /// # Errors
    /// A note that names what is no lever, is more than one, or has bounds that it cannot be turned to.
    pub fn read(moves: &[&str], holds: &[&str], design: &Design, pantry: &Pantry) -> Result<Self, Note> {
        let all = levers(design, pantry);
        let mut out = Self::default();
        let mut named: Vec<Movable> = Vec::new();
        let mut once = |text: &str, one: Movable| {
            if named.contains(&one) {
                let mend = "Name it once: let it move, or hold it";
                return Err(Note::error(text, "You named this already", mend));
            }
            named.push(one);
            Ok(one)
        };
        for text in moves {
            let (name, reach) =
                text.split_once('=').map_or((*text, None), |(name, reach)| (name, Some(reach)));
            match once(text, movable(name, &all)?)? {
                Movable::Entry(_) if reach.is_some() => {
                    let mend = format!("Write it as {}", name.trim());
                    return Err(Note::error(*text, "An entry has no range", mend));
                }
                Movable::Entry(kind) => out.entries.get_or_insert_default().push(kind),
                Movable::Lever(lever_id) => {
                    let reach = match (reach, all.iter().find(|l| l.lever_id == lever_id)) {
                        (Some(reach), Some(lever)) => read_reach(text, reach, lever)?,
                        _ => Reach { lever_id, bounds: None, step: None },
                    };
                    out.levers.get_or_insert_default().push(reach);
                }
            }
        }
        if out.levers.is_some() {
            out.entries.get_or_insert_default();
        }
        for text in holds {
            out.held.push(once(text, movable(text, &all)?)?);
        }
        let share = |r: &&Reach| matches!(r.lever_id, LeverId::BaseShare(_));
        if let Some(r) = out.levers.iter().flatten().find(share).filter(|_| !out.shares_move(design)) {
            let name = all.iter().find(|l| l.lever_id == r.lever_id).map_or("share", |l| &l.name);
            let mend = "Let another base move too, or leave the shares as they are";
            return Err(Note::error(name, "It cannot move while every other share is held", mend));
        }
        Ok(out)
    }

    /// Whether a share can be moved at all: only if that of another base follows it.
    pub fn shares_move(&self, design: &Design) -> bool {
        let held = |i: usize| self.holds(LeverId::BaseShare(i)) || self.holds(LeverId::BaseLitres(i));
        design.bases.iter().enumerate().filter(|(i, b)| !b.locked && !held(*i)).count() > 1
    }

    /// Whether a lever moves, and how far the maker lets it.
    pub fn lever(&self, lever_id: LeverId) -> Option<Reach> {
        if self.holds(lever_id) {
            return None;
        }
        match &self.levers {
            Some(all) => all.iter().find(|r| r.lever_id == lever_id).copied(),
            None => usual(lever_id).then_some(Reach { lever_id, bounds: None, step: None }),
        }
    }

    /// Whether a lever is held, not only left out of what may move.
    pub fn holds(&self, lever_id: LeverId) -> bool {
        self.held.contains(&Movable::Lever(lever_id))
    }

    /// Whether a line keeps its entry since one of its levers is held: how much of what else would that be?
    pub fn holds_line(&self, shelf: LineKind, line: usize) -> bool {
        let of_line =
            |m: &Movable| matches!(m, Movable::Lever(lever_id) if lever_id.line() == Some((shelf, line)));
        self.held.iter().any(of_line)
    }

    /// The same for another design: a lever goes with the entry that it is a number of, and is let go with it.
    pub fn carried(&self, from: &Design, to: &Design) -> Self {
        let lever = |lever_id: LeverId| lever_id.carried(from, to);
        let reach = |r: &Reach| Some(Reach { lever_id: lever(r.lever_id)?, ..*r });
        let held = |m: &Movable| match m {
            Movable::Lever(lever_id) => lever(*lever_id).map(Movable::Lever),
            list @ Movable::Entry(_) => Some(*list),
        };
        Self {
            levers: self.levers.as_ref().map(|all| all.iter().filter_map(reach).collect()),
            entries: self.entries.clone(),
            fed: self.fed,
            beyond: self.beyond,
            held: self.held.iter().filter_map(held).collect(),
        }
    }

    /// Whether another entry may stand in the main line of its kind.
    pub fn entry(&self, kind: EntryKind) -> bool {
        let named = self.entries.as_ref().is_none_or(|all| all.contains(&kind));
        named && !self.held.contains(&Movable::Entry(kind))
    }
}

/// What a maker turns from pot to pot. What a tin or packet is, how much is made and how it is kept stays unless it is named.
const fn usual(lever_id: LeverId) -> bool {
    matches!(
        lever_id,
        LeverId::BaseShare(_)
            | LeverId::SugarDose(_)
            | LeverId::ThickenerDose(_)
            | LeverId::CultureRate(_)
            | LeverId::CultureIn
            | LeverId::HoldTemperature
            | LeverId::HoldHours
            | LeverId::StrainFor
            | LeverId::StrainOff
    )
}

/// Levers that were called otherwise: what was written down stays readable.
const OLD_NAMES: [(&str, &str); 4] = [
    ("culture in at", "add culture at"),
    ("stop after", "stop at"),
    ("cool to", "chill to"),
    ("leave it cold", "hours in the fridge"),
];

/// A kind by its word, a lever by its name, by how it alone begins, or by a part of it that no other has.
fn movable(name: &str, all: &[Lever]) -> Result<Movable, Note> {
    let small = name.trim().to_lowercase();
    if let Some(kind) = ENTRIES.into_iter().find(|kind| kind.one() == small) {
        return Ok(Movable::Entry(kind));
    }
    let small = OLD_NAMES.into_iter().find(|(old, _)| *old == small).map_or(small, |(_, new)| new.to_owned());
    if let Some(lever) = all.iter().find(|l| l.name.to_lowercase() == small) {
        return Ok(Movable::Lever(lever.lever_id));
    }
    let like: Vec<&Lever> =
        all.iter().filter(|l| !small.is_empty() && l.name.to_lowercase().contains(&small)).collect();
    let begin: Vec<&Lever> =
        like.iter().copied().filter(|l| l.name.to_lowercase().starts_with(&small)).collect();
    let like = if begin.len() == 1 { begin } else { like };
    let names = |levers: &[&Lever]| levers.iter().map(|l| l.name.as_str()).collect::<Vec<_>>().join(", ");
    match like.as_slice() {
        [one] => Ok(Movable::Lever(one.lever_id)),
        [] => Err(Note::error(
            name.trim(),
            "The design has no such lever",
            format!(
                "Give one of: base, thickener, culture, warmer, {}",
                names(&all.iter().collect::<Vec<_>>())
            ),
        )),
        several => Err(Note::error(
            name.trim(),
            "More than one lever has this name",
            format!("Give one of: {}", names(several)),
        )),
    }
}

/// "8..16", "0..20 by 2.5".
fn read_reach(text: &str, reach: &str, lever: &Lever) -> Result<Reach, Note> {
    let (span, step) = reach.split_once(" by ").map_or((reach, None), |(span, step)| (span, Some(step)));
    let (low, high) = lever.range;
    let scale = units::scale(lever.unit);
    let ends = [low, high].map(|v| number::plain(scale.shown(v)));
    let mend = format!("Write {}={}..{}", lever.name, ends[0], ends[1]);
    let fault = |title: String| Note::error(text, title, mend.clone());
    let read = |part: &str, of: &str| {
        let unit = if lever.unit.is_empty() { String::new() } else { format!(" in {}", scale.unit) };
        number::in_unit(part, of).ok_or_else(|| fault(format!("“{}” is not a number{unit}", part.trim())))
    };
    let (number, differ) =
        (|part: &str| read(part, lever.unit), |part: &str| read(part, units::apart(lever.unit)));
    let (from, to) = span.split_once("..").ok_or_else(|| fault("This is not a range".to_owned()))?;
    let (from, to) = (number(from)?, number(to)?);
    if from >= to {
        return Err(fault("The range runs the wrong way round, or is empty".to_owned()));
    }
    if from < low || to > high {
        return Err(fault("The lever does not go so far".to_owned()));
    }
    let step = step.map(differ).transpose()?;
    if let Some(step) = step
        && !(step > 0.0 && step <= to - from)
    {
        let title = format!("A step of {} does not fit into the range", number::plain(step));
        return Err(Note::error(text, title, "Give a step that is more than 0 and no wider than the range"));
    }
    Ok(Reach { lever_id: lever.lever_id, bounds: Some((from, to)), step })
}

/// What Aim is asked.
#[derive(Clone, Debug, PartialEq)]
pub struct AimAsk {
    pub wants: Vec<Want>,
    pub moves: Moves,
    /// The same seed gives the same answer.
    pub seed: u64,
}

impl AimAsk {
    /// A question. Of two bounds of one kind on one measure the tighter counts.
    ///
    /// # Errors
    /// A note where nothing is wanted, or where no pot can be two of the things that are.
    pub fn new(wants: Vec<Want>, moves: Moves, seed: u64) -> Result<Self, Note> {
        if wants.is_empty() {
            return Err(Note::error(
                "want",
                "No goal is set",
                "Say what the pot is to be, for example texture=dollops",
            ));
        }
        Ok(Self { wants: agreed(wants)?, moves, seed })
    }
}
