//! Finding subjects by the text that the projector gave for them.

use journal::SubjectId;
use rusqlite::{Connection, params, params_from_iter};

use crate::error::StoreError;
use crate::open::Store;

/// Trigrams find parts of words, plates among them, in any script. `secure-delete` takes text
/// out of the index when its subject changes, instead of marking it.
pub(crate) const TABLES_1: &str = "
CREATE VIRTUAL TABLE subject_search USING fts5 (
    text, content = 'subject', content_rowid = 'seq', tokenize = 'trigram'
);
INSERT INTO subject_search (subject_search, rank) VALUES ('secure-delete', 1);
";

/// Puts a subject's text into the index, or takes it out.
pub(crate) fn set_text(
    db: &Connection,
    seq: i64,
    old: Option<&str>,
    new: &str,
) -> Result<(), StoreError> {
    if old == Some(new) {
        return Ok(());
    }
    if let Some(old) = old {
        db.prepare_cached(
            "INSERT INTO subject_search (subject_search, rowid, text) VALUES ('delete', ?1, ?2)",
        )?
        .execute(params![seq, old])?;
    }
    db.prepare_cached("INSERT INTO subject_search (rowid, text) VALUES (?1, ?2)")?
        .execute(params![seq, new])?;
    Ok(())
}

/// Takes a subject's text out of the index.
pub(crate) fn drop_text(db: &Connection, seq: i64, old: &str) -> Result<(), StoreError> {
    db.prepare_cached(
        "INSERT INTO subject_search (subject_search, rowid, text) VALUES ('delete', ?1, ?2)",
    )?
    .execute(params![seq, old])?;
    Ok(())
}

impl Store {
    /// Subjects, not removed, whose text holds every word of `text`, in part or whole, in any
    /// order and case; at most `limit`, by order key. Nothing in `text` has a special meaning.
    /// Text without a word finds nothing. Of words of one or two characters, only ASCII letters
    /// are found in either case.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn search(&self, text: &str, limit: u32) -> Result<Vec<SubjectId>, StoreError> {
        let words: Vec<&str> = text
            .split(|c: char| c.is_whitespace() || c.is_control())
            .collect();
        // The index knows nothing shorter than three characters.
        let (long, short): (Vec<_>, Vec<_>) = words
            .into_iter()
            .filter(|word| !word.is_empty())
            .partition(|word| word.chars().count() >= 3);
        let mut conditions = Vec::new();
        let mut values = Vec::new();
        if !long.is_empty() {
            conditions.push(
                "seq IN (SELECT rowid FROM subject_search WHERE subject_search MATCH ?)".to_owned(),
            );
            let quoted = long
                .iter()
                .map(|word| format!("\"{}\"", word.replace('"', "\"\"")));
            values.push(quoted.collect::<Vec<_>>().join(" AND "));
        }
        for word in short {
            conditions.push("text LIKE ? ESCAPE '\\'".to_owned());
            let literal = word
                .replace('\\', "\\\\")
                .replace('%', "\\%")
                .replace('_', "\\_");
            values.push(format!("%{literal}%"));
        }
        if conditions.is_empty() {
            return Ok(Vec::new());
        }
        let mut query = self.db.prepare_cached(&format!(
            "SELECT id FROM subject WHERE removed = 0 AND {} ORDER BY order_key, id LIMIT {limit}",
            conditions.join(" AND ")
        ))?;
        let found = query.query_map(params_from_iter(values), |row| {
            Ok(SubjectId::from_bytes(row.get(0)?))
        })?;
        Ok(found.collect::<Result<_, _>>()?)
    }
}
