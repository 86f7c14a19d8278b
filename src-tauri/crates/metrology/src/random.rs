//! Random numbers that depend on the seed and the chunk alone.
//!
//! ChaCha with 8 rounds: each chunk of trials is a stream of its own of one counter-based
//! generator, so whichever thread takes a chunk draws the same numbers, and no two chunks share
//! any.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

/// The numbers of one chunk.
pub(crate) struct Stream(ChaCha8Rng);

impl Stream {
    pub fn new(seed: u64, chunk: u64) -> Self {
        let mut generator = ChaCha8Rng::seed_from_u64(seed);
        generator.set_stream(chunk);
        Self(generator)
    }

    /// Between 0 and 1, neither included, in steps of 2^-53.
    #[inline]
    pub fn uniform(&mut self) -> f64 {
        const STEP: f64 = 1.0 / (1u64 << 53) as f64;
        ((self.0.next_u64() >> 11) as f64 + 0.5) * STEP
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chunk_is_the_same_each_time_and_differs_from_its_neighbour() {
        let first = |seed, chunk| {
            let mut stream = Stream::new(seed, chunk);
            [stream.uniform(), stream.uniform(), stream.uniform()]
        };
        assert_eq!(first(1, 7), first(1, 7));
        assert_ne!(first(1, 7), first(1, 8));
        assert_ne!(first(1, 7), first(2, 7));
    }

    #[test]
    fn uniform_numbers_fill_the_unit_interval_evenly() {
        // Chi-square over 100 bins, 99 degrees of freedom: 99.9 % lie below 149 (NIST/SEMATECH
        // e-Handbook, table 1.3.6.7.4: 149.449 for 100; from memory).
        let mut bins = [0.0f64; 100];
        let mut stream = Stream::new(20_261_125, 0);
        for _ in 0..100_000 {
            let u = stream.uniform();
            assert!(u > 0.0 && u < 1.0);
            bins[(u * 100.0) as usize] += 1.0;
        }
        let chi2: f64 = bins.iter().map(|n| (n - 1000.0).powi(2) / 1000.0).sum();
        assert!(chi2 < 149.0, "{chi2}");
    }
}
