//! The rows of a store's file, read from its pages without SQLite, so that a broken page costs
//! the rows on it and no others.
//!
//! After the description of the format at <https://www.sqlite.org/fileformat2.html>: tables and
//! indexes keep their rows in cells of leaf pages (section 1.6), long rows go on in chains of
//! pages, a row is a header of type numbers and then the values (2.1). Of the write-ahead log
//! (section 4) the frames count whose checksums hold, up to the last commit, as they do for SQLite.

use std::collections::HashMap;
use std::fs::File;
use std::io::{Read, Seek, SeekFrom};
use std::path::Path;

use crate::error::StoreError;
use crate::replace::beside;

/// The largest row that is believed.
const LONGEST: usize = 64 << 20;
/// The page size of every store that this program made.
const USUAL_PAGE: usize = 4096;

/// A value of a row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Value {
    Null,
    Integer(i64),
    Real,
    Text(String),
    Blob(Vec<u8>),
}

/// A row of some table or index: a table's has its number.
pub(crate) struct Row {
    pub number: Option<i64>,
    pub values: Vec<Value>,
}

/// The pages of a file and its log.
pub(crate) struct Pages {
    file: File,
    log: Option<File>,
    /// Where in the log the latest version of a page is.
    in_log: HashMap<u32, u64>,
    size: usize,
    count: u32,
}

impl Pages {
    /// # Errors
    /// [`StoreError`] if the file can't be read at all.
    pub fn open(path: &Path) -> Result<Self, StoreError> {
        let mut file = File::open(path)?;
        let length = file.metadata()?.len();
        let mut header = Vec::new();
        file.by_ref().take(100).read_to_end(&mut header)?;
        let named = match be16(&header, 16) {
            Some(1) => 65_536,
            Some(size) => usize::from(size),
            None => 0,
        };
        let in_file = (512..=65_536).contains(&named) && named.is_power_of_two();
        let mut size = if in_file { named } else { USUAL_PAGE };
        let mut in_log = HashMap::new();
        let log = File::open(beside(path, "-wal")).ok();
        if let Some(log) = &log
            && let Some((frames, of_size)) = frames(log)?
        {
            in_log = frames;
            size = of_size;
        }
        let in_file = u32::try_from(length.div_ceil(size as u64)).unwrap_or(u32::MAX);
        let count = in_log.keys().copied().max().unwrap_or(0).max(in_file);
        Ok(Self {
            file,
            log,
            in_log,
            size,
            count,
        })
    }

    /// Calls `with` for each row that can be read; gives how many cells could not.
    ///
    /// # Errors
    /// What `with` says.
    pub fn each_row(
        &mut self,
        mut with: impl FnMut(Row) -> Result<(), StoreError>,
    ) -> Result<u64, StoreError> {
        let mut unreadable = 0;
        for number in 1..=self.count {
            let Some(page) = self.page(number) else {
                continue;
            };
            // The first page begins with the file's own header.
            let start = if number == 1 { 100 } else { 0 };
            let kind = page.get(start).copied();
            let (Some(kind @ (0x02 | 0x0a | 0x0d)), Some(cells)) = (kind, be16(&page, start + 3))
            else {
                continue;
            };
            let pointers = start + if kind == 0x02 { 12 } else { 8 };
            for cell in 0..usize::from(cells) {
                let row = be16(&page, pointers + 2 * cell)
                    .and_then(|at| self.row(&page, usize::from(at), kind));
                match row {
                    Some(row) => with(row)?,
                    None => unreadable += 1,
                }
            }
        }
        Ok(unreadable)
    }

    fn page(&mut self, number: u32) -> Option<Vec<u8>> {
        let mut page = vec![0; self.size];
        let (file, at) = match (self.in_log.get(&number), &mut self.log) {
            (Some(&at), Some(log)) => (log, at),
            _ => (&mut self.file, (u64::from(number) - 1) * self.size as u64),
        };
        file.seek(SeekFrom::Start(at)).ok()?;
        // A page that the disk can't give, or that was cut off, is lost by itself.
        file.read_exact(&mut page).ok()?;
        Some(page)
    }

    fn row(&mut self, page: &[u8], mut at: usize, kind: u8) -> Option<Row> {
        if kind == 0x02 {
            at += 4;
        }
        let length = usize::try_from(varint(page, &mut at)?).ok()?;
        let number = if kind == 0x0d {
            Some(varint(page, &mut at)?)
        } else {
            None
        };
        if length > LONGEST {
            return None;
        }
        let usable = self.size;
        let most = if kind == 0x0d {
            usable - 35
        } else {
            (usable - 12) * 64 / 255 - 23
        };
        let local = if length <= most {
            length
        } else {
            let least = (usable - 12) * 32 / 255 - 23;
            let fitting = least + (length - least) % (usable - 4);
            if fitting <= most { fitting } else { least }
        };
        let mut payload = page.get(at..at + local)?.to_vec();
        let mut next = if local < length {
            be32(page, at + local)?
        } else {
            0
        };
        while payload.len() < length {
            if next == 0 || next > self.count {
                return None;
            }
            let more = self.page(next)?;
            next = be32(&more, 0)?;
            let wanted = (length - payload.len()).min(usable - 4);
            payload.extend_from_slice(more.get(4..4 + wanted)?);
        }
        let values = values(&payload)?;
        Some(Row { number, values })
    }
}

/// The values of a row; none if its header makes no sense.
fn values(payload: &[u8]) -> Option<Vec<Value>> {
    let mut head = 0;
    let end = usize::try_from(varint(payload, &mut head)?).ok()?;
    let mut at = end;
    let mut values = Vec::new();
    while head < end {
        let kind = u64::try_from(varint(payload, &mut head)?).ok()?;
        let length = usize::try_from(match kind {
            0 | 8 | 9 => 0,
            1..=4 => kind,
            5 => 6,
            6 | 7 => 8,
            10 | 11 => return None,
            _ => (kind - 12) / 2,
        })
        .ok()?;
        let bytes = payload.get(at..at.checked_add(length)?)?;
        at += length;
        values.push(match kind {
            0 => Value::Null,
            1..=6 => Value::Integer(integer(bytes)),
            7 => Value::Real,
            8 => Value::Integer(0),
            9 => Value::Integer(1),
            _ if kind % 2 == 0 => Value::Blob(bytes.to_vec()),
            _ => Value::Text(std::str::from_utf8(bytes).ok()?.to_owned()),
        });
    }
    (head == end && at == payload.len()).then_some(values)
}

/// Big-endian, two's complement, one to eight bytes.
fn integer(bytes: &[u8]) -> i64 {
    let negative = bytes.first().is_some_and(|first| first & 0x80 != 0);
    let start = if negative { -1 } else { 0 };
    bytes
        .iter()
        .fold(start, |sum, &byte| (sum << 8) | i64::from(byte))
}

/// Section 1.6: seven bits a byte, the highest bit says that more follow; all eight of the ninth.
fn varint(bytes: &[u8], at: &mut usize) -> Option<i64> {
    let mut value: u64 = 0;
    for i in 0..9 {
        let byte = *bytes.get(*at)?;
        *at += 1;
        if i == 8 {
            value = (value << 8) | u64::from(byte);
        } else {
            value = (value << 7) | u64::from(byte & 0x7f);
            if byte & 0x80 == 0 {
                break;
            }
        }
    }
    Some(i64::from_ne_bytes(value.to_ne_bytes()))
}

fn be16(bytes: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_be_bytes(bytes.get(at..at + 2)?.try_into().ok()?))
}

fn be32(bytes: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_be_bytes(bytes.get(at..at + 4)?.try_into().ok()?))
}

type Frames = HashMap<u32, u64>;

/// Where the log has the latest committed version of each page, and the size of its pages; none
/// if it is no log.
fn frames(mut log: &File) -> Result<Option<(Frames, usize)>, StoreError> {
    let mut header = [0; 32];
    log.seek(SeekFrom::Start(0))?;
    if log.read_exact(&mut header).is_err() {
        return Ok(None);
    }
    let word = |at: usize| be32(&header, at).unwrap_or(0);
    let (magic, size) = (word(0), word(8) as usize);
    if magic & !1 != 0x377f_0682 || !(512..=65_536).contains(&size) || !size.is_power_of_two() {
        return Ok(None);
    }
    let big_endian = magic & 1 == 1;
    let mut sum = checksum((0, 0), &header[..24], big_endian);
    if sum != (word(24), word(28)) {
        return Ok(None);
    }
    let (mut committed, mut since) = (Frames::new(), Frames::new());
    let mut frame = vec![0; 24 + size];
    let mut at = 32_u64;
    while log.read_exact(&mut frame).is_ok() {
        let of_frame = |at: usize| be32(&frame, at).unwrap_or(0);
        sum = checksum(sum, &frame[..8], big_endian);
        sum = checksum(sum, &frame[24..], big_endian);
        if frame[8..16] != header[16..24] || sum != (of_frame(16), of_frame(20)) {
            break;
        }
        since.insert(of_frame(0), at + 24);
        if of_frame(4) != 0 {
            committed.extend(since.drain());
        }
        at += frame.len() as u64;
    }
    Ok(Some((committed, size)))
}

/// Section 4.2.
fn checksum(start: (u32, u32), bytes: &[u8], big_endian: bool) -> (u32, u32) {
    let word = |bytes: &[u8]| {
        let bytes = [bytes[0], bytes[1], bytes[2], bytes[3]];
        if big_endian {
            u32::from_be_bytes(bytes)
        } else {
            u32::from_le_bytes(bytes)
        }
    };
    bytes.chunks_exact(8).fold(start, |(a, b), pair| {
        let a = a.wrapping_add(word(&pair[..4])).wrapping_add(b);
        let b = b.wrapping_add(word(&pair[4..])).wrapping_add(a);
        (a, b)
    })
}
