//! What a transient comes to.

use std::sync::Arc;

use uom::si::f64::{Pressure, Time};

use super::oscillation::Oscillation;
use crate::assumption::Assumption;

/// Pressures, position and demand at evenly spaced moments: plain SI numbers, all lists of the
/// same length, all finite, ready to be written out or drawn.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Trace {
    /// Time from the start, s.
    pub time_s: Vec<f64>,
    /// Line pressure, Pa over sump.
    pub line_pa: Vec<f64>,
    /// Regulated pressure P_S, Pa over sump.
    pub feed_pa: Vec<f64>,
    /// Pressure on the reaction area P_F, Pa over sump.
    pub reaction_pa: Vec<f64>,
    /// Pressure in the spring chamber, Pa over sump.
    pub spring_chamber_pa: Vec<f64>,
    /// Spool position x, m.
    pub spool_position_m: Vec<f64>,
    /// Spool speed, m/s, positive toward the closed stop.
    pub spool_speed_m_per_s: Vec<f64>,
    /// What the solenoids take, m3/s.
    pub demand_m3_per_s: Vec<f64>,
}

/// What the solver did.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SolverStatistics {
    /// Steps that held the tolerance.
    pub accepted: u64,
    /// Steps that were tried and taken shorter.
    pub rejected: u64,
    /// Evaluations of the rates.
    pub rate_evaluations: u64,
    /// Evaluations of the rates with their derivatives.
    pub jacobians: u64,
    /// Factorisations of the step's matrix.
    pub factorisations: u64,
    /// How often the spool met a stop.
    pub stop_contacts: u64,
    /// How often the spool came to a halt and stuck.
    pub sticks: u64,
    /// How often the spool left a stop or broke away from friction.
    pub break_aways: u64,
    /// The shortest step, s; infinite before the first.
    pub shortest_step_s: f64,
    /// The longest step, s.
    pub longest_step_s: f64,
}

impl Default for SolverStatistics {
    fn default() -> Self {
        Self {
            accepted: 0,
            rejected: 0,
            rate_evaluations: 0,
            jacobians: 0,
            factorisations: 0,
            stop_contacts: 0,
            sticks: 0,
            break_aways: 0,
            shortest_step_s: f64::INFINITY,
            longest_step_s: 0.0,
        }
    }
}

/// A transient and what can be read from it.
///
/// The **tail** is the last quarter of the time after line and demand last bent or jumped, cut to
/// whole periods of the ripple (all of it if that is less than one period).
#[derive(Debug, Clone, PartialEq)]
pub struct Transient {
    /// Everything against time.
    pub trace: Trace,
    /// Lowest feed.
    pub feed_lowest: Pressure,
    /// Highest feed.
    pub feed_highest: Pressure,
    /// Mean feed in the tail: where it ends up.
    pub feed_final: Pressure,
    /// Time from the last bend or jump of line and demand until feed stays within the settling
    /// band (widened by half of the ripple that remains) around `feed_final`. None if it doesn't
    /// before the tail, or if the circuit oscillates by itself.
    pub settling_time: Option<Time>,
    /// How far feed goes beyond `feed_final` after the last bend or jump, in the direction of
    /// the change, less half of the ripple that remains; 0 if it doesn't.
    pub overshoot: Pressure,
    /// Line in the tail, crest to trough; none with under 16 points a period of the ripple.
    pub ripple_in: Option<Pressure>,
    /// Feed in the tail, crest to trough; none as before.
    pub ripple_out: Option<Pressure>,
    /// Whether feed swings by itself, beside the pump's ripple.
    pub oscillation: Oscillation,
    /// What the solver did.
    pub statistics: SolverStatistics,
    /// What was assumed.
    pub assumptions: Arc<[Assumption]>,
}
