//! A bundle that is only looked at: what it holds, whoever signed it, in a store of its own that
//! goes when nobody looks any more.
//!
//! Nothing else can be done with a [`Looked`]: it gives no records away, and of its attachments the
//! bytes of one, to be shown. None of it is what a store takes in, so what no signature vouches for
//! can't come into a shop's store by this way.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::io::{Read, Seek};

use journal::{CommitHash, PublicKey, Record};
use store::{Applied, Item, Items, Setup, Store, StoreError};

use crate::attachments::AttachmentHash;
use crate::content::Content;
use crate::error::BundleError;
use crate::manifest::Manifest;
use crate::proof::{Half, Unsigned, listing_of};
use crate::read::Reader;

/// What the bundle's own signature says of who made it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Courier {
    /// It fits: the device with this key made the bundle.
    Signed(PublicKey),
    /// It doesn't fit what it stands beside. Anyone may have made the bundle.
    Misfit,
    /// There is none. Anyone may have made the bundle.
    Unsigned,
}

/// What the signatures in a bundle are worth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Signatures {
    /// The bundle's own.
    pub courier: Courier,
    /// Commits whose signature doesn't fit.
    pub misfit_commits: u64,
    /// Records that no commit with a fitting signature lists.
    pub unsigned_records: u64,
}

impl Signatures {
    /// Whether all of them fit and none is missing, as [`Reader::read`] asks for.
    #[must_use]
    pub const fn hold(&self) -> bool {
        matches!(self.courier, Courier::Signed(_))
            && self.misfit_commits == 0
            && self.unsigned_records == 0
    }
}

/// A bundle whose every hash holds, whatever its signatures are worth.
#[derive(Debug)]
pub struct Looked<R> {
    content: Content<R>,
    courier: Courier,
    misfits: BTreeSet<CommitHash>,
    unsigned: Vec<Half>,
}

impl<R: Read + Seek> Looked<R> {
    /// What the bundle says of itself.
    #[must_use]
    pub const fn manifest(&self) -> &Manifest {
        &self.content.manifest
    }

    /// The attachments that it has, with their lengths.
    #[must_use]
    pub const fn attachments(&self) -> &BTreeMap<AttachmentHash, u64> {
        &self.content.attachments
    }

    /// The bytes of one attachment, read from the file again and held against their hash; none
    /// where the bundle hasn't it. No more is read than [`Limits`](crate::Limits) let an attachment
    /// be long.
    ///
    /// # Errors
    /// [`BundleError::Changed`] if the file is another since it was checked; [`BundleError::Io`]
    /// if it can't be read.
    pub fn attachment(&self, hash: &AttachmentHash) -> Result<Option<Vec<u8>>, BundleError> {
        self.content.attachment(hash)
    }

    /// What its signatures are worth.
    #[must_use]
    pub fn signatures(&self) -> Signatures {
        Signatures {
            courier: self.courier,
            misfit_commits: self.misfits.len() as u64,
            unsigned_records: self.unsigned.len() as u64,
        }
    }

    /// Puts all that it holds, but for commits that don't fit, into a store of its own, by the way
    /// by which a bundle comes into any store. `watch` is told of each item, and whether a
    /// signature vouches for it; of a body whether it is here at all.
    ///
    /// # Errors
    /// [`BundleError::Changed`] if the file is another since it was checked;
    /// [`BundleError::Store`] if there is no room for the store.
    pub fn store(
        &self,
        setup: Setup,
        watch: impl FnMut(&Item<'_>, bool),
    ) -> Result<(Store, Applied), BundleError> {
        let mut store = Store::open_nameless(setup)?;
        let applied = store.apply(&Shown {
            bundle: self,
            watch: RefCell::new(watch),
        })?;
        Ok((store, applied))
    }

    fn is_signed(&self, record: &Record) -> bool {
        self.unsigned.binary_search(&listing_of(record)).is_err()
    }
}

/// What of a bundle is shown, on its way into a store of its own.
struct Shown<'a, R, F> {
    bundle: &'a Looked<R>,
    watch: RefCell<F>,
}

impl<R: Read + Seek, F: FnMut(&Item<'_>, bool)> Items for Shown<'_, R, F> {
    type Error = BundleError;

    fn each(
        &self,
        with: &mut dyn FnMut(Item<'_>) -> Result<(), StoreError>,
    ) -> Result<(), BundleError> {
        let mut watch = self.watch.borrow_mut();
        self.bundle.content.each(&mut |item| {
            let signed = match &item {
                // It vouches for nothing, so it is as if it weren't there.
                Item::Commit(commit) if self.bundle.misfits.contains(&commit.hash()) => {
                    return Ok(());
                }
                Item::Record(record) => self.bundle.is_signed(record),
                Item::Commit(_) | Item::Body(..) => true,
            };
            watch(&item, signed);
            with(item)
        })
    }
}

impl Reader {
    /// Reads a bundle to be looked at: checked as by [`Reader::read`] and within the same limits,
    /// but for its signatures, which may be missing or not fit.
    ///
    /// # Errors
    /// As [`Reader::read`], but for what it says of signatures.
    pub fn look<R: Read + Seek>(&mut self, file: R) -> Result<Looked<R>, BundleError> {
        let (content, courier, proof) = self.go_through(file, Unsigned::Told, &mut |_| {})?;
        self.check_attachments(&content)?;
        Ok(Looked {
            content,
            courier,
            misfits: proof.misfits,
            unsigned: proof.unsigned,
        })
    }
}
