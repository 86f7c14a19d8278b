//! Saving what can be read from a damaged store.
//!
//! The damaged file is read page by page ([`crate::pages`]). Nothing in it is believed for where it
//! stands: a commit must carry a signature that holds, a record must be in canonical form and
//! listed by such a commit, a body must have the hash that a record names. Records keep the order
//! in which they came. Projections are made anew. What was half typed, the settings and what is
//! known of imports come along as far as they can be read; this device's key does not, so the
//! repaired store is a new device.

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};
use std::path::Path;

use journal::{
    Batch, BodyHash, Commit, DeviceId, EnvelopeHash, Kind, Record, RecordId, SubjectId, WallTime,
};
use rusqlite::{TransactionBehavior, params};

use crate::backup::{Backup, Backups, verify_new};
use crate::check::Depth;
use crate::error::StoreError;
use crate::open::{Setup, Store};
use crate::pages::{Pages, Row, Value};
use crate::replace::{Old, replace};
use crate::{local, projection, rows};

/// Why something is not in the repaired store.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Loss {
    /// A record was found, but altered.
    Altered,
    /// A record was found, but no commit with a good signature lists it.
    Unsigned,
    /// A record is here, but its content was altered.
    ContentAltered,
    /// A record is here, but its content was not found: lost, or left out or erased before.
    ContentMissing,
    /// A signed commit lists a record that was not found: lost, or never passed on to this device.
    Missing,
}

/// Something that is not in the repaired store.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Lost {
    /// Why.
    pub loss: Loss,
    /// What kind of record it was, if that could still be read.
    pub kind: Option<Kind>,
    /// What it was about, if that could still be read.
    pub subject: Option<SubjectId>,
}

/// What a repair saved and what it could not.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Repaired {
    /// Records saved.
    pub records: u64,
    /// Contents of records saved.
    pub bodies: u64,
    /// Drafts saved.
    pub drafts: u64,
    /// Commits that were found, but altered.
    pub altered_commits: u64,
    /// Rows of any table that could not be read.
    pub unreadable_rows: u64,
    /// What was lost, and how often the same.
    pub lost: BTreeMap<Lost, u64>,
    /// The damaged store as it is kept.
    pub aside: Option<Backup>,
}

/// How a store came to take another's place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Restored {
    /// The store that it replaced, as it is kept; none if there was none.
    pub aside: Option<Backup>,
}

impl Backups {
    /// Puts a backup in the store's place. It becomes a new device: it gets a new key when it is
    /// opened, and keeps no drafts and of the settings only `keep`. The store that was there is
    /// kept as a backup. No handle of this process may be open on the store.
    ///
    /// # Errors
    /// [`StoreError::NoBackup`]; [`StoreError::Unsound`] if it fails its check;
    /// [`StoreError::Locked`] while another process has the store open; and as the folder may
    /// refuse. The store is then as it was.
    pub fn restore(
        &self,
        name: &str,
        keep: &[&str],
        now: WallTime,
    ) -> Result<Restored, StoreError> {
        let backup = self.path(name)?;
        self.verify(name)?;
        let build = |part: &Path| {
            std::fs::copy(&backup, part)?;
            local::make_new_device(part, keep)?;
            verify_new(part)
        };
        let ((), aside) = replace(self, now, Old::FoldedIn, build)?;
        Ok(Restored { aside })
    }

    /// Saves what can be read from a damaged store into a new one in its place. The damaged one is
    /// kept as it is, byte for byte. No handle of this process may be open on the store.
    ///
    /// # Errors
    /// [`StoreError::NothingReadable`]; [`StoreError::Locked`] while another
    /// process has the store open; [`StoreError::NewerSchema`] for a file that is not damaged but
    /// newer; and as the folder may refuse. The store is then as it was.
    pub fn repair(&self, setup: Setup, now: WallTime) -> Result<Repaired, StoreError> {
        let build = |part: &Path| {
            let mut found = Found::default();
            let unreadable = Pages::open(self.store())?.each_row(|row| {
                found.take(row);
                Ok(())
            })?;
            found.take_bodies(&mut Pages::open(self.store())?)?;
            let saved = found.save(part, setup, unreadable)?;
            verify_new(part)?;
            Ok(saved)
        };
        let (mut saved, aside) = replace(self, now, Old::AsItIs, build)?;
        saved.aside = aside;
        Ok(saved)
    }
}

/// What was found in the pages, by what it says of itself.
#[derive(Default)]
struct Found {
    commits: BTreeMap<i64, Commit>,
    altered_commits: u64,
    records: BTreeMap<i64, Record>,
    bodies: HashMap<BodyHash, Vec<u8>>,
    altered_bodies: HashSet<BodyHash>,
    /// Records that can't be read, by what the columns beside them say.
    altered: Vec<Lost>,
    drafts: BTreeMap<String, (String, i64)>,
    settings: BTreeMap<String, String>,
    imports: BTreeMap<i64, (String, i64)>,
    import_items: BTreeSet<(String, [u8; 32], i64)>,
}

impl Found {
    /// Tables are told apart by the number and the types of their columns; rows.rs, local.rs and
    /// import.rs have them.
    fn take(&mut self, row: Row) {
        use Value::{Blob, Integer, Null, Text};
        let Some(number) = row.number else {
            if let [Text(what), Blob(hash), Integer(import)] = &row.values[..]
                && let Ok(hash) = hash.as_slice().try_into()
                && ["commit", "record", "body"].contains(&what.as_str())
            {
                self.import_items.insert((what.clone(), hash, *import));
            }
            return;
        };
        match &row.values[..] {
            [Null, Blob(_), Blob(hash), Blob(_), Integer(_), Blob(bytes)] => {
                let commit = Commit::parse(bytes).ok().filter(|commit| {
                    commit.verify().is_ok() && commit.hash().as_bytes()[..] == hash[..]
                });
                match commit {
                    Some(commit) => {
                        self.commits.insert(number, commit);
                    }
                    None => self.altered_commits += 1,
                }
            }
            [
                Null,
                Blob(_),
                Blob(hash),
                Blob(subject),
                Text(kind),
                ..,
                Blob(bytes),
            ] if row.values.len() == 11 => {
                let record = Record::parse(bytes).ok();
                match record.filter(|record| record.hash().as_bytes()[..] == hash[..]) {
                    Some(record) => {
                        self.records.insert(number, record);
                    }
                    None => self.altered.push(Lost {
                        loss: Loss::Altered,
                        kind: kind.parse().ok(),
                        subject: subject
                            .as_slice()
                            .try_into()
                            .ok()
                            .map(SubjectId::from_bytes),
                    }),
                }
            }
            [Text(key), Text(json), Integer(updated)] => {
                self.drafts.insert(key.clone(), (json.clone(), *updated));
            }
            [Text(key), Text(json)] => {
                self.settings.insert(key.clone(), json.clone());
            }
            [Null, Text(label), Integer(taken_in)] => {
                self.imports.insert(number, (label.clone(), *taken_in));
            }
            _ => {}
        }
    }

    /// Once more through the pages, for the bodies that the records found name.
    fn take_bodies(&mut self, pages: &mut Pages) -> Result<(), StoreError> {
        let wanted: HashSet<_> = self
            .records
            .values()
            .map(|record| record.envelope().body_hash)
            .collect();
        pages.each_row(|row| {
            if let (Some(_), [Value::Blob(hash), Value::Blob(bytes)]) =
                (row.number, &row.values[..])
                && let Ok(hash) = hash.as_slice().try_into()
            {
                let hash = BodyHash::from_bytes(hash);
                if wanted.contains(&hash) {
                    if BodyHash::of(bytes) == hash {
                        self.bodies.insert(hash, bytes.clone());
                    } else {
                        self.altered_bodies.insert(hash);
                    }
                }
            }
            Ok(())
        })?;
        Ok(())
    }

    fn save(
        mut self,
        part: &Path,
        setup: Setup,
        unreadable_rows: u64,
    ) -> Result<Repaired, StoreError> {
        let mut lost: BTreeMap<Lost, u64> = BTreeMap::new();
        for altered in std::mem::take(&mut self.altered) {
            *lost.entry(altered).or_default() += 1;
        }
        let listed: HashSet<(DeviceId, RecordId, EnvelopeHash)> = self
            .commits
            .values()
            .flat_map(|commit| {
                let device = commit.device();
                commit
                    .records()
                    .iter()
                    .map(move |&(id, hash)| (device, id, hash))
            })
            .collect();
        let of = |record: &Record, loss| Lost {
            loss,
            kind: Some(record.envelope().kind.clone()),
            subject: Some(record.envelope().subject),
        };
        self.records.retain(|_, record| {
            let key = (record.envelope().device, record.id(), record.hash());
            let believed = listed.contains(&key);
            if !believed {
                *lost.entry(of(record, Loss::Unsigned)).or_default() += 1;
            }
            believed
        });
        let here: HashSet<_> = self.records.values().map(Record::hash).collect();
        let missing = listed
            .iter()
            .filter(|(_, _, hash)| !here.contains(hash))
            .count();
        if missing > 0 {
            let unknown = Lost {
                loss: Loss::Missing,
                kind: None,
                subject: None,
            };
            lost.insert(unknown, missing as u64);
        }
        let mut named = HashSet::new();
        for record in self.records.values() {
            let hash = record.envelope().body_hash;
            named.insert(hash);
            if !self.bodies.contains_key(&hash) {
                let loss = if self.altered_bodies.contains(&hash) {
                    Loss::ContentAltered
                } else {
                    Loss::ContentMissing
                };
                *lost.entry(of(record, loss)).or_default() += 1;
            }
        }
        self.bodies.retain(|hash, _| named.contains(hash));
        if self.commits.is_empty() {
            return Err(StoreError::NothingReadable("no signed commit".into()));
        }
        self.write(part, setup)?;
        Ok(Repaired {
            records: self.records.len() as u64,
            bodies: self.bodies.len() as u64,
            drafts: self.drafts.len() as u64,
            altered_commits: self.altered_commits,
            unreadable_rows,
            lost,
            aside: None,
        })
    }

    fn write(&self, part: &Path, setup: Setup) -> Result<(), StoreError> {
        // Nothing goes in that the one way in wouldn't take.
        Batch {
            commits: self.commits.values().cloned().collect(),
            records: self.records.values().cloned().collect(),
            bodies: self.bodies.values().cloned().collect(),
        }
        .check()?;
        let mut store = Store::open(part, setup)?;
        let tx = store
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let mut clock = local::clock(&tx)?;
        for commit in self.commits.values() {
            rows::insert_commit(&tx, commit)?;
        }
        for record in self.records.values() {
            clock.observe(record.envelope().clock);
            rows::insert_record(&tx, record)?;
        }
        for (&hash, bytes) in &self.bodies {
            rows::insert_body(&tx, hash, bytes)?;
        }
        local::put_clock(&tx, clock)?;
        projection::renew(&tx, &*store.projector)?;
        for (key, (json, updated)) in &self.drafts {
            tx.execute(
                "INSERT INTO draft (key, json, updated) VALUES (?1, ?2, ?3)",
                params![key, json, updated],
            )?;
        }
        for (key, json) in &self.settings {
            tx.execute(
                "INSERT INTO setting (key, json) VALUES (?1, ?2)",
                params![key, json],
            )?;
        }
        for (seq, (label, taken_in)) in &self.imports {
            tx.execute(
                "INSERT INTO import_ (seq, label, taken_in) VALUES (?1, ?2, ?3)",
                params![seq, label, taken_in],
            )?;
        }
        let held: HashSet<(&str, [u8; 32])> = self.hashes().collect();
        for (what, hash, import) in &self.import_items {
            if self.imports.contains_key(import) && held.contains(&(what.as_str(), *hash)) {
                tx.execute(
                    "INSERT OR IGNORE INTO import_item (what, hash, import) VALUES (?1, ?2, ?3)",
                    params![what, hash, import],
                )?;
            }
        }
        tx.commit()?;
        // Not yet in its place, so its attachments are not beside it.
        let findings = store.check_file(Depth::Full)?;
        if let Some(first) = findings.first() {
            return Err(StoreError::Unsound(format!("{first:?}")));
        }
        store
            .db
            .pragma_update_and_check(None, "journal_mode", "DELETE", |_| Ok(()))?;
        store.db.close().map_err(|(_, error)| error.into())
    }

    fn hashes(&self) -> impl Iterator<Item = (&'static str, [u8; 32])> {
        let commits = self
            .commits
            .values()
            .map(|commit| ("commit", *commit.hash().as_bytes()));
        let records = self
            .records
            .values()
            .map(|record| ("record", *record.hash().as_bytes()));
        let bodies = self.bodies.keys().map(|hash| ("body", *hash.as_bytes()));
        commits.chain(records).chain(bodies)
    }
}
