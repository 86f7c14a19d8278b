//! The use cases of the app and the one table of its commands.
#![deny(missing_docs)]

pub mod dto;
mod error;

pub use error::{ApiError, ErrorCode};
