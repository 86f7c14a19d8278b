//! The lines of the two NDJSON members.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use journal::{Batch, BodyHash, Commit, Record};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::error::{Bound, BundleError};
use crate::limits::{Counters, Limits, depth, within};
use crate::manifest::{BODIES, RECORDS};

const COMMIT: &[u8] = b"{\"commit\":";
const RECORD: &[u8] = b"{\"record\":";

// In the order of their names.
#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct BodyLine {
    #[serde(skip_serializing_if = "Option::is_none")]
    base64: Option<String>,
    hash: BodyHash,
    #[serde(skip_serializing_if = "Option::is_none")]
    text: Option<String>,
}

fn push(out: &mut Vec<u8>, head: &[u8], inner: &[u8]) {
    out.extend_from_slice(head);
    out.extend_from_slice(inner);
    out.extend_from_slice(b"}\n");
}

/// Commits and records, in their order.
pub(crate) fn write_records(commits: &[Commit], records: &[Record]) -> Vec<u8> {
    let mut out = Vec::new();
    for commit in commits {
        push(&mut out, COMMIT, commit.bytes());
    }
    for record in records {
        push(&mut out, RECORD, record.bytes());
    }
    out
}

/// One body.
pub(crate) fn write_body(out: &mut Vec<u8>, hash: BodyHash, body: &[u8]) -> std::io::Result<()> {
    let text = std::str::from_utf8(body).ok().map(str::to_owned);
    let base64 = text.is_none().then(|| STANDARD.encode(body));
    serde_json::to_writer(&mut *out, &BodyLine { base64, hash, text })?;
    out.push(b'\n');
    Ok(())
}

fn inner<'a>(line: &'a [u8], head: &[u8]) -> Option<&'a [u8]> {
    line.strip_prefix(head)?.strip_suffix(b"}")
}

/// Calls `with` for each line and its number; each must end in a line feed and keep the limits.
fn each_line(
    member: &'static str,
    bytes: &[u8],
    limits: &Limits,
    counters: &mut Counters,
    mut with: impl FnMut(&[u8]) -> Result<(), String>,
) -> Result<(), BundleError> {
    for (number, line) in (1..).zip(bytes.split_inclusive(|&byte| byte == b'\n')) {
        let malformed = |reason| BundleError::Malformed {
            member,
            line: number,
            reason,
        };
        within(line.len(), limits.line_bytes, Bound::Line)?;
        let line = line
            .strip_suffix(b"\n")
            .ok_or_else(|| malformed("no line feed at its end".into()))?;
        counters.depth = counters.depth.max(depth(line));
        within(counters.depth, limits.depth, Bound::Depth)?;
        with(line).map_err(malformed)?;
    }
    Ok(())
}

/// Reads commits and records into the batch.
pub(crate) fn read_records(
    bytes: &[u8],
    limits: &Limits,
    counters: &mut Counters,
    batch: &mut Batch,
) -> Result<(), BundleError> {
    each_line(RECORDS, bytes, limits, counters, |line| {
        if let Some(commit) = inner(line, COMMIT) {
            batch
                .commits
                .push(Commit::parse(commit).map_err(|e| e.to_string())?);
        } else if let Some(record) = inner(line, RECORD) {
            batch
                .records
                .push(Record::parse(record).map_err(|e| e.to_string())?);
        } else {
            return Err("neither a commit nor a record".into());
        }
        Ok(())
    })
}

/// Reads bodies into the batch.
pub(crate) fn read_bodies(
    bytes: &[u8],
    limits: &Limits,
    counters: &mut Counters,
    batch: &mut Batch,
) -> Result<(), BundleError> {
    each_line(BODIES, bytes, limits, counters, |line| {
        let line: BodyLine = serde_json::from_slice(line).map_err(|e| e.to_string())?;
        let body = match (line.text, line.base64) {
            (Some(text), None) => text.into_bytes(),
            (None, Some(base64)) => STANDARD.decode(base64).map_err(|e| e.to_string())?,
            _ => return Err("a body is either text or base64".into()),
        };
        if BodyHash::of(&body) != line.hash {
            return Err("the body has another hash".into());
        }
        batch.bodies.push(body);
        Ok(())
    })
}
