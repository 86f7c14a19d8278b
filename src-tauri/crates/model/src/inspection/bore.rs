//! The checks of a bore.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Condition, Outcome, worst};
use crate::finding::{FindingCode, Severity};
use crate::limits::{self, Check, in_range, join};
use crate::{Finding, Finite, Id};

/// Order and orientation of the valve train, seen before it comes out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ValveTrain {
    /// How it lay.
    pub state: TrainState,
}

/// How a valve train lay.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum TrainState {
    /// As the service information shows it.
    AsShown,
    /// A part the wrong way round or in the wrong place.
    WrongWay,
    /// A part missing, broken, or of another kind.
    PartMissing,
    /// There is nothing to hold it against; the photo is the record.
    NotKnown,
}

impl ValveTrain {
    pub(super) fn outcome(&self) -> Outcome {
        match self.state {
            TrainState::AsShown => Outcome::Good,
            TrainState::NotKnown => Outcome::Doubtful,
            TrainState::WrongWay | TrainState::PartMissing => Outcome::Bad,
        }
    }
}

/// How a valve moves by its own weight or a light push.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Movement {
    /// By its own weight, over the whole stroke.
    Free,
    /// It drags somewhere.
    Drags,
    /// It stays where it is.
    Sticks,
}

/// Free movement. What wasn't tried stays empty.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FreeMovement {
    /// Washed and dry.
    #[serde(default)]
    pub dry: Option<Movement>,
    /// With oil on it.
    #[serde(default)]
    pub wet: Option<Movement>,
    /// With the body bolted to its torque: castings distort.
    #[serde(default)]
    pub bolted: Option<Movement>,
    /// Force that it took to move it, N, where it was measured.
    #[serde(default)]
    pub friction_n: Option<Finite>,
}

impl FreeMovement {
    /// The worst of what was tried; none when nothing was.
    #[must_use]
    pub fn worst(&self) -> Option<Movement> {
        [self.dry, self.wet, self.bolted]
            .into_iter()
            .flatten()
            .max()
    }

    pub(super) fn outcome(&self) -> Outcome {
        match self.worst() {
            Some(Movement::Free) => Outcome::Good,
            Some(Movement::Drags) | None => Outcome::Doubtful,
            Some(Movement::Sticks) => Outcome::Bad,
        }
    }
}

impl Check for FreeMovement {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        if self.worst().is_none() && self.friction_n.is_none() {
            let code = FindingCode::Missing;
            findings.push(Finding::at(Severity::Wrong, code, join(at, "dry")));
        }
        if let Some(friction) = self.friction_n {
            in_range(*friction, limits::FRICTION_N, at, "friction_n", findings);
        }
    }
}

/// Marks of wear.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct WearMarks {
    /// Each mark; none: looked at, and nothing seen.
    pub marks: Vec<WearMark>,
}

/// One mark.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct WearMark {
    /// On what.
    pub on: MarkedSurface,
    /// How deep.
    pub depth: MarkDepth,
    /// Where along the bore, m from the drawing's zero.
    #[serde(default)]
    pub position_m: Option<Finite>,
}

/// What is marked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum MarkedSurface {
    /// The bore.
    Bore,
    /// The valve.
    Valve,
}

/// How deep a mark is.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum MarkDepth {
    /// A polished patch: seen, not felt.
    Seen,
    /// A nail feels it.
    Felt,
    /// A nail catches in it, or the hard layer is through.
    Caught,
}

impl WearMarks {
    pub(super) fn outcome(&self) -> Outcome {
        worst(self.marks.iter().map(|mark| match mark.depth {
            MarkDepth::Seen | MarkDepth::Felt => Outcome::Doubtful,
            MarkDepth::Caught => Outcome::Bad,
        }))
    }
}

impl Check for WearMarks {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        for (i, mark) in self.marks.iter().enumerate() {
            if let Some(position) = mark.position_m {
                let here = join(at, &format!("marks[{i}]"));
                in_range(*position, limits::POSITION_M, &here, "position_m", findings);
            }
        }
    }
}

/// Light past the lands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LightCheck {
    /// What was seen at each land that was looked at.
    pub lands: Vec<LandLight>,
}

/// Light at one land.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LandLight {
    /// The land's name in the profile.
    pub land: String,
    /// What was seen.
    pub seen: LightSeen,
}

/// How much light.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum LightSeen {
    /// None.
    None,
    /// A thin line, in places.
    Faint,
    /// A clear gap.
    Clear,
}

impl LightCheck {
    pub(super) fn outcome(&self) -> Outcome {
        worst(self.lands.iter().map(|land| match land.seen {
            LightSeen::None => Outcome::Good,
            LightSeen::Faint => Outcome::Doubtful,
            LightSeen::Clear => Outcome::Bad,
        }))
    }
}

/// Play felt by hand.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct WiggleCheck {
    /// What was felt.
    pub feel: LightSeen,
    /// Play across the valve by an indicator, m, where it was measured.
    #[serde(default)]
    pub play_m: Option<Finite>,
}

impl WiggleCheck {
    pub(super) fn outcome(&self) -> Outcome {
        match self.feel {
            LightSeen::None => Outcome::Good,
            // A hand can't tell a good clearance from a worn one: it only asks for a measurement.
            LightSeen::Faint | LightSeen::Clear => Outcome::Doubtful,
        }
    }
}

impl Check for WiggleCheck {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        if let Some(play) = self.play_m {
            in_range(*play, limits::DIAMETRAL_CLEARANCE_M, at, "play_m", findings);
        }
    }
}

/// Diameters of bore and valve, at stations and directions.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Diameters {
    /// Of the bore.
    #[serde(default)]
    pub bore: Vec<BoreDiameter>,
    /// Of the valve's lands.
    #[serde(default)]
    pub valve: Vec<LandDiameter>,
    /// What the bore was measured with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bore_gauge: Option<Id>,
    /// What the valve was measured with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub micrometer: Option<Id>,
    /// Temperature of the parts, K; none: 20 °C.
    #[serde(default)]
    pub temperature_k: Option<Finite>,
}

/// One diameter of the bore.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BoreDiameter {
    /// How deep, m from the plug's end.
    pub station_m: Finite,
    /// Across which direction, rad.
    pub direction_rad: Finite,
    /// Diameter, m.
    pub diameter_m: Finite,
}

/// One diameter of a land.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LandDiameter {
    /// The land's name in the profile.
    pub land: String,
    /// Across which direction, rad.
    pub direction_rad: Finite,
    /// Diameter, m.
    pub diameter_m: Finite,
}

impl Check for Diameters {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        if self.bore.is_empty() && self.valve.is_empty() {
            let code = FindingCode::Missing;
            findings.push(Finding::at(Severity::Wrong, code, join(at, "bore")));
        }
        for (i, reading) in self.bore.iter().enumerate() {
            let here = join(at, &format!("bore[{i}]"));
            in_range(
                *reading.diameter_m,
                limits::DIAMETER_M,
                &here,
                "diameter_m",
                findings,
            );
            in_range(
                *reading.station_m,
                limits::AXIAL_M,
                &here,
                "station_m",
                findings,
            );
        }
        for (i, reading) in self.valve.iter().enumerate() {
            let here = join(at, &format!("valve[{i}]"));
            in_range(
                *reading.diameter_m,
                limits::DIAMETER_M,
                &here,
                "diameter_m",
                findings,
            );
        }
        let least = |values: &mut dyn Iterator<Item = f64>| values.fold(f64::INFINITY, f64::min);
        let bore = least(&mut self.bore.iter().map(|reading| *reading.diameter_m));
        for (i, reading) in self.valve.iter().enumerate() {
            if *reading.diameter_m >= bore {
                let field = join(at, &format!("valve[{i}].diameter_m"));
                findings.push(
                    Finding::at(Severity::Doubt, FindingCode::ValveLargerThanBore, field)
                        .with_bounds(*reading.diameter_m, bore),
                );
            }
        }
        if let Some(temperature) = self.temperature_k {
            in_range(
                *temperature,
                limits::AIR_TEMPERATURE_K,
                at,
                "temperature_k",
                findings,
            );
        }
    }
}

/// The spring measured.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SpringCheck {
    /// Free length, m.
    #[serde(default)]
    pub free_length_m: Option<Finite>,
    /// Loads at heights.
    #[serde(default)]
    pub loads: Vec<SpringLoad>,
    /// Height at the regulating position (the supply just closed), m; without it no load there can
    /// be told.
    #[serde(default)]
    pub height_regulating_m: Option<Finite>,
    /// What it was measured with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tester: Option<Id>,
}

/// One load at one height.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SpringLoad {
    /// Compressed height, m.
    pub height_m: Finite,
    /// Load, N.
    pub load_n: Finite,
}

impl Check for SpringCheck {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        if self.loads.is_empty() && self.free_length_m.is_none() {
            let code = FindingCode::Missing;
            findings.push(Finding::at(
                Severity::Wrong,
                code,
                join(at, "loads[0].load_n"),
            ));
        }
        let lengths = [
            ("free_length_m", self.free_length_m),
            ("height_regulating_m", self.height_regulating_m),
        ];
        for (field, length) in lengths {
            if let Some(length) = length {
                in_range(*length, limits::SPRING_HEIGHT_M, at, field, findings);
            }
        }
        for (i, reading) in self.loads.iter().enumerate() {
            let here = join(at, &format!("loads[{i}]"));
            in_range(
                *reading.height_m,
                limits::SPRING_HEIGHT_M,
                &here,
                "height_m",
                findings,
            );
            in_range(
                *reading.load_n,
                limits::SPRING_LOAD_N,
                &here,
                "load_n",
                findings,
            );
            let contradicts = |other: &SpringLoad| {
                *other.height_m > *reading.height_m && *other.load_n >= *reading.load_n
            };
            let longer_than_free = self
                .free_length_m
                .is_some_and(|free| *reading.height_m >= *free);
            if self.loads.iter().any(contradicts) || longer_than_free {
                findings.push(Finding::at(
                    Severity::Wrong,
                    FindingCode::DimensionsContradict,
                    join(&here, "height_m"),
                ));
            }
        }
    }
}

/// The bore of the balance orifice, by pin gauges.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OrificeBore {
    /// The largest pin that goes, m; none: not even the smallest one tried.
    #[serde(default)]
    pub go_m: Option<Finite>,
    /// The smallest pin that doesn't, m; none: the largest one tried went.
    #[serde(default)]
    pub no_go_m: Option<Finite>,
    /// The set of pins.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pins: Option<Id>,
}

impl Check for OrificeBore {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        for (field, pin) in [("go_m", self.go_m), ("no_go_m", self.no_go_m)] {
            if let Some(pin) = pin {
                in_range(*pin, limits::ORIFICE_M, at, field, findings);
            }
        }
        match (self.go_m, self.no_go_m) {
            (None, None) => {
                let code = FindingCode::Missing;
                findings.push(Finding::at(Severity::Wrong, code, join(at, "go_m")));
            }
            (Some(go), Some(no_go)) if *go >= *no_go => {
                findings.push(Finding::at(
                    Severity::Wrong,
                    FindingCode::DimensionsContradict,
                    join(at, "no_go_m"),
                ));
            }
            _ => {}
        }
    }
}

/// End plug and its seal.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct EndPlug {
    /// The plug and its seat in the bore.
    pub plug: Condition,
    /// Its seal; none: it has none.
    #[serde(default)]
    pub seal: Option<Condition>,
}

impl EndPlug {
    pub(super) fn outcome(&self) -> Outcome {
        worst(
            [Some(self.plug), self.seal]
                .into_iter()
                .flatten()
                .map(Condition::outcome),
        )
    }
}
