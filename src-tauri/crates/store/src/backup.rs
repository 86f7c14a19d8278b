//! Copies of the whole store in the folder `backups` beside it, kept by a rule.
//!
//! A copy is SQLite's `VACUUM INTO`: one file, one moment, while others go on reading and writing;
//! nothing that was erased is left in it. It is written under another name, synced, opened and
//! checked, and only then gets its own. This device's key is taken out of it, so whoever starts
//! from a backup, by the app or by copying the file back by hand, is a new device.

use std::collections::BTreeSet;
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use chrono::{DateTime, Datelike, NaiveDate, NaiveDateTime, Utc};
use journal::{Kind, RecordId, WallTime};
use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags, OptionalExtension};

use crate::check::{self, CheckFinding};
use crate::error::StoreError;
use crate::open::{self, recognise};
use crate::{replace, schema};

const DAY_MS: i64 = 24 * 60 * 60 * 1000;
const STAMP: &str = "%Y-%m-%dT%H-%M-%S%.3fZ";
const STAMP_LENGTH: usize = 24;

/// Why a backup was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Reason {
    /// A day has passed and something has changed.
    Daily,
    /// Somebody asked for it.
    ByHand,
    /// The program is newer than the file and is about to carry it forward.
    BeforeMigration,
    /// Something from elsewhere is about to be taken in.
    BeforeImport,
    /// The store itself, put aside when another took its place. Never taken away by the rule.
    Replaced,
}

const REASONS: [(Reason, &str); 5] = [
    (Reason::Daily, "daily"),
    (Reason::ByHand, "by-hand"),
    (Reason::BeforeMigration, "before-migration"),
    (Reason::BeforeImport, "before-import"),
    (Reason::Replaced, "replaced"),
];

impl Reason {
    const fn word(self) -> &'static str {
        match self {
            Self::Daily => "daily",
            Self::ByHand => "by-hand",
            Self::BeforeMigration => "before-migration",
            Self::BeforeImport => "before-import",
            Self::Replaced => "replaced",
        }
    }

    /// What is about to happen is all or nothing by itself, so its backup is checked as a file
    /// only; the others are what one falls back on, so every hash and signature is checked.
    const fn wants_sound_journal(self) -> bool {
        matches!(self, Self::Daily | Self::ByHand)
    }
}

/// One backup.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Backup {
    /// Its file's name, which names it.
    pub name: String,
    /// When it was made, by this device's clock.
    pub made: WallTime,
    /// Why.
    pub reason: Reason,
    /// Its size.
    pub bytes: u64,
}

/// What a backup holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Contents {
    /// Its schema number; higher than this program's if a later one made it.
    pub schema: i64,
    /// Records in its journal.
    pub records: u64,
    /// Subjects, not removed, for which a record of the kind asked about stands.
    pub subjects: u64,
    /// When its latest commit was made, by that device's clock.
    pub last_change: Option<WallTime>,
}

/// The backups of one store's file. Works whether or not the store can be opened.
#[derive(Clone)]
pub struct Backups {
    store: PathBuf,
    folder: PathBuf,
    prefix: String,
    stop: Option<Arc<dyn Fn() -> bool + Send + Sync>>,
}

impl std::fmt::Debug for Backups {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Backups")
            .field("store", &self.store)
            .finish_non_exhaustive()
    }
}

impl Backups {
    /// The backups of the store in this file.
    #[must_use]
    pub fn of(store: &Path) -> Self {
        let stem = store.file_stem().unwrap_or_default().to_string_lossy();
        Self {
            store: store.to_owned(),
            folder: store.with_file_name("backups"),
            prefix: format!("{stem}-"),
            stop: None,
        }
    }

    /// The same; a copy that is being made while `stop` is true fails, and leaves nothing behind.
    #[must_use]
    pub fn stopped_when(self, stop: impl Fn() -> bool + Send + Sync + 'static) -> Self {
        Self {
            stop: Some(Arc::new(stop)),
            ..self
        }
    }

    /// Lets what works on a copy be stopped.
    fn watched(&self, db: &Connection) -> Result<(), StoreError> {
        let stop = self.stop.clone();
        open::stop_when(db, stop.map(|stop| move || stop()))
    }

    /// Where they are.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    pub(crate) fn store(&self) -> &Path {
        &self.store
    }

    /// Those that are here, the newest first.
    ///
    /// # Errors
    /// [`StoreError`] if the folder can't be read.
    pub fn list(&self) -> Result<Vec<Backup>, StoreError> {
        let entries = match fs::read_dir(&self.folder) {
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(Vec::new()),
            entries => entries?,
        };
        let mut found = Vec::new();
        for entry in entries {
            let entry = entry?;
            let name = entry.file_name();
            if let Some((made, reason)) = name.to_str().and_then(|name| self.read_name(name)) {
                found.push(Backup {
                    name: name.to_string_lossy().into_owned(),
                    made,
                    reason,
                    bytes: entry.metadata()?.len(),
                });
            }
        }
        found.sort_by(|a, b| b.name.cmp(&a.name));
        Ok(found)
    }

    /// Whether a day has passed since the newest (by a clock that may have been wrong either way)
    /// and the journal is another one now.
    ///
    /// # Errors
    /// [`StoreError`] if the store or the folder can't be read.
    pub fn is_due(&self, now: WallTime) -> Result<bool, StoreError> {
        let newest = self.newest()?;
        let fresh = newest.is_some_and(|made| (now.unix_ms() - made.made.unix_ms()).abs() < DAY_MS);
        Ok(!fresh && self.has_changed()?)
    }

    /// Whether the store's journal is another one than the newest backup's; an empty one needs
    /// no backup.
    ///
    /// # Errors
    /// [`StoreError`] if the store or the folder can't be read.
    pub fn has_changed(&self) -> Result<bool, StoreError> {
        let here = Mark::of(&open_existing(&self.store)?)?;
        let Some(newest) = self.newest()? else {
            return Ok(here != Mark::default());
        };
        // One that can't be read is no backup.
        let there = read_only(&self.folder.join(&newest.name)).and_then(|db| Mark::of(&db));
        Ok(there.ok() != Some(here))
    }

    fn newest(&self) -> Result<Option<Backup>, StoreError> {
        let mut list = self.list()?.into_iter();
        Ok(list.find(|backup| backup.reason != Reason::Replaced))
    }

    /// Whether opening the store would carry it forward from an earlier schema.
    ///
    /// # Errors
    /// [`StoreError`] if there is no store, or not one that can be opened.
    pub fn needs_migration(&self) -> Result<bool, StoreError> {
        let db = open_existing(&self.store)?;
        let found: i64 = db.pragma_query_value(None, "user_version", |row| row.get(0))?;
        Ok((1..schema::KNOWN).contains(&found))
    }

    /// Makes a backup and takes away those that the rule no longer keeps: of the daily ones and
    /// those made by hand together the last three, the last of each of the last seven days and
    /// of each of the last four weeks that have one; of those before a migration or an import
    /// the last three of each.
    ///
    /// # Errors
    /// [`StoreError::Unsound`] if the copy doesn't pass its check; [`StoreError::Locked`] while
    /// another backup is being made; [`StoreError`] as the file or the folder may refuse. The
    /// folder is then as it was.
    pub fn make(&self, reason: Reason, now: WallTime) -> Result<Backup, StoreError> {
        self.make_folder()?;
        let guard = File::create(self.lock("making"))?;
        guard.try_lock().map_err(std::io::Error::from)?;
        self.clear_away("making")?;
        let part = self.folder.join(format!("{}making.part", self.prefix));
        let made = self.copy_checked(&part, reason).and_then(|()| {
            let (name, made) = self.free_name(now, reason);
            let place = self.folder.join(&name);
            fs::rename(&part, &place)?;
            sync_folder(&self.folder)?;
            let bytes = fs::metadata(&place)?.len();
            Ok(Backup {
                name,
                made,
                reason,
                bytes,
            })
        });
        if made.is_err() {
            // Best effort: the next one clears it away too.
            let _ = self.clear_away("making");
        } else {
            self.take_away_superseded()?;
        }
        made
    }

    fn copy_checked(&self, part: &Path, reason: Reason) -> Result<(), StoreError> {
        let db = open_existing(&self.store)?;
        self.watched(&db)?;
        db.execute("VACUUM INTO ?1", [text(part)?])?;
        drop(db);
        let copy = Connection::open_with_flags(part, WRITABLE)?;
        copy.pragma_update(None, "secure_delete", true)?;
        let has_key = copy
            .query_row(
                "SELECT 1 FROM sqlite_schema WHERE name = 'identity'",
                [],
                |_| Ok(()),
            )
            .optional()?;
        if has_key.is_some() {
            copy.execute("DELETE FROM identity", [])?;
        }
        let close = |db: Connection| db.close().map_err(|(_, error)| StoreError::from(error));
        close(copy)?;
        make_private(part)?;
        File::open(part)?.sync_all()?;
        verify(part, reason.wants_sound_journal(), |db| self.watched(db))
    }

    /// Checks a backup: its file, and every hash and signature in it.
    ///
    /// # Errors
    /// [`StoreError::NoBackup`], [`StoreError::Unsound`] with the first thing that is wrong, and
    /// as the file may refuse.
    pub fn verify(&self, name: &str) -> Result<(), StoreError> {
        verify(&self.path(name)?, true, |db| self.watched(db))
    }

    /// What a backup holds, and of how many subjects a record of this kind stands in it.
    ///
    /// # Errors
    /// [`StoreError`] if it can't be read.
    pub fn contents(&self, name: &str, kind: &Kind) -> Result<Contents, StoreError> {
        let db = read_only(&self.path(name)?)?;
        let count = |n: i64| u64::try_from(n).unwrap_or(0);
        let schema = db.pragma_query_value(None, "user_version", |row| row.get(0))?;
        Ok(Contents {
            schema,
            records: count(db.query_row("SELECT count(*) FROM record", [], |row| row.get(0))?),
            subjects: count(db.query_row(
                "SELECT count(DISTINCT subject) FROM standing
                 JOIN subject ON subject.id = standing.subject WHERE kind = ?1 AND removed = 0",
                [kind.as_str()],
                |row| row.get(0),
            )?),
            last_change: db
                .query_row("SELECT max(wall_time) FROM commit_", [], |row| {
                    row.get::<_, Option<i64>>(0)
                })?
                .map(WallTime::from_unix_ms),
        })
    }

    /// Whether a record is in a backup, by its id; false also if it can't be looked into.
    #[must_use]
    pub fn holds(&self, name: &str, record: RecordId) -> bool {
        let look = || -> Result<bool, StoreError> {
            let db = read_only(&self.path(name)?)?;
            let mut query = db.prepare("SELECT 1 FROM record WHERE id = ?1")?;
            Ok(query.exists([record.as_bytes()])?)
        };
        look().unwrap_or(false)
    }

    /// Deletes a backup, or a store that was put aside, with its log.
    ///
    /// # Errors
    /// [`StoreError::NoBackup`], and as the folder may refuse.
    pub fn remove(&self, name: &str) -> Result<(), StoreError> {
        let path = self.path(name)?;
        for end in ["-wal", "-shm", "-journal", ""] {
            remove(&replace::beside(&path, end))?;
        }
        sync_folder(&self.folder)
    }

    /// The store's own files that are there: the database, and its log and the log's index.
    #[must_use]
    pub fn files_of_store(&self) -> Vec<PathBuf> {
        ["", "-wal", "-shm", "-journal"]
            .iter()
            .map(|end| replace::beside(&self.store, end))
            .filter(|path| path.is_file())
            .collect()
    }

    /// The files of a backup that are there: itself, and its log if it was never folded in.
    ///
    /// # Errors
    /// [`StoreError::NoBackup`].
    pub fn files_of(&self, name: &str) -> Result<Vec<PathBuf>, StoreError> {
        let path = self.path(name)?;
        Ok(["", "-wal"]
            .iter()
            .map(|end| replace::beside(&path, end))
            .filter(|path| path.is_file())
            .collect())
    }

    /// Its file. Only a name that [`Backups::list`] would give is followed.
    pub(crate) fn path(&self, name: &str) -> Result<PathBuf, StoreError> {
        let path = self.folder.join(name);
        if self.read_name(name).is_some() && path.is_file() {
            Ok(path)
        } else {
            Err(StoreError::NoBackup(name.to_owned()))
        }
    }

    /// The file that is locked while something is done that only one process may do.
    pub(crate) fn lock(&self, what: &str) -> PathBuf {
        self.folder.join(format!("{}{what}.lock", self.prefix))
    }

    pub(crate) fn make_folder(&self) -> Result<(), StoreError> {
        if self.folder.is_dir() {
            return Ok(());
        }
        let mut builder = fs::DirBuilder::new();
        #[cfg(unix)]
        {
            use std::os::unix::fs::DirBuilderExt;
            // It will hold customers' names.
            builder.mode(0o700);
        }
        builder.create(&self.folder)?;
        if let Some(parent) = self.folder.parent() {
            sync_folder(parent)?;
        }
        Ok(())
    }

    /// Takes away what a killed process left half made.
    pub(crate) fn clear_away(&self, what: &str) -> Result<(), StoreError> {
        let part = format!("{}{what}.part", self.prefix);
        for end in ["", "-journal", "-wal", "-shm"] {
            remove(&self.folder.join(format!("{part}{end}")))?;
        }
        Ok(())
    }

    /// A name that no backup has yet, and the moment that it tells.
    pub(crate) fn free_name(&self, now: WallTime, reason: Reason) -> (String, WallTime) {
        let mut made = now;
        loop {
            let stamp = moment(made).format(STAMP);
            let name = format!("{}{stamp}-{}.db", self.prefix, reason.word());
            if !self.folder.join(&name).exists() {
                return (name, made);
            }
            made = WallTime::from_unix_ms(made.unix_ms() + 1);
        }
    }

    fn read_name(&self, name: &str) -> Option<(WallTime, Reason)> {
        let rest = name.strip_prefix(&self.prefix)?.strip_suffix(".db")?;
        let (stamp, word) = rest.split_at_checked(STAMP_LENGTH)?;
        let made = NaiveDateTime::parse_from_str(stamp, STAMP).ok()?.and_utc();
        let word = word.strip_prefix('-')?;
        let &(reason, _) = REASONS.iter().find(|(_, of)| *of == word)?;
        Some((WallTime::from_unix_ms(made.timestamp_millis()), reason))
    }

    fn take_away_superseded(&self) -> Result<(), StoreError> {
        for backup in superseded(&self.list()?) {
            remove(&self.folder.join(&backup.name))?;
        }
        Ok(())
    }
}

/// Those that the rule of [`Backups::make`] no longer keeps, of a list with the newest first. It
/// counts days and weeks that have a backup, not days gone by: whoever opens the app once a month
/// keeps months, and a clock that was wrong takes nothing away.
fn superseded(newest_first: &[Backup]) -> Vec<&Backup> {
    let of = |reasons: &[Reason]| -> Vec<&Backup> {
        let list = newest_first.iter();
        list.filter(|backup| reasons.contains(&backup.reason))
            .collect()
    };
    let mut going = Vec::new();
    let regular = of(&[Reason::Daily, Reason::ByHand]);
    let (mut days, mut weeks) = (BTreeSet::new(), BTreeSet::new());
    for (i, backup) in regular.into_iter().enumerate() {
        let day = moment(backup.made).date_naive();
        let last_of_day = days.len() < 7 && days.insert(day);
        let last_of_week = weeks.len() < 4 && weeks.insert(week(day));
        if i >= 3 && !last_of_day && !last_of_week {
            going.push(backup);
        }
    }
    for reason in [Reason::BeforeMigration, Reason::BeforeImport] {
        going.extend(of(&[reason]).into_iter().skip(3));
    }
    going
}

fn week(day: NaiveDate) -> (i32, u32) {
    let week = day.iso_week();
    (week.year(), week.week())
}

fn moment(time: WallTime) -> DateTime<Utc> {
    DateTime::from_timestamp_millis(time.unix_ms()).unwrap_or_default()
}

/// Enough of a journal to tell that nothing came to it and nothing left it.
#[derive(Debug, Default, PartialEq, Eq)]
struct Mark([i64; 5]);

impl Mark {
    fn of(db: &Connection) -> Result<Self, StoreError> {
        let mut mark = [0; 5];
        let questions = [
            "SELECT count(*) FROM commit_",
            "SELECT coalesce(max(seq), 0) FROM commit_",
            "SELECT count(*) FROM record",
            "SELECT coalesce(max(seq), 0) FROM record",
            "SELECT count(*) FROM body",
        ];
        for (found, question) in mark.iter_mut().zip(questions) {
            *found = db.query_row(question, [], |row| row.get(0))?;
        }
        Ok(Self(mark))
    }
}

const WRITABLE: OpenFlags =
    OpenFlags::SQLITE_OPEN_READ_WRITE.union(OpenFlags::SQLITE_OPEN_NO_MUTEX);

/// Opens the store's file beside other handles; refuses what [`crate::Store::open`] would, and
/// leaves that as untouched.
pub(crate) fn open_existing(path: &Path) -> Result<Connection, StoreError> {
    let patience = std::time::Duration::from_secs(5);
    let _pass = replace::pass(path, std::time::Instant::now() + patience)?;
    let has_log = fs::metadata(replace::beside(path, "-wal")).is_ok_and(|log| log.len() > 0);
    let db = Connection::open_with_flags(path, WRITABLE)?;
    db.busy_timeout(patience)?;
    db.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, has_log)?;
    db.pragma_update(None, "synchronous", "FULL")?;
    db.pragma_update(None, "trusted_schema", false)?;
    db.pragma_update(None, "cell_size_check", true)?;
    recognise(&db)?;
    Ok(db)
}

/// Opens a file to read in it. With a log beside it SQLite would write, so then it is refused.
pub(crate) fn read_only(path: &Path) -> Result<Connection, StoreError> {
    if replace::beside(path, "-wal").exists() {
        return Err(StoreError::CannotOpen("its log was never folded in".into()));
    }
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let db = Connection::open_with_flags(path, flags)?;
    db.pragma_update(None, "trusted_schema", false)?;
    db.pragma_update(None, "cell_size_check", true)?;
    let mark: i32 = db.pragma_query_value(None, "application_id", |row| row.get(0))?;
    if mark == schema::APPLICATION_ID {
        Ok(db)
    } else {
        Err(StoreError::NotAStore)
    }
}

fn verify(
    path: &Path,
    journal: bool,
    watch: impl FnOnce(&Connection) -> Result<(), StoreError>,
) -> Result<(), StoreError> {
    let db = read_only(path)?;
    watch(&db)?;
    recognise(&db)?;
    let mut findings = Vec::new();
    let checked = if journal {
        check::file(&db, &mut findings).and_then(|()| check::journal(&db, &mut findings))
    } else {
        check::file(&db, &mut findings)
    };
    let unsound = |what: String| Err(StoreError::Unsound(what));
    match (checked, findings.first()) {
        (Err(StoreError::Damaged(what)), _) => unsound(what),
        (Err(StoreError::NotAStore), _) => unsound("not a database any more".into()),
        (Err(error), _) => Err(error),
        (Ok(()), Some(CheckFinding::File(what))) => unsound(what.clone()),
        (Ok(()), Some(first)) => unsound(format!("{first:?}")),
        (Ok(()), None) => Ok(()),
    }
}

/// Checks a file that is about to become the store, as a backup is.
pub(crate) fn verify_new(path: &Path) -> Result<(), StoreError> {
    make_private(path)?;
    verify(path, true, |_| Ok(()))
}

fn text(path: &Path) -> Result<&str, StoreError> {
    let none = || StoreError::CannotOpen(format!("{} is not Unicode", path.display()));
    path.to_str().ok_or_else(none)
}

fn make_private(path: &Path) -> Result<(), StoreError> {
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        fs::set_permissions(path, fs::Permissions::from_mode(0o600))?;
    }
    #[cfg(not(unix))]
    let _ = path;
    Ok(())
}

/// Removes a file that need not be there.
pub(crate) fn remove(path: &Path) -> Result<(), StoreError> {
    match fs::remove_file(path) {
        Err(error) if error.kind() != std::io::ErrorKind::NotFound => Err(error.into()),
        _ => Ok(()),
    }
}

/// Makes sure that a new, renamed or removed name is on the disk.
pub(crate) fn sync_folder(folder: &Path) -> Result<(), StoreError> {
    // Elsewhere a folder can't be opened, and the system keeps names in order by itself.
    #[cfg(unix)]
    File::open(folder)?.sync_all()?;
    #[cfg(not(unix))]
    let _ = folder;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn backup(day: u32, hour: u32, reason: Reason) -> Backup {
        let made = NaiveDate::from_ymd_opt(2026, 1, 1)
            .unwrap()
            .and_hms_opt(hour, 0, 0)
            .unwrap()
            + chrono::Days::new(u64::from(day));
        let made = WallTime::from_unix_ms(made.and_utc().timestamp_millis());
        Backup {
            name: Backups::of(Path::new("shop.db")).free_name(made, reason).0,
            made,
            reason,
            bytes: 1,
        }
    }

    #[test]
    fn a_name_tells_when_and_why() {
        let made = backup(30, 5, Reason::BeforeImport);
        assert_eq!(made.name, "shop-2026-01-31T05-00-00.000Z-before-import.db");
        let backups = Backups::of(Path::new("shop.db"));
        assert_eq!(
            backups.read_name(&made.name),
            Some((made.made, made.reason))
        );
        for wrong in [
            "shop-daily.db",
            "../shop.db",
            "shop-2026-01-31T05-00-00.000Z-other.db",
        ] {
            assert_eq!(backups.read_name(wrong), None, "{wrong}");
        }
    }

    /// Two a day for sixty days: the last three, one of each of seven days, one of each of four
    /// weeks.
    #[test]
    fn the_rule_keeps_the_last_three_a_week_of_days_and_a_month_of_weeks() {
        let mut kept: Vec<Backup> = Vec::new();
        for day in 0..60 {
            for hour in [8, 17] {
                kept.insert(0, backup(day, hour, Reason::Daily));
                let going: Vec<_> = superseded(&kept).into_iter().cloned().collect();
                kept.retain(|backup| !going.contains(backup));
            }
        }
        let days: Vec<_> = kept
            .iter()
            .map(|backup| moment(backup.made).format("%m-%d %H").to_string())
            .collect();
        // 1 March 2026 is a Sunday: day 59 of the year, counted from nought.
        assert_eq!(
            days,
            [
                "03-01 17", "03-01 08", "02-28 17", "02-27 17", "02-26 17", "02-25 17", "02-24 17",
                "02-23 17", "02-22 17", "02-15 17", "02-08 17",
            ]
        );
    }

    #[test]
    fn the_rule_never_takes_what_was_put_aside_and_counts_each_occasion_apart() {
        let mut list = Vec::new();
        for day in (0..5).rev() {
            for reason in [
                Reason::Replaced,
                Reason::BeforeImport,
                Reason::BeforeMigration,
            ] {
                list.push(backup(day, 8, reason));
            }
        }
        list.push(backup(0, 1, Reason::Daily));
        let going: Vec<_> = superseded(&list)
            .iter()
            .map(|b| (b.reason, b.made))
            .collect();
        assert_eq!(going.len(), 4, "{going:?}");
        assert!(going.iter().all(|(reason, _)| *reason != Reason::Replaced));
        assert!(going.iter().all(|(reason, _)| *reason != Reason::Daily));
    }
}
