use super::*;
use crate::atmosphere;
use crate::gap::Land;
use crate::gap_air;
use crate::hole::Hole;
use crate::quantity::{hose_resistance, inches_of_mercury};
use proptest::prelude::*;
use uom::si::f64::{Length, Ratio, ThermodynamicTemperature};
use uom::si::length::{meter, micrometer, millimeter};
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume_rate::cubic_meter_per_second;

fn air() -> Air {
    Air::at(ThermodynamicTemperature::new::<kelvin>(295.15)).unwrap()
}

fn stand(pull: f64, dead_inhg: f64, hose: f64, follows: bool) -> VacuumStand {
    let sea = atmosphere::sea_level_pressure();
    VacuumStand {
        pull: VolumeRate::new::<cubic_meter_per_second>(pull),
        dead_head: DeadHead::from_reading(inches_of_mercury(dead_inhg), sea, follows).unwrap(),
        hose_resistance: hose_resistance(hose),
    }
}

fn hole(d_mm: f64) -> Hole {
    Hole::drilled(Length::new::<millimeter>(d_mm), None).unwrap()
}

fn lands(d: f64, l: f64) -> Vec<TestLand> {
    let land = Land::new(Length::new::<meter>(d), Length::new::<meter>(l)).unwrap();
    vec![TestLand {
        land,
        far_side: FarSide::Ambient,
    }]
}

fn bore(d: f64, c_um: f64, l: f64, e: f64) -> Leak {
    Leak::Lands {
        lands: lands(d, l),
        radial_clearance: Length::new::<micrometer>(c_um),
        eccentricity: Ratio::new::<ratio>(e),
        entry_exit_loss: None,
    }
}

mod bad_input;
mod bore_tests;
mod calibrate_tests;

use bore_tests::test_of;
use calibrate_tests::calibration;

fn inhg(p: Pressure) -> f64 {
    p.value / crate::quantity::INCH_OF_MERCURY_PA
}

proptest! {
    #[test]
    fn the_reading_falls_as_the_leak_grows_and_as_the_barometer_falls(
        c in 3.0..100.0f64, l in 2.0..8.0f64, pull in 4e-5..3e-4f64, hose in 0.0..5e8f64,
        z in 0.0..3000.0f64,
    ) {
        let stand = stand(pull, 28.0, hose, true);
        let day = atmosphere::pressure(Length::new::<meter>(z)).unwrap();
        let read = |c: f64| {
            let leak = bore(0.01, c, l * 1e-3, 0.3);
            stand.reading(&leak, &BalanceOrifice::Blocked, &air(), day).unwrap()
        };
        let (tight, loose) = (read(c), read(1.02 * c));
        prop_assert!(loose.reading < tight.reading);
        prop_assert!(loose.port.throughput > tight.port.throughput);
    }

    #[test]
    fn a_reading_leads_back_to_the_clearance_that_made_it(
        c in 3.0..100.0f64, l in 2.0..8.0f64, pull in 4e-5..3e-4f64, hose in 0.0..5e8f64,
        z in 0.0..2500.0f64, follows in any::<bool>(), blank_mm in 0.05..0.25f64,
        as_hole in any::<bool>(),
    ) {
        let stand = stand(pull, 28.0, hose, follows);
        let day = atmosphere::pressure(Length::new::<meter>(z)).unwrap();
        prop_assume!(stand.dead_head.at(day).is_ok());
        let air = air();
        let blocked = BalanceOrifice::Blocked;
        let law = if as_hole { BlankLaw::Hole } else { BlankLaw::Gap };
        let plate = Leak::Hole(hole(blank_mm));
        let shown = stand.reading(&plate, &blocked, &air, day).unwrap();
        let blank = Blank { reading: shown.reading, barometer: day, law };
        // The background obeys the law that the test takes it to obey.
        let plate = blank.leak(&stand, &air).unwrap();
        let both = Leak::Sum(vec![bore(0.01, c, l * 1e-3, 0.0), plate]);
        let shown = stand.reading(&both, &blocked, &air, day).unwrap();
        let lands = lands(0.01, l * 1e-3);
        let test = BoreTest {
            reading: shown.reading,
            barometer: day,
            air,
            stand: Some(&stand),
            condition: BoreCondition::Dry,
            placement: ValvePlacement::AtRest,
            orifice: blocked,
            blank: Some(blank),
            lands: &lands,
            entry_exit_loss: None,
        };
        let found = bore_leak(&test).unwrap();
        let centred = found.radial_clearance.high.get::<micrometer>();
        prop_assert!((centred / c - 1.0).abs() < 1e-4, "{c} came back as {centred}");
        prop_assert!(found.radial_clearance.low < found.radial_clearance.high);
        let again = stand.reading(&Leak::Sum(vec![found.leak, blank.leak(&stand, &air).unwrap()]),
            &blocked, &air, day).unwrap();
        prop_assert!((again.reading.value - shown.reading.value).abs() < 1e-3);
    }

    #[test]
    fn calibration_recovers_the_stand(
        pull in 4e-5..3e-4f64, hose in 0.0..3e8f64, dead in 26.0..29.0f64, z in 0.0..2000.0f64,
    ) {
        // Two orifices that choke and two that don't, so that the hose shows.
        let truth = stand(pull, dead, hose, true);
        let day = atmosphere::pressure(Length::new::<meter>(z)).unwrap();
        let orifices: Vec<CalibrationOrifice> = [0.4, 0.7, 1.2, 2.0]
            .iter()
            .map(|d| {
                let leak = Leak::Hole(hole(*d));
                let shown = truth.reading(&leak, &BalanceOrifice::Blocked, &air(), day).unwrap();
                CalibrationOrifice { hole: hole(*d), reading: shown.reading }
            })
            .collect();
        let found = calibrate(&calibration(&truth, day, &orifices)).unwrap();
        prop_assert!((found.stand.pull.value / pull - 1.0).abs() < 1e-6, "{found:?}");
        let off = (found.stand.hose_resistance.value - hose).abs();
        prop_assert!(off < 1e-5 * (hose + 1e7), "{found:?}");
        prop_assert!(found.residuals.iter().all(|r| r.value.abs() < 0.1));
        prop_assert!(found.pull_uncertainty.value.is_finite());
    }

    #[test]
    fn a_carried_limit_leaves_the_invariant_as_it_was(
        limit in 12.0..26.0f64, z in 0.0..3000.0f64, follows in any::<bool>(),
    ) {
        let sea = atmosphere::sea_level_pressure();
        let day = atmosphere::pressure(Length::new::<meter>(z)).unwrap();
        let dead = DeadHead::from_reading(inches_of_mercury(28.5), sea, follows).unwrap();
        let carried = dead
            .carry_limit(inches_of_mercury(limit), sea, day, LeakLaw::Gap, &air())
            .unwrap();
        let invariant = |p_a: f64, reading: f64, p_d: f64| {
            let p_g = p_a - reading;
            (p_a * p_a - p_g * p_g) / (p_g - p_d)
        };
        let here = invariant(day.value, carried.reading.value, dead.at(day).unwrap().value);
        let there = invariant(sea.value, inches_of_mercury(limit).value, dead.pressure.value);
        prop_assert!((here / there - 1.0).abs() < 1e-8, "{here} {there}");
        // And any pull gives the same.
        let stand = VacuumStand {
            pull: VolumeRate::new::<cubic_meter_per_second>(3.3e-4),
            dead_head: dead,
            hose_resistance: hose_resistance(0.0),
        };
        let same = stand.carry_limit(inches_of_mercury(limit), sea, day, LeakLaw::Gap, &air());
        prop_assert!((same.unwrap().reading.value - carried.reading.value).abs() < 1e-4);
    }
}

#[test]
fn no_leak_reads_the_dead_head() {
    let stand = stand(1.5e-4, 28.0, 1e8, true);
    for z in [0.0, 1600.0] {
        let day = atmosphere::pressure(Length::new::<meter>(z)).unwrap();
        let shown = stand
            .reading(&Leak::none(), &BalanceOrifice::Blocked, &air(), day)
            .unwrap();
        let dead = day - stand.dead_head.at(day).unwrap();
        assert!((shown.reading.value - dead.value).abs() < 1e-6);
        assert!(shown.port.throughput.value.abs() < 1e-9);
    }
}

#[test]
fn gap_and_hole_carry_a_limit_differently_and_both_downward() {
    // Design, section 4: laminar and hole differ by an inch, so say which. Here 20 inHg from sea
    // level to 1600 m.
    let sea = atmosphere::sea_level_pressure();
    let day = atmosphere::pressure(Length::new::<meter>(1600.0)).unwrap();
    let dead = DeadHead::from_reading(inches_of_mercury(28.0), sea, true).unwrap();
    let carry = |law| {
        let carried = dead
            .carry_limit(inches_of_mercury(20.0), sea, day, law, &air())
            .unwrap();
        inhg(carried.reading)
    };
    let (gap, hole) = (carry(LeakLaw::Gap), carry(LeakLaw::Hole));
    assert!(gap < 20.0 && hole < gap + 5.0, "{gap} {hole}");
    assert!(
        (gap - hole).abs() > 0.5 && (gap - hole).abs() < 2.5,
        "{gap} {hole}"
    );
    let same = dead
        .carry_limit(inches_of_mercury(20.0), sea, sea, LeakLaw::Gap, &air())
        .unwrap();
    assert!((inhg(same.reading) - 20.0).abs() < 1e-9);
    let e = dead
        .carry_limit(inches_of_mercury(28.3), sea, day, LeakLaw::Gap, &air())
        .unwrap_err();
    assert!(matches!(
        e,
        PhysicsError::OutOfRange {
            field: "vacuum_reading_pa",
            ..
        }
    ));
}

#[test]
fn the_reading_on_the_reference_stand_does_not_depend_on_the_stand_or_the_place() {
    let truth = bore(0.009, 25.0, 0.005, 0.0);
    let expected = reading_on_reference_stand(&truth).unwrap();
    let lands = lands(0.009, 0.005);
    for (pull, dead, hose, z) in [(6e-5, 26.5, 0.0, 0.0), (2.5e-4, 28.5, 1e8, 1800.0)] {
        let stand = stand(pull, dead, hose, true);
        let day = atmosphere::pressure(Length::new::<meter>(z)).unwrap();
        let shown = stand
            .reading(&truth, &BalanceOrifice::Blocked, &air(), day)
            .unwrap();
        let mut test = test_of(&stand, &lands, inhg(shown.reading));
        test.barometer = day;
        let found = bore_leak(&test).unwrap();
        let told = reading_on_reference_stand(&found.leak).unwrap();
        assert!((inhg(told) - inhg(expected)).abs() < 1e-6);
    }
}

#[test]
fn vacuum_pulls_the_spool_with_some_newtons() {
    // Design, section 4: 4 N on 8 mm (at about 24 inHg).
    let f = vacuum_force(inches_of_mercury(24.0), Length::new::<millimeter>(8.0)).unwrap();
    assert!((f.value - 4.0).abs() < 0.15, "{f:?}");
}

#[test]
fn a_film_of_known_factor_reads_as_its_bore_where_slip_and_loss_are_small() {
    let gap = lands(0.01, 0.02)[0]
        .land
        .gap(Length::new::<micrometer>(25.0), Ratio::new::<ratio>(0.0));
    let gap = gap.unwrap();
    let film = gap_air::laminar_throughput(gap.gap_factor(), &air(), pascals(1e5), pascals(3e4));
    let full = gap_air::flow(&gap, &air(), pascals(1e5), pascals(3e4), None).unwrap();
    assert!((full.throughput.value / film.unwrap().value - 1.0).abs() < 0.05);
}
