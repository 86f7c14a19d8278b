//! What tests and the demo shop are made with: sources in readable files, a seeded source of
//! randomness, and vacuum readings that the core's own physics gives.
#![deny(missing_docs)]

pub mod demo;
pub mod seeded;
