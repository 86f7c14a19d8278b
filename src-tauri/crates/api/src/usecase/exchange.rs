//! Passing work on, looking at what came, taking it in, and taking it out again.

use std::collections::{BTreeMap, BTreeSet};
use std::io::BufWriter;

use bundle::{BundleError, Checked, Manifest, Origin, Reader};
use chrono::{DateTime, Utc};
use journal::{DeviceId, SubjectId, VerifyError, body as journal_body};
use model::Kind;
use model::job::Job;
use model::person::Person;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use store::{Chosen, Held, Projector, Selection, Store, Watched};

use crate::app::to_json;
use crate::dto::{
    Audience, Brought, BundleJob, BundleLook, BundleMade, BundleMake, BundlePlan, BundleSigner,
    BundleTakeIn, BundleTaken, BundleThings, BundleUnknown, BundleValue, ImportEntry, ImportList,
    ImportName, Nothing, SignerAnswer, SignerDoubt, TypedPassphrase,
};
use crate::error::{ApiError, ErrorCode};
use crate::files::{Content, ENDING, Opened, limit, no_room};
use crate::journal_io::{author, id, kind_name, lead, moment, need, person, subject};
use crate::{App, ModelProjector, attachments, demo};

use super::inside::Inside;
use super::look;
use super::trust::{self, Answers, folded};

impl From<BundleError> for ApiError {
    fn from(error: BundleError) -> Self {
        let detail = error.to_string();
        let code = match &error {
            BundleError::Store(_) => {
                return match error {
                    BundleError::Store(error) => error.into(),
                    _ => Self::internal(detail),
                };
            }
            BundleError::NotABundle => ErrorCode::NotABundle,
            BundleError::Truncated => ErrorCode::BundleTruncated,
            BundleError::NewerFormat { .. } => ErrorCode::BundleNewer,
            BundleError::TooLarge(_) => ErrorCode::FileTooLarge,
            BundleError::Missing(member) if *member == bundle::SIGNATURE => {
                ErrorCode::BundleUnsigned
            }
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
            BundleError::Io(error) => return no_room(error),
            _ => ErrorCode::BundleDamaged,
        };
        Self::new(code)
            .with("detail", detail)
            .with("megabytes", limit() >> 20)
    }
}

/// What is counted of a bundle, beside its jobs.
pub(super) const THINGS: [Kind; 5] = [
    Kind::Unit,
    Kind::Stand,
    Kind::Instrument,
    Kind::Person,
    Kind::Test,
];

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
    let mut chosen = store.choose(&selection)?;
    let mut already_there = 0;
    if let Some(device) = &args.unseen_by {
        let device = trust::device(device, "unseen_by")?;
        // Of a device that never showed what it has, nothing is known, and all is sent.
        if let Some(seen) = trust::seen(&store, device)? {
            let total = chosen.records();
            chosen.leave_out(&seen, args.personal)?;
            already_there = count(total - chosen.records());
        }
    }
    let (left_out, left_out_text) = withhold(&mut chosen, args.personal, args.audience)?;
    let jobs = chosen.subjects_of(&kind_name(Kind::Job))?;
    let origin = Origin {
        author: person(author),
        key: store.device_key(),
        created: app.now(),
    };
    let mut out = app.files().spool()?;
    let mut pictures = attachments::outgoing(&store, &chosen)?;
    if !args.photos {
        pictures.stay();
    }
    let manifest = bundle::write_with(BufWriter::new(&mut out), &chosen, &mut pictures, &origin)?;
    let (photos, photo_bytes) = pictures.went();
    drop(chosen);
    drop(store);
    if let Some(passphrase) = &passphrase {
        // Slow on purpose, so the store is let go first.
        let mut sealed = app.files().spool()?;
        let open = Content::of(out).map_err(|error| no_room(&error))?;
        bundle::seal_into(open.open(), BufWriter::new(&mut sealed), passphrase)?;
        out = sealed;
    }
    let content = Content::of(out).map_err(|error| no_room(&error))?;
    let length = content.length();
    if length > limit() {
        return Err(ApiError::new(ErrorCode::FileTooLarge).with("megabytes", limit() >> 20));
    }
    let name = format!("{name}-{}.{ENDING}", app.clock().today());
    Ok(BundleMade {
        file: app.files().made(name.clone(), content),
        name,
        bytes: length,
        records: u32::try_from(manifest.counts.records).unwrap_or(u32::MAX),
        jobs: count(jobs),
        left_out,
        left_out_text,
        already_there,
        photos: count(photos),
        photo_bytes,
        sealed: passphrase.is_some(),
    })
}

/// Leaves out what this audience is not to get; says how many bodies about persons and how many
/// others.
fn withhold(
    chosen: &mut Chosen<'_>,
    personal: bool,
    audience: Audience,
) -> Result<(u32, u32), ApiError> {
    let (mut persons, mut texts) = (0, 0);
    if personal && audience == Audience::Colleague {
        return Ok((0, 0));
    }
    chosen.keep_bodies(|bytes, kinds| {
        if journal_body::is_personal(bytes) {
            persons += usize::from(!personal);
            return personal;
        }
        let told =
            audience == Audience::Stranger && kinds.iter().any(|kind| holds_text(kind, bytes));
        texts += usize::from(told);
        !told
    })?;
    Ok((count(persons), count(texts)))
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

/// Why a file can't be read as a bundle; whoever asks for the passphrase says of which file.
pub(super) fn refused(name: &str) -> impl Fn(BundleError) -> ApiError {
    move |error| match error {
        BundleError::Sealed => ApiError::from(error).with("name", name),
        error => error.into(),
    }
}

/// How often [`look`] goes through a file: to check all of it, then to see what it would bring.
const LOOKING_READS: usize = 2;

/// As [`LOOKING_READS`], of [`take_in`]: checked, then kept. Whether it brings anything is known at
/// its first new item.
const TAKING_IN_READS: usize = 2;

/// What long work on a file is measured by: its bytes, as often as they are read.
fn expect_passes(app: &App, content: &Content, passes: usize) {
    if let Some(watch) = app.watch() {
        let bytes = usize::try_from(content.length()).unwrap_or(usize::MAX);
        watch.expect(bytes.saturating_mul(passes));
    }
}

/// Looks at a bundle.
pub(crate) fn look(app: &App, args: BundleLook) -> Result<BundlePlan, ApiError> {
    let (name, content) = app.files().content(args.file)?;
    expect_passes(app, &content, LOOKING_READS);
    // Everything in it is believed after this, or it is refused.
    let read = Reader::default().read(content.open_watched(app.watch()));
    let checked = read.map_err(refused(&name))?;
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
    let (name, content) = app.files().content(file)?;
    expect_passes(app, &content, TAKING_IN_READS);
    let (mut inside, mut held) = (Inside::default(), Held::default());
    let opened = content.open_watched(app.watch());
    let read = Reader::default().read_records_watched(opened, &mut |item| {
        inside.note(item);
        held.note(item);
    });
    let checked = read.map_err(refused(&name))?;
    // Before the backup, so that a file that isn't answered for costs nothing.
    answered(&mut *app.store()?, &checked, &inside, &args.signers)?;
    app.back_up_before(store::Reason::BeforeImport)?;
    let mut store = app.store()?;
    // Asked again under the same guard as what is done: another call may have come between.
    let answers = answered(&mut store, &checked, &inside, &args.signers)?;
    let label = Label {
        name,
        made_by: inside.person(&store, SubjectId::from(checked.manifest().author))?,
        demo: false,
    };
    let here = store.attachments().ok();
    // Before the records that name them.
    let (applied, import) = attachments::incoming(
        here.as_ref(),
        |sink| Ok(checked.hand_over(sink)?),
        || Ok(store.take_in(&checked, &to_json(&label)?, app.now())?),
    )?;
    if let Some(watch) = app.watch() {
        watch.past_stopping();
    }
    trust::learn(&mut store, checked.courier().device(), &held)?;
    answers.keep(&mut store, app.now())?;
    // Erasures that came with it.
    store.scrub()?;
    drop(store);
    look::end(app, file);
    app.files().drop_file(file);
    Ok(BundleTaken {
        import,
        new_records: count(applied.new_records),
        erased: count(applied.erased_bodies),
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
        erased: 0,
    })
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

/// What a person said of the signers, if it is all that has to be said.
fn answered(
    store: &mut Store,
    checked: &Checked<Opened>,
    inside: &Inside,
    given: &[SignerAnswer],
) -> Result<Answers, ApiError> {
    let maker = Maker::of(checked);
    let mut signers = signers(store, &maker, inside, true)?;
    // What brings nothing needs no answer; to know may take a pass over all of it, so only where
    // somebody would be asked about.
    if signers.iter().any(|signer| signer.asks) && !store.would_gain(checked)? {
        signers = self::signers(store, &maker, inside, false)?;
    }
    Answers::check(store, &signers, given)
}

/// Who made a bundle.
pub(super) struct Maker<'a> {
    /// Whose signature says so; none: no signature does.
    pub courier: Option<DeviceId>,
    /// What it says itself.
    pub manifest: &'a Manifest,
}

impl<'a> Maker<'a> {
    fn of(checked: &'a Checked<Opened>) -> Self {
        Self {
            courier: Some(checked.courier().device()),
            manifest: checked.manifest(),
        }
    }
}

/// Who signed what the bundle holds, and about whom a person has to be asked.
pub(super) fn signers(
    store: &Store,
    maker: &Maker<'_>,
    inside: &Inside,
    brings_something: bool,
) -> Result<Vec<BundleSigner>, ApiError> {
    let mut people: BTreeMap<_, BTreeSet<String>> = BTreeMap::new();
    for &(device, author) in inside.authors() {
        let name = inside.person(store, SubjectId::from(author))?;
        if !name.is_empty() {
            people.entry(device).or_default().insert(name);
        }
    }
    let &Maker { courier, manifest } = maker;
    let mut devices: BTreeSet<_> = inside.signers().collect();
    devices.extend(courier);
    let met: BTreeSet<_> = store.devices()?.into_iter().map(|(id, _)| id).collect();
    let distrusted = trust::distrusted(store)?;
    let accepted = trust::accepted(store)?;
    let names = trust::names(store)?;
    let known = known_people(store)?;
    let courier_name = inside.person(store, SubjectId::from(manifest.author))?;
    let mut found = Vec::new();
    for device in devices {
        let own = device == store.device();
        let made_it = Some(device) == courier;
        let signed = inside.signed(device);
        let is_demo = !made_it && demo::made(device) && signed.iter().all(|it| it.demo);
        // The demo's keys are no secret, so they are known only by what they signed there.
        let met = met.contains(&device) && !demo::made(device);
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
        for commit in signed {
            let is_new = !store.holds_commit(commit.hash)?;
            let after = since.is_some_and(|since| commit.at >= since);
            signed_after += usize::from(after);
            new_after += usize::from(after && is_new);
            new += usize::from(is_new);
        }
        let made_after =
            made_it && brings_something && since.is_some_and(|it| manifest.created >= it);
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
            actions: count(signed.len()),
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

fn plan_of(
    store: &mut Store,
    name: String,
    checked: &Checked<Opened>,
) -> Result<BundlePlan, ApiError> {
    let mut inside = Inside::default();
    let brings = store.plan(&Watched::new(checked, |item| inside.note(item)))?;
    let signers = signers(store, &Maker::of(checked), &inside, !brings.is_nothing())?;
    let brings = &brings;

    let mut jobs = Vec::new();
    // A job has changed with any of its tests.
    let mut more: BTreeSet<_> = brings.changed_subjects.clone();
    for &test in inside.subjects_of(Kind::Test) {
        let touched =
            brings.new_subjects.contains(&test) || brings.changed_subjects.contains(&test);
        if touched {
            let its = inside.said(store, test, Kind::Test)?;
            more.extend(its.and_then(|test| test.job).map(subject));
        }
    }
    for &of in inside.subjects_of(Kind::Job) {
        let job = inside.said(store, of, Kind::Job)?;
        let vehicle = inside.said(store, of, Kind::JobVehicle)?;
        jobs.push(BundleJob {
            id: id(of),
            number: job.map(|job| job.number).unwrap_or_default(),
            vehicle: vehicle.unwrap_or_default().description,
            brought: if brings.new_subjects.contains(&of) {
                Brought::New
            } else if more.contains(&of) {
                Brought::Changed
            } else {
                Brought::Same
            },
        });
    }
    jobs.sort_by(|a, b| a.number.cmp(&b.number));

    let mut things = Vec::new();
    for kind in THINGS {
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
    let (withheld, withheld_text) = inside.withheld();
    let (photos, new_photos) = photos_of(store, checked, &inside)?;
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
        erases: count(brings.erased_bodies),
        refused: count(brings.refused_bodies),
        photos: count(photos),
        new_photos: count(new_photos),
        photo_bytes: checked.attachments().values().sum(),
        nothing_new: brings.is_nothing() && new_photos == 0,
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

/// How many photos a bundle has with pictures, and how many of these are not all here.
fn photos_of(
    store: &Store,
    checked: &Checked<Opened>,
    inside: &Inside,
) -> Result<(usize, usize), ApiError> {
    let here = match store.attachments() {
        Ok(attachments) => attachments.list()?,
        Err(_) => BTreeSet::new(),
    };
    let (mut all, mut new) = (0, 0);
    for named in inside.photos() {
        let brought = named
            .iter()
            .filter(|hash| checked.attachments().contains_key(hash.as_bytes()));
        let brought: Vec<_> = brought.collect();
        all += usize::from(!brought.is_empty());
        new += usize::from(brought.iter().any(|hash| !here.contains(hash)));
    }
    Ok((all, new))
}

fn made_at(checked: &Checked<Opened>) -> DateTime<Utc> {
    moment(checked.manifest().created)
}
