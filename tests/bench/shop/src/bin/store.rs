//! Times the app on a shop of any size by its own commands, on a store in a file: opening to the
//! first list, the list, searching, a job and its tests, a durable append beside a bare insert.
//!
//! `store FOLDER JOBS...`: one store a size, made if it isn't there; `--heavy` adds the check, a
//! backup and projecting anew to the last. Each time is the shortest of several.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

use journal::{DeviceKey, WallTime};
use serde_json::{Value, json};
use store::{Backups, Depth, Reason, Setup, Store};
use testkit::large;

fn open(path: &Path) -> Store {
    Store::open(path, Setup::new(Arc::new(api::ModelProjector))).expect("a store")
}

fn start(path: &Path) -> api::App {
    api::App::start(api::Options {
        store_path: Some(path.to_owned()),
        demo_on_first_start: false,
        paths: false,
        clock: Arc::new(api::SystemClock),
    })
}

fn ask(app: &api::App, command: &str, args: &Value) -> Value {
    let request = json!({ "command": command, "args": args }).to_string();
    let answer: Value = serde_json::from_str(&app.call(&request)).expect("JSON");
    assert!(answer.get("ok").is_some(), "{command}: {answer}");
    answer["ok"].clone()
}

/// Elapsed time, and for how much of it this thread had a processor: on a machine that does other
/// work too, only the latter can be compared.
#[derive(Clone, Copy)]
struct Cost {
    wall: f64,
    cpu: f64,
}

impl std::fmt::Display for Cost {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:.2} ms ({:.2} ms of processor)", self.wall, self.cpu)
    }
}

fn on_processor() -> f64 {
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    let nanoseconds = text.split_whitespace().next().unwrap_or("0");
    nanoseconds.parse::<f64>().unwrap_or(0.0) / 1e6
}

/// The shortest of so many, in ms; each time by itself.
fn shortest(times: u32, mut act: impl FnMut()) -> Cost {
    let mut least = Cost {
        wall: f64::MAX,
        cpu: f64::MAX,
    };
    for _ in 0..times {
        let cost = once(&mut act);
        least.wall = least.wall.min(cost.wall);
        least.cpu = least.cpu.min(cost.cpu);
    }
    least
}

fn ms(time: Duration) -> f64 {
    time.as_secs_f64() * 1e3
}

fn once(act: impl FnOnce()) -> Cost {
    let (begun, cpu) = (Instant::now(), on_processor());
    act();
    Cost {
        wall: ms(begun.elapsed()),
        cpu: on_processor() - cpu,
    }
}

/// A shop in a file; made if it isn't there.
fn shop(folder: &Path, jobs: u32) -> PathBuf {
    let path = folder.join(format!("shop-{jobs}.db"));
    if !path.exists() {
        let part = folder.join(format!("shop-{jobs}.part"));
        let _ = std::fs::remove_file(&part);
        let mut store = open(&part);
        let begun = Instant::now();
        let filled = large::fill(&mut store, "bench", jobs).expect("a shop");
        println!(
            "# made {} records in {:.1} s",
            filled.records,
            ms(begun.elapsed()) / 1e3
        );
        let _ = store.put_setting("author", &format!("\"{}\"", filled.person));
        drop(store);
        std::fs::rename(&part, &path).expect("a file");
    }
    path
}

/// One durable append by the app beside the same rows inserted bare, and the signature alone.
fn append(app: &api::App, path: &Path, job: &Value) {
    let mut n = 0;
    let ours = shortest(40, || {
        n += 1;
        ask(
            app,
            "job.edit",
            &json!({ "job": job, "part": { "part": "notes", "body": { "text": format!("Note {n}") } } }),
        );
    });
    let mut store = open(path);
    let person = journal::PersonId::from_bytes([9; 16]);
    let of = store.new_subject(WallTime::from_unix_ms(1)).expect("an id");
    let alone = shortest(40, || {
        let record = store::NewRecord {
            subject: of,
            kind: journal::Kind::literal("caution"),
            kind_version: 1,
            supersedes: Vec::new(),
            body: br#"{"hazard":"hot_oil","wording":1}"#.to_vec(),
            personal: false,
        };
        let now = WallTime::from_unix_ms(1_800_000_000_000);
        store.append(vec![record], person, now).expect("kept");
    });
    drop(store);
    // The same rows, with the same indexes and settings, into the same file's tables.
    let bare_path = path.with_extension("bare");
    std::fs::copy(path, &bare_path).expect("a copy");
    let mut db = rusqlite::Connection::open(&bare_path).expect("a file");
    db.pragma_update(None, "journal_mode", "WAL").expect("WAL");
    db.pragma_update(None, "synchronous", "FULL").expect("full");
    db.pragma_update(None, "secure_delete", true)
        .expect("a pragma");
    db.pragma_update(None, "cache_size", -16 << 10)
        .expect("a pragma");
    let mut seed = 0_u64;
    let bare = shortest(40, || {
        seed += 1;
        let hash = |what: &str| *blake3::hash(format!("{what} {seed}").as_bytes()).as_bytes();
        let id = |what: &str| hash(what)[..16].to_vec();
        let tx = db
            .transaction_with_behavior(rusqlite::TransactionBehavior::Immediate)
            .expect("a transaction");
        let (commit, record, body) = (hash("commit"), hash("record"), hash("body"));
        let subject = [8_u8; 16];
        let run = |sql: &str, values: &[&dyn rusqlite::ToSql]| {
            tx.prepare_cached(sql)
                .expect("SQL")
                .execute(values)
                .expect("a row")
        };
        run(
            "INSERT INTO commit_ (id, hash, device, wall_time, bytes) SELECT ?1, ?2, id, 1, ?3 FROM device LIMIT 1",
            &[&id("c"), &commit, &[7_u8; 420].as_slice()],
        );
        let seq = tx.last_insert_rowid();
        run(
            "INSERT INTO commit_record VALUES (?1, 0, ?2, ?3)",
            &[&seq, &id("r"), &record],
        );
        run(
            "INSERT INTO record (id, hash, subject, kind, kind_version, device, clock_millis, clock_counter, body_hash, bytes) VALUES (?1, ?2, ?3, 'caution', 1, ?4, 1, 1, ?5, ?6)",
            &[
                &id("r"),
                &record,
                &subject,
                &[6_u8; 32],
                &body,
                &[7_u8; 430].as_slice(),
            ],
        );
        let record_seq = tx.last_insert_rowid();
        run(
            "INSERT INTO body VALUES (?1, ?2)",
            &[&body, &[5_u8; 32].as_slice()],
        );
        run(
            "INSERT INTO standing VALUES (?1, 'caution', ?2, ?3, 0)",
            &[&subject.as_slice(), &record_seq, &record_seq],
        );
        run("UPDATE clock SET counter = counter + 1", &[]);
        tx.commit().expect("kept");
    });
    drop(db);
    for end in ["bare", "bare-wal", "bare-shm"] {
        let _ = std::fs::remove_file(path.with_extension(end));
    }
    let key = DeviceKey::from_secret(&[3; 32]);
    let message = [1_u8; 400];
    let signature = key.sign(&message);
    let signing = shortest(200, || {
        let _ = key.sign(&message);
    });
    let verifying = shortest(200, || assert!(key.public().verifies(&message, &signature)));
    let signature = Cost {
        wall: signing.wall + verifying.wall,
        cpu: signing.cpu + verifying.cpu,
    };
    println!("| store.append | {alone} |");
    println!("| bare insert of the same rows | {bare} |");
    println!("| signature, made and checked | {signature} |");
    println!(
        "| append to bare | {:.2}, less the signature {:.2}; of processor {:.2}, less it {:.2} |",
        alone.wall / bare.wall,
        (alone.wall - signature.wall) / bare.wall,
        alone.cpu / bare.cpu,
        (alone.cpu - signature.cpu) / bare.cpu,
    );
    println!("| job.edit as a whole | {ours} |");
}

fn measure(path: &Path, heavy: bool) {
    let cold = once(|| {
        let app = start(path);
        ask(&app, "job.list", &json!({ "limit": 50 }));
        // Dropping it would wait for the day's backup, which nobody else waits for.
        std::mem::forget(app);
    });
    let opening = shortest(5, || {
        let app = start(path);
        ask(&app, "job.list", &json!({ "limit": 50 }));
        // What a start sets off beside it is no part of what the person waits for.
        std::mem::forget(app);
    });
    let app = start(path);
    let first = ask(&app, "job.list", &json!({ "limit": 50 }));
    let found = first["found"].as_u64().unwrap_or(0);
    let list = |args: Value| {
        shortest(7, || {
            ask(&app, "job.list", &args);
        })
    };
    let hits = |args: &Value| ask(&app, "job.list", args)["found"].clone();
    let records = open(path).record_count().unwrap_or(0);
    println!("\n## {records} records, {found} jobs");
    println!("| open to first list | {opening}; the first time {cold} |");
    println!("| first page | {} |", list(json!({ "limit": 50 })));
    println!(
        "| last page | {} |",
        list(json!({ "limit": 50, "skip": found.saturating_sub(50) }))
    );
    println!("| the whole list | {} |", list(json!({})));
    let state = json!({ "limit": 50, "state": "outside_limit" });
    println!("| by state | {} |", list(state));
    // A plate of the newest job, and the words of people.
    let job = first["jobs"][0]["id"].clone();
    let view = ask(&app, "job.get", &json!({ "job": job }));
    let plate = view["customer"]["plate"]
        .as_str()
        .unwrap_or("KV")
        .to_owned();
    for text in [
        plate.as_str(),
        &plate[..3],
        "Mirkwater",
        "bangs hot",
        "larkmoor towing van",
        "555",
        "zz zz",
        "2-",
    ] {
        let args = json!({ "text": text, "limit": 50 });
        println!(
            "| search `{text}` | {}, {} found |",
            list(args.clone()),
            hits(&args)
        );
    }
    let jobs: Vec<Value> = first["jobs"].as_array().cloned().unwrap_or_default();
    let busiest = jobs
        .iter()
        .max_by_key(|job| job["tests"].as_u64())
        .expect("a job");
    let job = json!({ "job": busiest["id"] });
    println!(
        "| job.get | {} |",
        shortest(9, || {
            ask(&app, "job.get", &job);
        })
    );
    let view = ask(&app, "job.get", &job);
    let tests = view["bores"]
        .as_array()
        .into_iter()
        .flatten()
        .flat_map(|bore| bore["test_points"].as_array().into_iter().flatten())
        .flat_map(|point| point["tests"].as_array().into_iter().flatten());
    if let Some(test) = tests.last() {
        let args = json!({ "test": test["test"] });
        println!(
            "| test.get, judgement included | {} |",
            shortest(5, || {
                ask(&app, "test.get", &args);
            })
        );
    }
    println!(
        "| shop.overview | {} |",
        shortest(5, || {
            ask(&app, "shop.overview", &json!({}));
        })
    );
    append(&app, path, &busiest["id"]);
    if heavy {
        let store = open(path);
        println!(
            "| store.check, quick | {} |",
            once(|| assert!(store.check_to(Depth::Quick).expect("checked").is_empty()))
        );
        println!(
            "| store.check, full | {} |",
            once(|| assert!(store.check().expect("checked").is_empty()))
        );
        println!(
            "| digest | {} |",
            once(|| {
                let _ = store.digest().expect("a digest");
            })
        );
        drop(store);
        let mut backups = Cost {
            wall: 0.0,
            cpu: 0.0,
        };
        if let Ok(of) = std::panic::catch_unwind(|| Backups::of(path)) {
            backups = once(|| {
                let _ = of.make(Reason::ByHand, WallTime::from_unix_ms(1_800_000_000_000));
            });
        }
        println!("| a backup, checked | {backups} |");
        drop(app);
        let db = rusqlite::Connection::open(path).expect("a file");
        db.execute("UPDATE summarised SET version = 0", [])
            .expect("a row");
        drop(db);
        println!(
            "| a start that fills the summaries (from schema 5 or 6) | {} |",
            once(|| drop(open(path)))
        );
        let mut store = open(path);
        println!(
            "| projecting all anew | {} |",
            once(|| store.rebuild().expect("made anew"))
        );
    }
    println!(
        "| file | {:.0} MB |",
        std::fs::metadata(path).map_or(0.0, |file| file.len() as f64 / 1e6)
    );
}

/// Times it.
pub fn main() {
    let mut arguments: Vec<String> = std::env::args().skip(1).collect();
    if let Ok(instead) = std::env::var("STORE_BENCH") {
        arguments = instead.split(' ').map(str::to_owned).collect();
    }
    let heavy = arguments.iter().any(|argument| argument == "--heavy");
    arguments.retain(|argument| argument != "--heavy");
    let folder = PathBuf::from(arguments.remove(0));
    std::fs::create_dir_all(&folder).expect("a folder");
    let sizes: Vec<u32> = arguments
        .iter()
        .filter_map(|jobs| jobs.parse().ok())
        .collect();
    for (n, jobs) in sizes.iter().enumerate() {
        measure(&shop(&folder, *jobs), heavy && n + 1 == sizes.len());
    }
}
