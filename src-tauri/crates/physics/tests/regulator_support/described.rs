//! A regulator as the files of tests/reference describe it.
#![allow(dead_code)]

use super::*;
use physics::opening::window::Window;
use serde_json::Value;
use uom::si::angle::radian;
use uom::si::dynamic_viscosity::pascal_second;

pub fn f(v: &Value, key: &str) -> f64 {
    v[key].as_f64().unwrap_or_else(|| panic!("{key} in {v}"))
}

pub fn oil_of(v: &Value) -> OilState {
    OilState {
        viscosity: DynamicViscosity::new::<pascal_second>(f(v, "viscosity_pa_s")),
        density: MassDensity::new::<kilogram_per_cubic_meter>(f(v, "density_kg_per_m3")),
        extrapolated: false,
    }
}

pub fn edge(v: &Value, travel: Travel) -> Opening {
    Opening {
        land_diameter: m(f(v, "land_diameter_m")),
        circumference_fraction: one(f(v, "circumference_fraction_ratio")),
        window: v.get("window").filter(|w| !w.is_null()).map(window),
        width_at_rest: m(f(v, "width_at_rest_m")),
        travel,
        radial_clearance: m(f(v, "radial_clearance_m")),
    }
}

fn window(v: &Value) -> Window {
    let count = v["count"].as_u64().unwrap() as u32;
    match v["kind"].as_str().unwrap() {
        "holes" => Window::RoundHoles {
            count,
            diameter: m(f(v, "diameter_m")),
        },
        "slots" => Window::Slots {
            count,
            width: m(f(v, "width_m")),
            length: m(f(v, "length_m")),
        },
        _ => Window::VNotches {
            count,
            half_angle: Angle::new::<radian>(f(v, "half_angle_rad")),
            length: m(f(v, "length_m")),
        },
    }
}

pub fn hole(v: &Value) -> Orifice {
    Orifice {
        diameter: m(f(v, "diameter_m")),
        length: m(f(v, "length_m")),
    }
}

pub fn node(v: &Value) -> Node {
    match v.as_str() {
        Some("line") => Node::Line,
        Some("feed") => Node::Feed,
        Some("reaction") => Node::Reaction,
        Some("chamber") => Node::SpringChamber,
        Some("sump") => Node::Sump,
        _ => Node::Fixed(pa(f(v, "fixed_pa"))),
    }
}

pub fn regulator(v: &Value) -> Regulator {
    let some = |key: &str| Some(&v[key]).filter(|x| !x.is_null());
    Regulator {
        reaction_area: m2(f(v, "reaction_area_m2")),
        spring_side_area: m2(f(v, "chamber_area_m2")),
        spring: spring(f(v, "spring_load_n"), f(v, "spring_rate_n_per_m")),
        stroke: m(f(v, "stroke_m")),
        supply: edge(&v["supply"], Travel::Closes),
        exhaust: some("exhaust").map(|e| edge(e, Travel::Opens)),
        balance_orifice: some("balance_orifice").map(hole),
        leaks: v["leaks"]
            .as_array()
            .unwrap()
            .iter()
            .map(|l| {
                let a = &l["annulus"];
                LandLeak {
                    annulus: Annulus::new(
                        m(f(a, "mean_diameter_m")),
                        m(f(a, "radial_clearance_m")),
                        m(f(a, "length_m")),
                        one(f(a, "eccentricity_ratio")),
                    )
                    .unwrap(),
                    from: node(&l["from"]),
                    to: node(&l["to"]),
                }
            })
            .collect(),
        spring_chamber_drain: match v["drain"].as_str() {
            Some("open") => Drain::Open,
            Some("blocked") => Drain::Blocked,
            _ => Drain::Orifice(hole(&v["drain"])),
        },
        friction: n(f(v, "friction_n")),
        demand: Demand {
            flow: m3_s(f(&v["demand"], "flow_m3_per_s")),
            at_pressure: pa(f(&v["demand"], "at_pressure_pa")),
            outlets: v["demand"]["outlets"].as_u64().unwrap() as u32,
            stated_in: oil_of(&v["demand"]["stated_in"]),
        },
        relief: some("relief").map(|r| BallRelief {
            ball_diameter: m(f(r, "ball_diameter_m")),
            seat_diameter: m(f(r, "seat_diameter_m")),
            spring: spring(f(r, "load_n"), f(r, "rate_n_per_m")),
            lift_stop: m(f(r, "lift_stop_m")),
            discharge_coefficient: one(f(r, "discharge_ratio")),
        }),
    }
}
