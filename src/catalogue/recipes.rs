//! The list of house recipes: what each is listed by, what is looked for, and in what order.

use potset_base::choices;
use potset_base::words::{TangWord, TextureWord};
use potset_doc::recipe::{self, KnownRecipe, RecipeAnswer, RecipeRecord, RecipeSummary};
use potset_forecast::scenario::Scenario;
use potset_judge::answer::answer;

/// A recipe as it is listed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Recipe {
    /// Its name in the folder.
    pub file: String,
    /// Says whether the file is still the one that was read.
    pub stamp: u64,
    pub summary: RecipeSummary,
    /// What comes of it, once that is known.
    pub answer: Option<RecipeAnswer>,
    pub record: RecipeRecord,
    /// All its words in small letters, to be looked for.
    words: String,
}

impl Recipe {
    /// A recipe with what is known of it.
    pub fn new(
        (file, stamp): (String, u64),
        summary: RecipeSummary,
        answer: Option<RecipeAnswer>,
        record: RecipeRecord,
    ) -> Self {
        let mut all = Self { file, stamp, summary, answer, record, words: String::new() };
        all.words = all.all_words();
        all
    }

    fn all_words(&self) -> String {
        let RecipeSummary { name, bases, tags, style, .. } = &self.summary;
        let mut all = vec![name.as_str(), &self.file, style.word()];
        all.extend(bases.iter().chain(tags).map(String::as_str));
        if let Some(answer) = &self.answer {
            all.push(&answer.code);
            all.extend(answer.texture.map(TextureWord::word));
            all.extend(answer.tang.map(TangWord::word));
        }
        all.join("\n").to_lowercase()
    }

    /// The same with what comes of it.
    #[must_use]
    pub fn answered(&self, answer: RecipeAnswer) -> Self {
        Self::new((self.file.clone(), self.stamp), self.summary.clone(), Some(answer), self.record.clone())
    }

    /// What is kept of it for the next start.
    pub fn known(&self) -> KnownRecipe {
        KnownRecipe {
            file: self.file.clone(),
            stamp: self.stamp,
            summary: self.summary.clone(),
            answer: self.answer.clone(),
        }
    }

    /// The day on which it was made last.
    pub fn last_made(&self) -> Option<&str> {
        self.record.made.iter().map(String::as_str).max()
    }
}

/// Points of a small curve.
const POINTS: u32 = 40;

/// What comes of a recipe.
///
/// - `code` — the signs of its card.
pub fn answered(scenario: &Scenario<'_>, code: String) -> RecipeAnswer {
    let answer = answer(scenario);
    let v = &answer.verdict;
    let why_not = answer.errors.first().map(|note| note.title.clone()).unwrap_or_default();
    let f = &answer.forecast;
    let ph = |k: u32| f.value(&f.ph, v.stop_h * f64::from(k) / f64::from(POINTS - 1));
    let curve =
        if f.t.is_empty() { String::new() } else { (0..POINTS).map(|k| recipe::letter(ph(k))).collect() };
    RecipeAnswer {
        code,
        texture: v.texture.as_ref().map(|t| t.word),
        tang: v.tang.as_ref().and_then(|t| t.word),
        sweet: v.tang.as_ref().map(|t| t.sweet_level),
        discard: v.hygiene.discard().is_some(),
        vegan: answer.nutrition.animal.is_empty(),
        gluten_free: answer.nutrition.gluten.is_empty(),
        curve,
        why_not,
    }
}

choices! {
    /// In what order recipes are listed.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
    pub enum Order: words {
        #[default]
        Name => "by name",
        LastMade => "last made first",
        MostMade => "most made first",
        Stars => "most stars first",
        Texture => "thinnest first",
        Hold => "shortest hold first",
    }
}

/// What is looked for.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Find {
    /// Each of its words stands somewhere in the recipe.
    pub text: String,
    pub vegan: bool,
    pub gluten_free: bool,
    pub starred: bool,
    pub tag: Option<String>,
    pub texture: Option<TextureWord>,
    pub order: Order,
}

impl Find {
    /// Whether nothing is left out.
    pub fn is_open(&self) -> bool {
        *self == Self { order: self.order, ..Self::default() }
    }

    fn fits(&self, words: &[String], one: &Recipe) -> bool {
        let answer =
            |want: bool, has: fn(&RecipeAnswer) -> bool| !want || one.answer.as_ref().is_some_and(has);
        words.iter().all(|word| one.words.contains(word.as_str()))
            && answer(self.vegan, |a| a.vegan)
            && answer(self.gluten_free, |a| a.gluten_free)
            && (!self.starred || one.record.stars > 0)
            && self.tag.as_ref().is_none_or(|tag| one.summary.tags.contains(tag))
            && self.texture.is_none_or(|t| one.answer.as_ref().is_some_and(|a| a.texture == Some(t)))
    }
}

/// The places of the recipes that fit, in their order.
pub fn found<R: AsRef<Recipe>>(all: &[R], find: &Find) -> Vec<usize> {
    let words: Vec<String> = find.text.to_lowercase().split_whitespace().map(str::to_owned).collect();
    let mut places: Vec<usize> = (0..all.len()).filter(|i| find.fits(&words, all[*i].as_ref())).collect();
    let one = |i: &usize| all[*i].as_ref();
    // Of equals the order of names stands.
    places.sort_by_cached_key(|i| (one(i).summary.name.to_lowercase(), one(i).file.clone()));
    let last = |i: &usize| one(i).last_made().map(str::to_owned);
    match find.order {
        Order::Name => {}
        Order::LastMade => places.sort_by_cached_key(|i| std::cmp::Reverse(last(i))),
        Order::MostMade => places.sort_by_key(|i| std::cmp::Reverse(one(i).record.made.len())),
        Order::Stars => places.sort_by_key(|i| std::cmp::Reverse(one(i).record.stars)),
        Order::Texture => places.sort_by_key(|i| {
            // What is not known yet comes last.
            one(i).answer.as_ref().and_then(|a| a.texture).map_or((1, None), |t| (0, Some(t)))
        }),
        Order::Hold => places.sort_by(|a, b| one(a).summary.hold_h.total_cmp(&one(b).summary.hold_h)),
    }
    places
}

/// Every tag in use, with how many recipes have it, the commonest first.
pub fn tags<R: AsRef<Recipe>>(all: &[R]) -> Vec<(String, usize)> {
    let mut counted = std::collections::BTreeMap::<&str, usize>::new();
    for tag in all.iter().flat_map(|one| &one.as_ref().summary.tags) {
        *counted.entry(tag).or_default() += 1;
    }
    let mut out: Vec<(String, usize)> = counted.into_iter().map(|(tag, n)| (tag.to_owned(), n)).collect();
    out.sort_by_key(|(_, n)| std::cmp::Reverse(*n));
    out
}

/// Places of recipes that bear the name of another one: the same recipe may have been changed in two places.
pub fn twins<R: AsRef<Recipe>>(all: &[R]) -> Vec<(usize, usize)> {
    let mut by_name = std::collections::BTreeMap::<String, usize>::new();
    let mut out = Vec::new();
    for (i, one) in all.iter().enumerate() {
        let name = one.as_ref().summary.name.trim().to_lowercase();
        match by_name.get(&name) {
            Some(first) => out.push((*first, i)),
            None => {
                by_name.insert(name, i);
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::Arc;

    fn recipe(name: &str, tags: &[&str], stars: u8, made: &[&str]) -> Arc<Recipe> {
        let summary = RecipeSummary {
            name: name.to_owned(),
            tags: tags.iter().map(|t| (*t).to_owned()).collect(),
            ..RecipeSummary::default()
        };
        let made = made.iter().map(|d| (*d).to_owned()).collect();
        let file = format!("{name}.ron");
        Arc::new(Recipe::new((file, 1), summary, None, RecipeRecord { stars, made }))
    }

    #[test]
    fn recipes_are_found_by_words_tags_and_stars_and_ordered() {
        let all = [
            recipe("Oat and coconut", &["class"], 0, &["2026-10-01"]),
            recipe("Coconut pot", &["class", "home"], 3, &["2026-11-02", "2026-11-20"]),
            recipe("Goat", &[], 5, &[]),
        ];
        let names = |find: Find| -> Vec<String> {
            found(&all, &find).into_iter().map(|i| all[i].summary.name.clone()).collect()
        };
        let text = |text: &str| Find { text: text.to_owned(), ..Find::default() };
        assert_eq!(names(Find::default()), ["Coconut pot", "Goat", "Oat and coconut"]);
        assert_eq!(names(text("coconut oat")), ["Oat and coconut"]);
        assert_eq!(names(text("home")), ["Coconut pot"]);
        assert_eq!(
            names(Find { starred: true, order: Order::Stars, ..Find::default() }),
            ["Goat", "Coconut pot"]
        );
        assert_eq!(names(Find { order: Order::LastMade, ..Find::default() })[0], "Coconut pot");
        assert_eq!(names(Find { tag: Some("class".to_owned()), ..Find::default() }).len(), 2);
        // What is not known of a pot yet is not said of it.
        assert!(names(Find { vegan: true, ..Find::default() }).is_empty());
        assert_eq!(tags(&all)[0], ("class".to_owned(), 2));
    }

    #[test]
    fn two_of_one_name_are_told() {
        let all = [recipe("A", &[], 0, &[]), recipe("B", &[], 0, &[]), recipe("a ", &[], 0, &[])];
        assert_eq!(twins(&all), [(0, 2)]);
    }
}
