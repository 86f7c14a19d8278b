//! Commits, records and bodies on their way in or out, one at a time: a whole shop need not be in
//! memory at once.

use std::cell::RefCell;
use std::collections::HashSet;

use journal::{BodyHash, CheckedBatch, Commit, EnvelopeHash, Record};

use crate::error::StoreError;

/// One of them on its way in.
#[derive(Debug, Clone, Copy)]
pub enum Item<'a> {
    /// A commit whose signature holds.
    Commit(&'a Commit),
    /// A record that such a commit lists.
    Record(&'a Record),
    /// A body that one of the records has, as raw bytes.
    Body(BodyHash, &'a [u8]),
}

/// What was checked and can be taken in, wherever it lies.
pub trait Items {
    /// Why it can't be gone through after all.
    type Error: From<StoreError>;

    /// Calls `with` for each, commits and records before bodies; stops at its first error. After
    /// an error nothing of what was told may be kept.
    ///
    /// # Errors
    /// What `with` says, or why the rest can't be had.
    fn each(
        &self,
        with: &mut dyn FnMut(Item<'_>) -> Result<(), StoreError>,
    ) -> Result<(), Self::Error>;
}

impl Items for CheckedBatch {
    type Error = StoreError;

    fn each(
        &self,
        with: &mut dyn FnMut(Item<'_>) -> Result<(), StoreError>,
    ) -> Result<(), StoreError> {
        for commit in self.commits() {
            with(Item::Commit(commit))?;
        }
        for record in self.records() {
            with(Item::Record(record))?;
        }
        for (&hash, bytes) in self.bodies() {
            with(Item::Body(hash, bytes))?;
        }
        Ok(())
    }
}

/// One of them on its way out, as the bytes that were hashed and signed.
#[derive(Debug, Clone, Copy)]
pub enum Line<'a> {
    /// A commit.
    Commit(&'a [u8]),
    /// A record's envelope.
    Record(&'a [u8]),
    /// A body.
    Body(BodyHash, &'a [u8]),
}

/// What can be written down.
pub trait Lines {
    /// Calls `with` for each: commits by id and hash, then records by id and hash, then bodies by
    /// hash. Stops at its first error.
    ///
    /// # Errors
    /// What `with` says, or why the rest can't be read.
    fn lines(
        &self,
        with: &mut dyn FnMut(Line<'_>) -> Result<(), StoreError>,
    ) -> Result<(), StoreError>;
}

impl Lines for CheckedBatch {
    fn lines(
        &self,
        with: &mut dyn FnMut(Line<'_>) -> Result<(), StoreError>,
    ) -> Result<(), StoreError> {
        self.each(&mut |item| {
            with(match item {
                Item::Commit(commit) => Line::Commit(commit.bytes()),
                Item::Record(record) => Line::Record(record.bytes()),
                Item::Body(hash, bytes) => Line::Body(hash, bytes),
            })
        })
    }
}

/// By name what a bundle held.
#[derive(Debug, Default)]
pub struct Held {
    pub(crate) records: HashSet<EnvelopeHash>,
    pub(crate) bodies: HashSet<BodyHash>,
}

impl Held {
    /// Remembers one that went by.
    pub fn note(&mut self, item: &Item<'_>) {
        match item {
            Item::Commit(_) => {}
            Item::Record(record) => {
                self.records.insert(record.hash());
            }
            Item::Body(hash, _) => {
                self.bodies.insert(*hash);
            }
        }
    }
}

/// Items that are looked at on their way, so that they need be gone through only once.
#[derive(Debug)]
pub struct Watched<'a, I, F> {
    items: &'a I,
    watch: RefCell<F>,
}

impl<'a, I: Items, F: FnMut(&Item<'_>)> Watched<'a, I, F> {
    /// The same items; `watch` sees each first.
    pub fn new(items: &'a I, watch: F) -> Self {
        Self {
            items,
            watch: RefCell::new(watch),
        }
    }
}

impl<I: Items, F: FnMut(&Item<'_>)> Items for Watched<'_, I, F> {
    type Error = I::Error;

    fn each(
        &self,
        with: &mut dyn FnMut(Item<'_>) -> Result<(), StoreError>,
    ) -> Result<(), I::Error> {
        let mut watch = self.watch.borrow_mut();
        self.items.each(&mut |item| {
            watch(&item);
            with(item)
        })
    }
}
