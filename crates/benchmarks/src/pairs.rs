//! Measuring in pairs: the two contenders take turns, and each pair of runs gives one ratio.

use crate::Outcome;
use std::hint::black_box;
use std::time::{Duration, Instant};

/// How long to measure.
#[derive(Clone, Copy)]
pub struct Effort {
    /// No fewer pairs than this, however long they take.
    pub least: usize,
    /// No more pairs than this.
    pub most: usize,
    /// No further pair begins after this time.
    pub time: Duration,
}

/// What one run took.
#[derive(Clone, Copy)]
struct Taken {
    clock: Duration,
    /// Processor time; nothing where the system does not tell it.
    processor: Option<Duration>,
}

/// Whose processor time a contender takes.
#[derive(Clone, Copy)]
pub enum Who {
    /// This process'.
    Own,
    /// That of processes which it starts and waits for.
    Children,
}

/// All pairs of two contenders.
pub struct Pairs {
    taken: Vec<(Taken, Taken)>,
}

/// A ratio over all pairs.
#[derive(Clone, Copy)]
pub struct Ratio {
    /// The middle one.
    pub median: f64,
    /// The smallest.
    pub least: f64,
    /// The largest.
    pub most: f64,
}

/// Lets two contenders take turns, once unmeasured and then as often as the effort allows. What a run brings is dropped
/// outside the measured time.
pub fn pairs<A, B>(
    effort: Effort,
    who: Who,
    mut first: impl FnMut() -> Outcome<A>,
    mut second: impl FnMut() -> Outcome<B>,
) -> Outcome<Pairs> {
    first()?;
    second()?;
    pairs_at_once(effort, who, first, second)
}

/// As [`pairs`], without the runs that are not measured: for contenders that were warmed in another way and run long.
pub fn pairs_at_once<A, B>(
    effort: Effort,
    who: Who,
    mut first: impl FnMut() -> Outcome<A>,
    mut second: impl FnMut() -> Outcome<B>,
) -> Outcome<Pairs> {
    let started = Instant::now();
    let mut taken = Vec::new();
    while taken.len() < effort.least || (taken.len() < effort.most && started.elapsed() < effort.time) {
        taken.push((timed(who, &mut first)?, timed(who, &mut second)?));
    }
    Ok(Pairs { taken })
}

fn timed<T>(who: Who, run: &mut impl FnMut() -> Outcome<T>) -> Outcome<Taken> {
    let processor_before = processor_time(who);
    let start = Instant::now();
    let result = black_box(run()?);
    let clock = start.elapsed();
    let processor = processor_time(who).zip(processor_before).map(|(after, before)| after.saturating_sub(before));
    drop(result);
    Ok(Taken { clock, processor })
}

#[cfg(unix)]
fn processor_time(who: Who) -> Option<Duration> {
    use nix::sys::resource::{UsageWho, getrusage};
    use nix::sys::time::TimeVal;
    let usage = getrusage(match who {
        Who::Own => UsageWho::RUSAGE_SELF,
        Who::Children => UsageWho::RUSAGE_CHILDREN,
    })
    .ok()?;
    let duration = |time: TimeVal| {
        let whole = u64::try_from(time.tv_sec()).ok()?;
        Some(Duration::from_secs(whole) + Duration::from_micros(u64::try_from(time.tv_usec()).ok()?))
    };
    Some(duration(usage.user_time())? + duration(usage.system_time())?)
}

#[cfg(not(unix))]
fn processor_time(_: Who) -> Option<Duration> {
    None
}

impl Pairs {
    /// How many there are.
    pub fn count(&self) -> usize {
        self.taken.len()
    }

    /// First over second, by the clock.
    pub fn by_clock(&self) -> Ratio {
        ratio(self.taken.iter().map(|(first, second)| first.clock.as_secs_f64() / second.clock.as_secs_f64()))
    }

    /// First over second, by processor time.
    pub fn by_processor(&self) -> Option<Ratio> {
        let both: Option<Vec<f64>> = self
            .taken
            .iter()
            .map(|(first, second)| {
                let second = second.processor.filter(|second| !second.is_zero())?;
                Some(first.processor?.as_secs_f64() / second.as_secs_f64())
            })
            .collect();
        both.map(|ratios| ratio(ratios.into_iter()))
    }

    /// The cores that each kept busy in the median: processor time over the clock.
    pub fn busy(&self) -> Option<(f64, f64)> {
        let busy = |taken: Taken| Some(taken.processor?.as_secs_f64() / taken.clock.as_secs_f64());
        let first: Option<Vec<f64>> = self.taken.iter().map(|pair| busy(pair.0)).collect();
        let second: Option<Vec<f64>> = self.taken.iter().map(|pair| busy(pair.1)).collect();
        Some((ratio(first?.into_iter()).median, ratio(second?.into_iter()).median))
    }

    /// The median time of each, in seconds of processor time where it is told, else by the clock.
    pub fn seconds(&self) -> (f64, f64) {
        let time = |taken: Taken| taken.processor.unwrap_or(taken.clock).as_secs_f64();
        (
            ratio(self.taken.iter().map(|pair| time(pair.0))).median,
            ratio(self.taken.iter().map(|pair| time(pair.1))).median,
        )
    }
}

fn ratio(ratios: impl Iterator<Item = f64>) -> Ratio {
    let mut ratios: Vec<f64> = ratios.collect();
    ratios.sort_by(f64::total_cmp);
    let at = |index: usize| ratios.get(index).copied().unwrap_or(f64::NAN);
    let count = ratios.len();
    Ratio {
        median: (at(count.saturating_sub(1) / 2) + at(count / 2)) / 2.0,
        least: at(0),
        most: at(count.saturating_sub(1)),
    }
}
