//! Stores that have seen the same records hold the same, whatever the way there.

use crate::common::*;
use journal::erasure::Erased;
use journal::{Batch, Kind, SubjectId};
use proptest::prelude::*;
use store::{NewRecord, Selection, Store};

fn everything(store: &Store, personal: bool) -> journal::CheckedBatch {
    store
        .export(&Selection::Everything, personal)
        .unwrap()
        .check()
        .unwrap()
}

#[test]
fn two_edits_unaware_of_each_other_become_a_finding_that_an_edit_settles() {
    let (mut one, mut two) = (memory(1), memory(2));
    let job = new_job(&mut one, 0, "-|a|as found");
    two.apply(&everything(&one, true)).unwrap();
    set(&mut one, job, JOB, "-|a|says one", 10);
    set(&mut two, job, JOB, "-|a|says two", 20);

    let plan = one.plan(&everything(&two, true)).unwrap();
    assert_eq!(
        bodies(&one, job, &JOB),
        ["-|a|says one"],
        "a plan changes nothing"
    );
    let applied = one.apply(&everything(&two, true)).unwrap();
    assert_eq!(applied, plan);
    assert_eq!(
        applied.concurrent.into_iter().collect::<Vec<_>>(),
        [(job, JOB)]
    );
    assert_eq!((applied.new_records, applied.same_records), (1, 1));
    assert_eq!((applied.new_commits, applied.same_commits), (1, 1));
    assert_eq!(bodies(&one, job, &JOB), ["-|a|says one", "-|a|says two"]);

    set(&mut one, job, JOB, "-|a|settled", 5);
    let applied = two.apply(&everything(&one, true)).unwrap();
    assert_eq!(applied.newer.into_iter().collect::<Vec<_>>(), [(job, JOB)]);
    assert!(applied.concurrent.is_empty());
    assert_eq!(bodies(&two, job, &JOB), ["-|a|settled"]);
    assert_eq!(one.digest().unwrap(), two.digest().unwrap());
    assert!(two.apply(&everything(&one, true)).unwrap().is_nothing());
}

#[test]
fn a_withheld_body_changes_nothing_but_itself_and_can_be_filled_in() {
    let (mut one, mut two) = (memory(1), memory(2));
    let job = new_job(&mut one, 0, "-|a|as found");
    set(&mut one, job, OWNER, "555 0100", 1);
    let applied = two.apply(&everything(&one, false)).unwrap();
    assert_eq!((applied.new_records, applied.new_bodies), (2, 1));
    assert_eq!(bodies(&two, job, &OWNER), ["(withheld)"]);
    assert_eq!(one.digest().unwrap().journal, two.digest().unwrap().journal);
    assert_ne!(one.digest().unwrap(), two.digest().unwrap());
    assert_eq!(two.search("555", 9).unwrap(), []);
    assert_sound(&two);

    let applied = two.apply(&everything(&one, true)).unwrap();
    assert_eq!((applied.new_records, applied.new_bodies), (0, 1));
    assert_eq!(bodies(&two, job, &OWNER), ["555 0100"]);
    assert_eq!(two.search("555", 9).unwrap(), [job]);
    assert_eq!(one.digest().unwrap(), two.digest().unwrap());
}

#[test]
fn part_of_a_commit_can_be_passed_on_and_the_rest_later() {
    let (mut one, mut two) = (memory(1), memory(2));
    let [a, b] = [0, 1].map(|_| one.new_subject(at(0)).unwrap());
    let both = vec![
        record(a, JOB, "-|a|a", vec![]),
        record(b, JOB, "-|b|b", vec![]),
    ];
    one.append(both, ines(), at(0)).unwrap();
    let part = one.export(&Selection::Subjects([a].into()), true).unwrap();
    assert_eq!((part.records.len(), part.commits.len()), (1, 1));
    two.apply(&part.check().unwrap()).unwrap();
    assert_eq!(two.subjects_of_kind(&JOB).unwrap(), [a]);
    assert_sound(&two);
    two.apply(&everything(&one, true)).unwrap();
    assert_eq!(one.digest().unwrap(), two.digest().unwrap());
}

#[test]
fn undo_is_for_this_device_only_and_travels() {
    let (mut one, mut two) = (memory(1), memory(2));
    let job = new_job(&mut one, 0, "-|a|as found");
    two.apply(&everything(&one, true)).unwrap();
    assert_eq!(two.undo_candidate().unwrap(), None);
    set(&mut two, job, NOTE, "n", 1);
    one.apply(&everything(&two, true)).unwrap();
    two.undo(ines(), at(2)).unwrap().unwrap();
    one.apply(&everything(&two, true)).unwrap();
    assert_eq!(one.standing(job, &NOTE).unwrap().records, []);
    assert_eq!(one.digest().unwrap(), two.digest().unwrap());
}

#[test]
fn a_clock_that_is_years_ahead_drags_nobody_into_losing() {
    let (mut ahead, mut two) = (memory(1), memory(2));
    let year = 31_536_000_000;
    let job = new_job(&mut ahead, 50 * year, "-|a|from the future");
    two.apply(&everything(&ahead, true)).unwrap();
    set(&mut two, job, JOB, "-|a|now", 0);
    ahead.apply(&everything(&two, true)).unwrap();
    for store in [&ahead, &two] {
        assert_eq!(bodies(store, job, &JOB), ["-|a|now"]);
        assert_sound(store);
    }
}

/// One move: what is done, by which device, to which of three jobs, at what wall time; or an
/// exchange between two devices, of everything or of one job, with or without personal bodies.
#[derive(Debug, Clone)]
enum Move {
    Set {
        who: usize,
        job: usize,
        kind: Kind,
        wall: i64,
    },
    Strike {
        who: usize,
        job: usize,
        nth: usize,
        wall: i64,
    },
    Erase {
        who: usize,
        job: usize,
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
    Pass {
        from: usize,
        to: usize,
        job: Option<usize>,
        personal: bool,
    },
}

fn a_move() -> impl Strategy<Value = Move> {
    let kind = prop_oneof![
        Just(JOB),
        Just(NOTE),
        Just(OWNER),
        Just(READING),
        Just(REMOVED)
    ];
    let wall = || -2_000_000_i64..2_000_000;
    prop_oneof![
        4 => (0..6_usize, 0..3_usize, kind, wall())
            .prop_map(|(who, job, kind, wall)| Move::Set { who, job, kind, wall }),
        1 => (0..6_usize, 0..3_usize, 0..9_usize, wall())
            .prop_map(|(who, job, nth, wall)| Move::Strike { who, job, nth, wall }),
        1 => (0..6_usize, 0..3_usize, wall())
            .prop_map(|(who, job, wall)| Move::Erase { who, job, wall }),
        1 => (0..6_usize, wall()).prop_map(|(who, wall)| Move::Undo { who, wall }),
        1 => (0..6_usize, wall()).prop_map(|(who, wall)| Move::Redo { who, wall }),
        3 => (0..6_usize, 0..6_usize, prop::option::of(0..3_usize), any::<bool>())
            .prop_map(|(from, to, job, personal)| Move::Pass { from, to, job, personal }),
    ]
}

fn owner_of(job: SubjectId) -> Erased {
    Erased {
        subject: job,
        kinds: vec![OWNER],
    }
}

/// Takes a batch in, which brings something just when that was said before.
fn take(store: &mut Store, batch: &journal::CheckedBatch) {
    let would_gain = store.would_gain(batch).unwrap();
    let applied = store.apply(batch).unwrap();
    assert_eq!(would_gain, !applied.is_nothing(), "{applied:?}");
}

fn play(stores: &mut [Store], jobs: &[SubjectId; 3], step: usize, this: &Move) {
    let count = stores.len();
    let day = 86_400_000;
    // Each device's clock is wrong by so many days.
    let wall_of = |who: usize, wall: i64| wall + day * 4 * i64::try_from(who).unwrap();
    match *this {
        Move::Set {
            who,
            job,
            ref kind,
            wall,
        } => {
            let who = who % count;
            let body = format!("-|{step}|text {step}");
            set(
                &mut stores[who],
                jobs[job],
                kind.clone(),
                &body,
                wall_of(who, wall),
            );
        }
        Move::Strike {
            who,
            job,
            nth,
            wall,
        } => {
            let who = who % count;
            let history = stores[who].records_of(jobs[job]).unwrap();
            if !history.is_empty() {
                let target = history[nth % history.len()].stored.id();
                let void = NewRecord::void(jobs[job], target);
                stores[who]
                    .append(vec![void], ines(), at(wall_of(who, wall)))
                    .unwrap();
            }
        }
        Move::Erase { who, job, wall } => {
            let who = who % count;
            stores[who]
                .erase(vec![owner_of(jobs[job])], ines(), at(wall_of(who, wall)))
                .unwrap();
        }
        Move::Undo { who, wall } => {
            let who = who % count;
            stores[who].undo(ines(), at(wall_of(who, wall))).unwrap();
        }
        Move::Redo { who, wall } => {
            let who = who % count;
            stores[who].redo(ines(), at(wall_of(who, wall))).unwrap();
        }
        Move::Pass {
            from,
            to,
            job,
            personal,
        } => {
            let selection = match job {
                Some(job) => Selection::Subjects([jobs[job]].into()),
                None => Selection::Everything,
            };
            let batch = stores[from % count].export(&selection, personal).unwrap();
            take(&mut stores[to % count], &batch.check().unwrap());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn all_who_have_seen_all_hold_the_same(
        count in 2..7_usize,
        moves in prop::collection::vec(a_move(), 1..40),
        order in Just((0..6_usize).collect::<Vec<_>>()).prop_shuffle(),
    ) {
        let mut stores: Vec<Store> = (0..count).map(|n| memory(n as u64 + 1)).collect();
        let jobs = [1, 2, 3].map(|n| SubjectId::from_bytes([n; 16]));
        for (step, this) in moves.iter().enumerate() {
            play(&mut stores, &jobs, step, this);
        }
        let batches: Vec<_> = stores.iter().map(|store| everything(store, true)).collect();
        let mut envelopes: Vec<_> =
            batches.iter().flat_map(|b| b.records().iter().cloned()).collect();
        envelopes.sort_by_key(|record| (record.id(), record.hash()));
        envelopes.dedup();
        for (n, store) in stores.iter_mut().enumerate() {
            // Another order for each, and each bundle twice.
            for turn in 0..2 * order.len() {
                if let Some(batch) = batches.get(order[(turn + n) % order.len()]) {
                    take(store, batch);
                }
            }
            let held = everything(store, true);
            prop_assert_eq!(held.records(), &envelopes[..], "nothing lost, nothing altered");
            prop_assert_eq!(store.check().unwrap(), []);
        }
        let digest = stores[0].digest().unwrap();
        for store in &stores {
            prop_assert_eq!(store.digest().unwrap(), digest);
        }
    }

    #[test]
    fn record_by_record_in_any_order_is_the_same_as_all_at_once(
        moves in prop::collection::vec(a_move(), 1..25),
        picks in prop::collection::vec(any::<prop::sample::Index>(), 60),
    ) {
        let mut stores = [memory(1), memory(2)];
        let jobs = [1, 2, 3].map(|n| SubjectId::from_bytes([n; 16]));
        // Somebody kept every body that ever was, erased ones too, and passes them on.
        let mut hoard = std::collections::BTreeMap::new();
        for (step, this) in moves.iter().enumerate() {
            play(&mut stores, &jobs, step, this);
            for store in &stores {
                hoard.extend(everything(store, true).bodies().clone());
            }
        }
        let [mut one, two] = stores;
        one.apply(&everything(&two, true)).unwrap();
        let all = everything(&one, true);
        let mut third = memory(3);
        let single = |n: usize| {
            let record = all.records()[n].clone();
            let body = hoard[&record.envelope().body_hash].clone();
            let commits = all.commits().iter().filter(|c| c.lists(&record)).cloned().collect();
            Batch { commits, records: vec![record], bodies: vec![body] }.check().unwrap()
        };
        if !all.records().is_empty() {
            for pick in picks {
                take(&mut third, &single(pick.index(all.records().len())));
            }
            for n in (0..all.records().len()).rev() {
                take(&mut third, &single(n));
            }
        }
        prop_assert_eq!(third.digest().unwrap(), one.digest().unwrap());
        prop_assert_eq!(third.check().unwrap(), []);
    }
}
