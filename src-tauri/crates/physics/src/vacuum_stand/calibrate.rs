//! The stand's constants from known orifices at the end of its hose.

use uom::si::f64::{Pressure, Ratio, VolumeRate};
use uom::si::ratio::ratio;
use uom::si::volume_rate::cubic_meter_per_second;

use super::normal_equations::Normal;
use super::{BalanceOrifice, Checked, DeadHead, Leak, VacuumStand};
use crate::air::Air;
use crate::assumption::{Assumption, note};
use crate::error::PhysicsError;
use crate::hole::Hole;
use crate::quantity::{HoseResistance, hose_resistance, pascals};
use crate::range::{self, within};

/// Condition number of the fit above which S and R_h can't be told apart.
const WORST_CONDITION: f64 = 1.0e4;

/// One orifice at the end of the hose, open to the shop, and its reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CalibrationOrifice {
    /// The orifice.
    pub hole: Hole,
    /// What the gauge read on it.
    pub reading: Pressure,
}

/// A calibration as it was done.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CalibrationTest<'a> {
    /// Plugged hose.
    pub dead_head: DeadHead,
    /// Barometer on that day.
    pub barometer: Pressure,
    /// Air in the shop.
    pub air: Air,
    /// The orifices, one or more.
    pub orifices: &'a [CalibrationOrifice],
    /// Standard uncertainty of one reading, chance only: 1 Pa to 20 kPa.
    pub reading_uncertainty: Pressure,
    /// Relative standard uncertainty common to all the orifices' conductances (one assumed
    /// discharge coefficient): 0 to 0.5. It scales S and 1/R_h alike.
    pub conductance_uncertainty: Ratio,
}

/// How the hose resistance was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HoseFit {
    /// Fitted together with the pull.
    Fitted,
    /// The best fit would be below zero, so it is zero.
    AtZero,
    /// One orifice can't tell: zero.
    OneOrifice,
    /// Orifices so small that all choke, or so alike, can't tell: zero. A larger one would.
    NotResolved,
}

/// A fitted stand and how good the fit is.
#[derive(Debug, Clone, PartialEq)]
pub struct Calibration {
    /// The stand.
    pub stand: VacuumStand,
    /// How R_h was found.
    pub hose_fit: HoseFit,
    /// Relative standard uncertainty of S: readings, dead-head and conductances.
    pub pull_uncertainty: Ratio,
    /// Standard uncertainty of R_h from the readings; `None` unless [`HoseFit::Fitted`].
    pub hose_uncertainty: Option<HoseResistance>,
    /// Reading less the fitted stand's, one for each orifice, in the order given.
    pub residuals: Vec<Pressure>,
    /// Condition number of the fit in ln S and scaled R_h (1 when S alone was fitted).
    pub condition: Ratio,
    /// Orifices beyond the constants fitted: 0 means that the residuals prove nothing.
    pub degrees_of_freedom: usize,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

/// Fits S and R_h >= 0 by least squares of the readings (Levenberg-Marquardt on ln S and a scaled
/// R_h). With one orifice, S alone.
///
/// # Errors
/// [`PhysicsError::TooFew`] without orifices, [`PhysicsError`] naming
/// `calibration_reading_pa` (between 0 and the dead-head), `reading_uncertainty_pa`,
/// `conductance_uncertainty_ratio`, `stand_pull_m3_per_s` when the pull comes out absurd, or other
/// inputs out of range.
pub fn calibrate(test: &CalibrationTest) -> Result<Calibration, PhysicsError> {
    let p_a = range::BAROMETER.check(test.barometer.value)?;
    let dead = test.dead_head.at(test.barometer)?.value;
    let noise = within(
        "reading_uncertainty_pa",
        test.reading_uncertainty.value,
        1.0,
        2.0e4,
        "Pa",
    )?;
    let common = within(
        "conductance_uncertainty_ratio",
        test.conductance_uncertainty.get::<ratio>(),
        0.0,
        0.5,
        "1",
    )?;
    if test.orifices.is_empty() {
        return Err(PhysicsError::TooFew {
            field: "orifices",
            count: 0,
            least: 1,
        });
    }
    // A pascal of margin: a reading at the dead-head itself would mean an endless pull.
    for orifice in test.orifices {
        within(
            "calibration_reading_pa",
            orifice.reading.value,
            0.0,
            p_a - dead - 1.0,
            "Pa",
        )?;
    }
    let data = Data { test, p_a, dead };
    let (fit, hose_fit) = data.best()?;
    let n = test.orifices.len();
    let fitted = if hose_fit == HoseFit::Fitted { 2 } else { 1 };
    let degrees_of_freedom = n - fitted;
    let scatter = if degrees_of_freedom > 0 {
        (fit.sum_of_squares() / degrees_of_freedom as f64)
            .sqrt()
            .max(noise)
    } else {
        noise
    };
    let (var_pull, var_hose) = fit.normal.inverse_diagonal(fitted == 2);
    // The dead-head is a reading like the others.
    let moved = Data {
        test,
        p_a,
        dead: (dead + noise).min(p_a),
    }
    .fit(fitted == 2)?;
    let by_dead_head = moved.log_pull - fit.log_pull;
    let u_pull = (var_pull * scatter * scatter + by_dead_head.powi(2) + common * common).sqrt();
    let scale = data.hose_scale();
    let stand = data.stand(fit.log_pull, fit.hose, scale);
    range::STAND_PULL.check(stand.pull.value)?;
    range::HOSE_RESISTANCE.check(stand.hose_resistance.value)?;
    let mut assumptions = stand.assumptions();
    note(&mut assumptions, Assumption::AssumedDischarge);
    Ok(Calibration {
        stand,
        hose_fit,
        pull_uncertainty: Ratio::new::<ratio>(u_pull),
        hose_uncertainty: (fitted == 2).then(|| hose_resistance(var_hose.sqrt() * scatter * scale)),
        residuals: fit.residuals.iter().map(|r| pascals(*r)).collect(),
        condition: Ratio::new::<ratio>(fit.normal.condition(fitted == 2)),
        degrees_of_freedom,
        assumptions,
    })
}

struct Data<'a> {
    test: &'a CalibrationTest<'a>,
    p_a: f64,
    dead: f64,
}

struct Fit {
    log_pull: f64,
    hose: f64,
    residuals: Vec<f64>,
    normal: Normal,
}

impl Fit {
    fn sum_of_squares(&self) -> f64 {
        self.residuals.iter().map(|r| r * r).sum()
    }
}

impl Data<'_> {
    /// Fits with the hose, and without it where that is what the readings can carry.
    fn best(&self) -> Result<(Fit, HoseFit), PhysicsError> {
        if self.test.orifices.len() == 1 {
            return Ok((self.fit(false)?, HoseFit::OneOrifice));
        }
        let both = self.fit(true)?;
        let condition = both.normal.condition(true);
        if !condition.is_finite() || condition > WORST_CONDITION {
            return Ok((self.fit(false)?, HoseFit::NotResolved));
        }
        if both.hose == 0.0 {
            return Ok((self.fit(false)?, HoseFit::AtZero));
        }
        Ok((both, HoseFit::Fitted))
    }

    /// Hose resistance at which the first orifice's flow would cost the whole barometer.
    fn hose_scale(&self) -> f64 {
        let most = self
            .test
            .orifices
            .iter()
            .map(|o| o.hole.throughput_si(&self.test.air, self.p_a, 0.0))
            .fold(0.0, f64::max);
        self.p_a * self.p_a / most
    }

    fn stand(&self, log_pull: f64, hose: f64, scale: f64) -> VacuumStand {
        VacuumStand {
            pull: VolumeRate::new::<cubic_meter_per_second>(log_pull.exp()),
            dead_head: self.test.dead_head,
            hose_resistance: hose_resistance(hose * scale),
        }
    }

    /// Observed less predicted gauge pressure changes sign as a reading does: reading less fit.
    fn residuals(&self, log_pull: f64, hose: f64) -> Result<Vec<f64>, PhysicsError> {
        let stand = Checked {
            ambient: self.p_a,
            dead_head: self.dead,
            pull: log_pull.exp(),
            hose: hose * self.hose_scale(),
        };
        let read = |o: &CalibrationOrifice| {
            let leak = Leak::Hole(o.hole);
            let p_g = stand.gauge_pressure(&leak, &BalanceOrifice::Blocked, &self.test.air)?;
            Ok(o.reading.value - (self.p_a - p_g))
        };
        self.test.orifices.iter().map(read).collect()
    }

    fn fit(&self, with_hose: bool) -> Result<Fit, PhysicsError> {
        let first = &self.test.orifices[0];
        let p_g = self.p_a - first.reading.value;
        let q = first
            .hole
            .throughput_si(&self.test.air, self.p_a, p_g.min(0.999 * self.p_a));
        let (mut x, mut hose) = ((q / (p_g - self.dead).max(1.0)).ln(), 0.0);
        if with_hose {
            hose = 0.01;
        }
        let mut residuals = self.residuals(x, hose)?;
        let mut normal = self.normal(x, hose, &residuals)?;
        let mut damping = 1.0e-3;
        for _ in 0..200 {
            let (step_x, step_hose) = normal.step(damping, with_hose, hose);
            let (new_x, new_hose) = (x + step_x.clamp(-2.0, 2.0), (hose + step_hose).max(0.0));
            let trial = self.residuals(new_x, new_hose)?;
            let better = squares(&trial) < squares(&residuals);
            let still = (new_x - x).abs() < 1e-12 && (new_hose - hose).abs() < 1e-12;
            if better {
                (x, hose, residuals) = (new_x, new_hose, trial);
                normal = self.normal(x, hose, &residuals)?;
                damping = (damping / 10.0).max(1.0e-12);
            } else {
                damping *= 10.0;
            }
            if still || damping > 1.0e12 {
                break;
            }
        }
        Ok(Fit {
            log_pull: x,
            hose,
            residuals,
            normal,
        })
    }

    fn normal(&self, x: f64, hose: f64, residuals: &[f64]) -> Result<Normal, PhysicsError> {
        let h = 1.0e-5;
        let by_pull = (self.residuals(x + h, hose)?, self.residuals(x - h, hose)?);
        let by_hose = self.residuals(x, hose + h)?;
        let mut normal = Normal::default();
        for (i, r) in residuals.iter().enumerate() {
            let a = (by_pull.0[i] - by_pull.1[i]) / (2.0 * h);
            let b = (by_hose[i] - r) / h;
            normal.add(a, b, *r);
        }
        Ok(normal)
    }
}

fn squares(r: &[f64]) -> f64 {
    r.iter().map(|r| r * r).sum()
}
