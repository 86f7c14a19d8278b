//! A shop of any size, from a seed: years of jobs on invented vehicles, some fifty records a job,
//! by several people who each have a device. Units, stands and tests are copies of the demo
//! shop's, with readings that scatter about theirs; every commit is signed and every body is of
//! the app's own kinds, so a store can't tell it from work that people did.
//!
//! [`LargeShop`] is an iterator over batches, so that a shop of half a million records never lies
//! in memory at once; [`fill`] puts one into a store.

use journal::{Batch, RecordId, SubjectId, WallTime};
use model::bench::{Decision, Reading, VacuumTest, Verdict};
use model::caution::{BENCH_HAZARDS, CAUTION_WORDING, CautionRead};
use model::job::{Complaint, Job, Notes, Vehicle};
use model::repair::{Repair, RepairOption, RepairWork};
use model::{Finite, Id, Kind};
use rand::RngExt;
use store::{Store, StoreError};

use crate::demo::DemoError;
use crate::seeded::generator;

mod pattern;
mod pen;
mod words;

use pattern::{Names, Patterns, Test};
use pen::{Draft, Pen, Worker};

/// The people of the shop.
const PEOPLE: [&str; 5] = [
    "Marta Oyelaran",
    "Tomás Wierzba",
    "Inês Harrowgate",
    "Ruven Aldershaw",
    "Sol Brackmere",
];
/// Copies of each unit of the demo.
const COPIES: usize = 12;
/// Jobs in one batch.
const IN_A_BATCH: u32 = 100;
/// From one job to the next.
const MINUTES_BETWEEN_JOBS: i64 = 7 * 60;
/// 2026-11-20T16:00:00Z: the last job begins no later.
const END_MS: i64 = 1_795_190_400_000;

/// A unit of the shop.
struct OwnUnit {
    id: Id,
    pattern: usize,
    names: Names,
}

/// The batches of a shop: people, stands and units first, then jobs in order of time. The same seed
/// and number of jobs give the same bytes.
pub struct LargeShop {
    patterns: Patterns,
    pen: Pen,
    people: Vec<SubjectId>,
    units: Vec<OwnUnit>,
    jobs: u32,
    done: Option<u32>,
}

/// What [`fill`] put into a store.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Filled {
    /// Jobs.
    pub jobs: u32,
    /// Records that were new.
    pub records: usize,
    /// Commits that were new.
    pub commits: usize,
    /// The first person: who may be said to work on the device.
    pub person: SubjectId,
}

/// Puts a shop into a store, a batch a transaction.
///
/// # Errors
/// [`DemoError`] when the demo's sources don't build or the store refuses.
pub fn fill(store: &mut Store, seed: &str, jobs: u32) -> Result<Filled, DemoError> {
    let mut shop = LargeShop::new(seed, jobs)?;
    let mut filled = Filled {
        jobs,
        records: 0,
        commits: 0,
        person: shop.people[0],
    };
    for batch in &mut shop {
        let checked = batch?.check().map_err(StoreError::from)?;
        let applied = store.apply(&checked)?;
        filled.records += applied.new_records;
        filled.commits += applied.new_commits;
    }
    Ok(filled)
}

impl LargeShop {
    /// A shop of so many jobs.
    ///
    /// # Errors
    /// [`DemoError`] when the demo's sources don't build.
    pub fn new(seed: &str, jobs: u32) -> Result<Self, DemoError> {
        let start = END_MS - i64::from(jobs + 1) * MINUTES_BETWEEN_JOBS * 60_000;
        let mut pen = Pen {
            rng: generator(seed),
            workers: Vec::new(),
            now: WallTime::from_unix_ms(start),
            batch: Batch::default(),
        };
        let mut people = Vec::new();
        for _ in PEOPLE {
            let person = pen.subject();
            let worker = Worker::new(&mut pen.rng, person);
            pen.workers.push(worker);
            people.push(person);
        }
        Ok(Self {
            patterns: Patterns::of_demo()?,
            pen,
            people,
            units: Vec::new(),
            jobs,
            done: None,
        })
    }

    /// The shop, its people, stands and units.
    fn set_up(&mut self) -> Result<(), DemoError> {
        let shop = self.pen.subject();
        let mut drafts = vec![Draft::new(
            shop,
            Kind::Shop,
            &model::person::Shop {
                name: "Fenwick Lane Valve Works".into(),
                demo: false,
            },
        )?];
        for (person, name) in self.people.iter().zip(PEOPLE) {
            let body = model::person::Person { name: name.into() };
            drafts.push(Draft::new(*person, Kind::Person, &body)?);
        }
        self.pen.commit(0, drafts)?;
        let mut bench = Names::default();
        for subject in &self.patterns.bench {
            bench.add(subject, self.pen.subject());
        }
        for subject in &self.patterns.bench {
            self.pen.commit(0, bench.copy(subject, "")?)?;
        }
        for copy in 0..COPIES {
            for (pattern, unit) in self.patterns.units.iter().enumerate() {
                let mut names = bench.clone();
                for subject in &unit.subjects {
                    names.add(subject, self.pen.subject());
                }
                let name = format!("{} series {}", unit.name, copy + 1);
                for subject in &unit.subjects {
                    self.pen.commit(copy, names.copy(subject, &name)?)?;
                }
                self.units.push(OwnUnit {
                    id: Id::from_bytes(*names.subject(unit.id).as_bytes()),
                    pattern,
                    names,
                });
            }
        }
        Ok(())
    }

    /// One job, from the counter to the last test.
    fn job(&mut self, index: u32) -> Result<(), DemoError> {
        let Self {
            patterns,
            pen,
            units,
            ..
        } = self;
        let begun = pen.now;
        let by = pen.rng.random_range(0..PEOPLE.len());
        let unit = &units[pen.rng.random_range(0..units.len())];
        let pattern = &patterns.units[unit.pattern];
        let of = pen.subject();
        let id = Id::from_bytes(*of.as_bytes());
        let complaint = open(pen, by, of, unit.id, index)?;
        if pen.rng.random_bool(0.3) {
            pen.pass(5);
            let text = words::complaint(&mut pen.rng);
            let edit = Draft::new(of, Kind::JobComplaint, &Complaint { text })?;
            pen.commit(by + 1, vec![edit.replacing(complaint)])?;
        }
        // A few wait, or never come onto the bench.
        if !pen.rng.random_bool(0.06) {
            pen.pass(15);
            let mut read = Vec::new();
            for hazard in BENCH_HAZARDS {
                let wording = CAUTION_WORDING;
                read.push(Draft::new(
                    of,
                    Kind::Caution,
                    &CautionRead { hazard, wording },
                )?);
            }
            pen.commit(by, read)?;
            let mut before = Vec::new();
            let rounds = pen.rng.random_range(3..=4);
            for round in 0..rounds {
                let chosen = &pattern.tests[pen.rng.random_range(0..pattern.tests.len())];
                let decided = round + 1 < rounds || pen.rng.random_bool(0.9);
                let test = bench_test(pen, by, id, &unit.names, chosen, decided)?;
                before.push(test);
                if round + 2 == rounds && pen.rng.random_bool(0.7) {
                    repair(pen, by, id, unit.names.of(chosen.test.bore), before.clone())?;
                }
            }
        }
        pen.now = begun;
        pen.pass(MINUTES_BETWEEN_JOBS);
        Ok(())
    }

    fn next_batch(&mut self) -> Result<Option<Batch>, DemoError> {
        let Some(done) = self.done else {
            self.set_up()?;
            self.done = Some(0);
            return Ok(Some(std::mem::take(&mut self.pen.batch)));
        };
        let until = self.jobs.min(done + IN_A_BATCH);
        if done == until {
            return Ok(None);
        }
        for index in done..until {
            self.job(index)?;
        }
        self.done = Some(until);
        Ok(Some(std::mem::take(&mut self.pen.batch)))
    }
}

impl Iterator for LargeShop {
    type Item = Result<Batch, DemoError>;

    fn next(&mut self) -> Option<Self::Item> {
        self.next_batch().transpose()
    }
}

/// Opens a job; the record of its complaint.
fn open(
    pen: &mut Pen,
    by: usize,
    of: SubjectId,
    unit: Id,
    index: u32,
) -> Result<RecordId, DemoError> {
    let opened_on = chrono::DateTime::from_timestamp_millis(pen.now.unix_ms())
        .unwrap_or_default()
        .date_naive();
    let job = Job {
        unit,
        number: format!("{:05}", index + 1),
        opened_on,
    };
    let vehicle = Vehicle {
        description: words::vehicle(&mut pen.rng),
        odometer_m: Finite::new(f64::from(pen.rng.random_range(20_u32..400)) * 1e6),
    };
    let complaint = Complaint {
        text: words::complaint(&mut pen.rng),
    };
    let notes = Notes {
        text: words::notes(&mut pen.rng),
    };
    let customer = words::customer(&mut pen.rng);
    let ids = pen.commit(
        by,
        vec![
            Draft::new(of, Kind::Job, &job)?,
            Draft::new(of, Kind::JobVehicle, &vehicle)?,
            Draft::new(of, Kind::JobComplaint, &complaint)?,
            Draft::new(of, Kind::JobNotes, &notes)?,
            Draft::new(of, Kind::JobCustomer, &customer)?,
        ],
    )?;
    Ok(ids[2])
}

/// A test as the bench writes it: each part as it is entered.
fn bench_test(
    pen: &mut Pen,
    by: usize,
    job: Id,
    names: &Names,
    pattern: &Test,
    decided: bool,
) -> Result<Id, DemoError> {
    pen.pass(20);
    let of = pen.subject();
    let test = VacuumTest {
        job,
        bore: names.of(pattern.test.bore),
        test_point: names.of(pattern.test.test_point),
        stand: pattern.test.stand.map(|stand| names.of(stand)),
    };
    pen.commit(by, vec![Draft::new(of, Kind::Test, &test)?])?;
    let mut inputs = Vec::new();
    let mut parts = vec![Draft::new(of, Kind::TestSetup, &pattern.setup)?];
    if let Some(check) = &pattern.stand_check {
        parts.push(Draft::new(of, Kind::TestStandCheck, check)?);
    }
    if let Some(blank) = &pattern.blank {
        parts.push(Draft::new(of, Kind::TestBlank, blank)?);
    }
    for part in parts {
        pen.pass(3);
        inputs.extend(pen.commit(by, vec![part])?);
    }
    let mut sum = 0.0;
    let taken = pen.rng.random_range(5..=8);
    for place in 0..taken {
        pen.pass(2);
        let like = &pattern.readings[place % pattern.readings.len()];
        let (id, vacuum) = reading(pen, by, of, like)?;
        sum += vacuum;
        inputs.push(id);
    }
    if decided {
        pen.pass(4);
        let decision = decision(pen, pattern, inputs, sum / taken as f64);
        pen.commit(by, vec![Draft::new(of, Kind::TestDecision, &decision)?])?;
    }
    Ok(Id::from_bytes(*of.as_bytes()))
}

/// A reading; now and then it is corrected, or taken once more after one that is struck out.
fn reading(
    pen: &mut Pen,
    by: usize,
    of: SubjectId,
    like: &Reading,
) -> Result<(RecordId, f64), DemoError> {
    let near = |pen: &mut Pen| {
        let factor = 1.0 + pen.rng.random_range(-0.004..0.004);
        let vacuum_pa = Finite::new(*like.vacuum_pa * factor).unwrap_or(like.vacuum_pa);
        Reading {
            vacuum_pa,
            ..like.clone()
        }
    };
    let body = near(pen);
    let mut id = pen.commit(by, vec![Draft::new(of, Kind::TestReading, &body)?])?[0];
    let mut vacuum = *body.vacuum_pa;
    if pen.rng.random_bool(0.04) {
        let body = near(pen);
        let corrected = Draft::new(of, Kind::TestReading, &body)?.replacing(id);
        id = pen.commit(by, vec![corrected])?[0];
        vacuum = *body.vacuum_pa;
    } else if pen.rng.random_bool(0.02) {
        pen.commit(by, vec![Draft::void(of, id)])?;
        let body = near(pen);
        id = pen.commit(by, vec![Draft::new(of, Kind::TestReading, &body)?])?[0];
        vacuum = *body.vacuum_pa;
    }
    Ok((id, vacuum))
}

fn decision(pen: &mut Pen, pattern: &Test, inputs: Vec<RecordId>, mean: f64) -> Decision {
    let verdict = match pen.rng.random_range(0..10) {
        0..6 => Verdict::WithinLimit,
        6..8 => Verdict::TooCloseToCall,
        _ => Verdict::OutsideLimit,
    };
    Decision {
        verdict,
        mean_vacuum_pa: Finite::new(mean).unwrap_or(pattern.decision.mean_vacuum_pa),
        inputs: inputs
            .iter()
            .map(|id| Id::from_bytes(*id.as_bytes()))
            .collect(),
        note: words::one(&mut pen.rng, &words::SEEN).to_owned(),
        ..pattern.decision.clone()
    }
}

fn repair(pen: &mut Pen, by: usize, job: Id, bore: Id, before: Vec<Id>) -> Result<(), DemoError> {
    pen.pass(40);
    let option = if pen.rng.random_bool(0.5) {
        RepairOption::Cleaned
    } else {
        RepairOption::Other
    };
    let repair = Repair {
        job,
        bore,
        tests_before: before,
        checks_before: Vec::new(),
        work: RepairWork {
            parts: "Spring kept, plug renewed".into(),
            notes: words::one(&mut pen.rng, &words::SEEN).to_owned(),
            ..RepairWork::new(option)
        },
    };
    let of = pen.subject();
    pen.commit(by, vec![Draft::new(of, Kind::Repair, &repair)?])?;
    Ok(())
}
