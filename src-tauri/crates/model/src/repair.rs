//! What was done to a bore in a job, with the dimensions that it left behind.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::finding::{FindingCode, Severity};
use crate::limits::{self, Check, Range, in_range, join};
use crate::unit::Material;
use crate::{Finding, Finite, Id};

/// A repair of one bore in one job. Kind `repair`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Repair {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
    /// Tests of the bore that were known when the repair was recorded. They come before it,
    /// whatever the clocks of two devices say; all others come after.
    pub tests_before: Vec<Id>,
    /// Checks of the bore that were known then: what they measured of spring, orifice and friction
    /// is what the repair found.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub checks_before: Vec<Id>,
    /// What was done.
    pub work: RepairWork,
}

/// Which way out was taken.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum RepairOption {
    /// Bore and valve cleaned and put back.
    Cleaned,
    /// Another valve in the same bore.
    NewValve,
    /// A sleeve with a smaller valve and its spring.
    SleeveSmallerValve,
    /// Reamed, with an oversize valve.
    ReamedOversize,
    /// A relief added to the circuit.
    ReliefAdded,
    /// Another valve body.
    BodyReplaced,
    /// Something else, told in words.
    Other,
    /// Another balance orifice.
    OrificeChanged,
}

/// What was done and what it left. Each dimension may be missing; a finding says what that costs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RepairWork {
    /// Which way.
    pub option: RepairOption,
    /// Parts, in words.
    #[serde(default)]
    pub parts: String,
    /// Bore of the sleeve, or bore as reamed, at 20 °C, m.
    #[serde(default)]
    pub bore_diameter_m: Option<Finite>,
    /// How far that may be off either way (95 %), m.
    #[serde(default)]
    pub bore_uncertainty_m: Option<Finite>,
    /// Diameter of the valve's reaction land at 20 °C, m.
    #[serde(default)]
    pub valve_diameter_m: Option<Finite>,
    /// How far that may be off either way (95 %), m.
    #[serde(default)]
    pub valve_uncertainty_m: Option<Finite>,
    /// Spring load at the regulating position, N.
    #[serde(default)]
    pub spring_load_n: Option<Finite>,
    /// Spring rate, N/m.
    #[serde(default)]
    pub spring_rate_n_per_m: Option<Finite>,
    /// How far the spring's load may be off either way, N; none: taken as stated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spring_tolerance_n: Option<Finite>,
    /// Outer diameter of the sleeve at 20 °C, m.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sleeve_outer_m: Option<Finite>,
    /// Gap around the sleeve on the diameter at 20 °C, m; below zero it is a press fit. None:
    /// nothing is taken to pass around it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seat_gap_m: Option<Finite>,
    /// How far that may be off either way (95 %), m.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seat_gap_uncertainty_m: Option<Finite>,
    /// What the sleeve is made of; none: as the body.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sleeve_material: Option<Material>,
    /// What the valve is made of; none: as the old one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub valve_material: Option<Material>,
    /// Travel that the valve leaves, m; none: as the old one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stroke_m: Option<Finite>,
    /// What polishing took off the surface of the bore, m.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub polished_off_m: Option<Finite>,
    /// Bore of the balance orifice that was put in, m; none: the old one stays.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub orifice_m: Option<Finite>,
    /// Anything worth keeping.
    #[serde(default)]
    pub notes: String,
}

impl RepairWork {
    /// Work of which nothing but the way is said.
    #[must_use]
    pub const fn new(option: RepairOption) -> Self {
        Self {
            option,
            parts: String::new(),
            bore_diameter_m: None,
            bore_uncertainty_m: None,
            valve_diameter_m: None,
            valve_uncertainty_m: None,
            spring_load_n: None,
            spring_rate_n_per_m: None,
            spring_tolerance_n: None,
            sleeve_outer_m: None,
            seat_gap_m: None,
            seat_gap_uncertainty_m: None,
            sleeve_material: None,
            valve_material: None,
            stroke_m: None,
            polished_off_m: None,
            orifice_m: None,
            notes: String::new(),
        }
    }

    /// True when the bore, the valve and the lands are others than before.
    #[must_use]
    pub fn has_new_dimensions(&self) -> bool {
        self.bore_diameter_m.is_some() || self.valve_diameter_m.is_some()
    }
}

impl Check for RepairWork {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        let most_tolerance = Range {
            low: 0.0,
            high: 0.5 * self.spring_load_n.map_or(0.0, Finite::get).max(1.0),
        };
        let entered: [(&str, Option<Finite>, Range); 13] = [
            ("bore_diameter_m", self.bore_diameter_m, limits::DIAMETER_M),
            (
                "bore_uncertainty_m",
                self.bore_uncertainty_m,
                limits::DIAMETER_UNCERTAINTY_M,
            ),
            (
                "valve_diameter_m",
                self.valve_diameter_m,
                limits::DIAMETER_M,
            ),
            (
                "valve_uncertainty_m",
                self.valve_uncertainty_m,
                limits::DIAMETER_UNCERTAINTY_M,
            ),
            ("spring_load_n", self.spring_load_n, limits::SPRING_LOAD_N),
            (
                "spring_rate_n_per_m",
                self.spring_rate_n_per_m,
                limits::SPRING_RATE_N_PER_M,
            ),
            (
                "spring_tolerance_n",
                self.spring_tolerance_n,
                most_tolerance,
            ),
            ("sleeve_outer_m", self.sleeve_outer_m, limits::DIAMETER_M),
            ("seat_gap_m", self.seat_gap_m, limits::SEAT_GAP_M),
            (
                "seat_gap_uncertainty_m",
                self.seat_gap_uncertainty_m,
                limits::DIAMETER_UNCERTAINTY_M,
            ),
            ("stroke_m", self.stroke_m, limits::STROKE_M),
            ("polished_off_m", self.polished_off_m, limits::POLISH_M),
            ("orifice_m", self.orifice_m, limits::ORIFICE_M),
        ];
        for (field, value, range) in entered {
            if let Some(value) = value {
                in_range(*value, range, at, field, findings);
            }
        }
        if let (Some(bore), Some(valve)) = (self.bore_diameter_m, self.valve_diameter_m) {
            let field = join(at, "valve_diameter_m");
            if *valve >= *bore {
                let code = FindingCode::ValveLargerThanBore;
                findings.push(Finding::at(Severity::Wrong, code, field).with_bounds(*valve, *bore));
            } else if *bore - *valve > limits::DIAMETRAL_CLEARANCE_M.high {
                let code = FindingCode::ClearanceImplausible;
                let high = limits::DIAMETRAL_CLEARANCE_M.high;
                findings.push(
                    Finding::at(Severity::Wrong, code, field).with_bounds(*bore - *valve, high),
                );
            }
        }
    }
}
