//! Why a pot went wrong: the command, the answer to read out and to send, and what is said first.

use std::process::Command;
use std::sync::Arc;

use potset_doc::{Kitchen, Learnt, assets};
use potset_forecast::scenario::OwnedScenario;
use potset_mishap::{Fact, Mishap, MishapCase, Symptom, ThrowAway, data};
use potset_report::mishap as say;

use crate::support::shipped;

fn open(name: &str, saw: &[Symptom], known: &[&str]) -> Mishap {
    let scenario = OwnedScenario {
        design: Arc::new(assets::demo(name).unwrap()),
        pantry: Arc::new(shipped().clone()),
        kitchen: Kitchen::default(),
        learnt: Learnt::default(),
    };
    let known = known.iter().map(|text| Fact::read(text).unwrap()).collect();
    Mishap::open(MishapCase { scenario, saw: saw.to_vec(), known }).unwrap()
}

fn potset(arguments: &[&str]) -> (i32, String, String) {
    let home = tempfile::tempdir().unwrap();
    let out = Command::new(env!("CARGO_BIN_EXE_potset"))
        .args(arguments)
        .env("HOME", home.path())
        .env_remove("XDG_CONFIG_HOME")
        .env_remove("XDG_DATA_HOME")
        .env_remove("XDG_STATE_HOME")
        .output()
        .unwrap();
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    (out.status.code().unwrap(), text(&out.stdout), text(&out.stderr))
}

#[test]
fn the_command_says_throw_away_first_then_causes_question_and_answer() {
    let (code, out, _) =
        potset(&["mishap", "coconut-pot.ron", "--saw", "thin", "--saw", "sweet", "--know", "hold=9h"]);
    assert_eq!(code, 0, "{out}");
    let places: Vec<usize> =
        ["Throw it away", "Most likely: stopped too early", "Next", "To read out:", "To send:"]
            .iter()
            .map(|words| out.find(words).unwrap_or_else(|| panic!("{words}: {out}")))
            .collect();
    assert!(places.is_sorted(), "{out}");
    for (arguments, said) in [
        (&["mishap", "coconut-pot.ron"][..], "Nothing was said of the pot"),
        (&["mishap", "coconut-pot.ron", "--saw", "blue"], "no-tang"),
        (&["mishap", "coconut-pot.ron", "--saw", "thin", "--know", "hold=long"], "Give a number in h"),
        (&["mishap", "nothing.ron", "--saw", "thin"], "nothing.ron"),
    ] {
        let (code, _, told) = potset(arguments);
        assert_eq!(code, 2, "{told}");
        assert!(told.contains(said), "{told}");
    }
}

#[test]
fn answers_stay_within_their_words_whatever_was_said() {
    for (saw, known) in [
        (&[Symptom::Thin][..], &[][..]),
        (&[Symptom::Thin, Symptom::NoTang, Symptom::Sweet], &["hours=9", "warmth=36"]),
        (&[Symptom::Gas, Symptom::Smell, Symptom::Colour], &["kit=not scalded"]),
        (&[Symptom::TooSour, Symptom::Whey, Symptom::Lumpy], &["hours=40"]),
    ] {
        for name in ["coconut-pot.ron", "whole-milk-pot.ron", "failed-too-hot.ron"] {
            let mishap = open(name, saw, known);
            let ranking = mishap.rank();
            let what = mishap.what_to_do(&ranking);
            let words = |text: &str| text.split_whitespace().count();
            let (read, send) = (say::read_out(&ranking, &what), say::to_send(&ranking, &what));
            assert!((5..=say::READ_OUT).contains(&words(&read)), "{read}");
            assert!(words(&send) <= say::TO_SEND && words(&send) >= words(&read), "{send}");
            for text in [&read, &send, &say::text(&mishap)] {
                assert!(!text.contains("..") && !text.to_lowercase().contains(" safe"), "{text}");
            }
            // A pot that goes is never rescued, and that it goes is said first.
            if what.throw_away.is_some() {
                let first =
                    read.starts_with("Throw it away") || read.starts_with("Do not eat it yet. Throw it away");
                assert!(first && what.rescue.is_none(), "{read}");
            }
        }
    }
}

#[test]
fn what_is_seen_throws_a_pot_away_by_itself() {
    for symptom in [Symptom::Gas, Symptom::Colour, Symptom::Smell] {
        let mishap = open("whole-milk-pot.ron", &[symptom], &["ph=4.2", "kit=scalded"]);
        let what = mishap.what_to_do(&mishap.rank());
        assert_eq!(what.throw_away, Some(ThrowAway::Seen(symptom)));
    }
}

#[test]
fn next_time_is_an_edit_that_mends_the_plan() {
    let mishap = open("failed-too-hot.ron", &[Symptom::NoTang], &[]);
    let ranking = mishap.rank();
    let what = mishap.what_to_do(&ranking);
    let (at, mend) = what.next_time.unwrap();
    assert_eq!(data().causes[at].key, "hot");
    let before = assets::demo("failed-too-hot.ron").unwrap();
    let after =
        potset_doc::edit::apply(&before, &potset_report::mends::edit(&mend.unwrap()), shipped()).unwrap();
    assert!(after.hold().unwrap().set_c < before.hold().unwrap().set_c);
    // The curves of the first cause are those of the plan where the plan itself has the flaw.
    assert_eq!(mishap.design_of(&ranking.causes[0]).hold().unwrap().set_c, before.hold().unwrap().set_c);
    assert!(mishap.curves_of(&ranking.causes[0]).is_ok());
}
