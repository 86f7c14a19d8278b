//! From sources to a bundle.

use std::collections::{BTreeMap, BTreeSet};
use std::io::Cursor;
use std::path::{Path, PathBuf};

use chrono::{DateTime, Utc};
use diagnosis::evidence::Evidence;
use journal::{Kind as KindName, SubjectId, WallTime};
use model::bench::{Instrument, Stand, VacuumTest};
use model::limits::Check;
use model::unit::BoreProfile;
use model::{Id, Kind, Severity};
use serde::Serialize;
use serde::de::DeserializeOwned;
use store::NewRecord;
use toml::Value;

use super::DemoError;
use super::people::Crew;
use super::reading::{Bench, Taken};
use super::source::{RecordSource, Source, TestSource, TrueStand};

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
        all.test.extend(source.test);
    }
    Shop::new(&all)?.build(&all)
}

/// The true clearance of each test's bore, on the diameter and in micrometres, by the test's
/// subject.
///
/// # Errors
/// [`DemoError`] when a source can't be read.
pub fn true_clearances(folder: &Path) -> Result<Vec<(Id, f64)>, DemoError> {
    let mut truths = Vec::new();
    for path in sources(folder)? {
        for test in Source::read(&path)?.test {
            let of = subject_id(&test.subject, test.at);
            truths.push((Id::from_bytes(*of.as_bytes()), test.clearance_um));
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
}

struct Shop {
    crew: Crew,
    subjects: BTreeMap<String, SubjectId>,
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
        let mut events: Vec<_> = records.chain(tests).collect();
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

    fn subject(&self, name: &str) -> Result<SubjectId, DemoError> {
        self.subjects
            .get(name)
            .copied()
            .ok_or_else(|| DemoError::Unknown(name.to_owned()))
    }

    /// A record that replaces what its author sees standing.
    fn new_record(
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
        let (kind_version, personal) = (kind.version(), kind.personal());
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

    fn read<T: DeserializeOwned>(
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

    fn model_id(&self, name: &str) -> Result<Id, DemoError> {
        Ok(Id::from_bytes(
            *self.subject(name.trim_start_matches('@'))?.as_bytes(),
        ))
    }

    /// Takes a test as its person would: set-up, stand, blank, each reading, the decision, a few
    /// minutes apart.
    fn test(&mut self, source: &TestSource, truths: &[TrueStand]) -> Result<(), DemoError> {
        let truth = truths
            .iter()
            .find(|truth| truth.stand == source.stand)
            .ok_or_else(|| DemoError::Unknown(source.stand.clone()))?;
        let by = source.by.clone();
        let stand: Stand = self.read(&by, &source.stand, Kind::Stand)?;
        let gauge = self.instrument(&by, stand.gauge)?;
        let bore_id = self.model_id(&source.bore)?;
        let profile: BoreProfile = api::bore_profile(self.crew.store(&by)?, bore_id)
            .map_err(|error| DemoError::Profile(error.to_string()))?;
        let test_point = self.read(&by, &source.test_point, Kind::TestPoint)?;
        let bench = Bench {
            source,
            truth,
            stand: &stand,
            gauge: &gauge,
            profile: &profile,
            test_point: &test_point,
        };
        let Taken {
            setup,
            stand_check,
            blank,
            readings,
        } = bench.take()?;
        let test = VacuumTest {
            job: self.model_id(&source.job)?,
            bore: bore_id,
            test_point: self.model_id(&source.test_point)?,
            stand: Some(self.model_id(&source.stand)?),
        };
        let mut minute = 0;
        let mut write = |shop: &mut Self, kind: Kind, body: &dyn erased::Body| {
            let record = shop.new_record(&by, &source.subject, kind, body.bytes()?)?;
            let at = source.at + chrono::Duration::minutes(minute);
            minute += 2;
            shop.crew.commit(&by, at, vec![record])
        };
        write(self, Kind::Test, &test)?;
        write(self, Kind::TestSetup, &setup)?;
        write(self, Kind::TestStandCheck, &stand_check)?;
        if let Some(blank) = &blank {
            write(self, Kind::TestBlank, blank)?;
        }
        for reading in &readings {
            write(self, Kind::TestReading, reading)?;
        }
        let Some(note) = &source.decided else {
            return Ok(());
        };
        let judgement = diagnosis::judge(&Evidence {
            profile: &profile,
            test_point: &test_point,
            stand: Some(&stand),
            gauge: Some(&gauge),
            setup: Some(&setup),
            stand_check: Some(&stand_check),
            blank: blank.as_ref(),
            readings: &readings,
            oil_temperature_k: None,
            today: Some(source.at.date_naive()),
        })?;
        let inputs = self.inputs(&source.by, &source.subject)?;
        let decision = diagnosis::decision(&judgement, inputs, note.clone())
            .ok_or_else(|| DemoError::Profile(format!("{} decides nothing", source.subject)))?;
        let record = self.new_record(
            &source.by,
            &source.subject,
            Kind::TestDecision,
            erased::bytes(&decision)?,
        )?;
        let at = source.at + chrono::Duration::minutes(minute);
        self.crew.commit(&source.by, at, vec![record])
    }

    fn instrument(&mut self, by: &str, id: Id) -> Result<Instrument, DemoError> {
        let wanted = SubjectId::from_bytes(*id.as_bytes());
        let name = self
            .subjects
            .iter()
            .find(|(_, of)| **of == wanted)
            .map(|(name, _)| name.clone());
        let name = name.ok_or_else(|| DemoError::Unknown(id.to_string()))?;
        self.read(by, &name, Kind::Instrument)
    }

    /// The records that a decision pins, as the app pins them.
    fn inputs(&mut self, by: &str, test: &str) -> Result<Vec<Id>, DemoError> {
        let of = self.subject(test)?;
        let store = self.crew.store(by)?;
        let mut inputs = Vec::new();
        for kind in [
            Kind::TestSetup,
            Kind::TestStandCheck,
            Kind::TestBlank,
            Kind::TestReading,
        ] {
            let ids = store.standing(of, &KindName::literal(kind.name()))?.ids();
            inputs.extend(ids.into_iter().map(|id| Id::from_bytes(*id.as_bytes())));
        }
        Ok(inputs)
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

/// Reads a body as its kind and writes it again, so that a misspelt field is told and every body
/// has one form.
fn canonical_body(kind: Kind, body: serde_json::Value) -> Result<Vec<u8>, String> {
    use model::{bench, caution, job, person, relief_check, repair, unit};
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
        Kind::Repair => through::<repair::Repair>(body),
    }
}

/// Bodies of several types through one closure.
mod erased {
    use serde::Serialize;

    use super::DemoError;

    pub(super) trait Body {
        fn bytes(&self) -> Result<Vec<u8>, DemoError>;
    }

    impl<T: Serialize> Body for T {
        fn bytes(&self) -> Result<Vec<u8>, DemoError> {
            bytes(self)
        }
    }

    pub(super) fn bytes<T: Serialize>(body: &T) -> Result<Vec<u8>, DemoError> {
        serde_json::to_vec(body).map_err(|error| DemoError::Form {
            path: std::any::type_name::<T>().to_owned(),
            error: error.to_string(),
        })
    }
}
