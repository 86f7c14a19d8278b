//! Files on their way in or out, held in memory under a handle. An interface that can reach no
//! path (a browser) carries them in pieces; whoever can names a path.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{Read, Write};
use std::path::Path;
use std::sync::Arc;

use bundle::Limits;

use crate::error::{ApiError, ErrorCode};

/// The ending of a bundle's name.
pub(crate) const ENDING: &str = "vvb";

/// Handles held at once; the oldest goes when another is asked for.
const HELD: usize = 4;

/// The longest piece that [`Files::piece`] gives, in bytes: well under what a request may carry.
const PIECE: usize = 3 << 20;

#[derive(Default)]
pub(crate) struct Files {
    last: u32,
    held: BTreeMap<u32, Held>,
}

#[derive(Clone)]
struct Held {
    name: String,
    bytes: Arc<Vec<u8>>,
    /// Made here, so its content may be given out; what was read from a path is only looked at.
    ours: bool,
}

/// The longest file that is taken, in bytes.
pub(crate) fn limit() -> u64 {
    Limits::default().file_bytes
}

fn too_large() -> ApiError {
    ApiError::new(ErrorCode::FileTooLarge).with("megabytes", limit() >> 20)
}

impl Files {
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

    /// An empty file, to be filled piece by piece.
    pub fn begin(&mut self, name: &str) -> u32 {
        self.hold(Held {
            name: name.chars().take(120).collect(),
            bytes: Arc::default(),
            ours: false,
        })
    }

    /// A file that was made here.
    pub fn made(&mut self, name: String, bytes: Vec<u8>) -> u32 {
        self.hold(Held {
            name,
            bytes: Arc::new(bytes),
            ours: true,
        })
    }

    /// Adds a piece to a file that comes in.
    pub fn add(&mut self, file: u32, piece: &[u8]) -> Result<u64, ApiError> {
        let held = self.held.get_mut(&file).filter(|held| !held.ours);
        let held = held.ok_or_else(|| ApiError::not_found("file", file))?;
        if (held.bytes.len() + piece.len()) as u64 > limit() {
            self.held.remove(&file);
            return Err(too_large());
        }
        Arc::make_mut(&mut held.bytes).extend_from_slice(piece);
        Ok(held.bytes.len() as u64)
    }

    /// A file from a path.
    pub fn open(&mut self, path: &Path) -> Result<u32, ApiError> {
        let failed = |error: std::io::Error| {
            ApiError::new(ErrorCode::FileUnreadable)
                .with("path", path.display())
                .with("detail", error)
        };
        let content = File::open(path).map_err(failed)?;
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        self.take(&name, content)
            .map_err(|error| error.with("path", path.display()))
    }

    /// A file that was opened elsewhere.
    pub fn take(&mut self, name: &str, content: impl Read) -> Result<u32, ApiError> {
        let mut bytes = Vec::new();
        // One byte more than is taken, so that a longer file is told.
        content
            .take(limit() + 1)
            .read_to_end(&mut bytes)
            .map_err(|error| {
                ApiError::new(ErrorCode::FileUnreadable)
                    .with("path", name)
                    .with("detail", error)
            })?;
        if bytes.len() as u64 > limit() {
            return Err(too_large());
        }
        Ok(self.hold(Held {
            name: name.to_owned(),
            bytes: Arc::new(bytes),
            ours: false,
        }))
    }

    /// Its name and content.
    pub fn content(&self, file: u32) -> Result<(String, Arc<Vec<u8>>), ApiError> {
        let held = self.get(file)?;
        Ok((held.name.clone(), Arc::clone(&held.bytes)))
    }

    /// Puts what a sealed file held in its place. What was sealed is no longer kept.
    pub fn unsealed(&mut self, file: u32, sealed: &[u8], bytes: Vec<u8>) -> Result<u64, ApiError> {
        let length = bytes.len() as u64;
        // It may have gone, or grown, while it was being opened.
        let held = self.held.get_mut(&file);
        let held = held.filter(|held| std::ptr::eq(held.bytes.as_slice(), sealed));
        let held = held.ok_or_else(|| ApiError::not_found("file", file))?;
        held.bytes = Arc::new(bytes);
        Ok(length)
    }

    /// A file that came in, for opening its seal: what was made here is given out as it is.
    pub fn sealed(&self, file: u32) -> Result<Arc<Vec<u8>>, ApiError> {
        let held = self.get(file)?;
        if held.ours {
            return Err(ApiError::not_found("file", file));
        }
        Ok(Arc::clone(&held.bytes))
    }

    /// A piece of a file that was made here, and how long the whole is.
    pub fn piece(&self, file: u32, from: u64) -> Result<(&[u8], u64), ApiError> {
        let held = self.get(file)?;
        if !held.ours {
            return Err(ApiError::not_found("file", file));
        }
        let from = usize::try_from(from).unwrap_or(usize::MAX);
        let rest = held.bytes.get(from..).unwrap_or_default();
        Ok((&rest[..rest.len().min(PIECE)], held.bytes.len() as u64))
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

/// Writes a file that was made under `name` whole or not at all: beside its place first, then in
/// it. It keeps its ending, so that nobody's program or settings can be written over by a slip.
pub(crate) fn save(name: &str, bytes: &[u8], path: &Path) -> Result<(), ApiError> {
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
        file.write_all(bytes)?;
        file.sync_all()
    });
    let placed = written.and_then(|()| fs::rename(&beside, path));
    placed.map_err(|error| {
        // Best effort: the place may be gone altogether.
        let _ = fs::remove_file(&beside);
        refused(&error)
    })
}
