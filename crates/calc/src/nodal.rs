//! The solved direct-current network: the voltage at every node and the current in every element, in the steady state.
//!
//! **Model.** Elements join two nodes; the chassis is a node like any other, its bonds are conductors. [`Part`] lists what an element can be.
//! Voltages are told against a reference of each island. An island that no source feeds is dead, and says so.
//!
//! **Method.** Kirchhoff's current law at every node, solved by Newton's method on a sparse Cholesky factorisation.
//! * Conductors, one-way elements and sources with a limit have a current that rises with the voltage across them, so together they have
//!   exactly one solution (the least of a convex function, which the line search goes down).
//! * A constant power has up to two solutions; the upper one is stable and is wanted. Newton's method starts at the voltages without
//!   such loads, which are above it, and comes down to it. Where the matrix stops being positive definite on the way and no step helps,
//!   or a load's voltage falls away, there is no solution: a load behind E and R can have no more than E²/(4R).
//! * Every iteration is counted and bounded. What does not settle is an error, never a number.
//!
//! **Loads that cannot run.** Where all constant-power loads cannot run together, the first ones of the list run, and each that no longer
//! fits is left off and told with the most that it could have. A load below its least voltage is left off, the worst first.

mod cholesky;
mod fault;
mod input;
mod joints;
mod laws;
mod newton;
mod result;
mod sharing;
mod solve;
mod system;

pub use fault::{NodeFault, largest_fault, smallest_fault};
pub use input::{Element, InputFault, Load, Network, Part, SolveError};
pub use result::{ElementState, NodeState, Solution, Standing};
pub use sharing::{ParallelBattery, battery_sharing};

/// A resistance of this or less is a joint: its ends are one node, Ω. Chosen: 1,000 A move it by 0.1 mV.
pub const JOINT_OHMS: f64 = 1e-7;

/// The least resistance of a source or of a one-way element, Ω. Chosen: a hundredth of a strong battery's.
pub const LEAST_INNER_OHMS: f64 = 1e-6;

/// Numbers above this are refused: no vehicle has them, and they drown the others. Chosen.
pub const LARGEST_NUMBER: f64 = 1e9;
