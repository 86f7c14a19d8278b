//! Files on their way in or out, held under a handle. An interface that can reach no path (a
//! browser) carries them in pieces; whoever can names a path.
//!
//! None is held in memory. One that was named by a path is read where it lies. One that comes in
//! pieces, was made here or was unsealed lies in the store's folder in a file without a name: the
//! system takes it away when the handle goes or the program ends, however it ends, so that no plain
//! text stays behind where a file was sealed.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, ErrorKind, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use bundle::Limits;

use crate::error::{ApiError, ErrorCode};
use crate::tasks::Watch;

/// The ending of a bundle's name.
pub(crate) const ENDING: &str = "vvb";

/// Handles held at once; the oldest goes when another is asked for.
const HELD: usize = 4;

/// The longest piece that [`Files::piece`] gives, in bytes: well under what a request may carry.
const PIECE: u64 = 3 << 20;

pub(crate) struct Files {
    folder: Option<PathBuf>,
    last: u32,
    held: BTreeMap<u32, Held>,
}

struct Held {
    name: String,
    content: Content,
    /// Made here, so its content may be given out; what was read from a path is only looked at.
    ours: bool,
}

/// What a file holds. Others may read it too: each [`Opened`] has a place of its own in it.
#[derive(Clone)]
pub(crate) struct Content {
    file: Arc<File>,
    length: u64,
}

/// A file that is being read.
pub(crate) struct Opened {
    content: Content,
    at: u64,
    /// Counts what is read, and ends the reading when it is told to.
    watch: Option<Arc<Watch>>,
}

/// The longest file that is taken, in bytes.
pub(crate) fn limit() -> u64 {
    Limits::default().file_bytes
}

fn too_large() -> ApiError {
    ApiError::new(ErrorCode::FileTooLarge).with("megabytes", limit() >> 20)
}

fn unreadable(name: &str, error: &io::Error) -> ApiError {
    ApiError::new(ErrorCode::FileUnreadable)
        .with("path", name)
        .with("detail", error)
}

/// Why a file without a name can't be made or written.
pub(crate) fn no_room(error: &io::Error) -> ApiError {
    let code = match error.kind() {
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => ErrorCode::DiskFull,
        _ => ErrorCode::Io,
    };
    ApiError::new(code).with("detail", error)
}

#[cfg(unix)]
fn read_at(file: &File, buffer: &mut [u8], at: u64) -> io::Result<usize> {
    std::os::unix::fs::FileExt::read_at(file, buffer, at)
}

#[cfg(windows)]
fn read_at(file: &File, buffer: &mut [u8], at: u64) -> io::Result<usize> {
    std::os::windows::fs::FileExt::seek_read(file, buffer, at)
}

impl Content {
    /// What was written to a file.
    pub fn of(file: File) -> io::Result<Self> {
        Ok(Self {
            length: file.metadata()?.len(),
            file: Arc::new(file),
        })
    }

    pub const fn length(&self) -> u64 {
        self.length
    }

    pub fn open(&self) -> Opened {
        self.open_watched(None)
    }

    /// As [`Content::open`], for long work: the bytes that are read are its steps, and a reading
    /// that shall stop fails.
    pub fn open_watched(&self, watch: Option<&Arc<Watch>>) -> Opened {
        Opened {
            content: self.clone(),
            at: 0,
            watch: watch.cloned(),
        }
    }

    /// All of it in memory, for what has a small limit of its own: one byte more than that at
    /// most, so that whoever looks can tell that it is too much.
    pub fn bytes(&self, most: u64) -> Result<Vec<u8>, ApiError> {
        let mut bytes = Vec::new();
        self.open()
            .take(most.saturating_add(1))
            .read_to_end(&mut bytes)
            .map_err(|error| no_room(&error))?;
        Ok(bytes)
    }

    fn is(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.file, &other.file) && self.length == other.length
    }
}

impl Read for Opened {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        if self.watch.as_ref().is_some_and(|watch| watch.stopping()) {
            // Not `Interrupted`, which readers take for "try again".
            return Err(io::Error::other("told to stop"));
        }
        let left = self.content.length.saturating_sub(self.at);
        let most = usize::try_from(left).map_or(buffer.len(), |left| left.min(buffer.len()));
        let read = read_at(&self.content.file, &mut buffer[..most], self.at)?;
        self.at += read as u64;
        if let Some(watch) = &self.watch {
            watch.add(read);
        }
        Ok(read)
    }
}

impl Seek for Opened {
    fn seek(&mut self, to: SeekFrom) -> io::Result<u64> {
        let at = match to {
            SeekFrom::Start(at) => Some(at),
            SeekFrom::End(by) => self.content.length.checked_add_signed(by),
            SeekFrom::Current(by) => self.at.checked_add_signed(by),
        };
        self.at = at.ok_or(ErrorKind::InvalidInput)?;
        Ok(self.at)
    }
}

impl Files {
    /// Files of an app whose store lies in this folder.
    pub fn beside(folder: Option<PathBuf>) -> Self {
        Self {
            folder,
            last: 0,
            held: BTreeMap::new(),
        }
    }

    /// A file without a name, to be written.
    pub fn spool(&self) -> Result<File, ApiError> {
        let made = match &self.folder {
            Some(folder) => tempfile::tempfile_in(folder),
            None => tempfile::tempfile(),
        };
        made.map_err(|error| no_room(&error))
    }

    fn hold(&mut self, held: Held) -> u32 {
        while self.held.len() >= HELD {
            self.held.pop_first();
        }
        self.last += 1;
        self.held.insert(self.last, held);
        self.last
    }

    fn get(&self, file: u32) -> Result<&Held, ApiError> {
        let found = self.held.get(&file);
        found.ok_or_else(|| ApiError::not_found("file", file))
    }

    fn got(&self, file: u32, ours: bool) -> Result<&Held, ApiError> {
        let held = self.get(file)?;
        if held.ours == ours {
            Ok(held)
        } else {
            Err(ApiError::not_found("file", file))
        }
    }

    /// An empty file, to be filled piece by piece.
    pub fn begin(&mut self, name: &str) -> Result<u32, ApiError> {
        let content = Content::of(self.spool()?).map_err(|error| no_room(&error))?;
        Ok(self.hold(Held {
            name: name.chars().take(120).collect(),
            content,
            ours: false,
        }))
    }

    /// A file that was made here.
    pub fn made(&mut self, name: String, content: Content) -> u32 {
        self.hold(Held {
            name,
            content,
            ours: true,
        })
    }

    /// A short file that was made here.
    pub fn made_of(&mut self, name: String, bytes: &[u8]) -> Result<u32, ApiError> {
        let mut file = self.spool()?;
        let content = file.write_all(bytes).and_then(|()| Content::of(file));
        let content = content.map_err(|error| no_room(&error))?;
        Ok(self.made(name, content))
    }

    /// Adds a piece to a file that comes in.
    pub fn add(&mut self, file: u32, piece: &[u8]) -> Result<u64, ApiError> {
        let held = self.held.get_mut(&file).filter(|held| !held.ours);
        let held = held.ok_or_else(|| ApiError::not_found("file", file))?;
        let content = &mut held.content;
        if content.length + piece.len() as u64 > limit() {
            self.held.remove(&file);
            return Err(too_large());
        }
        let mut end: &File = &content.file;
        end.seek(SeekFrom::Start(content.length))
            .and_then(|_| end.write_all(piece))
            .map_err(|error| no_room(&error))?;
        content.length += piece.len() as u64;
        Ok(content.length)
    }

    /// A file from a path, read where it lies.
    pub fn open(&mut self, path: &Path) -> Result<u32, ApiError> {
        let shown = path.display().to_string();
        let failed = |error: io::Error| unreadable(&shown, &error);
        let file = File::open(path).map_err(failed)?;
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        // Something without a length of its own, or none that can be read at all.
        if !file.metadata().map_err(failed)?.is_file() {
            let taken = self.take(&name, file);
            return taken.map_err(|error| error.with("path", shown));
        }
        let content = Content::of(file).map_err(failed)?;
        if content.length > limit() {
            return Err(too_large().with("path", shown));
        }
        Ok(self.hold(Held {
            name: name.into_owned(),
            content,
            ours: false,
        }))
    }

    /// A file that was opened elsewhere.
    pub fn take(&mut self, name: &str, mut content: impl Read) -> Result<u32, ApiError> {
        let mut file = self.spool()?;
        let mut piece = vec![0; 1 << 16];
        let mut length = 0;
        loop {
            let read = content
                .read(&mut piece)
                .map_err(|error| unreadable(name, &error))?;
            if read == 0 {
                break;
            }
            length += read as u64;
            if length > limit() {
                return Err(too_large());
            }
            file.write_all(&piece[..read])
                .map_err(|error| no_room(&error))?;
        }
        let content = Content::of(file).map_err(|error| no_room(&error))?;
        Ok(self.hold(Held {
            name: name.to_owned(),
            content,
            ours: false,
        }))
    }

    /// Its name and content.
    pub fn content(&self, file: u32) -> Result<(String, Content), ApiError> {
        let held = self.get(file)?;
        Ok((held.name.clone(), held.content.clone()))
    }

    /// Puts what a sealed file held in its place. What was sealed is no longer kept.
    pub fn unsealed(
        &mut self,
        file: u32,
        sealed: &Content,
        plain: Content,
    ) -> Result<u64, ApiError> {
        let length = plain.length;
        // It may have gone, or grown, while it was being opened.
        let held = self.held.get_mut(&file);
        let held = held.filter(|held| held.content.is(sealed));
        let held = held.ok_or_else(|| ApiError::not_found("file", file))?;
        held.content = plain;
        Ok(length)
    }

    /// A file that came in, for opening its seal: what was made here is given out as it is.
    pub fn sealed(&self, file: u32) -> Result<Content, ApiError> {
        Ok(self.got(file, false)?.content.clone())
    }

    /// A file that was made here.
    pub fn ours(&self, file: u32) -> Result<(String, Content), ApiError> {
        let held = self.got(file, true)?;
        Ok((held.name.clone(), held.content.clone()))
    }

    /// Forgets every file that was made here.
    pub fn drop_made(&mut self) {
        self.held.retain(|_, held| !held.ours);
    }

    /// Forgets a file.
    pub fn drop_file(&mut self, file: u32) {
        self.held.remove(&file);
    }
}

/// A piece of a file, from a place on.
pub(crate) fn piece(content: &Content, from: u64) -> Result<Vec<u8>, ApiError> {
    let mut opened = content.open();
    let mut bytes = Vec::new();
    opened
        .seek(SeekFrom::Start(from.min(content.length)))
        .and_then(|_| opened.take(PIECE).read_to_end(&mut bytes))
        .map_err(|error| no_room(&error))?;
    Ok(bytes)
}

/// Writes a file that was made under `name` whole or not at all: beside its place first, then in
/// it. It keeps its ending, so that nobody's program or settings can be written over by a slip.
pub(crate) fn save(name: &str, content: &Content, path: &Path) -> Result<(), ApiError> {
    let refused = |detail: &dyn std::fmt::Display| {
        ApiError::new(ErrorCode::FileUnwritable)
            .with("path", path.display())
            .with("detail", detail)
    };
    let ending = Path::new(name).extension().unwrap_or_default();
    let ends_right = path
        .extension()
        .is_some_and(|given| given.eq_ignore_ascii_case(ending));
    if !ends_right {
        let detail = format!("the name doesn't end in .{}", ending.to_string_lossy());
        return Err(refused(&detail));
    }
    let mut beside = path.as_os_str().to_owned();
    beside.push(".part");
    let written = File::create(&beside).and_then(|mut file| {
        io::copy(&mut content.open(), &mut file)?;
        file.sync_all()
    });
    let placed = written.and_then(|()| fs::rename(&beside, path));
    placed.map_err(|error| {
        // Best effort: the place may be gone altogether.
        let _ = fs::remove_file(&beside);
        refused(&error)
    })
}
