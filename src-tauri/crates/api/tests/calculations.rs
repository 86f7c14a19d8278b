//! Single calculations through the command table, against values from outside.

use crate::common::PSI;
use api::{App, Options};
use serde_json::{Value, json};

fn call(command: &str, args: Value) -> Value {
    let app = App::start(Options::without_store());
    let request = json!({ "command": command, "args": args }).to_string();
    serde_json::from_str(&app.call(&request)).unwrap()
}

fn ok(command: &str, args: Value) -> Value {
    let answer = call(command, args);
    assert!(answer.get("ok").is_some(), "{command}: {answer}");
    answer["ok"].clone()
}

fn near(value: &Value, expected: f64, relative: f64) {
    let value = value.as_f64().unwrap();
    assert!(
        (value / expected - 1.0).abs() < relative,
        "{value} is not {expected}"
    );
}

#[test]
fn piston_leakage_of_the_textbook() {
    // Fox & McDonald, Introduction to Fluid Mechanics, ex. 8.1 (57.6 mm3/s): tests/reference,
    // c.book.fox_8_1_Q. The entry loss, which the example leaves out, is far below its digits.
    let answer = ok(
        "oil.gap",
        json!({
            "gap": { "mean_diameter_m": 0.025, "radial_clearance_m": 5e-6,
                     "engaged_length_m": 0.015, "eccentricity": 0.0 },
            "drop_pa": 9.9e6, "viscosity_pa_s": 0.018, "density_kg_m3": 870.0,
        }),
    );
    // The example's 19 MPa exceed a valve body's range; laminar flow is proportional to the drop.
    near(&answer["flow_m3_s"], 5.76e-8 * 9.9 / 19.0, 2e-3);
    near(&answer["laminar_flow_m3_s"], 5.76e-8 * 9.9 / 19.0, 1e-3);
}

#[test]
fn a_spring_of_thirty_pounds_on_a_quarter_inch_square() {
    // P = F / A; common practice, no source: 30 lbf on 0.25 in2 for 120 psi.
    let area = 0.25 * 0.0254_f64.powi(2);
    let load = 30.0 * 4.448_221_615_260_5;
    let answer = ok(
        "oil.spring",
        json!({ "area_m2": area, "known": { "load_n": load } }),
    );
    near(&answer["pressure_pa"], 120.0 * PSI, 1e-9);
    let back = answer["pressure_pa"].clone();
    let answer = ok(
        "oil.spring",
        json!({ "area_m2": area, "known": { "pressure_pa": back } }),
    );
    near(&answer["load_n"], load, 1e-12);
}

#[test]
fn an_oil_at_its_own_two_points() {
    let oil = json!({
        "name": "x", "viscosity_40c_m2_s": 29.5e-6, "viscosity_100c_m2_s": 5.9e-6,
        "density_15c_kg_m3": 849.0,
    });
    let at = |kelvin: f64| ok("oil.state", json!({ "oil": oil, "temperature_k": kelvin }));
    for (kelvin, nu) in [(313.15, 29.5e-6), (373.15, 5.9e-6)] {
        let state = at(kelvin);
        let mu = nu * state["density_kg_m3"].as_f64().unwrap();
        near(&state["viscosity_pa_s"], mu, 1e-6);
        assert_eq!(state["extrapolated"], false);
    }
    assert_eq!(at(253.15)["extrapolated"], true);
}

#[test]
fn air_through_a_hole_at_choked_flow() {
    // ISO 6358: m = C rho0 p1 sqrt(T0 / T1) below the critical ratio, rho0 = 1.185 kg/m3 at
    // 293.15 K; pV flow is m R T1.
    let (c, p1, t1) = (1e-9, 101_325.0, 293.15);
    let answer = ok(
        "air.hole",
        json!({
            "sonic_conductance_m3_s_pa": c, "critical_ratio": 0.4, "upstream_pa": p1,
            "downstream_pa": 20_000.0, "air_temperature_k": t1,
        }),
    );
    near(
        &answer["throughput_w"],
        c * 1.185 * p1 * 287.052_87 * t1,
        1e-6,
    );
}

#[test]
fn a_gap_found_from_its_own_flow_of_air() {
    let (diameter, length, clearance) = (0.008, 0.004, 2.2e-5);
    let common = json!({
        "upstream_pa": 101_325.0, "downstream_pa": 40_000.0, "air_temperature_k": 293.15,
    });
    let with = |more: Value| {
        let mut args = common.clone();
        args.as_object_mut()
            .unwrap()
            .extend(more.as_object().unwrap().clone());
        args
    };
    let flow = ok(
        "air.gap",
        with(json!({ "gap": {
            "mean_diameter_m": diameter, "radial_clearance_m": clearance,
            "engaged_length_m": length, "eccentricity": 0.3,
        }})),
    );
    let back = ok(
        "air.clearance",
        with(json!({
            "throughput_w": flow["throughput_w"], "mean_diameter_m": diameter,
            "engaged_length_m": length, "eccentricity": 0.3,
        })),
    );
    near(&back["radial_clearance_m"], clearance, 1e-6);
}

#[test]
fn a_limit_carried_as_a_gap_keeps_its_invariant() {
    // On a stand without hose loss (pa^2 - pg^2) / (pg - pd) stays as it is for a laminar gap.
    let (sea, high): (f64, f64) = (101_325.0, 84_559.7);
    let (limit, dead): (f64, f64) = (67_728.0, 79_000.0);
    let answer = ok(
        "air.limit",
        json!({
            "vacuum_pa": limit, "from_pa": sea, "to_pa": high, "law": "gap",
            "dead_head_vacuum_pa": dead, "dead_head_follows_barometer": true,
            "air_temperature_k": 293.15,
        }),
    );
    let invariant = |pa: f64, vacuum: f64, pd: f64| {
        let pg = pa - vacuum;
        (pa * pa - pg * pg) / (pg - pd)
    };
    let pd_high = high - dead;
    let pd_sea = pd_high * sea / high;
    let carried = answer["vacuum_pa"].as_f64().unwrap();
    let (there, here) = (
        invariant(sea, limit, pd_sea),
        invariant(high, carried, pd_high),
    );
    assert!((there / here - 1.0).abs() < 1e-6, "{there} {here}");
}

#[test]
fn the_regulator_alone_holds_what_the_judgement_says_of_the_new_valve() {
    let bench = crate::common::Bench::with_demo();
    let overview = bench.ok("shop.overview", json!({}));
    let unit = crate::common::pick(&overview["units"], "name", "Stonebeck S8")["id"].clone();
    let profile = bench.ok("unit.get", json!({ "unit": unit }))["profile"]["bores"][0].clone();
    let args = json!({
        "profile": profile, "oil_temperature_k": 368.15, "line_pa": 300.0 * PSI,
    });
    let point = ok("oil.regulator", args);
    assert_eq!(point["state"], "regulating");
    // Setpoint 120 psi by its spring; the flow force takes a psi or so.
    near(&point["feed_pa"], 120.0 * PSI, 0.01);
    // What comes in goes out.
    let flow = |name: &str| point[name].as_f64().unwrap();
    let leaks: Vec<f64> = point["leaks_m3_s"]
        .as_array()
        .unwrap()
        .iter()
        .map(|leak| leak.as_f64().unwrap())
        .collect();
    // The reaction land's leak (first) passes the balance orifice, the spring land's (third) leaves
    // feed; the supply land's (second) runs from line to the sump and never sees feed.
    let out =
        flow("exhaust_m3_s") + flow("demand_m3_s") + flow("relief_m3_s") + leaks[0] + leaks[2];
    assert!(
        (flow("supply_m3_s") - out).abs() < 1e-9 * out + 1e-12,
        "{point}"
    );
}

#[test]
fn outside_its_range_a_calculation_names_the_field_and_its_bounds() {
    let answer = call(
        "oil.orifice",
        json!({
            "diameter_m": 10.0, "length_m": 0.001, "drop_pa": 1e5,
            "viscosity_pa_s": 0.006, "density_kg_m3": 820.0,
        }),
    );
    let error = &answer["error"];
    assert_eq!(error["code"], "out_of_range");
    assert_eq!(error["field"], "orifice_diameter_m");
    assert!(
        error["params"]["high"]
            .as_str()
            .unwrap()
            .parse::<f64>()
            .unwrap()
            < 10.0
    );
}

#[test]
fn every_calculation_shows_arguments_that_it_answers() {
    let app = App::start(Options::without_store());
    for command in api::commands() {
        let Some(example) = command.example else {
            continue;
        };
        let request = json!({ "command": command.name, "args": example }).to_string();
        let answer: Value = serde_json::from_str(&app.call(&request)).unwrap();
        assert!(answer.get("ok").is_some(), "{}: {answer}", command.name);
    }
    // All that needs no store is a calculation, but for the program's own state, its files and
    // tasks, and what saves a store that doesn't open.
    let shown = |command: &api::CommandInfo| command.example.is_some();
    let without: Vec<_> = api::commands()
        .into_iter()
        .filter(|command| !command.needs_store && !shown(command))
        .filter(|command| {
            let begins = |word| command.name.starts_with(word);
            !begins("file.") && !begins("backup.") && !begins("store.")
        })
        // Letting go of a file that was looked at.
        .filter(|command| !["task.state", "task.cancel", "look.close"].contains(&command.name))
        .map(|command| command.name)
        .collect();
    assert_eq!(without, ["app.state"]);
}
