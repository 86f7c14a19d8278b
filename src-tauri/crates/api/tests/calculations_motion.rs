//! The regulator in motion, line, and what is uncertain, through the command table, against values
//! from outside.

use std::f64::consts::FRAC_PI_4;

use api::{App, Options};
use serde_json::{Value, json};

fn call(app: &App, command: &str, args: &Value) -> Value {
    let request = json!({ "command": command, "args": args }).to_string();
    serde_json::from_str(&app.call(&request)).unwrap()
}

fn app() -> App {
    App::start(Options::without_store())
}

fn ok(command: &str, args: &Value) -> Value {
    let answer = call(&app(), command, args);
    assert!(answer.get("ok").is_some(), "{command}: {answer}");
    answer["ok"].clone()
}

fn refused(command: &str, args: &Value, field: &str) {
    let error = call(&app(), command, args)["error"].clone();
    assert_eq!(error["code"], "out_of_range", "{command}: {error}");
    assert_eq!(error["field"], field, "{command}: {error}");
}

/// The arguments that the table shows.
fn example(command: &str) -> Value {
    let found = api::commands().into_iter().find(|c| c.name == command);
    found.unwrap().example.unwrap()
}

/// A case of `tests/reference`, solved by SciPy from the same equations written a second time.
fn case(file: &str, id: &str) -> Value {
    let path = format!(
        "{}/../../../tests/reference/{file}.json",
        env!("CARGO_MANIFEST_DIR")
    );
    let file: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let cases = file["cases"].as_array().unwrap().iter();
    cases.clone().find(|case| case["id"] == id).unwrap().clone()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value}"))
}

fn oil(v: &Value) -> Value {
    json!({ "viscosity_pa_s": v["viscosity_pa_s"], "density_kg_m3": v["density_kg_per_m3"] })
}

fn edge(v: &Value) -> Value {
    if v.is_null() {
        return Value::Null;
    }
    json!({
        "land_diameter_m": v["land_diameter_m"],
        "circumference_fraction": v["circumference_fraction_ratio"],
        "width_at_rest_m": v["width_at_rest_m"],
        "radial_clearance_m": v["radial_clearance_m"],
    })
}

/// SciPy's cases name the spring chamber in short.
fn place(v: &Value) -> Value {
    if v == "chamber" {
        json!("spring_chamber")
    } else {
        v.clone()
    }
}

fn leaks(v: &Value) -> Value {
    let leak = |leak: &Value| {
        let gap = &leak["annulus"];
        json!({
            "gap": {
                "mean_diameter_m": gap["mean_diameter_m"],
                "radial_clearance_m": gap["radial_clearance_m"],
                "engaged_length_m": gap["length_m"],
                "eccentricity": gap["eccentricity_ratio"],
            },
            "from": place(&leak["from"]), "to": place(&leak["to"]),
        })
    };
    v.as_array().unwrap().iter().map(leak).collect()
}

fn demand(v: &Value) -> Value {
    json!({
        "flow_m3_s": v["flow_m3_per_s"], "at_pressure_pa": v["at_pressure_pa"],
        "outlets": v["outlets"], "stated_in": oil(&v["stated_in"]),
    })
}

fn spring(v: &Value) -> Value {
    json!({ "load_at_rest_n": v["spring_load_n"], "rate_n_per_m": v["spring_rate_n_per_m"] })
}

fn regulator(v: &Value) -> Value {
    json!({
        "reaction_area_m2": v["reaction_area_m2"], "spring_side_area_m2": v["chamber_area_m2"],
        "spring": spring(v), "stroke_m": v["stroke_m"], "supply": edge(&v["supply"]),
        "exhaust": edge(&v["exhaust"]), "balance_orifice": v["balance_orifice"],
        "leaks": leaks(&v["leaks"]), "drain": v["drain"], "friction_n": v["friction_n"],
        "demand": demand(&v["demand"]),
    })
}

fn main_regulator(v: &Value) -> Value {
    let overflow = &v["overflow"];
    let overflow = if overflow.is_null() {
        Value::Null
    } else {
        json!({ "edge": edge(&overflow["edge"]), "pressure_pa": overflow["pressure_pa"] })
    };
    assert!(v["relief"].is_null());
    json!({
        "overflow": overflow,
        "reaction_area_m2": v["reaction_area_m2"], "boost_area_m2": v["boost_area_m2"],
        "spring": spring(v), "stroke_m": v["stroke_m"], "dump": edge(&v["dump"]),
        "balance_orifice": v["balance_orifice"], "boost_orifice": v["boost_orifice"],
        "leaks": leaks(&v["leaks"]), "friction_n": v["friction_n"],
        "demand": demand(&v["demand"]),
    })
}

fn pump(v: &Value) -> Value {
    json!({
        "ideal_flow_m3_s": v["ideal_flow_m3_per_s"], "slip_m3_s": v["slip_m3_per_s"],
        "at_pressure_pa": v["at_pressure_pa"], "stated_in": oil(&v["stated_in"]),
    })
}

/// The arguments of a transient for a case of SciPy's.
fn transient_of(case: &Value) -> Value {
    let column = |v: &Value, i: usize| -> Value {
        let knots = v["knots"].as_array().unwrap().iter();
        knots.map(|knot| knot[i].clone()).collect()
    };
    let ripple = &case["line"]["ripple"];
    let ripple = if ripple.is_null() {
        Value::Null
    } else {
        json!({
            "amplitude_pa": ripple["amplitude_pa"], "pump_speed_hz": ripple["frequency_hz"],
            "elements": 1,
        })
    };
    let (valve, oils) = (&case["valve"], &case["stiffness"]);
    json!({
        "valve": { "parts": { "regulator": regulator(valve), "oil": oil(&valve["oil"]) } },
        "moving": {
            "spool_mass_kg": case["spool_mass_kg"],
            "damping_n_s_per_m": case["damping_n_s_per_m"],
            "breakaway_ratio": case["breakaway_ratio"],
            "feed_volume_m3": case["feed_volume_m3"],
            "reaction_volume_m3": case["reaction_volume_m3"],
            "chamber_volume_m3": case["chamber_volume_m3"],
            "liquid_bulk_modulus_pa": oils["liquid_pa"],
            "entrained_air_ratio": oils["entrained_air_ratio"],
            "air_exponent_ratio": oils["exponent_ratio"],
            "barometer_pa": oils["barometer_pa"],
        },
        "scenario": {
            "line": { "trace": {
                "time_s": column(&case["line"], 0), "line_pa": column(&case["line"], 1),
            } },
            "ripple": ripple,
            "demand": { "trace": {
                "time_s": column(&case["demand"], 0), "open_ratio": column(&case["demand"], 1),
            } },
            "start": if case["start"] == "empty" {
                json!("empty")
            } else {
                json!({ "rest": "frictionless" })
            },
            "duration_s": case["duration_s"],
            "points": case["answer"]["feed_pa"].as_array().unwrap().len(),
            "relative_tolerance": 1e-9,
        },
    })
}

#[test]
fn transients_agree_with_scipy() {
    // As physics/tests/regulator_dynamic_reference.rs: 1e-6 of 1 MPa and 1 mm.
    for id in ["step_up.01", "ripple.01", "fill_from_empty.01", "demand.01"] {
        let case = case("regulator_dynamic_scipy", id);
        let answer = ok("regulator.transient", &transient_of(&case));
        let lists = [
            ("feed_pa", "feed_pa", 1e6),
            ("reaction_pa", "reaction_pa", 1e6),
            ("spring_chamber_pa", "chamber_pa", 1e6),
            ("spool_position_m", "position_m", 1e-3),
        ];
        for (ours, theirs, scale) in lists {
            let ours = answer["trace"][ours].as_array().unwrap();
            let theirs = case["answer"][theirs].as_array().unwrap();
            assert_eq!(ours.len(), theirs.len());
            for (a, b) in ours.iter().zip(theirs) {
                let off = (number(a) - number(b)).abs() / scale;
                assert!(off < 1e-6, "{id} {theirs:?}: {a} {b}");
            }
        }
        assert_eq!(answer["typical"], json!([]));
        assert!(number(&answer["summary"]["solver"]["accepted"]) > 10.0);
    }
}

#[test]
fn what_is_not_given_of_a_moving_valve_is_told_as_typical() {
    let answer = ok("regulator.transient", &example("regulator.transient"));
    let typical = answer["typical"].as_array().unwrap();
    assert!(typical.contains(&json!("damping")) && typical.contains(&json!("entrained_air")));
    assert!(!typical.contains(&json!("spool_mass")) && !typical.contains(&json!("feed_volume")));
    assert_eq!(answer["moving"]["spool_mass_kg"], 0.018);
    assert_eq!(answer["moving"]["entrained_air_ratio"], 0.01);
    // Ten elements at 30 turns a second, 60 kPa crest to trough, seen at the end.
    let seen = number(&answer["summary"]["ripple_in_pa"]);
    assert!((seen / 6e4 - 1.0).abs() < 0.02, "{seen}");
}

#[test]
fn what_settles_in_scipy_is_stable_and_what_swings_is_not() {
    // Feed in the last quarter of SciPy's trace stands still to 0.1 Pa, or swings by some 10^5 Pa.
    for (id, settles) in [
        ("step_up.03", true),
        ("drain_blocked.01", true),
        ("step_up.01", false),
        ("no_orifice.01", false),
    ] {
        let case = case("regulator_dynamic_scipy", id);
        let all = transient_of(&case);
        let after = case["line"]["knots"][1][1].clone();
        let args = json!({ "valve": all["valve"], "moving": all["moving"], "line_pa": after });
        let rest = ok("regulator.stability", &args)["rest"].clone();
        assert_eq!(rest["stable"], settles, "{id}: {rest}");
        let feed = case["answer"]["feed_pa"].as_array().unwrap();
        if settles {
            let off = number(&rest["feed_pa"]) - number(feed.last().unwrap());
            assert!(off.abs() < 1.0, "{id}: {off}");
        }
        for mode in rest["modes"].as_array().unwrap() {
            // zeta = -growth / |eigenvalue|, and |eigenvalue| = 2 pi f_n.
            let size = std::f64::consts::TAU * number(&mode["natural_frequency_hz"]);
            let zeta = -number(&mode["growth_per_s"]) / size;
            assert!(
                (zeta - number(&mode["damping_ratio"])).abs() < 1e-9,
                "{mode}"
            );
        }
    }
}

#[test]
fn friction_opens_the_curve_by_twice_itself_over_the_area() {
    // Balance of forces by hand: P A = F ± friction.
    let args = example("regulator.curve");
    let profile = &args["valve"]["profile"]["profile"];
    let friction = number(&profile["bore"]["spool"]["friction_n"]);
    let area = FRAC_PI_4 * number(&profile["lands"][2]["diameter_m"]).powi(2);
    let curve = ok("regulator.curve", &args);
    assert_eq!(curve["points"].as_array().unwrap().len(), 31);
    let opened = number(&curve["hysteresis_pa"]);
    // Spring rate and flow force, as the spool moves between the two, take a part of it.
    let by_hand = 2.0 * friction / area;
    assert!((opened / by_hand - 1.0).abs() < 0.1, "{opened} {by_hand}");
    refused("regulator.curve", &with(args, "points", json!(1)), "points");
}

fn with(mut args: Value, field: &str, value: Value) -> Value {
    args[field] = value;
    args
}

#[test]
fn line_agrees_with_scipy() {
    // As physics/tests/main_regulator_reference.rs: 1e-7 of 1 MPa, 1 mm and 1 L/min.
    let compare = |got: &Value, want: &Value, pairs: &[(&str, &str, f64)]| {
        for (ours, theirs, scale) in pairs {
            let off = (number(&got[ours]) - number(&want[theirs])).abs() / scale;
            assert!(off < 1e-7, "{ours}: {} {}", got[ours], want[theirs]);
        }
    };
    let lpm = 1.0 / 60_000.0;
    let main_side = [
        ("line_pa", "line_pa", 1e6),
        ("reaction_pa", "reaction_pa", 1e6),
        ("boost_pa", "boost_pa", 1e6),
        ("stroke_m", "position_m", 1e-3),
        ("pump_m3_s", "pump_m3_per_s", lpm),
        ("dump_m3_s", "dump_m3_per_s", lpm),
    ];
    for id in [
        "hot.01",
        "starved.01",
        "reaction_to_sump.01",
        "boost_to_sump.01",
    ] {
        let case = case("main_regulator_scipy", id);
        let main = &case["main"];
        let args = json!({
            "main": main_regulator(main), "pump": pump(&main["pump"]), "oil": oil(&main["oil"]),
            "solenoid_output_pa": main["solenoid_output_pa"], "branch": main["branch"],
        });
        let got = ok("line.main_regulator", &args);
        compare(&got, &case["answer"], &main_side);
        let starved = case["answer"]["state"] == "starved";
        assert_eq!(got["state"] == "pump_starved", starved, "{id}: {got}");
    }
    for (id, lost) in [
        ("together_command.01", json!([])),
        (
            "together_command_above_feed.01",
            json!(["solenoid_gives_feed"]),
        ),
    ] {
        let case = case("main_regulator_scipy", id);
        let (main, want) = (&case["main"], &case["answer"]);
        let args = json!({
            "main": main_regulator(main), "pump": pump(&main["pump"]),
            "feed": regulator(&case["feed"]), "solenoid": case["solenoid"],
            "oil": oil(&main["oil"]), "branch": main["branch"],
        });
        let got = ok("line.circuit", &args);
        compare(&got["main"], want, &main_side);
        compare(&got["feed"], want, &[("feed_pa", "feed_pa", 1e6)]);
        compare(
            &got,
            want,
            &[("solenoid_output_pa", "solenoid_output_pa", 1e6)],
        );
        assert_eq!(got["lost"], lost, "{id}");
    }
}

#[test]
fn the_band_of_a_new_valve_holds_spring_over_area() {
    // P = F / A by hand: 22.4 N where it regulates, on a land of 7.9705 mm.
    let mut args = example("regulator.band");
    args["seals"] = json!({
        "tested_lands": ["reaction land"], "centred_m": [3.5e-5, 3.6e-5, 3.7e-5],
        "off_centre_m": [2.6e-5, 2.65e-5, 2.7e-5],
    });
    let band = ok("regulator.band", &args);
    let by_hand = 22.4 / (FRAC_PI_4 * 0.007_970_5_f64.powi(2));
    let [low, high] = ["low", "high"].map(|end| number(&band["feed_pa"][end]));
    assert!(low < by_hand && by_hand < high, "{low} {by_hand} {high}");
    assert_eq!(band["seed"], 20_261_125);
    assert_eq!(band["shares"].as_array().unwrap().len(), 13);
    assert_eq!(ok("regulator.band", &args), band);
    refused(
        "regulator.band",
        &with(args.clone(), "trials", json!(200_001)),
        "trials",
    );
    args["seals"]["centred_m"] = json!([0.0, 1e-5, 2e-5]);
    refused("regulator.band", &args, "centred_m");
}

#[test]
fn a_normal_load_on_an_area_spreads_as_the_gum_says() {
    // JCGM 100:2008, table G.1: 95 % within 1.960 deviations; first order is exact in the load,
    // and shares go with the squares of the relative deviations, 9 to 1, but for 1e-3 of them.
    let args = json!({
        "model": { "spring_pressure": {
            "load_n": { "normal": { "mean": 30.0, "deviation": 0.9 } },
            "area_m2": { "normal": { "mean": 6e-5, "deviation": 6e-7 } },
        } },
        "trials": 100_000, "share_trials": 10_000,
    });
    let run = ok("uncertainty.monte_carlo", &args);
    let mean: f64 = 30.0 / 6e-5;
    let deviation = mean * (0.03f64.powi(2) + 0.01f64.powi(2)).sqrt();
    let near = |value: &Value, expected: f64, within: f64| {
        let off = (number(value) - expected) / deviation;
        assert!(off.abs() < within, "{value} {expected}");
    };
    near(&run["mean"], mean * (1.0 + 1e-4), 0.015);
    near(&run["deviation"], deviation, 0.015);
    near(&run["symmetric"]["low"], mean - 1.960 * deviation, 0.05);
    near(&run["symmetric"]["high"], mean + 1.960 * deviation, 0.05);
    for (place, name, share) in [(0, "load_n", 0.9), (1, "area_m2", 0.1)] {
        let found = &run["shares"][place];
        assert_eq!(found["input"], name);
        let off = (number(&found["total"]) - share).abs();
        assert!(off < 5.0 * number(&found["total_error"]) + 1e-3, "{found}");
    }
    // All trials out of the calculation's range: told, not made up.
    let mut wrong = args.clone();
    wrong["model"]["spring_pressure"]["area_m2"] = json!({ "exactly": 10.0 });
    let error = call(&app(), "uncertainty.monte_carlo", &wrong)["error"].clone();
    assert_eq!(error["code"], "no_solution", "{error}");
}

#[test]
fn bad_scenarios_name_their_field() {
    let good = example("regulator.transient");
    let scenario = |field: &str, value: Value| {
        let mut args = good.clone();
        args["scenario"][field] = value;
        args
    };
    let command = "regulator.transient";
    refused(command, &scenario("points", json!(5001)), "points");
    refused(command, &scenario("duration_s", json!(1e3)), "duration_s");
    let uneven = json!({ "trace": { "time_s": [0.0, 0.1], "line_pa": [1e6] } });
    refused(command, &scenario("line", uneven), "time_s");
    let mut heavy = good.clone();
    heavy["moving"]["spool_mass_kg"] = json!(50.0);
    refused(command, &heavy, "spool_mass_kg");
}

/// The task's view once it no longer runs, with progress watched on the way.
fn ended(app: &App, task: &Value) -> Value {
    let mut before = 0.0;
    loop {
        let view = call(app, "task.state", task)["ok"].clone();
        let done = number(&view["done"]);
        assert!(done >= before && done <= number(&view["total"]), "{view}");
        before = done;
        if !["running", "cancelling"].contains(&view["state"].as_str().unwrap_or("")) {
            return view;
        }
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
}

#[test]
fn a_sweep_is_a_task_that_gives_one_transient_a_value() {
    let app = app();
    let args = example("task.begin");
    let task = call(&app, "task.begin", &args)["ok"].clone();
    let view = ended(&app, &task);
    assert_eq!((&view["done"], &view["total"]), (&json!(3), &json!(3)));
    let swept = &view["state"]["finished"]["sweep"]["values"];
    let sizes = &args["work"]["sweep"]["over"]["orifice_diameter"]["diameter_m"];
    for (place, size) in sizes.as_array().unwrap().iter().enumerate() {
        let one = &swept[place];
        assert_eq!(&one["value"], size);
        // The same as asked alone.
        let sweep = &args["work"]["sweep"];
        let mut alone = json!({ "valve": sweep["valve"], "scenario": sweep["scenario"] });
        alone["valve"]["parts"]["regulator"]["balance_orifice"]["diameter_m"] = size.clone();
        let alone = ok("regulator.transient", &alone);
        assert_eq!(one["summary"], alone["summary"]);
    }
    // A value that can't be is told at its place.
    let mut wrong = args;
    wrong["work"]["sweep"]["over"] = json!({ "friction": { "friction_n": [0.5, 1e6] } });
    let task = call(&app, "task.begin", &wrong)["ok"].clone();
    let view = ended(&app, &task);
    let swept = &view["state"]["finished"]["sweep"]["values"];
    assert!(swept[0]["error"].is_null() && swept[0]["summary"].is_object());
    assert_eq!(swept[1]["error"]["code"], "out_of_range");
}

#[test]
fn a_task_can_be_cancelled_and_one_that_never_was_is_not_found() {
    let app = app();
    let mut long = example("regulator.band");
    long["trials"] = json!(200_000);
    long["share_trials"] = json!(20_000);
    let begun = json!({ "work": { "band": long } });
    let task = call(&app, "task.begin", &begun)["ok"].clone();
    let told = call(&app, "task.cancel", &task)["ok"].clone();
    assert!(
        ["cancelling", "cancelled"].contains(&told["state"].as_str().unwrap()),
        "{told}"
    );
    let view = ended(&app, &task);
    assert_eq!(view["state"], "cancelled");
    for command in ["task.state", "task.cancel"] {
        let error = call(&app, command, &json!({ "task": 99 }))["error"].clone();
        assert_eq!(error["code"], "not_found", "{error}");
    }
    // A task that fails says why.
    let begun = json!({ "work": { "band": with(example("regulator.band"), "trials", json!(1)) } });
    let task = call(&app, "task.begin", &begun)["ok"].clone();
    assert_eq!(ended(&app, &task)["state"]["failed"]["field"], "trials");
}

/// Where the numbers of a value stand, as JSON pointers.
fn numbers(value: &Value, at: &str, found: &mut Vec<String>) {
    match value {
        Value::Number(_) => found.push(at.to_owned()),
        Value::Array(items) => {
            for (place, item) in items.iter().enumerate() {
                numbers(item, &format!("{at}/{place}"), found);
            }
        }
        Value::Object(fields) => {
            for (name, item) in fields {
                numbers(item, &format!("{at}/{name}"), found);
            }
        }
        _ => {}
    }
}

#[test]
fn an_example_with_any_one_number_spoilt_is_answered_without_a_fault() {
    let app = app();
    let (mut answered, mut refused) = (0, 0);
    for command in api::commands() {
        let ours = ["regulator.", "line.", "uncertainty."];
        if !ours.iter().any(|group| command.name.starts_with(group)) {
            continue;
        }
        let mut sound = command.example.unwrap();
        for (count, few) in [("trials", 100), ("share_trials", 0)] {
            if !sound[count].is_null() {
                sound[count] = json!(few);
            }
        }
        if sound["scenario"].is_object() {
            sound["scenario"]["duration_s"] = json!(0.002);
        }
        let mut places = Vec::new();
        numbers(&sound, "", &mut places);
        for place in places {
            for with in [
                json!(0.0),
                json!(-1.0),
                json!(1e9),
                json!(1e-9),
                json!(1e300),
            ] {
                let mut spoilt = sound.clone();
                *spoilt.pointer_mut(&place).unwrap() = with.clone();
                let answer = call(&app, command.name, &spoilt);
                if answer.get("ok").is_some() {
                    answered += 1;
                    continue;
                }
                let code = answer["error"]["code"].as_str().unwrap();
                assert!(
                    ["out_of_range", "no_solution", "bad_request"].contains(&code),
                    "{} {place} {with}: {answer}",
                    command.name
                );
                refused += 1;
            }
        }
    }
    assert!(answered > 100 && refused > 500, "{answered} {refused}");
}
