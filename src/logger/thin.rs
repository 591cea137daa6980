//! Fewer points to draw, with every peak.

/// At most so many of the points, in their order: the first and the last, and of each stretch between them the least and the
/// greatest. No value comes that was not there.
///
/// - `points` — rising in the first number; `most` — below 4 there is room for no more than the ends.
pub fn thin(points: &[(f64, f64)], most: usize) -> Vec<(f64, f64)> {
    if points.len() <= most {
        return points.to_vec();
    }
    let (Some(first), Some(last)) = (points.first(), points.last()) else { return Vec::new() };
    let inner = &points[1..points.len() - 1];
    let stretches = most.saturating_sub(2) / 2;
    let mut out = Vec::with_capacity(most);
    out.push(*first);
    for at in 0..stretches {
        let stretch = &inner[at * inner.len() / stretches..(at + 1) * inner.len() / stretches];
        let mut ends = [0, 0];
        for (place, (_, value)) in stretch.iter().enumerate() {
            if value.total_cmp(&stretch[ends[0]].1).is_lt() {
                ends[0] = place;
            }
            if value.total_cmp(&stretch[ends[1]].1).is_gt() {
                ends[1] = place;
            }
        }
        ends.sort_unstable();
        out.extend(stretch.get(ends[0]));
        out.extend(stretch.get(ends[1]).filter(|_| ends[0] != ends[1]));
    }
    out.push(*last);
    out.truncate(most);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn peaks_and_ends_stay() {
        let mut points: Vec<(f64, f64)> = (0..10_000_u16).map(|k| (f64::from(k), 40.0)).collect();
        points[3333].1 = 55.0;
        points[7777].1 = 12.0;
        for most in [4, 5, 40, 1001] {
            let few = thin(&points, most);
            assert!(few.len() <= most && few.iter().all(|point| points.contains(point)), "{most}");
            assert!(few.contains(&points[3333]) && few.contains(&points[7777]), "{most}");
            assert_eq!((few.first(), few.last()), (points.first(), points.last()));
            assert!(few.windows(2).all(|pair| pair[0].0 < pair[1].0));
        }
        assert_eq!(thin(&points, 10_000), points);
        assert_eq!(thin(&points, 2), [points[0], points[9999]]);
        assert_eq!((thin(&points, 1), thin(&points, 0)), (vec![points[0]], vec![]));
        assert_eq!(thin(&[], 9), []);
        assert_eq!(thin(&[], 0), []);
    }
}
