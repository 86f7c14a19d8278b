//! What never leaves this file: drafts, settings, this device's key and its clock.

use std::collections::BTreeSet;

use journal::{DeviceId, DeviceKey, HybridClock, Tick, WallTime};
use rusqlite::{Connection, OptionalExtension, params};

use crate::entropy::{Entropy, draw};
use crate::error::StoreError;
use crate::open::Store;
use crate::scan;

pub(crate) const TABLES_1: &str = "
CREATE TABLE draft (
    key TEXT PRIMARY KEY,
    json TEXT NOT NULL,
    updated INTEGER NOT NULL
) STRICT;
CREATE TABLE setting (
    key TEXT PRIMARY KEY,
    json TEXT NOT NULL
) STRICT;
CREATE TABLE identity (
    only INTEGER PRIMARY KEY CHECK (only = 1),
    secret BLOB NOT NULL CHECK (length(secret) = 32)
) STRICT;
CREATE TABLE clock (
    only INTEGER PRIMARY KEY CHECK (only = 1),
    millis INTEGER NOT NULL,
    counter INTEGER NOT NULL
) STRICT;
";

/// Something half typed, kept until it is committed or cleared. Need not be valid.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Draft {
    /// What it is a draft of, in the words of the layer above.
    pub key: String,
    /// Its content.
    pub json: String,
    /// When it was last written.
    pub updated: WallTime,
}

fn draft_from(row: &rusqlite::Row<'_>) -> rusqlite::Result<Draft> {
    Ok(Draft {
        key: row.get(0)?,
        json: row.get(1)?,
        updated: WallTime::from_unix_ms(row.get(2)?),
    })
}

impl Store {
    /// Keeps a draft, in place of the one with this key.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be written.
    pub fn put_draft(&mut self, key: &str, json: &str, now: WallTime) -> Result<(), StoreError> {
        self.db
            .prepare_cached(
                "INSERT INTO draft (key, json, updated) VALUES (?1, ?2, ?3)
                 ON CONFLICT (key) DO UPDATE SET json = ?2, updated = ?3",
            )?
            .execute(params![key, json, now.unix_ms()])?;
        Ok(())
    }

    /// The draft with this key.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn draft(&self, key: &str) -> Result<Option<Draft>, StoreError> {
        Ok(self
            .db
            .prepare_cached("SELECT key, json, updated FROM draft WHERE key = ?1")?
            .query_row([key], draft_from)
            .optional()?)
    }

    /// Every draft, the newest first.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn drafts(&self) -> Result<Vec<Draft>, StoreError> {
        let mut query = self
            .db
            .prepare_cached("SELECT key, json, updated FROM draft ORDER BY updated DESC, key")?;
        let drafts = query.query_map([], draft_from)?.collect::<Result<_, _>>()?;
        Ok(drafts)
    }

    /// Forgets a draft; false if there was none.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be written.
    pub fn clear_draft(&mut self, key: &str) -> Result<bool, StoreError> {
        Ok(self.db.execute("DELETE FROM draft WHERE key = ?1", [key])? == 1)
    }

    /// Keeps a setting, in place of the one with this key.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be written.
    pub fn put_setting(&mut self, key: &str, json: &str) -> Result<(), StoreError> {
        self.db.execute(
            "INSERT INTO setting (key, json) VALUES (?1, ?2)
             ON CONFLICT (key) DO UPDATE SET json = ?2",
            [key, json],
        )?;
        Ok(())
    }

    /// The setting with this key.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn setting(&self, key: &str) -> Result<Option<String>, StoreError> {
        Ok(self
            .db
            .prepare_cached("SELECT json FROM setting WHERE key = ?1")?
            .query_row([key], |row| row.get(0))
            .optional()?)
    }

    /// This device.
    #[must_use]
    pub fn device(&self) -> DeviceId {
        self.key.device()
    }

    /// Makes this a new device, with a key that nobody has used: the answer to a key that was
    /// copied. What the old key signed stays, and can't be undone as this device's any more.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be written; the key is then the same.
    pub fn start_over(&mut self) -> Result<DeviceId, StoreError> {
        let tx = self
            .db
            .transaction_with_behavior(rusqlite::TransactionBehavior::Immediate)?;
        tx.execute("DELETE FROM identity", [])?;
        let key = identity(&tx, &mut *self.entropy)?;
        tx.commit()?;
        self.key = key;
        Ok(self.key.device())
    }

    /// This device's key, to sign a bundle with.
    #[must_use]
    pub const fn device_key(&self) -> &DeviceKey {
        &self.key
    }
}

/// Makes the store in a closed file a new device: it loses its key, and gets another when it is
/// opened; drafts and settings go, but for the settings in `keep`.
pub(crate) fn make_new_device(path: &std::path::Path, keep: &[&str]) -> Result<(), StoreError> {
    let flags =
        rusqlite::OpenFlags::SQLITE_OPEN_READ_WRITE | rusqlite::OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let mut db = Connection::open_with_flags(path, flags)?;
    db.pragma_update(None, "secure_delete", true)?;
    let tx = db.transaction()?;
    tx.execute_batch("DELETE FROM identity; DELETE FROM draft")?;
    let settings: Vec<String> = tx
        .prepare("SELECT key FROM setting")?
        .query_map([], |row| row.get(0))?
        .collect::<Result<_, _>>()?;
    for key in settings.iter().filter(|key| !keep.contains(&key.as_str())) {
        tx.execute("DELETE FROM setting WHERE key = ?1", [key])?;
    }
    tx.commit()?;
    db.close().map_err(|(_, error)| error.into())
}

/// Forgets every draft that holds one of these texts; says how many.
pub(crate) fn drop_drafts_with(
    db: &Connection,
    texts: &BTreeSet<String>,
) -> Result<usize, StoreError> {
    let looked_for: Vec<String> = texts
        .iter()
        .map(|text| text.trim())
        .filter(|text| scan::is_long_enough(text))
        .map(scan::escaped)
        .collect();
    if looked_for.is_empty() {
        return Ok(0);
    }
    let mut gone = Vec::new();
    let mut query = db.prepare("SELECT key, json FROM draft")?;
    let mut rows = query.query([])?;
    while let Some(row) = rows.next()? {
        let json: String = row.get(1)?;
        if looked_for.iter().any(|text| json.contains(text)) {
            gone.push(row.get::<_, String>(0)?);
        }
    }
    for key in &gone {
        db.execute("DELETE FROM draft WHERE key = ?1", [key])?;
    }
    Ok(gone.len())
}

/// This device's key, made on the first call. Belongs in a write transaction.
pub(crate) fn identity(
    db: &Connection,
    entropy: &mut dyn Entropy,
) -> Result<DeviceKey, StoreError> {
    let kept = db
        .query_row("SELECT secret FROM identity", [], |row| {
            row.get::<_, [u8; 32]>(0)
        })
        .optional()?;
    if let Some(secret) = kept {
        return Ok(DeviceKey::from_secret(&secret));
    }
    let secret = draw::<32>(entropy)?;
    db.execute(
        "INSERT INTO identity (only, secret) VALUES (1, ?1)",
        [secret],
    )?;
    Ok(DeviceKey::from_secret(&secret))
}

/// The clock as this file last saw it. Belongs in the write transaction that will advance it.
pub(crate) fn clock(db: &Connection) -> Result<HybridClock, StoreError> {
    let last = db
        .prepare_cached("SELECT millis, counter FROM clock")?
        .query_row([], |row| Ok((row.get::<_, i64>(0)?, row.get::<_, u32>(1)?)))
        .optional()?;
    let Some((millis, counter)) = last else {
        return Ok(HybridClock::default());
    };
    let tick = u64::try_from(millis)
        .ok()
        .and_then(|millis| Tick::new(millis, counter).ok());
    let tick = tick.ok_or_else(|| StoreError::Damaged("the clock is out of range".into()))?;
    Ok(HybridClock::resume(tick))
}

/// Keeps the clock.
pub(crate) fn put_clock(db: &Connection, clock: HybridClock) -> Result<(), StoreError> {
    let last = clock.last();
    db.prepare_cached(
        "INSERT INTO clock (only, millis, counter) VALUES (1, ?1, ?2)
         ON CONFLICT (only) DO UPDATE SET millis = ?1, counter = ?2",
    )?
    .execute(params![
        i64::try_from(last.millis()).unwrap_or(i64::MAX),
        last.counter()
    ])?;
    Ok(())
}
