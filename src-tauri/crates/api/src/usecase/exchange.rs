//! Passing work on, looking at what came, taking it in, and taking it out again.

use std::collections::{BTreeMap, BTreeSet};
use std::io::Cursor;

use bundle::{BundleError, Checked, Origin};
use chrono::{DateTime, Utc};
use journal::{Batch, BodyHash, SubjectId, VerifyError, body as journal_body};
use model::job::{Job, Vehicle};
use model::person::Person;
use model::{Id, Kind};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use store::{Projector, Selection, Store};

use crate::app::to_json;
use crate::dto::{
    Audience, Brought, BundleJob, BundleLook, BundleMade, BundleMake, BundlePlan, BundleSigner,
    BundleTakeIn, BundleTaken, BundleThings, BundleUnknown, BundleValue, FileName, ImportEntry,
    ImportList, ImportName, Nothing, SignerDoubt, TypedPassphrase,
};
use crate::error::{ApiError, ErrorCode};
use crate::files::{ENDING, limit};
use crate::journal_io::{author, id, kind_name, lead, moment, need, person, subject};
use crate::{App, ModelProjector, demo};

use super::trust::{self, Answers, folded};

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
    let selection = match (&args.jobs, &args.units) {
        (None, None) => Selection::Everything,
        (jobs, units) => {
            for (field, chosen) in [("jobs", jobs), ("units", units)] {
                if chosen.as_ref().is_some_and(Vec::is_empty) {
                    return Err(ApiError::new(ErrorCode::BadRequest).at(field));
                }
            }
            let (jobs, units) = (jobs.iter().flatten(), units.iter().flatten());
            for (i, unit) in units.clone().enumerate() {
                let unit: model::unit::Unit = need(&store, subject(*unit), Kind::Unit)?;
                if i == 0 {
                    name = format!("unit-{}", plain(&unit.name));
                }
            }
            for (i, job) in jobs.clone().enumerate() {
                let job: Job = need(&store, subject(*job), Kind::Job)?;
                if i == 0 {
                    name = format!("job-{}", plain(&job.number));
                }
            }
            // A job names its unit, never a unit its jobs: they stay here unless asked for.
            let mut wanted = jobs.chain(units).copied().map(subject).collect::<Vec<_>>();
            // Whoever makes the bundle stands in its manifest.
            wanted.push(subject(author));
            Selection::Subjects(with_all_they_name(&store, wanted)?)
        }
    };
    let mut all = store.export(&selection, true)?;
    let mut already_there = 0;
    if let Some(device) = &args.unseen_by {
        let device = trust::device(device, "unseen_by")?;
        // Of a device that never showed what it has, nothing is known, and all is sent.
        if let Some(seen) = trust::seen(&store, device)? {
            let total = all.records.len();
            all = store.unseen(&seen, all, args.personal)?;
            already_there = count(total - all.records.len());
        }
    }
    let (batch, left_out, left_out_text) = withhold(all, args.personal, args.audience);
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
        left_out_text,
        already_there,
        sealed: passphrase.is_some(),
    })
}

/// Leaves out what this audience is not to get; says how many bodies about persons and how many
/// others.
fn withhold(mut batch: Batch, personal: bool, audience: Audience) -> (Batch, u32, u32) {
    let (mut persons, mut texts) = (0, 0);
    let mut kinds: BTreeMap<BodyHash, BTreeSet<&str>> = BTreeMap::new();
    for record in &batch.records {
        let envelope = record.envelope();
        kinds
            .entry(envelope.body_hash)
            .or_default()
            .insert(envelope.kind.as_str());
    }
    batch.bodies.retain(|bytes| {
        if journal_body::is_personal(bytes) {
            persons += usize::from(!personal);
            return personal;
        }
        let told = audience == Audience::Stranger
            && kinds
                .get(&BodyHash::of(bytes))
                .is_some_and(|kinds| kinds.iter().any(|kind| holds_text(kind, bytes)));
        texts += usize::from(told);
        !told
    });
    (batch, count(persons), count(texts))
}

/// Whether a body holds something in a person's own words. One that this program can't read may.
fn holds_text(kind: &str, body: &[u8]) -> bool {
    fn found(value: &Value, fields: &[&str]) -> bool {
        match value {
            Value::Object(inner) => inner.iter().any(|(name, value)| {
                let text = value.as_str().is_some_and(|text| !text.trim().is_empty());
                (text && fields.contains(&name.as_str())) || found(value, fields)
            }),
            Value::Array(inner) => inner.iter().any(|value| found(value, fields)),
            _ => false,
        }
    }
    match (Kind::of(kind), serde_json::from_slice(body)) {
        (Some(kind), Ok(value)) => found(&value, kind.free_text()),
        // A void may give a reason; most give none.
        (None, Ok(Value::Object(empty))) if kind == "void" => !empty.is_empty(),
        (None, _) if kind == "void" => !body.is_empty(),
        _ => true,
    }
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
///
/// # Errors
/// [`ErrorCode::SignerUnanswered`] and [`ErrorCode::SignerInDoubt`] unless each signer that asks is
/// answered for; nothing is taken in then.
pub(crate) fn take_in(app: &App, args: BundleTakeIn) -> Result<BundleTaken, ApiError> {
    let file = args.file;
    let (name, checked) = checked(app, FileName { file })?;
    {
        let mut store = app.store()?;
        let signers = signers_of(&mut store, &checked)?;
        Answers::check(&store, &signers, &args.signers)?;
    }
    app.back_up_before(store::Reason::BeforeImport)?;
    let mut store = app.store()?;
    // Asked again under the same guard as what is done: another call may have come between.
    let signers = signers_of(&mut store, &checked)?;
    let answers = Answers::check(&store, &signers, &args.signers)?;
    let label = Label {
        name,
        made_by: Inside::of(&checked).person(&store, SubjectId::from(checked.manifest().author))?,
        demo: false,
    };
    let (applied, import) = store.take_in(checked.batch(), &to_json(&label)?, app.now())?;
    trust::learn(&mut store, checked.courier().device(), checked.batch())?;
    answers.keep(&mut store, app.now())?;
    drop(store);
    app.files().drop_file(file);
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

/// The names of those whose work is here, but for the invented people of the demo shop: nobody
/// passes for them.
fn known_people(store: &Store) -> Result<BTreeSet<String>, ApiError> {
    let mut names = BTreeSet::new();
    for (device, people) in trust::authors(store)? {
        for one in people.into_iter().filter(|_| !demo::made(device)) {
            let person: Option<Person> = lead(store, one, Kind::Person)?;
            names.extend(person.map(|person| folded(&person.name)));
        }
    }
    Ok(names)
}

/// Who signed what the bundle holds, and about whom a person has to be asked.
fn signers_of(store: &mut Store, checked: &Checked) -> Result<Vec<BundleSigner>, ApiError> {
    let plan = bundle::plan(store, checked)?;
    signers(store, checked, &plan)
}

fn signers(
    store: &Store,
    checked: &Checked,
    plan: &bundle::Plan,
) -> Result<Vec<BundleSigner>, ApiError> {
    let inside = Inside::of(checked);
    let batch = checked.batch();
    let mut people: BTreeMap<_, BTreeSet<String>> = BTreeMap::new();
    for record in batch.records() {
        let envelope = record.envelope();
        let name = inside.person(store, SubjectId::from(envelope.author))?;
        if !name.is_empty() {
            people.entry(envelope.device).or_default().insert(name);
        }
    }
    let mut devices = plan.brings.signers.clone();
    devices.entry(plan.courier).or_default();
    let distrusted = trust::distrusted(store)?;
    let accepted = trust::accepted(store)?;
    let names = trust::names(store)?;
    let known = known_people(store)?;
    let courier_name = inside.person(store, SubjectId::from(checked.manifest().author))?;
    let brings_something = !plan.brings.is_nothing();
    let mut found = Vec::new();
    for (device, actions) in devices {
        let own = device == store.device();
        let made_it = device == plan.courier;
        let signed = || {
            let commits = batch.commits().iter();
            commits.filter(move |commit| commit.device() == device)
        };
        let is_demo = !made_it && demo::made(device) && signed().all(demo::holds);
        // The demo's keys are no secret, so they are known only by what they signed there.
        let met = !plan.strangers.contains(&device) && !demo::made(device);
        let stranger = !(own || is_demo || met || accepted.contains_key(&device));
        let mut people = people.remove(&device).unwrap_or_default();
        // Who says that they made the file says it with this device.
        let mut said = people.clone();
        said.extend((made_it && !courier_name.is_empty()).then(|| courier_name.clone()));
        if people.is_empty() && made_it {
            people.clone_from(&said);
        }
        let poses_as: Vec<_> = said
            .into_iter()
            .filter(|name| stranger && known.contains(&folded(name)))
            .collect();
        let since = distrusted.get(&device).copied();
        let (mut signed_after, mut new_after, mut new) = (0, 0, 0);
        for commit in signed() {
            let is_new = !store.holds_commit(commit)?;
            let after = since.is_some_and(|since| commit.wall_time() >= since);
            signed_after += usize::from(after);
            new_after += usize::from(after && is_new);
            new += usize::from(is_new);
        }
        let made_after =
            made_it && brings_something && since.is_some_and(|it| checked.manifest().created >= it);
        let mut doubts = Vec::new();
        if !poses_as.is_empty() {
            doubts.push(SignerDoubt::KnownNameUnknownKey);
        }
        if new_after > 0 || made_after {
            doubts.push(SignerDoubt::NotTrusted);
        }
        if own && new > 0 {
            doubts.push(SignerDoubt::OwnKeyElsewhere);
        }
        found.push(BundleSigner {
            device: device.to_string(),
            name: names.get(&device).cloned().unwrap_or_default(),
            poses_as,
            people: people.into_iter().collect(),
            actions: count(actions),
            made_it,
            stranger,
            own,
            demo: is_demo,
            // What brings nothing needs no answer.
            asks: brings_something && (stranger || !doubts.is_empty()),
            doubts,
            distrusted_since: since.map(moment),
            signed_after: count(signed_after),
        });
    }
    Ok(found)
}

fn plan_of(store: &mut Store, name: String, checked: &Checked) -> Result<BundlePlan, ApiError> {
    let plan = bundle::plan(store, checked)?;
    let signers = signers(store, checked, &plan)?;
    let inside = Inside::of(checked);
    let brings = &plan.brings;
    let batch = checked.batch();

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
        .map(journal::Record::envelope)
        .filter(|envelope| !batch.bodies().contains_key(&envelope.body_hash));
    let personal = |kind: &journal::Kind| Kind::of(kind.as_str()).is_some_and(Kind::personal);
    let withheld_text = withheld.clone().filter(|it| !personal(&it.kind)).count();
    let withheld = withheld.count();
    Ok(BundlePlan {
        name,
        made_by: inside.person(store, SubjectId::from(checked.manifest().author))?,
        made_at: made_at(checked),
        signers,
        new_records: count(brings.new_records),
        same_records: count(brings.same_records),
        new_contents: count(brings.new_bodies),
        withheld: count(withheld),
        withheld_text: count(withheld_text),
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
