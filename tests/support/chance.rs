//! Chance from a seed, the same on every machine.

/// A small generator of chance numbers (splitmix64: Steele, Lea and Flood, OOPSLA 2014): one seed, one sequence, everywhere.
pub struct Chance(u64);

impl Chance {
    /// Begins a sequence.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next number below `below`.
    pub fn below(&mut self, below: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (z ^ (z >> 31)) % below
    }
}
