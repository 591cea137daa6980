//! Learning on published pots: after one condition of a paper, its others.

use crate::support::pantry;
use potset_doc::evidence::{self, Case};
use potset_evidence::evidence::transfers;

/// Cultures of papers whose pots were held at least twice. The whole table, with every paper that tells two conditions, is
/// `potset evidence --learn`.
const SHARED: [&str; 3] = ["florence2009_pair", "florence2009_bifido", "fsn427"];

#[test]
fn after_one_condition_of_a_paper_its_others_are_forecast_better() {
    let of = |case: &Case| case.fit.as_ref().is_some_and(|fit| SHARED.contains(&fit.shared.as_str()));
    let cases: Vec<Case> = evidence::shipped().unwrap().into_iter().filter(of).collect();
    let all = transfers(&cases, &pantry());
    assert_eq!(all.len(), 2 + 2 + 12);
    let better = all.iter().filter(|t| t.after < t.before).count();
    let squares = |of: &dyn Fn(&potset_evidence::evidence::Transfer) -> f64| {
        all.iter().map(|t| t.readings as f64 * of(t).powi(2)).sum::<f64>()
    };
    let (before, after) = (squares(&|t| t.before), squares(&|t| t.after));
    println!("better {better} of {}; sum of squares {before:.0} -> {after:.0}", all.len());
    assert!(better >= 14, "{better}");
    assert!(after < 0.7 * before, "{before} {after}");
}
