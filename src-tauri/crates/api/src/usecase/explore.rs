//! Trying a valve out: what it would do with other parts. Nothing is judged by it; a setting that
//! somebody keeps is a record of its own.

use diagnosis::explore::{self, reach};
use diagnosis::pressure::SealEvidence;
use model::job::Job;
use model::limits::{self, Check};
use model::unit::{Bore, BoreProfile, OpeningRole};
use model::what_if::WhatIf;
use model::{Finite, Id, Kind, Severity};
use store::Store;

use crate::dto::{
    ExploreField, ExploreFigure, ExploreStart, ExploreView, KeptSetting, Nothing, SealsFound,
    WhatIfKeep, WhatIfKept, WhatIfRemove,
};
use crate::error::{ApiError, ErrorCode};
use crate::journal_io::{body, by, id, kind_name, need, new_record, standing, subject};
use crate::usecase::audit::undo_state;
use crate::usecase::inspection::as_found;
use crate::{App, profiles, repairs};

/// A bore as it was found.
pub(crate) fn start(app: &App, args: ExploreStart) -> Result<ExploreView, ApiError> {
    let store = app.store()?;
    let (profile, seals, relief, job) = match args.job {
        Some(job) => {
            let of: Job = need(&store, subject(job), Kind::Job)?;
            let found = as_found(app, &store, job, args.bore)?;
            let relief = repairs::relief_to_add(&store, job, args.bore)?;
            (found.profile, found.seals, relief, Some(of.number))
        }
        None => (profiles::bore(&store, args.bore)?, None, None, None),
    };
    let found = seals.as_ref().map(SealsFound::try_from).transpose();
    Ok(ExploreView {
        bore: args.bore,
        bore_name: profile.bore.name.clone(),
        circuit_name: profile.circuit.name.clone(),
        unit_name: profile.unit.name.clone(),
        job_number: job,
        figures: figures(&profile, seals.as_ref()),
        has_exhaust: profile.opening(OpeningRole::Exhaust).is_some(),
        seals: found.map_err(ApiError::internal)?,
        relief,
        kept: kept(&store, args.bore)?,
        undo: undo_state(&store)?,
        profile,
    })
}

/// What can be set: the figures that the profile knows.
fn figures(profile: &BoreProfile, seals: Option<&SealEvidence>) -> Vec<ExploreFigure> {
    use ExploreField as F;
    let spring = profile.spring.as_ref();
    let orifice = profile.balance_orifice.as_ref();
    let now = |value: Option<Finite>| value.map(Finite::get);
    let unit = &profile.unit;
    // Oil may be as cold as a winter's morning and as hot as a hard tow.
    let warm = limits::Range {
        low: 253.15,
        high: 423.15,
    };
    let rows = [
        (
            F::ClearanceM,
            explore::clearance(profile, seals),
            limits::DIAMETRAL_CLEARANCE_M,
        ),
        (
            F::SpringLoadN,
            now(spring.and_then(|spring| spring.load_regulating_n)),
            limits::SPRING_LOAD_N,
        ),
        (
            F::SpringRateNPerM,
            now(spring.and_then(|spring| spring.rate_n_per_m)),
            limits::SPRING_RATE_N_PER_M,
        ),
        (
            F::OrificeM,
            now(orifice.map(|orifice| orifice.diameter_m)),
            limits::ORIFICE_M,
        ),
        (
            F::DemandM3S,
            now(profile.circuit.demand_m3_s),
            limits::FLOW_M3_S,
        ),
        (
            F::FrictionN,
            now(profile.bore.spool.friction_n),
            limits::FRICTION_N,
        ),
        (
            F::OilTemperatureK,
            Some(unit.hot_oil_temperature_k.get()),
            warm,
        ),
        (F::LinePa, now(unit.line_highest_pa), limits::PRESSURE_PA),
    ];
    rows.into_iter()
        .filter_map(|(field, now, range)| {
            let now = now?;
            let [low, high] = match field {
                // A temperature in kelvin isn't a share of anything.
                F::OilTemperatureK => [Finite::new(range.low)?, Finite::new(range.high)?],
                // A free spool may stick tomorrow.
                F::FrictionN => [Finite::ZERO, Finite::new((3.0 * now).max(10.0))?],
                _ => reach(now, range)?,
            };
            let now = Finite::new(now.clamp(*low, *high))?;
            Some(ExploreFigure {
                field,
                now,
                low,
                high,
            })
        })
        .collect()
}

fn kept(store: &Store, bore: Id) -> Result<Vec<KeptSetting>, ApiError> {
    let mut found = Vec::new();
    for of in store.children(subject(bore), &kind_name(Kind::WhatIf))? {
        let stands = standing(store, of, Kind::WhatIf)?;
        let Some(record) = stands.lead() else {
            continue;
        };
        if let Some(WhatIf { note, setting, .. }) = body::<WhatIf>(record) {
            found.push(KeptSetting {
                what_if: id(of),
                note,
                setting,
                by: by(store, record)?,
            });
        }
    }
    // Subjects are numbered as they are made.
    found.sort_by_key(|kept| kept.what_if);
    Ok(found)
}

/// Keeps a setting.
pub(crate) fn keep(app: &App, args: WhatIfKeep) -> Result<WhatIfKept, ApiError> {
    let mut store = app.store()?;
    need::<Bore>(&store, subject(args.bore), Kind::Bore)?;
    let findings = args.setting.findings();
    if findings.iter().any(|it| it.severity == Severity::Wrong) {
        return Ok(WhatIfKept {
            what_if: None,
            findings,
        });
    }
    let of = store.new_subject(app.now())?;
    let kept = WhatIf {
        bore: args.bore,
        note: args.note,
        setting: args.setting,
    };
    let record = new_record(&store, of, Kind::WhatIf, &kept)?;
    app.commit(&mut store, vec![record])?;
    Ok(WhatIfKept {
        what_if: Some(id(of)),
        findings,
    })
}

/// Takes a kept setting away; undo brings it back.
pub(crate) fn remove(app: &App, args: WhatIfRemove) -> Result<Nothing, ApiError> {
    let mut store = app.store()?;
    let of = subject(args.what_if);
    if standing(&store, of, Kind::WhatIf)?.lead().is_none() {
        return Err(ApiError::new(ErrorCode::NotFound).at("what_if"));
    }
    if store.is_removed(of)? != Some(true) {
        let removal = new_record(&store, of, Kind::Removal, &Nothing {})?;
        app.commit(&mut store, vec![removal])?;
    }
    Ok(crate::table::DONE)
}
