//! Headings: what the columns are for, how large a serving is, and titles that say nothing more.

use super::tokens::{Kind, Thousands, Token, tokens, value};
use super::vocabulary::{Unit, vocabulary};
use super::{Basis, Portion};
use potset_base::measures::Measure;

/// A heading as read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Heading {
    pub columns: Vec<Basis>,
    pub serving: Option<Portion>,
}

/// Whether every token could stand in a heading.
fn plain(tokens: &[Token]) -> bool {
    let known = vocabulary();
    tokens.iter().all(|t| match &t.kind {
        Kind::Word(w) => known.headings.has(w) || known.servings.has(w) || Unit::of(w).is_some(),
        Kind::Number(_) => true,
        Kind::Sign(c) => "|:;,./()[]*†-%=~½¼¾⅓⅔\"".contains(*c),
    })
}

fn word(token: Option<&Token>) -> Option<&str> {
    match token.map(|t| &t.kind) {
        Some(Kind::Word(w)) => Some(w),
        _ => None,
    }
}

/// Cups and spoons that a serving is told in.
fn household(word: &str) -> Option<Measure> {
    vocabulary().household.get(word).copied()
}

/// "1/3 cup", "2 tbsp", "½ cup"; the token is the last one of the number.
fn household_at(tokens: &[Token], at: usize) -> Option<Portion> {
    let measure = household(word(tokens.get(at + 1))?)?;
    let number = |at: usize| match &tokens.get(at)?.kind {
        Kind::Number(digits) => value(digits, Thousands::Never),
        Kind::Sign(c) => match c {
            '¼' => Some(0.25),
            '⅓' => Some(1.0 / 3.0),
            '½' => Some(0.5),
            '⅔' => Some(2.0 / 3.0),
            '¾' => Some(0.75),
            _ => None,
        },
        Kind::Word(_) => None,
    };
    let last = number(at)?;
    let slash = at >= 2 && tokens[at - 1].kind == Kind::Sign('/');
    let mixed = at >= 1 && last < 1.0 && matches!(tokens[at - 1].kind, Kind::Number(_));
    let whole = at >= 3 && !tokens[at - 2].glued && matches!(tokens[at - 3].kind, Kind::Number(_));
    let count = if slash {
        number(at - 2)? / last + if whole { number(at - 3)? } else { 0.0 }
    } else if mixed {
        number(at - 1)? + last
    } else {
        last
    };
    (count.is_finite() && count > 0.0).then_some(Portion::Household(count, measure))
}

/// "Per bowl", "values per helping": a basis that says nothing which is known.
pub fn per_something(tokens: &[Token]) -> bool {
    let words: Vec<&str> = tokens.iter().filter_map(|t| word(Some(t))).collect();
    words.iter().position(|w| *w == "per").is_some_and(|at| {
        at + 1 < words.len()
            && words.len() <= at + 6
            && words[..at].iter().all(|w| vocabulary().headings.has(w))
    })
}

/// A weight or volume at a token.
fn portion_at(tokens: &[Token], at: usize) -> Option<Portion> {
    let told = household_at(tokens, at);
    if told.is_some() {
        return told;
    }
    let Kind::Number(digits) = &tokens.get(at)?.kind else { return None };
    match Unit::of(word(tokens.get(at + 1))?)? {
        Unit::Gram => value(digits, Thousands::Never).map(Portion::Grams),
        Unit::Millilitre => value(digits, Thousands::Comma).map(Portion::Millilitres),
        _ => None,
    }
    .filter(|p| p.size() > 0.0)
}

/// The amounts of a heading; grams go before millilitres where both are given.
fn portions(tokens: &[Token]) -> Vec<Portion> {
    (0..tokens.len()).filter_map(|at| portion_at(tokens, at)).collect()
}

fn preferred(all: &[Portion]) -> Option<Portion> {
    let of = |wanted: fn(&Portion) -> bool| all.iter().find(|p| wanted(p)).copied();
    of(|p| matches!(p, Portion::Grams(_)))
        .or_else(|| of(|p| matches!(p, Portion::Millilitres(_))))
        .or_else(|| all.first().copied())
}

/// Reads a heading; `None` if the line is none.
pub fn heading(line: &str) -> Option<Heading> {
    of_tokens(&tokens(line))
}

/// As [`heading()`], for the words before a row.
pub fn of_tokens(tokens: &[Token]) -> Option<Heading> {
    if !plain(tokens) || !tokens.iter().any(|t| matches!(t.kind, Kind::Word(_))) {
        return None;
    }
    let words: Vec<&str> = tokens.iter().filter_map(|t| word(Some(t))).collect();
    let known = vocabulary();
    let serving = words.iter().position(|w| known.servings.has(w));
    let size = words.contains(&"size");
    let counts = words.first().is_some_and(|w| known.counts.has(w))
        || serving.is_some_and(|at| {
            words[at..].windows(2).any(|w| matches!(w, [_, "per"])) && words[at].ends_with('s')
        });
    if size && serving.is_some() {
        // "Serving size 1/3 cup (80 mL)": how much, and no column.
        return preferred(&portions(tokens)).map(|p| Heading { columns: Vec::new(), serving: Some(p) });
    }
    if counts {
        // "Servings per pack: 5".
        return Some(Heading::default());
    }
    let columns = columns(tokens);
    let title = words.iter().any(|w| known.titles.has(w));
    (!columns.is_empty() || title).then_some(Heading { columns, serving: None })
}

/// The columns in order.
fn columns(tokens: &[Token]) -> Vec<Basis> {
    let mut all: Vec<Basis> = Vec::new();
    let mut at = 0;
    while at < tokens.len() {
        let starts_serving = word(tokens.get(at)).is_some_and(|w| vocabulary().servings.has(w));
        if let Some(portion) = portion_at(tokens, at) {
            let hundred = match portion {
                Portion::Grams(100.0) => Some(Basis::Per100G),
                Portion::Millilitres(100.0) => Some(Basis::Per100Ml),
                _ => None,
            };
            let inside = depth(&tokens[..at]) > 0;
            let joined = at > 0 && matches!(tokens[at - 1].kind, Kind::Sign('/' | '='));
            match (all.last_mut(), hundred) {
                // "per serving (80 mL / 82 g)": the size of that serving.
                (Some(Basis::Serving(size)), _)
                    if inside || (hundred.is_none() && (joined || size.is_none())) =>
                {
                    let both: Vec<Portion> = size.iter().copied().chain([portion]).collect();
                    *size = preferred(&both);
                }
                (_, Some(basis)) => all.push(basis),
                _ => all.push(Basis::Serving(Some(portion))),
            }
            at += 2;
            continue;
        }
        if starts_serving {
            match all.last() {
                // "per 80 mL serving" is one column.
                Some(Basis::Serving(Some(_)))
                    if at > 0 && word(tokens.get(at - 1)).is_some_and(|w| w != "per") => {}
                Some(Basis::Serving(None)) => {}
                _ => all.push(Basis::Serving(None)),
            }
        } else if word(tokens.get(at)) == Some("per") && container(tokens, at + 1) {
            // "Per cup": one of it.
            let one = word(tokens.get(at + 1)).and_then(household);
            all.push(Basis::Serving(one.map(|m| Portion::Household(1.0, m))));
        }
        at += 1;
    }
    all
}

/// Brackets that are open.
fn depth(tokens: &[Token]) -> usize {
    tokens.iter().fold(0_usize, |depth, t| match t.kind {
        Kind::Sign('(') => depth + 1,
        Kind::Sign(')') => depth.saturating_sub(1),
        _ => depth,
    })
}

/// "per cup", "per 1/2 tin", "per container": a serving by another name.
fn container(tokens: &[Token], from: usize) -> bool {
    tokens[from.min(tokens.len())..]
        .iter()
        .find_map(|t| match &t.kind {
            Kind::Number(_) | Kind::Sign(_) => None,
            Kind::Word(w) => Some(w.as_str()),
        })
        .is_some_and(|w| vocabulary().containers.has(w))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headings() {
        use Basis::{Per100G, Per100Ml, Serving};
        let ml = |v| Some(Portion::Millilitres(v));
        for (line, want) in [
            ("Typical values per 100 g", vec![Per100G]),
            ("Per 100ml | Per serving (250 ml)", vec![Per100Ml, Serving(ml(250.0))]),
            ("Nutrition per 100g Per 1/4 tin (100g)", vec![Per100G, Serving(Some(Portion::Grams(100.0)))]),
            ("Amount per serving", vec![Serving(None)]),
            ("per 80 mL serving", vec![Serving(ml(80.0))]),
            ("100 g / 100 mL", vec![Per100G, Per100Ml]),
            ("Average quantity per serve, Average quantity per 100 mL", vec![Serving(None), Per100Ml]),
            ("Per serving (80 mL / 82 g)", vec![Serving(Some(Portion::Grams(82.0)))]),
            ("Nutrition facts", vec![]),
        ] {
            assert_eq!(heading(line).map(|h| h.columns), Some(want), "{line}");
        }
        for (line, count) in
            [("Per 1 cup", 1.0), ("per cup", 1.0), ("Per 1 1/2 cups", 1.5), ("per 1½ cups", 1.5)]
        {
            let want = vec![Serving(Some(Portion::Household(count, Measure::Cup)))];
            assert_eq!(heading(line).map(|h| h.columns), Some(want), "{line}");
        }
        assert_eq!(heading("Per 1 bowl"), None);
        assert!(per_something(&tokens("per 1 bowl")) && !per_something(&tokens("fat per bowl")));
        assert_eq!(heading("Serving size 1/3 cup (80 mL)").and_then(|h| h.serving), ml(80.0));
        assert_eq!(heading("About 5 servings per container"), Some(Heading::default()));
        assert_eq!(heading("Store in a cool place"), None);
        assert_eq!(heading("Net weight 400 g"), None);
    }
}
