//! Entering a unit's profile: parts made, changed, copied, removed and brought back.

use diagnosis::prospect::Judged;
use model::unit::{
    BalanceOrifice, Bore, BoreShape, Circuit, Clutch, Land, Opening, Relief, Spring, Tap,
    TestPoint, Unit,
};
use model::{Finding, Finite, Id, Kind};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{BoreDrawing, UndoState};

/// Ask for a unit as it is edited.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ProfileGet {
    /// The unit.
    pub unit: Id,
}

/// One part of a profile. It names its parent; an empty order key puts it last.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "part", content = "body", rename_all = "snake_case")]
pub enum ProfilePart {
    /// The unit itself.
    Unit(Unit),
    /// A circuit.
    Circuit(Circuit),
    /// A pressure tap.
    Tap(Tap),
    /// A clutch or brake.
    Clutch(Clutch),
    /// A relief.
    Relief(Relief),
    /// A bore with its ports and spool.
    Bore(Bore),
    /// A land. Its order key follows from where it lies.
    Land(Land),
    /// An opening.
    Opening(Opening),
    /// A spring.
    Spring(Spring),
    /// A balance orifice.
    BalanceOrifice(BalanceOrifice),
    /// A vacuum test point.
    TestPoint(TestPoint),
}

/// Make or change one part.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ProfilePut {
    /// The part; none: a new one.
    #[serde(default)]
    pub id: Option<Id>,
    /// What it is to be.
    pub part: ProfilePart,
    /// True: only says what it would give.
    #[serde(default)]
    pub dry_run: bool,
}

/// A bore to start from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ProfileShape {
    /// The circuit that it serves.
    pub circuit: Id,
    /// What it starts from.
    pub shape: BoreShape,
    /// Its name.
    pub name: String,
    /// Its diameter, m.
    pub diameter_m: Finite,
    /// True: only shows it.
    #[serde(default)]
    pub dry_run: bool,
}

/// Copy a unit, a circuit or a bore with all its parts.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ProfileCopy {
    /// What to copy.
    pub id: Id,
    /// The copy's name.
    pub name: String,
}

/// Put a circuit, tap, clutch, bore or test point before or after its neighbour.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ProfileMove {
    /// The part.
    pub id: Id,
    /// True: one place towards the end.
    pub later: bool,
}

/// Remove a part with all that belongs to it, or bring it back.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ProfileRemove {
    /// The part.
    pub id: Id,
}

/// What became of an entry.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ProfileSaved {
    /// False when it was only tried, or one of its numbers can't be true.
    pub saved: bool,
    /// The part, once it is saved.
    pub id: Option<Id>,
    /// The unit with it.
    pub view: ProfileView,
}

/// Units that were removed and can be brought back.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RemovedUnits {
    /// Newest last.
    pub units: Vec<RemovedPart>,
}

/// A part that was removed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RemovedPart {
    /// The part.
    pub id: Id,
    /// What it was.
    pub kind: Kind,
    /// Its name; empty for what has none.
    pub name: String,
}

/// Something odd about a part.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PartFinding {
    /// The part; nil while it isn't saved.
    pub id: Id,
    /// What it is.
    pub kind: Kind,
    /// What was found, at a field of the part.
    pub finding: Finding,
}

/// A missing dimension and what it costs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PartCost {
    /// The part that lacks it; its bore for a whole part that is missing.
    pub id: Id,
    /// What that part is.
    pub kind: Kind,
    /// Field of the part, without indices: `diameter_m`, `balance_orifice`.
    pub field: String,
    /// The judgements that can't be had without it.
    pub costs: Vec<Judged>,
}

/// A unit as it is edited.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ProfileView {
    /// The unit; nil while it isn't saved.
    pub id: Id,
    /// The unit itself.
    pub body: Unit,
    /// Its circuits, in order.
    pub circuits: Vec<CircuitView>,
    /// What is odd, each at its part.
    pub findings: Vec<PartFinding>,
    /// Parts that were removed and can be brought back.
    pub removed: Vec<RemovedPart>,
    /// How many jobs there are on it.
    pub jobs: u32,
    /// What undo would do.
    pub undo: UndoState,
}

/// A circuit as it is edited.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CircuitView {
    /// The circuit.
    pub id: Id,
    /// The circuit itself.
    pub body: Circuit,
    /// Its taps.
    pub taps: Vec<TapPart>,
    /// Its clutches and brakes.
    pub clutches: Vec<ClutchPart>,
    /// Its relief.
    pub relief: Option<ReliefPart>,
    /// Its bores.
    pub bores: Vec<BoreView>,
}

/// A bore as it is edited.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BoreView {
    /// The bore.
    pub id: Id,
    /// The bore itself.
    pub body: Bore,
    /// Its lands from left to right.
    pub lands: Vec<LandPart>,
    /// Its openings.
    pub openings: Vec<OpeningPart>,
    /// Its spring.
    pub spring: Option<SpringPart>,
    /// Its balance orifice.
    pub balance_orifice: Option<BalanceOrificePart>,
    /// Its test points.
    pub test_points: Vec<TestPointPart>,
    /// The bore in section where it regulates.
    pub drawing: BoreDrawing,
    /// The judgements that it carries.
    pub can: Vec<Judged>,
    /// What is missing, and what that costs.
    pub costs: Vec<PartCost>,
}

macro_rules! parts {
    ($($(#[$doc:meta])* $name:ident of $body:ident;)*) => {
        $($(#[$doc])*
        #[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
        pub struct $name {
            /// Its subject; nil while it isn't saved.
            pub id: Id,
            /// What it says.
            pub body: $body,
        })*
    };
}

parts! {
    /// A tap with its subject.
    TapPart of Tap;
    /// A clutch with its subject.
    ClutchPart of Clutch;
    /// A relief with its subject.
    ReliefPart of Relief;
    /// A land with its subject.
    LandPart of Land;
    /// An opening with its subject.
    OpeningPart of Opening;
    /// A spring with its subject.
    SpringPart of Spring;
    /// An orifice with its subject.
    BalanceOrificePart of BalanceOrifice;
    /// A test point with its subject.
    TestPointPart of TestPoint;
}
