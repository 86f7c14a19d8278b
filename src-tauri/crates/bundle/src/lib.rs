//! Bundle.
