//! Rounding of nutrition figures as the customs of labels have it.

use potset_base::label_rule::LabelRule;
use potset_base::number;

/// A line of a nutrition table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// kcal.
    Energy,
    /// kJ.
    EnergyKj,
    Fat,
    Saturates,
    Carbohydrate,
    Sugars,
    Fibre,
    Polyols,
    Protein,
    /// g.
    Salt,
    /// mg.
    Sodium,
    /// mg.
    Calcium,
}

impl Line {
    /// Whether it is a part of the line above it.
    pub const fn is_part(self) -> bool {
        matches!(self, Self::Saturates | Self::Sugars | Self::Polyols)
    }
}

/// The nearest step, halves up, on the decimal as it is written: noise of the last binary digits does not decide.
pub fn half_up(value: f64, step: f64) -> f64 {
    let steps = (value / step * 1e6).round() / 1e6;
    (steps + 0.5).floor() * step
}

/// The figure as a label prints it, with its unit: "less than 1 g", "2.5 g", "80 mg".
pub fn printed(line: Line, value: f64, rule: LabelRule) -> String {
    match rule {
        LabelRule::UnitedStates => united_states(line, value),
        LabelRule::EuropeanUnion => european_union(line, value),
        LabelRule::AustraliaNewZealand => australia(line, value),
    }
}

fn stepped(value: f64, step: f64, decimals: usize, unit: &str) -> String {
    number::with_unit(half_up(value, step), decimals, unit)
}

/// Source: published, FDA Food Labeling Guide, appendix H; calcium from memory, 21 CFR 101.9(c)(8)(iii).
fn united_states(line: Line, v: f64) -> String {
    match line {
        Line::Energy | Line::EnergyKj => {
            let (kcal, unit) = if line == Line::Energy { (v, "kcal") } else { (v / 4.184, "kcal") };
            if kcal < 5.0 {
                number::with_unit(0.0, 0, unit)
            } else if kcal <= 50.0 {
                stepped(kcal, 5.0, 0, unit)
            } else {
                stepped(kcal, 10.0, 0, unit)
            }
        }
        Line::Fat | Line::Saturates => {
            if v < 0.5 {
                number::with_unit(0.0, 0, "g")
            } else if v < 5.0 {
                let rounded = half_up(v, 0.5);
                number::with_unit(rounded, usize::from(rounded.fract() != 0.0), "g")
            } else {
                stepped(v, 1.0, 0, "g")
            }
        }
        Line::Carbohydrate | Line::Sugars | Line::Fibre | Line::Polyols | Line::Protein => {
            if v < 0.5 {
                number::with_unit(0.0, 0, "g")
            } else if v < 1.0 {
                format!("less than {}", number::with_unit(1.0, 0, "g"))
            } else {
                stepped(v, 1.0, 0, "g")
            }
        }
        Line::Salt => stepped(v, 0.01, 2, "g"),
        Line::Sodium => {
            if v < 5.0 {
                number::with_unit(0.0, 0, "mg")
            } else if v <= 140.0 {
                stepped(v, 5.0, 0, "mg")
            } else {
                stepped(v, 10.0, 0, "mg")
            }
        }
        Line::Calcium => stepped(v, 10.0, 0, "mg"),
    }
}

/// Source: from memory, EU guidance on tolerances of December 2012, table 4.
fn european_union(line: Line, v: f64) -> String {
    let gram = |zero: f64| {
        if v <= zero {
            format!("< {}", number::with_unit(zero, 1, "g"))
        } else if v < 10.0 {
            stepped(v, 0.1, 1, "g")
        } else {
            stepped(v, 1.0, 0, "g")
        }
    };
    match line {
        Line::Energy => stepped(v, 1.0, 0, "kcal"),
        Line::EnergyKj => stepped(v, 1.0, 0, "kJ"),
        Line::Saturates => gram(0.1),
        Line::Fat | Line::Carbohydrate | Line::Sugars | Line::Fibre | Line::Polyols | Line::Protein => {
            gram(0.5)
        }
        Line::Salt => {
            if v <= 0.0125 {
                number::with_unit(0.0, 0, "g")
            } else if v < 1.0 {
                stepped(v, 0.01, 2, "g")
            } else {
                stepped(v, 0.1, 1, "g")
            }
        }
        Line::Sodium | Line::Calcium => stepped(v, 1.0, 0, "mg"),
    }
}

/// Source: from memory, Food Standards Code 1.2.8: no more than three significant figures; "less than" below 40 kJ, 1 g,
/// 5 mg.
fn australia(line: Line, v: f64) -> String {
    let (least, unit, whole) = match line {
        Line::Energy => (10.0, "kcal", true),
        Line::EnergyKj => (40.0, "kJ", true),
        Line::Sodium | Line::Calcium => (5.0, "mg", true),
        _ => (1.0, "g", false),
    };
    if v < least {
        return format!("less than {}", number::with_unit(least, 0, unit));
    }
    let (step, decimals) = match v {
        v if v >= 1000.0 => (10.0, 0),
        v if v >= 100.0 || whole => (1.0, 0),
        _ => (0.1, 1),
    };
    stepped(v, step, decimals, unit)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn us(line: Line, v: f64) -> String {
        printed(line, v, LabelRule::UnitedStates).replace('\u{a0}', " ")
    }

    #[test]
    fn united_states_serving() {
        // Source: published, FDA Food Labeling Guide appendix H, on 170 g of USDA SR 01116.
        for (line, v, want) in [
            (Line::Energy, 103.7, "100 kcal"),
            (Line::Fat, 5.53, "6 g"),
            (Line::Saturates, 3.56, "3.5 g"),
            (Line::Carbohydrate, 7.92, "8 g"),
            (Line::Protein, 5.90, "6 g"),
            (Line::Sodium, 78.2, "80 mg"),
            (Line::Calcium, 205.7, "210 mg"),
        ] {
            assert_eq!(us(line, v), want, "{line:?}");
        }
    }

    #[test]
    fn united_states_edges() {
        // Source: published, FDA Food Labeling Guide appendix H.
        for (line, v, want) in [
            (Line::Energy, 4.9, "0 kcal"),
            (Line::Energy, 50.0, "50 kcal"),
            (Line::Energy, 52.0, "50 kcal"),
            (Line::Fat, 0.49, "0 g"),
            (Line::Fat, 0.5, "0.5 g"),
            (Line::Fat, 4.9, "5 g"),
            (Line::Sodium, 142.0, "140 mg"),
            (Line::Carbohydrate, 0.7, "less than 1 g"),
        ] {
            assert_eq!(us(line, v), want, "{line:?} {v}");
        }
    }

    #[test]
    fn european_salt_and_small_amounts() {
        // Source: published, Regulation (EU) 1169/2011 annex I: salt = sodium × 2.5, 43 mg gives 0.1075 g.
        let eu = |line, v| printed(line, v, LabelRule::EuropeanUnion).replace('\u{a0}', " ");
        assert_eq!(eu(Line::Salt, 43.0 * 2.5e-3), "0.11 g");
        assert_eq!(eu(Line::Fat, 3.25), "3.3 g");
        assert_eq!(eu(Line::Sugars, 0.4), "< 0.5 g");
        assert_eq!(eu(Line::Protein, 10.49), "10 g");
    }

    #[test]
    fn halves_go_up_on_the_decimal() {
        assert!((half_up(0.285, 0.01) - 0.29).abs() < 1e-12);
        assert!((half_up(2.5, 1.0) - 3.0).abs() < 1e-12);
        assert!((half_up(1.15, 0.1) - 1.2).abs() < 1e-12);
    }

    #[test]
    fn three_figures_in_australia() {
        let au = |line, v| printed(line, v, LabelRule::AustraliaNewZealand).replace('\u{a0}', " ");
        assert_eq!(au(Line::EnergyKj, 1234.0), "1230 kJ");
        assert_eq!(au(Line::EnergyKj, 39.0), "less than 40 kJ");
        assert_eq!(au(Line::Fat, 12.34), "12.3 g");
        assert_eq!(au(Line::Sodium, 4.0), "less than 5 mg");
    }
}
