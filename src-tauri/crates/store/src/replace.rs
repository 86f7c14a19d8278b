//! Putting another file in the store's place, whole or not at all, with the old one kept.
//!
//! The new file is made ready beside the store. Giving it the name `…-incoming` is the moment of
//! decision: before it the old store stands, after it the new one, for whoever opens the store
//! next finishes what was begun.

use std::ffi::OsString;
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use journal::WallTime;
use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags};

use crate::backup::{Backup, Backups, Reason, remove, sync_folder};
use crate::error::StoreError;
use crate::open::recognise;

/// A file beside another: its name with something added.
pub(crate) fn beside(path: &Path, end: &str) -> PathBuf {
    let mut name = OsString::from(path);
    name.push(end);
    name.into()
}

fn incoming(store: &Path) -> PathBuf {
    beside(store, "-incoming")
}

fn lock_file(store: &Path) -> PathBuf {
    Backups::of(store).lock("replacing")
}

/// Holds off whoever would open the store while another takes its place, for as long as it lives.
fn hold_off(backups: &Backups) -> Result<File, StoreError> {
    backups.make_folder()?;
    let lock = File::create(lock_file(backups.store()))?;
    lock.try_lock().map_err(std::io::Error::from)?;
    Ok(lock)
}

/// Waits while another process puts a file in the store's place, and finishes what one began that
/// was killed. What is returned holds off replacement until the store is open.
pub(crate) fn pass(store: &Path, deadline: Instant) -> Result<Option<File>, StoreError> {
    let path = lock_file(store);
    if !path.exists() {
        return Ok(None);
    }
    loop {
        // Opened for reading alone, which a read-only folder allows.
        let lock = File::open(&path)?;
        match lock.try_lock_shared().map_err(std::io::Error::from) {
            Ok(()) if !incoming(store).exists() => return Ok(Some(lock)),
            Ok(()) => {
                drop(lock);
                match hold_off(&Backups::of(store)) {
                    Ok(_held) => finish(store)?,
                    Err(StoreError::Locked) if Instant::now() < deadline => {}
                    Err(error) => return Err(error),
                }
            }
            Err(error) if error.kind() == std::io::ErrorKind::WouldBlock => {
                if Instant::now() >= deadline {
                    return Err(StoreError::Locked);
                }
            }
            Err(error) => return Err(error.into()),
        }
        std::thread::sleep(Duration::from_millis(10));
    }
}

/// What becomes of the old store's log.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Old {
    /// Folded in, if the file is ours and whole, so that one file is kept.
    FoldedIn,
    /// Kept beside it, and neither of them touched.
    AsItIs,
}

/// Puts what `build` makes at the path that it gets in the store's place. The old store is kept as
/// a backup, with its log if that can't be folded in. No handle of this process may be open on it.
///
/// # Errors
/// [`StoreError::Locked`] while another process has the store open; what `build` says. The store
/// is then as it was.
pub(crate) fn replace<T>(
    backups: &Backups,
    now: WallTime,
    old: Old,
    build: impl FnOnce(&Path) -> Result<T, StoreError>,
) -> Result<(T, Option<Backup>), StoreError> {
    let store = backups.store();
    let _held = hold_off(backups)?;
    if incoming(store).exists() {
        finish(store)?;
    }
    clear_parts(store)?;
    for half in halves_aside(backups)? {
        remove(&half)?;
    }
    see_that_nobody_has_it_open(store, old)?;
    let part = beside(store, "-incoming.part");
    let prepared = build(&part).and_then(|built| {
        File::open(&part)?.sync_all()?;
        Ok((built, keep_aside(backups, now)?))
    });
    let (built, aside) = match prepared {
        Ok(ready) => ready,
        Err(error) => {
            // Best effort: the next one clears them away too.
            let _ = clear_parts(store);
            return Err(error);
        }
    };
    fs::rename(&part, incoming(store))?;
    if let Some(folder) = store.parent() {
        sync_folder(folder)?;
    }
    finish(store)?;
    Ok((built, aside))
}

/// Idempotent. Belongs under the lock.
fn finish(store: &Path) -> Result<(), StoreError> {
    // A log without its store would be read into the new one.
    remove(&beside(store, "-wal"))?;
    remove(&beside(store, "-shm"))?;
    remove(&beside(store, "-journal"))?;
    if let Some(folder) = store.parent() {
        sync_folder(folder)?;
    }
    fs::rename(incoming(store), store)?;
    if let Some(folder) = store.parent() {
        sync_folder(folder)?;
    }
    let backups = Backups::of(store);
    for half in halves_aside(&backups)? {
        fs::rename(&half, half.with_extension(""))?;
    }
    sync_folder(backups.folder())
}

/// The old store's other names as long as it isn't decided that they are to be backups.
fn halves_aside(backups: &Backups) -> Result<Vec<PathBuf>, StoreError> {
    let mut found = Vec::new();
    for entry in fs::read_dir(backups.folder())? {
        let path = entry?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        if name.ends_with("-replaced.db.part") || name.ends_with("-replaced.db-wal.part") {
            found.push(path);
        }
    }
    Ok(found)
}

fn clear_parts(store: &Path) -> Result<(), StoreError> {
    for end in ["", "-journal", "-wal", "-shm"] {
        remove(&beside(store, &format!("-incoming.part{end}")))?;
    }
    Ok(())
}

/// Another name for the same bytes where the system can, else a copy.
fn keep_aside(backups: &Backups, now: WallTime) -> Result<Option<Backup>, StoreError> {
    let store = backups.store();
    if !store.exists() {
        return Ok(None);
    }
    let (name, made) = backups.free_name(now, Reason::Replaced);
    let aside = backups.folder().join(&name);
    for end in ["-wal", ""] {
        let from = beside(store, end);
        if has_content(&from) || end.is_empty() {
            let to = beside(&aside, &format!("{end}.part"));
            if fs::hard_link(&from, &to).is_err() {
                fs::copy(&from, &to)?;
            }
            File::open(&to)?.sync_all()?;
        }
    }
    sync_folder(backups.folder())?;
    let bytes = fs::metadata(store)?.len();
    Ok(Some(Backup {
        name,
        made,
        reason: Reason::Replaced,
        bytes,
    }))
}

fn has_content(path: &Path) -> bool {
    fs::metadata(path).is_ok_and(|file| file.len() > 0)
}

/// Makes sure that nobody else has the store open, and folds its log in if that is wanted and it
/// is ours and whole. A newer, foreign or broken file is left byte for byte.
fn see_that_nobody_has_it_open(store: &Path, old: Old) -> Result<(), StoreError> {
    if !store.exists() {
        return Ok(());
    }
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let alone = || -> Result<(), StoreError> {
        let has_log = has_content(&beside(store, "-wal"));
        let db = Connection::open_with_flags(store, flags)?;
        db.busy_timeout(Duration::from_millis(500))?;
        db.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, has_log)?;
        // A handle in write-ahead mode holds a shared lock for as long as it is open, and this
        // mode takes an exclusive one.
        db.pragma_update_and_check(None, "locking_mode", "EXCLUSIVE", |_| Ok(()))?;
        recognise(&db)?;
        if old == Old::AsItIs {
            return Ok(());
        }
        let mode: String =
            db.pragma_update_and_check(None, "journal_mode", "DELETE", |row| row.get(0))?;
        if mode == "delete" {
            Ok(())
        } else {
            Err(StoreError::Locked)
        }
    };
    match alone() {
        Err(StoreError::Locked) => Err(StoreError::Locked),
        // It can't be worked with, which may be why it is to be replaced.
        _ => Ok(()),
    }
}
