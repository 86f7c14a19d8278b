//! The demo shop that a new store starts with: the bundle that `demo-db/` builds, taken in the way
//! any bundle is, so that it can be taken out and brought back.

use journal::WallTime;
use model::Kind;
use store::{Standing, Store};

use crate::app::to_json;
use crate::error::ApiError;
use crate::journal_io::{body, kind_name};
use crate::usecase::exchange::Label;

/// The bundle, as built from its sources and compared in the check.
const BUNDLE: &[u8] = include_bytes!("../../../../demo-db/demo-shop.vvb");

/// Puts the demo shop into a store; how many records were new, and the import.
///
/// # Errors
/// [`ApiError`] when the store can't be written; the bundle itself is checked when it is built.
pub(crate) fn load(store: &mut Store, now: WallTime) -> Result<(usize, Option<i64>), ApiError> {
    let checked = bundle::read(BUNDLE).map_err(ApiError::internal)?;
    let label = Label {
        name: "demo-shop.vvb".to_owned(),
        made_by: String::new(),
        demo: true,
    };
    let (applied, import) = store.take_in(checked.batch(), &to_json(&label)?, now)?;
    Ok((applied.new_records, import))
}

/// Whether the demo shop is here, however it came.
pub(crate) fn is_here(store: &Store) -> Result<bool, ApiError> {
    let is_demo = |standing: &Standing| {
        let shop = standing.lead().and_then(body::<model::person::Shop>);
        shop.is_some_and(|shop| shop.demo)
    };
    let shops = store.standing_of_kind(&kind_name(Kind::Shop))?;
    Ok(shops.iter().any(|(_, standing)| is_demo(standing)))
}
