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
