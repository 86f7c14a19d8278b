//! What an answer rests on, as it crosses the boundary: the physics' assumptions and our own.

use physics::Assumption;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

macro_rules! assumed {
    (own { $($(#[$odoc:meta])* $own:ident,)* } physics { $($(#[$doc:meta])* $name:ident,)* }) => {
        /// Something that the answer rests on. Closed: the interface has words for each.
        #[derive(
            Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
        )]
        #[serde(rename_all = "snake_case")]
        pub enum Assumed {
            $($(#[$odoc])* $own,)*
            $($(#[$doc])* $name,)*
        }

        impl From<Assumption> for Assumed {
            fn from(assumption: Assumption) -> Self {
                // Exhaustive: a new assumption of the physics breaks the build until it is here.
                match assumption {
                    $(Assumption::$name => Self::$name,)*
                }
            }
        }
    };
}

assumed! {
    own {
        /// Engaged lengths are those at the regulating position.
        EngagedAtRegulating,
        /// Seals that the test doesn't reach lie between new and as worn as the tested ones.
        UntestedSealsBand,
        /// Clearances were corrected for the expansion of body and valve; coefficients are good to
        /// 3 to 5 %.
        ThermalExpansion,
        /// The gauge's error is taken to move the reading alone, though it moved the stand check
        /// too: the span of the leak errs wide.
        GaugeErrorOnReadingAlone,
        /// What lies beyond the tested lands is open to the air of the shop.
        FarSideOpen,
        /// Areas are those of the lands as new.
        AreasAsNew,
        /// The limit belongs to a stand like this one.
        LimitForThisStand,
        /// The supply land is as worn as the lands that the last judged test reached.
        SupplyLandAsTested,
        /// In the worst case every solenoid is shut, so that the relief alone lets the leak out.
        SolenoidsShut,
        /// A sleeve expands like the body, another valve like the old one.
        RepairExpandsAlike,
        /// All lands of another valve have the clearance of its reaction land.
        LandsShareClearance,
        /// Clutch faces are run in: torque by uniform wear, the lower one.
        ClutchFacesRunIn,
        /// The oil behind a clutch's piston is taken at rest: that of a turning drum adds the same
        /// force before and after, which lowers the share and not the torque lost.
        ClutchOilAtRest,
        /// The mass of the valve, the volumes of the chambers and the air in the oil are typical
        /// ones, varied, not measured (common practice, no source).
        MotionTypical,
        /// Grooves help a valve to lie centred; the band doesn't count on it.
        GroovesNotCounted,
        /// Cleaning leaves the gap that the test found, and what polishing takes off it; varnish
        /// may have hidden some of it.
        CleanedGapAsTested,
        /// A sleeve sits centred in its bore, and oil passes around it from port to port.
        SleeveSeatCentred,
        /// Another body is as the profile has one when new.
        OtherBodyAsProfile,
        /// A cleaned or new valve slides with the friction of the profile.
        FrictionAsProfile,
        /// The balance orifice is kept as it is.
        OrificeKept,
    }
    physics {
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
        /// Entry and exit of the gap cost 1.5 to 2 dynamic pressures; the acceleration of the gas along
        /// the gap is left out, which overstates the flow by up to a few per cent below choking.
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
}
