//! Finding subjects by the text that the projector gave for them, without an index: for checks and
//! small stores. Lists are searched by summaries (summary.rs).

use journal::SubjectId;

use crate::error::StoreError;
use crate::open::Store;

/// An index of these texts, which step 8 took away again: lists never asked it.
pub(crate) const TABLES_1: &str = "
CREATE VIRTUAL TABLE subject_search USING fts5 (
    text, content = 'subject', content_rowid = 'seq', tokenize = 'trigram'
);
INSERT INTO subject_search (subject_search, rank) VALUES ('secure-delete', 1);
";

/// A text with each character in lower case, where that is one character.
fn folded(text: &str) -> String {
    text.chars()
        .map(|c| {
            let mut lower = c.to_lowercase();
            match (lower.next(), lower.next()) {
                (Some(one), None) => one,
                _ => c,
            }
        })
        .collect()
}

impl Store {
    /// Subjects, not removed, whose text holds every word of `text`, in part or whole, in any
    /// order and case; at most `limit`, by order key. Nothing in `text` has a special meaning.
    /// Text without a word finds nothing. Of words of one or two characters, only ASCII letters
    /// are found in either case. Reads every text.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn search(&self, text: &str, limit: u32) -> Result<Vec<SubjectId>, StoreError> {
        let (long, short): (Vec<_>, Vec<_>) = text
            .split(|c: char| c.is_whitespace() || c.is_control())
            .filter(|word| !word.is_empty())
            .partition(|word| word.chars().count() >= 3);
        let long: Vec<_> = long.into_iter().map(folded).collect();
        let short: Vec<_> = short.into_iter().map(str::to_ascii_lowercase).collect();
        let mut found = Vec::new();
        if long.is_empty() && short.is_empty() {
            return Ok(found);
        }
        let mut query = self
            .db
            .prepare("SELECT id, text FROM subject WHERE removed = 0 ORDER BY order_key, id")?;
        let mut rows = query.query([])?;
        while let Some(row) = rows.next()? {
            if u32::try_from(found.len()) == Ok(limit) {
                break;
            }
            let text: String = row.get(1)?;
            let (all, ascii) = (folded(&text), text.to_ascii_lowercase());
            if long.iter().all(|word| all.contains(word))
                && short.iter().all(|word| ascii.contains(word))
            {
                found.push(SubjectId::from_bytes(row.get(0)?));
            }
        }
        Ok(found)
    }
}
