//! The Pantry view without a screen: search, filters, order, keys; copies and their figures; tickets; labels; bases that are
//! made; what is shown where nothing is there; and that everything has a name and lies inside the window.

use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT, Queryable};
use potset_app::command::{PantryCommand, WindowCommand};
use potset_app::shelves::PantryPage;
use potset_app::state::View;
use potset_app::{Action, Command, State};
use potset_base::{Cited, Source, SourceKind, Spread, Sugar};
use potset_catalogue::pantry_table::Wish;
use potset_doc::own::OwnEdit;
use potset_doc::pantry::{Composition, EntryKind, Nutrients, Passes, Price, Raw, SoldBy, SugarShare, Ticket};
use potset_doc::settings::{Depth, Theme};
use potset_doc::{Kitchen, OwnPantry, Pantry, Settings, assets};

use crate::ui::{Window, design, press, window_of};

type Harness = egui_kittest::Harness<'static, Window>;

/// Wide and narrow: the second is 1280x800 at 150 %.
const WIDE: [f32; 2] = [1280.0, 800.0];
const NARROW: [f32; 2] = [853.0, 533.0];

fn state(pantry: Option<Pantry>) -> State {
    let settings = Settings { theme: Theme::Light, depth: Depth::Details, ..Settings::default() };
    let mut state = State::start(settings, Kitchen::default()).unwrap();
    if let Some(entries) = pantry {
        state.take_own(OwnPantry { entries, tickets: Vec::new() });
    }
    state
}

fn opened(size: [f32; 2]) -> Harness {
    let mut h = window_of(size, state(None));
    run(&mut h, Command::Window(WindowCommand::Show(View::Pantry)));
    h
}

fn run(h: &mut Harness, command: Command) {
    h.state_mut().shell.runner.run(command);
    h.run();
}

fn shelves(h: &Harness) -> &potset_app::shelves::PantryState {
    &h.state().shell.runner.state.shelves
}

fn pantry(h: &Harness) -> Pantry {
    (*h.state().shell.runner.state.pantry).clone()
}

/// Names of the rows in sight: what stands before the first figure.
fn rows(h: &Harness) -> Vec<String> {
    let all = h.root().children_recursive();
    all.filter(|n| n.accesskit_node().role() == Role::ListItem)
        .filter_map(|n| n.accesskit_node().label())
        .collect()
}

fn type_in(h: &mut Harness, role: Role, field: &str, text: &str) {
    h.get_by_role_and_label(role, field).focus();
    h.run();
    h.key_press_modifiers(Modifiers::COMMAND, Key::A);
    h.get_by_role_and_label(role, field).type_text(text);
    h.run();
}

/// Types into a field and leaves it by Enter.
fn enter(h: &mut Harness, field: &str, text: &str) {
    type_in(h, Role::TextInput, field, text);
    h.key_press(Key::Enter);
    h.run();
}

fn undo(h: &mut Harness) {
    h.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    h.run();
}

fn open(h: &mut Harness, kind: EntryKind, key: &str) {
    run(h, Command::Pantry(PantryCommand::OpenEntry(Some((kind, key.to_owned())))));
}

#[test]
fn search_filter_and_order() {
    let mut h = opened(WIDE);
    let bases = pantry(&h).bases;
    h.get_by_label(&format!("Bases: {}", bases.len()));
    type_in(&mut h, Role::TextInput, "Search the pantry", "coconut");
    assert!(!rows(&h).is_empty() && rows(&h).len() < bases.len());
    let all: Vec<String> = rows(&h);
    let found: Vec<&str> = bases
        .iter()
        .filter(|b| {
            format!("{} {} {}", b.name, b.aliases.join(" "), b.key).to_lowercase().contains("coconut")
        })
        .map(|b| b.name.as_str())
        .collect();
    assert_eq!(all.len(), found.len());
    // By fat, from the least; a second press turns it round.
    press(&mut h, "Order by fat");
    let fat = |name: &str| {
        bases.iter().find(|b| name.starts_with(&format!("{},", b.name))).unwrap().composition.fat.value
    };
    let up: Vec<f64> = rows(&h).iter().map(|n| fat(n)).collect();
    assert!(up.is_sorted(), "{up:?}");
    press(&mut h, "Order by fat, ordered from its least");
    let down: Vec<f64> = rows(&h).iter().map(|n| fat(n)).collect();
    assert!(down.iter().rev().is_sorted() && down != up, "{down:?}");
    type_in(&mut h, Role::TextInput, "Search the pantry", "no such thing");
    h.get_by_label("Nothing fits");
    press(&mut h, "Clear all filters");
    h.get_by_role_and_label(Role::CheckBox, Wish::Vegan.words()).click();
    h.run();
    let vegan = bases.iter().filter(|b| b.vegan).count();
    h.get_by_label(&format!("Bases: {vegan} of {} shown", bases.len()));
    h.get_by_role_and_label(Role::CheckBox, Wish::Vegan.words()).click();
    h.run();
    h.get_by_label(&format!("Bases: {}", bases.len()));
}

#[test]
fn kinds_are_counted_and_listed_each_with_its_columns() {
    let mut h = opened(WIDE);
    for kind in EntryKind::ALL {
        let count = pantry(&h).entries(kind).len();
        press(&mut h, &format!("{}, {count}", kind.many()));
        if count == 0 {
            h.get_by_label(&format!("There is no {} yet", kind.one()));
        } else {
            h.get_by_label(&format!("{}: {count}", kind.many()));
            h.get_by_label("Order by name");
            assert!(!rows(&h).is_empty(), "{kind:?}");
        }
    }
    let all: usize = EntryKind::ALL.into_iter().map(|k| pantry(&h).entries(k).len()).sum();
    press(&mut h, &format!("All kinds, {all}"));
    h.get_by_label("Order by use");
}

#[test]
fn the_keyboard_alone_searches_moves_opens_and_leaves() {
    let mut h = opened(WIDE);
    type_in(&mut h, Role::TextInput, "Search the pantry", "milk");
    let shown = rows(&h);
    for _ in 0..2 {
        h.key_press(Key::ArrowDown);
        h.run();
    }
    h.key_press(Key::Enter);
    h.run();
    let (kind, key) = shelves(&h).open.clone().unwrap();
    let third = pantry(&h).entry(kind, &key).unwrap().name().to_owned();
    assert!(shown[2].starts_with(&third), "{third} is not {}", shown[2]);
    // Escape leaves the field first, then the page.
    h.get_by_role_and_label(Role::TextInput, "Search the pantry").focus();
    h.run();
    h.key_press(Key::Escape);
    h.run();
    assert_eq!(shelves(&h).open, Some((kind, key)));
    h.key_press(Key::Escape);
    h.run();
    assert_eq!(shelves(&h).open, None);
    // In the list itself: to the end, which is brought into sight, and open it there.
    type_in(&mut h, Role::TextInput, "Search the pantry", " ");
    h.get_by_role_and_label(Role::List, "Bases of the pantry").focus();
    h.run();
    h.key_press(Key::End);
    h.run();
    let last = pantry(&h).bases.last().unwrap().clone();
    assert!(rows(&h).iter().any(|r| r.starts_with(&last.name)), "the marked row is in sight");
    h.key_press(Key::Enter);
    h.run();
    assert_eq!(shelves(&h).open, Some((EntryKind::Base, last.key)));
    // Closing the page leaves the list where it was.
    let sight = rows(&h);
    h.key_press(Key::Escape);
    h.run();
    assert_eq!((shelves(&h).open.clone(), rows(&h)), (None, sight));
}

#[test]
fn the_page_tells_what_is_known_and_where_it_is_used() {
    let mut h = opened([1280.0, 2400.0]);
    let key = design(&h).bases[0].entry.clone();
    open(&mut h, EntryKind::Base, &key);
    let entry = pantry(&h).bases.iter().find(|b| b.key == key).unwrap().clone();
    assert!(h.query_all_by_label_contains(&entry.composition.fat.from.text).count() > 0);
    assert!(h.query_by_label_contains("the design that is open").is_some());
    assert!(h.query_by_label("allergens: coconut").is_some());
    assert!(h.query_by_label("Use in the design").unwrap().accesskit_node().is_disabled());
    assert!(h.query_by_label("Remove").is_none(), "what ships stays");
}

#[test]
fn a_copy_is_changed_renamed_removed_and_every_step_is_taken_back() {
    let mut h = opened([1280.0, 2400.0]);
    open(&mut h, EntryKind::Base, "coconut_milk_tinned");
    press(&mut h, "Copy to change…");
    enter(&mut h, "Name of your copy", "Corner shop tin");
    let mine = (EntryKind::Base, "corner_shop_tin".to_owned());
    assert_eq!(shelves(&h).open, Some(mine.clone()));
    assert_eq!(shelves(&h).own.count(), 1);
    let fat = |h: &Harness| {
        pantry(h).bases.iter().find(|b| b.key == "corner_shop_tin").map(|b| b.composition.fat.clone())
    };
    let before = fat(&h).unwrap().value;
    enter(&mut h, "fat, g/100 g", "18,4");
    let now = fat(&h).unwrap();
    assert!((now.value - 18.4).abs() < 1e-9 && now.from.kind == SourceKind::Own);
    // What is no number, and what cannot be true, change nothing and say so.
    enter(&mut h, "fat, g/100 g", "plenty");
    assert!(h.query_by_label_contains("“plenty” is no number").is_some());
    assert_eq!(fat(&h).unwrap(), now);
    enter(&mut h, "fat, g/100 g", "140");
    assert!(h.query_by_label_contains("out of range").is_some());
    assert_eq!(fat(&h).unwrap(), now);
    press(&mut h, "Dismiss");
    enter(&mut h, "Name of the entry", "Tin of the corner shop");
    assert_eq!(pantry(&h).entry(mine.0, &mine.1).unwrap().name(), "Tin of the corner shop");
    press(&mut h, "Remove");
    assert_eq!((shelves(&h).own.count(), shelves(&h).open.clone()), (0, None));
    assert!(h.query_by_label_contains("Last change: remove an entry").is_some());
    undo(&mut h);
    assert_eq!(pantry(&h).entry(mine.0, &mine.1).unwrap().name(), "Tin of the corner shop");
    undo(&mut h);
    undo(&mut h);
    assert!((fat(&h).unwrap().value - before).abs() < 1e-12);
    undo(&mut h);
    assert_eq!(shelves(&h).own.count(), 0);
}

#[test]
fn opening_another_entry_first_takes_what_was_typed() {
    let mut h = opened([1280.0, 2400.0]);
    let copy = |name: &str| {
        Command::Pantry(PantryCommand::Own(OwnEdit::Copy(
            EntryKind::Sugar,
            "white_sugar".into(),
            name.into(),
        )))
    };
    run(&mut h, copy("Mine"));
    type_in(&mut h, Role::TextInput, "Name of the entry", "Mine, finer");
    let row = rows(&h).into_iter().find(|r| r.starts_with("White sugar")).unwrap();
    h.get_by_role_and_label(Role::ListItem, &row).click();
    h.run();
    assert_eq!(shelves(&h).open, Some((EntryKind::Sugar, "white_sugar".to_owned())));
    assert_eq!(pantry(&h).entry(EntryKind::Sugar, "mine").unwrap().name(), "Mine, finer");
}

#[test]
fn a_ticket_is_written_on_a_shipped_entry() {
    let mut h = opened([1280.0, 2400.0]);
    open(&mut h, EntryKind::Base, "coconut_milk_tinned");
    enter(&mut h, "Price", "1,80");
    enter(&mut h, "Amount for the price", "0.4");
    enter(&mut h, "Photo", "tin.jpg");
    let remark = "Remark";
    h.get_by_label(remark).focus();
    h.run();
    h.get_by_label(remark).type_text("the good one");
    h.run();
    let bases = format!("Bases, {}", pantry(&h).bases.len());
    press(&mut h, &bases);
    let ticket = pantry(&h).entry(EntryKind::Base, "coconut_milk_tinned").unwrap().ticket().clone();
    let right = Ticket {
        price: Some(Price { money: 1.8, buys: 0.4, by: SoldBy::Litre }),
        photo: "tin.jpg".into(),
        remark: "the good one".into(),
    };
    assert_eq!(ticket, right);
    h.get_by_role_and_label(Role::TextInput, "Price").focus();
    h.run();
    h.key_press_modifiers(Modifiers::COMMAND, Key::A);
    h.key_press(Key::Delete);
    h.run();
    h.key_press(Key::Enter);
    h.run();
    let ticket = pantry(&h).entry(EntryKind::Base, "coconut_milk_tinned").unwrap().ticket().clone();
    assert_eq!(ticket.price, None);
}

#[test]
fn an_older_copy_in_the_design_is_told_and_renewed() {
    let key = assets::demo("coconut-pot.ron").unwrap().bases[0].entry.clone();
    // The maker has an entry of their own under the key of the shipped one.
    let mut entries = Pantry::default();
    entries.put(&assets::pantry().unwrap(), EntryKind::Base, &key);
    let fat = &mut entries.bases[0].composition.fat;
    (fat.value, fat.spread) = (fat.value - 1.0, Spread::Exact);
    let mine = fat.value;
    let mut h = window_of([1280.0, 2400.0], state(Some(entries)));
    open(&mut h, EntryKind::Base, &key);
    h.get_by_label("The open design holds an older copy of this entry");
    press(&mut h, "Update the design");
    assert!((design(&h).snapshot.bases[0].composition.fat.value - mine).abs() < 1e-12);
    assert!(h.query_by_label("Update the design").is_none());
}

#[test]
fn entries_go_into_the_design_by_one_press() {
    let mut h = opened(WIDE);
    let start = design(&h);
    let sugar =
        pantry(&h).sugars.iter().find(|s| !start.sugars.iter().any(|l| l.entry == s.key)).unwrap().clone();
    open(&mut h, EntryKind::Sugar, &sugar.key);
    press(&mut h, "Use in the design");
    assert_eq!(h.state().shell.runner.state.view, View::Bench);
    let line = design(&h).sugars.last().unwrap().clone();
    assert_eq!(line.entry, sugar.key);
    assert!((line.g_per_l - 0.5 * (sugar.usual.0 + sugar.usual.1)).abs() < 1e-9);
    undo(&mut h);
    assert_eq!(design(&h), start);
}

#[test]
fn an_entry_is_shared_and_taken_in_elsewhere() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("tin.ron");
    let mut h = opened(WIDE);
    run(
        &mut h,
        Command::Pantry(PantryCommand::Own(OwnEdit::Copy(
            EntryKind::Base,
            "coconut_milk_tinned".into(),
            "Corner tin".into(),
        ))),
    );
    press(&mut h, "Share as a file…");
    enter(&mut h, "Path of the file", path.to_str().unwrap());
    assert!(path.is_file());
    let mut other = opened(WIDE);
    press(&mut other, "Import entries…");
    enter(&mut other, "Path of the file", path.to_str().unwrap());
    assert_eq!(shelves(&other).open, Some((EntryKind::Base, "corner_tin".to_owned())));
    other.get_by_role_and_label(Role::TextInput, "Name of the entry");
}

#[test]
fn a_label_is_typed_told_and_put_into_the_design() {
    let mut h = window_of([1280.0, 1800.0], state(None));
    let start = design(&h);
    press(&mut h, "Read its label…");
    assert_eq!(h.state().shell.runner.state.view, View::Pantry);
    h.get_by_label("No label is read yet");
    let text = "Coconut milk\nPer 100 g\nFat 17.5 g\nCarbohydrate 3.3 g\nof which sugars 1.7 g\nProtein 1.3 g\nblorp frobs 9 zq\n\
                Ingredients: coconut extract (70 %), water, preservative (sodium benzoate)";
    type_in(&mut h, Role::MultilineTextInput, "Words of the label", text);
    h.get_by_label("fat 17.5 g");
    h.get_by_label("⚠ not understood");
    h.get_by_label("⚠ The base is preserved against souring");
    assert!(h.query_by_label_contains("class by Codex CXS 240").is_some());
    assert!(h.query_by_label_contains("kind of base: coconut").is_some());
    press(&mut h, "Put into the design");
    assert_eq!(h.state().shell.runner.state.view, View::Bench);
    assert_eq!((design(&h).bases[0].label.fat, design(&h).bases[0].label.sugars), (Some(17.5), Some(1.7)));
    undo(&mut h);
    assert_eq!(design(&h), start, "one undo takes entry and figures back");
}

#[test]
fn an_example_label_is_kept_as_an_entry_and_the_field_is_cleared() {
    let mut h = window_of([1280.0, 1800.0], state(None));
    run(&mut h, Command::Do(Action::ReadLabel));
    press(&mut h, "Soy drink with chalk");
    h.get_by_label("⚠ Chalk in the base");
    press(&mut h, "Keep as an entry of mine");
    assert_eq!(shelves(&h).page, PantryPage::Entries);
    let (kind, key) = shelves(&h).open.clone().unwrap();
    let base = pantry(&h).bases.iter().find(|b| b.key == key).unwrap().clone();
    assert_eq!(kind, EntryKind::Base);
    assert_eq!(base.composition.protein.from.kind, SourceKind::Own);
    assert!(base.allergens.contains(&"soy".to_owned()));
    run(&mut h, Command::Pantry(PantryCommand::Page(PantryPage::Label)));
    press(&mut h, "Clear the label");
    h.get_by_label("No label is read yet");
    assert!(h.get_by_label("Clear the label").accesskit_node().is_disabled());
}

fn cited(v: f64, unit: &str) -> Cited {
    Cited {
        value: v,
        unit: unit.to_owned(),
        spread: Spread::Exact,
        group: String::new(),
        valid: String::new(),
        from: Source { kind: SourceKind::Assumed, text: "invented for a test".to_owned() },
    }
}

/// Raw stuff that no pantry ships.
fn raw() -> Raw {
    let g = |v| cited(v, "g/100 g");
    let share = |v| cited(v, "");
    Raw {
        key: "test_nut".into(),
        name: "Test nut".into(),
        aliases: Vec::new(),
        kind: potset_doc::pantry::BaseKind::Coconut,
        vegan: true,
        gluten_free: true,
        allergens: vec!["coconut".into()],
        composition: Composition {
            fat: g(40.0),
            protein: g(20.0),
            carbohydrate: g(15.0),
            starch: g(2.0),
            fibre: g(10.0),
            ash: g(3.0),
            calcium: cited(50.0, "mg/100 g"),
            sugars: vec![SugarShare { sugar: Sugar::Sucrose, g_per_100g: g(5.0) }],
        },
        nutrients: Nutrients::default(),
        passes: Passes {
            fat: share(0.5),
            protein: share(0.5),
            sugars: share(0.9),
            starch: share(0.5),
            fibre: share(0.1),
            ash: share(0.7),
        },
        pulp_holds: cited(1.5, "g/g"),
        soak_takes: cited(0.5, "g/g"),
        soak_h: (8.0, 12.0),
        boil_min: (5.0, 10.0),
        usual_water: (3.0, 5.0),
        strained: true,
        bulk_density: cited(0.6, "g/mL"),
        like: "coconut_milk_tinned".into(),
        handling: "Keep it dry.".into(),
        steps: vec!["Soak it overnight.".into(), "Grind it with the water.".into()],
        hygiene: vec!["Chill it at once.".into()],
        ticket: Ticket::default(),
    }
}

fn making(size: [f32; 2]) -> Harness {
    let entries = Pantry { raws: vec![raw()], ..Pantry::default() };
    let mut h = window_of(size, state(Some(entries)));
    run(&mut h, Command::Do(Action::MakeBase));
    // The test's own raw stuff, whatever ships.
    if h.state().shell.runner.state.pantry.raws.len() > 1 {
        let usual = potset_catalogue::making::Making::usual(&raw(), 200.0);
        run(&mut h, Command::Pantry(PantryCommand::Making(usual)));
    }
    h
}

#[test]
fn a_base_is_made_kept_and_used() {
    let mut h = making([1280.0, 1400.0]);
    h.get_by_label("1. Soak it overnight.");
    h.get_by_label("• Chill it at once.");
    assert!(h.query_by_label_contains("not known: write a price on Test nut").is_some());
    let before = shelves(&h).making.clone();
    assert!((before.water - 4.0).abs() < 1e-9 && before.boiled, "the usual way");
    h.get_by_role_and_label(Role::Slider, "As bought").set_value_accesskit(300.0);
    h.run();
    let grams = shelves(&h).making.grams;
    assert!((grams - 300.0).abs() < 1e-9, "{grams}");
    press(&mut h, "strained through a cloth");
    assert!(!shelves(&h).making.strained);
    let named = "Test nut, made 1:4, unstrained";
    press(&mut h, "Keep as an entry of mine");
    assert_eq!(shelves(&h).page, PantryPage::Entries);
    let (kind, key) = shelves(&h).open.clone().unwrap();
    assert_eq!((kind, pantry(&h).entry(kind, &key).unwrap().name()), (EntryKind::Base, named));
    run(&mut h, Command::Pantry(PantryCommand::Page(PantryPage::Making)));
    assert!(h.get_by_label("Keep as an entry of mine").accesskit_node().is_disabled(), "it is there already");
    let count = shelves(&h).own.count();
    press(&mut h, "Use in the design");
    assert_eq!((design(&h).bases[0].entry.as_str(), shelves(&h).own.count()), (key.as_str(), count));
}

#[test]
fn too_much_water_is_told_and_no_base_is_made() {
    let mut h = making(WIDE);
    let mut making = shelves(&h).making.clone();
    making.water = 40.0;
    run(&mut h, Command::Pantry(PantryCommand::Making(making)));
    assert!(h.query_by_label_contains("Water for grinding is out of range").is_some());
    assert!(h.query_by_label("Keep as an entry of mine").is_none());
}

#[test]
fn what_is_empty_says_what_to_do() {
    let mut h = opened(WIDE);
    h.get_by_label("No entry is open");
    press(&mut h, "only my own (0)");
    assert!(h.query_by_label_contains("You have no entries of your own yet").is_some());
    press(&mut h, "Read a label…");
    assert_eq!(shelves(&h).page, PantryPage::Label);
    if h.state().shell.runner.state.pantry.raws.is_empty() {
        run(&mut h, Command::Pantry(PantryCommand::Page(PantryPage::Making)));
        h.get_by_label("The pantry has no starting ingredient yet");
    }
}

/// Everything that can be used has a name and lies inside the window from left to right.
fn in_place(h: &Harness, width: f32, what: &str) {
    let uses = [
        Role::Button,
        Role::CheckBox,
        Role::RadioButton,
        Role::Tab,
        Role::TextInput,
        Role::MultilineTextInput,
        Role::ComboBox,
        Role::Slider,
        Role::SpinButton,
        Role::ListItem,
        Role::List,
        Role::Label,
    ];
    let mut names = std::collections::BTreeSet::new();
    for node in h.root().children_recursive() {
        let n = node.accesskit_node();
        if !uses.contains(&n.role()) {
            continue;
        }
        let label = n.label().or_else(|| n.value()).unwrap_or_default();
        assert!(!label.is_empty(), "{what}: a {:?} without a name at {:?}", n.role(), node.rect());
        let rect = node.rect();
        assert!(
            rect.left() >= -1.0 && rect.right() <= width + 1.0,
            "{what}: {:?} “{label}” reaches from {} to {} of {width}",
            n.role(),
            rect.left(),
            rect.right()
        );
        if matches!(n.role(), Role::TextInput | Role::Slider | Role::ComboBox) {
            assert!(names.insert(label.clone()), "{what}: two of “{label}”");
        }
    }
}

#[test]
fn everything_is_named_and_inside_the_window() {
    for size in [WIDE, [1920.0, 1080.0], NARROW, [640.0, 420.0]] {
        let mut h = opened(size);
        let keys: Vec<(EntryKind, String)> = EntryKind::ALL
            .into_iter()
            .filter_map(|k| pantry(&h).entries(k).first().map(|e| (k, e.key().to_owned())))
            .collect();
        in_place(&h, size[0], "table");
        for (kind, key) in keys {
            open(&mut h, kind, &key);
            in_place(&h, size[0], &format!("{key} at {size:?}"));
        }
        run(
            &mut h,
            Command::Pantry(PantryCommand::Own(OwnEdit::Copy(
                EntryKind::Base,
                "coconut_milk_tinned".into(),
                "Mine".into(),
            ))),
        );
        in_place(&h, size[0], &format!("own entry at {size:?}"));
        run(&mut h, Command::Pantry(PantryCommand::Page(PantryPage::Label)));
        in_place(&h, size[0], "label");
        for example in ["Coconut milk with gum", "Sweet coconut, preserved"] {
            h.get_by_label(example).click();
            h.run();
            in_place(&h, size[0], example);
        }
        let h = making(size);
        in_place(&h, size[0], &format!("making at {size:?}"));
    }
}

#[test]
fn in_a_narrow_window_the_page_takes_the_tables_place() {
    let mut h = opened(NARROW);
    let first = rows(&h)[0].clone();
    h.get_by_role_and_label(Role::ListItem, &first).click();
    h.run();
    assert!(rows(&h).is_empty());
    press(&mut h, "Back to the table");
    assert!(rows(&h).contains(&first));
}

#[test]
fn rows_out_of_sight_are_not_laid_out() {
    let mut entries = Pantry::default();
    let base = assets::pantry().unwrap().bases[0].clone();
    for i in 0..3000 {
        let (key, name) = (format!("own_{i}"), format!("Own base {i}"));
        entries.bases.push(potset_doc::pantry::Base { key, name, ..base.clone() });
    }
    let mut h = window_of(WIDE, state(Some(entries)));
    run(&mut h, Command::Window(WindowCommand::Show(View::Pantry)));
    assert!(rows(&h).len() < 60, "{} rows", rows(&h).len());
    enter(&mut h, "Search the pantry", "own base 2999");
    assert_eq!(shelves(&h).open, Some((EntryKind::Base, "own_2999".to_owned())));
}

#[test]
fn what_an_own_entry_says_of_itself_is_changed_and_taken_back() {
    let mut h = opened([1280.0, 2400.0]);
    open(&mut h, EntryKind::Base, "coconut_milk_tinned");
    assert!(h.query_by_label("Vegan").is_none(), "what ships stays");
    run(
        &mut h,
        Command::Pantry(PantryCommand::Own(OwnEdit::Copy(
            EntryKind::Base,
            "coconut_milk_tinned".into(),
            "Corner tin".into(),
        ))),
    );
    let mine = |h: &Harness| {
        let all = pantry(h);
        let entry = all.entry(EntryKind::Base, "corner_tin").unwrap();
        (entry.vegan(), entry.allergens().to_vec(), entry.aliases().to_vec())
    };
    let before = mine(&h);
    h.get_by_role_and_label(Role::CheckBox, "Vegan").click();
    h.run();
    h.get_by_role_and_label(Role::CheckBox, "milk").click();
    h.run();
    enter(&mut h, "Other names", "tin of the corner, tin");
    let (vegan, allergens, aliases) = mine(&h);
    assert_eq!((vegan, aliases), (Some(false), vec!["tin of the corner".to_owned(), "tin".to_owned()]));
    assert!(allergens.contains(&"milk".to_owned()));
    for _ in 0..3 {
        undo(&mut h);
    }
    assert_eq!(mine(&h), before);
}
