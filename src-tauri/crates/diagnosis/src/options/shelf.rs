//! The shop's list as the options take it: what can be had, what is made for this bore or for any,
//! always in one order.

use model::finding::Severity;
use model::limits::Check;
use model::shop_part::{PartItem, ShopPart};
use model::unit::Material;
use model::{Finite, Id};

use super::answer::PartUse;

/// Parts that may be proposed.
pub(super) struct Shelf<'a> {
    parts: Vec<(Id, &'a ShopPart)>,
}

/// A size with what it may be off.
#[derive(Debug, Clone, Copy)]
pub(super) struct Size {
    pub value: f64,
    pub off: f64,
}

impl Size {
    fn new(value: Finite, off: Finite) -> Self {
        Self {
            value: *value,
            off: *off,
        }
    }

    /// A size that no part has yet.
    pub fn supposed(value: f64) -> Self {
        Self { value, off: 0.0 }
    }

    pub fn most(&self) -> f64 {
        self.value + self.off
    }

    pub fn least(&self) -> f64 {
        self.value - self.off
    }
}

#[derive(Debug, Clone)]
pub(super) struct Valve {
    pub used: Option<PartUse>,
    pub diameter: Size,
    pub material: Option<Material>,
    pub grooved: bool,
    pub stroke: Option<f64>,
}

#[derive(Debug, Clone)]
pub(super) struct Sleeve {
    pub used: PartUse,
    pub outer: Size,
    pub inner: Size,
    pub material: Material,
    pub length: Option<f64>,
}

#[derive(Debug, Clone)]
pub(super) struct StockSpring {
    pub used: PartUse,
    pub load: f64,
    pub load_off: f64,
    pub rate: f64,
    pub height: Option<f64>,
}

#[derive(Debug, Clone)]
pub(super) struct Reamer {
    pub used: Option<PartUse>,
    pub diameter: Size,
}

impl<'a> Shelf<'a> {
    pub fn new(parts: &'a [(Id, ShopPart)], bore: Id) -> Self {
        let sound = |part: &ShopPart| {
            let wrong = |finding: &model::Finding| finding.severity == Severity::Wrong;
            !part.withdrawn
                && part.bore.is_none_or(|made_for| made_for == bore)
                && !part.findings().iter().any(wrong)
        };
        let mut parts: Vec<_> = parts
            .iter()
            .filter(|(_, part)| sound(part))
            .map(|(id, part)| (*id, part))
            .collect();
        // The order in which they come never matters.
        parts.sort_by_key(|(id, _)| *id);
        Self { parts }
    }

    fn each<T>(&self, of: impl Fn(PartUse, &PartItem) -> Option<T>) -> Vec<T> {
        let parts = self.parts.iter();
        parts
            .filter_map(|(id, part)| {
                let used = PartUse {
                    part: *id,
                    kind: part.item.name(),
                    name: part.name.clone(),
                    source: part.source.clone(),
                };
                of(used, &part.item)
            })
            .collect()
    }

    pub fn valves(&self) -> Vec<Valve> {
        self.each(|used, item| match item {
            PartItem::Valve {
                diameter_m,
                diameter_tolerance_m,
                material,
                grooved,
                stroke_m,
            } => Some(Valve {
                used: Some(used),
                diameter: Size::new(*diameter_m, *diameter_tolerance_m),
                material: Some(*material),
                grooved: *grooved,
                stroke: stroke_m.map(Finite::get),
            }),
            _ => None,
        })
    }

    pub fn sleeves(&self) -> Vec<Sleeve> {
        self.each(|used, item| match item {
            PartItem::Sleeve {
                outer_diameter_m,
                outer_tolerance_m,
                inner_diameter_m,
                inner_tolerance_m,
                material,
                length_m,
            } => Some(Sleeve {
                used,
                outer: Size::new(*outer_diameter_m, *outer_tolerance_m),
                inner: Size::new(*inner_diameter_m, *inner_tolerance_m),
                material: *material,
                length: length_m.map(Finite::get),
            }),
            _ => None,
        })
    }

    pub fn springs(&self) -> Vec<StockSpring> {
        self.each(|used, item| match item {
            PartItem::Spring {
                load_n,
                load_tolerance_n,
                rate_n_per_m,
                height_m,
            } => Some(StockSpring {
                used,
                load: **load_n,
                load_off: **load_tolerance_n,
                rate: **rate_n_per_m,
                height: height_m.map(Finite::get),
            }),
            _ => None,
        })
    }

    pub fn reamers(&self) -> Vec<Reamer> {
        self.each(|used, item| match item {
            PartItem::Reamer {
                diameter_m,
                diameter_tolerance_m,
            } => Some(Reamer {
                used: Some(used),
                diameter: Size::new(*diameter_m, *diameter_tolerance_m),
            }),
            _ => None,
        })
    }
}
