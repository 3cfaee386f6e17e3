//! One check, `rating <= protected_ampacity`, on every device of a table: our evaluation beside the cel crate's interpreter
//! and the hot virtual machine of regorus. Every contender has the same facts as 64-bit floats, held ready in the form that
//! suits it, is compiled and bound once, and brings the numbers of the devices that fail.

mod cel;
mod ours;
mod regorus;

use crate::Outcome;
use crate::pairs::{Effort, Who, pairs};
use crate::table::Table;
use std::time::{Duration, Instant};

const DEVICES: usize = 10_000;
/// One device in a hundred fails.
const FAILING_IN: usize = 100;
const CEL_GOAL: f64 = 1.0 / 20.0;
const REGORUS_GOAL: f64 = 1.0 / 10.0;
/// Our sweep over all devices takes microseconds: so many of them make a run long enough to be measured.
const OUR_SWEEPS: usize = 40;
const EFFORT: Effort = Effort { least: 30, most: 2_000, time: Duration::from_secs(10) };

/// The facts of one device.
#[derive(Clone, Copy)]
struct Device {
    /// In ampere.
    rating: f64,
    /// In ampere.
    protected_ampacity: f64,
}

/// The devices, the failing ones spread without a period that a processor could learn.
fn devices() -> Vec<Device> {
    (0..DEVICES)
        .map(|number| {
            let (hundred, within) = (number / FAILING_IN, number % FAILING_IN);
            let fails = within == hundred * hundred * 37 % FAILING_IN;
            let rating = 5.0 + 2.5 * ((number * 7) % 31) as f64;
            Device { rating, protected_ampacity: rating * if fails { 0.9 } else { 1.25 } }
        })
        .collect()
}

/// Something that checks every device and brings the numbers of those that fail.
trait Contender {
    fn name(&self) -> &'static str;
    fn failing(&mut self) -> Outcome<Vec<usize>>;
}

/// Measures ours against the fastest way of each library.
pub fn measure(table: &mut Table) -> Outcome<()> {
    let devices = devices();
    let expected: Vec<usize> = (0..).zip(&devices).filter_map(|(number, device)| fails(number, device)).collect();
    let mut ours = ours::Ours::new(&devices)?;
    agree(&mut ours, &expected)?;
    let cel: Vec<Box<dyn Contender>> = vec![
        Box::new(cel::Resolved::new(&devices)?),
        Box::new(cel::Custom::new(&devices)?),
        Box::new(cel::Mapped::new(&devices)?),
    ];
    let regorus: Vec<Box<dyn Contender>> = vec![Box::new(regorus::Machine::new(&devices)?)];
    for (library, goal, contenders) in [("cel", CEL_GOAL, cel), ("regorus", REGORUS_GOAL, regorus)] {
        let mut fastest: Option<(Duration, Box<dyn Contender>)> = None;
        for mut contender in contenders {
            agree(contender.as_mut(), &expected)?;
            let time = best_of_few(contender.as_mut())?;
            let nanoseconds = time.as_secs_f64() * 1e9 / DEVICES as f64;
            table.note(format!("{library}, {}: about {nanoseconds:.0} ns a check", contender.name()));
            if fastest.as_ref().is_none_or(|(best, _)| time < *best) {
                fastest = Some((time, contender));
            }
        }
        let (_, mut contender) = fastest.ok_or("no contender")?;
        // Both run as many sweeps, so that the ratio of their times is that of one check.
        let sweeps = |contender: &mut dyn Contender| -> Outcome<usize> {
            (0..OUR_SWEEPS).try_fold(0, |sum, _| Ok(sum + contender.failing()?.len()))
        };
        let pairs = pairs(EFFORT, Who::Own, || sweeps(&mut ours), || sweeps(contender.as_mut()))?;
        let what = format!("one check / {library} ({})", contender.name());
        table.add(&what, ("ours", library), &pairs, DEVICES * OUR_SWEEPS, Some(goal));
    }
    Ok(())
}

fn fails(number: usize, device: &Device) -> Option<usize> {
    (device.rating > device.protected_ampacity).then_some(number)
}

/// No measuring before the results are the same.
fn agree(contender: &mut dyn Contender, expected: &[usize]) -> Outcome<()> {
    let failing = contender.failing()?;
    if failing == expected {
        return Ok(());
    }
    Err(format!("{} finds {} devices that fail, not {}", contender.name(), failing.len(), expected.len()).into())
}

fn best_of_few(contender: &mut dyn Contender) -> Outcome<Duration> {
    const FEW: usize = 15;
    let mut best = Duration::MAX;
    for _ in 0..FEW {
        let start = Instant::now();
        std::hint::black_box(contender.failing()?);
        best = best.min(start.elapsed());
    }
    Ok(best)
}
