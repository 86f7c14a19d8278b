//! The air side and the gap against points computed outside this project, in `tests/reference/`.
//! Each file's points carry their source; every point of a file is checked, none skipped.

#![allow(
    clippy::unwrap_used,
    reason = "test helpers, which clippy takes for library code"
)]

use std::f64::consts::PI;

use physics::air::{Air, Gas};
use physics::gap::{Annulus, Expansion, clearance_at_temperature};
use physics::hole::{Hole, conductance_of_area, critical_ratio_from_test};
use physics::quantity::{INCH_OF_MERCURY_PA, hose_resistance, sonic_conductance};
use physics::vacuum_stand::{DeadHead, VacuumStand};
use physics::{atmosphere, gap_air, nozzle};
use reference::{Point, points};
use uom::si::area::square_meter;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{
    Area, DynamicViscosity, Length, Pressure, Ratio, SpecificHeatCapacity, TemperatureCoefficient,
    ThermodynamicTemperature, VolumeRate,
};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::specific_heat_capacity::joule_per_kilogram_kelvin;
use uom::si::temperature_coefficient::per_kelvin;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};
use uom::si::volume_rate::cubic_meter_per_second;

fn air_of(p: &Point, t: f64) -> Air {
    let r = SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(p.input_or("R", 287.05));
    let gas = Gas::new(r, number(p.input_or("k", 1.4)));
    let mu = DynamicViscosity::new::<pascal_second>(p.input_or("mu", 1.8e-5));
    Air::with(gas.unwrap(), ThermodynamicTemperature::new::<kelvin>(t), mu).unwrap()
}

/// Checks every point of a file, and that there are as many as we think.
fn check(file: &str, count: usize, compute: impl Fn(&Point) -> f64) {
    for p in points(file, "", count) {
        p.holds(compute(&p));
    }
}

fn length(m: f64) -> Length {
    Length::new::<meter>(m)
}

fn pa(p: f64) -> Pressure {
    Pressure::new::<pascal>(p)
}

fn number(x: f64) -> Ratio {
    Ratio::new::<ratio>(x)
}

fn area(m2: f64) -> Area {
    Area::new::<square_meter>(m2)
}

fn circle(d: f64) -> Area {
    area(PI / 4.0 * d * d)
}

#[test]
fn area_a_standard_atmosphere_29_points() {
    let pressure = |z: f64| atmosphere::pressure(length(z)).unwrap().value;
    check("a_atmosphere.json", 29, |p| match p.family() {
        "a.p_geometric" | "a.book.ussa_1000m_inHg" | "a.book.ussa_3000m" => pressure(p.input("z")),
        "a.p_inHg" => pressure(p.input("z")) / INCH_OF_MERCURY_PA,
        "a.p_geopotential" => {
            // Back to geometric altitude first: r H / (r - H).
            let (r, h) = (6_356_766.0, p.input("H"));
            pressure(r * h / (r - h))
        }
        "a.T_geometric" => atmosphere::temperature(length(p.input("z"))).unwrap().value,
        "a.rho_geometric" => {
            let z = length(p.input("z"));
            let air = Air::at(atmosphere::temperature(z).unwrap()).unwrap();
            air.density(atmosphere::pressure(z).unwrap()).unwrap().value
        }
        "a.H_from_p" => {
            let z = atmosphere::altitude(pa(p.input("p"))).unwrap();
            atmosphere::geopotential(z).unwrap().value
        }
        "a.mu_air" => {
            Air::at(ThermodynamicTemperature::new::<kelvin>(p.input("T")))
                .unwrap()
                .viscosity()
                .value
        }
        other => panic!("no check for {other}"),
    });
}

#[test]
fn area_b_vacuum_reading_2_points() {
    check("b_vacuum_reading.json", 2, |p| {
        let barometer = pa(p.input("p_baro"));
        let stand = VacuumStand {
            pull: VolumeRate::new::<cubic_meter_per_second>(1e-4),
            dead_head: DeadHead {
                pressure: pa(100.0),
                barometer,
                follows_barometer: false,
            },
            hose_resistance: hose_resistance(0.0),
        };
        let reading = pa(p.input("vacuum") * INCH_OF_MERCURY_PA);
        stand
            .interpret(reading, barometer)
            .unwrap()
            .gauge_pressure
            .value
    });
}

#[test]
fn area_c_annulus_12_points() {
    // Thin gaps only: the two points with gaps as wide as the shaft are no valve in a bore.
    check("c_annulus.json", 12, |p| {
        let (d, c, e) = if p.has("Ro") {
            let (ro, ri) = (p.input("Ro"), p.input("Ri"));
            (ro + ri, ro - ri, p.input_or("e", 0.0) / (ro - ri))
        } else {
            (p.input("D"), p.input("c"), p.input_or("eps", 0.0))
        };
        let gap = Annulus::new(length(d), length(c), length(p.input("L")), number(e)).unwrap();
        PI * gap.gap_factor().value * p.input("dp") / (12.0 * p.input("mu"))
    });
}

#[test]
fn area_d_air_and_vacuum_29_points() {
    check("d_air.json", 29, |p| match p.family() {
        "d.critical_ratio" => {
            let r = SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(287.05);
            nozzle::critical_ratio(Gas::new(r, number(p.input("k"))).unwrap()).value
        }
        "d.nozzle_m" => nozzle_flow(
            p,
            circle(p.input("d")),
            p.input("Cd"),
            p.input("p1"),
            p.input("p2"),
        ),
        "d.real_air_m" => nozzle_flow(p, area(p.input("A")), 1.0, p.input("p1"), p.input("p2")),
        "d.real_air_rho" => {
            air_of(p, p.input("T"))
                .density(pa(p.input("p")))
                .unwrap()
                .value
        }
        "d.iso6358_m" => {
            let hole = Hole::new(sonic_conductance(p.input("C")), number(p.input("b"))).unwrap();
            let air = air_of(p, p.input("T1"));
            hole.mass_flow(&air, pa(p.input("p1")), pa(p.input("p2")))
                .unwrap()
                .value
        }
        "d.iso6358_C_of_area" => {
            let r = SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(p.input("R"));
            let gas = Gas::new(r, number(p.input("k"))).unwrap();
            conductance_of_area(area(p.input("A")), gas).unwrap().value
        }
        "d.iso6358_b_from_test" => {
            let fraction = number(p.input("m_over_mstar"));
            critical_ratio_from_test(number(p.input("p2_over_p1")), fraction)
                .unwrap()
                .value
        }
        "d.leak_bleed_pmid" => leak_and_bleed(p),
        "d.vacuum_decay_time" => decay_time(p),
        "d.annular_air_leak_m" => {
            let air = air_of(p, p.input("T"));
            let gap = Annulus::new(
                length(p.input("D")),
                length(p.input("c")),
                length(p.input("L")),
                number(0.0),
            );
            let k = gap.unwrap().gap_factor();
            let q =
                gap_air::laminar_throughput(k, &air, pa(p.input("p1")), pa(p.input("p2"))).unwrap();
            q.value / (p.input("R") * p.input("T"))
        }
        other => panic!("no check for {other}"),
    });
}

fn nozzle_flow(p: &Point, a: Area, cd: f64, p1: f64, p2: f64) -> f64 {
    let t = if p.has("T1") {
        p.input("T1")
    } else {
        p.input("T")
    };
    nozzle::mass_flow(a, number(cd), &air_of(p, t), pa(p1), pa(p2))
        .unwrap()
        .value
}

/// Atmosphere, leak orifice, volume, bleed orifice, vacuum: where the two flows agree.
fn leak_and_bleed(p: &Point) -> f64 {
    let (leak, bleed) = (circle(p.input("d_leak")), circle(p.input("d_bleed")));
    let (mut low, mut high) = (p.input("p_vac"), p.input("p_atm"));
    for _ in 0..100 {
        let mid = 0.5 * (low + high);
        let inflow = nozzle_flow(p, leak, p.input("Cd"), p.input("p_atm"), mid);
        let outflow = nozzle_flow(p, bleed, p.input("Cd"), mid, p.input("p_vac"));
        if inflow > outflow {
            low = mid
        } else {
            high = mid
        }
    }
    0.5 * (low + high)
}

/// V/(R T) times the integral of dp/m, by Simpson's rule on each side of choking.
fn decay_time(p: &Point) -> f64 {
    let critical = 0.528_281_787_717_174_2 * p.input("p_atm");
    let kink = critical.clamp(p.input("p_a"), p.input("p_b"));
    let slowness =
        |x: f64| 1.0 / nozzle_flow(p, circle(p.input("d")), p.input("Cd"), p.input("p_atm"), x);
    let simpson = |a: f64, b: f64| {
        let n = 4000;
        let h = (b - a) / f64::from(n);
        let weight = |i: i32| match i {
            0 => 1.0,
            i if i == n => 1.0,
            i if i % 2 == 1 => 4.0,
            _ => 2.0,
        };
        (0..=n)
            .map(|i| weight(i) * slowness(a + h * f64::from(i)))
            .sum::<f64>()
            * h
            / 3.0
    };
    let integral = simpson(p.input("p_a"), kink) + simpson(kink, p.input("p_b"));
    p.input("V") / (p.input("R") * p.input("T")) * integral
}

#[test]
fn area_h_clearance_at_temperature_4_points() {
    check("h_expansion.json", 4, |p| {
        let expansion = Expansion {
            bore: TemperatureCoefficient::new::<per_kelvin>(p.input("alpha_bore")),
            valve: TemperatureCoefficient::new::<per_kelvin>(p.input("alpha_valve")),
            from: ThermodynamicTemperature::new::<degree_celsius>(20.0),
            to: ThermodynamicTemperature::new::<degree_celsius>(p.input("T")),
        };
        let (bore, valve) = (p.input("D_bore20"), p.input("D_valve20"));
        let c = length((bore - valve) / 2.0);
        2.0 * clearance_at_temperature(length(bore), c, &expansion)
            .unwrap()
            .value
    });
}
