//! A person enters a unit of their own, part by part.

use crate::common::{Bench, PSI, codes, pick};
use serde_json::{Value, json};

fn put(bench: &Bench, id: Option<&Value>, part: &str, body: Value) -> Value {
    bench.ok(
        "profile.put",
        json!({ "id": id, "part": { "part": part, "body": body } }),
    )
}

fn unit() -> Value {
    json!({
        "name": "Fernhill F5",
        "hot_oil_temperature_k": 363.15,
        "line_idle_pa": 80.0 * PSI,
        "line_highest_pa": 250.0 * PSI,
        "oil": {
            "name": "Shop fluid",
            "viscosity_40c_m2_s": 29.5e-6,
            "viscosity_100c_m2_s": 5.9e-6,
            "density_15c_kg_m3": 849.0,
        },
        "source": "measured on the bench",
    })
}

/// A unit with one circuit and one bore of a shape; answers unit, circuit and bore.
fn entered(bench: &Bench, shape: &str) -> (Value, Value, Value) {
    let saved = put(bench, None, "unit", unit());
    assert_eq!(saved["saved"], true, "{saved}");
    let unit = saved["id"].clone();
    let circuit = json!({
        "unit": unit,
        "order": "",
        "name": "Solenoid feed",
        "setpoint_pa": 65.0 * PSI,
        "specified_low_pa": 61.0 * PSI,
        "specified_high_pa": 69.0 * PSI,
        "demand_m3_s": 2.0e-5,
        "solenoids": 6,
        "solenoid_kind": "bleed",
        "source": "measured on the bench",
    });
    let circuit = put(bench, None, "circuit", circuit)["id"].clone();
    let shaped = bench.ok(
        "profile.shape",
        json!({ "circuit": circuit, "shape": shape, "name": "Feed regulator", "diameter_m": 8.0065e-3 }),
    );
    assert_eq!(shaped["saved"], true, "{shaped}");
    (unit, circuit, shaped["id"].clone())
}

fn view(bench: &Bench, unit: &Value) -> Value {
    bench.ok("profile.get", json!({ "unit": unit }))
}

fn first_bore(view: &Value) -> Value {
    view["circuits"][0]["bores"][0].clone()
}

fn found(view: &Value) -> Vec<(String, String)> {
    let findings = view["findings"].as_array().unwrap();
    codes(&findings.iter().map(|one| one["finding"].clone()).collect())
}

#[test]
fn a_unit_is_entered_from_nothing_tested_and_judged() {
    let bench = Bench::with_demo();
    let (unit, _, bore) = entered(&bench, "three_lands_exhaust");
    let entered = first_bore(&view(&bench, &unit));
    for land in entered["lands"].as_array().unwrap() {
        let mut body = land["body"].clone();
        body["diameter_m"] = json!(7.9705e-3);
        put(&bench, Some(&land["id"]), "land", body);
    }
    let mut body = entered["body"].clone();
    body["spool"]["friction_n"] = json!(0.3);
    body["source"] = json!("measured on the bench");
    put(&bench, Some(&bore), "bore", body);
    let spring = json!({ "bore": bore, "rate_n_per_m": 2600.0, "load_regulating_n": 22.4, "source": "measured" });
    put(&bench, None, "spring", spring);
    let point = &entered["test_points"][0];
    let mut body = point["body"].clone();
    body["limit"] = json!({ "vacuum_pa": 67_727.8, "law": "gap", "source": "shop rule" });
    let saved = put(&bench, Some(&point["id"]), "test_point", body);

    // Without the balance orifice the reading and the leak can be judged, the pressure can't.
    let now = first_bore(&saved["view"]);
    assert_eq!(now["can"], json!(["limit", "leak", "spring_load"]));
    assert_eq!(now["costs"].as_array().unwrap().len(), 2);
    assert_eq!(now["costs"][1]["field"], "clutches");
    assert_eq!(now["costs"][1]["costs"], json!(["clutch_torque"]));
    assert_eq!(now["costs"][0]["field"], "balance_orifice");
    assert_eq!(now["costs"][0]["costs"], json!(["pressure"]));
    assert_eq!(found(&saved["view"]), []);

    let job = bench.open_job("Fernhill F5");
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    for inhg in [17.2, 17.1, 17.3] {
        bench.read(&test, inhg, true);
    }
    let judged = bench.ok("test.get", json!({ "test": test }))["judgement"].clone();
    assert_eq!(judged["decision"]["verdict"], "outside_limit", "{judged}");
    let orifice =
        json!({ "bore": bore, "diameter_m": 0.6e-3, "length_m": 1.2e-3, "source": "measured" });
    let saved = put(&bench, None, "balance_orifice", orifice);
    // What is left is the torque: no clutch of the circuit is entered.
    let costs = first_bore(&saved["view"])["costs"].clone();
    assert_eq!(costs.as_array().unwrap().len(), 1, "{costs}");
    assert_eq!(costs[0]["kind"], "circuit");
    assert_eq!(costs[0]["field"], "clutches");
    let judged = bench.ok("test.get", json!({ "test": test }))["judgement"].clone();
    assert!(
        judged["consequence"].to_string().contains("shift_pa"),
        "{judged}"
    );
}

#[test]
fn a_decision_stays_as_it_was_when_the_profile_is_edited() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    for inhg in [17.2, 17.1, 17.3] {
        bench.read(&test, inhg, true);
    }
    bench.ok("test.decide", json!({ "test": test, "note": "" }));
    let decided = bench.ok("test.get", json!({ "test": test }));
    assert_eq!(decided["decision"]["outdated"], false, "{decided}");
    let overview = bench.ok("shop.overview", json!({}));
    let unit = pick(&overview["units"], "name", "Larkmoor L6")["id"].clone();
    let before = view(&bench, &unit);
    let land = first_bore(&before)["lands"][2].clone();
    let mut body = land["body"].clone();
    body["diameter_m"] = json!(7.9605e-3);
    put(&bench, Some(&land["id"]), "land", body);
    let after = bench.ok("test.get", json!({ "test": test }));
    assert_eq!(after["decision"]["outdated"], true, "{after}");
    // What was decided is still what was decided.
    assert_eq!(
        after["decision"]["decision"],
        decided["decision"]["decision"]
    );
    // Saying the same once more records nothing.
    let records = bench.ok("store.check", json!({}))["records"].clone();
    let land = first_bore(&view(&bench, &unit))["lands"][2].clone();
    put(&bench, Some(&land["id"]), "land", land["body"].clone());
    assert_eq!(bench.ok("store.check", json!({}))["records"], records);
}

#[test]
fn an_opening_the_wrong_way_round_is_found_at_its_field_and_may_be_tried_first() {
    let bench = Bench::with_demo();
    let (unit, _, _) = entered(&bench, "three_lands_exhaust");
    let opening = first_bore(&view(&bench, &unit))["openings"][0].clone();
    let mut body = opening["body"].clone();
    body["edge"] = json!("right");
    let tried = bench.ok(
        "profile.put",
        json!({ "id": opening["id"], "part": { "part": "opening", "body": body }, "dry_run": true }),
    );
    assert_eq!(tried["saved"], false);
    let findings = tried["view"]["findings"].as_array().unwrap();
    let reversed = findings
        .iter()
        .find(|one| one["finding"]["code"] == "opening_reversed")
        .unwrap();
    assert_eq!(reversed["id"], opening["id"]);
    assert_eq!(reversed["finding"]["field"], "edge");
    // Nothing was kept.
    assert_eq!(first_bore(&view(&bench, &unit))["openings"][0], opening);
}

#[test]
fn a_number_that_cant_be_true_is_not_kept_and_one_that_contradicts_another_is() {
    let bench = Bench::with_demo();
    let (unit, _, _) = entered(&bench, "two_lands");
    let land = first_bore(&view(&bench, &unit))["lands"][1].clone();
    let mut body = land["body"].clone();
    body["diameter_m"] = json!(8.0);
    let refused = put(&bench, Some(&land["id"]), "land", body.clone());
    assert_eq!(refused["saved"], false);
    assert!(found(&refused["view"]).contains(&("out_of_range".into(), "diameter_m".into())));
    body["diameter_m"] = json!(8.1e-3);
    let kept = put(&bench, Some(&land["id"]), "land", body);
    assert_eq!(kept["saved"], true);
    assert!(found(&kept["view"]).contains(&("land_wider_than_bore".into(), "diameter_m".into())));
}

#[test]
fn lands_lie_from_left_to_right_whatever_the_order_in_which_they_are_entered() {
    let bench = Bench::with_demo();
    let (unit, _, bore) = entered(&bench, "two_lands");
    let land = |name: &str, start: f64| json!({ "bore": bore, "order": "", "name": name, "start_m": start, "end_m": start + 0.5e-3, "seals": [] });
    put(&bench, None, "land", land("between", 22.0e-3));
    put(&bench, None, "land", land("leftmost", 1.0e-3));
    let lands = first_bore(&view(&bench, &unit))["lands"].clone();
    let names: Vec<_> = lands
        .as_array()
        .unwrap()
        .iter()
        .map(|land| land["body"]["name"].clone())
        .collect();
    assert_eq!(
        names,
        ["leftmost", "spring land", "between", "reaction land"]
    );
}

#[test]
fn a_port_and_a_land_may_be_renamed_and_whatever_names_them_follows() {
    let bench = Bench::with_demo();
    let (unit, _, bore) = entered(&bench, "three_lands_exhaust");
    let before = first_bore(&view(&bench, &unit));
    let mut body = before["body"].clone();
    let at = body["ports"]
        .as_array()
        .unwrap()
        .iter()
        .position(|port| port["name"] == "line")
        .unwrap();
    body["ports"][at]["name"] = json!("supply");
    put(&bench, Some(&bore), "bore", body);
    let land = &before["lands"][1];
    let mut body = first_bore(&view(&bench, &unit))["lands"][1]["body"].clone();
    body["name"] = json!("metering land");
    let after = first_bore(&put(&bench, Some(&land["id"]), "land", body)["view"]);
    assert_eq!(after["openings"][0]["body"]["port"], "supply");
    assert_eq!(after["openings"][0]["body"]["land"], "metering land");
    assert_eq!(after["lands"][1]["body"]["seals"][0]["left_port"], "supply");
    let codes = found(&view(&bench, &unit));
    assert!(
        !codes.iter().any(|(code, _)| code == "name_unknown"),
        "{codes:?}"
    );
}

#[test]
fn a_copy_stands_for_itself() {
    let bench = Bench::with_demo();
    let overview = bench.ok("shop.overview", json!({}));
    let unit = pick(&overview["units"], "name", "Larkmoor L6")["id"].clone();
    let copied = bench.ok(
        "profile.copy",
        json!({ "id": unit, "name": "Larkmoor L6, late" }),
    );
    let copy = copied["id"].clone();
    assert_ne!(copy, unit);
    let (original, late) = (view(&bench, &unit), copied["view"].clone());
    assert_eq!(late["body"]["name"], "Larkmoor L6, late");
    let (of_original, of_late) = (first_bore(&original), first_bore(&late));
    for list in ["lands", "openings", "test_points"] {
        let pairs = of_original[list]
            .as_array()
            .unwrap()
            .iter()
            .zip(of_late[list].as_array().unwrap());
        for (one, other) in pairs {
            assert_ne!(one["id"], other["id"]);
            assert_eq!(other["body"]["bore"], of_late["id"]);
        }
    }
    assert_eq!(of_late["can"], of_original["can"]);
    let land = of_late["lands"][0].clone();
    let mut body = land["body"].clone();
    body["diameter_m"] = json!(7.95e-3);
    put(&bench, Some(&land["id"]), "land", body);
    assert_eq!(first_bore(&view(&bench, &unit)), of_original);
    // One undo takes back the change, the next the whole copy.
    bench.ok("undo.last", json!({}));
    bench.ok("undo.last", json!({}));
    assert_eq!(
        bench.error("profile.get", json!({ "unit": copy }))["code"],
        "not_found"
    );
}

#[test]
fn what_is_removed_comes_back_and_what_jobs_rest_on_stays() {
    let bench = Bench::with_demo();
    let (unit, circuit, bore) = entered(&bench, "two_lands");
    let land = first_bore(&view(&bench, &unit))["lands"][0].clone();
    bench.ok("profile.remove", json!({ "id": land["id"] }));
    let without = view(&bench, &unit);
    assert_eq!(first_bore(&without)["lands"].as_array().unwrap().len(), 1);
    assert_eq!(without["removed"][0]["name"], "spring land");
    let back = bench.ok("profile.restore", json!({ "id": land["id"] }));
    assert_eq!(first_bore(&back)["lands"][0], land);
    assert_eq!(back["removed"], json!([]));

    bench.ok("profile.remove", json!({ "id": unit }));
    let overview = bench.ok("shop.overview", json!({}));
    let names: Vec<_> = overview["units"]
        .as_array()
        .unwrap()
        .iter()
        .map(|u| u["name"].clone())
        .collect();
    assert!(!names.contains(&json!("Fernhill F5")));
    let removed = bench.ok("profile.removed", json!({}));
    assert_eq!(removed["units"][0]["id"], unit);
    bench.ok("profile.restore", json!({ "id": unit }));

    let job = bench.open_job("Fernhill F5");
    bench.begin_test(&job);
    for id in [&unit, &circuit, &bore] {
        let refused = bench.error("profile.remove", json!({ "id": id }));
        assert_eq!(refused["code"], "in_use");
        assert_eq!(refused["params"]["jobs"], "1");
    }
    let check = bench.ok("store.check", json!({}));
    assert_eq!(check["clean"], true, "{check}");
}

#[test]
fn neighbours_change_places() {
    let bench = Bench::with_demo();
    let (unit, circuit, bore) = entered(&bench, "two_lands");
    let second = bench.ok("profile.copy", json!({ "id": bore, "name": "Boost" }))["id"].clone();
    let names = |view: &Value| -> Vec<Value> {
        let bores = view["circuits"][0]["bores"].as_array().unwrap();
        bores
            .iter()
            .map(|bore| bore["body"]["name"].clone())
            .collect()
    };
    assert_eq!(names(&view(&bench, &unit)), ["Feed regulator", "Boost"]);
    let moved = bench.ok("profile.move", json!({ "id": second, "later": false }));
    assert_eq!(names(&moved), ["Boost", "Feed regulator"]);
    let same = bench.ok("profile.move", json!({ "id": second, "later": false }));
    assert_eq!(names(&same), ["Boost", "Feed regulator"]);
    let back = bench.ok("profile.move", json!({ "id": second, "later": true }));
    assert_eq!(names(&back), ["Feed regulator", "Boost"]);
    let _ = circuit;
}
