//! The shop's own list of parts.

use model::finding::{FindingCode, Severity};
use model::limits::Check;
use model::shop_part::ShopPart;
use model::unit::Bore;
use model::{Finding, Kind};

use crate::App;
use crate::dto::{Nothing, PartList, PartOnRecord, PartRecord, PartRecorded};
use crate::error::ApiError;
use crate::journal_io::{body, by, id, kind_name, lead, need, new_record, subject};
use crate::usecase::audit::undo_state;
use crate::usecase::job::changed;

/// All parts.
pub(crate) fn list(app: &App, _: Nothing) -> Result<PartList, ApiError> {
    let store = app.store()?;
    let mut parts = Vec::new();
    for (of, stands) in store.standing_of_kind(&kind_name(Kind::ShopPart))? {
        let Some(record) = stands.lead() else {
            continue;
        };
        let Some(part) = body::<ShopPart>(record) else {
            continue;
        };
        let bore: Option<Bore> = match part.bore {
            Some(bore) => lead(&store, subject(bore), Kind::Bore)?,
            None => None,
        };
        let mut findings = part.findings();
        if stands.concurrent {
            let code = FindingCode::ConcurrentEdit;
            findings.push(Finding::at(Severity::Doubt, code, ""));
        }
        parts.push(PartOnRecord {
            id: id(of),
            bore_name: bore.map(|bore| bore.name),
            by: by(&store, record)?,
            findings,
            part,
        });
    }
    parts.sort_by(|a, b| {
        let key = |on: &PartOnRecord| {
            let part = &on.part;
            (part.withdrawn, part.item.name(), part.name.clone(), on.id)
        };
        key(a).cmp(&key(b))
    });
    Ok(PartList {
        parts,
        undo: undo_state(&store)?,
    })
}

/// Records a part, or says what is odd about it.
pub(crate) fn record(app: &App, args: PartRecord) -> Result<PartRecorded, ApiError> {
    let mut store = app.store()?;
    let findings = args.part.findings();
    if let Some(bore) = args.part.bore {
        need::<Bore>(&store, subject(bore), Kind::Bore)?;
    }
    let wrong = findings
        .iter()
        .any(|finding| finding.severity == Severity::Wrong);
    if args.dry_run || wrong {
        return Ok(PartRecorded {
            saved: false,
            id: args.id,
            findings,
        });
    }
    let (of, record) = match args.id {
        Some(old) => {
            need::<ShopPart>(&store, subject(old), Kind::ShopPart)?;
            (
                old,
                changed(&store, subject(old), Kind::ShopPart, &args.part)?,
            )
        }
        None => {
            let new = store.new_subject(app.now())?;
            let record = new_record(&store, new, Kind::ShopPart, &args.part)?;
            (id(new), Some(record))
        }
    };
    if let Some(record) = record {
        app.commit(&mut store, vec![record])?;
    }
    Ok(PartRecorded {
        saved: true,
        id: Some(of),
        findings,
    })
}
