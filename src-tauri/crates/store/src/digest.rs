//! One hash of all that a store holds in common with others.

use std::fmt;

use crate::error::StoreError;
use crate::open::Store;
use crate::rows;

/// BLAKE3 of a store's canonical dump. Two stores that hold the same records and the same bodies,
/// and are read by the same program, have the same digest, however they came by them. Drafts,
/// settings, keys and clocks are not in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Digest([u8; 32]);

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        blake3::Hash::from_bytes(self.0).to_hex().fmt(f)
    }
}

/// Feeds a hash with fields that can't run into each other.
struct Dump(blake3::Hasher);

impl Dump {
    fn section(&mut self, name: &str) {
        self.field(name.as_bytes());
    }

    fn field(&mut self, bytes: &[u8]) {
        self.0.update(&(bytes.len() as u64).to_le_bytes());
        self.0.update(bytes);
    }
}

impl Store {
    /// The store's digest: commits and records by id then hash, the hashes of the bodies, standing
    /// records by subject, kind and position, and subjects by id, each field with its
    /// length before it.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn digest(&self) -> Result<Digest, StoreError> {
        let snapshot = self.db.unchecked_transaction()?;
        let mut dump = Dump(blake3::Hasher::new());
        let blob = |row: &rusqlite::Row<'_>, column: &str, dump: &mut Dump| {
            let bytes = row
                .get_ref(column)?
                .as_bytes_or_null()
                .map_err(rusqlite::Error::from)?;
            dump.field(&[u8::from(bytes.is_some())]);
            dump.field(bytes.unwrap_or_default());
            Ok::<_, StoreError>(())
        };
        dump.section("commits");
        rows::each_commit(&snapshot, |row| blob(row, "bytes", &mut dump))?;
        dump.section("records");
        rows::each_record(&snapshot, |row| blob(row, "bytes", &mut dump))?;
        for (section, query, columns) in [
            (
                "bodies",
                "SELECT hash FROM body ORDER BY hash",
                &["hash"][..],
            ),
            (
                "standing",
                "SELECT standing.subject, standing.kind, record.id, record.hash,
                     CAST(concurrent AS TEXT) AS concurrent
                 FROM standing JOIN record ON record.seq = standing.record
                 ORDER BY standing.subject, standing.kind, position",
                &["subject", "kind", "id", "hash", "concurrent"],
            ),
            (
                "subjects",
                "SELECT id, parent, order_key, CAST(removed AS TEXT) AS removed, text
                 FROM subject ORDER BY id",
                &["id", "parent", "order_key", "removed", "text"],
            ),
        ] {
            dump.section(section);
            let mut query = snapshot.prepare(query)?;
            let mut rows = query.query([])?;
            while let Some(row) = rows.next()? {
                for column in columns {
                    blob(row, column, &mut dump)?;
                }
            }
        }
        Ok(Digest(*dump.0.finalize().as_bytes()))
    }
}
