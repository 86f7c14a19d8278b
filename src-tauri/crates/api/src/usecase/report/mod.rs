//! The printable report of a job: everything on record about it, handed to the report's own crate.

mod bench;
mod handover;
mod locale;
mod parts;
mod photos;

use chrono::{FixedOffset, Local};
use journal::{Kind as KindName, SubjectId};
use model::Kind;
use model::caution::CAR_HAZARDS;
use model::job::{Complaint, Customer, Job, Notes, Vehicle};
use model::person::{Person, Shop};
use report::{BoreReport, Caution, Personal, Recorded, Report, Shown, Withheld, Written};
use serde::de::DeserializeOwned;
use store::{Store, StoredRecord};

use crate::App;
use crate::dto::{ReadBy, ReportFormat, ReportMade, ReportVersion, ReportWrite};
use crate::error::{ApiError, ErrorCode};
use crate::files::limit;
use crate::journal_io::{author, body, by, lead, record_id, standing, subject};
use crate::usecase::erasure::taken_by;
use crate::usecase::exchange::plain;
use crate::usecase::{job, shop};

/// Writes the report.
pub(crate) fn write(app: &App, args: ReportWrite) -> Result<ReportMade, ApiError> {
    let store = app.store()?;
    let report = describe(app, &store, &args)?;
    drop(store);
    let version = match args.version {
        ReportVersion::Technical => report::Version::Technical,
        ReportVersion::Customer => report::Version::Customer,
    };
    let bytes = match args.format {
        ReportFormat::Html => report::html(&report, version).into_bytes(),
        ReportFormat::Pdf => typeset::pdf(&report, version).map_err(|error| {
            ApiError::new(ErrorCode::ReportNotSet).with("detail", error.to_string())
        })?,
    };
    if bytes.len() as u64 > limit() {
        return Err(ApiError::new(ErrorCode::FileTooLarge).with("megabytes", limit() >> 20));
    }
    let name = name(&report.number, &args, &app.clock().today().to_string());
    let length = bytes.len() as u64;
    Ok(ReportMade {
        file: app.files().made_of(name.clone(), &bytes)?,
        name,
        bytes: length,
    })
}

/// Number, for whom, day, kind of file.
fn name(number: &str, args: &ReportWrite, today: &str) -> String {
    let whose = match args.version {
        ReportVersion::Technical => "",
        ReportVersion::Customer => "-customer",
    };
    let ending = match args.format {
        ReportFormat::Html => "html",
        ReportFormat::Pdf => "pdf",
    };
    format!("job-{}{whose}-{today}.{ending}", plain(number))
}

fn describe(app: &App, store: &Store, args: &ReportWrite) -> Result<Report, ApiError> {
    let of = subject(args.job);
    let view = job::view(store, args.job)?;
    let settings = shop::settings(store)?;
    let shop = shop::all::<Shop>(store, Kind::Shop)?.into_iter().next();
    let maker: Option<Person> = match author(store)? {
        Some(author) => lead(store, subject(author), Kind::Person)?,
        None => None,
    };
    let digest = store.digest()?;
    let photos = photos::of_job(store, args.job, args.personal)?;
    let bores = view.bores.iter();
    let bores: Vec<BoreReport> = bores
        .map(|bore| bench::bore(app, store, args.job, bore))
        .collect::<Result<_, _>>()?;
    let handover = handover::of_job(store, args.job, args.personal)?;
    let job: Job = view.job;
    // Those of the car and the oil bench where they were read; nobody needs them otherwise.
    let mut hazards = view.hazards;
    for state in job::hazards_of(store, of, &CAR_HAZARDS)? {
        if state.read.is_some() && hazards.iter().all(|known| known.hazard != state.hazard) {
            hazards.push(state);
        }
    }
    Ok(Report {
        shown: Shown {
            units: locale::units(&settings),
            decimal_comma: settings
                .locale
                .as_deref()
                .or(args.locale.as_deref())
                .is_some_and(locale::has_decimal_comma),
        },
        demo: shop.as_ref().is_some_and(|(_, shop)| shop.demo),
        shop: shop.map(|(_, shop)| shop.name).unwrap_or_default(),
        made: Written {
            by: maker.map(|person| person.name).unwrap_or_default(),
            at: here(app.clock().now()),
        },
        program: env!("CARGO_PKG_VERSION").to_owned(),
        store_digest: digest
            .whole
            .iter()
            .map(|byte| format!("{byte:02x}"))
            .collect(),
        device: store.device().to_string(),
        job: args.job,
        number: job.number,
        opened_on: job.opened_on,
        opened_by: view.opened_by,
        unit: view.unit_name,
        vehicle: kept::<Vehicle>(store, of, Kind::JobVehicle)?,
        complaint: kept::<Complaint>(store, of, Kind::JobComplaint)?.map(|it| it.text),
        notes: kept::<Notes>(store, of, Kind::JobNotes)?.map(|it| it.text),
        customer: customer(store, of, args.personal)?,
        cautions: hazards
            .into_iter()
            .map(|state| Caution {
                hazard: state.hazard,
                read: state.read.map(written),
            })
            .collect(),
        shop_parts: parts::of_work(store, &bores, &handover)?,
        bores,
        body_checks: bench::body_checks(store, args.job)?,
        photos: photos.shown,
        photos_left_out: photos.left_out,
        handover,
        findings: view.findings,
        withheld: withheld(store, of)?,
        taps: bench::taps(app, store, args.job)?,
    })
}

/// A moment in the time of this place.
fn here(at: chrono::DateTime<chrono::Utc>) -> chrono::DateTime<FixedOffset> {
    at.with_timezone(&Local).fixed_offset()
}

fn written(by: ReadBy) -> Written {
    Written {
        by: by.by,
        at: here(by.at),
    }
}

fn recorded(store: &Store, record: &StoredRecord) -> Result<Recorded, ApiError> {
    Ok(Recorded {
        record: record_id(record.id()),
        written: written(by(store, record)?),
    })
}

/// What stands: empty when nothing was recorded, none when it was and its content isn't here.
fn kept<T: DeserializeOwned + Default>(
    store: &Store,
    of: SubjectId,
    kind: Kind,
) -> Result<Option<T>, ApiError> {
    Ok(match standing(store, of, kind)?.lead() {
        None => Some(T::default()),
        Some(record) => body(record),
    })
}

fn customer(store: &Store, of: SubjectId, personal: bool) -> Result<Personal, ApiError> {
    let stands = standing(store, of, Kind::JobCustomer)?;
    let Some(record) = stands.lead() else {
        return Ok(Personal::NotRecorded);
    };
    Ok(match (body::<Customer>(record), personal) {
        (None, _) if taken_by(store, record)?.is_some() => Personal::Erased,
        (None, _) => Personal::Withheld,
        (Some(customer), _) if customer == Customer::default() => Personal::NotRecorded,
        (Some(_), false) => Personal::LeftOut,
        (Some(customer), true) => Personal::Shown(customer),
    })
}

/// Every record of the job whose content isn't here, or is of a form that this program can't read.
fn withheld(store: &Store, job: SubjectId) -> Result<Vec<Withheld>, ApiError> {
    let mut found = Vec::new();
    let mut subjects = store.descendants(job)?;
    if !subjects.contains(&job) {
        subjects.insert(0, job);
    }
    for of in subjects {
        for entry in store.records_of(of)? {
            let envelope = entry.stored.envelope();
            if envelope.kind == KindName::VOID {
                continue;
            }
            let name = envelope.kind.as_str();
            let known = Kind::of(name).is_some_and(|kind| envelope.kind_version <= kind.version());
            let kind = match (entry.stored.body(), known) {
                (None, _) => name.to_owned(),
                (Some(_), false) => format!("{name}, written by a newer version of the program"),
                (Some(_), true) => continue,
            };
            found.push(Withheld {
                kind,
                recorded: recorded(store, &entry.stored)?,
            });
        }
    }
    Ok(found)
}

/// The fate of a record, as a reader needs it.
fn fate(fate: journal::fold::Fate) -> report::Fate {
    match fate {
        journal::fold::Fate::Stands => report::Fate::Stands,
        journal::fold::Fate::Replaced => report::Fate::Corrected,
        journal::fold::Fate::Voided => report::Fate::Struck,
    }
}
