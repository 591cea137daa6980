//! What the first pot must show, on the demo designs.

use potset_base::words::TextureWord;
use potset_doc::{Design, Kitchen, Learnt, edit};
use potset_forecast::scenario::Scenario;
use potset_judge::answer::{Answer, answer};
use potset_numerics::interpolate::{curve, first_below};
use potset_report::advice::note;

use crate::support::{demo, forecast, pantry};

fn ask(design: &Design) -> Answer {
    let (pantry, kitchen, learnt) = (pantry(), Kitchen::default(), Learnt::default());
    let out = answer(&Scenario { design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt });
    assert!(out.errors.is_empty(), "{:?}", out.errors);
    out
}

fn ph(a: &Answer, hours: f64) -> f64 {
    curve(&a.forecast.t, &a.forecast.ph, hours)
}

#[test]
fn coconut_pot_sours_in_a_day_and_firms_overnight() {
    let design = demo("coconut-pot.ron");
    let a = ask(&design);
    assert!((3.9..=4.3).contains(&ph(&a, 24.0)), "pH {}", ph(&a, 24.0));
    assert!(ph(&a, 9.0) > 4.8, "pH {}", ph(&a, 9.0));
    let acid = curve(&a.forecast.t, &a.forecast.acid_made, 24.0);
    assert!((0.4..=0.75).contains(&acid), "{acid} %");
    let texture = a.verdict.texture.as_ref().unwrap();
    assert_eq!(texture.word, TextureWord::Dollops);
    assert!(texture.chilled > 3.0 * texture.in_pot, "{} {}", texture.chilled, texture.in_pot);
    let mut without = design;
    without.thickeners.clear();
    let bare = ask(&without);
    let bare = bare.verdict.texture.as_ref().unwrap();
    assert!(bare.in_pot * 1.3 <= texture.in_pot, "{} {}", bare.in_pot, texture.in_pot);
    assert!(bare.chilled <= texture.chilled, "{} {}", bare.chilled, texture.chilled);
}

#[test]
fn whole_milk_pot_is_ready_in_a_working_day() {
    let a = ask(&demo("whole-milk-pot.ron"));
    let hours = first_below(&a.forecast.t, &a.forecast.ph, 4.6).unwrap();
    assert!((6.0..=9.5).contains(&hours), "{hours} h");
    let texture = a.verdict.texture.unwrap();
    assert!((TextureWord::Dollops..=TextureWord::Stands).contains(&texture.word), "{:?}", texture.word);
}

#[test]
fn coconut_without_sugar_stays_sweetless_and_warm_and_the_verdict_says_why() {
    let a = ask(&demo("coconut-no-sugar.ron"));
    assert!(a.forecast.ph.iter().zip(&a.forecast.t).all(|(ph, t)| *t > 24.0 || *ph > 5.5));
    let first = a.verdict.against.as_ref().unwrap();
    assert!(note(first).title.starts_with("Still pH 6.2 at 24"), "{}", note(first));
    assert!(a.verdict.advice.iter().any(|a| note(a).title.contains("No sugar")));
    let mend = first.mend.as_ref().unwrap();
    let mended = ask(&edit::apply(&demo("coconut-no-sugar.ron"), &mend.edit(), &pantry()).unwrap());
    assert!(ph(&mended, 24.0) < 4.4, "the mend sours the pot: pH {}", ph(&mended, 24.0));
}

#[test]
fn uncooked_cornstarch_is_as_good_as_none_and_the_mend_cooks_it() {
    let design = demo("coconut-cornstarch-uncooked.ron");
    let with = ask(&design);
    let mut without = design.clone();
    without.thickeners.clear();
    let none = ask(&without);
    let (a, b) = (with.verdict.texture.as_ref().unwrap(), none.verdict.texture.as_ref().unwrap());
    for (x, y) in [(a.in_pot, b.in_pot), (a.chilled, b.chilled)] {
        assert!((x / y - 1.0).abs() <= 0.05, "{x} against {y}");
    }
    let advice = &with.verdict.advice;
    let found = advice.iter().find(|a| note(a).title.contains("is never heated enough")).unwrap();
    let mended = ask(&edit::apply(&design, &found.mend.as_ref().unwrap().edit(), &pantry()).unwrap());
    let cooked = mended.verdict.texture.as_ref().unwrap();
    assert!(cooked.in_pot >= 2.0 * a.in_pot, "{} {}", cooked.in_pot, a.in_pot);
}

#[test]
fn the_same_design_gives_the_same_bits() {
    let design = demo("coconut-pot.ron");
    assert_eq!(forecast(&design), forecast(&design));
}
