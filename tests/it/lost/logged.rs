//! Two programs that log readings into one batch at once, and are killed at any moment: every reading that was told as saved
//! is in its file, and none is there twice.
//!
//! `POTSET_KILLS=300 cargo test --test it lost::logged` kills so many.

use std::io::Read;
use std::process::{Child, Stdio};
use std::time::Duration;

use potset_base::clock::{Moment, Zone};
use potset_doc::{Batch, Kitchen, format};
use potset_store::{book, files};

use super::Home;
use crate::cli::command_at;
use crate::support::demo;

fn log(home: &Home, file: &str, note: &str) -> Child {
    command_at(home.dir.path())
        .args(["log", file, &format!("+1 h 4.9 note {note}")])
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

#[test]
fn what_was_told_as_saved_is_in_the_batch_when_two_that_log_are_killed() {
    let kills: u64 = std::env::var("POTSET_KILLS").map_or(60, |n| n.parse().unwrap());
    let home = Home::new();
    let path = home.path("pot.ron");
    let file = path.to_str().unwrap();
    let start = Moment::parse("2020-11-20 18:30").unwrap();
    let zone = Zone::default();
    let batch =
        Batch::begun("Six jars", &start.text(), zone.name(), demo("coconut-pot.ron"), Kitchen::default());
    files::write(&path, &format::write(&batch).unwrap()).unwrap();
    let (mut told, mut killed) = (Vec::new(), 0);
    // As long as one of them takes that nobody kills, so that kills fall on all that they do.
    let began = std::time::Instant::now();
    assert!(log(&home, file, "first").wait().unwrap().success());
    told.push("first".to_owned());
    let whole = u64::try_from(began.elapsed().as_micros()).unwrap().max(1000);
    for round in 0..kills / 2 {
        let notes = ["a", "b"].map(|role| format!("{role}{round}"));
        let children = notes.each_ref().map(|note| log(&home, file, note));
        std::thread::sleep(Duration::from_micros(whole / 4 + (round * 7919 * 31) % (2 * whole)));
        for (mut child, note) in children.into_iter().zip(notes) {
            let _ = child.kill();
            killed += u64::from(!child.wait().unwrap().success());
            let mut said = String::new();
            child.stdout.take().unwrap().read_to_string(&mut said).unwrap();
            if said.contains("Saved in") {
                told.push(note);
            }
        }
        let kept = book::read(&path).unwrap();
        for note in &told {
            let times = kept.readings.iter().filter(|reading| reading.note == *note).count();
            assert_eq!(times, 1, "round {round}: {note}");
        }
    }
    let kept = book::read(&path).unwrap().readings.len();
    println!("{killed} kills: {} readings told as saved, all of {kept} in the file", told.len());
    assert!(killed > 0 && told.len() > 1, "{killed} kills, {} told", told.len());
    // What a killed one left goes with the next write.
    assert!(log(&home, file, "last").wait().unwrap().success());
    assert!(home.found(".tmp").is_empty(), "{:?}", home.found(".tmp"));
}
