//! What follows from the journal: which records stand, and where each subject belongs.

use std::collections::BTreeSet;

use journal::{
    AttachmentHash, FoldRule, Kind, PersonId, Record, RecordId, SubjectId, WallTime, body, fold,
};
use rusqlite::{Connection, OptionalExtension, params};

use crate::error::StoreError;
use crate::summary::{Member, Summary};
use crate::{erase, rows, summary};

pub(crate) const TABLES_1: &str = "
CREATE TABLE standing (
    subject BLOB NOT NULL CHECK (length(subject) = 16),
    kind TEXT NOT NULL,
    position INTEGER NOT NULL,
    record INTEGER NOT NULL REFERENCES record (seq),
    concurrent INTEGER NOT NULL CHECK (concurrent IN (0, 1)),
    PRIMARY KEY (subject, kind, position)
) STRICT, WITHOUT ROWID;
CREATE INDEX standing_by_kind ON standing (kind, subject);
CREATE INDEX standing_by_record ON standing (record);
CREATE TABLE subject (
    seq INTEGER PRIMARY KEY,
    id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    parent BLOB CHECK (length(parent) = 16),
    order_key TEXT NOT NULL,
    removed INTEGER NOT NULL CHECK (removed IN (0, 1)),
    text TEXT NOT NULL
) STRICT;
CREATE INDEX subject_by_parent ON subject (parent, order_key, id);
CREATE TABLE projector (
    only INTEGER PRIMARY KEY CHECK (only = 1),
    version INTEGER NOT NULL
) STRICT;
";

/// A record that stands, as a projector sees it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StandingRecord<'a> {
    /// The record.
    pub id: RecordId,
    /// Its kind.
    pub kind: &'a Kind,
    /// The version of its body's format.
    pub kind_version: u32,
    /// Who wrote it.
    pub author: PersonId,
    /// When, by that device's clock.
    pub wall_time: WallTime,
    /// Its body without the salt; none if withheld or erased.
    pub body: Option<&'a [u8]>,
}

/// Where a subject belongs and by what it is found.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Place {
    /// The subject that it is part of.
    pub parent: Option<SubjectId>,
    /// Its place among its siblings, which are sorted by the bytes of this text, then by id.
    pub order_key: String,
    /// What a search looks through.
    pub text: String,
    /// Other subjects by which it is to be found: [`crate::Store::naming`].
    pub names: BTreeSet<SubjectId>,
}

/// What the layer above knows of kinds. Its answers may depend on nothing but the arguments, or
/// two stores with the same journal would differ.
pub trait Projector: Send + Sync {
    /// To be raised whenever any answer changes; a store made with another version is projected
    /// anew when opened, which is how kinds that were unknown are folded in after an upgrade.
    fn version(&self) -> u32;

    /// How records of a kind come together; none if the kind is unknown. Records of an
    /// unknown kind are kept, each standing for itself. Never asked about voids.
    fn rule(&self, kind: &Kind) -> Option<FoldRule>;

    /// Whether bodies of this version of the kind can be read.
    fn reads(&self, kind: &Kind, kind_version: u32) -> bool;

    /// The subjects that a body names: what its record builds on. An import can't be taken out
    /// while other records name what would be gone.
    fn refers(&self, _kind: &Kind, _body: &[u8]) -> Vec<SubjectId> {
        Vec::new()
    }

    /// The kinds whose bodies name attachments.
    fn kinds_with_attachments(&self) -> Vec<Kind> {
        Vec::new()
    }

    /// The attachments that a body of one of these kinds names. An erasure that takes the body
    /// takes those of them that no other body names.
    fn attachments(&self, _kind: &Kind, _body: &[u8]) -> Vec<AttachmentHash> {
        Vec::new()
    }

    /// Whether an erasure may take bodies of this kind.
    fn erasable(&self, _kind: &Kind) -> bool {
        false
    }

    /// The texts of a body of an erasable kind.
    fn words(&self, _kind: &Kind, _body: &[u8]) -> Vec<String> {
        Vec::new()
    }

    /// The key of the draft in which such a record is half typed, if there is one for it alone.
    fn draft_of(&self, _subject: SubjectId, _kind: &Kind) -> Option<String> {
        None
    }

    /// The place of a subject, from its records that stand: by kind, and in each kind the
    /// leading one last.
    fn place(&self, subject: SubjectId, standing: &[StandingRecord<'_>]) -> Place;

    /// To be raised whenever [`Projector::summary`] or [`Projector::summary_kinds`] answers
    /// otherwise; the summaries of a store made with another version are made anew when it is
    /// opened, from its projections, which takes a fraction of projecting it anew.
    fn summary_version(&self) -> u32 {
        0
    }

    /// The kinds of record that summaries are made from; none: there are no summaries.
    fn summary_kinds(&self) -> &[&'static str] {
        &[]
    }

    /// What lists show of a subject, from what stands for it and for its parts, these by order key
    /// and then by id; none if it is in no list.
    fn summary(&self, _subject: &Member<'_>, _parts: &[Member<'_>]) -> Option<Summary> {
        None
    }
}

/// The rule to fold by.
pub(crate) fn rule(projector: &dyn Projector, kind: &Kind) -> FoldRule {
    projector.rule(kind).unwrap_or(FoldRule::Addition)
}

/// One line of the table `standing`, less the subject.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Line {
    pub kind: String,
    pub position: i64,
    pub record: i64,
    pub concurrent: bool,
}

/// All that is projected of one subject.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Projection {
    pub standing: Vec<Line>,
    pub place: Place,
    pub removed: bool,
}

/// Works out a subject's projection from the journal.
pub(crate) fn compute(
    db: &Connection,
    projector: &dyn Projector,
    subject: SubjectId,
) -> Result<Projection, StoreError> {
    let numbered = rows::records_of_subject(db, subject)?;
    let seq_of: std::collections::HashMap<_, _> = numbered
        .iter()
        .map(|(seq, record)| (record.hash(), *seq))
        .collect();
    let folded = fold::fold(numbered.iter().map(|(_, record)| record), |kind| {
        rule(projector, kind)
    });
    let mut standing = Vec::new();
    let mut bodies: Vec<(&Record, Option<Vec<u8>>)> = Vec::new();
    for (kind, heads) in folded.heads() {
        for (position, record) in (0..).zip(&heads.records) {
            standing.push(Line {
                kind: kind.as_str().to_owned(),
                position,
                record: seq_of[&record.hash()],
                concurrent: heads.concurrent(),
            });
            bodies.push((record, rows::body(db, record.envelope().body_hash)?));
        }
    }
    let seen: Vec<StandingRecord<'_>> = bodies
        .iter()
        .map(|(record, bytes)| StandingRecord {
            id: record.id(),
            kind: &record.envelope().kind,
            kind_version: record.envelope().kind_version,
            author: record.envelope().author,
            wall_time: record.envelope().wall_time,
            body: bytes.as_deref().map(body::content),
        })
        .collect();
    let place = projector.place(subject, &seen);
    Ok(Projection {
        standing,
        place,
        removed: folded.removed(),
    })
}

/// Reads a subject's projection as it is kept; none if it has none.
pub(crate) fn kept(db: &Connection, subject: SubjectId) -> Result<Option<Projection>, StoreError> {
    let mut query = db.prepare_cached(
        "SELECT kind, position, record, concurrent FROM standing
         WHERE subject = ?1 ORDER BY kind, position",
    )?;
    let standing = query
        .query_map([subject.as_bytes()], |row| {
            Ok(Line {
                kind: row.get(0)?,
                position: row.get(1)?,
                record: row.get(2)?,
                concurrent: row.get(3)?,
            })
        })?
        .collect::<Result<Vec<_>, _>>()?;
    let place = db
        .prepare_cached("SELECT parent, order_key, text, removed FROM subject WHERE id = ?1")?
        .query_row([subject.as_bytes()], |row| {
            let parent: Option<[u8; 16]> = row.get(0)?;
            let place = Place {
                parent: parent.map(SubjectId::from_bytes),
                order_key: row.get(1)?,
                text: row.get(2)?,
                names: BTreeSet::new(),
            };
            Ok((place, row.get(3)?))
        })
        .optional()?;
    if place.is_none() && standing.is_empty() {
        return Ok(None);
    }
    let mut query = db.prepare_cached("SELECT named FROM naming WHERE subject = ?1")?;
    let names = query
        .query_map([subject.as_bytes()], |row| {
            Ok(SubjectId::from_bytes(row.get(0)?))
        })?
        .collect::<Result<_, _>>()?;
    Ok(match place {
        Some((place, removed)) => Some(Projection {
            standing,
            place: Place { names, ..place },
            removed,
        }),
        None => Some(Projection {
            standing,
            place: Place {
                names,
                ..Place::default()
            },
            removed: false,
        }),
    })
}

/// Keeps a subject's projection in place of the earlier one. What is the same is not written again:
/// a reading is one row more, however many there are.
pub(crate) fn keep(
    db: &Connection,
    subject: SubjectId,
    old: &Projection,
    new: &Projection,
) -> Result<(), StoreError> {
    let (before, after): (BTreeSet<_>, BTreeSet<_>) =
        (old.standing.iter().collect(), new.standing.iter().collect());
    let mut delete = db.prepare_cached(
        "DELETE FROM standing WHERE subject = ?1 AND kind = ?2 AND position = ?3",
    )?;
    for line in before.difference(&after) {
        delete.execute(params![subject.as_bytes(), line.kind, line.position])?;
    }
    stand(db, subject, after.difference(&before).copied())?;
    let mut delete = db.prepare_cached("DELETE FROM naming WHERE named = ?1 AND subject = ?2")?;
    for named in old.place.names.difference(&new.place.names) {
        delete.execute([named.as_bytes(), subject.as_bytes()])?;
    }
    name(db, subject, new.place.names.difference(&old.place.names))?;
    let Place {
        parent,
        order_key,
        text,
        names: _,
    } = &new.place;
    let parent = parent.as_ref().map(SubjectId::as_bytes);
    // One statement for a row that is there and one that is not: a damaged file may lack it.
    db.prepare_cached(
        "INSERT INTO subject (id, parent, order_key, removed, text) VALUES (?1, ?2, ?3, ?4, ?5)
         ON CONFLICT (id) DO UPDATE SET parent = ?2, order_key = ?3, removed = ?4, text = ?5
         WHERE parent IS NOT ?2 OR order_key IS NOT ?3 OR removed IS NOT ?4 OR text IS NOT ?5",
    )?
    .execute(params![
        subject.as_bytes(),
        parent,
        order_key,
        new.removed,
        text
    ])?;
    Ok(())
}

/// Keeps the projection of a subject that has none yet.
pub(crate) fn keep_first(
    db: &Connection,
    subject: SubjectId,
    new: &Projection,
) -> Result<(), StoreError> {
    stand(db, subject, &new.standing)?;
    let Place {
        parent,
        order_key,
        text,
        names,
    } = &new.place;
    name(db, subject, names)?;
    let parent = parent.as_ref().map(SubjectId::as_bytes);
    db.prepare_cached(
        "INSERT INTO subject (id, parent, order_key, removed, text) VALUES (?1, ?2, ?3, ?4, ?5)",
    )?
    .execute(params![
        subject.as_bytes(),
        parent,
        order_key,
        new.removed,
        text
    ])?;
    Ok(())
}

/// Keeps what a subject names.
fn name<'a>(
    db: &Connection,
    subject: SubjectId,
    names: impl IntoIterator<Item = &'a SubjectId>,
) -> Result<(), StoreError> {
    let mut insert = db.prepare_cached("INSERT INTO naming (named, subject) VALUES (?1, ?2)")?;
    for named in names {
        insert.execute([named.as_bytes(), subject.as_bytes()])?;
    }
    Ok(())
}

fn stand<'a>(
    db: &Connection,
    subject: SubjectId,
    standing: impl IntoIterator<Item = &'a Line>,
) -> Result<(), StoreError> {
    let mut insert = db.prepare_cached(
        "INSERT INTO standing (subject, kind, position, record, concurrent)
         VALUES (?1, ?2, ?3, ?4, ?5)",
    )?;
    for line in standing {
        insert.execute(params![
            subject.as_bytes(),
            line.kind,
            line.position,
            line.record,
            line.concurrent
        ])?;
    }
    Ok(())
}

/// Projects everything anew if another version of the projector made what is kept.
pub(crate) fn renew_if_outdated(
    db: &Connection,
    projector: &dyn Projector,
) -> Result<(), StoreError> {
    let kept = db
        .query_row("SELECT version FROM projector", [], |row| {
            row.get::<_, u32>(0)
        })
        .optional()?;
    if kept == Some(projector.version()) {
        return summary::renew_if_outdated(db, projector);
    }
    renew(db, projector)
}

/// Projects everything anew.
pub(crate) fn renew(db: &Connection, projector: &dyn Projector) -> Result<(), StoreError> {
    db.execute_batch(
        "DELETE FROM standing;
         DELETE FROM naming;
         DELETE FROM subject;",
    )?;
    erase::renew(db, projector)?;
    for subject in rows::all_subjects(db)? {
        keep_first(db, subject, &compute(db, projector, subject)?)?;
    }
    db.execute(
        "INSERT INTO projector (only, version) VALUES (1, ?1)
         ON CONFLICT (only) DO UPDATE SET version = ?1",
        [projector.version()],
    )?;
    summary::renew(db, projector)
}
