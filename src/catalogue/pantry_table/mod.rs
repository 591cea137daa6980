//! The pantry as a table: columns by kind, rows in words, and which rows fit a search, in which order.

mod columns;
mod diet;
#[cfg(test)]
mod tests;

pub use diet::Diet;

use potset_base::choices;
use potset_base::measures::SpoonSet;
use potset_base::units;
use potset_doc::OwnPantry;
use potset_doc::pantry::{Entry, EntryKind, Keyed, Pantry};

/// A column of the table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Column {
    pub head: &'static str,
    /// Under the head; empty for words.
    pub unit: &'static str,
    /// Width that it needs, in points; 0 where it shares the rest.
    pub points: f32,
    /// Its share of the width that is left, against the others.
    pub share: f32,
    /// Numbers stand at the right of their column.
    pub number: bool,
    /// What it says, in a sentence.
    pub tip: &'static str,
}

/// What stands in one place of the table.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    Words(String),
    /// The number that orders, and how it reads.
    Number(f64, String),
    /// Not known, or it makes no sense here.
    Blank,
}

impl Cell {
    /// How it reads.
    pub fn text(&self) -> &str {
        match self {
            Self::Words(text) | Self::Number(_, text) => text,
            Self::Blank => "–",
        }
    }
}

/// An entry as a row.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    pub kind: EntryKind,
    pub key: String,
    pub own: bool,
    /// One a column; the first is the name.
    pub cells: Vec<Cell>,
    /// The row in a sentence, for screen readers.
    pub told: String,
    pub diet: Diet,
    /// Name, aliases and key in small letters.
    sought: String,
}

choices! {
    /// A diet that can be asked for.
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum Wish: words {
        Vegan => "vegan",
        GlutenFree => "gluten-free",
        LactoseFree => "lactose-free",
        MilkFree => "milk-free",
        NutFree => "nut-free",
        CoconutFree => "coconut-free",
    }
}

impl Wish {
    /// What passes, in a sentence.
    pub const fn tip(self) -> &'static str {
        match self {
            Self::Vegan => "Nothing of an animal in it",
            Self::GlutenFree => "Entered as holding no gluten",
            Self::LactoseFree => {
                "No more than 0.1 g of lactose in 100 g, and cultures that name no milk. This filter says nothing of \
                 milk protein"
            }
            Self::MilkFree => "It names no milk among its allergens",
            Self::NutFree => "It names no tree nut and no peanut; coconut counts apart",
            Self::CoconutFree => "It names no coconut among its allergens",
        }
    }
}

/// What was asked for.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Filter {
    /// Words of name, alias or key.
    pub text: String,
    /// In the order of [`Wish::ALL`]: those that must hold.
    pub diet: [bool; Wish::ALL.len()],
    pub only_own: bool,
}

impl Filter {
    /// Whether everything passes.
    pub fn is_open(&self) -> bool {
        self.text.trim().is_empty() && !self.only_own && !self.diet.contains(&true)
    }

    fn passes(&self, row: &Row, words: &[String]) -> bool {
        (!self.only_own || row.own)
            && Wish::ALL.into_iter().zip(self.diet).all(|(wish, on)| !on || row.diet.meets(wish))
            && words.iter().all(|word| row.sought.contains(word))
    }
}

/// Which column orders the rows, and whether from the end.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Sort {
    /// None: the order of the pantry.
    pub column: Option<usize>,
    pub reversed: bool,
}

impl Sort {
    /// After a press on a column's head: by it, then from its end, then by it again.
    pub fn pressed(self, column: usize) -> Self {
        let again = self.column == Some(column);
        Self { column: Some(column), reversed: again && !self.reversed }
    }
}

/// A kind of entry, or all of them, as a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    pub columns: &'static [Column],
    pub rows: Vec<Row>,
}

impl Table {
    /// The entries of a kind, or all entries, in the order of the pantry; own ones come last.
    pub fn of(pantry: &Pantry, own: &OwnPantry, kind: Option<EntryKind>, spoons: SpoonSet) -> Self {
        let mut rows = Vec::new();
        let columns = columns::columns(kind);
        for one in kind.map_or_else(|| EntryKind::ALL.to_vec(), |k| vec![k]) {
            let mine: std::collections::BTreeSet<&str> =
                own.entries.entries(one).into_iter().map(Keyed::key).collect();
            let cells = columns::cells(pantry, one, kind.is_none(), spoons);
            let diets = diet::diets(pantry, one);
            for ((entry, cells), diet) in pantry.entries(one).into_iter().zip(cells).zip(diets) {
                let is_own = mine.contains(entry.key());
                rows.push(row(entry, one, is_own, columns, cells, diet));
            }
        }
        Self { columns, rows }
    }

    /// Places of the rows that pass, in order. Equal ones keep the order of the pantry, blanks come last.
    pub fn shown(&self, filter: &Filter, sort: Sort) -> Vec<usize> {
        let words: Vec<String> = filter.text.split_whitespace().map(str::to_lowercase).collect();
        let mut out: Vec<usize> =
            (0..self.rows.len()).filter(|i| filter.passes(&self.rows[*i], &words)).collect();
        if let Some(column) = sort.column.filter(|c| *c < self.columns.len()) {
            out.sort_by_cached_key(|i| Order::of(&self.rows[*i].cells[column], sort.reversed));
        }
        out
    }
}

fn row(
    entry: &dyn Entry,
    kind: EntryKind,
    own: bool,
    columns: &[Column],
    cells: Vec<Cell>,
    diet: Diet,
) -> Row {
    let mut told = entry.name().to_owned();
    for (column, cell) in columns.iter().zip(&cells).skip(1).filter(|(_, cell)| **cell != Cell::Blank) {
        let unit = if column.unit.is_empty() {
            String::new()
        } else {
            format!(" {}", units::scale(column.unit).unit)
        };
        told.push_str(&format!(", {} {}{unit}", column.head.to_lowercase(), cell.text()));
    }
    if own {
        told.push_str(", your own");
    }
    let sought = format!("{} {} {}", entry.name(), entry.aliases().join(" "), entry.key()).to_lowercase();
    Row { kind, key: entry.key().to_owned(), own, cells, told, diet, sought }
}

/// What a cell is ordered by.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
enum Order {
    Number(i64),
    Words(String),
    Turned(std::cmp::Reverse<Box<Self>>),
    /// Last from either end.
    Nothing,
}

impl Order {
    fn of(cell: &Cell, reversed: bool) -> Self {
        let plain = match cell {
            Cell::Blank => return Self::Nothing,
            Cell::Words(text) => Self::Words(text.to_lowercase()),
            Cell::Number(v, _) => {
                // The order of numbers as the order of their bits, as `f64::total_cmp` has it.
                let bits = v.to_bits().cast_signed();
                Self::Number(bits ^ ((bits >> 63).cast_unsigned() >> 1).cast_signed())
            }
        };
        if reversed { Self::Turned(std::cmp::Reverse(Box::new(plain))) } else { plain }
    }
}

/// How many entries each kind has, and how many of them are the maker's own, in the order of [`EntryKind::ALL`].
pub fn counts(pantry: &Pantry, own: &OwnPantry) -> Vec<(EntryKind, usize, usize)> {
    EntryKind::ALL
        .into_iter()
        .map(|kind| (kind, pantry.entries(kind).len(), own.entries.entries(kind).len()))
        .collect()
}
