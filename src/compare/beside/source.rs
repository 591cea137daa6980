//! Where a forecast to be put beside others can come from: whatever can be had as a design.

use potset_base::Note;
use potset_doc::evidence::{Case, Setup, What};
use potset_doc::{Design, Pantry};
use potset_forecast::evidence::{Knobs, design};

/// A published or own reading to be shown with a forecast.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    pub what: What,
    pub value: f64,
    /// One sigma, or a factor where [`What::by_factor`].
    pub sigma: f64,
}

/// Something that can give a forecast: an open design, a file, a published case.
pub trait ForecastSource {
    /// What it is called.
    fn name(&self) -> String;

    /// Where it comes from, in words.
    fn place(&self) -> String;

    /// The design that is forecast.
    ///
    /// # Errors
    /// Why there is none.
    fn design(&self, pantry: &Pantry) -> Result<Design, Note>;

    /// What was measured of it.
    fn measured(&self) -> Vec<Measured> {
        Vec::new()
    }
}

/// A design at hand, and where it comes from.
#[derive(Clone, Copy, Debug)]
pub struct OfDesign<'a> {
    pub design: &'a Design,
    pub place: &'a str,
}

impl ForecastSource for OfDesign<'_> {
    fn name(&self) -> String {
        self.design.name.clone()
    }

    fn place(&self) -> String {
        self.place.to_owned()
    }

    fn design(&self, _: &Pantry) -> Result<Design, Note> {
        Ok(self.design.clone())
    }
}

/// A published case: its pot as a design, nothing fitted to its readings.
#[derive(Clone, Copy, Debug)]
pub struct OfCase<'a>(pub &'a Case);

impl OfCase<'_> {
    /// Whether its curves can be shown: a pot with readings of its hold.
    pub fn shown(&self) -> bool {
        matches!(self.0.setup, Setup::Pot(_)) && self.0.readings.iter().any(|r| follows_the_hold(&r.what))
    }
}

const fn follows_the_hold(what: &What) -> bool {
    matches!(what, What::Ph(_) | What::AcidMade(_) | What::Sugar(..) | What::HoursTo(_))
}

impl ForecastSource for OfCase<'_> {
    fn name(&self) -> String {
        self.0.name.clone()
    }

    fn place(&self) -> String {
        format!("published: {}", self.0.citation)
    }

    fn design(&self, pantry: &Pantry) -> Result<Design, Note> {
        let Setup::Pot(pot) = &self.0.setup else {
            return Err(Note::error(
                self.0.key.clone(),
                "This case has no hold, and so no curves",
                "Pick a case with a pot",
            ));
        };
        let mut made = design(pot, pot.hold_c, &Knobs::NONE, pantry)?;
        made.name = self.name();
        made.refresh_snapshot(pantry);
        Ok(made)
    }

    fn measured(&self) -> Vec<Measured> {
        let own = |r: &potset_doc::evidence::Reading| Measured {
            what: r.what.clone(),
            value: r.value,
            sigma: r.sigma().0,
        };
        self.0.readings.iter().map(own).collect()
    }
}
