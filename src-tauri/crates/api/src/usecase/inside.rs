//! What a bundle says, before any of it is in the store. Of each record a few bytes are kept, and
//! the words of those alone by which people tell things apart.

use std::collections::{BTreeMap, BTreeSet, HashMap};

use journal::{
    AttachmentHash, BodyHash, CommitHash, DeviceId, PersonId, Record, SubjectId, WallTime, body,
};
use model::{Id, Kind};
use serde::Deserialize;
use store::{Item, Store};

use crate::demo;
use crate::error::ApiError;
use crate::journal_io::{lead, subject};

/// The kinds that have a name, or are part of what has one, in the order in which a subject is
/// called by them.
const NAMED: [Kind; 11] = [
    Kind::Job,
    Kind::Test,
    Kind::Unit,
    Kind::Circuit,
    Kind::Bore,
    Kind::Person,
    Kind::Stand,
    Kind::Instrument,
    Kind::Shop,
    Kind::TestPoint,
    Kind::JobVehicle,
];

/// The longest name that is kept, in characters: more is no name.
const LONGEST: usize = 400;

/// What a body says by which people tell things apart, whatever its kind.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(default)]
pub(super) struct Said {
    pub name: String,
    pub number: String,
    pub description: String,
    pub job: Option<Id>,
}

impl Said {
    fn of(content: &[u8]) -> Option<Self> {
        let mut said: Self = serde_json::from_slice(content).ok()?;
        for text in [&mut said.name, &mut said.number, &mut said.description] {
            if let Some((end, _)) = text.char_indices().nth(LONGEST) {
                text.truncate(end);
            }
            text.shrink_to_fit();
        }
        Some(said)
    }
}

/// When a record was made, as far as it matters for which is shown. What leads once it is taken
/// in is for the store to say.
type When = (u64, u32, DeviceId);

/// The first half of a body's hash.
type Half = [u8; 16];

fn half(hash: BodyHash) -> Half {
    let mut half = Half::default();
    half.copy_from_slice(&hash.as_bytes()[..16]);
    half
}

/// One action that a device signed.
#[derive(Debug, Clone, Copy)]
pub(super) struct Signed {
    pub at: WallTime,
    pub hash: CommitHash,
    /// It is one of the demo shop's own.
    pub demo: bool,
}

/// What was seen of a bundle on its way.
#[derive(Debug, Default)]
pub(super) struct Inside {
    authors: BTreeSet<(DeviceId, PersonId)>,
    signed: BTreeMap<DeviceId, Vec<Signed>>,
    subjects: BTreeMap<Kind, BTreeSet<SubjectId>>,
    /// Which records of kinds with a name have a body.
    wanted: HashMap<Half, Vec<(SubjectId, Kind, When)>>,
    said: BTreeMap<(SubjectId, Kind), (When, Said)>,
    /// The photos that each such body is of.
    photo_bodies: HashMap<Half, BTreeSet<SubjectId>>,
    /// The files that each photo names.
    photos: BTreeMap<SubjectId, BTreeSet<AttachmentHash>>,
    /// Of each record whether it is about a person, by its body.
    bodies: HashMap<Half, (u32, u32)>,
    personal: usize,
}

impl Inside {
    /// Looks at one on its way. Bodies come last.
    pub fn note(&mut self, item: &Item<'_>) {
        self.look_at(item, true);
    }

    /// As [`Inside::note`], of a record that perhaps nobody signed: then it says nothing of who
    /// works on which device.
    pub fn look_at(&mut self, item: &Item<'_>, signed: bool) {
        match item {
            Item::Commit(commit) => {
                let signed = self.signed.entry(commit.device()).or_default();
                signed.push(Signed {
                    at: commit.wall_time(),
                    hash: commit.hash(),
                    demo: demo::holds(commit),
                });
            }
            Item::Record(record) => self.record(record, signed),
            Item::Body(hash, bytes) => {
                self.bodies.remove(&half(*hash));
                for of in self.photo_bodies.get(&half(*hash)).into_iter().flatten() {
                    let named = Kind::Photo.attachments(body::content(bytes));
                    self.photos.entry(*of).or_default().extend(named);
                }
                let Some(owners) = self.wanted.get(&half(*hash)) else {
                    return;
                };
                let Some(said) = Said::of(body::content(bytes)) else {
                    return;
                };
                for (of, kind, when) in owners {
                    let known = self.said.get(&(*of, *kind));
                    if known.is_none_or(|(known, _)| known < when) {
                        self.said.insert((*of, *kind), (*when, said.clone()));
                    }
                }
            }
        }
    }

    fn record(&mut self, record: &Record, signed: bool) {
        let envelope = record.envelope();
        if signed {
            self.authors.insert((envelope.device, envelope.author));
        }
        let kind = Kind::of(envelope.kind.as_str());
        let of_person = kind.is_some_and(Kind::personal);
        self.personal += usize::from(of_person);
        let counts = self.bodies.entry(half(envelope.body_hash)).or_default();
        *(if of_person {
            &mut counts.0
        } else {
            &mut counts.1
        }) += 1;
        if kind == Some(Kind::Photo) {
            let photos = self.photo_bodies.entry(half(envelope.body_hash));
            photos.or_default().insert(envelope.subject);
        }
        let Some(kind) = kind.filter(|kind| NAMED.contains(kind)) else {
            return;
        };
        let of = envelope.subject;
        self.subjects.entry(kind).or_default().insert(of);
        let clock = envelope.clock;
        let when = (clock.millis(), clock.counter(), envelope.device);
        let owners = self.wanted.entry(half(envelope.body_hash)).or_default();
        owners.push((of, kind, when));
    }

    /// Who wrote on which device.
    pub fn authors(&self) -> impl Iterator<Item = &(DeviceId, PersonId)> {
        self.authors.iter()
    }

    /// Who signed something.
    pub fn signers(&self) -> impl Iterator<Item = DeviceId> {
        self.signed.keys().copied()
    }

    /// The files that each photo names.
    pub fn photos(&self) -> impl Iterator<Item = &BTreeSet<AttachmentHash>> {
        self.photos.values()
    }

    /// What a device signed.
    pub fn signed(&self, device: DeviceId) -> &[Signed] {
        self.signed.get(&device).map_or(&[], Vec::as_slice)
    }

    /// How many records are about a person.
    pub const fn personal(&self) -> usize {
        self.personal
    }

    /// How many records have their body withheld, and how many of these are not about a person.
    pub fn withheld(&self) -> (usize, usize) {
        let all = |pick: fn(&(u32, u32)) -> u32| {
            self.bodies
                .values()
                .map(|counts| pick(counts) as usize)
                .sum::<usize>()
        };
        (all(|it| it.0) + all(|it| it.1), all(|it| it.1))
    }

    /// As the bundle says, else as the store does.
    pub fn said(&self, store: &Store, of: SubjectId, kind: Kind) -> Result<Option<Said>, ApiError> {
        match self.said.get(&(of, kind)) {
            Some((_, said)) => Ok(Some(said.clone())),
            None => lead(store, of, kind),
        }
    }

    /// A person's name.
    pub fn person(&self, store: &Store, of: SubjectId) -> Result<String, ApiError> {
        let person = self.said(store, of, Kind::Person)?;
        Ok(person.map(|person| person.name).unwrap_or_default())
    }

    /// What a subject is called: by its own name, or as a part of a job by the job's number.
    pub fn name(&self, store: &Store, of: SubjectId) -> Result<String, ApiError> {
        for kind in NAMED.into_iter().filter(|kind| *kind != Kind::JobVehicle) {
            if let Some(said) = self.said(store, of, kind)? {
                let job = match said.job {
                    Some(job) => self.said(store, subject(job), Kind::Job)?,
                    None => None,
                };
                let job = job.map(|job| job.number).unwrap_or_default();
                let names = [said.name, said.number, job];
                let mut names = names.into_iter();
                return Ok(names.find(|name| !name.is_empty()).unwrap_or_default());
            }
        }
        Ok(String::new())
    }

    /// The subjects of which the bundle has a record of this kind.
    pub fn subjects_of(&self, kind: Kind) -> &BTreeSet<SubjectId> {
        static NONE: BTreeSet<SubjectId> = BTreeSet::new();
        self.subjects.get(&kind).unwrap_or(&NONE)
    }
}
