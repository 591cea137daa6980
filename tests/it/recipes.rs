//! The house recipes: a folder, its versions and its bin; two windows and other programs at the same files.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use potset_doc::recipe::RecipeRecord;
use potset_doc::{Design, Edit, edit, format};
use potset_store::library::Library;

use crate::support::{demo, shipped};

fn library() -> (tempfile::TempDir, Library) {
    let home = tempfile::tempdir().unwrap();
    let library = Library::at(home.path().join("recipes"));
    library.make().unwrap();
    (home, library)
}

fn sweeter(design: &Design, g_per_l: f64) -> Design {
    edit::apply(design, &Edit::SugarDose(0, g_per_l), shipped()).unwrap()
}

/// Every recipe's bytes, wherever they lie: in the folder, among the versions, in the bin.
fn everything(folder: &Path) -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        if entry.path().is_dir() {
            all.extend(everything(&entry.path()));
        } else {
            all.insert(fs::read_to_string(entry.path()).unwrap());
        }
    }
    all
}

#[test]
fn each_save_keeps_a_version_and_what_others_wrote_is_one_too() {
    let (_home, library) = library();
    let design = demo("coconut-pot.ron");
    let file = library.add(&design).unwrap();
    assert_eq!(file, "thursday-coconut-pot.ron");
    library.keep_version(&file).unwrap();
    assert_eq!(library.versions(&file).len(), 1, "the same is not kept twice");
    library.change(&file, |d| *d = sweeter(d, 12.0)).unwrap();
    // Another program writes the file, then the maker changes it here.
    let theirs = sweeter(&design, 15.0);
    fs::write(library.path(&file), format::write(&theirs).unwrap()).unwrap();
    library.change(&file, |d| d.notes = "ours".to_owned()).unwrap();
    let versions = library.versions(&file);
    let sugars: Vec<f64> = versions.iter().map(|v| v.read().unwrap().sugars[0].g_per_l).collect();
    assert_eq!(sugars, [design.sugars[0].g_per_l, 12.0, 15.0, 15.0]);
    library.restore(&file, 2).unwrap();
    assert_eq!(library.read(&file).unwrap().sugars[0].g_per_l, 12.0);
    assert_eq!(library.versions(&file).len(), 5, "what was there is still to be had");
}

#[test]
fn the_bin_gives_back_the_recipe_with_its_versions_and_marks() {
    let (_home, library) = library();
    let file = library.add(&demo("coconut-pot.ron")).unwrap();
    library.change(&file, |d| *d = sweeter(d, 12.0)).unwrap();
    let record = RecipeRecord { stars: 4, made: vec!["2026-11-02".to_owned()] };
    library.keep_record(&file, &record).unwrap();
    let place = library.throw_away(&file).unwrap();
    assert!(library.files().unwrap().is_empty() && library.versions(&file).is_empty());
    assert_eq!(library.bin()[0].name.as_deref(), Some("Thursday coconut pot"));
    // Meanwhile its name is taken.
    let other = library.add(&demo("coconut-pot.ron")).unwrap();
    assert_eq!(other, file);
    let back = library.put_back(place).unwrap();
    assert_eq!(back, "thursday-coconut-pot-2.ron");
    assert_eq!((library.versions(&back).len(), library.record(&back)), (2, record));
    assert_eq!(library.versions(&other).len(), 1);
    assert!(library.bin().is_empty());
    // Deleted for good, it is gone; what is not there says so.
    let place = library.throw_away(&back).unwrap();
    library.delete(place).unwrap();
    assert!(library.put_back(place).is_err() && library.bin().is_empty());
}

#[test]
fn a_name_that_is_taken_gets_a_number_and_nothing_is_written_over() {
    let (_home, library) = library();
    let first = library.add(&demo("coconut-pot.ron")).unwrap();
    library.keep_record(&first, &RecipeRecord { stars: 2, made: Vec::new() }).unwrap();
    let copy = library.duplicate(&first).unwrap();
    assert_eq!(library.read(&copy).unwrap().name, "Thursday coconut pot (copy)");
    let renamed = library.rename(&copy, "Thursday coconut pot").unwrap();
    assert_eq!(renamed, "thursday-coconut-pot-2.ron");
    let moved = library.rename(&first, "Friday pots").unwrap();
    assert_eq!((moved.as_str(), library.record(&moved).stars), ("friday-pots.ron", 2));
    assert_eq!(library.versions(&moved).len(), 2);
    assert!(library.rename("nowhere.ron", "Friday pots").is_err());
}

#[test]
fn a_folder_is_copied_in_and_out_and_what_is_there_stays() {
    let (home, library) = library();
    let other = home.path().join("other");
    fs::create_dir_all(&other).unwrap();
    for name in ["coconut-pot.ron", "goat-pot.ron"] {
        fs::write(other.join(name), format::write(&demo(name)).unwrap()).unwrap();
    }
    fs::write(other.join("broken.ron"), "(format: \"potset design\"").unwrap();
    fs::write(other.join("shopping.txt"), "sugar").unwrap();
    let done = library.import(&other).unwrap();
    assert_eq!((done.copied, done.there, done.left.len()), (2, 0, 1));
    assert!(done.left[0].field.contains("broken.ron"), "{:?}", done.left);
    let again = library.import(&other).unwrap();
    assert_eq!((again.copied, again.there), (0, 2));
    // Another recipe of the same file name does not take its place.
    fs::write(other.join("goat-pot.ron"), format::write(&demo("soy-set-pots.ron")).unwrap()).unwrap();
    assert_eq!(library.import(&other).unwrap().copied, 1);
    assert_eq!(library.read("goat-pot-2.ron").unwrap(), demo("soy-set-pots.ron"));
    let out = home.path().join("out");
    assert_eq!(library.export(&out).unwrap().copied, 3);
    assert!(library.import(&home.path().join("nowhere")).is_err());
}

#[test]
fn two_windows_and_another_program_lose_nothing_between_them() {
    const EACH: u32 = 40;
    let (home, library) = library();
    let file = library.add(&demo("coconut-pot.ron")).unwrap();
    let folder = home.path().join("recipes");
    let saved: Vec<f64> = std::thread::scope(|scope| {
        let hands: Vec<_> = (0..3_u32)
            .map(|hand| {
                let (library, file) = (library.clone(), file.clone());
                scope.spawn(move || {
                    let dose = |k: u32| 1.0 + f64::from(hand) * 100.0 / 7.0 + f64::from(k) / 10.0;
                    // A refusal is told to the maker, who makes the change again: it counts as not saved here.
                    let all = (0..EACH).map(dose);
                    all.filter(|g| library.change(&file, |d| *d = sweeter(d, *g)).is_ok())
                        .collect::<Vec<f64>>()
                })
            })
            .collect();
        hands.into_iter().flat_map(|hand| hand.join().unwrap()).collect()
    });
    let kept: Vec<f64> = everything(&folder)
        .iter()
        .filter_map(|text| format::read_design(text.as_bytes()).ok())
        .map(|design| design.sugars[0].g_per_l)
        .collect();
    let lost: Vec<&f64> = saved.iter().filter(|g| !kept.iter().any(|k| (k - *g).abs() < 1e-9)).collect();
    println!("{} of {} changes were saved, {} lost", saved.len(), 3 * EACH, lost.len());
    assert!(saved.len() >= 20, "{}", saved.len());
    assert!(lost.is_empty(), "{lost:?}");
}
