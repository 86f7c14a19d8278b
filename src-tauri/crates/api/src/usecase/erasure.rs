//! What is held about a customer, erasing it, and proving that it is gone.

use std::collections::{BTreeMap, BTreeSet};
use std::io::BufWriter;

use bundle::{Origin, Reader};
use journal::erasure::{Erased, takes};
use journal::{AttachmentHash, Batch, Kind as KindName, SubjectId};
use model::authorisation::Authorisation;
use model::bench::Decision;
use model::job::{Complaint, Customer, Job, Notes, Vehicle};
use model::photo::Photo;
use model::repair::Repair;
use model::{Id, Kind};
use store::{Backup, Item, Items, Needles, Reason, Selection, Store, StoreError, StoredRecord};

use crate::App;
use crate::dto::{
    BackupDrop, BackupDropped, CustomerErase, CustomerErased, CustomerHeld, CustomerHeldGet,
    ErasedJob, ErasedPart, ErasureEntry, ErasureList, ErasureLook, GoesOfKind, HeldElsewhere,
    HeldJob, HeldPhoto, HeldText, Nothing, OlderCopy, PlaceKind, Proof, ProofPlace, SameBy,
    StillSaid,
};
use crate::error::{ApiError, ErrorCode};
use crate::files::{Content, no_room};
use crate::journal_io::{
    author, body, by, id, kind_name, lead, moment, need, person, record_id, standing, subject,
};
use crate::usecase::backup::{entry, job_of, reason};
use crate::usecase::job::count;

/// How a customer is told: what two entries of one person have in common.
#[derive(Debug, Default)]
struct Marks {
    names: BTreeSet<String>,
    phones: BTreeSet<String>,
    plates: BTreeSet<String>,
}

/// Fewer digits are an extension or a slip.
const LEAST_DIGITS: usize = 5;
const TOLD_DIGITS: usize = 7;
const LEAST_OF_PLATE: usize = 3;
/// A part of a name that says whom it means.
const LEAST_OF_NAME: usize = 4;

/// A name without its case and with single spaces.
fn folded(text: &str) -> String {
    let words: Vec<_> = text.split_whitespace().map(str::to_lowercase).collect();
    words.join(" ")
}

/// The last digits of a number: what is left when one person writes the country or the trunk
/// prefix and another doesn't.
fn phone_mark(text: &str) -> Option<String> {
    let digits = digits(text);
    let from = digits.len().saturating_sub(TOLD_DIGITS);
    (digits.len() >= LEAST_DIGITS).then(|| digits[from..].to_owned())
}

fn digits(text: &str) -> String {
    text.chars().filter(char::is_ascii_digit).collect()
}

/// A plate's letters and digits.
pub(super) fn plate_mark(text: &str) -> Option<String> {
    let plate: String = text.chars().filter(|c| c.is_alphanumeric()).collect();
    (plate.chars().count() >= LEAST_OF_PLATE).then(|| plate.to_uppercase())
}

impl Marks {
    fn add(&mut self, customer: &Customer) {
        let name = folded(&customer.name);
        if !name.is_empty() {
            self.names.insert(name);
        }
        self.phones.extend(phone_mark(&customer.phone));
        self.plates.extend(plate_mark(&customer.plate));
    }

    fn same_by(&self, other: &Self) -> BTreeSet<SameBy> {
        let meets = |a: &BTreeSet<String>, b: &BTreeSet<String>| !a.is_disjoint(b);
        [
            (SameBy::Name, meets(&self.names, &other.names)),
            (SameBy::Phone, meets(&self.phones, &other.phones)),
            (SameBy::Plate, meets(&self.plates, &other.plates)),
        ]
        .into_iter()
        .filter_map(|(by, same)| same.then_some(by))
        .collect()
    }

    /// Whether words name the customer: the whole name, a long part of it, telephone or plate.
    fn are_in(&self, text: &str) -> bool {
        let plain = folded(text);
        let words: BTreeSet<&str> = plain
            .split(|c: char| !c.is_alphanumeric())
            .filter(|word| !word.is_empty())
            .collect();
        let named = self.names.iter().any(|name| {
            plain.contains(name.as_str())
                || name
                    .split(|c: char| !c.is_alphanumeric())
                    .any(|part| part.chars().count() >= LEAST_OF_NAME && words.contains(part))
        });
        let number = digits(text);
        let plate: String = text.chars().filter(|c| c.is_alphanumeric()).collect();
        let plate = plate.to_uppercase();
        named
            || self.phones.iter().any(|phone| number.contains(phone))
            || self.plates.iter().any(|mark| plate.contains(mark))
    }
}

/// Everything ever written down of customers, by job, in the order in which it came.
fn ever_written(store: &Store) -> Result<BTreeMap<SubjectId, Vec<Customer>>, ApiError> {
    let mut found: BTreeMap<_, Vec<Customer>> = BTreeMap::new();
    for record in store.ever_said(&kind_name(Kind::JobCustomer))? {
        if let Some(customer) = body::<Customer>(&record) {
            found
                .entry(record.envelope().subject)
                .or_default()
                .push(customer);
        }
    }
    Ok(found)
}

/// What is held about a job's customer.
pub(crate) fn held(app: &App, args: CustomerHeldGet) -> Result<CustomerHeld, ApiError> {
    let store = app.store()?;
    let asked = subject(args.job);
    need::<Job>(&store, asked, Kind::Job)?;
    let written = ever_written(&store)?;
    let marks_of = |of: &SubjectId| {
        let mut marks = Marks::default();
        written
            .get(of)
            .into_iter()
            .flatten()
            .for_each(|one| marks.add(one));
        marks
    };
    let marks = marks_of(&asked);
    let mut photos = personal_photos(&store)?;
    let mut jobs = vec![held_job(
        &store,
        asked,
        &marks,
        &written,
        BTreeSet::new(),
        photos.remove(&asked).unwrap_or_default(),
    )?];
    let mut others = Vec::new();
    for of in written.keys().filter(|of| **of != asked) {
        let same = marks.same_by(&marks_of(of));
        if !same.is_empty() && lead::<Job>(&store, *of, Kind::Job)?.is_some() {
            let photos = photos.remove(of).unwrap_or_default();
            others.push(held_job(&store, *of, &marks, &written, same, photos)?);
        }
    }
    others.sort_by(|a, b| (a.opened_on, &a.number).cmp(&(b.opened_on, &b.number)));
    jobs.extend(others);
    Ok(CustomerHeld { jobs })
}

fn held_job(
    store: &Store,
    of: SubjectId,
    marks: &Marks,
    written: &BTreeMap<SubjectId, Vec<Customer>>,
    same_by: BTreeSet<SameBy>,
    photos: Vec<HeldPhoto>,
) -> Result<HeldJob, ApiError> {
    let job: Job = need(store, of, Kind::Job)?;
    let vehicle: Option<Vehicle> = lead(store, of, Kind::JobVehicle)?;
    let complaint: Option<Complaint> = lead(store, of, Kind::JobComplaint)?;
    let notes: Option<Notes> = lead(store, of, Kind::JobNotes)?;
    let all = written.get(&of).map_or(&[][..], Vec::as_slice);
    let mut customers: Vec<Customer> = Vec::new();
    for customer in all.iter().rev() {
        if *customer != Customer::default() && !customers.contains(customer) {
            customers.push(customer.clone());
        }
    }
    Ok(HeldJob {
        job: id(of),
        number: job.number,
        opened_on: job.opened_on,
        vehicle: vehicle.unwrap_or_default().description,
        same_by: same_by.into_iter().collect(),
        customers,
        customer_records: count(all.len()),
        authorisations: authorisations(store, of)?,
        complaint: held_text(
            store,
            of,
            Kind::JobComplaint,
            complaint.map(|it| it.text),
            marks,
        )?,
        notes: held_text(store, of, Kind::JobNotes, notes.map(|it| it.text), marks)?,
        elsewhere: elsewhere(store, of, marks, &photos)?,
        photos,
    })
}

/// What was ever written down of a job's authorisation, the latest first.
fn authorisations(store: &Store, of: SubjectId) -> Result<Vec<Authorisation>, ApiError> {
    let records = store.erasable(&[whole(of, &[Kind::JobAuthorisation])])?;
    Ok(records.iter().rev().filter_map(body).collect())
}

/// The photos that may show a person, by job, oldest first: those of which that stands, and those
/// that were removed and of which it was ever said. Their words and pictures are kept for undo.
fn personal_photos(store: &Store) -> Result<BTreeMap<SubjectId, Vec<HeldPhoto>>, ApiError> {
    let mut ever: BTreeMap<SubjectId, Vec<Photo>> = BTreeMap::new();
    for record in store.ever_said(&kind_name(Kind::Photo))? {
        if let Some(photo) = body::<Photo>(&record) {
            ever.entry(record.envelope().subject)
                .or_default()
                .push(photo);
        }
    }
    let mut found: BTreeMap<_, Vec<HeldPhoto>> = BTreeMap::new();
    for (of, all) in ever {
        let records = standing(store, of, Kind::Photo)?.records;
        let removed = records.is_empty();
        let stands: Vec<Photo> = records.iter().filter_map(body).collect();
        let said = if removed { &all } else { &stands };
        if !said.iter().any(|photo| photo.shows.is_personal()) {
            continue;
        }
        if let Some(photo) = said.last() {
            found
                .entry(subject(photo.job))
                .or_default()
                .push(HeldPhoto {
                    photo: id(of),
                    caption: photo.caption.clone(),
                    taken_at: photo.taken_at,
                    removed,
                    records: count(all.len()),
                });
        }
    }
    for photos in found.values_mut() {
        photos.sort_by_key(|held| (held.taken_at, held.photo));
    }
    Ok(found)
}

fn held_text(
    store: &Store,
    of: SubjectId,
    kind: Kind,
    now: Option<String>,
    marks: &Marks,
) -> Result<Option<HeldText>, ApiError> {
    let records = store.erasable(&[whole(of, &[kind])])?;
    let names = |record: &StoredRecord| {
        body::<Notes>(record).is_some_and(|notes| marks.are_in(&notes.text))
    };
    Ok((!records.is_empty()).then(|| HeldText {
        text: now.unwrap_or_default(),
        records: count(records.len()),
        names_customer: records.iter().any(names),
    }))
}

/// Words of tests, repairs and photos that stay and name the customer.
fn elsewhere(
    store: &Store,
    job: SubjectId,
    marks: &Marks,
    going: &[HeldPhoto],
) -> Result<Vec<HeldElsewhere>, ApiError> {
    let mut found = BTreeSet::new();
    for part in store.descendants(job)? {
        if going.iter().any(|held| subject(held.photo) == part) {
            continue;
        }
        for entry in store.records_of(part)? {
            let texts = match Kind::of(entry.stored.envelope().kind.as_str()) {
                Some(Kind::TestDecision) => {
                    body::<Decision>(&entry.stored).map(|decision| vec![decision.note])
                }
                Some(Kind::Repair) => body::<Repair>(&entry.stored)
                    .map(|repair| vec![repair.work.notes, repair.work.parts]),
                Some(Kind::Photo) => body::<Photo>(&entry.stored).map(|photo| vec![photo.caption]),
                Some(
                    Kind::JobEstimate
                    | Kind::JobFitted
                    | Kind::JobWarranty
                    | Kind::JobSignOff
                    | Kind::JobComeback,
                ) => entry.stored.body().map(said),
                _ => None,
            };
            let kind = entry.stored.envelope().kind.as_str();
            found.extend(
                texts
                    .into_iter()
                    .flatten()
                    .filter(|text| marks.are_in(text))
                    .map(|text| (kind.to_owned(), text)),
            );
        }
    }
    let told = |(kind, text)| HeldElsewhere { kind, text };
    Ok(found.into_iter().map(told).collect())
}

fn whole(of: SubjectId, kinds: &[Kind]) -> Erased {
    Erased {
        subject: of,
        kinds: kinds.iter().map(|kind| kind_name(*kind)).collect(),
    }
}

/// Erases, looks for what was erased, and says where it was looked for.
pub(crate) fn erase(app: &App, args: CustomerErase) -> Result<CustomerErased, ApiError> {
    if args.jobs.is_empty() {
        return Err(ApiError::new(ErrorCode::BadRequest).at("jobs"));
    }
    // A backup that is being made would hold half of each.
    app.backing_up().wait();
    let mut store = app.store()?;
    let mut about = Vec::new();
    let mut photos = personal_photos(&store)?;
    for one in &args.jobs {
        need::<Job>(&store, subject(one.job), Kind::Job)?;
        let mut kinds = vec![Kind::JobCustomer, Kind::JobAuthorisation];
        kinds.extend(one.complaint.then_some(Kind::JobComplaint));
        kinds.extend(one.notes.then_some(Kind::JobNotes));
        about.push(whole(subject(one.job), &kinds));
        for held in photos.remove(&subject(one.job)).unwrap_or_default() {
            about.push(whole(subject(held.photo), &[Kind::Photo]));
        }
    }
    let mut goes: BTreeMap<String, u32> = BTreeMap::new();
    let mut pictures = BTreeSet::new();
    for record in store.erasable(&about)? {
        if record.envelope().kind == kind_name(Kind::Photo) {
            pictures.extend(Kind::Photo.attachments(record.body().unwrap_or_default()));
        }
        *goes
            .entry(record.envelope().kind.as_str().to_owned())
            .or_default() += 1;
    }
    let goes = goes
        .into_iter()
        .map(|(kind, records)| GoesOfKind { kind, records })
        .collect();
    if args.dry_run {
        return Ok(CustomerErased {
            erasure: None,
            goes,
            drafts: 0,
            proof: None,
            older: older(app, &store)?,
        });
    }
    let author = author(&store)?.ok_or_else(|| ApiError::new(ErrorCode::NoAuthor))?;
    let were_here = here(&store, pictures)?;
    let done = store.erase(about, person(author), app.now())?;
    let rewritten = store.scrub()?;
    let needles = Needles::of(done.texts.iter().map(String::as_str));
    let mut proof = prove(app, &store, &needles, rewritten)?;
    let left = here(&store, were_here.clone())?.len();
    proof.pictures_gone = count(were_here.len() - left);
    proof.pictures_left = count(left);
    let older = older(app, &store)?;
    drop(store);
    // What was made before and not carried out yet would carry it out.
    app.files().drop_made();
    Ok(CustomerErased {
        erasure: Some(record_id(done.record)),
        goes,
        drafts: count(done.drafts),
        proof: Some(proof),
        older,
    })
}

/// Those of these files that are here.
fn here(
    store: &Store,
    mut hashes: BTreeSet<AttachmentHash>,
) -> Result<BTreeSet<AttachmentHash>, ApiError> {
    let attachments = store.attachments()?.list()?;
    hashes.retain(|hash| attachments.contains(hash));
    Ok(hashes)
}

/// Looks for texts in everything that this program keeps on the device.
fn prove(app: &App, store: &Store, needles: &Needles, rewritten: bool) -> Result<Proof, ApiError> {
    let backups = app.backups()?;
    let mut places = Vec::new();
    let mut look = |place: PlaceKind, path: std::path::PathBuf| -> Result<(), ApiError> {
        let looked = needles.look_through(&path)?;
        places.push(ProofPlace {
            place,
            name: path
                .file_name()
                .unwrap_or_default()
                .to_string_lossy()
                .into_owned(),
            bytes: looked.bytes,
            found: looked.found,
        });
        Ok(())
    };
    for path in backups.files_of_store() {
        look(PlaceKind::Store, path)?;
    }
    let older: BTreeSet<String> = older(app, store)?.into_iter().map(|it| it.name).collect();
    for backup in backups.list()? {
        let place = if older.contains(&backup.name) {
            PlaceKind::OlderCopy
        } else {
            PlaceKind::Backup
        };
        for path in backups.files_of(&backup.name)? {
            look(place, path)?;
        }
    }
    places.push(look_through_bundle(app, store, needles)?);
    let here = |place: &ProofPlace| place.found && place.place != PlaceKind::OlderCopy;
    let mut still_said = BTreeSet::new();
    if places.iter().any(here) {
        for (of, kind) in store.saying(needles)? {
            still_said.insert(StillSaid {
                job: job_of(store, of)?,
                kind,
            });
        }
    }
    Ok(Proof {
        rewritten,
        texts: count(needles.texts()),
        too_short: count(needles.too_short()),
        places,
        still_said: still_said.into_iter().collect(),
        pictures_gone: 0,
        pictures_left: 0,
    })
}

/// Makes a bundle of the whole shop with its customers, reads it as whoever gets it would, and
/// looks through what comes out.
fn look_through_bundle(
    app: &App,
    store: &Store,
    needles: &Needles,
) -> Result<ProofPlace, ApiError> {
    let author = author(store)?.ok_or_else(|| ApiError::new(ErrorCode::NoAuthor))?;
    let chosen = store.choose(&Selection::Everything)?;
    let origin = Origin {
        author: person(author),
        key: store.device_key(),
        created: app.now(),
    };
    let mut out = app.files().spool()?;
    bundle::write(BufWriter::new(&mut out), &chosen, &origin)?;
    drop(chosen);
    let content = Content::of(out).map_err(|error| no_room(&error))?;
    let (mut bytes, mut found) = (0, false);
    let mut look = |part: &[u8]| {
        bytes += part.len() as u64;
        found |= needles.are_in(part);
    };
    Reader::default()
        .read_records(content.open())?
        .each(&mut |item| {
            match item {
                Item::Commit(commit) => look(commit.bytes()),
                Item::Record(record) => look(record.bytes()),
                Item::Body(_, body) => look(body),
            }
            Ok(())
        })?;
    Ok(ProofPlace {
        place: PlaceKind::Bundle,
        name: String::new(),
        bytes,
        found,
    })
}

/// Copies on this device that don't know of an erasure which this store knows of, so were made
/// before it. Clocks aren't asked.
fn older(app: &App, store: &Store) -> Result<Vec<OlderCopy>, ApiError> {
    let backups = app.backups()?;
    let erasures = store.erasures()?;
    let mut found = Vec::new();
    for backup in backups.list()? {
        let before = erasures
            .iter()
            .any(|(record, _)| !backups.holds(&backup.name, record.id()));
        if before {
            found.push(copy(backup));
        }
    }
    Ok(found)
}

fn copy(backup: Backup) -> OlderCopy {
    OlderCopy {
        made_at: moment(backup.made),
        reason: reason(backup.reason),
        bytes: backup.bytes,
        name: backup.name,
    }
}

/// The erasures known here.
pub(crate) fn list(app: &App, _: Nothing) -> Result<ErasureList, ApiError> {
    let store = app.store()?;
    let mut erasures = Vec::new();
    for (record, erasure) in store.erasures()?.into_iter().rev() {
        let mut jobs = Vec::new();
        let is_photo = |one: &&Erased| one.kinds.contains(&kind_name(Kind::Photo));
        let photos = erasure.about.iter().filter(is_photo).count();
        for one in erasure.about.iter().filter(|one| !is_photo(one)) {
            let job: Option<Job> = lead(&store, one.subject, Kind::Job)?;
            jobs.push(ErasedJob {
                job: id(one.subject),
                number: job.map(|job| job.number).unwrap_or_default(),
                kinds: one
                    .kinds
                    .iter()
                    .map(|kind| kind.as_str().to_owned())
                    .collect(),
            });
        }
        erasures.push(ErasureEntry {
            erasure: record_id(record.id()),
            by: by(&store, &record)?,
            own: record.envelope().device == store.device(),
            jobs,
            records: count(erasure.records.len()),
            photos: count(photos),
        });
    }
    Ok(ErasureList {
        erasures,
        pending: store.scrub_is_due()?,
        older: older(app, &store)?,
    })
}

/// Looks for texts as they are typed. They are kept nowhere.
pub(crate) fn look(app: &App, args: ErasureLook) -> Result<Proof, ApiError> {
    app.backing_up().wait();
    let mut store = app.store()?;
    let rewritten = store.scrub()?;
    let needles = Needles::of(args.texts.iter().map(String::as_str));
    prove(app, &store, &needles, rewritten)
}

/// Deletes backups or files put aside, after making a new backup if that is wanted.
pub(crate) fn drop_copies(app: &App, args: BackupDrop) -> Result<BackupDropped, ApiError> {
    let backups = app.backups()?;
    app.backing_up().wait();
    let known = backups.list()?;
    for name in &args.names {
        if !known.iter().any(|backup| backup.name == *name) {
            return Err(ApiError::not_found("backup", name));
        }
    }
    let made = if args.fresh {
        Some(entry(&backups, backups.make(Reason::ByHand, app.now())?))
    } else {
        None
    };
    let (mut dropped, mut bytes) = (0, 0);
    for backup in known {
        if !args.names.contains(&backup.name) {
            continue;
        }
        match backups.remove(&backup.name) {
            // The rule took it away when the new one was made.
            Ok(()) | Err(StoreError::NoBackup(_)) => {
                dropped += 1;
                bytes += backup.bytes;
            }
            Err(error) => return Err(error.into()),
        }
    }
    Ok(BackupDropped {
        made,
        dropped,
        bytes,
    })
}

/// The parts of a job whose content was erased.
pub(super) fn erased_parts(store: &Store, of: SubjectId) -> Result<Vec<ErasedPart>, ApiError> {
    let mut found = Vec::new();
    for (kind, part) in [
        (Kind::JobCustomer, "customer"),
        (Kind::JobComplaint, "complaint"),
        (Kind::JobNotes, "notes"),
        (Kind::JobAuthorisation, "authorisation"),
    ] {
        let stands = standing(store, of, kind)?;
        if let Some(record) = stands.lead()
            && let Some(erasure) = taken_by(store, record)?
        {
            found.push(ErasedPart {
                part: part.to_owned(),
                by: by(store, &erasure)?,
            });
        }
    }
    Ok(found)
}

/// The erasure that took a record's body; none if it is here, or was merely withheld.
pub(super) fn taken_by(
    store: &Store,
    record: &StoredRecord,
) -> Result<Option<StoredRecord>, ApiError> {
    let envelope = record.envelope();
    if record.body().is_some() || envelope.kind == KindName::ERASURE {
        return Ok(None);
    }
    for erasure in store.erasures_of(envelope.subject, &envelope.kind)? {
        if takes(erasure, envelope) {
            return Ok(store.record(erasure)?);
        }
    }
    Ok(None)
}

/// The records of all erasures and of who made them, to be brought to a store that is put in this
/// one's place.
pub(super) fn all_erasures(store: &Store) -> Result<Batch, ApiError> {
    let mut subjects = BTreeSet::new();
    for (record, _) in store.erasures()? {
        subjects.insert(record.envelope().subject);
        subjects.insert(SubjectId::from(record.envelope().author));
    }
    if subjects.is_empty() {
        return Ok(Batch::default());
    }
    Ok(store.export(&Selection::Subjects(subjects), false)?)
}

/// The texts of a person's words, for looking whether they are left. Of a photo that is its caption
/// alone, of an authorisation who gave it and the note: all else that their bodies have in words
/// stands in others too.
pub(crate) fn words(kind: &KindName, bytes: &[u8]) -> Vec<String> {
    if kind.as_str() == Kind::JobAuthorisation.name() {
        let given: Option<Authorisation> = serde_json::from_slice(bytes).ok();
        return given.map_or_else(Vec::new, |given| vec![given.who, given.note]);
    }
    if kind.as_str() == Kind::Photo.name() {
        let photo: Option<Photo> = serde_json::from_slice(bytes).ok();
        return photo.map(|photo| photo.caption).into_iter().collect();
    }
    texts(bytes)
}

/// The texts of a body, less the names of other things: their digits say nothing of anyone.
fn said(body: &[u8]) -> Vec<String> {
    let mut texts = texts(body);
    texts.retain(|text| text.parse::<Id>().is_err());
    texts
}

fn texts(body: &[u8]) -> Vec<String> {
    fn gather(value: &serde_json::Value, found: &mut Vec<String>) {
        match value {
            serde_json::Value::String(text) => found.push(text.clone()),
            serde_json::Value::Array(inner) => inner.iter().for_each(|one| gather(one, found)),
            serde_json::Value::Object(inner) => inner.values().for_each(|one| gather(one, found)),
            _ => {}
        }
    }
    let mut found = Vec::new();
    if let Ok(value) = serde_json::from_slice(body) {
        gather(&value, &mut found);
    }
    found
}

/// The key of the draft in which this part of a job, or this photo's caption, is half typed, as the interface names it.
pub(crate) fn draft_key(of: SubjectId, kind: Kind) -> Option<String> {
    let part = match kind {
        Kind::JobCustomer => "customer",
        Kind::JobComplaint => "complaint",
        Kind::JobNotes => "notes",
        Kind::JobAuthorisation => "authorisation",
        Kind::Photo => return Some(format!("photo:{}", id(of))),
        _ => return None,
    };
    let job: Id = id(of);
    Some(format!("job:{job}:{part}"))
}
