//! The page of a whole job: sound as a document, whatever people typed.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use std::collections::BTreeMap;

use chrono::DateTime;
use diagnosis::card::{BoreEvidence, card};
use diagnosis::evidence::Evidence;
use diagnosis::inspected::Inspected;
use model::bench::{Decision, Instrument, InstrumentKind, Reading, Verdict};
use model::caution::BENCH_HAZARDS;
use model::inspection::{
    BoreDiameter, CheckName, CrossPassages, Diameters, Found, Hold, Inspection, LandDiameter,
    LandLight, LightCheck, LightSeen, Occasion, Outcome, SpringCheck, SpringLoad,
};
use model::job::{Customer, Vehicle};
use model::repair::{RepairOption, RepairWork};
use model::unit::{BoreProfile, Clutch, SolenoidKind};
use model::{Finite, Id};
use report::{
    BoreInspection, BoreReport, Caution, CheckShown, DecisionLine, Fate, LeftOutShown, Personal,
    PhotoShown, Picture, ReadingLine, Recorded, RepairReport, Report, Shown, TestReport, Withheld,
    Written,
};

const HOSTILE: &str = "</style></title><script>alert(\"1\")</script> ]]> <img src=x onerror='y'> \
                       & \u{202e}drowssap\u{202c} \u{200f}\u{0}\u{7} 'q'";

fn finite(value: f64) -> Finite {
    Finite::new(value).unwrap()
}

fn written(by: &str) -> Written {
    Written {
        by: by.to_owned(),
        at: DateTime::parse_from_rfc3339("2026-04-14T12:05:00+02:00").unwrap(),
    }
}

fn recorded(by: &str) -> Recorded {
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

/// A job on a demo bore, `said` wherever a person may type.
fn job(said: &str) -> Report {
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
            option: RepairOption::Other,
            parts: said.to_owned(),
            bore_diameter_m: None,
            bore_uncertainty_m: None,
            valve_diameter_m: None,
            valve_uncertainty_m: None,
            spring_load_n: None,
            spring_rate_n_per_m: None,
            notes: said.to_owned(),
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
        findings: Vec::new(),
        withheld: vec![Withheld {
            kind: "test.blank".to_owned(),
            recorded: recorded(said),
        }],
        taps: Vec::new(),
    }
}

/// Every tag in order, with its attributes.
fn tags(html: &str) -> Vec<&str> {
    html.split('<')
        .skip(1)
        .map(|rest| rest.split_once('>').unwrap().0)
        .collect()
}

fn name(tag: &str) -> &str {
    tag.split([' ', '/']).next().unwrap()
}

#[test]
fn hostile_text_changes_nothing_about_the_document() {
    let plain = report::html(&job("said"));
    let hostile = report::html(&job(HOSTILE));
    // The same tags in the same order: nothing that was typed opened or closed one.
    let names = |html: &str| -> Vec<String> {
        tags(html)
            .into_iter()
            .map(|tag| tag.split(' ').next().unwrap().to_owned())
            .collect()
    };
    assert_eq!(names(&plain), names(&hostile));
    assert!(!hostile.contains("<script") && !hostile.contains("<img src=x"));
    let steering = |c: char| {
        matches!(c, '\u{202a}'..='\u{202e}' | '\u{200e}' | '\u{200f}' | '\u{2066}'..='\u{2069}')
            || (c.is_control() && c != '\n' && c != '\t')
    };
    assert!(!hostile.contains(steering));
    // It is all there: what is typed is shown, not swallowed.
    assert!(hostile.contains("&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt; ]]&gt;"));
    assert!(hostile.matches("drowssap").count() > 100);
}

#[test]
fn every_tag_that_opens_closes_and_headings_and_tables_are_in_order() {
    let html = report::html(&job("said"));
    let mut open = Vec::new();
    let mut level = 0;
    for tag in tags(&html) {
        if tag.starts_with('!') || matches!(name(tag), "meta" | "br" | "img") {
            continue;
        }
        if let Some(closed) = tag.strip_prefix('/') {
            assert_eq!(open.pop(), Some(closed), "{tag}");
            continue;
        }
        if let Some(found) = tag
            .strip_prefix('h')
            .and_then(|rest| rest[..1].parse::<u32>().ok())
        {
            assert!(found <= level + 1, "h{found} after h{level}");
            level = found;
        }
        open.push(name(tag));
    }
    assert!(open.is_empty(), "{open:?}");
    assert_eq!(html.matches("<h1>").count(), 1);
    assert_eq!(
        html.matches("<table").count(),
        html.matches("<caption>").count()
    );
    for tag in tags(&html).into_iter().filter(|tag| name(tag) == "th") {
        assert!(tag.contains("scope="), "{tag}");
    }
    for tag in tags(&html)
        .into_iter()
        .filter(|tag| tag.contains("role=\"img\""))
    {
        assert!(tag.contains("aria-label="), "{tag}");
    }
    for tag in tags(&html).into_iter().filter(|tag| name(tag) == "img") {
        assert!(tag.contains("alt=\"said\""), "{tag}");
    }
}

#[test]
fn it_forbids_itself_everything_but_its_own_style_typeface_and_pictures() {
    let html = report::html(&job("said"));
    assert!(html.contains("default-src 'none'; style-src 'unsafe-inline'; font-src data:"));
    assert!(html.contains("<html lang=\"en\">"));
    // The one picture lies in the page.
    assert!(html.contains("img-src data:\""));
    let html = html.replacen(
        "src=\"data:image/jpeg;base64,bm90IGxvb2tlZCBhdCBoZXJl\"",
        "",
        1,
    );
    for reference in ["http:", "https:", "src=", "@import", "<link"] {
        assert!(!html.contains(reference), "{reference}");
    }
    assert!(html.len() < 400_000, "{}", html.len());
}

#[test]
fn what_is_withheld_struck_or_missing_is_said() {
    let html = report::html(&job("said"));
    for said in [
        "The picture isn’t on the device that made this report.",
        "2 photos that may show a person or a plate were left out",
        "Complaint</th><td>withheld",
        "its content isn’t on this device",
        "struck out or undone",
        "Outdated: ",
        "Not every caution was acknowledged.",
        "Records whose content was withheld from this device",
        "How the bore was set up isn’t recorded.",
        "The bore was not tested since.",
        "UTC+02:00",
    ] {
        assert!(html.contains(said), "{said}");
    }
}

#[test]
fn an_inspection_is_told_with_its_readings_its_instruments_and_what_it_does() {
    let html = report::html(&job("said"));
    for said in [
        "Doesn’t hold its pressure, or a part is broken",
        "What the checks say together",
        // By hand: 18 N over 49.90 mm² are 52.3 psi; the tester's ±0.2 N and its steps of 0.1 N
        // make ±0.24 N (95 %) of that at least, 0.7 psi.
        "The spring holds 51.",
        "left out on purpose",
        "Load at 0.7087\u{a0}in",
        "Measured with",
        "Spring tester said, ±\u{a0}0.04\u{a0}lbf, calibration due 2027-04-01",
        "What that does to each clutch",
        "bleed solenoid, passes a shift on in proportion",
        "lbf·ft",
        "Body and case",
        "loses slowly",
        "Clearance by the diameters",
    ] {
        assert!(html.contains(said), "{said}");
    }
}
