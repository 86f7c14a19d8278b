//! Rows for air, the bench, and the size of lands, bores and parts.

use super::Range;

super::ranges! {
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
}
