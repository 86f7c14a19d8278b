//! Fits: measured clearance, clearance in heat, ISO 286, and a sleeve in a reamed bore.

use diagnosis::Assumed;
use model::Finite;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Bounds, MeasuredValue};

/// One diameter of a bore or a valve.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DiameterReading {
    /// Where along the part, m from its end.
    pub station_m: Finite,
    /// In which direction across it, rad.
    pub direction_rad: Finite,
    /// Diameter, m.
    pub diameter_m: Finite,
}

/// Standard uncertainties of what the diameters were taken with.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DiameterInstrument {
    /// Of the error that all its readings share, m.
    pub shared_m: Finite,
    /// Of each reading by itself, m.
    pub each_m: Finite,
}

/// A bore and its valve, measured.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FitClearanceArgs {
    /// Readings of the bore, 1 to 200.
    pub bore: Vec<DiameterReading>,
    /// Readings of the valve, 1 to 200.
    pub valve: Vec<DiameterReading>,
    /// What the bore was measured with.
    pub bore_instrument: DiameterInstrument,
    /// What the valve was measured with.
    pub valve_instrument: DiameterInstrument,
    /// True when one instrument measured both, so that its own error drops out.
    pub same_instrument: bool,
}

/// How far from round a part is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RoundnessFound {
    /// Largest less smallest diameter at the worst station, m.
    pub difference_m: MeasuredValue,
    /// Where that is, m.
    pub station_m: Finite,
    /// What readings of a round part would differ by on average, m.
    pub by_chance_m: Finite,
}

/// How a diameter changes along the part.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TaperFound {
    /// Diameter per length; positive when it grows with the station.
    pub slope_ratio: MeasuredValue,
    /// From the first station to the last, m.
    pub over_span_m: MeasuredValue,
}

/// The shape that readings show.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PartShape {
    /// Mean diameter, m.
    pub mean_m: MeasuredValue,
    /// Smallest reading, m.
    pub smallest_m: Finite,
    /// Largest reading, m.
    pub largest_m: Finite,
    /// Out-of-round; none with one direction at each station.
    pub out_of_round: Option<RoundnessFound>,
    /// Taper; none with one station.
    pub taper: Option<TaperFound>,
}

/// Clearance of a valve in its bore.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FitClearanceAnswer {
    /// The bore.
    pub bore: PartShape,
    /// The valve.
    pub valve: PartShape,
    /// Radial clearance of the means, m; negative when the valve is larger.
    pub radial_clearance_m: MeasuredValue,
    /// Radial clearance of smallest bore and largest valve, m.
    pub least_clearance_m: Finite,
    /// Radial clearance of largest bore and smallest valve, m.
    pub most_clearance_m: Finite,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// The metal of a part, by kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PartMetal {
    /// Die-cast aluminium with copper and silicon.
    DieCastAluminium,
    /// Cast aluminium with silicon and magnesium.
    CastAluminium,
    /// Wrought aluminium, anodised or not.
    WroughtAluminium,
    /// Carbon steel.
    CarbonSteel,
    /// Bearing steel.
    BearingSteel,
    /// Austenitic stainless steel.
    AusteniticSteel,
    /// Martensitic stainless steel.
    MartensiticSteel,
    /// Grey cast iron.
    GreyIron,
}

/// A valve in its bore away from 20 °C.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FitTemperatureArgs {
    /// Diameter of the bore at 20 °C, m.
    pub bore_20c_m: Finite,
    /// Diameter of the valve at 20 °C, m.
    pub valve_20c_m: Finite,
    /// Metal of the bore.
    pub bore_metal: PartMetal,
    /// Metal of the valve.
    pub valve_metal: PartMetal,
    /// Temperature of both, K.
    pub temperature_k: Finite,
}

/// The clearance there.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FitTemperatureAnswer {
    /// Radial clearance, m; negative when the valve would seize.
    pub radial_clearance_m: Finite,
    /// Its bounds over the spread of the coefficients, m.
    pub span_m: Bounds,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// A tolerance class of ISO 286, or the fit of two.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FitIsoArgs {
    /// Nominal size, m.
    pub nominal_m: Finite,
    /// A class, such as `H7` of a hole or `g6` of a shaft.
    pub tolerance_class: String,
    /// The class of a shaft in a hole of that class; none: only the limits of the one.
    #[serde(default)]
    pub shaft_class: Option<String>,
}

/// Limits of one class.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ClassLimits {
    /// Lower and upper deviation, m.
    pub deviations_m: Bounds,
    /// Smallest and largest size, m.
    pub sizes_m: Bounds,
}

/// What two classes make.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ClassFitKind {
    /// Always loose.
    Clearance,
    /// Loose or tight.
    Transition,
    /// Always tight.
    Interference,
}

/// The fit of two classes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ClassFit {
    /// The shaft's limits.
    pub shaft: ClassLimits,
    /// Diametral clearance, m; negative is interference.
    pub clearance_m: Bounds,
    /// Its kind.
    pub kind: ClassFitKind,
}

/// Limits, and the fit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FitIsoAnswer {
    /// True for the class of a hole.
    pub hole: bool,
    /// Limits of the first class.
    pub limits: ClassLimits,
    /// The fit, when a shaft's class was given.
    pub fit: Option<ClassFit>,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// A sleeve for a worn bore.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FitSleeveArgs {
    /// Smallest diameter of the worn bore, m.
    pub bore_smallest_m: Finite,
    /// Largest diameter of the worn bore, m.
    pub bore_largest_m: Finite,
    /// Diameter to which it is reamed, m.
    pub finished_bore_m: Finite,
    /// Outer diameter of the sleeve, m.
    pub outer_diameter_m: Finite,
    /// Inner diameter of the sleeve in place, m.
    pub inner_diameter_m: Finite,
    /// Diameter of the valve that will run in it, m.
    pub valve_diameter_m: Finite,
    /// Thinnest wall that the sleeve's maker allows, m.
    pub minimum_wall_m: Finite,
}

/// Whether the sleeve has room.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FitSleeveAnswer {
    /// Wall of the sleeve, m.
    pub wall_m: Finite,
    /// Wall less the thinnest allowed, m.
    pub wall_margin_m: Finite,
    /// False when the wall is thinner than its maker allows.
    pub wall_holds: bool,
    /// Largest inner diameter that the thinnest wall allows, m.
    pub largest_inner_diameter_m: Finite,
    /// What the reamer takes off where the bore is smallest, on the diameter, m.
    pub ream_stock_m: Finite,
    /// What it takes off where the bore is largest, m.
    pub least_stock_m: Finite,
    /// False when reaming leaves worn places untouched.
    pub cleans_up: bool,
    /// Radial clearance of the sleeve in the bore, m; negative is interference.
    pub seat_clearance_m: Finite,
    /// Radial clearance of the valve in the sleeve, m.
    pub valve_clearance_m: Finite,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}
