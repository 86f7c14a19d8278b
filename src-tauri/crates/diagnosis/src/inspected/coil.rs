//! A solenoid's resistance held against its limits at the temperature for which these are given.
//!
//! The reading is carried there as copper's ([`physics::solenoid::resistance_at`], IEC 60028). Its
//! meter's limits of error go along: inside and outside are said only where all of that interval
//! lies there (ISO 14253-1).

use std::collections::BTreeMap;

use model::bench::Instrument;
use model::finding::{Finding, FindingCode, Severity};
use model::inspection::{Outcome, SolenoidCheck};
use model::{Finite, Id};
use physics::solenoid::resistance_at;
use uom::si::electrical_resistance::ohm;
use uom::si::f64::{ElectricalResistance, ThermodynamicTemperature};
use uom::si::thermodynamic_temperature::kelvin;

/// A resistance at the temperature of its limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coil {
    /// Low and high end by the meter's limits of error, ohm; the same where no meter is known.
    pub at_limits_ohm: [f64; 2],
    /// Within, too close to call, or outside.
    pub outcome: Outcome,
}

impl Coil {
    /// What is odd about it, at its field; nothing within its limits.
    #[must_use]
    pub fn finding(&self) -> Option<Finding> {
        let code = match self.outcome {
            Outcome::Bad => FindingCode::CoilOutsideLimits,
            Outcome::Doubtful => FindingCode::CoilTooCloseToCall,
            Outcome::Good | Outcome::Measured => return None,
        };
        let [low, high] = self.at_limits_ohm;
        Some(Finding::at(Severity::Doubt, code, "resistance_ohm").with_bounds(low, high))
    }
}

/// Carries a resistance to the temperature of its limits and holds it against them. None without a
/// reading, a limit or one of the temperatures, and where a figure can't be true.
#[must_use]
pub fn coil(check: &SolenoidCheck, instruments: &BTreeMap<Id, Instrument>) -> Option<Coil> {
    let (read, from, to) = (
        check.resistance_ohm?,
        check.temperature_k?,
        check.limits_at_k?,
    );
    if check.low_ohm.is_none() && check.high_ohm.is_none() {
        return None;
    }
    let known = check.ohmmeter.and_then(|id| instruments.get(&id));
    let error = known.map_or(0.0, |meter| *meter.limits_of_error_si);
    let temperature = |at: Finite| ThermodynamicTemperature::new::<kelvin>(*at);
    let carried = |value: f64| {
        let there = resistance_at(
            ElectricalResistance::new::<ohm>(value),
            temperature(from),
            temperature(to),
        );
        there.ok().map(|found| found.get::<ohm>())
    };
    let [low, high] = [carried(*read - error)?, carried(*read + error)?];
    let least = check.low_ohm.map_or(f64::NEG_INFINITY, |low| *low);
    let most = check.high_ohm.map_or(f64::INFINITY, |high| *high);
    let outcome = if low >= least && high <= most {
        Outcome::Good
    } else if high < least || low > most {
        Outcome::Bad
    } else {
        Outcome::Doubtful
    };
    Some(Coil {
        at_limits_ohm: [low, high],
        outcome,
    })
}
