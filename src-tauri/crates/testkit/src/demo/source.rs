//! The form of a source file.

use std::path::Path;

use chrono::{DateTime, Utc};
use serde::Deserialize;

use super::DemoError;

/// One file.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Source {
    #[serde(default)]
    pub person: Vec<PersonSource>,
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
    /// Indices of readings taken without turning the valve.
    #[serde(default)]
    pub not_reseated: Vec<usize>,
    /// A note with the decision; none: not decided yet.
    #[serde(default)]
    pub decided: Option<String>,
}

impl Source {
    pub fn read(path: &Path) -> Result<Self, DemoError> {
        let at = || path.display().to_string();
        let text =
            std::fs::read_to_string(path).map_err(|error| DemoError::File { path: at(), error })?;
        toml::from_str(&text).map_err(|error| DemoError::Form {
            path: at(),
            error: error.to_string(),
        })
    }
}
