//! Every kind of value that the screen shows: its name, its unit, the laws behind it and the numbers that it rests on.

use std::mem::discriminant;

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
#[derive(Clone, Copy)]
pub struct Facts {
    pub name: &'static str,
    pub unit: &'static str,
    pub laws: &'static [&'static Equation],
    /// Keys of the numbers it rests on, the most telling first: `*` stands for one step of a path, `**` for all the rest.
    pub rests: &'static [&'static str],
}

const fn row(
    of: Reading,
    name: &'static str,
    unit: &'static str,
    laws: &'static [&'static Equation],
    rests: &'static [&'static str],
) -> (Reading, Facts) {
    (of, Facts { name, unit, laws, rests })
}

impl Reading {
    /// Those that a verdict can show, without the ones by place.
    pub const PLAIN: [Self; 30] = {
        let mut all = [Self::Ph; 30];
        let mut at = 0;
        while at < all.len() {
            all[at] = TABLE[at].0;
            at += 1;
        }
        all
    };

    /// All that an answer may have, those by place too.
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
    pub fn facts(self) -> Facts {
        let same = |row: &&(Self, Facts)| discriminant(&row.0) == discriminant(&self);
        let facts = TABLE.iter().find(same).unwrap_or(&TABLE[0]).1;
        if let Self::SugarOf(sugar) = self { Facts { name: sugar.name(), ..facts } } else { facts }
    }
}

/// A row a reading: those of [`Reading::PLAIN`] in their order, then those by place, each with the first.
const TABLE: [(Reading, Facts); 35] = [
    row(Reading::Ph, "pH", "", SOURING, SOURING_RESTS),
    row(Reading::PhChilled, "pH after the chill", "", COLD, COLD_RESTS),
    row(
        Reading::PhCooled,
        "pH read in a sample at 20 °C",
        "",
        &[&law::ELECTRODE, &law::CHARGE_BALANCE],
        &["acids.electrode_per_c", "bases.*.mean_buffer", "acids.lactic_pka"],
    ),
    row(Reading::TimeToLine, "Time to pH 4.6", "h", SOURING, SOURING_RESTS),
    row(
        Reading::TangWord,
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
    row(Reading::AcidMade, "Acid made", "% as lactic acid", CULTURE, SOURING_RESTS),
    row(
        Reading::Titratable,
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
    row(Reading::Undissociated, "Undissociated lactic acid", "mmol/kg", SOURING, SOURING_RESTS),
    row(
        Reading::StartPh,
        "pH before any souring",
        "",
        &[&law::CHARGE_BALANCE, &law::SITES],
        &["bases.*.ph", "bases.*.mean_buffer", "additives.*.groups.**", "buffer_shapes.**"],
    ),
    row(
        Reading::Buffer,
        "Buffer of the mix, pH 6.5 to 4.3",
        "mmol/kg per pH",
        &[&law::SITES],
        &["bases.*.mean_buffer", "thickeners.*.action.buffer", "buffer_shapes.**"],
    ),
    row(Reading::SugarLeft, "Sugar left", "g/L", SUGAR, SUGAR_RESTS),
    row(Reading::SugarEaten, "Sugar eaten", "g/L", SUGAR, SUGAR_RESTS),
    row(
        Reading::SugarAdded,
        "Sugar added for the culture",
        "g/L",
        &[&law::MASS],
        &["sugars.*.sugars.**", "sugars.*.water", "mixing.solids_volume"],
    ),
    row(
        Reading::SugarOwn,
        "Sugar that came with the base",
        "g/L",
        &[&law::MASS],
        &["bases.*.composition.sugars.**", "bases.*.density", "lactase.**"],
    ),
    row(
        Reading::Sweetness,
        "Sweetness",
        "g sucrose per kg",
        &[&law::SWEETNESS, &law::MASS],
        &["words.sweet_*", "sugars.*.sugars.**", "bases.*.composition.sugars.**"],
    ),
    row(
        Reading::SweetWord,
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
    row(
        Reading::TextureWord,
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
    row(Reading::ViscosityChilled, "Viscosity, chilled", "Pa·s", TEXTURE, TEXTURE_RESTS),
    row(Reading::ViscosityPot, "Viscosity in the pot", "Pa·s", TEXTURE, TEXTURE_RESTS),
    row(Reading::Stiffness, "Stiffness, chilled", "Pa", TEXTURE, TEXTURE_RESTS),
    row(Reading::Yield, "Yield stress, chilled", "Pa", TEXTURE, TEXTURE_RESTS),
    row(
        Reading::Thickness,
        "Thickness",
        "of 100",
        &[&law::THICKNESS, &law::FLOW],
        &["flow.**", "gel.**", "thickeners.*.action.**", "fat.**"],
    ),
    row(
        Reading::LineSpread,
        "Line spread",
        "cm",
        &[&law::LINE_SPREAD, &law::FLOW],
        &["flow.**", "gel.**", "thickeners.*.action.**", "fat.**"],
    ),
    row(
        Reading::Slump,
        "Slump",
        "cm",
        &[&law::SLUMP, &law::FLOW],
        &["flow.yield_share", "gel.**", "thickeners.*.action.**", "fat.**"],
    ),
    row(Reading::WheyStanding, "Whey standing on top", "%", WHEY, WHEY_RESTS),
    row(Reading::WheyCut, "Whey when cut", "%", WHEY, WHEY_RESTS),
    row(
        Reading::ThinLayer,
        "Thin layer at the bottom",
        "%",
        &[&law::STOKES, &law::CLEARING, &law::CLUSTERS],
        &["bases.*.droplet_um", "separation.**", "fat.cluster*", "thickeners.*.action.**"],
    ),
    row(
        Reading::Ready,
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
    row(
        Reading::Temperature,
        "Temperature of the pot",
        "°C",
        &[&law::NEWTON],
        &["warmers.*.**", "vessels.*.air_h", "ways.**"],
    ),
    row(
        Reading::ChillTime,
        "Time to chill",
        "h",
        &[&law::TIME_TO],
        &["vessels.*.fridge_h", "ways.volume_exponent", "ways.**"],
    ),
    row(Reading::Kept(0), "pH kept in the cold", "", COLD, COLD_RESTS),
    row(
        Reading::Count(0),
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
    row(Reading::SugarOf(Sugar::Lactose), "Sugar", "g/L", SUGAR, SUGAR_RESTS),
    row(
        Reading::Dose(0),
        "Culture to weigh",
        "g",
        &[&law::DOSE],
        &["cultures.*.grams_per_litre", "cultures.*.doses.*.cfu_per_g"],
    ),
    row(
        Reading::CreamShare(0),
        "Share of cream",
        "%",
        &[&law::CREAM],
        &["coconut.reference_fat", "bases.*.composition.fat", "coconut.**"],
    ),
];
