//! A design week in quarter hours: what the loads take, what the sources bring, and what the battery holds of it.
//!
//! **Model.** The battery is a store of energy, its state the share of the rated capacity that it holds. Sources serve the loads first, in
//! the order in which they are listed; what they have left goes into the battery as far as it takes it, what they lack comes out of it.
//!
//! * Out: power ÷ efficiency of discharge, and for currents above that of the rating Peukert's law, normalised to the rated time. A
//!   current below the rating's gains nothing. The mean current of a quarter hour counts: short peaks lose more than is reckoned here.
//! * In: at most the battery's own charging limit; from the state where the taper begins the accepted current falls in proportion to what
//!   is missing (the end of a charge at constant voltage), solved exactly within each step. No charging outside the chemistry's
//!   temperatures.
//! * The part of the capacity that is not to be used, and what the cold takes away, lie at the bottom: at that state the loads are cut,
//!   and stay off until the battery is back at the reconnection level.
//! * The loads are the same every day; sources may differ from day to day of the week.
//!
//! **Unknown entries.** An entry that is `None` or [`Limit::Unknown`] is never guessed. Where a bound follows without it (no sun at
//! worst; a load that never runs at best), both ends are reckoned; where none follows, the outcome names the entries. The ends bound the
//! least energy left and the autonomy; hours unserved only without a reconnection level, since a battery that is cut earlier may come
//! back earlier.
//!
//! Not in the model: self-discharge, ageing, the voltage at any moment, the warming of the battery by its own use, and loads that start
//! sources.

mod assumed;
mod autonomy;
mod entries;
mod outcome;
mod picker;
mod profile;
mod recharge;
mod run;
mod settle;
mod settle_sources;
mod store;

pub use assumed::{AssumedCharge, CHARGING_TEMPERATURE, RECHARGED, assumed_charge, charging_allowed};
pub use entries::{
    Battery, Driving, Entries, Inverter, Limit, Link, Load, Mains, MainsKind, Peukert, Source, Sun, Supply,
};
pub use outcome::{
    Cause, Deciding, Entry, Lasting, Outcome, Reason, Recharge, Report, SourceEntry, SourceUse, Unusable,
};
pub use profile::{DAYS, DayProfile, STEP_SECONDS, STEPS, STEPS_PER_DAY, WeekProfile};

/// Works out a design week.
///
/// # Errors
///
/// An entry that is not a usable number (not finite, below zero, outside its range), with its name.
pub fn simulate(entries: &Entries) -> Result<Outcome, Unusable> {
    let (worst, missing) = settle::settle(entries, picker::Side::Worst)?;
    if missing.is_empty() {
        // Nothing was left to be picked, so both sides are the same.
        return Ok(worst.map_or(Outcome::CannotTell(missing), |settled| Outcome::Told(Box::new(report(&settled)))));
    }
    let (best, _) = settle::settle(entries, picker::Side::Best)?;
    let [at_worst, at_best] = [worst, best].map(|side| side.map(|settled| Box::new(report(&settled))));
    if at_worst.is_none() && at_best.is_none() {
        return Ok(Outcome::CannotTell(missing));
    }
    Ok(Outcome::Between { at_worst, at_best, missing })
}

/// The whole report of settled entries.
fn report(settled: &settle::Settled) -> Report {
    let mut report = run::run(settled);
    report.autonomy = autonomy::autonomy(settled);
    report.deciding = autonomy::deciding(settled, report.autonomy);
    report.recharge = recharge::recharge(settled);
    report
}
