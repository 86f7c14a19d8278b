//! The kinds of record that this program writes, and how each folds.

use journal::AttachmentHash;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::photo;

/// A record kind. Its name on the wire never changes; its meaning changes only with its version.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
pub enum Kind {
    /// The shop.
    #[serde(rename = "shop")]
    Shop,
    /// A person.
    #[serde(rename = "person")]
    Person,
    /// An instrument.
    #[serde(rename = "instrument")]
    Instrument,
    /// A vacuum stand.
    #[serde(rename = "stand")]
    Stand,
    /// A unit.
    #[serde(rename = "unit")]
    Unit,
    /// A circuit of a unit.
    #[serde(rename = "circuit")]
    Circuit,
    /// A bore.
    #[serde(rename = "bore")]
    Bore,
    /// A land.
    #[serde(rename = "land")]
    Land,
    /// A spring.
    #[serde(rename = "spring")]
    Spring,
    /// A metering opening.
    #[serde(rename = "opening")]
    Opening,
    /// A pressure tap.
    #[serde(rename = "tap")]
    Tap,
    /// A clutch or brake.
    #[serde(rename = "clutch")]
    Clutch,
    /// A balance orifice.
    #[serde(rename = "balance_orifice")]
    BalanceOrifice,
    /// A relief.
    #[serde(rename = "relief")]
    Relief,
    /// A vacuum test point.
    #[serde(rename = "test_point")]
    TestPoint,
    /// A job.
    #[serde(rename = "job")]
    Job,
    /// A job's vehicle.
    #[serde(rename = "job.vehicle")]
    JobVehicle,
    /// A job's complaint.
    #[serde(rename = "job.complaint")]
    JobComplaint,
    /// A job's notes.
    #[serde(rename = "job.notes")]
    JobNotes,
    /// A job's customer: personal.
    #[serde(rename = "job.customer")]
    JobCustomer,
    /// A caution read.
    #[serde(rename = "caution")]
    Caution,
    /// A vacuum test.
    #[serde(rename = "test")]
    Test,
    /// How a test was set up.
    #[serde(rename = "test.setup")]
    TestSetup,
    /// The stand checked for a test.
    #[serde(rename = "test.stand_check")]
    TestStandCheck,
    /// The blank of a test.
    #[serde(rename = "test.blank")]
    TestBlank,
    /// A reading.
    #[serde(rename = "test.reading")]
    TestReading,
    /// A decision on record.
    #[serde(rename = "test.decision")]
    TestDecision,
    /// A relief checked in a job.
    #[serde(rename = "relief_check")]
    ReliefCheck,
    /// A repair of a bore in a job.
    #[serde(rename = "repair")]
    Repair,
    /// A photo taken in a job. Personal or not, as its taker said ([`crate::photo::PhotoShows`]).
    #[serde(rename = "photo")]
    Photo,
    /// An erasure of what was held about a person. Its body is the journal's own.
    #[serde(rename = "erasure")]
    Erasure,
    /// One check of an inspection.
    #[serde(rename = "inspection")]
    Inspection,
    /// Which bores and checks a job asks for.
    #[serde(rename = "inspection_plan")]
    InspectionPlan,
    /// A setting of a bore's parts that somebody keeps.
    #[serde(rename = "what_if")]
    WhatIf,
    /// A subject removed: it stays so whatever is edited beside it, until this is struck out.
    #[serde(rename = "removal")]
    Removal,
    /// A part of the shop's own list.
    #[serde(rename = "shop_part")]
    ShopPart,
    /// The machining sheet of a bore in a job.
    #[serde(rename = "machining")]
    Machining,
    /// A job's estimate.
    #[serde(rename = "job.estimate")]
    JobEstimate,
    /// What the customer agreed to: personal.
    #[serde(rename = "job.authorisation")]
    JobAuthorisation,
    /// A part fitted in a job.
    #[serde(rename = "job.fitted")]
    JobFitted,
    /// The warranty on a job.
    #[serde(rename = "job.warranty")]
    JobWarranty,
    /// A job signed off.
    #[serde(rename = "job.sign_off")]
    JobSignOff,
    /// That a job is the comeback of another.
    #[serde(rename = "job.comeback")]
    JobComeback,
    /// A pressure read at a tap.
    #[serde(rename = "tap_reading")]
    TapReading,
    /// A circuit checked with hot oil under pressure.
    #[serde(rename = "oil_check")]
    OilCheck,
}

/// Every kind with its name, its version, and how it folds. One table: the journal's strings come
/// from here and nowhere else.
const TABLE: [(Kind, &str, u32); 45] = [
    (Kind::Shop, "shop", 1),
    (Kind::Person, "person", 1),
    (Kind::Instrument, "instrument", 1),
    (Kind::Stand, "stand", 1),
    (Kind::Unit, "unit", 2),
    (Kind::Circuit, "circuit", 2),
    (Kind::Bore, "bore", 2),
    (Kind::Land, "land", 2),
    (Kind::Spring, "spring", 2),
    (Kind::Opening, "opening", 2),
    (Kind::Tap, "tap", 1),
    (Kind::Clutch, "clutch", 1),
    (Kind::BalanceOrifice, "balance_orifice", 2),
    (Kind::Relief, "relief", 1),
    (Kind::TestPoint, "test_point", 1),
    (Kind::Job, "job", 1),
    (Kind::JobVehicle, "job.vehicle", 1),
    (Kind::JobComplaint, "job.complaint", 1),
    (Kind::JobNotes, "job.notes", 1),
    (Kind::JobCustomer, "job.customer", 1),
    (Kind::Caution, "caution", 2),
    (Kind::Test, "test", 1),
    (Kind::TestSetup, "test.setup", 1),
    (Kind::TestStandCheck, "test.stand_check", 1),
    (Kind::TestBlank, "test.blank", 1),
    (Kind::TestReading, "test.reading", 1),
    (Kind::TestDecision, "test.decision", 1),
    (Kind::ReliefCheck, "relief_check", 1),
    (Kind::Repair, "repair", 2),
    (Kind::Photo, "photo", 1),
    (Kind::Erasure, "erasure", 1),
    (Kind::Inspection, "inspection", 1),
    (Kind::InspectionPlan, "inspection_plan", 1),
    (Kind::WhatIf, "what_if", 1),
    (Kind::Removal, "removal", 1),
    (Kind::ShopPart, "shop_part", 1),
    (Kind::Machining, "machining", 1),
    (Kind::JobEstimate, "job.estimate", 1),
    (Kind::JobAuthorisation, "job.authorisation", 1),
    (Kind::JobFitted, "job.fitted", 1),
    (Kind::JobWarranty, "job.warranty", 1),
    (Kind::JobSignOff, "job.sign_off", 2),
    (Kind::JobComeback, "job.comeback", 1),
    (Kind::TapReading, "tap_reading", 1),
    (Kind::OilCheck, "oil_check", 1),
];

impl Kind {
    /// All kinds.
    pub fn all() -> impl Iterator<Item = Self> {
        TABLE.iter().map(|row| row.0)
    }

    /// Its name in the journal.
    #[must_use]
    pub fn name(self) -> &'static str {
        TABLE
            .iter()
            .find(|row| row.0 == self)
            .map_or("", |row| row.1)
    }

    /// The version of its body that this program writes.
    #[must_use]
    pub fn version(self) -> u32 {
        TABLE
            .iter()
            .find(|row| row.0 == self)
            .map_or(0, |row| row.2)
    }

    /// The version to write with a body: the lowest whose readers take it. A profile that lacks no
    /// dimension is written as it always was, so that older programs read it too.
    #[must_use]
    pub fn version_for(self, body: &serde_json::Value) -> u32 {
        let lacks = |fields: &[&str]| fields.iter().any(|field| body.pointer(field).is_none());
        let newer = match self {
            Self::Unit => lacks(&["/oil", "/line_idle_pa", "/line_highest_pa"]),
            Self::Circuit => lacks(&[
                "/setpoint_pa",
                "/specified_low_pa",
                "/specified_high_pa",
                "/demand_m3_s",
                "/solenoids",
            ]),
            Self::Bore => lacks(&["/spool/stroke_m", "/spool/friction_n"]),
            Self::Land => lacks(&["/diameter_m"]),
            Self::Spring => lacks(&["/rate_n_per_m", "/load_regulating_n"]),
            Self::BalanceOrifice => lacks(&["/length_m"]),
            // An older reader would take holes for a groove.
            Self::Opening => body.pointer("/window").is_some(),
            Self::Repair => repair_is_newer(body),
            // An older reader knows the hazards of the bench alone.
            Self::Caution => {
                let hazard = body.pointer("/hazard").and_then(serde_json::Value::as_str);
                matches!(hazard, Some("chips" | "raised_wheels" | "road_test"))
            }
            Self::JobSignOff => sign_off_is_newer(body),
            _ => true,
        };
        if newer { self.version() } else { 1 }
    }

    /// The kind of a name, if this program knows it.
    #[must_use]
    pub fn of(name: &str) -> Option<Self> {
        TABLE.iter().find(|row| row.1 == name).map(|row| row.0)
    }

    /// True when records of this kind only add: every one stands, and two at once are no conflict.
    #[must_use]
    pub fn adds(self) -> bool {
        matches!(
            self,
            Self::Caution | Self::TestReading | Self::Erasure | Self::TapReading
        )
    }

    /// True when a standing record of this kind removes its subject.
    #[must_use]
    pub const fn removes(self) -> bool {
        matches!(self, Self::Removal)
    }

    /// The fields, at any depth of the body, in which people write as they please: left out of
    /// what is meant for strangers.
    #[must_use]
    pub const fn free_text(self) -> &'static [&'static str] {
        match self {
            Self::JobComplaint | Self::JobNotes => &["text"],
            Self::TestDecision => &["note"],
            Self::Repair => &["notes", "parts"],
            Self::Photo => &["caption"],
            Self::Inspection => &["note"],
            Self::InspectionPlan => &["why"],
            Self::WhatIf => &["note"],
            Self::ShopPart => &["notes"],
            Self::Machining => &["notes", "note", "parts"],
            Self::JobEstimate => &["what", "note"],
            Self::JobAuthorisation | Self::JobComeback => &["note"],
            Self::JobFitted => &["note", "source"],
            Self::JobWarranty => &["text"],
            Self::JobSignOff => &["statement", "signed_by"],
            Self::TapReading => &["note", "command", "load"],
            Self::OilCheck => &["note", "fluid"],
            _ => &[],
        }
    }

    /// True when bodies of this kind name attachments.
    #[must_use]
    pub const fn has_attachments(self) -> bool {
        matches!(self, Self::Photo)
    }

    /// The attachments that a body of this kind names; none from one that can't be read.
    #[must_use]
    pub fn attachments(self, body: &[u8]) -> Vec<AttachmentHash> {
        match self {
            Self::Photo => photo::attachments(body),
            _ => Vec::new(),
        }
    }

    /// True when every body of this kind names a private person: left out of bundles, erasable. Of
    /// photos each says so for itself.
    #[must_use]
    pub fn personal(self) -> bool {
        matches!(self, Self::JobCustomer | Self::JobAuthorisation)
    }

    /// True when an erasure may take bodies of this kind: what is about a person or may be, and
    /// never a measurement or what follows from one.
    #[must_use]
    pub const fn erasable(self) -> bool {
        matches!(
            self,
            Self::JobCustomer
                | Self::JobAuthorisation
                | Self::JobComplaint
                | Self::JobNotes
                | Self::Photo
        )
    }
}

/// True for a repair with what readers of version 1 refuse.
fn repair_is_newer(body: &serde_json::Value) -> bool {
    const NEWER: [&str; 9] = [
        "/work/spring_tolerance_n",
        "/work/sleeve_outer_m",
        "/work/seat_gap_m",
        "/work/seat_gap_uncertainty_m",
        "/work/sleeve_material",
        "/work/valve_material",
        "/work/stroke_m",
        "/work/polished_off_m",
        "/work/orifice_m",
    ];
    NEWER.iter().any(|field| body.pointer(field).is_some())
        || body
            .pointer("/work/option")
            .and_then(serde_json::Value::as_str)
            == Some("orifice_changed")
}

/// True for a sign-off that names something open which readers of version 1 don't know.
fn sign_off_is_newer(body: &serde_json::Value) -> bool {
    let open = body.pointer("/open").and_then(serde_json::Value::as_array);
    let unknown = |item: &serde_json::Value| item["open"] == "machining_unsigned";
    open.is_some_and(|open| open.iter().any(unknown))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sign_off_is_written_so_that_older_programs_read_it_where_they_can() {
        let of = |open: serde_json::Value| {
            Kind::JobSignOff.version_for(&serde_json::json!({ "open": open }))
        };
        assert_eq!(of(serde_json::json!([{ "open": "other_currency" }])), 1);
        let unsigned = serde_json::json!([{ "open": "machining_unsigned", "bore": "x" }]);
        assert_eq!(of(unsigned), 2);
    }

    #[test]
    fn every_kind_has_one_row_and_its_wire_name_is_its_journal_name() {
        for kind in Kind::all() {
            assert_eq!(Kind::of(kind.name()), Some(kind));
            assert_eq!(serde_json::to_value(kind).unwrap(), kind.name());
        }
        let names: std::collections::BTreeSet<_> = Kind::all().map(Kind::name).collect();
        assert_eq!(names.len(), TABLE.len());
    }
}
