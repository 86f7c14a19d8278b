//! Taking an import out again: it leaves no trace, and never takes what others built on.

use crate::common::{JOB, NOTE, OWNER, READING, assert_sound, at, bodies, memory, new_job, set};
use journal::CheckedBatch;
use store::{Selection, Store, StoreError};

fn batch(store: &Store, personal: bool) -> CheckedBatch {
    let all = store.export(&Selection::Everything, personal).unwrap();
    all.check().unwrap()
}

#[test]
fn taken_out_it_leaves_no_trace_and_taken_in_again_it_is_all_there() {
    let mut other = memory(2);
    let job = new_job(&mut other, 0, "-|a|harsh when hot");
    set(&mut other, job, READING, "18", 1);
    let mut here = memory(1);
    new_job(&mut here, 5, "-|b|slips cold");
    let before = here.digest().unwrap();
    let batch = batch(&other, true);

    let (brought, import) = here.take_in(&batch, "from Wen", at(9)).unwrap();
    assert_eq!(brought.new_records, 2);
    let after = here.digest().unwrap();
    assert_eq!(here.search("harsh", 9).unwrap(), [job]);
    assert_eq!(here.imports().unwrap()[0].records, 2);

    assert!(here.remove_import(import.unwrap()).unwrap());
    assert_eq!(here.digest().unwrap(), before);
    assert_eq!(here.search("harsh", 9).unwrap(), []);
    assert_eq!(here.imports().unwrap(), []);
    assert_eq!(here.devices().unwrap().len(), 1);
    assert_sound(&here);
    assert!(!here.remove_import(import.unwrap()).unwrap());

    here.take_in(&batch, "from Wen", at(10)).unwrap();
    assert_eq!(here.digest().unwrap(), after);
    assert_sound(&here);
}

#[test]
fn the_same_again_is_not_remembered_as_another_import() {
    let mut other = memory(2);
    new_job(&mut other, 0, "-|a|x");
    let mut here = memory(1);
    let first = here.take_in(&batch(&other, true), "", at(1)).unwrap().1;
    let digest = here.digest().unwrap();
    let (brought, second) = here.take_in(&batch(&other, true), "", at(2)).unwrap();
    assert!(brought.is_nothing());
    assert!(first.is_some() && second.is_none());
    assert_eq!(here.digest().unwrap(), digest);
    assert_eq!(here.imports().unwrap().len(), 1);
}

#[test]
fn what_somebody_built_on_stays_and_so_does_everything_else() {
    let mut other = memory(2);
    let job = new_job(&mut other, 0, "-|a|harsh");
    let build: [fn(&mut Store, journal::SubjectId); 2] = [
        |here, job| drop(set(here, job, READING, "17", 5)),
        |here, job| {
            set(here, job, JOB, "-|a|harsh hot", 5);
            // Undone is not gone: it may be brought back.
            here.undo(crate::common::ines(), at(6)).unwrap().unwrap();
        },
    ];
    for build in build {
        let mut here = memory(1);
        let import = here.take_in(&batch(&other, true), "", at(1)).unwrap().1;
        build(&mut here, job);
        let before = here.digest().unwrap();
        let refused = here.remove_import(import.unwrap()).unwrap_err();
        assert!(matches!(refused, StoreError::BuiltUpon { records } if records > 0));
        assert_eq!(here.digest().unwrap(), before);
        assert_eq!(here.imports().unwrap().len(), 1);
    }
}

#[test]
fn an_edit_that_came_goes_and_what_it_replaced_stands_again() {
    let mut here = memory(1);
    let job = new_job(&mut here, 0, "-|a|mine");
    let mut other = memory(2);
    other.apply(&batch(&here, true)).unwrap();
    set(&mut other, job, JOB, "-|a|theirs", 3);
    let before = here.digest().unwrap();

    let import = here.take_in(&batch(&other, true), "", at(4)).unwrap().1;
    assert_eq!(bodies(&here, job, &JOB), ["-|a|theirs"]);
    here.remove_import(import.unwrap()).unwrap();
    assert_eq!(bodies(&here, job, &JOB), ["-|a|mine"]);
    assert_eq!(here.digest().unwrap(), before);
    assert_sound(&here);
}

#[test]
fn what_two_imports_brought_stays_until_both_are_taken_out() {
    let mut other = memory(2);
    let job = new_job(&mut other, 0, "-|a|x");
    let mut here = memory(1);
    let empty = here.digest().unwrap();
    let first = here.take_in(&batch(&other, true), "", at(1)).unwrap().1;
    set(&mut other, job, NOTE, "seen twice", 2);
    let second = here.take_in(&batch(&other, true), "", at(3)).unwrap().1;

    here.remove_import(first.unwrap()).unwrap();
    assert_eq!(bodies(&here, job, &JOB), ["-|a|x"]);
    assert_eq!(bodies(&here, job, &NOTE), ["seen twice"]);
    assert_sound(&here);
    here.remove_import(second.unwrap()).unwrap();
    assert_eq!(here.digest().unwrap(), empty);
}

#[test]
fn a_name_that_an_import_filled_in_is_left_out_again() {
    let mut other = memory(2);
    let job = new_job(&mut other, 0, "-|a|x");
    set(&mut other, job, OWNER, "Ulla Brandt", 1);
    let mut here = memory(1);
    here.take_in(&batch(&other, false), "", at(2)).unwrap();
    let without = here.digest().unwrap();
    let named = here.take_in(&batch(&other, true), "", at(3)).unwrap().1;
    assert_eq!(bodies(&here, job, &OWNER), ["Ulla Brandt"]);
    here.remove_import(named.unwrap()).unwrap();
    assert_eq!(bodies(&here, job, &OWNER), ["(withheld)"]);
    assert_eq!(here.digest().unwrap(), without);
    assert_sound(&here);
}
