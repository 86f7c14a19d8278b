//! What a bundle would bring to a store, and bringing it.

use std::collections::BTreeSet;
use std::io::{Read, Seek};

use journal::{DeviceId, PublicKey};
use store::{Applied, Store, StoreError};

use crate::error::BundleError;
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

impl Plan {
    /// What is to be said of a bundle from this courier that would bring this.
    ///
    /// # Errors
    /// [`StoreError`] if the store can't be read.
    pub fn of(store: &Store, courier: PublicKey, brings: Applied) -> Result<Self, StoreError> {
        let known: BTreeSet<_> = store
            .devices()?
            .into_iter()
            .map(|(device, _)| device)
            .collect();
        let courier = courier.device();
        let mut strangers: BTreeSet<_> = brings.signers.keys().copied().collect();
        strangers.insert(courier);
        strangers.remove(&store.device());
        strangers.retain(|device| !known.contains(device));
        Ok(Self {
            brings,
            courier,
            strangers,
        })
    }
}

/// Works out what [`apply`] would do. Changes nothing.
///
/// # Errors
/// [`BundleError::Store`] if the store can't be read; [`BundleError::Changed`] if the file is
/// another since it was checked.
pub fn plan<R: Read + Seek>(store: &mut Store, bundle: &Checked<R>) -> Result<Plan, BundleError> {
    let brings = store.plan(bundle)?;
    Ok(Plan::of(store, bundle.courier(), brings)?)
}

/// Adds what the bundle holds to the store, in one transaction.
///
/// # Errors
/// [`BundleError::Store`] if the store can't be written; [`BundleError::Changed`] if the file is
/// another since it was checked. The store is as before then.
pub fn apply<R: Read + Seek>(
    store: &mut Store,
    bundle: &Checked<R>,
) -> Result<Applied, BundleError> {
    store.apply(bundle)
}
