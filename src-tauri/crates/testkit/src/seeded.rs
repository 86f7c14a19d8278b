//! Randomness that comes out the same every time.

use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha20Rng;
use store::{Entropy, StoreError};

/// Random bytes from a seed, for stores whose identifiers must come out the same every time.
/// Never for a real device: its key would be anybody's.
pub struct SeededEntropy(ChaCha20Rng);

impl SeededEntropy {
    /// From a text.
    #[must_use]
    pub fn new(seed: &str) -> Self {
        Self(generator(seed))
    }
}

impl Entropy for SeededEntropy {
    fn fill(&mut self, buffer: &mut [u8]) -> Result<(), StoreError> {
        self.0.fill_bytes(buffer);
        Ok(())
    }
}

/// A generator from a text.
#[must_use]
pub fn generator(seed: &str) -> ChaCha20Rng {
    ChaCha20Rng::from_seed(*blake3::hash(seed.as_bytes()).as_bytes())
}
