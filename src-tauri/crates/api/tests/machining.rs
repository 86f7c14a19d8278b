//! A machining sheet from a chosen option to the repair: measured, signed, undone.

use crate::common::{Bench, codes, pick};
use crate::options::{of, sleeve_set, with_an_empty_shelf};
use crate::report::{seen, write};
use serde_json::{Value, json};

struct Sheet {
    bench: Bench,
    here: Value,
}

impl Sheet {
    /// A worn bore, measured, with a sleeve and nothing else on the shelf.
    fn new() -> Self {
        let bench = with_an_empty_shelf();
        let job = bench.open_job("Larkmoor L6");
        let bore = bench.ok("job.get", json!({ "job": job }))["bores"][0]["bore"].clone();
        let diameters = json!({
            "check": "diameters",
            "bore": [
                { "station_m": 0.005, "direction_rad": 0.0, "diameter_m": 8.118e-3 },
                { "station_m": 0.005, "direction_rad": 1.57, "diameter_m": 8.126e-3 },
            ],
            "valve": [{ "land": "reaction land", "direction_rad": 0.0, "diameter_m": 7.970e-3 }],
        });
        let here = json!({ "job": job, "bore": bore });
        let mut check = here.clone();
        check["occasion"] = json!("as_found");
        check["found"] = diameters;
        assert_eq!(bench.ok("inspection.record", check)["saved"], true);
        sleeve_set(&bench);
        Self { bench, here }
    }

    fn ok(&self, command: &str, more: &Value) -> Value {
        let mut args = self.here.clone();
        for (name, value) in more.as_object().unwrap() {
            args[name] = value.clone();
        }
        self.bench.ok(command, args)
    }
}

#[test]
fn a_chosen_sleeve_is_machined_measured_signed_and_becomes_the_repair() {
    let it = Sheet::new();
    let empty = it.ok("machining.get", &json!({}));
    assert_eq!((&empty["id"], &empty["by"]), (&Value::Null, &Value::Null));
    // What the inspection measured is there already.
    assert_eq!(empty["sheet"]["start_largest_m"], json!(8.126e-3));

    let proposed = it.ok("machining.propose", &json!({ "way": "sleeve" }));
    assert_eq!(proposed["sleeve_outer_m"], json!(9.000e-3));
    assert_eq!(proposed["cuts"].as_array().unwrap().len(), 1, "{proposed}");
    let options = it.ok("options.list", &json!({}));
    assert_eq!(proposed["planned"], of(&options, "sleeve")["work"]);

    let tried = it.ok(
        "machining.record",
        &json!({ "sheet": proposed, "dry_run": true }),
    );
    assert_eq!(tried["saved"], false);
    assert_eq!(
        tried["view"]["planned"]["prediction"],
        of(&options, "sleeve")["hot"]
    );
    // A roughing cut isn't on the shelf: 0.88 mm at once is too much, and said.
    let found = codes(&tried["view"]["answer"]["findings"]);
    let large = (
        "stock_too_large".to_owned(),
        "cuts[0].diameter_m".to_owned(),
    );
    assert!(found.contains(&large), "{found:?}");

    let mut sheet = proposed;
    let read =
        |size: &str, mm: f64| json!({ "size": size, "read_m": mm * 1e-3, "temperature_k": 293.15 });
    sheet["measurements"] = json!([
        read("finished_bore", 8.998),
        read("sleeve_outer", 9.000),
        read("sleeve_inner", 7.502),
        read("valve", 7.466),
    ]);
    sheet["done"] = json!(["measure_start", "finish", "measure_finished"]);
    let kept = it.ok("machining.record", &json!({ "sheet": sheet }));
    assert_eq!(kept["saved"], true, "{kept}");
    let view = it.ok("machining.get", &json!({}));
    assert_eq!(view["sheet"]["measurements"].as_array().unwrap().len(), 4);

    // As machined differs from as planned by what was measured: 7.502 less 7.466.
    let clearance = &view["machined"]["clearance_m"]["likely"];
    assert!(
        (clearance.as_f64().unwrap() - 36e-6).abs() < 1e-9,
        "{clearance}"
    );
    let planned = &view["planned"]["clearance_m"]["likely"];
    assert!(
        (planned.as_f64().unwrap() - 34e-6).abs() < 1e-9,
        "{planned}"
    );
    // And the repair form predicts the same from it.
    let work = &view["answer"]["machined"];
    let repair = it.ok("repair.record", &json!({ "work": work, "dry_run": true }));
    assert_eq!(repair["view"]["forecast"], view["machined"]);

    // Nobody signs before the cautions were read.
    let refused = it.ok("machining.sign", &json!({}));
    assert_eq!(refused["saved"], false);
    let found = codes(&refused["view"]["answer"]["findings"]);
    let unread = ("caution_unread".to_owned(), "hazards".to_owned());
    assert!(found.contains(&unread));
    let hazards = json!(["chips", "compressed_air", "solvent", "retained_springs"]);
    it.bench.ok(
        "caution.read",
        json!({ "job": it.here["job"], "hazards": hazards }),
    );
    let signed = it.ok("machining.sign", &json!({ "note": "Sleeve a touch wide" }));
    assert_eq!(signed["saved"], true, "{signed}");
    let says = &signed["view"]["signed"];
    assert_eq!(says["note"], "Sleeve a touch wide");
    assert!(
        says["not_done"]
            .as_array()
            .unwrap()
            .contains(&json!("clean_after"))
    );
    let not_inside = says["not_inside"].as_array().unwrap();
    assert!(not_inside.contains(&json!("sleeve_inner")), "{says}");
    assert_eq!(signed["view"]["by"]["by"], pick_worker(&it.bench));

    // It is in the report, with its sizes, its verdicts and what was signed.
    let (_, html) = write(&it.bench, json!({ "job": it.here["job"] }));
    let text = seen(&html);
    for needed in [
        "Machining sheet: a sleeve with a smaller valve",
        "common practice, no source",
        "Sleeve, inside in place",
        "Too close to call",
        "Wash, blow out, look through every passage: not ticked",
        "Sleeve a touch wide",
    ] {
        assert!(text.contains(needed), "{needed}");
    }
    // With the metals of what was planned and where the sizes of the shop's parts come from.
    for needed in [
        "Sleeve, made of wrought aluminium",
        "Sleeve “Sleeve 9.0”: sizes Bench sheet (invented)",
        "Reamer “Reamer 9”: sizes Bench sheet (invented)",
    ] {
        assert!(text.contains(needed), "{needed}\n{text}");
    }
    // The sheet that was signed, saved again as it is, stays signed.
    let saved = it.ok("machining.record", &json!({ "sheet": sheet }));
    assert_eq!(saved["view"]["signed"]["note"], "Sleeve a touch wide");
    // Changed, the signature lapses; undone, it is back; undone again, it was never signed.
    sheet["notes"] = json!("Reamed by hand");
    let changed = it.ok("machining.record", &json!({ "sheet": sheet }));
    assert_eq!(changed["view"]["signed"], Value::Null);
    it.bench.ok("undo.last", json!({}));
    let view = it.ok("machining.get", &json!({}));
    assert_eq!(view["signed"]["note"], "Sleeve a touch wide");
    it.bench.ok("undo.last", json!({}));
    assert_eq!(it.ok("machining.get", &json!({}))["signed"], Value::Null);
}

fn pick_worker(bench: &Bench) -> Value {
    let shop = bench.ok("shop.overview", json!({}));
    let person = shop["author"].as_str().unwrap().to_owned();
    pick(&shop["people"], "id", &person)["name"].clone()
}

#[test]
fn a_sheet_begun_from_nothing_says_what_it_lacks_and_refuses_what_cannot_be() {
    let it = Sheet::new();
    let bad = json!({ "way": "ream", "finished_low_m": 9e-3, "finished_high_m": 8e-3 });
    let refused = it.ok("machining.record", &json!({ "sheet": bad }));
    assert_eq!(refused["saved"], false);
    let found = codes(&refused["view"]["answer"]["findings"]);
    let turned = (
        "dimensions_contradict".to_owned(),
        "finished_high_m".to_owned(),
    );
    assert!(found.contains(&turned), "{found:?}");
    assert_eq!(it.ok("machining.get", &json!({}))["id"], Value::Null);
    let sheet = json!({ "way": "ream", "plug": "Clip in its groove" });
    let kept = it.ok("machining.record", &json!({ "sheet": sheet }));
    assert_eq!(kept["saved"], true);
    assert_eq!(kept["view"]["machined"], Value::Null);
    let prediction = &kept["view"]["planned"]["prediction"];
    assert_eq!(prediction["answer"], "withheld", "{prediction}");
    it.bench.ok("undo.last", json!({}));
    assert_eq!(it.ok("machining.get", &json!({}))["id"], Value::Null);
}

#[test]
fn a_reading_after_a_roughing_cut_is_kept_judged_by_its_cut_and_in_the_report() {
    let it = Sheet::new();
    let cut = |mm: f64, finishing: bool| {
        json!({
            "reamer": "", "diameter_m": mm * 1e-3, "tolerance_m": 1e-5, "finishing": finishing,
        })
    };
    let after = |at: u32, mm: f64| {
        json!({
            "size": "after_cut", "cut": at, "read_m": mm * 1e-3, "temperature_k": 293.15,
        })
    };
    let mut sheet = json!({
        "way": "ream",
        "cuts": [cut(8.3, false), cut(8.4, true)],
        // 8.350 lies 40 µm above what the roughing cut may leave; the second names no cut of it.
        "measurements": [after(0, 8.350), after(2, 8.300)],
    });
    let kept = it.ok("machining.record", &json!({ "sheet": sheet }));
    assert_eq!(kept["saved"], true, "{kept}");
    let view = it.ok("machining.get", &json!({}));
    assert_eq!(view["sheet"]["measurements"][0]["cut"], 0);
    assert_eq!(
        view["answer"]["measurements"][0]["verdict"],
        "outside_limit"
    );
    let found = codes(&view["answer"]["findings"]);
    let nowhere = (
        "cut_not_on_sheet".to_owned(),
        "measurements[1].cut".to_owned(),
    );
    assert!(found.contains(&nowhere), "{found:?}");
    let (_, html) = write(&it.bench, json!({ "job": it.here["job"] }));
    let text = seen(&html);
    assert!(text.contains("Bore after cut 1"), "{text}");
    // Measured as it should be, nothing of it is left open.
    sheet["measurements"] = json!([after(0, 8.300)]);
    let kept = it.ok("machining.record", &json!({ "sheet": sheet }));
    let open = &kept["view"]["answer"]["open"];
    assert!(
        !open["not_measured"]
            .as_array()
            .unwrap()
            .contains(&json!("after_cut")),
        "{open}"
    );
    assert_eq!(open["not_inside"], json!([]));
}

#[test]
fn a_sheet_that_nobody_signed_is_open_until_it_is_signed_and_again_once_it_is_changed() {
    let it = Sheet::new();
    let job = &it.here["job"];
    let open = || {
        let view = it.bench.ok("handover.get", json!({ "job": job }));
        let items = view["open"].as_array().unwrap().clone();
        let unsigned = items
            .iter()
            .filter(|item| item["open"] == "machining_unsigned");
        (unsigned.cloned().collect::<Vec<_>>(), view["open"].clone())
    };
    assert_eq!(open().0, Vec::<Value>::new());
    let sheet = json!({ "way": "ream", "plug": "Clip in its groove" });
    it.ok("machining.record", &json!({ "sheet": sheet }));
    let item = json!({ "open": "machining_unsigned", "bore": it.here["bore"] });
    assert_eq!(open().0, std::slice::from_ref(&item));
    // Who signs the job off all the same has it on record, in both versions of the report.
    let signed = it.bench.ok(
        "job.sign_off",
        json!({ "job": job, "signed_by": "Marta Oyelaran", "open": open().1 }),
    );
    assert_eq!(signed["saved"], true, "{signed}");
    let pinned = it.bench.ok("handover.get", json!({ "job": job }))["sign_off"]["sign_off"].clone();
    assert!(
        pinned["open"].as_array().unwrap().contains(&item),
        "{pinned}"
    );
    let (_, html) = write(&it.bench, json!({ "job": job }));
    assert!(seen(&html).contains("nobody has signed its machining sheet as it stands"));
    let plain = "Nobody has signed for the machining of a valve’s bore yet.";
    let (_, html) = write(&it.bench, json!({ "job": job, "version": "customer" }));
    assert!(seen(&html).contains(plain));

    let hazards = json!(["chips", "compressed_air", "solvent", "retained_springs"]);
    it.bench
        .ok("caution.read", json!({ "job": job, "hazards": hazards }));
    assert_eq!(it.ok("machining.sign", &json!({}))["saved"], true);
    assert_eq!(open().0, Vec::<Value>::new());
    let (_, html) = write(&it.bench, json!({ "job": job, "version": "customer" }));
    assert!(!seen(&html).contains(plain));
    let sheet = json!({ "way": "ream", "plug": "Another clip" });
    it.ok("machining.record", &json!({ "sheet": sheet }));
    assert_eq!(open().0, [item]);
}
