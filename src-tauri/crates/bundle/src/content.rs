//! What is in a bundle, read from the file again after all of it was checked.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::io::{self, Read, Seek};

use store::{Item, Items, StoreError};

use crate::attachments::{AttachmentHash, AttachmentSink, Attested};
use crate::container::Container;
use crate::error::BundleError;
use crate::limits::{Counters, Limits};
use crate::lines::{self, Entry, Fault, Splitter};
use crate::manifest::{BODIES, Manifest, RECORDS, member_name};

/// A bundle whose every hash holds. What its signatures say is known to whoever has it.
#[derive(Debug)]
pub(crate) struct Content<R> {
    pub manifest: Manifest,
    pub attachments: BTreeMap<AttachmentHash, u64>,
    pub limits: Limits,
    pub container: RefCell<Container<R>>,
}

impl<R: Read + Seek> Content<R> {
    /// As [`Checked::hand_over`](crate::Checked::hand_over).
    pub fn hand_over(&self, sink: &mut dyn AttachmentSink) -> Result<(), BundleError> {
        let mut container = self.container.borrow_mut();
        for (hash, &length) in &self.attachments {
            let name = member_name(hash);
            container.reading(&name, |content| {
                let mut attested = Attested::new(content, *hash, length);
                let kept = sink.put(hash, length, &mut attested);
                // A sink that stopped reading too early kept something that nobody checked.
                let read = kept.and_then(|()| {
                    if attested.whole {
                        Ok(())
                    } else {
                        io::copy(&mut attested, &mut io::sink()).map(drop)
                    }
                });
                match read {
                    Err(_) if attested.differs => Err(BundleError::Changed(name.clone())),
                    read => Ok(read?),
                }
            })?;
        }
        Ok(())
    }

    /// One attachment as a whole, checked as those that are handed over.
    pub fn attachment(&self, hash: &AttachmentHash) -> Result<Option<Vec<u8>>, BundleError> {
        let Some(&length) = self.attachments.get(hash) else {
            return Ok(None);
        };
        let name = member_name(hash);
        let bytes = self.container.borrow_mut().reading(&name, |content| {
            let mut attested = Attested::new(content, *hash, length);
            let mut bytes = Vec::new();
            match attested.read_to_end(&mut bytes) {
                Err(_) if attested.differs => Err(BundleError::Changed(name.clone())),
                Err(error) => Err(error.into()),
                Ok(_) => Ok(bytes),
            }
        })?;
        Ok(Some(bytes))
    }

    /// Reads a member of lines again.
    fn again(
        &self,
        name: &'static str,
        mut with: impl FnMut(&[u8]) -> Result<(), Fault>,
    ) -> Result<(), BundleError> {
        let mut splitter = Splitter::new(name, &self.limits);
        let mut counters = Counters::default();
        let found = self.container.borrow_mut().pass(
            name,
            self.limits.member_bytes,
            &self.limits,
            &mut counters,
            |piece| splitter.take(piece, &mut with),
        )?;
        splitter.end()?;
        if self.manifest.members.get(name) == Some(&found) {
            Ok(())
        } else {
            Err(BundleError::Changed(name.into()))
        }
    }
}

impl<R: Read + Seek> Items for Content<R> {
    type Error = BundleError;

    fn each(
        &self,
        with: &mut dyn FnMut(Item<'_>) -> Result<(), StoreError>,
    ) -> Result<(), BundleError> {
        self.again(RECORDS, |line| {
            match lines::read_entry(line)? {
                Entry::Commit(commit) => with(Item::Commit(&commit)),
                Entry::Record(record) => with(Item::Record(&record)),
            }
            .map_err(|error| Fault::Other(error.into()))
        })?;
        self.again(BODIES, |line| {
            let (hash, body) = lines::read_body(line)?;
            with(Item::Body(hash, &body)).map_err(|error| Fault::Other(error.into()))
        })
    }
}
