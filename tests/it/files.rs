//! Files and faults: what is wrong is named with line, field and mend, and nothing is lost.

use std::path::{Path, PathBuf};

use potset_app::command::{BenchCommand, FileCommand};
use potset_app::{AppRunner, State};
use potset_base::Note;
use potset_doc::pantry::find;
use potset_doc::{Kitchen, Settings, format};
use potset_store::folders::Folders;
use potset_store::{files, memory};

use crate::support::demo;

fn folder() -> tempfile::TempDir {
    tempfile::tempdir().unwrap()
}

fn put(folder: &Path, name: &str, bytes: &[u8]) -> PathBuf {
    let path = folder.join(name);
    std::fs::write(&path, bytes).unwrap();
    path
}

fn text() -> String {
    format::write(&demo("coconut-pot.ron")).unwrap()
}

/// Opens the file in a running program: the note, and the design must be untouched.
fn refused(path: &Path) -> Note {
    let mut runner = AppRunner::inline(State::start(Settings::default(), Kitchen::default()).unwrap());
    let before = runner.state.design().clone();
    runner.run(FileCommand::Open(path.to_path_buf()));
    assert_eq!(*runner.state.design(), before, "the open design is untouched");
    assert_eq!(runner.state.notices.len(), 1, "one message: {:?}", runner.state.notices);
    assert!(path.exists(), "the file is untouched");
    runner.state.notices[0].clone()
}

#[test]
fn saved_and_opened_again_it_is_the_same() {
    let dir = folder();
    let design = demo("coconut-pot.ron");
    let path = dir.path().join("a/b/pot.ron");
    files::save_design(&path, &design).unwrap();
    assert_eq!(files::design(&path).unwrap(), design);
    // Saving again keeps what was there.
    let mut changed = design.clone();
    changed.name = "Another".into();
    files::save_design(&path, &changed).unwrap();
    assert_eq!(files::design(&files::last_good(&path)).unwrap(), design);
    let left: Vec<_> = std::fs::read_dir(path.parent().unwrap()).unwrap().collect();
    assert_eq!(left.len(), 2, "no temporary file is left");
}

#[test]
fn an_unknown_field_is_named_with_its_line() {
    let dir = folder();
    let bad = text().replace("name:", "colour: \"red\",\n    name:");
    let note = refused(&put(dir.path(), "x.ron", bad.as_bytes()));
    assert!(note.field.contains("line 5"), "{note}");
    assert!(note.title.contains("colour"), "{note}");
}

#[test]
fn a_newer_version_is_refused_by_number() {
    let dir = folder();
    let bad =
        text().replace("version: 1", "version: 7").replace("spoons: metric", "spoons: (new: \"shape\")");
    let note = refused(&put(dir.path(), "x.ron", bad.as_bytes()));
    assert!(note.title.contains("version 7") && note.title.contains("1 to 1"), "{note}");
}

#[test]
fn another_format_is_named() {
    let dir = folder();
    let bad = text().replace("potset design", "potset kitchen");
    let note = refused(&put(dir.path(), "x.ron", bad.as_bytes()));
    assert!(note.title.contains("potset kitchen"), "{note}");
}

#[test]
fn a_file_cut_short_says_so() {
    let dir = folder();
    let whole = text();
    for part in [0.2, 0.5, 0.9, 0.999] {
        let cut = &whole.as_bytes()[..(whole.len() as f64 * part) as usize];
        let note = refused(&put(dir.path(), "x.ron", cut));
        assert!(note.field.contains("line"), "{note}");
        assert!(!note.mend.is_empty(), "{note}");
    }
    let note = refused(&put(dir.path(), "empty.ron", b""));
    assert!(note.title.contains("empty"), "{note}");
}

#[test]
fn bytes_that_are_no_text_are_named_with_their_line() {
    let dir = folder();
    let mut bytes = text().into_bytes();
    let at = bytes.iter().position(|b| *b == b'\n').unwrap() + 1;
    bytes.insert(at, 0xff);
    let note = refused(&put(dir.path(), "x.ron", &bytes));
    assert!(note.field.contains("line 2") && note.title.contains("UTF-8"), "{note}");
}

#[test]
fn a_hundred_megabytes_are_refused_before_they_are_read() {
    let dir = folder();
    let path = dir.path().join("big.ron");
    std::fs::File::create(&path).unwrap().set_len(100 << 20).unwrap();
    let note = refused(&path);
    assert!(note.title.contains("too large") && note.sentence.contains("100 MB"), "{note}");
}

#[test]
fn numbers_out_of_range_and_nan_are_named_with_field_and_line() {
    let dir = folder();
    for (from, to, field) in [
        ("g_per_l: 12.5", "g_per_l: -3.0", "sugars[0].g_per_l"),
        ("g_per_l: 12.5", "g_per_l: NaN", "sugars[0].g_per_l"),
        ("litres: 2.0", "litres: inf", "bases[0].litres"),
        ("hours: 24.0", "hours: 4000.0", "hours"),
        ("set_c: 40.0", "set_c: 400.0", "set_c"),
        ("rate: 1.0", "rate: -1.0", "cultures[0].rate"),
    ] {
        let bad = text().replacen(from, to, 1);
        assert_ne!(bad, text(), "{from} stands in the file");
        let note = refused(&put(dir.path(), "x.ron", bad.as_bytes()));
        assert!(note.field.contains(field) && note.field.contains("line"), "{note}");
        assert!(note.mend.contains("Give"), "{note}");
    }
}

#[test]
fn steps_out_of_order_and_missing_entries_are_named() {
    let dir = folder();
    let bad = text().replacen("culture_in,", "", 1);
    let note = refused(&put(dir.path(), "x.ron", bad.as_bytes()));
    assert!(note.title.contains("culture"), "{note}");
    let mut design = demo("coconut-pot.ron");
    design.sugars[0].entry = "moon_dust".into();
    let compiled = crate::support::compiled(&design);
    assert!(compiled.mix.is_none());
    assert!(compiled.notes[0].title.contains("moon_dust"), "{}", compiled.notes[0]);
}

#[test]
fn folders_and_missing_files_are_named() {
    let dir = folder();
    let mut runner = AppRunner::inline(State::start(Settings::default(), Kitchen::default()).unwrap());
    runner.run(FileCommand::Open(dir.path().join("not-there.ron")));
    runner.run(FileCommand::Open(dir.path().to_path_buf()));
    assert!(runner.state.notices[0].title.contains("could not be read"), "{}", runner.state.notices[0]);
    assert!(runner.state.notices[1].title.contains("folder"), "{}", runner.state.notices[1]);
}

#[test]
fn a_save_that_fails_keeps_the_work_and_says_so() {
    let mut runner = AppRunner::inline(State::start(Settings::default(), Kitchen::default()).unwrap());
    runner.run(BenchCommand::Edit(potset_doc::Edit::SugarDose(0, 8.0), None));
    let dir = folder();
    let file = put(dir.path(), "plain", b"");
    runner.run(FileCommand::SaveAs(file.join("under-a-file.ron")));
    assert!(runner.state.session.history.unsaved());
    assert!(runner.state.notices[0].title.contains("could not be saved"), "{}", runner.state.notices[0]);
}

#[test]
fn a_bad_settings_file_is_set_aside() {
    let dir = folder();
    let path =
        put(dir.path(), "settings.ron", b"(format: \"potset settings\", version: 1, body: (zoom: \"big\"))");
    let at = dir.path().to_path_buf();
    let folders = Folders { settings: at.clone(), state: at.clone(), documents: at.clone(), own: at };
    // A command that reads tells of it and moves nothing; the window, which will write, sets it aside.
    let (settings, _, notes) = memory::load(&folders);
    assert_eq!((settings, notes.len()), (Settings::default(), 1));
    assert!(path.exists());
    let notes = memory::mend(&folders);
    assert!(notes[0].mend.contains("set aside"), "{}", notes[0]);
    assert!(!path.exists() && dir.path().join("settings.ron.bad-1").exists());
}

#[test]
fn demos_open_and_carry_their_entries() {
    let pantry = crate::support::pantry();
    let demos = potset_doc::assets::DEMOS.iter().map(|demo| ("demo-data", demo));
    let kept = crate::support::KEPT.iter().map(|kept| ("tests/data/designs", kept));
    for (folder, (name, text)) in demos.chain(kept) {
        let design = format::read_design(text.as_bytes()).unwrap();
        // Entries that the pantry has are as the pantry has them now; the others are the demo's own.
        let mut whole = design.clone();
        let own = &mut whole.snapshot;
        own.buffer_shapes.retain(|e| find(&pantry.buffer_shapes, &e.key).is_none());
        own.bases.retain(|e| find(&pantry.bases, &e.key).is_none());
        own.sugars.retain(|e| find(&pantry.sugars, &e.key).is_none());
        own.thickeners.retain(|e| find(&pantry.thickeners, &e.key).is_none());
        own.organisms.retain(|e| find(&pantry.organisms, &e.key).is_none());
        own.cultures.retain(|e| find(&pantry.cultures, &e.key).is_none());
        own.vessels.retain(|e| find(&pantry.vessels, &e.key).is_none());
        own.warmers.retain(|e| find(&pantry.warmers, &e.key).is_none());
        whole.refresh_snapshot(&pantry);
        if std::env::var_os("UPDATE_EXPECT").is_some() {
            let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder).join(name);
            std::fs::write(path, format::write(&whole).unwrap()).unwrap();
        } else {
            assert_eq!(design, whole, "{name}: run the tests once with UPDATE_EXPECT=1");
            assert_eq!(*text, format::write(&design).unwrap(), "{name} is as the program writes it");
        }
        // It opens without any pantry.
        let empty = potset_doc::Pantry::default();
        let alone =
            potset_forecast::compile(&design, &empty, &Kitchen::default(), &potset_doc::Learnt::default());
        if std::env::var_os("UPDATE_EXPECT").is_none() {
            assert!(alone.mix.is_some(), "{name}: {:?}", alone.notes);
        }
    }
}

#[cfg(unix)]
mod places {
    //! What stands under a name and is no plain file of its own.

    use std::io::Read;
    use std::os::unix::fs::{FileTypeExt, PermissionsExt, symlink};

    use super::{demo, files, folder, put};

    fn mode(path: &std::path::Path) -> u32 {
        std::fs::metadata(path).unwrap().permissions().mode() & 0o777
    }

    #[test]
    fn a_pipe_is_written_to_and_stays_one() {
        let dir = folder();
        let path = dir.path().join("pipe");
        let made = std::process::Command::new("mkfifo").arg(&path).status().unwrap();
        assert!(made.success());
        let from = path.clone();
        let reader = std::thread::spawn(move || {
            let mut got = String::new();
            std::fs::File::open(from).unwrap().read_to_string(&mut got).unwrap();
            got
        });
        files::write(&path, "a pot").unwrap();
        // Not joined before the kind is known: had it been replaced, the reader would wait for ever.
        assert!(std::fs::metadata(&path).unwrap().file_type().is_fifo(), "still a pipe");
        assert_eq!(reader.join().unwrap(), "a pot");
        assert_eq!(std::fs::read_dir(dir.path()).unwrap().count(), 1, "nothing stands beside it");
    }

    #[test]
    fn a_device_takes_what_is_written_and_stays_one() {
        // A name of its own that leads to the device, so that a fault would cost the link and not the device.
        let dir = folder();
        let path = dir.path().join("nowhere");
        symlink("/dev/null", &path).unwrap();
        files::write_bytes(&path, b"a pot").unwrap();
        assert!(std::fs::symlink_metadata(&path).unwrap().is_symlink());
        assert!(std::fs::metadata(&path).unwrap().file_type().is_char_device());
    }

    #[test]
    fn a_link_is_followed_and_stays_a_link() {
        let dir = folder();
        let design = demo("coconut-pot.ron");
        let far = dir.path().join("house");
        std::fs::create_dir(&far).unwrap();
        let link = dir.path().join("pot.ron");
        // The first time it leads to nothing yet.
        symlink("house/real.ron", &link).unwrap();
        for name in ["One", "Two"] {
            files::save_design(&link, &potset_doc::Design { name: name.into(), ..design.clone() }).unwrap();
            assert!(std::fs::symlink_metadata(&link).unwrap().is_symlink(), "{name}");
            assert_eq!(files::design(&far.join("real.ron")).unwrap().name, name);
        }
        assert_eq!(files::design(&files::last_good(&far.join("real.ron"))).unwrap().name, "One");
    }

    #[test]
    fn what_is_kept_from_others_stays_so() {
        let dir = folder();
        let path = put(dir.path(), "own.ron", b"");
        std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o600)).unwrap();
        files::write(&path, "one").unwrap();
        assert_eq!(mode(&path), 0o600);
        assert_eq!(mode(&files::last_good(&path)), 0o600);
    }

    #[test]
    fn a_file_set_to_read_only_is_not_replaced() {
        let dir = folder();
        let path = put(dir.path(), "kept.ron", b"kept");
        std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o444)).unwrap();
        let note = files::write(&path, "new").unwrap_err();
        assert!(note.field.contains("kept.ron") && note.mend.contains("Choose a place"), "{note}");
        assert_eq!(std::fs::read(&path).unwrap(), b"kept");
    }

    #[test]
    fn a_folder_is_named_as_one() {
        let dir = folder();
        let note = files::write_bytes(dir.path(), b"x").unwrap_err();
        assert!(note.mend.contains("in this folder"), "{note}");
        let note = files::write(dir.path(), "x").unwrap_err();
        assert!(note.mend.contains("in this folder"), "{note}");
    }

    #[test]
    fn links_in_a_ring_are_an_error() {
        let dir = folder();
        let (a, b) = (dir.path().join("a"), dir.path().join("b"));
        symlink(&b, &a).unwrap();
        symlink(&a, &b).unwrap();
        assert!(files::write(&a, "x").is_err());
    }
}
