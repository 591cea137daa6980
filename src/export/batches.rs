//! Readings of batches as a table, a row each, out and in.

use csv::{ReaderBuilder, StringRecord};

use super::csv::{as_written, table};
use potset_base::acidity::AcidityUnit;
use potset_base::clock::{Moment, Zone};
use potset_base::units::{WARMTH, scale_in, typed_degrees};
use potset_base::words::{SweetWord, TangWord, TextureWord};
use potset_base::{Note, number};
use potset_doc::batch::check::value_fault;
use potset_doc::batch::rows::BatchRows;
use potset_doc::batch::{BatchReading, Observed};

/// The columns. Those that may be missing are the ones behind `value`, and zone, code, and one of the two times.
const HEAD: [&str; 12] =
    ["batch", "code", "culture_in", "zone", "at_h", "time", "kind", "value", "unit", "note", "photo", "who"];
/// A reading with these has all that is needed.
const NEEDED: [&str; 4] = ["batch", "culture_in", "kind", "value"];

/// Whether bytes begin like such a table.
pub fn is_table(head: &[u8]) -> bool {
    head.starts_with(HEAD.join(",").as_bytes())
}

/// Kind, value and unit of a reading, as the table has them: °C, cm, mm, mL, % lactic acid.
fn cells(what: Observed) -> (&'static str, String, &'static str) {
    let (kind, unit) = match what {
        Observed::Ph(_) => ("ph", ""),
        Observed::Strip(_) => ("strip", ""),
        Observed::Acidity(_) => ("acidity", AcidityUnit::Lactic.words()),
        Observed::Warmth(_) => ("warmth", WARMTH),
        Observed::Tang(_) => ("tang", ""),
        Observed::Sweetness(_) => ("sweetness", ""),
        Observed::Texture(_) => ("texture", ""),
        Observed::LineSpread(_) => ("spread", "cm"),
        Observed::ThinLayer(_) => ("thin_layer", "mm"),
        Observed::Whey(_) => ("whey", "mL"),
        Observed::Remark => ("remark", ""),
    };
    let value = match what {
        Observed::Ph(v)
        | Observed::Strip(v)
        | Observed::Acidity(v)
        | Observed::Warmth(v)
        | Observed::LineSpread(v)
        | Observed::ThinLayer(v)
        | Observed::Whey(v) => v.to_string(),
        Observed::Tang(word) => word.word().to_owned(),
        Observed::Sweetness(word) => word.word().to_owned(),
        Observed::Texture(word) => word.word().to_owned(),
        Observed::Remark => String::new(),
    };
    (kind, value, unit)
}

/// The table of some batches, a row a reading.
pub fn write(all: &[BatchRows]) -> String {
    let head = HEAD.map(str::to_owned).to_vec();
    let rows = all.iter().flat_map(|batch| {
        let zone = Zone::named(&batch.zone).unwrap_or_default();
        let start = Moment::parse(&batch.culture_in);
        batch.readings.iter().map(move |reading| {
            let time = start.map_or_else(String::new, |start| start.after_in(&zone, reading.at_h).text());
            let (kind, value, unit) = cells(reading.what);
            [
                &batch.name,
                &batch.code,
                &batch.culture_in,
                &batch.zone,
                &reading.at_h.to_string(),
                &time,
                kind,
                &value,
                unit,
                &reading.note,
                &reading.photo,
                &reading.who,
            ]
            .map(str::to_owned)
            .to_vec()
        })
    });
    table(std::iter::once(head).chain(rows))
}

/// Reads a table, by the names of its columns; acidities and warmths may be in any unit.
///
/// # Errors
/// A note with line, column and mend: a column that is not known or not there, a row that cannot be read.
pub fn read(text: &str) -> Result<Vec<BatchRows>, Note> {
    let mut reader = ReaderBuilder::new().flexible(false).from_reader(text.as_bytes());
    let broken = |e: &csv::Error| {
        let line = e.position().map_or(1, csv::Position::line);
        Note::error(format!("line {line}"), "This is no row of the table", "Give each row all columns")
    };
    let head = reader.headers().map_err(|e| broken(&e))?.clone();
    for name in &head {
        if !HEAD.contains(&name) {
            let mend = format!("Columns are {}", HEAD.join(", "));
            return Err(Note::error(
                "line 1",
                format!("There is no column “{}”", potset_base::words::shortened(name, 40)),
                mend,
            ));
        }
    }
    if let Some(missing) = NEEDED.iter().find(|name| !head.iter().any(|own| own == **name)) {
        let title = format!("The column “{missing}” is missing");
        return Err(Note::error("line 1", title, format!("Give at least {} and a time", NEEDED.join(", "))));
    }
    let mut all: Vec<BatchRows> = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|e| broken(&e))?;
        let row = Row { head: &head, record: &record };
        let (name, culture_in) = (row.text("batch"), row.text("culture_in"));
        let place = all.iter().position(|rows| rows.are_of(&name, &culture_in));
        let place = place.unwrap_or_else(|| {
            let (code, zone) = (row.text("code"), row.text("zone"));
            all.push(BatchRows { name, code, culture_in, zone, readings: Vec::new() });
            all.len() - 1
        });
        let reading = row.reading(&all[place])?;
        all[place].readings.push(reading);
    }
    Ok(all)
}

struct Row<'a> {
    head: &'a StringRecord,
    record: &'a StringRecord,
}

impl Row<'_> {
    fn cell(&self, name: &str) -> &str {
        let at = self.head.iter().position(|own| own == name);
        at.and_then(|at| self.record.get(at)).unwrap_or_default()
    }

    fn text(&self, name: &str) -> String {
        as_written(self.cell(name)).to_owned()
    }

    fn fault(&self, name: &str, title: String, mend: &str) -> Note {
        let line = self.record.position().map_or(1, csv::Position::line);
        Note::error(format!("line {line}, {name}"), title, mend)
    }

    fn reading(&self, batch: &BatchRows) -> Result<BatchReading, Note> {
        let what = self.what()?;
        if let Some(fault) = value_fault("value", what) {
            return Err(Note { mend: fault.mend, ..self.fault("value", fault.title, "") });
        }
        let [note, photo, who] = ["note", "photo", "who"].map(|name| self.text(name));
        Ok(BatchReading { at_h: self.at_h(batch)?, what, note, photo, who })
    }

    /// Hours from the culture: as the table has them, else from the time.
    fn at_h(&self, batch: &BatchRows) -> Result<f64, Note> {
        let hours = self.cell("at_h");
        if !hours.is_empty() {
            let read = hours.parse::<f64>().ok().or_else(|| number::parse(hours)).filter(|h| h.is_finite());
            return read.ok_or_else(|| {
                self.fault("at_h", format!("“{hours}” is no number"), "Give hours from the culture, as 6.5")
            });
        }
        let zone = Zone::named(&batch.zone).unwrap_or_default();
        let time = Moment::parse(self.cell("time")).zip(Moment::parse(&batch.culture_in));
        time.map(|(time, start)| time.hours_since_in(&zone, start)).ok_or_else(|| {
            let title = "There is no time in this row".to_owned();
            self.fault("time", title, "Give at_h, or time and culture_in as 2026-11-26 18:30")
        })
    }

    fn number(&self) -> Result<f64, Note> {
        let text = self.cell("value");
        text.parse::<f64>()
            .ok()
            .or_else(|| number::parse(text))
            .ok_or_else(|| self.fault("value", format!("“{text}” is no number"), "Write it as 4.9"))
    }

    fn word<T: Copy>(&self, words: impl IntoIterator<Item = (&'static str, T)>) -> Result<T, Note> {
        let text = self.cell("value");
        let all: Vec<(&str, T)> = words.into_iter().collect();
        let found = all.iter().find(|(word, _)| *word == text).map(|(_, value)| *value);
        let known = || all.iter().map(|(word, _)| *word).collect::<Vec<_>>().join(", ");
        found.ok_or_else(|| {
            self.fault("value", format!("I don't know “{text}”"), &format!("Give one of {}", known()))
        })
    }

    fn what(&self) -> Result<Observed, Note> {
        Ok(match self.cell("kind") {
            "ph" => Observed::Ph(self.number()?),
            "strip" => Observed::Strip(self.number()?),
            "acidity" => Observed::Acidity(self.acidity_unit()?.percent(self.number()?)),
            "warmth" => Observed::Warmth(self.celsius(self.number()?)?),
            "tang" => Observed::Tang(self.word(TangWord::WORDS.into_iter().zip(TangWord::ALL))?),
            "sweetness" => Observed::Sweetness(self.word(SweetWord::WORDS.into_iter().zip(SweetWord::ALL))?),
            "texture" => Observed::Texture(self.word(TextureWord::WORDS.into_iter().zip(TextureWord::ALL))?),
            "spread" => Observed::LineSpread(self.number()?),
            "thin_layer" => Observed::ThinLayer(self.number()?),
            "whey" => Observed::Whey(self.number()?),
            "remark" => Observed::Remark,
            other => {
                let kinds =
                    "ph, strip, acidity, warmth, tang, sweetness, texture, spread, thin_layer, whey, remark";
                let title = format!("I don't know the kind “{}”", potset_base::words::shortened(other, 40));
                return Err(self.fault("kind", title, &format!("Give one of {kinds}")));
            }
        })
    }

    fn acidity_unit(&self) -> Result<AcidityUnit, Note> {
        let text = self.cell("unit");
        let found = AcidityUnit::ALL.into_iter().find(|unit| unit.words() == text);
        found.or_else(|| matches!(text, "" | "%").then_some(AcidityUnit::Lactic)).ok_or_else(|| {
            let mend = format!("Give one of {}", AcidityUnit::WORDS.join(", "));
            self.fault("unit", format!("I don't know the unit “{text}”"), &mend)
        })
    }

    /// A warmth, °C, from its unit.
    fn celsius(&self, value: f64) -> Result<f64, Note> {
        let text = self.cell("unit").to_lowercase();
        if text.is_empty() {
            return Ok(value);
        }
        let scale = typed_degrees(&text).and_then(|degrees| scale_in(WARMTH, degrees));
        scale
            .map(|scale| scale.back(value))
            .ok_or_else(|| self.fault("unit", format!("I don't know the unit “{text}”"), "Give °C or °F"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn one(rows: &str) -> Result<BatchReading, Note> {
        read(rows).map(|all| all[0].readings[0].clone())
    }

    #[test]
    fn a_table_by_hand_may_leave_out_columns_and_have_other_units() {
        let what = |rows: &str| one(rows).map(|reading| (reading.at_h, reading.what));
        let head = "batch,culture_in,time,kind,value,unit\nSix jars,2026-11-30 18:30,2026-11-30 21:30,";
        assert_eq!(what(&format!("{head}ph,\"4,9\",")), Ok((3.0, Observed::Ph(4.9))));
        assert_eq!(what(&format!("{head}warmth,104,°F")), Ok((3.0, Observed::Warmth(40.0))));
        assert_eq!(what(&format!("{head}acidity,62,°D")), Ok((3.0, Observed::Acidity(0.62))));
        assert_eq!(what(&format!("{head}tang,bright,")), Ok((3.0, Observed::Tang(TangWord::Bright))));
    }

    #[test]
    fn what_cannot_be_read_is_told_with_line_and_mend() {
        let head = "batch,culture_in,at_h,kind,value,unit\n";
        for (rows, parts) in [
            ("batch,colour\n", ["There is no column “colour”", "Columns are batch"]),
            ("batch,kind\n", ["“culture_in” is missing", "line 1"]),
            (&format!("{head}a,2026-11-30 18:30,6,ph,soon,"), ["line 2, value", "“soon” is no number"]),
            (&format!("{head}a,2026-11-30 18:30,6,ph,49,"), ["line 2, value", "2.5 to 9"]),
            (&format!("{head}a,2026-11-30 18:30,,ph,4.9,"), ["line 2, time", "no time in this row"]),
            (&format!("{head}a,2026-11-30 18:30,6,mood,4.9,"), ["“mood”", "ph, strip"]),
            (&format!("{head}a,2026-11-30 18:30,6,acidity,4,mol"), ["unit “mol”", "°SH"]),
            (&format!("{head}a,2026-11-30 18:30,6,tang,4,"), ["I don't know “4”", "flat, mild"]),
            (&format!("{head}a,b"), ["line 2", "all columns"]),
        ] {
            let note = read(rows).unwrap_err().line();
            assert!(parts.iter().all(|part| note.contains(part)), "{rows}: {note}");
        }
    }
}
