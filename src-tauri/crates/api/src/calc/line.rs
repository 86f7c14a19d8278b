//! Line: the main regulator alone, and with feed and boost as one circuit.

use physics::main_regulator::{
    MainLeak, MainNode, MainPoint, MainRegulator, MainState, Overflow, Pump,
};
use physics::opening::Travel;
use physics::supply_circuit::{LostControl, PressureSolenoid, SupplyCircuit};

use super::oil::annulus;
use super::{assumed, valve};
use crate::App;
use crate::dto::{
    ControlLost, FeedSideAnswer, MainPlace, MainRegulatorAnswer, MainRegulatorArgs,
    MainRegulatorParts, MainSpoolState, PumpParts, SolenoidMakes, SupplyCircuitAnswer,
    SupplyCircuitArgs,
};
use crate::error::{ApiError, finite};

/// The main regulator at one pressure of the solenoid.
pub(crate) fn main_regulator(
    _: &App,
    args: MainRegulatorArgs,
) -> Result<MainRegulatorAnswer, ApiError> {
    let circuit = main(&args.main)?.circuit(&valve::oil(args.oil))?;
    let point = circuit.solve(
        &pump(&args.pump),
        valve::pascals(args.solenoid_output_pa),
        valve::branch(args.branch),
    )?;
    answer(&point)
}

/// Line, feed, solenoid and boost as one solved circuit.
pub(crate) fn circuit(_: &App, args: SupplyCircuitArgs) -> Result<SupplyCircuitAnswer, ApiError> {
    let circuit = SupplyCircuit {
        pump: pump(&args.pump),
        main: main(&args.main)?,
        feed: valve::of_parts(&args.feed)?,
        solenoid: match args.solenoid {
            SolenoidMakes::CommandPa(command) => PressureSolenoid::ClosedLoop {
                command: valve::pascals(command),
            },
            SolenoidMakes::ShareRatio(share) => PressureSolenoid::Bleed {
                share: valve::one(share),
            },
        },
    };
    let point = circuit
        .at(&valve::oil(args.oil))?
        .solve(valve::branch(args.branch))?;
    let feed = &point.feed;
    Ok(SupplyCircuitAnswer {
        main: answer(&point.main)?,
        feed: FeedSideAnswer {
            feed_pa: finite(feed.feed.value)?,
            reaction_pa: finite(feed.reaction.value)?,
            stroke_m: finite(feed.spool_position.value)?,
            supply_m3_s: finite(feed.flows.supply.value)?,
            exhaust_m3_s: finite(feed.flows.exhaust.value)?,
            demand_m3_s: finite(feed.flows.demand.value)?,
        },
        solenoid_output_pa: finite(point.solenoid_output.value)?,
        solenoid_draw_m3_s: finite(point.solenoid_draw.value)?,
        solenoid_exhaust_m3_s: finite(point.solenoid_exhaust.value)?,
        lost: point.lost.iter().map(|&lost| control_lost(lost)).collect(),
        assumptions: assumed(&point.assumptions),
    })
}

fn control_lost(lost: LostControl) -> ControlLost {
    // Exhaustive: a new one breaks the build until it is on the wire.
    match lost {
        LostControl::PumpStarved => ControlLost::PumpStarved,
        LostControl::MainEdgesTooSmall => ControlLost::MainEdgesTooSmall,
        LostControl::FeedFollowsLine => ControlLost::FeedFollowsLine,
        LostControl::FeedByLeaks => ControlLost::FeedByLeaks,
        LostControl::FeedExhaustTooSmall => ControlLost::FeedExhaustTooSmall,
        LostControl::SolenoidGivesFeed => ControlLost::SolenoidGivesFeed,
    }
}

fn pump(told: &PumpParts) -> Pump {
    Pump {
        ideal_flow: valve::flow(told.ideal_flow_m3_s),
        slip: valve::flow(told.slip_m3_s),
        at_pressure: valve::pascals(told.at_pressure_pa),
        stated_in: valve::oil(told.stated_in),
    }
}

fn place(told: MainPlace) -> MainNode {
    match told {
        MainPlace::Line => MainNode::Line,
        MainPlace::Reaction => MainNode::Reaction,
        MainPlace::Boost => MainNode::Boost,
        MainPlace::Sump => MainNode::Sump,
        MainPlace::FixedPa(held) => MainNode::Fixed(valve::pascals(held)),
    }
}

fn main(told: &MainRegulatorParts) -> Result<MainRegulator, ApiError> {
    let leaks = told.leaks.iter().map(|leak| {
        Ok::<_, ApiError>(MainLeak {
            annulus: annulus(&leak.gap)?,
            from: place(leak.from),
            to: place(leak.to),
        })
    });
    Ok(MainRegulator {
        reaction_area: valve::square_metres(told.reaction_area_m2),
        boost_area: valve::square_metres(told.boost_area_m2),
        spring: valve::spring(told.spring),
        stroke: valve::metres(told.stroke_m),
        dump: valve::edge(&told.dump, Travel::Opens),
        overflow: told.overflow.map(|overflow| Overflow {
            edge: valve::edge(&overflow.edge, Travel::Opens),
            pressure: valve::pascals(overflow.pressure_pa),
        }),
        balance_orifice: told.balance_orifice.map(valve::orifice),
        boost_orifice: told.boost_orifice.map(valve::orifice),
        leaks: leaks.collect::<Result<_, _>>()?,
        friction: valve::newtons(told.friction_n),
        demand: valve::demand(&told.demand),
        relief: told.relief.map(valve::relief),
    })
}

fn answer(point: &MainPoint) -> Result<MainRegulatorAnswer, ApiError> {
    let flows = &point.flows;
    Ok(MainRegulatorAnswer {
        line_pa: finite(point.line.value)?,
        reaction_pa: finite(point.reaction.value)?,
        boost_pa: finite(point.boost.value)?,
        stroke_m: finite(point.spool_position.value)?,
        state: match point.state {
            MainState::Regulating => MainSpoolState::Regulating,
            MainState::PumpStarved => MainSpoolState::PumpStarved,
            MainState::EdgesTooSmall => MainSpoolState::EdgesTooSmall,
        },
        pump_m3_s: finite(flows.pump.value)?,
        dump_m3_s: finite(flows.dump.value)?,
        overflow_m3_s: finite(flows.overflow.value)?,
        demand_m3_s: finite(flows.demand.value)?,
        relief_m3_s: finite(flows.relief.value)?,
        boost_m3_s: finite(flows.boost.value)?,
        feed_regulator_m3_s: finite(flows.feed_regulator.value)?,
        leaks_m3_s: flows
            .leaks
            .iter()
            .map(|leak| finite(leak.value))
            .collect::<Result<_, _>>()?,
        flow_force_n: finite(point.flow_force.value)?,
        assumptions: assumed(&point.assumptions),
    })
}
