//! A valve tried out: what is set counts, what isn't stays, and nothing is promised of what can't be.

use crate::bench::finite;
use diagnosis::explore::{clearance, explore, set, stand};
use diagnosis::judgement::{Consequence, ConsequenceAnswer};
use diagnosis::pressure::{SealEvidence, consequence};
use model::Severity;
use model::unit::{BoreProfile, OpeningRole};
use model::what_if::Setting;
use proptest::prelude::*;

const PSI: f64 = 6_894.757_293_168_361;

fn larkmoor() -> BoreProfile {
    testkit::demo::profile("Larkmoor L6").unwrap()
}

fn worn() -> SealEvidence {
    SealEvidence {
        tested_lands: vec!["reaction land".into()],
        ..SealEvidence::measured(&larkmoor(), [80e-6, 82e-6, 84e-6])
    }
}

fn of(setting: Setting, seals: Option<&SealEvidence>) -> Consequence {
    match explore(&larkmoor(), &setting, seals, None)
        .unwrap()
        .consequence
    {
        ConsequenceAnswer::Computed(computed) => *computed,
        ConsequenceAnswer::Withheld { reason } => panic!("{reason:?}"),
    }
}

fn feed(setting: Setting) -> f64 {
    *of(setting, None).highest_line.measured_feed_pa.likely
}

#[test]
fn nothing_set_is_the_judgement_itself() {
    let profile = larkmoor();
    let hot = *profile.unit.hot_oil_temperature_k;
    let (judged, _) = consequence(&profile, &worn(), hot).unwrap();
    assert_eq!(of(Setting::default(), Some(&worn())), judged);
    // Without a test the seals are as new, and nothing shifts.
    let shift = of(Setting::default(), None).highest_line.shift_pa.unwrap();
    assert!(shift.likely.abs() < 0.2 * PSI, "{shift:?}");
}

/// P = F / A by hand: 2.24 N more on the reaction land are 2.24 N / (pi/4 d²); flow force and
/// droop change by much less.
#[test]
fn a_tenth_more_spring_load_is_a_tenth_more_pressure() {
    let profile = larkmoor();
    let load = profile
        .spring
        .as_ref()
        .unwrap()
        .load_regulating_n
        .unwrap()
        .get();
    let diameter = profile.reaction_land().unwrap().diameter_m.unwrap().get();
    let by_hand = 0.1 * load / (std::f64::consts::FRAC_PI_4 * diameter * diameter);
    let stiffer = Setting {
        spring_load_n: Some(finite(1.1 * load)),
        ..Setting::default()
    };
    let more = feed(stiffer) - feed(Setting::default());
    assert!(
        (more - by_hand).abs() < 0.05 * by_hand,
        "{more} against {by_hand}"
    );
}

#[test]
fn an_exhaust_that_is_shut_is_none_and_a_relief_that_is_taken_out_is_gone() {
    let mut profile = larkmoor();
    let relief = profile.relief.clone();
    let shut = Setting {
        exhaust: Some(false),
        relief: Some(false),
        ..Setting::default()
    };
    let other = set(&profile, &shut, None);
    assert!(other.opening(OpeningRole::Exhaust).is_none());
    assert!(other.opening(OpeningRole::Supply).is_some());
    assert_eq!(other.relief, None);
    profile.relief = None;
    let with = Setting {
        relief: Some(true),
        ..Setting::default()
    };
    assert_eq!(
        set(&profile, &with, relief.as_ref()).relief.is_some(),
        relief.is_some()
    );
    // What nobody named stays as it was.
    assert_eq!(set(&profile, &Setting::default(), None), profile);
}

#[test]
fn a_setting_that_cannot_be_is_a_finding_at_its_field_and_nothing_is_promised() {
    let wild = Setting {
        orifice_m: Some(finite(-1.0)),
        ..Setting::default()
    };
    let told = explore(&larkmoor(), &wild, None, None).unwrap();
    assert_eq!(told.findings[0].field, "orifice_m");
    assert_eq!(told.findings[0].severity, Severity::Wrong);
    assert!(matches!(
        told.consequence,
        ConsequenceAnswer::Withheld { .. }
    ));
}

#[test]
fn a_setting_begins_from_what_was_measured_or_from_new() {
    let profile = larkmoor();
    assert!((clearance(&profile, Some(&worn())).unwrap() - 82e-6).abs() < 1e-12);
    let land = profile.reaction_land().unwrap().diameter_m.unwrap().get();
    let new = profile.bore.diameter_m.get() - land;
    assert!((clearance(&profile, None).unwrap() - new).abs() < 10e-6);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// More load holds more pressure, whatever else is set, as long as it regulates on both.
    #[test]
    fn more_load_never_holds_less(
        load in 18.0..26f64, more in 0.1..4f64, clearance_um in 20.0..90f64, orifice_mm in 0.4..1.2f64,
    ) {
        let at = |load: f64| Setting {
            spring_load_n: Some(finite(load)),
            clearance_m: Some(finite(clearance_um * 1e-6)),
            orifice_m: Some(finite(orifice_mm * 1e-3)),
            ..Setting::default()
        };
        prop_assert!(feed(at(load + more)) > feed(at(load)) - 1.0);
    }

    /// Beyond its clearance as new (36 µm on this valve), a wider gap shifts the pressure
    /// further from where it was as new.
    #[test]
    fn a_wider_gap_never_shifts_less(narrow_um in 44.0..80f64, wider_um in 4.0..60f64) {
        let shift = |um: f64| {
            let setting = Setting { clearance_m: Some(finite(um * 1e-6)), ..Setting::default() };
            of(setting, None).highest_line.shift_pa.map(|shift| shift.likely.abs())
        };
        let (narrow, wide) = (shift(narrow_um), shift(narrow_um + wider_um));
        if let (Some(narrow), Some(wide)) = (narrow, wide) {
            prop_assert!(wide > narrow - 0.02 * PSI, "{wide} {narrow}");
        }
    }
}

/// The figure beside the sliders is the curve's own: untested lands between new and worn, and the
/// same band.
#[test]
fn where_the_valve_stands_is_on_its_curve() {
    let profile = larkmoor();
    for (setting, seals) in [
        (Setting::default(), Some(worn())),
        (Setting::default(), None),
        (
            Setting {
                clearance_m: Some(finite(70e-6)),
                spring_load_n: Some(finite(20.0)),
                ..Setting::default()
            },
            Some(worn()),
        ),
    ] {
        let curve = of(setting, seals.as_ref());
        let stands = stand(&profile, &setting, seals.as_ref(), None)
            .unwrap()
            .unwrap();
        assert_eq!(stands.feed_pa, curve.highest_line.measured_feed_pa);
        assert_eq!(stands.stroke_m, curve.stroke_m);
        let idle = Setting {
            line_pa: profile.unit.line_idle_pa,
            ..setting
        };
        let stands = stand(&profile, &idle, seals.as_ref(), None)
            .unwrap()
            .unwrap();
        assert_eq!(stands.feed_pa, curve.idle.measured_feed_pa);
    }
}
