//! From sources to a bundle.

use std::collections::BTreeMap;
use std::io::Cursor;
use std::path::{Path, PathBuf};

use chrono::{DateTime, Utc};
use journal::{Kind as KindName, SubjectId, WallTime};
use model::limits::Check;
use model::{Id, Kind, Severity};
use serde::Serialize;
use serde::de::DeserializeOwned;
use store::NewRecord;
use toml::Value;

use super::DemoError;
use super::body::{Body, canonical_body};
use super::event::Event;
use super::instrument::InHand;
use super::people::Crew;
use super::source::{RecordSource, SignOffSource, Source};

/// Every source file below a folder, in order of name.
///
/// # Errors
/// [`DemoError::File`].
pub fn sources(folder: &Path) -> Result<Vec<PathBuf>, DemoError> {
    let fail = |error| DemoError::File {
        path: folder.display().to_string(),
        error,
    };
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).map_err(fail)? {
        let path = entry.map_err(fail)?.path();
        if path.is_dir() {
            found.extend(sources(&path)?);
        } else if path
            .extension()
            .is_some_and(|extension| extension == "toml")
        {
            found.push(path);
        }
    }
    found.sort();
    Ok(found)
}

/// Builds the bundle of a folder of sources. The same sources give the same bytes.
///
/// # Errors
/// [`DemoError`] with the file or subject at fault.
pub fn build(folder: &Path) -> Result<Vec<u8>, DemoError> {
    let mut all = Source::default();
    for path in sources(folder)? {
        all.extend(Source::read(&path)?);
    }
    Shop::new(&all)?.build(&all)
}

/// What is true of the bore of one test.
#[derive(Debug, Clone, PartialEq)]
pub struct Truth {
    /// The test's subject, as the sources name it.
    pub name: String,
    /// The test's subject.
    pub test: Id,
    /// True clearance on the diameter, µm.
    pub clearance_um: f64,
    /// Why its readings can't tell it: the refusal that the app owes; none: they can.
    pub untold: Option<&'static str>,
}

/// The true clearance of each test's bore, and whether its readings can tell it.
///
/// # Errors
/// [`DemoError`] when a source can't be read.
pub fn true_clearances(folder: &Path) -> Result<Vec<Truth>, DemoError> {
    let mut truths = Vec::new();
    for path in sources(folder)? {
        for test in Source::read(&path)?.test {
            let of = subject_id(&test.subject, test.at);
            let untold = if test.oil_leaves_um.is_some() {
                Some("oiled")
            } else if test.orifices.is_empty() {
                Some("no_calibrated_stand")
            } else {
                None
            };
            truths.push(Truth {
                name: test.subject,
                test: Id::from_bytes(*of.as_bytes()),
                clearance_um: test.clearance_um,
                untold,
            });
        }
    }
    Ok(truths)
}

/// A subject's identifier from its name and first moment alone, so that a source may be reordered
/// without renaming anything.
fn subject_id(name: &str, at: DateTime<Utc>) -> SubjectId {
    let hash = blake3::hash(format!("demo subject {name}").as_bytes());
    let mut random = [0; 10];
    random.copy_from_slice(&hash.as_bytes()[..10]);
    let ms = WallTime::from_unix_ms(at.timestamp_millis()).unsigned_ms();
    SubjectId::new(ms, &random)
}

/// The shop while its story is played.
pub(super) struct Shop {
    pub(super) crew: Crew,
    pub(super) subjects: BTreeMap<String, SubjectId>,
    first: String,
}

impl Shop {
    fn new(all: &Source) -> Result<Self, DemoError> {
        let mut subjects = BTreeMap::new();
        let mut add = |name: &str, at: DateTime<Utc>| {
            subjects
                .entry(name.to_owned())
                .or_insert_with(|| subject_id(name, at));
        };
        all.person
            .iter()
            .for_each(|person| add(&person.says, person.at));
        all.record
            .iter()
            .for_each(|record| add(&record.subject, record.at));
        all.test.iter().for_each(|test| add(&test.subject, test.at));
        for check in &all.oil_check {
            add(&check.subject, check.at);
        }
        for sheet in &all.sheet {
            add(&sheet.subject, sheet.at);
        }
        let mut crew = Crew::new();
        for person in &all.person {
            crew.join(&person.says, subjects[&person.says])?;
        }
        let first = all
            .person
            .first()
            .map(|person| person.says.clone())
            .unwrap_or_default();
        Ok(Self {
            crew,
            subjects,
            first,
        })
    }

    fn build(mut self, all: &Source) -> Result<Vec<u8>, DemoError> {
        for person in &all.person {
            let body = model::person::Person {
                name: person.name.clone(),
            };
            let record = self.fresh(&person.says, Kind::Person, &body)?;
            self.crew.commit(&person.says, person.at, vec![record])?;
        }
        let mut events = Event::of(all);
        events.sort_by_key(|(at, _)| *at);
        let last = events.last().map(|(at, _)| *at);
        // Records of one person at one moment are one user action.
        let mut pending: Vec<&RecordSource> = Vec::new();
        for (_, event) in &events {
            if let Event::Record(record) = event {
                if pending
                    .first()
                    .is_some_and(|p| p.at != record.at || p.by != record.by)
                {
                    self.commit(std::mem::take(&mut pending))?;
                }
                pending.push(record);
            } else {
                self.commit(std::mem::take(&mut pending))?;
                self.play(event, all)?;
            }
        }
        self.commit(pending)?;
        self.check_profiles()?;
        self.bundle(last.unwrap_or_default())
    }

    /// Anything but a record that is written as it stands.
    fn play(&mut self, event: &Event<'_>, all: &Source) -> Result<(), DemoError> {
        match event {
            Event::Record(record) => self.commit(vec![record]),
            Event::Test(test) => self.test(test, &all.true_stand),
            Event::PutRight(test) => self.put_right(test, &all.true_stand),
            Event::Tap(tap) => self.read_tap(tap, all),
            Event::OilCheck(check) => self.check_with_oil(check, all),
            Event::Sheet(sheet) => self.machine(sheet, all),
            Event::SheetSigned(sheet) => self.sign_sheet(sheet, all),
            Event::SignOff(sign_off) => self.sign_off(sign_off),
            Event::Away(who) => self.crew.goes_away(who),
            Event::Back(who) => self.crew.comes_back(who),
        }
    }

    fn commit(&mut self, records: Vec<&RecordSource>) -> Result<(), DemoError> {
        let Some(first) = records.first() else {
            return Ok(());
        };
        let new = records
            .iter()
            .map(|record| self.record(record))
            .collect::<Result<_, _>>()?;
        self.crew.commit(&first.by, first.at, new)
    }

    fn record(&mut self, source: &RecordSource) -> Result<NewRecord, DemoError> {
        let wrong = |error: String| DemoError::Body {
            subject: source.subject.clone(),
            kind: source.kind.clone(),
            error,
        };
        let kind = Kind::of(&source.kind).ok_or_else(|| wrong("no such kind".into()))?;
        let mut body = Value::Table(source.body.clone());
        self.resolve(&source.by, &mut body)?;
        let body = serde_json::to_value(body).map_err(|error| wrong(error.to_string()))?;
        let body = canonical_body(kind, body).map_err(wrong)?;
        self.new_record(&source.by, &source.subject, kind, body)
    }

    /// Replaces every `@name` by the subject's identifier, and every `@name/kind` by that of the
    /// record which the author sees standing.
    pub(super) fn resolve(&mut self, by: &str, value: &mut Value) -> Result<(), DemoError> {
        match value {
            Value::String(text) => {
                if let Some(name) = text.strip_prefix('@') {
                    *text = match name.split_once('/') {
                        Some((name, kind)) => self.standing_record(by, name, kind)?.to_string(),
                        None => self.subject(name)?.to_string(),
                    };
                }
                Ok(())
            }
            Value::Array(items) => items.iter_mut().try_for_each(|item| self.resolve(by, item)),
            Value::Table(table) => table
                .iter_mut()
                .try_for_each(|(_, item)| self.resolve(by, item)),
            _ => Ok(()),
        }
    }

    fn standing_record(&mut self, by: &str, name: &str, kind: &str) -> Result<Id, DemoError> {
        let unknown = || DemoError::Unknown(format!("{name}/{kind}"));
        let of = self.subject(name)?;
        let kind = Kind::of(kind).ok_or_else(unknown)?;
        let store = self.crew.store(by)?;
        let standing = store.standing(of, &KindName::literal(kind.name()))?;
        let record = standing.lead().ok_or_else(unknown)?;
        Ok(Id::from_bytes(*record.id().as_bytes()))
    }

    pub(super) fn subject(&self, name: &str) -> Result<SubjectId, DemoError> {
        self.subjects
            .get(name)
            .copied()
            .ok_or_else(|| DemoError::Unknown(name.to_owned()))
    }

    /// A record that replaces what its author sees standing.
    pub(super) fn new_record(
        &mut self,
        by: &str,
        subject: &str,
        kind: Kind,
        body: Vec<u8>,
    ) -> Result<NewRecord, DemoError> {
        let of = self.subject(subject)?;
        let name = KindName::literal(kind.name());
        let store = self.crew.store(by)?;
        let supersedes = if kind.adds() {
            Vec::new()
        } else {
            store.heads(of, &name)?
        };
        let read = serde_json::from_slice(&body).unwrap_or_default();
        let (kind_version, personal) = (kind.version_for(&read), kind.personal());
        Ok(NewRecord {
            subject: of,
            kind: name,
            kind_version,
            supersedes,
            body,
            personal,
        })
    }

    fn fresh<T: Serialize>(
        &mut self,
        subject: &str,
        kind: Kind,
        body: &T,
    ) -> Result<NewRecord, DemoError> {
        let by = self.first.clone();
        let bytes = serde_json::to_vec(body).map_err(|error| DemoError::Body {
            subject: subject.to_owned(),
            kind: kind.name().to_owned(),
            error: error.to_string(),
        })?;
        self.new_record(&by, subject, kind, bytes)
    }

    pub(super) fn read<T: DeserializeOwned>(
        &mut self,
        by: &str,
        name: &str,
        kind: Kind,
    ) -> Result<T, DemoError> {
        let of = self.subject(name.trim_start_matches('@'))?;
        let standing = self
            .crew
            .store(by)?
            .standing(of, &KindName::literal(kind.name()))?;
        let body = standing
            .lead()
            .and_then(|record| record.body().map(<[u8]>::to_vec));
        let body = body.ok_or_else(|| DemoError::Unknown(format!("{name} ({})", kind.name())))?;
        serde_json::from_slice(&body).map_err(|error| DemoError::Body {
            subject: name.to_owned(),
            kind: kind.name().to_owned(),
            error: error.to_string(),
        })
    }

    pub(super) fn model_id(&self, name: &str) -> Result<Id, DemoError> {
        Ok(Id::from_bytes(
            *self.subject(name.trim_start_matches('@'))?.as_bytes(),
        ))
    }

    /// An instrument of the shop, with the error and noise that it truly has.
    pub(super) fn in_hand(
        &mut self,
        by: &str,
        name: &str,
        all: &Source,
        seed: &str,
    ) -> Result<InHand, DemoError> {
        let mut truths = all.true_instrument.iter();
        let truth = truths.find(|truth| truth.instrument == name);
        let truth = truth.ok_or_else(|| DemoError::Unknown(format!("the truth of {name}")))?;
        let instrument = self.read(by, name, Kind::Instrument)?;
        InHand::new(truth, &instrument, seed)
    }

    fn sign_off(&mut self, source: &SignOffSource) -> Result<(), DemoError> {
        let job = self.model_id(&source.job)?;
        let store = self.crew.store(&source.by)?;
        let (by, says) = (source.signed_by.clone(), source.statement.clone());
        let signed = api::sign_off_of(store, job, by, says)
            .map_err(|error| DemoError::Profile(error.to_string()))?;
        let job = source.job.trim_start_matches('@');
        self.write(&source.by, source.at, job, Kind::JobSignOff, &signed)
    }

    pub(super) fn write(
        &mut self,
        by: &str,
        at: DateTime<Utc>,
        subject: &str,
        kind: Kind,
        body: &dyn Body,
    ) -> Result<(), DemoError> {
        let record = self.new_record(by, subject, kind, body.bytes()?)?;
        self.crew.commit(by, at, vec![record])
    }

    /// A demo unit that contradicts itself would teach nonsense.
    fn check_profiles(&mut self) -> Result<(), DemoError> {
        let first = self.first.clone();
        let store = self.crew.store(&first)?;
        for bore in store.subjects_of_kind(&KindName::literal(Kind::Bore.name()))? {
            let id = Id::from_bytes(*bore.as_bytes());
            let profile = api::bore_profile(store, id)
                .map_err(|error| DemoError::Profile(error.to_string()))?;
            if let Some(finding) = profile
                .findings()
                .iter()
                .find(|f| f.severity == Severity::Wrong)
            {
                return Err(DemoError::Profile(format!(
                    "{}: {finding:?}",
                    profile.bore.name
                )));
            }
        }
        Ok(())
    }

    fn bundle(mut self, last: DateTime<Utc>) -> Result<Vec<u8>, DemoError> {
        let first = self.first.clone();
        let (batch, author, key) = self.crew.journal(&first)?;
        let batch = batch.check().map_err(store::StoreError::from)?;
        let created = WallTime::from_unix_ms(last.timestamp_millis());
        let origin = bundle::Origin {
            author,
            key,
            created,
        };
        let mut out = Cursor::new(Vec::new());
        bundle::write(&mut out, &batch, &origin)
            .map_err(|error| DemoError::Bundle(error.to_string()))?;
        Ok(out.into_inner())
    }
}
