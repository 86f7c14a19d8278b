//! A part on the shop's own shelf or in its catalogue, with the sizes that decide what it fits.
//! Entered by the shop with its source; the app ships none.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::finding::{FindingCode, Severity};
use crate::limits::{self, Check, Range, in_range, in_range_if_known, join, text_required};
use crate::unit::Material;
use crate::{Finding, Finite, Id};

/// A part of the shop. Kind `shop_part`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ShopPart {
    /// Name in the shop's words.
    pub name: String,
    /// What it is, with its sizes.
    pub item: PartItem,
    /// The bore that it is made for; none: any that its sizes fit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bore: Option<Id>,
    /// Where its sizes come from.
    pub source: String,
    /// Anything worth keeping.
    #[serde(default)]
    pub notes: String,
    /// No longer to be had: it stays on record and is no longer proposed.
    #[serde(default)]
    pub withdrawn: bool,
}

/// What a part is. Sizes are at 20 °C; a tolerance is what a size may be off either way.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "part", rename_all = "snake_case", deny_unknown_fields)]
pub enum PartItem {
    /// A valve.
    Valve {
        /// Diameter of its reaction land, m.
        diameter_m: Finite,
        /// Tolerance of that, m.
        diameter_tolerance_m: Finite,
        /// What it is made of.
        material: Material,
        /// Grooves around its lands.
        #[serde(default)]
        grooved: bool,
        /// Travel that it leaves, m; none: as the old valve.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        stroke_m: Option<Finite>,
    },
    /// A sleeve.
    Sleeve {
        /// Outer diameter, m.
        outer_diameter_m: Finite,
        /// Tolerance of that, m.
        outer_tolerance_m: Finite,
        /// Inner diameter, in place, m.
        inner_diameter_m: Finite,
        /// Tolerance of that, m.
        inner_tolerance_m: Finite,
        /// What it is made of.
        material: Material,
        /// Length, m; none: not entered.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        length_m: Option<Finite>,
    },
    /// A spring.
    Spring {
        /// Load, N: at `height_m`, or in the bore where the valve regulates.
        load_n: Finite,
        /// Tolerance of that, N.
        load_tolerance_n: Finite,
        /// Rate, N/m.
        rate_n_per_m: Finite,
        /// Compressed height at which it carries the load, m; none: where the valve regulates.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        height_m: Option<Finite>,
    },
    /// A reamer.
    Reamer {
        /// Diameter that it leaves, m.
        diameter_m: Finite,
        /// Tolerance of that, m.
        diameter_tolerance_m: Finite,
    },
}

/// What a part is, without its sizes.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum PartName {
    /// A valve.
    Valve,
    /// A sleeve.
    Sleeve,
    /// A spring.
    Spring,
    /// A reamer.
    Reamer,
}

impl PartItem {
    /// What it is.
    #[must_use]
    pub const fn name(&self) -> PartName {
        match self {
            Self::Valve { .. } => PartName::Valve,
            Self::Sleeve { .. } => PartName::Sleeve,
            Self::Spring { .. } => PartName::Spring,
            Self::Reamer { .. } => PartName::Reamer,
        }
    }
}

impl Check for ShopPart {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        text_required(&self.name, at, "name", findings);
        if self.source.trim().is_empty() {
            findings.push(Finding::at(
                Severity::Doubt,
                FindingCode::SourceMissing,
                join(at, "source"),
            ));
        }
        let item = &join(at, "item");
        let mut ranges = |fields: &[(&str, Finite, Range)]| {
            for (field, value, range) in fields {
                in_range(**value, *range, item, field, findings);
            }
        };
        let (diameter, tolerance) = (limits::DIAMETER_M, limits::DIAMETER_UNCERTAINTY_M);
        match &self.item {
            PartItem::Valve {
                diameter_m,
                diameter_tolerance_m,
                stroke_m,
                ..
            } => {
                ranges(&[
                    ("diameter_m", *diameter_m, diameter),
                    ("diameter_tolerance_m", *diameter_tolerance_m, tolerance),
                ]);
                in_range_if_known(*stroke_m, limits::STROKE_M, item, "stroke_m", findings);
            }
            PartItem::Sleeve {
                outer_diameter_m,
                outer_tolerance_m,
                inner_diameter_m,
                inner_tolerance_m,
                length_m,
                ..
            } => {
                ranges(&[
                    ("outer_diameter_m", *outer_diameter_m, diameter),
                    ("outer_tolerance_m", *outer_tolerance_m, tolerance),
                    ("inner_diameter_m", *inner_diameter_m, diameter),
                    ("inner_tolerance_m", *inner_tolerance_m, tolerance),
                ]);
                in_range_if_known(*length_m, limits::AXIAL_M, item, "length_m", findings);
                if **inner_diameter_m >= **outer_diameter_m {
                    let code = FindingCode::DimensionsContradict;
                    let field = join(item, "inner_diameter_m");
                    findings.push(
                        Finding::at(Severity::Wrong, code, field)
                            .with_bounds(**inner_diameter_m, **outer_diameter_m),
                    );
                }
            }
            PartItem::Spring {
                load_n,
                load_tolerance_n,
                rate_n_per_m,
                height_m,
            } => {
                ranges(&[
                    ("load_n", *load_n, limits::SPRING_LOAD_N),
                    ("rate_n_per_m", *rate_n_per_m, limits::SPRING_RATE_N_PER_M),
                ]);
                let most = Range {
                    low: 0.0,
                    high: 0.5 * load_n.max(0.0),
                };
                ranges(&[("load_tolerance_n", *load_tolerance_n, most)]);
                in_range_if_known(
                    *height_m,
                    limits::SPRING_HEIGHT_M,
                    item,
                    "height_m",
                    findings,
                );
            }
            PartItem::Reamer {
                diameter_m,
                diameter_tolerance_m,
            } => ranges(&[
                ("diameter_m", *diameter_m, diameter),
                ("diameter_tolerance_m", *diameter_tolerance_m, tolerance),
            ]),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sleeve_without_a_wall_is_wrong_at_its_inner_diameter() {
        let size = |value: f64| Finite::new(value).unwrap();
        let part = ShopPart {
            name: "Thin sleeve".into(),
            item: PartItem::Sleeve {
                outer_diameter_m: size(9.0e-3),
                outer_tolerance_m: size(3e-6),
                inner_diameter_m: size(9.0e-3),
                inner_tolerance_m: size(3e-6),
                material: Material::AluminiumWrought,
                length_m: None,
            },
            bore: None,
            source: String::new(),
            notes: String::new(),
            withdrawn: false,
        };
        let found: Vec<_> = part
            .findings()
            .into_iter()
            .map(|finding| (finding.severity, finding.field))
            .collect();
        assert_eq!(
            found,
            [
                (Severity::Doubt, "source".to_owned()),
                (Severity::Wrong, "item.inner_diameter_m".to_owned()),
            ]
        );
    }
}
