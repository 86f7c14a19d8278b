//! The unit, its circuits, and the parts of a circuit that are not spools.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::limits::{self, Check, in_range, join, text_required};
use crate::{Finding, Finite, Id};

/// An oil by its data sheet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Oil {
    /// Name in the shop's words.
    pub name: String,
    /// Kinematic viscosity at 40 °C, m²/s.
    pub viscosity_40c_m2_s: Finite,
    /// Kinematic viscosity at 100 °C, m²/s.
    pub viscosity_100c_m2_s: Finite,
    /// Density at 15 °C, kg/m³.
    pub density_15c_kg_m3: Finite,
}

/// A transmission as the shop knows it. Kind `unit`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Unit {
    /// The shop's name for it.
    pub name: String,
    /// One line about it.
    #[serde(default)]
    pub summary: String,
    /// The oil it runs on.
    pub oil: Oil,
    /// Running temperature of the oil for judgements, K.
    pub hot_oil_temperature_k: Finite,
    /// Line pressure at hot idle, Pa above ambient.
    pub line_idle_pa: Finite,
    /// Highest line pressure in service, Pa above ambient.
    pub line_highest_pa: Finite,
    /// Where these figures come from.
    pub source: String,
}

/// A circuit of a unit. Kind `circuit`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Circuit {
    /// The unit.
    pub unit: Id,
    /// Fractional order key.
    pub order: String,
    /// Name, e.g. "Solenoid feed".
    pub name: String,
    /// Pressure that it is meant to hold, Pa above ambient.
    pub setpoint_pa: Finite,
    /// Lowest pressure that the service information allows while regulating, Pa.
    pub specified_low_pa: Finite,
    /// Highest, Pa.
    pub specified_high_pa: Finite,
    /// What the solenoids together take at the setpoint, hot, m³/s.
    pub demand_m3_s: Finite,
    /// Through how many solenoids.
    pub solenoids: u32,
    /// Where the specification comes from.
    pub source: String,
}

/// The spring of a bore. Kind `spring`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Spring {
    /// The bore.
    pub bore: Id,
    /// Rate, N/m.
    pub rate_n_per_m: Finite,
    /// Load with the spool at the regulating position (the supply just closed), N.
    pub load_regulating_n: Finite,
    /// Where the figures come from.
    pub source: String,
}

/// The orifice between feed and the reaction chamber. Kind `balance_orifice`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BalanceOrifice {
    /// The bore.
    pub bore: Id,
    /// Bore of the orifice, m.
    pub diameter_m: Finite,
    /// Length of the orifice, usually the plate's thickness, m.
    pub length_m: Finite,
    /// Where the figures come from.
    pub source: String,
}

/// A ball relief on the feed circuit. Kind `relief`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Relief {
    /// The circuit it guards.
    pub circuit: Id,
    /// Ball diameter, m.
    pub ball_diameter_m: Finite,
    /// Bore of the sharp-edged seat, m.
    pub seat_diameter_m: Finite,
    /// Spring load on the seated ball, N.
    pub load_seated_n: Finite,
    /// Spring rate, N/m.
    pub rate_n_per_m: Finite,
    /// How far the ball can lift, m.
    pub lift_stop_m: Finite,
    /// Where the figures come from.
    pub source: String,
}

impl Check for Oil {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        let range = limits::KINEMATIC_VISCOSITY_M2_S;
        in_range(
            *self.viscosity_40c_m2_s,
            range,
            at,
            "viscosity_40c_m2_s",
            findings,
        );
        in_range(
            *self.viscosity_100c_m2_s,
            range,
            at,
            "viscosity_100c_m2_s",
            findings,
        );
        in_range(
            *self.density_15c_kg_m3,
            limits::DENSITY_KG_M3,
            at,
            "density_15c_kg_m3",
            findings,
        );
    }
}

impl Check for Unit {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        text_required(&self.name, at, "name", findings);
        self.oil.check(&join(at, "oil"), findings);
        in_range(
            *self.hot_oil_temperature_k,
            limits::OIL_TEMPERATURE_K,
            at,
            "hot_oil_temperature_k",
            findings,
        );
        in_range(
            *self.line_idle_pa,
            limits::PRESSURE_PA,
            at,
            "line_idle_pa",
            findings,
        );
        in_range(
            *self.line_highest_pa,
            limits::PRESSURE_PA,
            at,
            "line_highest_pa",
            findings,
        );
        contradicts_unless(
            self.line_highest_pa > self.line_idle_pa,
            join(at, "line_highest_pa"),
            findings,
        );
    }
}

impl Check for Circuit {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        in_range(
            *self.setpoint_pa,
            limits::PRESSURE_PA,
            at,
            "setpoint_pa",
            findings,
        );
        in_range(
            *self.specified_low_pa,
            limits::PRESSURE_PA,
            at,
            "specified_low_pa",
            findings,
        );
        in_range(
            *self.specified_high_pa,
            limits::PRESSURE_PA,
            at,
            "specified_high_pa",
            findings,
        );
        in_range(
            *self.demand_m3_s,
            limits::FLOW_M3_S,
            at,
            "demand_m3_s",
            findings,
        );
    }
}

impl Check for Spring {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        in_range(
            *self.rate_n_per_m,
            limits::SPRING_RATE_N_PER_M,
            at,
            "rate_n_per_m",
            findings,
        );
        in_range(
            *self.load_regulating_n,
            limits::SPRING_LOAD_N,
            at,
            "load_regulating_n",
            findings,
        );
    }
}

impl Check for BalanceOrifice {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        in_range(
            *self.diameter_m,
            limits::ORIFICE_M,
            at,
            "diameter_m",
            findings,
        );
        in_range(*self.length_m, limits::ORIFICE_M, at, "length_m", findings);
    }
}

impl Check for Relief {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        in_range(
            *self.ball_diameter_m,
            limits::DIAMETER_M,
            at,
            "ball_diameter_m",
            findings,
        );
        in_range(
            *self.seat_diameter_m,
            limits::ORIFICE_M,
            at,
            "seat_diameter_m",
            findings,
        );
        in_range(
            *self.load_seated_n,
            limits::SPRING_LOAD_N,
            at,
            "load_seated_n",
            findings,
        );
        in_range(
            *self.rate_n_per_m,
            limits::SPRING_RATE_N_PER_M,
            at,
            "rate_n_per_m",
            findings,
        );
        contradicts_unless(
            self.seat_diameter_m < self.ball_diameter_m,
            join(at, "seat_diameter_m"),
            findings,
        );
    }
}

/// A finding at `field` unless what must hold between two dimensions does.
fn contradicts_unless(holds: bool, field: String, findings: &mut Vec<Finding>) {
    if !holds {
        findings.push(Finding::at(
            crate::Severity::Wrong,
            crate::finding::FindingCode::DimensionsContradict,
            field,
        ));
    }
}
