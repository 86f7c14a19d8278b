//! Any bytes: the reader answers within its caps, and what it takes can be gone through again.
#![no_main]

use std::io::Cursor;

use bundle::{NoAttachments, Reader};
use libfuzzer_sys::{fuzz_mutator, fuzz_target};

fuzz_mutator!(|data: &mut [u8], size: usize, max_size: usize, seed: u32| {
    forge::mutate(data, size, max_size, seed)
});

fuzz_target!(|file: &[u8]| {
    let limits = forge::limits();
    let mut reader = Reader::new(limits);
    let read = reader.read(Cursor::new(file));
    let counters = reader.counters();
    assert!(counters.inflated_bytes <= limits.total_bytes + (1 << 16));
    if let Err(error) = &read {
        assert!(!error.code().is_empty());
        assert!(error.to_string().len() < 4096);
    }
    // Looked at, it is answered as it is read, but for its signatures.
    let looked = reader.look(Cursor::new(file));
    assert!(reader.counters().inflated_bytes <= limits.total_bytes + (1 << 16));
    match (&read, &looked) {
        (Ok(_), looked) => assert!(looked.as_ref().is_ok_and(|it| it.signatures().hold())),
        (Err(_), Ok(looked)) => assert!(!looked.signatures().hold()),
        (Err(_), Err(error)) => assert!(!error.code().is_empty()),
    }
    if let Ok(read) = read {
        assert!(counters.members == 4 + read.attachments().len() as u64);
        assert!(counters.depth <= limits.depth);
        // Gone through again, it is what it was.
        let batch = read.batch().expect("it was checked");
        let counts = read.manifest().counts;
        assert!(batch.records().len() as u64 == counts.records);
        assert!(batch.commits().len() as u64 == counts.commits);
        assert!(batch.bodies().len() as u64 == counts.bodies);
        read.hand_over(&mut NoAttachments).expect("it was checked");
    }
});
