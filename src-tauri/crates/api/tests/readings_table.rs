//! Readings as a table: out and in again, from a logger, and what is refused.

use crate::common::*;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};

fn carry_in(bench: &Bench, name: &str, bytes: &[u8]) -> Value {
    let file = bench.ok("file.begin", json!({ "name": name }))["file"].clone();
    let base64 = STANDARD.encode(bytes);
    bench.ok("file.add", json!({ "file": file, "base64": base64 }));
    file
}

fn written(bench: &Bench, decimal: &str, mark: bool) -> (Value, Vec<u8>) {
    let made = bench.ok(
        "readings.write",
        json!({ "decimal": decimal, "byte_order_mark": mark }),
    );
    let piece = bench.ok("file.read", json!({ "file": made["file"], "from": 0 }));
    let bytes = STANDARD.decode(piece["base64"].as_str().unwrap()).unwrap();
    assert_eq!(piece["bytes"], bytes.len());
    (made, bytes)
}

/// A job with its first bore and the bore's first test point, to put readings into.
fn into(bench: &Bench, job: &Value) -> Value {
    let view = bench.ok("job.get", json!({ "job": job }));
    let bore = &view["bores"][0];
    json!({
        "job": job,
        "bore": bore["bore"],
        "test_point": bore["test_points"][0]["test_point"],
    })
}

fn digest(bench: &Bench) -> Value {
    let check = bench.ok("store.check", json!({}));
    assert_eq!(check["clean"], true, "{check}");
    check
}

#[test]
fn out_and_in_again_on_another_store_is_all_here_already() {
    let (one, two) = (Bench::with_demo(), Bench::with_demo());
    for (decimal, mark) in [("point", true), ("comma", false)] {
        let (made, bytes) = written(&one, decimal, mark);
        assert!(made["name"].as_str().unwrap().ends_with(".csv"));
        assert_eq!(bytes.starts_with("\u{feff}".as_bytes()), mark);
        let text = String::from_utf8(bytes.clone()).unwrap();
        assert!(text.contains("vacuum (inHg)") && text.contains("air temperature (°F)"));
        assert!(text.contains("\r\n") && !text.replace("\r\n", "").contains('\n'));
        let rows = made["rows"].as_u64().unwrap();
        let readings = made["readings"].as_u64().unwrap();
        assert!(readings > 5 && rows > readings);

        let file = carry_in(&two, "readings.csv", &bytes);
        let plan = two.ok("readings.look", json!({ "file": file }));
        assert_eq!(plan["form"]["decimal"], decimal);
        assert_eq!(plan["lacks"], json!([]), "{plan}");
        assert_eq!(plan["wrong_rows"], json!([]));
        assert_eq!(
            (&plan["rows"], &plan["here"]),
            (&json!(rows), &json!(readings))
        );
        assert_eq!(plan["other"], rows - readings);
        assert_eq!(
            (&plan["new_readings"], &plan["ready"]),
            (&json!(0), &json!(false))
        );
        let refused = two.error("readings.take_in", json!({ "file": file }));
        assert_eq!(refused["code"], "table_not_ready");
    }
}

#[test]
fn nothing_of_a_customer_or_a_vehicle_is_in_the_table() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    bench.ok(
        "job.edit",
        json!({ "job": job, "part": { "part": "customer", "body": { "name": "Quillfeather", "phone": "555 0199", "plate": "ZQ 771" } } }),
    );
    let file = carry_in(&bench, "log.csv", b"vacuum (kPa)\n50.5\n");
    bench.ok(
        "readings.take_in",
        json!({ "file": file, "into": into(&bench, &job) }),
    );
    let text = String::from_utf8(written(&bench, "point", true).1).unwrap();
    assert!(
        text.contains("14.9126") && text.contains("test.reading"),
        "{text}"
    );
    for word in ["Quillfeather", "555 0199", "ZQ 771", "Wendover", "Oyelaran"] {
        assert!(!text.contains(word), "{word}");
    }
}

#[test]
fn a_logger_with_decimal_commas_and_kilopascals() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let log = "Zeit;Unterdruck [kPa];Bemerkung\r\n10:00:01;55,5;\r\n10:00:09;55,1;neu gesetzt\r\n10:00:20;55,5;\r\n";
    let file = carry_in(&bench, "log.csv", log.as_bytes());
    let plan = bench.ok("readings.look", json!({ "file": file }));
    assert_eq!(plan["form"]["delimiter"], "semicolon");
    assert_eq!(plan["form"]["decimal"], "comma");
    assert_eq!(
        plan["columns"][1],
        json!({ "role": "vacuum", "unit": "kPa" })
    );
    assert_eq!(plan["lacks"], json!(["job", "bore"]));

    let args = json!({ "file": file, "into": into(&bench, &job) });
    let plan = bench.ok("readings.look", args.clone());
    assert_eq!(
        (&plan["new_readings"], &plan["new_tests"]),
        (&json!(3), &json!(1)),
        "{plan}"
    );
    assert_eq!(plan["ready"], true);
    let before = digest(&bench);
    let taken = bench.ok("readings.take_in", args);
    assert_eq!(taken["readings"], 3);
    let view = bench.ok("test.get", json!({ "test": taken["tests"][0] }));
    let read: Vec<_> = view["readings"]
        .as_array()
        .unwrap()
        .iter()
        .map(|it| &it["reading"])
        .collect();
    assert_eq!(
        read[0],
        &json!({ "vacuum_pa": 55_500.0, "reseated": false, "as_typed": "55,5 kPa" })
    );
    assert_eq!(read.len(), 3);

    // The same file again: each row has its reading, and no reading stands for two rows.
    let again = |bench: &Bench| {
        let file = carry_in(bench, "log.csv", log.as_bytes());
        bench.ok(
            "readings.look",
            json!({ "file": file, "into": into(bench, &job) }),
        )
    };
    let plan = again(&bench);
    assert_eq!(
        (&plan["here"], &plan["alike"], &plan["ready"]),
        (&json!(3), &json!(3), &json!(false))
    );
    assert_eq!(plan["remembered"], true);

    // One action, one undo.
    bench.ok("undo.last", json!({}));
    assert_eq!(again(&bench)["new_readings"], 3);
    assert_eq!(digest(&bench)["clean"], before["clean"]);
    let bench = bench.restart();
    bench.ok("redo.last", json!({}));
    assert_eq!(again(&bench)["here"], 3);
}

#[test]
fn a_pressure_against_ambient_is_negative_and_a_unit_in_the_cell_counts() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let log = "pressure\n-17.5 inHg\n-60 kPa\n−600 mbar\n";
    let file = carry_in(&bench, "log.csv", log.as_bytes());
    let plan = bench.ok(
        "readings.look",
        json!({ "file": file, "into": into(&bench, &job) }),
    );
    assert_eq!(plan["columns"][0]["role"], "gauge_pressure");
    let read: Vec<_> = plan["new_sample"]
        .as_array()
        .unwrap()
        .iter()
        .map(|it| it["vacuum_pa"].as_f64().unwrap())
        .collect();
    assert!((read[0] - 17.5 * INHG).abs() < 1e-6);
    assert_eq!(read[1..], [60_000.0, 60_000.0]);
}

#[test]
fn wrong_rows_are_told_by_line_and_nothing_is_taken_unless_they_are_left_out() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let log = "vacuum (inHg),reseated,bore\n17.5,yes,\n400,no,\n\"17,5\",no,\n,no,\nx,no,\n17.1,perhaps,\n17.0,no,No such bore\n";
    let file = carry_in(&bench, "log.csv", log.as_bytes());
    let view = bench.ok("job.get", json!({ "job": job }));
    let name = view["bores"][0]["bore_name"]
        .as_str()
        .or(view["bores"][0]["name"].as_str())
        .unwrap()
        .to_owned();
    let log = log.replace(",\n", &format!(",{name}\n"));
    let file2 = carry_in(&bench, "log.csv", log.as_bytes());
    bench.ok("file.drop", json!({ "file": file }));
    let mut args = json!({ "file": file2, "into": into(&bench, &job) });
    let plan = bench.ok("readings.look", args.clone());
    let wrong: Vec<_> = plan["wrong_rows"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| {
            (
                row["line"].as_u64().unwrap(),
                row["problem"].as_str().unwrap(),
            )
        })
        .collect();
    assert_eq!(
        wrong,
        [
            (3, "findings"),
            (4, "other_decimal_sign"),
            (5, "no_reading"),
            (6, "not_a_number"),
            (7, "not_yes_or_no"),
            (8, "no_such_bore"),
        ],
        "{plan}"
    );
    let typed = bench.begin_test(&job);
    let told = bench.ok(
        "test.record",
        json!({
            "test": typed, "dry_run": true,
            "part": { "part": "reading", "body": { "vacuum_pa": 400.0 * INHG, "reseated": false } },
        }),
    );
    assert!(
        told["findings"]
            .as_array()
            .unwrap()
            .contains(&plan["wrong_rows"][0]["findings"][0]),
        "{told}"
    );
    assert_eq!(
        (&plan["new_readings"], &plan["ready"]),
        (&json!(1), &json!(false))
    );
    let records = digest(&bench)["records"].clone();
    assert_eq!(
        bench.error("readings.take_in", args.clone())["code"],
        "table_not_ready"
    );
    assert_eq!(digest(&bench)["records"], records);
    args["into"]["leave_out_wrong"] = json!(true);
    assert_eq!(bench.ok("readings.take_in", args)["readings"], 1);
}

#[test]
fn a_figure_that_was_altered_in_a_spreadsheet_is_never_taken_for_a_correction() {
    let bench = Bench::with_demo();
    let text = String::from_utf8(written(&bench, "point", false).1).unwrap();
    let mut lines: Vec<_> = text.lines().map(str::to_owned).collect();
    let at = lines
        .iter()
        .position(|line| line.contains(",test.reading,"))
        .unwrap();
    let mut cells: Vec<_> = lines[at].split(',').map(str::to_owned).collect();
    let vacuum = lines[0]
        .split(',')
        .position(|name| name.starts_with("vacuum"))
        .unwrap();
    cells[vacuum] = "3.3".into();
    lines[at] = cells.join(",");
    let file = carry_in(&bench, "readings.csv", lines.join("\n").as_bytes());
    let plan = bench.ok("readings.look", json!({ "file": file }));
    assert_eq!(plan["wrong"], 1, "{plan}");
    assert_eq!(plan["wrong_rows"][0]["problem"], "differs_from_record");
}

#[test]
fn a_bare_column_of_numbers_lacks_its_unit() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let file = carry_in(&bench, "log.txt", b"17.5\n17.1\n");
    let into = into(&bench, &job);
    let plan = bench.ok("readings.look", json!({ "file": file, "into": into }));
    assert_eq!(plan["lacks"], json!(["unit"]));
    let columns = json!([{ "role": "vacuum", "unit": "inHg" }]);
    let plan = bench.ok(
        "readings.look",
        json!({ "file": file, "into": into, "columns": columns }),
    );
    assert_eq!(plan["new_readings"], 2);
}

#[test]
fn files_that_mean_harm_have_a_named_code_and_change_nothing() {
    let bench = Bench::with_demo();
    let records = digest(&bench)["records"].clone();
    for (bytes, code) in [
        (Vec::new(), "table_empty"),
        (b"a,b\n\"1,2\n".to_vec(), "table_quote_open"),
        (b"a\n1\0\n".to_vec(), "table_not_text"),
        (",".repeat(1_000_000).into_bytes(), "table_too_wide"),
        (
            format!("a\n{}\n", "x".repeat(100_000)).into_bytes(),
            "table_too_wide",
        ),
        ("1\n".repeat(100_000).into_bytes(), "table_too_long"),
        (vec![b'x'; 5 << 20], "table_too_long"),
    ] {
        let file = bench.ok("file.begin", json!({ "name": "log.csv" }))["file"].clone();
        for piece in bytes.chunks(3 << 20) {
            bench.ok(
                "file.add",
                json!({ "file": file, "base64": STANDARD.encode(piece) }),
            );
        }
        assert_eq!(
            bench.error("readings.look", json!({ "file": file }))["code"],
            code
        );
        assert_eq!(
            bench.error("readings.take_in", json!({ "file": file }))["code"],
            code
        );
    }
    assert_eq!(digest(&bench)["records"], records);
}
