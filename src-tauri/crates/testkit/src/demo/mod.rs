//! The demo shop: readable sources in `demo-db/` to a signed bundle.
//!
//! A source file lists records (`[[record]]`: who, when, what kind, the body in SI; `[[job]]`,
//! `[[cautions]]` and `[[note]]` are short forms), times without exchange (`[[away]]`) and vacuum
//! tests (`[[test]]`: who, when, and the **true** state of the bore). The readings of a test come
//! from the core's own model of bore and stand, plus the gauge's noise and step; so the demo obeys
//! the physics by construction. Likewise pressures at a tap (`[[tap_reading]]`), hot-oil checks
//! (`[[oil_check]]`) and the sizes of a machining sheet (`[[sheet]]`); what is open when a sheet or
//! a job is signed (`[[sign_off]]`) comes from the core too. Text that begins with `@` names
//! another subject, `@subject/kind` the record that stands of it.

use std::path::PathBuf;
use std::sync::{Arc, OnceLock};

use model::Id;
use model::unit::BoreProfile;
use store::{Setup, Store};

mod body;
mod error;
mod event;
mod instrument;
mod job;
mod machined;
mod people;
mod pressure;
mod reading;
mod source;
mod trial;
mod write;

pub use error::DemoError;
pub use write::{Truth, build, sources, true_clearances};

/// The folder of the demo's sources in this checkout.
#[must_use]
pub fn folder() -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../../../demo-db"))
}

/// The demo shop in a store in memory.
///
/// # Errors
/// [`DemoError`] when the sources don't build.
pub fn store() -> Result<Store, DemoError> {
    let built = build(&folder())?;
    let bundle = bundle::read(&built).map_err(|error| DemoError::Bundle(error.to_string()))?;
    let mut store = Store::open_in_memory(Setup::new(Arc::new(api::ModelProjector)))?;
    bundle::apply(&mut store, &bundle).map_err(|error| DemoError::Bundle(error.to_string()))?;
    Ok(store)
}

/// The profile of a demo unit's first bore.
///
/// # Errors
/// [`DemoError::Unknown`] when no unit has that name.
pub fn profile(unit_name: &str) -> Result<BoreProfile, DemoError> {
    // Many tests of one program ask, and playing the whole story takes a while.
    static PROFILES: OnceLock<Vec<BoreProfile>> = OnceLock::new();
    let profiles = match PROFILES.get() {
        Some(profiles) => profiles,
        None => {
            let read = profiles()?;
            PROFILES.get_or_init(|| read)
        }
    };
    let found = profiles
        .iter()
        .find(|profile| profile.unit.name == unit_name);
    found
        .cloned()
        .ok_or_else(|| DemoError::Unknown(unit_name.to_owned()))
}

fn profiles() -> Result<Vec<BoreProfile>, DemoError> {
    let store = store()?;
    let bores = store.subjects_of_kind(&journal::Kind::literal("bore"))?;
    let read = |bore: &journal::SubjectId| {
        api::bore_profile(&store, Id::from_bytes(*bore.as_bytes()))
            .map_err(|error| DemoError::Profile(error.to_string()))
    };
    bores.iter().map(read).collect()
}
