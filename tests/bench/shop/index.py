"""The index that lists are searched by, alone: what an edit of one line of a job costs with the
tables of schema 7 (two indexes, a row a subject and a row a job) and of schema 8 (one, a row a
line). `python3 index.py JOBS...`; processor time. Needs SQLite 3.42 or later.
"""

import os
import random
import sqlite3
import sys
import tempfile
import time

MAKES = ["Wendover", "Talvik", "Morrend", "Quellin", "Vostrel", "Ilmere", "Harrowby"]
BODIES = ["saloon", "estate", "van", "pickup", "coupe"]
WHAT = ["Bangs 2-3", "Flares 3-4", "Late into reverse", "Slips in 4th", "Harsh into drive"]
WHEN = ["from 60 °C up", "cold, first five minutes", "towing uphill", "at light throttle"]
BEFORE = ["Oil changed, no better.", "Codes cleared twice.", "Never opened before."]
FOUND = ["Feed low hot at idle, line normal. Body out.", "Oil dark, no debris in the pan."]
SEEN = ["Step in the bore, nail catches.", "Clean, no marks.", "Varnish only; came off."]
LINE_BITS = 16
EDITS = 25


def job(draw, n):
    """The lines of a job, the note fourth, and those of its tests."""
    pick = draw.choice
    lines = [
        f"{n:05d}",
        f"{draw.randint(1998, 2024)} {pick(MAKES)} {pick(BODIES)}",
        f"{pick(WHAT)} {pick(WHEN)}. {pick(BEFORE)}",
        pick(FOUND),
        f"{pick('ABDEJMRS')}. Mirk{pick(['water', 'holme', 'wick', 'garth'])}",
        f"555 {draw.randint(1000, 9999)}",
        f"KV {draw.randint(1000, 9999)}",
    ]
    return lines, [pick(SEEN) for _ in range(6)]


class Index:
    """A table of texts and its trigram index."""

    def __init__(self, db, name):
        self.db, self.name = db, name
        db.executescript(
            f"CREATE TABLE {name} (seq INTEGER PRIMARY KEY, text TEXT NOT NULL);"
            f"CREATE VIRTUAL TABLE {name}_search USING fts5 (text, content = '{name}',"
            " content_rowid = 'seq', tokenize = 'trigram');"
            f"INSERT INTO {name}_search ({name}_search, rank) VALUES ('secure-delete', 1)"
        )

    def put(self, seq, text):
        self.db.execute(f"INSERT INTO {self.name} VALUES (?, ?)", (seq, text))
        self.db.execute(f"INSERT INTO {self.name}_search (rowid, text) VALUES (?, ?)", (seq, text))

    def drop(self, seq, text):
        search = f"{self.name}_search"
        self.db.execute(
            f"INSERT INTO {search} ({search}, rowid, text) VALUES ('delete', ?, ?)", (seq, text)
        )
        self.db.execute(f"DELETE FROM {self.name} WHERE seq = ?", (seq,))


class Schema7:
    def __init__(self, db):
        self.subjects, self.summaries = Index(db, "subject"), Index(db, "summary")

    def texts(self, n, lines, tests):
        yield self.subjects, n << LINE_BITS, "\n".join(lines)
        yield self.summaries, n, "\n".join(lines + tests)

    def add(self, n, lines, tests):
        for index, seq, text in self.texts(n, lines, tests):
            index.put(seq, text)
        for place, text in enumerate(tests, 1):
            self.subjects.put(n << LINE_BITS | place, text)

    def edit(self, n, old, new, tests):
        for before, after in zip(self.texts(n, old, tests), self.texts(n, new, tests)):
            before[0].drop(*before[1:])
            after[0].put(*after[1:])

    def hits(self):
        return self.summaries, "rowid"


class Schema8:
    def __init__(self, db):
        self.db, self.lines = db, Index(db, "line")

    def add(self, n, lines, tests):
        for place, text in enumerate(sorted({*lines, *tests})):
            self.lines.put(n << LINE_BITS | place, text)

    def edit(self, n, old, new, tests):
        first = n << LINE_BITS
        kept = self.db.execute(
            "SELECT text, seq FROM line WHERE seq BETWEEN ? AND ?", (first, first | 65535)
        ).fetchall()
        wanted = {*new, *tests}
        used = {seq for text, seq in kept if text in wanted}
        for text, seq in kept:
            if text not in wanted:
                self.lines.drop(seq, text)
        free = (seq for seq in range(first, first + 65536) if seq not in used)
        for text in wanted - {text for text, _ in kept}:
            self.lines.put(next(free), text)

    def hits(self):
        return self.lines, f"rowid >> {LINE_BITS}"


def measure(schema, jobs, folder):
    path = os.path.join(folder, f"{schema.__name__}-{jobs}.db")
    db = sqlite3.connect(path, isolation_level=None)
    db.executescript(
        "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA secure_delete = 1;"
        "PRAGMA cache_size = -49152"
    )
    kept, draw = schema(db), random.Random(5)
    shop = []
    begun = time.process_time()
    for n in range(jobs):
        if n % 100 == 0:
            db.execute("BEGIN")
        shop.append(job(draw, n))
        kept.add(n + 1, *shop[-1])
        if n % 100 == 99 or n + 1 == jobs:
            db.execute("COMMIT")
    made = time.process_time() - begun
    db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    db.execute("PRAGMA cache_size = -2000")
    edits = []
    for n in range(EDITS):
        at = draw.randrange(jobs)
        old, tests = shop[at]
        new = [*old[:3], f"Note {n}", *old[4:]]
        begun = time.process_time()
        db.execute("BEGIN IMMEDIATE")
        kept.edit(at + 1, old, new, tests)
        db.execute("COMMIT")
        edits.append(time.process_time() - begun)
        shop[at] = (new, tests)
    db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    index, row = kept.hits()
    searches = []
    for _ in range(5):
        begun = time.process_time()
        found = db.execute(
            f"SELECT count(DISTINCT {row}) FROM {index.name}_search WHERE {index.name}_search MATCH ?",
            ('"555"',),
        ).fetchone()[0]
        searches.append(time.process_time() - begun)
    # Each job has a telephone number.
    assert found == jobs, found
    db.close()
    print(
        f"| {schema.__name__} | {jobs} jobs | built in {made:.2f} s"
        f" | edit {1e3 * sorted(edits)[EDITS // 2]:.2f} ms | search {1e3 * min(searches):.2f} ms"
        f" | {os.path.getsize(path) / 1e6:.1f} MB |",
        flush=True,
    )


if __name__ == "__main__":
    assert sqlite3.sqlite_version_info >= (3, 42), sqlite3.sqlite_version
    with tempfile.TemporaryDirectory() as folder:
        for jobs in map(int, sys.argv[1:]):
            for schema in (Schema7, Schema8):
                measure(schema, jobs, folder)
