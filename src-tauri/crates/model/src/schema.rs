//! The JSON Schemas of the bodies, for whoever reads or writes bundles without this program.

use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::{Map, Value, json};

use crate::authorisation::Authorisation;
use crate::bench::{Blank, Decision, Instrument, Reading, Setup, Stand, StandCheck, VacuumTest};
use crate::caution::CautionRead;
use crate::comeback::Comeback;
use crate::estimate::Estimate;
use crate::fitted_part::FittedPart;
use crate::inspection::Inspection;
use crate::inspection_plan::InspectionPlan;
use crate::job::{Complaint, Customer, Job, Notes, Vehicle};
use crate::kind::Kind;
use crate::machining::Machining;
use crate::oil_check::OilCheck;
use crate::person::{Person, Shop};
use crate::photo::Photo;
use crate::relief_check::ReliefCheck;
use crate::repair::Repair;
use crate::shop_part::ShopPart;
use crate::sign_off::SignOff;
use crate::tap_reading::TapReading;
use crate::unit::{
    BalanceOrifice, Bore, Circuit, Clutch, Land, Opening, Relief, Spring, Tap, TestPoint, Unit,
};
use crate::warranty::Warranty;
use crate::what_if::WhatIf;

fn of<T: JsonSchema>(schemas: &mut SchemaGenerator) -> Schema {
    schemas.subschema_for::<T>()
}

/// The type that a kind's bodies are read as.
fn body(kind: Kind, schemas: &mut SchemaGenerator) -> Schema {
    match kind {
        Kind::Shop => of::<Shop>(schemas),
        Kind::Person => of::<Person>(schemas),
        Kind::Instrument => of::<Instrument>(schemas),
        Kind::Stand => of::<Stand>(schemas),
        Kind::Unit => of::<Unit>(schemas),
        Kind::Circuit => of::<Circuit>(schemas),
        Kind::Bore => of::<Bore>(schemas),
        Kind::Land => of::<Land>(schemas),
        Kind::Spring => of::<Spring>(schemas),
        Kind::Opening => of::<Opening>(schemas),
        Kind::BalanceOrifice => of::<BalanceOrifice>(schemas),
        Kind::Relief => of::<Relief>(schemas),
        Kind::TestPoint => of::<TestPoint>(schemas),
        Kind::Job => of::<Job>(schemas),
        Kind::JobVehicle => of::<Vehicle>(schemas),
        Kind::JobComplaint => of::<Complaint>(schemas),
        Kind::JobNotes => of::<Notes>(schemas),
        Kind::JobCustomer => of::<Customer>(schemas),
        Kind::Caution => of::<CautionRead>(schemas),
        Kind::Test => of::<VacuumTest>(schemas),
        Kind::TestSetup => of::<Setup>(schemas),
        Kind::TestStandCheck => of::<StandCheck>(schemas),
        Kind::TestBlank => of::<Blank>(schemas),
        Kind::TestReading => of::<Reading>(schemas),
        Kind::TestDecision => of::<Decision>(schemas),
        Kind::ReliefCheck => of::<ReliefCheck>(schemas),
        Kind::Repair => of::<Repair>(schemas),
        Kind::Photo => of::<Photo>(schemas),
        Kind::Erasure => erasure(),
        Kind::Inspection => of::<Inspection>(schemas),
        Kind::InspectionPlan => of::<InspectionPlan>(schemas),
        Kind::WhatIf => of::<WhatIf>(schemas),
        Kind::Removal => json_schema!({ "type": "object" }),
        Kind::Tap => of::<Tap>(schemas),
        Kind::Clutch => of::<Clutch>(schemas),
        Kind::ShopPart => of::<ShopPart>(schemas),
        Kind::Machining => of::<Machining>(schemas),
        Kind::JobEstimate => of::<Estimate>(schemas),
        Kind::JobAuthorisation => of::<Authorisation>(schemas),
        Kind::JobFitted => of::<FittedPart>(schemas),
        Kind::JobWarranty => of::<Warranty>(schemas),
        Kind::JobSignOff => of::<SignOff>(schemas),
        Kind::JobComeback => of::<Comeback>(schemas),
        Kind::TapReading => of::<TapReading>(schemas),
        Kind::OilCheck => of::<OilCheck>(schemas),
    }
}

/// The journal's own body ([`journal::erasure::Erasure`]), which knows nothing of schemas.
fn erasure() -> Schema {
    json_schema!({
        "description": "An erasure: what was erased, never what it said.",
        "type": "object",
        "properties": {
            "about": {
                "description": "What is erased.",
                "type": "array",
                "items": {
                    "type": "object",
                    "properties": {
                        "subject": { "description": "The subject.", "type": "string" },
                        "kinds": {
                            "description": "The kinds of its records.",
                            "type": "array",
                            "items": { "type": "string" }
                        }
                    },
                    "required": ["subject", "kinds"]
                }
            },
            "records": {
                "description": "The records whose bodies went where the erasure was made.",
                "type": "array",
                "items": { "type": "string" }
            }
        },
        "required": ["about"]
    })
}

/// One JSON Schema (2020-12) of all bodies: under `kinds` each kind's name with the `version` of
/// the form and the schema of the `body`.
#[must_use]
pub fn bodies() -> Value {
    let mut schemas = SchemaSettings::draft2020_12().into_generator();
    let kinds: Map<String, Value> = Kind::all()
        .map(|kind| {
            let form = json!({ "version": kind.version(), "body": body(kind, &mut schemas) });
            (kind.name().to_owned(), form)
        })
        .collect();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Bodies",
        "description": "What the bodies of records hold, by kind.",
        "kinds": kinds,
        "$defs": schemas.take_definitions(true),
    })
}
