//! A sheet filled in from a repair option: its parts' sizes, and reamers of the shop's list for
//! the cuts on the way.

use model::machining::{Cut, MachiningSheet, MachiningWay};
use model::shop_part::PartItem;
use model::{Finite, Id};

use super::{USUAL_MOST_FINISH_STOCK_M, USUAL_ROUGH_STOCK_M};
use crate::options::{OptionEvidence, RepairOutlook, Way};

/// The sheet of a way that is machined; none for the others.
#[must_use]
pub fn proposed(evidence: &OptionEvidence<'_>, outlook: &RepairOutlook) -> Option<MachiningSheet> {
    let way = match outlook.way {
        Way::Ream => MachiningWay::Ream,
        Way::Sleeve => MachiningWay::Sleeve,
        _ => return None,
    };
    let work = outlook.work.clone()?;
    let mut sheet = MachiningSheet {
        way,
        valve_m: work.valve_diameter_m,
        valve_tolerance_m: work.valve_uncertainty_m,
        wall_m: evidence.figures.wall_m,
        least_wall_m: evidence.figures.least_wall_m,
        least_wall_source: evidence.figures.least_wall_source.clone(),
        planned: Some(work),
        ..MachiningSheet::default()
    };
    if let Some(found) = &evidence.measured.clearance {
        sheet.start_smallest_m = Some(found.bore_m.low);
        sheet.start_largest_m = Some(found.bore_m.high);
    }
    let mut last = None;
    for used in &outlook.needs.parts {
        match part(evidence, used.part) {
            Some(PartItem::Reamer {
                diameter_m,
                diameter_tolerance_m,
            }) => {
                last = Some(Cut {
                    reamer: used.name.clone(),
                    diameter_m: *diameter_m,
                    tolerance_m: *diameter_tolerance_m,
                    finishing: true,
                });
            }
            Some(PartItem::Sleeve {
                outer_diameter_m,
                outer_tolerance_m,
                inner_diameter_m,
                inner_tolerance_m,
                material,
                length_m,
            }) => {
                sheet.sleeve_outer_m = Some(*outer_diameter_m);
                sheet.sleeve_outer_tolerance_m = Some(*outer_tolerance_m);
                sheet.sleeve_inner_m = Some(*inner_diameter_m);
                sheet.sleeve_inner_tolerance_m = Some(*inner_tolerance_m);
                sheet.sleeve_material = Some(*material);
                sheet.sleeve_length_m = *length_m;
            }
            _ => {}
        }
    }
    if let Some(last) = last {
        sheet.finished_low_m = Finite::new(*last.diameter_m - *last.tolerance_m);
        sheet.finished_high_m = Finite::new(*last.diameter_m + *last.tolerance_m);
        sheet.cuts = roughing(evidence, sheet.start_smallest_m, &last);
        sheet.cuts.push(last);
    }
    Some(sheet)
}

fn part<'a>(evidence: &'a OptionEvidence<'_>, id: Id) -> Option<&'a PartItem> {
    let parts = evidence.parts.iter();
    parts
        .filter(|(known, _)| *known == id)
        .map(|(_, part)| &part.item)
        .next()
}

/// Reamers of the list that take off what the last cut may not: each as large as a roughing cut
/// allows.
fn roughing(evidence: &OptionEvidence<'_>, start: Option<Finite>, last: &Cut) -> Vec<Cut> {
    let mut cuts: Vec<Cut> = Vec::new();
    let Some(mut at) = start.map(Finite::get) else {
        return cuts;
    };
    while *last.diameter_m - at > USUAL_MOST_FINISH_STOCK_M {
        let next = evidence
            .parts
            .iter()
            .filter(|(_, part)| {
                !part.withdrawn && part.bore.is_none_or(|bore| bore == evidence.now.id)
            })
            .filter_map(|(_, part)| match part.item {
                PartItem::Reamer {
                    diameter_m,
                    diameter_tolerance_m,
                } => Some((part.name.clone(), diameter_m, diameter_tolerance_m)),
                _ => None,
            })
            .filter(|(_, size, off)| {
                **size > at
                    && **size - at <= USUAL_ROUGH_STOCK_M
                    && **size + **off < *last.diameter_m - *last.tolerance_m
            })
            .max_by(|a, b| a.1.total_cmp(&b.1));
        let Some((reamer, diameter_m, tolerance_m)) = next else {
            break;
        };
        at = *diameter_m;
        cuts.push(Cut {
            reamer,
            diameter_m,
            tolerance_m,
            finishing: false,
        });
    }
    cuts
}
