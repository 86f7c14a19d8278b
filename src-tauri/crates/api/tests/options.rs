//! The repair options of a bore with the shop's own parts, from a reading to a repair on record.

use crate::common::{Bench, codes};
use serde_json::{Value, json};

fn job_on(bench: &Bench, unit: &str) -> (Value, Value) {
    let job = bench.open_job(unit);
    let bore = bench.ok("job.get", json!({ "job": job }))["bores"][0]["bore"].clone();
    (job, bore)
}

fn part(bench: &Bench, name: &str, item: &Value) -> Value {
    let part = json!({ "name": name, "item": item, "source": "Bench sheet (invented)" });
    let saved = bench.ok("part.record", json!({ "part": part }));
    assert_eq!(saved["saved"], true, "{saved}");
    saved["id"].clone()
}

/// A demo shop of whose parts nothing can be had any longer.
pub(crate) fn with_an_empty_shelf() -> Bench {
    let bench = Bench::with_demo();
    for on in bench.ok("part.list", json!({}))["parts"]
        .as_array()
        .unwrap()
    {
        let mut part = on["part"].clone();
        part["withdrawn"] = json!(true);
        let withdrawn = bench.ok("part.record", json!({ "id": on["id"], "part": part }));
        assert_eq!(withdrawn["saved"], true, "{withdrawn}");
    }
    bench
}

/// Names of the parts in the list, those that can be had and those that can't.
fn names(bench: &Bench) -> [Vec<String>; 2] {
    let listed = bench.ok("part.list", json!({}));
    let parts = listed["parts"].as_array().unwrap();
    [false, true].map(|withdrawn| {
        let those = parts
            .iter()
            .filter(|on| on["part"]["withdrawn"] == withdrawn);
        those
            .map(|on| on["part"]["name"].as_str().unwrap().to_owned())
            .collect()
    })
}

pub(crate) fn sleeve_set(bench: &Bench) -> Value {
    let sleeve = part(
        bench,
        "Sleeve 9.0",
        &json!({
            "part": "sleeve", "material": "aluminium_wrought",
            "outer_diameter_m": 9.000e-3, "outer_tolerance_m": 2e-6,
            "inner_diameter_m": 7.500e-3, "inner_tolerance_m": 2e-6,
        }),
    );
    part(
        bench,
        "Valve 7.466",
        &json!({
            "part": "valve", "material": "aluminium_wrought",
            "diameter_m": 7.466e-3, "diameter_tolerance_m": 2e-6,
        }),
    );
    part(
        bench,
        "Spring, yellow paint",
        &json!({ "part": "spring", "load_n": 19.65, "load_tolerance_n": 0.1, "rate_n_per_m": 2280.0 }),
    );
    part(
        bench,
        "Reamer 9",
        &json!({ "part": "reamer", "diameter_m": 8.998e-3, "diameter_tolerance_m": 2e-6 }),
    );
    sleeve
}

pub(crate) fn of<'a>(view: &'a Value, way: &str) -> &'a Value {
    let options = view["options"]["options"].as_array().unwrap();
    options.iter().find(|found| found["way"] == way).unwrap()
}

#[test]
fn a_bore_is_measured_its_options_compared_and_one_taken_over_into_the_repair() {
    let bench = with_an_empty_shelf();
    let (job, bore) = job_on(&bench, "Larkmoor L6");
    let here = json!({ "job": job, "bore": bore });

    // Nothing known: eight ways all the same, and the need to measure.
    let fresh = bench.ok("options.list", here.clone());
    assert_eq!(fresh["options"]["options"].as_array().unwrap().len(), 8);
    assert_eq!(fresh["options"]["undecided"]["what"], "whether_to_repair");
    assert_eq!(fresh["parts"], 0);

    let test = bench.begin_test(&job);
    bench.set_up(&test);
    for (i, inhg) in [14.2, 14.1, 14.3].into_iter().enumerate() {
        assert_eq!(bench.read(&test, inhg, i > 0)["saved"], true);
    }
    let diameters = json!({
        "check": "diameters",
        "bore": [
            { "station_m": 0.005, "direction_rad": 0.0, "diameter_m": 8.118e-3 },
            { "station_m": 0.005, "direction_rad": 1.57, "diameter_m": 8.126e-3 },
        ],
        "valve": [{ "land": "reaction land", "direction_rad": 0.0, "diameter_m": 7.970e-3 }],
    });
    let checked = bench.ok(
        "inspection.record",
        json!({ "job": job, "bore": bore, "occasion": "as_found", "found": diameters }),
    );
    assert_eq!(checked["saved"], true, "{checked}");
    sleeve_set(&bench);

    let mut asked = here.clone();
    asked["figures"] = json!({
        "wall_m": 3e-3, "least_wall_m": 1.5e-3, "least_wall_source": "Shop rule (invented)",
    });
    let view = bench.ok("options.list", asked);
    assert_eq!((&view["parts"], &view["test"]), (&json!(4), &test));
    let sleeve = of(&view, "sleeve");
    assert_eq!(sleeve["feasibility"]["answer"], "feasible", "{sleeve}");
    assert_eq!(sleeve["rank"], 1, "{sleeve}");
    assert_eq!(of(&view, "leave")["standing"], "breaks_limit");

    // Taken over: what the option says is what the repair form would record and predict.
    let mut work = here.clone();
    work["work"] = sleeve["work"].clone();
    work["dry_run"] = json!(true);
    let tried = bench.ok("repair.record", work.clone());
    assert_eq!(tried["saved"], false);
    assert_eq!(codes(&tried["view"]["findings"]), []);
    let forecast = &tried["view"]["forecast"];
    assert_eq!(forecast["prediction"], sleeve["hot"]);
    assert_eq!(forecast["clearance_m"], sleeve["clearance_cold_m"]);
    work["dry_run"] = json!(false);
    assert_eq!(bench.ok("repair.record", work)["saved"], true);
    // After it the bore is another one, not tested yet.
    let after = bench.ok("options.list", here);
    assert_eq!(after["test"], Value::Null);
}

#[test]
fn a_part_is_listed_changed_withdrawn_and_refused_where_it_cannot_be() {
    let bench = with_an_empty_shelf();
    let id = sleeve_set(&bench);
    let [had, gone] = names(&bench);
    assert_eq!(
        had,
        [
            "Valve 7.466",
            "Sleeve 9.0",
            "Spring, yellow paint",
            "Reamer 9"
        ]
    );
    let listed = bench.ok("part.list", json!({}));
    // No wall: said at the field, nothing kept.
    let mut part = listed["parts"][1]["part"].clone();
    part["item"]["inner_diameter_m"] = json!(9.1e-3);
    let refused = bench.ok("part.record", json!({ "id": id, "part": part }));
    assert_eq!(refused["saved"], false);
    assert_eq!(refused["findings"][0]["field"], "item.inner_diameter_m");
    // No longer to be had: last in the list, proposed no more.
    part["item"]["inner_diameter_m"] = json!(7.5e-3);
    part["withdrawn"] = json!(true);
    assert_eq!(
        bench.ok("part.record", json!({ "id": id, "part": part }))["saved"],
        true
    );
    let [still_had, gone_now] = names(&bench);
    assert_eq!(
        still_had,
        ["Valve 7.466", "Spring, yellow paint", "Reamer 9"]
    );
    assert_eq!(gone_now.len(), gone.len() + 1);
    let listed = bench.ok("part.list", json!({}));
    let order: Vec<_> = listed["parts"].as_array().unwrap().iter().collect();
    assert!(order[..3].iter().all(|on| on["part"]["withdrawn"] == false));
    assert_eq!(listed["undo"]["undo"]["kind"], "shop_part");
    let (job, bore) = job_on(&bench, "Larkmoor L6");
    let view = bench.ok("options.list", json!({ "job": job, "bore": bore }));
    assert_eq!(view["parts"], 3);
    let obstacles = of(&view, "sleeve")["feasibility"]["obstacles"]
        .as_array()
        .unwrap();
    assert!(obstacles.contains(&json!("no_sleeve_in_list")));
    let unknown = json!({ "name": "x", "item": part["item"], "source": "", "bore": job });
    assert_eq!(
        bench.error("part.record", json!({ "part": unknown }))["code"],
        "not_found"
    );
}
