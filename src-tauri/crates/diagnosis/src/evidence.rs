//! What a judgement is made from: one vacuum test with everything that it refers to.

use chrono::NaiveDate;
use model::bench::{Ambient, Blank, Instrument, Reading, Setup, Stand, StandCheck, check_readings};
use model::finding::{Finding, FindingCode, Severity};
use model::limits::Check;
use model::unit::{BoreProfile, TestPoint, ValvePosition};
use physics::atmosphere;

use crate::reading::GaugeTrust;
use uom::si::f64::{Length, Pressure};
use uom::si::length::meter;
use uom::si::pressure::pascal;

/// How far above the standard atmosphere of the stand's altitude a barometer may read before it
/// looks corrected to sea level, Pa. Weather rarely adds 4 kPa (from memory).
const SEA_LEVEL_SUSPICION_PA: f64 = 4_000.0;

/// One vacuum test.
#[derive(Debug, Clone, Copy)]
pub struct Evidence<'a> {
    /// The bore.
    pub profile: &'a BoreProfile,
    /// The test point.
    pub test_point: &'a TestPoint,
    /// The stand.
    pub stand: Option<&'a Stand>,
    /// Its gauge.
    pub gauge: Option<&'a Instrument>,
    /// How it was set up.
    pub setup: Option<&'a Setup>,
    /// The stand on the day.
    pub stand_check: Option<&'a StandCheck>,
    /// Plug and plate.
    pub blank: Option<&'a Blank>,
    /// Readings that stand, oldest first.
    pub readings: &'a [Reading],
    /// Oil temperature of the prediction, K; none: the unit's.
    pub oil_temperature_k: Option<f64>,
    /// The day, to tell overdue calibrations; none: not told.
    pub today: Option<NaiveDate>,
}

impl Evidence<'_> {
    /// The day's barometer, Pa absolute; none until the air is known or when it can't be.
    #[must_use]
    pub fn barometer_pa(&self) -> Option<f64> {
        barometer_pa(&self.setup?.ambient)
    }

    /// The readings that count as repeats.
    #[must_use]
    pub fn independent(&self) -> Vec<&Reading> {
        repeats(self.readings)
    }

    /// Whether the bore was set up otherwise than the test point, and so its limit, asks.
    #[must_use]
    pub fn setup_differs(&self) -> bool {
        self.setup.is_some_and(|setup| {
            setup.valve_position != self.test_point.valve_position
                || setup.orifice != self.test_point.orifice
        })
    }

    /// The gauge, when its figures can be true; else nothing is known of it.
    pub(crate) fn usable_gauge(&self) -> Option<&Instrument> {
        self.gauge.filter(|gauge| gauge.findings().is_empty())
    }

    /// Everything that is odd about the evidence itself.
    #[must_use]
    pub fn findings(&self) -> Vec<Finding> {
        let mut findings = Vec::new();
        if let Some(setup) = self.setup {
            setup.check("setup", &mut findings);
        }
        if let Some(gauge) = self.gauge {
            // It costs no judgement: a gauge that can't be true counts as unknown.
            let mut odd = Vec::new();
            gauge.check("gauge", &mut odd);
            findings.extend(odd.into_iter().map(|finding| Finding {
                severity: Severity::Doubt,
                ..finding
            }));
        }
        if let Some(check) = self.stand_check {
            check.check("stand_check", &mut findings);
        }
        if let Some(blank) = self.blank {
            blank.check("blank", &mut findings);
        }
        for (i, reading) in self.readings.iter().enumerate() {
            reading.check(&format!("readings[{i}]"), &mut findings);
        }
        if let Some(barometer) = self.barometer_pa() {
            let contradictions = check_readings(
                barometer,
                GaugeTrust::of(self.gauge).scatter_pa(),
                self.stand_check,
                self.blank,
                self.readings,
            );
            findings.extend(contradictions);
        }
        if let Some(gauge) = self.usable_gauge() {
            findings.extend(self.beyond(gauge));
        }
        self.doubts(&mut findings);
        findings
    }

    /// The figures of the test that lie outside what its gauge measures.
    fn beyond(&self, gauge: &Instrument) -> Vec<Finding> {
        let mut read: Vec<(String, f64)> = Vec::new();
        if let Some(check) = self.stand_check {
            let dead_head = check.dead_head_vacuum_pa;
            read.push(("stand_check.dead_head_vacuum_pa".to_owned(), *dead_head));
            for (i, orifice) in check.orifices.iter().enumerate() {
                let field = format!("stand_check.orifices[{i}].vacuum_pa");
                read.push((field, *orifice.vacuum_pa));
            }
        }
        if let Some(vacuum) = self.blank.and_then(|blank| blank.vacuum_pa) {
            read.push(("blank.vacuum_pa".to_owned(), *vacuum));
        }
        for (i, reading) in self.readings.iter().enumerate() {
            read.push((format!("readings[{i}].vacuum_pa"), *reading.vacuum_pa));
        }
        let outside = |(field, value)| crate::inspected::outside(gauge, value, field);
        read.into_iter().filter_map(outside).collect()
    }

    fn doubts(&self, findings: &mut Vec<Finding>) {
        let mut doubt =
            |severity, code, field: &str| findings.push(Finding::at(severity, code, field));
        if self.barometer_looks_corrected() {
            doubt(
                Severity::Doubt,
                FindingCode::BarometerLooksSeaLevel,
                "setup.ambient.pressure_pa",
            );
        }
        if let Some(setup) = self.setup
            && setup.valve_position != ValvePosition::ValveAbsent
            && self.setup_differs()
        {
            doubt(Severity::Doubt, FindingCode::SetupDiffers, "setup");
        }
        let overdue = |due: NaiveDate| self.today.is_some_and(|today| due < today);
        match self.gauge {
            Some(gauge) if gauge.calibration_due.is_some_and(overdue) => {
                doubt(Severity::Doubt, FindingCode::CalibrationOverdue, "gauge");
            }
            Some(_) => {}
            None => {}
        }
        if self.usable_gauge().is_none() {
            doubt(Severity::Doubt, FindingCode::GaugeUnknown, "gauge");
        }
        if self.test_point.limit.is_none() {
            doubt(Severity::Note, FindingCode::NoLimit, "test_point.limit");
        }
        if self.readings.is_empty() {
            return;
        }
        if self.blank.is_none_or(|blank| blank.vacuum_pa.is_none()) {
            doubt(Severity::Note, FindingCode::NoBlank, "blank.vacuum_pa");
        }
        let independent = self.independent().len();
        if independent < self.readings.len() {
            doubt(
                Severity::Doubt,
                FindingCode::NotIndependentRepeats,
                "readings",
            );
        }
        if independent == 1 {
            doubt(Severity::Note, FindingCode::SingleReading, "readings");
        }
    }

    fn barometer_looks_corrected(&self) -> bool {
        let Some(Ambient::Barometer { pressure_pa }) = self.setup.map(|setup| setup.ambient) else {
            return false;
        };
        let standard = self
            .stand
            .and_then(|stand| stand.altitude_m)
            .and_then(|altitude| standard_pressure_pa(*altitude));
        standard.is_some_and(|standard| *pressure_pa - standard > SEA_LEVEL_SUSPICION_PA)
    }
}

/// The readings that count as repeats: the first, and those before which the valve was turned and
/// the plug seated anew.
#[must_use]
pub fn repeats(readings: &[Reading]) -> Vec<&Reading> {
    let later = readings.iter().skip(1).filter(|reading| reading.reseated);
    readings.iter().take(1).chain(later).collect()
}

/// Station pressure of the air, Pa absolute; none when the altitude lies outside the standard
/// atmosphere's range.
#[must_use]
pub fn barometer_pa(ambient: &Ambient) -> Option<f64> {
    match ambient {
        Ambient::Barometer { pressure_pa } => Some(**pressure_pa),
        Ambient::Altitude { altitude_m } => standard_pressure_pa(**altitude_m),
    }
}

fn standard_pressure_pa(altitude_m: f64) -> Option<f64> {
    let pressure: Pressure = atmosphere::pressure(Length::new::<meter>(altitude_m)).ok()?;
    Some(pressure.get::<pascal>())
}
