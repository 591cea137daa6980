//! The data files: complete, cited, strict, and frozen, so that no number changes unseen.
//!
//! A number was changed on purpose? `UPDATE_EXPECT=1 cargo test --test it data:: -- --nocapture` prints the new
//! [`Frozen`] lines; put them in below and say in the change what moved and why.

use std::collections::BTreeSet;

use potset_base::{Cited, SourceKind};
use potset_doc::assets::PANTRY;
use potset_doc::format;
use potset_doc::pantry::{Base, Culture, Keyed, Organism, Pantry, Sweetener, Thickener, Vessel, Warmer};
use potset_forecast::params;
use potset_science::params::Params;

use crate::support::pantry;

/// What a file of cited numbers adds up to.
#[derive(Debug, PartialEq)]
struct Frozen {
    count: usize,
    /// By kind of source, in the order of [`SourceKind::SHIPPED`].
    kinds: [usize; 6],
    /// `Σ ln(1 + |v|)`, and the same over all bounds of spreads.
    values: f64,
    bounds: f64,
}

const PARAMETERS: Frozen = Frozen {
    count: 270,
    kinds: [41, 42, 14, 4, 35, 134],
    values: 446.1432961198761,
    bounds: 577.7924656612363,
};
const PANTRY_ENTRIES: Frozen = Frozen {
    count: 2476,
    kinds: [551, 590, 28, 66, 523, 718],
    values: 4744.014146013481,
    bounds: 8874.666045907323,
};
/// Points of the solid-fat curves: how many, and `Σ ln(1 + value)`; rows of the cautions: how many, and `Σ` of all figures.
const CURVES: (usize, f64) = (15, 41.40519418295092);
const CAUTIONS: (usize, f64) = (4, 167.2);

fn updating() -> bool {
    std::env::var("UPDATE_EXPECT").is_ok_and(|v| v == "1")
}

fn sums(list: &[(String, &Cited)]) -> Frozen {
    let size = |v: f64| v.abs().ln_1p();
    Frozen {
        count: list.len(),
        kinds: SourceKind::SHIPPED.map(|kind| list.iter().filter(|(_, c)| c.from.kind == kind).count()),
        values: list.iter().map(|(_, c)| size(c.value)).sum(),
        bounds: list
            .iter()
            .filter_map(|(_, c)| c.spread.bounds())
            .map(|(low, high)| size(low) + size(high))
            .sum(),
    }
}

fn frozen(name: &str, list: &[(String, &Cited)], want: &Frozen) {
    let got = sums(list);
    if updating() {
        println!("{name}: {got:?}");
        return;
    }
    let same = got.count == want.count
        && got.kinds == want.kinds
        && (got.values - want.values).abs() < 1e-9
        && (got.bounds - want.bounds).abs() < 1e-9;
    assert!(
        same,
        "{name} has changed.\n  now    {got:?}\n  frozen {want:?}\nSee the head of tests/it/data.rs."
    );
}

fn parameters() -> &'static Params {
    params::shipped().unwrap()
}

// ---------------------------------------------------------------------------------------------
// Every cited number of the pantry, by name

type List<'a> = Vec<(String, &'a Cited)>;

/// Every cited number of the pantry, by path.
fn cited(figures: &[(String, Cited)]) -> List<'_> {
    figures.iter().map(|(path, cited)| (path.clone(), cited)).collect()
}

// ---------------------------------------------------------------------------------------------
// Frozen

#[test]
fn parameters_are_frozen() {
    let list = parameters().list();
    assert_eq!(list.len(), params::TEXT.matches("(v: ").count(), "the list of parameters misses some");
    frozen("PARAMETERS", &list, &PARAMETERS);
}

#[test]
fn pantry_is_frozen() {
    let figures = pantry().figures();
    let list = cited(&figures);
    assert_eq!(
        list.len(),
        PANTRY.matches("(v: ").count(),
        "this test does not see every number of the pantry"
    );
    frozen("PANTRY_ENTRIES", &list, &PANTRY_ENTRIES);
}

#[test]
fn curves_and_cautions_are_frozen() {
    let p = parameters();
    let points: Vec<(f64, f64)> = [&p.solid_fat.coconut, &p.solid_fat.milk]
        .iter()
        .flat_map(|curve| curve.points.iter().copied())
        .collect();
    let curves = (points.len(), points.iter().map(|(c, share)| c.ln_1p() + share.ln_1p()).sum::<f64>());
    let figures = |row: &potset_science::params::CautionRow| {
        row.watch_ph + row.watch_h + row.discard_ph + row.discard_h
    };
    let cautions = (p.cautions.len(), p.cautions.iter().map(figures).sum::<f64>());
    if updating() {
        println!("CURVES: {curves:?}\nCAUTIONS: {cautions:?}");
        return;
    }
    assert!(curves.0 == CURVES.0 && (curves.1 - CURVES.1).abs() < 1e-9, "now {curves:?}");
    assert!(cautions.0 == CAUTIONS.0 && (cautions.1 - CAUTIONS.1).abs() < 1e-9, "now {cautions:?}");
}

// ---------------------------------------------------------------------------------------------
// Sound

#[test]
fn every_number_is_cited_and_inside_its_spread() {
    let figures = pantry().figures();
    let mut faults = Vec::new();
    for (name, c) in parameters().list().into_iter().chain(cited(&figures)) {
        if let Some(fault) = c.fault() {
            faults.push(format!("{name}: {fault}"));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn curves_rise_in_temperature_and_name_their_source() {
    let p = parameters();
    for curve in [&p.solid_fat.coconut, &p.solid_fat.milk] {
        assert!(curve.points.windows(2).all(|pair| pair[0].0 < pair[1].0 && pair[0].1 >= pair[1].1));
        assert!(curve.points.iter().all(|(_, share)| (0.0..=1.0).contains(share)));
        assert!(!curve.from.text.trim().is_empty() && curve.half_width > 0.0);
    }
    for row in &p.cautions {
        assert!(
            !row.from.text.trim().is_empty() && row.watch_h < row.discard_h && row.discard_ph <= row.watch_ph
        );
    }
}

/// Whether a text points at papers that a reader cannot open: numbered notes of the makers, or a bare key such as S57.
fn points_inside(text: &str) -> bool {
    let words: Vec<&str> =
        text.split_whitespace().map(|word| word.trim_matches(|c: char| !c.is_alphanumeric())).collect();
    words.iter().any(|word| is_key(word)) || words.windows(2).any(|pair| names_notes(pair[0], pair[1]))
}

fn is_key(word: &str) -> bool {
    word.strip_prefix('S').is_some_and(|n| !n.is_empty() && n.chars().all(|c| c.is_ascii_digit()))
}

fn names_notes(word: &str, next: &str) -> bool {
    let ours = ["kinetics", "texture", "standards", "nondairy"].contains(&word) && next == "notes";
    let list = ["note", "notes", "more_rows"].contains(&word);
    ours || list && (is_key(next) || next.starts_with(|c: char| c.is_ascii_digit()))
}

#[test]
fn every_source_can_be_opened_by_a_reader() {
    for bad in [
        "home yogurt (kinetics notes S79), fragment",
        "anonymous sheet (texture notes 59)",
        "worked in the standards notes 5.4",
        "nondairy notes, reference 13",
        "an almond drink, more_rows 23 and 24",
        "soy, S57",
    ] {
        assert!(points_inside(bad), "{bad}");
    }
    for good in ["S. thermophilus, SR 01077", "it notes the days", "doi 10.3168/jds.S0022-0302(04)73450-5"] {
        assert!(!points_inside(good), "{good}");
    }
    let (p, figures) = (parameters(), pantry().figures());
    let mut texts: Vec<(String, String)> =
        p.list().into_iter().chain(cited(&figures)).map(|(name, c)| (name, c.from.text.clone())).collect();
    let curves =
        [&p.solid_fat.coconut, &p.solid_fat.milk].map(|c| ("solid fat".to_owned(), c.from.text.clone()));
    texts.extend(curves);
    texts.extend(p.cautions.iter().map(|row| ("cautions".to_owned(), row.from.text.clone())));
    let laws = &potset_explain::reading::shipped().laws;
    texts.extend(laws.iter().map(|(key, law)| (key.to_owned(), law.source.clone())));
    for case in potset_doc::evidence::shipped().unwrap() {
        texts.extend([(case.key.clone(), case.citation), (case.key, case.assumed)]);
    }
    let mut faults: Vec<String> = texts
        .into_iter()
        .filter(|(_, text)| points_inside(text))
        .map(|(at, text)| format!("{at}: {text}"))
        .collect();
    // Comments too, but there S0 may stand for a sugar at the start.
    for (file, source) in crate::layers::sources() {
        for line in source.lines().filter(|line| line.trim_start().starts_with("//")) {
            let words: Vec<&str> = line.split(|c: char| !c.is_alphanumeric() && c != '_').collect();
            if words.windows(2).any(|pair| names_notes(pair[0], pair[1])) {
                faults.push(format!("src/{file}: {line}"));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// A text with a field that no reader knows must be refused, with the line.
fn refused<T: serde::de::DeserializeOwned>(text: &str, anchors: &[&str]) {
    for anchor in anchors {
        assert!(text.contains(anchor), "nothing to spoil: {anchor}");
        let spoilt = text.replacen(anchor, &format!("{anchor} nobody_knows_this: 1.0,"), 1);
        let Err(note) = format::asset::<T>(&spoilt) else {
            panic!("taken in spite of an unknown field after {anchor}")
        };
        assert!(note.line().contains("nobody_knows_this") && note.field.contains("line"), "{note}");
    }
}

#[test]
fn unknown_fields_of_the_pantry_are_refused() {
    let anchors = [
        "key: \"milk\",",
        "name: \"soluble phosphate\",",
        "key: \"whole_cows_milk\",",
        "composition: (",
        "(sugar: lactose,",
        "key: \"white_sugar\",",
        "key: \"agar\",",
        "action: Gel(",
        "action: ColdStarch(",
        "action: CookStarch(",
        "key: \"s_thermophilus\",",
        "organism: \"l_bulgaricus\",",
        "key: \"dairy_pair\",",
        "(organism: \"s_thermophilus\",",
        "key: \"jar_1l\",",
        "key: \"heated_pot\",",
        "warming: Heated(",
        "(v: 9.4,",
        "(kind: FromMemory,",
    ];
    refused::<Pantry>(PANTRY, &anchors);
}

#[test]
fn unknown_fields_of_the_parameters_are_refused() {
    let groups = [
        "acids: (",
        "growth: (",
        "whey: (",
        "gel: (",
        "starch: (",
        "fat: (",
        "flow: (",
        "wheying: (",
        "words: (",
        "ready: (",
        "ways: (",
        "coconut: (",
        "mixing: (",
        "maker: (",
        "solid_fat: (",
        "(key: \"canned\",",
        "(v: 3.86,",
        "(kind: Published,",
    ];
    refused::<Params>(params::TEXT, &groups);
}

fn unique<T: Keyed>(list: &[T]) {
    let keys: BTreeSet<&str> = list.iter().map(Keyed::key).collect();
    assert_eq!(keys.len(), list.len(), "a key stands twice in {keys:?}");
    assert!(keys.iter().all(
        |k| !k.is_empty() && k.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_')
    ));
}

#[test]
fn keys_are_unique_and_every_key_that_is_named_exists() {
    let p = pantry();
    unique(&p.buffer_shapes);
    unique::<Base>(&p.bases);
    unique::<Sweetener>(&p.sugars);
    unique::<Thickener>(&p.thickeners);
    unique::<Organism>(&p.organisms);
    unique::<Culture>(&p.cultures);
    unique::<Vessel>(&p.vessels);
    unique::<Warmer>(&p.warmers);
    let there = |key: &str| p.organisms.iter().any(|o| o.key == key);
    for dose in p.cultures.iter().flat_map(|c| &c.doses) {
        assert!(there(&dose.organism), "no organism {}", dose.organism);
    }
    for helper in p.organisms.iter().flat_map(|o| &o.helpers) {
        assert!(there(&helper.organism), "no organism {}", helper.organism);
    }
    for base in &p.bases {
        assert!(p.buffer_shapes.iter().any(|s| s.key == base.buffer_shape), "no shape {}", base.buffer_shape);
    }
}

#[test]
fn compositions_close() {
    let p = pantry();
    for base in &p.bases {
        let c = &base.composition;
        let solids = c.fat.value + c.protein.value + c.carbohydrate.value + c.fibre.value + c.ash.value;
        assert!((0.0..=100.0).contains(&solids), "{}: solids {solids}", base.key);
        let least = |x: &Cited| x.spread.bounds().map_or(x.value, |(low, _)| low);
        let most = |x: &Cited| x.spread.bounds().map_or(x.value, |(_, high)| high);
        let all = [&c.fat, &c.protein, &c.carbohydrate, &c.fibre, &c.ash];
        assert!(all.iter().all(|x| least(x) >= 0.0), "{}: a share below nothing", base.key);
        assert!(
            all.iter().map(|x| most(x)).sum::<f64>() <= 100.0,
            "{}: no room for water at the bounds",
            base.key
        );
        let sugars: f64 = c.sugars.iter().map(|s| s.g_per_100g.value).sum();
        assert!(
            sugars + c.starch.value <= c.carbohydrate.value + 1e-9,
            "{}: sugars {sugars} and starch",
            base.key
        );
    }
    for sweet in &p.sugars {
        let sum = sweet.water.value + sweet.sugars.iter().map(|s| s.g_per_100g.value).sum::<f64>();
        assert!((0.0..=100.0).contains(&sum), "{}: {sum}", sweet.key);
    }
}

#[test]
fn laws_and_list_go_in_the_same_order() {
    let listed: Vec<f64> = parameters().list().iter().map(|(_, c)| c.value).collect();
    let mut plain = Vec::new();
    parameters().laws().each(&mut |v| plain.push(*v));
    assert_eq!(plain, listed);
}

#[test]
fn the_rate_of_whey_protein_stays_where_it_was_measured() {
    use potset_science::texture::whey_protein::rate;
    let likely = parameters().laws();
    let mut laws = likely.clone();
    laws.whey.low_energy += 15.0;
    laws.link(&likely);
    let ratio = |c: f64| rate(c, &laws.whey) / rate(c, &likely.whey);
    assert!((ratio(80.0) - 1.0).abs() < 1e-9);
    assert!(ratio(85.0) > 1.05 && ratio(85.0) < 1.1, "{}", ratio(85.0));
}

#[test]
fn organisms_have_their_limits_in_order() {
    for o in &pantry().organisms {
        let (min, opt, max) =
            (o.temperature_min_c.value, o.temperature_opt_c.value, o.temperature_max_c.value);
        // The cardinal model keeps its shape only with the best above the middle.
        assert!(min < opt && opt < max && opt > 0.5 * (min + max), "{}", o.key);
        assert!(o.ph_min.value < o.ph_opt.value && o.ph_opt.value < o.ph_max.value, "{}", o.key);
        assert!(o.eats.iter().all(|food| (0.0..=1.0).contains(&food.weight.value)), "{}", o.key);
        // Carbon: a hexose has six, lactic acid three, acetic acid two.
        let carbon = 3.0 * o.lactic_per_hexose.value + 2.0 * o.acetic_per_hexose.value;
        assert!((carbon - 6.0).abs() < 1e-12, "{}: {carbon} carbon from a hexose", o.key);
    }
}
