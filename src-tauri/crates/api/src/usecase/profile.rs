//! Entering a unit's profile: each part made, changed, copied, moved, removed and brought back.
//!
//! Only a number that can't be true of such a thing keeps a part from being saved. Parts that
//! contradict each other are saved and said to: a profile is entered one part at a time, and
//! passes through such states on its way.

use std::collections::HashMap;

use model::finding::Severity;
use model::job::Job;
use model::limits::Check;
use model::unit::{Bore, Circuit, order_between};
use model::{Id, Kind};
use serde_json::Value;
use store::{NewRecord, Store};

use crate::App;
use crate::dto::{
    BoreView, Nothing, ProfileCopy, ProfileGet, ProfileMove, ProfilePart, ProfilePut,
    ProfileRemove, ProfileSaved, ProfileShape, ProfileView, RemovedUnits,
};
use crate::error::{ApiError, ErrorCode};
use crate::journal_io::{body, id, kind_name, need, new_record, standing, subject};
use crate::profile_tree::{self, PART_KINDS};
use crate::usecase::audit::undo_state;
use crate::usecase::job::{changed, count};
use crate::usecase::shop::all;

/// A unit as it is edited.
pub(crate) fn get(app: &App, args: ProfileGet) -> Result<ProfileView, ApiError> {
    view(&*app.store()?, args.unit)
}

fn view(store: &Store, unit: Id) -> Result<ProfileView, ApiError> {
    finished(store, profile_tree::read(store, unit)?)
}

fn finished(store: &Store, mut view: ProfileView) -> Result<ProfileView, ApiError> {
    profile_tree::judge(&mut view)?;
    if !view.id.is_nil() {
        view.removed = profile_tree::removed(store, view.id)?;
        let jobs = all::<Job>(store, Kind::Job)?;
        view.jobs = count(jobs.iter().filter(|(_, job)| job.unit == view.id).count());
    }
    view.undo = undo_state(store)?;
    Ok(view)
}

/// Makes or changes one part, or says what that would give.
pub(crate) fn put(app: &App, args: ProfilePut) -> Result<ProfileSaved, ApiError> {
    let mut store = app.store()?;
    let part = args.part;
    let of = args.id.unwrap_or_else(Id::nil);
    if let Some(known) = args.id {
        need::<Value>(&store, subject(known), kind_of(&part))?;
    }
    let mut tree = match unit_of(&store, &part, args.id)? {
        Some(unit) => profile_tree::read(&store, unit)?,
        None => match &part {
            ProfilePart::Unit(unit) => profile_tree::unsaved(unit.clone()),
            _ => return Err(ApiError::new(ErrorCode::BadRequest).at("part")),
        },
    };
    let unit = tree.id;
    let (part, renamed) = tidied(&tree, of, part);
    let forbidden = own_findings(&part)
        .iter()
        .any(|finding| finding.severity == Severity::Wrong);
    if args.dry_run || forbidden {
        profile_tree::put(&mut tree, of, &part);
        for (of, part) in &renamed {
            profile_tree::put(&mut tree, *of, part);
        }
        return Ok(ProfileSaved {
            saved: false,
            id: args.id,
            view: finished(&store, tree)?,
        });
    }
    let of = match args.id {
        Some(known) => known,
        None => id(store.new_subject(app.now())?),
    };
    let mut records = Vec::new();
    records.extend(record(&store, of, &part)?);
    for (of, part) in &renamed {
        records.extend(record(&store, *of, part)?);
    }
    if !records.is_empty() {
        app.commit(&mut store, records)?;
    }
    let unit = if unit.is_nil() { of } else { unit };
    Ok(ProfileSaved {
        saved: true,
        id: Some(of),
        view: view(&store, unit)?,
    })
}

/// Runs an expression on the body of a part, whichever it is.
macro_rules! with_body {
    ($part:expr, $body:ident => $do:expr) => {
        match $part {
            ProfilePart::Unit($body) => $do,
            ProfilePart::Circuit($body) => $do,
            ProfilePart::Tap($body) => $do,
            ProfilePart::Clutch($body) => $do,
            ProfilePart::Relief($body) => $do,
            ProfilePart::Bore($body) => $do,
            ProfilePart::Land($body) => $do,
            ProfilePart::Opening($body) => $do,
            ProfilePart::Spring($body) => $do,
            ProfilePart::BalanceOrifice($body) => $do,
            ProfilePart::TestPoint($body) => $do,
        }
    };
}

fn own_findings(part: &ProfilePart) -> Vec<model::Finding> {
    // Contradictions between a part's own numbers may be on their way to be put right; a number
    // that can't be, and a name that isn't there, are not.
    use model::finding::FindingCode::{Missing, OutOfRange};
    let mut found = with_body!(part, body => body.findings());
    found.retain(|finding| matches!(finding.code, Missing | OutOfRange));
    found
}

fn record(store: &Store, of: Id, part: &ProfilePart) -> Result<Option<NewRecord>, ApiError> {
    with_body!(part, body => changed(store, subject(of), kind_of(part), body))
}

fn kind_of(part: &ProfilePart) -> Kind {
    match part {
        ProfilePart::Unit(_) => Kind::Unit,
        ProfilePart::Circuit(_) => Kind::Circuit,
        ProfilePart::Tap(_) => Kind::Tap,
        ProfilePart::Clutch(_) => Kind::Clutch,
        ProfilePart::Relief(_) => Kind::Relief,
        ProfilePart::Bore(_) => Kind::Bore,
        ProfilePart::Land(_) => Kind::Land,
        ProfilePart::Opening(_) => Kind::Opening,
        ProfilePart::Spring(_) => Kind::Spring,
        ProfilePart::BalanceOrifice(_) => Kind::BalanceOrifice,
        ProfilePart::TestPoint(_) => Kind::TestPoint,
    }
}

/// The unit that a part belongs to; none: the part is a new unit.
fn unit_of(store: &Store, part: &ProfilePart, known: Option<Id>) -> Result<Option<Id>, ApiError> {
    let of_circuit = |circuit: Id| {
        let circuit: Circuit = need(store, subject(circuit), Kind::Circuit)?;
        Ok::<_, ApiError>(Some(circuit.unit))
    };
    if let ProfilePart::Unit(_) = part {
        return Ok(known);
    }
    if let ProfilePart::Circuit(circuit) = part {
        return Ok(Some(circuit.unit));
    }
    if let Some(circuit) = profile_tree::circuit_of(part) {
        return of_circuit(circuit);
    }
    match profile_tree::bore_of(part) {
        Some(bore) => of_circuit(need::<Bore>(store, subject(bore), Kind::Bore)?.circuit),
        None => Ok(None),
    }
}

type Renamed = Vec<(Id, ProfilePart)>;

/// A part as it is kept: with an order key, ports from left to right; and the parts beside it that
/// call a port or a land by a name that it no longer has.
fn tidied(tree: &ProfileView, of: Id, part: ProfilePart) -> (ProfilePart, Renamed) {
    let last = |keys: Vec<&String>| order_between(keys.last().map(|key| key.as_str()), None);
    let mut renamed = Vec::new();
    let tidy = match part {
        ProfilePart::Circuit(mut it) => {
            if it.order.is_empty() {
                it.order = last(tree.circuits.iter().map(|c| &c.body.order).collect());
            }
            ProfilePart::Circuit(it)
        }
        ProfilePart::Tap(mut it) => {
            let circuit = tree.circuits.iter().find(|c| c.id == it.circuit);
            if it.order.is_empty() {
                let taps = circuit.map_or(&[][..], |c| &c.taps);
                it.order = last(taps.iter().map(|part| &part.body.order).collect());
            }
            ProfilePart::Tap(it)
        }
        ProfilePart::Clutch(mut it) => {
            let circuit = tree.circuits.iter().find(|c| c.id == it.circuit);
            if it.order.is_empty() {
                let clutches = circuit.map_or(&[][..], |c| &c.clutches);
                it.order = last(clutches.iter().map(|part| &part.body.order).collect());
            }
            ProfilePart::Clutch(it)
        }
        ProfilePart::Bore(mut it) => {
            let circuit = tree.circuits.iter().find(|c| c.id == it.circuit);
            if it.order.is_empty() {
                let bores = circuit.map_or(&[][..], |c| &c.bores);
                it.order = last(bores.iter().map(|part| &part.body.order).collect());
            }
            if let Some(old) = bore_in(tree, of) {
                renamed = after_port_names(old, &it);
            }
            it.ports.sort_by(|a, b| a.start_m.total_cmp(&b.start_m));
            ProfilePart::Bore(it)
        }
        ProfilePart::Land(mut it) => {
            if let Some(bore) = bore_in(tree, it.bore) {
                it.order = order_by_place(bore, of, &it);
                let old = bore.lands.iter().find(|part| part.id == of);
                if let Some(old) = old.filter(|old| old.body.name != it.name) {
                    renamed = after_land_name(bore, &old.body.name, &it.name);
                }
            }
            ProfilePart::Land(it)
        }
        ProfilePart::TestPoint(mut it) => {
            if it.order.is_empty() {
                let points = bore_in(tree, it.bore).map_or(&[][..], |bore| &bore.test_points);
                it.order = last(points.iter().map(|part| &part.body.order).collect());
            }
            ProfilePart::TestPoint(it)
        }
        other => other,
    };
    (tidy, renamed)
}

fn bore_in(tree: &ProfileView, bore: Id) -> Option<&BoreView> {
    let mut bores = tree.circuits.iter().flat_map(|circuit| &circuit.bores);
    bores.find(|one| one.id == bore)
}

/// Lands are kept from left to right, so the key of one follows from where it lies. It stays as
/// long as it puts the land there.
fn order_by_place(bore: &BoreView, of: Id, land: &model::unit::Land) -> String {
    let others = bore.lands.iter().filter(|part| part.id != of);
    let (left, right): (Vec<_>, Vec<_>) =
        others.partition(|part| part.body.start_m <= land.start_m);
    let low = left.iter().map(|part| &part.body.order).max();
    let high = right.iter().map(|part| &part.body.order).min();
    let fits = !land.order.is_empty()
        && low.is_none_or(|low| *low < land.order)
        && high.is_none_or(|high| land.order < *high);
    if fits {
        return land.order.clone();
    }
    order_between(low.map(String::as_str), high.map(String::as_str))
}

/// Seals and openings that name a port which has another name now. Ports are told apart by their
/// place in the list as it came, so this is asked only while none was added or taken away.
fn after_port_names(old: &BoreView, new: &Bore) -> Renamed {
    if old.body.ports.len() != new.ports.len() {
        return Vec::new();
    }
    let names: HashMap<&str, &str> = old
        .body
        .ports
        .iter()
        .zip(&new.ports)
        .filter(|(old, new)| old.name != new.name)
        .map(|(old, new)| (old.name.as_str(), new.name.as_str()))
        .collect();
    let now = |name: &str| names.get(name).map(|name| (*name).to_owned());
    let mut renamed = Vec::new();
    for part in &old.lands {
        let mut land = part.body.clone();
        for seal in &mut land.seals {
            for port in [&mut seal.left_port, &mut seal.right_port] {
                if let Some(name) = port.as_deref().and_then(now) {
                    *port = Some(name);
                }
            }
        }
        if land != part.body {
            renamed.push((part.id, ProfilePart::Land(land)));
        }
    }
    for part in &old.openings {
        if let Some(port) = now(&part.body.port) {
            let opening = model::unit::Opening {
                port,
                ..part.body.clone()
            };
            renamed.push((part.id, ProfilePart::Opening(opening)));
        }
    }
    renamed
}

/// Openings and test points that name a land which has another name now.
fn after_land_name(bore: &BoreView, old: &str, new: &str) -> Renamed {
    let mut renamed = Vec::new();
    for part in bore.openings.iter().filter(|part| part.body.land == old) {
        let opening = model::unit::Opening {
            land: new.to_owned(),
            ..part.body.clone()
        };
        renamed.push((part.id, ProfilePart::Opening(opening)));
    }
    for part in &bore.test_points {
        let mut point = part.body.clone();
        for name in point.isolates.iter_mut().filter(|name| *name == old) {
            new.clone_into(name);
        }
        if point != part.body {
            renamed.push((part.id, ProfilePart::TestPoint(point)));
        }
    }
    renamed
}

/// Makes a bore from a shape, with everything in it, as one change.
pub(crate) fn shape(app: &App, args: ProfileShape) -> Result<ProfileSaved, ApiError> {
    let mut store = app.store()?;
    let circuit: Circuit = need(&store, subject(args.circuit), Kind::Circuit)?;
    let mut tree = profile_tree::read(&store, circuit.unit)?;
    let fresh = |store: &mut Store| {
        if args.dry_run {
            Ok(Id::nil())
        } else {
            store.new_subject(app.now()).map(id)
        }
    };
    let of = fresh(&mut store)?;
    let name = args.name.trim().to_owned();
    let drawn = args
        .shape
        .draw(of, args.circuit, String::new(), name, args.diameter_m);
    let (bore, _) = tidied(&tree, of, ProfilePart::Bore(drawn.bore));
    let forbidden = own_findings(&bore)
        .iter()
        .any(|finding| finding.severity == Severity::Wrong);
    let within = drawn.lands.into_iter().map(ProfilePart::Land);
    let within = within.chain(drawn.openings.into_iter().map(ProfilePart::Opening));
    let within = within.chain(drawn.test_points.into_iter().map(ProfilePart::TestPoint));
    if args.dry_run || forbidden {
        profile_tree::put(&mut tree, of, &bore);
        for (part, n) in within.zip(1..) {
            // Told apart while nothing is saved.
            profile_tree::put(&mut tree, Id::from_u128(n), &part);
        }
        return Ok(ProfileSaved {
            saved: false,
            id: None,
            view: finished(&store, tree)?,
        });
    }
    let mut records = Vec::new();
    records.extend(record(&store, of, &bore)?);
    for part in within {
        let of = fresh(&mut store)?;
        records.extend(record(&store, of, &part)?);
    }
    app.commit(&mut store, records)?;
    Ok(ProfileSaved {
        saved: true,
        id: Some(of),
        view: view(&store, circuit.unit)?,
    })
}

/// The kind of a part and what stands of it.
fn part_body(store: &Store, of: Id) -> Result<(Kind, Value), ApiError> {
    for kind in PART_KINDS {
        if let Some(found) = standing(store, subject(of), kind)?.lead().and_then(body) {
            return Ok((kind, found));
        }
    }
    Err(ApiError::not_found("part", of))
}

/// The field by which a kind names what it belongs to.
fn parent_field(kind: Kind) -> Option<&'static str> {
    match kind {
        Kind::Circuit => Some("unit"),
        Kind::Tap | Kind::Clutch | Kind::Relief | Kind::Bore => Some("circuit"),
        Kind::Land | Kind::Opening | Kind::Spring | Kind::BalanceOrifice | Kind::TestPoint => {
            Some("bore")
        }
        _ => None,
    }
}

/// The unit that a part on record belongs to.
fn unit_above(store: &Store, of: Id) -> Result<Id, ApiError> {
    let mut here = of;
    // A part has at most three above it.
    for _ in 0..4 {
        let (kind, body) = part_body(store, here)?;
        if kind == Kind::Unit {
            return Ok(here);
        }
        let above = parent_field(kind).and_then(|field| body.get(field)?.as_str()?.parse().ok());
        here = above.ok_or_else(|| ApiError::not_found("unit", of))?;
    }
    Err(ApiError::not_found("unit", of))
}

/// Copies a unit, a circuit or a bore with everything that belongs to it, as one change.
pub(crate) fn copy(app: &App, args: ProfileCopy) -> Result<ProfileSaved, ApiError> {
    let mut store = app.store()?;
    let (kind, _) = part_body(&store, args.id)?;
    if !matches!(kind, Kind::Unit | Kind::Circuit | Kind::Bore) {
        return Err(ApiError::new(ErrorCode::BadRequest).at("id"));
    }
    let name = args.name.trim().to_owned();
    if name.is_empty() {
        return Err(ApiError::new(ErrorCode::BadRequest).at("name"));
    }
    let unit = unit_above(&store, args.id)?;
    let mut originals = Vec::new();
    collect(&store, args.id, &mut originals)?;
    let mut copies: HashMap<Id, Id> = HashMap::new();
    for (of, _, _) in &originals {
        copies.insert(*of, id(store.new_subject(app.now())?));
    }
    let mut records = Vec::new();
    for (of, kind, mut body) in originals {
        if let Some(field) = parent_field(kind)
            && let Some(above) = body.get(field).and_then(Value::as_str)
            && let Some(copied) = above.parse().ok().and_then(|id: Id| copies.get(&id))
        {
            body[field] = Value::String(copied.to_string());
        }
        if of == args.id {
            body["name"] = Value::String(name.clone());
            if body.get("order").is_some() {
                let siblings = orders_beside(&store, of)?;
                let own = body["order"].as_str().unwrap_or_default().to_owned();
                let next = siblings.into_iter().find(|key| *key > own);
                body["order"] = Value::String(order_between(Some(&own), next.as_deref()));
            }
        }
        let copy = copies.get(&of).copied().unwrap_or_else(Id::nil);
        records.push(typed(&store, copy, kind, body)?);
    }
    app.commit(&mut store, records)?;
    let copied = copies.get(&args.id).copied();
    let shown = if kind == Kind::Unit {
        copied.unwrap_or(unit)
    } else {
        unit
    };
    Ok(ProfileSaved {
        saved: true,
        id: copied,
        view: view(&store, shown)?,
    })
}

/// A part and everything below it that isn't removed, parents first.
fn collect(store: &Store, of: Id, found: &mut Vec<(Id, Kind, Value)>) -> Result<(), ApiError> {
    let (kind, body) = part_body(store, of)?;
    found.push((of, kind, body));
    for kind in PART_KINDS {
        for child in store.children(subject(of), &kind_name(kind))? {
            collect(store, id(child), found)?;
        }
    }
    Ok(())
}

/// A record of a body as its own type writes it, fields in their declared order.
fn typed(store: &Store, of: Id, kind: Kind, body: Value) -> Result<NewRecord, ApiError> {
    let tag = kind.name();
    let part: ProfilePart =
        serde_json::from_value(serde_json::json!({ "part": tag, "body": body }))
            .map_err(ApiError::internal)?;
    with_body!(&part, body => new_record(store, subject(of), kind, body))
}

/// The order keys of the parts of one kind and parent, sorted; its own included.
fn orders_beside(store: &Store, of: Id) -> Result<Vec<String>, ApiError> {
    let keys = beside(store, of)?.into_iter().map(|(_, key)| key);
    Ok(keys.collect())
}

fn beside(store: &Store, of: Id) -> Result<Vec<(Id, String)>, ApiError> {
    let (kind, _) = part_body(store, of)?;
    let Some(parent) = store.parent(subject(of))? else {
        return Ok(Vec::new());
    };
    let mut found = Vec::new();
    for one in store.children(parent, &kind_name(kind))? {
        let (_, body) = part_body(store, id(one))?;
        let key = body
            .get("order")
            .and_then(Value::as_str)
            .unwrap_or_default();
        found.push((id(one), key.to_owned()));
    }
    Ok(found)
}

/// Changes places with a neighbour. At either end nothing happens.
pub(crate) fn shift(app: &App, args: ProfileMove) -> Result<ProfileView, ApiError> {
    let mut store = app.store()?;
    let (kind, mut body) = part_body(&store, args.id)?;
    if !matches!(
        kind,
        Kind::Circuit | Kind::Tap | Kind::Clutch | Kind::Bore | Kind::TestPoint
    ) {
        return Err(ApiError::new(ErrorCode::BadRequest).at("id"));
    }
    let unit = unit_above(&store, args.id)?;
    let all = beside(&store, args.id)?;
    let at = all.iter().position(|(id, _)| *id == args.id).unwrap_or(0);
    let key = |i: Option<usize>| i.and_then(|i| all.get(i)).map(|(_, key)| key.as_str());
    // Past the neighbour: between it and the one beyond.
    let between = if args.later {
        (at + 1 < all.len()).then(|| (key(Some(at + 1)), key(Some(at + 2))))
    } else {
        (at > 0).then(|| (key(at.checked_sub(2)), key(Some(at - 1))))
    };
    if let Some((low, high)) = between {
        body["order"] = Value::String(order_between(low, high));
        let record = typed(&store, args.id, kind, body)?;
        app.commit(&mut store, vec![record])?;
    }
    view(&store, unit)
}

/// Removes a part with all that belongs to it. What jobs were done with stays.
pub(crate) fn remove(app: &App, args: ProfileRemove) -> Result<Nothing, ApiError> {
    let mut store = app.store()?;
    let (kind, _) = part_body(&store, args.id)?;
    let jobs = jobs_with(&store, kind, args.id)?;
    if jobs > 0 {
        return Err(ApiError::new(ErrorCode::InUse).with("jobs", jobs));
    }
    if store.is_removed(subject(args.id))? != Some(true) {
        let removal = new_record(&store, subject(args.id), Kind::Removal, &Nothing {})?;
        app.commit(&mut store, vec![removal])?;
    }
    Ok(crate::table::DONE)
}

/// How many jobs were opened on a unit, or tested, checked or repaired something of a part.
fn jobs_with(store: &Store, kind: Kind, of: Id) -> Result<usize, ApiError> {
    let field = match kind {
        Kind::Unit => {
            let jobs = all::<Job>(store, Kind::Job)?;
            return Ok(jobs.iter().filter(|(_, job)| job.unit == of).count());
        }
        Kind::TestPoint => "test_point",
        Kind::Circuit | Kind::Bore => "bore",
        // Their figures are pinned by the decisions that used them.
        _ => return Ok(0),
    };
    let mut within = vec![of];
    if kind == Kind::Circuit {
        let bores = store.children(subject(of), &kind_name(Kind::Bore))?;
        within.extend(bores.into_iter().map(id));
    }
    let mut jobs = std::collections::BTreeSet::new();
    for kind in [Kind::Test, Kind::ReliefCheck, Kind::Repair] {
        for (_, body) in all::<Value>(store, kind)? {
            let text = |field: &str| body.get(field).and_then(Value::as_str);
            let named = text(field).and_then(|text| text.parse::<Id>().ok());
            if named.is_some_and(|named| within.contains(&named)) {
                jobs.extend(text("job").map(str::to_owned));
            }
        }
    }
    Ok(jobs.len())
}

/// Brings a removed part back: strikes out whatever removed it.
pub(crate) fn restore(app: &App, args: ProfileRemove) -> Result<ProfileView, ApiError> {
    let mut store = app.store()?;
    let of = subject(args.id);
    let unit = unit_above(&store, args.id)?;
    let voids: Vec<_> = standing(&store, of, Kind::Removal)?
        .ids()
        .into_iter()
        .map(|removal| NewRecord::void(of, removal))
        .collect();
    if !voids.is_empty() {
        app.commit(&mut store, voids)?;
    }
    view(&store, unit)
}

/// Units that were removed.
pub(crate) fn removed(app: &App, _: Nothing) -> Result<RemovedUnits, ApiError> {
    let store = app.store()?;
    let mut units = Vec::new();
    for of in store.removed_of_kind(&kind_name(Kind::Unit))? {
        units.extend(profile_tree::named(&store, of)?);
    }
    Ok(RemovedUnits { units })
}
