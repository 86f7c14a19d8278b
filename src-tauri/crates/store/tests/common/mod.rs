//! An invented little shop for the store's tests: jobs with a title, notes, readings and owners.
#![allow(dead_code, clippy::unwrap_used)]

use std::collections::BTreeSet;
use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use journal::{AttachmentHash, Commit, FoldRule, Kind, PersonId, RecordId, SubjectId, WallTime};
use store::{
    Entropy, Member, NewRecord, Place, Projector, Setup, StandingRecord, Store, StoreError,
    Summary, Wanted,
};

pub const JOB: Kind = Kind::literal("job");
pub const NOTE: Kind = Kind::literal("note");
pub const OWNER: Kind = Kind::literal("owner");
pub const READING: Kind = Kind::literal("reading");
pub const PHOTO: Kind = Kind::literal("photo");
pub const REMOVED: Kind = Kind::literal("removed");

/// Bodies are plain text here. A job's is `parent id or -`, order key and title, split by `|`.
pub struct Shop {
    pub version: u32,
    pub knows_readings: bool,
}

impl Projector for Shop {
    fn version(&self) -> u32 {
        self.version
    }

    fn rule(&self, kind: &Kind) -> Option<FoldRule> {
        match kind.as_str() {
            "job" | "note" | "owner" | "photo" => Some(FoldRule::Register),
            "reading" => self.knows_readings.then_some(FoldRule::Addition),
            "removed" => Some(FoldRule::Removal),
            _ => None,
        }
    }

    fn reads(&self, kind: &Kind, kind_version: u32) -> bool {
        self.rule(kind).is_some() && kind_version == 1
    }

    fn kinds_with_attachments(&self) -> Vec<Kind> {
        vec![PHOTO]
    }

    /// A photo's body is the hashes of its files, one a line.
    fn attachments(&self, kind: &Kind, body: &[u8]) -> Vec<AttachmentHash> {
        assert_eq!(*kind, PHOTO);
        let text = std::str::from_utf8(body).unwrap_or_default();
        text.lines().filter_map(|line| line.parse().ok()).collect()
    }

    fn erasable(&self, kind: &Kind) -> bool {
        [OWNER, NOTE, PHOTO].contains(kind)
    }

    fn words(&self, _: &Kind, body: &[u8]) -> Vec<String> {
        vec![String::from_utf8_lossy(body).into_owned()]
    }

    fn draft_of(&self, subject: SubjectId, kind: &Kind) -> Option<String> {
        Some(format!("{kind} of {subject}"))
    }

    fn place(&self, _: SubjectId, standing: &[StandingRecord<'_>]) -> Place {
        let mut place = Place::default();
        for record in standing {
            let Some(text) = record.body.and_then(|body| std::str::from_utf8(body).ok()) else {
                continue;
            };
            if *record.kind == JOB {
                let mut parts = text.splitn(3, '|');
                place.parent = parts.next().and_then(|parent| parent.parse().ok());
                place.order_key = parts.next().unwrap_or_default().to_owned();
                place.text = parts.next().unwrap_or_default().to_owned();
            } else {
                place.text.push(' ');
                place.text.push_str(text);
            }
        }
        place
    }

    fn summary_kinds(&self) -> &[&'static str] {
        &["job"]
    }

    /// Jobs are listed, and found by all that is said of them and their parts.
    fn summary(&self, subject: &Member<'_>, _: &[Member<'_>]) -> Option<Summary> {
        (!subject.removed && !subject.standing.is_empty()).then(|| Summary {
            kind: JOB,
            at: None,
            number: None,
            within: None,
            facets: BTreeSet::new(),
            searched: true,
            json: String::new(),
        })
    }
}

/// The jobs whose texts hold this word, by the index that lists are searched by.
pub fn listed(store: &Store, word: &str) -> BTreeSet<SubjectId> {
    let words = [word];
    let kind = JOB;
    let wanted = Wanted {
        words: &words,
        ..Wanted::all(&kind)
    };
    let (found, _) = store.summaries(&wanted, 0, None).unwrap();
    found.into_iter().map(|job| job.subject).collect()
}

/// The same bytes in every run, other bytes for each seed.
pub struct Counted {
    seed: u64,
    count: u64,
}

impl Entropy for Counted {
    fn fill(&mut self, buffer: &mut [u8]) -> Result<(), StoreError> {
        for byte in buffer {
            self.count += 1;
            let mut z = (self.seed << 40 | self.count).wrapping_mul(0x9e37_79b9_7f4a_7c15);
            z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
            *byte = (z >> 56) as u8;
        }
        Ok(())
    }
}

pub fn setup(seed: u64) -> Setup {
    Setup {
        entropy: Box::new(Counted { seed, count: 0 }),
        patience: Duration::from_secs(20),
        ..Setup::new(Arc::new(Shop {
            version: 1,
            knows_readings: true,
        }))
    }
}

pub fn projector() -> Shop {
    Shop {
        version: 1,
        knows_readings: true,
    }
}

/// With the system's random bytes, as several handles of one file need.
pub fn real_setup() -> Setup {
    Setup {
        patience: Duration::from_secs(20),
        ..Setup::new(Arc::new(Shop {
            version: 1,
            knows_readings: true,
        }))
    }
}

pub fn open(path: &Path) -> Store {
    Store::open(path, real_setup()).unwrap()
}

pub fn memory(seed: u64) -> Store {
    Store::open_in_memory(setup(seed)).unwrap()
}

pub fn at(ms: i64) -> WallTime {
    WallTime::from_unix_ms(1_790_000_000_000 + ms)
}

pub fn ines() -> PersonId {
    PersonId::from_bytes([1; 16])
}

pub fn record(subject: SubjectId, kind: Kind, body: &str, supersedes: Vec<RecordId>) -> NewRecord {
    NewRecord {
        subject,
        personal: kind == OWNER,
        kind,
        kind_version: 1,
        supersedes,
        body: body.as_bytes().to_vec(),
    }
}

pub fn new_job(store: &mut Store, now: i64, body: &str) -> SubjectId {
    let job = store.new_subject(at(now)).unwrap();
    store
        .append(vec![record(job, JOB, body, vec![])], ines(), at(now))
        .unwrap();
    job
}

/// Writes a value in place of what stands.
pub fn set(store: &mut Store, subject: SubjectId, kind: Kind, body: &str, now: i64) -> Commit {
    let seen = if kind == READING {
        vec![]
    } else {
        store.heads(subject, &kind).unwrap()
    };
    store
        .append(vec![record(subject, kind, body, seen)], ines(), at(now))
        .unwrap()
}

/// Adds a file and the record that names it, as one does.
pub fn add_photo(
    store: &mut Store,
    subject: SubjectId,
    content: &[u8],
    now: i64,
) -> AttachmentHash {
    let attachments = store.attachments().unwrap();
    let adding = attachments.add().unwrap();
    let hash = adding.put(content).unwrap();
    set(store, subject, PHOTO, &hash.to_string(), now);
    hash
}

pub fn bodies(store: &Store, subject: SubjectId, kind: &Kind) -> Vec<String> {
    let standing = store.standing(subject, kind).unwrap();
    let text = |body: Option<&[u8]>| body.map(|b| String::from_utf8(b.to_vec()).unwrap());
    standing
        .records
        .iter()
        .map(|r| text(r.body()).unwrap_or("(withheld)".into()))
        .collect()
}

pub fn assert_sound(store: &Store) {
    assert_eq!(store.check().unwrap(), []);
}
