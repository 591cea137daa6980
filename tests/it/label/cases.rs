//! What is expected of each invented label; figures as stated in its basis, off the text by eye.

use potset_doc::label::Nutrient::{self, *};

/// One label of `tests/data/labels/`.
#[derive(Default)]
pub struct Case {
    pub file: &'static str,
    pub basis: &'static str,
    /// Exactly these figures are read; "less than" counts as half, a trace as nothing.
    pub figures: &'static [(Nutrient, f64)],
    pub ingredients: &'static str,
    pub kind: &'static str,
    pub entry: &'static str,
    pub extract: Option<f64>,
    /// Titles of doubts and warnings.
    pub notes: &'static [&'static str],
    /// Class and whether it is borderline.
    pub class: Option<(&'static str, bool)>,
    /// Numbers of the lines not understood.
    pub unread: &'static [usize],
}

const NONE: Case = Case {
    file: "",
    basis: "per 100 g",
    figures: &[],
    ingredients: "",
    kind: "Coconut, Sure",
    entry: "",
    extract: None,
    notes: &[],
    class: None,
    unread: &[],
};

const SOUR: &str = "The base is preserved against souring";
const CHALK: &str = "Chalk in the base";
const BUFFER: &str = "Buffer salts in the base";
const STRANGE: &str = "Most lines were not understood";
const SWEET: &str = "The base is sweetened";

const CREAM: &str = "coconut_cream_tinned";
const MILK: &str = "coconut_milk_tinned";
const LIGHT: &str = "coconut_drink_light";

/// Labels that say what they mean.
pub const CLEAR: &[Case] = &[
    Case {
        file: "01-cream-median",
        figures: &[
            (EnergyKj, 865.0),
            (EnergyKcal, 210.0),
            (Fat, 21.25),
            (Saturates, 18.9),
            (Carbohydrate, 3.54),
            (Sugars, 2.0),
            (Fibre, 0.0),
            (Protein, 1.25),
            (Salt, 0.04),
        ],
        ingredients: "coconut extract 85 %; water",
        entry: CREAM,
        extract: Some(85.0),
        class: Some(("coconut cream", true)),
        ..NONE
    },
    Case {
        file: "02-milk-median",
        figures: &[
            (EnergyKj, 722.0),
            (EnergyKcal, 175.0),
            (Fat, 17.5),
            (Saturates, 15.0),
            (Carbohydrate, 3.33),
            (Sugars, 1.67),
            (Fibre, 0.0),
            (Protein, 1.25),
            (Salt, 0.06),
        ],
        ingredients: "coconut 70 %; water; stabiliser: guar gum; preservative: sodium benzoate",
        entry: MILK,
        extract: Some(70.0),
        notes: &[SOUR],
        class: Some(("coconut milk", false)),
        ..NONE
    },
    Case {
        file: "03-light-median",
        figures: &[
            (EnergyKj, 255.0),
            (EnergyKcal, 62.0),
            (Fat, 6.2),
            (Carbohydrate, 1.27),
            (Sugars, 0.0),
            (Protein, 0.0),
        ],
        ingredients: "water; coconut extract 27.5 %; emulsifier: polysorbate 60; stabiliser: guar gum; stabiliser: sodium \
                      carboxymethyl cellulose",
        entry: LIGHT,
        extract: Some(27.5),
        class: Some(("light coconut milk", false)),
        ..NONE
    },
    Case {
        file: "04-long-list",
        basis: "not told",
        ingredients: "coconut extract 60 %; water; stabiliser: guar gum; preservative: sodium benzoate",
        kind: "Coconut, Likely",
        entry: CREAM,
        extract: Some(60.0),
        notes: &[SOUR],
        ..NONE
    },
    Case {
        file: "05-decimal-comma",
        basis: "per 100 mL",
        figures: &[
            (EnergyKj, 735.0),
            (EnergyKcal, 178.0),
            (Fat, 18.0),
            (Saturates, 16.2),
            (Carbohydrate, 2.8),
            (Sugars, 1.9),
            (Protein, 1.6),
            (Salt, 0.05),
        ],
        ingredients: "coconut extract 75 %; water; stabiliser: xanthan gum",
        entry: MILK,
        extract: Some(75.0),
        class: Some(("coconut milk", false)),
        ..NONE
    },
    Case {
        file: "06-us-panel",
        basis: "per serving (80 mL)",
        figures: &[
            (EnergyKcal, 140.0),
            (Fat, 14.0),
            (Saturates, 12.0),
            (Carbohydrate, 2.0),
            (Sugars, 1.0),
            (AddedSugars, 0.0),
            (Fibre, 0.0),
            (Protein, 1.0),
            (Sodium, 20.0),
            (Calcium, 0.0),
        ],
        ingredients: "coconut; water; guar gum",
        entry: MILK,
        class: Some(("coconut milk", false)),
        ..NONE
    },
    Case {
        file: "07-two-columns",
        basis: "per 100 mL",
        figures: &[
            (EnergyKj, 137.0),
            (EnergyKcal, 33.0),
            (Fat, 1.8),
            (Saturates, 0.3),
            (Carbohydrate, 0.6),
            (Sugars, 0.4),
            (Fibre, 0.5),
            (Protein, 3.0),
            (Salt, 0.03),
            (Calcium, 120.0),
        ],
        ingredients: "water; hulled soya beans 8 %; calcium carbonate; stabiliser: gellan gum",
        kind: "Soy, Sure",
        entry: "soy_drink_unsweetened",
        extract: Some(8.0),
        notes: &[CHALK],
        ..NONE
    },
    Case {
        file: "08-serving-first",
        basis: "per 100 mL",
        figures: &[
            (EnergyKj, 200.0),
            (Fat, 1.5),
            (Saturates, 0.2),
            (Carbohydrate, 6.8),
            (Sugars, 3.3),
            (Protein, 1.0),
            (Sodium, 42.0),
            (Calcium, 120.0),
        ],
        ingredients: "water; oats 12 %; sunflower oil; mineral: calcium carbonate; acidity regulator: potassium phosphate; salt",
        kind: "Oat, Sure",
        entry: "oat_drink_plain",
        extract: Some(12.0),
        notes: &[CHALK, BUFFER],
        ..NONE
    },
    Case {
        file: "09-inline",
        basis: "per 100 mL",
        figures: &[
            (EnergyKj, 60.0),
            (EnergyKcal, 15.0),
            (Fat, 1.1),
            (Saturates, 0.1),
            (Carbohydrate, 0.3),
            (Sugars, 0.1),
            (Fibre, 0.3),
            (Protein, 0.4),
            (Salt, 0.14),
        ],
        ingredients: "water; almonds 2.3 %; tricalcium phosphate; sea salt; stabiliser: locust bean gum; stabiliser: gellan gum; \
                      emulsifier: sunflower lecithin",
        kind: "Nut, Sure",
        entry: "almond_drink_unsweetened",
        extract: Some(2.3),
        notes: &[BUFFER],
        ..NONE
    },
    Case {
        file: "10-sweetened-condensed",
        figures: &[
            (EnergyKj, 1494.0),
            (EnergyKcal, 357.0),
            (Fat, 16.3),
            (Saturates, 15.5),
            (Carbohydrate, 53.2),
            (Sugars, 51.5),
            (Protein, 1.2),
        ],
        ingredients: "coconut milk 50 % (coconut extract, water); sugar; emulsifier: polysorbate 60; stabiliser: guar gum; \
                      stabiliser: xanthan gum; preservative: potassium sorbate; acidity regulator: citric acid",
        entry: MILK,
        extract: Some(50.0),
        notes: &[SOUR, SWEET],
        class: Some(("coconut cream concentrate", false)),
        ..NONE
    },
    Case {
        file: "11-caseinate",
        figures: &[
            (EnergyKj, 900.0),
            (EnergyKcal, 218.0),
            (Fat, 21.0),
            (Carbohydrate, 4.5),
            (Sugars, 2.1),
            (Protein, 2.0),
        ],
        ingredients: "coconut extract 80 %; water; maltodextrin; sodium caseinate (milk); stabiliser: sodium phosphate; \
                      antioxidant: sodium metabisulphite; antioxidant: sulphites",
        entry: CREAM,
        extract: Some(80.0),
        notes: &["The base holds sulphite", BUFFER, "The base holds milk"],
        class: Some(("coconut cream", false)),
        ..NONE
    },
    Case {
        file: "12-whole-milk",
        basis: "per 100 mL",
        figures: &[
            (EnergyKj, 268.0),
            (EnergyKcal, 64.0),
            (Fat, 3.7),
            (Saturates, 2.4),
            (Carbohydrate, 4.7),
            (Sugars, 4.7),
            (Protein, 3.4),
            (Salt, 0.1),
            (Calcium, 124.0),
        ],
        ingredients: "whole cow's milk",
        kind: "Dairy, Sure",
        entry: "whole_cows_milk",
        ..NONE
    },
    Case {
        file: "13-goat",
        basis: "per 100 mL",
        figures: &[
            (EnergyKj, 253.0),
            (EnergyKcal, 61.0),
            (Fat, 3.6),
            (Carbohydrate, 4.3),
            (Sugars, 4.3),
            (Protein, 2.8),
        ],
        ingredients: "pasteurised goat's milk",
        kind: "Dairy, Sure",
        entry: "goats_milk",
        ..NONE
    },
    Case {
        file: "14-less-than",
        basis: "per 100 mL",
        figures: &[
            (EnergyKj, 84.0),
            (EnergyKcal, 20.0),
            (Fat, 2.0),
            (Carbohydrate, 0.25),
            (Sugars, 0.25),
            (Fibre, 0.0),
            (Protein, 0.25),
            (Salt, 0.0),
        ],
        ingredients: "water; coconut milk 10 % (coconut extract, water); modified starch (hydroxypropyl distarch phosphate); \
                      carrageenan; calcium phosphate",
        entry: "coconut_drink_unsweetened",
        extract: Some(10.0),
        notes: &[BUFFER],
        class: Some(("below the classes", false)),
        ..NONE
    },
    Case {
        file: "15-nisin",
        figures: &[(Fat, 24.0), (Carbohydrate, 3.0), (Protein, 2.2)],
        ingredients: "coconut cream 98 %; preservative: nisin; preservative: natamycin; carboxymethyl cellulose",
        entry: CREAM,
        extract: Some(98.0),
        notes: &["Nisin kills cultures", "A preservative against moulds"],
        class: Some(("coconut cream", false)),
        ..NONE
    },
    Case {
        file: "16-nested",
        basis: "per 100 mL",
        figures: &[
            (EnergyKj, 180.0),
            (EnergyKcal, 43.0),
            (Fat, 3.6),
            (Carbohydrate, 1.9),
            (Sugars, 0.5),
            (Protein, 0.7),
        ],
        ingredients: "water; cashew paste (cashews 4 %, salt (sea salt (sodium chloride))); coconut milk 3 % (coconut 60 %, \
                      water); emulsifier: mono- and diglycerides of fatty acids; emulsifier: sucrose esters of fatty acids; \
                      flavouring",
        kind: "Nut, Sure",
        entry: "cashew_cream_1_3",
        extract: Some(4.0),
        ..NONE
    },
    Case {
        file: "17-wrapped-list",
        figures: &[(Fat, 17.0), (Carbohydrate, 3.0), (Protein, 1.4)],
        ingredients: "coconut extract 53 %; water; stabiliser: guar gum; stabiliser: xanthan gum; preservative: sodium \
                      metabisulphite",
        entry: MILK,
        extract: Some(53.0),
        notes: &["The base holds sulphite"],
        class: Some(("coconut milk", false)),
        ..NONE
    },
    Case {
        file: "18-thousand-space",
        figures: &[
            (EnergyKj, 1420.0),
            (EnergyKcal, 345.0),
            (Fat, 34.7),
            (Saturates, 30.8),
            (Carbohydrate, 4.5),
            (Fibre, 2.2),
            (Protein, 3.6),
        ],
        ingredients: "coconut",
        entry: CREAM,
        class: Some(("coconut cream concentrate", false)),
        ..NONE
    },
    Case {
        file: "19-unit-in-name",
        basis: "per 100 mL",
        figures: &[
            (EnergyKj, 199.0),
            (EnergyKcal, 47.0),
            (Fat, 1.0),
            (Carbohydrate, 9.2),
            (Sugars, 5.3),
            (Protein, 0.3),
            (Sodium, 39.0),
        ],
        ingredients: "water; rice 14 %; sunflower oil; salt",
        kind: "Rice, Sure",
        entry: "rice_drink",
        extract: Some(14.0),
        ..NONE
    },
    Case {
        file: "20-pea",
        basis: "per 100 mL",
        figures: &[
            (EnergyKj, 121.0),
            (EnergyKcal, 29.0),
            (Fat, 1.9),
            (Carbohydrate, 0.1),
            (Sugars, 0.0),
            (Protein, 3.3),
            (Calcium, 188.0),
        ],
        ingredients: "water; pea protein 4 %; sunflower oil; tricalcium phosphate; dipotassium phosphate; gellan gum",
        kind: "Pea, Sure",
        entry: "pea_drink",
        extract: Some(4.0),
        notes: &[BUFFER],
        ..NONE
    },
    Case {
        file: "21-per-portion-grams",
        basis: "per serving (60 g)",
        figures: &[(EnergyKj, 520.0), (Fat, 12.6), (Carbohydrate, 2.2), (Protein, 0.8)],
        ingredients: "coconut kernel extract 82 %; water",
        entry: CREAM,
        extract: Some(82.0),
        class: Some(("coconut cream", false)),
        ..NONE
    },
    Case {
        file: "22-no-ingredients",
        figures: &[
            (EnergyKj, 940.0),
            (EnergyKcal, 228.0),
            (Fat, 23.0),
            (Saturates, 20.4),
            (Carbohydrate, 3.1),
            (Sugars, 2.4),
            (Protein, 2.0),
        ],
        kind: "Coconut, Guess",
        entry: CREAM,
        class: Some(("coconut cream", false)),
        ..NONE
    },
    Case {
        file: "23-only-name",
        basis: "not told",
        kind: "Soy, Likely",
        entry: "soy_drink_unsweetened",
        ..NONE
    },
    Case {
        file: "24-added-sugar-soy",
        basis: "per 100 mL",
        figures: &[
            (EnergyKj, 180.0),
            (EnergyKcal, 43.0),
            (Fat, 1.8),
            (Carbohydrate, 2.6),
            (Sugars, 2.5),
            (Protein, 3.0),
        ],
        ingredients: "water; soya beans 7 %; cane sugar; sea salt; vitamin: b2; vitamin: b12; vitamin: d2; calcium carbonate; \
                      acidity regulator: potassium phosphates; acidity regulator: sodium citrate",
        kind: "Soy, Sure",
        entry: "soy_drink_unsweetened",
        extract: Some(7.0),
        notes: &[CHALK, BUFFER, SWEET],
        ..NONE
    },
    Case {
        file: "25-vertical",
        figures: &[
            (EnergyKj, 690.0),
            (EnergyKcal, 167.0),
            (Fat, 16.9),
            (Carbohydrate, 3.3),
            (Sugars, 2.0),
            (Protein, 1.1),
        ],
        ingredients: "coconut extract 65 %; water",
        entry: MILK,
        extract: Some(65.0),
        class: Some(("coconut milk", false)),
        ..NONE
    },
    Case {
        file: "36-hazelnut-e-numbers",
        basis: "per 100 mL",
        figures: &[
            (EnergyKj, 122.0),
            (EnergyKcal, 29.0),
            (Fat, 1.6),
            (Carbohydrate, 3.1),
            (Sugars, 3.1),
            (Protein, 0.4),
        ],
        ingredients: "water; cane sugar; hazelnuts 2.5 %; calcium carbonate; gellan gum; lecithin; potassium sorbate; sweetener: \
                      steviol glycosides",
        kind: "Nut, Sure",
        entry: "macadamia_drink",
        extract: Some(2.5),
        notes: &[SOUR, CHALK, SWEET, "A sweetener in the base"],
        ..NONE
    },
    Case {
        file: "37-milk-lactase",
        figures: &[
            (EnergyKj, 257.0),
            (EnergyKcal, 61.0),
            (Fat, 3.3),
            (Carbohydrate, 4.7),
            (Sugars, 4.7),
            (Protein, 3.2),
        ],
        ingredients: "milk; enzyme: lactase",
        kind: "Dairy, Sure",
        entry: "lactose_free_whole_milk",
        ..NONE
    },
    Case {
        file: "38-coconut-water",
        basis: "per 100 mL",
        figures: &[
            (EnergyKj, 80.0),
            (EnergyKcal, 19.0),
            (Fat, 0.0),
            (Carbohydrate, 4.7),
            (Sugars, 4.6),
            (Protein, 0.2),
        ],
        ingredients: "coconut water 100 %",
        kind: "none, Unknown",
        ..NONE
    },
];

/// Labels with something wrong: what cannot be read is shown, and nothing is made up.
pub const SPOILED: &[Case] = &[
    Case {
        file: "26-spoiled-ocr",
        basis: "per serving",
        figures: &[(Saturates, 18.9)],
        kind: "none, Unknown",
        notes: &["The figures cannot be used", STRANGE],
        unread: &[1, 2, 3, 4, 6, 7, 8, 9],
        ..NONE
    },
    Case {
        file: "27-spoiled-missing-columns",
        figures: &[(EnergyKj, 865.0), (Carbohydrate, 3.5), (Protein, 1.3)],
        ingredients: "coconut; water",
        entry: CREAM,
        unread: &[4, 7],
        ..NONE
    },
    Case {
        file: "28-spoiled-impossible",
        figures: &[
            (EnergyKj, 400.0),
            (EnergyKcal, 97.0),
            (Fat, 61.0),
            (Saturates, 70.0),
            (Carbohydrate, 30.0),
            (Sugars, 44.0),
            (Protein, 12.0),
        ],
        ingredients: "coconut; water",
        entry: CREAM,
        notes: &[
            "The energy does not fit the figures",
            "More saturates than fat",
            "More sugars than carbohydrate",
            "The figures cannot be true",
            SWEET,
        ],
        ..NONE
    },
    Case {
        file: "29-spoiled-mixed-units",
        figures: &[(EnergyKj, 170.0), (EnergyKcal, 700.0), (Fat, 17.5), (Protein, 1.1), (Calcium, 10.0)],
        ingredients: "coconut; water",
        entry: MILK,
        notes: &["kJ and kcal do not agree", "Figures without a unit"],
        class: Some(("coconut milk", false)),
        unread: &[5, 7],
        ..NONE
    },
    Case {
        file: "30-spoiled-brackets",
        figures: &[(Fat, 17.0), (Carbohydrate, 3.0), (Protein, 1.2)],
        ingredients: "coconut extract (water, stabiliser: guar gum, preservative: sodium benzoate)",
        entry: MILK,
        notes: &[SOUR],
        class: Some(("coconut milk", false)),
        unread: &[6],
        ..NONE
    },
    Case {
        file: "31-spoiled-no-basis",
        basis: "not told",
        figures: &[(Fat, 1.9), (Carbohydrate, 1.0), (Protein, 3.1)],
        kind: "Soy, Likely",
        entry: "soy_drink_unsweetened",
        notes: &["The label does not say per what"],
        unread: &[5],
        ..NONE
    },
    Case {
        file: "32-spoiled-serving-unknown",
        basis: "per serving",
        figures: &[(EnergyKcal, 120.0), (Fat, 12.0), (Carbohydrate, 2.0), (Protein, 1.0)],
        ingredients: "coconut; water",
        entry: MILK,
        notes: &["The figures cannot be used"],
        ..NONE
    },
    Case { file: "33-spoiled-empty", basis: "not told", kind: "none, Unknown", ..NONE },
    Case {
        file: "34-spoiled-foreign",
        basis: "not told",
        kind: "none, Unknown",
        notes: &[STRANGE],
        unread: &[1, 2, 3, 4, 5, 6],
        ..NONE
    },
    Case {
        file: "35-spoiled-negative",
        figures: &[(Protein, 1.2)],
        ingredients: "coconut; water",
        entry: MILK,
        unread: &[3, 4, 6, 7],
        ..NONE
    },
];
