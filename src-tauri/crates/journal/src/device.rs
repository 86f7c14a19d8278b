//! A device's key and what it signs.

use std::fmt;
use std::str::FromStr;

use ed25519_dalek::{Signer, SigningKey, VerifyingKey};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use crate::canonical::{from_hex, to_hex};
use crate::error::FormatError;
use crate::id::{DeviceId, text_serde};

/// A device's public key (Ed25519, RFC 8032), written as lower-case hexadecimal.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PublicKey([u8; 32]);

impl PublicKey {
    /// The key with these bytes; whether they are a key at all shows when a signature is checked.
    #[must_use]
    pub const fn from_bytes(bytes: [u8; 32]) -> Self {
        Self(bytes)
    }

    /// Its 32 bytes.
    #[must_use]
    pub const fn as_bytes(&self) -> &[u8; 32] {
        &self.0
    }

    /// The device that has this key.
    #[must_use]
    pub fn device(&self) -> DeviceId {
        DeviceId::of(&self.0)
    }

    /// Whether the signature was made with this key over this message. Strict: a weak key or a
    /// second spelling of a signature doesn't pass.
    #[must_use]
    pub fn verifies(&self, message: &[u8], signature: &Signature) -> bool {
        let signature = ed25519_dalek::Signature::from_bytes(&signature.0);
        VerifyingKey::from_bytes(&self.0)
            .is_ok_and(|key| key.verify_strict(message, &signature).is_ok())
    }
}

/// An Ed25519 signature, written as lower-case hexadecimal.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Signature([u8; 64]);

impl Signature {
    /// The signature with these bytes.
    #[must_use]
    pub const fn from_bytes(bytes: [u8; 64]) -> Self {
        Self(bytes)
    }

    /// Its 64 bytes.
    #[must_use]
    pub const fn as_bytes(&self) -> &[u8; 64] {
        &self.0
    }
}

macro_rules! hex_text {
    ($name:ident, $pattern:literal) => {
        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&to_hex(&self.0))
            }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, concat!(stringify!($name), "({})"), to_hex(&self.0))
            }
        }

        impl FromStr for $name {
            type Err = FormatError;

            fn from_str(text: &str) -> Result<Self, FormatError> {
                from_hex(text).map(Self)
            }
        }

        text_serde!($name, $pattern);
    };
}
hex_text!(PublicKey, "^[0-9a-f]{64}$");
hex_text!(Signature, "^[0-9a-f]{128}$");

/// A device's secret key. Shows itself to nobody: its debug form is the device's name.
#[derive(Clone)]
pub struct DeviceKey(SigningKey);

impl DeviceKey {
    /// The key with this secret: 32 random bytes.
    #[must_use]
    pub fn from_secret(secret: &[u8; 32]) -> Self {
        Self(SigningKey::from_bytes(secret))
    }

    /// The secret, for the store that keeps it.
    #[must_use]
    pub fn secret(&self) -> [u8; 32] {
        self.0.to_bytes()
    }

    /// The public half.
    #[must_use]
    pub fn public(&self) -> PublicKey {
        PublicKey(self.0.verifying_key().to_bytes())
    }

    /// The device that has this key.
    #[must_use]
    pub fn device(&self) -> DeviceId {
        self.public().device()
    }

    /// Signs a message. The same message gives the same signature.
    #[must_use]
    pub fn sign(&self, message: &[u8]) -> Signature {
        Signature(self.0.sign(message).to_bytes())
    }
}

impl fmt::Debug for DeviceKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "DeviceKey(of {})", self.device())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signatures_follow_rfc_8032() {
        // RFC 8032, section 7.1, test 2: a message of one byte.
        let key = DeviceKey::from_secret(
            &from_hex("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb").unwrap(),
        );
        assert_eq!(
            key.public().to_string(),
            "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c"
        );
        let signature = key.sign(&[0x72]);
        assert_eq!(
            signature.to_string(),
            concat!(
                "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da",
                "085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00"
            )
        );
        assert!(key.public().verifies(&[0x72], &signature));
        assert!(!key.public().verifies(&[0x73], &signature));
    }

    #[test]
    fn the_secret_is_not_shown() {
        let key = DeviceKey::from_secret(&[0x5a; 32]);
        assert!(!format!("{key:?}").contains("5a5a5a5a"));
    }

    #[test]
    fn a_key_of_small_order_verifies_nothing() {
        let mut identity = [0; 32];
        identity[0] = 1;
        let key = PublicKey::from_bytes(identity);
        let mut forged = [0; 64];
        forged[0] = 1;
        assert!(!key.verifies(b"anything", &Signature::from_bytes(forged)));
    }
}
