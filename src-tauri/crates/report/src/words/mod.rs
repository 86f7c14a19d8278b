//! Every answer of the layers below, in words. Each table is a total `match`: a new variant breaks
//! the build here until it has words.

mod assumed;
mod caution;
mod customer;
mod finding;
mod found;
mod handover;
mod inspection;
mod judgement;
mod machining;
mod proof;
mod repair;
mod setup;

pub(crate) use assumed::assumed;
pub(crate) use caution::{hazard_short, hazard_title, signal};
pub(crate) use customer::{
    plain_conclusion, plain_open, plain_option, plain_pressure, plain_verdict,
};
pub(crate) use finding::{finding, severity};
pub(crate) use found::{found, instrument};
pub(crate) use handover::{counted, fault, found_by, how, money, open_item, part_of, warranty};
pub(crate) use inspection::{
    accord, check, check_state, conclusion, mark_of_conclusion, mark_of_outcome, occasion, outcome,
    settle, solenoid_kind,
};
pub(crate) use judgement::{
    Mark, band, chance, consequence_refusal, fate, law, leak_refusal, mark_of, measured_state,
    new_state, not_judged, specification, uncertainty, verdict, worst_state,
};
pub(crate) use machining::{machined_size, machining_step, machining_way, seat_fit};
pub(crate) use proof::{
    beside, direction, friction, in_band, oil_basis, oil_settle, oil_verdict, tap_place,
};
pub(crate) use repair::{clearance_source, open_point, option, presence, shop_part, window};
pub(crate) use setup::{material, node, orifice, surface, valve_position};
