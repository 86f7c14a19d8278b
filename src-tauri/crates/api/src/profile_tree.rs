//! A unit with the subjects of all its parts, so that one of them can be changed, or tried changed.

use diagnosis::prospect::prospect;
use journal::SubjectId;
use model::finding::{FindingCode, Severity};
use model::limits::Check;
use model::unit::{BoreProfile, Circuit, Unit};
use model::{Finding, Id, Kind};
use serde::de::DeserializeOwned;
use store::Store;

use crate::drawing;
use crate::dto::{
    BalanceOrificePart, BoreView, CircuitView, ClutchPart, LandPart, OpeningPart, PartCost,
    PartFinding, ProfilePart, ProfileView, ReliefPart, RemovedPart, SpringPart, TapPart,
    TestPointPart, UndoState,
};
use crate::error::ApiError;
use crate::journal_io::{body, id, kind_name, standing, subject};

/// Reads parts, and notes which of them two people wrote at once.
struct Reader<'a> {
    store: &'a Store,
    concurrent: Vec<PartFinding>,
}

impl Reader<'_> {
    fn part<T: DeserializeOwned>(
        &mut self,
        of: SubjectId,
        kind: Kind,
    ) -> Result<Option<T>, ApiError> {
        let records = standing(self.store, of, kind)?;
        if records.concurrent {
            self.concurrent.push(PartFinding {
                id: id(of),
                kind,
                finding: Finding::at(Severity::Doubt, FindingCode::ConcurrentEdit, ""),
            });
        }
        Ok(records.lead().and_then(body))
    }

    fn parts<T: DeserializeOwned, P>(
        &mut self,
        parent: Id,
        kind: Kind,
        make: impl Fn(Id, T) -> P,
    ) -> Result<Vec<P>, ApiError> {
        let mut found = Vec::new();
        for of in self.store.children(subject(parent), &kind_name(kind))? {
            if let Some(body) = self.part(of, kind)? {
                found.push(make(id(of), body));
            }
        }
        Ok(found)
    }

    fn bore(&mut self, of: Id, body: model::unit::Bore) -> Result<BoreView, ApiError> {
        let springs = self.parts(of, Kind::Spring, |id, body| SpringPart { id, body })?;
        let orifices = self.parts(of, Kind::BalanceOrifice, |id, body| BalanceOrificePart {
            id,
            body,
        })?;
        Ok(BoreView {
            id: of,
            lands: self.parts(of, Kind::Land, |id, body| LandPart { id, body })?,
            openings: self.parts(of, Kind::Opening, |id, body| OpeningPart { id, body })?,
            spring: springs.into_iter().next(),
            balance_orifice: orifices.into_iter().next(),
            test_points: self.parts(of, Kind::TestPoint, |id, body| TestPointPart { id, body })?,
            drawing: drawing::blank(of, &body),
            can: Vec::new(),
            costs: Vec::new(),
            body,
        })
    }
}

/// Reads a unit with all its parts; nothing in it is judged yet.
///
/// # Errors
/// [`ApiError`] when it isn't there.
pub(crate) fn read(store: &Store, unit: Id) -> Result<ProfileView, ApiError> {
    let mut reader = Reader {
        store,
        concurrent: Vec::new(),
    };
    let body: Unit = reader
        .part(subject(unit), Kind::Unit)?
        .ok_or_else(|| ApiError::not_found("unit", unit))?;
    let mut circuits = Vec::new();
    let bodies: Vec<(Id, Circuit)> = reader.parts(unit, Kind::Circuit, |id, body| (id, body))?;
    for (of, body) in bodies {
        let reliefs = reader.parts(of, Kind::Relief, |id, body| ReliefPart { id, body })?;
        let bores: Vec<(Id, model::unit::Bore)> =
            reader.parts(of, Kind::Bore, |id, body| (id, body))?;
        circuits.push(CircuitView {
            id: of,
            body,
            taps: reader.parts(of, Kind::Tap, |id, body| TapPart { id, body })?,
            clutches: reader.parts(of, Kind::Clutch, |id, body| ClutchPart { id, body })?,
            relief: reliefs.into_iter().next(),
            bores: bores
                .into_iter()
                .map(|(id, body)| reader.bore(id, body))
                .collect::<Result<_, _>>()?,
        });
    }
    Ok(ProfileView {
        id: unit,
        body,
        circuits,
        findings: reader.concurrent,
        removed: Vec::new(),
        jobs: 0,
        undo: UndoState::default(),
    })
}

/// A unit that isn't saved yet.
pub(crate) fn unsaved(body: Unit) -> ProfileView {
    ProfileView {
        id: Id::nil(),
        body,
        circuits: Vec::new(),
        findings: Vec::new(),
        removed: Vec::new(),
        jobs: 0,
        undo: UndoState::default(),
    }
}

/// The profile of one bore of a unit as it is edited.
pub(crate) fn bore_profile(
    view: &ProfileView,
    circuit: &CircuitView,
    bore: &BoreView,
) -> BoreProfile {
    BoreProfile {
        id: bore.id,
        unit: view.body.clone(),
        circuit: circuit.body.clone(),
        bore: bore.body.clone(),
        lands: bore.lands.iter().map(|part| part.body.clone()).collect(),
        spring: bore.spring.as_ref().map(|part| part.body.clone()),
        openings: bore.openings.iter().map(|part| part.body.clone()).collect(),
        balance_orifice: bore.balance_orifice.as_ref().map(|part| part.body.clone()),
        relief: circuit.relief.as_ref().map(|part| part.body.clone()),
        test_points: bore
            .test_points
            .iter()
            .map(|part| (part.id, part.body.clone()))
            .collect(),
    }
}

/// Says what is odd and what is missing, part by part, and draws each bore.
pub(crate) fn judge(view: &mut ProfileView) -> Result<(), ApiError> {
    let mut found: Vec<PartFinding> = Vec::new();
    let mut note = |id: Id, kind: Kind, part: &dyn Check| {
        let findings = part.findings().into_iter();
        found.extend(findings.map(|finding| PartFinding { id, kind, finding }));
    };
    note(view.id, Kind::Unit, &view.body);
    for circuit in &view.circuits {
        note(circuit.id, Kind::Circuit, &circuit.body);
        for tap in &circuit.taps {
            note(tap.id, Kind::Tap, &tap.body);
        }
        for clutch in &circuit.clutches {
            note(clutch.id, Kind::Clutch, &clutch.body);
        }
        if let Some(relief) = &circuit.relief {
            note(relief.id, Kind::Relief, &relief.body);
        }
    }
    let mut bores = Vec::new();
    for (c, circuit) in view.circuits.iter().enumerate() {
        let clutches: Vec<_> = circuit.clutches.iter().map(|part| &part.body).collect();
        for (b, bore) in circuit.bores.iter().enumerate() {
            let profile = bore_profile(view, circuit, bore);
            for finding in profile.findings() {
                // Unit, circuit and relief are told once, above; what is missing is among the costs.
                let (id, kind, field) = place(view, circuit, bore, &finding.field);
                let told = matches!(kind, Kind::Unit | Kind::Circuit | Kind::Relief)
                    || finding.code == FindingCode::ProfileIncomplete;
                if !told {
                    let finding = Finding { field, ..finding };
                    found.push(PartFinding { id, kind, finding });
                }
            }
            let prospect = prospect(&profile, &clutches);
            let costs = prospect.costs.into_iter().map(|cost| {
                let (id, kind, field) = place(view, circuit, bore, &cost.field);
                PartCost {
                    id,
                    kind,
                    field,
                    costs: cost.costs,
                }
            });
            let drawing = drawing::draw(&profile, None, &[])?;
            bores.push((c, b, prospect.can, costs.collect::<Vec<_>>(), drawing));
        }
    }
    for (c, b, can, costs, drawing) in bores {
        let bore = &mut view.circuits[c].bores[b];
        bore.can = can;
        bore.costs = costs;
        bore.drawing = drawing;
    }
    view.findings.append(&mut found);
    Ok(())
}

/// The part that a field of a bore's profile belongs to, and the field within it.
fn place(
    view: &ProfileView,
    circuit: &CircuitView,
    bore: &BoreView,
    field: &str,
) -> (Id, Kind, String) {
    let (head, rest) = field.split_once('.').unwrap_or((field, ""));
    let (name, index) = match head.split_once('[') {
        Some((name, index)) => (name, index.trim_end_matches(']').parse::<usize>().ok()),
        None => (head, None),
    };
    let of_bore = || (bore.id, Kind::Bore, field.to_owned());
    let at = |id: Option<Id>, kind| id.map_or_else(of_bore, |id| (id, kind, rest.to_owned()));
    match (name, index) {
        ("unit", _) => (view.id, Kind::Unit, rest.to_owned()),
        ("circuit", _) => (circuit.id, Kind::Circuit, rest.to_owned()),
        ("bore", _) => (bore.id, Kind::Bore, rest.to_owned()),
        // A circuit without one lacks it, not each of its bores.
        ("clutches", None) => (circuit.id, Kind::Circuit, field.to_owned()),
        ("clutches", Some(i)) => at(circuit.clutches.get(i).map(|part| part.id), Kind::Clutch),
        ("relief", _) => at(circuit.relief.as_ref().map(|part| part.id), Kind::Relief),
        ("spring", _) => at(bore.spring.as_ref().map(|part| part.id), Kind::Spring),
        ("balance_orifice", _) => at(
            bore.balance_orifice.as_ref().map(|part| part.id),
            Kind::BalanceOrifice,
        ),
        ("lands", Some(i)) => at(bore.lands.get(i).map(|part| part.id), Kind::Land),
        ("openings", Some(i)) => at(bore.openings.get(i).map(|part| part.id), Kind::Opening),
        ("test_points", Some(i)) => {
            at(bore.test_points.get(i).map(|part| part.id), Kind::TestPoint)
        }
        _ => of_bore(),
    }
}

/// Parts of a unit that were removed themselves, not with what they belong to.
pub(crate) fn removed(store: &Store, unit: Id) -> Result<Vec<RemovedPart>, ApiError> {
    let mut found = Vec::new();
    for of in store.descendants(subject(unit))? {
        if of != subject(unit) && store.is_removed(of)? == Some(true) {
            found.extend(named(store, of)?);
        }
    }
    Ok(found)
}

/// A part by kind and name.
pub(crate) fn named(store: &Store, of: SubjectId) -> Result<Option<RemovedPart>, ApiError> {
    for kind in PART_KINDS {
        let Some(body) = standing(store, of, kind)?
            .lead()
            .and_then(body::<serde_json::Value>)
        else {
            continue;
        };
        let name = body.get("name").and_then(serde_json::Value::as_str);
        return Ok(Some(RemovedPart {
            id: id(of),
            kind,
            name: name.unwrap_or_default().to_owned(),
        }));
    }
    Ok(None)
}

/// The kinds that a profile is made of.
pub(crate) const PART_KINDS: [Kind; 11] = [
    Kind::Unit,
    Kind::Circuit,
    Kind::Tap,
    Kind::Clutch,
    Kind::Relief,
    Kind::Bore,
    Kind::Land,
    Kind::Opening,
    Kind::Spring,
    Kind::BalanceOrifice,
    Kind::TestPoint,
];

/// Puts a part into a unit as it is edited: in place of the one with its id, or as a new one.
/// A parent that isn't there takes nothing.
pub(crate) fn put(view: &mut ProfileView, of: Id, part: &ProfilePart) {
    macro_rules! into_list {
        ($list:expr, $part:ident, $body:expr) => {{
            let entered = $part {
                id: of,
                body: $body.clone(),
            };
            match $list.iter_mut().find(|part| part.id == of) {
                Some(old) => *old = entered,
                None => $list.push(entered),
            }
        }};
    }
    let circuits = &mut view.circuits;
    if let ProfilePart::Unit(body) = part {
        view.body = body.clone();
    } else if let ProfilePart::Circuit(body) = part {
        match circuits.iter_mut().find(|circuit| circuit.id == of) {
            Some(old) => old.body = body.clone(),
            None => circuits.push(CircuitView {
                id: of,
                body: body.clone(),
                taps: Vec::new(),
                clutches: Vec::new(),
                relief: None,
                bores: Vec::new(),
            }),
        }
    } else if let Some(circuit) = circuit_of(part) {
        let Some(circuit) = circuits.iter_mut().find(|one| one.id == circuit) else {
            return;
        };
        match part {
            ProfilePart::Tap(body) => into_list!(circuit.taps, TapPart, body),
            ProfilePart::Clutch(body) => into_list!(circuit.clutches, ClutchPart, body),
            ProfilePart::Relief(body) => {
                circuit.relief = Some(ReliefPart {
                    id: of,
                    body: body.clone(),
                });
            }
            ProfilePart::Bore(body) => match circuit.bores.iter_mut().find(|bore| bore.id == of) {
                Some(old) => old.body = body.clone(),
                None => circuit.bores.push(BoreView {
                    id: of,
                    lands: Vec::new(),
                    openings: Vec::new(),
                    spring: None,
                    balance_orifice: None,
                    test_points: Vec::new(),
                    drawing: drawing::blank(of, body),
                    can: Vec::new(),
                    costs: Vec::new(),
                    body: body.clone(),
                }),
            },
            _ => {}
        }
    } else if let Some(bore) = bore_of(part) {
        let mut bores = circuits.iter_mut().flat_map(|circuit| &mut circuit.bores);
        let Some(bore) = bores.find(|one| one.id == bore) else {
            return;
        };
        match part {
            ProfilePart::Land(body) => {
                into_list!(bore.lands, LandPart, body);
                bore.lands
                    .sort_by(|a, b| a.body.start_m.total_cmp(&b.body.start_m));
            }
            ProfilePart::Opening(body) => into_list!(bore.openings, OpeningPart, body),
            ProfilePart::TestPoint(body) => into_list!(bore.test_points, TestPointPart, body),
            ProfilePart::Spring(body) => {
                bore.spring = Some(SpringPart {
                    id: of,
                    body: body.clone(),
                });
            }
            ProfilePart::BalanceOrifice(body) => {
                bore.balance_orifice = Some(BalanceOrificePart {
                    id: of,
                    body: body.clone(),
                });
            }
            _ => {}
        }
    }
}

/// The circuit that a part names.
pub(crate) fn circuit_of(part: &ProfilePart) -> Option<Id> {
    match part {
        ProfilePart::Tap(part) => Some(part.circuit),
        ProfilePart::Clutch(part) => Some(part.circuit),
        ProfilePart::Relief(part) => Some(part.circuit),
        ProfilePart::Bore(part) => Some(part.circuit),
        _ => None,
    }
}

/// The bore that a part names.
pub(crate) fn bore_of(part: &ProfilePart) -> Option<Id> {
    match part {
        ProfilePart::Land(part) => Some(part.bore),
        ProfilePart::Opening(part) => Some(part.bore),
        ProfilePart::Spring(part) => Some(part.bore),
        ProfilePart::BalanceOrifice(part) => Some(part.bore),
        ProfilePart::TestPoint(part) => Some(part.bore),
        _ => None,
    }
}
