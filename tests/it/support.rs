//! Mixes and designs that several tests share.

use std::sync::{Arc, LazyLock};

use potset_base::Sugar;
use potset_doc::{Design, Kitchen, Learnt, Pantry, assets, format};
use potset_forecast::params;
use potset_science::acid_base::{Balance, Site, sites};
use potset_science::kinetics::Organism;
use potset_science::mix::{Chill, Mix};
use potset_science::thermal::Course;
use potset_science::{Forecast, simulate};

/// The shipped pantry.
pub fn pantry() -> Pantry {
    shipped().clone()
}

/// The same, read once: it is a long file.
pub fn shipped() -> &'static Pantry {
    static SHIPPED: LazyLock<Pantry> = LazyLock::new(|| assets::pantry().unwrap());
    &SHIPPED
}

/// Designs that were demos once, with the contents that tests were written for.
pub const KEPT: [(&str, &str); 2] = [
    ("coconut-pot.ron", include_str!("../data/designs/coconut-pot.ron")),
    ("whole-milk-pot.ron", include_str!("../data/designs/whole-milk-pot.ron")),
];

/// A design of the tests: one that was a demo once, or a demo.
pub fn demo(name: &str) -> Design {
    match KEPT.iter().find(|(file, _)| *file == name) {
        Some((_, text)) => format::read_design(text.as_bytes()).unwrap(),
        None => assets::demo(name).unwrap(),
    }
}

/// A design compiled in the usual kitchen.
pub fn compiled(design: &Design) -> potset_forecast::Compiled {
    potset_forecast::compile(design, shipped(), &Kitchen::default(), &Learnt::default())
}

/// The mix of a design that must compile.
pub fn mix(design: &Design) -> Mix {
    let compiled = compiled(design);
    compiled.mix.unwrap_or_else(|| panic!("{:?}", compiled.notes))
}

/// The forecast of a design that must compile.
pub fn forecast(design: &Design) -> Forecast {
    simulate(&mix(design)).unwrap()
}

/// Sites of a shipped buffer shape.
pub fn shape(key: &str) -> Vec<Site> {
    let pantry = pantry();
    let shape = potset_doc::pantry::find(&pantry.buffer_shapes, key).unwrap();
    shape.sites.iter().map(|s| Site { amount: s.amount.value, pk: s.pk.value, n: s.n.value }).collect()
}

/// The organisms of a shipped culture, as shipped, with counts of our own, by compiling a pot with it.
pub fn organisms(culture: &str, counts: &[(&str, f64)], speed: f64, lag_work: f64) -> Vec<Organism> {
    let mut design = demo("coconut-pot.ron");
    design.snapshot = Pantry::default().into();
    design.cultures[0].entry = culture.to_owned();
    let mut all = mix(&design).organisms;
    all.retain(|o| counts.iter().any(|(key, _)| *key == o.key));
    let keys: Vec<String> = all.iter().map(|o| o.key.clone()).collect();
    let pantry = pantry();
    for o in &mut all {
        o.count = counts.iter().find(|(key, _)| *key == o.key).unwrap().1;
        o.speed = speed;
        o.lag_work = lag_work;
        let entry = potset_doc::pantry::find(&pantry.organisms, &o.key).unwrap();
        o.helpers = entry
            .helpers
            .iter()
            .map(|h| (keys.iter().position(|k| *k == h.organism), h.share.value, h.half_count.value))
            .collect();
    }
    all
}

/// A mix at the level of the model: buffer, start pH, sugars in g/kg, organisms, a constant temperature.
pub fn bare(
    shape: &str,
    mean: Option<f64>,
    ph0: f64,
    sugars: &[(Sugar, f64)],
    organisms: Vec<Organism>,
    c: f64,
) -> Mix {
    let mut mix = mix(&demo("coconut-pot.ron"));
    let own = self::shape(shape);
    // `None`: the milk scale k = 1.1 of the fixtures.
    let sites = match mean {
        Some(mean) => sites::scaled(&own, mean, 1.0),
        None => own.iter().map(|s| Site { amount: s.amount * 1.1, ..*s }).collect(),
    };
    let laws = Arc::new(params::shipped().unwrap().laws());
    mix.balance = Balance {
        sites,
        ph0,
        activity: 0.8,
        lactic_pka: laws.acids.lactic_pka,
        acetic_pka: laws.acids.acetic_pka,
    };
    mix.sugars = [0.0; 8];
    for (sugar, g_kg) in sugars {
        mix.sugars[sugar.index()] = g_kg * 1e3 / sugar.g_mol();
    }
    mix.organisms = organisms;
    mix.course = Course::from(0.0);
    mix.course.newton(c, c, 1.0, 96.0);
    mix.horizon_h = 36.0;
    mix.chill = Chill { around_c: 4.0, tau_h: 2.4, to_c: 5.0, hours: 12.0 };
    mix
}
