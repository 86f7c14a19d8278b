//! What lists show of a subject: worked out once when it changes, not each time it is listed.
//!
//! A summary follows from what stands for a subject and for its parts. It is kept in the
//! transaction that changes either, and can be made anew from the projections at any time; the
//! check does so and compares. It is in no digest, since it says nothing that the projections
//! don't.

use std::collections::{BTreeMap, BTreeSet};

use journal::{DeviceId, Kind, PersonId, RecordId, SubjectId, WallTime, body};
use rusqlite::{Connection, OptionalExtension, params, params_from_iter};

use crate::error::StoreError;
use crate::open::Store;
use crate::projection::{Projector, StandingRecord};
use crate::rows;

/// A subject, or a part of it, as a summary is made from: its records that stand, of the kinds
/// that [`Projector::summary_kinds`] names; by kind, and in each kind the leading one last.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Member<'a> {
    /// Which.
    pub id: SubjectId,
    /// Whether it is removed. Parts that are removed are left out.
    pub removed: bool,
    /// What stands.
    pub standing: Vec<StandingRecord<'a>>,
}

/// What a list shows of a subject, and by what it is found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Summary {
    /// The list that it is in.
    pub kind: Kind,
    /// A moment or day that the list can be narrowed by.
    pub at: Option<i64>,
    /// A number of which the highest may be asked for.
    pub number: Option<i64>,
    /// Another summarised subject by whose text this one is found too.
    pub within: Option<SubjectId>,
    /// Names and values that the list can be narrowed by.
    pub facets: BTreeSet<(String, Vec<u8>)>,
    /// Whether it is found by its own text and that of its parts.
    pub searched: bool,
    /// What the list shows, in the words of the layer above.
    pub json: String,
}

/// Which summaries to list. What is left out doesn't narrow the list.
#[derive(Debug, Clone, Copy)]
pub struct Wanted<'a> {
    /// The list.
    pub kind: &'a Kind,
    /// Words that must all be found in the text of the summary, or all but those in the text of
    /// what it lies within. Parts of words count, case doesn't; nothing in them has a special
    /// meaning. Of words of one or two characters, only ASCII letters are found in either case.
    pub words: &'a [&'a str],
    /// The list of what these lie within.
    pub within: Option<&'a Kind>,
    /// Facets that each must have.
    pub facets: &'a [(&'a str, Vec<u8>)],
    /// The least moment.
    pub from: Option<i64>,
    /// The greatest moment.
    pub to: Option<i64>,
}

impl<'a> Wanted<'a> {
    /// The whole list.
    #[must_use]
    pub const fn all(kind: &'a Kind) -> Self {
        Self {
            kind,
            words: &[],
            within: None,
            facets: &[],
            from: None,
            to: None,
        }
    }
}

/// A summary as a list gives it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Listed {
    /// Whose.
    pub subject: SubjectId,
    /// What the layer above keeps in it.
    pub json: String,
}

/// A summary with what the store adds to it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Kept {
    summary: Summary,
    order_key: String,
    /// What it is found by, line by line. No word goes over the end of a line, so each is indexed
    /// for itself, and an edit costs as much as the lines that it changes, not as the whole text.
    lines: BTreeSet<String>,
}

/// A line's row number is its summary's, moved up by so many bits, and its own below.
const LINE_BITS: u32 = 16;

/// More lines than have a number are one.
const MOST_LINES: usize = (1 << LINE_BITS) - 1;

/// Texts as the lines that are indexed.
fn lines(texts: &[String]) -> BTreeSet<String> {
    let mut lines: BTreeSet<String> = texts
        .iter()
        .flat_map(|text| text.lines())
        .filter(|line| !line.is_empty())
        .map(str::to_owned)
        .collect();
    if lines.len() > MOST_LINES {
        let rest: Vec<String> = std::iter::from_fn(|| {
            (lines.len() >= MOST_LINES)
                .then(|| lines.pop_last())
                .flatten()
        })
        .collect();
        lines.insert(rest.join(" "));
    }
    lines
}

/// What stands for a subject, owned while a summary is made from it.
struct Owned {
    id: RecordId,
    kind: Kind,
    kind_version: u32,
    author: PersonId,
    wall_time: WallTime,
    body: Option<Vec<u8>>,
}

fn places(first: usize, count: usize) -> String {
    let names: Vec<_> = (first..first + count).map(|n| format!("?{n}")).collect();
    names.join(", ")
}

fn standing(db: &Connection, kinds: &[&str], subject: SubjectId) -> Result<Vec<Owned>, StoreError> {
    let mut query = db.prepare_cached(&format!(
        "SELECT record.bytes AS bytes, body.bytes AS body FROM standing
         JOIN record ON record.seq = standing.record
         LEFT JOIN body ON body.hash = record.body_hash
         WHERE standing.subject = ?1 AND standing.kind IN ({})
         ORDER BY standing.kind, position",
        places(2, kinds.len())
    ))?;
    query.raw_bind_parameter(1, subject.as_bytes())?;
    for (place, kind) in (2..).zip(kinds) {
        query.raw_bind_parameter(place, kind)?;
    }
    let mut found = Vec::new();
    let mut lines = query.raw_query();
    while let Some(row) = lines.next()? {
        let record = rows::record_from(row, "bytes")?;
        let envelope = record.envelope();
        found.push(Owned {
            id: envelope.id,
            kind: envelope.kind.clone(),
            kind_version: envelope.kind_version,
            author: envelope.author,
            wall_time: envelope.wall_time,
            body: row.get("body")?,
        });
    }
    Ok(found)
}

fn member(id: SubjectId, removed: bool, standing: &[Owned]) -> Member<'_> {
    let standing = standing
        .iter()
        .map(|owned| StandingRecord {
            id: owned.id,
            kind: &owned.kind,
            kind_version: owned.kind_version,
            author: owned.author,
            wall_time: owned.wall_time,
            body: owned.body.as_deref().map(body::content),
        })
        .collect();
    Member {
        id,
        removed,
        standing,
    }
}

/// Works out a subject's summary from the projections.
pub(crate) fn compute(
    db: &Connection,
    projector: &dyn Projector,
    subject: SubjectId,
) -> Result<Option<Kept>, StoreError> {
    let kinds = projector.summary_kinds();
    let own = standing(db, kinds, subject)?;
    let (removed, order_key, text) = db
        .prepare_cached("SELECT removed, order_key, text FROM subject WHERE id = ?1")?
        .query_row([subject.as_bytes()], |row| {
            Ok((row.get(0)?, row.get(1)?, row.get(2)?))
        })
        .optional()?
        .unwrap_or((false, String::new(), String::new()));
    let mut texts = Vec::new();
    if !removed {
        texts.push(text);
    }
    let mut parts = Vec::new();
    let mut query = db.prepare_cached(
        "SELECT id, text FROM subject WHERE parent = ?1 AND removed = 0 ORDER BY order_key, id",
    )?;
    let mut found = query.query([subject.as_bytes()])?;
    while let Some(row) = found.next()? {
        let part = SubjectId::from_bytes(row.get(0)?);
        texts.push(row.get(1)?);
        parts.push((part, standing(db, kinds, part)?));
    }
    let parts: Vec<_> = parts
        .iter()
        .map(|(part, standing)| member(*part, false, standing))
        .collect();
    let summary = projector.summary(&member(subject, removed, &own), &parts);
    Ok(summary.map(|mut summary| {
        let lines = if summary.searched {
            lines(&texts)
        } else {
            BTreeSet::new()
        };
        // One without a text is not found either way.
        summary.searched = !lines.is_empty();
        Kept {
            summary,
            order_key,
            lines,
        }
    }))
}

/// The lines of a summary, with their row numbers.
fn numbered_lines(db: &Connection, summary: i64) -> Result<BTreeMap<String, i64>, StoreError> {
    let first = summary << LINE_BITS;
    let mut query =
        db.prepare_cached("SELECT text, seq FROM summary_text WHERE seq BETWEEN ?1 AND ?2")?;
    let found = query.query_map([first, first | MOST_LINES as i64], |row| {
        Ok((row.get(0)?, row.get(1)?))
    })?;
    Ok(found.collect::<Result<_, _>>()?)
}

/// Reads a subject's summary as it is kept, with its row number.
fn numbered(db: &Connection, subject: SubjectId) -> Result<Option<(i64, Kept)>, StoreError> {
    type Row = (String, String, Option<i64>, Option<i64>, Option<[u8; 16]>);
    let found = db
        .prepare_cached(
            "SELECT seq, kind, order_key, at, number, within, json FROM summary
             WHERE subject = ?1",
        )?
        .query_row([subject.as_bytes()], |row| {
            let columns: Row = (
                row.get(1)?,
                row.get(2)?,
                row.get(3)?,
                row.get(4)?,
                row.get(5)?,
            );
            Ok((row.get::<_, i64>(0)?, columns, row.get::<_, String>(6)?))
        })
        .optional()?;
    let Some((seq, (kind, order_key, at, number, within), json)) = found else {
        return Ok(None);
    };
    let lines: BTreeSet<String> = numbered_lines(db, seq)?.into_keys().collect();
    let facets = db
        .prepare_cached("SELECT name, value FROM facet WHERE summary = ?1")?
        .query_map([seq], |row| Ok((row.get(0)?, row.get(1)?)))?
        .collect::<Result<_, _>>()?;
    let summary = Summary {
        kind: kind.parse()?,
        at,
        number,
        within: within.map(SubjectId::from_bytes),
        facets,
        searched: !lines.is_empty(),
        json,
    };
    Ok(Some((
        seq,
        Kept {
            summary,
            order_key,
            lines,
        },
    )))
}

/// As [`numbered`], without the number.
pub(crate) fn kept(db: &Connection, subject: SubjectId) -> Result<Option<Kept>, StoreError> {
    Ok(numbered(db, subject)?.map(|(_, kept)| kept))
}

/// Makes the summary of one subject anew and keeps it.
fn renew_one(
    db: &Connection,
    projector: &dyn Projector,
    subject: SubjectId,
) -> Result<(), StoreError> {
    let new = compute(db, projector, subject)?;
    let old = numbered(db, subject)?;
    let seq = match (&old, &new) {
        (None, None) => return Ok(()),
        (Some((_, old)), Some(new)) if old == new => return Ok(()),
        (Some((seq, old)), None) => {
            write_lines(db, *seq, &old.lines, &BTreeSet::new())?;
            write_facets(db, *seq, &old.summary.facets, &BTreeSet::new())?;
            db.prepare_cached("DELETE FROM summary WHERE seq = ?1")?
                .execute([seq])?;
            return Ok(());
        }
        (Some((seq, _)), Some(_)) => Some(*seq),
        (None, Some(_)) => None,
    };
    let Some(new) = new else { return Ok(()) };
    let Summary {
        kind,
        at,
        number,
        within,
        facets,
        json,
        ..
    } = &new.summary;
    let within = within.as_ref().map(SubjectId::as_bytes);
    // One statement for both: the row keeps its number, which texts and facets go by.
    db.prepare_cached(
        "INSERT INTO summary (seq, subject, kind, order_key, at, number, within, json)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)
         ON CONFLICT (subject) DO UPDATE SET
             kind = ?3, order_key = ?4, at = ?5, number = ?6, within = ?7, json = ?8",
    )?
    .execute(params![
        seq,
        subject.as_bytes(),
        kind.as_str(),
        new.order_key,
        at,
        number,
        within,
        json
    ])?;
    let seq = seq.unwrap_or_else(|| db.last_insert_rowid());
    let before = old.map(|(_, old)| old);
    let none = BTreeSet::new();
    let facets_before = before.as_ref().map_or(&none, |old| &old.summary.facets);
    write_facets(db, seq, facets_before, facets)?;
    let empty = BTreeSet::new();
    let lines_before = before.as_ref().map_or(&empty, |old| &old.lines);
    write_lines(db, seq, lines_before, &new.lines)
}

fn write_facets(
    db: &Connection,
    seq: i64,
    old: &BTreeSet<(String, Vec<u8>)>,
    new: &BTreeSet<(String, Vec<u8>)>,
) -> Result<(), StoreError> {
    for (name, value) in old.difference(new) {
        db.prepare_cached("DELETE FROM facet WHERE name = ?1 AND value = ?2 AND summary = ?3")?
            .execute(params![name, value, seq])?;
    }
    for (name, value) in new.difference(old) {
        db.prepare_cached("INSERT INTO facet (name, value, summary) VALUES (?1, ?2, ?3)")?
            .execute(params![name, value, seq])?;
    }
    Ok(())
}

fn write_lines(
    db: &Connection,
    summary: i64,
    old: &BTreeSet<String>,
    new: &BTreeSet<String>,
) -> Result<(), StoreError> {
    if old == new {
        return Ok(());
    }
    let mut numbers: BTreeSet<i64> = BTreeSet::new();
    if !old.is_empty() {
        for (line, seq) in numbered_lines(db, summary)? {
            if new.contains(&line) {
                numbers.insert(seq);
                continue;
            }
            // The index takes a line out by what it is told stood there.
            db.prepare_cached(
                "INSERT INTO summary_search (summary_search, rowid, text) VALUES ('delete', ?1, ?2)",
            )?
            .execute(params![seq, line])?;
            db.prepare_cached("DELETE FROM summary_text WHERE seq = ?1")?
                .execute([seq])?;
        }
    }
    let first = summary << LINE_BITS;
    let mut free = (first..=first | MOST_LINES as i64).filter(|seq| !numbers.contains(seq));
    for line in new.difference(old) {
        // There are as many as lines at most.
        let Some(seq) = free.next() else { break };
        db.prepare_cached("INSERT INTO summary_text (seq, text) VALUES (?1, ?2)")?
            .execute(params![seq, line])?;
        db.prepare_cached("INSERT INTO summary_search (rowid, text) VALUES (?1, ?2)")?
            .execute(params![seq, line])?;
    }
    Ok(())
}

/// Makes anew what is summarised of subjects whose projection, or that of a part, has changed.
pub(crate) fn renew_of(
    db: &Connection,
    projector: &dyn Projector,
    subjects: &BTreeSet<SubjectId>,
) -> Result<(), StoreError> {
    if projector.summary_kinds().is_empty() {
        return Ok(());
    }
    for &subject in subjects {
        renew_one(db, projector, subject)?;
    }
    Ok(())
}

/// The subjects that may have a summary: those with a record of a kind that summaries are made
/// from, what these are part of, and those that have one.
pub(crate) fn candidates(
    db: &Connection,
    projector: &dyn Projector,
) -> Result<BTreeSet<SubjectId>, StoreError> {
    let kinds = projector.summary_kinds();
    let places = places(1, kinds.len());
    let mut query = db.prepare(&format!(
        "SELECT subject FROM standing WHERE kind IN ({places})
         UNION SELECT parent FROM subject WHERE parent IS NOT NULL AND id IN
             (SELECT subject FROM standing WHERE kind IN ({places}))
         UNION SELECT subject FROM summary"
    ))?;
    let found = query.query_map(params_from_iter(kinds), |row| {
        Ok(SubjectId::from_bytes(row.get(0)?))
    })?;
    Ok(found.collect::<Result<_, _>>()?)
}

/// Makes every summary, and the list of who wrote on which device, anew.
pub(crate) fn renew(db: &Connection, projector: &dyn Projector) -> Result<(), StoreError> {
    db.execute_batch(
        "INSERT INTO summary_search (summary_search) VALUES ('delete-all');
         DELETE FROM summary_text;
         DELETE FROM facet;
         DELETE FROM summary;",
    )?;
    renew_authors(db)?;
    if !projector.summary_kinds().is_empty() {
        for subject in candidates(db, projector)? {
            renew_one(db, projector, subject)?;
        }
    }
    db.execute(
        "INSERT INTO summarised (only, version) VALUES (1, ?1)
         ON CONFLICT (only) DO UPDATE SET version = ?1",
        [projector.summary_version()],
    )?;
    Ok(())
}

/// As [`renew`], if another version of the projector made what is kept.
pub(crate) fn renew_if_outdated(
    db: &Connection,
    projector: &dyn Projector,
) -> Result<(), StoreError> {
    let kept = db
        .query_row("SELECT version FROM summarised", [], |row| {
            row.get::<_, u32>(0)
        })
        .optional()?;
    if kept == Some(projector.summary_version()) {
        return Ok(());
    }
    renew(db, projector)
}

/// Keeps in mind that somebody wrote on a device.
pub(crate) fn add_author(
    db: &Connection,
    device: DeviceId,
    person: PersonId,
) -> Result<(), StoreError> {
    db.prepare_cached("INSERT OR IGNORE INTO author (device, person) VALUES (?1, ?2)")?
        .execute(params![device.as_bytes(), person.as_bytes()])?;
    Ok(())
}

/// Who wrote on which device, by the journal itself.
pub(crate) fn authors_in_journal(
    db: &Connection,
) -> Result<BTreeSet<(DeviceId, PersonId)>, StoreError> {
    let mut found = BTreeSet::new();
    rows::each_record(db, |row| {
        let record = rows::record_from(row, "bytes")?;
        found.insert((record.envelope().device, record.envelope().author));
        Ok(())
    })?;
    Ok(found)
}

/// Works out anew who wrote on which device.
pub(crate) fn renew_authors(db: &Connection) -> Result<(), StoreError> {
    db.execute("DELETE FROM author", [])?;
    for (device, person) in authors_in_journal(db)? {
        add_author(db, device, person)?;
    }
    Ok(())
}

/// Who wrote on which device, as it is kept.
pub(crate) fn authors(db: &Connection) -> Result<BTreeSet<(DeviceId, PersonId)>, StoreError> {
    let mut query = db.prepare_cached("SELECT device, person FROM author")?;
    let found = query.query_map([], |row| {
        Ok((
            DeviceId::from_bytes(row.get(0)?),
            PersonId::from_bytes(row.get(1)?),
        ))
    })?;
    Ok(found.collect::<Result<_, _>>()?)
}

/// A question as SQL with its values, in order.
fn question(wanted: &Wanted<'_>) -> (String, Vec<rusqlite::types::Value>) {
    let mut values: Vec<rusqlite::types::Value> = Vec::new();
    let mut value = |value: rusqlite::types::Value| {
        values.push(value);
        format!("?{}", values.len())
    };
    let mut hits = Vec::new();
    let kind = value(wanted.kind.as_str().to_owned().into());
    let mut conditions = vec![format!("s.kind = {kind}")];
    let within = wanted
        .within
        .filter(|_| !wanted.words.is_empty())
        .map(|kind| value(kind.as_str().to_owned().into()));
    for (n, word) in wanted.words.iter().enumerate() {
        // The index knows nothing shorter than three characters.
        hits.push(if word.chars().count() >= 3 {
            let quoted = value(format!("\"{}\"", word.replace('"', "\"\"")).into());
            format!(
                "hit{n} (seq) AS MATERIALIZED (SELECT rowid >> {LINE_BITS} FROM summary_search
                 WHERE summary_search MATCH {quoted})"
            )
        } else {
            let literal = word
                .replace('\\', "\\\\")
                .replace('%', "\\%")
                .replace('_', "\\_");
            let pattern = value(format!("%{literal}%").into());
            format!(
                "hit{n} (seq) AS MATERIALIZED (SELECT seq >> {LINE_BITS} FROM summary_text
                 WHERE text LIKE {pattern} ESCAPE '\\')"
            )
        });
        // The pluses keep the walk along the list's own order, which has all that is asked of it.
        let own = format!("+s.seq IN (SELECT seq FROM hit{n})");
        conditions.push(within.as_ref().map_or_else(
            || own.clone(),
            |kind| {
                format!(
                    "({own} OR s.within IN (SELECT u.subject FROM summary AS u
                     WHERE u.kind = {kind} AND +u.seq IN (SELECT seq FROM hit{n})))"
                )
            },
        ));
    }
    for (name, of) in wanted.facets {
        let (name, of) = (value((*name).to_owned().into()), value(of.clone().into()));
        conditions.push(format!(
            "+s.seq IN (SELECT summary FROM facet WHERE name = {name} AND value = {of})"
        ));
    }
    if let Some(from) = wanted.from {
        conditions.push(format!("s.at >= {}", value(from.into())));
    }
    if let Some(to) = wanted.to {
        conditions.push(format!("s.at <= {}", value(to.into())));
    }
    let with = if hits.is_empty() {
        String::new()
    } else {
        format!("WITH {} ", hits.join(", "))
    };
    let conditions = conditions.join(" AND ");
    (
        format!("{with}SELECT s.seq FROM summary AS s WHERE {conditions}"),
        values,
    )
}

impl Store {
    /// The summaries that are wanted, by order key from the last to the first, less the first
    /// `skip` and at most `limit`; and how many there are in all.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn summaries(
        &self,
        wanted: &Wanted<'_>,
        skip: usize,
        limit: Option<usize>,
    ) -> Result<(Vec<Listed>, usize), StoreError> {
        let snapshot = self.db.unchecked_transaction()?;
        let (sql, values) = question(wanted);
        let mut query =
            snapshot.prepare_cached(&format!("{sql} ORDER BY s.order_key DESC, s.subject DESC"))?;
        let found: Vec<i64> = query
            .query_map(params_from_iter(values), |row| row.get(0))?
            .collect::<Result<_, _>>()?;
        let page = found.iter().skip(skip).take(limit.unwrap_or(usize::MAX));
        let mut one =
            snapshot.prepare_cached("SELECT subject, json FROM summary WHERE seq = ?1")?;
        let listed = page
            .map(|seq| {
                one.query_row([seq], |row| {
                    Ok(Listed {
                        subject: SubjectId::from_bytes(row.get(0)?),
                        json: row.get(1)?,
                    })
                })
            })
            .collect::<Result<_, _>>()?;
        Ok((listed, found.len()))
    }

    /// The summaries that are wanted with a moment, the latest first; of one moment, the subject
    /// that was made first comes first.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn latest(&self, wanted: &Wanted<'_>) -> Result<Vec<SubjectId>, StoreError> {
        let (sql, values) = question(&Wanted {
            from: wanted.from.or(Some(i64::MIN)),
            ..*wanted
        });
        let mut query = self.db.prepare_cached(&format!(
            "SELECT subject FROM summary WHERE seq IN ({sql}) ORDER BY at DESC, subject"
        ))?;
        let found = query.query_map(params_from_iter(values), |row| {
            Ok(SubjectId::from_bytes(row.get(0)?))
        })?;
        Ok(found.collect::<Result<_, _>>()?)
    }

    /// The highest number in a list.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn highest_number(&self, kind: &Kind) -> Result<Option<i64>, StoreError> {
        Ok(self
            .db
            .prepare_cached(
                "SELECT max(number) FROM summary WHERE kind = ?1 AND number IS NOT NULL",
            )?
            .query_row([kind.as_str()], |row| row.get(0))?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_has_more_lines_than_numbers_loses_none() {
        let text: Vec<String> = (0..70_000).map(|n| format!("line {n:05}")).collect();
        let lines = lines(&[text.join("\n"), String::new(), "one\n\none".into()]);
        assert_eq!(lines.len(), MOST_LINES);
        let words: BTreeSet<&str> = lines.iter().flat_map(|line| line.split(' ')).collect();
        for line in &text {
            assert!(words.contains(line.trim_start_matches("line ")), "{line}");
        }
        assert!(words.contains("one"));
    }
}
