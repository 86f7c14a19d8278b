//! Readings as a table: out as a file that a spreadsheet opens, and in from one or from a logger.

use model::{Finding, Finite, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use tabular::{Decimal, Form};

use super::UndoState;

/// Write readings as a table.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReadingsWrite {
    /// Of these jobs; none: of all.
    #[serde(default)]
    pub jobs: Option<Vec<Id>>,
    /// What stands before decimals. With a comma the cells are parted by semicolons.
    pub decimal: Decimal,
    /// True: a byte order mark stands first. Spreadsheets need it to read UTF-8 as such, other
    /// programs stumble over it.
    pub byte_order_mark: bool,
}

/// A table, ready to be saved.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct ReadingsWritten {
    /// The file.
    pub file: u32,
    /// A name for it.
    pub name: String,
    /// Its length.
    pub bytes: u64,
    /// Rows, without the one that names the columns.
    pub rows: u32,
    /// Rows that are vacuum readings of a bore.
    pub readings: u32,
}

/// Look at a table without taking it in, or take it in as it was looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReadingsLook {
    /// The file.
    pub file: u32,
    /// How it is written; none: guessed.
    #[serde(default)]
    pub form: Option<Form>,
    /// What each column is, from the left; none: as it was the last time with such columns, else
    /// guessed.
    #[serde(default)]
    pub columns: Option<Vec<ColumnUse>>,
    /// Where the readings belong.
    #[serde(default)]
    pub into: ReadingsInto,
}

/// Where readings belong, as far as no column says so.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct ReadingsInto {
    /// The job.
    pub job: Option<Id>,
    /// The bore.
    pub bore: Option<Id>,
    /// The test point of the bore; none: its only one.
    pub test_point: Option<Id>,
    /// The stand of the tests that are begun.
    pub stand: Option<Id>,
    /// The valve was turned and the plug seated anew before each reading.
    pub reseated: bool,
    /// Take rows whose reading looks the same as one that is here already.
    pub take_alike: bool,
    /// Leave out the rows that can't be taken.
    pub leave_out_wrong: bool,
}

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ColumnRole {
    /// Nothing that is taken.
    Nothing,
    /// Vacuum, counted positive below ambient.
    Vacuum,
    /// Pressure against ambient, negative below it.
    GaugePressure,
    /// Whether the valve was turned and the plug seated anew.
    Reseated,
    /// The record, as this app writes it.
    Record,
    /// The kind of record, as this app writes it.
    Kind,
    /// Whatever tells one test from another.
    Test,
    /// The job's number.
    Job,
    /// The bore's name.
    Bore,
    /// The test point's name.
    TestPoint,
}

/// How one column is used.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ColumnUse {
    /// What it holds.
    pub role: ColumnRole,
    /// The unit of its numbers where a cell names none: `inHg`, `kPa`, `hPa`, `mbar`, `bar`, `Pa`,
    /// `psi`, `mmHg` or `Torr`.
    #[serde(default)]
    pub unit: Option<String>,
}

/// What is still to be said before the rows can be looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ReadingsLack {
    /// No column holds the readings.
    Vacuum,
    /// Two columns hold the same.
    OneColumnEach,
    /// The readings' unit.
    Unit,
    /// The job.
    Job,
    /// The bore.
    Bore,
    /// The test point: the bore has several.
    TestPoint,
}

/// Why a row can't be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum RowProblem {
    /// There is no reading in it.
    NoReading,
    /// The reading is no number.
    NotANumber,
    /// The number holds the other decimal sign.
    OtherDecimalSign,
    /// The unit in the cell is none of pressure.
    UnknownUnit,
    /// Neither yes nor no.
    NotYesOrNo,
    /// No job has that number.
    NoSuchJob,
    /// Several jobs have it.
    SeveralJobs,
    /// The job's unit has no such bore, or several.
    NoSuchBore,
    /// The bore has no such test point, or several and none is named.
    NoSuchTestPoint,
    /// The test is one of another job or bore.
    TestOfAnother,
    /// The record is here with another reading. Corrections are made in the app.
    DiffersFromRecord,
    /// Judged as if it had been typed, it can't be used: its findings say why.
    Findings,
}

/// A row of the file as it is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct SampleRow {
    /// Line of the file on which it begins.
    pub line: u32,
    /// Its cells, cut where they are long.
    pub cells: Vec<String>,
}

/// A row that can't be taken.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct WrongRow {
    /// Line of the file on which it begins.
    pub line: u32,
    /// Why.
    pub problem: RowProblem,
    /// The cell at fault.
    pub cell: String,
    /// What a typed reading would be told.
    pub findings: Vec<Finding>,
}

/// A reading that would be taken.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct NewReading {
    /// Line of the file on which its row begins.
    pub line: u32,
    /// The reading, Pa below ambient.
    pub vacuum_pa: Finite,
    /// The job's number.
    pub job_number: String,
    /// The bore's name.
    pub bore_name: String,
    /// The test point's name.
    pub test_point_name: String,
}

/// What a table is and what taking it in would do.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ReadingsPlan {
    /// The file's name.
    pub name: String,
    /// How it was read.
    pub form: Form,
    /// Names of the columns; empty where the file has none.
    pub header: Vec<String>,
    /// How each column was used.
    pub columns: Vec<ColumnUse>,
    /// True when that is remembered from the last file with such columns.
    pub remembered: bool,
    /// The first rows.
    pub sample: Vec<SampleRow>,
    /// All rows.
    pub rows: u32,
    /// What is still to be said; while there is any, no row was looked at.
    pub lacks: Vec<ReadingsLack>,
    /// Rows whose reading is new here.
    pub new_readings: u32,
    /// The first of them.
    pub new_sample: Vec<NewReading>,
    /// Tests that are begun for them.
    pub new_tests: u32,
    /// Rows that are here already.
    pub here: u32,
    /// Those of them that only look the same as a reading that is here.
    pub alike: u32,
    /// Rows of other kinds.
    pub other: u32,
    /// Rows that can't be taken.
    pub wrong: u32,
    /// The first hundred of them.
    pub wrong_rows: Vec<WrongRow>,
    /// True when it can be taken in as it stands.
    pub ready: bool,
}

/// What was taken in, in one action.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ReadingsTaken {
    /// Readings.
    pub readings: u32,
    /// The tests that hold them.
    pub tests: Vec<Id>,
    /// What undo and redo would do.
    pub undo: UndoState,
}
