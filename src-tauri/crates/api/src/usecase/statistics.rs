//! The shop's statistics: which repairs held.
//!
//! All of it is read from the summaries that the store keeps of each job (`crate::summary`), so
//! nothing is judged anew: what a call costs grows with the jobs that repaired something of what
//! is asked for, a line of JSON each, and with those that are comebacks, which are found by an
//! index of their own.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use chrono::{DateTime, NaiveDate};
use metrology::proportion::clopper_pearson;
use model::comeback::{Comeback, FaultAgain};
use model::repair::RepairOption;
use model::unit::Bore;
use model::{Finite, Id, Kind};
use store::{Store, Wanted};

use super::job::{count, unit_name};
use crate::App;
use crate::dto::{
    CaseComeback, CaseMeasured, CaseSpread, ComebackShare, GroupSummary, LEAST_CASES, RepairCase,
    RepairGroup, StatisticsGet, StatisticsView,
};
use crate::error::ApiError;
use crate::journal_io::{id, kind_name, lead, subject};
use crate::summary::{self, JobSummary, RepairLine};

/// Single cases that are told unless more are asked for.
const MOST: u32 = 100;
const CONFIDENCE: f64 = 0.95;

/// A job that is a comeback.
struct Later {
    job: Id,
    number: String,
    on: NaiveDate,
    said: Comeback,
}

/// The statistics.
pub(crate) fn get(app: &App, args: StatisticsGet) -> Result<StatisticsView, ApiError> {
    let store = app.store()?;
    let today = app.clock().today();
    let comebacks = comebacks(&store)?;
    let mut facets = vec![(summary::HAS_REPAIR, summary::YES.to_vec())];
    let ids = [(summary::UNIT, args.unit), (summary::REPAIRED, args.bore)];
    facets.extend(ids.into_iter().filter_map(|(name, wanted)| {
        let wanted = wanted?;
        Some((name, wanted.as_bytes().to_vec()))
    }));
    let mut names = Names::default();
    let mut cases: Vec<(Id, RepairCase)> = Vec::new();
    for (job, of) in jobs(&store, &facets)? {
        for line in &of.repaired {
            let wanted = args.bore.is_none_or(|bore| bore == line.bore)
                && args.option.is_none_or(|option| option == line.option);
            if wanted {
                let later = comebacks.get(&job).map_or(&[][..], Vec::as_slice);
                let bore_name = names.bore(&store, line.bore)?;
                let case = one(job, &of, line, later, bore_name, today);
                cases.push((of.job.unit, case));
            }
        }
    }
    // By the day, then by the repair: the same whatever came in first.
    cases.sort_by_key(|(_, case)| Reverse((case.on, case.repair)));
    let groups = groups(&store, &cases)?;
    let found = count(cases.len());
    let skip = args.skip as usize;
    let limit = args.limit.unwrap_or(MOST) as usize;
    let page = cases.into_iter().map(|(_, case)| case);
    Ok(StatisticsView {
        groups,
        cases: page.skip(skip).take(limit).collect(),
        found,
        least_cases: LEAST_CASES,
    })
}

fn jobs(store: &Store, facets: &[(&str, Vec<u8>)]) -> Result<Vec<(Id, JobSummary)>, ApiError> {
    let jobs = kind_name(Kind::Job);
    let wanted = Wanted {
        facets,
        ..Wanted::all(&jobs)
    };
    let lines = store.summaries(&wanted, 0, None)?.0;
    let read = |line: store::Listed| {
        let of = serde_json::from_str(&line.json).map_err(ApiError::internal)?;
        Ok((id(line.subject), of))
    };
    lines.into_iter().map(read).collect()
}

/// The comebacks by the job that they are of, oldest first.
fn comebacks(store: &Store) -> Result<BTreeMap<Id, Vec<Later>>, ApiError> {
    let mut found: BTreeMap<Id, Vec<Later>> = BTreeMap::new();
    for (job, of) in jobs(store, &[(summary::IS_COMEBACK, summary::YES.to_vec())])? {
        if let Some(said) = of.comeback
            && let Some(earlier) = said.earlier
        {
            found.entry(earlier).or_default().push(Later {
                job,
                number: of.job.number,
                on: of.job.opened_on,
                said,
            });
        }
    }
    for later in found.values_mut() {
        later.sort_by_key(|later| (later.on, later.job));
    }
    Ok(found)
}

fn one(
    job: Id,
    of: &JobSummary,
    line: &RepairLine,
    later: &[Later],
    bore_name: String,
    today: NaiveDate,
) -> RepairCase {
    let at = DateTime::from_timestamp_millis(line.at_ms).unwrap_or_default();
    let on = at.date_naive();
    let comeback = later
        .iter()
        .find(|later| later.job != job && later.said.counts_against(line.bore));
    let until = comeback.map_or(today, |later| later.on);
    let days = until.signed_duration_since(on).num_days().max(0);
    RepairCase {
        job,
        job_number: of.job.number.clone(),
        bore: line.bore,
        bore_name,
        repair: line.repair,
        option: line.option,
        on,
        before: line.before,
        after: line.after,
        watched_days: u32::try_from(days).unwrap_or(u32::MAX),
        comeback: comeback.map(|later| CaseComeback {
            job: later.job,
            job_number: later.number.clone(),
            on: later.on,
            fault: later.said.fault,
            bore_told: later.said.bore.is_some(),
        }),
    }
}

fn groups(store: &Store, cases: &[(Id, RepairCase)]) -> Result<Vec<RepairGroup>, ApiError> {
    let mut by: BTreeMap<(Id, Id, RepairOption), Vec<&RepairCase>> = BTreeMap::new();
    for (unit, case) in cases {
        by.entry((*unit, case.bore, case.option))
            .or_default()
            .push(case);
    }
    let mut found = Vec::new();
    for ((unit, bore, option), cases) in by {
        let came_back = cases.iter().filter_map(|case| case.comeback.as_ref());
        let not_told = |it: &&CaseComeback| it.fault == FaultAgain::NotKnown || !it.bore_told;
        found.push(RepairGroup {
            unit,
            unit_name: unit_name(store, unit)?,
            bore,
            bore_name: cases
                .first()
                .map(|case| case.bore_name.clone())
                .unwrap_or_default(),
            option,
            cases: count(cases.len()),
            came_back: count(came_back.clone().count()),
            not_told: count(came_back.filter(not_told).count()),
            summary: summed_up(&cases)?,
        });
    }
    found.sort_by(|a, b| {
        let name = |it: &RepairGroup| (it.unit_name.clone(), it.bore_name.clone());
        (b.cases, name(a), a.option, a.bore).cmp(&(a.cases, name(b), b.option, b.bore))
    });
    Ok(found)
}

/// What can be said of all together; nothing of a few.
fn summed_up(cases: &[&RepairCase]) -> Result<Option<GroupSummary>, ApiError> {
    let days = cases.iter().map(|case| f64::from(case.watched_days));
    let Some(watched_days) = spread(days.collect()) else {
        return Ok(None);
    };
    let came_back = count(cases.iter().filter(|case| case.comeback.is_some()).count());
    let share = clopper_pearson(came_back, count(cases.len()), CONFIDENCE);
    let share = share.map_err(ApiError::internal)?;
    let finite = |value| Finite::new(value).ok_or_else(|| ApiError::internal("share"));
    let of = |pick: &dyn Fn(&RepairCase) -> Option<Finite>| {
        spread(
            cases
                .iter()
                .filter_map(|case| pick(case))
                .map(|it| *it)
                .collect(),
        )
    };
    let gap = |test: Option<CaseMeasured>| test.and_then(|it| it.gap_factor_m3);
    Ok(Some(GroupSummary {
        share: ComebackShare {
            share: finite(share.share)?,
            low: finite(share.low)?,
            high: finite(share.high)?,
        },
        watched_days,
        vacuum_before_pa: of(&|case| case.before.map(|it| it.vacuum_pa)),
        vacuum_after_pa: of(&|case| case.after.map(|it| it.vacuum_pa)),
        gap_before_m3: of(&|case| gap(case.before)),
        gap_after_m3: of(&|case| gap(case.after)),
    }))
}

/// Median and range; none of too few.
fn spread(mut of: Vec<f64>) -> Option<CaseSpread> {
    if of.len() < LEAST_CASES as usize {
        return None;
    }
    of.sort_by(f64::total_cmp);
    let (low, high) = (of.first()?, of.last()?);
    let upper = of.get(of.len() / 2)?;
    let lower = of.get((of.len() - 1) / 2)?;
    Some(CaseSpread {
        cases: count(of.len()),
        low: Finite::new(*low)?,
        median: Finite::new(0.5 * (lower + upper))?,
        high: Finite::new(*high)?,
    })
}

/// Names of bores, each read once.
#[derive(Default)]
struct Names(BTreeMap<Id, String>);

impl Names {
    fn bore(&mut self, store: &Store, bore: Id) -> Result<String, ApiError> {
        if let Some(name) = self.0.get(&bore) {
            return Ok(name.clone());
        }
        let found: Option<Bore> = lead(store, subject(bore), Kind::Bore)?;
        let name = found.map(|bore| bore.name).unwrap_or_default();
        self.0.insert(bore, name.clone());
        Ok(name)
    }
}
