//! Photos of a job.

use chrono::{DateTime, Utc};
use model::Id;
use model::photo::PhotoShows;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::UndoState;

/// Ask for the photos of a job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PhotoListGet {
    /// The job.
    pub job: Id,
}

/// The photos of a job, of its tests and of its repairs, oldest first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PhotoList {
    /// The photos.
    pub photos: Vec<PhotoEntry>,
    /// What undo would do now.
    pub undo: UndoState,
}

/// One photo.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct PhotoEntry {
    /// The photo.
    pub photo: Id,
    /// The bore that it shows, if it is of one.
    pub bore: Option<Id>,
    /// That bore's name.
    pub bore_name: Option<String>,
    /// The test that it belongs to, if it does.
    pub test: Option<Id>,
    /// The repair that it belongs to, if it does.
    pub repair: Option<Id>,
    /// What it shows, in words; empty: nobody said.
    pub caption: String,
    /// When it was taken, by the device that it came from.
    pub taken_at: DateTime<Utc>,
    /// Whether a person might be known by it.
    pub shows: PhotoShows,
    /// Two people changed it without knowing of each other; this is the later one.
    pub concurrent: bool,
    /// Who added it, or changed it last.
    pub by: String,
    /// When.
    pub at: DateTime<Utc>,
    /// Names what is to be seen: another photo, another name.
    pub hash: String,
    /// How long the picture's file is.
    pub bytes: u64,
    /// The picture's width in pixels.
    pub width_px: u32,
    /// The picture's height in pixels.
    pub height_px: u32,
    /// Whether picture and thumbnail are on this device.
    pub is_here: bool,
}

/// Add a photo.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PhotoAdd {
    /// The job.
    pub job: Id,
    /// The bore that it shows, if it is of one. That of the test or the repair, if one is named.
    #[serde(default)]
    pub bore: Option<Id>,
    /// The test of the job that it belongs to, if it does.
    #[serde(default)]
    pub test: Option<Id>,
    /// The repair of the job that it belongs to, if it does.
    #[serde(default)]
    pub repair: Option<Id>,
    /// The file, carried in by `file.begin` and `file.add`. Forgotten once the photo is added.
    pub file: u32,
    /// What it shows, in words.
    #[serde(default)]
    pub caption: String,
    /// Whether a person might be known by it.
    #[serde(default)]
    pub shows: PhotoShows,
    /// When it was taken, as its file says; now, if that is missing or still to come.
    #[serde(default)]
    pub taken_at: Option<DateTime<Utc>>,
}

/// Change what is said of a photo.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PhotoEdit {
    /// The photo.
    pub photo: Id,
    /// What it shows, in words.
    pub caption: String,
    /// Whether a person might be known by it.
    pub shows: PhotoShows,
}

/// Name one photo.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PhotoName {
    /// The photo.
    pub photo: Id,
}

/// Which of a photo's two files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PhotoSize {
    /// The small one.
    Thumbnail,
    /// The picture.
    Picture,
}

/// Ask for a piece of a photo's file, always JPEG.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PhotoRead {
    /// The photo.
    pub photo: Id,
    /// Which file.
    pub size: PhotoSize,
    /// Where the piece begins.
    #[serde(default)]
    pub from: u64,
}
