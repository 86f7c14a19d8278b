//! Which devices signed what is here, what they are called, what they are known to have, and
//! whether they are trusted.
//!
//! All of it is local: it stands among the settings and never leaves this device. Whom a person
//! believes is for the one who compared the fingerprint to say. In the journal an answer would be
//! passed on, and whoever sent a file could bring the answer about themselves along.

use std::collections::{BTreeMap, BTreeSet};

use journal::{DeviceId, SubjectId, WallTime};
use model::Kind;
use model::person::Person;
use serde::de::DeserializeOwned;
use store::{Held, Seen, Store};

use crate::app::to_json;
use crate::dto::{
    BundleSigner, DeviceList, DeviceName, DeviceTrust, DistrustReason, KnownDevice, Nothing,
    SignerAnswer,
};
use crate::error::{ApiError, ErrorCode};
use crate::journal_io::{lead, moment};
use crate::{App, demo};

const SEEN: &str = "devices.seen";
const DISTRUSTED: &str = "devices.distrusted";
const REASONS: &str = "devices.distrust_reasons";
const NAMES: &str = "devices.names";
const ACCEPTED: &str = "devices.accepted";
const COPIED: &str = "devices.own_key_elsewhere";

/// The longest name of a device, in characters.
const LONGEST_NAME: usize = 60;

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

/// The names that this shop gave to devices.
pub(crate) fn names(store: &Store) -> Result<BTreeMap<DeviceId, String>, ApiError> {
    kept(store, NAMES)
}

/// The devices that somebody here was asked about and accepted, and when.
pub(crate) fn accepted(store: &Store) -> Result<BTreeMap<DeviceId, WallTime>, ApiError> {
    kept(store, ACCEPTED)
}

/// A name as it is compared, so that neither capitals nor spaces hide that it is the same.
pub(crate) fn folded(name: &str) -> String {
    name.split_whitespace().collect::<String>().to_lowercase()
}

/// A device's name as it may be given: not empty, and no other device's.
fn legal_name(
    names: &BTreeMap<DeviceId, String>,
    device: DeviceId,
    name: &str,
) -> Result<String, ApiError> {
    let name: String = name.split_whitespace().collect::<Vec<_>>().join(" ");
    if name.is_empty() || name.chars().count() > LONGEST_NAME || name.contains(char::is_control) {
        return Err(ApiError::new(ErrorCode::BadRequest).at("name"));
    }
    let taken =
        |(other, given): (&DeviceId, &String)| *other != device && folded(given) == folded(&name);
    if names.iter().any(taken) {
        let error = ApiError::new(ErrorCode::DeviceNameTaken).at("name");
        return Err(error.with("name", name));
    }
    Ok(name)
}

/// What a person said about the signers of a bundle, checked against what had to be said.
#[derive(Debug, Default)]
pub(crate) struct Answers {
    names: BTreeMap<DeviceId, String>,
    accepted: BTreeSet<DeviceId>,
    copied: bool,
}

impl Answers {
    /// Every signer that has to be asked about is answered for, and whoever is in doubt a second
    /// time.
    pub fn check(
        store: &Store,
        signers: &[BundleSigner],
        given: &[SignerAnswer],
    ) -> Result<Self, ApiError> {
        let mut names = names(store)?;
        let mut answers = Self::default();
        for signer in signers.iter().filter(|signer| signer.asks) {
            let of = device(&signer.device, "signers")?;
            let mut answer = None;
            for one in given {
                if device(&one.device, "signers")? == of {
                    answer = Some(one);
                }
            }
            let refused = |code| {
                let error = ApiError::new(code).at("signers");
                error.with("device", &signer.device)
            };
            let answer = answer.ok_or_else(|| refused(ErrorCode::SignerUnanswered))?;
            if !signer.doubts.is_empty() && !answer.despite_doubts {
                return Err(refused(ErrorCode::SignerInDoubt));
            }
            if let Some(name) = &answer.name {
                let name = legal_name(&names, of, name)?;
                names.insert(of, name.clone());
                answers.names.insert(of, name);
            }
            answers.copied |= signer.own;
            answers.accepted.insert(of);
        }
        Ok(answers)
    }

    /// Keeps them.
    pub fn keep(self, store: &mut Store, now: WallTime) -> Result<(), ApiError> {
        if !self.names.is_empty() {
            let mut all = names(store)?;
            all.extend(self.names);
            store.put_setting(NAMES, &to_json(&all)?)?;
        }
        if !self.accepted.is_empty() {
            let mut all = accepted(store)?;
            for device in self.accepted {
                all.entry(device).or_insert(now);
            }
            store.put_setting(ACCEPTED, &to_json(&all)?)?;
        }
        if self.copied {
            store.put_setting(COPIED, &to_json(&true)?)?;
        }
        Ok(())
    }
}

/// Devices whose key writes in two places; this one's own among them where its own key signed
/// something that it never wrote.
fn copied(store: &Store) -> Result<BTreeSet<DeviceId>, ApiError> {
    let mut found = store.copied_devices()?;
    if kept::<bool>(store, COPIED)? {
        found.insert(store.device());
    }
    Ok(found)
}

/// The devices that signed something here.
pub(crate) fn devices(app: &App, _: Nothing) -> Result<DeviceList, ApiError> {
    devices_of(&*app.store()?)
}

fn devices_of(store: &Store) -> Result<DeviceList, ApiError> {
    let distrusted = distrusted(store)?;
    let reasons: BTreeMap<DeviceId, DistrustReason> = kept(store, REASONS)?;
    let seen: BTreeMap<DeviceId, Seen> = kept(store, SEEN)?;
    let names = names(store)?;
    let copied = copied(store)?;
    let mut authors = authors(store)?;
    let records = store.records_by_device()?;
    let mut all: BTreeSet<DeviceId> = store.devices()?.into_iter().map(|(id, _)| id).collect();
    // A device that is lost stays in the list, whether or not its work is still here.
    all.extend(distrusted.keys().chain([&store.device()]));
    let mut devices = Vec::new();
    for device in all {
        let mut people = BTreeSet::new();
        for person in authors.remove(&device).unwrap_or_default() {
            let person: Option<Person> = lead(store, person, Kind::Person)?;
            people.extend(person.map(|person| person.name));
        }
        let last = store.commits_of_device(device, 1)?;
        devices.push(KnownDevice {
            device: device.to_string(),
            name: names.get(&device).cloned().unwrap_or_default(),
            people: people.into_iter().collect(),
            own: device == store.device(),
            demo: demo::made(device),
            records: u32::try_from(records.get(&device).copied().unwrap_or(0)).unwrap_or(u32::MAX),
            last_signed: last.first().map(|commit| moment(commit.wall_time())),
            known_to_have: seen.get(&device).map(|seen| {
                let records = seen
                    .0
                    .values()
                    .map(|stretch| stretch.records)
                    .sum::<usize>();
                u32::try_from(records).unwrap_or(u32::MAX)
            }),
            distrusted_since: distrusted.get(&device).copied().map(moment),
            reason: reasons.get(&device).copied(),
            copied: copied.contains(&device),
        });
    }
    Ok(DeviceList { devices })
}

/// Gives a device a name, on this device only.
pub(crate) fn rename(app: &App, args: DeviceName) -> Result<DeviceList, ApiError> {
    let device = device(&args.device, "device")?;
    let mut store = app.store()?;
    let mut all = names(&store)?;
    let name = legal_name(&all, device, &args.name)?;
    all.insert(device, name);
    store.put_setting(NAMES, &to_json(&all)?)?;
    devices_of(&store)
}

/// Says that a device was lost or copied, or that it is trusted again.
pub(crate) fn set(app: &App, args: DeviceTrust) -> Result<Nothing, ApiError> {
    let device = device(&args.device, "device")?;
    let now = app.now();
    let mut store = app.store()?;
    if device == store.device() {
        return Err(ApiError::new(ErrorCode::BadRequest).at("device"));
    }
    let since = match args.since {
        Some(day) => {
            let start = day.and_time(chrono::NaiveTime::MIN).and_utc();
            WallTime::from_unix_ms(start.timestamp_millis())
        }
        None => now,
    };
    if since > now {
        return Err(ApiError::new(ErrorCode::BadRequest).at("since"));
    }
    let mut all = distrusted(&store)?;
    let mut reasons: BTreeMap<DeviceId, DistrustReason> = kept(&store, REASONS)?;
    if args.trusted {
        all.remove(&device);
        reasons.remove(&device);
    } else {
        if args.since.is_some() {
            all.insert(device, since);
        } else {
            all.entry(device).or_insert(since);
        }
        if let Some(reason) = args.reason {
            reasons.insert(device, reason);
        }
    }
    store.put_setting(REASONS, &to_json(&reasons)?)?;
    store.put_setting(DISTRUSTED, &to_json(&all)?)?;
    Ok(crate::table::DONE)
}

/// Makes this a new device, under a key of its own. Its name goes along, the old key is trusted no
/// longer.
pub(crate) fn start_over(app: &App, _: Nothing) -> Result<DeviceList, ApiError> {
    app.back_up_before(store::Reason::BeforeImport)?;
    let now = app.now();
    let mut store = app.store()?;
    let before = store.device();
    let device = store.start_over()?;
    let mut names = names(&store)?;
    if let Some(name) = names.remove(&before) {
        names.insert(device, name);
        store.put_setting(NAMES, &to_json(&names)?)?;
    }
    let mut all = distrusted(&store)?;
    all.insert(before, now);
    store.put_setting(DISTRUSTED, &to_json(&all)?)?;
    let mut reasons: BTreeMap<DeviceId, DistrustReason> = kept(&store, REASONS)?;
    reasons.insert(before, DistrustReason::Copied);
    store.put_setting(REASONS, &to_json(&reasons)?)?;
    store.put_setting(COPIED, &to_json(&false)?)?;
    devices_of(&store)
}
