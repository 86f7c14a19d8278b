//! The photos of a job, as large as a page needs them.

use model::unit::Bore;
use model::{Id, Kind};
use report::{PhotoShown, Picture};
use store::Store;

use super::{here, recorded};
use crate::error::{ApiError, ErrorCode};
use crate::journal_io::{lead, subject};
use crate::usecase::photo;

/// Four fit on a printed page, at some 200 pixels to the inch.
const EDGE_PX: u32 = 720;

#[derive(Default)]
pub(super) struct Photos {
    pub shown: Vec<PhotoShown>,
    pub left_out: usize,
}

/// Those that may show a person only if `personal`.
pub(super) fn of_job(store: &Store, job: Id, personal: bool) -> Result<Photos, ApiError> {
    let mut photos = Photos::default();
    for taken in photo::of_job(store, job)? {
        let photo = taken.photo;
        if photo.shows.is_personal() && !personal {
            photos.left_out += 1;
            continue;
        }
        let bore: Option<Bore> = match photo.bore {
            Some(bore) => lead(store, subject(bore), Kind::Bore)?,
            None => None,
        };
        photos.shown.push(PhotoShown {
            picture: picture(store, &photo)?,
            caption: photo.caption,
            bore: bore.map(|bore| bore.name),
            taken_at: here(photo.taken_at),
            recorded: recorded(store, &taken.record)?,
        });
    }
    Ok(photos)
}

/// None: it isn't here as it was recorded.
fn picture(store: &Store, photo: &model::photo::Photo) -> Result<Option<Picture>, ApiError> {
    let bytes = match photo::jpeg(store, photo.picture.hash) {
        Ok(bytes) => bytes,
        Err(error)
            if matches!(
                error.code,
                ErrorCode::PictureMissing | ErrorCode::PictureDamaged
            ) =>
        {
            return Ok(None);
        }
        Err(error) => return Err(error),
    };
    let reduced = picture::reduce(&bytes, EDGE_PX);
    Ok(reduced.ok().map(|jpeg| Picture {
        jpeg: jpeg.bytes,
        width_px: jpeg.width_px,
        height_px: jpeg.height_px,
    }))
}
