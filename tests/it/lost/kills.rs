//! Two programs that save, keep recovery copies and change the maker's pantry at once, and are killed at any moment:
//! no file is torn, and nothing is lost that had been done.
//!
//! `POTSET_KILLS=300 cargo test --test it lost::kills` kills so many times and prints what came of it.

use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, Stdio};
use std::time::Duration;

use super::*;
use potset_app::command::FileCommand;
use potset_store::library::Library;

/// Where the child works, and who it is; without it, the child's test does nothing.
const HOME: &str = "POTSET_KILLS_HOME";
const ROLE: &str = "POTSET_KILLS_ROLE";

/// What one of the two is known to have done, from what it said before it was killed.
#[derive(Default)]
struct Done {
    saved: f64,
    edited: f64,
    added: Vec<String>,
}

#[test]
fn child() {
    let (Some(home), Ok(role)) = (std::env::var_os(HOME), std::env::var(ROLE)) else { return };
    let folders = folders_in(Path::new(&home));
    let mut out = std::io::stdout();
    // The name of the round is in the role, so that no two children of a role share names.
    let own_file = folders.documents.join(format!("{}.ron", &role[..1]));
    let shared = folders.documents.join("shared.ron");
    let mut runner = window_in(&folders);
    runner.run(FileCommand::RecoverLater);
    let mut say = |words: String| {
        writeln!(out, "{words}").unwrap();
        out.flush().unwrap();
    };
    for i in 1..100_000 {
        let g_per_l = 5.0 + f64::from(i) * 0.001;
        feed(&mut runner, g_per_l);
        say(format!("edited {g_per_l}"));
        if i % 3 == 0 {
            runner.run(FileCommand::SaveAs(own_file.clone()));
            say(format!("saved {g_per_l}"));
            // Both write this one, whatever is there.
            runner.run(FileCommand::SaveAs(shared.clone()));
        }
        if i % 4 == 0 {
            let name = format!("tin {role} {i}");
            add(&mut runner, &name);
            say(format!("added {name}"));
        }
    }
}

fn spawn(home: &Home, role: &str) -> Child {
    std::process::Command::new(std::env::current_exe().unwrap())
        .args(["--exact", "lost::kills::child", "--nocapture", "--test-threads", "1"])
        .env(HOME, home.dir.path())
        .env(ROLE, role)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

/// Kills it (no chance to tidy up) and reads what it had said.
fn kill(mut child: Child) -> Done {
    child.kill().unwrap();
    let mut done = Done::default();
    for line in BufReader::new(child.stdout.take().unwrap()).lines() {
        let line = line.unwrap();
        match line.split_once(' ') {
            Some(("edited", number)) => done.edited = number.parse().unwrap(),
            Some(("saved", number)) => done.saved = number.parse().unwrap(),
            Some(("added", name)) => done.added.push(name.to_owned()),
            _ => {}
        }
    }
    child.wait().unwrap();
    done
}

#[test]
fn nothing_is_lost_and_no_file_is_torn_when_two_windows_are_killed() {
    let kills: u64 = std::env::var("POTSET_KILLS").map_or(12, |n| n.parse().unwrap());
    let (mut saves, mut versions, mut copies, mut entries, mut swept) = (0, 0, 0, 0, 0);
    let mut home = Home::new();
    let mut expected: Vec<String> = Vec::new();
    for round in 0..kills / 2 {
        if round % 15 == 0 {
            // A pantry of hundreds of entries would make the rounds slower, not harder.
            home = Home::new();
            expected.clear();
        }
        let children = ["a", "b"].map(|role| spawn(&home, &format!("{role}{round}")));
        // Spread over all that they do, from the first moments of a start on.
        std::thread::sleep(Duration::from_millis(150 + (round * 7919) % 1700));
        let done = children.map(kill);
        swept += home.found(".tmp").len();
        for (role, done) in ["a", "b"].iter().zip(&done) {
            let path = home.path(&format!("{role}.ron"));
            if path.exists() {
                let saved = dose(&files::design(&path).unwrap());
                assert!(saved >= done.saved - 1e-9 || done.saved == 0.0, "{saved} after {}", done.saved);
                saves += 1;
                // What was saved is a version, or stands in the file still.
                let library = Library::at(home.folders.documents.clone());
                let all = library.versions(&format!("{role}.ron"));
                let kept: Vec<f64> = all.iter().map(|v| dose(&v.read().unwrap())).collect();
                let is = |x: &f64| (x - done.saved).abs() < 1e-9;
                assert!(done.saved == 0.0 || is(&saved) || kept.iter().any(is), "{} of {kept:?}", done.saved);
                versions += kept.len();
            }
            expected.extend(done.added.iter().cloned());
        }
        for path in home.found(".ron") {
            let bytes = std::fs::read(&path).unwrap();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            let whole = match name.as_str() {
                n if n.starts_with("pantry.ron") => format::read::<OwnPantry>(&bytes).map(|_| ()),
                n if n.starts_with("settings.ron") => format::read::<Settings>(&bytes).map(|_| ()),
                n if n.starts_with("design-") => format::read_unsaved(&bytes).map(|_| ()),
                _ => format::read_design(&bytes).map(|_| ()),
            };
            assert!(whole.is_ok(), "round {round}, {path:?}: {whole:?}");
        }
        let own = memory::own(&home.folders).0;
        for name in &expected {
            assert!(own.entries.bases.iter().any(|b| b.name == *name), "round {round}: {name} is lost");
        }
        entries += done.iter().map(|done| done.added.len()).sum::<usize>();
        // Both were killed while they edited: what each said last is offered, or stands in its file.
        let mut runner = home.window();
        let lost: Vec<f64> = runner.state.recovery.iter().map(|l| dose(&l.unsaved.design)).collect();
        for done in done.iter().filter(|done| done.edited > done.saved) {
            let kept = |x: &f64| *x >= done.edited - 1e-9;
            let in_file = ["a.ron", "b.ron"]
                .iter()
                .any(|name| files::design(&home.path(name)).is_ok_and(|design| kept(&dose(&design))));
            assert!(in_file || lost.iter().any(kept), "round {round}: {} of {lost:?}", done.edited);
        }
        copies += lost.len();
        while !runner.state.recovery.is_empty() {
            runner.run(FileCommand::Recover(0, false));
        }
        runner.run(FileCommand::Open(home.path("shared.ron")));
        runner.run(Command::Do(Action::Quit));
        drop(runner);
        if home.path("shared.ron").exists() {
            assert!(home.found(".tmp").is_empty(), "round {round}: {:?}", home.found(".tmp"));
        }
    }
    println!(
        "{kills} kills: {saves} saved files whole, {versions} versions of them read back, {copies} recovery copies whole, {entries} pantry entries kept, \
         {swept} temporary files left by kills and swept"
    );
}
