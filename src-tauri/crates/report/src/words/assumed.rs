//! What an answer rests on, in words. Total: a new assumption breaks the build here.

use diagnosis::Assumed;

/// An assumption in one sentence.
pub(crate) fn assumed(assumed: Assumed) -> &'static str {
    match assumed {
        Assumed::EngagedAtRegulating => {
            "Lands seal along the length they have where the valve regulates."
        }
        Assumed::UntestedSealsBand => {
            "Seals that this test doesn’t reach lie anywhere from new to as worn as the tested ones."
        }
        Assumed::ThermalExpansion => {
            "Clearances are corrected for how body and valve grow when hot; the growth is known to 3 to 5 %."
        }
        Assumed::AreasAsNew => "The pressure acts on the lands’ areas as new.",
        Assumed::GaugeErrorOnReadingAlone => {
            "The gauge’s error is taken to move the reading alone, though it moved the stand’s check too: the span of the leak errs wide."
        }
        Assumed::FarSideOpen => "Beyond the tested lands lies the open air of the shop.",
        Assumed::LimitForThisStand => "The limit was set on a stand like this one.",
        Assumed::SupplyLandAsTested => {
            "The supply land is as worn as the lands that the last judged test reached."
        }
        Assumed::SolenoidsShut => "In the worst case every solenoid is shut.",
        Assumed::RepairExpandsAlike => {
            "A sleeve grows like the body when hot, another valve like the old one."
        }
        Assumed::MotionTypical => {
            "Mass of the valve, volumes of the chambers and air in the oil are typical ones, varied, not measured."
        }
        Assumed::GroovesNotCounted => {
            "Grooves help a valve to lie centred; the band doesn’t count on it."
        }
        Assumed::CleanedGapAsTested => {
            "Cleaning leaves the gap as it was tested, and what polishing takes off; varnish may have hidden some of it."
        }
        Assumed::SleeveSeatCentred => {
            "The sleeve sits centred in its bore; oil passes around it from port to port."
        }
        Assumed::OtherBodyAsProfile => "The other body is as the profile has one when new.",
        Assumed::FrictionAsProfile => {
            "A cleaned or new valve slides with the friction of the profile."
        }
        Assumed::OrificeKept => "The balance orifice is kept as it is.",
        Assumed::LandsShareClearance => {
            "All lands of the valve have the clearance of its reaction land."
        }
        Assumed::ClutchFacesRunIn => {
            "Clutch faces are run in: torque by uniform wear, the lower one."
        }
        Assumed::ClutchOilAtRest => {
            "Oil behind a clutch’s piston is taken at rest: in a turning drum it adds the same force before and after, which lowers the share of the torque and not the torque lost."
        }
        Assumed::DryIdealAir => "Air is taken as dry and ideal; moisture changes less than 1 %.",
        Assumed::Isothermal => "Air keeps the shop’s temperature along gap and hose.",
        Assumed::BarometerFromAltitude => {
            "The air pressure was taken from the altitude; weather moves the true one by 1 to 3 %."
        }
        Assumed::LaminarFilm => {
            "Air creeps through the gap in smooth layers, and slips a little along the walls."
        }
        Assumed::PossiblyTurbulentFilm => {
            "The gap is so wide that the flow may tumble; it would then leak less than stated."
        }
        Assumed::EntryExitLoss => "Entering and leaving the gap costs 1.5 to 2 dynamic pressures.",
        Assumed::ChokedGap => {
            "Air leaves the gap at the speed of sound, so a deeper vacuum draws no more of it."
        }
        Assumed::EccentricityUnknown => {
            "How far off-centre the valve lies isn’t known: results run from centred to touching."
        }
        Assumed::SharedClearance => {
            "All tested seals are taken to have one and the same clearance."
        }
        Assumed::AssumedDischarge => {
            "The hole’s discharge coefficient and critical ratio are assumed (ISO 6358)."
        }
        Assumed::HoseNeglected => {
            "The hose is taken to cost nothing; the orifices can’t tell it from the pump."
        }
        Assumed::DeadHeadFollowsBarometer => {
            "The stand’s closed-hose pressure rises and falls with the barometer."
        }
        Assumed::DeadHeadFixed => "The stand’s closed-hose pressure is the same on any day.",
        Assumed::ConstantPull => "The pump pulls the same volume whatever the gauge shows.",
        Assumed::BlankNeglected => {
            "Without a blank, plug and plate are taken as tight, so the leak is overstated."
        }
        Assumed::BlankAsHole => "Plug and plate leak like a hole.",
        Assumed::BlankAsGap => "Plug and plate leak like a gap.",
        Assumed::SeriesOrificeNeglected => {
            "The orifice in the way takes under 5 % of the drop and was left out."
        }
        Assumed::SeriesOrificeCorrected => {
            "The drop at the orifice in the way was taken off (ISO 6358)."
        }
        Assumed::ParallelOrificeSubtracted => {
            "Air through the orifice beside the lands was taken off (ISO 6358)."
        }
        Assumed::CarriedAsGap => "The limit was carried to today’s air as a gap’s leak would be.",
        Assumed::CarriedAsHole => "The limit was carried to today’s air as a hole’s leak would be.",
        Assumed::InertiaNeglected => {
            "Losses at the ends of the gap are left out, for want of a calibrated stand."
        }
        Assumed::ValvesSitAlike => "Both valves lie alike in the bore.",
        Assumed::OrificeLaw => {
            "Orifices follow a blend of the exact law of slow creeping flow and that of a fast jet."
        }
        Assumed::OrificeLawsDiffer => {
            "Published laws for this orifice differ by more than a fifth here: trust the band, not its middle."
        }
        Assumed::ViscosityExtrapolated => {
            "The oil’s viscosity is taken from beyond the points on its data sheet."
        }
        Assumed::PressuresOverSump => "Pressures count from that of the sump.",
        Assumed::SquareLands => "Metering edges are square and sharp.",
        Assumed::JetAngle => {
            "Oil leaves a metering edge at 69 degrees, which sets the force of the flow on the valve."
        }
        Assumed::LandLengthsFixed => "Lands keep their sealing length wherever the valve stands.",
        Assumed::DemandAsEdges => "The solenoids draw like equal sharp-edged outlets to the sump.",
        Assumed::ChamberDrainedFreely => "The spring’s chamber drains freely.",
        Assumed::DryFriction => "Friction is the same both ways and all along the stroke.",
        Assumed::ReliefWithoutFlowForce => {
            "The relief’s ball feels no force of the flow and reseats where it opened."
        }
        Assumed::PumpSlipLaminar => {
            "What slips back inside the pump grows with pressure and shrinks with viscosity."
        }
        Assumed::SolenoidAtMostFeed => {
            "The pressure-control solenoid gives what it is told, at most feed."
        }
        Assumed::ReliefWithoutMass => "The relief’s ball follows the pressure at once.",
        Assumed::StopsWithoutRebound => "The valve meets its stops without rebound.",
        Assumed::FlowForceSteady => "The force of the flow follows the flow at once.",
        Assumed::PassagesWithoutWaves => "Each chamber has one pressure: no waves in the passages.",
        Assumed::JetOfWindow => {
            "The jet out of a hole or notch leaves at a long slot’s angle; the flow force is rather overstated."
        }
        Assumed::EdgesRoundedAlike => "Both edges of an opening are rounded alike.",
        Assumed::WindowUnrolled => {
            "Windows and notches are measured flat: good while each is narrower than a third of the bore."
        }
        Assumed::CoveredWindowFilm => {
            "A covered window leaks through a flat film to the edge of the land that covers it."
        }
        Assumed::SpringTorsionOnly => {
            "The spring’s rate counts the twist of its wire alone, as the standard does: within 1 or 2 %."
        }
        Assumed::SpringNearSolid => {
            "The spring is pressed almost solid: coils may touch, and the load may be higher than stated."
        }
        Assumed::SpringStraight => "The spring’s load follows its height in a straight line.",
        Assumed::ExpansionFromHandbook => {
            "How metals grow when warm is taken from handbooks, good to 3 to 5 %."
        }
        Assumed::RoundBetweenDirections => {
            "Between the places measured the part is taken as the readings say; a two-point gauge misses three-lobed shapes."
        }
        Assumed::GaugeErrorShared => "The instrument’s own error is the same in all its readings.",
        Assumed::ReliefFlowForce => {
            "Oil leaves the relief along its seat, which sets the force that closes it."
        }
        Assumed::ReliefSeatArea => {
            "Pressure acts on the relief’s seat alone; once lifted, the part may feel more and reseat lower."
        }
        Assumed::AirStaysFree => {
            "Air in the oil stays in bubbles; where it dissolves the oil is stiffer than stated."
        }
        Assumed::FrictionConstant => {
            "The coefficient of friction is the same at any speed, pressure and temperature."
        }
        Assumed::FacesShareForce => {
            "Every face of the pack carries the whole force; splines take none of it."
        }
        Assumed::OilTurnsWithDrum => {
            "The oil behind the piston turns with the drum and fills it from the radius given."
        }
        Assumed::CopperAtOneTemperature => "The winding is copper, all of it at one temperature.",
        Assumed::SolenoidKindTypical => {
            "How the solenoid passes a shift on is that of its kind, not measured on this one."
        }
    }
}
