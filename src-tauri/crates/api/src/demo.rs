//! The demo shop that a new store starts with: the bundle that `demo-db/` builds, taken in the way
//! any bundle is, so that it can be taken out and brought back.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use journal::{CommitHash, DeviceId, WallTime};
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
    let (applied, import) = store.take_in(&checked, &label()?, now)?;
    Ok((applied.new_records, import))
}

/// Lets a demo shop that came before imports were remembered be taken out like any other. Nobody
/// but the demo's devices signs with their keys, so what these made is the demo, whichever
/// version of it this store began with.
///
/// # Errors
/// [`ApiError`] when the store can't be written.
pub(crate) fn adopt(store: &mut Store, now: WallTime) -> Result<(), ApiError> {
    if is_remembered(store)? || !is_here(store)? {
        return Ok(());
    }
    let checked = bundle::read(BUNDLE).map_err(ApiError::internal)?;
    let batch = checked.batch().map_err(ApiError::internal)?;
    let devices = batch
        .commits()
        .iter()
        .map(journal::Commit::device)
        .collect();
    store.adopt(&devices, &label()?, now)?;
    Ok(())
}

/// What the demo shop's devices signed, which is in every copy of this program.
static SIGNED: LazyLock<(BTreeSet<DeviceId>, BTreeSet<CommitHash>)> = LazyLock::new(|| {
    let batch = bundle::read(BUNDLE).and_then(|it| it.batch()).ok();
    let commits = batch.iter().flat_map(journal::CheckedBatch::commits);
    commits
        .map(|commit| (commit.device(), commit.hash()))
        .unzip()
});

/// Whether this device made the demo shop. Its key is written in the demo's source, so this alone
/// says nothing about who signs with it.
pub(crate) fn made(device: DeviceId) -> bool {
    SIGNED.0.contains(&device)
}

/// Whether this action is one of the demo shop's own.
pub(crate) fn holds(commit: &journal::Commit) -> bool {
    SIGNED.1.contains(&commit.hash())
}

/// Whether the demo came by an import that is remembered: then reading the bundle at each start
/// would find nothing to do.
fn is_remembered(store: &Store) -> Result<bool, ApiError> {
    let of_demo =
        |label: &String| serde_json::from_str::<Label>(label).is_ok_and(|label| label.demo);
    Ok(store.import_labels()?.iter().any(of_demo))
}

fn label() -> Result<String, ApiError> {
    to_json(&Label {
        name: "demo-shop.vvb".to_owned(),
        made_by: String::new(),
        demo: true,
    })
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
