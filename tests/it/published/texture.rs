//! Texture: cases worked by hand from the first draft of the laws, and the published figures behind them.

use potset_forecast::params;
use potset_science::params::Laws;
use potset_science::texture::PotTexture;
use potset_science::texture::inputs::Activated;
use potset_science::texture::inputs::{AgentKind, Handling};
use potset_science::texture::pot::Moment;
use potset_science::texture::sensory::{line_spread_cm, slump_cm, thickness};
use potset_science::texture::whey_protein::integral_for;
use potset_science::texture::{Agent, Heat, Part, Texture, TextureInputs, activation, emulsion, serum};

use super::{inside, near, table};

fn laws() -> Laws {
    params::shipped().unwrap().laws()
}

/// A dairy pot: protein and fat, g/100 g, whey protein denatured, handling.
fn dairy(protein: f64, fat: f64, denatured: f64, handling: Handling) -> TextureInputs {
    TextureInputs {
        dairy_protein: protein,
        soy_protein: 0.0,
        pea_protein: 0.0,
        nut_protein: 0.0,
        gel_strength: 1.0,
        calcium: 113.0,
        ropy: 0.0,
        fat,
        fat_volume: fat / 100.0 * 1.03 / 0.93,
        plant_fat: 0.0,
        coconut_fat: 0.0,
        homogenised: 1.0,
        dairy: 1.0,
        droplet_um: 0.5,
        height_mm: 80.0,
        agents: Vec::new(),
        synergies: Vec::new(),
        heat: Heat { whey_integral: integral_for(denatured), hottest_c: 85.0 },
        handling,
        rougher: (Handling::Spooned, 0.0),
        set_style: false,
        stirred_at: Vec::new(),
        left_out: 1.0,
        cold_days: 0.0,
        chilled_c: 5.0,
    }
}

/// Coconut of 20 % fat with thickeners.
fn coconut(agents: Vec<Agent>) -> TextureInputs {
    TextureInputs {
        fat: 20.0,
        fat_volume: 0.20 / 0.92,
        plant_fat: 1.0,
        coconut_fat: 1.0,
        homogenised: 0.0,
        dairy: 0.0,
        droplet_um: 5.0,
        agents,
        dairy_protein: 0.0,
        ..dairy(0.0, 0.0, 0.0, Handling::Stirred)
    }
}

/// A thickener that saw a temperature long enough: dose g/L, swelling, consistency, stiffness, e-fold of whey.
fn agent(kind: AgentKind, dose: f64, constants: [f64; 4], hottest_c: f64) -> Agent {
    let [swelling, consistency, stiffness, whey_efold] = constants;
    let before =
        Activated { share: activation::kept_at(&kind, hottest_c), broken: 0.0, swelling_h: 5.0, hottest_c };
    Agent {
        key: String::new(),
        name: String::new(),
        kind,
        dose,
        swelling,
        consistency,
        stiffness,
        whey_efold,
        weeps_per_day: 0.0,
        before,
    }
}

fn corn(dose: f64, hottest_c: f64) -> Agent {
    let kind = AgentKind::CookStarch {
        onset_c: 62.0,
        peak_c: 67.0,
        end_c: 72.0,
        full_c: 95.0,
        overcooks_c: f64::INFINITY,
    };
    agent(kind, dose, [22.0, 5.0, 60.0, 10.0], hottest_c)
}

fn tapioca(dose: f64, hottest_c: f64) -> Agent {
    let kind = AgentKind::CookStarch {
        onset_c: 58.0,
        peak_c: 66.0,
        end_c: 74.0,
        full_c: 78.0,
        overcooks_c: f64::INFINITY,
    };
    agent(kind, dose, [40.0, 3.0, 3.0, 10.0], hottest_c)
}

/// The pot at 5 °C, made at 42 °C to pH 4.6, on the first day.
fn at_five(pot: &TextureInputs) -> Texture {
    let moment = Moment {
        t_h: 6.0,
        ph: 4.6,
        c: 5.0,
        hottest_c: 42.0,
        coldest_c: 5.0,
        made_at_c: 42.0,
        whey_integral: 0.0,
        days: 0.0,
        stirred: 0.0,
    };
    PotTexture::new(pot, &laws()).at(&moment)
}

/// What a part adds to the viscosity at 50 1/s, Pa s.
fn of(t: &Texture, part: Part) -> f64 {
    t.parts[Part::ALL.iter().position(|p| *p == part).unwrap()] / 50.0
}

/// Viscosity at 50 1/s of starch and emulsion alone: the cases worked by hand leave the solid-fat network out.
fn without_network(t: &Texture) -> f64 {
    of(t, Part::Starch) + of(t, Part::Emulsion)
}

#[test]
fn stirred_skim_yogurt() {
    // Case 2. Published: Dairy Sci Technol 2009, dst0909, Table VI, plain starter, days 1 to 14 (the calibration set).
    let t = at_five(&dairy(3.2, 0.0, 0.99, Handling::Stirred));
    let k = (t.viscosity10 * 10.0 - t.yield_pa) / 10.0_f64.powf(0.65);
    table(
        "Skim yogurt, stirred, 5 °C",
        &[
            inside("yield, Pa", t.yield_pa, 8.0, 15.28),
            inside("consistency, Pa s^n", k, 1.40, 2.33).missed_at(1.333),
            inside("viscosity at 10 1/s, Pa s", t.viscosity10, 1.66, 2.57),
            inside("viscosity at 50 1/s, Pa s", t.viscosity50, 0.63, 0.90).missed_at(0.6055),
            // Derived: the same law worked by hand; digits printed.
            near("stiffness, Pa", t.stiffness_pa, 445.0, 9.0),
            near("yield by hand, Pa", t.yield_pa, 13.3, 0.3),
            near("viscosity at 50 1/s by hand, Pa s", t.viscosity50, 0.61, 0.0151),
        ],
    );
}

#[test]
fn whole_milk_yogurt() {
    // Cases 3 to 5.
    let whole = at_five(&dairy(3.3, 3.5, 0.99, Handling::Stirred));
    let unheated = at_five(&dairy(3.3, 3.5, 0.004, Handling::Stirred));
    let rich = at_five(&dairy(4.5, 3.5, 0.99, Handling::Stirred));
    table(
        "Whole-milk yogurt, stirred, 5 °C",
        &[
            // Published: PubMed 15129413, hospital diet list, yogurt 0.671 ± 0.077 Pa s and 2.4 cm (shear rate not
            // stated); two standard deviations.
            near("viscosity at 50 1/s, Pa s", whole.viscosity50, 0.671, 0.154),
            near("line spread, cm", line_spread_cm(whole.viscosity50), 2.4, 0.25),
            // Published: Yoon 2009, vane yield stress of stirred yogurts 10-34 Pa.
            inside("yield, Pa", whole.yield_pa, 10.0, 34.2),
            // Published: Grasso et al. 2020, water holding 75.7 %; ±8 points, the scatter of the three methods.
            near("centrifuged whey, %", whole.whey.centrifuged, 24.3, 8.0),
            // Derived: worked by hand.
            near("stiffness, Pa", whole.stiffness_pa, 589.0, 12.0),
            near("thickness", thickness(whole.viscosity50), 73.0, 1.0),
            near("slump, cm", slump_cm(whole.yield_pa, 1.03), 8.0, 0.5),
            // Case 4: milk of 72 °C for 15 s stays thin, "pourable"; ratio of stiffness 20 from memory.
            near("unheated: stiffness, Pa", unheated.stiffness_pa, 30.0, 1.5),
            near("unheated: viscosity at 50 1/s, Pa s", unheated.viscosity50, 0.04, 0.0051),
            inside("heated over unheated, stiffness", whole.stiffness_pa / unheated.stiffness_pa, 10.0, 40.0),
            // Case 5: milk powder to 4.5 % protein. Published direction, Kucukcetin 2008; figures derived, by hand.
            near("with powder: stiffness, Pa", rich.stiffness_pa, 1325.0, 27.0),
            near("with powder: yield, Pa", rich.yield_pa, 40.0, 1.0),
            near("with powder: viscosity at 50 1/s, Pa s", rich.viscosity50, 1.8, 0.051),
            inside("with powder: whey over plain", rich.whey.centrifuged / whole.whey.centrifuged, 0.4, 0.9),
        ],
    );
}

#[test]
fn strained_and_drinking_yogurt() {
    // Cases 6 and 13. From memory: strained yogurt G' 3-20 kPa and 2-6 Pa s; yogurt drinks 0.02-0.1 Pa s.
    let lean = at_five(&dairy(9.0, 0.0, 0.99, Handling::Worked));
    let fat = at_five(&dairy(9.0, 5.0, 0.99, Handling::Worked));
    let drink = at_five(&dairy(2.2, 1.5, 0.99, Handling::Blended));
    let thin = at_five(&dairy(1.65, 1.75, 0.99, Handling::Blended));
    table(
        "Strained and drinking yogurt, 5 °C",
        &[
            inside("strained, lean: stiffness, Pa", lean.stiffness_pa, 3000.0, 20_000.0),
            inside("strained, lean: viscosity at 50 1/s, Pa s", lean.viscosity50, 2.0, 6.0),
            inside("strained, 5 % fat: viscosity at 50 1/s, Pa s", fat.viscosity50, 2.0, 6.0),
            // Derived: worked by hand: 6.6-8.9 kPa, 69-94 Pa.
            near("strained, lean: stiffness by hand, Pa", lean.stiffness_pa, 6600.0, 100.0),
            near("strained, 5 % fat: stiffness by hand, Pa", fat.stiffness_pa, 8900.0, 180.0),
            near("strained, lean: yield by hand, Pa", lean.yield_pa, 69.0, 1.0),
            inside("drink: viscosity at 50 1/s, Pa s", drink.viscosity50, 0.02, 0.1),
            // Derived, by hand: the protein gel alone.
            near("drink by hand, Pa s", of(&drink, Part::Protein), 0.074, 0.00051),
            inside("half water: viscosity at 50 1/s, Pa s", thin.viscosity50, 0.02, 0.1),
            near("half water by hand, Pa s", of(&thin, Part::Protein), 0.035, 0.00051),
        ],
    );
}

#[test]
fn creams() {
    // Published: an unsigned worked sheet, Cream Viscosity (scribd.com/doc/52930996), with Phipps 1969 and Bakshi and
    // Smith 1984: ten values, mPa s, which the law was fitted to within 9 %.
    let law = laws().fat;
    let sheet = [
        (30.0, 22.0, 14.0),
        (35.0, 36.0, 23.0),
        (40.0, 60.0, 38.0),
        (45.0, 99.0, 62.0),
        (50.0, 160.0, 103.0),
    ];
    // Fat of 0.93 g/mL in a serum of 1.035.
    let phi = |fat: f64| fat / 0.93 / (fat / 0.93 + (100.0 - fat) / 1.035);
    let at = |fat: f64, c: f64| {
        1e3 * serum::plain(1.0, c, &law) * emulsion::thickening(phi(fat), law.cluster_dairy, &law)
    };
    let mut rows = Vec::new();
    for (fat, cold, warm) in sheet {
        rows.push(near(format!("cream of {fat} %, 5 °C, mPa s"), at(fat, 5.0), cold, 0.09 * cold));
        rows.push(near(format!("cream of {fat} %, 20 °C, mPa s"), at(fat, 20.0), warm, 0.09 * warm));
    }
    // Published: the exponential law of milks and creams, Bakshi and Smith 1984: skim 2.4 and whole milk 3.4 mPa s at 5 °C,
    // 1.5 and 2.1 at 20 °C; that law and the sheet lie up to a factor of 2 apart.
    for (what, fat, c, want) in [
        ("skim milk", 0.1, 5.0, 2.4),
        ("whole milk", 3.5, 5.0, 3.4),
        ("skim milk", 0.1, 20.0, 1.5),
        ("whole milk", 3.5, 20.0, 2.1),
    ] {
        rows.push(inside(format!("{what}, {c} °C, mPa s"), at(fat, c), want / 2.0, want * 2.0));
    }
    table("Creams", &rows);
}

#[test]
fn coconut_with_starch() {
    // Derived: the laws worked by hand once more, outside the program, from the shipped parameters: 20 % fat is φ 0.217, at
    // pH 4.6 and 5 °C k is 1.736 and r 5.42; without the yield stress of solid fat.
    let bare = without_network(&at_five(&coconut(Vec::new())));
    let cooked = at_five(&coconut(vec![tapioca(20.0, 85.0)]));
    let raw = without_network(&at_five(&coconut(vec![tapioca(20.0, 42.0)])));
    let corn_at = |dose: f64, c: f64| without_network(&at_five(&coconut(vec![corn(dose, c)])));
    let paste = |agent: Agent| of(&at_five(&coconut(vec![agent])), Part::Starch);
    let rice = agent(AgentKind::ColdStarch { swelling_h: 5.0 / 60.0 }, 40.0, [10.0, 4.0, 10.0, 10.0], 42.0);
    table(
        "Coconut of 20 % fat, 5 °C",
        &[
            // Published direction: a thin emulsion (Muda Omar 2002).
            inside("no thickener, mPa s", bare * 1e3, 9.0, 18.4),
            near("tapioca 20 g/L, cooked, Pa s", of(&cooked, Part::Starch), 1.486, 0.015),
            near("its whey, %", cooked.whey.centrifuged, 0.0, 0.5),
            near("tapioca 20 g/L, not cooked, Pa s", raw, 0.01356, 0.0002),
            // Published direction: 3-5 % corn starch liked best in coconut yogurt (thesis abstract); boil rule of the trade.
            near("cornstarch 30 g/L to 65 °C, Pa s", corn_at(30.0, 65.0), 0.01435, 0.0002),
            near("cornstarch 30 g/L to 75 °C, Pa s", corn_at(30.0, 75.0), 0.08617, 0.0009),
            near("cornstarch 30 g/L to 85 °C, Pa s", paste(corn(30.0, 85.0)), 0.4169, 0.0042),
            near("cornstarch 30 g/L to 95 °C, Pa s", paste(corn(30.0, 95.0)), 1.326, 0.014),
            near("cornstarch 50 g/L boiled, Pa s", paste(corn(50.0, 97.0)), 4.443, 0.045),
            inside(
                "cooked at 85 over boiled: a third",
                paste(corn(30.0, 85.0)) / paste(corn(30.0, 95.0)),
                0.28,
                0.38,
            ),
            near("cold rice starch 40 g/L, swelling 10, Pa s", paste(rice), 0.4243, 0.0043),
        ],
    );
}

#[test]
fn thickened_dairy() {
    // Cases 11 and 12: the whole-milk yogurt with a thickener.
    let with =
        |agents: Vec<Agent>| at_five(&TextureInputs { agents, ..dairy(3.3, 3.5, 0.99, Handling::Stirred) });
    let gelatin = AgentKind::Gel {
        stiffness_pa: 40.0,
        reference_g_l: 10.0,
        exponent: 2.0,
        least_g_l: 0.5,
        dissolve_c: 45.0,
        set_c: 14.0,
        melt_c: 30.0,
        after_stirring: 0.7,
        supplied: 1.0,
        left_at_ph4: 1.0,
    };
    let modified = AgentKind::CookStarch {
        onset_c: 60.0,
        peak_c: 66.0,
        end_c: 75.0,
        full_c: 85.0,
        overcooks_c: f64::INFINITY,
    };
    let plain = with(Vec::new());
    let corn = with(vec![corn(10.0, 95.0)]);
    let modified = with(vec![agent(modified, 20.0, [35.0, 6.0, 20.0, 10.0], 90.0)]);
    let gelatin = with(vec![agent(gelatin, 4.0, [0.0, 0.0, 0.0, 1.3], 85.0)]);
    table(
        "Thickened dairy, 5 °C",
        &[
            // Published: gelatin in acid milk gels (abstract), no serum at 4 g/L; the law worked by hand has 1.2 % left.
            inside("gelatin 4 g/L: centrifuged whey, %", gelatin.whey.centrifuged, 0.0, 1.25)
                .missed_at(1.323),
            // Published: Saleh et al. 2020, consistency × 1.45 with corn starch (dose not stated, 1 % in a sister paper).
            near("cornstarch 10 g/L over none", corn.viscosity50 / plain.viscosity50, 1.45, 0.1)
                .missed_at(1.161),
            // Derived: worked by hand: × 1.16 and × 2.0.
            near("cornstarch 10 g/L over none, by hand", corn.viscosity50 / plain.viscosity50, 1.16, 0.03),
            near(
                "modified starch 20 g/L over none, by hand",
                modified.viscosity50 / plain.viscosity50,
                2.0,
                0.06,
            ),
        ],
    );
}
