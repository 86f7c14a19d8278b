//! Attachments: files named by their hash, in a folder of their own beside the store.
//!
//! A body names an attachment by the BLAKE3 hash of its bytes; the bytes lie in the folder
//! `<store>-attachments`, one file for each. An attachment is written under another name, synced,
//! renamed, and the folder synced, **before** the commit that names it, so a record that was said
//! to be kept has its attachment. A kill in between leaves a file that nobody names.
//!
//! - The journal doesn't depend on the files. A missing one is a finding, never another digest.
//! - A record may name what isn't here: it was left out of a bundle, erased, or lost.
//! - Backups copy the store's file alone and so refer to the same folder. Going back to one finds
//!   every attachment that is still here; what was erased since is missing there too.
//! - What nobody names is swept: not while somebody adds one ([`Adding`]), and never what a backup
//!   or a store put aside still names, since one may go back to it.

use std::collections::{BTreeMap, BTreeSet};
use std::fs::{self, File, OpenOptions};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};

use journal::{AttachmentHash, BodyHash, Kind, body};
use rusqlite::Connection;

use crate::backup::{Backups, open_existing, read_only, remove, sync_folder};
use crate::error::StoreError;
use crate::open::Store;
use crate::projection::Projector;
use crate::replace;

/// How much is read at a time.
const PIECE: usize = 64 << 10;
/// How long to wait while they are being swept.
const PATIENCE: Duration = Duration::from_secs(5);
const PART: &str = ".part";
const LOCK: &str = "adding.lock";

static COUNT: AtomicU64 = AtomicU64::new(0);

/// The attachments of one store's file. Works whether or not the store can be opened.
#[derive(Debug, Clone)]
pub struct Attachments {
    store: PathBuf,
    folder: PathBuf,
}

/// Attachments are being added; while one of these lives, in any process, nothing is swept. To be
/// held until the commit that names them is made.
#[derive(Debug)]
pub struct Adding<'a> {
    of: &'a Attachments,
    _lock: File,
}

/// What is wrong with an attachment.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub enum AttachmentFinding {
    /// What stands names it, and it isn't here though it was.
    Missing(AttachmentHash),
    /// What stands names it, and it isn't here: it came from elsewhere without it.
    NotPassedOn(AttachmentHash),
    /// It is here with other content.
    Damaged(AttachmentHash),
    /// Nobody names it: a kill left it, or what named it is gone.
    Stray(AttachmentHash),
}

impl Attachments {
    /// The attachments of the store in this file.
    #[must_use]
    pub fn of(store: &Path) -> Self {
        Self {
            store: store.to_owned(),
            folder: replace::beside(store, "-attachments"),
        }
    }

    /// Where they are.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    fn place(&self, hash: AttachmentHash) -> PathBuf {
        self.folder.join(hash.to_string())
    }

    /// Begins to add some.
    ///
    /// # Errors
    /// [`StoreError::Locked`] while they are being swept; as the folder may refuse.
    pub fn add(&self) -> Result<Adding<'_>, StoreError> {
        self.make_folder()?;
        let lock = self.lock_file()?;
        let deadline = Instant::now() + PATIENCE;
        loop {
            match lock.try_lock_shared().map_err(io::Error::from) {
                Err(error)
                    if error.kind() == io::ErrorKind::WouldBlock && Instant::now() < deadline =>
                {
                    std::thread::sleep(Duration::from_millis(10));
                }
                locked => break locked?,
            }
        }
        Ok(Adding {
            of: self,
            _lock: lock,
        })
    }

    /// An attachment, if it is here. It is not checked: [`Attachments::read`] does that.
    ///
    /// # Errors
    /// As the file may refuse.
    pub fn open(&self, hash: AttachmentHash) -> Result<Option<File>, StoreError> {
        match File::open(self.place(hash)) {
            Ok(file) => Ok(Some(file)),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(error.into()),
        }
    }

    /// The bytes of an attachment, if it is here.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] if they are others than its name says, or more than `most`; as the
    /// file may refuse.
    pub fn read(&self, hash: AttachmentHash, most: u64) -> Result<Option<Vec<u8>>, StoreError> {
        let Some(file) = self.open(hash)? else {
            return Ok(None);
        };
        let mut bytes = Vec::new();
        file.take(most.saturating_add(1)).read_to_end(&mut bytes)?;
        if bytes.len() as u64 <= most && AttachmentHash::of(&bytes) == hash {
            Ok(Some(bytes))
        } else {
            Err(StoreError::Damaged(format!("attachment {hash}")))
        }
    }

    /// How long an attachment is, if it is here.
    ///
    /// # Errors
    /// As the file may refuse.
    pub fn length(&self, hash: AttachmentHash) -> Result<Option<u64>, StoreError> {
        match fs::metadata(self.place(hash)) {
            Ok(file) => Ok(Some(file.len())),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(error.into()),
        }
    }

    /// Whether an attachment is here.
    ///
    /// # Errors
    /// As the folder may refuse.
    pub fn has(&self, hash: AttachmentHash) -> Result<bool, StoreError> {
        Ok(self.length(hash)?.is_some())
    }

    /// All that are here, by hash.
    ///
    /// # Errors
    /// As the folder may refuse.
    pub fn list(&self) -> Result<BTreeSet<AttachmentHash>, StoreError> {
        Ok(self
            .names()?
            .iter()
            .filter_map(|name| name.parse().ok())
            .collect())
    }

    /// Whether the bytes of one that is here are those that its name says; false if it isn't.
    ///
    /// # Errors
    /// As the file may refuse.
    pub fn is_sound(&self, hash: AttachmentHash) -> Result<bool, StoreError> {
        let Some(mut file) = self.open(hash)? else {
            return Ok(false);
        };
        let mut hasher = blake3::Hasher::new();
        copy(&mut file, |piece| {
            hasher.update(piece);
            Ok(())
        })?;
        Ok(hasher.finalize().as_bytes() == hash.as_bytes())
    }

    /// Takes away what nobody names: neither this store nor any of its backups. Gives what went.
    /// If a backup can't be read, nobody knows what it names, and nothing goes.
    ///
    /// # Errors
    /// [`StoreError::Locked`] while somebody adds attachments; as the store or the folder may
    /// refuse.
    pub fn sweep(&self, projector: &dyn Projector) -> Result<BTreeSet<AttachmentHash>, StoreError> {
        if self.names()?.is_empty() {
            return Ok(BTreeSet::new());
        }
        let lock = self.lock_file()?;
        lock.try_lock().map_err(io::Error::from)?;
        // Only now is the journal read: a commit that is under way holds the lock.
        for name in self.names()?.iter().filter(|name| name.ends_with(PART)) {
            remove(&self.folder.join(name))?;
        }
        let mut going = self.list()?;
        let db = open_existing(&self.store)?;
        // Mostly that is all of them, and the whole journal need not be read.
        each_standing(&db, projector, |_, hash| {
            going.remove(&hash);
        })?;
        keep_named(&db, projector, &mut going)?;
        let backups = Backups::of(&self.store);
        for backup in backups.list()? {
            if going.is_empty() {
                break;
            }
            let read = read_only(&backups.path(&backup.name)?)
                .and_then(|db| keep_named(&db, projector, &mut going));
            if read.is_err() {
                return Ok(BTreeSet::new());
            }
        }
        for &hash in &going {
            remove(&self.place(hash))?;
        }
        if !going.is_empty() {
            sync_folder(&self.folder)?;
        }
        Ok(going)
    }

    /// Takes these away at once, whatever backups still name them, unless the store does: for what
    /// is to be gone. Gives what went.
    ///
    /// # Errors
    /// [`StoreError::Locked`] while somebody adds attachments; as the store or the folder may
    /// refuse.
    pub fn erase(
        &self,
        projector: &dyn Projector,
        hashes: &BTreeSet<AttachmentHash>,
    ) -> Result<BTreeSet<AttachmentHash>, StoreError> {
        let here = self.list()?;
        let mut going: BTreeSet<_> = hashes.intersection(&here).copied().collect();
        if going.is_empty() {
            return Ok(going);
        }
        let lock = self.lock_file()?;
        lock.try_lock().map_err(io::Error::from)?;
        let db = open_existing(&self.store)?;
        // What was just taken in stands, and the whole journal need not be read.
        each_standing(&db, projector, |_, hash| {
            going.remove(&hash);
        })?;
        keep_named(&db, projector, &mut going)?;
        for &hash in &going {
            remove(&self.place(hash))?;
        }
        sync_folder(&self.folder)?;
        Ok(going)
    }

    fn lock_file(&self) -> Result<File, StoreError> {
        Ok(OpenOptions::new()
            .create(true)
            .truncate(false)
            .write(true)
            .open(self.folder.join(LOCK))?)
    }

    fn make_folder(&self) -> Result<(), StoreError> {
        if self.folder.is_dir() {
            return Ok(());
        }
        let mut builder = fs::DirBuilder::new();
        #[cfg(unix)]
        {
            use std::os::unix::fs::DirBuilderExt;
            // A picture may show a person.
            builder.mode(0o700);
        }
        match builder.create(&self.folder) {
            Err(error) if error.kind() != io::ErrorKind::AlreadyExists => {
                return Err(error.into());
            }
            _ => {}
        }
        if let Some(parent) = self.folder.parent() {
            sync_folder(parent)?;
        }
        Ok(())
    }

    /// The files in the folder; none if there is no folder.
    fn names(&self) -> Result<Vec<String>, StoreError> {
        let entries = match fs::read_dir(&self.folder) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
            entries => entries?,
        };
        let mut names = Vec::new();
        for entry in entries {
            if let Ok(name) = entry?.file_name().into_string() {
                names.push(name);
            }
        }
        Ok(names)
    }
}

impl Adding<'_> {
    /// Adds one from a reader; one that is here already is written anew, which heals it if it was
    /// damaged. It is on the disk, whole, when this returns.
    ///
    /// # Errors
    /// What the reader says; [`StoreError::DiskFull`] and the like. Nothing is here then that
    /// wasn't.
    pub fn put(&self, mut content: impl Read) -> Result<AttachmentHash, StoreError> {
        let (file, part) = self.part()?;
        let written = self.fill(file, &mut content);
        let placed = written.and_then(|hash| self.place(&part, hash));
        if placed.is_err() {
            // Best effort: sweeping clears it away too.
            let _ = remove(&part);
        }
        placed
    }

    /// As [`Adding::put`], for bytes that must have this hash.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] if they don't; and as [`Adding::put`].
    pub fn put_as(&self, hash: AttachmentHash, mut content: impl Read) -> Result<(), StoreError> {
        let (file, part) = self.part()?;
        let placed = self.fill(file, &mut content).and_then(|found| {
            if found == hash {
                self.place(&part, hash)
            } else {
                Err(StoreError::Damaged(format!("attachment {hash}")))
            }
        });
        if placed.is_err() {
            let _ = remove(&part);
        }
        placed.map(|_| ())
    }

    fn part(&self) -> Result<(File, PathBuf), StoreError> {
        loop {
            let count = COUNT.fetch_add(1, Ordering::Relaxed);
            let name = format!("{}-{count}{PART}", std::process::id());
            let path = self.of.folder.join(name);
            let mut options = OpenOptions::new();
            options.write(true).create_new(true);
            #[cfg(unix)]
            {
                use std::os::unix::fs::OpenOptionsExt;
                options.mode(0o600);
            }
            match options.open(&path) {
                // Left by a process that had this number before.
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
                opened => return Ok((opened?, path)),
            }
        }
    }

    fn fill(&self, mut file: File, content: &mut impl Read) -> Result<AttachmentHash, StoreError> {
        let mut hasher = blake3::Hasher::new();
        copy(content, |piece| {
            hasher.update(piece);
            file.write_all(piece)
        })?;
        file.sync_all()?;
        Ok(AttachmentHash::from_bytes(*hasher.finalize().as_bytes()))
    }

    fn place(&self, part: &Path, hash: AttachmentHash) -> Result<AttachmentHash, StoreError> {
        fs::rename(part, self.of.place(hash))?;
        sync_folder(&self.of.folder)?;
        Ok(hash)
    }
}

fn copy(
    from: &mut impl Read,
    mut with: impl FnMut(&[u8]) -> io::Result<()>,
) -> Result<(), StoreError> {
    let mut piece = vec![0; PIECE];
    loop {
        match from.read(&mut piece) {
            Ok(0) => return Ok(()),
            Ok(read) => with(&piece[..read])?,
            Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
            Err(error) => return Err(error.into()),
        }
    }
}

/// Takes out of a set what the journal in this file names, replaced and struck out records
/// included, since those may be brought back. Of a kind that this program doesn't read, any
/// attachment whose hash stands anywhere in the body counts as named.
fn keep_named(
    db: &Connection,
    projector: &dyn Projector,
    going: &mut BTreeSet<AttachmentHash>,
) -> Result<(), StoreError> {
    if going.is_empty() {
        return Ok(());
    }
    let kinds = projector.kinds_with_attachments();
    let mut query = db.prepare(
        "SELECT kind, kind_version, body.bytes FROM record JOIN body ON body.hash = body_hash",
    )?;
    let mut rows = query.query([])?;
    while let Some(row) = rows.next()? {
        let kind: Kind = row.get::<_, String>(0)?.parse()?;
        let read = projector.reads(&kind, row.get(1)?);
        if read && !kinds.contains(&kind) {
            continue;
        }
        let bytes = row
            .get_ref(2)?
            .as_blob()
            .map_err(|error| StoreError::Damaged(error.to_string()))?;
        let content = body::content(bytes);
        if read {
            for hash in projector.attachments(&kind, content) {
                going.remove(&hash);
            }
        } else if kind != Kind::VOID {
            for hash in hashes_in(content) {
                going.remove(&hash);
            }
        }
    }
    Ok(())
}

/// Every run of hexadecimal digits that is as long as a hash.
fn hashes_in(body: &[u8]) -> impl Iterator<Item = AttachmentHash> {
    body.split(|byte| !byte.is_ascii_hexdigit())
        .filter(|run| run.len() == 64)
        .filter_map(|run| std::str::from_utf8(run).ok()?.parse().ok())
}

impl Store {
    /// This store's attachments.
    ///
    /// # Errors
    /// [`StoreError::CannotOpen`] for a store in memory, which has none.
    pub fn attachments(&self) -> Result<Attachments, StoreError> {
        match &self.path {
            Some(path) => Ok(Attachments::of(path)),
            None => Err(StoreError::CannotOpen(
                "a store in memory keeps no attachments".into(),
            )),
        }
    }

    /// The attachments that records in effect name, of subjects that are not removed; with each,
    /// whether some such record's body came by no import.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn standing_attachments(&self) -> Result<BTreeMap<AttachmentHash, bool>, StoreError> {
        let mut found = BTreeMap::new();
        each_standing(&self.db, &*self.projector, |body, hash| {
            *found.entry(hash).or_insert(false) |= body.own;
        })?;
        Ok(found)
    }

    /// The attachments that go along with these bodies: those that a record in effect with one of
    /// them names, less those that a record in effect about a person names whose body stays behind.
    /// So a picture that is said to be personal now doesn't go with an earlier record that didn't
    /// say so, and one that was removed doesn't go at all. With each, the bodies that it goes with.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn attachments_with(
        &self,
        mut goes: impl FnMut(BodyHash) -> bool,
    ) -> Result<BTreeMap<AttachmentHash, BTreeSet<BodyHash>>, StoreError> {
        let (mut going, mut staying) = (BTreeMap::<_, BTreeSet<_>>::new(), BTreeSet::new());
        each_standing(&self.db, &*self.projector, |body, hash| {
            if goes(body.hash) {
                going.entry(hash).or_default().insert(body.hash);
            } else if body.personal {
                staying.insert(hash);
            }
        })?;
        going.retain(|hash, _| !staying.contains(hash));
        Ok(going)
    }

    /// Looks at each attachment: those that records in effect name, and those that are here. With
    /// `content`, reads each that is here. Nothing for a store in memory.
    ///
    /// # Errors
    /// [`StoreError`] if the file or the folder can't be read.
    pub fn check_attachments(&self, content: bool) -> Result<Vec<AttachmentFinding>, StoreError> {
        let Ok(attachments) = self.attachments() else {
            return Ok(Vec::new());
        };
        // The files first: one that is added meanwhile is then not missed.
        let mut stray = attachments.list()?;
        let standing = self.standing_attachments()?;
        let mut findings = Vec::new();
        for (&hash, &own) in &standing {
            if !attachments.has(hash)? {
                findings.push(if own {
                    AttachmentFinding::Missing(hash)
                } else {
                    AttachmentFinding::NotPassedOn(hash)
                });
            }
        }
        if content {
            for &hash in &stray {
                // One that was swept meanwhile is not damaged.
                if !attachments.is_sound(hash)? && attachments.has(hash)? {
                    findings.push(AttachmentFinding::Damaged(hash));
                }
            }
        }
        keep_named(&self.db, &*self.projector, &mut stray)?;
        findings.extend(stray.into_iter().map(AttachmentFinding::Stray));
        Ok(findings)
    }
}

/// A body that names attachments.
struct Naming {
    hash: BodyHash,
    /// It came by no import.
    own: bool,
    /// It is about a person.
    personal: bool,
}

/// The attachments that records in effect name, each with the body that does.
fn each_standing(
    db: &Connection,
    projector: &dyn Projector,
    mut with: impl FnMut(&Naming, AttachmentHash),
) -> Result<(), StoreError> {
    let mut query = db.prepare(
        "SELECT body.hash, body.bytes, NOT EXISTS (SELECT 1 FROM import_item
             WHERE what = 'body' AND import_item.hash = body.hash) AS own
         FROM standing JOIN subject ON subject.id = standing.subject
         JOIN record ON record.seq = standing.record
         JOIN body ON body.hash = record.body_hash
         WHERE standing.kind = ?1 AND removed = 0",
    )?;
    for kind in projector.kinds_with_attachments() {
        let mut rows = query.query([kind.as_str()])?;
        while let Some(row) = rows.next()? {
            let bytes = row
                .get_ref(1)?
                .as_blob()
                .map_err(|error| StoreError::Damaged(error.to_string()))?;
            let naming = Naming {
                hash: BodyHash::from_bytes(row.get(0)?),
                own: row.get(2)?,
                personal: body::is_personal(bytes),
            };
            for attachment in projector.attachments(&kind, body::content(bytes)) {
                with(&naming, attachment);
            }
        }
    }
    Ok(())
}
