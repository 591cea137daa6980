//! A number that stands for some bytes, the same on every machine and in every version of the program.

/// Hash of bytes.
///
/// Source: published, Fowler, Noll and Vo 1991 (FNV-1a, 64 bits).
pub fn fnv1a(bytes: impl IntoIterator<Item = u8>) -> u64 {
    bytes
        .into_iter()
        .fold(0xCBF2_9CE4_8422_2325, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01B3))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hash_is_that_of_its_authors() {
        // Source: published, test vectors of FNV-1a 64 (draft-eastlake-fnv): "", "a", "foobar".
        for (text, hash) in
            [("", 0xCBF2_9CE4_8422_2325), ("a", 0xAF63_DC4C_8601_EC8C), ("foobar", 0x8594_4171_F739_67E8)]
        {
            assert_eq!(fnv1a(text.bytes()), hash, "{text}");
        }
    }
}
