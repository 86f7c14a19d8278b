//! A vacuum test as its person takes it, decides it, and puts it right.

use chrono::{DateTime, Utc};
use diagnosis::evidence::Evidence;
use journal::{Kind as KindName, SubjectId};
use model::bench::{Instrument, Stand, VacuumTest};
use model::unit::{BoreProfile, TestPoint};
use model::{Id, Kind};
use store::NewRecord;

use super::DemoError;
use super::body::Body;
use super::reading::{Bench, Taken};
use super::source::{TestSource, TrueStand};
use super::write::Shop;

impl Shop {
    /// What a test is taken and judged with: the bore as the job's repairs left it.
    fn rig(&mut self, source: &TestSource) -> Result<Rig, DemoError> {
        let by = &source.by;
        let stand: Stand = self.read(by, &source.stand, Kind::Stand)?;
        let gauge = self.instrument(by, stand.gauge)?;
        let job = self.model_id(&source.job)?;
        let bore = self.model_id(&source.bore)?;
        let test = self.model_id(&source.subject)?;
        let (profile, _) = api::profile_of_test(self.crew.store(by)?, job, bore, test)
            .map_err(|error| DemoError::Profile(error.to_string()))?;
        let test_point = self.read(by, &source.test_point, Kind::TestPoint)?;
        Ok(Rig {
            stand,
            gauge,
            profile,
            test_point,
        })
    }

    /// Takes a test as its person would: set-up, stand, blank, each reading, the decision, a few
    /// minutes apart.
    pub(super) fn test(
        &mut self,
        source: &TestSource,
        truths: &[TrueStand],
    ) -> Result<(), DemoError> {
        let rig = self.rig(source)?;
        let taken = rig.take(source, truths)?;
        let test = VacuumTest {
            job: self.model_id(&source.job)?,
            bore: self.model_id(&source.bore)?,
            test_point: self.model_id(&source.test_point)?,
            stand: Some(self.model_id(&source.stand)?),
        };
        let mut at = source.at;
        let mut write = |shop: &mut Self, kind: Kind, body: &dyn Body| {
            shop.write(&source.by, at, &source.subject, kind, body)?;
            at += chrono::Duration::minutes(2);
            Ok::<_, DemoError>(at)
        };
        write(self, Kind::Test, &test)?;
        write(self, Kind::TestSetup, &taken.setup)?;
        let mut at = write(self, Kind::TestStandCheck, &taken.stand_check)?;
        if let Some(blank) = &taken.blank {
            at = write(self, Kind::TestBlank, blank)?;
        }
        for reading in &taken.readings {
            at = write(self, Kind::TestReading, reading)?;
        }
        let Some(note) = &source.decided else {
            return Ok(());
        };
        self.decide(source, &rig, &taken, (&source.by, at, note))
    }

    /// Strikes the reading that a leaking plug made, takes another and decides again.
    pub(super) fn put_right(
        &mut self,
        source: &TestSource,
        truths: &[TrueStand],
    ) -> Result<(), DemoError> {
        let rig = self.rig(source)?;
        let mut taken = rig.take(source, truths)?;
        let (Some(slipped), Some(instead)) = (&source.slipped, taken.instead.take()) else {
            return Ok(());
        };
        let of = self.subject(&source.subject)?;
        let readings = KindName::literal(Kind::TestReading.name());
        let by = &slipped.struck_by;
        let written = self.crew.store(by)?.standing(of, &readings)?.ids();
        let struck = written.get(slipped.reading).ok_or_else(|| {
            DemoError::Unknown(format!("the slipped reading of {}", source.subject))
        })?;
        let mut at = slipped.struck_at;
        self.crew
            .commit(by, at, vec![NewRecord::void(of, *struck)])?;
        at += chrono::Duration::minutes(3);
        self.write(by, at, &source.subject, Kind::TestReading, &instead)?;
        taken.readings.remove(slipped.reading);
        taken.readings.push(instead);
        at += chrono::Duration::minutes(2);
        self.decide(source, &rig, &taken, (by, at, &slipped.decided))
    }

    fn decide(
        &mut self,
        source: &TestSource,
        rig: &Rig,
        taken: &Taken,
        (by, at, note): (&str, DateTime<Utc>, &str),
    ) -> Result<(), DemoError> {
        let judgement = diagnosis::judge(&Evidence {
            profile: &rig.profile,
            test_point: &rig.test_point,
            stand: Some(&rig.stand),
            gauge: Some(&rig.gauge),
            setup: Some(&taken.setup),
            stand_check: Some(&taken.stand_check),
            blank: taken.blank.as_ref(),
            readings: &taken.readings,
            oil_temperature_k: None,
            today: Some(at.date_naive()),
        })?;
        let inputs = self.inputs(by, &source.subject)?;
        let decision = diagnosis::decision(&judgement, inputs, note.to_owned())
            .ok_or_else(|| DemoError::Profile(format!("{} decides nothing", source.subject)))?;
        self.write(by, at, &source.subject, Kind::TestDecision, &decision)
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
}

/// What a test is taken and judged with.
struct Rig {
    stand: Stand,
    gauge: Instrument,
    profile: BoreProfile,
    test_point: TestPoint,
}

impl Rig {
    fn take(&self, source: &TestSource, truths: &[TrueStand]) -> Result<Taken, DemoError> {
        let truth = truths
            .iter()
            .find(|truth| truth.stand == source.stand)
            .ok_or_else(|| DemoError::Unknown(source.stand.clone()))?;
        Bench {
            source,
            truth,
            stand: &self.stand,
            gauge: &self.gauge,
            profile: &self.profile,
            test_point: &self.test_point,
        }
        .take()
    }
}
