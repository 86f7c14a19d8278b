//! Bodies of records: read as their kind, and written in one form.

use std::collections::BTreeSet;

use model::Kind;
use model::bench::{Instrument, Stand, VacuumTest};
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::DemoError;

/// Reads a body as its kind and writes it again, so that a misspelt field is told and every body
/// has one form.
pub(super) fn canonical_body(kind: Kind, body: serde_json::Value) -> Result<Vec<u8>, String> {
    use model::{
        bench, caution, inspection, inspection_plan, job, machining, person, photo, relief_check,
        repair, unit, what_if,
    };
    fn through<T: DeserializeOwned + Serialize>(
        body: serde_json::Value,
    ) -> Result<Vec<u8>, String> {
        let given: BTreeSet<String> = body
            .as_object()
            .map(|fields| fields.keys().cloned().collect())
            .unwrap_or_default();
        let read: T = serde_json::from_value(body).map_err(|error| error.to_string())?;
        let written = serde_json::to_value(&read).map_err(|error| error.to_string())?;
        let kept: BTreeSet<String> = written
            .as_object()
            .map(|fields| fields.keys().cloned().collect())
            .unwrap_or_default();
        if let Some(unread) = given.difference(&kept).next() {
            return Err(format!("no field {unread}"));
        }
        serde_json::to_vec(&read).map_err(|error| error.to_string())
    }
    match kind {
        Kind::Shop => through::<person::Shop>(body),
        Kind::Person => through::<person::Person>(body),
        Kind::Instrument => through::<Instrument>(body),
        Kind::Stand => through::<Stand>(body),
        Kind::Unit => through::<unit::Unit>(body),
        Kind::Circuit => through::<unit::Circuit>(body),
        Kind::Bore => through::<unit::Bore>(body),
        Kind::Land => through::<unit::Land>(body),
        Kind::Spring => through::<unit::Spring>(body),
        Kind::Opening => through::<unit::Opening>(body),
        Kind::BalanceOrifice => through::<unit::BalanceOrifice>(body),
        Kind::Relief => through::<unit::Relief>(body),
        Kind::Tap => through::<unit::Tap>(body),
        Kind::Clutch => through::<unit::Clutch>(body),
        Kind::TestPoint => through::<unit::TestPoint>(body),
        Kind::Job => through::<job::Job>(body),
        Kind::JobVehicle => through::<job::Vehicle>(body),
        Kind::JobComplaint => through::<job::Complaint>(body),
        Kind::JobNotes => through::<job::Notes>(body),
        Kind::JobCustomer => through::<job::Customer>(body),
        Kind::Caution => through::<caution::CautionRead>(body),
        Kind::Test => through::<VacuumTest>(body),
        Kind::TestSetup => through::<bench::Setup>(body),
        Kind::TestStandCheck => through::<bench::StandCheck>(body),
        Kind::TestBlank => through::<bench::Blank>(body),
        Kind::TestReading => through::<bench::Reading>(body),
        Kind::TestDecision => through::<bench::Decision>(body),
        Kind::ReliefCheck => through::<relief_check::ReliefCheck>(body),
        Kind::ShopPart => through::<model::shop_part::ShopPart>(body),
        Kind::Repair => through::<repair::Repair>(body),
        Kind::Photo => through::<photo::Photo>(body),
        Kind::Erasure => through::<journal::erasure::Erasure>(body),
        Kind::Inspection => through::<inspection::Inspection>(body),
        Kind::InspectionPlan => through::<inspection_plan::InspectionPlan>(body),
        Kind::WhatIf => through::<what_if::WhatIf>(body),
        Kind::Machining => through::<machining::Machining>(body),
        Kind::JobEstimate => through::<model::estimate::Estimate>(body),
        Kind::JobAuthorisation => through::<model::authorisation::Authorisation>(body),
        Kind::JobFitted => through::<model::fitted_part::FittedPart>(body),
        Kind::JobWarranty => through::<model::warranty::Warranty>(body),
        Kind::JobSignOff => through::<model::sign_off::SignOff>(body),
        Kind::JobComeback => through::<model::comeback::Comeback>(body),
        Kind::TapReading => through::<model::tap_reading::TapReading>(body),
        Kind::OilCheck => through::<model::oil_check::OilCheck>(body),
        // It says nothing but itself.
        Kind::Removal => Ok(b"{}".to_vec()),
    }
}

/// A body of any type.
pub(super) trait Body {
    fn bytes(&self) -> Result<Vec<u8>, DemoError>;
}

impl<T: Serialize> Body for T {
    fn bytes(&self) -> Result<Vec<u8>, DemoError> {
        serde_json::to_vec(self).map_err(|error| DemoError::Form {
            path: std::any::type_name::<T>().to_owned(),
            error: error.to_string(),
        })
    }
}
