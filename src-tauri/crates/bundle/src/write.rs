//! Writing a bundle.

use std::collections::BTreeMap;
use std::io::{self, Seek, Write};

use journal::{DeviceKey, PersonId, WallTime, body};
use store::{Line, Lines};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

use crate::attachments::{AttachmentHash, AttachmentSource, Attested, NoAttachments, each_hash};
use crate::error::{Bound, BundleError};
use crate::limits::{Limits, within};
use crate::lines;
use crate::manifest::{
    BODIES, Counts, FORMAT, MANIFEST, Manifest, MemberInfo, RECORDS, SIGNATURE, Seal, member_name,
};

/// Who makes a bundle, and when.
#[derive(Debug, Clone, Copy)]
pub struct Origin<'a> {
    /// The person.
    pub author: PersonId,
    /// The device, which signs.
    pub key: &'a DeviceKey,
    /// The time, by the device's clock.
    pub created: WallTime,
}

/// As [`write_with`], without attachments.
///
/// # Errors
/// As [`write_with`].
pub fn write<W: Write + Seek>(
    out: W,
    content: &impl Lines,
    origin: &Origin<'_>,
) -> Result<Manifest, BundleError> {
    write_with(out, content, &mut NoAttachments, origin)
}

/// Writes a bundle with all of this content, one line at a time, and the attachments that its
/// bodies name, as far as the source has them. The same content and origin give the same bytes.
/// What is to be left out (bodies about persons, other subjects) is left out of the content, and
/// what only such bodies name is left out with them.
///
/// # Errors
/// [`BundleError::Io`] if writing failed, [`BundleError::Store`] if the content can't be read,
/// [`BundleError::Changed`] for an attachment that has another hash or length,
/// [`BundleError::TooLarge`] if nobody would read the bundle. Part of a file may be there then.
pub fn write_with<W: Write + Seek>(
    out: W,
    content: &impl Lines,
    attachments: &mut dyn AttachmentSource,
    origin: &Origin<'_>,
) -> Result<Manifest, BundleError> {
    let limits = Limits::default();
    let mut archive = Archive {
        zip: ZipWriter::new(out),
        members: 0,
    };
    let mut counts = Counts::default();
    let mut named: BTreeMap<AttachmentHash, u64> = BTreeMap::new();
    let mut members = BTreeMap::new();

    archive.begin(RECORDS, CompressionMethod::Deflated)?;
    let mut member = Member::new(&mut archive.zip);
    let mut failed = None;
    let mut records = None;
    // One pass: bodies come after the last record, and the first of them ends that member.
    let went = content.lines(&mut |line| {
        let wrote = match line {
            Line::Commit(bytes) => {
                counts.commits += 1;
                lines::write_commit(&mut member, bytes)
            }
            Line::Record(bytes) => {
                counts.records += 1;
                lines::write_record(&mut member, bytes)
            }
            Line::Body(hash, bytes) => {
                counts.bodies += 1;
                if records.is_none() {
                    records = Some(member.next(BODIES)?);
                }
                let mut found = Vec::new();
                each_hash(body::content(bytes), |hash| found.push(hash));
                for hash in found {
                    if let Some(length) = attachments.length(&hash)? {
                        named.insert(hash, length);
                    }
                }
                lines::write_body(&mut member, hash, bytes)
            }
        };
        wrote.map_err(|error| {
            let kind = error.kind();
            failed = Some(error);
            io::Error::from(kind).into()
        })
    });
    if let Some(error) = failed {
        return Err(error.into());
    }
    went?;
    let records = match records {
        Some(records) => records,
        None => member.next(BODIES)?,
    };
    members.insert(RECORDS.to_owned(), records);
    members.insert(BODIES.to_owned(), member.end()?);
    archive.members += 1;
    for info in members.values() {
        within(info.bytes, limits.member_bytes, Bound::Member)?;
    }

    for (hash, &length) in &named {
        within(length, limits.attachment_bytes, Bound::Member)?;
        let name = member_name(hash);
        archive.begin(&name, CompressionMethod::Stored)?;
        let mut content = Attested::new(attachments.open(hash)?, *hash, length);
        io::copy(&mut content, &mut archive.zip).map_err(|error| {
            if content.differs {
                BundleError::Changed(name.clone())
            } else {
                error.into()
            }
        })?;
        let blake3 = blake3::Hash::from_bytes(*hash).to_hex().to_string();
        members.insert(
            name,
            MemberInfo {
                blake3,
                bytes: length,
            },
        );
    }
    let manifest = Manifest {
        author: origin.author,
        counts,
        created: origin.created,
        device: origin.key.device(),
        format: if named.is_empty() { 1 } else { FORMAT },
        members,
    };
    let bytes = serde_json::to_vec(&manifest).map_err(io::Error::from)?;
    within(bytes.len() as u64, limits.manifest_bytes, Bound::Member)?;
    let seal = serde_json::to_vec(&Seal::make(&bytes, origin.key)).map_err(io::Error::from)?;
    for (name, bytes) in [(MANIFEST, bytes), (SIGNATURE, seal)] {
        archive.begin(name, CompressionMethod::Deflated)?;
        archive.zip.write_all(&bytes)?;
    }
    within(archive.members, limits.members, Bound::Members)?;
    let mut out = archive.zip.finish().map_err(io::Error::from)?;
    out.flush()?;
    within(out.stream_position()?, limits.file_bytes, Bound::File)?;
    Ok(manifest)
}

fn options(method: CompressionMethod) -> SimpleFileOptions {
    SimpleFileOptions::default()
        .compression_method(method)
        // Always the same: when the bundle was made stands in the manifest.
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644)
}

struct Archive<W: Write + Seek> {
    zip: ZipWriter<W>,
    members: u64,
}

impl<W: Write + Seek> Archive<W> {
    fn begin(&mut self, name: &str, method: CompressionMethod) -> io::Result<()> {
        self.members += 1;
        Ok(self.zip.start_file(name, options(method))?)
    }
}

/// A member that is being written, and what the manifest will say of it.
struct Member<'a, W: Write + Seek> {
    zip: &'a mut ZipWriter<W>,
    /// Deflating single lines costs more than the lines.
    waiting: Vec<u8>,
    hasher: blake3::Hasher,
    bytes: u64,
}

const PIECE: usize = 64 << 10;

impl<'a, W: Write + Seek> Member<'a, W> {
    fn new(zip: &'a mut ZipWriter<W>) -> Self {
        Self {
            zip,
            waiting: Vec::with_capacity(2 * PIECE),
            hasher: blake3::Hasher::new(),
            bytes: 0,
        }
    }

    fn end(&mut self) -> io::Result<MemberInfo> {
        self.flush()?;
        Ok(MemberInfo::new(&self.hasher, self.bytes))
    }

    /// Ends this member and begins another.
    fn next(&mut self, name: &str) -> io::Result<MemberInfo> {
        let info = self.end()?;
        self.zip
            .start_file(name, options(CompressionMethod::Deflated))?;
        self.hasher = blake3::Hasher::new();
        self.bytes = 0;
        Ok(info)
    }
}

impl<W: Write + Seek> Write for Member<'_, W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.waiting.extend_from_slice(bytes);
        if self.waiting.len() >= PIECE {
            self.flush()?;
        }
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        self.hasher.update(&self.waiting);
        self.bytes += self.waiting.len() as u64;
        self.zip.write_all(&self.waiting)?;
        self.waiting.clear();
        Ok(())
    }
}
