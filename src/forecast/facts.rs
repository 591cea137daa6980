//! Facts about a compiled design that the verdict and the screen show beside the forecast.

use super::blend::{Blend, Part};
use super::cultures::{self, Dose};
use super::lookup::Lookup;
use super::timeline::{StepTime, Timeline};
use potset_base::number;
use potset_base::words::ACID_LINE_PH;
use potset_doc::pantry::{BaseKind, Sterility, Thickener};
use potset_science::Mix;
use potset_science::params::CoconutLaw;
use potset_science::texture::inputs::Activated;
use potset_science::thermal::course::time_to;

/// A coconut base against the reference: share of cream, and its Codex class.
#[derive(Clone, Debug, PartialEq)]
pub struct CreamShare {
    pub line: usize,
    pub share: f64,
    /// Class by total solids.
    pub class: &'static str,
    /// Which limits of that class it misses; empty if none.
    pub misses: String,
}

impl CreamShare {
    /// What usual cream and water would have its fat.
    pub fn words(&self) -> String {
        cream_words(self.share)
    }

    /// For a narrow place, never above 100 %.
    pub fn percent(&self) -> String {
        format!("{} %", number::fixed(self.share.min(1.0) * 100.0, 0))
    }
}

/// How one thickener line stands when the culture goes in.
#[derive(Clone, Debug, PartialEq)]
pub struct ThickenerState {
    pub key: String,
    pub name: String,
    pub state: Activated,
}

/// What is known before the forecast.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Facts {
    pub litres: f64,
    pub kg: f64,
    pub steps: Vec<StepTime>,
    pub culture_in_c: f64,
    /// Time from the end of the hold to the chill's target, h.
    pub chill_h: f64,
    pub doses: Vec<Dose>,
    /// Decades of living cells that age has cost, by culture line.
    pub lost: Vec<f64>,
    /// Where each culture line was kept if it is dry, °C.
    pub kept_c: Vec<f64>,
    /// Share that runs off as whey when the pot is strained, and share of the finished pot stirred in after the hold.
    pub strained: f64,
    pub stirred_in: f64,
    /// Carbon dioxide that chalk can give off, mmol/kg.
    pub gas: f64,
    /// Amounts of inhibitors: mass units per kg of mix; salt in g/kg.
    pub inhibitors: [f64; 7],
    pub cream: Vec<CreamShare>,
    /// A line of water beside coconut, and the cream share of both together.
    pub watered: Option<(usize, f64)>,
    pub thickeners: Vec<ThickenerState>,
    /// Sugar that an organism of the pot eats, g/kg; and all sugar.
    pub edible_g_kg: f64,
    pub own_sugar_g_kg: f64,
    pub dairy: f64,
    pub coconut: bool,
    pub starchy: bool,
    /// A starch stands in the design with none of it in the pot.
    pub starch_at_nought: bool,
    /// A base of rice; a base that comes raw.
    pub rice: bool,
    pub raw_base: bool,
    pub ph0: f64,
    pub mean_buffer: f64,
    /// Mean buffer, mmol/(kg pH), and pH of each base line as it goes in.
    pub base_buffers: Vec<(f64, f64)>,
    /// Titratable acidity where the pot stands at pH 4.6, % lactic acid.
    pub acidity_at_line: f64,
    pub hygiene: super::hygiene::HygieneFacts,
    /// What it is made of, for the table of nutrition and the cost.
    pub content: super::content::Content,
}

impl Facts {
    /// What is done to the pot after the hold, in words; empty if nothing.
    pub fn finished(&self) -> &'static str {
        match (self.strained > 0.0, self.stirred_in > 0.0) {
            (true, true) => "strained, all stirred in",
            (true, false) => "strained",
            (false, true) => "all stirred in",
            (false, false) => "",
        }
    }
}

/// Collects the facts.
pub fn facts(
    look: &Lookup<'_>,
    blend: &Blend<'_>,
    timeline: Timeline,
    mix: &Mix,
    (doses, lost): (Vec<Dose>, Vec<f64>),
) -> Facts {
    let chill = &timeline.chill;
    let stop_c = timeline.hold.at(timeline.stop_h);
    let cream = blend
        .parts
        .iter()
        .enumerate()
        .filter(|(_, p)| p.entry.kind == BaseKind::Coconut)
        .map(|(line, p)| {
            let law = &look.laws.coconut;
            let extract = look.design.bases.get(line).and_then(|b| b.label.extract);
            let share = cream_share(p.make.fat * 100.0, extract, law);
            let m = &p.make;
            let other = (m.protein + m.carbohydrate + m.fibre + m.ash) * 100.0;
            let (class, misses) = codex_class(m.fat * 100.0, other, law);
            CreamShare { line, share, class, misses }
        })
        .collect();
    let starches = || {
        let starch = |key: &str| look.entry::<Thickener>(key).is_ok_and(|e| e.action.starchy());
        look.design.thickeners.iter().filter(move |t| starch(&t.entry))
    };
    let starchy = starches().any(|t| t.g_per_l > 0.0);
    Facts {
        litres: look.design.litres(),
        kg: blend.kg,
        culture_in_c: timeline.culture_in_c,
        chill_h: time_to(stop_c, chill.to_c, chill.around_c, chill.tau_h).unwrap_or(f64::NAN),
        doses,
        lost,
        kept_c: look
            .design
            .cultures
            .iter()
            .map(|c| c.kept_c.unwrap_or(look.laws.ageing.dry_kept_c))
            .collect(),
        strained: mix.after.strained,
        stirred_in: mix.after.stirred_in,
        gas: 0.5 * mix.gassing.iter().map(|s| s.amount).sum::<f64>(),
        inhibitors: blend.additions.inhibitors,
        cream,
        watered: watered(look, blend),
        thickeners: mix
            .texture
            .agents
            .iter()
            .map(|a| ThickenerState { key: a.key.clone(), name: a.name.clone(), state: a.before })
            .collect(),
        edible_g_kg: cultures::edible_g_kg(&mix.organisms, &mix.sugars),
        own_sugar_g_kg: blend.own_sugar_g_kg,
        dairy: blend.dairy,
        coconut: blend.parts.iter().any(|p| p.entry.kind == BaseKind::Coconut),
        starchy,
        starch_at_nought: !starchy && starches().next().is_some(),
        rice: blend.parts.iter().any(|p| p.entry.kind == BaseKind::Rice),
        raw_base: blend.parts.iter().any(|p| p.entry.sterility == Sterility::Fresh),
        ph0: mix.balance.ph0,
        base_buffers: blend.parts.iter().map(|p| (p.make.buffer, p.ph)).collect(),
        acidity_at_line: mix.acidity_at(ACID_LINE_PH),
        mean_buffer: potset_science::acid_base::sites::mean_buffer(&mix.balance.sites),
        steps: timeline.steps,
        hygiene: super::hygiene::HygieneFacts::default(),
        content: super::content::Content::default(),
    }
}

/// The first line of water in a coconut pot, and the cream share of coconut and water together.
fn watered(look: &Lookup<'_>, blend: &Blend<'_>) -> Option<(usize, f64)> {
    let water = blend.parts.iter().position(|p| p.entry.kind == BaseKind::Water)?;
    let of = |p: &&Part<'_>| matches!(p.entry.kind, BaseKind::Coconut | BaseKind::Water);
    let kg: f64 = blend.parts.iter().filter(of).map(|p| p.kg).sum();
    let fat: f64 = blend.parts.iter().filter(of).map(|p| p.kg * p.make.fat).sum();
    let coconut = blend.parts.iter().any(|p| p.entry.kind == BaseKind::Coconut);
    (coconut && kg > 0.0).then(|| (water, fat / kg * 100.0 / look.laws.coconut.reference_fat))
}

/// A class of coconut products with its limits, g/100 g.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CodexClass {
    pub name: &'static str,
    pub least_solids: f64,
    /// Total solids at which the next class begins.
    pub next_solids: Option<f64>,
    pub least_fat: f64,
    pub least_other: f64,
}

/// All classes, the lightest first.
/// Source: published, Codex CXS 240-2003 section 3.1.3.
pub fn codex_classes(law: &CoconutLaw) -> [CodexClass; 4] {
    let rows = [
        ("light coconut milk", law.light_solids, law.light_fat, law.light_other),
        ("coconut milk", law.milk_solids, law.milk_fat, law.milk_other),
        ("coconut cream", law.cream_solids, law.cream_fat, law.cream_other),
        ("coconut cream concentrate", law.concentrate_solids, law.concentrate_fat, law.concentrate_other),
    ];
    std::array::from_fn(|at| {
        let (name, least_solids, least_fat, least_other) = rows[at];
        let next_solids = rows.get(at + 1).map(|row| row.1);
        CodexClass { name, least_solids, next_solids, least_fat, least_other }
    })
}

/// The class by total solids; `None` below all classes.
pub fn class_by_solids(solids: f64, law: &CoconutLaw) -> Option<CodexClass> {
    codex_classes(law).into_iter().rfind(|class| solids >= class.least_solids)
}

/// Class of a coconut product, and which limit of the class it misses, if any. Shares in g/100 g.
///
/// The class goes by total solids; fat and non-fat solids are then tested on their own.
/// Source: published, Codex CXS 240-2003 section 3.1.3.
pub fn codex_class(fat: f64, other: f64, law: &CoconutLaw) -> (&'static str, String) {
    let Some(class) = class_by_solids(fat + other, law) else { return ("below the classes", String::new()) };
    let mut misses = Vec::new();
    for (what, has, least) in [("fat", fat, class.least_fat), ("non-fat solids", other, class.least_other)] {
        if has < least {
            misses.push(format!("{what} {} of {}", number::fixed(has, 1), number::fixed(least, 1)));
        }
    }
    (class.name, misses.join(", "))
}

/// A share of cream in words: what usual cream and water would have this fat.
pub fn cream_words(share: f64) -> String {
    let percent = number::fixed(share * 100.0, 0);
    if share > 1.005 {
        "richer than a usual cream".to_owned()
    } else if share > 0.995 {
        "fat as of usual cream".to_owned()
    } else {
        format!(
            "fat as of {percent} % usual cream and {} % water",
            number::fixed(100.0 - (share * 100.0).round(), 0)
        )
    }
}

/// Share of cream in a coconut base: by its fat against usual undiluted cream, above 1 for a richer one, and no more than its
/// declared extract [%].
pub fn cream_share(fat: f64, extract: Option<f64>, law: &CoconutLaw) -> f64 {
    let by_fat = fat / law.reference_fat;
    extract.map_or(by_fat, |e| by_fat.min(e / 100.0))
}
