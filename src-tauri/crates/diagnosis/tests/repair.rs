//! Repairs predicted from the dimensions that they leave, on the demo's two valves.

use diagnosis::judgement::{Consequence, ConsequenceAnswer, ConsequenceRefusal};
use diagnosis::pressure::SealEvidence;
use diagnosis::repair::{OpenPoint, RepairForecast, forecast, open_points};
use model::Finite;
use model::finding::{FindingCode, Severity};
use model::repair::{RepairOption, RepairWork};
use model::unit::BoreProfile;
use proptest::prelude::*;

const PSI: f64 = 6_894.757_293_168_361;

fn f(value: f64) -> Option<Finite> {
    Finite::new(value)
}

fn larkmoor() -> BoreProfile {
    testkit::demo::profile("Larkmoor L6").unwrap()
}

/// The reaction land worn to 82 µm.
fn worn() -> SealEvidence {
    SealEvidence {
        tested_lands: vec!["reaction land".into()],
        ..SealEvidence::measured(&larkmoor(), [80e-6, 82e-6, 84e-6])
    }
}

fn work(option: RepairOption) -> RepairWork {
    RepairWork::new(option)
}

/// A sleeve of 7.5 mm with 30 µm of clearance and the spring that 65 psi ask for there.
fn sleeve() -> RepairWork {
    RepairWork {
        bore_diameter_m: f(7.500e-3),
        bore_uncertainty_m: f(2e-6),
        valve_diameter_m: f(7.470e-3),
        valve_uncertainty_m: f(2e-6),
        // By hand: 448159 Pa x pi/4 (7.470 mm)² = 19.641 N.
        spring_load_n: f(19.641),
        spring_rate_n_per_m: f(1_500.0),
        ..work(RepairOption::SleeveSmallerValve)
    }
}

fn predict(work: &RepairWork) -> RepairForecast {
    forecast(&larkmoor(), work, Some(&worn()), None).unwrap()
}

fn computed(forecast: &RepairForecast) -> &Consequence {
    match &forecast.prediction {
        ConsequenceAnswer::Computed(consequence) => consequence,
        ConsequenceAnswer::Withheld { reason } => panic!("withheld: {reason:?} {forecast:?}"),
    }
}

fn codes(forecast: &RepairForecast) -> Vec<(FindingCode, &str)> {
    let each = forecast.findings.iter();
    each.map(|found| (found.code, found.field.as_str()))
        .collect()
}

#[test]
fn a_sleeve_with_its_spring_brings_the_pressure_back() {
    let forecast = predict(&sleeve());
    assert_eq!(codes(&forecast), vec![]);
    let feed = computed(&forecast).highest_line.measured_feed_pa;
    assert!((62.0..69.0).contains(&(*feed.likely / PSI)), "{feed:?}");
    assert!(*feed.low < *feed.likely && *feed.likely < *feed.high);
    // By hand: P = F / A.
    assert!(
        (*forecast.fitting_load_n.unwrap() - 19.641).abs() < 0.005,
        "{forecast:?}"
    );
    assert!((*forecast.spring_holds_pa.unwrap() - 448_159.0).abs() < 100.0);
    // 30 µm, with 2 µm and 2 µm in quadrature.
    let clearance = forecast.clearance_m.unwrap();
    assert!((*clearance.likely - 30e-6).abs() < 1e-9);
    assert!((*clearance.high - *clearance.likely - 2.828e-6).abs() < 1e-8);
}

#[test]
fn a_smaller_valve_on_the_old_spring_holds_too_much_and_the_load_that_fits_is_told() {
    let old = RepairWork {
        spring_load_n: None,
        spring_rate_n_per_m: None,
        ..sleeve()
    };
    let forecast = predict(&old);
    let found = forecast
        .findings
        .iter()
        .find(|found| found.code == FindingCode::SpringDoesNotFit);
    let found = found.unwrap_or_else(|| panic!("{forecast:?}"));
    assert_eq!(
        (found.severity, found.field.as_str()),
        (Severity::Doubt, "spring_load_n")
    );
    assert!((*found.low.unwrap() - 19.641).abs() < 0.005);
    // The old spring on the smaller face, P = F / A.
    let profile = larkmoor();
    let load = *profile.spring.as_ref().unwrap().load_regulating_n.unwrap();
    let by_hand = load / (std::f64::consts::FRAC_PI_4 * 7.470e-3_f64.powi(2));
    assert!((*found.high.unwrap() / by_hand - 1.0).abs() < 1e-9);
    assert!(codes(&forecast).contains(&(FindingCode::SpringAsBefore, "spring_load_n")));
    // And the prediction follows it.
    let feed = *computed(&forecast).highest_line.measured_feed_pa.likely;
    assert!(feed > by_hand * 0.97, "{feed} against {by_hand}");
}

#[test]
fn a_hundred_and_twenty_psi_on_a_quarter_square_inch_ask_for_thirty_pounds() {
    // Common practice, no source.
    let profile = testkit::demo::profile("Stonebeck S8").unwrap();
    let valve = (4.0 * 0.25 / std::f64::consts::PI).sqrt() * 0.0254;
    let work = RepairWork {
        bore_diameter_m: f(valve + 35e-6),
        valve_diameter_m: f(valve),
        ..work(RepairOption::ReamedOversize)
    };
    let forecast = forecast(&profile, &work, None, None).unwrap();
    let pounds = *forecast.fitting_load_n.unwrap() / 4.448_221_615_260_5;
    assert!((pounds - 30.0).abs() < 1e-3, "{pounds}");
}

#[test]
fn a_repair_without_dimensions_is_kept_and_its_findings_say_what_that_costs() {
    for option in [
        RepairOption::SleeveSmallerValve,
        RepairOption::ReamedOversize,
    ] {
        let forecast = predict(&work(option));
        let missing = FindingCode::DimensionMissing;
        let found = codes(&forecast);
        assert!(found.contains(&(missing, "bore_diameter_m")), "{found:?}");
        assert!(found.contains(&(missing, "valve_diameter_m")), "{found:?}");
        assert!(
            forecast
                .findings
                .iter()
                .all(|found| found.severity != Severity::Wrong)
        );
        let reason = ConsequenceRefusal::NoDimensions;
        assert_eq!(forecast.prediction, ConsequenceAnswer::Withheld { reason });
    }
}

#[test]
fn cleaning_leaves_the_gap_as_the_test_found_it() {
    let cleaned = predict(&work(RepairOption::Cleaned));
    let before = diagnosis::pressure::consequence(&larkmoor(), &worn(), 363.15)
        .unwrap()
        .0;
    assert_eq!(computed(&cleaned).highest_line, before.highest_line);
    let unknown = forecast(&larkmoor(), &work(RepairOption::Cleaned), None, None).unwrap();
    assert_eq!(codes(&unknown), vec![(FindingCode::NoTestBefore, "")]);
}

#[test]
fn a_larger_valve_in_the_worn_bore_closes_the_gap_that_the_test_found() {
    let profile = larkmoor();
    let old = *profile.reaction_land().unwrap().diameter_m.unwrap();
    let with = |more: f64| {
        let work = RepairWork {
            valve_diameter_m: f(old + more),
            valve_uncertainty_m: f(1e-6),
            ..work(RepairOption::NewValve)
        };
        predict(&work)
    };
    let forecast = with(40e-6);
    // 82 µm less 40 µm.
    assert!((*forecast.clearance_m.unwrap().likely - 42e-6).abs() < 1e-9);
    assert!(codes(&forecast).contains(&(FindingCode::BoreFromTest, "bore_diameter_m")));
    let too_large = with(90e-6);
    assert!(codes(&too_large).contains(&(FindingCode::ValveLargerThanBore, "valve_diameter_m")));
}

#[test]
fn a_valve_larger_than_its_bore_is_wrong_at_the_valve() {
    let work = RepairWork {
        valve_diameter_m: f(7.6e-3),
        ..sleeve()
    };
    let forecast = predict(&work);
    let found = &forecast.findings[0];
    assert_eq!(
        (found.code, found.severity),
        (FindingCode::ValveLargerThanBore, Severity::Wrong)
    );
    assert_eq!(found.field, "valve_diameter_m");
}

#[test]
fn a_relief_added_caps_feed_where_the_valve_loses_control() {
    let mut profile = testkit::demo::profile("Stonebeck S8").unwrap();
    let relief = profile.relief.take().unwrap();
    let ruined = SealEvidence::measured(&profile, [150e-6, 160e-6, 170e-6]);
    let added = work(RepairOption::ReliefAdded);
    let without = forecast(&profile, &work(RepairOption::Cleaned), Some(&ruined), None).unwrap();
    let with = forecast(&profile, &added, Some(&ruined), Some(&relief)).unwrap();
    let high = |forecast: &RepairForecast| *computed(forecast).highest_line.measured_feed_pa.high;
    assert!(
        high(&with) < high(&without),
        "{} {}",
        high(&with),
        high(&without)
    );
    assert!(open_points(&added, None, &with, None, false, None).contains(&OpenPoint::LeakRemains));
    let unnamed = forecast(&profile, &added, Some(&ruined), None).unwrap();
    assert!(codes(&unnamed).contains(&(FindingCode::ReliefNotChecked, "option")));
}

#[test]
fn an_orifice_back_at_its_size_cures_and_a_larger_one_contains() {
    let as_new = Finite::new(0.8e-3);
    let open = |fitted: f64| {
        let mut changed = work(RepairOption::OrificeChanged);
        changed.orifice_m = Finite::new(fitted);
        open_points(&changed, None, &predict(&changed), None, false, as_new)
    };
    // 0.0315 in, as it is typed.
    assert!(!open(0.0315 * 25.4e-3).contains(&OpenPoint::LeakRemains));
    assert!(open(1.0e-3).contains(&OpenPoint::LeakRemains));
}

#[test]
fn what_is_open_says_that_nobody_tested_again() {
    let open = open_points(&sleeve(), None, &predict(&sleeve()), None, false, None);
    assert!(open.contains(&OpenPoint::NotTestedAgain) && open.contains(&OpenPoint::NoTestBefore));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn a_tighter_sleeve_never_shifts_more(um in 20.0..60.0f64, more in 5.0..20.0f64) {
        let at = |um: f64| {
            let work = RepairWork { valve_diameter_m: f(7.5e-3 - um * 1e-6), ..sleeve() };
            *computed(&predict(&work)).highest_line.shift_pa.map_or(Finite::ZERO, |span| span.high)
        };
        prop_assert!(at(um) <= at(um + more) + 50.0);
    }

    #[test]
    fn any_figures_give_an_answer_or_a_finding(
        bore in proptest::option::of(-1.0e-2..2.0e-2f64),
        valve in proptest::option::of(-1.0e-2..2.0e-2f64),
        load in proptest::option::of(-10.0..3_000.0f64),
    ) {
        let work = RepairWork {
            bore_diameter_m: bore.and_then(f),
            valve_diameter_m: valve.and_then(f),
            spring_load_n: load.and_then(f),
            ..work(RepairOption::Other)
        };
        let forecast = forecast(&larkmoor(), &work, Some(&worn()), None).unwrap();
        let told = match &forecast.prediction {
            ConsequenceAnswer::Computed(_) => true,
            ConsequenceAnswer::Withheld { reason } => *reason == ConsequenceRefusal::NoBalance,
        };
        prop_assert!(told || !forecast.findings.is_empty());
    }
}
