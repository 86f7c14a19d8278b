//! Tolerance classes and fits of ISO 286-1 for sizes over 1 to 30 mm.
//!
//! Grades IT1 to IT18; holes C to H, JS, J, K, M, N, P, R, S and shafts c to h, js, j, k, m, n, p,
//! r, s. Hole deviations K, M, N up to IT8 and P to S up to IT7 carry the standard's correction
//! `delta = IT_n - IT_(n-1)` above 3 mm. Tables: see the file beside this one; IT6 to IT18 also
//! follow the standard's tolerance unit `i = 0.45 D^(1/3) + 0.001 D` (annex of ISO 286-1), which a
//! test holds them to.

use uom::si::f64::Length;
use uom::si::length::{meter, micrometer};

use super::iso286_table as table;
use crate::error::PhysicsError;
use crate::quantity::Interval;
use crate::range;

/// A tolerance class such as H7 or g6.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ToleranceClass {
    hole: bool,
    letter: Letter,
    grade: u8,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Letter {
    /// c to g, with its row.
    Clear(usize),
    H,
    Js,
    J,
    K,
    /// m to s, with its row.
    Tight(usize),
}

/// Limits of a part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Lower and upper deviation from the nominal size.
    pub deviations: Interval<Length>,
    /// Smallest and largest size.
    pub sizes: Interval<Length>,
}

/// How a hole and a shaft go together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FitKind {
    /// Always loose.
    Clearance,
    /// Loose or tight.
    Transition,
    /// Always tight.
    Interference,
}

/// Limits of a fit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// The hole.
    pub hole: Limits,
    /// The shaft.
    pub shaft: Limits,
    /// Diametral clearance, least and most; negative is interference.
    pub clearance: Interval<Length>,
    /// What kind of fit that is.
    pub kind: FitKind,
}

/// Standard tolerance of grade 1 to 18 (ISO 286-1:2010, Table 1).
///
/// # Errors
/// [`PhysicsError::OutOfRange`] for a size outside 1 to 30 mm; [`PhysicsError::NotTabulated`] for
/// another grade.
pub fn standard_tolerance(nominal: Length, grade: u8) -> Result<Length, PhysicsError> {
    let column = column(nominal)?;
    Ok(Length::new::<micrometer>(it(grade, column)?))
}

impl ToleranceClass {
    /// Reads a class as it is written: a letter (or JS, js), then the grade. Capital letters are
    /// holes.
    ///
    /// # Errors
    /// [`PhysicsError::NotTabulated`] for a letter or grade that isn't here.
    pub fn parse(text: &str) -> Result<Self, PhysicsError> {
        let split = text
            .find(|c: char| c.is_ascii_digit())
            .unwrap_or(text.len());
        let (letters, digits) = text.split_at(split);
        let hole = letters.starts_with(|c: char| c.is_ascii_uppercase());
        let lower = letters.to_ascii_lowercase();
        if letters != lower && letters != letters.to_ascii_uppercase() {
            return Err(NOT_TABULATED);
        }
        let row = |rows: &[(char, [f64; 5])]| {
            let mut chars = lower.chars();
            let letter = chars.next().filter(|_| chars.next().is_none())?;
            rows.iter().position(|r| r.0 == letter)
        };
        let letter = match lower.as_str() {
            "h" => Letter::H,
            "js" => Letter::Js,
            "j" => Letter::J,
            "k" => Letter::K,
            _ => row(&table::CLEAR)
                .map(Letter::Clear)
                .or_else(|| row(&table::TIGHT).map(Letter::Tight))
                .ok_or(NOT_TABULATED)?,
        };
        let grade = digits
            .parse()
            .ok()
            .filter(|g| (1..=18).contains(g) && !digits.starts_with(['0', '+']))
            .ok_or(NOT_TABULATED)?;
        Ok(Self {
            hole,
            letter,
            grade,
        })
    }

    /// Whether this is the class of a hole.
    #[must_use]
    pub fn is_hole(&self) -> bool {
        self.hole
    }

    /// Limits at a nominal size over 1 to 30 mm.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`]; [`PhysicsError::NotTabulated`] where the standard has no such
    /// class (such as J9, or K9 above 3 mm).
    pub fn limits(&self, nominal: Length) -> Result<Limits, PhysicsError> {
        let column = column(nominal)?;
        let width = it(self.grade, column)?;
        let (low, high) = if self.hole {
            self.hole_deviations(column, width)?
        } else {
            self.shaft_deviations(column, width)?
        };
        let um = Length::new::<micrometer>;
        Ok(Limits {
            deviations: Interval {
                low: um(low),
                high: um(high),
            },
            sizes: Interval {
                low: nominal + um(low),
                high: nominal + um(high),
            },
        })
    }

    fn shaft_deviations(&self, column: usize, width: f64) -> Result<(f64, f64), PhysicsError> {
        let below = |upper: f64| (upper - width, upper);
        let above = |lower: f64| (lower, lower + width);
        Ok(match self.letter {
            Letter::Clear(row) => below(table::CLEAR[row].1[column]),
            Letter::H => below(0.0),
            Letter::Js => (-0.5 * width, 0.5 * width),
            Letter::J => match self.grade {
                5 | 6 => above(table::J_SHAFT[0][column]),
                7 => above(table::J_SHAFT[1][column]),
                _ => return Err(NOT_TABULATED),
            },
            Letter::K if (4..=7).contains(&self.grade) => above(table::K_SHAFT[column]),
            Letter::K => above(0.0),
            Letter::Tight(row) => above(table::TIGHT[row].1[column]),
        })
    }

    fn hole_deviations(&self, column: usize, width: f64) -> Result<(f64, f64), PhysicsError> {
        let below = |upper: f64| (upper - width, upper);
        let above = |lower: f64| (lower, lower + width);
        let small = column == 0;
        let grade = self.grade;
        // The correction has values for IT3 to IT8 only; none at the smallest sizes.
        let delta = || {
            if small {
                Ok(0.0)
            } else if (3..=8).contains(&grade) {
                Ok(width - it(grade - 1, column)?)
            } else {
                Err(NOT_TABULATED)
            }
        };
        Ok(match self.letter {
            Letter::Clear(row) => above(-table::CLEAR[row].1[column]),
            Letter::H => above(0.0),
            Letter::Js => (-0.5 * width, 0.5 * width),
            Letter::J => match grade {
                6..=8 => below(table::J_HOLE[usize::from(grade) - 6][column]),
                _ => return Err(NOT_TABULATED),
            },
            Letter::K if grade <= 8 || small => below(table::K_HOLE[column] + delta()?),
            Letter::K => return Err(NOT_TABULATED),
            Letter::Tight(row) => {
                let (letter, values) = table::TIGHT[row];
                let plain = -values[column];
                below(match letter {
                    'm' | 'n' if grade <= 8 => plain + delta()?,
                    'n' if !small => 0.0,
                    'm' | 'n' => plain,
                    _ if grade <= 7 => plain + delta()?,
                    _ => plain,
                })
            }
        })
    }
}

/// The fit of a hole class and a shaft class.
///
/// # Errors
/// As [`ToleranceClass::limits`]; [`PhysicsError::Contradiction`] when `hole` is a shaft's class or
/// `shaft` a hole's.
pub fn fit(
    nominal: Length,
    hole: ToleranceClass,
    shaft: ToleranceClass,
) -> Result<Fit, PhysicsError> {
    if !hole.hole || shaft.hole {
        return Err(PhysicsError::Contradiction {
            field: "tolerance_class",
            other: "shaft_class",
        });
    }
    let (hole, shaft) = (hole.limits(nominal)?, shaft.limits(nominal)?);
    let clearance = Interval {
        low: hole.deviations.low - shaft.deviations.high,
        high: hole.deviations.high - shaft.deviations.low,
    };
    // Half a nanometre, for what rounding leaves of a zero.
    let zero = 0.5e-9;
    let kind = if clearance.low.get::<meter>() >= -zero {
        FitKind::Clearance
    } else if clearance.high.get::<meter>() <= zero {
        FitKind::Interference
    } else {
        FitKind::Transition
    };
    Ok(Fit {
        hole,
        shaft,
        clearance,
        kind,
    })
}

const NOT_TABULATED: PhysicsError = PhysicsError::NotTabulated {
    field: "tolerance_class",
};

fn column(nominal: Length) -> Result<usize, PhysicsError> {
    let mm = range::NOMINAL_SIZE.check(nominal.get::<meter>())? * 1e3;
    // A size of 3 mm is in the column up to 3, whatever the last bit of its metres.
    let up_to = |end: &f64| mm <= end + 1e-9;
    Ok(table::UP_TO_MM.iter().position(up_to).unwrap_or(4))
}

fn it(grade: u8, column: usize) -> Result<f64, PhysicsError> {
    usize::from(grade)
        .checked_sub(1)
        .and_then(|row| table::IT.get(row))
        .map(|row| row[column])
        .ok_or(NOT_TABULATED)
}

#[cfg(test)]
#[path = "iso286_tests.rs"]
mod tests;
