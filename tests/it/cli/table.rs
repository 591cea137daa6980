//! The commands of the kitchen table: a packet split, and the steps by the clock.

use super::{potset, text};

#[test]
fn a_packet_is_split_and_the_best_way_stands_first() {
    let out = potset(&["packet", "--grams", "1", "--litres", "50", "--batch", "1", "--scale", "0.1"]);
    let said = text(&out.stdout).replace('\u{a0}', " ");
    assert_eq!(out.status.code(), Some(0), "{said}");
    assert!(said.starts_with("Mix it tenfold"), "{said}");
    assert!(said.contains("Or: Weigh it as it is") && said.contains("Or: A pinch"), "{said}");
    assert!(said.contains("less than half"), "{said}");
    // On a scale that shows a milligram the dose is weighed.
    let fine = potset(&["packet", "--grams", "1", "--litres", "50", "--batch", "1", "--scale", "0.001"]);
    assert!(text(&fine.stdout).starts_with("Weigh it as it is"));
    // With a design: what that does to its time.
    let pot = potset(&[
        "packet",
        "coconut-pot.ron",
        "--grams",
        "1",
        "--litres",
        "50",
        "--batch",
        "1",
        "--scale",
        "0.1",
    ]);
    assert!(text(&pot.stdout).contains("With half the dose this pot is sour"), "{}", text(&pot.stderr));
}

#[test]
fn what_a_packet_lacks_is_named() {
    for (arguments, field) in [
        (vec!["packet"], "--grams"),
        (vec!["packet", "--grams", "1"], "--litres"),
        (vec!["packet", "--grams", "1", "--litres", "5"], "--batch"),
        (vec!["packet", "--grams", "one", "--litres", "5", "--batch", "1"], "--grams"),
        (vec!["packet", "--grams", "1", "--litres", "5", "--batch", "6"], "--batch"),
    ] {
        let out = potset(&arguments);
        assert_eq!(out.status.code(), Some(2), "{arguments:?}");
        assert!(text(&out.stderr).contains(field), "{arguments:?}: {}", text(&out.stderr));
    }
}

#[test]
fn the_clock_goes_back_from_when_it_is_to_be_ready() {
    let out = potset(&["clock", "whole-milk-pot.ron", "--ready", "2026-12-02 08:00"]);
    let said = text(&out.stdout);
    assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
    let stop = said.lines().find(|line| line.contains("Stop: into the cold")).unwrap();
    assert!(stop.trim_start().starts_with("Wed 08:00"), "{said}");
    assert!(said.contains("Stir the culture in"), "{said}");
}

#[test]
fn the_night_on_which_clocks_change_is_an_hour_longer_or_shorter() {
    // Source: published, directive 2000/84/EC: clocks go forward on the last Sunday of March.
    let start = |zone: &[&str]| {
        let arguments = [&["clock", "coconut-pot.ron", "--ready", "2027-03-28 20:00"], zone].concat();
        let said = text(&potset(&arguments).stdout);
        said.lines().find(|line| line.contains("Stir the culture in")).unwrap().trim().to_owned()
    };
    assert_ne!(start(&[]), start(&["--zone", "Europe/Paris"]));
}

#[test]
fn two_pots_that_cannot_share_a_warmer_are_told() {
    let out = potset(&[
        "clock",
        "coconut-pot.ron",
        "oat-and-coconut.ron",
        "soy-set-pots.ron",
        "whole-milk-pot.ron",
        "--start",
        "2026-12-01 08:00",
    ]);
    let said = text(&out.stdout);
    let clash = said.contains("in one warmer at the same time");
    assert_eq!(out.status.code(), Some(i32::from(clash)), "{said}");
    let bad = potset(&["clock", "coconut-pot.ron", "--ready", "tomorrow"]);
    assert_eq!(bad.status.code(), Some(2));
    assert!(text(&bad.stderr).contains("--ready"), "{}", text(&bad.stderr));
}

#[test]
fn a_card_is_written_in_every_form_and_further_pages_go_into_files_of_their_own() {
    let dir = tempfile::tempdir().unwrap();
    let at = |name: &str| dir.path().join(name).to_str().unwrap().to_owned();
    for (command, name) in
        [("card", "a.pdf"), ("card", "a.png"), ("card", "a.md"), ("card", "a.csv"), ("leaflet", "b.pdf")]
    {
        let out = potset(&[command, "coconut-pot.ron", "--out", &at(name)]);
        assert_eq!(out.status.code(), Some(0), "{name}: {}", text(&out.stderr));
        assert!(std::fs::metadata(at(name)).unwrap().len() > 500, "{name}");
    }
    let out = potset(&["card", "coconut-pot.ron", "--out", &at("c.svg"), "--size", "a5", "--version", "4"]);
    assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
    let second = std::fs::read_to_string(at("c-2.svg")).unwrap();
    assert!(second.contains("version 4") && second.contains("· 2 of"), "{second}");
    let told = std::fs::read_to_string(at("a.md")).unwrap();
    assert!(told.contains("## What goes in") && told.contains("Follow local codes"), "{told}");
    // The same again replaces what was written; a file of another kind stays.
    let again = potset(&["card", "coconut-pot.ron", "--out", &at("a.pdf")]);
    assert_eq!(again.status.code(), Some(0), "{}", text(&again.stderr));
    std::fs::write(at("letter.pdf"), "Dear aunt").unwrap();
    let kept = potset(&["card", "coconut-pot.ron", "--out", &at("letter.pdf")]);
    assert_eq!(kept.status.code(), Some(2));
    assert_eq!(std::fs::read_to_string(at("letter.pdf")).unwrap(), "Dear aunt");
}

#[test]
fn what_a_card_lacks_is_named() {
    for (arguments, said) in [
        (vec!["card", "coconut-pot.ron"], "--out"),
        (vec!["card", "coconut-pot.ron", "--out", "a.doc"], ".pdf"),
        (vec!["card", "coconut-pot.ron", "--out", "a.pdf", "--size", "a9"], "a4, letter, a5 or wall"),
        (vec!["leaflet", "coconut-pot.ron", "--out", "a.pdf", "--spoons", "tea"], "metric, us, au or uk"),
        (vec!["card", "--out", "a.pdf"], "No design was named"),
        (vec!["lesson", "--out", "a.pdf"], "No lesson was named"),
        (vec!["lesson", "13-why-it-splits.ron"], "--out"),
        (vec!["runsheet", "13-why-it-splits.ron", "--out", "a.pdf"], "--people"),
        (vec!["runsheet", "13-why-it-splits.ron", "--people", "0", "--out", "a.pdf"], "1 to 200"),
        (
            vec!["runsheet", "13-why-it-splits.ron", "--people", "9", "--at", "soon", "--out", "a.pdf"],
            "2026-12-08",
        ),
        (vec!["lesson", "coconut-pot.ron", "--out", "a.pdf"], "coconut-pot.ron"),
    ] {
        let out = potset(&arguments);
        assert_eq!(out.status.code(), Some(2), "{arguments:?}");
        assert!(text(&out.stderr).contains(said), "{arguments:?}: {}", text(&out.stderr));
    }
}
