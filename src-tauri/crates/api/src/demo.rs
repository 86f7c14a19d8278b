//! The demo shop that a new store starts with: the bundle that `demo-db/` builds, taken in the way
//! any bundle is.

use store::Store;

use crate::error::ApiError;

/// The bundle, as built from its sources and compared in the check.
const BUNDLE: &[u8] = include_bytes!("../../../../demo-db/demo-shop.vvb");

/// Puts the demo shop into a store.
///
/// # Errors
/// [`ApiError`] when the store can't be written; the bundle itself is checked when it is built.
pub(crate) fn load(store: &mut Store) -> Result<(), ApiError> {
    let checked = bundle::read(BUNDLE).map_err(ApiError::internal)?;
    bundle::apply(store, &checked)?;
    Ok(())
}
