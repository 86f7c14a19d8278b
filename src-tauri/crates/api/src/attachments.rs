//! Where the attachments of bundles come from and go to: the folder beside the store.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, Read};

use bundle::{AttachmentHash as Name, AttachmentSink, AttachmentSource, NoAttachments};
use journal::{AttachmentHash, BodyHash};
use store::{Adding, Attachments, Chosen, Store, StoreError};

use crate::ModelProjector;
use crate::error::ApiError;

/// Those that go out with what was chosen.
#[derive(Default)]
pub(crate) struct Outgoing {
    /// None: a store in memory.
    from: Option<Attachments>,
    /// With each, the bodies that it goes with.
    going: BTreeMap<AttachmentHash, BTreeSet<BodyHash>>,
    /// Those that were here, with their lengths.
    told: BTreeMap<AttachmentHash, u64>,
}

/// What goes out with the chosen bodies.
pub(crate) fn outgoing(store: &Store, chosen: &Chosen<'_>) -> Result<Outgoing, ApiError> {
    let Ok(from) = store.attachments() else {
        return Ok(Outgoing::default());
    };
    Ok(Outgoing {
        from: Some(from),
        going: store.attachments_with(|body| chosen.holds_body(body))?,
        told: BTreeMap::new(),
    })
}

impl Outgoing {
    /// None of them, though they are here.
    pub fn stay(&mut self) {
        self.going.clear();
    }

    /// How many photos went with their pictures, and how many bytes these are.
    pub fn went(&self) -> (usize, u64) {
        let photos: BTreeSet<_> = self
            .told
            .keys()
            .filter_map(|hash| self.going.get(hash))
            .flatten()
            .collect();
        (photos.len(), self.told.values().sum())
    }
}

impl AttachmentSource for Outgoing {
    fn length(&mut self, name: &Name) -> io::Result<Option<u64>> {
        let hash = AttachmentHash::from_bytes(*name);
        if let Some(&length) = self.told.get(&hash) {
            return Ok(Some(length));
        }
        let from = self.from.as_ref();
        let Some(from) = from.filter(|_| self.going.contains_key(&hash)) else {
            return Ok(None);
        };
        // A damaged one isn't passed on, and doesn't keep the rest from going.
        if !from.is_sound(hash).map_err(io::Error::other)? {
            return Ok(None);
        }
        let length = from.length(hash).map_err(io::Error::other)?;
        if let Some(length) = length {
            self.told.insert(hash, length);
        }
        Ok(length)
    }

    fn open(&mut self, name: &Name) -> io::Result<Box<dyn Read + '_>> {
        let hash = AttachmentHash::from_bytes(*name);
        let file = match &self.from {
            Some(from) => from.open(hash).map_err(io::Error::other)?,
            None => None,
        };
        Ok(Box::new(file.ok_or(io::ErrorKind::NotFound)?))
    }
}

/// Takes in what comes with a bundle, and then with `take_in` the records that name it. What no
/// record names afterwards, for it was erased or refused, is taken away again at once.
pub(crate) fn incoming<T>(
    here: Option<&Attachments>,
    hand_over: impl FnOnce(&mut dyn AttachmentSink) -> Result<(), ApiError>,
    take_in: impl FnOnce() -> Result<T, ApiError>,
) -> Result<T, ApiError> {
    let Some(here) = here else {
        hand_over(&mut NoAttachments)?;
        return take_in();
    };
    let mut sink = Incoming {
        here,
        adding: None,
        put: BTreeSet::new(),
    };
    // What adds them lives until the records are there, so that nothing is swept between.
    let taken = hand_over(&mut sink).and_then(|()| take_in());
    let put = std::mem::take(&mut sink.put);
    drop(sink);
    // Best effort: sweeping clears them away too, unless a backup names them.
    if let Err(error) = here.erase(&ModelProjector, &put) {
        tracing::warn!(
            ?error,
            "attachments that no record names could not be taken away"
        );
    }
    taken
}

struct Incoming<'a> {
    here: &'a Attachments,
    /// From the first one on: without any no folder is made.
    adding: Option<Adding<'a>>,
    put: BTreeSet<AttachmentHash>,
}

impl AttachmentSink for Incoming<'_> {
    fn put(&mut self, name: &Name, _: u64, content: &mut dyn Read) -> io::Result<()> {
        let hash = AttachmentHash::from_bytes(*name);
        let adding = match self.adding.take() {
            Some(adding) => adding,
            None => self.here.add().map_err(told)?,
        };
        let adding = self.adding.insert(adding);
        // One that is damaged is healed.
        if self.here.is_sound(hash).map_err(told)? {
            return Ok(());
        }
        adding.put_as(hash, content).map_err(told)?;
        self.put.insert(hash);
        Ok(())
    }
}

/// The same in the terms of files, so that a full disk is called so.
fn told(error: StoreError) -> io::Error {
    match error {
        StoreError::DiskFull => io::ErrorKind::StorageFull.into(),
        other => io::Error::other(other),
    }
}
