//! What one row says, by the uses of its columns.

use model::{Finite, Id};
use tabular::{Form, NumberError, Row, of_symbol, parse};

use super::columns::holds_readings;
use crate::dto::{ColumnRole, ColumnUse, RowProblem};

/// The longest that a reading is kept as it was typed.
const TYPED: usize = 40;

/// A row that can't be taken, and the cell at fault.
pub(super) type Refused = (RowProblem, String);

/// The columns of a table by what they hold.
pub(super) struct Columns<'a> {
    form: &'a Form,
    uses: &'a [ColumnUse],
}

impl<'a> Columns<'a> {
    pub(super) const fn new(form: &'a Form, uses: &'a [ColumnUse]) -> Self {
        Self { form, uses }
    }

    pub(super) fn has(&self, role: ColumnRole) -> bool {
        self.uses.iter().any(|it| it.role == role)
    }

    /// The cell of a role, if the row has something there.
    pub(super) fn cell<'r>(&self, row: &'r Row, role: ColumnRole) -> Option<&'r str> {
        let at = self.uses.iter().position(|it| it.role == role)?;
        Some(row.cell(at).trim()).filter(|cell| !cell.is_empty())
    }

    /// The reading, Pa below ambient, and as it was typed.
    pub(super) fn reading(&self, row: &Row) -> Result<(Finite, String), Refused> {
        let at = self.uses.iter().position(|it| holds_readings(it.role));
        let at = at.ok_or((RowProblem::NoReading, String::new()))?;
        let column = &self.uses[at];
        let cell = row.cell(at);
        let refused = |problem| (problem, cut(cell, TYPED));
        let (value, behind) = parse(cell, self.form.decimal).map_err(|error| {
            refused(match error {
                NumberError::Empty => RowProblem::NoReading,
                NumberError::OtherSign => RowProblem::OtherDecimalSign,
                NumberError::NotANumber => RowProblem::NotANumber,
            })
        })?;
        // A unit in the cell beats that of the column.
        let symbol = if behind.is_empty() {
            column.unit.as_deref().unwrap_or_default()
        } else {
            behind
        };
        let unit = of_symbol(symbol).ok_or_else(|| refused(RowProblem::UnknownUnit))?;
        let sign = if column.role == ColumnRole::GaugePressure {
            -1.0
        } else {
            1.0
        };
        let si = sign * value * unit.pascals;
        // Minus nothing is nothing.
        let si = Finite::new(if si == 0.0 { 0.0 } else { si });
        let si = si.ok_or_else(|| refused(RowProblem::NotANumber))?;
        let typed = if behind.is_empty() {
            format!("{} {}", cell.trim(), unit.symbol)
        } else {
            cell.trim().to_owned()
        };
        Ok((si, cut(&typed, TYPED)))
    }

    /// Whether the plug was seated anew, where a column says.
    pub(super) fn reseated(&self, row: &Row) -> Result<Option<bool>, Refused> {
        let Some(cell) = self.cell(row, ColumnRole::Reseated) else {
            return Ok(None);
        };
        match cell.to_lowercase().as_str() {
            "yes" | "y" | "true" | "1" | "x" => Ok(Some(true)),
            "no" | "n" | "false" | "0" | "-" => Ok(Some(false)),
            _ => Err((RowProblem::NotYesOrNo, cut(cell, TYPED))),
        }
    }

    /// The record that a row names, if it has the form of one.
    pub(super) fn record(&self, row: &Row) -> Option<Id> {
        self.cell(row, ColumnRole::Record)?.parse().ok()
    }
}

/// The beginning of a text that may be long.
pub(super) fn cut(text: &str, most: usize) -> String {
    let text = text.trim();
    if text.chars().count() <= most {
        return text.to_owned();
    }
    text.chars().take(most - 1).chain(['…']).collect()
}
