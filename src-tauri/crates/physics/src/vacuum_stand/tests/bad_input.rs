//! Any numbers at all: an answer that is finite, or a refusal; never a panic.

use super::*;
use crate::quantity::sonic_conductance;
use crate::two_valves::{StandKnown, TwoValves, clearance};

/// Sound values, slips of the finger, and what no form should let through.
fn number(low: f64, high: f64) -> impl Strategy<Value = f64> {
    prop_oneof![
        30 => low..high,
        1 => any::<f64>(),
        1 => prop::sample::select(vec![0.0, -0.0, -1.0, 1e-300, 1e300, f64::INFINITY, f64::NAN]),
    ]
}

fn any_stand() -> impl Strategy<Value = VacuumStand> {
    let sound = (
        number(1e-5, 5e-4),
        number(1e3, 2e4),
        number(6e4, 1.05e5),
        number(0.0, 1e9),
        any::<bool>(),
    );
    sound.prop_map(|(pull, dead, day, hose, follows_barometer)| VacuumStand {
        pull: VolumeRate::new::<cubic_meter_per_second>(pull),
        dead_head: DeadHead {
            pressure: pascals(dead),
            barometer: pascals(day),
            follows_barometer,
        },
        hose_resistance: hose_resistance(hose),
    })
}

fn any_orifice() -> impl Strategy<Value = BalanceOrifice> {
    (0..3, number(1e-4, 3e-3)).prop_map(|(kind, d)| {
        let hole = Hole::drilled(Length::new::<meter>(d), None);
        match (kind, hole) {
            (1, Ok(hole)) => BalanceOrifice::InSeries(hole),
            (2, Ok(hole)) => BalanceOrifice::InParallel(hole),
            _ => BalanceOrifice::Blocked,
        }
    })
}

proptest! {
    #[test]
    fn bore_test(
        stand in any_stand(),
        orifice in any_orifice(),
        reading in number(0.0, 1.0e5),
        barometer in number(6e4, 1.05e5),
        blank in prop::option::of((number(0.0, 1.0e5), any::<bool>())),
        far in prop::option::of(number(1e4, 1e5)),
        loss in prop::option::of(number(1.4, 3.0)),
    ) {
        let mut lands = lands(0.01, 0.005);
        if let Some(far) = far {
            lands.push(TestLand { far_side: FarSide::Absolute(pascals(far)), ..lands[0] });
        }
        let mut test = test_of(&stand, &lands, 0.0);
        test.reading = pascals(reading);
        test.barometer = pascals(barometer);
        test.orifice = orifice;
        test.entry_exit_loss = loss.map(Ratio::new::<ratio>);
        test.blank = blank.map(|(reading, hole)| Blank {
            reading: pascals(reading),
            barometer: pascals(barometer),
            law: if hole { BlankLaw::Hole } else { BlankLaw::Gap },
        });
        if let Ok(found) = bore_leak(&test) {
            for value in [
                found.throughput.value,
                found.chamber_pressure.value,
                found.radial_clearance.low.value,
                found.radial_clearance.high.value,
                found.gap_factor.high.value,
                found.equivalent_hole.value,
                found.reynolds.value,
                found.slip_fraction.value,
            ] {
                prop_assert!(value.is_finite() && value > 0.0, "{found:?}");
            }
            let told = reading_on_reference_stand(&found.leak);
            prop_assert!(told.is_ok_and(|r| r.value.is_finite() && r.value >= 0.0));
        }
    }

    #[test]
    fn calibration(
        stand in any_stand(),
        day in number(6e4, 1.05e5),
        orifices in prop::collection::vec((number(1e-9, 1e-8), number(0.0, 1.0e5)), 0..5),
        noise in number(10.0, 2e3),
        common in number(0.0, 0.1),
    ) {
        let holes = orifices.iter().filter_map(|(c, reading)| {
            let hole = Hole::new(sonic_conductance(*c), Ratio::new::<ratio>(0.5)).ok()?;
            Some(CalibrationOrifice { hole, reading: pascals(*reading) })
        });
        let holes: Vec<_> = holes.collect();
        let mut test = super::calibration(&stand, pascals(day), &holes);
        test.reading_uncertainty = pascals(noise);
        test.conductance_uncertainty = Ratio::new::<ratio>(common);
        if let Ok(found) = calibrate(&test) {
            prop_assert!(found.stand.pull.value > 0.0 && found.stand.pull.value.is_finite());
            prop_assert!(found.stand.hose_resistance.value >= 0.0);
            prop_assert!(found.pull_uncertainty.value.is_finite(), "{found:?}");
            prop_assert!(found.condition.value.is_finite(), "{found:?}");
            prop_assert!(found.hose_uncertainty.is_none_or(|u| u.value.is_finite()), "{found:?}");
            prop_assert!(found.residuals.iter().all(|r| r.value.is_finite()));
        }
    }

    #[test]
    fn carried_limit_and_two_valves(
        stand in any_stand(),
        limit in number(0.0, 1.0e5),
        other in number(0.0, 1.0e5),
        from in number(6e4, 1.05e5),
        to in number(6e4, 1.05e5),
        difference in number(1e-6, 3e-5),
        tolerance in number(0.0, 5e3),
        calibrated in any::<bool>(),
    ) {
        let (limit, from, to) = (pascals(limit), pascals(from), pascals(to));
        for law in [LeakLaw::Gap, LeakLaw::Hole] {
            if let Ok(carried) = stand.carry_limit(limit, from, to, law, &air()) {
                prop_assert!(carried.reading.value.is_finite());
            }
        }
        let test = TwoValves {
            larger_reading: limit,
            smaller_reading: pascals(other),
            reading_tolerance: pascals(tolerance),
            diameter_difference: Length::new::<meter>(difference),
            difference_tolerance: None,
            stand: if calibrated {
                StandKnown::Calibrated(&stand, Length::new::<meter>(0.01))
            } else {
                StandKnown::DeadHead(&stand.dead_head)
            },
            barometer: from,
            air: air(),
        };
        if let Ok(found) = clearance(&test) {
            prop_assert!(found.radial_clearance.value.is_finite());
            prop_assert!(found.low.value > 0.0 && found.low <= found.radial_clearance);
            prop_assert!(found.high.is_none_or(|h| h >= found.radial_clearance), "{found:?}");
        }
    }
}
