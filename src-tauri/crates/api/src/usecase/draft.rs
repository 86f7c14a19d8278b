//! Half-typed input.

use serde_json::Value;

use crate::App;
use crate::app::to_json;
use crate::dto::{DraftAnswer, DraftKey, DraftPut, Nothing};
use crate::error::ApiError;
use crate::table::DONE;

/// Keeps a draft.
pub(crate) fn put(app: &App, args: DraftPut) -> Result<Nothing, ApiError> {
    app.store()?
        .put_draft(&args.key, &to_json(&args.value)?, app.now())?;
    Ok(DONE)
}

/// Finds a draft again. One that can't be read any more counts as none.
pub(crate) fn get(app: &App, args: DraftKey) -> Result<DraftAnswer, ApiError> {
    let draft = app.store()?.draft(&args.key)?;
    let value: Option<Value> = draft.and_then(|draft| serde_json::from_str(&draft.json).ok());
    Ok(DraftAnswer { value })
}

/// Drops a draft.
pub(crate) fn clear(app: &App, args: DraftKey) -> Result<Nothing, ApiError> {
    app.store()?.clear_draft(&args.key)?;
    Ok(DONE)
}
