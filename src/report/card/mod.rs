//! The card.
use potset_base::hash::fnv1a;
use potset_doc::{Design, format};

const SIGNS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const LONG: u32 = 6;

/// The short code by which a printed card finds its design again.
pub fn code(design: &Design) -> String {
    let hash = fnv1a(format::write(design).unwrap_or_default().bytes());
    (0..LONG).map(|k| char::from(SIGNS[(hash >> (59 - 5 * k)) as usize & 31])).collect()
}
