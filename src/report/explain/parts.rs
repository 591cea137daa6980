//! What a value is made of, by name.

use potset_base::measures::whole::volume;
use potset_base::number::{NBSP, figures, fixed, hours, plain, with_unit};
use potset_base::units::said::{warmth, warmth_plain};
use potset_base::words::ACID_LINE_PH;
use potset_base::{Sugar, constants};
use potset_doc::{Design, pantry};
use potset_explain::Reading;
use potset_explain::laboratory::{Flow, scales};
use potset_judge::answer::Answer;
use potset_science::forecast::{Forecast, Part as Load};
use potset_science::texture::Texture;

/// One contribution.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    pub name: String,
    /// The amount in words.
    pub value: String,
    /// Length of its bar: in one unit for all parts of a value, not a number where a bar would say nothing.
    pub amount: f64,
}

impl Part {
    fn new(name: impl Into<String>, amount: f64, value: String) -> Self {
        Self { name: name.into(), value, amount }
    }

    /// An amount that its bar is as long as.
    fn of(name: impl Into<String>, amount: f64, decimals: usize, unit: &str) -> Self {
        Self::new(name, amount, with_unit(amount, decimals, unit))
    }

    fn said(name: impl Into<String>, value: String) -> Self {
        Self::new(name, f64::NAN, value)
    }
}

/// Sugars below this are not told, g/L.
const LEAST_SUGAR: f64 = 0.05;

/// "72 °D, 32 °SH, 80 °Th" of a titratable acidity in % as lactic acid.
pub fn degrees(percent: f64) -> String {
    let units = ["°D", "°SH", "°Th"].into_iter();
    scales(percent)
        .into_iter()
        .zip(units)
        .map(|(v, unit)| with_unit(v, 0, unit))
        .collect::<Vec<_>>()
        .join(", ")
}

/// The parts of a reading.
pub fn parts(reading: Reading, answer: &Answer, t_h: f64, design: &Design) -> Vec<Part> {
    let f = &answer.forecast;
    let stop_h = answer.verdict.stop_h;
    match reading {
        Reading::Ph | Reading::PhCooled => acid_and_buffer(answer, t_h),
        Reading::PhChilled | Reading::Kept(_) => after_the_stop(answer),
        Reading::StartPh | Reading::Buffer => buffers(answer, design),
        Reading::AcidMade | Reading::TangWord | Reading::Titratable => makers(reading, answer, t_h),
        Reading::TimeToLine => {
            let line = answer.verdict.tang.as_ref().and_then(|t| t.line_h).unwrap_or(stop_h);
            makers(reading, answer, line)
        }
        Reading::Undissociated => dissociation(f, t_h),
        Reading::SugarLeft | Reading::SugarEaten | Reading::SugarAdded | Reading::SugarOwn => {
            sugar_account(answer)
        }
        Reading::SugarOf(sugar) => one_sugar(f, sugar, t_h),
        Reading::Sweetness => tasted(answer),
        Reading::SweetWord => sweet_over_acid(answer),
        Reading::Count(place) => growth(f, place, t_h),
        Reading::ViscosityPot => load(f.textures(t_h).map(|(warm, _)| warm)),
        Reading::WheyStanding | Reading::WheyCut => whey(f, t_h),
        Reading::ThinLayer => thin_layer(f, t_h),
        Reading::Ready => goals(answer),
        Reading::Temperature => around(design),
        Reading::ChillTime => chill(answer, design),
        Reading::Dose(line) => dose(design, line),
        Reading::CreamShare(line) => cream(answer, design, line),
        _ => load(f.textures(t_h).map(|(_, chilled)| chilled)),
    }
}

fn thin_layer(f: &Forecast, t_h: f64) -> Vec<Part> {
    let Some((warm, chilled)) = f.textures(t_h) else { return Vec::new() };
    let most = with_unit(100.0 * chilled.clearing.most, 0, "% of the pot");
    vec![
        Part::of("in the hold", warm.thin_layer, 0, "% of the pot"),
        Part::of("after the chill", chilled.thin_layer, 0, "% of the pot"),
        Part::said("the most that can clear", most),
    ]
}

fn acid_and_buffer(answer: &Answer, t_h: f64) -> Vec<Part> {
    let (f, facts) = (&answer.forecast, &answer.facts);
    let at = |ys: &[f64]| f.value(ys, t_h);
    let acetic = at(&f.acetic);
    let mut out = vec![
        Part::said("before any souring", format!("pH{NBSP}{}", fixed(facts.ph0, 2))),
        Part::of("lactic acid made", at(&f.lactic), 1, "mmol/kg"),
    ];
    if acetic > 0.05 {
        out.push(Part::of("acetic acid made", acetic, 1, "mmol/kg"));
    }
    let buffer = with_unit(facts.mean_buffer, 0, "mmol/kg per pH");
    out.push(Part::of("of it still undissociated", at(&f.undissociated), 1, "mmol/kg"));
    out.push(Part::said("buffer that the rest works against", buffer));
    out.push(Part::said("pH taken down by", fixed(facts.ph0 - at(&f.ph), 2)));
    out
}

fn after_the_stop(answer: &Answer) -> Vec<Part> {
    let mut out = Vec::new();
    let said = |days: &str, ph: f64| Part::said(days, format!("pH{NBSP}{}", fixed(ph, 2)));
    if let Some(tang) = &answer.verdict.tang {
        out.push(said("at the stop", tang.ph));
        out.push(said("after the chill", tang.ph_chilled));
    }
    for day in answer.verdict.keeping.iter().flat_map(|k| &k.days) {
        out.push(said(&format!("after {} days", plain(day.days)), day.ph));
    }
    out
}

fn bases(design: &Design) -> impl Iterator<Item = (&pantry::Base, f64, Option<f64>)> {
    let entry = |line: &str| pantry::find(&design.snapshot.bases, line);
    design.bases.iter().filter_map(move |line| Some((entry(&line.entry)?, line.litres, line.label.fat)))
}

fn buffers(answer: &Answer, design: &Design) -> Vec<Part> {
    let all: f64 = bases(design).map(|(_, litres, _)| litres).sum();
    let lines = design.bases.iter().zip(&answer.facts.base_buffers);
    bases(design)
        .zip(lines)
        .map(|((base, litres, _), (line, (buffer, ph)))| {
            let share = litres / all.max(1e-9);
            let own = |measured: bool| if measured { " (measured)" } else { "" };
            let value = format!(
                "{} {}{}, pH{NBSP}{}{}, {}{NBSP}% of the base",
                fixed(*buffer, 0),
                base.mean_buffer.unit,
                own(line.measured.titration.is_some()),
                fixed(*ph, 2),
                own(line.measured.ph.is_some()),
                fixed(share * 100.0, 0)
            );
            Part::new(base.name.clone(), buffer * share, value)
        })
        .collect()
}

fn makers(reading: Reading, answer: &Answer, t_h: f64) -> Vec<Part> {
    let f = &answer.forecast;
    let percent = constants::LACTIC_G_MOL * 1e-4;
    let told = |mmol: f64| with_unit(mmol * percent, 2, "%");
    let mut out: Vec<Part> = Vec::new();
    for species in &f.species {
        let acid = f.value(&species.acid, t_h);
        out.push(Part::new(species.name.clone(), acid, told(acid)));
    }
    out.sort_by(|a, b| b.amount.total_cmp(&a.amount));
    let before = f.titratable.first().zip(f.acid_made.first()).map_or(0.0, |(all, made)| all - made);
    if reading == Reading::Titratable {
        let amount = before / percent;
        out.push(Part::new("in the base before the culture", amount, told(amount)));
        let all = f.value(&f.titratable, t_h);
        out.push(Part::said("in degrees", degrees(all)));
        let at_line = with_unit(answer.facts.acidity_at_line, 2, "%");
        out.push(Part::said(format!("of this pot at pH{NBSP}{}", plain(ACID_LINE_PH)), at_line));
    }
    out
}

fn dissociation(f: &Forecast, t_h: f64) -> Vec<Part> {
    let (all, whole) = (f.value(&f.lactic, t_h), f.value(&f.undissociated, t_h));
    vec![
        Part::of("undissociated: what tastes sour and stops the culture", whole, 1, "mmol/kg"),
        Part::of("dissociated: what the buffer has taken up", all - whole, 1, "mmol/kg"),
    ]
}

fn sugar_account(answer: &Answer) -> Vec<Part> {
    let Some(s) = &answer.verdict.sugar else { return Vec::new() };
    let g = |v: f64| with_unit(v, 1, "g/L");
    let mut out = vec![
        Part::of("came with the base", s.own, 1, "g/L"),
        Part::of("added for the culture", s.added, 1, "g/L"),
        Part::new("eaten by the culture until the stop", -s.eaten, g(s.eaten)),
        Part::of("left at the stop", s.left, 1, "g/L"),
    ];
    if s.stirred_in > LEAST_SUGAR {
        out.push(Part::of("stirred in after the hold", s.stirred_in, 1, "g/L"));
    }
    for (sugar, left) in Sugar::ALL.into_iter().zip(s.kinds).filter(|(_, left)| *left > LEAST_SUGAR) {
        out.push(Part::said(format!("{} left", sugar.name()), g(left)));
    }
    out
}

fn one_sugar(f: &Forecast, sugar: Sugar, t_h: f64) -> Vec<Part> {
    let at = |t: f64| f.value(&f.sugars[sugar.index()], t) * f.density;
    let (start, now) = (at(0.0), at(t_h));
    let change = if now > start { "set free since" } else { "eaten or split since" };
    vec![
        Part::of("when the culture went in", start, 1, "g/L"),
        Part::of(change, (start - now).abs(), 1, "g/L"),
        Part::of("left", now, 1, "g/L"),
    ]
}

fn tasted(answer: &Answer) -> Vec<Part> {
    let f = &answer.forecast;
    let there = f.sugars_at(answer.verdict.stop_h);
    let left = Sugar::ALL.into_iter().zip(there).filter(|(_, g)| g * f.density > LEAST_SUGAR);
    let mut out: Vec<Part> = left.map(|(sugar, g)| Part::of(sugar.name(), g, 1, "g/kg")).collect();
    let stirred = answer.verdict.sugar.as_ref().map_or(0.0, |s| s.stirred_in / f.density.max(1e-9));
    if stirred > LEAST_SUGAR {
        out.push(Part::of("stirred in after the hold", stirred, 1, "g/kg"));
    }
    out
}

fn sweet_over_acid(answer: &Answer) -> Vec<Part> {
    let Some(tang) = &answer.verdict.tang else { return Vec::new() };
    let (f, stop_h) = (&answer.forecast, answer.verdict.stop_h);
    let (lactic, acetic) = (f.value(&f.lactic, stop_h), f.value(&f.acetic, stop_h));
    let sweet = tang.sucrose_equivalents;
    let acid = (lactic * constants::LACTIC_G_MOL + acetic * constants::ACETIC_G_MOL) * 1e-3;
    vec![
        Part::of("sweetness", sweet, 1, "g sucrose per kg"),
        Part::of("acid made", acid, 1, "g/kg"),
        Part::said(
            "one over the other",
            if acid > 0.0 { fixed(sweet / acid, 1) } else { "no acid".to_owned() },
        ),
    ]
}

fn growth(f: &Forecast, place: usize, t_h: f64) -> Vec<Part> {
    let Some(species) = f.species.get(place) else { return Vec::new() };
    let (start, now) = (f.value(&species.log10, 0.0), f.value(&species.log10, t_h));
    let acid = f.value(&species.acid, t_h);
    let log = |v: f64| with_unit(v, 1, "log cfu/g");
    let change = if now < start { "lost since" } else { "grown since" };
    vec![
        Part::said("when it went in", log(start)),
        Part::said(change, format!("{} tenfold steps", fixed((now - start).abs(), 1))),
        Part::said("acid that it made", with_unit(acid, 1, "mmol/kg")),
    ]
}

fn load(texture: Option<Texture>) -> Vec<Part> {
    let Some(texture) = texture else { return Vec::new() };
    let pascal = |v: f64, unit: &str| format!("{}{NBSP}{unit}", figures(v, 2));
    let total: f64 = texture.parts.iter().sum();
    let carried = Load::ALL.into_iter().zip(texture.parts).filter(|(_, tau)| *tau > 0.0);
    let mut out: Vec<Part> = carried
        .map(|(part, tau)| {
            let share = fixed(100.0 * tau / total, 0);
            Part::new(part.words(), tau, format!("{}{NBSP}Pa, {share}{NBSP}%", figures(tau, 2)))
        })
        .collect();
    out.sort_by(|a, b| b.amount.total_cmp(&a.amount));
    let within = format!("{} to {}", figures(texture.low50, 2), pascal(texture.high50, "Pa·s"));
    out.push(Part::said("viscosity, usually", within));
    out.push(Part::said("yield stress", pascal(texture.yield_pa, "Pa")));
    out.push(Part::said("stiffness", pascal(texture.stiffness_pa, "Pa")));
    let Flow { viscosity10, law, firmness_n } = Flow::of(&texture);
    let force = pascal(firmness_n, "N");
    out.push(Part::said("force on a flat 25 mm cylinder pressed in 2 mm, derived from it", force));
    out.push(Part::said("viscosity at 10 1/s", pascal(viscosity10, "Pa·s")));
    out.push(Part::said("power law through 10 and 50 1/s, K", pascal(law.k, "Pa·s^n")));
    out.push(Part::said("its flow index n", figures(law.n, 2)));
    out
}

fn whey(f: &Forecast, t_h: f64) -> Vec<Part> {
    let whey = f.whey(t_h);
    vec![
        Part::of("a centrifuge would draw", whey.centrifuged, 1, "%"),
        Part::of("runs out a day after cutting", whey.cut, 1, "%"),
        Part::of("stands on top within a week", whey.standing, 1, "%"),
    ]
}

fn goals(answer: &Answer) -> Vec<Part> {
    let v = &answer.verdict;
    let holds = |holds: bool| if holds { "holds" } else { "does not hold" }.to_owned();
    let mut out: Vec<Part> = v.goals.iter().map(|(name, ok)| Part::said(name.clone(), holds(*ok))).collect();
    if let Some(window) = &v.window {
        out.extend(window.opens.iter().map(|goal| Part::said(goal.clone(), "comes last".to_owned())));
        out.extend(window.closes.iter().map(|goal| Part::said(goal.clone(), "is lost first".to_owned())));
    }
    out
}

fn around(design: &Design) -> Vec<Part> {
    let Some(hold) = design.hold() else { return Vec::new() };
    let warmer = pantry::find(&design.snapshot.warmers, &hold.warmer);
    let name = warmer.map_or_else(|| hold.warmer.clone(), |w| w.name.clone());
    let mut out = vec![Part::said(name, format!("set to {}", warmth_plain(hold.set_c)))];
    out.extend(hold.events.iter().map(|e| Part::said(format!("at {}", hours(e.at_h)), e.what.words())));
    if !hold.measured.is_empty() {
        out.push(Part::said("readings that stand in for the warmer", hold.measured.len().to_string()));
    }
    out
}

fn chill(answer: &Answer, design: &Design) -> Vec<Part> {
    let from = answer.forecast.value(&answer.forecast.temperature, answer.verdict.stop_h);
    let mut out = vec![Part::said("from", warmth(from, 1))];
    if let Some((to, left)) = design.chill() {
        out.push(Part::said("to", warmth(to, 1)));
        out.push(Part::said("left in the cold for", hours(left)));
    }
    out
}

fn dose(design: &Design, line: usize) -> Vec<Part> {
    let Some(culture) = design.cultures.get(line) else { return Vec::new() };
    let entry = pantry::find(&design.snapshot.cultures, &culture.entry);
    let packet = entry.map_or_else(String::new, |e| {
        format!("{} {}", plain(e.grams_per_litre.value), e.grams_per_litre.unit)
    });
    vec![
        Part::said("packet's dose", packet),
        Part::said("rate", format!("× {}", plain(culture.rate))),
        Part::said("base", volume(design.litres(), 3)),
    ]
}

fn cream(answer: &Answer, design: &Design, line: usize) -> Vec<Part> {
    let mut out = Vec::new();
    if let Some((base, _, label)) = bases(design).nth(line) {
        let fat = label.unwrap_or(base.composition.fat.value);
        out.push(Part::said("fat of the base", with_unit(fat, 1, "g/100 g")));
    }
    if let Some(cream) = answer.facts.cream.iter().find(|c| c.line == line) {
        out.push(Part::said("class by its solids", cream.class.to_owned()));
    }
    out
}
