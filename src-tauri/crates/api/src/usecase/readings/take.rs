//! Looking at a table and taking it in. Taking in works the plan out anew, so that nothing is
//! taken that isn't right at that moment; all of it is one user action, and one undo.

use model::{Id, Kind};
use store::Store;
use tabular::{Form, Limits, Table, guess, read};

use super::columns::{guessed, remember, remembered};
use super::header;
use super::plan::{Plan, lacks, new_test, plan};
use super::rows::{Columns, cut};
use crate::App;
use crate::dto::{
    ColumnUse, NewReading, ReadingsLack, ReadingsLook, ReadingsPlan, ReadingsTaken, SampleRow,
};
use crate::error::{ApiError, ErrorCode};
use crate::journal_io::{id, new_record, subject};
use crate::usecase::audit::undo_state;

/// Rows that are shown as they are, and as they would be taken.
const SAMPLE: usize = 12;

/// Rows that can't be taken and are told one by one.
const WRONG: usize = 100;

/// The longest piece of a cell that is shown.
const CELL: usize = 60;

/// A table, and how it is used.
struct Looked {
    name: String,
    table: Table,
    form: Form,
    columns: Vec<ColumnUse>,
    remembered: bool,
    lacks: Vec<ReadingsLack>,
    plan: Plan,
}

impl Looked {
    fn at(app: &App, store: &Store, args: &ReadingsLook) -> Result<Self, ApiError> {
        let (name, content) = app.files().content(args.file)?;
        let limits = Limits::default();
        let bytes = content.bytes(limits.bytes as u64)?;
        let form = args.form.unwrap_or_else(|| guess(&bytes));
        let table = read(&bytes, &form, &limits)?;
        let (columns, remembered) = match &args.columns {
            Some(columns) => (columns.clone(), false),
            None => match remembered(store, &table)? {
                Some(columns) => (columns, true),
                None => (guessed(&table, &form), false),
            },
        };
        // Another delimiter gives other columns: what was said of the old ones is void.
        let (columns, remembered) = if columns.len() == table.columns {
            (columns, remembered)
        } else {
            (guessed(&table, &form), false)
        };
        let by_role = Columns::new(&form, &columns);
        let lacks = lacks(store, &table, &columns, &by_role, &args.into)?;
        let plan = if lacks.is_empty() {
            plan(app, store, &table, &by_role, &args.into)?
        } else {
            Plan::default()
        };
        Ok(Self {
            name,
            table,
            form,
            columns,
            remembered,
            lacks,
            plan,
        })
    }

    fn new_readings(&self) -> usize {
        self.plan.groups.iter().map(|it| it.readings.len()).sum()
    }

    fn ready(&self, leave_out_wrong: bool) -> bool {
        self.lacks.is_empty()
            && self.new_readings() > 0
            && (leave_out_wrong || self.plan.wrong.is_empty())
    }
}

fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

fn line(line: u64) -> u32 {
    u32::try_from(line).unwrap_or(u32::MAX)
}

/// Looks at a table.
pub(crate) fn look(app: &App, args: ReadingsLook) -> Result<ReadingsPlan, ApiError> {
    let store = app.store()?;
    let mut looked = Looked::at(app, &store, &args)?;
    let ready = looked.ready(args.into.leave_out_wrong);
    let sample = |row: &tabular::Row| SampleRow {
        line: line(row.line),
        cells: row.cells.iter().map(|cell| cut(cell, CELL)).collect(),
    };
    let groups = &looked.plan.groups;
    let new_sample = groups
        .iter()
        .flat_map(|group| group.readings.iter().map(move |it| (group, it)))
        .take(SAMPLE)
        .map(|(group, planned)| {
            let [job_number, bore_name, test_point_name] = group.names.clone();
            NewReading {
                line: line(planned.line),
                vacuum_pa: planned.reading.vacuum_pa,
                job_number,
                bore_name,
                test_point_name,
            }
        })
        .collect();
    let begun = groups.iter().filter(|group| group.target.test.is_none());
    let plan = ReadingsPlan {
        header: header(&looked.table)
            .iter()
            .map(|name| cut(name, CELL))
            .collect(),
        sample: looked.table.rows.iter().take(SAMPLE).map(sample).collect(),
        rows: count(looked.table.rows.len()),
        new_readings: count(looked.new_readings()),
        new_sample,
        new_tests: count(begun.count()),
        here: count(looked.plan.here),
        alike: count(looked.plan.alike),
        other: count(looked.plan.other),
        wrong: count(looked.plan.wrong.len()),
        wrong_rows: {
            looked.plan.wrong.truncate(WRONG);
            looked.plan.wrong
        },
        name: looked.name,
        form: looked.form,
        columns: looked.columns,
        remembered: looked.remembered,
        lacks: looked.lacks,
        ready,
    };
    Ok(plan)
}

/// Takes a table in.
pub(crate) fn take_in(app: &App, args: ReadingsLook) -> Result<ReadingsTaken, ApiError> {
    let mut store = app.store()?;
    let looked = Looked::at(app, &store, &args)?;
    if !looked.ready(args.into.leave_out_wrong) {
        return Err(ApiError::new(ErrorCode::TableNotReady).with("wrong", looked.plan.wrong.len()));
    }
    let mut records = Vec::new();
    let mut tests: Vec<Id> = Vec::new();
    for group in &looked.plan.groups {
        let of = match group.target.test {
            Some(test) => subject(test),
            None => {
                let of = store.new_subject(app.now())?;
                let test = new_test(&group.target, &args.into);
                records.push(new_record(&store, of, Kind::Test, &test)?);
                of
            }
        };
        tests.push(id(of));
        for planned in &group.readings {
            records.push(new_record(&store, of, Kind::TestReading, &planned.reading)?);
        }
    }
    let readings = count(looked.new_readings());
    app.commit(&mut store, records)?;
    remember(&mut store, &looked.table, looked.form, &looked.columns)?;
    let undo = undo_state(&store)?;
    drop(store);
    app.files().drop_file(args.file);
    Ok(ReadingsTaken {
        readings,
        tests,
        undo,
    })
}
