//! Making the rest fit a change, with a key that anybody could have.

use std::collections::BTreeMap;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use journal::DeviceKey;
use serde_json::{Value, json};

use crate::Member;
use crate::change::{parsed, split};

/// Anybody's.
fn key() -> DeviceKey {
    DeviceKey::from_secret(&[5; 32])
}

fn hex(bytes: &[u8]) -> String {
    blake3::hash(bytes).to_hex().to_string()
}

fn find<'a>(members: &'a mut [Member], name: &str) -> Option<&'a mut Member> {
    members.iter_mut().find(|member| member.name == name)
}

/// Each line that is JSON goes through `with` and is written canonically; others stay as they are.
fn each_line(member: &mut Member, mut with: impl FnMut(&mut Value)) {
    let lines = split(&member.bytes).into_iter().map(|line| {
        let Some(mut value) = parsed(&line) else {
            return line;
        };
        with(&mut value);
        let mut written = value.to_string().into_bytes();
        written.push(b'\n');
        written
    });
    member.bytes = lines.collect::<Vec<_>>().concat();
}

/// Hashes of bodies and attachments, of envelopes, and every commit signed anew.
pub fn authors(members: &mut [Member]) {
    // What a hash was, and what it is now.
    let mut now: BTreeMap<String, String> = BTreeMap::new();
    let mut attached = BTreeMap::new();
    for member in members.iter_mut() {
        if let Some(was) = member.name.strip_prefix("attachments/") {
            let is = hex(&member.bytes);
            attached.insert(was.to_owned(), is.clone());
            member.name = format!("attachments/{is}");
        }
    }
    if let Some(bodies) = find(members, "bodies.ndjson") {
        each_line(bodies, |line| body(line, &attached, &mut now));
    }
    let Some(records) = find(members, "records.ndjson") else {
        return;
    };
    let key = key();
    let mut envelopes = BTreeMap::new();
    each_line(records, |line| {
        let Some(record) = line.get_mut("record") else {
            return;
        };
        if let Some(is) = record["body_hash"].as_str().and_then(|was| now.get(was)) {
            let is = is.clone();
            set(record, "body_hash", is);
        }
        set(record, "device", key.device().to_string());
        envelopes.insert(record["id"].to_string(), hex(record.to_string().as_bytes()));
    });
    each_line(records, |line| {
        if let Some(commit) = line.get_mut("commit") {
            sign(commit, &envelopes, &key);
        }
    });
}

fn body(line: &mut Value, attached: &BTreeMap<String, String>, now: &mut BTreeMap<String, String>) {
    if let Some(text) = line["text"].as_str() {
        let mut text = text.to_owned();
        for (was, is) in attached {
            text = text.replace(was, is);
        }
        set(line, "text", text);
    }
    let bytes = match (line["text"].as_str(), line["base64"].as_str()) {
        (Some(text), _) => text.as_bytes().to_vec(),
        (_, Some(coded)) => STANDARD.decode(coded).unwrap_or_default(),
        _ => return,
    };
    let is = hex(&bytes);
    if let Some(was) = line["hash"].as_str() {
        now.insert(was.to_owned(), is.clone());
    }
    set(line, "hash", is);
}

fn sign(commit: &mut Value, envelopes: &BTreeMap<String, String>, key: &DeviceKey) {
    for listed in commit["records"].as_array_mut().into_iter().flatten() {
        let is = envelopes.get(&listed[0].to_string()).cloned();
        if let (Some(is), Some(hash)) = (is, listed.get_mut(1)) {
            *hash = is.into();
        }
    }
    set(commit, "device", key.device().to_string());
    set(commit, "public_key", key.public().to_string());
    if let Some(keys) = commit.as_object_mut() {
        keys.remove("signature");
        let message = format!("valvewright commit 1\n{}", Value::Object(keys.clone()));
        keys.insert(
            "signature".into(),
            key.sign(message.as_bytes()).to_string().into(),
        );
    }
}

/// Manifest and signature, with all that the archive holds counted.
pub fn courier(members: &mut [Member]) {
    let key = key();
    let mut counts: BTreeMap<&str, u64> = [("bodies", 0), ("commits", 0), ("records", 0)].into();
    let mut listed = BTreeMap::new();
    for Member { name, bytes } in members.iter() {
        if ["manifest.json", "signature.json"].contains(&name.as_str()) {
            continue;
        }
        for line in split(bytes).iter().filter_map(|line| parsed(line)) {
            let what = ["hash", "commit", "record"]
                .into_iter()
                .find(|key| line.get(key).is_some());
            match what {
                Some("hash") => *counts.entry("bodies").or_default() += 1,
                Some("commit") => *counts.entry("commits").or_default() += 1,
                Some(_) => *counts.entry("records").or_default() += 1,
                None => {}
            }
        }
        listed.insert(name, json!({ "blake3": hex(bytes), "bytes": bytes.len() }));
    }
    let (counts, listed) = (json!(counts), json!(listed));
    let Some(manifest) = find(members, "manifest.json") else {
        return;
    };
    if let Some(mut said) = parsed(&manifest.bytes).filter(Value::is_object) {
        set(&mut said, "counts", counts);
        set(&mut said, "members", listed);
        set(&mut said, "device", key.device().to_string());
        manifest.bytes = said.to_string().into_bytes();
    }
    let signature = key.sign(&[b"valvewright bundle 1\n", &manifest.bytes[..]].concat());
    let seal =
        json!({ "public_key": key.public().to_string(), "signature": signature.to_string() });
    if let Some(member) = find(members, "signature.json") {
        member.bytes = seal.to_string().into_bytes();
    }
}

/// Sets a key of an object; of anything else nothing.
fn set(value: &mut Value, key: &str, to: impl Into<Value>) {
    if let Some(keys) = value.as_object_mut() {
        keys.insert(key.into(), to.into());
    }
}
