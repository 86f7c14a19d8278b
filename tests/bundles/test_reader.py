#!/usr/bin/env python3
"""The independent reader, checked against published points, the demo shop and changed copies."""

import io
import json
import pathlib
import random
import sys
import unittest
import zipfile

from age_seal import Unopened, unseal
from blake3 import blake3
from ed25519 import verifies
from json_schema import fault
from read_bundle import (
    BODIES, MANIFEST, RECORDS, SCHEMAS, SIGNATURE, Refused, is_personal, read, schema,
)

ROOT = pathlib.Path(__file__).parents[2]
DEMO = (ROOT / "demo-db" / "demo-shop.vvb").read_bytes()
FIXTURES = ROOT / "src-tauri" / "crates" / "bundle" / "tests" / "fixtures"
JS = (FIXTURES / "sealed-by-age-encryption-js-0.3.1.vvb").read_bytes()
GO = (FIXTURES / "sealed-by-age-go-1.1.1.vvb").read_bytes()
WORDS = "Ölfilm dünn wie Papier"
BODY_FORMS = schema("bodies")
WITHOUT_A_DEMO = {"photo", "erasure", "inspection", "inspection_plan", "removal"}


def code(file, passphrase=None):
    try:
        read(file, passphrase)
    except Refused as error:
        return error.code
    return None


def members(file):
    with zipfile.ZipFile(io.BytesIO(file)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def packed(parts):
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for name, data in parts.items():
            archive.writestr(name, data)
    return out.getvalue()


class Primitives(unittest.TestCase):
    def test_blake3_of_the_published_vectors(self):
        # test_vectors.json of the BLAKE3 reference: byte n of the input is n modulo 251.
        for length, expected in {
            0: "af1349b9f5f9a1a6a0404dea36dcc9499bcb25c9adc112b7cc9a93cae41f3262",
            1: "2d3adedff11b61f14c886e35afa036736dcd87a74d27b5c1510225d0f592e213",
        }.items():
            self.assertEqual(blake3(bytes(n % 251 for n in range(length))).hex(), expected)

    def test_ed25519_of_rfc_8032(self):
        # Section 7.1, tests 1 to 3: key, message, signature.
        for key, message, signature in (
            (
                "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
                "",
                "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e06522490155"
                "5fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
            ),
            (
                "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
                "72",
                "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da"
                "085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
            ),
            (
                "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
                "af82",
                "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac"
                "18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
            ),
        ):
            key, message, signature = map(bytes.fromhex, (key, message, signature))
            self.assertTrue(verifies(key, message, signature))
            self.assertFalse(verifies(key, message + b"!", signature))
            # S + L is the same number to a careless reader.
            wide = int.from_bytes(signature[32:], "little") + 2**252
            wide += 27742317777372353535851937790883648493
            self.assertFalse(verifies(key, message, signature[:32] + wide.to_bytes(32, "little")))

    def test_a_key_of_small_order_verifies_nothing(self):
        one = b"\1" + b"\0" * 31
        self.assertFalse(verifies(one, b"anything", one + b"\0" * 32))

    def test_a_schema_refuses_what_it_does_not_allow(self):
        record = {"type": "object", "properties": {"n": {"type": "integer", "maximum": 3}},
                  "required": ["n"], "additionalProperties": False}
        self.assertIsNone(fault({"n": 3}, record))
        for bad in ({}, {"n": 4}, {"n": True}, {"n": 1.0}, {"n": 1, "m": 1}, [], None):
            self.assertIsNotNone(fault(bad, record), bad)
        with self.assertRaises(KeyError):
            fault(1, {"multipleOf": 2})


class Demo(unittest.TestCase):
    def test_it_is_read_and_holds_what_it_says(self):
        found = read(DEMO)
        self.assertGreater(len(found["records"]), 100)
        self.assertGreater(found["personal"], 0)
        self.assertEqual(found["withheld"], 0)
        kinds = {record["kind"] for record in found["records"]}
        self.assertTrue({"job", "test.reading", "repair"} <= kinds, kinds)

    def test_no_changed_byte_of_a_member_is_taken(self):
        parts = members(DEMO)
        draw = random.Random(20)
        for name, data in parts.items():
            for _ in range(4):
                at = draw.randrange(len(data))
                changed = bytearray(data)
                changed[at] ^= 1 << draw.randrange(8)
                found = code(packed({**parts, name: bytes(changed)}))
                self.assertIsNotNone(found, f"{name} at {at}")

    def test_no_changed_byte_of_the_file_changes_what_is_read(self):
        whole, draw = read(DEMO), random.Random(21)
        for _ in range(12):
            changed = bytearray(DEMO)
            changed[draw.randrange(len(DEMO))] ^= 1 << draw.randrange(8)
            try:
                self.assertEqual(read(bytes(changed)), whole)
            except Refused:
                pass

    def test_a_missing_member_and_a_stray_one_are_told(self):
        parts = members(DEMO)
        for name in (RECORDS, BODIES, MANIFEST, SIGNATURE):
            rest = {other: data for other, data in parts.items() if other != name}
            self.assertEqual(code(packed(rest)), "missing_member")
        self.assertEqual(code(packed({**parts, "../x": b""})), "unexpected_member")

    def test_a_member_without_a_name_is_refused(self):
        # Python's own writer makes none; both headers have the name's length and the name.
        file = packed({**members(DEMO), "x": b""})
        at = file.rindex(b"PK\x01\x02")
        self.assertEqual(file[at + 28 : at + 30], b"\x01\x00")
        end = file.index(b"PK\x05\x06")
        size = int.from_bytes(file[end + 12 : end + 16], "little") - 1
        nameless = (
            file[: at + 28] + b"\0\0" + file[at + 30 : at + 46] + file[at + 47 : end + 12]
            + size.to_bytes(4, "little") + file[end + 16 :]
        )
        self.assertIn(code(nameless), {"unexpected_member", "changed"})

    def test_every_line_fits_its_schema_and_a_changed_one_does_not(self):
        for name, schema in ((RECORDS, "record-line"), (BODIES, "body-line")):
            for line in members(DEMO)[name].splitlines():
                value = json.loads(line)
                self.assertIsNone(fault(value, SCHEMAS[schema]))
                for inner in [value] + [v for v in value.values() if isinstance(v, dict)]:
                    inner["more"] = 1
                    self.assertIsNotNone(fault(value, SCHEMAS[schema]))
                    del inner["more"]

    def test_every_body_is_of_the_form_that_is_published_for_its_kind(self):
        found = read(DEMO)
        forms, seen = BODY_FORMS["kinds"], set()
        for record in found["records"]:
            if record["kind"] == "void":
                continue
            form = forms[record["kind"]]
            self.assertLessEqual(record["kind_version"], form["version"])
            body = found["bodies"][record["body_hash"]]
            value = json.loads(body[38:] if is_personal(body) else body)
            where = f"{record['kind']} {record['id']}"
            self.assertIsNone(fault(value, form["body"], BODY_FORMS), where)
            # Nothing of it may be of another type, or a form that allows anything would pass.
            for key in value:
                other = {**value, key: [[]]}
                self.assertIsNotNone(fault(other, form["body"], BODY_FORMS), f"{where}: {key}")
            seen.add(record["kind"])
        # What the demo shop has no record of.
        self.assertEqual(forms.keys() - seen, WITHOUT_A_DEMO)


class Sealed(unittest.TestCase):
    """Files of two other implementations of age."""

    def test_they_open_with_the_passphrase_and_with_no_other(self):
        self.assertEqual(code(JS), "sealed")
        self.assertEqual(code(JS, "Ölfilm dünn wie Luft"), "wrong_passphrase")
        # Typed with a combining mark and white space around it.
        for typed in (WORDS, " O\u0308lfilm dünn wie Papier\t"):
            self.assertEqual(code(JS, typed), None)

    def test_one_that_asks_for_too_much_work_is_refused_before_it_is_done(self):
        self.assertEqual(code(GO, "any words"), "seal_too_costly")

    def test_a_changed_byte_is_told(self):
        for at in (30, 60, 120, 160, len(JS) - 1):
            changed = bytearray(JS)
            changed[at] ^= 1
            with self.assertRaises(Unopened):
                unseal(bytes(changed), WORDS)


if __name__ == "__main__":
    outcome = unittest.main(exit=False, verbosity=2).result
    failed = len(outcome.failures) + len(outcome.errors)
    print(f"test result: {outcome.testsRun - failed} passed; {failed} failed", flush=True)
    sys.exit(1 if failed else 0)
