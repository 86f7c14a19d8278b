//! A machining sheet, measured on the way and signed.

use std::collections::BTreeMap;

use model::bench::Instrument;
use model::machining::{
    MachinedSize, Machining, MachiningMeasurement, MachiningSheet, MachiningSignOff,
};
use model::unit::{BoreProfile, Material};
use model::{Id, Kind};
use toml::Value;

use super::DemoError;
use super::instrument::finite;
use super::source::{SheetSource, Source};
use super::write::Shop;

const ZERO_CELSIUS_K: f64 = 273.15;

impl Shop {
    /// Puts the sheet on record as it was filled in while the work went on: each size as its
    /// instrument shows it on a part as warm as the bench.
    pub(super) fn machine(&mut self, source: &SheetSource, all: &Source) -> Result<(), DemoError> {
        let sheet = self.sheet(source, all)?;
        let machining = self.machining(source, sheet, None)?;
        self.write(
            &source.by,
            source.at,
            &source.subject,
            Kind::Machining,
            &machining,
        )
    }

    /// Signs it: the core says what is open.
    pub(super) fn sign_sheet(
        &mut self,
        source: &SheetSource,
        all: &Source,
    ) -> Result<(), DemoError> {
        let sheet = self.sheet(source, all)?;
        let profile = self.as_new(source)?;
        let mut instruments: BTreeMap<Id, Instrument> = BTreeMap::new();
        for measured in &source.measured {
            let id = self.model_id(&measured.instrument)?;
            let known = self.read(&source.by, &measured.instrument, Kind::Instrument)?;
            instruments.insert(id, known);
        }
        let today = Some(source.signed_at.date_naive());
        let told = diagnosis::machining::answer(&profile, &sheet, &instruments, today)?;
        let signed = MachiningSignOff {
            note: source.signed_note.clone(),
            ..told.open
        };
        let machining = self.machining(source, sheet, Some(signed))?;
        self.write(
            &source.by,
            source.signed_at,
            &source.subject,
            Kind::Machining,
            &machining,
        )
    }

    fn machining(
        &self,
        source: &SheetSource,
        sheet: MachiningSheet,
        signed: Option<MachiningSignOff>,
    ) -> Result<Machining, DemoError> {
        Ok(Machining {
            job: self.model_id(&source.job)?,
            bore: self.model_id(&source.bore)?,
            sheet,
            signed,
        })
    }

    fn as_new(&mut self, source: &SheetSource) -> Result<BoreProfile, DemoError> {
        let bore = self.model_id(&source.bore)?;
        api::bore_profile(self.crew.store(&source.by)?, bore)
            .map_err(|error| DemoError::Profile(error.to_string()))
    }

    fn sheet(&mut self, source: &SheetSource, all: &Source) -> Result<MachiningSheet, DemoError> {
        let wrong = |error: String| DemoError::Body {
            subject: source.subject.clone(),
            kind: Kind::Machining.name().to_owned(),
            error,
        };
        let mut body = Value::Table(source.sheet.clone());
        self.resolve(&source.by, &mut body)?;
        let mut sheet: MachiningSheet = body
            .try_into()
            .map_err(|error: toml::de::Error| wrong(error.to_string()))?;
        let profile = self.as_new(source)?;
        for (i, measured) in source.measured.iter().enumerate() {
            let seed = format!("{} {i}", source.subject);
            let mut instrument = self.in_hand(&source.by, &measured.instrument, all, &seed)?;
            let at_20c = measured.true_mm * 1e-3;
            let alpha = diagnosis::valve::expansion_per_k(material(&profile, measured.size));
            let warm = if measured.size.is_diameter() {
                at_20c * (1.0 + alpha * (measured.part_c - 20.0))
            } else {
                at_20c
            };
            sheet.measurements.push(MachiningMeasurement {
                size: measured.size,
                read_m: instrument.read(warm)?,
                temperature_k: Some(finite(measured.part_c + ZERO_CELSIUS_K)?),
                instrument: Some(self.model_id(&measured.instrument)?),
                cut: measured.cut,
            });
        }
        Ok(sheet)
    }
}

/// What a part of a reamed bore is made of; the demo's sheet has no sleeve.
fn material(profile: &BoreProfile, size: MachinedSize) -> Material {
    match size {
        MachinedSize::Valve => profile.bore.spool.material,
        _ => profile.bore.material,
    }
}
