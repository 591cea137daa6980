//! Which figures move a forecast most, and that weak ones among them are told of.

use potset::doc::{Kitchen, Learnt};
use potset::study::Ask;
use potset::study::influence::influences;

use crate::support::{demo, pantry};

#[test]
fn the_strongest_figures_of_the_demo_pots() {
    for name in ["coconut-pot.ron", "whole-milk-pot.ron"] {
        let (design, pantry, kitchen, learnt) = (demo(name), pantry(), Kitchen::default(), Learnt::default());
        let ask = Ask { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
        let all = influences(&ask, &mut || true);
        assert!(influences(&ask, &mut || false).is_empty(), "stopped at once");
        println!("{name}: {} figures move it", all.len());
        for i in all.iter().take(15) {
            println!("  {:<60} {:>6.2} steps  {:?}  {:?}", i.path, i.steps, i.cited.from.kind, i.moves);
        }
        assert!(all.len() > 30);
        assert!(all.windows(2).all(|pair| pair[0].steps >= pair[1].steps));
        assert!(all.iter().take(10).all(|i| i.steps > 0.5));
    }
}
