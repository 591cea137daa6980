//! Which figures move a forecast most, and that weak ones among them are told of.

use potset_doc::{Kitchen, Learnt};
use potset_doubt::influence::influences;
use potset_forecast::scenario::Scenario;

use crate::support::{demo, pantry};

#[test]
fn the_strongest_figures_of_the_demo_pots() {
    for name in ["coconut-pot.ron", "whole-milk-pot.ron"] {
        let (design, pantry, kitchen, learnt) = (demo(name), pantry(), Kitchen::default(), Learnt::default());
        let scenario = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
        let all = influences(&scenario, &mut || true);
        assert!(influences(&scenario, &mut || false).is_empty(), "stopped at once");
        println!("{name}: {} figures move it", all.len());
        for i in all.iter().take(15) {
            println!("  {:<60} {:>6.2} steps  {:?}  {:?}", i.path, i.steps, i.cited.from.kind, i.moves);
        }
        assert!(all.len() > 30);
        assert!(all.windows(2).all(|pair| pair[0].steps >= pair[1].steps));
        assert!(all.iter().take(10).all(|i| i.steps > 0.5));
    }
}

/// The twenty weak figures that move all demos together most: `cargo test --test it influence -- --ignored --nocapture`.
#[test]
#[ignore = "prints a list; a study of some minutes"]
fn the_twenty_weak_figures_that_move_the_demos_most() {
    let (pantry, kitchen, learnt) = (pantry(), Kitchen::default(), Learnt::default());
    let mut by_path = std::collections::BTreeMap::<String, (f64, usize, String)>::new();
    for (name, _) in potset_doc::assets::DEMOS {
        let design = potset_doc::assets::demo(name).unwrap();
        let scenario = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
        for i in
            influences(&scenario, &mut || true).into_iter().filter(potset_doubt::influence::Influence::weak)
        {
            let (low, high) = i.cited.spread.bounds().unwrap();
            let text = format!(
                "{:?} {} ({low:.3}-{high:.3}) {}",
                i.cited.from.kind, i.cited.value, i.cited.from.text
            );
            let one = by_path.entry(i.path).or_insert((0.0, 0, text));
            (one.0, one.1) = (one.0 + i.steps, one.1 + 1);
        }
    }
    let mut all: Vec<_> = by_path.into_iter().collect();
    all.sort_by(|a, b| b.1.0.total_cmp(&a.1.0));
    for (path, (steps, demos, text)) in all.iter().take(20) {
        println!(
            "{steps:7.1} steps in {demos:2} demos  {path:<50} {}",
            text.chars().take(150).collect::<String>()
        );
    }
    assert_eq!(all.len().min(20), 20);
}
