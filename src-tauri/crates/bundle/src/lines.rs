//! The lines of the two NDJSON members.

use std::borrow::Cow;
use std::io::{self, Write};

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use journal::{BodyHash, Commit, Record};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::error::{Bound, BundleError};
use crate::limits::{Limits, depth, within};

const COMMIT: &[u8] = b"{\"commit\":";
const RECORD: &[u8] = b"{\"record\":";

// In the order of their names.
#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "BodyLine")]
pub(crate) struct BodyLine<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    base64: Option<Cow<'a, str>>,
    hash: BodyHash,
    #[serde(skip_serializing_if = "Option::is_none")]
    text: Option<Cow<'a, str>>,
}

/// A commit's line.
pub(crate) fn write_commit(out: &mut impl Write, bytes: &[u8]) -> io::Result<()> {
    write(out, COMMIT, bytes)
}

/// A record's line.
pub(crate) fn write_record(out: &mut impl Write, bytes: &[u8]) -> io::Result<()> {
    write(out, RECORD, bytes)
}

fn write(out: &mut impl Write, head: &[u8], inner: &[u8]) -> io::Result<()> {
    out.write_all(head)?;
    out.write_all(inner)?;
    out.write_all(b"}\n")
}

/// A body's line.
pub(crate) fn write_body(out: &mut impl Write, hash: BodyHash, body: &[u8]) -> io::Result<()> {
    let text = std::str::from_utf8(body).ok();
    let base64 = text.is_none().then(|| STANDARD.encode(body));
    serde_json::to_writer(
        &mut *out,
        &BodyLine {
            base64: base64.map(Cow::Owned),
            hash,
            text: text.map(Cow::Borrowed),
        },
    )?;
    out.write_all(b"\n")
}

/// Cuts what comes piece by piece into lines. Each must end in a line feed and keep the limits.
pub(crate) struct Splitter<'a> {
    member: &'static str,
    limits: &'a Limits,
    /// The deepest nesting met.
    pub depth: usize,
    number: usize,
    begun: Vec<u8>,
}

/// Why a line can't be taken: what is wrong with it in words, or an error of its own.
pub(crate) enum Fault {
    Form(String),
    Other(BundleError),
}

impl<E: std::error::Error> From<E> for Fault {
    fn from(error: E) -> Self {
        Self::Form(error.to_string())
    }
}

impl<'a> Splitter<'a> {
    pub fn new(member: &'static str, limits: &'a Limits) -> Self {
        Self {
            member,
            limits,
            depth: 0,
            number: 0,
            begun: Vec::new(),
        }
    }

    /// Calls `with` for each line that ends in this piece.
    pub fn take(
        &mut self,
        piece: &[u8],
        mut with: impl FnMut(&[u8]) -> Result<(), Fault>,
    ) -> Result<(), BundleError> {
        for part in piece.split_inclusive(|&byte| byte == b'\n') {
            within(
                self.begun.len() + part.len(),
                self.limits.line_bytes,
                Bound::Line,
            )?;
            let Some(rest) = part.strip_suffix(b"\n") else {
                self.begun.extend_from_slice(part);
                continue;
            };
            if self.begun.is_empty() {
                self.line(rest, &mut with)?;
            } else {
                let mut line = std::mem::take(&mut self.begun);
                line.extend_from_slice(rest);
                self.line(&line, &mut with)?;
                line.clear();
                self.begun = line;
            }
        }
        Ok(())
    }

    fn line(
        &mut self,
        line: &[u8],
        with: &mut impl FnMut(&[u8]) -> Result<(), Fault>,
    ) -> Result<(), BundleError> {
        self.number += 1;
        self.depth = self.depth.max(depth(line));
        within(self.depth, self.limits.depth, Bound::Depth)?;
        with(line).map_err(|fault| match fault {
            Fault::Form(reason) => self.malformed(reason),
            Fault::Other(error) => error,
        })
    }

    /// Nothing may be left at the end.
    pub fn end(mut self) -> Result<(), BundleError> {
        self.number += 1;
        if self.begun.is_empty() {
            Ok(())
        } else {
            Err(self.malformed("no line feed at its end".into()))
        }
    }

    fn malformed(&self, reason: String) -> BundleError {
        BundleError::Malformed {
            member: self.member,
            line: self.number,
            reason,
        }
    }
}

/// What a line of `records.ndjson` holds.
pub(crate) enum Entry {
    Commit(Commit),
    Record(Record),
}

fn inner<'a>(line: &'a [u8], head: &[u8]) -> Option<&'a [u8]> {
    line.strip_prefix(head)?.strip_suffix(b"}")
}

/// Reads a commit or a record.
pub(crate) fn read_entry(line: &[u8]) -> Result<Entry, Fault> {
    if let Some(commit) = inner(line, COMMIT) {
        Ok(Entry::Commit(Commit::parse(commit)?))
    } else if let Some(record) = inner(line, RECORD) {
        Ok(Entry::Record(Record::parse(record)?))
    } else {
        Err(Fault::Form("neither a commit nor a record".into()))
    }
}

/// Reads a body.
pub(crate) fn read_body(line: &[u8]) -> Result<(BodyHash, Vec<u8>), Fault> {
    let line: BodyLine<'_> = serde_json::from_slice(line)?;
    let body = match (line.text, line.base64) {
        (Some(text), None) => text.into_owned().into_bytes(),
        (None, Some(base64)) => STANDARD.decode(base64.as_bytes())?,
        _ => return Err(Fault::Form("a body is either text or base64".into())),
    };
    if BodyHash::of(&body) == line.hash {
        Ok((line.hash, body))
    } else {
        Err(Fault::Form("the body has another hash".into()))
    }
}
