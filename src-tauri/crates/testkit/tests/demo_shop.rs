//! The demo shop shows what a shop's work is like: every state that a job can be in, and what goes
//! wrong in one. Told by the app, from the bundle that it starts with.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use std::collections::BTreeSet;

use serde_json::{Value, json};

mod common;

use common::Shop;

fn verdict(test: &Value) -> &str {
    test["judgement"]["decision"]["verdict"]
        .as_str()
        .unwrap_or("none")
}

fn codes(findings: &Value) -> BTreeSet<&str> {
    let findings = findings.as_array().unwrap().iter();
    findings
        .map(|found| found["code"].as_str().unwrap())
        .collect()
}

fn open(repair: &Value) -> BTreeSet<&str> {
    let open = repair["open"].as_array().unwrap().iter();
    open.map(|point| point.as_str().unwrap()).collect()
}

#[test]
fn jobs_of_three_people_over_months_in_every_state() {
    let shop = Shop::open();
    let list = shop.list();
    assert!(list.len() >= 10, "{}", list.len());
    let people: BTreeSet<_> = list.iter().map(|job| job["opened_by"].as_str()).collect();
    assert_eq!(people.len(), 3, "{people:?}");
    let states: BTreeSet<_> = list.iter().map(|job| job["worst"].as_str()).collect();
    let every = [
        None,
        Some("outside_limit"),
        Some("too_close_to_call"),
        Some("within_limit"),
    ];
    assert_eq!(states, BTreeSet::from(every));
    // Numbers run with the days, as a shop gives them out.
    let numbers: Vec<_> = list.iter().map(|job| job["number"].as_str()).collect();
    assert!(
        numbers.is_sorted_by(|newer, older| newer > older),
        "{numbers:?}"
    );
    assert_eq!(shop.ask("store.check", json!({}))["clean"], true);

    // Just opened; cautions read but nothing tested; tested and undecided.
    let read = |job: &Value| {
        let hazards = job["hazards"].as_array().unwrap();
        hazards
            .iter()
            .filter(|hazard| !hazard["read"].is_null())
            .count()
    };
    let opened = shop.job("0117");
    assert_eq!((read(&opened), shop.tests(&opened).len()), (0, 0));
    let warned = shop.job("0111");
    assert_eq!((read(&warned), shop.tests(&warned).len()), (6, 0));
    let undecided = shop.tests(&shop.job("0116"));
    assert_eq!(verdict(&undecided[0]), "outside_limit");
    assert!(undecided[0]["decision"].is_null());
}

#[test]
fn what_was_repaired_is_predicted_and_proved() {
    let shop = Shop::open();
    for (number, option) in [
        ("0105", "sleeve_smaller_valve"),
        ("0106", "reamed_oversize"),
    ] {
        let job = shop.job(number);
        let tests = shop.tests(&job);
        assert_eq!(verdict(&tests[0]), "outside_limit", "{number}");
        assert_eq!(verdict(&tests[1]), "within_limit", "{number}");
        let repair = &shop.repairs(&job)[0];
        assert_eq!(repair["work"]["option"], option);
        for stage in [
            &repair["before"]["consequence"],
            &repair["forecast"]["prediction"],
            &repair["after"]["consequence"],
        ] {
            assert_eq!(stage["answer"], "computed", "{number}");
        }
        assert_eq!(open(repair), BTreeSet::new(), "{number}");
    }
    // The list shows a proved repair as it stands now.
    let proved = shop.list().into_iter().find(|job| job["number"] == "0105");
    assert_eq!(proved.unwrap()["worst"], "within_limit");
}

#[test]
fn a_contained_bore_comes_back_and_keeps_its_history() {
    let shop = Shop::open();
    let job = shop.job("0109");
    let verdicts: Vec<_> = shop
        .tests(&job)
        .iter()
        .map(|t| verdict(t).to_owned())
        .collect();
    let out = "outside_limit";
    assert_eq!(verdicts, [out, out, out, "within_limit"]);
    let repairs = shop.repairs(&job);
    assert_eq!(repairs[0]["work"]["option"], "relief_added");
    assert!(open(&repairs[0]).is_superset(&["leak_remains", "after_limit_not_met"].into()));
    assert_eq!(repairs[1]["work"]["option"], "sleeve_smaller_valve");
    assert_eq!(open(&repairs[1]), BTreeSet::new());
    let bore = &job["bores"][0]["bore"];
    let relief = shop.ask("relief.get", json!({ "job": job["id"], "bore": bore }));
    assert_eq!(relief["answer"]["relief"]["window"], "inside");
}

#[test]
fn contradictions_are_there_and_told() {
    let shop = Shop::open();
    // Oil on the lands reads deeper than the same bore dry.
    let tests = shop.tests(&shop.job("0107"));
    let mean = |test: &Value| {
        test["judgement"]["readings"]["mean_vacuum_pa"]
            .as_f64()
            .unwrap()
    };
    assert!(mean(&tests[0]) > 1.2 * mean(&tests[1]));
    assert_eq!(tests[0]["judgement"]["leak"]["answer"], "refused");
    assert_eq!(verdict(&tests[1]), "outside_limit");
    // Cleaning was predicted to change nothing, and made it worse.
    let cleaned = &shop.repairs(&shop.job("0113"))[0];
    assert!(
        open(cleaned).contains("after_outside_prediction"),
        "{}",
        cleaned["open"]
    );
}

#[test]
fn a_reading_struck_out_leads_to_another_decision() {
    let shop = Shop::open();
    let test = &shop.tests(&shop.job("0112"))[0];
    assert_eq!(verdict(test), "within_limit");
    let history = shop.ask("history.get", json!({ "subject": test["id"] }));
    let entries = history["entries"].as_array().unwrap();
    let of = |kind: &str, standing: &str| {
        let is = |entry: &&Value| entry["kind"] == kind && entry["standing"] == standing;
        entries.iter().filter(is).collect::<Vec<_>>()
    };
    assert_eq!(of("test.reading", "voided").len(), 1);
    assert_eq!(of("test.reading", "stands").len(), 3);
    let (first, second) = (
        of("test.decision", "replaced"),
        of("test.decision", "stands"),
    );
    assert_ne!(first[0]["body"]["verdict"], second[0]["body"]["verdict"]);
    assert_ne!(first[0]["by"], second[0]["by"]);
}

#[test]
fn two_people_who_wrote_at_once_both_stand() {
    let shop = Shop::open();
    assert!(codes(&shop.job("0114")["findings"]).contains("concurrent_edit"));
}

#[test]
fn a_gauge_is_overdue_only_for_what_it_read_since() {
    let shop = Shop::open();
    let overdue = |number: &str| {
        let test = shop.tests(&shop.job(number)).remove(0);
        codes(&test["judgement"]["findings"]).contains("calibration_overdue")
    };
    assert!(overdue("0116"));
    assert!(!overdue("0106"));
}

#[test]
fn parts_of_the_shop_give_a_worn_bore_a_way_out_and_a_setting_is_kept() {
    let shop = Shop::open();
    let listed = shop.ask("part.list", json!({}));
    let parts = listed["parts"].as_array().unwrap();
    let kinds: BTreeSet<_> = parts
        .iter()
        .map(|on| on["part"]["item"]["part"].as_str().unwrap())
        .collect();
    assert_eq!(kinds, ["valve", "sleeve", "spring", "reamer"].into());
    assert!(parts.iter().any(|on| on["part"]["withdrawn"] == true));

    let job = shop.job("0101");
    let bore = &job["bores"][0]["bore"];
    let here = json!({ "job": job["id"], "bore": bore });
    let view = shop.ask("options.list", here.clone());
    let options = view["options"]["options"].as_array().unwrap();
    for (way, part) in [
        ("sleeve", "Sleeve 9.0 for valve 7.466"),
        ("ream", "Valve 8.164, oversize"),
    ] {
        let found = options.iter().find(|found| found["way"] == way).unwrap();
        let used = found["needs"]["parts"].as_array().unwrap();
        assert!(used.iter().any(|used| used["name"] == part), "{way}");
        assert_eq!(found["hot"]["answer"], "computed", "{way}");
        // Nobody measured the bore across, and that is said.
        let untold = json!({ "answer": "untold", "missing": ["diameters"] });
        assert_eq!(found["feasibility"], untold, "{way}");
    }

    let tried = shop.ask("bore.explore", here);
    let kept = tried["kept"].as_array().unwrap();
    assert!(kept[0]["note"].as_str().unwrap().contains("0101"));
    let held = shop.ask(
        "regulator.explore",
        json!({
            "profile": tried["profile"],
            "seals": tried["seals"],
            "relief": tried["relief"],
            "setting": kept[0]["setting"],
        }),
    );
    // What its note says.
    let highest = &held["explored"]["consequence"]["highest_line"];
    assert_eq!(highest["against_specification"], "inside", "{highest}");
}

#[test]
fn nobody_can_be_rung_up() {
    let shop = Shop::open();
    let jobs = shop.list();
    let phones: Vec<_> = jobs
        .iter()
        .filter_map(|job| {
            let job = shop.ask("job.get", json!({ "job": job["id"] }));
            job["customer"]["phone"].as_str().map(str::to_owned)
        })
        .collect();
    assert!(phones.len() >= 5, "{phones:?}");
    for phone in phones {
        // 555-0100 to 555-0199 are set aside for fiction (North American Numbering Plan).
        let last = phone
            .strip_prefix("555 01")
            .unwrap_or_else(|| panic!("{phone}"));
        assert!(
            last.len() == 2 && last.chars().all(|c| c.is_ascii_digit()),
            "{phone}"
        );
    }
}
