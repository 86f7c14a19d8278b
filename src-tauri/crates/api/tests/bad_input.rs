//! Bad input gives a finding at its field or an error of the closed set, and nothing is lost.

use crate::common::{Bench, INHG, codes, start};
use proptest::prelude::*;
use serde_json::{Value, json};

fn refused(bench: &Bench, test: &Value, part: &str, body: Value, expected: (&str, &str)) {
    let before = bench.ok("test.get", json!({ "test": test }));
    let answer = bench.record(test, part, body);
    assert_eq!(answer["saved"], false, "{answer}");
    let found = codes(&answer["findings"]);
    assert!(
        found.contains(&(expected.0.into(), expected.1.into())),
        "{found:?}"
    );
    let after = bench.ok("test.get", json!({ "test": test }));
    assert_eq!(before, after);
}

#[test]
fn absurd_readings_get_a_finding_at_their_field_and_are_not_saved() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    bench.record(&test, "blank", json!({ "vacuum_pa": 27.7 * INHG }));
    let reading = |inhg: f64| json!({ "vacuum_pa": inhg * INHG, "reseated": false });
    refused(
        &bench,
        &test,
        "reading",
        reading(400.0),
        ("out_of_range", "vacuum_pa"),
    );
    refused(
        &bench,
        &test,
        "reading",
        reading(-3.0),
        ("out_of_range", "vacuum_pa"),
    );
    refused(
        &bench,
        &test,
        "reading",
        reading(30.5),
        ("deeper_than_barometer", "vacuum_pa"),
    );
    refused(
        &bench,
        &test,
        "reading",
        reading(28.5),
        ("dead_head_worse_than_reading", "vacuum_pa"),
    );
    refused(
        &bench,
        &test,
        "reading",
        reading(28.05),
        ("blank_worse_than_reading", "vacuum_pa"),
    );
    let check = json!({
        "dead_head_vacuum_pa": 20.0 * INHG,
        "orifices": [{ "label": "0.5", "vacuum_pa": 21.0 * INHG }],
    });
    let expected = ("orifice_better_than_dead_head", "orifices[0].vacuum_pa");
    refused(&bench, &test, "stand_check", check, expected);
}

#[test]
fn a_blank_that_contradicts_the_readings_on_record_is_not_saved() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    bench.read(&test, 17.0, false);
    let blank = json!({ "vacuum_pa": 12.0 * INHG });
    refused(
        &bench,
        &test,
        "blank",
        blank,
        ("blank_worse_than_reading", ""),
    );
}

#[test]
fn a_tight_bore_reads_a_step_deeper_than_its_blank_and_is_told_to_be_tight() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    bench.record(&test, "blank", json!({ "vacuum_pa": 27.7 * INHG }));
    let answer = bench.read(&test, 27.8, false);
    assert_eq!(answer["saved"], true, "{answer}");
    let judgement = &answer["view"]["judgement"];
    assert_eq!(judgement["decision"]["verdict"], "within_limit");
    assert_eq!(
        judgement["leak"],
        json!({ "answer": "refused", "reason": "too_tight" })
    );
}

#[test]
fn an_oiled_bore_within_its_limit_is_not_passed() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    let view = bench.read(&test, 24.0, false)["view"].clone();
    assert_eq!(view["judgement"]["decision"]["verdict"], "within_limit");
    let mut setup = view["setup"].clone();
    setup["surface"] = json!("oiled");
    let judgement = bench.record(&test, "setup", setup)["view"]["judgement"].clone();
    assert_eq!(judgement["decision"], Value::Null);
    let found = codes(&judgement["findings"]);
    assert!(
        found.contains(&("oiled_reads_deeper".into(), "setup.surface".into())),
        "{found:?}"
    );
}

#[test]
fn a_barometer_in_the_wrong_unit_is_told_at_its_field() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let test = bench.begin_test(&job);
    let setup = |pressure: f64| {
        json!({
            "valve_position": "at_rest", "orifice": "blocked", "surface": "dry",
            "ambient": { "by": "barometer", "pressure_pa": pressure },
            "air_temperature_k": 293.15,
        })
    };
    refused(
        &bench,
        &test,
        "setup",
        setup(29.9),
        ("out_of_range", "ambient.pressure_pa"),
    );
    refused(
        &bench,
        &test,
        "setup",
        setup(1.0e6),
        ("out_of_range", "ambient.pressure_pa"),
    );
}

#[test]
fn a_job_without_a_complaint_is_not_opened_and_says_which_field() {
    let bench = Bench::with_demo();
    let overview = bench.ok("shop.overview", json!({}));
    let unit = overview["units"][0]["id"].clone();
    let answer = bench.ok(
        "job.open",
        json!({ "unit": unit, "vehicle": { "description": " " }, "complaint": { "text": "" } }),
    );
    assert_eq!(answer["job"], Value::Null);
    assert_eq!(
        codes(&answer["findings"]),
        [
            ("missing".to_owned(), "vehicle.description".to_owned()),
            ("missing".to_owned(), "complaint.text".to_owned())
        ]
    );
}

#[test]
fn a_profile_with_no_spring_and_a_ten_metre_bore_says_so_and_predicts_nothing() {
    let bench = Bench::with_demo();
    let overview = bench.ok("shop.overview", json!({}));
    let unit = overview["units"][0]["id"].clone();
    let mut profile = bench.ok("unit.get", json!({ "unit": unit }))["profile"]["bores"][0].clone();
    profile["spring"]["load_regulating_n"] = json!(0.0);
    profile["bore"]["diameter_m"] = json!(10.0);
    let judgement = bench.ok(
        "judgement.compute",
        json!({ "profile": profile, "test_point_index": 0 }),
    );
    let found = codes(&judgement["findings"]);
    let expect = |field: &str| ("out_of_range".to_owned(), field.to_owned());
    assert!(
        found.contains(&expect("profile.spring.load_regulating_n")),
        "{found:?}"
    );
    assert!(
        found.contains(&expect("profile.bore.diameter_m")),
        "{found:?}"
    );
    assert_eq!(judgement["consequence"], Value::Null);
}

#[test]
fn nothing_is_signed_by_nobody() {
    let folder = tempfile::tempdir().unwrap();
    let bench = Bench {
        app: start(folder.path().join("shop.db"), true),
        folder,
    };
    let overview = bench.ok("shop.overview", json!({}));
    let error = bench.error(
        "job.open",
        json!({
            "unit": overview["units"][0]["id"],
            "vehicle": { "description": "Wendover" },
            "complaint": { "text": "Slips" },
        }),
    );
    assert_eq!(error["code"], "no_author");
}

#[test]
fn a_store_from_a_newer_program_is_refused_by_name_and_left_as_it_was() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    drop(start(path.clone(), true));
    let mut bytes = std::fs::read(&path).unwrap();
    // `user_version` of the file format, SQLite 3 file format, 1.3.19: offset 60, big-endian.
    bytes[60..64].copy_from_slice(&999_u32.to_be_bytes());
    std::fs::write(&path, &bytes).unwrap();

    let bench = Bench {
        app: start(path.clone(), true),
        folder,
    };
    let state = bench.ok("app.state", json!({}));
    assert_eq!(state["trouble"]["code"], "newer_schema");
    assert_eq!(bench.error("job.list", json!({}))["code"], "newer_schema");
    // Calculations go on.
    let air = json!({ "ambient": { "by": "altitude", "altitude_m": 1000.0 } });
    // US Standard Atmosphere 1976, table: 89876 Pa at Z = 1000 m.
    let pressure = bench.ok("air.barometer", air)["pressure_pa"]
        .as_f64()
        .unwrap();
    assert!((pressure - 89_876.0).abs() < 1.0);
    assert_eq!(std::fs::read(&path).unwrap(), bytes);
}

#[test]
fn a_file_that_is_no_store_is_said_to_be_none() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    std::fs::write(&path, vec![b'x'; 8192]).unwrap();
    let bench = Bench {
        app: start(path, true),
        folder,
    };
    assert_eq!(
        bench.ok("app.state", json!({}))["trouble"]["code"],
        "not_a_store"
    );
}

#[test]
fn requests_that_are_no_requests_get_a_code_each() {
    let bench = Bench::with_demo();
    for (request, code) in [
        ("", "bad_request"),
        ("{", "bad_request"),
        ("[]", "bad_request"),
        (
            r#"{"command":"job.list","args":{},"more":1}"#,
            "bad_request",
        ),
        (r#"{"command":"no.such","args":{}}"#, "unknown_command"),
        (r#"{"command":"job.get","args":{"job":"x"}}"#, "bad_request"),
        (
            r#"{"command":"job.get","args":{"job":"01890000-0000-7000-8000-000000000000"}}"#,
            "not_found",
        ),
        (
            r#"{"command":"air.barometer","args":{"ambient":{"by":"altitude","altitude_m":1e999}}}"#,
            "bad_request",
        ),
    ] {
        let answer: Value = serde_json::from_str(&bench.app.call(request)).unwrap();
        assert_eq!(answer["error"]["code"], code, "{request}");
    }
}

fn any_json() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        prop_oneof![Just(0.0), Just(-1.0), Just(1e300), Just(1e-300)].prop_map(Value::from),
        "[a-z_@.]{0,12}".prop_map(Value::from),
    ];
    leaf.prop_recursive(3, 24, 4, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..4).prop_map(Value::from),
            prop::collection::btree_map("[a-z_]{1,12}", inner, 0..4)
                .prop_map(|map| Value::Object(map.into_iter().collect())),
        ]
    })
}

/// Replaces the number at the `index`-th leaf of a JSON value.
fn spoil(value: &mut Value, index: &mut usize, with: &Value) {
    match value {
        Value::Array(items) => items.iter_mut().for_each(|item| spoil(item, index, with)),
        Value::Object(fields) => fields
            .values_mut()
            .for_each(|item| spoil(item, index, with)),
        leaf => {
            if *index == 0 {
                *leaf = with.clone();
            }
            *index = index.wrapping_sub(1);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn arbitrary_arguments_never_panic_and_never_give_nan(args in any_json()) {
        let mut options = api::Options::without_store();
        options.paths = true;
        let app = api::App::start(options);
        for command in api::commands() {
            let request = json!({ "command": command.name, "args": args }).to_string();
            let answer: Value = serde_json::from_str(&app.call(&request)).unwrap();
            prop_assert_ne!(&answer["error"]["code"], &json!("internal"), "{}: {}", command.name, answer);
        }
    }
}

#[test]
fn a_sound_case_with_any_one_number_spoilt_is_answered_without_a_fault() {
    let bench = Bench::with_demo();
    let overview = bench.ok("shop.overview", json!({}));
    let unit = crate::common::pick(&overview["units"], "name", "Larkmoor L6")["id"].clone();
    let profile = bench.ok("unit.get", json!({ "unit": unit }))["profile"]["bores"][0].clone();
    let stand = overview["stands"][0]["stand"].clone();
    let label = stand["orifices"][0]["label"].clone();
    let sound = json!({
        "profile": profile,
        "test_point_index": 0,
        "stand": stand,
        "setup": {
            "valve_position": "at_rest", "orifice": "blocked", "surface": "dry",
            "ambient": { "by": "barometer", "pressure_pa": 101_000.0 },
            "air_temperature_k": 293.15,
        },
        "stand_check": {
            "dead_head_vacuum_pa": 94_000.0,
            "orifices": [{ "label": label, "vacuum_pa": 72_000.0 }],
        },
        "blank": { "vacuum_pa": 93_000.0 },
        "readings": [{ "vacuum_pa": 60_000.0, "reseated": false }],
    });
    let mut answered = 0;
    for leaf in 0..160 {
        for with in [json!(0.0), json!(-1.0), json!(1.0e9), json!(1.0e-9)] {
            let mut spoilt = sound.clone();
            spoil(&mut spoilt, &mut leaf.clone(), &with);
            if spoilt == sound {
                continue;
            }
            let answer = bench.call("judgement.compute", spoilt);
            let code = &answer["error"]["code"];
            assert!(
                answer.get("ok").is_some() || code == "bad_request",
                "{leaf} {with}: {answer}"
            );
            answered += 1;
        }
    }
    assert!(answered > 300, "{answered}");
}
