//! The shop: its people, units, stands, instruments, and this device's settings.

use journal::SubjectId;
use model::bench::{Instrument, Stand};
use model::limits::Check;
use model::person::{Person, Shop};
use model::unit::Unit;
use model::{Id, Kind};
use serde::de::DeserializeOwned;
use store::Store;

use crate::App;
use crate::app::to_json;
use crate::dto::{
    AppState, BoreEntry, InstrumentEntry, Nothing, Overview, PersonAdd, PersonChoose, PersonEntry,
    Settings, StandEntry, UnitEntry, UnitGet, UnitView,
};
use crate::error::{ApiError, ErrorCode};
use crate::journal_io::{AUTHOR, author, body, id, kind_name, lead, new_record, person, subject};
use crate::usecase::audit::undo_state;
use crate::{drawing, profiles};

const SETTINGS: &str = "settings";

/// The program itself.
pub(crate) fn state(app: &App, _: Nothing) -> Result<AppState, ApiError> {
    Ok(AppState {
        version: env!("CARGO_PKG_VERSION").to_owned(),
        store_path: app.store_path(),
        trouble: app.trouble(),
    })
}

/// Everything that the first screen needs.
pub(crate) fn overview(app: &App, _: Nothing) -> Result<Overview, ApiError> {
    overview_of(app, &*app.store()?)
}

fn overview_of(app: &App, store: &Store) -> Result<Overview, ApiError> {
    let shop = all::<Shop>(store, Kind::Shop)?.into_iter().next();
    let today = app.clock().today();
    let mut units = Vec::new();
    for (unit_id, unit) in all::<Unit>(store, Kind::Unit)? {
        let mut bores = Vec::new();
        for id in profiles::bores_of_unit(store, unit_id)? {
            if let Some(bore) = lead::<model::unit::Bore>(store, subject(id), Kind::Bore)? {
                let name = bore.name;
                bores.push(BoreEntry { id, name });
            }
        }
        units.push(UnitEntry {
            id: unit_id,
            name: unit.name,
            summary: unit.summary,
            bores,
        });
    }
    let mut people: Vec<_> = all::<Person>(store, Kind::Person)?
        .into_iter()
        .map(|(id, person)| PersonEntry {
            id,
            name: person.name,
        })
        .collect();
    people.sort_by(|a, b| a.name.cmp(&b.name));
    // A chosen person who was undone or removed is no longer there to sign.
    let chosen = author(store)?.filter(|id| people.iter().any(|person| person.id == *id));
    Ok(Overview {
        shop_name: shop
            .as_ref()
            .map(|(_, shop)| shop.name.clone())
            .unwrap_or_default(),
        demo: shop.is_some_and(|(_, shop)| shop.demo),
        people,
        author: chosen,
        units,
        stands: all(store, Kind::Stand)?
            .into_iter()
            .map(|(id, stand)| StandEntry { id, stand })
            .collect(),
        instruments: all::<Instrument>(store, Kind::Instrument)?
            .into_iter()
            .map(|(id, instrument)| InstrumentEntry {
                id,
                overdue: instrument.calibration_due.is_some_and(|due| due < today),
                instrument,
            })
            .collect(),
        settings: settings(store)?,
        undo: undo_state(store)?,
        today,
    })
}

/// Every subject of a kind with its leading body.
pub(crate) fn all<T: DeserializeOwned>(
    store: &Store,
    kind: Kind,
) -> Result<Vec<(Id, T)>, ApiError> {
    let found = store.standing_of_kind(&kind_name(kind))?;
    let read = |(of, standing): (SubjectId, store::Standing)| {
        Some((id(of), standing.lead().and_then(body)?))
    };
    Ok(found.into_iter().filter_map(read).collect())
}

/// Chooses who works on this device.
pub(crate) fn choose_person(app: &App, args: PersonChoose) -> Result<Overview, ApiError> {
    let mut store = app.store()?;
    if lead::<Person>(&store, subject(args.person), Kind::Person)?.is_none() {
        return Err(ApiError::not_found("person", args.person));
    }
    store.put_setting(AUTHOR, &to_json(&args.person)?)?;
    overview_of(app, &store)
}

/// Adds a person, who signs their own entry, and chooses them.
pub(crate) fn add_person(app: &App, args: PersonAdd) -> Result<Overview, ApiError> {
    let name = args.name.trim().to_owned();
    if name.is_empty() {
        return Err(ApiError::new(ErrorCode::BadRequest).at("name"));
    }
    let mut store = app.store()?;
    let of = store.new_subject(app.now())?;
    let record = new_record(&store, of, Kind::Person, &Person { name })?;
    store.append(vec![record], person(id(of)), app.now())?;
    store.put_setting(AUTHOR, &to_json(&id(of))?)?;
    overview_of(app, &store)
}

/// Keeps the settings.
pub(crate) fn put_settings(app: &App, args: Settings) -> Result<Settings, ApiError> {
    app.store()?.put_setting(SETTINGS, &to_json(&args)?)?;
    Ok(args)
}

/// Settings that can't be read (an older form) count as none.
pub(crate) fn settings(store: &Store) -> Result<Settings, ApiError> {
    let kept = store.setting(SETTINGS)?;
    Ok(kept
        .and_then(|json| serde_json::from_str(&json).ok())
        .unwrap_or_default())
}

/// A unit's profile.
pub(crate) fn unit(app: &App, args: UnitGet) -> Result<UnitView, ApiError> {
    let store = app.store()?;
    let profile = profiles::unit(&store, args.unit)?;
    let mut findings = Vec::new();
    let mut drawings = Vec::new();
    for (i, bore) in profile.bores.iter().enumerate() {
        bore.check(&format!("bores[{i}]"), &mut findings);
        drawings.push(drawing::draw(bore, None, &[])?);
    }
    Ok(UnitView {
        profile,
        drawings,
        findings,
    })
}

/// A stand and its gauge.
pub(crate) fn stand(store: &Store, id: Id) -> Result<(Stand, Option<Instrument>), ApiError> {
    let stand: Stand = crate::journal_io::need(store, subject(id), Kind::Stand)?;
    let gauge = lead(store, subject(stand.gauge), Kind::Instrument)?;
    Ok((stand, gauge))
}
