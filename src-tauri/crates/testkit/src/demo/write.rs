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
use super::people::Crew;
use super::source::{RecordSource, Source, TestSource};

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
        let source = Source::read(&path)?;
        all.person.extend(source.person);
        all.record.extend(source.record);
        all.true_stand.extend(source.true_stand);
        all.away.extend(source.away);
        all.test.extend(source.test);
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

/// What happens in the shop, in order of time.
enum Event<'a> {
    Record(&'a RecordSource),
    Test(&'a TestSource),
    PutRight(&'a TestSource),
    Away(&'a str),
    Back(&'a str),
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
        let records = all
            .record
            .iter()
            .map(|record| (record.at, Event::Record(record)));
        let tests = all.test.iter().map(|test| (test.at, Event::Test(test)));
        let put_right = all.test.iter().filter_map(|test| {
            let slipped = test.slipped.as_ref()?;
            Some((slipped.struck_at, Event::PutRight(test)))
        });
        let away = all.away.iter().flat_map(|away| {
            [
                (away.from, Event::Away(&away.who)),
                (away.until, Event::Back(&away.who)),
            ]
        });
        let mut events: Vec<_> = records.chain(tests).chain(put_right).chain(away).collect();
        events.sort_by_key(|(at, _)| *at);
        let last = events.last().map(|(at, _)| *at);
        // Records of one person at one moment are one user action.
        let mut pending: Vec<&RecordSource> = Vec::new();
        for (_, event) in &events {
            match event {
                Event::Record(record) => {
                    if pending
                        .first()
                        .is_some_and(|p| p.at != record.at || p.by != record.by)
                    {
                        self.commit(std::mem::take(&mut pending))?;
                    }
                    pending.push(record);
                }
                Event::Test(test) => {
                    self.commit(std::mem::take(&mut pending))?;
                    self.test(test, &all.true_stand)?;
                }
                Event::PutRight(test) => {
                    self.commit(std::mem::take(&mut pending))?;
                    self.put_right(test, &all.true_stand)?;
                }
                Event::Away(who) => {
                    self.commit(std::mem::take(&mut pending))?;
                    self.crew.goes_away(who)?;
                }
                Event::Back(who) => {
                    self.commit(std::mem::take(&mut pending))?;
                    self.crew.comes_back(who)?;
                }
            }
        }
        self.commit(pending)?;
        self.check_profiles()?;
        self.bundle(last.unwrap_or_default())
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
        self.resolve(&mut body)?;
        let body = serde_json::to_value(body).map_err(|error| wrong(error.to_string()))?;
        let body = canonical_body(kind, body).map_err(wrong)?;
        self.new_record(&source.by, &source.subject, kind, body)
    }

    /// Replaces every `@name` by the subject's identifier.
    fn resolve(&self, value: &mut Value) -> Result<(), DemoError> {
        match value {
            Value::String(text) => {
                if let Some(name) = text.strip_prefix('@') {
                    *text = self.subject(name)?.to_string();
                }
                Ok(())
            }
            Value::Array(items) => items.iter_mut().try_for_each(|item| self.resolve(item)),
            Value::Table(table) => table
                .iter_mut()
                .try_for_each(|(_, item)| self.resolve(item)),
            _ => Ok(()),
        }
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
