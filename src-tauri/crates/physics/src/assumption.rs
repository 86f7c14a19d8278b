//! What a calculation took for granted.

/// One assumption behind a result. Each result lists those that it made, so that whoever reads the
/// number can judge it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Assumption {
    // Air and the bench.
    /// Dry ideal gas of R = 287.05287 J/(kg K); moisture (under 1 % of density) is left out.
    DryIdealAir,
    /// Gas keeps the temperature of the shop along the gap and the hose.
    Isothermal,
    /// The barometer was derived from the altitude by the standard atmosphere; weather moves the
    /// true one by 1 to 3 %.
    BarometerFromAltitude,
    /// Laminar film in the gap, with first-order slip.
    LaminarFilm,
    /// The gap's Reynolds number is above 2000, where the film may be turbulent and would leak
    /// less than stated.
    PossiblyTurbulentFilm,
    /// Entry and exit of the gap cost 1.5 to 2 dynamic pressures. In air the acceleration along the
    /// gap is left out, which overstates the flow of a known gap by under 2 % in a good bore and up
    /// to a tenth in a worn one (35 µm radial over 5 mm).
    EntryExitLoss,
    /// Flow in the gap is choked: it no longer depends on the chamber pressure.
    ChokedGap,
    /// Eccentricity is unknown: results run from centred to touching.
    EccentricityUnknown,
    /// Several seals share one clearance.
    SharedClearance,
    /// The hole follows ISO 6358 with an assumed discharge coefficient and critical ratio.
    AssumedDischarge,
    /// The hose costs nothing: one orifice, or orifices that can't tell, calibrated the stand.
    HoseNeglected,
    /// The dead-head pressure is proportional to the barometer.
    DeadHeadFollowsBarometer,
    /// The absolute dead-head pressure is the same at any barometer.
    DeadHeadFixed,
    /// Pull of the stand is one constant, whatever the gauge shows.
    ConstantPull,
    /// No blank test: plug and plate are taken as tight, so the leak is overstated.
    BlankNeglected,
    /// Plug and plate leak like a hole.
    BlankAsHole,
    /// Plug and plate leak like a laminar gap.
    BlankAsGap,
    /// The balance orifice in series takes under 5 % of the drop and was left out.
    SeriesOrificeNeglected,
    /// The balance orifice in series was taken off by ISO 6358.
    SeriesOrificeCorrected,
    /// The balance orifice in parallel was subtracted by ISO 6358.
    ParallelOrificeSubtracted,
    /// The leak is carried between barometers as a laminar gap without slip.
    CarriedAsGap,
    /// The leak is carried between barometers as a hole.
    CarriedAsHole,
    /// Entry and exit loss left out, for want of a calibrated stand.
    InertiaNeglected,
    /// Both valves sit alike in the bore: same eccentricity and engaged length.
    ValvesSitAlike,
    // Oil and the regulator (variants below this line; each needs its line in `code`).
    /// Orifices follow our own blend of the exact creeping limit and the jet's or the bore's
    /// coefficient.
    OrificeLaw,
    /// Published laws for this orifice at this Reynolds number differ by more than a fifth: use the
    /// band, not the middle.
    OrificeLawsDiffer,
    /// The viscosity is extrapolated beyond the two points of the data sheet.
    ViscosityExtrapolated,
    /// Pressures are counted from the sump's, and a difference between reaction area and spring-side
    /// area sees sump pressure.
    PressuresOverSump,
    /// Metering edges are square and sharp; near null the clearance and the overlap set the flow by
    /// our own blend.
    SquareLands,
    /// The jet leaves a land at 69 degrees, which sets the flow force.
    JetAngle,
    /// Lands keep the engaged length given, whatever the spool's position.
    LandLengthsFixed,
    /// The solenoids draw like equal sharp-edged outlets to sump.
    DemandAsEdges,
    /// The spring chamber drains to sump without a drop.
    ChamberDrainedFreely,
    /// Friction is dry, the same in both directions and all along the stroke.
    DryFriction,
    /// The relief's ball feels no flow force and reseats where it cracked.
    ReliefWithoutFlowForce,
    /// The relief's ball follows its pressure at once: its own mass is left out.
    ReliefWithoutMass,
    /// Bubbles stay in the oil: none dissolves and none comes out as pressure changes.
    AirStaysFree,
    /// The spool meets its stops without rebound.
    StopsWithoutRebound,
    /// The unsteady part of the flow force (the oil's inertia between the ports) is left out.
    FlowForceSteady,
    /// Each chamber has one pressure: no waves in the passages.
    PassagesWithoutWaves,
}

impl Assumption {
    /// Stable name in snake_case, for records and for the interface's words.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::DryIdealAir => "dry_ideal_air",
            Self::Isothermal => "isothermal",
            Self::BarometerFromAltitude => "barometer_from_altitude",
            Self::LaminarFilm => "laminar_film",
            Self::PossiblyTurbulentFilm => "possibly_turbulent_film",
            Self::EntryExitLoss => "entry_exit_loss",
            Self::ChokedGap => "choked_gap",
            Self::EccentricityUnknown => "eccentricity_unknown",
            Self::SharedClearance => "shared_clearance",
            Self::AssumedDischarge => "assumed_discharge",
            Self::HoseNeglected => "hose_neglected",
            Self::DeadHeadFollowsBarometer => "dead_head_follows_barometer",
            Self::DeadHeadFixed => "dead_head_fixed",
            Self::ConstantPull => "constant_pull",
            Self::BlankNeglected => "blank_neglected",
            Self::BlankAsHole => "blank_as_hole",
            Self::BlankAsGap => "blank_as_gap",
            Self::SeriesOrificeNeglected => "series_orifice_neglected",
            Self::SeriesOrificeCorrected => "series_orifice_corrected",
            Self::ParallelOrificeSubtracted => "parallel_orifice_subtracted",
            Self::CarriedAsGap => "carried_as_gap",
            Self::CarriedAsHole => "carried_as_hole",
            Self::InertiaNeglected => "inertia_neglected",
            Self::ValvesSitAlike => "valves_sit_alike",
            // Oil and the regulator (lines below this one).
            Self::OrificeLaw => "orifice_law",
            Self::OrificeLawsDiffer => "orifice_laws_differ",
            Self::ViscosityExtrapolated => "viscosity_extrapolated",
            Self::PressuresOverSump => "pressures_over_sump",
            Self::SquareLands => "square_lands",
            Self::JetAngle => "jet_angle",
            Self::LandLengthsFixed => "land_lengths_fixed",
            Self::DemandAsEdges => "demand_as_edges",
            Self::ChamberDrainedFreely => "chamber_drained_freely",
            Self::DryFriction => "dry_friction",
            Self::ReliefWithoutFlowForce => "relief_without_flow_force",
            Self::ReliefWithoutMass => "relief_without_mass",
            Self::AirStaysFree => "air_stays_free",
            Self::StopsWithoutRebound => "stops_without_rebound",
            Self::FlowForceSteady => "flow_force_steady",
            Self::PassagesWithoutWaves => "passages_without_waves",
        }
    }
}

/// Adds `extra` to `list` unless it is there already.
pub(crate) fn note(list: &mut Vec<Assumption>, extra: Assumption) {
    if !list.contains(&extra) {
        list.push(extra);
    }
}
