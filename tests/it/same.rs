//! Random designs as files, for `tests/same.sh`: the same bytes on each run.

use std::fs;
use std::path::Path;

use potset_doc::{Design, assets, format};
use potset_numerics::samples::Generator;
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;

use crate::coarse::edited;
use crate::hygiene::random::faulty;
use crate::properties::design;
use crate::support::{compiled, shipped};

/// Designs of each of the three kinds.
const EACH: usize = 100;

/// Designs of a strategy, always the same ones.
fn drawn(strategy: impl Strategy<Value = Design>) -> impl Iterator<Item = Design> {
    let mut runner = TestRunner::deterministic();
    std::iter::repeat_with(move || strategy.new_tree(&mut runner).unwrap().current())
}

/// Demos in turn, each with two of its levers turned anywhere in their ranges.
fn turned() -> impl Iterator<Item = Design> {
    let demos: Vec<Design> = assets::DEMOS.iter().map(|(name, _)| assets::demo(name).unwrap()).collect();
    let mut draw = Generator::new(16);
    (0..).filter_map(move |i| edited(&mut draw, &demos[i % demos.len()]).map(|(design, _)| design))
}

#[test]
#[ignore = "writes 300 designs into the folder that POTSET_DESIGNS names, which must be there"]
fn random_designs_are_written() {
    let folder = std::env::var_os("POTSET_DESIGNS").expect("POTSET_DESIGNS names a folder");
    let kinds: [(&str, Box<dyn Iterator<Item = Design>>); 3] = [
        ("plain", Box::new(drawn(design()))),
        ("faulty", Box::new(drawn(faulty()))),
        ("turned", Box::new(turned())),
    ];
    for (kind, designs) in kinds {
        let mut valid = designs.filter(|design| compiled(design).mix.is_some());
        for i in 0..EACH {
            let mut design = valid.next().unwrap();
            // Half of them bring their entries, as saved designs do; the others go by the pantry.
            if i % 2 == 0 {
                design.refresh_snapshot(shipped());
            }
            design.name = format!("{kind} {i}");
            let text = format::write(&design).unwrap();
            fs::write(Path::new(&folder).join(format!("{kind}-{i:03}.ron")), text).unwrap();
        }
    }
}
