//! What can be true of a measured thing: one table of legal ranges, and the check that turns a
//! number outside it into a finding at its field.

use crate::finding::{Finding, FindingCode, Severity};

/// A legal range, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// Lowest value that can be true.
    pub low: f64,
    /// Highest value that can be true.
    pub high: f64,
}

macro_rules! ranges {
    ($($(#[$doc:meta])* $name:ident = $low:expr, $high:expr;)*) => {
        $($(#[$doc])* pub const $name: Range = Range { low: $low, high: $high };)*
    };
}

ranges! {
    /// Vacuum below ambient, Pa: from nothing to a full atmosphere at the Dead Sea.
    VACUUM_PA = 0.0, 108_000.0;
    /// Station barometer, Pa: a deep storm on a high pass to the record high.
    BAROMETER_PA = 45_000.0, 108_500.0;
    /// Altitude above sea level, m: the lowest shore to the highest town.
    ALTITUDE_M = -450.0, 6_000.0;
    /// Air at the bench, K.
    AIR_TEMPERATURE_K = 233.15, 333.15;
    /// Oil, K: -40 to 160 °C.
    OIL_TEMPERATURE_K = 233.15, 433.15;
    /// Bore or land diameter, m.
    DIAMETER_M = 0.001, 0.06;
    /// Any axial dimension of a valve, m.
    AXIAL_M = 0.0, 0.25;
    /// Position along the bore, m.
    POSITION_M = -0.25, 0.25;
    /// Spool travel, m.
    STROKE_M = 0.0001, 0.05;
    /// Clearance on the diameter, m.
    DIAMETRAL_CLEARANCE_M = 0.000_001, 0.000_5;
    /// Orifice bore, m.
    ORIFICE_M = 0.000_05, 0.01;
    /// Circuit pressure, Pa: to 700 psi.
    PRESSURE_PA = 1_000.0, 5_000_000.0;
    /// Spring load, N.
    SPRING_LOAD_N = 0.05, 2_000.0;
    /// Spring rate, N/m.
    SPRING_RATE_N_PER_M = 10.0, 200_000.0;
    /// Sliding friction of a spool, N.
    FRICTION_N = 0.0, 200.0;
    /// Oil flow, m³/s: to 60 L/min.
    FLOW_M3_S = 0.0, 0.001;
    /// Solenoids on one circuit.
    SOLENOIDS = 1.0, 64.0;
    /// Kinematic viscosity, m²/s.
    KINEMATIC_VISCOSITY_M2_S = 0.000_000_5, 0.01;
    /// Density of oil at 15 °C, kg/m³.
    DENSITY_KG_M3 = 600.0, 1_200.0;
    /// A share of a circumference.
    FRACTION = 0.0, 1.0;
    /// Holes or notches of one opening.
    OPENING_WINDOWS = 1.0, 64.0;
    /// A gauge's limits of error as a pressure, Pa.
    GAUGE_ERROR_PA = 1.0, 20_000.0;
    /// The smallest step that a gauge shows, Pa.
    GAUGE_STEP_PA = 0.001, 20_000.0;
    /// Limits of error or step of a micrometer, bore gauge, pin or feeler gauge, m.
    LENGTH_ERROR_M = 0.000_000_01, 0.000_1;
    /// Limits of error or step of a spring tester, N.
    LOAD_ERROR_N = 0.000_1, 50.0;
    /// Limits of error or step of a thermometer, K.
    TEMPERATURE_ERROR_K = 0.001, 20.0;
    /// Limits of error or step of a pressure gauge, Pa.
    PRESSURE_ERROR_PA = 1.0, 500_000.0;
    /// Limits of error or step of an ohmmeter, ohm.
    RESISTANCE_ERROR_OHM = 0.000_001, 100.0;
    /// Bore of a relief's seat, m.
    SEAT_M = 0.000_5, 0.03;
    /// Lift of a relief's ball, m.
    LIFT_M = 0.000_01, 0.02;
    /// How far a measured diameter may be off, m.
    DIAMETER_UNCERTAINTY_M = 0.0, 0.000_1;
    /// Height or free length of a spring, m.
    SPRING_HEIGHT_M = 0.001, 0.3;
    /// Gap under a straightedge, m.
    FACE_GAP_M = 0.0, 0.002;
    /// Check balls in a body.
    CHECK_BALLS = 0.0, 64.0;
    /// Resistance of a solenoid's coil, ohm.
    COIL_OHM = 0.05, 10_000.0;
    /// Shop air at the case, Pa above ambient. What the work allows is far less: see the cautions.
    SHOP_AIR_PA = 0.0, 1_500_000.0;
    /// How long something was watched, s.
    WATCHED_S = 0.0, 3_600.0;
    /// Sonic conductance of a calibrated orifice (ISO 6358), m³/(s·Pa): far below a hole of 0.05 mm
    /// to above one of 10 mm.
    SONIC_CONDUCTANCE_M3_S_PA = 1e-13, 1e-6;
    /// Pressure of a clutch over that of its solenoid.
    CLUTCH_GAIN = 0.1, 20.0;
    /// Diameter of a clutch's piston or face, m.
    CLUTCH_DIAMETER_M = 0.0, 1.0;
    /// Load of a clutch's return springs, N.
    CLUTCH_SPRING_N = 0.0, 100_000.0;
    /// Faces of a clutch that rub.
    FRICTION_FACES = 1.0, 40.0;
    /// Coefficient of friction of a clutch's faces.
    FRICTION_COEFFICIENT = 0.01, 0.6;
    /// Metal between a bore and the next passage or face, m.
    WALL_M = 0.000_1, 0.05;
    /// Thickness of a hard-anodised layer, m.
    HARD_LAYER_M = 0.000_001, 0.000_3;
    /// What polishing takes off a surface, m.
    POLISH_M = 0.0, 0.000_1;
    /// How far a bore is out of round, m.
    OUT_OF_ROUND_M = 0.0, 0.000_5;
    /// Thickness of a shim, m.
    SHIM_M = 0.0, 0.02;
    /// Gap around a sleeve on the diameter, m; below zero it is a press fit.
    SEAT_GAP_M = -0.000_3, 0.000_5;
    /// What a reamer takes off the diameter in one cut, m.
    REAM_STOCK_M = 0.0, 0.002;
    /// Torque of the bolts of a valve body, N·m.
    BOLT_TORQUE_NM = 0.1, 200.0;
    /// Distance covered by a vehicle, m.
    ODOMETER_M = 0.0, 5.0e9;
    /// Decimals of a currency: ISO 4217 has 0 to 4.
    CURRENCY_DECIMALS = 0.0, 4.0;
    /// A price or an amount that was agreed to, smallest units of a currency.
    AMOUNT_MINOR = -1.0e10, 1.0e10;
    /// Quantity of a line of an estimate, thousandths: to a thousand hours or pieces.
    QUANTITY_THOUSANDTHS = 0.0, 1.0e6;
    /// Rate of a tax, millionths: to the whole price.
    TAX_MILLIONTHS = 0.0, 1.0e6;
    /// Pieces of one part that are fitted.
    FITTED_PIECES = 1.0, 10_000.0;
    /// Months of a warranty.
    WARRANTY_MONTHS = 1.0, 600.0;
    /// Pressure read in a circuit, Pa above ambient: from none at all to 700 psi.
    TAP_PRESSURE_PA = 0.0, 5_000_000.0;
}

/// Something that can say what is wrong with itself.
pub trait Check {
    /// Adds what it finds; `at` is the path to it on the wire, empty for the top.
    fn check(&self, at: &str, findings: &mut Vec<Finding>);

    /// All findings of the whole.
    fn findings(&self) -> Vec<Finding> {
        let mut found = Vec::new();
        self.check("", &mut found);
        found
    }
}

/// `at` and `field` joined by a dot.
#[must_use]
pub fn join(at: &str, field: &str) -> String {
    match (at.is_empty(), field.is_empty()) {
        (true, _) => field.to_owned(),
        (_, true) => at.to_owned(),
        _ => format!("{at}.{field}"),
    }
}

/// A finding when a number lies outside its range.
pub fn in_range(value: f64, range: Range, at: &str, field: &str, findings: &mut Vec<Finding>) {
    if !(range.low..=range.high).contains(&value) {
        findings.push(
            Finding::at(Severity::Wrong, FindingCode::OutOfRange, join(at, field))
                .with_bounds(range.low, range.high),
        );
    }
}

/// As [`in_range`], for a number that may be missing.
pub fn in_range_if_known(
    value: Option<crate::Finite>,
    range: Range,
    at: &str,
    field: &str,
    findings: &mut Vec<Finding>,
) {
    if let Some(value) = value {
        in_range(*value, range, at, field, findings);
    }
}

/// A finding when a needed text is empty.
pub fn text_required(text: &str, at: &str, field: &str, findings: &mut Vec<Finding>) {
    if text.trim().is_empty() {
        findings.push(Finding::at(
            Severity::Wrong,
            FindingCode::Missing,
            join(at, field),
        ));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn four_hundred_inches_of_mercury_is_out_of_range() {
        let mut found = Vec::new();
        in_range(
            400.0 * 3386.389,
            VACUUM_PA,
            "readings[0]",
            "vacuum_pa",
            &mut found,
        );
        assert_eq!(found[0].code, FindingCode::OutOfRange);
        assert_eq!(found[0].field, "readings[0].vacuum_pa");
    }

    #[test]
    fn nan_is_out_of_every_range() {
        let mut found = Vec::new();
        in_range(f64::NAN, VACUUM_PA, "", "vacuum_pa", &mut found);
        assert_eq!(found.len(), 1);
    }
}
