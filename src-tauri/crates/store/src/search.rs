//! Finding subjects by the text that the projector gave for them, without an index: for checks and
//! small stores. Lists are searched by summaries (summary.rs).

use journal::SubjectId;
use rusqlite::params_from_iter;

use crate::error::StoreError;
use crate::open::Store;

/// An index of these texts, which step 8 took away again: lists never asked it.
pub(crate) const TABLES_1: &str = "
CREATE VIRTUAL TABLE subject_search USING fts5 (
    text, content = 'subject', content_rowid = 'seq', tokenize = 'trigram'
);
INSERT INTO subject_search (subject_search, rank) VALUES ('secure-delete', 1);
";

impl Store {
    /// Subjects, not removed, whose text holds every word of `text`, in part or whole, in any
    /// order; at most `limit`, by order key. Nothing in `text` has a special meaning. Text without
    /// a word finds nothing. Only ASCII letters are found in either case. Reads every text.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn search(&self, text: &str, limit: u32) -> Result<Vec<SubjectId>, StoreError> {
        let patterns: Vec<String> = text
            .split(|c: char| c.is_whitespace() || c.is_control())
            .filter(|word| !word.is_empty())
            .map(|word| {
                let literal = word
                    .replace('\\', "\\\\")
                    .replace('%', "\\%")
                    .replace('_', "\\_");
                format!("%{literal}%")
            })
            .collect();
        if patterns.is_empty() {
            return Ok(Vec::new());
        }
        let conditions = vec!["text LIKE ? ESCAPE '\\'"; patterns.len()].join(" AND ");
        let mut query = self.db.prepare_cached(&format!(
            "SELECT id FROM subject WHERE removed = 0 AND {conditions}
             ORDER BY order_key, id LIMIT {limit}"
        ))?;
        let found = query.query_map(params_from_iter(patterns), |row| {
            Ok(SubjectId::from_bytes(row.get(0)?))
        })?;
        Ok(found.collect::<Result<_, _>>()?)
    }
}
