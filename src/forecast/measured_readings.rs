//! What a maker measured as cited figures: value, scatter, and that it is the maker's own.

use std::sync::Arc;

use crate::flask;
use crate::lookup::Lookup;
use crate::measured::buffer;
use potset_base::number::{fixed, plain};
use potset_base::{Cited, Source, SourceKind, Spread};
use potset_doc::design::BaseLine;
use potset_doc::measured::{Cells, Kind, Taken, Titration};
use potset_doc::pantry::Base;
use potset_doc::{Design, Kitchen, Pantry};
use potset_science::params::{Maker, Params};

/// A reading as it was taken, with its scatter: the design's own, or the usual one of such a reading.
pub fn cited(taken: Taken, design: &Design, maker: &Maker) -> Option<Cited> {
    let v = taken.value(design)?;
    let off_by = taken.off_by(design);
    let (usual, unit) = match taken.kind {
        Kind::Ph => (&maker.measured_ph, ""),
        Kind::Acidity => (&maker.measured_acidity, "% lactic"),
        Kind::Titration => (&maker.measured_titration, "g/kg"),
        Kind::Count => (&maker.measured_count, "cfu"),
        Kind::Pace => (&maker.measured_pace, ""),
        Kind::Lag => (&maker.measured_lag, ""),
    };
    let spread = match (off_by, usual.spread) {
        // A pot without lag has none to be off by.
        _ if taken.kind.by_factor() && v <= 0.0 => Spread::Exact,
        (Some(times), _) if taken.kind.by_factor() => Spread::LogNormal(v / times, v * times),
        (Some(within), _) => Spread::Normal((v - within).max(0.0), v + within),
        (None, Spread::Normal(low, high)) => Spread::Normal((v + low).max(0.0), v + high),
        (None, Spread::LogNormal(low, high)) => Spread::LogNormal(v * low, v * high),
        (None, other) => other,
    };
    let scatter = if off_by.is_some() { "the scatter as given" } else { "the usual scatter, assumed" };
    Some(Cited { spread, ..Cited::new(v, unit, SourceKind::Own, format!("measured, {scatter}")) })
}

/// All readings of a design, and of the warmers among its own copies of entries, in the place of the pantry's figures: the path of each such
/// figure, and what stands there.
///
/// The buffer is worked out from its titration; a titration that tells none is left out.
pub fn figures(design: &Design, pantry: &Pantry, kitchen: &Kitchen, params: &Params) -> Vec<(String, Cited)> {
    let mut out = flask::figures(design, kitchen, &params.laws().ways);
    for taken in Taken::all(design) {
        let Some(read) = cited(taken, design, &params.maker) else { continue };
        let base = design.bases.get(taken.line);
        let base_path = |field: &str| base.map(|line| format!("bases.{}.{field}", line.entry));
        let culture = design.cultures.get(taken.line);
        let culture_path = |field: &str| culture.map(|line| format!("cultures.{}.{field}", line.entry));
        let put = |path: Option<String>, read: Cited| path.map(|path| (path, read));
        match taken.kind {
            Kind::Ph => out.extend(put(base_path("ph"), read)),
            Kind::Acidity => out.extend(put(base_path("start_acidity"), read)),
            Kind::Titration => out.extend(
                base.and_then(|line| titrated((design, pantry, params), taken.line, line, &read))
                    .and_then(|read| put(base_path("mean_buffer"), read)),
            ),
            Kind::Count => {
                let unit = match culture.and_then(|line| line.measured.count).map(|count| count.cells) {
                    Some(Cells::InPacket { litres, .. }) => format!("cfu for {} L", plain(litres)),
                    _ => "cfu/g of the packet, before it is mixed".to_owned(),
                };
                out.extend(put(culture_path("doses.counted.cfu_per_g"), Cited { unit, ..read }));
            }
            Kind::Pace => {
                out.extend(put(culture_path("speed_dairy"), read.clone()));
                out.extend(put(culture_path("speed_plant"), read));
            }
            Kind::Lag => out.extend(put(culture_path("lag_work"), read)),
        }
    }
    out
}

/// The mean buffer that a titration tells, with the bounds that the scatter of its acid gives.
fn titrated(
    (design, pantry, params): (&Design, &Pantry, &Params),
    i: usize,
    line: &BaseLine,
    read: &Cited,
) -> Option<Cited> {
    let titration = line.measured.titration?;
    let (kitchen, laws) = (Kitchen::default(), Arc::new(params.laws()));
    let look = Lookup { design, pantry, kitchen: &kitchen, laws: &laws };
    let entry = look.entry::<Base>(&line.entry).ok()?;
    let of = |lactic_g_per_kg: f64| {
        let mut line = line.clone();
        line.measured.titration = Some(Titration { lactic_g_per_kg, ..titration });
        buffer(&look, i, &line, entry).ok().flatten()
    };
    let v = of(read.value)?;
    let (low, high) = read.spread.bounds().unwrap_or((read.value, read.value));
    let text = format!(
        "{}: {} g/kg lactic acid to pH {}",
        read.from.text,
        plain(titration.lactic_g_per_kg),
        fixed(titration.to_ph, 2)
    );
    Some(Cited {
        value: v,
        unit: entry.mean_buffer.unit.clone(),
        spread: Spread::LogNormal(of(low).unwrap_or(v), of(high).unwrap_or(v)),
        from: Source { kind: SourceKind::Own, text },
        ..read.clone()
    })
}
