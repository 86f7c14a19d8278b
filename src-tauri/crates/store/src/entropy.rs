//! Where random bytes come from.

use crate::error::StoreError;

/// A source of random bytes, for identifiers, salts and this device's key.
pub trait Entropy: Send {
    /// Fills the buffer.
    ///
    /// # Errors
    /// [`StoreError::Entropy`] if the source has failed.
    fn fill(&mut self, buffer: &mut [u8]) -> Result<(), StoreError>;
}

/// The operating system's random bytes, fit for keys.
#[derive(Debug, Clone, Copy, Default)]
pub struct OsEntropy;

impl Entropy for OsEntropy {
    fn fill(&mut self, buffer: &mut [u8]) -> Result<(), StoreError> {
        getrandom::fill(buffer).map_err(|error| StoreError::Entropy(error.to_string()))
    }
}

pub(crate) fn draw<const N: usize>(source: &mut dyn Entropy) -> Result<[u8; N], StoreError> {
    let mut bytes = [0; N];
    source.fill(&mut bytes)?;
    Ok(bytes)
}
