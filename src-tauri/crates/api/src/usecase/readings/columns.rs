//! What the columns of a table hold: as it was the last time, else by their names.

use serde::{Deserialize, Serialize};
use store::Store;
use tabular::{Form, Table, in_header, of_symbol, parse};

use super::header;
use crate::app::to_json;
use crate::dto::{ColumnRole, ColumnUse};
use crate::error::ApiError;

/// Key of the setting that remembers the uses of columns.
const REMEMBERED: &str = "readings.columns";

/// Shapes that are remembered; the oldest goes.
const SHAPES: usize = 40;

/// Words by which a column is known, in the languages that loggers and spreadsheets of our users
/// speak most; the words of our own files come first.
const WORDS: [(ColumnRole, &[&str]); 9] = [
    (ColumnRole::Record, &["record"]),
    (ColumnRole::Kind, &["kind"]),
    (
        ColumnRole::TestPoint,
        &["test point", "testpoint", "point", "prüfpunkt"],
    ),
    (ColumnRole::Test, &["test", "run", "series", "prüfung"]),
    (ColumnRole::Job, &["job", "job number", "order", "auftrag"]),
    (ColumnRole::Bore, &["bore", "valve", "bohrung"]),
    (ColumnRole::Reseated, &["reseated", "seated anew"]),
    (
        ColumnRole::Vacuum,
        &[
            "vacuum",
            "vac",
            "reading",
            "depression",
            "unterdruck",
            "vakuum",
            "vide",
            "vacío",
        ],
    ),
    (
        ColumnRole::GaugePressure,
        &[
            "gauge pressure",
            "gage pressure",
            "pressure",
            "p",
            "druck",
            "relativdruck",
            "pression",
            "presión",
        ],
    ),
];

/// The uses of a table's columns, guessed.
pub(super) fn guessed(table: &Table, form: &Form) -> Vec<ColumnUse> {
    let names = header(table);
    let mut uses: Vec<ColumnUse> = Vec::new();
    for at in 0..table.columns {
        let (name, unit) = names.get(at).map_or(("", None), |name| in_header(name));
        let plain = name.trim().to_lowercase();
        let known = WORDS
            .iter()
            .find(|(_, words)| words.contains(&plain.as_str()));
        let mut role = known.map_or(ColumnRole::Nothing, |(role, _)| *role);
        if matches!(role, ColumnRole::Vacuum | ColumnRole::GaugePressure) {
            role = by_sign(table, form, at, role);
        }
        if role != ColumnRole::Nothing && uses.iter().any(|it| it.role == role) {
            role = ColumnRole::Nothing;
        }
        let unit = unit
            .filter(|_| holds_readings(role))
            .map(|it| it.symbol.to_owned());
        uses.push(ColumnUse { role, unit });
    }
    if !uses.iter().any(|it| holds_readings(it.role)) {
        only_numbers(table, form, &mut uses);
    }
    uses
}

/// True for a column whose numbers are readings.
pub(super) const fn holds_readings(role: ColumnRole) -> bool {
    matches!(role, ColumnRole::Vacuum | ColumnRole::GaugePressure)
}

/// A pressure that is never below ambient is meant as vacuum, and a vacuum that always is as a
/// pressure.
fn by_sign(table: &Table, form: &Form, at: usize, role: ColumnRole) -> ColumnRole {
    let (mut above, mut below) = (0, 0);
    for row in &table.rows {
        match parse(row.cell(at), form.decimal) {
            Ok((value, _)) if value < 0.0 => below += 1,
            Ok((value, _)) if value > 0.0 => above += 1,
            _ => {}
        }
    }
    if below > above {
        ColumnRole::GaugePressure
    } else if above > 0 {
        ColumnRole::Vacuum
    } else {
        role
    }
}

/// Without a name that tells, the readings are in the column whose name or cells have a unit of
/// pressure, or in the only one.
fn only_numbers(table: &Table, form: &Form, uses: &mut [ColumnUse]) {
    let names = header(table);
    let unit_of = |at: usize| {
        let named = names.get(at).and_then(|name| in_header(name).1);
        named.or_else(|| {
            let first = table.rows.first()?.cell(at);
            of_symbol(parse(first, form.decimal).ok()?.1)
        })
    };
    let free = |at: &usize| {
        uses.get(*at)
            .is_some_and(|it| it.role == ColumnRole::Nothing)
    };
    let with_unit = (0..table.columns)
        .filter(free)
        .find(|at| unit_of(*at).is_some());
    let found = with_unit.or_else(|| (table.columns == 1).then_some(0));
    if let Some(at) = found
        && let Some(it) = uses.get_mut(at)
    {
        it.role = by_sign(table, form, at, ColumnRole::Vacuum);
        it.unit = unit_of(at).map(|unit| unit.symbol.to_owned());
    }
}

/// What is remembered of tables with the same columns.
#[derive(Debug, Serialize, Deserialize)]
struct Shape {
    names: String,
    form: Form,
    columns: Vec<ColumnUse>,
}

/// The names of the columns as one; none for a table without names, which nothing tells apart.
fn names(table: &Table) -> Option<String> {
    let names = table.header.as_ref()?;
    let plain: Vec<_> = names.iter().map(|it| it.trim().to_lowercase()).collect();
    Some(
        blake3::hash(plain.join("\u{1f}").as_bytes())
            .to_hex()
            .to_string(),
    )
}

fn all(store: &Store) -> Result<Vec<Shape>, ApiError> {
    let kept = store.setting(REMEMBERED)?;
    Ok(kept
        .and_then(|json| serde_json::from_str(&json).ok())
        .unwrap_or_default())
}

/// How a table with such columns was used the last time.
pub(super) fn remembered(store: &Store, table: &Table) -> Result<Option<Vec<ColumnUse>>, ApiError> {
    let Some(names) = names(table) else {
        return Ok(None);
    };
    let found = all(store)?.into_iter().find(|shape| shape.names == names);
    Ok(found
        .map(|shape| shape.columns)
        .filter(|columns| columns.len() == table.columns))
}

/// Remembers how a table was used.
pub(super) fn remember(
    store: &mut Store,
    table: &Table,
    form: Form,
    columns: &[ColumnUse],
) -> Result<(), ApiError> {
    let Some(names) = names(table) else {
        return Ok(());
    };
    let mut shapes = all(store)?;
    shapes.retain(|shape| shape.names != names);
    let columns = columns.to_vec();
    shapes.insert(
        0,
        Shape {
            names,
            form,
            columns,
        },
    );
    shapes.truncate(SHAPES);
    Ok(store.put_setting(REMEMBERED, &to_json(&shapes)?)?)
}
