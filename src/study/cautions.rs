//! The usual cautions in words, for the help sheet.

/// Every caution ends so.
pub const DEFER: &str = "Follow local codes; ask a licensed professional before selling";

/// The usual cautions, by subject. Advice, never permission.
///
/// Sources: published where a number is given (FDA Food Code 4-703.11; 21 CFR 114; Codex CXS 243 and 240), common
/// practice and engineering defaults otherwise, see the caution rows of the parameters.
pub const CAUTIONS: &[(&str, &str)] = &[
    (
        "Slow souring",
        "A warm pot above pH 4.6 is a place where other things grow. A tinned or UHT base with a known culture: look at \
         12 h, throw away what is above pH 4.6 at 24 h. Fresh coconut, raw nuts, or any pot that was below 35 °C: look at \
         8 h (pH 5.0), throw away above 4.6 at 12 h. Dairy: look at 10 h, throw away above 4.6 at 24 h.",
    ),
    (
        "Coconut",
        "Burkholderia gladioli can make bongkrekic acid in warm coconut; it has killed people, and no heat destroys it. \
         Use a tinned, UHT or boiled base and a known culture at full dose, and throw away what is yellow or oddly \
         coloured. Re-heating does not rescue a pot.",
    ),
    (
        "Tins",
        "Never boil or microwave a closed tin. A sealed jar that never sours can hold Clostridium botulinum.",
    ),
    (
        "Starch and rice",
        "Spores of Bacillus cereus live through boiling. Cool a cooked base from 60 to 45 °C within an hour, put the \
         culture in at once, and do not call it done above pH 4.3.",
    ),
    (
        "The kit",
        "Clean first, then scald: 77 °C or more for at least 30 s. Not with the culture: 50 °C is its end.",
    ),
    ("Raw milk", "Heat it first: 72 °C for 15 s at least, or the yogurt step of 85 °C for 20 min."),
    (
        "Who eats it",
        "For the very young, the old, the pregnant and the ill use pasteurised or tinned bases and a lower release pH, and \
         ask a clinician where immunity is weak. Honey is not for children under 12 months. Yogurt keeps lactose and \
         galactose: not for galactosaemia. Culture carriers and coconut powders may hold milk.",
    ),
    (
        "Throw it away",
        "Mould, pink or orange spots, gas in a base without added calcium carbonate, a foul smell, no set and no tang.",
    ),
    (
        "Afterwards",
        "Chill at once: from 57 to 21 °C within 2 h and to 5 °C within 6 h in all; keep at 5 °C or below, a week or two.",
    ),
    ("Meters", "Check a pH meter with a buffer. Dry strips err by 0.3."),
];
