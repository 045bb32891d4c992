//! Random numbers from a seed, the same on every machine.

/// A small random number generator (splitmix64: Steele, Lea and Flood, OOPSLA 2014): a seed gives the same sequence everywhere.
pub struct Chance(u64);

impl Chance {
    /// The generator with this seed.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The generator for one thing of a home: the thing's name is hashed (FNV-1a, 64 bits) into the home's seed.
    #[allow(dead_code, reason = "each test file takes what it needs")]
    pub fn of(seed: u64, name: &str) -> Self {
        let hash = name
            .bytes()
            .fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3));
        let mut mixed = Self::new(seed ^ hash);
        mixed.below(u64::MAX);
        mixed
    }

    /// The next random number, less than `below`.
    pub fn below(&mut self, below: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (z ^ (z >> 31)) % below
    }
}
