//! People who write: records as the store would make them, signed on a device of their own.

use journal::{
    Action, Batch, BodyHash, Commit, CommitDraft, CommitId, DeviceKey, Envelope, HybridClock,
    Kind as KindName, PersonId, Record, RecordId, SubjectId, WallTime, body,
};
use model::Kind;
use rand::RngExt;
use rand_chacha::ChaCha20Rng;
use serde::Serialize;
use store::StoreError;

use crate::demo::DemoError;

/// A person at their device.
pub(super) struct Worker {
    pub person: PersonId,
    key: DeviceKey,
    clock: HybridClock,
}

impl Worker {
    pub fn new(rng: &mut ChaCha20Rng, person: SubjectId) -> Self {
        Self {
            person: PersonId::from_bytes(*person.as_bytes()),
            key: DeviceKey::from_secret(&rng.random()),
            clock: HybridClock::default(),
        }
    }
}

/// A record to be written.
pub(super) struct Draft {
    subject: SubjectId,
    kind: KindName,
    version: u32,
    supersedes: Vec<RecordId>,
    body: Vec<u8>,
    personal: bool,
}

impl Draft {
    pub fn new<T: Serialize>(subject: SubjectId, kind: Kind, value: &T) -> Result<Self, DemoError> {
        let body = serde_json::to_vec(value).map_err(|error| DemoError::Body {
            subject: subject.to_string(),
            kind: kind.name().to_owned(),
            error: error.to_string(),
        })?;
        Ok(Self {
            subject,
            kind: KindName::literal(kind.name()),
            version: kind.version(),
            supersedes: Vec::new(),
            body,
            personal: kind.personal(),
        })
    }

    pub fn replacing(mut self, record: RecordId) -> Self {
        self.supersedes = vec![record];
        self
    }

    pub fn void(subject: SubjectId, target: RecordId) -> Self {
        Self {
            subject,
            kind: KindName::VOID,
            version: 1,
            supersedes: vec![target],
            body: b"{}".to_vec(),
            personal: false,
        }
    }
}

/// Writes commits into a batch, as time goes by.
pub(super) struct Pen {
    pub rng: ChaCha20Rng,
    pub workers: Vec<Worker>,
    pub now: WallTime,
    pub batch: Batch,
}

impl Pen {
    pub fn subject(&mut self) -> SubjectId {
        SubjectId::new(self.now.unsigned_ms(), &self.rng.random())
    }

    /// Lets time pass.
    pub fn pass(&mut self, minutes: i64) {
        self.now = WallTime::from_unix_ms(self.now.unix_ms() + minutes * 60_000);
    }

    /// One user action; the records' identifiers, in order.
    pub fn commit(&mut self, by: usize, drafts: Vec<Draft>) -> Result<Vec<RecordId>, DemoError> {
        let by = by % self.workers.len();
        let worker = &mut self.workers[by];
        let format = |error| DemoError::Store(StoreError::from(error));
        let mut listed = Vec::with_capacity(drafts.len());
        for draft in drafts {
            let bytes = if draft.personal {
                body::salted(&draft.body, &self.rng.random())
            } else {
                draft.body
            };
            let tick = worker.clock.tick(self.now);
            let record = Record::new(Envelope {
                id: RecordId::new(tick.millis(), &self.rng.random()),
                clock: tick,
                wall_time: self.now,
                device: worker.key.device(),
                author: worker.person,
                subject: draft.subject,
                kind: draft.kind,
                kind_version: draft.version,
                supersedes: draft.supersedes,
                body_hash: BodyHash::of(&bytes),
            })
            .map_err(format)?;
            listed.push((record.id(), record.hash()));
            self.batch.records.push(record);
            self.batch.bodies.push(bytes);
        }
        let ids = listed.iter().map(|(id, _)| *id).collect();
        let draft = CommitDraft {
            id: CommitId::new(worker.clock.last().millis(), &self.rng.random()),
            action: Action::Edit,
            wall_time: self.now,
            records: listed,
        };
        let commit = Commit::sign(draft, &worker.key).map_err(format)?;
        self.batch.commits.push(commit);
        // Everybody hears of it.
        let last = worker.clock.last();
        for worker in &mut self.workers {
            worker.clock.observe(last);
        }
        Ok(ids)
    }
}
