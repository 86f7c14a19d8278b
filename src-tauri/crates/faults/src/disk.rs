//! The disk's content: what is on it for certain, and what is not yet.

use std::collections::BTreeMap;
use std::sync::{Mutex, MutexGuard, PoisonError};

/// Whole sectors are written, or not.
pub const SECTOR: usize = 512;

/// What goes wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// From then on nothing reaches the disk, until [`Disk::power_up`].
    PowerCut,
    /// This one operation fails.
    Error,
    /// This one and all after it that need room fail.
    Full,
}

/// Why an operation was refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Refused {
    Error,
    Full,
}

#[derive(Debug, Clone)]
enum Change {
    Write(usize, Vec<u8>),
    Cut(usize),
}

#[derive(Debug, Default, Clone)]
struct File {
    /// As programs see it.
    seen: Vec<u8>,
    /// As it was when last synced; none: its name may not be on the disk yet.
    synced: Option<Vec<u8>>,
    since: Vec<Change>,
}

#[derive(Debug, Default)]
struct State {
    files: BTreeMap<String, File>,
    /// Taken away, but not for certain.
    removed: BTreeMap<String, File>,
    done: u64,
    fault: Option<(u64, Fault)>,
    off: bool,
    full: bool,
}

/// The one disk of this process.
#[derive(Debug, Clone, Copy)]
pub struct Disk(());

static STATE: Mutex<State> = Mutex::new(State {
    files: BTreeMap::new(),
    removed: BTreeMap::new(),
    done: 0,
    fault: None,
    off: false,
    full: false,
});

fn state() -> MutexGuard<'static, State> {
    STATE.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Disk {
    /// Makes it the disk of every connection that is opened from now on.
    ///
    /// # Panics
    /// If SQLite won't have it.
    #[must_use]
    pub fn install() -> Self {
        crate::vfs::register();
        Self(())
    }

    /// An empty disk without faults.
    pub fn format(self) {
        *state() = State::default();
    }

    /// Lets the `operation`th from now (1 is the next) that changes or syncs something go wrong.
    pub fn fail_after(self, operation: u64, fault: Fault) {
        let mut state = state();
        state.fault = Some((state.done + operation, fault));
    }

    /// How many operations changed or synced something so far.
    #[must_use]
    pub fn operations(self) -> u64 {
        state().done
    }

    /// No more faults; what went wrong meanwhile stays so.
    pub fn mend(self) {
        let mut state = state();
        state.fault = None;
        state.full = false;
    }

    /// The disk as it may be after a power cut, of all ways in which it may be the one that
    /// `chance` leads to. No connection may be open.
    pub fn power_up(self, mut chance: impl FnMut() -> bool) {
        let mut state = state();
        let removed = std::mem::take(&mut state.removed);
        for (name, file) in removed {
            if chance() {
                state.files.entry(name).or_insert(file);
            }
        }
        let files = std::mem::take(&mut state.files);
        for (name, file) in files {
            let File { synced, since, .. } = file;
            if synced.is_none() && !chance() {
                continue;
            }
            let mut left = synced.unwrap_or_default();
            for change in since {
                match change {
                    Change::Cut(length) if chance() => left.truncate(length),
                    Change::Cut(_) => {}
                    Change::Write(at, bytes) => {
                        let mut from = 0;
                        while from < bytes.len() {
                            let end = ((at + from) / SECTOR + 1) * SECTOR - at;
                            let part = &bytes[from..end.min(bytes.len())];
                            if chance() {
                                put(&mut left, at + from, part);
                            }
                            from = end;
                        }
                    }
                }
            }
            let file = File {
                seen: left.clone(),
                synced: Some(left),
                since: Vec::new(),
            };
            state.files.insert(name, file);
        }
        state.fault = None;
        state.off = false;
        state.full = false;
    }

    /// All files as programs see them now.
    #[must_use]
    pub fn snapshot(self) -> BTreeMap<String, Vec<u8>> {
        let state = state();
        let files = state.files.iter();
        files
            .map(|(name, file)| (name.clone(), file.seen.clone()))
            .collect()
    }

    /// A disk with these files, all synced, and no faults.
    pub fn load(self, files: &BTreeMap<String, Vec<u8>>) {
        let synced = |bytes: &Vec<u8>| File {
            seen: bytes.clone(),
            synced: Some(bytes.clone()),
            since: Vec::new(),
        };
        *state() = State {
            files: files
                .iter()
                .map(|(name, bytes)| (name.clone(), synced(bytes)))
                .collect(),
            ..State::default()
        };
    }
}

fn put(content: &mut Vec<u8>, at: usize, bytes: &[u8]) {
    if content.len() < at + bytes.len() {
        content.resize(at + bytes.len(), 0);
    }
    content[at..at + bytes.len()].copy_from_slice(bytes);
}

impl State {
    /// Counts an operation; whether it may happen.
    fn step(&mut self, needs_room: bool) -> Result<(), Refused> {
        if self.off {
            return Err(Refused::Error);
        }
        self.done += 1;
        match self.fault {
            Some((at, fault)) if at == self.done => {
                self.fault = None;
                match fault {
                    Fault::PowerCut => self.off = true,
                    Fault::Error => {}
                    Fault::Full => {
                        self.full = true;
                        return if needs_room {
                            Err(Refused::Full)
                        } else {
                            Ok(())
                        };
                    }
                }
                Err(Refused::Error)
            }
            _ if self.full && needs_room => Err(Refused::Full),
            _ => Ok(()),
        }
    }
}

pub(crate) fn open(name: &str, create: bool) -> Result<(), Refused> {
    let mut state = state();
    if state.files.contains_key(name) {
        return Ok(());
    }
    if !create || state.off {
        return Err(Refused::Error);
    }
    state.files.insert(name.to_owned(), File::default());
    Ok(())
}

pub(crate) fn exists(name: &str) -> bool {
    state().files.contains_key(name)
}

pub(crate) fn size(name: &str) -> usize {
    state().files.get(name).map_or(0, |file| file.seen.len())
}

/// Fills the buffer as far as there is something; gives how far.
pub(crate) fn read(name: &str, at: usize, buffer: &mut [u8]) -> usize {
    buffer.fill(0);
    let state = state();
    let Some(rest) = state.files.get(name).and_then(|file| file.seen.get(at..)) else {
        return 0;
    };
    let length = rest.len().min(buffer.len());
    buffer[..length].copy_from_slice(&rest[..length]);
    length
}

pub(crate) fn write(name: &str, at: usize, bytes: &[u8]) -> Result<(), Refused> {
    let mut state = state();
    let allowed = state.step(true);
    let file = state.files.get_mut(name).ok_or(Refused::Error)?;
    if allowed.is_ok() {
        put(&mut file.seen, at, bytes);
    }
    // The write during which the power goes may reach the disk in part.
    if allowed != Err(Refused::Full) {
        file.since.push(Change::Write(at, bytes.to_vec()));
    }
    allowed
}

pub(crate) fn truncate(name: &str, length: usize) -> Result<(), Refused> {
    let mut state = state();
    state.step(false)?;
    let file = state.files.get_mut(name).ok_or(Refused::Error)?;
    file.seen.truncate(length);
    file.since.push(Change::Cut(length));
    Ok(())
}

pub(crate) fn sync(name: &str) -> Result<(), Refused> {
    let mut state = state();
    state.step(false)?;
    let file = state.files.get_mut(name).ok_or(Refused::Error)?;
    file.synced = Some(file.seen.clone());
    file.since.clear();
    Ok(())
}

pub(crate) fn remove(name: &str, for_certain: bool) -> Result<(), Refused> {
    let mut state = state();
    state.step(false)?;
    let file = state.files.remove(name).ok_or(Refused::Error)?;
    if for_certain {
        state.removed.remove(name);
    } else {
        state.removed.insert(name.to_owned(), file);
    }
    Ok(())
}
