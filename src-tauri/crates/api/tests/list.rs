//! The list answers what working it out plainly would, whatever happened in the shop.

use std::path::Path;
use std::sync::Arc;

use journal::{CheckedBatch, Kind as KindName, PersonId, SubjectId, WallTime};
use model::{Id, Kind};
use proptest::prelude::*;
use serde_json::{Value, json};
use store::{NewRecord, Selection, Setup, Store};

use api::ModelProjector;
use api::dto::JobListArgs;

const WORDS: [&str; 8] = [
    "Bangs",
    "bangs 2-3",
    "KV-7 4412",
    "Straße",
    "ÉTÉ hot",
    "50 % slip",
    "x",
    "Larkmoor",
];
const ASKED: [&str; 12] = [
    "",
    "bang",
    "2-",
    "KV-7 44",
    "straße",
    "été",
    "%",
    "x",
    "larkm bangs",
    "hot slip",
    "STRASSE",
    "_",
];
/// Few of each, so that things meet.
const EACH: u8 = 4;

/// One thing that somebody does: to which subject of which kind, with which words and neighbours.
#[derive(Debug, Clone)]
struct Deed {
    kind: usize,
    of: u8,
    other: u8,
    third: u8,
    word: usize,
    fate: u8,
}

fn deed() -> impl Strategy<Value = Deed> {
    let bytes = (0..EACH, 0..EACH, 0..EACH, any::<u8>());
    (0..KINDS.len(), bytes, 0..WORDS.len()).prop_map(|(kind, (of, other, third, fate), word)| {
        Deed {
            kind,
            of,
            other,
            third,
            word,
            fate,
        }
    })
}

const KINDS: [Kind; 13] = [
    Kind::Unit,
    Kind::Circuit,
    Kind::Person,
    Kind::Job,
    Kind::Job,
    Kind::JobVehicle,
    Kind::JobComplaint,
    Kind::JobNotes,
    Kind::JobCustomer,
    Kind::Test,
    Kind::Test,
    Kind::TestDecision,
    Kind::Repair,
];

fn kind_name(kind: Kind) -> KindName {
    KindName::literal(kind.name())
}

fn subject(id: Id) -> SubjectId {
    SubjectId::from_bytes(*id.as_bytes())
}

fn person(id: Id) -> PersonId {
    PersonId::from_bytes(*id.as_bytes())
}

fn name(family: u8, number: u8) -> Id {
    let mut bytes = [7; 16];
    (bytes[0], bytes[15]) = (family, number);
    Id::from_bytes(bytes)
}

/// The subject that a record of this kind is about.
fn about(kind: Kind, of: u8) -> Id {
    let family = match kind {
        Kind::Unit => 1,
        Kind::Circuit => 2,
        Kind::Person => 3,
        Kind::Test | Kind::TestDecision => 5,
        Kind::Repair => 6,
        _ => 4,
    };
    name(family, of)
}

fn body(deed: &Deed) -> Value {
    let word = WORDS[deed.word];
    let (job, bore) = (name(4, deed.other), name(8, deed.third % 2));
    let verdicts = ["within_limit", "too_close_to_call", "outside_limit"];
    let verdict = verdicts[usize::from(deed.third % 3)];
    match KINDS[deed.kind] {
        Kind::Unit => json!({ "name": word, "maker": "", "summary": "" }),
        Kind::Circuit => json!({ "unit": name(1, deed.other), "order": "a", "name": word }),
        Kind::Person => json!({ "name": word }),
        Kind::Job => json!({
            "unit": name(1, deed.other),
            "number": deed.third.to_string(),
            "opened_on": format!("2026-03-{:02}", deed.third + 1),
        }),
        Kind::JobVehicle => json!({ "description": word }),
        Kind::JobComplaint | Kind::JobNotes => json!({ "text": word }),
        Kind::JobCustomer => json!({ "name": word, "plate": word }),
        Kind::Test => json!({
            "job": job, "bore": bore, "test_point": name(9, deed.third),
        }),
        Kind::TestDecision => json!({
            "verdict": verdict,
            "conformity_probability": 0.5, "mean_vacuum_pa": 1.0, "standard_uncertainty_pa": 1.0,
            "limit_vacuum_pa": 1.0, "inputs": [], "profile_digest": "", "physics_version": "",
            "note": word,
        }),
        _ => json!({
            "job": job, "bore": bore, "tests_before": [name(5, deed.third)],
            "work": { "option": "cleaned", "notes": word },
        }),
    }
}

fn memory() -> Store {
    Store::open_in_memory(Setup::new(Arc::new(ModelProjector))).unwrap()
}

/// Does it; as its last number says, an edit that saw what stood, one that didn't, a body that
/// can't be read, or striking out what leads.
fn act(store: &mut Store, deed: &Deed, at: i64) {
    let kind = KINDS[deed.kind];
    let of = subject(about(kind, deed.of));
    let heads = store.heads(of, &kind_name(kind)).unwrap();
    let record = match (deed.fate % 8, heads.last()) {
        (0 | 1, Some(&head)) => NewRecord::void(of, head),
        (fate, _) => NewRecord {
            subject: of,
            kind: kind_name(kind),
            kind_version: kind.version(),
            supersedes: if kind.adds() || fate == 2 {
                Vec::new()
            } else {
                heads
            },
            body: if fate == 3 && deed.third == 0 {
                b"{}".to_vec()
            } else {
                serde_json::to_vec(&body(deed)).unwrap()
            },
            personal: kind.personal(),
        },
    };
    let author = person(name(3, deed.third));
    store
        .append(vec![record], author, WallTime::from_unix_ms(at))
        .unwrap();
}

fn everything(store: &Store, personal: bool) -> CheckedBatch {
    let batch = store.export(&Selection::Everything, personal).unwrap();
    batch.check().unwrap()
}

fn questions() -> Vec<JobListArgs> {
    let none = JobListArgs::default();
    let of = |value: Value| -> JobListArgs { serde_json::from_value(value).unwrap() };
    let mut asked: Vec<_> = ASKED
        .iter()
        .map(|text| JobListArgs {
            text: (*text).to_owned(),
            ..none.clone()
        })
        .collect();
    for number in 0..EACH {
        asked.push(JobListArgs {
            unit: Some(name(1, number)),
            ..none.clone()
        });
        asked.push(JobListArgs {
            bore: Some(name(8, number)),
            ..none.clone()
        });
        asked.push(JobListArgs {
            person: Some(name(3, number)),
            ..none.clone()
        });
    }
    for state in [
        "not_tested",
        "not_decided",
        "within_limit",
        "too_close_to_call",
        "outside_limit",
        "repaired_not_tested",
    ] {
        asked.push(of(json!({ "state": state })));
        asked.push(of(
            json!({ "state": state, "text": "bangs", "skip": 1, "limit": 1 }),
        ));
    }
    asked.push(of(json!({ "from": "2026-03-02", "to": "2026-03-03" })));
    asked.push(of(
        json!({ "from": "2026-03-02", "text": "a", "bore": name(8, 0) }),
    ));
    asked.push(of(json!({ "skip": 1, "limit": 2 })));
    asked.push(of(json!({ "skip": 9, "limit": 0 })));
    asked.push(of(json!({ "text": "bangs \u{1}" })));
    asked
}

fn compare(app: &api::App, store: &Store) {
    for args in questions() {
        let request = json!({ "command": "job.list", "args": args }).to_string();
        let answer: Value = serde_json::from_str(&app.call(&request)).unwrap();
        let plain = crate::plain_list::list_of(store, &args).unwrap();
        assert_eq!(
            answer["ok"],
            serde_json::to_value(plain).unwrap(),
            "{args:?}"
        );
    }
    assert_eq!(store.check().unwrap(), []);
}

fn open(path: &Path) -> Store {
    Store::open(path, Setup::new(Arc::new(ModelProjector))).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 10, ..ProptestConfig::default() })]

    #[test]
    fn the_list_is_what_the_records_say(
        here in prop::collection::vec(deed(), 1..60),
        there in prop::collection::vec(deed(), 0..30),
    ) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("shop.db");
        let app = crate::common::start(path.clone(), false);
        let (mut mine, mut theirs) = (open(&path), memory());
        for (at, deed) in (0..).zip(&here) {
            act(&mut mine, deed, at);
        }
        compare(&app, &mine);
        // Two devices that didn't know of each other, customers withheld at first.
        for (at, deed) in (20..).zip(&there) {
            act(&mut theirs, deed, at);
        }
        let now = WallTime::from_unix_ms(99);
        let (_, import) = mine.take_in(&everything(&theirs, false), "{}", now).unwrap();
        compare(&app, &mine);
        let before = mine.digest().unwrap();
        mine.apply(&everything(&theirs, true)).unwrap();
        compare(&app, &mine);
        mine.rebuild().unwrap();
        compare(&app, &mine);
        if let Some(import) = import && mine.remove_import(import).is_ok() {
            compare(&app, &mine);
            mine.take_in(&everything(&theirs, false), "{}", now).unwrap();
            prop_assert_eq!(mine.digest().unwrap().journal, before.journal);
        }
        compare(&app, &mine);
    }
}
