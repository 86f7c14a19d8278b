//! Store.
