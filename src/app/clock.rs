//! The one place that reads the clock.

use std::time::{SystemTime, UNIX_EPOCH};

use potset_base::clock::{Moment, Zone};

/// What the clock of a zone shows now; nothing where the system's clock stands before 1970.
pub fn now(zone: &Zone) -> Option<Moment> {
    #[expect(clippy::disallowed_methods, reason = "the one place that reads the clock")]
    let since = SystemTime::now().duration_since(UNIX_EPOCH).ok()?;
    Some(Moment::of_instant(i64::try_from(since.as_secs()).ok()?, zone))
}
