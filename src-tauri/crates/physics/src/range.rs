//! The one table of what an input may be.
//!
//! Bounds are wide: they stop slips of the finger, wrong units and nonsense, and say nothing
//! about what is good. They are our own choice (`from memory`, no source), set so that every
//! part that could sit in a valve body passes and a mistake of a unit mostly does not.

use crate::error::PhysicsError;

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
        /// Every row of the table, for looking a field's human name up.
        pub const ALL: &[Range] = &[$($id),*];
    };
}

/// The row of the table for a field's stable name.
#[must_use]
pub fn find(field: &str) -> Option<&'static Range> {
    ALL.iter().find(|r| r.field == field)
}

/// What a person calls a field: from the table, from [`NAMES`], or else the field itself.
#[must_use]
pub fn name(field: &'static str) -> &'static str {
    let other = || {
        NAMES
            .iter()
            .find(|(f, _)| *f == field)
            .map(|(_, name)| *name)
    };
    find(field).map(|r| r.name).or_else(other).unwrap_or(field)
}

/// Names of the fields that have the range of another kind of input, or one that hangs on others.
pub const NAMES: &[(&str, &str)] = &[
    ("air_viscosity_pa_s", "viscosity of the air"),
    ("area_m2", "flow area"),
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
    ("point_count_ratio", "number of points"),
    ("pressure_ratio", "pressure ratio"),
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
    // Air and the bench.
    /// Geometric altitude above sea level: the troposphere of ISO 2533.
    ALTITUDE = "altitude_m", "altitude", -500.0, 11_000.0, "m";
    /// Barometer: station pressure, from the top of the troposphere to below the lowest land.
    BAROMETER = "barometer_pa", "barometer (station pressure)", 22_600.0, 110_000.0, "Pa";
    /// Temperature of air, parts or shop.
    AIR_TEMPERATURE = "air_temperature_k", "air temperature", 223.15, 473.15, "K";
    /// Any absolute pressure of air.
    AIR_PRESSURE = "air_pressure_pa", "absolute air pressure", 10.0, 1.1e6, "Pa";
    /// A vacuum gauge's reading, below ambient: no more than the deepest barometer.
    VACUUM_READING = "vacuum_reading_pa", "vacuum reading", 0.0, 110_000.0, "Pa";
    /// Diameter of a bore or valve.
    BORE_DIAMETER = "bore_diameter_m", "bore diameter", 0.002, 0.1, "m";
    /// Radial clearance (half the difference of the diameters).
    RADIAL_CLEARANCE = "radial_clearance_m", "radial clearance", 1.0e-7, 1.0e-3, "m";
    /// Engaged length of a land.
    ENGAGED_LENGTH = "engaged_length_m", "engaged length", 1.0e-4, 0.1, "m";
    /// Eccentricity of the spool over the radial clearance.
    ECCENTRICITY = "eccentricity_ratio", "relative eccentricity", 0.0, 1.0, "1";
    /// Diameter of a drilled hole or orifice.
    HOLE_DIAMETER = "hole_diameter_m", "hole diameter", 1.0e-5, 0.01, "m";
    /// Discharge coefficient.
    DISCHARGE_COEFFICIENT = "discharge_coefficient_ratio", "discharge coefficient", 0.1, 1.0, "1";
    /// ISO 6358 critical pressure ratio.
    CRITICAL_RATIO = "critical_ratio", "critical pressure ratio", 0.0, 0.6, "1";
    /// ISO 6358 sonic conductance.
    SONIC_CONDUCTANCE = "sonic_conductance_m3_per_s_pa", "sonic conductance", 1.0e-14, 1.0e-6, "m3/(s Pa)";
    /// Pull of a vacuum stand, as a volume flow at the gauge.
    STAND_PULL = "stand_pull_m3_per_s", "pull of the stand", 1.0e-6, 0.05, "m3/s";
    /// Absolute pressure at which the stand pulls nothing any more.
    DEAD_HEAD = "dead_head_pressure_pa", "dead-head pressure", 0.0, 90_000.0, "Pa";
    /// Hose resistance R_h in p_port^2 = p_gauge^2 + R_h q.
    HOSE_RESISTANCE = "hose_resistance_pa_s_per_m3", "hose resistance", 0.0, 1.0e12, "Pa s/m3";
    /// Throughput of gas, as pressure times volume flow.
    THROUGHPUT = "throughput_w", "pV throughput", 0.0, 10_000.0, "Pa m3/s";
    /// Coefficient of entry and exit loss of a gap; below 1.4 it would beat an ideal nozzle.
    ENTRY_EXIT_LOSS = "entry_exit_loss_ratio", "entry and exit loss", 1.4, 4.0, "1";
    /// Linear thermal expansion.
    THERMAL_EXPANSION = "thermal_expansion_per_k", "thermal expansion", 0.0, 5.0e-5, "1/K";
    /// Temperature of a part, bench or hot.
    PART_TEMPERATURE = "part_temperature_k", "part temperature", 223.15, 473.15, "K";

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
mod tests {
    use super::*;
    use std::path::Path;

    /// The quoted words that follow `marker` in a source text.
    fn quoted_after<'a>(text: &'a str, marker: &str) -> Vec<&'a str> {
        text.split(marker)
            .skip(1)
            .filter_map(|rest| rest.trim_start().strip_prefix('"')?.split('"').next())
            .collect()
    }

    fn visit(folder: &Path, check: &mut impl FnMut(&str)) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                visit(&path, check);
            } else if path.extension().is_some_and(|e| e == "rs") && !path.ends_with("range.rs") {
                check(&std::fs::read_to_string(path).unwrap());
            }
        }
    }

    #[test]
    fn every_field_that_an_error_can_name_has_a_human_name() {
        let mut seen = 0;
        let mut nameless = Vec::new();
        visit(
            &Path::new(env!("CARGO_MANIFEST_DIR")).join("src"),
            &mut |text| {
                for marker in ["within(", "check_as(", "field: ", "other: "] {
                    for field in quoted_after(text, marker) {
                        seen += 1;
                        let known = find(field).is_some() || NAMES.iter().any(|(f, _)| *f == field);
                        if !known && !nameless.contains(&field.to_owned()) {
                            nameless.push(field.to_owned());
                        }
                    }
                }
            },
        );
        assert!(seen > 40, "the search found only {seen} fields");
        assert!(nameless.is_empty(), "without a name: {nameless:?}");
    }

    #[test]
    fn rows_are_sound_and_unique() {
        for (i, r) in ALL.iter().enumerate() {
            assert!(r.low < r.high, "{}", r.field);
            assert!(
                ALL[..i].iter().all(|o| o.field != r.field),
                "{} twice",
                r.field
            );
            assert_eq!(r.check(r.low), Ok(r.low));
            assert!(
                r.check(r.high * (1.0 + 1e-9) + 1e-300).is_err(),
                "{}",
                r.field
            );
        }
    }

    #[test]
    fn the_message_speaks_of_the_human_name() {
        let e = BORE_DIAMETER.check(10.0).unwrap_err();
        assert_eq!(
            e.to_string(),
            "bore diameter is 10 m; it must lie between 0.002 and 0.1 m"
        );
    }
}
