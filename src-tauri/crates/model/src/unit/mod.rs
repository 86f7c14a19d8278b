//! The unit profile: what a shop knows of one transmission's hydraulic circuits. Units, circuits,
//! bores, lands, springs, openings, orifices, reliefs and test points are subjects of their own,
//! so that two people can complete one profile at once; each names its parent.

mod bore;
mod check;
mod clutch;
mod element;
mod order;
mod profile;
mod shape;
mod test_point;

pub use bore::{
    Bore, Edge, Land, Material, Node, Opening, OpeningRole, OpeningWindow, Port, PortSide, Seal,
    Spool,
};
pub use clutch::Clutch;
pub use element::{
    BalanceOrifice, Circuit, CoilLimits, Oil, Relief, SolenoidKind, Spring, Tap, Unit,
};
pub use order::order_between;
pub use profile::{BoreProfile, UnitProfile};
pub use shape::{BoreShape, ShapedBore};
pub use test_point::{LeakLaw, OrificePath, TestPoint, VacuumLimit, ValvePosition};
