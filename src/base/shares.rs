//! Shares of a whole that always add up: one is moved, the others follow.

use super::{Note, number};

/// Roundings that a share may be off by.
const ROUNDING: f64 = 1e-12;

/// The shares with share `i` at `to`. What is not locked follows in proportion, or evenly where all of it is nothing;
/// what is locked stays. The answer adds up to 1.
///
/// # Errors
/// A note with the mend: no such share, a share that is locked, `to` that is negative or more than what is not locked,
/// or nothing left that could follow.
pub fn shift(shares: &[f64], locked: &[bool], i: usize, to: f64) -> Result<Vec<f64>, Note> {
    shift_all(shares, locked, &[(i, to)])
}

/// The same with several shares, each at a value of its own.
///
/// # Errors
/// As [`shift`]; what is not locked is what all that are moved have between them.
pub fn shift_all(shares: &[f64], locked: &[bool], to: &[(usize, f64)]) -> Result<Vec<f64>, Note> {
    let fault = |title: String, mend: &str| Note::error("share", title, mend);
    let is_locked = |j: usize| locked.get(j).copied().unwrap_or(false);
    let moved = |j: usize| to.iter().any(|(i, _)| *i == j);
    let sum: f64 = shares.iter().sum();
    let there = to.iter().all(|(i, _)| *i < shares.len());
    if !(there && sum.is_finite() && sum > 0.0) || shares.iter().any(|s| *s < 0.0) {
        return Err(fault("There is no such share".to_owned(), "Choose one of the lines of the design"));
    }
    if to.iter().any(|(i, _)| is_locked(*i)) {
        return Err(fault("This share is locked".to_owned(), "Unlock it first"));
    }
    let mut new: Vec<f64> = shares.iter().map(|s| s / sum).collect();
    let others: Vec<usize> = (0..new.len()).filter(|j| !moved(*j) && !is_locked(*j)).collect();
    let held: f64 = (0..new.len()).filter(|j| is_locked(*j)).map(|j| new[j]).sum();
    let free = 1.0 - held;
    let wanted: f64 = to.iter().map(|(_, to)| *to).sum();
    if others.is_empty() && (wanted - free).abs() > ROUNDING {
        return Err(fault(
            "Every other share is locked, and none can follow".to_owned(),
            "Unlock another base",
        ));
    }
    if !(wanted <= free + ROUNDING && to.iter().all(|(_, to)| *to >= 0.0)) {
        let percent = number::figures((free * 100.0).max(0.0), 3);
        return Err(fault(
            format!("Only {percent} % is not locked"),
            "Give a share from 0 up to that, or unlock a base",
        ));
    }
    let rest = (free - wanted).max(0.0);
    let following: f64 = others.iter().map(|j| new[*j]).sum();
    for j in &others {
        let even = rest / others.len() as f64;
        new[*j] = if following > 0.0 { new[*j] * (rest / following) } else { even };
    }
    // What rounding leaves goes to what is moved, so that the whole stays the whole.
    let exact = if wanted > 0.0 { (free - rest) / wanted } else { 1.0 };
    to.iter().for_each(|(i, to)| new[*i] = to * exact);
    Ok(new)
}

/// How far share `i` can be moved so that it and all that follow stay at `least` or more; its own value where it cannot
/// move at all.
pub fn room(shares: &[f64], locked: &[bool], i: usize, least: f64) -> (f64, f64) {
    let sum: f64 = shares.iter().sum();
    let own = shares.get(i).map_or(0.0, |s| s / sum);
    let is_locked = |j: usize| locked.get(j).copied().unwrap_or(false);
    let others = || (0..shares.len()).filter(|j| *j != i && !is_locked(*j)).map(|j| shares[j] / sum);
    let following: f64 = others().sum();
    let smallest = others().fold(f64::INFINITY, f64::min);
    if is_locked(i) || following <= 0.0 {
        return (own, own);
    }
    // The smallest of the others shrinks in proportion; at worst they all stay where they are.
    let shrink = if smallest > 0.0 { (least / smallest).min(1.0) } else { 1.0 };
    (least.min(own), own + following * (1.0 - shrink))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_others_follow_in_proportion() {
        let new = shift(&[0.5, 0.3, 0.2], &[false; 3], 0, 0.25).unwrap();
        assert!(new.iter().zip([0.25, 0.45, 0.3]).all(|(a, b)| (a - b).abs() < 1e-12), "{new:?}");
        let new = shift(&[0.5, 0.3, 0.2], &[false, true, false], 0, 0.6).unwrap();
        assert!(new.iter().zip([0.6, 0.3, 0.1]).all(|(a, b)| (a - b).abs() < 1e-12), "{new:?}");
        let new = shift(&[1.0, 0.0, 0.0], &[false; 3], 0, 0.5).unwrap();
        assert_eq!(new, [0.5, 0.25, 0.25], "from nothing they follow evenly");
        assert_eq!(shift(&[2.0, 2.0], &[], 1, 0.25).unwrap(), [0.75, 0.25], "amounts count as shares");
    }

    #[test]
    fn several_are_moved_at_once_and_stand_where_they_are_put() {
        let new =
            shift_all(&[0.5, 0.2, 0.2, 0.1], &[false, false, false, true], &[(0, 0.3), (1, 0.4)]).unwrap();
        assert!(new.iter().zip([0.3, 0.4, 0.2, 0.1]).all(|(a, b)| (a - b).abs() < 1e-12), "{new:?}");
        assert!(shift_all(&[0.5, 0.5], &[], &[(0, 0.3), (1, 0.8)]).is_err(), "nothing can follow");
        assert!(shift_all(&[0.4, 0.4, 0.2], &[], &[(0, 0.6), (1, 0.5)]).is_err(), "more than there is");
        assert!(shift_all(&[0.4, 0.4, 0.2], &[], &[(0, 0.6), (1, f64::NAN)]).is_err());
    }

    #[test]
    fn what_cannot_be_names_the_mend() {
        for (shares, locked, i, to, said) in [
            (vec![0.5, 0.5], vec![false, true], 0, 0.6, "Every other"),
            (vec![0.5, 0.3, 0.2], vec![false, true, false], 0, 0.8, "Only 70.0 %"),
            (vec![0.5, 0.5], vec![true, false], 0, 0.6, "locked"),
            (vec![0.5, 0.5], vec![], 0, -0.1, "Only 100 %"),
            (vec![0.5, 0.5], vec![], 0, f64::NAN, "Only 100 %"),
            (vec![0.5, 0.5], vec![], 2, 0.1, "no such"),
            (vec![], vec![], 0, 0.1, "no such"),
        ] {
            let note = shift(&shares, &locked, i, to).unwrap_err();
            assert!(note.title.contains(said), "{note}");
            assert!(!note.mend.is_empty());
        }
    }

    #[test]
    fn the_room_keeps_every_line_alive() {
        assert_eq!(room(&[1.0, 1.0], &[], 0, 0.01), (0.01, 0.99));
        let (low, high) = room(&[0.5, 0.4, 0.1], &[], 0, 0.01);
        let new = shift(&[0.5, 0.4, 0.1], &[], 0, high).unwrap();
        assert!(low == 0.01 && (new[2] - 0.01).abs() < 1e-12 && new[1] > 0.01, "{new:?}");
        assert_eq!(room(&[0.5, 0.5], &[false, true], 0, 0.01), (0.5, 0.5));
        assert_eq!(room(&[0.5, 0.5], &[true, false], 0, 0.01), (0.5, 0.5));
    }
}
