//! What a main regulator and its pump are made of.
//!
//! **Direction.** The spool position x is 0 where spring and boost have pushed the spool to its
//! stop. Pressure in the reaction chamber drives it toward larger x, and as it goes the edges that
//! let oil go by must open.
//!
//! **Pressures** are gauge pressures over the sump, at which suction stands too.

use uom::si::f64::{Area, Force, Length, Pressure, VolumeRate};

use crate::fluid::OilState;
use crate::gap::Annulus;
use crate::opening::Opening;
use crate::orifice::Orifice;
use crate::regulator::Demand;
use crate::relief::BallRelief;
use crate::spring::Spring;

/// A place with one pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MainNode {
    /// Line, which the pump feeds.
    Line,
    /// The chamber behind the balance orifice, acting on the reaction area.
    Reaction,
    /// The boost chamber, acting with the spring.
    Boost,
    /// Sump or suction, 0 Pa; the spring chamber too, which drains freely.
    Sump,
    /// A neighbouring passage held at a known gauge pressure, 0 to 10 MPa.
    Fixed(Pressure),
}

/// Oil that passes a land from one passage to its neighbour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MainLeak {
    /// The clearance.
    pub annulus: Annulus,
    /// Where flow counts as positive from.
    pub from: MainNode,
    /// Where flow counts as positive to.
    pub to: MainNode,
}

/// A passage that lives on what the pump has left over, fed before suction is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Overflow {
    /// The edge between line and it. Must open as the spool advances.
    pub edge: Opening,
    /// At which pressure it stands, 0 to 10 MPa.
    pub pressure: Pressure,
}

/// A pump of fixed displacement at one speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pump {
    /// Displacement times speed, 0 to 300 L/min.
    pub ideal_flow: VolumeRate,
    /// What slips back inside it at `at_pressure` in the oil `stated_in`, 0 to 300 L/min; in
    /// proportion to pressure and in inverse proportion to viscosity.
    pub slip: VolumeRate,
    /// The pressure at which `slip` was stated, 10 kPa to 10 MPa.
    pub at_pressure: Pressure,
    /// The oil in which it was stated, as a rule hot.
    pub stated_in: OilState,
}

/// A main regulator that lets go by what nobody takes.
#[derive(Debug, Clone, PartialEq)]
pub struct MainRegulator {
    /// Area on which the reaction chamber's pressure acts (A_r), 1 mm2 to 50 cm2.
    pub reaction_area: Area,
    /// Area on which boost acts, with the spring (A_b), 1 mm2 to 50 cm2.
    pub boost_area: Area,
    /// The spring: its load at x = 0 and its rate.
    pub spring: Spring,
    /// Travel from the shut stop (x = 0) to the open stop, 0.1 to 50 mm.
    pub stroke: Length,
    /// The edge from line back to suction. Must open as the spool advances.
    pub dump: Opening,
    /// A passage fed before suction, if there is one.
    pub overflow: Option<Overflow>,
    /// The orifice between line and reaction chamber; none when the two are one space.
    pub balance_orifice: Option<Orifice>,
    /// The orifice between the solenoid's output and the boost chamber; none when the two are one
    /// space.
    pub boost_orifice: Option<Orifice>,
    /// Every land that leaks, each to its own neighbour; at most [`crate::regulator::MAX_LEAKS`].
    pub leaks: Vec<MainLeak>,
    /// Dry friction of the spool in its bore, 0 to 500 N; opposes whichever way it moves.
    pub friction: Force,
    /// What all others take from line (clutches that leak, lubrication), feed regulator aside.
    pub demand: Demand,
    /// A relief valve from line to sump, if there is one.
    pub relief: Option<BallRelief>,
}
