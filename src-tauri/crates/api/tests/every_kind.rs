//! Devices that have seen the same hold the same, over every kind of record that the app writes and
//! some that only a later program knows; whatever was undone, withheld, lost on the way, sent twice
//! or dated wrongly. Bundles are real files, stores are real files, and some devices run an older
//! program until the end.

use std::collections::BTreeMap;
use std::io::Cursor;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use api::ModelProjector;
use bundle::Origin;
use journal::{Batch, FoldRule, Kind as KindName, PersonId, RecordId, SubjectId, WallTime};
use model::Kind;
use proptest::prelude::*;
use store::{
    Digest, Entropy, NewRecord, Place, Projector, Selection, Setup, StandingRecord, Store,
    StoreError,
};

const DAY: i64 = 86_400_000;

/// The same bytes in every run, other bytes for each seed.
struct Counted {
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

/// The program before it knew repairs, reliefs and cautions.
struct Older;

impl Projector for Older {
    fn version(&self) -> u32 {
        1
    }

    fn rule(&self, kind: &KindName) -> Option<FoldRule> {
        let unknown = [Kind::Repair, Kind::ReliefCheck, Kind::Relief, Kind::Caution];
        if unknown.iter().any(|it| it.name() == kind.as_str()) {
            return None;
        }
        ModelProjector.rule(kind)
    }

    fn reads(&self, kind: &KindName, kind_version: u32) -> bool {
        self.rule(kind).is_some() && ModelProjector.reads(kind, kind_version)
    }

    fn place(&self, subject: SubjectId, standing: &[StandingRecord<'_>]) -> Place {
        ModelProjector.place(subject, standing)
    }
}

fn open(path: &Path, seed: u64, older: bool) -> Store {
    let projector: Arc<dyn Projector> = if older {
        Arc::new(Older)
    } else {
        Arc::new(ModelProjector)
    };
    let setup = Setup {
        entropy: Box::new(Counted { seed, count: 0 }),
        ..Setup::new(projector)
    };
    Store::open(path, setup).unwrap()
}

fn at(ms: i64) -> WallTime {
    WallTime::from_unix_ms(1_790_000_000_000 + ms)
}

fn ines() -> PersonId {
    PersonId::from_bytes([1; 16])
}

fn subjects() -> [SubjectId; 4] {
    [1, 2, 3, 4].map(|n| SubjectId::from_bytes([n; 16]))
}

/// Every kind that the app writes, one of them in a version that only a later program reads, and
/// one that only a later program knows.
fn kinds() -> Vec<(KindName, u32, bool, bool)> {
    let known = Kind::all().map(|kind| {
        let name = KindName::literal(kind.name());
        (name, kind.version(), kind.adds(), kind.personal())
    });
    let later = [
        (KindName::literal("job.notes"), 99, false, false),
        (KindName::literal("later.thing"), 1, true, false),
    ];
    known.chain(later).collect()
}

/// A body in which a subject is part of another, so that projections have work to do.
fn body(step: usize) -> Vec<u8> {
    let parent = uuid::Uuid::from_bytes([(step % 5) as u8; 16]);
    serde_json::to_vec(&serde_json::json!({
        "job": parent, "unit": parent, "circuit": parent, "bore": parent,
        "order": format!("a{step}"), "number": step.to_string(), "opened_on": "2026-04-14",
        "name": format!("name {step}"), "text": format!("text {step}"), "vacuum_pa": step,
    }))
    .unwrap()
}

#[derive(Debug, Clone)]
enum Move {
    Set {
        who: usize,
        subject: usize,
        kind: usize,
        wall: i64,
    },
    Strike {
        who: usize,
        nth: usize,
        wall: i64,
    },
    Undo {
        who: usize,
        wall: i64,
    },
    Redo {
        who: usize,
        wall: i64,
    },
    Restart {
        who: usize,
    },
    /// A bundle, of everything or of one subject, with or without what is personal, of which each
    /// record and each body may be lost, and which may come twice.
    Pass {
        from: usize,
        to: usize,
        subject: Option<usize>,
        personal: bool,
        lost: u64,
        twice: bool,
    },
}

fn a_move() -> impl Strategy<Value = Move> {
    let who = || 0..6_usize;
    let wall = || -30 * DAY..30 * DAY;
    let last = kinds().len();
    prop_oneof![
        6 => (who(), 0..4_usize, 0..last, wall())
            .prop_map(|(who, subject, kind, wall)| Move::Set { who, subject, kind, wall }),
        1 => (who(), 0..99_usize, wall()).prop_map(|(who, nth, wall)| Move::Strike { who, nth, wall }),
        2 => (who(), wall()).prop_map(|(who, wall)| Move::Undo { who, wall }),
        2 => (who(), wall()).prop_map(|(who, wall)| Move::Redo { who, wall }),
        1 => who().prop_map(|who| Move::Restart { who }),
        3 => (who(), who(), prop::option::of(0..4_usize), any::<bool>(), any::<u64>(), any::<bool>())
            .prop_map(|(from, to, subject, personal, lost, twice)| {
                Move::Pass { from, to, subject, personal, lost, twice }
            }),
    ]
}

struct Device {
    path: PathBuf,
    seed: u64,
    older: bool,
    store: Option<Store>,
}

impl Device {
    fn store(&mut self) -> &mut Store {
        self.store.as_mut().unwrap()
    }

    fn restart(&mut self) {
        self.store = None;
        self.seed += 100;
        self.store = Some(open(&self.path, self.seed, self.older));
    }

    /// What it holds, as a file.
    fn bundle(&mut self, selection: &Selection, personal: bool, lost: u64) -> Vec<u8> {
        let store = self.store();
        let mut batch = store.export(selection, personal).unwrap();
        let survives = |n: usize| lost.rotate_left(n as u32 * 7) & 3 != 3;
        let mut n = 0;
        batch.records.retain(|_| {
            n += 1;
            survives(n)
        });
        let wanted: Vec<_> = batch
            .records
            .iter()
            .map(|it| it.envelope().body_hash)
            .collect();
        batch.bodies.retain(|bytes| {
            n += 1;
            wanted.contains(&journal::BodyHash::of(bytes)) && survives(n)
        });
        let batch = batch.check().unwrap();
        let origin = Origin {
            author: ines(),
            key: store.device_key(),
            created: at(0),
        };
        let mut out = Cursor::new(Vec::new());
        bundle::write(&mut out, &batch, &origin).unwrap();
        out.into_inner()
    }

    fn take(&mut self, file: &[u8]) {
        let read = bundle::read(file).unwrap();
        self.store().apply(&read).unwrap();
    }

    fn all(&mut self) -> Batch {
        self.store().export(&Selection::Everything, true).unwrap()
    }
}

/// What was ever written, to its last byte.
type Written = BTreeMap<RecordId, Vec<u8>>;

fn note(written: &mut Written, device: &mut Device) {
    for record in device.all().records {
        let bytes = record.bytes().to_vec();
        let first = written.entry(record.id()).or_insert_with(|| bytes.clone());
        assert_eq!(*first, bytes, "an envelope was altered");
    }
}

fn play(devices: &mut [Device], step: usize, this: &Move) {
    let count = devices.len();
    // Clocks are wrong by days, behind and ahead.
    let wall_of = |who: usize, wall: i64| {
        let days = [0, -9, 4, 400, -2, 30][who];
        at(wall + days * DAY)
    };
    match *this {
        Move::Set {
            who,
            subject,
            kind,
            wall,
        } => {
            let who = who % count;
            let (name, version, adds, personal) = kinds().swap_remove(kind);
            let store = devices[who].store();
            let of = subjects()[subject];
            let supersedes = if adds {
                vec![]
            } else {
                store.heads(of, &name).unwrap()
            };
            let record = NewRecord {
                subject: of,
                kind: name,
                kind_version: version,
                supersedes,
                body: body(step),
                personal,
            };
            store
                .append(vec![record], ines(), wall_of(who, wall))
                .unwrap();
        }
        Move::Strike { who, nth, wall } => {
            let who = who % count;
            let mut records = devices[who].all().records;
            // Nothing strikes out an erasure: the store refuses it.
            records.retain(|record| record.envelope().kind.as_str() != Kind::Erasure.name());
            if !records.is_empty() {
                let target = &records[nth % records.len()];
                let void = NewRecord::void(target.envelope().subject, target.id());
                let now = wall_of(who, wall);
                devices[who]
                    .store()
                    .append(vec![void], ines(), now)
                    .unwrap();
            }
        }
        Move::Undo { who, wall } => {
            let who = who % count;
            devices[who]
                .store()
                .undo(ines(), wall_of(who, wall))
                .unwrap();
        }
        Move::Redo { who, wall } => {
            let who = who % count;
            devices[who]
                .store()
                .redo(ines(), wall_of(who, wall))
                .unwrap();
        }
        Move::Restart { who } => devices[who % count].restart(),
        Move::Pass {
            from,
            to,
            subject,
            personal,
            lost,
            twice,
        } => {
            let selection = match subject {
                Some(of) => Selection::Subjects([subjects()[of]].into()),
                None => Selection::Everything,
            };
            let file = devices[from % count].bundle(&selection, personal, lost);
            let to = &mut devices[to % count];
            for _ in 0..=usize::from(twice) {
                to.take(&file);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 16,
        max_shrink_iters: 200,
        ..ProptestConfig::default()
    })]

    #[test]
    fn every_kind_on_two_to_six_devices_comes_together(
        count in 2..7_usize,
        moves in prop::collection::vec(a_move(), 10..60),
        order in Just((0..6_usize).collect::<Vec<_>>()).prop_shuffle(),
    ) {
        let folder = tempfile::tempdir().unwrap();
        let mut devices: Vec<_> = (0..count)
            .map(|n| {
                let path = folder.path().join(format!("{n}.db"));
                let (seed, older) = (n as u64 + 1, n % 2 == 1);
                Device { store: Some(open(&path, seed, older)), path, seed, older }
            })
            .collect();
        let mut written = Written::new();
        for (step, this) in moves.iter().enumerate() {
            play(&mut devices, step, this);
            for device in &mut devices {
                note(&mut written, device);
            }
        }
        let files: Vec<_> = devices
            .iter_mut()
            .map(|device| device.bundle(&Selection::Everything, true, 0))
            .collect();
        let mut digests: Vec<Digest> = Vec::new();
        for (n, device) in devices.iter_mut().enumerate() {
            // Another order for each, and each bundle twice.
            for turn in 0..2 * order.len() {
                if let Some(file) = files.get(order[(turn + n) % order.len()]) {
                    device.take(file);
                }
            }
            // The older programs are brought up to date only now.
            device.older = false;
            device.restart();
            let held = device.all();
            let bytes: Written = held
                .records
                .iter()
                .map(|record| (record.id(), record.bytes().to_vec()))
                .collect();
            prop_assert_eq!(&bytes, &written, "nothing missing, nothing altered");
            let bodies: Vec<_> = held.bodies.iter().map(|it| journal::BodyHash::of(it)).collect();
            for record in &held.records {
                prop_assert!(bodies.contains(&record.envelope().body_hash), "a body is filled in");
            }
            prop_assert_eq!(device.store().check().unwrap(), []);
            digests.push(device.store().digest().unwrap());
        }
        for digest in &digests {
            prop_assert_eq!(digest, &digests[0]);
        }
    }
}

#[test]
fn each_kind_is_undone_and_brought_back_across_restarts() {
    // An erasure is the one kind that can't be taken back: `store/tests/erasure.rs`.
    let kinds = kinds()
        .into_iter()
        .filter(|kind| kind.0 != journal::Kind::ERASURE);
    for (n, (name, version, adds, personal)) in kinds.enumerate() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("shop.db");
        let of = subjects()[0];
        let mut seed = 0;
        let mut reopened = || {
            seed += 1;
            open(&path, seed, false)
        };
        let write = |store: &mut Store, step: usize| {
            let supersedes = if adds {
                vec![]
            } else {
                store.heads(of, &name).unwrap()
            };
            let record = NewRecord {
                subject: of,
                kind: name.clone(),
                kind_version: version,
                supersedes,
                body: body(step),
                personal,
            };
            store.append(vec![record], ines(), at(0)).unwrap();
        };
        let held = |store: &Store| {
            let stands = store.standing(of, &name).unwrap();
            stands
                .records
                .iter()
                .map(|it| it.body().unwrap().to_vec())
                .collect::<Vec<_>>()
        };
        let context = format!("{n}: {name:?} {version}");
        write(&mut reopened(), 1);
        write(&mut reopened(), 2);
        let both = held(&reopened());
        assert_eq!(both.last().unwrap(), &body(2), "{context}");
        // Back to nothing, one step after each restart, with the clock running backwards.
        for (left, back) in [(1, 1), (0, 2)] {
            reopened().undo(ines(), at(-back * DAY)).unwrap().unwrap();
            let store = reopened();
            assert_eq!(held(&store).len(), left, "{context}");
            assert_eq!(store.check().unwrap(), [], "{context}");
        }
        assert_eq!(reopened().undo(ines(), at(0)).unwrap(), None, "{context}");
        for _ in 0..2 {
            reopened().redo(ines(), at(-9 * DAY)).unwrap().unwrap();
        }
        let mut store = reopened();
        assert_eq!(held(&store), both, "{context}");
        assert_eq!(store.redo(ines(), at(0)).unwrap(), None, "{context}");
        assert_eq!(store.check().unwrap(), [], "{context}");
    }
}
