//! Laws and numbers that several readings share.

use super::equations::{self as law, Equation};

pub const SOURING: &[&Equation] = &[
    &law::CHARGE_BALANCE,
    &law::SITES,
    &law::ACTIVITY,
    &law::LUEDEKING,
    &law::LAG,
    &law::CARDINAL_T,
    &law::CARDINAL_PH,
    &law::MONOD,
    &law::ACID_STOP,
    &law::HELP,
    &law::INHIBITOR,
    &law::DEATH,
    &law::AGEING,
];

pub const SOURING_RESTS: &[&str] = &[
    "bases.*.mean_buffer",
    "bases.*.ph",
    "organisms.*.acid_ceiling",
    "organisms.*.acid_per_cell",
    "organisms.*.growth_rate",
    "cultures.*.doses.*.cfu_per_g",
    "acids.lactic_pka",
    "cultures.*.lag_work",
    "cultures.*.doses.*.lag_work",
    "cultures.*.speed_plant",
    "cultures.*.speed_dairy",
    "paces.*",
    "bases.*.pace",
    "organisms.**",
    "growth.count_ceiling",
    "bases.*.ionic_strength",
    "buffer_shapes.**",
    "additives.*.groups.**",
    "acids.**",
    "ageing.**",
    "dry_loss.**",
];

pub const CULTURE: &[&Equation] = &[
    &law::LUEDEKING,
    &law::LAG,
    &law::CARDINAL_T,
    &law::CARDINAL_PH,
    &law::MONOD,
    &law::ACID_STOP,
    &law::HELP,
    &law::INHIBITOR,
    &law::DEATH,
    &law::AGEING,
];

pub const COLD: &[&Equation] =
    &[&law::CHARGE_BALANCE, &law::RESTING, &law::NEWTON, &law::SITES, &law::LUEDEKING, &law::ACID_STOP];

pub const COLD_RESTS: &[&str] = &[
    "growth.cold_energy",
    "growth.cold_mild",
    "growth.cold_medium",
    "growth.cold_sharp",
    "vessels.*.fridge_h",
    "organisms.*.acid_per_cell_hour",
    "bases.*.mean_buffer",
    "growth.**",
    "organisms.**",
    "acids.lactic_pka",
];

pub const SUGAR: &[&Equation] = &[&law::MASS, &law::MONOD, &law::LUEDEKING, &law::ACID_STOP, &law::LACTASE];

pub const SUGAR_RESTS: &[&str] = &[
    "sugars.*.sugars.**",
    "bases.*.composition.sugars.**",
    "organisms.*.eats.**",
    "organisms.*.acid_ceiling",
    "organisms.*.lactic_per_hexose",
    "organisms.*.galactose_released",
    "cultures.*.doses.*.galactose_released",
    "organisms.*.half_saturation",
    "bases.*.density",
    "mixing.solids_volume",
    "lactase.**",
    "additives.**",
];

pub const TEXTURE: &[&Equation] = &[
    &law::DAIRY_GEL,
    &law::SOY_GEL,
    &law::PEA_GEL,
    &law::GEL_RISE,
    &law::WHEY_PROTEIN,
    &law::FLOW,
    &law::PASTE,
    &law::PACKING,
    &law::LOOSE,
    &law::COOKING,
    &law::AGENT,
    &law::GUM,
    &law::FAT_NETWORK,
    &law::EMULSION,
    &law::STRAINING,
    &law::POWER_LAW,
    &law::FIRMNESS,
];

pub const TEXTURE_RESTS: &[&str] = &[
    "gel.**",
    "thickeners.*.action.**",
    "flow.**",
    "fat.**",
    "solid_fat.**",
    "starch.**",
    "whey.**",
    "thickeners.**",
    "bases.*.composition.protein",
    "bases.*.composition.fat",
    "bases.*.whey_denatured",
    "bases.*.gel_strength",
    "strain.**",
];

pub const WHEY: &[&Equation] =
    &[&law::WHEY, &law::GEL_RISE, &law::DAIRY_GEL, &law::PACKING, &law::AGENT, &law::FAT_NETWORK];

pub const WHEY_RESTS: &[&str] = &[
    "wheying.**",
    "thickeners.*.whey_efold",
    "thickeners.*.weeps_per_day",
    "bases.*.composition.protein",
    "bases.*.composition.fat",
    "gel.**",
    "thickeners.*.action.**",
    "fat.network_home",
    "solid_fat.**",
];
