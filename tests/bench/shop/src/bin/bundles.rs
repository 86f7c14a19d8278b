//! Bundles of a large shop: how long making one, looking at it and taking it in lasts, beside the
//! least that must be done for it, and how much memory it takes. And files made to do harm.
//!
//! `bundles [JOBS]` prints both tables; each row runs in a process of its own, so that its peak of
//! memory (`VmHWM` of Linux) is its own.

// A program for the developer's eye may fail loudly.
#![allow(clippy::unwrap_used)]

use std::fs::File;
use std::io::{BufWriter, Cursor, Read, Seek, Write};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Arc;
use std::time::Instant;

use bundle::{Origin, Passphrase, Reader, SecretString};
use flate2::Compression;
use flate2::write::DeflateEncoder;
use journal::{PersonId, WallTime};
use rusqlite::{Connection, OpenFlags, params_from_iter, types::Value};
use store::{Item, Items, Selection, Setup, Store};
use testkit::large;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

fn open(path: &Path) -> Store {
    Store::open(path, Setup::new(Arc::new(api::ModelProjector))).unwrap()
}

/// How long something lasted, and for how long of that this thread had a processor: on a machine
/// that does other work too, only the latter can be compared.
#[derive(Clone, Copy, Default)]
struct Cost {
    wall: f64,
    cpu: f64,
}

fn on_processor() -> f64 {
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap();
    let nanoseconds: f64 = text.split_whitespace().next().unwrap().parse().unwrap();
    nanoseconds / 1e9
}

fn timed<T>(act: impl FnOnce() -> T) -> (Cost, T) {
    let (begun, cpu) = (Instant::now(), on_processor());
    let done = act();
    let cost = Cost {
        wall: begun.elapsed().as_secs_f64(),
        cpu: on_processor() - cpu,
    };
    (cost, done)
}

/// The most memory that this process ever had, MiB.
fn peak() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap();
    let line = status
        .lines()
        .find(|line| line.starts_with("VmHWM"))
        .unwrap();
    let kib: f64 = line.split_whitespace().nth(1).unwrap().parse().unwrap();
    kib / 1024.0
}

fn say(what: &str, cost: Cost, more: &str) {
    let Cost { wall, cpu } = cost;
    println!(
        "| {what} | {cpu:.2} s | {wall:.2} s | {:.0} MiB | {more} |",
        peak()
    );
}

// One of these a process -------------------------------------------------------------------------

fn make(folder: &Path, jobs: u32) {
    let mut store = open(&folder.join("from.db"));
    let (cost, filled) = timed(|| large::fill(&mut store, "bundles", jobs).unwrap());
    let more = format!("{} records, {} commits", filled.records, filled.commits);
    say("a shop is made up", cost, &more);
}

fn export(folder: &Path) {
    let store = open(&folder.join("from.db"));
    let (cost, manifest) = timed(|| {
        let out = File::create(folder.join("shop.vvb")).unwrap();
        let chosen = store.choose(&Selection::Everything).unwrap();
        let origin = Origin {
            author: PersonId::from_bytes([1; 16]),
            key: store.device_key(),
            created: WallTime::from_unix_ms(1_790_000_000_000),
        };
        bundle::write(BufWriter::new(out), &chosen, &origin).unwrap()
    });
    let length = std::fs::metadata(folder.join("shop.vvb")).unwrap().len();
    let inflated: u64 = manifest.members.values().map(|member| member.bytes).sum();
    let more = format!("{} MB of {} MB", length / 1_000_000, inflated / 1_000_000);
    say("the bundle is written", cost, &more);
}

/// The same rows read, and the very lines of the bundle deflated.
fn read_and_compress(folder: &Path) {
    let db = Connection::open_with_flags(
        folder.join("from.db"),
        OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX,
    )
    .unwrap();
    let (cost, read) = timed(|| {
        let mut read = 0;
        for table in ["commit_", "record", "body"] {
            let mut query = db
                .prepare(&format!("SELECT bytes FROM {table} ORDER BY hash"))
                .unwrap();
            let mut rows = query.query([]).unwrap();
            while let Some(row) = rows.next().unwrap() {
                read += row.get_ref(0).unwrap().as_blob().unwrap().len();
            }
        }
        read
    });
    let more = format!("{} MB", read / 1_000_000);
    say("its rows are read", cost, &more);
    let mut archive = zip::ZipArchive::new(File::open(folder.join("shop.vvb")).unwrap()).unwrap();
    let mut lines = Vec::new();
    for name in ["records.ndjson", "bodies.ndjson"] {
        archive
            .by_name(name)
            .unwrap()
            .read_to_end(&mut lines)
            .unwrap();
    }
    let (cost, ()) = timed(|| {
        let mut out = DeflateEncoder::new(std::io::sink(), Compression::default());
        for piece in lines.chunks(64 << 10) {
            out.write_all(piece).unwrap();
        }
        out.finish().unwrap();
    });
    say("its lines are compressed", cost, "");
}

fn look(folder: &Path) {
    let mut reader = Reader::default();
    let file = File::open(folder.join("shop.vvb")).unwrap();
    let (cost, checked) = timed(|| reader.read(file).unwrap());
    let inflated = reader.counters().inflated_bytes / 1_000_000;
    say("read and checked", cost, &format!("{inflated} MB"));
    let mut store = open(&folder.join("look.db"));
    let (cost, plan) = timed(|| bundle::plan(&mut store, &checked).unwrap());
    let more = format!("{} new records", plan.brings.new_records);
    say("then planned", cost, &more);
}

fn take_in(folder: &Path) {
    let mut reader = Reader::default();
    let file = File::open(folder.join("shop.vvb")).unwrap();
    let checked = reader.read_records(file).unwrap();
    let mut store = open(&folder.join("to.db"));
    let now = WallTime::from_unix_ms(1_790_000_000_000);
    let (cost, (applied, _)) = timed(|| store.take_in(&checked, "", now).unwrap());
    let more = format!("{} new records", applied.new_records);
    say("read, checked and taken in: taking in alone", cost, &more);
}

/// As the app does both, with all that it tells of a bundle and the backup that it makes before.
fn through_the_app(folder: &Path) {
    let app = api::App::start(api::Options {
        store_path: Some(folder.join("app.db")),
        demo_on_first_start: false,
        paths: true,
        clock: Arc::new(api::SystemClock),
    });
    let ask = |command: &str, args: serde_json::Value| -> serde_json::Value {
        let request = serde_json::json!({ "command": command, "args": args }).to_string();
        let answer: serde_json::Value = serde_json::from_str(&app.call(&request)).unwrap();
        answer
            .get("ok")
            .cloned()
            .unwrap_or_else(|| panic!("{answer}"))
    };
    let path = folder.join("shop.vvb");
    let held = ask("file.open", serde_json::json!({ "path": path }));
    let file = serde_json::json!({ "file": held["file"] });
    let (cost, plan) = timed(|| ask("bundle.look", file.clone()));
    let jobs = plan["jobs"].as_array().unwrap().len();
    say("`bundle.look`", cost, &format!("{jobs} jobs"));
    // Somebody accepts each signer that is asked about.
    let signers: Vec<_> = plan["signers"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|signer| signer["asks"] == true)
        .map(|signer| {
            let doubted = !signer["doubts"].as_array().unwrap().is_empty();
            serde_json::json!({ "device": signer["device"], "despite_doubts": doubted })
        })
        .collect();
    let args = serde_json::json!({ "file": held["file"], "signers": signers });
    let (cost, taken) = timed(|| ask("bundle.take_in", args));
    let more = format!("{} new records", taken["new_records"]);
    say("`bundle.take_in`", cost, &more);
}

/// What is told apart: inflating and parsing, hashes, signatures.
fn parts(folder: &Path) {
    let mut reader = Reader::default();
    let checked = reader
        .read_records(File::open(folder.join("shop.vvb")).unwrap())
        .unwrap();
    let (pass, ()) = timed(|| checked.each(&mut |_| Ok(())).unwrap());
    say("inflating, parsing, hashes of one pass", pass, "");
    // What a pass with hashes, or with signatures, costs beyond one without.
    let beyond = |cost: Cost| Cost {
        wall: cost.wall - pass.wall,
        cpu: cost.cpu - pass.cpu,
    };
    let (cost, ()) = timed(|| {
        let hashes = |item: Item<'_>| {
            std::hint::black_box(match item {
                Item::Commit(commit) => *commit.hash().as_bytes(),
                Item::Record(record) => *journal::EnvelopeHash::of(record.bytes()).as_bytes(),
                Item::Body(_, bytes) => *journal::BodyHash::of(bytes).as_bytes(),
            });
            Ok(())
        };
        checked.each(&mut { hashes }).unwrap();
    });
    say(
        "of that, hashes of commits, records and bodies",
        beyond(cost),
        "",
    );
    let mut commits = 0;
    let (cost, ()) = timed(|| {
        let mut signatures = |item: Item<'_>| {
            if let Item::Commit(commit) = item {
                commits += 1;
                commit.verify().unwrap();
            }
            Ok(())
        };
        checked.each(&mut signatures).unwrap();
    });
    say("signatures", beyond(cost), &format!("{commits} commits"));
}

/// The rows of the store that took the bundle in, by prepared statements in one transaction.
fn bare_insert(folder: &Path, tables: &[&str], what: &str) {
    let from = Connection::open(folder.join("to.db")).unwrap();
    let path = folder.join(format!("bare-{}.db", tables.len()));
    drop(open(&path));
    let mut to = Connection::open(&path).unwrap();
    for (name, value) in [
        ("synchronous", "FULL"),
        ("cache_size", "-49152"),
        ("secure_delete", "1"),
    ] {
        to.pragma_update_and_check(None, name, value, |_| Ok(()))
            .or_else(|error| match error {
                rusqlite::Error::QueryReturnedNoRows => Ok(()),
                other => Err(other),
            })
            .unwrap();
    }
    to.execute_batch("DELETE FROM device").unwrap();
    let mut all: Vec<(String, Vec<Vec<Value>>)> = Vec::new();
    for table in tables {
        let mut query = from.prepare(&format!("SELECT * FROM {table}")).unwrap();
        let columns = query.column_count();
        let marks = vec!["?"; columns].join(", ");
        let rows = query
            .query_map([], |row| {
                (0..columns).map(|column| row.get(column)).collect()
            })
            .unwrap();
        let insert = format!("INSERT INTO {table} VALUES ({marks})");
        all.push((insert, rows.collect::<Result<_, _>>().unwrap()));
        if *table == "summary_text" {
            let mut query = from.prepare("SELECT seq, text FROM summary_text").unwrap();
            let rows = query
                .query_map([], |row| Ok(vec![row.get(0)?, row.get(1)?]))
                .unwrap();
            let insert = "INSERT INTO summary_search (rowid, text) VALUES (?, ?)".to_owned();
            all.push((insert, rows.collect::<Result<_, _>>().unwrap()));
        }
    }
    let count: usize = all.iter().map(|(_, rows)| rows.len()).sum();
    let (cost, ()) = timed(|| {
        let tx = to.transaction().unwrap();
        for (insert, rows) in &all {
            let mut insert = tx.prepare(insert).unwrap();
            for row in rows {
                insert.execute(params_from_iter(row)).unwrap();
            }
        }
        tx.commit().unwrap();
    });
    say(what, cost, &format!("{count} rows"));
}

const JOURNAL: [&str; 5] = ["device", "commit_", "commit_record", "record", "body"];
const ALL: [&str; 14] = [
    "device",
    "commit_",
    "commit_record",
    "record",
    "body",
    "import_",
    "import_item",
    "standing",
    "subject",
    "naming",
    "author",
    "summary",
    "facet",
    "summary_text",
];

// Files made to do harm --------------------------------------------------------------------------

fn zip_of(path: &Path, members: &[(&str, CompressionMethod, &[u8], usize)]) {
    let mut zip = ZipWriter::new(BufWriter::new(File::create(path).unwrap()));
    for (name, method, bytes, times) in members {
        let options = SimpleFileOptions::default()
            .compression_method(*method)
            .large_file(bytes.len() as u64 * *times as u64 > 0xffff_fff0);
        zip.start_file(*name, options).unwrap();
        for _ in 0..*times {
            zip.write_all(bytes).unwrap();
        }
    }
    zip.finish().unwrap();
}

/// A directory of so many records over nothing, with an end that says `said`.
fn directory_of(path: &Path, members: usize, said: u16) {
    let mut out = BufWriter::new(File::create(path).unwrap());
    let mut local = b"PK\x03\x04\x14\0\0\0\0\0\0\0!\0".to_vec();
    local.extend_from_slice(&[0; 12]);
    local.extend_from_slice(&[1, 0, 0, 0, b'm']);
    out.write_all(&local).unwrap();
    let mut entry = b"PK\x01\x02\x14\0\x14\0\0\0\0\0\0\0!\0".to_vec();
    entry.extend_from_slice(&[0; 12]);
    entry.extend_from_slice(&[1, 0]);
    entry.extend_from_slice(&[0; 16]);
    entry.push(b'm');
    for _ in 0..members {
        out.write_all(&entry).unwrap();
    }
    out.write_all(b"PK\x05\x06\0\0\0\0").unwrap();
    for count in [said, said] {
        out.write_all(&count.to_le_bytes()).unwrap();
    }
    let (length, start) = ((members * entry.len()) as u32, local.len() as u32);
    out.write_all(&length.to_le_bytes()).unwrap();
    out.write_all(&start.to_le_bytes()).unwrap();
    out.write_all(&[0, 0]).unwrap();
}

fn hostile_files(folder: &Path) -> Vec<(&'static str, PathBuf)> {
    use CompressionMethod::{Deflated, Stored};
    let zeros = vec![b' '; 1 << 20];
    let at = |name: &str| folder.join(format!("{name}.vvb"));
    let mut files = Vec::new();
    let mut add = |what, name: &str| {
        files.push((what, at(name)));
        at(name)
    };
    let path = add("a manifest of 1 GiB that packs to 1 MiB", "bomb");
    zip_of(&path, &[("manifest.json", Deflated, &zeros, 1024)]);
    let inner = std::fs::read(&path).unwrap();
    let path = add("an archive in an archive in an archive", "nested");
    let middle = {
        let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
        zip.start_file(
            "inner.zip",
            SimpleFileOptions::default().compression_method(Stored),
        )
        .unwrap();
        zip.write_all(&inner).unwrap();
        zip.finish().unwrap().into_inner()
    };
    zip_of(&path, &[("manifest.json", Deflated, &middle, 1)]);
    let path = add("16 MiB of manifest, nested as deep", "deep");
    let noise: Vec<u8> = (0..1_u32 << 20)
        .map(|n| {
            if (n.wrapping_mul(2_654_435_761) >> 13) & 1 == 0 {
                b'['
            } else {
                b'{'
            }
        })
        .collect();
    zip_of(&path, &[("manifest.json", Deflated, &noise, 15)]);
    let path = add("65,000 members of nothing", "members");
    let names: Vec<_> = (0..64_900).map(|n| format!("m{n}")).collect();
    let parts: Vec<_> = names
        .iter()
        .map(|name| (name.as_str(), Stored, &b""[..], 1))
        .collect();
    zip_of(&path, &parts);
    directory_of(&add("a million members", "million"), 1_000_000, 0xffff);
    directory_of(
        &add("a million members, counted modulo 65,536", "wrapped"),
        1_000_000,
        (1_000_000 % 65_536) as u16,
    );
    let path = add("a sparse file of 5 GiB", "huge");
    File::create(&path).unwrap().set_len(5 << 30).unwrap();
    let path = add("4 GiB claimed by a few bytes", "claims");
    zip_of(&path, &[("manifest.json", Stored, b"{}", 1)]);
    let mut bytes = std::fs::read(&path).unwrap();
    for at in 0..bytes.len() - 4 {
        if bytes[at..at + 4] == 2_u32.to_le_bytes() {
            bytes[at..at + 4].copy_from_slice(&0xffff_fff0_u32.to_le_bytes());
        }
    }
    std::fs::write(&path, bytes).unwrap();
    let path = add("a seal that asks for 2^40 work", "seal");
    let mut seal = b"age-encryption.org/v1\n-> scrypt ".to_vec();
    seal.extend_from_slice(&[b'A'; 22]);
    seal.extend_from_slice(b" 40\n");
    seal.extend_from_slice(&[b'A'; 43]);
    seal.extend_from_slice(b"\n--- ");
    seal.extend_from_slice(&[b'A'; 43]);
    seal.push(b'\n');
    seal.extend_from_slice(&[7; 200]);
    std::fs::write(&path, seal).unwrap();
    files
}

fn refuse(path: &Path) {
    let passphrase = Passphrase::new(&SecretString::from("quiet otter brass"));
    let mut file = File::open(path).unwrap();
    let mut start = [0; 22];
    let read = file.read(&mut start).unwrap();
    file.rewind().unwrap();
    let (cost, code) = timed(|| {
        if bundle::is_sealed(&start[..read]) {
            let limits = bundle::Limits::default();
            bundle::unseal_into(file, std::io::sink(), &passphrase, &limits)
                .unwrap_err()
                .code()
        } else {
            Reader::default().read(file).unwrap_err().code()
        }
    });
    let fine = cost.wall < 5.0 && peak() < 256.0;
    let Cost { wall, cpu } = cost;
    let more = if fine { "" } else { ", TOO MUCH" };
    println!(
        "| {cpu:.2} s | {wall:.2} s | {:.0} MiB | {code}{more} |",
        peak()
    );
}

fn main() {
    let args: Vec<String> = std::env::args().collect();
    let folder = args.get(2).map(PathBuf::from).unwrap_or_default();
    match args.get(1).map(String::as_str) {
        Some("make") => return make(&folder, args[3].parse().unwrap()),
        Some("export") => return export(&folder),
        Some("compress") => return read_and_compress(&folder),
        Some("look") => return look(&folder),
        Some("take-in") => return take_in(&folder),
        Some("app") => return through_the_app(&folder),
        Some("parts") => return parts(&folder),
        Some("journal") => return bare_insert(&folder, &JOURNAL, "bare insert, journal alone"),
        Some("all") => return bare_insert(&folder, &ALL, "bare insert, all rows"),
        Some("refuse") => return refuse(&folder),
        _ => {}
    }
    let jobs = args.get(1).map_or("2000", String::as_str);
    let folder = tempfile::tempdir().unwrap();
    let own = std::env::current_exe().unwrap();
    let run = |what: &str, path: &Path| {
        let done = Command::new(&own).arg(what).arg(path).arg(jobs).status();
        assert!(done.unwrap().success(), "{what}");
    };
    println!("| Step | Processor | Time | Peak | |\n|---|---|---|---|---|");
    for step in [
        "make", "export", "compress", "look", "take-in", "app", "parts", "journal", "all",
    ] {
        run(step, folder.path());
    }
    println!("\n| File | Processor | Time | Peak | Code |\n|---|---|---|---|---|");
    for (what, path) in hostile_files(folder.path()) {
        print!("| {what} ");
        std::io::stdout().flush().unwrap();
        run("refuse", &path);
    }
}
