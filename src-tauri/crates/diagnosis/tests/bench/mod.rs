//! A bore of the demo on a bench, with everything recorded that a vacuum test asks for.

#![allow(dead_code, reason = "each test takes what it needs")]

use diagnosis::evidence::Evidence;
use diagnosis::judge_with_seals;
use diagnosis::judgement::Judgement;
use diagnosis::pressure::SealEvidence;
use model::bench::{
    Ambient, CalibratedOrifice, Instrument, InstrumentKind, OrificeReading, Reading, Setup, Stand,
    StandCheck, Surface,
};
use model::unit::{BoreProfile, OrificePath, ValvePosition};
use model::{Finite, Id};

/// Pascals in a conventional inch of mercury (NIST SP 811, App. B).
pub const INHG: f64 = 3_386.389;

pub fn finite(value: f64) -> Finite {
    Finite::new(value).unwrap()
}

/// A bore on a bench, with everything recorded.
pub struct Bench {
    pub profile: BoreProfile,
    pub stand: Stand,
    pub gauge: Instrument,
    pub setup: Setup,
    pub check: StandCheck,
    pub readings: Vec<Reading>,
}

impl Bench {
    pub fn new(unit: &str) -> Self {
        let orifice = |label: &str, mm: f64, conductance: f64| CalibratedOrifice {
            label: label.into(),
            diameter_m: finite(mm * 1e-3),
            sonic_conductance_m3_s_pa: finite(conductance),
            critical_ratio: finite(0.528),
        };
        let read = |label: &str, inhg: f64| OrificeReading {
            label: label.into(),
            vacuum_pa: finite(inhg * INHG),
            as_typed: None,
        };
        Self {
            profile: testkit::demo::profile(unit).unwrap(),
            stand: Stand {
                name: "Bench".into(),
                gauge: Id::nil(),
                orifices: vec![
                    orifice("0.5", 0.5, 3.129e-10),
                    orifice("1.1", 1.1, 1.5144e-9),
                ],
                dead_head_follows_barometer: true,
                altitude_m: None,
            },
            gauge: Instrument {
                name: "Dial gauge".into(),
                kind: InstrumentKind::VacuumGauge,
                limits_of_error_si: finite(0.3 * INHG),
                resolution_si: finite(0.1 * INHG),
                range_low_si: None,
                range_high_si: None,
                calibrated_on: None,
                calibration_due: None,
                source: String::new(),
            },
            setup: Setup {
                valve_position: ValvePosition::AtRest,
                orifice: OrificePath::Blocked,
                surface: Surface::Dry,
                ambient: Ambient::Barometer {
                    pressure_pa: finite(100_900.0),
                },
                air_temperature_k: finite(293.15),
            },
            check: StandCheck {
                dead_head_vacuum_pa: finite(28.1 * INHG),
                as_typed: None,
                orifices: vec![read("0.5", 21.4), read("1.1", 5.0)],
            },
            readings: Vec::new(),
        }
        .reading(17.2)
    }

    pub fn reading(mut self, inhg: f64) -> Self {
        self.readings = [0.0, -0.1, 0.1]
            .map(|off| Reading {
                vacuum_pa: finite((inhg + off) * INHG),
                reseated: true,
                as_typed: None,
            })
            .to_vec();
        self
    }

    pub fn judge(&self) -> Judgement {
        self.judge_with_seals().0
    }

    pub fn judge_with_seals(&self) -> (Judgement, Option<SealEvidence>) {
        self.with_evidence(|evidence| judge_with_seals(evidence).unwrap())
    }

    /// What was recorded, handed to `with`.
    pub fn with_evidence<T>(&self, with: impl FnOnce(&Evidence<'_>) -> T) -> T {
        with(&Evidence {
            profile: &self.profile,
            test_point: &self.profile.test_points[0].1,
            stand: Some(&self.stand),
            gauge: Some(&self.gauge),
            setup: Some(&self.setup),
            stand_check: Some(&self.check),
            blank: None,
            readings: &self.readings,
            oil_temperature_k: None,
            today: None,
        })
    }
}
