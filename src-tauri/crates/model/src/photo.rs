//! A photo taken in a job: what it shows, and the files that hold it.

use chrono::{DateTime, Utc};
use journal::AttachmentHash;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::Id;

/// A photo. Kind `photo`.
///
/// A body whose photo may show a person or a plate is salted and treated as personal like a
/// customer's, so it stays behind with its picture unless asked for, and can be erased. Which it is
/// may be changed later, either way: what stands now decides whether the picture is passed on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Photo {
    /// The job in which it was taken.
    pub job: Id,
    /// The bore that it shows, if it is of one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bore: Option<Id>,
    /// The test that it belongs to, if it does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub test: Option<Id>,
    /// The repair that it belongs to, if it does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub repair: Option<Id>,
    /// What it shows, in words; empty: nobody said.
    #[serde(default)]
    pub caption: String,
    /// When it was taken, by the device that it came from.
    pub taken_at: DateTime<Utc>,
    /// Whether a person might be known by it.
    pub shows: PhotoShows,
    /// The picture.
    pub picture: PictureFile,
    /// A small one of the same.
    pub thumbnail: PictureFile,
}

/// Whether a person might be known by a photo. Nothing looks into the picture to find out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PhotoShows {
    /// It may show a face, a plate, papers: personal. What nobody said otherwise of.
    #[default]
    MaybePersonal,
    /// Its taker said that it shows the work alone.
    WorkAlone,
}

impl PhotoShows {
    /// Whether it is to be treated as personal.
    #[must_use]
    pub const fn is_personal(self) -> bool {
        matches!(self, Self::MaybePersonal)
    }
}

/// A picture in a file that is named by its hash.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct PictureFile {
    /// BLAKE3 of its bytes, which names it.
    pub hash: AttachmentHash,
    /// What it is (IANA media type).
    pub media_type: String,
    /// How long it is.
    pub bytes: u64,
    /// Width in pixels.
    pub width_px: u32,
    /// Height in pixels.
    pub height_px: u32,
}

/// The media type of every picture that this program writes.
pub const JPEG: &str = "image/jpeg";

/// What a body of a photo names.
pub(crate) fn attachments(body: &[u8]) -> Vec<AttachmentHash> {
    #[derive(Deserialize)]
    struct Named {
        hash: AttachmentHash,
    }
    #[derive(Deserialize)]
    struct Names {
        picture: Option<Named>,
        thumbnail: Option<Named>,
    }
    let Ok(names) = serde_json::from_slice::<Names>(body) else {
        return Vec::new();
    };
    let named = [names.picture, names.thumbnail];
    named.into_iter().flatten().map(|it| it.hash).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Kind;

    #[test]
    fn a_photo_names_its_two_files_and_nothing_else_does() {
        let file = |text: &[u8]| PictureFile {
            hash: AttachmentHash::of(text),
            media_type: JPEG.into(),
            bytes: 9,
            width_px: 4,
            height_px: 3,
        };
        let photo = Photo {
            job: Id::nil(),
            bore: None,
            test: None,
            repair: None,
            caption: "Scored land".into(),
            taken_at: DateTime::UNIX_EPOCH,
            shows: PhotoShows::default(),
            picture: file(b"large"),
            thumbnail: file(b"small"),
        };
        let body = serde_json::to_vec(&photo).unwrap();
        let named = [b"large", b"small"].map(|text| AttachmentHash::of(text));
        assert_eq!(Kind::Photo.attachments(&body), named);
        assert_eq!(Kind::JobNotes.attachments(&body), []);
        assert_eq!(Kind::Photo.attachments(b"{}"), []);
        assert_eq!(
            Kind::Photo.attachments(b"{\"picture\":{\"hash\":\"../x\"}}"),
            []
        );
        for kind in Kind::all() {
            assert_eq!(kind.has_attachments(), !kind.attachments(&body).is_empty());
        }
        assert!(photo.shows.is_personal(), "unless somebody says otherwise");
    }
}
