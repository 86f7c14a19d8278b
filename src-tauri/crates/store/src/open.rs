//! Opening a store: whose file is it, from which version, and can it be used.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

use journal::DeviceKey;
use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags, TransactionBehavior};

use crate::entropy::{Entropy, OsEntropy};
use crate::error::StoreError;
use crate::projection::{self, Projector};
use crate::{local, replace, schema};

/// 3.51.3 ends a fault by which two connections could spoil a file in write-ahead mode.
const OLDEST_ENGINE: i32 = 3_051_003;

/// What a store needs from outside.
pub struct Setup {
    /// What the layer above knows of kinds.
    pub projector: Arc<dyn Projector>,
    /// Random bytes; the operating system's outside tests.
    pub entropy: Box<dyn Entropy>,
    /// How long to wait for another handle before [`StoreError::Locked`].
    pub patience: Duration,
    /// The largest that the file may grow, in pages of 4096 bytes; no bound if absent.
    pub max_pages: Option<u32>,
}

impl Setup {
    /// The usual: the system's random bytes, five seconds of patience, no bound on the size.
    #[must_use]
    pub fn new(projector: Arc<dyn Projector>) -> Self {
        Self {
            projector,
            entropy: Box::new(OsEntropy),
            patience: Duration::from_secs(5),
            max_pages: None,
        }
    }
}

/// An open store. Several may be open on one file, in several processes.
pub struct Store {
    pub(crate) db: Connection,
    /// None: in memory, or in a file without a name.
    pub(crate) path: Option<PathBuf>,
    pub(crate) projector: Arc<dyn Projector>,
    pub(crate) entropy: Box<dyn Entropy>,
    pub(crate) key: DeviceKey,
}

impl std::fmt::Debug for Store {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Store")
            .field("device", &self.key.device())
            .finish_non_exhaustive()
    }
}

impl Store {
    /// Opens the store in this file; makes it, and this device's key, if the file is missing or
    /// empty. Migrates a file from an earlier version, and projects anew what an earlier
    /// projector made.
    ///
    /// # Errors
    /// [`StoreError::NewerSchema`] and [`StoreError::NotAStore`] leave the file untouched;
    /// [`StoreError::ReadOnly`], [`StoreError::Locked`], [`StoreError::CannotOpen`] and the rest
    /// as their names say.
    pub fn open(path: &Path, setup: Setup) -> Result<Self, StoreError> {
        let opened = Self::open_file(path, setup);
        match opened {
            // SQLite says "can't open" where it may not write; the system tells which it is.
            Err(StoreError::CannotOpen(_) | StoreError::Io(_)) if read_only(path) => {
                Err(StoreError::ReadOnly)
            }
            Err(StoreError::NotAStore) if has_broken_header(path) => {
                Err(StoreError::Damaged("its header is broken".into()))
            }
            other => other,
        }
    }

    fn open_file(path: &Path, setup: Setup) -> Result<Self, StoreError> {
        let deadline = Instant::now() + setup.patience;
        let _pass = replace::pass(path, deadline)?;
        let log = replace::beside(path, "-wal");
        let has_log = std::fs::metadata(log).is_ok_and(|log| log.len() > 0);
        // No URI names, no symbolic surprises: the path is taken as it is.
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE
            | OpenFlags::SQLITE_OPEN_CREATE
            | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let db = Connection::open_with_flags(path, flags)?;
        db.busy_timeout(setup.patience)?;
        // Should the file turn out to be somebody else's, not even its log is folded in. Without
        // a log there is nothing to fold in, and closing tidies up after us.
        db.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, has_log)?;
        patiently(deadline, || recognise(&db))?;
        if db.is_readonly("main")? {
            return Err(StoreError::ReadOnly);
        }
        db.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, false)?;
        patiently(deadline, || write_ahead(&db))?;
        Self::prepare(db, Some(path.to_owned()), setup, deadline)
    }

    /// A store that lives as long as this handle, for tests and previews.
    ///
    /// # Errors
    /// [`StoreError`] if it can't be made.
    pub fn open_in_memory(setup: Setup) -> Result<Self, StoreError> {
        let deadline = Instant::now() + setup.patience;
        Self::prepare(Connection::open_in_memory()?, None, setup, deadline)
    }

    /// A store in a file without a name, which the system takes away when the handle goes or the
    /// program ends, for what is only looked at. It lies where the system keeps temporary files,
    /// and only what doesn't fit the memory for pages is written there at all.
    ///
    /// # Errors
    /// [`StoreError`] if it can't be made.
    pub fn open_nameless(setup: Setup) -> Result<Self, StoreError> {
        let deadline = Instant::now() + setup.patience;
        // What SQLite calls a private temporary database (<https://sqlite.org/inmemorydb.html>).
        Self::prepare(Connection::open("")?, None, setup, deadline)
    }

    /// While `stop` is true, whatever the store does fails and leaves it as it was; none: never.
    ///
    /// # Errors
    /// [`StoreError`] if SQLite refuses to be watched.
    pub fn stop_when(
        &self,
        stop: Option<impl FnMut() -> bool + Send + 'static>,
    ) -> Result<(), StoreError> {
        stop_when(&self.db, stop)
    }

    fn prepare(
        mut db: Connection,
        path: Option<PathBuf>,
        setup: Setup,
        deadline: Instant,
    ) -> Result<Self, StoreError> {
        let Setup {
            projector,
            mut entropy,
            max_pages,
            ..
        } = setup;
        let found = rusqlite::version_number();
        if found < OLDEST_ENGINE {
            return Err(StoreError::OldEngine {
                found,
                needed: OLDEST_ENGINE,
            });
        }
        db.set_prepared_statement_cache_capacity(64);
        db.pragma_update(None, "synchronous", "FULL")?;
        db.pragma_update(None, "foreign_keys", true)?;
        db.pragma_update(None, "trusted_schema", false)?;
        db.pragma_update(None, "secure_delete", true)?;
        db.pragma_update(None, "cell_size_check", true)?;
        db.pragma_update(None, "cache_size", -CACHE_KIB)?;
        // A memory map would turn a failing disk into a crash.
        db.pragma_update(None, "mmap_size", 0)?;
        db.set_db_config(DbConfig::SQLITE_DBCONFIG_DEFENSIVE, true)?;
        // What stands in double quotes is a name, never text.
        db.set_db_config(DbConfig::SQLITE_DBCONFIG_DQS_DML, false)?;
        db.set_db_config(DbConfig::SQLITE_DBCONFIG_DQS_DDL, false)?;
        if let Some(pages) = max_pages {
            db.pragma_update_and_check(None, "max_page_count", pages, |_| Ok(()))?;
        }
        patiently(deadline, || migrate(&mut db))?;

        let tx = db.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let key = local::identity(&tx, &mut *entropy)?;
        projection::renew_if_outdated(&tx, &*projector)?;
        tx.commit()?;
        Ok(Self {
            db,
            path,
            projector,
            entropy,
            key,
        })
    }
}

/// Memory for pages in everyday work, in KiB: the upper levels of a large shop's indexes, so that a
/// record that is written finds its places without reading its way there.
const CACHE_KIB: i32 = 16 << 10;

/// Between two questions whether to stop: some 0.1 ms of work, so that asking costs nothing.
const STEPS: i32 = 4_000;

/// Lets `stop` end statements of a connection.
pub(crate) fn stop_when(
    db: &Connection,
    stop: Option<impl FnMut() -> bool + Send + 'static>,
) -> Result<(), StoreError> {
    Ok(db.progress_handler(STEPS, stop)?)
}

/// Is it empty, ours and not too new? Writes nothing.
pub(crate) fn recognise(db: &Connection) -> Result<(), StoreError> {
    // One snapshot: another process may be making the file just now.
    let db = db.unchecked_transaction()?;
    let mark: i32 = db.pragma_query_value(None, "application_id", |row| row.get(0))?;
    let found: i64 = db.pragma_query_value(None, "user_version", |row| row.get(0))?;
    let tables: i64 = db.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    if mark == 0 && found == 0 && tables == 0 {
        return Ok(());
    }
    if mark != schema::APPLICATION_ID {
        return Err(StoreError::NotAStore);
    }
    if found > schema::KNOWN {
        return Err(StoreError::NewerSchema {
            found,
            known: schema::KNOWN,
        });
    }
    Ok(())
}

fn write_ahead(db: &Connection) -> Result<(), StoreError> {
    let mode: String = db.pragma_update_and_check(None, "journal_mode", "WAL", |row| row.get(0))?;
    if mode == "wal" {
        Ok(())
    } else {
        Err(StoreError::CannotOpen(format!(
            "no write-ahead log here, only {mode}"
        )))
    }
}

/// Two processes may find the same new file: one of them makes the tables, the other then finds
/// them made.
fn migrate(db: &mut Connection) -> Result<(), StoreError> {
    match schema::MIGRATIONS.to_latest(db) {
        Ok(()) => Ok(()),
        Err(error) => {
            let error = StoreError::from(error);
            let at: i64 = db.pragma_query_value(None, "user_version", |row| row.get(0))?;
            match error {
                StoreError::Database(_) if at > 0 => Err(StoreError::Locked),
                error => Err(error),
            }
        }
    }
}

/// Some steps of opening are refused at once while another handle opens, whatever the busy
/// timeout; they are tried again until the deadline.
fn patiently<T>(
    deadline: Instant,
    mut step: impl FnMut() -> Result<T, StoreError>,
) -> Result<T, StoreError> {
    loop {
        match step() {
            Err(StoreError::Locked) if Instant::now() < deadline => {
                std::thread::sleep(Duration::from_millis(10));
            }
            other => return other,
        }
    }
}

/// Whether it says that it is a database and can't be read as one. Whose it was can't be told.
fn has_broken_header(path: &Path) -> bool {
    use std::io::Read;
    let mut start = [0; 16];
    let read = std::fs::File::open(path).and_then(|mut file| file.read_exact(&mut start));
    let readable = || -> rusqlite::Result<i32> {
        let db = Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_ONLY)?;
        db.pragma_query_value(None, "application_id", |row| row.get(0))
    };
    read.is_ok() && start == *b"SQLite format 3\0" && readable().is_err()
}

fn read_only(path: &Path) -> bool {
    let denied = |result: std::io::Result<_>| {
        result.is_err_and(|error| {
            matches!(
                error.kind(),
                std::io::ErrorKind::PermissionDenied | std::io::ErrorKind::ReadOnlyFilesystem
            )
        })
    };
    let folder_locked = path
        .parent()
        .and_then(|folder| folder.metadata().ok())
        .is_some_and(|folder| folder.permissions().readonly());
    path.exists() && (folder_locked || denied(std::fs::OpenOptions::new().write(true).open(path)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::projection::{Place, StandingRecord};
    use journal::{FoldRule, Kind, SubjectId};

    struct Nothing;

    impl Projector for Nothing {
        fn version(&self) -> u32 {
            1
        }

        fn rule(&self, _: &Kind) -> Option<FoldRule> {
            None
        }

        fn reads(&self, _: &Kind, _: u32) -> bool {
            false
        }

        fn place(&self, _: SubjectId, _: &[StandingRecord<'_>]) -> Place {
            Place::default()
        }
    }

    /// Read back from SQLite, since it passes over a pragma that it doesn't know.
    #[test]
    fn the_settings_of_an_open_store_are_the_ones_that_durability_rests_on() {
        let folder = tempfile::tempdir().unwrap();
        let store =
            Store::open(&folder.path().join("s.db"), Setup::new(Arc::new(Nothing))).unwrap();
        let db = &store.db;
        let number =
            |name: &str| -> i64 { db.pragma_query_value(None, name, |row| row.get(0)).unwrap() };
        let word: String = db
            .pragma_query_value(None, "journal_mode", |row| row.get(0))
            .unwrap();
        assert_eq!(word, "wal");
        assert_eq!(number("synchronous"), 2, "FULL");
        assert_eq!(number("foreign_keys"), 1);
        assert_eq!(number("trusted_schema"), 0);
        assert_eq!(number("secure_delete"), 1);
        assert_eq!(number("cell_size_check"), 1);
        assert_eq!(number("mmap_size"), 0);
        assert_eq!(number("page_size"), 4096);
        assert_eq!(number("busy_timeout"), 5000);
        for config in [
            DbConfig::SQLITE_DBCONFIG_DEFENSIVE,
            DbConfig::SQLITE_DBCONFIG_ENABLE_FKEY,
        ] {
            assert!(db.db_config(config).unwrap());
        }
        for config in [
            DbConfig::SQLITE_DBCONFIG_TRUSTED_SCHEMA,
            DbConfig::SQLITE_DBCONFIG_WRITABLE_SCHEMA,
            DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE,
            DbConfig::SQLITE_DBCONFIG_DQS_DML,
            DbConfig::SQLITE_DBCONFIG_DQS_DDL,
        ] {
            assert!(!db.db_config(config).unwrap());
        }
        assert!(rusqlite::version_number() >= OLDEST_ENGINE);
        let loose: Vec<String> = db
            .prepare(
                "SELECT name FROM pragma_table_list WHERE strict = 0 AND type = 'table'
                 AND name NOT LIKE 'sqlite_%'",
            )
            .unwrap()
            .query_map([], |row| row.get(0))
            .unwrap()
            .collect::<Result<_, _>>()
            .unwrap();
        assert_eq!(loose, [""; 0], "every table of our own is strict");
    }

    /// So that nothing of it is left, however the program ends.
    #[cfg(target_os = "linux")]
    #[test]
    fn what_a_nameless_store_writes_to_disk_has_no_name_there() {
        let store = Store::open_nameless(Setup::new(Arc::new(Nothing))).unwrap();
        // Far more than the pages kept in memory.
        store.db.pragma_update(None, "cache_size", 4).unwrap();
        let much =
            "CREATE TABLE much (bytes BLOB) STRICT; INSERT INTO much VALUES (zeroblob(1000000))";
        store.db.execute_batch(much).unwrap();
        let open = std::fs::read_dir("/proc/self/fd").unwrap();
        let files = open.filter_map(|file| std::fs::read_link(file.unwrap().path()).ok());
        let ours = files.filter(|file| file.to_string_lossy().contains("etilqs_"));
        let unnamed = ours.filter(|file| file.to_string_lossy().ends_with(" (deleted)"));
        assert!(unnamed.count() > 0);
    }
}
