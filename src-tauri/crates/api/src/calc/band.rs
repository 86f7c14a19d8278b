//! The regulated pressure with all that is unknown drawn together, and what makes it uncertain.

use diagnosis::pressure::SealEvidence;
use diagnosis::pressure::monte_carlo::{SEED, SampledValve, Spreads};
use metrology::monte_carlo::Plan;

use super::valve;
use crate::App;
use crate::dto::{BandInput, BandShare, FeedBandAnswer, FeedBandArgs};
use crate::error::{ApiError, ErrorCode, finite};
use crate::tasks::Watch;

/// The most trials of a band or of a Monte Carlo run.
pub(super) const MOST_TRIALS: u32 = 200_000;
/// The most trials of a ranking.
pub(super) const MOST_SHARE_TRIALS: u32 = 20_000;
/// Calculations that a trial of the band's ranking takes.
const SHARE_COST: usize = 15;

/// The seed of all runs that name none.
pub(super) fn seed(told: Option<u32>) -> u32 {
    told.unwrap_or_else(|| u32::try_from(SEED).unwrap_or(0))
}

/// The trials of a ranking; none: it isn't asked for.
pub(super) fn share_trials(told: Option<u32>, otherwise: u32) -> Result<Option<u32>, ApiError> {
    if told == Some(0) {
        return Ok(None);
    }
    let bounds = (100, MOST_SHARE_TRIALS);
    valve::count("share_trials", told, otherwise, bounds).map(Some)
}

/// The band at one line pressure.
pub(crate) fn band(_: &App, args: FeedBandArgs) -> Result<FeedBandAnswer, ApiError> {
    drawn(&args, &Watch::default())
}

/// As [`band`], given up when the watch says so.
pub(crate) fn drawn(args: &FeedBandArgs, watch: &Watch) -> Result<FeedBandAnswer, ApiError> {
    let trials = valve::count("trials", args.trials, 10_000, (100, MOST_TRIALS))?;
    let share_trials = share_trials(args.share_trials, 1_000)?;
    valve::sound(&args.profile)?;
    positive(args)?;
    let seed = seed(args.seed);
    let blank = args.blank_share.map_or(0.0, model::Finite::get);
    if !(0.0..=0.9).contains(&blank) {
        return Err(ApiError::new(ErrorCode::OutOfRange)
            .at("blank_share")
            .with("low", 0)
            .with("high", 0.9));
    }
    let ranking = share_trials.map_or(0, |n| n as usize * SHARE_COST);
    watch.expect(trials as usize + ranking);
    let sampled = SampledValve::new(
        &args.profile,
        &SealEvidence::from(args.seals.clone()),
        *args.oil_temperature_k,
        &Spreads::default().with_blank(blank),
    )?;
    let plan = Plan::fixed(u64::from(seed), trials as usize);
    let go_on = || watch.step();
    let band = sampled.feed_band_while(*args.line_pa, &plan, &go_on)?;
    let mut shares = Vec::new();
    if let Some(trials) = share_trials {
        let found =
            sampled.feed_shares_while(*args.line_pa, u64::from(seed), trials as usize, &go_on)?;
        for share in &found.shares {
            shares.push(BandShare {
                input: input(share.name)?,
                alone: finite(share.alone)?,
                total: finite(share.total)?,
                alone_error: finite(share.alone_error)?,
                total_error: finite(share.total_error)?,
            });
        }
    }
    Ok(FeedBandAnswer {
        line_pa: band.line_pa,
        feed_pa: band.feed_pa,
        shortest_pa: band.shortest_pa,
        mean_pa: band.mean_pa,
        deviation_pa: band.deviation_pa,
        skewness: band.skewness,
        regulating_share: band.regulating_share,
        failed_share: band.failed_share,
        shares,
        trials,
        seed,
    })
}

/// Clearances are above nothing, and rise from low to high.
fn positive(args: &FeedBandArgs) -> Result<(), ApiError> {
    let lists = [
        ("centred_m", args.seals.centred_m),
        ("off_centre_m", args.seals.off_centre_m),
    ];
    for (field, [low, likely, high]) in lists {
        if !(*low > 0.0 && low.get() <= likely.get() && likely.get() <= high.get()) {
            return Err(ApiError::new(ErrorCode::OutOfRange)
                .at(field)
                .with("detail", "above 0, and low, likely, high in this order"));
        }
    }
    Ok(())
}

/// An unknown by its name in the diagnosis.
fn input(name: &str) -> Result<BandInput, ApiError> {
    serde_json::from_value(name.into()).map_err(ApiError::internal)
}
