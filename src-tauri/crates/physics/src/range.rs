//! The one table of what an input may be.
//!
//! Bounds are wide: they stop slips of the finger, wrong units and nonsense, and say nothing
//! about what is good. They are our own choice (`from memory`, no source), set so that every
//! part that could sit in a valve body passes and a mistake of a unit mostly does not.

use crate::error::PhysicsError;

pub mod air;
pub mod parts;

pub use air::*;
pub use parts::*;

/// The legal values of one kind of input.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// Stable name, ending in its unit; the `field` of an error.
    pub field: &'static str,
    /// What a person calls it, in plain English.
    pub name: &'static str,
    /// Lowest legal value, in `unit`.
    pub low: f64,
    /// Highest legal value, in `unit`.
    pub high: f64,
    /// SI unit of the bounds.
    pub unit: &'static str,
}

impl Range {
    /// Gives `value` back when it is finite and within the bounds (both included).
    ///
    /// # Errors
    /// [`PhysicsError::NotFinite`], [`PhysicsError::OutOfRange`].
    pub fn check(&self, value: f64) -> Result<f64, PhysicsError> {
        self.check_as(self.field, value)
    }

    /// As [`Range::check`], with the error naming `field`: for an input that has the range of its
    /// kind but a place of its own, such as the second of two readings.
    ///
    /// # Errors
    /// As [`Range::check`].
    pub fn check_as(&self, field: &'static str, value: f64) -> Result<f64, PhysicsError> {
        within(field, value, self.low, self.high, self.unit)
    }
}

/// Gives `value` back when it is finite and `low <= value <= high`: for bounds that hang on other
/// inputs and so can't sit in the table.
///
/// # Errors
/// [`PhysicsError::NotFinite`], [`PhysicsError::OutOfRange`].
pub fn within(
    field: &'static str,
    value: f64,
    low: f64,
    high: f64,
    unit: &'static str,
) -> Result<f64, PhysicsError> {
    if !value.is_finite() {
        return Err(PhysicsError::NotFinite { field });
    }
    if value < low || value > high {
        return Err(PhysicsError::OutOfRange {
            field,
            value,
            low,
            high,
            unit,
        });
    }
    Ok(value)
}

macro_rules! ranges {
    ($($(#[$doc:meta])* $id:ident = $field:literal, $name:literal, $low:expr, $high:expr, $unit:literal;)*) => {
        $($(#[$doc])* pub const $id: Range =
            Range { field: $field, name: $name, low: $low, high: $high, unit: $unit };)*
        /// The rows of this file.
        pub const ROWS: &[Range] = &[$($id),*];
    };
}
pub(crate) use ranges;

/// Every row of the table, for looking a field's human name up.
pub fn all() -> impl Iterator<Item = &'static Range> {
    [ROWS, air::ROWS, parts::ROWS].into_iter().flatten()
}

/// The row of the table for a field's stable name.
#[must_use]
pub fn find(field: &str) -> Option<&'static Range> {
    all().find(|r| r.field == field)
}

/// What a person calls a field: from the table, from [`NAMES`], or else the field itself.
#[must_use]
pub fn name(field: &'static str) -> &'static str {
    let other = || {
        NAMES
            .iter()
            .chain(parts::NAMES)
            .find(|(f, _)| *f == field)
            .map(|(_, name)| *name)
    };
    find(field).map(|r| r.name).or_else(other).unwrap_or(field)
}

/// Names of the fields that have the range of another kind of input, or one that hangs on others.
pub const NAMES: &[(&str, &str)] = &[
    ("air_viscosity_pa_s", "viscosity of the air"),
    ("area_m2", "flow area"),
    ("boost_area_m2", "boost area"),
    (
        "calibration_reading_pa",
        "reading on the calibration orifice",
    ),
    ("chamber_volume_m3", "volume of the spring chamber"),
    (
        "cold_temperature_k",
        "lower temperature of the viscosity pair",
    ),
    (
        "cold_viscosity_m2_per_s",
        "viscosity at the lower temperature",
    ),
    (
        "conductance_uncertainty_ratio",
        "uncertainty of the orifices",
    ),
    (
        "dead_head_barometer_pa",
        "barometer at the dead-head reading",
    ),
    ("dead_head_reading_pa", "dead-head reading"),
    ("demand_outlets_ratio", "number of outlets"),
    (
        "diameter_difference_m",
        "difference of the valves' diameters",
    ),
    (
        "difference_tolerance_ratio",
        "tolerance of the difference of diameters",
    ),
    ("eigenvalues", "eigenvalues of the small motions"),
    (
        "far_side_pressure_pa",
        "pressure on the far side of the land",
    ),
    ("feed_volume_m3", "volume of the feed gallery"),
    ("first_height_m", "first height of the spring"),
    ("first_load_n", "first load of the spring"),
    ("flow_ratio", "flow over choked flow"),
    ("gap_factor_m3", "gap factor K"),
    ("heat_ratio", "ratio of heat capacities"),
    ("height_at_rest_m", "height of the spring at rest"),
    (
        "hot_temperature_k",
        "higher temperature of the viscosity pair",
    ),
    (
        "hot_viscosity_m2_per_s",
        "viscosity at the higher temperature",
    ),
    ("land_diameter_m", "land diameter"),
    ("larger_reading_pa", "reading with the larger valve"),
    ("lift_stop_m", "stop of the ball's lift"),
    ("line_from_pa", "lowest line pressure of the curve"),
    ("line_to_pa", "highest line pressure of the curve"),
    ("orifices", "calibration orifices"),
    ("overflow_pressure_pa", "pressure of the overflow passage"),
    ("point_count_ratio", "number of points"),
    ("pressure_ratio", "pressure ratio"),
    ("pump_slip_m3_per_s", "slip of the pump"),
    (
        "pump_slip_pressure_pa",
        "pressure at which the slip is stated",
    ),
    ("pump_elements_ratio", "elements of the pump"),
    ("pump_speed_hz", "speed of the pump"),
    ("reaction_area_m2", "reaction area"),
    ("reaction_volume_m3", "volume of the reaction chamber"),
    ("reading_tolerance_pa", "tolerance of the readings"),
    ("reading_uncertainty_pa", "uncertainty of one reading"),
    ("relief_spring_load_n", "load of the relief spring"),
    ("relief_spring_rate_n_per_m", "rate of the relief spring"),
    ("seals", "lands that seal the chamber"),
    ("second_height_m", "second height of the spring"),
    ("second_load_n", "second load of the spring"),
    ("smaller_reading_pa", "reading with the smaller valve"),
    (
        "solenoid_command_pa",
        "pressure that the solenoid is told to give",
    ),
    ("solenoid_output_pa", "pressure that the solenoid gives"),
    ("specific_gas_constant_j_per_kg_k", "specific gas constant"),
    ("spool_position_m", "position of the spool"),
    ("spring_side_area_m2", "area on the spring side"),
    ("start_state", "state at the start"),
    ("step_limit_ratio", "most steps of the solver"),
    ("sweep_values", "values of the sweep"),
    ("trace", "recorded trace"),
    ("valve_diameter_m", "valve diameter"),
];

ranges! {
    // Oil and the regulator (rows below this line).
    /// Temperature of oil, from a cold start far north to past what towing does.
    OIL_TEMPERATURE = "oil_temperature_k", "oil temperature", 223.15, 453.15, "K";
    /// Kinematic viscosity; ASTM D341's constants hold from 0.21 mm2/s.
    KINEMATIC_VISCOSITY = "kinematic_viscosity_m2_per_s", "kinematic viscosity", 2.1e-7, 0.5, "m2/s";
    /// Dynamic viscosity of oil.
    OIL_VISCOSITY = "oil_viscosity_pa_s", "dynamic viscosity of the oil", 1.0e-4, 500.0, "Pa s";
    /// Density of oil.
    OIL_DENSITY = "oil_density_kg_per_m3", "density of the oil", 600.0, 1200.0, "kg/m3";
    /// Any gauge pressure of oil.
    OIL_PRESSURE = "oil_pressure_pa", "oil pressure", 0.0, 1.0e7, "Pa";
    /// Line pressure, gauge.
    LINE_PRESSURE = "line_pressure_pa", "line pressure", 0.0, 1.0e7, "Pa";
    /// A neighbouring passage held at its own gauge pressure.
    NEIGHBOUR_PRESSURE = "neighbour_pressure_pa", "pressure of the neighbouring passage", 0.0, 1.0e7, "Pa";
    /// Difference of two oil pressures, either way round.
    PRESSURE_DROP = "pressure_drop_pa", "pressure drop", -1.0e7, 1.0e7, "Pa";
    /// Volume flow of oil, either way round.
    OIL_FLOW = "oil_flow_m3_per_s", "oil flow", -0.05, 0.05, "m3/s";
    /// Diameter of a drilled orifice for oil.
    ORIFICE_DIAMETER = "orifice_diameter_m", "orifice diameter", 5.0e-5, 0.01, "m";
    /// Length of an orifice's bore; 0 for a knife edge.
    ORIFICE_LENGTH = "orifice_length_m", "orifice length", 0.0, 0.05, "m";
    /// Orifice taken to pass more or less than the nominal law.
    ORIFICE_SCALE = "orifice_scale_ratio", "orifice flow over its nominal", 0.1, 10.0, "1";
    /// Area on which a pressure acts.
    SPOOL_AREA = "spool_area_m2", "area under pressure", 1.0e-6, 5.0e-3, "m2";
    /// Load of a spring.
    SPRING_LOAD = "spring_load_n", "spring load", 0.05, 5000.0, "N";
    /// Rate of a spring.
    SPRING_RATE = "spring_rate_n_per_m", "spring rate", 10.0, 1.0e6, "N/m";
    /// Compression of a spring beyond its load at rest.
    SPRING_TRAVEL = "spring_travel_m", "spring travel", 0.0, 0.05, "m";
    /// Height of a spring.
    SPRING_HEIGHT = "spring_height_m", "spring height", 1.0e-3, 0.3, "m";
    /// Diameter of spring wire.
    WIRE_DIAMETER = "wire_diameter_m", "wire diameter", 1.0e-4, 0.01, "m";
    /// Mean coil diameter of a spring.
    COIL_DIAMETER = "coil_diameter_m", "mean coil diameter", 5.0e-4, 0.1, "m";
    /// Active coils of a spring.
    ACTIVE_COILS = "active_coils_ratio", "active coils", 1.0, 50.0, "1";
    /// Shear modulus of spring wire.
    SHEAR_MODULUS = "shear_modulus_pa", "shear modulus", 2.0e10, 1.2e11, "Pa";
    /// Travel of a spool.
    STROKE = "stroke_m", "stroke", 1.0e-4, 0.05, "m";
    /// Width of an opening; negative while its edge overlaps.
    OPENING_WIDTH = "opening_width_m", "opening width (negative: overlap)", -0.05, 0.05, "m";
    /// Part of the circumference that an opening takes.
    CIRCUMFERENCE_FRACTION = "circumference_fraction_ratio", "open part of the circumference", 0.005, 1.0, "1";
    /// Dry friction of a spool.
    FRICTION = "friction_n", "friction of the spool", 0.0, 500.0, "N";
    /// What the solenoids take.
    DEMAND_FLOW = "demand_flow_m3_per_s", "demand of the solenoids", 0.0, 5.0e-4, "m3/s";
    /// Pressure at which the demand was stated.
    DEMAND_PRESSURE = "demand_pressure_pa", "pressure at which the demand is stated", 1.0e4, 1.0e7, "Pa";
    /// Seat of a relief ball.
    SEAT_DIAMETER = "seat_diameter_m", "seat diameter", 5.0e-4, 0.03, "m";
    /// Ball of a relief.
    BALL_DIAMETER = "ball_diameter_m", "ball diameter", 6.0e-4, 0.05, "m";
    /// Lift of a relief ball.
    LIFT = "lift_m", "lift of the ball", 0.0, 0.02, "m";
    /// What a pump delivers, or what slips back inside it.
    PUMP_FLOW = "pump_flow_m3_per_s", "flow of the pump", 0.0, 5.0e-3, "m3/s";
    /// Share of feed that a bleed solenoid gives.
    SOLENOID_SHARE = "solenoid_share_ratio", "share of feed that the solenoid gives", 0.0, 1.0, "1";
    /// Mass of a spool with what moves with it.
    SPOOL_MASS = "spool_mass_kg", "mass of the spool", 1.0e-4, 1.0, "kg";
    /// Viscous damping of a spool.
    VISCOUS_DAMPING = "viscous_damping_n_s_per_m", "viscous damping of the spool", 0.0, 1.0e4, "N s/m";
    /// Friction at break-away over friction while sliding.
    BREAKAWAY_RATIO = "breakaway_ratio", "break-away friction over sliding friction", 1.0, 5.0, "1";
    /// Oil shut in a chamber or gallery.
    OIL_VOLUME = "oil_volume_m3", "oil volume", 1.0e-9, 0.01, "m3";
    /// Bulk modulus of the oil itself, no air in it.
    LIQUID_BULK_MODULUS = "liquid_bulk_modulus_pa", "bulk modulus of the oil without air", 3.0e8, 5.0e9, "Pa";
    /// Free air in the oil, of the volume at atmospheric pressure.
    ENTRAINED_AIR = "entrained_air_ratio", "free air in the oil at atmospheric pressure", 1.0e-6, 0.3, "1";
    /// Exponent of the compression of bubbles: 1 isothermal, 1.4 adiabatic.
    COMPRESSION_EXPONENT = "compression_exponent_ratio", "exponent of the compression of bubbles", 1.0, 1.4, "1";
    /// How long a transient is followed.
    DURATION = "duration_s", "duration of the transient", 1.0e-5, 60.0, "s";
    /// A moment of a transient, from its start.
    MOMENT = "moment_s", "moment of the transient", 0.0, 60.0, "s";
    /// Frequency of the pump's ripple.
    RIPPLE_FREQUENCY = "ripple_frequency_hz", "frequency of the ripple", 0.1, 5000.0, "Hz";
    /// Height of the pump's ripple above its mean.
    RIPPLE_AMPLITUDE = "ripple_amplitude_pa", "amplitude of the ripple", 0.0, 5.0e6, "Pa";
    /// Demand over the demand described.
    DEMAND_SCALE = "demand_scale_ratio", "demand over the demand described", 0.0, 10.0, "1";
    /// Relative error that a step of a transient may make.
    RELATIVE_TOLERANCE = "relative_tolerance_ratio", "relative tolerance of a step", 1.0e-10, 1.0e-2, "1";
    /// How near to its last value a pressure counts as settled.
    SETTLING_BAND = "settling_band_pa", "band of settling", 1.0, 1.0e6, "Pa";
    /// Pressure to which a regulator is to be set.
    SETPOINT = "setpoint_pa", "setpoint", 1.0e4, 1.0e7, "Pa";
}

#[cfg(test)]
mod tests;
