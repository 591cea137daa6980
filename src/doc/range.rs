//! What a number may be.

use potset_base::{Note, number, units};

/// Range and unit of one kind of number in a design: (name, unit, least, most).
pub type Range = (&'static str, &'static str, f64, f64);

/// What is wrong with a number that does not lie within its range.
pub fn fault(
    field: impl Into<String>,
    name: &str,
    unit: &str,
    v: f64,
    (least, most): (f64, f64),
) -> Option<Note> {
    if (least..=most).contains(&v) {
        return None;
    }
    let scale = units::scale(unit);
    // A tenth of a °F is enough to tell what is wrong.
    let plain = |v: f64| if scale.other() { number::figures(scale.shown(v), 4) } else { number::plain(v) };
    let shown = if v.is_finite() { plain(v) } else { "not a number".to_owned() };
    let mend = format!("Give {} to {} {}", plain(least), plain(most), scale.unit);
    let title = format!("{name} is out of range");
    Some(Note { sentence: format!("The value is {shown}"), ..Note::error(field, title, mend.trim_end()) })
}
