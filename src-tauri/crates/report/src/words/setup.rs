//! How a bore was set up, in words.

use model::bench::Surface;
use model::unit::{Material, Node, OrificePath, ValvePosition};

/// Where the valve stood.
pub(crate) fn valve_position(position: ValvePosition) -> &'static str {
    match position {
        ValvePosition::AtRest => "at rest, where its spring puts it",
        ValvePosition::HeldRegulating => "held where it regulates",
        ValvePosition::SpringOut => "in place, spring out",
        ValvePosition::ValveAbsent => "no valve in the bore",
    }
}

/// How the balance orifice stood to the air.
pub(crate) fn orifice(path: OrificePath) -> &'static str {
    match path {
        OrificePath::Blocked => "blocked off",
        OrificePath::InSeries => "in the way of the air",
        OrificePath::InParallel => "beside the way of the air",
    }
}

/// What was on the surfaces.
pub(crate) fn surface(surface: Surface) -> &'static str {
    match surface {
        Surface::Dry => "washed and dry",
        Surface::Oiled => "oiled",
    }
}

/// A place of the circuit.
pub(crate) fn node(node: Node) -> &'static str {
    match node {
        Node::Line => "line",
        Node::Feed => "feed",
        Node::Reaction => "reaction",
        Node::SpringChamber => "spring chamber",
        Node::Sump => "sump",
    }
}

/// A material.
pub(crate) fn material(material: Material) -> &'static str {
    match material {
        Material::AluminiumDieCast => "die-cast aluminium",
        Material::AluminiumWrought => "wrought aluminium",
        Material::Steel => "steel",
        Material::CastIron => "cast iron",
    }
}
