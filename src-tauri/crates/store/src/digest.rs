//! One hash of all that a store holds in common with others.

use std::fmt;

use rusqlite::{Connection, Row};

use crate::error::StoreError;
use crate::open::Store;
use crate::rows;

/// BLAKE3 of a store's canonical dump, in two parts. Drafts, settings, keys and clocks are in
/// neither.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Digest {
    /// Of commits, records and what stands. Two stores that hold the same records, and are read by
    /// the same program, agree here, however they came by them and whatever bodies are withheld.
    pub journal: [u8; 32],
    /// Of the above, the bodies' hashes, and the subjects' places and texts. Two stores that also
    /// hold the same bodies agree here.
    pub whole: [u8; 32],
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        blake3::Hash::from_bytes(self.whole).to_hex().fmt(f)
    }
}

/// Feeds a hash with fields that can't run into each other.
struct Dump(blake3::Hasher);

impl Dump {
    fn field(&mut self, bytes: &[u8]) {
        self.0.update(&(bytes.len() as u64).to_le_bytes());
        self.0.update(bytes);
    }

    fn column(&mut self, row: &Row<'_>, column: &str) -> Result<(), StoreError> {
        let bytes = row
            .get_ref(column)?
            .as_bytes_or_null()
            .map_err(rusqlite::Error::from)?;
        self.field(&[u8::from(bytes.is_some())]);
        self.field(bytes.unwrap_or_default());
        Ok(())
    }

    fn table(&mut self, db: &Connection, table: &Table) -> Result<(), StoreError> {
        self.field(table.name.as_bytes());
        let mut query = db.prepare(table.query)?;
        let mut rows = query.query([])?;
        while let Some(row) = rows.next()? {
            for column in table.columns {
                self.column(row, column)?;
            }
        }
        Ok(())
    }

    fn hash(&self) -> [u8; 32] {
        *self.0.finalize().as_bytes()
    }
}

struct Table {
    name: &'static str,
    query: &'static str,
    columns: &'static [&'static str],
}

const STANDING: Table = Table {
    name: "standing",
    query: "SELECT standing.subject, standing.kind, record.id, record.hash,
                CAST(concurrent AS TEXT) AS concurrent
            FROM standing JOIN record ON record.seq = standing.record
            ORDER BY standing.subject, standing.kind, position",
    columns: &["subject", "kind", "id", "hash", "concurrent"],
};

const BODIES: Table = Table {
    name: "bodies",
    query: "SELECT hash FROM body ORDER BY hash",
    columns: &["hash"],
};

const SUBJECTS: Table = Table {
    name: "subjects",
    query: "SELECT id, parent, order_key, CAST(removed AS TEXT) AS removed, text
            FROM subject ORDER BY id",
    columns: &["id", "parent", "order_key", "removed", "text"],
};

impl Store {
    /// The store's digest: commits and records by id then hash, standing records by subject, kind
    /// and position; then the hashes of bodies, and subjects by id. Each table begins with its
    /// name, and each field with its length.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn digest(&self) -> Result<Digest, StoreError> {
        let snapshot = self.db.unchecked_transaction()?;
        let mut dump = Dump(blake3::Hasher::new());
        dump.field(b"commits");
        rows::each_commit(&snapshot, |row| dump.column(row, "bytes"))?;
        dump.field(b"records");
        rows::each_record(&snapshot, |row| dump.column(row, "bytes"))?;
        dump.table(&snapshot, &STANDING)?;
        let journal = dump.hash();
        dump.table(&snapshot, &BODIES)?;
        dump.table(&snapshot, &SUBJECTS)?;
        Ok(Digest {
            journal,
            whole: dump.hash(),
        })
    }
}
