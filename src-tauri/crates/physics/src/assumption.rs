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
    // Parts (variants below this line; each needs its line in `code`).
    /// Both edges of an opening, the land's and the port's, are rounded to the same radius all along.
    EdgesRoundedAlike,
    /// Windows and notches are laid out flat on the wall of the bore: good while each is narrower than a
    /// third of the bore.
    WindowUnrolled,
    /// A covered window leaks through a plane film to the edge of the land that covers it.
    CoveredWindowFilm,
    /// The spring's rate is that of torsion alone, as in EN 13906-1; direct shear would lower it by
    /// 1/(1 + 1/(2 C^2)).
    SpringTorsionOnly,
    /// Less than 15 % of the travel to solid is left, or less than EN 13906-1's gap: coils begin to
    /// touch, and the load may be higher than stated.
    SpringNearSolid,
    /// Load follows height in a straight line between and beyond the readings.
    SpringStraight,
    /// Expansion coefficients are typical handbook values of the metal, good to 3 to 5 %.
    ExpansionFromHandbook,
    /// Between the measured stations and directions the part is as its readings say; two-point gauges
    /// don't see an odd number of lobes.
    RoundBetweenDirections,
    /// The instrument's own error is the same in all its readings, so that it doesn't average out.
    GaugeErrorShared,
    /// The jet leaves a relief along its seat, which sets the force of the flow that closes it.
    ReliefFlowForce,
    /// Pressure acts on the seat's area at any lift; a lifted part may see more, and reseat lower.
    ReliefSeatArea,
    /// Air in the oil neither dissolves nor comes out of solution: at high pressure the oil is stiffer
    /// than stated.
    AirStaysFree,
    /// The coefficient of friction is the same at any speed, pressure and temperature.
    FrictionConstant,
    /// Every face of a clutch pack carries the whole apply force; splines take none of it.
    FacesShareForce,
    /// The oil behind a clutch piston turns with the drum and fills it from the radius given.
    OilTurnsWithDrum,
    /// A winding is copper, all of it at one temperature.
    CopperAtOneTemperature,
    /// How a solenoid passes a shift of its feed on is that of its kind, not measured on this one
    /// (common practice, no source).
    SolenoidKindTypical,
    /// The pump's slip grows in proportion to pressure and in inverse proportion to viscosity, and
    /// its suction stands at the sump's pressure.
    PumpSlipLaminar,
    /// The pressure-control solenoid gives what it is told without a loss of its own, at most feed.
    SolenoidAtMostFeed,
    /// The relief's ball follows its pressure at once: its own mass is left out.
    ReliefWithoutMass,
    /// The spool meets its stops without rebound.
    StopsWithoutRebound,
    /// The unsteady part of the flow force (the oil's inertia between the ports) is left out.
    FlowForceSteady,
    /// Each chamber has one pressure: no waves in the passages.
    PassagesWithoutWaves,
    /// The jet out of a hole or notch leaves at the angle of a long slot's; it turns to the hole's
    /// own axis as the hole opens, so the flow force is rather overstated.
    JetOfWindow,
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
            // Parts (lines below this one).
            Self::EdgesRoundedAlike => "edges_rounded_alike",
            Self::WindowUnrolled => "window_unrolled",
            Self::CoveredWindowFilm => "covered_window_film",
            Self::SpringTorsionOnly => "spring_torsion_only",
            Self::SpringNearSolid => "spring_near_solid",
            Self::SpringStraight => "spring_straight",
            Self::ExpansionFromHandbook => "expansion_from_handbook",
            Self::RoundBetweenDirections => "round_between_directions",
            Self::GaugeErrorShared => "gauge_error_shared",
            Self::ReliefFlowForce => "relief_flow_force",
            Self::ReliefSeatArea => "relief_seat_area",
            Self::AirStaysFree => "air_stays_free",
            Self::FrictionConstant => "friction_constant",
            Self::FacesShareForce => "faces_share_force",
            Self::OilTurnsWithDrum => "oil_turns_with_drum",
            Self::CopperAtOneTemperature => "copper_at_one_temperature",
            Self::SolenoidKindTypical => "solenoid_kind_typical",
            Self::PumpSlipLaminar => "pump_slip_laminar",
            Self::SolenoidAtMostFeed => "solenoid_at_most_feed",
            Self::ReliefWithoutMass => "relief_without_mass",
            Self::StopsWithoutRebound => "stops_without_rebound",
            Self::FlowForceSteady => "flow_force_steady",
            Self::PassagesWithoutWaves => "passages_without_waves",
            Self::JetOfWindow => "jet_of_window",
        }
    }
}

/// Adds `extra` to `list` unless it is there already.
pub(crate) fn note(list: &mut Vec<Assumption>, extra: Assumption) {
    if !list.contains(&extra) {
        list.push(extra);
    }
}
