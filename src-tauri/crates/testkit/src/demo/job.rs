//! Short forms of what every job has, spelt out as records.

use chrono::{DateTime, Utc};
use model::caution::{BENCH_HAZARDS, CAUTION_WORDING, Hazard};
use serde::Deserialize;
use toml::{Table, Value};

use super::source::RecordSource;

/// A job as it was opened.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct JobSource {
    subject: String,
    by: String,
    at: DateTime<Utc>,
    unit: String,
    number: String,
    vehicle: String,
    #[serde(default)]
    odometer_km: Option<f64>,
    complaint: String,
    /// Name, phone and plate: personal.
    #[serde(default)]
    customer: Option<Table>,
}

/// Cautions read for a job: all of bench work, unless others are named.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct CautionsSource {
    job: String,
    by: String,
    at: DateTime<Utc>,
    #[serde(default = "of_the_bench")]
    hazards: Vec<Hazard>,
}

fn of_the_bench() -> Vec<Hazard> {
    BENCH_HAZARDS.to_vec()
}

/// A job's notes as they stand from then on.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct NoteSource {
    job: String,
    by: String,
    at: DateTime<Utc>,
    text: String,
}

fn text(value: impl Into<String>) -> Value {
    Value::String(value.into())
}

fn table<const N: usize>(fields: [(&str, Value); N]) -> Table {
    let named = fields.map(|(name, value)| (name.to_owned(), value));
    named.into_iter().collect()
}

impl JobSource {
    /// One user action.
    pub fn records(self) -> Vec<RecordSource> {
        let mut vehicle = table([("description", text(self.vehicle))]);
        if let Some(km) = self.odometer_km {
            vehicle.insert("odometer_m".into(), Value::Float(km * 1000.0));
        }
        let opened_on = self.at.date_naive().to_string();
        let job = table([
            ("unit", text(self.unit)),
            ("number", text(self.number)),
            ("opened_on", text(opened_on)),
        ]);
        let mut parts = vec![
            ("job", job),
            ("job.vehicle", vehicle),
            ("job.complaint", table([("text", text(self.complaint))])),
        ];
        parts.extend(self.customer.map(|customer| ("job.customer", customer)));
        let record = |(kind, body): (&str, Table)| RecordSource {
            subject: self.subject.clone(),
            by: self.by.clone(),
            at: self.at,
            kind: kind.to_owned(),
            body,
        };
        parts.into_iter().map(record).collect()
    }
}

impl CautionsSource {
    /// One user action.
    pub fn records(self) -> Vec<RecordSource> {
        let record = |hazard: &Hazard| RecordSource {
            subject: name(&self.job),
            by: self.by.clone(),
            at: self.at,
            kind: "caution".to_owned(),
            body: table([
                // A hazard is a plain name on the wire.
                (
                    "hazard",
                    Value::try_from(hazard).unwrap_or_else(|_| text("")),
                ),
                ("wording", Value::Integer(i64::from(CAUTION_WORDING))),
            ]),
        };
        self.hazards.iter().map(record).collect()
    }
}

impl NoteSource {
    pub fn record(self) -> RecordSource {
        RecordSource {
            subject: name(&self.job),
            by: self.by,
            at: self.at,
            kind: "job.notes".to_owned(),
            body: table([("text", text(self.text))]),
        }
    }
}

fn name(reference: &str) -> String {
    reference.trim_start_matches('@').to_owned()
}
