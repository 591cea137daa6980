//! Every kind of value that the screen shows: its name, its unit, the laws behind it and the numbers that it rests on.

use super::equations::{self as law, Equation};
use super::rests::{
    COLD, COLD_RESTS, CULTURE, SOURING, SOURING_RESTS, SUGAR, SUGAR_RESTS, TEXTURE, TEXTURE_RESTS, WHEY,
    WHEY_RESTS,
};
use potset_base::Sugar;
use potset_judge::answer::Answer;

/// A value on the screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Reading {
    Ph,
    PhChilled,
    PhCooled,
    StartPh,
    Buffer,
    AcidMade,
    Titratable,
    Undissociated,
    TangWord,
    TimeToLine,
    SugarLeft,
    SugarEaten,
    SugarAdded,
    SugarOwn,
    SugarOf(Sugar),
    Sweetness,
    SweetWord,
    /// Count of an organism, by its place in the forecast.
    Count(usize),
    TextureWord,
    ViscosityChilled,
    ViscosityPot,
    Stiffness,
    Yield,
    Thickness,
    LineSpread,
    Slump,
    WheyStanding,
    WheyCut,
    ThinLayer,
    Ready,
    Temperature,
    ChillTime,
    /// Powder to weigh, by culture line.
    Dose(usize),
    /// Share of cream, by base line.
    CreamShare(usize),
    /// pH of the pot kept in the cold, by place in the verdict's days.
    Kept(usize),
}

/// What is fixed about a reading.
pub struct Facts {
    pub name: &'static str,
    pub unit: &'static str,
    pub laws: &'static [&'static Equation],
    /// Keys of the numbers it rests on, the most telling first: `*` stands for one step of a path, `**` for all the rest.
    pub rests: &'static [&'static str],
}

const fn facts(
    name: &'static str,
    unit: &'static str,
    laws: &'static [&'static Equation],
    rests: &'static [&'static str],
) -> Facts {
    Facts { name, unit, laws, rests }
}

impl Reading {
    /// Those that a verdict can show, without the ones by place.
    pub const PLAIN: [Self; 30] = [
        Self::Ph,
        Self::PhChilled,
        Self::PhCooled,
        Self::TimeToLine,
        Self::TangWord,
        Self::AcidMade,
        Self::Titratable,
        Self::Undissociated,
        Self::StartPh,
        Self::Buffer,
        Self::SugarLeft,
        Self::SugarEaten,
        Self::SugarAdded,
        Self::SugarOwn,
        Self::Sweetness,
        Self::SweetWord,
        Self::TextureWord,
        Self::ViscosityChilled,
        Self::ViscosityPot,
        Self::Stiffness,
        Self::Yield,
        Self::Thickness,
        Self::LineSpread,
        Self::Slump,
        Self::WheyStanding,
        Self::WheyCut,
        Self::ThinLayer,
        Self::Ready,
        Self::Temperature,
        Self::ChillTime,
    ];

    /// All that an answer may have, those by place too.
    #[must_use]
    pub fn of(answer: &Answer) -> Vec<Self> {
        let mut all = Self::PLAIN.to_vec();
        all.extend((0..answer.forecast.species.len()).map(Self::Count));
        all.extend(answer.forecast.sugars_there.iter().map(|sugar| Self::SugarOf(*sugar)));
        all.extend(answer.facts.doses.iter().map(|dose| Self::Dose(dose.line)));
        all.extend(answer.facts.cream.iter().map(|cream| Self::CreamShare(cream.line)));
        all.extend((0..answer.verdict.keeping.as_ref().map_or(0, |k| k.days.len())).map(Self::Kept));
        all
    }

    /// Place of the reading that stands for it among those whose influences are found out.
    #[must_use]
    pub const fn watched(self) -> Option<usize> {
        match self {
            Self::Ph | Self::AcidMade | Self::Titratable | Self::Undissociated | Self::TangWord => Some(0),
            Self::TimeToLine | Self::Ready => Some(1),
            Self::TextureWord
            | Self::ViscosityChilled
            | Self::Stiffness
            | Self::Yield
            | Self::Thickness
            | Self::LineSpread
            | Self::Slump => Some(2),
            Self::SugarLeft | Self::SugarEaten => Some(3),
            _ => None,
        }
    }

    /// What is fixed about it.
    #[must_use]
    pub const fn facts(self) -> Facts {
        match self {
            Self::Ph | Self::PhChilled | Self::PhCooled | Self::StartPh | Self::Buffer | Self::Kept(_) => {
                self.ph_facts()
            }
            Self::AcidMade
            | Self::Titratable
            | Self::Undissociated
            | Self::TangWord
            | Self::TimeToLine
            | Self::Count(_) => self.acid_facts(),
            Self::SugarLeft
            | Self::SugarEaten
            | Self::SugarAdded
            | Self::SugarOwn
            | Self::SugarOf(_)
            | Self::Sweetness
            | Self::SweetWord => self.sugar_facts(),
            Self::Ready | Self::Temperature | Self::ChillTime | Self::Dose(_) | Self::CreamShare(_) => {
                self.kitchen_facts()
            }
            _ => self.texture_facts(),
        }
    }

    const fn ph_facts(self) -> Facts {
        match self {
            Self::PhChilled => facts("pH after the chill", "", COLD, COLD_RESTS),
            Self::Kept(_) => facts("pH kept in the cold", "", COLD, COLD_RESTS),
            Self::PhCooled => facts(
                "pH read in a sample at 20 °C",
                "",
                &[&law::ELECTRODE, &law::CHARGE_BALANCE],
                &["acids.electrode_per_c", "bases.*.mean_buffer", "acids.lactic_pka"],
            ),
            Self::StartPh => facts(
                "pH before any souring",
                "",
                &[&law::CHARGE_BALANCE, &law::SITES],
                &["bases.*.ph", "bases.*.mean_buffer", "additives.*.groups.**", "buffer_shapes.**"],
            ),
            Self::Buffer => facts(
                "Buffer of the mix, pH 6.5 to 4.3",
                "mmol/kg per pH",
                &[&law::SITES],
                &["bases.*.mean_buffer", "thickeners.*.action.buffer", "buffer_shapes.**"],
            ),
            _ => facts("pH", "", SOURING, SOURING_RESTS),
        }
    }

    const fn acid_facts(self) -> Facts {
        match self {
            Self::Titratable => facts(
                "Titratable acidity",
                "% lactic",
                &[&law::TITRATION, &law::LUEDEKING, &law::LAG, &law::ACID_STOP],
                &[
                    "bases.*.start_acidity",
                    "organisms.*.acid_ceiling",
                    "organisms.*.acid_per_cell",
                    "organisms.*.acid_per_cell_hour",
                    "cultures.*.doses.*.cfu_per_g",
                    "bases.*.mean_buffer",
                    "organisms.**",
                ],
            ),
            Self::Undissociated => facts("Undissociated lactic acid", "mmol/kg", SOURING, SOURING_RESTS),
            Self::TangWord => facts(
                "Tang",
                "",
                &[&law::TANG, &law::CHARGE_BALANCE, &law::LUEDEKING, &law::ACID_STOP],
                &[
                    "words.flat_below",
                    "words.mild_below",
                    "words.bright_below",
                    "words.sharp_below",
                    "bases.*.mean_buffer",
                    "organisms.*.acid_ceiling",
                    "acids.lactic_pka",
                ],
            ),
            Self::TimeToLine => facts("Time to pH 4.6", "h", SOURING, SOURING_RESTS),
            Self::Count(_) => facts(
                "Count",
                "log cfu/g",
                CULTURE,
                &[
                    "cultures.*.doses.*.cfu_per_g",
                    "organisms.*.growth_rate",
                    "cultures.*.lag_work",
                    "growth.count_ceiling",
                    "organisms.*.acid_ceiling",
                    "organisms.**",
                    "paces.*",
                    "bases.*.pace",
                    "ageing.**",
                    "dry_loss.**",
                ],
            ),
            _ => facts("Acid made", "% as lactic acid", CULTURE, SOURING_RESTS),
        }
    }

    const fn sugar_facts(self) -> Facts {
        match self {
            Self::SugarEaten => facts("Sugar eaten", "g/L", SUGAR, SUGAR_RESTS),
            Self::SugarAdded => facts(
                "Sugar added for the culture",
                "g/L",
                &[&law::MASS],
                &["sugars.*.sugars.**", "sugars.*.water", "mixing.solids_volume"],
            ),
            Self::SugarOwn => facts(
                "Sugar that came with the base",
                "g/L",
                &[&law::MASS],
                &["bases.*.composition.sugars.**", "bases.*.density", "lactase.**"],
            ),
            Self::SugarOf(sugar) => facts(sugar.name(), "g/L", SUGAR, SUGAR_RESTS),
            Self::Sweetness => facts(
                "Sweetness",
                "g sucrose per kg",
                &[&law::SWEETNESS, &law::MASS],
                &["words.sweet_*", "sugars.*.sugars.**", "bases.*.composition.sugars.**"],
            ),
            Self::SweetWord => facts(
                "What leads on the tongue",
                "",
                &[&law::SWEETNESS, &law::MASS, &law::LUEDEKING],
                &[
                    "words.acid_leads_below",
                    "words.balanced_below",
                    "words.sweet_*",
                    "organisms.*.acid_ceiling",
                    "sugars.*.sugars.**",
                ],
            ),
            _ => facts("Sugar left", "g/L", SUGAR, SUGAR_RESTS),
        }
    }

    const fn kitchen_facts(self) -> Facts {
        match self {
            Self::Temperature => facts(
                "Temperature of the pot",
                "°C",
                &[&law::NEWTON],
                &["warmers.*.**", "vessels.*.air_h", "ways.**"],
            ),
            Self::ChillTime => facts(
                "Time to chill",
                "h",
                &[&law::TIME_TO],
                &["vessels.*.fridge_h", "ways.volume_exponent", "ways.**"],
            ),
            Self::Dose(_) => facts(
                "Culture to weigh",
                "g",
                &[&law::DOSE],
                &["cultures.*.grams_per_litre", "cultures.*.doses.*.cfu_per_g"],
            ),
            Self::CreamShare(_) => facts(
                "Share of cream",
                "%",
                &[&law::CREAM],
                &["coconut.reference_fat", "bases.*.composition.fat", "coconut.**"],
            ),
            _ => facts(
                "Ready window",
                "h",
                &[&law::READY, &law::CHARGE_BALANCE, &law::LUEDEKING, &law::TANG],
                &[
                    "ready.release_ph",
                    "ready.release_ph_strict",
                    "bases.*.mean_buffer",
                    "organisms.*.growth_rate",
                    "organisms.*.acid_per_cell",
                    "cultures.*.doses.*.cfu_per_g",
                    "words.**",
                    "ready.**",
                ],
            ),
        }
    }

    const fn texture_facts(self) -> Facts {
        match self {
            Self::ViscosityPot => facts("Viscosity in the pot", "Pa·s", TEXTURE, TEXTURE_RESTS),
            Self::ViscosityChilled => facts("Viscosity, chilled", "Pa·s", TEXTURE, TEXTURE_RESTS),
            Self::Stiffness => facts("Stiffness, chilled", "Pa", TEXTURE, TEXTURE_RESTS),
            Self::Yield => facts("Yield stress, chilled", "Pa", TEXTURE, TEXTURE_RESTS),
            Self::Thickness => facts(
                "Thickness",
                "of 100",
                &[&law::THICKNESS, &law::FLOW],
                &["flow.**", "gel.**", "thickeners.*.action.**", "fat.**"],
            ),
            Self::LineSpread => facts(
                "Line spread",
                "cm",
                &[&law::LINE_SPREAD, &law::FLOW],
                &["flow.**", "gel.**", "thickeners.*.action.**", "fat.**"],
            ),
            Self::Slump => facts(
                "Slump",
                "cm",
                &[&law::SLUMP, &law::FLOW],
                &["flow.yield_share", "gel.**", "thickeners.*.action.**", "fat.**"],
            ),
            Self::WheyStanding => facts("Whey standing on top", "%", WHEY, WHEY_RESTS),
            Self::WheyCut => facts("Whey when cut", "%", WHEY, WHEY_RESTS),
            Self::ThinLayer => facts(
                "Thin layer at the bottom",
                "%",
                &[&law::STOKES, &law::CLEARING, &law::CLUSTERS],
                &["bases.*.droplet_um", "separation.**", "fat.cluster*", "thickeners.*.action.**"],
            ),
            _ => facts(
                "Texture, chilled",
                "",
                TEXTURE,
                &[
                    "words.pours_below",
                    "words.ribbons_below",
                    "words.dollops_below",
                    "words.cuts_above_pa",
                    "gel.heated_pa",
                    "gel.soy_pa",
                    "gel.pea_pa",
                    "thickeners.*.action.**",
                    "fat.network_home",
                    "fat.network_pa",
                    "flow.**",
                    "fat.**",
                    "gel.**",
                    "starch.**",
                    "solid_fat.**",
                    "whey.**",
                    "bases.*.composition.protein",
                    "bases.*.composition.fat",
                ],
            ),
        }
    }
}
