//! The demo shop that a new store starts with.

use store::Store;

use crate::error::ApiError;

/// Puts the demo shop into a store.
pub(crate) fn load(_store: &mut Store) -> Result<(), ApiError> {
    Ok(())
}
