//! Rows and names for parts: openings, springs, fits, reliefs, oil with air, clutches, solenoids.

use super::Range;

super::ranges! {
    // Openings.
    /// How many windows or notches an opening has.
    WINDOW_COUNT = "window_count_ratio", "number of windows", 1.0, 64.0, "1";
    /// Width of a window or notch around the bore.
    WINDOW_WIDTH = "window_width_m", "width of the window", 1.0e-4, 0.05, "m";
    /// Length of a window or notch along the bore.
    WINDOW_LENGTH = "window_length_m", "length of the window", 1.0e-4, 0.05, "m";
    /// Half the angle at the tip of a V notch.
    NOTCH_HALF_ANGLE = "notch_half_angle_rad", "half angle of the notch", 0.05, 1.5, "rad";
    /// Radius to which a metering edge is rounded or worn.
    EDGE_RADIUS = "edge_radius_m", "radius of the edge", 0.0, 1.0e-3, "m";
    // Springs.
    /// Young's modulus of spring wire.
    YOUNG_MODULUS = "young_modulus_pa", "Young's modulus", 5.0e10, 2.5e11, "Pa";
    /// Density of spring wire.
    WIRE_DENSITY = "wire_density_kg_per_m3", "density of the wire", 2000.0, 10_000.0, "kg/m3";
    /// Coils of a spring that don't work, at both ends together.
    DEAD_COILS = "dead_coils_ratio", "dead coils", 0.0, 6.0, "1";
    /// Standard uncertainty of a spring's load.
    LOAD_UNCERTAINTY = "load_uncertainty_n", "uncertainty of the load", 1.0e-6, 500.0, "N";
    // Fits.
    /// Standard uncertainty of a diameter.
    DIAMETER_UNCERTAINTY = "diameter_uncertainty_m", "uncertainty of the diameter", 0.0, 1.0e-3, "m";
    /// Where along the bore a diameter was taken.
    STATION_DEPTH = "station_depth_m", "depth of the station", 0.0, 0.3, "m";
    /// Any length on a part, for the correction to 20 °C.
    PART_LENGTH = "part_length_m", "length", 1.0e-4, 1.0, "m";
    /// Size to which a fit is given: the bands of ISO 286 that spools use.
    NOMINAL_SIZE = "nominal_size_m", "nominal size", 1.0e-3, 0.03, "m";
    /// Thinnest wall that a sleeve may keep.
    WALL = "wall_m", "wall of the sleeve", 1.0e-4, 0.02, "m";
    /// Metal that a reamer takes off the diameter.
    REAM_STOCK = "ream_stock_m", "ream stock", 0.0, 2.0e-3, "m";
    // Reliefs.
    /// Half the angle of a conical seat or poppet, from the axis.
    SEAT_HALF_ANGLE = "seat_half_angle_rad", "half angle of the seat", 0.15, 1.5, "rad";
    /// Friction of a relief's moving part.
    RELIEF_FRICTION = "relief_friction_n", "friction of the relief", 0.0, 100.0, "N";
    /// Oil that a relief is to pass.
    RELIEF_FLOW = "relief_flow_m3_per_s", "flow that the relief must pass", 1.0e-9, 0.01, "m3/s";
    // Oil with air in it.
    /// Bulk modulus of oil without air.
    OIL_BULK_MODULUS = "oil_bulk_modulus_pa", "bulk modulus of the oil", 5.0e8, 5.0e9, "Pa";
    /// Bulk modulus of what holds the oil.
    WALL_BULK_MODULUS = "wall_bulk_modulus_pa", "bulk modulus of the walls", 1.0e8, 1.0e13, "Pa";
    /// Free air over oil, by volume, at the reference pressure.
    AIR_RATIO = "air_ratio", "air in the oil, by volume", 0.0, 0.5, "1";
    /// Exponent of the air's compression: 1 slow, 1.4 fast.
    POLYTROPIC = "polytropic_ratio", "polytropic exponent", 1.0, 1.67, "1";
    /// Any absolute pressure of oil.
    ABSOLUTE_OIL_PRESSURE = "absolute_oil_pressure_pa", "absolute oil pressure", 1.0e4, 1.02e7, "Pa";
    // Clutches and bands.
    /// Radius of a clutch's face, piston or drum.
    CLUTCH_RADIUS = "clutch_radius_m", "radius", 0.0, 0.5, "m";
    /// How many faces rub.
    FRICTION_FACES = "friction_faces_ratio", "friction faces", 1.0, 40.0, "1";
    /// Coefficient of friction of a face.
    FRICTION_COEFFICIENT = "friction_coefficient_ratio", "coefficient of friction", 0.01, 0.6, "1";
    /// Load of the return spring, or pull of a band.
    CLUTCH_FORCE = "clutch_force_n", "force in the clutch", 0.0, 1.0e5, "N";
    /// Speed of a drum, either way.
    ROTATION = "rotation_rad_per_s", "speed of the drum", -1500.0, 1500.0, "rad/s";
    /// Angle that a band wraps around its drum.
    WRAP_ANGLE = "wrap_angle_rad", "angle of wrap", 0.1, 12.6, "rad";
    /// Shift of a pressure, either way.
    PRESSURE_SHIFT = "pressure_shift_pa", "shift of the pressure", -1.0e7, 1.0e7, "Pa";
    // Solenoids.
    /// Resistance of a winding.
    RESISTANCE = "resistance_ohm", "resistance", 0.01, 1000.0, "ohm";
    /// Voltage at a solenoid.
    VOLTAGE = "voltage_v", "voltage", 0.0, 100.0, "V";
    /// Length of a winding's wire.
    WINDING_LENGTH = "winding_length_m", "length of the wire", 0.1, 1000.0, "m";
    /// Diameter of a winding's wire, bare.
    WINDING_WIRE = "winding_wire_m", "diameter of the winding's wire", 2.0e-5, 0.005, "m";
}

/// Names of the fields of these subjects that have the range of another kind of input.
pub const NAMES: &[(&str, &str)] = &[
    (
        "active_coils_error_ratio",
        "how far the number of active coils may be off",
    ),
    ("balance_inner_m", "inner radius of the balance chamber"),
    ("balance_outer_m", "outer radius of the balance chamber"),
    ("bore_20c_m", "bore diameter at 20 °C"),
    ("bore_readings", "readings of the bore"),
    ("commanded_pressure_pa", "commanded pressure"),
    ("direction_rad", "direction of the reading"),
    ("face_inner_m", "inner radius of the faces"),
    ("face_outer_m", "outer radius of the faces"),
    ("face_pressure_pa", "pressure on the faces"),
    ("feed_pressure_pa", "feed pressure"),
    ("finished_bore_m", "bore after reaming"),
    (
        "free_height_error_m",
        "how far the free height of the spring may be off",
    ),
    ("free_height_m", "free height of the spring"),
    ("gain_ratio", "clutch pressure over the solenoid's"),
    ("gauge_temperature_k", "temperature of the gauge"),
    ("inner_diameter_m", "inner diameter of the sleeve"),
    ("instrument_uncertainty_m", "uncertainty of the instrument"),
    ("largest_bore_m", "largest diameter of the bore"),
    ("length_tolerance_ratio", "tolerance of the engaged length"),
    ("load_readings", "readings of the spring's load"),
    ("minimum_wall_m", "thinnest wall allowed"),
    ("new_area_m2", "area of the new valve"),
    ("nominal_load_n", "nominal load of the spring"),
    ("oil_radius_m", "radius from which oil stands"),
    ("outer_diameter_m", "outer diameter of the sleeve"),
    ("override_pa", "rise of the pressure over its setpoint"),
    ("piston_inner_m", "inner radius of the piston"),
    ("piston_outer_m", "outer radius of the piston"),
    (
        "reference_pressure_pa",
        "pressure at which the air was stated",
    ),
    ("repeatability_m", "repeatability of the diameter"),
    ("second_resistance_ohm", "second resistance"),
    ("shaft_class", "tolerance class of the shaft"),
    (
        "shear_modulus_error_ratio",
        "how far the shear modulus may be off",
    ),
    ("shim_m", "thickness of the shim"),
    ("smallest_bore_m", "smallest diameter of the bore"),
    ("tolerance_class", "tolerance class"),
    ("torque_n_m", "torque"),
    ("valve_20c_m", "valve diameter at 20 °C"),
    ("viscosity_points", "measured viscosities"),
    ("winding_offset_k", "offset of the winding's line"),
    ("winding_temperature_k", "temperature of the winding"),
];
