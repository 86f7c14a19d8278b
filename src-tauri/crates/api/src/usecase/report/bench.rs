//! What was done on one bore, as the report has it.

use std::collections::BTreeMap;

use model::bench::{Blank, Decision, Instrument, Reading, Setup, StandCheck};
use model::repair::Repair;
use model::{Finite, Id, Kind};
use report::{
    BoreInspection, BoreReport, CheckShown, DecisionLine, LeftOutShown, MachiningReport,
    OilCheckReport, Part, ReadingLine, ReliefReport, RepairReport, Stage, TapBesideLeak, TapLine,
    TapReport, TestReport,
};
use serde::de::DeserializeOwned;
use store::{HistoryEntry, Store, StoredRecord};

use super::{fate, recorded, written};
use crate::App;
use crate::dto::{BoreState, InspectionEntry, RepairStage, TestView};
use crate::error::ApiError;
use crate::journal_io::{body, kind_name, record_id, standing, subject};
use crate::usecase::job::tests_of_bore;
use crate::usecase::{inspection, machining, oil_check, relief, repair, tap, test};
use crate::{profiles, repairs};

/// One bore with everything on record about it in a job.
pub(super) fn bore(
    app: &App,
    store: &Store,
    job: Id,
    state: &BoreState,
) -> Result<BoreReport, ApiError> {
    let bore = state.bore;
    let on_record = repairs::of_bore(store, job, bore)?;
    let mut tests = Vec::new();
    for entry in tests_of_bore(store, job, bore)? {
        let after = on_record
            .iter()
            .any(|repair| !repair.body.tests_before.contains(&entry.test));
        let view = test::view(app, store, entry.test, None)?;
        tests.push(one_test(store, view, written(entry.begun), after)?);
    }
    let repaired = on_record
        .iter()
        .map(|it| one_repair(app, store, job, bore, it))
        .collect::<Result<_, _>>()?;
    Ok(BoreReport {
        profile: profiles::bore(store, bore)?,
        relief: relief_check(app, store, job, bore)?,
        machining: machined(app, store, job, bore)?,
        inspection: inspected(app, store, job, bore)?,
        repairs: repaired,
        tests,
        oil_checks: oil_checks(app, store, job, bore)?,
    })
}

/// The taps at which something was read in a job.
pub(super) fn taps(app: &App, store: &Store, job: Id) -> Result<Vec<TapReport>, ApiError> {
    let view = tap::view(app, store, job)?;
    let stands = standing(store, subject(job), Kind::TapReading)?;
    let gauges = view.instruments;
    let mut shown = Vec::new();
    for tap in view.taps {
        let mut readings = Vec::new();
        for entry in tap.readings {
            let of = |record: &&StoredRecord| record_id(record.id()) == entry.record;
            let Some(record) = stands.records.iter().find(of) else {
                continue;
            };
            let gauge = gauges
                .iter()
                .find(|gauge| Some(gauge.id) == entry.figures.gauge);
            readings.push(TapLine {
                gauge: gauge.map(|gauge| gauge.instrument.clone()),
                recorded: recorded(store, record)?,
                beside: entry.beside.map(|beside| TapBesideLeak {
                    bore_name: beside.bore_name,
                    verdict: beside.verdict,
                    predicted_pa: beside.predicted_pa,
                }),
                figures: entry.figures,
                answer: entry.answer,
            });
        }
        if !readings.is_empty() {
            shown.push(TapReport {
                tap: tap.body,
                circuit: tap.circuit_name,
                readings,
            });
        }
    }
    Ok(shown)
}

fn oil_checks(
    app: &App,
    store: &Store,
    job: Id,
    bore: Id,
) -> Result<Vec<OilCheckReport>, ApiError> {
    let mut shown = Vec::new();
    for check in repairs::oil_checks(store, job, bore)? {
        let view = oil_check::view(app, store, job, bore, Some(check.id), None)?;
        let named = |id: Option<Id>| {
            let found = view.instruments.iter().find(|it| Some(it.id) == id);
            found.map(|it| it.instrument.clone())
        };
        shown.push(OilCheckReport {
            feed_gauge: named(view.figures.feed_gauge),
            line_gauge: named(view.figures.line_gauge),
            thermometer: named(view.figures.thermometer),
            repair: view.repair,
            specified_pa: [view.specified_low_pa, view.specified_high_pa]
                .map(|end| end.map(Finite::get)),
            recorded: recorded(store, &check.record)?,
            figures: view.figures,
            answer: view.answer,
        });
    }
    Ok(shown)
}

fn inspected(
    app: &App,
    store: &Store,
    job: Id,
    bore: Id,
) -> Result<Option<BoreInspection>, ApiError> {
    let Some(found) = inspection::reported(app, store, job, bore)? else {
        return Ok(None);
    };
    Ok(Some(BoreInspection {
        card: found.card,
        checks: checks(store, found.entries, &found.instruments)?,
        left_out: found
            .left_out
            .into_iter()
            .map(|left| LeftOutShown {
                check: left.check,
                why: left.why,
            })
            .collect(),
    }))
}

/// The checks of the body and the case.
pub(super) fn body_checks(store: &Store, job: Id) -> Result<Vec<CheckShown>, ApiError> {
    let (entries, instruments) = inspection::reported_body(store, job)?;
    checks(store, entries, &instruments)
}

fn checks(
    store: &Store,
    entries: Vec<InspectionEntry>,
    instruments: &BTreeMap<Id, Instrument>,
) -> Result<Vec<CheckShown>, ApiError> {
    let mut shown = Vec::new();
    for entry in entries {
        let stands = standing(store, subject(entry.inspection), Kind::Inspection)?;
        let Some(record) = stands.lead() else {
            continue;
        };
        let mut named: Vec<Id> = Vec::new();
        for (_, id) in entry.record.found.instruments() {
            if !named.contains(&id) {
                named.push(id);
            }
        }
        shown.push(CheckShown {
            recorded: recorded(store, record)?,
            instruments: named
                .iter()
                .filter_map(|id| instruments.get(id).cloned())
                .collect(),
            outcome: entry.outcome,
            findings: entry.findings,
            record: entry.record,
        });
    }
    Ok(shown)
}

fn one_test(
    store: &Store,
    view: TestView,
    begun: report::Written,
    after_repair: bool,
) -> Result<TestReport, ApiError> {
    let history = store.records_of(subject(view.id))?;
    let leading = view
        .decision
        .as_ref()
        .map(|entry| (entry.record, entry.outdated));
    let of_kind = |kind: Kind| {
        let name = kind_name(kind);
        history
            .iter()
            .filter(move |entry| entry.stored.envelope().kind == name)
    };
    let decisions = of_kind(Kind::TestDecision)
        .map(|entry| {
            let record = record_id(entry.stored.id());
            Ok(DecisionLine {
                decision: body::<Decision>(&entry.stored),
                recorded: recorded(store, &entry.stored)?,
                fate: fate(entry.fate),
                outdated: leading == Some((record, true)),
            })
        })
        .collect::<Result<_, ApiError>>()?;
    let readings = as_taken(of_kind(Kind::TestReading).collect())
        .into_iter()
        .map(|entry| {
            Ok(ReadingLine {
                reading: body::<Reading>(&entry.stored),
                recorded: recorded(store, &entry.stored)?,
                fate: fate(entry.fate),
            })
        })
        .collect::<Result<_, ApiError>>()?;
    Ok(TestReport {
        id: view.id,
        begun,
        after_repair,
        setup: part::<Setup>(store, view.id, Kind::TestSetup)?,
        stand_check: part::<StandCheck>(store, view.id, Kind::TestStandCheck)?,
        blank: part::<Blank>(store, view.id, Kind::TestBlank)?,
        test_point: view.test_point,
        stand: view.stand,
        gauge: view.gauge,
        judgement: view.judgement,
        readings,
        decisions,
    })
}

/// In the order in which they were taken: a correction follows what it corrects.
fn as_taken(mut entries: Vec<&HistoryEntry>) -> Vec<&HistoryEntry> {
    entries.sort_by_key(|entry| entry.stored.envelope().clock);
    let place: BTreeMap<_, _> = entries
        .iter()
        .enumerate()
        .map(|(i, entry)| (entry.stored.id(), i))
        .collect();
    let first = |entry: &HistoryEntry| {
        let mut at = place.get(&entry.stored.id()).copied().unwrap_or_default();
        // A correction is later than what it corrects; a hostile one that isn't ends the search.
        while let Some(&older) = entries[at]
            .stored
            .envelope()
            .supersedes
            .first()
            .and_then(|id| place.get(id))
            .filter(|older| **older < at)
        {
            at = older;
        }
        at
    };
    let mut keyed: Vec<_> = entries
        .iter()
        .enumerate()
        .map(|(i, entry)| ((first(entry), i), *entry))
        .collect();
    keyed.sort_by_key(|(key, _)| *key);
    keyed.into_iter().map(|(_, entry)| entry).collect()
}

fn part<T: DeserializeOwned>(
    store: &Store,
    test: Id,
    kind: Kind,
) -> Result<Option<Part<T>>, ApiError> {
    let stands = standing(store, subject(test), kind)?;
    let Some(record) = stands.lead() else {
        return Ok(None);
    };
    let recorded = recorded(store, record)?;
    Ok(body(record).map(|body| Part { body, recorded }))
}

fn relief_check(
    app: &App,
    store: &Store,
    job: Id,
    bore: Id,
) -> Result<Option<ReliefReport>, ApiError> {
    let Some(check) = repairs::relief_check(store, job, bore)? else {
        return Ok(None);
    };
    let view = relief::view(app, store, job, bore, None)?;
    Ok(Some(ReliefReport {
        figures: view.figures,
        recorded: recorded(store, &check.record)?,
        answer: view.answer,
    }))
}

fn machined(
    app: &App,
    store: &Store,
    job: Id,
    bore: Id,
) -> Result<Option<MachiningReport>, ApiError> {
    let Some(on_record) = machining::of_bore(store, job, bore)? else {
        return Ok(None);
    };
    let view = machining::view(app, store, job, bore, None)?;
    let shops = inspection::shops_instruments(store)?;
    let name = |id: Option<Id>| {
        let found = id.and_then(|id| shops.get(&id));
        found.map_or_else(String::new, |found| found.name.clone())
    };
    let measured = view.sheet.measurements.iter();
    Ok(Some(MachiningReport {
        instruments: measured.map(|it| name(it.instrument)).collect(),
        recorded: recorded(store, &on_record.record)?,
        signed: view.signed,
        answer: view.answer,
        sheet: view.sheet,
    }))
}

fn one_repair(
    app: &App,
    store: &Store,
    job: Id,
    bore: Id,
    on_record: &repairs::Recorded<Repair>,
) -> Result<RepairReport, ApiError> {
    let view = repair::recorded(app, store, job, bore, on_record.id)?;
    Ok(RepairReport {
        id: on_record.id,
        work: on_record.body.work.clone(),
        recorded: recorded(store, &on_record.record)?,
        before: view.before.map(stage),
        forecast: view.forecast,
        after: view.after.map(stage),
        open: view.open,
        findings: view.findings,
    })
}

fn stage(stage: RepairStage) -> Stage {
    Stage {
        test: stage.test,
        begun: written(stage.begun),
        mean_vacuum_pa: stage.mean_vacuum_pa,
        decision: stage.decision,
        decided: stage.decided,
        consequence: stage.consequence,
    }
}
