//! Reads a label line by line; each line is taken as something, or kept as unread.

use super::figures::{self, Row, Waiting};
use super::heading::{self, Heading};
use super::pieces::Lettered;
use super::tokens::{clean, tokens, words};
use super::vocabulary::vocabulary;
use super::{Basis, Ingredient, LabelReading, Line, claims, ingredients, run_on};

/// Reads a label. Nothing is dropped: every line that is not blank is understood or in `unread`.
pub fn read(text: &str) -> LabelReading {
    let mut reader = Reader::default();
    for (at, raw) in text.lines().enumerate() {
        let parts = run_on::parts(raw.trim());
        if parts.is_empty() {
            reader.line(at + 1, "");
        }
        parts.into_iter().for_each(|part| reader.line(at + 1, part));
    }
    reader.end(text)
}

#[derive(Default)]
struct Reader {
    out: LabelReading,
    columns: Vec<Basis>,
    /// A figure was taken: the columns are settled.
    started: bool,
    /// The heading that came after the first figure and was taken, since there was none before.
    late: Option<Line>,
    waiting: Option<(Waiting, Line)>,
    list: Vec<Lettered>,
    in_list: bool,
}

impl Reader {
    fn line(&mut self, number: usize, text: &str) {
        if text.is_empty() {
            self.in_list &= self.open_brackets() > 0;
            return;
        }
        let line = Line { number, text: text.to_owned() };
        let plain = clean(text);
        let waiting = self.waiting.take();
        if let Some((waiting, name)) = waiting {
            if let Some(row) = figures::amounts_only(&plain, Some(waiting), &self.columns) {
                self.understand(name.number);
                self.row(&row, &line, true);
                return;
            }
            self.out.unread.push(name);
        }
        // What the writer marks as unread stays so.
        if let Some(rest) = text.strip_prefix("? ").map(str::trim).filter(|rest| !rest.is_empty()) {
            self.out.unread.push(Line { number, text: rest.to_owned() });
            return;
        }
        let lower = plain.to_lowercase();
        if let Some(name) = vocabulary().name_starts.iter().find_map(|p| after(&plain, p)) {
            self.name(&name, line);
        } else if let Some(rest) = list_start(&lower) {
            self.list.push((',', number));
            self.list(&rest, number);
        } else if let Some(found) = claims::claims(&lower) {
            self.claims(found, line);
        } else if says_nothing(&lower) {
            self.in_list = false;
            self.understand(number);
        } else if let Some(found) = heading::heading(&plain) {
            self.in_list = false;
            self.heading(&found, &line);
        } else if !self.figures(&plain, &line) {
            self.words(&plain, &lower, line);
        }
    }

    /// A row of figures, or the name of one that waits for its amount.
    fn figures(&mut self, plain: &str, line: &Line) -> bool {
        if let Some(mut row) = figures::row(plain, &self.columns) {
            let units = !row.figures.is_empty() && row.figures.iter().all(|(_, _, unit, _)| *unit);
            // "Nutrition per 100 g: fat 18 g" begins a part of its own, also right after the list.
            let begins = !row.lead.is_empty() && heading::of_tokens(&row.lead).is_some();
            let certain = units && (begins || row.whole && row.lead.is_empty());
            if self.in_list && !certain {
                return false;
            }
            let mut led = row.lead.is_empty();
            if let Some(found) = heading::of_tokens(&row.lead) {
                led = true;
                self.heading(&found, line);
                row = figures::row(plain, &self.columns).unwrap_or(row);
            } else if heading::per_something(&row.lead) {
                self.unknown_basis();
            }
            if let Some(waits) = row.waits.filter(|_| row.lead.is_empty()) {
                self.waiting = Some((waits, line.clone()));
                return true;
            }
            if row.figures.is_empty() && !(row.other && row.whole && led) {
                return false;
            }
            self.in_list = false;
            self.row(&row, line, led);
            return true;
        }
        if self.in_list || !self.started {
            return false;
        }
        // "204 kcal" under the line of the energy.
        match figures::amounts_only(plain, None, &self.columns) {
            Some(row) if !row.figures.is_empty() => {
                self.row(&row, line, true);
                true
            }
            _ => false,
        }
    }

    /// Words: more of the list, a list without a heading, a name, or nothing that is known.
    fn words(&mut self, plain: &str, lower: &str, line: Line) {
        let known = words(lower);
        let food = known.iter().any(|w| vocabulary().foods.has(w));
        if self.in_list && self.list_ended() && !food && !any_known(lower) {
            self.in_list = false;
        }
        if self.in_list || (food && self.list.is_empty() && bare_list(lower)) {
            self.list(lower, line.number);
        } else if food
            && self.out.name.is_none()
            && known.len() <= 8
            && lower.matches(',').count() < 2
            && !lower.contains([':', '%'])
        {
            self.name(plain, line);
        } else {
            if heading::per_something(&tokens(plain)) {
                self.unknown_basis();
            }
            self.out.unread.push(line);
        }
    }

    /// "Per bowl": nothing says how much that is, so the figures are for a serving of unknown size.
    fn unknown_basis(&mut self) {
        if self.columns.is_empty() {
            self.columns.push(Basis::Serving(None));
        }
    }

    /// Whether the list so far ends with a full stop and no open bracket: what follows need not belong to it.
    fn list_ended(&self) -> bool {
        let last = self.list.iter().rev().map(|(c, _)| *c).find(|c| !c.is_whitespace());
        last == Some('.') && self.open_brackets() == 0
    }

    fn name(&mut self, name: &str, line: Line) {
        self.in_list = false;
        match &self.out.name {
            Some(have) if have != name => self.out.unread.push(line),
            _ => {
                self.out.name = Some(name.to_owned());
                self.understand(line.number);
            }
        }
    }

    fn list(&mut self, lower: &str, number: usize) {
        self.in_list = true;
        self.understand(number);
        self.list.extend(lower.chars().chain([' ']).map(|c| (c, number)));
    }

    fn claims(&mut self, found: claims::Claims, line: Line) {
        self.in_list = false;
        self.understand(line.number);
        for (list, new) in
            [(&mut self.out.contains, found.contains), (&mut self.out.may_contain, found.may_contain)]
        {
            for name in new {
                if !list.contains(&name) {
                    list.push(name);
                }
            }
        }
        if !found.whole {
            self.out.unread.push(line);
        }
    }

    fn heading(&mut self, found: &Heading, line: &Line) {
        let mut whole = true;
        if !self.started {
            self.columns.extend(&found.columns);
        } else if self.columns.is_empty() && self.late.is_none() && found.columns.len() == 1 {
            // A basis below its figures, as long as there is only one.
            self.columns.extend(&found.columns);
            self.late = Some(line.clone());
        } else if !found.columns.is_empty() && found.columns != self.columns {
            whole = false;
            // Two of them below the figures: nothing says which one counts.
            let late = self.late.take();
            if late.is_some() || self.columns.is_empty() {
                self.columns = vec![Basis::Serving(None)];
            }
            if let Some(late) = late {
                self.unread(&late);
            }
        }
        if let Some(size) = found.serving {
            whole &= self.out.serving.is_none_or(|have| have == size);
            self.out.serving = self.out.serving.or(Some(size));
        }
        if whole {
            self.understand(line.number);
        } else {
            self.unread(line);
        }
    }

    fn row(&mut self, row: &Row, line: &Line, led: bool) {
        let mut whole = row.whole && led;
        for (nutrient, amount, unit_said, step) in &row.figures {
            self.started = true;
            let place = &mut self.out.figures[nutrient.index()];
            // The first figure of a kind counts; another one is shown as unread.
            whole &= place.is_none_or(|have| have.amount == *amount);
            if place.is_none() {
                *place = Some(figures::figure(*amount, *unit_said, *step, line.number));
                self.out.carbohydrate_holds_fibre |= row.holds_fibre;
            }
        }
        self.understand(line.number);
        if !whole {
            self.unread(line);
        }
    }

    fn understand(&mut self, number: usize) {
        if self.out.understood.last() != Some(&number) {
            self.out.understood.push(number);
        }
    }

    fn unread(&mut self, line: &Line) {
        if self.out.unread.last() != Some(line) {
            self.out.unread.push(line.clone());
        }
    }

    fn open_brackets(&self) -> usize {
        self.list.iter().fold(0_usize, |open, (c, _)| match c {
            '(' | '[' | '{' => open + 1,
            ')' | ']' | '}' => open.saturating_sub(1),
            _ => open,
        })
    }

    fn end(mut self, text: &str) -> LabelReading {
        if let Some((_, name)) = self.waiting.take() {
            self.out.unread.push(name);
        }
        let texts: Vec<&str> = text.lines().collect();
        self.out.settle(&self.columns, &self.list, &texts)
    }
}

/// What stands behind a heading, whatever its case.
fn after(line: &str, heading: &str) -> Option<String> {
    let start = line.get(..heading.len())?;
    let rest = line.get(heading.len()..)?.trim();
    (start.eq_ignore_ascii_case(heading) && !rest.is_empty()).then(|| rest.to_owned())
}

/// Whether a line in lower case only says what is of no use here.
fn says_nothing(lower: &str) -> bool {
    let known = vocabulary();
    known.asides.iter().any(|a| lower.starts_with(a)) || known.daily.within(lower)
}

/// Whether any entry of a list is a known additive, role or food.
fn any_known(lower: &str) -> bool {
    let letters: Vec<Lettered> = lower.chars().map(|c| (c, 1)).collect();
    let known = |i: &Ingredient| i.number.is_some() || i.role.is_some();
    ingredients::list(&letters).items.iter().any(|i| known(i) || i.parts.iter().any(known))
}

/// Whether a line without a heading can only be a list of ingredients: most of its entries are foods or additives.
fn bare_list(lower: &str) -> bool {
    if !lower.contains(',') || !(lower.contains(['%', '(']) || lower.matches(',').count() > 1) {
        return false;
    }
    let letters: Vec<Lettered> = lower.chars().map(|c| (c, 1)).collect();
    let items = ingredients::list(&letters).items;
    let known = |i: &&Ingredient| {
        i.number.is_some() || i.role.is_some() || words(&i.name).iter().any(|w| vocabulary().foods.has(w))
    };
    items.len() > 1 && items.iter().filter(known).count() * 2 > items.len()
}

/// What stands behind "Ingredients" on its line.
fn list_start(lower: &str) -> Option<String> {
    let lower = lower.trim_start_matches(['*', '-', '•', '"', ' ']);
    let rest = vocabulary().list_starts.behind(lower)?;
    (!rest.starts_with(char::is_alphanumeric))
        .then(|| rest.trim_start_matches([' ', ':', '-', '.', '|']).to_owned())
}

impl LabelReading {
    /// Sets the basis from the columns, and the ingredients from the list.
    fn settle(mut self, columns: &[Basis], list: &[Lettered], texts: &[&str]) -> Self {
        self.basis = match columns.get(figures::best(columns)) {
            None | Some(Basis::NotSaid) => {
                self.serving.map_or(Basis::NotSaid, |size| Basis::Serving(Some(size)))
            }
            Some(Basis::Serving(None)) => Basis::Serving(self.serving),
            Some(basis) => *basis,
        };
        let found = ingredients::list(list);
        self.ingredients = found.items;
        for number in found.doubtful {
            if let Some(text) = texts.get(number.wrapping_sub(1)).map(|t| t.trim()).filter(|t| !t.is_empty())
                && !self.unread.iter().any(|l| l.number == number)
            {
                self.unread.push(Line { number, text: text.to_owned() });
            }
        }
        self.unread.sort_by_key(|l| l.number);
        self
    }
}
