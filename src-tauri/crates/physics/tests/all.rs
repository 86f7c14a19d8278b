//! All tests of the `physics` crate against its public parts, in one program: one thing to link
//! instead of 10. `npm test` fails if a file beside this one is not named here.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

mod main_regulator_any;
mod main_regulator_laws;
mod main_regulator_reference;
mod reference_air;
mod reference_liquid;
mod regulator_any;
mod regulator_dynamic_laws;
mod regulator_dynamic_reference;
mod regulator_laws;
mod regulator_reference;
mod regulator_support;
mod regulator_windows;
