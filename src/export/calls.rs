//! The call log as tables: a row a call, and how often each cause came with each lot.

use super::csv::table;
use potset_base::number;
use potset_doc::calls::CallLog;

/// The columns of the calls, and those of the counts.
const CALLS: [&str; 8] =
    ["day", "base", "culture", "lot", "months_since_opened", "said", "cause", "told_to_throw_away"];
const COUNTS: [&str; 4] = ["culture", "lot", "cause", "calls"];

/// Every call, a row each.
///
/// - `words` — the words of a key of the shipped table of causes and of what is seen.
pub fn calls(log: &CallLog, words: impl Fn(&str) -> String) -> String {
    let rows = log.calls.iter().map(|call| {
        let said: Vec<String> = call.saw.iter().map(|key| words(key)).collect();
        let thrown = if call.thrown_away { "yes" } else { "no" };
        let age = call.age_months.map_or_else(String::new, |months| number::fixed(months, 1));
        vec![
            call.day.clone(),
            call.base.clone(),
            call.culture.clone(),
            call.lot.clone(),
            age,
            said.join("; "),
            words(&call.cause),
            thrown.to_owned(),
        ]
    });
    table(std::iter::once(CALLS.map(str::to_owned).to_vec()).chain(rows))
}

/// How often each cause came with each lot of a culture.
pub fn counts(log: &CallLog, words: impl Fn(&str) -> String) -> String {
    let rows = log
        .counts()
        .into_iter()
        .map(|count| vec![count.culture, count.lot, words(&count.cause), count.calls.to_string()]);
    table(std::iter::once(COUNTS.map(str::to_owned).to_vec()).chain(rows))
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::calls::Call;

    #[test]
    fn a_row_has_words_and_a_lot_that_looks_like_a_formula_is_quoted() {
        let call = Call {
            day: "2026-12-01".to_owned(),
            lot: "=A1".to_owned(),
            saw: vec!["thin".to_owned(), "sweet".to_owned()],
            cause: "old".to_owned(),
            age_months: Some(5.0),
            ..Call::default()
        };
        let log = CallLog { calls: vec![call] };
        let text = calls(&log, str::to_uppercase);
        let row = text.lines().nth(1).unwrap();
        assert!(row.contains("THIN; SWEET") && row.contains("OLD") && row.ends_with("no"), "{row}");
        assert!(!row.contains(",=A1"), "{row}");
        assert!(counts(&log, str::to_uppercase).contains("OLD,1"));
    }
}
