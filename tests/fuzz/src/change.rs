//! One change to what a bundle holds.

use serde_json::Value;

use crate::{Draw, Member, blindly};

/// What readers tend to stumble over, as JSON.
const ODD: [&str; 20] = [
    "null",
    "true",
    "0",
    "-1",
    "-0.0",
    "1e308",
    "0.5",
    "4294967295",
    "4294967296",
    "9007199254740991",
    "9007199254740992",
    "18446744073709551615",
    "[]",
    "{}",
    "\"\"",
    "\"void\"",
    "\"undo\"",
    "\"../../x\"",
    "\"\\u0000\"",
    "[[[[[[[[[[[[[[[[0]]]]]]]]]]]]]]]]",
];

/// Makes one change, somewhere.
pub fn some(members: &mut Vec<Member>, draw: &mut Draw) {
    let Some(place) = (!members.is_empty()).then(|| draw.below(members.len())) else {
        return;
    };
    match draw.below(16) {
        0 => drop(members.remove(place)),
        1 => members.push(members[place].clone()),
        2 => {
            let other = draw.below(members.len());
            members.swap(place, other);
        }
        3 => {
            let mut name = std::mem::take(&mut members[place].name).into_bytes();
            blindly(&mut name);
            members[place].name = String::from_utf8_lossy(&name).into_owned();
        }
        4 | 5 => blindly(&mut members[place].bytes),
        6..=8 => lines(&mut members[place].bytes, draw),
        _ => values(&mut members[place].bytes, draw),
    }
}

/// A line is dropped, doubled, moved or changed blindly.
fn lines(bytes: &mut Vec<u8>, draw: &mut Draw) {
    let mut all: Vec<Vec<u8>> = split(bytes);
    if all.is_empty() {
        return;
    }
    let (one, other) = (draw.below(all.len()), draw.below(all.len()));
    match draw.below(4) {
        0 => drop(all.remove(one)),
        1 => all.insert(other, all[one].clone()),
        2 => all.swap(one, other),
        _ => blindly(&mut all[one]),
    }
    *bytes = all.concat();
}

/// One value of one line becomes another's, an odd one, or is changed blindly.
fn values(bytes: &mut Vec<u8>, draw: &mut Draw) {
    let mut all = split(bytes);
    if all.is_empty() {
        return;
    }
    let (one, other) = (draw.below(all.len()), draw.below(all.len()));
    let Some(mut there) = parsed(&all[one]) else {
        return blindly(&mut all[one]);
    };
    let lent = match draw.below(3) {
        0 => serde_json::from_str(ODD[draw.below(ODD.len())]).ok(),
        1 => parsed(&all[other]).and_then(|mut from| {
            let mut leaves = leaves(&mut from);
            let which = draw.below(leaves.len());
            leaves.get_mut(which).map(|leaf| leaf.take())
        }),
        _ => None,
    };
    {
        let mut leaves = leaves(&mut there);
        let which = draw.below(leaves.len());
        if let Some(leaf) = leaves.get_mut(which) {
            match (lent, &mut **leaf) {
                (Some(lent), leaf) => *leaf = lent,
                (None, Value::String(text)) => {
                    let mut raw = std::mem::take(text).into_bytes();
                    blindly(&mut raw);
                    *text = String::from_utf8_lossy(&raw).into_owned();
                }
                (None, leaf) => {
                    let mut raw = leaf.to_string().into_bytes();
                    blindly(&mut raw);
                    if let Ok(changed) = serde_json::from_slice(&raw) {
                        *leaf = changed;
                    }
                }
            }
        }
    }
    let ended = all[one].ends_with(b"\n");
    all[one] = there.to_string().into_bytes();
    if ended {
        all[one].push(b'\n');
    }
    *bytes = all.concat();
}

/// Lines, each with its line feed.
pub fn split(bytes: &[u8]) -> Vec<Vec<u8>> {
    bytes
        .split_inclusive(|&byte| byte == b'\n')
        .map(<[u8]>::to_vec)
        .collect()
}

/// A line's JSON, if it is any.
pub fn parsed(line: &[u8]) -> Option<Value> {
    serde_json::from_slice(line).ok()
}

/// Every value that holds no other one.
fn leaves(value: &mut Value) -> Vec<&mut Value> {
    match value {
        Value::Array(items) => items.iter_mut().flat_map(leaves).collect(),
        Value::Object(keys) => keys.values_mut().flat_map(leaves).collect(),
        leaf => vec![leaf],
    }
}
