//! Jobs that are comebacks of earlier ones. A person says which; what looks alike is only proposed.

use std::collections::BTreeSet;

use journal::SubjectId;
use model::comeback::Comeback;
use model::job::{Customer, Job, Vehicle};
use model::unit::Bore;
use model::{Id, Kind};
use store::{Store, Wanted};

use super::{on_record, put};
use crate::App;
use crate::dto::{
    AlikeBy, BoreEntry, ComebackOnRecord, ComebackRecord, ComebackSuggestion, ComebackSuggestions,
    HandoverGet, HandoverRecorded, JobName,
};
use crate::error::{ApiError, ErrorCode};
use crate::journal_io::{by, id, kind_name, lead, need, subject};
use crate::summary::{self, JobSummary};
use crate::usecase::erasure::plate_mark;

/// More than these are not proposed.
const MOST: usize = 20;

/// A job by its name; none: it isn't on this device.
fn name(store: &Store, job: Id) -> Result<Option<JobName>, ApiError> {
    let of = subject(job);
    let Some(found) = lead::<Job>(store, of, Kind::Job)? else {
        return Ok(None);
    };
    let vehicle: Option<Vehicle> = lead(store, of, Kind::JobVehicle)?;
    Ok(Some(JobName {
        job,
        number: found.number,
        opened_on: found.opened_on,
        vehicle: vehicle.unwrap_or_default().description,
    }))
}

/// What is said of a job.
pub(super) fn of_job(store: &Store, job: Id) -> Result<Option<ComebackOnRecord>, ApiError> {
    let found = on_record::<Comeback>(store, subject(job), Kind::JobComeback)?;
    let Some((record, comeback)) = found else {
        return Ok(None);
    };
    let Some(earlier) = comeback.earlier else {
        return Ok(None);
    };
    Ok(Some(ComebackOnRecord {
        earlier: name(store, earlier)?,
        by: by(store, &record)?,
        comeback,
    }))
}

/// The jobs that are said to be comebacks of one, oldest first: by the store's index.
pub(super) fn of_earlier(store: &Store, job: Id) -> Result<Vec<JobName>, ApiError> {
    let jobs = kind_name(Kind::Job);
    let facets = [(summary::COMEBACK_OF, job.as_bytes().to_vec())];
    let wanted = Wanted {
        facets: &facets,
        ..Wanted::all(&jobs)
    };
    let mut found = Vec::new();
    for line in store.summaries(&wanted, 0, None)?.0 {
        found.extend(name(store, id(line.subject))?);
    }
    found.sort_by(|a, b| (a.opened_on, &a.number, a.job).cmp(&(b.opened_on, &b.number, b.job)));
    Ok(found)
}

/// Says that a job is a comeback.
pub(crate) fn record_comeback(
    app: &App,
    args: ComebackRecord,
) -> Result<HandoverRecorded, ApiError> {
    let mut store = app.store()?;
    if let Some(earlier) = args.comeback.earlier {
        if earlier == args.job {
            return Err(ApiError::new(ErrorCode::BadRequest).at("earlier"));
        }
        need::<Job>(&store, subject(earlier), Kind::Job)?;
    }
    if let Some(bore) = args.comeback.bore {
        need::<Bore>(&store, subject(bore), Kind::Bore)?;
    }
    let kind = Kind::JobComeback;
    put(app, &mut store, args.job, kind, &args.comeback, Vec::new())
}

/// Earlier jobs with the same plate or the same vehicle in words, the newest first. Those of the
/// same vehicle in words come from the store's index of texts; customers are read one by one.
pub(crate) fn suggest(app: &App, args: HandoverGet) -> Result<ComebackSuggestions, ApiError> {
    let store = app.store()?;
    let of = subject(args.job);
    let job: Job = need(&store, of, Kind::Job)?;
    let mut found: Vec<(SubjectId, AlikeBy)> = Vec::new();
    let customer: Option<Customer> = lead(&store, of, Kind::JobCustomer)?;
    if let Some(plate) = customer.and_then(|it| plate_mark(&it.plate)) {
        for (other, stands) in store.standing_of_kind(&kind_name(Kind::JobCustomer))? {
            let theirs = stands.lead().and_then(crate::journal_io::body::<Customer>);
            if theirs.and_then(|it| plate_mark(&it.plate)) == Some(plate.clone()) {
                found.push((other, AlikeBy::Plate));
            }
        }
    }
    let vehicle: Option<Vehicle> = lead(&store, of, Kind::JobVehicle)?;
    let vehicle = folded(&vehicle.unwrap_or_default().description);
    let words: Vec<&str> = vehicle.split(' ').filter(|it| !it.is_empty()).collect();
    if !words.is_empty() {
        let jobs = kind_name(Kind::Job);
        let wanted = Wanted {
            words: &words,
            ..Wanted::all(&jobs)
        };
        for line in store.summaries(&wanted, 0, Some(10 * MOST))?.0 {
            let theirs: JobSummary =
                serde_json::from_str(&line.json).map_err(ApiError::internal)?;
            if folded(&theirs.vehicle) == vehicle {
                found.push((line.subject, AlikeBy::Vehicle));
            }
        }
    }
    let mut seen = BTreeSet::from([of]);
    let mut jobs = Vec::new();
    for (other, by) in found {
        // The plate is told first, and says more.
        if !seen.insert(other) {
            continue;
        }
        let Some(name) = name(&store, id(other))? else {
            continue;
        };
        if (name.opened_on, name.job) < (job.opened_on, args.job) {
            let repaired = repaired(&store, other)?;
            jobs.push(ComebackSuggestion { name, by, repaired });
        }
    }
    jobs.sort_by(|a, b| {
        let key = |it: &ComebackSuggestion| (it.name.opened_on, it.name.job);
        key(b).cmp(&key(a))
    });
    jobs.truncate(MOST);
    Ok(ComebackSuggestions { jobs })
}

fn folded(text: &str) -> String {
    let words: Vec<_> = text.split_whitespace().map(str::to_lowercase).collect();
    words.join(" ")
}

/// The bores that were repaired in a job.
fn repaired(store: &Store, job: SubjectId) -> Result<Vec<BoreEntry>, ApiError> {
    let mut bores = Vec::new();
    for of in store.children(job, &kind_name(Kind::Repair))? {
        let repair: Option<model::repair::Repair> = lead(store, of, Kind::Repair)?;
        let Some(repair) = repair else { continue };
        if bores.iter().any(|it: &BoreEntry| it.id == repair.bore) {
            continue;
        }
        let bore: Option<Bore> = lead(store, subject(repair.bore), Kind::Bore)?;
        bores.push(BoreEntry {
            id: repair.bore,
            name: bore.map(|bore| bore.name).unwrap_or_default(),
        });
    }
    Ok(bores)
}
