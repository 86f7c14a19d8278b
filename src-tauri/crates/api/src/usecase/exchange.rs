//! Passing work on, looking at what came, taking it in, and taking it out again.

use std::collections::{BTreeMap, BTreeSet};
use std::io::Cursor;

use bundle::{BundleError, Checked, Origin};
use chrono::{DateTime, Utc};
use journal::{SubjectId, VerifyError, body as journal_body};
use model::job::{Job, Vehicle};
use model::person::Person;
use model::{Id, Kind};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use store::{Projector, Selection, Store};

use crate::app::to_json;
use crate::dto::{
    Brought, BundleJob, BundleLook, BundleMade, BundleMake, BundlePlan, BundleSigner, BundleTaken,
    BundleThings, BundleUnknown, BundleValue, FileName, ImportEntry, ImportList, ImportName,
    Nothing, TypedPassphrase,
};
use crate::error::{ApiError, ErrorCode};
use crate::files::{ENDING, limit};
use crate::journal_io::{author, id, kind_name, lead, moment, need, person, subject};
use crate::{App, ModelProjector, demo};

impl From<BundleError> for ApiError {
    fn from(error: BundleError) -> Self {
        let detail = error.to_string();
        let code = match &error {
            BundleError::NotABundle => ErrorCode::NotABundle,
            BundleError::Truncated => ErrorCode::BundleTruncated,
            BundleError::NewerFormat { .. } => ErrorCode::BundleNewer,
            BundleError::TooLarge(_) => ErrorCode::FileTooLarge,
            BundleError::BadSignature
            | BundleError::Unbelievable(VerifyError::Signature(_) | VerifyError::Unsigned(_)) => {
                ErrorCode::BundleSignature
            }
            BundleError::Sealed => ErrorCode::BundleSealed,
            BundleError::WrongPassphrase => ErrorCode::WrongPassphrase,
            BundleError::CostlySeal => ErrorCode::SealTooCostly,
            BundleError::BrokenSeal => ErrorCode::SealBroken,
            BundleError::ShortPassphrase => {
                return Self::new(ErrorCode::ShortPassphrase)
                    .with("least", bundle::LEAST_CHARACTERS)
                    .at("passphrase");
            }
            BundleError::Io(_) => ErrorCode::Io,
            _ => ErrorCode::BundleDamaged,
        };
        Self::new(code)
            .with("detail", detail)
            .with("megabytes", limit() >> 20)
    }
}

/// What is kept beside an import.
#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Label {
    pub name: String,
    pub made_by: String,
    pub demo: bool,
}

/// Everything that these subjects need to be understood: their parts, what these name, and who
/// wrote them.
fn with_all_they_name(
    store: &Store,
    from: Vec<SubjectId>,
) -> Result<BTreeSet<SubjectId>, ApiError> {
    let mut found = BTreeSet::new();
    let mut open = from;
    while let Some(next) = open.pop() {
        if found.contains(&next) {
            continue;
        }
        // A part is passed on with the whole of what it belongs to.
        let mut root = next;
        let mut seen = BTreeSet::from([root]);
        while let Some(parent) = store.parent(root)?.filter(|parent| seen.insert(*parent)) {
            root = parent;
        }
        for part in store.descendants(root)?.into_iter().chain([next]) {
            if !found.insert(part) {
                continue;
            }
            for entry in store.records_of(part)? {
                let envelope = entry.stored.envelope();
                open.push(SubjectId::from(envelope.author));
                if let Some(body) = entry.stored.body() {
                    open.extend(ModelProjector.refers(&envelope.kind, body));
                }
            }
        }
    }
    Ok(found)
}

/// Makes a bundle.
pub(crate) fn make(app: &App, args: BundleMake) -> Result<BundleMade, ApiError> {
    let passphrase = args.passphrase.as_ref().map(TypedPassphrase::meant);
    if passphrase.as_ref().is_some_and(|it| !it.is_long_enough()) {
        return Err(BundleError::ShortPassphrase.into());
    }
    let store = app.store()?;
    let author = author(&store)?.ok_or_else(|| ApiError::new(ErrorCode::NoAuthor))?;
    let mut name = "shop".to_owned();
    let selection = match &args.jobs {
        None => Selection::Everything,
        Some(jobs) => {
            if jobs.is_empty() {
                return Err(ApiError::new(ErrorCode::BadRequest).at("jobs"));
            }
            for (i, job) in jobs.iter().enumerate() {
                let job: Job = need(&store, subject(*job), Kind::Job)?;
                if i == 0 {
                    name = format!("job-{}", plain(&job.number));
                }
            }
            let mut wanted = jobs.iter().copied().map(subject).collect::<Vec<_>>();
            // Whoever makes the bundle stands in its manifest.
            wanted.push(subject(author));
            Selection::Subjects(with_all_they_name(&store, wanted)?)
        }
    };
    let all = store.export(&selection, true)?;
    let total = all.bodies.len();
    let batch = if args.personal {
        all
    } else {
        store.export(&selection, false)?
    };
    let left_out = count(total - batch.bodies.len());
    let batch = batch.check().map_err(store::StoreError::from)?;
    let jobs: BTreeSet<_> = batch
        .records()
        .iter()
        .filter(|record| record.envelope().kind == kind_name(Kind::Job))
        .map(|record| record.envelope().subject)
        .collect();
    let origin = Origin {
        author: person(author),
        key: store.device_key(),
        created: app.now(),
    };
    let mut out = Cursor::new(Vec::new());
    bundle::write(&mut out, &batch, &origin)?;
    drop(store);
    let bytes = match &passphrase {
        // Slow on purpose, so the store is let go first.
        Some(passphrase) => bundle::seal(out.get_ref(), passphrase)?,
        None => out.into_inner(),
    };
    if bytes.len() as u64 > limit() {
        return Err(ApiError::new(ErrorCode::FileTooLarge).with("megabytes", limit() >> 20));
    }
    let name = format!("{name}-{}.{ENDING}", app.clock().today());
    let length = bytes.len() as u64;
    Ok(BundleMade {
        file: app.files().made(name.clone(), bytes),
        name,
        bytes: length,
        records: count(batch.records().len()),
        jobs: count(jobs.len()),
        left_out,
        sealed: passphrase.is_some(),
    })
}

/// What every file system takes as a name.
pub(crate) fn plain(text: &str) -> String {
    let plain = |c: char| {
        if c.is_alphanumeric() || c == '-' {
            c
        } else {
            '-'
        }
    };
    text.chars().take(40).map(plain).collect()
}

fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

/// Reads a file as a bundle: everything in it is believed after this, or it is refused.
fn checked(app: &App, args: FileName) -> Result<(String, Checked), ApiError> {
    let (name, bytes) = app.files().content(args.file)?;
    match bundle::read(&bytes) {
        // Whoever asks for the passphrase says of which file.
        Err(error @ BundleError::Sealed) => Err(ApiError::from(error).with("name", name)),
        read => Ok((name, read?)),
    }
}

/// Looks at a bundle.
pub(crate) fn look(app: &App, args: BundleLook) -> Result<BundlePlan, ApiError> {
    let (name, checked) = checked(app, args)?;
    let mut store = app.store()?;
    plan_of(&mut store, name, &checked)
}

/// Takes a bundle in.
pub(crate) fn take_in(app: &App, args: FileName) -> Result<BundleTaken, ApiError> {
    let (name, checked) = checked(app, args)?;
    app.back_up_before(store::Reason::BeforeImport)?;
    let mut store = app.store()?;
    let label = Label {
        name,
        made_by: Inside::of(&checked).person(&store, SubjectId::from(checked.manifest().author))?,
        demo: false,
    };
    let (applied, import) = store.take_in(checked.batch(), &to_json(&label)?, app.now())?;
    drop(store);
    app.files().drop_file(args.file);
    Ok(BundleTaken {
        import,
        new_records: count(applied.new_records),
    })
}

/// The imports that are here.
pub(crate) fn imports(app: &App, _: Nothing) -> Result<ImportList, ApiError> {
    let store = app.store()?;
    let imports: Vec<_> = store
        .imports()?
        .into_iter()
        .map(|import| {
            let label: Label = serde_json::from_str(&import.label).unwrap_or_default();
            ImportEntry {
                import: import.id,
                name: label.name,
                made_by: label.made_by,
                taken_in: moment(import.taken_in),
                records: u32::try_from(import.records).unwrap_or(u32::MAX),
                demo: label.demo,
            }
        })
        .collect();
    Ok(ImportList {
        demo: imports.iter().any(|import| import.demo) || demo::is_here(&store)?,
        imports,
    })
}

/// Takes an import out again.
pub(crate) fn remove(app: &App, args: ImportName) -> Result<Nothing, ApiError> {
    if app.store()?.remove_import(args.import)? {
        Ok(crate::table::DONE)
    } else {
        Err(ApiError::not_found("import", args.import))
    }
}

/// Brings the demo shop back.
pub(crate) fn bring_demo(app: &App, _: Nothing) -> Result<BundleTaken, ApiError> {
    let (new_records, import) = demo::load(&mut *app.store()?, app.now())?;
    Ok(BundleTaken {
        import,
        new_records: count(new_records),
    })
}

/// What a bundle says, before any of it is in the store.
struct Inside<'a> {
    checked: &'a Checked,
    /// The last record of a subject and kind, which is the one that leads but for odd clocks.
    last: BTreeMap<(SubjectId, &'a str), &'a [u8]>,
}

impl<'a> Inside<'a> {
    fn of(checked: &'a Checked) -> Self {
        let batch = checked.batch();
        let mut records: Vec<_> = batch.records().iter().collect();
        records.sort_by_key(|record| journal::fold::sort_key(record));
        let last = records
            .into_iter()
            .filter_map(|record| {
                let envelope = record.envelope();
                let body = batch.bodies().get(&envelope.body_hash)?;
                let body = journal_body::content(body);
                Some(((envelope.subject, envelope.kind.as_str()), body))
            })
            .collect();
        Self { checked, last }
    }

    /// As the bundle says, else as the store does.
    fn lead<T: DeserializeOwned>(
        &self,
        store: &Store,
        of: SubjectId,
        kind: Kind,
    ) -> Result<Option<T>, ApiError> {
        let inside = self.last.get(&(of, kind.name()));
        match inside.and_then(|body| serde_json::from_slice(body).ok()) {
            Some(found) => Ok(Some(found)),
            None => lead(store, of, kind),
        }
    }

    fn person(&self, store: &Store, of: SubjectId) -> Result<String, ApiError> {
        let person: Option<Person> = self.lead(store, of, Kind::Person)?;
        Ok(person.map(|person| person.name).unwrap_or_default())
    }

    /// What a subject is called: by its own name, or as a part of a job by the job's number.
    fn name(&self, store: &Store, of: SubjectId) -> Result<String, ApiError> {
        #[derive(Deserialize)]
        struct Named {
            #[serde(default)]
            name: String,
            #[serde(default)]
            number: String,
            job: Option<Id>,
        }
        let kinds = [Kind::Job, Kind::Test, Kind::Unit, Kind::Circuit, Kind::Bore];
        let others = [
            Kind::Person,
            Kind::Stand,
            Kind::Instrument,
            Kind::Shop,
            Kind::TestPoint,
        ];
        for kind in kinds.into_iter().chain(others) {
            if let Some(named) = self.lead::<Named>(store, of, kind)? {
                let job = match named.job {
                    Some(job) => self.lead::<Named>(store, subject(job), Kind::Job)?,
                    None => None,
                };
                let name = [
                    named.name,
                    named.number,
                    job.map(|j| j.number).unwrap_or_default(),
                ];
                return Ok(name
                    .into_iter()
                    .find(|name| !name.is_empty())
                    .unwrap_or_default());
            }
        }
        Ok(String::new())
    }

    fn subjects_of(&self, kind: Kind) -> BTreeSet<SubjectId> {
        let records = self.checked.batch().records().iter();
        records
            .map(journal::Record::envelope)
            .filter(|envelope| envelope.kind == kind_name(kind))
            .map(|envelope| envelope.subject)
            .collect()
    }
}

fn plan_of(store: &mut Store, name: String, checked: &Checked) -> Result<BundlePlan, ApiError> {
    let plan = bundle::plan(store, checked)?;
    let inside = Inside::of(checked);
    let brings = &plan.brings;
    let batch = checked.batch();

    let mut people: BTreeMap<_, BTreeSet<String>> = BTreeMap::new();
    for record in batch.records() {
        let envelope = record.envelope();
        let name = inside.person(store, SubjectId::from(envelope.author))?;
        if !name.is_empty() {
            people.entry(envelope.device).or_default().insert(name);
        }
    }
    let mut devices = brings.signers.clone();
    devices.entry(plan.courier).or_default();
    let signers = devices
        .into_iter()
        .map(|(device, actions)| BundleSigner {
            device: device.to_string(),
            people: people
                .remove(&device)
                .unwrap_or_default()
                .into_iter()
                .collect(),
            actions: count(actions),
            made_it: device == plan.courier,
            stranger: plan.strangers.contains(&device),
            own: device == store.device(),
        })
        .collect();

    let mut jobs = Vec::new();
    for of in inside.subjects_of(Kind::Job) {
        let job: Option<Job> = inside.lead(store, of, Kind::Job)?;
        let vehicle: Option<Vehicle> = inside.lead(store, of, Kind::JobVehicle)?;
        let tests = inside.subjects_of(Kind::Test);
        let mut more = brings.changed_subjects.contains(&of);
        for test in tests {
            let its: Option<model::bench::VacuumTest> = inside.lead(store, test, Kind::Test)?;
            let touched =
                brings.new_subjects.contains(&test) || brings.changed_subjects.contains(&test);
            more |= touched && its.is_some_and(|test| subject(test.job) == of);
        }
        jobs.push(BundleJob {
            id: id(of),
            number: job.map(|job| job.number).unwrap_or_default(),
            vehicle: vehicle.unwrap_or_default().description,
            brought: if brings.new_subjects.contains(&of) {
                Brought::New
            } else if more {
                Brought::Changed
            } else {
                Brought::Same
            },
        });
    }
    jobs.sort_by(|a, b| a.number.cmp(&b.number));

    let mut things = Vec::new();
    for kind in [
        Kind::Unit,
        Kind::Stand,
        Kind::Instrument,
        Kind::Person,
        Kind::Test,
    ] {
        let all = inside.subjects_of(kind);
        let new = all.intersection(&brings.new_subjects).count();
        if !all.is_empty() {
            things.push(BundleThings {
                kind: kind.name().to_owned(),
                new: count(new),
                known: count(all.len() - new),
            });
        }
    }
    let values = |set: &BTreeSet<(SubjectId, journal::Kind)>| {
        set.iter()
            .map(|(of, kind)| {
                Ok(BundleValue {
                    kind: kind.as_str().to_owned(),
                    of: inside.name(store, *of)?,
                })
            })
            .collect::<Result<Vec<_>, ApiError>>()
    };
    let withheld = batch
        .records()
        .iter()
        .filter(|record| !batch.bodies().contains_key(&record.envelope().body_hash))
        .count();
    Ok(BundlePlan {
        name,
        made_by: inside.person(store, SubjectId::from(checked.manifest().author))?,
        made_at: made_at(checked),
        signers,
        new_records: count(brings.new_records),
        same_records: count(brings.same_records),
        new_contents: count(brings.new_bodies),
        withheld: count(withheld),
        nothing_new: brings.is_nothing(),
        jobs,
        things,
        newer: values(&brings.newer)?,
        concurrent: values(&brings.concurrent)?,
        unknown: brings
            .unknown
            .iter()
            .map(|((kind, version), records)| BundleUnknown {
                kind: kind.as_str().to_owned(),
                version: *version,
                records: count(*records),
            })
            .collect(),
    })
}

fn made_at(checked: &Checked) -> DateTime<Utc> {
    moment(checked.manifest().created)
}
