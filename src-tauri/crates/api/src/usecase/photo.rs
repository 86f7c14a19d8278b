//! Photos of a job: taken in, described, removed, shown.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use chrono::{DateTime, Utc};
use journal::AttachmentHash;
use model::bench::VacuumTest;
use model::job::Job;
use model::photo::{JPEG, Photo, PictureFile};
use model::repair::Repair;
use model::unit::Bore;
use model::{Id, Kind};
use picture::{Jpeg, PictureError};
use store::{Adding, NewRecord, Store, StoredRecord};

use crate::App;
use crate::dto::{
    FilePiece, PhotoAdd, PhotoEdit, PhotoEntry, PhotoList, PhotoListGet, PhotoName, PhotoRead,
    PhotoSize,
};
use crate::error::{ApiError, ErrorCode};
use crate::journal_io::{
    author, body, by, id, kind_name, lead, need, new_record, standing, subject,
};
use crate::usecase::audit::undo_state;

/// The longest picture that is shown: those that were made here are far below.
const LONGEST: u64 = 24 << 20;

/// The longest piece that is given, in bytes, as of any file.
const PIECE: usize = 3 << 20;

impl From<PictureError> for ApiError {
    fn from(error: PictureError) -> Self {
        let code = match &error {
            PictureError::Unknown => ErrorCode::NotAPicture,
            PictureError::Heic => ErrorCode::PictureHeic,
            PictureError::TooLarge => ErrorCode::PictureTooLarge,
            _ => ErrorCode::PictureDamaged,
        };
        Self::new(code)
            .with("detail", error)
            .with("megapixels", picture::MOST_PIXELS / 1_000_000)
            .with("megabytes", picture::MOST_BYTES >> 20)
    }
}

/// A photo that stands.
pub(crate) struct Taken {
    pub id: Id,
    pub photo: Photo,
    pub record: StoredRecord,
    concurrent: bool,
}

/// The photos of a job, of its tests and of its repairs, oldest first.
pub(crate) fn of_job(store: &Store, job: Id) -> Result<Vec<Taken>, ApiError> {
    let of = subject(job);
    let mut owners = vec![of];
    for kind in [Kind::Test, Kind::Repair] {
        owners.extend(store.children(of, &kind_name(kind))?);
    }
    let mut found = Vec::new();
    for owner in owners {
        for photo in store.children(owner, &kind_name(Kind::Photo))? {
            found.extend(taken(store, id(photo))?);
        }
    }
    found.sort_by_key(|taken| (taken.photo.taken_at, taken.id));
    Ok(found)
}

fn taken(store: &Store, photo: Id) -> Result<Option<Taken>, ApiError> {
    let stands = standing(store, subject(photo), Kind::Photo)?;
    let Some(record) = stands.lead() else {
        return Ok(None);
    };
    Ok(body::<Photo>(record).map(|body| Taken {
        id: photo,
        photo: body,
        record: record.clone(),
        concurrent: stands.concurrent,
    }))
}

fn need_taken(store: &Store, photo: Id) -> Result<Taken, ApiError> {
    taken(store, photo)?.ok_or_else(|| ApiError::not_found("photo", photo))
}

/// The photos of a job.
pub(crate) fn list(app: &App, args: PhotoListGet) -> Result<PhotoList, ApiError> {
    view(&*app.store()?, args.job)
}

fn view(store: &Store, job: Id) -> Result<PhotoList, ApiError> {
    need::<Job>(store, subject(job), Kind::Job)?;
    let attachments = store.attachments()?;
    Ok(PhotoList {
        photos: entries(store, job, |hash| Ok(attachments.has(hash)?))?,
        undo: undo_state(store)?,
    })
}

/// The photos of a job, oldest first. `has` says of a picture whether it is at hand.
pub(super) fn entries(
    store: &Store,
    job: Id,
    has: impl Fn(AttachmentHash) -> Result<bool, ApiError>,
) -> Result<Vec<PhotoEntry>, ApiError> {
    let mut photos = Vec::new();
    for taken in of_job(store, job)? {
        let photo = taken.photo;
        let bore: Option<Bore> = match photo.bore {
            Some(bore) => lead(store, subject(bore), Kind::Bore)?,
            None => None,
        };
        let by = by(store, &taken.record)?;
        photos.push(PhotoEntry {
            photo: taken.id,
            bore: photo.bore,
            bore_name: bore.map(|bore| bore.name),
            test: photo.test,
            repair: photo.repair,
            caption: photo.caption,
            taken_at: photo.taken_at,
            shows: photo.shows,
            concurrent: taken.concurrent,
            by: by.by,
            at: by.at,
            hash: photo.picture.hash.to_string(),
            bytes: photo.picture.bytes,
            width_px: photo.picture.width_px,
            height_px: photo.picture.height_px,
            is_here: has(photo.picture.hash)? && has(photo.thumbnail.hash)?,
        });
    }
    Ok(photos)
}

/// Adds a photo. Nothing of what the file told beside its pixels is kept.
pub(crate) fn add(app: &App, args: PhotoAdd) -> Result<PhotoList, ApiError> {
    let bore = {
        let store = app.store()?;
        // Before the picture is worked on.
        author(&store)?.ok_or_else(|| ApiError::new(ErrorCode::NoAuthor))?;
        bore_of(&store, &args)?
    };
    let (_, content) = app.files().content(args.file)?;
    let prepared = picture::prepare(&content.bytes(picture::MOST_BYTES)?)?;
    let now = app.clock().now();
    let mut store = app.store()?;
    let attachments = store.attachments()?;
    // Held until the record that names them is there.
    let adding = attachments.add()?;
    let photo = Photo {
        job: args.job,
        bore,
        test: args.test,
        repair: args.repair,
        caption: args.caption.trim().to_owned(),
        taken_at: taken_at(args.taken_at, now),
        shows: args.shows,
        picture: put(&adding, &prepared.picture)?,
        thumbnail: put(&adding, &prepared.thumbnail)?,
    };
    let of = store.new_subject(app.now())?;
    let record = record(&store, id(of), &photo)?;
    app.commit(&mut store, vec![record])?;
    let answer = view(&store, args.job);
    drop(store);
    app.files().drop_file(args.file);
    answer
}

fn put(adding: &Adding<'_>, jpeg: &Jpeg) -> Result<PictureFile, ApiError> {
    Ok(PictureFile {
        hash: adding.put(jpeg.bytes.as_slice())?,
        media_type: JPEG.to_owned(),
        bytes: jpeg.bytes.len() as u64,
        width_px: jpeg.width_px,
        height_px: jpeg.height_px,
    })
}

/// What the file says, unless that is still to come. To the second: more would tell photos apart
/// that a person can't.
fn taken_at(said: Option<DateTime<Utc>>, now: DateTime<Utc>) -> DateTime<Utc> {
    let at = said.filter(|said| *said <= now).unwrap_or(now);
    DateTime::from_timestamp(at.timestamp(), 0).unwrap_or(at)
}

/// The bore of the test or repair that is named, or the one that is; each must be of this job.
fn bore_of(store: &Store, args: &PhotoAdd) -> Result<Option<Id>, ApiError> {
    let job: Job = need(store, subject(args.job), Kind::Job)?;
    if let Some(test) = args.test {
        let test: VacuumTest = need(store, subject(test), Kind::Test)?;
        if test.job != args.job || args.repair.is_some() {
            return Err(ApiError::new(ErrorCode::BadRequest).at("test"));
        }
        return Ok(Some(test.bore));
    }
    if let Some(repair) = args.repair {
        let repair: Repair = need(store, subject(repair), Kind::Repair)?;
        if repair.job != args.job {
            return Err(ApiError::new(ErrorCode::BadRequest).at("repair"));
        }
        return Ok(Some(repair.bore));
    }
    if let Some(bore) = args.bore {
        let found: Bore = need(store, subject(bore), Kind::Bore)?;
        // A bore belongs to a circuit, and that to the unit.
        if store.parent(subject(found.circuit))? != Some(subject(job.unit)) {
            return Err(ApiError::new(ErrorCode::BadRequest).at("bore"));
        }
    }
    Ok(args.bore)
}

/// Whether it is personal is said of each photo, not of the kind.
fn record(store: &Store, of: Id, photo: &Photo) -> Result<NewRecord, ApiError> {
    Ok(NewRecord {
        personal: photo.shows.is_personal(),
        ..new_record(store, subject(of), Kind::Photo, photo)?
    })
}

/// Changes a photo's caption, or whether it is personal.
pub(crate) fn edit(app: &App, args: PhotoEdit) -> Result<PhotoList, ApiError> {
    let mut store = app.store()?;
    let taken = need_taken(&store, args.photo)?;
    let photo = Photo {
        caption: args.caption.trim().to_owned(),
        shows: args.shows,
        ..taken.photo.clone()
    };
    if photo != taken.photo || taken.concurrent {
        let record = record(&store, args.photo, &photo)?;
        app.commit(&mut store, vec![record])?;
    }
    view(&store, photo.job)
}

/// Removes a photo: all that was ever said of it is struck out, so that no earlier caption stands
/// again. Its files stay for undo; they no longer go into bundles.
pub(crate) fn remove(app: &App, args: PhotoName) -> Result<PhotoList, ApiError> {
    let mut store = app.store()?;
    let job = need_taken(&store, args.photo)?.photo.job;
    let of = subject(args.photo);
    let voids = store
        .records_of(of)?
        .into_iter()
        .filter(|entry| {
            entry.stored.envelope().kind == kind_name(Kind::Photo)
                && entry.fate != journal::Fate::Voided
        })
        .map(|entry| NewRecord::void(of, entry.stored.id()))
        .collect();
    app.commit(&mut store, voids)?;
    view(&store, job)
}

/// One piece of a photo's picture or thumbnail.
pub(crate) fn read(app: &App, args: PhotoRead) -> Result<FilePiece, ApiError> {
    let bytes = {
        let store = app.store()?;
        jpeg(&store, file_of(&store, args.photo, args.size)?)?
    };
    Ok(piece(&bytes, args.from))
}

/// What names one of a photo's two files.
pub(super) fn file_of(
    store: &Store,
    photo: Id,
    size: PhotoSize,
) -> Result<AttachmentHash, ApiError> {
    let photo = need_taken(store, photo)?.photo;
    Ok(match size {
        PhotoSize::Thumbnail => photo.thumbnail.hash,
        PhotoSize::Picture => photo.picture.hash,
    })
}

pub(super) fn piece(bytes: &[u8], from: u64) -> FilePiece {
    let from = usize::try_from(from).unwrap_or(usize::MAX);
    let rest = bytes.get(from..).unwrap_or_default();
    FilePiece {
        base64: STANDARD.encode(&rest[..rest.len().min(PIECE)]),
        bytes: bytes.len() as u64,
    }
}

/// The bytes of a picture: those that its hash names, a JPEG file, and no larger than one that was
/// made here, since it may have come from a stranger.
pub(crate) fn jpeg(store: &Store, hash: AttachmentHash) -> Result<Vec<u8>, ApiError> {
    let bytes = match store.attachments()?.read(hash, LONGEST) {
        // Not the store: its file is as it was.
        Err(error @ store::StoreError::Damaged(_)) => return Err(damaged(error)),
        read => read?.ok_or_else(|| ApiError::new(ErrorCode::PictureMissing))?,
    };
    shown(bytes)
}

/// Bytes that may be shown as a picture: those of a JPEG file within the limits.
pub(super) fn shown(bytes: Vec<u8>) -> Result<Vec<u8>, ApiError> {
    picture::size(&bytes).map_err(damaged)?;
    Ok(bytes)
}

fn damaged(detail: impl std::fmt::Display) -> ApiError {
    ApiError::new(ErrorCode::PictureDamaged).with("detail", detail)
}
