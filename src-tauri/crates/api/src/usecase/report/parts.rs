//! Which parts of the shop's own list the work of a job names, and where their sizes come from.

use model::shop_part::ShopPart;
use model::{Id, Kind};
use report::{BoreReport, Handover, ShopPartShown};
use store::Store;

use crate::error::ApiError;
use crate::usecase::shop::all;

/// Those that were fitted, and those that a repair or a machining sheet has by their names, as a
/// chosen option writes them. Withdrawn ones too: they were used then.
pub(super) fn of_work(
    store: &Store,
    bores: &[BoreReport],
    handover: &Handover,
) -> Result<Vec<ShopPartShown>, ApiError> {
    let mut found: Vec<_> = all::<ShopPart>(store, Kind::ShopPart)?
        .into_iter()
        .filter(|(id, part)| {
            let fitted = &handover.fitted;
            fitted.iter().any(|it| it.part.shop_part == Some(*id))
                || bores.iter().any(|bore| is_named(part, bore))
        })
        .map(|(_, part)| ShopPartShown {
            part: part.item.name(),
            name: part.name,
            source: part.source,
        })
        .collect();
    found.sort_by(|a, b| (a.part, &a.name, &a.source).cmp(&(b.part, &b.name, &b.source)));
    Ok(found)
}

fn is_named(part: &ShopPart, bore: &BoreReport) -> bool {
    let here: Id = bore.profile.id;
    if part.bore.is_some_and(|made_for| made_for != here) {
        return false;
    }
    let sheet = bore.machining.as_ref().map(|it| &it.sheet);
    let repaired = bore.repairs.iter().map(|repair| &repair.work.parts);
    let planned = sheet.and_then(|sheet| sheet.planned.as_ref());
    let mut reamers = sheet.into_iter().flat_map(|sheet| &sheet.cuts);
    repaired
        .chain(planned.map(|work| &work.parts))
        .any(|words| names(words, &part.name))
        || reamers.any(|cut| cut.reamer.trim() == part.name.trim())
}

/// True when `words`, parts one after the other with a semicolon between, have one of this name.
fn names(words: &str, name: &str) -> bool {
    let (words, name) = (words.trim(), name.trim());
    !name.is_empty()
        && words.match_indices(name).any(|(at, _)| {
            let before = words[..at].trim_end();
            let after = words[at + name.len()..].trim_start();
            (before.is_empty() || before.ends_with(';'))
                && (after.is_empty() || after.starts_with(';'))
        })
}

#[cfg(test)]
mod tests {
    use super::names;

    #[test]
    fn a_part_is_named_by_its_whole_name_alone() {
        let words = "Sleeve 9.0; Valve 7.466; one; two";
        assert!(names(words, "Sleeve 9.0") && names(words, "Valve 7.466"));
        // A name may have a semicolon itself, and a part's name may begin another's.
        assert!(names(words, "one; two"));
        assert!(!names(words, "Sleeve 9") && !names(words, "alve 7.466") && !names(words, ""));
    }
}
