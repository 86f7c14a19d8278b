//! What a bundle would bring to a store, and bringing it.

use std::collections::BTreeSet;

use journal::DeviceId;
use store::{Applied, Store, StoreError};

use crate::read::Checked;

/// What applying a bundle would do, for a person to look at first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// New, same, newer, concurrent and unknown records, and who signed the commits.
    pub brings: Applied,
    /// The device that made the bundle.
    pub courier: DeviceId,
    /// Devices, the courier and signers among them, that have signed nothing in this store yet.
    pub strangers: BTreeSet<DeviceId>,
}

/// Works out what [`apply`] would do. Changes nothing.
///
/// # Errors
/// [`StoreError`] if the store can't be read.
pub fn plan(store: &mut Store, bundle: &Checked) -> Result<Plan, StoreError> {
    let known: BTreeSet<_> = store
        .devices()?
        .into_iter()
        .map(|(device, _)| device)
        .collect();
    let brings = store.plan(bundle.batch())?;
    let courier = bundle.courier().device();
    let mut strangers: BTreeSet<_> = brings.signers.keys().copied().collect();
    strangers.insert(courier);
    strangers.remove(&store.device());
    strangers.retain(|device| !known.contains(device));
    Ok(Plan {
        brings,
        courier,
        strangers,
    })
}

/// Adds what the bundle holds to the store, in one transaction.
///
/// # Errors
/// [`StoreError`] if the store can't be written; it is as before then.
pub fn apply(store: &mut Store, bundle: &Checked) -> Result<Applied, StoreError> {
    store.apply(bundle.batch())
}
