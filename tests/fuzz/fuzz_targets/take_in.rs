//! Any bytes: a store that takes them in is whole afterwards, or as it was.
#![no_main]

use std::io::Cursor;
use std::sync::Arc;

use bundle::{Reader, apply, plan};
use journal::{FoldRule, Kind, SubjectId, WallTime};
use libfuzzer_sys::{fuzz_mutator, fuzz_target};
use store::{Place, Projector, Setup, StandingRecord, Store, StoreError};

/// Kinds with each of the rules, and all others unknown.
struct Shop;

impl Projector for Shop {
    fn version(&self) -> u32 {
        1
    }

    fn rule(&self, kind: &Kind) -> Option<FoldRule> {
        match kind.as_str() {
            "job" | "owner" => Some(FoldRule::Register),
            "note" => Some(FoldRule::Addition),
            "gone" => Some(FoldRule::Removal),
            _ => None,
        }
    }

    fn reads(&self, kind: &Kind, version: u32) -> bool {
        version == 1 && self.rule(kind).is_some()
    }

    fn place(&self, _: SubjectId, _: &[StandingRecord<'_>]) -> Place {
        Place::default()
    }
}

/// What is here before: the same ids as the kept files have, from their true author.
const HERE: &[u8] = include_bytes!("../corpus/read_bundle/deflated.vvb");

fuzz_mutator!(|data: &mut [u8], size: usize, max_size: usize, seed: u32| {
    forge::mutate(data, size, max_size, seed)
});

fuzz_target!(|file: &[u8]| {
    let Ok(read) = Reader::new(forge::limits()).read(Cursor::new(file)) else {
        return;
    };
    let mut store = Store::open_in_memory(Setup::new(Arc::new(Shop))).expect("a store opens");
    apply(&mut store, &bundle::read(HERE).expect("it is whole")).expect("it is taken in");
    let before = store.digest().expect("it can be read");

    let planned = plan(&mut store, &read).expect("what was checked can be planned");
    assert!(
        store.digest().expect("it can be read") == before,
        "a plan changes nothing"
    );
    let taken = store.take_in::<_>(&read, "fuzz", WallTime::from_unix_ms(0));
    let (brought, import) = taken.expect("what was planned can be taken in");
    assert!(brought == planned.brings);
    assert!(store.check().expect("it can be checked").is_empty());

    // Once more brings nothing, and out again leaves what was there.
    let after = store.digest().expect("it can be read");
    let again = apply(&mut store, &read).expect("it can be taken in again");
    assert!(again.is_nothing());
    assert!(store.digest().expect("it can be read") == after);
    let Some(import) = import else { return };
    match store.remove_import(import) {
        Ok(found) => {
            assert!(found);
            assert!(store.digest().expect("it can be read") == before);
        }
        Err(StoreError::BuiltUpon { .. }) => {
            assert!(store.digest().expect("it can be read") == after);
        }
        Err(other) => panic!("{other}"),
    }
    assert!(store.check().expect("it can be checked").is_empty());
});
