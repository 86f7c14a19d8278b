#!/usr/bin/env python3
"""Reads a bundle as FORMAT.md describes it, and by nothing else: Python's standard library, and
BLAKE3, Ed25519 and age written anew beside this file.

    read_bundle.py [--passphrase TEXT] [--json] FILE...

says of each file what it holds, or the code by which it is refused. Ends with 1 if one was."""

import argparse
import base64
import io
import json
import pathlib
import re
import struct
import sys
import zipfile
import zlib

from age_seal import INTRO, Unopened, unseal
from blake3 import blake3
from ed25519 import verifies
from json_schema import fault

HERE = pathlib.Path(__file__).parent
FORMAT = 2
MIB = 1 << 20
FILE_BYTES, MEMBERS, DIRECTORY_BYTES = 4095 * MIB, 65_000, 16 * MIB
MEMBER_BYTES, TOTAL_BYTES, MANIFEST_BYTES = 1024 * MIB, 6144 * MIB, 16 * MIB
ATTACHMENT_BYTES, RECORD_COUNT = 16 * MIB, 1_000_000
RATIO, RATIO_FREE, LINE_BYTES, DEPTH, NAME_BYTES = 100, 1 << 16, 4 * MIB, 16, 255
RECORDS, BODIES, MANIFEST, SIGNATURE = (
    "records.ndjson", "bodies.ndjson", "manifest.json", "signature.json",
)
ATTACHMENTS = "attachments/"
HASH = re.compile("[0-9a-f]{64}")


class Refused(Exception):
    """A file that is no acceptable bundle, by a code of FORMAT.md."""

    def __init__(self, code, detail=""):
        super().__init__(f"{code}: {detail}" if detail else code)
        self.code = code


def schema(name):
    return json.loads((HERE / "schemas" / f"{name}.schema.json").read_text("utf-8"))


SCHEMAS = {name: schema(name) for name in ("manifest", "signature", "record-line", "body-line")}


# The container ---------------------------------------------------------------------------------


def end_record(file):
    """How many members there are, before anything makes room for them."""
    if file.startswith(INTRO):
        raise Refused("sealed")
    if not file.startswith(b"PK\x03\x04"):
        raise Refused("not_a_bundle")
    if len(file) < 22 or file[-22:-18] != b"PK\x05\x06":
        raise Refused("truncated")
    _, _, here, members, length, start, comment = struct.unpack("<HHHHIIH", file[-18:])
    zip64 = file[-42:-38] == b"PK\x06\x07"
    if zip64 or members == 0xFFFF or 0xFFFFFFFF in (length, start):
        raise Refused("too_large", "members")
    if here != members or start + length != len(file) - 22 or comment:
        raise Refused("changed", "directory")
    if members > MEMBERS or length > DIRECTORY_BYTES:
        raise Refused("too_large", "members")
    # The library takes an entry that ends beyond the directory for one that ends with it.
    at = start
    for _ in range(members):
        if at + 46 > len(file) - 22:
            raise Refused("changed", "directory")
        at += 46 + sum(struct.unpack("<HHH", file[at + 28 : at + 34]))
    if at != len(file) - 22:
        raise Refused("changed", "directory")
    return members


def contents(file):
    """The archive's members: name to (compressed length, claimed length, where the data begins,
    method). Looks at the directory only, and at each member's own header."""
    if len(file) > FILE_BYTES:
        raise Refused("too_large", "file")
    count = end_record(file)
    try:
        archive = zipfile.ZipFile(io.BytesIO(file))
        infos = archive.infolist()
    except (zipfile.BadZipFile, zipfile.LargeZipFile, NotImplementedError, ValueError) as error:
        raise Refused("changed", f"directory: {error}") from error
    if len(infos) != count or len({info.orig_filename for info in infos}) != count:
        raise Refused("unexpected_member", "one is there twice")
    spans, found, total = [], {}, 0
    for info in infos:
        header = file[info.header_offset : info.header_offset + 30]
        if len(header) < 30 or not header.startswith(b"PK\x03\x04"):
            raise Refused("changed", "directory")
        names, extra = struct.unpack("<HH", header[26:30])
        data = info.header_offset + 30 + names + extra
        spans.append((info.header_offset, data + info.compress_size))
        name = info.orig_filename
        attachment = name.startswith(ATTACHMENTS)
        methods = (0,) if attachment else (0, 8)
        plain = info.compress_type in methods and not info.flag_bits & 1 and not name.endswith("/")
        if not plain or len(name.encode("utf-8", "replace")) > NAME_BYTES:
            raise Refused("unexpected_member", ascii(name)[:80])
        total += info.file_size
        most = info.compress_size * RATIO + RATIO_FREE
        most = min(most, ATTACHMENT_BYTES if attachment else MEMBER_BYTES)
        if info.file_size > most or total > TOTAL_BYTES:
            raise Refused("too_large", ascii(name)[:80])
        found[name] = info, data
    spans.append((len(file) - 22 - struct.unpack("<I", file[-10:-6])[0], len(file)))
    spans.sort()
    if any(one[1] > other[0] for one, other in zip(spans, spans[1:])):
        raise Refused("unexpected_member", "one overlaps another")
    return found


def inflate(file, members, name):
    """A member's bytes. The lengths in the directory were claims only, so all is counted."""
    if name not in members:
        raise Refused("missing_member", name)
    info, start = members[name]
    if name in (MANIFEST, SIGNATURE) and info.file_size > MANIFEST_BYTES:
        raise Refused("too_large", name)
    packed = file[start : start + info.compress_size]
    try:
        if info.compress_type == 0:
            data = packed
        else:
            inflater = zlib.decompressobj(-15)
            data = inflater.decompress(packed, info.file_size + 1)
            if not inflater.eof or inflater.unused_data:
                data = None
    except zlib.error as error:
        raise Refused("changed", name) from error
    if data is None or len(data) != info.file_size or zlib.crc32(data) != info.CRC:
        raise Refused("changed", name)
    return data


# JSON ------------------------------------------------------------------------------------------


def depth(data):
    """Nesting by brackets outside strings, told before anything is parsed."""
    now = deepest = 0
    in_string = escaped = False
    for byte in data:
        if escaped:
            escaped = False
        elif in_string:
            escaped = byte == 0x5C
            in_string = byte != 0x22
        elif byte == 0x22:
            in_string = True
        elif byte in b"{[":
            now += 1
            deepest = max(deepest, now)
        elif byte in b"}]":
            now = max(0, now - 1)
    return deepest


def parse(data, where):
    def once(pairs):
        if len(dict(pairs)) != len(pairs):
            raise ValueError("a key is there twice")
        return dict(pairs)

    def number(text):
        raise ValueError(f"{text} is not JSON")

    if depth(data) > DEPTH:
        raise Refused("too_large", "depth")
    try:
        text = data.decode("utf-8")
        value = json.loads(text, object_pairs_hook=once, parse_constant=number)
        text.encode("utf-8")
        json.dumps(value, ensure_ascii=False).encode("utf-8")
        return value
    except ValueError as error:
        raise Refused("malformed", f"{where}: {error}") from error


def fits(value, name, where):
    if found := fault(value, SCHEMAS[name]):
        raise Refused("malformed", f"{where}: {found}")


def canonical(value):
    return json.dumps(value, separators=(",", ":"), sort_keys=True, ensure_ascii=False).encode()


def lines(data, name):
    rows = data.split(b"\n")
    if rows.pop() != b"":
        raise Refused("malformed", f"{name}: no line feed at its end")
    for number, row in enumerate(rows, 1):
        where = f"{name}, line {number}"
        if len(row) + 1 > LINE_BYTES:
            raise Refused("too_large", where)
        yield where, row, parse(row, where)


# The bundle ------------------------------------------------------------------------------------


def is_personal(body):
    head = body[:38]
    return (
        len(head) == 38
        and head.startswith(b"salt:")
        and head.endswith(b"\n")
        and all(byte in b"0123456789abcdef" for byte in head[5:37])
    )


def check_commit(commit):
    """Device and key belong together, and the signature covers all but itself."""
    key = bytes.fromhex(commit["public_key"])
    if commit["device"] != blake3(key).hex() or (commit["action"] == "edit") != (
        commit["of"] is None
    ):
        raise Refused("malformed", f"commit {commit['id']}")
    unsigned = {name: value for name, value in commit.items() if name != "signature"}
    message = b"valvewright commit 1\n" + canonical(unsigned)
    if not verifies(key, message, bytes.fromhex(commit["signature"])):
        raise Refused("bad_commit_signature", commit["id"])


def read(file, passphrase=None):
    """Everything that the bundle holds, believed; or `Refused`."""
    if passphrase is not None and file.startswith(INTRO):
        try:
            file = unseal(file, passphrase)
        except Unopened as error:
            raise Refused(str(error)) from error
        if file.startswith(INTRO):
            raise Refused("not_a_bundle")
    members = contents(file)
    manifest_bytes = inflate(file, members, MANIFEST)
    manifest = parse(manifest_bytes, MANIFEST)
    version = manifest.get("format") if isinstance(manifest, dict) else None
    if isinstance(version, bool) or not isinstance(version, int) or not 0 <= version < 2**64:
        raise Refused("malformed", "format")
    if version > FORMAT:
        raise Refused("newer_format", str(version))
    fits(manifest, "manifest", MANIFEST)
    strays = members.keys() - {RECORDS, BODIES, MANIFEST, SIGNATURE}
    if version > 1:
        strays -= manifest["members"].keys()
    if strays:
        raise Refused("unexpected_member", ascii(min(strays))[:80])

    signature = parse(inflate(file, members, SIGNATURE), SIGNATURE)
    fits(signature, "signature", SIGNATURE)
    key = bytes.fromhex(signature["public_key"])
    message = b"valvewright bundle 1\n" + manifest_bytes
    if blake3(key).hex() != manifest["device"] or not verifies(
        key, message, bytes.fromhex(signature["signature"])
    ):
        raise Refused("bad_signature")

    attachments = attachments_listed(manifest, members)
    commits, records, listed, bodies = {}, {}, set(), {}
    for where, row, value in lines(declared(file, members, manifest, RECORDS), RECORDS):
        fits(value, "record-line", where)
        # Canonical as a whole: no other spelling has the hash that was signed.
        if canonical(value) != row:
            raise Refused("malformed", f"{where}: not canonical")
        if "commit" in value:
            commits[row] = value["commit"]
        else:
            record = value["record"]
            replaced = record["supersedes"]
            void = record["kind"] == "void" and len(replaced) != 1
            if replaced != sorted(set(replaced)) or void:
                raise Refused("malformed", f"{where}: supersedes")
            records[blake3(canonical(record)).hex()] = record
    for commit in commits.values():
        check_commit(commit)
        listed.update((commit["device"], id, hash) for id, hash in commit["records"])
    for where, _, value in lines(declared(file, members, manifest, BODIES), BODIES):
        fits(value, "body-line", where)
        try:
            body = (
                value["text"].encode("utf-8")
                if "text" in value
                else base64.b64decode(value["base64"], validate=True)
            )
        except ValueError as error:
            raise Refused("malformed", where) from error
        if blake3(body).hex() != value["hash"]:
            raise Refused("malformed", f"{where}: another hash")
        bodies[value["hash"]] = body
    counts = {"bodies": len(bodies), "commits": len(commits), "records": len(records)}
    if max(len(commits), len(records), len(listed)) > RECORD_COUNT:
        raise Refused("too_large", "records")
    if manifest["counts"] != counts:
        raise Refused("malformed", "the manifest doesn't describe the bundle")
    for hash, record in records.items():
        if (record["device"], record["id"], hash) not in listed:
            raise Refused("unsigned_record", record["id"])
    wanted = {record["body_hash"] for record in records.values()}
    if bodies.keys() - wanted:
        raise Refused("stray_body", min(bodies.keys() - wanted))
    named = set()
    for body in bodies.values():
        named.update(hashes(body[38:] if is_personal(body) else body))
    if strays := attachments.keys() - named:
        raise Refused("stray_attachment", min(strays))
    return {
        "attachments": {
            hash: declared(file, members, manifest, ATTACHMENTS + hash) for hash in attachments
        },
        "manifest": manifest,
        "commits": list(commits.values()),
        "records": list(records.values()),
        "bodies": bodies,
        "withheld": sum(record["body_hash"] not in bodies for record in records.values()),
        "personal": sum(map(is_personal, bodies.values())),
    }


def attachments_listed(manifest, members):
    """The attachments that the manifest lists, with their lengths."""
    found = {}
    for name, info in manifest["members"].items():
        if name in (RECORDS, BODIES):
            continue
        hash = name.removeprefix(ATTACHMENTS)
        exact = name.startswith(ATTACHMENTS) and HASH.fullmatch(hash) and info["blake3"] == hash
        if manifest["format"] < 2 or not exact:
            raise Refused("malformed", "the manifest doesn't describe the bundle")
        if info["bytes"] > ATTACHMENT_BYTES:
            raise Refused("too_large", name)
        if name not in members:
            raise Refused("missing_member", name)
        found[hash] = info["bytes"]
    return found


def hashes(content):
    """All that stands between two quotation marks and may be the name of an attachment."""
    parts = content.split(b'"')[1:-1]
    texts = (part.decode("ascii", "replace") for part in parts if len(part) == 64)
    return {text for text in texts if HASH.fullmatch(text)}


def declared(file, members, manifest, name):
    """A member, compared with what the manifest says of it."""
    info = manifest["members"].get(name)
    if info is None:
        raise Refused("missing_member", name)
    data = inflate(file, members, name)
    if len(data) != info["bytes"] or blake3(data).hex() != info["blake3"]:
        raise Refused("changed", name)
    return data


def main():
    options = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    options.add_argument("--passphrase")
    options.add_argument("--json", action="store_true", help="one JSON object for each file")
    options.add_argument("files", nargs="+", type=pathlib.Path)
    wanted = options.parse_args()
    refused = 0
    for path in wanted.files:
        try:
            found = read(path.read_bytes(), wanted.passphrase)
            answer = {"counts": found["manifest"]["counts"], "withheld": found["withheld"]}
        except Refused as error:
            refused += 1
            answer = {"code": error.code, "detail": str(error)}
        if wanted.json:
            print(json.dumps({"file": path.name, **answer}))
        else:
            print(f"{path.name}: {answer.get('detail') or answer}")
    return 1 if refused else 0


if __name__ == "__main__":
    sys.exit(main())
