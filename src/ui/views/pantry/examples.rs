//! Invented labels to try the reader with.

/// A name for the button, and the words of the label.
pub const EXAMPLES: [(&str, &str); 3] = [
    (
        "Coconut milk with gum",
        "Weir House coconut milk\nLot 7-214 B\nNutrition information per 100 g\nEnergy 722 kJ / 175 kcal\nFat 17.5 g\nof which saturates \
         15.0 g\nCarbohydrate 3.3 g\nof which sugars 1.7 g\nFibre 0 g\nProtein 1.3 g\nSalt 0.06 g\nIngredients: coconut \
         extract (70 %), water, stabiliser (guar gum).\n",
    ),
    (
        "Soy drink with chalk",
        "Weir House soya drink, unsweetened\nPer 100 ml\nEnergy 139 kJ / 33 kcal\nFat 1.9 g\nof which saturates 0.3 g\n\
         Carbohydrate 0.5 g\nof which sugars 0.3 g\nFibre 0.5 g\nProtein 3.3 g\nSalt 0.03 g\nCalcium 120 mg\nIngredients: \
         water, hulled soya beans (9 %), calcium carbonate, stabiliser (gellan gum).\nContains soya.\n",
    ),
    (
        "Sweet coconut, preserved",
        "Weir House sweet coconut cream\nper serving (50 g)\nFat 10.5 g\nCarbohydrate 9 g\nof which sugars 8 g\nProtein \
         0.7 g\nIngredients: coconut extract (60 %), sugar, water, emulsifier (E435), preservative (E202), sodium \
         caseinate (milk).\n",
    ),
];
