//! From evidence to consequence: what a vacuum reading says about a bore, and what the bore's leak
//! does to the regulated pressure.
#![deny(missing_docs)]

pub mod judgement;
