//! What a maker measured of the base and of the culture in hand: it stands in the place of the pantry's figures.
//!
//! **What a maker measured.** `doc/measured.rs`: optional readings on a base or a culture line, kept as they were read (a
//! titration and not the buffer that follows from it). `forecast/measured.rs` puts them in the place of the entry's figures; a
//! label does not thin a titrated buffer, and age takes nothing off a count. `Taken` goes over them all: `forecast/measured_readings.rs` makes
//! each a `Cited` of the kind `Own` for the list of numbers, and the spread draws it by its own scatter, or by the usual one of the
//! group `maker` (`Of::Measured`), in the place of the figure that it stands for (`stands_for`). Another reading: a field with its
//! range, a variant of `Kind`, its place in `compile`, a row in `ui/bench/measured.rs`.

use super::design::Design;
use super::range::Range;
pub use super::readings::{BaseMeasured, Cells, Count, CultureMeasured, Factor, Figure, Titration};
use potset_base::choices;

choices! {
    /// What is read, of which kind; in words that are part of a sentence.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
    pub enum Kind: words {
        Ph => "the pH of the base",
        Acidity => "the acidity of the base",
        Titration => "the acid that the base takes up",
        Count => "the number of cells in the culture",
        Pace => "the pace of the culture",
        Lag => "the lag of the culture",
    }
}

impl Kind {
    /// Whether it may be off by a factor, and not by an amount.
    pub const fn by_factor(self) -> bool {
        matches!(self, Self::Count | Self::Pace | Self::Lag)
    }
}

/// One reading of a design: its kind, and the number of its base or culture line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Taken {
    pub kind: Kind,
    pub line: usize,
}

impl Taken {
    /// All readings of a design, in the order of its lines.
    pub fn all(design: &Design) -> Vec<Self> {
        let lines = design.bases.len().max(design.cultures.len());
        let each = (0..lines).flat_map(|line| Kind::ALL.map(|kind| Self { kind, line }));
        each.filter(|taken| taken.value(design).is_some()).collect()
    }

    /// What was read; nothing if this was not measured.
    pub fn value(self, design: &Design) -> Option<f64> {
        let mut copy = self.lines(design)?;
        copy.number(self.kind).map(|v| *v)
    }

    /// How far it may be off, as the design says: an amount, or a factor ([`Kind::by_factor`]).
    pub fn off_by(self, design: &Design) -> Option<f64> {
        let (base, culture) = (self.lines(design)?.base, self.lines(design)?.culture);
        match self.kind {
            Kind::Ph => base.ph?.within,
            Kind::Acidity => base.acidity?.within,
            Kind::Titration => base.titration?.within,
            Kind::Count => culture.count?.times,
            Kind::Pace => culture.pace?.times,
            Kind::Lag => culture.lag?.times,
        }
    }

    /// Puts another value in its place.
    pub fn put(self, design: &mut Design, v: f64) {
        let Some(mut lines) = self.lines(design) else { return };
        if let Some(number) = lines.number(self.kind) {
            *number = v;
        }
        if let Some(line) = design.bases.get_mut(self.line) {
            line.measured = lines.base;
        }
        if let Some(line) = design.cultures.get_mut(self.line) {
            line.measured = lines.culture;
        }
    }

    fn lines(self, design: &Design) -> Option<Lines> {
        let base = design.bases.get(self.line).map(|l| l.measured);
        let culture = design.cultures.get(self.line).map(|l| l.measured);
        (base.is_some() || culture.is_some())
            .then(|| Lines { base: base.unwrap_or_default(), culture: culture.unwrap_or_default() })
    }
}

/// Whether readings stand in the place of a figure of the pantry, by its path, in every line of its entry. A count leaves
/// the figures of its organisms: it tells how many there are, not how they are shared out.
pub fn stands_for(design: &Design, path: &str) -> bool {
    let mut steps = path.split('.');
    let (shelf, key, field) = (steps.next(), steps.next().unwrap_or(""), steps.next_back());
    let all = |kind: Kind, mut lines: Vec<usize>| {
        let there = !lines.is_empty();
        lines.retain(|line| Taken { kind, line: *line }.value(design).is_none());
        there && lines.is_empty()
    };
    let bases = || (0..design.bases.len()).filter(|i| design.bases[*i].entry == key).collect();
    let cultures = || (0..design.cultures.len()).filter(|i| design.cultures[*i].entry == key).collect();
    match (shelf, field) {
        (Some("bases"), Some("ph")) => all(Kind::Ph, bases()),
        (Some("bases"), Some("start_acidity")) => all(Kind::Acidity, bases()),
        (Some("bases"), Some("mean_buffer")) => all(Kind::Titration, bases()),
        (Some("cultures"), Some("speed_dairy" | "speed_plant")) => all(Kind::Pace, cultures()),
        (Some("cultures"), Some("lag_work")) => all(Kind::Lag, cultures()),
        _ => false,
    }
}

/// What was measured of the base and of the culture of one number.
struct Lines {
    base: BaseMeasured,
    culture: CultureMeasured,
}

impl Lines {
    fn number(&mut self, kind: Kind) -> Option<&mut f64> {
        match kind {
            Kind::Ph => self.base.ph.as_mut().map(|f| &mut f.value),
            Kind::Acidity => self.base.acidity.as_mut().map(|f| &mut f.value),
            Kind::Titration => self.base.titration.as_mut().map(|t| &mut t.lactic_g_per_kg),
            Kind::Count => self.culture.count.as_mut().map(|c| match &mut c.cells {
                Cells::PerGram(cfu) | Cells::InPacket { cfu, .. } => cfu,
            }),
            Kind::Pace => self.culture.pace.as_mut().map(|f| &mut f.value),
            Kind::Lag => self.culture.lag.as_mut().map(|f| &mut f.value),
        }
    }
}

pub const PH: Range = ("pH", "", 2.0, 9.0);
pub const ACIDITY: Range = ("Acidity", "% lactic acid", 0.0, 3.0);
pub const LACTIC: Range = ("Lactic acid of the titration", "g/kg", 0.01, 50.0);
pub const TO_PH: Range = ("pH that the titration came to", "", 2.0, 9.0);
pub const PER_GRAM: Range = ("Count of cells", "cfu/g", 1.0, 1e13);
pub const IN_PACKET: Range = ("Count of cells", "cfu in the packet", 1.0, 1e15);
pub const PACKET_LITRES: Range = ("What the packet is meant for", "L", 0.01, 10_000.0);
pub const PACE: Range = ("Pace", "", 0.05, 10.0);
pub const LAG: Range = ("Lag", "", 0.0, 20.0);
pub const OFF_PH: Range = ("What the pH may be off by", "", 0.001, 2.0);
pub const OFF_ACIDITY: Range = ("What the acidity may be off by", "% lactic acid", 1e-4, 1.0);
pub const OFF_LACTIC: Range = ("What the acid may be off by", "g/kg", 1e-3, 20.0);
pub const OFF_TIMES: Range = ("The factor that it may be off by", "", 1.001, 1000.0);

/// Shows every number with its field and range, to check it.
pub(super) fn numbers(design: &Design, see: &mut impl FnMut(String, f64, Range)) {
    for (i, line) in design.bases.iter().enumerate() {
        let BaseMeasured { ph, acidity, titration } = line.measured;
        let at = |name: &str| format!("bases[{i}].measured.{name}");
        for (name, figure, range, off) in [("ph", ph, PH, OFF_PH), ("acidity", acidity, ACIDITY, OFF_ACIDITY)]
        {
            if let Some(Figure { value: v, within }) = figure {
                see(at(&format!("{name}.v")), v, range);
                within.into_iter().for_each(|w| see(at(&format!("{name}.within")), w, off));
            }
        }
        if let Some(Titration { lactic_g_per_kg, to_ph, within }) = titration {
            see(at("titration.lactic_g_per_kg"), lactic_g_per_kg, LACTIC);
            see(at("titration.to_ph"), to_ph, TO_PH);
            within.into_iter().for_each(|w| see(at("titration.within"), w, OFF_LACTIC));
        }
    }
    for (i, line) in design.cultures.iter().enumerate() {
        let CultureMeasured { count, pace, lag } = line.measured;
        let at = |name: &str| format!("cultures[{i}].measured.{name}");
        if let Some(Count { cells, times }) = count {
            match cells {
                Cells::PerGram(cfu) => see(at("count.cells"), cfu, PER_GRAM),
                Cells::InPacket { cfu, litres } => {
                    see(at("count.cells.cfu"), cfu, IN_PACKET);
                    see(at("count.cells.litres"), litres, PACKET_LITRES);
                }
            }
            times.into_iter().for_each(|t| see(at("count.times"), t, OFF_TIMES));
        }
        for (name, figure, range) in [("pace", pace, PACE), ("lag", lag, LAG)] {
            if let Some(Factor { value: v, times }) = figure {
                see(at(&format!("{name}.v")), v, range);
                times.into_iter().for_each(|t| see(at(&format!("{name}.times")), t, OFF_TIMES));
            }
        }
    }
}
