//! The laws of the fold.
#![allow(clippy::unwrap_used)]

use std::collections::BTreeSet;

use journal::fold::{Fold, fold};
use journal::{
    BodyHash, DeviceId, Envelope, Fate, FoldRule, HybridClock, Kind, PersonId, Record, RecordId,
    SubjectId, Tick, WallTime,
};
use proptest::prelude::*;

const NOTE: Kind = Kind::literal("note");
const READING: Kind = Kind::literal("reading");
const REMOVED: Kind = Kind::literal("removed");

fn rule(kind: &Kind) -> FoldRule {
    match kind.as_str() {
        "reading" => FoldRule::Addition,
        "removed" => FoldRule::Removal,
        _ => FoldRule::Register,
    }
}

fn record(id: u8, tick: Tick, device: u8, kind: Kind, supersedes: &[u8]) -> Record {
    Record::new(Envelope {
        id: RecordId::from_bytes([id; 16]),
        clock: tick,
        wall_time: WallTime::from_unix_ms(0),
        device: DeviceId::from_bytes([device; 32]),
        author: PersonId::from_bytes([0; 16]),
        subject: SubjectId::from_bytes([1; 16]),
        kind,
        kind_version: 1,
        supersedes: supersedes
            .iter()
            .map(|&id| RecordId::from_bytes([id; 16]))
            .collect(),
        body_hash: BodyHash::of(&[id]),
    })
    .unwrap()
}

fn at(ms: u64) -> Tick {
    Tick::new(ms, 0).unwrap()
}

fn standing(fold: &Fold, kind: &Kind) -> Vec<u8> {
    let heads = fold.heads().get(kind);
    heads.map_or(vec![], |h| {
        h.records.iter().map(|r| r.id().as_bytes()[0]).collect()
    })
}

#[test]
fn an_edit_beats_what_its_author_saw_even_with_a_slow_clock() {
    let records = [
        record(1, at(9_000), 1, NOTE, &[]),
        record(2, at(10), 2, NOTE, &[1]),
    ];
    let fold = fold(&records, rule);
    assert_eq!(standing(&fold, &NOTE), [2]);
    assert!(!fold.heads()[&NOTE].concurrent());
}

#[test]
fn two_edits_unaware_of_each_other_are_shown_both() {
    let records = [
        record(1, at(1), 1, NOTE, &[]),
        record(2, at(5), 1, NOTE, &[1]),
        record(3, at(4), 2, NOTE, &[1]),
    ];
    let fold = fold(&records, rule);
    assert_eq!(standing(&fold, &NOTE), [3, 2], "the later one leads");
    assert!(fold.heads()[&NOTE].concurrent());
}

#[test]
fn readings_only_add_and_a_correction_keeps_the_first() {
    let records = [
        record(1, at(1), 1, READING, &[]),
        record(2, at(2), 2, READING, &[]),
        record(3, at(3), 1, READING, &[1]),
    ];
    let fold = fold(&records, rule);
    assert_eq!(standing(&fold, &READING), [2, 3]);
    assert!(!fold.heads()[&READING].concurrent());
    assert_eq!(
        fold.fate(RecordId::from_bytes([1; 16])),
        Some(Fate::Replaced)
    );
    assert_eq!(fold.history().len(), 3);
}

#[test]
fn removal_beats_a_concurrent_edit_and_can_be_voided() {
    let mut records = vec![
        record(1, at(1), 1, NOTE, &[]),
        record(2, at(2), 1, REMOVED, &[]),
        record(3, at(9), 2, NOTE, &[1]),
    ];
    assert!(fold(&records, rule).removed());
    records.push(record(4, at(10), 2, Kind::VOID, &[2]));
    let fold = fold(&records, rule);
    assert!(!fold.removed());
    assert_eq!(standing(&fold, &NOTE), [3]);
}

#[test]
fn a_void_brings_back_what_was_replaced_and_a_void_of_it_redoes() {
    let mut records = vec![
        record(1, at(1), 1, NOTE, &[]),
        record(2, at(2), 1, NOTE, &[1]),
        record(3, at(3), 1, Kind::VOID, &[2]),
    ];
    assert_eq!(standing(&fold(&records, rule), &NOTE), [1]);
    records.push(record(4, at(4), 1, Kind::VOID, &[3]));
    assert_eq!(standing(&fold(&records, rule), &NOTE), [2]);
    records.push(record(5, at(5), 1, Kind::VOID, &[4]));
    assert_eq!(standing(&fold(&records, rule), &NOTE), [1]);
}

#[test]
fn a_voided_link_does_not_bring_back_what_a_later_edit_replaced() {
    let records = [
        record(1, at(1), 1, NOTE, &[]),
        record(2, at(2), 1, NOTE, &[1]),
        record(3, at(3), 1, NOTE, &[2]),
        record(4, at(4), 2, Kind::VOID, &[2]),
    ];
    assert_eq!(standing(&fold(&records, rule), &NOTE), [3]);
}

#[test]
fn records_that_void_each_other_come_to_nothing() {
    let records = [
        record(1, at(1), 1, NOTE, &[]),
        record(2, at(2), 2, Kind::VOID, &[3]),
        record(3, at(3), 2, Kind::VOID, &[2]),
        record(4, at(4), 2, NOTE, &[5]),
        record(5, at(5), 2, NOTE, &[4]),
    ];
    let fold = fold(&records, rule);
    assert_eq!(standing(&fold, &NOTE), [1, 4, 5]);
    assert!(fold.history().iter().all(|&(_, fate)| fate == Fate::Stands));
}

#[test]
fn a_record_with_the_latest_possible_clock_can_still_be_replaced() {
    let records = [
        record(1, Tick::MAX, 9, NOTE, &[]),
        record(2, Tick::MAX, 1, NOTE, &[1]),
    ];
    assert_eq!(standing(&fold(&records, rule), &NOTE), [2]);
}

#[test]
fn two_envelopes_under_one_id_are_both_kept() {
    let records = [
        record(1, at(1), 1, NOTE, &[]),
        record(1, at(2), 2, NOTE, &[]),
    ];
    assert_eq!(standing(&fold(&records, rule), &NOTE), [1, 1]);
    let fold_both = fold(&records, rule);
    assert!(fold_both.heads()[&NOTE].concurrent());
}

#[test]
fn another_subject_and_another_kind_are_out_of_reach() {
    let mut envelope = record(2, at(2), 1, Kind::VOID, &[1]).envelope().clone();
    envelope.subject = SubjectId::from_bytes([2; 16]);
    let foreign = Record::new(envelope).unwrap();
    let note = record(1, at(1), 1, NOTE, &[]);
    let other_kind = record(3, at(3), 1, READING, &[1]);
    let fold = fold([&note, &foreign, &other_kind], rule);
    assert_eq!(standing(&fold, &NOTE), [1]);
}

#[test]
fn a_chain_of_many_thousand_edits_folds() {
    let id = |n: u64| RecordId::new(n, &[0; 10]);
    let records: Vec<_> = (0..20_000)
        .map(|n| {
            let mut envelope = record(1, at(n), 1, NOTE, &[]).envelope().clone();
            envelope.id = id(n);
            envelope.supersedes = n.checked_sub(1).map(id).into_iter().collect();
            Record::new(envelope).unwrap()
        })
        .collect();
    let fold = fold(&records, rule);
    assert_eq!(fold.heads()[&NOTE].records, [records.last().unwrap()]);
}

/// The rules again, word by word, by brute force: who reaches whom is a full table.
fn by_the_letter(records: &[Record]) -> BTreeSet<(RecordId, &'static str)> {
    let n = records.len();
    let named = |from: usize, to: usize| {
        let (f, t) = (records[from].envelope(), records[to].envelope());
        f.supersedes.contains(&t.id) && (f.kind == Kind::VOID || f.kind == t.kind)
    };
    let closure = |edge: &dyn Fn(usize, usize) -> bool| {
        let mut reach: Vec<Vec<bool>> = (0..n)
            .map(|from| (0..n).map(|to| edge(from, to)).collect())
            .collect();
        for mid in 0..n {
            for from in 0..n {
                for to in 0..n {
                    reach[from][to] |= reach[from][mid] && reach[mid][to];
                }
            }
        }
        reach
    };
    let any = closure(&named);
    let counts = |from: usize, to: usize| named(from, to) && !any[to][from] && from != to;
    let is_void = |node: usize| records[node].envelope().kind == Kind::VOID;
    fn voided(
        node: usize,
        n: usize,
        counts: &dyn Fn(usize, usize) -> bool,
        is_void: &dyn Fn(usize) -> bool,
    ) -> bool {
        (0..n).any(|v| is_void(v) && counts(v, node) && !voided(v, n, counts, is_void))
    }
    let voided = |node| voided(node, n, &counts, &is_void);
    let reach = closure(&|from, to| !is_void(from) && counts(from, to));
    let fate = |node: usize| {
        if voided(node) {
            "voided"
        } else if (0..n).any(|from| !voided(from) && reach[from][node]) {
            "replaced"
        } else {
            "stands"
        }
    };
    (0..n)
        .map(|node| (records[node].id(), fate(node)))
        .collect()
}

fn any_record(id: u8) -> impl Strategy<Value = Record> {
    let kind = prop_oneof![
        3 => Just(NOTE),
        1 => Just(READING),
        1 => Just(REMOVED),
        3 => Just(Kind::VOID)
    ];
    (
        kind,
        0..6_u64,
        1..4_u8,
        prop::collection::vec(0..10_u8, 0..3),
    )
        .prop_map(move |(kind, ms, device, mut named)| {
            if kind == Kind::VOID {
                named.truncate(1);
                if named.is_empty() {
                    named.push(0);
                }
            }
            record(id, at(ms), device, kind, &named)
        })
}

/// Ten records that name one another at random: cycles, selves and voids of voids among them.
fn hostile() -> impl Strategy<Value = Vec<Record>> {
    (0..10_u8).map(any_record).collect::<Vec<_>>()
}

/// What honest devices write: each edit names the heads that its device knew; devices exchange
/// at random; clocks are wrong by days.
fn honest_run(devices: usize, moves: &[(u8, u8, i64)]) -> (Vec<Record>, Vec<u8>) {
    let mut journals: Vec<(HybridClock, Vec<Record>)> = vec![Default::default(); devices];
    let mut all = Vec::new();
    let mut kept_readings = Vec::new();
    let mut id = 0;
    for &(what, who, wall) in moves {
        let who = usize::from(who) % devices;
        if what >= 4 {
            let from = usize::from(what) % devices;
            let seen = journals[from].1.clone();
            let (clock, records) = &mut journals[who];
            for record in seen {
                clock.observe(record.envelope().clock);
                if !records.contains(&record) {
                    records.push(record);
                }
            }
            continue;
        }
        let (clock, records) = &mut journals[who];
        let day = 86_400_000_i64;
        let tick = clock.tick(WallTime::from_unix_ms(
            wall + day * 3 * i64::try_from(who).unwrap(),
        ));
        let device = u8::try_from(who).unwrap();
        let folded = fold(&*records, rule);
        let (kind, named) = match what {
            0 => (READING, vec![]),
            1 => (NOTE, standing(&folded, &NOTE)),
            2 => (REMOVED, standing(&folded, &REMOVED)),
            _ => match folded
                .history()
                .iter()
                .rev()
                .find(|(r, f)| *f == Fate::Stands && r.envelope().kind != READING)
            {
                Some((target, _)) => (Kind::VOID, vec![target.id().as_bytes()[0]]),
                None => continue,
            },
        };
        if kind == READING {
            kept_readings.push(id);
        }
        let new = record(id, tick, device, kind, &named);
        id += 1;
        records.push(new.clone());
        all.push(new);
    }
    (all, kept_readings)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn the_fold_keeps_its_rules_to_the_letter(records in hostile()) {
        let folded = fold(&records, rule);
        let names = |fate| match fate {
            Fate::Stands => "stands",
            Fate::Replaced => "replaced",
            Fate::Voided => "voided",
        };
        let got: BTreeSet<_> =
            folded.history().iter().map(|&(r, fate)| (r.id(), names(fate))).collect();
        prop_assert_eq!(got, by_the_letter(&records));
    }

    #[test]
    fn order_and_repetition_do_not_matter(
        records in hostile(),
        order in Just((0..20_usize).collect::<Vec<_>>()).prop_shuffle(),
    ) {
        let shuffled: Vec<_> = order.iter().map(|&n| &records[n % records.len()]).collect();
        prop_assert_eq!(fold(shuffled, rule), fold(&records, rule));
    }

    #[test]
    fn honest_devices_lose_nothing(
        devices in 2..7_usize,
        moves in prop::collection::vec((0..9_u8, 0..6_u8, 0..1_000_000_i64), 0..60),
        seed in any::<u64>(),
    ) {
        let (all, readings) = honest_run(devices, &moves);
        let folded = fold(&all, rule);
        prop_assert_eq!(folded.history().len(), all.len());
        // No reading was ever voided or named, so each stands.
        let mut standing_readings = standing(&folded, &READING);
        standing_readings.sort_unstable();
        prop_assert_eq!(standing_readings, readings);
        // An honest edge leads to an older clock, so none is on a cycle: whatever an effective
        // record named is not in effect.
        for (record, fate) in folded.history() {
            if *fate == Fate::Stands {
                for target in &record.envelope().supersedes {
                    prop_assert_ne!(folded.fate(*target), Some(Fate::Stands));
                }
            }
        }
        let mut rotated = all.clone();
        if !rotated.is_empty() {
            let by = usize::try_from(seed % rotated.len() as u64).unwrap();
            rotated.rotate_left(by);
        }
        prop_assert_eq!(fold(&rotated, rule), folded);
    }
}
