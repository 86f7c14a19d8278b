//! The form of a source file.

use std::path::Path;

use chrono::{DateTime, Utc};
use serde::Deserialize;

use super::DemoError;
use super::job::{CautionsSource, JobSource, NoteSource};

/// One file.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Source {
    #[serde(default)]
    pub person: Vec<PersonSource>,
    #[serde(default)]
    job: Vec<JobSource>,
    #[serde(default)]
    cautions: Vec<CautionsSource>,
    #[serde(default)]
    note: Vec<NoteSource>,
    #[serde(default)]
    pub away: Vec<AwaySource>,
    #[serde(default)]
    pub record: Vec<RecordSource>,
    #[serde(default)]
    pub true_stand: Vec<TrueStand>,
    #[serde(default)]
    pub test: Vec<TestSource>,
}

/// A person with the device that they sign on.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PersonSource {
    pub name: String,
    pub says: String,
    pub at: DateTime<Utc>,
}

/// One record, or several of one user action where `with` follows.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RecordSource {
    /// The subject, as other sources name it.
    pub subject: String,
    /// Name of the person as sources name them.
    pub by: String,
    pub at: DateTime<Utc>,
    pub kind: String,
    pub body: toml::Table,
}

/// A time without any exchange with the others: what is written on either side is unseen on the
/// other until the end.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct AwaySource {
    pub who: String,
    pub from: DateTime<Utc>,
    pub until: DateTime<Utc>,
}

/// What a stand truly is: its readings come from this.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct TrueStand {
    pub stand: String,
    pub pull_l_per_min: f64,
    pub hose_resistance_pa_s_m3: f64,
    pub dead_head_inhg_at_sea_level: f64,
    /// Standard deviation of one reading about the true one.
    pub noise_inhg: f64,
    /// Error that all readings of the gauge share.
    pub gauge_error_inhg: f64,
}

/// A vacuum test.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct TestSource {
    pub subject: String,
    pub by: String,
    pub at: DateTime<Utc>,
    pub job: String,
    pub bore: String,
    pub test_point: String,
    pub stand: String,
    /// Station pressure, hPa; the record holds a barometer reading.
    #[serde(default)]
    pub barometer_hpa: Option<f64>,
    /// Altitude, m; the record holds an altitude, and the air is the standard one.
    #[serde(default)]
    pub altitude_m: Option<f64>,
    pub air_c: f64,
    /// True clearance on the diameter.
    pub clearance_um: f64,
    /// How far off-centre the valve lies, 0 to 1, one per reading.
    pub off_centre: Vec<f64>,
    /// Hole that plug and plate leak like; none: no blank was taken.
    #[serde(default)]
    pub blank_hole_mm: Option<f64>,
    /// Calibrated orifices that were read.
    pub orifices: Vec<String>,
    /// Overrides of the test point's set-up, as the body has them.
    #[serde(default)]
    pub surface: Option<String>,
    /// What a film of oil leaves open of the clearance, on the diameter: the readings come from
    /// this and tell nothing of the true one.
    #[serde(default)]
    pub oil_leaves_um: Option<f64>,
    /// Indices of readings taken without turning the valve.
    #[serde(default)]
    pub not_reseated: Vec<usize>,
    /// A reading taken while the plug leaked, and how it was put right.
    #[serde(default)]
    pub slipped: Option<SlippedSource>,
    /// A note with the decision; none: not decided yet.
    #[serde(default)]
    pub decided: Option<String>,
}

/// A plug that didn't seat: the reading is struck out later, another taken in its place, and the
/// test decided again.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct SlippedSource {
    /// Index of the reading.
    pub reading: usize,
    /// Hole that the plug leaked like, beside what the blank shows.
    pub hole_mm: f64,
    pub struck_by: String,
    pub struck_at: DateTime<Utc>,
    /// How far off-centre the valve lies in the reading that takes its place.
    pub off_centre: f64,
    /// The note with the second decision.
    pub decided: String,
}

impl Source {
    pub fn read(path: &Path) -> Result<Self, DemoError> {
        let at = || path.display().to_string();
        let text =
            std::fs::read_to_string(path).map_err(|error| DemoError::File { path: at(), error })?;
        let mut source: Self = toml::from_str(&text).map_err(|error| DemoError::Form {
            path: at(),
            error: error.to_string(),
        })?;
        let jobs = source.job.drain(..).flat_map(JobSource::records);
        let mut spelt_out: Vec<_> = jobs.collect();
        let cautions = source.cautions.drain(..);
        spelt_out.extend(cautions.flat_map(CautionsSource::records));
        spelt_out.extend(source.note.drain(..).map(NoteSource::record));
        source.record.extend(spelt_out);
        Ok(source)
    }
}
