//! A whole job on a demo bore, for the tests of the crates that print it.

use std::collections::BTreeMap;

use chrono::DateTime;
use diagnosis::card::{BoreEvidence, card};
use diagnosis::evidence::Evidence;
use diagnosis::inspected::Inspected;
use model::authorisation::{Authorisation, AuthorisedHow, Covers};
use model::bench::{Decision, Instrument, InstrumentKind, Reading, Verdict};
use model::caution::BENCH_HAZARDS;
use model::comeback::{Comeback, FaultAgain, FoundBy};
use model::estimate::{Counted, Estimate, EstimateLine, Tax};
use model::fitted_part::{Cost, FittedPart};
use model::inspection::{
    BoreDiameter, CheckName, CrossPassages, Diameters, Found, Hold, Inspection, LandDiameter,
    LandLight, LightCheck, LightSeen, Occasion, Outcome, SpringCheck, SpringLoad,
};
use model::job::{Customer, Vehicle};
use model::repair::{RepairOption, RepairWork};
use model::shop_part::PartName;
use model::sign_off::{OpenItem, SignOff};
use model::unit::{BoreProfile, Clutch, Material, SolenoidKind};
use model::warranty::Warranty;
use model::{Finite, Id};
use report::{
    AuthorisationShown, BoreInspection, BoreReport, Caution, CheckShown, DecisionLine,
    EstimateShown, Fate, FittedShown, Handover, LeftOutShown, OpenShown, Personal, PhotoShown,
    Picture, ReadingLine, Recorded, RepairReport, Report, ShopPartShown, Shown, SignOffShown,
    TestReport, Withheld, Written,
};

pub fn finite(value: f64) -> Finite {
    Finite::new(value).unwrap()
}

pub fn written(by: &str) -> Written {
    Written {
        by: by.to_owned(),
        at: DateTime::parse_from_rfc3339("2026-04-14T12:05:00+02:00").unwrap(),
    }
}

pub fn recorded(by: &str) -> Recorded {
    Recorded {
        record: Id::from_u128(7),
        written: written(by),
    }
}

fn check_shown(said: &str, bore: Option<Id>, found: Found) -> CheckShown {
    let instruments = if found.instruments().is_empty() {
        Vec::new()
    } else {
        vec![tester(said)]
    };
    CheckShown {
        record: Inspection {
            job: Id::from_u128(1),
            bore,
            occasion: Occasion::AsFound,
            found,
            note: said.to_owned(),
        },
        instruments,
        outcome: Outcome::Measured,
        recorded: recorded(said),
        findings: Vec::new(),
    }
}

fn tester(said: &str) -> Instrument {
    Instrument {
        name: format!("Spring tester {said}"),
        kind: InstrumentKind::SpringTester,
        limits_of_error_si: finite(0.2),
        resolution_si: finite(0.1),
        range_low_si: None,
        range_high_si: None,
        calibrated_on: None,
        calibration_due: Some("2027-04-01".parse().unwrap()),
        source: said.to_owned(),
    }
}

/// A bore read through by diameters, its spring too weak, a clear gap in the light; and one clutch.
fn inspection(said: &str, profile: &BoreProfile) -> BoreInspection {
    let id = Id::from_u128(9);
    let found = [
        Found::Light(LightCheck {
            lands: vec![LandLight {
                land: said.to_owned(),
                seen: LightSeen::Clear,
            }],
        }),
        Found::Spring(SpringCheck {
            free_length_m: Some(finite(30e-3)),
            loads: [(22e-3, 12.8), (18e-3, 23.2)]
                .map(|(height, load)| SpringLoad {
                    height_m: finite(height),
                    load_n: finite(load),
                })
                .to_vec(),
            height_regulating_m: Some(finite(20e-3)),
            tester: Some(id),
        }),
        Found::Diameters(Diameters {
            bore: vec![BoreDiameter {
                station_m: finite(20e-3),
                direction_rad: finite(0.0),
                diameter_m: finite(8.0065e-3),
            }],
            valve: vec![LandDiameter {
                land: "reaction land".to_owned(),
                direction_rad: finite(0.0),
                diameter_m: finite(7.9705e-3),
            }],
            bore_gauge: None,
            micrometer: None,
            temperature_k: None,
        }),
    ];
    let clutch = Clutch {
        circuit: Id::nil(),
        order: "a".to_owned(),
        name: format!("Brake {said}"),
        solenoid_kind: Some(SolenoidKind::Bleed),
        coil: None,
        command_idle_pa: Some(finite(138_000.0)),
        command_highest_pa: Some(finite(345_000.0)),
        gain_ratio: finite(3.0),
        piston_outer_m: Some(finite(0.150)),
        piston_inner_m: Some(finite(0.110)),
        return_spring_n: Some(finite(900.0)),
        face_outer_m: Some(finite(0.165)),
        face_inner_m: Some(finite(0.140)),
        faces: Some(8),
        friction_coefficient: Some(finite(0.13)),
        friction_source: said.to_owned(),
        source: said.to_owned(),
    };
    let instruments = BTreeMap::from([(id, tester(said))]);
    let checks: Vec<_> = found
        .iter()
        .map(|found| Inspected {
            occasion: Occasion::AsFound,
            found,
        })
        .collect();
    let card = card(&BoreEvidence {
        profile,
        checks: &checks,
        instruments: &instruments,
        clutches: &[clutch],
        tests: &[],
        left_out: &[CheckName::OrificeBore],
        today: None,
        taps: &[],
    })
    .unwrap();
    BoreInspection {
        card,
        checks: found
            .into_iter()
            .map(|found| check_shown(said, Some(profile.id), found))
            .collect(),
        left_out: vec![LeftOutShown {
            check: CheckName::OrificeBore,
            why: said.to_owned(),
        }],
    }
}

/// What was agreed, `said` wherever a person may type.
fn handover(said: &str) -> Handover {
    let estimate = Estimate {
        currency: said.to_owned(),
        decimals: 2,
        lines: vec![EstimateLine {
            what: said.to_owned(),
            counted: Counted::Hours,
            quantity_thousandths: 1_750,
            price_minor: 9_250,
            taxed: true,
        }],
        tax: Some(Tax {
            name: said.to_owned(),
            rate_millionths: 200_000,
            included: false,
        }),
        note: said.to_owned(),
    };
    let part = FittedPart {
        job: Id::from_u128(1),
        bore: None,
        shop_part: None,
        name: said.to_owned(),
        maker_text: said.to_owned(),
        lot: said.to_owned(),
        quantity: 2,
        source: said.to_owned(),
        cost: Some(Cost {
            amount_minor: 98_765,
            currency: "XTS".to_owned(),
            decimals: 2,
        }),
        note: said.to_owned(),
    };
    let open = vec![
        OpenShown {
            item: OpenItem::BoreUntested { bore: Id::nil() },
            bore: said.to_owned(),
        },
        OpenShown {
            item: OpenItem::AmountExceeded { by_minor: 1_234 },
            bore: String::new(),
        },
        OpenShown {
            item: OpenItem::MachiningUnsigned { bore: Id::nil() },
            bore: said.to_owned(),
        },
    ];
    Handover {
        authorisation: AuthorisationShown::Shown {
            given: Box::new(Authorisation {
                who: said.to_owned(),
                how: AuthorisedHow::ByPhone,
                given_at: written("").at.to_utc(),
                up_to_minor: 15_000,
                currency: said.to_owned(),
                decimals: 2,
                estimate: Id::nil(),
                note: said.to_owned(),
            }),
            estimate_changed: true,
            covers: Some(Covers::Exceeded { by_minor: 4_426 }),
            recorded: recorded(said),
        },
        fitted: vec![FittedShown {
            part,
            bore: Some(said.to_owned()),
            recorded: recorded(said),
        }],
        warranty: Some((
            Warranty {
                months: Some(12),
                distance_m: Some(finite(2e7)),
                text: said.to_owned(),
            },
            recorded(said),
        )),
        sign_off: Some(SignOffShown {
            sign_off: SignOff {
                signed_by: said.to_owned(),
                statement: said.to_owned(),
                open: Vec::new(),
                records: Vec::new(),
            },
            open: open.clone(),
            changed_since: true,
            recorded: recorded(said),
        }),
        open,
        comeback: Some((
            Comeback {
                earlier: Some(Id::nil()),
                fault: FaultAgain::NotKnown,
                found_by: FoundBy::Customer,
                bore: None,
                note: said.to_owned(),
            },
            said.to_owned(),
            recorded(said),
        )),
        estimate: Some(EstimateShown {
            sums: estimate.sums(),
            estimate,
            recorded: recorded(said),
        }),
    }
}

/// A job on a demo bore, `said` wherever a person may type.
pub fn job(said: &str) -> Report {
    let mut profile = testkit::demo::profile("Larkmoor L6").unwrap();
    let mut point = profile.test_points[0].1.clone();
    let name = |text: &mut String| *text = format!("{text} {said}");
    name(&mut profile.bore.name);
    name(&mut profile.bore.source);
    name(&mut profile.circuit.source);
    name(&mut point.name);
    if let Some(limit) = &mut point.limit {
        name(&mut limit.source);
    }
    let gauge = Instrument {
        name: format!("Gauge {said}"),
        kind: InstrumentKind::VacuumGauge,
        limits_of_error_si: finite(1_000.0),
        resolution_si: finite(340.0),
        range_low_si: None,
        range_high_si: None,
        calibrated_on: None,
        calibration_due: None,
        source: said.to_owned(),
    };
    let reading = Reading {
        vacuum_pa: finite(58_000.0),
        reseated: false,
        as_typed: Some(said.to_owned()),
    };
    let readings = [reading.clone()];
    let judgement = diagnosis::judge(&Evidence {
        profile: &profile,
        test_point: &point,
        stand: None,
        gauge: Some(&gauge),
        setup: None,
        stand_check: None,
        blank: None,
        readings: &readings,
        oil_temperature_k: None,
        today: None,
    })
    .unwrap();
    let decision = Decision {
        verdict: Verdict::OutsideLimit,
        conformity_probability: finite(0.001),
        mean_vacuum_pa: finite(58_000.0),
        standard_uncertainty_pa: finite(500.0),
        limit_vacuum_pa: finite(67_000.0),
        shift_idle_pa: None,
        shift_highest_line_pa: Some([-2e3, 55e3, 300e3].map(finite)),
        gap_factor_m3: None,
        reference_vacuum_pa: None,
        inputs: vec![Id::nil()],
        profile_digest: "ab".repeat(32),
        physics_version: "0".to_owned(),
        note: said.to_owned(),
    };
    let line = |reading: Option<Reading>, fate| ReadingLine {
        reading,
        recorded: recorded(said),
        fate,
    };
    let made = |decision, fate, outdated| DecisionLine {
        decision,
        recorded: recorded(said),
        fate,
        outdated,
    };
    let test = TestReport {
        id: Id::from_u128(3),
        begun: written(said),
        after_repair: false,
        test_point: point,
        stand: None,
        gauge: Some(gauge),
        setup: None,
        stand_check: None,
        blank: None,
        readings: vec![
            line(Some(reading.clone()), Fate::Struck),
            line(Some(reading), Fate::Stands),
            line(None, Fate::Corrected),
        ],
        judgement,
        decisions: vec![
            made(None, Fate::Corrected, false),
            made(Some(decision), Fate::Stands, true),
        ],
    };
    let repair = RepairReport {
        id: Id::from_u128(4),
        work: RepairWork {
            parts: said.to_owned(),
            notes: said.to_owned(),
            sleeve_material: Some(Material::Steel),
            valve_material: Some(Material::AluminiumWrought),
            ..RepairWork::new(RepairOption::SleeveSmallerValve)
        },
        recorded: recorded(said),
        before: None,
        forecast: None,
        after: None,
        open: vec![diagnosis::repair::OpenPoint::NotTestedAgain],
        findings: Vec::new(),
    };
    let inspection = inspection(said, &profile);
    Report {
        shown: Shown::default(),
        shop: format!("Shop {said}"),
        demo: false,
        made: written(said),
        program: "0.1.0".to_owned(),
        store_digest: "cd".repeat(32),
        device: "ef".repeat(16),
        job: Id::from_u128(1),
        number: format!("0101 {said}"),
        opened_on: "2026-04-14".parse().unwrap(),
        opened_by: said.to_owned(),
        unit: format!("Larkmoor L6 {said}"),
        vehicle: Some(Vehicle {
            description: said.to_owned(),
            odometer_m: Some(finite(1.7e8)),
        }),
        complaint: None,
        notes: Some(said.repeat(10_000 / said.len().max(1) + 1)),
        customer: Personal::Shown(Customer {
            name: said.to_owned(),
            phone: said.to_owned(),
            plate: String::new(),
        }),
        cautions: BENCH_HAZARDS
            .into_iter()
            .map(|hazard| Caution { hazard, read: None })
            .collect(),
        bores: vec![BoreReport {
            profile,
            tests: vec![test],
            relief: None,
            machining: None,
            repairs: vec![repair],
            inspection: Some(inspection),
            oil_checks: Vec::new(),
        }],
        body_checks: vec![check_shown(
            said,
            None,
            Found::CrossPassages(CrossPassages {
                watched_s: None,
                between: said.to_owned(),
                hold: Hold::LosesSlowly,
                vacuum_pa: Some(finite(40_000.0)),
            }),
        )],
        photos: vec![
            PhotoShown {
                picture: Some(Picture {
                    jpeg: b"not looked at here".to_vec(),
                    width_px: 720,
                    height_px: 540,
                }),
                caption: said.to_owned(),
                bore: Some(format!("Boost {said}")),
                taken_at: written("").at,
                recorded: recorded(said),
            },
            PhotoShown {
                picture: None,
                caption: String::new(),
                bore: None,
                taken_at: written("").at,
                recorded: recorded(said),
            },
        ],
        photos_left_out: 2,
        handover: handover(said),
        findings: Vec::new(),
        withheld: vec![Withheld {
            kind: "test.blank".to_owned(),
            recorded: recorded(said),
        }],
        taps: Vec::new(),
        shop_parts: vec![ShopPartShown {
            part: PartName::Reamer,
            name: format!("Reamer {said}"),
            source: said.to_owned(),
        }],
    }
}
