//! Inspecting: the plan of a job, one check after the other, and the card of a bore.

use std::collections::BTreeMap;

use diagnosis::card::{BoreCard, BoreEvidence, CheckState, TestEvidence};
use diagnosis::inspected::{self, Inspected, MeasuredParts, as_measured, seals_by_diameters};
use diagnosis::judgement::{ConsequenceAnswer, Judgement};
use diagnosis::pressure::SealEvidence;
use diagnosis::tap::TapEvidence;
use journal::fold::Fate;
use model::bench::Instrument;
use model::finding::Severity;
use model::inspection::{CheckName, Found, Inspection, MarkDepth, MarkedSurface, Occasion};
use model::inspection_plan::{InspectionPlan, LeftOut};
use model::job::Job;
use model::limits::Check;
use model::repair::Repair;
use model::tap_reading::TapFigures;
use model::unit::{Bore, BoreProfile, Circuit, Clutch, Tap};
use model::{Finding, Finite, Id, Kind};
use store::{NewRecord, Store};

use crate::dto::{
    BodyCheck, CardGet, CardTest, CardTestPoint, CardView, CoilOf, InspectionEntry,
    InspectionRecord, InspectionRecorded, InspectionStrike, InstrumentEntry, Nothing, PlanChange,
    PlanChanged, PlanGet, PlanView, PlannedBore,
};
use crate::error::{ApiError, ErrorCode};
use crate::journal_io::{body, by, id, kind_name, lead, need, new_record, standing, subject};
use crate::repairs::Recorded;
use crate::usecase::audit::undo_state;
use crate::usecase::job::{changed, count, hazards, tests};
use crate::usecase::shop::all;
use crate::usecase::tap;
use crate::usecase::test::judged;
use crate::{App, drawing, profiles, repairs};

/// The plan of a job's inspection.
pub(crate) fn plan(app: &App, args: PlanGet) -> Result<PlanView, ApiError> {
    let store = app.store()?;
    plan_view(app, &store, args.job)
}

/// Changes the plan.
pub(crate) fn change(app: &App, args: PlanChange) -> Result<PlanChanged, ApiError> {
    let mut store = app.store()?;
    let of = subject(args.job);
    let job: Job = need(&store, of, Kind::Job)?;
    let findings = args.plan.findings();
    for bore in &args.plan.bores {
        need::<Bore>(&store, subject(*bore), Kind::Bore)?;
    }
    let wrong = findings
        .iter()
        .any(|finding| finding.severity == Severity::Wrong);
    if !wrong
        && args.plan != standing_plan(&store, args.job, &job)?.0
        && let Some(record) = changed(&store, of, Kind::InspectionPlan, &args.plan)?
    {
        app.commit(&mut store, vec![record])?;
    }
    Ok(PlanChanged {
        saved: !wrong,
        findings,
        view: plan_view(app, &store, args.job)?,
    })
}

/// Records a check, or says what it would give.
pub(crate) fn record(app: &App, args: InspectionRecord) -> Result<InspectionRecorded, ApiError> {
    let mut store = app.store()?;
    need::<Job>(&store, subject(args.job), Kind::Job)?;
    let name = args.found.name();
    if args.bore.is_some() != name.is_of_a_bore() {
        return Err(ApiError::new(ErrorCode::BadRequest).at("bore"));
    }
    let inspection = Inspection {
        job: args.job,
        bore: args.bore,
        occasion: args.occasion,
        found: args.found,
        note: args.note,
    };
    let mut findings = inspection.found.findings();
    let forbidden = findings
        .iter()
        .any(|finding| finding.severity == Severity::Wrong);
    let saved = !args.dry_run && !forbidden;
    let mut of = args.inspection;
    if let Some(old) = args.inspection {
        let known: Inspection = need(&store, subject(old), Kind::Inspection)?;
        if known.job != args.job || known.bore != args.bore || known.found.name() != name {
            return Err(ApiError::new(ErrorCode::BadRequest).at("inspection"));
        }
    }
    if saved {
        let record = match args.inspection {
            Some(old) => changed(&store, subject(old), Kind::Inspection, &inspection)?,
            None => {
                let new = store.new_subject(app.now())?;
                of = Some(id(new));
                Some(new_record(&store, new, Kind::Inspection, &inspection)?)
            }
        };
        if let Some(record) = record {
            app.commit(&mut store, vec![record])?;
        }
    }
    let instruments = shops_instruments(&store)?;
    if args.bore.is_none() && !forbidden {
        let today = Some(app.clock().today());
        findings.extend(inspected::findings(&inspection.found, &instruments, today));
    }
    let card = match args.bore {
        Some(bore) => {
            let mut bench = Bench::read(app, &store, args.job, bore)?;
            if !saved && !forbidden {
                bench.put(args.inspection, &inspection);
            }
            let mut card = bench.card(app)?;
            // Of the findings those of this check are told at its own fields.
            let here = format!("{}.", inspected::field(name));
            if !forbidden {
                let (own, others): (Vec<_>, Vec<_>) = card
                    .findings
                    .into_iter()
                    .partition(|finding| finding.field.starts_with(&here));
                card.findings = others;
                for mut finding in own {
                    finding.field = finding.field.split_off(here.len());
                    if !findings.contains(&finding) {
                        findings.push(finding);
                    }
                }
            }
            Some(Box::new(card))
        }
        None => None,
    };
    Ok(InspectionRecorded {
        saved,
        inspection: of.filter(|_| saved || args.inspection.is_some()),
        outcome: inspected::outcome(&inspection.found, &instruments),
        findings,
        card,
    })
}

/// Strikes a check, and with it what it had corrected: otherwise the uncorrected one would stand
/// again. One user action, so one undo brings all of it back.
pub(crate) fn strike(app: &App, args: InspectionStrike) -> Result<Nothing, ApiError> {
    let mut store = app.store()?;
    let of = subject(args.inspection);
    need::<Inspection>(&store, of, Kind::Inspection)?;
    let voids: Vec<_> = store
        .records_of(of)?
        .into_iter()
        .filter(|entry| entry.stored.envelope().kind == kind_name(Kind::Inspection))
        .filter(|entry| entry.fate != Fate::Voided)
        .map(|entry| NewRecord::void(of, entry.stored.id()))
        .collect();
    app.commit(&mut store, voids)?;
    Ok(Nothing {})
}

/// The card of a bore.
pub(crate) fn card(app: &App, args: CardGet) -> Result<CardView, ApiError> {
    card_view(app, &*app.store()?, args.job, args.bore)
}

pub(super) fn card_view(
    app: &App,
    store: &Store,
    job_id: Id,
    bore: Id,
) -> Result<CardView, ApiError> {
    let job: Job = need(store, subject(job_id), Kind::Job)?;
    let bench = Bench::read(app, store, job_id, bore)?;
    let card = bench.card(app)?;
    let stroke = match &card.consequence {
        Some(ConsequenceAnswer::Computed(computed)) => Some(*computed.stroke_m),
        _ => None,
    };
    let left_out = left_out_of(store, job_id, &job, bore)?;
    Ok(CardView {
        job: job_id,
        job_number: job.number,
        bore,
        bore_name: bench.profile.bore.name.clone(),
        circuit_name: bench.profile.circuit.name.clone(),
        lands: bench
            .profile
            .lands
            .iter()
            .map(|land| land.name.clone())
            .collect(),
        drawing: drawing::draw(&bench.profile, stroke, &[])?,
        occasion: bench.occasion(),
        test_points: bench
            .profile
            .test_points
            .iter()
            .map(|(point, body)| CardTestPoint {
                test_point: *point,
                name: body.name.clone(),
            })
            .collect(),
        instruments: instrument_entries(app, &bench.instruments),
        entries: bench.entries,
        tests: bench.tests,
        left_out,
        card,
        hazards: hazards(store, subject(job_id))?,
        undo: undo_state(store)?,
    })
}

/// The shop's instruments, as a card lists them.
pub(super) fn instruments(app: &App, store: &Store) -> Result<Vec<InstrumentEntry>, ApiError> {
    Ok(instrument_entries(app, &shops_instruments(store)?))
}

fn instrument_entries(app: &App, known: &BTreeMap<Id, Instrument>) -> Vec<InstrumentEntry> {
    let today = app.clock().today();
    let entry = |(id, instrument): (&Id, &Instrument)| InstrumentEntry {
        id: *id,
        overdue: instrument.calibration_due.is_some_and(|due| due < today),
        instrument: instrument.clone(),
    };
    known.iter().map(entry).collect()
}

/// A bore as its checks and tests in a job found it.
pub(super) struct AsFound {
    /// The profile with its parts as measured.
    pub profile: BoreProfile,
    /// Of the last vacuum test, or else of the diameters.
    pub seals: Option<SealEvidence>,
}

/// A bore as it was found in a job.
pub(super) fn as_found(app: &App, store: &Store, job: Id, bore: Id) -> Result<AsFound, ApiError> {
    let bench = Bench::read(app, store, job, bore)?;
    let measured = bench.card(app)?.measured;
    let profile = as_measured(&bench.profile, &measured).profile;
    let by_vacuum = bench.judged.iter().find_map(|test| test.seals.clone());
    Ok(AsFound {
        seals: by_vacuum.or_else(|| seals_by_diameters(&profile, &measured)),
        profile,
    })
}

/// What a report tells of a bore's inspection; none where there is nothing but vacuum tests.
pub(crate) fn reported(
    app: &App,
    store: &Store,
    job_id: Id,
    bore: Id,
) -> Result<Option<Reported>, ApiError> {
    let bench = Bench::read(app, store, job_id, bore)?;
    if bench.entries.is_empty() && bench.left_out.is_empty() {
        return Ok(None);
    }
    let job: Job = need(store, subject(job_id), Kind::Job)?;
    Ok(Some(Reported {
        card: bench.card(app)?,
        left_out: left_out_of(store, job_id, &job, bore)?,
        entries: bench.entries,
        instruments: bench.instruments,
    }))
}

/// The checks of the body and the case in a job, with the shop's instruments.
pub(crate) fn reported_body(
    store: &Store,
    job: Id,
) -> Result<(Vec<InspectionEntry>, BTreeMap<Id, Instrument>), ApiError> {
    let mut entries = inspections(store, job)?;
    entries.retain(|entry| entry.record.bore.is_none());
    Ok((entries, shops_instruments(store)?))
}

/// The shop's instruments.
pub(crate) fn shops_instruments(store: &Store) -> Result<BTreeMap<Id, Instrument>, ApiError> {
    let found = all::<Instrument>(store, Kind::Instrument)?;
    Ok(found.into_iter().collect())
}

/// The checks of a bore that the plan leaves out, with the reasons.
fn left_out_of(store: &Store, job_id: Id, job: &Job, bore: Id) -> Result<Vec<LeftOut>, ApiError> {
    let mut left = standing_plan(store, job_id, job)?.0.left_out;
    left.retain(|left| left.bore == bore);
    Ok(left)
}

/// A bore's inspection for a report.
pub(crate) struct Reported {
    pub(crate) card: BoreCard,
    pub(crate) entries: Vec<InspectionEntry>,
    pub(crate) left_out: Vec<LeftOut>,
    pub(crate) instruments: BTreeMap<Id, Instrument>,
}

/// A bore with all its checks and tests in a job.
struct Bench {
    profile: BoreProfile,
    repaired: bool,
    entries: Vec<InspectionEntry>,
    tests: Vec<CardTest>,
    judged: Vec<Judged>,
    clutches: Vec<Clutch>,
    instruments: BTreeMap<Id, Instrument>,
    left_out: Vec<CheckName>,
    /// The checks that count: those since the last repair.
    checks: Vec<(Id, Occasion, Found)>,
    /// The last reading at each tap of its circuit that counts.
    taps: Vec<(Tap, TapFigures)>,
}

impl Bench {
    fn read(app: &App, store: &Store, job_id: Id, bore_id: Id) -> Result<Self, ApiError> {
        let job: Job = need(store, subject(job_id), Kind::Job)?;
        let repairs = repairs::of_bore(store, job_id, bore_id)?;
        let profile = repairs::profile_after(store, job_id, bore_id, &repairs)?;
        let entries: Vec<_> = inspections(store, job_id)?
            .into_iter()
            .filter(|entry| entry.record.bore == Some(bore_id))
            .collect();
        let repaired = !repairs.is_empty();
        let counts = |entry: &&InspectionEntry| {
            // What was found before a repair says nothing of what it left.
            !repaired || entry.record.occasion == Occasion::AfterRepair
        };
        let checks = entries
            .iter()
            .filter(counts)
            .map(|entry| {
                let record = &entry.record;
                (entry.inspection, record.occasion, record.found.clone())
            })
            .collect();
        let (tests, judged) = tests_that_count(app, store, job_id, bore_id, &profile, &repairs)?;
        let plan = standing_plan(store, job_id, &job)?.0;
        Ok(Self {
            left_out: CheckName::OF_A_BORE
                .into_iter()
                .filter(|check| plan.leaves_out(bore_id, *check))
                .collect(),
            instruments: shops_instruments(store)?,
            clutches: profiles::clutches(store, profile.bore.circuit)?,
            taps: tap::last_of_circuit(store, job_id, profile.bore.circuit, repaired)?,
            profile,
            repaired,
            entries,
            tests,
            judged,
            checks,
        })
    }

    /// When in the job a new check would be.
    fn occasion(&self) -> Occasion {
        if self.repaired {
            return Occasion::AfterRepair;
        }
        let last = self.checks.iter().map(|(_, occasion, _)| *occasion).max();
        last.unwrap_or(Occasion::AsFound)
    }

    /// Takes in a check that isn't on record, in the place of the one that it would correct.
    fn put(&mut self, corrects: Option<Id>, inspection: &Inspection) {
        let of = corrects.unwrap_or_else(Id::nil);
        self.checks.retain(|(known, ..)| *known != of);
        if !self.repaired || inspection.occasion == Occasion::AfterRepair {
            let found = inspection.found.clone();
            self.checks.push((of, inspection.occasion, found));
        }
    }

    fn card(&self, app: &App) -> Result<BoreCard, ApiError> {
        let checks: Vec<_> = self
            .checks
            .iter()
            .map(|(_, occasion, found)| Inspected {
                occasion: *occasion,
                found,
            })
            .collect();
        let tests: Vec<_> = self
            .judged
            .iter()
            .map(|judged| TestEvidence {
                judgement: &judged.judgement,
                seals: judged.seals.as_ref(),
                isolates: self
                    .profile
                    .test_points
                    .iter()
                    .find(|(point, _)| *point == judged.test_point)
                    .map_or(&[][..], |(_, point)| &point.isolates),
            })
            .collect();
        let named = |id: Option<Id>| id.and_then(|id| self.instruments.get(&id));
        let taps: Vec<_> = self
            .taps
            .iter()
            .map(|(tap, figures)| TapEvidence {
                tap,
                figures,
                gauge: named(figures.gauge),
                line_gauge: named(figures.line_gauge),
                today: None,
            })
            .collect();
        diagnosis::card::card(&BoreEvidence {
            profile: &self.profile,
            checks: &checks,
            instruments: &self.instruments,
            clutches: &self.clutches,
            tests: &tests,
            left_out: &self.left_out,
            today: Some(app.clock().today()),
            taps: &taps,
        })
        .map_err(ApiError::internal)
    }
}

/// What the inspection of a bore in a job measured, ready for the physics.
pub(crate) struct InspectedBore {
    pub parts: MeasuredParts,
    /// The deepest mark in the bore.
    pub deepest_mark: Option<MarkDepth>,
    /// The spring's height where the valve regulates, m.
    pub spring_height_m: Option<Finite>,
}

/// What is measured of a bore since its last repair.
pub(crate) fn measured_of(
    app: &App,
    store: &Store,
    job: Id,
    bore: Id,
) -> Result<InspectedBore, ApiError> {
    let bench = Bench::read(app, store, job, bore)?;
    let checks: Vec<_> = bench
        .checks
        .iter()
        .map(|(_, occasion, found)| Inspected {
            occasion: *occasion,
            found,
        })
        .collect();
    let latest = inspected::latest(&checks);
    let today = Some(app.clock().today());
    let (parts, _) = inspected::measured(&bench.profile, &latest, &bench.instruments, today)
        .map_err(ApiError::internal)?;
    let mut deepest_mark = None;
    let mut spring_height_m = None;
    for check in &latest {
        match check.found {
            Found::WearMarks(found) => {
                let in_bore = found
                    .marks
                    .iter()
                    .filter(|mark| mark.on == MarkedSurface::Bore);
                deepest_mark = in_bore.map(|mark| mark.depth).max();
            }
            Found::Spring(spring) => spring_height_m = spring.height_regulating_m,
            _ => {}
        }
    }
    Ok(InspectedBore {
        parts,
        deepest_mark,
        spring_height_m,
    })
}

/// The checks of a bore that say what a repair finds: before the first repair all but those made
/// after one, later only these.
pub(crate) fn checks_known(
    store: &Store,
    job: Id,
    bore: Id,
    repaired: bool,
) -> Result<Vec<Id>, ApiError> {
    let mut entries = inspections(store, job)?;
    entries.retain(|entry| {
        let record = &entry.record;
        record.bore == Some(bore) && repaired == (record.occasion == Occasion::AfterRepair)
    });
    Ok(entries.iter().map(|entry| entry.inspection).collect())
}

/// What these checks of a bore measured.
pub(crate) fn measured_by(
    app: &App,
    store: &Store,
    job: Id,
    profile: &BoreProfile,
    checks: &[Id],
) -> Result<MeasuredParts, ApiError> {
    let mut entries = inspections(store, job)?;
    entries.retain(|entry| checks.contains(&entry.inspection));
    let found: Vec<_> = entries
        .iter()
        .map(|entry| Inspected {
            occasion: entry.record.occasion,
            found: &entry.record.found,
        })
        .collect();
    let latest = inspected::latest(&found);
    let today = Some(app.clock().today());
    let instruments = shops_instruments(store)?;
    let (parts, _) =
        inspected::measured(profile, &latest, &instruments, today).map_err(ApiError::internal)?;
    Ok(parts)
}

/// A test of a test point, judged.
struct Judged {
    test_point: Id,
    judgement: Judgement,
    seals: Option<SealEvidence>,
}

type JudgedTests = (Vec<CardTest>, Vec<Judged>);

/// The bore's tests; and of those since the last repair the last with a reading of each test
/// point, judged.
fn tests_that_count(
    app: &App,
    store: &Store,
    job: Id,
    bore: Id,
    profile: &BoreProfile,
    repairs: &[Recorded<Repair>],
) -> Result<JudgedTests, ApiError> {
    let before_repair = |test: Id| {
        repairs
            .iter()
            .any(|repair| repair.body.tests_before.contains(&test))
    };
    let mut found = Vec::new();
    let mut last: BTreeMap<Id, usize> = BTreeMap::new();
    for (test, entry) in tests(store, subject(job))? {
        if test.bore != bore {
            continue;
        }
        let name = profile
            .test_points
            .iter()
            .find(|(point, _)| *point == test.test_point)
            .map(|(_, point)| point.name.clone());
        if entry.readings > 0 && !before_repair(entry.test) {
            last.insert(test.test_point, found.len());
        }
        found.push(CardTest {
            test_point_name: name.unwrap_or_default(),
            test: entry,
            counts: false,
        });
    }
    let mut answers = Vec::new();
    for (test_point, index) in last {
        found[index].counts = true;
        let answer = judged(app, store, found[index].test.test)?;
        answers.push(Judged {
            test_point,
            judgement: answer.judgement,
            seals: answer.seals,
        });
    }
    Ok((found, answers))
}

/// The checks of a job, oldest first.
fn inspections(store: &Store, job: Id) -> Result<Vec<InspectionEntry>, ApiError> {
    let instruments = shops_instruments(store)?;
    let mut found = Vec::new();
    for of in store.children(subject(job), &kind_name(Kind::Inspection))? {
        let stands = standing(store, of, Kind::Inspection)?;
        let Some(record) = stands.lead() else {
            continue;
        };
        let Some(inspection) = body::<Inspection>(record) else {
            continue;
        };
        let mut findings = inspection.found.findings();
        if inspection.bore.is_none() {
            // Those of a bore's check stand on its card.
            findings.extend(inspected::findings(&inspection.found, &instruments, None));
        }
        if stands.concurrent {
            findings.push(Finding::at(
                Severity::Doubt,
                model::finding::FindingCode::ConcurrentEdit,
                "",
            ));
        }
        found.push(InspectionEntry {
            inspection: id(of),
            outcome: inspected::outcome(&inspection.found, &instruments),
            by: by(store, record)?,
            findings,
            record: inspection,
        });
    }
    // Subjects are numbered as they are made.
    found.sort_by_key(|entry| entry.inspection);
    Ok(found)
}

/// The plan that a person made, or the one that the app proposes: every bore of the unit, those on
/// whose circuit most solenoids hang first, since most goes wrong at once there (common practice,
/// no source).
pub(super) fn standing_plan(
    store: &Store,
    job_id: Id,
    job: &Job,
) -> Result<(InspectionPlan, Option<crate::dto::ReadBy>), ApiError> {
    let stands = standing(store, subject(job_id), Kind::InspectionPlan)?;
    if let Some(record) = stands.lead()
        && let Some(plan) = body::<InspectionPlan>(record)
    {
        return Ok((plan, Some(by(store, record)?)));
    }
    let mut bores = Vec::new();
    for bore in profiles::bores_of_unit(store, job.unit)? {
        bores.push((solenoids_of(store, bore)?, bore));
    }
    bores.sort_by_key(|(solenoids, _)| std::cmp::Reverse(*solenoids));
    Ok((
        InspectionPlan {
            bores: bores.into_iter().map(|(_, bore)| bore).collect(),
            left_out: Vec::new(),
            body: CheckName::OF_THE_BODY.into(),
        },
        None,
    ))
}

fn circuit_of(store: &Store, bore: Id) -> Result<Option<Circuit>, ApiError> {
    let Some(bore) = lead::<Bore>(store, subject(bore), Kind::Bore)? else {
        return Ok(None);
    };
    lead(store, subject(bore.circuit), Kind::Circuit)
}

fn solenoids_of(store: &Store, bore: Id) -> Result<u32, ApiError> {
    let circuit = circuit_of(store, bore)?;
    Ok(circuit.and_then(|circuit| circuit.solenoids).unwrap_or(0))
}

pub(super) fn plan_view(app: &App, store: &Store, job_id: Id) -> Result<PlanView, ApiError> {
    let job: Job = need(store, subject(job_id), Kind::Job)?;
    let (plan, changed_by) = standing_plan(store, job_id, &job)?;
    let mut order = plan.bores.clone();
    for bore in profiles::bores_of_unit(store, job.unit)? {
        if !order.contains(&bore) {
            order.push(bore);
        }
    }
    let mut bores = Vec::new();
    let mut open = 0;
    for bore_id in order {
        let Some(bore) = lead::<Bore>(store, subject(bore_id), Kind::Bore)? else {
            // The profile lost it since the plan was made.
            continue;
        };
        let circuit = circuit_of(store, bore_id)?;
        let in_plan = plan.bores.contains(&bore_id);
        let card = if in_plan {
            Some(Bench::read(app, store, job_id, bore_id)?.card(app)?)
        } else {
            None
        };
        let checks = card.as_ref().map_or(Vec::new(), |card| card.checks.clone());
        open += checks
            .iter()
            .filter(|line| line.decides && line.state == CheckState::Open)
            .count();
        bores.push(PlannedBore {
            bore: bore_id,
            name: bore.name,
            solenoids: circuit
                .as_ref()
                .and_then(|circuit| circuit.solenoids)
                .unwrap_or(0),
            circuit_name: circuit.map(|circuit| circuit.name).unwrap_or_default(),
            in_plan,
            conclusion: card.map(|card| card.conclusion),
            checks,
        });
    }
    let of_the_body: Vec<_> = inspections(store, job_id)?
        .into_iter()
        .filter(|entry| entry.record.bore.is_none())
        .collect();
    let body = CheckName::OF_THE_BODY
        .into_iter()
        .map(|check| BodyCheck {
            check,
            in_plan: plan.body.contains(&check),
            entries: of_the_body
                .iter()
                .filter(|entry| entry.record.found.name() == check)
                .cloned()
                .collect(),
        })
        .filter(|check| check.in_plan || !check.entries.is_empty())
        .collect();
    Ok(PlanView {
        job: job_id,
        job_number: job.number,
        plan,
        by: changed_by,
        bores,
        body,
        open: count(open),
        hazards: hazards(store, subject(job_id))?,
        undo: undo_state(store)?,
        coils: coils(store, job.unit)?,
    })
}

/// What the profile says of the unit's coils.
fn coils(store: &Store, unit: Id) -> Result<Vec<CoilOf>, ApiError> {
    let mut found = Vec::new();
    for circuit_id in store.children(subject(unit), &kind_name(Kind::Circuit))? {
        let Some(circuit) = lead::<Circuit>(store, circuit_id, Kind::Circuit)? else {
            continue;
        };
        let clutches = profiles::clutches(store, id(circuit_id))?
            .into_iter()
            .map(|clutch| (clutch.name, clutch.coil));
        let all = [(circuit.name, circuit.coil)].into_iter().chain(clutches);
        found.extend(all.filter_map(|(name, limits)| {
            let limits = limits?;
            let any = limits.low_ohm.is_some() || limits.high_ohm.is_some();
            any.then_some(CoilOf { name, limits })
        }));
    }
    Ok(found)
}
