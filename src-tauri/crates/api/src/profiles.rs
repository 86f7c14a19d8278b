//! Unit profiles, put together from their subjects.

use journal::SubjectId;
use model::unit::{Bore, BoreProfile, Circuit, Unit, UnitProfile};
use model::{Id, Kind};
use serde::de::DeserializeOwned;
use store::Store;

use crate::error::ApiError;
use crate::journal_io::{id, kind_name, lead, need, subject};

/// Every part of one kind of a parent, in order.
fn parts<T: DeserializeOwned>(
    store: &Store,
    parent: SubjectId,
    kind: Kind,
) -> Result<Vec<(Id, T)>, ApiError> {
    let mut found = Vec::new();
    for part in store.children(parent, &kind_name(kind))? {
        if let Some(body) = lead(store, part, kind)? {
            found.push((id(part), body));
        }
    }
    Ok(found)
}

fn first<T: DeserializeOwned>(
    store: &Store,
    parent: SubjectId,
    kind: Kind,
) -> Result<Option<T>, ApiError> {
    Ok(parts(store, parent, kind)?
        .into_iter()
        .next()
        .map(|(_, body)| body))
}

/// One bore with everything about it, read from a store.
///
/// # Errors
/// [`ApiError`] when the bore, its circuit or its unit isn't there.
pub fn bore(store: &Store, bore_id: Id) -> Result<BoreProfile, ApiError> {
    let here = subject(bore_id);
    let bore: Bore = need(store, here, Kind::Bore)?;
    let circuit: Circuit = need(store, subject(bore.circuit), Kind::Circuit)?;
    let unit: Unit = need(store, subject(circuit.unit), Kind::Unit)?;
    let strip = |parts: Vec<(Id, _)>| parts.into_iter().map(|(_, part)| part).collect();
    Ok(BoreProfile {
        id: bore_id,
        unit,
        lands: strip(parts(store, here, Kind::Land)?),
        spring: first(store, here, Kind::Spring)?,
        openings: parts(store, here, Kind::Opening)?
            .into_iter()
            .map(|(_, part)| part)
            .collect(),
        balance_orifice: first(store, here, Kind::BalanceOrifice)?,
        relief: first(store, subject(bore.circuit), Kind::Relief)?,
        test_points: parts(store, here, Kind::TestPoint)?,
        circuit,
        bore,
    })
}

/// The clutches and brakes of a circuit, in order.
pub(crate) fn clutches(store: &Store, circuit: Id) -> Result<Vec<model::unit::Clutch>, ApiError> {
    let found = parts(store, subject(circuit), Kind::Clutch)?;
    Ok(found.into_iter().map(|(_, clutch)| clutch).collect())
}

/// A unit's bores, circuit by circuit.
pub(crate) fn bores_of_unit(store: &Store, unit: Id) -> Result<Vec<Id>, ApiError> {
    let mut bores = Vec::new();
    for circuit in store.children(subject(unit), &kind_name(Kind::Circuit))? {
        bores.extend(
            store
                .children(circuit, &kind_name(Kind::Bore))?
                .into_iter()
                .map(id),
        );
    }
    Ok(bores)
}

/// A whole unit.
pub(crate) fn unit(store: &Store, unit_id: Id) -> Result<UnitProfile, ApiError> {
    let unit: Unit = need(store, subject(unit_id), Kind::Unit)?;
    let bores = bores_of_unit(store, unit_id)?;
    let bores = bores
        .into_iter()
        .map(|id| bore(store, id))
        .collect::<Result<_, _>>()?;
    Ok(UnitProfile {
        id: unit_id,
        unit,
        bores,
    })
}
