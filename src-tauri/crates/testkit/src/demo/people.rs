//! The demo's people, each with a device of their own.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use chrono::{DateTime, Utc};
use journal::{Batch, PersonId, SubjectId, WallTime};
use store::{NewRecord, Selection, Setup, Store};

use super::DemoError;
use crate::seeded::SeededEntropy;

/// A person at their device.
struct Worker {
    person: PersonId,
    store: Store,
}

/// Everybody, and the shop's shared journal.
pub(crate) struct Crew {
    workers: BTreeMap<String, Worker>,
    /// Who exchanges nothing for now.
    away: BTreeSet<String>,
}

impl Crew {
    pub fn new() -> Self {
        Self {
            workers: BTreeMap::new(),
            away: BTreeSet::new(),
        }
    }

    /// Gives a person a device. Its key comes from the name: it protects nothing and need not.
    pub fn join(&mut self, says: &str, person: SubjectId) -> Result<(), DemoError> {
        let mut setup = Setup::new(Arc::new(api::ModelProjector));
        setup.entropy = Box::new(SeededEntropy::new(&format!("demo device of {says}")));
        let store = Store::open_in_memory(setup)?;
        let person = PersonId::from_bytes(*person.as_bytes());
        self.workers
            .insert(says.to_owned(), Worker { person, store });
        Ok(())
    }

    /// One user action, signed on the person's device and then handed to everybody.
    pub fn commit(
        &mut self,
        by: &str,
        at: DateTime<Utc>,
        records: Vec<NewRecord>,
    ) -> Result<(), DemoError> {
        let subjects = records.iter().map(|record| record.subject).collect();
        let worker = self.worker(by)?;
        let now = WallTime::from_unix_ms(at.timestamp_millis());
        worker.store.append(records, worker.person, now)?;
        let news = worker.store.export(&Selection::Subjects(subjects), true)?;
        let news = news.check().map_err(store::StoreError::from)?;
        if self.away.contains(by) {
            return Ok(());
        }
        for (says, worker) in &mut self.workers {
            if !self.away.contains(says) {
                worker.store.apply(&news)?;
            }
        }
        Ok(())
    }

    /// From now on a person exchanges nothing with the others.
    pub fn goes_away(&mut self, says: &str) -> Result<(), DemoError> {
        self.worker(says)?;
        self.away.insert(says.to_owned());
        Ok(())
    }

    /// A person is back: each side takes in all that the other has.
    pub fn comes_back(&mut self, says: &str) -> Result<(), DemoError> {
        self.away.remove(says);
        let mut all = Vec::new();
        for worker in self.workers.values() {
            let batch = worker.store.export(&Selection::Everything, true)?;
            all.push(batch.check().map_err(store::StoreError::from)?);
        }
        for (name, worker) in &mut self.workers {
            if self.away.contains(name) {
                continue;
            }
            for batch in &all {
                worker.store.apply(batch)?;
            }
        }
        Ok(())
    }

    /// The store as a person sees it.
    pub fn store(&mut self, by: &str) -> Result<&Store, DemoError> {
        Ok(&self.worker(by)?.store)
    }

    /// The whole journal, with the person and the device that hand it on.
    pub fn journal(
        &mut self,
        by: &str,
    ) -> Result<(Batch, PersonId, &journal::DeviceKey), DemoError> {
        let worker = self.worker(by)?;
        let batch = worker.store.export(&Selection::Everything, true)?;
        Ok((batch, worker.person, worker.store.device_key()))
    }

    fn worker(&mut self, by: &str) -> Result<&mut Worker, DemoError> {
        self.workers
            .get_mut(by)
            .ok_or_else(|| DemoError::Unknown(by.to_owned()))
    }
}
