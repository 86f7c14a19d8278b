//! All tests of the `diagnosis` crate against its public parts, in one program: one thing to link
//! instead of 7. `npm test` fails if a file beside this one is not named here.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

mod bench;
mod card;
mod clutch;
mod consequence;
mod explore;
mod machining;
mod monte_carlo;
mod oil_check;
mod options;
mod refusals;
mod relief;
mod repair;
mod tap;
mod valve;
