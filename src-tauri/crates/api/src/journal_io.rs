//! Typed bodies in and out of the store.

use chrono::{DateTime, Utc};
use journal::{Kind as KindName, PersonId, RecordId, SubjectId, WallTime};
use model::{Id, Kind};
use serde::Serialize;
use serde::de::DeserializeOwned;
use store::{NewRecord, Standing, Store, StoreError, StoredRecord};

use crate::App;
use crate::dto::ReadBy;
use crate::error::{ApiError, ErrorCode};

/// Key of the setting that names who works on this device.
pub(crate) const AUTHOR: &str = "author";

impl From<StoreError> for ApiError {
    fn from(error: StoreError) -> Self {
        let detail = error.to_string();
        let code = match &error {
            StoreError::Locked => ErrorCode::StoreLocked,
            StoreError::ReadOnly => ErrorCode::StoreReadOnly,
            StoreError::DiskFull => ErrorCode::DiskFull,
            StoreError::NewerSchema { .. } => ErrorCode::NewerSchema,
            StoreError::NotAStore => ErrorCode::NotAStore,
            StoreError::Damaged(_) | StoreError::Verify(_) => ErrorCode::StoreDamaged,
            StoreError::CannotOpen(_) | StoreError::Io(_) => ErrorCode::Io,
            StoreError::NoTarget(_) | StoreError::NoBackup(_) => ErrorCode::NotFound,
            StoreError::Unsound(_) => ErrorCode::BackupUnsound,
            StoreError::NothingReadable(_) => ErrorCode::NothingReadable,
            StoreError::BuiltUpon { .. } => ErrorCode::BuiltUpon,
            _ => ErrorCode::Internal,
        };
        let api = Self::new(code).with("detail", detail);
        match error {
            StoreError::NewerSchema { found, known } => {
                api.with("found", found).with("known", known)
            }
            StoreError::BuiltUpon { records } => api.with("records", records),
            _ => api,
        }
    }
}

/// An identifier of the model as the journal's.
pub(crate) fn subject(id: Id) -> SubjectId {
    SubjectId::from_bytes(*id.as_bytes())
}

/// An identifier of the journal as the model's.
pub(crate) fn id(subject: SubjectId) -> Id {
    Id::from_bytes(*subject.as_bytes())
}

/// A record's identifier as the model's.
pub(crate) fn record_id(record: RecordId) -> Id {
    Id::from_bytes(*record.as_bytes())
}

/// A kind as the journal names it. The model's table holds only legal names, and a test of the
/// table says so.
pub(crate) fn kind_name(kind: Kind) -> KindName {
    KindName::literal(kind.name())
}

/// A typed body of a record; none when it is withheld, erased, or of a form that this program
/// doesn't read.
pub(crate) fn body<T: DeserializeOwned>(record: &StoredRecord) -> Option<T> {
    serde_json::from_slice(record.body()?).ok()
}

/// What stands for a subject and kind, leading record only.
pub(crate) fn lead<T: DeserializeOwned>(
    store: &Store,
    of: SubjectId,
    kind: Kind,
) -> Result<Option<T>, ApiError> {
    Ok(store.standing(of, &kind_name(kind))?.lead().and_then(body))
}

/// As [`lead`], for what must be there.
pub(crate) fn need<T: DeserializeOwned>(
    store: &Store,
    of: SubjectId,
    kind: Kind,
) -> Result<T, ApiError> {
    lead(store, of, kind)?.ok_or_else(|| ApiError::not_found(kind.name(), of))
}

/// All that stands for a subject and kind.
pub(crate) fn standing(store: &Store, of: SubjectId, kind: Kind) -> Result<Standing, ApiError> {
    Ok(store.standing(of, &kind_name(kind))?)
}

/// A new record of a kind. For a register it replaces what stands; an addition replaces nothing.
pub(crate) fn new_record<T: Serialize>(
    store: &Store,
    of: SubjectId,
    kind: Kind,
    value: &T,
) -> Result<NewRecord, ApiError> {
    let supersedes = if kind.adds() {
        Vec::new()
    } else {
        store.heads(of, &kind_name(kind))?
    };
    let read = serde_json::to_value(value).map_err(ApiError::internal)?;
    Ok(NewRecord {
        subject: of,
        kind: kind_name(kind),
        kind_version: kind.version_for(&read),
        supersedes,
        body: serde_json::to_vec(value).map_err(ApiError::internal)?,
        personal: kind.personal(),
    })
}

impl App {
    /// This moment as the journal counts it.
    pub(crate) fn now(&self) -> WallTime {
        WallTime::from_unix_ms(self.clock().now().timestamp_millis())
    }

    /// Writes records as one user action, signed by whoever is chosen.
    pub(crate) fn commit(
        &self,
        store: &mut Store,
        records: Vec<NewRecord>,
    ) -> Result<(), ApiError> {
        let author = author(store)?.ok_or_else(|| ApiError::new(ErrorCode::NoAuthor))?;
        store.append(records, person(author), self.now())?;
        Ok(())
    }
}

/// Who works on this device.
pub(crate) fn author(store: &Store) -> Result<Option<Id>, ApiError> {
    let chosen = store.setting(AUTHOR)?;
    Ok(chosen.and_then(|json| serde_json::from_str(&json).ok()))
}

/// A person's subject as the author of a record.
pub(crate) fn person(id: Id) -> PersonId {
    PersonId::from_bytes(*id.as_bytes())
}

/// Who wrote a record and when, by that device's clock.
pub(crate) fn by(store: &Store, record: &StoredRecord) -> Result<ReadBy, ApiError> {
    let envelope = record.envelope();
    let author: Option<model::person::Person> =
        lead(store, SubjectId::from(envelope.author), Kind::Person)?;
    Ok(ReadBy {
        by: author.map(|person| person.name).unwrap_or_default(),
        at: moment(envelope.wall_time),
    })
}

/// A wall time as the boundary writes it.
pub(crate) fn moment(time: WallTime) -> DateTime<Utc> {
    DateTime::from_timestamp_millis(time.unix_ms()).unwrap_or_default()
}
