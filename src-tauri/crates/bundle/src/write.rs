//! Writing a bundle.

use std::io::{Seek, Write};

use journal::{CheckedBatch, DeviceKey, PersonId, WallTime};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

use crate::error::BundleError;
use crate::lines;
use crate::manifest::{
    BODIES, Counts, FORMAT, MANIFEST, Manifest, MemberInfo, RECORDS, SIGNATURE, Seal,
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

/// Writes a bundle with all that the batch holds. The same batch and origin give the same bytes.
/// What is to be left out (bodies about persons, other subjects) is left out of the batch.
///
/// # Errors
/// [`BundleError::Io`] if writing failed; part of a file may be there then.
pub fn write<W: Write + Seek>(
    out: W,
    batch: &CheckedBatch,
    origin: &Origin<'_>,
) -> Result<Manifest, BundleError> {
    let records = lines::write_records(batch.commits(), batch.records());
    let mut bodies = Vec::new();
    for (&hash, body) in batch.bodies() {
        lines::write_body(&mut bodies, hash, body)?;
    }
    let manifest = Manifest {
        author: origin.author,
        counts: Counts {
            bodies: batch.bodies().len() as u64,
            commits: batch.commits().len() as u64,
            records: batch.records().len() as u64,
        },
        created: origin.created,
        device: origin.key.device(),
        format: FORMAT,
        members: [(BODIES, &bodies), (RECORDS, &records)]
            .map(|(name, bytes)| (name.to_owned(), MemberInfo::of(bytes)))
            .into(),
    };
    let manifest_bytes = serde_json::to_vec(&manifest).map_err(std::io::Error::from)?;
    let seal = serde_json::to_vec(&Seal::make(&manifest_bytes, origin.key))
        .map_err(std::io::Error::from)?;

    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        // Always the same: when the bundle was made stands in the manifest.
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644);
    let mut zip = ZipWriter::new(out);
    for (name, bytes) in [
        (RECORDS, &records),
        (BODIES, &bodies),
        (MANIFEST, &manifest_bytes),
        (SIGNATURE, &seal),
    ] {
        zip.start_file(name, options)
            .map_err(std::io::Error::from)?;
        zip.write_all(bytes)?;
    }
    zip.finish().map_err(std::io::Error::from)?.flush()?;
    Ok(manifest)
}
