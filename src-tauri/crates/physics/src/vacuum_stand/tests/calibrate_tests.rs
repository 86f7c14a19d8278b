use super::*;

pub(super) fn calibration<'a>(
    truth: &VacuumStand,
    day: Pressure,
    orifices: &'a [CalibrationOrifice],
) -> CalibrationTest<'a> {
    CalibrationTest {
        dead_head: truth.dead_head,
        barometer: day,
        air: air(),
        orifices,
        reading_uncertainty: pascals(500.0),
        conductance_uncertainty: Ratio::new::<ratio>(0.03),
    }
}

#[test]
fn one_orifice_gives_the_pull_and_says_what_it_left_out() {
    let truth = stand(1.2e-4, 28.0, 0.0, true);
    let day = atmosphere::sea_level_pressure();
    let leak = Leak::Hole(hole(0.8));
    let shown = truth
        .reading(&leak, &BalanceOrifice::Blocked, &air(), day)
        .unwrap();
    let one = [CalibrationOrifice {
        hole: hole(0.8),
        reading: shown.reading,
    }];
    let found = calibrate(&calibration(&truth, day, &one)).unwrap();
    assert_eq!(found.hose_fit, HoseFit::OneOrifice);
    assert_eq!(found.degrees_of_freedom, 0);
    assert!((found.stand.pull.value / 1.2e-4 - 1.0).abs() < 1e-9);
    assert!(found.assumptions.contains(&Assumption::HoseNeglected));
    // The conductance's 3 % is in S, and the gauge's share comes on top.
    assert!(found.pull_uncertainty.value > 0.03 && found.pull_uncertainty.value < 0.2);
    assert_eq!(found.hose_uncertainty, None);
}

#[test]
fn orifices_that_all_choke_cannot_tell_the_hose() {
    let truth = stand(1.5e-4, 28.0, 2e8, true);
    let day = atmosphere::sea_level_pressure();
    let orifices: Vec<CalibrationOrifice> = [0.3, 0.4, 0.5]
        .iter()
        .map(|d| {
            let leak = Leak::Hole(hole(*d));
            let shown = truth
                .reading(&leak, &BalanceOrifice::Blocked, &air(), day)
                .unwrap();
            CalibrationOrifice {
                hole: hole(*d),
                reading: shown.reading,
            }
        })
        .collect();
    let found = calibrate(&calibration(&truth, day, &orifices)).unwrap();
    assert_eq!(found.hose_fit, HoseFit::NotResolved);
    assert!((found.stand.pull.value / 1.5e-4 - 1.0).abs() < 1e-9);
}

#[test]
fn noise_in_the_readings_shows_as_residuals_and_as_uncertainty_of_the_pull() {
    let truth = stand(1.5e-4, 28.0, 5e7, true);
    let day = atmosphere::sea_level_pressure();
    let noise = [900.0, -1200.0, 1100.0, -800.0, 700.0];
    let orifices: Vec<CalibrationOrifice> = [0.4, 0.7, 1.0, 1.5, 2.2]
        .iter()
        .zip(noise)
        .map(|(d, off)| {
            let leak = Leak::Hole(hole(*d));
            let shown = truth
                .reading(&leak, &BalanceOrifice::Blocked, &air(), day)
                .unwrap();
            CalibrationOrifice {
                hole: hole(*d),
                reading: shown.reading + pascals(off),
            }
        })
        .collect();
    let found = calibrate(&calibration(&truth, day, &orifices)).unwrap();
    assert!(found.degrees_of_freedom >= 3);
    assert!(found.residuals.iter().any(|r| r.value.abs() > 300.0));
    let off = (found.stand.pull.value / 1.5e-4 - 1.0).abs();
    assert!(off < 3.0 * found.pull_uncertainty.value, "{found:?}");
}

#[test]
fn a_calibration_that_makes_no_sense_is_refused_by_name() {
    let truth = stand(1.5e-4, 28.0, 0.0, true);
    let day = atmosphere::sea_level_pressure();
    let e = calibrate(&calibration(&truth, day, &[])).unwrap_err();
    assert!(matches!(
        e,
        PhysicsError::TooFew {
            field: "orifices",
            ..
        }
    ));
    let deep = [CalibrationOrifice {
        hole: hole(1.0),
        reading: inches_of_mercury(28.0),
    }];
    let e = calibrate(&calibration(&truth, day, &deep)).unwrap_err();
    assert!(matches!(
        e,
        PhysicsError::OutOfRange {
            field: "calibration_reading_pa",
            ..
        }
    ));
    let open = [CalibrationOrifice {
        hole: hole(1.0),
        reading: inches_of_mercury(0.0),
    }];
    let found = calibrate(&calibration(&truth, day, &open));
    assert!(found.is_err() || found.unwrap().stand.pull.value.is_finite());
}
