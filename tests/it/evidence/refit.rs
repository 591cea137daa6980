//! A study, not a check: the shared figures of the pantry fitted over the cases that may set them, all at once.
//!
//! `cargo test --release --test it refit -- --ignored --nocapture` prints what `tests/reference/fit.md` holds. Cases that
//! only check take no part in the fit; they show whether it carries over. Nothing is written into the pantry.

use std::fmt::Write;

use potset_base::{Cited, Spread};
use potset_doc::Pantry;
use potset_doc::evidence::{Case, Role, shipped};
use potset_doc::pantry::Organism;
use potset_evidence::evidence::{Outcome, Report, Row, rms, run};
use potset_numerics::least_squares::{Unknown, minimise};

use crate::support::pantry;

/// z-value of the 95 % bound.
const Z95: f64 = 1.644_853_6;

type Pick = fn(&mut Pantry) -> &mut Cited;

fn organism<'a>(pantry: &'a mut Pantry, key: &str) -> &'a mut Organism {
    pantry.organisms.iter_mut().find(|o| o.key == key).unwrap()
}

fn buffer<'a>(pantry: &'a mut Pantry, key: &str) -> &'a mut Cited {
    &mut pantry.bases.iter_mut().find(|b| b.key == key).unwrap().mean_buffer
}

/// What is turned: only figures that many cases share, each with the spread that its source gives.
const SHARED: &[(&str, Pick)] = &[
    ("S. thermophilus growth rate", |p| &mut organism(p, "s_thermophilus").growth_rate),
    ("S. thermophilus best temperature", |p| &mut organism(p, "s_thermophilus").temperature_opt_c),
    ("S. thermophilus lowest pH", |p| &mut organism(p, "s_thermophilus").ph_min),
    ("S. thermophilus acid ceiling", |p| &mut organism(p, "s_thermophilus").acid_ceiling),
    ("S. thermophilus acid per new cell", |p| &mut organism(p, "s_thermophilus").acid_per_cell),
    ("S. thermophilus acid per cell and hour", |p| &mut organism(p, "s_thermophilus").acid_per_cell_hour),
    ("S. thermophilus share of help", |p| &mut organism(p, "s_thermophilus").helpers[0].share),
    ("L. bulgaricus growth rate", |p| &mut organism(p, "l_bulgaricus").growth_rate),
    ("L. bulgaricus acid ceiling", |p| &mut organism(p, "l_bulgaricus").acid_ceiling),
    ("L. bulgaricus acid per new cell", |p| &mut organism(p, "l_bulgaricus").acid_per_cell),
    ("L. bulgaricus acid per cell and hour", |p| &mut organism(p, "l_bulgaricus").acid_per_cell_hour),
    ("milk mean buffer", |p| buffer(p, "whole_cows_milk")),
    ("soy mean buffer", |p| buffer(p, "soy_drink_unsweetened")),
    ("coconut milk mean buffer", |p| buffer(p, "coconut_milk_tinned")),
];

/// A figure moved by `u` of its own sigmas, towards its 95 % or its 5 % bound.
fn moved(cited: &Cited, u: f64) -> f64 {
    let (low, high) = cited.spread.bounds().unwrap();
    let (bound, share) = (if u < 0.0 { low } else { high }, u.abs() / Z95);
    if matches!(cited.spread, Spread::LogNormal(..)) {
        cited.value * (bound / cited.value).powf(share)
    } else {
        cited.value + share * (bound - cited.value)
    }
}

fn turned(pantry: &Pantry, us: &[f64]) -> Pantry {
    let mut out = pantry.clone();
    for ((_, pick), u) in SHARED.iter().zip(us) {
        let cited = pick(&mut out);
        cited.value = moved(cited, *u);
    }
    out
}

fn rows<'a>(report: &'a Report<'_>, role: Role) -> impl Iterator<Item = &'a Row> {
    report
        .cases
        .iter()
        .filter(move |(case, _)| case.role == role)
        .filter_map(|(_, outcome)| if let Outcome::Rows(rows) = outcome { Some(rows) } else { None })
        .flatten()
}

fn line(cases: &[Case], pantry: &Pantry, role: Role) -> (usize, usize, f64) {
    let report = run(cases, pantry);
    let n = rows(&report, role).count();
    (n, rows(&report, role).filter(|r| r.miss()).count(), rms(rows(&report, role), 0).unwrap())
}

#[test]
#[ignore = "a study of some ten seconds; its result is in tests/reference/fit.md"]
fn refit_of_the_shared_figures() {
    // Only pots that depend on what is turned, but all of those.
    let kinetic = |c: &Case| {
        use potset_doc::evidence::CaseKind as K;
        matches!(
            c.kind,
            K::PhSeries | K::TimeToPh | K::EndPhAndAcidity | K::AcidCeiling | K::Sugars | K::Storage
        )
    };
    let all: Vec<Case> = shipped().unwrap().into_iter().filter(kinetic).collect();
    let calibrate: Vec<Case> = all.iter().filter(|c| c.role == Role::Calibrate).cloned().collect();
    let pantry = pantry();
    let robust = |d: f64| if d.abs() <= 3.0 { d } else { d.signum() * (3.0 * (2.0 * d.abs() - 3.0)).sqrt() };
    let residuals = |us: &[f64]| {
        let turned = turned(&pantry, us);
        let report = run(&calibrate, &turned);
        // The values fitted paper by paper keep their own priors.
        let own = report.fitted.iter().flat_map(|f| &f.values).map(|v| v.factor.ln() / v.prior_sigma);
        us.iter()
            .copied()
            .chain(own)
            .chain(rows(&report, Role::Calibrate).map(|r| robust(r.difference)))
            .collect::<Vec<f64>>()
    };
    let unknowns = vec![Unknown { start: 0.0, low: -Z95, high: Z95, step: 0.05 }; SHARED.len()];
    let before = residuals(&vec![0.0; SHARED.len()]).iter().map(|r| r * r).sum::<f64>();
    let found = minimise(residuals, &unknowns);
    let mut out = format!(
        "cost {before:.1} before, {:.1} after, {} calls, settled {}\n\n| figure | pantry | fitted | bounds | sigmas moved |\n|---|---|---|---|---|\n",
        2.0 * found.cost,
        found.calls,
        found.settled
    );
    for ((name, pick), u) in SHARED.iter().zip(&found.x) {
        let mut copy = pantry.clone();
        let cited = pick(&mut copy);
        let (low, high) = cited.spread.bounds().unwrap();
        let now = moved(cited, *u);
        writeln!(out, "| {name} | {} | {now:.4} | {low}-{high} {} | {u:+.2} |", cited.value, cited.unit)
            .unwrap();
    }
    out += "\n| cases | readings | misses before | after | rms before | after |\n|---|---|---|---|---|---|\n";
    let better = turned(&pantry, &found.x);
    for (name, role) in [("that may set figures", Role::Calibrate), ("that only check", Role::Check)] {
        let (n, misses, rms) = line(&all, &pantry, role);
        let (_, misses_after, rms_after) = line(&all, &better, role);
        writeln!(out, "| {name} | {n} | {misses} | {misses_after} | {rms:.2} | {rms_after:.2} |").unwrap();
    }
    out += "\n| one figure alone | at | misses, may set | rms | misses, only check | rms |\n|---|---|---|---|---|---|\n";
    for (i, (name, pick)) in SHARED.iter().enumerate() {
        for u in [-Z95, Z95] {
            let mut alone = vec![0.0; SHARED.len()];
            alone[i] = u;
            let mut pantry = turned(&pantry, &alone);
            let (_, m1, r1) = line(&all, &pantry, Role::Calibrate);
            let (_, m2, r2) = line(&all, &pantry, Role::Check);
            let at = pick(&mut pantry).value;
            writeln!(out, "| {name} | {at:.3} | {m1} | {r1:.2} | {m2} | {r2:.2} |").unwrap();
        }
    }
    println!("{out}");
    assert!(found.cost.is_finite() && 2.0 * found.cost <= before);
}

/// Growth and help of *S. thermophilus* together: what it cannot do without its partner it must be able to do with less
/// growth of its own, so the two are scanned side by side, with the best temperature.
#[test]
#[ignore = "a study of a minute; its result is in tests/reference/fit.md"]
fn scan_of_growth_and_help() {
    let all = shipped().unwrap();
    let shipped = pantry();
    println!("| share | growth 1/h | best °C | misses, may set | rms | misses, only check | rms |");
    for share in [0.5, 0.35, 0.2, 0.1] {
        for growth in [1.7, 1.55, 1.45, 1.35] {
            for best in [42.0, 43.0] {
                let mut moved = shipped.clone();
                let cocci = organism(&mut moved, "s_thermophilus");
                for helper in &mut cocci.helpers {
                    helper.share.value *= share / 0.5;
                }
                cocci.growth_rate.value = growth;
                cocci.temperature_opt_c.value = best;
                let (_, m1, r1) = line(&all, &moved, Role::Calibrate);
                let (_, m2, r2) = line(&all, &moved, Role::Check);
                println!("| {share} | {growth} | {best} | {m1} | {r1:.3} | {m2} | {r2:.3} |");
            }
        }
    }
}
