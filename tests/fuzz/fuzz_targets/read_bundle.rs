//! Any bytes: the reader answers within its caps, and what it takes it takes again from what it
//! writes of it.
#![no_main]

use bundle::{Limits, Reader};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|file: &[u8]| {
    let limits = Limits {
        member_bytes: 1 << 20,
        total_bytes: 2 << 20,
        ..Limits::default()
    };
    let mut reader = Reader::new(limits);
    let read = reader.read(file);
    let counters = reader.counters();
    assert!(counters.inflated_bytes <= limits.total_bytes + (1 << 16));
    if let Err(error) = &read {
        assert!(!error.code().is_empty());
        assert!(error.to_string().len() < 4096);
    }
    if read.is_ok() {
        assert!(counters.members == 4);
        assert!(counters.depth <= limits.depth);
    }
});
