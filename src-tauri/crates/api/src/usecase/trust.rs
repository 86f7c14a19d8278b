//! Which devices signed what is here, what they are known to have, and whether they are trusted.
//!
//! All of it is local: it stands among the settings and never leaves this device.

use std::collections::{BTreeMap, BTreeSet};

use journal::{DeviceId, SubjectId, WallTime};
use model::Kind;
use model::person::Person;
use serde::de::DeserializeOwned;
use store::{Held, Seen, Store};

use crate::App;
use crate::app::to_json;
use crate::dto::{DeviceList, DeviceTrust, KnownDevice, Nothing};
use crate::error::{ApiError, ErrorCode};
use crate::journal_io::{lead, moment};

const SEEN: &str = "devices.seen";
const DISTRUSTED: &str = "devices.distrusted";

fn kept<T: DeserializeOwned + Default>(store: &Store, key: &str) -> Result<T, ApiError> {
    let json = store.setting(key)?;
    Ok(json
        .and_then(|json| serde_json::from_str(&json).ok())
        .unwrap_or_default())
}

/// Since when which device is not trusted.
pub(crate) fn distrusted(store: &Store) -> Result<BTreeMap<DeviceId, WallTime>, ApiError> {
    kept(store, DISTRUSTED)
}

/// What a device is known to have; none: nothing was taken in yet that it made.
pub(crate) fn seen(store: &Store, device: DeviceId) -> Result<Option<Seen>, ApiError> {
    Ok(kept::<BTreeMap<DeviceId, Seen>>(store, SEEN)?.remove(&device))
}

/// Remembers what a device showed by making this bundle, which was just taken in.
pub(crate) fn learn(store: &mut Store, courier: DeviceId, bundle: &Held) -> Result<(), ApiError> {
    if courier == store.device() {
        return Ok(());
    }
    let mut all: BTreeMap<DeviceId, Seen> = kept(store, SEEN)?;
    let before = all.remove(&courier).unwrap_or_default();
    let now = store.seen_by(courier, &before, bundle)?;
    all.insert(courier, now);
    store.put_setting(SEEN, &to_json(&all)?)?;
    Ok(())
}

/// The device of a fingerprint as it is typed or handed back.
pub(crate) fn device(text: &str, field: &str) -> Result<DeviceId, ApiError> {
    let plain: String = text.chars().filter(|c| !c.is_whitespace()).collect();
    plain
        .to_lowercase()
        .parse()
        .map_err(|_| ApiError::new(ErrorCode::BadRequest).at(field))
}

/// Who worked on which device, of what is here.
pub(crate) fn authors(store: &Store) -> Result<BTreeMap<DeviceId, BTreeSet<SubjectId>>, ApiError> {
    let mut found: BTreeMap<_, BTreeSet<_>> = BTreeMap::new();
    for (device, author) in store.authors()? {
        found
            .entry(device)
            .or_default()
            .insert(SubjectId::from(author));
    }
    Ok(found)
}

/// The devices that signed something here.
pub(crate) fn devices(app: &App, _: Nothing) -> Result<DeviceList, ApiError> {
    let store = app.store()?;
    let distrusted = distrusted(&store)?;
    let seen: BTreeMap<DeviceId, Seen> = kept(&store, SEEN)?;
    let mut authors = authors(&store)?;
    let mut devices = Vec::new();
    for (device, _) in store.devices()? {
        let mut people = BTreeSet::new();
        for person in authors.remove(&device).unwrap_or_default() {
            let person: Option<Person> = lead(&store, person, Kind::Person)?;
            people.extend(person.map(|person| person.name));
        }
        devices.push(KnownDevice {
            device: device.to_string(),
            people: people.into_iter().collect(),
            own: device == store.device(),
            known_to_have: seen.get(&device).map(|seen| {
                let records = seen
                    .0
                    .values()
                    .map(|stretch| stretch.records)
                    .sum::<usize>();
                u32::try_from(records).unwrap_or(u32::MAX)
            }),
            distrusted_since: distrusted.get(&device).copied().map(moment),
        });
    }
    Ok(DeviceList { devices })
}

/// Says that a device was lost or copied, or that it is trusted again.
pub(crate) fn set(app: &App, args: DeviceTrust) -> Result<Nothing, ApiError> {
    let device = device(&args.device, "device")?;
    let now = app.now();
    let mut store = app.store()?;
    if device == store.device() {
        return Err(ApiError::new(ErrorCode::BadRequest).at("device"));
    }
    let mut all = distrusted(&store)?;
    if args.trusted {
        all.remove(&device);
    } else {
        all.entry(device).or_insert(now);
    }
    store.put_setting(DISTRUSTED, &to_json(&all)?)?;
    Ok(crate::table::DONE)
}
