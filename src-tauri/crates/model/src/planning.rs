//! What a person enters to plan a repair: the metal around a bore, its hard layer, what a shop
//! allows. Every figure may be missing; the answer then says what that leaves open.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::finding::{FindingCode, Severity};
use crate::limits::{self, Check, Range, in_range, join};
use crate::{Finding, Finite};

/// Figures for planning a repair of one bore. They are no record: they are entered anew, or kept
/// as a draft.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct PlanFigures {
    /// Thinnest metal between the bore as new and the next passage or face, m.
    pub wall_m: Option<Finite>,
    /// The least that must be left of it, m.
    pub least_wall_m: Option<Finite>,
    /// Who says so.
    pub least_wall_source: String,
    /// Thickness of the bore's hard-anodised layer, m.
    pub layer_m: Option<Finite>,
    /// What polishing takes off the surface of the bore, m.
    pub polish_off_m: Option<Finite>,
    /// Clearance on the diameter that another valve should have, m; none: that of the profile.
    pub wanted_clearance_m: Option<Finite>,
    /// The most that a bore may be out of round for a valve without reaming, m.
    pub most_out_of_round_m: Option<Finite>,
    /// The thickest shim that the spring has travel for, m.
    pub most_shim_m: Option<Finite>,
    /// Oil temperature of the cold prediction, K; none: 20 °C.
    pub cold_oil_temperature_k: Option<Finite>,
}

impl Check for PlanFigures {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        let entered: [(&str, Option<Finite>, Range); 8] = [
            ("wall_m", self.wall_m, limits::WALL_M),
            ("least_wall_m", self.least_wall_m, limits::WALL_M),
            ("layer_m", self.layer_m, limits::HARD_LAYER_M),
            ("polish_off_m", self.polish_off_m, limits::POLISH_M),
            (
                "wanted_clearance_m",
                self.wanted_clearance_m,
                limits::DIAMETRAL_CLEARANCE_M,
            ),
            (
                "most_out_of_round_m",
                self.most_out_of_round_m,
                limits::OUT_OF_ROUND_M,
            ),
            ("most_shim_m", self.most_shim_m, limits::SHIM_M),
            (
                "cold_oil_temperature_k",
                self.cold_oil_temperature_k,
                limits::OIL_TEMPERATURE_K,
            ),
        ];
        for (field, value, range) in entered {
            if let Some(value) = value {
                in_range(*value, range, at, field, findings);
            }
        }
        if self.least_wall_m.is_some() && self.least_wall_source.trim().is_empty() {
            findings.push(Finding::at(
                Severity::Doubt,
                FindingCode::SourceMissing,
                join(at, "least_wall_source"),
            ));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wall_of_a_metre_and_a_limit_without_its_source_are_found_at_their_fields() {
        let figures = PlanFigures {
            wall_m: Finite::new(1.0),
            least_wall_m: Finite::new(1.5e-3),
            ..PlanFigures::default()
        };
        let found: Vec<_> = figures
            .findings()
            .into_iter()
            .map(|finding| (finding.code, finding.field))
            .collect();
        assert_eq!(
            found,
            [
                (FindingCode::OutOfRange, "wall_m".to_owned()),
                (FindingCode::SourceMissing, "least_wall_source".to_owned()),
            ]
        );
        assert_eq!(PlanFigures::default().findings(), []);
    }
}
