//! The demo designs as they ship: names of files and texts.

/// A demo design: file name and text. The first one is shown when the program starts.
pub const DEMOS: &[(&str, &str)] = &[
    ("coconut-pot.ron", include_str!("../../demo-data/coconut-pot.ron")),
    ("whole-milk-pot.ron", include_str!("../../demo-data/whole-milk-pot.ron")),
    ("coconut-no-sugar.ron", include_str!("../../demo-data/coconut-no-sugar.ron")),
    ("coconut-cornstarch-uncooked.ron", include_str!("../../demo-data/coconut-cornstarch-uncooked.ron")),
    ("coconut-agar.ron", include_str!("../../demo-data/coconut-agar.ron")),
    ("oat-and-coconut.ron", include_str!("../../demo-data/oat-and-coconut.ron")),
    ("soy-set-pots.ron", include_str!("../../demo-data/soy-set-pots.ron")),
    ("cashew-pot.ron", include_str!("../../demo-data/cashew-pot.ron")),
    ("goat-pot.ron", include_str!("../../demo-data/goat-pot.ron")),
    ("lactose-free-pot.ron", include_str!("../../demo-data/lactose-free-pot.ron")),
    ("strained-milk-pot.ron", include_str!("../../demo-data/strained-milk-pot.ron")),
    ("coconut-with-fruit.ron", include_str!("../../demo-data/coconut-with-fruit.ron")),
    ("milk-with-lactase.ron", include_str!("../../demo-data/milk-with-lactase.ron")),
    ("drinking-yogurt.ron", include_str!("../../demo-data/drinking-yogurt.ron")),
    ("failed-thin-and-sweet.ron", include_str!("../../demo-data/failed-thin-and-sweet.ron")),
    ("failed-too-hot.ron", include_str!("../../demo-data/failed-too-hot.ron")),
    ("failed-split.ron", include_str!("../../demo-data/failed-split.ron")),
    ("failed-watery.ron", include_str!("../../demo-data/failed-watery.ron")),
];
