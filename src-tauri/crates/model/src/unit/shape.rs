//! Shapes to start from: a bore with ports, lands and openings in place, so that a person only
//! replaces numbers. They are no valve of anybody: round proportions of the bore's diameter, the
//! spring on the left, the reaction chamber on the right.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{
    Bore, Edge, Land, Material, Node, Opening, OpeningRole, OrificePath, Port, PortSide, Seal,
    Spool, TestPoint, ValvePosition,
};
use crate::{Finite, Id};

/// What a bore starts from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum BoreShape {
    /// Two lands: one closes off the spring, the other meters line into feed on its left and faces
    /// the reaction chamber on its right. No exhaust.
    TwoLands,
    /// Three lands: a third one lets feed out when it rises above the set pressure.
    ThreeLandsExhaust,
    /// A bore without lands, for anything else.
    Empty,
}

/// A bore with all that a shape puts into it. The parts name their bore; their subjects are the
/// caller's.
#[derive(Debug, Clone, PartialEq)]
pub struct ShapedBore {
    /// The bore.
    pub bore: Bore,
    /// Lands from left to right.
    pub lands: Vec<Land>,
    /// Openings.
    pub openings: Vec<Opening>,
    /// One test point, on the reaction side, without a limit.
    pub test_points: Vec<TestPoint>,
}

/// Keys for parts that are made together, in order.
const ORDERS: [&str; 3] = ["a", "b", "c"];

impl BoreShape {
    /// The shape in a bore of a diameter, m. `bore` is the subject that its parts will name.
    /// Lengths are round tenths of a millimetre.
    #[must_use]
    pub fn draw(
        self,
        bore: Id,
        circuit: Id,
        order: String,
        name: String,
        diameter_m: Finite,
    ) -> ShapedBore {
        // In tenths of the diameter, rounded to a tenth of a millimetre.
        let at = |tenths: f64| {
            let metres = (*diameter_m * tenths * 1e3).round() / 1e4;
            Finite::new(metres).unwrap_or_default()
        };
        let port = |name: &str, node, start, end, side| Port {
            name: name.to_owned(),
            node,
            start_m: at(start),
            end_m: at(end),
            side,
        };
        let land = |index: usize, name: &str, start, end, seals| Land {
            bore,
            order: ORDERS[index].to_owned(),
            name: name.to_owned(),
            diameter_m: None,
            start_m: at(start),
            end_m: at(end),
            seals,
        };
        let opening = |role, land: &str, port: &str, edge| Opening {
            bore,
            role,
            land: land.to_owned(),
            port: port.to_owned(),
            edge,
            circumference_fraction: Finite::new(1.0).unwrap_or_default(),
            window: None,
        };
        let seal = |left, left_port: Option<&str>, right, right_port: Option<&str>| Seal {
            left,
            left_port: left_port.map(str::to_owned),
            right,
            right_port: right_port.map(str::to_owned),
        };
        let (above, below) = (PortSide::Above, PortSide::Below);
        // At rest the supply stands open by 2.5 tenths of the diameter; there it shuts.
        let mut ports = vec![
            port("feed", Node::Feed, 24.0, 28.0, below),
            port("line", Node::Line, 30.0, 35.0, above),
        ];
        let mut end = 58.0;
        let (lands, openings) = match self {
            Self::TwoLands => {
                ports.push(port("reaction", Node::Reaction, 48.5, 50.5, below));
                end = 51.0;
                (
                    vec![
                        land(
                            0,
                            "spring land",
                            13.0,
                            23.0,
                            vec![seal(Node::SpringChamber, None, Node::Feed, None)],
                        ),
                        land(
                            1,
                            "reaction land",
                            32.5,
                            48.0,
                            vec![seal(Node::Line, Some("line"), Node::Reaction, None)],
                        ),
                    ],
                    vec![opening(
                        OpeningRole::Supply,
                        "reaction land",
                        "line",
                        Edge::Left,
                    )],
                )
            }
            Self::ThreeLandsExhaust => {
                ports.insert(0, port("exhaust", Node::Sump, 17.0, 22.0, above));
                ports.push(port("vent", Node::Sump, 42.0, 47.0, above));
                ports.push(port("reaction", Node::Reaction, 55.5, 57.5, below));
                (
                    vec![
                        land(
                            0,
                            "exhaust land",
                            15.5,
                            25.0,
                            vec![seal(Node::SpringChamber, None, Node::Sump, Some("exhaust"))],
                        ),
                        land(
                            1,
                            "supply land",
                            32.5,
                            42.5,
                            vec![seal(Node::Line, Some("line"), Node::Sump, None)],
                        ),
                        land(
                            2,
                            "reaction land",
                            45.0,
                            55.0,
                            vec![seal(Node::Sump, Some("vent"), Node::Reaction, None)],
                        ),
                    ],
                    vec![
                        opening(OpeningRole::Supply, "supply land", "line", Edge::Left),
                        opening(OpeningRole::Exhaust, "exhaust land", "exhaust", Edge::Right),
                    ],
                )
            }
            Self::Empty => {
                ports.clear();
                (Vec::new(), Vec::new())
            }
        };
        let test_points = match self {
            Self::Empty => Vec::new(),
            Self::TwoLands | Self::ThreeLandsExhaust => vec![TestPoint {
                bore,
                order: "a".to_owned(),
                name: "Reaction side".to_owned(),
                evacuates: Node::Reaction,
                isolates: vec!["reaction land".to_owned()],
                valve_position: ValvePosition::AtRest,
                orifice: OrificePath::Blocked,
                limit: None,
            }],
        };
        ShapedBore {
            bore: Bore {
                circuit,
                order,
                name,
                diameter_m,
                start_m: Finite::ZERO,
                end_m: at(end),
                material: Material::AluminiumDieCast,
                spring_on_left: true,
                ports,
                spool: Spool {
                    material: Material::AluminiumWrought,
                    stem_diameter_m: at(5.5),
                    stroke_m: Some(at(5.0)),
                    friction_n: None,
                },
                source: String::new(),
            },
            lands,
            openings,
            test_points,
        }
    }
}
