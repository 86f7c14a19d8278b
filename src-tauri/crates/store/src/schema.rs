//! The migrations, in order. Each stands beside the code of the tables that it makes; a
//! published one is never altered, a later one is added.

use rusqlite_migration::{M, Migrations};

use crate::{import, local, projection, rows, search};

/// Marks the file as ours ("Vwrt").
pub(crate) const APPLICATION_ID: i32 = 0x5677_7274;

const STEPS: &[M<'static>] = &[
    M::up("PRAGMA application_id = 1450668660"),
    M::up(rows::TABLES_1),
    M::up(projection::TABLES_1),
    M::up(search::TABLES_1),
    M::up(local::TABLES_1),
    M::up(import::TABLES_1),
    M::up(STEP_7),
    M::up(STEP_8),
];

/// `erased` is what erasures name, `scrub` holds a row while erased bytes may still be in the file,
/// and `freed` the attachments that erased bodies named, until their files are gone (erase.rs); `naming` is which subjects name which others (projection.rs). The two indices are
/// for values that stand beside each other and for copied keys (settle.rs). The rest is what lists
/// show (summary.rs).
const STEP_7: &str = "
CREATE TABLE erased (
    subject BLOB NOT NULL CHECK (length(subject) = 16),
    kind TEXT NOT NULL,
    erasure BLOB NOT NULL CHECK (length(erasure) = 16),
    PRIMARY KEY (subject, kind, erasure)
) STRICT, WITHOUT ROWID;
CREATE TABLE scrub (
    only INTEGER PRIMARY KEY CHECK (only = 1)
) STRICT;
CREATE TABLE freed (
    hash BLOB PRIMARY KEY CHECK (length(hash) = 32)
) STRICT, WITHOUT ROWID;
CREATE TABLE naming (
    named BLOB NOT NULL CHECK (length(named) = 16),
    subject BLOB NOT NULL CHECK (length(subject) = 16),
    PRIMARY KEY (named, subject)
) STRICT, WITHOUT ROWID;
CREATE INDEX naming_by_subject ON naming (subject);
CREATE INDEX standing_concurrent ON standing (subject, kind) WHERE concurrent = 1;
CREATE INDEX record_by_tick ON record (device, clock_millis, clock_counter);
CREATE TABLE summary (
    seq INTEGER PRIMARY KEY,
    subject BLOB NOT NULL UNIQUE CHECK (length(subject) = 16),
    kind TEXT NOT NULL,
    order_key TEXT NOT NULL,
    at INTEGER,
    number INTEGER,
    within BLOB CHECK (length(within) = 16),
    json TEXT NOT NULL
) STRICT;
CREATE INDEX summary_by_order ON summary (kind, order_key, subject, at, within);
CREATE INDEX summary_by_at ON summary (kind, at) WHERE at IS NOT NULL;
CREATE INDEX summary_by_number ON summary (kind, number) WHERE number IS NOT NULL;
CREATE TABLE facet (
    name TEXT NOT NULL,
    value BLOB NOT NULL,
    summary INTEGER NOT NULL REFERENCES summary (seq),
    PRIMARY KEY (name, value, summary)
) STRICT, WITHOUT ROWID;
CREATE INDEX facet_by_summary ON facet (summary);
CREATE TABLE summary_text (
    seq INTEGER PRIMARY KEY REFERENCES summary (seq),
    text TEXT NOT NULL
) STRICT;
CREATE VIRTUAL TABLE summary_search USING fts5 (
    text, content = 'summary_text', content_rowid = 'seq', tokenize = 'trigram'
);
INSERT INTO summary_search (summary_search, rank) VALUES ('secure-delete', 1);
CREATE TABLE summarised (
    only INTEGER PRIMARY KEY CHECK (only = 1),
    version INTEGER NOT NULL
) STRICT;
CREATE TABLE author (
    device BLOB NOT NULL CHECK (length(device) = 32),
    person BLOB NOT NULL CHECK (length(person) = 16),
    PRIMARY KEY (device, person)
) STRICT, WITHOUT ROWID;
";

/// What is searched is indexed line by line (summary.rs), and nothing twice: the index of every
/// subject's own text is taken away. The next start fills the new one.
const STEP_8: &str = "
DROP TABLE subject_search;
DROP TABLE summary_search;
DROP TABLE summary_text;
CREATE TABLE summary_text (
    seq INTEGER PRIMARY KEY,
    text TEXT NOT NULL
) STRICT;
CREATE VIRTUAL TABLE summary_search USING fts5 (
    text, content = 'summary_text', content_rowid = 'seq', tokenize = 'trigram'
);
INSERT INTO summary_search (summary_search, rank) VALUES ('secure-delete', 1);
DELETE FROM summarised;
";

/// The schema number of a file that has seen every migration.
pub(crate) const KNOWN: i64 = STEPS.len() as i64;

pub(crate) const MIGRATIONS: Migrations<'static> = Migrations::from_slice(STEPS);

#[cfg(test)]
mod tests {
    use super::*;

    /// No program ever left a file at one of the first four; it is carried forward all the same.
    #[test]
    fn a_file_at_any_step_is_carried_forward() {
        for step in 0..usize::try_from(KNOWN).unwrap() {
            let mut connection = rusqlite::Connection::open_in_memory().unwrap();
            MIGRATIONS.to_version(&mut connection, step).unwrap();
            MIGRATIONS.to_latest(&mut connection).unwrap();
            let tables: i64 = connection
                .query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))
                .unwrap();
            let mut fresh = rusqlite::Connection::open_in_memory().unwrap();
            MIGRATIONS.to_latest(&mut fresh).unwrap();
            let of_fresh: i64 = fresh
                .query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))
                .unwrap();
            assert_eq!(tables, of_fresh, "from {step}");
        }
    }

    #[test]
    fn the_migrations_are_sound_and_mark_the_file() {
        MIGRATIONS.validate().unwrap();
        let mut connection = rusqlite::Connection::open_in_memory().unwrap();
        MIGRATIONS.to_latest(&mut connection).unwrap();
        let mark: i32 = connection
            .pragma_query_value(None, "application_id", |row| row.get(0))
            .unwrap();
        assert_eq!(mark, APPLICATION_ID);
    }
}
