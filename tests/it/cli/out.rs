//! What `--out` may replace: nothing that is read, no design but by a design, nothing of another kind; no folder is made.

use std::fs;
use std::path::{Path, PathBuf};

use super::{potset, text};

/// A folder with a design in it, and what the design holds.
fn kitchen() -> (tempfile::TempDir, PathBuf, Vec<u8>) {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("pot.ron");
    fs::copy("tests/data/designs/coconut-pot.ron", &path).unwrap();
    let bytes = fs::read(&path).unwrap();
    (dir, path, bytes)
}

/// Every way to write a file: the command without `--out`, and a name that it would give.
fn commands() -> Vec<(Vec<&'static str>, &'static str)> {
    let beside = || vec!["beside", "coconut-pot.ron", "whole-milk-pot.ron"];
    vec![
        (vec!["forecast", "coconut-pot.ron", "--every", "240"], "curves.csv"),
        (vec!["picture", "coconut-pot.ron", "--size", "320x240"], "bench.png"),
        (beside(), "pots.csv"),
        (beside(), "pots.md"),
        (beside(), "pots.txt"),
        (beside(), "pots.svg"),
        (beside(), "pots.png"),
        (vec!["aim", "coconut-pot.ron", "--want", "sugar<=40", "--move", "Hours in the fridge"], "aimed.ron"),
    ]
}

fn with_out(command: &[&str], out: &Path) -> std::process::Output {
    potset(&[command, &["--out", out.to_str().unwrap()]].concat())
}

/// The command must end with 2, name the file, and leave it as it was.
fn refused(command: &[&str], out: &Path, part: &str) {
    let before = fs::read(out).unwrap();
    let ended = with_out(command, out);
    let said = text(&ended.stderr);
    assert_eq!(ended.status.code(), Some(2), "{command:?} over {}: {said}", out.display());
    assert!(said.contains(out.to_str().unwrap()) && said.contains(part), "{command:?}: {said}");
    assert!(said.contains("Give another name"), "the mend: {said}");
    assert_eq!(fs::read(out).unwrap(), before, "{command:?} over {}", out.display());
}

#[test]
fn a_design_is_replaced_by_nothing_of_another_kind() {
    let (dir, pot, _) = kitchen();
    for (command, name) in commands().into_iter().filter(|(_, name)| !name.ends_with("ron")) {
        // Under its own name, and under one that looks like the right kind.
        let ending = Path::new(name).extension().unwrap().to_str().unwrap();
        let disguised = dir.path().join(format!("pot.{ending}"));
        fs::copy(&pot, &disguised).unwrap();
        refused(&command, &disguised, "A design is there already");
        if command[0] != "beside" {
            refused(&command, &pot, "A design is there already");
        }
    }
    let torn = dir.path().join("torn.csv");
    let whole = fs::read(&pot).unwrap();
    fs::write(&torn, &whole[..whole.len() / 2]).unwrap();
    refused(&commands()[0].0, &torn, "A design is there already");
}

#[test]
fn a_file_of_another_kind_stays() {
    let dir = tempfile::tempdir().unwrap();
    let mut made: Vec<PathBuf> = Vec::new();
    for (command, name) in commands() {
        let path = dir.path().join(name);
        let ended = with_out(&command, &path);
        assert_eq!(ended.status.code(), Some(0), "{command:?}: {}", text(&ended.stderr));
        made.push(path);
    }
    let ending = |path: &Path| path.extension().unwrap().to_owned();
    for (i, (command, name)) in commands().into_iter().enumerate() {
        for (k, other) in
            made.iter().enumerate().filter(|(k, other)| *k != i && ending(other) != ending(&made[i]))
        {
            // What it is counts, not its ending.
            let disguised = dir.path().join(format!("{i}-{k}-{name}"));
            fs::copy(other, &disguised).unwrap();
            refused(&command, &disguised, "would replace it");
        }
        for (k, own) in
            ["Fat 3 g, eggs, flour\n", "# Shopping\n\neggs\n", "name,price\neggs,3\n", "(format: \"x\")"]
                .into_iter()
                .enumerate()
        {
            let disguised = dir.path().join(format!("own-{i}-{k}-{name}"));
            fs::write(&disguised, own).unwrap();
            refused(&command, &disguised, "A file of another kind");
        }
    }
    // Both are tables of ours, but not the same one.
    let table = dir.path().join("table.csv");
    fs::copy(&made[2], &table).unwrap();
    refused(&commands()[0].0, &table, "A file of another kind");
}

#[test]
fn a_file_of_the_same_kind_is_replaced_and_an_empty_one_too() {
    let dir = tempfile::tempdir().unwrap();
    for (command, name) in commands() {
        let path = dir.path().join(name);
        fs::write(&path, b"").unwrap();
        for turn in 0..2 {
            let ended = with_out(&command, &path);
            assert_eq!(ended.status.code(), Some(0), "{command:?}, turn {turn}: {}", text(&ended.stderr));
            assert!(fs::metadata(&path).unwrap().len() > 100, "{name}, turn {turn}");
        }
    }
}

#[test]
fn what_is_read_is_not_written_by_any_name() {
    let (dir, pot, bytes) = kitchen();
    fs::create_dir(dir.path().join("sub")).unwrap();
    let mut names = vec![pot.clone(), dir.path().join("sub/../pot.ron"), dir.path().join("./pot.ron")];
    let second = dir.path().join("second-name.ron");
    fs::hard_link(&pot, &second).unwrap();
    names.push(second);
    #[cfg(unix)]
    {
        let link = dir.path().join("link.ron");
        std::os::unix::fs::symlink(&pot, &link).unwrap();
        names.push(link);
    }
    for name in names {
        let command = ["aim", pot.to_str().unwrap(), "--want", "sugar<=40", "--move", "Hours in the fridge"];
        refused(&command, &name, "This is the file that is read");
    }
    assert_eq!(fs::read(&pot).unwrap(), bytes);
    assert!(!dir.path().join("pot.ron.last-good").exists());
}

#[test]
fn no_command_makes_a_folder() {
    let dir = tempfile::tempdir().unwrap();
    for (command, name) in commands() {
        let path = dir.path().join("no/such").join(name);
        let ended = with_out(&command, &path);
        let said = text(&ended.stderr);
        assert_eq!(ended.status.code(), Some(2), "{command:?}: {said}");
        assert!(said.contains("There is no folder") && said.contains("no/such"), "{said}");
        assert!(said.contains("Make the folder first"), "the mend: {said}");
    }
    assert!(!dir.path().join("no").exists());
}

#[test]
fn a_folder_is_no_file() {
    let dir = tempfile::tempdir().unwrap();
    for (command, name) in commands() {
        let path = dir.path().join(name);
        fs::create_dir_all(&path).unwrap();
        let ended = with_out(&command, &path);
        assert_eq!(ended.status.code(), Some(2), "{command:?}");
        assert!(text(&ended.stderr).contains("This is a folder"), "{}", text(&ended.stderr));
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_device_is_written_to_and_a_full_one_is_told() {
    let command = &commands()[0].0;
    assert_eq!(with_out(command, Path::new("/dev/null")).status.code(), Some(0));
    let full = with_out(command, Path::new("/dev/full"));
    let said = text(&full.stderr);
    assert_eq!(full.status.code(), Some(2), "{said}");
    assert!(said.contains("/dev/full") && said.contains("Make room"), "{said}");
}
