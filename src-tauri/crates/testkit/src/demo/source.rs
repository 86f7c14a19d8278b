//! The form of a source file.

use std::path::Path;

use chrono::{DateTime, Utc};
use model::inspection::Occasion;
use model::machining::MachinedSize;
use model::tap_reading::TapPlace;
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
    #[serde(default)]
    pub true_instrument: Vec<TrueInstrument>,
    #[serde(default)]
    pub tap_reading: Vec<TapSource>,
    #[serde(default)]
    pub oil_check: Vec<OilCheckSource>,
    #[serde(default)]
    pub sheet: Vec<SheetSource>,
    #[serde(default)]
    pub sign_off: Vec<SignOffSource>,
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

/// What an instrument truly is, SI in the unit of what it measures.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct TrueInstrument {
    pub instrument: String,
    /// Standard deviation of one reading about the true one.
    pub noise_si: f64,
    /// Error that all its readings share.
    pub error_si: f64,
}

/// A pressure read at a tap of feed.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct TapSource {
    pub job: String,
    pub by: String,
    pub at: DateTime<Utc>,
    pub tap: String,
    /// The test whose true clearance the bore has.
    pub bore_as_in: String,
    pub occasion: Occasion,
    pub place: TapPlace,
    /// True line pressure.
    pub line_psi: f64,
    pub oil_c: f64,
    pub gauge: String,
    pub line_gauge: String,
    pub command: String,
    pub load: String,
    #[serde(default)]
    pub note: String,
}

/// A hot-oil check after a repair.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct OilCheckSource {
    pub subject: String,
    pub by: String,
    pub at: DateTime<Utc>,
    pub job: String,
    pub bore: String,
    /// The repair that it proves.
    pub repair: String,
    /// The test whose true clearance the bore has.
    pub bore_as_in: String,
    /// True temperature of the oil.
    pub oil_c: f64,
    /// How much of the profile's friction truly acts, 0 to 1.
    pub friction_acting: f64,
    pub feed_gauge: String,
    pub line_gauge: String,
    pub thermometer: String,
    /// True line pressures, in the order in which they were set.
    pub rising_psi: Vec<f64>,
    pub falling_psi: Vec<f64>,
    #[serde(default)]
    pub note: String,
}

/// A machining sheet: filled in, then signed.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct SheetSource {
    pub subject: String,
    pub by: String,
    pub at: DateTime<Utc>,
    pub job: String,
    pub bore: String,
    pub signed_at: DateTime<Utc>,
    #[serde(default)]
    pub signed_note: String,
    /// The sheet's own fields, SI, without its measurements.
    pub sheet: toml::Table,
    /// What was measured on the way, in its order.
    pub measured: Vec<MeasuredSource>,
}

/// A size as it truly is.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct MeasuredSource {
    pub size: MachinedSize,
    /// At 20 °C.
    pub true_mm: f64,
    /// Temperature of the part while it was measured.
    pub part_c: f64,
    pub instrument: String,
    /// After which cut, from 0.
    #[serde(default)]
    pub cut: Option<u32>,
}

/// A job signed off: the core says what is open.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct SignOffSource {
    pub job: String,
    pub by: String,
    pub at: DateTime<Utc>,
    pub signed_by: String,
    pub statement: String,
}

impl Source {
    /// Takes in what another file has.
    pub fn extend(&mut self, other: Self) {
        self.person.extend(other.person);
        self.record.extend(other.record);
        self.true_stand.extend(other.true_stand);
        self.away.extend(other.away);
        self.test.extend(other.test);
        self.true_instrument.extend(other.true_instrument);
        self.tap_reading.extend(other.tap_reading);
        self.oil_check.extend(other.oil_check);
        self.sheet.extend(other.sheet);
        self.sign_off.extend(other.sign_off);
    }

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
