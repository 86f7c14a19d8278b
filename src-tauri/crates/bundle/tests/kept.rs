//! The files that the guided searches kept (`tests/fuzz`), one for each way through the reader and
//! the store that they met: each is answered within the caps, and taken or refused as by the other
//! reader, the one in Python that shares nothing with ours.
#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use std::path::Path;

use crate::common::{answers_of_the_other, code, members};

/// What one search kept, by name.
fn kept(search: &str) -> Vec<(String, Vec<u8>)> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../../tests/fuzz/corpus/kept")
        .join(format!("{search}.zip"));
    members(&std::fs::read(path).unwrap())
}

/// The other reader, which is slow, gets one file in so many.
const EACH: usize = 5;

#[test]
fn what_the_searches_kept_is_answered_within_the_caps_and_taken_by_both_readers_or_neither() {
    for search in ["read_bundle", "take_in"] {
        let files = kept(search);
        assert!(files.len() > 1000, "{search}");
        // `code` holds the counters against the limits, and looking against reading.
        let ours: Vec<_> = files.iter().map(|(name, file)| code(name, file)).collect();
        assert!(ours.iter().any(Option::is_none), "{search}: none is whole");

        let theirs = answers_of_the_other(files.iter().step_by(EACH).map(|(_, file)| file));
        for ((at, (name, _)), theirs) in files.iter().enumerate().step_by(EACH).zip(theirs) {
            // Of several faults each names the one that it meets first.
            let ours = ours[at];
            let taken = theirs["code"].is_null();
            assert_eq!(ours.is_none(), taken, "{search} {name}: {ours:?}, {theirs}");
        }
    }
}
