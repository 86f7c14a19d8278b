//! What the store needs to know of the model: how kinds fold, and where each subject belongs.

use journal::fold::FoldRule;
use journal::{AttachmentHash, Kind as KindName, SubjectId};
use model::{Id, Kind};
use serde::Deserialize;
use store::{Member, Place, Projector, StandingRecord, Summary};

use crate::summary;

use crate::journal_io::kind_name;
use crate::usecase::erasure;

/// The model's kinds, for the store.
#[derive(Debug, Clone, Copy, Default)]
pub struct ModelProjector;

/// Fields by which bodies of any kind name other subjects.
const REFERENCES: [&str; 11] = [
    "job",
    "unit",
    "circuit",
    "bore",
    "test_point",
    "test",
    "stand",
    "repair",
    "shop_part",
    "earlier",
    "tap",
];

/// Fields that name what something was measured with, wherever in a body they stand: what it read
/// is judged by that instrument's own error.
const INSTRUMENTS: [&str; 10] = [
    "gauge",
    "line_gauge",
    "feed_gauge",
    "thermometer",
    "bore_gauge",
    "micrometer",
    "tester",
    "pins",
    "ohmmeter",
    "instrument",
];

/// Adds the instruments that are named anywhere in `value`.
fn instruments(value: &serde_json::Value, found: &mut Vec<SubjectId>) {
    match value {
        serde_json::Value::Object(fields) => {
            for (name, value) in fields {
                match value.as_str() {
                    Some(text) if INSTRUMENTS.contains(&name.as_str()) => {
                        found.extend(text.parse().ok().map(named));
                    }
                    _ => instruments(value, found),
                }
            }
        }
        serde_json::Value::Array(items) => {
            for item in items {
                instruments(item, found);
            }
        }
        _ => {}
    }
}

fn named(id: Id) -> SubjectId {
    SubjectId::from_bytes(*id.as_bytes())
}

/// The parent and order key that a body may name, whatever its kind.
#[derive(Deserialize, Default)]
#[serde(default)]
struct Belonging {
    job: Option<Id>,
    unit: Option<Id>,
    circuit: Option<Id>,
    bore: Option<Id>,
    test: Option<Id>,
    repair: Option<Id>,
    order: Option<String>,
    opened_on: Option<String>,
    number: Option<String>,
}

impl Projector for ModelProjector {
    fn version(&self) -> u32 {
        5
    }

    fn rule(&self, kind: &KindName) -> Option<FoldRule> {
        let kind = Kind::of(kind.as_str())?;
        Some(if kind.removes() {
            FoldRule::Removal
        } else if kind.adds() {
            FoldRule::Addition
        } else {
            FoldRule::Register
        })
    }

    fn reads(&self, kind: &KindName, kind_version: u32) -> bool {
        Kind::of(kind.as_str()).is_some_and(|kind| kind_version <= kind.version())
    }

    fn refers(&self, kind: &KindName, body: &[u8]) -> Vec<SubjectId> {
        let Ok(value) = serde_json::from_slice::<serde_json::Value>(body) else {
            return Vec::new();
        };
        if Kind::of(kind.as_str()).is_none() {
            return Vec::new();
        }
        let mut found: Vec<_> = REFERENCES
            .iter()
            .filter_map(|field| value.get(*field)?.as_str()?.parse().ok())
            .map(named)
            .collect();
        instruments(&value, &mut found);
        found
    }

    fn kinds_with_attachments(&self) -> Vec<KindName> {
        let kinds = Kind::all().filter(|kind| kind.has_attachments());
        kinds.map(kind_name).collect()
    }

    fn attachments(&self, kind: &KindName, body: &[u8]) -> Vec<AttachmentHash> {
        Kind::of(kind.as_str()).map_or_else(Vec::new, |kind| kind.attachments(body))
    }

    fn erasable(&self, kind: &KindName) -> bool {
        Kind::of(kind.as_str()).is_some_and(Kind::erasable)
    }

    fn words(&self, kind: &KindName, body: &[u8]) -> Vec<String> {
        erasure::words(kind, body)
    }

    fn draft_of(&self, of: SubjectId, kind: &KindName) -> Option<String> {
        erasure::draft_key(of, Kind::of(kind.as_str())?)
    }

    fn place(&self, _: SubjectId, standing: &[StandingRecord<'_>]) -> Place {
        let mut place = Place::default();
        let mut words = Vec::new();
        for record in standing {
            let Some(kind) = Kind::of(record.kind.as_str()) else {
                continue;
            };
            let Some(body) = record.body else { continue };
            if let Some(found) = belonging(kind, body) {
                place.parent = found.0;
                place.order_key = found.1;
            }
            // A bore's tests and repairs are found by it, across jobs.
            if matches!(kind, Kind::Test | Kind::Repair) {
                let bore = serde_json::from_slice::<Belonging>(body).ok();
                let bore = bore.and_then(|belonging| belonging.bore);
                place
                    .names
                    .extend(bore.map(|id| SubjectId::from_bytes(*id.as_bytes())));
            }
            words.extend(searchable(kind, body));
        }
        place.text = words.join("\n");
        place
    }

    fn summary_version(&self) -> u32 {
        summary::VERSION
    }

    fn summary_kinds(&self) -> &[&'static str] {
        &summary::KINDS
    }

    fn summary(&self, subject: &Member<'_>, parts: &[Member<'_>]) -> Option<Summary> {
        summary::of(subject, parts)
    }
}

/// Parent and order key of the kinds that make a subject.
fn belonging(kind: Kind, body: &[u8]) -> Option<(Option<SubjectId>, String)> {
    let parent: fn(&Belonging) -> Option<Id> = match kind {
        Kind::Circuit => |found| found.unit,
        Kind::Bore | Kind::Relief | Kind::Tap | Kind::Clutch => |found| found.circuit,
        Kind::Land
        | Kind::Spring
        | Kind::Opening
        | Kind::BalanceOrifice
        | Kind::TestPoint
        | Kind::WhatIf => |found| found.bore,
        Kind::Test
        | Kind::ReliefCheck
        | Kind::Repair
        | Kind::Inspection
        | Kind::Machining
        | Kind::JobFitted
        | Kind::OilCheck => |found| found.job,
        Kind::Photo => |found| found.test.or(found.repair).or(found.job),
        Kind::Job => |_| None,
        _ => return None,
    };
    let found: Belonging = serde_json::from_slice(body).ok()?;
    let parent = parent(&found);
    // Jobs sort by the day they were opened, then by number.
    let order = match kind {
        Kind::Job => {
            format!(
                "{} {}",
                found.opened_on.unwrap_or_default(),
                found.number.unwrap_or_default()
            )
        }
        _ => found.order.unwrap_or_default(),
    };
    Some((
        parent.map(|id| SubjectId::from_bytes(*id.as_bytes())),
        order,
    ))
}

/// The texts of a body that a person may search for.
fn searchable(kind: Kind, body: &[u8]) -> Vec<String> {
    const FIELDS: [&str; 13] = [
        "name",
        "number",
        "description",
        "text",
        "summary",
        "phone",
        "plate",
        "note",
        "notes",
        "parts",
        "caption",
        "lot",
        "maker_text",
    ];
    // Nobody looks for a job by its terms, and what a customer agreed to is in no index.
    if matches!(
        kind,
        Kind::Land
            | Kind::Opening
            | Kind::TestReading
            | Kind::JobEstimate
            | Kind::JobAuthorisation
            | Kind::JobWarranty
            | Kind::JobSignOff
    ) {
        return Vec::new();
    }
    let Ok(serde_json::Value::Object(fields)) = serde_json::from_slice(body) else {
        return Vec::new();
    };
    // A repair's words lie with its work.
    let inner = fields.get("work").and_then(serde_json::Value::as_object);
    [Some(&fields), inner]
        .into_iter()
        .flatten()
        .flat_map(|fields| {
            FIELDS
                .iter()
                .filter_map(|field| fields.get(*field)?.as_str())
        })
        .filter(|text| !text.is_empty())
        .map(str::to_owned)
        .collect()
}
