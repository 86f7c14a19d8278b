//! Parts and uncertainty through the command table, against values from outside. The physics' own
//! tests hold many more of them (`tests/reference/VERIFIED.md`); here it is the way through the
//! table that is checked: units, names, the right law under the right command.

use api::{App, Options};
use serde_json::{Value, json};

/// Asks a command as its example does, with some fields changed.
fn ask(command: &str, changed: &Value) -> Value {
    let app = App::start(Options::without_store());
    let commands = api::commands();
    let found = commands.iter().find(|it| it.name == command).unwrap();
    let mut args = found.example.clone().unwrap();
    let fields = args.as_object_mut().unwrap();
    fields.extend(changed.as_object().unwrap().clone());
    let request = json!({ "command": command, "args": args }).to_string();
    let answer: Value = serde_json::from_str(&app.call(&request)).unwrap();
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
fn viscosity_index_of_the_standards_own_examples() {
    // ASTM D2270, worked examples (tests/reference, e.book): rounded to a whole number there.
    for (nu_40, nu_100, index) in [(22.83e-6, 5.05e-6, 156.0), (73.30e-6, 8.86e-6, 92.0)] {
        let answer = ask(
            "oil.viscosity_index",
            &json!({ "viscosity_40c_m2_s": nu_40, "viscosity_100c_m2_s": nu_100 }),
        );
        let got = answer["viscosity_index"].as_f64().unwrap();
        assert_eq!(got.round(), index);
    }
}

#[test]
fn a_fit_of_iso_286() {
    // ISO 286-2:2010 tables, 6 to 10 mm: H7 is +15/0 µm, g6 is -5/-14 µm.
    let answer = ask("fit.iso286", &json!({}));
    let hole = &answer["limits"]["deviations_m"];
    near(&hole["high"], 15e-6, 1e-9);
    assert_eq!(hole["low"], 0.0);
    let shaft = &answer["fit"]["shaft"]["deviations_m"];
    near(&shaft["high"], -5e-6, 1e-9);
    near(&shaft["low"], -14e-6, 1e-9);
    near(&answer["fit"]["clearance_m"]["high"], 29e-6, 1e-9);
}

#[test]
fn a_spring_by_hand() {
    // EN 13906-1: G d^4 / (8 D^3 n) = 79.3e9 · 1e-12 / (8 · 512e-9 · 10).
    let answer = ask("spring.geometry", &json!({}));
    near(&answer["rate_n_m"], 79.3e-3 / 40.96e-6, 1e-12);
    // Wahl at C = 8: 31/28 + 0.615/8.
    near(&answer["wahl"], 31.0 / 28.0 + 0.615 / 8.0, 1e-12);
}

#[test]
fn a_clutch_by_hand() {
    // Uniform wear: N µ F (ri + ro) / 2; the force is pressure on the ring, less the return spring,
    // more the oil that turns with the drum.
    let answer = ask("clutch.capacity", &json!({ "turning": null }));
    let force = 0.8e6 * std::f64::consts::PI * (0.06_f64.powi(2) - 0.03_f64.powi(2)) - 400.0;
    near(&answer["apply_force_n"], force, 1e-12);
    near(
        &answer["uniform_wear_n_m"],
        10.0 * 0.13 * force * 0.06,
        1e-12,
    );
}

#[test]
fn a_coil_at_80_degrees() {
    // IEC 60028, annealed copper: 0.00393 per kelvin of its resistance at 20 °C.
    let answer = ask("solenoid.resistance", &json!({}));
    near(
        &answer["resistance_ohm"],
        5.0 * (1.0 + 0.00393 * 80.0),
        1e-9,
    );
}

#[test]
fn contributions_combine_by_welch_and_satterthwaite() {
    // JCGM 100, eq. G.2b by hand: (1 + 0.25 + 0.64)^2 / (1/5 + 0.0625/10 + 0.4096/50).
    let answer = ask("uncertainty.combine", &json!({}));
    near(&answer["standard_uncertainty"], 1.89_f64.sqrt(), 1e-12);
    let nu = 1.89_f64.powi(2) / (1.0 / 5.0 + 0.0625 / 10.0 + 0.4096 / 50.0);
    near(&answer["degrees_of_freedom"], nu, 1e-12);
    // Ranked: the gauge first, by its share of the variance.
    assert_eq!(answer["shares"][0]["name"], "gauge");
    near(&answer["shares"][0]["share_ratio"], 1.0 / 1.89, 1e-12);
}
