//! What pots can teach, by the names of what varies; and what they taught, put into a question.
//!
//! **Learnt figures.** [`subject`] says which of a pot's unknowns pots can teach, and under which name it is kept: one name
//! stands for the same thing in every pot (a culture's pace, a base's start pH), whatever else is in it. [`placed`] moves the
//! figures of a question to the places that were learnt, before it is compiled; the possible pots
//! (`doubt::spread::sampler`) move their places by the same names.

use std::collections::HashMap;
use std::sync::{Arc, LazyLock};

use super::place::Place;
use super::scenario::Scenario;
use super::{Compiled, compile_drawn, params};
use potset_base::{Cited, Source, SourceKind, Spread, choices, number};
use potset_doc::kitchen::MeasuredWarmer;
use potset_doc::measured;
use potset_doc::pantry::{Base, BaseKind, Warming};
use potset_doc::{Design, Kitchen, Learnt, Pantry};
use potset_science::params::{Laws, Params};

choices! {
    /// What pots can teach, in words that are part of a sentence.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
    pub enum LearntKind: words {
        Pace => "the pace of the culture",
        BasePace => "the pace in this base",
        Cells => "the number of living cells",
        Lag => "the time before it starts",
        Ceiling => "the sourness at which it stops",
        StartPh => "the pH of the base",
        Buffer => "the acid that the base takes up",
        Warmth => "what the warmer really reaches",
        Strength => "the strength of the thickener",
        Body => "the thickness with this base",
        Strain => "how the kinds of the culture behave",
        Law => "the laws of the model",
        Hand => "the hand of the maker",
    }
}

impl LearntKind {
    /// Whether it is anew in each pot, so that nothing of it is kept.
    pub const fn of_the_pot(self) -> bool {
        matches!(self, Self::Hand)
    }

    /// Whether a person is told of it by itself: the rest moves along with what is told.
    pub const fn told(self) -> bool {
        !matches!(self, Self::Strain | Self::Law | Self::Hand)
    }
}

/// What pots can teach about one thing.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Subject {
    pub kind: LearntKind,
    /// The name that it is kept under.
    pub name: String,
    /// Key of the entry that it is about.
    pub of: String,
}

/// The name of what a warmer is off by of which the pantry does not tell it.
fn warmer_name(key: &str) -> String {
    format!("warmer {key}")
}

/// The name of how thick pots of a base come out against the forecast.
fn body_name(base: &str) -> String {
    format!("body with {base}")
}

/// Kinds of plant base with the law of their pace.
const PACES: [(BaseKind, &str); 6] = [
    (BaseKind::Coconut, "coconut"),
    (BaseKind::Soy, "soy"),
    (BaseKind::Oat, "oat"),
    (BaseKind::Nut, "nut"),
    (BaseKind::Pea, "pea"),
    (BaseKind::Rice, "rice"),
];

fn pace_name(kind: &str) -> String {
    format!("pace in {kind}")
}

/// The base that a pot has most of.
pub fn main_base<'a>(design: &'a Design, pantry: &'a Pantry) -> Option<&'a Base> {
    let most = design.bases.iter().max_by(|a, b| a.litres.total_cmp(&b.litres))?;
    design.entry::<Base>(pantry, &most.entry)
}

/// What pots can teach about an unknown of a design, by the unknown's name.
pub fn subject(unknown: &str, design: &Design, pantry: &Pantry) -> Subject {
    let named = |kind, name: String, of: &str| Subject { kind, name, of: of.to_owned() };
    let is = |kind, of: &str| named(kind, unknown.to_owned(), of);
    let base = || main_base(design, pantry);
    let key = |base: &Base| base.key.clone();
    match unknown {
        "group pace" => {
            let law = base().and_then(|base| PACES.iter().find(|(kind, _)| *kind == base.kind));
            return law.map_or_else(
                || is(LearntKind::Law, ""),
                |(_, law)| named(LearntKind::BasePace, pace_name(law), &base().map(key).unwrap_or_default()),
            );
        }
        "left out" => {
            let of = base().map(key).unwrap_or_default();
            return named(LearntKind::Body, body_name(&of), &of);
        }
        "thermometer" | "room" | "warmth" | "dry_loss" => return is(LearntKind::Hand, ""),
        _ => {}
    }
    if let Some(warmer) = unknown.strip_prefix("warmer ") {
        return is(LearntKind::Warmth, warmer);
    }
    if let Some(group) = unknown.strip_prefix("group ") {
        return match (group.strip_suffix(" end"), group.strip_suffix(" dose")) {
            (Some(organism), _) => is(LearntKind::Ceiling, organism),
            (_, Some(culture)) => is(LearntKind::Cells, culture),
            _ => is(LearntKind::Law, ""),
        };
    }
    let mut steps = unknown.split('.');
    let (Some(shelf), Some(of), Some(field)) = (steps.next(), steps.next(), steps.next_back()) else {
        // What a hand does has a name of words, and a law one of two parts.
        return is(if unknown.contains(' ') { LearntKind::Hand } else { LearntKind::Law }, "");
    };
    let starchy = || {
        let entry = design.entry::<potset_doc::pantry::Thickener>(pantry, of);
        entry.is_some_and(|entry| entry.action.starchy())
    };
    let kind = match (shelf, field) {
        ("cultures", "speed_dairy" | "speed_plant") => LearntKind::Pace,
        ("cultures", "lag_work") => LearntKind::Lag,
        ("cultures", "cfu_per_g") => LearntKind::Cells,
        ("organisms", "acid_ceiling") => LearntKind::Ceiling,
        ("organisms" | "cultures", _) => LearntKind::Strain,
        ("bases", "ph") => LearntKind::StartPh,
        ("bases", "mean_buffer") => LearntKind::Buffer,
        ("bases", "pace") => LearntKind::BasePace,
        ("warmers", "offset_c" | "cooling_h") => LearntKind::Warmth,
        // Of a starch its swelling tells more than its consistency, and two words for one strength would only confuse.
        ("thickeners", "consistency") if starchy() => LearntKind::Law,
        ("thickeners", "swelling" | "consistency" | "stiffness_pa" | "per_g_l") => LearntKind::Strength,
        ("solid_fat", _) => LearntKind::Hand,
        _ => LearntKind::Law,
    };
    is(kind, of)
}

/// Warmers of a design whose offset is no figure of their entry: warm places, and warmers that the kitchen measured.
pub fn open_warmers(design: &Design, kitchen: &Kitchen) -> Vec<String> {
    let open = |warmer: &&potset_doc::pantry::Warmer| match warmer.warming {
        Warming::Heated { .. } => kitchen.offset_c(&warmer.key).is_some(),
        Warming::Place { .. } => true,
        Warming::Insulated { .. } => false,
    };
    design.snapshot.warmers.iter().filter(open).map(|warmer| warmer_name(&warmer.key)).collect()
}

/// Moves a warmer of the kitchen by so many °C.
pub fn shift_warmer(kitchen: &mut Kitchen, name: &str, by_c: f64) {
    let Some(key) = name.strip_prefix("warmer ") else { return };
    match kitchen.warmers.iter_mut().find(|w| w.key == key) {
        Some(warmer) => warmer.offset_c += by_c,
        None => kitchen.warmers.push(MeasuredWarmer {
            key: key.to_owned(),
            offset_c: by_c,
            checked: String::new(),
        }),
    }
}

/// A question with what pots taught in its figures.
#[derive(Clone, Debug)]
pub struct Placed {
    design: Design,
    kitchen: Kitchen,
    laws: Arc<Laws>,
    /// Factor on the texture.
    body: f64,
}

impl Placed {
    /// Compiles it.
    pub fn compile(&self, pantry: &Pantry) -> Compiled {
        let scenario =
            Scenario { design: &self.design, pantry, kitchen: &self.kitchen, learnt: &Learnt::default() };
        let mut compiled = compile_drawn(&scenario, &self.laws);
        if let Some(mix) = &mut compiled.mix {
            mix.texture.left_out *= self.body;
        }
        compiled
    }
}

/// The figures of the laws by their paths, in their order.
static LAWS: LazyLock<Vec<(String, &'static Cited)>> =
    LazyLock::new(|| params::shipped().map_or_else(|_| Vec::new(), Params::list));

/// What was learnt, by the path or the group of the figure that it moves: a forecast looks at each of some hundreds of figures.
struct Moves<'a> {
    paths: HashMap<&'a str, f64>,
    groups: HashMap<&'a str, f64>,
}

impl<'a> Moves<'a> {
    fn of(learnt: &'a Learnt) -> Self {
        let mut all = Self { paths: HashMap::new(), groups: HashMap::new() };
        for figure in &learnt.figures {
            match figure.of.strip_prefix("group ") {
                Some(group) => all.groups.insert(group, figure.place),
                None => all.paths.insert(figure.of.as_str(), figure.place),
            };
        }
        all
    }

    /// The value of a figure at its place; nothing where none was learnt.
    fn value(&self, path: &str, cited: &Cited) -> Option<f64> {
        let place =
            if cited.group.is_empty() { self.paths.get(path) } else { self.groups.get(cited.group.as_str()) };
        place.map(|z| Place::at(*z).value(cited.value, cited.spread))
    }
}

/// Puts what pots taught into the figures of a question; nothing where none of it is about this design.
pub fn placed(scenario: &Scenario<'_>, laws: &Arc<Laws>) -> Option<Placed> {
    let learnt = scenario.learnt;
    if learnt.is_empty() {
        return None;
    }
    let params = params::shipped().ok()?;
    let mut design = scenario.design.clone();
    design.refresh_snapshot(scenario.pantry);
    let mut placed = Placed {
        kitchen: scenario.kitchen.clone(),
        laws: Arc::clone(laws),
        body: 1.0,
        design: Design::clone(&design),
    };
    let moves = Moves::of(learnt);
    let mut used = false;
    placed.design.snapshot.each_figure(&mut |path, cited| {
        if let Some(v) = moves.value(path, cited).filter(|_| !measured::stands_for(&design, path)) {
            cited.value = v;
            used = true;
        }
    });
    let in_laws: Vec<Option<f64>> = LAWS.iter().map(|(path, cited)| moves.value(path, cited)).collect();
    if in_laws.iter().any(Option::is_some) {
        used = true;
        let mut values = in_laws.iter();
        let moved = Arc::make_mut(&mut placed.laws);
        moved.each(&mut |v| *v = values.next().copied().flatten().unwrap_or(*v));
        moved.link(laws);
    }
    for name in open_warmers(&design, scenario.kitchen) {
        if let Some((_, figure)) = learnt.find(&name) {
            let off = &params.learning.warmer_off_c;
            shift_warmer(&mut placed.kitchen, &name, Place::at(figure.place).value(off.value, off.spread));
            used = true;
        }
    }
    if let Some(base) = main_base(&design, scenario.pantry) {
        if let Some((_, figure)) = learnt.find(&body_name(&base.key)) {
            let body = &params.learning.body;
            placed.body = Place::at(figure.place).value(body.value, body.spread);
            used = true;
        }
        used |= pace(&mut placed.laws, learnt, base.kind);
    }
    used.then_some(placed)
}

/// Moves the pace in a kind of plant base; false where nothing was learnt about it.
fn pace(laws: &mut Arc<Laws>, learnt: &Learnt, kind: BaseKind) -> bool {
    let found = PACES.iter().find(|(of, _)| *of == kind);
    let learnt_pace = found.and_then(|(_, law)| Some((*law, learnt.find(&pace_name(law))?.1)));
    let Some((law, figure)) = learnt_pace else { return false };
    let path = format!("paces.{law}");
    let Some(at) = LAWS.iter().position(|(name, _)| *name == path) else { return false };
    let cited = LAWS[at].1;
    let mut next = 0;
    Arc::make_mut(laws).each(&mut |v| {
        if next == at {
            *v = Place::at(figure.place).value(cited.value, cited.spread);
        }
        next += 1;
    });
    true
}

/// The figure that a subject is about; of several that move together the first.
pub fn figure(subject: &Subject, design: &Design, pantry: &Pantry) -> Option<Cited> {
    let params = params::shipped().ok()?;
    if subject.kind == LearntKind::Body {
        return Some(params.learning.body.clone());
    }
    if subject.name.starts_with("warmer ") {
        return Some(params.learning.warmer_off_c.clone());
    }
    if let Some(kind) = subject.name.strip_prefix("pace in ") {
        let path = format!("paces.{kind}");
        return params.list().into_iter().find(|(name, _)| *name == path).map(|(_, cited)| cited.clone());
    }
    let mut design = design.clone();
    design.refresh_snapshot(pantry);
    let group = subject.name.strip_prefix("group ");
    let is = |path: &str, cited: &Cited| match group {
        Some(group) => cited.group == group,
        None => path == subject.name,
    };
    design.snapshot.figures().into_iter().find(|(path, cited)| is(path, cited)).map(|(_, cited)| cited)
}

/// The figures of a design that pots moved, as cited figures of the maker's own: by path, those of the entries alone.
///
/// - `design` — with a snapshot that holds all that it uses.
pub fn learnt_figures(design: &Design, learnt: &Learnt) -> Vec<(String, Cited)> {
    if learnt.is_empty() {
        return Vec::new();
    }
    let moved = |(path, cited): (String, Cited)| {
        let name = if cited.group.is_empty() { path.clone() } else { format!("group {}", cited.group) };
        let (_, figure) = learnt.find(&name).filter(|_| !measured::stands_for(design, &path))?;
        let at = |z: f64| Place::at(z).value(cited.value, cited.spread);
        let doubt = Z95 * figure.doubt();
        let (low, high) = (at(figure.place - doubt), at(figure.place + doubt));
        let pots = if figure.pots == 1 { "pot" } else { "pots" };
        let text =
            format!("learnt from {} {pots}; the pantry has {}", figure.pots, number::plain(cited.value));
        let spread = match cited.spread {
            Spread::LogNormal(..) => Spread::LogNormal(low, high),
            _ => Spread::Normal(low, high),
        };
        let own = Source { kind: SourceKind::Own, text };
        Some((path, Cited { value: at(figure.place), spread, from: own, ..cited }))
    };
    design.snapshot.figures().into_iter().filter_map(moved).collect()
}

/// Deviate of the 95 % bound.
const Z95: f64 = 1.644_853_627;
