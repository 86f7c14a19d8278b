//! What an inspection found: one check of one bore, of the body, or of the case, in one job.
//!
//! A check that was done again (after cleaning, after a repair) is a record of its own; a slip of
//! the pen is a correction of the same record.

mod body;
mod bore;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::limits::{Check, join};
use crate::{Finding, Finite, Id};

pub use body::{
    ClutchAir, CrossPassages, FeedScreens, Flatness, Hold, PlateAndBalls, ScreenState,
    SolenoidCheck,
};
pub use bore::{
    BoreDiameter, Diameters, EndPlug, FreeMovement, LandDiameter, LandLight, LightCheck, LightSeen,
    MarkDepth, MarkedSurface, Movement, OrificeBore, SpringCheck, SpringLoad, TrainState,
    ValveTrain, WearMark, WearMarks, WiggleCheck,
};

/// One check in one job. Kind `inspection`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Inspection {
    /// The job.
    pub job: Id,
    /// The bore; none: the check is of the body or the case.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bore: Option<Id>,
    /// When in the job.
    pub occasion: Occasion,
    /// What was found.
    pub found: Found,
    /// Anything worth keeping.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// When in a job a check was done.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Occasion {
    /// As it came out.
    AsFound,
    /// After cleaning.
    AfterCleaning,
    /// After a repair.
    AfterRepair,
}

/// How good or bad a part looks, in one word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Condition {
    /// Nothing wrong with it.
    Good,
    /// Worn, but whole.
    Worn,
    /// Damaged.
    Damaged,
    /// Not there.
    Missing,
}

/// The checks that there are. A vacuum test is one too; its records are those of kind `test`.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum CheckName {
    /// Order and orientation of the valve train, before it comes out.
    ValveTrain,
    /// Whether the valve moves freely: dry, wet, and with the body bolted.
    FreeMovement,
    /// Marks of wear on valve and bore.
    WearMarks,
    /// Light past the lands.
    Light,
    /// Play felt by hand.
    Wiggle,
    /// Vacuum test.
    Vacuum,
    /// Diameters of bore and valve.
    Diameters,
    /// Load of the spring at its heights.
    Spring,
    /// Bore of the balance orifice.
    OrificeBore,
    /// End plug and its seal.
    EndPlug,
    /// Flatness of the body's face.
    Flatness,
    /// Separator plate and check balls.
    PlateAndBalls,
    /// Leaks from passage to passage: porous or cracked castings.
    CrossPassages,
    /// Screens ahead of valves and solenoids.
    FeedScreens,
    /// A solenoid's resistance, leak and flow.
    Solenoid,
    /// A clutch held by air at the case.
    ClutchAir,
}

impl CheckName {
    /// The checks of a bore, in the order in which they spoil nothing for each other: first what
    /// taking the valve out would destroy, then what needs it dry.
    pub const OF_A_BORE: [Self; 10] = [
        Self::ValveTrain,
        Self::FreeMovement,
        Self::EndPlug,
        Self::WearMarks,
        Self::Light,
        Self::Wiggle,
        Self::Vacuum,
        Self::Diameters,
        Self::Spring,
        Self::OrificeBore,
    ];

    /// The checks of the body and the case.
    pub const OF_THE_BODY: [Self; 6] = [
        Self::PlateAndBalls,
        Self::FeedScreens,
        Self::Flatness,
        Self::CrossPassages,
        Self::Solenoid,
        Self::ClutchAir,
    ];

    /// True for a check that belongs to a bore.
    #[must_use]
    pub fn is_of_a_bore(self) -> bool {
        Self::OF_A_BORE.contains(&self)
    }
}

/// What a check found.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "check", rename_all = "snake_case")]
pub enum Found {
    /// Order and orientation of the valve train.
    ValveTrain(ValveTrain),
    /// Free movement.
    FreeMovement(FreeMovement),
    /// Marks of wear.
    WearMarks(WearMarks),
    /// Light past the lands.
    Light(LightCheck),
    /// Play by hand.
    Wiggle(WiggleCheck),
    /// Diameters.
    Diameters(Diameters),
    /// The spring.
    Spring(SpringCheck),
    /// The balance orifice.
    OrificeBore(OrificeBore),
    /// End plug and seal.
    EndPlug(EndPlug),
    /// Flatness.
    Flatness(Flatness),
    /// Plate and balls.
    PlateAndBalls(PlateAndBalls),
    /// From passage to passage.
    CrossPassages(CrossPassages),
    /// Screens.
    FeedScreens(FeedScreens),
    /// A solenoid.
    Solenoid(SolenoidCheck),
    /// A clutch.
    ClutchAir(ClutchAir),
}

/// What a check says by itself, before anything is computed from it.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    /// Nothing wrong.
    Good,
    /// Figures on record that only a calculation can judge.
    Measured,
    /// Odd: it wants another look or a measurement.
    Doubtful,
    /// Something is wrong.
    Bad,
}

impl Found {
    /// Which check.
    #[must_use]
    pub fn name(&self) -> CheckName {
        match self {
            Self::ValveTrain(_) => CheckName::ValveTrain,
            Self::FreeMovement(_) => CheckName::FreeMovement,
            Self::WearMarks(_) => CheckName::WearMarks,
            Self::Light(_) => CheckName::Light,
            Self::Wiggle(_) => CheckName::Wiggle,
            Self::Diameters(_) => CheckName::Diameters,
            Self::Spring(_) => CheckName::Spring,
            Self::OrificeBore(_) => CheckName::OrificeBore,
            Self::EndPlug(_) => CheckName::EndPlug,
            Self::Flatness(_) => CheckName::Flatness,
            Self::PlateAndBalls(_) => CheckName::PlateAndBalls,
            Self::CrossPassages(_) => CheckName::CrossPassages,
            Self::FeedScreens(_) => CheckName::FeedScreens,
            Self::Solenoid(_) => CheckName::Solenoid,
            Self::ClutchAir(_) => CheckName::ClutchAir,
        }
    }

    /// The instruments that it names, with their fields.
    #[must_use]
    pub fn instruments(&self) -> Vec<(&'static str, Id)> {
        let named = match self {
            Self::Diameters(found) => vec![
                ("bore_gauge", found.bore_gauge),
                ("micrometer", found.micrometer),
            ],
            Self::Spring(found) => vec![("tester", found.tester)],
            Self::OrificeBore(found) => vec![("pins", found.pins)],
            Self::Solenoid(found) => vec![("ohmmeter", found.ohmmeter)],
            Self::ClutchAir(found) => vec![("gauge", found.gauge)],
            _ => Vec::new(),
        };
        let named = named.into_iter();
        named.filter_map(|(field, id)| Some((field, id?))).collect()
    }

    /// Every figure that was read from an instrument it names: the instrument, the field, the
    /// figure in SI.
    #[must_use]
    pub fn readings(&self) -> Vec<(Id, String, f64)> {
        let mut read = Vec::new();
        let mut by = |instrument: Option<Id>, field: String, value: Option<Finite>| {
            if let (Some(instrument), Some(value)) = (instrument, value) {
                read.push((instrument, field, *value));
            }
        };
        match self {
            Self::Diameters(found) => {
                for (i, bore) in found.bore.iter().enumerate() {
                    let field = format!("bore[{i}].diameter_m");
                    by(found.bore_gauge, field, Some(bore.diameter_m));
                }
                for (i, land) in found.valve.iter().enumerate() {
                    let field = format!("valve[{i}].diameter_m");
                    by(found.micrometer, field, Some(land.diameter_m));
                }
            }
            Self::Spring(found) => {
                for (i, load) in found.loads.iter().enumerate() {
                    by(
                        found.tester,
                        format!("loads[{i}].load_n"),
                        Some(load.load_n),
                    );
                }
            }
            Self::OrificeBore(found) => {
                by(found.pins, "go_m".to_owned(), found.go_m);
                by(found.pins, "no_go_m".to_owned(), found.no_go_m);
            }
            Self::Solenoid(found) => {
                let ohm = "resistance_ohm".to_owned();
                by(found.ohmmeter, ohm, found.resistance_ohm);
            }
            Self::ClutchAir(found) => by(found.gauge, "pressure_pa".to_owned(), found.pressure_pa),
            _ => {}
        }
        read
    }

    /// What it says by itself.
    #[must_use]
    pub fn outcome(&self) -> Outcome {
        match self {
            Self::ValveTrain(found) => found.outcome(),
            Self::FreeMovement(found) => found.outcome(),
            Self::WearMarks(found) => found.outcome(),
            Self::Light(found) => found.outcome(),
            Self::Wiggle(found) => found.outcome(),
            Self::Diameters(_) | Self::Spring(_) | Self::OrificeBore(_) => Outcome::Measured,
            Self::EndPlug(found) => found.outcome(),
            Self::Flatness(found) => found.outcome(),
            Self::PlateAndBalls(found) => found.outcome(),
            Self::CrossPassages(found) => found.outcome(),
            Self::FeedScreens(found) => found.outcome(),
            Self::Solenoid(found) => found.outcome(),
            Self::ClutchAir(found) => found.outcome(),
        }
    }
}

impl Condition {
    /// What it says by itself.
    #[must_use]
    pub fn outcome(self) -> Outcome {
        match self {
            Self::Good => Outcome::Good,
            Self::Worn => Outcome::Doubtful,
            Self::Damaged | Self::Missing => Outcome::Bad,
        }
    }
}

/// The worst of several outcomes; good where there are none.
fn worst(outcomes: impl IntoIterator<Item = Outcome>) -> Outcome {
    outcomes.into_iter().max().unwrap_or(Outcome::Good)
}

impl Check for Inspection {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        self.found.check(&join(at, "found"), findings);
    }
}

impl Check for Found {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        match self {
            Self::ValveTrain(_) | Self::Light(_) | Self::EndPlug(_) | Self::FeedScreens(_) => {}
            Self::FreeMovement(found) => found.check(at, findings),
            Self::WearMarks(found) => found.check(at, findings),
            Self::Wiggle(found) => found.check(at, findings),
            Self::Diameters(found) => found.check(at, findings),
            Self::Spring(found) => found.check(at, findings),
            Self::OrificeBore(found) => found.check(at, findings),
            Self::Flatness(found) => found.check(at, findings),
            Self::PlateAndBalls(found) => found.check(at, findings),
            Self::CrossPassages(found) => found.check(at, findings),
            Self::Solenoid(found) => found.check(at, findings),
            Self::ClutchAir(found) => found.check(at, findings),
        }
    }
}

#[cfg(test)]
mod tests;
