//! What tests and the demo shop are made with: sources in readable files, a seeded source of
//! randomness, vacuum readings that the core's own physics gives, and a shop of any size.
#![deny(missing_docs)]

pub mod demo;
pub mod large;
pub mod seeded;
