//! The solved direct-current network: how the time of one conductor grows with the size of the mesh.

use crate::Outcome;
use crate::pairs::{Effort, Who, pairs};
use crate::table::Table;
use calc::nodal::{Load, Network, Part, Standing};
use std::time::Duration;

/// Conductors of the smallest mesh: the others are told against it.
const SMALLEST: usize = 100;
/// Conductors, and how long to measure them.
const SIZES: [(usize, Effort); 3] = [
    (1_000, Effort { least: 15, most: 200, time: Duration::from_secs(5) }),
    (10_000, Effort { least: 7, most: 60, time: Duration::from_secs(10) }),
    (100_000, Effort { least: 5, most: 15, time: Duration::from_secs(40) }),
];
/// Rungs across a narrow mesh: a vehicle's wiring is long and has few ways round.
const NARROW: usize = 4;
/// Runs of the smallest mesh that are measured as one, so that the clock is fine enough.
const TOGETHER: usize = 20;

/// Measures square and narrow meshes.
pub fn measure(table: &mut Table) -> Outcome<()> {
    for (shape, is_square) in [("square mesh", true), ("narrow mesh", false)] {
        let small = mesh(SMALLEST, is_square);
        for (conductors, effort) in SIZES {
            let large = mesh(conductors, is_square);
            let count = conductors_of(&large);
            let solution = large.solve().map_err(|fault| format!("{fault:?}"))?;
            if solution.elements().iter().any(|one| one.standing != Standing::Normal) {
                return Err(format!("not every load of the {shape} of {count} conductors runs").into());
            }
            let pairs = pairs(
                effort,
                Who::Own,
                || large.solve().map_err(|fault| format!("{fault:?}").into()),
                || {
                    for _ in 1..TOGETHER {
                        std::hint::black_box(small.solve().map_err(|fault| format!("{fault:?}"))?);
                    }
                    small.solve().map_err(|fault| format!("{fault:?}").into())
                },
            )?;
            let (ours, base) = pairs.seconds();
            let per_conductor = ours / count as f64 / (base / (TOGETHER * conductors_of(&small)) as f64);
            table.note(format!(
                "{shape} of {count} conductors: {per_conductor:.2} times the time per conductor of {} conductors, {} steps",
                conductors_of(&small),
                solution.iterations
            ));
        }
    }
    Ok(())
}

fn conductors_of(network: &Network) -> usize {
    network.elements.iter().filter(|element| matches!(element.part, Part::Conductor { .. })).count()
}

/// A mesh of about so many conductors, two batteries at its corners, and a load at every tenth node: in turn of constant resistance, current
/// and power, so small that they run.
fn mesh(conductors: usize, is_square: bool) -> Network {
    let across = if is_square { ((conductors / 2) as f64).sqrt().ceil() as usize } else { NARROW };
    let along = if is_square { across } else { conductors.div_ceil(2 * NARROW - 1) };
    let node = |row: usize, column: usize| u32::try_from(1 + row * across + column).unwrap_or(u32::MAX);
    let mut network = Network { reference: Some(0), ..Network::default() };
    let battery = |volts| Part::Source { volts, ohms: 0.003, limit: None, gives_only: false };
    network.add(node(0, 0), 0, battery(12.8));
    network.add(node(along - 1, across - 1), 0, battery(12.7));
    // The whole of the loads stays what the two batteries can carry.
    let share = 100.0 / (along * across) as f64;
    let ohms = |number: usize| 1e-4 * (1 + number % 7) as f64 * share;
    for row in 0..along {
        for column in 0..across {
            let here = node(row, column);
            let number = row * across + column;
            if column + 1 < across {
                network.add(here, node(row, column + 1), Part::Conductor { ohms: ohms(number) });
            }
            if row + 1 < along {
                network.add(here, node(row + 1, column), Part::Conductor { ohms: ohms(3 * number + 1) });
            }
            if number % 10 == 5 {
                let load = match number / 10 % 3 {
                    0 => Load::Resistance(6.0 / share),
                    1 => Load::Current(2.0 * share),
                    _ => Load::Power(25.0 * share),
                };
                network.add(here, 0, Part::Load { load, least_volts: 9.0 });
            }
        }
    }
    network
}
