//! A bundle sealed with a passphrase: who opens it, who doesn't, and what that does to a store.

use crate::common::{Bench, start};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};

const WORDS: &str = "quiet otter brass";

fn empty() -> Bench {
    let folder = tempfile::tempdir().unwrap();
    Bench {
        app: start(folder.path().join("shop.db"), false),
        folder,
    }
}

fn digest(bench: &Bench) -> Value {
    bench.ok("store.check", json!({}))["digest"].clone()
}

/// The bytes of the whole shop, sealed.
fn sealed_shop(bench: &Bench) -> Vec<u8> {
    let made = bench.ok(
        "bundle.make",
        json!({ "personal": true, "passphrase": WORDS }),
    );
    assert_eq!(made["sealed"], true);
    let piece = bench.ok("file.read", json!({ "file": made["file"], "from": 0 }));
    STANDARD.decode(piece["base64"].as_str().unwrap()).unwrap()
}

fn carry_in(bench: &Bench, bytes: &[u8]) -> Value {
    let file = bench.ok("file.begin", json!({ "name": "shop.vvb" }))["file"].clone();
    bench.ok(
        "file.add",
        json!({ "file": file, "base64": STANDARD.encode(bytes) }),
    );
    file
}

fn unseal(bench: &Bench, file: &Value, words: &str) -> Value {
    bench.call("file.unseal", json!({ "file": file, "passphrase": words }))
}

#[test]
fn it_asks_for_its_passphrase_refuses_another_and_opens_to_its_own() {
    let bench = Bench::with_demo();
    let sealed = sealed_shop(&bench);
    let other = empty();
    let before = digest(&other);
    let file = carry_in(&other, &sealed);
    for command in ["bundle.look", "bundle.take_in"] {
        let asked = other.error(command, json!({ "file": file }));
        assert_eq!(asked["code"], "bundle_sealed");
        assert_eq!(asked["params"]["name"], "shop.vvb");
    }
    for wrong in ["quiet otter glass", ""] {
        let error = unseal(&other, &file, wrong)["error"].clone();
        assert_eq!(error["code"], "wrong_passphrase");
        assert!(!error.to_string().contains("glass"), "{error}");
    }
    // It is still there, and as another keyboard would write it the passphrase fits.
    let held = unseal(&other, &file, " \u{ff51}uiet otter brass ");
    assert_eq!(held["ok"]["file"], file, "{held}");
    let plan = other.ok("bundle.look", json!({ "file": file }));
    assert_eq!(plan["made_by"], "Marta Oyelaran");
    assert_eq!(digest(&other), before);
    other.take_in(&file);
    assert_eq!(digest(&other), digest(&bench));
    // What was opened went with the handle.
    assert_eq!(unseal(&other, &file, WORDS)["error"]["code"], "not_found");
}

#[test]
fn cut_short_altered_or_too_costly_it_is_told_and_changes_nothing() {
    let bench = Bench::with_demo();
    let sealed = sealed_shop(&bench);
    let other = empty();
    let before = digest(&other);
    let tried = |bytes: &[u8]| {
        let file = carry_in(&other, bytes);
        let answer = unseal(&other, &file, WORDS);
        // Nothing of it may be left to look at either.
        let looked = other.error("bundle.look", json!({ "file": file }));
        assert_ne!(looked["code"], "internal");
        assert_eq!(digest(&other), before);
        answer["error"]["code"].as_str().unwrap().to_owned()
    };
    let flipped = |at: usize| {
        let mut changed = sealed.clone();
        changed[at] ^= 0x01;
        changed
    };
    let work = sealed.windows(4).position(|at| at == b" 16\n").unwrap() + 2;
    let mut costly = sealed.clone();
    costly[work] = b'8';

    assert_eq!(tried(&sealed[..40]), "seal_broken");
    assert_eq!(tried(&sealed[..sealed.len() / 2]), "seal_broken");
    assert_eq!(tried(&sealed[..sealed.len() - 1]), "seal_broken");
    assert_eq!(tried(&flipped(sealed.len() / 2)), "seal_broken");
    assert_eq!(tried(&flipped(sealed.len() - 1)), "seal_broken");
    assert_eq!(tried(&costly), "seal_too_costly");
    assert_eq!(tried(b"a shopping list"), "not_a_bundle");
}

#[test]
fn what_is_inside_is_checked_like_any_other_file() {
    use bundle::{Passphrase, SecretString, seal};
    let other = empty();
    let before = digest(&other);
    let words = Passphrase::new(&SecretString::from(WORDS));
    let file = carry_in(&other, &seal(b"a shopping list", &words).unwrap());
    assert!(unseal(&other, &file, WORDS).get("ok").is_some());
    for command in ["bundle.look", "bundle.take_in"] {
        let error = other.error(command, json!({ "file": file }));
        assert_eq!(error["code"], "not_a_bundle");
    }
    assert_eq!(digest(&other), before);
}

#[test]
fn a_short_passphrase_seals_nothing_and_none_is_ever_quoted() {
    let bench = Bench::with_demo();
    let before = digest(&bench);
    for short in ["", "          ", " seven77 "] {
        let error = bench.error("bundle.make", json!({ "passphrase": short }));
        assert_eq!(error["code"], "short_passphrase");
        assert_eq!(error["field"], "passphrase");
        assert_eq!(error["params"], json!({ "least": "8" }));
    }
    for odd in [
        json!(271_828_182),
        json!(["otter"]),
        json!({ "otter": 1 }),
        json!(1.5),
    ] {
        let make = bench.error("bundle.make", json!({ "passphrase": odd }));
        let open = bench.error("file.unseal", json!({ "file": 1, "passphrase": odd }));
        for error in [make, open] {
            assert_eq!(error["code"], "bad_request");
            let text = error.to_string();
            assert!(!text.contains("otter") && !text.contains("2718"), "{text}");
        }
    }
    assert_eq!(bench.ok("bundle.make", json!({}))["sealed"], false);
    assert_eq!(digest(&bench), before);
}

#[test]
fn what_was_made_here_is_only_given_out_as_it_was_made() {
    let bench = Bench::with_demo();
    let made = bench.ok("bundle.make", json!({ "passphrase": WORDS }));
    let answer = unseal(&bench, &made["file"], WORDS);
    assert_eq!(answer["error"]["code"], "not_found");
}
