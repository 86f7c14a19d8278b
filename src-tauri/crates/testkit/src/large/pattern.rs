//! What the large shop repeats: the units, stands and tests of the demo shop.

use std::collections::BTreeMap;

use journal::{Fate, Kind as KindName, SubjectId};
use model::bench::{Blank, Decision, Reading, Setup, StandCheck, VacuumTest};
use model::{Id, Kind};
use serde::de::DeserializeOwned;
use serde_json::Value;
use store::Store;

use super::pen::Draft;
use crate::demo::{self, DemoError};

/// A subject's records that stand.
pub(super) struct Subject {
    id: SubjectId,
    bodies: Vec<(Kind, Value)>,
}

/// A whole test of the demo shop.
pub(super) struct Test {
    pub test: VacuumTest,
    pub setup: Setup,
    pub stand_check: Option<StandCheck>,
    pub blank: Option<Blank>,
    pub readings: Vec<Reading>,
    pub decision: Decision,
}

/// A unit with the tests that the demo shop made of its bores.
pub(super) struct Unit {
    pub id: SubjectId,
    pub name: String,
    pub subjects: Vec<Subject>,
    pub tests: Vec<Test>,
}

pub(super) struct Patterns {
    pub bench: Vec<Subject>,
    pub units: Vec<Unit>,
}

fn kind_name(kind: Kind) -> KindName {
    KindName::literal(kind.name())
}

fn read<T: DeserializeOwned>(
    store: &Store,
    of: SubjectId,
    kind: Kind,
) -> Result<Option<T>, DemoError> {
    let standing = store.standing(of, &kind_name(kind))?;
    Ok(standing
        .lead()
        .and_then(|record| serde_json::from_slice(record.body()?).ok()))
}

fn subject(store: &Store, id: SubjectId) -> Result<Subject, DemoError> {
    let mut leading = BTreeMap::new();
    for entry in store.records_of(id)? {
        let kind = Kind::of(entry.stored.envelope().kind.as_str());
        let body = entry.stored.body().map(serde_json::from_slice::<Value>);
        if let (Fate::Stands, Some(kind), Some(Ok(body))) = (entry.fate, kind, body) {
            leading.insert(kind, body);
        }
    }
    Ok(Subject {
        id,
        bodies: leading.into_iter().collect(),
    })
}

fn test(store: &Store, of: SubjectId) -> Result<Option<Test>, DemoError> {
    let readings = store.standing(of, &kind_name(Kind::TestReading))?;
    let (Some(test), Some(setup), Some(decision)) = (
        read(store, of, Kind::Test)?,
        read(store, of, Kind::TestSetup)?,
        read(store, of, Kind::TestDecision)?,
    ) else {
        return Ok(None);
    };
    Ok(Some(Test {
        test,
        setup,
        stand_check: read(store, of, Kind::TestStandCheck)?,
        blank: read(store, of, Kind::TestBlank)?,
        readings: readings
            .records
            .iter()
            .filter_map(|record| serde_json::from_slice(record.body()?).ok())
            .collect(),
        decision,
    }))
}

impl Patterns {
    pub fn of_demo() -> Result<Self, DemoError> {
        let store = demo::store()?;
        let mut bench = Vec::new();
        for kind in [Kind::Instrument, Kind::Stand] {
            for id in store.subjects_of_kind(&kind_name(kind))? {
                bench.push(subject(&store, id)?);
            }
        }
        let mut tests = Vec::new();
        for of in store.subjects_of_kind(&kind_name(Kind::Test))? {
            tests.extend(test(&store, of)?.filter(|test| !test.readings.is_empty()));
        }
        let mut units = Vec::new();
        for id in store.subjects_of_kind(&kind_name(Kind::Unit))? {
            let unit: Option<model::unit::Unit> = read(&store, id, Kind::Unit)?;
            let parts = store.descendants(id)?;
            let is_here = |test: &mut Test| {
                parts
                    .iter()
                    .any(|part| part.as_bytes() == test.test.bore.as_bytes())
            };
            units.push(Unit {
                id,
                name: unit.map(|unit| unit.name).unwrap_or_default(),
                tests: tests.extract_if(.., is_here).collect(),
                subjects: parts
                    .iter()
                    .map(|part| subject(&store, *part))
                    .collect::<Result<_, _>>()?,
            });
        }
        units.retain(|unit| !unit.tests.is_empty());
        if units.is_empty() {
            return Err(DemoError::Unknown("a unit with a decided test".into()));
        }
        Ok(Self { bench, units })
    }
}

/// Which subject of the demo became which of the large shop.
#[derive(Default, Clone)]
pub(super) struct Names(BTreeMap<String, SubjectId>);

impl Names {
    pub fn add(&mut self, of: &Subject, new: SubjectId) {
        self.0.insert(of.id.to_string(), new);
    }

    /// The subject that took this one's place; itself if nothing did.
    pub fn of(&self, id: Id) -> Id {
        self.0
            .get(&id.to_string())
            .map_or(id, |new| Id::from_bytes(*new.as_bytes()))
    }

    pub fn subject(&self, id: SubjectId) -> SubjectId {
        self.0.get(&id.to_string()).copied().unwrap_or(id)
    }

    fn rename(&self, value: &mut Value) {
        match value {
            Value::String(text) => {
                if let Some(new) = self.0.get(text.as_str()) {
                    *text = new.to_string();
                }
            }
            Value::Array(items) => items.iter_mut().for_each(|item| self.rename(item)),
            Value::Object(fields) => fields.values_mut().for_each(|item| self.rename(item)),
            _ => {}
        }
    }

    /// The records of a copy of this subject; of a unit, under another name.
    pub fn copy(&self, of: &Subject, unit_name: &str) -> Result<Vec<Draft>, DemoError> {
        let mut drafts = Vec::new();
        for (kind, body) in &of.bodies {
            let mut body = body.clone();
            self.rename(&mut body);
            if *kind == Kind::Unit {
                body["name"] = Value::from(unit_name);
            }
            drafts.push(Draft::new(self.subject(of.id), *kind, &body)?);
        }
        Ok(drafts)
    }
}
