//! All tests of the `bundle` crate against its public parts, in one program: one thing to link
//! instead of 6. `npm test` fails if a file beside this one is not named here.

mod attachments;
mod bundles;
mod common;
mod hostile;
mod mutations;
mod schema;
mod seal;
