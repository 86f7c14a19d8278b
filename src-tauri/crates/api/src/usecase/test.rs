//! The vacuum test: begin, record its parts, judge, put a decision on record.

use std::collections::BTreeSet;

use chrono::NaiveTime;
use diagnosis::evidence::Evidence;
use diagnosis::judgement::{ConsequenceAnswer, Judgement, LeakAnswer};
use diagnosis::pressure::SealEvidence;
use journal::{RecordId, SubjectId};
use model::bench::{
    Ambient, Blank, Decision, Instrument, Reading, Setup, Stand, StandCheck, Surface, VacuumTest,
};
use model::finding::{FindingCode, Severity};
use model::job::Job;
use model::unit::{Bore, BoreProfile, TestPoint};
use model::{Finding, Finite, Id, Kind};
use store::{NewRecord, Store, StoredRecord, Wanted};

use crate::App;
use crate::dto::{
    DecisionEntry, ReadBy, ReadingCorrect, ReadingEntry, ReadingStrike, SetupSuggestion, TestBegin,
    TestBegun, TestDecide, TestGet, TestPart, TestRecord, TestRecorded, TestView,
};
use crate::error::{ApiError, ErrorCode};
use crate::journal_io::{
    body, by, id, kind_name, lead, moment, need, new_record, record_id, standing, subject,
};
use crate::usecase::audit::undo_state;
use crate::usecase::job::{changed, hazards};
use crate::usecase::{settle, shop};
use crate::{drawing, repairs, summary};

/// Air at a bench when nobody says otherwise: 20 °C.
const BENCH_AIR_K: f64 = 293.15;

/// Begins a test.
pub(crate) fn begin(app: &App, args: TestBegin) -> Result<TestBegun, ApiError> {
    let mut store = app.store()?;
    need::<Job>(&store, subject(args.job), Kind::Job)?;
    need::<Bore>(&store, subject(args.bore), Kind::Bore)?;
    need::<TestPoint>(&store, subject(args.test_point), Kind::TestPoint)?;
    if let Some(stand) = args.stand {
        need::<Stand>(&store, subject(stand), Kind::Stand)?;
    }
    let of = store.new_subject(app.now())?;
    let test = VacuumTest {
        job: args.job,
        bore: args.bore,
        test_point: args.test_point,
        stand: args.stand,
    };
    let record = new_record(&store, of, Kind::Test, &test)?;
    app.commit(&mut store, vec![record])?;
    Ok(TestBegun { test: id(of) })
}

/// One test.
pub(crate) fn get(app: &App, args: TestGet) -> Result<TestView, ApiError> {
    let store = app.store()?;
    view(app, &store, args.test, args.oil_temperature_k)
}

/// One test as its screen shows it.
pub(crate) fn view(
    app: &App,
    store: &Store,
    test: Id,
    oil_temperature_k: Option<Finite>,
) -> Result<TestView, ApiError> {
    Case::read(app, store, test)?.view(store, oil_temperature_k)
}

/// A test with what it says now.
pub(crate) struct Judged {
    pub test: VacuumTest,
    pub judgement: Judgement,
    /// What it says of the seals; none while the leak isn't known.
    pub seals: Option<SealEvidence>,
}

/// Judges a test on record.
pub(crate) fn judged(app: &App, store: &Store, test: Id) -> Result<Judged, ApiError> {
    let case = Case::read(app, store, test)?;
    let (judgement, seals) = case.judge_with_seals(None)?;
    Ok(Judged {
        judgement,
        seals,
        test: case.test,
    })
}

/// Hands a test on record with its judgement on to whoever looks at it.
pub(crate) fn with_judged<R>(
    app: &App,
    store: &Store,
    test: Id,
    look: impl FnOnce(&Evidence<'_>, &Judgement, Option<&SealEvidence>) -> R,
) -> Result<R, ApiError> {
    let case = Case::read(app, store, test)?;
    let (judgement, seals) = case.judge_with_seals(None)?;
    Ok(case.with_evidence(None, |evidence| look(evidence, &judgement, seals.as_ref())))
}

/// A test as a list of many tells it: the reading against its limit.
pub(crate) struct ReadAgainstLimit {
    pub test_point: String,
    pub stand: Option<String>,
    pub ambient: Option<Ambient>,
    /// Who took the first reading that stands, and when.
    pub first: Option<ReadBy>,
    pub judged: diagnosis::AgainstLimit,
}

/// A test's reading against its limit, without what follows from it.
pub(crate) fn against_limit(
    app: &App,
    store: &Store,
    test: Id,
) -> Result<ReadAgainstLimit, ApiError> {
    let case = Case::read(app, store, test)?;
    let judged = case
        .with_evidence(None, diagnosis::against_limit)
        .map_err(ApiError::internal)?;
    Ok(ReadAgainstLimit {
        first: case.readings.first().map(|entry| ReadBy {
            by: entry.by.clone(),
            at: entry.at,
        }),
        test_point: case.test_point.name,
        stand: case.stand.map(|stand| stand.name),
        ambient: case.setup.map(|setup| setup.ambient),
        judged,
    })
}

/// Records one part, or says what it would give.
pub(crate) fn record(app: &App, args: TestRecord) -> Result<TestRecorded, ApiError> {
    let mut store = app.store()?;
    let of = subject(args.test);
    let mut case = Case::read(app, &store, args.test)?;
    let before = case.with_evidence(None, |evidence| evidence.findings());
    let (record, field) = case.put(&store, of, args.part)?;
    let judgement = case.judge(None)?;
    let mut findings = within_part(&judgement.findings, &field);
    // A part may contradict what is on record already, and the finding then stands at that.
    let elsewhere = judgement.findings.iter().filter(|finding| {
        finding.severity == Severity::Wrong
            && !finding.field.starts_with(&field)
            && !before.contains(finding)
    });
    findings.extend(elsewhere.map(|finding| Finding {
        field: String::new(),
        ..finding.clone()
    }));
    let forbidden = findings
        .iter()
        .any(|finding| finding.severity == Severity::Wrong);
    let saved = !args.dry_run && !forbidden;
    if let (true, Some(record)) = (saved, record) {
        app.commit(&mut store, vec![record])?;
    }
    let view = if saved || forbidden {
        Case::read(app, &store, args.test)?.view(&store, None)?
    } else {
        case.judged(&store, judgement)?
    };
    Ok(TestRecorded {
        saved,
        findings,
        view,
    })
}

/// What would be said of readings if they were typed into a test one after another, each by itself,
/// and of what is on record already. `test_id` names a test that may not be on record yet.
pub(crate) fn findings_of(
    app: &App,
    store: &Store,
    test_id: Id,
    test: VacuumTest,
    readings: &[Reading],
) -> Result<(Vec<Vec<Finding>>, Vec<Finding>), ApiError> {
    let mut case = Case::of(app, store, test_id, test)?;
    let before = case.with_evidence(None, |evidence| evidence.findings());
    let first = case.readings.len();
    for reading in readings {
        case.put(store, subject(test_id), TestPart::Reading(reading.clone()))?;
    }
    let judgement = case.judge(None)?;
    let mut each = vec![Vec::new(); readings.len()];
    let mut elsewhere = Vec::new();
    for finding in judgement.findings {
        // `readings[12].vacuum_pa` stands at the reading of that place.
        let place = finding
            .field
            .strip_prefix("readings[")
            .and_then(|rest| rest.split_once(']'))
            .and_then(|(place, rest)| Some((place.parse::<usize>().ok()?, rest)));
        match place.and_then(|(at, rest)| Some((each.get_mut(at.checked_sub(first)?)?, rest))) {
            Some((of, rest)) => of.push(Finding {
                field: rest.trim_start_matches('.').to_owned(),
                ..finding.clone()
            }),
            None if finding.severity == Severity::Wrong && !before.contains(&finding) => {
                elsewhere.push(finding);
            }
            None => {}
        }
    }
    Ok((each, elsewhere))
}

/// Corrects a reading: the new record replaces the old, which stays in the journal.
pub(crate) fn correct(app: &App, args: ReadingCorrect) -> Result<TestRecorded, ApiError> {
    let mut store = app.store()?;
    let of = subject(args.test);
    let mut case = Case::read(app, &store, args.test)?;
    let index = case.index_of(args.record)?;
    let old = case.readings[index].record;
    case.readings[index].reading = args.reading.clone();
    let judgement = case.judge(None)?;
    let findings = within_part(&judgement.findings, &format!("readings[{index}]"));
    let saved = findings
        .iter()
        .all(|finding| finding.severity != Severity::Wrong);
    if saved {
        let mut record = new_record(&store, of, Kind::TestReading, &args.reading)?;
        // Two corrections of one reading are settled by a third.
        record.supersedes = settle::corrections_beside(&store, of, journal_record(old))?;
        app.commit(&mut store, vec![record])?;
    }
    let view = Case::read(app, &store, args.test)?.view(&store, None)?;
    Ok(TestRecorded {
        saved,
        findings,
        view,
    })
}

/// Strikes a reading, and with it what it had corrected: otherwise the uncorrected value would
/// stand again. One user action, so one undo brings all of it back.
pub(crate) fn strike(app: &App, args: ReadingStrike) -> Result<TestView, ApiError> {
    let mut store = app.store()?;
    let case = Case::read(app, &store, args.test)?;
    case.index_of(args.record)?;
    let of = subject(args.test);
    let mut voids = vec![NewRecord::void(of, journal_record(args.record))];
    for old in corrected_by(&store, journal_record(args.record))? {
        voids.push(NewRecord::void(of, old.id()));
    }
    app.commit(&mut store, voids)?;
    Case::read(app, &store, args.test)?.view(&store, None)
}

/// Puts the decision that the judgement shows now on record, pinned to what it was made from.
pub(crate) fn decide(app: &App, args: TestDecide) -> Result<TestView, ApiError> {
    let mut store = app.store()?;
    let of = subject(args.test);
    let case = Case::read(app, &store, args.test)?;
    let judgement = case.judge(None)?;
    let decision = diagnosis::decision(&judgement, case.inputs.clone(), args.note)
        .ok_or_else(|| ApiError::new(ErrorCode::NoDecision))?;
    let record = new_record(&store, of, Kind::TestDecision, &decision)?;
    app.commit(&mut store, vec![record])?;
    Case::read(app, &store, args.test)?.view(&store, None)
}

/// The findings at one part, their fields told from it.
fn within_part(findings: &[Finding], part: &str) -> Vec<Finding> {
    let inside = |finding: &Finding| {
        let rest = finding.field.strip_prefix(part)?;
        let rest = rest
            .strip_prefix('.')
            .or_else(|| rest.is_empty().then_some(rest))?;
        Some(Finding {
            field: rest.to_owned(),
            ..finding.clone()
        })
    };
    findings.iter().filter_map(inside).collect()
}

pub(crate) fn journal_record(record: Id) -> RecordId {
    RecordId::from_bytes(*record.as_bytes())
}

/// A test with everything that it refers to, read from the store.
struct Case {
    test_id: Id,
    test: VacuumTest,
    job: Job,
    profile: BoreProfile,
    test_point: TestPoint,
    stand: Option<Stand>,
    gauge: Option<Instrument>,
    setup: Option<Setup>,
    stand_check: Option<StandCheck>,
    blank: Option<Blank>,
    readings: Vec<ReadingEntry>,
    /// True when a repair before this test changed the profile.
    repaired: bool,
    /// The records that a decision pins: the parts and the readings.
    inputs: Vec<Id>,
    today: chrono::NaiveDate,
    /// The day of the last part on record; today before the first.
    taken_on: chrono::NaiveDate,
}

impl Case {
    fn read(app: &App, store: &Store, test_id: Id) -> Result<Self, ApiError> {
        let test: VacuumTest = need(store, subject(test_id), Kind::Test)?;
        Self::of(app, store, test_id, test)
    }

    /// A test that may not be on record yet.
    fn of(app: &App, store: &Store, test_id: Id, test: VacuumTest) -> Result<Self, ApiError> {
        let of = subject(test_id);
        let (stand, gauge) = match test.stand {
            Some(stand) => shop::stand(store, stand).map(|(stand, gauge)| (Some(stand), gauge))?,
            None => (None, None),
        };
        let mut inputs = Vec::new();
        let mut last_part = None;
        for kind in [
            Kind::TestSetup,
            Kind::TestStandCheck,
            Kind::TestBlank,
            Kind::TestReading,
        ] {
            let stands = standing(store, of, kind)?;
            let taken = stands.records.iter().map(|part| part.envelope().wall_time);
            last_part = last_part.max(taken.max());
            inputs.extend(stands.ids().into_iter().map(record_id));
        }
        let (profile, repaired) = repairs::profile_of_test(store, test.job, test.bore, test_id)?;
        Ok(Self {
            test_id,
            job: need(store, subject(test.job), Kind::Job)?,
            profile,
            repaired,
            test_point: need(store, subject(test.test_point), Kind::TestPoint)?,
            stand,
            gauge,
            setup: lead(store, of, Kind::TestSetup)?,
            stand_check: lead(store, of, Kind::TestStandCheck)?,
            blank: lead(store, of, Kind::TestBlank)?,
            readings: readings(store, of)?,
            inputs,
            today: app.clock().today(),
            taken_on: last_part.map_or_else(
                || app.clock().today(),
                |at| moment(at).with_timezone(&chrono::Local).date_naive(),
            ),
            test,
        })
    }

    fn index_of(&self, record: Id) -> Result<usize, ApiError> {
        let found = self
            .readings
            .iter()
            .position(|entry| entry.record == record);
        found.ok_or_else(|| ApiError::not_found("reading", record))
    }

    /// Takes a part in, and gives the record that would keep it (none if it says nothing new) and
    /// the path of the part within the evidence.
    fn put(
        &mut self,
        store: &Store,
        of: SubjectId,
        part: TestPart,
    ) -> Result<(Option<NewRecord>, String), ApiError> {
        Ok(match part {
            TestPart::Setup(setup) => {
                let record = changed(store, of, Kind::TestSetup, &setup)?;
                self.setup = Some(setup);
                (record, "setup".into())
            }
            TestPart::StandCheck(check) => {
                let record = changed(store, of, Kind::TestStandCheck, &check)?;
                self.stand_check = Some(check);
                (record, "stand_check".into())
            }
            TestPart::Blank(blank) => {
                let record = changed(store, of, Kind::TestBlank, &blank)?;
                self.blank = Some(blank);
                (record, "blank".into())
            }
            TestPart::Reading(reading) => {
                let record = new_record(store, of, Kind::TestReading, &reading)?;
                let part = format!("readings[{}]", self.readings.len());
                self.readings.push(ReadingEntry {
                    record: Id::nil(),
                    reading,
                    by: String::new(),
                    at: moment(journal::WallTime::from_unix_ms(0)),
                    corrected: Vec::new(),
                });
                (Some(record), part)
            }
            TestPart::Stand { stand } => {
                let (found, gauge) = match stand {
                    Some(id) => shop::stand(store, id).map(|(s, gauge)| (Some(s), gauge))?,
                    None => (None, None),
                };
                self.test.stand = stand;
                (self.stand, self.gauge) = (found, gauge);
                (changed(store, of, Kind::Test, &self.test)?, "stand".into())
            }
        })
    }

    fn judge(&self, oil_temperature_k: Option<Finite>) -> Result<Judgement, ApiError> {
        self.judge_with_seals(oil_temperature_k)
            .map(|(judgement, _)| judgement)
    }

    fn judge_with_seals(
        &self,
        oil_temperature_k: Option<Finite>,
    ) -> Result<(Judgement, Option<SealEvidence>), ApiError> {
        let (mut judgement, seals) = self
            .with_evidence(oil_temperature_k, diagnosis::judge_with_seals)
            .map_err(ApiError::internal)?;
        if self.repaired {
            let code = FindingCode::ProfileAsRepaired;
            let found = Finding::at(Severity::Note, code, "profile");
            judgement.findings.push(found);
        }
        Ok((judgement, seals))
    }

    /// Hands the evidence on to whoever looks at it.
    fn with_evidence<R>(
        &self,
        oil_temperature_k: Option<Finite>,
        look: impl FnOnce(&Evidence<'_>) -> R,
    ) -> R {
        let readings: Vec<Reading> = self
            .readings
            .iter()
            .map(|entry| entry.reading.clone())
            .collect();
        look(&Evidence {
            profile: &self.profile,
            test_point: &self.test_point,
            stand: self.stand.as_ref(),
            gauge: self.gauge.as_ref(),
            setup: self.setup.as_ref(),
            stand_check: self.stand_check.as_ref(),
            blank: self.blank.as_ref(),
            readings: &readings,
            oil_temperature_k: oil_temperature_k.map(Finite::get),
            // A calibration that runs out later leaves what was measured before as it was.
            today: Some(self.taken_on),
        })
    }

    fn view(self, store: &Store, oil_temperature_k: Option<Finite>) -> Result<TestView, ApiError> {
        let judgement = self.judge(oil_temperature_k)?;
        self.judged(store, judgement)
    }

    /// The view of a case whose judgement is known already.
    fn judged(self, store: &Store, judgement: Judgement) -> Result<TestView, ApiError> {
        let leaking = matches!(judgement.leak, Some(LeakAnswer::Known(_)));
        let stroke = match &judgement.consequence {
            Some(ConsequenceAnswer::Computed(consequence)) => Some(*consequence.stroke_m),
            _ => None,
        };
        let tested: &[String] = if leaking {
            &self.test_point.isolates
        } else {
            &[]
        };
        Ok(TestView {
            id: self.test_id,
            job_number: self.job.number.clone(),
            bore_name: self.profile.bore.name.clone(),
            suggested: self.suggestion()?,
            stand_check_today: self.stand_check_today(store)?,
            decision: self.decision(store, &judgement)?,
            drawing: drawing::draw(&self.profile, stroke, tested)?,
            hazards: hazards(store, subject(self.test.job))?,
            undo: undo_state(store)?,
            test: self.test,
            test_point: self.test_point,
            stand: self.stand,
            gauge: self.gauge,
            setup: self.setup,
            stand_check: self.stand_check,
            blank: self.blank,
            readings: self.readings,
            judgement,
        })
    }

    /// As the test point asks, in the air of the stand's place.
    fn suggestion(&self) -> Result<SetupSuggestion, ApiError> {
        let altitude = self.stand.as_ref().and_then(|stand| stand.altitude_m);
        let air_temperature_k = Finite::try_from(BENCH_AIR_K).map_err(ApiError::internal)?;
        Ok(SetupSuggestion {
            setup: Setup {
                valve_position: self.test_point.valve_position,
                orifice: self.test_point.orifice,
                surface: Surface::Dry,
                ambient: Ambient::Altitude {
                    altitude_m: altitude.unwrap_or(Finite::ZERO),
                },
                air_temperature_k,
            },
            ambient_from_stand: altitude.is_some(),
        })
    }

    /// The latest check of the same stand in another test, if it was recorded within the day.
    fn stand_check_today(&self, store: &Store) -> Result<Option<StandCheck>, ApiError> {
        let Some(stand) = self.test.stand else {
            return Ok(None);
        };
        // Wide enough for a day of any length, in any place; the day itself is asked below.
        let around = |days| self.today + chrono::TimeDelta::days(days);
        let bound = |days| {
            around(days)
                .and_time(NaiveTime::MIN)
                .and_utc()
                .timestamp_millis()
        };
        let tests = kind_name(Kind::Test);
        let wanted = Wanted {
            facets: &[(summary::STAND, stand.as_bytes().to_vec())],
            from: Some(bound(-1)),
            to: Some(bound(2)),
            ..Wanted::all(&tests)
        };
        for of in store.latest(&wanted)? {
            let stands = standing(store, of, Kind::TestStandCheck)?;
            let Some(record) = stands.lead().filter(|_| id(of) != self.test_id) else {
                continue;
            };
            let at = moment(record.envelope().wall_time);
            if at.with_timezone(&chrono::Local).date_naive() != self.today {
                continue;
            }
            if let Some(check) = body(record) {
                return Ok(Some(check));
            }
        }
        Ok(None)
    }

    fn decision(
        &self,
        store: &Store,
        judgement: &Judgement,
    ) -> Result<Option<DecisionEntry>, ApiError> {
        let stands = standing(store, subject(self.test_id), Kind::TestDecision)?;
        let Some(record) = stands.lead() else {
            return Ok(None);
        };
        let Some(decision) = body::<Decision>(record) else {
            return Ok(None);
        };
        let by = by(store, record)?;
        let mut pinned = decision.inputs.clone();
        let mut now = self.inputs.clone();
        pinned.sort_unstable();
        now.sort_unstable();
        let outdated = pinned != now
            || decision.profile_digest != judgement.profile_digest
            || decision.physics_version != judgement.physics_version;
        Ok(Some(DecisionEntry {
            record: record_id(record.id()),
            decision,
            by: by.by,
            at: by.at,
            outdated,
        }))
    }
}

/// The readings that stand, each with what it corrected, in the order in which they were first
/// taken: a correction keeps the place of what it corrects.
fn readings(store: &Store, of: SubjectId) -> Result<Vec<ReadingEntry>, ApiError> {
    let mut entries = Vec::new();
    for record in &standing(store, of, Kind::TestReading)?.records {
        let Some(reading) = body::<Reading>(record) else {
            continue;
        };
        let by = by(store, record)?;
        let older = corrected_by(store, record.id())?;
        let first = older.last().unwrap_or(record);
        let taken = first.envelope().clock;
        let entry = ReadingEntry {
            record: record_id(record.id()),
            reading,
            by: by.by,
            at: by.at,
            corrected: older.iter().filter_map(body::<Reading>).collect(),
        };
        entries.push((taken, entry));
    }
    entries.sort_by_key(|(taken, _)| *taken);
    Ok(entries.into_iter().map(|(_, entry)| entry).collect())
}

/// The records that a reading corrected, latest first.
fn corrected_by(store: &Store, reading: RecordId) -> Result<Vec<StoredRecord>, ApiError> {
    let mut found = Vec::new();
    let mut seen = BTreeSet::from([reading]);
    let mut next = store.record(reading)?;
    while let Some(record) = next {
        let older = record.envelope().supersedes.first().copied();
        // A hostile record might replace itself in a circle.
        next = match older.filter(|id| seen.insert(*id)) {
            Some(id) => store.record(id)?,
            None => None,
        };
        found.push(record);
    }
    // The first found is the reading itself.
    Ok(found.split_off(1.min(found.len())))
}
