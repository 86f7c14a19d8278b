//! Proof by pressure: readings at a tap and a hot-oil check, as a technician goes through them.

use crate::common::{Bench, INHG, PSI, codes};
use serde_json::{Value, json};

fn number(value: &Value) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("no number: {value}"))
}

/// A job on the Larkmoor; its bore and its circuit's tap at feed, window 60 to 70 psi.
struct Case {
    bench: Bench,
    job: Value,
    bore: Value,
    tap: Value,
    gauge: Value,
}

fn case() -> Case {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let view = bench.ok("job.get", json!({ "job": job }));
    let bore = view["bores"][0]["bore"].clone();
    assert_eq!(view["taps"]["taps"], 0);
    let profile = bench.ok("profile.get", json!({ "unit": view["job"]["unit"] }));
    let circuit = profile["circuits"][0]["id"].clone();
    let body = json!({
        "circuit": circuit,
        "order": "",
        "name": "SF",
        "node": "feed",
        "condition": "hot, any gear",
        "low_pa": 60.0 * PSI,
        "high_pa": 70.0 * PSI,
        "source": "invented table 7",
    });
    let part = json!({ "id": null, "part": { "part": "tap", "body": body } });
    let tap = bench.ok("profile.put", part)["id"].clone();
    let gauge = bench.ok(
        "instrument.record",
        json!({ "instrument": {
            "name": "Test gauge 7",
            "kind": "pressure_gauge",
            "limits_of_error_si": PSI,
            "resolution_si": 0.5 * PSI,
            "source": "certificate",
        } }),
    );
    Case {
        gauge: gauge["id"].clone(),
        bench,
        job,
        bore,
        tap,
    }
}

impl Case {
    fn tested(&self, readings: [f64; 3]) {
        let test = self.bench.begin_test(&self.job);
        self.bench.set_up(&test);
        let blank = json!({ "vacuum_pa": 27.7 * INHG });
        self.bench.record(&test, "blank", blank);
        for (i, inhg) in readings.into_iter().enumerate() {
            self.bench.read(&test, inhg, i > 0);
        }
    }

    fn read(&self, psi: f64, place: &str, dry_run: bool) -> Value {
        let figures = json!({
            "occasion": "as_found",
            "place": place,
            "pressure_pa": psi * PSI,
            "oil_temperature_k": 363.15,
            "line_pa": 250.0 * PSI,
            "command": "D, fourth",
            "gauge": self.gauge,
            "line_gauge": self.gauge,
        });
        self.bench.ok(
            "tap_reading.record",
            json!({ "job": self.job, "tap": self.tap, "figures": figures, "dry_run": dry_run }),
        )
    }

    fn read_cautions(&self, hazards: &[&str]) {
        let args = json!({ "job": self.job, "hazards": hazards });
        self.bench.ok("caution.read", args);
    }

    fn here(&self, more: Value) -> Value {
        let mut args = json!({ "job": self.job, "bore": self.bore });
        let fields = args.as_object_mut().unwrap();
        fields.extend(more.as_object().unwrap().clone());
        args
    }

    fn card(&self) -> Value {
        self.bench.ok("bore.card", self.here(json!({})))["card"].clone()
    }
}

const CAR: [&str; 4] = ["high_voltage", "hot_oil", "raised_wheels", "road_test"];

#[test]
fn nothing_is_read_at_a_tap_before_its_cautions() {
    let case = case();
    let refused = case.read(65.0, "driving", false);
    assert_eq!(refused["saved"], false);
    let found = codes(&refused["answer"]["findings"]);
    assert!(found.contains(&("caution_unread".into(), "place".into())));
    // Those of the bench's work alone aren't enough for the road.
    case.read_cautions(&["high_voltage", "hot_oil", "retained_springs"]);
    assert_eq!(case.read(65.0, "driving", false)["saved"], false);
    assert_eq!(case.read(65.0, "bench", true)["saved"], false);
    assert!(codes(&case.read(65.0, "bench", true)["answer"]["findings"]).is_empty());
    case.read_cautions(&CAR);
    assert_eq!(case.read(65.0, "driving", false)["saved"], true);
    // A hazard that the job's bench never asked for doesn't turn up there.
    let view = case.bench.ok("job.get", json!({ "job": case.job }));
    assert_eq!(view["hazards"].as_array().unwrap().len(), 6);
}

#[test]
fn a_reading_is_judged_by_its_window_and_held_against_the_leak() {
    let case = case();
    case.read_cautions(&CAR);
    let first = case.read(65.0, "idle", false);
    assert_eq!(first["answer"]["verdict"], "within_limit");
    // Nothing is known of the bore yet.
    assert_eq!(first["beside"], Value::Null);
    case.tested([17.2, 16.9, 17.3]);
    let test = case.card()["consequence"]["highest_line"]["measured_feed_pa"].clone();
    let predicted = number(&test["likely"]) / PSI;
    let agrees = case.read(predicted, "idle", false);
    assert_eq!(agrees["beside"]["verdict"], "within_limit", "{agrees}");
    let says = |card: &Value| {
        let accord = card["accord"].as_array().unwrap().clone();
        accord
            .iter()
            .map(|it| it["says"].as_str().unwrap().to_owned())
            .filter(|says| says.starts_with("tap_"))
            .collect::<Vec<_>>()
    };
    assert_eq!(says(&case.card()), ["tap_fits_leak"]);
    // The last reading of a tap counts.
    let beyond = number(&test["high"]) / PSI + 8.0;
    let against = case.read(beyond, "idle", false);
    assert_eq!(against["beside"]["verdict"], "outside_limit");
    let card = case.card();
    assert_eq!(says(&card), ["tap_contradicts_leak"]);
    let view = case.bench.ok("tap_reading.get", json!({ "job": case.job }));
    let readings = view["taps"][0]["readings"].as_array().unwrap().clone();
    assert_eq!(readings.len(), 3);
    assert_eq!(readings[1]["beside"], Value::Null);
    assert_eq!(readings[2]["beside"]["verdict"], "outside_limit");
    // Taken back, the one before it is the last again; undo brings it back.
    let record = readings[2]["record"].clone();
    case.bench
        .ok("record.take_back", json!({ "record": record }));
    assert_eq!(says(&case.card()), ["tap_fits_leak"]);
    let summary =
        |case: &Case| case.bench.ok("job.get", json!({ "job": case.job }))["taps"].clone();
    assert_eq!(summary(&case)["readings"], 2);
    case.bench.ok("undo.last", json!({}));
    assert_eq!(summary(&case)["readings"], 3);
    let report = case.bench.ok("report.write", json!({ "job": case.job }));
    assert!(number(&report["bytes"]) > 1000.0);
}

fn sleeve() -> Value {
    json!({
        "option": "sleeve_smaller_valve",
        "bore_diameter_m": 7.500e-3,
        "bore_uncertainty_m": 2e-6,
        "valve_diameter_m": 7.470e-3,
        "valve_uncertainty_m": 2e-6,
        "spring_load_n": 19.641,
        "spring_rate_n_per_m": 1500.0,
    })
}

/// Points on the predicted curve, up and down again.
fn points(view: &Value) -> Vec<Value> {
    let curve = view["answer"]["curve"].as_array().unwrap();
    let some: Vec<&Value> = curve.iter().step_by(6).collect();
    let point = |at: &Value, way: &str, feed: &str| json!({ "line_pa": at["line_pa"], "feed_pa": at[feed]["likely"], "direction": way });
    let up = some.iter().map(|at| point(at, "rising", "rising_pa"));
    let down = some.iter().rev();
    up.chain(down.map(|at| point(at, "falling", "falling_pa")))
        .collect()
}

#[test]
fn a_repaired_circuit_is_proved_with_hot_oil_and_a_point_outside_is_said() {
    let case = case();
    case.tested([17.2, 16.9, 17.3]);
    let args = case.here(json!({ "work": sleeve() }));
    let repair = case.bench.ok("repair.record", args)["view"]["id"].clone();
    // Before a point is read the prediction stands, for the unit's hot oil.
    let before = case.bench.ok("oil_check.get", case.here(json!({})));
    assert_eq!(before["repair"], repair);
    assert_eq!(before["answer"]["basis"], "repair");
    assert_eq!(number(&before["figures"]["oil_temperature_k"]), 363.15);
    let read = points(&before);
    assert!(read.len() >= 8);
    let figures = |points: &[Value]| {
        json!({
            "oil_temperature_k": 363.15,
            "feed_gauge": case.gauge,
            "line_gauge": case.gauge,
            "points": points,
        })
    };
    let record = |points: &[Value], dry_run: bool| {
        let args = json!({ "figures": figures(points), "dry_run": dry_run });
        case.bench.ok("oil_check.record", case.here(args))
    };
    let refused = record(&read, false);
    assert_eq!(refused["saved"], false);
    assert_eq!(codes(&refused["view"]["findings"])[0].0, "caution_unread");
    case.read_cautions(&["hot_oil", "retained_springs"]);
    let good = record(&read, true);
    assert_ne!(good["view"]["answer"]["verdict"], "outside_limit");
    // Half way up only: what is missing is named, and nothing passes.
    let half = record(&read[..read.len() / 2 - 1], true);
    assert_eq!(half["view"]["answer"]["verdict"], "too_close_to_call");
    let settle = half["view"]["answer"]["settle"].to_string();
    assert!(settle.contains("measure_highest_line") && settle.contains("measure_falling"));
    // One point 20 psi too high.
    let mut odd = read;
    let at = odd.len() / 2 - 1;
    odd[at]["feed_pa"] = json!(number(&odd[at]["feed_pa"]) + 20.0 * PSI);
    let saved = record(&odd, false);
    assert_eq!(saved["saved"], true, "{saved}");
    let answer = &saved["view"]["answer"];
    assert_eq!(answer["verdict"], "outside_limit");
    assert_eq!(answer["points"][at]["against_prediction"], "outside_limit");
    assert_eq!(answer["points"][0]["against_prediction"], "within_limit");
    let got = json!({ "repair": repair });
    let view = case.bench.ok("repair.get", case.here(got.clone()));
    assert!(view["open"].to_string().contains("oil_check_outside"));
    assert_eq!(
        view["oil_checks"][0]["points"].as_array().unwrap().len(),
        odd.len()
    );
    let job = case.bench.ok("job.get", json!({ "job": case.job }));
    assert_eq!(job["bores"][0]["oil_checks"][0]["points"], odd.len());
    case.bench.ok("report.write", json!({ "job": case.job }));
    // Corrected, it is the same check; undone, it is gone.
    let id = saved["view"]["id"].clone();
    odd.remove(at);
    let args = json!({ "oil_check": id, "figures": figures(&odd) });
    let changed = case.bench.ok("oil_check.record", case.here(args));
    assert_eq!(changed["view"]["id"], id);
    let undone = case.bench.ok("undo.last", json!({}));
    assert_eq!(undone["step"]["kind"], "oil_check");
    case.bench.ok("undo.last", json!({}));
    let view = case.bench.ok("repair.get", case.here(got));
    assert_eq!(view["oil_checks"], json!([]));
}

#[test]
fn a_bundle_carries_readings_and_checks_to_another_shop() {
    let case = case();
    case.read_cautions(&CAR);
    case.read_cautions(&["retained_springs"]);
    assert_eq!(case.read(65.0, "idle", false)["saved"], true);
    let before = case.bench.ok("oil_check.get", case.here(json!({})));
    // Nothing was measured of the bore: the prediction is that of a new one.
    assert_eq!(before["answer"]["basis"], "as_new");
    let args = json!({ "figures": { "oil_temperature_k": 363.15, "points": points(&before) } });
    assert_eq!(
        case.bench.ok("oil_check.record", case.here(args))["saved"],
        true
    );
    let made = case.bench.ok("bundle.make", json!({ "jobs": [case.job] }));
    let other = Bench::with_demo();
    let path = case.bench.folder.path().join("job.vvb");
    case.bench
        .ok("file.save", json!({ "file": made["file"], "path": path }));
    let file = other.carry_in("job.vvb", &std::fs::read(path).unwrap());
    other.take_in(&file);
    let view = other.ok("job.get", json!({ "job": case.job }));
    assert_eq!(view["taps"]["readings"], 1);
    assert_eq!(view["taps"]["taps"], 1);
    assert_eq!(view["bores"][0]["oil_checks"].as_array().unwrap().len(), 1);
}
