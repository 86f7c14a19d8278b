//! The one number type that may cross a boundary: never NaN, never infinite.

use std::fmt;
use std::ops::Deref;

use schemars::JsonSchema;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A finite `f64`. JSON has no NaN and `serde_json` would write one as `null`, so a number that
/// might be NaN must not reach it: this type can't hold one.
#[derive(Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Finite(f64);

impl Finite {
    /// Zero.
    pub const ZERO: Self = Self(0.0);

    /// The number, if it is finite.
    #[must_use]
    pub fn new(value: f64) -> Option<Self> {
        value.is_finite().then_some(Self(value))
    }

    /// The plain number.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }
}

/// A number that is NaN or infinite where a finite one is needed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("not a finite number")]
pub struct NotFinite;

impl TryFrom<f64> for Finite {
    type Error = NotFinite;
    fn try_from(value: f64) -> Result<Self, NotFinite> {
        Self::new(value).ok_or(NotFinite)
    }
}

impl Deref for Finite {
    type Target = f64;
    fn deref(&self) -> &f64 {
        &self.0
    }
}

impl fmt::Debug for Finite {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(&self.0, f)
    }
}

impl Serialize for Finite {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(self.0)
    }
}

impl<'de> Deserialize<'de> for Finite {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let value = f64::deserialize(deserializer)?;
        Self::new(value).ok_or_else(|| serde::de::Error::custom(NotFinite))
    }
}

impl JsonSchema for Finite {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Finite".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "number" })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn refuses_what_json_cannot_carry() {
        assert!(Finite::new(f64::NAN).is_none());
        assert!(Finite::new(f64::INFINITY).is_none());
        assert!(serde_json::from_str::<Finite>("1e999").is_err());
    }

    #[test]
    fn keeps_every_digit_through_json() {
        let stored = Finite::new(0.1 + 0.2).unwrap();
        let text = serde_json::to_string(&stored).unwrap();
        assert_eq!(serde_json::from_str::<Finite>(&text).unwrap(), stored);
    }
}
