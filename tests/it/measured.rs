//! What a maker measured: kept in the file, used in the place of the pantry's figures, known better, refused by name.

mod flask;

use potset_base::SourceKind;
use potset_doc::edit::{LineKind, apply};
use potset_doc::measured::{
    BaseMeasured, Cells, Count, CultureMeasured, Factor, Figure, Kind, Taken, Titration,
};
use potset_doc::{Design, Edit, Kitchen, Learnt, format};
use potset_doubt::spread::{Curve, Spread, Spreader};
use potset_explain::Reading;
use potset_forecast::numbers::{Kind as Source, numbers};
use potset_forecast::scenario::Scenario;
use potset_judge::answer::answer;
use potset_report::explain::explain;
use potset_science::simulate;

use crate::support::{compiled, demo, forecast, mix, shipped};

const PH: Figure = Figure { value: 5.9, within: None };
const ACIDITY: Figure = Figure { value: 0.21, within: None };
const TITRATION: Titration = Titration { lactic_g_per_kg: 2.6, to_ph: 4.5, within: None };

/// Nothing but a base and a culture in the pot.
fn plain(name: &str) -> Design {
    let mut design = demo(name);
    design.sugars.clear();
    design.thickeners.clear();
    design.additives.clear();
    design
}

fn of_base(design: &Design, measured: BaseMeasured) -> Design {
    apply(design, &Edit::BaseMeasured(0, measured), shipped()).unwrap()
}

fn of_culture(design: &Design, measured: CultureMeasured) -> Design {
    apply(design, &Edit::CultureMeasured(0, measured), shipped()).unwrap()
}

fn whole() -> Design {
    let base = BaseMeasured {
        ph: Some(Figure { within: Some(0.03), ..PH }),
        acidity: Some(ACIDITY),
        titration: Some(Titration { within: Some(0.2), ..TITRATION }),
    };
    let culture = CultureMeasured {
        count: Some(Count { cells: Cells::InPacket { cfu: 4e11, litres: 5.0 }, times: Some(1.4) }),
        pace: Some(Factor { value: 0.7, times: None }),
        lag: Some(Factor { value: 1.2, times: Some(1.3) }),
    };
    of_culture(&of_base(&demo("coconut-pot.ron"), base), culture)
}

// ---------------------------------------------------------------------------------------------
// The file

#[test]
fn a_file_keeps_what_was_measured_and_one_without_it_stays_as_it_was() {
    let design = whole();
    let text = format::write(&design).unwrap();
    for part in ["ph: (", "within: 0.03", "lactic_g_per_kg: 2.6", "in_packet(", "litres: 5.0", "times: 1.4"] {
        assert!(text.replace("Some(", "").contains(part), "{part} in {text}");
    }
    assert_eq!(format::read_design(text.as_bytes()).unwrap(), design);
    let before = demo("coconut-pot.ron");
    let text = format::write(&before).unwrap();
    assert!(!text.contains("measured: ("), "{text}");
    assert_eq!(format::read_design(text.as_bytes()).unwrap(), before);
    // By hand, as short as it goes.
    let typed = text.replacen("litres: ", "measured: (ph: (v: 6.05)), litres: ", 1);
    let read = format::read_design(typed.as_bytes()).unwrap();
    assert_eq!(read.bases[0].measured.ph, Some(Figure { value: 6.05, within: None }));
}

#[test]
fn what_cannot_be_is_named_with_line_field_and_mend() {
    let good = format::write(&demo("coconut-pot.ron")).unwrap();
    let base = |inside: &str| good.replacen("litres: ", &format!("measured: ({inside}), litres: "), 1);
    let culture = |inside: &str| good.replacen("rate: ", &format!("measured: ({inside}), rate: "), 1);
    for (text, parts) in [
        (base("ph: (v: 1.2)"), &["line", "bases[0].measured.ph.v", "pH is out of range", "2 to 9"][..]),
        (base("ph: (v: NaN)"), &["measured.ph.v", "not a number"]),
        (base("ph: (v: 6.0, within: 0.0)"), &["measured.ph.within", "may be off by"]),
        (base("acidity: (v: -0.1)"), &["measured.acidity.v", "Acidity is out of range", "0 to 3 % lactic"]),
        (
            base("titration: (lactic_g_per_kg: 0.0, to_ph: 4.5)"),
            &["titration.lactic_g_per_kg", "Lactic acid"],
        ),
        (base("titration: (lactic_g_per_kg: 2.0, to_ph: 12.0)"), &["titration.to_ph", "came to"]),
        (culture("count: (cells: per_gram(0.0))"), &["cultures[0].measured.count.cells", "Count of cells"]),
        (culture("count: (cells: in_packet(cfu: 1e11, litres: 0.0))"), &["litres", "meant for"]),
        (culture("count: (cells: per_gram(1e10), times: 0.5)"), &["count.times", "factor"]),
        (culture("pace: (v: 0.0)"), &["measured.pace.v", "Pace is out of range"]),
        (culture("lag: (v: -1.0)"), &["measured.lag.v", "Lag is out of range"]),
        (base("colour: 3"), &["line", "colour"]),
        (culture("count: (cells: (3e10))"), &["line"]),
    ] {
        let note = format::read_design(text.as_bytes()).unwrap_err();
        for part in parts {
            assert!(note.line().contains(part), "{part} in {note}");
        }
        assert!(!note.mend.is_empty(), "{note}");
    }
}

#[test]
fn a_titration_that_tells_no_buffer_is_refused_by_its_field() {
    for (titration, field, part) in [
        (Titration { to_ph: 6.1, ..TITRATION }, "to_ph", "does not show how much acid"),
        (Titration { lactic_g_per_kg: 0.02, ..TITRATION }, "lactic_g_per_kg", "so little acid"),
        (Titration { lactic_g_per_kg: 50.0, to_ph: 5.9, ..TITRATION }, "lactic_g_per_kg", "so much acid"),
    ] {
        let ph = Some(Figure { value: 6.3, within: None });
        let measured = BaseMeasured { ph, titration: Some(titration), acidity: None };
        let compiled = compiled(&of_base(&demo("coconut-pot.ron"), measured));
        assert!(compiled.mix.is_none());
        let note = &compiled.notes[0];
        assert_eq!(note.field, format!("bases[0].measured.titration.{field}"), "{note}");
        assert!(note.title.contains(part) && !note.mend.is_empty(), "{note}");
    }
}

// ---------------------------------------------------------------------------------------------
// The forecast

#[test]
fn the_curves_start_at_the_measured_ph_and_acidity() {
    for name in ["coconut-pot.ron", "whole-milk-pot.ron"] {
        let before = forecast(&plain(name));
        let design =
            of_base(&plain(name), BaseMeasured { ph: Some(PH), acidity: Some(ACIDITY), titration: None });
        let f = forecast(&design);
        assert!((f.ph[0] - 5.9).abs() < 1e-9 && (before.ph[0] - 5.9).abs() > 0.1, "{name}: {}", f.ph[0]);
        assert!((f.titratable[0] - 0.21).abs() < 1e-9, "{name}: {}", f.titratable[0]);
        // The acid that is made comes on top of it.
        let last = f.t.len() - 1;
        assert!((f.titratable[last] - 0.21 - f.acid_made[last]).abs() < 1e-9);
    }
}

#[test]
fn a_base_takes_up_the_acid_that_its_titration_says() {
    for name in ["coconut-pot.ron", "whole-milk-pot.ron", "oat-and-coconut.ron"] {
        for lactic_g_per_kg in [1.8, 2.6, 6.0] {
            let titration = Some(Titration { lactic_g_per_kg, ..TITRATION });
            let mut design = plain(name);
            design.bases.truncate(1);
            // A label's fat would thin the pantry's buffer: what was titrated is this very base.
            design.bases[0].label.fat = Some(3.0);
            let design = of_base(&design, BaseMeasured { ph: Some(PH), titration, acidity: None });
            let balance = mix(&design).balance;
            // Backwards, without a look at how the buffer was found: so much acid brings it there.
            let ph = balance.ph(lactic_g_per_kg * 1e3 / 90.08, 0.0);
            assert!((ph - 4.5).abs() < 1e-3, "{name}, {lactic_g_per_kg} g/kg: pH {ph}");
        }
    }
}

#[test]
fn more_acid_taken_up_is_later_sour() {
    let times: Vec<f64> = [1.5, 2.5, 4.0]
        .into_iter()
        .map(|lactic_g_per_kg| {
            let titration = Some(Titration { lactic_g_per_kg, ..TITRATION });
            let design =
                of_base(&demo("coconut-pot.ron"), BaseMeasured { titration, ..BaseMeasured::default() });
            forecast(&design).time_to_ph(4.6).unwrap()
        })
        .collect();
    assert!(times.windows(2).all(|pair| pair[0] < pair[1]), "{times:?}");
}

#[test]
fn two_lines_of_one_base_keep_what_was_measured_of_each() {
    let mut design = plain("coconut-pot.ron");
    let second = design.bases[0].clone();
    design.bases.push(second);
    let same = forecast(&design);
    design.bases[1].measured.ph = Some(PH);
    let f = forecast(&design);
    let own = same.ph[0];
    assert!(f.ph[0] < own - 0.05 && f.ph[0] > 5.9 + 0.05, "{} lies between 5.9 and {own}", f.ph[0]);
}

/// All living cells at the start, cfu/g.
fn cells(design: &Design) -> f64 {
    mix(design).organisms.iter().map(|o| o.count).sum()
}

#[test]
fn the_cells_are_those_that_were_counted_by_either_way() {
    let design = plain("whole-milk-pot.ron");
    let entry = &design.snapshot.cultures[0];
    let (kg, litres) = (compiled(&design).facts.kg, design.litres());
    let rate = design.cultures[0].rate;
    let counted = |cells: Cells| {
        of_culture(
            &design,
            CultureMeasured { count: Some(Count { cells, times: None }), ..CultureMeasured::default() },
        )
    };
    // By weight: what is weighed in, times its cells per gram, over the pot's grams.
    let by_gram = counted(Cells::PerGram(2e10));
    let weighed = entry.grams_per_litre.value * rate * litres;
    assert!((cells(&by_gram) / (2e10 * weighed / (kg * 1e3)) - 1.0).abs() < 1e-9);
    // By the packet: its cells for its litres.
    let by_packet = counted(Cells::InPacket { cfu: 4e10, litres: 2.0 });
    assert!((cells(&by_packet) / (4e10 / 2.0 * rate * litres / (kg * 1e3)) - 1.0).abs() < 1e-9);
    // Shared out among the organisms as the packet's entry has it.
    let share = |design: &Design| {
        let all = mix(design).organisms;
        all[0].count / all.iter().map(|o| o.count).sum::<f64>()
    };
    assert!((share(&by_gram) - share(&design)).abs() < 1e-12);
    // What age has cost is in the count.
    let mut old = by_gram.clone();
    old.cultures[0].age_days = 400.0;
    assert!((cells(&old) / cells(&by_gram) - 1.0).abs() < 1e-12);
    let many = forecast(&counted(Cells::PerGram(4e11))).time_to_ph(4.6).unwrap();
    let few = forecast(&counted(Cells::PerGram(4e9))).time_to_ph(4.6).unwrap();
    assert!(many < few - 1.0, "{many} h against {few} h");
}

#[test]
fn pace_and_lag_are_the_measured_ones() {
    let design = plain("whole-milk-pot.ron");
    let measured = |pace: f64, lag: f64| {
        let of = |v: f64| Some(Factor { value: v, times: None });
        of_culture(&design, CultureMeasured { pace: of(pace), lag: of(lag), count: None })
    };
    let one = mix(&measured(0.83, 2.2));
    assert!(one.organisms.iter().all(|o| (o.speed - 0.83).abs() < 1e-12 && (o.lag_work - 2.2).abs() < 1e-12));
    let time = |design: &Design| simulate(&mix(design)).unwrap().time_to_ph(4.6).unwrap();
    assert!(time(&measured(1.2, 1.0)) < time(&measured(0.8, 1.0)));
    assert!(time(&measured(1.0, 0.5)) < time(&measured(1.0, 2.5)));
}

#[test]
fn another_entry_in_the_line_loses_what_was_measured_of_the_first() {
    let design = whole();
    for (shelf, key) in [(LineKind::Bases, "whole_cows_milk"), (LineKind::Cultures, "dairy_pair")] {
        let swapped = apply(&design, &Edit::Swap(shelf, 0, key.to_owned()), shipped()).unwrap();
        let gone = Taken::all(&design).len() - Taken::all(&swapped).len();
        assert_eq!(gone, 3, "{key}");
    }
    assert_eq!(Taken::all(&design).len(), Kind::ALL.len());
}

// ---------------------------------------------------------------------------------------------
// Doubt

fn spread(design: &Design) -> Spread {
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let scenario = Scenario { design, pantry: shipped(), kitchen: &kitchen, learnt: &learnt };
    let mut spreader = Spreader::new(&scenario, 1, 200).unwrap();
    while spreader.more(200) {}
    let spread = spreader.spread();
    assert_eq!(potset_report::spread::none_made(&spread), None);
    spread
}

fn width(spread: &Spread, curve: Curve, t_h: f64) -> f64 {
    let [low, .., high] = spread.at(curve, t_h).unwrap();
    high - low
}

#[test]
fn what_is_measured_is_known_better() {
    let design = plain("coconut-pot.ron");
    let before = spread(&design);
    let by = |within: Option<f64>| {
        spread(&of_base(
            &design,
            BaseMeasured { ph: Some(Figure { value: 6.1, within }), ..BaseMeasured::default() },
        ))
    };
    let usual = by(None);
    let at_start = |spread: &Spread| width(spread, Curve::Ph, 0.0);
    // The band of 5 to 95 % is what the reading may be off by, 0.05 either way unless the design says otherwise.
    assert!((at_start(&usual) - 0.1).abs() < 0.02, "{}", at_start(&usual));
    assert!(at_start(&before) > 2.0 * at_start(&usual), "{}", at_start(&before));
    let rough = by(Some(0.2));
    assert!((at_start(&rough) - 0.4).abs() < 0.06, "{}", at_start(&rough));
    let [low, .., high] = usual.at(Curve::Ph, 0.0).unwrap();
    assert!(low < 6.1 && 6.1 < high);
    // Titrated, counted and paced besides, the whole pot is surer.
    let sure = spread(&whole());
    let whole_before = spread(&demo("coconut-pot.ron"));
    for t_h in [10.0, 14.0, 20.0] {
        let (now, then) = (width(&sure, Curve::Ph, t_h), width(&whole_before, Curve::Ph, t_h));
        assert!(now < 0.75 * then, "at {t_h} h: {now} against {then}");
    }
}

// ---------------------------------------------------------------------------------------------
// Where it is from

#[test]
fn what_was_measured_is_shown_as_the_makers_own() {
    let design = whole();
    let list = numbers(&design, shipped(), &Kitchen::default(), &Learnt::default());
    let (base, culture) = (&design.bases[0].entry, &design.cultures[0].entry);
    for (key, value) in [
        (format!("bases.{base}.ph"), Some("5.9")),
        (format!("bases.{base}.start_acidity"), Some("0.21")),
        (format!("bases.{base}.mean_buffer"), None),
        (format!("cultures.{culture}.doses.counted.cfu_per_g"), None),
        (format!("cultures.{culture}.speed_plant"), Some("0.7")),
        (format!("cultures.{culture}.lag_work"), Some("1.2")),
    ] {
        let used: Vec<_> = list.all.iter().filter(|n| n.key == key && n.used).collect();
        assert_eq!(used.len(), 1, "{key}: {used:?}");
        assert!(used[0].own && used[0].kind == Source::Own, "{:?}", used[0]);
        assert!(used[0].source.contains("measured") && !used[0].name.is_empty(), "{:?}", used[0]);
        assert!(!used[0].spread.is_empty(), "{:?}", used[0]);
        if let Some(value) = value {
            assert_eq!(used[0].value, value, "{key}");
        }
    }
    let buffer = list.all.iter().find(|n| n.key == format!("bases.{base}.mean_buffer") && n.used).unwrap();
    assert!(buffer.source.contains("2.6 g/kg lactic acid to pH 4.50"), "{buffer:?}");
    let own = compiled(&design).facts.base_buffers[0].0;
    assert!((buffer.value.parse::<f64>().unwrap() / own - 1.0).abs() < 0.01, "{buffer:?} against {own}");

    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let answer = answer(&Scenario { design: &design, pantry: shipped(), kitchen: &kitchen, learnt: &learnt });
    let told = explain(Reading::StartPh, &answer, answer.verdict.stop_h, &design, &list).unwrap();
    assert!(told.text().contains("(measured), pH\u{a0}5.90 (measured)"), "{}", told.text());
    assert!(told.text().contains(SourceKind::Own.words()), "{}", told.text());
}
