//! How cultures age: cells lost, and the work that is left to be done before they grow.

use crate::params::Laws;
use potset_numerics::interpolate::linear;

/// Days in a month, for loss rates.
const MONTH_DAYS: f64 = 30.44;

/// What age did to a culture.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Aged {
    /// Decades of living cells lost.
    pub decades: f64,
    /// Work to be done that came on top.
    pub lag_work: f64,
}

/// A dry culture: `log10 N = log10 N0 − r(T) · months`, faster in an open packet; lag grows with the decades lost.
///
/// - `days` — age; `kept_c` — °C where it was kept.
/// - Source: first order published, Alaeddinoglu et al.; rates derived and from memory, see `dry_loss`; lag assumed.
pub fn dry(days: f64, kept_c: f64, opened: bool, laws: &Laws) -> Aged {
    let open = if opened { laws.ageing.open_factor } else { 1.0 };
    let decades = linear(&laws.dry_loss, kept_c) * open * days / MONTH_DAYS;
    Aged { decades, lag_work: laws.ageing.lag_per_decade * decades }
}

/// Back-slop or a liquid culture from the fridge: its own loss a month, and more work with each day.
pub fn wet(days: f64, laws: &Laws) -> Aged {
    Aged {
        decades: laws.ageing.slop_loss_month * days / MONTH_DAYS,
        lag_work: laws.ageing.slop_lag_day * days,
    }
}
