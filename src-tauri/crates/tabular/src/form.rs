//! How a table is written down.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How letters are written as bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Encoding {
    /// UTF-8, with or without a byte order mark.
    #[serde(rename = "utf8")]
    Utf8,
    /// UTF-16, its byte order told by a mark.
    #[serde(rename = "utf16")]
    Utf16,
    /// Windows-1252, as older programs of western Europe and America write.
    #[serde(rename = "windows1252")]
    Windows1252,
}

/// What stands between two cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Delimiter {
    /// A comma.
    Comma,
    /// A semicolon, where the comma is the decimal sign.
    Semicolon,
    /// A tab.
    Tab,
}

impl Delimiter {
    /// All of them; where two fit a text as well, the earlier is meant: a comma may be a decimal
    /// sign, a tab and a semicolon hardly anything else.
    pub(crate) const ALL: [Self; 3] = [Self::Tab, Self::Semicolon, Self::Comma];

    /// Its byte.
    #[must_use]
    pub const fn byte(self) -> u8 {
        match self {
            Self::Comma => b',',
            Self::Semicolon => b';',
            Self::Tab => b'\t',
        }
    }
}

/// What stands before the decimals.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Decimal {
    /// A point.
    Point,
    /// A comma.
    Comma,
}

/// How a table is written down.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Form {
    /// Its letters.
    pub encoding: Encoding,
    /// What stands between cells.
    pub delimiter: Delimiter,
    /// What stands before decimals.
    pub decimal: Decimal,
    /// True when the first line names the columns.
    pub header: bool,
}
