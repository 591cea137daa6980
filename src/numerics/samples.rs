//! Seeded numbers: the one generator of the program, and points that fill a cube of any number of sides evenly.

/// A seeded generator of evenly spread numbers: SplitMix64. The same seed gives the same numbers on every machine.
///
/// `s ← s + 0x9E3779B97F4A7C15; z = (s ⊕ s≫30)·0xBF58476D1CE4E5B9; z = (z ⊕ z≫27)·0x94D049BB133111EB; z ⊕ z≫31`
///
/// Source: published, Steele, Lea and Flood 2014, "Fast splittable pseudorandom number generators".
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Generator(u64);

impl Generator {
    /// A generator for a seed.
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next 64 bits.
    pub const fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number from 0 to below 1, in steps of 2^-53: its 53 bits are exact.
    pub const fn unit(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A whole number from 0 to below `n`; 0 if `n` is 0.
    pub const fn below(&mut self, n: usize) -> usize {
        ((self.bits() as u128 * n as u128) >> 64) as usize
    }

    /// Puts a list into a random order (Fisher and Yates' shuffle).
    pub fn shuffle<T>(&mut self, list: &mut [T]) {
        for i in (1..list.len()).rev() {
            list.swap(i, self.below(i + 1));
        }
    }
}

/// Places 0 to 1 of `n` points along one side, so that the points fill the side evenly both when the first `first` are
/// looked at and when all are: a Latin hypercube side by side, nested.
///
/// The side is cut into `first` strata, each of the first points lies in one of its own. Then it is cut into `n` cells; each
/// of the later points takes a cell that holds none of the first. Which point takes which is drawn by seed and side, so
/// that the sides are independent.
///
/// Source: published, McKay, Beckman and Conover 1979 (Latin hypercube); Qian 2009 (nested ones; here the finer cells of
/// the first points are their own, whatever the ratio of the two sizes).
pub fn side(seed: u64, side: u64, first: usize, n: usize) -> Vec<f64> {
    // Seeds and sides that follow each other give unlike streams: the first is mixed before the second comes in.
    let mut draw = Generator::new(Generator::new(seed).bits() ^ Generator::new(side).bits().rotate_left(32));
    let first = first.min(n);
    let mut strata: Vec<usize> = (0..first).collect();
    draw.shuffle(&mut strata);
    let mut at: Vec<f64> = strata.iter().map(|s| (*s as f64 + draw.unit()) / first as f64).collect();
    let mut held = vec![0_usize; n];
    for u in &at {
        held[((u * n as f64) as usize).min(n - 1)] += 1;
    }
    // Two of the first may share a cell where `n` is no multiple of `first`; then one cell too many is free, and stays so.
    let mut free: Vec<usize> = (0..n).filter(|cell| held[*cell] == 0).collect();
    draw.shuffle(&mut free);
    at.extend(free.iter().take(n - first).map(|cell| (*cell as f64 + draw.unit()) / n as f64));
    at
}
