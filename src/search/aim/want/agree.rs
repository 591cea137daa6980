//! Wants that stand to each other: of two bounds of one kind the tighter counts, and what no pot can be both is refused.

use super::{Bounds, Want};
use potset_base::Note;
use potset_base::words::{TangWord, TextureWord};
use potset_forecast::observable::Observable;
use potset_forecast::params;
use potset_science::params::WordLaw;
use potset_science::sensory::{tang_bounds, texture_bounds};

/// The wants without those that another makes needless: of two bounds of one kind on one measure the tighter counts.
///
/// # Errors
/// A note that names two wants that no pot can meet both.
pub fn agreed(wants: Vec<Want>) -> Result<Vec<Want>, Note> {
    let mut out: Vec<Want> = Vec::new();
    for want in wants {
        let twice = out.contains(&want);
        match out.iter().find(|other| clash(other, &want)) {
            Some(other) => return Err(refused(other, &want)),
            None if twice => {}
            None => take(&mut out, want),
        }
    }
    Ok(out)
}

impl Want {
    /// What it is a measure of, in words or in numbers; rules are of none.
    pub const fn measure(&self) -> Option<Observable> {
        match self {
            Self::Called(o, ..) | Self::Within(o, _) => Some(*o),
            Self::Vegan | Self::GlutenFree | Self::NoCooking | Self::Only(_) => None,
        }
    }

    /// What it lets its measure be; nothing for rules.
    pub fn span(&self, words: &WordLaw) -> Option<(Observable, Bounds)> {
        let bounds = match self {
            Self::Within(_, bounds) => *bounds,
            Self::Called(Observable::Tang, low, high) => Bounds {
                low: Some(tang_bounds(TangWord::ALL[*low], words).0),
                high: Some(tang_bounds(TangWord::ALL[*high], words).1),
            },
            Self::Called(_, low, high) => {
                let (low, high) = texture_bounds(TextureWord::ALL[*low], TextureWord::ALL[*high], words);
                Bounds { low: Some(low), high }
            }
            Self::Vegan | Self::GlutenFree | Self::NoCooking | Self::Only(_) => return None,
        };
        Some((self.measure()?, bounds))
    }

    /// Whether two say something of the same measure.
    pub fn measures_same(&self, other: &Self) -> bool {
        self.measure().is_some() && self.measure() == other.measure()
    }
}

/// A want with those of its kind.
fn take(out: &mut Vec<Want>, mut want: Want) {
    for other in out.iter_mut() {
        match (other, &mut want) {
            (Want::Called(a, low, high), Want::Called(b, l, h)) if a == b => {
                (*low, *high) = ((*low).max(*l), (*high).min(*h));
                return;
            }
            (Want::Within(a, old), Want::Within(b, new)) if a == b => {
                keep_one(&mut old.low, &mut new.low, |new, old| new > old);
                keep_one(&mut old.high, &mut new.high, |new, old| new < old);
            }
            _ => {}
        }
    }
    out.push(want);
    out.retain(|w| !matches!(w, Want::Within(_, Bounds { low: None, high: None })));
}

/// Of two ends of one kind the tighter one stays.
fn keep_one(old: &mut Option<f64>, new: &mut Option<f64>, tighter: impl Fn(f64, f64) -> bool) {
    if let (Some(there), Some(here)) = (*old, *new) {
        if tighter(here, there) {
            *old = None;
        } else {
            *new = None;
        }
    }
}

/// Whether no pot can be both; a single value left over is none either, but for nought.
fn clash(a: &Want, b: &Want) -> bool {
    if let (Want::Called(o, low, high), Want::Called(p, l, h)) = (a, b) {
        return o == p && (low > h || l > high);
    }
    let Ok(shipped) = params::shipped() else { return false };
    let span = |want: &Want| {
        let (o, Bounds { low, high }) = want.span(&shipped.laws().words)?;
        Some((o, low.unwrap_or(f64::NEG_INFINITY), high.unwrap_or(f64::INFINITY)))
    };
    let (Some((o, low, high)), Some((p, l, h))) = (span(a), span(b)) else { return false };
    let (low, high) = (low.max(l), high.min(h));
    o == p && (low > high || (low >= high && low > o.wanted().range.0))
}

fn refused(a: &Want, b: &Want) -> Note {
    let bare = |w: &Want| w.words().replace("all goals reached and ", "");
    Note::error("want", format!("No pot can be both {} and {}", bare(a), bare(b)), "Remove one of them")
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_base::words::{TangWord, TextureWord};

    fn within(q: Observable, low: Option<f64>, high: Option<f64>) -> Want {
        Want::Within(q, Bounds { low, high })
    }

    #[test]
    fn of_two_bounds_of_one_kind_the_tighter_counts() {
        let sugar = |high: f64| within(Observable::SugarLeft, None, Some(high));
        for order in [[20.0, 10.0], [10.0, 20.0]] {
            assert_eq!(agreed(order.map(sugar).to_vec()).unwrap(), [sugar(10.0)]);
        }
        let least = within(Observable::SugarLeft, Some(5.0), None);
        assert_eq!(agreed(vec![sugar(20.0), least.clone()]).unwrap(), [sugar(20.0), least.clone()]);
        let range = within(Observable::SugarLeft, Some(4.0), Some(9.0));
        let both = agreed(vec![sugar(20.0), least.clone(), range]).unwrap();
        assert_eq!(both, [least, within(Observable::SugarLeft, None, Some(9.0))]);
        let texture = Want::texture;
        let words = [
            texture(TextureWord::Ribbons, TextureWord::Stands),
            texture(TextureWord::Dollops, TextureWord::Cuts),
        ];
        assert_eq!(agreed(words.to_vec()).unwrap(), [texture(TextureWord::Dollops, TextureWord::Stands)]);
        assert_eq!(agreed(vec![Want::Vegan, Want::Vegan]).unwrap(), [Want::Vegan]);
    }

    #[test]
    fn what_no_pot_can_be_both_is_refused() {
        let (ph, hours) = (Observable::Ph, Observable::ReadyFrom);
        for (pair, said) in [
            ([within(ph, None, Some(4.3)), within(ph, Some(4.6), None)], "both pH ≤ 4.3 and pH ≥ 4.6"),
            ([within(ph, Some(4.3), None), within(ph, None, Some(4.3))], "both pH ≥ 4.3 and pH ≤ 4.3"),
            ([within(ph, Some(4.0), Some(4.2)), within(ph, Some(4.3), Some(4.5))], "4.0 to 4.2"),
            ([within(hours, None, Some(8.0)), within(hours, Some(9.0), None)], "stopped within 8"),
            (
                [
                    Want::texture(TextureWord::Stands, TextureWord::Stands),
                    within(Observable::Texture, None, Some(0.2)),
                ],
                "texture stands",
            ),
            (
                [Want::tang(TangWord::Flat, TangWord::Mild), Want::tang(TangWord::Bright, TangWord::Sharp)],
                "tang",
            ),
        ] {
            let note = agreed(pair.to_vec()).unwrap_err();
            assert!(note.title.contains(&said.replace("4.0", "4")), "{note}");
            assert_eq!(note.mend, "Remove one of them");
        }
        // Neighbouring words and numbers that leave something do not clash; no sugar at all can be had.
        let next = [
            Want::texture(TextureWord::Dollops, TextureWord::Stands),
            within(Observable::Texture, None, Some(5.0)),
        ];
        assert!(agreed(next.to_vec()).is_ok());
        let none = [within(Observable::Whey, Some(0.0), None), within(Observable::Whey, None, Some(0.0))];
        assert!(agreed(none.to_vec()).is_ok());
    }
}
