//! The list of jobs: all, or those that words and filters find. It is read from the summaries that
//! the store keeps.

use std::collections::BTreeMap;

use model::person::Person;
use model::{Id, Kind};
use store::{Store, Wanted};

use super::job::{count, unit_name};
use crate::App;
use crate::dto::{JobEntry, JobList, JobListArgs};
use crate::error::ApiError;
use crate::journal_io::{id, kind_name, lead, subject};
use crate::summary::{self, JobSummary};

/// The jobs, newest first.
pub(crate) fn list(app: &App, args: JobListArgs) -> Result<JobList, ApiError> {
    list_of(&*app.store()?, args)
}

/// The jobs of a store, newest first.
pub(super) fn list_of(store: &Store, args: JobListArgs) -> Result<JobList, ApiError> {
    let Some(words) = words(&args.text) else {
        return Ok(JobList {
            jobs: Vec::new(),
            found: 0,
        });
    };
    let mut facets = Vec::new();
    let ids = [
        (summary::UNIT, args.unit),
        (summary::BORE, args.bore),
        (summary::PERSON, args.person),
    ];
    for (name, wanted) in ids {
        facets.extend(wanted.map(|id| (name, id.as_bytes().to_vec())));
    }
    facets.extend(
        args.state
            .map(|state| (summary::STATE, summary::state_facet(state))),
    );
    let (jobs, units) = (kind_name(Kind::Job), kind_name(Kind::Unit));
    let wanted = Wanted {
        words: &words,
        within: Some(&units),
        facets: &facets,
        from: args.from.map(summary::day),
        to: args.to.map(summary::day),
        ..Wanted::all(&jobs)
    };
    let (skip, limit) = (args.skip as usize, args.limit.map(|limit| limit as usize));
    let (page, found) = store.summaries(&wanted, skip, limit)?;
    let mut names = Names::default();
    let mut jobs = Vec::with_capacity(page.len());
    for line in page {
        let of: JobSummary = serde_json::from_str(&line.json).map_err(ApiError::internal)?;
        jobs.push(JobEntry {
            id: id(line.subject),
            unit_name: names.unit(store, of.job.unit)?,
            number: of.job.number,
            opened_on: of.job.opened_on,
            vehicle: of.vehicle,
            complaint: of.complaint,
            opened_by: names.person(store, of.opened_by)?,
            tests: of.tests,
            repairs: of.repairs,
            state: of.state,
            worst: of.worst,
        });
    }
    Ok(JobList {
        jobs,
        found: count(found),
    })
}

/// The words of a text; none if one of them holds nothing that could be found.
fn words(text: &str) -> Option<Vec<&str>> {
    let mut words = Vec::new();
    for word in text.split_whitespace() {
        let before = words.len();
        words.extend(word.split(char::is_control).filter(|part| !part.is_empty()));
        if words.len() == before {
            return None;
        }
    }
    Some(words)
}

/// Names of units and people, each read once.
#[derive(Default)]
struct Names {
    units: BTreeMap<Id, String>,
    people: BTreeMap<Id, String>,
}

impl Names {
    fn unit(&mut self, store: &Store, unit: Id) -> Result<String, ApiError> {
        if let Some(name) = self.units.get(&unit) {
            return Ok(name.clone());
        }
        let name = unit_name(store, unit)?;
        self.units.insert(unit, name.clone());
        Ok(name)
    }

    fn person(&mut self, store: &Store, person: Id) -> Result<String, ApiError> {
        if let Some(name) = self.people.get(&person) {
            return Ok(name.clone());
        }
        let found: Option<Person> = lead(store, subject(person), Kind::Person)?;
        let name = found.map(|person| person.name).unwrap_or_default();
        self.people.insert(person, name.clone());
        Ok(name)
    }
}
