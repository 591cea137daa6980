//! Which levers of a made combination may move, and as far as what is held lets them.

use super::choices::{Choice, Pick, Place};
use super::moves::{AimAsk, Beyond, Movable, Moves, Reach};
use super::turn::SearchLever;
use potset_doc::Design;
use potset_doc::edit::LineKind;
use potset_forecast::lever::lines::{key_at, keys, place};
use potset_forecast::lever::{Lever, LeverId, levers};
use potset_forecast::scenario::Scenario;

/// Lines that are taken out.
pub fn removed<'a>(picked: &'a [(&Choice, &Pick)]) -> impl Iterator<Item = (LineKind, usize)> + 'a {
    picked.iter().filter_map(|(c, p)| match (c.of, p) {
        (Place::Line(shelf, line), Pick::Remove) => Some((shelf, line)),
        _ => None,
    })
}

/// Bases of a made design whose shares the maker holds.
pub fn held_bases(asked: &Design, wish: &AimAsk, made: &Design) -> Vec<usize> {
    let held = |m: &Movable| match m {
        Movable::Lever(lever_id @ (LeverId::BaseShare(i) | LeverId::BaseLitres(i))) => {
            place(asked, made, LineKind::Bases, *i).filter(|_| wish.moves.holds(*lever_id))
        }
        _ => None,
    };
    wish.moves.held.iter().filter_map(held).collect()
}

/// The levers that may move on a made design.
pub fn turns(
    ask: &Scenario<'_>,
    wish: &AimAsk,
    (design, held): (&Design, &[usize]),
    picked: &[(&Choice, &Pick)],
    beyond: Beyond,
) -> Vec<SearchLever> {
    // What a warmer without a heater is set to is no number of the design.
    let own: Vec<LeverId> = levers(ask.design, ask.pantry).into_iter().map(|l| l.lever_id).collect();
    // Shares go as far as what is held lets them.
    let mut locked = design.clone();
    held.iter().for_each(|i| locked.bases[*i].locked = true);
    let mut all: Vec<(Lever, Reach, Option<f64>)> = levers(&locked, ask.pantry)
        .into_iter()
        .filter_map(|lever| {
            let free = Reach { lever_id: lever.lever_id, bounds: None, step: None };
            let Some((shelf, line)) = lever.lever_id.line() else {
                let was =
                    lever.lever_id.value(ask.design, ask.pantry).filter(|_| own.contains(&lever.lever_id));
                return wish.moves.lever(free.lever_id).map(|reach| (lever, reach, was));
            };
            let before = origin(ask.design, picked, shelf, line);
            let same = before.is_some_and(|b| key_at(ask.design, shelf, b) == key_at(design, shelf, line));
            let asked = before.map(|line| lever.lever_id.on_line(line));
            // How much of a new entry is for the search to say, whatever was said of another.
            let dose = !matches!(
                lever.lever_id,
                LeverId::BaseLitres(_) | LeverId::BaseShare(_) | LeverId::BaseFat(_)
            );
            let reach = match asked {
                Some(asked) if same || !dose => wish.moves.lever(asked)?,
                _ if dose && Moves::default().lever(lever.lever_id).is_some() => free,
                _ => return None,
            };
            let was = asked.filter(|_| same).and_then(|lever_id| lever_id.value(ask.design, ask.pantry));
            Some((lever, Reach { lever_id: free.lever_id, ..reach }, was))
        })
        .collect();
    // Where every share that is free moves, one of them follows from the others: one that the maker gave no bounds.
    let share = |k: LeverId| matches!(k, LeverId::BaseShare(_));
    let free = locked.bases.iter().filter(|b| !b.locked).count();
    if all.iter().filter(|(l, ..)| share(l.lever_id)).count() == free {
        let open = all.iter().rposition(|(l, r, _)| share(l.lever_id) && r.bounds.is_none());
        let follows = open.or_else(|| all.iter().rposition(|(l, ..)| share(l.lever_id)));
        if let Some(at) = follows {
            let (follower, reach, _) = all.remove(at);
            bound_others(&mut all, &follower, reach, &locked);
        }
    }
    let turn = |(lever, reach, was)| {
        SearchLever::new(lever, reach, was, (design, ask.pantry), (&wish.wants, beyond))
    };
    all.into_iter().filter_map(turn).collect()
}

/// Of two shares the one that moves keeps the other within its bounds; of more, each at least leaves it its least.
fn bound_others(all: &mut [(Lever, Reach, Option<f64>)], follower: &Lever, reach: Reach, design: &Design) {
    let Some((low, high)) = reach.bounds else { return };
    let locked: f64 = design.bases.iter().filter(|b| b.locked).map(|b| b.litres).sum();
    let free = 100.0 * (1.0 - locked / design.litres());
    let mut shares: Vec<_> = all
        .iter_mut()
        .filter(|(l, ..)| matches!(l.lever_id, LeverId::BaseShare(_)) && l.lever_id != follower.lever_id)
        .collect();
    let alone = shares.len() == 1;
    for (lever, reach, _) in &mut shares {
        let (from, to) = reach.bounds.unwrap_or(lever.range);
        reach.bounds = Some((if alone { from.max(free - high) } else { from }, to.min(free - low)));
    }
}

/// The line of the design that was asked about from which a line came; nothing where it was put in.
fn origin(asked: &Design, picked: &[(&Choice, &Pick)], shelf: LineKind, line: usize) -> Option<usize> {
    let gone = |l: &usize| removed(picked).any(|out| out == (shelf, *l));
    (0..keys(asked, shelf).count()).filter(|l| !gone(l)).nth(line)
}
