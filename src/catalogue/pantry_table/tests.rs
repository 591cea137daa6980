//! Search, diets and order of the table.

use super::*;
use potset_doc::assets;
use potset_doc::own::OwnEdit;

fn table(kind: Option<EntryKind>) -> (Table, Pantry) {
    let pantry = assets::pantry().unwrap();
    (Table::of(&pantry, &OwnPantry::default(), kind, SpoonSet::Metric), pantry)
}

fn names(table: &Table, shown: &[usize]) -> Vec<String> {
    shown.iter().map(|i| table.rows[*i].cells[0].text().to_owned()).collect()
}

fn only(wish: Wish) -> Filter {
    let mut filter = Filter::default();
    filter.diet[Wish::ALL.iter().position(|w| *w == wish).unwrap()] = true;
    filter
}

#[test]
fn every_kind_has_a_cell_for_every_column() {
    for kind in EntryKind::ALL.into_iter().map(Some).chain([None]) {
        let (table, pantry) = table(kind);
        let count: usize = EntryKind::ALL
            .into_iter()
            .filter(|k| kind.is_none_or(|one| one == *k))
            .map(|k| pantry.entries(k).len())
            .sum();
        assert_eq!(table.rows.len(), count, "{kind:?}");
        for row in &table.rows {
            assert_eq!(row.cells.len(), table.columns.len(), "{}", row.key);
            assert!(row.told.starts_with(row.cells[0].text()));
        }
        for column in table.columns {
            assert!(!column.tip.is_empty() && (column.points > 0.0) != (column.share > 0.0));
        }
    }
}

#[test]
fn words_are_sought_in_names_aliases_and_keys() {
    let (table, pantry) = table(Some(EntryKind::Base));
    let find = |text: &str| {
        names(&table, &table.shown(&Filter { text: text.into(), ..Filter::default() }, Sort::default()))
    };
    assert!(find("COCONUT tinned").iter().all(|n| n.to_lowercase().contains("coconut")));
    assert!(!find("coconut").is_empty());
    let base = pantry.bases.iter().find(|b| !b.aliases.is_empty()).unwrap();
    assert!(find(&base.aliases[0]).contains(&base.name));
    assert!(find(&base.key).contains(&base.name));
    assert_eq!(find("no such thing"), Vec::<String>::new());
}

#[test]
fn diets_leave_out_what_they_must() {
    let (bases, pantry) = table(Some(EntryKind::Base));
    let of = |wish| {
        let shown = bases.shown(&only(wish), Sort::default());
        assert!(!shown.is_empty() && shown.len() < bases.rows.len(), "{wish:?}");
        shown
            .iter()
            .map(|i| pantry.bases.iter().find(|b| b.key == bases.rows[*i].key).unwrap())
            .collect::<Vec<_>>()
    };
    assert!(of(Wish::Vegan).iter().all(|b| b.vegan));
    assert!(of(Wish::MilkFree).iter().all(|b| !b.allergens.contains(&"milk".to_owned())));
    let lactose_free = of(Wish::LactoseFree);
    assert!(
        lactose_free.iter().any(|b| b.allergens.contains(&"milk".to_owned())),
        "lactose-free milk is let in"
    );
    assert!(lactose_free.iter().all(|b| {
        b.composition
            .sugars
            .iter()
            .all(|s| s.sugar != potset_base::Sugar::Lactose || s.g_per_100g.value <= 0.1)
    }));
    let coconut = of(Wish::NutFree);
    assert!(coconut.iter().any(|b| b.allergens.contains(&"coconut".to_owned())), "coconut is told apart");
    assert!(of(Wish::CoconutFree).iter().all(|b| !b.allergens.contains(&"coconut".to_owned())));
}

#[test]
fn nuts_are_left_out_by_name_and_vessels_pass_every_diet() {
    let mut pantry = assets::pantry().unwrap();
    for (i, nut) in ["cashew", "peanut", "walnut"].into_iter().enumerate() {
        pantry.bases[i].allergens = vec![nut.to_owned()];
    }
    let bases = Table::of(&pantry, &OwnPantry::default(), Some(EntryKind::Base), SpoonSet::Metric);
    let shown = bases.shown(&only(Wish::NutFree), Sort::default());
    assert!((0..3).all(|i| !shown.contains(&i)) && !shown.is_empty());
    let vessels = Table::of(&pantry, &OwnPantry::default(), Some(EntryKind::Vessel), SpoonSet::Metric);
    for wish in Wish::ALL {
        assert_eq!(vessels.shown(&only(wish), Sort::default()).len(), vessels.rows.len());
    }
}

#[test]
fn order_is_by_number_stable_and_turns_round() {
    let (table, _) = table(Some(EntryKind::Base));
    let fat = |i: &usize| match &table.rows[*i].cells[1] {
        Cell::Number(v, _) => *v,
        other => panic!("{other:?}"),
    };
    let sort = Sort::default().pressed(1);
    let up = table.shown(&Filter::default(), sort);
    assert!(up.windows(2).all(|w| fat(&w[0]) < fat(&w[1]) || fat(&w[0]) == fat(&w[1]) && w[0] < w[1]));
    let down = table.shown(&Filter::default(), sort.pressed(1));
    assert!(down.windows(2).all(|w| fat(&w[0]) > fat(&w[1]) || fat(&w[0]) == fat(&w[1]) && w[0] < w[1]));
    assert_eq!(sort.pressed(1).pressed(1), sort);
    let named = names(&table, &table.shown(&Filter::default(), Sort::default().pressed(0)));
    assert!(named.iter().map(|n| n.to_lowercase()).is_sorted());
}

#[test]
fn numbers_below_nothing_come_first_and_blanks_last() {
    let cell = |v: f64| Cell::Number(v, String::new());
    let cells = [Cell::Blank, cell(2.0), cell(-1.0), cell(0.0), cell(-3.0)];
    for (reversed, right) in [(false, [-3.0, -1.0, 0.0, 2.0]), (true, [2.0, 0.0, -1.0, -3.0])] {
        let mut sorted: Vec<&Cell> = cells.iter().collect();
        sorted.sort_by_cached_key(|c| Order::of(c, reversed));
        let values: Vec<f64> =
            sorted.iter().filter_map(|c| if let Cell::Number(v, _) = c { Some(*v) } else { None }).collect();
        assert_eq!(values, right);
        assert_eq!(sorted.last(), Some(&&Cell::Blank));
    }
}

#[test]
fn own_entries_can_be_asked_for_alone() {
    let shipped = assets::pantry().unwrap();
    let copy = OwnEdit::Copy(EntryKind::Base, "coconut_milk_tinned".into(), "Corner shop tin".into());
    let (own, _) = OwnPantry::default().apply(&shipped, &copy).unwrap();
    let table = Table::of(&own.over(&shipped), &own, Some(EntryKind::Base), SpoonSet::Metric);
    let filter = Filter { only_own: true, ..Filter::default() };
    assert_eq!(names(&table, &table.shown(&filter, Sort::default())), ["Corner shop tin"]);
    let counted = counts(&own.over(&shipped), &own);
    assert_eq!(counted[0], (EntryKind::Base, shipped.bases.len() + 1, 1));
}
