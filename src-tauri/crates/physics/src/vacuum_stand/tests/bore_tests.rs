use super::*;

pub(super) fn test_of<'a>(
    stand: &'a VacuumStand,
    lands: &'a [TestLand],
    reading: f64,
) -> BoreTest<'a> {
    BoreTest {
        reading: inches_of_mercury(reading),
        barometer: atmosphere::sea_level_pressure(),
        air: air(),
        stand: Some(stand),
        condition: BoreCondition::Dry,
        placement: ValvePlacement::AtRest,
        orifice: BalanceOrifice::Blocked,
        blank: None,
        lands,
        entry_exit_loss: None,
    }
}

#[test]
fn what_a_set_up_cannot_carry_is_refused_in_its_own_words() {
    let stand = stand(1.5e-4, 28.0, 2e8, true);
    let lands = lands(0.01, 0.005);
    let good = test_of(&stand, &lands, 23.0);
    assert!(
        bore_leak(&good)
            .unwrap()
            .assumptions
            .contains(&Assumption::BlankNeglected)
    );

    let no_stand = BoreTest {
        stand: None,
        ..good
    };
    assert_eq!(bore_leak(&no_stand), Err(Refusal::NoCalibratedStand));
    let oiled = BoreTest {
        condition: BoreCondition::Oiled,
        ..good
    };
    assert_eq!(bore_leak(&oiled), Err(Refusal::Oiled));
    let empty = BoreTest {
        placement: ValvePlacement::Absent,
        ..good
    };
    assert_eq!(bore_leak(&empty), Err(Refusal::ValveAbsent));

    let r = bore_leak(&test_of(&stand, &lands, 28.4)).unwrap_err();
    assert!(
        matches!(r, Refusal::ReadingBetterThanDeadHead { .. }),
        "{r}"
    );
    let r = bore_leak(&test_of(&stand, &lands, 0.0)).unwrap_err();
    assert!(matches!(r, Refusal::ReadingWorseThanOpenHose { .. }), "{r}");
    for absurd in [400.0, 30.0, -3.0] {
        let r = bore_leak(&test_of(&stand, &lands, absurd)).unwrap_err();
        let named = matches!(
            r,
            Refusal::Input(PhysicsError::OutOfRange {
                field: "vacuum_reading_pa",
                ..
            })
        );
        assert!(named, "{r}");
    }
    let r = bore_leak(&test_of(&stand, &lands, f64::NAN)).unwrap_err();
    assert_eq!(
        r,
        Refusal::Input(PhysicsError::NotFinite {
            field: "vacuum_reading_pa"
        })
    );

    let blank = |reading| {
        let law = BlankLaw::Hole;
        let barometer = good.barometer;
        Some(Blank {
            reading: inches_of_mercury(reading),
            barometer,
            law,
        })
    };
    let r = bore_leak(&BoreTest {
        blank: blank(22.0),
        ..good
    })
    .unwrap_err();
    assert_eq!(r, Refusal::BlankExceedsReading);
    let r = bore_leak(&BoreTest {
        blank: blank(28.5),
        ..good
    })
    .unwrap_err();
    assert_eq!(r, Refusal::BlankBetterThanDeadHead);
    let with_blank = bore_leak(&BoreTest {
        blank: blank(27.0),
        ..good
    })
    .unwrap();
    let without = bore_leak(&good).unwrap();
    assert!(with_blank.radial_clearance.high < without.radial_clearance.high);
    assert!(
        bore_leak(&BoreTest {
            blank: blank(28.0),
            ..good
        })
        .is_ok(),
        "a tight plate"
    );

    let parallel = BoreTest {
        orifice: BalanceOrifice::InParallel(hole(1.5)),
        ..good
    };
    assert_eq!(
        bore_leak(&parallel),
        Err(Refusal::ParallelOrificeExceedsReading)
    );
    let no_lands = BoreTest { lands: &[], ..good };
    assert!(matches!(
        bore_leak(&no_lands),
        Err(Refusal::Input(PhysicsError::TooFew { field: "seals", .. }))
    ));
}

#[test]
fn an_orifice_in_series_is_left_out_corrected_or_refused_by_its_share_of_the_drop() {
    let stand = stand(1.5e-4, 28.0, 0.0, true);
    let lands = lands(0.008, 0.005);
    let sea = atmosphere::sea_level_pressure();
    let gap = bore(0.008, 30.0, 0.005, 0.0);
    let found = |d_mm: f64| {
        let orifice = BalanceOrifice::InSeries(hole(d_mm));
        let shown = stand.reading(&gap, &orifice, &air(), sea).unwrap();
        bore_leak(&BoreTest {
            orifice,
            ..test_of(&stand, &lands, inhg(shown.reading))
        })
    };
    // 3 mm: nothing to speak of.
    let wide = found(3.0).unwrap();
    assert!(wide.orifice_drop_fraction.value < NEGLIGIBLE_DROP);
    assert!(
        wide.assumptions
            .contains(&Assumption::SeriesOrificeNeglected)
    );
    // 1 mm (0.040 in): corrected, and the gap comes back as it was.
    let corrected = found(1.0).unwrap();
    assert!(
        corrected
            .assumptions
            .contains(&Assumption::SeriesOrificeCorrected)
    );
    let c = corrected.radial_clearance.high.get::<micrometer>();
    assert!((c - 30.0).abs() < 1e-4, "{c}");
    // 0.2 mm: the gap is out of sight.
    let r = found(0.2).unwrap_err();
    assert!(
        matches!(r, Refusal::OrificeTakesDrop { fraction } if fraction > 0.9),
        "{r}"
    );
}

#[test]
fn an_orifice_beside_the_gap_is_taken_off_as_a_flow() {
    let stand = stand(1.5e-4, 28.0, 0.0, true);
    let lands = lands(0.008, 0.005);
    let orifice = BalanceOrifice::InParallel(hole(0.5));
    let gap = bore(0.008, 30.0, 0.005, 0.0);
    let shown = stand
        .reading(&gap, &orifice, &air(), atmosphere::sea_level_pressure())
        .unwrap();
    let test = BoreTest {
        orifice,
        ..test_of(&stand, &lands, inhg(shown.reading))
    };
    let c = bore_leak(&test)
        .unwrap()
        .radial_clearance
        .high
        .get::<micrometer>();
    assert!((c - 30.0).abs() < 1e-4, "{c}");
}
