//! What is agreed in a job: an estimate, what the customer agrees to, the parts with their lots, the
//! warranty, the sign-off; who gets to see it, and what changes behind it.

use std::path::{Path, PathBuf};

use crate::common::{Bench, codes, start};
use serde_json::{Value, json};

const WHO: &str = "Ulla Brandtner";
const NOTE: &str = "Rang back from her sister's";

fn estimate() -> Value {
    json!({
        "currency": "EUR",
        "decimals": 2,
        "lines": [
            { "what": "Valve body out and in", "counted": "hours", "quantity_thousandths": 1750, "price_minor": 9250 },
            { "what": "Valve and spring", "counted": "pieces", "quantity_thousandths": 1000, "price_minor": 4830 },
        ],
        "tax": { "name": "VAT", "rate_millionths": 200_000, "included": false },
        "note": "",
    })
}

fn written(bench: &Bench, job: &Value, estimate: &Value) -> Value {
    let done = bench.ok(
        "estimate.record",
        json!({ "job": job, "estimate": estimate, "keep_terms": true }),
    );
    assert_eq!(done["saved"], true, "{done}");
    done
}

fn view(bench: &Bench, job: &Value) -> Value {
    bench.ok("handover.get", json!({ "job": job }))
}

fn authorise(bench: &Bench, job: &Value, up_to_minor: i64) -> Value {
    let named = view(bench, job)["estimate"]["record"].clone();
    let done = bench.ok(
        "authorisation.record",
        json!({ "job": job, "authorisation": {
            "who": WHO, "how": "by_phone", "given_at": "2026-04-14T10:30:00Z",
            "up_to_minor": up_to_minor, "currency": "EUR", "decimals": 2,
            "estimate": named, "note": NOTE,
        }}),
    );
    assert_eq!(done["saved"], true, "{done}");
    done["view"].clone()
}

fn open(view: &Value) -> Vec<String> {
    let items = view["open"].as_array().unwrap().iter();
    items
        .map(|item| item["open"].as_str().unwrap().to_owned())
        .collect()
}

fn sign(bench: &Bench, job: &Value, open: &Value) -> Value {
    bench.ok(
        "job.sign_off",
        json!({ "job": job, "signed_by": "Marta Oyelaran", "statement": "Road tested cold", "open": open }),
    )
}

fn holds(path: &Path, text: &str) -> bool {
    let bytes = std::fs::read(path).unwrap();
    bytes
        .windows(text.len())
        .any(|window| window == text.as_bytes())
}

fn bundle(bench: &Bench, name: &str, what: Value) -> PathBuf {
    let made = bench.ok("bundle.make", what);
    let path = bench.folder.path().join(name);
    bench.ok("file.save", json!({ "file": made["file"], "path": path }));
    path
}

/// Takes a bundle in on a device of its own.
fn elsewhere(path: &Path) -> Bench {
    let folder = tempfile::tempdir().unwrap();
    let other = Bench {
        app: start(folder.path().join("shop.db"), false),
        folder,
    };
    other.ok("person.add", json!({ "name": "Ida Lund" }));
    let file = other.ok("file.open", json!({ "path": path }))["file"].clone();
    other.take_in(&file);
    other
}

fn report(bench: &Bench, job: &Value, personal: bool) -> String {
    let made = bench.ok("report.write", json!({ "job": job, "personal": personal }));
    let path = bench.folder.path().join("report.html");
    bench.ok("file.save", json!({ "file": made["file"], "path": path }));
    std::fs::read_to_string(path).unwrap()
}

/// By hand: 1.75 h at 92.50 are 161.875, so 161.88; with 48.30 they are 210.18; a fifth of that is
/// 42.036, so 42.04; together 252.22.
#[test]
fn an_estimate_is_worked_out_and_its_terms_are_proposed_next_time() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let tried = bench.ok(
        "estimate.record",
        json!({ "job": job, "estimate": estimate(), "dry_run": true }),
    );
    assert_eq!(
        (&tried["saved"], &tried["sums"]),
        (
            &json!(false),
            &json!({ "lines_minor": [16188, 4830], "net_minor": 21018, "tax_minor": 4204, "total_minor": 25222 })
        )
    );
    assert_eq!(view(&bench, &job)["estimate"], Value::Null);
    written(&bench, &job, &estimate());
    let next = bench.open_job("Larkmoor L6");
    assert_eq!(
        view(&bench, &next)["terms"],
        json!({ "currency": "EUR", "decimals": 2, "tax": estimate()["tax"], "warranty": null })
    );
}

#[test]
fn a_line_without_words_is_told_at_its_field_and_nothing_is_kept() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let mut bad = estimate();
    bad["lines"][1]["what"] = json!(" ");
    bad["lines"][0]["quantity_thousandths"] = json!(-1);
    let done = bench.ok("estimate.record", json!({ "job": job, "estimate": bad }));
    assert_eq!(done["saved"], false);
    assert_eq!(
        codes(&done["findings"]),
        [
            (
                "out_of_range".into(),
                "lines[0].quantity_thousandths".into()
            ),
            ("missing".into(), "lines[1].what".into())
        ]
    );
    // An amount is a whole number of smallest units, or it is refused.
    bad["lines"][0]["price_minor"] = json!(92.5);
    let error = bench.error("estimate.record", json!({ "job": job, "estimate": bad }));
    assert_eq!(error["code"], "bad_request");
}

#[test]
fn an_authorisation_says_when_the_estimate_is_another_or_more_than_was_agreed() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    assert!(!open(&view(&bench, &job)).contains(&"estimate_unauthorised".to_owned()));
    written(&bench, &job, &estimate());
    assert!(open(&view(&bench, &job)).contains(&"estimate_unauthorised".to_owned()));
    let given = authorise(&bench, &job, 26_000);
    assert_eq!(given["authorisation"]["state"], "given");
    assert_eq!(given["authorisation"]["estimate_changed"], false);
    assert_eq!(
        given["authorisation"]["covers"],
        json!({ "covers": "within" })
    );

    let mut more = estimate();
    more["lines"][0]["quantity_thousandths"] = json!(2500);
    written(&bench, &job, &more);
    let now = view(&bench, &job);
    assert_eq!(now["authorisation"]["estimate_changed"], true);
    // By hand: 2.5 h are 231.25; with the part 279.55; with a fifth (55.91) 335.46, 75.46 more.
    assert_eq!(
        now["authorisation"]["covers"],
        json!({ "covers": "exceeded", "by_minor": 7546 })
    );
    let items = open(&now);
    assert!(items.contains(&"estimate_changed".to_owned()), "{items:?}");
    assert!(items.contains(&"amount_exceeded".to_owned()), "{items:?}");

    let agreed = || bench.ok("job.get", json!({ "job": job }))["handover"]["agreed"].clone();
    assert_eq!(agreed(), "not_covered");
    // Undone, it is the estimate that was agreed to.
    bench.ok("undo.last", json!({}));
    assert_eq!(
        view(&bench, &job)["authorisation"]["estimate_changed"],
        false
    );
    assert_eq!(agreed(), "covered");
    // It names a record of this job's estimate, and nothing else.
    let other = bench.open_job("Larkmoor L6");
    let named = view(&bench, &job)["estimate"]["record"].clone();
    let error = bench.error(
        "authorisation.record",
        json!({ "job": other, "authorisation": {
            "who": WHO, "how": "in_person", "given_at": "2026-04-14T10:30:00Z", "up_to_minor": 1,
            "currency": "EUR", "decimals": 2, "estimate": named,
        }}),
    );
    assert_eq!(error["code"], "not_found");
}

#[test]
fn a_fitted_part_is_found_by_its_lot_changed_taken_away_and_brought_back() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let bore = view(&bench, &job)["bores"][0]["id"].clone();
    let listed = bench.ok(
        "part.record",
        json!({ "part": {
            "name": "Valve 9.50", "source": "Measured here",
            "item": { "part": "reamer", "diameter_m": 0.0095, "diameter_tolerance_m": 2e-6 },
        }}),
    )["id"]
        .clone();
    let mut part = json!({
        "job": job, "bore": bore, "shop_part": listed, "name": "Valve", "maker_text": "WV 41-7",
        "lot": "K2217-09", "quantity": 1, "source": "Counter at Hollow Lane",
        "cost": { "amount_minor": 3120, "currency": "EUR", "decimals": 2 },
    });
    let done = bench.ok("fitted.record", json!({ "part": part }));
    assert_eq!(done["saved"], true, "{done}");
    let entry = &done["view"]["fitted"][0];
    assert_eq!(entry["shop_part_name"], "Valve 9.50");
    let found = bench.ok("job.list", json!({ "text": "K2217-09" }));
    assert_eq!(
        (&found["found"], &found["jobs"][0]["id"]),
        (&json!(1), &job)
    );

    part["lot"] = json!("K2217-10");
    let changed = json!({ "fitted": entry["fitted"], "part": part });
    let done = bench.ok("fitted.record", changed);
    assert_eq!(done["view"]["fitted"][0]["part"]["lot"], "K2217-10");
    assert_eq!(
        bench.ok("job.list", json!({ "text": "K2217-09" }))["found"],
        0
    );
    let gone = bench.ok("fitted.remove", json!({ "fitted": entry["fitted"] }));
    assert_eq!(gone["fitted"], json!([]));
    bench.ok("undo.last", json!({}));
    assert_eq!(view(&bench, &job)["fitted"].as_array().unwrap().len(), 1);

    part["quantity"] = json!(0);
    part["name"] = json!("");
    let done = bench.ok("fitted.record", json!({ "part": part }));
    assert_eq!(done["saved"], false);
    assert_eq!(
        codes(&done["findings"]),
        [
            ("missing".into(), "name".into()),
            ("out_of_range".into(), "quantity".into())
        ]
    );
}

#[test]
fn the_list_of_what_is_open_is_signed_with_and_a_later_change_is_told() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let bore = view(&bench, &job)["bores"][0]["id"].clone();
    let first = view(&bench, &job);
    let untested = json!({ "open": "bore_untested", "bore": bore });
    assert!(first["open"].as_array().unwrap().contains(&untested));
    let unread = first["open"].as_array().unwrap().iter();
    assert_eq!(
        unread.filter(|it| it["open"] == "caution_unread").count(),
        6
    );
    bench.ok(
        "caution.read",
        json!({ "job": job, "hazards": ["hot_oil"] }),
    );

    // Read meanwhile: the list that was shown is another one, so nothing is signed.
    let refused = sign(&bench, &job, &first["open"]);
    assert_eq!(refused["saved"], false);
    assert_eq!(refused["view"]["sign_off"], Value::Null);
    let now = &refused["view"]["open"];
    let signed = sign(&bench, &job, now);
    assert_eq!(signed["saved"], true, "{signed}");
    let on_record = &signed["view"]["sign_off"];
    assert_eq!(&on_record["sign_off"]["open"], now);
    assert_eq!(
        (&on_record["added_since"], &on_record["gone_since"]),
        (&json!([]), &json!([]))
    );
    let brief = bench.ok("job.get", json!({ "job": job }))["handover"].clone();
    assert_eq!(brief["changed_since"], false);
    assert_eq!(brief["signed"], "Marta Oyelaran");

    // A repair and a test afterwards: what is open now is another matter than what was signed.
    let repair = json!({ "job": job, "bore": bore, "work": { "option": "cleaned" } });
    bench.ok("repair.record", repair);
    let later = view(&bench, &job);
    assert_eq!(later["sign_off"]["added_since"], json!(["repair"]));
    assert!(open(&later).contains(&"repair_untested".to_owned()));
    assert_eq!(&later["sign_off"]["sign_off"]["open"], now);
    assert_eq!(
        bench.ok("job.get", json!({ "job": job }))["handover"]["changed_since"],
        true
    );
    bench.ok("undo.last", json!({}));
    assert_eq!(view(&bench, &job)["sign_off"]["added_since"], json!([]));
    // A correction shows as the kind that was corrected; one that was struck out as gone.
    let vehicle = json!({ "part": "vehicle", "body": { "description": "2018 Wendover estate" } });
    bench.ok("job.edit", json!({ "job": job, "part": vehicle }));
    assert_eq!(
        view(&bench, &job)["sign_off"]["added_since"],
        json!(["job.vehicle"])
    );
    assert_eq!(view(&bench, &job)["sign_off"]["gone_since"], json!([]));

    let nobody = bench.ok(
        "job.sign_off",
        json!({ "job": job, "signed_by": " ", "open": view(&bench, &job)["open"] }),
    );
    assert_eq!(
        codes(&nobody["findings"]),
        [("missing".into(), "signed_by".into())]
    );
}

#[test]
fn a_tested_bore_and_a_check_left_out_are_told_apart() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    for reading in [9.0, 9.1, 9.0] {
        bench.read(&test, reading, true);
    }
    let bore = view(&bench, &job)["bores"][0]["id"].clone();
    let has = |name: &str| {
        let now = view(&bench, &job);
        let mut items = now["open"].as_array().unwrap().iter();
        items.any(|it| it["open"] == name && (it["bore"] == bore || it["bore"].is_null()))
    };
    assert!(!has("bore_untested") && !has("bore_outside_limit"));
    bench.ok("test.decide", json!({ "test": test, "note": "" }));
    assert!(has("bore_outside_limit"));
    let mut plan = bench.ok("inspection.plan", json!({ "job": job }))["plan"].clone();
    plan["left_out"] = json!([{ "bore": bore, "check": "spring", "why": "No tester here" }]);
    bench.ok("inspection.change", json!({ "job": job, "plan": plan }));
    assert!(has("check_left_out"));
}

#[test]
fn an_authorisation_stays_behind_unless_it_is_asked_for_and_the_report_leaves_it_out() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    written(&bench, &job, &estimate());
    authorise(&bench, &job, 26_000);
    let name = |personal: bool| format!("personal-{personal}.vvb");
    for (personal, audience, here) in [
        (false, "colleague", false),
        (false, "stranger", false),
        (true, "colleague", true),
    ] {
        let what = json!({ "jobs": [job], "personal": personal, "audience": audience });
        let other = elsewhere(&bundle(&bench, &name(personal), what));
        for path in [other.path(), other.path().with_extension("db-wal")] {
            if path.exists() && !here {
                assert!(!holds(&path, WHO) && !holds(&path, NOTE));
            }
        }
        let state = view(&other, &job)["authorisation"].clone();
        let expected = if here { "given" } else { "not_here" };
        assert_eq!(state["state"], expected, "{audience}");
        assert_eq!(
            open(&view(&other, &job)).contains(&"authorisation_not_here".to_owned()),
            !here && view(&other, &job)["estimate"] != Value::Null
        );
        // What was signed here is unchanged there: an envelope without its content counts too.
    }
    assert_eq!(
        bench.ok("job.list", json!({ "text": "Brandtner" }))["found"],
        0
    );
    let plain = report(&bench, &job, false);
    assert!(!plain.contains("Brandtner") && plain.contains("left out of this report"));
    assert!(plain.contains("252.22"), "the estimate is in it");
    assert!(report(&bench, &job, true).contains("Brandtner"));
}

#[test]
fn what_was_signed_reads_unchanged_where_the_authorisation_is_not() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    written(&bench, &job, &estimate());
    authorise(&bench, &job, 26_000);
    let open = view(&bench, &job)["open"].clone();
    assert_eq!(sign(&bench, &job, &open)["saved"], true);
    let other = elsewhere(&bundle(&bench, "signed.vvb", json!({ "jobs": [job] })));
    let signed = view(&other, &job)["sign_off"].clone();
    assert_eq!(
        (&signed["added_since"], &signed["gone_since"]),
        (&json!([]), &json!([]))
    );
    assert_eq!(signed["sign_off"]["open"], open);
}

#[test]
fn erasing_the_customer_takes_the_authorisation_and_says_so() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let customer = json!({ "part": "customer", "body": { "name": WHO, "phone": "", "plate": "" } });
    bench.ok("job.edit", json!({ "job": job, "part": customer }));
    written(&bench, &job, &estimate());
    authorise(&bench, &job, 20_000);
    authorise(&bench, &job, 26_000);
    let now = view(&bench, &job)["open"].clone();
    let signed = bench.ok(
        "job.sign_off",
        json!({ "job": job, "signed_by": "Marta", "statement": "Told Mrs Brandtner on the phone", "open": now }),
    );
    assert_eq!(signed["saved"], true);
    let held = bench.ok("customer.held", json!({ "job": job }))["jobs"][0].clone();
    assert_eq!(held["authorisations"].as_array().unwrap().len(), 2);
    assert_eq!(held["authorisations"][0]["up_to_minor"], 26_000);
    assert_eq!(held["elsewhere"][0]["kind"], "job.sign_off");

    let done = bench.ok(
        "customer.erase",
        json!({ "jobs": [{ "job": job, "complaint": false, "notes": false }] }),
    );
    let goes = done["goes"].as_array().unwrap();
    assert!(
        goes.contains(&json!({ "kind": "job.authorisation", "records": 2 })),
        "{goes:?}"
    );
    for name in ["shop.db", "shop.db-wal"] {
        let path = bench.folder.path().join(name);
        assert!(!path.exists() || !holds(&path, NOTE), "{name}");
    }
    let after = view(&bench, &job);
    assert_eq!(after["authorisation"]["state"], "erased");
    assert_eq!(after["estimate"]["sums"]["total_minor"], 25222);
    // The erasure is no change of the work that was signed off.
    assert_eq!(after["sign_off"]["added_since"], json!([]));
    let parts = bench.ok("job.get", json!({ "job": job }))["erased"].clone();
    let parts = parts.as_array().unwrap();
    assert!(parts.iter().any(|part| part["part"] == "authorisation"));
    assert!(report(&bench, &job, true).contains("erased on request"));
}

#[test]
fn strangers_get_no_words_of_what_was_agreed() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    written(&bench, &job, &estimate());
    let warranty =
        json!({ "months": 12, "distance_m": 2e7, "text": "Parts and labour, our workshop only" });
    let kept = json!({ "job": job, "warranty": warranty, "keep_terms": true });
    assert_eq!(bench.ok("warranty.record", kept)["saved"], true);
    let open = view(&bench, &job)["open"].clone();
    sign(&bench, &job, &open);
    let part = json!({ "job": job, "name": "Spring", "lot": "S-1", "quantity": 1, "source": "Hollow Lane" });
    bench.ok("fitted.record", json!({ "part": part }));
    let path = bundle(
        &bench,
        "stranger.vvb",
        json!({ "jobs": [job], "audience": "stranger" }),
    );
    let other = elsewhere(&path);
    let theirs = view(&other, &job);
    for gone in ["estimate", "warranty", "sign_off"] {
        assert_eq!(theirs[gone], Value::Null, "{gone}");
    }
    assert_eq!(theirs["fitted"], json!([]));
    assert_eq!(view(&bench, &job)["terms"]["warranty"], warranty);
    let nothing = json!({ "job": job, "warranty": { "text": " " } });
    let done = bench.ok("warranty.record", nothing);
    assert_eq!(
        codes(&done["findings"]),
        [("missing".into(), "text".into())]
    );
}
