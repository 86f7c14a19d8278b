//! A clutch or brake that the circuit's solenoids apply: what a shift of the feed costs in torque.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{CoilLimits, SolenoidKind};
use crate::finding::{Finding, FindingCode, Severity};
use crate::limits::{self, Check, in_range, in_range_if_known, join, text_required};
use crate::{Finite, Id};

/// A clutch or brake of a circuit. Kind `clutch`. Without its solenoid's kind and what that is told
/// to give, no shift of its pressure can be told; without the rest, no torque.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Clutch {
    /// The circuit.
    pub circuit: Id,
    /// Fractional order key.
    pub order: String,
    /// Name, e.g. "2-6 brake".
    pub name: String,
    /// How its solenoid makes its pressure; none: as the circuit's do.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub solenoid_kind: Option<SolenoidKind>,
    /// What its solenoid's coil may measure, where that differs from the circuit's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub coil: Option<CoilLimits>,
    /// What the solenoid gives, out of a feed as specified, where the clutch has to hold at hot
    /// idle, Pa above ambient.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub command_idle_pa: Option<Finite>,
    /// The same at the highest line pressure, Pa above ambient.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub command_highest_pa: Option<Finite>,
    /// Pressure of the clutch over that of its solenoid: 1 where the solenoid feeds the clutch
    /// itself, more where it moves a valve that does.
    pub gain_ratio: Finite,
    /// Outer diameter of the piston, m.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub piston_outer_m: Option<Finite>,
    /// Inner diameter of the piston, m.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub piston_inner_m: Option<Finite>,
    /// Load of the return springs with the pack closed, N.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub return_spring_n: Option<Finite>,
    /// Outer diameter of the friction faces, m.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub face_outer_m: Option<Finite>,
    /// Inner diameter of the friction faces, m.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub face_inner_m: Option<Finite>,
    /// How many faces rub: two for each lined plate.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub faces: Option<u32>,
    /// Coefficient of friction in oil.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub friction_coefficient: Option<Finite>,
    /// Who says so.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub friction_source: String,
    /// Where the dimensions come from.
    pub source: String,
}

impl Clutch {
    /// Its fields that nobody entered, in the order in which they are asked; the circuit's kind of
    /// solenoid stands in for its own.
    #[must_use]
    pub fn lacks(&self, circuits_kind: Option<SolenoidKind>) -> Vec<&'static str> {
        let entered = [
            (
                "solenoid_kind",
                self.solenoid_kind.or(circuits_kind).is_some(),
            ),
            ("command_idle_pa", self.command_idle_pa.is_some()),
            ("command_highest_pa", self.command_highest_pa.is_some()),
            ("piston_outer_m", self.piston_outer_m.is_some()),
            ("piston_inner_m", self.piston_inner_m.is_some()),
            ("return_spring_n", self.return_spring_n.is_some()),
            ("face_outer_m", self.face_outer_m.is_some()),
            ("face_inner_m", self.face_inner_m.is_some()),
            ("faces", self.faces.is_some()),
            ("friction_coefficient", self.friction_coefficient.is_some()),
        ];
        entered
            .into_iter()
            .filter(|(_, there)| !there)
            .map(|(field, _)| field)
            .collect()
    }
}

impl Check for Clutch {
    fn check(&self, at: &str, f: &mut Vec<Finding>) {
        text_required(&self.name, at, "name", f);
        if let Some(coil) = &self.coil {
            coil.check(&join(at, "coil"), f);
        }
        in_range(*self.gain_ratio, limits::CLUTCH_GAIN, at, "gain_ratio", f);
        let (pressure, ring) = (limits::PRESSURE_PA, limits::CLUTCH_DIAMETER_M);
        for (field, value, range) in [
            ("command_idle_pa", self.command_idle_pa, pressure),
            ("command_highest_pa", self.command_highest_pa, pressure),
            ("piston_outer_m", self.piston_outer_m, ring),
            ("piston_inner_m", self.piston_inner_m, ring),
            (
                "return_spring_n",
                self.return_spring_n,
                limits::CLUTCH_SPRING_N,
            ),
            ("face_outer_m", self.face_outer_m, ring),
            ("face_inner_m", self.face_inner_m, ring),
            (
                "friction_coefficient",
                self.friction_coefficient,
                limits::FRICTION_COEFFICIENT,
            ),
        ] {
            in_range_if_known(value, range, at, field, f);
        }
        if let Some(faces) = self.faces {
            in_range(f64::from(faces), limits::FRICTION_FACES, at, "faces", f);
        }
        for (field, outer, inner) in [
            ("piston_outer_m", self.piston_outer_m, self.piston_inner_m),
            ("face_outer_m", self.face_outer_m, self.face_inner_m),
        ] {
            // A ring of less than two tenths across is a slip.
            if let (Some(outer), Some(inner)) = (outer, inner)
                && *outer - *inner < 2e-4
            {
                let code = FindingCode::DimensionsContradict;
                f.push(Finding::at(Severity::Wrong, code, join(at, field)));
            }
        }
        let mut unsourced = |text: &str, field| {
            if text.trim().is_empty() {
                let code = FindingCode::SourceMissing;
                f.push(Finding::at(Severity::Doubt, code, join(at, field)));
            }
        };
        if self.friction_coefficient.is_some() {
            unsourced(&self.friction_source, "friction_source");
        }
        unsourced(&self.source, "source");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn clutch() -> Clutch {
        serde_json::from_value(serde_json::json!({
            "circuit": Id::nil(), "order": "a", "name": "Brake", "gain_ratio": 1.0,
            "source": "measured"
        }))
        .unwrap()
    }

    fn codes(clutch: &Clutch) -> Vec<(FindingCode, String)> {
        let found = clutch.findings().into_iter();
        found.map(|found| (found.code, found.field)).collect()
    }

    #[test]
    fn a_name_is_enough_to_begin_and_the_rest_is_told_as_missing() {
        assert_eq!(codes(&clutch()), []);
        let lacks = clutch().lacks(Some(SolenoidKind::Bleed));
        assert_eq!((lacks.len(), lacks[0]), (9, "command_idle_pa"));
        assert_eq!(clutch().lacks(None)[0], "solenoid_kind");
    }

    #[test]
    fn a_ring_wider_inside_than_outside_contradicts_itself() {
        let mut odd = clutch();
        odd.face_outer_m = Finite::new(0.10);
        odd.face_inner_m = Finite::new(0.12);
        let at = "face_outer_m".to_owned();
        assert_eq!(codes(&odd), [(FindingCode::DimensionsContradict, at)]);
    }

    #[test]
    fn a_friction_without_a_source_and_one_of_ten_are_told() {
        let mut odd = clutch();
        odd.friction_coefficient = Finite::new(10.0);
        let found = codes(&odd);
        assert_eq!(found[0].0, FindingCode::OutOfRange);
        assert_eq!(found[1].1, "friction_source");
    }
}
