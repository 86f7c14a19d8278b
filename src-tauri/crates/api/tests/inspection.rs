//! A bore inspected, from the plan to its card: as a technician goes through it, with bad input on
//! the way. And the instruments that it takes.

use crate::common::{Bench, INHG, codes, pick};
use serde_json::{Value, json};

fn job_on(bench: &Bench, unit: &str) -> (Value, Value) {
    let job = bench.open_job(unit);
    let bore = bench.ok("job.get", json!({ "job": job }))["bores"][0]["bore"].clone();
    (job, bore)
}

fn record(bench: &Bench, job: &Value, bore: &Value, found: Value) -> Value {
    bench.ok(
        "inspection.record",
        json!({ "job": job, "bore": bore, "occasion": "as_found", "found": found }),
    )
}

fn card(bench: &Bench, job: &Value, bore: &Value) -> Value {
    bench.ok("bore.card", json!({ "job": job, "bore": bore }))
}

fn tested(bench: &Bench, job: &Value, readings: [f64; 3]) {
    let test = bench.begin_test(job);
    bench.set_up(&test);
    bench.record(&test, "blank", json!({ "vacuum_pa": 27.7 * INHG }));
    for (i, inhg) in readings.into_iter().enumerate() {
        assert_eq!(bench.read(&test, inhg, i > 0)["saved"], true);
    }
}

fn free() -> Value {
    json!({ "check": "free_movement", "dry": "free", "wet": "free", "bolted": "free",
            "friction_n": 0.3 })
}

/// 22.4 N at 20 mm, 2.6 N/mm: the demo's spring as its profile has it.
fn spring() -> Value {
    json!({ "check": "spring", "free_length_m": 30e-3, "height_regulating_m": 20e-3,
            "loads": [{ "height_m": 22e-3, "load_n": 17.2 }, { "height_m": 18e-3, "load_n": 27.6 }] })
}

#[test]
fn a_plan_is_proposed_from_the_unit_and_says_what_is_open() {
    let bench = Bench::with_demo();
    let (job, bore) = job_on(&bench, "Larkmoor L6");
    let plan = bench.ok("inspection.plan", json!({ "job": job }));
    assert_eq!(plan["by"], Value::Null);
    assert_eq!(plan["bores"][0]["bore"], bore);
    assert_eq!(plan["bores"][0]["conclusion"], "unfinished");
    // Free movement, vacuum, spring, orifice.
    assert_eq!(plan["open"], 4);
    record(&bench, &job, &bore, free());
    let after = bench.ok("inspection.plan", json!({ "job": job }));
    assert_eq!(after["open"], 3);
}

#[test]
fn a_check_left_out_needs_a_reason_and_is_remembered_after_a_restart() {
    let bench = Bench::with_demo();
    let (job, bore) = job_on(&bench, "Larkmoor L6");
    let mut plan = bench.ok("inspection.plan", json!({ "job": job }))["plan"].clone();
    plan["left_out"] = json!([{ "bore": bore, "check": "orifice_bore", "why": "" }]);
    let changed = bench.ok("inspection.change", json!({ "job": job, "plan": plan }));
    assert_eq!(
        codes(&changed["findings"]),
        [("missing".to_owned(), "left_out[0].why".to_owned())]
    );
    assert_eq!(changed["saved"], true);
    let bench = bench.restart();
    let after = bench.ok("inspection.plan", json!({ "job": job }));
    assert_eq!(after["by"]["by"], "Marta Oyelaran");
    assert_eq!(after["open"], 3);
    // One undo brings the proposed plan back.
    bench.ok("undo.last", json!({}));
    let undone = bench.ok("inspection.plan", json!({ "job": job }));
    assert_eq!((&undone["by"], &undone["open"]), (&Value::Null, &json!(4)));
}

#[test]
fn a_good_reading_alone_passes_nothing_and_every_deciding_check_does() {
    let bench = Bench::with_demo();
    let (job, bore) = job_on(&bench, "Larkmoor L6");
    tested(&bench, &job, [25.5, 25.4, 25.6]);
    let view = card(&bench, &job, &bore);
    assert_eq!(view["card"]["conclusion"], "unfinished");
    assert_eq!(view["tests"][0]["counts"], true);
    record(&bench, &job, &bore, free());
    record(&bench, &job, &bore, spring());
    let orifice = bench.ok(
        "unit.get",
        json!({ "unit":
        pick(&bench.ok("shop.overview", json!({}))["units"], "name", "Larkmoor L6")["id"] }),
    );
    let bore_of_orifice = orifice["profile"]["bores"][0]["balance_orifice"]["diameter_m"]
        .as_f64()
        .unwrap();
    let last = record(
        &bench,
        &job,
        &bore,
        json!({ "check": "orifice_bore", "go_m": bore_of_orifice - 1e-5,
                "no_go_m": bore_of_orifice + 1e-5 }),
    );
    assert_eq!(last["saved"], true, "{last}");
    assert_eq!(last["card"]["conclusion"], "sound", "{last}");
    // The card is the same when it is opened again; only what is odd about this check stood at the
    // check's own fields when it was recorded, and stands among the card's findings now.
    let mut again = card(&bench, &job, &bore)["card"].clone();
    let of_the_check = (
        "instrument_unknown".to_owned(),
        "orifice_bore.pins".to_owned(),
    );
    assert!(codes(&again["findings"]).contains(&of_the_check));
    assert_eq!(
        codes(&last["findings"]),
        [("instrument_unknown".to_owned(), "pins".to_owned())]
    );
    again["findings"] = last["card"]["findings"].clone();
    assert_eq!(again, last["card"]);
}

#[test]
fn a_dry_run_writes_nothing_and_a_contradiction_stands_at_its_field() {
    let bench = Bench::with_demo();
    let (job, bore) = job_on(&bench, "Larkmoor L6");
    let tried = bench.ok(
        "inspection.record",
        json!({ "job": job, "bore": bore, "occasion": "as_found", "found": free(),
                "dry_run": true }),
    );
    assert_eq!(tried["saved"], false);
    assert_eq!(tried["card"]["measured"]["movement"], "free");
    assert_eq!(card(&bench, &job, &bore)["entries"], json!([]));
    let wrong = record(
        &bench,
        &job,
        &bore,
        json!({ "check": "orifice_bore", "go_m": 0.9e-3, "no_go_m": 0.8e-3 }),
    );
    assert_eq!(wrong["saved"], false);
    assert_eq!(
        codes(&wrong["findings"]),
        [("dimensions_contradict".to_owned(), "no_go_m".to_owned())]
    );
}

#[test]
fn a_check_is_corrected_struck_and_brought_back() {
    let bench = Bench::with_demo();
    let (job, bore) = job_on(&bench, "Larkmoor L6");
    let first = record(&bench, &job, &bore, free());
    let corrected = bench.ok(
        "inspection.record",
        json!({ "job": job, "bore": bore, "inspection": first["inspection"],
                "occasion": "as_found", "note": "At the bolt side",
                "found": { "check": "free_movement", "bolted": "sticks" } }),
    );
    assert_eq!(corrected["outcome"], "bad");
    let entries = card(&bench, &job, &bore)["entries"].clone();
    assert_eq!(entries.as_array().unwrap().len(), 1);
    assert_eq!(entries[0]["record"]["note"], "At the bolt side");
    bench.ok(
        "inspection.strike",
        json!({ "inspection": first["inspection"] }),
    );
    assert_eq!(card(&bench, &job, &bore)["entries"], json!([]));
    bench.ok("undo.last", json!({}));
    assert_eq!(card(&bench, &job, &bore)["entries"], entries);
    // Another bore's check is not corrected under this one's name.
    let refused = bench.error(
        "inspection.record",
        json!({ "job": job, "bore": bore, "inspection": first["inspection"],
                "occasion": "as_found", "found": spring() }),
    );
    assert_eq!(
        (&refused["code"], &refused["field"]),
        (&json!("bad_request"), &json!("inspection"))
    );
}

#[test]
fn what_was_found_before_a_repair_says_nothing_of_what_it_left() {
    let bench = Bench::with_demo();
    let (job, bore) = job_on(&bench, "Larkmoor L6");
    tested(&bench, &job, [17.2, 16.9, 17.3]);
    record(
        &bench,
        &job,
        &bore,
        json!({ "check": "free_movement", "dry": "sticks" }),
    );
    assert_eq!(card(&bench, &job, &bore)["card"]["conclusion"], "faulty");
    bench.ok(
        "repair.record",
        json!({ "job": job, "bore": bore, "work": { "option": "cleaned" } }),
    );
    let after = card(&bench, &job, &bore);
    assert_eq!(after["card"]["conclusion"], "unfinished");
    assert_eq!(after["occasion"], "after_repair");
    assert_eq!(after["entries"].as_array().unwrap().len(), 1);
    assert_eq!(after["tests"][0]["counts"], false);
}

#[test]
fn a_check_of_the_body_belongs_to_no_bore() {
    let bench = Bench::with_demo();
    let (job, bore) = job_on(&bench, "Larkmoor L6");
    let found = json!({ "check": "feed_screens", "state": "torn" });
    let refused = bench.error(
        "inspection.record",
        json!({ "job": job, "bore": bore, "occasion": "as_found", "found": found }),
    );
    assert_eq!(refused["field"], "bore");
    let saved = bench.ok(
        "inspection.record",
        json!({ "job": job, "occasion": "as_found", "found": found }),
    );
    assert_eq!(
        (&saved["saved"], &saved["outcome"]),
        (&json!(true), &json!("bad"))
    );
    let plan = bench.ok("inspection.plan", json!({ "job": job }));
    let screens = pick(&plan["body"], "check", "feed_screens");
    assert_eq!(screens["entries"][0]["outcome"], "bad");
}

#[test]
fn an_instrument_is_entered_overdue_said_and_a_check_remembers_it() {
    let bench = Bench::with_demo();
    let mut tester = json!({ "name": "Spring tester, bench 2", "kind": "spring_tester",
        "limits_of_error_si": 0.2, "resolution_si": 0.1, "range_high_si": 200.0,
        "calibrated_on": "2024-04-01", "calibration_due": "2025-04-01",
        "source": "Certificate of the shop's calibration" });
    let wrong = bench.ok(
        "instrument.record",
        json!({ "instrument": { "name": "", "kind": "spring_tester",
            "limits_of_error_si": 900.0, "resolution_si": 0.1, "source": "" } }),
    );
    assert_eq!(wrong["saved"], false);
    assert_eq!(
        codes(&wrong["findings"]),
        [
            ("missing".to_owned(), "name".to_owned()),
            ("out_of_range".to_owned(), "limits_of_error_si".to_owned())
        ]
    );
    let saved = bench.ok("instrument.record", json!({ "instrument": tester }));
    let id = saved["id"].clone();
    let list = bench.ok("instrument.list", json!({}));
    let entry = pick(&list["instruments"], "id", id.as_str().unwrap());
    assert_eq!(entry["overdue"], true);

    let (job, bore) = job_on(&bench, "Larkmoor L6");
    let mut found = spring();
    found["tester"] = id.clone();
    record(&bench, &job, &bore, found);
    let overdue = ("calibration_overdue".to_owned(), "spring.tester".to_owned());
    assert!(codes(&card(&bench, &job, &bore)["card"]["findings"]).contains(&overdue));

    tester["calibration_due"] = json!("2027-04-01");
    bench.ok(
        "instrument.record",
        json!({ "id": id, "instrument": tester }),
    );
    assert!(!codes(&card(&bench, &job, &bore)["card"]["findings"]).contains(&overdue));
}

#[test]
fn a_stand_needs_a_vacuum_gauge() {
    let bench = Bench::with_demo();
    let stand = |gauge: &Value| {
        json!({ "stand": { "name": "Bench 2", "gauge": gauge, "orifices": [],
                "dead_head_follows_barometer": true } })
    };
    let nil = json!("00000000-0000-0000-0000-000000000000");
    let wrong = bench.ok("stand.record", stand(&nil));
    assert_eq!(
        codes(&wrong["findings"]),
        [("missing".to_owned(), "gauge".to_owned())]
    );
    let gauge = bench.ok(
        "instrument.record",
        json!({ "instrument": { "name": "Dial 2", "kind": "vacuum_gauge",
            "limits_of_error_si": 1000.0, "resolution_si": 300.0, "source": "Dial" } }),
    )["id"]
        .clone();
    assert_eq!(bench.ok("stand.record", stand(&gauge))["saved"], true);
    let list = bench.ok("instrument.list", json!({}));
    // Stands come by name, the demo shop's own among them.
    let stands = list["stands"].as_array().unwrap();
    let ours = stands
        .iter()
        .find(|entry| entry["stand"]["name"] == "Bench 2");
    assert_eq!(ours.unwrap()["gauge_name"], "Dial 2");
}

#[test]
fn a_reading_beyond_its_instrument_is_told_at_its_field_and_kept() {
    let bench = Bench::with_demo();
    let tester = bench.ok(
        "instrument.record",
        json!({ "instrument": { "name": "Small tester", "kind": "spring_tester",
            "limits_of_error_si": 0.2, "resolution_si": 0.1, "range_high_si": 25.0,
            "source": "Certificate" } }),
    )["id"]
        .clone();
    let (job, bore) = job_on(&bench, "Larkmoor L6");
    let mut found = spring();
    found["tester"] = tester;
    // 17.2 N lies within its 25 N, 27.6 N doesn't.
    let saved = record(&bench, &job, &bore, found);
    assert_eq!(saved["saved"], true);
    assert_eq!(
        codes(&saved["findings"]),
        [(
            "outside_instrument".to_owned(),
            "loads[1].load_n".to_owned()
        )]
    );
    let view = card(&bench, &job, &bore);
    let at = (
        "outside_instrument".to_owned(),
        "spring.loads[1].load_n".to_owned(),
    );
    assert!(codes(&view["card"]["findings"]).contains(&at));
    let load = &view["entries"][0]["record"]["found"]["loads"][1]["load_n"];
    assert_eq!(*load, 27.6);
}

#[test]
fn a_solenoid_is_held_against_its_limits_at_their_temperature() {
    let bench = Bench::with_demo();
    let (job, _) = job_on(&bench, "Larkmoor L6");
    let meter = bench.ok(
        "instrument.record",
        json!({ "instrument": { "name": "Ohmmeter", "kind": "ohmmeter",
            "limits_of_error_si": 0.3, "resolution_si": 0.01, "calibration_due": "2025-01-01",
            "source": "Manual" } }),
    )["id"]
        .clone();
    let record = |ohm: f64, celsius: f64, meter: Option<&Value>| {
        let mut found = json!({ "check": "solenoid", "solenoid": "Lock-up", "resistance_ohm": ohm,
            "temperature_k": celsius + 273.15, "low_ohm": 4.8, "high_ohm": 5.4,
            "limits_at_k": 293.15, "source": "Service information", "shut": "holds" });
        if let Some(meter) = meter {
            found["ohmmeter"] = meter.clone();
        }
        bench.ok(
            "inspection.record",
            json!({ "job": job, "occasion": "as_found", "found": found }),
        )
    };
    // By hand (IEC 60028): 6.2 ohm at 80 °C are 6.2 / (1 + 0.00393 x 60) = 5.017 ohm at 20 °C.
    let warm = record(6.2, 80.0, None);
    assert_eq!(
        (&warm["outcome"], codes(&warm["findings"]).len()),
        (&json!("good"), 0)
    );
    // The same figure on a cold coil lies outside.
    let cold = record(6.2, 20.0, None);
    assert_eq!(cold["saved"], true);
    assert_eq!(cold["outcome"], "bad");
    let at = "resistance_ohm".to_owned();
    assert_eq!(
        codes(&cold["findings"]),
        [("coil_outside_limits".to_owned(), at.clone())]
    );
    // With a meter good to 0.3 ohm it may be 4.77: below 4.8. And its calibration is overdue.
    let unsure = record(6.2, 80.0, Some(&meter));
    assert_eq!(unsure["outcome"], "doubtful");
    assert_eq!(
        codes(&unsure["findings"]),
        [
            ("calibration_overdue".to_owned(), "ohmmeter".to_owned()),
            ("coil_too_close_to_call".to_owned(), at)
        ]
    );
    let low = unsure["findings"][1]["low"].as_f64().unwrap();
    assert!((low - 5.9 / 1.2358).abs() < 1e-9, "{low}");
    let plan = bench.ok("inspection.plan", json!({ "job": job }));
    let entries = &pick(&plan["body"], "check", "solenoid")["entries"];
    assert_eq!(entries[1]["outcome"], "bad");
}

#[test]
fn the_limits_of_the_units_coils_come_with_the_plan() {
    let bench = Bench::with_demo();
    let (job, _) = job_on(&bench, "Larkmoor L6");
    let plan = bench.ok("inspection.plan", json!({ "job": job }));
    assert_eq!(plan["coils"], json!([]));
    let unit = bench.ok("job.get", json!({ "job": job }))["job"]["unit"].clone();
    let circuit = bench.ok("profile.get", json!({ "unit": unit }))["circuits"][0].clone();
    let put = |coil: Value| {
        let mut body = circuit["body"].clone();
        body["coil"] = coil;
        let part = json!({ "part": "circuit", "body": body });
        bench.ok("profile.put", json!({ "id": circuit["id"], "part": part }))
    };
    let limits = json!({ "low_ohm": 4.9, "high_ohm": 5.7, "limits_at_k": 293.15,
                         "source": "invented service information" });
    assert_eq!(put(limits.clone())["saved"], true);
    let plan = bench.ok("inspection.plan", json!({ "job": job }));
    assert_eq!(plan["coils"][0]["name"], circuit["body"]["name"]);
    assert_eq!(plan["coils"][0]["limits"], limits);
    // Limits that contradict each other are said at their field.
    let told = put(json!({ "low_ohm": 9.0, "high_ohm": 5.7, "source": "invented" }));
    let reversed = told["view"]["findings"]
        .as_array()
        .unwrap()
        .iter()
        .any(|one| one["finding"]["field"] == "coil.high_ohm");
    assert!(reversed, "{told}");
}
