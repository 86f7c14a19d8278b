//! The checks of the body and of the case.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Condition, Outcome, worst};
use crate::finding::{FindingCode, Severity};
use crate::limits::{self, Check, in_range, in_range_if_known, join, text_required};
use crate::{Finding, Finite, Id};

/// Flatness of a face, by straightedge and feeler gauge.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Flatness {
    /// Which face.
    pub face: String,
    /// The widest gap found, m.
    pub gap_m: Finite,
    /// The widest that the service information allows, m.
    #[serde(default)]
    pub limit_m: Option<Finite>,
    /// Who says so.
    #[serde(default)]
    pub source: String,
}

impl Flatness {
    pub(super) fn outcome(&self) -> Outcome {
        match self.limit_m {
            None => Outcome::Measured,
            Some(limit) if *self.gap_m > *limit => Outcome::Bad,
            Some(_) => Outcome::Good,
        }
    }
}

impl Check for Flatness {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        text_required(&self.face, at, "face", findings);
        in_range(*self.gap_m, limits::FACE_GAP_M, at, "gap_m", findings);
        if let Some(limit) = self.limit_m {
            in_range(*limit, limits::FACE_GAP_M, at, "limit_m", findings);
            if self.source.trim().is_empty() {
                let code = FindingCode::SourceMissing;
                findings.push(Finding::at(Severity::Doubt, code, join(at, "source")));
            }
        }
    }
}

/// Separator plate and check balls.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PlateAndBalls {
    /// The plate: its face and its holes.
    pub plate: Condition,
    /// The balls' seats in plate and body.
    pub seats: Condition,
    /// How many balls the service information shows.
    #[serde(default)]
    pub balls_shown: Option<u32>,
    /// How many were there.
    #[serde(default)]
    pub balls_found: Option<u32>,
}

impl PlateAndBalls {
    pub(super) fn outcome(&self) -> Outcome {
        let count = match (self.balls_shown, self.balls_found) {
            (Some(shown), Some(found)) if shown != found => Outcome::Bad,
            _ => Outcome::Good,
        };
        worst([self.plate.outcome(), self.seats.outcome(), count])
    }
}

impl Check for PlateAndBalls {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        for (field, count) in [
            ("balls_shown", self.balls_shown),
            ("balls_found", self.balls_found),
        ] {
            if let Some(count) = count {
                in_range(f64::from(count), limits::CHECK_BALLS, at, field, findings);
            }
        }
    }
}

/// From one passage to the next: porous or cracked castings, a plate that doesn't seal.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CrossPassages {
    /// Which passages.
    pub between: String,
    /// How it held.
    pub hold: Hold,
    /// Vacuum that it held, Pa below ambient, where the stand was used.
    #[serde(default)]
    pub vacuum_pa: Option<Finite>,
    /// For how long it was watched, s.
    #[serde(default)]
    pub watched_s: Option<Finite>,
}

/// How something holds.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Hold {
    /// It holds.
    Holds,
    /// It loses slowly.
    LosesSlowly,
    /// It doesn't hold.
    DoesNotHold,
}

impl Hold {
    fn outcome(self) -> Outcome {
        match self {
            Self::Holds => Outcome::Good,
            Self::LosesSlowly => Outcome::Doubtful,
            Self::DoesNotHold => Outcome::Bad,
        }
    }
}

impl CrossPassages {
    pub(super) fn outcome(&self) -> Outcome {
        self.hold.outcome()
    }
}

impl Check for CrossPassages {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        text_required(&self.between, at, "between", findings);
        if let Some(vacuum) = self.vacuum_pa {
            in_range(*vacuum, limits::VACUUM_PA, at, "vacuum_pa", findings);
        }
        in_range_if_known(self.watched_s, limits::WATCHED_S, at, "watched_s", findings);
    }
}

/// Screens ahead of valves and solenoids.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FeedScreens {
    /// How they were.
    pub state: ScreenState,
}

/// How screens were.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ScreenState {
    /// Clean and whole.
    Clean,
    /// Something lies on them.
    Debris,
    /// Torn or pushed in.
    Torn,
    /// Not there, where there should be some.
    Missing,
}

impl FeedScreens {
    pub(super) fn outcome(&self) -> Outcome {
        match self.state {
            ScreenState::Clean => Outcome::Good,
            ScreenState::Debris => Outcome::Doubtful,
            ScreenState::Torn | ScreenState::Missing => Outcome::Bad,
        }
    }
}

/// A solenoid on the bench.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SolenoidCheck {
    /// Which one, in the shop's words.
    pub solenoid: String,
    /// Resistance as read, ohm.
    #[serde(default)]
    pub resistance_ohm: Option<Finite>,
    /// Temperature of the coil then, K.
    #[serde(default)]
    pub temperature_k: Option<Finite>,
    /// Least resistance that the service information allows, ohm.
    #[serde(default)]
    pub low_ohm: Option<Finite>,
    /// Most, ohm.
    #[serde(default)]
    pub high_ohm: Option<Finite>,
    /// At which coil temperature these hold, K.
    #[serde(default)]
    pub limits_at_k: Option<Finite>,
    /// Who says so.
    #[serde(default)]
    pub source: String,
    /// Whether it shuts tight with no current, by air or vacuum.
    #[serde(default)]
    pub shut: Option<Hold>,
    /// For how long that was watched, s.
    #[serde(default)]
    pub watched_s: Option<Finite>,
    /// Whether it passes and shuts off as it is switched.
    #[serde(default)]
    pub switches: Option<bool>,
}

impl Check for SolenoidCheck {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        text_required(&self.solenoid, at, "solenoid", findings);
        let resistances = [
            ("resistance_ohm", self.resistance_ohm),
            ("low_ohm", self.low_ohm),
            ("high_ohm", self.high_ohm),
        ];
        for (field, value) in resistances {
            if let Some(value) = value {
                in_range(*value, limits::COIL_OHM, at, field, findings);
            }
        }
        let temperatures = [
            ("temperature_k", self.temperature_k),
            ("limits_at_k", self.limits_at_k),
        ];
        for (field, value) in temperatures {
            if let Some(value) = value {
                in_range(*value, limits::OIL_TEMPERATURE_K, at, field, findings);
            }
        }
        in_range_if_known(self.watched_s, limits::WATCHED_S, at, "watched_s", findings);
        if let (Some(low), Some(high)) = (self.low_ohm, self.high_ohm)
            && *low >= *high
        {
            let code = FindingCode::DimensionsContradict;
            findings.push(Finding::at(Severity::Wrong, code, join(at, "high_ohm")));
        }
        let nothing =
            self.resistance_ohm.is_none() && self.shut.is_none() && self.switches.is_none();
        if nothing {
            let code = FindingCode::Missing;
            findings.push(Finding::at(
                Severity::Wrong,
                code,
                join(at, "resistance_ohm"),
            ));
        }
        let limited = self.low_ohm.is_some() || self.high_ohm.is_some();
        if limited && self.source.trim().is_empty() {
            let code = FindingCode::SourceMissing;
            findings.push(Finding::at(Severity::Doubt, code, join(at, "source")));
        }
        // Copper gains 0.4 % a kelvin: without the temperatures the limits are only a hint.
        let compared = limited && self.resistance_ohm.is_some();
        if compared && (self.temperature_k.is_none() || self.limits_at_k.is_none()) {
            let field = match self.temperature_k {
                None => "temperature_k",
                Some(_) => "limits_at_k",
            };
            let code = FindingCode::Missing;
            findings.push(Finding::at(Severity::Doubt, code, join(at, field)));
        }
    }
}

/// A clutch held by air at the case.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ClutchAir {
    /// Which clutch, in the shop's words.
    pub clutch: String,
    /// How it held.
    pub hold: Hold,
    /// Air pressure used, Pa above ambient.
    #[serde(default)]
    pub pressure_pa: Option<Finite>,
    /// For how long it was watched, s.
    #[serde(default)]
    pub watched_s: Option<Finite>,
    /// What limited the air, if a regulator was used.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gauge: Option<Id>,
}

impl ClutchAir {
    pub(super) fn outcome(&self) -> Outcome {
        self.hold.outcome()
    }
}

impl Check for ClutchAir {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        text_required(&self.clutch, at, "clutch", findings);
        if let Some(pressure) = self.pressure_pa {
            in_range(*pressure, limits::SHOP_AIR_PA, at, "pressure_pa", findings);
        }
        in_range_if_known(self.watched_s, limits::WATCHED_S, at, "watched_s", findings);
    }
}
