//! journal
