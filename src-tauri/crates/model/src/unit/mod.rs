//! The unit profile: what a shop knows of one transmission's hydraulic circuits. Units, circuits,
//! bores, lands, springs, openings, orifices, reliefs and test points are subjects of their own,
//! so that two people can complete one profile at once; each names its parent.

mod bore;
mod element;
mod profile;
mod test_point;

pub use bore::{
    Bore, Edge, Land, Material, Node, Opening, OpeningRole, Port, PortSide, Seal, Spool,
};
pub use element::{BalanceOrifice, Circuit, Oil, Relief, Spring, Unit};
pub use profile::{BoreProfile, UnitProfile};
pub use test_point::{LeakLaw, OrificePath, TestPoint, VacuumLimit, ValvePosition};
